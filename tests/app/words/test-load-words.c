/* test-load-words.c: what the desk says of values beside their limits, and of forces at a moment.
 */
#include <string.h>

#include "desk-words.h"
#include "gauge-words.h"
#include "gear-words.h"
#include "gravity.h"
#include "load-words.h"

static void
assert_text (char *text, const char *expected)
{
  g_assert_cmpstr (text, ==, expected);
  g_free (text);
}

/* No fixed text is missing, and none promises more than the program knows. */
static void
test_fixed (void)
{
  for (guint i = 0; i < TRN_N_LOADS_TEXTS; i++)
    {
      g_autofree char *small = g_utf8_strdown (trn_words_loads ((TrnLoadsText)i), -1);
      g_assert_null (strstr (small, "safe"));
    }
}

/* 8.2504 t of 10.0009 t by a crane: what is used is rounded up, what may be lifted down, and so is
 * what is left. Of an angle that has to be at least 30° it is the other way round. */
static void
test_values (void)
{
  TrnGear gear = { .id = "north", .name = "Crane north" };
  TrnPlan plan = { .gear = &gear, .n_gear = 1 };
  TrnFinding f = { .check = TRN_CHECK_CAPACITY,
                   .state = TRN_STATE_WITHIN,
                   .body = "north",
                   .unit = TRN_UNIT_KG,
                   .value = 8250.4,
                   .limit = 10000.9,
                   .margin = 1750.5,
                   .utilisation = 0.82497,
                   .source = "Chart\n7" };
  assert_text (trn_words_obstacle_name (&plan, &f, 0), "Crane north (capacity)");
  assert_text (trn_words_value_cell (&f), "8.251 t");
  assert_text (trn_words_limit_cell (&f), "10 t");
  assert_text (trn_words_value_margin_cell (&f), "1.75 t");
  assert_text (trn_words_utilisation (&f), "82.5 % of the limit");
  /* Of a support that lifts off neither list says a pressure. */
  TrnFinding lifts = { .check = TRN_CHECK_GROUND,
                       .verdict = TRN_VERDICT_FAIL,
                       .state = TRN_STATE_LIFTED,
                       .unit = TRN_UNIT_PA,
                       .value = 2e5,
                       .limit = 1e5,
                       .margin = -1e5 };
  assert_text (trn_words_value_cell (&lifts), "–");
  assert_text (trn_words_limit_cell (&lifts), "–");
  assert_text (trn_words_value_margin_cell (&lifts), "–");
  assert_text (trn_words_value_column (&lifts), "–");
  assert_text (trn_words_value_margin_column (&lifts), "–");
  assert_text (trn_words_source (&f), "From: Chart\357\277\275"
                                      "7");
  f.check = TRN_CHECK_HOOK_LOAD;
  f.source = "weighed";
  assert_text (trn_words_source (&f), "From: mass of the load: weighed");
  f.rule = "works rule 4";
  assert_text (trn_words_source (&f), "From: mass of the load: weighed; dynamic factor: works "
                                      "rule 4");
  TrnFinding angle = { .check = TRN_CHECK_SLINGS,
                       .state = TRN_STATE_WITHIN,
                       .item = "angle",
                       .unit = TRN_UNIT_DEG,
                       .value = 60,
                       .limit = 30,
                       .margin = 30,
                       .utilisation = NAN };
  assert_text (trn_words_value_cell (&angle), "60°");
  assert_text (trn_words_limit_cell (&angle), "30°");
  g_assert_null (trn_words_utilisation (&angle));
  g_assert_null (trn_words_source (&angle));
}

/* 2.26 m and 1 mm of tolerance come to 2.2609999999999997 m: they are shown as 2.261 m. A value
 * that is met and lies in the same millimetre as its limit is never shown beyond it; one that is
 * not met always is. */
