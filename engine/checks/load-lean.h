/* load-lean.h: of the check `load-share`: by how much a load leans that hangs from its tail, alone
 * or with the main hook, and whether it can turn over. */
#pragma once

#include "hook-force.h"

/* The tail must hold in that move. */
TrnFinding trn_load_lean_judge (const TrnLiftCheck *check, guint move);

/* Legs that spread to both sides hold a load about the hook as long as it leans by no more than the
 * angle of this tangent. */
#define TRN_LEAN_SIDE_SHARE 0.1

/* How far the CoG is below the line between what both hooks hold the load by, at least, over the
 * move and wherever it is in its box; NAN: not known. @up_m: how far that is above their points.
 * Both hooks must hold, and the CoG be given. */
double trn_load_lean_least_below (const TrnLiftCheck *check, guint move, double *up_m);
