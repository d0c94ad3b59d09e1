/* Hooks. Tilt and heading are off about the main hook point, so the main hook is off by the shift p
 * alone. The tail hook hangs from a point of the load, which is off by at most t, the bound for
 * every point of the load (lift-check.c). A load that leans does so about its hook. The wind,
 * swinging, and hooks out of level, take hook, block and the lower end of the rope aside below a
 * tip that stays (wind-aside.h, swinging.h, allowance.c), the tail's as the main one's: of these
 * the tail hook has those of a point of the load. So tip, boom and counterweight, header and
 * trolley go only as far as they do when the hook is elsewhere by what is left: by tolerances, and
 * at the tail by lean and centre of gravity, since who sets its tip plumb above the hook follows
 * these. A tail trolley holds the point itself and goes wherever that does.
 *
 * Along a body. A point of a boom is a fixed mixture of foot and knee, x = (1 − σ) a + σ b, so it
 * goes no farther than (1 − σ) |Δa| + σ |Δb|: the foot by what it slews, the knee by what it slews
 * and luffs (crane.c), and what is between in proportion. So are points of a jib of knee and tip,
 * of a rope of hook and tip, of a leg of its two ends. What a body is thick by goes as its middle.
 *
 * Reasons. What a tip goes grows with what the hook is off in all; of the sum that is off for
 * several reasons each has its share of what the tip goes.
 *
 * Slings. A leg is a segment between two of these: a point of the load, the hook, or an end of the
 * beam.
 *
 * Beam. Its middle, b below the hook, is off as that is, by at most o; in swing and wind it goes
 * aside between hook and load, by no more than the load. It lies along e = v/|v|, v the level part
 * of the line w between two points of the load. Those come by at most Δ nearer or farther or turn
 * about each other, so |Δv| <= Δ. With v' = v + Δv, e' − e = Δv/|v| + v' (1/|v'| − 1/|v|), and |v'|
 * |1/|v'| − 1/|v|| = ||v| − |v'||/|v| <= |Δv|/|v|, so |e' − e| <= 2 |Δv|/|v| <= 2 Δ/|v|. A point of
 * its line is at most L/2 from its middle: it is off by o + Δ L/l at most, l the least |v| over the
 * move.
 *
 * Δ. Each of both points is off by at most t, so Δ <= 2 t. Where all the load can do is known by
 * the angle α of each turn it is less: |Rₙ … R₁ w − w| <= Σ |Rᵢ w − w| <= Σ 2 |w| sin (αᵢ/2), since
 * turns keep lengths, however far the load is shifted as well. So each reason counts by the lesser
 * of 2 of its length and of the chord of its angle; of lean, centre of gravity and swing the length
 * alone. As it swings it also turns by itself, beside the line between its points (swing.c): all in
 * all an end goes aside as far as the load, or L/l times as far, and that 2 of its length covers.
 *
 * Plumb slings keep it parallel to a load that leans by λ, and where slings hold both its ends it
 * turns about the hook: an end goes hypot (b, L/2) λ. With Δ = 2 t as much as L λ of that is in Δ
 * L/l, since t is no less than λ l/2; with the lesser one all of it is added. The lesser sum holds.
 *
 * The least |v| over a move. The vector w between the two points only turns, about the axis u of
 * the move, so |v|² = |w|² − w_z² and the greatest |w_z| is wanted.
 *   u vertical: w_z does not change.
 *   u level:    w_z(φ) = C cos(φ − φ₀) by Rodrigues' formula, C = hypot(w_z, (u × w)_z): greatest
 *               at an end of the move, or C where the move passes φ₀ or half a turn from it.
 *   else:       |w| is a bound, and nothing is known of the beam. */
#include "gear-tolerance.h"

#include "hook-force.h"

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

/* ---- what the hook is off by ---- */

static gboolean
is_main (const TrnLiftCheck *check, const TrnHoist *hoist)
{
  return hoist == &check->run->lift->rigging.main;
}

static TrnGearOff
load_off (const TrnLiftCheck *check, guint move)
{
  const TrnAllowance *a = &check->allowances[move];
  return (TrnGearOff){ a->tolerance_m, a->lean_m, a->cog_box_m, a->level_m, a->wind_m, a->swing_m };
}

/* Of the hook itself, not of what carries it. @at: the move of the hoist that is nearest. */
static TrnGearOff
hook_off (const TrnLiftCheck *check, const TrnHoist *hoist, guint move, guint at)
{
  const TrnAllowance *a = &check->allowances[move];
  if (!is_main (check, hoist))
    return load_off (check, at);
  return (TrnGearOff){ .tolerance_m = check->run->slack.m,
                       .level_m = a->hook_level_m,
                       .wind_m = a->hook_wind_m,
                       .swing_m = a->hook_swing_m };
}

