/* Within a convex hull the distance from the edge is the least of the distances from its sides'
 * lines; outside it is minus the distance from the hull. Hull by Andrew's monotone chain (1979).
 *
 * The signed distance is concave: within, a least of linear functions; outside, minus a convex one;
 * and it bends down where both meet. Its least over a rectangle is therefore at a corner. */
#include "resting.h"

#include <stdlib.h>

static int
compare (gconstpointer a, gconstpointer b)
{
  const TrnLevelPoint *p = a, *q = b;
  if (p->x_m != q->x_m)
    return p->x_m < q->x_m ? -1 : 1;
  return (p->y_m > q->y_m) - (p->y_m < q->y_m);
}

/* Twice the area of a, b, c: positive counter-clockwise. */
static double
turn (TrnLevelPoint a, TrnLevelPoint b, TrnLevelPoint c)
{
  return (b.x_m - a.x_m) * (c.y_m - a.y_m) - (b.y_m - a.y_m) * (c.x_m - a.x_m);
}

/* One chain, from the first to the last of the sorted points; returns how many corners @hull has
 * then. */
static guint
add_chain (const TrnLevelPoint *points, guint n, gboolean backwards, TrnLevelPoint *hull,
           guint used)
{
  const guint first = used;
  for (guint i = 0; i < n; i++)
    {
      TrnLevelPoint p = points[backwards ? n - 1 - i : i];
      while (used >= first + 2 && turn (hull[used - 2], hull[used - 1], p) <= 0)
        used--;
      hull[used++] = p;
    }
  return used - 1;
}

static double
distance_from_side (TrnLevelPoint p, TrnLevelPoint a, TrnLevelPoint b)
{
  double ux = b.x_m - a.x_m, uy = b.y_m - a.y_m, length2 = ux * ux + uy * uy;
  double t = length2 > 0 ? ((p.x_m - a.x_m) * ux + (p.y_m - a.y_m) * uy) / length2 : 0;
  t = CLAMP (t, 0, 1);
  return hypot (a.x_m + t * ux - p.x_m, a.y_m + t * uy - p.y_m);
}

double
trn_resting_margin_m (const TrnLevelPoint *supports, guint n_supports, TrnLevelPoint cog)
{
  if (n_supports == 0)
    return -INFINITY;
  g_autofree TrnLevelPoint *points = g_memdup2 (supports, n_supports * sizeof *points);
  g_autofree TrnLevelPoint *hull = g_new (TrnLevelPoint, 2 * n_supports + 1);
  qsort (points, n_supports, sizeof *points, compare);
  guint n = add_chain (points, n_supports, FALSE, hull, 0);
  n = add_chain (points, n_supports, TRUE, hull, n);
  double least = n == 0 ? distance_from_side (cog, points[0], points[0]) : INFINITY;
  gboolean is_within = n >= 3;
  for (guint i = 0; i < n; i++)
    {
      TrnLevelPoint a = hull[i], b = hull[(i + 1) % n];
      is_within = is_within && turn (a, b, cog) > 0;
      least = fmin (least, distance_from_side (cog, a, b));
    }
  return is_within ? least : -least;
}

double
trn_resting_margin_over_m (const TrnLevelPoint *supports, guint n_supports, TrnLevelPoint lo,
                           TrnLevelPoint hi)
{
  double least = INFINITY;
  for (int i = 0; i < 4; i++)
    {
      TrnLevelPoint corner = { i & 1 ? hi.x_m : lo.x_m, i & 2 ? hi.y_m : lo.y_m };
      least = fmin (least, trn_resting_margin_m (supports, n_supports, corner));
    }
  return least;
}
