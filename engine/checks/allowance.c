/* Lean and box of the centre of gravity: 2 r sin(angle/2) + length, as programme.h tells them, r
 * the greatest distance of a load point, or of a point that the rigging holds it by, from the
 * lift's hook point.
 *
 * Wind. A level force F = q c_w A, A no less than any area that the load shows at any heading,
 * against the weight W. The load hangs along the resultant of both, at φ from plumb, tan φ = F/W.
 * Rope, legs and load together are at rest under it as they are under the weight alone, turned
 * about the tip by φ, if the wind acts in the centre of gravity. It does not: with the couple M
 * that is left the resultant acts M/√(W² + F²) <= M/W beside the centre of gravity. So the load
 * hangs as one whose centre of gravity is anywhere in the box made wider by M/W, and then turned by
 * φ. M: the pressure is the same all over the area that is seen, which lies within w, no less than
 *   the width at any heading, and at most D above or below the centre of gravity. What makes the
 *   greatest couple is a part that fills the width from the far end on: a <= min (A, w D) of it,
 *   with the arm D − a/(2 w), and the couple grows with a.
 *   Rope: turned by φ about the tip its end goes F/W times its length at most.
 *   Load: about the hook, which is at most u from the lift's hook point: 2 (r + u) sin(φ/2).
 * The area depends on the attitude: it is that of the hull of the load at any slant up to the turn
 * that the bound says at the end, guessed at first. That is no circle: as the wind rises from 0 the
 * load can turn no farther than the guess before the bound is less than it.
 *
 * Of a lift as drawn the drawn attitude is taken for the one at rest; the hook point is h above its
 * centre of gravity, which is off by M/W: asin (M/(W h)).
 *
 * The wind on rope, hook block and rigging is not counted, nor is swinging, nor that the wind turns
 * the load about the plumb line: of that the heading tolerance is to tell.
 *
 * Hooks out of level. Two hooks that hold the load may turn it about its main point by δ
 * (hook-force.h). The tolerance of tilt τ is said of the load however it comes about, so that a δ
 * up to τ is within it; a greater one takes points of the load 2 r (sin (δ/2) − sin (τ/2)) farther.
 * From a right angle on there is no bound.
 *
 * Tolerances of tilt τ and heading η turn what is off already, by 2 sin(τ/2) and 2 sin(η/2) of it.
 */
#include "allowance.h"

#include <math.h>

#include "extreme.h"
#include "free-hang.h"
#include "gravity.h"
#include "hook-force.h"
#include "lift-check.h"
#include "shown.h"
#include "sway.h"
#include "wind.h"

#define ROUNDING_SHARE 1e-12
#define ROPE_WIDTH_M 0.01
/* The guess is by so much more than the bound by the guess before. */
#define GUESS 1.1
#define MOST_GUESSES 8

typedef struct
{
  double reach_m;  /* r */
  double radius_m; /* half of w */
  double up_m;     /* D */
  double widening; /* by tolerances of tilt and heading */
} Shape;

/* NAN for NAN. */
static double
chord (double radius_m, double angle_rad)
{
  return fabs (angle_rad) > G_PI ? 2 * radius_m : 2 * radius_m * sin (fabs (angle_rad) / 2);
}

/* Squared, of the points that a hoist holds the load by from the hook point: a lug may be no part
 * of the mesh. */
static double
reach2_of_hoist (const TrnLift *lift, const TrnHoist *hoist)
{
  const TrnVec3 hook = lift->hook.place;
  if (!lift->rigging.given || !hoist->given)
    return 0;
  double reach2 = trn_vec3_length_squared (trn_vec3_sub (hoist->point, hook));
  for (guint i = 0; i < 2 && hoist->has_beam; i++)
    reach2 = fmax (reach2, trn_vec3_length_squared (trn_vec3_sub (hoist->beam.between[i], hook)));
  for (guint i = 0; i < hoist->n_slings; i++)
    if (!hoist->slings[i].to_beam)
      reach2 = fmax (reach2, trn_vec3_length_squared (trn_vec3_sub (hoist->slings[i].to, hook)));
  return reach2;
}

