/* approach.h: the check `approach`: which of what stands is an overhead line, and how far from it
 * the rule of the plan keeps the load, the rigging, the ropes and the booms. */
#pragma once

#include "clearance.h"

/* What that obstacle is made as; NULL where it is from a file, or no structure. */
const TrnSolid *trn_approach_solid (const TrnLiftCheck *check, guint obstacle);

/* Whether that obstacle is an overhead line or a part that is one; @voltage_kv receives its
 * voltage, NAN where the plan does not say. */
gboolean trn_approach_is_line (const TrnLiftCheck *check, guint obstacle, double *voltage_kv);

/* @pair: with something that stands and is a line. */
TrnFinding trn_approach_judge (const TrnLiftCheck *check, guint move, const TrnPair *pair);

/* The same of what stands of a gear, the obstacle @part, past the obstacle @line; said of the first
 * move. */
TrnFinding trn_approach_judge_standing (const TrnLiftCheck *check, guint part, guint line);
