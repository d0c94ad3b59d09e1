/* resting.h: whether a load that is set down stands by itself. */
#pragma once

#include "ground.h"

/* The level distance of the CoG from the edge of the convex hull of the support points: positive
 * within, negative outside. −INFINITY without supports. */
double trn_resting_margin_m (const TrnLevelPoint *supports, guint n_supports, TrnLevelPoint cog);

/* The least over all centres of gravity in the rectangle from @lo to @hi, exact. */
double trn_resting_margin_over_m (const TrnLevelPoint *supports, guint n_supports, TrnLevelPoint lo,
                                  TrnLevelPoint hi);
