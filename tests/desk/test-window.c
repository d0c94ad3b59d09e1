/* test-window.c: the window as a whole, on a display of the test's own: every page, every action by
 * a key, and the way from the start page to a verdict. */
#include "cell.h"
#include "window-look.h"

#include <string.h>

#include "fault-page.h"
#include "stage.h"
#include "stage-words.h"
#include "start-page.h"
#include "window-words.h"

static gboolean
is_called (GtkWidget *widget, gconstpointer name)
{
  return strcmp (gtk_widget_get_name (widget), name) == 0;
}

static gboolean
is_revealer (GtkWidget *widget, gconstpointer data)
{
  return GTK_IS_REVEALER (widget);
}

/* From the start page by one click to the verdict: demo (b) falls short between the ends of a
 * move. What was not checked stands beside it. */
static void
test_start_page (Fixture *fixture, gconstpointer name)
{
  g_assert_true (shows (fixture, "start"));
  g_assert_cmpstr (desk_window_get_headline (fixture->window), ==, "");
  GtkWidget *button = find (GTK_WIDGET (fixture->window), is_called, "lock-gate");
  g_assert_nonnull (button);
  g_assert_true (gtk_widget_activate (button));
  test_wait (shows (fixture, "plan"));
  test_wait (is_checked (fixture));
  const char *headline = desk_window_get_headline (fixture->window);
  g_assert_nonnull (strstr (headline, "1 finding does not meet what is set"));
  g_assert_nonnull (strstr (headline, "not checked: wind"));
  /* The worst is looked at first. */
  const TrnFinding *finding = desk_session_get_finding (fixture->session);
  g_assert_nonnull (finding);
  g_assert_cmpint (finding->verdict, ==, TRN_VERDICT_FAIL);
  do_action (fixture, "worst");
  g_assert_cmpfloat (desk_session_get_time (fixture->session), ==, finding->time_s);
}

/* Before the check has come to its end the headline says so, and promises nothing. */
static void
test_headline (Fixture *fixture, gconstpointer name)
{
  open_copy (fixture, "changes");
  do_action (fixture, can_do (fixture, "check") ? "check" : "cancel-check");
  if (can_do (fixture, "cancel-check"))
    do_action (fixture, "cancel-check");
  const char *headline = desk_window_get_headline (fixture->window);
  g_assert_nonnull (strstr (headline, "Check stopped"));
  g_assert_nonnull (strstr (headline, "not checked"));
  do_action (fixture, "check");
  g_assert_nonnull (strstr (desk_window_get_headline (fixture->window), "Checking, 0 of 4"));
  g_assert_false (can_do (fixture, "check"));
  test_wait (is_checked (fixture));
  g_assert_null (strstr (desk_window_get_headline (fixture->window), "Checking"));
  g_assert_false (can_do (fixture, "cancel-check"));
}

/* Faults are listed, one row each, can be copied, and go when the plan was put right. */
static void
test_faulty (Fixture *fixture, gconstpointer name)
{
  g_autofree char *text = test_plan_text ("between-the-ends");
  g_autofree char *bad = test_replace (text, "\"seconds\": 90", "\"secnods\": 90");
  g_autoptr (GFile) file = test_write (fixture->folder, "plan.trunnion", bad);
  desk_window_open (fixture->window, file);
  test_wait (shows (fixture, "faults"));
  const TrnDiags *diags = desk_document_get_diags (desk_session_get_document (fixture->session));
  g_assert_cmpuint (diags->items->len, ==, 2);
  g_autofree char *list = desk_window_faults_text_dup (fixture->window);
  g_auto (GStrv) lines = g_strsplit (list, "\n", -1);
  g_assert_cmpuint (g_strv_length (lines), ==, diags->items->len + 1);
  g_assert_nonnull (strstr (list, "secnods"));
  g_assert_nonnull (strstr (list, "/programme/0/moves/1"));
  g_assert_false (can_do (fixture, "play"));
  g_assert_false (can_do (fixture, "check"));
  do_action (fixture, "copy-faults");
  g_object_unref (test_write (fixture->folder, "plan.trunnion", text));
  do_action (fixture, "reload");
  test_wait (shows (fixture, "plan"));
}

