/* application.c: opens plans in windows. A plan goes into the window in front as long as that shows
 * none. */
#include "application.h"

#include "about.h"
#include "actions.h"
#include "preferences.h"
#include "resources.h"
#include "settings.h"
#include "window.h"

#define APPLICATION_ID "org.trunnion.Desk"

struct _DeskApplication
{
  AdwApplication parent;
};

G_DEFINE_FINAL_TYPE (DeskApplication, desk_application, ADW_TYPE_APPLICATION)

static void
do_quit (GSimpleAction *action, GVariant *parameter, gpointer application)
{
  GList *windows = g_list_copy (gtk_application_get_windows (application));
  for (GList *i = windows; i != NULL; i = i->next)
    gtk_window_close (i->data);
  g_list_free (windows);
}

static void
do_new_window (GSimpleAction *action, GVariant *parameter, gpointer application)
{
  gtk_window_present (GTK_WINDOW (desk_window_new (application)));
}

static void
do_preferences (GSimpleAction *action, GVariant *parameter, gpointer application)
{
  desk_preferences_show (gtk_application_get_active_window (application));
}

static void
do_about (GSimpleAction *action, GVariant *parameter, gpointer application)
{
  desk_about_show (gtk_application_get_active_window (application));
}

static const GActionEntry entries[] = {
  { .name = "preferences", .activate = do_preferences },
  { .name = "about", .activate = do_about },
  { .name = "quit", .activate = do_quit },
  { .name = "new-window", .activate = do_new_window },
};

static void
desk_application_activate (GApplication *application)
{
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (application));
  if (window == NULL)
    window = GTK_WINDOW (desk_window_new (GTK_APPLICATION (application)));
  gtk_window_present (window);
}

static DeskWindow *
find_empty_window (GApplication *application)
{
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (application));
  if (window == NULL || !DESK_IS_WINDOW (window))
    return NULL;
  DeskSession *session = desk_window_get_session (DESK_WINDOW (window));
  DeskDocumentState state = desk_document_get_state (desk_session_get_document (session));
  return state == DESK_DOCUMENT_EMPTY ? DESK_WINDOW (window) : NULL;
}

static void
desk_application_open (GApplication *application, GFile **files, int n_files, const char *hint)
{
  for (int i = 0; i < n_files; i++)
    {
      DeskWindow *window = find_empty_window (application);
      if (window == NULL)
        window = desk_window_new (GTK_APPLICATION (application));
      desk_window_open (window, files[i]);
      gtk_window_present (GTK_WINDOW (window));
    }
}

static void
desk_application_startup (GApplication *application)
{
  G_APPLICATION_CLASS (desk_application_parent_class)->startup (application);
  g_action_map_add_action_entries (G_ACTION_MAP (application), entries, G_N_ELEMENTS (entries),
                                   application);
  desk_actions_set_keys (GTK_APPLICATION (application));
  desk_settings_get ();
}

static void
desk_application_class_init (DeskApplicationClass *class)
{
  GApplicationClass *application_class = G_APPLICATION_CLASS (class);
  application_class->activate = desk_application_activate;
  application_class->open = desk_application_open;
  application_class->startup = desk_application_startup;
}

static void
desk_application_init (DeskApplication *application)
{
}

DeskApplication *
desk_application_new (void)
{
  return g_object_new (DESK_TYPE_APPLICATION, "application-id", APPLICATION_ID, "flags",
                       G_APPLICATION_HANDLES_OPEN, "resource-base-path", DESK_RESOURCES, NULL);
}
