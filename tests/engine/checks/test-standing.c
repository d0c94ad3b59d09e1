/* What stands of gear, on the ground and in what else stands there. The crane's carrier is 8 m by 3
 * m by 1.2 m about the origin, with pads of 2 m at (±3, ±4). The ground is a slab whose top is z =
 * 0. */
#include "test-gear.h"

#define NEAR 1e-6
#define RIGGING                                                                                    \
  "{'main': {'gear': 'crane', 'hook_above': 1, 'block': {'diameter': 0.6, 'height': 1.2},"         \
  " 'slings': [{'id': 'leg', 'to': [0, 0, 2], 'diameter': 0.04}]}}"
#define CARRIER ", 'carrier': {'size': [8, 3, 1.2]}"
#define PADS                                                                                       \
  ", 'supports': {'kind': 'outriggers', 'at': [[3, 4], [3, -4], [-3, 4], [-3, -4]], 'pad': [2, "   \
  "2]}"
#define BOX(id, size, position)                                                                    \
  "{'id': '" id "', 'solid': {'kind': 'box', 'size': " size "}, 'at': {'position': " position "}}"
#define GROUND BOX ("ground", "[60, 60, 1]", "[0, 0, -1]")

static TestRun
run_with (const char *gear, const char *structures, const char *rigging)
{
  TestGear t = { .gear = gear,
                 .structures = structures,
                 .rigging = rigging,
                 .at = "[10, 0, 1]",
                 .moves = "{'do': 'hoist', 'by': 1, 'seconds': 30}" };
  return test_gear_run (&t);
}

static const TrnFinding *
stands (const TestRun *run, const char *body, const char *obstacle)
{
  return test_finding_of (run, TRN_CHECK_STANDING, 0, -1, body, obstacle, NULL);
}

static guint
count (const TestRun *run, TrnCheckKind check)
{
  guint n = 0;
  for (guint i = 0; i < run->findings->lifts[0].findings->len; i++)
    n += g_array_index (run->findings->lifts[0].findings, TrnFinding, i).check == check;
  return n;
}

/* On the ground the carrier touches nothing: raised by 5 mm it is that far above it. A wall 0.5 m
 * beside the carrier is not touched; one that begins 1.4 m beside the middle is. */
static void
test_carrier (void)
{
  TestRun run = run_with (GEAR_CRANE (CARRIER GEAR_TAIL),
                          GROUND "," BOX ("wall", "[3, 1, 3]", "[0, 2.5, 0]"), RIGGING);
  const TrnFinding *f = stands (&run, "crane", "ground");
  TEST_PASSES (f, TRN_STATE_CLEAR);
  test_assert_between (f->distance_m, 5e-3, 2e-5, NEAR);
  TEST_PASSES (stands (&run, "crane", "wall"), TRN_STATE_CLEAR);
  test_assert_between (stands (&run, "crane", "wall")->distance_m, 0.5, 2e-5, NEAR);
  test_run_clear (&run);
  run = run_with (GEAR_CRANE (CARRIER GEAR_TAIL),
                  GROUND "," BOX ("wall", "[3, 1, 3]", "[0, 1.9, 0]"), RIGGING);
  TEST_PASSES (stands (&run, "crane", "ground"), TRN_STATE_CLEAR);
  TEST_FAILS (stands (&run, "crane/carrier", "wall"), TRN_STATE_CONTACT);
  g_assert_cmpint (run.findings->verdict, ==, TRN_VERDICT_FAIL);
  test_run_clear (&run);
}

/* A carrier wholly inside a shed touches none of its faces, and stands in it all the same; a step
 * of 4 mm, less than the play, is what it stands on, one of 6 mm is in it. */
