/* What the plan that holds every kind (data/full.trunnion) says about forces: each key read into
 * its place, and what is left out. */
#include "full-plan.h"

#include <math.h>
#include <string.h>

static TrnPlan *
read_with (const char *keys)
{
  g_autofree char *text
      = g_strdup_printf ("{\"format\": \"trunnion-plan\", \"version\": 1, \"structures\": [],"
                         "\"components\": [], \"programme\": []%s}",
                         keys);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnPlan *plan = trn_plan_parse (text, strlen (text), NULL, NULL, NULL, diags);
  g_assert_nonnull (plan);
  return plan;
}

static void
test_gear (void)
{
  g_autoptr (TrnPlan) plan = test_read_full ();
  const TrnGear *tower = trn_plan_find_gear (plan, "tower");
  g_assert_cmpfloat (tower->mass_kg, ==, 45000);
  g_assert_cmpfloat (tower->cog_x_m, ==, 0.2);
  g_assert_cmpfloat (tower->cog_y_m, ==, -0.1);
  g_assert_cmpfloat (tower->allowed_pressure_pa, ==, 250000);
  g_assert_cmpstr (tower->pressure_source, ==, "survey 3");
  const TrnGear *crane = trn_plan_find_gear (plan, "tailer");
  g_assert_cmpfloat (crane->mass_kg, ==, 31000);
  g_assert_cmpfloat (crane->cog_x_m, ==, -1.25);
  g_assert_cmpfloat (crane->slewing_mass_kg, ==, 24000);
  g_assert_cmpfloat (crane->slewing_out_m, ==, -2.5);
  g_assert_cmpfloat (crane->boom_mass_kg, ==, 8200);
  g_assert_cmpfloat (crane->jib_mass_kg, ==, 1100);
  g_assert_cmpfloat (crane->allowed_pressure_pa, ==, 180000.5);
  g_assert_cmpfloat (crane->most_out_of_plumb_rad, ==, 1.5 * G_PI / 180);
  g_assert_cmpstr (crane->out_of_plumb_source, ==, "manual");
  g_assert_true (isnan (tower->most_out_of_plumb_rad));
  const TrnGear *bogie = trn_plan_find_gear (plan, "bogie");
  g_assert_cmpfloat (bogie->mass_kg, ==, 2400);
  g_assert_true (bogie->cog_x_m == 0 && bogie->cog_y_m == 0);
  g_assert_true (isnan (bogie->allowed_pressure_pa));
  g_assert_null (bogie->pressure_source);
  g_assert_cmpstr (bogie->stands_on, ==, "rails, drawing 8");
  g_assert_cmpfloat (bogie->ground_level_m, ==, 0);
  g_assert_null (tower->stands_on);
  const TrnGear *frame = trn_plan_find_gear (plan, "frame");
  g_assert_true (isnan (frame->mass_kg));
  g_assert_cmpfloat (frame->cog_y_m, ==, 0.4);
  g_assert_cmpstr (frame->pressure_source, ==, "floor");
  g_assert_cmpstr (frame->stands_on, ==, "slab, drawing 9");
  g_assert_cmpfloat (frame->ground_level_m, ==, -1.5);
}

static void
test_gear_left_out (void)
{
  g_autoptr (TrnPlan) plan = test_read_full ();
  const TrnGear *crawler = trn_plan_find_gear (plan, "crawler");
  g_assert_true (isnan (crawler->mass_kg) && isnan (crawler->boom_mass_kg));
  g_assert_true (isnan (crawler->slewing_mass_kg) && isnan (crawler->slewing_out_m));
  g_assert_true (isnan (crawler->jib_mass_kg) && isnan (crawler->allowed_pressure_pa));
  g_assert_true (crawler->cog_x_m == 0 && crawler->cog_y_m == 0);
}

