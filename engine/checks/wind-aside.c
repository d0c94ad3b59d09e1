/* By one hook. A level force F = q c_w A, A no less than any area that the load shows at any
 * heading, against the weight W. The load hangs along the resultant of both, at φ from plumb, tan φ
 * = F/W. Rope, legs and load together are at rest under it as they are under the weight alone,
 * turned about the tip by φ, if the wind acts in the centre of gravity. It does not: with the
 * couple M that is left the resultant acts M/√(W² + F²) <= M/W beside the centre of gravity. So the
 * load hangs as one whose centre of gravity is anywhere in the box made wider by M/W, and then
 * turned by φ. M: the pressure is the same all over the area that is seen, which lies within w, no
 * less than the width at any heading, and at most D above or below the centre of gravity. What
 * makes the greatest couple is a part that fills the width from the far end on: a <= min (A, w D)
 * of it, with the arm D − a/(2 w), and the couple grows with a. Rope: turned by φ about the tip its
 * end goes F/W times its length at most, and what it holds by legs goes as if the rope were as much
 * longer as the hook is above what the load turns about, but for a load that hangs free from legs
 * and so turns about the hook. Load: about that, which is at most u from the lift's hook point: 2
 * (r + u) sin(φ/2). The area depends on the attitude: it is that of the hull of the
 * load at any slant up to the turn that the bound says at the end, guessed at first. That is no
 * circle: as the wind rises from 0 the load can turn no farther than the guess before the bound is
 * less than it.
 *
 * Of a lift as drawn the drawn attitude is taken for the one at rest; the hook point is h above its
 * centre of gravity, which is off by M/W: asin (M/(W h)).
 *
 * The wind on rope, hook block and rigging is not counted, nor is swinging, nor that the wind turns
 * the load about the plumb line: of that the heading tolerance is to tell.
 *
 * By the tail alone: the same about the tail point, as drawn.
 *
 * By two hooks, on plumb ropes (a rope with the legs below it is a chain of the length L, all of it
 * at one angle). The load is held against turning about the plumb line, as said, so that it goes
 * aside by w and leans by λ about level axes.
 *
 * Across the line between the points that it hangs from, with v the least distance of the centre of
 * gravity below that line (load-lean.c; the plumb distance d is no less), w taken where the line is
 * plumb over the centre of gravity: the ropes bear V₁ + V₂ = W, at heights z₁ and z₂ from there, V₁
 * z₁ + V₂ z₂ = 0. At rest A w + c λ = F and c w + (B + W d) λ = M − F d, with A = Σ V/L no less
 * than W/L₁, L₁ the longer rope and L₂ the shorter one, B = Σ V z²/L >= 0, and c = Σ V z/L, for
 * hooks g above each other at most W g/4 (1/L₂ − 1/L₁). With w₀ = F L₁/W, λ₀ = F/W + M/(W v), γ =
 * g/4 (L₁/L₂ − 1) and κ = g/(4 v) (1/L₂ − 1/L₁) therefore
 *   |w| <= (w₀ + γ λ₀)/(1 − γ κ)  and  |λ| <= (λ₀ + κ w₀)/(1 − γ κ),
 * and a point z above or below that place goes w + z λ aside at most. That is for small angles: sin
 * is no less than SINE_SHARE of the angle up to MOST_RAD, and v is taken as so much less; ropes are
 * stiffer the farther they are out of plumb, by less than MORE. Beyond MOST_RAD there is no bound.
 *
 * Along that line at least one rope is no farther out of plumb than F/W; the other end goes as far
 * but for what the load pitches, which MORE covers. A hook that goes u aside rises by no more than
 * u²/(2 √(L₂² − u²)); one of them beside the other pitches the load in the plumb plane as hooks out
 * of level do (hook-force.c). Both headings at once are no more than the hypotenuse of both ways.
 * In a tilt the area is the greatest of the hull from any side. What the load leans by is guessed
 * as above.
 *
 * A load whose tail is on a tail trolley or in a turning frame is guided; so is one in a tilt
 * without a tail hook, by what the plan does not name; a load on its seat stands. There no wind is
 * counted. */
#include "wind-aside.h"

#include <math.h>

