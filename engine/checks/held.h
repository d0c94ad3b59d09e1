/* held.h: what held the load and has let go, or is about to take hold: how long it counts as not
 * yet clear. */
#pragma once

#include "pair.h"
#include "seated.h"

/* For a move in which the holder of @pair does not hold the load. After its moves the load counts
 * as held on until it is for the first time farther than what is to be kept; before them from when
 * it is for the last time. Nothing where it never is, so that all of the move is judged. Wants
 * check->tolerance_m and check->rig_tolerance_m. */
TrnSeated trn_held_find (const TrnLiftCheck *check, const TrnPair *pair, guint move);
