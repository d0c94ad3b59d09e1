/* A load whose tail is on a tail trolley or in a turning frame is guided; so is one in a tilt
 * without a tail hook, by what the plan does not name; a load on its seat stands. */
#include "on-rope.h"

#include "attitude.h"
#include "hoist.h"
#include "hook-force.h"

#define ROPE_WIDTH_M 0.01

static gboolean
is_on_rope (const TrnLiftCheck *check, const TrnHoist *hoist)
{
  const TrnGear *gear = trn_hoist_gear (check, hoist);
  return gear == NULL || gear->kind == TRN_GEAR_CRANE || gear->kind == TRN_GEAR_GANTRY;
}

TrnOnRope
trn_on_rope (const TrnLiftCheck *check, guint move)
{
  const TrnLift *lift = check->run->lift;
  const TrnCarried carried = trn_carried_make (check, move);
  if (check->run->hangs[move].one_hook)
    return TRN_ON_ROPE_MAIN;
  if (!carried.tail_holds || !is_on_rope (check, &lift->rigging.tail)
      || !trn_attitude_hangs (lift, move))
    return TRN_ON_ROPE_NOT;
  if (!carried.main_holds)
    return TRN_ON_ROPE_TAIL;
  return is_on_rope (check, &lift->rigging.main) ? TRN_ON_ROPE_BOTH : TRN_ON_ROPE_NOT;
}

TrnInterval
trn_on_rope_length (const TrnLiftCheck *check, guint move, const TrnHoist *hoist, TrnInterval span,
                    const char **missing)
{
  const TrnRig *rig = check->run->rig;
  *missing = "gear";
  if (rig == NULL || !hoist->given || hoist->gear == G_MAXUINT)
    return trn_interval_none ();
  const TrnRigQuestion question
      = { .rig = rig, .hoist = hoist, .quantity = TRN_RIG_TIP_ABOVE_HOOK, .move = move };
  *missing = trn_rig_missing (rig, hoist, question.quantity);
  if (*missing != NULL)
    return trn_interval_none ();
  const TrnExtremes found = trn_extremes_find (trn_rig_ask, &question, span, ROPE_WIDTH_M);
  *missing = found.complete ? NULL : "reach";
  return found.complete ? (TrnInterval){ found.least.lo, found.greatest.hi } : trn_interval_none ();
}
