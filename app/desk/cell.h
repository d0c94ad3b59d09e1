/* cell.h: a cell of a table that is pressed: a mark and a number at the right of it. */
#pragma once

#include <gtk/gtk.h>

#include "draw-list.h"

#define DESK_TYPE_CELL (desk_cell_get_type ())
G_DECLARE_FINAL_TYPE (DeskCell, desk_cell, DESK, CELL, GtkButton)

/* As high as @height_px, as wide as its place. */
GtkWidget *desk_cell_new (int height_px);
void desk_cell_set (DeskCell *cell, RenderState state, gboolean dark, const char *text);
/* What it shows. Borrowed. */
const char *desk_cell_get_text (DeskCell *cell);
