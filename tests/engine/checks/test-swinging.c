/* What starting, stopping and slewing take off clearances, and how quick drives are: closed forms,
 * and random lifts by a crane past the true pendulum. The plan is that of
 * swinging-plan.h. */
#include "hoist.h"
#include "sway.h"
#include "swinging.h"
#include "swinging-plan.h"
#include "test-scale.h"

/* Starts and stops add twice the acceleration each where they take long, and else the speed. */
static void
test_travel (void)
{
  const double a = 0.06 / 10, v = 6 / 109.9;
  const double slow = 4 * a / G, quick = 2 * v / sqrt (G * 19);
  TestRun run = run_plan (RAMP ("10") TOWER, POST, CUBE, LIFT, TRAVEL ("110"));
  test_assert_between (swing_in (&run, 0), slow * FAR_M (17), NEAR, NEAR);
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_SWINGING, 0, -1, "load", NULL, "swing");
  test_assert_judged (f, TRN_VERDICT_NOTE, TRN_STATE_KNOWN, NULL);
  test_assert_between (f->value, slow * FAR_M (17), NEAR, NEAR);
  test_assert_between (test_number (f, "swing-angle"),
                       2 * asin (slow * sqrt (WHOLE_M (17)) / 2) * 180 / G_PI, 1e-6, 1e-6);
  g_assert_cmpstr (f->source, ==, "made up");
  /* Block and rope go as the hook; it is out of plumb by that. */
  f = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "tower/block", "post", NULL);
  test_assert_between (test_allowance_part (f, "swing"), slow * HOOK_M (17), NEAR, NEAR);
  f = test_finding_of (&run, TRN_CHECK_HOIST_LINES, 0, 0, "tower", NULL, NULL);
  test_assert_between (test_number (f, "swing-aside"), slow * HOOK_M (17), NEAR, NEAR);
  f = test_finding_of (&run, TRN_CHECK_SPEEDS, 0, 0, "tower", NULL, "travel");
  test_assert_between (f->value, 0.06, NEAR, NEAR);
  test_run_clear (&run);
  run = run_plan (RAMP ("0.1") TOWER, POST, CUBE, LIFT, TRAVEL ("110"));
  test_assert_between (swing_in (&run, 0), quick * FAR_M (17), NEAR, NEAR);
  test_run_clear (&run);
}

/* Without a ramp nothing is counted, which is said; speeds are those on average. */
static void
test_left_out (void)
{
  TestRun run = run_plan (TOWER, POST, CUBE, LIFT, TRAVEL ("100"));
  g_assert_cmpfloat (swing_in (&run, 0), ==, 0);
  g_assert_cmpuint (run.findings->checks_done & TRN_CHECK_BIT (TRN_CHECK_SWINGING), ==, 0);
  g_assert_cmpuint (run.findings->checks_done & TRN_CHECK_BIT (TRN_CHECK_SPEEDS), !=, 0);
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_SPEEDS, 0, 0, "tower", NULL, "travel");
  test_assert_between (f->value, 0.06, NEAR, NEAR);
  f = test_finding_of (&run, TRN_CHECK_SPEEDS, 0, -1, "tower", NULL, "line");
  g_assert_cmpfloat (f->value, ==, 0);
  test_run_clear (&run);
}

/* What a move leaves goes on in the next: the same angle on a rope that becomes longer, but for
 * what starting and stopping it adds, 1.5 times as great a power of it on one that becomes shorter,
 * until a wait is over that is long enough to bring it to rest. */
