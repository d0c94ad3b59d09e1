/* The distance of small convex hulls: what is returned is attained by mixtures of the points, and
 * the direction between them proves that there is nothing nearer. */
#include "convex.h"

#include "test-scale.h"
#include "triangle.h"

static TrnVec3
random_point (GRand *rand, double size)
{
  double x = g_rand_double_range (rand, -size, size), y = g_rand_double_range (rand, -size, size);
  return trn_vec3_make (x, y, g_rand_double_range (rand, -size, size));
}

/* Up to 16 points about @centre: in general position, in a plane, on a line, some twice. */
static guint
random_set (GRand *rand, TrnVec3 centre, double size, TrnVec3 points[16])
{
  guint n = (guint)g_rand_int_range (rand, 1, 17), kind = (guint)g_rand_int_range (rand, 0, 5);
  TrnVec3 u = random_point (rand, size), v = random_point (rand, size);
  for (guint i = 0; i < n; i++)
    {
      double a = g_rand_double_range (rand, -1, 1), b = g_rand_double_range (rand, -1, 1);
      TrnVec3 flat = trn_vec3_add (trn_vec3_scale (u, a), trn_vec3_scale (v, b));
      TrnVec3 p = kind == 0 ? flat : kind == 1 ? trn_vec3_scale (u, a) : random_point (rand, size);
      points[i] = i > 0 && kind == 2 && i % 3 == 0 ? points[i - 1] : trn_vec3_add (centre, p);
    }
  return n;
}

static double
highest (const TrnVec3 *points, guint n, TrnVec3 along)
{
  double most = -INFINITY;
  for (guint i = 0; i < n; i++)
    most = fmax (most, trn_vec3_dot (points[i], along));
  return most;
}

static void
assert_within (GRand *rand, TrnVec3 p, const TrnVec3 *points, guint n, double error)
{
  for (guint i = 0; i < 20; i++)
    {
      TrnVec3 along = trn_vec3_unit (random_point (rand, 1));
      g_assert_cmpfloat (trn_vec3_dot (p, along), <=, highest (points, n, along) + error);
    }
}

/* By duality the least distance is no less than the gap along any unit vector; so a distance that
 * is attained, and whose own direction shows as large a gap, is the least. */
static void
test_least (void)
{
  const guint32 seed = 77;
  g_test_message ("seed %u", seed);
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  guint apart = 0, meet = 0;
  for (guint run = 0; run < test_scaled (20000); run++)
    {
      static const double sizes[] = { 1, 1e-3, 300 };
      double size = sizes[run % 3];
      TrnVec3 a[16], b[16], on_a, on_b, zero = { 0, 0, 0 };
      TrnVec3 centre = run % 4 == 0 ? trn_vec3_make (1e5, -1e5, 10) : zero;
      guint n_a = random_set (rand, centre, size, a);
      guint n_b = random_set (rand, trn_vec3_add (centre, random_point (rand, 2 * size)), size, b);
      double d = trn_convex_distance (a, n_a, b, n_b, &on_a, &on_b);
      double rounding = 32 * 0x1p-53 * (trn_vec3_max_abs (centre) + 3 * size);
      assert_within (rand, on_a, a, n_a, rounding);
      assert_within (rand, on_b, b, n_b, rounding);
      if (d <= 1e3 * rounding)
        {
          meet++;
          continue;
        }
      TrnVec3 n = trn_vec3_unit (trn_vec3_sub (on_a, on_b));
      double gap = -highest (a, n_a, trn_vec3_scale (n, -1)) - highest (b, n_b, n);
      g_assert_cmpfloat (gap, >=, d - 1e-9 * size - 1e3 * rounding);
      g_assert_cmpfloat (gap, <=, d + rounding);
      apart++;
    }
  g_test_message ("%u apart, %u meet", apart, meet);
  g_assert_cmpuint (apart, >, 0);
  g_assert_cmpuint (meet, >, 0);
}

/* Three points against three: as the distance of triangles, which is worked out another way. */
static void
test_triangles (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (78);
  for (guint run = 0; run < test_scaled (20000); run++)
    {
      TrnVec3 a[3], b[3], p, q;
      TrnVec3 shift = random_point (rand, 2), e = random_point (rand, 1);
      for (guint i = 0; i < 3; i++)
        {
          a[i] = random_point (rand, 1);
          b[i] = trn_vec3_add (random_point (rand, 1), shift);
        }
      if (run % 4 == 0) /* slivers */
        a[2] = trn_vec3_add_scaled (trn_vec3_mix (a[0], a[1], 0.3), e, 1e-9);
      double d = trn_convex_distance (a, 3, b, 3, &p, &q);
      double expected = trn_triangle_distance (a, b, &p, &q);
      g_assert_cmpfloat (fabs (d - expected), <=, 1e-9);
    }
}

/* A unit cube: a point a metre over its top, over an edge, over a corner; one inside; and a small
 * triangle inside, which touches since a hull is solid. */
static void
test_cube (void)
{
  TrnVec3 cube[8], on_cube, on_other;
  for (guint i = 0; i < 8; i++)
    cube[i] = trn_vec3_make (i & 1, (i & 2) / 2, (i & 4) / 4);
  TrnVec3 points[4] = { { 0.3, 0.4, 2 }, { 0.3, 2, 2 }, { 2, 2, 2 }, { 0.5, 0.5, 0.5 } };
  double expected[4] = { 1, sqrt (2), sqrt (3), 0 };
  for (guint i = 0; i < 4; i++)
    {
      double d = trn_convex_distance (cube, 8, &points[i], 1, &on_cube, &on_other);
      g_assert_cmpfloat (fabs (d - expected[i]), <, 1e-14);
    }
  TrnVec3 small[3] = { { 0.4, 0.5, 0.5 }, { 0.5, 0.5, 0.5 }, { 0.5, 0.6, 0.7 } };
  g_assert_cmpfloat (trn_convex_distance (cube, 8, small, 3, &on_cube, &on_other), <, 1e-14);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/convex/least", test_least);
  g_test_add_func ("/convex/triangles", test_triangles);
  g_test_add_func ("/convex/cube", test_cube);
  return g_test_run ();
}
