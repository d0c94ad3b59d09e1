/* How the certified sweep compares with sampling: the time of one certified answer over a motion of
 * five moves, against 1000 cold distance queries of FCL on the same motion. Sampling proves
 * nothing; it is the yardstick because it is what one would do without a proof.
 *
 *   bench-sweep [RUNS]      medians of RUNS (default 3), each FCL and sweep in turn; one thread
 */
#include <stdlib.h>

#include "fcl-bridge.h"
#include "sweep.h"
#include "tolerances.h"

#define N_MOVES 5

static const TrnVec3 up = { 0, 0, 1 }, zero = { 0, 0, 0 };

/* A standing or hanging column with ring ribs, closed, of about @n triangles. The ribs are a tenth
 * of a metre proud; a little waviness keeps the faces from being equal. */
static TrnMesh *
ribbed_column (guint n, double radius, double height, guint ribs)
{
  guint around = (guint)sqrt (n / 2.0 * 0.35), rows = n / 2 / around;
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (guint i = 0; i <= rows; i++)
    for (guint j = 0; j < around; j++)
      {
        double z = height * i / rows, a = 2 * G_PI * j / around;
        double phase = z / height * ribs, proud = fabs (phase - floor (phase) - 0.5) < 0.12;
        double r = radius + 0.1 * proud + 0.002 * sin (7 * a + 3 * z);
        trn_mesh_builder_vertex (builder, trn_vec3_make (r * cos (a), r * sin (a), z));
      }
  guint bottom = trn_mesh_builder_vertex (builder, zero);
  guint top = trn_mesh_builder_vertex (builder, trn_vec3_make (0, 0, height));
  for (guint j = 0; j < around; j++)
    {
      guint k = (j + 1) % around;
      for (guint i = 0; i < rows; i++)
        {
          guint p = i * around, q = p + around;
          trn_mesh_builder_triangle (builder, p + j, p + k, q + k);
          trn_mesh_builder_triangle (builder, p + j, q + k, q + j);
        }
      trn_mesh_builder_triangle (builder, bottom, k, j);
      trn_mesh_builder_triangle (builder, top, rows * around + j, rows * around + k);
    }
  return trn_mesh_builder_finish (builder);
}

/* Hoist, slew with luff, tilt, travel, then 36 m down with the ribs of the load passing the ribs of
 * the tower 0.2 m apart. */
static void
make_motions (TrnMotion motions[N_MOVES])
{
  TrnPlacement placement = { .position = { 12, -14, 32 }, .heading_rad = 0.4 };
  TrnPose pose = trn_pose_make (&placement);
  TrnVec3 hook = { 0, 0, 10 };
  motions[0] = trn_motion_make_carry (&pose, 300, hook, trn_vec3_make (0, 0, 6), up, 0);
  pose = trn_motion_pose (&motions[0], 1);
  g_assert (trn_motion_make_slew (&pose, 600, hook, 30, 0, -0.7, TRUE, -4, 0, &motions[1]));
  pose = trn_motion_pose (&motions[1], 1);
  motions[2] = trn_motion_make_carry (&pose, 300, hook, zero, trn_vec3_make (0, 1, 0), 0.2);
  pose = trn_motion_pose (&motions[2], 1);
  TrnPlacement beside = { .position = { 3.4, 0, 37 } };
  TrnPose end = trn_pose_make (&beside);
  TrnVec3 by = trn_vec3_sub (trn_pose_apply (&end, hook), trn_pose_apply (&pose, hook));
  motions[3] = trn_motion_make_carry (&pose, 300, hook, by, trn_vec3_make (0, 1, 0), -0.2);
  pose = trn_motion_pose (&motions[3], 1);
  motions[4] = trn_motion_make_carry (&pose, 1200, hook, trn_vec3_make (0, 0, -36), up, 0);
}

static FclMesh *
fcl_mesh (const TrnMesh *mesh)
{
  G_STATIC_ASSERT (sizeof (TrnVec3) == 3 * sizeof (double)
                   && sizeof (TrnTriangle) == 3 * sizeof (unsigned));
  return fcl_bridge_mesh_new (&mesh->vertices[0].x, mesh->n_vertices, mesh->triangles[0].v,
                              mesh->n_triangles);
}

static FclPose
fcl_pose (const TrnPose *pose)
{
  FclPose out = { .position = { pose->position.x, pose->position.y, pose->position.z } };
  for (guint i = 0; i < 9; i++)
    out.turn[i] = pose->turn.m[i / 3][i % 3];
  return out;
}

