/* For each corner of the box the least and the greatest share over the move are certified; over the
 * box they are the least and the greatest of these, since at each moment the share is affine in the
 * CoG. The height of the tail point above the CoG is affine too; the distance of the CoG from the
 * plumb plane is convex, so that its greatest is at a corner.
 *
 * A share below 0 is a line that would have to push: it goes slack, and the load falls into another
 * attitude. Above 1 the other line does. What is still open when shares are known to WIDTH counts
 * as below 0; what is 0 but for rounding does not: a tail that comes to hang plumb under its point
 * with nothing on it ends there. Where one point is plumb over the other, shares are not defined,
 * and the finding says unknown. */
#include "load-share.h"

#include <string.h>

#include "extreme.h"
#include "motion-jet.h"
#include "share-jet.h"

#define WIDTH 1e-6
#define WIDTH_M 1e-4
/* What rounding leaves of a share of 0 or 1. */
#define FLUSH 1e-9

static const char *const names[] = { "tail", "main", "tail-height", "out-of-plane" };

typedef struct
{
  const TrnCarried *carried;
  TrnShareItem item;
  guint corner;
} Question;

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

/* To the left of the way from main to tail. */
static TrnJet
aside_jet (const Question *q, TrnInterval s)
{
  const TrnLiftRun *run = q->carried->check->run;
  const TrnMotion *motion = &run->motions[q->carried->move];
  TrnVec3 points[3]
      = { run->lift->hook.place, run->lift->rigging.tail.point, q->carried->cog[q->corner] };
  TrnJet3 places[3];
  TrnJet x, y;
  trn_motion_points_jet (motion, 3, points, s, places);
  TrnJet3 d = trn_jet3_sub (places[1], places[0]), c = trn_jet3_sub (places[2], places[0]);
  trn_jet_direction (d.x, d.y, &x, &y);
  return trn_jet_sub (trn_jet_mul (c.y, x), trn_jet_mul (c.x, y));
}

