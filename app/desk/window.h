/* window.h: the window: the plan that is open, its rooms and its pages. One window, one plan. */
#pragma once

#include <adwaita.h>

#include "session.h"

#define DESK_TYPE_WINDOW (desk_window_get_type ())
G_DECLARE_FINAL_TYPE (DeskWindow, desk_window, DESK, WINDOW, AdwApplicationWindow)

DeskWindow *desk_window_new (GtkApplication *application);
void desk_window_open (DeskWindow *window, GFile *file);

DeskSession *desk_window_get_session (DeskWindow *window); /* borrowed */
GtkWidget *desk_window_get_stage (DeskWindow *window);     /* borrowed */
/* "start", "loading", "faults" or "plan": the page that is shown. */
const char *desk_window_get_page (DeskWindow *window);
/* What stands over the rooms: what was found, and what was not checked. */
const char *desk_window_get_headline (DeskWindow *window);
/* Shows what was found when the plan was read, although it can be shown; or the plan again. */
void desk_window_show_remarks (DeskWindow *window, gboolean show);
/* "view", "findings" or "matrix". */
void desk_window_show_room (DeskWindow *window, const char *room);
const char *desk_window_get_room (DeskWindow *window);
/* A short message that goes away by itself. */
void desk_window_tell (DeskWindow *window, const char *text);
/* What was found when the plan was read, a line each; owned by the caller. */
char *desk_window_faults_text_dup (DeskWindow *window);
