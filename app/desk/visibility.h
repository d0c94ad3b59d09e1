/* visibility.h: the structures and the gear as a list in which each is shown, ghosted or hidden. */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

GtkWidget *desk_visibility_new (DeskSession *session);
