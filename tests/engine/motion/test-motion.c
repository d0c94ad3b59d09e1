/* Poses against the formulas of the plan's moves written out by hand, and every bound against the
 * motion itself: dense samples for bends and speeds, quadruple precision for rounding. */
#include "quad-motion.h"
#include "test-motions.h"
#include "test-scale.h"

static const TrnVec3 up = { 0, 0, 1 };

static void
assert_near (TrnVec3 a, TrnVec3 b, double tolerance)
{
  if (trn_vec3_distance (a, b) > tolerance)
    g_error ("(%.17g %.17g %.17g) is not (%.17g %.17g %.17g)", a.x, a.y, a.z, b.x, b.y, b.z);
}

/* "With axis 0 and by +90, what pointed up points to −Y": the contract's own example, about a point
 * that stays. */
static void
test_tilt_up_points_to_minus_y (void)
{
  TrnPose start = trn_pose_identity ();
  TrnVec3 about = { 1, 2, 3 }, zero = { 0, 0, 0 };
  TrnMotion m = trn_motion_make_carry (&start, 60, about, zero, trn_vec3_make (1, 0, 0), G_PI / 2);
  TrnPose end = trn_motion_pose (&m, 1);
  assert_near (trn_rotation_apply (&end.turn, up), trn_vec3_make (0, -1, 0), 1e-15);
  assert_near (trn_pose_apply (&end, about), about, 1e-15);
}

/* A carry goes straight and evenly, and turns about its point. */
static void
test_carry (void)
{
  TrnPlacement placement = { .position = { 10, -4, 2 }, .heading_rad = 0.3 };
  TrnPose start = trn_pose_make (&placement);
  TrnVec3 about = { 2, 0, 1 }, by = { 3, -6, 9 };
  TrnMotion m = trn_motion_make_carry (&start, 10, about, by, up, 1.2);
  TrnVec3 from = trn_pose_apply (&start, about);
  for (guint i = 0; i <= 4; i++)
    {
      double s = i / 4.0;
      TrnPose pose = trn_motion_pose (&m, s);
      assert_near (trn_pose_apply (&pose, about), trn_vec3_add_scaled (from, by, s), 1e-14);
      double heading = 0.3 + 1.2 * s;
      assert_near (trn_rotation_apply (&pose.turn, trn_vec3_make (1, 0, 0)),
                   trn_vec3_make (cos (heading), sin (heading), 0), 1e-15);
    }
}

/* h(s) = c + (r0 + s·radius_by)(cos(φ0 + sφ), sin(φ0 + sφ)), z0 + s·hoist_by, the attitude turned
 * by sφ or kept. */
static void
test_slew (void)
{
  TrnPlacement placement = { .position = { 25, 0, 5 } };
  TrnPose start = trn_pose_make (&placement);
  TrnVec3 hook = { 5, 0, 10 };
  for (int turns = 0; turns < 2; turns++)
    {
      TrnMotion m;
      g_assert_true (trn_motion_make_slew (&start, 60, hook, 10, 0, G_PI / 2, turns, 4, -2, &m));
      TrnPose half = trn_motion_pose (&m, 0.5), end = trn_motion_pose (&m, 1);
      double r = 22 * sqrt (0.5);
      assert_near (trn_pose_apply (&half, hook), trn_vec3_make (10 + r, r, 14), 1e-13);
      assert_near (trn_pose_apply (&end, hook), trn_vec3_make (10, 24, 13), 1e-13);
      assert_near (trn_rotation_apply (&end.turn, trn_vec3_make (1, 0, 0)),
                   turns ? trn_vec3_make (0, 1, 0) : trn_vec3_make (1, 0, 0), 1e-15);
    }
  TrnMotion m;
  g_assert_false (trn_motion_make_slew (&start, 60, hook, 30, 0, 1, TRUE, 0, 0, &m));
  g_assert_false (trn_motion_make_slew (&start, 60, hook, 10, 0, 1, TRUE, -20, 0, &m));
}

/* A column 15.525 m from tail to head, lying along +X, is up-ended by two hooks: the head rises on
 * its vertical as L sin t, the tail slides under it as L cos t, on its level. */
