/* bvh.c: builds the tree of bounding volumes over a mesh.
 *
 * Used by the static distance (distance.c) and by the sweep, which both live on tight node
 * volumes: hulls of few points that truly contain the triangles.
 *
 * From the root down, with a stack of its own. A node is split across the axis along which its
 * centroids spread most, among the axes of its oriented box, where the sum of the surface areas
 * of both sides times their triangles is least (Goldsmith and Salmon 1987; sixteen bins as in Wald
 * 2007). From HALVING_DEPTH down a node is halved by count, which bounds the depth.
 *
 * An oriented box is fitted along the principal axes of the corners (Gottschalk, Lin and Manocha
 * 1996); the axis-aligned box is taken where it has the lesser surface. */
#include "bvh.h"

#define N_BINS 16
#define HALVING_DEPTH 28 /* below: at most log₂ 2³² more */
#define UNIT_ROUNDING 0x1p-53
#define VANISHING_M 1e-150

typedef struct
{
  TrnVec3 axis[3];
  double lo[3], hi[3]; /* along the axes, from the origin of the frame */
} Frame;

typedef struct
{
  guint32 node;
  guint depth;
} Task;

typedef struct
{
  const TrnMesh *mesh;
  guint32 *order;
  TrnVec3 *centroids; /* twice the centre of each triangle's box, by triangle */
  TrnBox *boxes;      /* by triangle */
  TrnVec3 *corners;   /* of the node at hand, three a triangle */
  double *keys;       /* of the node at hand, by triangle */
  GArray *nodes;
  GArray *points;
  guint depth;
} Build;

/* As trn_box_add_box(), which a compiler calls fmin() for; coordinates are no NaN here. */
static inline void
box_join (TrnBox *box, const TrnBox *other)
{
  box->lo.x = MIN (box->lo.x, other->lo.x);
  box->lo.y = MIN (box->lo.y, other->lo.y);
  box->lo.z = MIN (box->lo.z, other->lo.z);
  box->hi.x = MAX (box->hi.x, other->hi.x);
  box->hi.y = MAX (box->hi.y, other->hi.y);
  box->hi.z = MAX (box->hi.z, other->hi.z);
}

static void
sums_add (TrnVec3 d, double s[9])
{
  s[0] += d.x;
  s[1] += d.y;
  s[2] += d.z;
  s[3] += d.x * d.x;
  s[4] += d.y * d.y;
  s[5] += d.z * d.z;
  s[6] += d.x * d.y;
  s[7] += d.y * d.z;
  s[8] += d.z * d.x;
}

/* One Jacobi rotation that clears m[p][q] of the symmetric @m; the columns of @v turn along. */
static void
jacobi_turn (double m[3][3], double v[3][3], int p, int q)
{
  if (m[p][q] == 0)
    return;
  double theta = (m[q][q] - m[p][p]) / (2 * m[p][q]);
  double t = (theta >= 0 ? 1 : -1) / (fabs (theta) + sqrt (theta * theta + 1));
  double c = 1 / sqrt (t * t + 1), s = t * c;
  for (int i = 0; i < 3; i++)
    {
      double a = m[i][p], b = m[i][q];
      m[i][p] = c * a - s * b;
      m[i][q] = s * a + c * b;
    }
  for (int i = 0; i < 3; i++)
    {
      double a = m[p][i], b = m[q][i];
      m[p][i] = c * a - s * b;
      m[q][i] = s * a + c * b;
      a = v[i][p], b = v[i][q];
      v[i][p] = c * a - s * b;
      v[i][q] = s * a + c * b;
    }
}

/* Whether the axes are orthonormal to within 16 u an entry as computed, 20 u in truth: the
 * derivation in oriented_points() relies on it. */
static gboolean
axes_are_orthonormal (const TrnVec3 axis[3])
{
  for (int i = 0; i < 3; i++)
    for (int j = i; j < 3; j++)
      if (!(fabs (trn_vec3_dot (axis[i], axis[j]) - (i == j)) <= 16 * UNIT_ROUNDING))
        return FALSE;
  return TRUE;
}

