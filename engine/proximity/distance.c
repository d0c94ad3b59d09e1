/* distance.c: the distance of two meshes at one pose.
 *
 * Used while a pose is shown, to polish what a sweep has found, and by the checks of single poses.
 *
 * Branch and bound over pairs of nodes, depth first, the nearer child first, warm from the pair of
 * the last time. A pair of nodes is dropped on a certified bound only: the balls, or the gap
 * between both sets of points along a direction. Directions are proposed by the pair above, the
 * line of centres and a few steps of Gilbert's method (1966) on the difference of the hulls;
 * whatever proposes them, the gap is min n·y over B's points − max n·x over A's, a true lower
 * bound.
 *
 * Rounding: everything happens in B's frame. A bound is off by a small multiple of u times the
 * reach of the coordinates there; `slack` takes 256 u of it off, which also covers the error of a
 * triangle distance (at most 64 u M, M at most twice the reach). So no pair of triangles is lost
 * whose computed distance is the least. */
#include "distance.h"
#include "triangle.h"

#define UNIT_ROUNDING 0x1p-53
#define MAX_DEPTH 64
#define GILBERT_STEPS 4
#define SHORTEST_DIRECTION_M 1e-140 /* its square is far from the least double */

typedef struct
{
  guint32 a, b;
  double bound;
  TrnVec3 direction; /* from A to B, any length; zero when none is known */
} Pair;

typedef struct
{
  const TrnBvh *a, *b;
  TrnPose b_from_a;
  double slack;
  double best; /* only distances below are of interest */
  TrnDistance found;
  Pair stack[2 * MAX_DEPTH + 2];
  guint n_stack;
} Query;

/* What the greatest coordinates of both meshes can be in B's frame. */
static double
query_reach (const Query *q)
{
  const TrnBox *a = &q->a->mesh->box, *b = &q->b->mesh->box;
  double of_a = fmax (trn_vec3_max_abs (a->lo), trn_vec3_max_abs (a->hi));
  double of_b = fmax (trn_vec3_max_abs (b->lo), trn_vec3_max_abs (b->hi));
  return 2 * of_a + of_b + trn_vec3_max_abs (q->b_from_a.position);
}

static inline guint32
lowest_point (const TrnBvh *bvh, const TrnBvhNode *node, TrnVec3 n, double *least)
{
  const TrnVec3 *points = &bvh->points[node->first_point];
  guint32 lowest = 0;
  *least = INFINITY;
  for (guint32 i = 0; i < node->n_points; i++)
    {
      double t = trn_vec3_dot (n, points[i]);
      if (t < *least)
        {
          *least = t;
          lowest = i;
        }
    }
  return node->first_point + lowest;
}

/* The gap of the two nodes along @n times the length of @n, and the difference of the points of B
 * and A that lie nearest to each other along it. */
static double
gap_along (const Query *q, const TrnBvhNode *a, const TrnBvhNode *b, TrnVec3 n, TrnVec3 *difference)
{
  double lowest_a, lowest_b;
  TrnVec3 n_a = trn_rotation_apply_inverse (&q->b_from_a.turn, trn_vec3_scale (n, -1));
  guint32 i = lowest_point (q->a, a, n_a, &lowest_a);
  guint32 k = lowest_point (q->b, b, n, &lowest_b);
  *difference = trn_vec3_sub (q->b->points[k], trn_pose_apply (&q->b_from_a, q->a->points[i]));
  return lowest_b + lowest_a - trn_vec3_dot (n, q->b_from_a.position);
}

/* Tries @n; raises @pair's bound if it serves. A direction too short to be measured does not. */
static void
pair_try (const Query *q, Pair *pair, TrnVec3 n, TrnVec3 *difference)
{
  const TrnBvhNode *a = &q->a->nodes[pair->a], *b = &q->b->nodes[pair->b];
  double length = trn_vec3_length (n), gap = gap_along (q, a, b, n, difference);
  if (length > SHORTEST_DIRECTION_M && gap / length - q->slack > pair->bound)
    {
      pair->bound = gap / length - q->slack;
      pair->direction = n;
    }
}

/* Finds a bound for @pair: good enough to drop it, if that is easy. */
static void
pair_bound (const Query *q, Pair *pair)
{
  const TrnBvhNode *a = &q->a->nodes[pair->a], *b = &q->b->nodes[pair->b];
  TrnVec3 line = trn_vec3_sub (b->centre, trn_pose_apply (&q->b_from_a, a->centre)), z;
  TrnVec3 inherited = pair->direction;
  pair->bound = trn_vec3_length (line) - a->radius_m - b->radius_m - q->slack;
  if (pair->bound >= q->best)
    return;
  if (trn_vec3_max_abs (inherited) > 0)
    {
      pair_try (q, pair, inherited, &z);
      if (pair->bound >= q->best)
        return;
    }
  z = line;
  for (int step = 0; step < GILBERT_STEPS; step++)
    {
      TrnVec3 w;
      double square = trn_vec3_length_squared (z);
      if (!(square > 0))
        return;
      pair_try (q, pair, z, &w);
      if (pair->bound >= q->best)
        return;
      /* From the second step on z is a difference of points of the hulls: they are no farther
       * apart than that. */
      if (step > 0 && square < q->best * q->best)
        return;
      TrnVec3 d = trn_vec3_sub (w, z);
      double length = trn_vec3_length_squared (d);
      double t = length > 0 ? -trn_vec3_dot (z, d) / length : 1;
      z = step == 0 ? w : trn_vec3_add_scaled (z, d, t > 0 ? (t < 1 ? t : 1) : 0);
    }
}

