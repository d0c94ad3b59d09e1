/* still-job.c: see still-job.h. Between tiles, and while the file is compressed, the thread looks
 * whether it is to stop; the file is written whole or not at all. */
#include "still-job.h"

#include <gio/gio.h>

#include "stage-words.h"
#include "write-file.h"

struct _DeskStillJob
{
  DeskSite *site; /* keeps the meshes of the list */
  RenderDrawList *list;
  RenderCamera camera;
  RenderPictureOptions options;
  char *path;
  DeskStillListener listener; /* main thread only */
  gboolean abandoned;
  GCancellable *cancellable;
  int shown_percent; /* the worker's: what it has told last */
};

static void
job_free (gpointer data)
{
  DeskStillJob *job = data;
  desk_site_unref (job->site);
  render_draw_list_free (job->list);
  g_free (job->path);
  g_object_unref (job->cancellable);
  g_free (job);
}

/* ---- on the thread ---- */

typedef struct
{
  GTask *task; /* owned: keeps the job */
  double done;
} Progress;

static void
free_progress (gpointer data)
{
  Progress *progress = data;
  g_object_unref (progress->task);
  g_free (progress);
}

static gboolean
on_progress_told (gpointer data)
{
  Progress *progress = data;
  DeskStillJob *job = g_task_get_task_data (progress->task);
  if (!job->abandoned && !g_task_get_completed (progress->task))
    job->listener.progress (progress->done, job->listener.data);
  return G_SOURCE_REMOVE;
}

static gboolean
on_progress (double done, gpointer data)
{
  GTask *task = data;
  DeskStillJob *job = g_task_get_task_data (task);
  if (g_cancellable_is_cancelled (job->cancellable))
    return FALSE;
  int percent = (int)(done * 100);
  if (percent == job->shown_percent)
    return TRUE;
  job->shown_percent = percent;
  Progress *progress = g_new (Progress, 1);
  *progress = (Progress){ g_object_ref (task), done };
  /* Not g_main_context_invoke: that calls on this thread while nobody has the context. */
  GSource *source = g_idle_source_new ();
  g_source_set_priority (source, G_PRIORITY_DEFAULT);
  g_source_set_callback (source, on_progress_told, progress, free_progress);
  g_source_attach (source, g_task_get_context (task));
  g_source_unref (source);
  return TRUE;
}

typedef struct
{
  GByteArray *bytes;
  GCancellable *cancellable;
} Sink;

static cairo_status_t
append_bytes (void *closure, const unsigned char *bytes, unsigned int length)
{
  Sink *sink = closure;
  if (g_cancellable_is_cancelled (sink->cancellable))
    return CAIRO_STATUS_WRITE_ERROR;
  g_byte_array_append (sink->bytes, bytes, length);
  return CAIRO_STATUS_SUCCESS;
}

static const char *
reason_of (const GError *error)
{
  return trn_words_stage (
      g_error_matches (error, RENDER_PICTURE_ERROR, RENDER_PICTURE_ERROR_NO_OPENGL)
          ? TRN_STAGE_STILL_NO_OPENGL
          : TRN_STAGE_STILL_NOT_DRAWN);
}

static void
return_stopped (GTask *task)
{
  g_task_return_new_error (task, G_IO_ERROR, G_IO_ERROR_CANCELLED, "stopped");
}

static void
write_picture (GTask *task, DeskStillJob *job, cairo_surface_t *surface)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  Sink sink = { bytes, job->cancellable };
  cairo_status_t status = cairo_surface_write_to_png_stream (surface, append_bytes, &sink);
  if (g_cancellable_is_cancelled (job->cancellable))
    {
      return_stopped (task);
      return;
    }
  if (status != CAIRO_STATUS_SUCCESS)
    {
      g_task_return_new_error (task, G_IO_ERROR, G_IO_ERROR_FAILED, "%s",
                               trn_words_stage (TRN_STAGE_STILL_NOT_DRAWN));
      return;
    }
  TrnDiags *diags = trn_diags_new ();
  /* Looked at just before it is written: the name may have become a link meanwhile. */
  gboolean is_input = trn_plan_reads (job->site->plan, job->path);
  if (is_input)
    trn_diag_set_text (trn_diags_add (diags, TRN_SEVERITY_ERROR, "cli/output-is-input", NULL),
                       "file", job->path);
  if (!is_input && trn_write_file (job->path, bytes->data, bytes->len, diags))
    g_task_return_boolean (task, TRUE);
  else
    {
      g_autofree char *reason = trn_words_diag (g_ptr_array_index (diags->items, 0));
      g_task_return_new_error (task, G_IO_ERROR, G_IO_ERROR_FAILED, "%s", reason);
    }
  trn_diags_free (diags);
}

static void
run (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  DeskStillJob *job = data;
  g_autoptr (GError) error = NULL;
  RenderPictureOptions options = job->options;
  options.progress = on_progress;
  options.progress_data = task;
  cairo_surface_t *surface = render_picture (job->list, &job->camera, &options, &error);
  if (surface != NULL)
    {
      write_picture (task, job, surface);
      cairo_surface_destroy (surface);
    }
  else if (g_error_matches (error, RENDER_PICTURE_ERROR, RENDER_PICTURE_ERROR_STOPPED))
    return_stopped (task);
  else
    {
      g_debug ("still: %s", error->message);
      g_task_return_new_error (task, G_IO_ERROR, G_IO_ERROR_FAILED, "%s", reason_of (error));
    }
}

/* ---- on the main thread ---- */

static void
on_ended (GObject *source, GAsyncResult *result, gpointer data)
{
  DeskStillJob *job = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;
  DeskStillOutcome outcome = DESK_STILL_WRITTEN;
  if (!g_task_propagate_boolean (G_TASK (result), &error))
    outcome = g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED) ? DESK_STILL_STOPPED
                                                                        : DESK_STILL_FAILED;
  if (!job->abandoned)
    job->listener.ended (outcome, outcome == DESK_STILL_FAILED ? error->message : NULL,
                         job->listener.data);
  if (g_application_get_default () != NULL)
    g_application_release (g_application_get_default ());
}

DeskStillJob *
desk_still_job_start (DeskSite *site, RenderDrawList *list, const RenderCamera *camera,
                      const RenderPictureOptions *options, const char *path,
                      DeskStillListener listener)
{
  DeskStillJob *job = g_new0 (DeskStillJob, 1);
  *job = (DeskStillJob){ .site = desk_site_ref (site),
                         .list = list,
                         .camera = *camera,
                         .options = *options,
                         .path = g_strdup (path),
                         .listener = listener,
                         .cancellable = g_cancellable_new (),
                         .shown_percent = -1 };
  if (g_application_get_default () != NULL)
    g_application_hold (g_application_get_default ());
  /* The cancellable is looked at by hand: what is written is written, also when it is stopped in
   * that moment. */
  g_autoptr (GTask) task = g_task_new (NULL, NULL, on_ended, NULL);
  g_task_set_task_data (task, job, job_free);
  g_task_run_in_thread (task, run);
  return job;
}

void
desk_still_job_stop (DeskStillJob *job)
{
  g_cancellable_cancel (job->cancellable);
}

void
desk_still_job_abandon (DeskStillJob *job)
{
  job->abandoned = TRUE;
  desk_still_job_stop (job);
}