#include "attitude.h"
#include "extreme.h"
#include "free-hang.h"
#include "gear-tolerance.h"
#include "gravity.h"
#include "hoist.h"
#include "load-lean.h"
#include "shown.h"
#include "wind-check.h"
#include "wind.h"

#define ROPE_WIDTH_M 0.01
/* The guess is by so much more than the bound by the guess before. */
#define GUESS 1.1
#define MOST_GUESSES 8
#define MOST_RAD 0.2
#define SINE_SHARE 0.99
#define MORE 1.1

typedef enum
{
  HELD_OTHERWISE,
  HELD_BY_MAIN,
  HELD_BY_TAIL,
  HELD_BY_TWO,
} Held;

typedef struct
{
  double reach_m;  /* of the load from the hook point, or from the tail point */
  double far_m;    /* r: of it and of what the rigging holds it by */
  double radius_m; /* half of w */
  double up_m;     /* D */
} Shape;

typedef struct
{
  const TrnLiftCheck *check;
  guint move;
  Held held;
  double calm_m, tolerance_m;
  double by_weight; /* force by area, as a share of the weight */
  Shape shape;
} Case;

/* ---- how it hangs ---- */

static gboolean
is_on_rope (const TrnLiftCheck *check, const TrnHoist *hoist)
{
  const TrnGear *gear = trn_hoist_gear (check, hoist);
  return gear == NULL || gear->kind == TRN_GEAR_CRANE || gear->kind == TRN_GEAR_GANTRY;
}

static Held
held_in (const TrnLiftCheck *check, guint move)
{
  const TrnLift *lift = check->run->lift;
  const TrnCarried carried = trn_carried_make (check, move);
  if (check->run->hangs[move].one_hook)
    return HELD_BY_MAIN;
  if (!carried.tail_holds || !is_on_rope (check, &lift->rigging.tail)
      || !trn_attitude_hangs (lift, move))
    return HELD_OTHERWISE;
  if (!carried.main_holds)
    return HELD_BY_TAIL;
  return is_on_rope (check, &lift->rigging.main) ? HELD_BY_TWO : HELD_OTHERWISE;
}

gboolean
trn_wind_aside_means (const TrnLiftCheck *check, guint move)
{
  return check->scene->programme->plan->wind.given && held_in (check, move) != HELD_OTHERWISE;
}

static const TrnComponent *
unit_of (const TrnLiftCheck *check)
{
  return &check->scene->programme->plan->components[check->run->lift->component];
}

/* In a tilt for any attitude. */
static Shape
measure_shape (const TrnLiftCheck *check, guint move, TrnVec3 pivot)
{
  const TrnMesh *mesh = check->load->mesh;
  const TrnVec3 middle = trn_box_centre (&mesh->box), cog = unit_of (check)->cog;
  const TrnRotation *turn = &check->run->motions[move].start.turn;
  const gboolean tilts = trn_motion_tilts (&check->run->motions[move]);
  double reach2 = 0, radius2 = 0, up_m = 0;
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    {
      const TrnVec3 vertex = mesh->vertices[i];
      const TrnVec3 w = trn_rotation_apply (turn, trn_vec3_sub (vertex, middle));
      const TrnVec3 c = trn_rotation_apply (turn, trn_vec3_sub (vertex, cog));
      const double from_pivot2 = trn_vec3_length_squared (trn_vec3_sub (vertex, pivot));
      const double aside2 = w.x * w.x + w.y * w.y + (tilts ? w.z * w.z : 0);
      const double above_m = tilts ? trn_vec3_length (c) : fabs (c.z);
      reach2 = MAX (reach2, from_pivot2);
      radius2 = MAX (radius2, aside2);
      up_m = MAX (up_m, above_m);
    }
  return (Shape){ .reach_m = sqrt (reach2),
                  .far_m = trn_lift_check_extent (check, pivot),
                  .radius_m = sqrt (radius2),
                  .up_m = up_m };
}

