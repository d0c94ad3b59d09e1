/* Hooks. Tilt and heading are off about the main hook point, so the main hook is off by the shift p
 * alone. The tail hook hangs from a point of the load, which is off by at most t, the bound for
 * every point of the load (lift-check.c). A load that leans does so about its hook. The wind, and
 * hooks out of level, take hook, block and the lower end of the rope aside below a tip that stays
 * (wind-aside.h, allowance.c).
 *
 * Slings. A leg is a segment; its points are mixtures of its two ends and are off by no more than
 * the farther one of these: a point of the load (t), the hook (p <= t), or an end of the beam.
 *
 * Beam. Its middle, b below the hook, is off as that is, by at most o; in swing and wind it goes
 * aside between hook and load, by no more than the load. It lies along e = v/|v|, v the level part
 * of the line between two points of the load, each of which is off by at most t, so |Δv| <= 2 t.
 * With v' = v + Δv, e' − e = Δv/|v| + v' (1/|v'| − 1/|v|), and |v'| |1/|v'| − 1/|v|| = ||v| −
 * |v'||/|v| <= |Δv|/|v|, so |e' − e| <= 2 |Δv|/|v| <= 4 t/|v|. A point of its line is at most L/2
 * from its middle: it is off by o + 2 t L/l at most, l the least |v| over the move.
 *
 * Plumb slings keep it parallel to a load that leans by λ, and where slings hold both its ends it
 * turns about the hook: an end goes hypot (b, L/2) λ. Of that L λ is in 2 t L/l, since t is no less
 * than λ l/2. What it turns by as it swings is in these (swing.c).
 *
 * The least |v| over a move. The vector w between the two points only turns, about the axis u of
 * the move, so |v|² = |w|² − w_z² and the greatest |w_z| is wanted.
 *   u vertical: w_z does not change.
 *   u level:    w_z(φ) = C cos(φ − φ₀) by Rodrigues' formula, C = hypot(w_z, (u × w)_z): greatest
 *               at an end of the move, or C where the move passes φ₀ or half a turn from it.
 *   else:       |w| is a bound, and nothing is known of the beam. */
#include "gear-tolerance.h"

#define ROUNDING_SHARE 1e-12 /* some dozen roundings of a double */

double
trn_hook_tolerance (const TrnLiftCheck *check, const TrnHoist *hoist, guint move)
{
  const TrnLiftRun *run = check->run;
  return hoist == &run->lift->rigging.tail ? check->tolerance_m[move] : run->slack.m;
}

/* Whether going from 0 to @by passes @angle, or half a turn from it. */
static gboolean
passes (double by, double angle)
{
  double lo = fmin (by, 0), hi = fmax (by, 0);
  return angle + G_PI * ceil ((lo - angle) / G_PI) <= hi;
}

double
trn_greatest_height (const TrnMotion *motion, TrnVec3 w)
{
  TrnVec3 u = motion->axis;
  double angle = motion->angle_rad;
  if (!trn_motion_tilts (motion))
    return fabs (w.z);
  if (u.z != 0)
    return trn_vec3_length (w);
  double across = u.x * w.y - u.y * w.x;
  if (passes (angle, atan2 (across, w.z)))
    return hypot (w.z, across);
  return fmax (fabs (w.z), fabs (w.z * cos (angle) + across * sin (angle)));
}

double
trn_beam_points_apart (const TrnMotion *motion, const TrnLiftBeam *beam)
{
  const TrnVec3 w
      = trn_rotation_apply (&motion->start.turn, trn_vec3_sub (beam->between[1], beam->between[0]));
  const double height_m = trn_greatest_height (motion, w), length_m = trn_vec3_length (w);
  return sqrt (fmax (length_m * length_m - height_m * height_m, 0)) - ROUNDING_SHARE * length_m;
}

/* Of the hook itself, not of what carries it. */
static double
hook_aside (const TrnLiftCheck *check, const TrnHoist *hoist, guint move)
{
  const TrnAllowance *allowance = &check->allowances[move];
  return hoist == &check->run->lift->rigging.main
             ? allowance->hook_wind_m + allowance->hook_swing_m + allowance->hook_level_m
             : 0;
}

