/* convex.c: the distance of two small convex hulls.
 *
 * Used by the sweep of moving gear for distances that are attained; what it proves from below it
 * proves by directions (hull.h) and not by this. Hulls of a handful of corners do not pay for a
 * tree.
 *
 * The search goes from simplex to simplex of the set of differences a − b (Gilbert, Johnson,
 * Keerthi 1988). The nearest point of a simplex is the best of what its corners, edges, faces and
 * inside offer: each offer is a mixture with weights that are not negative, and counts with the
 * length that this mixture has, so that a flat simplex, whose inside is all rounding, cannot
 * mislead.
 *
 * Rounding, u = 2⁻⁵³: four weights that sum to 1 within 4u, each mixture four products and three
 * sums of at most M: 8u M a coordinate, 2u M for the difference, √3 · 18u M for its length: 32u M.
 */
#include "convex.h"

/* The search ends where a step gains no more than this share. */
#define LEAST_GAIN 1e-13
#define MOST_STEPS 64

typedef struct
{
  TrnVec3 w; /* a − b */
  guint a, b;
} Difference;

typedef struct
{
  Difference corner[4];
  double weight[4];
  guint n;
  TrnVec3 v; /* the mixture */
  double length;
} Simplex;

/* Weights of the point of an edge, a face or a tetrahedron's inside that is nearest the origin, as
 * if these had no ends. FALSE where there are none. */
static gboolean
weights_make (const TrnVec3 *w, guint n, double weight[4])
{
  weight[0] = 1;
  if (n == 1)
    return TRUE;
  TrnVec3 r = trn_vec3_scale (w[0], -1), e = trn_vec3_sub (w[1], w[0]);
  if (n == 2)
    {
      weight[1] = trn_vec3_dot (r, e) / trn_vec3_length_squared (e);
      weight[0] = 1 - weight[1];
      return isfinite (weight[1]);
    }
  TrnVec3 f = trn_vec3_sub (w[2], w[0]), normal = trn_vec3_cross (e, f);
  if (n == 3)
    {
      double square = trn_vec3_length_squared (normal);
      weight[1] = trn_vec3_dot (trn_vec3_cross (r, f), normal) / square;
      weight[2] = trn_vec3_dot (trn_vec3_cross (e, r), normal) / square;
      weight[0] = 1 - weight[1] - weight[2];
      return isfinite (weight[0]);
    }
  TrnVec3 g = trn_vec3_sub (w[3], w[0]);
  double volume = trn_vec3_dot (normal, g);
  weight[1] = trn_vec3_dot (r, trn_vec3_cross (f, g)) / volume;
  weight[2] = trn_vec3_dot (r, trn_vec3_cross (g, e)) / volume;
  weight[3] = trn_vec3_dot (r, normal) / volume;
  weight[0] = 1 - weight[1] - weight[2] - weight[3];
  return isfinite (weight[0]);
}

/* What the corners of @all named by the bits of @keep offer, into @best where it is shorter. */
static void
offer (const Simplex *all, guint keep, Simplex *best)
{
  Simplex part = { .n = 0 };
  TrnVec3 w[4];
  for (guint i = 0; i < all->n; i++)
    if (keep & 1u << i)
      {
        w[part.n] = all->corner[i].w;
        part.corner[part.n++] = all->corner[i];
      }
  if (!weights_make (w, part.n, part.weight))
    return;
  for (guint i = 0; i < part.n; i++)
    {
      if (!(part.weight[i] >= 0))
        return; /* a smaller part has it */
      part.v = trn_vec3_add_scaled (part.v, w[i], part.weight[i]);
    }
  part.length = trn_vec3_length (part.v);
  if (part.length < best->length)
    *best = part;
}

/* The point farthest along @n. */
static guint
farthest (const TrnVec3 *points, guint n_points, TrnVec3 n)
{
  guint best = 0;
  double most = trn_vec3_dot (points[0], n);
  for (guint i = 1; i < n_points; i++)
    {
      double here = trn_vec3_dot (points[i], n);
      if (here > most)
        {
          most = here;
          best = i;
        }
    }
  return best;
}

static gboolean
has_corner (const Simplex *simplex, guint a, guint b)
{
  for (guint i = 0; i < simplex->n; i++)
    if (simplex->corner[i].a == a && simplex->corner[i].b == b)
      return TRUE;
  return FALSE;
}

/* One step: a corner farther down towards the origin. FALSE where that gains nothing. */
static gboolean
step (Simplex *simplex, const TrnVec3 *a, guint n_a, const TrnVec3 *b, guint n_b)
{
  TrnVec3 down = trn_vec3_scale (simplex->v, -1);
  guint i = farthest (a, n_a, down), j = farthest (b, n_b, simplex->v);
  TrnVec3 w = trn_vec3_sub (a[i], b[j]);
  double length = simplex->length;
  if (trn_vec3_dot (simplex->v, w) >= length * length * (1 - LEAST_GAIN)
      || has_corner (simplex, i, j) || simplex->n == 4)
    return FALSE;
  Simplex all = *simplex;
  guint newest = 1u << all.n;
  all.corner[all.n++] = (Difference){ w, i, j };
  for (guint others = 0; others < newest; others++)
    offer (&all, others | newest, simplex);
  return simplex->length < length;
}

double
trn_convex_distance (const TrnVec3 *a, guint n_a, const TrnVec3 *b, guint n_b, TrnVec3 *on_a,
                     TrnVec3 *on_b)
{
  TrnVec3 w = trn_vec3_sub (a[0], b[0]);
  Simplex simplex = {
    .corner = { { w, 0, 0 } }, .weight = { 1 }, .n = 1, .v = w, .length = trn_vec3_length (w)
  };
  for (guint i = 0; i < MOST_STEPS && simplex.length > 0; i++)
    if (!step (&simplex, a, n_a, b, n_b))
      break;
  *on_a = *on_b = trn_vec3_make (0, 0, 0);
  for (guint i = 0; i < simplex.n; i++)
    {
      *on_a = trn_vec3_add_scaled (*on_a, a[simplex.corner[i].a], simplex.weight[i]);
      *on_b = trn_vec3_add_scaled (*on_b, b[simplex.corner[i].b], simplex.weight[i]);
    }
  return trn_vec3_distance (*on_a, *on_b);
}
