/* For each corner of the box the least and the greatest share over the move are certified; over the
 * box they are the least and the greatest of these, since at each moment the share is affine in the
 * CoG. The height of the tail point above the CoG is affine too. What hooks out of level make of it
 * is the extremes over the forms that box-share.c has.
 *
 * A share below 0 is a line that would have to push: it goes slack, and the load falls into another
 * attitude. Above 1 the other line does. What is still open when shares are known to WIDTH counts
 * as below 0; what is 0 but for rounding does not: a tail that comes to hang plumb under its point
 * with nothing on it ends there. Where one point is plumb over the other, shares are not defined,
 * and the finding says unknown.
 *
 * Hooks that are drawn on one level, to within what the plan says that they may be out of it, have
 * to keep both lines taut out of level as well. Where they are drawn farther out of level the load
 * is being up-ended, and being out of level is being a little earlier or later in that; the tail
 * going slack is how it ends, with the load on the main hook, which is told as a note. The main
 * going slack is not: the load would turn over about its tail.
 *
 * Where shares are not known all through, since the points come plumb over each other, some moments
 * are looked at: one at which a line would have to push is enough to fail. */
#include "load-share.h"

#include "load-lean.h"

#include <string.h>

#include "extreme.h"
#include "motion-jet.h"
#include "share-jet.h"
#include "sources.h"

#define WIDTH 1e-6
#define WIDTH_M 1e-4
/* What rounding leaves of a share of 0 or 1. */
#define FLUSH 1e-9
#define MOMENTS 360
/* Those that are looked at for when it begins, and how narrowly. */
#define FROM_MOMENTS 24
#define FROM_HALVINGS 10

static const char *const names[]
    = { "tail", "main", "tail-out-of-level", "main-out-of-level", "tail-height" };

typedef struct
{
  const TrnCarried *carried;
  TrnShareItem item;
  guint corner;
  const TrnShareForm *form; /* NULL: as drawn */
} Question;

static gboolean
is_of_tail (TrnShareItem item)
{
  return item == TRN_SHARE_ITEM_TAIL || item == TRN_SHARE_ITEM_TAIL_OUT_OF_LEVEL;
}

static gboolean
is_out_of_level (TrnShareItem item)
{
  return item == TRN_SHARE_ITEM_TAIL_OUT_OF_LEVEL || item == TRN_SHARE_ITEM_MAIN_OUT_OF_LEVEL;
}

static TrnJet
height_jet (const Question *q, TrnInterval s)
{
  const TrnLiftRun *run = q->carried->check->run;
  const TrnMotion *motion = &run->motions[q->carried->move];
  TrnVec3 points[2] = { run->lift->rigging.tail.point, q->carried->cog[q->corner] };
  TrnJet3 places[2];
  trn_motion_points_jet (motion, 2, points, s, places);
  return trn_share_tail_above_cog_jet (&places[0], &places[1]);
}

static gboolean
ask (gconstpointer data, TrnInterval s, TrnJet *value)
{
  const Question *q = data;
  if (q->item == TRN_SHARE_ITEM_HEIGHT)
    *value = height_jet (q, s);
  else
    *value = trn_carried_tail_jet (q->carried, q->corner, q->form, s);
  if (q->item != TRN_SHARE_ITEM_HEIGHT && !is_of_tail (q->item))
    *value = trn_jet_shift (trn_jet_neg (*value), 1);
  return trn_jet_is_value (value);
}

/* Whether a corner is at the place of an earlier one, as where the box is flat. */
static gboolean
is_repeated (const TrnCarried *carried, guint corner)
{
  for (guint i = 0; i < corner; i++)
    if (memcmp (&carried->cog[i], &carried->cog[corner], sizeof carried->cog[i]) == 0)
      return TRUE;
  return FALSE;
}

/* Over the box, and all forms. Without a tilt nothing of it changes (box-share.c). */
static TrnExtremes
find (const TrnCarried *carried, TrnShareItem item)
{
  TrnExtremes all;
  double width = item == TRN_SHARE_ITEM_HEIGHT ? WIDTH_M : WIDTH;
  gboolean has_forms = is_out_of_level (item);
  TrnInterval span = { 0, carried->share.tilts ? 1 : 0 };
  for (guint i = 0; i < 8 * (has_forms ? carried->share.n_forms : 1); i++)
    {
      Question question = { carried, item, i % 8, has_forms ? &carried->share.forms[i / 8] : NULL };
      if (i == 0)
        all = trn_extremes_find (ask, &question, span, width);
      else if (!is_repeated (carried, i % 8))
        all = trn_extremes_find_beyond (ask, &question, span, width, &all);
      if (!all.complete)
        break;
    }
  return all;
}

