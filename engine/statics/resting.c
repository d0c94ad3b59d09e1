/* Within a convex hull the distance from the edge is the least of the distances from its sides'
 * lines; outside it is minus the distance from the hull. Hull by Andrew's monotone chain (1979).
 *
 * The signed distance is concave: within, a least of linear functions; outside, minus a convex one;
 * and it bends down where both meet. Its least over a rectangle is therefore at a corner. */
#include "resting.h"

#include <stdlib.h>
#include <string.h>

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

/* Counter-clockwise; owned by the caller. @n receives its number of corners, 0 for all in one
 * place, which is the first. @n_points must be above 0. */
static TrnLevelPoint *
hull_make (const TrnLevelPoint *all, guint n_points, guint *n)
{
  g_autofree TrnLevelPoint *points = g_memdup2 (all, n_points * sizeof *points);
  TrnLevelPoint *hull = g_new (TrnLevelPoint, 2 * n_points + 1);
  qsort (points, n_points, sizeof *points, compare);
  *n = add_chain (points, n_points, FALSE, hull, 0);
  *n = add_chain (points, n_points, TRUE, hull, *n);
  hull[0] = points[0];
  return hull;
}

static double
margin_of (const TrnLevelPoint *hull, guint n, TrnLevelPoint point)
{
  double least = n == 0 ? distance_from_side (point, hull[0], hull[0]) : INFINITY;
  gboolean is_within = n >= 3;
  for (guint i = 0; i < n; i++)
    {
      TrnLevelPoint a = hull[i], b = hull[(i + 1) % n];
      is_within = is_within && turn (a, b, point) > 0;
      least = fmin (least, distance_from_side (point, a, b));
    }
  return is_within ? least : -least;
}

double
trn_resting_margin_m (const TrnLevelPoint *supports, guint n_supports, TrnLevelPoint cog)
{
  if (n_supports == 0)
    return -INFINITY;
  guint n;
  g_autofree TrnLevelPoint *hull = hull_make (supports, n_supports, &n);
  return margin_of (hull, n, cog);
}

guint
trn_resting_corners (TrnLevelPoint *points, guint n_points)
{
  if (n_points == 0)
    return 0;
  guint n;
  g_autofree TrnLevelPoint *hull = hull_make (points, n_points, &n);
  n = MAX (n, 1);
  memcpy (points, hull, n * sizeof *points);
  return n;
}

double
trn_resting_beyond_m (const TrnLevelPoint *supports, guint n_supports, const TrnLevelPoint *wider,
                      guint n_wider)
{
  double beyond = 0;
  guint n, n_corners;
  if (n_supports == 0 || n_wider == 0)
    return n_wider == 0 ? 0 : INFINITY;
  g_autofree TrnLevelPoint *hull = hull_make (supports, n_supports, &n);
  g_autofree TrnLevelPoint *corners = hull_make (wider, n_wider, &n_corners);
  for (guint i = 0; i < MAX (n_corners, 1); i++)
    beyond = fmax (beyond, -margin_of (hull, n, corners[i]));
  return beyond;
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
