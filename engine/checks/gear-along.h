/* gear-along.h: what is taken off a clearance of a boom, jib, rope or sling, by where along it that
 * is: where its tip goes, the foot of a boom goes only as far as the crane slews it. */
#pragma once

#include "pair.h"

typedef struct
{
  double lower_m;     /* the least distance of all of it: proven, no less than was known */
  double allowance_m; /* of that, >= 0: what it leaves is proven */
  double shares[2];   /* along both bodies, what there most is taken off for */
} TrnGearAlong;

/* Of a pair over @span of a move whose distance is no less than @lower_m and at which @allowance_m
 * would be taken off everywhere, as for where it goes farthest. FALSE where it is not less. */
gboolean
trn_gear_along_find (const TrnLiftCheck *check, const TrnPair *pair, guint move, TrnInterval span,
                     double required_m, double lower_m, double allowance_m, TrnGearAlong *along);