static void
test_inside (void)
{
  TestRun run = run_with (GEAR_CRANE (CARRIER GEAR_TAIL), BOX ("shed", "[12, 6, 5]", "[0, 0, -1]"),
                          RIGGING);
  TEST_FAILS (stands (&run, "crane/carrier", "shed"), TRN_STATE_CONTACT);
  test_run_clear (&run);
  run = run_with (
      GEAR_CRANE (CARRIER GEAR_TAIL),
      BOX ("mat", "[2, 2, 0.004]", "[0, 0, 0]") "," BOX ("step", "[2, 2, 0.006]", "[3, 0, 0]"),
      RIGGING);
  TEST_PASSES (stands (&run, "crane", "mat"), TRN_STATE_CLEAR);
  TEST_FAILS (stands (&run, "crane/carrier", "step"), TRN_STATE_CONTACT);
  test_run_clear (&run);
}

/* A kiosk beside the carrier, where a pad lies: there is one only with a size, and it is named by
 * its number. What the plan calls connected is not judged. */
static void
test_pads (void)
{
  const char *kiosk = GROUND "," BOX ("kiosk", "[1, 1, 2]", "[3, -4, 0]");
  TestRun run = run_with (GEAR_CRANE (CARRIER PADS GEAR_TAIL), kiosk, RIGGING);
  TEST_PASSES (stands (&run, "crane", "ground"), TRN_STATE_CLEAR);
  TEST_FAILS (stands (&run, "crane/pad-2", "kiosk"), TRN_STATE_CONTACT);
  test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "load", "crane/pad-4", NULL);
  test_run_clear (&run);
  run = run_with (GEAR_CRANE (CARRIER GEAR_TAIL), kiosk, RIGGING);
  TEST_PASSES (stands (&run, "crane", "kiosk"), TRN_STATE_CLEAR);
  test_run_clear (&run);
  run = run_with (GEAR_CRANE (PADS GEAR_TAIL), kiosk,
                  "{'main': {'gear': 'crane', 'hook_above': 1}, 'connected': [['crane/pad-2',"
                  " 'kiosk']]}");
  TEST_PASSES (stands (&run, "crane", "kiosk"), TRN_STATE_CLEAR);
  test_run_clear (&run);
}

/* A kiosk beside a pad, where a mat of 4 m by 4 m lies below it: named by its number, for what
 * stands and for the load. */
static void
test_mats (void)
{
#define MATS                                                                                       \
  ", 'supports': {'kind': 'outriggers', 'at': [[3, 4], [3, -4], [-3, 4], [-3, -4]], 'pad': [2, "   \
  "2], 'mat': {'size': [4, 4, 0.3]}}"
  const char *below = BOX ("below", "[60, 60, 1]", "[0, 0, -1.3]") "," BOX ("kiosk", "[1, 1, 2]",
                                                                            "[4.7, -4, -0.3]");
  TestRun run = run_with (GEAR_CRANE (CARRIER MATS GEAR_TAIL), below, RIGGING);
  TEST_PASSES (stands (&run, "crane", "below"), TRN_STATE_CLEAR);
  test_assert_between (stands (&run, "crane", "below")->distance_m, 5e-3, 2e-5, NEAR);
  TEST_FAILS (stands (&run, "crane/mat-2", "kiosk"), TRN_STATE_CONTACT);
  test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "load", "crane/mat-4", NULL);
  test_run_clear (&run);
  run = run_with (GEAR_CRANE (CARRIER PADS GEAR_TAIL), below, RIGGING);
  TEST_PASSES (stands (&run, "crane", "kiosk"), TRN_STATE_CLEAR);
  test_run_clear (&run);
}

/* With its base on the ground the mats are in it by as much as they are thick, which is told; what
 * is deeper, or higher, is another matter. */
