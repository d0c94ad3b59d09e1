/* stage.c: the view: what is drawn, when, and from where.
 *
 * A GtkGLArea draws bodies and lines, a transparent drawing area above it labels and marks, both of
 * the same draw list and camera. Nothing is drawn unless something has changed. While one moves
 * and the processor does the drawing, edges are not smoothed; a moment after the motion has ended
 * the picture is drawn once more as it should be. */
#include "stage-private.h"

#include "desk-words.h"
#include "overlay.h"
#include "room-turns.h"
#include "view-words.h"
#include "window-words.h"

#define STILL_AFTER_MS 180
#define SAMPLES 4
#define LONGEST_NAME 36
#define HEIGHT_OF_LETTERS                                                                          \
  450.0 /* of a view that is presented and has letters of the usual size                           \
         */
/* After a plan has begun to be read: by then the window is there. */
#define EARLY_MS 100
#define TRANSITION_US 260000

G_DEFINE_FINAL_TYPE (DeskStage, desk_stage, ADW_TYPE_BIN)

RenderSize
desk_stage_size (DeskStage *stage)
{
  return (RenderSize){ MAX (gtk_widget_get_width (stage->area), 1),
                       MAX (gtk_widget_get_height (stage->area), 1) };
}

TrnBox
desk_stage_extent (DeskStage *stage)
{
  const TrnLiftRun *run = desk_session_get_lift_run (stage->session);
  if (run == NULL)
    return trn_box_empty ();
  return render_site_extent (desk_session_get_site (stage->session)->display,
                             desk_session_get_run (stage->session));
}

/* ---- the draw list ---- */

/* The standard view in whose direction one looks, as a word; "": none of them. */
static const char *
view_word (const RenderCamera *camera)
{
  for (int i = RENDER_VIEW_PLAN; i <= RENDER_VIEW_SOLID; i++)
    {
      RenderCamera other = *camera;
      render_camera_set_standard (&other, i);
      if (fabs (remainder (other.heading_rad - camera->heading_rad, 2 * G_PI)) < 1e-9
          && fabs (other.pitch_rad - camera->pitch_rad) < 1e-9)
        return render_standard_view_name (i);
    }
  return "";
}

/* What is selected has its name at it, so that it is found where it is small, far or hidden; the
 * gap of the finding that is looked at has it already. */
static void
add_selected (DeskStage *stage)
{
  const char *selected = desk_session_get_selected (stage->session);
  const TrnFinding *finding = desk_session_get_finding (stage->session);
  if (selected == NULL || stage->is_bare
      || (finding != NULL && g_strcmp0 (finding->obstacle, selected) == 0))
    return;
  const TrnPlan *plan = desk_session_get_site (stage->session)->plan;
  guint load = desk_session_get_lift_run (stage->session)->lift->component;
  for (guint i = 0; i < stage->list->bodies->len; i++)
    {
      const RenderBody *body = &g_array_index (stage->list->bodies, RenderBody, i);
      if (!body->selected)
        continue;
      gboolean is_load = body->role == RENDER_ROLE_LOAD;
      g_autofree char *name
          = is_load ? trn_words_load_name (plan, load) : trn_words_body_name (plan, selected);
      g_autofree char *clean = trn_words_clean (name, LONGEST_NAME);
      render_draw_list_add_label (stage->list, clean,
                                  trn_pose_apply (&body->site_from_mesh, body->mesh->centre),
                                  RENDER_STATE_NONE, FALSE);
    }
}

static void
make_list (DeskStage *stage)
{
  RenderSiteState state = desk_session_view_state (stage->session);
  stage->told_view = view_word (&stage->camera);
  stage->told_parallel = stage->camera.parallel;
  g_autofree char *seen = trn_words_caption (desk_session_get_time (stage->session),
                                             stage->told_view, stage->told_parallel);
  guint n_left_out = desk_session_get_site (stage->session)->scene->n_left_out;
  g_autofree char *left_out = n_left_out > 0 ? trn_words_left_out_short (n_left_out) : NULL;
  g_autofree char *caption = trn_words_join (seen, left_out, NULL);
  state.caption = caption;
  stage->list = render_site_view (desk_session_get_site (stage->session)->display, &state);
  add_selected (stage);
  desk_stage_measure_add (stage, stage->list);
}

/* The caption speaks of the camera; nothing else in the list does. */
static gboolean
is_caption_old (DeskStage *stage)
{
  return stage->told_view != view_word (&stage->camera)
         || stage->told_parallel != stage->camera.parallel;
}

