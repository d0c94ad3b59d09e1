#include "polygon.h"

void
trn_polygon_cut (TrnPolygon *polygon, TrnVec3 normal, double offset)
{
  TrnPolygon old = *polygon;
  polygon->n_corners = 0;
  for (guint i = 0; i < old.n_corners; i++)
    {
      TrnVec3 a = old.corners[i], b = old.corners[(i + 1) % old.n_corners];
      double in_a = trn_vec3_dot (normal, a) - offset, in_b = trn_vec3_dot (normal, b) - offset;
      if (in_a >= 0)
        polygon->corners[polygon->n_corners++] = a;
      if ((in_a > 0 && in_b < 0) || (in_a < 0 && in_b > 0))
        polygon->corners[polygon->n_corners++] = trn_vec3_mix (a, b, in_a / (in_a - in_b));
      g_assert (polygon->n_corners < TRN_POLYGON_MAX || i + 1 == old.n_corners);
    }
}

static double
cross (TrnVec3 o, TrnVec3 a, TrnVec3 b)
{
  return (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x);
}

static double
point_segment (TrnVec3 p, TrnVec3 a, TrnVec3 b)
{
  double ux = b.x - a.x, uy = b.y - a.y, length2 = ux * ux + uy * uy;
  double t = length2 > 0 ? ((p.x - a.x) * ux + (p.y - a.y) * uy) / length2 : 0;
  t = CLAMP (t, 0, 1);
  return hypot (a.x + t * ux - p.x, a.y + t * uy - p.y);
}

static double
segment_segment (TrnVec3 a, TrnVec3 b, TrnVec3 c, TrnVec3 d)
{
  double c_side = cross (a, b, c), d_side = cross (a, b, d);
  double a_side = cross (c, d, a), b_side = cross (c, d, b);
  if (c_side * d_side < 0 && a_side * b_side < 0)
    return 0;
  return fmin (fmin (point_segment (a, c, d), point_segment (b, c, d)),
               fmin (point_segment (c, a, b), point_segment (d, a, b)));
}

/* Whether @p lies within, seen along z; a polygon seen edge on has no inside. */
static gboolean
contains (const TrnPolygon *polygon, TrnVec3 p)
{
  gboolean left = FALSE, right = FALSE;
  for (guint i = 0; i < polygon->n_corners; i++)
    {
      double side = cross (polygon->corners[i], polygon->corners[(i + 1) % polygon->n_corners], p);
      left |= side > 0;
      right |= side < 0;
    }
  return left != right;
}

double
trn_polygon_distance (const TrnPolygon *polygon, TrnVec3 a, TrnVec3 b)
{
  double least = INFINITY;
  if (polygon->n_corners >= 3 && contains (polygon, a))
    return 0;
  for (guint i = 0; i < polygon->n_corners; i++)
    least = fmin (least, segment_segment (polygon->corners[i],
                                          polygon->corners[(i + 1) % polygon->n_corners], a, b));
  return least;
}
