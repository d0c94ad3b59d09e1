/* test-stage.c: that the 3D view is drawn, and that what it can be told to do is done. */
#include "stage-fixture.h"

/* A blank page has one colour, the paper's shade some tens by rows only; bodies in light, edges and
 * the grid bring many more. */
static void
test_drawn (Fixture *f, gconstpointer data)
{
  g_assert_null (gtk_gl_area_get_error (GTK_GL_AREA (f->stage->area)));
  g_assert_cmpstr (gtk_stack_get_visible_child_name (f->stage->pages), ==, "view");
  guint with_site = count_colours (f);
  desk_document_close (desk_session_get_document (f->session));
  test_wait (f->stage->list == NULL && desk_session_get_site (f->session) == NULL);
  test_idle (0.3);
  guint without = count_colours (f);
  g_test_message ("%u colours, %u without a site", with_site, without);
  g_assert_cmpuint (with_site, >, 2 * without);
}

/* Nothing is drawn while nothing changes. */
static void
test_on_demand (Fixture *f, gconstpointer data)
{
  /* Checking and the strip's curves tell of themselves until they are through. */
  test_wait (desk_check_get_state (desk_session_get_check (f->session)) != DESK_CHECK_RUNNING);
  test_wait (desk_session_get_moment (f->session) != NULL);
  test_idle (0.5);
  guint n;
  test_count_signal (gtk_widget_get_frame_clock (GTK_WIDGET (f->stage)), "after-paint", &n);
  /* On a busy machine the last of them is late. */
  for (guint i = 0; i < 5 && (i == 0 || n > 0); i++)
    {
      n = 0;
      test_idle (0.6);
    }
  g_assert_cmpuint (n, ==, 0);
  act (f, "zoom-in");
  test_wait (n > 0);
}

/* Each standard view looks in its direction and shows the whole lift; the projection stays. */
static void
test_views (Fixture *f, gconstpointer data)
{
  const char *const names[] = { "plan", "north", "east", "south", "west", "3d" };
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *action = g_strconcat ("view-", names[i], NULL);
      act (f, action);
      RenderStandardView view;
      RenderCamera camera = camera_of (f), standard = camera;
      g_assert_true (render_standard_view_from_name (names[i], &view));
      render_camera_set_standard (&standard, view);
      g_assert_cmpfloat (camera.heading_rad, ==, standard.heading_rad);
      g_assert_cmpfloat (camera.pitch_rad, ==, standard.pitch_rad);
      TrnBox extent = desk_stage_extent (f->stage);
      RenderSize size = desk_stage_size (f->stage);
      for (guint corner = 0; corner < 8; corner++)
        {
          double x, y, depth_m;
          g_assert_true (render_camera_project (&camera, size, trn_box_corner (&extent, corner), &x,
                                                &y, &depth_m));
          g_assert_true (x >= 0 && x <= size.width && y >= 0 && y <= size.height);
        }
    }
}

/* Keys go through these: turning left and right again comes back, panning too; nearer and farther
 * change the distance. */
static void
test_moving (Fixture *f, gconstpointer data)
{
  RenderCamera first = camera_of (f);
  act (f, "zoom-in");
  g_assert_cmpfloat (camera_of (f).distance_m, <, first.distance_m);
  desk_stage_set_camera (GTK_WIDGET (f->stage), first);
  act (f, "zoom-out");
  g_assert_cmpfloat (camera_of (f).distance_m, >, first.distance_m);
  desk_stage_set_camera (GTK_WIDGET (f->stage), first);

  act_with (f, "turn", "left");
  g_assert_cmpfloat (fabs (camera_of (f).heading_rad - first.heading_rad), >, 0.05);
  act_with (f, "turn", "right");
  g_assert_cmpfloat_with_epsilon (camera_of (f).heading_rad, first.heading_rad, 1e-12);
  desk_stage_set_camera (GTK_WIDGET (f->stage), first);
  act_with (f, "turn", "up");
  g_assert_cmpfloat (camera_of (f).pitch_rad, <, first.pitch_rad);
  desk_stage_set_camera (GTK_WIDGET (f->stage), first);

  const char *const there[] = { "left", "up" }, *const back[] = { "right", "down" };
  for (guint i = 0; i < 2; i++)
    {
      act_with (f, "pan", there[i]);
      g_assert_cmpfloat (trn_vec3_distance (camera_of (f).target, first.target), >, 0.1);
      act_with (f, "pan", back[i]);
      g_assert_cmpfloat (trn_vec3_distance (camera_of (f).target, first.target), <, 1e-9);
    }
}