static gboolean
is_text (GtkWidget *widget, gconstpointer text)
{
  return GTK_IS_LABEL (widget) && strcmp (gtk_label_get_text (GTK_LABEL (widget)), text) == 0;
}

static gboolean
is_copy_button (GtkWidget *widget, gconstpointer data)
{
  const char *tooltip = gtk_widget_get_tooltip_text (widget);
  return GTK_IS_BUTTON (widget) && gtk_widget_get_mapped (widget) && tooltip != NULL
         && strcmp (tooltip, trn_words_window (TRN_WINDOW_COPY_ROW)) == 0;
}

static void
on_text (GObject *clipboard, GAsyncResult *result, gpointer text)
{
  *(char **)text = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (clipboard), result, NULL);
}

/* The file stands above the faults, once; a row says where in it, and is copied by a button that
 * the keyboard reaches, with the file. */
static void
test_fault_rows (Fixture *fixture, gconstpointer name)
{
  g_autofree char *text = test_plan_text ("between-the-ends");
  g_autofree char *bad = test_replace (text, "\"seconds\": 90", "\"secnods\": 90");
  g_autoptr (GFile) file = test_write (fixture->folder, "plan.trunnion", bad);
  desk_window_open (fixture->window, file);
  test_wait (shows (fixture, "faults"));
  const TrnDiags *diags = desk_document_get_diags (desk_session_get_document (fixture->session));
  g_autofree char *path = g_file_get_path (file);
  g_assert_nonnull (find (GTK_WIDGET (fixture->window), is_text, path));
  const TrnDiag *first = diags->items->pdata[0];
  g_autofree char *place = trn_words_fault_place (first, path);
  g_assert_null (strstr (place, fixture->folder));
  g_assert_true (g_str_has_suffix (place, first->pointer));
  test_wait (find (GTK_WIDGET (fixture->window), is_text, place) != NULL);
  GtkWidget *copy = find (GTK_WIDGET (fixture->window), is_copy_button, NULL);
  g_assert_nonnull (copy);
  g_assert_true (gtk_widget_grab_focus (copy));
  g_autofree char *copied = NULL, *line = trn_words_diag (first);
  GdkClipboard *clipboard = gtk_widget_get_clipboard (GTK_WIDGET (fixture->window));
  guint n_changes;
  test_count_signal (clipboard, "changed", &n_changes);
  g_assert_true (gtk_widget_activate (copy));
  test_wait (n_changes > 0);
  g_signal_handlers_disconnect_by_data (clipboard, &n_changes);
  gdk_clipboard_read_text_async (clipboard, NULL, on_text, &copied);
  test_wait (copied != NULL);
  g_assert_cmpstr (copied, ==, line);
}

static gboolean
is_back_button (GtkWidget *widget, gconstpointer data)
{
  return GTK_IS_BUTTON (widget) && gtk_widget_get_mapped (widget)
         && g_strcmp0 (gtk_actionable_get_action_name (GTK_ACTIONABLE (widget)), "win.back-to-open")
                == 0;
}

/* A programme without a lift is allowed, and the view says what is missing; when there is one, the
 * view is a view again. */
static void
test_no_lift (Fixture *fixture, gconstpointer name)
{
  static const char without[]
      = "{\"format\": \"trunnion-plan\", \"version\": 1, \"structures\": [], \"components\": ["
        "{\"id\": \"crate\", \"at\": {\"position\": [0, 0, 0]}, \"solid\": "
        "{\"kind\": \"box\", \"size\": [1, 1, 1]}}], \"programme\": []}";
  g_autoptr (GFile) file = test_write (fixture->folder, "changes.trunnion", without);
  desk_window_open (fixture->window, file);
  test_wait (shows (fixture, "plan"));
  GtkWidget *text = find (desk_window_get_stage (fixture->window), is_text,
                          trn_words_stage (TRN_STAGE_NO_LIFT));
  g_assert_nonnull (text);
  test_wait (gtk_widget_get_mapped (text));
  open_copy (fixture, "changes");
  test_wait (!gtk_widget_get_mapped (text));
}

