/* gauges.c: questions to the rig and to the checks of forces at one moment. */
#include "gauges.h"

#include <math.h>
#include <string.h>

#include "gravity.h"

static void
add_hoist (const TrnPlan *plan, const TrnRigging *rigging, gboolean is_tail, DeskHoist *hoists,
           guint *n)
{
  const TrnHoist *hoist = is_tail ? &rigging->tail : &rigging->main;
  const TrnHoist *other = is_tail ? &rigging->main : &rigging->tail;
  if (!hoist->given)
    return;
  hoists[(*n)++] = (DeskHoist){ .hoist = hoist,
                                .gear = hoist->gear != G_MAXUINT ? &plan->gear[hoist->gear] : NULL,
                                .is_tail = is_tail,
                                .other = other->given ? other : NULL };
}

guint
desk_hoists_of (const TrnPlan *plan, const TrnLiftRun *run, DeskHoist hoists[DESK_MOST_HOISTS])
{
  guint n = 0;
  add_hoist (plan, &run->lift->rigging, FALSE, hoists, &n);
  add_hoist (plan, &run->lift->rigging, TRUE, hoists, &n);
  return n;
}

gboolean
desk_hoist_has_hook (const DeskHoist *hoist)
{
  return hoist->gear == NULL || hoist->gear->kind == TRN_GEAR_CRANE
         || hoist->gear->kind == TRN_GEAR_GANTRY;
}

TrnHoistRole
desk_hoist_role (const DeskHoist *hoist)
{
  if (!hoist->is_tail)
    return TRN_HOIST_MAIN;
  return desk_hoist_has_hook (hoist) ? TRN_HOIST_TAIL : TRN_HOIST_TAIL_SUPPORT;
}

/* Whether gear of that kind has it at all. */
static gboolean
has_gauge (const TrnPlan *plan, const DeskHoist *hoist, TrnGauge gauge)
{
  gboolean is_crane = hoist->gear != NULL && hoist->gear->kind == TRN_GEAR_CRANE;
  gboolean is_gantry = hoist->gear != NULL && hoist->gear->kind == TRN_GEAR_GANTRY;
  switch (gauge)
    {
    case TRN_GAUGE_HOOK_HEIGHT:
      return hoist->gear == NULL || is_crane || is_gantry;
    case TRN_GAUGE_RADIUS:
    case TRN_GAUGE_BOOM_ANGLE:
      return is_crane;
    case TRN_GAUGE_TIP_ABOVE_HOOK:
      return is_crane || (is_gantry && hoist->gear->has_trolley);
    case TRN_GAUGE_LOAD:
      return TRUE;
    case TRN_GAUGE_TENSION:
      return hoist->hoist->n_slings > 0;
    case TRN_GAUGE_CAPACITY:
    case TRN_GAUGE_PRESSURE:
      return hoist->gear != NULL;
    case TRN_GAUGE_SHARE:
      return hoist->other != NULL;
    case TRN_GAUGE_WIND:
      return plan->wind.given;
    case TRN_N_GAUGES:
      break;
    }
  g_assert_not_reached ();
}

guint
desk_gauges_of (const TrnPlan *plan, const TrnLiftRun *run, DeskGauge gauges[DESK_MOST_GAUGES])
{
  DeskHoist hoists[DESK_MOST_HOISTS];
  guint n_hoists = desk_hoists_of (plan, run, hoists), n = 0;
  for (guint g = 0; g < TRN_N_GAUGES; g++)
    for (guint i = 0; i < n_hoists; i++)
      if (has_gauge (plan, &hoists[i], (TrnGauge)g)
          /* Gear that holds by both hooks has one ground; both hold the same load. */
          && !(g == TRN_GAUGE_PRESSURE && i > 0 && hoists[i].gear == hoists[0].gear)
          && !(g == TRN_GAUGE_WIND && i > 0))
        gauges[n++] = (DeskGauge){ hoists[i], (TrnGauge)g };
  return n;
}

