/* test-stage-tools.c: the section of the 3D view, and the still of it in a file. */
#include "stage-fixture.h"

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

/* By keys: the plane goes on by its step along its axis and no farther than the site; it turns over
 * and lies another way. Each shows the section. */
static void
test_section_keys (Fixture *f, gconstpointer data)
{
  act_with (f, "section-move", "on");
  RenderSection first = desk_session_get_section (f->session);
  g_assert_true (first.on);
  double at_m = f->stage->plane.at_m;
  act_with (f, "section-move", "far-on");
  g_assert_cmpfloat_with_epsilon (f->stage->plane.at_m, at_m + 1, 1e-9);
  act_with (f, "section-move", "far-back");
  act_with (f, "section-move", "back");
  g_assert_cmpfloat_with_epsilon (f->stage->plane.at_m, at_m - 0.1, 1e-9);
  for (int i = 0; i < 1000; i++)
    act_with (f, "section-move", "far-on");
  TrnBox extent = desk_stage_extent (f->stage);
  double lo_m, hi_m;
  desk_section_range (&f->stage->plane, &extent, &lo_m, &hi_m);
  g_assert_cmpfloat (f->stage->plane.at_m, ==, hi_m);
  act (f, "section-over");
  TrnVec3 over = desk_session_get_section (f->session).normal;
  g_assert_cmpfloat (trn_vec3_distance (over, trn_vec3_scale (first.normal, -1)), ==, 0);
  DeskSectionKind kind = f->stage->plane.kind;
  act (f, "section-next");
  g_assert_cmpint (f->stage->plane.kind, ==, (kind + 1) % DESK_SECTION_N_KINDS);
  for (int i = 1; i < DESK_SECTION_N_KINDS; i++)
    act (f, "section-next");
  g_assert_cmpint (f->stage->plane.kind, ==, kind);
}

/* A plane by heading 0 runs east and has its axis to the south: on is north all the same. */
static void
test_section_heading (Fixture *f, gconstpointer data)
{
  act (f, "section");
  while (f->stage->plane.kind != DESK_SECTION_HEADING)
    act (f, "section-next");
  double at_m = f->stage->plane.at_m;
  g_assert_cmpfloat (desk_section_axis (&f->stage->plane).y, ==, -1);
  act_with (f, "section-move", "on");
  g_assert_cmpfloat_with_epsilon (f->stage->plane.at_m, at_m - 0.1, 1e-9);
  act_with (f, "section-move", "far-back");
  g_assert_cmpfloat_with_epsilon (f->stage->plane.at_m, at_m + 0.9, 1e-9);
}

static gboolean
is_enabled (Fixture *f, const char *action)
{
  return g_action_group_get_action_enabled (G_ACTION_GROUP (f->stage->actions), action);
}

static gboolean
write_still (Fixture *f, const char *path, int factor, gboolean clean)
{
  RenderSize size = desk_stage_size (f->stage);
  return desk_stage_write_still (f->stage, path, factor * (int)size.width,
                                 factor * (int)size.height, clean);
}