/* Of what carries it: as far as that follows the hook. */
static TrnGearOff
carrier_off (const TrnLiftCheck *check, const TrnRigBody *body, guint at)
{
  if (is_main (check, body->hoist))
    return (TrnGearOff){ .tolerance_m = check->run->slack.m };
  TrnGearOff off = load_off (check, at);
  if (body->part != TRN_PART_TAIL_TROLLEY && !isnan (trn_gear_off_sum (&off)))
    off.level_m = off.wind_m = off.swing_m = 0;
  return off;
}

/* ---- sums of reasons ---- */

static TrnGearOff
scaled (TrnGearOff off, double by)
{
  return (TrnGearOff){ off.tolerance_m * by, off.lean_m * by, off.cog_box_m * by,
                       off.level_m * by,     off.wind_m * by, off.swing_m * by };
}

static TrnGearOff
added (TrnGearOff a, TrnGearOff b)
{
  return (TrnGearOff){ a.tolerance_m + b.tolerance_m, a.lean_m + b.lean_m,
                       a.cog_box_m + b.cog_box_m,     a.level_m + b.level_m,
                       a.wind_m + b.wind_m,           a.swing_m + b.swing_m };
}

TrnGearOff
trn_gear_tolerance_at (const TrnGearTolerance *tolerance, double share)
{
  return added (scaled (tolerance->ends[0], 1 - share), scaled (tolerance->ends[1], share));
}

double
trn_gear_tolerance_most_m (const TrnGearTolerance *tolerance)
{
  const double a_m = trn_gear_off_sum (&tolerance->ends[0]),
               b_m = trn_gear_off_sum (&tolerance->ends[1]);
  return isnan (a_m) || isnan (b_m) ? NAN : fmax (a_m, b_m);
}

/* ---- beam and slings ---- */

static TrnGearOff
middle_off (const TrnLiftCheck *check, const TrnHoist *hoist, guint move)
{
  TrnGearOff off = hook_off (check, hoist, move, move);
  if (!is_main (check, hoist))
    return off;
  off.wind_m = check->allowances[move].wind_m;
  off.swing_m = check->allowances[move].swing_m;
  return off;
}

/* What an end goes that is @arm_m from the hook where the beam leans as the load does: each turn
 * has its share of it. */
static TrnGearOff
lean_off (const TrnLiftCheck *check, guint move, double arm_m)
{
  const double wind_rad = check->allowances[move].wind_rad, tilt_rad = check->run->slack.tilt_rad,
               hangs_rad = check->run->hangs[move].reach_rad,
               all_rad = trn_lift_check_leans (check, move, 0) + wind_rad,
               level_rad = fmax (0, all_rad - wind_rad - tilt_rad - hangs_rad),
               sum_rad = level_rad + wind_rad + tilt_rad + hangs_rad,
               by_m = all_rad == 0 ? 0 : trn_chord_m (arm_m, all_rad) / sum_rad;
  return (TrnGearOff){ .tolerance_m = tilt_rad * by_m,
                       .cog_box_m = hangs_rad * by_m,
                       .level_m = level_rad * by_m,
                       .wind_m = wind_rad * by_m };
}

/* Δ by the length of each reason. */
static TrnGearOff
apart_by_length (const TrnLiftCheck *check, guint move)
{
  return scaled (load_off (check, move), 2);
}

/* And by its angle where that is less. fmin() leaves out an angle that is not known. */
static TrnGearOff
apart_by_angle (const TrnLiftCheck *check, const TrnHoist *hoist, guint move)
{
  const double w_m = trn_vec3_distance (hoist->beam.between[0], hoist->beam.between[1]),
               level_rad = trn_carried_make (check, move).out_of_level_rad;
  const TrnSlack *slack = &check->run->slack;
  TrnGearOff apart = apart_by_length (check, move);
  apart.tolerance_m = fmin (apart.tolerance_m, trn_chord_m (w_m, slack->tilt_rad)
                                                   + trn_chord_m (w_m, slack->heading_rad));
  apart.level_m = fmin (apart.level_m, trn_chord_m (w_m, level_rad));
  apart.wind_m = fmin (apart.wind_m, trn_chord_m (w_m, check->allowances[move].wind_rad));
  return apart;
}

static TrnGearOff
beam_end (const TrnLiftCheck *check, const TrnHoist *hoist, guint move, TrnGearOff apart,
          double arm_m)
{
  const TrnGearOff none = { .tolerance_m = NAN };
  const TrnGearOff middle = added (middle_off (check, hoist, move), lean_off (check, move, arm_m));
  if (check->tolerance_m[move] == 0)
    return middle;
  const double level_m = trn_beam_points_apart (&check->run->motions[move], &hoist->beam);
  /* Off by as much as they are apart, they may lie either way round. */
  if (!(level_m > trn_gear_off_sum (&apart)))
    return none;
  return scaled (added (middle, scaled (apart, hoist->beam.length_m / level_m)),
                 1 + ROUNDING_SHARE);
}