const char *
desk_gauge_action (TrnGauge gauge)
{
  static const char *const names[TRN_N_GAUGES]
      = { "strip-hook-height",  "strip-radius",  "strip-boom-angle", "strip-tip-above-hook",
          "strip-load-on-hook", "strip-tension", "strip-capacity",   "strip-pressure",
          "strip-share",        "strip-wind" };
  g_assert (gauge < TRN_N_GAUGES);
  return names[gauge];
}

double
desk_rig_value (const TrnLiftRun *run, const TrnHoist *hoist, TrnRigQuantity quantity, guint move,
                double progress)
{
  if (run->rig == NULL)
    return NAN;
  TrnRigQuestion question = { .rig = run->rig, .hoist = hoist, .quantity = quantity, .move = move };
  TrnJet value;
  return trn_rig_ask (&question, (TrnInterval){ progress, progress }, &value)
             ? trn_interval_middle (value.v)
             : NAN;
}

gboolean
desk_gauge_is_force (TrnGauge gauge)
{
  return gauge >= TRN_GAUGE_LOAD && gauge != TRN_GAUGE_WIND;
}

static double
force_value (DeskForces *forces, const DeskGauge *gauge, guint move, double progress)
{
  const TrnHoist *hoist = gauge->hoist.hoist;
  switch (gauge->gauge)
    {
    case TRN_GAUGE_LOAD:
      return desk_forces_load_kg (forces, hoist, move, progress);
    case TRN_GAUGE_TENSION:
      return desk_forces_greatest_tension_n (forces, hoist, move, progress);
    case TRN_GAUGE_CAPACITY:
      return desk_forces_utilisation (forces, hoist, move, progress);
    case TRN_GAUGE_SHARE:
      return desk_forces_share (forces, hoist, move, progress);
    default:
      return desk_forces_pressure_pa (forces, hoist, move, progress);
    }
}

double
desk_gauge_value (const TrnLiftRun *run, DeskForces *forces, const DeskGauge *gauge, guint move,
                  double progress)
{
  g_assert (gauge->gauge != TRN_GAUGE_WIND);
  if (desk_gauge_is_force (gauge->gauge))
    return force_value (forces, gauge, move, progress);
  static const TrnRigQuantity quantities[TRN_N_GAUGES]
      = { [TRN_GAUGE_HOOK_HEIGHT] = TRN_RIG_HOOK_HEIGHT,
          [TRN_GAUGE_RADIUS] = TRN_RIG_RADIUS,
          [TRN_GAUGE_BOOM_ANGLE] = TRN_RIG_BOOM_ANGLE,
          [TRN_GAUGE_TIP_ABOVE_HOOK] = TRN_RIG_TIP_ABOVE_HOOK };
  return desk_rig_value (run, gauge->hoist.hoist, quantities[gauge->gauge], move, progress);
}

/* How high the base of the gear is; NAN where it does not stand on the site. */
static double
base_m (const TrnLiftRun *run, const TrnGear *gear)
{
  for (guint i = 0; run->rig != NULL && i < run->rig->n_places; i++)
    if (run->rig->places[i].gear == gear)
      return run->rig->places[i].site_from_gear.position.z;
  return NAN;
}

/* That of all slings, where they have the same. */
static guint
tension_limit (const TrnHoist *hoist, DeskGaugeLimit *limit)
{
  double wll_kg = hoist->slings[0].wll_kg;
  for (guint i = 1; i < hoist->n_slings; i++)
    if (hoist->slings[i].wll_kg != wll_kg)
      return 0;
  *limit = (DeskGaugeLimit){ TRN_GAUGE_MOST_TENSION, wll_kg * TRN_GRAVITY_M_S2 };
  return isfinite (wll_kg) ? 1 : 0;
}

