/* number.h: text that changes while time moves or the check runs.
 *
 * A label asks for a new layout of its whole window whenever its text is another one, and before
 * each layout GTK asks the display for the room there is, and waits for the answer: by the clock on
 * the wall that is longer than all the rest when other threads have the processors. A number here
 * keeps the room that it has had, and only a text that needs more asks for a layout. */
#pragma once

#include <gtk/gtk.h>

/* One line at the right of its room, in figures of one width; @style_class may be NULL. */
GtkWidget *desk_number_new (const char *style_class);
void desk_number_set (GtkWidget *number, const char *text);
/* As if it had said @text: of several texts that it may say, so that it never asks for more. */
void desk_number_make_room (GtkWidget *number, const char *text);
/* It is never bold, and needs no room for that. */
void desk_number_stay_plain (GtkWidget *number);
/* At the left of its room: 0; at the right: 1. */
void desk_number_set_xalign (GtkWidget *number, float xalign);

/* How wide a text is in the letters of @widget, in figures of one width. What was measured is kept
 * with the widget until its letters are others: for the few texts that are asked for often. */
int desk_text_px (GtkWidget *widget, const char *text, gboolean bold);

/* A name, which wants a second line where it is wider than its room, and a third one, and is cut at
 * its end where these are not enough; before it has any, its room counts as so wide. It keeps its
 * lines until it may shrink, so that rows whose names change keep their places. Bold is to be set
 * first. */
GtkWidget *desk_name_line_new (int room_px);
void desk_name_line_set (GtkWidget *name, const char *text, gboolean may_shrink);

/* As desk_text_set_bold, without a layout. */
void desk_number_set_bold (GtkWidget *number, gboolean bold);

/* The text of a label, which is left alone where it is the same; TRUE: it was another one. */
gboolean desk_label_set (GtkWidget *label, const char *text);
