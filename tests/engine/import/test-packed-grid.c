/* What packing may have moved coordinates by, against what it did move them by: points are rounded
 * to a known grid as the packer does it (packing.h), and neither bound may be below the truth,
 * whatever the grid. How close the bounds come is asked of ordinary meshes only: many corners that
 * are about as far from the origin as the mesh is large. */
#include "helper/packed-grid.h"
#include "packing.h"
#include "test-scale.h"

#define MOST_POINTS 3000
#define ROUNDS 2000 /* times TRUNNION_TEST_SCALE */

static struct aiVector3D points[MOST_POINTS];

static float
draw (GRand *rand, double low, double high)
{
  return (float)g_rand_double_range (rand, low, high);
}

/* Fills @points with a body of about this size: round it is, or a prism, or anything. */
static void
draw_body (GRand *rand, guint n, double size, const double centre[3])
{
  const int kind = g_rand_int_range (rand, 0, 3);
  const double width = size * g_rand_double_range (rand, 0.01, 1);
  for (guint v = 0; v < n; v++)
    {
      const double turn = g_rand_double_range (rand, 0, 2 * G_PI);
      float x = draw (rand, -size / 2, size / 2), y = draw (rand, -width / 2, width / 2);
      float z = draw (rand, -width / 2, width / 2);
      if (kind != 0)
        {
          x = (float)(size / 2 * cos (turn));
          y = (float)(width / 2 * sin (turn));
        }
      if (kind == 2)
        z = g_rand_boolean (rand) ? (float)width / 2 : 0;
      points[v]
          = (struct aiVector3D){ x + (float)centre[0], y + (float)centre[1], z + (float)centre[2] };
    }
}

static GRand *
rand_new (void)
{
  const guint32 seed = (guint32)g_test_rand_int ();
  g_test_message ("seed %u", seed);
  return g_rand_new_with_seed (seed);
}

/* Packs the points. Asserts what holds on any grid, and returns what was found. */
static TrnPackedAnswer
pack_and_find (const Packing *packing, guint n, TrnPackedGrid *grid)
{
  const double moved = packing_round (packing, points, n), pitch = (double)packing_pitch (packing);
  const TrnPackedAnswer answer = trn_packed_grid_find (points, n, grid);
  g_assert_cmpint (answer, !=, TRN_PACKED_NO_MEMORY);
  if (answer == TRN_PACKED_UNKNOWN)
    return answer;
  if (grid->pitch < pitch || grid->loss < moved)
    g_test_message ("%u points, %u bits: pitch %g of %g, loss %g of %g", n, packing->bits,
                    grid->pitch, pitch, grid->loss, moved);
  g_assert_cmpfloat (grid->pitch, >=, pitch);
  g_assert_cmpfloat (grid->loss, >=, moved);
  return answer;
}

/* Grids of their own, fine and coarse, of few and many points, near and far from the origin. */
static void
test_own (void)
{
  g_autoptr (GRand) rand = rand_new ();
  guint found = 0;
  const guint rounds = test_scaled (ROUNDS);
  for (guint r = 0; r < rounds; r++)
    {
      const guint n = (guint)pow (10, g_rand_double_range (rand, 0.5, 3));
      const double size = pow (10, g_rand_double_range (rand, -3, 3));
      const double away = size * pow (10, g_rand_double_range (rand, -2, 3));
      const double centre[3] = { draw (rand, -away, away), draw (rand, -away, away),
                                 g_rand_boolean (rand) ? 0 : draw (rand, -away, away) };
      TrnPackedGrid grid;
      draw_body (rand, n, size, centre);
      const Packing packing = packing_own (points, n, (guint)g_rand_int_range (rand, 6, 25));
      found += pack_and_find (&packing, n, &grid) == TRN_PACKED_KNOWN;
    }
  g_test_message ("%u of %u known", found, rounds);
  g_assert_cmpuint (found, >, rounds / 4);
}

