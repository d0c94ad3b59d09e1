/* Lengths. A sling fits a length L as long as it is never off it by more than TRN_SLING_FIT_SHARE
 * of it. From the hook, or from a beam a fixed way below it, the way to a point of the load changes
 * only while a tilt takes that point round: by as much as it lies beside the axis through the point
 * below the hook. Where no length fits all moves of the hoist, that is the cause, and no other
 * length or hook helps. */
#include "cause.h"

#include <string.h>

#include "clearance-cause.h"
#include "ground-check.h"
#include "hang.h"
#include "hoist.h"
#include "load-lean.h"
#include "load-share.h"
#include "motion-jet.h"
#include "sources.h"
#include "tolerances.h"

/* The sine from which on a sling is nearly plumb: steeper it bears less by 2 % at most. */
#define PLUMB_SINE 0.98
/* Beside an axis by less is what numbers of a plan are rounded to. */
#define FLUSH_M 1e-6
/* Out of plumb by less a load is meant to stand upright. */
#define UPRIGHT_RAD (G_PI / 180)

static gboolean
is_missing (const TrnFinding *finding, const char *missing)
{
  return finding->verdict == TRN_VERDICT_UNKNOWN && g_strcmp0 (finding->missing, missing) == 0;
}

static gboolean
is_item (const TrnFinding *finding, const char *item)
{
  return g_strcmp0 (finding->item, item) == 0;
}

static TrnCause
cause_of (const char *why, TrnCauseKind kind, const char *of)
{
  return (TrnCause){ .why = why,
                     .kind = of != NULL ? kind : TRN_CAUSE_NONE,
                     .of = of,
                     .found = NAN,
                     .limit = NAN,
                     .unit = TRN_UNIT_M };
}

/* The point that a sling goes to, or the sling where that has no name. */
static TrnCause
cause_of_point (const char *why, const TrnSling *sling)
{
  return sling->to_name != NULL ? cause_of (why, TRN_CAUSE_POINT, sling->to_name)
                                : cause_of (why, TRN_CAUSE_SLING, sling->id);
}

static const char *
gear_id (const TrnLiftCheck *check, const TrnHoist *hoist)
{
  const TrnGear *gear = trn_hoist_gear (check, hoist);
  return gear != NULL ? gear->id : NULL;
}

/* ---- masses ---- */

static gboolean
lacks_mass (const TrnSling *sling, gboolean of_shackle)
{
  const TrnShackle *shackle = &sling->shackle;
  if (!of_shackle)
    return isnan (sling->mass_kg);
  return isnan (shackle->mass_kg) && (shackle->id != NULL || isfinite (shackle->wll_kg));
}

/* Whether this hoist lacks it; tells of what. */
static gboolean
tell_mass_of (TrnFinding *finding, const TrnLiftCheck *check, const TrnHoist *hoist)
{
  const char *missing = finding->missing;
  const gboolean of_shackle = strcmp (missing, "shackle/mass") == 0;
  const char *first = NULL;
  guint n = 0;
  if (!hoist->given)
    return FALSE;
  if (strcmp (missing, "hook_above") == 0)
    {
      const gboolean lacks = !trn_hang_hook_above_given (check->run->rig, hoist);
      if (lacks)
        finding->cause = cause_of (TRN_CAUSE_LEFT_OUT, TRN_CAUSE_GEAR, gear_id (check, hoist));
      return lacks;
    }
  if (strcmp (missing, "block/mass") == 0 || strcmp (missing, "slings") == 0)
    {
      const gboolean lacks = strcmp (missing, "slings") == 0
                                 ? hoist->n_slings == 0
                                 : !hoist->has_block || isnan (hoist->block_mass_kg);
      if (lacks)
        finding->cause = cause_of (TRN_CAUSE_NO_MASS, TRN_CAUSE_GEAR, gear_id (check, hoist));
      return lacks;
    }
  if (strcmp (missing, "beam/mass") == 0)
    {
      const gboolean lacks = hoist->has_beam && isnan (hoist->beam.mass_kg);
      if (lacks)
        finding->cause = cause_of (TRN_CAUSE_NO_MASS, TRN_CAUSE_BEAM, hoist->beam.id);
      return lacks;
    }
  for (guint i = 0; i < hoist->n_slings; i++)
    if (lacks_mass (&hoist->slings[i], of_shackle) && n++ == 0)
      first = hoist->slings[i].id;
  if (n == 0)
    return FALSE;
  finding->cause = cause_of (TRN_CAUSE_NO_MASS, TRN_CAUSE_SLING, first);
  finding->cause.n_more = n - 1;
  return TRUE;
}

