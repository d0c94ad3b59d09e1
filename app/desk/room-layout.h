/* room-layout.h: a layout of one child whose size is known without asking for it at many widths.
 *
 * The toolkit looks for the least size of a window by measuring all of it at one width after the
 * other, whenever something in it has changed. A text that wraps, or a list of two hundred rows,
 * takes long then. A room of a set width, or one that scrolls, is not asked.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* What is always seen of a list that scrolls. */
#define DESK_LEAST_ROWS_PX 64

/* @width_px: what the child always gets; 0 where it takes what there is. @least_height_px: 0 where
 * the child is asked how high it is at that width. */
GtkLayoutManager *desk_room_layout_new (int width_px, int least_height_px);
/* Of a layout with a width: another one. */
void desk_room_layout_set_width (GtkLayoutManager *layout, int width_px);

/* @child in a box of that layout. */
GtkWidget *desk_room_box_new (GtkWidget *child, int width_px, int least_height_px);

G_END_DECLS
