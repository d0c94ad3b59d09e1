#include "hull.h"

/* GJK converges in a few steps or not usefully at all. */
#define MAX_STEPS 24

typedef struct
{
  TrnVec3 w[4]; /* points of the Minkowski difference a − b */
  guint n;
} Simplex;

static TrnVec3
lowest (const TrnVec3 *points, guint n_points, TrnVec3 n, double *value)
{
  guint best = 0;
  double least = INFINITY;
  for (guint i = 0; i < n_points; i++)
    {
      double v = trn_vec3_dot (n, points[i]);
      if (v < least)
        {
          least = v;
          best = i;
        }
    }
  *value = least;
  return points[best];
}

static TrnVec3
highest (const TrnVec3 *points, guint n_points, TrnVec3 n, double *value)
{
  guint best = 0;
  double most = -INFINITY;
  for (guint i = 0; i < n_points; i++)
    {
      double v = trn_vec3_dot (n, points[i]);
      if (v > most)
        {
          most = v;
          best = i;
        }
    }
  *value = most;
  return points[best];
}

double
trn_hull_gap_along (const TrnVec3 *a, guint n_a, const TrnVec3 *b, guint n_b, TrnVec3 n)
{
  double low, high;
  lowest (a, n_a, n, &low);
  highest (b, n_b, n, &high);
  return low - high;
}

/* Keeps the points of @s named by the bits of @keep. */
static void
reduce (Simplex *s, guint keep)
{
  guint n = 0;
  for (guint i = 0; i < s->n; i++)
    if (keep & 1u << i)
      s->w[n++] = s->w[i];
  s->n = n;
}

/* The point of the segment p q nearest the origin, and which ends it needs. */
static TrnVec3
nearest_on_segment (TrnVec3 p, TrnVec3 q, guint bit_p, guint bit_q, guint *keep)
{
  TrnVec3 d = trn_vec3_sub (q, p);
  double dd = trn_vec3_length_squared (d);
  double t = dd > 0 ? -trn_vec3_dot (p, d) / dd : 0;
  *keep = t <= 0 ? bit_p : t >= 1 ? bit_q : bit_p | bit_q;
  return t <= 0 ? p : t >= 1 ? q : trn_vec3_add_scaled (p, d, t);
}

/* The same of a triangle: its face when the origin is over it, otherwise the best of its edges. */
static TrnVec3
nearest_on_triangle (const TrnVec3 *w, guint i, guint j, guint k, guint *keep)
{
  TrnVec3 p = w[i], q = w[j], r = w[k];
  TrnVec3 n = trn_vec3_cross (trn_vec3_sub (q, p), trn_vec3_sub (r, p));
  double nn = trn_vec3_length_squared (n);
  gboolean over = nn > 0 && trn_vec3_dot (trn_vec3_cross (p, q), n) >= 0
                  && trn_vec3_dot (trn_vec3_cross (q, r), n) >= 0
                  && trn_vec3_dot (trn_vec3_cross (r, p), n) >= 0;
  if (over)
    {
      *keep = 1u << i | 1u << j | 1u << k;
      return trn_vec3_scale (n, trn_vec3_dot (p, n) / nn);
    }
  const guint ends[3][2] = { { i, j }, { j, k }, { k, i } };
  TrnVec3 best = p;
  double least = INFINITY;
  for (guint e = 0; e < 3; e++)
    {
      guint kept;
      TrnVec3 v = nearest_on_segment (w[ends[e][0]], w[ends[e][1]], 1u << ends[e][0],
                                      1u << ends[e][1], &kept);
      double vv = trn_vec3_length_squared (v);
      if (vv < least)
        {
          least = vv;
          best = v;
          *keep = kept;
        }
    }
  return best;
}

/* The same of a tetrahedron: zero when the origin is inside, otherwise the best of the faces that
 * the origin is outside of. */
static TrnVec3
nearest_on_tetrahedron (const TrnVec3 *w, guint *keep)
{
  static const guint face[4][4]
      = { { 0, 1, 2, 3 }, { 0, 2, 3, 1 }, { 0, 3, 1, 2 }, { 1, 3, 2, 0 } };
  TrnVec3 best = { 0, 0, 0 };
  double least = INFINITY;
  *keep = 15;
  for (guint f = 0; f < 4; f++)
    {
      TrnVec3 p = w[face[f][0]];
      TrnVec3 n = trn_vec3_cross (trn_vec3_sub (w[face[f][1]], p), trn_vec3_sub (w[face[f][2]], p));
      double origin_side = -trn_vec3_dot (p, n);
      double inner_side = trn_vec3_dot (trn_vec3_sub (w[face[f][3]], p), n);
      if (origin_side * inner_side > 0)
        continue;
      guint kept;
      TrnVec3 v = nearest_on_triangle (w, face[f][0], face[f][1], face[f][2], &kept);
      double vv = trn_vec3_length_squared (v);
      if (vv < least)
        {
          least = vv;
          best = v;
          *keep = kept;
        }
    }
  return best;
}

/* The point of the simplex nearest the origin; the simplex keeps what that point needs. */
static TrnVec3
nearest (Simplex *s)
{
  guint keep = 1;
  TrnVec3 v = s->w[0];
  if (s->n == 2)
    v = nearest_on_segment (s->w[0], s->w[1], 1, 2, &keep);
  else if (s->n == 3)
    v = nearest_on_triangle (s->w, 0, 1, 2, &keep);
  else if (s->n == 4)
    v = nearest_on_tetrahedron (s->w, &keep);
  reduce (s, keep);
  return v;
}

TrnHullGap
trn_hull_separate (const TrnVec3 *a, guint n_a, const TrnVec3 *b, guint n_b, TrnVec3 first,
                   double enough_m, TrnHullLoss loss, gconstpointer data)
{
  TrnHullGap best = { -INFINITY, first };
  double best_net = -INFINITY;
  Simplex simplex = { .n = 0 };
  TrnVec3 n = first;
  double length = INFINITY;
  for (guint step = 0; step < MAX_STEPS; step++)
    {
      double low, high;
      TrnVec3 on_a = lowest (a, n_a, n, &low);
      TrnVec3 on_b = highest (b, n_b, n, &high);
      double lost = loss != NULL ? loss (n, data) : 0;
      if (low - high - lost > best_net)
        {
          best_net = low - high - lost;
          best = (TrnHullGap){ low - high, n };
        }
      if (best_net >= enough_m || length - lost < enough_m)
        break; /* proven, or not to be proven: the hulls are no farther apart than length */
      if (simplex.n == 4 || low - high >= length * (1 - 1e-12))
        break;
      simplex.w[simplex.n++] = trn_vec3_sub (on_a, on_b);
      TrnVec3 v = nearest (&simplex);
      double shorter = trn_vec3_length (v);
      if (!(shorter > 0) || !(shorter < length))
        break; /* the hulls meet, or rounding ends the descent */
      length = shorter;
      n = trn_vec3_scale (v, 1 / shorter);
    }
  return best;
}
