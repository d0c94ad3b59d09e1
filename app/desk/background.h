/* background.h: threads whose work nobody waits for with a finger on the mouse. */
#pragma once

#include <glib.h>

/* Starts a thread, and those that it starts, behind everything that a person waits for: moments
 * while the time is dragged, drawing, the desktop. Not joined: it keeps alive what it needs. */
void desk_background_start (const char *name, GThreadFunc func, gpointer data);
