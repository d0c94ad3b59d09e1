/* resting.h: whether a load that is set down stands by itself. */
#pragma once

#include "ground.h"

/* The level distance of the CoG from the edge of the convex hull of the support points: positive
 * within, negative outside. −INFINITY without supports. */
double trn_resting_margin_m (const TrnLevelPoint *supports, guint n_supports, TrnLevelPoint cog);

/* Puts the corners of their convex hull in place of the first of @points, and returns how many
 * that are, at least 1 of 1 and more. They have the same hull. */
guint trn_resting_corners (TrnLevelPoint *points, guint n_points);

/* How far the convex hull of @wider goes beyond that of @supports: the greatest distance of a point
 * of it from that. INFINITY without supports. */
double trn_resting_beyond_m (const TrnLevelPoint *supports, guint n_supports,
                             const TrnLevelPoint *wider, guint n_wider);

/* The least over all centres of gravity in the rectangle from @lo to @hi, exact. */
double trn_resting_margin_over_m (const TrnLevelPoint *supports, guint n_supports, TrnLevelPoint lo,
                                  TrnLevelPoint hi);
