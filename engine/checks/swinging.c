/* The bound stands in engine/statics/swing.c; here is what goes into it.
 *
 * Tips are where the hook is drawn, seen from above, so that the path of the hook is that of the
 * tip: of the point of the load that it goes with, p(s) + R(s) w, w from the pivot of the motion,
 * ρ from its axis. The nth derivative of R w is angleⁿ ρ; a line has a first one only; of an arc
 * (r + s k) e^{iφs} it is the hypotenuse of φⁿ r and n φⁿ⁻¹ k. The height of the tip, and how the
 * rope becomes shorter, follow from the rig, enclosed over pieces of the move.
 *
 * What one move leaves goes on in the next, and in the next lift of a load that is left on its
 * hook, until the load is on its seat, or after a wait in which it is brought to rest; in the wait
 * it swings on. What takes it otherwise than by ropes while it may swing does so nobody knows how.
 * The line from tip to load is no shorter than it is plumb.
 *
 * The load nods about the points that its legs hold it by, or below the ends of a beam without
 * legs: that is a link of its own of the chain (swing.c). Legs that spread may keep it from turning
 * there, as long as none goes slack, so that it nods about its hook: of that the bound is no more,
 * since (a + d)²/(a + h) <= a + d²/h. It may nod about a line through any two of these points, as
 * steep as that is as drawn and with what the load leans by. Where one of them is no higher than
 * the centre of gravity, or above another, nothing is known.
 *
 * On two hooks a load swings as neither of them would let it alone: a move in which both only hoist
 * makes none; of others nothing is known, nor of what swings and goes from one hook to the other.
 */
#include "swinging.h"

#include "attitude.h"
#include "gear-tolerance.h"
#include "hand-over.h"
#include "hang.h"
#include "hoist.h"
#include "hook-force.h"
#include "on-rope.h"
#include "sway.h"
#include "swing.h"

/* As far as the rest of what is taken off holds beside it (wind-aside.c). */
#define MOST_DEG 11
#define PIECES 64
#define MOST_HALVINGS 6
/* Common practice, no source, as what follows: points that are nearer to each other, or to the line
 * of others, do not keep a load from nodding. */
#define LEAST_APART_M 0.1
/* What is shorter is no leg: the hook is in the load. */
#define LEAST_LEG_M 1e-3
/* Of a beam: see beam_is_plain. */
#define LEAST_BESIDE 0.25
#define LEAST_LEVEL 0.1
/* The tangent of what slopes more is not taken to hold a load from nodding. */
#define MOST_SLOPE 100

typedef struct
{
  const TrnLiftCheck *check;
  guint move;
  const TrnHoist *hoist;
  TrnVec3 point;     /* of the load, which the hook goes with */
  double off_m;      /* how much farther from the tip the hook may be than drawn, or nearer */
  TrnInterval cog_m; /* the centre of gravity below the hook */
  double nods_m;     /* and below what the load nods about, at least … */
  TrnInterval arm_m; /* … which is below the link above by that, at least, and below the hook by
                        that, at most, … */
  double legs_m;     /* what is between that and the points, at least */
  double joint_m;    /* … and so far from the hook point of the lift, or from its tail point */
  double slope;      /* of what it nods about */
  double beside_m;   /* what holds it by several points beside the plumb line of the hook; else 0 */
} Case;

/* ---- the path of the tip ---- */

static void
set_level (const Case *c, TrnSwingMove *swing)
{
  const TrnMotion *motion = &c->check->run->motions[c->move];
  const double reach_m = trn_motion_reach (motion, c->point), angle = fabs (motion->angle_rad);
  const double turned_m = angle * reach_m;
  swing->level_m = turned_m;
  swing->level2_m = turned_m * angle;
  swing->level3_m = turned_m * angle * angle;
  swing->hook_m = motion->path == TRN_PATH_LEVEL_TAIL ? INFINITY : fabs (motion->by.z);
  if (trn_motion_tilts (motion))
    {
      swing->hook_m += turned_m;
      swing->hook2_m = swing->level2_m;
      swing->hook3_m = swing->level3_m;
    }
  if (motion->path == TRN_PATH_LINE)
    swing->level_m += hypot (motion->by.x, motion->by.y);
  if (motion->path != TRN_PATH_ARC)
    return;
  const double phi = fabs (motion->phi_rad), by_m = motion->radius_by_m,
               radius_m = fmax (motion->radius_m, motion->radius_m + by_m);
  swing->level_m += hypot (phi * radius_m, by_m);
  swing->level2_m += phi * hypot (phi * radius_m, 2 * by_m);
  swing->level3_m += phi * phi * hypot (phi * radius_m, 3 * by_m);
}

