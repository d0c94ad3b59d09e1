/* hoist-lines.h: the check `hoist-lines`: how far out of plumb the hoist ropes may come to hang,
 * beside what their gear may bear. */
#pragma once

#include "lift-check.h"

/* Whether the gear of @hoist stands in the lift and holds it by a rope. */
gboolean trn_hoist_lines_means (const TrnLiftCheck *check, const TrnHoist *hoist);

TrnFinding trn_hoist_lines_judge (const TrnLiftCheck *check, const TrnHoist *hoist, guint move);