static void
test_rules (void)
{
  g_autoptr (TrnPlan) full = test_read_full ();
  g_assert_cmpint (full->loads.dynamic.kind, ==, TRN_DYNAMIC_FACTOR);
  g_assert_cmpfloat (full->loads.dynamic.factor, ==, 1.15);
  g_assert_cmpstr (full->loads.dynamic.source, ==, "works rule 4");
  g_assert_cmpint (full->loads.critical.kind, ==, TRN_CRITICAL_RULE);
  g_assert_cmpstr (full->loads.critical.rule, ==, "em-385-1-1");
  /* 0027/ND Rev 11.2, 5.4: 3° or ±1.0 m. */
  g_assert_true (full->loads.out_of_level.given);
  g_assert_cmpfloat (full->loads.out_of_level.height_m, ==, 1);
  g_assert_cmpfloat (full->loads.out_of_level.tilt_rad, ==, 3 * G_PI / 180);
  g_assert_true (full->loads.ramp.given);
  g_assert_cmpfloat (full->loads.ramp.seconds, ==, 9.5);
  g_assert_cmpfloat (full->loads.ramp.rest_s, ==, 240);
  g_assert_cmpstr (full->loads.ramp.source, ==, "works rule 7");
  g_autoptr (TrnPlan) other
      = read_with (", \"loads\": {\"dynamic\": {\"rule\": \"0027-nd-11.2-onshore\"},"
                   " \"critical\": {\"share\": 0.85, \"source\": \"sheet\"}}");
  g_assert_cmpint (other->loads.dynamic.kind, ==, TRN_DYNAMIC_0027_ND_ONSHORE);
  g_assert_true (isnan (other->loads.dynamic.factor));
  g_assert_null (other->loads.dynamic.source);
  g_assert_cmpint (other->loads.critical.kind, ==, TRN_CRITICAL_SHARE);
  g_assert_cmpfloat (other->loads.critical.share, ==, 0.85);
  g_assert_cmpstr (other->loads.critical.source, ==, "sheet");
  g_assert_null (other->loads.critical.rule);
  g_autoptr (TrnPlan) osha
      = read_with (", \"loads\": {\"critical\": {\"rule\": \"29-cfr-1926-751\"}}");
  g_assert_cmpstr (osha->loads.critical.rule, ==, "29-cfr-1926-751");
  g_assert_false (osha->loads.out_of_level.given);
  g_assert_false (osha->loads.ramp.given);
  g_autoptr (TrnPlan) restless
      = read_with (", \"loads\": {\"ramp\": {\"seconds\": 3, \"source\": \"sheet\"}}");
  g_assert_true (isnan (restless->loads.ramp.rest_s));
  g_autoptr (TrnPlan) height
      = read_with (", \"loads\": {\"out_of_level\": {\"height\": 0.3, \"source\": \"sheet\"}}");
  g_assert_cmpfloat (height->loads.out_of_level.height_m, ==, 0.3);
  g_assert_cmpfloat (height->loads.out_of_level.tilt_rad, ==, 0);
  g_assert_cmpstr (height->loads.out_of_level.source, ==, "sheet");
  g_assert_cmpint (osha->loads.dynamic.kind, ==, TRN_DYNAMIC_NONE);
}

/* Nothing said: no rule is taken for granted. The density of air alone has a value of its own
 * (EN 1991-1-4, 4.5: 1.25 kg/m³). */
static void
test_left_out (void)
{
  g_autoptr (TrnPlan) none = read_with (""), empty = read_with (", \"loads\": {}");
  g_assert_cmpint (none->loads.dynamic.kind, ==, TRN_DYNAMIC_NONE);
  g_assert_cmpint (none->loads.critical.kind, ==, TRN_CRITICAL_NONE);
  g_assert_true (isnan (none->loads.dynamic.factor) && isnan (none->loads.critical.share));
  g_assert_false (none->wind.given);
  g_assert_true (isnan (none->wind.speed_m_s) && isnan (none->wind.air_kg_m3));
  g_assert_cmpint (empty->loads.critical.kind, ==, TRN_CRITICAL_NONE);
}

static void
test_wind (void)
{
  g_autoptr (TrnPlan) full = test_read_full ();
  g_assert_true (full->wind.given);
  g_assert_cmpfloat (full->wind.speed_m_s, ==, 9.5);
  g_assert_cmpfloat (full->wind.drag, ==, 1.3);
  g_assert_cmpfloat (full->wind.air_kg_m3, ==, 1.21);
  g_assert_cmpstr (full->wind.source, ==, "works rule 9");
  g_autoptr (TrnPlan) least = read_with (", \"wind\": {\"speed\": 8, \"drag\": 1.1}");
  g_assert_cmpfloat (least->wind.air_kg_m3, ==, 1.25);
  g_assert_null (least->wind.source);
}

static void
test_hangs (void)
{
  g_autoptr (TrnPlan) full = test_read_full ();
  g_assert_true (full->lifts[0].hangs_free);
  g_assert_false (full->lifts[1].hangs_free);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/loads/gear", test_gear);
  g_test_add_func ("/plan/loads/gear-left-out", test_gear_left_out);
  g_test_add_func ("/plan/loads/rules", test_rules);
  g_test_add_func ("/plan/loads/left-out", test_left_out);
  g_test_add_func ("/plan/loads/wind", test_wind);
  g_test_add_func ("/plan/loads/hangs", test_hangs);
  return g_test_run ();
}