/* A good plan, then one that fails: back to the good one by a button, with its file, and it is
 * checked again. A second failure does not lose it; the same plan spoilt, a good one or nothing
 * open before offer no way back. */
static void
test_back_to_open (Fixture *fixture, gconstpointer name)
{
  DeskDocument *document = desk_session_get_document (fixture->session);
  g_autoptr (GFile) bad = test_write (fixture->folder, "bad.trunnion", "{}");
  g_autoptr (GFile) worse = test_write (fixture->folder, "worse.trunnion", "[");
  desk_window_open (fixture->window, bad);
  test_wait (shows (fixture, "faults"));
  g_assert_false (can_do (fixture, "back-to-open"));
  open_copy (fixture, "changes");
  g_autofree char *title = g_strdup (desk_document_get_title (document));
  g_autoptr (GFile) good = g_object_ref (desk_document_get_file (document));
  GFile *const failing[] = { bad, worse };
  for (guint i = 0; i < G_N_ELEMENTS (failing); i++)
    {
      desk_window_open (fixture->window, failing[i]);
      test_wait (test_document_is_done (document) && shows (fixture, "faults"));
    }
  test_wait (can_do (fixture, "back-to-open"));
  GtkWidget *button = find (GTK_WIDGET (fixture->window), is_back_button, NULL);
  g_assert_nonnull (button);
  g_assert_true (gtk_widget_grab_focus (button));
  g_assert_true (gtk_widget_activate (button));
  test_wait (shows (fixture, "plan"));
  g_assert_cmpstr (desk_document_get_title (document), ==, title);
  g_assert_true (g_file_equal (desk_document_get_file (document), good));
  test_wait (is_checked (fixture));
  g_assert_false (can_do (fixture, "back-to-open"));
  g_object_unref (test_write (fixture->folder, "changes.trunnion", "{}"));
  test_wait (desk_document_is_changed_on_disk (document));
  do_action (fixture, "reload");
  test_wait (test_document_is_done (document) && shows (fixture, "faults"));
  g_assert_false (can_do (fixture, "back-to-open"));
}

/* What was noticed about a plan that can be shown is a page of its own, and back again. */
static void
test_remarks (Fixture *fixture, gconstpointer name)
{
  static const char open_mesh[] = "v 0 0 0\nv 1 0 0\nv 0 1 0\nv 0 0 1\nf 1 3 2\nf 1 2 4\n";
  g_object_unref (test_write (fixture->folder, "sheet.obj", open_mesh));
  g_autofree char *text = test_plan_text ("between-the-ends");
  g_autofree char *odd
      = test_replace (text, "\"solid\": {\"kind\": \"box\", \"size\": [20, 2, 4]}",
                      "\"mesh\": {\"file\": \"sheet.obj\", \"unit\": \"m\", \"up\": \"z\"}");
  g_autoptr (GFile) file = test_write (fixture->folder, "plan.trunnion", odd);
  desk_window_open (fixture->window, file);
  test_wait (shows (fixture, "plan"));
  do_action (fixture, "show-remarks");
  g_assert_true (shows (fixture, "faults"));
  do_action (fixture, "show-plan");
  g_assert_true (shows (fixture, "plan"));
  open_copy (fixture, "between-the-ends");
  test_wait (!can_do (fixture, "show-remarks"));
}