/* Whether @body is that gear, or a part of it. */
static gboolean
is_of_gear (const char *body, const char *gear)
{
  const gsize length = body != NULL ? strcspn (body, "/") : 0;
  return body != NULL && gear != NULL && strncmp (gear, body, length) == 0 && gear[length] == '\0';
}

static gboolean
is_of_hoist (const TrnFinding *finding, const TrnLiftCheck *check, const TrnHoist *hoist)
{
  const char *body = finding->body, *gear = gear_id (check, hoist);
  if (body == NULL || is_of_gear (body, gear))
    return body != NULL;
  for (guint i = 0; i < hoist->n_slings; i++)
    if (strcmp (hoist->slings[i].id, body) == 0)
      return TRUE;
  return hoist->has_beam && strcmp (hoist->beam.id, body) == 0;
}

/* Of the hoist that it is about, or else of the other, on which that may depend. */
static void
tell_mass (TrnFinding *finding, const TrnLiftCheck *check)
{
  const TrnRigging *rigging = &check->run->lift->rigging;
  const gboolean is_tail = rigging->tail.given && is_of_hoist (finding, check, &rigging->tail)
                           && !is_of_hoist (finding, check, &rigging->main);
  const TrnHoist *hoists[2] = { &rigging->main, &rigging->tail };
  if (rigging->given && !tell_mass_of (finding, check, hoists[is_tail]))
    tell_mass_of (finding, check, hoists[!is_tail]);
}

/* A crane that nothing of the lift uses and that has no place of its hook then. */
static void
tell_park (TrnFinding *finding, const TrnLiftCheck *check)
{
  const TrnPlan *plan = check->scene->programme->plan;
  const TrnRigging *rigging = &check->run->lift->rigging;
  for (guint i = 0; i < plan->n_gear; i++)
    {
      const TrnGear *gear = &plan->gear[i];
      const gboolean is_used
          = (rigging->main.given && trn_hoist_gear (check, &rigging->main) == gear)
            || (rigging->tail.given && trn_hoist_gear (check, &rigging->tail) == gear);
      if (gear->kind != TRN_GEAR_CRANE || gear->has_park || is_used)
        continue;
      const gboolean is_body = is_of_gear (finding->body, gear->id);
      if (is_body || is_of_gear (finding->obstacle, gear->id))
        finding->cause = cause_of (TRN_CAUSE_LEFT_OUT, TRN_CAUSE_GEAR, gear->id);
      if (is_body)
        return;
    }
}

/* ---- what a load on two hooks leans by ---- */

static void
tell_lean (TrnFinding *finding, const TrnLiftCheck *check)
{
  const TrnHoist *hoist;
  const TrnLeanDoubt doubt = trn_load_lean_doubt (check, (guint)finding->move, &hoist);
  if (doubt.why == NULL)
    return;
  const gboolean is_of_beam = hoist->has_beam && doubt.sling == G_MAXUINT;
  if (doubt.sling != G_MAXUINT)
    finding->cause = cause_of_point (doubt.why, &hoist->slings[doubt.sling]);
  else
    finding->cause = is_of_beam ? cause_of (doubt.why, TRN_CAUSE_BEAM, hoist->beam.id)
                                : cause_of (doubt.why, TRN_CAUSE_GEAR, gear_id (check, hoist));
  finding->cause.found = doubt.found;
  finding->cause.limit = doubt.limit;
  if (strcmp (doubt.why, TRN_LEAN_DOUBT_ASKEW) == 0)
    finding->cause.unit = TRN_UNIT_DEG;
  finding->cause.is_at_least = strcmp (doubt.why, TRN_LEAN_DOUBT_NARROW) == 0
                               || strcmp (doubt.why, TRN_LEAN_DOUBT_ROUND) == 0;
}

static void
tell_beside (TrnFinding *finding, const TrnLiftCheck *check)
{
  const double moved_m = trn_load_lean_moved_m (check, (guint)finding->move);
  if (!(moved_m > check->run->slack.m) || !isfinite (moved_m))
    return;
  finding->cause = cause_of (TRN_CAUSE_TOLERANCE, TRN_CAUSE_NONE, NULL);
  finding->cause.found = moved_m;
  finding->cause.limit = check->run->slack.m;
}

