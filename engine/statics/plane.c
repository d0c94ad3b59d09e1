#include "plane.h"

#include <stdlib.h>

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
static guint
add_to_chain (TrnPlanePoint *chain, guint begin, guint used, const TrnPlanePoint *point)
{
  while (used >= begin + 2 && trn_plane_turn (&chain[used - 2], &chain[used - 1], point) <= 0)
    used--;
  chain[used++] = *point;
  return used;
}

guint
trn_plane_hull (TrnPlanePoint *points, guint n, TrnPlanePoint *hull)
{
  guint kept = 0, used = 0;
  qsort (points, n, sizeof *points, compare);
  for (guint i = 0; i < n; i++)
    if (i == 0 || compare (&points[i], &points[kept - 1]) != 0)
      points[kept++] = points[i];
  for (guint i = 0; i < kept; i++)
    used = add_to_chain (hull, 0, used, &points[i]);
  if (kept < 2)
    return used;
  const guint begin = used - 1;
  for (guint i = kept - 1; i-- > 0;)
    used = add_to_chain (hull, begin, used, &points[i]);
  return used - 1; /* the first once more */
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