static void
test_limits (void)
{
  TrnFinding f = { .check = TRN_CHECK_REACH,
                   .verdict = TRN_VERDICT_PASS,
                   .state = TRN_STATE_WITHIN,
                   .unit = TRN_UNIT_M,
                   .value = 2.2561,
                   .limit = 2.2609999999999997,
                   .margin = 0.0048 };
  assert_text (trn_words_value_cell (&f), "2.257 m");
  assert_text (trn_words_limit_cell (&f), "2.261 m");
  assert_text (trn_words_limit_column (&f), "2.261");
  f.value = 2.2603;
  f.limit = 2.2607;
  assert_text (trn_words_value_column (&f), "2.260");
  assert_text (trn_words_limit_column (&f), "2.260");
  f.verdict = TRN_VERDICT_FAIL;
  f.state = TRN_STATE_OUTSIDE;
  f.value = 2.2607;
  f.limit = 2.2603;
  assert_text (trn_words_value_column (&f), "2.261");
  assert_text (trn_words_limit_column (&f), "2.260");
  f.limit_is_least = TRUE;
  f.value = 2.2603;
  f.limit = 2.2607;
  assert_text (trn_words_value_column (&f), "2.260");
  assert_text (trn_words_limit_column (&f), "2.261");
}

/* A reach finding is told apart from the others of the same crane; a start has no subject. */
static void
test_subjects (void)
{
  TrnFinding f = { .check = TRN_CHECK_REACH, .item = "boom-angle" };
  assert_text (trn_words_subject (&f), "boom angle");
  f.item = NULL;
  assert_text (trn_words_subject (&f), "reach");
  f.check = TRN_CHECK_START;
  g_assert_null (trn_words_subject (&f));
  assert_text (trn_words_with_subject ("Column", &f), "Column");
}

/* What the hook load is made of; what is 0 is left out; supports are numbered. */
static void
test_numbers (void)
{
  TrnFinding f = { .check = TRN_CHECK_HOOK_LOAD };
  g_assert_null (trn_words_numbers (&f));
  trn_finding_add_number (&f, "load", 1050, TRN_UNIT_KG);
  trn_finding_add_number (&f, "mass-factor", 1.05, TRN_UNIT_NONE);
  trn_finding_add_number (&f, "beam", 0, TRN_UNIT_KG);
  trn_finding_add_number (&f, "dynamic-factor", 1.2, TRN_UNIT_NONE);
  trn_finding_add_number (&f, "support-3", 12345, TRN_UNIT_N);
  assert_text (trn_words_numbers (&f), "load 1.05 t, in it the mass factor 1.05, dynamic factor "
                                       "1.2, support 3 12.35 kN");
  trn_finding_clear (&f);
  f = (TrnFinding){ .check = TRN_CHECK_HOOK_LOAD };
  trn_finding_add_number (&f, "dynamic-factor", 1.1, TRN_UNIT_NONE);
  trn_finding_add_number (&f, "dynamic-load", 100e3, TRN_UNIT_KG);
  assert_text (trn_words_numbers (&f),
               "dynamic factor 1.1, which counts up to a hook load of 100 t");
  trn_finding_clear (&f);
}

/* At which radius a capacity is, and up to which tolerances take it, which the table is read at. */
static void
test_capacity_numbers (void)
{
  TrnFinding f = { .check = TRN_CHECK_CAPACITY };
  trn_finding_add_number (&f, "radius", 12, TRN_UNIT_M);
  trn_finding_add_number (&f, "radius-most", 12.0502, TRN_UNIT_M);
  assert_text (trn_words_numbers (&f), "at the radius 12 m, with tolerances up to 12.051 m");
  trn_finding_clear (&f);
}

/* Greatest and least of a share are of two moments, and each has its angle, 0° as well; the least
 * is rounded down. */
static void
test_share_numbers (void)
{
  TrnFinding f = { .check = TRN_CHECK_LOAD_SHARE };
  trn_finding_add_number (&f, "turned", 0, TRN_UNIT_DEG);
  trn_finding_add_number (&f, "least", 12344.9, TRN_UNIT_KG);
  trn_finding_add_number (&f, "least-turned", 90, TRN_UNIT_DEG);
  assert_text (trn_words_numbers (&f),
               "turned by 0°, at least 12.34 t, which it is when turned by 90°");
  trn_finding_clear (&f);
}

/* A lean of 0.8° is told, one that nobody sees is not. */
static void
test_lean (void)
{
  assert_text (trn_words_hangs_off (0.8 * G_PI / 180), "Hangs 0.8° off the drawn attitude");
  g_assert_null (trn_words_hangs_off (0.01 * G_PI / 180));
  g_assert_null (trn_words_hangs_off (NAN));
}