const RenderDrawList *
desk_stage_list (DeskStage *stage)
{
  if (stage->list != NULL && is_caption_old (stage))
    g_clear_pointer (&stage->list, render_draw_list_free);
  if (stage->list == NULL && desk_session_get_lift_run (stage->session) != NULL)
    make_list (stage);
  return stage->list;
}

const DeskProbe *
desk_stage_probe (DeskStage *stage)
{
  if (stage->probe == NULL && desk_session_get_lift_run (stage->session) != NULL)
    {
      RenderSiteState state = desk_session_view_state (stage->session);
      stage->probe = desk_probe_new (desk_session_get_site (stage->session)->display, state.run,
                                     state.time_s, state.visibility, state.section);
    }
  return stage->probe;
}

static void
forget_list (DeskStage *stage)
{
  g_clear_pointer (&stage->list, render_draw_list_free);
  g_clear_pointer (&stage->probe, desk_probe_free);
}

/* ---- when it is drawn ---- */

void
desk_stage_redraw (DeskStage *stage, gboolean list_too)
{
  if (list_too)
    forget_list (stage);
  gtk_gl_area_queue_render (GTK_GL_AREA (stage->area));
  gtk_widget_queue_draw (stage->marks);
}

static gboolean
on_still (gpointer data)
{
  DeskStage *stage = data;
  stage->still_id = 0;
  stage->moving = FALSE;
  desk_stage_redraw (stage, FALSE);
  return G_SOURCE_REMOVE;
}

void
desk_stage_redraw_moving (DeskStage *stage, gboolean list_too)
{
  stage->moving = TRUE;
  g_clear_handle_id (&stage->still_id, g_source_remove);
  stage->still_id = g_timeout_add (STILL_AFTER_MS, on_still, stage);
  desk_stage_redraw (stage, list_too);
}

/* ---- OpenGL ---- */

static void
show_no_opengl (DeskStage *stage, const GError *error)
{
  g_debug ("no OpenGL: %s", error->message);
  stage->has_no_opengl = TRUE;
  desk_page_show (stage->pages, "no-opengl");
}

/* One piece of making it ready; FALSE when there is nothing more to do. */
static gboolean
go_on_with_renderer (DeskStage *stage)
{
  g_autoptr (GError) error = NULL;
  gboolean is_done = FALSE, is_well;
  if (stage->renderer == NULL)
    {
      stage->renderer = render_renderer_begin (&error);
      is_well = stage->renderer != NULL;
    }
  else
    is_well = render_renderer_go_on (stage->renderer, &is_done, &error);
  if (is_well)
    return !is_done;
  g_clear_pointer (&stage->renderer, render_renderer_free);
  show_no_opengl (stage, error);
  return FALSE;
}

/* Whether it can draw now, however long that takes. */
static gboolean
finish_renderer (DeskStage *stage)
{
  g_clear_handle_id (&stage->ready_id, g_source_remove);
  while (!stage->has_no_opengl && go_on_with_renderer (stage))
    ;
  return stage->renderer != NULL;
}

static gboolean
on_ready_turn (gpointer data)
{
  DeskStage *stage = data;
  GtkGLArea *area = GTK_GL_AREA (stage->area);
  gboolean is_current = gdk_gl_context_get_current () == gtk_gl_area_get_context (area);
  gtk_gl_area_make_current (area);
  /* At first that alone takes a turn. */
  if (stage->renderer == NULL && !is_current)
    return G_SOURCE_CONTINUE;
  if (go_on_with_renderer (stage))
    return G_SOURCE_CONTINUE;
  stage->ready_id = 0;
  return G_SOURCE_REMOVE;
}

static void
on_realize (GtkGLArea *area, DeskStage *stage)
{
  /* Even making its context the current one takes its time at first: that is for the next turn. */
  if (gtk_gl_area_get_error (area) != NULL)
    show_no_opengl (stage, gtk_gl_area_get_error (area));
  else
    stage->ready_id = g_idle_add (on_ready_turn, stage);
}

static void
on_unrealize (GtkGLArea *area, DeskStage *stage)
{
  g_clear_handle_id (&stage->ready_id, g_source_remove);
  if (stage->renderer == NULL)
    return;
  gtk_gl_area_make_current (area);
  g_clear_pointer (&stage->renderer, render_renderer_free);
}

