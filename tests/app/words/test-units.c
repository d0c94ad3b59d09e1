/* test-units.c: feet and inches, US tons and mathematical headings, chosen for the screen.
 *
 * 1 ft = 0.3048 m, 1 in = 0.0254 m and 1 lb = 0.45359237 kg are exact by the definition of the
 * international yard and pound; values are worked out by hand from them. */
#include <string.h>

#include "words.h"

static const TrnWordsUnits american
    = { TRN_LENGTHS_FEET, TRN_MASSES_US_TONS, TRN_HEADINGS_BEARINGS };
static const TrnWordsUnits usual = { TRN_LENGTHS_METRES, TRN_MASSES_TONNES, TRN_HEADINGS_BEARINGS };

static void
assert_text (char *text, const char *expected)
{
  g_assert_cmpstr (text, ==, expected);
  g_free (text);
}

/* What the command line shows when nobody chooses. */
static void
test_default (void)
{
  TrnWordsUnits units = trn_words_get_units ();
  g_assert_cmpint (units.lengths, ==, TRN_LENGTHS_METRES);
  g_assert_cmpint (units.masses, ==, TRN_MASSES_TONNES);
  g_assert_cmpint (units.headings, ==, TRN_HEADINGS_BEARINGS);
}

/* Whole feet, whole inches, sixteenths in lowest terms, less than an inch, nothing, negative. */
static void
test_feet (void)
{
  trn_words_set_units (american);
  assert_text (trn_words_length (0.3048), "1′ 0″");
  assert_text (trn_words_length (0.0254), "1″");
  assert_text (trn_words_length (0.62), "2′ 0 7/16″"); /* 24.409 in = 390.55/16 in */
  assert_text (trn_words_length (0.0254 / 2), "1/2″");
  assert_text (trn_words_length (11.75 * 0.0254), "11 3/4″");
  assert_text (trn_words_length (0), "0″");
  assert_text (trn_words_length (-0.3048), "−1′ 0″");
  assert_text (trn_words_length (30.48), "100′ 0″");
  assert_text (trn_words_length (NAN), "–");
  assert_text (trn_words_point ((TrnVec3){ 0.3048, -0.0254, 0 }), "(1′ 0″, −1″, 0″)");
  assert_text (trn_words_column_down (0.3048), "1′ 0″");
}

/* 0.5 m is 314.96 sixteenths: 1′ 7 10/16″ below and 1′ 7 11/16″ above. A length that is a whole
 * number of sixteenths stays itself both ways, and what is next to it goes apart. */
static void
test_feet_direction (void)
{
  trn_words_set_units (american);
  assert_text (trn_words_length_down (0.5), "1′ 7 5/8″");
  assert_text (trn_words_length_up (0.5), "1′ 7 11/16″");
  assert_text (trn_words_length_down (0.3048), "1′ 0″");
  assert_text (trn_words_length_up (0.3048), "1′ 0″");
  assert_text (trn_words_length_down (nextafter (0.3048, 0)), "11 15/16″");
  assert_text (trn_words_length_up (0.3048 * (1 + 1e-13)), "1′ 0 1/16″");
  assert_text (trn_words_length_down (-1e-6), "−1/16″");
  assert_text (trn_words_length_up (1e-6), "1/16″");
}

/* "2′ 0 7/16″" back to metres. */
static double
read_back (const char *text)
{
  int sign = 1;
  double feet = 0, inches = 0;
  if (g_str_has_prefix (text, "−"))
    {
      sign = -1;
      text += strlen ("−");
    }
  const char *rest = text;
  if (strstr (text, "′") != NULL)
    {
      feet = g_ascii_strtod (text, NULL);
      rest = strstr (text, "′") + strlen ("′") + 1;
    }
  g_auto (GStrv) words = g_strsplit (rest, " ", -1);
  for (guint i = 0; words[i] != NULL; i++)
    {
      const char *slash = strchr (words[i], '/');
      double value = g_ascii_strtod (words[i], NULL);
      inches += slash != NULL ? value / g_ascii_strtod (slash + 1, NULL) : value;
    }
  return sign * (feet * 12 + inches) * 0.0254;
}

/* Over random lengths the text is on the right side of the truth and within a sixteenth of it.
 * read_back rounds a few times: hence 1e-9. */
static void
test_feet_random (void)
{
  trn_words_set_units (american);
  for (guint i = 0; i < 20000; i++)
    {
      double m = g_test_rand_double_range (-1, i % 2 == 0 ? 1 : 100);
      g_autofree char *down = trn_words_length_down (m);
      g_autofree char *up = trn_words_length_up (m);
      g_assert_cmpfloat (read_back (down), <=, m + 1e-9);
      g_assert_cmpfloat (read_back (up), >=, m - 1e-9);
      g_assert_cmpfloat (read_back (up) - read_back (down), <, 0.0254 / 16 + 1e-9);
    }
}

static void
test_mass (void)
{
  trn_words_set_units (usual);
  assert_text (trn_words_mass (62400), "62.4 t");
  assert_text (trn_words_mass (0), "0 t");
  trn_words_set_units (american);
  assert_text (trn_words_mass (907.18474), "1 US tons");
  assert_text (trn_words_mass (62400), "68.784 US tons"); /* 62400 / 907.18474 = 68.7842… */
  assert_text (trn_words_mass (NAN), "–");
}

/* East is heading 0 and bearing 090; a heading grows toward north, a bearing toward south. */
static void
test_heading (void)
{
  trn_words_set_units (usual);
  assert_text (trn_words_heading (0), "090.0°");
  assert_text (trn_words_heading (G_PI_2), "000.0°");
  assert_text (trn_words_heading (atan2 (4, 3)), "036.9°"); /* 90 − 53.13° */
  assert_text (trn_words_heading (G_PI), "270.0°");
  TrnWordsUnits mathematical = { .headings = TRN_HEADINGS_MATHEMATICAL };
  trn_words_set_units (mathematical);
  assert_text (trn_words_heading (0), "0.0°");
  assert_text (trn_words_heading (-G_PI_2), "270.0°");
  assert_text (trn_words_heading (atan2 (4, 3)), "53.1°");
}

/* Moves follow: 3 m east and 4 m north are 5 m, 16′ 4 14/16″ (196.85 in), at 53.13° from east.
 * A point of the compass is a word in both. */
static void
test_moves (void)
{
  TrnMove moves[2] = { { .kind = TRN_MOVE_TRAVEL, .by = { 3, 4, 0 } },
                       { .kind = TRN_MOVE_TRAVEL, .by = { 0, 0.3048, 0 } } };
  TrnLift lift = { .moves = moves, .n_moves = 2 };
  TrnWordsUnits both = { TRN_LENGTHS_FEET, TRN_MASSES_US_TONS, TRN_HEADINGS_MATHEMATICAL };
  trn_words_set_units (both);
  assert_text (trn_words_move (&lift, 0), "Travel 16′ 4 7/8″ on heading 53.1° from east");
  assert_text (trn_words_move (&lift, 1), "Travel 1′ 0″ toward north");
  trn_words_set_units (usual);
  assert_text (trn_words_move (&lift, 0), "Travel 5 m on bearing 036.9°");
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/words/units/default", test_default);
  g_test_add_func ("/words/units/feet", test_feet);
  g_test_add_func ("/words/units/feet-direction", test_feet_direction);
  g_test_add_func ("/words/units/feet-random", test_feet_random);
  g_test_add_func ("/words/units/mass", test_mass);
  g_test_add_func ("/words/units/heading", test_heading);
  g_test_add_func ("/words/units/moves", test_moves);
  return g_test_run ();
}
