/* Where the corners of each body are. */
#include "crane.h"
#include "hang.h"

/* The hook that a gear is at when no hoist of the lift uses it: of a crane where it is parked, of a
 * gantry the middle of its window, with no height, of a tail trolley the middle of its track. A
 * number that is left out is NAN, and so no place. */
static TrnJet3
idle_hook (const TrnGearPlace *place)
{
  const TrnGear *gear = place->gear;
  TrnVec3 at = { NAN, NAN, NAN };
  if (gear->kind == TRN_GEAR_CRANE && gear->has_park)
    at = gear->park;
  else if (gear->kind == TRN_GEAR_GANTRY)
    at = trn_vec3_make (trn_interval_middle (gear->window_x), trn_interval_middle (gear->window_y),
                        NAN);
  else if (gear->kind == TRN_GEAR_TAIL_TROLLEY)
    at = trn_vec3_make (trn_interval_middle (gear->track_m), 0, gear->size.z);
  return trn_frame_to_site (&place->site_from_gear, trn_jet3_constant (at));
}

static TrnJet3
hook_of (const TrnRigLimb *limb, const TrnRigBody *body, TrnInterval s)
{
  if (body->hoist != NULL)
    return trn_hang_hook (limb->rig, body->hoist, limb->move, s);
  return idle_hook (&limb->rig->places[body->place]);
}

/* A box of @size about @middle (site) on @bottom, along the axes of the gear. */
static void
box_corners (const TrnPose *site_from_gear, const TrnJet3 *middle, TrnVec3 size, TrnJet bottom,
             TrnJet3 corners[8])
{
  const double (*m)[3] = site_from_gear->turn.m;
  for (int i = 0; i < 8; i++)
    {
      TrnInterval x = { (i & 1 ? 0.5 : -0.5) * size.x, 0 };
      TrnInterval y = { (i & 2 ? 0.5 : -0.5) * size.y, 0 };
      x.hi = x.lo;
      y.hi = y.lo;
      TrnInterval along
          = trn_interval_add (trn_interval_scale (x, m[0][0]), trn_interval_scale (y, m[0][1]));
      TrnInterval across
          = trn_interval_add (trn_interval_scale (x, m[1][0]), trn_interval_scale (y, m[1][1]));
      corners[i] = (TrnJet3){ trn_jet_add (middle->x, trn_jet_within (along)),
                              trn_jet_add (middle->y, trn_jet_within (across)),
                              i & 4 ? trn_jet_shift (bottom, size.z) : bottom };
    }
}

static TrnJet
above_base (const TrnGearPlace *place, double up_m)
{
  return trn_jet_shift (trn_jet_constant (place->site_from_gear.position.z), up_m);
}

/* A header beam goes along Y with the hook and stays centred on X = 0. */
static void
header_corners (const TrnGearPlace *place, guint index, const TrnJet3 *hook, TrnJet3 corners[8])
{
  const TrnGear *gear = place->gear;
  TrnJet3 middle = trn_frame_from_site (&place->site_from_gear, *hook);
  middle.x = middle.z = trn_jet_constant (0);
  middle.y = trn_jet_shift (middle.y, (index == 0 ? -0.5 : 0.5) * gear->header_spacing_m);
  middle = trn_frame_to_site (&place->site_from_gear, middle);
  box_corners (&place->site_from_gear, &middle,
               trn_vec3_make (gear->header_length_m, gear->header_width_m, gear->header_depth_m),
               above_base (place, gear->header_underside_m), corners);
}

/* Where the rope ends above: at the tip of a crane, at the underside of the trolley, or of the
 * header where there is none. */
static TrnJet3
rope_top (const TrnGearPlace *place, const TrnJet3 *hook)
{
  const TrnGear *gear = place->gear;
  if (gear->kind == TRN_GEAR_CRANE)
    {
      TrnCrane crane;
      trn_crane_stand (gear, &place->site_from_gear, hook->x, hook->y, &crane);
      return trn_crane_tip (&crane);
    }
  return (TrnJet3){ hook->x, hook->y,
                    above_base (place, gear->has_trolley ? gear->trolley_underside_m
                                                         : gear->header_underside_m) };
}

