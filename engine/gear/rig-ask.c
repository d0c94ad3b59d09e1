/* What can be asked about a hoist over a move. */
#include "crane.h"
#include "extreme.h"
#include "hang.h"
#include "slew.h"

/* Where the hook is over a span of time; and its crane, once that was asked for. */
typedef struct
{
  TrnJet3 hook;
  TrnCrane crane;
  gboolean stands;
} Placed;

static gboolean
ask_crane (const TrnGearPlace *place, const TrnRigQuestion *q, Placed *placed, TrnInterval s,
           TrnJet *value)
{
  const TrnJet3 *hook = &placed->hook;
  const TrnCrane *crane = &placed->crane;
  if (!placed->stands)
    trn_crane_stand (place->gear, &place->site_from_gear, hook->x, hook->y, &placed->crane);
  placed->stands = TRUE;
  switch (q->quantity)
    {
    case TRN_RIG_RADIUS:
      *value = crane->radius;
      return TRUE;
    case TRN_RIG_BOOM_ANGLE:
      *value = trn_crane_boom_angle (crane);
      return TRUE;
    case TRN_RIG_TIP_HEIGHT:
      *value = trn_crane_tip (crane).z;
      return TRUE;
    case TRN_RIG_TIP_ABOVE_HOOK:
      *value = trn_jet_sub (trn_crane_tip (crane).z, hook->z);
      return TRUE;
    case TRN_RIG_SLEW:
      return trn_slew_find (q->rig, q->hoist, place, q->move, s, value);
    default:
      return FALSE;
    }
}

static gboolean
ask_gantry (const TrnGearPlace *place, const TrnRigQuestion *q, const TrnJet3 *hook, TrnJet *value)
{
  if (!place->gear->has_trolley)
    return FALSE;
  TrnJet underside = trn_jet_shift (trn_jet_constant (place->site_from_gear.position.z),
                                    place->gear->trolley_underside_m);
  if (q->quantity == TRN_RIG_TIP_HEIGHT)
    *value = underside;
  else if (q->quantity == TRN_RIG_TIP_ABOVE_HOOK)
    *value = trn_jet_sub (underside, hook->z);
  else
    return FALSE;
  return TRUE;
}

static gboolean
ask_turning_frame (const TrnGearPlace *place, const TrnRigQuestion *q, TrnInterval s, TrnJet *value)
{
  if (q->quantity != TRN_RIG_POINT_OFF)
    return FALSE;
  TrnJet3 point = trn_hang_point (q->rig, q->hoist, q->move, s, q->hoist->point);
  TrnVec3 base = place->site_from_gear.position;
  point = trn_jet3_shift (point, trn_vec3_scale (base, -1));
  point.z = trn_jet_shift (point.z, -place->gear->pivot_up_m);
  *value = trn_jet3_length (point);
  return TRUE;
}

/* What follows from the gear. */
static gboolean
ask_gear (const TrnRigQuestion *q, Placed *placed, TrnInterval s, TrnJet *value)
{
  const TrnGearPlace *place = trn_hang_gear (q->rig, q->hoist);
  const TrnJet3 *hook = &placed->hook;
  if (place == NULL)
    return FALSE;
  TrnJet3 local = trn_frame_from_site (&place->site_from_gear, *hook);
  if (q->quantity == TRN_RIG_HOOK_LOCAL_X)
    *value = local.x;
  else if (q->quantity == TRN_RIG_HOOK_LOCAL_Y)
    *value = local.y;
  else if (q->quantity == TRN_RIG_HOOK_LOCAL_HEIGHT)
    *value = local.z;
  else if (place->gear->kind == TRN_GEAR_CRANE)
    return ask_crane (place, q, placed, s, value);
  else if (place->gear->kind == TRN_GEAR_GANTRY)
    return ask_gantry (place, q, hook, value);
  else if (place->gear->kind == TRN_GEAR_TURNING_FRAME)
    return ask_turning_frame (place, q, s, value);
  else
    return FALSE;
  return TRUE;
}

static gboolean
ask (const TrnRigQuestion *q, Placed *placed, TrnInterval s, TrnJet *value)
{
  switch (q->quantity)
    {
    case TRN_RIG_HOOK_X:
      *value = placed->hook.x;
      break;
    case TRN_RIG_HOOK_Y:
      *value = placed->hook.y;
      break;
    case TRN_RIG_HOOK_HEIGHT:
      *value = placed->hook.z;
      break;
    case TRN_RIG_SLING_LENGTH:
      if (q->index >= q->hoist->n_slings)
        return FALSE;
      *value = trn_jet3_length (trn_hang_sling_way (q->rig, q->hoist, q->index, q->move, s));
      break;
    default:
      if (!ask_gear (q, placed, s, value))
        return FALSE;
    }
  return trn_jet_is_value (value);
}

static void
place (const TrnRig *rig, const TrnHoist *hoist, guint move, TrnInterval s, Placed *placed)
{
  placed->hook = trn_hang_hook (rig, hoist, move, s);
  placed->stands = FALSE;
}

