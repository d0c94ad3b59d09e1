/* In axes along the beam, across it and up, from the hook, with R_θ the turn about the second and
 * R_φ that about the first: the beam is at R_θ (0, 0, −b), both points a drop S plumb below its
 * ends, and a point of the load that is drawn at p from their middle is at
 *     x = R_θ (0, 0, −b) + (0, 0, −S) + R_θ R_φ p.
 * The centre of gravity c = (c₁, c₂, −d) is as low as it can be where
 *     tan φ = −c₂/d,   tan θ = c₁/(b + D),   D = hypot (d, c₂),
 * and plumb below the hook. Rigging of w times the weight of the load hangs at b below the hook at
 * most, so that B, b (1 + w) at most and b at least, stands for b in θ. What it weighs more at one
 * end of the beam, m, counts for up to m L/2 by the weight of the load beside c₁, an upper sling
 * for anything up to its whole weight.
 *
 * What hangs from the beam pulls c₁ − D tan θ beside its middle: B c₁/(B + D), the more the more B
 * is, and as much beside that as the rigging counts for.
 *
 * Slings off plumb by δ, up to PLUMB_SHARE of the shorter of beam and drop, leave KEPT_SHARE of B
 * (lean-pivot.c) or add as much, turn load and beam against each other by 2 δ/L and take both as
 * far as δ either way.
 *
 * As long as d > 0 tan φ is a quotient of two linear functions of c, whose extremes over a box are
 * at its corners; tan θ grows with c₁ and is nearer to 0 the more B + D is.
 *
 * From one rest to another: R_θ′ R_φ′ (R_θ R_φ)⁻¹ is, but for a turn of both, the turn by θ′ − θ
 * and then by φ′ − φ about lines square to each other: by λ with cos λ/2 = cos (θ′ − θ)/2 cos (φ′ −
 * φ)/2. A point goes 2 b sin |θ′ − θ|/2 with the beam and 2 |p| sin λ/2 with its load at most.
 * Plain statics, no source. */
#include "parallel-hang.h"

#include <math.h>

#include "outward.h"

/* Below the end of a beam, as a share of the shorter of its length and the drop; what is drawn so
 * far aside leaves at least that share of b. Common practice, no source. */
#define PLUMB_SHARE 0.005
#define KEPT_SHARE 0.98
/* The hook stays over what is between the ends of the beam by so much of its half, or a sling goes
 * slack: likewise. */
#define WITHIN_SHARE 0.9
#define FLUSH_M 1e-6 /* rounding of a plan's numbers */

/* In axes along the beam, across it and up; @p from @from. */
static TrnVec3
to_axes (const TrnParallelHang *hang, TrnVec3 from, TrnVec3 p)
{
  const TrnVec3 way = trn_vec3_sub (p, from);
  return trn_vec3_make (trn_vec3_dot (way, hang->along),
                        trn_vec3_dot (way, trn_vec3_cross (hang->up, hang->along)),
                        trn_vec3_dot (way, hang->up));
}

/* NAN: it is there, and left out. */
static double
shackle_kg (const TrnShackle *shackle)
{
  const gboolean is_there
      = shackle->id != NULL || isfinite (shackle->wll_kg) || isfinite (shackle->mass_kg);
  return is_there ? shackle->mass_kg : 0;
}

double
trn_parallel_hang_leg_kg (const TrnSling *sling)
{
  return sling->mass_kg + shackle_kg (&sling->shackle);
}

double
trn_parallel_hang_rigging (const TrnHoist *hoist, double mass_kg)
{
  double all_kg = hoist->beam.mass_kg;
  for (guint i = 0; i < hoist->n_slings; i++)
    all_kg += trn_parallel_hang_leg_kg (&hoist->slings[i]);
  const double share = all_kg / mass_kg;
  return share >= 0 ? share : INFINITY;
}

/* How much more the slings of the end b weigh, of those above the beam or below; INFINITY: where
 * some is left out at one end only. */
