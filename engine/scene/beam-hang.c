/* Stiffness. A load below a beam has two ways to turn over.
 *
 * About the line along the beam. A sling alone at an end lets the load turn about its point, so
 * that the load pivots in the line through both points: whatever the beam does, a centre of gravity
 * above that line comes down as it turns, and it turns over. Two slings at an end whose points lie
 * on both sides of the beam turn with the load, so that it pivots in the end of the beam instead.
 * Of slings all on one side, or all along the beam, the lowest point counts.
 *
 * Square to the beam. Plumb slings keep the load parallel to the beam, which turns about the hook
 * where slings hold both its ends: b below that, the load turns as if from b above its points, and
 * from its points where nothing is known to hold the beam.
 *
 * The lower of the two heights counts for both, which makes any lean more, and the lift's hook
 * point where it is lower still. Seen from above the point is in the line the load pivots in, and
 * half way between the points at both ends, since plumb slings share as they hang. Plain statics,
 * no source. */
#include "beam-hang.h"

#include <math.h>

#include "outward.h"
#include "parallel-hang.h"

/* Nearer to the plane of the beam than this a sling does not spread. Common practice, no source. */
#define SPREAD_M 0.01
#define ROUNDING 1e-9 /* as a share of a length */

/* The slings of one end; places from the hook point, x along the beam, y across it, z up. */
typedef struct
{
  guint n;
  double least_y, greatest_y, sum_x;
  TrnVec3 lowest;
} End;

static void
add_point (End *end, TrnVec3 p)
{
  end->least_y = end->n == 0 ? p.y : fmin (end->least_y, p.y);
  end->greatest_y = end->n == 0 ? p.y : fmax (end->greatest_y, p.y);
  if (end->n == 0 || p.z < end->lowest.z)
    end->lowest = p;
  end->sum_x += p.x;
  end->n++;
}

/* The place in the line from @a to @b beside which @x is. */
static TrnVec3
in_line (TrnVec3 a, TrnVec3 b, double x)
{
  const double along = b.x - a.x;
  const double t = along != 0 ? CLAMP ((x - a.x) / along, 0, 1) : 0.5;
  return trn_vec3_add_scaled (a, trn_vec3_sub (b, a), t);
}

gboolean
trn_beam_hang_point (const TrnHoist *hoist, TrnVec3 hook_point, double above_m,
                     const TrnRotation *drawn, TrnVec3 cog, TrnVec3 *point)
{
  const TrnLiftBeam *beam = &hoist->beam;
  End ends[2] = { { 0 }, { 0 } };
  gboolean is_held[2] = { FALSE, FALSE };
  if (!hoist->given || !hoist->has_beam)
    return FALSE;
  TrnVec3 e = trn_rotation_apply (drawn, trn_vec3_sub (beam->between[1], beam->between[0]));
  e.z = 0;
  e = trn_vec3_length (e) > 0 ? trn_vec3_unit (e) : trn_vec3_make (1, 0, 0);
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      const TrnSling *sling = &hoist->slings[i];
      const TrnVec3 p = trn_rotation_apply (drawn, trn_vec3_sub (sling->to, hook_point));
      if (sling->to_beam)
        is_held[sling->to_beam_b] = TRUE;
      else if (sling->from != TRN_SLING_FROM_HOOK)
        add_point (&ends[sling->from == TRN_SLING_FROM_BEAM_B],
                   trn_vec3_make (p.x * e.x + p.y * e.y, p.y * e.x - p.x * e.y, p.z));
    }
  if (ends[0].n + ends[1].n == 0)
    return FALSE;
  TrnVec3 pivots[2], lowest[2];
  double middle_x = 0;
  for (guint i = 0; i < 2; i++)
    {
      const End *end = &ends[ends[i].n > 0 ? i : 1 - i];
      const gboolean spreads
          = isfinite (above_m) && end->least_y < -SPREAD_M && end->greatest_y > SPREAD_M;
      const double out = i == 0 ? -beam->length_m / 2 : beam->length_m / 2;
      lowest[i] = end->lowest;
      pivots[i] = spreads ? trn_vec3_make (out, 0, above_m - beam->below_hook_m) : end->lowest;
      middle_x += end->sum_x / end->n / 2;
    }
  const TrnVec3 c = trn_rotation_apply (drawn, trn_vec3_sub (cog, hook_point));
  const double cog_x = c.x * e.x + c.y * e.y;
  const double below_m = is_held[0] && is_held[1] ? beam->below_hook_m : 0;
  const TrnVec3 roll = in_line (pivots[0], pivots[1], cog_x);
  const double pitch_z = in_line (lowest[0], lowest[1], cog_x).z + below_m;
  const TrnVec3 site = { middle_x * e.x - roll.y * e.y, middle_x * e.y + roll.y * e.x,
                         fmin (0, fmin (roll.z, pitch_z)) };
  *point = trn_vec3_add (hook_point, trn_rotation_apply_inverse (drawn, site));
  return TRUE;
}