static void
test_two_hooks (void)
{
  const double length = 15.525;
  TrnPose start = trn_pose_identity ();
  start.position = trn_vec3_make (4, 7, 1.5);
  TrnVec3 head = { length, 0, 0 }, tail = { 0, 0, 0 };
  TrnMotion m;
  double off;
  g_assert_true (trn_motion_make_head_plumb (&start, 1800, head, tail, trn_vec3_make (0, 1, 0),
                                             -G_PI / 2, &m, &off));
  for (guint i = 0; i <= 9; i++)
    {
      double t = i * G_PI / 18;
      TrnPose pose = trn_motion_pose (&m, i / 9.0);
      assert_near (trn_pose_apply (&pose, head),
                   trn_vec3_make (4 + length, 7, 1.5 + length * sin (t)), 1e-14);
      assert_near (trn_pose_apply (&pose, tail),
                   trn_vec3_make (4 + length - length * cos (t), 7, 1.5), 1e-14);
    }
  /* 0.02° off square is not plane any more, 0.005° is within a rounded heading. */
  double bad = 0.02 * G_PI / 180, good = 0.005 * G_PI / 180;
  g_assert_false (trn_motion_make_head_plumb (
      &start, 1, head, tail, trn_vec3_make (sin (bad), cos (bad), 0), 1, &m, &off));
  g_assert_cmpfloat_with_epsilon (off, bad, 1e-12);
  g_assert_true (trn_motion_make_head_plumb (
      &start, 1, head, tail, trn_vec3_make (sin (good), cos (good), 0), 1, &m, &off));
  g_assert_false (
      trn_motion_make_head_plumb (&start, 1, tail, tail, trn_vec3_make (0, 1, 0), 1, &m, &off));
}

static void
test_begins_where_it_starts (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (11);
  for (guint i = 0; i < test_scaled (1000); i++)
    {
      TrnMotion m = test_random_motion (rand, 100);
      TrnPose near = trn_motion_pose (&m, 1e-12), zero = trn_motion_pose (&m, 0);
      TrnVec3 x = test_random_point (rand, 10);
      assert_near (trn_pose_apply (&near, x), trn_pose_apply (&zero, x), 1e-9);
      g_assert_cmpmem (&zero, sizeof zero, &m.start, sizeof m.start);
    }
}

/* Every point stays within its sag of the chord test_between its places at the ends of any span,
 * also seen along any single direction, and within its displacement of its place at the middle. */
static void
test_bounds_hold (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (12);
  double closest = 0;
  for (guint i = 0; i < test_scaled (20000); i++)
    {
      TrnMotion m = test_random_motion (rand, 50);
      TrnVec3 x = test_random_point (rand, 10);
      double s0 = test_between (rand, 0, 1), s1 = test_between (rand, s0, 1),
             t = test_between (rand, 0, 1);
      TrnPose p0 = trn_motion_pose (&m, s0), p1 = trn_motion_pose (&m, s1);
      TrnPose p = trn_motion_pose (&m, s0 + t * (s1 - s0));
      TrnPose middle = trn_motion_pose (&m, 0.5 * (s0 + s1));
      TrnVec3 chord = trn_vec3_mix (trn_pose_apply (&p0, x), trn_pose_apply (&p1, x), t);
      TrnVec3 off = trn_vec3_sub (trn_pose_apply (&p, x), chord);
      double reach = trn_motion_reach (&m, x), slack = 1e-12;
      double sag = trn_motion_sag (trn_motion_acceleration (&m, reach), s0, s1);
      g_assert_cmpfloat (trn_vec3_length (off), <=, sag + slack);
      double goes = trn_vec3_distance (trn_pose_apply (&p, x), trn_pose_apply (&middle, x));
      g_assert_cmpfloat (goes, <=, trn_motion_displacement (&m, reach, s0, s1) + slack);
      if (sag > 1e-6)
        closest = fmax (closest, trn_vec3_length (off) / sag);
    }
  /* The bound is not idle: somewhere it is nearly attained. */
  g_assert_cmpfloat (closest, >, 0.9);
}

/* The path's second derivative, and its third, by differences in quadruple precision: off by about
 * the square of the step. The bound on the third is attained somewhere, or nearly. */
