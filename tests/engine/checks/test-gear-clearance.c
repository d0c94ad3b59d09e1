/* Clearances of what moves with the load, and distances from live lines, by closed forms: the crane
 * on the origin, the hook at [10, 0], so that boom and rope lie in the plane y = 0. The boom counts
 * as round, of half its section's diagonal: 0.5 m. */
#include "test-gear.h"

#include "results.h"

#define NEAR 1e-6
#define RIGGING "{'main': {'gear': 'crane', 'hook_above': 1}}"
#define UP(by) "{'do': 'hoist', 'by': " by ", 'seconds': 60}"
#define BOX(id, size, position)                                                                    \
  "{'id': '" id "', 'name': '" id "', 'solid': {'kind': 'box', 'size': " size "}, 'at':"           \
  " {'position': " position "}}"
#define LINE(id, from, to, sag, more)                                                              \
  "{'id': '" id "', 'name': '" id "', 'solid': {'kind': 'overhead-line', 'diameter': 0.02,"        \
  " 'conductors': [{'from': " from ", 'to': " to ", 'sag': " sag "}]" more "}, 'at':"              \
  " {'position': [0, 0, 0]}, 'keep_clear': 0.1}"

static TestRun
run_with (const char *more, const char *structures, const char *rigging, const char *moves)
{
  TestGear t = { .gear = GEAR_CRANE (""),
                 .structures = structures,
                 .more = more,
                 .rigging = rigging,
                 .moves = moves };
  return test_gear_run (&t);
}

static const TrnFinding *
clearance (const TestRun *run, const char *body, const char *obstacle)
{
  return test_finding_of (run, TRN_CHECK_CLEARANCE, 0, 0, body, obstacle, NULL);
}

/* A wall beside the rope, its face at x = 11.2 or 10.4: 1.2 or 0.4 m from the rope's axis, less the
 * half of 0.03 m. */
static void
test_rope_past_edge (void)
{
  TestRun run = run_with (NULL, BOX ("wall", "[2, 2, 16]", "[12.2, 0, 0]"), RIGGING, UP ("1"));
  const TrnFinding *f = clearance (&run, "crane/rope", "wall");
  TEST_PASSES (f, TRN_STATE_CLEAR);
  test_assert_between (f->lower_m, 1.185, 1.1e-3, NEAR);
  test_assert_between (f->upper_m, 1.185, NEAR, NEAR);
  g_assert_cmpfloat (f->required_m, ==, 0.5);
  test_run_clear (&run);
  run = run_with (NULL, BOX ("wall", "[2, 2, 12]", "[11.4, 0, 4]"), RIGGING, UP ("1"));
  f = clearance (&run, "crane/rope", "wall");
  TEST_FAILS (f, TRN_STATE_SHORT);
  test_assert_between (f->upper_m, 0.385, NEAR, NEAR);
  test_run_clear (&run);
}

/* Neither the height of the hook nor the length of a leg: the rope has no lower end. */
static void
test_no_hook_height (void)
{
  TestRun run = run_with (NULL, BOX ("wall", "[2, 2, 16]", "[12.2, 0, 0]"),
                          "{'main': {'gear': 'crane'}}", UP ("1"));
  TEST_UNKNOWN (clearance (&run, "crane/rope", "wall"), "hook_above");
  g_assert_cmpstr (clearance (&run, "crane/rope", "wall")->cause.of, ==, "crane");
  test_run_clear (&run);
}

/* The tip is at 2 + √300 = 19.32 m; a slab over it at 20.4 m leaves 0.576 m of the boom's end, one
 * at 20.2 m 0.376 m. */
static void
test_boom_below_slab (void)
{
  double tip = 2 + sqrt (300);
  TestRun run = run_with (NULL, BOX ("slab", "[9, 9, 1]", "[10, 0, 20.4]"), RIGGING, UP ("1"));
  const TrnFinding *f = clearance (&run, "crane/boom", "slab");
  TEST_PASSES (f, TRN_STATE_CLEAR);
  test_assert_between (f->upper_m, 20.4 - tip - 0.5, NEAR, NEAR);
  test_run_clear (&run);
  run = run_with (NULL, BOX ("slab", "[9, 9, 1]", "[10, 0, 20.2]"), RIGGING, UP ("1"));
  f = clearance (&run, "crane/boom", "slab");
  TEST_FAILS (f, TRN_STATE_SHORT);
  test_assert_between (f->upper_m, 20.2 - tip - 0.5, NEAR, NEAR);
  test_run_clear (&run);
}

