/* Shares. For a CoG fixed in the load the tail's share is a quotient of what jets enclose
 * (share-jet.h). At one moment it is affine in the CoG, so its least and greatest over the box are
 * at corners. So is the share after a turn, and over turns either way its extremes are at the ends
 * (share-jet.c), which covers the drawn attitude between them. Points that are a apart, of which
 * one is drawn g above the other, come to be h farther out of level by the turn asin ((g + h)/a) −
 * asin (g/a); back toward level takes less. From g + h = a on no turn is too much. In a tilt g goes
 * through all of the way, so that h more of it is a little later in the move, or in the one beside
 * it: there it counts as for points that are level, asin (h/a).
 *
 * Rigging. What the plan lists is what hangs there; a crane or a gantry without a block or without
 * slings is not taken to have none.
 *
 * Dynamic factor by the static hook load (hook-load.h): it falls in steps as the load grows, so
 * over loads from lo to hi the greatest product is at most hi times the factor at lo. A hook that
 * carries less than the table begins with at some moment of a move in which it carries more has the
 * factor of the first row then; a hook that never carries so much has none. */
#include "hook-force.h"

#include <string.h>

#include "gravity.h"
#include "hoist.h"
#include "motion-jet.h"
#include "share-jet.h"

/* Where the table of trn_dynamic_factor_onshore begins. */
#define LEAST_OF_TABLE_KG 3e3
#define ROUNDING_SHARE 1e-12 /* some dozen roundings of a double */

static gboolean
holds (const TrnHoist *hoist, guint move)
{
  return hoist->first_move <= move && move <= hoist->last_move;
}

static double
out_of_level (const TrnLiftCheck *check, guint move)
{
  const TrnOutOfLevel *level = &check->scene->programme->plan->loads.out_of_level;
  const TrnLift *lift = check->run->lift;
  const TrnMotion *motion = &check->run->motions[move];
  if (!level->given)
    return NAN;
  const gboolean tilts = motion->angle_rad != 0 && (motion->axis.x != 0 || motion->axis.y != 0);
  const TrnVec3 between = trn_vec3_sub (lift->rigging.tail.point, lift->hook.place);
  const double apart_m = trn_vec3_length (between);
  const double drawn_m = tilts ? 0 : fabs (trn_rotation_apply (&motion->start.turn, between).z);
  if (!(drawn_m + level->height_m < apart_m))
    return G_PI / 2;
  return fmax (level->tilt_rad,
               asin ((drawn_m + level->height_m) / apart_m) - asin (drawn_m / apart_m));
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
          .has_cog = isfinite (component->cog.x),
          .out_of_level_rad = NAN };
  if (carried.main_holds && carried.tail_holds)
    carried.out_of_level_rad = out_of_level (check, move);
  TrnVec3 half = component->cog_box; /* either way */
  for (guint i = 0; i < 8; i++)
    carried.cog[i] = trn_vec3_add (component->cog, trn_vec3_make (i & 1 ? half.x : -half.x,
                                                                  i & 2 ? half.y : -half.y,
                                                                  i & 4 ? half.z : -half.z));
  return carried;
}

/* Of what hooks out of level turn the load by; at a right angle it has none. */
static TrnInterval
tangent (const TrnCarried *carried, int way)
{
  if (!(carried->out_of_level_rad < G_PI / 2))
    return trn_interval_none ();
  double most = tan (carried->out_of_level_rad);
  TrnInterval within = { most * (1 - ROUNDING_SHARE), most * (1 + ROUNDING_SHARE) };
  return way > 0 ? within : trn_interval_neg (within);
}

TrnJet
trn_carried_tail_jet (const TrnCarried *carried, guint corner, int way, TrnInterval s)
{
  const TrnLift *lift = carried->check->run->lift;
  const TrnMotion *motion = &carried->check->run->motions[carried->move];
  TrnVec3 points[3] = { lift->hook.place, lift->rigging.tail.point, carried->cog[corner] };
  TrnJet3 places[3];
  trn_motion_points_jet (motion, 3, points, s, places);
  if (way == 0)
    return trn_share_tail_jet (&places[0], &places[1], &places[2]);
  return trn_share_tail_turned_jet (&places[0], &places[1], &places[2], tangent (carried, way));
}

/* Encloses a jet over @s by its value there, and by that in the middle and its derivative (mean
 * value form). */
