/* The tail swing of a crane on the origin, by closed forms. The load hangs at [10, 0], so that the
 * counterweight, 4 m by 2 m, lies toward −x, from 1 to 3 m up. */
#include "test-gear.h"

#define NEAR 1e-6
#define RIGGING "{'main': {'gear': 'crane', 'hook_above': 1}}"
#define WAIT "{'do': 'wait', 'seconds': 9}"
#define BOX(id, size, position)                                                                    \
  "{'id': '" id "', 'name': '" id "', 'solid': {'kind': 'box', 'size': " size "}, 'at':"           \
  " {'position': " position "}}"

static const TrnFinding *
swing (const TestRun *run, const char *obstacle)
{
  return test_finding_of (run, TRN_CHECK_TAIL_SWING, 0, -1, "crane", obstacle, NULL);
}

static const TrnFinding *
barricade (const TestRun *run)
{
  return test_finding_of (run, TRN_CHECK_TAIL_SWING, 0, -1, "crane", NULL, "barricade");
}

static TestRun
run_with (const char *gear, const char *structures, const char *moves)
{
  TestGear t = { .gear = gear, .structures = structures, .rigging = RIGGING, .moves = moves };
  return test_gear_run (&t);
}

/* A rack whose face is 4.3 m behind the axis leaves 0.3 m of 0.5 m, one at 4.6 m leaves 0.6 m. The
 * same beside the crane is in the circle only: a note. One that ends below the counterweight is
 * nowhere. */
static void
test_standing (void)
{
  TestRun run = run_with (
      GEAR_CRANE (GEAR_TAIL ", 'barricade': 4.5"),
      BOX ("rack", "[1, 1, 5]", "[-4.8, 0, 0]") "," BOX (
          "beside", "[1, 1, 5]", "[0, 4.8, 0]") "," BOX ("low", "[1, 1, 0.9]", "[-4.8, 3, 0]"),
      WAIT);
  const TrnFinding *f = swing (&run, "rack");
  TEST_FAILS (f, TRN_STATE_SHORT);
  g_assert_cmpfloat (f->radius_m, ==, 4);
  test_assert_between (f->sector_distance_m, 4.3, NEAR, NEAR);
  test_assert_between (trn_finding_margin_m (f), -0.2, NEAR, NEAR);
  g_assert_cmpint (run.findings->verdict, ==, TRN_VERDICT_FAIL);
  f = swing (&run, "beside");
  test_assert_judged (f, TRN_VERDICT_NOTE, TRN_STATE_SHORT, NULL);
  g_assert_true (isnan (f->sector_distance_m));
  test_assert_between (f->circle_distance_m, 4.3, NEAR, NEAR);
  f = swing (&run, "low");
  TEST_PASSES (f, TRN_STATE_CLEAR);
  g_assert_true (isnan (f->circle_distance_m));
  test_run_clear (&run);

  run = run_with (GEAR_CRANE (GEAR_TAIL ", 'barricade': 4.5"),
                  BOX ("rack", "[1, 1, 5]", "[-5.1, 0, 0]"), WAIT);
  f = swing (&run, "rack");
  TEST_PASSES (f, TRN_STATE_CLEAR);
  test_assert_between (f->sector_distance_m, 4.6, NEAR, NEAR);
  test_run_clear (&run);
}

/* While the crane slews by 90° the counterweight comes round to −y, and no farther: its outer
 * corner is asin (1/4) = 14.5° past that. */
static void
test_slewing (void)
{
  TestRun run = run_with (
      GEAR_CRANE (GEAR_TAIL ", 'barricade': 4.5"),
      BOX ("south", "[1, 1, 5]", "[0, -4.8, 0]") "," BOX ("north", "[1, 1, 5]", "[0, 4.8, 0]"),
      "{'do': 'slew', 'by': 90, 'centre': [0, 0], 'seconds': 60}");
  TEST_FAILS (swing (&run, "south"), TRN_STATE_SHORT);
  test_assert_judged (swing (&run, "north"), TRN_VERDICT_NOTE, TRN_STATE_SHORT, NULL);
  /* The exact motion says the same. */
  g_assert_cmpint (
      test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "crane/counterweight", "south", NULL)
          ->verdict,
      ==, TRN_VERDICT_FAIL);
  g_assert_cmpint (
      test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "crane/counterweight", "north", NULL)
          ->verdict,
      ==, TRN_VERDICT_PASS);
  test_run_clear (&run);
  run = run_with (GEAR_CRANE (GEAR_TAIL ", 'barricade': 4.5"),
                  BOX ("south", "[1, 1, 5]", "[0, -4.8, 0]"),
                  "{'do': 'slew', 'by': 60, 'centre': [0, 0], 'seconds': 60}");
  test_assert_judged (swing (&run, "south"), TRN_VERDICT_NOTE, TRN_STATE_SHORT, NULL);
  test_run_clear (&run);
}

/* Two slews of 170° go on past half a turn: a jump of the angle there is none of the crane. Both
 * together leave a wedge of 20° less 2 · 14.5°: nothing. */
