/* standing-check.h: whether what stands of a gear (carrier, legs, pads …) stands in something. */
#pragma once

#include "lift-check.h"

/* Whether the gear at @place of the rig has parts that stand, and may be judged past @obstacle:
 * another gear is so once only, by the first of the two. */
gboolean trn_standing_means (const TrnLiftCheck *check, guint place, guint obstacle);

/* Names the part that touches it, or the gear where none does. */
TrnFinding trn_standing_judge (const TrnLiftCheck *check, guint place, guint obstacle);
