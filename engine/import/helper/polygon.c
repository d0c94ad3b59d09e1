#include "polygon.h"

#include <math.h>
#include <string.h>

typedef struct
{
  double u, v;
} Flat;

/* A polygon that is being cut: the corners that are left, as a ring. */
typedef struct
{
  const Flat *points;
  guint32 *next, *previous;
} Ring;

/* Twice the area, positive when a, b, c run counter-clockwise. */
static double
area_twice (Flat a, Flat b, Flat c)
{
  return (b.u - a.u) * (c.v - a.v) - (b.v - a.v) * (c.u - a.u);
}

/* Newell's: twice the area that the polygon has along each axis. */
static void
normal_make (const double (*corners)[3], guint32 n, double normal[3])
{
  const double *o = corners[0];
  for (guint32 i = 1; i + 1 < n; i++)
    {
      const double *p = corners[i], *q = corners[i + 1];
      double a[3] = { p[0] - o[0], p[1] - o[1], p[2] - o[2] };
      double b[3] = { q[0] - o[0], q[1] - o[1], q[2] - o[2] };
      for (int k = 0; k < 3; k++)
        normal[k] += a[(k + 1) % 3] * b[(k + 2) % 3] - a[(k + 2) % 3] * b[(k + 1) % 3];
    }
}

double
trn_polygon_warp (const double (*corners)[3], guint32 n)
{
  double normal[3] = { 0, 0, 0 }, lowest = 0, highest = 0;
  if (n == 3)
    return 0;
  normal_make (corners, n, normal);
  double length = hypot (normal[0], hypot (normal[1], normal[2]));
  for (guint32 i = 1; i < n && length > 0; i++)
    {
      double height = 0;
      for (int k = 0; k < 3; k++)
        height += normal[k] * (corners[i][k] - corners[0][k]);
      lowest = fmin (lowest, height / length);
      highest = fmax (highest, height / length);
    }
  return highest - lowest;
}

/* The polygon as seen against its normal, counter-clockwise. */
static void
flatten (const double (*corners)[3], guint32 n, Flat *points)
{
  double normal[3] = { 0, 0, 0 };
  normal_make (corners, n, normal);
  int axis = 0;
  for (int k = 1; k < 3; k++)
    if (fabs (normal[k]) > fabs (normal[axis]))
      axis = k;
  for (guint32 i = 0; i < n; i++)
    {
      double u = corners[i][(axis + 1) % 3], v = corners[i][(axis + 2) % 3];
      points[i] = normal[axis] < 0 ? (Flat){ v, u } : (Flat){ u, v };
    }
}

static gboolean
is_same (Flat a, Flat b)
{
  return a.u == b.u && a.v == b.v;
}

/* Whether the corner can be cut off: it turns left, and no other corner lies in its triangle. */
static gboolean
is_ear (const Ring *ring, guint32 corner)
{
  guint32 before = ring->previous[corner], after = ring->next[corner];
  Flat a = ring->points[before], b = ring->points[corner], c = ring->points[after];
  if (!(area_twice (a, b, c) > 0))
    return FALSE;
  for (guint32 i = ring->next[after]; i != before; i = ring->next[i])
    {
      Flat p = ring->points[i];
      if (is_same (p, a) || is_same (p, b) || is_same (p, c))
        continue;
      if (area_twice (a, b, p) >= 0 && area_twice (b, c, p) >= 0 && area_twice (c, a, p) >= 0)
        return FALSE;
    }
  return TRUE;
}

/* The next corner to cut off, from @start on, or G_MAXUINT32: an ear, else one that lies straight
 * between its neighbours, so that its triangle has no area. */
static guint32
find_corner (const Ring *ring, guint32 start, guint32 left)
{
  guint32 corner = start;
  for (guint32 i = 0; i < left; i++, corner = ring->next[corner])
    if (is_ear (ring, corner))
      return corner;
  for (guint32 i = 0; i < left; i++, corner = ring->next[corner])
    if (area_twice (ring->points[ring->previous[corner]], ring->points[corner],
                    ring->points[ring->next[corner]])
        == 0)
      return corner;
  return G_MAXUINT32;
}

static gboolean
clip_ears (const Flat *points, guint32 n, guint32 (*triangles)[3])
{
  g_autofree guint32 *links = g_new (guint32, 2 * (gsize)n);
  Ring ring = { points, links, links + n };
  for (guint32 i = 0; i < n; i++)
    {
      ring.next[i] = i + 1 < n ? i + 1 : 0;
      ring.previous[i] = i > 0 ? i - 1 : n - 1;
    }
  guint32 start = 0;
  for (guint32 left = n; left > 2; left--)
    {
      guint32 corner = find_corner (&ring, start, left);
      if (corner == G_MAXUINT32)
        return FALSE;
      guint32 before = ring.previous[corner], after = ring.next[corner];
      guint32 triangle[3] = { before, corner, after };
      memcpy (*triangles++, triangle, sizeof triangle);
      ring.next[before] = after;
      ring.previous[after] = before;
      /* Not where the last one was cut off: that would make a fan of slivers. */
      start = ring.next[after];
    }
  return TRUE;
}

static gboolean
fan (const Flat *points, guint32 n, guint32 (*triangles)[3])
{
  for (guint32 i = 1; i + 1 < n; i++)
    {
      guint32 triangle[3] = { 0, i, i + 1 };
      if (area_twice (points[0], points[i], points[i + 1]) < 0)
        return FALSE;
      memcpy (triangles[i - 1], triangle, sizeof triangle);
    }
  return TRUE;
}

gboolean
trn_polygon_cut (const double (*corners)[3], guint32 n, guint32 (*triangles)[3])
{
  if (n == 3)
    {
      for (guint32 i = 0; i < 3; i++)
        triangles[0][i] = i;
      return TRUE;
    }
  Flat few[16];
  g_autofree Flat *many = n > G_N_ELEMENTS (few) ? g_new (Flat, n) : NULL;
  Flat *points = many != NULL ? many : few;
  flatten (corners, n, points);
  return fan (points, n, triangles) || clip_ears (points, n, triangles);
}

guint32
trn_polygon_cover (guint32 n, guint32 (*triangles)[3])
{
  guint32 count = 0;
  if (n > TRN_POLYGON_COVER_CORNERS)
    return 0;
  for (guint32 i = 0; i < n; i++)
    for (guint32 j = i + 1; j < n; j++)
      for (guint32 k = j + 1; k < n; k++)
        {
          guint32 triangle[3] = { i, j, k };
          memcpy (triangles[count++], triangle, sizeof triangle);
        }
  return count;
}