static double
fcl_seconds (FclMesh *a, FclMesh *b, const TrnMotion *motions, double *least)
{
  TrnPose identity = trn_pose_identity ();
  FclPose still = fcl_pose (&identity);
  gint64 begin = g_get_monotonic_time ();
  *least = INFINITY;
  for (guint i = 0; i < 1000; i++)
    {
      TrnPose pose = trn_motion_pose (&motions[i / 200], (i % 200) / 199.0);
      FclPose placed = fcl_pose (&pose);
      *least = fmin (*least, fcl_bridge_mesh_distance (a, &placed, b, &still));
    }
  return (double)(g_get_monotonic_time () - begin) * 1e-6;
}

static double
sweep_seconds (const TrnSweepBody *a, const TrnSweepBody *b, const TrnMotion *motions, double far_m,
               TrnSweepResult results[N_MOVES])
{
  gint64 begin = g_get_monotonic_time ();
  for (guint i = 0; i < N_MOVES; i++)
    {
      TrnSweepPair pair = { *a, &motions[i], { 0, 1 }, *b, trn_pose_identity () };
      TrnSweepOptions options
          = { .width_m = TRN_CERTIFY_M, .far_m = far_m, .far_share = TRN_FAR_SHARE };
      results[i] = trn_sweep_minimum (&pair, &options);
    }
  return (double)(g_get_monotonic_time () - begin) * 1e-6;
}

static int
compare (const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

static double
median (double *values, guint n)
{
  qsort (values, n, sizeof *values, compare);
  return values[n / 2];
}

static void
bench (const char *name, guint n_load, guint n_tower, guint runs)
{
  TrnMesh *load = ribbed_column (n_load, 1.4, 10, 8), *tower = ribbed_column (n_tower, 1.6, 45, 40);
  gint64 begin = g_get_monotonic_time ();
  TrnBvh *bvh_load = trn_bvh_build (load), *bvh_tower = trn_bvh_build (tower);
  double build = (double)(g_get_monotonic_time () - begin) * 1e-6;
  TrnMeshCheck *check_load = trn_mesh_check_new (load), *check_tower = trn_mesh_check_new (tower);
  FclMesh *fcl_load = fcl_mesh (load), *fcl_tower = fcl_mesh (tower);
  TrnSweepBody a = { bvh_load, check_load }, b = { bvh_tower, check_tower };
  TrnMotion motions[N_MOVES];
  make_motions (motions);

  g_autofree double *fcl = g_new (double, runs), *all = g_new (double, runs);
  g_autofree double *near = g_new (double, runs);
  TrnSweepResult results[N_MOVES], wide[N_MOVES];
  double least = 0;
  for (guint i = 0; i < runs; i++)
    {
      fcl[i] = fcl_seconds (fcl_load, fcl_tower, motions, &least);
      all[i] = fcl[i] / sweep_seconds (&a, &b, motions, INFINITY, results);
      near[i] = fcl[i] / sweep_seconds (&a, &b, motions, 0.2, wide);
    }
  g_print ("%s: %u x %u triangles, trees built in %.2f s\n", name, load->n_triangles,
           tower->n_triangles, build);
  for (guint i = 0; i < N_MOVES; i++)
    g_print ("  move %u: [%.4f, %.4f] m, %" G_GUINT64_FORMAT " bounds%s\n", i, results[i].lower_m,
             results[i].upper_m, results[i].steps, results[i].complete ? "" : ", cut short");
  g_print ("  1000 cold FCL queries: %.3f s, least %.4f m\n", median (fcl, runs), least);
  g_print ("  ratio, 1 mm everywhere:                        %.2f\n", median (all, runs));
  g_print ("  ratio, 1 mm to 0.2 m, then 5 %% of the distance: %.2f\n", median (near, runs));

  fcl_bridge_mesh_free (fcl_load);
  fcl_bridge_mesh_free (fcl_tower);
  trn_mesh_check_free (check_load);
  trn_mesh_check_free (check_tower);
  trn_bvh_free (bvh_load);
  trn_bvh_free (bvh_tower);
  trn_mesh_unref (load);
  trn_mesh_unref (tower);
}

int
main (int argc, char **argv)
{
  guint runs = argc > 1 ? (guint)MAX (1, atoi (argv[1])) : 3;
  bench ("small", 20000, 5000, runs);
  bench ("large", 200000, 200000, runs);
  return 0;
}
