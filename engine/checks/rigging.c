/* The hook hangs plumb above its point of the load, so a load that tilts moves its other points
 * toward the hook or away from it, which a leg does not allow: it would go slack, or the hook would
 * go elsewhere than planned. */
#include "rigging.h"

#include "tolerances.h"

TrnFinding
trn_rigging_judge (const TrnLiftCheck *check, const TrnHoist *hoist, guint move, guint index)
{
  const TrnSling *sling = &hoist->slings[index];
  double length_m = sling->length_m;
  if (isnan (length_m) && trn_rig_missing (check->run->rig, hoist, TRN_RIG_SLING_LENGTH) == NULL)
    length_m = trn_hoist_value (check, hoist, hoist->first_move, 0, TRN_RIG_SLING_LENGTH, index);
  double play_m = TRN_SLING_FIT_SHARE * length_m;
  TrnHoistLimit limit = { .quantity = TRN_RIG_SLING_LENGTH,
                          .index = index,
                          .unit = TRN_UNIT_M,
                          .limits = { length_m - play_m, length_m + play_m },
                          .missing = "hook_above" };
  TrnFinding finding = trn_hoist_judge (check, TRN_CHECK_RIGGING, hoist, move, sling->id, &limit);
  if (isfinite (finding.limit))
    finding.limit = length_m; /* of which it may be off by its play; the margin has that in it */
  return finding;
}
