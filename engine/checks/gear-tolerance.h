/* gear-tolerance.h: how far the lift's tolerances can take the hooks, and with them what moves. */
#pragma once

#include "lift-check.h"

/* A bound on how far they take the hook of @hoist during that move. Wants check->tolerance_m. */
double trn_hook_tolerance (const TrnLiftCheck *check, const TrnHoist *hoist, guint move);

/* A bound on how high one end of a vector of the load, @w at the start of the move, comes above or
 * below the other during it. */
double trn_greatest_height (const TrnMotion *motion, TrnVec3 w);

/* How far apart the points of the load below both ends of a beam are along the level, at least,
 * during a move. */
double trn_beam_points_apart (const TrnMotion *motion, const TrnLiftBeam *beam);

/* A bound on how far they take each end of a body of the rig during that move, and why; NAN where
 * there is none, as beyond reach. Wants check->allowances and check->tolerance_m. */
TrnGearTolerance trn_gear_tolerance (const TrnLiftCheck *check, guint body, guint move);

/* Of any point of the body. */
double trn_gear_tolerance_most_m (const TrnGearTolerance *tolerance);

/* Of the point that is that share of the way from the first corner to the second. */
TrnGearOff trn_gear_tolerance_at (const TrnGearTolerance *tolerance, double share);

/* The input for want of which that is NAN; NULL where it is for none, or for one of what the body
 * itself is. Static. */
const char *trn_gear_tolerance_missing (const TrnLiftCheck *check, guint body, guint move);
