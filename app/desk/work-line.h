/* work-line.h: how far some work is, as a thin line. GtkProgressBar gives its parts their places
 * anew at every step, and with them the whole window (number.h); this is only drawn. */
#pragma once

#include <gtk/gtk.h>

/* @area has the role of a progress bar. */
void desk_work_line_set_up (GtkDrawingArea *area);
/* 0 … 1 */
void desk_work_line_set (GtkDrawingArea *area, double fraction);
