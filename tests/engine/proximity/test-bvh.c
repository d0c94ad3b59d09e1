/* The tree over a mesh: what the sweep and the distance rely on. */
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
  guint deepest = 0;
  g_assert_cmpuint (bvh->nodes[0].first, ==, 0);
  g_assert_cmpuint (bvh->nodes[0].count, ==, n);
  depth[0] = 1;
  for (guint32 i = 0; i < bvh->n_nodes; i++)
    {
      const TrnBvhNode *node = &bvh->nodes[i];
      g_assert_cmpuint (depth[i], >, 0);
      deepest = MAX (deepest, depth[i]);
      if (node->child == 0)
        {
          g_assert_cmpuint (node->count, <=, TRN_BVH_LEAF_TRIANGLES);
          for (guint32 k = 0; k < node->count; k++)
            g_assert_cmpuint (seen[bvh->order[node->first + k]]++, ==, 0);
          continue;
        }
      const TrnBvhNode *child = &bvh->nodes[node->child];
      g_assert_cmpuint (node->child, >, i);
      g_assert_cmpuint (child[0].first, ==, node->first);
      g_assert_cmpuint (child[1].first, ==, node->first + child[0].count);
      g_assert_cmpuint (child[0].count + child[1].count, ==, node->count);
      g_assert_true (child[0].count > 0 && child[1].count > 0);
      depth[node->child] = depth[node->child + 1] = depth[i] + 1;
    }
  for (guint32 i = 0; i < n; i++)
    g_assert_cmpuint (seen[i], ==, 1);
  g_assert_cmpuint (bvh->depth, ==, deepest);
  g_assert_cmpuint (bvh->depth, <=, 64);
}

static gboolean
is_among (TrnVec3 p, const TrnVec3 *points, guint32 n)
{
  for (guint32 i = 0; i < n; i++)
    if (points[i].x == p.x && points[i].y == p.y && points[i].z == p.z)
      return TRUE;
  return FALSE;
}

/* In quadruple precision and without any tolerance: the hull of the points supports every corner
 * along @n. */
static void
check_support (const TrnVec3 *points, guint32 n_points, const TrnVec3 *corners, guint32 n_corners,
               TrnVec3 n)
{
  __float128 most = quad_dot (n, points[0]);
  for (guint32 i = 1; i < n_points; i++)
    most = MAX (most, quad_dot (n, points[i]));
  for (guint32 i = 0; i < n_corners; i++)
    g_assert_true (quad_dot (n, corners[i]) <= most);
}

/* A node's points are its vertices, or a box that contains them; the ball holds all of them. */
static void
check_node (const TrnBvh *bvh, const TrnBvhNode *node, GRand *rand)
{
  const TrnVec3 *points = &bvh->points[node->first_point];
  g_autofree TrnVec3 *corners = g_new (TrnVec3, 3 * node->count);
  guint32 n = 3 * node->count;
  for (guint32 k = 0; k < node->count; k++)
    trn_mesh_corners (bvh->mesh, bvh->order[node->first + k], &corners[3 * k]);
  g_assert_true (node->n_points >= 1 && node->n_points <= TRN_BVH_MAX_POINTS);
  g_assert_cmpuint (node->first_point + node->n_points, <=, bvh->n_points);
  for (guint32 i = 0; i < node->n_points; i++)
    g_assert_true (quad_distance (points[i], node->centre) <= node->radius_m);
  for (guint32 i = 0; i < n; i++)
    g_assert_true (quad_distance (corners[i], node->centre) <= node->radius_m);

  gboolean exact = TRUE;
  for (guint32 i = 0; i < n; i++)
    exact = exact && is_among (corners[i], points, node->n_points);
  if (exact)
    for (guint32 i = 0; i < node->n_points; i++)
      g_assert_true (is_among (points[i], corners, n) && !is_among (points[i], points, i));
  else
    {
      g_assert_cmpuint (node->n_points, ==, 8);
      for (guint axis = 1; axis < 8; axis *= 2)
        {
          TrnVec3 d = trn_vec3_sub (points[axis], points[0]);
          check_support (points, 8, corners, n, d);
          check_support (points, 8, corners, n, trn_vec3_scale (d, -1));
        }
      for (int i = 0; i < 6; i++)
        check_support (points, 8, corners, n,
                       trn_vec3_make (g_rand_double_range (rand, -1, 1),
                                      g_rand_double_range (rand, -1, 1),
                                      g_rand_double_range (rand, -1, 1)));
    }
}

