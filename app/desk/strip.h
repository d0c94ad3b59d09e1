/* strip.h: the clearance strip: time across, clearance up. */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

GtkWidget *desk_strip_new (DeskSession *session);