/* Of a quantity over @s: what its first derivative is within, as enclosed and as it is at the
 * middle, give or take what the second lets it change by; the less of both. FALSE where it is not
 * known. */
static gboolean
ask (const TrnRigQuestion *question, TrnInterval s, TrnJet *value)
{
  TrnJet at;
  if (!trn_rig_ask (question, s, value) || !trn_jet_is_smooth (value)
      || !trn_rig_ask (question, trn_interval_point (trn_interval_middle (s)), &at))
    return FALSE;
  const double by = 0.5 * trn_interval_width (s) * trn_interval_size (value->dd);
  if (trn_jet_is_smooth (&at))
    value->d = trn_interval_clip (value->d, at.d.lo - by, at.d.hi + by);
  return TRUE;
}

/* Over @s, halved while it is too wide to tell. */
static gboolean
add_span (const Case *c, TrnInterval s, guint halvings, TrnSwingMove *swing)
{
  TrnRigQuestion question = { .rig = c->check->run->rig,
                              .hoist = c->hoist,
                              .quantity = TRN_RIG_TIP_ABOVE_HOOK,
                              .move = c->move };
  TrnJet rope, tip = trn_jet_constant (0);
  gboolean is_known = ask (&question, s, &rope) && rope.v.lo + c->cog_m.lo > 0;
  question.quantity = TRN_RIG_TIP_HEIGHT;
  if (is_known && swing->level_m > 0)
    is_known = ask (&question, s, &tip);
  if (is_known)
    {
      const double shortens_m = fmax (0, -rope.d.lo) * trn_interval_width (s);
      swing->shortens += shortens_m / (rope.v.lo + c->cog_m.lo);
      if (shortens_m > 0)
        swing->rope_shortens += trn_swing_most_force (rope.v.lo - c->off_m) * shortens_m
                                / fmax (0, rope.v.lo - c->off_m);
      swing->rope_m = fmax (swing->rope_m, trn_interval_size (rope.d));
      swing->up_m = fmax (swing->up_m, trn_interval_size (tip.d));
      swing->up2_m += trn_interval_size (tip.dd) * trn_interval_width (s);
      return TRUE;
    }
  const double middle = trn_interval_middle (s);
  return halvings > 0 && add_span (c, (TrnInterval){ s.lo, middle }, halvings - 1, swing)
         && add_span (c, (TrnInterval){ middle, s.hi }, halvings - 1, swing);
}

static gboolean
add_all (const Case *c, TrnSwingMove *swing)
{
  for (guint i = 0; i < PIECES; i++)
    {
      const TrnInterval s = { (double)i / PIECES, (double)(i + 1) / PIECES };
      if (!add_span (c, s, MOST_HALVINGS, swing))
        return FALSE;
    }
  return TRUE;
}

/* ---- one move ---- */

static const TrnComponent *
unit_of (const TrnLiftCheck *check)
{
  return &check->scene->programme->plan->components[check->run->lift->component];
}

static double
ramp_of (const TrnLiftCheck *check)
{
  return check->scene->programme->plan->loads.ramp.seconds;
}

/* How much farther from the tip the hook may be than drawn, or nearer. */
static double
hook_off (const TrnLiftCheck *check, guint move, gboolean is_tail)
{
  return is_tail ? trn_lift_check_tolerance (check, move) : check->run->slack.m;
}

/* By how much the way from @a to @b slopes; of what is one point not at all. */
static double
slope_rad (const TrnRotation *turn, TrnVec3 a, TrnVec3 b)
{
  const TrnVec3 by = trn_rotation_apply (turn, trn_vec3_sub (b, a));
  return trn_vec3_length (by) > LEAST_APART_M ? atan2 (fabs (by.z), hypot (by.x, by.y)) : 0;
}

