/* chooser.c: a native dialog outlives its window (GTK 4.8): it would stay on the screen, answer
 * nobody, and never be freed. Here it goes with the window. */
#include "chooser.h"

#include <string.h>

typedef struct
{
  GtkNativeDialog *dialog; /* owned */
  DeskChosen chosen;
  gpointer data;
  GDestroyNotify free_data;
} Chooser;

void
desk_chooser_set_name (GtkFileChooserNative *dialog, const char *base_name, const char *ending)
{
  const char *dot = strrchr (base_name, '.');
  int length = dot != NULL ? (int)(dot - base_name) : (int)strlen (base_name);
  g_autofree char *name = g_strdup_printf ("%.*s%s", length, base_name, ending);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (dialog), name);
}

static void
set_folder (GtkFileChooser *dialog, DeskSession *session)
{
  GFile *plan = desk_document_get_file (desk_session_get_document (session));
  g_autoptr (GFile) folder = plan != NULL ? g_file_get_parent (plan) : NULL;
  if (folder != NULL)
    gtk_file_chooser_set_current_folder (dialog, folder, NULL);
}

static void
chooser_free (Chooser *chooser)
{
  GtkWindow *window = gtk_native_dialog_get_transient_for (chooser->dialog);
  if (window != NULL)
    g_signal_handlers_disconnect_by_data (window, chooser);
  g_signal_handlers_disconnect_by_data (chooser->dialog, chooser);
  gtk_native_dialog_destroy (chooser->dialog);
  g_object_unref (chooser->dialog);
  if (chooser->free_data != NULL)
    chooser->free_data (chooser->data);
  g_free (chooser);
}

static void
on_response (GtkNativeDialog *dialog, int response, Chooser *chooser)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
  if (response == GTK_RESPONSE_ACCEPT && file != NULL)
    chooser->chosen (file, chooser->data);
  chooser_free (chooser);
}

static void
on_window_gone (GtkWindow *window, Chooser *chooser)
{
  chooser_free (chooser);
}

void
desk_chooser_show_take (GtkFileChooserNative *dialog, DeskSession *session, DeskChosen chosen,
                        gpointer data, GDestroyNotify free_data)
{
  Chooser *chooser = g_new (Chooser, 1);
  *chooser = (Chooser){ GTK_NATIVE_DIALOG (dialog), chosen, data, free_data };
  set_folder (GTK_FILE_CHOOSER (dialog), session);
  g_signal_connect (dialog, "response", G_CALLBACK (on_response), chooser);
  GtkWindow *window = gtk_native_dialog_get_transient_for (chooser->dialog);
  if (window != NULL)
    g_signal_connect (window, "destroy", G_CALLBACK (on_window_gone), chooser);
  gtk_native_dialog_set_modal (chooser->dialog, TRUE);
  gtk_native_dialog_show (chooser->dialog);
}
