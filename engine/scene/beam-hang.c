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
 * half way between the points at both ends, since plumb slings share as they hang.
 *
 * What the beam does. Slings of an end count as one, l long, h high and off plumb by o; A is what
 * they hold apart, L the beam, and the points of one end are drawn δ over those of the other. On
 * the load the pulls along balance, in line with its points: so both are off plumb against each
 * other, with o₀ + o₁ the difference g between L cos β and what the points are apart seen from
 * above, at most |A − L| + A (1 − cos λ) + L (1 − cos β) + δ sin λ as the load leans by λ and the
 * beam by β. So h goes from √(l² − g²) to l, and L sin β is no more than A sin λ, δ (1 − cos λ) and
 * what h₀ and h₁ become against each other. The pull H they have along the beam has H (h₀/o₀ +
 * h₁/o₁) = W, which for any share of g is H ≤ W g/(√h₀ + √h₁)².
 *
 * A beam b below its hook that leans by β bears W tan β (H/W − (1 + w) b/L) more at one end than at
 * its middle, w the weight of the rigging by W. As far as β is that of the load, A/L of it, that
 * brings it back as A²/L² b would that its centre of gravity is deeper; what β is beside that, τ,
 * turns the load as its centre of gravity would A tan τ (H/W + (1 + w) b/L) beside, and H on points
 * one of which is δ over the other H δ/W. Plain statics, no source. */
#include "beam-hang.h"

#include <math.h>

#include "hanging.h"
#include "outward.h"
#include "parallel-hang.h"

/* Nearer to the plane of the beam than this a sling does not spread. Common practice, no source. */
#define SPREAD_M 0.01
#define ROUNDING 1e-9 /* as a share of a length */
/* Up to that share of their height slings of an end do not spread along the beam: likewise. */
#define ALONG_SHARE 0.01
#define ROUNDS 64
/* Rigging whose mass is left out counts as heavy as its load: likewise. */
#define LEFT_OUT_SHARE 1
#define GUESS 1.25 /* of what a load leans by, which only has to be enough */

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
 * begin. */
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
  double high_m;   /* the least that the end is above a point, … */
  double most_m;   /* … and the most */
  double fan_m;    /* how far points are from each other along the beam */
  TrnVec3 at;      /* what is between them nearest to below the end */
} Hung;

static Hung
hung_of (const TrnVec3 *ways, guint n)
{
  Hung hung = { .aside_m = INFINITY, .high_m = INFINITY };
  double least_x = INFINITY, most_x = -INFINITY;
  for (guint i = 0; i < n; i++)
    {
      hung.high_m = fmin (hung.high_m, -ways[i].z);
      hung.most_m = fmax (hung.most_m, -ways[i].z);
      least_x = fmin (least_x, ways[i].x);
      most_x = fmax (most_x, ways[i].x);
      for (guint k = 0; k <= i; k++)
        {
          const TrnVec3 at = nearest_below (ways[i], ways[k]);
          if (!(hypot (at.x, at.y) < hung.aside_m))
            continue;
          hung.aside_m = hypot (at.x, at.y);
          hung.across_m = fabs (at.y);
          hung.at = at;
        }
    }
  hung.fan_m = fmax (0, most_x - least_x);
  return n > 0 ? hung : (Hung){ 0 };
}

/* Whether the plumb line of the end is between the points across the beam, or they do not spread.
 */
static gboolean
is_even (const TrnVec3 *ways, guint n)
{
  double least_y = INFINITY, most_y = -INFINITY;
  for (guint i = 0; i < n; i++)
    {
      least_y = fmin (least_y, ways[i].y);
      most_y = fmax (most_y, ways[i].y);
    }
  return most_y - least_y <= SPREAD_M || (least_y < -SPREAD_M && most_y > SPREAD_M);
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
  double least_x = INFINITY, most_x = -INFINITY;
  TrnVec3 at[2];
  double most_m[2] = { 0, 0 }, across_kgm = 0;
  guint n_weighed = 0, n_left_out = 0;
  TrnBeamPlay play = { .wider_m = trn_interval_size (
                           trn_parallel_hang_unlike (hoist, mass_kg, beam->length_m)) };
  gboolean is_bound = isfinite (above_m);
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
          ways[n] = trn_vec3_make (x - out_m, p.y * e.x - p.x * e.y, p.z - high_m);
          const double kg = trn_parallel_hang_leg_kg (sling);
          across_kgm += isnan (kg) ? 0 : kg * ways[n].y;
          n_left_out += isnan (kg) ? 1 : 0;
          n_weighed += isnan (kg) ? 0 : 1;
          n++;
        }
      const Hung hung = hung_of (ways, n);
      const double under_m = fmax (0, hung.high_m);
      at[end] = trn_vec3_add (hung.at, trn_vec3_make (out_m, 0, 0));
      is_bound = is_bound && n > 0 && hung.fan_m <= ALONG_SHARE * under_m && is_even (ways, n);
      play.ends[end] = trn_vec3_add (
          hook_point,
          trn_rotation_apply_inverse (drawn, trn_vec3_make (out_m * e.x, out_m * e.y, high_m)));
      if (!isfinite (above_m))
        continue;
      play.high_m[end] = under_m;
      most_m[end] = hung.most_m;
      play.long_m[end] = hypot (under_m, hung.aside_m) * (1 + ROUNDING);
      play.sinks_m = fmax (play.sinks_m, play.long_m[end] - under_m);
      play.skew_m = fmax (play.skew_m, hung.across_m);
      play.fan_m += hung.fan_m;
      play.slant_rad = fmax (play.slant_rad, atan2 (fabs (hung.at.x), under_m));
    }
  const double apart_m = most_x > least_x ? most_x - least_x : 0,
               rigging = trn_parallel_hang_rigging (hoist, mass_kg);
  play.uneven_m = fmax (most_m[1] - play.high_m[0], most_m[0] - play.high_m[1]);
  if (n_weighed > 0 && n_left_out > 0)
    play.wider_m = INFINITY;
  else if (fabs (across_kgm) > ROUNDING * (isfinite (mass_kg) ? mass_kg : 1))
    play.wider_m += isfinite (mass_kg) ? fabs (across_kgm) / mass_kg : INFINITY;
  play.along = trn_rotation_apply_inverse (drawn, e);
  play.up = trn_rotation_apply_inverse (drawn, trn_vec3_make (0, 0, 1));
  play.holds
      = (1 + (isfinite (rigging) ? rigging : LEFT_OUT_SHARE)) * beam->below_hook_m / beam->length_m;
  play.skew_rad = apart_m > 0 ? 2 * play.skew_m / apart_m : play.skew_m > 0 ? G_PI : 0;
  play.apart_m = is_bound && at[1].x > at[0].x ? trn_vec3_distance (at[0], at[1]) : NAN;
  return play;
}