static gpointer
controller_of (Fixture *f, GType type)
{
  g_autoptr (GListModel) all = gtk_widget_observe_controllers (f->stage->area);
  for (guint i = 0; i < g_list_model_get_n_items (all); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (all, i);
      if (G_TYPE_CHECK_INSTANCE_TYPE (controller, type))
        return controller; /* the view keeps it */
    }
  g_assert_not_reached ();
}

/* The pointer comes to a place in the middle of the load. */
static TrnVec3
point_at (Fixture *f, double x, double y)
{
  g_signal_emit_by_name (controller_of (f, GTK_TYPE_EVENT_CONTROLLER_MOTION), "motion", x, y);
  g_assert_cmpfloat (f->stage->x, ==, x);
  return desk_stage_point_under (f->stage, x, y);
}

static void
assert_seen_at (Fixture *f, TrnVec3 point, double x, double y)
{
  RenderCamera camera = camera_of (f);
  double at_x, at_y, depth_m;
  g_assert_true (
      render_camera_project (&camera, desk_stage_size (f->stage), point, &at_x, &at_y, &depth_m));
  g_assert_cmpfloat_with_epsilon (at_x, x, 1e-6);
  g_assert_cmpfloat_with_epsilon (at_y, y, 1e-6);
}

static void
scroll (Fixture *f, double dx, double dy)
{
  gboolean is_done = FALSE;
  g_signal_emit_by_name (controller_of (f, GTK_TYPE_EVENT_CONTROLLER_SCROLL), "scroll", dx, dy,
                         &is_done);
  g_assert_true (is_done);
}

/* A wheel, also one that turns by parts of a step: the point under the pointer stays under it, ten
 * tenths are as much as one whole, and as much back is where it was. In perspective and parallel.
 */
static void
test_wheel (Fixture *f, gconstpointer data)
{
  for (int parallel = 0; parallel < 2; parallel++)
    {
      RenderCamera first = camera_of (f);
      first.parallel = parallel;
      desk_stage_set_camera (GTK_WIDGET (f->stage), first);
      TrnVec3 under = point_at (f, 500, 300);
      scroll (f, 0, -1);
      assert_seen_at (f, under, 500, 300);
      RenderCamera whole = camera_of (f);
      g_assert_cmpfloat (whole.distance_m, <, first.distance_m);
      scroll (f, 0, 1);
      g_assert_cmpfloat_with_epsilon (camera_of (f).distance_m, first.distance_m, 1e-6);
      for (int i = 0; i < 10; i++)
        scroll (f, 0, -0.1);
      assert_seen_at (f, under, 500, 300);
      g_assert_cmpfloat_with_epsilon (camera_of (f).distance_m, whole.distance_m,
                                      1e-6 * whole.distance_m);
      desk_stage_set_camera (GTK_WIDGET (f->stage), first);
    }
}

/* Two fingers on a touchpad, in pixels: what was under the pointer goes with them; with Ctrl it
 * stays and comes nearer; with Shift it stays and the view turns. */
