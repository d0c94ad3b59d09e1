/* The centre of gravity over the footprint. */
#include "resting.h"

#include <string.h>

#include "test-scale.h"

#define NEAR(value, expected, within) g_assert_cmpfloat_with_epsilon (value, expected, within)

/* A square of 4 m with a point within and one on a side; the CoG inside, on the edge, beside a
 * side, beyond a corner (3-4-5). */
static void
test_square (void)
{
  const TrnLevelPoint s[] = { { 2, 2 }, { -2, 2 }, { 0, 0.5 }, { -2, -2 }, { 2, -2 }, { 2, 0 } };
  NEAR (trn_resting_margin_m (s, 6, (TrnLevelPoint){ 0, 0 }), 2, 1e-12);
  NEAR (trn_resting_margin_m (s, 6, (TrnLevelPoint){ 1.5, 0.3 }), 0.5, 1e-12);
  NEAR (trn_resting_margin_m (s, 6, (TrnLevelPoint){ 2, 1 }), 0, 1e-12);
  NEAR (trn_resting_margin_m (s, 6, (TrnLevelPoint){ -3, 1 }), -1, 1e-12);
  NEAR (trn_resting_margin_m (s, 6, (TrnLevelPoint){ 5, 6 }), -5, 1e-12);
}

/* On a line or a point nothing stands. */
static void
test_flat (void)
{
  const TrnLevelPoint line[] = { { 0, 0 }, { 1, 1 }, { 3, 3 }, { 2, 2 } };
  NEAR (trn_resting_margin_m (line, 4, (TrnLevelPoint){ 1.5, 1.5 }), 0, 1e-12);
  NEAR (trn_resting_margin_m (line, 4, (TrnLevelPoint){ 2, 0 }), -sqrt (2), 1e-12);
  NEAR (trn_resting_margin_m (line, 1, (TrnLevelPoint){ 3, 4 }), -5, 1e-12);
  TrnLevelPoint ends[] = { { 2, 2 }, { 0, 0 }, { 1, 1 }, { 3, 3 } };
  g_assert_cmpuint (trn_resting_corners (ends, 4), ==, 2);
  g_assert_cmpfloat (fabs (ends[0].x_m - ends[1].x_m), ==, 3);
  g_assert_cmpuint (trn_resting_corners (ends, 1), ==, 1);
  g_assert_cmpuint (trn_resting_corners (NULL, 0), ==, 0);
  const TrnLevelPoint twice[] = { { 1, 0 }, { 1, 0 } };
  NEAR (trn_resting_margin_m (twice, 2, (TrnLevelPoint){ 1, 2 }), -2, 1e-12);
  g_assert_cmpfloat (trn_resting_margin_m (NULL, 0, (TrnLevelPoint){ 0, 0 }), ==, -INFINITY);
}

/* Whether supports hold a load and whether it is over their footprint is the same question; and no
 * place of a rectangle is nearer to the edge than its corners. */
static void
test_random (void)
{
  guint32 seed = (guint32)g_test_rand_int ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_test_message ("seed %u", seed);
  for (guint i = 0; i < test_scaled (400); i++)
    {
      const guint n = 3 + i % 6;
      TrnLevelPoint s[8], lo = { g_rand_double_range (rand, -3, 3), -1 },
                          hi = { lo.x_m + 1, g_rand_double (rand) };
      for (guint k = 0; k < n; k++)
        s[k] = (TrnLevelPoint){ g_rand_double_range (rand, -4, 4),
                                g_rand_double_range (rand, -4, 4) };
      double margin = trn_resting_margin_m (s, n, lo);
      if (fabs (margin) > 1e-6)
        g_assert_cmpint (margin > 0, ==, trn_ground_reactions (s, n, lo, 1).stands);
      double least = trn_resting_margin_over_m (s, n, lo, hi);
      TrnLevelPoint corners[8];
      memcpy (corners, s, sizeof s);
      const guint n_corners = trn_resting_corners (corners, n);
      g_assert_cmpuint (n_corners, >=, 3);
      g_assert_cmpuint (n_corners, <=, n);
      NEAR (trn_resting_margin_m (corners, n_corners, lo), margin, 1e-12);
      for (int k = 0; k < 20; k++)
        {
          TrnLevelPoint p = { lo.x_m + g_rand_double (rand) * (hi.x_m - lo.x_m),
                              lo.y_m + g_rand_double (rand) * (hi.y_m - lo.y_m) };
          g_assert_cmpfloat (trn_resting_margin_m (s, n, p), >=, least - 1e-12);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/resting/square", test_square);
  g_test_add_func ("/resting/flat", test_flat);
  g_test_add_func ("/resting/random", test_random);
  return g_test_run ();
}
