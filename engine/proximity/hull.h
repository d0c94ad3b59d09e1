/* hull.h: directions that separate the convex hulls of two small point sets.
 *
 * A direction n proves that the hulls are at least min n·a − max n·b apart: that difference, worked
 * out from the points, is the certificate. How n was found does not matter for the proof, so the
 * search for it (Gilbert, Johnson, Keerthi 1988) may stop early, stall or fail without harm. */
#pragma once

#include "vec3.h"

typedef struct
{
  double gap_m; /* min n·a − max n·b; the hulls are at least this far apart when > 0 */
  TrnVec3 n;    /* unit, from b towards a */
} TrnHullGap;

/* The certificate of the unit vector @n. */
double trn_hull_gap_along (const TrnVec3 *a, guint n_a, const TrnVec3 *b, guint n_b, TrnVec3 n);

/* Looks for a direction whose gap, less @loss (@n, @data), reaches @enough_m; begins with
 * @first, and stops as soon as one is found or none can be. The result is the best one tried.
 * @loss may be NULL. */
typedef double (*TrnHullLoss) (TrnVec3 n, gconstpointer data);
TrnHullGap trn_hull_separate (const TrnVec3 *a, guint n_a, const TrnVec3 *b, guint n_b,
                              TrnVec3 first, double enough_m, TrnHullLoss loss, gconstpointer data);
