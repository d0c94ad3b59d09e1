/* The tree over a mesh, and its single triangles: what the sweep and the distance rely on. */
#include "item.h"

#include "quad.h"
#include "test-scale.h"
#include "test-shapes.h"

/* Every triangle in one leaf, children lying together and splitting the run of their parent. */
static void
check_structure (const TrnBvh *bvh)
{
  guint32 n = bvh->mesh->n_triangles;
  g_autofree guint8 *seen = g_new0 (guint8, n);
  g_autofree guint *depth = g_new0 (guint, bvh->n_nodes);
  guint deepest = 0, n_reached = 1;
  g_assert_cmpuint (bvh->nodes[0].first, ==, 0);
  g_assert_cmpuint (bvh->nodes[0].count, ==, n);
  depth[0] = 1;
  for (guint32 i = 0; i < bvh->n_nodes; i++)
    {
      const TrnBvhNode *node = &bvh->nodes[i];
      deepest = MAX (deepest, depth[i]);
      if (node->child == 0)
        {
          g_assert_cmpuint (node->count, <=, TRN_BVH_LEAF_TRIANGLES);
          for (guint32 k = 0; k < node->count; k++)
            g_assert_cmpuint (seen[bvh->order[node->first + k]]++, ==, 0);
          continue;
        }
      g_assert_cmpuint (node->n_children, >=, 2);
      g_assert_cmpuint (node->n_children, <=, TRN_BVH_CHILDREN);
      guint32 next = node->first;
      for (guint c = 0; c < node->n_children; c++)
        {
          const TrnBvhNode *child = &bvh->nodes[node->child + c];
          g_assert_cmpuint (node->child + c, >, i);
          g_assert_cmpuint (depth[node->child + c], ==, 0); /* nobody else's */
          depth[node->child + c] = depth[i] + 1;
          g_assert_cmpuint (child->first, ==, next);
          g_assert_cmpuint (child->count, >, 0);
          next += child->count;
          n_reached++;
        }
      g_assert_cmpuint (next, ==, node->first + node->count);
    }
  for (guint32 i = 0; i < n; i++)
    g_assert_cmpuint (seen[i], ==, 1);
  g_assert_cmpuint (n_reached, ==, bvh->n_nodes);
  g_assert_cmpuint (bvh->depth, ==, deepest);
  g_assert_cmpuint (bvh->depth, <=, 64);
}

static TrnVec3
point_get (const TrnHull *hull, guint i)
{
  const TrnPoints8 *block = &hull->blocks[i / 8];
  return trn_vec3_make (block->x[i % 8], block->y[i % 8], block->z[i % 8]);
}

/* The corners of a node's triangles, each once; the caller frees. */
static TrnVec3 *
corners_dup (const TrnBvh *bvh, const TrnBvhNode *node, guint32 *n_corners)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (NULL, NULL);
  TrnVec3 *corners = g_new (TrnVec3, 3 * node->count);
  guint32 n = 0;
  for (guint32 k = 0; k < node->count; k++)
    for (guint i = 0; i < 3; i++)
      {
        guint32 v = bvh->mesh->triangles[bvh->order[node->first + k]].v[i];
        if (g_hash_table_add (seen, GUINT_TO_POINTER (v)))
          corners[n++] = bvh->mesh->vertices[v];
      }
  *n_corners = n;
  return corners;
}

/* In quadruple precision and without any allowance: the points, with their slack, reach as far
 * along
 * @n as that corner. */
static void
check_along (const TrnHull *hull, TrnVec3 centre, double slack_m, TrnVec3 corner, TrnVec3 n)
{
  QuadVec v = quad_vec (n);
  Quad most = -INFINITY;
  for (guint i = 0; i < 8 * hull->n_blocks; i++)
    most = MAX (most, quad_product (v, quad_vec (point_get (hull, i))));
  QuadVec p = quad_sub (quad_vec (corner), quad_vec (centre));
  g_assert_true (quad_product (v, p) <= most + slack_m * quad_length (v));
}

