/* Derivation. With e_i the unit vector from point i to the hook the legs hold the load by
 * Σ T_i e_i = W z: three independent legs, three equations. One or two legs cannot hold a weight
 * off their line or plane; the part that is left is told. All legs pass through the hook, so about
 * it only the weight has a moment: W times the level distance of CoG and hook.
 *
 * Two legs to points at D1, H1 and D2, H2 (level from the hook, and below it), of lengths S1, S2,
 * follow as T1 = W D2 S1/(D2 H1 + D1 H2); on one level, H1 = H2 = H, T1 = W D2 S1/(H (D1 + D2)).
 *
 * Beams. Compression is the force on end a along the beam towards b, in balance with that on b
 * towards a: the mean of both, so that a small imbalance is shared. */
#include "sling.h"

#include "balance.h"

TrnSlingForces
trn_sling_solve (TrnVec3 hook, const TrnVec3 *points, guint n_legs, TrnVec3 cog, double weight_n)
{
  g_assert (n_legs >= 1 && n_legs <= TRN_SLING_LEGS_MAX);
  TrnSlingForces forces = { .force_residual_n = NAN, .moment_residual_nm = NAN };
  TrnVec3 pull[TRN_SLING_LEGS_MAX];
  for (guint i = 0; i < n_legs; i++)
    {
      TrnVec3 to_hook = trn_vec3_sub (hook, points[i]);
      forces.tension_n[i] = NAN;
      if (!(trn_vec3_length (to_hook) > 0))
        return forces;
      pull[i] = trn_vec3_unit (to_hook);
      forces.angle_rad[i] = atan2 (to_hook.z, hypot (to_hook.x, to_hook.y));
    }
  TrnVec3 hold = { 0, 0, weight_n };
  if (n_legs < 4 || !trn_balance_one_way (pull, n_legs, hold, forces.tension_n))
    trn_balance_even (pull, n_legs, hold, forces.tension_n);
  for (guint i = 0; i < n_legs; i++)
    hold = trn_vec3_add_scaled (hold, pull[i], -forces.tension_n[i]);
  forces.force_residual_n = trn_vec3_length (hold);
  forces.moment_residual_nm = weight_n * hypot (cog.x - hook.x, cog.y - hook.y);
  return forces;
}

gboolean
trn_sling_worst (TrnVec3 hook, const TrnVec3 *points, guint n_legs, double weight_n,
                 double *tension_n)
{
  g_assert (n_legs >= 1 && n_legs <= TRN_SLING_LEGS_MAX);
  TrnVec3 pull[TRN_SLING_LEGS_MAX];
  for (guint i = 0; i < n_legs; i++)
    {
      pull[i] = trn_vec3_sub (hook, points[i]);
      if (!(pull[i].z > 0))
        return FALSE;
      pull[i] = trn_vec3_unit (pull[i]);
    }
  return trn_balance_greatest (pull, n_legs, trn_vec3_make (0, 0, weight_n), tension_n);
}

double
trn_beam_compression_n (TrnVec3 end_a, TrnVec3 end_b, TrnVec3 force_a_n, TrnVec3 force_b_n)
{
  TrnVec3 along = trn_vec3_unit (trn_vec3_sub (end_b, end_a));
  return 0.5 * (trn_vec3_dot (along, force_a_n) - trn_vec3_dot (along, force_b_n));
}

double
trn_beam_moment_nm (double arm_a_m, double arm_b_m, double load_a_n, double load_b_n,
                    double own_weight_n)
{
  double own_n_m = own_weight_n / (arm_a_m + arm_b_m);
  return fmax (load_a_n * arm_a_m + 0.5 * own_n_m * arm_a_m * arm_a_m,
               load_b_n * arm_b_m + 0.5 * own_n_m * arm_b_m * arm_b_m);
}
