/* Vectors, rotations, poses and boxes. The conventions are tested by hand on axes, the algebra on
 * random poses. */
#include "box.h"
#include "interval.h"
#include "pose.h"

static void
assert_point (TrnVec3 p, double x, double y, double z, double within)
{
  g_assert_cmpfloat (trn_vec3_distance (p, trn_vec3_make (x, y, z)), <=, within);
}

static TrnVec3
random_vector (double far)
{
  return trn_vec3_make (g_test_rand_double_range (-far, far), g_test_rand_double_range (-far, far),
                        g_test_rand_double_range (-far, far));
}

static TrnPose
random_pose (void)
{
  TrnPlacement at = { random_vector (100), g_test_rand_double_range (-4, 4),
                      g_test_rand_double_range (-4, 4), g_test_rand_double_range (-4, 4) };
  return trn_pose_make (&at);
}

/* Both ends of a mixture are exact, also where (b − a) rounds. */
static void
test_vec3 (void)
{
  TrnVec3 a = { 0.1, -1e17, 3 }, b = { 0.7, 1, -1e-17 };
  TrnVec3 start = trn_vec3_mix (a, b, 0), end = trn_vec3_mix (a, b, 1);
  g_assert_true (start.x == a.x && start.y == a.y && start.z == a.z);
  g_assert_true (end.x == b.x && end.y == b.y && end.z == b.z);
  assert_point (trn_vec3_cross (trn_vec3_make (1, 0, 0), trn_vec3_make (0, 1, 0)), 0, 0, 1, 0);
  g_assert_cmpfloat (trn_vec3_length (trn_vec3_make (2, 3, 6)), ==, 7);
  g_assert_cmpfloat (trn_vec3_max_abs (trn_vec3_make (1, -8, 3)), ==, 8);
  g_assert_false (trn_vec3_is_finite (trn_vec3_make (0, NAN, 0)));
  g_assert_false (trn_vec3_is_finite (trn_vec3_make (0, 0, -INFINITY)));
  g_assert_true (trn_vec3_is_finite (a));
}

/* A quarter turn about each axis, counter-clockwise seen against it. */
static void
test_quarter_turns (void)
{
  const double quarter = G_PI / 2;
  TrnRotation z = trn_rotation_make (trn_vec3_make (0, 0, 1), quarter);
  TrnRotation x = trn_rotation_make (trn_vec3_make (1, 0, 0), quarter);
  TrnRotation y = trn_rotation_make (trn_vec3_make (0, 1, 0), quarter);
  assert_point (trn_rotation_apply (&z, trn_vec3_make (1, 0, 0)), 0, 1, 0, 1e-15);
  assert_point (trn_rotation_apply (&x, trn_vec3_make (0, 1, 0)), 0, 0, 1, 1e-15);
  assert_point (trn_rotation_apply (&y, trn_vec3_make (0, 0, 1)), 1, 0, 0, 1e-15);
  assert_point (trn_rotation_apply_inverse (&z, trn_vec3_make (0, 1, 0)), 1, 0, 0, 1e-15);
  /* First about x, then about z: y goes to z and stays there. */
  TrnRotation zx = trn_rotation_multiply (&z, &x);
  assert_point (trn_rotation_apply (&zx, trn_vec3_make (0, 1, 0)), 0, 0, 1, 1e-15);
}

/* A rotation keeps its axis, lengths and the hand of a frame; the angle comes back, near 0 and near
 * a half turn too, where an arc cosine would lose half the digits. An entry of the matrix has some
 * five roundings of 1.1e-16, so that a vector of 17 m is turned to within some 3e-14 m. */
static void
test_rotations (void)
{
  const double special[4] = { 1e-9, G_PI - 1e-9, 0, G_PI };
  for (int i = 0; i < 1000; i++)
    {
      TrnVec3 axis = trn_vec3_unit (random_vector (1)), v = random_vector (10);
      double angle = i < 4 ? special[i] : g_test_rand_double_range (0, G_PI);
      TrnRotation turn = trn_rotation_make (axis, angle), identity = trn_rotation_identity ();
      assert_point (trn_rotation_apply (&turn, axis), axis.x, axis.y, axis.z, 1e-14);
      TrnVec3 turned = trn_rotation_apply (&turn, v);
      g_assert_cmpfloat (fabs (trn_vec3_length (turned) - trn_vec3_length (v)), <=, 1e-13);
      assert_point (trn_rotation_apply_inverse (&turn, turned), v.x, v.y, v.z, 1e-13);
      g_assert_cmpfloat (fabs (trn_rotation_angle_between (&identity, &turn) - angle), <=, 1e-13);

      TrnRotation more = trn_rotation_make (axis, 0.25);
      TrnRotation both = trn_rotation_multiply (&more, &turn);
      g_assert_cmpfloat (fabs (trn_rotation_angle_between (&turn, &both) - 0.25), <=, 1e-13);
    }
}

/* Heading 90° turns local +X to north. Then positive pitch lowers local +X, and positive roll lifts
 * local +Y. */
