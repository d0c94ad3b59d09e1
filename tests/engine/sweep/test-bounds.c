/* Each bound of the search by itself, in quadruple precision and without any allowance: scenes in
 * which one of the things taken off for safety is greater than all others together, so that the
 * steps of the proof could not stand without it. */
#include <float.h>

#include "item.h"
#include "search.h"
#include "test-motions.h"
#include "test-scale.h"
#include "test-shapes.h"
#include "verify.h"

static const TrnVec3 up = { 0, 0, 1 }, zero = { 0, 0, 0 };

static TrnMesh *
single_triangle (GRand *rand, double size, TrnVec3 at)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (guint i = 0; i < 3; i++)
    trn_mesh_builder_vertex (builder, trn_vec3_add (at, test_random_point (rand, size)));
  trn_mesh_builder_triangle (builder, 0, 1, 2);
  return trn_mesh_builder_finish (builder);
}

static void
check_pair (const TrnSweepPair *pair, const TrnSearchGoal *goal, guint *n_nodes, guint *n_triangles)
{
  g_autoptr (GArray) proof = g_array_new (FALSE, FALSE, sizeof (TrnProofStep));
  TrnSearchGoal asked = *goal;
  asked.proof = proof;
  asked.jobs = 1;
  asked.max_steps = 100000;
  TrnSearchResult result = trn_search_run (pair, pair->span, &asked);
  Verify verify = verify_make (pair);
  if (result.upper_m < INFINITY)
    {
      Quad least = INFINITY;
      for (guint32 i = 0; i < pair->body.bvh->mesh->n_triangles; i++)
        for (guint32 k = 0; k < pair->obstacle.bvh->mesh->n_triangles; k++)
          {
            Quad d = verify_distance (&verify, i, k, result.s);
            least = MIN (least, d);
          }
      g_assert_true (result.upper_m >= least);
    }
  for (guint i = 0; i < proof->len; i++)
    {
      const TrnProofStep *step = &g_array_index (proof, TrnProofStep, i);
      g_assert_cmpfloat (step->bound_m, >=, result.lower_m);
      g_assert_true (verify_step (&verify, step, step->bound_m));
      *(step->a & TRN_ITEM_TRIANGLE ? n_triangles : n_nodes) += 1;
    }
  verify_clear (&verify);
}

static TrnSweepPair
pair_make (const TestBody *body, const TrnMotion *motion, const TestBody *obstacle,
           const TrnPose *at)
{
  return (TrnSweepPair){
    { body->bvh, body->check }, motion, { 0, 1 }, { obstacle->bvh, obstacle->check }, *at
  };
}

/* A smooth ball of many small triangles, of whose points most are left out. */
static TrnMesh *
ball (guint bands, double radius)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (guint i = 0; i <= bands; i++)
    for (guint j = 0; j < bands; j++)
      {
        double a = G_PI * i / bands, b = 2 * G_PI * j / bands;
        trn_mesh_builder_vertex (builder,
                                 trn_vec3_make (radius * sin (a) * cos (b),
                                                radius * sin (a) * sin (b), radius * cos (a)));
      }
  for (guint i = 0; i < bands; i++)
    for (guint j = 0; j < bands; j++)
      {
        guint k = (j + 1) % bands, p = i * bands, q = p + bands;
        trn_mesh_builder_triangle (builder, p + j, q + j, q + k);
        trn_mesh_builder_triangle (builder, p + j, q + k, p + k);
      }
  return trn_mesh_builder_finish (builder);
}

/* Points that a tree left out, of the body or of the obstacle, reach farther than those it has: a
 * ball and a triangle beside it, which has nothing to leave out. The ball goes straight on, so that
 * nothing is lost to bends. */