static void
show_site_first (DeskStage *stage)
{
  if (stage->has_camera || desk_session_get_lift_run (stage->session) == NULL)
    return;
  TrnBox extent = desk_stage_extent (stage);
  gboolean parallel = stage->camera.parallel;
  stage->camera = render_camera_make (&extent, desk_stage_size (stage));
  stage->camera.parallel = parallel;
  render_camera_fit (&stage->camera, desk_stage_size (stage), &extent);
  stage->has_camera = TRUE;
  desk_stage_look_first (stage);
  g_clear_pointer (&stage->list, render_draw_list_free);
}

static gboolean
on_render (GtkGLArea *area, GdkGLContext *context, DeskStage *stage)
{
  if (!finish_renderer (stage))
    return FALSE;
  show_site_first (stage);
  gboolean coarse = stage->moving && render_renderer_is_software (stage->renderer);
  DeskSite *site = desk_session_get_site (stage->session);
  RenderTarget target
      = { .size = desk_stage_size (stage),
          .scale = gtk_widget_get_scale_factor (GTK_WIDGET (area)),
          .most_triangles = coarse && site != NULL ? site->display->most_triangles : 0,
          .samples = coarse ? 0 : SAMPLES };
  const RenderDrawList *list = desk_stage_list (stage);
  g_autoptr (RenderDrawList) nothing = NULL;
  if (list == NULL)
    {
      nothing = render_draw_list_new ();
      nothing->dark = desk_session_get_dark (stage->session);
    }
  desk_session_set_sight (stage->session, stage->camera.heading_rad);
  render_renderer_draw (stage->renderer, list != NULL ? list : nothing, &stage->camera, &target);
  return TRUE;
}

/* How far down from the top the buttons or the hint lie over the view. */
static double
covered_px (DeskStage *stage)
{
  double covered = 0;
  GtkWidget *const over[] = { stage->bar, stage->hint };
  for (guint i = 0; i < G_N_ELEMENTS (over); i++)
    {
      graphene_rect_t bounds;
      if (over[i] != NULL && gtk_widget_get_mapped (over[i])
          && gtk_widget_compute_bounds (over[i], stage->marks, &bounds))
        covered = MAX (covered, bounds.origin.y + bounds.size.height);
    }
  return covered;
}

static void
on_draw_marks (GtkDrawingArea *marks, cairo_t *cr, int width, int height, gpointer data)
{
  DeskStage *stage = data;
  show_site_first (stage);
  const RenderDrawList *list = desk_stage_list (stage);
  if (list == NULL)
    return;
  /* What is presented is read from far away. */
  RenderSize size = desk_stage_size (stage);
  double letters = stage->is_bare ? CLAMP (size.height / HEIGHT_OF_LETTERS, 1, 4) : 1;
  cairo_save (cr);
  cairo_scale (cr, letters, letters);
  render_overlay_draw (cr, list, &stage->camera,
                       (RenderSize){ size.width / letters, size.height / letters },
                       covered_px (stage) / letters);
  cairo_restore (cr);
  desk_stage_measure_draw (stage, cr);
}

const char *
desk_stage_pick (DeskStage *stage, double x, double y)
{
  const RenderDrawList *list = desk_stage_list (stage);
  if (list == NULL || stage->renderer == NULL)
    return NULL;
  TrnVec3 point;
  gtk_gl_area_make_current (GTK_GL_AREA (stage->area));
  if (!finish_renderer (stage))
    return NULL;
  guint32 id = render_renderer_pick (stage->renderer, list, &stage->camera, desk_stage_size (stage),
                                     x, y, &point);
  return id == 0 ? NULL : render_site_body_id (desk_session_get_site (stage->session)->display, id);
}

TrnVec3
desk_stage_point_under (DeskStage *stage, double x, double y)
{
  const DeskProbe *probe = desk_stage_probe (stage);
  if (probe == NULL)
    return stage->camera.target;
  RenderSize size = desk_stage_size (stage);
  DeskHit hit = desk_probe_screen (probe, &stage->camera, size, x, y, 0);
  if (hit.on != DESK_ON_NOTHING)
    return hit.point;
  /* Nothing there: at the depth of the middle of it all. */
  TrnBox extent = desk_stage_extent (stage);
  TrnVec3 centre = trn_box_centre (&extent), origin, direction, forward, right, up;
  render_camera_axes (&stage->camera, &forward, &right, &up);
  render_camera_ray (&stage->camera, size, x, y, &origin, &direction);
  double depth_m = trn_vec3_dot (trn_vec3_sub (centre, origin), forward);
  if (!stage->camera.parallel && depth_m <= 0)
    depth_m = stage->camera.distance_m;
  return trn_vec3_add_scaled (origin, direction, depth_m / trn_vec3_dot (direction, forward));
}

