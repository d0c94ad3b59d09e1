/* hull.h: directions that separate the convex hulls of two small point sets.
 *
 * A direction n proves that the hulls are at least min n·a − max n·b apart, divided by |n|: that
 * difference, worked out from the points, is the certificate. How n was found does not matter for
 * the proof, so the search for it (Gilbert, Johnson, Keerthi 1988) may stop early, stall or fail
 * without harm. */
#pragma once

#include "rotation.h"
#include "support.h"

/* A set of points about its centre. */
typedef struct
{
  const TrnPoints8 *blocks;
  guint n_blocks;
  double radius_m; /* no point is farther from the centre */
} TrnHull;

/* Where the centre of hull A is seen from that of hull B, and how A is turned, in B's frame: at
 * one pose, or at two, and then the hull of both places is meant. */
typedef struct
{
  guint n_poses;      /* 1 or 2 */
  gboolean same_turn; /* both have turn[0] */
  const TrnRotation *turn[2];
  TrnVec3 centre[2];
} TrnHullPlaces;

typedef struct
{
  double gap_m;   /* proven: the hulls are at least this far apart when > 0 */
  TrnDirection n; /* about a unit vector, from B towards A, B's frame */
} TrnHullGap;

/* What a certificate along the direction, as a unit vector, loses to something else. */
typedef double (*TrnHullLoss) (TrnVec3 n, gconstpointer data);

/* Looks for a direction whose gap, less @loss (n, @data), reaches @enough_m; begins with @first,
 * and stops as soon as one is found or none can be, or after @max_steps. The result is the best one
 * tried. @loss may be NULL.
 *
 * gap_m is less than the exact value for the direction by the rounding of the points' single
 * precision; what is rounded in double precision, at most 8u(|centre| + radii) a pose and the
 * rounding of @places itself, is left to the caller. */
TrnHullGap trn_hull_separate (const TrnHull *a, const TrnHullPlaces *places, const TrnHull *b,
                              TrnDirection first, double enough_m, guint max_steps,
                              TrnHullLoss loss, gconstpointer data);

/* Where a search saw the hull from a point, and where another may begin. */
#define TRN_HULL_WAY_POINTS 3
typedef struct
{
  guint n; /* of points of the hull, between which the nearest one was; 0: nothing is known */
  guint32 points[TRN_HULL_WAY_POINTS];
  TrnDirection direction; /* about a unit vector */
} TrnHullWay;

/* A bound on the distance of @p from the hull of the points of @hull (about the centre, like @p):
 * an attained distance from a point of the hull; little more than the least, or at most @enough_m,
 * or some distance where it was seen that the least is more than @beyond_m.
 * The search begins at the points of @way, which may be those of another point nearby or of fewer
 * points of the hull, and leaves there what it came to. */
double trn_hull_point_distance (const TrnHull *hull, TrnVec3 p, double enough_m, double beyond_m,
                                TrnHullWay *way);
