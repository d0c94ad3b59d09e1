/* The direction search must never be trusted, so what is tested is that its certificate is true and
 * that it is good: close to the distance of the hulls. */
#include "hull.h"

#include "test-scale.h"

static TrnVec3
random_point (GRand *rand)
{
  double x = g_rand_double_range (rand, -1, 1), y = g_rand_double_range (rand, -1, 1);
  return trn_vec3_make (x, y, g_rand_double_range (rand, -1, 1));
}

/* Least distance of two hulls by the method of Frank and Wolfe with exact line search: slow, plain,
 * and an upper bound at every step, so the two methods hold the truth between them. */
static double
hull_distance_from_above (const TrnVec3 *a, guint n_a, const TrnVec3 *b, guint n_b)
{
  TrnVec3 v = trn_vec3_sub (a[0], b[0]);
  for (guint step = 0; step < 20000; step++)
    {
      guint i = 0, j = 0;
      for (guint k = 1; k < n_a; k++)
        if (trn_vec3_dot (v, a[k]) < trn_vec3_dot (v, a[i]))
          i = k;
      for (guint k = 1; k < n_b; k++)
        if (trn_vec3_dot (v, b[k]) > trn_vec3_dot (v, b[j]))
          j = k;
      TrnVec3 d = trn_vec3_sub (trn_vec3_sub (a[i], b[j]), v);
      double dd = trn_vec3_length_squared (d);
      if (!(dd > 0))
        break;
      v = trn_vec3_add_scaled (v, d, CLAMP (-trn_vec3_dot (v, d) / dd, 0, 1));
    }
  return trn_vec3_length (v);
}

static void
test_certificate (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (21);
  guint apart = 0;
  for (guint run = 0; run < test_scaled (300); run++)
    {
      TrnVec3 a[16], b[8], shift = trn_vec3_scale (random_point (rand), 4);
      guint n_a = (guint)g_rand_int_range (rand, 1, 17), n_b = (guint)g_rand_int_range (rand, 1, 9);
      for (guint i = 0; i < n_a; i++)
        a[i] = trn_vec3_add (random_point (rand), shift);
      for (guint i = 0; i < n_b; i++)
        b[i] = random_point (rand);
      double above = hull_distance_from_above (a, n_a, b, n_b);
      TrnHullGap gap = trn_hull_separate (a, n_a, b, n_b, trn_vec3_unit (random_point (rand)),
                                          above - 2e-3, NULL, NULL);
      g_assert_cmpfloat_with_epsilon (trn_vec3_length (gap.n), 1, 1e-14);
      g_assert_cmpfloat (gap.gap_m, ==, trn_hull_gap_along (a, n_a, b, n_b, gap.n));
      g_assert_cmpfloat (gap.gap_m, <=, above + 1e-13);
      if (above > 0.05)
        {
          apart++;
          g_assert_cmpfloat (gap.gap_m, >=, above - 2e-3);
        }
    }
  g_assert_cmpuint (apart, >, 100);
}

/* It stops at the first direction that is good enough, and does not go on where none can be. */
static void
test_stops_early (void)
{
  const TrnVec3 a[] = { { 5, 0, 0 }, { 6, 1, 0 } }, b[] = { { 0, 0, 0 }, { 0, 1, 1 } };
  TrnVec3 first = { 1, 0, 0 };
  TrnHullGap gap = trn_hull_separate (a, 2, b, 2, first, 4.5, NULL, NULL);
  g_assert_cmpmem (&gap.n, sizeof gap.n, &first, sizeof first);
  g_assert_cmpfloat (gap.gap_m, ==, 5);
  gap = trn_hull_separate (a, 2, b, 2, trn_vec3_make (0, 0, 1), 100, NULL, NULL);
  g_assert_cmpfloat (gap.gap_m, <=, 5);
}

/* Points that are all the same, on a line or in a plane. */
static void
test_flat (void)
{
  const TrnVec3 point[] = { { 2, 0, 0 }, { 2, 0, 0 }, { 2, 0, 0 } };
  const TrnVec3 line[] = { { 0, -1, 0 }, { 0, 0, 0 }, { 0, 1, 0 }, { 0, 2, 0 } };
  const TrnVec3 plane[] = { { 0, -1, -1 }, { 0, 3, -1 }, { 0, 0, 3 }, { 0, 0, 0 } };
  TrnVec3 first = trn_vec3_unit (trn_vec3_make (1, 1, 1));
  g_assert_cmpfloat_with_epsilon (
      trn_hull_separate (point, 3, line, 4, first, 2 - 1e-12, NULL, NULL).gap_m, 2, 1e-12);
  g_assert_cmpfloat_with_epsilon (
      trn_hull_separate (point, 3, plane, 4, first, 2 - 1e-12, NULL, NULL).gap_m, 2, 1e-12);
  g_assert_cmpfloat (trn_hull_separate (plane, 4, line, 4, first, 1, NULL, NULL).gap_m, <=, 1e-15);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/proximity/hull/certificate", test_certificate);
  g_test_add_func ("/proximity/hull/early", test_stops_early);
  g_test_add_func ("/proximity/hull/flat", test_flat);
  return g_test_run ();
}