static void
test_mats_below (void)
{
  static const struct
  {
    const char *structures;
    gboolean is_told;
  } all[] = { { GROUND, TRUE },
              { BOX ("ground", "[60, 60, 1]", "[0, 0, -0.9]"), FALSE },
              { BOX ("ground", "[60, 60, 1]", "[0, 0, -1.1]"), FALSE } };
  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    {
      TestRun run = run_with (GEAR_CRANE (CARRIER MATS GEAR_TAIL), all[i].structures, RIGGING);
      const char *part = i == 1 ? "crane/carrier" : "crane/mat-1";
      const TrnFinding *f = stands (&run, part, "ground");
      TEST_FAILS (f, TRN_STATE_CONTACT);
      if (all[i].is_told)
        g_assert_cmpfloat (f->fit_m, ==, 0.3);
      else
        g_assert_false (f->fit_m > 0);
      test_run_clear (&run);
    }
}

/* Two gears in one another are told once, by the first of them in the plan; a leg by its number. */
static void
test_two_gears (void)
{
  TestRun run = run_with (
      GEAR_CRANE (CARRIER GEAR_TAIL) ", {'id': 'tower', 'kind': 'gantry', 'at': {'position': [0, 0,"
                                     " 0]}, 'legs': [{'at': [-9, 0], 'size': [1, 1], 'height': 5},"
                                     " {'at': [3, 0], 'size': [1, 1], 'height': 5, 'pad': [1.5,"
                                     " 1.5]}]}",
      BOX ("post", "[1, 1, 2]", "[-9, 0.4, 0]"), RIGGING);
  TEST_PASSES (stands (&run, "crane", "tower/leg-1"), TRN_STATE_CLEAR);
  TEST_FAILS (stands (&run, "crane/carrier", "tower/leg-2"), TRN_STATE_CONTACT);
  TEST_FAILS (stands (&run, "crane/carrier", "tower/pad-2"), TRN_STATE_CONTACT);
  TEST_FAILS (stands (&run, "tower/leg-1", "post"), TRN_STATE_CONTACT);
  TEST_PASSES (stands (&run, "crane", "post"), TRN_STATE_CLEAR);
  g_assert_cmpuint (count (&run, TRN_CHECK_STANDING), ==, 5);
  test_run_clear (&run);
}

static guint
count_no_tail (const char *rigging, const char *moves)
{
  TestGear t = { .gear = GEAR_CRANE (GEAR_TAIL ", 'barricade': 5"),
                 .structures = BOX ("heel", "[1, 1, 1]", "[10, 2, 0]"),
                 .rigging = rigging,
                 .moves = moves };
  TestRun run = test_gear_run (&t);
  guint n = 0;
  for (guint i = 0; i < run.findings->lifts[0].findings->len; i++)
    {
      const TrnFinding *f = &g_array_index (run.findings->lifts[0].findings, TrnFinding, i);
      if (g_strcmp0 (f->missing, "rigging/tail") != 0)
        continue;
      test_assert_judged (f, TRN_VERDICT_NOTE, TRN_STATE_NOT_GIVEN, "rigging/tail");
      g_assert_cmpstr (f->body, ==, "load");
      n++;
    }
  test_run_clear (&run);
  return n;
}

#define TILT "{'do': 'tilt', 'by': 5, 'axis': 0, 'about': [0, 1, 0], 'seconds': 10}"

/* What holds the tail in a tilt is a note where the lift names no tail hoist: one, also of two
 * tilts, and none of a lift without one. */
static void
test_no_tail (void)
{
  static const char hoist[] = "{'do': 'hoist', 'by': 3, 'seconds': 30}";
  static const char main_alone[] = "{'main': {'gear': 'crane', 'hook_above': 1}}";
  static const char both[]
      = "{'main': {'gear': 'crane', 'hook_above': 1}, 'tail': {'point': [0, 1, 0]}}";
  g_assert_cmpuint (count_no_tail (main_alone, TILT), ==, 1);
  g_assert_cmpuint (count_no_tail (main_alone, TILT ", " TILT), ==, 1);
  g_assert_cmpuint (count_no_tail (main_alone, hoist), ==, 0);
  g_assert_cmpuint (count_no_tail (both, TILT), ==, 0);
}

