/* Shares: box-share.c.
 *
 * Points that are a apart, of which one is drawn g above the other, come to be h farther out of
 * level by the turn f = asin ((g + h)/a) − asin (g/a); back toward level takes less. The hooks are
 * h out of where they are drawn for that moment, in a tilt too: near upright a small h is a great
 * turn. What turns about places above its points, by up to P and Q, has a g of up to P or Q more,
 * with the same level way l: with a² = l² + g²,
 *   ∂f/∂g = (l² − g h)/(a² √(a² − (g + h)²)) − l/a²,
 * above 0 since (l² − g h)² − l² (l² − 2 g h − h²) = h² a², and
 *   ∂f/∂l = (g − (g + h) l/√(l² − 2 g h − h²))/a²,
 * below 0: the greatest g, with the l that is left for it, has the greatest turn. In a tilt l² + g²
 * of the points stays, and the greatest g of all moments counts.
 *
 * From g + h = a on the hook of the lower point can be lower than that point comes: its rope goes
 * slack and the load turns on until its centre of gravity is plumb below the upper point. Before
 * upright is left at most acos (1 − h/a), since g is more than a − h there, and beyond it the angle
 * that the CoG is seen at from the upper point beside the lower one, β at most over its box. The
 * other way, with that hook higher than drawn, the load is pulled back by asin (g/a) − asin ((g −
 * h)/a), at most acos (1 − h/a) as well. So together that and β are no less than either; of a tilt
 * that may go through both heads the greater β counts. With legs that let it turn about the hook,
 * or with β or all of it a right angle, no turn is too much.
 *
 * A tail trolley rolls to where the load has it. In a tilt in which the head stays plumb h out of
 * level is therefore what is drawn a little earlier or later, in the tilt or in the move beside it;
 * what is left counts as for points that are level, asin (h/a), a less what legs may let it turn
 * about above its points; nothing is left of a where that is as much. That is not so of cranes and
 * of a turning frame, nor of a tilt that a lift begins or ends with. In the move beside it the tail
 * may be let go: then the load hangs from the main hook alone there. Out of level it is between
 * what is drawn in both, and what it leans by away from the one is judged, or counted, of the other
 * (attitude.c, allowance.c). A load that is set down there is turned by what its hook is off.
 *
 * So turned one point goes g sin δ + l (1 − cos δ) aside, seen from the other, at most: ropes below
 * tips that stay share that, and each may have to give way by all of it.
 *
 * Rigging. What the plan lists is what hangs there; a crane or a gantry without a block or without
 * slings is not taken to have none.
 *
 * Dynamic factor D by the static hook load H (hook-load.h): it falls in steps as the load grows, so
 * that more load may ask for less. A mass is raised by its factor because it may be more than is
 * stated; it may as well be just that. So at a moment the hook carries anything from the least of
 * what it may of the stated mass, L, to the greatest of the raised one, U, and what counts is the
 * greatest D(H) H of these: within a row it grows with H, so that it is at U or at the end E of a
 * row with L <= E < U, which has the factor of the row that it ends. What hangs below a part of the
 * rigging that is c heavy has D(H) (H − c), which grows within a row as well. Over a span of time,
 * in which L >= L₁ and U <= U₂, it is at most the greatest at U₂ or at an E with L₁ <= E < U₂; with
 * L <= L₂ and U₁ <= U at least D(U₂) (U₁ − c), and no less than at any E with L₂ <= E < U₁. A hook
 * that carries less than the table begins with at some moment of a move in which it carries more
 * has the factor of the first row then; a hook that never carries so much of the stated mass has
 * none. */
#include "hook-force.h"

#include "attitude.h"
#include "gear-tolerance.h"
#include "gravity.h"
#include "hoist.h"
#include "load-lean.h"
#include "share-jet.h"
#include "tolerances.h"

/* Where the table of trn_dynamic_factor_onshore begins. */
#define LEAST_OF_TABLE_KG 3e3
/* More than what two roundings make of a number. */
#define ROUNDED_SHARE 1e-15

static gboolean
holds (const TrnHoist *hoist, guint move)
{
  return hoist->first_move <= move && move <= hoist->last_move;
}

