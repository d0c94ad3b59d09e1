/* Swing radii and what stands near the axis, by closed forms. */
#include "test-checks.h"
#include "test-lift.h"

#define NEAR 1e-6

static TestRun
run_swing (const char *structures, const char *solid, const char *at, const char *hook,
           const char *moves)
{
  TestLift lift = { structures, solid, at, hook, NULL, moves, 0.5 };
  g_autofree char *text = test_lift_text (&lift);
  return test_run (text);
}

/* The swing of the first move past @obstacle; NAN stands for none. */
static void
assert_swing (const TestRun *run, const char *obstacle, double radius, double sector, double circle)
{
  const TrnFinding *f = test_finding (run, TRN_CHECK_SWING_RADIUS, 0, 0, obstacle);
  if (fabs (f->radius_m - radius) > NEAR || fabs (f->circle_distance_m - circle) > NEAR
      || isnan (f->sector_distance_m) != isnan (sector))
    g_test_message ("%s: radius %g sector %g circle %g", obstacle, f->radius_m,
                    f->sector_distance_m, f->circle_distance_m);
  test_assert_between (f->radius_m, radius, NEAR, NEAR);
  g_assert_cmpint (isnan (f->circle_distance_m), ==, isnan (circle));
  g_assert_cmpint (isnan (f->sector_distance_m), ==, isnan (sector));
  if (!isnan (circle))
    test_assert_between (f->circle_distance_m, circle, NEAR, NEAR);
  if (!isnan (sector))
    test_assert_between (f->sector_distance_m, sector, NEAR, NEAR);
  gboolean is_short = sector - radius < 0.5;
  g_assert_cmpint (f->verdict, ==, is_short ? TRN_VERDICT_NOTE : TRN_VERDICT_PASS);
  g_assert_cmpint (f->state, ==, is_short ? TRN_STATE_SHORT : TRN_STATE_CLEAR);
}

/* A box of 4 × 2 m turned about its middle: radius √5 all round. One wall is 3 m off, one 2.5 m
 * (a note), one lies below the load's extent. A hoist has no swing. */
static void
test_turn (void)
{
  TestRun run = run_swing (TEST_THREE (TEST_BOX ("east", "[1, 20, 20]", "[3.5, 0, 0]"),
                                       TEST_BOX ("west", "[1, 20, 20]", "[-3, 0, 0]"),
                                       TEST_BOX ("low", "[20, 20, 1]", "[0, 0, 0]")),
                           "{'kind': 'box', 'size': [4, 2, 2]}", TEST_AT ("[0, 0, 5]"), "[0, 0, 2]",
                           "{'do': 'turn', 'by': 90, 'seconds': 9},"
                           "{'do': 'hoist', 'by': 1, 'seconds': 1}");
  assert_swing (&run, "east", sqrt (5), 3, 3);
  assert_swing (&run, "west", sqrt (5), 2.5, 2.5);
  assert_swing (&run, "low", sqrt (5), NAN, NAN);
  const GArray *list = run.findings->lifts[0].findings;
  for (guint i = 0; i < list->len; i++)
    if (g_array_index (list, TrnFinding, i).check == TRN_CHECK_SWING_RADIUS)
      g_assert_cmpint (g_array_index (list, TrnFinding, i).move, ==, 0);
  /* Its corners pass the western wall at 2.5 m − √5 = 0.26 m: that is for the sweep to say. */
  g_assert_cmpint (run.findings->verdict, ==, TRN_VERDICT_FAIL);
  g_assert_cmpint (test_clearance (&run, 0, 0, "east")->verdict, ==, TRN_VERDICT_PASS);
  test_run_clear (&run);
}

/* A note leaves the verdict alone: a box of 4 × 1 m turns by 20° only, and a block beside the
 * middle of its long side, well within the circle of its corners, stays 0.5 m clear: the side's
 * point that is nearest to it comes down to about −0.5/cos 20° − 0.5 tan 20° = −0.71 m, the block
 * is at −1.5 m. */
static void
test_note (void)
{
  TestRun run = run_swing (TEST_BOX ("block", "[1, 1, 20]", "[0, -2, 0]"),
                           "{'kind': 'box', 'size': [4, 1, 2]}", TEST_AT ("[0, 0, 5]"), "[0, 0, 2]",
                           "{'do': 'turn', 'by': -20, 'seconds': 9}");
  assert_swing (&run, "block", hypot (2, 0.5), 1.5, 1.5);
  const TrnFinding *f = test_finding (&run, TRN_CHECK_SWING_RADIUS, 0, 0, "block");
  g_assert_cmpint (f->verdict, ==, TRN_VERDICT_NOTE);
  g_assert_cmpint (run.findings->verdict, ==, TRN_VERDICT_PASS);
  test_run_clear (&run);
}

