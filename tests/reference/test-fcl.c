/* Distances against the Flexible Collision Library, version 0.7.0, an implementation by others
 * (after Larsen, Gottschalk, Lin and Manocha, "PQP").
 *
 * Where the two differ, brute force in quadruple precision decides, and the test says how often:
 * that library compares products of lengths with absolute cut-offs, which is wrong for triangles of
 * 0.05 mm. */
#include "fcl-bridge.h"

#include "distance.h"
#include "quad.h"
#include "test-scale.h"
#include "test-shapes.h"
#include "triangle.h"

#define N_PAIRS 12000
#define N_POSES 240
#define UNIT_ROUNDING 0x1p-53

typedef struct
{
  const char *name;
  double size, spread; /* of the triangles, and of the centre of the second */
  double sliver;       /* the third corner lies within this of an edge; 0: anywhere */
  TrnVec3 origin;
  double agreement;   /* two results agree within this share of the size */
  double least_share; /* at least this share of the pairs agrees */
} Kind;

static TrnVec3
random_point (GRand *rand, TrnVec3 around, double size)
{
  return trn_vec3_make (around.x + g_rand_double_range (rand, -size, size),
                        around.y + g_rand_double_range (rand, -size, size),
                        around.z + g_rand_double_range (rand, -size, size));
}

static void
random_triangle (GRand *rand, const Kind *kind, TrnVec3 centre, TrnVec3 t[3])
{
  for (int i = 0; i < 3; i++)
    t[i] = random_point (rand, centre, kind->size);
  if (kind->sliver > 0)
    t[2] = random_point (rand, trn_vec3_mix (t[0], t[1], g_rand_double (rand)), kind->sliver);
}

static double
fcl_triangle_distance (const TrnVec3 a[3], const TrnVec3 b[3])
{
  double p[9], q[9];
  for (int i = 0; i < 3; i++)
    {
      p[3 * i] = a[i].x, p[3 * i + 1] = a[i].y, p[3 * i + 2] = a[i].z;
      q[3 * i] = b[i].x, q[3 * i + 1] = b[i].y, q[3 * i + 2] = b[i].z;
    }
  return fcl_bridge_triangle_distance (p, q);
}

/* Both results agree, or quadruple precision says that the library's is wrong and ours is right.
 * The library works in the coordinates as they are, so that its error grows with them. */
static void
test_triangles (gconstpointer data)
{
  const Kind *kind = data;
  guint32 seed = (guint32)g_test_rand_int ();
  GRand *rand = g_rand_new_with_seed (seed);
  guint n = test_scaled (N_PAIRS / 4), n_agreed = 0;
  double worst = 0;
  for (guint i = 0; i < n; i++)
    {
      TrnVec3 a[3], b[3], on_a, on_b;
      random_triangle (rand, kind, kind->origin, a);
      random_triangle (rand, kind, random_point (rand, kind->origin, kind->spread), b);
      double ours = trn_triangle_distance (a, b, &on_a, &on_b);
      double theirs = fcl_triangle_distance (a, b);
      if (fabs (ours - theirs) <= kind->agreement * kind->size)
        {
          n_agreed++;
          continue;
        }
      double truth = (double)quad_triangle_distance (a, b);
      double reach = 2 * kind->size + kind->spread;
      g_assert_cmpfloat (fabs (ours - truth), <=, 2 * 64 * UNIT_ROUNDING * reach);
      g_assert_cmpfloat (fabs (theirs - truth), >, 0.5 * kind->agreement * kind->size);
      worst = fmax (worst, fabs (theirs - truth));
    }
  g_test_message ("seed %u, fcl %s: %u of %u pairs agree; elsewhere quadruple precision finds it "
                  "wrong by up to %g m",
                  seed, fcl_bridge_version (), n_agreed, n, worst);
  g_assert_cmpuint (n_agreed, >=, (guint)(kind->least_share * n));
  g_rand_free (rand);
}

static FclMesh *
fcl_mesh (const TrnMesh *mesh)
{
  G_STATIC_ASSERT (sizeof (TrnVec3) == 3 * sizeof (double));
  G_STATIC_ASSERT (sizeof (TrnTriangle) == 3 * sizeof (unsigned));
  return fcl_bridge_mesh_new (&mesh->vertices[0].x, mesh->n_vertices, mesh->triangles[0].v,
                              mesh->n_triangles);
}

