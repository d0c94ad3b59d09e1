/* hang-warnings.h: what looks like a slip where a load hangs free: legs from the hook that are too
 * short to meet on it, and a lean that is far. */
#pragma once

#include "diag.h"
#include "plan.h"

/* From the hook to a point of the load. */
static inline gboolean
trn_is_leg (const TrnSling *sling)
{
  return sling->from == TRN_SLING_FROM_HOOK && !sling->to_beam;
}

/* TRUE where there are some: then @shortest and @other are the two that lack most, borrowed. */
gboolean
trn_short_legs_find (const TrnHoist *hoist, const TrnSling **shortest, const TrnSling **other);

/* Adds to @diags which leg is how much too short, if one is. */
void trn_short_legs_warn (const TrnPlan *plan, const TrnHoist *hoist, TrnDiags *diags);

/* Adds that the load of @lift leans by @lean_rad where that is more than looks meant. */
void trn_far_lean_warn (const TrnPlan *plan, const TrnLift *lift, double lean_rad, TrnDiags *diags);
