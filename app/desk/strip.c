/* strip.c: the clearance strip of the lift that is shown.
 *
 * What does not depend on the moment is drawn once into a picture, which is drawn anew only when
 * distances, findings, selection, size or style change; the moment and the pointer go over it. */
#include "strip.h"

#include <math.h>

#include "desk-words.h"
#include "room-parts.h"
#include "strip-data.h"

#define LEAST_WIDTH 320
/* Of the bands below the clearances so many are seen at once, in a window as high as that: the
 * others are scrolled to. */
#define MOST_SEEN 4
#define HIGH_PX 880
#define LOW_PX 700
#define CLICK_PX 3
#define FAST_STEPS 10

#define DESK_TYPE_STRIP (desk_strip_get_type ())
G_DECLARE_FINAL_TYPE (DeskStrip, desk_strip, DESK, STRIP, GtkWidget)

struct _DeskStrip
{
  GtkWidget parent;
  DeskSession *session;
  DeskStripData *data;      /* NULL: nothing to draw */
  gboolean is_data_old;     /* to be gathered anew before it is used */
  cairo_surface_t *picture; /* NULL: to be drawn */
  double picture_width, picture_height;
  int picture_scale;
  gboolean is_pointed;
  double pointer_x, pointer_y, drag_x, drag_y;
  guint n_bands;
  DeskForces *forces;    /* what gauges are read by; NULL: not asked yet */
  DeskSite *forces_site; /* of which they are, with the lift; owned */
  guint forces_run;
};

G_DEFINE_FINAL_TYPE (DeskStrip, desk_strip, GTK_TYPE_WIDGET)

static void
forget_picture (DeskStrip *strip)
{
  g_clear_pointer (&strip->picture, cairo_surface_destroy);
  gtk_widget_queue_draw (GTK_WIDGET (strip));
}

/* What is borrowed from the session may be gone when this returns. */
static void
forget_data (DeskStrip *strip)
{
  g_clear_pointer (&strip->data, desk_strip_data_free);
  strip->is_data_old = TRUE;
  forget_picture (strip);
}

static DeskStripData *
look_at_data (DeskStrip *strip)
{
  if (strip->is_data_old)
    strip->data = desk_strip_data_new (strip->session);
  strip->is_data_old = FALSE;
  return strip->data;
}

static RenderSize
size_of (DeskStrip *strip)
{
  return (RenderSize){ gtk_widget_get_width (GTK_WIDGET (strip)),
                       gtk_widget_get_height (GTK_WIDGET (strip)) };
}

/* ---- drawing ---- */

/* Font and accent are those of the desktop. */
static void
take_style (DeskStrip *strip)
{
  GtkStyleContext *context = gtk_widget_get_style_context (GTK_WIDGET (strip));
  GdkRGBA accent = { 0.21f, 0.52f, 0.89f, 1 };
  gtk_style_context_lookup_color (context, "accent_bg_color", &accent);
  strip->data->strip.accent = (RenderColour){ accent.red, accent.green, accent.blue, accent.alpha };
  GdkRGBA paper = { 0 };
  if (gtk_style_context_lookup_color (context, "view_bg_color", &paper))
    strip->data->strip.paper = (RenderColour){ paper.red, paper.green, paper.blue, paper.alpha };
  PangoContext *pango = gtk_widget_get_pango_context (GTK_WIDGET (strip));
  strip->data->strip.font
      = pango_font_description_get_family (pango_context_get_font_description (pango));
}

static void
draw_picture (DeskStrip *strip, RenderSize size)
{
  int scale = gtk_widget_get_scale_factor (GTK_WIDGET (strip));
  if (strip->picture != NULL && strip->picture_width == size.width
      && strip->picture_height == size.height && strip->picture_scale == scale)
    return;
  g_clear_pointer (&strip->picture, cairo_surface_destroy);
  strip->picture = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, (int)size.width * scale,
                                               (int)size.height * scale);
  cairo_surface_set_device_scale (strip->picture, scale, scale);
  strip->picture_width = size.width;
  strip->picture_height = size.height;
  strip->picture_scale = scale;
  cairo_t *cr = cairo_create (strip->picture);
  render_strip_draw (cr, &strip->data->strip, size);
  cairo_destroy (cr);
}

static void
draw_empty (DeskStrip *strip, GtkSnapshot *snapshot, RenderSize size)
{
  gboolean is_open = desk_session_get_site (strip->session) != NULL;
  gboolean has_lift = desk_session_get_lift_run (strip->session) != NULL;
  const char *text = trn_words_desk (!is_open    ? TRN_DESK_NO_PLAN
                                     : !has_lift ? TRN_DESK_NO_LIFT
                                                 : TRN_DESK_NO_OBSTACLE);
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (GTK_WIDGET (strip), text);
  int width, height;
  pango_layout_get_pixel_size (layout, &width, &height);
  GdkRGBA colour;
  gtk_style_context_get_color (gtk_widget_get_style_context (GTK_WIDGET (strip)), &colour);
  colour.alpha *= 0.72f;
  graphene_point_t at = { (float)(size.width - width) / 2, (float)(size.height - height) / 2 };
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &at);
  gtk_snapshot_append_layout (snapshot, layout, &colour);
  gtk_snapshot_restore (snapshot);
}

