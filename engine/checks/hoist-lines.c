/* Ropes are drawn plumb: the tip of a boom and the trolley of a gantry are put where the hook is
 * (rig.h). In truth the hook may be off from there by no more than the sum a of
 *   - what the lift's tolerances take it aside (gear-tolerance.c), the tip being where it is drawn:
 *     two cranes that hold one load do not follow it alike;
 *   - where two hooks hold the load and may be out of level: what that takes one of them aside,
 *     seen from the other (hook-force.c). The tips stay where they are drawn for that moment, in a
 *     tilt too, so that each rope may have to give way by all of it; of the tail hook what a turn
 * by the tolerance of tilt takes it is counted already;
 *   - what the wind takes the hook aside (wind-aside.h), and what it swings (swinging.h); of the
 *     tail hook these are among what tolerances take, as all that takes a point of the load aside;
 *   - what a tail gear that goes its own way drags the load aside, and the main hook with it: of a
 *     turning frame how far the tail point is drawn from the pivot, of a tail trolley how far it is
 *     drawn beside the track and beyond its ends.
 * A rope whose hook is l below the tip at least, o less where tolerances, or hooks out of level,
 * raise the hook by o, is then out of plumb by at most asin (a/(l − o)), since the hook keeps its
 * distance from the tip to within the length of the rope, which is no shorter than that. What a
 * crane bears of it is a matter of its maker: there is no limit but the plan's. */
#include "hoist-lines.h"

#include "gear-tolerance.h"
#include "hoist.h"
#include "hook-force.h"

#define WIDTH_M 1e-4

typedef struct
{
  double tolerance_m, level_m, wind_m, swing_m, drag_m;
  double raised_m; /* the hook, by hooks out of level */
} Aside;

gboolean
trn_hoist_lines_means (const TrnLiftCheck *check, const TrnHoist *hoist)
{
  const TrnGear *gear = trn_hoist_gear (check, hoist);
  return trn_hoist_place (check, hoist) != NULL
         && (gear->kind == TRN_GEAR_CRANE || gear->kind == TRN_GEAR_GANTRY);
}

/* ---- a tail gear that goes its own way ---- */

/* How far a quantity goes beyond @limits; NAN where it is not known. */
static double
beyond (const TrnLiftCheck *check, guint move, TrnRigQuantity quantity, TrnInterval limits)
{
  const TrnHoist *tail = &check->run->lift->rigging.tail;
  TrnExtremes found = trn_hoist_extremes (check, tail, move, quantity, 0, WIDTH_M);
  if (!found.complete)
    return NAN;
  return fmax (0, fmax (limits.lo - found.least.lo, found.greatest.hi - limits.hi));
}

static double
dragged (const TrnLiftCheck *check, const TrnHoist *hoist, guint move)
{
  const TrnHoist *tail = &check->run->lift->rigging.tail;
  const TrnInterval none = { 0, 0 };
  if (hoist == tail || !tail->given || move < tail->first_move || move > tail->last_move
      || trn_hoist_place (check, tail) == NULL)
    return 0;
  const TrnGear *gear = trn_hoist_gear (check, tail);
  if (gear->kind == TRN_GEAR_TURNING_FRAME)
    return beyond (check, move, TRN_RIG_POINT_OFF, none);
  if (gear->kind != TRN_GEAR_TAIL_TROLLEY)
    return 0;
  double side_m = beyond (check, move, TRN_RIG_HOOK_LOCAL_Y, none);
  double end_m
      = isnan (gear->track_m.lo) ? 0 : beyond (check, move, TRN_RIG_HOOK_LOCAL_X, gear->track_m);
  return isnan (side_m) || isnan (end_m) ? NAN : hypot (side_m, end_m);
}

/* ---- out of level ---- */

static void
set_level (const TrnLiftCheck *check, const TrnHoist *hoist, guint move, Aside *aside)
{
  const TrnLift *lift = check->run->lift;
  aside->level_m = trn_carried_make (check, move).level_aside_m;
  if (hoist != &lift->rigging.tail)
    return;
  const double level_m = check->allowances[move].level_m,
               apart_m = trn_vec3_distance (lift->rigging.tail.point, lift->hook.place);
  aside->tolerance_m -= level_m;
  aside->raised_m = level_m;
  aside->level_m -= 2 * apart_m * sin (fabs (lift->tolerance_tilt_rad) / 2);
  if (aside->level_m < 0)
    aside->level_m = 0;
}

/* ---- the finding ---- */

static const char *
aside_missing (const TrnLiftCheck *check, const Aside *aside, guint move)
{
  if (isnan (aside->tolerance_m) || isnan (aside->level_m) || isnan (aside->wind_m)
      || isnan (aside->swing_m))
    return trn_lift_check_off_missing (check, move);
  return isnan (aside->drag_m) ? "reach" : NULL;
}

static double
sum_of (const Aside *aside)
{
  return aside->tolerance_m + aside->level_m + aside->wind_m + aside->swing_m + aside->drag_m;
}

