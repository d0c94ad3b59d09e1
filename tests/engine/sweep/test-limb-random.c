/* Random limbs against standing and moving meshes and against each other, held against dense
 * sampling with local refinement: no sampled distance may lie below the certified lower bound, the
 * upper bound must be attained, the width as asked, and no sampled contact outside the spans.
 * Sampling can miss what the proof finds, never the other way round. */
#include "convex.h"
#include "limb-sweep.h"

#include "test-limbs.h"
#include "test-motions.h"
#include "test-sampling.h"
#include "test-scale.h"
#include "test-shapes.h"
#include "tolerances.h"
#include "triangle.h"

#define SAMPLES 400

typedef enum
{
  STANDING,
  MOVING,
  LIMBS,
  KINDS,
} Kind;

typedef struct
{
  Kind kind;
  TestPaths paths, other_paths;
  TrnLimb limb, other;
  TestBody body;
  TrnMotion motion;
  TrnLimbPair pair;
  double size, rounding;
} Case;

/* A path that goes about as far as the bodies are large: straight, along a parabola, round an axis
 * of any direction, or all at once. */
static TestPath
random_path (GRand *rand, TrnVec3 from, double size)
{
  TestPath path = { .p0 = from, .phi0 = test_between (rand, -4, 4) };
  guint kind = (guint)g_rand_int_range (rand, 0, 8);
  if (kind & 1)
    path.p1 = test_random_point (rand, 3 * size);
  if (kind & 2)
    path.p2 = test_random_point (rand, 2 * size);
  if (kind & 4)
    {
      path.u = test_random_point (rand, size);
      path.v = test_random_point (rand, size);
      path.w = test_between (rand, -5, 5);
    }
  return path;
}

/* Two corners, or up to 16 that go together but for a little. */
static TestPaths
random_paths (GRand *rand, TrnVec3 from, double size)
{
  TestPaths paths = test_paths_make ();
  paths.n = g_rand_boolean (rand) ? 2 : (guint)g_rand_int_range (rand, 1, TRN_LIMB_CORNERS + 1);
  TestPath all = random_path (rand, from, size);
  for (guint i = 0; i < paths.n; i++)
    {
      paths.paths[i] = paths.n == 2 ? random_path (rand, from, size) : all;
      paths.paths[i].p0 = trn_vec3_add (paths.paths[i].p0, test_random_point (rand, size));
      paths.paths[i].p1 = trn_vec3_add (paths.paths[i].p1, test_random_point (rand, 0.2 * size));
    }
  if (g_rand_int_range (rand, 0, 4) == 0)
    paths.widest = test_between (rand, 0.01, 0.5);
  paths.no_bend = g_rand_int_range (rand, 0, 20) == 0;
  if (g_rand_int_range (rand, 0, 20) == 0)
    paths.loose_m = 1e-3 * size;
  return paths;
}

static TestBody
random_body (GRand *rand, double size)
{
  guint n = (guint)g_rand_int_range (rand, 3, 8);
  switch (g_rand_int_range (rand, 0, 3))
    {
    case 0:
      return test_body_take (test_drum (3 * n, size * test_between (rand, 0.2, 1), -size, size));
    case 1:
      return test_body_take (
          test_box (trn_vec3_scale (test_random_point (rand, size), 0.1),
                    trn_vec3_make (size, test_between (rand, 0.2, 1) * size, 0.5 * size)));
    default:
      return test_body_take (test_blob (rand, n, size * test_between (rand, 0.5, 2)));
    }
}

