/* rigging.h: the check `rigging`: whether each leg keeps its length while the load moves. */
#pragma once

#include "hoist.h"

/* One finding for a sling over one of the moves of its hoist. */
TrnFinding
trn_rigging_judge (const TrnLiftCheck *check, const TrnHoist *hoist, guint move, guint sling);