static void
test_goes_on (void)
{
  const double c = 4 * 0.006 / G;
  TestRun run = run_plan (
      RAMP_REST ("10", "60") TOWER, POST, CUBE, LIFT,
      TRAVEL ("110") ", {'do': 'hoist', 'by': -3, 'seconds': 60},"
                     " {'do': 'hoist', 'by': 8, 'seconds': 160}, {'do': 'wait', 'seconds':"
                     " 60}, {'do': 'hoist', 'by': -1, 'seconds': 60}, " TRAVEL ("110"));
  const double up = c * pow (22.0 / 14, 1.5), lowered = 3.0 / 50 / 10 / G; /* q of swing.c */
  test_assert_between (swing_in (&run, 1), c * FAR_M (20) * (1 + 1.5 * lowered), NEAR, 0.02 * c);
  test_assert_between (swing_in (&run, 2), up * FAR_M (20), NEAR, 0.05 * up * FAR_M (20));
  test_assert_between (swing_in (&run, 3), up * FAR_M (12), NEAR, 0.05 * up * FAR_M (12));
  g_assert_cmpfloat (swing_in (&run, 4), ==, 0);
  test_assert_between (swing_in (&run, 5), c * FAR_M (13), NEAR, 0.02 * c);
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_SPEEDS, 0, 1, "tower", NULL, "line");
  test_assert_between (f->value, 3.0 / 50, NEAR, NEAR);
  test_run_clear (&run);
}

/* A wait that is not so long, or any where the plan does not say how long it has to be, brings
 * nothing to rest. */
static void
test_no_rest (void)
{
  static const char *const ramps[] = { RAMP ("10") TOWER, RAMP_REST ("10", "60.001") TOWER };
  for (guint i = 0; i < G_N_ELEMENTS (ramps); i++)
    {
      TestRun run = run_plan (ramps[i], POST, CUBE, LIFT,
                              TRAVEL ("110") ", {'do': 'wait', 'seconds': 60}, {'do': 'hoist', "
                                             "'by': -1, 'seconds': 60}");
      const double after_m = swing_in (&run, 0);
      g_assert_cmpfloat (after_m, >, 0);
      test_assert_between (swing_in (&run, 1), after_m, NEAR, NEAR);
      g_assert_cmpfloat (swing_in (&run, 2), >, after_m);
      test_run_clear (&run);
    }
}

/* ---- from lift to lift ---- */

#define THEN(lift) "]}, {'lift': 'two', 'component': 'unit', " lift " 'moves': ["
#define DOWN "{'do': 'hoist', 'by': -3, 'seconds': 60}"

/* What a lift leaves swinging on its hook swings on in the next, as if it were one. */
static void
test_next_lift (void)
{
  TestRun one = run_plan (RAMP_REST ("10", "60") TOWER, POST, CUBE, LIFT, TRAVEL ("110") ", " DOWN);
  const double whole_m = swing_in (&one, 1);
  test_run_clear (&one);
  TestRun two
      = run_plan (RAMP_REST ("10", "60") TOWER, POST, CUBE, LIFT, TRAVEL ("110") THEN (LIFT) DOWN);
  g_assert_cmpfloat (swing_of (&two, 1, 0), >, 0);
  test_assert_between (swing_of (&two, 1, 0), whole_m, NEAR, NEAR);
  test_run_clear (&two);
  /* At rest by the end of the first. */
  TestRun rest = run_plan (RAMP_REST ("10", "60") TOWER, POST, CUBE, LIFT,
                           TRAVEL ("110") ", {'do': 'wait', 'seconds': 60}" THEN (LIFT) DOWN);
  g_assert_cmpfloat (swing_of (&rest, 1, 0), ==, 0);
  test_run_clear (&rest);
  /* Hung otherwise in between. */
  TestRun other = run_plan (RAMP_REST ("10", "60") TOWER, POST, CUBE, LIFT,
                            TRAVEL ("110") THEN ("'hook_point': [0, 0, 2], 'rigging': {'main': "
                                                 "{'gear': 'tower', 'hook_above': 2}},") DOWN);
  TEST_UNKNOWN (test_finding_of (&other, TRN_CHECK_SWINGING, 1, -1, "load", NULL, "swing"),
                TRN_MISSING_HOLDER);
  test_run_clear (&other);
}

/* What is found of the second lift is not found again where the first leaves it swinging, and did
 * not before, though all else of it is the same. */
