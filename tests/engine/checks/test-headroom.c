/* Headroom by closed forms. */
#include "test-gear.h"

#define NEAR 1e-6
#define UP(by) "{'do': 'hoist', 'by': " by ", 'seconds': 60}"
#define SLAB                                                                                       \
  "{'id': 'slab', 'name': 'Slab', 'solid': {'kind': 'box', 'size': [2, 2, 1]}, 'at': {'position':" \
  " [50, 50, 0]}}"
#define MAIN(gear) "{'main': {'gear': '" gear "', 'hook_above': 1}}"

static TestRun
run_crane (const char *gear, const char *lift, const char *moves)
{
  TestGear t = {
    .gear = gear, .structures = SLAB, .rigging = MAIN ("crane"), .lift = lift, .moves = moves
  };
  return test_gear_run (&t);
}

static const TrnFinding *
headroom (const TestRun *run, const char *gear)
{
  return test_finding_of (run, TRN_CHECK_HEADROOM, 0, 0, gear, NULL, NULL);
}

static void
assert_items (const TrnFinding *f, const double expected[], guint n)
{
  static const char *const names[]
      = { "load-underside", "load-to-hook-point", "rigging", "hook-to-tip" };
  double sum = 0;
  g_assert_cmpuint (f->items->len, ==, n);
  for (guint i = 0; i < n; i++)
    {
      const TrnFindingItem *item = &g_array_index (f->items, TrnFindingItem, i);
      g_assert_cmpstr (item->what, ==, names[i]);
      test_assert_between (item->m, expected[i], NEAR, NEAR);
      sum += item->m;
    }
  test_assert_between (f->value, sum, NEAR, NEAR);
}

/* The hook is at 3 m and the radius 10: the tip at 2 + √300 = 19.32 m, so that with 3 m from hook
 * to tip it can go to 16.32 m: 13.32 m higher. 13 m leave 0.32 m, 14 m lack 0.68 m. */
static void
test_hoist (void)
{
  double tip = 2 + sqrt (300);
  TestRun run = run_crane (GEAR_CRANE (""), NULL, UP ("13"));
  const TrnFinding *f = headroom (&run, "crane");
  TEST_PASSES (f, TRN_STATE_WITHIN);
  test_assert_between (f->margin, tip - 19, 1.1e-3, NEAR);
  test_assert_between (f->limit, tip, NEAR, NEAR);
  test_assert_between (f->value, 19, NEAR, NEAR);
  /* 19 m are needed and 19.32 m there: shown, the one is rounded up and the other down. */
  g_assert_false (f->limit_is_least);
  assert_items (f, (double[]){ 13, 2, 1, 3 }, 4);
  test_assert_between (f->progress, 1, NEAR, NEAR);
  test_run_clear (&run);

  run = run_crane (GEAR_CRANE (""), NULL, UP ("14"));
  f = headroom (&run, "crane");
  TEST_FAILS (f, TRN_STATE_SHORT);
  test_assert_between (f->margin, tip - 20, 1.1e-3, NEAR);
  g_assert_false (f->limit_is_least);
  assert_items (f, (double[]){ 14, 2, 1, 3 }, 4);
  g_assert_cmpint (run.findings->verdict, ==, TRN_VERDICT_FAIL);
  test_run_clear (&run);
}

/* The tip comes down while the crane booms out: with the hook at 13 m, 12.2 m would do for its end
 * at the radius 15, 2 + √175 = 15.23 m less 3 m. */
static void
test_booming_out (void)
{
  TestGear t = { .gear = GEAR_CRANE (""),
                 .structures = SLAB,
                 .at = "[10, 0, 10]",
                 .rigging = MAIN ("crane"),
                 .moves = "{'do': 'slew', 'by': 40, 'centre': [0, 0], 'radius_by': 5, 'seconds':"
                          " 60}" };
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = headroom (&run, "crane");
  TEST_FAILS (f, TRN_STATE_SHORT);
  test_assert_between (f->margin, 2 + sqrt (175) - 3 - 13, 1.1e-3, NEAR);
  test_assert_between (f->limit, 2 + sqrt (175), 1e-3, 1e-3);
  test_run_clear (&run);
  t.at = "[10, 0, 9]";
  run = test_gear_run (&t);
  TEST_PASSES (headroom (&run, "crane"), TRN_STATE_WITHIN);
  test_run_clear (&run);
}

