/* Where gear is, against numbers worked out by hand. */
#include "test-rig.h"

#define NEAR 1e-12

static void
assert_value (const TestRig *t, TrnRigQuantity quantity, double expected)
{
  double found = test_rig_value (t, quantity, 1, 0.5, 0);
  if (!(fabs (found - expected) <= NEAR))
    g_error ("quantity %d is %.17g, not %.17g", quantity, found, expected);
}

#define CRANE(more)                                                                                \
  "{'id': 'crane', 'kind': 'crane', 'at': {'position': [100, 50, 10], 'turn': [90, 0, 0]},"        \
  " 'carrier': {'size': [8, 3, 1.5], 'centre': [1, 0]},"                                           \
  " 'boom': {'foot': [1, 2], 'length': 50, 'section': [0.6, 0.8]}," more                           \
  " 'counterweight': {'tail_radius': 5, 'bottom': 1, 'top': 2.5, 'width': 6}}"

#define MAIN "'main': {'gear': 'crane', 'hook_above': 4}"

/* Boom 50, hook 41 from the axis, so 40 from the foot, which is 1 out: 3-4-5, the tip is 30 above
 * the foot, and that is 2 above the base at 10: 42. The load is in (100 + 41·0.6, 50 + 41·0.8): the
 * direction of a 3-4-5 triangle again. */
static void
test_boom (void)
{
  TestRig t;
  test_rig_wait (&t, 100 + 24.6, 50 + 32.8, 5);
  test_rig_build (&t, CRANE (""), MAIN);
  assert_value (&t, TRN_RIG_RADIUS, 41);
  assert_value (&t, TRN_RIG_TIP_HEIGHT, 42);
  assert_value (&t, TRN_RIG_HOOK_HEIGHT, 9);
  assert_value (&t, TRN_RIG_TIP_ABOVE_HOOK, 33);
  assert_value (&t, TRN_RIG_BOOM_ANGLE, acos (0.8));
  assert_value (&t, TRN_RIG_HOOK_X, 124.6);
  assert_value (&t, TRN_RIG_HOOK_Y, 82.8);
  /* Heading 90: local X is +Y, local Y is −X. The boom points atan (4/3) from +X, less 90°. */
  assert_value (&t, TRN_RIG_HOOK_LOCAL_X, 32.8);
  assert_value (&t, TRN_RIG_HOOK_LOCAL_Y, -24.6);
  assert_value (&t, TRN_RIG_HOOK_LOCAL_HEIGHT, -1);
  assert_value (&t, TRN_RIG_SLEW, atan2 (0.8, 0.6) - G_PI / 2);
  test_assert_near (test_rig_corner (&t, "crane/boom", 0, 1, 0.3), 100.6, 50.8, 12, NEAR);
  test_assert_near (test_rig_corner (&t, "crane/boom", 1, 1, 0.3), 124.6, 82.8, 42, NEAR);
  /* The rope is plumb, from the hook to the tip. */
  test_assert_near (test_rig_corner (&t, "crane/rope", 0, 2, 1), 124.6, 82.8, 9, NEAR);
  test_assert_near (test_rig_corner (&t, "crane/rope", 1, 2, 1), 124.6, 82.8, 42, NEAR);
  const TrnRigBody *boom = &t.rig->bodies[test_rig_body (&t, "crane/boom")];
  g_assert_cmpfloat_with_epsilon (boom->radius_m, 0.5, 1e-9);
  g_assert_cmpfloat (t.rig->bodies[test_rig_body (&t, "crane/rope")].radius_m, ==, 0.015);
  g_assert_true (isnan (test_rig_value (&t, TRN_RIG_POINT_OFF, 0, 0, 0)));
  g_assert_true (isnan (test_rig_value (&t, TRN_RIG_SLING_LENGTH, 0, 0, 0)));
  test_rig_clear (&t);
}

/* The counterweight: 5 from the axis behind it, 3 to each side: the arc begins at (−4, ±3), a
 * 3-4-5 triangle. No corner is farther out than R/cos δ with δ a fifth of asin 0.6, 42 mm over, and
 * the outline holds the arc: its support in every direction behind is no less than that of the arc.
 */
