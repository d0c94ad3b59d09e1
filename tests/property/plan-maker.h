/* plan-maker.h: random plans without a fault, as text: every kind of move, solid, change and seat,
 * placed so that loads really rest on something, come close to something, and sometimes meet it. */
#pragma once

#include <glib.h>

/* Mesh files for all plans, in a new folder; owned path. */
char *plan_maker_write_meshes (void);
void plan_maker_remove_meshes (const char *folder);

/* A plan from a seed alone; owned. */
char *plan_maker_make (guint32 seed);

/* The same plan on a site that is shifted and turned about the vertical; owned. */
char *plan_maker_move_site (const char *json, guint32 seed);

/* The same plan with one structure more, named "added", near the first load; owned. */
char *plan_maker_add_obstacle (const char *json, guint32 seed);

/* A load that waits beside one structure, or, swapped, the structure's shape as the load beside the
 * load's as the structure, each where it was; owned. */
char *plan_maker_make_wait (guint32 seed, gboolean swapped);

/* The same plan with that clearance to be kept from one obstacle in one lift; owned. */
char *
plan_maker_set_required (const char *json, guint lift, const char *obstacle, double required_m);