/* ---- camera ---- */

static RenderCamera
mix_cameras (const RenderCamera *a, const RenderCamera *b, double t)
{
  RenderCamera mix = *b;
  mix.target = trn_vec3_mix (a->target, b->target, t);
  mix.distance_m = a->distance_m * pow (b->distance_m / a->distance_m, t);
  double turn = remainder (b->heading_rad - a->heading_rad, 2 * G_PI);
  mix.heading_rad = a->heading_rad + t * turn;
  mix.pitch_rad = a->pitch_rad + t * (b->pitch_rad - a->pitch_rad);
  return mix;
}

static gboolean
on_tick (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  DeskStage *stage = data;
  double t = (double)(gdk_frame_clock_get_frame_time (clock) - stage->begins_us) / TRANSITION_US;
  gboolean is_done = t >= 1;
  double slow = t * t * (3 - 2 * t);
  stage->camera = is_done ? stage->to : mix_cameras (&stage->from, &stage->to, MAX (slow, 0));
  if (is_done)
    stage->tick_id = 0;
  desk_stage_redraw_moving (stage, FALSE);
  return is_done ? G_SOURCE_REMOVE : G_SOURCE_CONTINUE;
}

static void
stop_transition (DeskStage *stage)
{
  if (stage->tick_id != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (stage), stage->tick_id);
  stage->tick_id = 0;
  desk_stage_stop_drift (stage);
}

void
desk_stage_go (DeskStage *stage, RenderCamera to)
{
  stop_transition (stage);
  stage->is_close = FALSE;
  gboolean animated = FALSE;
  g_object_get (gtk_widget_get_settings (GTK_WIDGET (stage)), "gtk-enable-animations", &animated,
                NULL);
  GdkFrameClock *clock = gtk_widget_get_frame_clock (GTK_WIDGET (stage));
  if (!animated || clock == NULL || !stage->has_camera)
    {
      stage->camera = to;
      desk_stage_redraw_moving (stage, FALSE);
      return;
    }
  stage->from = stage->camera;
  stage->to = to;
  stage->begins_us = gdk_frame_clock_get_frame_time (clock);
  stage->tick_id = gtk_widget_add_tick_callback (GTK_WIDGET (stage), on_tick, stage, NULL);
}

RenderCamera
desk_stage_get_camera (GtkWidget *widget)
{
  DeskStage *stage = DESK_STAGE (widget);
  show_site_first (stage);
  return stage->tick_id != 0 ? stage->to : stage->camera;
}

void
desk_stage_set_camera (GtkWidget *widget, RenderCamera camera)
{
  DeskStage *stage = DESK_STAGE (widget);
  stop_transition (stage);
  stage->camera = camera;
  stage->has_camera = TRUE;
  stage->is_close = FALSE;
  desk_stage_tell_state (stage, "parallel", camera.parallel);
  desk_stage_redraw_moving (stage, FALSE);
}

guint
desk_stage_get_n_measures (GtkWidget *widget)
{
  return DESK_STAGE (widget)->measures->len;
}

void
desk_stage_set_bare (GtkWidget *widget, gboolean bare)
{
  DESK_STAGE (widget)->is_bare = bare;
  gtk_widget_set_visible (DESK_STAGE (widget)->bar, !bare);
}

GtkWidget *
desk_stage_get_bar (GtkWidget *widget)
{
  return DESK_STAGE (widget)->bar;
}

/* ---- following the session ---- */

/* A plan without a lift has nothing to be drawn: that is said in words. */
static void
choose_page (DeskStage *stage)
{
  const char *page = gtk_stack_get_visible_child_name (stage->pages);
  gboolean is_missing = desk_session_get_site (stage->session) != NULL
                        && desk_session_get_lift_run (stage->session) == NULL;
  if (is_missing)
    desk_page_show (stage->pages, "no-lift");
  else if (strcmp (page, "no-lift") == 0)
    desk_page_show (stage->pages, stage->has_no_opengl ? "no-opengl" : "view");
}

/* OpenGL takes some time to begin with: while a plan is read there is enough of it. */
static gboolean
on_early (gpointer data)
{
  DeskStage *stage = data;
  GtkNative *native = gtk_widget_get_native (stage->area);
  stage->early_id = 0;
  if (native != NULL && gtk_widget_get_mapped (GTK_WIDGET (native)))
    gtk_widget_realize (stage->area);
  return G_SOURCE_REMOVE;
}

