/* reach.h: the check `reach`: whether the gear can go where the lift takes its hook. */
#pragma once

#include "hoist.h"

#define TRN_REACH_MOST_LIMITS 3

/* How many limits a gear of that kind has. */
guint trn_reach_limits (TrnGearKind kind);
/* The finding about one of them, over one of the moves of @hoist, which has gear. Wants
 * check->tolerance_m. */
TrnFinding
trn_reach_judge (const TrnLiftCheck *check, const TrnHoist *hoist, guint move, guint limit);