/* The boom rises at 60°. A cube's inner upper edge at x = 9 and height z is (z − 2) cos 60° − 9 sin
 * 60° below its line, as seen square to it: hoisted by 13 m, at 15 m, that leaves 9 sin 60° − 13
 * cos 60° − 0.5 = 0.79 m, by 14 m 0.29 m. */
static void
test_load_past_own_boom (void)
{
  static const struct
  {
    const char *moves;
    double by;
    TrnState state;
  } cases[] = { { UP ("13"), 13, TRN_STATE_CLEAR }, { UP ("14"), 14, TRN_STATE_SHORT } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TestRun run
          = run_with (NULL, BOX ("slab", "[2, 2, 1]", "[50, 50, 0]"), RIGGING, cases[i].moves);
      const TrnFinding *f = clearance (&run, "load", "crane/boom");
      g_assert_cmpint (f->state, ==, cases[i].state);
      test_assert_between (f->upper_m, 9 * sqrt (3) / 2 - cases[i].by / 2 - 0.5, NEAR, 1e-5);
      test_run_clear (&run);
    }
}

/* Slings and block hang on the load and are connected with it; a block of 1.2 m past a post whose
 * face is 1.2 m from the rope: 0.6 m, less at most what an octagon exceeds a circle by. */
static void
test_block_and_slings (void)
{
  TestRun run = run_with (
      NULL, BOX ("post", "[1, 1, 20]", "[11.7, 0, 0]"),
      "{'main': {'gear': 'crane', 'hook_above': 2, 'block': {'diameter': 1.2, 'height': 1.5},"
      " 'slings': [{'id': 'leg', 'to': [1, 0, 2], 'diameter': 0.04}]}}",
      UP ("1"));
  const TrnFinding *f = clearance (&run, "crane/block", "post");
  TEST_PASSES (f, TRN_STATE_CLEAR);
  test_assert_between (f->upper_m, 0.6, 0.6 * (1 / cos (G_PI / 8) - 1) + NEAR, NEAR);
  /* The leg's lower end is at x = 11, 0.2 m from the face, less the share of its half thickness. */
  f = clearance (&run, "leg", "post");
  TEST_FAILS (f, TRN_STATE_SHORT);
  test_assert_between (f->upper_m, 0.2 - 0.02, NEAR, NEAR);
  const GArray *left_out = run.findings->lifts[0].left_out;
  gboolean found = FALSE;
  for (guint i = 0; i < left_out->len; i++)
    {
      const TrnBodyPair *pair = &g_array_index (left_out, TrnBodyPair, i);
      found |= strcmp (pair->a, "load") == 0 && strcmp (pair->b, "leg") == 0;
    }
  g_assert_true (found);
  test_run_clear (&run);
}

/* What the plan calls connected is left out, and said; a gear's own clearance goes before the
 * plan's.
 */
static void
test_connected_and_own_clearance (void)
{
  TestGear t = { .gear = GEAR_CRANE (", 'keep_clear': 0.7, 'keep_clear_from': {'post': 1.19}"),
                 .structures = BOX ("wall", "[2, 2, 16]",
                                    "[12.2, 0, 0]") "," BOX ("post", "[2, 2, 16]", "[7.8, 0, 0]"),
                 .rigging = RIGGING,
                 .moves = UP ("1") };
  TestRun run = test_gear_run (&t);
  g_assert_cmpfloat (clearance (&run, "crane/rope", "wall")->required_m, ==, 0.7);
  TEST_PASSES (clearance (&run, "crane/rope", "wall"), TRN_STATE_CLEAR);
  g_assert_cmpfloat (clearance (&run, "crane/rope", "post")->required_m, ==, 1.19);
  TEST_FAILS (clearance (&run, "crane/rope", "post"), TRN_STATE_SHORT);
  test_run_clear (&run);
  t.rigging = "{'main': {'gear': 'crane', 'hook_above': 1}, 'connected': [['crane/rope', 'post']]}";
  run = test_gear_run (&t);
  const GArray *list = run.findings->lifts[0].findings;
  for (guint i = 0; i < list->len; i++)
    {
      const TrnFinding *f = &g_array_index (list, TrnFinding, i);
      g_assert_false (strcmp (f->body, "crane/rope") == 0 && g_strcmp0 (f->obstacle, "post") == 0);
    }
  gsize length;
  g_autofree char *json = trn_results_to_json (run.scene, run.findings, "test", &length);
  const char *pairs = strstr (json, "\"left_out\"");
  g_assert_nonnull (pairs);
  g_assert_nonnull (strstr (pairs, "\"crane/rope\",\n          \"post\""));
  test_run_clear (&run);
}

