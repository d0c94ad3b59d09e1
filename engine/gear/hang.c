#include "hang.h"

#include "motion-jet.h"

const TrnGearPlace *
trn_hang_gear (const TrnRig *rig, const TrnHoist *hoist)
{
  if (hoist->gear >= rig->plan->n_gear)
    return NULL;
  for (guint i = 0; i < rig->n_places; i++)
    if (rig->places[i].gear == &rig->plan->gear[hoist->gear])
      return &rig->places[i];
  return NULL;
}

static TrnJet
stopped (TrnJet a)
{
  return trn_jet_within (a.v);
}

TrnJet3
trn_hang_point (const TrnRig *rig, const TrnHoist *hoist, guint move, TrnInterval s, TrnVec3 point)
{
  TrnJet3 place;
  if (move >= hoist->first_move && move <= hoist->last_move)
    {
      trn_motion_point_jet (&rig->motions[move], point, s, &place);
      return place;
    }
  gboolean before = move < hoist->first_move;
  trn_motion_point_jet (&rig->motions[before ? hoist->first_move : hoist->last_move], point,
                        trn_interval_point (before ? 0 : 1), &place);
  return (TrnJet3){ stopped (place.x), stopped (place.y), stopped (place.z) };
}

TrnJet3
trn_hang_hook (const TrnRig *rig, const TrnHoist *hoist, guint move, TrnInterval s)
{
  gboolean tail = hoist == &rig->lift->rigging.tail;
  guint holding = CLAMP (move, hoist->first_move, hoist->last_move);
  if (!tail && rig->free_hooks != NULL && trn_vec3_is_finite (rig->free_hooks[holding]))
    return trn_hang_point (rig, hoist, move, s, rig->free_hooks[holding]);
  TrnJet3 hook = trn_hang_point (rig, hoist, move, s, hoist->point);
  hook.z = trn_jet_add (hook.z, trn_jet_within (rig->hook_above_m[tail ? 1 : 0]));
  return hook;
}

/* The sling that the height of the hook follows from. */
static const TrnSling *
measuring_sling (const TrnHoist *hoist)
{
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      const TrnSling *sling = &hoist->slings[i];
      if (sling->from == TRN_SLING_FROM_HOOK && isfinite (sling->length_m))
        return sling->to_beam ? NULL : sling;
    }
  return NULL;
}

static gboolean
holds_the_point_itself (const TrnRig *rig, const TrnHoist *hoist)
{
  if (hoist->gear >= rig->plan->n_gear)
    return FALSE;
  TrnGearKind kind = rig->plan->gear[hoist->gear].kind;
  return kind == TRN_GEAR_TAIL_TROLLEY || kind == TRN_GEAR_TURNING_FRAME;
}

gboolean
trn_hang_hook_above_given (const TrnRig *rig, const TrnHoist *hoist)
{
  return isfinite (hoist->hook_above_m) || holds_the_point_itself (rig, hoist)
         || measuring_sling (hoist) != NULL;
}

/* The hook is plumb above its point, d from the sling's point seen from above at the start of the
 * first move, so √(length² − d²) above that; and that is as much above the hook's point as it is.
 */
TrnInterval
trn_hang_hook_above (const TrnRig *rig, const TrnHoist *hoist)
{
  if (isfinite (hoist->hook_above_m))
    return trn_interval_point (hoist->hook_above_m);
  if (holds_the_point_itself (rig, hoist))
    return trn_interval_point (0);
  const TrnSling *sling = measuring_sling (hoist);
  if (sling == NULL)
    return trn_interval_none ();
  TrnInterval start = { 0, 0 };
  TrnJet3 point = trn_hang_point (rig, hoist, hoist->first_move, start, hoist->point);
  TrnJet3 to = trn_hang_point (rig, hoist, hoist->first_move, start, sling->to);
  TrnJet3 apart = trn_jet3_sub (to, point);
  TrnInterval square = trn_interval_sub (
      trn_interval_square (trn_interval_point (sling->length_m)),
      trn_interval_add (trn_interval_square (apart.x.v), trn_interval_square (apart.y.v)));
  return trn_interval_add (trn_interval_sqrt (square), apart.z.v);
}

void
trn_hang_beam (const TrnRig *rig, const TrnHoist *hoist, guint move, TrnInterval s, TrnJet3 ends[2])
{
  const TrnLiftBeam *beam = &hoist->beam;
  TrnJet3 over[2], hook = trn_hang_hook (rig, hoist, move, s);
  for (int i = 0; i < 2; i++)
    over[i] = trn_hang_point (rig, hoist, move, s, beam->between[i]);
  TrnJet x, y;
  trn_jet_direction (trn_jet_sub (over[1].x, over[0].x), trn_jet_sub (over[1].y, over[0].y), &x,
                     &y);
  TrnJet3 half = { trn_jet_scale (x, beam->length_m / 2), trn_jet_scale (y, beam->length_m / 2),
                   trn_jet_constant (0) };
  TrnJet3 middle = trn_jet3_shift (hook, trn_vec3_make (0, 0, -beam->below_hook_m));
  ends[0] = trn_jet3_sub (middle, half);
  ends[1] = trn_jet3_add (middle, half);
}

void
trn_hang_sling (const TrnRig *rig, const TrnHoist *hoist, guint index, guint move, TrnInterval s,
                TrnJet3 ends[2])
{
  const TrnSling *sling = &hoist->slings[index];
  TrnJet3 beam[2];
  if (sling->from != TRN_SLING_FROM_HOOK || sling->to_beam)
    trn_hang_beam (rig, hoist, move, s, beam);
  if (sling->from == TRN_SLING_FROM_HOOK)
    ends[0] = trn_hang_hook (rig, hoist, move, s);
  else
    ends[0] = beam[sling->from == TRN_SLING_FROM_BEAM_B ? 1 : 0];
  if (sling->to_beam)
    ends[1] = beam[sling->to_beam_b ? 1 : 0];
  else
    ends[1] = trn_hang_point (rig, hoist, move, s, sling->to);
}

/* An octagon whose sides touch the circle has its corners at radius/cos 22.5°; taken a little over,
 * for rounding. */
void
trn_hang_block (const TrnRig *rig, const TrnHoist *hoist, const TrnJet3 *hook,
                TrnJet3 corners[TRN_LIMB_CORNERS])
{
  const TrnGearPlace *place = trn_hang_gear (rig, hoist);
  double turn_rad = place != NULL ? atan2 (place->site_from_gear.turn.m[1][0],
                                           place->site_from_gear.turn.m[0][0])
                                  : 0;
  const int n = TRN_LIMB_CORNERS / 2;
  double out = hoist->block_diameter_m / 2 / cos (G_PI / n) * (1 + 1e-12);
  for (int i = 0; i < n; i++)
    {
      double at = turn_rad + (2 * i + 1) * G_PI / n;
      corners[i] = trn_jet3_shift (*hook, trn_vec3_make (out * cos (at), out * sin (at), 0));
      corners[n + i] = trn_jet3_shift (corners[i], trn_vec3_make (0, 0, hoist->block_height_m));
    }
}