/* The principal axes of @points about @origin; FALSE where they cannot be told. */
static gboolean
principal_axes (const TrnVec3 *points, guint64 n_points, TrnVec3 origin, double size,
                TrnVec3 axis[3])
{
  double s[9] = { 0 }, k = 1 / size, n = (double)n_points;
  if (!isfinite (k))
    return FALSE;
  for (guint64 i = 0; i < n_points; i++)
    sums_add (trn_vec3_scale (trn_vec3_sub (points[i], origin), k), s);
  double xx = s[3] - s[0] * s[0] / n, yy = s[4] - s[1] * s[1] / n, zz = s[5] - s[2] * s[2] / n;
  double xy = s[6] - s[0] * s[1] / n, yz = s[7] - s[1] * s[2] / n, zx = s[8] - s[2] * s[0] / n;
  double m[3][3] = { { xx, xy, zx }, { xy, yy, yz }, { zx, yz, zz } };
  double v[3][3] = { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } };
  double tiny = 1e-12 * (xx + yy + zz);
  for (int sweep = 0; sweep < 12; sweep++)
    {
      if (fabs (m[0][1]) + fabs (m[1][2]) + fabs (m[0][2]) <= tiny)
        break;
      jacobi_turn (m, v, 0, 1);
      jacobi_turn (m, v, 0, 2);
      jacobi_turn (m, v, 1, 2);
    }
  TrnVec3 a = trn_vec3_unit (trn_vec3_make (v[0][0], v[1][0], v[2][0]));
  TrnVec3 b = trn_vec3_make (v[0][1], v[1][1], v[2][1]);
  b = trn_vec3_unit (trn_vec3_add_scaled (b, a, -trn_vec3_dot (a, b)));
  axis[0] = a;
  axis[1] = b;
  axis[2] = trn_vec3_cross (a, b);
  return axes_are_orthonormal (axis);
}

static void
frame_measure (Frame *frame, const TrnVec3 *points, guint64 n_points, TrnVec3 origin)
{
  for (int i = 0; i < 3; i++)
    {
      frame->lo[i] = INFINITY;
      frame->hi[i] = -INFINITY;
    }
  for (guint64 k = 0; k < n_points; k++)
    {
      TrnVec3 d = trn_vec3_sub (points[k], origin);
      for (int i = 0; i < 3; i++)
        {
          double t = trn_vec3_dot (frame->axis[i], d);
          frame->lo[i] = t < frame->lo[i] ? t : frame->lo[i];
          frame->hi[i] = t > frame->hi[i] ? t : frame->hi[i];
        }
    }
}

/* Half the surface. */
static double
half_area (TrnVec3 size)
{
  return size.x * size.y + size.y * size.z + size.z * size.x;
}

static double
box_half_area (const TrnBox *box)
{
  return half_area (trn_box_size (box));
}

static double
frame_half_area (const Frame *frame)
{
  return half_area (trn_vec3_make (frame->hi[0] - frame->lo[0], frame->hi[1] - frame->lo[1],
                                   frame->hi[2] - frame->lo[2]));
}

/* The corners of the oriented box @frame about @origin, widened so that their hull contains every
 * point that was measured. With u = 2⁻⁵³, D the greatest absolute coordinate difference of a point
 * from the origin, C the greatest absolute coordinate:
 * - a measured t_i = axis_i · (x − origin) is off by at most (4 u) √3 D < 7 u D;
 * - with AᵀA = I + E, |E_ij| <= 20 u, the coordinates of x along the axes as they are differ from
 *   Aᵀ(x − origin) by at most 3 · 20 u · √3 D < 104 u D;
 * - a corner is off by at most u (C + 15 D) a coordinate, u (1.8 C + 26 D) in length; moving every
 *   corner by δ takes at most δ off the support of the hull in any direction, and widening each
 *   side by δ adds at least δ.
 * The sum is below 256 u D + 4 u C. */