/* Tolerances count once for what moves, with the survey's: the load off by 0.05 m takes the rope
 * and the hook along. 0.6 m less 0.015 less 0.05 is more than 0.5; with 0.1 m it is not. */
static void
test_tolerance (void)
{
  static const struct
  {
    const char *lift;
    double off;
    TrnState state;
  } cases[] = { { "'tolerance': {'position': 0.05},", 0.05, TRN_STATE_CLEAR },
                { "'tolerance': {'position': 0.1},", 0.1, TRN_STATE_SHORT } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TestGear t = { .gear = GEAR_CRANE (""),
                     .structures = BOX ("wall", "[2, 2, 12]", "[11.6, 0, 4]"),
                     .rigging = RIGGING,
                     .lift = cases[i].lift,
                     .moves = UP ("1") };
      TestRun run = test_gear_run (&t);
      const TrnFinding *f = clearance (&run, "crane/rope", "wall");
      g_assert_cmpint (f->state, ==, cases[i].state);
      g_assert_cmpfloat (f->allowance_m, >=, cases[i].off);
      g_assert_cmpfloat (f->allowance_m, <=, 1.7 * cases[i].off);
      test_run_clear (&run);
    }
}

/* ---- live lines ---- */

static const TrnFinding *
approach (const TestRun *run, const char *body)
{
  return test_finding_of (run, TRN_CHECK_APPROACH, 0, 0, body, "line", NULL);
}

#define CFR "'approach': {'rule': '29-cfr-1926-1408-table-a'},"

/* A line of 110 kV along x, 5 m beside boom and rope and 12 m up: 15 ft, 4.572 m, are to be kept.
 * The rope is 5 − 0.015 − 0.01 m from it and keeps them, the boom 5 − 0.5 − 0.01 m does not, nor
 * does the cube that is hoisted past, 4 − 0.01 m. At 6 m beside all do. */
static void
test_approach (void)
{
  TestRun run
      = run_with (CFR, LINE ("line", "[-30, 5, 12]", "[40, 5, 12]", "0", ", 'voltage_kv': 110"),
                  RIGGING, UP ("12"));
  const TrnFinding *f = approach (&run, "crane/rope");
  TEST_PASSES (f, TRN_STATE_CLEAR);
  test_assert_between (f->upper_m, 4.975, 1e-3, 1e-3);
  g_assert_cmpfloat (f->required_m, ==, 15 * 0.3048);
  g_assert_cmpstr (f->source, ==, "29 CFR 1926.1408, Table A");
  f = approach (&run, "crane/boom");
  TEST_FAILS (f, TRN_STATE_SHORT);
  test_assert_between (f->upper_m, 4.49, 1e-3, 1e-3);
  f = approach (&run, "load");
  TEST_FAILS (f, TRN_STATE_SHORT);
  test_assert_between (f->upper_m, 3.99, 1e-3, 1e-3);
  /* The set clearance itself, 0.1 m, is met. */
  TEST_PASSES (clearance (&run, "crane/boom", "line"), TRN_STATE_CLEAR);
  test_run_clear (&run);

  run = run_with (CFR, LINE ("line", "[-30, 6, 12]", "[40, 6, 12]", "0", ", 'voltage_kv': 110"),
                  RIGGING, UP ("12"));
  TEST_PASSES (approach (&run, "crane/boom"), TRN_STATE_CLEAR);
  TEST_PASSES (approach (&run, "load"), TRN_STATE_CLEAR);
  test_run_clear (&run);
}