static void
check_mesh (TrnMesh *mesh, GRand *rand)
{
  g_autoptr (TrnBvh) bvh = trn_bvh_build (mesh), again = trn_bvh_build (mesh);
  check_structure (bvh);
  for (guint32 i = 0; i < bvh->n_nodes; i++)
    check_node (bvh, &bvh->nodes[i], rand);
  g_assert_cmpuint (bvh->n_nodes, ==, again->n_nodes);
  g_assert_cmpuint (bvh->n_points, ==, again->n_points);
  for (guint32 i = 0; i < bvh->n_nodes; i++)
    {
      const TrnBvhNode *p = &bvh->nodes[i], *q = &again->nodes[i];
      g_assert_true (p->first == q->first && p->count == q->count && p->child == q->child
                     && p->first_point == q->first_point && p->radius_m == q->radius_m);
    }
  g_assert_cmpmem (bvh->points, bvh->n_points * sizeof (TrnVec3), again->points,
                   again->n_points * sizeof (TrnVec3));
  g_assert_cmpmem (bvh->order, mesh->n_triangles * sizeof (guint32), again->order,
                   mesh->n_triangles * sizeof (guint32));
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

/* Closed bumpy bodies of some thousand triangles, as they are, 0.05 mm large, and 5 km away. */
static void
test_blobs (void)
{
  guint32 seed = (guint32)g_test_rand_int ();
  GRand *rand = g_rand_new_with_seed (seed);
  g_test_message ("seed %u", seed);
  for (guint i = 0; i < test_scaled (3); i++)
    {
      check_mesh (test_blob (rand, 30, 4), rand);
      check_mesh (moved (test_blob (rand, 20, 1), 5e-5, trn_vec3_make (0, 0, 0)), rand);
      check_mesh (moved (test_blob (rand, 20, 1), 1, trn_vec3_make (5000, -4000, 100)), rand);
      check_mesh (moved (test_blob (rand, 20, 1), 1e-3, trn_vec3_make (5000, -4000, 100)), rand);
    }
  g_rand_free (rand);
}

/* A box and a tube: many equal extents, flat nodes, principal axes that cannot be told. */
static void
test_regular (void)
{
  GRand *rand = g_rand_new_with_seed (1);
  check_mesh (test_box (trn_vec3_make (0, 0, 0), trn_vec3_make (2, 2, 2)), rand);
  check_mesh (test_tube (360, 3, 3.5, -20, 0), rand);
  g_rand_free (rand);
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
 * times the same point. Three distinct points then stand for every node. */
static void
test_identical (void)
{
  GRand *rand = g_rand_new_with_seed (1);
  TrnVec3 a = { 0, 0, 0 }, b = { 1, 0, 0 }, c = { 0, 1, 0.5 };
  g_autoptr (TrnMesh) many = repeated (a, b, c, 1000);
  g_autoptr (TrnBvh) bvh = trn_bvh_build (many);
  for (guint32 i = 0; i < bvh->n_nodes; i++)
    g_assert_cmpuint (bvh->nodes[i].n_points, ==, 3);
  g_assert_cmpuint (bvh->depth, <=, 9); /* 1000 halved eight times is at most 4 */
  check_mesh (repeated (a, b, c, 1), rand);
  check_mesh (repeated (a, b, c, 1000), rand);
  check_mesh (repeated (a, a, a, 1000), rand);
  g_rand_free (rand);
}

/* Each triangle a thousandth of the size of the next, toward one corner: bins peel off one triangle
 * at a time, and only halving bounds the depth. */
static void
test_depth (void)
{
  GRand *rand = g_rand_new_with_seed (1);
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (int i = 0; i < 90; i++)
    {
      double k = pow (1000, -i);
      guint32 first = trn_mesh_builder_vertex (builder, trn_vec3_make (k, 0, 0));
      trn_mesh_builder_vertex (builder, trn_vec3_make (2 * k, 0, 0));
      trn_mesh_builder_vertex (builder, trn_vec3_make (k, k, k));
      trn_mesh_builder_triangle (builder, first, first + 1, first + 2);
    }
  TrnMesh *mesh = trn_mesh_builder_finish (builder);
  g_autoptr (TrnBvh) bvh = trn_bvh_build (mesh);
  g_assert_cmpuint (bvh->depth, >, 25);
  check_mesh (mesh, rand);
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bvh/blobs", test_blobs);
  g_test_add_func ("/bvh/regular", test_regular);
  g_test_add_func ("/bvh/identical", test_identical);
  g_test_add_func ("/bvh/depth", test_depth);
  return g_test_run ();
}