static void
oriented_points (const Frame *frame, TrnVec3 origin, double difference, double coordinate,
                 TrnVec3 points[8])
{
  double widen = UNIT_ROUNDING * (256 * difference + 4 * coordinate);
  for (guint corner = 0; corner < 8; corner++)
    {
      TrnVec3 p = { 0, 0, 0 };
      for (guint i = 0; i < 3; i++)
        {
          double t = corner & (1u << i) ? frame->hi[i] + widen : frame->lo[i] - widen;
          p = trn_vec3_add_scaled (p, frame->axis[i], t);
        }
      points[corner] = trn_vec3_add (origin, p);
    }
}

/* The distinct points of @corners, or FALSE when they are more than TRN_BVH_MAX_POINTS. */
static gboolean
distinct_points (const TrnVec3 *corners, guint64 n_corners, TrnVec3 *points, guint32 *n_points)
{
  guint32 n = 0;
  for (guint64 k = 0; k < n_corners; k++)
    {
      TrnVec3 p = corners[k];
      guint32 i = 0;
      while (i < n && (points[i].x != p.x || points[i].y != p.y || points[i].z != p.z))
        i++;
      if (i < n)
        continue;
      if (n == TRN_BVH_MAX_POINTS)
        return FALSE;
      points[n++] = p;
    }
  *n_points = n;
  return TRUE;
}

/* The ball round @points. A computed distance is below the truth by less than 4 u of it, and by
 * less than VANISHING_M where its square is too small for a double. */
static void
node_set_ball (TrnBvhNode *node, const TrnVec3 *points, TrnVec3 centre)
{
  double most = 0;
  for (guint32 i = 0; i < node->n_points; i++)
    most = fmax (most, trn_vec3_distance (points[i], centre));
  node->centre = centre;
  node->radius_m = most * (1 + 8 * UNIT_ROUNDING) + VANISHING_M;
}

/* Fills in the points and the ball of @node; @frame receives axes that suit a split. */
static void
node_fit (Build *b, TrnBvhNode *node, Frame *frame)
{
  guint64 n = 3 * (guint64)node->count;
  TrnBox box = trn_box_empty ();
  for (guint32 k = 0; k < node->count; k++)
    {
      guint32 triangle = b->order[node->first + k];
      trn_mesh_corners (b->mesh, triangle, &b->corners[3 * (guint64)k]);
      box_join (&box, &b->boxes[triangle]);
    }

  TrnVec3 origin = trn_box_centre (&box);
  double difference = fmax (trn_vec3_max_abs (trn_vec3_sub (box.hi, origin)),
                            trn_vec3_max_abs (trn_vec3_sub (box.lo, origin)));
  double coordinate = fmax (trn_vec3_max_abs (box.hi), trn_vec3_max_abs (box.lo));
  TrnVec3 points[TRN_BVH_MAX_POINTS];
  gboolean few = distinct_points (b->corners, n, points, &node->n_points);
  const TrnVec3 *from = few ? points : b->corners;
  guint64 n_from = few ? node->n_points : n;
  gboolean turned = principal_axes (from, n_from, origin, difference, frame->axis);
  if (turned)
    {
      frame_measure (frame, from, n_from, origin);
      turned = frame_half_area (frame) < box_half_area (&box);
    }
  if (!turned)
    for (int i = 0; i < 3; i++)
      frame->axis[i] = trn_vec3_make (i == 0, i == 1, i == 2);

  if (!few)
    {
      node->n_points = 8;
      if (turned)
        oriented_points (frame, origin, difference, coordinate, points);
      else
        for (guint i = 0; i < 8; i++)
          points[i] = trn_box_corner (&box, i);
    }
  TrnVec3 centre = origin;
  if (turned)
    for (int i = 0; i < 3; i++)
      centre = trn_vec3_add_scaled (centre, frame->axis[i], 0.5 * (frame->lo[i] + frame->hi[i]));
  node_set_ball (node, points, centre);
  g_assert (b->points->len <= G_MAXUINT32 - TRN_BVH_MAX_POINTS);
  node->first_point = b->points->len;
  g_array_append_vals (b->points, points, node->n_points);
}

