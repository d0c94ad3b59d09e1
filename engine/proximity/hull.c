#include "hull.h"

#include <float.h>
#include <string.h>

/* GJK converges in a few steps or not usefully at all. */
#define MAX_STEPS 24

/* The search is compiled once for each instruction set, with this as its innermost part. */
typedef TrnSupport (*Lowest) (const TrnPoints8 *blocks, guint n_blocks, TrnDirection n);

#define ALWAYS_INLINE __attribute__ ((always_inline)) static inline

typedef struct
{
  TrnVec3 w[4];     /* points of the Minkowski difference a − b */
  guint32 index[4]; /* of a hull and a point alone: which point of the hull it is */
  guint n;
} Simplex;

/* Keeps the points of @s named by the bits of @keep. */
ALWAYS_INLINE void
reduce (Simplex *s, guint keep)
{
  guint n = 0;
  for (guint i = 0; i < s->n; i++)
    if (keep & 1u << i)
      {
        s->index[n] = s->index[i];
        s->w[n++] = s->w[i];
      }
  s->n = n;
}

/* The point of the segment p q nearest the origin, and which ends it needs. */
ALWAYS_INLINE TrnVec3
nearest_on_segment (TrnVec3 p, TrnVec3 q, guint bit_p, guint bit_q, guint *keep)
{
  TrnVec3 d = trn_vec3_sub (q, p);
  double dd = trn_vec3_length_squared (d);
  double t = dd > 0 ? -trn_vec3_dot (p, d) / dd : 0;
  *keep = t <= 0 ? bit_p : t >= 1 ? bit_q : bit_p | bit_q;
  return t <= 0 ? p : t >= 1 ? q : trn_vec3_add_scaled (p, d, t);
}

/* The same of a triangle with a newest point i: its face when the origin is over it, otherwise the
 * better of the edges at that point. Nearest the origin was a point of the rest before, and each
 * step of a search gets nearer; where rounding has it otherwise, the search ends. */
ALWAYS_INLINE TrnVec3
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
  guint kept;
  TrnVec3 best = nearest_on_segment (p, q, 1u << i, 1u << j, keep);
  TrnVec3 other = nearest_on_segment (p, r, 1u << i, 1u << k, &kept);
  if (!(trn_vec3_length_squared (other) < trn_vec3_length_squared (best)))
    return best;
  *keep = kept;
  return other;
}

/* The same of a tetrahedron, its newest point the last: zero when the origin is inside, otherwise
 * the best of the faces at that point that the origin is outside of. */
