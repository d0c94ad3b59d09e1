/* What is said of gear: the sense of each sentence follows the verdict, its numbers err on the
 * careful side, and what is not known names the input that is missing. */
#include "command-words.h"
#include "compare-words.h"
#include "desk-words.h"
#include "gear-names.h"
#include "gear-words.h"

static void
assert_text (char *text_taken, const char *expected)
{
  g_autofree char *text = text_taken;
  g_assert_cmpstr (text, ==, expected);
}

static TrnFinding
value (TrnCheckKind check, const char *item, TrnState state, double value, double limit,
       double margin)
{
  gboolean within = state == TRN_STATE_WITHIN;
  return (TrnFinding){ .check = check,
                       .verdict = within ? TRN_VERDICT_PASS : TRN_VERDICT_FAIL,
                       .state = state,
                       .body = "crane",
                       .item = item,
                       .unit = TRN_UNIT_M,
                       .value = value,
                       .limit = limit,
                       .margin = margin };
}

/* 20.2004 m needed of 21 m: 20.201 shown; 0.7996 to spare, less a tolerance of 0.1: 0.699. */
static void
test_headroom (void)
{
  TrnFinding f = value (TRN_CHECK_HEADROOM, NULL, TRN_STATE_WITHIN, 20.2004, 21, 0.6996);
  assert_text (
      trn_words_finding (&f),
      "Headroom: 20.201 m of height needed, 21 m there, 0.699 m to spare after tolerances");
  f = value (TRN_CHECK_HEADROOM, NULL, TRN_STATE_SHORT, 21.5, 21.0006, -0.4994);
  assert_text (trn_words_finding (&f),
               "Headroom short by 0.5 m: 21.5 m of height needed, 21 m there");
  g_assert_cmpstr (trn_words_finding_short (&f), ==, "SHORT");
  g_assert_cmpfloat (trn_words_margin_m (&f), ==, -0.4994);
  /* Alone it would do. */
  f = value (TRN_CHECK_HEADROOM, NULL, TRN_STATE_SHORT, 20.9, 21, -0.1);
  f.allowance_m = 0.2;
  assert_text (trn_words_finding (&f), "Headroom short by 0.1 m: 20.9 m of height needed, 21 m "
                                       "there, and tolerances take off 0.2 m");
}

static void
test_reach (void)
{
  TrnFinding f = value (TRN_CHECK_REACH, "radius", TRN_STATE_WITHIN, 19.5002, 20, 0.4998);
  assert_text (trn_words_finding (&f),
               "Radius within its limits: 19.501 m, greatest 20 m, 0.499 m to spare");
  f = value (TRN_CHECK_REACH, "radius", TRN_STATE_WITHIN, 12.0004, 10, 2.0004);
  f.limit_is_least = TRUE;
  assert_text (trn_words_finding (&f), "Radius within its limits: 12 m, least 10 m, 2 m to spare");
  f = value (TRN_CHECK_REACH, "radius", TRN_STATE_OUTSIDE, 20.6, 20, -0.6);
  assert_text (trn_words_finding (&f),
               "Radius more than the greatest of the table: 20.6 m, greatest 20 m");
  /* Below the first row of the table, and too near to an end for the tolerances alone. */
  f = value (TRN_CHECK_REACH, "radius", TRN_STATE_OUTSIDE, 13.9994, 16, -2.0006);
  f.limit_is_least = TRUE;
  assert_text (trn_words_finding (&f),
               "Radius less than the least of the table: 13.999 m, least 16 m");
  f = value (TRN_CHECK_REACH, "radius", TRN_STATE_OUTSIDE, 15.652, 15.7, -0.052);
  f.allowance_m = 0.1;
  assert_text (trn_words_finding (&f), "Radius too close to its greatest, 15.7 m: 15.652 m, and "
                                       "tolerances add 0.1 m");
  f = value (TRN_CHECK_REACH, "radius", TRN_STATE_OUTSIDE, 16.04, 16, -0.06);
  f.allowance_m = 0.1;
  f.limit_is_least = TRUE;
  assert_text (trn_words_finding (&f),
               "Radius too close to its least, 16 m: 16.04 m, and tolerances take off 0.1 m");
  f = value (TRN_CHECK_REACH, "boom-angle", TRN_STATE_OUTSIDE, 84, 82, -2);
  f.unit = TRN_UNIT_DEG;
  assert_text (trn_words_finding (&f), "Boom angle above its greatest: 84°, greatest 82°");
  f = value (TRN_CHECK_REACH, "boom-angle", TRN_STATE_OUTSIDE, 28, 30, -2);
  f.unit = TRN_UNIT_DEG;
  f.limit_is_least = TRUE;
  assert_text (trn_words_finding (&f), "Boom angle below its least: 28°, least 30°");
  g_assert_true (isnan (trn_words_margin_m (&f)));
  f.state = TRN_STATE_OUT_OF_REACH;
  assert_text (trn_words_finding (&f),
               "Boom angle: out of reach, the gear cannot go where its hook has to be");
  g_assert_cmpstr (trn_words_finding_short (&f), ==, "OUT OF REACH");
}

