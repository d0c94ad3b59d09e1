/* window-fixture.h: a window of the desk on a display of the test's own, with a folder beside it.
 * Included once in a program. */
#pragma once

#include "desk-fixture.h"
#include "keep-loaded.h"

#include "application.h"
#include "window.h"

static DeskApplication *application;

/* @widget and all below it. */
static inline void
test_walk (GtkWidget *widget, void (*visit) (GtkWidget *widget, gpointer data), gpointer data)
{
  visit (widget, data);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    test_walk (child, visit, data);
}

typedef struct
{
  char *folder;
  DeskWindow *window;
  DeskSession *session;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer name)
{
  fixture->folder = test_folder_new ();
  fixture->window = desk_window_new (GTK_APPLICATION (application));
  fixture->session = desk_window_get_session (fixture->window);
  gtk_window_present (GTK_WINDOW (fixture->window));
  test_wait (gtk_widget_get_mapped (GTK_WIDGET (fixture->window)));
}

/* The window goes when it is closed: nothing holds it, or a hundred plans later the memory is
 * full. */
static void
tear_down (Fixture *fixture, gconstpointer name)
{
  gpointer left = fixture->window;
  g_object_add_weak_pointer (G_OBJECT (fixture->window), &left);
  gtk_window_destroy (GTK_WINDOW (fixture->window));
  test_wait (left == NULL);
  test_folder_free (fixture->folder);
}

/* What comes before the tests are added. */
static void
test_window_init (int *argc, char ***argv, const char *home)
{
  /* The list of files last opened is one of the test's own. */
  g_setenv ("XDG_DATA_HOME", home, TRUE);
  g_test_init (argc, argv, NULL);
  gtk_init ();
  application = desk_application_new ();
  g_application_set_flags (G_APPLICATION (application),
                           G_APPLICATION_HANDLES_OPEN | G_APPLICATION_NON_UNIQUE);
  g_autoptr (GError) error = NULL;
  g_assert_true (g_application_register (G_APPLICATION (application), NULL, &error));
  g_assert_no_error (error);
}

/* Runs them. @home is removed. */
static int
test_window_run (char *home)
{
  int status = g_test_run ();
  g_object_unref (application);
  test_folder_free (home);
  return status;
}
