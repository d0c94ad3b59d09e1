/* Hoist rope below the tip is not counted: a plan does not name its mass. It hangs from the drum
 * and the tip, and charts of cranes say whether they have it in them. */
#include "hook-load-check.h"

#include "sources.h"

/* What a load is no lighter than: air at sea level and 20 °C, from memory. */
#define AIR_KG_M3 1.2

/* Whether it weighs less than the air in its place, and nobody is named who says so. So is a mass
 * in tonnes where the load has less than 1200 kg a cubic metre, as hollow ones have; of what is
 * denser there is only a warning (odd.c). Of an open mesh nobody knows the volume: its place is the
 * box round it. */
static gboolean
is_lighter_than_air (const TrnLiftCheck *check)
{
  const TrnComponent *unit
      = &check->scene->programme->plan->components[check->run->lift->component];
  gboolean is_box;
  return unit->mass_source == NULL
         && unit->mass_kg
                < AIR_KG_M3
                      * trn_mesh_check_room_m3 (check->load->check, check->load->mesh, &is_box);
}

/* The factor with which the hook asks for most, and the hook load that it belongs to, where that is
 * not the greatest, which has a lesser one. */
static void
add_dynamic (TrnFinding *finding, const TrnHookForce *force)
{
  const double kg = trn_hook_force_governing_kg (force);
  if (isnan (kg))
    return;
  const double factor = trn_hook_force_factor_at (force, kg);
  finding->rule = trn_hook_force_dynamic_source (force);
  trn_finding_add_number (finding, "dynamic-factor", factor, TRN_UNIT_NONE);
  if (factor > trn_hook_force_factor_at (force, force->greatest.met))
    trn_finding_add_number (finding, "dynamic-load", kg, TRN_UNIT_KG);
}

TrnFinding
trn_hook_load_judge (const TrnLiftCheck *check, const TrnHoist *hoist, guint move)
{
  TrnFinding finding = trn_lift_check_finding (check, TRN_CHECK_HOOK_LOAD, (int)move, NULL, NAN);
  finding.body = trn_hoist_body (check, hoist);
  finding.unit = TRN_UNIT_KG;
  const TrnComponent *unit
      = &check->scene->programme->plan->components[check->run->lift->component];
  finding.source = unit->mass_source != NULL ? unit->mass_source : TRN_SOURCE_MASSES;
  if (trn_progress_is_cancelled (check->options->progress))
    return finding;
  TrnHookForce force = trn_hook_force_make (check, hoist, move);
  finding.missing = force.missing;
  if (force.missing == NULL && is_lighter_than_air (check))
    force.missing = finding.missing = "mass_source";
  if (force.missing != NULL || !force.greatest.complete)
    return finding;
  TrnHookLoad rigging = force.rigging;
  finding.value = force.greatest.bound;
  finding.progress = force.greatest.met_s;
  finding.time_s = trn_lift_check_time (check, move, finding.progress);
  finding.verdict = TRN_VERDICT_PASS;
  finding.state = TRN_STATE_KNOWN;
  trn_finding_add_number (&finding, "load", finding.value - trn_hook_load_static_kg (&rigging),
                          TRN_UNIT_KG);
  if (unit->mass_factor != 1)
    trn_finding_add_number (&finding, "mass-factor", unit->mass_factor, TRN_UNIT_NONE);
  trn_finding_add_number (&finding, "block", rigging.block_kg, TRN_UNIT_KG);
  trn_finding_add_number (&finding, "beam", rigging.beam_kg, TRN_UNIT_KG);
  trn_finding_add_number (&finding, "slings", rigging.slings_kg, TRN_UNIT_KG);
  trn_finding_add_number (&finding, "shackles", rigging.shackles_kg, TRN_UNIT_KG);
  if (force.missing_dynamic == NULL)
    add_dynamic (&finding, &force);
  return finding;
}
