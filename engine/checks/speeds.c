/* A drive whose place is q(s) goes at |q'| ds/dt: s goes evenly with time, or, where the plan says
 * how long drives take to come up to speed, at the rate between the ramps (swing.h). |q'| over a
 * span is at most that at its middle and half the span times |q″|; spans are halved until what is
 * attained is near enough, or they are many. */
#include "speeds.h"

#include "hoist.h"
#include "sources.h"
#include "swing.h"

#define NEAR_SHARE 0.02
#define MOST_HALVINGS 6
/* A second: more than rounding leaves of what does not move, in metres or radians. */
#define STILL 1e-6

static const struct
{
  const char *item;
  TrnUnit unit;
  TrnRigQuantity quantity;
} speeds[TRN_N_SPEEDS] = {
  [TRN_SPEED_LINE] = { "line", TRN_UNIT_M_S, TRN_RIG_TIP_ABOVE_HOOK },
  [TRN_SPEED_BOOM] = { "boom", TRN_UNIT_DEG_S, TRN_RIG_BOOM_ANGLE },
  [TRN_SPEED_SLEW] = { "slew", TRN_UNIT_DEG_S, TRN_RIG_SLEW },
  [TRN_SPEED_TRAVEL] = { "travel", TRN_UNIT_M_S, TRN_RIG_HOOK_X },
};

static gboolean
has_drive (TrnGearKind kind, TrnSpeed speed)
{
  switch (speed)
    {
    case TRN_SPEED_LINE:
      return kind == TRN_GEAR_CRANE || kind == TRN_GEAR_GANTRY;
    case TRN_SPEED_BOOM:
    case TRN_SPEED_SLEW:
      return kind == TRN_GEAR_CRANE;
    case TRN_SPEED_TRAVEL:
      return kind == TRN_GEAR_GANTRY || kind == TRN_GEAR_TAIL_TROLLEY;
    }
  g_assert_not_reached ();
}

gboolean
trn_speed_means (const TrnLiftCheck *check, const TrnHoist *hoist, TrnSpeed speed)
{
  return trn_hoist_place (check, hoist) != NULL
         && has_drive (trn_hoist_gear (check, hoist)->kind, speed)
         && trn_rig_missing (check->run->rig, hoist, speeds[speed].quantity) == NULL;
}

/* ---- over one move ---- */

/* |q'| and |q″| at most over @s; FALSE where it has none. */
static gboolean
ask (TrnRigQuestion question, TrnInterval s, double *first, double *second)
{
  TrnJet x, y = trn_jet_constant (0);
  gboolean is_known = trn_rig_ask (&question, s, &x) && trn_jet_is_smooth (&x);
  if (is_known && question.quantity == TRN_RIG_HOOK_X)
    {
      question.quantity = TRN_RIG_HOOK_Y;
      is_known = trn_rig_ask (&question, s, &y) && trn_jet_is_smooth (&y);
    }
  if (!is_known)
    return FALSE;
  *first = hypot (trn_interval_size (x.d), trn_interval_size (y.d));
  *second = hypot (trn_interval_size (x.dd), trn_interval_size (y.dd));
  return TRUE;
}

/* What is found so far of |q'|. */
typedef struct
{
  double attained, most;
} Found;

/* Raises @found to what it is over @s. FALSE where it has no value. */
static gboolean
raise_over (const TrnRigQuestion *question, TrnInterval s, guint halvings, Found *found)
{
  const double middle = trn_interval_middle (s);
  double at, over, second, ignored;
  if (!ask (*question, trn_interval_point (middle), &at, &ignored))
    return FALSE;
  found->attained = fmax (found->attained, at);
  const gboolean is_known = ask (*question, s, &over, &second);
  const double bound
      = is_known ? fmin (over, at + 0.5 * trn_interval_width (s) * second) : INFINITY;
  if (is_known && (halvings == 0 || bound <= (1 + NEAR_SHARE) * found->attained + STILL))
    {
      found->most = fmax (found->most, bound);
      return TRUE;
    }
  return halvings > 0 && raise_over (question, (TrnInterval){ s.lo, middle }, halvings - 1, found)
         && raise_over (question, (TrnInterval){ middle, s.hi }, halvings - 1, found);
}

/* The greatest over a move; NAN where it has no value. */
static double
greatest_of (const TrnRigQuestion *question)
{
  Found found = { 0, 0 };
  double at, ignored;
  for (guint end = 0; end < 2; end++)
    if (ask (*question, trn_interval_point (end), &at, &ignored))
      found.attained = fmax (found.attained, at);
  return raise_over (question, (TrnInterval){ 0, 1 }, MOST_HALVINGS, &found) ? found.most : NAN;
}

static double
rate_of (const TrnLiftCheck *check, guint move)
{
  const TrnRamp *ramp = &check->scene->programme->plan->loads.ramp;
  return trn_swing_rate (check->run->motions[move].seconds, ramp->given ? ramp->seconds : 0);
}

TrnFinding
trn_speed_judge (const TrnLiftCheck *check, const TrnHoist *hoist, TrnSpeed speed)
{
  const TrnLiftRun *run = check->run;
  TrnFinding finding = trn_lift_check_finding (check, TRN_CHECK_SPEEDS, -1, NULL, NAN);
  finding.body = trn_hoist_gear (check, hoist)->id;
  finding.item = speeds[speed].item;
  finding.unit = speeds[speed].unit;
  const TrnRamp *ramp = &check->scene->programme->plan->loads.ramp;
  finding.source = ramp->source != NULL ? ramp->source : TRN_SOURCE_MOVES;
  if (trn_progress_is_cancelled (check->options->progress))
    return finding;
  finding.verdict = TRN_VERDICT_NOTE;
  const double by = finding.unit == TRN_UNIT_DEG_S ? trn_degrees (1) : 1;
  double greatest = 0;
  for (guint i = hoist->first_move; finding.missing == NULL && i <= hoist->last_move; i++)
    {
      const TrnRigQuestion question
          = { .rig = run->rig, .hoist = hoist, .quantity = speeds[speed].quantity, .move = i };
      if (run->lift->moves[i].kind == TRN_MOVE_WAIT)
        continue;
      const double rate = greatest_of (&question) * rate_of (check, i);
      if (isnan (rate))
        finding.missing = "reach";
      if (!(rate > fmax (greatest, STILL)))
        continue;
      greatest = rate;
      finding.move = (int)i;
    }
  if (finding.missing != NULL)
    return finding;
  finding.value = greatest * by;
  finding.state = TRN_STATE_KNOWN;
  return finding;
}