static void
assert_compared (const TrnFinding *before, const TrnFinding *after, const char *numbers)
{
  const TrnResultsDifference difference
      = { .kind = TRN_DIFFER_OTHER, .lift = "up", .before = before, .after = after };
  g_autofree char *line = trn_words_compare_line (&difference);
  g_assert_nonnull (strstr (line, "\n    "));
  g_assert_cmpstr (strstr (line, "\n    ") + 5, ==, numbers);
}

/* Which end of the range is near is said of two results as the check says it, and its number is
 * rounded as there; files do not tell, but their margins do. */
static void
test_reach_compared (void)
{
  TrnFinding low = value (TRN_CHECK_REACH, "radius", TRN_STATE_WITHIN, 12.0004, 10.0002, 2.0002);
  TrnFinding lower = value (TRN_CHECK_REACH, "radius", TRN_STATE_OUTSIDE, 9.8, 10, -0.2);
  TrnFinding high = value (TRN_CHECK_REACH, "radius", TRN_STATE_WITHIN, 19.5002, 20.0004, 0.5002);
  TrnFinding at = value (TRN_CHECK_REACH, "radius", TRN_STATE_WITHIN, 10, 10, 0);
  assert_compared (&low, &low, "value 12 m, least 10.001 m, in hand 2 m");
  assert_compared (&low, &lower, "value 12 m → 9.8 m, least 10.001 m → 10 m, in hand 2 m → −0.2 m");
  assert_compared (NULL, &high, "value – → 19.501 m, greatest – → 20 m, in hand – → 0.5 m");
  assert_compared (&high, &low,
                   "value 19.501 m → 12 m, limit 20 m → 10.001 m, in hand 0.5 m → 2 m");
  assert_compared (&at, NULL, "value 10 m → –, limit 10 m → –, in hand 0 m → –");
}

static void
test_tail_swing (void)
{
  TrnFinding f = { .check = TRN_CHECK_TAIL_SWING,
                   .verdict = TRN_VERDICT_FAIL,
                   .state = TRN_STATE_SHORT,
                   .body = "crane",
                   .obstacle = "rack",
                   .radius_m = 5.8,
                   .sector_distance_m = 6,
                   .circle_distance_m = 6,
                   .required_m = 0.5 };
  assert_text (trn_words_finding (&f),
               "The tail swing of 5.8 m comes 0.3 m closer than the set clearance while it slews");
  f.sector_distance_m = 5.3;
  assert_text (trn_words_finding (&f),
               "The tail swing of 5.8 m reaches 0.5 m into it while it slews");
  f.verdict = TRN_VERDICT_NOTE;
  f.sector_distance_m = NAN;
  assert_text (trn_words_finding (&f),
               "Outside the part of the tail swing of 5.8 m that is slewed, but within its circle "
               "or the barricade");
  f.verdict = TRN_VERDICT_PASS;
  f.state = TRN_STATE_CLEAR;
  f.circle_distance_m = 7;
  assert_text (trn_words_finding (&f), "Outside the tail swing of 5.8 m, 0.7 m to spare all round");
  f = value (TRN_CHECK_TAIL_SWING, "barricade", TRN_STATE_OUTSIDE, 6.3, 6, -0.3);
  assert_text (trn_words_finding (&f),
               "Barricade at 6 m is too close to the tail swing: 6.3 m needed");
}

static void
test_rigging (void)
{
  TrnFinding f = value (TRN_CHECK_RIGGING, NULL, TRN_STATE_WITHIN, 5.001, 5, 0.024);
  assert_text (trn_words_finding (&f), "Keeps its length of 5 m");
  f = value (TRN_CHECK_RIGGING, NULL, TRN_STATE_OUTSIDE, 5.2, 5, -0.175);
  assert_text (trn_words_finding (&f), "Too short: 5.2 m would be needed in this move, and it is "
                                       "5 m. Give it that length, or lower the hook over its "
                                       "points (hook_above)");
  f = value (TRN_CHECK_RIGGING, NULL, TRN_STATE_OUTSIDE, 4.8, 5, -0.175);
  assert_text (trn_words_finding (&f), "Slack: only 4.8 m lies between its ends in this move, and "
                                       "it is 5 m. Give it that length, or raise the hook over "
                                       "its points (hook_above)");
}