/* The line under the pointer, −1 for none, and the time there. */
static int
line_under (DeskStrip *strip, RenderSize size, double x, double y, double *time_s)
{
  RenderStripLayout layout = render_strip_layout (&strip->data->strip, size);
  *time_s = render_strip_time (&layout, x);
  return render_strip_hit (&strip->data->strip, &layout, x, y);
}

static void
forget_forces (DeskStrip *strip)
{
  g_clear_pointer (&strip->forces, desk_forces_free);
  g_clear_pointer (&strip->forces_site, desk_site_unref);
}

static DeskForces *
look_at_forces (DeskStrip *strip)
{
  DeskSite *site = desk_session_get_site (strip->session);
  const guint run = desk_session_get_run (strip->session);
  if (strip->forces != NULL && strip->forces_site == site && strip->forces_run == run)
    return strip->forces;
  forget_forces (strip);
  strip->forces_site = desk_site_ref (site);
  strip->forces_run = run;
  strip->forces = desk_forces_new (site->scene, run);
  return strip->forces;
}

/* At that time itself: between samples a number would not be rounded toward the worse. */
static GPtrArray *
read_gauges (DeskStrip *strip, double time_s)
{
  const DeskStripData *data = strip->data;
  GPtrArray *readings = g_ptr_array_new_with_free_func (g_free);
  const TrnLiftRun *run = desk_session_get_lift_run (strip->session);
  const TrnLiftFindings *lift = desk_check_get_lift (desk_session_get_check (strip->session),
                                                     desk_session_get_run (strip->session));
  guint move;
  double progress;
  trn_lift_run_pose (run, time_s, &move, &progress);
  for (guint i = 0; i < data->shown->len; i++)
    {
      const DeskGauge *gauge = &g_array_index (data->shown, DeskGauge, i);
      DeskForces *forces = desk_gauge_is_force (gauge->gauge) ? look_at_forces (strip) : NULL;
      const double value
          = gauge->gauge == TRN_GAUGE_WIND
                ? desk_wind_aside_m (lift != NULL ? lift->findings : NULL, run, move, progress)
                : desk_gauge_value (run, forces, gauge, move, progress);
      g_autofree char *number = desk_gauge_text (run, gauge, value);
      g_ptr_array_add (readings, trn_words_gauge_reading (data->strip.gauges[i].name, number));
    }
  return readings;
}

static char *
read_line (DeskStrip *strip, int line, double time_s)
{
  if (line < 0)
    return trn_words_column_time (time_s);
  const RenderStripLine *l = &strip->data->strip.lines[line];
  return trn_words_reading (
      time_s, l->name, render_strip_line_at (&strip->data->strip, (guint)line, time_s),
      l->required_m, render_strip_allowance_at (&strip->data->strip, (guint)line, time_s));
}

static void
desk_strip_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  DeskStrip *strip = DESK_STRIP (widget);
  RenderSize size = size_of (strip);
  if (size.width < 1 || size.height < 1)
    return;
  DeskStripData *data = look_at_data (strip);
  if (data == NULL)
    {
      draw_empty (strip, snapshot, size);
      return;
    }
  take_style (strip);
  draw_picture (strip, size);
  graphene_rect_t bounds = GRAPHENE_RECT_INIT (0, 0, (float)size.width, (float)size.height);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  cairo_set_source_surface (cr, strip->picture, 0, 0);
  cairo_paint (cr);
  render_strip_draw_moment (cr, &data->strip, size, desk_session_get_time (strip->session));
  if (strip->is_pointed)
    {
      double time_s;
      int line = line_under (strip, size, strip->pointer_x, strip->pointer_y, &time_s);
      g_autofree char *text = read_line (strip, line, time_s);
      g_autoptr (GPtrArray) readings = read_gauges (strip, time_s);
      render_strip_draw_hover (cr, &data->strip, size, time_s, line, text,
                               (const char *const *)readings->pdata);
    }
  cairo_destroy (cr);
}

GPtrArray *
desk_strip_read_gauges (GtkWidget *widget, double time_s)
{
  DeskStrip *strip = DESK_STRIP (widget);
  return look_at_data (strip) != NULL ? read_gauges (strip, time_s) : NULL;
}

