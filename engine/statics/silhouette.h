/* silhouette.h: the area of a body as seen along a direction, and the greatest along many: its sail
 * area. */
#pragma once

#include "mesh.h"

/* An upper bound, proven, of the area seen along @direction (mesh frame, of length 1), with each
 * point up to @slack_m from its place. Within 1 % for bodies, more for what is mostly gaps. */
double trn_silhouette_m2 (const TrnMesh *mesh, TrnVec3 direction, double slack_m);

/* Directions within @slant_rad of level ones, while what is up turns about a level axis. All in the
 * mesh's frame. */
typedef struct
{
  TrnVec3 up;   /* at the start; of length 1 */
  TrnVec3 axis; /* square to it, of length 1; any where angle_rad is 0 */
  double angle_rad;
  double slant_rad; /* from a right angle on: all directions */
} TrnSilhouetteBand;

typedef struct
{
  double area_m2;    /* no direction shows more: an upper bound, proven */
  double seen_m2;    /* along direction; a bound of that, too, within 1 % for bodies */
  TrnVec3 direction; /* mesh frame; in one of the bands */
} TrnSilhouette;

/* Over all directions of @bands, with each point of the triangles up to @slack_m from its place.
 * Area and seen are within 1 % of each other unless that takes too long: up to some 10 % for bumpy
 * bodies that show about as much from very many directions, 12 % with more than 20,000 triangles,
 * and more for many thin things that are far apart. @is_closed: mesh-check.h. On up to @jobs
 * threads (0: one a processor); the result does not depend on their number. */
TrnSilhouette trn_silhouette_worst (const TrnMesh *mesh, gboolean is_closed, double slack_m,
                                    const TrnSilhouetteBand *bands, guint n_bands, guint jobs);