/* Ordinary ones are known, and the bound on the pitch is within one per cent of it. That on the
 * loss has half of the pitch in it and roundings by 2^-24: 9 of 2^16 pitches, 0.035 of a pitch, or
 * at most 37 of the sum of an axis' ends, which is 1.5 times the size here. */
static void
test_ordinary (void)
{
  g_autoptr (GRand) rand = rand_new ();
  for (guint bits = 8; bits <= 16; bits++)
    for (guint r = 0; r < test_scaled (20); r++)
      {
        const double size = pow (10, g_rand_double_range (rand, -3, 3));
        const double centre[3]
            = { draw (rand, -size / 2, size / 2), draw (rand, -size / 2, size / 2),
                draw (rand, -size / 2, size / 2) };
        TrnPackedGrid grid;
        draw_body (rand, MOST_POINTS, size, centre);
        const Packing packing = packing_own (points, MOST_POINTS, bits);
        g_assert_cmpint (pack_and_find (&packing, MOST_POINTS, &grid), ==, TRN_PACKED_KNOWN);
        const double pitch = (double)packing_pitch (&packing);
        g_test_message ("%u bits: pitch %g, loss %g", bits, grid.pitch / pitch,
                        grid.loss / (pitch / 2));
        g_assert_cmpfloat (grid.pitch, <, 1.01 * pitch);
        g_assert_cmpfloat (grid.loss, <, 1.03 * (0.5 + 0.036) * pitch + 60 * 0x1p-24 * size);
      }
}

/* Corners that are all a whole number of three pitches from each other: the bound is three. */
static void
test_common_factor (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);
  Packing packing = { .origin = { 1.1F, -3.3F, 0.7F }, .range = 7.77F, .bits = 12 };
  const float pitch = packing_pitch (&packing);
  for (guint v = 0; v < 500; v++)
    for (int i = 0; i < 3; i++)
      *packing_axis (&points[v], i)
          = packing.origin[i] + (float)(3 * g_rand_int_range (rand, 0, 1366)) * pitch;
  TrnPackedGrid grid;
  g_assert_cmpint (pack_and_find (&packing, 500, &grid), ==, TRN_PACKED_KNOWN);
  g_assert_cmpfloat (grid.pitch, >=, 3 * (double)pitch);
  g_assert_cmpfloat (grid.pitch, <, 3.03 * (double)pitch);
}

/* A grid that was given to the packer. In a quarter of them the pitch has few digits, so that all
 * coordinates are round where the origin is. */
static Packing
draw_packing (GRand *rand, double range)
{
  Packing packing = { .range = (float)range, .bits = (guint)g_rand_int_range (rand, 8, 17) };
  const double steps = (1u << packing.bits) - 1;
  if (g_rand_int_range (rand, 0, 4) == 0)
    packing.range
        = (float)(steps * g_rand_int_range (rand, 1, 8) * exp2 (round (log2 (range / steps))));
  for (int i = 0; i < 3; i++)
    packing.origin[i] = draw (rand, -range, range);
  for (int i = 0; i < 3; i++)
    if (g_rand_boolean (rand))
      packing.origin[i] = roundf (packing.origin[i]);
  return packing;
}

/* Such grids may have origin and range far outside of the mesh, along some axes or all. What looks
 * like a grid of its own by chance is covered too. */
static void
test_given (void)
{
  g_autoptr (GRand) rand = rand_new ();
  guint found = 0;
  const guint rounds = test_scaled (ROUNDS);
  for (guint r = 0; r < rounds; r++)
    {
      const guint n = (guint)pow (10, g_rand_double_range (rand, 0.5, 3));
      const double size = pow (10, g_rand_double_range (rand, -3, 3));
      const double range = size * pow (10, g_rand_double_range (rand, 0.3, 4));
      const Packing packing = draw_packing (rand, range);
      double centre[3];
      for (int i = 0; i < 3; i++)
        {
          const gboolean close = g_rand_boolean (rand);
          const double most = (double)packing.range - size;
          const double from
              = close ? size : g_rand_double_range (rand, size / 2, fmax (size, most));
          centre[i] = (double)packing.origin[i] + fmin (from, most);
        }
      TrnPackedGrid grid;
      draw_body (rand, n, size, centre);
      found += pack_and_find (&packing, n, &grid) == TRN_PACKED_KNOWN;
    }
  g_test_message ("%u of %u known", found, rounds);
  g_assert_cmpuint (found, >, 0);
  g_assert_cmpuint (found, <, rounds);
}

