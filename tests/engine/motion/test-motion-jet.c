/* Motions as jets against quadruple precision: over spans of all widths and at single moments,
 * whatever the true motion does is held. */
#include "motion-jet.h"

#include "quad-motion.h"
#include "test-motions.h"
#include "test-scale.h"

static gboolean
holds (TrnInterval i, Quad x)
{
  return i.lo <= x && x <= i.hi;
}

static Quad
part (QuadVec v, int axis)
{
  return axis == 0 ? v.x : axis == 1 ? v.y : v.z;
}

static TrnJet
part_of (const TrnJet3 *v, int axis)
{
  return axis == 0 ? v->x : axis == 1 ? v->y : v->z;
}

/* From nothing, every fourth time, up to the whole move. */
static TrnInterval
random_span (GRand *rand)
{
  double from = g_rand_double (rand);
  if (g_rand_int_range (rand, 0, 4) == 0)
    return trn_interval_point (from);
  double width = ldexp (1, -(int)g_rand_int_range (rand, 0, 30));
  return (TrnInterval){ from * (1 - width), from * (1 - width) + width };
}

static double
random_moment (GRand *rand, TrnInterval s)
{
  return CLAMP (s.lo + g_rand_double (rand) * (s.hi - s.lo), s.lo, s.hi);
}

/* f′ of a wave in quad-motion.h. */
static Quad
wave_slope (const QuadWave *f, Quad s)
{
  Quad sine, cosine;
  quad_sin_cos (f->w * s, &sine, &cosine);
  return f->c1 + f->a1 * cosine + f->b1 * sine
         + f->w * ((f->b0 + f->b1 * s) * cosine - (f->a0 + f->a1 * s) * sine);
}

static void
test_points (void)
{
  static const QuadVec axes[3] = { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } };
  g_autoptr (GRand) rand = g_rand_new_with_seed (81);
  for (guint i = 0; i < test_scaled (20000); i++)
    {
      TrnMotion m = test_random_motion (rand, 100);
      QuadMotion truth = quad_motion_make (&m);
      TrnVec3 x = test_random_point (rand, 10);
      TrnInterval span = random_span (rand);
      double s = random_moment (rand, span);
      TrnJet3 jet;
      trn_motion_point_jet (&m, x, span, &jet);
      g_assert_true (trn_jet3_is_smooth (&jet));
      QuadVec place = quad_motion_place (&truth, s, x);
      for (int axis = 0; axis < 3; axis++)
        {
          QuadWave wave = quad_motion_wave (&truth, axes[axis], x);
          TrnJet found = part_of (&jet, axis);
          g_assert_true (holds (found.v, part (place, axis)));
          g_assert_true (holds (found.d, wave_slope (&wave, s)));
          g_assert_true (holds (found.dd, quad_wave_bend (&wave, s)));
        }
    }
}

static TrnSlope
slope_of (const TrnSlope3 *v, int axis)
{
  return axis == 0 ? v->x : axis == 1 ? v->y : v->z;
}

/* Ways between two points of the body: differences of their true places, with and without what is
 * worked out beforehand. A wave is affine in the point, but for what all points have of the path,
 * which goes in the difference. */
static void
test_ways (void)
{
  static const QuadVec axes[3] = { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } };
  g_autoptr (GRand) rand = g_rand_new_with_seed (84);
  for (guint i = 0; i < test_scaled (20000); i++)
    {
      TrnMotion m = test_random_motion (rand, 100);
      if (g_rand_int_range (rand, 0, 8) == 0)
        m.angle_rad = 0;
      QuadMotion truth = quad_motion_make (&m);
      TrnVec3 from = test_random_point (rand, 10), to = test_random_point (rand, 10);
      TrnInterval span = random_span (rand);
      double s = random_moment (rand, span);
      TrnJet3 jet;
      TrnSlope3 slope;
      trn_motion_ways_jet (&m, from, 1, &to, span, &jet);
      TrnMotionArm arm = trn_motion_arm_make (&m, from, to);
      trn_motion_arms_slope (&m, 1, &arm, span, &slope);
      QuadVec way
          = quad_sub (quad_motion_place (&truth, s, to), quad_motion_place (&truth, s, from));
      for (int axis = 0; axis < 3; axis++)
        {
          QuadWave a = quad_motion_wave (&truth, axes[axis], from),
                   b = quad_motion_wave (&truth, axes[axis], to);
          /* What rounds in quadruple precision where a way does not change. */
          Quad v = part (way, axis), d = wave_slope (&b, s) - wave_slope (&a, s), play = 1e-27;
          TrnJet found = part_of (&jet, axis);
          TrnSlope first = slope_of (&slope, axis);
          g_assert_true (found.v.lo <= v + play && v - play <= found.v.hi);
          g_assert_true (found.d.lo <= d + play && d - play <= found.d.hi);
          g_assert_true (first.v.lo <= v + play && v - play <= first.v.hi);
          g_assert_true (first.d.lo <= d + play && d - play <= first.d.hi);
          if (span.lo == span.hi)
            g_assert_cmpfloat (trn_interval_width (first.v), <, 1e-12);
        }
    }
}