/* Of the rope between tip and hook over the move; none with what is missing. */
static TrnInterval
rope_length (const TrnLiftCheck *check, guint move, const TrnHoist *hoist, const char **missing)
{
  const TrnRig *rig = check->run->rig;
  *missing = "gear";
  if (rig == NULL || !hoist->given || hoist->gear == G_MAXUINT)
    return trn_interval_none ();
  const TrnRigQuestion question
      = { .rig = rig, .hoist = hoist, .quantity = TRN_RIG_TIP_ABOVE_HOOK, .move = move };
  *missing = trn_rig_missing (rig, hoist, question.quantity);
  if (*missing != NULL)
    return trn_interval_none ();
  const TrnExtremes found
      = trn_extremes_find (trn_rig_ask, &question, (TrnInterval){ 0, 1 }, ROPE_WIDTH_M);
  *missing = found.complete ? NULL : "reach";
  return found.complete ? (TrnInterval){ found.least.lo, found.greatest.hi } : trn_interval_none ();
}

/* The couple about the centre of gravity for a pressure of 1. */
static double
couple (const Shape *shape, double slack_m, double area_m2)
{
  const double width = 2 * (shape->radius_m + slack_m), up_m = shape->up_m + slack_m;
  const double part = fmin (area_m2, width * up_m);
  return part * (up_m - part / (2 * width));
}

/* ---- by one hook ---- */

/* What the wind turns the load by, and how far that takes a point of it beyond where it is without
 * wind, but for the rope. NAN where there is no bound. */
static void
turn_by_wind (const Case *c, TrnVec3 pivot, double force_share, double couple_share_m,
              double *turned_rad, double *turned_m)
{
  const TrnLiftRun *run = c->check->run;
  const double phi = atan (force_share), far_m = c->shape.far_m;
  if (!run->lift->hangs_free || c->held == HELD_BY_TAIL)
    {
      const TrnComponent *unit = unit_of (c->check);
      const double above_m = trn_vec3_distance (pivot, unit->cog) - trn_vec3_length (unit->cog_box);
      *turned_rad = couple_share_m < above_m ? phi + asin (couple_share_m / above_m) : NAN;
      *turned_m = trn_chord_m (far_m, *turned_rad);
      return;
    }
  double rad, m;
  trn_free_hang_reach (c->check->scene->programme->plan, run, c->move, couple_share_m, &rad, &m);
  const double off_m = trn_vec3_distance (run->hangs[c->move].pivot, pivot) + m;
  const double all_m = trn_chord_m (far_m, rad) + m + trn_chord_m (far_m + off_m, phi);
  *turned_rad = isnan (all_m) ? NAN : rad + phi;
  *turned_m = isnan (all_m) ? NAN : fmax (0, all_m - c->calm_m);
}

static TrnOutline
outline_of (const Case *c)
{
  const double *up = c->check->run->motions[c->move].start.turn.m[2];
  return trn_shown_outline (c->check->shown, c->check->load->mesh,
                            trn_vec3_make (up[0], up[1], up[2]));
}

static double
area_at (const Case *c, const TrnOutline *outline, double slant_rad)
{
  if (trn_motion_tilts (&c->check->run->motions[c->move]))
    return trn_wind_any_way_area (c->check);
  return trn_outline_slanted_m2 (outline, slant_rad);
}

/* How far the hook is above what the load turns about, at most; a beam may be what it turns below.
 */
static double
hook_above_turn (const Case *c, TrnVec3 pivot)
{
  const TrnLiftRun *run = c->check->run;
  const gboolean is_free = run->lift->hangs_free && c->held == HELD_BY_MAIN;
  if (is_free && !run->lift->rigging.main.has_beam
      && trn_vec3_distance (run->hangs[c->move].pivot, pivot) > 0)
    return 0;
  return run->rig->hook_above_m[c->held == HELD_BY_TAIL ? 1 : 0].hi;
}

static void
find_by_one (const Case *c, TrnVec3 pivot, double rope_m, TrnWindAside *aside)
{
  const double chain_m = rope_m + hook_above_turn (c, pivot);
  const TrnOutline outline = outline_of (c);
  double guess_rad = 0;
  for (guint i = 0; i < MOST_GUESSES; i++)
    {
      const double slant = guess_rad + c->check->run->lift->tolerance_tilt_rad;
      if (!(slant < G_PI / 2))
        return;
      const double area = area_at (c, &outline, slant);
      const double slack_m = c->calm_m + c->tolerance_m + trn_chord_m (c->shape.reach_m, slant);
      const double share = c->by_weight * area;
      double turned_rad, turned_m;
      turn_by_wind (c, pivot, share, c->by_weight * couple (&c->shape, slack_m, area), &turned_rad,
                    &turned_m);
      if (isnan (turned_rad))
        return;
      if (i > 0 && turned_rad <= guess_rad)
        {
          aside->hook_m = c->held == HELD_BY_MAIN ? rope_m * share : 0;
          aside->load_m = turned_m + chain_m * share;
          aside->missing = NULL;
          return;
        }
      guess_rad = GUESS * turned_rad;
    }
}

