#include "pair.h"

#include <math.h>
#include <string.h>

#include "extreme.h"
#include "gear-tolerance.h"

/* Wide enough that an answer comes at once: only whether there is one is of interest. */
#define ANY_WIDTH 1.0

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

/* The ends of a sling go as points of the load, block and rope with the hook (gear-tolerance.c). */
static void
add_parts_of (const TrnLiftCheck *check, guint body, guint move, GArray **parts)
{
  const TrnAllowance *load = &check->allowances[move];
  const TrnRigBody *moves = body != TRN_BODY_LOAD ? rig_body (check, body) : NULL;
  double gear_m = allowance_of (check, body, move);
  const gboolean goes_with_load
      = moves == NULL || (moves->part == TRN_PART_SLING && gear_m == check->tolerance_m[move]);
  const gboolean goes_with_hook = moves != NULL
                                  && (moves->part == TRN_PART_ROPE || moves->part == TRN_PART_BLOCK)
                                  && moves->hoist == &check->run->lift->rigging.main;
  if (goes_with_load)
    {
      add_part (parts, "position-tilt-heading", load->tolerance_m);
      add_part (parts, "lean", load->lean_m);
      add_part (parts, "cog-box", load->cog_box_m);
      add_part (parts, "out-of-level", load->level_m);
      add_part (parts, "wind", load->wind_m);
      add_part (parts, "swing", load->swing_m);
      return;
    }
  if (goes_with_hook)
    {
      add_part (parts, "out-of-level", load->hook_level_m);
      add_part (parts, "wind", load->hook_wind_m);
      add_part (parts, "swing", load->hook_swing_m);
      gear_m = fmax (0, gear_m - load->hook_level_m - load->hook_wind_m - load->hook_swing_m);
    }
  add_part (parts, "gear", gear_m);
}

GArray *
trn_pair_allowance_parts (const TrnLiftCheck *check, const TrnPair *pair, guint move)
{
  GArray *parts = NULL;
  add_parts_of (check, pair->body, move, &parts);
  if (pair->other_stands)
    {
      add_part (&parts, "survey", check->obstacles[pair->other].standing->survey_tolerance_m);
      add_part (&parts, "earlier-lift", check->left_m[pair->other]);
    }
  else
    add_parts_of (check, pair->other, move, &parts);
  add_part (&parts, "mesh", mesh_of (check, pair));
  return parts;
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
