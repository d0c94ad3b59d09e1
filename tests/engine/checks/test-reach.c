/* Reach and the length of slings by closed forms. */
#include "test-gear.h"

#define NEAR 1e-6
#define SLAB                                                                                       \
  "{'id': 'slab', 'name': 'Slab', 'solid': {'kind': 'box', 'size': [2, 2, 1]}, 'at': {'position':" \
  " [50, 50, 0]}}"

static const TrnFinding *
reach (const TestRun *run, const char *gear, const char *item)
{
  return test_finding_of (run, TRN_CHECK_REACH, 0, 0, gear, NULL, item);
}

static void
assert_value (const TrnFinding *f, double value, double limit)
{
  test_assert_between (f->value, value, 1.1e-3 * (f->unit == TRN_UNIT_DEG ? 60 : 1),
                       1.1e-3 * (f->unit == TRN_UNIT_DEG ? 60 : 1));
  test_assert_between (f->limit, limit, NEAR, NEAR);
}

static TestGear
crane_out (const char *radius_by)
{
  static char moves[200];
  g_snprintf (moves, sizeof moves,
              "{'do': 'slew', 'by': 30, 'centre': [0, 0], 'radius_by': %s, 'seconds': 60}",
              radius_by);
  return (TestGear){ .gear = GEAR_CRANE (""),
                     .structures = SLAB,
                     .rigging = "{'main': {'gear': 'crane', 'hook_above': 1}}",
                     .moves = moves };
}

/* From the radius 10 to 15.5 of a table to 16: half a metre is left, and the boom comes down from
 * 60° to arccos (15.5/20) = 39.2°, 9.2° above its least. To 16.5 it is beyond its table. To the
 * very end of it nothing is left, but it is within. */
static void
test_radius (void)
{
  TestGear t = crane_out ("5.5");
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = reach (&run, "crane", "radius");
  TEST_PASSES (f, TRN_STATE_WITHIN);
  assert_value (f, 15.5, 16);
  f = reach (&run, "crane", "boom-angle");
  TEST_PASSES (f, TRN_STATE_WITHIN);
  g_assert_cmpint (f->unit, ==, TRN_UNIT_DEG);
  assert_value (f, acos (15.5 / 20) * 180 / G_PI, 30);
  test_run_clear (&run);

  t = crane_out ("6.5");
  run = test_gear_run (&t);
  f = reach (&run, "crane", "radius");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  assert_value (f, 16.5, 16);
  g_assert_cmpint (run.findings->verdict, ==, TRN_VERDICT_FAIL);
  test_run_clear (&run);

  t = crane_out ("6");
  run = test_gear_run (&t);
  TEST_PASSES (reach (&run, "crane", "radius"), TRN_STATE_WITHIN);
  test_run_clear (&run);

  t = crane_out ("-6.5");
  run = test_gear_run (&t);
  f = reach (&run, "crane", "radius");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  assert_value (f, 3.5, 4);
  test_run_clear (&run);
}

/* Toward the radius 3 the boom rises to arccos (3/20) = 81.4°, above its 80°. */
static void
test_boom_angle (void)
{
  TestGear t = crane_out ("-7");
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = reach (&run, "crane", "boom-angle");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  assert_value (f, acos (3.0 / 20) * 180 / G_PI, 80);
  test_run_clear (&run);

  /* To the radius 17.3 it is 30.12°; a hook that is off by 0.03 m outwards takes it to 29.95°. */
  t = crane_out ("7.3");
  run = test_gear_run (&t);
  TEST_PASSES (reach (&run, "crane", "boom-angle"), TRN_STATE_WITHIN);
  test_run_clear (&run);
  t.lift = "'tolerance': {'position': 0.03},";
  run = test_gear_run (&t);
  f = reach (&run, "crane", "boom-angle");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  double off = (acos (17.3 / 20) - acos (17.33 / 20)) * 180 / G_PI;
  test_assert_between (f->allowance_m, off, 1e-3, 1e-3);
  test_run_clear (&run);
}

