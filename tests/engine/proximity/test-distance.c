/* The distance of two meshes against brute force over all pairs of triangles. */
#include "distance.h"
#include "test-scale.h"
#include "test-shapes.h"
#include "triangle.h"

static TrnPose
random_pose (GRand *rand, TrnVec3 around, double spread)
{
  TrnPlacement placement = {
    .position = { around.x + g_rand_double_range (rand, -spread, spread),
                  around.y + g_rand_double_range (rand, -spread, spread),
                  around.z + g_rand_double_range (rand, -spread, spread) },
    .heading_rad = g_rand_double_range (rand, -G_PI, G_PI),
    .pitch_rad = g_rand_double_range (rand, -1.5, 1.5),
    .roll_rad = g_rand_double_range (rand, -G_PI, G_PI),
  };
  return trn_pose_make (&placement);
}

/* Every triangle of @a against every one of @b, in the frame of @b. */
static double
brute_force (const TrnMesh *a, const TrnPose *site_from_a, const TrnMesh *b,
             const TrnPose *site_from_b)
{
  TrnPose b_from_a = trn_pose_relative (site_from_b, site_from_a);
  double least = INFINITY;
  for (guint32 i = 0; i < a->n_triangles; i++)
    {
      TrnVec3 p[3], q[3], on_a, on_b;
      trn_mesh_corners (a, i, p);
      for (int c = 0; c < 3; c++)
        p[c] = trn_pose_apply (&b_from_a, p[c]);
      for (guint32 k = 0; k < b->n_triangles; k++)
        {
          trn_mesh_corners (b, k, q);
          least = fmin (least, trn_triangle_distance (p, q, &on_a, &on_b));
        }
    }
  return least;
}

/* The same, to the last bit, cold, warm from any pair, and with a limit on either side of it. */
static void
check_pose (const TestBody *a, const TrnPose *pose_a, const TestBody *b, const TrnPose *pose_b,
            GRand *rand)
{
  double truth = brute_force (a->mesh, pose_a, b->mesh, pose_b);
  TrnDistance cold = trn_mesh_distance (a->bvh, pose_a, b->bvh, pose_b, INFINITY, NULL);
  g_assert_cmpfloat (cold.distance_m, ==, truth);

  TrnDistanceHint hint = { (guint32)g_rand_int_range (rand, 0, (gint32)a->mesh->n_triangles),
                           (guint32)g_rand_int_range (rand, 0, (gint32)b->mesh->n_triangles) };
  g_assert_cmpfloat (trn_mesh_distance (a->bvh, pose_a, b->bvh, pose_b, INFINITY, &hint).distance_m,
                     ==, truth);
  g_assert_cmpfloat (
      trn_mesh_distance (a->bvh, pose_a, b->bvh, pose_b, INFINITY, &cold.pair).distance_m, ==,
      truth);
  double above = truth * 1.001 + 1e-3;
  g_assert_cmpfloat (trn_mesh_distance (a->bvh, pose_a, b->bvh, pose_b, above, NULL).distance_m, ==,
                     truth);
  g_assert_true (
      isinf (trn_mesh_distance (a->bvh, pose_a, b->bvh, pose_b, truth, &cold.pair).distance_m));

  /* The points, in the site's frame, are that far apart, and the pair named is the one. */
  double coordinate = fmax (trn_vec3_max_abs (cold.on_a), trn_vec3_max_abs (cold.on_b));
  g_assert_cmpfloat (fabs (trn_vec3_distance (cold.on_a, cold.on_b) - truth), <=,
                     0x1p-48 * (coordinate + 10));
  TrnVec3 p[3], q[3], on_a, on_b;
  trn_mesh_corners (a->mesh, cold.pair.triangle_a, p);
  trn_mesh_corners (b->mesh, cold.pair.triangle_b, q);
  for (int i = 0; i < 3; i++)
    {
      p[i] = trn_pose_apply (pose_a, p[i]);
      q[i] = trn_pose_apply (pose_b, q[i]);
    }
  g_assert_cmpfloat (fabs (trn_triangle_distance (p, q, &on_a, &on_b) - truth), <=,
                     0x1p-48 * (coordinate + 10));
}

