/* strip.h: the clearance strip: time across, clearance up. */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

GtkWidget *desk_strip_new (DeskSession *session);
/* The strip where its bands can be scrolled to. */
GtkWidget *desk_strip_room_new (DeskSession *session);
