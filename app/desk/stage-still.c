/* stage-still.c: the view as a picture in a file, at the window's size or a multiple of it.
 *
 * It is drawn in a context of its own (picture.h), so that it does not depend on the window; the
 * file is compressed on a thread and written whole or not at all. */
#include "stage-private.h"

#include "picture.h"
#include "write-file.h"

#define MOST_FACTOR 4

typedef struct
{
  cairo_surface_t *surface;
  char *path;
  TrnDiags *diags;
} Job;

static void
job_free (gpointer data)
{
  Job *job = data;
  cairo_surface_destroy (job->surface);
  g_free (job->path);
  trn_diags_free (job->diags);
  g_free (job);
}

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

static cairo_status_t
append_bytes (void *closure, const unsigned char *bytes, unsigned int length)
{
  g_byte_array_append (closure, bytes, length);
  return CAIRO_STATUS_SUCCESS;
}

static void
run_job (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Job *job = data;
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  cairo_status_t status = cairo_surface_write_to_png_stream (job->surface, append_bytes, bytes);
  if (status != CAIRO_STATUS_SUCCESS)
    g_task_return_new_error (task, G_IO_ERROR, G_IO_ERROR_FAILED, "%s",
                             cairo_status_to_string (status));
  else
    g_task_return_boolean (task, trn_write_file (job->path, bytes->data, bytes->len, job->diags));
}

static void
on_written (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GError) error = NULL;
  Job *job = g_task_get_task_data (G_TASK (result));
  if (g_task_propagate_boolean (G_TASK (result), &error))
    return;
  g_autofree char *reason = error != NULL
                                ? g_strdup (error->message)
                                : trn_words_diag (g_ptr_array_index (job->diags->items, 0));
  tell_failure (DESK_STAGE (source), reason);
}

gboolean
desk_stage_write_still (DeskStage *stage, const char *path, guint factor, gboolean clean)
{
  const RenderDrawList *list = desk_stage_list (stage);
  RenderSize size = desk_stage_size (stage);
  if (list == NULL)
    return FALSE;
  RenderPictureOptions options = { .width = (int)(size.width * factor),
                                   .height = (int)(size.height * factor),
                                   .scale = factor,
                                   .clean = clean };
  /* The picture's context becomes the current one behind GDK's back. */
  gdk_gl_context_clear_current ();
  g_autoptr (GError) error = NULL;
  cairo_surface_t *surface = render_picture (list, &stage->camera, &options, &error);
  if (surface == NULL)
    {
      tell_failure (stage, error->message);
      return FALSE;
    }
  Job *job = g_new (Job, 1);
  *job = (Job){ surface, g_strdup (path), trn_diags_new () };
  g_autoptr (GTask) task = g_task_new (stage, NULL, on_written, NULL);
  g_task_set_task_data (task, job, job_free);
  g_task_run_in_thread (task, run_job);
  return TRUE;
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
