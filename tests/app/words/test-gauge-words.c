/* test-gauge-words.c: values, limits and scales of gear in words. */
#include "gauge-words.h"

static void
assert_value (TrnGauge gauge, double value, double least, double most, const char *text)
{
  g_autofree char *shown = trn_words_gauge_value_beside (gauge, value, least, most);
  g_assert_cmpstr (shown, ==, text);
}

/* In millimetres, inches or hundredths of a degree, as limits are: a distance down, a radius up,
 * whatever sums leave behind. */
static void
test_values (void)
{
  assert_value (TRN_GAUGE_HOOK_HEIGHT, 12.3449, NAN, NAN, "12.345 m");
  assert_value (TRN_GAUGE_TIP_ABOVE_HOOK, 12.3449, NAN, NAN, "12.344 m");
  assert_value (TRN_GAUGE_TIP_ABOVE_HOOK, -0.0001, NAN, NAN, "−0.001 m");
  assert_value (TRN_GAUGE_RADIUS, 12.3441, NAN, NAN, "12.345 m");
  assert_value (TRN_GAUGE_RADIUS, 12 + 1e-12, NAN, NAN, "12 m");
  assert_value (TRN_GAUGE_TIP_ABOVE_HOOK, 9 - 1e-12, NAN, NAN, "9 m");
  assert_value (TRN_GAUGE_BOOM_ANGLE, 53.134 * G_PI / 180, NAN, NAN, "53.13°");
  assert_value (TRN_GAUGE_RADIUS, NAN, 4, 18, "–");
  trn_words_set_units ((TrnWordsUnits){ .lengths = TRN_LENGTHS_FEET });
  assert_value (TRN_GAUGE_RADIUS, 3.04, NAN, NAN, "10′ 0″");
  assert_value (TRN_GAUGE_WIND, 0.03, NAN, NAN, "1 3/16″");
  trn_words_set_units ((TrnWordsUnits){ 0 });
}

/* What is beyond a limit by a tenth of a millimetre reads as beyond it, and what is within it as
 * within it; so also where the limit itself is between two steps. */
static void
test_beside (void)
{
  assert_value (TRN_GAUGE_RADIUS, 15.9999, 4, 16, "16 m");
  assert_value (TRN_GAUGE_RADIUS, 16.0001, 4, 16, "16.001 m");
  assert_value (TRN_GAUGE_RADIUS, 4.0001, 4, 16, "4 m");
  assert_value (TRN_GAUGE_RADIUS, 3.9999, 4, 16, "3.999 m");
  assert_value (TRN_GAUGE_RADIUS, 16 + 1e-12, 4, 16, "16 m");
  assert_value (TRN_GAUGE_HOOK_HEIGHT, 16.0003, NAN, 16.0004, "16 m");
  assert_value (TRN_GAUGE_HOOK_HEIGHT, 4.0007, 4.0006, NAN, "4.001 m");
  assert_value (TRN_GAUGE_TIP_ABOVE_HOOK, 2.9999, 3, NAN, "2.999 m");
  assert_value (TRN_GAUGE_BOOM_ANGLE, 80.001 * G_PI / 180, G_PI / 6, 80 * G_PI / 180, "80.01°");
  assert_value (TRN_GAUGE_BOOM_ANGLE, 29.999 * G_PI / 180, G_PI / 6, 80 * G_PI / 180, "29.99°");
  assert_value (TRN_GAUGE_CAPACITY, 1.0001, NAN, 1, "100.1 %");
  trn_words_set_units ((TrnWordsUnits){ .lengths = TRN_LENGTHS_FEET });
  /* 18 m are 59 ft 0.66 in, of which the range says 59 ft. */
  assert_value (TRN_GAUGE_RADIUS, 17.99, 4, 18, "59′ 0″");
  assert_value (TRN_GAUGE_RADIUS, 18.0001, 4, 18, "59′ 1″");
  trn_words_set_units ((TrnWordsUnits){ 0 });
}