/* The direction in which the hull of the points is farthest from that corner: the worst there is
 * for it. By the method of Frank and Wolfe, a few steps; zero where the corner is inside. */
static TrnVec3
farthest_direction (const TrnHull *hull, TrnVec3 centre, TrnVec3 corner)
{
  TrnVec3 p = trn_vec3_sub (corner, centre);
  guint n = 8 * hull->n_blocks, nearest = 0;
  for (guint i = 1; i < n; i++)
    if (trn_vec3_distance (point_get (hull, i), p)
        < trn_vec3_distance (point_get (hull, nearest), p))
      nearest = i;
  TrnVec3 v = trn_vec3_sub (p, point_get (hull, nearest));
  for (guint step = 0; step < 60; step++)
    {
      guint far = 0;
      for (guint i = 1; i < n; i++)
        if (trn_vec3_dot (v, point_get (hull, i)) > trn_vec3_dot (v, point_get (hull, far)))
          far = i;
      TrnVec3 d = trn_vec3_sub (trn_vec3_sub (p, point_get (hull, far)), v);
      double dd = trn_vec3_length_squared (d);
      if (!(dd > 0))
        break;
      v = trn_vec3_add_scaled (v, d, CLAMP (-trn_vec3_dot (v, d) / dd, 0, 1));
    }
  return v;
}

/* Towards a corner that lies inside there is no such direction, and any will do. */
static TrnVec3
direction_scaled (TrnVec3 v)
{
  double size = trn_vec3_max_abs (v);
  return size > 1e-200 ? trn_vec3_scale (v, 1 / size) : trn_vec3_make (1, 0, 0);
}

/* The ball holds the points and the corners, and along no direction does a corner stick out. */
static void
check_hull (const TrnHull *hull, TrnVec3 centre, double slack_m, const TrnVec3 *corners, guint n,
            guint stride)
{
  for (guint i = 0; i < 8 * hull->n_blocks; i++)
    g_assert_true (quad_length (quad_vec (point_get (hull, i))) <= hull->radius_m);
  for (guint i = 0; i < n; i += stride)
    {
      TrnVec3 out = trn_vec3_sub (corners[i], centre);
      TrnVec3 worst = farthest_direction (hull, centre, corners[i]);
      g_assert_true (quad_length (quad_sub (quad_vec (corners[i]), quad_vec (centre)))
                     <= hull->radius_m);
      check_along (hull, centre, slack_m, corners[i], direction_scaled (worst));
      check_along (hull, centre, slack_m, corners[i], direction_scaled (out));
    }
}

/* Of a node of many corners a part of them is looked at. */
#define CORNERS_A_NODE 150

static void
check_node (const TrnBvh *bvh, const TrnBvhNode *node, GRand *rand)
{
  guint32 n;
  g_autofree TrnVec3 *corners = corners_dup (bvh, node, &n);
  g_assert_true (node->n_blocks >= 1);
  g_assert_cmpuint (node->first_block + node->n_blocks, <=, bvh->n_blocks);
  TrnHull hull = trn_bvh_hull (bvh, node);
  guint32 stride = 1 + n / CORNERS_A_NODE;
  guint32 begin = (guint32)g_rand_int_range (rand, 0, (gint32)stride);
  check_hull (&hull, trn_bvh_centre (node), (double)node->slack_m, corners + begin, n - begin,
              stride);
}

/* A triangle by itself is as good as a node. */
static void
check_triangle (const TrnBvh *bvh, guint32 triangle)
{
  TrnItem item;
  TrnVec3 corners[3];
  trn_item_make (bvh, triangle | TRN_ITEM_TRIANGLE, &item);
  trn_mesh_corners (bvh->mesh, triangle, corners);
  g_assert_cmpfloat (item.hull.radius_m, ==, item.radius_m);
  check_hull (&item.hull, item.centre, item.slack_m, corners, 3, 1);
}

