/* stage-still.c: the view as a picture in a file, at the window's size or a multiple of it.
 *
 * It is drawn and written by a job on a thread (still-job.h), from the list of this moment: what is
 * done in the view meanwhile does not show in it. A panel over the view tells how far it is; Esc or
 * its button stops it. */
#include "stage-private.h"

#include "still-job.h"

#define MOST_FACTOR 4

static void
tell_failure (DeskStage *stage, const char *reason)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (stage));
  GtkWidget *dialog = adw_message_dialog_new (GTK_IS_WINDOW (root) ? GTK_WINDOW (root) : NULL,
                                              trn_words_stage (TRN_STAGE_STILL_FAILED), NULL);
  adw_message_dialog_set_body (ADW_MESSAGE_DIALOG (dialog), reason);
  adw_message_dialog_add_response (ADW_MESSAGE_DIALOG (dialog), "close",
                                   trn_words_stage (TRN_STAGE_CLOSE));
  gtk_window_present (GTK_WINDOW (dialog));
}

/* ---- the job ---- */

static void
set_running (DeskStage *stage, DeskStillJob *job)
{
  stage->still_job = job;
  GActionMap *map = G_ACTION_MAP (stage->actions);
  g_simple_action_set_enabled (G_SIMPLE_ACTION (g_action_map_lookup_action (map, "still")),
                               job == NULL);
  g_simple_action_set_enabled (G_SIMPLE_ACTION (g_action_map_lookup_action (map, "stop-still")),
                               job != NULL);
  /* The button has the focus when somebody has gone there: it does not go with it. */
  if (job == NULL && gtk_widget_get_focus_child (stage->still_panel) != NULL)
    gtk_widget_grab_focus (stage->area);
  gtk_widget_set_visible (stage->still_panel, job != NULL);
}

static void
show_progress (double done, gpointer data)
{
  DeskStage *stage = data;
  gtk_progress_bar_set_fraction (GTK_PROGRESS_BAR (stage->still_bar), done);
  gtk_progress_bar_set_text (
      GTK_PROGRESS_BAR (stage->still_bar),
      trn_words_stage (done < 1 ? TRN_STAGE_STILL_DRAWING : TRN_STAGE_STILL_WRITING));
}

static void
on_ended (DeskStillOutcome outcome, const char *reason, gpointer data)
{
  DeskStage *stage = data;
  set_running (stage, NULL);
  if (outcome == DESK_STILL_FAILED)
    tell_failure (stage, reason);
}

gboolean
desk_stage_write_still (DeskStage *stage, const char *path, guint factor, gboolean clean)
{
  RenderSize size = desk_stage_size (stage);
  if (stage->still_job != NULL || desk_stage_list (stage) == NULL)
    return FALSE;
  RenderPictureOptions options = { .width = (int)(size.width * factor),
                                   .height = (int)(size.height * factor),
                                   .scale = factor,
                                   .clean = clean };
  DeskStillListener listener = { show_progress, on_ended, stage };
  show_progress (0, stage);
  /* The job takes the list; the view makes itself another one when it needs it. */
  set_running (stage, desk_still_job_start (desk_session_get_site (stage->session),
                                            g_steal_pointer (&stage->list), &stage->camera,
                                            &options, path, listener));
  return TRUE;
}

gboolean
desk_stage_stop_still (DeskStage *stage)
{
  if (stage->still_job == NULL)
    return FALSE;
  desk_still_job_stop (stage->still_job);
  return TRUE;
}

void
desk_stage_abandon_still (DeskStage *stage)
{
  g_clear_pointer (&stage->still_job, desk_still_job_abandon);
}

/* ---- the panel ---- */

static gboolean
on_escape (GtkWidget *panel, GVariant *arguments, gpointer data)
{
  return desk_stage_stop_still (data);
}