/* ---- what it turns about ---- */

/* At most, of the hook above the point. */
static double
hook_above (const TrnHoist *hoist)
{
  double above_m = INFINITY;
  if (isfinite (hoist->hook_above_m))
    return hoist->hook_above_m;
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      const TrnSling *sling = &hoist->slings[i];
      if (sling->from == TRN_SLING_FROM_HOOK && !sling->to_beam && isfinite (sling->length_m))
        above_m = fmin (above_m, sling->length_m + trn_vec3_distance (sling->to, hoist->point));
    }
  return isfinite (above_m) ? above_m : NAN;
}

/* Legs that go down square to the plane of both lines take no part, but for what is rounded and,
 * @loose of their way, for what a tilt that is not square to it brings into the plane. */
static TrnSharePivot
pivot_of (const TrnHoist *hoist, TrnVec3 point, const TrnRotation *turn, TrnVec3 across,
          double loose)
{
  TrnSharePivot pivot = { .above_m = 0 };
  for (guint i = 0; hoist->given && i < hoist->n_slings; i++)
    {
      const TrnSling *sling = &hoist->slings[i];
      if (sling->to_beam)
        continue;
      TrnVec3 way = trn_rotation_apply (turn, trn_vec3_sub (sling->to, point));
      double side_m = trn_vec3_dot (way, across);
      way = trn_vec3_sub (way, trn_vec3_scale (across, side_m));
      pivot.spread_m = fmax (pivot.spread_m, hypot (way.x, way.y) + loose * fabs (side_m));
      pivot.spread_up_m = fmax (pivot.spread_up_m, way.z + loose * fabs (side_m));
      pivot.spread_down_m = fmax (pivot.spread_down_m, -way.z + loose * fabs (side_m));
    }
  if (fmax (pivot.spread_m, fmax (pivot.spread_up_m, pivot.spread_down_m)) <= TRN_SAME_PLACE_M)
    return (TrnSharePivot){ .above_m = 0 };
  pivot.above_m = hook_above (hoist);
  return pivot;
}

/* In a tilt ways in the plane change places. Where its axis is ε off square to the plane, what is
 * square to the plane turns by at most 2 ε, and the plane by as much. */
static void
find_pivots (const TrnLiftCheck *check, guint move, TrnSharePivot pivots[2])
{
  const TrnLift *lift = check->run->lift;
  const TrnMotion *motion = &check->run->motions[move];
  const TrnHoist *hoists[2] = { &lift->rigging.main, &lift->rigging.tail };
  const TrnVec3 points[2] = { lift->hook.place, lift->rigging.tail.point };
  const TrnVec3 d = trn_rotation_apply (&motion->start.turn, trn_vec3_sub (points[1], points[0]));
  const double level_m = hypot (d.x, d.y);
  TrnVec3 across = { 0, 0, 0 };
  if (level_m > TRN_SAME_PLACE_M)
    across = trn_vec3_make (-d.y / level_m, d.x / level_m, 0);
  double loose
      = trn_motion_tilts (motion) ? 4 * trn_square_share (trn_vec3_dot (motion->axis, across)) : 0;
  for (int i = 0; i < 2; i++)
    {
      pivots[i] = pivot_of (hoists[i], points[i], &motion->start.turn, across, loose);
      if (trn_motion_tilts (motion))
        pivots[i].spread_m = pivots[i].spread_up_m = pivots[i].spread_down_m
            = hypot (pivots[i].spread_m, fmax (pivots[i].spread_up_m, pivots[i].spread_down_m));
    }
}

/* What the CoG is seen at from one point beside the other, at most. */
static double
greatest_beside (const TrnCarried *carried)
{
  const TrnLift *lift = carried->check->run->lift;
  const TrnVec3 points[2] = { lift->hook.place, lift->rigging.tail.point };
  double greatest_rad = 0;
  for (guint i = 0; i < 2; i++)
    for (guint corner = 0; corner < 8; corner++)
      {
        const TrnVec3 line = trn_vec3_sub (points[1 - i], points[i]),
                      way = trn_vec3_sub (carried->cog[corner], points[i]);
        const double rad
            = atan2 (trn_vec3_length (trn_vec3_cross (line, way)), trn_vec3_dot (line, way));
        greatest_rad = fmax (greatest_rad, rad);
      }
  return greatest_rad;
}