/* ---- by two ---- */

/* What the wind does across the line. */
typedef struct
{
  double aside_m, lean_rad;
} Across;

static Across
across (TrnInterval chain_m, double below_m, double height_m, double pushed_m, double leaned_rad)
{
  const double quarter_m = MORE * height_m / 4;
  const double by_lean_m = quarter_m * (chain_m.hi / chain_m.lo - 1);
  const double by_way = quarter_m / below_m * (1 / chain_m.lo - 1 / chain_m.hi);
  const double left = 1 - by_lean_m * by_way;
  if (!(left > 0))
    return (Across){ NAN, NAN };
  return (Across){ (pushed_m + by_lean_m * leaned_rad) / left,
                   (leaned_rad + by_way * pushed_m) / left };
}

/* What @rise_m of one hook turns the load by; NAN: no bound. */
static double
pitch (const Case *c, double rise_m, double apart_m, double height_m)
{
  const double drawn_m = trn_motion_tilts (&c->check->run->motions[c->move]) ? 0 : height_m;
  if (!(drawn_m + rise_m < apart_m))
    return NAN;
  return asin ((drawn_m + rise_m) / apart_m) - asin (drawn_m / apart_m);
}

/* What does not change with the guess. */
typedef struct
{
  TrnInterval chain_m;
  double below_m, up_m, apart_m, height_m, far_m, cog_m;
  double off_rad; /* from the drawn attitude without wind */
  TrnOutline outline;
} Between;

/* With the load leaned by the guess at most; FALSE where there is no bound. @lean_rad gets what it
 * leans by. */
static gboolean
swing_between (const Case *c, const Between *b, double guess_rad, double *lean_rad,
               TrnWindAside *aside)
{
  const double slack_m = b->cog_m + c->calm_m + c->tolerance_m + trn_chord_m (b->far_m, guess_rad);
  const double slant_rad = guess_rad + b->off_rad;
  const double area = area_at (c, &b->outline, fmin (slant_rad, G_PI / 2));
  const double share = c->by_weight * area,
               couple_m = c->by_weight * couple (&c->shape, slack_m, area);
  const double pushed_m = share * b->chain_m.hi, along_m = MORE * pushed_m;
  const Across x
      = across (b->chain_m, b->below_m, b->height_m, pushed_m, share + couple_m / b->below_m);
  const double most_rad = b->up_m > 0 ? atan (TRN_LEAN_SIDE_SHARE) : MOST_RAD;
  const double hook_m = hypot (x.aside_m + (b->height_m + b->up_m) * x.lean_rad, along_m),
               load_m = hypot (x.aside_m + (b->far_m + b->up_m) * x.lean_rad, along_m);
  if (!(x.lean_rad <= most_rad) || !(hook_m <= MOST_RAD * b->chain_m.lo))
    return FALSE;
  const double rise_m
      = hook_m * hook_m / (2 * sqrt (b->chain_m.lo * b->chain_m.lo - hook_m * hook_m));
  const double pitch_rad = pitch (c, rise_m, b->apart_m, b->height_m);
  if (!(trn_chord_m (b->apart_m, pitch_rad) <= (MORE - 1) * pushed_m))
    return FALSE;
  *lean_rad = x.lean_rad + pitch_rad;
  aside->hook_m = hook_m + trn_chord_m (b->apart_m, pitch_rad);
  aside->load_m = load_m + trn_chord_m (b->far_m, pitch_rad);
  return TRUE;
}

/* Tolerances, hooks out of level, and what is left of a lean beside the move. */
static double
off_without_wind (const Case *c)
{
  const double level_rad = trn_carried_make (c->check, c->move).out_of_level_rad;
  return fabs (c->check->run->lift->tolerance_tilt_rad) + (isnan (level_rad) ? 0 : level_rad)
         + c->check->run->hangs[c->move].reach_rad;
}

