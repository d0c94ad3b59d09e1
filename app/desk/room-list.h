/* room-list.h: a list of rows that are filled by index: only rows that are seen exist, so that a
 * lift with 1000 moves or obstacles is as quick as a small one. */
#pragma once

#include <gtk/gtk.h>

typedef GtkWidget *(*DeskRowBuild) (gpointer data);
typedef void (*DeskRowFill) (GtkWidget *row, guint index, gpointer data);
typedef void (*DeskRowActivate) (guint index, gpointer data);

/* A GtkListView; a click or Enter activates a row. @data lives at least as long. */
GtkWidget *
desk_room_list_new (DeskRowBuild build, DeskRowFill fill, DeskRowActivate activate, gpointer data);
/* How many rows there are; all that are seen are filled anew. */
void desk_room_list_set_count (GtkWidget *list, guint n);
void desk_room_list_refill (GtkWidget *list);
/* FALSE until nobody has asked for that for a while: then all are filled once more. */
gboolean desk_room_list_is_at_rest (GtkWidget *list);
/* Scrolls so that a row is seen. */
void desk_room_list_show (GtkWidget *list, guint index);
/* What a screen reader says of a row, and whether it is the current one. */
void desk_room_row_tell (GtkWidget *row, const char *text, gboolean current);