static void
test_found_again (void)
{
  static const char *const firsts[]
      = { TRAVEL ("110") ", {'do': 'wait', 'seconds': 60}" THEN (LIFT) DOWN,
          "{'do': 'wait', 'seconds': 60}, " TRAVEL ("110") THEN (LIFT) DOWN };
  g_autoptr (TrnCache) cache = trn_cache_new (1 << 20);
  const TrnCheckOptions options = { .jobs = 1, .cache = cache };
  for (guint i = 0; i < G_N_ELEMENTS (firsts); i++)
    {
      g_autofree char *text = plan_text (RAMP_REST ("10", "60") TOWER, POST, CUBE, LIFT, firsts[i]);
      TestRun run = test_run_with (text, &options);
      if (i == 0)
        g_assert_cmpfloat (swing_of (&run, 1, 0), ==, 0);
      else
        g_assert_cmpfloat (swing_of (&run, 1, 0), >, 0.02);
      test_run_clear (&run);
    }
  g_assert_cmpuint (trn_cache_count (cache, TRN_CACHE_FINDING).misses, >, 0);
}

/* It passes by a post at 0.53 m where 0.5 m is to be kept, and swings by 0.05 m. */
static void
test_makes_short (void)
{
  const char *const beside = "{'id': 'post', 'solid': {'kind': 'box', 'size': [1, 1, 9]}, 'at': "
                             "{'position': [3, 2.03, 0]}}";
  TestRun drawn = run_plan (TOWER, beside, CUBE, LIFT, TRAVEL ("110"));
  TEST_PASSES (test_finding_of (&drawn, TRN_CHECK_CLEARANCE, 0, 0, "load", "post", NULL),
               TRN_STATE_CLEAR);
  test_run_clear (&drawn);
  TestRun run = run_plan (RAMP ("10") TOWER, beside, CUBE, LIFT, TRAVEL ("110"));
  TEST_FAILS (test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "load", "post", NULL),
              TRN_STATE_SHORT);
  test_run_clear (&run);
}

/* ---- a slew ---- */

#define CRANE                                                                                      \
  "'gear': [{'id': 'crane', 'kind': 'crane', 'at': {'position': [-30, 0, 0]}, 'boom': {'foot':"    \
  " [0, 2], 'length': 50, 'section': [0.6, 0.8], 'angle': [20, 80]}, 'hook_to_tip': 3}],"
#define CRANE_LIFT                                                                                 \
  "'hook_point': [0, 0, 14], 'rigging': {'main': {'gear': 'crane', 'hook_above': 5, " BLOCK        \
  ", " ONE_SLING ("[0, 0, 14]") "}},"

/* Half a turn in 70 s, 10 s of it each for start and stop: a part for the jumps of what is along
 * the arc, one for what turns while it comes up to speed and stops, and one for what turns evenly.
 */
static double
half_turn (double radius_m)
{
  const double w = G_PI / 60, a = w * radius_m / 10, out = w * w * radius_m, jerk = w * out;
  return (4 * a + 2 * (0.25 * jerk * 10 + 1.5 * out) + 50 * jerk) / G;
}

/* On slewing and sway in handbooks: at a radius of 30 m and 0.5 turns a minute a = ω² r = 0.0822
 * m/s², tan φ = a/g = 0.00839, on 30 m 0.25 m. Here half a turn between two ramps: the tip of the
 * boom of 50 m is 42 m up, the centre of gravity 12 m: 30 m between. */