/* Until one rope is slack and the load hangs from the other. */
static double
turn_to_slack (const TrnCarried *carried, double apart_m, double height_m)
{
  const double beside_rad = carried->has_cog ? greatest_beside (carried) : G_PI / 2;
  if (!(height_m < apart_m) || !(beside_rad < G_PI / 2))
    return G_PI / 2;
  return fmin (G_PI / 2, acos (1 - height_m / apart_m) + beside_rad);
}

/* Of hooks @height_m out of where they are drawn, one pivot @drawn_m above the other and @level_m
 * beside it. */
static double
turn_of_height (const TrnCarried *carried, double drawn_m, double level_m, double height_m)
{
  const double apart_m = hypot (level_m, drawn_m);
  if (drawn_m + height_m < apart_m)
    return asin ((drawn_m + height_m) / apart_m) - asin (drawn_m / apart_m);
  return carried->pivot_above_m == 0 ? turn_to_slack (carried, apart_m, height_m) : G_PI / 2;
}

/* In a move beside the tilt. */
static gboolean
goes_on (const TrnLiftCheck *check, guint move)
{
  const TrnLift *lift = check->run->lift;
  return holds (&lift->rigging.tail, move)
         || (check->run->hangs[move].one_hook && trn_attitude_hangs (lift, move));
}

/* Whether a trolley rolls along below the tail while the main hook stays plumb. */
static gboolean
is_followed (const TrnLiftCheck *check, guint move)
{
  const TrnLift *lift = check->run->lift;
  const TrnGear *gear = trn_hoist_gear (check, &lift->rigging.tail);
  return gear != NULL && gear->kind == TRN_GEAR_TAIL_TROLLEY && lift->moves[move].head_plumb
         && move > 0 && move + 1 < lift->n_moves && goes_on (check, move - 1)
         && goes_on (check, move + 1);
}

/* Of one point, or what turns about above it, beside the other, where they are farthest apart in
 * height. */
typedef struct
{
  double points_m; /* of the points alone, in a straight line */
  double drawn_m, level_m;
} Apart;

static Apart
apart_in (const TrnCarried *carried, const TrnSharePivot pivots[2])
{
  const TrnLift *lift = carried->check->run->lift;
  const TrnMotion *motion = &carried->check->run->motions[carried->move];
  const TrnVec3 between = trn_rotation_apply (
      &motion->start.turn, trn_vec3_sub (lift->rigging.tail.point, lift->hook.place));
  const double points_m = trn_vec3_length (between),
               greatest_m = fmin (points_m, trn_greatest_height (motion, between));
  Apart apart = { .points_m = points_m,
                  .drawn_m = greatest_m + carried->pivot_above_m,
                  .level_m = sqrt (points_m * points_m - greatest_m * greatest_m) };
  if (!trn_motion_tilts (motion))
    apart.drawn_m
        = fmax (fabs (between.z - pivots[0].above_m), fabs (between.z + pivots[1].above_m));
  return apart;
}

static void
set_level_ways (TrnCarried *carried, const Apart *apart)
{
  const TrnOutOfLevel *level = &carried->check->scene->programme->plan->loads.out_of_level;
  const double turned_rad = carried->out_of_level_rad, tilt_rad = level->tilt_rad;
  const gboolean tilts = trn_motion_tilts (&carried->check->run->motions[carried->move]);
  const gboolean is_slack
      = !(apart->drawn_m + level->height_m < hypot (apart->drawn_m, apart->level_m));
  const double most_m = tilts ? apart->points_m : apart->level_m;
  carried->level_aside_m = apart->drawn_m * sin (turned_rad) + most_m * (1 - cos (turned_rad));
  carried->level_up_m
      = fmax (level->height_m, apart->points_m * (sin (tilt_rad) + 1 - cos (tilt_rad)));
  /* Slack, it may come up on the other side. */
  if (is_slack)
    carried->level_up_m = trn_chord_m (apart->points_m, turned_rad);
}