static Shape
measure_shape (const TrnLiftCheck *check, const TrnComponent *unit, const TrnRotation *turn)
{
  const TrnLift *lift = check->run->lift;
  const TrnMesh *mesh = check->load->mesh;
  const TrnVec3 middle = trn_box_centre (&mesh->box);
  double reach2 = fmax (reach2_of_hoist (lift, &lift->rigging.main),
                        reach2_of_hoist (lift, &lift->rigging.tail)),
         radius2 = 0, up_m = 0;
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    {
      const TrnVec3 vertex = mesh->vertices[i];
      const TrnVec3 w = trn_rotation_apply (turn, trn_vec3_sub (vertex, middle));
      const TrnVec3 c = trn_rotation_apply (turn, trn_vec3_sub (vertex, unit->cog));
      const double from_hook2 = trn_vec3_length_squared (trn_vec3_sub (vertex, lift->hook.place));
      const double aside2 = w.x * w.x + w.y * w.y;
      reach2 = MAX (reach2, from_hook2);
      radius2 = MAX (radius2, aside2);
      up_m = MAX (up_m, fabs (c.z));
    }
  Shape shape
      = { .reach_m = sqrt (reach2), .radius_m = sqrt (radius2), .up_m = up_m, .widening = 1 };
  shape.widening += chord (1, lift->tolerance_tilt_rad) + chord (1, lift->tolerance_heading_rad);
  return shape;
}

/* Of the rope between tip and hook, the greatest of the move; NAN with what is missing. */
static double
rope_length (const TrnLiftCheck *check, guint move, const char **missing)
{
  const TrnHoist *hoist = &check->run->lift->rigging.main;
  const TrnRig *rig = check->run->rig;
  *missing = "gear";
  if (rig == NULL || !hoist->given || hoist->gear == G_MAXUINT)
    return NAN;
  const TrnRigQuestion question
      = { .rig = rig, .hoist = hoist, .quantity = TRN_RIG_TIP_ABOVE_HOOK, .move = move };
  *missing = trn_rig_missing (rig, hoist, question.quantity);
  if (*missing != NULL)
    return NAN;
  const TrnExtremes found
      = trn_extremes_find (trn_rig_ask, &question, (TrnInterval){ 0, 1 }, ROPE_WIDTH_M);
  *missing = found.complete ? NULL : "reach";
  return found.complete ? found.greatest.hi : NAN;
}

/* The couple about the centre of gravity for a pressure of 1. */
static double
couple (const Shape *shape, double slack_m, double area_m2)
{
  const double width = 2 * (shape->radius_m + slack_m), up_m = shape->up_m + slack_m;
  const double part = fmin (area_m2, width * up_m);
  return part * (up_m - part / (2 * width));
}

/* What the wind turns the load by, and how far that takes a point of it beyond where it is without
 * wind, but for the rope. NAN where there is no bound. */
static void
turn_by_wind (const TrnLiftCheck *check, guint move, const Shape *shape, double force_share,
              double couple_share_m, double calm_m, double *turned_rad, double *turned_m)
{
  const TrnLiftRun *run = check->run;
  const TrnPlan *plan = check->scene->programme->plan;
  const TrnVec3 hook = run->lift->hook.place;
  const double phi = atan (force_share);
  if (!run->lift->hangs_free)
    {
      const TrnComponent *unit = &plan->components[run->lift->component];
      const double above_m = trn_vec3_distance (hook, unit->cog) - trn_vec3_length (unit->cog_box);
      *turned_rad = couple_share_m < above_m ? phi + asin (couple_share_m / above_m) : NAN;
      *turned_m = chord (shape->reach_m, *turned_rad);
      return;
    }
  double rad, m;
  trn_free_hang_reach (plan, run, move, couple_share_m, &rad, &m);
  const double off_m = trn_vec3_distance (run->hangs[move].pivot, hook) + m;
  const double all_m = chord (shape->reach_m, rad) + m + chord (shape->reach_m + off_m, phi);
  *turned_rad = isnan (all_m) ? NAN : rad + phi;
  *turned_m = isnan (all_m) ? NAN : fmax (0, all_m - calm_m);
}

