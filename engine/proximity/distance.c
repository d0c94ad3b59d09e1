/* distance.c: the distance of two meshes at one pose.
 *
 * Used while a pose is shown, to polish what a sweep has found, and by the checks of single poses.
 *
 * Branch and bound over pairs of nodes, depth first, the nearer child first, warm from the pair of
 * the last time. A pair of nodes is dropped on a certified bound only: the balls, or the gap
 * between both sets of points along a direction (hull.h), tried first with that of the pair above.
 *
 * Rounding: everything happens in B's frame. A bound is off by a small multiple of u times the
 * reach of the coordinates there; `slack` takes 256 u of it off, which also covers the error of a
 * triangle distance (at most 64 u M, M at most twice the reach). So no pair of triangles is lost
 * whose computed distance is the least. */
#include "distance.h"

#include "item.h"
#include "triangle.h"

#define UNIT_ROUNDING 0x1p-53
#define MOST_STEPS 24 /* of the search for a direction */

typedef struct
{
  guint32 a, b;
  double bound;
  TrnDirection direction; /* from B towards A: the one that served best so far */
} Pair;

typedef struct
{
  const TrnBvh *a, *b;
  TrnPose b_from_a;
  double slack;
  double limit, tolerance;
  double enough; /* only distances below are of interest: the best so far less the tolerance */
  TrnDistance found;
  Pair stack[2 * (TRN_ITEM_PARTS - 1) * (TRN_BVH_MAX_DEPTH + 1) + TRN_ITEM_PARTS];
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

/* Finds a bound for @pair: good enough to drop it, if that is easy. */
static void
pair_bound (const Query *q, Pair *pair)
{
  TrnItem a, b;
  trn_item_make (q->a, pair->a, &a);
  trn_item_make (q->b, pair->b, &b);
  TrnHullPlaces places
      = { .n_poses = 1,
          .turn = { &q->b_from_a.turn },
          .centre = { trn_vec3_sub (trn_pose_apply (&q->b_from_a, a.centre), b.centre) } };
  double off = q->slack + a.slack_m + b.slack_m;
  TrnHullGap gap = trn_hull_separate (&a.hull, &places, &b.hull, pair->direction, q->enough + off,
                                      MOST_STEPS, NULL, NULL);
  pair->bound = fmax (pair->bound, gap.gap_m - off);
  pair->direction = gap.n;
}

static void
query_offer (Query *q, guint32 i, guint32 k, const TrnVec3 corners_a[3])
{
  TrnVec3 corners_b[3], on_a, on_b;
  trn_mesh_corners (q->b->mesh, k, corners_b);
  double distance = trn_triangle_distance (corners_a, corners_b, &on_a, &on_b);
  if (!(distance < q->found.distance_m) || !(distance < q->limit))
    return;
  q->enough = distance - q->tolerance;
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
  guint32 of_a[TRN_BVH_LEAF_TRIANGLES], of_b[TRN_BVH_LEAF_TRIANGLES];
  guint n_a = trn_item_triangles (q->a, pair->a, of_a);
  guint n_b = trn_item_triangles (q->b, pair->b, of_b);
  TrnVec3 n = { pair->direction.x, pair->direction.y, pair->direction.z };
  n = trn_vec3_scale (n, 1 / trn_vec3_length (n));
  double high_b[TRN_BVH_LEAF_TRIANGLES];
  for (guint k = 0; k < n_b; k++)
    {
      TrnVec3 c[3];
      trn_mesh_corners (q->b->mesh, of_b[k], c);
      high_b[k]
          = fmax (trn_vec3_dot (n, c[0]), fmax (trn_vec3_dot (n, c[1]), trn_vec3_dot (n, c[2])));
    }
  for (guint i = 0; i < n_a; i++)
    {
      TrnVec3 c[3];
      corners_in_b (q, of_a[i], c);
      double low
          = fmin (trn_vec3_dot (n, c[0]), fmin (trn_vec3_dot (n, c[1]), trn_vec3_dot (n, c[2])));
      for (guint k = 0; k < n_b; k++)
        if (low - high_b[k] - q->slack < q->enough)
          query_offer (q, of_a[i], of_b[k], c);
    }
}

static void
query_push (Query *q, const Pair *pair)
{
  if (!(pair->bound < q->enough))
    return;
  g_assert (q->n_stack < G_N_ELEMENTS (q->stack));
  q->stack[q->n_stack++] = *pair;
}

static void
query_split (Query *q, const Pair *pair)
{
  gboolean split_a = trn_item_is_first_split (q->a, pair->a, q->b, pair->b);
  guint32 ids[TRN_ITEM_PARTS];
  guint n = trn_item_parts (split_a ? q->a : q->b, split_a ? pair->a : pair->b, ids);
  Pair parts[TRN_ITEM_PARTS];
  for (guint i = 0; i < n; i++)
    {
      Pair part = *pair;
      *(split_a ? &part.a : &part.b) = ids[i];
      pair_bound (q, &part);
      guint k = i; /* the farthest first, so that the nearest is on top */
      for (; k > 0 && parts[k - 1].bound < part.bound; k--)
        parts[k] = parts[k - 1];
      parts[k] = part;
    }
  for (guint i = 0; i < n; i++)
    query_push (q, &parts[i]);
}

static void
query_run (Query *q)
{
  Pair root = { .direction = { 0, 0, 1 }, .bound = -INFINITY };
  pair_bound (q, &root);
  query_push (q, &root);
  while (q->n_stack > 0 && q->enough > 0)
    {
      Pair pair = q->stack[--q->n_stack];
      if (!(pair.bound < q->enough))
        continue;
      if (trn_item_is_leaf (q->a, pair.a) && trn_item_is_leaf (q->b, pair.b))
        query_leaves (q, &pair);
      else
        query_split (q, &pair);
    }
}

TrnDistance
trn_mesh_distance_within (const TrnBvh *a, const TrnPose *site_from_a, const TrnBvh *b,
                          const TrnPose *site_from_b, double limit_m, double tolerance_m,
                          const TrnDistanceHint *hint)
{
  g_assert (a->depth <= TRN_BVH_MAX_DEPTH && b->depth <= TRN_BVH_MAX_DEPTH);
  Query q;
  q.a = a;
  q.b = b;
  q.b_from_a = trn_pose_relative (site_from_b, site_from_a);
  q.slack = 256 * UNIT_ROUNDING * query_reach (&q);
  q.limit = q.enough = limit_m;
  q.tolerance = tolerance_m;
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

TrnDistance
trn_mesh_distance (const TrnBvh *a, const TrnPose *site_from_a, const TrnBvh *b,
                   const TrnPose *site_from_b, double limit_m, const TrnDistanceHint *hint)
{
  return trn_mesh_distance_within (a, site_from_a, b, site_from_b, limit_m, 0, hint);
}
