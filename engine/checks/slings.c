/* Tensions are those under the dynamic hook load, with the weight of all rigging below the hook,
 * against the working load limit times the standard acceleration of free fall.
 *
 * Shackles. What the pull aside leaves of one (sling-rating.h) is its limit at the moment that
 * governs, at which tension over what is left is greatest. Where the plan does not say how the pin
 * lies, or nothing bounds what the load may be turned by, any way is possible: what is left at a
 * right angle is enough, or more than all is too much, and nothing is known between.
 *
 * Moment of a beam. Held at its middle it is bent by what hangs from its ends and by its own
 * weight. Held at its ends its own weight alone bends it, by m g L/8. Compression and moment are
 * numbers for whoever designs the beam.
 *
 * Load on a beam. Its working load limit is taken to be for a load that hangs from both ends alike
 * (common practice, no source), so that what counts is twice what the end with more of it
 * carries. */
#include "slings.h"

#include "beam-end.h"
#include "gravity.h"
#include "hoist.h"
#include "sling.h"
#include "sling-rating.h"
#include "sources.h"

/* What rounding leaves of a leg that bears nothing, as a share of the load. */
#define FLUSH 1e-9

static const char *const names[]
    = { "tension", "angle", "shackle", "compression", "moment", "beam-load" };

/* Of what limits it, or of the number where nothing does. */
static const char *const sources[]
    = { TRN_SOURCE_PLAN,   TRN_SOURCE_PRACTICE, TRN_SHACKLE_SIDE_SOURCE,
        TRN_SOURCE_FORCES, TRN_SOURCE_BENDING,  TRN_SOURCE_PLAN };

static const TrnUnit units[]
    = { TRN_UNIT_N, TRN_UNIT_DEG, TRN_UNIT_N, TRN_UNIT_N, TRN_UNIT_NM, TRN_UNIT_N };

gboolean
trn_slings_has (const TrnHoist *hoist, TrnSlingsItem item, guint index)
{
  if (item >= TRN_SLINGS_COMPRESSION)
    return hoist->has_beam && index == 0;
  const TrnShackle *shackle = &hoist->slings[index].shackle;
  return item != TRN_SLINGS_SHACKLE || shackle->id != NULL || isfinite (shackle->mass_kg)
         || isfinite (shackle->wll_kg);
}

static const char *
find_missing (const TrnHookForce *force, TrnSlingsItem item, guint index)
{
  const TrnHoist *hoist = force->hoist;
  const char *missing = trn_sling_force_missing (force, item != TRN_SLINGS_ANGLE);
  if (missing != NULL)
    return missing;
  if (item == TRN_SLINGS_TENSION && isnan (hoist->slings[index].wll_kg))
    return "wll";
  if (item == TRN_SLINGS_SHACKLE && isnan (hoist->slings[index].shackle.wll_kg))
    return "shackle/wll";
  if (item == TRN_SLINGS_BEAM_LOAD && isnan (hoist->beam.wll_kg))
    return "beam/wll";
  return NULL;
}

static TrnWorst
find (const TrnHookForce *force, TrnSlingQuantity quantity, guint index)
{
  TrnSlingQuestion question = { force, quantity, index };
  TrnInterval span = trn_sling_force_span (force->carried.check, force->carried.move);
  return trn_worst_find (trn_sling_force_ask, &question, span, TRN_FORCE_SHARE);
}

static void
set_time (TrnFinding *finding, const TrnHookForce *force, double s)
{
  finding->progress = s;
  finding->time_s = trn_lift_check_time (force->carried.check, force->carried.move, s);
}

/* What is left of a shackle whose pin may lie any way. @missing: without which. */
static double
any_way_left (TrnFinding *finding, double tension_n, const char *missing)
{
  if (tension_n > finding->limit)
    return 1;
  if (tension_n > finding->limit * TRN_SHACKLE_SIDE_LEAST)
    finding->missing = missing;
  return TRN_SHACKLE_SIDE_LEAST;
}

