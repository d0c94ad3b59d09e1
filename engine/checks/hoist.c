#include "hoist.h"

#include "tolerances.h"

/* What rounding leaves of a number that a plan gives for both the way and its limit: it must not
 * decide. */
#define FLUSH 1e-9

static const TrnInterval whole = { 0, 1 };

const TrnGear *
trn_hoist_gear (const TrnLiftCheck *check, const TrnHoist *hoist)
{
  const TrnPlan *plan = check->scene->programme->plan;
  return hoist->given && hoist->gear < plan->n_gear ? &plan->gear[hoist->gear] : NULL;
}

const TrnGearPlace *
trn_hoist_place (const TrnLiftCheck *check, const TrnHoist *hoist)
{
  const TrnGear *gear = trn_hoist_gear (check, hoist);
  const TrnRig *rig = check->run->rig;
  for (guint i = 0; gear != NULL && rig != NULL && i < rig->n_places; i++)
    if (rig->places[i].gear == gear)
      return &rig->places[i];
  return NULL;
}

static TrnRigQuestion
question_of (const TrnLiftCheck *check, const TrnHoist *hoist, guint move, TrnRigQuantity quantity,
             guint index)
{
  /* Keys of the cache rely on it (task-cache.c). */
  g_assert (move >= hoist->first_move && move <= hoist->last_move);
  return (TrnRigQuestion){
    .rig = check->run->rig, .hoist = hoist, .quantity = quantity, .move = move, .index = index
  };
}

TrnExtremes
trn_hoist_extremes (const TrnLiftCheck *check, const TrnHoist *hoist, guint move,
                    TrnRigQuantity quantity, guint index, double width)
{
  TrnRigQuestion question = question_of (check, hoist, move, quantity, index);
  return trn_extremes_find (trn_rig_ask, &question, whole, width);
}

double
trn_hoist_value (const TrnLiftCheck *check, const TrnHoist *hoist, guint move, double s,
                 TrnRigQuantity quantity, guint index)
{
  TrnRigQuestion question = question_of (check, hoist, move, quantity, index);
  TrnJet value;
  if (!trn_rig_ask (&question, (TrnInterval){ s, s }, &value))
    return NAN;
  return trn_interval_middle (value.v);
}

/* ---- extremes against limits ---- */

/* Whether it is not known yet on which side of a limit the true extreme lies. */
static gboolean
is_open (const TrnExtremes *found, const TrnHoistLimit *limit)
{
  double lo = limit->limits.lo + limit->allowance.lo, hi = limit->limits.hi - limit->allowance.hi;
  return (found->least.lo < lo - FLUSH && found->least.hi >= lo - FLUSH)
         || (found->greatest.hi > hi + FLUSH && found->greatest.lo <= hi + FLUSH);
}

static TrnExtremes
find (const TrnLiftCheck *check, const TrnHoist *hoist, guint move, const TrnHoistLimit *limit)
{
  double width = check->certify_m;
  TrnExtremes found = trn_hoist_extremes (check, hoist, move, limit->quantity, limit->index, width);
  while (found.complete && is_open (&found, limit) && width > TRN_CONTACT_M)
    {
      width = fmax (width / 10, TRN_CONTACT_M);
      found = trn_hoist_extremes (check, hoist, move, limit->quantity, limit->index, width);
    }
  return found;
}

static void
set_value (TrnFinding *finding, const TrnLiftCheck *check, guint move, const TrnExtremes *found,
           const TrnHoistLimit *limit)
{
  double below = found->least.lo - limit->limits.lo - limit->allowance.lo;
  double above = limit->limits.hi - limit->allowance.hi - found->greatest.hi;
  gboolean is_low = below < above;
  double margin = is_low ? below : above, scale = limit->unit == TRN_UNIT_DEG ? 180 / G_PI : 1;
  if (margin < 0 && margin >= -FLUSH)
    margin = 0;
  finding->value = (is_low ? found->least.lo : found->greatest.hi) * scale;
  finding->limit = (is_low ? limit->limits.lo : limit->limits.hi) * scale;
  finding->limit_is_least = is_low;
  finding->allowance_m = (is_low ? limit->allowance.lo : limit->allowance.hi) * scale;
  finding->margin = margin * scale;
  finding->progress = is_low ? found->least_s : found->greatest_s;
  finding->time_s = trn_lift_check_time (check, move, finding->progress);
  finding->verdict = margin >= 0 ? TRN_VERDICT_PASS : TRN_VERDICT_FAIL;
  finding->state = margin >= 0 ? TRN_STATE_WITHIN : TRN_STATE_OUTSIDE;
}

/* There is no value at some moment, though nothing is left out: the gear cannot go there. */
static void
set_out_of_reach (TrnFinding *finding, const TrnLiftCheck *check, guint move, double missing_s)
{
  if (!isfinite (missing_s))
    return; /* cut short */
  finding->state = TRN_STATE_OUT_OF_REACH;
  finding->verdict = TRN_VERDICT_FAIL;
  finding->progress = missing_s;
  finding->time_s = trn_lift_check_time (check, move, missing_s);
}

TrnFinding
trn_hoist_judge (const TrnLiftCheck *check, TrnCheckKind kind, const TrnHoist *hoist, guint move,
                 const char *body, const TrnHoistLimit *limit)
{
  TrnFinding finding = trn_lift_check_finding (check, kind, (int)move, NULL, NAN);
  finding.body = body;
  finding.item = limit->item;
  finding.unit = limit->unit;
  if (trn_progress_is_cancelled (check->options->progress))
    return finding;
  finding.missing = trn_rig_missing (check->run->rig, hoist, limit->quantity);
  if (finding.missing == NULL && (isnan (limit->limits.lo) || isnan (limit->limits.hi)))
    finding.missing = limit->missing;
  if (finding.missing != NULL)
    return finding;
  if (isnan (limit->allowance.lo) || isnan (limit->allowance.hi))
    {
      finding.missing = trn_lift_check_off_missing (check, move);
      return finding;
    }
  TrnExtremes found = find (check, hoist, move, limit);
  if (found.complete)
    set_value (&finding, check, move, &found, limit);
  else
    set_out_of_reach (&finding, check, move, found.missing_s);
  return finding;
}