guint
desk_gauge_limits (const TrnLiftRun *run, const DeskGauge *gauge, DeskGaugeLimit limits[2])
{
  const TrnGear *gear = gauge->hoist.gear;
  if (gauge->gauge == TRN_GAUGE_TENSION)
    return tension_limit (gauge->hoist.hoist, &limits[0]);
  if (gauge->gauge == TRN_GAUGE_SHARE)
    {
      limits[0] = (DeskGaugeLimit){ TRN_GAUGE_LEAST_SHARE, 0 };
      return 1;
    }
  DeskGaugeLimit all[2] = { { TRN_GAUGE_LEAST_RADIUS, NAN }, { TRN_GAUGE_MOST_RADIUS, NAN } };
  if (gear == NULL)
    return 0;
  gboolean is_gantry = gear->kind == TRN_GEAR_GANTRY;
  switch (gauge->gauge)
    {
    case TRN_GAUGE_HOOK_HEIGHT:
      all[0] = (DeskGaugeLimit){ TRN_GAUGE_LOWEST_HOOK,
                                 is_gantry ? base_m (run, gear) + gear->window_hook.lo : NAN };
      all[1] = (DeskGaugeLimit){ TRN_GAUGE_HIGHEST_HOOK,
                                 is_gantry ? base_m (run, gear) + gear->window_hook.hi : NAN };
      break;
    case TRN_GAUGE_RADIUS:
      if (gear->n_capacity > 0)
        {
          all[0].value = gear->capacity[0].radius_m;
          all[1].value = gear->capacity[gear->n_capacity - 1].radius_m;
        }
      break;
    case TRN_GAUGE_BOOM_ANGLE:
      all[0] = (DeskGaugeLimit){ TRN_GAUGE_LEAST_ANGLE, gear->boom_angle_rad.lo };
      all[1] = (DeskGaugeLimit){ TRN_GAUGE_MOST_ANGLE, gear->boom_angle_rad.hi };
      break;
    case TRN_GAUGE_TIP_ABOVE_HOOK:
      all[0] = (DeskGaugeLimit){ TRN_GAUGE_LEAST_TIP, is_gantry ? NAN : gear->hook_to_tip_m };
      break;
    case TRN_GAUGE_CAPACITY:
      all[0] = (DeskGaugeLimit){ TRN_GAUGE_MOST_CAPACITY, 1 };
      break;
    case TRN_GAUGE_PRESSURE:
      all[0] = (DeskGaugeLimit){ TRN_GAUGE_MOST_PRESSURE, gear->allowed_pressure_pa };
      break;
    case TRN_GAUGE_LOAD:
    case TRN_GAUGE_WIND:
      break;
    case TRN_GAUGE_TENSION:
    case TRN_GAUGE_SHARE:
    case TRN_N_GAUGES:
      g_assert_not_reached ();
    }
  guint n = 0;
  for (guint i = 0; i < 2; i++)
    if (isfinite (all[i].value))
      limits[n++] = all[i];
  return n;
}

void
desk_gauge_bounds (const TrnLiftRun *run, const DeskGauge *gauge, double *least, double *most)
{
  DeskGaugeLimit limits[2];
  const guint n = desk_gauge_limits (run, gauge, limits);
  *least = *most = NAN;
  for (guint i = 0; i < n; i++)
    {
      gboolean is_least
          = limits[i].limit == TRN_GAUGE_LEAST_RADIUS || limits[i].limit == TRN_GAUGE_LEAST_ANGLE
            || limits[i].limit == TRN_GAUGE_LOWEST_HOOK || limits[i].limit == TRN_GAUGE_LEAST_TIP
            || limits[i].limit == TRN_GAUGE_LEAST_SHARE;
      *(is_least ? least : most) = limits[i].value;
    }
}

char *
desk_gauge_text (const TrnLiftRun *run, const DeskGauge *gauge, double value)
{
  double least, most;
  desk_gauge_bounds (run, gauge, &least, &most);
  char *text = trn_words_gauge_value_beside (gauge->gauge, value, least, most);
  const gboolean is_force = desk_gauge_is_force (gauge->gauge);
  if ((!is_force && gauge->gauge != TRN_GAUGE_WIND) || !isfinite (value))
    return text;
  g_autofree char *number = text;
  return is_force ? trn_words_gauge_as_drawn (number) : trn_words_gauge_at_most (number);
}

/* ---- how far the wind takes the load ---- */