/* A boom of 20 m does not reach 21 m: reach says so, headroom and the clearance of the boom are not
 * known for want of it. */
static void
test_out_of_reach (void)
{
  TestGear t = crane_out ("11");
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = reach (&run, "crane", "boom-angle");
  TEST_FAILS (f, TRN_STATE_OUT_OF_REACH);
  test_assert_between (f->progress, 10.0 / 11, 0.1, 0.1);
  TEST_FAILS (reach (&run, "crane", "radius"), TRN_STATE_OUTSIDE);
  TEST_UNKNOWN (test_finding_of (&run, TRN_CHECK_HEADROOM, 0, 0, "crane", NULL, NULL), "reach");
  TEST_UNKNOWN (test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "crane/boom", "slab", NULL),
                "reach");
  test_run_clear (&run);
}

static void
test_missing (void)
{
  TestGear t = crane_out ("1");
  t.gear = "{'id': 'crane', 'kind': 'crane', 'at': {'position': [0, 0, 0]}, 'boom': {'foot': [0,"
           " 2], 'length': 20, 'section': [0.6, 0.8]}, 'hook_to_tip': 3}";
  TestRun run = test_gear_run (&t);
  TEST_UNKNOWN (reach (&run, "crane", "radius"), "capacity");
  TEST_UNKNOWN (reach (&run, "crane", "boom-angle"), "boom/angle");
  test_run_clear (&run);
}

/* ---- gantry ---- */

#define GANTRY(window)                                                                             \
  "{'id': 'tower', 'kind': 'gantry', 'at': {'position': [10, 0, 0], 'turn': [90, 0, 0]}, 'legs':"  \
  " [{'at': [-6, -6], 'size': [0.5, 0.5], 'height': 20}], 'header': {'length': 14, 'width': 0.5,"  \
  " 'depth': 1, 'underside': 20}, 'trolley': {'size': [1, 1, 0.6], 'underside': 21}" window "}"

/* Heading 90°: local X is north, local Y west. 2 m north and 3 m west, then the hook is at (2, 3)
 * of a window of ±2.5 and ±3.5; one of ±2.5 and ±2.9 is passed by 0.1 m. Lowest hook 2.5 m, it is
 * at 3 m: half a metre. */
static void
test_window (void)
{
  TestGear t = { .gear = GANTRY (", 'window': {'x': [-2.5, 2.5], 'y': [-3.5, 3.5], 'hook': [2.5,"
                                 " 18]}"),
                 .structures = SLAB,
                 .rigging = "{'main': {'gear': 'tower', 'hook_above': 1}}",
                 .moves = "{'do': 'travel', 'by': [-3, 2], 'seconds': 60}" };
  TestRun run = test_gear_run (&t);
  const TrnFinding *x = reach (&run, "tower", "hook-window-x");
  const TrnFinding *y = reach (&run, "tower", "hook-window-y");
  TEST_PASSES (x, TRN_STATE_WITHIN);
  TEST_PASSES (y, TRN_STATE_WITHIN);
  assert_value (x, 2, 2.5);
  assert_value (y, 3, 3.5);
  const TrnFinding *low = reach (&run, "tower", "hook-low");
  TEST_PASSES (low, TRN_STATE_WITHIN);
  assert_value (low, 3, 2.5);
  test_run_clear (&run);

  t.gear = GANTRY (", 'window': {'x': [-2.5, 2.5], 'y': [-2.9, 2.9], 'hook': [3.5, 18]}");
  run = test_gear_run (&t);
  y = reach (&run, "tower", "hook-window-y");
  TEST_FAILS (y, TRN_STATE_OUTSIDE);
  assert_value (y, 3, 2.9);
  TEST_FAILS (reach (&run, "tower", "hook-low"), TRN_STATE_OUTSIDE);
  test_run_clear (&run);

  t.gear = GANTRY (", 'window': {'x': [-2.5, 2.5]}");
  run = test_gear_run (&t);
  TEST_UNKNOWN (reach (&run, "tower", "hook-window-y"), "window/y");
  TEST_UNKNOWN (reach (&run, "tower", "hook-low"), "window/hook");
  test_run_clear (&run);
}