ALWAYS_INLINE TrnVec3
nearest_on_tetrahedron (const TrnVec3 *w, guint *keep)
{
  static const guint face[3][4] = { { 3, 0, 1, 2 }, { 3, 1, 2, 0 }, { 3, 2, 0, 1 } };
  TrnVec3 best = { 0, 0, 0 };
  double least = INFINITY;
  *keep = 15;
  for (guint f = 0; f < 3; f++)
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

/* The point of the simplex nearest the origin, and the points that it needs. */
ALWAYS_INLINE TrnVec3
nearest (const Simplex *s, guint *keep)
{
  *keep = 1;
  if (s->n == 2)
    return nearest_on_segment (s->w[0], s->w[1], 1, 2, keep);
  if (s->n == 3)
    return nearest_on_triangle (s->w, 2, 0, 1, keep);
  if (s->n == 4)
    return nearest_on_tetrahedron (s->w, keep);
  return s->w[0];
}

static inline TrnVec3
point_get (const TrnHull *hull, guint32 index)
{
  const TrnPoints8 *block = &hull->blocks[index / 8];
  guint i = index % 8;
  return trn_vec3_make (block->x[i], block->y[i], block->z[i]);
}

static inline TrnDirection
direction_make (TrnVec3 n)
{
  return (TrnDirection){ (float)n.x, (float)n.y, (float)n.z };
}

static inline TrnVec3
direction_vector (TrnDirection n)
{
  return trn_vec3_make (n.x, n.y, n.z);
}

/* The lowest point of A in both places: n·x from the centre of B, and which it is. */
typedef struct
{
  double value;
  guint pose;
  guint32 index;
} LowPoint;

ALWAYS_INLINE LowPoint
lowest_of_a (Lowest lowest, const TrnHull *a, const TrnHullPlaces *places, TrnVec3 n)
{
  LowPoint least = { INFINITY, 0, 0 };
  TrnSupport support = { 0, 0 };
  for (guint i = 0; i < places->n_poses; i++)
    {
      if (i == 0 || !places->same_turn)
        {
          TrnDirection m = direction_make (trn_rotation_apply_inverse (places->turn[i], n));
          support = lowest (a->blocks, a->n_blocks, m);
        }
      double value = trn_vec3_dot (n, places->centre[i]) + (double)support.value;
      if (!(value
            >= least.value)) /* what is no number proves nothing: it must not be passed over */
        least = (LowPoint){ value, i, support.index };
    }
  return least;
}

ALWAYS_INLINE TrnVec3
place_of_a (const TrnHull *a, const TrnHullPlaces *places, LowPoint low)
{
  const TrnRotation *turn = places->turn[places->same_turn ? 0 : low.pose];
  return trn_vec3_add (places->centre[low.pose],
                       trn_rotation_apply (turn, point_get (a, low.index)));
}

/* What single precision takes off a gap, v = 2⁻²⁴, for |n| <= 1 + 4v. Of B the error of the support
 * alone. Of A that as well, and the direction seen from A, rounded to v in each of its three
 * parts, changes the product by at most v |n| |p|. */
static double
single_rounding (const TrnHull *a, const TrnHull *b)
{
  const double error = 1.00001 * TRN_SUPPORT_ERROR, turned = 1.00001 * 0x1p-24;
  return (error + turned) * a->radius_m + error * b->radius_m + 2 * TRN_SUPPORT_LEAST;
}

ALWAYS_INLINE TrnHullGap
separate (Lowest lowest, const TrnHull *a, const TrnHullPlaces *places, const TrnHull *b,
          TrnDirection first, double enough_m, guint max_steps, TrnHullLoss loss,
          gconstpointer data)
{
  TrnHullGap best = { -INFINITY, first };
  double best_net = -INFINITY, length = INFINITY;
  double rounding = single_rounding (a, b);
  Simplex simplex = { .n = 0 };
  TrnDirection direction = first;
  for (guint step = 0; step < max_steps; step++)
    {
      TrnVec3 n = direction_vector (direction);
      double scale = trn_vec3_length (n);
      LowPoint low = lowest_of_a (lowest, a, places, n);
      TrnDirection down = { -direction.x, -direction.y, -direction.z };
      TrnSupport high = lowest (b->blocks, b->n_blocks, down); /* the highest, turned over */
      double gap = (low.value + (double)high.value - rounding) / scale;
      double lost = loss != NULL ? loss (trn_vec3_scale (n, 1 / scale), data) : 0;
      if (gap - lost > best_net)
        {
          best_net = gap - lost;
          best = (TrnHullGap){ gap, direction };
        }
      /* proven, or not to be proven: the hulls are no farther apart than length */
      if (best_net >= enough_m || (length - lost < enough_m && isfinite (enough_m)))
        break;
      if (simplex.n == 4 || gap >= length * (1 - 1e-6))
        break;
      simplex.w[simplex.n++]
          = trn_vec3_sub (place_of_a (a, places, low), point_get (b, high.index));
      guint keep;
      TrnVec3 v = nearest (&simplex, &keep);
      reduce (&simplex, keep);
      double shorter = trn_vec3_length (v);
      if (!(shorter > 0) || !(shorter < length))
        break; /* the hulls meet, or rounding ends the descent */
      length = shorter;
      direction = direction_make (trn_vec3_scale (v, 1 / shorter));
    }
  return best;
}

static TrnHullGap
separate_scalar (const TrnHull *a, const TrnHullPlaces *places, const TrnHull *b,
                 TrnDirection first, double enough_m, guint max_steps, TrnHullLoss loss,
                 gconstpointer data)
{
  return separate (trn_support_lowest_scalar, a, places, b, first, enough_m, max_steps, loss, data);
}

#if defined __x86_64__
TRN_AVX2 static TrnHullGap
separate_avx2 (const TrnHull *a, const TrnHullPlaces *places, const TrnHull *b, TrnDirection first,
               double enough_m, guint max_steps, TrnHullLoss loss, gconstpointer data)
{
  return separate (trn_support_lowest_avx2, a, places, b, first, enough_m, max_steps, loss, data);
}
#endif

TrnHullGap
trn_hull_separate (const TrnHull *a, const TrnHullPlaces *places, const TrnHull *b,
                   TrnDirection first, double enough_m, guint max_steps, TrnHullLoss loss,
                   gconstpointer data)
{
#if defined __x86_64__
  if (trn_support_is_simd ())
    return separate_avx2 (a, places, b, first, enough_m, max_steps, loss, data);
#endif
  return separate_scalar (a, places, b, first, enough_m, max_steps, loss, data);
}

/* An attained distance: that of a combination of the simplex's points with weights that are not
 * negative and sum to 1, whatever the weights are worth. The true distance of a flat simplex can be
 * more than nearest() says, which trusts the signs of rounded products. */
static double
attained (const Simplex *s)
{
  double weight[4] = { 1, 1, 1, 1 }, sum = 0;
  const TrnVec3 *w = s->w;
  if (s->n == 2)
    {
      TrnVec3 d = trn_vec3_sub (w[1], w[0]);
      weight[0] = trn_vec3_dot (w[1], d);
      weight[1] = -trn_vec3_dot (w[0], d);
    }
  else if (s->n == 3)
    {
      TrnVec3 n = trn_vec3_cross (trn_vec3_sub (w[1], w[0]), trn_vec3_sub (w[2], w[0]));
      for (guint i = 0; i < 3; i++)
        weight[i] = trn_vec3_dot (n, trn_vec3_cross (w[(i + 1) % 3], w[(i + 2) % 3]));
    }
  else if (s->n == 4)
    {
      weight[0] = trn_vec3_dot (w[1], trn_vec3_cross (w[2], w[3]));
      weight[1] = -trn_vec3_dot (w[0], trn_vec3_cross (w[2], w[3]));
      weight[2] = trn_vec3_dot (w[0], trn_vec3_cross (w[1], w[3]));
      weight[3] = -trn_vec3_dot (w[0], trn_vec3_cross (w[1], w[2]));
      if (weight[0] + weight[1] + weight[2] + weight[3] < 0)
        for (guint i = 0; i < 4; i++)
          weight[i] = -weight[i];
    }
  double squared = 0;
  TrnVec3 v = { 0, 0, 0 };
  for (guint i = 0; i < s->n; i++)
    {
      weight[i] = MAX (weight[i], 0);
      sum += weight[i];
      v = trn_vec3_add_scaled (v, w[i], weight[i]);
      double here = trn_vec3_length_squared (w[i]);
      squared = MAX (squared, here);
    }
  double most = sqrt (squared);
  if (!(sum > DBL_MIN))
    return most;
  return trn_vec3_length (v) / sum + 16 * DBL_EPSILON * most;
}

/* Where a search of the distance of a point is. */
typedef struct
{
  Simplex simplex;
  TrnVec3 v; /* of the simplex, nearest the point */
  double length;
} Approach;

/* FALSE where that is no nearer. */
ALWAYS_INLINE gboolean
approach_add (Approach *approach, guint32 index, TrnVec3 w)
{
  Simplex *simplex = &approach->simplex;
  guint keep;
  simplex->index[simplex->n] = index;
  simplex->w[simplex->n++] = w;
  TrnVec3 v = nearest (simplex, &keep);
  double length = trn_vec3_length (v);
  if (!(length < approach->length))
    {
      simplex->n--;
      return FALSE;
    }
  reduce (simplex, keep);
  approach->v = v;
  approach->length = length;
  return TRUE;
}

ALWAYS_INLINE double
point_distance (Lowest lowest, const TrnHull *hull, TrnVec3 p, double enough_m, double beyond_m,
                TrnHullWay *way)
{
  Approach at;
  at.simplex.n = 0;
  at.v = trn_vec3_make (0, 0, 0);
  at.length = INFINITY;
  for (guint i = 0; i < way->n; i++)
    approach_add (&at, way->points[i], trn_vec3_sub (point_get (hull, way->points[i]), p));
  TrnDirection n = direction_make (trn_vec3_scale (p, -1));
  for (guint step = 0; step < MAX_STEPS && at.simplex.n < 4; step++)
    {
      if (at.simplex.n > 0)
        n = direction_make (trn_vec3_scale (at.v, at.length > 0 ? 1 / at.length : 1));
      if (at.length <= enough_m)
        break;
      TrnSupport support = lowest (hull->blocks, hull->n_blocks, n);
      TrnVec3 w = trn_vec3_sub (point_get (hull, support.index), p);
      double out = trn_vec3_dot (at.v, w);
      if (at.simplex.n > 0
          && (out >= at.length * at.length * (1 - 1e-6) || out > beyond_m * at.length))
        break;
      if (!approach_add (&at, support.index, w))
        break;
    }
  way->n = MIN (at.simplex.n, TRN_HULL_WAY_POINTS);
  memcpy (way->points, at.simplex.index, sizeof way->points);
  way->direction = n;
  return attained (&at.simplex);
}

static double
point_distance_scalar (const TrnHull *hull, TrnVec3 p, double enough_m, double beyond_m,
                       TrnHullWay *way)
{
  return point_distance (trn_support_lowest_scalar, hull, p, enough_m, beyond_m, way);
}

#if defined __x86_64__
TRN_AVX2 static double
point_distance_avx2 (const TrnHull *hull, TrnVec3 p, double enough_m, double beyond_m,
                     TrnHullWay *way)
{
  return point_distance (trn_support_lowest_avx2, hull, p, enough_m, beyond_m, way);
}
#endif

double
trn_hull_point_distance (const TrnHull *hull, TrnVec3 p, double enough_m, double beyond_m,
                         TrnHullWay *way)
{
#if defined __x86_64__
  if (trn_support_is_simd ())
    return point_distance_avx2 (hull, p, enough_m, beyond_m, way);
#endif
  return point_distance_scalar (hull, p, enough_m, beyond_m, way);
}