static void
test_touchpad (Fixture *f, gconstpointer data)
{
  RenderCamera first = camera_of (f);
  TrnVec3 under = point_at (f, 420, 280);
  desk_stage_scroll (f->stage, 30, -12.5, TRUE, 0);
  assert_seen_at (f, under, 390, 292.5);
  desk_stage_set_camera (GTK_WIDGET (f->stage), first);
  desk_stage_scroll (f->stage, 0, -40, TRUE, GDK_CONTROL_MASK);
  assert_seen_at (f, under, 420, 280);
  g_assert_cmpfloat (camera_of (f).distance_m, <, first.distance_m);
  desk_stage_set_camera (GTK_WIDGET (f->stage), first);
  desk_stage_scroll (f->stage, 25, 10, TRUE, GDK_SHIFT_MASK);
  assert_seen_at (f, under, 420, 280);
  g_assert_cmpfloat (camera_of (f).heading_rad, !=, first.heading_rad);
}

/* Fingers go apart and together again about the pointer. */
static void
test_pinch (Fixture *f, gconstpointer data)
{
  RenderCamera first = camera_of (f);
  TrnVec3 under = point_at (f, 380, 310);
  gpointer pinch = controller_of (f, GTK_TYPE_GESTURE_ZOOM);
  g_signal_emit_by_name (pinch, "begin", NULL);
  const double scales[] = { 1.1, 1.5, 2, 0.7, 0.5, 1 };
  for (guint i = 0; i < G_N_ELEMENTS (scales); i++)
    {
      g_signal_emit_by_name (pinch, "scale-changed", scales[i]);
      assert_seen_at (f, under, 380, 310);
      TrnVec3 eye = render_camera_eye (&f->stage->camera), eye_first = render_camera_eye (&first);
      g_assert_cmpfloat_with_epsilon (trn_vec3_distance (eye, under) * scales[i],
                                      trn_vec3_distance (eye_first, under), 1e-6);
    }
  g_signal_emit_by_name (pinch, "scale-changed", 0.0);
  g_assert_cmpfloat_with_epsilon (camera_of (f).distance_m, first.distance_m, 1e-6);
}

/* From above, two fingers that turn clockwise turn the site clockwise about the pointer: a point
 * right of it goes down. The first ten degrees may be a pinch that is not straight. Four quarter
 * turns come back. */
static void
test_twist (Fixture *f, gconstpointer data)
{
  act (f, "view-plan");
  RenderCamera first = camera_of (f);
  TrnVec3 under = point_at (f, 450, 300), right = trn_vec3_add (under, (TrnVec3){ 2, 0, 0 });
  gpointer twist = controller_of (f, GTK_TYPE_GESTURE_ROTATE);
  g_signal_emit_by_name (controller_of (f, GTK_TYPE_GESTURE_ZOOM), "begin", NULL);
  g_signal_emit_by_name (twist, "angle-changed", 0.1, 0.1);
  g_assert_cmpfloat (camera_of (f).heading_rad, ==, first.heading_rad);
  double begin_rad = 0.2;
  g_signal_emit_by_name (twist, "angle-changed", begin_rad, begin_rad);
  g_assert_cmpfloat (camera_of (f).heading_rad, ==, first.heading_rad);
  for (int quarter = 1; quarter <= 4; quarter++)
    {
      double rad = begin_rad + quarter * G_PI / 2;
      g_signal_emit_by_name (twist, "angle-changed", rad, rad);
      assert_seen_at (f, under, 450, 300);
      RenderCamera camera = camera_of (f);
      double x, y, depth_m;
      render_camera_project (&camera, desk_stage_size (f->stage), right, &x, &y, &depth_m);
      if (quarter == 1)
        {
          g_assert_cmpfloat_with_epsilon (x, 450, 1e-6);
          g_assert_cmpfloat (y, >, 310);
        }
    }
  g_assert_cmpfloat_with_epsilon (
      remainder (camera_of (f).heading_rad - first.heading_rad, 2 * G_PI), 0, 1e-9);
  g_assert_cmpfloat (trn_vec3_distance (camera_of (f).target, first.target), <, 1e-6);
}

/* By whatever one moves with, from the same view each. */
static void
test_pointer (Fixture *f, gconstpointer data)
{
  RenderCamera first = camera_of (f);
  test_wheel (f, data);
  desk_stage_set_camera (GTK_WIDGET (f->stage), first);
  test_touchpad (f, data);
  desk_stage_set_camera (GTK_WIDGET (f->stage), first);
  test_pinch (f, data);
  test_twist (f, data);
}

