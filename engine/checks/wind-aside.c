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
 * By the tail alone: the same about the tail point, as drawn; but what it leans by there
 * (load-lean.c) slants it as well.
 *
 * The centre of gravity anywhere in its box, and what the mesh may be off by, make the arm of the
 * couple longer, and the latter what is wide wider. Ropes are longer or shorter by what the hook is
 * off by.
 *
 * By two hooks, on plumb ropes (a rope with the legs below it is a chain of the length L, all of it
 * at one angle). The load is held against turning about the plumb line, as said, so that it goes
 * aside by w and leans by λ about level axes.
 *
 * Across the line between what it hangs from, with d the least plumb distance of the centre of
 * gravity below that line (load-lean.c), w taken where the line is plumb over the centre of
 * gravity: the ropes bear V₁ + V₂ = W, at heights z₁ and z₂ from there, V₁ z₁ + V₂ z₂ = 0. At rest
 * A w + c λ = F and c w + (B + W d) λ = M − F d, with A = Σ V/L no less than W/L₁, L₁ the longer
 * rope and L₂ the shorter one, B = Σ V z²/L, and c = Σ V z/L, for hooks g above each other and the
 * tail bearing T of W at most W t g (1/L₂ − 1/L₁), t = T (1 − T) <= 1/4. Since c² <= A B the
 * determinant is no less than A W d, so with γ = t g (L₁/L₂ − 1) >= |c|/A |λ| <= F/W + (M + γ F)/(W
 * d)  and  |w| <= F L₁/W + γ |λ|, and a point z above or below that place goes w + z λ aside at
 * most. Wind along the line at the same time takes (F D + M)/l of the weight from one rope to the
 * other, D how far the centre of gravity is from the points and l the least level way between them;
 * the place where the ropes bear the weight then goes as much of g down: T may be as much more or
 * less, and d is so much less. That is for small angles: sin is no less than SINE_SHARE of the
 * angle up to MOST_RAD, and d is taken as so much less; ropes are stiffer the farther they are out
 * of plumb, by less than MORE. Beyond MOST_RAD there is no bound. Legs may turn with the rope or,
 * where they spread, with the load: so L₁ is with its legs and L₂ without, and g the greater of
 * that between hooks and that between points.
 *
 * Along that line V₁ tan α₁ + V₂ tan α₂ = F: at least one rope is no farther out of plumb than F/W,
 * and its hook goes no farther than p = F L₁/W; the other goes y farther at most, y what the load's
 * pitch takes one point aside from the other. A hook that goes u aside rises by no more than R =
 * u²/(2 √(L₂² − u²)); one of them beside the other pitches the load in the plumb plane as hooks out
 * of level do (hook-force.c), by asin ((g + R)/a) − asin (g/a), g the greatest; from g
 * + R = a on there is no bound. With legs between points and hooks g is that of hooks or of points,
 * whichever is more, and a may be that between hooks: then it counts that a line
 * turns by dh over its level way for a rise dh of its end, and that way is no less than √(l² − 2 g
 * R − R²) on all of the rise: R over that. All of it grows with the wind without a jump, so y stays
 * below each value from which the pitch that it makes is no greater.
 *
 * One rope goes slack where the wind's moment about the other's point is more than the weight's: F
 * D
 * + M against W c, D how far the centre of gravity is from that point and c the least way along the
 * level between them, less all that it may be off by. Then the load hangs by one hook with the wind
 * on it, its centre of gravity no more than φ + asin (M/(W D)) off plumb; it was on the slack
 * rope's side of that hook and is no nearer to plumb there than taut, as the slack point only goes
 * up: the pitch is no more than that, or than it was. That wants the hook above the centre of
 * gravity.
 *
 * Tolerances and hooks out of level may have turned the load by ω in the plumb plane before. Then g
 * is up to a sin (asin (g/a) + ω), with legs up to g + a sin ω, and never more than a and the legs;
 * l is no less than l cos ω − g sin ω, without which there is no bound, and no more than l + g sin
 * ω; the distance of the centre of gravity from the line in that plane stays, so that d is no less
 * than d l/(l + g sin ω); and t counts as 1/4. Ropes are longer or shorter by what hooks are out of
 * level too.
 *
 * Both headings at once are no more than the hypotenuse of both ways.
 * In a tilt the area is the greatest of the hull from any side; it is gone through in SPANS pieces,
 * each with the least and the greatest of its own, and the worst counts. What the load leans and
 * pitches by is guessed as above.
 *
 * In which moves it hangs: on-rope.c. What swings is slanted by that as well (swinging.h), and
 * where the tip rises or falls while it does, what the wind takes aside by one hook grows as
 * swing.c has it. */
