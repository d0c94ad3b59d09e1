/* quad.c: see quad.h. */
#include "quad.h"

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

/* Taylor's series of a small part of the angle, doubled again and again; of the cosine what it is
 * short of 1, so that doubling costs a digit in all and not one each time. */
void
quad_sin_cos (Quad x, Quad *sine, Quad *cosine)
{
  int doublings = 0;
  for (; x > 0.0625 || x < -0.0625; doublings++)
    x /= 2;
  Quad s = x, less = 0, term = x;
  for (int i = 2; i < 30; i++)
    {
      term *= x / i;
      if (i % 2 == 0)
        less += i % 4 == 2 ? -term : term;
      else
        s += i % 4 == 3 ? -term : term;
    }
  for (; doublings > 0; doublings--)
    {
      s *= 2 * (1 + less);
      less *= 2 * (less + 2);
    }
  *sine = s;
  *cosine = 1 + less;
}

Quad
quad_dot (TrnVec3 n, TrnVec3 p)
{
  return quad_product (quad_vec (n), quad_vec (p));
}

Quad
quad_distance (TrnVec3 p, TrnVec3 q)
{
  QuadVec v = quad_sub (quad_vec (p), quad_vec (q));
  return quad_sqrt (quad_product (v, v));
}

static Quad
point_segment (QuadVec p, QuadVec a, QuadVec b)
{
  QuadVec d = quad_sub (b, a), r = quad_sub (p, a);
  Quad dd = quad_product (d, d), t = dd > 0 ? quad_product (r, d) / dd : 0;
  QuadVec v = quad_sub (r, quad_along ((QuadVec){ 0, 0, 0 }, d, t < 0 ? 0 : t > 1 ? 1 : t));
  return quad_product (v, v);
}

/* The four ends against the other segment, and the common perpendicular where it meets both. */
static Quad
segment_segment (QuadVec a, QuadVec b, QuadVec c, QuadVec d)
{
  Quad best = least (least (point_segment (a, c, d), point_segment (b, c, d)),
                     least (point_segment (c, a, b), point_segment (d, a, b)));
  QuadVec u = quad_sub (b, a), v = quad_sub (d, c), r = quad_sub (c, a), n = quad_cross (u, v);
  Quad nn = quad_product (n, n);
  if (nn > 0)
    {
      Quad s = quad_product (quad_cross (r, v), n) / nn,
           t = quad_product (quad_cross (r, u), n) / nn;
      if (s >= 0 && s <= 1 && t >= 0 && t <= 1)
        best = least (best, quad_product (r, n) * quad_product (r, n) / nn);
    }
  return best;
}

/* The foot on the face where it falls inside; the square is infinite otherwise. */
static Quad
point_face (QuadVec p, const QuadVec a[3])
{
  QuadVec n = quad_cross (quad_sub (a[1], a[0]), quad_sub (a[2], a[0]));
  Quad nn = quad_product (n, n);
  if (!(nn > 0))
    return INFINITY;
  for (int i = 0; i < 3; i++)
    if (quad_product (quad_cross (quad_sub (a[(i + 1) % 3], a[i]), quad_sub (p, a[i])), n) < 0)
      return INFINITY;
  Quad h = quad_product (quad_sub (p, a[0]), n);
  return h * h / nn;
}

static Quad
volume (QuadVec a, QuadVec b, QuadVec c, QuadVec d)
{
  return quad_product (quad_cross (quad_sub (b, a), quad_sub (c, a)), quad_sub (d, a));
}

static gboolean
edge_crosses (QuadVec p, QuadVec q, const QuadVec a[3])
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
  QuadVec p = quad_vec (point),
          a[3] = { quad_vec (triangle[0]), quad_vec (triangle[1]), quad_vec (triangle[2]) };
  Quad best = point_face (p, a);
  for (int i = 0; i < 3; i++)
    best = least (best, point_segment (p, a[i], a[(i + 1) % 3]));
  return quad_sqrt (best);
}

Quad
quad_placed_distance (const QuadVec a[3], const QuadVec b[3])
{
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

Quad
quad_triangle_distance (const TrnVec3 a[3], const TrnVec3 b[3])
{
  const QuadVec placed_a[3] = { quad_vec (a[0]), quad_vec (a[1]), quad_vec (a[2]) };
  const QuadVec placed_b[3] = { quad_vec (b[0]), quad_vec (b[1]), quad_vec (b[2]) };
  return quad_placed_distance (placed_a, placed_b);
}