/* At the moment that governs. */
static double
left_aside (const TrnHookForce *force, guint index, double s, double *aside_deg)
{
  const TrnSlingQuestion question = { force, TRN_SLING_ASIDE, index };
  TrnInterval sine;
  if (!trn_sling_force_ask (&question, trn_interval_point (s), &sine))
    return TRN_SHACKLE_SIDE_LEAST;
  *aside_deg = sine.hi <= TRN_SLING_LEAST_ASIDE ? 0 : asin (sine.hi) * 180 / G_PI;
  return trn_shackle_side_factor (asin (sine.hi));
}

static void
set_tension (TrnFinding *finding, const TrnHookForce *force, TrnSlingsItem item, guint index)
{
  const TrnSling *sling = &force->hoist->slings[index];
  const gboolean is_shackle = item == TRN_SLINGS_SHACKLE;
  const gboolean is_drawn = isfinite (sling->shackle.pin.x),
                 has_pin = is_shackle && is_drawn && trn_sling_force_knows_turn (force);
  TrnWorst push = find (force, TRN_SLING_PUSH, index);
  TrnWorst tension = find (force, has_pin ? TRN_SLING_SHACKLE : TRN_SLING_TENSION, index);
  finding->limit = (is_shackle ? sling->shackle.wll_kg : sling->wll_kg) * TRN_GRAVITY_M_S2;
  if (!tension.complete)
    {
      /* A leg that does not go down at some moment holds nothing. */
      finding->verdict = TRN_VERDICT_FAIL;
      finding->state = TRN_STATE_SLACK;
      set_time (finding, force, tension.missing_s);
      return;
    }
  gboolean pushes = push.bound > FLUSH * tension.bound;
  double left = 1, aside_deg = NAN;
  if (has_pin)
    left = left_aside (force, index, tension.met_s, &aside_deg);
  else if (is_shackle)
    left = any_way_left (finding, tension.bound, is_drawn ? "shackle/turned" : "shackle/pin");
  finding->value = has_pin ? tension.bound * left : tension.bound;
  finding->limit *= left;
  finding->margin = finding->limit - finding->value;
  finding->utilisation = finding->value / finding->limit;
  set_time (finding, force, pushes ? push.met_s : tension.met_s);
  if (is_shackle)
    trn_finding_add_number (finding, "side-factor", left, TRN_UNIT_NONE);
  if (has_pin)
    trn_finding_add_number (finding, "aside", aside_deg, TRN_UNIT_DEG);
  if (finding->missing != NULL && !pushes)
    return;
  finding->missing = NULL;
  finding->verdict = finding->margin >= 0 && !pushes ? TRN_VERDICT_PASS : TRN_VERDICT_FAIL;
  finding->state = pushes                 ? TRN_STATE_SLACK
                   : finding->margin >= 0 ? TRN_STATE_WITHIN
                                          : TRN_STATE_OUTSIDE;
}

static void
set_angle (TrnFinding *finding, const TrnHookForce *force, guint index)
{
  TrnWorst flat = find (force, TRN_SLING_FLATNESS, index);
  if (!flat.complete)
    {
      /* As a leg that the load turns is as flat as its forces make it. */
      finding->missing = trn_sling_force_missing (force, TRUE);
      if (finding->missing == NULL)
        finding->missing = trn_lift_check_off_missing (force->carried.check, force->carried.move);
      return;
    }
  finding->value = asin (CLAMP (-flat.bound, -1, 1)) * 180 / G_PI;
  finding->limit = TRN_SLING_LEAST_ANGLE_DEG;
  finding->margin = finding->value - finding->limit;
  finding->verdict = finding->margin >= -FLUSH ? TRN_VERDICT_PASS : TRN_VERDICT_FAIL;
  finding->state = finding->margin >= -FLUSH ? TRN_STATE_WITHIN : TRN_STATE_OUTSIDE;
  set_time (finding, force, flat.met_s);
}

/* ---- beams ---- */

typedef struct
{
  const TrnHookForce *force;
} BeamQuestion;