/* ---- lengths ---- */

/* Of @place of the load, at most of all tilts that the hoist holds it in. */
static double
beside_axis (const TrnLiftCheck *check, const TrnHoist *hoist, TrnVec3 place)
{
  double most_m = 0;
  for (guint move = hoist->first_move; move <= hoist->last_move; move++)
    {
      const TrnMotion *motion = &check->run->motions[move];
      if (!trn_motion_tilts (motion))
        continue;
      const TrnVec3 way
          = trn_rotation_apply (&motion->start.turn, trn_vec3_sub (place, hoist->point));
      most_m = fmax (most_m, trn_vec3_length (trn_vec3_cross (way, motion->axis))
                                 / trn_vec3_length (motion->axis));
    }
  return most_m;
}

/* The lengths that fit all moves; no value: none does. */
static TrnInterval
lengths_that_fit (const TrnLiftCheck *check, const TrnHoist *hoist, guint sling)
{
  double least_m = INFINITY, greatest_m = -INFINITY;
  for (guint move = hoist->first_move; move <= hoist->last_move; move++)
    {
      const TrnExtremes found
          = trn_hoist_extremes (check, hoist, move, TRN_RIG_SLING_LENGTH, sling, check->certify_m);
      if (!found.complete)
        continue;
      least_m = fmin (least_m, found.least.lo);
      greatest_m = fmax (greatest_m, found.greatest.hi);
    }
  const TrnInterval fit
      = { greatest_m / (1 + TRN_SLING_FIT_SHARE), least_m / (1 - TRN_SLING_FIT_SHARE) };
  return fit.lo <= fit.hi ? fit : trn_interval_none ();
}

static void
tell_length_of (TrnFinding *finding, const TrnLiftCheck *check, const TrnHoist *hoist, guint index)
{
  const TrnSling *sling = &hoist->slings[index];
  const double beside_m = beside_axis (check, hoist, sling->to);
  if (!(beside_m > FLUSH_M))
    return;
  const TrnInterval fit = lengths_that_fit (check, hoist, index);
  if (finding->value >= fit.lo && finding->value <= fit.hi)
    return;
  finding->cause = cause_of_point (
      trn_interval_is_value (fit) ? TRN_CAUSE_LENGTH : TRN_CAUSE_TILT_AXIS, sling);
  finding->cause.found = trn_interval_is_value (fit) ? trn_interval_middle (fit) : beside_m;
}

static void
tell_length (TrnFinding *finding, const TrnLiftCheck *check)
{
  const TrnRigging *rigging = &check->run->lift->rigging;
  const TrnHoist *hoists[2] = { &rigging->main, &rigging->tail };
  for (guint k = 0; k < 2; k++)
    for (guint i = 0; hoists[k]->given && i < hoists[k]->n_slings; i++)
      if (!hoists[k]->slings[i].to_beam && strcmp (hoists[k]->slings[i].id, finding->body) == 0)
        tell_length_of (finding, check, hoists[k], i);
}

/* ---- what fails ---- */

/* Whether the hook, or a beam, would have to go up without end for it to bear less. */
static void
tell_plumb (TrnFinding *finding, const TrnLiftCheck *check)
{
  const TrnRigging *rigging = &check->run->lift->rigging;
  const TrnHoist *hoists[2] = { &rigging->main, &rigging->tail };
  for (guint k = 0; k < 2; k++)
    for (guint i = 0; hoists[k]->given && i < hoists[k]->n_slings; i++)
      {
        const TrnSling *sling = &hoists[k]->slings[i];
        if (strcmp (sling->id, finding->body) != 0 || !isfinite (finding->progress))
          continue;
        const TrnJet3 way = trn_hang_sling_way (check->run->rig, hoists[k], i, (guint)finding->move,
                                                trn_interval_point (finding->progress));
        const double x_m = trn_interval_middle (way.x.v), y_m = trn_interval_middle (way.y.v),
                     z_m = trn_interval_middle (way.z.v);
        if (fabs (z_m) >= PLUMB_SINE * hypot (hypot (x_m, y_m), z_m))
          finding->cause = cause_of (TRN_CAUSE_PLUMB, TRN_CAUSE_SLING, sling->id);
      }
}

static void
tell_leg (TrnFinding *finding, const TrnLiftCheck *check)
{
  const TrnGear *gear = trn_plan_find_gear (check->scene->programme->plan, finding->body);
  if (gear != NULL && gear->kind == TRN_GEAR_GANTRY)
    finding->cause = cause_of (TRN_CAUSE_LEG, TRN_CAUSE_GEAR, gear->id);
}