static void
test_counterweight (void)
{
  TestRig t;
  test_rig_wait (&t, 100 + 41, 50, 5);
  test_rig_build (&t, CRANE (""), MAIN);
  TrnVec3 c[TRN_LIMB_CORNERS];
  double farthest = 0, alpha = asin (0.6);
  for (guint i = 0; i < TRN_LIMB_CORNERS; i++)
    {
      c[i] = test_rig_corner (&t, "crane/counterweight", i, 0, 0);
      farthest = fmax (farthest, hypot (c[i].x - 100, c[i].y - 50));
      g_assert_cmpfloat (c[i].z, ==, i < TRN_LIMB_CORNERS / 2 ? 11 : 12.5);
      g_assert_true (c[i].x <= 100 + 1e-9 && fabs (c[i].y - 50) <= 3 + 1e-9);
    }
  g_assert_cmpfloat_with_epsilon (farthest, 5 / cos (alpha / 5), 1e-9);
  g_assert_cmpfloat (farthest, <, 5.042);
  for (guint k = 0; k <= 1000; k++)
    {
      double at = -alpha + 2 * alpha * k / 1000, support = 0;
      for (guint i = 0; i < TRN_LIMB_CORNERS; i++)
        support = fmax (support, (100 - c[i].x) * cos (at) + (c[i].y - 50) * sin (at));
      g_assert_cmpfloat (support, >=, 5);
    }
  double side = (5 - 3 * sin (0.8 * alpha)) / cos (0.8 * alpha);
  g_assert_cmpfloat (side, <, 4.05);
  test_assert_near (c[2], 100 - side, 47, 11, 1e-9);
  test_assert_near (c[3], 100 - side, 53, 11, 1e-9);
  test_assert_near (c[0], 100, 47, 11, 1e-9);
  test_rig_clear (&t);
}

/* Boom 40, jib 30 turned down by 90°: foot to tip is 50, the boom atan (3/4) above that line. With
 * the foot on the axis and the hook 40 out the line rises 30: its angle is atan (3/4) as well, so
 * the boom is at 2 atan (3/4): cos 7/25, sin 24/25. Knee at 40·(7/25, 24/25) = (11.2, 38.4). */
static void
test_jib (void)
{
  TestRig t;
  test_rig_wait (&t, 140, 50, 5);
  test_rig_build (&t,
                  "{'id': 'crane', 'kind': 'crane', 'at': {'position': [100, 50, 10]}, 'boom':"
                  " {'foot': [0, 2], 'length': 40, 'section': [1, 1]},"
                  " 'jib': {'length': 30, 'offset': 90, 'section': [0.3, 0.4]}}",
                  MAIN);
  assert_value (&t, TRN_RIG_BOOM_ANGLE, 2 * atan (0.75));
  assert_value (&t, TRN_RIG_TIP_HEIGHT, 42);
  test_assert_near (test_rig_corner (&t, "crane/boom", 0, 0, 0), 100, 50, 12, NEAR);
  test_assert_near (test_rig_corner (&t, "crane/boom", 1, 0, 0), 111.2, 50, 50.4, NEAR);
  test_assert_near (test_rig_corner (&t, "crane/jib", 0, 0, 0), 111.2, 50, 50.4, NEAR);
  test_assert_near (test_rig_corner (&t, "crane/jib", 1, 0, 0), 140, 50, 42, NEAR);
  g_assert_cmpfloat_with_epsilon (t.rig->bodies[test_rig_body (&t, "crane/jib")].radius_m, 0.25,
                                  1e-9);
  test_rig_clear (&t);
}

/* 50.9 from the foot of a boom of 50: no place for the upper works, no angle; but a radius. And
 * right over the axis the boom points nowhere. */
static void
test_beyond_reach (void)
{
  static const char *const parts[] = { "crane/boom", "crane/rope", "crane/counterweight" };
  TrnJet3 corners[TRN_LIMB_CORNERS];
  TestRig t;
  test_rig_wait (&t, 151.9, 50, 5);
  test_rig_build (&t, CRANE (""), MAIN);
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      g_assert_false (test_rig_corners (&t, parts[i], 0, trn_interval_point (0), corners));
      g_assert_true (isnan (trn_rig_tolerance (t.rig, test_rig_body (&t, parts[i]), 0, 0.1)));
    }
  assert_value (&t, TRN_RIG_RADIUS, 51.9);
  g_assert_true (isnan (test_rig_value (&t, TRN_RIG_BOOM_ANGLE, 0, 0, 0)));
  g_assert_true (isnan (test_rig_value (&t, TRN_RIG_TIP_HEIGHT, 0, 0, 0)));
  test_rig_clear (&t);
  test_rig_wait (&t, 100, 50, 5);
  test_rig_build (&t, CRANE (""), MAIN);
  g_assert_false (test_rig_corners (&t, "crane/boom", 0, trn_interval_point (0), corners));
  assert_value (&t, TRN_RIG_RADIUS, 0);
  test_rig_clear (&t);
}

