/* test-quantities.c: numbers as people read them, and never a clearance rounded up. */
#include <float.h>
#include <string.h>

#include "desk-words.h"

static void
assert_text (char *text, const char *expected)
{
  g_assert_cmpstr (text, ==, expected);
  g_free (text);
}

/* Idle zeros go, a minus sign is a true one, and no number is a dash. */
static void
test_length (void)
{
  assert_text (trn_words_length (0.62), "0.62 m");
  assert_text (trn_words_length (3), "3 m");
  assert_text (trn_words_length (-1.2345), "−1.235 m");
  assert_text (trn_words_length (1200), "1200 m");
  assert_text (trn_words_length (-0.0001), "0 m");
  assert_text (trn_words_length (NAN), "–");
  assert_text (trn_words_length (INFINITY), "–");
  assert_text (trn_words_length (1e300), "–");
}

/* 0.5999 m to be shown as a clearance of 0.6 m would pass a reader who needs 0.6 m; a shortfall of
 * 0.0001 m shown as 0 would hide it. 0.62 · 1000 and 1.005 · 1000 round in binary: neither may
 * lose its last millimetre, since the text reads back as the same number. */
static void
test_rounding_direction (void)
{
  assert_text (trn_words_length_down (0.5999), "0.599 m");
  assert_text (trn_words_length_up (0.5991), "0.6 m");
  assert_text (trn_words_length_up (0.0001), "0.001 m");
  assert_text (trn_words_length_down (-0.0001), "−0.001 m");
  assert_text (trn_words_length_down (0.62), "0.62 m");
  assert_text (trn_words_length_up (0.62), "0.62 m");
  assert_text (trn_words_length_down (1.005), "1.005 m");
  assert_text (trn_words_length_down (nextafter (0.62, 0)), "0.619 m");
  assert_text (trn_words_column_down (0.62), "0.620");
  assert_text (trn_words_column_down (-0.18), "−0.180");
  assert_text (trn_words_column_up (2), "2.000");
}

/* 0.5 − 0.35 and 0.1 + 0.05 are one or two units in the last place above 0.15, as the plan has it:
 * shown as 0.151 m they would read as a tolerance that nobody set. A thousand-millionth part above
 * it is a number of its own; below nothing, there is nothing to forgive. What is there is never
 * more than it is. */
static void
test_rounding_dust (void)
{
  assert_text (trn_words_length_up (0.15000000000000002), "0.15 m");
  assert_text (trn_words_length_up (0.1 + 0.05), "0.15 m");
  assert_text (trn_words_length_up (0.5 - 0.35), "0.15 m");
  assert_text (trn_words_length_down (-0.15000000000000002), "−0.15 m");
  assert_text (trn_words_column_up (nextafter (0.62, 1)), "0.620");
  assert_text (trn_words_length_up (0.15 * (1 + 1e-9)), "0.151 m");
  assert_text (trn_words_length_up (0.15 * (1 + 1e-13)), "0.151 m");
  assert_text (trn_words_length_up (1000 * (1 + 1e-13)), "1000.001 m");
  assert_text (trn_words_length_up (DBL_MIN), "0.001 m");
  assert_text (trn_words_length_down (0.15 * (1 - 1e-15)), "0.149 m");
}

/* On screen no line breaks between a number and its unit: every space is one that does not break;
 * elsewhere they are plain. */
static void
test_joined (void)
{
  assert_text (trn_words_length (0.118), "0.118 m");
  trn_words_set_joined (TRUE);
  char *texts[] = { trn_words_length (0.118),  trn_words_length_up (3),
                    trn_words_time (3725),     trn_words_time (7.5),
                    trn_words_mass (62400),    trn_words_point (trn_vec3_make (1, 2, 3)),
                    trn_words_duration (7800), trn_words_duration (60),
                    trn_words_rate_short (20) };
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_assert_null (strchr (texts[i], ' '));
      g_assert_nonnull (strstr (texts[i], "\302\240"));
      g_free (texts[i]);
    }
  trn_words_set_joined (FALSE);
  assert_text (trn_words_length (0.118), "0.118 m");
}

/* Over many random lengths what is shown reads back on the right side of the truth, and less than a
 * millimetre (and the rounding of the number itself) from it. */
static void
test_rounding_random (void)
{
  for (guint i = 0; i < 20000; i++)
    {
      double m = g_test_rand_double_range (0, i % 2 == 0 ? 1 : 10000);
      g_autofree char *down = trn_words_column_down (m);
      g_autofree char *up = trn_words_column_up (m);
      g_assert_cmpfloat (g_ascii_strtod (down, NULL), <=, m);
      g_assert_cmpfloat (g_ascii_strtod (up, NULL), >=, m);
      g_assert_cmpfloat (g_ascii_strtod (up, NULL) - g_ascii_strtod (down, NULL), <, 0.0010001);
    }
}

/* 59.96 s would be "60 s" and 3599.6 s "59 min 60 s" if each part were rounded by itself. */
static void
test_time (void)
{
  assert_text (trn_words_time (0), "0 s");
  assert_text (trn_words_time (7.54), "7.5 s");
  assert_text (trn_words_time (59.94), "59.9 s");
  assert_text (trn_words_time (59.96), "1 min 00 s");
  assert_text (trn_words_time (725), "12 min 05 s");
  assert_text (trn_words_time (3599.6), "1 h 00 min 00 s");
  assert_text (trn_words_time (3725), "1 h 02 min 05 s");
  assert_text (trn_words_time (NAN), "–");
  assert_text (trn_words_column_time (725), "0:12:05");
  assert_text (trn_words_column_time (3599.6), "1:00:00");
  assert_text (trn_words_column_time (NAN), "–");
}

static void
test_angle_and_point (void)
{
  assert_text (trn_words_angle (G_PI_2), "90°");
  assert_text (trn_words_angle (-G_PI / 360), "−0.5°");
  assert_text (trn_words_angle (NAN), "–");
  assert_text (trn_words_point (trn_vec3_make (12.3456, -5.6, 0)), "(12.346, −5.6, 0) m");
  assert_text (trn_words_point (trn_vec3_make (NAN, 0, 0)), "–");
}

/* A name from a file must not steer a terminal, nor turn a line round, nor fill the screen. */
static void
test_clean (void)
{
  assert_text (trn_words_clean ("Büro 3", 0), "Büro 3");
  assert_text (trn_words_clean ("a\033[2Jb\nc", 0), "a�[2Jb�c");
  assert_text (trn_words_clean ("a\xe2\x80\xae"
                                "b",
                                0),
               "a�b");
  assert_text (trn_words_clean ("a\xff", 0), "a�");
  assert_text (trn_words_clean ("abcdef", 4), "abc…");
  assert_text (trn_words_clean ("abcd", 4), "abcd");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/words/quantities/length", test_length);
  g_test_add_func ("/words/quantities/rounding-direction", test_rounding_direction);
  g_test_add_func ("/words/quantities/rounding-dust", test_rounding_dust);
  g_test_add_func ("/words/quantities/joined", test_joined);
  g_test_add_func ("/words/quantities/rounding-random", test_rounding_random);
  g_test_add_func ("/words/quantities/time", test_time);
  g_test_add_func ("/words/quantities/angle-and-point", test_angle_and_point);
  g_test_add_func ("/words/quantities/clean", test_clean);
  return g_test_run ();
}
