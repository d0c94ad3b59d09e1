/* The sector. Over each move of the crane's hoist the slew angle runs between certified extremes,
 * without jumps; from one move to the next it may jump by whole turns, which are taken out, since
 * the boom itself does not jump. The counterweight is opposite the boom, and its outer edge reaches
 * asin (width / 2 r) to either side of its middle. A hook that is off by o turns the boom by at
 * most asin (o / the least radius). Where an angle is not known for certain the sector is all
 * round: more than the truth, never less. */
#include "tail-swing.h"

#include <string.h>

#include "gear-tolerance.h"
#include "hoist.h"

#define SLEW_WIDTH_RAD 1e-4 /* what the sector may be wider than the truth */
#define FLUSH_M 1e-9
#define FULL_TURN (2 * G_PI)

/* Of the hoist that the crane at @place holds the load by; NULL: it is not in use. */
static const TrnHoist *
hoist_of (const TrnLiftCheck *check, const TrnGearPlace *place)
{
  const TrnRigging *rigging = &check->run->lift->rigging;
  const TrnHoist *hoists[] = { &rigging->main, &rigging->tail };
  for (guint i = 0; rigging->given && i < G_N_ELEMENTS (hoists); i++)
    if (trn_hoist_gear (check, hoists[i]) == place->gear)
      return hoists[i];
  return NULL;
}

/* How far tolerances turn the boom in that move; G_PI: any way round. */
static double
slew_tolerance (const TrnLiftCheck *check, const TrnHoist *hoist, guint move)
{
  double off_m = trn_hook_tolerance (check, hoist, move);
  if (off_m == 0)
    return 0;
  TrnExtremes radius = trn_hoist_extremes (check, hoist, move, TRN_RIG_RADIUS, 0, check->certify_m);
  return radius.complete && radius.least.lo > off_m ? asin (off_m / radius.least.lo) : G_PI;
}

/* The slew angles over the lift. FALSE: all round. */
static gboolean
find_slew (const TrnLiftCheck *check, const TrnHoist *hoist, TrnInterval *slew)
{
  double last = NAN;
  *slew = (TrnInterval){ INFINITY, -INFINITY };
  for (guint move = hoist->first_move; move <= hoist->last_move; move++)
    {
      TrnExtremes found = trn_hoist_extremes (check, hoist, move, TRN_RIG_SLEW, 0, SLEW_WIDTH_RAD);
      double first = trn_hoist_value (check, hoist, move, 0, TRN_RIG_SLEW, 0);
      double off = slew_tolerance (check, hoist, move);
      if (!found.complete || isnan (first))
        return FALSE;
      double turns = isnan (last) ? 0 : round ((last - first) / FULL_TURN) * FULL_TURN;
      slew->lo = fmin (slew->lo, found.least.lo + turns - off);
      slew->hi = fmax (slew->hi, found.greatest.hi + turns + off);
      last = trn_hoist_value (check, hoist, move, 1, TRN_RIG_SLEW, 0) + turns;
    }
  return TRUE;
}

static void
set_sector (const TrnLiftCheck *check, TrnTailSwing *tail)
{
  const TrnGear *gear = tail->place->gear;
  const TrnHoist *hoist = hoist_of (check, tail->place);
  TrnInterval slew = { 0, 0 };
  TrnSwing *swing = &tail->swing;
  if (hoist == NULL && !gear->has_park)
    {
      tail->missing = "park";
      return;
    }
  if (hoist != NULL)
    {
      tail->missing = trn_rig_missing (check->run->rig, hoist, TRN_RIG_SLEW);
      swing->full = tail->missing == NULL && !find_slew (check, hoist, &slew);
    }
  else if (gear->park.x == 0 && gear->park.y == 0)
    swing->full = TRUE;
  else
    slew.lo = slew.hi = atan2 (gear->park.y, gear->park.x);
  double half = gear->counterweight_width_m / 2 / gear->tail_radius_m;
  double beside = half < 1 ? asin (half) : G_PI / 2;
  swing->from_rad = slew.lo + G_PI - beside;
  swing->width_rad = slew.hi - slew.lo + 2 * beside;
  swing->full |= !(swing->width_rad < FULL_TURN);
  if (swing->full)
    swing->width_rad = FULL_TURN;
}

