/* window-look.h: what is asked of a window of the desk, and looked for in it. Included once in a
 * program. */
#pragma once

#include "window-fixture.h"

static inline gboolean
shows (Fixture *fixture, const char *page)
{
  return g_strcmp0 (desk_window_get_page (fixture->window), page) == 0;
}

static inline gboolean
is_checked (Fixture *fixture)
{
  return desk_check_get_state (desk_session_get_check (fixture->session)) == DESK_CHECK_DONE;
}

static inline void
do_action (Fixture *fixture, const char *name)
{
  g_assert_true (g_action_group_has_action (G_ACTION_GROUP (fixture->window), name));
  g_assert_true (g_action_group_get_action_enabled (G_ACTION_GROUP (fixture->window), name));
  g_action_group_activate_action (G_ACTION_GROUP (fixture->window), name, NULL);
}

static inline gboolean
can_do (Fixture *fixture, const char *name)
{
  return g_action_group_get_action_enabled (G_ACTION_GROUP (fixture->window), name);
}

typedef gboolean (*Match) (GtkWidget *widget, gconstpointer data);

/* The first widget below @widget that matches; NULL where there is none. */
static inline GtkWidget *
find (GtkWidget *widget, Match match, gconstpointer data)
{
  if (match (widget, data))
    return widget;
  GtkWidget *found = NULL;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find (child, match, data);
  return found;
}

static inline void
open_copy (Fixture *fixture, const char *name)
{
  g_autoptr (GFile) file = test_plan_copy (fixture->folder, name);
  desk_window_open (fixture->window, file);
  DeskDocument *document = desk_session_get_document (fixture->session);
  test_wait (test_document_is_done (document) && shows (fixture, "plan"));
}