static void
test_slack (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (91);
  TestBody round = test_body_take (ball (24, 0.02));
  TestBody small = test_body_take (single_triangle (rand, 1e-4, zero));
  TrnSearchGoal goal = { .free_m = 0.01, .least_s = 1 };
  guint n_nodes = 0, n_triangles = 0;
  for (guint run = 0; run < test_scaled (150); run++)
    {
      TrnPose start = test_random_pose (rand, 0.01), at = test_random_pose (rand, 0.01);
      TrnVec3 aside = trn_vec3_unit (test_random_point (rand, 1));
      start.position = trn_vec3_add_scaled (start.position, aside, 0.1);
      TrnVec3 by = trn_vec3_scale (test_random_point (rand, 1), 1e-3);
      TrnMotion motion = trn_motion_make_carry (&start, 1, zero, by, up, 0);
      TrnSweepPair pair = run % 2 ? pair_make (&round, &motion, &small, &at)
                                  : pair_make (&small, &motion, &round, &at);
      check_pair (&pair, &goal, &n_nodes, &n_triangles);
    }
  g_assert_cmpuint (n_nodes, >=, test_scaled (150));
  test_body_clear (&round);
  test_body_clear (&small);
}

/* A plate askew in its frame, whose points stand out by up to 10 µm: a tree leaves nearly all of
 * them out. */