/* Parked: the hook hangs at (20, 0, 3) of its frame, that is (100, 70, 13); u = 19. Without a park
 * it is nowhere. */
static void
test_parked (void)
{
  TrnJet3 corners[TRN_LIMB_CORNERS];
  TestRig t;
  test_rig_wait (&t, 0, 0, 0);
  test_rig_build (&t, CRANE ("'park': [20, 0, 3],"), "");
  test_assert_near (test_rig_corner (&t, "crane/boom", 0, 0, 0), 100, 51, 12, NEAR);
  test_assert_near (test_rig_corner (&t, "crane/boom", 1, 2, 0.7), 100, 70, 12 + sqrt (2500 - 361),
                    NEAR);
  test_assert_near (test_rig_corner (&t, "crane/rope", 0, 2, 0.7), 100, 70, 13, NEAR);
  g_assert_cmpfloat (trn_rig_tolerance (t.rig, test_rig_body (&t, "crane/boom"), 0, 0.1), ==, 0);
  test_rig_clear (&t);
  test_rig_build (&t, CRANE (""), "");
  g_assert_false (test_rig_corners (&t, "crane/boom", 0, trn_interval_point (0), corners));
  g_assert_cmpuint (t.rig->n_bodies, ==, 3);
  test_rig_clear (&t);
}

#define SLINGS                                                                                     \
  "'slings': [{'id': 'leg-1', 'to': 'east', 'diameter': 0.04, 'length': 2.5},"                     \
  " {'id': 'leg-2', 'to': 'west', 'diameter': 0.04}]"

/* The hook's height is left out: a sling of 2.5 to a point 2 off: 1.5 above; both legs are 2.5. */
static void
test_slings (void)
{
  TestRig t;
  test_rig_wait (&t, 130, 50, 5);
  test_rig_build (&t, CRANE (""), "'main': {'gear': 'crane', 'moves': [1, 1], " SLINGS "}");
  assert_value (&t, TRN_RIG_HOOK_HEIGHT, 6.5);
  g_assert_cmpfloat_with_epsilon (test_rig_value (&t, TRN_RIG_SLING_LENGTH, 1, 0, 0), 2.5, NEAR);
  g_assert_cmpfloat_with_epsilon (test_rig_value (&t, TRN_RIG_SLING_LENGTH, 1, 0, 1), 2.5, NEAR);
  test_assert_near (test_rig_corner (&t, "leg-2", 0, 1, 0), 130, 50, 6.5, NEAR);
  test_assert_near (test_rig_corner (&t, "leg-2", 1, 1, 0), 128, 50, 5, NEAR);
  /* It is there in its moves only. */
  TrnJet3 corners[TRN_LIMB_CORNERS];
  g_assert_false (test_rig_corners (&t, "leg-2", 0, trn_interval_point (0), corners));
  g_assert_false (test_rig_corners (&t, "leg-2", 2, trn_interval_point (0), corners));
  g_assert_null (trn_rig_missing (t.rig, &t.plan->lifts[0].rigging.main, TRN_RIG_HOOK_HEIGHT));
  test_rig_clear (&t);
  /* A leg of 14 to a point 10 below the hook's: the hook is 4 above its own. Too short a leg gives
   * it no place. */
  test_rig_build (&t, CRANE (""),
                  "'main': {'gear': 'crane', 'slings': [{'id': 'long', 'to': 'tail', 'diameter':"
                  " 0.04, 'length': 14}]}");
  assert_value (&t, TRN_RIG_HOOK_HEIGHT, 9);
  assert_value (&t, TRN_RIG_SLING_LENGTH, 14);
  test_rig_clear (&t);
  test_rig_build (&t, CRANE (""),
                  "'main': {'gear': 'crane', 'slings': [{'id': 'short', 'to': 'east', 'diameter':"
                  " 0.04, 'length': 1.5}]}");
  g_assert_true (isnan (test_rig_value (&t, TRN_RIG_HOOK_HEIGHT, 1, 0, 0)));
  g_assert_null (trn_rig_missing (t.rig, &t.plan->lifts[0].rigging.main, TRN_RIG_HOOK_HEIGHT));
  test_rig_clear (&t);
}

