#include "pair-sweep.h"

#include "seated.h"
#include "sweep-cache.h"
#include "tolerances.h"

#define LEAST_RESOLUTION 1e-9

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
  sweep->limbs[0] = trn_rig_limb (check->rig, limb, move, &sweep->stores[0]);
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
      sweep->limbs[1] = trn_rig_limb (check->rig, pair->other, move, &sweep->stores[1]);
      sweep->limb.other = &sweep->limbs[1];
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