static double
unlike_kg (const TrnHoist *hoist, gboolean to_beam)
{
  double kg = 0;
  int n_left_out = 0;
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      const TrnSling *sling = &hoist->slings[i];
      const gboolean is_b = to_beam ? sling->to_beam_b : sling->from == TRN_SLING_FROM_BEAM_B;
      if (sling->to_beam != to_beam || (!to_beam && sling->from == TRN_SLING_FROM_HOOK))
        continue;
      const double parts_kg[] = { sling->mass_kg, shackle_kg (&sling->shackle) };
      for (guint k = 0; k < G_N_ELEMENTS (parts_kg); k++)
        {
          const int left_out = isnan (parts_kg[k]) ? 1 : 0;
          n_left_out += is_b ? left_out : -left_out;
          kg += left_out ? 0 : is_b ? parts_kg[k] : -parts_kg[k];
        }
    }
  return n_left_out == 0 ? kg : INFINITY;
}

TrnInterval
trn_parallel_hang_unlike (const TrnHoist *hoist, double mass_kg, double length_m)
{
  const double lower_kg = unlike_kg (hoist, FALSE), upper_kg = unlike_kg (hoist, TRUE);
  if (lower_kg == 0 && upper_kg == 0)
    return (TrnInterval){ 0, 0 };
  if (!(mass_kg > 0) || isinf (lower_kg) || isinf (upper_kg))
    return (TrnInterval){ -INFINITY, INFINITY };
  const double by_kg = length_m / 2 / mass_kg;
  return (TrnInterval){ fmin (0, lower_kg + fmin (0, upper_kg)) * by_kg,
                        fmax (0, lower_kg + fmax (0, upper_kg)) * by_kg };
}

/* The point that the sling below each end goes to; FALSE where not one and only one does, or the
 * hook does not hold both ends. */
static gboolean
find_points (const TrnHoist *hoist, TrnVec3 points[2])
{
  guint n[2] = { 0, 0 }, upper[2] = { 0, 0 };
  if (!hoist->given || !hoist->has_beam)
    return FALSE;
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      const TrnSling *sling = &hoist->slings[i];
      if (sling->to_beam)
        upper[sling->to_beam_b]++;
      else if (sling->from == TRN_SLING_FROM_HOOK)
        return FALSE;
      else
        {
          const guint end = sling->from == TRN_SLING_FROM_BEAM_B;
          points[end] = sling->to;
          n[end]++;
        }
    }
  return n[0] == 1 && n[1] == 1 && upper[0] > 0 && upper[1] > 0;
}

static gboolean
stays_between (const TrnParallelHang *hang, const TrnBox *cog)
{
  TrnInterval pitch, roll;
  trn_parallel_hang_over (hang, cog, &pitch, &roll);
  return trn_interval_size (roll) < G_PI / 2 && trn_interval_size (pitch) < G_PI / 2
         && hang->below_m * tan (trn_interval_size (pitch)) <= WITHIN_SHARE * hang->beam_m / 2
         && trn_parallel_hang_beside (hang, cog) <= WITHIN_SHARE / 2;
}

