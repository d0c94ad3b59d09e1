/* actions.c: one table of actions and one of keys.
 *
 * A key without a modifier must not be taken from a text entry, so such keys are looked at after
 * the widget that has the focus; all others before it. */
#include "actions.h"

#include "demos.h"
#include "export.h"
#include "file-dialog.h"
#include "files-window.h"
#include "presenter.h"
#include "shortcuts.h"
#include "window-words.h"
#include "words.h"

/* ---- keys ---- */

static const DeskKeys keys[] = {
  { "app.quit", { "<Control>q" } },
  { "app.new-window", { "<Control><Shift>n" } },
  { "app.preferences", { "<Control>comma" } },
  { "win.show-help-overlay", { "<Control>question", "F1" } },
  { "win.open", { "<Control>o" } },
  { "win.reload", { "<Control>r" } },
  { "win.close-plan", { "<Control><Shift>w" } },
  { "window.close", { "<Control>w" } },
  { "win.show-files", { "<Control>m" } },
  { "win.check", { "<Control>k" } },
  { "win.cancel-check", { "<Control><Shift>k" } },
  { "win.show-room::view", { "<Alt>1" } },
  { "win.show-room::findings", { "<Alt>2" } },
  { "win.show-room::matrix", { "<Alt>3" } },
  { "win.strip-hook-height", { "<Control>1" } },
  { "win.strip-radius", { "<Control>2" } },
  { "win.strip-boom-angle", { "<Control>3" } },
  { "win.strip-tip-above-hook", { "<Control>4" } },
  { "win.strip-load-on-hook", { "<Control>5" } },
  { "win.strip-tension", { "<Control>6" } },
  { "win.strip-capacity", { "<Control>7" } },
  { "win.strip-pressure", { "<Control>8" } },
  { "win.strip-share", { "<Control>9" } },
  { "win.strip-wind", { "<Control>0" } },
  { "win.show-sequence", { "F9" } },
  { "win.show-nearest", { "<Shift>F9" } },
  { "win.present", { "F5" } },
  { "win.still", { "<Control><Shift>s" } },
  { "win.save-view", { "<Control>d" } },
  { "win.copy-findings", { "<Control><Shift>c" } },
  { "win.export-csv", { "<Control>e" } },
  { "win.export-json", { "<Control><Shift>e" } },
  { "win.clear-measures", { "<Shift>Delete" } },
  { "win.next-lift", { "<Control>Page_Down" } },
  { "win.previous-lift", { "<Control>Page_Up" } },
};

static const DeskKeys plain_keys[] = {
  { "win.play", { "space", "k" } },
  { "win.step-forward", { "period" } },
  { "win.step-back", { "comma" } },
  { "win.next-move", { "n" } },
  { "win.previous-move", { "b" } },
  { "win.start-of-lift", { "Home" } },
  { "win.end-of-lift", { "End" } },
  { "win.faster", { "plus", "KP_Add" } },
  { "win.slower", { "minus", "KP_Subtract" } },
  { "win.loop", { "l" } },
  { "win.closest", { "c" } },
  { "win.worst", { "w" } },
  { "win.fit", { "f" } },
  { "win.view-plan", { "1" } },
  { "win.view-north", { "2" } },
  { "win.view-east", { "3" } },
  { "win.view-south", { "4" } },
  { "win.view-west", { "5" } },
  { "win.view-3d", { "6" } },
  { "win.parallel", { "o" } },
  { "win.section", { "s" } },
  { "win.measure", { "m" } },
};

const DeskKeys *
desk_actions_get_keys (gboolean plain, guint *n)
{
  *n = plain ? G_N_ELEMENTS (plain_keys) : G_N_ELEMENTS (keys);
  return plain ? plain_keys : keys;
}

void
desk_actions_set_keys (GtkApplication *application)
{
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    gtk_application_set_accels_for_action (application, keys[i].action, keys[i].accels);
}

void
desk_actions_add_plain_keys (GtkWidget *window)
{
  GtkEventController *controller = gtk_shortcut_controller_new ();
  for (guint i = 0; i < G_N_ELEMENTS (plain_keys); i++)
    for (guint k = 0; plain_keys[i].accels[k] != NULL; k++)
      gtk_shortcut_controller_add_shortcut (
          GTK_SHORTCUT_CONTROLLER (controller),
          gtk_shortcut_new (gtk_shortcut_trigger_parse_string (plain_keys[i].accels[k]),
                            gtk_named_action_new (plain_keys[i].action)));
  gtk_widget_add_controller (window, controller);
}