static void
test_limits (void)
{
  g_autofree char *end = trn_words_gauge_limit (TRN_GAUGE_MOST_RADIUS, 18);
  g_assert_cmpstr (end, ==, "end of the table 18 m");
  g_autofree char *both = trn_words_gauge_range (FALSE, 6, 18);
  g_assert_cmpstr (both, ==, "6 to 18 m");
  g_autofree char *least = trn_words_gauge_range (TRUE, G_PI / 6, NAN);
  g_assert_cmpstr (least, ==, "at least 30°");
  g_autofree char *most = trn_words_gauge_range (FALSE, NAN, 18);
  g_assert_cmpstr (most, ==, "at most 18 m");
  g_assert_null (trn_words_gauge_range (FALSE, NAN, NAN));
  g_autofree char *all = trn_words_gauge_found (TRN_GAUGE_PRESSURE, 244500, TRUE);
  g_assert_cmpstr (all, ==, "found: up to 244.5 kPa");
  g_autofree char *some = trn_words_gauge_found (TRN_GAUGE_CAPACITY, 0.5, FALSE);
  g_assert_cmpstr (some, ==, "found in part: up to 50.0 %");
  g_autofree char *drawn = trn_words_gauge_as_drawn ("190 kPa");
  g_assert_cmpstr (drawn, ==, "190 kPa as drawn");
  g_assert_cmpstr (trn_words_gauge_drawn (TRN_GAUGE_PRESSURE), ==,
                   "Greatest ground pressure, as drawn");
  g_assert_cmpstr (trn_words_gauge_drawn (TRN_GAUGE_RADIUS), ==, "Radius");
  g_assert_cmpstr (trn_words_gauge_drawn (TRN_GAUGE_WIND), ==, "Load aside by wind, at most");
  g_assert_cmpstr (trn_words_gauge_note (TRN_GAUGE_NOTE_NO_WIND), ==, "The plan names no wind");
  /* 7 m are 22 ft 11.6 in and 18 m are 59 ft 0.7 in: in whole inches the range is no wider. */
  TrnWordsUnits units = trn_words_get_units (), in_feet = units;
  in_feet.lengths = TRN_LENGTHS_FEET;
  trn_words_set_units (in_feet);
  g_autofree char *feet = trn_words_gauge_range (FALSE, 7, 18);
  g_autofree char *angles = trn_words_gauge_range (TRUE, G_PI / 6, G_PI / 3);
  trn_words_set_units (units);
  g_assert_cmpstr (feet, ==, "23′ 0″ to 59′ 0″");
  g_assert_cmpstr (angles, ==, "30° to 60°");
}

/* Whatever is to be held, the scale holds it, its steps are even and few, and the last has the
 * unit. */
static void
test_ticks (void)
{
  static const double ends[][2]
      = { { 4, 7 }, { 0, 120 }, { -3.2, 0.1 }, { 12, 12 }, { 0.3, 0.7 }, { 999, 1001 } };
  for (guint i = 0; i < 2 * G_N_ELEMENTS (ends); i++)
    {
      gboolean angle = i % 2 == 1;
      double unit = angle ? G_PI / 180 : 1;
      double least = ends[i / 2][0] * unit, most = ends[i / 2][1] * unit;
      double ticks[TRN_MOST_GAUGE_TICKS];
      char *texts[TRN_MOST_GAUGE_TICKS];
      guint n = trn_words_gauge_ticks (angle, least, most, ticks, texts);
      g_assert_cmpuint (n, >=, 2);
      g_assert_cmpuint (n, <=, TRN_MOST_GAUGE_TICKS);
      g_assert_cmpfloat (ticks[0], <=, least + 1e-9);
      g_assert_cmpfloat (ticks[n - 1], >=, most - 1e-9);
      for (guint k = 1; k < n; k++)
        g_assert_cmpfloat_with_epsilon (ticks[k] - ticks[k - 1], ticks[1] - ticks[0], 1e-9);
      g_assert_true (g_str_has_suffix (texts[n - 1], angle ? "°" : " m"));
      for (guint k = 0; k < n; k++)
        g_free (texts[k]);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/words/gauges/values", test_values);
  g_test_add_func ("/words/gauges/beside", test_beside);
  g_test_add_func ("/words/gauges/limits", test_limits);
  g_test_add_func ("/words/gauges/ticks", test_ticks);
  return g_test_run ();
}
