/* Sentences of the checks of forces: what is borne is rounded up, what may be borne down. */
#include "force-words.h"

#include <string.h>

#include "attitude.h"
#include "ground-check.h"
#include "load-words.h"

static TrnFinding
finding_of (TrnCheckKind check, const char *item, TrnState state, TrnUnit unit, double value,
            double limit)
{
  return (TrnFinding){ .check = check,
                       .verdict = TRN_VERDICT_PASS,
                       .state = state,
                       .item = item,
                       .unit = unit,
                       .value = value,
                       .limit = limit,
                       .margin = limit - value,
                       .utilisation = value / limit };
}

static void
assert_says (const TrnFinding *finding, const char *expected)
{
  g_autofree char *text = trn_words_finding (finding);
  g_assert_cmpstr (text, ==, expected);
}

static void
test_numbers (void)
{
  g_autofree char *up = trn_words_force (12344.1, TRN_UNIT_N, TRUE);
  g_autofree char *down = trn_words_force (12348.9, TRN_UNIT_N, FALSE);
  g_autofree char *even = trn_words_force (0.3 * 1000, TRN_UNIT_PA, TRUE);
  g_assert_cmpstr (up, ==, "12.35 kN");
  g_assert_cmpstr (down, ==, "12.34 kN");
  g_assert_cmpstr (even, ==, "0.3 kPa");
}

static void
test_capacity (void)
{
  TrnFinding f = finding_of (TRN_CHECK_CAPACITY, NULL, TRN_STATE_CRITICAL, TRN_UNIT_KG, 8000, 9999);
  f.rule = "29-cfr-1926-751";
  g_autofree char *text = trn_words_finding (&f);
  g_assert_nonnull (strstr (text, "80.1 %"));
  g_assert_nonnull (strstr (text, "critical lift by 29-cfr-1926-751"));
  f.state = TRN_STATE_OUT_OF_REACH;
  assert_says (&f, "No rated capacity: the radius is beyond the ends of the table");
  g_assert_cmpstr (trn_words_finding_short (&f), ==, "OUT OF REACH");
}

/* Says by how much, what that means and what to do. */
static void
test_attitude (void)
{
  TrnFinding f = finding_of (TRN_CHECK_ATTITUDE, "lean", TRN_STATE_OUTSIDE, TRN_UNIT_DEG, 2.5, 0.5);
  g_autofree char *text = trn_words_finding (&f);
  g_assert_true (g_str_has_prefix (text,
                                   "Would not hang as drawn: with its centre of gravity plumb "
                                   "below the hook it leans by up to 2.5°, where the tolerance of "
                                   "tilt is 0.5°."));
  g_assert_nonnull (
      strstr (text, "write \"hangs\": \"free\" into the lift, or put the hook point"));
  g_autofree char *subject = trn_words_force_subject (&f);
  g_assert_cmpstr (subject, ==, "attitude: lean");
  trn_finding_add_number (&f, TRN_ATTITUDE_BUT_FOR_BOX, 0, TRN_UNIT_DEG);
  assert_says (&f,
               "Would not hang as drawn: its centre of gravity may lie anywhere in its box "
               "(cog_box), so that it leans by up to 2.5°, where the tolerance of tilt is 0.5°. "
               "Clearances hold for the drawn attitude only: give the lift a tilt_deg of its "
               "tolerance of at least 2.5°, a smaller cog_box, or \"hangs\": \"free\"");
  trn_finding_add_number (&f, "shift", 0.2371, TRN_UNIT_M);
  assert_says (
      &f, "Would not hang as drawn: its centre of gravity may lie anywhere in its box "
          "(cog_box), so that it leans by up to 2.5°, where the tolerance of tilt is 0.5°, and "
          "its slings take its hook point aside by up to 0.238 m. Clearances hold for the "
          "drawn attitude only: give the lift a tolerance with a tilt_deg of at least 2.5° and "
          "a position of at least 0.238 m, a smaller cog_box, or \"hangs\": \"free\"");
  trn_finding_clear (&f);
  f.numbers = NULL;
  TrnFinding shift
      = finding_of (TRN_CHECK_ATTITUDE, "shift", TRN_STATE_OUTSIDE, TRN_UNIT_M, 0.3, 0.1);
  g_autofree char *aside = trn_words_finding (&shift);
  g_assert_nonnull (strstr (aside, "up to 0.3 m, where the tolerance of position is 0.1 m"));
  f.state = TRN_STATE_WITHIN;
  assert_says (
      &f, "Hangs as drawn: free it would lean by up to 2.5°, which the tolerance of tilt covers");
  f.state = TRN_STATE_UNKNOWN;
  f.verdict = TRN_VERDICT_UNKNOWN;
  f.missing = "hang";
  g_autofree char *unknown = trn_words_finding (&f);
  g_assert_true (g_str_has_prefix (unknown, "Not known: how the load would hang cannot be found"));
}