/* ---- actions ---- */

static DeskSession *
session_of (gpointer window)
{
  return desk_window_get_session (window);
}

static void
do_open (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  desk_file_dialog_open_plan (window);
}

static void
do_open_uri (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  g_autoptr (GFile) file = g_file_new_for_uri (g_variant_get_string (parameter, NULL));
  desk_window_open (window, file);
}

static void
do_open_demo (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  g_autoptr (GFile) file = desk_demos_find (g_variant_get_string (parameter, NULL));
  if (file != NULL)
    desk_window_open (window, file);
}

static void
do_reload (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  desk_document_reload (desk_session_get_document (session_of (window)));
}

static void
do_close_plan (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  desk_document_close (desk_session_get_document (session_of (window)));
}

static void
do_cancel_reading (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  desk_document_cancel (desk_session_get_document (session_of (window)));
}

static void
do_check (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  DeskSession *session = session_of (window);
  DeskSite *site = desk_session_get_site (session);
  if (desk_site_is_whole (site))
    desk_check_start (desk_session_get_check (session), site);
}

static void
do_cancel_check (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  desk_check_cancel (desk_session_get_check (session_of (window)));
}

static void
do_show_remarks (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  desk_window_show_remarks (window, TRUE);
}

static void
do_show_plan (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  desk_window_show_remarks (window, FALSE);
}

static void
do_back_to_open (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  desk_document_go_back (desk_session_get_document (session_of (window)));
}

static void
do_copy_faults (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  g_autofree char *text = desk_window_faults_text_dup (window);
  gdk_clipboard_set_text (gtk_widget_get_clipboard (window), text);
  desk_window_tell (window, trn_words_window (TRN_WINDOW_COPIED));
}

static void
do_show_room (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  desk_window_show_room (window, g_variant_get_string (parameter, NULL));
}

static void
do_play (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  DeskSession *session = session_of (window);
  desk_session_set_playing (session, !desk_session_get_playing (session));
}

static void
do_loop (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  DeskSession *session = session_of (window);
  desk_session_set_loop (session, !desk_session_get_loop (session));
}

/* Rates go 0.1, 0.2, 0.5, 1, 2, 5 … 100. */
static void
change_rate (DeskSession *session, gboolean up)
{
  static const double rates[] = { 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100 };
  double rate = desk_session_get_rate (session), next = rate;
  for (guint i = 0; i < G_N_ELEMENTS (rates); i++)
    {
      if (up && rates[i] > rate)
        {
          next = rates[i];
          break;
        }
      if (!up && rates[i] < rate)
        next = rates[i];
    }
  desk_session_set_rate (session, next);
}

static void
do_faster (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  change_rate (session_of (window), TRUE);
}

static void
do_slower (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  change_rate (session_of (window), FALSE);
}

static void
do_next_move (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  desk_session_next_move (session_of (window));
}

static void
do_previous_move (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  desk_session_previous_move (session_of (window));
}

static void
do_step_forward (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  desk_session_step (session_of (window), 1);
}

static void
do_step_back (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  desk_session_step (session_of (window), -1);
}

static void
do_start_of_lift (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  desk_session_set_time (session_of (window), 0);
}

static void
do_end_of_lift (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  DeskSession *session = session_of (window);
  desk_session_set_time (session, desk_session_get_duration (session));
}

static void
do_next_lift (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  DeskSession *session = session_of (window);
  desk_session_set_run (session, desk_session_get_run (session) + 1);
}

static void
do_previous_lift (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  DeskSession *session = session_of (window);
  guint run = desk_session_get_run (session);
  if (run > 0)
    desk_session_set_run (session, run - 1);
}

static void
do_present (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  desk_presenter_show (GTK_WINDOW (window), session_of (window), desk_window_get_stage (window));
}

static void
do_show_files (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  desk_files_window_show (GTK_WINDOW (window), session_of (window));
}

static void
do_show_help_overlay (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  desk_shortcuts_show (GTK_WINDOW (window));
}

/* To the closest moment of the move one is in. */
static void
do_closest (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  DeskSession *session = session_of (window);
  guint move = desk_session_get_move (session, NULL);
  const TrnFinding *finding
      = desk_session_worst (session, desk_session_get_run (session), (int)move, NULL);
  if (finding != NULL)
    desk_session_set_finding (session, finding, TRUE);
}