static void
test_all_round (void)
{
  TestRun run = run_with (GEAR_CRANE (GEAR_TAIL ", 'barricade': 4.5"),
                          BOX ("north-west", "[1, 1, 5]", "[-3.4, 3.4, 0]"),
                          "{'do': 'slew', 'by': 170, 'centre': [0, 0], 'seconds': 60},"
                          "{'do': 'slew', 'by': 170, 'centre': [0, 0], 'seconds': 60}");
  TEST_FAILS (swing (&run, "north-west"), TRN_STATE_SHORT);
  test_run_clear (&run);
  run = run_with (GEAR_CRANE (GEAR_TAIL ", 'barricade': 4.5"),
                  BOX ("north-west", "[1, 1, 5]", "[-3.4, 3.4, 0]"),
                  "{'do': 'slew', 'by': 130, 'centre': [0, 0], 'seconds': 60},"
                  "{'do': 'slew', 'by': 100, 'centre': [0, 0], 'seconds': 60}");
  test_assert_judged (swing (&run, "north-west"), TRN_VERDICT_NOTE, TRN_STATE_SHORT, NULL);
  test_run_clear (&run);
}

/* The barricade has to be 0.5 m outside the tail radius: 4.5 m are just enough; within 6 m of a
 * wider one stands something that the circle itself clears: a note. */
static void
test_barricade (void)
{
  const char *rack = BOX ("rack", "[1, 1, 5]", "[-5.6, 0, 0]");
  TestRun run = run_with (GEAR_CRANE (GEAR_TAIL ", 'barricade': 4.5"), rack, WAIT);
  TEST_PASSES (barricade (&run), TRN_STATE_WITHIN);
  g_assert_cmpfloat (barricade (&run)->value, ==, 4.5);
  TEST_PASSES (swing (&run, "rack"), TRN_STATE_CLEAR);
  test_run_clear (&run);
  run = run_with (GEAR_CRANE (GEAR_TAIL ", 'barricade': 4.4"), rack, WAIT);
  TEST_FAILS (barricade (&run), TRN_STATE_OUTSIDE);
  test_assert_between (barricade (&run)->margin, -0.1, NEAR, NEAR);
  test_run_clear (&run);
  run = run_with (GEAR_CRANE (GEAR_TAIL ", 'barricade': 6"), rack, WAIT);
  test_assert_judged (swing (&run, "rack"), TRN_VERDICT_NOTE, TRN_STATE_SHORT, NULL);
  test_run_clear (&run);
  run = run_with (GEAR_CRANE (GEAR_TAIL), rack, WAIT);
  TEST_UNKNOWN (barricade (&run), "barricade");
  test_run_clear (&run);
}

/* A crane that no lift uses: parked toward +y its counterweight is at −y; without a place for its
 * hook nothing is known. */
static void
test_parked (void)
{
#define SECOND(more)                                                                               \
  GEAR_CRANE ("")                                                                                  \
  ", {'id': 'second', 'kind': 'crane', 'at': {'position': [-40, 0, 0]}, 'boom': {'foot': [0, 2],"  \
  " 'length': 20, 'section': [0.6, 0.8]}, 'barricade': 4.5" GEAR_TAIL more "}"
  const char *structures = BOX ("south", "[1, 1, 5]",
                                "[-40, -4.8, 0]") "," BOX ("north", "[1, 1, 5]", "[-40, 4.8, 0]");
  TestRun run = run_with (SECOND (", 'park': [0, 8, 2]"), structures, WAIT);
  const TrnFinding *south
      = test_finding_of (&run, TRN_CHECK_TAIL_SWING, 0, -1, "second", "south", NULL);
  TEST_FAILS (south, TRN_STATE_SHORT);
  test_assert_judged (test_finding_of (&run, TRN_CHECK_TAIL_SWING, 0, -1, "second", "north", NULL),
                      TRN_VERDICT_NOTE, TRN_STATE_SHORT, NULL);
  test_run_clear (&run);
  run = run_with (SECOND (""), structures, WAIT);
  TEST_UNKNOWN (test_finding_of (&run, TRN_CHECK_TAIL_SWING, 0, -1, "second", "south", NULL),
                "park");
  const TrnFinding *boom
      = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "second/boom", "south", NULL);
  TEST_UNKNOWN (boom, "park");
  g_assert_cmpstr (boom->cause.of, ==, "second");
  test_run_clear (&run);
}

/* A crane of which the plan leaves out the counterweight has one all the same: what it sweeps is
 * not known, and nothing passes. */
static void
test_no_counterweight (void)
{
  TestRun run
      = run_with (GEAR_CRANE (", 'barricade': 4.5"), BOX ("rack", "[1, 1, 5]", "[-9, 0, 0]"), WAIT);
  TEST_UNKNOWN (test_finding_of (&run, TRN_CHECK_TAIL_SWING, 0, -1, "crane", NULL, "tail-radius"),
                "counterweight");
  g_assert_cmpint (run.findings->verdict, ==, TRN_VERDICT_UNKNOWN);
  test_run_clear (&run);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/tail-swing/standing", test_standing);
  g_test_add_func ("/checks/tail-swing/slewing", test_slewing);
  g_test_add_func ("/checks/tail-swing/all-round", test_all_round);
  g_test_add_func ("/checks/tail-swing/barricade", test_barricade);
  g_test_add_func ("/checks/tail-swing/parked", test_parked);
  g_test_add_func ("/checks/tail-swing/no-counterweight", test_no_counterweight);
  return g_test_run ();
}