static void
on_document_changed (DeskStage *stage)
{
  if (stage->early_id == 0 && !gtk_widget_get_realized (stage->area))
    stage->early_id = g_timeout_add (EARLY_MS, on_early, stage);
}

static void
on_site_changed (DeskSession *session, DeskStage *stage)
{
  GFile *file = desk_document_get_file (desk_session_get_document (session));
  gboolean is_same = file != NULL && stage->file != NULL && g_file_equal (file, stage->file);
  /* While the file cannot be shown the view stays for when it is put right. */
  if (!is_same)
    {
      stop_transition (stage);
      stage->is_close = FALSE;
      stage->has_camera = FALSE;
      stage->has_plane = FALSE;
      g_set_object (&stage->file, file);
    }
  desk_stage_clear_measures (stage);
  choose_page (stage);
  desk_stage_redraw (stage, TRUE);
}

static void
on_time_changed (DeskSession *session, DeskStage *stage)
{
  desk_stage_redraw_moving (stage, TRUE);
  desk_stage_keep_load_in_view (stage);
}

static void
on_changed (DeskSession *session, DeskStage *stage)
{
  desk_stage_tell_state (stage, "section", desk_session_get_section (session).on);
  desk_stage_redraw (stage, TRUE);
}

static void
on_went_to_finding (DeskSession *session, DeskStage *stage)
{
  desk_stage_look_at_finding (stage);
}

static void
on_style_changed (AdwStyleManager *manager, GParamSpec *spec, DeskStage *stage)
{
  desk_session_set_dark (stage->session, adw_style_manager_get_dark (manager));
}

static void
follow (DeskStage *stage)
{
  DeskSession *session = stage->session;
  g_signal_connect_object (desk_session_get_document (session), "changed",
                           G_CALLBACK (on_document_changed), stage, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "site-changed", G_CALLBACK (on_site_changed), stage, 0);
  g_signal_connect_object (session, "time-changed", G_CALLBACK (on_time_changed), stage, 0);
  g_signal_connect_object (session, "went-to-finding", G_CALLBACK (on_went_to_finding), stage, 0);
  const char *const others[]
      = { "moment-changed", "findings-changed", "selection-changed", "view-changed" };
  for (guint i = 0; i < G_N_ELEMENTS (others); i++)
    g_signal_connect_object (session, others[i], G_CALLBACK (on_changed), stage, 0);
  AdwStyleManager *manager = adw_style_manager_get_default ();
  g_signal_connect_object (manager, "notify::dark", G_CALLBACK (on_style_changed), stage, 0);
  on_style_changed (manager, NULL, stage);
}

/* ---- the widget ---- */

static GtkWidget *
make_view (DeskStage *stage)
{
  stage->area = gtk_gl_area_new ();
  GtkGLArea *area = GTK_GL_AREA (stage->area);
  gtk_gl_area_set_required_version (area, 3, 3);
  gtk_gl_area_set_auto_render (area, FALSE);
  gtk_gl_area_set_has_depth_buffer (area, TRUE);
  gtk_gl_area_set_has_stencil_buffer (area, TRUE);
  gtk_widget_set_focusable (stage->area, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (stage->area), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  trn_words_stage (TRN_STAGE_VIEW_NAME), -1);
  g_signal_connect (area, "realize", G_CALLBACK (on_realize), stage);
  g_signal_connect (area, "unrealize", G_CALLBACK (on_unrealize), stage);
  g_signal_connect (area, "render", G_CALLBACK (on_render), stage);

  stage->marks = gtk_drawing_area_new ();
  gtk_widget_set_can_target (stage->marks, FALSE);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (stage->marks), on_draw_marks, stage, NULL);

  stage->hint = gtk_label_new (NULL);
  gtk_widget_add_css_class (stage->hint, "osd");
  gtk_widget_add_css_class (stage->hint, "stage-hint");
  gtk_widget_set_halign (stage->hint, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (stage->hint, GTK_ALIGN_START);
  gtk_widget_set_can_target (stage->hint, FALSE);
  gtk_widget_set_visible (stage->hint, FALSE);
  gtk_label_set_ellipsize (GTK_LABEL (stage->hint), PANGO_ELLIPSIZE_END);

  stage->overlay = gtk_overlay_new ();
  gtk_overlay_set_child (GTK_OVERLAY (stage->overlay), stage->area);
  gtk_overlay_add_overlay (GTK_OVERLAY (stage->overlay), stage->marks);
  gtk_overlay_add_overlay (GTK_OVERLAY (stage->overlay), stage->hint);
  return stage->overlay;
}