static gboolean
is_tail_below_cog (const TrnCarried *carried, double s)
{
  for (guint corner = 0; corner < 8; corner++)
    {
      Question question = { carried, TRN_SHARE_ITEM_HEIGHT, corner, NULL };
      TrnJet height = height_jet (&question, trn_interval_point (s));
      if (height.v.lo < 0)
        return TRUE;
    }
  return FALSE;
}

/* Without a tilt, as in a slew, no angle has to do with it. */
static void
add_turned (TrnFinding *finding, const TrnCarried *carried, const char *what, double s)
{
  const TrnMotion *motion = &carried->check->run->motions[carried->move];
  if (carried->share.tilts)
    trn_finding_add_number (finding, what, s * fabs (motion->angle_rad) * 180 / G_PI, TRN_UNIT_DEG);
}

static void
set_time (TrnFinding *finding, const TrnCarried *carried, double s)
{
  finding->progress = s;
  finding->time_s = trn_lift_check_time (carried->check, carried->move, s);
  add_turned (finding, carried, "turned", s);
}

/* How much higher the tail point is drawn than the main one. */
static double
height_difference (const TrnCarried *carried, double s)
{
  const TrnLiftRun *run = carried->check->run;
  const TrnMotion *motion = &run->motions[carried->move];
  TrnJet3 main, tail;
  trn_motion_point_jet (motion, run->lift->hook.place, trn_interval_point (s), &main);
  trn_motion_point_jet (motion, run->lift->rigging.tail.point, trn_interval_point (s), &tail);
  return trn_interval_middle (trn_jet_sub (tail.z, main.z).v);
}

/* Drawn on one level, to within what hooks may be out of it. */
static gboolean
is_drawn_level (const TrnCarried *carried, double s)
{
  const TrnLift *lift = carried->check->run->lift;
  const TrnOutOfLevel *level = &carried->check->scene->programme->plan->loads.out_of_level;
  const double apart_m = trn_vec3_distance (lift->hook.place, lift->rigging.tail.point);
  return fabs (height_difference (carried, s))
         <= fmax (level->height_m, apart_m * sin (level->tilt_rad));
}

/* How much a degree out of level makes at that moment, with the CoG in one corner of its box. */
static double
share_by_degree (const TrnCarried *carried, double s)
{
  double least = INFINITY, greatest = -INFINITY;
  for (guint i = 0; i < carried->share.n_forms; i++)
    {
      TrnJet share
          = trn_carried_tail_jet (carried, 0, &carried->share.forms[i], trn_interval_point (s));
      least = fmin (least, trn_interval_middle (share.v));
      greatest = fmax (greatest, trn_interval_middle (share.v));
    }
  return (greatest - least) / (2 * trn_degrees (carried->out_of_level_rad));
}

static void
add_level (TrnFinding *finding, const TrnCarried *carried, double s)
{
  trn_finding_add_number (finding, "out-of-level", trn_degrees (carried->out_of_level_rad),
                          TRN_UNIT_DEG);
  trn_finding_add_number (finding, "height-difference", height_difference (carried, s), TRN_UNIT_M);
  trn_finding_add_number (finding, "by-degree", share_by_degree (carried, s) * carried->mass_kg,
                          TRN_UNIT_KG);
}

static void
set_share (TrnFinding *finding, const TrnCarried *carried, const TrnExtremes *found,
           TrnShareItem item)
{
  gboolean is_slack = found->least.lo < -FLUSH, is_tail = is_of_tail (item);
  double when = is_slack ? found->least_s : found->greatest_s;
  finding->utilisation = fmax (0, found->greatest.hi);
  if (!trn_carried_is_pinned (carried)) /* nothing pulls it down */
    finding->utilisation = fmin (1, finding->utilisation);
  finding->value = finding->utilisation * carried->mass_kg;
  finding->verdict = is_slack ? TRN_VERDICT_FAIL : TRN_VERDICT_PASS;
  finding->state = is_slack ? TRN_STATE_SLACK : TRN_STATE_KNOWN;
  if (is_slack && is_tail && is_out_of_level (item) && !is_drawn_level (carried, when)
      && !trn_carried_is_pinned (carried))
    finding->verdict = TRN_VERDICT_NOTE;
  if (is_slack && !is_tail && is_tail_below_cog (carried, when))
    finding->state = TRN_STATE_OVER_TAIL;
  set_time (finding, carried, when);
  trn_finding_add_number (finding, "least", found->least.lo * carried->mass_kg, TRN_UNIT_KG);
  add_turned (finding, carried, "least-turned", found->least_s);
  if (is_out_of_level (item))
    add_level (finding, carried, when);
}

