/* matrix.h: structures against moves, with the least clearance in each cell. */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

GtkWidget *desk_matrix_new (DeskSession *session);
