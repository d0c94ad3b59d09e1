/* load-lean.h: of the check `load-share`: by how much a load leans that hangs from its tail, alone
 * or with the main hook, and whether it can turn over. */
#pragma once

#include "hook-force.h"

/* The tail must hold in that move. */
TrnFinding trn_load_lean_judge (const TrnLiftCheck *check, guint move);