/* A tail point below the CoG can come to carry all: what is left on the main hook then counts, with
 * the hooks out of level if the plan says how far. */
static void
set_height (TrnFinding *finding, const TrnCarried *carried, const TrnExtremes *found)
{
  finding->unit = TRN_UNIT_M;
  finding->value = found->least.lo;
  finding->verdict = TRN_VERDICT_PASS;
  finding->state = TRN_STATE_KNOWN;
  set_time (finding, carried, found->least_s);
  if (!(found->least.lo < -FLUSH))
    return;
  TrnExtremes main
      = find (carried, isnan (carried->out_of_level_rad) ? TRN_SHARE_ITEM_MAIN
                                                         : TRN_SHARE_ITEM_MAIN_OUT_OF_LEVEL);
  gboolean is_over = main.complete && main.least.lo < -FLUSH;
  finding->verdict = is_over ? TRN_VERDICT_FAIL : TRN_VERDICT_NOTE;
  if (is_over)
    finding->state = TRN_STATE_OVER_TAIL;
  if (main.complete)
    trn_finding_add_number (finding, "least-main", main.least.lo * carried->mass_kg, TRN_UNIT_KG);
}

/* The first of some moments at which it would have to push, as drawn; FALSE: none of them. */
static gboolean
goes_slack (const TrnCarried *carried, TrnShareItem item, double *s)
{
  for (guint i = 0; i <= MOMENTS; i++)
    for (guint corner = 0; corner < 8; corner++)
      {
        const Question question = { carried, item, corner, NULL };
        TrnJet share;
        *s = (double)i / MOMENTS;
        if (ask (&question, trn_interval_point (*s), &share) && share.v.hi < -FLUSH)
          return TRUE;
      }
  return FALSE;
}

/* Plumb over each other but for rounding. */
static gboolean
is_in_line (const TrnCarried *carried, double s)
{
  const TrnLiftRun *run = carried->check->run;
  const TrnMotion *motion = &run->motions[carried->move];
  const TrnPose pose = trn_motion_pose (motion, s);
  const TrnVec3 apart = trn_vec3_sub (trn_pose_apply (&pose, run->lift->rigging.tail.point),
                                      trn_pose_apply (&pose, run->lift->hook.place));
  return hypot (apart.x, apart.y) <= FLUSH * trn_vec3_length (apart);
}

static void
set_partly (TrnFinding *finding, const TrnCarried *carried, const TrnExtremes *found,
            TrnShareItem item)
{
  double s = found->missing_s;
  if (!is_out_of_level (item) && item != TRN_SHARE_ITEM_HEIGHT && goes_slack (carried, item, &s))
    {
      finding->verdict = TRN_VERDICT_FAIL;
      finding->state = !is_of_tail (item) && is_tail_below_cog (carried, s) ? TRN_STATE_OVER_TAIL
                                                                            : TRN_STATE_SLACK;
      set_time (finding, carried, s);
      return;
    }
  s = isfinite (found->missing_s) ? found->missing_s
      : is_in_line (carried, 0)   ? 0
      : is_in_line (carried, 1)   ? 1
                                  : NAN;
  if (isnan (s))
    return;
  set_time (finding, carried, s);
  finding->missing = "in-line";
}

static const char *
missing_of (const TrnCarried *carried, TrnShareItem item)
{
  if (isnan (carried->mass_kg))
    return "mass";
  if (!carried->has_cog)
    return "cog";
  if (!is_out_of_level (item))
    return NULL;
  if (isnan (carried->out_of_level_rad))
    return "loads/out_of_level";
  return carried->is_height_missing ? "hook_above" : NULL;
}