/* A picture twice the size of the view, and the view is drawn as before after it. */
static void
test_still (Fixture *f, gconstpointer data)
{
  char *folder = test_folder_new ();
  g_autofree char *path = g_build_filename (folder, "view.png", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_assert_true (write_still (f, path, 2, FALSE));
  g_assert_true (is_enabled (f, "stop-still"));
  /* One at a time. */
  g_assert_false (is_enabled (f, "still"));
  g_assert_false (write_still (f, path, 1, FALSE));
  g_assert_true (gtk_widget_get_mapped (f->stage->still_panel));
  test_wait (is_enabled (f, "still"));
  g_assert_false (is_enabled (f, "stop-still"));
  g_assert_false (gtk_widget_get_visible (f->stage->still_panel));
  g_autoptr (GError) error = NULL;
  g_autoptr (GdkTexture) texture = gdk_texture_new_from_file (file, &error);
  g_assert_no_error (error);
  RenderSize size = desk_stage_size (f->stage);
  g_assert_cmpint (gdk_texture_get_width (texture), ==, 2 * (int)size.width);
  g_assert_cmpint (gdk_texture_get_height (texture), ==, 2 * (int)size.height);
  g_assert_true (gtk_widget_get_visible (f->stage->still_note));
  act (f, "zoom-in");
  test_idle (0.5);
  g_assert_cmpuint (count_colours (f), >, 100);
  /* Any other size, as typed. */
  g_assert_true (desk_stage_write_still (f->stage, path, 333, 777, FALSE));
  test_wait (is_enabled (f, "still"));
  g_autoptr (GdkTexture) upright = gdk_texture_new_from_file (file, &error);
  g_assert_no_error (error);
  g_assert_cmpint (gdk_texture_get_width (upright), ==, 333);
  g_assert_cmpint (gdk_texture_get_height (upright), ==, 777);
  test_folder_free (folder);
}

static guint
count_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;
  while (g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

/* The picture is that of the moment at which it was asked for, whatever is done meanwhile: the plan
 * is closed under it, and the file is the same as the one written with nothing done, to the byte.
 */
static void
test_still_snapshot (Fixture *f, gconstpointer data)
{
  char *folder = test_folder_new ();
  char *paths[]
      = { g_build_filename (folder, "a.png", NULL), g_build_filename (folder, "b.png", NULL) };
  char *bytes[2];
  gsize lengths[2];
  /* What is still being worked out would show in the second. */
  test_wait (test_is_settled (f->session));
  test_idle (0.3);
  for (guint i = 0; i < 2; i++)
    {
      g_assert_true (write_still (f, paths[i], 2, FALSE));
      if (i == 1)
        {
          act (f, "view-plan");
          desk_session_set_time (f->session, 1e9);
          desk_document_close (desk_session_get_document (f->session));
          test_wait (desk_session_get_site (f->session) == NULL);
        }
      test_wait (is_enabled (f, "still"));
      g_assert_true (g_file_get_contents (paths[i], &bytes[i], &lengths[i], NULL));
    }
  g_assert_cmpmem (bytes[0], lengths[0], bytes[1], lengths[1]);
  for (guint i = 0; i < 2; i++)
    {
      g_free (bytes[i]);
      g_free (paths[i]);
    }
  test_folder_free (folder);
}

/* Nothing is left in the folder, and no dialog comes. */
static void
test_still_stopped (Fixture *f, gconstpointer data)
{
  char *folder = test_folder_new ();
  g_autofree char *path = g_build_filename (folder, "view.png", NULL);
  guint before = g_list_model_get_n_items (gtk_window_get_toplevels ());
  g_assert_true (write_still (f, path, 4, FALSE));
  act (f, "stop-still");
  test_wait (is_enabled (f, "still"));
  test_idle (0.1);
  g_assert_cmpuint (count_files (folder), ==, 0);
  g_assert_cmpuint (g_list_model_get_n_items (gtk_window_get_toplevels ()), ==, before);
  test_folder_free (folder);
}

/* The window is closed while a picture is drawn: the view goes at once, and nothing is written. */
static void
test_still_closed (Fixture *f, gconstpointer data)
{
  char *folder = test_folder_new ();
  g_autofree char *path = g_build_filename (folder, "view.png", NULL);
  g_assert_true (write_still (f, path, 4, FALSE));
  gpointer stage = f->stage;
  g_object_add_weak_pointer (G_OBJECT (stage), &stage);
  gtk_window_destroy (GTK_WINDOW (f->window));
  g_assert_null (stage);
  f->window = gtk_window_new ();
  test_idle (1);
  g_assert_cmpuint (count_files (folder), ==, 0);
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
  g_assert_true (write_still (f, path, 1, TRUE));
  test_wait (g_list_model_get_n_items (toplevels) == before + 1);
  test_folder_free (folder);
}

/* A picture is not written over the plan, whatever the name that leads to it: a dialog says so. */
static void
test_still_over_plan (Fixture *f, gconstpointer data)
{
  char *folder = test_folder_new ();
  g_autofree char *path = g_build_filename (folder, "view.png", NULL);
  g_autoptr (GFile) plan = test_demo ("lock-gate"), link = g_file_new_for_path (path);
  g_assert_true (g_file_make_symbolic_link (link, g_file_peek_path (plan), NULL, NULL));
  guint before = g_list_model_get_n_items (gtk_window_get_toplevels ());
  g_assert_true (write_still (f, path, 1, TRUE));
  test_wait (is_enabled (f, "still"));
  g_assert_true (g_file_test (path, G_FILE_TEST_IS_SYMLINK));
  g_assert_cmpuint (g_list_model_get_n_items (gtk_window_get_toplevels ()), ==, before + 1);
  test_folder_free (folder);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  adw_init ();
  g_test_add ("/desk/stage/section-keys", Fixture, NULL, set_up, test_section_keys, tear_down);
  g_test_add ("/desk/stage/section-heading", Fixture, NULL, set_up, test_section_heading,
              tear_down);
  g_test_add ("/desk/stage/section", Fixture, NULL, set_up, test_section, tear_down);
  g_test_add ("/desk/stage/still", Fixture, NULL, set_up, test_still, tear_down);
  g_test_add ("/desk/stage/still-snapshot", Fixture, NULL, set_up, test_still_snapshot, tear_down);
  g_test_add ("/desk/stage/still-over-plan", Fixture, NULL, set_up, test_still_over_plan,
              tear_down);
  g_test_add ("/desk/stage/still-stopped", Fixture, NULL, set_up, test_still_stopped, tear_down);
  g_test_add ("/desk/stage/still-closed", Fixture, NULL, set_up, test_still_closed, tear_down);
  g_test_add ("/desk/stage/still-fails", Fixture, NULL, set_up, test_still_fails, tear_down);
  return g_test_run ();
}