/* A beam 6 long, 2 below the hook, over east and west of a load turned by 90°: its ends lie along
 * ±Y. From its ends slings of √(1² + 4²) go down to the points, 2 off the middle. */
static void
test_beam (void)
{
  TestRig t;
  TrnPlacement at = { .position = { 130, 50, 5 }, .heading_rad = G_PI / 2 };
  TrnPose start = trn_pose_make (&at);
  for (guint i = 0; i < TEST_MOVES; i++)
    t.motions[i] = trn_motion_make_wait (&start, 1);
  test_rig_build (&t, CRANE (""),
                  "'main': {'gear': 'crane', 'hook_above': 6, 'block': {'diameter': 2, 'height':"
                  " 3}, 'beam': {'id': 'bar', 'length': 6, 'width': 0.3, 'depth': 0.4,"
                  " 'below_hook': 2, 'between': ['east', 'west']}, 'slings':"
                  " [{'id': 'top', 'to': 'beam-a', 'diameter': 0.04},"
                  "  {'id': 'low', 'from': 'beam-b', 'to': 'west', 'diameter': 0.04}]}");
  test_assert_near (test_rig_corner (&t, "bar", 0, 0, 0), 130, 53, 9, NEAR);
  test_assert_near (test_rig_corner (&t, "bar", 1, 0, 0), 130, 47, 9, NEAR);
  test_assert_near (test_rig_corner (&t, "top", 0, 0, 0), 130, 50, 11, NEAR);
  test_assert_near (test_rig_corner (&t, "top", 1, 0, 0), 130, 53, 9, NEAR);
  test_assert_near (test_rig_corner (&t, "low", 0, 0, 0), 130, 47, 9, NEAR);
  test_assert_near (test_rig_corner (&t, "low", 1, 0, 0), 130, 48, 5, NEAR);
  g_assert_cmpfloat_with_epsilon (test_rig_value (&t, TRN_RIG_SLING_LENGTH, 0, 0, 0), sqrt (13),
                                  NEAR);
  g_assert_cmpfloat_with_epsilon (test_rig_value (&t, TRN_RIG_SLING_LENGTH, 0, 0, 1), sqrt (17),
                                  NEAR);
  /* The rope begins above the block, which is an octagon about its circle, from the hook upwards.
   */
  test_assert_near (test_rig_corner (&t, "crane/rope", 0, 0, 0), 130, 50, 14, NEAR);
  for (guint i = 0; i < TRN_LIMB_CORNERS; i++)
    {
      TrnVec3 c = test_rig_corner (&t, "crane/block", i, 0, 0);
      TrnVec3 next = test_rig_corner (&t, "crane/block", i < 8 ? (i + 1) % 8 : i, 0, 0);
      g_assert_cmpfloat_with_epsilon (c.z, i < 8 ? 11 : 14, NEAR);
      g_assert_cmpfloat (hypot ((c.x + next.x) / 2 - 130, (c.y + next.y) / 2 - 50), >=, 1);
    }
  test_rig_clear (&t);
}

#define GANTRY                                                                                     \
  "{'id': 'tower', 'kind': 'gantry', 'at': {'position': [10, 20, 1], 'turn': [90, 0, 0]},"         \
  " 'legs': [{'at': [-6, 0], 'size': [1, 2], 'height': 15}, {'at': [6, 0], 'size': [1, 2],"        \
  " 'height': 15}], 'runways': [{'from': [-6, -5, 15.5], 'to': [-6, 5, 15.5], 'width': 0.5,"       \
  " 'depth': 1}], 'header': {'length': 14, 'width': 0.8, 'depth': 1.2, 'underside': 16,"           \
  " 'spacing': 3}, 'trolley': {'size': [2, 4, 1], 'underside': 17.5},"                             \
  " 'window': {'x': [-4, 4], 'y': [-3, 5]}}"

/* Local X is +Y of the site, local Y is −X. The load at (8, 23): local (3, 2). Headers along X at
 * y = 2 ± 1.5, trolley over the hook. Heights from the base at 1. */
