/* footing-check.h: the check `footing`: whether what gear stands on is there, below the whole of
 * each pad, and as high as the gear stands. */
#pragma once

#include "lift-check.h"

/* Numbers of a finding, about the support that stands worst. */
#define TRN_FOOTING_SUPPORT "support" /* which, counted from 1; left out where there is one */
#define TRN_FOOTING_CARRIED "carried" /* at least this share of it is carried */
#define TRN_FOOTING_ALONG "along"     /* the box of what is not, along the axes of the gear */
#define TRN_FOOTING_ACROSS "across"
#define TRN_FOOTING_GAP "gap"     /* how far below that the nearest surface is; negative: above */
#define TRN_FOOTING_LEVEL "level" /* how far it is above the level that the plan states */

/* Of the gear at @place of the rig, over the whole lift: what stands does not move, and a tail
 * trolley is looked at over all of its run. Wants check->tolerance_m. */
TrnFinding trn_footing_judge (const TrnLiftCheck *check, guint place);
