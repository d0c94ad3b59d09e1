/* Each part of the gear is asked about with each obstacle and with the load, and each such search
 * halves the same spans. Where its corners are does not depend on the other of the pair: the first
 * halves are kept. Finer ones differ from pair to pair. A part of it is made from the whole: its
 * ends are mixtures of both corners. */
#include "pair-sweep.h"

#include "hook-force.h"
#include "seated.h"
#include "sweep-cache.h"
#include "tolerances.h"

#define LEAST_RESOLUTION 1e-9

#define KEPT_PARTS 64 /* of a move */

G_STATIC_ASSERT (sizeof (TrnJet3) == 9 * sizeof (TrnInterval));

static gboolean
is_kept (TrnInterval s)
{
  if (s.lo < s.hi)
    return trn_interval_width (s) >= 1.0 / KEPT_PARTS;
  double parts = s.lo * 2 * KEPT_PARTS;
  return parts == floor (parts);
}

static gboolean
kept_corners (gconstpointer data, TrnInterval s, TrnJet3 corners[TRN_LIMB_CORNERS])
{
  const TrnPairLimb *limb = data;
  const guint what = TRN_MEMO_LIMBS + limb->store.body, n = 9 * limb->asked.n_corners;
  TrnInterval *values = (TrnInterval *)(void *)corners;
  if (!is_kept (s))
    return limb->asked.corners (limb->asked.data, s, corners);
  if (trn_span_memo_get (limb->memo, what, s, values, n))
    return TRUE;
  if (!limb->asked.corners (limb->asked.data, s, corners))
    return FALSE;
  trn_span_memo_put (limb->memo, what, s, values, n);
  return TRUE;
}

/* (1 − σ) a + σ b */
static TrnJet
between (TrnJet a, TrnJet b, double share)
{
  const TrnInterval rest = trn_interval_sub (trn_interval_point (1), trn_interval_point (share));
  return trn_jet_add (trn_jet_scale_within (a, rest), trn_jet_scale (b, share));
}

static gboolean
cut_corners (gconstpointer data, TrnInterval s, TrnJet3 corners[TRN_LIMB_CORNERS])
{
  const TrnPairLimb *limb = data;
  if (!kept_corners (data, s, corners))
    return FALSE;
  const TrnJet3 a = corners[0], b = corners[1];
  const double shares[2] = { limb->part.lo, limb->part.hi };
  for (guint i = 0; i < 2; i++)
    if (shares[i] != i)
      corners[i] = (TrnJet3){ between (a.x, b.x, shares[i]), between (a.y, b.y, shares[i]),
                              between (a.z, b.z, shares[i]) };
  return TRUE;
}

static TrnLimb
limb_make (const TrnLiftCheck *check, guint body, guint move, TrnPairLimb *kept)
{
  kept->asked = trn_rig_limb (check->rig, body, move, &kept->store);
  kept->memo = check->memos[move];
  TrnLimb limb = kept->asked;
  limb.corners = kept_corners;
  limb.data = kept;
  return limb;
}

void
trn_pair_sweep_init (TrnPairSweep *sweep, const TrnLiftCheck *check, const TrnPair *pair,
                     guint move)
{
  *sweep = (TrnPairSweep){ .check = check, .move = move };
  const TrnInterval whole = { 0, 1 };
  if (pair->body == TRN_BODY_LOAD && pair->other_stands)
    {
      sweep->load = trn_lift_check_pair (check, move, pair->other, whole);
      return;
    }
  sweep->is_limb = TRUE;
  sweep->is_other = pair->body == TRN_BODY_LOAD;
  guint limb = sweep->is_other ? pair->other : pair->body;
  sweep->limbs[0] = limb_make (check, limb, move, &sweep->kept[0]);
  sweep->limb = (TrnLimbPair){ .limb = &sweep->limbs[0],
                               .span = whole,
                               .site_from_obstacle = trn_pose_identity () };
  if (sweep->is_other)
    {
      sweep->limb.obstacle = (TrnSweepBody){ check->load->bvh, check->load->check };
      sweep->limb.motion = &check->run->motions[move];
    }
  else if (pair->other_stands)
    {
      const TrnObstacle *other = &check->obstacles[pair->other];
      sweep->limb.obstacle = (TrnSweepBody){ other->body->bvh, other->body->check };
      sweep->limb.site_from_obstacle = other->standing->site_from_standing;
    }
  else
    {
      sweep->limbs[1] = limb_make (check, pair->other, move, &sweep->kept[1]);
      sweep->limb.other = &sweep->limbs[1];
    }
}

void
trn_pair_sweep_cut (TrnPairSweep *sweep, const TrnInterval parts[2])
{
  for (guint i = 0; i < 2; i++)
    {
      const guint of = sweep->is_other ? 1 : i;
      if (sweep->limbs[i].n_corners != 2)
        continue;
      sweep->kept[i].part = parts[of];
      sweep->limbs[i].corners = cut_corners;
    }
}

TrnInterval
trn_pair_sweep_get_span (const TrnPairSweep *sweep)
{
  return sweep->is_limb ? sweep->limb.span : sweep->load.span;
}

void
trn_pair_sweep_set_span (TrnPairSweep *sweep, TrnInterval span)
{
  sweep->limb.span = sweep->load.span = span;
}

TrnSweepResult
trn_pair_sweep_minimum (const TrnPairSweep *sweep, double width_m, double far_m)
{
  const TrnCheckOptions *check = sweep->check->options;
  TrnSweepOptions options = { .width_m = width_m,
                              .far_m = far_m,
                              .far_share = TRN_FAR_SHARE,
                              .max_steps = check->max_steps,
                              .jobs = check->jobs,
                              .progress = check->progress };
  if (!sweep->is_limb)
    return trn_sweep_cached_minimum (check->cache, &sweep->load, &options);
  TrnSweepResult result = trn_limb_sweep_minimum (&sweep->limb, &options);
  if (sweep->is_other)
    {
      TrnVec3 on_limb = result.on_body;
      result.on_body = result.on_obstacle;
      result.on_obstacle = on_limb;
    }
  return result;
}

/* A boom may go faster than the load, so of a limb the time counts. */
double
trn_pair_sweep_resolution (const TrnPairSweep *sweep)
{
  if (!sweep->is_limb)
    return trn_contact_resolution (sweep->check, sweep->move);
  return CLAMP (TRN_SPAN_S / sweep->check->run->motions[sweep->move].seconds, LEAST_RESOLUTION,
                1.0);
}

gboolean
trn_pair_sweep_contacts (const TrnPairSweep *sweep, GArray *spans)
{
  double resolution_s = trn_pair_sweep_resolution (sweep);
  const TrnCheckOptions *options = sweep->check->options;
  if (sweep->is_limb)
    return trn_limb_sweep_contacts (&sweep->limb, resolution_s, options->progress, spans);
  return trn_sweep_cached_contacts (options->cache, &sweep->load, resolution_s, options->progress,
                                    spans);
}
