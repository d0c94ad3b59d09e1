#include "plane.h"

#include <stdlib.h>
#include <string.h>

double
trn_plane_off_segment (const TrnPlanePoint *a, const TrnPlanePoint *b, const TrnPlanePoint *p)
{
  const double x = b->x - a->x, y = b->y - a->y, square = x * x + y * y;
  const double along = square > 0 ? ((p->x - a->x) * x + (p->y - a->y) * y) / square : 0;
  const double t = CLAMP (along, 0, 1);
  return hypot (p->x - a->x - t * x, p->y - a->y - t * y);
}

static int
compare (gconstpointer a, gconstpointer b)
{
  const TrnPlanePoint *p = a, *q = b;
  if (p->x != q->x)
    return p->x < q->x ? -1 : 1;
  return (p->y > q->y) - (p->y < q->y);
}

/* Of the chain that begins at @begin; returns the number of corners of both then. */
static inline guint
add_to_chain (TrnPlanePoint *chain, guint begin, guint used, const TrnPlanePoint *point)
{
  while (used >= begin + 2 && trn_plane_turn (&chain[used - 2], &chain[used - 1], point) <= 0)
    used--;
  chain[used++] = *point;
  return used;
}

#define MOST_SHELVES 512u
#define MANY 24 /* on a shelf */

static void
sort (TrnPlanePoint *points, guint n)
{
  if (n > MANY)
    {
      qsort (points, n, sizeof *points, compare);
      return;
    }
  for (guint i = 1; i < n; i++)
    {
      const TrnPlanePoint point = points[i];
      guint k = i;
      for (; k > 0 && compare (&points[k - 1], &point) > 0; k--)
        points[k] = points[k - 1];
      points[k] = point;
    }
}

/* As qsort() would, but first onto shelves by how far right they are, about one a point: a hull is
 * often wanted. There is room for 2 @n. */
static void
sort_points (TrnPlanePoint *points, guint n, TrnPlanePoint *room)
{
  if (n <= MANY)
    {
      sort (points, n);
      return;
    }
  double lo = INFINITY, hi = -INFINITY;
  for (guint i = 0; i < n; i++)
    {
      lo = points[i].x < lo ? points[i].x : lo;
      hi = points[i].x > hi ? points[i].x : hi;
    }
  const guint shelves = MIN (n, MOST_SHELVES), last = MAX (shelves, 1) - 1;
  const double by = shelves / (hi - lo);
  if (!isfinite (by))
    {
      sort (points, n);
      return;
    }
  guint ends[MOST_SHELVES + 1];
  TrnPlanePoint *shelf = room + n; /* of each, as its index */
  memset (ends, 0, (shelves + 1) * sizeof *ends);
  for (guint i = 0; i < n; i++)
    {
      shelf[i].index = MIN ((guint)((points[i].x - lo) * by), last);
      ends[shelf[i].index + 1]++;
    }
  for (guint i = 0; i < shelves; i++)
    ends[i + 1] += ends[i];
  for (guint i = 0; i < n; i++)
    room[ends[shelf[i].index]++] = points[i];
  memcpy (points, room, n * sizeof *points);
  /* Where each ended is where the next began. */
  for (guint i = 0, begin = 0; i < shelves; begin = ends[i++])
    if (ends[i] > begin + 1)
      sort (points + begin, ends[i] - begin);
}

/* What is above the line from the first to the last is no corner of the chain below, nor the other
 * way round. */
guint
trn_plane_hull (TrnPlanePoint *points, guint n, TrnPlanePoint *hull)
{
  guint above = 0, used = 0;
  sort_points (points, n, hull);
  if (n == 0)
    return 0;
  const TrnPlanePoint first = points[0], last = points[n - 1];
  for (guint i = 0; i < n; i++)
    {
      const TrnPlanePoint point = points[i];
      if (trn_plane_turn (&first, &last, &point) > 0)
        points[above++] = point;
      else if (used == 0 || compare (&point, &hull[used - 1]) != 0)
        used = add_to_chain (hull, 0, used, &point);
    }
  if (used < 2)
    return used;
  const guint begin = used - 1;
  while (above-- > 0)
    if (compare (&points[above], &hull[used - 1]) != 0)
      used = add_to_chain (hull, begin, used, &points[above]);
  return add_to_chain (hull, begin, used, &first) - 1; /* the first once more */
}

double
trn_plane_area (const TrnPlanePoint *corners, guint n)
{
  double twice = 0;
  for (guint i = 0; i < n; i++)
    {
      const TrnPlanePoint *a = &corners[i], *b = &corners[(i + 1) % n];
      twice += a->x * b->y - a->y * b->x;
    }
  return 0.5 * twice;
}
