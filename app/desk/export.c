/* export.c: the texts come from engine/results and are the same as those of the command line; a
 * file is written on a thread, whole or not at all. What is written is what was there when it was
 * asked for: while a file is chosen, another plan may come. */
#include "export.h"

#include "chooser.h"
#include "results.h"
#include "table-words.h"
#include "window-words.h"
#include "words.h"
#include "write-file.h"

enum
{
  COPY,
  CSV,
  JSON,
};

static const char *const names[]
    = { [COPY] = "copy-findings", [CSV] = "export-csv", [JSON] = "export-json" };

static const TrnFindings *
findings_of (DeskWindow *window, DeskSite **site)
{
  DeskCheck *check = desk_session_get_check (desk_window_get_session (window));
  *site = desk_check_get_site (check);
  return *site != NULL ? desk_check_get_findings (check) : NULL;
}

/* ---- the file ---- */

typedef struct
{
  DeskWindow *window; /* borrowed; lives while the dialog does */
  DeskSite *site;
  char *path, *text;
  gsize length;
} Job;

static void
clear_job (gpointer data)
{
  Job *job = data;
  desk_site_unref (job->site);
  g_free (job->path);
  g_free (job->text);
}

/* The dialog holds it, then the thread too. */
static void
job_unref (gpointer job)
{
  g_atomic_rc_box_release_full (job, clear_job);
}

/* Of what is there now, for a file that is chosen later. */
static Job *
job_new (DeskWindow *window, DeskSite *site, const TrnFindings *findings, gboolean as_json)
{
  Job *job = g_atomic_rc_box_new0 (Job);
  job->window = window;
  job->site = desk_site_ref (site);
  job->text = as_json ? trn_results_to_json (site->scene, findings, TRN_PROGRAM, &job->length)
                      : trn_results_to_csv (site->scene, findings, &job->length);
  return job;
}

static void
run_job (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Job *job = data;
  TrnDiags *diags = trn_diags_new ();
  if (trn_plan_reads (job->site->plan, job->path))
    trn_diag_set_text (trn_diags_add (diags, TRN_SEVERITY_ERROR, "cli/output-is-input", NULL),
                       "file", job->path);
  else
    trn_write_file (job->path, job->text, job->length, diags);
  g_task_return_pointer (task, diags, (GDestroyNotify)trn_diags_free);
}

static void
on_written (GObject *source, GAsyncResult *result, gpointer data)
{
  DeskWindow *window = DESK_WINDOW (source);
  g_autoptr (TrnDiags) diags = g_task_propagate_pointer (G_TASK (result), NULL);
  const Job *job = g_task_get_task_data (G_TASK (result));
  g_autofree char *text = diags == NULL || diags->items->len == 0
                              ? trn_words_table_written (job->path)
                              : trn_words_diag (g_ptr_array_index (diags->items, 0));
  desk_window_tell (window, text);
}

/* ---- the dialog ---- */

static void
on_chosen (GFile *file, gpointer data)
{
  Job *job = data;
  const char *path = g_file_peek_path (file);
  if (path == NULL)
    return;
  job->path = g_strdup (path);
  g_autoptr (GTask) task = g_task_new (job->window, NULL, on_written, NULL);
  g_task_set_task_data (task, g_atomic_rc_box_acquire (job), job_unref);
  g_task_run_in_thread (task, run_job);
}

static void
ask (DeskWindow *window, gboolean as_json)
{
  DeskSite *site;
  const TrnFindings *findings = findings_of (window, &site);
  if (findings == NULL)
    return;
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (
      trn_words_table (as_json ? TRN_TABLE_EXPORT_JSON : TRN_TABLE_EXPORT_CSV), GTK_WINDOW (window),
      GTK_FILE_CHOOSER_ACTION_SAVE, NULL, NULL);
  desk_chooser_set_name (dialog, site->plan->base_name, as_json ? ".results.json" : ".csv");
  desk_chooser_show_take (dialog, desk_window_get_session (window), on_chosen,
                          job_new (window, site, findings, as_json), job_unref);
}

/* ---- actions ---- */

static void
do_copy (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  DeskSite *site;
  const TrnFindings *findings = findings_of (window, &site);
  if (findings == NULL)
    return;
  gsize length;
  g_autofree char *text = trn_results_to_csv (site->scene, findings, &length);
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
  const GActionEntry entries[] = { { .name = names[COPY], .activate = do_copy },
                                   { .name = names[CSV], .activate = do_csv },
                                   { .name = names[JSON], .activate = do_json } };
  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), window);
}

/* A table says nothing of what is missing from it, or of the state of the plan that it belongs to:
 * it is given away only whole and fresh. The JSON file names the lifts that were not checked, and
 * the sums of the files that were read. */
void
desk_export_update (DeskWindow *window)
{
  DeskSite *site;
  const TrnFindings *findings = findings_of (window, &site);
  gboolean is_whole = findings != NULL && findings->complete
                      && !desk_session_is_stale (desk_window_get_session (window));
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    g_simple_action_set_enabled (
        G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (window), names[i])),
        i == JSON ? findings != NULL : is_whole);
}
