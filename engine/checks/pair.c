#include "pair.h"

#include <math.h>
#include <string.h>

#include "extreme.h"
#include "gear-tolerance.h"
#include "tolerances.h"

/* Wide enough that an answer comes at once: only whether there is one is of interest. */
#define ANY_WIDTH 1.0
#define ROUNDING_SHARE 1e-12 /* of some dozen roundings of a double */

static const TrnRigBody *
rig_body (const TrnLiftCheck *check, guint body)
{
  return &check->rig->bodies[body];
}

/* The gear that @body is a part of; NULL: none, as the load, or rigging without gear. */
static const TrnGear *
gear_of (const TrnLiftCheck *check, guint body)
{
  if (body == TRN_BODY_LOAD || rig_body (check, body)->place == G_MAXUINT)
    return NULL;
  return check->rig->places[rig_body (check, body)->place].gear;
}

const char *
trn_body_id (const TrnLiftCheck *check, guint body)
{
  return body == TRN_BODY_LOAD ? "load" : rig_body (check, body)->id;
}

const char *
trn_pair_other_id (const TrnLiftCheck *check, const TrnPair *pair)
{
  return pair->other_stands ? check->obstacles[pair->other].body->id
                            : rig_body (check, pair->other)->id;
}

/* ---- the list ---- */

/* A move in which the hoist does not hold the load; one of its own where there is none. */
static guint
move_without (const TrnLiftCheck *check, const TrnHoist *hoist)
{
  return hoist->first_move > 0 ? 0 : check->run->lift->n_moves - 1;
}

static void
add_pair (const TrnLiftCheck *check, TrnPair pair, GArray *pairs, GArray *left_out)
{
  const TrnRig *rig = check->run->rig;
  TrnBodyPair ids = { trn_body_id (check, pair.body), trn_pair_other_id (check, &pair) };
  pair.holder = rig != NULL ? trn_rig_holder (rig, ids.a, ids.b) : NULL;
  guint held = pair.holder != NULL ? pair.holder->first_move : 0;
  guint other = pair.holder != NULL ? move_without (check, pair.holder) : 0;
  if (rig == NULL || !trn_rig_is_connected (rig, ids.a, ids.b, other))
    g_array_append_val (pairs, pair);
  if (rig != NULL && left_out != NULL && trn_rig_is_connected (rig, ids.a, ids.b, held))
    g_array_append_val (left_out, ids);
}

static void
add_pairs_of (const TrnLiftCheck *check, guint body, guint first_of_rig, GArray *pairs,
              GArray *left_out)
{
  for (guint i = 0; i < check->n_obstacles; i++)
    add_pair (check, (TrnPair){ .body = body, .other_stands = TRUE, .other = i }, pairs, left_out);
  for (guint i = first_of_rig; check->rig != NULL && i < check->rig->n_bodies; i++)
    add_pair (check, (TrnPair){ .body = body, .other = i }, pairs, left_out);
}

GArray *
trn_pairs_list (const TrnLiftCheck *check, GArray *left_out)
{
  GArray *pairs = g_array_new (FALSE, FALSE, sizeof (TrnPair));
  add_pairs_of (check, TRN_BODY_LOAD, 0, pairs, left_out);
  for (guint i = 0; check->rig != NULL && i < check->rig->n_bodies; i++)
    add_pairs_of (check, i, i + 1, pairs, left_out);
  return pairs;
}

static gboolean
is_there (const TrnLiftCheck *check, guint body, guint move)
{
  if (body == TRN_BODY_LOAD)
    return TRUE;
  const TrnRigBody *moves = rig_body (check, body);
  gboolean is_rigging = moves->part == TRN_PART_SLING || moves->part == TRN_PART_BEAM;
  return !is_rigging || (moves->first_move <= move && move <= moves->last_move);
}

gboolean
trn_pair_is_there (const TrnLiftCheck *check, const TrnPair *pair, guint move)
{
  return is_there (check, pair->body, move)
         && (pair->other_stands || is_there (check, pair->other, move));
}

gboolean
trn_pair_is_loose (const TrnLiftCheck *check, const TrnPair *pair, guint move)
{
  const TrnHoist *holder = pair->holder;
  gboolean is_held = holder != NULL && holder->first_move <= move && move <= holder->last_move;
  return !is_held && trn_pair_is_there (check, pair, move);
}

/* ---- what is to be kept ---- */