/* A mesh that spans 63, or 64, steps of a grid of 14 bits whose origin is far from it, and is flat:
 * its z is 0, which tells nothing of how far the origin is. 63 is 2^6 − 1, as of a grid of its own;
 * 64 is no part of such a number. */
static void
test_lookalike (void)
{
  const Packing packing = { .origin = { 5.1F, -7.3F, 0 }, .range = 1638.3001F, .bits = 14 };
  const float pitch = packing_pitch (&packing);
  for (guint steps = 63; steps <= 64; steps++)
    {
      for (guint v = 0; v <= steps; v++)
        points[v] = (struct aiVector3D){ packing.origin[0] + (float)v * pitch,
                                         packing.origin[1] + (float)(v * v % 32) * pitch, 0 };
      TrnPackedGrid grid;
      g_assert_cmpint (pack_and_find (&packing, steps + 1, &grid), ==,
                       steps == 63 ? TRN_PACKED_KNOWN : TRN_PACKED_UNKNOWN);
      if (steps == 63)
        /* 16 bits of rounding: 9 u · 2^16 p */
        g_assert_cmpfloat (grid.loss, >=, (0.5 + 9 * 0x1p-8) * (double)pitch);
    }
}

/* No two corners, no two that are apart, and round numbers alone, as an origin may be at any whole
 * number: none of them tells anything. What is not finite is left aside. */
static void
test_unknown (void)
{
  TrnPackedGrid grid;
  g_assert_cmpint (trn_packed_grid_find (NULL, 0, &grid), ==, TRN_PACKED_UNKNOWN);
  for (guint v = 0; v < 8; v++)
    points[v] = (struct aiVector3D){ 1.1F, 2.2F, 3.3F };
  g_assert_cmpint (trn_packed_grid_find (points, 8, &grid), ==, TRN_PACKED_UNKNOWN);
  for (guint v = 0; v < 8; v++)
    points[v] = (struct aiVector3D){ (float)(v & 1), (float)(v & 2), (float)(v & 4) };
  g_assert_cmpint (trn_packed_grid_find (points, 8, &grid), ==, TRN_PACKED_UNKNOWN);
  points[8] = (struct aiVector3D){ NAN, 0, 0 };
  points[9] = (struct aiVector3D){ 0, 0, -INFINITY };
  g_assert_cmpint (trn_packed_grid_find (points, 10, &grid), ==, TRN_PACKED_UNKNOWN);

  g_autoptr (GRand) rand = g_rand_new_with_seed (5);
  const double centre[3] = { 0, 0, 0 };
  draw_body (rand, 300, 1, centre);
  const Packing packing = packing_own (points, 300, 11);
  g_assert_cmpint (pack_and_find (&packing, 300, &grid), ==, TRN_PACKED_KNOWN);
  points[300] = (struct aiVector3D){ NAN, 100, 100 };
  points[301] = (struct aiVector3D){ 100, 100, INFINITY };
  TrnPackedGrid other;
  g_assert_cmpint (trn_packed_grid_find (points, 302, &other), ==, TRN_PACKED_KNOWN);
  g_assert_cmpfloat (other.pitch, ==, grid.pitch);
  g_assert_cmpfloat (other.loss, ==, grid.loss);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/import/packed-grid/own", test_own);
  g_test_add_func ("/import/packed-grid/ordinary", test_ordinary);
  g_test_add_func ("/import/packed-grid/common-factor", test_common_factor);
  g_test_add_func ("/import/packed-grid/given", test_given);
  g_test_add_func ("/import/packed-grid/lookalike", test_lookalike);
  g_test_add_func ("/import/packed-grid/unknown", test_unknown);
  return g_test_run ();
}
