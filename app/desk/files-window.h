/* files-window.h: the mesh files of the plan: what is in each, who gave its unit, what was put
 * right, and what is odd about it. */
#pragma once

#include "session.h"

#include <gtk/gtk.h>

/* The window of @parent, shown: one at most. It follows the session, and goes with its plan. */
GtkWidget *desk_files_window_show (GtkWindow *parent, DeskSession *session);