static void
test_throw_out (void)
{
  TestRun run = run_plan (RAMP ("10") CRANE, POST, CUBE, CRANE_LIFT,
                          "{'do': 'hoist', 'by': 6, 'seconds': 300}, {'do': 'wait', 'seconds': 60},"
                          " {'do': 'slew', 'by': 180, 'centre': [-30, 0], 'seconds': 70}");
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_SWINGING, 0, -1, "load", NULL, "swing");
  const double a = 0.0822, first = 0.00839 * 30;
  test_assert_between (first, 0.25, 0.005, 0.005);
  test_assert_between (test_number (f, "throw-out"), first, 0, 0.01 * first);
  const double starts = 4 * G_PI / 60 * 30 / 10 / G;
  const double deg = test_number (f, "swing-angle"),
               chord = 2 * sin (deg * G_PI / 360) / sqrt (30.0 / 13);
  g_test_message ("%.4f rad, throw-out alone %.4f rad, starts and stops %.4f rad", chord, a / G,
                  starts);
  /* The height of the tip, and the rope, are enclosed. */
  test_assert_between (chord, half_turn (30), 1e-6, 0.03 * half_turn (30));
  f = test_finding_of (&run, TRN_CHECK_SPEEDS, 0, 2, "crane", NULL, "slew");
  test_assert_between (f->value, 3, NEAR, 0.02 * 3);
  f = test_finding_of (&run, TRN_CHECK_SPEEDS, 0, 0, "crane", NULL, "line");
  test_assert_between (f->value, 6.0 / 290, NEAR, 1e-4);
  test_run_clear (&run);
}

/* The hook goes round a point 1 m off. */
static void
test_turn (void)
{
  TestRun run = run_plan (RAMP ("10") TOWER, POST, CUBE, LIFT,
                          "{'do': 'turn', 'by': 180, 'about': [1, 0, 2], 'seconds': 70}");
  test_assert_between (swing_in (&run, 0), half_turn (1) * FAR_M (17), NEAR,
                       1e-3 * half_turn (1) * FAR_M (17));
  test_run_clear (&run);
}

/* ---- in wind ---- */

#define WIND "'wind': {'speed': 15, 'drag': 1.2, 'source': 'made up'},"
#define LOW_CRANE                                                                                  \
  "'gear': [{'id': 'crane', 'kind': 'crane', 'at': {'position': [-44, 0, -9]}, 'boom': {'foot':"   \
  " [0, 2], 'length': 50, 'section': [0.6, 0.8], 'angle': [5, 80]}, 'hook_to_tip': 3}],"
#define LUFF                                                                                       \
  "{'do': 'move', 'by': [0.8, 0, -1.5], 'seconds': 15}, {'do': 'hoist', 'by': -1, 'seconds': 60}"

/* A boom far down lets its tip down by 1.86 times what it goes out: what the wind takes aside grows
 * by e to the power of 2 r |z′|/√(9.81 m/s² l), l some 10.7 m, and by a little more as it bends. So
 * it does in the moves after that. */
static void
test_in_wind (void)
{
  g_autofree char *text = plan_text (
      WIND RAMP ("3.75") LOW_CRANE, POST, CUBE,
      "'hook_point': [0, 0, 2], 'rigging': {'main': {'gear': 'crane', 'hook_above': 1, " BLOCK
      ", " ONE_SLING ("[0, 0, 2]") "}},",
      LUFF);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  const TrnSceneOptions options = { .jobs = 1 };
  TrnScene *scene = trn_scene_build_take (test_programme (text), &options, diags);
  g_assert_nonnull (scene);
  const TrnCheckOptions check_options = { .jobs = 1 };
  TrnLiftCheck check;
  trn_lift_check_init (&check, scene, 0, &check_options);
  const double least = exp (2 * (1.0 / 11.25) * 1.86 * 0.8 / sqrt (G * 10.7));
  for (guint move = 0; move < 2; move++)
    {
      const TrnAllowance grown = trn_lift_check_allowance (&check, move);
      g_assert_cmpfloat (check.swinging[move].growth, >, least);
      g_assert_cmpfloat (check.swinging[move].growth, <, 1 + 2 * (least - 1));
      const double growth = check.swinging[move].growth;
      check.swinging[move].growth = 1;
      const TrnAllowance calm = trn_lift_check_allowance (&check, move);
      g_test_message ("%.4f, of it without %.4f", growth, grown.wind_m / calm.wind_m);
      g_assert_cmpfloat (grown.wind_m, >=, growth * calm.wind_m);
      g_assert_cmpfloat (grown.hook_wind_m, >=, growth * calm.hook_wind_m);
      g_assert_cmpfloat (grown.wind_rad, >=, growth * calm.wind_rad);
      g_assert_cmpfloat (grown.swing_m, ==, calm.swing_m);
    }
  trn_lift_check_clear (&check);
  trn_scene_free (scene);
}