/* A tilt about [10, 1, 0], which a pin 0.9 m beside it holds that is a seat of the lift, at either
 * end. A pin there that the plan does not name so is a neighbour only, as is one that is 1.1 m
 * away: then it is not known what holds the load, in each of the two tilts. Nor is it with nothing
 * but the ground 0.9 m below, as such or in a group, and the crane's own carrier, which reaches as
 * near where it is 20 m wide, though they are named; a block on that ground, or the leg of another
 * gear that is connected with the load, may hold it. */
static void
test_tilt_in_mid_air (void)
{
#define SLAB "{'kind': 'ground', 'size': [60, 60]}"
#define LOW "'at': {'position': [0, 0, -0.9]}"
#define BELOW "{'id': 'ground', 'solid': " SLAB ", " LOW "}"
#define AMONG                                                                                      \
  "{'id': 'yard', 'solid': {'kind': 'group', 'parts': [{'id': 'top', 'solid': " SLAB ", " LOW      \
  "}]}, 'at': {'position': [0, 0, 0]}}"
#define LEG                                                                                        \
  ", {'id': 'tower', 'kind': 'gantry', 'at': {'position': [10, 2.4, -1]}, 'legs': [{'at': [0, 0]," \
  " 'size': [1, 1], 'height': 2}]}"
#define SEAT(on, end) "'seats': [{'on': '" on "', 'at': '" end "'}],"
#define PIN(y, z) BOX ("pin", "[1, 1, 1]", "[10, " y ", " z "]")
#define FAR BOX ("post", "[1, 1, 1]", "[50, 50, 0]")
  static const struct
  {
    const char *structures, *carrier, *more_gear, *connected, *seats;
    guint n_unheld;
  } cases[] = {
    { PIN ("2.4", "0"), "", "", NULL, SEAT ("pin", "start"), 0 },
    { PIN ("2.4", "0"), "", "", NULL, SEAT ("pin", "end"), 0 },
    { PIN ("2.4", "0"), "", "", NULL, "", 2 },
    { PIN ("2.6", "0"), "", "", NULL, SEAT ("pin", "start"), 2 },
    { BELOW, "", "", NULL, SEAT ("ground", "start"), 2 },
    { AMONG, "", "", NULL, SEAT ("yard", "start"), 2 },
    { BELOW "," PIN ("2.4", "-0.9"), "", "", NULL, SEAT ("pin", "start"), 0 },
    { BELOW "," PIN ("2.4", "-0.9"), "", "", NULL, SEAT ("ground", "start"), 2 },
    { FAR, ", 'carrier': {'size': [20, 3, 1.2]}", "", "crane/carrier", "", 2 },
    { FAR, "", LEG, "tower/leg-1", "", 0 },
    { FAR, "", LEG, NULL, "", 2 },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *gear = g_strdup_printf (GEAR_CRANE (GEAR_TAIL ", 'barricade': 5%s") "%s",
                                               cases[i].carrier, cases[i].more_gear);
      g_autofree char *connected
          = cases[i].connected != NULL
                ? g_strdup_printf (", 'connected': [['load', '%s']]", cases[i].connected)
                : g_strdup ("");
      g_autofree char *rigging
          = g_strdup_printf ("{'main': {'gear': 'crane', 'hook_above': 1}%s}", connected);
      TestGear t = { .gear = gear,
                     .structures = cases[i].structures,
                     .rigging = rigging,
                     .lift = cases[i].seats,
                     .moves = TILT ", " TILT };
      TestRun run = test_gear_run (&t);
      guint n = 0;
      for (guint k = 0; k < run.findings->lifts[0].findings->len; k++)
        {
          const TrnFinding *f = &g_array_index (run.findings->lifts[0].findings, TrnFinding, k);
          if (g_strcmp0 (f->missing, "tail/mid-air") != 0)
            continue;
          test_assert_judged (f, TRN_VERDICT_UNKNOWN, TRN_STATE_UNKNOWN, "tail/mid-air");
          n++;
        }
      g_test_message ("case %u", i);
      g_assert_cmpuint (n, ==, cases[i].n_unheld);
      test_run_clear (&run);
    }
}