static void
test_path_derivatives (void)
{
  const double step = 0x1p-24;
  g_autoptr (GRand) rand = g_rand_new_with_seed (14);
  double closest = 0;
  for (guint i = 0; i < test_scaled (3000); i++)
    {
      TrnMotion m = test_random_motion (rand, 50);
      QuadMotion exact = quad_motion_make (&m);
      double s = test_between (rand, 0, 1);
      QuadVec at[5], second[2];
      for (int k = 0; k < 5; k++)
        at[k] = quad_motion_place (&exact, (Quad)s + (k - 2) * step, m.pivot);
      for (int k = 0; k < 2; k++)
        second[k] = quad_times (quad_sub (quad_add (at[k], at[k + 2]), quad_times (at[k + 1], 2)),
                                1 / ((Quad)step * step));
      QuadVec third = quad_times (quad_sub (second[1], second[0]), 1 / (Quad)step);
      QuadVec middle = quad_times (quad_sub (quad_add (at[1], at[3]), quad_times (at[2], 2)),
                                   1 / ((Quad)step * step));
      QuadVec off = quad_sub (middle, quad_vec (trn_motion_path_acceleration (&m, s)));
      double most = trn_motion_path_jerk (&m), jerk = (double)quad_length (third);
      g_assert_cmpfloat ((double)quad_length (off), <=, 1e-11);
      g_assert_cmpfloat (jerk, <=, most + 1e-4);
      if (most > 1)
        closest = fmax (closest, jerk / most);
    }
  g_assert_cmpfloat (closest, >, 0.9);
}

/* The stated rounding covers the true error of a placed point, near the origin and 5 km from it,
 * and after a thousand turns. */
static void
test_rounding_holds (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (13);
  double worst = 0;
  for (guint i = 0; i < test_scaled (4000); i++)
    {
      TrnMotion m = test_random_motion (rand, i % 2 ? 5000 : 10);
      if (i % 4 == 3 && m.path == TRN_PATH_LINE)
        m.angle_rad *= 1000;
      TrnVec3 x = test_random_point (rand, 10);
      double s = test_between (rand, 1e-3, 1);
      TrnPose pose = trn_motion_pose (&m, s);
      QuadMotion exact = quad_motion_make (&m);
      QuadVec off
          = quad_sub (quad_vec (trn_pose_apply (&pose, x)), quad_motion_place (&exact, s, x));
      double error = (double)quad_length (off), bound = trn_motion_rounding (&m, 10);
      g_assert_cmpfloat (error, <=, bound);
      g_assert_cmpfloat (bound, <, 1e-6);
      worst = fmax (worst, error / bound);
    }
  /* A bound a thousand times the error would hide a mistake of the same size. */
  g_assert_cmpfloat (worst, >, 1e-3);
}

/* What the tests measure with: both forms of a motion in quadruple precision are the same. */
static void
test_measure (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (15);
  for (guint i = 0; i < test_scaled (1000); i++)
    {
      TrnMotion m = test_random_motion (rand, 50);
      QuadMotion exact = quad_motion_make (&m);
      TrnVec3 x = test_random_point (rand, 10), n = trn_vec3_unit (test_random_point (rand, 1));
      QuadWave wave = quad_motion_wave (&exact, quad_vec (n), x);
      double s = test_between (rand, 0, 1);
      Quad off
          = quad_wave_at (&wave, s) - quad_product (quad_vec (n), quad_motion_place (&exact, s, x));
      g_assert_cmpfloat (fabs ((double)off), <, 1e-28);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/motion/tilt-example", test_tilt_up_points_to_minus_y);
  g_test_add_func ("/motion/carry", test_carry);
  g_test_add_func ("/motion/slew", test_slew);
  g_test_add_func ("/motion/two-hooks", test_two_hooks);
  g_test_add_func ("/motion/start", test_begins_where_it_starts);
  g_test_add_func ("/motion/bounds", test_bounds_hold);
  g_test_add_func ("/motion/path-derivatives", test_path_derivatives);
  g_test_add_func ("/motion/measure", test_measure);
  g_test_add_func ("/motion/rounding", test_rounding_holds);
  return g_test_run ();
}