static void
rope_corners (const TrnGearPlace *place, const TrnHoist *hoist, const TrnJet3 *hook,
              TrnJet3 corners[2])
{
  gboolean block = hoist != NULL && hoist->has_block;
  corners[0] = *hook;
  if (block)
    corners[0].z = trn_jet_shift (hook->z, hoist->block_height_m);
  corners[1] = rope_top (place, hook);
}

static void
crane_corners (const TrnGearPlace *place, TrnRigPart part, const TrnJet3 *hook,
               TrnJet3 corners[TRN_LIMB_CORNERS])
{
  TrnCrane crane;
  trn_crane_stand (place->gear, &place->site_from_gear, hook->x, hook->y, &crane);
  if (part == TRN_PART_COUNTERWEIGHT)
    {
      /* The upper works slew as the boom does: beyond its reach there is no place for them. */
      trn_crane_counterweight (&crane, corners);
      if (!trn_jet_is_value (&crane.z))
        corners[0].x = trn_jet_none ();
      return;
    }
  corners[0] = part == TRN_PART_BOOM ? trn_crane_foot (&crane) : trn_crane_knee (&crane);
  corners[1] = part == TRN_PART_BOOM ? trn_crane_knee (&crane) : trn_crane_tip (&crane);
}

static void
gear_corners (const TrnRigLimb *limb, const TrnRigBody *body, TrnInterval s,
              TrnJet3 corners[TRN_LIMB_CORNERS])
{
  const TrnGearPlace *place = &limb->rig->places[body->place];
  const TrnGear *gear = place->gear;
  TrnJet3 hook = hook_of (limb, body, s);
  switch (body->part)
    {
    case TRN_PART_HEADER:
      header_corners (place, body->index, &hook, corners);
      break;
    case TRN_PART_TROLLEY:
      box_corners (&place->site_from_gear, &hook, gear->trolley_size,
                   above_base (place, gear->trolley_underside_m), corners);
      break;
    case TRN_PART_TAIL_TROLLEY:
      box_corners (&place->site_from_gear, &hook, gear->size, trn_jet_shift (hook.z, -gear->size.z),
                   corners);
      break;
    case TRN_PART_ROPE:
      rope_corners (place, body->hoist, &hook, corners);
      break;
    default:
      crane_corners (place, body->part, &hook, corners);
    }
}

static gboolean
limb_corners (gconstpointer data, TrnInterval s, TrnJet3 corners[TRN_LIMB_CORNERS])
{
  const TrnRigLimb *limb = data;
  const TrnRigBody *body = &limb->rig->bodies[limb->body];
  if (limb->move < body->first_move || limb->move > body->last_move)
    return FALSE;
  if (body->part == TRN_PART_SLING)
    trn_hang_sling (limb->rig, body->hoist, body->index, limb->move, s, corners);
  else if (body->part == TRN_PART_BEAM)
    trn_hang_beam (limb->rig, body->hoist, limb->move, s, corners);
  else if (body->part == TRN_PART_BLOCK)
    {
      TrnJet3 hook = trn_hang_hook (limb->rig, body->hoist, limb->move, s);
      trn_hang_block (limb->rig, body->hoist, &hook, corners);
    }
  else
    gear_corners (limb, body, s, corners);
  for (guint i = 0; i < body->n_corners; i++)
    if (!trn_jet3_is_smooth (&corners[i]))
      return FALSE;
  return TRUE;
}

TrnLimb
trn_rig_limb (const TrnRig *rig, guint body, guint move, TrnRigLimb *store)
{
  *store = (TrnRigLimb){ rig, body, move };
  return (TrnLimb){ .n_corners = rig->bodies[body].n_corners,
                    .radius_m = rig->bodies[body].radius_m,
                    .corners = limb_corners,
                    .data = store };
}