static void
check_same (const TrnBvh *bvh, const TrnBvh *again)
{
  g_assert_cmpuint (bvh->depth, ==, again->depth);
  g_assert_cmpmem (bvh->nodes, bvh->n_nodes * sizeof *bvh->nodes, again->nodes,
                   again->n_nodes * sizeof *again->nodes);
  g_assert_cmpmem (bvh->blocks, bvh->n_blocks * sizeof *bvh->blocks, again->blocks,
                   again->n_blocks * sizeof *again->blocks);
  g_assert_cmpmem (bvh->order, bvh->mesh->n_triangles * sizeof (guint32), again->order,
                   again->mesh->n_triangles * sizeof (guint32));
}

static void
check_mesh (TrnMesh *mesh, GRand *rand)
{
  g_autoptr (TrnBvh) bvh = trn_bvh_build (mesh, 1), again = trn_bvh_build (mesh, 2);
  check_structure (bvh);
  check_same (bvh, again);
  for (guint32 i = 0; i < bvh->n_nodes; i++)
    check_node (bvh, &bvh->nodes[i], rand);
  for (guint32 i = 0; i < mesh->n_triangles; i += 1 + mesh->n_triangles / 100)
    check_triangle (bvh, i);
  trn_mesh_unref (mesh);
}

/* The same mesh moved by @shift and scaled by @k. */
static TrnMesh *
moved (TrnMesh *mesh, double k, TrnVec3 shift)
{
  TrnVec3 *vertices = g_new (TrnVec3, mesh->n_vertices);
  TrnTriangle *triangles = g_memdup2 (mesh->triangles, mesh->n_triangles * sizeof (TrnTriangle));
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    vertices[i] = trn_vec3_add_scaled (shift, mesh->vertices[i], k);
  TrnMesh *result
      = trn_mesh_new_take (vertices, mesh->n_vertices, triangles, mesh->n_triangles, NULL, 0);
  trn_mesh_unref (mesh);
  return result;
}

/* Closed bumpy bodies of some hundred triangles, as they are, 0.05 mm large, 5 km away, 1e30 m and
 * 1e-42 m large: single precision has no normal numbers there. */
static void
test_blobs (void)
{
  guint32 seed = (guint32)g_test_rand_int ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_test_message ("seed %u", seed);
  TrnVec3 zero = { 0, 0, 0 }, far = { 5000, -4000, 100 };
  for (guint i = 0; i < test_scaled (2); i++)
    {
      check_mesh (test_blob (rand, 20, 4), rand);
      check_mesh (moved (test_blob (rand, 14, 1), 5e-5, zero), rand);
      check_mesh (moved (test_blob (rand, 14, 1), 1, far), rand);
      check_mesh (moved (test_blob (rand, 14, 1), 1e-3, far), rand);
      check_mesh (moved (test_blob (rand, 10, 1), 1e30, zero), rand);
      check_mesh (moved (test_blob (rand, 10, 1), 1e-42, zero), rand);
    }
}

/* A box and a tube: many equal extents, flat nodes, rows of points on a line. */
static void
test_regular (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (1);
  check_mesh (test_box (trn_vec3_make (0, 0, 0), trn_vec3_make (2, 2, 2)), rand);
  check_mesh (test_tube (360, 3, 3.5, -20, 0), rand);
}

/* A smooth shallow dish, 10 mm from point to point and 1 µm deep between them: nearly every point
 * can be left out by a little, at every level anew, so that what the children left out is missed
 * when a node does not count it. */
static TrnMesh *
dish (guint n)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (guint i = 0; i <= n; i++)
    for (guint j = 0; j <= n; j++)
      {
        double x = 0.01 * (i - 0.5 * n), y = 0.01 * (j - 0.5 * n);
        trn_mesh_builder_vertex (builder, trn_vec3_make (x, y, (x * x + y * y) / 25));
      }
  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < n; j++)
      {
        guint p = i * (n + 1) + j, q = p + n + 1;
        trn_mesh_builder_triangle (builder, p, q, q + 1);
        trn_mesh_builder_triangle (builder, p, q + 1, p + 1);
      }
  return trn_mesh_builder_finish (builder);
}

