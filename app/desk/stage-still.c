/* stage-still.c: the view as a picture in a file, at the size that is asked for.
 *
 * It is drawn and written by a job on a thread (still-job.h), from the list of this moment: what is
 * done in the view meanwhile does not show in it. A panel over the view tells how far it is; Esc or
 * its button stops it. */
#include "stage-private.h"

#include <string.h>

#include "chooser.h"
#include "still-job.h"
#include "window-words.h"

#define USUAL_FACTOR 2 /* of the view */
#define LEAST_PX 16
#define MOST_PX 16384
#define NOTE_MS 5000

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
on_note_seen (gpointer data)
{
  DeskStage *stage = data;
  stage->still_note_id = 0;
  gtk_widget_set_visible (stage->still_note, FALSE);
}

static void
show_note (DeskStage *stage, TrnStageText text)
{
  g_clear_handle_id (&stage->still_note_id, g_source_remove);
  gtk_label_set_text (GTK_LABEL (stage->still_note), trn_words_stage (text));
  gtk_widget_set_visible (stage->still_note, TRUE);
  stage->still_note_id = g_timeout_add_once (NOTE_MS, on_note_seen, stage);
}

static void
on_ended (DeskStillOutcome outcome, const char *reason, gpointer data)
{
  DeskStage *stage = data;
  set_running (stage, NULL);
  if (outcome == DESK_STILL_FAILED)
    tell_failure (stage, reason);
  else
    show_note (stage,
               outcome == DESK_STILL_WRITTEN ? TRN_STAGE_STILL_SAVED : TRN_STAGE_STILL_STOPPED);
}

/* What the view shows is all in a picture of another shape too. */
static RenderCamera
camera_for (DeskStage *stage, int width, int height)
{
  RenderSize size = desk_stage_size (stage);
  RenderCamera camera = stage->camera;
  double narrower = size.width / size.height * height / width;
  if (narrower > 1)
    camera.fov_rad = 2 * atan (tan (camera.fov_rad / 2) * narrower);
  return camera;
}

gboolean
desk_stage_write_still (DeskStage *stage, const char *path, int width, int height, gboolean clean)
{
  RenderSize size = desk_stage_size (stage);
  if (stage->still_job != NULL || desk_stage_list (stage) == NULL)
    return FALSE;
  /* Letters are as large to what is seen as in the view, and never smaller than there. */
  double scale = fmax (fmin (width / size.width, height / size.height), 1);
  RenderPictureOptions options
      = { .width = width, .height = height, .scale = scale, .clean = clean };
  RenderCamera camera = camera_for (stage, width, height);
  DeskStillListener listener = { show_progress, on_ended, stage };
  show_progress (0, stage);
  g_clear_handle_id (&stage->still_note_id, g_source_remove);
  gtk_widget_set_visible (stage->still_note, FALSE);
  /* The job takes the list; the view makes itself another one when it needs it. */
  set_running (stage, desk_still_job_start (desk_session_get_site (stage->session),
                                            g_steal_pointer (&stage->list), &camera, &options, path,
                                            listener));
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
  g_clear_handle_id (&stage->still_note_id, g_source_remove);
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

  stage->still_note = gtk_label_new (NULL);
  gtk_widget_add_css_class (stage->still_note, "osd");
  gtk_widget_add_css_class (stage->still_note, "stage-still");
  gtk_widget_set_visible (stage->still_note, FALSE);
  GtkWidget *both = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_widget_set_halign (both, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (both, GTK_ALIGN_END);
  gtk_box_append (GTK_BOX (both), stage->still_panel);
  gtk_box_append (GTK_BOX (both), stage->still_note);
  return both;
}

/* ---- the dialogs: what is asked for, then where to ---- */

typedef struct
{
  DeskStage *stage; /* owned */
  GtkWidget *width, *height, *clean;
  int width_px, height_px; /* once it has been answered */
  gboolean is_clean;
} Wish;

static void
wish_free (gpointer data)
{
  g_object_unref (((Wish *)data)->stage);
  g_free (data);
}

static void
on_place (GFile *file, gpointer dialog)
{
  const Wish *wish = g_object_get_data (dialog, "wish");
  const char *path = g_file_peek_path (file);
  if (path != NULL)
    desk_stage_write_still (wish->stage, path, wish->width_px, wish->height_px, wish->is_clean);
}

static void
on_wish (AdwMessageDialog *dialog, const char *response, Wish *wish)
{
  if (strcmp (response, "save") != 0)
    return;
  /* What has been typed counts also where the focus is still there. */
  gtk_spin_button_update (GTK_SPIN_BUTTON (wish->width));
  gtk_spin_button_update (GTK_SPIN_BUTTON (wish->height));
  wish->width_px = gtk_spin_button_get_value_as_int (GTK_SPIN_BUTTON (wish->width));
  wish->height_px = gtk_spin_button_get_value_as_int (GTK_SPIN_BUTTON (wish->height));
  wish->is_clean = gtk_check_button_get_active (GTK_CHECK_BUTTON (wish->clean));
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (wish->stage));
  GtkFileChooserNative *chooser = gtk_file_chooser_native_new (
      trn_words_stage (TRN_STAGE_STILL), GTK_IS_WINDOW (root) ? GTK_WINDOW (root) : NULL,
      GTK_FILE_CHOOSER_ACTION_SAVE, trn_words_stage (TRN_STAGE_STILL_SAVE), NULL);
  const DeskSite *site = desk_session_get_site (wish->stage->session);
  if (site != NULL)
    desk_chooser_set_name (chooser, site->plan->base_name, ".png");
  /* The wish lives in the dialog before. */
  desk_chooser_show_take (chooser, wish->stage->session, on_place, g_object_ref (dialog),
                          g_object_unref);
}

