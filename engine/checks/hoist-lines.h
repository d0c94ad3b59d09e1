/* hoist-lines.h: the check `hoist-lines`: how far out of plumb the hoist ropes may come to hang,
 * beside what their gear may bear. */
#pragma once

#include "lift-check.h"

/* Whether the gear of @hoist stands in the lift and holds it by a rope. */
gboolean trn_hoist_lines_means (const TrnLiftCheck *check, const TrnHoist *hoist);

TrnFinding trn_hoist_lines_judge (const TrnLiftCheck *check, const TrnHoist *hoist, guint move);

/* How far a pull at the tip along the rope, as far out of plumb as it may come, takes the place
 * that it would weigh at, where its way meets the level of the gear's base: 0 for gear that holds
 * by no rope, or whose rope is plumb; NAN: not known. */
double trn_hoist_lines_pull_aside (const TrnLiftCheck *check, const TrnHoist *hoist, guint move);
/* The input for want of which that is not known; NULL: it is. Static. */
const char *
trn_hoist_lines_pull_missing (const TrnLiftCheck *check, const TrnHoist *hoist, guint move);
