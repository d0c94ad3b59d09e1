/* file-dialog.c: a plan from the desktop's own file dialog, and the drop of a list of files. */
#include "file-dialog.h"

#include "chooser.h"
#include "window-words.h"

static void
on_chosen (GFile *file, gpointer window)
{
  desk_window_open (window, file);
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
desk_file_dialog_open_plan (DeskWindow *window)
{
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (
      trn_words_window (TRN_WINDOW_OPEN_PLAN), GTK_WINDOW (window), GTK_FILE_CHOOSER_ACTION_OPEN,
      trn_words_window (TRN_WINDOW_OPEN), trn_words_window (TRN_WINDOW_CANCEL));
  add_filter (GTK_FILE_CHOOSER (dialog), trn_words_window (TRN_WINDOW_PLANS), "*.trunnion");
  add_filter (GTK_FILE_CHOOSER (dialog), trn_words_window (TRN_WINDOW_ALL_FILES), "*");
  desk_chooser_show_take (dialog, desk_window_get_session (window), on_chosen, window, NULL);
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
