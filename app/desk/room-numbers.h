/* room-numbers.h: rows of a name, a number and what belongs to it, which change while time is
 * dragged: the widgets of a row stay, since to make and style them takes longer than the rest. */
#pragma once

#include <gtk/gtk.h>

/* A grid without rows. What belongs to the numbers is at the right, or beside them at the left. */
GtkWidget *desk_numbers_new (gboolean is_right);
/* From the first row on; what is not set before the end is not seen. */
void desk_numbers_begin (GtkWidget *numbers);
/* @said: the row as it is said; @more may be NULL. */
void desk_numbers_add (GtkWidget *numbers, const char *label, const char *value, const char *more,
                       const char *said);
/* The row that was added last belongs to the one above it. */
void desk_numbers_under (GtkWidget *grid);
/* The number of the row that was added last is less than those above it. */
void desk_numbers_quiet (GtkWidget *grid);
void desk_numbers_end (GtkWidget *numbers);
/* A row as it is said. Owned by the caller. */
char *desk_numbers_said (const char *label, const char *value, const char *more);
