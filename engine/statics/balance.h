/* balance.h: forces of unknown size along known columns that together make a known sum.
 *
 * Legs of a sling at a hook and supports under a rigid body ask the same: find the factors f with
 * Σ f_i column_i = target. Legs: a column is the direction of a leg, the target the load on the
 * hook. Supports: a column is (1, x, y), the target (W, W x, W y): force and moments about two
 * axes. */
#pragma once

#include "vec3.h"

#define TRN_BALANCE_MAX 32

/* Of all factors that come nearest to the target those with the least sum of squares: the shares of
 * equal springs. Negative ones are allowed. Returns |Σ f_i column_i − target|. At most
 * TRN_BALANCE_MAX columns. */
double trn_balance_even (const TrnVec3 *columns, guint n, TrnVec3 target, double *factors);

/* The same with no factor below 0: legs do not push, supports do not pull. FALSE where no such
 * factors meet the target to 1e-9 of it; @factors are NAN then. */
gboolean trn_balance_one_way (const TrnVec3 *columns, guint n, TrnVec3 target, double *factors);

/* The greatest that each factor can be over all ways to meet the target with no factor below 0:
 * whatever the stiffness, whatever the lengths. The columns must lie in an open half space, else
 * there is no greatest. FALSE where there is no way. */
gboolean trn_balance_greatest (const TrnVec3 *columns, guint n, TrnVec3 target, double *greatest);
