/* clearance-cause.h: with what it lies that the load comes too close: what it seems to stand on,
 * which no seat names, or the tail hook that hangs beside it. */
#pragma once

#include "lift-check.h"

void trn_clearance_cause_tell (const TrnLiftCheck *check, TrnFinding *finding);