/* A box of 2 m on a hook at 20 m slews by 90°: its outer corners draw hypot (21, 1). A post at 45°
 * is in the sector; one at −90°, and one whose nearest corner is at 97°, are in the circle only:
 * the sector ends at 90° + atan (1/19) = 93.01°. */
static void
test_slew (void)
{
  TestRun run
      = run_swing (TEST_THREE (TEST_BOX ("in", "[1, 1, 20]", "[18, 18, 0]"),
                               TEST_BOX ("behind", "[1, 1, 20]", "[0, -24, 0]"),
                               TEST_BOX ("after", "[1, 1, 20]", "[-3.5, 24.5, 0]")),
                   "{'kind': 'box', 'size': [2, 2, 2]}", TEST_AT ("[20, 0, 5]"), "[0, 0, 2]",
                   "{'do': 'slew', 'by': 90, 'centre': [0, 0], 'seconds': 60}");
  double radius = hypot (21, 1);
  assert_swing (&run, "in", radius, 17.5 * sqrt (2), 17.5 * sqrt (2));
  assert_swing (&run, "behind", radius, NAN, 23.5);
  assert_swing (&run, "after", radius, NAN, hypot (3, 24));
  test_run_clear (&run);
}

/* The edge of the sector cuts through a block: its last ray is at 90° + a with tan a = 1/19, and
 * meets the face y = 24 at x = −24/19 = −1.263. A block that ends at x = −1 has its nearest point
 * in the sector; of one that ends at x = −1.3 only what lies above y = 19 · 1.3 = 24.7 on its end
 * face is within. */
static void
test_edge_of_sector (void)
{
  TestRun run
      = run_swing (TEST_TWO (TEST_BOX ("across", "[4, 1, 20]", "[-3, 24.5, 0]"),
                             TEST_BOX ("past", "[4, 1, 20]", "[-3.3, 24.5, 0]")),
                   "{'kind': 'box', 'size': [2, 2, 2]}", TEST_AT ("[20, 0, 5]"), "[0, 0, 2]",
                   "{'do': 'slew', 'by': 90, 'centre': [0, 0], 'seconds': 60}");
  assert_swing (&run, "across", hypot (21, 1), hypot (1, 24), hypot (1, 24));
  assert_swing (&run, "past", hypot (21, 1), 24.7 * hypot (1, 1 / 19.0), hypot (1.3, 24));
  test_run_clear (&run);
}

/* The same load drawn out from 20 to 25 m while it slews; and keeping its heading, when its corner
 * points outwards at 45°: 20 + √2, an upper bound to half a millimetre. */
static void
test_slew_kinds (void)
{
  const char *post = TEST_BOX ("post", "[1, 1, 20]", "[0, 40, 0]");
  TestRun run
      = run_swing (post, "{'kind': 'box', 'size': [2, 2, 2]}", TEST_AT ("[20, 0, 5]"), "[0, 0, 2]",
                   "{'do': 'slew', 'by': 90, 'centre': [0, 0], 'radius_by': 5,"
                   " 'seconds': 60}");
  assert_swing (&run, "post", hypot (26, 1), 39.5, 39.5);
  test_run_clear (&run);

  run = run_swing (post, "{'kind': 'box', 'size': [2, 2, 2]}", TEST_AT ("[20, 0, 5]"), "[0, 0, 2]",
                   "{'do': 'slew', 'by': 90, 'centre': [0, 0], 'load_turns': false,"
                   " 'seconds': 60}");
  const TrnFinding *f = test_finding (&run, TRN_CHECK_SWING_RADIUS, 0, 0, "post");
  test_assert_between (f->radius_m, 20 + sqrt (2), 1e-9, 1e-3);
  test_assert_between (f->sector_distance_m, 39.5, NEAR, NEAR);
  test_run_clear (&run);
}

/* A beam of 10 m is tilted from lying to upright about a point 0.5 m past its end: seen along the
 * axis the far corners are hypot (10.5, 0.5) away. The near corners are at 45° to either side, so
 * that the sector goes from −45° to 135°, where it leaves a wall 6.5 m behind 6.5 m above the
 * pivot, over its top. A wall beside the beam, along the axis, is out of its extent; what is right
 * over the pivot is swept. */