static void
do_worst (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  DeskSession *session = session_of (window);
  const TrnFinding *finding = desk_session_worst (session, DESK_ALL_LIFTS, -1, NULL);
  if (finding != NULL)
    desk_session_set_finding (session, finding, TRUE);
}

static const GActionEntry entries[] = {
  { .name = "open", .activate = do_open },
  { .name = "open-uri", .activate = do_open_uri, .parameter_type = "s" },
  { .name = "open-demo", .activate = do_open_demo, .parameter_type = "s" },
  { .name = "reload", .activate = do_reload },
  { .name = "close-plan", .activate = do_close_plan },
  { .name = "cancel-reading", .activate = do_cancel_reading },
  { .name = "check", .activate = do_check },
  { .name = "cancel-check", .activate = do_cancel_check },
  { .name = "show-remarks", .activate = do_show_remarks },
  { .name = "show-files", .activate = do_show_files },
  { .name = "show-plan", .activate = do_show_plan },
  { .name = "copy-faults", .activate = do_copy_faults },
  { .name = "back-to-open", .activate = do_back_to_open },
  { .name = "show-room", .activate = do_show_room, .parameter_type = "s" },
  { .name = "play", .activate = do_play },
  { .name = "loop", .activate = do_loop },
  { .name = "faster", .activate = do_faster },
  { .name = "slower", .activate = do_slower },
  { .name = "next-move", .activate = do_next_move },
  { .name = "previous-move", .activate = do_previous_move },
  { .name = "step-forward", .activate = do_step_forward },
  { .name = "step-back", .activate = do_step_back },
  { .name = "start-of-lift", .activate = do_start_of_lift },
  { .name = "end-of-lift", .activate = do_end_of_lift },
  { .name = "next-lift", .activate = do_next_lift },
  { .name = "previous-lift", .activate = do_previous_lift },
  { .name = "closest", .activate = do_closest },
  { .name = "worst", .activate = do_worst },
  { .name = "present", .activate = do_present },
  { .name = "show-help-overlay", .activate = do_show_help_overlay },
};

/* What needs a lift that can be looked at. */
static const char *const of_lift[]
    = { "play",          "loop",      "faster",        "slower",      "next-move",
        "previous-move", "step-back", "step-forward",  "end-of-lift", "start-of-lift",
        "next-lift",     "closest",   "previous-lift", "worst",       NULL };

static void
set_enabled (DeskWindow *window, const char *name, gboolean enabled)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (window), name);
  g_simple_action_set_enabled (G_SIMPLE_ACTION (action), enabled);
}

void
desk_actions_update (DeskWindow *window)
{
  DeskSession *session = desk_window_get_session (window);
  DeskDocument *document = desk_session_get_document (session);
  DeskDocumentState state = desk_document_get_state (document);
  gboolean is_checking
      = desk_check_get_state (desk_session_get_check (session)) == DESK_CHECK_RUNNING;
  gboolean has_site = desk_session_get_site (session) != NULL;
  for (const char *const *name = of_lift; *name != NULL; name++)
    set_enabled (window, *name, desk_session_get_lift_run (session) != NULL);
  /* Nobody is shown a site from which something is missing. */
  set_enabled (window, "present",
               desk_session_get_lift_run (session) != NULL
                   && desk_site_is_whole (desk_session_get_site (session)));
  set_enabled (window, "reload", state != DESK_DOCUMENT_EMPTY && state != DESK_DOCUMENT_LOADING);
  set_enabled (window, "close-plan", state != DESK_DOCUMENT_EMPTY);
  set_enabled (window, "back-to-open", desk_document_get_back_title (document) != NULL);
  set_enabled (window, "cancel-reading", state == DESK_DOCUMENT_LOADING);
  set_enabled (window, "check",
               desk_site_is_whole (desk_session_get_site (session)) && !is_checking);
  set_enabled (window, "cancel-check", is_checking);
  set_enabled (window, "show-room", has_site);
  set_enabled (window, "show-files", has_site);
  desk_export_update (window);
  set_enabled (window, "show-remarks",
               has_site && desk_document_get_diags (document)->items->len > 0);
}

void
desk_actions_add (DeskWindow *window)
{
  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), window);
  desk_export_add_actions (window);
}