/* A line along y over the tip at 19.32 m, its ends 28 m up: taut it is 8.2 m above the boom's end,
 * with 4 m of sag 4.2 m, too little by 0.4 m. */
static void
test_sag (void)
{
  TestRun run
      = run_with (CFR, LINE ("line", "[10, -40, 28]", "[10, 40, 28]", "0", ", 'voltage_kv': 110"),
                  RIGGING, UP ("1"));
  TEST_PASSES (approach (&run, "crane/boom"), TRN_STATE_CLEAR);
  test_run_clear (&run);
  run = run_with (CFR, LINE ("line", "[10, -40, 28]", "[10, 40, 28]", "4", ", 'voltage_kv': 110"),
                  RIGGING, UP ("1"));
  const TrnFinding *f = approach (&run, "crane/boom");
  TEST_FAILS (f, TRN_STATE_SHORT);
  test_assert_between (f->upper_m, 24 - 2 - sqrt (300) - 0.51, 2e-3, 1e-3);
  test_run_clear (&run);
}

/* Without a rule, or without a voltage where the rule wants one, it is not known; another rule has
 * a value for a voltage that is not known, and a number of one's own holds for any. A line within a
 * group is one as well. */
static void
test_rules (void)
{
  const char *line = LINE ("line", "[-30, 6, 12]", "[40, 6, 12]", "0", "");
  TestRun run = run_with (NULL, line, RIGGING, UP ("12"));
  TEST_UNKNOWN (approach (&run, "crane/boom"), "approach");
  g_assert_true (isnan (approach (&run, "crane/boom")->required_m));
  g_assert_cmpint (run.findings->verdict, ==, TRN_VERDICT_UNKNOWN);
  test_run_clear (&run);
  run = run_with (CFR, line, RIGGING, UP ("12"));
  TEST_UNKNOWN (approach (&run, "crane/boom"), "voltage_kv");
  test_run_clear (&run);
  run = run_with ("'approach': {'rule': 'din-vde-0105-100'},", line, RIGGING, UP ("12"));
  TEST_PASSES (approach (&run, "crane/boom"), TRN_STATE_CLEAR);
  g_assert_cmpfloat (approach (&run, "crane/boom")->required_m, ==, 5);
  test_run_clear (&run);
  run = run_with ("'approach': {'rule': 'own', 'distance': 5.6, 'source': 'owner, letter 7'},",
                  line, RIGGING, UP ("12"));
  TEST_FAILS (approach (&run, "crane/boom"), TRN_STATE_SHORT);
  g_assert_cmpstr (approach (&run, "crane/boom")->source, ==, "owner, letter 7");
  test_run_clear (&run);

  run = run_with (
      CFR,
      "{'id': 'route', 'name': 'Route', 'solid': {'kind': 'group', 'parts': [{'id': 'mast',"
      " 'solid': {'kind': 'box', 'size': [1, 1, 12]}, 'at': {'position': [-30, 0, 0]}}, {'id':"
      " 'wires', 'solid': {'kind': 'overhead-line', 'diameter': 0.02, 'voltage_kv': 20,"
      " 'conductors': [{'from': [-30, 0, 12], 'to': [40, 0, 12], 'sag': 0}]}, 'at': {'position':"
      " [0, 0, 0]}}]}, 'at': {'position': [0, 3.5, 0]}}",
      RIGGING, UP ("1"));
  const TrnFinding *f
      = test_finding_of (&run, TRN_CHECK_APPROACH, 0, 0, "crane/boom", "route/wires", NULL);
  TEST_FAILS (f, TRN_STATE_SHORT);
  g_assert_cmpfloat (f->required_m, ==, 3.05);
  const GArray *list = run.findings->lifts[0].findings;
  for (guint i = 0; i < list->len; i++)
    g_assert_false (g_array_index (list, TrnFinding, i).check == TRN_CHECK_APPROACH
                    && g_strcmp0 (g_array_index (list, TrnFinding, i).obstacle, "route/mast") == 0);
  test_run_clear (&run);
}

/* A leg of a gantry, 9 m high, below a line at 10 m: the line hangs 1 m less its half thickness
 * over it, all the time. */