static GtkWidget *
no_lift_page_new (void)
{
  GtkWidget *page = adw_status_page_new ();
  adw_status_page_set_title (ADW_STATUS_PAGE (page), trn_words_stage (TRN_STAGE_NO_LIFT));
  adw_status_page_set_description (ADW_STATUS_PAGE (page),
                                   trn_words_stage (TRN_STAGE_NO_LIFT_MORE));
  GtkWidget *again = gtk_button_new_with_label (trn_words_stage (TRN_STAGE_VIEWS_READ));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (again), "win.reload");
  gtk_widget_add_css_class (again, "pill");
  gtk_widget_set_halign (again, GTK_ALIGN_CENTER);
  adw_status_page_set_child (ADW_STATUS_PAGE (page), again);
  return page;
}

static void
desk_stage_init (DeskStage *stage)
{
  stage->measures = g_array_new (FALSE, FALSE, sizeof (DeskStageMeasure));
  stage->pages = GTK_STACK (gtk_stack_new ());
  gtk_stack_add_named (stage->pages, make_view (stage), "view");
  GtkWidget *page = adw_status_page_new ();
  adw_status_page_set_title (ADW_STATUS_PAGE (page), trn_words_stage (TRN_STAGE_NO_OPENGL));
  adw_status_page_set_description (ADW_STATUS_PAGE (page),
                                   trn_words_stage (TRN_STAGE_NO_OPENGL_MORE));
  adw_status_page_set_icon_name (ADW_STATUS_PAGE (page), "video-display-symbolic");
  gtk_stack_add_named (stage->pages, page, "no-opengl");
  gtk_stack_add_named (stage->pages, no_lift_page_new (), "no-lift");
  /* The others are not even measured. */
  desk_page_show (stage->pages, "view");
  adw_bin_set_child (ADW_BIN (stage), GTK_WIDGET (stage->pages));
  gtk_widget_set_hexpand (GTK_WIDGET (stage), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (stage), TRUE);
}

static void
desk_stage_dispose (GObject *object)
{
  DeskStage *stage = DESK_STAGE (object);
  stop_transition (stage);
  desk_stage_abandon_still (stage);
  desk_stage_stop_corner_search (stage);
  g_clear_handle_id (&stage->still_id, g_source_remove);
  g_clear_handle_id (&stage->early_id, g_source_remove);
  g_clear_handle_id (&stage->ready_id, g_source_remove);
  G_OBJECT_CLASS (desk_stage_parent_class)->dispose (object);
}

static void
desk_stage_finalize (GObject *object)
{
  DeskStage *stage = DESK_STAGE (object);
  forget_list (stage);
  g_clear_object (&stage->file);
  g_array_unref (stage->measures);
  g_object_unref (stage->actions);
  g_object_unref (stage->session);
  G_OBJECT_CLASS (desk_stage_parent_class)->finalize (object);
}

static gboolean
desk_stage_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (DESK_STAGE (widget)->area);
}

static void
desk_stage_class_init (DeskStageClass *class)
{
  G_OBJECT_CLASS (class)->dispose = desk_stage_dispose;
  G_OBJECT_CLASS (class)->finalize = desk_stage_finalize;
  GTK_WIDGET_CLASS (class)->grab_focus = desk_stage_grab_focus;
}

GtkWidget *
desk_stage_new (DeskSession *session)
{
  DeskStage *stage = g_object_new (DESK_TYPE_STAGE, NULL);
  stage->session = g_object_ref (session);
  desk_stage_init_actions (stage);
  desk_stage_init_input (stage);
  stage->bar = desk_stage_bar_new (stage);
  gtk_overlay_add_overlay (GTK_OVERLAY (stage->overlay), stage->bar);
  /* What is written keeps out from under it. */
  g_signal_connect_object (stage->bar, "map", G_CALLBACK (gtk_widget_queue_draw), stage->marks,
                           G_CONNECT_SWAPPED);
  /* The view is never narrower than the buttons in it. */
  gtk_overlay_set_measure_overlay (GTK_OVERLAY (stage->overlay), stage->bar, TRUE);
  gtk_overlay_add_overlay (GTK_OVERLAY (stage->overlay), desk_stage_still_panel_new (stage));
  follow (stage);
  on_site_changed (session, stage);
  return GTK_WIDGET (stage);
}
