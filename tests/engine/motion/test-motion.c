/* Poses against the formulas of the plan's moves written out by hand, and every bound against the
 * motion itself: dense samples for bends and speeds, long double arithmetic for rounding. */
#include "motion.h"

#include "test-scale.h"

static const TrnVec3 up = { 0, 0, 1 };

static void
assert_near (TrnVec3 a, TrnVec3 b, double tolerance)
{
  if (trn_vec3_distance (a, b) > tolerance)
    g_error ("(%.17g %.17g %.17g) is not (%.17g %.17g %.17g)", a.x, a.y, a.z, b.x, b.y, b.z);
}

static double
between (GRand *rand, double lo, double hi)
{
  return g_rand_double_range (rand, lo, hi);
}

static TrnVec3
random_point (GRand *rand, double size)
{
  double x = between (rand, -size, size), y = between (rand, -size, size);
  return trn_vec3_make (x, y, between (rand, -size, size));
}

static TrnPose
random_pose (GRand *rand, double size)
{
  TrnPlacement placement = { .position = random_point (rand, size) };
  placement.heading_rad = between (rand, -4, 4);
  placement.pitch_rad = between (rand, -4, 4);
  placement.roll_rad = between (rand, -4, 4);
  return trn_pose_make (&placement);
}

/* Any move of the contract with random numbers; a head-plumb tilt stands on random attitudes with
 * its axis square to head − tail, whose tail then keeps its level. */
static TrnMotion
random_motion (GRand *rand, double site)
{
  TrnPose start = random_pose (rand, site);
  TrnVec3 pivot = random_point (rand, 10);
  double angle = between (rand, -4, 4), seconds = between (rand, 1, 1000);
  double heading = between (rand, -4, 4);
  TrnVec3 level = trn_vec3_make (cos (heading), sin (heading), 0);
  TrnMotion motion;
  switch (g_rand_int_range (rand, 0, 4))
    {
    case 0:
      return trn_motion_make_carry (&start, seconds, pivot, random_point (rand, 20), up, angle);
    case 1:
      return trn_motion_make_carry (&start, seconds, pivot, random_point (rand, 5), level, angle);
    case 2:
      {
        TrnVec3 at = trn_pose_apply (&start, pivot);
        double r = between (rand, 1, 40), phi = between (rand, -4, 4);
        g_assert_true (trn_motion_make_slew (
            &start, seconds, pivot, at.x + r * cos (phi), at.y + r * sin (phi), angle,
            g_rand_boolean (rand), between (rand, -0.9 * r, r), between (rand, -5, 5), &motion));
        return motion;
      }
    default:
      {
        TrnVec3 side = trn_vec3_cross (up, level);
        double tilt = between (rand, -4, 4);
        TrnVec3 along
            = trn_vec3_add (trn_vec3_scale (side, cos (tilt)), trn_vec3_scale (up, sin (tilt)));
        TrnVec3 tail = trn_vec3_sub (
            pivot, trn_rotation_apply_inverse (&start.turn, trn_vec3_scale (along, 12)));
        double off;
        g_assert_true (
            trn_motion_make_head_plumb (&start, seconds, pivot, tail, level, angle, &motion, &off));
        return motion;
      }
    }
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
      TrnMotion m = random_motion (rand, 100);
      TrnPose near = trn_motion_pose (&m, 1e-12), zero = trn_motion_pose (&m, 0);
      TrnVec3 x = random_point (rand, 10);
      assert_near (trn_pose_apply (&near, x), trn_pose_apply (&zero, x), 1e-9);
      g_assert_cmpmem (&zero, sizeof zero, &m.start, sizeof m.start);
    }
}

/* Every point stays within its sag of the chord between its places at the ends of any span, also
 * seen along any single direction, and within its displacement of its place at the middle. */
static void
test_bounds_hold (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (12);
  double closest = 0;
  for (guint i = 0; i < test_scaled (20000); i++)
    {
      TrnMotion m = random_motion (rand, 50);
      TrnVec3 x = random_point (rand, 10), n = trn_vec3_unit (random_point (rand, 1));
      double s0 = between (rand, 0, 1), s1 = between (rand, s0, 1), t = between (rand, 0, 1);
      TrnPose p0 = trn_motion_pose (&m, s0), p1 = trn_motion_pose (&m, s1);
      TrnPose p = trn_motion_pose (&m, s0 + t * (s1 - s0));
      TrnPose middle = trn_motion_pose (&m, 0.5 * (s0 + s1));
      TrnVec3 chord = trn_vec3_mix (trn_pose_apply (&p0, x), trn_pose_apply (&p1, x), t);
      TrnVec3 off = trn_vec3_sub (trn_pose_apply (&p, x), chord);
      double reach = trn_motion_reach (&m, x), slack = 1e-12;
      double sag = trn_motion_sag (trn_motion_acceleration (&m, reach), s0, s1);
      double sag_n = trn_motion_sag (trn_motion_acceleration_along (&m, reach, n), s0, s1);
      g_assert_cmpfloat (trn_vec3_length (off), <=, sag + slack);
      g_assert_cmpfloat (fabs (trn_vec3_dot (off, n)), <=, sag_n + slack);
      g_assert_cmpfloat (sag_n, <=, sag * (1 + 1e-7) + slack);
      double goes = trn_vec3_distance (trn_pose_apply (&p, x), trn_pose_apply (&middle, x));
      g_assert_cmpfloat (goes, <=, trn_motion_displacement (&m, reach, s0, s1) + slack);
      if (sag > 1e-6)
        closest = fmax (closest, trn_vec3_length (off) / sag);
    }
  /* The bound is not idle: somewhere it is nearly attained. */
  g_assert_cmpfloat (closest, >, 0.9);
}