/* ---- what is not known ---- */

#define TOWERS                                                                                     \
  "'gear': [{'id': 'west', 'kind': 'gantry', 'at': {'position': [0, 0, 0]}, 'legs': [{'at': [8, "  \
  "8], 'size': [0.5, 0.5], 'height': 30}], 'trolley': {'size': [1, 1, 1], 'underside': 25}}, "     \
  "{'id': 'east', 'kind': 'gantry', 'at': {'position': [0, 0, 0]}, 'legs': [{'at': [8, -8], "      \
  "'size': [0.5, 0.5], 'height': 30}], 'trolley': {'size': [1, 1, 1], 'underside': 25}}, {'id': "  \
  "'cart', 'kind': 'tail-trolley', 'at': {'position': [0, 0, 4]}, 'size': [1, 1, 1], 'track': "    \
  "[-9, 9]}],"
#define BAR "'solid': {'kind': 'box', 'size': [8, 1, 1]}, 'cog': [0, 0, 0.5], 'mass': 3000,"
#define BAR_LIFT(tail, more)                                                                       \
  "'hook_point': [-3, 0, 1], 'rigging': {'main': {'gear': 'west', 'hook_above': 1}, 'tail': "      \
  "{'gear': '" tail "', 'point': [3, 0, 1]" more "}},"

/* By the tail hook alone, 17.5 m below its tip, 1 m above the tail point; the corners of the bar
 * are 4 m, 0.5 m and 1.5 m from that. */
static void
test_tail_alone (void)
{
  TestRun run = run_plan (
      RAMP ("10") TOWERS, POST, BAR,
      "'hook_point': [-3, 0, 1], 'rigging': {'main': {'gear': 'west', 'hook_above': 1, 'moves': [0,"
      " 0]}, 'tail': {'gear': 'east', 'point': [0, 0, 1.5], 'hook_above': 1, " BLOCK
      ", " ONE_SLING ("[0, 0, 1.5]") "}},",
      "{'do': 'wait', 'seconds': 1}, " TRAVEL ("110"));
  g_assert_cmpfloat (swing_in (&run, 0), ==, 0);
  /* What the main hook leaves it swinging is known no more, until it comes to rest. */
  TestRun over = run_plan (
      RAMP_REST ("10", "9") TOWERS, POST, BAR,
      "'hook_point': [0, 0, 1], 'rigging': {'main': {'gear': 'west', 'hook_above': 1, 'moves': [0,"
      " 0], " BLOCK ", " ONE_SLING ("[0, 0, 1]") "}, 'tail': {'gear': 'east', 'point': [0, 0, 1.5],"
                                                 " 'hook_above': 1, 'moves': [1, 3]}},",
      TRAVEL ("110") ", {'do': 'hoist', 'by': 1, 'seconds': 60}, {'do': 'wait', 'seconds': 9}, "
                     "{'do': 'hoist', 'by': 1, 'seconds': 60}");
  g_assert_cmpfloat (swing_in (&over, 0), >, 0);
  for (int move = 1; move <= 2; move++)
    TEST_UNKNOWN (test_finding_of (&over, TRN_CHECK_CLEARANCE, 0, move, "load", "post", NULL),
                  "swing/two-hooks");
  g_assert_cmpfloat (swing_in (&over, 3), ==, 0);
  test_run_clear (&over);
  test_assert_between (swing_in (&run, 1), 4 * 0.006 / G * sqrt (19.5 * (18.5 + 18.5)), NEAR, NEAR);
  test_run_clear (&run);
}

