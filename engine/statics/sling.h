/* sling.h: forces in the legs between a hook and a load, and in the beams between them.
 *
 * Points are in the site's frame, in the attitude to judge. */
#pragma once

#include "vec3.h"

#define TRN_SLING_LEGS_MAX 4

typedef struct
{
  double tension_n[TRN_SLING_LEGS_MAX];
  double angle_rad[TRN_SLING_LEGS_MAX]; /* from the horizontal; negative: the point is above */
  /* What the legs do not hold in this attitude: of the weight, at the hook, and of its moment about
   * the hook, which the CoG beside the plumb line makes. The load moves until both are 0. */
  double force_residual_n, moment_residual_nm;
} TrnSlingForces;

/* Tensions of 1 to 4 legs from @hook to @points under @weight_n with its CoG at @cog. One, two and
 * three legs: the only solution, a negative tension where a leg would have to push. Four legs: the
 * most even share without push (least sum of squares), or with push where there is none without. */
TrnSlingForces
trn_sling_solve (TrnVec3 hook, const TrnVec3 *points, guint n_legs, TrnVec3 cog, double weight_n);

/* The greatest tension that each leg can have over all shares that hold the weight without push,
 * however the lengths fit: the two-leg rule, for any geometry. For four like legs around the hook
 * each diagonal holds all. FALSE where no share holds the weight or a leg does not go down. */
gboolean trn_sling_worst (TrnVec3 hook, const TrnVec3 *points, guint n_legs, double weight_n,
                          double *tension_n);

/* A spreader beam between two legs: what the horizontal parts of the forces on its ends make, its
 * compression (negative: tension). @force_a and @force_b act on the ends, all taken together. */
double trn_beam_compression_n (TrnVec3 end_a, TrnVec3 end_b, TrnVec3 force_a_n, TrnVec3 force_b_n);

/* A lifting beam hung at one point, loads at both ends and its own weight evenly along it: the
 * bending moment at that point, of the greater side. The load on the other end follows. */
double trn_beam_moment_nm (double arm_a_m, double arm_b_m, double load_a_n, double load_b_n,
                           double own_weight_n);
