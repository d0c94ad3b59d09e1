/* test-gauge-words.c: values, limits and scales of gear in words. */
#include "gauge-words.h"

/* To the nearest centimetre, or inch, or tenth of a degree. */
static void
test_values (void)
{
  g_autofree char *height = trn_words_gauge_value (TRN_GAUGE_HOOK_HEIGHT, 12.3449);
  g_assert_cmpstr (height, ==, "12.34 m");
  g_autofree char *angle = trn_words_gauge_value (TRN_GAUGE_BOOM_ANGLE, 53.13 * G_PI / 180);
  g_assert_cmpstr (angle, ==, "53.1°");
  g_autofree char *none = trn_words_gauge_value (TRN_GAUGE_RADIUS, NAN);
  g_assert_cmpstr (none, ==, "–");
  trn_words_set_units ((TrnWordsUnits){ .lengths = TRN_LENGTHS_FEET });
  g_autofree char *feet = trn_words_gauge_value (TRN_GAUGE_RADIUS, 3.06);
  g_assert_cmpstr (feet, ==, "10′ 0″");
  trn_words_set_units ((TrnWordsUnits){ 0 });
}

static void
test_limits (void)
{
  g_autofree char *end = trn_words_gauge_limit (TRN_GAUGE_MOST_RADIUS, 18);
  g_assert_cmpstr (end, ==, "end of the table 18 m");
  g_autofree char *both = trn_words_gauge_range (FALSE, 6, 18);
  g_assert_cmpstr (both, ==, "6 m to 18 m");
  g_autofree char *least = trn_words_gauge_range (TRUE, G_PI / 6, NAN);
  g_assert_cmpstr (least, ==, "at least 30°");
  g_autofree char *most = trn_words_gauge_range (FALSE, NAN, 18);
  g_assert_cmpstr (most, ==, "at most 18 m");
  g_assert_null (trn_words_gauge_range (FALSE, NAN, NAN));
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
  g_test_add_func ("/words/gauges/limits", test_limits);
  g_test_add_func ("/words/gauges/ticks", test_ticks);
  return g_test_run ();
}