/* A trolley on the ground touches it: the sentence names what the plan has to say if that is meant.
 * A boom that touches is told nothing of the kind. */
static void
test_trolley (void)
{
  TrnFinding f = { .check = TRN_CHECK_CLEARANCE,
                   .verdict = TRN_VERDICT_FAIL,
                   .state = TRN_STATE_CONTACT,
                   .body = "tail/trolley",
                   .obstacle = "ground",
                   .inside = TRN_INSIDE_NO };
  assert_text (
      trn_words_finding (&f),
      "In contact. If it is what the trolley runs on, and only then, write \"connected\": "
      "[[\"tail\", \"ground\"]] into rigging of the lift: no clearance is asked of the two "
      "then");
  f.body = "crane/boom";
  assert_text (trn_words_finding (&f), "In contact");
}

/* What is not known for want of an input has neither a distance nor a margin to show. */
static void
test_blank (void)
{
  TrnFinding f = { .check = TRN_CHECK_CLEARANCE,
                   .verdict = TRN_VERDICT_UNKNOWN,
                   .state = TRN_STATE_UNKNOWN,
                   .required_m = 4.572,
                   .missing = "hook_above" };
  g_assert_true (trn_words_is_blank (&f));
  g_assert_true (isnan (trn_words_margin_m (&f)));
  f.missing = NULL;
  f.lower_m = 5;
  g_assert_false (trn_words_is_blank (&f));
  g_assert_cmpfloat (trn_words_margin_m (&f), >, 0);
}

/* Local rules prevail: said wherever a rule is named, whatever comes of it. */
static void
test_approach (void)
{
  TrnFinding f = { .check = TRN_CHECK_APPROACH,
                   .verdict = TRN_VERDICT_PASS,
                   .state = TRN_STATE_CLEAR,
                   .body = "crane/boom",
                   .obstacle = "line",
                   .lower_m = 5,
                   .required_m = 4.572,
                   .source = "29 CFR 1926.1408, Table A" };
  assert_text (trn_words_finding (&f),
               "Meets the set clearance, 0.427 m to spare; 4.572 m from a live line by 29 CFR "
               "1926.1408, Table A, local rules prevail");
  f.verdict = TRN_VERDICT_UNKNOWN;
  f.state = TRN_STATE_UNKNOWN;
  f.missing = "voltage_kv";
  assert_text (trn_words_finding (&f), "Not known: the plan leaves out voltage_kv");
  f.missing = "approach";
  assert_text (trn_words_finding (&f),
               "Not known: the plan chooses no rule for the distance from live lines (approach)");
}

/* What differs of how an earlier lift left the load, in words and units of the plan. */
static void
test_holder (void)
{
  TrnFinding f = { .check = TRN_CHECK_RIGGING,
                   .verdict = TRN_VERDICT_UNKNOWN,
                   .state = TRN_STATE_UNKNOWN,
                   .missing = TRN_MISSING_HOLDER,
                   .item = "holder" };
  g_autofree char *holder = trn_words_with_subject ("Cover", &f);
  g_assert_cmpstr (holder, ==, "Cover (what holds it)");
  assert_text (trn_words_with_subject_of_both (NULL, NULL, &f), "what holds the load");
  assert_text (trn_words_finding (&f),
               "Not known: an earlier lift leaves it on its hook, and gear and slings that hold it "
               "there are not looked at in this lift; let that lift set it down on a seat");
#define HELD_OTHERWISE(differs)                                                                    \
  "Not known: an earlier lift leaves the load on its hook, and this one does not hold it on as "   \
  "it "                                                                                            \
  "was left: " differs                                                                             \
  ". Hold it on by the same gear and rigging, alike in every key, or let that "                    \
  "lift set it down on a seat"
  f.key = "gear";
  f.was = "one";
  f.is = "two";
  assert_text (trn_words_finding (&f), HELD_OTHERWISE ("gear was one, and is two"));
  f.was = f.is = NULL;
  f.key = "mass";
  f.key_of = "sling-west";
  f.n_values = 1;
  f.values_unit = TRN_UNIT_KG;
  f.was_values[0] = 5;
  f.is_values[0] = NAN;
  assert_text (trn_words_finding (&f),
               HELD_OTHERWISE ("mass of sling-west was 5 kg, and is left out"));
  f.key = "shackle";
  f.is_values[0] = 0;
  assert_text (trn_words_finding (&f),
               HELD_OTHERWISE ("shackle of sling-west was given, and is left out"));
  f.key = "to";
  f.n_values = 3;
  f.values_unit = TRN_UNIT_M;
  f.was_values[2] = -0.25;
  assert_text (trn_words_finding (&f),
               HELD_OTHERWISE ("to of sling-west was [5, 0, -0.25] m, and is [0, 0, 0] m"));
  f.key = "moves";
  f.n_values = 0;
  assert_text (trn_words_finding (&f), HELD_OTHERWISE ("see moves of sling-west"));
}