static void
test_gantry (void)
{
  TestRig t;
  test_rig_wait (&t, 8, 23, 4);
  test_rig_build (&t, GANTRY, "'main': {'gear': 'tower', 'hook_above': 2}");
  assert_value (&t, TRN_RIG_HOOK_LOCAL_X, 3);
  assert_value (&t, TRN_RIG_HOOK_LOCAL_Y, 2);
  assert_value (&t, TRN_RIG_HOOK_LOCAL_HEIGHT, 5);
  assert_value (&t, TRN_RIG_TIP_HEIGHT, 18.5);
  assert_value (&t, TRN_RIG_TIP_ABOVE_HOOK, 12.5);
  g_assert_true (isnan (test_rig_value (&t, TRN_RIG_RADIUS, 0, 0, 0)));
  /* Header 1: local (±7, 0.5 ± 0.4, 16 … 17.2): site x = 10 − y, y = 20 + x. */
  test_assert_near (test_rig_corner (&t, "tower/header-1", 0, 0, 0), 9.9, 13, 17, NEAR);
  test_assert_near (test_rig_corner (&t, "tower/header-1", 7, 0, 0), 9.1, 27, 18.2, NEAR);
  test_assert_near (test_rig_corner (&t, "tower/header-2", 0, 0, 0), 6.9, 13, 17, NEAR);
  test_assert_near (test_rig_corner (&t, "tower/trolley", 0, 0, 0), 10, 22, 18.5, NEAR);
  test_assert_near (test_rig_corner (&t, "tower/trolley", 7, 0, 0), 6, 24, 19.5, NEAR);
  test_assert_near (test_rig_corner (&t, "tower/rope", 0, 0, 0), 8, 23, 6, NEAR);
  test_assert_near (test_rig_corner (&t, "tower/rope", 1, 0, 0), 8, 23, 18.5, NEAR);
  g_assert_cmpfloat (trn_rig_tolerance (t.rig, test_rig_body (&t, "tower/trolley"), 0, 0.1), ==,
                     0.1);
  test_rig_clear (&t);
  /* Not used: at the middle of its window, (0, 1): headers at y = 1 ± 1.5, without rope. */
  test_rig_build (&t, GANTRY, "");
  test_assert_near (test_rig_corner (&t, "tower/header-1", 0, 0, 0), 10.9, 13, 17, NEAR);
  test_assert_near (test_rig_corner (&t, "tower/trolley", 0, 0, 0), 11, 19, 18.5, NEAR);
  g_assert_cmpuint (t.rig->n_bodies, ==, 3);
  test_rig_clear (&t);
}

static void
assert_part (const TrnSolid *group, guint index, const char *id, double x, double y)
{
  g_assert_cmpstr (group->parts[index].id, ==, id);
  test_assert_near (group->parts[index].at.position, x, y, 0, 0);
}

static void
assert_buildable (const TrnSolid *solid)
{
  g_assert_true (trn_solid_check (solid, NULL, NULL));
  g_autoptr (GPtrArray) parts = trn_solid_build (solid, TRN_SOLID_LEAST_DEVIATION_M);
  g_assert_cmpuint (parts->len, ==, solid->n_parts);
}

/* What stands: legs and runways, the carrier, the cheeks; nothing of a tail trolley. */
static void
test_standing (void)
{
  TestRig t;
  test_rig_wait (&t, 0, 0, 0);
  test_rig_build (&t,
                  GANTRY "," CRANE (
                      "") ",{'id': 'bogie', 'kind': 'tail-trolley', 'at': {'position': [0, 0, 0]},"
                          " 'size': [2, 1, 0.5]}, {'id': 'frame', 'kind': 'turning-frame', 'at':"
                          " {'position': [0, 0, 0]}, 'pivot': 2, 'size': [0.5, 2, 3],"
                          " 'spacing': 4}",
                  "");
  const TrnGear *gear = t.plan->gear;
  g_autoptr (TrnSolid) gantry = trn_gear_solid_new (&gear[0]);
  g_autoptr (TrnSolid) crane = trn_gear_solid_new (&gear[1]);
  g_autoptr (TrnSolid) frame = trn_gear_solid_new (&gear[3]);
  g_assert_null (trn_gear_solid_new (&gear[2]));
  g_assert_cmpuint (gantry->n_parts, ==, 3);
  assert_part (gantry, 0, "leg-1", -6, 0);
  assert_part (gantry, 1, "leg-2", 6, 0);
  assert_part (gantry, 2, "runway-1", 0, 0);
  test_assert_near (gantry->parts[1].solid->size, 1, 2, 15, 0);
  test_assert_near (gantry->parts[2].solid->to, -6, 5, 15.5, 0);
  assert_part (crane, 0, "carrier", 1, 0);
  test_assert_near (crane->parts[0].solid->size, 8, 3, 1.5, 0);
  assert_part (frame, 0, "cheek-1", -2, 0);
  assert_part (frame, 1, "cheek-2", 2, 0);
  test_assert_near (frame->parts[1].solid->size, 0.5, 2, 3, 0);
  assert_buildable (gantry);
  assert_buildable (crane);
  assert_buildable (frame);
  test_rig_clear (&t);
}