/* Written by another program, the plan is offered again; read again, the offer goes. */
static void
test_changed_on_disk (Fixture *fixture, gconstpointer name)
{
  open_copy (fixture, "between-the-ends");
  test_wait (is_checked (fixture));
  GtkRevealer *bar = GTK_REVEALER (find (GTK_WIDGET (fixture->window), is_revealer, NULL));
  g_assert_false (gtk_revealer_get_reveal_child (bar));
  g_autofree char *text = test_plan_text ("between-the-ends");
  g_autofree char *other = test_replace (text, "\"keep_clear\": 0.5", "\"keep_clear\": 0.3");
  g_object_unref (test_write (fixture->folder, "between-the-ends.trunnion", other));
  test_wait (gtk_revealer_get_reveal_child (bar));
  g_assert_nonnull (
      strstr (desk_window_get_headline (fixture->window), "The plan was changed since"));
  do_action (fixture, "reload");
  g_assert_true (shows (fixture, "plan"));
  test_wait (test_document_is_done (desk_session_get_document (fixture->session)));
  test_wait (!gtk_revealer_get_reveal_child (bar) && is_checked (fixture));
  const char *headline = desk_window_get_headline (fixture->window);
  g_assert_null (strstr (headline, "does not meet"));
  g_assert_nonnull (strstr (headline, "3 clearances meet the set values"));
}

/* Reading can be given up: then it is as it was before. */
static void
test_cancel_reading (Fixture *fixture, gconstpointer name)
{
  g_autoptr (GFile) file = test_demo ("pump-column");
  desk_window_open (fixture->window, file);
  test_wait (shows (fixture, "loading"));
  do_action (fixture, "cancel-reading");
  test_wait (shows (fixture, "start"));
  open_copy (fixture, "between-the-ends");
  do_action (fixture, "close-plan");
  test_wait (shows (fixture, "start"));
}

/* Time runs by itself while playing, and the keys of the transport do what they say. */
static void
test_playing (Fixture *fixture, gconstpointer name)
{
  open_copy (fixture, "between-the-ends");
  do_action (fixture, "play");
  g_assert_true (desk_session_get_playing (fixture->session));
  test_wait (desk_session_get_time (fixture->session) > 1);
  do_action (fixture, "play");
  g_assert_false (desk_session_get_playing (fixture->session));
  do_action (fixture, "end-of-lift");
  g_assert_cmpfloat (desk_session_get_time (fixture->session), ==, 92);
  do_action (fixture, "previous-move");
  g_assert_cmpfloat (desk_session_get_time (fixture->session), ==, 91);
  do_action (fixture, "start-of-lift");
  do_action (fixture, "next-move");
  g_assert_cmpfloat (desk_session_get_time (fixture->session), ==, 1);
  do_action (fixture, "step-forward");
  do_action (fixture, "step-back");
  g_assert_cmpfloat (desk_session_get_time (fixture->session), ==, 1);
  double rate = desk_session_get_rate (fixture->session);
  do_action (fixture, "faster");
  g_assert_cmpfloat (desk_session_get_rate (fixture->session), >, rate);
  do_action (fixture, "slower");
  g_assert_cmpfloat (desk_session_get_rate (fixture->session), ==, rate);
}

static void
add_accels (GHashTable *reached)
{
  g_auto (GStrv) names = gtk_application_list_action_descriptions (GTK_APPLICATION (application));
  for (guint i = 0; names[i] != NULL; i++)
    g_hash_table_add (reached, g_strdup (names[i]));
}

static void
add_plain_keys (GHashTable *reached, GtkWidget *window)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (window);
  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GObject) controller = g_list_model_get_item (controllers, i);
      if (!GTK_IS_SHORTCUT_CONTROLLER (controller))
        continue;
      for (guint k = 0; k < g_list_model_get_n_items (G_LIST_MODEL (controller)); k++)
        {
          g_autoptr (GtkShortcut) shortcut = g_list_model_get_item (G_LIST_MODEL (controller), k);
          GtkShortcutAction *action = gtk_shortcut_get_action (shortcut);
          if (GTK_IS_NAMED_ACTION (action))
            g_hash_table_add (
                reached, g_strdup (gtk_named_action_get_action_name (GTK_NAMED_ACTION (action))));
        }
    }
}