static void
test_slings (void)
{
  TrnFinding f
      = finding_of (TRN_CHECK_SLINGS, "tension", TRN_STATE_OUTSIDE, TRN_UNIT_N, 10501, 10000);
  assert_says (&f, "Beyond its working load limit: 105.1 %, 10.51 kN of 10 kN");
  f.verdict = TRN_VERDICT_FAIL;
  assert_says (&f, "Beyond its working load limit: 105.1 %, 10.51 kN of 10 kN. Take stronger "
                   "slings, or steeper ones (hook_above)");
  f.state = TRN_STATE_SLACK;
  f.verdict = TRN_VERDICT_PASS;
  assert_says (&f, "Goes slack: it would have to push");
  g_autofree char *subject = trn_words_force_subject (&f);
  g_assert_cmpstr (subject, ==, "sling: tension");
  f = finding_of (TRN_CHECK_CLEARANCE, NULL, TRN_STATE_CLEAR, TRN_UNIT_NONE, 0, 1);
  g_assert_null (trn_words_force_subject (&f));
}

/* The one of several supports that pulls most is named, and what helps. */
static void
test_lifted (void)
{
  TrnFinding f = finding_of (TRN_CHECK_GROUND, NULL, TRN_STATE_LIFTED, TRN_UNIT_PA, 1000, 2000);
  f.verdict = TRN_VERDICT_FAIL;
  trn_finding_add_number (&f, TRN_GROUND_LIFTED, 3, TRN_UNIT_NONE);
  trn_finding_add_number (&f, TRN_GROUND_PULL, 82641, TRN_UNIT_N);
  trn_finding_add_number (&f, TRN_GROUND_LIFTED_X, 5, TRN_UNIT_M);
  trn_finding_add_number (&f, TRN_GROUND_LIFTED_Y, -2.5, TRN_UNIT_M);
  assert_says (&f,
               "Support 3 (x 5 m, y −2.5 m in the frame of its gear) lifts off: it would have to "
               "pull by up to 82.65 kN. That is of all weights, as on ground that settles evenly "
               "and, of four in a rectangle, as a beam shares along and across; the worse counts. "
               "Set the supports farther apart, bring the load nearer to their middle, or change "
               "the counterweight");
  g_autofree char *bare = trn_words_force_bare (&f);
  g_assert_cmpstr (bare, ==,
                   "Support 3 (x 5 m, y −2.5 m in the frame of its gear) lifts off: it "
                   "would have to pull by up to 82.65 kN");
  trn_finding_clear (&f);
  assert_says (&f, "A support lifts off: it would have to pull. Set the supports farther apart, "
                   "bring the load nearer to their middle, or change the counterweight");
}

