/* The 3D view in a window of its own, with a demo in it: that it is drawn, and that what it can be
 * told to do is done. */
#include "desk-fixture.h"
#include "keep-loaded.h"
#include "sight.h"
#include "stage-private.h"
#include "visibility.h"

typedef struct
{
  DeskSession *session;
  GtkWidget *window;
  DeskStage *stage;
} Fixture;

static void
set_animated (gboolean animated)
{
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", animated, NULL);
}

static void
set_up (Fixture *f, gconstpointer data)
{
  set_animated (FALSE);
  f->session = desk_session_new ();
  GtkWidget *stage = desk_stage_new (f->session);
  f->stage = DESK_STAGE (stage);
  f->window = gtk_window_new ();
  gtk_window_set_default_size (GTK_WINDOW (f->window), 900, 600);
  gtk_window_set_child (GTK_WINDOW (f->window), stage);
  gtk_window_present (GTK_WINDOW (f->window));
  g_autoptr (GFile) file = test_demo ("lock-gate");
  desk_document_open (desk_session_get_document (f->session), file, 5000);
  test_wait (desk_session_get_site (f->session) != NULL);
  test_wait (f->stage->has_camera && f->stage->list != NULL && !f->stage->moving);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  gtk_window_destroy (GTK_WINDOW (f->window));
  test_idle (0.05);
  g_object_unref (f->session);
}

static void
act (Fixture *f, const char *action)
{
  g_action_group_activate_action (G_ACTION_GROUP (f->stage->actions), action, NULL);
}

static void
act_with (Fixture *f, const char *action, const char *word)
{
  g_action_group_activate_action (G_ACTION_GROUP (f->stage->actions), action,
                                  g_variant_new_string (word));
}

static RenderCamera
camera_of (Fixture *f)
{
  return desk_stage_get_camera (GTK_WIDGET (f->stage));
}

/* What the view has drawn; NULL while it is to be drawn again. */
static GskRenderNode *
node_of (GtkWidget *area)
{
  g_autoptr (GdkPaintable) paintable = gtk_widget_paintable_new (area);
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  gdk_paintable_snapshot (paintable, snapshot, gtk_widget_get_width (area),
                          gtk_widget_get_height (area));
  return gtk_snapshot_free_to_node (snapshot);
}

/* How many different colours the view has in a grid of places. */
static guint
count_colours (Fixture *f)
{
  GtkWidget *area = f->stage->area;
  int width = gtk_widget_get_width (area), height = gtk_widget_get_height (area);
  GskRenderNode *node = NULL;
  test_wait (node != NULL || (node = node_of (area)) != NULL);
  GskRenderer *renderer = gtk_native_get_renderer (gtk_widget_get_native (area));
  g_autoptr (GdkTexture) texture = gsk_renderer_render_texture (
      renderer, node, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  gsk_render_node_unref (node);
  g_autofree guint32 *pixels = g_new (guint32, (gsize)width * (gsize)height);
  gdk_texture_download (texture, (guchar *)pixels, (gsize)width * 4);
  g_autoptr (GHashTable) colours = g_hash_table_new (NULL, NULL);
  for (int y = 5; y < height; y += 10)
    for (int x = 5; x < width; x += 10)
      g_hash_table_add (colours, GUINT_TO_POINTER (pixels[y * width + x]));
  return g_hash_table_size (colours);
}

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
  test_idle (0.6);
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

/* Structures one after the other; what is done to the one that is selected, and back again. */
static void
test_structures (Fixture *f, gconstpointer data)
{
  guint n = desk_session_get_site (f->session)->display->n_structure_bodies, at;
  g_assert_cmpuint (n, >, 1);
  for (guint i = 0; i < n; i++)
    {
      act (f, "select-next");
      g_assert_true (desk_stage_selected_structure (f->stage, &at));
      g_assert_cmpuint (at, ==, i);
    }
  act (f, "select-next");
  act (f, "select-previous");
  g_assert_true (desk_stage_selected_structure (f->stage, &at));
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

static gboolean
state_of (Fixture *f, const char *action)
{
  g_autoptr (GVariant) state
      = g_action_group_get_action_state (G_ACTION_GROUP (f->stage->actions), action);
  return g_variant_get_boolean (state);
}

/* On and off again; the state of the action follows, also when the session is told by another. */
static void
test_section (Fixture *f, gconstpointer data)
{
  act (f, "section");
  g_assert_true (desk_session_get_section (f->session).on);
  g_assert_true (state_of (f, "section"));
  RenderSection section = desk_session_get_section (f->session);
  g_assert_cmpfloat_with_epsilon (trn_vec3_length (section.normal), 1, 1e-12);
  section.on = FALSE;
  desk_session_set_section (f->session, section);
  g_assert_false (state_of (f, "section"));
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

/* A picture twice the size of the view, and the view is drawn as before after it. */
static void
test_still (Fixture *f, gconstpointer data)
{
  char *folder = test_folder_new ();
  g_autofree char *path = g_build_filename (folder, "view.png", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_assert_true (desk_stage_write_still (f->stage, path, 2, FALSE));
  test_wait (g_file_query_exists (file, NULL));
  g_autoptr (GError) error = NULL;
  g_autoptr (GdkTexture) texture = gdk_texture_new_from_file (file, &error);
  g_assert_no_error (error);
  RenderSize size = desk_stage_size (f->stage);
  g_assert_cmpint (gdk_texture_get_width (texture), ==, 2 * (int)size.width);
  g_assert_cmpint (gdk_texture_get_height (texture), ==, 2 * (int)size.height);
  act (f, "zoom-in");
  test_idle (0.5);
  g_assert_cmpuint (count_colours (f), >, 100);
  test_folder_free (folder);
}

/* Where nothing can be written a dialog says so. */
static void
test_still_fails (Fixture *f, gconstpointer data)
{
  char *folder = test_folder_new ();
  g_autofree char *path = g_build_filename (folder, "no-such-folder", "view.png", NULL);
  GListModel *toplevels = gtk_window_get_toplevels ();
  guint before = g_list_model_get_n_items (toplevels);
  g_assert_true (desk_stage_write_still (f->stage, path, 1, TRUE));
  test_wait (g_list_model_get_n_items (toplevels) == before + 1);
  test_folder_free (folder);
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
  g_test_add ("/desk/stage/transition", Fixture, NULL, set_up, test_transition, tear_down);
  g_test_add ("/desk/stage/pick", Fixture, NULL, set_up, test_pick, tear_down);
  g_test_add ("/desk/stage/structures", Fixture, NULL, set_up, test_structures, tear_down);
  g_test_add ("/desk/stage/section", Fixture, NULL, set_up, test_section, tear_down);
  g_test_add ("/desk/stage/measuring", Fixture, NULL, set_up, test_measuring, tear_down);
  g_test_add ("/desk/stage/still", Fixture, NULL, set_up, test_still, tear_down);
  g_test_add ("/desk/stage/still-fails", Fixture, NULL, set_up, test_still_fails, tear_down);
  g_test_add ("/desk/stage/finding", Fixture, NULL, set_up, test_finding, tear_down);
  g_test_add ("/desk/stage/no-lift", Fixture, NULL, set_up, test_no_lift, tear_down);
  g_test_add ("/desk/stage/visibility", Fixture, NULL, set_up, test_visibility, tear_down);
  return g_test_run ();
}