static void
query_offer (Query *q, guint32 i, guint32 k, const TrnVec3 corners_a[3])
{
  TrnVec3 corners_b[3], on_a, on_b;
  trn_mesh_corners (q->b->mesh, k, corners_b);
  double distance = trn_triangle_distance (corners_a, corners_b, &on_a, &on_b);
  if (!(distance < q->best))
    return;
  q->best = distance;
  q->found = (TrnDistance){ distance, on_a, on_b, { i, k } };
}

static void
corners_in_b (const Query *q, guint32 triangle, TrnVec3 corners[3])
{
  trn_mesh_corners (q->a->mesh, triangle, corners);
  for (int i = 0; i < 3; i++)
    corners[i] = trn_pose_apply (&q->b_from_a, corners[i]);
}

/* The triangles of two leaves, but for those that the direction of the pair keeps apart. */
static void
query_leaves (Query *q, const Pair *pair)
{
  const TrnBvhNode *a = &q->a->nodes[pair->a], *b = &q->b->nodes[pair->b];
  double length = trn_vec3_length (pair->direction);
  TrnVec3 n = length > 0 ? trn_vec3_scale (pair->direction, 1 / length) : pair->direction;
  double low_b[TRN_BVH_LEAF_TRIANGLES];
  for (guint32 k = 0; k < b->count; k++)
    {
      TrnVec3 c[3];
      trn_mesh_corners (q->b->mesh, q->b->order[b->first + k], c);
      low_b[k]
          = fmin (trn_vec3_dot (n, c[0]), fmin (trn_vec3_dot (n, c[1]), trn_vec3_dot (n, c[2])));
    }
  for (guint32 i = 0; i < a->count; i++)
    {
      guint32 triangle = q->a->order[a->first + i];
      TrnVec3 c[3];
      corners_in_b (q, triangle, c);
      double high
          = fmax (trn_vec3_dot (n, c[0]), fmax (trn_vec3_dot (n, c[1]), trn_vec3_dot (n, c[2])));
      for (guint32 k = 0; k < b->count; k++)
        if (low_b[k] - high - q->slack < q->best)
          query_offer (q, triangle, q->b->order[b->first + k], c);
    }
}

static void
query_push (Query *q, const Pair *pair)
{
  if (!(pair->bound < q->best))
    return;
  g_assert (q->n_stack < G_N_ELEMENTS (q->stack));
  q->stack[q->n_stack++] = *pair;
}

/* Splits the larger node of @pair, if it can be split. */
static void
query_split (Query *q, const Pair *pair)
{
  const TrnBvhNode *a = &q->a->nodes[pair->a], *b = &q->b->nodes[pair->b];
  gboolean split_a = a->child != 0 && (b->child == 0 || a->radius_m >= b->radius_m);
  Pair halves[2];
  for (guint32 i = 0; i < 2; i++)
    {
      halves[i] = *pair;
      if (split_a)
        halves[i].a = a->child + i;
      else
        halves[i].b = b->child + i;
      pair_bound (q, &halves[i]);
    }
  int near = halves[0].bound <= halves[1].bound ? 0 : 1;
  query_push (q, &halves[1 - near]);
  query_push (q, &halves[near]);
}

static void
query_run (Query *q)
{
  Pair root = { 0 };
  pair_bound (q, &root);
  query_push (q, &root);
  while (q->n_stack > 0 && q->best > 0)
    {
      Pair pair = q->stack[--q->n_stack];
      if (!(pair.bound < q->best))
        continue;
      if (q->a->nodes[pair.a].child == 0 && q->b->nodes[pair.b].child == 0)
        query_leaves (q, &pair);
      else
        query_split (q, &pair);
    }
}

TrnDistance
trn_mesh_distance (const TrnBvh *a, const TrnPose *site_from_a, const TrnBvh *b,
                   const TrnPose *site_from_b, double limit_m, const TrnDistanceHint *hint)
{
  g_assert (a->depth <= MAX_DEPTH && b->depth <= MAX_DEPTH);
  Query q;
  q.a = a;
  q.b = b;
  q.b_from_a = trn_pose_relative (site_from_b, site_from_a);
  q.slack = 256 * UNIT_ROUNDING * query_reach (&q);
  q.best = limit_m;
  q.found = (TrnDistance){ .distance_m = INFINITY };
  q.n_stack = 0;
  if (hint != NULL && hint->triangle_a < a->mesh->n_triangles
      && hint->triangle_b < b->mesh->n_triangles)
    {
      TrnVec3 corners[3];
      corners_in_b (&q, hint->triangle_a, corners);
      query_offer (&q, hint->triangle_a, hint->triangle_b, corners);
    }
  query_run (&q);
  q.found.on_a = trn_pose_apply (site_from_b, q.found.on_a);
  q.found.on_b = trn_pose_apply (site_from_b, q.found.on_b);
  return q.found;
}
