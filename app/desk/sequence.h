/* sequence.h: lifts and moves in order, each with its worst margin. */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

GtkWidget *desk_sequence_new (DeskSession *session);
