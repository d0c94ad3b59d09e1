/* sail-area.h: what the load shows to the wind. */
#pragma once

#include "lift-check.h"

/* The greatest area that the load shows along a level direction in any attitude of the lift, a
 * proven bound; wants the allowances. The first that asks works it out, who asks meanwhile waits.
 */
double trn_sail_area_m2 (const TrnLiftCheck *check);

/* When it shows the most that was found, the first time: @s of that move. */
guint trn_sail_move (const TrnLiftCheck *check, double *s);

TrnSail *trn_sail_new (void);
void trn_sail_free (TrnSail *sail);