static GtkWidget *
pixels_new (double px, TrnStageText name)
{
  GtkWidget *spin = gtk_spin_button_new_with_range (LEAST_PX, MOST_PX, 1);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (spin), px);
  gtk_editable_set_width_chars (GTK_EDITABLE (spin), 6);
  GtkEditable *text = gtk_editable_get_delegate (GTK_EDITABLE (spin));
  gtk_text_set_activates_default (GTK_TEXT (text), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (spin), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  trn_words_stage (name), -1);
  return spin;
}

static GtkWidget *
wish_content_new (Wish *wish)
{
  RenderSize size = desk_stage_size (wish->stage);
  wish->width = pixels_new (size.width * USUAL_FACTOR, TRN_STAGE_STILL_WIDTH);
  wish->height = pixels_new (size.height * USUAL_FACTOR, TRN_STAGE_STILL_HEIGHT);
  wish->clean = gtk_check_button_new_with_label (trn_words_stage (TRN_STAGE_STILL_CLEAN));
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  gtk_box_append (GTK_BOX (row), gtk_label_new (trn_words_stage (TRN_STAGE_STILL_SIZE)));
  gtk_box_append (GTK_BOX (row), wish->width);
  gtk_box_append (GTK_BOX (row), gtk_label_new ("×"));
  gtk_box_append (GTK_BOX (row), wish->height);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_box_append (GTK_BOX (box), row);
  gtk_box_append (GTK_BOX (box), wish->clean);
  return box;
}

void
desk_stage_save_still (DeskStage *stage)
{
  if (desk_stage_list (stage) == NULL)
    return;
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (stage));
  g_autofree char *more = trn_words_picture_size ((guint)desk_stage_size (stage).width,
                                                  (guint)desk_stage_size (stage).height);
  AdwMessageDialog *dialog = ADW_MESSAGE_DIALOG (adw_message_dialog_new (
      GTK_IS_WINDOW (root) ? GTK_WINDOW (root) : NULL, trn_words_stage (TRN_STAGE_STILL), more));
  Wish *wish = g_new0 (Wish, 1);
  wish->stage = g_object_ref (stage);
  g_object_set_data_full (G_OBJECT (dialog), "wish", wish, wish_free);
  adw_message_dialog_set_extra_child (dialog, wish_content_new (wish));
  adw_message_dialog_add_response (dialog, "cancel", trn_words_window (TRN_WINDOW_CANCEL));
  adw_message_dialog_add_response (dialog, "save", trn_words_stage (TRN_STAGE_STILL_SAVE_AS));
  adw_message_dialog_set_response_appearance (dialog, "save", ADW_RESPONSE_SUGGESTED);
  adw_message_dialog_set_default_response (dialog, "save");
  adw_message_dialog_set_close_response (dialog, "cancel");
  g_signal_connect (dialog, "response", G_CALLBACK (on_wish), wish);
  gtk_window_set_focus (GTK_WINDOW (dialog), wish->width);
  gtk_window_present (GTK_WINDOW (dialog));
}