/* The tail point on the middle of the top of a trolley at heading 90; idle, in the middle of its
 * track. A turning frame: the point (0, 3, 6) of a load at (0, 0, 16) is 5 from the pivot. */
static void
test_tail_gear (void)
{
  static const char *const bogie
      = "{'id': 'bogie', 'kind': 'tail-trolley', 'at': {'position': [5, 5, 1], 'turn': [90, 0, 0]},"
        " 'size': [2, 1, 0.5], 'track': [2, 8]},"
        "{'id': 'frame', 'kind': 'turning-frame', 'at': {'position': [0, -3, 0]}, 'pivot': 2,"
        " 'size': [0.5, 2, 3], 'spacing': 4}";
  TestRig t;
  test_rig_wait (&t, 0, 0, 16);
  test_rig_build (&t, bogie, "'tail': {'gear': 'bogie', 'point': 'tail'}");
  test_assert_near (test_rig_corner (&t, "bogie/trolley", 0, 0, 0), 0.5, -1, 5.5, NEAR);
  test_assert_near (test_rig_corner (&t, "bogie/trolley", 7, 0, 0), -0.5, 1, 6, NEAR);
  test_rig_clear (&t);
  test_rig_build (&t, bogie, "'tail': {'gear': 'frame', 'point': 'tail'}");
  test_assert_near (test_rig_corner (&t, "bogie/trolley", 0, 0, 0), 5.5, 9, 1, NEAR);
  TrnRigQuestion q = { t.rig, &t.plan->lifts[0].rigging.tail, TRN_RIG_POINT_OFF, 0, 0 };
  TrnJet value;
  g_assert_true (trn_rig_ask (&q, trn_interval_point (0), &value));
  g_assert_cmpfloat_with_epsilon (trn_interval_middle (value.v), 5, NEAR);
  test_rig_clear (&t);
  /* In the pivot: 0, with no derivative there. */
  test_rig_wait (&t, 0, -3, 12);
  test_rig_build (&t, bogie, "'tail': {'gear': 'frame', 'point': 'tail'}");
  q.rig = t.rig;
  q.hoist = &t.plan->lifts[0].rigging.tail;
  g_assert_true (trn_rig_ask (&q, (TrnInterval){ 0, 1 }, &value));
  g_assert_true (value.v.lo == 0 && value.v.hi < 1e-14);
  test_rig_clear (&t);
}

/* A whole turn and a half about the crane: the slew goes on evenly from where it begins, whatever
 * atan2 says, with 3π for a slope and no bend. */
static void
test_slew_goes_on (void)
{
  TestRig t;
  test_rig_wait (&t, 120, 50, 0);
  g_assert_true (trn_motion_make_slew (&t.motions[0].start, 1, trn_vec3_make (0, 0, 0), 100, 50,
                                       3 * G_PI, TRUE, 5, 2, &t.motions[1]));
  test_rig_build (&t, CRANE (""), MAIN);
  for (guint i = 0; i <= 20; i++)
    g_assert_cmpfloat_with_epsilon (test_rig_value (&t, TRN_RIG_SLEW, 1, i / 20.0, 0),
                                    -G_PI / 2 + 3 * G_PI * i / 20, NEAR);
  TrnRigQuestion q = { t.rig, &t.plan->lifts[0].rigging.main, TRN_RIG_SLEW, 1, 0 };
  TrnJet value;
  g_assert_true (trn_rig_ask (&q, (TrnInterval){ 0.25, 0.75 }, &value));
  g_assert_true (value.v.lo <= G_PI / 4 && value.v.hi >= 7 * G_PI / 4);
  g_assert_true (value.d.lo <= 3 * G_PI && value.d.hi >= 3 * G_PI);
  g_assert_true (value.dd.lo <= 0 && value.dd.hi >= 0);
  g_assert_true (trn_rig_ask (&q, (TrnInterval){ 0.5, 0.5 + 1e-6 }, &value));
  g_assert_cmpfloat_with_epsilon (value.d.lo, 3 * G_PI, 1e-3);
  g_assert_cmpfloat_with_epsilon (value.dd.hi, 0, 1e-2);
  test_rig_clear (&t);
}