static void
set_values (TrnFinding *finding, const TrnGear *gear, const Aside *aside, double rope_m)
{
  double aside_m = sum_of (aside);
  gboolean is_bounded = aside_m < rope_m;
  finding->value = is_bounded ? trn_degrees (asin (aside_m / rope_m)) : 90;
  finding->limit = trn_degrees (gear->most_out_of_plumb_rad);
  trn_finding_add_number (finding, "rope", rope_m, TRN_UNIT_M);
  trn_finding_add_number (finding, "tolerances", aside->tolerance_m, TRN_UNIT_M);
  if (aside->level_m > 0)
    trn_finding_add_number (finding, "level-aside", aside->level_m, TRN_UNIT_M);
  trn_finding_add_number (finding, "wind-aside", aside->wind_m, TRN_UNIT_M);
  if (aside->swing_m > 0)
    trn_finding_add_number (finding, "swing-aside", aside->swing_m, TRN_UNIT_M);
  trn_finding_add_number (finding, "dragged", aside->drag_m, TRN_UNIT_M);
  if (isnan (finding->limit))
    {
      finding->missing = "out_of_plumb";
      return;
    }
  gboolean within = is_bounded && finding->value <= finding->limit;
  finding->margin = finding->limit - finding->value;
  finding->utilisation = finding->value / finding->limit;
  finding->verdict = within ? TRN_VERDICT_PASS : TRN_VERDICT_FAIL;
  finding->state = within ? TRN_STATE_WITHIN : TRN_STATE_OUTSIDE;
}

static Aside
find_aside (const TrnLiftCheck *check, const TrnHoist *hoist, guint move)
{
  const gboolean is_main = hoist == &check->run->lift->rigging.main;
  Aside aside = { .tolerance_m = trn_hook_tolerance (check, hoist, move),
                  .wind_m = is_main ? check->allowances[move].hook_wind_m : 0,
                  .swing_m = is_main ? check->allowances[move].hook_swing_m : 0,
                  .drag_m = dragged (check, hoist, move) };
  set_level (check, hoist, move, &aside);
  return aside;
}

/* The tip is H above the base and the rope at θ from plumb: H tan θ. Returns what is missing where
 * that is NAN. */
static const char *
pull_find (const TrnLiftCheck *check, const TrnHoist *hoist, guint move, double *pull_m)
{
  *pull_m = 0;
  if (!trn_hoist_lines_means (check, hoist))
    return NULL;
  const Aside aside = find_aside (check, hoist, move);
  const double aside_m = sum_of (&aside);
  if (aside_m == 0)
    return NULL;
  *pull_m = NAN;
  const char *missing = trn_rig_missing (check->run->rig, hoist, TRN_RIG_TIP_ABOVE_HOOK);
  if (missing == NULL)
    missing = aside_missing (check, &aside, move);
  if (missing != NULL)
    return missing;
  const TrnExtremes rope
      = trn_hoist_extremes (check, hoist, move, TRN_RIG_TIP_ABOVE_HOOK, 0, WIDTH_M);
  const TrnExtremes tip = trn_hoist_extremes (check, hoist, move, TRN_RIG_TIP_HEIGHT, 0, WIDTH_M);
  if (!rope.complete || !tip.complete)
    return "reach";
  const double rope_m = rope.least.lo - aside.tolerance_m - aside.raised_m;
  const double up_m = tip.greatest.hi - trn_hoist_place (check, hoist)->site_from_gear.position.z;
  if (!(aside_m < rope_m))
    return "tolerance";
  *pull_m = up_m * aside_m / sqrt (rope_m * rope_m - aside_m * aside_m);
  return NULL;
}

double
trn_hoist_lines_pull_aside (const TrnLiftCheck *check, const TrnHoist *hoist, guint move)
{
  double pull_m;
  (void)pull_find (check, hoist, move, &pull_m);
  return pull_m;
}

const char *
trn_hoist_lines_pull_missing (const TrnLiftCheck *check, const TrnHoist *hoist, guint move)
{
  double pull_m;
  return pull_find (check, hoist, move, &pull_m);
}

TrnFinding
trn_hoist_lines_judge (const TrnLiftCheck *check, const TrnHoist *hoist, guint move)
{
  TrnFinding finding = trn_lift_check_finding (check, TRN_CHECK_HOIST_LINES, (int)move, NULL, NAN);
  const TrnGear *gear = trn_hoist_gear (check, hoist);
  finding.body = gear->id;
  finding.unit = TRN_UNIT_DEG;
  finding.source = gear->out_of_plumb_source;
  if (trn_progress_is_cancelled (check->options->progress))
    return finding;
  const Aside aside = find_aside (check, hoist, move);
  finding.missing = trn_rig_missing (check->run->rig, hoist, TRN_RIG_TIP_ABOVE_HOOK);
  if (finding.missing == NULL)
    finding.missing = aside_missing (check, &aside, move);
  if (finding.missing != NULL)
    return finding;
  TrnExtremes rope = trn_hoist_extremes (check, hoist, move, TRN_RIG_TIP_ABOVE_HOOK, 0, WIDTH_M);
  double when = rope.complete ? rope.least_s : rope.missing_s;
  if (isfinite (when))
    {
      finding.progress = when;
      finding.time_s = trn_lift_check_time (check, move, when);
    }
  if (rope.complete)
    set_values (&finding, gear, &aside, rope.least.lo - aside.tolerance_m - aside.raised_m);
  else if (isfinite (when))
    finding.missing = "reach";
  return finding;
}
