/* gear-along.h: what is taken off a clearance of a boom, jib, rope or sling, by where along it that
 * is: the foot of a boom goes nowhere when its tip does. */
#pragma once

#include "pair.h"

typedef struct
{
  double allowance_m; /* of the least distance of all of it: proven */
  double shares[2];   /* along both bodies, what there most is taken off for */
} TrnGearAlong;

/* Of a pair over @span of a move whose distance is no less than @lower_m and at which @allowance_m
 * would be taken off everywhere, as for where it goes farthest. FALSE where it is not less. */
gboolean
trn_gear_along_find (const TrnLiftCheck *check, const TrnPair *pair, guint move, TrnInterval span,
                     double required_m, double lower_m, double allowance_m, TrnGearAlong *along);