gboolean
trn_tail_swing_make (const TrnLiftCheck *check, guint index, TrnTailSwing *tail)
{
  const TrnGearPlace *place = &check->run->rig->places[index];
  const TrnGear *gear = place->gear;
  if (gear->kind != TRN_GEAR_CRANE || !gear->has_counterweight)
    return FALSE;
  const TrnPose *pose = &place->site_from_gear;
  *tail = (TrnTailSwing){ .place = place };
  tail->swing = (TrnSwing){ .rotates = TRUE,
                            .radius_m = gear->tail_radius_m,
                            .origin = pose->position,
                            .x = trn_rotation_apply (&pose->turn, trn_vec3_make (1, 0, 0)),
                            .y = trn_rotation_apply (&pose->turn, trn_vec3_make (0, 1, 0)),
                            .z = { 0, 0, 1 },
                            .lo_m = gear->counterweight_bottom_m - FLUSH_M,
                            .hi_m = gear->counterweight_top_m + FLUSH_M };
  set_sector (check, tail);
  return TRUE;
}

gboolean
trn_tail_swing_means (const TrnLiftCheck *check, const TrnTailSwing *tail, guint obstacle)
{
  const TrnGear *gear = tail->place->gear;
  const TrnObstacle *other = &check->obstacles[obstacle];
  g_autofree char *counterweight = g_strconcat (gear->id, "/counterweight", NULL);
  return strcmp (other->standing->id, gear->id) != 0
         && !trn_rig_is_connected (check->run->rig, counterweight, other->body->id, 0);
}

static TrnVerdict
verdict_of (const TrnFinding *finding, const TrnGear *gear)
{
  double need_m = finding->radius_m + finding->allowance_m + finding->required_m;
  /* NAN: there is nothing. */
  if (finding->sector_distance_m < need_m)
    return TRN_VERDICT_FAIL;
  if (finding->circle_distance_m < need_m
      || finding->circle_distance_m - finding->allowance_m < gear->barricade_m)
    return TRN_VERDICT_NOTE;
  return TRN_VERDICT_PASS;
}

TrnFinding
trn_tail_swing_judge (const TrnLiftCheck *check, const TrnTailSwing *tail, guint obstacle)
{
  const TrnGear *gear = tail->place->gear;
  const TrnObstacle *other = &check->obstacles[obstacle];
  const TrnPlan *plan = check->scene->programme->plan;
  double required_m = trn_plan_gear_required_m (plan, check->run->lift, gear, other->standing->id);
  TrnFinding finding
      = trn_lift_check_finding (check, TRN_CHECK_TAIL_SWING, -1, other->body->id, required_m);
  finding.body = gear->id;
  finding.allowance_m = trn_lift_check_stands_off (check, obstacle) + other->body->off_m;
  if (trn_progress_is_cancelled (check->options->progress))
    return finding;
  finding.radius_m = gear->tail_radius_m;
  finding.missing = isnan (required_m)            ? "keep_clear"
                    : isnan (finding.allowance_m) ? TRN_MISSING_ATTITUDE_BEFORE
                                                  : tail->missing;
  if (finding.missing != NULL)
    return finding;
  TrnSwingReach reach = trn_swing_reach (other, &tail->swing);
  finding.circle_distance_m = isfinite (reach.circle_m) ? reach.circle_m : NAN;
  finding.sector_distance_m = isfinite (reach.sector_m) ? reach.sector_m : NAN;
  finding.verdict = verdict_of (&finding, gear);
  finding.state = finding.verdict == TRN_VERDICT_PASS ? TRN_STATE_CLEAR : TRN_STATE_SHORT;
  return finding;
}

TrnFinding
trn_barricade_judge (const TrnLiftCheck *check, const TrnTailSwing *tail)
{
  const TrnGear *gear = tail->place->gear;
  const TrnPlan *plan = check->scene->programme->plan;
  TrnFinding finding = trn_lift_check_finding (check, TRN_CHECK_TAIL_SWING, -1, NULL, NAN);
  finding.body = gear->id;
  finding.item = "barricade";
  finding.unit = TRN_UNIT_M;
  double keep_m = trn_plan_gear_required_m (plan, check->run->lift, gear, "load");
  keep_m = isnan (gear->keep_clear_m) ? keep_m : gear->keep_clear_m;
  finding.missing = isnan (gear->barricade_m) ? "barricade" : isnan (keep_m) ? "keep_clear" : NULL;
  if (finding.missing != NULL)
    return finding;
  finding.value = gear->tail_radius_m + keep_m;
  finding.limit = gear->barricade_m;
  finding.margin = finding.limit - finding.value;
  if (finding.margin < 0 && finding.margin >= -FLUSH_M)
    finding.margin = 0;
  finding.verdict = finding.margin >= 0 ? TRN_VERDICT_PASS : TRN_VERDICT_FAIL;
  finding.state = finding.margin >= 0 ? TRN_STATE_WITHIN : TRN_STATE_OUTSIDE;
  return finding;
}
