/* export.c: the texts come from engine/results and are the same as those of the command line; a
 * file is written on a thread, whole or not at all. */
#include "export.h"

#include "results.h"
#include "table-words.h"
#include "window-words.h"
#include "words.h"
#include "write-file.h"

static const char *const names[] = { "copy-findings", "export-csv", "export-json" };

static const TrnFindings *
findings_of (DeskWindow *window, const TrnScene **scene)
{
  DeskCheck *check = desk_session_get_check (desk_window_get_session (window));
  DeskSite *site = desk_check_get_site (check);
  *scene = site != NULL ? site->scene : NULL;
  return site != NULL ? desk_check_get_findings (check) : NULL;
}

/* ---- the file ---- */

typedef struct
{
  char *path, *text;
  gsize length;
} Job;

static void
job_free (gpointer data)
{
  Job *job = data;
  g_free (job->path);
  g_free (job->text);
  g_free (job);
}

static void
run_job (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Job *job = data;
  TrnDiags *diags = trn_diags_new ();
  trn_write_file (job->path, job->text, job->length, diags);
  g_task_return_pointer (task, diags, (GDestroyNotify)trn_diags_free);
}

static void
on_written (GObject *source, GAsyncResult *result, gpointer data)
{
  DeskWindow *window = DESK_WINDOW (source);
  g_autoptr (TrnDiags) diags = g_task_propagate_pointer (G_TASK (result), NULL);
  if (diags == NULL || diags->items->len == 0)
    {
      desk_window_tell (window, trn_words_table (TRN_TABLE_WRITTEN));
      return;
    }
  g_autofree char *text = trn_words_diag (g_ptr_array_index (diags->items, 0));
  desk_window_tell (window, text);
}

static void
write_beside (DeskWindow *window, GFile *file, char *text, gsize length)
{
  Job *job = g_new (Job, 1);
  *job = (Job){ g_file_get_path (file), text, length };
  g_autoptr (GTask) task = g_task_new (window, NULL, on_written, NULL);
  g_task_set_task_data (task, job, job_free);
  g_task_run_in_thread (task, run_job);
}

/* ---- the dialog ---- */

static void
on_response (GtkNativeDialog *dialog, int response, DeskWindow *window)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
  const TrnScene *scene;
  const TrnFindings *findings = findings_of (window, &scene);
  gboolean as_json = g_object_get_data (G_OBJECT (dialog), "json") != NULL;
  if (response == GTK_RESPONSE_ACCEPT && file != NULL && findings != NULL)
    {
      gsize length;
      char *text = as_json ? trn_results_to_json (scene, findings, TRN_PROGRAM, &length)
                           : trn_results_to_csv (scene, findings, &length);
      write_beside (window, file, text, length);
    }
  gtk_native_dialog_destroy (dialog);
  g_object_unref (dialog);
}

static void
ask (DeskWindow *window, gboolean as_json)
{
  const TrnScene *scene;
  if (findings_of (window, &scene) == NULL)
    return;
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (
      trn_words_table (as_json ? TRN_TABLE_EXPORT_JSON : TRN_TABLE_EXPORT_CSV), GTK_WINDOW (window),
      GTK_FILE_CHOOSER_ACTION_SAVE, NULL, NULL);
  g_autofree char *stem = g_strdup (scene->programme->plan->base_name);
  char *dot = g_strrstr (stem, ".");
  if (dot != NULL)
    *dot = '\0';
  g_autofree char *name = g_strconcat (stem, as_json ? ".results.json" : ".csv", NULL);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (dialog), name);
  if (as_json)
    g_object_set_data (G_OBJECT (dialog), "json", dialog);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  g_signal_connect_object (dialog, "response", G_CALLBACK (on_response), window, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

/* ---- actions ---- */

static void
do_copy (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  const TrnScene *scene;
  const TrnFindings *findings = findings_of (window, &scene);
  if (findings == NULL)
    return;
  gsize length;
  g_autofree char *text = trn_results_to_csv (scene, findings, &length);
  gdk_clipboard_set_text (gtk_widget_get_clipboard (window), text);
  desk_window_tell (window, trn_words_table (TRN_TABLE_COPIED));
}

static void
do_csv (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  ask (window, FALSE);
}

static void
do_json (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  ask (window, TRUE);
}

void
desk_export_add_actions (DeskWindow *window)
{
  const GActionEntry entries[] = { { .name = names[0], .activate = do_copy },
                                   { .name = names[1], .activate = do_csv },
                                   { .name = names[2], .activate = do_json } };
  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), window);
}

void
desk_export_update (DeskWindow *window)
{
  const TrnScene *scene;
  gboolean has_findings = findings_of (window, &scene) != NULL;
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    g_simple_action_set_enabled (
        G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (window), names[i])),
        has_findings);
}
