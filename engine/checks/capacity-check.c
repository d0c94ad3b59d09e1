/* The utilisation is the dynamic hook load over the rated capacity at the radius of the hook. Over
 * a span of time both are enclosed, the capacity being the least over all radii of the span widened
 * by what tolerances do to the hook; spans are halved until the greatest is known (worst.h). Beyond
 * the ends of a table there is no capacity: the finding fails there.
 *
 * Gear other than a crane has one capacity wherever it can go. */
#include "capacity-check.h"

#include <string.h>

#include "gear-tolerance.h"
#include "hoist.h"
#include "sources.h"

/* What rounding leaves of a radius that a plan gives for the way and for the table. */
#define FLUSH_M 1e-9

typedef struct
{
  const TrnHookForce *force;
  const TrnGear *gear;
  double off_m;
} Question;

/* Of the hook over @s; FALSE where it has none. */
static gboolean
radius_over (const Question *q, TrnInterval s, TrnInterval *radius)
{
  const TrnCarried *carried = &q->force->carried;
  TrnRigQuestion question
      = { carried->check->run->rig, q->force->hoist, TRN_RIG_RADIUS, carried->move, 0 };
  TrnJet jet;
  if (!trn_rig_ask (&question, s, &jet))
    return FALSE;
  *radius = (TrnInterval){ jet.v.lo - q->off_m, jet.v.hi + q->off_m };
  return TRUE;
}

/* What is beyond a row by rounding alone is on it. */
static TrnInterval
flush (const TrnGear *gear, TrnInterval radius)
{
  for (guint i = 0; i < gear->n_capacity; i++)
    {
      const double row_m = gear->capacity[i].radius_m;
      const gboolean is_lo = fabs (radius.lo - row_m) <= FLUSH_M,
                     is_hi = fabs (radius.hi - row_m) <= FLUSH_M;
      if ((is_lo && is_hi) || (is_lo && radius.lo < row_m))
        radius.lo = row_m;
      if ((is_lo && is_hi) || (is_hi && radius.hi > row_m))
        radius.hi = row_m;
    }
  return radius;
}

static gboolean
capacity_over (const Question *q, TrnInterval s, double *kg)
{
  const TrnGear *gear = q->gear;
  TrnInterval radius;
  if (gear->kind != TRN_GEAR_CRANE)
    {
      *kg = gear->capacity[0].mass_kg;
      return TRUE;
    }
  if (!radius_over (q, s, &radius))
    return FALSE;
  radius = flush (gear, radius);
  *kg = trn_capacity_over_kg (gear->capacity, gear->n_capacity, radius);
  return isfinite (*kg);
}

static gboolean
utilisation (gconstpointer data, TrnInterval s, TrnInterval *value)
{
  const Question *q = data;
  TrnInterval kg;
  double capacity_kg;
  if (!capacity_over (q, s, &capacity_kg) || !trn_hook_force_dynamic (q->force, s, &kg))
    return FALSE;
  *value = trn_interval_div (kg, trn_interval_point (capacity_kg));
  return trn_interval_is_value (*value);
}

/* ---- critical lifts ---- */

static guint
n_cranes (const TrnLiftCheck *check, guint move)
{
  const TrnHoist *hoists[2];
  guint n_hoists = trn_hoists_holding (check, move, hoists), n = 0;
  const TrnGear *first = NULL;
  for (guint i = 0; i < n_hoists; i++)
    {
      const TrnGear *gear = hoists[i] != NULL ? trn_hoist_gear (check, hoists[i]) : NULL;
      if (gear == NULL || gear->kind != TRN_GEAR_CRANE || gear == first)
        continue;
      first = gear;
      n++;
    }
  return n;
}

static gboolean
is_critical (const TrnLiftCheck *check, guint move, double share)
{
  const TrnCriticalChoice *choice = &check->scene->programme->plan->loads.critical;
  if (choice->kind == TRN_CRITICAL_SHARE)
    return share > choice->share;
  for (guint i = 0; choice->kind == TRN_CRITICAL_RULE && i < trn_critical_n_rules (); i++)
    {
      const TrnCriticalRule *rule = trn_critical_rule_get (i);
      if (strcmp (rule->name, choice->rule) == 0)
        return trn_critical_is (rule, share, n_cranes (check, move));
    }
  return FALSE;
}

