/* Random sweeps against dense sampling with local refinement: no sampled distance may lie below the
 * certified lower bound, the upper bound must be attained, and no sampled contact may lie outside
 * the spans. Sampling can miss what the proof finds, never the other way round. */
#include "sweep.h"

#include "test-sampling.h"
#include "test-scale.h"
#include "test-shapes.h"
#include "triangle.h"
#include "tolerances.h"

#define SAMPLES 400

static double
between (GRand *rand, double lo, double hi)
{
  return g_rand_double_range (rand, lo, hi);
}

static TrnVec3
random_point (GRand *rand, double size)
{
  double x = between (rand, -size, size), y = between (rand, -size, size);
  return trn_vec3_make (x, y, between (rand, -size, size));
}

/* A soup of triangles, some of them slivers or degenerate: open, and as bad as a mesh can be. */
static TrnMesh *
random_soup (GRand *rand, guint n, double size)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (guint i = 0; i < n; i++)
    {
      TrnVec3 p = random_point (rand, size), d = random_point (rand, size * 0.3);
      TrnVec3 e = g_rand_int_range (rand, 0, 5) > 0 ? random_point (rand, size * 0.3)
                                                    : trn_vec3_scale (d, between (rand, 0, 1.0001));
      guint32 a = trn_mesh_builder_vertex (builder, p);
      guint32 b = trn_mesh_builder_vertex (builder, trn_vec3_add (p, d));
      guint32 c = trn_mesh_builder_vertex (builder, trn_vec3_add (p, e));
      trn_mesh_builder_triangle (builder, a, b, c);
    }
  return trn_mesh_builder_finish (builder);
}

static TestBody
random_body (GRand *rand, double size)
{
  switch (g_rand_int_range (rand, 0, 4))
    {
    case 0:
      return test_body_take (random_soup (rand, 20, size));
    case 1:
      return test_body_take (test_drum ((guint)g_rand_int_range (rand, 3, 24),
                                        size * between (rand, 0.2, 1), -size, size));
    case 2:
      return test_body_take (test_box (
          trn_vec3_scale (random_point (rand, size), 0.1),
          trn_vec3_make (size, between (rand, 0.2, 1) * size, between (rand, 0.2, 1) * size)));
    default:
      return test_body_take (
          test_blob (rand, (guint)g_rand_int_range (rand, 3, 8), size * between (rand, 0.5, 2)));
    }
}

/* Every kind of move, sized to the bodies; @near makes them meet more often. */
static TrnMotion
random_motion (GRand *rand, double size, const TrnPose *start)
{
  static const TrnVec3 up = { 0, 0, 1 }, zero = { 0, 0, 0 };
  TrnVec3 pivot = random_point (rand, size);
  double angle = between (rand, -4, 4), heading = between (rand, -4, 4);
  TrnVec3 level = { cos (heading), sin (heading), 0 };
  TrnMotion motion;
  switch (g_rand_int_range (rand, 0, 7))
    {
    case 0:
      return trn_motion_make_carry (start, 10, pivot,
                                    trn_vec3_make (0, 0, between (rand, -6, 6) * size), up, 0);
    case 1:
      return trn_motion_make_carry (start, 10, pivot, random_point (rand, 5 * size), up, angle);
    case 2:
      return trn_motion_make_carry (start, 10, pivot, zero, up, angle);
    case 3:
      return trn_motion_make_carry (start, 10, pivot, random_point (rand, size), level, angle);
    case 4:
      {
        TrnVec3 at = trn_pose_apply (start, pivot);
        double r = between (rand, 1, 8) * size, phi = between (rand, -4, 4);
        g_assert_true (trn_motion_make_slew (start, 10, pivot, at.x + r * cos (phi),
                                             at.y + r * sin (phi), angle, g_rand_boolean (rand),
                                             between (rand, -0.9, 1) * r,
                                             between (rand, -2, 2) * size, &motion));
        return motion;
      }
    case 5:
      {
        double tilt = between (rand, -4, 4), off;
        TrnVec3 along = trn_vec3_add (trn_vec3_scale (trn_vec3_cross (up, level), cos (tilt)),
                                      trn_vec3_scale (up, sin (tilt)));
        TrnVec3 tail = trn_vec3_sub (
            pivot, trn_rotation_apply_inverse (&start->turn, trn_vec3_scale (along, 2 * size)));
        g_assert_true (
            trn_motion_make_head_plumb (start, 10, pivot, tail, level, angle, &motion, &off));
        return motion;
      }
    default:
      return trn_motion_make_wait (start, 10);
    }
}