static gboolean
ask (gconstpointer data, TrnInterval s, TrnJet *value)
{
  const Question *q = data;
  if (q->item == TRN_SHARE_ITEM_HEIGHT)
    *value = height_jet (q, s);
  else if (q->item == TRN_SHARE_ITEM_PLANE)
    *value = aside_jet (q, s);
  else
    *value = trn_carried_tail_jet (q->carried, q->corner, s);
  if (q->item == TRN_SHARE_ITEM_MAIN)
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

/* Over the box. */
static TrnExtremes
find (const TrnCarried *carried, TrnShareItem item)
{
  TrnExtremes all = { .least = { INFINITY, INFINITY },
                      .greatest = { -INFINITY, -INFINITY },
                      .complete = TRUE,
                      .missing_s = NAN };
  gboolean is_share = item == TRN_SHARE_ITEM_TAIL || item == TRN_SHARE_ITEM_MAIN;
  for (guint corner = 0; corner < 8; corner++)
    {
      if (is_repeated (carried, corner))
        continue;
      Question question = { carried, item, corner };
      TrnExtremes one
          = trn_extremes_find (ask, &question, (TrnInterval){ 0, 1 }, is_share ? WIDTH : WIDTH_M);
      if (!one.complete)
        return one;
      if (one.least.lo < all.least.lo)
        {
          all.least = one.least;
          all.least_s = one.least_s;
        }
      if (one.greatest.hi > all.greatest.hi)
        {
          all.greatest = one.greatest;
          all.greatest_s = one.greatest_s;
        }
    }
  return all;
}

static gboolean
is_tail_below_cog (const TrnCarried *carried, double s)
{
  for (guint corner = 0; corner < 8; corner++)
    {
      Question question = { carried, TRN_SHARE_ITEM_HEIGHT, corner };
      TrnJet height = height_jet (&question, trn_interval_point (s));
      if (height.v.lo < 0)
        return TRUE;
    }
  return FALSE;
}

static void
set_time (TrnFinding *finding, const TrnCarried *carried, double s)
{
  const TrnMotion *motion = &carried->check->run->motions[carried->move];
  finding->progress = s;
  finding->time_s = trn_lift_check_time (carried->check, carried->move, s);
  trn_finding_add_number (finding, "turned", s * fabs (motion->angle_rad) * 180 / G_PI,
                          TRN_UNIT_DEG);
}

static void
set_share (TrnFinding *finding, const TrnCarried *carried, const TrnExtremes *found)
{
  gboolean is_slack = found->least.lo < -FLUSH, is_tail = finding->item == names[0];
  finding->utilisation = fmax (0, found->greatest.hi);
  finding->value = finding->utilisation * carried->mass_kg;
  finding->verdict = is_slack ? TRN_VERDICT_FAIL : TRN_VERDICT_PASS;
  finding->state = is_slack ? TRN_STATE_SLACK : TRN_STATE_KNOWN;
  if (is_slack && !is_tail && is_tail_below_cog (carried, found->least_s))
    finding->state = TRN_STATE_OVER_TAIL;
  set_time (finding, carried, is_slack ? found->least_s : found->greatest_s);
  trn_finding_add_number (finding, "least", found->least.lo * carried->mass_kg, TRN_UNIT_KG);
}

static void
set_length (TrnFinding *finding, const TrnCarried *carried, const TrnExtremes *found,
            TrnShareItem item)
{
  gboolean is_height = item == TRN_SHARE_ITEM_HEIGHT;
  gboolean is_left = found->greatest.hi >= -found->least.lo;
  double aside_m = fmax (found->greatest.hi, -found->least.lo);
  gboolean is_note = is_height ? found->least.lo < 0 : aside_m > WIDTH_M;
  finding->unit = TRN_UNIT_M;
  finding->value = is_height ? found->least.lo : aside_m;
  finding->verdict = is_note ? TRN_VERDICT_NOTE : TRN_VERDICT_PASS;
  finding->state = TRN_STATE_KNOWN;
  set_time (finding, carried, is_height || !is_left ? found->least_s : found->greatest_s);
}

TrnFinding
trn_load_share_judge (const TrnLiftCheck *check, guint move, TrnShareItem item)
{
  const TrnRigging *rigging = &check->run->lift->rigging;
  TrnFinding finding = trn_lift_check_finding (check, TRN_CHECK_LOAD_SHARE, (int)move, NULL, NAN);
  finding.body = item == TRN_SHARE_ITEM_MAIN
                     ? trn_hoist_body (check, rigging->main.given ? &rigging->main : NULL)
                     : trn_hoist_body (check, &rigging->tail);
  finding.item = names[item];
  finding.unit = TRN_UNIT_KG;
  if (trn_progress_is_cancelled (check->options->progress))
    return finding;
  TrnCarried carried = trn_carried_make (check, move);
  g_assert (carried.main_holds && carried.tail_holds);
  finding.missing = isnan (carried.mass_kg) ? "mass" : carried.has_cog ? NULL : "cog";
  if (finding.missing != NULL)
    return finding;
  TrnExtremes found = find (&carried, item);
  if (!found.complete)
    {
      if (isfinite (found.missing_s))
        set_time (&finding, &carried, found.missing_s);
      finding.missing = isfinite (found.missing_s) ? "in-line" : NULL;
      return finding;
    }
  if (item == TRN_SHARE_ITEM_TAIL || item == TRN_SHARE_ITEM_MAIN)
    set_share (&finding, &carried, &found);
  else
    set_length (&finding, &carried, &found, item);
  return finding;
}

double
trn_load_share_at_kg (const TrnLiftCheck *check, guint move, gboolean is_tail, double s)
{
  TrnCarried carried = trn_carried_make (check, move);
  const TrnLift *lift = check->run->lift;
  const TrnMotion *motion = &check->run->motions[move];
  const TrnComponent *component = &check->scene->programme->plan->components[lift->component];
  TrnVec3 points[3] = { lift->hook.place, lift->rigging.tail.point, component->cog };
  TrnJet3 places[3];
  trn_motion_points_jet (motion, 3, points, trn_interval_point (s), places);
  double share = trn_interval_middle (trn_share_tail_jet (&places[0], &places[1], &places[2]).v);
  return carried.mass_kg * (is_tail ? share : 1 - share);
}
