/* loop-watch.h: how long the main loop was held, and when the first frames were drawn.
 *
 * For measuring: with TRUNNION_DESK_STALLS=1 in the environment the longest time the loop was held,
 * apart from drawing, is printed at the end; with TRUNNION_DESK_TIMING=1 the time from the start of
 * the program to the first frame, and to the first with a plan in it. Without them nothing is done.
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

/* As early as can be. */
void desk_loop_watch_start (void);
/* The frames of a window. */
void desk_loop_watch_frames (GdkFrameClock *clock, DeskSession *session);
/* Prints what was measured. */
void desk_loop_watch_print (void);