typedef struct
{
  TestBody body, obstacle;
  TrnMotion motion;
  TrnSweepPair pair;
  double size;
} Case;

static void
case_make (GRand *rand, Case *c)
{
  /* metres, millimetres, and metres on a site 5 km from its origin */
  static const double sizes[] = { 1, 10, 1e-3 };
  c->size = sizes[g_rand_int_range (rand, 0, 3)];
  double far = g_rand_boolean (rand) ? 5000 : 0;
  gboolean within = g_rand_int_range (rand, 0, 6) == 0; /* small and near: may begin inside */
  c->body = random_body (rand, within ? 0.1 * c->size : c->size);
  c->obstacle = random_body (rand, c->size);
  TrnPlacement at = { .position = random_point (rand, 1.5 * c->size) };
  at.roll_rad = between (rand, -4, 4);
  at.position.x += far;
  TrnPlacement start = { .position = within ? at.position : random_point (rand, 1.5 * c->size) };
  start.heading_rad = between (rand, -4, 4);
  start.pitch_rad = between (rand, -4, 4);
  start.position.x += within ? 0 : far;
  TrnPose pose = trn_pose_make (&start);
  c->motion = random_motion (rand, within ? 0.1 * c->size : c->size, &pose);
  double lo = between (rand, 0, 0.6), hi = between (rand, lo, 1);
  gboolean whole = g_rand_boolean (rand);
  c->pair = (TrnSweepPair){ { c->body.bvh, c->body.check },
                            &c->motion,
                            { whole ? 0 : lo, whole ? 1 : hi },
                            { c->obstacle.bvh, c->obstacle.check },
                            trn_pose_make (&at) };
}

static void
case_clear (Case *c)
{
  test_body_clear (&c->body);
  test_body_clear (&c->obstacle);
}

/* The distance at one moment, all triangle pairs, without any tree; 0 inside. */
static double
plain_distance (const Case *c, double s)
{
  TrnPose site_from_body = trn_motion_pose (&c->motion, s);
  TrnPose pose = trn_pose_relative (&c->pair.site_from_obstacle, &site_from_body);
  TrnPose identity = trn_pose_identity ();
  double least = INFINITY;
  for (guint32 i = 0; i < c->body.mesh->n_triangles; i++)
    for (guint32 j = 0; j < c->obstacle.mesh->n_triangles; j++)
      {
        TrnVec3 a[3], b[3], on_a, on_b;
        trn_mesh_corners (c->body.mesh, i, a);
        trn_mesh_corners (c->obstacle.mesh, j, b);
        for (guint k = 0; k < 3; k++)
          a[k] = trn_pose_apply (&pose, a[k]);
        least = fmin (least, trn_triangle_distance (a, b, &on_a, &on_b));
      }
  if (least > TRN_CONTACT_M
      && trn_mesh_inside (c->body.bvh, c->body.check, &pose, c->obstacle.bvh, c->obstacle.check,
                          &identity)
             == TRN_INSIDE_YES)
    return 0;
  return least;
}

/* The same by the trees, for many moments; held against the plain one in every case. */
static double
sampled_distance (gconstpointer data, double s)
{
  const Case *c = data;
  TrnPose site_from_body = trn_motion_pose (&c->motion, s);
  TrnPose pose = trn_pose_relative (&c->pair.site_from_obstacle, &site_from_body);
  TrnPose identity = trn_pose_identity ();
  double d = trn_mesh_distance (c->body.bvh, &pose, c->obstacle.bvh, &identity, INFINITY, NULL)
                 .distance_m;
  if (d > TRN_CONTACT_M
      && trn_mesh_inside (c->body.bvh, c->body.check, &pose, c->obstacle.bvh, c->obstacle.check,
                          &identity)
             == TRN_INSIDE_YES)
    return 0;
  return d;
}

/* The least of dense samples; touching moments go to @touching. */
static double
sample (const Case *c, GArray *touching, double *at)
{
  return test_sample (c->pair.span, SAMPLES, sampled_distance, c, TRN_CONTACT_M, touching, at);
}

