/* quad.c: see quad.h. */
#include "quad.h"

typedef __float128 Quad;

typedef struct
{
  Quad x, y, z;
} Vec;

static Vec
vec (TrnVec3 a)
{
  return (Vec){ a.x, a.y, a.z };
}

static Vec
sub (Vec a, Vec b)
{
  return (Vec){ a.x - b.x, a.y - b.y, a.z - b.z };
}

static Vec
along (Vec a, Vec d, Quad t)
{
  return (Vec){ a.x + t * d.x, a.y + t * d.y, a.z + t * d.z };
}

static Quad
dot (Vec a, Vec b)
{
  return a.x * b.x + a.y * b.y + a.z * b.z;
}

static Vec
cross (Vec a, Vec b)
{
  return (Vec){ a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x };
}

static Quad
least (Quad a, Quad b)
{
  return a < b ? a : b;
}

Quad
quad_sqrt (Quad x)
{
  if (x <= 0)
    return 0;
  Quad r = sqrtl ((long double)x);
  for (int i = 0; i < 2; i++)
    r = (r + x / r) / 2;
  return r;
}

Quad
quad_dot (TrnVec3 n, TrnVec3 p)
{
  return dot (vec (n), vec (p));
}

Quad
quad_distance (TrnVec3 p, TrnVec3 q)
{
  Vec v = sub (vec (p), vec (q));
  return quad_sqrt (dot (v, v));
}

static Quad
point_segment (Vec p, Vec a, Vec b)
{
  Vec d = sub (b, a), r = sub (p, a);
  Quad dd = dot (d, d), t = dd > 0 ? dot (r, d) / dd : 0;
  Vec v = sub (r, along ((Vec){ 0, 0, 0 }, d, t < 0 ? 0 : t > 1 ? 1 : t));
  return dot (v, v);
}

/* The four ends against the other segment, and the common perpendicular where it meets both. */
static Quad
segment_segment (Vec a, Vec b, Vec c, Vec d)
{
  Quad best = least (least (point_segment (a, c, d), point_segment (b, c, d)),
                     least (point_segment (c, a, b), point_segment (d, a, b)));
  Vec u = sub (b, a), v = sub (d, c), r = sub (c, a), n = cross (u, v);
  Quad nn = dot (n, n);
  if (nn > 0)
    {
      Quad s = dot (cross (r, v), n) / nn, t = dot (cross (r, u), n) / nn;
      if (s >= 0 && s <= 1 && t >= 0 && t <= 1)
        best = least (best, dot (r, n) * dot (r, n) / nn);
    }
  return best;
}

/* The foot on the face where it falls inside; the square is infinite otherwise. */
static Quad
point_face (Vec p, const Vec a[3])
{
  Vec n = cross (sub (a[1], a[0]), sub (a[2], a[0]));
  Quad nn = dot (n, n);
  if (!(nn > 0))
    return INFINITY;
  for (int i = 0; i < 3; i++)
    if (dot (cross (sub (a[(i + 1) % 3], a[i]), sub (p, a[i])), n) < 0)
      return INFINITY;
  Quad h = dot (sub (p, a[0]), n);
  return h * h / nn;
}

static Quad
volume (Vec a, Vec b, Vec c, Vec d)
{
  return dot (cross (sub (b, a), sub (c, a)), sub (d, a));
}

static gboolean
edge_crosses (Vec p, Vec q, const Vec a[3])
{
  Quad hp = volume (a[0], a[1], a[2], p), hq = volume (a[0], a[1], a[2], q);
  if (!((hp < 0 && hq > 0) || (hp > 0 && hq < 0)))
    return FALSE;
  Quad u = volume (p, q, a[0], a[1]), v = volume (p, q, a[1], a[2]), w = volume (p, q, a[2], a[0]);
  return (u >= 0 && v >= 0 && w >= 0) || (u <= 0 && v <= 0 && w <= 0);
}

Quad
quad_point_distance (TrnVec3 point, const TrnVec3 triangle[3])
{
  Vec p = vec (point), a[3] = { vec (triangle[0]), vec (triangle[1]), vec (triangle[2]) };
  Quad best = point_face (p, a);
  for (int i = 0; i < 3; i++)
    best = least (best, point_segment (p, a[i], a[(i + 1) % 3]));
  return quad_sqrt (best);
}

Quad
quad_triangle_distance (const TrnVec3 triangle_a[3], const TrnVec3 triangle_b[3])
{
  Vec a[3], b[3];
  for (int i = 0; i < 3; i++)
    {
      a[i] = vec (triangle_a[i]);
      b[i] = vec (triangle_b[i]);
    }
  Quad best = INFINITY;
  for (int i = 0; i < 3; i++)
    {
      best = least (best, least (point_face (a[i], b), point_face (b[i], a)));
      if (edge_crosses (a[i], a[(i + 1) % 3], b) || edge_crosses (b[i], b[(i + 1) % 3], a))
        return 0;
      for (int k = 0; k < 3; k++)
        best = least (best, segment_segment (a[i], a[(i + 1) % 3], b[k], b[(k + 1) % 3]));
    }
  return quad_sqrt (best);
}