static void
test_placement (void)
{
  TrnPlacement at = { { 10, 20, 30 }, G_PI / 2, 0, 0 };
  TrnPose pose = trn_pose_make (&at);
  assert_point (trn_pose_apply (&pose, trn_vec3_make (1, 0, 0)), 10, 21, 30, 1e-14);
  at.pitch_rad = G_PI / 6;
  pose = trn_pose_make (&at);
  assert_point (trn_pose_apply (&pose, trn_vec3_make (2, 0, 0)), 10, 20 + sqrt (3), 29, 1e-14);
  at.pitch_rad = 0;
  at.roll_rad = G_PI / 6;
  pose = trn_pose_make (&at);
  assert_point (trn_pose_apply (&pose, trn_vec3_make (0, 2, 0)), 10 - sqrt (3), 20, 31, 1e-14);
}

/* Coordinates up to 350 m, through two or three poses: within some 1e-12 m. */
static void
test_poses (void)
{
  for (int i = 0; i < 1000; i++)
    {
      TrnPose a = random_pose (), b = random_pose (), none = trn_pose_identity ();
      TrnVec3 p = random_vector (50);
      TrnPose ab = trn_pose_multiply (&a, &b), back = trn_pose_relative (&a, &ab);
      TrnVec3 one = trn_pose_apply (&ab, p), two = trn_pose_apply (&a, trn_pose_apply (&b, p));
      assert_point (one, two.x, two.y, two.z, 1e-11);
      TrnVec3 home = trn_pose_apply_inverse (&ab, one);
      assert_point (home, p.x, p.y, p.z, 1e-11);
      TrnVec3 by_b = trn_pose_apply (&b, p);
      assert_point (trn_pose_apply (&back, p), by_b.x, by_b.y, by_b.z, 1e-11);
      assert_point (trn_pose_apply (&none, p), p.x, p.y, p.z, 0);
    }
}

static void
test_box (void)
{
  TrnBox box = trn_box_empty (), other = trn_box_empty ();
  g_assert_true (trn_box_is_empty (&box));
  trn_box_add_box (&box, &other);
  g_assert_true (trn_box_is_empty (&box));
  trn_box_add_point (&box, trn_vec3_make (1, 5, -2));
  g_assert_false (trn_box_is_empty (&box));
  assert_point (trn_box_size (&box), 0, 0, 0, 0);
  trn_box_add_point (&other, trn_vec3_make (3, 4, 0));
  trn_box_add_box (&box, &other);
  assert_point (trn_box_centre (&box), 2, 4.5, -1, 0);
  assert_point (trn_box_size (&box), 2, 1, 2, 0);
  assert_point (trn_box_corner (&box, 0), 1, 4, -2, 0);
  assert_point (trn_box_corner (&box, 1), 3, 4, -2, 0);
  assert_point (trn_box_corner (&box, 2), 1, 5, -2, 0);
  assert_point (trn_box_corner (&box, 4), 1, 4, 0, 0);
  assert_point (trn_box_corner (&box, 7), 3, 5, 0, 0);

  TrnInterval span = { 1, 4 };
  g_assert_cmpfloat (trn_interval_middle (span), ==, 2.5);
  g_assert_cmpfloat (trn_interval_width (span), ==, 3);
}

static void
assert_placed_back (const TrnPose *pose)
{
  TrnPlacement placement = trn_placement_of (pose);
  TrnPose again = trn_pose_make (&placement);
  g_assert_cmpfloat (trn_vec3_distance (again.position, pose->position), ==, 0);
  g_assert_cmpfloat (trn_rotation_angle_between (&again.turn, &pose->turn), <=, 2e-9);
}

/* The three angles of a pose give it back, also with local X plumb, up or down, where only the sum
 * or the difference of two of them counts. */
static void
test_placed_back (void)
{
  for (guint i = 0; i < 1000; i++)
    {
      TrnPose pose = random_pose ();
      assert_placed_back (&pose);
    }
  for (int sign = -1; sign <= 1; sign += 2)
    {
      TrnPlacement plumb = { { 1, 2, 3 }, 0.7, sign * G_PI_2, 0.4 };
      TrnPose pose = trn_pose_make (&plumb);
      assert_placed_back (&pose);
      TrnPlacement placement = trn_placement_of (&pose);
      g_assert_cmpfloat (fabs (placement.pitch_rad - sign * G_PI_2), <, 1e-9);
      g_assert_cmpfloat (placement.roll_rad, ==, 0);
    }
  TrnPlacement at = { { 1, 2, 3 }, 0.5, -0.25, 2 };
  TrnPose pose = trn_pose_make (&at);
  TrnPlacement found = trn_placement_of (&pose);
  g_assert_cmpfloat (fabs (found.heading_rad - 0.5), <, 1e-12);
  g_assert_cmpfloat (fabs (found.pitch_rad + 0.25), <, 1e-12);
  g_assert_cmpfloat (fabs (found.roll_rad - 2), <, 1e-12);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/math/pose/vec3", test_vec3);
  g_test_add_func ("/math/pose/quarter-turns", test_quarter_turns);
  g_test_add_func ("/math/pose/rotations", test_rotations);
  g_test_add_func ("/math/pose/poses", test_poses);
  g_test_add_func ("/math/pose/box", test_box);
  g_test_add_func ("/math/pose/placement", test_placement);
  g_test_add_func ("/math/pose/placed-back", test_placed_back);
  return g_test_run ();
}