static void
add_wind (const TrnLiftCheck *check, guint move, const Shape *shape, TrnAllowance *allowance)
{
  const TrnPlan *plan = check->scene->programme->plan;
  const TrnLift *lift = check->run->lift;
  const TrnComponent *unit = &plan->components[lift->component];
  const TrnWind *wind = &plan->wind;
  allowance->wind_m = allowance->hook_wind_m = NAN;
  const char *missing = isnan (unit->mass_kg) ? "mass" : isnan (unit->cog.x) ? "cog" : NULL;
  const double rope_m = missing == NULL ? rope_length (check, move, &missing) : NAN;
  if (missing != NULL || isnan (allowance->cog_box_m))
    {
      allowance->missing = missing != NULL ? missing : allowance->missing;
      return;
    }
  const double *up = check->run->motions[move].start.turn.m[2];
  const TrnOutline outline
      = trn_shown_outline (check->shown, check->load->mesh, trn_vec3_make (up[0], up[1], up[2]));
  const double calm_m = allowance->lean_m + allowance->cog_box_m;
  const double by_weight = wind->drag * trn_wind_pressure_pa (wind->speed_m_s, wind->air_kg_m3)
                           / (unit->mass_kg * TRN_GRAVITY_M_S2);
  double guess_rad = 0;
  allowance->missing = "wind";
  for (guint i = 0; i < MOST_GUESSES; i++)
    {
      const double slant = guess_rad + lift->tolerance_tilt_rad;
      if (!(slant < G_PI / 2))
        return;
      const double area = trn_outline_slanted_m2 (&outline, slant);
      const double slack_m = calm_m + allowance->tolerance_m + chord (shape->reach_m, slant);
      const double share = by_weight * area;
      double turned_rad, turned_m;
      turn_by_wind (check, move, shape, share, by_weight * couple (shape, slack_m, area), calm_m,
                    &turned_rad, &turned_m);
      if (isnan (turned_rad))
        return;
      if (i > 0 && turned_rad <= guess_rad)
        {
          allowance->hook_wind_m = rope_m * share;
          allowance->wind_m = turned_m + allowance->hook_wind_m;
          allowance->missing = NULL;
          return;
        }
      guess_rad = GUESS * turned_rad;
    }
}

static double
out_of_level (const TrnLiftCheck *check, const Shape *shape, double turned_rad)
{
  const double tilt_rad = fabs (check->run->lift->tolerance_tilt_rad);
  if (!(turned_rad < G_PI / 2))
    return NAN;
  return fmax (0, chord (shape->reach_m, turned_rad) - chord (shape->reach_m, tilt_rad));
}

static double
outwards (double m)
{
  return m * (1 + ROUNDING_SHARE);
}

TrnAllowance
trn_lift_check_allowance (const TrnLiftCheck *check, guint move)
{
  TrnAllowance allowance = { .tolerance_m = trn_lift_check_tolerance (check, move) };
  const TrnPlan *plan = check->scene->programme->plan;
  const TrnLiftRun *run = check->run;
  const TrnMoveHang *hang = &run->hangs[move];
  const gboolean is_still
      = hang->off_rad == 0 && hang->off_m == 0 && hang->reach_rad == 0 && hang->reach_m == 0;
  const gboolean has_wind = plan->wind.given && hang->one_hook;
  const double level_rad = trn_carried_make (check, move).out_of_level_rad;
  if (is_still && !has_wind && isnan (level_rad))
    return allowance;
  const Shape shape = measure_shape (check, &plan->components[run->lift->component],
                                     &run->motions[move].start.turn);
  const double all_m = chord (shape.reach_m, hang->reach_rad) + hang->reach_m;
  allowance.lean_m = chord (shape.reach_m, hang->off_rad) + hang->off_m;
  allowance.cog_box_m = isnan (all_m) ? NAN : fmax (0, all_m - allowance.lean_m);
  allowance.missing = isnan (all_m) ? "cog_box" : NULL;
  if (!isnan (level_rad))
    allowance.level_m = out_of_level (check, &shape, level_rad);
  if (isnan (allowance.level_m))
    allowance.missing = "out-of-level";
  if (has_wind)
    add_wind (check, move, &shape, &allowance);
  allowance.lean_m = outwards (allowance.lean_m * shape.widening);
  allowance.cog_box_m = outwards (allowance.cog_box_m * shape.widening);
  allowance.level_m = outwards (allowance.level_m * shape.widening);
  allowance.wind_m = outwards (allowance.wind_m * shape.widening);
  allowance.hook_wind_m = outwards (allowance.hook_wind_m);
  return allowance;
}
