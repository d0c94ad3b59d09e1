/* nearest.h: how near everything is at this moment, least margin first. */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

GtkWidget *desk_nearest_new (DeskSession *session);
