/* sail-area.h: what the load shows to the wind. */
#pragma once

#include "lift-check.h"

/* The greatest area that the load shows along a level direction in any attitude of the lift, a
 * proven bound; wants the allowances. Kept as sail_m2 of the check. */
double trn_sail_area_m2 (const TrnLiftCheck *check);
