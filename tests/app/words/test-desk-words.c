/* test-desk-words.c: what the rooms of the desk say. */
#include <string.h>

#include "desk-words.h"

static void
assert_text (char *text, const char *expected)
{
  g_assert_cmpstr (text, ==, expected);
  g_free (text);
}

/* Each state of a distance has its word; what is missing is rounded up, what is to spare down. */
static void
test_now (void)
{
  assert_text (trn_words_now (TRN_NOW_TOUCHING, 0, 0.5), "Touching");
  assert_text (trn_words_now (TRN_NOW_SHORT, 0.0809, 0.5), "Short by 0.42 m");
  assert_text (trn_words_now (TRN_NOW_TIGHT, 0.5509, 0.5), "Tight, 0.05 m to spare");
  assert_text (trn_words_now (TRN_NOW_CLEAR, 3.1009, 0.5), "Clear, 3.1 m");
  assert_text (trn_words_now (TRN_NOW_CUTTING, 0, 0.5), "Cuts into it");
  assert_text (trn_words_now (TRN_NOW_INSIDE, 0.42, 0.5), "Inside, 0.42 m from the surface");
  g_assert_cmpstr (trn_words_contact (TRN_INSIDE_NO), ==, "In contact");
  g_assert_cmpstr (trn_words_contact (TRN_INSIDE_YES), ==, "Inside");
  assert_text (trn_words_in_move ("BEYOND", 2), "BEYOND, move 3");
  assert_text (trn_words_in_move ("BEYOND", -1), "BEYOND");
  TrnFinding beyond = {
    .check = TRN_CHECK_CAPACITY, .verdict = TRN_VERDICT_FAIL, .state = TRN_STATE_OUTSIDE, .move = 6
  };
  assert_text (trn_words_of_lift (&beyond), "of the lift: BEYOND, move 7");
  assert_text (trn_words_drawing_lines (0.999), "Drawing lines … 99 %");
}

/* No fixed text is missing, and none promises more than the program knows. */
static void
test_fixed (void)
{
  for (guint i = 0; i < TRN_N_DESK_TEXTS; i++)
    {
      const char *text = trn_words_desk (i);
      g_assert_nonnull (text);
      g_autofree char *small = g_utf8_strdown (text, -1);
      g_assert_null (strstr (small, "safe"));
    }
}

/* A part is named with its whole; what the plan does not have is called by its id; a name cannot
 * break the line. */
static void
test_names (void)
{
  TrnStructure structures[1] = { { .id = "hall", .name = "Main\nhall" } };
  TrnPlan plan = { .structures = structures, .n_structures = 1 };
  assert_text (trn_words_body_name (&plan, "hall"), "Main\357\277\275hall");
  assert_text (trn_words_body_name (&plan, "hall/canopy"), "Main\357\277\275hall, canopy");
  assert_text (trn_words_body_name (&plan, "gone/part"), "gone, part");
  /* 42 characters less ", canopy" leave 34 of the 60 of the whole, the last of them a sign that it
   * was cut. */
  structures[0].name = "Workshop of the long north quay by the second basin, in use.";
  assert_text (trn_words_body_name_cut (&plan, "hall/canopy", 42),
               "Workshop of the long north quay b…, canopy");
  assert_text (trn_words_body_name_cut (&plan, "gone/part", 42), "gone, part");
  structures[0].name = "Main\nhall";
  TrnFinding finding = { .check = TRN_CHECK_SEAT, .obstacle = "hall/canopy" };
  assert_text (trn_words_obstacle_name (&plan, &finding, 0), "Main\357\277\275hall, canopy (seat)");
  finding.obstacle = NULL;
  assert_text (trn_words_obstacle_name (&plan, &finding, 0), "–");
}

/* Of what is not known there are bounds where some clearance is proven, or that there is no more;
 * where something is missing there are none. */
