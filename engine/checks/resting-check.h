/* resting-check.h: the check `resting-stability`: whether a load that is set down, or is not yet
 * lifted, stands by itself:
 * its centre of gravity, anywhere in its box, over the footprint of what it rests on. */
#pragma once

#include "lift-check.h"

/* A number of the finding: how far the face is drawn off flat that would be on a seat, turned. */
#define TRN_RESTING_OFF "out-of-level"

/* One finding for a lift that ends, or begins, on seats: on all of them together. */
TrnFinding trn_resting_judge (const TrnLiftCheck *check, gboolean at_end);