/* Taken by a tail trolley while it swings, nobody knows how it goes on, until it is at rest. */
static void
test_guided (void)
{
  TestRun run = run_plan (
      RAMP_REST ("10", "60") TOWERS, POST, BAR,
      "'hook_point': [0, 0, 1], 'rigging': {'main': {'gear': 'west', 'hook_above': 1, " BLOCK
      ", " ONE_SLING (
          "[0, 0, 1]") "}, 'tail': {'gear': 'cart', 'point': [3, 0, 1], 'moves': [1, 3]}},",
      TRAVEL ("110") ", " TRAVEL ("110") ", {'do': 'wait', 'seconds': 60}, " TRAVEL ("110"));
  g_assert_cmpfloat (swing_in (&run, 0), >, 0);
  for (int move = 1; move <= 2; move++)
    TEST_UNKNOWN (test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, move, "load", "post", NULL),
                  "swing/guided");
  g_assert_cmpfloat (swing_in (&run, 3), ==, 0);
  test_run_clear (&run);
}

/* Started in 0.1 s at 2 m/s it would swing by 17°. On two hooks a travel is
 * not known, nor is what comes after it until a wait; a hoist from rest is. With its tail on a
 * trolley it is guided. */
static void
test_unknown (void)
{
  assert_unknown (RAMP ("10") TOWER, "'solid': {'kind': 'box', 'size': [2, 2, 2]},", LIFT,
                  TRAVEL ("110"), "cog");
  assert_unknown (RAMP ("10") "'gear': [],", CUBE, "'hook_point': [0, 0, 2],", TRAVEL ("110"),
                  "gear");
  assert_unknown (RAMP ("10") TOWER, CUBE,
                  "'hook_point': [0, 0, 2], 'rigging': {'main': {'gear': 'tower'}},",
                  TRAVEL ("110"), "hook_above");
  assert_unknown (RAMP ("0.1") TOWER, CUBE, LIFT, TRAVEL ("3"), "swing");
  assert_unknown (RAMP ("10") TOWERS, BAR, BAR_LIFT ("east", ", 'hook_above': 1"), TRAVEL ("110"),
                  "swing/two-hooks");
  assert_unknown (RAMP ("10") TOWER,
                  "'solid': {'kind': 'box', 'size': [2, 2, 2]}, 'cog': [0, 0, 3],", LIFT,
                  TRAVEL ("110"), "swing/above");
  /* Far above the tip. */
  assert_unknown (RAMP ("10") TOWER, CUBE, LIFT, "{'do': 'hoist', 'by': 25, 'seconds': 300}",
                  "reach");
  const char *const hoist = "{'do': 'hoist', 'by': 2, 'seconds': 100}";
  TestRun run
      = run_plan (RAMP ("10") TOWERS, POST, BAR, BAR_LIFT ("east", ", 'hook_above': 1"), hoist);
  g_assert_cmpfloat (swing_in (&run, 0), ==, 0);
  test_run_clear (&run);
  run = run_plan (RAMP ("0.1") TOWERS, POST, BAR, BAR_LIFT ("cart", ""), TRAVEL ("3"));
  g_assert_cmpfloat (swing_in (&run, 0), ==, 0);
  test_run_clear (&run);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/swinging/travel", test_travel);
  g_test_add_func ("/checks/swinging/left-out", test_left_out);
  g_test_add_func ("/checks/swinging/goes-on", test_goes_on);
  g_test_add_func ("/checks/swinging/no-rest", test_no_rest);
  g_test_add_func ("/checks/swinging/next-lift", test_next_lift);
  g_test_add_func ("/checks/swinging/found-again", test_found_again);
  g_test_add_func ("/checks/swinging/makes-short", test_makes_short);
  g_test_add_func ("/checks/swinging/throw-out", test_throw_out);
  g_test_add_func ("/checks/swinging/turn", test_turn);
  g_test_add_func ("/checks/swinging/in-wind", test_in_wind);
  g_test_add_func ("/checks/swinging/tail-alone", test_tail_alone);
  g_test_add_func ("/checks/swinging/guided", test_guided);
  g_test_add_func ("/checks/swinging/unknown", test_unknown);
  return g_test_run ();
}