/* ---- tail gear ---- */

#define TOWER GANTRY (", 'window': {'x': [-9, 9], 'y': [-9, 9], 'hook': [0, 18]}")
/* The tail point is 0.8 m up at [5, 0], where the trolley stands at first. */
#define TROLLEY(track)                                                                             \
  "{'id': 'tailer', 'kind': 'tail-trolley', 'at': {'position': [5, 0, 0]}, 'size': [1, 1, "        \
  "0.8]" track "}"

/* A beam of 8 m lies 0.6 m up from x = 6 to 14, its head at 14 and its tail at 6. Two-hook
 * up-ending by 60° takes the head up its plumb and the tail level toward it, to 14 − 8 cos 60°
 * = 10. */
static TestGear
up_ending (const char *gear)
{
  return (TestGear){ .gear = gear,
                     .structures = SLAB,
                     .solid = "{'kind': 'box', 'size': [8, 0.4, 0.4]}",
                     .at = "[10, 0, 0.6]",
                     .hook = "[4, 0, 0.2]",
                     .rigging = "{'main': {'gear': 'tower', 'hook_above': 1}, 'tail': {'gear':"
                                " 'tailer', 'point': [-4, 0, 0.2]}}",
                     .moves = "{'do': 'tilt', 'by': -60, 'axis': 90, 'guide': 'head-plumb', 'head':"
                              " [4, 0, 0.2], 'tail': [-4, 0, 0.2], 'seconds': 60}" };
}

/* Seen from [5, 0] the tail goes from 1 to 5 m: on a track to 5.5 m half a metre is left, on one to
 * 4 m a metre is missing. */
static void
test_track (void)
{
  TestGear t = up_ending (TOWER ", " TROLLEY (", 'track': [0, 5.5]"));
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = reach (&run, "tailer", "track");
  TEST_PASSES (f, TRN_STATE_WITHIN);
  assert_value (f, 5, 5.5);
  TEST_PASSES (reach (&run, "tailer", "track-side"), TRN_STATE_WITHIN);
  TEST_PASSES (reach (&run, "tailer", "level"), TRN_STATE_WITHIN);
  test_run_clear (&run);

  t.gear = TOWER ", " TROLLEY (", 'track': [0, 4]");
  run = test_gear_run (&t);
  f = reach (&run, "tailer", "track");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  assert_value (f, 5, 4);
  test_run_clear (&run);

  t.gear = TOWER ", " TROLLEY ("");
  run = test_gear_run (&t);
  TEST_UNKNOWN (reach (&run, "tailer", "track"), "track");
  test_run_clear (&run);

  /* Beside its track by 0.1 m, and 0.1 m too low. */
  t.gear = TOWER ", {'id': 'tailer', 'kind': 'tail-trolley', 'at': {'position': [5, 0.1, -0.1]},"
                 " 'size': [1, 1, 0.8], 'track': [0, 9]}";
  run = test_gear_run (&t);
  TEST_FAILS (reach (&run, "tailer", "track-side"), TRN_STATE_OUTSIDE);
  TEST_FAILS (reach (&run, "tailer", "level"), TRN_STATE_OUTSIDE);
  test_run_clear (&run);
}