double
trn_beam_hang_aside (const TrnBox *cog, TrnVec3 point, double hook_above_m,
                     const TrnRotation *drawn, double rad)
{
  double beside_m = 0;
  for (guint i = 0; i < 8; i++)
    {
      const TrnVec3 by = trn_rotation_apply (drawn, trn_vec3_sub (trn_box_corner (cog, i), point));
      beside_m = fmax (beside_m, hypot (by.x, by.y));
    }
  if (hook_above_m == 0 || rad == 0)
    return 0;
  return fmin (trn_chord_m (hook_above_m, rad), beside_m / cos (fmin (rad, 0.499 * G_PI) / 2));
}

/* The place of the level line from @a to @b that is nearest to what is plumb below where both
 * begin.
 */
static TrnVec3
nearest_below (TrnVec3 a, TrnVec3 b)
{
  const double x = b.x - a.x, y = b.y - a.y, square = x * x + y * y,
               t = square > 0 ? CLAMP (-(a.x * x + a.y * y) / square, 0, 1) : 0;
  return trn_vec3_make (a.x + t * x, a.y + t * y, 0);
}

/* Of the slings of one end, in axes along the beam, across it and up. */
typedef struct
{
  double aside_m;  /* from plumb below the end to what is between their points, … */
  double across_m; /* … and how much of that is across the beam */
  double high_m;   /* the least that the end is above a point */
} Hung;

static Hung
hung_of (const TrnVec3 *ways, guint n)
{
  Hung hung = { .aside_m = INFINITY, .high_m = INFINITY };
  for (guint i = 0; i < n; i++)
    {
      hung.high_m = fmin (hung.high_m, -ways[i].z);
      for (guint k = 0; k <= i; k++)
        {
          const TrnVec3 at = nearest_below (ways[i], ways[k]);
          if (!(hypot (at.x, at.y) < hung.aside_m))
            continue;
          hung.aside_m = hypot (at.x, at.y);
          hung.across_m = fabs (at.y);
        }
    }
  return n > 0 ? hung : (Hung){ 0, 0, 0 };
}

/* Slings of one end hang from it as one: plumb they are as long as they were slant. */
TrnBeamPlay
trn_beam_hang_play (const TrnHoist *hoist, TrnVec3 hook_point, double above_m,
                    const TrnRotation *drawn, double mass_kg)
{
  const TrnLiftBeam *beam = &hoist->beam;
  TrnVec3 e = trn_rotation_apply (drawn, trn_vec3_sub (beam->between[1], beam->between[0]));
  e.z = 0;
  e = trn_vec3_length (e) > 0 ? trn_vec3_unit (e) : trn_vec3_make (1, 0, 0);
  const double high_m = isfinite (above_m) ? above_m - beam->below_hook_m : 0;
  g_autofree TrnVec3 *ways = g_new (TrnVec3, hoist->n_slings);
  double long_m[2] = { 0, 0 }, least_x = INFINITY, most_x = -INFINITY;
  TrnBeamPlay play = { .wider_m = trn_interval_size (
                           trn_parallel_hang_unlike (hoist, mass_kg, beam->length_m)) };
  for (guint end = 0; end < 2; end++)
    {
      const double out_m = (end == 0 ? -0.5 : 0.5) * beam->length_m;
      guint n = 0;
      for (guint i = 0; i < hoist->n_slings; i++)
        {
          const TrnSling *sling = &hoist->slings[i];
          if (sling->to_beam || sling->from == TRN_SLING_FROM_HOOK
              || (sling->from == TRN_SLING_FROM_BEAM_B) != (end == 1))
            continue;
          const TrnVec3 p = trn_rotation_apply (drawn, trn_vec3_sub (sling->to, hook_point));
          const double x = p.x * e.x + p.y * e.y;
          least_x = fmin (least_x, x);
          most_x = fmax (most_x, x);
          ways[n++] = trn_vec3_make (x - out_m, p.y * e.x - p.x * e.y, p.z - high_m);
        }
      if (!isfinite (above_m))
        continue;
      const Hung hung = hung_of (ways, n);
      const double under_m = fmax (0, hung.high_m);
      long_m[end] = hypot (under_m, hung.aside_m);
      play.sinks_m = fmax (play.sinks_m, (long_m[end] - under_m) * (1 + ROUNDING));
      play.skew_m = fmax (play.skew_m, hung.across_m);
      if (hung.aside_m > 0)
        play.slant = fmax (play.slant, under_m > 0 ? hung.aside_m / under_m : INFINITY);
    }
  const double apart_m = most_x > least_x ? most_x - least_x : 0;
  play.skew_rad = apart_m > 0 ? 2 * play.skew_m / apart_m : play.skew_m > 0 ? G_PI : 0;
  play.share = fmax (1, apart_m / beam->length_m);
  play.more = (fabs (long_m[1] - long_m[0]) + play.sinks_m) / beam->length_m;
  return play;
}