static TrnPose
random_pose (GRand *rand, double spread)
{
  TrnPlacement placement = { .position = random_point (rand, trn_vec3_make (0, 0, 0), spread),
                             .heading_rad = g_rand_double_range (rand, -G_PI, G_PI),
                             .pitch_rad = g_rand_double_range (rand, -1.5, 1.5),
                             .roll_rad = g_rand_double_range (rand, -G_PI, G_PI) };
  return trn_pose_make (&placement);
}

static FclPose
fcl_pose (const TrnPose *pose)
{
  FclPose result = { .position = { pose->position.x, pose->position.y, pose->position.z } };
  for (int i = 0; i < 3; i++)
    for (int j = 0; j < 3; j++)
      result.turn[3 * i + j] = pose->turn.m[i][j];
  return result;
}

/* Bumpy closed meshes of 1,740 and 3,120 triangles and some metres, from apart to within each
 * other. The surfaces meet for both or for none. */
static void
test_meshes (void)
{
  guint32 seed = (guint32)g_test_rand_int ();
  GRand *rand = g_rand_new_with_seed (seed);
  guint n = test_scaled (N_POSES), n_apart = 0;
  double worst = 0;
  TestBody a = { 0 }, b = { 0 };
  FclMesh *fcl_a = NULL, *fcl_b = NULL;
  for (guint i = 0; i < n; i++)
    {
      if (i % 24 == 0)
        {
          if (i > 0)
            {
              test_body_clear (&a);
              test_body_clear (&b);
              fcl_bridge_mesh_free (fcl_a);
              fcl_bridge_mesh_free (fcl_b);
            }
          a = test_body_take (test_blob (rand, 30, 4));
          b = test_body_take (test_blob (rand, 40, 3));
          fcl_a = fcl_mesh (a.mesh);
          fcl_b = fcl_mesh (b.mesh);
        }
      TrnPose pose_a = random_pose (rand, 1), pose_b = random_pose (rand, 4);
      double ours = trn_mesh_distance (a.bvh, &pose_a, b.bvh, &pose_b, INFINITY, NULL).distance_m;
      FclPose fcl_pose_a = fcl_pose (&pose_a), fcl_pose_b = fcl_pose (&pose_b);
      double theirs = fcl_bridge_mesh_distance (fcl_a, &fcl_pose_a, fcl_b, &fcl_pose_b);
      worst = fmax (worst, fabs (ours - theirs));
      n_apart += ours > 0;
      g_assert_cmpfloat (fabs (ours - theirs), <=, 1e-12);
      g_assert_true ((ours == 0) == (theirs == 0));
    }
  g_test_message ("seed %u, fcl %s: %u poses, %u apart, greatest difference %g m", seed,
                  fcl_bridge_version (), n, n_apart, worst);
  g_assert_true (n_apart > n / 10 && n_apart < n - n / 10);
  test_body_clear (&a);
  test_body_clear (&b);
  fcl_bridge_mesh_free (fcl_a);
  fcl_bridge_mesh_free (fcl_b);
  g_rand_free (rand);
}

/* The origin at 5 km costs the library u · 5000 m / 1 m of its digits. */
static const Kind kinds[] = {
  { "metres", 1, 3, 0, { 0, 0, 0 }, 1e-12, 0.99 },
  { "slivers", 1, 2, 1e-6, { 0, 0, 0 }, 1e-12, 0.99 },
  { "five-kilometres-off", 1, 3, 0, { 5000, -4000, 3000 }, 1e-9, 0.99 },
  { "five-hundredths-of-a-millimetre", 5e-5, 1.5e-4, 0, { 0, 0, 0 }, 1e-9, 0 },
};

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autofree char *path = g_strdup_printf ("/fcl/triangles/%s", kinds[i].name);
      g_test_add_data_func (path, &kinds[i], test_triangles);
    }
  g_test_add_func ("/fcl/meshes", test_meshes);
  return g_test_run ();
}
