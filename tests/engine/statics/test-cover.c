/* What is left of a rectangle. */
#include "cover.h"

#include "test-scale.h"

#define NEAR 1e-8 /* slivers and seams, some hundred of them */

static TrnCoverPiece
box (double left, double low, double right, double high)
{
  const TrnLevelPoint p[] = { { left, low }, { right, low }, { right, high }, { left, high } };
  return trn_cover_piece_make (p, 4);
}

static double
left_m2 (TrnLevelPoint lo, TrnLevelPoint hi, const TrnCoverPiece *polygons, guint n)
{
  double sum_m2;
  g_autoptr (GArray) left = trn_cover_left (lo, hi, polygons, n, &sum_m2);
  for (guint i = 0; i < left->len; i++)
    sum_m2 += trn_cover_area_m2 (&g_array_index (left, TrnCoverPiece, i));
  return sum_m2;
}

static double
left_of_square (const TrnCoverPiece *polygons, guint n)
{
  return left_m2 ((TrnLevelPoint){ 0, 0 }, (TrnLevelPoint){ 2, 2 }, polygons, n);
}

/* A square of 4 m²: with nothing, with a half of it, with a middle of 1 m² that leaves a frame,
 * with a corner cut off by a triangle of 0.5 m², with two overlapping halves, with what only
 * touches it, and with four rectangles round a hole of 0.01 m². */
static void
test_square (void)
{
  const TrnCoverPiece half = box (-1, -1, 1, 3), middle = box (0.5, 0.5, 1.5, 1.5);
  const TrnLevelPoint corner_points[] = { { 0, 0 }, { 1, 0 }, { 0, 1 } };
  const TrnCoverPiece corner = trn_cover_piece_make (corner_points, 3);
  const TrnCoverPiece halves[] = { half, box (0.7, 0, 2, 2) };
  const TrnCoverPiece beside[] = { box (2, 0, 3, 2), box (-1, -1, 0, 0) };
  const TrnCoverPiece round[]
      = { box (0, 0, 1, 2), box (1.1, 0, 2, 2), box (0, 0, 2, 1), box (0, 1.1, 2, 2) };
  g_assert_cmpfloat_with_epsilon (left_of_square (NULL, 0), 4, NEAR);
  g_assert_cmpfloat_with_epsilon (left_of_square (&half, 1), 2, NEAR);
  g_assert_cmpfloat_with_epsilon (left_of_square (&middle, 1), 3, NEAR);
  g_assert_cmpfloat_with_epsilon (left_of_square (&corner, 1), 3.5, NEAR);
  g_assert_cmpfloat_with_epsilon (left_of_square (halves, 2), 0, NEAR);
  g_assert_cmpfloat_with_epsilon (left_of_square (beside, 2), 4, NEAR);
  g_assert_cmpfloat_with_epsilon (left_of_square (round, 4), 0.01, NEAR);
}

/* A polygon whose corners are one and the same, in the middle of the square, takes nothing off. */
static void
test_point (void)
{
  const TrnLevelPoint corners[] = { { 1, 1 }, { 1, 1 }, { 1, 1 } };
  const TrnCoverPiece point = trn_cover_piece_make (corners, 3);
  g_assert_cmpfloat_with_epsilon (left_of_square (&point, 1), 4, NEAR);
}

/* A corner twice but for rounding: the edge between runs against the others, and has all of the
 * square outside. */
static void
test_same_corners (void)
{
  const TrnLevelPoint corners[] = { { 0, 0 }, { 2, 0 }, { 2, 2 }, { 2, nextafter (2, 0) } };
  const TrnCoverPiece triangle = trn_cover_piece_make (corners, G_N_ELEMENTS (corners));
  g_assert_cmpfloat_with_epsilon (left_of_square (&triangle, 1), 2, NEAR);
}

/* Slivers from one place far off to places on a line far behind the square, some 80 of them over
 * it: each of their boxes has all of the square, and no halving parts these. */
static void
test_fan (void)
{
  enum
  {
    N = 400
  };
  TrnCoverPiece fan[N];
  for (guint i = 0; i < N; i++)
    {
      const double from = 20.0 * i / N, to = 20.0 * (i + 1) / N;
      const TrnLevelPoint p[] = { { -20, -20 }, { 30 - from, 10 + from }, { 30 - to, 10 + to } };
      fan[i] = trn_cover_piece_make (p, 3);
    }
  g_assert_cmpfloat_with_epsilon (left_of_square (fan, N), 0, 1e-6);
}

