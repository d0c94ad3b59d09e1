/* Points of a plane that may be corners of their hull, and the hull. Places come from a coarse grid
 * as well, where many are equally far, and in all numbers, so that the last ones do not fill the
 * lanes. */
#include "outermost.h"
#include "support.h"
#include "test-scale.h"

#define MOST 70u

/* @grid 0: anywhere; @flat: along one line; all within @high of the level. */
static void
fill (double *x, double *y, guint n, guint grid, gboolean flat, double high)
{
  for (guint i = 0; i < n; i++)
    {
      x[i] = g_test_rand_double_range (-1, 1);
      y[i] = flat ? 0.5 * x[i] : g_test_rand_double_range (-1, 1);
      if (grid > 0 && !flat)
        {
          x[i] = round (x[i] * grid);
          y[i] = round (y[i] * grid);
        }
      y[i] *= high;
    }
}

static void
assert_same_place (const TrnPlanePoint *a, const TrnPlanePoint *b)
{
  g_assert_cmpuint (a->index, ==, b->index);
  g_assert_true (a->x == b->x && a->y == b->y);
}

/* Both ways keep the same, the hull of which holds all but for rounding. */
static void
judge (const double *x, const double *y, guint n, double high)
{
  TrnPlanePoint kept[2][MOST], hull[2 * MOST];
  guint n_kept[2];
  for (TrnSupportKind kind = TRN_SUPPORT_BEST; kind <= TRN_SUPPORT_SCALAR; kind++)
    {
      trn_support_choose (kind);
      n_kept[kind] = trn_outermost_keep (x, y, n, kept[kind]);
    }
  trn_support_choose (TRN_SUPPORT_BEST);
  g_assert_cmpuint (n_kept[0], ==, n_kept[1]);
  for (guint i = 0; i < n_kept[0]; i++)
    {
      assert_same_place (&kept[0][i], &kept[1][i]);
      g_assert_true (i == 0 || kept[0][i].index > kept[0][i - 1].index);
    }
  const guint n_hull = trn_plane_hull (kept[0], n_kept[0], hull);
  for (guint i = 0; i < n_hull; i++)
    for (guint k = 0; k < n; k++)
      {
        const TrnPlanePoint p = { x[k], y[k], k };
        g_assert_cmpfloat (trn_plane_turn (&hull[i], &hull[(i + 1) % n_hull], &p), >=,
                           -1e-12 * high);
      }
}

static void
test_keep (void)
{
  static const guint grids[] = { 0, 1, 2, 5 };
  double x[MOST], y[MOST];
  for (guint i = 0; i < test_scaled (200); i++)
    for (guint n = 4; n <= MOST; n++)
      {
        const double high = i % 3 == 2 ? 1e-9 : 1;
        fill (x, y, n, grids[(i + n) % G_N_ELEMENTS (grids)], i % 16 == 15, high);
        judge (x, y, n, high);
      }
}

/* Of hundreds of points the hull's corners are all on the circle that they were put on; what is
 * within is none. */
static void
test_circle (void)
{
  enum
  {
    ON = 300,
    WITHIN = 700
  };
  TrnPlanePoint *points = g_new (TrnPlanePoint, ON + WITHIN),
                *hull = g_new (TrnPlanePoint, 2 * (ON + WITHIN));
  for (guint i = 0; i < ON + WITHIN; i++)
    {
      const double rad = 2 * G_PI * i / ON,
                   radius = i < ON ? 1 : g_test_rand_double_range (0, 0.99);
      points[i] = (TrnPlanePoint){ radius * cos (rad), radius * sin (rad), i };
    }
  const guint n = trn_plane_hull (points, ON + WITHIN, hull);
  g_assert_cmpuint (n, ==, ON);
  for (guint i = 0; i < n; i++)
    {
      g_assert_cmpuint (hull[i].index, <, ON);
      g_assert_cmpuint (hull[(i + 1) % n].index, ==, (hull[i].index + 1) % ON);
    }
  g_assert_cmpfloat_with_epsilon (trn_plane_area (hull, n), 0.5 * ON * sin (2 * G_PI / ON), 1e-12);
  g_free (points);
  g_free (hull);
}

/* Each coordinate along both directions, as a sum of three products. */
static void
test_place (void)
{
  double along[3][MOST], x[MOST], y[MOST], other_x[MOST], other_y[MOST];
  const double *const points[3] = { along[0], along[1], along[2] };
  const TrnVec3 across = { 0.3, -0.5, 0.8 }, up = { 0.7, 0.2, -0.1 };
  for (guint n = 1; n <= MOST; n++)
    {
      for (guint i = 0; i < 3 * n; i++)
        along[i % 3][i / 3] = g_test_rand_double_range (-9, 9);
      trn_support_choose (TRN_SUPPORT_SCALAR);
      trn_outermost_place (points, n, across, up, other_x, other_y);
      trn_support_choose (TRN_SUPPORT_BEST);
      trn_outermost_place (points, n, across, up, x, y);
      for (guint i = 0; i < n; i++)
        {
          const TrnVec3 p = { along[0][i], along[1][i], along[2][i] };
          g_assert_true (x[i] == trn_vec3_dot (p, across) && y[i] == trn_vec3_dot (p, up));
          g_assert_true (x[i] == other_x[i] && y[i] == other_y[i]);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outermost/keep", test_keep);
  g_test_add_func ("/outermost/circle", test_circle);
  g_test_add_func ("/outermost/place", test_place);
  return g_test_run ();
}