/* ---- what it nods about ---- */

static gboolean
has_leg (const TrnHoist *hoist)
{
  for (guint i = 0; i < hoist->n_slings; i++)
    if (!hoist->slings[i].to_beam)
      return TRUE;
  return FALSE;
}

/* The points of its legs, or those below the ends of a beam that has none, or @point. */
typedef struct
{
  const TrnHoist *hoist;
  TrnVec3 point;
  gboolean by_legs;
  guint n; /* some of which are none: joint_get */
} Joints;

static Joints
joints_of (const TrnHoist *hoist, TrnVec3 point)
{
  const gboolean by_legs = has_leg (hoist);
  return (Joints){ hoist, point, by_legs, by_legs ? hoist->n_slings : hoist->has_beam ? 2 : 1 };
}

static gboolean
joint_get (const Joints *joints, guint i, TrnVec3 *joint)
{
  const TrnHoist *hoist = joints->hoist;
  *joint = joints->by_legs   ? hoist->slings[i].to
           : hoist->has_beam ? hoist->beam.between[i]
                             : joints->point;
  return !joints->by_legs || !hoist->slings[i].to_beam;
}

/* The most of all lines that the load may nod about. */
static double
steepest_rad (const Joints *joints, const TrnRotation *turn)
{
  double most_rad = 0;
  TrnVec3 a, b;
  for (guint i = 0; i < joints->n; i++)
    for (guint k = 0; k < i; k++)
      if (joint_get (joints, i, &a) && joint_get (joints, k, &b))
        most_rad = fmax (most_rad, slope_rad (turn, a, b));
  return most_rad;
}

/* @slack_rad: by how much steeper a line may be than drawn. */
static void
set_nods (Case *c, TrnVec3 cog, double box_m, TrnVec3 point, double slack_rad)
{
  const TrnMotion *motion = &c->check->run->motions[c->move];
  const Joints joints = joints_of (c->hoist, point);
  const gboolean tilts = trn_motion_tilts (motion);
  double highest_m = -INFINITY;
  c->nods_m = INFINITY;
  c->joint_m = 0;
  for (guint i = 0; i < joints.n; i++)
    {
      TrnVec3 joint;
      if (!joint_get (&joints, i, &joint))
        continue;
      const TrnVec3 w = trn_rotation_apply (&motion->start.turn, trn_vec3_sub (joint, cog));
      const double far_m = trn_vec3_length (w);
      c->nods_m = fmin (c->nods_m, (tilts ? -far_m : w.z) - box_m);
      highest_m = fmax (highest_m, tilts ? far_m : w.z);
      c->joint_m = fmax (c->joint_m, trn_vec3_distance (joint, point));
      if (joints.n > 1)
        c->beside_m = fmax (c->beside_m, (tilts ? far_m : hypot (w.x, w.y)) + box_m);
    }
  const double beam_m = joints.by_legs && c->hoist->has_beam
                            ? c->hoist->beam.below_hook_m + 0.5 * c->hoist->beam.depth_m
                            : 0;
  /* cog_m and highest_m have box_m in them; how high legs are is no matter of it. */
  const double legs_m = c->cog_m.lo + box_m - highest_m - beam_m;
  c->arm_m = (TrnInterval){ fmax (0, legs_m), fmax (0, c->cog_m.hi - c->nods_m) };
  /* Legs are as long wherever the hook is. */
  c->legs_m = legs_m + c->off_m;
  const double slope = fmin (G_PI / 2, steepest_rad (&joints, &motion->start.turn) + slack_rad);
  c->slope = joints.n > 1 ? tan (slope) : 0;
  c->nods_m *= joints.n > 1 ? cos (slope) * cos (slope) : 1;
}

/* Below a beam holds what is derived there (swing.c) where slings hold both its ends, or none does,
 * and each end holds the load by points on its own side, no nearer to the middle than a quarter of
 * the way between the points below both ends, in line with it or on both sides of that, and all are
 * level: both but for LEAST_LEVEL. */