static TrnInterval
tight (const TrnJet *over, const TrnJet *at_middle, TrnInterval s)
{
  if (!trn_jet_is_value (over) || !trn_interval_is_value (over->d) || s.lo == s.hi)
    return over->v;
  TrnInterval middle = trn_interval_point (trn_interval_middle (s));
  TrnInterval by = trn_interval_mul (over->d, trn_interval_sub (s, middle));
  TrnInterval mean = trn_interval_add (at_middle->v, by);
  return trn_interval_is_value (mean) ? trn_interval_clip (over->v, mean.lo, mean.hi) : over->v;
}

#define N_SHARES 16

/* The tail's share for the CoG at each corner: as drawn, or both ways out of level, which the drawn
 * one is between. Returns their number. */
static guint
corner_jets (const TrnCarried *carried, TrnInterval s, TrnJet shares[N_SHARES])
{
  const TrnLift *lift = carried->check->run->lift;
  TrnVec3 points[10] = { lift->hook.place, lift->rigging.tail.point };
  TrnJet3 places[10];
  memcpy (points + 2, carried->cog, sizeof carried->cog);
  trn_motion_points_jet (&carried->check->run->motions[carried->move], 10, points, s, places);
  if (isnan (carried->out_of_level_rad))
    {
      TrnShareArm arm = trn_share_arm_make (&places[0], &places[1]);
      for (guint i = 0; i < 8; i++)
        shares[i] = trn_share_arm_tail_jet (&arm, &places[2 + i]);
      return 8;
    }
  for (guint i = 0; i < N_SHARES; i++)
    shares[i] = trn_share_tail_turned_jet (&places[0], &places[1], &places[2 + i % 8],
                                           tangent (carried, i < 8 ? -1 : 1));
  return N_SHARES;
}

/* Over all of the box, within 0 and 1. */
static TrnInterval
tail_share (const TrnCarried *carried, TrnInterval s)
{
  TrnInterval tail = { INFINITY, -INFINITY };
  TrnJet over[N_SHARES], at_middle[N_SHARES];
  guint n = corner_jets (carried, s, over);
  if (s.lo < s.hi)
    corner_jets (carried, trn_interval_point (trn_interval_middle (s)), at_middle);
  for (guint i = 0; i < n; i++)
    {
      TrnInterval of_corner = tight (&over[i], &at_middle[i], s);
      if (!trn_interval_is_value (of_corner))
        of_corner = (TrnInterval){ 0, 1 };
      tail.lo = fmin (tail.lo, of_corner.lo);
      tail.hi = fmax (tail.hi, of_corner.hi);
    }
  return (TrnInterval){ CLAMP (tail.lo, 0, 1), CLAMP (tail.hi, 0, 1) };
}

/* Every check of forces asks for the same spans: each is worked out once. */
gboolean
trn_carried_share (const TrnCarried *carried, gboolean is_tail, TrnInterval s, TrnInterval *share)
{
  *share = trn_interval_point (1);
  if (!carried->main_holds || !carried->tail_holds)
    return TRUE;
  if (!carried->has_cog)
    return FALSE;
  TrnInterval tail;
  TrnSpanMemo *memo = carried->check->memos[carried->move];
  if (!trn_span_memo_get (memo, TRN_MEMO_TAIL_SHARE, s, &tail, 1))
    {
      tail = tail_share (carried, s);
      trn_span_memo_put (memo, TRN_MEMO_TAIL_SHARE, s, &tail, 1);
    }
  *share
      = is_tail ? tail : trn_interval_clip (trn_interval_sub (trn_interval_point (1), tail), 0, 1);
  return TRUE;
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

/* Masses of what is between the hook and the load; returns what is missing. */
static const char *
add_up (const TrnHoist *hoist, const TrnGear *gear, TrnHookLoad *load)
{
  if (is_rope_gear (gear) && (!hoist->has_block || isnan (hoist->block_mass_kg)))
    return "block/mass";
  if (is_rope_gear (gear) && hoist->n_slings == 0)
    return "slings";
  if (hoist->has_beam && isnan (hoist->beam.mass_kg))
    return "beam/mass";
  const char *missing = slings_missing (hoist);
  if (missing != NULL)
    return missing;
  load->block_kg = hoist->has_block && isfinite (hoist->block_mass_kg) ? hoist->block_mass_kg : 0;
  load->beam_kg = hoist->has_beam ? hoist->beam.mass_kg : 0;
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      double shackle_kg = hoist->slings[i].shackle.mass_kg;
      load->slings_kg += hoist->slings[i].mass_kg;
      load->shackles_kg += isnan (shackle_kg) ? 0 : shackle_kg;
    }
  return NULL;
}