static void
add_button (GtkWidget *widget, gpointer reached)
{
  if (GTK_IS_ACTIONABLE (widget) && gtk_widget_get_focusable (widget)
      && gtk_actionable_get_action_name (GTK_ACTIONABLE (widget)) != NULL)
    g_hash_table_add (reached, g_strdup (gtk_actionable_get_action_name (GTK_ACTIONABLE (widget))));
}

/* Every action without a parameter is reached by a key, or by a button that the focus goes to. Keys
 * that work in the view alone are its own (stage.h). */
static void
test_keys (Fixture *fixture, gconstpointer name)
{
  static const char *const of_view[] = { "win.zoom-in",
                                         "win.zoom-out",
                                         "win.select-next",
                                         "win.select-previous",
                                         "win.ghost",
                                         "win.hide",
                                         "win.isolate",
                                         "win.clear-measures",
                                         "win.show-all",
                                         "win.section-next",
                                         "win.section-over",
                                         "win.stop-still",
                                         NULL };
  g_autoptr (GHashTable) reached = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  add_accels (reached);
  add_plain_keys (reached, GTK_WIDGET (fixture->window));
  test_walk (GTK_WIDGET (fixture->window), add_button, reached);
  GActionGroup *group = G_ACTION_GROUP (fixture->window);
  g_auto (GStrv) names = g_action_group_list_actions (group);
  g_assert_cmpuint (g_strv_length (names), >, 20);
  for (guint i = 0; names[i] != NULL; i++)
    {
      g_autofree char *full = g_strconcat ("win.", names[i], NULL);
      if (g_action_group_get_action_parameter_type (group, names[i]) != NULL
          || g_hash_table_contains (reached, full) || g_strv_contains (of_view, full))
        continue;
      g_test_message ("no key reaches %s", full);
      g_test_fail ();
    }
  /* And no key is set twice. */
  g_autoptr (GHashTable) used = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_auto (GStrv) actions = gtk_application_list_action_descriptions (GTK_APPLICATION (application));
  for (guint i = 0; actions[i] != NULL; i++)
    {
      g_auto (GStrv) accels
          = gtk_application_get_accels_for_action (GTK_APPLICATION (application), actions[i]);
      for (guint k = 0; accels[k] != NULL; k++)
        g_assert_true (g_hash_table_add (used, g_strdup (accels[k])));
    }
}

static gboolean
says (Fixture *fixture, const char *text)
{
  GtkWidget *label = find (GTK_WIDGET (fixture->window), is_text, text);
  return label != NULL && gtk_widget_get_mapped (label);
}

/* A structure that cannot be read: the rest is shown, a bar over the rooms says what is missing and
 * leads to the faults, the headline says that nothing was checked, and no check can be started. */
static void
test_left_out (Fixture *fixture, gconstpointer name)
{
  g_autoptr (GFile) file = test_gate_copy (fixture->folder, "gatehouse.obj");
  desk_window_open (fixture->window, file);
  test_wait (shows (fixture, "plan"));
  g_autofree char *text = trn_words_left_out (1);
  test_wait (says (fixture, text));
  g_assert_nonnull (strstr (text, "Nothing was checked"));
  g_assert_true (g_str_has_prefix (desk_window_get_headline (fixture->window), "Not checked"));
  g_assert_false (can_do (fixture, "check"));
  g_assert_false (can_do (fixture, "present"));
  g_assert_true (can_do (fixture, "play"));
  do_action (fixture, "show-remarks");
  test_wait (shows (fixture, "faults"));
  g_autofree char *title = trn_words_partial_title (
      desk_document_get_title (desk_session_get_document (fixture->session)), 1);
  test_wait (says (fixture, title));
  g_assert_true (can_do (fixture, "show-plan"));
  do_action (fixture, "show-plan");
  test_wait (shows (fixture, "plan"));
  g_object_unref (test_gate_copy (fixture->folder, NULL));
  do_action (fixture, "reload");
  test_wait (is_checked (fixture));
  test_wait (!says (fixture, text));
  g_assert_true (can_do (fixture, "present"));
}