/* Off by 0.1 m the hook is 0.1 m higher, or 0.1 m farther out, where the tip comes down by
 * 0.1 · 10/√300 = 0.058 m at least: of 0.32 m no more than 0.163 m are left. */
static void
test_tolerance (void)
{
  TestRun run = run_crane (GEAR_CRANE (""), "'tolerance': {'position': 0.1},", UP ("13"));
  const TrnFinding *f = headroom (&run, "crane");
  double left = 2 + sqrt (300) - 19;
  g_assert_cmpfloat (f->margin, <=, left - 0.1 - 0.1 * 10 / sqrt (300));
  g_assert_cmpfloat (f->margin, >=, left - 0.1 - 0.13);
  TEST_PASSES (f, TRN_STATE_WITHIN);
  test_run_clear (&run);
  run = run_crane (GEAR_CRANE (""), "'tolerance': {'position': 0.25},", UP ("13"));
  TEST_FAILS (headroom (&run, "crane"), TRN_STATE_SHORT);
  test_run_clear (&run);
}

/* With a block of 4 m, of which the hook is the lower end, 3 m from hook to tip are not enough: the
 * 0.32 m that 13 m of hoisting leave lack 0.68 m. One of 2 m asks for no more than they do. */
static void
test_block (void)
{
  TestGear t = { .gear = GEAR_CRANE (""),
                 .structures = SLAB,
                 .rigging = "{'main': {'gear': 'crane', 'hook_above': 1, 'block': {'diameter': 0.6,"
                            " 'height': 4}}}",
                 .moves = UP ("13") };
  static const char *const names[] = { "load-underside", "load-to-hook-point", "rigging", "block" };
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = headroom (&run, "crane");
  TEST_FAILS (f, TRN_STATE_SHORT);
  test_assert_between (f->margin, 2 + sqrt (300) - 20, 1.1e-3, NEAR);
  g_assert_cmpuint (f->items->len, ==, G_N_ELEMENTS (names));
  for (guint i = 0; i < f->items->len; i++)
    g_assert_cmpstr (g_array_index (f->items, TrnFindingItem, i).what, ==, names[i]);
  test_assert_between (f->value, 20, NEAR, NEAR);
  test_run_clear (&run);
  t.rigging = "{'main': {'gear': 'crane', 'hook_above': 1, 'block': {'diameter': 0.6, 'height': 2}}"
              "}";
  run = test_gear_run (&t);
  f = headroom (&run, "crane");
  TEST_PASSES (f, TRN_STATE_WITHIN);
  assert_items (f, (double[]){ 13, 2, 1, 3 }, 4);
  test_run_clear (&run);
}

#define GANTRY(base, window)                                                                       \
  "{'id': 'tower', 'kind': 'gantry', 'at': {'position': [10, 0, " base "]}, 'legs': [{'at':"       \
  " [-6, -6], 'size': [0.5, 0.5], 'height': 20}], 'header': {'length': 14, 'width': 0.5,"          \
  " 'depth': 1, 'underside': 20}, 'trolley': {'size': [1, 1, 0.6], 'underside': 21}" window "}"

/* The window's top is 17 m above a base at −1 m: 16 m. The hook at 3 m can go up by 13 m. */
static void
test_gantry (void)
{
  TestGear t = { .gear = GANTRY ("-1", ", 'window': {'hook': [2, 17]}"),
                 .structures = SLAB,
                 .rigging = MAIN ("tower"),
                 .moves = UP ("12.9") };
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = headroom (&run, "tower");
  TEST_PASSES (f, TRN_STATE_WITHIN);
  test_assert_between (f->margin, 0.1, 1.1e-3, NEAR);
  test_assert_between (f->limit, 16, NEAR, NEAR);
  assert_items (f, (double[]){ 12.9, 2, 1 }, 3);
  test_run_clear (&run);
  t.moves = UP ("13.1");
  run = test_gear_run (&t);
  TEST_FAILS (headroom (&run, "tower"), TRN_STATE_SHORT);
  test_run_clear (&run);
  t.moves = UP ("13");
  run = test_gear_run (&t);
  TEST_PASSES (headroom (&run, "tower"), TRN_STATE_WITHIN);
  test_run_clear (&run);
}

