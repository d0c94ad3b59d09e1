/* test-files.c: the window of the mesh files of a plan, and where else the desk tells of them. */
#include "window-look.h"

#include <string.h>

#include "file-words.h"
#include "files-window.h"
#include "visibility.h"

/* Two triangles of a tetrahedron, the second of them twice, beside a tetrahedron that is inside
 * out. */
static const char sheet[]
    = "o sheet\nv 0 0 0\nv 1 0 0\nv 0 1 0\nv 0 0 1\nf 1 3 2\nf 1 2 4\nf 1 2 4\n"
      "o stone\nv 5 0 0\nv 6 0 0\nv 5 1 0\nv 5 0 1\n"
      "f 5 6 7\nf 5 8 6\nf 6 8 7\nf 7 8 5\n";

static void
open_plan (Fixture *fixture)
{
  g_object_unref (test_write (fixture->folder, "sheet.obj", sheet));
  g_autofree char *text = test_plan_text ("between-the-ends");
  g_autofree char *odd
      = test_replace (text, "\"solid\": {\"kind\": \"box\", \"size\": [20, 2, 4]}",
                      "\"mesh\": {\"file\": \"sheet.obj\", \"unit\": \"m\", \"up\": \"z\"}");
  g_autoptr (GFile) file = test_write (fixture->folder, "plan.trunnion", odd);
  desk_window_open (fixture->window, file);
  DeskDocument *document = desk_session_get_document (fixture->session);
  test_wait (test_document_is_done (document) && shows (fixture, "plan"));
}

/* A label that is shown and has this in its text. */
static gboolean
is_saying (GtkWidget *widget, gconstpointer text)
{
  return GTK_IS_LABEL (widget) && gtk_widget_get_mapped (widget)
         && strstr (gtk_label_get_text (GTK_LABEL (widget)), text) != NULL;
}

static gboolean
says (gpointer window, const char *text)
{
  return find (GTK_WIDGET (window), is_saying, text) != NULL;
}

/* The window of files, of which there is one at most; NULL where there is none. */
static GtkWindow *
find_window (Fixture *fixture)
{
  g_autoptr (GList) windows = gtk_window_list_toplevels ();
  GtkWindow *found = NULL;
  for (GList *l = windows; l != NULL; l = l->next)
    if (gtk_window_get_transient_for (l->data) == GTK_WINDOW (fixture->window))
      {
        g_assert_null (found);
        found = l->data;
      }
  return found;
}

/* What was found stands there, and who said so; the view goes on beside it. Asked for again it is
 * the same window; another plan fills it anew, and without one it goes. */
static void
test_list (Fixture *fixture, gconstpointer name)
{
  g_assert_false (can_do (fixture, "show-files"));
  open_plan (fixture);
  do_action (fixture, "show-files");
  GtkWindow *window = find_window (fixture);
  g_assert_nonnull (window);
  g_assert_false (gtk_window_get_modal (window));
  test_wait (says (window, "sheet.obj"));
  const char *texts[] = { "Shape of ",
                          "6 triangles in 2 parts, open: 1 hole, 1 m across",
                          "unit m, Z up (given by the plan)",
                          "1 duplicate triangle dropped",
                          "1 piece that was inside out turned",
                          "Warning: Closed pieces in it were inside out",
                          "is not closed" };
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_test_message ("%s", texts[i]);
      g_assert_true (says (window, texts[i]));
    }
  do_action (fixture, "show-files");
  g_assert_true (find_window (fixture) == window);
  open_copy (fixture, "changes");
  test_wait (says (window, trn_words_file (TRN_FILE_NONE)));
  do_action (fixture, "close-plan");
  test_wait (find_window (fixture) == NULL);
}

/* Its own window is closed by Escape; that of the plan takes it along. */
static void
test_close (Fixture *fixture, gconstpointer name)
{
  open_plan (fixture);
  do_action (fixture, "show-files");
  gtk_widget_activate_action (GTK_WIDGET (find_window (fixture)), "window.close", NULL);
  test_wait (find_window (fixture) == NULL);
  do_action (fixture, "show-files");
  g_assert_nonnull (find_window (fixture));
}

static gboolean
is_hinting (GtkWidget *widget, gconstpointer text)
{
  const char *hint = g_object_get_data (G_OBJECT (widget), "desk-hint");
  return GTK_IS_CHECK_BUTTON (widget) && hint != NULL && strstr (hint, text) != NULL;
}

/* In the list of the bodies the hint of a row tells of its file. */
static void
test_hint (Fixture *fixture, gconstpointer name)
{
  g_autoptr (GFile) file = test_demo ("lock-gate");
  desk_window_open (fixture->window, file);
  test_wait (shows (fixture, "plan"));
  GtkWidget *window = gtk_window_new ();
  GtkWidget *list = desk_visibility_new (fixture->session);
  gtk_window_set_child (GTK_WINDOW (window), list);
  gtk_window_present (GTK_WINDOW (window));
  test_wait (find (list, is_hinting, "\ngatehouse.obj: 278 triangles in 3 parts, closed"));
  gtk_window_destroy (GTK_WINDOW (window));
}

int
main (int argc, char **argv)
{
  char *home = test_folder_new ();
  test_window_init (&argc, &argv, home);
  g_test_add ("/files/list", Fixture, NULL, set_up, test_list, tear_down);
  g_test_add ("/files/hint", Fixture, NULL, set_up, test_hint, tear_down);
  g_test_add ("/files/close", Fixture, NULL, set_up, test_close, tear_down);
  return test_window_run (home);
}