#include "wind-aside.h"

#include <math.h>

#include "free-hang.h"
#include "gravity.h"
#include "hang.h"
#include "load-lean.h"
#include "on-rope.h"
#include "shown.h"
#include "swinging.h"
#include "wind-check.h"
#include "wind.h"

/* The guess is by so much more than the bound by the guess before. */
#define GUESS 1.1
#define MOST_GUESSES 8
#define MOST_GUESSES_OF_TWO 40
#define SPANS 32
#define MOST_RAD 0.2
#define SINE_SHARE 0.99
#define MORE 1.1

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
  TrnOnRope held;
  double calm_m, tolerance_m;
  double by_weight; /* force by area, as a share of the weight */
  Shape shape;
} Case;

/* ---- how it hangs ---- */

gboolean
trn_wind_aside_means (const TrnLiftCheck *check, guint move)
{
  return check->scene->programme->plan->wind.given && trn_on_rope (check, move) != TRN_ON_ROPE_NOT;
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
  if (!run->lift->hangs_free || c->held == TRN_ON_ROPE_TAIL)
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

static TrnVec3
up_of (const TrnLiftCheck *check, guint move)
{
  const double *up = check->run->motions[move].start.turn.m[2];
  return trn_outline_up (trn_vec3_make (up[0], up[1], up[2]));
}

static TrnOutline
outline_of (const Case *c)
{
  return trn_shown_outline (c->check->shown, c->check->load->mesh, up_of (c->check, c->move));
}

gboolean
trn_wind_aside_up (const TrnLiftCheck *check, guint move, TrnVec3 *up)
{
  *up = up_of (check, move);
  return trn_wind_aside_means (check, move) && isfinite (unit_of (check)->mass_kg)
         && isfinite (unit_of (check)->cog.x);
}

static double
area_at (const Case *c, const TrnOutline *outline, double slant_rad)
{
  if (trn_motion_tilts (&c->check->run->motions[c->move]))
    return trn_wind_any_way_area (c->check);
  return trn_outline_slanted_m2 (outline, slant_rad) + trn_wind_more_area (c->check);
}

/* How far the hook is above what the load turns about, at most. */
static double
hook_above_turn (const Case *c)
{
  const TrnLiftRun *run = c->check->run;
  const gboolean is_main = c->held == TRN_ON_ROPE_MAIN;
  const TrnRigHung *hung
      = is_main ? trn_hang_hung (run->rig, &run->lift->rigging.main, c->move) : NULL;
  if (hung != NULL && trn_vec3_distance (hung->hook, run->hangs[c->move].pivot) == 0)
    return 0;
  return run->rig->hook_above_m[is_main ? 0 : 1].hi;
}

static void
find_by_one (const Case *c, TrnVec3 pivot, double rope_m, TrnWindAside *aside)
{
  const double chain_m = rope_m + hook_above_turn (c);
  const TrnOutline outline = outline_of (c);
  const double leans_rad
      = c->held == TRN_ON_ROPE_TAIL ? trn_load_lean_most_rad (c->check, c->move) : 0;
  const double off_rad
      = c->check->run->slack.tilt_rad + leans_rad + trn_swinging_rad (c->check, c->move),
      off_m = c->calm_m + c->tolerance_m + c->check->load->off_m
              + trn_vec3_length (unit_of (c->check)->cog_box);
  const double growth = trn_swinging_growth (c->check, c->move);
  double guess_rad = 0;
  for (guint i = 0; i < MOST_GUESSES; i++)
    {
      const double slant = growth * guess_rad + off_rad;
      if (!(slant < G_PI / 2))
        return;
      const double area = area_at (c, &outline, slant);
      const double slack_m = off_m + trn_chord_m (c->shape.reach_m, slant);
      const double share = c->by_weight * area;
      double turned_rad, turned_m;
      turn_by_wind (c, pivot, share, c->by_weight * couple (&c->shape, slack_m, area), &turned_rad,
                    &turned_m);
      if (isnan (turned_rad))
        return;
      if (i > 0 && turned_rad <= guess_rad)
        {
          aside->hook_m = c->held == TRN_ON_ROPE_MAIN ? growth * rope_m * share : 0;
          aside->load_m = growth * (turned_m + chain_m * share);
          aside->turned_rad = growth * turned_rad;
          aside->missing = NULL;
          return;
        }
      guess_rad = GUESS * turned_rad;
    }
}

/* ---- by two ---- */

/* What does not change with the guess. */
typedef struct
{
  TrnInterval chain_m;
  double rope_m; /* the shorter one, without its legs */
  TrnHungBetween hung;
  double apart_m, far_m, cog_m;
  double cog_far_m[2]; /* of the CoG from main and tail point */
  double level_m;      /* from one to the other, at least */
  double off_rad;      /* from the drawn attitude without wind */
  double leans_rad;    /* likewise, about the line */
  double higher_m;     /* one hook out of level, or lower */
  TrnOutline outline;
} Between;

/* The line between what it hangs from, wherever the load may be turned to without wind. */
static void
turn_line (Between *b)
{
  const double off_rad = b->off_rad, height_m = b->hung.height_m,
               level_m = b->hung.way_m[0] + b->hung.way_m[1], farther_m = height_m * sin (off_rad);
  b->level_m = level_m;
  if (off_rad == 0)
    return;
  const double turned_m = level_m * cos (off_rad) - farther_m,
               rad = asin (fmin (1, height_m / b->apart_m)) + off_rad;
  b->level_m = turned_m > 0 ? turned_m : NAN;
  b->hung.height_m = b->hung.up_m > 0
                         ? fmin (height_m + b->apart_m * sin (off_rad), b->apart_m + b->hung.up_m)
                         : fmax (height_m, b->apart_m * sin (fmin (rad, G_PI / 2)));
  b->hung.plumb_m *= level_m / (level_m + farther_m);
  b->hung.tail = (TrnInterval){ 0, 1 };
}

/* Of the load by the wind. */
typedef struct
{
  double lean_rad, pitch_rad;
} Turned;

/* What the wind does across the line. */
typedef struct
{
  double aside_m, lean_rad;
} Across;

/* The greatest t (1 − t). */
static double
greatest_of_both (TrnInterval t)
{
  if (t.lo <= 0.5 && t.hi >= 0.5)
    return 0.25;
  const double near = t.hi < 0.5 ? t.hi : t.lo;
  return fmax (0, near * (1 - near));
}

static Across
across (const Between *b, double share, double couple_m)
{
  const TrnInterval chain = b->chain_m;
  const double height_m = b->hung.height_m, far_m = fmax (b->cog_far_m[0], b->cog_far_m[1]);
  const double taken = (share * far_m + couple_m) / b->level_m;
  const TrnInterval tail = trn_interval_add (b->hung.tail, (TrnInterval){ -taken, taken });
  const double below_m = SINE_SHARE * (b->hung.plumb_m - taken * height_m);
  if (!(taken >= 0) || !(below_m > 0))
    return (Across){ NAN, NAN };
  const double by_lean_m = MORE * height_m * greatest_of_both (tail) * (chain.hi / b->rope_m - 1);
  const double lean_rad = share + (couple_m + by_lean_m * share) / below_m;
  return (Across){ share * chain.hi + by_lean_m * lean_rad, lean_rad };
}

/* What @rise_m of one hook turns the load by; NAN: no bound. */
static double
pitch_of_rise (const Between *b, double rise_m)
{
  if (b->hung.up_m > 0)
    {
      const double level2 = b->level_m * b->level_m - (2 * b->hung.height_m + rise_m) * rise_m;
      return level2 > 0 ? rise_m / sqrt (level2) : NAN;
    }
  if (!(b->hung.height_m + rise_m < b->apart_m))
    return NAN;
  return asin ((b->hung.height_m + rise_m) / b->apart_m) - asin (b->hung.height_m / b->apart_m);
}

/* By one hook where the wind may take the weight off the other; 0 where it cannot; NAN: no bound.
 */
static double
pitch_of_slack (const Between *b, guint by, double off_m, double share, double couple_m)
{
  const double far_m = b->cog_far_m[by], near_m = far_m - 2 * (b->cog_m + b->hung.up_m);
  if (b->hung.way_m[by] - off_m > share * far_m + couple_m)
    return 0;
  if (!(b->hung.way_m[by] >= 0 && b->hung.above_m[by] > off_m && couple_m < near_m))
    return NAN;
  return atan (share) + asin (couple_m / near_m);
}

/* With the load turned by the guess at most; FALSE where there is no bound. @turned gets what it is
 * turned by. */
static gboolean
swing_between (const Case *c, const Between *b, const Turned *guess, Turned *turned,
               TrnWindAside *aside)
{
  const double guess_rad = guess->lean_rad + guess->pitch_rad;
  const double slack_m = b->cog_m + c->calm_m + c->tolerance_m + c->check->load->off_m
                         + trn_chord_m (b->far_m, guess_rad);
  const double slant_rad = guess_rad + b->off_rad + b->leans_rad;
  const double area = area_at (c, &b->outline, fmin (slant_rad, G_PI / 2));
  const double share = c->by_weight * area,
               couple_m = c->by_weight * couple (&c->shape, slack_m, area);
  const double pushed_m = share * b->chain_m.hi,
               along_m = pushed_m + trn_chord_m (b->apart_m + b->hung.up_m, guess->pitch_rad);
  const Across x = across (b, share, couple_m);
  const double most_rad = fmin (MOST_RAD, atan (b->hung.tangent)),
               calm_rad = trn_lift_check_leans (c->check, c->move, b->leans_rad);
  const double hook_m = hypot (x.aside_m + (b->hung.height_m + b->hung.up_m) * x.lean_rad, along_m),
               load_m = hypot (x.aside_m + (b->far_m + b->hung.up_m) * x.lean_rad, along_m);
  if (!(x.lean_rad + calm_rad <= most_rad) || !(hook_m <= MOST_RAD * b->rope_m))
    return FALSE;
  const double rise_m = hook_m * hook_m / (2 * sqrt (b->rope_m * b->rope_m - hook_m * hook_m));
  double pitch_rad = pitch_of_rise (b, rise_m);
  for (guint i = 0; i < 2; i++)
    {
      const double off_m = 2 * (c->calm_m + c->tolerance_m) + b->cog_far_m[i] * guess_rad;
      const double slack_rad = pitch_of_slack (b, i, off_m, share, couple_m);
      pitch_rad = isnan (slack_rad) ? NAN : fmax (pitch_rad, slack_rad);
    }
  *turned = (Turned){ x.lean_rad, pitch_rad };
  aside->hook_m = hook_m;
  aside->load_m = load_m + trn_chord_m (b->far_m + b->hung.up_m, pitch_rad);
  aside->turned_rad = x.lean_rad + pitch_rad;
  return !isnan (pitch_rad);
}

/* Of the longer and the shorter chain of rope and legs, and of the shorter rope, in @rope_m. */
static TrnInterval
both_chains (const TrnLiftCheck *check, guint move, TrnInterval span, double *rope_m,
             const char **missing)
{
  const TrnRigging *rigging = &check->run->lift->rigging;
  const TrnHoist *hoists[2] = { &rigging->main, &rigging->tail };
  TrnInterval both = { INFINITY, 0 };
  *rope_m = INFINITY;
  for (guint i = 0; i < 2; i++)
    {
      const TrnInterval rope = trn_on_rope_length (check, move, hoists[i], span, missing);
      if (*missing != NULL)
        return trn_interval_none ();
      const TrnInterval chain = trn_interval_add (rope, check->run->rig->hook_above_m[i]);
      both.lo = fmin (both.lo, chain.lo);
      both.hi = fmax (both.hi, chain.hi);
      *rope_m = fmin (*rope_m, rope.lo);
    }
  return both;
}

static Between
between_make (const Case *c)
{
  const TrnLift *lift = c->check->run->lift;
  const TrnVec3 tail = lift->rigging.tail.point;
  const double cog_m = trn_vec3_length (unit_of (c->check)->cog_box);
  return (Between){
    .apart_m = trn_vec3_distance (tail, lift->hook.place),
    .far_m = fmax (c->shape.far_m, trn_lift_check_extent (c->check, tail)),
    .cog_m = cog_m,
    .off_rad = trn_lift_check_leans (c->check, c->move, 0),
    .leans_rad = trn_load_lean_most_rad (c->check, c->move),
    .higher_m = trn_carried_make (c->check, c->move).level_up_m,
    .outline = outline_of (c),
  };
}

static void
set_hung (const Case *c, TrnInterval span, Between *b)
{
  const TrnLift *lift = c->check->run->lift;
  const TrnVec3 points[2] = { lift->hook.place, lift->rigging.tail.point };
  b->hung = trn_load_lean_between (c->check, c->move, span);
  for (guint i = 0; i < 2; i++)
    b->cog_far_m[i]
        = trn_vec3_distance (unit_of (c->check)->cog, points[i]) + b->cog_m + b->hung.up_m;
  turn_line (b);
}

/* Over the span that it is set to; FALSE where there is no bound. */
static gboolean
find_over_span (const Case *c, const Between *b, TrnWindAside *aside)
{
  Turned guess = { 0, 0 };
  for (guint i = 0; i < MOST_GUESSES_OF_TWO; i++)
    {
      Turned turned;
      if (!swing_between (c, b, &guess, &turned, aside))
        return FALSE;
      if (i > 0 && turned.lean_rad <= guess.lean_rad && turned.pitch_rad <= guess.pitch_rad)
        return TRUE;
      guess = (Turned){ GUESS * turned.lean_rad, GUESS * turned.pitch_rad };
    }
  return FALSE;
}

static void
find_by_two (const Case *c, TrnWindAside *aside)
{
  Between b = between_make (c);
  const guint n = trn_motion_tilts (&c->check->run->motions[c->move]) ? SPANS : 1;
  TrnWindAside worst = { .missing = NULL };
  if (isnan (b.leans_rad))
    {
      aside->missing = "lean";
      return;
    }
  for (guint i = 0; i < n; i++)
    {
      TrnWindAside found = { .missing = NULL };
      const TrnInterval span = { (double)i / n, (double)(i + 1) / n };
      const char *missing;
      b.chain_m = both_chains (c->check, c->move, span, &b.rope_m, &missing);
      b.chain_m.lo -= b.higher_m + c->tolerance_m;
      b.rope_m -= b.higher_m + c->tolerance_m;
      b.chain_m.hi += b.higher_m + c->tolerance_m;
      set_hung (c, span, &b);
      if (!(b.rope_m > 0))
        return;
      if (isnan (b.hung.plumb_m))
        aside->missing = "wind/upright";
      if (!find_over_span (c, &b, &found))
        return;
      worst.load_m = fmax (worst.load_m, found.load_m);
      worst.hook_m = fmax (worst.hook_m, found.hook_m);
      worst.turned_rad = fmax (worst.turned_rad, found.turned_rad);
    }
  *aside = worst;
}

/* ---- all of it ---- */

/* How much farther below the tip the hook may be than drawn: the tail hook as far as a point of the
 * load goes. */
static double
hook_off (const Case *c)
{
  return c->held == TRN_ON_ROPE_TAIL ? c->tolerance_m : c->check->run->slack.m;
}

TrnWindAside
trn_wind_aside_find (const TrnLiftCheck *check, guint move, double calm_m, double tolerance_m)
{
  const TrnRigging *rigging = &check->run->lift->rigging;
  const TrnWind *wind = &check->scene->programme->plan->wind;
  const TrnComponent *unit = unit_of (check);
  TrnWindAside aside = { .load_m = NAN, .hook_m = NAN, .turned_rad = NAN };
  Case c = { .check = check,
             .move = move,
             .held = trn_on_rope (check, move),
             .calm_m = calm_m,
             .tolerance_m = tolerance_m };
  g_assert (wind->given && c.held != TRN_ON_ROPE_NOT);
  aside.missing = isnan (unit->mass_kg) ? "mass" : isnan (unit->cog.x) ? "cog" : NULL;
  const TrnHoist *hoist = c.held == TRN_ON_ROPE_TAIL ? &rigging->tail : &rigging->main;
  const TrnInterval all = { 0, 1 };
  TrnInterval length = trn_interval_none ();
  double rope_m;
  if (aside.missing == NULL)
    length = c.held == TRN_ON_ROPE_BOTH
                 ? both_chains (check, move, all, &rope_m, &aside.missing)
                 : trn_on_rope_length (check, move, hoist, all, &aside.missing);
  if (aside.missing != NULL || isnan (calm_m))
    return aside;
  const TrnVec3 pivot
      = c.held == TRN_ON_ROPE_TAIL ? rigging->tail.point : check->run->lift->hook.place;
  c.by_weight = wind->drag * trn_wind_pressure_pa (wind->speed_m_s, wind->air_kg_m3)
                / (unit->mass_kg * TRN_GRAVITY_M_S2);
  c.shape = measure_shape (check, move, pivot);
  aside.missing = "wind/far";
  if (c.held == TRN_ON_ROPE_BOTH)
    find_by_two (&c, &aside);
  else
    find_by_one (&c, pivot, length.hi + hook_off (&c), &aside);
  return aside;
}