double
trn_pair_required (const TrnLiftCheck *check, const TrnPair *pair)
{
  const TrnPlan *plan = check->scene->programme->plan;
  const TrnLift *lift = check->run->lift;
  const TrnGear *gear = gear_of (check, pair->body);
  if (pair->other_stands)
    {
      const TrnStanding *standing = check->obstacles[pair->other].standing;
      return gear != NULL ? trn_plan_gear_required_m (plan, lift, gear, standing->id)
                          : standing->required_m;
    }
  /* Rigging without gear counts as the load. */
  const TrnGear *other = gear_of (check, pair->other);
  if (gear != NULL)
    return trn_plan_gear_required_m (plan, lift, gear, other != NULL ? other->id : "load");
  if (other != NULL)
    return trn_plan_gear_required_m (plan, lift, other, "load");
  return trn_plan_required_m (plan, lift, "load");
}

static double
allowance_of (const TrnLiftCheck *check, guint body, guint move)
{
  if (body == TRN_BODY_LOAD)
    return check->tolerance_m[move];
  return check->rig_tolerance_m[move * check->rig->n_bodies + body];
}

/* How far the meshes may be from what their files mean. */
static double
mesh_of (const TrnLiftCheck *check, const TrnPair *pair)
{
  double load_m = pair->body == TRN_BODY_LOAD ? check->load->off_m : 0;
  return load_m + (pair->other_stands ? check->obstacles[pair->other].body->off_m : 0);
}

double
trn_pair_allowance (const TrnLiftCheck *check, const TrnPair *pair, guint move)
{
  double other_m = pair->other_stands ? trn_lift_check_stands_off (check, pair->other)
                                      : allowance_of (check, pair->other, move);
  return allowance_of (check, pair->body, move) + other_m + mesh_of (check, pair);
}

static const TrnGearTolerance *
gear_off_of (const TrnLiftCheck *check, guint body, guint move)
{
  return &check->gear_off[move * check->rig->n_bodies + body];
}

/* Of a point of the body that is that share along it. */
static TrnGearOff
off_at (const TrnLiftCheck *check, guint body, guint move, double share)
{
  const TrnAllowance *a = &check->allowances[move];
  if (body == TRN_BODY_LOAD)
    return (
        TrnGearOff){ a->tolerance_m, a->lean_m, a->cog_box_m, a->level_m, a->wind_m, a->swing_m };
  return trn_gear_tolerance_at (gear_off_of (check, body, move), share);
}

gboolean
trn_pair_ends_differ (const TrnLiftCheck *check, guint body, guint move)
{
  if (body == TRN_BODY_LOAD || rig_body (check, body)->n_corners != 2)
    return FALSE;
  const TrnGearTolerance *tolerance = gear_off_of (check, body, move);
  return fabs (trn_gear_off_sum (&tolerance->ends[0]) - trn_gear_off_sum (&tolerance->ends[1]))
         > TRN_CONTACT_M;
}

double
trn_pair_stands_off (const TrnLiftCheck *check, const TrnPair *pair)
{
  return mesh_of (check, pair)
         + (pair->other_stands ? trn_lift_check_stands_off (check, pair->other) : 0);
}

double
trn_pair_allowance_at (const TrnLiftCheck *check, const TrnPair *pair, guint move,
                       const double shares[2])
{
  const TrnGearOff off = off_at (check, pair->body, move, shares[0]);
  double all_m = trn_gear_off_sum (&off) + trn_pair_stands_off (check, pair);
  if (!pair->other_stands)
    {
      const TrnGearOff other = off_at (check, pair->other, move, shares[1]);
      all_m += trn_gear_off_sum (&other);
    }
  return all_m * (1 + ROUNDING_SHARE);
}

/* Two bodies may both be off for the same reason. */
static void
add_part (GArray **parts, const char *what, double m)
{
  if (m == 0)
    return;
  if (*parts == NULL)
    *parts = g_array_new (FALSE, FALSE, sizeof (TrnFindingItem));
  for (guint i = 0; i < (*parts)->len; i++)
    if (strcmp (g_array_index (*parts, TrnFindingItem, i).what, what) == 0)
      {
        g_array_index (*parts, TrnFindingItem, i).m += m;
        return;
      }
  const TrnFindingItem part = { what, m };
  g_array_append_val (*parts, part);
}

static void
add_parts_of (const TrnGearOff *off, double by, GArray **parts)
{
  add_part (parts, "position-tilt-heading", off->tolerance_m * by);
  add_part (parts, "lean", off->lean_m * by);
  add_part (parts, "cog-box", off->cog_box_m * by);
  add_part (parts, "out-of-level", off->level_m * by);
  add_part (parts, "wind", off->wind_m * by);
  add_part (parts, "swing", off->swing_m * by);
}

