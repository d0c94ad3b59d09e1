/* file-dialog.c: the desktop's own file dialog, and the drop of a list of files. */
#include "file-dialog.h"

#include "window-words.h"

static void
on_response (GtkNativeDialog *dialog, int response, DeskWindow *window)
{
  if (response == GTK_RESPONSE_ACCEPT)
    {
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
      if (file != NULL)
        desk_window_open (window, file);
    }
  gtk_native_dialog_destroy (dialog);
  g_object_unref (dialog);
}

static void
add_filter (GtkFileChooser *chooser, const char *name, const char *pattern)
{
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();
  gtk_file_filter_set_name (filter, name);
  gtk_file_filter_add_pattern (filter, pattern);
  gtk_file_chooser_add_filter (chooser, filter);
}

void
desk_file_dialog_set_folder (GtkFileChooser *chooser, DeskWindow *window)
{
  GFile *file
      = desk_document_get_file (desk_session_get_document (desk_window_get_session (window)));
  g_autoptr (GFile) folder = file != NULL ? g_file_get_parent (file) : NULL;
  if (folder != NULL)
    gtk_file_chooser_set_current_folder (chooser, folder, NULL);
}

void
desk_file_dialog_open_plan (DeskWindow *window)
{
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (
      trn_words_window (TRN_WINDOW_OPEN_PLAN), GTK_WINDOW (window), GTK_FILE_CHOOSER_ACTION_OPEN,
      trn_words_window (TRN_WINDOW_OPEN), trn_words_window (TRN_WINDOW_CANCEL));
  add_filter (GTK_FILE_CHOOSER (dialog), trn_words_window (TRN_WINDOW_PLANS), "*.trunnion");
  add_filter (GTK_FILE_CHOOSER (dialog), trn_words_window (TRN_WINDOW_ALL_FILES), "*");
  desk_file_dialog_set_folder (GTK_FILE_CHOOSER (dialog), window);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  g_signal_connect_object (dialog, "response", G_CALLBACK (on_response), window, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

static gboolean
on_drop (GtkDropTarget *target, const GValue *value, double x, double y, DeskWindow *window)
{
  GSList *files = g_value_get_boxed (value);
  if (files == NULL)
    return FALSE;
  desk_window_open (window, files->data);
  return TRUE;
}

void
desk_file_drop_add (DeskWindow *window)
{
  GtkDropTarget *target = gtk_drop_target_new (GDK_TYPE_FILE_LIST, GDK_ACTION_COPY);
  g_signal_connect (target, "drop", G_CALLBACK (on_drop), window);
  gtk_widget_add_controller (GTK_WIDGET (window), GTK_EVENT_CONTROLLER (target));
}
