/* about.c: the window about the program. */
#include "about.h"

#include <adwaita.h>
#include <string.h>

#include "citizen-words.h"

GtkWidget *
desk_about_show (GtkWindow *parent)
{
  g_autofree char *text = trn_words_about ();
  GtkWidget *window = adw_about_window_new ();
  AdwAboutWindow *about = ADW_ABOUT_WINDOW (window);
  adw_about_window_set_application_name (about, "Trunnion");
  adw_about_window_set_application_icon (about, "org.trunnion.Desk");
  adw_about_window_set_version (about, &TRN_PROGRAM[strlen ("trunnion ")]);
  adw_about_window_set_developer_name (about, trn_words_citizen (TRN_CITIZEN_DEVELOPERS));
  adw_about_window_set_license_type (about, GTK_LICENSE_APACHE_2_0);
  adw_about_window_set_comments (about, text);
  gtk_window_set_transient_for (GTK_WINDOW (window), parent);
  gtk_window_set_modal (GTK_WINDOW (window), parent != NULL);
  gtk_window_set_destroy_with_parent (GTK_WINDOW (window), TRUE);
  gtk_window_present (GTK_WINDOW (window));
  return window;
}