/* The axis along which the centroids of the node spread most, and their range along it. */
static int
widest_axis (Build *b, const TrnBvhNode *node, const Frame *frame, double *lo, double *hi)
{
  double least[3] = { INFINITY, INFINITY, INFINITY };
  double most[3] = { -INFINITY, -INFINITY, -INFINITY };
  TrnVec3 origin = b->centroids[b->order[node->first]];
  for (guint32 k = 0; k < node->count; k++)
    {
      TrnVec3 d = trn_vec3_sub (b->centroids[b->order[node->first + k]], origin);
      for (int i = 0; i < 3; i++)
        {
          double t = trn_vec3_dot (frame->axis[i], d);
          least[i] = t < least[i] ? t : least[i];
          most[i] = t > most[i] ? t : most[i];
        }
    }
  int widest = 0;
  for (int i = 1; i < 3; i++)
    if (most[i] - least[i] > most[widest] - least[widest])
      widest = i;
  *lo = least[widest];
  *hi = most[widest];
  for (guint32 k = 0; k < node->count; k++)
    {
      guint32 triangle = b->order[node->first + k];
      b->keys[triangle]
          = trn_vec3_dot (frame->axis[widest], trn_vec3_sub (b->centroids[triangle], origin));
    }
  return widest;
}

static int
bin_of (double key, double lo, double per_unit)
{
  double bin = (key - lo) * per_unit;
  return bin >= N_BINS - 1 ? N_BINS - 1 : bin > 0 ? (int)bin : 0;
}

/* The first bin of the upper side at the cheapest cut. */
static int
cheapest_cut (Build *b, const TrnBvhNode *node, double lo, double per_unit)
{
  TrnBox boxes[N_BINS];
  guint32 counts[N_BINS] = { 0 };
  for (int i = 0; i < N_BINS; i++)
    boxes[i] = trn_box_empty ();
  for (guint32 k = 0; k < node->count; k++)
    {
      guint32 triangle = b->order[node->first + k];
      int bin = bin_of (b->keys[triangle], lo, per_unit);
      box_join (&boxes[bin], &b->boxes[triangle]);
      counts[bin]++;
    }

  double upper_cost[N_BINS];
  TrnBox side = trn_box_empty ();
  guint32 n = 0;
  for (int i = N_BINS - 1; i > 0; i--)
    {
      box_join (&side, &boxes[i]);
      n += counts[i];
      upper_cost[i] = n > 0 ? n * box_half_area (&side) : 0;
    }
  side = trn_box_empty ();
  n = 0;
  int best = N_BINS / 2;
  double best_cost = INFINITY;
  for (int i = 1; i < N_BINS; i++)
    {
      box_join (&side, &boxes[i - 1]);
      n += counts[i - 1];
      if (n == 0 || n == node->count)
        continue;
      double cost = n * box_half_area (&side) + upper_cost[i];
      if (cost < best_cost)
        {
          best = i;
          best_cost = cost;
        }
    }
  return best;
}

static int
compare_keys (gconstpointer a, gconstpointer b, gpointer keys)
{
  double x = ((const double *)keys)[*(const guint32 *)a];
  double y = ((const double *)keys)[*(const guint32 *)b];
  if (x != y)
    return x < y ? -1 : 1;
  return *(const guint32 *)a < *(const guint32 *)b ? -1 : 1;
}

/* Orders the triangles of the node so that the first of them, whose number is returned, go to one
 * child and the rest, at least one, to the other. */
static guint32
node_divide (Build *b, const TrnBvhNode *node, const Frame *frame, guint depth)
{
  double lo, hi;
  widest_axis (b, node, frame, &lo, &hi);
  guint32 *run = &b->order[node->first];
  if (depth < HALVING_DEPTH)
    {
      double per_unit = N_BINS / (hi - lo);
      int cut = isfinite (per_unit) ? cheapest_cut (b, node, lo, per_unit) : 0;
      guint32 n = 0;
      for (guint32 k = 0; k < node->count; k++)
        if (bin_of (b->keys[run[k]], lo, per_unit) < cut)
          {
            guint32 triangle = run[k];
            run[k] = run[n];
            run[n++] = triangle;
          }
      if (n > 0 && n < node->count)
        return n;
    }
  if (hi > lo)
    g_qsort_with_data (run, (gint)node->count, sizeof *run, compare_keys, b->keys);
  return node->count / 2;
}