/* Tilted about the pivot itself the tail stays in it; with a carry of 0.1 m it leaves it. */
static void
test_pivot (void)
{
  TestGear t = up_ending (TOWER ", {'id': 'tailer', 'kind': 'turning-frame', 'at': {'position': [6,"
                                " 0, 0]}, 'pivot': 0.8, 'size': [0.3, 1, 1], 'spacing': 2}");
  t.moves = "{'do': 'tilt', 'by': -60, 'axis': 90, 'about': [-4, 0, 0.2], 'seconds': 60}";
  TestRun run = test_gear_run (&t);
  TEST_PASSES (reach (&run, "tailer", "pivot"), TRN_STATE_WITHIN);
  test_run_clear (&run);
  t.moves = "{'do': 'tilt', 'by': -60, 'axis': 90, 'about': [-4, 0, 0.2], 'carry': [0.1, 0, 0],"
            " 'seconds': 60}";
  run = test_gear_run (&t);
  const TrnFinding *f = reach (&run, "tailer", "pivot");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  assert_value (f, 0.1, 0.005);
  test_run_clear (&run);
}

/* ---- slings ---- */

static const TrnFinding *
sling (const TestRun *run, const char *id)
{
  return test_finding_of (run, TRN_CHECK_RIGGING, 0, 0, id, NULL, NULL);
}

/* A leg from a hook 2 m above the middle of the top to a point 1 m beside that: √5 m. A turn about
 * the plumb leaves it so; a tilt by 30° about the hook point takes one leg to √(5 + 4 sin 30°) = √7
 * and another to √3. */
static void
test_slings (void)
{
  TestGear t = { .gear = GEAR_CRANE (""),
                 .structures = SLAB,
                 .rigging = "{'main': {'gear': 'crane', 'hook_above': 2, 'slings': [{'id': 'east',"
                            " 'to': [1, 0, 2], 'diameter': 0.02}, {'id': 'west', 'to': [-1, 0, 2],"
                            " 'diameter': 0.02}]}}",
                 .moves = "{'do': 'turn', 'by': 90, 'seconds': 60}" };
  TestRun run = test_gear_run (&t);
  TEST_PASSES (sling (&run, "east"), TRN_STATE_WITHIN);
  test_assert_between (sling (&run, "east")->limit, sqrt (5), NEAR, NEAR);
  test_run_clear (&run);

  t.moves = "{'do': 'tilt', 'by': 30, 'axis': 90, 'seconds': 60}";
  t.at = "[10, 0, 1]";
  run = test_gear_run (&t);
  TEST_FAILS (sling (&run, "east"), TRN_STATE_OUTSIDE);
  TEST_FAILS (sling (&run, "west"), TRN_STATE_OUTSIDE);
  assert_value (sling (&run, "east"), sqrt (7), sqrt (5));
  assert_value (sling (&run, "west"), sqrt (3), sqrt (5));
  test_run_clear (&run);
}

/* A leg that is said to be 1 % longer than from hook to point. */
static void
test_sling_length (void)
{
  TestGear t = { .gear = GEAR_CRANE (""),
                 .structures = SLAB,
                 .rigging = "{'main': {'gear': 'crane', 'hook_above': 2, 'slings': [{'id': 'east',"
                            " 'to': [1, 0, 2], 'diameter': 0.02, 'length': 2.2584}]}}",
                 .moves = "{'do': 'wait', 'seconds': 60}" };
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = sling (&run, "east");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  assert_value (f, sqrt (5), 2.2584);
  test_run_clear (&run);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/reach/radius", test_radius);
  g_test_add_func ("/checks/reach/boom-angle", test_boom_angle);
  g_test_add_func ("/checks/reach/out-of-reach", test_out_of_reach);
  g_test_add_func ("/checks/reach/missing", test_missing);
  g_test_add_func ("/checks/reach/window", test_window);
  g_test_add_func ("/checks/reach/track", test_track);
  g_test_add_func ("/checks/reach/pivot", test_pivot);
  g_test_add_func ("/checks/rigging/slings", test_slings);
  g_test_add_func ("/checks/rigging/length", test_sling_length);
  return g_test_run ();
}
