/* A beam hangs by its middle, its ends L apart. With the CoG by c beside the plumb line of the
 * hook along the beam an end bears W (½ ± c/L); drawn, c is more than it will be when the load has
 * turned, for the ends are higher than the CoG. Where the load leans along a beam that leans with
 * it, c is that of parallel-hang.c. Where it is not known that the beam does, c is no more than the
 * hook is above the CoG times sin λ, λ the lean, or than b tan β by the lean β of the beam, b below
 * its hook, whichever is more (all that hangs and the beam pull at b sin β then), and more by what
 * the lower slings pull along it, H tan β L/W (beam-hang.c). With a tail, or in a tilt, c is 0: the
 * hook pulls plumb at the middle. Upper legs hold one end each, whatever the other does, and half
 * the beam with it, or as much of it as of the load; the lower legs of an end are a bridle that
 * meets there.
 *
 * Legs on both sides of a beam that hangs with its load keep their end where it is drawn from their
 * points, but that it swings about these as its sling would, and is off plumb along the beam by φ,
 * tan φ = H/V. What pulls at them is plumb: seen from them it is turned across the beam by what the
 * load is, and along it by φ and by what they are drawn off plumb. One alone hangs as it is pulled.
 * Plain statics, no source. */
#include "beam-end.h"

#include <math.h>

#include "gravity.h"
#include "hang.h"
#include "sling-up.h"

/* An end that may bear less than that of what hangs, as slings pull along the beam, may go slack:
 * common practice, no source. */
#define SLACK_SHARE 0.02

/* From as drawn to how it hangs, at most; NAN: no bound. */
static double
may_lean_rad (const TrnHookForce *force)
{
  const TrnMoveHang *hang = &force->carried.check->run->hangs[force->carried.move];
  return hang->reach_rad + hang->drawn_reach_rad;
}

/* From where it is drawn level, with its load. */
static TrnBeamLean
leans_of (const TrnHookForce *force)
{
  const TrnCarried *carried = &force->carried;
  const TrnMoveHang *hang = &carried->check->run->hangs[carried->move];
  TrnInterval pitch, roll;
  if (!trn_sling_hangs (force))
    return (TrnBeamLean){ 0, 0 };
  if (!hang->parallel.is_there)
    return trn_beam_hang_leans (&hang->play, force->hoist->beam.length_m, may_lean_rad (force));
  const TrnBox cog = { carried->cog[0], carried->cog[7] };
  trn_parallel_hang_over (&hang->parallel, &cog, &pitch, &roll);
  const double leans_rad = trn_interval_size (pitch);
  return (TrnBeamLean){ leans_rad < G_PI / 2 ? leans_rad : NAN, 0 };
}

static const TrnComponent *
unit_of (const TrnHookForce *force)
{
  const TrnLiftCheck *check = force->carried.check;
  return &check->scene->programme->plan->components[check->run->lift->component];
}

/* By how much what the slings and shackles of one end weigh, with those above the beam or not, is
 * more than half of what all do. */
static double
end_more_kg (const TrnHookForce *force, gboolean with_upper)
{
  const TrnHoist *hoist = force->hoist;
  double end_kg[2] = { 0, 0 };
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      const TrnSling *sling = &hoist->slings[i];
      const guint end = sling->to_beam ? sling->to_beam_b : sling->from == TRN_SLING_FROM_BEAM_B;
      if (sling->to_beam && !with_upper)
        continue;
      end_kg[end] += isnan (sling->mass_kg) ? 0 : sling->mass_kg;
      end_kg[end] += isnan (sling->shackle.mass_kg) ? 0 : sling->shackle.mass_kg;
    }
  const double half_kg = 0.5 * (force->rigging.slings_kg + force->rigging.shackles_kg);
  return fmax (0, fmax (end_kg[0], end_kg[1]) - half_kg);
}