/* On mats: what of one bears, and what bends it then. */
static void
test_mats (void)
{
  TrnFinding f = finding_of (TRN_CHECK_GROUND, NULL, TRN_STATE_WITHIN, TRN_UNIT_PA, 143056, 150000);
  trn_finding_add_number (&f, TRN_GROUND_MAT_LENGTH, 2.861, TRN_UNIT_M);
  trn_finding_add_number (&f, TRN_GROUND_MAT_WIDTH, 1.2, TRN_UNIT_M);
  trn_finding_add_number (&f, TRN_GROUND_MAT_MOMENT, 84014, TRN_UNIT_NM);
  trn_finding_add_number (&f, TRN_GROUND_MAT_MOMENT_ACROSS, 18750, TRN_UNIT_NM);
  assert_says (&f, "Ground pressure within what is allowed: 95.4 %, 143.1 kPa of 150 kPa; a mat "
                   "bears over a length of 2.861 m and a width of 1.2 m, which bends this part of "
                   "it by up to 84.02 kN m along and 18.75 kN m across; shear of the mat is not "
                   "checked, wind on the gear is not counted");
  f.state = TRN_STATE_OUTSIDE;
  f.verdict = TRN_VERDICT_FAIL;
  f.limit = 100000;
  f.utilisation = 1.43056;
  assert_says (&f, "Ground pressure beyond what is allowed: 143.1 %, 143.1 kPa of 100 kPa; a mat "
                   "bears over a length of 2.861 m and a width of 1.2 m, which bends this part of "
                   "it by up to 84.02 kN m along and 18.75 kN m across; shear of the mat is not "
                   "checked, wind on the gear is not counted. Take larger pads or mats, shorten "
                   "the radius, or set the gear on firmer ground");
  trn_finding_clear (&f);
  /* Below a track there is no width. */
  f = finding_of (TRN_CHECK_GROUND, NULL, TRN_STATE_WITHIN, TRN_UNIT_PA, 143056, 150000);
  trn_finding_add_number (&f, TRN_GROUND_MAT_LENGTH, 3.6, TRN_UNIT_M);
  trn_finding_add_number (&f, TRN_GROUND_MAT_MOMENT, 84014, TRN_UNIT_NM);
  trn_finding_add_number (&f, TRN_GROUND_MAT_MOMENT_ACROSS, 0, TRN_UNIT_NM);
  assert_says (&f, "Ground pressure within what is allowed: 95.4 %, 143.1 kPa of 150 kPa; mats "
                   "bear over a length of 3.6 m, which bends those of one track by up to 84.02 kN "
                   "m; shear of the mats is not checked, wind on the gear is not counted");
  f.state = TRN_STATE_OUTSIDE;
  f.verdict = TRN_VERDICT_FAIL;
  f.limit = 100000;
  f.utilisation = 1.43056;
  assert_says (&f, "Ground pressure beyond what is allowed: 143.1 %, 143.1 kPa of 100 kPa; mats "
                   "bear over a length of 3.6 m, which bends those of one track by up to 84.02 kN "
                   "m; shear of the mats is not checked, wind on the gear is not counted. Take "
                   "larger pads or mats, shorten the radius, or set the gear on firmer ground");
  trn_finding_add_number (&f, TRN_GROUND_MAT_LEAST_STRONG, 90, TRN_UNIT_NM);
  g_autofree char *weak = trn_words_finding (&f);
  g_assert_nonnull (strstr (weak,
                            "Take stronger mats (moment and moment_across of the mat, in N m) "
                            "or larger pads, shorten the radius"));
  trn_finding_clear (&f);
}