/* A way along the axis does not change, so over all of a move it is known to rounding, whatever the
 * path does. */
static void
test_ways_are_narrow (void)
{
  const TrnPose start = trn_pose_identity ();
  TrnMotion m = trn_motion_make_carry (&start, 60, trn_vec3_make (1, 2, 3),
                                       trn_vec3_make (40, 50, 60), trn_vec3_make (0, 1, 0), 1.5);
  const TrnVec3 from = { 7, 8, 9 }, to = { 7, 10, 9 };
  TrnJet3 jet;
  trn_motion_ways_jet (&m, from, 1, &to, (TrnInterval){ 0, 1 }, &jet);
  g_assert_cmpfloat (trn_interval_width (jet.x.v), <, 1e-12);
  g_assert_cmpfloat (trn_interval_width (jet.y.v), <, 1e-12);
  g_assert_cmpfloat (trn_interval_width (jet.z.v), <, 1e-12);
  g_assert_cmpfloat (fabs (trn_interval_middle (jet.y.v) - 2), <, 1e-12);
}

/* At one moment the place is known to rounding, and over a span as narrow as that the enclosure is
 * hardly wider than what the motion does in it. */
static void
test_are_narrow (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (82);
  for (guint i = 0; i < test_scaled (2000); i++)
    {
      TrnMotion m = test_random_motion (rand, 100);
      TrnVec3 x = test_random_point (rand, 10);
      double s = g_rand_double (rand) * 0.99, width = 1e-3;
      TrnJet3 at, over;
      trn_motion_point_jet (&m, x, trn_interval_point (s), &at);
      trn_motion_point_jet (&m, x, (TrnInterval){ s, s + width }, &over);
      TrnPose pose = trn_motion_pose (&m, s);
      TrnVec3 place = trn_pose_apply (&pose, x);
      double play = trn_motion_rounding (&m, 10);
      double reach = trn_vec3_distance (x, m.pivot), speed = trn_motion_speed (&m, reach);
      for (int axis = 0; axis < 3; axis++)
        {
          TrnInterval v = part_of (&at, axis).v;
          double here = axis == 0 ? place.x : axis == 1 ? place.y : place.z;
          g_assert_cmpfloat (v.hi - v.lo, <=, 2 * play);
          g_assert_cmpfloat (fabs (trn_interval_middle (v) - here), <=, 2 * play);
          g_assert_cmpfloat (trn_interval_width (part_of (&over, axis).v), <=,
                             2 * width * speed + 1e-9);
        }
    }
}

/* What stands on the site, seen from the body: the pose turned back in quadruple precision, its
 * derivatives by differences, whose own error over steps of 10⁻⁶ is below 10⁻⁸ of what they are. */
static void
test_seen_from_the_body (void)
{
  const Quad step = 1e-6;
  g_autoptr (GRand) rand = g_rand_new_with_seed (83);
  for (guint i = 0; i < test_scaled (5000); i++)
    {
      TrnMotion m = test_random_motion (rand, 100);
      QuadMotion truth = quad_motion_make (&m);
      TrnVec3 place = test_random_point (rand, 100);
      TrnInterval span = random_span (rand);
      span.lo = span.lo * 0.98 + 0.01;
      span.hi = span.hi * 0.98 + 0.01;
      double s = random_moment (rand, span);
      TrnJetPose pose;
      trn_motion_pose_jet (&m, span, &pose);
      TrnJet3 fixed = trn_jet3_constant (place), seen = trn_jet_pose_apply_inverse (&pose, &fixed);
      static const TrnVec3 axes[3] = { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } };
      for (int axis = 0; axis < 3; axis++)
        {
          Quad f[3];
          for (int k = 0; k < 3; k++)
            {
              Quad t = s + (k - 1) * step;
              QuadVec origin = quad_motion_place (&truth, t, m.pivot);
              QuadVec tip = quad_motion_place (&truth, t, trn_vec3_add (m.pivot, axes[axis]));
              f[k] = quad_product (quad_sub (tip, origin), quad_sub (quad_vec (place), origin))
                     + (axis == 0   ? m.pivot.x
                        : axis == 1 ? m.pivot.y
                                    : m.pivot.z);
            }
          TrnJet found = part_of (&seen, axis);
          Quad d = (f[2] - f[0]) / (2 * step), dd = (f[2] - 2 * f[1] + f[0]) / (step * step);
          double play = 1e-6;
          g_assert_true (holds (found.v, f[1]));
          g_assert_true (found.d.lo - play <= d && d <= found.d.hi + play);
          g_assert_true (found.dd.lo - play <= dd && dd <= found.dd.hi + play);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/motion/jet/points", test_points);
  g_test_add_func ("/motion/jet/are-narrow", test_are_narrow);
  g_test_add_func ("/motion/jet/ways", test_ways);
  g_test_add_func ("/motion/jet/ways-are-narrow", test_ways_are_narrow);
  g_test_add_func ("/motion/jet/seen-from-the-body", test_seen_from_the_body);
  return g_test_run ();
}