/* Beside the hook along the beam, as a share of its length: at most; NAN: no bound. */
static double
off_middle (const TrnHookForce *force, TrnInterval s)
{
  if (!trn_sling_hangs (force) && (!force->is_tail || force->carried.main_holds))
    return 0;
  const TrnLiftBeam *beam = &force->hoist->beam;
  const TrnMoveHang *hang = &force->carried.check->run->hangs[force->carried.move];
  const TrnBox cog = { force->carried.cog[0], force->carried.cog[7] };
  if (trn_sling_hangs (force) && hang->parallel.is_there)
    return trn_parallel_hang_beside (&hang->parallel, &cog);
  TrnJet3 ends[2];
  trn_hang_beam (force->carried.check->run->rig, force->hoist, force->carried.move, s, ends);
  TrnBox3 along = trn_box_sub (trn_box_of (ends[1]), trn_box_of (ends[0])),
          way = trn_sling_cog_to_hook (force, s);
  const double unit_kg = unit_of (force)->mass_kg,
               above_kg
               = force->rigging.beam_kg + force->rigging.slings_kg + force->rigging.shackles_kg;
  const TrnBeamLean lean = leans_of (force);
  const double slope = tan (lean.lean_rad),
               by_beam = beam->below_hook_m / beam->length_m * (1 + above_kg / unit_kg) * slope;
  const double leaned_m
      = hang->leans ? trn_interval_size (trn_box_length (way)) * sin (hang->lean_rad) : 0;
  const double by_cog
      = (trn_interval_size (trn_box_dot (trn_sling_to_load (force, s, along), way)) / beam->length_m
         + leaned_m)
        / beam->length_m;
  return isnan (slope)
             ? NAN
             : fmax (by_cog, by_beam) + lean.pull * slope + hang->play.fan_m / beam->length_m / 2
                   + end_more_kg (force, TRUE) / unit_kg;
}

/* Two hooks hold it, and a beam is h below one that bears F, the beam too. Where the load leans by
 * λ about the line between them, plumb slings raise one end of the beam, L long, over the other by
 * L sin λ at most, and the hook goes by h tan λ along it: one end bears F h tan λ/L more than half,
 * and the other less. A load that a trolley or a frame keeps from leaning may still be off by its
 * tolerance. */
static double
sideways_n (const TrnHookForce *force, TrnInterval s, TrnInterval all)
{
  const TrnCarried *carried = &force->carried;
  const TrnLiftBeam *beam = &force->hoist->beam;
  const double lean_rad = trn_lift_check_leans (carried->check, carried->move, force->leans_rad);
  TrnInterval factor;
  if (!(lean_rad < G_PI / 2) || !trn_hook_force_factor (force, s, &factor))
    return INFINITY;
  const double beam_n = factor.hi * force->rigging.beam_kg * TRN_GRAVITY_M_S2;
  return (trn_interval_size (all) + beam_n) * beam->below_hook_m / beam->length_m * tan (lean_rad);
}

gboolean
trn_beam_end_n (const TrnHookForce *force, TrnInterval s, TrnInterval *newton)
{
  TrnInterval all, factor;
  const TrnHookLoad *rigging = &force->rigging;
  if (!trn_hook_force_below_n (force, s, rigging->slings_kg + rigging->shackles_kg, &all)
      || !trn_hook_force_factor (force, s, &factor))
    return FALSE;
  double off = off_middle (force, s);
  *newton = trn_interval_mul (all, (TrnInterval){ 0.5 - off, 0.5 + off });
  newton->hi += trn_interval_scale (factor, end_more_kg (force, FALSE) * TRN_GRAVITY_M_S2).hi;
  if (force->carried.main_holds && force->carried.tail_holds)
    {
      const double more_n = sideways_n (force, s, all);
      newton->lo = fmax (fmin (0, all.lo), newton->lo - more_n);
      newton->hi = fmin (fmax (0, all.hi), newton->hi + more_n);
    }
  return trn_interval_is_value (*newton);
}