static void
test_has_bounds (void)
{
  TrnFinding finding = { .check = TRN_CHECK_CLEARANCE,
                         .verdict = TRN_VERDICT_UNKNOWN,
                         .state = TRN_STATE_UNKNOWN,
                         .lower_m = 0,
                         .upper_m = NAN };
  g_assert_false (trn_words_has_bounds (&finding));
  finding.upper_m = 0.4;
  g_assert_true (trn_words_has_bounds (&finding));
  finding.missing = "attitude";
  g_assert_false (trn_words_has_bounds (&finding));
  finding.missing = NULL;
  finding.upper_m = INFINITY;
  finding.lower_m = 0.3;
  g_assert_true (trn_words_has_bounds (&finding));
}

/* A clearance of [0.3184, 0.3186] m against 0.5 m, closest 63 % into the third move. */
static void
test_finding (void)
{
  TrnFinding finding = { .check = TRN_CHECK_CLEARANCE,
                         .verdict = TRN_VERDICT_FAIL,
                         .state = TRN_STATE_SHORT,
                         .move = 2,
                         .required_m = 0.5,
                         .lower_m = 0.3184,
                         .upper_m = 0.3186,
                         .allowance_m = 0.0301,
                         .time_s = 5230,
                         .progress = 0.63 };
  assert_text (trn_words_bounds (&finding), "least 0.318 m … 0.319 m, keep 0.5 m");
  assert_text (trn_words_bounds_less (&finding),
               "least 0.318 m … 0.319 m, 0.031 m taken off, keep 0.5 m");
  assert_text (trn_words_allowance (&finding), "0.031 m taken off for tolerances");
  TrnFindingItem parts[] = { { "survey", 0.005 }, { "position-tilt-heading", 0.0051 } };
  finding.allowance_parts = g_array_new (FALSE, FALSE, sizeof (TrnFindingItem));
  g_array_append_vals (finding.allowance_parts, parts, 2);
  assert_text (trn_words_allowance (&finding), "0.031 m taken off for tolerances");
  parts[0] = (TrnFindingItem){ "lean", 0.02 };
  g_array_append_vals (finding.allowance_parts, parts, 1);
  assert_text (trn_words_allowance (&finding),
               "0.031 m taken off: 0.005 m survey, 0.006 m tolerances, 0.02 m lean of the load");
  g_array_set_size (finding.allowance_parts, 1);
  parts[0] = (TrnFindingItem){ "swing", 0.0251 };
  g_array_append_vals (finding.allowance_parts, parts, 1);
  assert_text (trn_words_allowance (&finding),
               "0.031 m taken off: 0.005 m survey, 0.026 m starting, stopping and slewing");
  trn_finding_clear (&finding);
  assert_text (trn_words_when (&finding, NAN), "at 1 h 27 min 10 s, 63 % into move 3");
  assert_text (trn_words_when (&finding, 1.2345),
               "at 1 h 27 min 10 s, 63 % into move 3. Closest on the way: at the start and at the "
               "end of this move at least 1.234 m is clear.");
  finding.progress = 0;
  assert_text (trn_words_when (&finding, NAN), "at 1 h 27 min 10 s, at the start of move 3");
  finding.progress = 1;
  assert_text (trn_words_when (&finding, NAN), "at 1 h 27 min 10 s, at the end of move 3");
  /* 0.3184 − 0.0301 − 0.5 = −0.2117 */
  assert_text (trn_words_margin (&finding), "−0.212 m");
  assert_text (trn_words_cell_down (0.5), "0.500 m");
  assert_text (trn_words_cell_up (0.0301), "0.031 m");
  assert_text (trn_words_move_row ("Tilt", &finding, FALSE), "Tilt. Short by 0.212 m");
  assert_text (trn_words_move_row ("Tilt", NULL, FALSE), "Tilt. Not checked");
  finding.allowance_m = 0;
  g_assert_null (trn_words_allowance (&finding));
  /* Numbers that were rounded, and polygons that are not flat. */
  TrnFindingItem mesh = { "mesh", 2e-6 };
  finding.allowance_m = mesh.m;
  finding.allowance_parts = g_array_new (FALSE, FALSE, sizeof (TrnFindingItem));
  g_array_append_vals (finding.allowance_parts, &mesh, 1);
  g_assert_null (trn_words_allowance (&finding));
  g_assert_cmpfloat (trn_words_allowance_m (&finding), ==, 0);
  g_array_index (finding.allowance_parts, TrnFindingItem, 0).m = finding.allowance_m = 0.0203;
  assert_text (trn_words_allowance (&finding), "0.021 m taken off: 0.021 m mesh files");
  g_assert_cmpfloat (trn_words_allowance_m (&finding), ==, 0.0203);
  trn_finding_clear (&finding);
}