/* As slings are off plumb against each other by @aside_m in all. */
static double
least_high (const TrnBeamPlay *play, guint end, double aside_m)
{
  const double long_m = play->long_m[end];
  return aside_m < long_m ? sqrt (long_m * long_m - aside_m * aside_m) : 0;
}

/* Of what the beam leans by, at most. */
typedef struct
{
  double sine, pull; /* trn_beam_hang_leans() */
  double beside;     /* part of the sine that does not follow the load */
} Leans;

static const Leans no_bound = { NAN, NAN, NAN };

static Leans
find_leans (const TrnBeamPlay *play, double beam_m, double load_rad)
{
  const double sine = sin (load_rad), less = 1 - cos (load_rad), apart_m = play->apart_m,
               uneven_m = play->uneven_m;
  double leans = 0;
  if (!(load_rad < G_PI / 2) || isnan (apart_m))
    return no_bound;
  for (guint i = 0; i < ROUNDS; i++)
    {
      const double aside_m = fabs (apart_m - beam_m) + apart_m * less + uneven_m * sine
                             + beam_m * (1 - sqrt (1 - leans * leans)),
                   high_m[2] = { least_high (play, 0, aside_m), least_high (play, 1, aside_m) },
                   other_m = fmax (play->long_m[0] - play->high_m[0] - high_m[1] + play->high_m[1],
                                   play->long_m[1] - play->high_m[1] - high_m[0] + play->high_m[0]),
                   beside = (uneven_m * less + play->fan_m * sine + fmax (0, other_m)) / beam_m,
                   most = fmax (1, apart_m / beam_m) * sine + beside;
      if (!(most < 1))
        return no_bound;
      if (most <= leans)
        {
          const double root = sqrt (high_m[0]) + sqrt (high_m[1]),
                       least_m = fmin (play->high_m[0], play->high_m[1]),
                       pull = (aside_m > 0 ? aside_m / (root * root) : 0)
                              + (play->fan_m > 0 ? play->fan_m / least_m : 0);
          return isfinite (pull) ? (Leans){ leans, pull, beside } : no_bound;
        }
      leans = most * (1 + ROUNDING) + ROUNDING;
    }
  return no_bound;
}

TrnBeamLean
trn_beam_hang_leans (const TrnBeamPlay *play, double beam_m, double load_rad)
{
  const Leans leans = find_leans (play, beam_m, load_rad);
  return (TrnBeamLean){ asin (leans.sine), leans.pull };
}

const char *
trn_beam_hang_unbounded (double wider_m)
{
  return isinf (wider_m) ? "slings/mass" : isnan (wider_m) ? "beam/lean" : NULL;
}

static double
leans_rad (const TrnBox *cog, double wider_m, TrnVec3 hook, TrnVec3 up)
{
  const TrnBox wide = trn_box_grow (*cog, wider_m);
  return trn_hang_lean_bound_from_point (hook, &wide, up);
}

static double
wider_m (const TrnBeamPlay *play, double beam_m, double load_rad, double eases)
{
  const Leans leans = find_leans (play, beam_m, load_rad);
  return play->wider_m + play->fan_m / 2
         + eases
               * (leans.pull * play->uneven_m
                  + play->apart_m * tan (asin (leans.beside)) * (leans.pull + play->holds));
}

double
trn_beam_hang_wider (const TrnBeamPlay *play, const TrnLiftBeam *beam, const TrnBox *cog,
                     TrnVec3 hook, TrnVec3 up)
{
  const double first_rad = leans_rad (cog, play->wider_m, hook, up);
  if (!(first_rad < G_PI / 2) || beam->length_m == 0)
    return play->wider_m;
  double deep_m = INFINITY;
  for (guint i = 0; i < 8; i++)
    deep_m = fmin (deep_m, trn_vec3_dot (trn_vec3_sub (hook, trn_box_corner (cog, i)), up));
  const double share = play->apart_m / beam->length_m, back_m = share * share * beam->below_hook_m,
               eases = deep_m > 0 ? deep_m / (deep_m + back_m) : NAN,
               first_m = wider_m (play, beam->length_m, first_rad, eases),
               guess_rad = GUESS * leans_rad (cog, first_m, hook, up),
               found_m = wider_m (play, beam->length_m, guess_rad, eases);
  return leans_rad (cog, found_m, hook, up) <= guess_rad ? found_m : NAN;
}