/* Of its middle, and what its leaning adds at its ends. */
static double
middle_tolerance (const TrnLiftCheck *check, const TrnHoist *hoist, guint move)
{
  const TrnLiftBeam *beam = &hoist->beam;
  const TrnAllowance *a = &check->allowances[move];
  const double lean_rad = trn_lift_check_leans (check, move, 0) + a->wind_rad,
               end_m = hypot (beam->below_hook_m, 0.5 * beam->length_m)
                       + 0.5 * hypot (beam->width_m, beam->depth_m),
               aside_m = hoist == &check->run->lift->rigging.main
                             ? a->hook_level_m + a->wind_m + a->swing_m
                             : 0;
  return trn_hook_tolerance (check, hoist, move) + aside_m
         + trn_chord_m (fmax (0, end_m - beam->length_m), lean_rad);
}

static double
beam_tolerance (const TrnLiftCheck *check, const TrnHoist *hoist, guint move)
{
  const TrnLiftBeam *beam = &hoist->beam;
  const double t = check->tolerance_m[move], middle_m = middle_tolerance (check, hoist, move);
  if (t == 0)
    return middle_m;
  const double level = trn_beam_points_apart (&check->run->motions[move], beam);
  /* Off by as much as they are apart, they may lie either way round. */
  if (!(level > 2 * t))
    return NAN;
  return (middle_m + 2 * t * beam->length_m / level) * (1 + ROUNDING_SHARE);
}

static double
sling_tolerance (const TrnLiftCheck *check, const TrnHoist *hoist, const TrnSling *sling,
                 guint move)
{
  double ends_m = check->tolerance_m[move];
  if (sling->from == TRN_SLING_FROM_HOOK && !sling->to_beam)
    return ends_m;
  double beam_m = beam_tolerance (check, hoist, move);
  return isnan (beam_m) ? NAN : fmax (ends_m, beam_m);
}

double
trn_gear_tolerance (const TrnLiftCheck *check, guint body, guint move)
{
  const TrnRigBody *moves = &check->rig->bodies[body];
  if (moves->hoist == NULL)
    return 0; /* parked */
  if (moves->part == TRN_PART_BEAM)
    return beam_tolerance (check, moves->hoist, move);
  if (moves->part == TRN_PART_SLING)
    return sling_tolerance (check, moves->hoist, &moves->hoist->slings[moves->index], move);
  /* Before and after its moves it stands where it was at the near end of them. */
  guint at = CLAMP (move, moves->hoist->first_move, moves->hoist->last_move);
  double off_m = trn_hook_tolerance (check, moves->hoist, at);
  double tip_m = off_m == 0 ? 0 : trn_rig_tolerance (check->rig, body, at, off_m);
  gboolean goes_aside = moves->part == TRN_PART_ROPE || moves->part == TRN_PART_BLOCK;
  return goes_aside ? tip_m + hook_aside (check, moves->hoist, move) : tip_m;
}

const char *
trn_gear_tolerance_missing (const TrnLiftCheck *check, guint body, guint move)
{
  const TrnRigBody *moves = &check->rig->bodies[body];
  if (moves->hoist == NULL)
    return NULL;
  const gboolean is_held = moves->part == TRN_PART_BEAM || moves->part == TRN_PART_SLING;
  const guint at = is_held ? move : CLAMP (move, moves->hoist->first_move, moves->hoist->last_move);
  if (isnan (is_held ? check->tolerance_m[move] + middle_tolerance (check, moves->hoist, move)
                     : trn_hook_tolerance (check, moves->hoist, at)))
    return trn_lift_check_off_missing (check, at);
  const gboolean goes_aside = moves->part == TRN_PART_ROPE || moves->part == TRN_PART_BLOCK;
  return goes_aside && isnan (hook_aside (check, moves->hoist, move))
             ? trn_lift_check_off_missing (check, move)
             : NULL;
}
