/* Supports. A rigid body on equal springs: as long as none lifts off each reaction is affine in the
 * place of every weight (ground.h), so that it is the sum over the weights of weight times share,
 * which is enclosed term by term. With four or more supports that is how they share on ground that
 * gives evenly; on uneven or stiff ground some bear more.
 *
 * Four supports in a rectangle S_x by S_y are also taken to share like a beam both ways, W (½ ±
 * e_x/S_x)(½ ± e_y/S_y), e from the middle to the resultant W of all weights: what the beam across
 * has at its ends, beams along share out. Springs bear W (¼ ± e_x/(2 S_x) ± e_y/(2 S_y)), so that
 * the beam's share is that and (±)(±) W e_x e_y/(S_x S_y): by so much more of one diagonal, and
 * less of the other. With u_k = x_k/S_x of each weight w_k, and v_k likewise, that is Σ w_k u_k · Σ
 * w_k v_k/Σ w_k, which is enclosed as it stands. Of either way each support counts with the
 * greater, and lifts off by the lesser; so together they may be told to bear more than the weight.
 */
#include "ground-share.h"

gboolean
trn_ground_share_make (TrnGroundShare *share, const TrnLevelPoint *supports, guint n_supports)
{
  share->is_rectangle
      = n_supports == 4 && trn_ground_rectangle (supports, share->ways, share->signs);
  return trn_ground_even_shares (supports, n_supports, share->springs);
}

/* Of all weights. */
static TrnInterval
sum_of (const TrnVec3 *factors, const TrnGroundWeight *weights, guint n)
{
  TrnInterval sum = trn_interval_point (0);
  for (guint i = 0; i < n; i++)
    {
      const TrnInterval of_weight
          = trn_interval_add (trn_interval_point (factors->x),
                              trn_interval_add (trn_interval_scale (weights[i].x, factors->y),
                                                trn_interval_scale (weights[i].y, factors->z)));
      sum = trn_interval_add (sum, trn_interval_mul (weights[i].kg, of_weight));
    }
  return sum;
}

/* What a support of a rectangle bears like a beam beyond what it bears as a spring. */
static TrnInterval
more_like_beam (const TrnGroundShare *share, const TrnGroundWeight *weights, guint n, guint support)
{
  TrnInterval all = trn_interval_point (0);
  for (guint i = 0; i < n; i++)
    all = trn_interval_add (all, weights[i].kg);
  const TrnInterval both = trn_interval_mul (sum_of (&share->ways[0], weights, n),
                                             sum_of (&share->ways[1], weights, n));
  return trn_interval_scale (trn_interval_div (both, all),
                             share->signs[support][0] * share->signs[support][1]);
}

TrnInterval
trn_ground_share_kg (const TrnGroundShare *share, const TrnGroundWeight *weights, guint n_weights,
                     guint support, gboolean least)
{
  const TrnInterval spring = sum_of (&share->springs[support], weights, n_weights);
  if (!share->is_rectangle)
    return spring;
  TrnInterval more = more_like_beam (share, weights, n_weights, support);
  if (!trn_interval_is_value (more))
    return trn_interval_none ();
  more = least ? (TrnInterval){ fmin (more.lo, 0), fmin (more.hi, 0) }
               : (TrnInterval){ fmax (more.lo, 0), fmax (more.hi, 0) };
  return trn_interval_add (spring, more);
}