static const char *
rule_name (const TrnLiftCheck *check)
{
  const TrnCriticalChoice *choice = &check->scene->programme->plan->loads.critical;
  return choice->kind == TRN_CRITICAL_RULE ? choice->rule : choice->source;
}

/* ---- the finding ---- */

/* The moments that govern. Just beyond a row of the table the next one holds, which no moment on
 * the row meets: what is borne and what it is held against are of the moments that do. */
static TrnInterval
governing (const TrnWorst *worst)
{
  const gboolean is_met = worst->bound <= worst->met * (1 + 2 * TRN_FORCE_SHARE);
  return is_met ? trn_interval_point (worst->met_s) : worst->bound_s;
}

static void
set_utilisation (TrnFinding *finding, const TrnLiftCheck *check, guint move, const Question *q,
                 const TrnWorst *worst)
{
  const TrnInterval at = governing (worst);
  TrnInterval radius;
  finding->progress = trn_interval_middle (at);
  finding->time_s = trn_lift_check_time (check, move, finding->progress);
  finding->utilisation = worst->bound;
  gboolean has_place = capacity_over (q, at, &finding->limit);
  g_assert (has_place);
  finding->value = worst->bound * finding->limit;
  finding->margin = finding->limit - finding->value;
  gboolean within = worst->bound <= 1;
  finding->verdict = within ? TRN_VERDICT_PASS : TRN_VERDICT_FAIL;
  finding->state = !within                                   ? TRN_STATE_OUTSIDE
                   : is_critical (check, move, worst->bound) ? TRN_STATE_CRITICAL
                                                             : TRN_STATE_WITHIN;
  finding->rule = rule_name (check);
  if (q->gear->kind == TRN_GEAR_CRANE && radius_over (q, at, &radius))
    {
      trn_finding_add_number (finding, "radius", radius.hi - q->off_m, TRN_UNIT_M);
      /* Without it nobody sees why the row of the table is another one. */
      if (q->off_m > 0)
        trn_finding_add_number (finding, "radius-most", radius.hi, TRN_UNIT_M);
    }
}

const char *
trn_capacity_missing (const TrnHookForce *force)
{
  const TrnLiftCheck *check = force->carried.check;
  const TrnGear *gear = trn_hoist_gear (check, force->hoist);
  if (trn_hoist_place (check, force->hoist) == NULL)
    return "at";
  if (gear->n_capacity == 0)
    return "capacity";
  return force->missing_dynamic;
}

TrnFinding
trn_capacity_judge (const TrnLiftCheck *check, const TrnHoist *hoist, guint move)
{
  TrnFinding finding = trn_lift_check_finding (check, TRN_CHECK_CAPACITY, (int)move, NULL, NAN);
  const TrnGear *gear = trn_hoist_gear (check, hoist);
  finding.body = gear->id;
  finding.unit = TRN_UNIT_KG;
  finding.source = gear->capacity_source != NULL ? gear->capacity_source : TRN_SOURCE_PLAN;
  if (trn_progress_is_cancelled (check->options->progress))
    return finding;
  TrnHookForce force = trn_hook_force_make (check, hoist, move);
  finding.missing = trn_capacity_missing (&force);
  if (finding.missing != NULL)
    return finding;
  Question question = { &force, gear, trn_hook_tolerance (check, hoist, move) };
  if (isnan (question.off_m))
    {
      finding.missing = trn_lift_check_off_missing (check, move);
      return finding;
    }
  TrnWorst worst = trn_worst_find (utilisation, &question, (TrnInterval){ 0, 1 }, TRN_FORCE_SHARE);
  if (worst.complete)
    set_utilisation (&finding, check, move, &question, &worst);
  else
    {
      finding.verdict = TRN_VERDICT_FAIL;
      finding.state = TRN_STATE_OUT_OF_REACH;
      finding.progress = worst.missing_s;
      finding.time_s = trn_lift_check_time (check, move, worst.missing_s);
    }
  return finding;
}

gboolean
trn_capacity_utilisation (const TrnHookForce *force, TrnInterval s, TrnInterval *value)
{
  Question question = { force, trn_hoist_gear (force->carried.check, force->hoist), 0 };
  return trn_capacity_missing (force) == NULL && utilisation (&question, s, value);
}
