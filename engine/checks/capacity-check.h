/* capacity-check.h: the check `capacity`: the dynamic hook load beside what the gear may lift at
 * that radius, through the whole move. */
#pragma once

#include "hook-force.h"

/* @hoist: names gear. Wants check->tolerance_m. */
TrnFinding trn_capacity_judge (const TrnLiftCheck *check, const TrnHoist *hoist, guint move);