static gboolean
beam_is_plain (const Case *c)
{
  const TrnHoist *hoist = c->hoist;
  if (!hoist->has_beam)
    return TRUE;
  const TrnRotation *turn = &c->check->run->motions[c->move].start.turn;
  const TrnVec3 *ends = hoist->beam.between;
  TrnVec3 along = trn_rotation_apply (turn, trn_vec3_sub (ends[1], ends[0]));
  along.z = 0;
  const TrnVec3 across = { -along.y, along.x, 0 };
  const double apart2 = trn_vec3_length_squared (along);
  gboolean is_held[2] = { FALSE, FALSE }, is_beside = TRUE;
  /* Of each end the points across the beam, as a share of what both are apart. */
  TrnInterval aside[2] = { { INFINITY, -INFINITY }, { INFINITY, -INFINITY } };
  const Joints joints = joints_of (hoist, c->point);
  for (guint i = 0; i < joints.n; i++)
    {
      const TrnSling *sling = joints.by_legs ? &hoist->slings[i] : NULL;
      TrnVec3 joint;
      if (!joint_get (&joints, i, &joint))
        continue;
      const guint end = sling == NULL ? i : sling->from == TRN_SLING_FROM_BEAM_B;
      const TrnVec3 w = trn_rotation_apply (turn, trn_vec3_sub (joint, c->point));
      const double far = trn_vec3_dot (w, along) / apart2, y = trn_vec3_dot (w, across) / apart2;
      is_beside = is_beside && (sling == NULL || sling->from != TRN_SLING_FROM_HOOK)
                  && (end == 1 ? far : -far) >= LEAST_BESIDE;
      aside[end] = (TrnInterval){ fmin (aside[end].lo, y), fmax (aside[end].hi, y) };
    }
  for (guint i = 0; i < 2; i++)
    is_beside = is_beside && aside[i].lo <= LEAST_LEVEL && aside[i].hi >= -LEAST_LEVEL;
  for (guint i = 0; i < hoist->n_slings; i++)
    if (hoist->slings[i].to_beam)
      is_held[hoist->slings[i].to_beam_b] = TRUE;
  return is_beside && is_held[0] == is_held[1] && c->slope <= LEAST_LEVEL;
}

/* Sets how much heavier the load is by what is between hook and load; returns what is missing. */
static const char *
set_heavier (const TrnLiftCheck *check, const TrnHoist *hoist, TrnSwinging *found)
{
  TrnHookLoad rigging = { .factor = 1, .dynamic = 1 };
  const char *missing = trn_hook_rigging (check, hoist, &rigging);
  const double mass_kg = unit_of (check)->mass_kg;
  found->heavier = 1 + trn_hook_load_static_kg (&rigging) / mass_kg;
  return missing == NULL && isnan (mass_kg) ? "mass" : missing;
}

static Case
case_make (const TrnLiftCheck *check, guint move, gboolean is_tail, double off_m, double slack_rad)
{
  const TrnLiftRun *run = check->run;
  const TrnRigging *rigging = &run->lift->rigging;
  const TrnComponent *unit = unit_of (check);
  Case c = { .check = check,
             .move = move,
             .off_m = off_m,
             .hoist = is_tail ? &rigging->tail : &rigging->main,
             .point = is_tail ? rigging->tail.point : run->lift->hook.place };
  TrnInterval above_m = run->rig->hook_above_m[is_tail ? 1 : 0];
  const TrnVec3 point = c.point;
  const TrnRigHung *hung = trn_hang_hung (run->rig, c.hoist, move);
  if (hung != NULL)
    {
      c.point = hung->hook;
      above_m = (TrnInterval){ 0, 0 };
    }
  const TrnVec3 w
      = trn_rotation_apply (&run->motions[move].start.turn, trn_vec3_sub (c.point, unit->cog));
  const double box_m = trn_vec3_length (unit->cog_box), far_m = trn_vec3_length (w);
  const gboolean tilts = trn_motion_tilts (&run->motions[move]);
  const TrnInterval below_m = { (tilts ? -far_m : w.z) - box_m, (tilts ? far_m : w.z) + box_m };
  c.cog_m = (TrnInterval){ above_m.lo - off_m + below_m.lo, above_m.hi + off_m + below_m.hi };
  set_nods (&c, unit->cog, box_m, point, slack_rad);
  return c;
}