TrnParallelHang
trn_parallel_hang (const TrnHoist *hoist, TrnVec3 hook_point, double above_m,
                   const TrnRotation *drawn, double mass_kg, const TrnBox *cog)
{
  const TrnParallelHang none = { .is_there = FALSE };
  const TrnLiftBeam *beam = &hoist->beam;
  TrnVec3 points[2];
  if (!find_points (hoist, points))
    return none;
  TrnVec3 e = trn_rotation_apply (drawn, trn_vec3_sub (beam->between[1], beam->between[0]));
  e.z = 0;
  if (!(trn_vec3_length (e) > 0))
    return none;
  TrnParallelHang hang = { .middle = trn_vec3_scale (trn_vec3_add (points[0], points[1]), 0.5),
                           .along = trn_rotation_apply_inverse (drawn, trn_vec3_unit (e)),
                           .up = trn_rotation_apply_inverse (drawn, trn_vec3_make (0, 0, 1)),
                           .below_m = beam->below_hook_m,
                           .beam_m = beam->length_m };
  const TrnVec3 middle = to_axes (&hang, hook_point, hang.middle);
  hang.beside_m = hypot (middle.x, middle.y);
  hang.drop_m = above_m - beam->below_hook_m - middle.z;
  if (!(hang.below_m > 0 && hang.drop_m > 0))
    return none;
  double off_m = 0;
  for (guint i = 0; i < 2; i++)
    {
      const TrnVec3 p = to_axes (&hang, hook_point, points[i]);
      const double end_m = i == 0 ? -hang.beam_m / 2 : hang.beam_m / 2;
      off_m = fmax (off_m, hypot (hypot (p.x - end_m, p.y), p.z - middle.z));
    }
  if (!(off_m <= PLUMB_SHARE * fmin (hang.beam_m, hang.drop_m)))
    return none;
  const double kept = off_m > FLUSH_M ? KEPT_SHARE : 1;
  const TrnInterval unlike = trn_parallel_hang_unlike (hoist, mass_kg, hang.beam_m);
  hang.off_m = off_m;
  hang.counts_m
      = (TrnInterval){ kept * hang.below_m,
                       (1 + trn_parallel_hang_rigging (hoist, mass_kg)) * hang.below_m / kept };
  hang.aside_m = (TrnInterval){ unlike.lo - off_m, unlike.hi + off_m };
  hang.is_there = TRUE;
  return stays_between (&hang, cog) ? hang : none;
}

TrnParallelRest
trn_parallel_hang_rest (const TrnParallelHang *hang, TrnVec3 cog)
{
  const TrnVec3 c = to_axes (hang, hang->middle, cog),
                across = trn_vec3_cross (hang->up, hang->along);
  const double far_m = hang->below_m + hypot (c.z, c.y);
  TrnParallelRest rest = { .pitch_rad = atan2 (c.x, far_m), .roll_rad = atan2 (-c.y, -c.z) };
  const TrnRotation roll = trn_rotation_make (hang->along, rest.roll_rad),
                    pitch = trn_rotation_make (across, rest.pitch_rad);
  rest.drawn_from_now = trn_rotation_multiply (&pitch, &roll);
  const TrnVec3 plumb = trn_rotation_apply_inverse (&rest.drawn_from_now, hang->up);
  rest.hook = trn_vec3_add_scaled (cog, plumb, hang->drop_m + hypot (far_m, c.x));
  for (guint i = 0; i < 2; i++)
    {
      const TrnVec3 beam = trn_vec3_add_scaled (
          trn_vec3_scale (hang->along, i == 0 ? -hang->beam_m / 2 : hang->beam_m / 2), hang->up,
          -hang->below_m);
      rest.beam[i] = trn_vec3_add (rest.hook, trn_rotation_apply_inverse (&roll, beam));
    }
  return rest;
}

/* What @cog takes up in axes from the middle of both points: it need not be square to them. */
static TrnBox
box_in_axes (const TrnParallelHang *hang, const TrnBox *cog)
{
  TrnBox box = { { INFINITY, INFINITY, INFINITY }, { -INFINITY, -INFINITY, -INFINITY } };
  for (guint i = 0; i < 8; i++)
    {
      const TrnVec3 c = to_axes (hang, hang->middle, trn_box_corner (cog, i));
      box.lo = trn_vec3_make (fmin (box.lo.x, c.x), fmin (box.lo.y, c.y), fmin (box.lo.z, c.z));
      box.hi = trn_vec3_make (fmax (box.hi.x, c.x), fmax (box.hi.y, c.y), fmax (box.hi.z, c.z));
    }
  return box;
}