static TrnGearOff
beam_off (const TrnLiftCheck *check, const TrnHoist *hoist, guint move)
{
  const TrnLiftBeam *beam = &hoist->beam;
  const double end_m = hypot (beam->below_hook_m, 0.5 * beam->length_m)
                       + 0.5 * hypot (beam->width_m, beam->depth_m);
  const TrnGearOff by_length = beam_end (check, hoist, move, apart_by_length (check, move),
                                         fmax (0, end_m - beam->length_m));
  if (isnan (check->tolerance_m[move]))
    return by_length;
  const TrnGearOff by_angle
      = beam_end (check, hoist, move, apart_by_angle (check, hoist, move), end_m);
  return trn_gear_off_sum (&by_length) <= trn_gear_off_sum (&by_angle)
                 || isnan (trn_gear_off_sum (&by_angle))
             ? by_length
             : by_angle;
}

static TrnGearTolerance
sling_tolerance (const TrnLiftCheck *check, const TrnHoist *hoist, const TrnSling *sling,
                 guint move)
{
  const gboolean from_hook = sling->from == TRN_SLING_FROM_HOOK, to_load = !sling->to_beam;
  const TrnGearOff none = { .tolerance_m = 0 },
                   beam = from_hook && to_load ? none : beam_off (check, hoist, move);
  return (TrnGearTolerance){ { from_hook ? hook_off (check, hoist, move, move) : beam,
                               to_load ? load_off (check, move) : beam } };
}

/* ---- the gear ---- */

/* Before and after its moves it stands where it was at the near end of them. */
static guint
nearest_move (const TrnRigBody *body, guint move)
{
  return CLAMP (move, body->hoist->first_move, body->hoist->last_move);
}

static TrnGearTolerance
carried_tolerance (const TrnLiftCheck *check, guint body, guint move)
{
  const TrnRigBody *moves = &check->rig->bodies[body];
  const guint at = nearest_move (moves, move);
  const TrnGearOff hook = hook_off (check, moves->hoist, move, at);
  if (moves->part == TRN_PART_BLOCK)
    return (TrnGearTolerance){ { hook, hook } };
  const TrnGearOff carrier = carrier_off (check, moves, at);
  const double off_m = trn_gear_off_sum (&carrier);
  TrnGearTolerance tolerance = { { carrier, carrier } };
  if (off_m != 0)
    {
      double ends_m[2];
      trn_rig_tolerance_ends (check->rig, body, at, off_m, ends_m);
      for (guint i = 0; i < 2; i++)
        tolerance.ends[i] = scaled (carrier, ends_m[i] / off_m * (1 + ROUNDING_SHARE));
    }
  if (moves->part == TRN_PART_ROPE && !isnan (trn_gear_off_sum (&tolerance.ends[1])))
    tolerance.ends[0] = hook;
  return tolerance;
}

TrnGearTolerance
trn_gear_tolerance (const TrnLiftCheck *check, guint body, guint move)
{
  const TrnRigBody *moves = &check->rig->bodies[body];
  const TrnGearOff none = { .tolerance_m = 0 };
  if (moves->hoist == NULL)
    return (TrnGearTolerance){ { none, none } }; /* parked */
  if (moves->part == TRN_PART_SLING)
    return sling_tolerance (check, moves->hoist, &moves->hoist->slings[moves->index], move);
  if (moves->part != TRN_PART_BEAM)
    return carried_tolerance (check, body, move);
  const TrnGearOff end = beam_off (check, moves->hoist, move);
  return (TrnGearTolerance){ { end, end } };
}

const char *
trn_gear_tolerance_missing (const TrnLiftCheck *check, guint body, guint move)
{
  const TrnRigBody *moves = &check->rig->bodies[body];
  if (moves->hoist == NULL)
    return NULL;
  const gboolean is_held = moves->part == TRN_PART_BEAM || moves->part == TRN_PART_SLING;
  const gboolean goes_aside = moves->part == TRN_PART_ROPE || moves->part == TRN_PART_BLOCK;
  const guint at = is_held ? move : nearest_move (moves, move);
  const TrnGearOff carrier = carrier_off (check, moves, at),
                   hook = hook_off (check, moves->hoist, move, at);
  double off_m = trn_gear_off_sum (&carrier);
  if (is_held)
    {
      const TrnGearOff middle
          = added (middle_off (check, moves->hoist, move), lean_off (check, move, 1));
      off_m = check->tolerance_m[move] + trn_gear_off_sum (&middle);
    }
  if (isnan (off_m))
    return trn_lift_check_off_missing (check, at);
  if (goes_aside && isnan (trn_gear_off_sum (&hook)))
    return trn_lift_check_off_missing (check, is_main (check, moves->hoist) ? move : at);
  return NULL;
}