static double
throw_out (const TrnLiftCheck *check, guint move, double length_m)
{
  const TrnMotion *motion = &check->run->motions[move];
  if (motion->path != TRN_PATH_ARC)
    return 0;
  const double radius_m = fmax (motion->radius_m, motion->radius_m + motion->radius_by_m),
               rad_s = fabs (motion->phi_rad) * trn_swing_rate (motion->seconds, ramp_of (check));
  return trn_sway_throw_out (radius_m, rad_s, length_m).true_offset_m;
}

/* With what the rigging weighs. */
static double
chain_chord (const TrnSwinging *swinging)
{
  return swinging->chord * sqrt (swinging->heavier);
}

/* Of what the load is turned by. */
static double
load_chord (const TrnSwinging *swinging)
{
  return swinging->chord > 0 ? chain_chord (swinging) * sqrt (swinging->whole_m / swinging->nods_m)
                             : swinging->chord;
}

/* Of the ends of a beam against what they hold: as much again as a/w of swing.c, since its points
 * may be so much nearer to its middle (beam_is_plain). */
static double
beam_share (const Case *c)
{
  const TrnHoist *hoist = c->hoist;
  if (!hoist->has_beam)
    return 0;
  const double apart_m = trn_beam_points_apart (&c->check->run->motions[c->move], &hoist->beam);
  return apart_m > 0 ? 2 * hoist->beam.length_m / apart_m : INFINITY;
}

static double
against_share (const Case *c, const TrnSwinging *swinging, double rope_m)
{
  const double above_m = c->legs_m > LEAST_LEG_M ? c->legs_m : rope_m, twists = 1 + c->slope;
  return sqrt (swinging->heavier * swinging->whole_m
               * ((twists * twists + beam_share (c)) / above_m + 1 / c->nods_m));
}

/* Where one of several legs goes slack, the others hold the load beside the plumb line of the hook,
 * e at the height a: what they hold goes aside by √(a² + e²)/a as much as below it. That is where
 * rope and legs lean against each other by atan (e/a), which is no more than their swings together:
 * as Cauchy has it, c √(L (1/K + 1/a)). This is the square of that share. */
static double
slack_share (const Case *c, const TrnSwinging *swinging, double rope_m)
{
  if (c->beside_m == 0)
    return 1;
  const double both
      = chain_chord (swinging) * sqrt (swinging->whole_m * (1 / rope_m + 1 / swinging->arm_m.lo));
  const double drawn = c->beside_m / swinging->arm_m.lo,
               leans = both < G_SQRT2 ? tan (2 * asin (both / 2)) : INFINITY,
               most = fmin (drawn, leans);
  return 1 + most * most;
}

static void
find_by_one (const TrnLiftCheck *check, guint move, gboolean is_tail, TrnSwinging *found)
{
  const TrnRigging *rigging = &check->run->lift->rigging;
  const TrnHoist *hoist = is_tail ? &rigging->tail : &rigging->main;
  const TrnInterval rope
      = trn_on_rope_length (check, move, hoist, (TrnInterval){ 0, 1 }, &found->missing);
  const double slack_rad = check->run->slack.tilt_rad + check->run->hangs[move].reach_rad;
  if (found->missing == NULL && isnan (slack_rad))
    found->missing = "cog_box";
  if (found->missing != NULL)
    return;
  const double off_m = hook_off (check, move, is_tail);
  const Case c = case_make (check, move, is_tail, off_m, slack_rad);
  const TrnMotion *motion = &check->run->motions[move];
  TrnSwingMove swing
      = { .seconds = motion->seconds, .ramp_s = ramp_of (check), .least_m = rope.lo + c.cog_m.lo };
  set_level (&c, &swing);
  const gboolean waits = check->run->lift->moves[move].kind == TRN_MOVE_WAIT;
  if (!(c.nods_m > 0 && (c.beside_m == 0 || c.arm_m.lo > 0) && c.slope < MOST_SLOPE))
    found->missing = "swing/above";
  else if (!beam_is_plain (&c))
    found->missing = "swing/beam";
  else if (!(swing.least_m > 0) || (!waits && !add_all (&c, &swing)))
    found->missing = "reach";
  if (found->missing != NULL)
    return;
  found->chord = waits ? found->before : trn_swing_chord (&swing, found->before);
  if (!waits && (swing.up_m > 0 || found->growth > 1))
    found->growth *= trn_swing_growth (&swing);
  /* What does not swing has no need of it. */
  found->missing = found->chord > 0 ? set_heavier (check, hoist, found) : NULL;
  if (found->missing != NULL)
    {
      found->chord = NAN;
      return;
    }
  found->rope_m = rope.hi + off_m;
  found->whole_m = found->rope_m + c.cog_m.hi;
  found->arm_m = c.arm_m;
  found->slope = c.slope;
  found->nods_m = c.nods_m;
  found->joint_m = c.joint_m;
  found->slack = slack_share (&c, found, fmax (0, rope.lo - off_m));
  found->against = against_share (&c, found, fmax (0, rope.lo - off_m));
  if (!(load_chord (found) <= 2 * sin (MOST_DEG * G_PI / 360)))
    {
      found->chord = NAN;
      found->missing = "swing";
      return;
    }
  found->throw_out_m = throw_out (check, move, found->whole_m);
}