/* What clearances take off has it, move by move. Where the other body goes along with the wind it
 * counts there as well, so that the least of a move is the load's own. */
static gboolean
is_of_load (const TrnFinding *finding)
{
  return finding->check == TRN_CHECK_CLEARANCE && finding->move >= 0
         && g_strcmp0 (finding->body, "load") == 0;
}

/* NULL: the wind takes it nowhere. */
static const TrnFindingItem *
wind_part (const TrnFinding *finding)
{
  const GArray *parts = finding->allowance_parts;
  for (guint i = 0; parts != NULL && i < parts->len; i++)
    if (strcmp (g_array_index (parts, TrnFindingItem, i).what, "wind") == 0)
      return &g_array_index (parts, TrnFindingItem, i);
  return NULL;
}

/* FALSE: it does not hang there, or nothing says so. */
static gboolean
wind_of_move (const GArray *findings, guint move, double *m)
{
  gboolean is_any = FALSE;
  /* They are in the order of checks and moves. */
  for (guint i = 0; i < findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (findings, TrnFinding, i);
      if (finding->check > TRN_CHECK_CLEARANCE || finding->move > (int)move)
        break;
      const TrnFindingItem *part
          = finding->move == (int)move && is_of_load (finding) ? wind_part (finding) : NULL;
      if (part == NULL)
        continue;
      *m = is_any && !isnan (part->m) ? fmin (*m, part->m) : part->m;
      is_any = TRUE;
    }
  return is_any;
}

double
desk_wind_aside_m (const GArray *findings, const TrnLiftRun *run, guint move, double progress)
{
  double here_m = NAN, beside_m = NAN;
  if (findings == NULL)
    return NAN;
  const gboolean hangs = wind_of_move (findings, move, &here_m);
  gboolean hangs_beside = FALSE;
  if (progress <= 0 && move > 0)
    hangs_beside = wind_of_move (findings, move - 1, &beside_m);
  else if (progress >= 1 && move + 1 < run->lift->n_moves)
    hangs_beside = wind_of_move (findings, move + 1, &beside_m);
  if (hangs && hangs_beside)
    return isnan (here_m) || isnan (beside_m) ? NAN : fmax (here_m, beside_m);
  return hangs ? here_m : beside_m;
}

/* ---- what the checks find ---- */

static const TrnCheckKind checks[TRN_N_GAUGES] = {
  [TRN_GAUGE_LOAD] = TRN_CHECK_HOOK_LOAD,    [TRN_GAUGE_TENSION] = TRN_CHECK_SLINGS,
  [TRN_GAUGE_CAPACITY] = TRN_CHECK_CAPACITY, [TRN_GAUGE_PRESSURE] = TRN_CHECK_GROUND,
  [TRN_GAUGE_SHARE] = TRN_CHECK_LOAD_SHARE,  [TRN_GAUGE_WIND] = TRN_CHECK_WIND,
};

/* As drawn, and with the hooks out of level; not the height of the tail. */
static gboolean
is_share_of (const TrnFinding *finding, gboolean is_tail)
{
  return finding->item != NULL && g_str_has_prefix (finding->item, is_tail ? "tail" : "main")
         && strcmp (finding->item, "tail-height") != 0;
}

static gboolean
is_sway (const TrnFinding *finding)
{
  return finding->check == TRN_CHECK_WIND && g_strcmp0 (finding->item, "sway") == 0;
}

/* Whether the finding is of what the line shows. */
static gboolean
is_of_gauge (const TrnFinding *finding, const DeskGauge *gauge)
{
  const TrnHoist *hoist = gauge->hoist.hoist;
  if (gauge->gauge == TRN_GAUGE_WIND)
    return is_sway (finding);
  if (finding->check != checks[gauge->gauge] || finding->body == NULL || finding->move < 0
      || (guint)finding->move < hoist->first_move || (guint)finding->move > hoist->last_move)
    return FALSE;
  if (gauge->gauge == TRN_GAUGE_SHARE)
    return is_share_of (finding, gauge->hoist.is_tail);
  if (gauge->gauge != TRN_GAUGE_TENSION)
    return strcmp (finding->body, gauge->hoist.gear != NULL ? gauge->hoist.gear->id : "load") == 0;
  for (guint i = 0; i < hoist->n_slings && g_strcmp0 (finding->item, "tension") == 0; i++)
    if (strcmp (hoist->slings[i].id, finding->body) == 0)
      return TRUE;
  return FALSE;
}

