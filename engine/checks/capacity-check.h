/* capacity-check.h: the check `capacity`: the dynamic hook load beside what the gear may lift at
 * that radius, through the whole move. */
#pragma once

#include "hook-force.h"

/* @hoist: names gear. Wants check->tolerance_m. */
TrnFinding trn_capacity_judge (const TrnLiftCheck *check, const TrnHoist *hoist, guint move);

/* The input without which it is not known what share of the capacity is used, static; NULL. The
 * hoist of @force must name gear. */
const char *trn_capacity_missing (const TrnHookForce *force);
/* The share that is used with the hook where the plan has it, enclosed over @s; FALSE where it is
 * not known, or no capacity is rated there. */
gboolean trn_capacity_utilisation (const TrnHookForce *force, TrnInterval s, TrnInterval *value);