/* A tail hoist that holds in the second of two tilts alone holds nothing in the first. */
static void
test_tilt_before_tail (void)
{
  TestGear t = { .gear = GEAR_CRANE (GEAR_TAIL ", 'barricade': 5"),
                 .structures = FAR,
                 .rigging = "{'main': {'gear': 'crane', 'hook_above': 1}, 'tail': {'point':"
                            " [0, 1, 0], 'moves': [1, 1]}}",
                 .moves = TILT ", " TILT };
  TestRun run = test_gear_run (&t);
  guint n = 0;
  for (guint i = 0; i < run.findings->lifts[0].findings->len; i++)
    {
      const TrnFinding *f = &g_array_index (run.findings->lifts[0].findings, TrnFinding, i);
      if (g_strcmp0 (f->missing, "tail/mid-air") != 0)
        continue;
      g_assert_cmpint (f->move, ==, 0);
      n++;
    }
  g_assert_cmpuint (n, ==, 1);
  test_run_clear (&run);
}

/* What is left out of a crane and of its rigging is a note each: it changes no verdict. */
static void
test_left_out (void)
{
  static const struct
  {
    TrnCheckKind check;
    const char *missing;
  } notes[] = { { TRN_CHECK_RIGGING, "rigging/main/block" },
                { TRN_CHECK_RIGGING, "rigging/main/slings" },
                { TRN_CHECK_STANDING, "carrier" } };
  const char *post = BOX ("post", "[1, 1, 1]", "[50, 50, 0]");
  TestRun run = run_with (GEAR_CRANE (GEAR_TAIL ", 'barricade': 5"), post,
                          "{'main': {'gear': 'crane', 'hook_above': 1}}");
  guint n = 0;
  for (guint i = 0; i < run.findings->lifts[0].findings->len; i++)
    {
      const TrnFinding *f = &g_array_index (run.findings->lifts[0].findings, TrnFinding, i);
      if (f->state != TRN_STATE_NOT_GIVEN)
        continue;
      g_assert_cmpuint (n, <, G_N_ELEMENTS (notes));
      g_assert_cmpint (f->check, ==, notes[n].check);
      test_assert_judged (f, TRN_VERDICT_NOTE, TRN_STATE_NOT_GIVEN, notes[n].missing);
      g_assert_cmpstr (f->body, ==, "crane");
      g_assert_cmpint (f->move, ==, -1);
      n++;
    }
  g_assert_cmpuint (n, ==, G_N_ELEMENTS (notes));
  TrnVerdict verdict = TRN_VERDICT_PASS;
  for (guint i = 0; i < run.findings->lifts[0].findings->len; i++)
    {
      const TrnFinding *f = &g_array_index (run.findings->lifts[0].findings, TrnFinding, i);
      if (f->check == TRN_CHECK_RIGGING || f->check == TRN_CHECK_STANDING)
        verdict = trn_verdict_fold (verdict, f->verdict);
    }
  g_assert_cmpint (verdict, ==, TRN_VERDICT_PASS);
  test_run_clear (&run);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/standing/carrier", test_carrier);
  g_test_add_func ("/checks/standing/inside", test_inside);
  g_test_add_func ("/checks/standing/pads", test_pads);
  g_test_add_func ("/checks/standing/mats", test_mats);
  g_test_add_func ("/checks/standing/mats-below", test_mats_below);
  g_test_add_func ("/checks/standing/two-gears", test_two_gears);
  g_test_add_func ("/checks/standing/left-out", test_left_out);
  g_test_add_func ("/checks/standing/no-tail", test_no_tail);
  g_test_add_func ("/checks/standing/tilt-in-mid-air", test_tilt_in_mid_air);
  g_test_add_func ("/checks/standing/tilt-before-tail", test_tilt_before_tail);
  return g_test_run ();
}