static gboolean
is_in (const TrnCoverPiece *piece, double x, double y)
{
  for (guint i = 0; i < piece->n; i++)
    {
      const TrnLevelPoint p = piece->p[i], q = piece->p[i + 1 < piece->n ? i + 1 : 0];
      if ((q.x_m - p.x_m) * (y - p.y_m) - (q.y_m - p.y_m) * (x - p.x_m) < 0)
        return FALSE;
    }
  return TRUE;
}

static guint
n_in (const TrnCoverPiece *pieces, guint n, double x, double y)
{
  guint in = 0;
  for (guint i = 0; i < n; i++)
    in += is_in (&pieces[i], x, y);
  return in;
}

static TrnCoverPiece
random_triangle (GRand *rand)
{
  const double x = g_rand_double_range (rand, -1, 11), y = g_rand_double_range (rand, -1, 7);
  TrnLevelPoint p[3];
  for (int i = 0; i < 3; i++)
    {
      const double angle = (i + g_rand_double (rand)) * 2 * G_PI / 3;
      const double size = g_rand_double_range (rand, 0.1, 3);
      p[i] = (TrnLevelPoint){ x + size * cos (angle), y + size * sin (angle) };
    }
  return trn_cover_piece_make (p, 3);
}

/* Triangles anywhere, overlapping as they come: of random places those in a triangle are in no
 * piece that is left, all others in one, and none in two. Places on an edge are as good as never
 * met. */
static void
test_random (void)
{
  guint32 seed = (guint32)g_test_rand_int ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_test_message ("seed %u", seed);
  for (guint run = 0; run < test_scaled (200); run++)
    {
      TrnCoverPiece triangles[80];
      const guint n = (guint)g_rand_int_range (rand, 0, 80);
      for (guint i = 0; i < n; i++)
        triangles[i] = random_triangle (rand);
      double lost_m2;
      g_autoptr (GArray) left = trn_cover_left ((TrnLevelPoint){ 0, 0 }, (TrnLevelPoint){ 10, 6 },
                                                triangles, n, &lost_m2);
      const TrnCoverPiece *pieces = (const TrnCoverPiece *)(void *)left->data;
      g_assert_cmpfloat (lost_m2, <, 1e-6);
      for (guint i = 0; i < 200; i++)
        {
          const double x = g_rand_double_range (rand, 0, 10), y = g_rand_double_range (rand, 0, 6);
          const guint expected = n_in (triangles, n, x, y) == 0;
          g_assert_cmpuint (n_in (pieces, left->len, x, y), ==, expected);
        }
    }
}

/* 200,000 triangles of a net with a hole of 1 m²: nothing else is left. Says how long it takes. */
static void
test_many (void)
{
  enum
  {
    N = 317
  };
  g_autofree TrnCoverPiece *net = g_new (TrnCoverPiece, 2 * N * N);
  guint n = 0;
  for (guint y = 0; y < N; y++)
    for (guint x = 0; x < N; x++)
      {
        const TrnLevelPoint a[] = { { x, y }, { x + 1, y }, { x + 1, y + 1 } };
        const TrnLevelPoint b[] = { { x, y }, { x + 1, y + 1 }, { x, y + 1 } };
        if (x == 100 && y == 200)
          continue;
        net[n++] = trn_cover_piece_make (a, 3);
        net[n++] = trn_cover_piece_make (b, 3);
      }
  const gint64 begins = g_get_monotonic_time ();
  const double left
      = left_m2 ((TrnLevelPoint){ 0.5, 0.5 }, (TrnLevelPoint){ N - 0.5, N - 0.5 }, net, n);
  g_test_message ("%u triangles in %.1f ms", n, (double)(g_get_monotonic_time () - begins) / 1e3);
  g_assert_cmpfloat_with_epsilon (left, 1, 1e-4);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/statics/cover/square", test_square);
  g_test_add_func ("/statics/cover/point", test_point);
  g_test_add_func ("/statics/cover/same-corners", test_same_corners);
  g_test_add_func ("/statics/cover/fan", test_fan);
  g_test_add_func ("/statics/cover/random", test_random);
  g_test_add_func ("/statics/cover/many", test_many);
  return g_test_run ();
}