static void
set_out_of_level (TrnCarried *carried, const TrnSharePivot pivots[2])
{
  const TrnOutOfLevel *level = &carried->check->scene->programme->plan->loads.out_of_level;
  if (!level->given)
    return;
  carried->out_of_level_rad = G_PI / 2;
  carried->level_aside_m = carried->level_up_m = NAN;
  if (carried->is_height_missing)
    return;
  const Apart apart = apart_in (carried, pivots);
  const double nearest_m = fmax (0, apart.points_m - carried->pivot_above_m);
  const double turned_rad
      = is_followed (carried->check, carried->move)
            ? turn_of_height (carried, 0, nearest_m, level->height_m)
            : turn_of_height (carried, apart.drawn_m, apart.level_m, level->height_m);
  carried->out_of_level_rad = fmax (level->tilt_rad, turned_rad);
  if (carried->out_of_level_rad < G_PI / 2)
    set_level_ways (carried, &apart);
}

/* ---- shares ---- */

gboolean
trn_carried_is_pinned (const TrnCarried *carried)
{
  const TrnHoist *tail = &carried->check->run->lift->rigging.tail;
  const TrnGear *gear = carried->tail_holds ? trn_hoist_gear (carried->check, tail) : NULL;
  return gear != NULL && gear->kind == TRN_GEAR_TURNING_FRAME;
}

static void
make_share (TrnCarried *carried, const TrnComponent *component)
{
  const TrnLiftCheck *check = carried->check;
  const TrnLift *lift = check->run->lift;
  TrnSharePivot pivots[2];
  find_pivots (check, carried->move, pivots);
  carried->is_height_missing = isnan (pivots[0].above_m + pivots[1].above_m);
  carried->pivot_above_m
      = carried->is_height_missing ? NAN : fmax (pivots[0].above_m, pivots[1].above_m);
  set_out_of_level (carried, pivots);
  carried->share = trn_box_share_make (&check->run->motions[carried->move], lift->hook.place,
                                       lift->rigging.tail.point, component->cog, component->cog_box,
                                       carried->out_of_level_rad, pivots);
  if (trn_carried_is_pinned (carried))
    carried->share.least = -INFINITY;
}

TrnCarried
trn_carried_make (const TrnLiftCheck *check, guint move)
{
  const TrnLift *lift = check->run->lift;
  const TrnRigging *rigging = &lift->rigging;
  const TrnComponent *component = &check->scene->programme->plan->components[lift->component];
  gboolean main_given = rigging->given && rigging->main.given;
  TrnCarried carried
      = { .check = check,
          .move = move,
          .main_holds = !main_given || holds (&rigging->main, move),
          .tail_holds = rigging->given && rigging->tail.given && holds (&rigging->tail, move),
          .mass_kg = component->mass_kg * component->mass_factor,
          .stated_kg = component->mass_kg,
          .has_cog = isfinite (component->cog.x),
          .out_of_level_rad = NAN };
  TrnVec3 half = component->cog_box; /* either way */
  for (guint i = 0; i < 8; i++)
    carried.cog[i] = trn_vec3_add (component->cog, trn_vec3_make (i & 1 ? half.x : -half.x,
                                                                  i & 2 ? half.y : -half.y,
                                                                  i & 4 ? half.z : -half.z));
  if (carried.main_holds && carried.tail_holds)
    make_share (&carried, component);
  return carried;
}

TrnJet
trn_carried_tail_jet (const TrnCarried *carried, guint corner, const TrnShareForm *form,
                      TrnInterval s)
{
  const TrnLift *lift = carried->check->run->lift;
  const TrnMotion *motion = &carried->check->run->motions[carried->move];
  TrnVec3 points[3] = { lift->hook.place, lift->rigging.tail.point, carried->cog[corner] };
  TrnJet3 places[3];
  trn_motion_points_jet (motion, 3, points, s, places);
  if (form == NULL)
    return trn_share_tail_jet (&places[0], &places[1], &places[2]);
  return trn_share_tail_turned_jet (&places[0], &places[1], &places[2], form->tangent,
                                    form->aside_m);
}