/* ---- saved views ---- */

static AdwMessageDialog *
find_dialog (void)
{
  g_autoptr (GList) windows = gtk_window_list_toplevels ();
  for (GList *i = windows; i != NULL; i = i->next)
    if (ADW_IS_MESSAGE_DIALOG (i->data) && gtk_widget_get_mapped (i->data))
      return i->data;
  return NULL;
}

static gboolean
is_button_called (GtkWidget *widget, gconstpointer label)
{
  return GTK_IS_BUTTON (widget) && gtk_widget_get_mapped (widget)
         && g_strcmp0 (gtk_button_get_label (GTK_BUTTON (widget)), label) == 0;
}

static void
press (AdwMessageDialog *dialog, const char *response)
{
  g_assert_true (adw_message_dialog_get_response_enabled (dialog, response));
  const char *label = adw_message_dialog_get_response_label (dialog, response);
  GtkWidget *button = find (GTK_WIDGET (dialog), is_button_called, label);
  g_assert_nonnull (button);
  g_signal_emit_by_name (button, "clicked");
}

/* Gives @name, where it is asked for, and that answer. */
static void
answer (const char *name, const char *response)
{
  test_wait (find_dialog () != NULL);
  AdwMessageDialog *dialog = find_dialog ();
  GtkWidget *entry = adw_message_dialog_get_extra_child (dialog);
  g_assert_true ((entry != NULL) == (name != NULL));
  if (name != NULL)
    gtk_editable_set_text (GTK_EDITABLE (entry), name);
  press (dialog, response);
  test_wait (find_dialog () == NULL);
}

static gboolean
is_button_of (GtkWidget *widget, gconstpointer name)
{
  const char *hint = GTK_IS_BUTTON (widget) ? gtk_widget_get_tooltip_text (widget) : NULL;
  return g_strcmp0 (hint, name) == 0;
}

static GtkWidget *
find_button (Fixture *fixture, const char *hint)
{
  return find (desk_window_get_stage (fixture->window), is_button_of, hint);
}

static void
wait_for_view (Fixture *fixture, const char *name)
{
  test_wait (find_button (fixture, name) != NULL && is_checked (fixture));
}

/* A view is saved under the name proposed or another, gone to, renamed and removed, each time in
 * the plan's file. */
static void
test_saved_views (Fixture *fixture, gconstpointer name)
{
  GtkWidget *stage = desk_window_get_stage (fixture->window);
  open_copy (fixture, "between-the-ends");
  test_wait (is_checked (fixture));
  GFile *file = desk_document_get_file (desk_session_get_document (fixture->session));
  g_autofree char *path = g_file_get_path (file);
  RenderCamera camera = desk_stage_get_camera (stage);
  camera.target = trn_vec3_make (1, 2, 3);
  camera.distance_m = 17;
  camera.parallel = TRUE;
  desk_stage_set_camera (stage, camera);
  do_action (fixture, "save-view");
  test_wait (find_dialog () != NULL);
  GtkWidget *entry = adw_message_dialog_get_extra_child (find_dialog ());
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "View 1");
  gtk_editable_set_text (GTK_EDITABLE (entry), "  ");
  g_assert_false (adw_message_dialog_get_response_enabled (find_dialog (), "do"));
  answer (" By the ceiling ", "do");
  wait_for_view (fixture, "By the ceiling");
  RenderCamera stays = desk_stage_get_camera (stage);
  g_assert_cmpfloat (stays.target.y, ==, 2);

  camera.target.x = 50;
  camera.parallel = FALSE;
  desk_stage_set_camera (stage, camera);
  g_signal_emit_by_name (find_button (fixture, "By the ceiling"), "clicked");
  RenderCamera there = desk_stage_get_camera (stage);
  g_assert_cmpfloat (there.target.x, ==, 1);
  g_assert_cmpfloat (there.distance_m, ==, 17);
  g_assert_true (there.parallel);

  g_signal_emit_by_name (find_button (fixture, "Rename"), "clicked");
  answer ("Ceiling", "do");
  wait_for_view (fixture, "Ceiling");
  g_assert_null (find_button (fixture, "By the ceiling"));
  g_autofree char *text = test_read (path);
  g_assert_nonnull (strstr (text, "\"name\": \"Ceiling\""));

  g_signal_emit_by_name (find_button (fixture, "Remove"), "clicked");
  answer (NULL, "cancel");
  g_assert_nonnull (find_button (fixture, "Ceiling"));
  g_signal_emit_by_name (find_button (fixture, "Remove"), "clicked");
  answer (NULL, "do");
  test_wait (find_button (fixture, "Ceiling") == NULL && is_checked (fixture));
  g_autofree char *without = test_read (path);
  g_assert_null (strstr (without, "x-views"));
}