static gboolean
moment (gconstpointer data, TrnInterval s, TrnInterval *value)
{
  const TrnHookForce *force = ((const BeamQuestion *)data)->force;
  const TrnHoist *hoist = force->hoist;
  TrnInterval end, factor;
  if (!trn_beam_end_n (force, s, &end) || !trn_hook_force_factor (force, s, &factor))
    return FALSE;
  double own_n = hoist->beam.mass_kg * factor.hi * TRN_GRAVITY_M_S2;
  double half_m = hoist->beam.length_m / 2, greatest;
  gboolean has_upper = FALSE;
  for (guint i = 0; i < hoist->n_slings; i++)
    has_upper = has_upper || hoist->slings[i].to_beam;
  if (has_upper)
    greatest = own_n * hoist->beam.length_m / 8;
  else
    greatest = trn_beam_moment_nm (half_m, half_m, end.hi, end.hi, own_n);
  *value = trn_interval_widen (greatest, greatest, 1e-12);
  return trn_interval_is_value (*value);
}

static gboolean
beam_load (gconstpointer data, TrnInterval s, TrnInterval *value)
{
  TrnInterval end;
  if (!trn_beam_end_n (((const BeamQuestion *)data)->force, s, &end))
    return FALSE;
  *value = trn_interval_scale (trn_interval_point (end.hi), 2);
  return TRUE;
}

static TrnEnclosure
ask_of_beam (TrnSlingsItem item)
{
  return item == TRN_SLINGS_MOMENT ? moment : beam_load;
}

gboolean
trn_slings_beam_ask (const TrnHookForce *force, TrnSlingsItem item, TrnInterval s,
                     TrnInterval *value)
{
  const TrnSlingQuestion compression = { force, TRN_BEAM_COMPRESSION, 0 };
  const BeamQuestion question = { force };
  g_assert (item >= TRN_SLINGS_COMPRESSION && item < TRN_N_SLINGS_ITEMS);
  return item == TRN_SLINGS_COMPRESSION ? trn_sling_force_ask (&compression, s, value)
                                        : ask_of_beam (item) (&question, s, value);
}

static void
set_beam (TrnFinding *finding, const TrnHookForce *force, TrnSlingsItem item)
{
  BeamQuestion question = { force };
  TrnInterval span = trn_sling_force_span (force->carried.check, force->carried.move);
  TrnWorst worst = item == TRN_SLINGS_COMPRESSION
                       ? find (force, TRN_BEAM_COMPRESSION, 0)
                       : trn_worst_find (ask_of_beam (item), &question, span, TRN_FORCE_SHARE);
  if (!worst.complete)
    return;
  finding->value = worst.bound;
  set_time (finding, force, worst.met_s);
  if (item == TRN_SLINGS_BEAM_LOAD)
    {
      finding->limit = force->hoist->beam.wll_kg * TRN_GRAVITY_M_S2;
      finding->margin = finding->limit - finding->value;
      finding->utilisation = finding->value / finding->limit;
      finding->verdict = finding->margin >= 0 ? TRN_VERDICT_PASS : TRN_VERDICT_FAIL;
      finding->state = finding->margin >= 0 ? TRN_STATE_WITHIN : TRN_STATE_OUTSIDE;
      return;
    }
  finding->verdict = TRN_VERDICT_NOTE;
  finding->state = TRN_STATE_KNOWN;
}

TrnFinding
trn_slings_judge (const TrnLiftCheck *check, const TrnHoist *hoist, guint move, TrnSlingsItem item,
                  guint index)
{
  TrnFinding finding = trn_lift_check_finding (check, TRN_CHECK_SLINGS, (int)move, NULL, NAN);
  gboolean is_beam = item >= TRN_SLINGS_COMPRESSION;
  finding.body = is_beam ? hoist->beam.id : hoist->slings[index].id;
  finding.item = names[item];
  finding.unit = units[item];
  finding.source = sources[item];
  if (trn_progress_is_cancelled (check->options->progress))
    return finding;
  TrnHookForce force = trn_hook_force_make (check, hoist, move);
  finding.missing = find_missing (&force, item, index);
  if (finding.missing != NULL)
    return finding;
  if (is_beam)
    set_beam (&finding, &force, item);
  else if (item == TRN_SLINGS_ANGLE)
    set_angle (&finding, &force, index);
  else
    set_tension (&finding, &force, item, index);
  return finding;
}