/* What part of the load the hook carries, over all of the box, as the load leans, and with hooks
 * out of level where the plan says by how much: what would have to push carries nothing, and where
 * one point may be plumb over the other each may carry all; beside a tail that is pinned the main
 * hook may carry more than all. Every check of forces asks for the same spans: each is worked out
 * once. FALSE where it depends on a CoG that is left out, or has no bound. */
static gboolean
share_of (const TrnHookForce *force, TrnInterval s, TrnInterval *share)
{
  const TrnCarried *carried = &force->carried;
  const double more = force->leans_share;
  *share = trn_interval_point (1);
  if (!carried->main_holds || !carried->tail_holds)
    return TRUE;
  if (!carried->has_cog)
    return FALSE;
  const TrnInterval drawn = trn_box_share_tail (
      &carried->share, s, carried->check->memos[carried->move], TRN_MEMO_TAIL_SHARE);
  const TrnInterval tail = trn_interval_clip (
      trn_interval_add (drawn, (TrnInterval){ -more, more }), carried->share.least, 1);
  *share = force->is_tail ? (TrnInterval){ CLAMP (tail.lo, 0, 1), CLAMP (tail.hi, 0, 1) }
                          : trn_interval_sub (trn_interval_point (1), tail);
  return isfinite (share->lo) && isfinite (share->hi);
}

/* ---- rigging ---- */

static gboolean
is_rope_gear (const TrnGear *gear)
{
  return gear == NULL || gear->kind == TRN_GEAR_CRANE || gear->kind == TRN_GEAR_GANTRY;
}

static const char *
slings_missing (const TrnHoist *hoist)
{
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      const TrnShackle *shackle = &hoist->slings[i].shackle;
      if (isnan (hoist->slings[i].mass_kg))
        return "slings/mass";
      if (isnan (shackle->mass_kg) && (shackle->id != NULL || isfinite (shackle->wll_kg)))
        return "shackle/mass";
    }
  return NULL;
}

const char *
trn_hook_rigging (const TrnLiftCheck *check, const TrnHoist *hoist, TrnHookLoad *rigging)
{
  const gboolean on_rope = is_rope_gear (trn_hoist_gear (check, hoist));
  if (on_rope && (!hoist->has_block || isnan (hoist->block_mass_kg)))
    return "block/mass";
  if (on_rope && hoist->n_slings == 0)
    return "slings";
  if (hoist->has_beam && isnan (hoist->beam.mass_kg))
    return "beam/mass";
  const char *missing = slings_missing (hoist);
  if (missing != NULL)
    return missing;
  rigging->block_kg
      = hoist->has_block && isfinite (hoist->block_mass_kg) ? hoist->block_mass_kg : 0;
  rigging->beam_kg = hoist->has_beam ? hoist->beam.mass_kg : 0;
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      double shackle_kg = hoist->slings[i].shackle.mass_kg;
      rigging->slings_kg += hoist->slings[i].mass_kg;
      rigging->shackles_kg += isnan (shackle_kg) ? 0 : shackle_kg;
    }
  return NULL;
}

/* ---- the dynamic factor ---- */

static const TrnDynamicRule *
rule_of (const TrnHookForce *force)
{
  return &force->carried.check->scene->programme->plan->loads.dynamic;
}

static double
rigging_of (const TrnHookForce *force)
{
  TrnHookLoad rigging = force->rigging;
  rigging.load_kg = 0;
  return trn_hook_load_static_kg (&rigging);
}

/* At the moment of the greatest, of the mass that is stated. */
static double
greatest_stated_kg (const TrnHookForce *force)
{
  const double rigging_kg = rigging_of (force);
  return (force->greatest.met - rigging_kg) * force->carried.stated_kg / force->carried.mass_kg
         + rigging_kg;
}

