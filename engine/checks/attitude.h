/* attitude.h: the check `attitude`: whether a load that is taken to hang as it is drawn would. */
#pragma once

#include "lift-check.h"

/* A number of a finding: the value with the centre of gravity where the plan has it, where it is
 * only that it may lie elsewhere in its box that goes beyond the limit. */
#define TRN_ATTITUDE_BUT_FOR_BOX "but-for-cog-box"

/* Whether that move tilts the load while nothing holds it so. */
gboolean trn_attitude_is_unheld (const TrnPlan *plan, const TrnLift *lift, guint move);

/* Whether there is something to judge in that move: nothing holds the load in its tilt; or it hangs
 * free, and this is the first move in which it turns over or nobody knows how it hangs; or the lift
 * is as drawn, the main hook alone holds the load, and it does not just stand on a seat. */
gboolean trn_attitude_means (const TrnPlan *plan, const TrnLiftRun *run, guint move);

/* Whether at some moment of that move the load hangs: it does not just stand on a seat before the
 * first way that it goes, or after the last. */
gboolean trn_attitude_hangs (const TrnLift *lift, guint move);

TrnFinding trn_attitude_judge (const TrnLiftCheck *check, guint move);

/* What holds a load in a tilt about a point of its own is as near to that point, in metres: a heel
 * in its pins. Common practice, no source. */
#define TRN_ATTITUDE_HELD_WITHIN_M 1.0

/* Whether something that the plan names as holding it, a seat but the ground or gear that is
 * connected with it, stands as near where the tilt begins. */
gboolean trn_attitude_is_held_there (const TrnLiftCheck *check, guint move);
