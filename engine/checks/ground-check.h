/* ground-check.h: the check `ground`: what the supports of a gear press on the ground with while it
 * holds the load, beside what the ground may bear. */
#pragma once

#include "hook-force.h"

/* One finding for a gear over a move in which it holds the load; it must hold it. */
TrnFinding trn_ground_judge (const TrnLiftCheck *check, guint gear, guint move);