/* What rounding leaves of nothing, in kg, N, Pa, m and shares of 1. */
#define DUST 1e-9

static double
found_value (const TrnFinding *finding, TrnGauge gauge)
{
  double value = gauge == TRN_GAUGE_LOAD ? trn_finding_number (finding, "load") : finding->value;
  if (gauge == TRN_GAUGE_CAPACITY || gauge == TRN_GAUGE_SHARE)
    value = finding->utilisation;
  return fabs (value) < DUST ? 0 : value;
}

/* What a leg pulls with says nothing where one would have to push, nor what the others press with
 * where one support lifts off. A tail that may go slack at the end of an up-ending is only a note:
 * it then bears nothing, and the main hook all. */
static gboolean
says_nothing (const TrnFinding *finding)
{
  const TrnState state = finding->state;
  if (finding->check == TRN_CHECK_LOAD_SHARE && finding->verdict == TRN_VERDICT_NOTE)
    return FALSE;
  return state == TRN_STATE_LIFTED || state == TRN_STATE_SLACK || state == TRN_STATE_OVER_TAIL
         || state == TRN_STATE_TURNS_OVER;
}

/* Whether a check looks at it that knows what the line does not. */
static gboolean
is_found (TrnGauge gauge)
{
  return desk_gauge_is_force (gauge) || gauge == TRN_GAUGE_WIND;
}

static const DeskFound nothing = { .greatest = NAN, .used = NAN, .limit = NAN, .is_all = TRUE };

static void
take (const TrnFinding *finding, double value, DeskFound *found)
{
  found->is_any = TRUE;
  if (says_nothing (finding) && finding->verdict == TRN_VERDICT_FAIL && !found->fails)
    {
      found->fails = TRUE;
      found->state = finding->state;
    }
  found->is_all = found->is_all && isfinite (value);
  if (!isfinite (value))
    return;
  found->greatest = fmax (found->greatest, value);
  if (!isfinite (finding->limit) || found->used >= finding->utilisation)
    return;
  found->used = finding->utilisation;
  found->limit = finding->limit;
}

static void
take_finding (const TrnFinding *finding, const DeskGauge *gauge, DeskFound *found)
{
  if (is_of_gauge (finding, gauge))
    take (finding, says_nothing (finding) ? NAN : found_value (finding, gauge->gauge), found);
}

/* Of shares the checks look only where both hooks hold: one that holds alone has all of it. */
static void
add_alone (const DeskGauge *gauge, DeskFound *found)
{
  const TrnHoist *hoist = gauge->hoist.hoist, *other = gauge->hoist.other;
  if (gauge->gauge != TRN_GAUGE_SHARE || !found->is_any || other == NULL)
    return;
  if (hoist->first_move < other->first_move || hoist->last_move > other->last_move)
    found->greatest = fmax (found->greatest, 1);
}

/* Of the moves that have a bound, where not all of them do. */
static void
add_wind (const GArray *findings, const DeskGauge *gauge, DeskFound *found)
{
  if (gauge->gauge != TRN_GAUGE_WIND || !found->is_any || !isnan (found->greatest))
    return;
  for (guint i = 0; i < findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (findings, TrnFinding, i);
      double m;
      const gboolean is_new = i == 0 || finding->move != (finding - 1)->move;
      if (is_of_load (finding) && is_new && wind_of_move (findings, (guint)finding->move, &m))
        found->greatest = fmax (found->greatest, m);
    }
}

gboolean
desk_gauge_found (const GArray *findings, const DeskGauge *gauge, double *greatest,
                  gboolean *is_all)
{
  DeskFound found = nothing;
  for (guint i = 0; i < findings->len && is_found (gauge->gauge); i++)
    take_finding (&g_array_index (findings, TrnFinding, i), gauge, &found);
  add_alone (gauge, &found);
  add_wind (findings, gauge, &found);
  *greatest = found.greatest;
  *is_all = found.is_all;
  return found.is_any;
}