/* By two hooks. */
static void
find_by_two (const TrnLiftCheck *check, guint move, TrnSwinging *found)
{
  const TrnMoveKind kind = check->run->lift->moves[move].kind;
  const gboolean is_plumb = kind == TRN_MOVE_HOIST || kind == TRN_MOVE_WAIT;
  found->chord = is_plumb && found->before == 0 ? 0 : NAN;
  found->missing = isnan (found->chord) ? "swing/two-hooks" : NULL;
}

/* On its seat all through. */
static gboolean
is_seated (const TrnLiftCheck *check, guint move)
{
  return !trn_attitude_hangs (check->run->lift, move);
}

/* With what it begins with set. */
static void
find (const TrnLiftCheck *check, guint move, TrnSwinging *found)
{
  const TrnOnRope held = trn_on_rope (check, move);
  found->growth = 1;
  if (held == TRN_ON_ROPE_NOT && (found->before == 0 || is_seated (check, move)))
    return;
  found->chord = NAN;
  found->missing = isnan (found->before)            ? found->missing_before
                   : held == TRN_ON_ROPE_NOT        ? "swing/guided"
                   : isnan (unit_of (check)->cog.x) ? "cog"
                                                    : NULL;
  if (found->missing != NULL)
    return;
  if (found->before > 0 && found->held_before != held)
    found->missing = "swing/two-hooks";
  else if (held == TRN_ON_ROPE_BOTH)
    find_by_two (check, move, found);
  else
    {
      found->growth = found->growth_before;
      find_by_one (check, move, held == TRN_ON_ROPE_TAIL, found);
    }
}

/* At rest. */
static TrnSwinging
at_rest (void)
{
  return (TrnSwinging){ .growth_before = 1 };
}

/* After that move; nothing is left where it came to rest. */
static TrnSwinging
left_after (const TrnLiftCheck *check, guint move)
{
  const TrnSwinging *swinging = &check->swinging[move];
  const gboolean is_rest
      = check->run->lift->moves[move].kind == TRN_MOVE_WAIT
        && check->run->motions[move].seconds >= check->scene->programme->plan->loads.ramp.rest_s;
  if (is_rest)
    return at_rest ();
  return (TrnSwinging){ .before = swinging->chord,
                        .held_before = trn_on_rope (check, move),
                        .growth_before = swinging->growth,
                        .missing_before = swinging->missing };
}

/* Whether all that is said of how that run left the load is said of this one as it begins: no other
 * has had it since, nor has another component taken its place. */
static gboolean
is_as_left (const TrnLiftCheck *check)
{
  const TrnLiftRun *runs = check->scene->programme->runs;
  const guint component = check->run->lift->component, left_by = check->run->left_by;
  gboolean is_last = runs[left_by].lift->component == component;
  for (guint i = left_by + 1; i < check->index; i++)
    is_last = is_last && runs[i].lift->component != component;
  return is_last && !check->run->starts_elsewhere && !check->run->starts_unknown;
}