static void
test_share (void)
{
  TrnFinding f
      = finding_of (TRN_CHECK_LOAD_SHARE, "tail-height", TRN_STATE_KNOWN, TRN_UNIT_M, -0.5, NAN);
  f.verdict = TRN_VERDICT_NOTE;
  assert_says (&f, "The tail point comes 0.5 m below the centre of gravity: it can come to carry "
                   "all of the load");
  f.state = TRN_STATE_OVER_TAIL;
  assert_says (&f, "The tail point comes 0.5 m below the centre of gravity and carries all of the "
                   "load: it turns over about the tail");
  f = finding_of (TRN_CHECK_LOAD_SHARE, "tail-out-of-level", TRN_STATE_KNOWN, TRN_UNIT_KG, 8000,
                  NAN);
  f.utilisation = 0.4;
  assert_says (&f, "With the hooks out of level the tail carries at most 8 t, 40.0 % of the load");
  f.state = TRN_STATE_SLACK;
  assert_says (&f, "With the hooks out of level the tail goes slack");
  f = finding_of (TRN_CHECK_LOAD_SHARE, "out-of-plane", TRN_STATE_OUTSIDE, TRN_UNIT_DEG, 2.5, 0.5);
  assert_says (&f,
               "Leans by up to 2.5° until its centre of gravity is plumb below what it hangs "
               "from, where tolerances cover 0.5°. Clearances hold for the drawn attitude only");
  /* Where both look alike, with as many more digits as tell them apart. */
  f.value = 0.2243;
  f.limit = 0.2198;
  g_autofree char *beside = trn_words_finding (&f);
  g_assert_nonnull (strstr (beside, "Leans by up to 0.224°"));
  g_assert_nonnull (strstr (beside, "tolerances cover 0.22°"));
  f.verdict = TRN_VERDICT_FAIL;
  g_autofree char *cell = trn_words_value_cell (&f), *limit_cell = trn_words_limit_cell (&f);
  g_assert_cmpstr (cell, ==, "0.224°");
  g_assert_cmpstr (limit_cell, ==, "0.22°");
  f.verdict = TRN_VERDICT_PASS;
  f.state = TRN_STATE_TURNS_OVER;
  assert_says (&f, "Turns over: its centre of gravity can be above the line through what it hangs "
                   "from");
  f.item = "tail-alone";
  assert_says (&f, "Turns over: its centre of gravity can be above the tail point, which alone "
                   "holds it");
  g_assert_cmpstr (trn_words_finding_short (&f), ==, "TURNS OVER");
  f = finding_of (TRN_CHECK_HOIST_LINES, NULL, TRN_STATE_OUTSIDE, TRN_UNIT_DEG, 2.5, 0.5);
  assert_says (&f, "The hoist rope can be 2.5° out of plumb, 0.5° allowed");
  f = finding_of (TRN_CHECK_SPEEDS, "line", TRN_STATE_KNOWN, TRN_UNIT_M_S, 0.05, NAN);
  assert_says (&f, "Hoist rope paid in or out at 0.05 m/s at most, 3 m a minute");
  f.item = "travel";
  assert_says (&f, "Travels at 0.05 m/s at most, 3 m a minute");
  f = finding_of (TRN_CHECK_SPEEDS, "slew", TRN_STATE_KNOWN, TRN_UNIT_DEG_S, 3, NAN);
  assert_says (&f, "Slews at 3°/s at most, 0.5 turns a minute");
  f.item = "boom";
  assert_says (&f, "The boom goes up or down at 3°/s at most");
  f.verdict = TRN_VERDICT_NOTE;
  g_assert_cmpstr (trn_words_finding_short (&f), ==, "known");
  f = finding_of (TRN_CHECK_SWINGING, "swing", TRN_STATE_KNOWN, TRN_UNIT_M, 0.2501, NAN);
  assert_says (&f, "Starting, stopping and slewing take the load aside by at most 0.251 m");
  f = finding_of (TRN_CHECK_LOAD_SHARE, "main", TRN_STATE_OVER_TAIL, TRN_UNIT_KG, 1, NAN);
  assert_says (&f, "The centre of gravity passes over the tail point: the main hook goes slack");
}

/* When a share is the greatest and when the least, which are two moments of a tilt; of one that
 * goes slack when it does. Without a tilt there is nothing to tell. */
static void
test_share_when (void)
{
  TrnFinding f = finding_of (TRN_CHECK_LOAD_SHARE, "tail", TRN_STATE_KNOWN, TRN_UNIT_KG, 8000, NAN);
  trn_finding_add_number (&f, "least", 1234.59, TRN_UNIT_KG);
  g_assert_null (trn_words_share_when (&f));
  trn_finding_add_number (&f, "turned", 0, TRN_UNIT_DEG);
  trn_finding_add_number (&f, "least-turned", 62.5, TRN_UNIT_DEG);
  g_autofree char *both = trn_words_share_when (&f);
  g_assert_cmpstr (both, ==,
                   "the most when turned by 0° in this move, the least, 1.234 t, when turned by "
                   "62.5°");
  f.state = TRN_STATE_SLACK;
  g_autofree char *slack = trn_words_share_when (&f);
  g_assert_cmpstr (slack, ==, "worst when turned by 62.5° in this move");
  f.check = TRN_CHECK_HOOK_LOAD;
  g_assert_null (trn_words_share_when (&f));
  trn_finding_clear (&f);
}