TrnFinding
trn_load_share_judge (const TrnLiftCheck *check, guint move, TrnShareItem item)
{
  const TrnRigging *rigging = &check->run->lift->rigging;
  TrnFinding finding = trn_lift_check_finding (check, TRN_CHECK_LOAD_SHARE, (int)move, NULL, NAN);
  finding.body = item == TRN_SHARE_ITEM_HEIGHT || is_of_tail (item)
                     ? trn_hoist_body (check, &rigging->tail)
                     : trn_hoist_body (check, rigging->main.given ? &rigging->main : NULL);
  finding.item = names[item];
  finding.unit = TRN_UNIT_KG;
  finding.source = is_out_of_level (item) ? check->scene->programme->plan->loads.out_of_level.source
                                          : TRN_SOURCE_MOMENTS;
  if (trn_progress_is_cancelled (check->options->progress))
    return finding;
  TrnCarried carried = trn_carried_make (check, move);
  g_assert (carried.main_holds && carried.tail_holds);
  finding.missing = missing_of (&carried, item);
  if (finding.missing != NULL)
    return finding;
  TrnExtremes found = find (&carried, item);
  const double leans_share = trn_load_lean_shares (check, move);
  if (item != TRN_SHARE_ITEM_HEIGHT && leans_share > 0) /* where that is not known it is said so */
    {
      found.least.lo -= leans_share;
      found.greatest.hi += leans_share;
    }
  if (!found.complete)
    {
      set_partly (&finding, &carried, &found, item);
      return finding;
    }
  if (item == TRN_SHARE_ITEM_HEIGHT)
    set_height (&finding, &carried, &found);
  else
    set_share (&finding, &carried, &found, item);
  return finding;
}

const char *
trn_load_share_item_name (TrnShareItem item)
{
  return names[item];
}

/* With the CoG anywhere in its box and all that the item takes into account. */
static gboolean
is_slack_at (const TrnCarried *carried, TrnShareItem item, double leans_share, double s)
{
  const guint n_forms = is_out_of_level (item) ? carried->share.n_forms : 1;
  for (guint i = 0; i < 8 * n_forms; i++)
    {
      const Question question
          = { carried, item, i % 8, is_out_of_level (item) ? &carried->share.forms[i / 8] : NULL };
      TrnJet share;
      if (!is_repeated (carried, i % 8) && ask (&question, trn_interval_point (s), &share)
          && trn_interval_middle (share.v) - leans_share < -FLUSH)
        return TRUE;
    }
  return FALSE;
}

double
trn_load_share_slack_from (const TrnLiftCheck *check, guint move, TrnShareItem item, double to)
{
  const TrnCarried carried = trn_carried_make (check, move);
  const double leans = trn_load_lean_shares (check, move), leans_share = isnan (leans) ? 0 : leans;
  if (item == TRN_SHARE_ITEM_HEIGHT)
    item
        = isnan (carried.out_of_level_rad) ? TRN_SHARE_ITEM_MAIN : TRN_SHARE_ITEM_MAIN_OUT_OF_LEVEL;
  if (!carried.share.tilts || is_slack_at (&carried, item, leans_share, 0))
    return 0;
  double taut = 0, slack = NAN;
  for (guint i = 1; i <= FROM_MOMENTS && isnan (slack); i++)
    {
      const double s = to * i / FROM_MOMENTS;
      if (is_slack_at (&carried, item, leans_share, s))
        slack = s;
      else
        taut = s;
    }
  for (guint k = 0; k < FROM_HALVINGS && !isnan (slack); k++)
    {
      const double middle = (taut + slack) / 2;
      if (is_slack_at (&carried, item, leans_share, middle))
        slack = middle;
      else
        taut = middle;
    }
  return isnan (slack) ? NAN : taut;
}

double
trn_load_share_at_kg (const TrnLiftCheck *check, guint move, gboolean is_tail, double s)
{
  TrnCarried carried = trn_carried_make (check, move);
  const TrnLift *lift = check->run->lift;
  const TrnMotion *motion = &check->run->motions[move];
  const TrnComponent *component = &check->scene->programme->plan->components[lift->component];
  TrnJet3 main, tail, cog;
  TrnInterval at = trn_interval_point (s);
  trn_motion_point_jet (motion, lift->hook.place, at, &main);
  trn_motion_point_jet (motion, lift->rigging.tail.point, at, &tail);
  trn_motion_point_jet (motion, component->cog, at, &cog);
  double share = trn_interval_middle (trn_share_tail_jet (&main, &tail, &cog).v);
  return carried.mass_kg * (is_tail ? share : 1 - share);
}