static void
test_tilt (void)
{
  TestRun run
      = run_swing (TEST_THREE (TEST_BOX ("ahead", "[1, 9, 9]", "[17, 0, 0]"),
                               TEST_BOX ("behind", "[1, 9, 8]", "[-7, 0, 0]"),
                               TEST_TWO (TEST_BOX ("beside", "[9, 1, 9]", "[5, 2, 0]"),
                                         TEST_BOX ("over", "[2, 2, 1]", "[0, 0, 15]"))),
                   "{'kind': 'box', 'size': [10, 1, 1]}", TEST_AT ("[5.5, 0, 2]"), "[-5.5, 0, 0.5]",
                   "{'do': 'tilt', 'by': -90, 'axis': 90, 'seconds': 90}");
  double radius = hypot (10.5, 0.5);
  assert_swing (&run, "ahead", radius, 16.5, 16.5);
  assert_swing (&run, "behind", radius, NAN, 6.5);
  assert_swing (&run, "beside", radius, NAN, NAN);
  assert_swing (&run, "over", radius, 12.5, 12.5);
  test_run_clear (&run);
}

/* A turn while the load is carried 5 m east: obstacles are measured from the strip that the axis
 * passes over. */
static void
test_carried_axis (void)
{
  TestRun run = run_swing (TEST_TWO (TEST_BOX ("north", "[1, 1, 20]", "[2.5, 4.5, 0]"),
                                     TEST_BOX ("east", "[1, 1, 20]", "[9.5, 0, 0]")),
                           "{'kind': 'box', 'size': [2, 2, 2]}", TEST_AT ("[0, 0, 5]"), "[0, 0, 2]",
                           "{'do': 'move', 'by': [5, 0, 0], 'turn': 90, 'seconds': 9}");
  assert_swing (&run, "north", sqrt (2), 4, 4);
  assert_swing (&run, "east", sqrt (2), 4, 4);
  test_run_clear (&run);
}

/* Two-hook up-ending past upright: the beam of 10 m lies from x = 0.5 to 10.5, its head hangs on
 * the vertical x = 11. By 120° the head rises to the beam's full 10.5 m above the tail's level and
 * comes down again by 10.5 (1 − sin 120°). A block above it, 10.5 + 2 m over the tail, is 2 m from
 * the highest place of the axis, which neither end of the move shows; a post behind the head is
 * 2 m from it. */
static void
test_head_plumb (void)
{
  TestRun run = run_swing (TEST_TWO (TEST_BOX ("above", "[3, 3, 1]", "[11, 0, 14.5]"),
                                     TEST_BOX ("post", "[1, 9, 12]", "[13.5, 0, 0]")),
                           "{'kind': 'box', 'size': [10, 1, 1]}", TEST_AT ("[5.5, 0, 1.5]"),
                           "[5.5, 0, 0.5]",
                           "{'do': 'tilt', 'by': -120, 'axis': 90, 'guide': 'head-plumb',"
                           " 'head': [5.5, 0, 0.5], 'tail': [-5, 0, 0.5], 'seconds': 90}");
  double radius = hypot (10.5, 0.5);
  const TrnFinding *f = test_finding (&run, TRN_CHECK_SWING_RADIUS, 0, 0, "above");
  test_assert_between (f->radius_m, radius, NEAR, NEAR);
  test_assert_between (f->circle_distance_m, 2, NEAR, NEAR);
  f = test_finding (&run, TRN_CHECK_SWING_RADIUS, 0, 0, "post");
  test_assert_between (f->circle_distance_m, 2, NEAR, NEAR);
  test_run_clear (&run);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/swing-radius/turn", test_turn);
  g_test_add_func ("/swing-radius/note", test_note);
  g_test_add_func ("/swing-radius/slew", test_slew);
  g_test_add_func ("/swing-radius/edge-of-sector", test_edge_of_sector);
  g_test_add_func ("/swing-radius/slew-kinds", test_slew_kinds);
  g_test_add_func ("/swing-radius/tilt", test_tilt);
  g_test_add_func ("/swing-radius/carried-axis", test_carried_axis);
  g_test_add_func ("/swing-radius/head-plumb", test_head_plumb);
  return g_test_run ();
}
