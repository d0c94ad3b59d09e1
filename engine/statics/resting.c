/* Within a convex hull the distance from the edge is the least of the distances from its sides'
 * lines; outside it is minus the distance from the hull.
 *
 * The signed distance is concave: within, a least of linear functions; outside, minus a convex one;
 * and it bends down where both meet. Its least over a rectangle is therefore at a corner. */
#include "resting.h"

#include "plane.h"

static TrnPlanePoint
in_plane (TrnLevelPoint point, guint index)
{
  return (TrnPlanePoint){ point.x_m, point.y_m, index };
}

/* Owned by the caller. @n receives its number of corners; @n_points must be above 0. */
static TrnPlanePoint *
hull_make (const TrnLevelPoint *all, guint n_points, guint *n)
{
  g_autofree TrnPlanePoint *points = g_new (TrnPlanePoint, n_points);
  TrnPlanePoint *hull = g_new (TrnPlanePoint, 2 * n_points);
  for (guint i = 0; i < n_points; i++)
    points[i] = in_plane (all[i], i);
  *n = trn_plane_hull (points, n_points, hull);
  return hull;
}

static double
margin_of (const TrnPlanePoint *hull, guint n, const TrnPlanePoint *point)
{
  double least = INFINITY;
  gboolean is_within = n >= 3;
  for (guint i = 0; i < n; i++)
    {
      const TrnPlanePoint *a = &hull[i], *b = &hull[(i + 1) % n];
      is_within = is_within && trn_plane_turn (a, b, point) > 0;
      least = fmin (least, trn_plane_off_segment (a, b, point));
    }
  return is_within ? least : -least;
}

double
trn_resting_margin_m (const TrnLevelPoint *supports, guint n_supports, TrnLevelPoint cog)
{
  if (n_supports == 0)
    return -INFINITY;
  guint n;
  g_autofree TrnPlanePoint *hull = hull_make (supports, n_supports, &n);
  const TrnPlanePoint at = in_plane (cog, 0);
  return margin_of (hull, n, &at);
}

guint
trn_resting_corners (TrnLevelPoint *points, guint n_points)
{
  if (n_points == 0)
    return 0;
  guint n;
  g_autofree TrnPlanePoint *hull = hull_make (points, n_points, &n);
  for (guint i = 0; i < n; i++)
    points[i] = (TrnLevelPoint){ hull[i].x, hull[i].y };
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
  g_autofree TrnPlanePoint *hull = hull_make (supports, n_supports, &n);
  g_autofree TrnPlanePoint *corners = hull_make (wider, n_wider, &n_corners);
  for (guint i = 0; i < n_corners; i++)
    beyond = fmax (beyond, -margin_of (hull, n, &corners[i]));
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