static void
case_make (GRand *rand, Kind kind, Case *c)
{
  static const double sizes[] = { 1, 10, 30 };
  double size = sizes[g_rand_int_range (rand, 0, 3)];
  TrnVec3 site = { g_rand_boolean (rand) ? 1e5 : 0, 0, 0 };
  *c = (Case){ .kind = kind,
               .size = size,
               .rounding = 1e-9 * size + (kind == MOVING ? 5e-12 : 1e-13) * site.x };
  c->paths = random_paths (rand, trn_vec3_add (site, test_random_point (rand, 2 * size)), size);
  c->limb = test_limb (&c->paths, test_between (rand, 0, 0.2) * size);
  double lo = test_between (rand, 0, 0.6), hi = test_between (rand, lo, 1);
  gboolean whole = g_rand_boolean (rand);
  c->pair = (TrnLimbPair){ .limb = &c->limb, .span = { whole ? 0 : lo, whole ? 1 : hi } };
  if (kind == LIMBS)
    {
      c->other_paths
          = random_paths (rand, trn_vec3_add (site, test_random_point (rand, 2 * size)), size);
      c->other = test_limb (&c->other_paths, test_between (rand, 0, 0.2) * size);
      c->pair.other = &c->other;
      return;
    }
  c->body = random_body (rand, size);
  c->pair.obstacle = (TrnSweepBody){ c->body.bvh, c->body.check };
  TrnPose pose = test_random_pose (rand, size);
  pose.position = trn_vec3_add (pose.position, site);
  c->pair.site_from_obstacle = pose;
  if (kind == MOVING)
    {
      c->motion = test_random_motion (rand, size);
      c->motion.start.position.x += site.x;
      c->motion.from.x += site.x;
      c->motion.centre_x += site.x;
      c->pair.motion = &c->motion;
    }
}

static void
case_clear (Case *c)
{
  if (c->kind != LIMBS)
    test_body_clear (&c->body);
}

static TrnPose
obstacle_pose (const Case *c, double s)
{
  return c->kind == MOVING ? trn_motion_pose (&c->motion, s) : c->pair.site_from_obstacle;
}

/* The corners at one moment, in the obstacle's frame or on the site. */
static guint
corners_at (const Case *c, const TestPaths *paths, double s, TrnVec3 *corners)
{
  for (guint i = 0; i < paths->n; i++)
    {
      corners[i] = test_path_place (&paths->paths[i], s);
      if (c->kind != LIMBS)
        {
          TrnPose pose = obstacle_pose (c, s);
          corners[i] = trn_pose_apply_inverse (&pose, corners[i]);
        }
    }
  return paths->n;
}

static double
distance_at (gconstpointer data, double s)
{
  const Case *c = data;
  TrnVec3 a[TRN_LIMB_CORNERS], b[TRN_LIMB_CORNERS], p, q;
  guint n_a = corners_at (c, &c->paths, s, a);
  g_assert (n_a > 0);
  if (c->kind == LIMBS)
    {
      guint n_b = corners_at (c, &c->other_paths, s, b);
      double d = trn_convex_distance (a, n_a, b, n_b, &p, &q);
      return fmax (0, d - c->limb.radius_m - c->other.radius_m);
    }
  double least = INFINITY;
  for (guint32 i = 0; i < c->body.mesh->n_triangles; i++)
    {
      trn_mesh_corners (c->body.mesh, i, b);
      least = fmin (least, trn_convex_distance (a, n_a, b, 3, &p, &q));
    }
  if (least > 0 && trn_winding_number (c->body.bvh, c->body.check, a[0]) != 0)
    return 0;
  return fmax (0, least - c->limb.radius_m);
}

/* The hull of a few points, as the triangles of any three of them; without its inside. */
static double
plain_distance (const TrnVec3 *a, guint n_a, const TrnVec3 b[3])
{
  double least = INFINITY;
  for (guint i = 0; i < n_a; i++)
    for (guint j = i; j < n_a; j++)
      for (guint k = j; k < n_a; k++)
        {
          TrnVec3 t[3] = { a[i], a[j], a[k] }, p, q;
          least = fmin (least, trn_triangle_distance (t, b, &p, &q));
        }
  return least;
}

/* The same moment by the distance of triangles alone; where nothing is inside anything. */
static void
check_plain (const Case *c, double s, double found)
{
  TrnVec3 a[TRN_LIMB_CORNERS], b[TRN_LIMB_CORNERS];
  guint n_a = corners_at (c, &c->paths, s, a);
  if (n_a > 6 || found == 0)
    return;
  double least = INFINITY, radius = c->limb.radius_m;
  if (c->kind == LIMBS)
    {
      guint n_b = corners_at (c, &c->other_paths, s, b);
      radius += c->other.radius_m;
      for (guint i = 0; i < n_b; i++)
        for (guint j = i; j < n_b; j++)
          for (guint k = j; k < n_b; k++)
            least = fmin (least, plain_distance (a, n_a, (const TrnVec3[3]){ b[i], b[j], b[k] }));
    }
  else
    for (guint32 i = 0; i < c->body.mesh->n_triangles; i++)
      {
        trn_mesh_corners (c->body.mesh, i, b);
        least = fmin (least, plain_distance (a, n_a, b));
      }
  g_assert_cmpfloat (fabs (least - radius - found), <=, 10 * c->rounding);
}