/* Somebody else wrote the plan meanwhile: it says so, leaves that alone and offers to read it. */
static void
test_saved_views_changed (Fixture *fixture, gconstpointer name)
{
  open_copy (fixture, "between-the-ends");
  test_wait (is_checked (fixture));
  DeskSite *before = desk_session_get_site (fixture->session);
  do_action (fixture, "save-view");
  test_wait (find_dialog () != NULL);
  g_autofree char *text = test_plan_text ("between-the-ends");
  g_autofree char *other = g_strconcat (text, "\n", NULL);
  g_object_unref (test_write (fixture->folder, "between-the-ends.trunnion", other));
  /* Held, so that the next dialog is not where this one was. */
  g_autoptr (AdwMessageDialog) asked = g_object_ref (find_dialog ());
  press (asked, "do");
  test_wait (find_dialog () != NULL && find_dialog () != asked);
  g_assert_cmpstr (adw_message_dialog_get_heading (find_dialog ()), ==, "The plan was not written");
  answer (NULL, "read");
  test_wait (desk_session_get_site (fixture->session) != before && is_checked (fixture));
  GFile *file = desk_document_get_file (desk_session_get_document (fixture->session));
  g_autofree char *path = g_file_get_path (file), *after = test_read (path);
  g_assert_cmpstr (after, ==, other);
  g_assert_null (find_button (fixture, "View 1"));
}

/* A table takes the room of the sequence; the view gives it back. The matrix comes up with the keys
 * in its cells. */
static void
test_rooms (Fixture *fixture, gconstpointer name)
{
  open_copy (fixture, "changes");
  test_wait (is_checked (fixture));
  GActionGroup *group = G_ACTION_GROUP (fixture->window);
  static const char *const rooms[] = { "findings", "matrix", "view" };
  for (guint i = 0; i < G_N_ELEMENTS (rooms); i++)
    {
      g_action_group_activate_action (group, "show-room", g_variant_new_string (rooms[i]));
      g_assert_cmpstr (desk_window_get_room (fixture->window), ==, rooms[i]);
      test_idle (0.1);
      GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (fixture->window));
      g_assert_true (strcmp (rooms[i], "matrix") != 0 || DESK_IS_CELL (focus));
    }
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *path;
    void (*test) (Fixture *, gconstpointer);
  } tests[] = {
    { "/window/start-page", test_start_page },
    { "/window/headline", test_headline },
    { "/window/faulty", test_faulty },
    { "/window/fault-rows", test_fault_rows },
    { "/window/no-lift", test_no_lift },
    { "/window/back-to-open", test_back_to_open },
    { "/window/left-out", test_left_out },
    { "/window/remarks", test_remarks },
    { "/window/changed-on-disk", test_changed_on_disk },
    { "/window/cancel-reading", test_cancel_reading },
    { "/window/playing", test_playing },
    { "/window/keys", test_keys },
    { "/window/saved-views", test_saved_views },
    { "/window/saved-views-changed", test_saved_views_changed },
    { "/window/rooms", test_rooms },
  };
  char *home = test_folder_new ();
  test_window_init (&argc, &argv, home);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, Fixture, NULL, set_up, tests[i].test, tear_down);
  return test_window_run (home);
}