void
desk_found_clear (DeskFoundOfHoist found[DESK_MOST_HOISTS])
{
  for (guint h = 0; h < DESK_MOST_HOISTS; h++)
    {
      g_clear_pointer (&found[h].slings, g_array_unref);
      g_clear_pointer (&found[h].shackles, g_array_unref);
    }
}

static GArray *
nothing_new (guint n)
{
  GArray *found = g_array_sized_new (FALSE, FALSE, sizeof (DeskFound), n);
  for (guint k = 0; k < n; k++)
    g_array_append_val (found, nothing);
  return found;
}

/* What bears nothing of its own, or would have to push, has no value. */
static void
take_sling (const TrnFinding *finding, DeskFound *tension, DeskFound *shackle)
{
  DeskFound *found = g_strcmp0 (finding->item, "tension") == 0   ? tension
                     : g_strcmp0 (finding->item, "shackle") == 0 ? shackle
                                                                 : NULL;
  if (found == NULL)
    return;
  const double value = says_nothing (finding) ? NAN : found_value (finding, TRN_GAUGE_TENSION);
  if (found == tension || !isfinite (value))
    take (finding, value, found);
  else if (!(found->used >= finding->utilisation)) /* the limit is not the same at all times */
    {
      found->greatest = NAN;
      take (finding, value, found);
    }
}

static void
take_beam (const TrnFinding *finding, DeskFound beam[TRN_N_SLINGS_ITEMS])
{
  static const char *const items[TRN_N_SLINGS_ITEMS] = { [TRN_SLINGS_COMPRESSION] = "compression",
                                                         [TRN_SLINGS_MOMENT] = "moment",
                                                         [TRN_SLINGS_BEAM_LOAD] = "beam-load" };
  for (guint item = TRN_SLINGS_COMPRESSION; item < TRN_N_SLINGS_ITEMS; item++)
    if (g_strcmp0 (finding->item, items[item]) == 0)
      take (finding, found_value (finding, TRN_GAUGE_TENSION), &beam[item]);
}

/* Each sling and each beam has findings of its own. */
static void
find_rigging (const GArray *findings, const DeskHoist *of, DeskFoundOfHoist *found)
{
  const TrnHoist *hoist = of->hoist;
  found->slings = nothing_new (hoist->n_slings);
  found->shackles = nothing_new (hoist->n_slings);
  for (guint item = 0; item < TRN_N_SLINGS_ITEMS; item++)
    found->beam[item] = nothing;
  for (guint i = 0; i < findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (findings, TrnFinding, i);
      if (finding->check != TRN_CHECK_SLINGS || finding->move < (int)hoist->first_move
          || finding->move > (int)hoist->last_move)
        continue;
      for (guint k = 0; k < hoist->n_slings; k++)
        if (g_strcmp0 (finding->body, hoist->slings[k].id) == 0)
          take_sling (finding, &g_array_index (found->slings, DeskFound, k),
                      &g_array_index (found->shackles, DeskFound, k));
      if (hoist->has_beam && g_strcmp0 (finding->body, hoist->beam.id) == 0)
        take_beam (finding, found->beam);
    }
}

void
desk_gauges_find (const GArray *findings, const DeskHoist *hoists, guint n_hoists,
                  DeskFoundOfHoist found[DESK_MOST_HOISTS])
{
  desk_found_clear (found);
  for (guint h = 0; h < DESK_MOST_HOISTS; h++)
    for (guint g = 0; g < TRN_N_GAUGES; g++)
      found[h].of[g] = nothing;
  for (guint i = 0; i < findings->len; i++)
    for (guint h = 0; h < n_hoists; h++)
      for (guint g = 0; g < TRN_N_GAUGES; g++)
        {
          const DeskGauge gauge = { hoists[h], (TrnGauge)g };
          if (desk_gauge_is_force (gauge.gauge))
            take_finding (&g_array_index (findings, TrnFinding, i), &gauge, &found[h].of[g]);
        }
  for (guint h = 0; h < n_hoists; h++)
    {
      const DeskGauge share = { hoists[h], TRN_GAUGE_SHARE };
      find_rigging (findings, &hoists[h], &found[h]);
      add_alone (&share, &found[h].of[TRN_GAUGE_SHARE]);
    }
}