/* The least of dense samples; touching moments go to @touching. */
static double
sample (const Case *c, GArray *touching, double *at)
{
  return test_sample (c->pair.span, SAMPLES, distance_at, c, 0.5 * TRN_CONTACT_M, touching, at);
}

static void
check_contacts (const Case *c, const GArray *touching)
{
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (TrnInterval));
  g_assert_true (trn_limb_sweep_contacts (&c->pair, 1e-3, NULL, spans));
  test_spans_hold (spans, touching);
}

/* What is told at one moment, with the points it is told between. */
static void
check_moment (const Case *c, double s)
{
  TrnVec3 p, q;
  double d = trn_limb_distance (&c->pair, s, &p, &q), expected = distance_at (c, s);
  g_assert_cmpfloat (d, >=, expected - c->rounding);
  g_assert_cmpfloat (d, <=, expected + TRN_CONTACT_M + c->rounding);
  if (d > 0)
    g_assert_cmpfloat (fabs (trn_vec3_distance (p, q) - d), <=, 10 * c->rounding);
}

/* Where the places are known but for rounding. */
static void
check_exact (const Case *c, const TrnSweepResult *r, double width, double at)
{
  g_assert_cmpfloat (r->upper_m - r->lower_m, <=, width * (1 + 1e-9) + c->rounding);
  if (r->upper_m > 0)
    g_assert_cmpfloat (fabs (trn_vec3_distance (r->on_body, r->on_obstacle) - r->upper_m), <=,
                       c->rounding);
  check_moment (c, at);
  check_moment (c, c->pair.span.lo);
}

static void
check_case (const Case *c, double width, guint *clear, guint *contact)
{
  double at = 0;
  TrnSweepOptions options = { .width_m = width, .far_m = INFINITY };
  TrnSweepResult r = trn_limb_sweep_minimum (&c->pair, &options);
  g_autoptr (GArray) touching = g_array_new (FALSE, FALSE, sizeof (double));
  double least = sample (c, touching, &at), rounding = c->rounding;
  if (!(r.lower_m <= least + rounding) || !r.complete)
    g_test_message ("%.9g .. %.9g at %g, sampled %.9g at %g; %u steps", r.lower_m, r.upper_m, r.s,
                    least, at, (guint)r.steps);
  g_assert_true (r.complete);
  g_assert_cmpfloat (r.lower_m, <=, least + rounding);
  g_assert_cmpfloat (r.upper_m, >=,
                     distance_at (c, r.s) - rounding - TRN_CONTACT_M * (r.upper_m == 0));
  if (c->paths.loose_m == 0 && c->other_paths.loose_m == 0)
    check_exact (c, &r, width, at);
  check_plain (c, at, least);
  check_contacts (c, touching);
  if (r.upper_m > 0)
    ++*clear;
  else
    ++*contact;
}

static void
run_cases (gconstpointer data)
{
  Kind kind = GPOINTER_TO_UINT (data);
  const guint32 seed = 47 + kind;
  g_test_message ("seed %u", seed);
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  guint clear = 0, contact = 0;
  for (guint run = 0; run < test_scaled (kind == LIMBS ? 250 : 60); run++)
    {
      Case c;
      case_make (rand, kind, &c);
      /* a narrow one lets no bound be wrong by more than itself; without the bend it takes too many
         spans of time */
      gboolean bends = !c.paths.no_bend && !c.other_paths.no_bend;
      check_case (&c, run % 2 == 0 || !bends ? 1e-3 * c.size : 1e-6 * c.size, &clear, &contact);
      case_clear (&c);
    }
  g_test_message ("%u clear, %u in contact", clear, contact);
  g_assert_cmpuint (clear, >, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/limb-random/standing", GUINT_TO_POINTER (STANDING), run_cases);
  g_test_add_data_func ("/limb-random/moving", GUINT_TO_POINTER (MOVING), run_cases);
  g_test_add_data_func ("/limb-random/limbs", GUINT_TO_POINTER (LIMBS), run_cases);
  return g_test_run ();
}