static void
build_start (Build *b, const TrnMesh *mesh)
{
  guint32 n = mesh->n_triangles;
  *b = (Build){ .mesh = mesh };
  b->order = g_new (guint32, n);
  b->centroids = g_new (TrnVec3, n);
  b->boxes = g_new (TrnBox, n);
  b->corners = g_new (TrnVec3, 3 * (gsize)n);
  b->keys = g_new (double, n);
  b->nodes = g_array_sized_new (FALSE, FALSE, sizeof (TrnBvhNode), n);
  b->points = g_array_sized_new (FALSE, FALSE, sizeof (TrnVec3), n);
  for (guint32 i = 0; i < n; i++)
    {
      TrnVec3 corners[3];
      trn_mesh_corners (mesh, i, corners);
      b->order[i] = i;
      b->boxes[i] = trn_box_empty ();
      for (int k = 0; k < 3; k++)
        trn_box_add_point (&b->boxes[i], corners[k]);
      b->centroids[i] = trn_vec3_add (b->boxes[i].lo, b->boxes[i].hi);
    }
}

static void
build_run (Build *b)
{
  g_autoptr (GArray) tasks = g_array_new (FALSE, FALSE, sizeof (Task));
  TrnBvhNode root = { .first = 0, .count = b->mesh->n_triangles };
  Task task = { .node = 0, .depth = 1 };
  g_array_append_val (b->nodes, root);
  g_array_append_val (tasks, task);
  while (tasks->len > 0)
    {
      task = g_array_index (tasks, Task, tasks->len - 1);
      g_array_set_size (tasks, tasks->len - 1);
      TrnBvhNode node = g_array_index (b->nodes, TrnBvhNode, task.node);
      Frame frame;
      node_fit (b, &node, &frame);
      b->depth = MAX (b->depth, task.depth);
      if (node.count > TRN_BVH_LEAF_TRIANGLES)
        {
          guint32 n = node_divide (b, &node, &frame, task.depth);
          TrnBvhNode children[2] = { { .first = node.first, .count = n },
                                     { .first = node.first + n, .count = node.count - n } };
          node.child = b->nodes->len;
          g_array_append_vals (b->nodes, children, 2);
          for (guint32 i = 2; i-- > 0;)
            {
              Task next = { .node = node.child + i, .depth = task.depth + 1 };
              g_array_append_val (tasks, next);
            }
        }
      g_array_index (b->nodes, TrnBvhNode, task.node) = node;
    }
}

TrnBvh *
trn_bvh_build (const TrnMesh *mesh)
{
  g_assert (mesh->n_triangles > 0 && mesh->n_triangles <= G_MAXINT);
  Build b;
  build_start (&b, mesh);
  build_run (&b);

  TrnBvh *bvh = g_new (TrnBvh, 1);
  guint32 n_nodes = b.nodes->len, n_points = b.points->len;
  TrnBvhNode *nodes = (TrnBvhNode *)(gpointer)g_array_free (b.nodes, FALSE);
  TrnVec3 *points = (TrnVec3 *)(gpointer)g_array_free (b.points, FALSE);
  *bvh = (TrnBvh){
    .mesh = trn_mesh_ref (mesh),
    .nodes = g_renew (TrnBvhNode, nodes, n_nodes),
    .n_nodes = n_nodes,
    .order = b.order,
    .points = g_renew (TrnVec3, points, n_points),
    .n_points = n_points,
    .depth = b.depth,
  };
  g_free (b.centroids);
  g_free (b.boxes);
  g_free (b.corners);
  g_free (b.keys);
  return bvh;
}

void
trn_bvh_free (TrnBvh *bvh)
{
  if (bvh == NULL)
    return;
  trn_mesh_unref (bvh->mesh);
  g_free ((gpointer)bvh->nodes);
  g_free ((gpointer)bvh->order);
  g_free ((gpointer)bvh->points);
  g_free (bvh);
}