/* Bumpy closed bodies at any pose from apart to far within each other, about the origin of the
 * site and 5 km from it. */
static void
test_blobs (void)
{
  guint32 seed = (guint32)g_test_rand_int ();
  GRand *rand = g_rand_new_with_seed (seed);
  guint n_meeting = 0;
  g_test_message ("seed %u", seed);
  for (guint i = 0; i < test_scaled (200); i++)
    {
      TestBody a = test_body_take (test_blob (rand, 6 + i % 5, 3));
      TestBody b = test_body_take (test_blob (rand, 6 + i % 7, 2));
      TrnVec3 site = i % 2 ? trn_vec3_make (5000, -3000, 40) : trn_vec3_make (0, 0, 0);
      TrnPose pose_a = random_pose (rand, site, 1), pose_b = random_pose (rand, site, 6);
      /* However few there are: of every fourth the second has a vertex in the middle of the first.
       */
      if (i % 4 == 0)
        pose_b.position = trn_vec3_add (
            pose_b.position,
            trn_vec3_sub (pose_a.position, trn_pose_apply (&pose_b, b.mesh->vertices[0])));
      check_pose (&a, &pose_a, &b, &pose_b, rand);
      n_meeting
          += trn_mesh_distance (a.bvh, &pose_a, b.bvh, &pose_b, INFINITY, NULL).distance_m == 0;
      test_body_clear (&a);
      test_body_clear (&b);
    }
  g_assert_cmpuint (n_meeting, >, 0);
  g_rand_free (rand);
}

/* A drum concentric in a tube, both over polygons of 180 corners, at radii 2.9 and 3: many ties.
 * The drum is turned by half a flat, so that each of its corners faces the middle of a flat of the
 * tube, which lies at 3 cos (π / 180). */
static void
test_concentric (void)
{
  GRand *rand = g_rand_new_with_seed (1);
  TestBody drum = test_body_take (test_drum (180, 2.9, -1, 1));
  TestBody tube = test_body_take (test_tube (180, 3, 3.5, -5, 5));
  TrnPose at_rest = trn_pose_identity ();
  TrnPlacement turned = { .heading_rad = G_PI / 180 };
  TrnPose pose = trn_pose_make (&turned);
  check_pose (&drum, &pose, &tube, &at_rest, rand);
  double distance
      = trn_mesh_distance (drum.bvh, &pose, tube.bvh, &at_rest, INFINITY, NULL).distance_m;
  g_assert_cmpfloat_with_epsilon (distance, 3 * cos (G_PI / 180) - 2.9, 1e-13);
  test_body_clear (&drum);
  test_body_clear (&tube);
  g_rand_free (rand);
}

/* Boxes side by side, 0.25 apart, one of them given a quarter turn; and a hint that names triangles
 * which do not exist is no hint. */
static void
test_boxes (void)
{
  TestBody a = test_body_take (test_box (trn_vec3_make (0, 0, 0), trn_vec3_make (2, 1, 1)));
  TestBody b = test_body_take (test_box (trn_vec3_make (0, 0, 0), trn_vec3_make (1, 1, 1)));
  TrnPlacement beside = { .position = { 3.25, 0, 0 }, .heading_rad = G_PI / 2 };
  TrnPose pose_a = trn_pose_identity (), pose_b = trn_pose_make (&beside);
  TrnDistanceHint none = { 4000, G_MAXUINT32 };
  TrnDistance d = trn_mesh_distance (a.bvh, &pose_a, b.bvh, &pose_b, INFINITY, &none);
  g_assert_cmpfloat_with_epsilon (d.distance_m, 0.25, 1e-15);
  g_assert_cmpfloat_with_epsilon (d.on_a.x, 2, 1e-15);
  g_assert_cmpfloat_with_epsilon (d.on_b.x, 2.25, 1e-15);
  g_assert_true (isinf (trn_mesh_distance (a.bvh, &pose_a, b.bvh, &pose_b, 0.2, NULL).distance_m));
  test_body_clear (&a);
  test_body_clear (&b);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/distance/blobs", test_blobs);
  g_test_add_func ("/distance/concentric", test_concentric);
  g_test_add_func ("/distance/boxes", test_boxes);
  return g_test_run ();
}
