/* test-stale.c: what is shown and what is given away belong together, while another plan is read
 * and when the one that is open was changed. */
#include "first-quarks.h"
#include "window-fixture.h"

#include <string.h>

static void
open_copy (Fixture *fixture, const char *name)
{
  g_autoptr (GFile) file = test_plan_copy (fixture->folder, name);
  desk_window_open (fixture->window, file);
  test_wait (test_document_is_done (desk_session_get_document (fixture->session)));
  test_wait (desk_check_get_state (desk_session_get_check (fixture->session)) == DESK_CHECK_DONE
             && g_strcmp0 (desk_window_get_page (fixture->window), "plan") == 0);
}

static gboolean
can_do (Fixture *fixture, const char *name)
{
  return g_action_group_get_action_enabled (G_ACTION_GROUP (fixture->window), name);
}

static void
do_action (Fixture *fixture, const char *name)
{
  g_assert_true (can_do (fixture, name));
  g_action_group_activate_action (G_ACTION_GROUP (fixture->window), name, NULL);
}

/* While another plan is read the one before stays, and with it its title: its verdict must not
 * stand under the name of the other. */
static void
test_title_while_reading (Fixture *fixture, gconstpointer name)
{
  open_copy (fixture, "between-the-ends");
  g_autofree char *before = g_strdup (gtk_window_get_title (GTK_WINDOW (fixture->window)));
  g_assert_nonnull (strstr (before, "tallest"));
  g_autoptr (GFile) file = test_demo ("pump-column");
  DeskDocument *document = desk_session_get_document (fixture->session);
  desk_window_open (fixture->window, file);
  while (!test_document_is_done (document))
    {
      g_assert_cmpstr (gtk_window_get_title (GTK_WINDOW (fixture->window)), ==, before);
      g_main_context_iteration (NULL, TRUE);
    }
  test_wait (strcmp (gtk_window_get_title (GTK_WINDOW (fixture->window)), before) != 0);
}

static GtkDialog *
find_file_dialog (void)
{
  g_autoptr (GList) windows = gtk_window_list_toplevels ();
  for (GList *i = windows; i != NULL; i = i->next)
    if (GTK_IS_FILE_CHOOSER_DIALOG (i->data) && gtk_widget_get_mapped (i->data))
      return i->data;
  return NULL;
}

/* The question that comes before a file is written over. */
static GtkDialog *
find_question (void)
{
  g_autoptr (GList) windows = gtk_window_list_toplevels ();
  for (GList *i = windows; i != NULL; i = i->next)
    if (GTK_IS_MESSAGE_DIALOG (i->data) && gtk_widget_get_mapped (i->data))
      return i->data;
  return NULL;
}

static gboolean
has_chosen (GtkFileChooser *chooser, const char *path)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (chooser);
  return file != NULL && g_strcmp0 (g_file_peek_path (file), path) == 0;
}

static gboolean
is_in (GtkFileChooser *chooser, const char *path)
{
  g_autoptr (GFile) folder = gtk_file_chooser_get_current_folder (chooser);
  return folder != NULL && g_strcmp0 (g_file_peek_path (folder), path) == 0;
}

/* The dialog begins beside the plan. */
static void
save_as (Fixture *fixture, GtkDialog *dialog, const char *path)
{
  g_autofree char *base_name = g_path_get_basename (path);
  test_wait (is_in (GTK_FILE_CHOOSER (dialog), fixture->folder));
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (dialog), base_name);
  test_wait (has_chosen (GTK_FILE_CHOOSER (dialog), path));
  gtk_dialog_response (dialog, GTK_RESPONSE_ACCEPT);
}

/* What is written is of the plan that was shown when it was asked for, though another one has come
 * while the file was chosen; and never over the plan itself. */
static void
test_export (Fixture *fixture, gconstpointer name)
{
  open_copy (fixture, "between-the-ends");
  do_action (fixture, "export-json");
  test_wait (find_file_dialog () != NULL);
  GtkDialog *dialog = find_file_dialog ();
  open_copy (fixture, "drum-into-shaft");
  g_autofree char *path = g_build_filename (fixture->folder, "out.json", NULL);
  save_as (fixture, dialog, path);
  test_wait (g_file_test (path, G_FILE_TEST_EXISTS));
  g_autofree char *json = test_read (path);
  g_assert_nonnull (strstr (json, "\"file\": \"between-the-ends.trunnion\""));

  g_autofree char *plan = g_build_filename (fixture->folder, "drum-into-shaft.trunnion", NULL);
  g_autofree char *before = test_read (plan);
  test_wait (find_file_dialog () == NULL);
  do_action (fixture, "export-csv");
  test_wait (find_file_dialog () != NULL);
  save_as (fixture, find_file_dialog (), plan);
  test_wait (find_question () != NULL);
  gtk_dialog_response (find_question (), GTK_RESPONSE_ACCEPT);
  test_wait (find_file_dialog () == NULL);
  test_idle (0.5);
  g_autofree char *after = test_read (plan);
  g_assert_cmpstr (after, ==, before);
}

/* A dialog that is still open goes with its window, and what it was to write with it. */
static void
test_export_open (Fixture *fixture, gconstpointer name)
{
  open_copy (fixture, "between-the-ends");
  do_action (fixture, "export-csv");
  test_wait (find_file_dialog () != NULL);
  gpointer dialog = find_file_dialog ();
  g_object_add_weak_pointer (dialog, &dialog);
  test_wait (is_in (dialog, fixture->folder));
  DeskWindow *window = fixture->window;
  fixture->window = desk_window_new (GTK_APPLICATION (application));
  gtk_window_destroy (GTK_WINDOW (window));
  test_wait (dialog == NULL);
}

/* A table does not tell that the plan is another one by now; the JSON file does, by its sum. */
static void
test_export_stale (Fixture *fixture, gconstpointer name)
{
  open_copy (fixture, "between-the-ends");
  g_assert_true (can_do (fixture, "export-csv") && can_do (fixture, "copy-findings"));
  g_autofree char *text = test_plan_text ("between-the-ends");
  g_autofree char *other = test_replace (text, "tallest", "highest");
  g_object_unref (test_write (fixture->folder, "between-the-ends.trunnion", other));
  test_wait (desk_session_is_stale (fixture->session));
  g_assert_false (can_do (fixture, "export-csv") || can_do (fixture, "copy-findings"));
  g_assert_true (can_do (fixture, "export-json"));
}

int
main (int argc, char **argv)
{
  char *home = test_folder_new ();
  test_window_init (&argc, &argv, home);
  g_test_add ("/stale/title-while-reading", Fixture, NULL, set_up, test_title_while_reading,
              tear_down);
  g_test_add ("/stale/export", Fixture, NULL, set_up, test_export, tear_down);
  g_test_add ("/stale/export-open", Fixture, NULL, set_up, test_export_open, tear_down);
  g_test_add ("/stale/export-changed", Fixture, NULL, set_up, test_export_stale, tear_down);
  return test_window_run (home);
}