static void
check_contacts (const Case *c, const GArray *touching)
{
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (TrnInterval));
  g_assert_true (trn_sweep_contacts (&c->pair, 1e-3, NULL, spans));
  test_spans_hold (spans, touching);
  if (touching->len == 0 && spans->len > 0) /* a touch between two samples, found by the proof */
    g_test_message ("contact between samples");
}

static void
test_no_bound_violated (void)
{
  const guint32 seed = 31;
  g_test_message ("seed %u", seed);
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  guint clear = 0, contact = 0, inside = 0;
  for (guint run = 0; run < test_scaled (400); run++)
    {
      Case c;
      case_make (rand, &c);
      double width = c.size * 1e-3;
      TrnSweepOptions options = { .width_m = width, .far_m = INFINITY };
      TrnSweepResult result = trn_sweep_minimum (&c.pair, &options);
      g_autoptr (GArray) touching = g_array_new (FALSE, FALSE, sizeof (double));
      double at = c.pair.span.lo, least = sample (&c, touching, &at);
      double slack = 1e-14 * (5000 + c.size) * 100;

      g_assert_cmpfloat_with_epsilon (plain_distance (&c, at), least, slack);
      g_assert_true (result.complete);
      g_assert_cmpfloat (result.lower_m, <=, least + slack);
      g_assert_cmpfloat (result.upper_m - result.lower_m, <=, width);
      g_assert_cmpfloat (plain_distance (&c, result.s), <=, result.upper_m + TRN_CONTACT_M);
      if (result.upper_m > 0)
        {
          g_assert_cmpfloat (sampled_distance (&c, result.s), <=, result.upper_m + slack);
          g_assert_cmpfloat_with_epsilon (trn_vec3_distance (result.on_body, result.on_obstacle),
                                          result.upper_m, slack);
          g_assert_true (touching->len == 0 || result.lower_m <= 0);
          clear++;
        }
      else
        contact++;
      inside += result.inside == TRN_INSIDE_YES;
      check_contacts (&c, touching);
      case_clear (&c);
    }
  g_test_message ("%u clear, %u in contact, %u of them inside", clear, contact, inside);
  g_assert_cmpuint (clear, >, test_scaled (50));
  g_assert_cmpuint (contact, >, test_scaled (50));
  g_assert_cmpuint (inside, >, test_scaled (5));
}

/* Moving and yawing the whole site changes no clearance. */
static void
test_site_moved (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (32);
  for (guint run = 0; run < test_scaled (40); run++)
    {
      Case c;
      case_make (rand, &c);
      TrnSweepOptions options = { .width_m = c.size * 1e-3, .far_m = INFINITY };
      TrnSweepResult before = trn_sweep_minimum (&c.pair, &options);
      TrnPlacement placement = { .position = random_point (rand, 100), .heading_rad = 2 };
      TrnPose moved_from_site = trn_pose_make (&placement);
      TrnMotion m = c.motion;
      m.start = trn_pose_multiply (&moved_from_site, &m.start);
      m.axis = trn_rotation_apply (&moved_from_site.turn, m.axis);
      m.from = trn_pose_apply (&moved_from_site, m.from);
      m.by = trn_rotation_apply (&moved_from_site.turn, m.by);
      m.head_from_tail = trn_rotation_apply (&moved_from_site.turn, m.head_from_tail);
      TrnVec3 centre = trn_pose_apply (&moved_from_site, trn_vec3_make (m.centre_x, m.centre_y, 0));
      m.centre_x = centre.x;
      m.centre_y = centre.y;
      m.phi0_rad += 2;
      TrnSweepPair pair = c.pair;
      pair.motion = &m;
      pair.site_from_obstacle = trn_pose_multiply (&moved_from_site, &pair.site_from_obstacle);
      TrnSweepResult after = trn_sweep_minimum (&pair, &options);
      g_assert_cmpfloat (after.lower_m, <=, before.upper_m + 1e-9);
      g_assert_cmpfloat (before.lower_m, <=, after.upper_m + 1e-9);
      case_clear (&c);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sweep/random/no-bound-violated", test_no_bound_violated);
  g_test_add_func ("/sweep/random/site-moved", test_site_moved);
  return g_test_run ();
}
