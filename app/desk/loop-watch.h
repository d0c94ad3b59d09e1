/* loop-watch.h: how long the main loop was held, and when the first frames were drawn.
 *
 * For measuring: with TRUNNION_DESK_STALLS=1 in the environment every hold of the main loop by more
 * than 5 ms of work, apart from drawing, is printed with what it went to, and the longest at the
 * end (8 ms is what none should reach); work is the processor's for the main thread; with
 * TRUNNION_DESK_TIMING=1 the time from the start of the program to the first frame, and to the
 * first with a plan in it, and at the end the frames a second while the time of the lift moved.
 * Without them nothing is done.
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

/* As early as can be. */
void desk_loop_watch_start (void);
/* The frames of a window that is realised. */
void desk_loop_watch_frames (GtkWidget *window, DeskSession *session);
/* Prints what was measured. */
void desk_loop_watch_print (void);
