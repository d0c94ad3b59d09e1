/* swing-cache.h: what the check `swing-radius` works out, asked of the cache of the check first.
 *
 * Nearly every triangle of both bodies is looked at for it, at each move that turns the load. */
#pragma once

#include "swing-radius.h"

/* As trn_swing_make. */
TrnSwing trn_swing_cached_make (const TrnLiftCheck *check, guint move);
/* As trn_swing_reach, with the swing of that move. */
TrnSwingReach trn_swing_cached_reach (const TrnLiftCheck *check, guint move, guint obstacle,
                                      const TrnSwing *swing);