static void
test_smooth (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (2);
  g_autoptr (TrnMesh) mesh = dish (64);
  g_autoptr (TrnBvh) bvh = trn_bvh_build (mesh, 1);
  for (guint32 i = 0; i < bvh->n_nodes; i++)
    if (bvh->nodes[i].count > 32)
      check_node (bvh, &bvh->nodes[i], rand);
}

/* Some thousand triangles, which make several parts: the same tree for any number of threads, and
 * the same when it is made again. */
static void
test_jobs (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);
  g_autoptr (TrnMesh) mesh = test_blob (rand, 110, 4);
  g_autoptr (TrnBvh) one = trn_bvh_build (mesh, 1);
  check_structure (one);
  for (guint jobs = 0; jobs < 9; jobs++)
    {
      g_autoptr (TrnBvh) bvh = trn_bvh_build (mesh, jobs);
      check_same (one, bvh);
    }
  for (guint32 i = 0; i < one->n_nodes; i++)
    if (one->nodes[i].count > 2000)
      check_node (one, &one->nodes[i], rand);
}

static TrnMesh *
repeated (TrnVec3 a, TrnVec3 b, TrnVec3 c, guint n)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (guint i = 0; i < n; i++)
    {
      guint32 first = trn_mesh_builder_vertex (builder, a);
      trn_mesh_builder_vertex (builder, b);
      trn_mesh_builder_vertex (builder, c);
      trn_mesh_builder_triangle (builder, first, first + 1, first + 2);
    }
  return trn_mesh_builder_finish (builder);
}

/* One triangle; a thousand times the same triangle, whose centroids cannot be split; a thousand
 * times the same point. A few points then stand for every node. */
static void
test_identical (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (1);
  TrnVec3 a = { 0, 0, 0 }, b = { 1, 0, 0 }, c = { 0, 1, 0.5 };
  g_autoptr (TrnMesh) many = repeated (a, b, c, 1000);
  g_autoptr (TrnBvh) bvh = trn_bvh_build (many, 1);
  for (guint32 i = 0; i < bvh->n_nodes; i++)
    g_assert_cmpuint (bvh->nodes[i].n_blocks, ==, 1);
  g_assert_cmpuint (bvh->depth, <=, 5); /* 1000 halved eight times, two at a node, is at most 4 */
  check_mesh (repeated (a, b, c, 1), rand);
  check_mesh (repeated (a, b, c, 1000), rand);
  check_mesh (repeated (a, a, a, 1000), rand);
}

/* Triangles on both sides of the middle, each a twentieth of the size of the next outward: bins
 * peel off one at a time, and only halving bounds the depth. */
static void
test_depth (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (1);
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (int i = 0; i < 56; i++)
    {
      double k = (i % 2 ? 1 : -1) * pow (20, -(i / 2));
      guint32 first = trn_mesh_builder_vertex (builder, trn_vec3_make (k, 0, 0));
      trn_mesh_builder_vertex (builder, trn_vec3_make (1.5 * k, 0, 0));
      trn_mesh_builder_vertex (builder, trn_vec3_make (k, k / 2, k / 2));
      trn_mesh_builder_triangle (builder, first, first + 1, first + 2);
    }
  TrnMesh *mesh = trn_mesh_builder_finish (builder);
  g_autoptr (TrnBvh) bvh = trn_bvh_build (mesh, 1);
  g_assert_cmpuint (bvh->depth, >, 8);
  check_mesh (mesh, rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bvh/blobs", test_blobs);
  g_test_add_func ("/bvh/regular", test_regular);
  g_test_add_func ("/bvh/smooth", test_smooth);
  g_test_add_func ("/bvh/jobs", test_jobs);
  g_test_add_func ("/bvh/identical", test_identical);
  g_test_add_func ("/bvh/depth", test_depth);
  return g_test_run ();
}
