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

/* A bound on how far they take any point of a body of the rig during that move; NAN where there is
 * none, as beyond reach. Wants check->tolerance_m. */
double trn_gear_tolerance (const TrnLiftCheck *check, guint body, guint move);

/* The input for want of which that is NAN; NULL where it is for none, or for one of what the body
 * itself is. Static. */
const char *trn_gear_tolerance_missing (const TrnLiftCheck *check, guint body, guint move);