/* Half the beam, or as much of it as of the load, by the same factor. */
gboolean
trn_beam_upper_n (const TrnHookForce *force, TrnInterval s, TrnInterval *newton)
{
  TrnInterval factor;
  if (!trn_beam_end_n (force, s, newton) || !trn_hook_force_factor (force, s, &factor))
    return FALSE;
  const double more_kg = end_more_kg (force, TRUE) - end_more_kg (force, FALSE);
  const TrnInterval half_n = trn_interval_scale (
      factor, ((0.5 + off_middle (force, s)) * force->rigging.beam_kg + fmax (0, more_kg))
                  * TRN_GRAVITY_M_S2);
  newton->hi = trn_interval_add (*newton, half_n).hi;
  return TRUE;
}

double
trn_beam_leans_rad (const TrnHookForce *force)
{
  return leans_of (force).lean_rad;
}

TrnBox3
trn_beam_sling_turn (const TrnBeamSling *sling, TrnVec3 way)
{
  return (TrnBox3){ trn_interval_point (trn_vec3_dot (way, sling->axes[0])),
                    trn_interval_point (trn_vec3_dot (way, sling->axes[1])),
                    trn_interval_point (trn_vec3_dot (way, sling->axes[2])) };
}

/* How many slings an end holds the load by. */
static guint
n_beside (const TrnHoist *hoist, const TrnSling *sling)
{
  guint n = 0;
  for (guint i = 0; i < hoist->n_slings; i++)
    if (!hoist->slings[i].to_beam && hoist->slings[i].from == sling->from)
      n++;
  return n;
}

gboolean
trn_beam_sling_make (const TrnHookForce *force, const TrnSling *sling, TrnInterval s,
                     TrnBeamSling *made)
{
  const TrnMoveHang *hang = &force->carried.check->run->hangs[force->carried.move];
  const TrnBeamPlay *play = &hang->play;
  if (sling->to_beam || sling->from == TRN_SLING_FROM_HOOK || !trn_sling_hangs (force)
      || hang->parallel.is_there)
    return FALSE;
  const gboolean is_alone = n_beside (force->hoist, sling) == 1;
  const double share = 0.5 - off_middle (force, s), pull = leans_of (force).pull,
               sway_rad = pull > 0 ? atan2 (pull, share) : 0,
               along_rad = fmin (G_PI / 2, sway_rad + (is_alone ? 0 : play->slant_rad)),
               across_rad = is_alone ? 0 : may_lean_rad (force);
  const TrnVec3 way = trn_vec3_sub (play->ends[sling->from == TRN_SLING_FROM_BEAM_B], sling->to);
  made->off_rad = along_rad;
  made->axes[0] = play->along;
  made->axes[1] = trn_vec3_cross (play->up, play->along);
  made->axes[2] = play->up;
  made->way = trn_beam_sling_turn (made, is_alone ? trn_vec3_scale (play->up, trn_vec3_length (way))
                                                  : way);
  made->up = (TrnBox3){ { -sin (along_rad), sin (along_rad) },
                        { -sin (across_rad), sin (across_rad) },
                        { cos (along_rad) * cos (across_rad), 1 } };
  return TRUE;
}

const char *
trn_beam_end_missing (const TrnHookForce *force)
{
  const TrnCarried *carried = &force->carried;
  const TrnMoveHang *hang = &carried->check->run->hangs[carried->move];
  if (!force->hoist->has_beam)
    return NULL;
  const TrnBeamLean lean = leans_of (force);
  const TrnInterval start = { 0, 0 };
  if (isnan (lean.lean_rad))
    return hang->unbounded != NULL        ? hang->unbounded
           : isnan (may_lean_rad (force)) ? "cog_box"
                                          : "beam/lean";
  return lean.pull > 0 && !(off_middle (force, start) <= 0.5 - SLACK_SHARE) ? "beam/lean" : NULL;
}