/* What is left out is named; what needs no height of the hook has a value all the same. */
static void
test_missing (void)
{
  TestRig t;
  test_rig_wait (&t, 130, 50, 5);
  test_rig_build (&t, CRANE (""), "'main': {'gear': 'crane'}, 'tail': {'point': 'tail'}");
  const TrnRigging *rigging = &t.plan->lifts[0].rigging;
  TrnJet3 corners[TRN_LIMB_CORNERS];
  g_assert_cmpstr (trn_rig_missing (t.rig, &rigging->main, TRN_RIG_HOOK_HEIGHT), ==, "hook_above");
  g_assert_cmpstr (trn_rig_missing (t.rig, &rigging->main, TRN_RIG_TIP_ABOVE_HOOK), ==,
                   "hook_above");
  g_assert_null (trn_rig_missing (t.rig, &rigging->main, TRN_RIG_RADIUS));
  g_assert_null (trn_rig_missing (t.rig, &rigging->main, TRN_RIG_TIP_HEIGHT));
  g_assert_cmpstr (trn_rig_missing (t.rig, &rigging->tail, TRN_RIG_RADIUS), ==, "gear");
  g_assert_null (trn_rig_missing (t.rig, &rigging->tail, TRN_RIG_HOOK_X));
  assert_value (&t, TRN_RIG_RADIUS, 30);
  g_assert_true (isnan (test_rig_value (&t, TRN_RIG_HOOK_HEIGHT, 0, 0, 0)));
  g_assert_true (test_rig_corners (&t, "crane/boom", 0, trn_interval_point (0), corners));
  g_assert_false (test_rig_corners (&t, "crane/rope", 0, trn_interval_point (0), corners));
  test_rig_clear (&t);
  test_rig_build (&t,
                  "{'id': 'tower', 'kind': 'gantry', 'at': {'position': [0, 0, 0]}, 'legs': [{'at':"
                  " [0, 0], 'size': [1, 1], 'height': 9}]}",
                  "'main': {'gear': 'tower', 'hook_above': 1}");
  g_assert_cmpstr (trn_rig_missing (t.rig, &t.plan->lifts[0].rigging.main, TRN_RIG_TIP_HEIGHT), ==,
                   "trolley");
  g_assert_cmpuint (t.rig->n_bodies, ==, 0);
  test_rig_clear (&t);
}

static void
test_connected (void)
{
  TestRig t;
  test_rig_wait (&t, 130, 50, 5);
  test_rig_build (
      &t,
      CRANE ("") ",{'id': 'bogie', 'kind': 'tail-trolley', 'at': {'position': [5, 5, 1]},"
                 " 'size': [2, 1, 0.5]}," GANTRY,
      "'main': {'gear': 'crane', 'hook_above': 4, 'block': {'diameter': 1, 'height': 1}, " SLINGS
      "}, 'tail': {'gear': 'bogie', 'point': 'tail'}, 'connected': [['tower', 'bogie'],"
      " ['leg-1', 'crane/boom']]");
  static const struct
  {
    const char *a, *b;
    gboolean connected;
  } pairs[] = {
    { "crane/boom", "crane/carrier", TRUE },
    { "crane/boom", "load", FALSE },
    { "crane/rope", "load", FALSE },
    { "crane/block", "load", TRUE },
    { "leg-1", "load", TRUE },
    { "leg-1", "leg-2", TRUE },
    { "crane/rope", "leg-1", TRUE },
    { "crane/block", "leg-2", TRUE },
    { "crane/boom", "leg-2", FALSE },
    { "crane/boom", "leg-1", TRUE },
    { "bogie/trolley", "load", TRUE },
    { "bogie/trolley", "leg-1", FALSE },
    { "tower/leg-1", "load", FALSE },
    { "tower/leg-1", "bogie/trolley", TRUE },
    { "tower/leg-1", "tower/leg-2", TRUE },
    { "tower/leg-1", "crane/boom", FALSE },
    { "tower/leg-1", "leg-1", FALSE },
    { "cranes/boom", "crane/boom", FALSE },
    { "rack", "load", FALSE },
  };
  for (guint i = 0; i < G_N_ELEMENTS (pairs); i++)
    {
      const char *a = pairs[i].a, *b = pairs[i].b;
      if (trn_rig_is_connected (t.rig, a, b, 0) != pairs[i].connected
          || trn_rig_is_connected (t.rig, b, a, 0) != pairs[i].connected)
        g_error ("%s and %s", a, b);
    }
  test_rig_clear (&t);
}