double
desk_headroom_left_m (const TrnLiftRun *run, const DeskHoist *hoist, guint move, double progress)
{
  if (hoist->gear == NULL)
    return NAN;
  if (hoist->gear->kind == TRN_GEAR_CRANE)
    return desk_rig_value (run, hoist->hoist, TRN_RIG_TIP_ABOVE_HOOK, move, progress)
           - hoist->gear->hook_to_tip_m;
  if (hoist->gear->kind == TRN_GEAR_GANTRY)
    return hoist->gear->window_hook.hi
           - desk_rig_value (run, hoist->hoist, TRN_RIG_HOOK_LOCAL_HEIGHT, move, progress);
  return NAN;
}

/* ---- why there is no line ---- */

static const char *
wind_note (const TrnPlan *plan, const GArray *findings)
{
  if (!plan->wind.given)
    return trn_words_gauge_note (TRN_GAUGE_NOTE_NO_WIND);
  const TrnFinding *sway = NULL;
  gboolean is_any = FALSE;
  for (guint i = 0; findings != NULL && i < findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (findings, TrnFinding, i);
      const TrnFindingItem *part = is_of_load (finding) ? wind_part (finding) : NULL;
      is_any = is_any || (part != NULL && isfinite (part->m));
      sway = is_sway (finding) ? finding : sway;
    }
  if (is_any)
    return NULL;
  if (sway == NULL)
    return trn_words_gauge_note (TRN_GAUGE_NOTE_NOT_CHECKED);
  return trn_words_gauge_note (sway->value == 0 ? TRN_GAUGE_NOTE_NOT_HUNG
                                                : TRN_GAUGE_NOTE_NOT_KNOWN);
}

static const char *
share_note (const TrnPlan *plan, const TrnLift *lift)
{
  const TrnComponent *component = &plan->components[lift->component];
  if (!(lift->rigging.main.given && lift->rigging.tail.given))
    return trn_words_gauge_note (TRN_GAUGE_NOTE_ONE_HOOK);
  if (isnan (component->mass_kg))
    return trn_words_gauge_note (TRN_GAUGE_NOTE_NO_MASS);
  return isnan (component->cog.x) ? trn_words_gauge_note (TRN_GAUGE_NOTE_NO_COG) : NULL;
}

/* Of what the lift has, where the checks look at it and it has no number. */
static const char *
force_note (const TrnPlan *plan, const TrnLiftRun *run, const GArray *findings, TrnGauge gauge)
{
  DeskGauge gauges[DESK_MOST_GAUGES];
  const guint n = desk_gauges_of (plan, run, gauges);
  gboolean is_any = FALSE, is_all;
  double greatest;
  for (guint i = 0; i < n; i++)
    {
      if (gauges[i].gauge != gauge)
        continue;
      if (isnan (plan->components[run->lift->component].mass_kg))
        return trn_words_gauge_note (TRN_GAUGE_NOTE_NO_MASS);
      is_any = is_any
               || (findings != NULL && desk_gauge_found (findings, &gauges[i], &greatest, &is_all));
    }
  return is_any ? trn_words_gauge_note (TRN_GAUGE_NOTE_NOT_KNOWN) : NULL;
}

const char *
desk_gauge_note (const TrnPlan *plan, const TrnLiftRun *run, const GArray *findings, TrnGauge gauge)
{
  if (gauge == TRN_GAUGE_WIND)
    return wind_note (plan, findings);
  if (gauge == TRN_GAUGE_SHARE)
    return share_note (plan, run->lift);
  return desk_gauge_is_force (gauge) ? force_note (plan, run, findings, gauge) : NULL;
}