/* Each gauge of forces reads in its own unit, and its scale ends in it. 1 t weighs 9.80665 kN. */
static void
test_gauges (void)
{
  static const struct
  {
    TrnGauge gauge;
    double value;
    const char *text, *top;
  } all[] = {
    { TRN_GAUGE_LOAD, 12340, "12.34 t", " t" },
    { TRN_GAUGE_TENSION, 1000 * TRN_GRAVITY_M_S2, "9.807 kN", " kN" },
    { TRN_GAUGE_CAPACITY, 0.5, "50.0 %", " %" },
    { TRN_GAUGE_PRESSURE, 85000, "85 kPa", " kPa" },
    { TRN_GAUGE_SHARE, 0.3761, "37.7 %", " %" },
    { TRN_GAUGE_WIND, 0.0301, "0.031 m", " m" },
  };
  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    {
      double ticks[TRN_MOST_GAUGE_TICKS];
      char *texts[TRN_MOST_GAUGE_TICKS];
      assert_text (trn_words_gauge_value (all[i].gauge, all[i].value), all[i].text);
      guint n
          = trn_words_gauge_ticks (trn_gauge_scale (all[i].gauge), 0, all[i].value, ticks, texts);
      g_assert_true (g_str_has_suffix (texts[n - 1], all[i].top));
      g_assert_cmpfloat (ticks[n - 1], >=, all[i].value);
      for (guint k = 0; k < n; k++)
        g_free (texts[k]);
    }
  assert_text (trn_words_gauge_limit (TRN_GAUGE_MOST_CAPACITY, 1), "rated capacity, 100.0 %");
  assert_text (trn_words_gauge_limit (TRN_GAUGE_LEAST_SHARE, 0), "slack below 0.0 %");
  /* A hook that would have to push never reads as one that bears nothing. */
  assert_text (trn_words_gauge_value (TRN_GAUGE_SHARE, -0.0002), "−0.1 %");
  assert_text (trn_words_gauge_value (TRN_GAUGE_SHARE, -1e-12), "0.0 %");
  g_autofree char *wind = trn_words_gauge_value (TRN_GAUGE_WIND, 0.0301);
  assert_text (trn_words_gauge_at_most (wind), "at most 0.031 m");
  assert_text (trn_words_gauge_found (TRN_GAUGE_SHARE, 0.6232, TRUE), "found: up to 62.4 %");
}

/* A leg without a tension shows its angle alone. */
static void
test_legs (void)
{
  assert_text (trn_words_leg (G_PI / 3, 45100), "60° 45.1 kN");
  assert_text (trn_words_leg (G_PI / 3, NAN), "60°");
  assert_text (trn_words_leg (NAN, NAN), "–");
  assert_text (trn_words_of_limit (5000.1, 2000), "5.001 of 19.61 kN");
  assert_text (trn_words_of_limit (5000.1, NAN), "5.001 kN");
  assert_text (trn_words_beam_tilt (-0.0436), "2.5° off level");
  assert_text (trn_words_beam_tilt (1e-4), "level");
  assert_text (trn_words_beam_tilt (NAN), "–");
  assert_text (trn_words_loads_head (TRN_LOADS_AT_REST_HEAD, -G_PI / 2),
               "At rest; seen from south");
  assert_text (trn_words_loads_head (TRN_LOADS_AT_REST_HEAD, 0.3), "At rest; seen from east");
  assert_text (trn_words_loads_head (TRN_LOADS_DYNAMIC_HEAD, NAN), "At most, dynamic");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/words/loads/fixed", test_fixed);
  g_test_add_func ("/words/loads/values", test_values);
  g_test_add_func ("/words/loads/limits", test_limits);
  g_test_add_func ("/words/loads/subjects", test_subjects);
  g_test_add_func ("/words/loads/numbers", test_numbers);
  g_test_add_func ("/words/loads/capacity-numbers", test_capacity_numbers);
  g_test_add_func ("/words/loads/share-numbers", test_share_numbers);
  g_test_add_func ("/words/loads/lean", test_lean);
  g_test_add_func ("/words/loads/gauges", test_gauges);
  g_test_add_func ("/words/loads/legs", test_legs);
  return g_test_run ();
}