/* What is to be done about a hoist rope out of plumb is about the greatest part of what takes it
 * aside; where parts are alike, the first. */
static void
test_plumb_advice (void)
{
  static const struct
  {
    double aside_m[5];
    const char *advice;
  } cases[] = {
    { { 0.3, 0.2, 0.1, 0.1 }, "Keep the load nearer to its way (tolerance of the lift)" },
    { { 0.2, 0.3, 0.1, 0.1 }, "Keep the hooks closer to level (loads.out_of_level)" },
    { { 0.2, NAN, 0.3, 0.1 }, "Lift in less wind (speed of wind in the plan)" },
    { { 0.2, 0.1, 0.2, 0.1, 0.3 },
      "Move it more slowly (seconds of the moves), start and stop more slowly (loads.ramp), or let "
      "it be brought to rest between moves (a wait as long as loads.ramp.rest)" },
    { { 0.2, 0.1, 0, 0.3 }, "Move the load as its tail gear can go, or set that gear so" },
    { { 0.3, 0.3, 0, 0 }, "Keep the load nearer to its way (tolerance of the lift)" },
  };
  static const char *const numbers[]
      = { "tolerances", "level-aside", "wind-aside", "dragged", "swing-aside" };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TrnFinding f
          = finding_of (TRN_CHECK_HOIST_LINES, NULL, TRN_STATE_OUTSIDE, TRN_UNIT_DEG, 2.5, 0.5);
      f.verdict = TRN_VERDICT_FAIL;
      trn_finding_add_number (&f, "rope", 20, TRN_UNIT_M);
      for (guint k = 0; k < G_N_ELEMENTS (numbers); k++)
        if (!isnan (cases[i].aside_m[k]))
          trn_finding_add_number (&f, numbers[k], cases[i].aside_m[k], TRN_UNIT_M);
      g_autofree char *said = g_strconcat (
          "The hoist rope can be 2.5° out of plumb, 0.5° allowed. ", cases[i].advice, NULL);
      assert_says (&f, said);
      trn_finding_clear (&f);
    }
}

static void
test_missing (void)
{
  TrnFinding f = finding_of (TRN_CHECK_GROUND, NULL, TRN_STATE_UNKNOWN, TRN_UNIT_PA, NAN, NAN);
  f.verdict = TRN_VERDICT_UNKNOWN;
  assert_says (&f, "Not known: it could not be worked out");
  f.missing = "ground/allowed_pressure";
  f.body = "crane-1";
  assert_says (&f, "Not known: the plan leaves out allowed_pressure of the ground of gear crane-1");
  f.missing = "gear/mass";
  assert_says (&f, "Not known: the plan leaves out mass of gear crane-1");
  f.missing = "mass";
  assert_says (&f, "Not known: the plan leaves out mass of the component that is lifted");
  f.missing = "in-line";
  g_autofree char *text = trn_words_finding (&f);
  g_assert_nonnull (strstr (text, "plumb over each other"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/words/force/numbers", test_numbers);
  g_test_add_func ("/words/force/capacity", test_capacity);
  g_test_add_func ("/words/force/attitude", test_attitude);
  g_test_add_func ("/words/force/slings", test_slings);
  g_test_add_func ("/words/force/lifted", test_lifted);
  g_test_add_func ("/words/force/mats", test_mats);
  g_test_add_func ("/words/force/share", test_share);
  g_test_add_func ("/words/force/share-when", test_share_when);
  g_test_add_func ("/words/force/plumb-advice", test_plumb_advice);
  g_test_add_func ("/words/force/missing", test_missing);
  return g_test_run ();
}