static void
test_approach_of_leg (void)
{
  TestGear t
      = { .gear
          = GEAR_CRANE ("") ", {'id': 'tower', 'kind': 'gantry', 'at': {'position': [0, 60, 0]},"
                            " 'legs': [{'at': [0, 0], 'size': [1, 1], 'height': 9}]}",
          .structures = LINE ("line", "[-20, 60, 10]", "[20, 60, 10]", "0", ""),
          .more = "'approach': {'rule': 'own', 'distance': 0.9, 'source': 'owner'},",
          .rigging = RIGGING,
          .moves = UP ("1") "," UP ("1") };
  TestRun run = test_gear_run (&t);
  TEST_PASSES (approach (&run, "tower/leg-1"), TRN_STATE_CLEAR);
  test_assert_between (approach (&run, "tower/leg-1")->upper_m, 0.99, 2e-4, 2e-4);
  test_run_clear (&run);
  t.more = "'approach': {'rule': 'own', 'distance': 3, 'source': 'owner'},";
  run = test_gear_run (&t);
  TEST_FAILS (approach (&run, "tower/leg-1"), TRN_STATE_SHORT);
  test_run_clear (&run);
  t.more = NULL;
  run = test_gear_run (&t);
  TEST_UNKNOWN (approach (&run, "tower/leg-1"), "approach");
  test_run_clear (&run);
}

/* A gantry over the load: its block of 1.2 m, and the rope, past the face of its own leg, 0.7 m
 * from the hook. */
static void
test_block_past_own_leg (void)
{
  TestGear t = { .gear = "{'id': 'tower', 'kind': 'gantry', 'at': {'position': [10, 0, 0]}, 'legs':"
                         " [{'at': [0, 1.2], 'size': [1, 1], 'height': 12}], 'trolley': {'size':"
                         " [1, 1, 1], 'underside': 12}}",
                 .structures = BOX ("slab", "[2, 2, 1]", "[50, 50, 0]"),
                 .rigging = "{'main': {'gear': 'tower', 'hook_above': 1, 'block': {'diameter': 1.2,"
                            " 'height': 1.5}}}",
                 .moves = UP ("1") };
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = clearance (&run, "tower/block", "tower/leg-1");
  TEST_FAILS (f, TRN_STATE_SHORT);
  test_assert_between (f->upper_m, 0.1, 0.6 * (1 / cos (G_PI / 8) - 1) + NEAR, NEAR);
  f = clearance (&run, "tower/rope", "tower/leg-1");
  TEST_PASSES (f, TRN_STATE_CLEAR);
  test_run_clear (&run);
}

/* A rule without any gear: the load is judged, and no other check of gear is done. */
static void
test_approach_without_gear (void)
{
  TestGear t
      = { .gear = "",
          .structures = LINE ("line", "[-30, 4, 12]", "[40, 4, 12]", "0", ", 'voltage_kv': 20"),
          .more = CFR,
          .moves = UP ("12") };
  TestRun run = test_gear_run (&t);
  TEST_FAILS (approach (&run, "load"), TRN_STATE_SHORT);
  g_assert_cmpuint (run.findings->checks_done, ==,
                    TRN_CHECKS_ALWAYS | TRN_CHECK_BIT (TRN_CHECK_APPROACH));
  test_run_clear (&run);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/gear-clearance/rope-past-edge", test_rope_past_edge);
  g_test_add_func ("/checks/gear-clearance/no-hook-height", test_no_hook_height);
  g_test_add_func ("/checks/gear-clearance/boom-below-slab", test_boom_below_slab);
  g_test_add_func ("/checks/gear-clearance/load-past-own-boom", test_load_past_own_boom);
  g_test_add_func ("/checks/gear-clearance/block-and-slings", test_block_and_slings);
  g_test_add_func ("/checks/gear-clearance/connected", test_connected_and_own_clearance);
  g_test_add_func ("/checks/gear-clearance/tolerance", test_tolerance);
  g_test_add_func ("/checks/approach/line", test_approach);
  g_test_add_func ("/checks/approach/sag", test_sag);
  g_test_add_func ("/checks/approach/rules", test_rules);
  g_test_add_func ("/checks/gear-clearance/block-past-own-leg", test_block_past_own_leg);
  g_test_add_func ("/checks/approach/leg", test_approach_of_leg);
  g_test_add_func ("/checks/approach/without-gear", test_approach_without_gear);
  return g_test_run ();
}
