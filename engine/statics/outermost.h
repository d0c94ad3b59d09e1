/* outermost.h: of many places in a plane those that may be corners of their hull. Internal to this
 * folder. */
#pragma once

#include "plane.h"
#include "vec3.h"

/* Sets @x and @y to how far each of the @n points is along @across and @up. The points have their
 * coordinates in three arrays. */
void trn_outermost_place (const double *const along[3], guint n, TrnVec3 across, TrnVec3 up,
                          double *x, double *y);

/* Leaves out those well within the hull: within the polygon of those that are the farthest right,
 * up, left and down, and between; the first of several. Writes the others to @places, which has
 * room for @n, with their numbers, and returns how many there are. At least four. */
guint trn_outermost_keep (const double *x, const double *y, guint n, TrnPlanePoint *places);