static void
find_by_two (const Case *c, TrnInterval chain_m, TrnWindAside *aside)
{
  const TrnLift *lift = c->check->run->lift;
  const TrnMotion *motion = &c->check->run->motions[c->move];
  const TrnVec3 way = trn_vec3_sub (lift->rigging.tail.point, lift->hook.place);
  Between b
      = { .chain_m = chain_m,
          .apart_m = trn_vec3_length (way),
          .height_m = trn_greatest_height (motion, trn_rotation_apply (&motion->start.turn, way)),
          .far_m
          = fmax (c->shape.far_m, trn_lift_check_extent (c->check, lift->rigging.tail.point)),
          .off_rad = off_without_wind (c),
          .outline = outline_of (c),
          .cog_m = trn_vec3_length (unit_of (c->check)->cog_box) };
  b.below_m = SINE_SHARE * trn_load_lean_least_below (c->check, c->move, &b.up_m);
  if (!(b.below_m > 0) || !(chain_m.lo > 0))
    return;
  double guess_rad = 0;
  for (guint i = 0; i < MOST_GUESSES; i++)
    {
      TrnWindAside found = { .missing = NULL };
      double lean_rad;
      if (!swing_between (c, &b, guess_rad, &lean_rad, &found))
        return;
      if (i > 0 && lean_rad <= guess_rad)
        {
          *aside = found;
          return;
        }
      guess_rad = GUESS * lean_rad;
    }
}

/* ---- all of it ---- */

/* Of the longer and the shorter chain of rope and legs. */
static TrnInterval
both_chains (const TrnLiftCheck *check, guint move, const char **missing)
{
  const TrnRigging *rigging = &check->run->lift->rigging;
  const TrnHoist *hoists[2] = { &rigging->main, &rigging->tail };
  TrnInterval both = { INFINITY, 0 };
  for (guint i = 0; i < 2; i++)
    {
      const TrnInterval rope = rope_length (check, move, hoists[i], missing);
      if (*missing != NULL)
        return trn_interval_none ();
      const TrnInterval chain = trn_interval_add (rope, check->run->rig->hook_above_m[i]);
      both.lo = fmin (both.lo, chain.lo);
      both.hi = fmax (both.hi, chain.hi);
    }
  return both;
}

TrnWindAside
trn_wind_aside_find (const TrnLiftCheck *check, guint move, double calm_m, double tolerance_m)
{
  const TrnRigging *rigging = &check->run->lift->rigging;
  const TrnWind *wind = &check->scene->programme->plan->wind;
  const TrnComponent *unit = unit_of (check);
  TrnWindAside aside = { .load_m = NAN, .hook_m = NAN };
  Case c = { .check = check,
             .move = move,
             .held = held_in (check, move),
             .calm_m = calm_m,
             .tolerance_m = tolerance_m };
  g_assert (wind->given && c.held != HELD_OTHERWISE);
  aside.missing = isnan (unit->mass_kg) ? "mass" : isnan (unit->cog.x) ? "cog" : NULL;
  const TrnHoist *hoist = c.held == HELD_BY_TAIL ? &rigging->tail : &rigging->main;
  TrnInterval length = trn_interval_none ();
  if (aside.missing == NULL)
    length = c.held == HELD_BY_TWO ? both_chains (check, move, &aside.missing)
                                   : rope_length (check, move, hoist, &aside.missing);
  if (aside.missing != NULL || isnan (calm_m))
    return aside;
  const TrnVec3 pivot = c.held == HELD_BY_TAIL ? rigging->tail.point : check->run->lift->hook.place;
  c.by_weight = wind->drag * trn_wind_pressure_pa (wind->speed_m_s, wind->air_kg_m3)
                / (unit->mass_kg * TRN_GRAVITY_M_S2);
  c.shape = measure_shape (check, move, pivot);
  aside.missing = "wind";
  if (c.held == HELD_BY_TWO)
    find_by_two (&c, length, &aside);
  else
    find_by_one (&c, pivot, length.hi, &aside);
  return aside;
}