/* Whatever is missing, every check says what, and none reads like a pass. */
static void
test_missing (void)
{
  static const char *const inputs[] = { "hook_to_tip", "reach", "tolerance", "approach/distance" };
  for (int check = 0; check < TRN_N_CHECKS; check++)
    for (guint i = 0; i < G_N_ELEMENTS (inputs); i++)
      {
        TrnFinding f = { .check = (TrnCheckKind)check,
                         .verdict = TRN_VERDICT_UNKNOWN,
                         .state = TRN_STATE_UNKNOWN,
                         .missing = inputs[i] };
        g_autofree char *text = trn_words_finding (&f);
        g_assert_true (g_str_has_prefix (text, "Not known"));
      }
  TrnFinding f = { .check = TRN_CHECK_HEADROOM,
                   .verdict = TRN_VERDICT_UNKNOWN,
                   .state = TRN_STATE_UNKNOWN,
                   .missing = "hook_to_tip" };
  assert_text (trn_words_finding (&f), "Not known: the plan leaves out hook_to_tip");
  f.check = TRN_CHECK_CLEARANCE;
  f.missing = "swing/two-hooks";
  assert_text (trn_words_finding (&f),
               "Not known: how a load on two hooks swings is known only where both only hoist, and "
               "it was at rest before (a wait as long as loads.ramp.rest); for a tilt leave "
               "loads.ramp out, and "
               "let the tolerance of the lift cover what it swings by");
  f.missing = "swing/guided";
  assert_text (trn_words_finding (&f),
               "Not known: the load may still be swinging where a trolley, a frame or something "
               "that the plan does not name takes it; let it be brought to rest before (a wait as "
               "long as loads.ramp.rest)");
  f.missing = "swing/beam";
  assert_text (trn_words_finding (&f),
               "Not known: how far a load swings below a beam is known only where slings hold both "
               "ends of the beam, or none does, and each end holds the load by points on its own "
               "side that are level with those of the other, to within 1 in 10; correct the slings "
               "of the beam, or its points");
  f.missing = "swing/above";
  assert_text (
      trn_words_finding (&f),
      "Not known: how far the load nods below its hook while it swings has no bound, "
      "since its centre of gravity may be as high as what it hangs from, or points that it "
      "hangs by lie one above the other; correct cog, the hook point, hook_above, or the "
      "points of its slings or beam");
  f.missing = "swing";
  assert_text (
      trn_words_finding (&f),
      "Not known: started and stopped in so short a time (loads.ramp), the load could "
      "swing by more than 11°, with what the moves before leave; give the moves more time, "
      "or let it be brought to rest between them (a wait as long as loads.ramp.rest)");
  f.missing = TRN_MISSING_ATTITUDE;
  assert_text (trn_words_finding (&f),
               "Not known: it depends on how the load hangs, which fails or "
               "is not known: see “attitude” of this lift");
  f.missing = TRN_MISSING_ATTITUDE_BEFORE;
  assert_text (
      trn_words_finding (&f),
      "Not known: an earlier lift leaves a component on the hook, and how it hangs there, or what "
      "has taken its place, fails or is not known: see that lift, or let it set its load down on a "
      "seat");
  f.missing = TRN_MISSING_HOLDER;
  assert_text (
      trn_words_finding (&f),
      "Not known: it depends on what holds a load that an earlier lift leaves on its hook, "
      "which is not known: see “what holds the load”, or “what holds it”, of this lift");
  TrnFinding nothing = { .check = TRN_CHECK_CLEARANCE, .missing = "gear" };
  g_autofree char *no_gear = trn_words_missing (&nothing);
  g_assert_cmpstr (no_gear, ==, "Not known: the lift names no gear that holds the load (rigging)");
  TrnFinding below = { .check = TRN_CHECK_STANDING, .state = TRN_STATE_CONTACT, .fit_m = 0.2 };
  g_autofree char *raised = trn_words_gear_finding (&below);
  g_assert_cmpstr (raised, ==,
                   "Stands in it: its mats lie below “at”, so raise “at” of the gear by their "
                   "thickness, 0.2 m");
  f.missing = TRN_MISSING_LEFT;
  assert_text (trn_words_finding (&f),
               "Not known: an earlier lift may have left it off by more than it is away from the "
               "gear; set the gear farther from it, or, once it is surveyed, remove it and add it "
               "there");
  f.missing = TRN_MISSING_HUNG_SEAT;
  assert_text (trn_words_finding (&f),
               "Not known: an earlier lift leaves on its hook what this load is to rest on, which "
               "gives way; let that lift set it down on a seat");
  f.check = TRN_CHECK_RIGGING;
  f.item = "own-load";
  g_autofree char *own = trn_words_with_subject ("Cover", &f);
  g_assert_cmpstr (own, ==, "Cover (own load)");
  f.item = NULL;
  f.check = TRN_CHECK_CLEARANCE;
  f.missing = "park";
  assert_text (trn_words_finding (&f),
               "Not known: no hoist of the lift uses this crane, and the plan leaves out "
               "park, the place of its hook then");
}