GtkWidget *
desk_stage_still_panel_new (DeskStage *stage)
{
  stage->still_panel = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  gtk_widget_add_css_class (stage->still_panel, "osd");
  gtk_widget_add_css_class (stage->still_panel, "stage-still");
  gtk_widget_set_halign (stage->still_panel, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (stage->still_panel, GTK_ALIGN_END);
  gtk_widget_set_visible (stage->still_panel, FALSE);
  stage->still_bar = gtk_progress_bar_new ();
  gtk_progress_bar_set_show_text (GTK_PROGRESS_BAR (stage->still_bar), TRUE);
  gtk_widget_set_size_request (stage->still_bar, 220, -1);
  gtk_widget_set_valign (stage->still_bar, GTK_ALIGN_CENTER);
  GtkWidget *stop = gtk_button_new_with_label (trn_words_stage (TRN_STAGE_STILL_STOP));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (stop), "stage.stop-still");
  gtk_widget_set_tooltip_text (stop, trn_words_stage (TRN_STAGE_STILL_STOP_HINT));
  gtk_box_append (GTK_BOX (stage->still_panel), stage->still_bar);
  gtk_box_append (GTK_BOX (stage->still_panel), stop);

  /* Wherever the focus is, after those who have it. */
  GtkEventController *keys = gtk_shortcut_controller_new ();
  gtk_shortcut_controller_set_scope (GTK_SHORTCUT_CONTROLLER (keys), GTK_SHORTCUT_SCOPE_GLOBAL);
  gtk_shortcut_controller_add_shortcut (
      GTK_SHORTCUT_CONTROLLER (keys),
      gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_Escape, 0),
                        gtk_callback_action_new (on_escape, stage, NULL)));
  gtk_widget_add_controller (stage->still_panel, keys);
  return stage->still_panel;
}

/* ---- the dialog ---- */

static void
on_response (GtkNativeDialog *dialog, int response, DeskStage *stage)
{
  GtkFileChooser *chooser = GTK_FILE_CHOOSER (dialog);
  g_autoptr (GFile) file = gtk_file_chooser_get_file (chooser);
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;
  if (response == GTK_RESPONSE_ACCEPT && path != NULL)
    {
      const char *size = gtk_file_chooser_get_choice (chooser, "size");
      const char *clean = gtk_file_chooser_get_choice (chooser, "clean");
      guint factor = size != NULL ? (guint)g_ascii_strtoull (size, NULL, 10) : 1;
      desk_stage_write_still (stage, path, CLAMP (factor, 1, MOST_FACTOR),
                              g_strcmp0 (clean, "true") == 0);
    }
  g_object_unref (dialog);
}

static void
add_choices (GtkFileChooser *chooser, RenderSize size)
{
  g_autoptr (GPtrArray) ids = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GPtrArray) labels = g_ptr_array_new_with_free_func (g_free);
  for (guint factor = 1; factor <= MOST_FACTOR; factor *= 2)
    {
      g_ptr_array_add (ids, g_strdup_printf ("%u", factor));
      g_ptr_array_add (labels, trn_words_picture_size (factor, (guint)(size.width * factor),
                                                       (guint)(size.height * factor)));
    }
  g_ptr_array_add (ids, NULL);
  g_ptr_array_add (labels, NULL);
  gtk_file_chooser_add_choice (chooser, "size", trn_words_stage (TRN_STAGE_STILL_SIZE),
                               (const char **)ids->pdata, (const char **)labels->pdata);
  gtk_file_chooser_set_choice (chooser, "size", "2");
  gtk_file_chooser_add_choice (chooser, "clean", trn_words_stage (TRN_STAGE_STILL_CLEAN), NULL,
                               NULL);
}

void
desk_stage_save_still (DeskStage *stage)
{
  if (desk_stage_list (stage) == NULL)
    return;
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (stage));
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (
      trn_words_stage (TRN_STAGE_STILL), GTK_IS_WINDOW (root) ? GTK_WINDOW (root) : NULL,
      GTK_FILE_CHOOSER_ACTION_SAVE, trn_words_stage (TRN_STAGE_STILL_SAVE), NULL);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (dialog),
                                     trn_words_stage (TRN_STAGE_STILL_FILE));
  add_choices (GTK_FILE_CHOOSER (dialog), desk_stage_size (stage));
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  g_signal_connect_object (dialog, "response", G_CALLBACK (on_response), stage, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}