gboolean
trn_rig_ask (gconstpointer question, TrnInterval s, TrnJet *value)
{
  const TrnRigQuestion *q = question;
  Placed placed;
  place (q->rig, q->hoist, q->move, s, &placed);
  return ask (q, &placed, s, value);
}

gboolean
trn_rig_ask_all (const TrnRig *rig, const TrnHoist *hoist, guint move,
                 const TrnRigQuantity *quantities, guint n, TrnInterval s, TrnInterval *values)
{
  Placed placed;
  place (rig, hoist, move, s, &placed);
  for (guint i = 0; i < n; i++)
    {
      const TrnRigQuestion question = { rig, hoist, quantities[i], move, 0 };
      TrnJet jet;
      if (!ask (&question, &placed, s, &jet))
        return FALSE;
      values[i] = jet.v;
    }
  return TRUE;
}

static gboolean
needs_height (TrnRigQuantity quantity)
{
  return quantity == TRN_RIG_HOOK_HEIGHT || quantity == TRN_RIG_HOOK_LOCAL_HEIGHT
         || quantity == TRN_RIG_TIP_ABOVE_HOOK || quantity == TRN_RIG_SLING_LENGTH;
}

static gboolean
needs_gear (TrnRigQuantity quantity)
{
  return quantity != TRN_RIG_HOOK_X && quantity != TRN_RIG_HOOK_Y && quantity != TRN_RIG_HOOK_HEIGHT
         && quantity != TRN_RIG_SLING_LENGTH;
}

const char *
trn_rig_missing (const TrnRig *rig, const TrnHoist *hoist, TrnRigQuantity quantity)
{
  const TrnGearPlace *place = trn_hang_gear (rig, hoist);
  if (needs_gear (quantity) && hoist->gear >= rig->plan->n_gear)
    return "gear";
  if (needs_gear (quantity) && place == NULL)
    return "at";
  if ((quantity == TRN_RIG_TIP_HEIGHT || quantity == TRN_RIG_TIP_ABOVE_HOOK)
      && place->gear->kind == TRN_GEAR_GANTRY && !place->gear->has_trolley)
    return "trolley";
  if (needs_height (quantity) && !trn_hang_hook_above_given (rig, hoist))
    return "hook_above";
  return NULL;
}

/* The radius of the crane's hook over the move, to within a millimetre. */
static gboolean
radius_range (const TrnRig *rig, const TrnHoist *hoist, guint move, TrnInterval *radius)
{
  TrnRigQuestion question = { rig, hoist, TRN_RIG_RADIUS, move, 0 };
  TrnExtremes extremes = trn_extremes_find (trn_rig_ask, &question, (TrnInterval){ 0, 1 }, 1e-3);
  *radius = (TrnInterval){ extremes.least.lo, extremes.greatest.hi };
  return isnan (extremes.missing_s);
}

/* Points between the corners move no farther than the one of them that moves farthest. Both ends of
 * a rope move: below by as much as the hook, above as the tip, which moves no less. */
static void
crane_tolerance (const TrnRig *rig, const TrnRigBody *body, guint move, double off_m,
                 double ends_m[2])
{
  ends_m[0] = ends_m[1] = NAN;
  TrnInterval radius;
  if (!radius_range (rig, body->hoist, move, &radius))
    return;
  TrnCraneTolerance t = trn_crane_tolerance (rig->places[body->place].gear, radius, off_m);
  switch (body->part)
    {
    case TRN_PART_BOOM:
      ends_m[0] = t.foot_m;
      ends_m[1] = t.knee_m;
      return;
    case TRN_PART_JIB:
      ends_m[0] = t.knee_m;
      ends_m[1] = t.tip_m;
      return;
    case TRN_PART_COUNTERWEIGHT:
      ends_m[0] = ends_m[1] = t.counterweight_m;
      return;
    default:
      ends_m[0] = isnan (t.tip_m) ? NAN : off_m;
      ends_m[1] = t.tip_m;
    }
}

void
trn_rig_tolerance_ends (const TrnRig *rig, guint body, guint move, double off_m, double ends_m[2])
{
  const TrnRigBody *b = &rig->bodies[body];
  ends_m[0] = ends_m[1] = off_m;
  if (b->part == TRN_PART_SLING || b->part == TRN_PART_BEAM)
    ends_m[0] = ends_m[1] = NAN;
  else if (b->hoist == NULL)
    ends_m[0] = ends_m[1] = 0;
  else if (b->part != TRN_PART_BLOCK && rig->places[b->place].gear->kind == TRN_GEAR_CRANE)
    crane_tolerance (rig, b, move, off_m, ends_m);
}

double
trn_rig_tolerance (const TrnRig *rig, guint body, guint move, double off_m)
{
  double ends_m[2];
  trn_rig_tolerance_ends (rig, body, move, off_m, ends_m);
  return isnan (ends_m[0]) || isnan (ends_m[1]) ? NAN : fmax (ends_m[0], ends_m[1]);
}