/* What the lift begins with. */
static TrnSwinging
first_of (const TrnLiftCheck *check)
{
  if (check->run->left_by == G_MAXUINT)
    return at_rest ();
  if (!is_as_left (check))
    return (TrnSwinging){ .before = NAN, .missing_before = TRN_MISSING_ATTITUDE_BEFORE };
  TrnLiftCheck earlier;
  trn_lift_check_init (&earlier, check->scene, check->run->left_by, check->options);
  TrnSwinging first = left_after (&earlier, earlier.run->lift->n_moves - 1);
  trn_lift_check_clear (&earlier);
  if (first.before != 0 && trn_hand_over_find (check).key != NULL)
    return (TrnSwinging){ .before = NAN, .missing_before = TRN_MISSING_HOLDER };
  return first;
}

void
trn_swinging_make (TrnLiftCheck *check)
{
  if (!check->scene->programme->plan->loads.ramp.given || check->options->as_drawn)
    return;
  const guint n = check->run->lift->n_moves;
  check->swinging = g_new0 (TrnSwinging, n);
  for (guint i = 0; i < n; i++)
    {
      check->swinging[i] = i == 0 ? first_of (check) : left_after (check, i - 1);
      find (check, i, &check->swinging[i]);
    }
}

double
trn_swinging_rad (const TrnLiftCheck *check, guint move)
{
  return check->swinging != NULL ? 2 * asin (0.5 * load_chord (&check->swinging[move])) : 0;
}

double
trn_swinging_against_rad (const TrnLiftCheck *check, guint move)
{
  const TrnSwinging *swinging = check->swinging != NULL ? &check->swinging[move] : NULL;
  if (swinging == NULL || !(swinging->chord > 0))
    return swinging != NULL ? swinging->chord : 0;
  return 2 * asin (fmin (1, 0.5 * swinging->chord * swinging->against));
}

double
trn_swinging_growth (const TrnLiftCheck *check, guint move)
{
  return check->swinging != NULL ? check->swinging[move].growth : 1;
}

double
trn_swinging_hook_m (const TrnSwinging *swinging)
{
  return swinging->chord > 0
             ? trn_swing_aside (chain_chord (swinging), swinging->whole_m, swinging->rope_m, 0, 1)
             : swinging->chord;
}

double
trn_swinging_load_m (const TrnSwinging *swinging, double far_m)
{
  if (!(swinging->chord > 0))
    return swinging->chord;
  const double joint_far_m = far_m + swinging->joint_m,
               arm_m = trn_swing_arm_m (swinging->arm_m, joint_far_m * swinging->slope),
               chain_m = swinging->rope_m + arm_m * swinging->slack;
  return trn_swing_aside (chain_chord (swinging), swinging->whole_m, chain_m, joint_far_m,
                          swinging->nods_m);
}

/* ---- the finding ---- */

TrnFinding
trn_swinging_judge (const TrnLiftCheck *check)
{
  TrnFinding finding = trn_lift_check_finding (check, TRN_CHECK_SWINGING, -1, NULL, NAN);
  finding.item = "swing";
  finding.unit = TRN_UNIT_M;
  finding.source = check->scene->programme->plan->loads.ramp.source;
  if (trn_progress_is_cancelled (check->options->progress))
    return finding;
  double most_m = 0, most_rad = 0, out_m = 0;
  for (guint i = 0; i < check->run->lift->n_moves; i++)
    {
      if (isnan (check->allowances[i].swing_m))
        {
          finding.missing = check->swinging[i].missing;
          return finding;
        }
      most_m = fmax (most_m, check->allowances[i].swing_m);
      most_rad = fmax (most_rad, trn_swinging_rad (check, i));
      out_m = fmax (out_m, check->swinging[i].throw_out_m);
    }
  finding.value = most_m;
  finding.verdict = TRN_VERDICT_NOTE;
  finding.state = TRN_STATE_KNOWN;
  trn_finding_add_number (&finding, "swing-angle", trn_degrees (most_rad), TRN_UNIT_DEG);
  trn_finding_add_number (&finding, "throw-out", out_m, TRN_UNIT_M);
  return finding;
}
