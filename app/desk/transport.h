/* transport.h: play, step, rate and the time, in one bar. */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

GtkWidget *desk_transport_new (DeskSession *session);
