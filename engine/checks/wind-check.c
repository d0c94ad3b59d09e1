/* The sail area stands in sail-area.c.
 *
 * Whichever way the load is seen, gaps count as filled here. Of the hull an axis a and the greatest
 * area across it, A, and along it, B, bound all directions: at the angle α from the plane across
 * the axis it shows no more than cos α A + sin α B (outline.h), at most √(A² + B²). The axis is
 * that along which the load is longest. Nor does it show more than its box, which is seen along a
 * unit vector d with |d_x| yz + |d_y| zx + |d_z| xy. */
#include "wind-check.h"

#include "hoist.h"
#include "sail-area.h"
#include "shown.h"
#include "sources.h"
#include "wind.h"

/* Of a hull within a disc: Steiner's formula. */
double
trn_wind_more_area (const TrnLiftCheck *check)
{
  const double off_m = check->load->off_m,
               across_m = trn_vec3_length (trn_box_size (&check->load->mesh->box));
  return G_PI * off_m * (across_m + off_m);
}

double
trn_wind_any_way_area (const TrnLiftCheck *check)
{
  const TrnMesh *mesh = check->load->mesh;
  const TrnVec3 size = trn_box_size (&mesh->box);
  const guint axis = trn_box_longest (&mesh->box);
  const TrnVec3 longest = trn_vec3_make (axis == 0, axis == 1, axis == 2);
  const TrnOutline outline = trn_shown_outline (check->shown, mesh, longest);
  const double of_box_m2
      = trn_vec3_length (trn_vec3_make (size.y * size.z, size.z * size.x, size.x * size.y));
  return fmin (of_box_m2, hypot (outline.level_m2, outline.plan_m2)) + trn_wind_more_area (check);
}

static TrnFinding
begin (const TrnLiftCheck *check, const char *item, TrnUnit unit)
{
  TrnFinding finding = trn_lift_check_finding (check, TRN_CHECK_WIND, -1, NULL, NAN);
  finding.item = item;
  finding.unit = unit;
  const TrnPlan *plan = check->scene->programme->plan;
  finding.source = plan->wind.source != NULL ? plan->wind.source : TRN_SOURCE_PLAN;
  return finding;
}

/* A plan that has a wind_limit and no wind is asked for it. */
static gboolean
is_wind_missing (const TrnLiftCheck *check, TrnFinding *finding)
{
  if (check->scene->programme->plan->wind.given)
    return FALSE;
  finding->missing = "wind";
  return TRUE;
}

static void
set_moment (TrnFinding *finding, const TrnLiftCheck *check, guint move, double s)
{
  finding->move = (int)move;
  finding->progress = s;
  finding->time_s = trn_lift_check_time (check, move, s);
}

static void
set_known (TrnFinding *finding, double value)
{
  finding->value = value;
  finding->verdict = TRN_VERDICT_NOTE;
  finding->state = TRN_STATE_KNOWN;
}

TrnFinding
trn_wind_force_judge (const TrnLiftCheck *check)
{
  const TrnWind *wind = &check->scene->programme->plan->wind;
  TrnFinding finding = begin (check, "force", TRN_UNIT_N);
  if (trn_progress_is_cancelled (check->options->progress) || is_wind_missing (check, &finding))
    return finding;
  double area_m2 = trn_sail_area_m2 (check), s;
  const guint move = trn_sail_move (check, &s);
  set_moment (&finding, check, move, s);
  double pressure_pa = trn_wind_pressure_pa (wind->speed_m_s, wind->air_kg_m3);
  set_known (&finding, trn_wind_force_n (pressure_pa, wind->drag, area_m2));
  trn_finding_add_number (&finding, "pressure", pressure_pa, TRN_UNIT_PA);
  trn_finding_add_number (&finding, "sail-area", area_m2, TRN_UNIT_M2);
  return finding;
}

/* What wind does in a move is bounded for all of it: the moment is where that move begins. */
TrnFinding
trn_wind_sway_judge (const TrnLiftCheck *check)
{
  TrnFinding finding = begin (check, "sway", TRN_UNIT_M);
  if (trn_progress_is_cancelled (check->options->progress) || is_wind_missing (check, &finding))
    return finding;
  double greatest_m = 0;
  guint worst = 0;
  for (guint i = 0; i < check->run->lift->n_moves; i++)
    {
      const TrnAllowance *allowance = &check->allowances[i];
      if (isnan (allowance->wind_m))
        {
          finding.missing = allowance->missing;
          return finding;
        }
      if (!(allowance->wind_m > greatest_m))
        continue;
      greatest_m = allowance->wind_m;
      worst = i;
    }
  if (greatest_m > 0)
    set_moment (&finding, check, worst, 0);
  set_known (&finding, greatest_m);
  return finding;
}

/* Too much wind is too much for the lift, whichever move shows most: so it is of no single move. */
TrnFinding
trn_wind_speed_judge (const TrnLiftCheck *check, const TrnHoist *hoist)
{
  const TrnPlan *plan = check->scene->programme->plan;
  const TrnGear *gear = trn_hoist_gear (check, hoist);
  const TrnComponent *unit = &plan->components[check->run->lift->component];
  TrnFinding finding = begin (check, "speed", TRN_UNIT_M_S);
  finding.body = gear->id;
  if (trn_progress_is_cancelled (check->options->progress) || is_wind_missing (check, &finding))
    return finding;
  finding.value = plan->wind.speed_m_s;
  finding.missing = isnan (gear->wind_limit_m_s) ? "wind_limit"
                    : isnan (unit->mass_kg)      ? "mass"
                                                 : NULL;
  if (finding.missing != NULL)
    return finding;
  finding.limit
      = trn_wind_permissible_m_s (gear->wind_limit_m_s, TRN_WIND_REFERENCE_M2_KG, unit->mass_kg,
                                  trn_sail_area_m2 (check), plan->wind.drag);
  finding.source = finding.limit < gear->wind_limit_m_s ? TRN_SOURCE_SAIL_AREA : TRN_SOURCE_PLAN;
  double s;
  const guint move = trn_sail_move (check, &s);
  finding.time_s = trn_lift_check_time (check, move, s);
  finding.margin = finding.limit - finding.value;
  finding.utilisation = finding.value / finding.limit;
  finding.verdict = finding.margin >= 0 ? TRN_VERDICT_PASS : TRN_VERDICT_FAIL;
  finding.state = finding.margin >= 0 ? TRN_STATE_WITHIN : TRN_STATE_OUTSIDE;
  return finding;
}
