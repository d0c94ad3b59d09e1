/* Each bound of a limb on its own, for every node and every leaf's triangles of a tree: none lies
 * above the least distance from what the item holds, sampled over the span. A search would hide a
 * bound that is wrong by less than its width. */
#include "convex.h"
#include "limb-bound.h"

#include "test-limbs.h"
#include "test-motions.h"
#include "test-scale.h"
#include "test-shapes.h"

#define SAMPLES 40

/* From the bare hull of the corners at @s. */
static double
distance_at (const TestPaths *paths, const TrnMesh *mesh, guint32 triangle, double s)
{
  TrnVec3 a[TRN_LIMB_CORNERS], b[3], p, q;
  for (guint i = 0; i < paths->n; i++)
    a[i] = test_path_place (&paths->paths[i], s);
  trn_mesh_corners (mesh, triangle, b);
  return trn_convex_distance (a, paths->n, b, 3, &p, &q);
}

static double
least_distance (const TestPaths *paths, const TrnMesh *mesh, guint32 triangle, TrnInterval span)
{
  double least = INFINITY, width = trn_interval_width (span);
  for (guint i = 0; i <= (width > 0 ? SAMPLES : 0); i++)
    least = fmin (least, distance_at (paths, mesh, triangle, span.lo + width * i / SAMPLES));
  return least;
}

/* The bounds of one item, the best that is found and those on the way. */
static void
check_item (TrnLimbBounder *bounder, guint32 item, double least, guint *tight)
{
  static const double enough[] = { INFINITY, 0, 0.5 };
  for (guint i = 0; i < G_N_ELEMENTS (enough); i++)
    {
      TrnLimbPart part = { .item = item, .n = { 0, 0, 1 } };
      trn_limb_bound (bounder, &part, enough[i]);
      g_assert_cmpfloat (part.bound_m, <=, least + 1e-10);
      *tight += least > 0 && part.bound_m > least - 1e-4;
      g_assert_cmpfloat (trn_limb_bound_along (bounder, &part), <=, least + 1e-10);
    }
}

static void
check_tree (const TestBody *body, const TestPaths *paths, TrnInterval span, guint *tight)
{
  TrnLimb limb = test_limb (paths, 0.02);
  TrnLimbPair pair = { .limb = &limb,
                       .span = span,
                       .obstacle = { body->bvh, body->check },
                       .site_from_obstacle = trn_pose_identity () };
  TrnLimbTimes times;
  trn_limb_times_init (&times, &pair, span);
  g_assert_false (times.missing);
  TrnLimbBounder *bounder = g_new (TrnLimbBounder, 1);
  trn_limb_bounder_init (bounder, body->bvh, &times);
  g_autofree double *least = g_new (double, body->mesh->n_triangles);
  for (guint32 i = 0; i < body->mesh->n_triangles; i++)
    {
      least[i] = least_distance (paths, body->mesh, i, span) - 0.02;
      check_item (bounder, i | TRN_ITEM_TRIANGLE, fmax (least[i], 0), tight);
    }
  for (guint32 k = 0; k < body->bvh->n_nodes; k++)
    {
      const TrnBvhNode *node = &body->bvh->nodes[k];
      double all = INFINITY;
      for (guint32 i = 0; i < node->count; i++)
        all = fmin (all, least[body->bvh->order[node->first + i]]);
      check_item (bounder, k, fmax (all, 0), tight);
    }
  g_free (bounder);
  trn_limb_times_clear (&times);
}

/* A limb by a bumpy or a round body, at one moment or over a short or a long span. */
static void
test_each (void)
{
  const guint32 seed = 53;
  g_test_message ("seed %u", seed);
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  guint tight = 0;
  for (guint run = 0; run < test_scaled (60); run++)
    {
      TestBody body
          = test_body_take (run % 2 == 0 ? test_blob (rand, 24, 2) : test_drum (400, 1.5, -2, 2));
      TestPaths paths = test_paths_make ();
      TrnVec3 from = trn_vec3_scale (trn_vec3_unit (test_random_point (rand, 1)), 2.5);
      paths.n = run % 3 == 0 ? 1 : 2;
      for (guint i = 0; i < paths.n; i++)
        paths.paths[i] = (TestPath){ .p0 = trn_vec3_add (from, test_random_point (rand, 0.5)),
                                     .p1 = test_random_point (rand, 1),
                                     .u = test_random_point (rand, 0.5),
                                     .v = test_random_point (rand, 0.5),
                                     .phi0 = test_between (rand, -3, 3),
                                     .w = test_between (rand, -3, 3) };
      double at = test_between (rand, 0, 0.5), length = (run % 4) * (run % 4) * 0.05;
      check_tree (&body, &paths, (TrnInterval){ at, at + length }, &tight);
      test_body_clear (&body);
    }
  g_test_message ("%u bounds within 0.1 mm", tight);
  g_assert_cmpuint (tight, >, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/limb-bounds/each", test_each);
  return g_test_run ();
}