/* D, at least and at most. */
static TrnInterval
below_points (const TrnBox *box)
{
  const double least_y = box->lo.y > 0 ? box->lo.y : fmax (0, -box->hi.y);
  return (TrnInterval){ hypot (fmin (0, box->hi.z), least_y),
                        hypot (box->lo.z, fmax (fabs (box->lo.y), box->hi.y)) };
}

void
trn_parallel_hang_over (const TrnParallelHang *hang, const TrnBox *cog, TrnInterval *pitch,
                        TrnInterval *roll)
{
  const TrnBox box = box_in_axes (hang, cog);
  *pitch = *roll = (TrnInterval){ -G_PI, G_PI };
  if (!(box.hi.z < 0))
    return;
  *roll = (TrnInterval){ INFINITY, -INFINITY };
  for (guint i = 0; i < 8; i++)
    {
      const TrnVec3 c = to_axes (hang, hang->middle, trn_box_corner (cog, i));
      const double rolled = atan2 (-c.y, -c.z);
      *roll = (TrnInterval){ fmin (roll->lo, rolled), fmax (roll->hi, rolled) };
    }
  const TrnInterval d = below_points (&box);
  const double least_m = hang->counts_m.lo + d.lo, most_m = hang->counts_m.hi + d.hi,
               lo_m = box.lo.x + hang->aside_m.lo, hi_m = box.hi.x + hang->aside_m.hi;
  *pitch = (TrnInterval){ atan2 (lo_m, lo_m < 0 ? least_m : most_m),
                          atan2 (hi_m, hi_m > 0 ? least_m : most_m) };
}

double
trn_parallel_hang_beside (const TrnParallelHang *hang, const TrnBox *cog)
{
  const TrnBox box = box_in_axes (hang, cog);
  const double counts_m = hang->counts_m.hi, d_m = below_points (&box).lo,
               share = isfinite (counts_m) ? counts_m / (counts_m + d_m) : 1;
  return (fmax (fabs (box.lo.x), fabs (box.hi.x)) * share + trn_interval_size (hang->aside_m))
         / hang->beam_m;
}

double
trn_parallel_hang_toward (const TrnParallelHang *hang, const TrnBox *cog, gboolean b)
{
  const TrnBox box = box_in_axes (hang, cog);
  const TrnInterval d = below_points (&box);
  const double most_m = hang->counts_m.hi, least_m = hang->counts_m.lo,
               most = isfinite (most_m) ? most_m / (most_m + d.lo) : 1,
               least = least_m > 0 && isfinite (least_m) ? least_m / (least_m + d.hi) : 0;
  /* With both in balance it is (c₁ counts − D aside)/(counts + D). */
  const double x_m = b ? box.hi.x : -box.lo.x, aside_m = b ? -hang->aside_m.lo : hang->aside_m.hi;
  return (x_m * (x_m > 0 ? most : least) + fmax (0, aside_m)) / hang->beam_m;
}

void
trn_parallel_hang_off (const TrnParallelHang *hang, const TrnBox *cog, double pitch_rad,
                       double roll_rad, TrnVec3 from, double *rad, double *m)
{
  TrnInterval pitch, roll;
  trn_parallel_hang_over (hang, cog, &pitch, &roll);
  const double by_pitch = fmax (pitch.hi - pitch_rad, pitch_rad - pitch.lo),
               by_roll = fmax (roll.hi - roll_rad, roll_rad - roll.lo);
  *rad = *m = NAN;
  if (!(by_pitch < G_PI / 2 && by_roll < G_PI / 2) || !stays_between (hang, cog))
    return;
  const double a = sin (by_pitch / 2), b = sin (by_roll / 2);
  *rad = 2 * asin (fmin (1, sqrt (a * a + b * b * (1 - a * a)))) + 2 * hang->off_m / hang->beam_m;
  *m = 2 * hang->off_m + trn_chord_m (hang->below_m, by_pitch)
       + trn_chord_m (trn_vec3_distance (from, hang->middle), *rad);
}
