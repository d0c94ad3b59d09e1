/* gear-maker.h: random gear and rigging put into a random plan: cranes and gantries that hold its
 * loads, most of the time within reach. */
#pragma once

#include <glib.h>

/* The plan of @json with gear, from a seed alone; owned. */
char *gear_maker_add (const char *json, guint32 seed);
