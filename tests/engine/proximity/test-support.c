/* The least product of a direction with a set of points: the bits of both twins, and the error that
 * is stated against quadruple precision. */
#include "support.h"

#include <string.h>

#include "quad.h"
#include "test-scale.h"

#define MOST_BLOCKS 16

static float
random_float (GRand *rand, double size)
{
  return (float)(size * g_rand_double_range (rand, -1, 1));
}

static TrnSupport
lowest (TrnSupportKind kind, const TrnPoints8 *blocks, guint n, TrnDirection direction)
{
#if defined __x86_64__
  if (kind == TRN_SUPPORT_BEST && __builtin_cpu_supports ("avx2"))
    return trn_support_lowest_avx2 (blocks, n, direction);
#endif
  return trn_support_lowest_scalar (blocks, n, direction);
}

/* Points of some size; now and then all of few values, so that many are equally low and some of
 * their products are zeros of either sign. */
static void
fill (GRand *rand, TrnPoints8 *blocks, guint n, double size, gboolean coarse)
{
  float *values = &blocks[0].x[0];
  for (guint i = 0; i < n * sizeof *blocks / sizeof *values; i++)
    values[i] = coarse ? (float)(size * g_rand_int_range (rand, -1, 2)) : random_float (rand, size);
}

static void
test_twins (void)
{
  static const double sizes[] = { 1, 1e-3, 1e30, 1e-41, 5000 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (41);
  for (guint run = 0; run < test_scaled (50000); run++)
    {
      TrnPoints8 blocks[MOST_BLOCKS];
      guint n = (guint)g_rand_int_range (rand, 1, MOST_BLOCKS + 1);
      gboolean coarse = g_rand_boolean (rand);
      fill (rand, blocks, n, sizes[run % G_N_ELEMENTS (sizes)], coarse);
      TrnDirection d = { random_float (rand, 1), random_float (rand, 1), random_float (rand, 1) };
      if (coarse)
        d = (TrnDirection){ (float)g_rand_int_range (rand, -1, 2),
                            (float)g_rand_int_range (rand, -1, 2), 0 };
      TrnSupport best = lowest (TRN_SUPPORT_BEST, blocks, n, d);
      TrnSupport scalar = lowest (TRN_SUPPORT_SCALAR, blocks, n, d);
      g_assert_cmpmem (&best, sizeof best, &scalar, sizeof scalar);
    }
}

static Quad
exact (const TrnPoints8 *blocks, guint32 index, TrnDirection d)
{
  const TrnPoints8 *block = &blocks[index / 8];
  guint i = index % 8;
  return (Quad)d.x * block->x[i] + (Quad)d.y * block->y[i] + (Quad)d.z * block->z[i];
}

static Quad
allowed (const TrnPoints8 *blocks, guint32 index, TrnDirection d)
{
  const TrnPoints8 *block = &blocks[index / 8];
  guint i = index % 8;
  QuadVec p = { block->x[i], block->y[i], block->z[i] }, n = { d.x, d.y, d.z };
  return TRN_SUPPORT_ERROR * quad_length (n) * quad_length (p) + TRN_SUPPORT_LEAST;
}

/* The value is that of the point named, to within the error, and no point is lower than that. */
static void
check_error (TrnSupportKind kind, const TrnPoints8 *blocks, guint n, TrnDirection d)
{
  TrnSupport support = lowest (kind, blocks, n, d);
  Quad off = support.value - exact (blocks, support.index, d);
  g_assert_true ((off < 0 ? -off : off) <= allowed (blocks, support.index, d));
  for (guint32 i = 0; i < 8 * n; i++)
    g_assert_true (support.value <= exact (blocks, i, d) + allowed (blocks, i, d));
}

static void
test_error (void)
{
  static const double sizes[] = { 1, 1e-6, 1e30, 1e-41, 5000 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (42);
  for (guint run = 0; run < test_scaled (500); run++)
    {
      TrnPoints8 blocks[MOST_BLOCKS];
      guint n = (guint)g_rand_int_range (rand, 1, MOST_BLOCKS + 1);
      fill (rand, blocks, n, sizes[run % G_N_ELEMENTS (sizes)], run % 7 == 0);
      TrnDirection d = { random_float (rand, 1), random_float (rand, 1), random_float (rand, 1) };
      check_error (TRN_SUPPORT_BEST, blocks, n, d);
      check_error (TRN_SUPPORT_SCALAR, blocks, n, d);
    }
}

/* Products and sums just above powers of two, where a rounding is worth most: the error
 * that is stated is needed. */
static void
test_error_is_needed (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (43);
  double worst = 0;
  for (guint run = 0; run < test_scaled (60000); run++)
    {
      /* squares just above powers of two, whose roundings are the greatest there are */
      float x = 0.5f + random_float (rand, 1e-4), y = 0.5f + random_float (rand, 1e-4);
      float z = 0.70711f + random_float (rand, 1e-5);
      TrnPoints8 block;
      for (guint i = 0; i < 8; i++)
        {
          block.x[i] = x;
          block.y[i] = y;
          block.z[i] = z;
        }
      TrnDirection d = { -x, -y, -z };
      TrnSupport support = lowest (TRN_SUPPORT_BEST, &block, 1, d);
      Quad off = support.value - exact (&block, 0, d);
      worst = fmax (worst, fabs ((double)(off / allowed (&block, 0, d))));
      check_error (TRN_SUPPORT_BEST, &block, 1, d);
    }
  g_assert_cmpfloat (worst, >, 0.6);
  g_test_message ("greatest error %.3f of what is stated", worst);
}

static void
test_choice (void)
{
  trn_support_choose (TRN_SUPPORT_SCALAR);
  g_assert_false (trn_support_is_simd ());
  trn_support_choose (TRN_SUPPORT_BEST);
#if defined __x86_64__
  g_assert_cmpint (trn_support_is_simd (), ==, __builtin_cpu_supports ("avx2") != 0);
#else
  g_assert_false (trn_support_is_simd ());
#endif
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/support/twins", test_twins);
  g_test_add_func ("/support/error", test_error);
  g_test_add_func ("/support/error-is-needed", test_error_is_needed);
  g_test_add_func ("/support/choice", test_choice);
  return g_test_run ();
}
