/* headroom.h: the check `headroom`: whether the hook can go as high as the lift takes it, with what
 * the height is made up of. */
#pragma once

#include "hoist.h"

/* One finding for a hoist with a crane or a gantry over one of its moves. Wants check->tolerance_m.
 */
TrnFinding trn_headroom_judge (const TrnLiftCheck *check, const TrnHoist *hoist, guint move);