/* Whether that tilt ends with the load upright, its head above its tail: to end it before leads
 * nowhere then. */
static gboolean
is_upending (const TrnLiftCheck *check, guint move)
{
  const TrnMove *planned = &check->run->lift->moves[move];
  const TrnMotion *motion = &check->run->motions[move];
  if (planned->kind != TRN_MOVE_TILT || !planned->head_plumb)
    return FALSE;
  const TrnPose begins = trn_motion_pose (motion, 0), ends = trn_motion_pose (motion, 1);
  const TrnVec3 way = trn_vec3_sub (planned->head.place, planned->tail.place);
  const TrnVec3 rest = trn_rotation_apply (&begins.turn, way),
                up = trn_rotation_apply (&ends.turn, way);
  double most = 0;
  for (guint axis = 0; axis < 3; axis++)
    {
      const TrnVec3 own = { axis == 0, axis == 1, axis == 2 };
      most = fmax (most, fabs (trn_rotation_apply (&ends.turn, own).z));
    }
  return up.z > rest.z && up.z > 0 && most >= cos (UPRIGHT_RAD);
}

/* From when on a hook is slack. */
static void
tell_slack (TrnFinding *finding, const TrnLiftCheck *check)
{
  const guint move = (guint)finding->move;
  for (guint item = 0; item < TRN_N_SHARE_ITEMS; item++)
    {
      if (!is_item (finding, trn_load_share_item_name ((TrnShareItem)item)))
        continue;
      const double s
          = trn_load_share_slack_from (check, move, (TrnShareItem)item, finding->progress);
      if (isnan (s))
        return;
      finding->cause = cause_of (!(s > 0)                    ? TRN_CAUSE_FROM_START
                                 : is_upending (check, move) ? TRN_CAUSE_FROM_UPENDING
                                                             : TRN_CAUSE_FROM,
                                 TRN_CAUSE_NONE, NULL);
      finding->cause.unit = TRN_UNIT_DEG;
      finding->cause.found = trn_degrees (s * fabs (check->run->motions[move].angle_rad));
    }
}

static void
tell_failure (TrnFinding *finding, const TrnLiftCheck *check)
{
  const gboolean is_slack
      = finding->state == TRN_STATE_SLACK || finding->state == TRN_STATE_OVER_TAIL;
  if (finding->check == TRN_CHECK_CLEARANCE)
    trn_clearance_cause_tell (check, finding);
  else if (finding->check == TRN_CHECK_LOAD_SHARE && is_slack)
    tell_slack (finding, check);
  else if (finding->check == TRN_CHECK_GROUND && finding->state == TRN_STATE_LIFTED)
    tell_leg (finding, check);
  else if (finding->check == TRN_CHECK_RIGGING && finding->item == NULL
           && finding->state == TRN_STATE_OUTSIDE)
    tell_length (finding, check);
  else if (finding->check == TRN_CHECK_SLINGS && finding->state == TRN_STATE_OUTSIDE
           && is_item (finding, "tension"))
    tell_plumb (finding, check);
}

static void
tell_missing (TrnFinding *finding, const TrnLiftCheck *check)
{
  static const char *const masses[]
      = { "block/mass", "slings", "beam/mass", "slings/mass", "shackle/mass", "hook_above" };
  if (is_missing (finding, "park"))
    tell_park (finding, check);
  for (guint i = 0; i < G_N_ELEMENTS (masses); i++)
    if (is_missing (finding, masses[i]))
      tell_mass (finding, check);
  if (finding->check != TRN_CHECK_LOAD_SHARE)
    return;
  if (is_missing (finding, "lean/beam"))
    tell_lean (finding, check);
  else if (is_missing (finding, "lean/beside"))
    tell_beside (finding, check);
}

void
trn_causes_tell (const TrnLiftCheck *check, TrnLiftFindings *findings)
{
  for (guint i = 0; i < findings->findings->len; i++)
    {
      TrnFinding *finding = &g_array_index (findings->findings, TrnFinding, i);
      finding->cause = (TrnCause){ .why = NULL };
      if (finding->missing != NULL)
        tell_missing (finding, check);
      else if (finding->verdict == TRN_VERDICT_FAIL || finding->verdict == TRN_VERDICT_NOTE)
        tell_failure (finding, check);
    }
}