/* Fingers leave in motion: the view goes on from where it is, slower and slower, by speed / 5 per
 * second in all, and stops at once when fingers come again. Without animations it stands. */
static void
test_drift (Fixture *f, gconstpointer data)
{
  TrnVec3 under = point_at (f, 400, 300);
  desk_stage_scroll (f->stage, 1, 0, TRUE, 0);
  RenderCamera first = camera_of (f);
  RenderSize size = desk_stage_size (f->stage);
  DeskStageDrift drift = { first, under, 500, -250, 0 };
  double x, y, x0, y0, depth_m;
  RenderCamera at_once = desk_stage_drift_at (&drift, size, 0);
  g_assert_cmpfloat (trn_vec3_distance (at_once.target, first.target), <, 1e-9);
  RenderCamera last = desk_stage_drift_at (&drift, size, 100);
  render_camera_project (&first, size, under, &x0, &y0, &depth_m);
  render_camera_project (&last, size, under, &x, &y, &depth_m);
  g_assert_cmpfloat_with_epsilon (x0 - x, 500 / 5.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (y0 - y, -250 / 5.0, 1e-6);

  gpointer controller = controller_of (f, GTK_TYPE_EVENT_CONTROLLER_SCROLL);
  g_signal_emit_by_name (controller, "decelerate", 800.0, 0.0);
  g_assert_cmpuint (f->stage->drift_id, ==, 0);
  set_animated (TRUE);
  g_signal_emit_by_name (controller, "decelerate", 800.0, 0.0);
  test_wait (trn_vec3_distance (camera_of (f).target, first.target) > 0);
  g_signal_emit_by_name (controller, "scroll-begin");
  RenderCamera stopped = camera_of (f);
  test_idle (0.2);
  g_assert_cmpfloat (trn_vec3_distance (camera_of (f).target, stopped.target), ==, 0);
  desk_stage_scroll (f->stage, 1, 0, TRUE, 0);
  g_signal_emit_by_name (controller, "decelerate", 800.0, 0.0);
  test_wait (f->stage->drift_id == 0);
}

/* With animations a view is gone to in several frames, and is the same in the end. */
static void
test_transition (Fixture *f, gconstpointer data)
{
  set_animated (TRUE);
  RenderCamera before = f->stage->camera;
  act (f, "view-north");
  g_assert_cmpfloat (f->stage->camera.heading_rad, ==, before.heading_rad);
  RenderCamera to = camera_of (f);
  test_wait (f->stage->tick_id == 0);
  g_assert_cmpfloat (f->stage->camera.heading_rad, ==, to.heading_rad);
  g_assert_cmpfloat (f->stage->camera.distance_m, ==, to.distance_m);
  g_assert_cmpfloat (trn_vec3_distance (f->stage->camera.target, to.target), ==, 0);
}

/* The middle of the load, hoisted clear of everything, is under its own place on the screen. */
static void
test_pick (Fixture *f, gconstpointer data)
{
  desk_session_set_time (f->session, 0.55 * desk_session_get_duration (f->session));
  act (f, "view-south");
  const DeskProbe *probe = desk_stage_probe (f->stage);
  RenderSize size = desk_stage_size (f->stage);
  /* The first place of a grid at which the engine's mesh of the load is met. */
  double at_x = -1, at_y = -1;
  for (double y = 10; y < size.height && at_x < 0; y += 7)
    for (double x = 10; x < size.width && at_x < 0; x += 7)
      {
        DeskHit hit = desk_probe_screen (probe, &f->stage->camera, size, x, y, 0);
        if (hit.on == DESK_ON_FACE && probe->bodies[hit.body].is_load)
          {
            at_x = x;
            at_y = y;
          }
      }
  g_assert_cmpfloat (at_x, >, 0);
  guint n_load = 0;
  for (int dy = -6; dy <= 6; dy += 3)
    for (int dx = -6; dx <= 6; dx += 3)
      if (g_strcmp0 (desk_stage_pick (f->stage, at_x + dx, at_y + dy), "load") == 0)
        n_load++;
  g_assert_cmpuint (n_load, >, 0);
  g_assert_null (desk_stage_pick (f->stage, 2, 2));
}

/* The load is the last in turn, and by keys as well. */
static void
test_select_load (Fixture *f, gconstpointer data)
{
  act (f, "select-previous");
  act (f, "select-previous");
  guint n = 0;
  while (g_strcmp0 (desk_session_get_selected (f->session), "load") != 0 && n++ < 1000)
    act (f, "select-next");
  g_assert_cmpstr (desk_session_get_selected (f->session), ==, "load");
  guint at;
  act (f, "select-next");
  g_assert_true (desk_stage_selected_item (f->stage, &at));
  g_assert_cmpuint (at, ==, 0);
}

/* Structures one after the other; what is done to the one that is selected, and back again. */
static void
test_structures (Fixture *f, gconstpointer data)
{
  guint n = desk_session_get_site (f->session)->display->n_structure_bodies, at;
  g_assert_cmpuint (n, >, 1);
  for (guint i = 0; i < n; i++)
    {
      act (f, "select-next");
      g_assert_true (desk_stage_selected_item (f->stage, &at));
      g_assert_cmpuint (at, ==, i);
    }
  act (f, "select-next");
  act (f, "select-previous");
  g_assert_true (desk_stage_selected_item (f->stage, &at));
  g_assert_cmpuint (at, ==, n - 1);
  act (f, "ghost");
  g_assert_cmpint (desk_session_get_visibility (f->session, at), ==, RENDER_VISIBLE_GHOST);
  act (f, "ghost");
  g_assert_cmpint (desk_session_get_visibility (f->session, at), ==, RENDER_VISIBLE_SOLID);
  act (f, "hide");
  g_assert_cmpint (desk_session_get_visibility (f->session, at), ==, RENDER_VISIBLE_HIDDEN);
  act (f, "show-all");
  act (f, "isolate");
  g_assert_cmpint (desk_session_get_visibility (f->session, 0), ==, RENDER_VISIBLE_GHOST);
  g_assert_cmpint (desk_session_get_visibility (f->session, at), ==, RENDER_VISIBLE_SOLID);
}

/* After a panel is left the keys are those of the view again, and while it is open no hint can come
 * to lie over it. */
static void
test_panel_left (Fixture *f, gconstpointer data)
{
  GtkWidget *section = gtk_widget_get_last_child (f->stage->bar);
  while (!GTK_IS_MENU_BUTTON (section))
    section = gtk_widget_get_prev_sibling (section);
  gtk_menu_button_popup (GTK_MENU_BUTTON (section));
  test_idle (0.2);
  g_assert_false (gtk_widget_get_has_tooltip (section));
  gtk_menu_button_popdown (GTK_MENU_BUTTON (section));
  test_wait (gtk_root_get_focus (GTK_ROOT (f->window)) == f->stage->area);
  g_assert_true (gtk_widget_get_has_tooltip (section));
}

/* The pointer rests in the view while keys move the cross: what the display tells of it again does
 * not take the cross back. */
static void
test_pointer_rests (Fixture *f, gconstpointer data)
{
  act (f, "view-plan");
  act (f, "measure");
  g_signal_emit_by_name (controller_of (f, GTK_TYPE_EVENT_CONTROLLER_MOTION), "motion", 200.0,
                         300.0);
  g_assert_cmpfloat (f->stage->x, ==, 200);
  g_assert_true (desk_stage_measure_key (f->stage, GDK_KEY_Right, 0));
  g_signal_emit_by_name (controller_of (f, GTK_TYPE_EVENT_CONTROLLER_MOTION), "motion", 200.0,
                         300.0);
  g_assert_cmpfloat (f->stage->x, ==, 210);
  g_signal_emit_by_name (controller_of (f, GTK_TYPE_EVENT_CONTROLLER_MOTION), "motion", 201.0,
                         300.0);
  g_assert_cmpfloat (f->stage->x, ==, 201);
}

/* What is selected by key has its name in the view. */
static void
test_selected_named (Fixture *f, gconstpointer data)
{
  desk_session_set_finding (f->session, NULL, FALSE);
  desk_session_set_selected (f->session, NULL);
  guint n_labels = desk_stage_list (f->stage)->labels->len;
  act (f, "select-next");
  g_assert_cmpuint (desk_stage_list (f->stage)->labels->len, ==, n_labels + 1);
}

/* By keys only, from corner to corner: each lies that way, and is one. */
static void
test_corners (Fixture *f, gconstpointer data)
{
  act (f, "view-3d");
  act (f, "measure");
  guint n_moved = 0;
  const guint keys[] = { GDK_KEY_Right, GDK_KEY_Down, GDK_KEY_Left, GDK_KEY_Up };
  for (guint i = 0; i < 40; i++)
    {
      guint key = keys[i / 3 % 4];
      double x = f->stage->x, y = f->stage->y;
      g_assert_true (desk_stage_measure_key (f->stage, key, GDK_ALT_MASK));
      test_wait (f->stage->corner_id == 0);
      double dx = f->stage->x - x, dy = f->stage->y - y;
      if (dx == 0 && dy == 0)
        continue;
      n_moved++;
      g_assert_cmpint (f->stage->hover.on, ==, DESK_ON_CORNER);
      double along = key == GDK_KEY_Right  ? dx
                     : key == GDK_KEY_Left ? -dx
                     : key == GDK_KEY_Down ? dy
                                           : -dy;
      /* To a few pixels: at a rim the cross stands a little inward. */
      g_assert_cmpfloat (along, >, -16);
    }
  g_assert_cmpuint (n_moved, >=, 10);
  g_assert_true (desk_stage_measure_key (f->stage, GDK_KEY_Return, 0));
  g_assert_true (f->stage->has_first);
  g_assert_false (desk_stage_measure_key (f->stage, GDK_KEY_Home, GDK_ALT_MASK));
}

/* By keys only: the cross is moved onto something twice and taken; Delete removes it, Esc leaves.
 */
static void
test_measuring (Fixture *f, gconstpointer data)
{
  act (f, "view-plan");
  act (f, "measure");
  g_assert_true (state_of (f, "measure"));
  for (int i = 0; i < 2; i++)
    {
      g_assert_true (desk_stage_measure_key (f->stage, GDK_KEY_Right, 0));
      g_assert_true (desk_stage_measure_key (f->stage, GDK_KEY_Down, GDK_CONTROL_MASK));
      g_assert_cmpint (f->stage->hover.on, !=, DESK_ON_NOTHING);
      g_assert_true (desk_stage_measure_key (f->stage, GDK_KEY_Return, 0));
    }
  g_assert_cmpuint (desk_stage_get_n_measures (GTK_WIDGET (f->stage)), ==, 1);
  const RenderDrawList *list = desk_stage_list (f->stage);
  guint n_lines = list->lines->len, n_labels = list->labels->len;
  g_assert_true (desk_stage_measure_key (f->stage, GDK_KEY_Delete, 0));
  g_assert_cmpuint (desk_stage_get_n_measures (GTK_WIDGET (f->stage)), ==, 0);
  list = desk_stage_list (f->stage);
  g_assert_cmpuint (list->lines->len, <, n_lines);
  g_assert_cmpuint (list->labels->len, ==, n_labels - 1);
  g_assert_true (desk_stage_measure_key (f->stage, GDK_KEY_Escape, 0));
  g_assert_false (state_of (f, "measure"));
}

/* Whether the place of a site point lies within the view. */
static gboolean
is_in_view (Fixture *f, const RenderCamera *camera, TrnVec3 point)
{
  RenderSize size = desk_stage_size (f->stage);
  double x, y, depth_m;
  return render_camera_project (camera, size, point, &x, &y, &depth_m) && x > 0 && x < size.width
         && y > 0 && y < size.height;
}

/* Going to the worst finding of the gate, which lies between its end positions, brings both points
 * into view, unhidden, and nearer than the view of the whole site; choosing it alone moves nothing.
 * From above the direction of the view stays, as somebody has chosen it. */
static void
test_finding (Fixture *f, gconstpointer data)
{
  test_wait (desk_check_get_state (desk_session_get_check (f->session)) == DESK_CHECK_DONE);
  const TrnFinding *worst = desk_session_worst (f->session, DESK_ALL_LIFTS, -1, NULL);
  RenderCamera first = camera_of (f);
  desk_session_set_finding (f->session, worst, FALSE);
  g_assert_cmpfloat (camera_of (f).distance_m, ==, first.distance_m);
  g_assert_cmpfloat (camera_of (f).heading_rad, ==, first.heading_rad);
  desk_session_set_finding (f->session, worst, TRUE);
  RenderCamera camera = camera_of (f);
  g_assert_cmpfloat (camera.distance_m, <, first.distance_m);
  const TrnVec3 points[] = { worst->point_on_body, worst->point_on_obstacle };
  for (int i = 0; i < 2; i++)
    {
      g_assert_true (is_in_view (f, &camera, points[i]));
      g_assert_true (render_sight_is_free (desk_stage_list (f->stage), &camera, points[i]));
    }
  act (f, "view-plan");
  camera = camera_of (f);
  desk_session_set_finding (f->session, worst, TRUE);
  g_assert_cmpfloat (camera_of (f).heading_rad, ==, camera.heading_rad);
  g_assert_cmpfloat (camera_of (f).pitch_rad, ==, camera.pitch_rad);
  g_assert_cmpfloat (camera_of (f).distance_m, <, camera.distance_m);
}

/* Whether some of the load's box lies in the view. */
static gboolean
is_load_in_view (Fixture *f)
{
  RenderCamera camera = camera_of (f);
  const DeskProbeBody *load = &desk_stage_probe (f->stage)->bodies[0];
  for (guint i = 0; i < 8; i++)
    if (is_in_view (
            f, &camera,
            trn_pose_apply (&load->site_from_body, trn_box_corner (&load->body->mesh->box, i))))
      return TRUE;
  return FALSE;
}

/* The view near a finding is of that moment. Where the time then takes the load out of it, all of
 * its way is shown from the same direction; a view that was turned by hand is let alone. */
static void
test_load_stays_in_view (Fixture *f, gconstpointer data)
{
  test_wait (desk_check_get_state (desk_session_get_check (f->session)) == DESK_CHECK_DONE);
  const TrnFinding *worst = desk_session_worst (f->session, DESK_ALL_LIFTS, -1, NULL);
  double whole_s = desk_session_get_duration (f->session);
  for (int by_hand = 0; by_hand < 2; by_hand++)
    {
      desk_session_set_finding (f->session, NULL, FALSE);
      desk_session_set_finding (f->session, worst, TRUE);
      double at_s = desk_session_get_time (f->session);
      RenderCamera close = camera_of (f);
      /* Small steps lose nothing, so that nothing is done. */
      desk_session_set_time (f->session, at_s + whole_s / 1000);
      g_assert_cmpfloat (camera_of (f).distance_m, ==, close.distance_m);
      /* Nearer still, where a tenth of the load is soon gone. */
      close.distance_m *= 0.25;
      desk_stage_set_camera (GTK_WIDGET (f->stage), close);
      f->stage->is_close = !by_hand;
      gboolean was_lost = FALSE;
      for (int i = 0; i <= 50; i++)
        {
          desk_session_set_time (f->session, whole_s * i / 50);
          was_lost |= !is_load_in_view (f);
        }
      g_assert_cmpint (was_lost, ==, by_hand);
      g_assert_cmpfloat (camera_of (f).heading_rad, ==, close.heading_rad);
      if (by_hand)
        g_assert_cmpfloat (camera_of (f).distance_m, ==, close.distance_m);
      else
        g_assert_cmpfloat (camera_of (f).distance_m, >, close.distance_m);
    }
}

/* A plan without a lift has structures, and nothing to be drawn. */
static void
test_no_lift (Fixture *f, gconstpointer data)
{
  char *folder = test_folder_new ();
  GtkWidget *list = g_object_ref_sink (desk_visibility_new (f->session));
  g_autoptr (GFile) file = test_write (
      folder, "no-lift.trunnion",
      "{\"format\": \"trunnion-plan\", \"version\": 1, \"title\": \"No lift\", "
      "\"keep_clear\": 0.3, \"structures\": [{\"id\": \"pad\", \"solid\": "
      "{\"kind\": \"box\", \"size\": [1, 1, 1]}, \"at\": {\"position\": [0, 0, 0]}}], "
      "\"components\": [], \"programme\": []}");
  desk_document_open (desk_session_get_document (f->session), file, 5000);
  test_wait (desk_session_get_site (f->session) != NULL
             && desk_session_get_lift_run (f->session) == NULL);
  act (f, "select-next");
  g_assert_cmpstr (desk_session_get_selected (f->session), ==, "pad");
  g_assert_null (desk_stage_list (f->stage));
  g_object_unref (list);
  test_folder_free (folder);
}

/* The list of structures follows the session. */
static void
test_visibility (Fixture *f, gconstpointer data)
{
  GtkWidget *list = g_object_ref_sink (desk_visibility_new (f->session));
  desk_session_set_visibility (f->session, 0, RENDER_VISIBLE_HIDDEN);
  desk_session_set_visibility (f->session, 0, RENDER_VISIBLE_SOLID);
  desk_document_close (desk_session_get_document (f->session));
  test_wait (desk_session_get_site (f->session) == NULL);
  g_object_unref (list);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  adw_init ();
  g_test_add ("/desk/stage/drawn", Fixture, NULL, set_up, test_drawn, tear_down);
  g_test_add ("/desk/stage/on-demand", Fixture, NULL, set_up, test_on_demand, tear_down);
  g_test_add ("/desk/stage/views", Fixture, NULL, set_up, test_views, tear_down);
  g_test_add ("/desk/stage/moving", Fixture, NULL, set_up, test_moving, tear_down);
  g_test_add ("/desk/stage/pointer", Fixture, NULL, set_up, test_pointer, tear_down);
  g_test_add ("/desk/stage/drift", Fixture, NULL, set_up, test_drift, tear_down);
  g_test_add ("/desk/stage/transition", Fixture, NULL, set_up, test_transition, tear_down);
  g_test_add ("/desk/stage/pick", Fixture, NULL, set_up, test_pick, tear_down);
  g_test_add ("/desk/stage/structures", Fixture, NULL, set_up, test_structures, tear_down);
  g_test_add ("/desk/stage/select-load", Fixture, NULL, set_up, test_select_load, tear_down);
  g_test_add ("/desk/stage/corners", Fixture, NULL, set_up, test_corners, tear_down);
  g_test_add ("/desk/stage/panel-left", Fixture, NULL, set_up, test_panel_left, tear_down);
  g_test_add ("/desk/stage/pointer-rests", Fixture, NULL, set_up, test_pointer_rests, tear_down);
  g_test_add ("/desk/stage/selected-named", Fixture, NULL, set_up, test_selected_named, tear_down);
  g_test_add ("/desk/stage/measuring", Fixture, NULL, set_up, test_measuring, tear_down);
  g_test_add ("/desk/stage/finding", Fixture, NULL, set_up, test_finding, tear_down);
  g_test_add ("/desk/stage/load-stays-in-view", Fixture, NULL, set_up, test_load_stays_in_view,
              tear_down);
  g_test_add ("/desk/stage/no-lift", Fixture, NULL, set_up, test_no_lift, tear_down);
  g_test_add ("/desk/stage/visibility", Fixture, NULL, set_up, test_visibility, tear_down);
  return g_test_run ();
}