static void
desk_strip_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                    int *natural, int *minimum_baseline, int *natural_baseline)
{
  gboolean across = orientation == GTK_ORIENTATION_HORIZONTAL;
  int bands = (int)DESK_STRIP (widget)->n_bands * RENDER_STRIP_BAND_PX;
  *minimum = across ? LEAST_WIDTH : RENDER_STRIP_LEAST_PX + bands;
  *natural = across ? 2 * LEAST_WIDTH : RENDER_STRIP_LEAST_PX + 40 + bands;
  *minimum_baseline = *natural_baseline = -1;
}

/* ---- pointer and keys ---- */

static void
scrub_to (DeskStrip *strip, double x)
{
  if (look_at_data (strip) == NULL)
    return;
  RenderStripLayout layout = render_strip_layout (&strip->data->strip, size_of (strip));
  desk_session_set_time (strip->session, render_strip_time (&layout, x));
}

static void
on_drag_begin (DeskStrip *strip, double x, double y)
{
  gtk_widget_grab_focus (GTK_WIDGET (strip));
  desk_session_set_playing (strip->session, FALSE);
  strip->drag_x = x;
  strip->drag_y = y;
  scrub_to (strip, x);
}

static void
on_drag_update (DeskStrip *strip, double dx)
{
  scrub_to (strip, strip->drag_x + dx);
}

/* A click on a line looks at its obstacle as well. */
static void
on_drag_end (DeskStrip *strip, double dx, double dy)
{
  double time_s;
  if (hypot (dx, dy) > CLICK_PX || look_at_data (strip) == NULL)
    return;
  int line = line_under (strip, size_of (strip), strip->drag_x, strip->drag_y, &time_s);
  if (line < 0)
    return;
  guint pair = g_array_index (strip->data->pairs, guint, line);
  const TrnFinding *finding = desk_session_worst_of_pair (strip->session, pair);
  if (finding != NULL)
    desk_session_set_finding (strip->session, finding, FALSE);
  else
    desk_session_select_pair (strip->session, pair);
}

static void
on_motion (DeskStrip *strip, double x, double y)
{
  strip->is_pointed = TRUE;
  strip->pointer_x = x;
  strip->pointer_y = y;
  gtk_widget_queue_draw (GTK_WIDGET (strip));
}

static void
on_leave (DeskStrip *strip)
{
  strip->is_pointed = FALSE;
  gtk_widget_queue_draw (GTK_WIDGET (strip));
}