static GArray *
parts_at (const TrnLiftCheck *check, const TrnPair *pair, guint move, const double shares[2],
          double by)
{
  GArray *parts = NULL;
  const TrnGearOff off = off_at (check, pair->body, move, shares[0]);
  add_parts_of (&off, by, &parts);
  if (pair->other_stands)
    {
      add_part (&parts, "survey", check->obstacles[pair->other].standing->survey_tolerance_m);
      add_part (&parts, "earlier-lift", check->left_m[pair->other]);
    }
  else
    {
      const TrnGearOff other = off_at (check, pair->other, move, shares[1]);
      add_parts_of (&other, by, &parts);
    }
  add_part (&parts, "mesh", mesh_of (check, pair));
  return parts;
}

/* Where the body goes farthest. */
static double
farthest_share (const TrnLiftCheck *check, guint body, guint move)
{
  if (body == TRN_BODY_LOAD)
    return 0;
  const TrnGearTolerance *tolerance = gear_off_of (check, body, move);
  return trn_gear_off_sum (&tolerance->ends[1]) > trn_gear_off_sum (&tolerance->ends[0]) ? 1 : 0;
}

GArray *
trn_pair_allowance_parts (const TrnLiftCheck *check, const TrnPair *pair, guint move)
{
  const double shares[2] = { farthest_share (check, pair->body, move),
                             pair->other_stands ? 0 : farthest_share (check, pair->other, move) };
  return parts_at (check, pair, move, shares, 1);
}

GArray *
trn_pair_allowance_parts_at (const TrnLiftCheck *check, const TrnPair *pair, guint move,
                             const double shares[2], double all_m)
{
  const double stands_m = trn_pair_stands_off (check, pair),
               moves_m = trn_pair_allowance_at (check, pair, move, shares) - stands_m;
  return parts_at (check, pair, move, shares,
                   moves_m > 0 ? fmax (0, all_m - stands_m) / moves_m : 0);
}

/* ---- what is missing ---- */

static TrnRigQuantity
quantity_of (const TrnRigBody *body)
{
  switch (body->part)
    {
    case TRN_PART_SLING:
      return TRN_RIG_SLING_LENGTH;
    case TRN_PART_BOOM:
    case TRN_PART_JIB:
    case TRN_PART_COUNTERWEIGHT:
    case TRN_PART_ROPE:
      return TRN_RIG_TIP_HEIGHT;
    case TRN_PART_HEADER:
    case TRN_PART_TROLLEY:
    case TRN_PART_TAIL_TROLLEY:
    case TRN_PART_BLOCK:
    case TRN_PART_BEAM:
      return TRN_RIG_HOOK_HEIGHT;
    }
  g_assert_not_reached ();
}

static const char *
missing_of (const TrnLiftCheck *check, guint body, guint move)
{
  if (body == TRN_BODY_LOAD)
    return NULL;
  const TrnRigBody *moves = rig_body (check, body);
  const TrnGear *gear = gear_of (check, body);
  if (moves->hoist == NULL)
    {
      if (gear->kind == TRN_GEAR_CRANE)
        return gear->has_park ? "reach" : "park";
      return gear->kind == TRN_GEAR_GANTRY ? "window" : "track";
    }
  TrnRigQuestion question
      = { .rig = check->rig,
          .hoist = moves->hoist,
          .quantity = quantity_of (moves),
          .move = CLAMP (move, moves->hoist->first_move, moves->hoist->last_move),
          .index = moves->index };
  const char *missing = NULL;
  if (moves->part == TRN_PART_ROPE)
    missing = trn_rig_missing (check->rig, moves->hoist, TRN_RIG_HOOK_HEIGHT);
  if (missing == NULL)
    missing = trn_rig_missing (check->rig, moves->hoist, question.quantity);
  if (missing != NULL)
    return missing;
  TrnExtremes found = trn_extremes_find (trn_rig_ask, &question, (TrnInterval){ 0, 1 }, ANY_WIDTH);
  return !found.complete && isfinite (found.missing_s) ? "reach" : NULL;
}

const char *
trn_pair_missing (const TrnLiftCheck *check, const TrnPair *pair, guint move)
{
  const char *missing = missing_of (check, pair->body, move);
  if (missing == NULL && !pair->other_stands)
    missing = missing_of (check, pair->other, move);
  return missing;
}

static const char *
off_missing (const TrnLiftCheck *check, guint body, guint move)
{
  if (!isnan (allowance_of (check, body, move)))
    return NULL;
  return body == TRN_BODY_LOAD ? trn_lift_check_off_missing (check, move)
                               : trn_gear_tolerance_missing (check, body, move);
}

const char *
trn_pair_off_missing (const TrnLiftCheck *check, const TrnPair *pair, guint move)
{
  const char *missing = off_missing (check, pair->body, move);
  if (missing == NULL && !pair->other_stands)
    missing = off_missing (check, pair->other, move);
  return missing;
}