/* The pose again in long double, straight from the definition, as the measure of rounding. */
static void
place_exactly (const TrnMotion *m, long double s, TrnVec3 x, long double out[3])
{
  long double c = cosl (s * m->angle_rad), k = 1 - c, si = sinl (s * m->angle_rad);
  long double u[3] = { m->axis.x, m->axis.y, m->axis.z }, r[3][3];
  for (int i = 0; i < 3; i++)
    for (int j = 0; j < 3; j++)
      {
        long double cross = i == j ? 0 : (j == (i + 1) % 3 ? -u[3 - i - j] : u[3 - i - j]);
        r[i][j] = (i == j ? c : 0) + k * u[i] * u[j] + si * cross;
      }
  long double local[3] = { (long double)x.x - m->pivot.x, (long double)x.y - m->pivot.y,
                           (long double)x.z - m->pivot.z };
  long double turned[3], path[3] = { 0 };
  for (int i = 0; i < 3; i++)
    turned[i] = m->start.turn.m[i][0] * local[0] + m->start.turn.m[i][1] * local[1]
                + m->start.turn.m[i][2] * local[2];
  const double pivot[3] = { m->pivot.x, m->pivot.y, m->pivot.z };
  const double position[3] = { m->start.position.x, m->start.position.y, m->start.position.z };
  long double from[3];
  for (int i = 0; i < 3; i++)
    from[i] = (long double)m->start.turn.m[i][0] * pivot[0]
              + (long double)m->start.turn.m[i][1] * pivot[1]
              + (long double)m->start.turn.m[i][2] * pivot[2] + position[i];
  if (m->path == TRN_PATH_LINE)
    {
      path[0] = from[0] + s * m->by.x;
      path[1] = from[1] + s * m->by.y;
      path[2] = from[2] + s * m->by.z;
    }
  else if (m->path == TRN_PATH_ARC)
    {
      long double dx = from[0] - m->centre_x, dy = from[1] - m->centre_y;
      long double radius = hypotl (dx, dy) + s * m->radius_by_m;
      long double phi = atan2l (dy, dx) + s * m->phi_rad;
      path[0] = m->centre_x + radius * cosl (phi);
      path[1] = m->centre_y + radius * sinl (phi);
      path[2] = from[2] + s * m->by.z;
    }
  else
    {
      long double h[3] = { m->head_from_tail.x, m->head_from_tail.y, m->head_from_tail.z };
      path[0] = from[0];
      path[1] = from[1];
      path[2] = from[2] - h[2] + r[2][0] * h[0] + r[2][1] * h[1] + r[2][2] * h[2];
    }
  for (int i = 0; i < 3; i++)
    out[i] = path[i] + r[i][0] * turned[0] + r[i][1] * turned[1] + r[i][2] * turned[2];
}

/* The stated rounding covers the true error of a placed point, near the origin and 5 km from it. */
static void
test_rounding_holds (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (13);
  double worst = 0;
  for (guint i = 0; i < test_scaled (20000); i++)
    {
      double site = i % 2 ? 5000 : 10;
      TrnMotion m = random_motion (rand, site);
      TrnVec3 x = random_point (rand, 10);
      double s = between (rand, 1e-3, 1);
      TrnPose pose = trn_motion_pose (&m, s);
      TrnVec3 placed = trn_pose_apply (&pose, x);
      long double exact[3];
      place_exactly (&m, s, x, exact);
      long double dx = placed.x - exact[0], dy = placed.y - exact[1], dz = placed.z - exact[2];
      double error = (double)sqrtl (dx * dx + dy * dy + dz * dz);
      double bound = trn_motion_rounding (&m, 10);
      g_assert_cmpfloat (error, <=, bound);
      g_assert_cmpfloat (bound, <, 1e-8);
      worst = fmax (worst, error / bound);
    }
  /* A bound a thousand times the error would hide a mistake of the same size. */
  g_assert_cmpfloat (worst, >, 1e-3);
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
  g_test_add_func ("/motion/rounding", test_rounding_holds);
  return g_test_run ();
}