/* Before the first and after the last of its moves the gear stands as at its start and its end. */
static void
test_stands_outside_its_moves (void)
{
  TestRig t;
  test_rig_wait (&t, 120, 50, 5);
  TrnVec3 by = { 10, 4, 3 }, zero = { 0, 0, 0 };
  for (guint i = 0; i < TEST_MOVES; i++)
    {
      t.motions[i]
          = trn_motion_make_carry (&t.motions[i].start, 1, zero, by, trn_vec3_make (0, 0, 1), 1);
      t.motions[i].start.position.x = t.motions[i].from.x = 110 + 10 * i;
    }
  test_rig_build (&t, CRANE (""), "'main': {'gear': 'crane', 'hook_above': 4, 'moves': [1, 1]}");
  TrnJet3 c[TRN_LIMB_CORNERS];
  test_assert_near (test_rig_corner (&t, "crane/boom", 1, 0, 0.4), 120, 50, 12 + sqrt (2500 - 361),
                    NEAR);
  test_assert_near (test_rig_corner (&t, "crane/rope", 0, 2, 0.4), 130, 54, 12, NEAR);
  g_assert_true (test_rig_corners (&t, "crane/boom", 0, (TrnInterval){ 0, 1 }, c));
  g_assert_cmpfloat (trn_interval_size (c[1].x.d), <, 1e-9);
  g_assert_cmpfloat (trn_interval_size (c[1].y.d), <, 1e-9);
  g_assert_cmpfloat (trn_interval_size (c[1].z.dd), <, 1e-9);
  g_assert_true (test_rig_corners (&t, "crane/boom", 1, (TrnInterval){ 0.5, 0.51 }, c));
  g_assert_cmpfloat (trn_interval_size (c[1].x.d), >, 9);
  test_rig_clear (&t);
  test_rig_build (&t, CRANE (""), "'main': {'gear': 'crane', 'hook_above': 4, 'moves': [1, 2]}");
  test_assert_near (test_rig_corner (&t, "crane/rope", 0, 0, 0.4), 120, 50, 9, NEAR);
  test_rig_clear (&t);
  test_rig_build (&t, CRANE (""), "'main': {'gear': 'crane', 'hook_above': 4, 'moves': [0, 1]}");
  test_assert_near (test_rig_corner (&t, "crane/rope", 0, 2, 0.4), 130, 54, 12, NEAR);
  test_rig_clear (&t);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/gear/boom", test_boom);
  g_test_add_func ("/gear/counterweight", test_counterweight);
  g_test_add_func ("/gear/jib", test_jib);
  g_test_add_func ("/gear/beyond-reach", test_beyond_reach);
  g_test_add_func ("/gear/parked", test_parked);
  g_test_add_func ("/gear/slings", test_slings);
  g_test_add_func ("/gear/beam", test_beam);
  g_test_add_func ("/gear/gantry", test_gantry);
  g_test_add_func ("/gear/standing", test_standing);
  g_test_add_func ("/gear/tail-gear", test_tail_gear);
  g_test_add_func ("/gear/slew-goes-on", test_slew_goes_on);
  g_test_add_func ("/gear/missing", test_missing);
  g_test_add_func ("/gear/connected", test_connected);
  g_test_add_func ("/gear/stands-outside-its-moves", test_stands_outside_its_moves);
  return g_test_run ();
}