/* ---- the dynamic factor ---- */

static const TrnDynamicRule *
rule_of (const TrnHookForce *force)
{
  return &force->carried.check->scene->programme->plan->loads.dynamic;
}

static const char *
dynamic_missing (const TrnHookForce *force)
{
  switch (rule_of (force)->kind)
    {
    case TRN_DYNAMIC_FACTOR:
      return NULL;
    case TRN_DYNAMIC_0027_ND_ONSHORE:
      return force->greatest.met >= LEAST_OF_TABLE_KG ? NULL : "loads/dynamic/factor";
    case TRN_DYNAMIC_NONE:
      return "loads/dynamic";
    }
  g_assert_not_reached ();
}

TrnInterval
trn_hook_force_factor (const TrnHookForce *force, TrnInterval static_kg)
{
  const TrnDynamicRule *rule = rule_of (force);
  if (rule->kind != TRN_DYNAMIC_0027_ND_ONSHORE)
    return trn_interval_point (rule->factor);
  return (TrnInterval){ trn_dynamic_factor_onshore (fmax (static_kg.hi, LEAST_OF_TABLE_KG)),
                        trn_dynamic_factor_onshore (fmax (static_kg.lo, LEAST_OF_TABLE_KG)) };
}

const char *
trn_hook_force_dynamic_source (const TrnHookForce *force)
{
  const TrnDynamicRule *rule = rule_of (force);
  return rule->kind == TRN_DYNAMIC_0027_ND_ONSHORE ? TRN_DYNAMIC_FACTOR_SOURCE : rule->source;
}

/* ---- all of it ---- */

/* The load's part and all rigging. */
static TrnInterval
static_of_share (const TrnHookForce *force, TrnInterval share)
{
  TrnHookLoad rigging = force->rigging;
  rigging.load_kg = 0;
  return trn_interval_add (trn_interval_scale (share, force->carried.mass_kg),
                           trn_interval_point (trn_hook_load_static_kg (&rigging)));
}

gboolean
trn_hook_force_static (const TrnHookForce *force, TrnInterval s, TrnInterval *kg)
{
  TrnInterval share;
  if (force->missing != NULL || !trn_carried_share (&force->carried, force->is_tail, s, &share))
    return FALSE;
  *kg = static_of_share (force, share);
  return TRUE;
}

gboolean
trn_hook_force_dynamic (const TrnHookForce *force, TrnInterval s, TrnInterval *kg)
{
  if (force->missing_dynamic != NULL || !trn_hook_force_static (force, s, kg))
    return FALSE;
  *kg = trn_interval_mul (*kg, trn_hook_force_factor (force, *kg));
  return TRUE;
}

gboolean
trn_hook_force_below_n (const TrnHookForce *force, TrnInterval s, double rigging_kg,
                        TrnInterval *newton)
{
  TrnInterval share;
  if (force->missing_dynamic != NULL || force->missing != NULL
      || !trn_carried_share (&force->carried, force->is_tail, s, &share))
    return FALSE;
  TrnInterval kg = static_of_share (force, share);
  TrnInterval below = trn_interval_add (trn_interval_scale (share, force->carried.mass_kg),
                                        trn_interval_point (rigging_kg));
  *newton = trn_interval_scale (trn_interval_mul (below, trn_hook_force_factor (force, kg)),
                                TRN_GRAVITY_M_S2);
  return TRUE;
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
                         .rigging = { .factor = 1, .dynamic = 1 } };
  force.missing = hoist == NULL ? "rigging/main"
                                : add_up (hoist, trn_hoist_gear (check, hoist), &force.rigging);
  const TrnCarried *carried = &force.carried;
  if (isnan (carried->mass_kg))
    force.missing = "mass";
  else if (carried->main_holds && carried->tail_holds && !carried->has_cog)
    force.missing = "cog";
  if (force.missing == NULL)
    force.greatest
        = trn_worst_find (static_enclosure, &force, (TrnInterval){ 0, 1 }, TRN_FORCE_SHARE);
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
