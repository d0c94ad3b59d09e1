/* room-turns.h: the rooms of a page come up one in a frame. To style all that a page has and to
 * give it its place takes longer than one can be kept waiting. */
#pragma once

#include <gtk/gtk.h>

/* Hides the @rooms, children of @page or further down, and shows them one after the other in the
 * frames after that in which @page is shown. Nobody else sets whether they are visible. */
void desk_rooms_show_in_turn (GtkWidget *page, GtkWidget *const *rooms, guint n);

/* Whenever focus or state of the window change, the toolkit styles all that is visible, also on
 * pages of a stack that are not shown: so those are hidden. */
/* Shows that page alone. */
void desk_page_show (GtkStack *pages, const char *name);
/* Hides the child of @place while @place is not mapped: for pages that a switcher chooses. */
void desk_room_show_when_seen (GtkWidget *place);