/* Parts of gear and rigging by what they are and whose; structures stay as they are. */
static void
test_names (void)
{
  TrnStructure structures[] = { { .id = "rack", .name = "Pipe rack" } };
  TrnGear gear[] = { { .id = "crane", .name = "Main\ncrane" }, { .id = "tower", .name = "Tower" } };
  TrnSling slings[] = { { .id = "s1" } };
  TrnLift lifts[]
      = { { .rigging = { .given = TRUE, .main = { .slings = slings, .n_slings = 1 } } } };
  TrnPlan plan = { .structures = structures,
                   .n_structures = 1,
                   .gear = gear,
                   .n_gear = 2,
                   .lifts = lifts,
                   .n_lifts = 1 };
  assert_text (trn_words_gear_body (&plan, "crane/boom"), "Boom of Main\357\277\275crane");
  assert_text (trn_words_gear_body (&plan, "tower/leg-2"), "Leg 2 of Tower");
  assert_text (trn_words_gear_body (&plan, "tower"), "Tower");
  assert_text (trn_words_gear_body (&plan, "tower/what"), "Tower, what");
  assert_text (trn_words_gear_body (&plan, "s1"), "Sling s1");
  g_assert_null (trn_words_gear_body (&plan, "rack"));
  g_assert_null (trn_words_gear_body (&plan, "load"));

  TrnFinding f = { .check = TRN_CHECK_CLEARANCE, .body = "tower/leg-2", .obstacle = "rack" };
  assert_text (trn_words_obstacle_name (&plan, &f, 0), "Leg 2 of Tower – Pipe rack");
  f.body = "load";
  f.obstacle = "tower/leg-2";
  assert_text (trn_words_obstacle_name (&plan, &f, 0), "Leg 2 of Tower");
  f.check = TRN_CHECK_TAIL_SWING;
  f.body = "tower";
  f.obstacle = "rack";
  assert_text (trn_words_obstacle_name (&plan, &f, 0), "Tower – Pipe rack (tail swing)");
  f.check = TRN_CHECK_HEADROOM;
  f.obstacle = NULL;
  assert_text (trn_words_obstacle_name (&plan, &f, 0), "Tower (headroom)");
  f.check = TRN_CHECK_REACH;
  f.item = "boom-angle";
  assert_text (trn_words_obstacle_name (&plan, &f, 0), "Tower (boom angle)");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/words/gear/holder", test_holder);
  g_test_add_func ("/words/gear/headroom", test_headroom);
  g_test_add_func ("/words/gear/reach", test_reach);
  g_test_add_func ("/words/gear/reach-compared", test_reach_compared);
  g_test_add_func ("/words/gear/tail-swing", test_tail_swing);
  g_test_add_func ("/words/gear/rigging", test_rigging);
  g_test_add_func ("/words/gear/approach", test_approach);
  g_test_add_func ("/words/gear/trolley", test_trolley);
  g_test_add_func ("/words/gear/blank", test_blank);
  g_test_add_func ("/words/gear/missing", test_missing);
  g_test_add_func ("/words/gear/names", test_names);
  return g_test_run ();
}
