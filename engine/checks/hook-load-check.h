/* hook-load-check.h: the check `hook-load`: the greatest static load that hangs on a hook in a
 * move, with what it is made up of. */
#pragma once

#include "hook-force.h"

TrnFinding trn_hook_load_judge (const TrnLiftCheck *check, const TrnHoist *hoist, guint move);