static gboolean
on_key (DeskStrip *strip, guint key, guint code, GdkModifierType modifiers)
{
  DeskSession *session = strip->session;
  if ((modifiers & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  int steps = (modifiers & GDK_SHIFT_MASK) != 0 ? FAST_STEPS : 1;
  switch (key)
    {
    case GDK_KEY_Left:
    case GDK_KEY_KP_Left:
      desk_session_step (session, -steps);
      return GDK_EVENT_STOP;
    case GDK_KEY_Right:
    case GDK_KEY_KP_Right:
      desk_session_step (session, steps);
      return GDK_EVENT_STOP;
    case GDK_KEY_Page_Up:
    case GDK_KEY_KP_Page_Up:
      desk_session_previous_move (session);
      return GDK_EVENT_STOP;
    case GDK_KEY_Page_Down:
    case GDK_KEY_KP_Page_Down:
      desk_session_next_move (session);
      return GDK_EVENT_STOP;
    case GDK_KEY_Home:
    case GDK_KEY_KP_Home:
      desk_session_set_time (session, 0);
      return GDK_EVENT_STOP;
    case GDK_KEY_End:
    case GDK_KEY_KP_End:
      desk_session_set_time (session, desk_session_get_duration (session));
      return GDK_EVENT_STOP;
    default:
      return GDK_EVENT_PROPAGATE;
    }
}

static void
add_controllers (DeskStrip *strip)
{
  GtkWidget *widget = GTK_WIDGET (strip);
  GtkGesture *drag = gtk_gesture_drag_new ();
  g_signal_connect_swapped (drag, "drag-begin", G_CALLBACK (on_drag_begin), strip);
  g_signal_connect_swapped (drag, "drag-update", G_CALLBACK (on_drag_update), strip);
  g_signal_connect_swapped (drag, "drag-end", G_CALLBACK (on_drag_end), strip);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (drag));
  GtkEventController *motion = gtk_event_controller_motion_new ();
  g_signal_connect_swapped (motion, "enter", G_CALLBACK (on_motion), strip);
  g_signal_connect_swapped (motion, "motion", G_CALLBACK (on_motion), strip);
  g_signal_connect_swapped (motion, "leave", G_CALLBACK (on_leave), strip);
  gtk_widget_add_controller (widget, motion);
  GtkEventController *key = gtk_event_controller_key_new ();
  g_signal_connect_swapped (key, "key-pressed", G_CALLBACK (on_key), strip);
  gtk_widget_add_controller (widget, key);
}

/* ---- following the session ---- */

static void
tell_value (DeskStrip *strip)
{
  double time_s = desk_session_get_time (strip->session);
  g_autofree char *text = trn_words_time (time_s);
  gtk_accessible_update_property (
      GTK_ACCESSIBLE (strip), GTK_ACCESSIBLE_PROPERTY_VALUE_MIN, 0.0,
      GTK_ACCESSIBLE_PROPERTY_VALUE_MAX, desk_session_get_duration (strip->session),
      GTK_ACCESSIBLE_PROPERTY_VALUE_NOW, time_s, GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT, text, -1);
}

static void
on_time_changed (DeskStrip *strip)
{
  tell_value (strip);
  gtk_widget_queue_draw (GTK_WIDGET (strip));
}

/* Bands take room from the view, as much as leaves it enough. */
static void
take_room (DeskStrip *strip)
{
  guint n_bands = desk_strip_count_bands (strip->session);
  GtkWidget *widget = GTK_WIDGET (strip);
  if (n_bands == strip->n_bands)
    return;
  strip->n_bands = n_bands;
  gtk_widget_queue_resize (widget);
  GtkWidget *scroll = gtk_widget_get_ancestor (widget, GTK_TYPE_SCROLLED_WINDOW);
  GtkRoot *root = gtk_widget_get_root (widget);
  int height = root != NULL ? gtk_widget_get_height (GTK_WIDGET (root)) : 0;
  guint n_seen = height >= HIGH_PX ? MOST_SEEN : height >= LOW_PX ? 2 : 1;
  if (scroll != NULL)
    gtk_scrolled_window_set_min_content_height (
        GTK_SCROLLED_WINDOW (scroll),
        RENDER_STRIP_LEAST_PX + (int)MIN (n_bands, n_seen) * RENDER_STRIP_BAND_PX);
}

static void
on_data_changed (DeskStrip *strip)
{
  /* Forces keep the site that they are of, which may be closed by now. */
  if (strip->forces_site != desk_session_get_site (strip->session))
    forget_forces (strip);
  take_room (strip);
  forget_data (strip);
  tell_value (strip);
}

static void
on_view_changed (DeskStrip *strip)
{
  desk_rooms_style (GTK_WIDGET (strip), desk_session_get_dark (strip->session));
  take_room (strip);
  forget_data (strip);
}

static void
desk_strip_dispose (GObject *object)
{
  DeskStrip *strip = DESK_STRIP (object);
  g_clear_pointer (&strip->data, desk_strip_data_free);
  forget_forces (strip);
  g_clear_pointer (&strip->picture, cairo_surface_destroy);
  g_clear_object (&strip->session);
  G_OBJECT_CLASS (desk_strip_parent_class)->dispose (object);
}

static void
desk_strip_class_init (DeskStripClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = desk_strip_dispose;
  widget_class->snapshot = desk_strip_snapshot;
  widget_class->measure = desk_strip_measure;
  gtk_widget_class_set_css_name (widget_class, "clearance-strip");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_SLIDER);
}

static void
desk_strip_init (DeskStrip *strip)
{
  strip->is_data_old = TRUE;
  gtk_widget_set_focusable (GTK_WIDGET (strip), TRUE);
  gtk_widget_set_hexpand (GTK_WIDGET (strip), TRUE);
  gtk_widget_set_overflow (GTK_WIDGET (strip), GTK_OVERFLOW_HIDDEN);
  gtk_widget_add_css_class (GTK_WIDGET (strip), "strip-room");
  gtk_accessible_update_property (GTK_ACCESSIBLE (strip), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  trn_words_desk (TRN_DESK_STRIP), -1);
  add_controllers (strip);
}

GtkWidget *
desk_strip_new (DeskSession *session)
{
  static const char *const of_data[]
      = { "site-changed", "profile-changed", "findings-changed", "selection-changed", NULL };
  static const char *const of_time[] = { "time-changed", NULL };
  static const char *const of_view[] = { "view-changed", NULL };
  DeskStrip *strip = g_object_new (DESK_TYPE_STRIP, NULL);
  strip->session = g_object_ref (session);
  desk_rooms_style (GTK_WIDGET (strip), desk_session_get_dark (session));
  desk_follow (session, strip, G_CALLBACK (on_data_changed), of_data);
  desk_follow (session, strip, G_CALLBACK (on_time_changed), of_time);
  desk_follow (session, strip, G_CALLBACK (on_view_changed), of_view);
  tell_value (strip);
  return GTK_WIDGET (strip);
}

GtkWidget *
desk_strip_room_new (DeskSession *session)
{
  GtkWidget *scroll = desk_scrolled_new (desk_strip_new (session), 0);
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (scroll), RENDER_STRIP_LEAST_PX);
  gtk_widget_add_css_class (scroll, "strip-scroll");
  return scroll;
}