/* Ticks begin at 0 and grow, in metres and in feet: 10′ is 3.048 m. */
static void
test_ticks (void)
{
  double ticks_m[TRN_MOST_TICKS];
  char *texts[TRN_MOST_TICKS];
  guint n = trn_words_distance_ticks (ticks_m, texts);
  g_assert_cmpuint (n, ==, 9);
  g_assert_cmpstr (texts[1], ==, "0.05");
  g_assert_cmpstr (texts[8], ==, "20 m");
  g_assert_cmpfloat (ticks_m[8], ==, 20);
  for (guint i = 0; i < n; i++)
    g_free (texts[i]);
  TrnWordsUnits feet = { .lengths = TRN_LENGTHS_FEET };
  TrnWordsUnits usual = { .lengths = TRN_LENGTHS_METRES };
  trn_words_set_units (feet);
  n = trn_words_distance_ticks (ticks_m, texts);
  g_assert_cmpstr (texts[1], ==, "2″");
  g_assert_cmpstr (texts[6], ==, "10′");
  g_assert_cmpfloat_with_epsilon (ticks_m[6], 3.048, 1e-12);
  for (guint i = 0; i < n; i++)
    {
      g_assert_true (i == 0 || ticks_m[i] > ticks_m[i - 1]);
      g_free (texts[i]);
    }
  trn_words_set_units (usual);
}

static void
test_time_and_rate (void)
{
  assert_text (trn_words_duration (2700), "45 min");
  assert_text (trn_words_duration (7800), "2 h 10 min");
  assert_text (trn_words_duration (7200), "2 h");
  assert_text (trn_words_duration (61), "1 min 01 s");
  assert_text (trn_words_duration (7.5), "7.5 s");
  assert_text (trn_words_duration (0), "0 s");
  assert_text (trn_words_duration (NAN), "–");
  assert_text (trn_words_of_total (7800), "of 2:10:00");
  assert_text (trn_words_rate (20), "20 × real time");
  assert_text (trn_words_rate_short (20), "20 ×");
  assert_text (trn_words_rate (0.1), "0.1 × real time");
  assert_text (trn_words_at (5230), "At 1 h 27 min 10 s");
  assert_text (trn_words_tilt (63.42 * G_PI / 180), "tilted 63.4° since the start");
  assert_text (trn_words_reading (5230, "Pump house", 0.3189, 0.5, 0),
               "1:27:10: Pump house about 0.318 m, keep 0.5 m");
  assert_text (trn_words_reading (5230, "Pump house", 4.479, 3.61, 0.95),
               "1:27:10: Pump house about 4.479 m, 0.95 m taken off, keep 3.61 m");
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/words/desk/now", test_now);
  g_test_add_func ("/words/desk/fixed", test_fixed);
  g_test_add_func ("/words/desk/names", test_names);
  g_test_add_func ("/words/desk/finding", test_finding);
  g_test_add_func ("/words/desk/ticks", test_ticks);
  g_test_add_func ("/words/desk/time-and-rate", test_time_and_rate);
  g_test_add_func ("/words/desk/has-bounds", test_has_bounds);
  return g_test_run ();
}
