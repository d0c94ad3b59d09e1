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

/* Of several points at once: their places, or with @from the ways to them from that point. */
static void
hang_points (const TrnRig *rig, const TrnHoist *hoist, guint move, TrnInterval s,
             const TrnVec3 *from, guint n, const TrnVec3 *points, TrnJet3 *places)
{
  gboolean before = move<hoist->first_move, after = move> hoist->last_move;
  const TrnMotion *motion = &rig->motions[CLAMP (move, hoist->first_move, hoist->last_move)];
  if (before || after)
    s = trn_interval_point (before ? 0 : 1);
  if (from != NULL)
    trn_motion_ways_jet (motion, *from, n, points, s, places);
  else
    trn_motion_points_jet (motion, n, points, s, places);
  for (guint i = 0; (before || after) && i < n; i++)
    places[i] = (TrnJet3){ stopped (places[i].x), stopped (places[i].y), stopped (places[i].z) };
}

TrnJet3
trn_hang_point (const TrnRig *rig, const TrnHoist *hoist, guint move, TrnInterval s, TrnVec3 point)
{
  TrnJet3 place;
  hang_points (rig, hoist, move, s, NULL, 1, &point, &place);
  return place;
}

/* The point of the load that the hook goes with. */
typedef struct
{
  TrnVec3 point;
  gboolean is_itself;  /* the point is where the hook is, … */
  TrnInterval above_m; /* … or this much below it */
} HookPoint;

const TrnRigHung *
trn_hang_hung (const TrnRig *rig, const TrnHoist *hoist, guint move)
{
  const guint holding = CLAMP (move, hoist->first_move, hoist->last_move);
  if (hoist == &rig->lift->rigging.tail || rig->hung == NULL
      || !trn_vec3_is_finite (rig->hung[holding].hook))
    return NULL;
  return &rig->hung[holding];
}

static HookPoint
hook_point (const TrnRig *rig, const TrnHoist *hoist, guint move)
{
  const gboolean is_tail = hoist == &rig->lift->rigging.tail;
  const TrnRigHung *hung = trn_hang_hung (rig, hoist, move);
  if (hung != NULL)
    return (HookPoint){ hung->hook, TRUE, trn_interval_point (0) };
  return (HookPoint){ hoist->point, FALSE, rig->hook_above_m[is_tail ? 1 : 0] };
}

static TrnJet3
hook_over (const HookPoint *of, TrnJet3 place)
{
  if (!of->is_itself)
    place.z = trn_jet_add (place.z, trn_jet_within (of->above_m));
  return place;
}

TrnJet3
trn_hang_hook (const TrnRig *rig, const TrnHoist *hoist, guint move, TrnInterval s)
{
  HookPoint of = hook_point (rig, hoist, move);
  return hook_over (&of, trn_hang_point (rig, hoist, move, s, of.point));
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

/* The hook, both ends of the beam where there is one, and one point of the load: in site axes, from
 * the site's origin or from the hook's point. */
typedef struct
{
  TrnJet3 hook, beam[2], point;
} Hanging;

static Hanging
hanging_make (const TrnRig *rig, const TrnHoist *hoist, gboolean with_beam, TrnVec3 point,
              gboolean from_hook_point, guint move, TrnInterval s)
{
  const TrnLiftBeam *beam = &hoist->beam;
  Hanging hanging;
  HookPoint of = hook_point (rig, hoist, move);
  const TrnRigHung *hung = trn_hang_hung (rig, hoist, move);
  const gboolean leans = hung != NULL && trn_vec3_is_finite (hung->beam[0]);
  const TrnVec3 *ends = leans ? hung->beam : beam->between;
  TrnVec3 points[4] = { of.point, point, ends[0], ends[1] };
  TrnJet3 places[4];
  hang_points (rig, hoist, move, s, from_hook_point ? &of.point : NULL, with_beam ? 4 : 2, points,
               places);
  hanging.hook = hook_over (&of, places[0]);
  hanging.point = places[1];
  if (!with_beam)
    return hanging;
  if (leans)
    {
      hanging.beam[0] = places[2];
      hanging.beam[1] = places[3];
      return hanging;
    }
  TrnJet x, y;
  trn_jet_direction (trn_jet_sub (places[3].x, places[2].x), trn_jet_sub (places[3].y, places[2].y),
                     &x, &y);
  TrnJet3 half = { trn_jet_scale (x, beam->length_m / 2), trn_jet_scale (y, beam->length_m / 2),
                   trn_jet_constant (0) };
  TrnJet3 middle = trn_jet3_shift (hanging.hook, trn_vec3_make (0, 0, -beam->below_hook_m));
  hanging.beam[0] = trn_jet3_sub (middle, half);
  hanging.beam[1] = trn_jet3_add (middle, half);
  return hanging;
}

void
trn_hang_beam (const TrnRig *rig, const TrnHoist *hoist, guint move, TrnInterval s, TrnJet3 ends[2])
{
  Hanging hanging = hanging_make (rig, hoist, TRUE, hoist->point, FALSE, move, s);
  ends[0] = hanging.beam[0];
  ends[1] = hanging.beam[1];
}

static void
sling_ends (const TrnRig *rig, const TrnHoist *hoist, guint index, gboolean from_hook_point,
            guint move, TrnInterval s, TrnJet3 ends[2])
{
  const TrnSling *sling = &hoist->slings[index];
  gboolean with_beam = sling->from != TRN_SLING_FROM_HOOK || sling->to_beam;
  Hanging hanging = hanging_make (rig, hoist, with_beam, sling->to_beam ? hoist->point : sling->to,
                                  from_hook_point, move, s);
  ends[0] = sling->from == TRN_SLING_FROM_HOOK
                ? hanging.hook
                : hanging.beam[sling->from == TRN_SLING_FROM_BEAM_B ? 1 : 0];
  ends[1] = sling->to_beam ? hanging.beam[sling->to_beam_b ? 1 : 0] : hanging.point;
}

void
trn_hang_sling (const TrnRig *rig, const TrnHoist *hoist, guint index, guint move, TrnInterval s,
                TrnJet3 ends[2])
{
  sling_ends (rig, hoist, index, FALSE, move, s, ends);
}

TrnJet3
trn_hang_sling_way (const TrnRig *rig, const TrnHoist *hoist, guint index, guint move,
                    TrnInterval s)
{
  TrnJet3 ends[2];
  sling_ends (rig, hoist, index, TRUE, move, s, ends);
  return trn_jet3_sub (ends[0], ends[1]);
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
