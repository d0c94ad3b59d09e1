/* strip.h: the clearance strip: time across, clearance up. */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

GtkWidget *desk_strip_new (DeskSession *session);
/* The strip where its bands can be scrolled to. */
GtkWidget *desk_strip_room_new (DeskSession *session);
/* What the gauges that are shown say at that time, one text each; NULL: nothing is drawn. */
GPtrArray *desk_strip_read_gauges (GtkWidget *strip, double time_s);