/* The window lets the hook go to 29 m; the block of 1.2 m, with its top 1.2 m above it, runs
 * against the one header beam at 20 m: the hook, at 3 m, can go up by 15.8 m. Between two beams
 * that are 2.2 m apart it goes on up to the trolley at 21 m, between two that are 0.6 m apart it
 * does not. */
static void
test_gantry_block (void)
{
#define BEAMS(spacing)                                                                             \
  "{'id': 'tower', 'kind': 'gantry', 'at': {'position': [10, 0, 0]}, 'legs': [{'at': [-6, -6],"    \
  " 'size': [0.5, 0.5], 'height': 20}], 'header': {'length': 14, 'width': 0.5, 'depth': 1,"        \
  " 'underside': 20" spacing "}, 'trolley': {'size': [1, 1, 0.6], 'underside': 21}, 'window':"     \
  " {'hook': [2, 29]}}"
  static const struct
  {
    const char *gear;
    double limit_m;
  } cases[] = { { BEAMS (""), 20 },
                { BEAMS (", 'spacing': 2.7"), 21 },
                { BEAMS (", 'spacing': 1.1"), 20 } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TestGear t = { .gear = cases[i].gear,
                     .structures = SLAB,
                     .rigging = "{'main': {'gear': 'tower', 'hook_above': 1, 'block': {'diameter':"
                                " 0.8, 'height': 1.2}}}",
                     .moves = UP ("16") };
      TestRun run = test_gear_run (&t);
      const TrnFinding *f = headroom (&run, "tower");
      g_assert_cmpint (f->verdict, ==, cases[i].limit_m > 20 ? TRN_VERDICT_PASS : TRN_VERDICT_FAIL);
      test_assert_between (f->value, 20.2, NEAR, NEAR);
      test_assert_between (f->limit, cases[i].limit_m, NEAR, NEAR);
      test_assert_between (f->margin, cases[i].limit_m - 20.2, 1.1e-3, NEAR);
      test_run_clear (&run);
    }
}

/* What is missing is named, and the plan does not pass. */
static void
test_missing (void)
{
  static const char *const no_tip
      = "{'id': 'crane', 'kind': 'crane', 'at': {'position': [0, 0, 0]}, 'boom': {'foot': [0, 2],"
        " 'length': 20, 'section': [0.6, 0.8], 'angle': [30, 80]}, 'capacity': {'configuration':"
        " 'made up', 'table': [[4, 9000], [16, 3000]]}}";
  TestRun run = run_crane (no_tip, NULL, UP ("1"));
  TEST_UNKNOWN (headroom (&run, "crane"), "hook_to_tip");
  g_assert_cmpint (run.findings->verdict, ==, TRN_VERDICT_UNKNOWN);
  test_run_clear (&run);

  TestGear t = {
    .gear = GANTRY ("0", ""), .structures = SLAB, .rigging = MAIN ("tower"), .moves = UP ("1")
  };
  run = test_gear_run (&t);
  TEST_UNKNOWN (headroom (&run, "tower"), "window/hook");
  test_run_clear (&run);

  t.gear = GEAR_CRANE (", 'park': [5, 0, 4]");
  t.rigging = NULL;
  run = test_gear_run (&t);
  TEST_UNKNOWN (test_finding_of (&run, TRN_CHECK_HEADROOM, 0, -1, "load", NULL, NULL),
                "rigging/main/gear");
  TEST_UNKNOWN (test_finding_of (&run, TRN_CHECK_REACH, 0, -1, "load", NULL, NULL),
                "rigging/main/gear");
  test_run_clear (&run);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/headroom/hoist", test_hoist);
  g_test_add_func ("/checks/headroom/booming-out", test_booming_out);
  g_test_add_func ("/checks/headroom/tolerance", test_tolerance);
  g_test_add_func ("/checks/headroom/gantry", test_gantry);
  g_test_add_func ("/checks/headroom/block", test_block);
  g_test_add_func ("/checks/headroom/gantry-block", test_gantry_block);
  g_test_add_func ("/checks/headroom/missing", test_missing);
  return g_test_run ();
}
