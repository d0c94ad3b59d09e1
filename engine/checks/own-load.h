/* own-load.h: of the check `rigging`: whether a sling, a hook block and a beam
 * keep off the load that they hold. */
#pragma once

#include "lift-check.h"

#define TRN_OWN_LOAD_ITEM "own-load"

/* So much of a sling next to its point of the load is left out: it is fixed there, by a shackle in
 * a lug that may be no part of the mesh. A plate with a lug of that length is a long one. Common
 * practice, no source. */
#define TRN_OWN_LOAD_LEFT_OUT_M 0.3

/* Whether it goes to the load, and the plan does not name both as connected, as it does where the
 * sling is meant to lie against the load. */
gboolean trn_own_load_means (const TrnLiftCheck *check, const TrnHoist *hoist, guint index);

TrnFinding
trn_own_load_judge (const TrnLiftCheck *check, const TrnHoist *hoist, guint move, guint index);

/* The same of a body of the rig: the hook block of @hoist, its beam, and slings between the two. Of
 * them nothing is left out. */
gboolean trn_own_load_means_body (const TrnLiftCheck *check, const TrnHoist *hoist, guint body);
TrnFinding
trn_own_load_judge_body (const TrnLiftCheck *check, const TrnHoist *hoist, guint move, guint body);
