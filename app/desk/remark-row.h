/* remark-row.h: a row of a list of what was found: a mark, and lines of text below each other. */
#pragma once

#include <gtk/gtk.h>

/* A label that takes as many lines as it needs, with classes parted by blanks; NULL: none. */
GtkWidget *desk_line_new (const char *classes);
/* One line for each of the @n classes, which may be NULL. */
GtkWidget *desk_remark_row_new (const char *const *classes, guint n);
/* As many texts as it has lines; an empty one takes no room. */
void desk_remark_row_set (GtkWidget *row, const char *icon, const char *const *texts);
/* @n rows whose content is asked for by their positions, none of them selected. */
void desk_remark_list_set (GtkListView *list, guint n);