static TrnMesh *
rough_plate (GRand *rand, guint n, const TrnRotation *level_from_plate)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (guint i = 0; i <= n; i++)
    for (guint j = 0; j <= n; j++)
      {
        TrnVec3 p = { 0.01 * i, 0.01 * j, test_between (rand, -1e-5, 0) };
        trn_mesh_builder_vertex (builder, trn_rotation_apply_inverse (level_from_plate, p));
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

/* At one pose: the plate level above a large level triangle, from which all of its points are about
 * as far: a node whose points are all too far off, by no more than was left out, holds the
 * nearest. */
static void
test_slack_at_rest (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (95);
  TrnPose identity = trn_pose_identity ();
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (guint i = 0; i < 3; i++)
    trn_mesh_builder_vertex (builder, trn_vec3_make (i == 1 ? 3 : -1, i == 2 ? 3 : -1, -0.01));
  trn_mesh_builder_triangle (builder, 0, 1, 2);
  TestBody large = test_body_take (trn_mesh_builder_finish (builder));
  for (guint run = 0; run < test_scaled (10); run++)
    {
      TrnPose pose = { .turn = test_random_pose (rand, 1).turn };
      TestBody plate = test_body_take (rough_plate (rand, 24, &pose.turn));
      double least = INFINITY;
      for (guint32 i = 0; i < plate.mesh->n_vertices; i++)
        least = fmin (least, trn_pose_apply (&pose, plate.mesh->vertices[i]).z + 0.01);
      TrnDistance found
          = trn_mesh_distance (plate.bvh, &pose, large.bvh, &identity, INFINITY, NULL);
      g_assert_cmpfloat_with_epsilon (found.distance_m, least, 1e-14);
      test_body_clear (&plate);
    }
  test_body_clear (&large);
}

/* So far out on the site that the rounding of double precision is greater than that of the points,
 * which are kept in single precision about a centre of their own: 10⁹ m and more. What is asked for
 * is near enough to the distance for some bounds to be those of nodes and some of triangles. */
static void
test_far_out (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (92);
  guint n_nodes = 0, n_triangles = 0;
  for (guint run = 0; run < test_scaled (300); run++)
    {
      double site = run % 2 ? 1e10 : 3e5;
      TestBody body = test_body_take (single_triangle (rand, 1, zero));
      TestBody obstacle = test_body_take (single_triangle (rand, 1, zero));
      TrnPose start = test_random_pose (rand, site), at = test_random_pose (rand, 1);
      at.position
          = trn_vec3_add_scaled (start.position, trn_vec3_unit (test_random_point (rand, 1)), 8);
      TrnMotion motion
          = trn_motion_make_carry (&start, 1, zero, test_random_point (rand, 2), up, 0);
      TrnSweepPair pair = pair_make (&body, &motion, &obstacle, &at);
      double rounding = trn_search_rounding (&pair);
      TrnSearchGoal goal = { .width_m = run % 3 ? 3 * rounding + 1e-12 : 0.1, .far_m = INFINITY };
      check_pair (&pair, &goal, &n_nodes, &n_triangles);
      test_body_clear (&body);
      test_body_clear (&obstacle);
    }
  g_test_message ("%u of nodes, %u of triangles", n_nodes, n_triangles);
  g_assert_cmpuint (n_nodes, >, test_scaled (300) / 10);
  g_assert_cmpuint (n_triangles, >, test_scaled (300) / 10);
}

/* Bends, of nodes and of triangles: every kind of move, bodies of a few triangles. The spans are
 * long where the distance is great beside the width asked for. */
static void
test_bends (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (93);
  guint n_nodes = 0, n_triangles = 0;
  for (guint run = 0; run < test_scaled (800); run++)
    {
      TestBody body
          = test_body_take (run % 3 ? single_triangle (rand, 3, zero) : test_drum (7, 1, -1, 2));
      TestBody obstacle = test_body_take (single_triangle (rand, 3, zero));
      TrnMotion motion = test_random_motion (rand, 20);
      TrnPose at = test_random_pose (rand, 20);
      TrnSweepPair pair = pair_make (&body, &motion, &obstacle, &at);
      TrnSearchGoal goal = { .width_m = run % 2 ? 1e-3 : 1, .far_m = INFINITY };
      TrnSearchGoal rough = { .width_m = 0.5, .far_m = INFINITY, .max_steps = 100000 };
      if (trn_search_run (&pair, pair.span, &rough).lower_m > 1)
        check_pair (&pair, &goal, &n_nodes, &n_triangles);
      test_body_clear (&body);
      test_body_clear (&obstacle);
    }
  g_test_message ("%u of nodes, %u of triangles", n_nodes, n_triangles);
  g_assert_cmpuint (n_nodes, >, 50);
  g_assert_cmpuint (n_triangles, >, test_scaled (50));
}

/* The rounding stated for a pair covers the error of the distance of two points: far out on the
 * site, far from the origin of either mesh, and after a thousand turns. */
static void
test_rounding (void)
{
  static const double sizes[] = { 1, 1e5 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (94);
  double worst = 0;
  for (guint run = 0; run < test_scaled (1500); run++)
    {
      double size_a = sizes[run % 2], size_b = sizes[run / 2 % 2];
      double site_a = sizes[run / 4 % 2], site_b = sizes[run / 8 % 2];
      TestBody body = test_body_take (single_triangle (rand, size_a, zero));
      TestBody obstacle = test_body_take (single_triangle (rand, size_b, zero));
      TrnMotion motion = test_random_motion (rand, site_a);
      if (motion.path == TRN_PATH_LINE && run % 3 == 0)
        motion.angle_rad *= 10000;
      TrnPose at = test_random_pose (rand, site_b);
      TrnSweepPair pair = pair_make (&body, &motion, &obstacle, &at);
      QuadMotion exact = quad_motion_make (&motion);
      double s = test_between (rand, 0, 1), bound = trn_search_rounding (&pair);
      TrnPose pose = trn_search_pose (&pair, s);
      for (guint i = 0; i < 3; i++)
        {
          TrnVec3 x = body.mesh->vertices[i], y = obstacle.mesh->vertices[i];
          double found = trn_vec3_distance (trn_pose_apply (&pose, x), y);
          Quad off = quad_length (quad_sub (quad_motion_place (&exact, s, x),
                                            quad_placed (&at, quad_vec (y))))
                     - found;
          g_assert_cmpfloat (fabs ((double)off), <=, bound);
          worst = fmax (worst, fabs ((double)off) / bound);
        }
      test_body_clear (&body);
      test_body_clear (&obstacle);
    }
  g_test_message ("greatest error %.4f of what is stated", worst);
  g_assert_cmpfloat (worst, >, 1e-3);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bounds/slack", test_slack);
  g_test_add_func ("/bounds/slack-at-rest", test_slack_at_rest);
  g_test_add_func ("/bounds/far-out", test_far_out);
  g_test_add_func ("/bounds/bends", test_bends);
  g_test_add_func ("/bounds/rounding", test_rounding);
  return g_test_run ();
}