static const char *
dynamic_missing (const TrnHookForce *force)
{
  switch (rule_of (force)->kind)
    {
    case TRN_DYNAMIC_FACTOR:
      return NULL;
    case TRN_DYNAMIC_0027_ND_ONSHORE:
      return greatest_stated_kg (force) >= LEAST_OF_TABLE_KG * (1 - ROUNDED_SHARE)
                 ? NULL
                 : "loads/dynamic/factor";
    case TRN_DYNAMIC_NONE:
      return "loads/dynamic";
    }
  g_assert_not_reached ();
}

const char *
trn_hook_force_dynamic_source (const TrnHookForce *force)
{
  const TrnDynamicRule *rule = rule_of (force);
  return rule->kind == TRN_DYNAMIC_0027_ND_ONSHORE ? TRN_DYNAMIC_FACTOR_SOURCE : rule->source;
}

/* ---- all of it ---- */

/* The hook's part of the load and of the rigging @rigging_kg. */
static TrnInterval
sum_of (TrnInterval share, double mass_kg, double rigging_kg)
{
  return trn_interval_add (trn_interval_scale (share, mass_kg), trn_interval_point (rigging_kg));
}

gboolean
trn_hook_force_static (const TrnHookForce *force, TrnInterval s, TrnInterval *kg)
{
  TrnInterval share;
  if (force->missing != NULL || !share_of (force, s, &share))
    return FALSE;
  *kg = sum_of (share, force->carried.mass_kg, rigging_of (force));
  return TRUE;
}

/* The least and the greatest that it may carry at rest: L and U. */
typedef struct
{
  TrnInterval least_kg, most_kg;
} AtRest;

static gboolean
at_rest (const TrnHookForce *force, TrnInterval s, AtRest *rest, TrnInterval *share)
{
  const TrnCarried *carried = &force->carried;
  const double rigging_kg = rigging_of (force);
  if (force->missing_dynamic != NULL || force->missing != NULL || !share_of (force, s, share))
    return FALSE;
  *rest = (AtRest){ sum_of (*share, carried->stated_kg, rigging_kg),
                    sum_of (*share, carried->mass_kg, rigging_kg) };
  return TRUE;
}

static double
factor_at (const TrnHookForce *force, double kg)
{
  const TrnDynamicRule *rule = rule_of (force);
  if (rule->kind != TRN_DYNAMIC_0027_ND_ONSHORE)
    return rule->factor;
  return trn_dynamic_factor_onshore (fmax (kg, LEAST_OF_TABLE_KG));
}

gboolean
trn_hook_force_factor (const TrnHookForce *force, TrnInterval s, TrnInterval *factor)
{
  AtRest rest;
  TrnInterval share;
  if (!at_rest (force, s, &rest, &share))
    return FALSE;
  *factor
      = (TrnInterval){ factor_at (force, rest.most_kg.hi), factor_at (force, rest.least_kg.lo) };
  return TRUE;
}

/* Of the end of a row, rounded to within a share of it. */
static double
row_end (const TrnHookForce *force, double from_kg, double to_kg, double off_kg, double rounded)
{
  double at_kg = 0;
  if (rule_of (force)->kind != TRN_DYNAMIC_0027_ND_ONSHORE)
    return -INFINITY;
  const double kg = trn_dynamic_row_end_onshore (from_kg, to_kg, off_kg, &at_kg);
  return kg + rounded * (at_kg + fabs (off_kg));
}

/* What hangs below a part of the rigging, with @rigging_kg of it, kg. */
static gboolean
dynamic_below (const TrnHookForce *force, TrnInterval s, double rigging_kg, TrnInterval *kg)
{
  AtRest rest;
  TrnInterval share;
  if (!at_rest (force, s, &rest, &share))
    return FALSE;
  const double off_kg = rigging_of (force) - rigging_kg;
  TrnInterval factor = trn_interval_point (factor_at (force, rest.most_kg.hi));
  *kg = trn_interval_mul (sum_of (share, force->carried.mass_kg, rigging_kg), factor);
  if (!trn_interval_is_value (*kg))
    return FALSE;
  kg->hi = fmax (kg->hi, row_end (force, rest.least_kg.lo, rest.most_kg.hi, off_kg, ROUNDED_SHARE));
  kg->lo
      = fmax (kg->lo, row_end (force, rest.least_kg.hi, rest.most_kg.lo, off_kg, -ROUNDED_SHARE));
  return TRUE;
}

