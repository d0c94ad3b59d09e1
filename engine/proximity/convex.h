/* convex.h: the distance of the convex hulls of two small sets of points, in double precision, with
 * the points where it is attained. */
#pragma once

#include "vec3.h"

/* The distance of the hulls of the @n_a points @a and the @n_b points @b, at least one each.
 * @on_a and @on_b are mixtures of the points with weights that are not negative and sum to 1, and
 * the result is their distance: whatever becomes of the search for them, it never lies below the
 * least but by the rounding of their coordinates, at most 32 u M with M the greatest absolute
 * coordinate and u = 2⁻⁵³. It exceeds the least by little more. */
double trn_convex_distance (const TrnVec3 *a, guint n_a, const TrnVec3 *b, guint n_b, TrnVec3 *on_a,
                            TrnVec3 *on_b);
