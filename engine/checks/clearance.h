/* clearance.h: the check `clearance`: the least distance of the load from one obstacle over one
 * move, certified over all of the time, against the clearance to be kept. */
#pragma once

#include "seated.h"

/* @seated: what trn_seated_find says of this obstacle. @tolerance_m: trn_lift_check_tolerance of
 * this move. */
TrnFinding trn_clearance_judge (const TrnLiftCheck *check, guint move, guint obstacle,
                                const TrnSeated *seated, double tolerance_m);