gboolean
trn_hook_force_dynamic (const TrnHookForce *force, TrnInterval s, TrnInterval *kg)
{
  return dynamic_below (force, s, rigging_of (force), kg);
}

gboolean
trn_hook_force_below_n (const TrnHookForce *force, TrnInterval s, double rigging_kg,
                        TrnInterval *newton)
{
  TrnInterval kg;
  if (!dynamic_below (force, s, rigging_kg, &kg))
    return FALSE;
  *newton = trn_interval_scale (kg, TRN_GRAVITY_M_S2);
  return TRUE;
}

static gboolean
dynamic_enclosure (gconstpointer data, TrnInterval s, TrnInterval *kg)
{
  return trn_hook_force_dynamic (data, s, kg);
}

double
trn_hook_force_governing_kg (const TrnHookForce *force)
{
  AtRest rest;
  TrnInterval share;
  const TrnWorst worst
      = trn_worst_find (dynamic_enclosure, force, (TrnInterval){ 0, 1 }, TRN_FORCE_SHARE);
  if (!worst.complete || !at_rest (force, trn_interval_point (worst.met_s), &rest, &share))
    return NAN;
  const double most_kg = rest.most_kg.hi;
  double at_kg = most_kg;
  if (rule_of (force)->kind == TRN_DYNAMIC_0027_ND_ONSHORE
      && !(trn_dynamic_row_end_onshore (rest.least_kg.lo, most_kg, 0, &at_kg)
           > factor_at (force, most_kg) * most_kg))
    at_kg = most_kg;
  return at_kg;
}

double
trn_hook_force_factor_at (const TrnHookForce *force, double kg)
{
  return factor_at (force, kg);
}

static gboolean
static_enclosure (gconstpointer data, TrnInterval s, TrnInterval *kg)
{
  return trn_hook_force_static (data, s, kg);
}

TrnHookForce
trn_hook_force_make (const TrnLiftCheck *check, const TrnHoist *hoist, guint move)
{
  const TrnLift *lift = check->run->lift;
  TrnHookForce force = { .carried = trn_carried_make (check, move),
                         .hoist = hoist,
                         .is_tail = hoist != NULL && hoist == &lift->rigging.tail,
                         .leans_rad = trn_load_lean_most_rad (check, move),
                         .rigging = { .factor = 1, .dynamic = 1 } };
  force.leans_share = trn_load_lean_shares (check, move);
  if (isnan (force.leans_share)) /* the lean is not known, and said so (load-lean.c) */
    force.leans_share = 0;
  force.missing = hoist == NULL ? "rigging/main" : trn_hook_rigging (check, hoist, &force.rigging);
  const TrnCarried *carried = &force.carried;
  if (isnan (carried->mass_kg))
    force.missing = "mass";
  else if (carried->main_holds && carried->tail_holds && !carried->has_cog)
    force.missing = "cog";
  if (force.missing == NULL)
    {
      force.greatest
          = trn_worst_find (static_enclosure, &force, (TrnInterval){ 0, 1 }, TRN_FORCE_SHARE);
      if (!force.greatest.complete && isfinite (force.greatest.missing_s)
          && trn_carried_is_pinned (carried))
        force.missing = "in-line";
    }
  force.missing_dynamic = force.missing != NULL ? force.missing : dynamic_missing (&force);
  return force;
}

guint
trn_hoists_holding (const TrnLiftCheck *check, guint move, const TrnHoist *hoists[2])
{
  const TrnRigging *rigging = &check->run->lift->rigging;
  TrnCarried carried = trn_carried_make (check, move);
  guint n = 0;
  if (carried.main_holds)
    hoists[n++] = rigging->given && rigging->main.given ? &rigging->main : NULL;
  if (carried.tail_holds)
    hoists[n++] = &rigging->tail;
  return n;
}

const char *
trn_hoist_body (const TrnLiftCheck *check, const TrnHoist *hoist)
{
  const TrnGear *gear = hoist != NULL ? trn_hoist_gear (check, hoist) : NULL;
  return gear != NULL ? gear->id : "load";
}
