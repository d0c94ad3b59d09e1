/* Sweeps whose least distance is known from geometry alone. Values marked D are derived from plain
 * geometry and recomputed here from their formula. */
#include "sweep.h"

#include <float.h>

#include "search.h"
#include "test-shapes.h"
#include "tolerances.h"

static const TrnVec3 up = { 0, 0, 1 }, zero = { 0, 0, 0 };
static const double width = 1e-4;

static TrnSweepPair
pair_make (const TestBody *body, const TrnMotion *motion, const TestBody *obstacle)
{
  return (TrnSweepPair){ { body->bvh, body->check },
                         motion,
                         { 0, 1 },
                         { obstacle->bvh, obstacle->check },
                         trn_pose_identity () };
}

static TrnSweepResult
sweep (const TrnSweepPair *pair)
{
  TrnSweepOptions options = { .width_m = width, .far_m = INFINITY };
  return trn_sweep_minimum (pair, &options);
}

/* The result holds @expected and is as narrow as asked for, its points lie that far apart. */
static void
assert_holds (const TrnSweepResult *result, double expected)
{
  g_assert_true (result->complete);
  g_assert_cmpfloat (result->lower_m, <=, expected + 1e-12);
  g_assert_cmpfloat (result->upper_m, >=, expected - 1e-12);
  g_assert_cmpfloat (result->upper_m - result->lower_m, <=, width);
  g_assert_cmpfloat_with_epsilon (trn_vec3_distance (result->on_body, result->on_obstacle),
                                  result->upper_m, 1e-10);
}

/* A box 20 × 4 m that lies on its long side is turned upright about its lower edge: it is tallest
 * on the way, L sin t + D cos t, 20.3961 m at t = 78.690° (D). A ceiling 21 m up is nearest then,
 * though it is 1 m away at the end and 17 m at the start. */
static void
test_tallest_on_the_way (void)
{
  TestBody box = test_body_take (test_box (trn_vec3_make (-20, -1, 0), trn_vec3_make (0, 1, 4)));
  TestBody ceiling
      = test_body_take (test_box (trn_vec3_make (-50, -50, 21), trn_vec3_make (50, 50, 22)));
  TrnPose start = trn_pose_identity ();
  /* the edge x = 0 stays; what points to −X goes up: by +90° about +Y */
  TrnMotion motion
      = trn_motion_make_carry (&start, 600, zero, zero, trn_vec3_make (0, 1, 0), G_PI / 2);
  TrnSweepPair pair = pair_make (&box, &motion, &ceiling);
  TrnSweepResult result = sweep (&pair);
  double tallest = hypot (20, 4), angle = atan2 (20, 4);
  g_assert_cmpfloat_with_epsilon (tallest, 20.3961, 5e-5);
  g_assert_cmpfloat_with_epsilon (angle * 180 / G_PI, 78.690, 5e-4);
  assert_holds (&result, 21 - tallest);
  g_assert_cmpfloat_with_epsilon (result.s * 90, 78.690, 0.5);
  test_body_clear (&box);
  test_body_clear (&ceiling);
}

/* A drum 12 m across and 7 m deep is tipped over its rim: 7 cos t + 12 sin t, greatest 13.8924 m at
 * t = 59.744° (D), seen by a ceiling 14 m up. The drum's polygon has corners on the line that
 * leads. */
static void
test_drum_tipped (void)
{
  TestBody drum = test_body_take (test_drum (64, 6, 0, 7));
  TestBody ceiling
      = test_body_take (test_box (trn_vec3_make (-50, -50, 14), trn_vec3_make (50, 50, 15)));
  TrnPose start = trn_pose_identity ();
  TrnMotion motion = trn_motion_make_carry (&start, 600, trn_vec3_make (6, 0, 0), zero,
                                            trn_vec3_make (0, 1, 0), G_PI / 2);
  TrnSweepPair pair = pair_make (&drum, &motion, &ceiling);
  TrnSweepResult result = sweep (&pair);
  double tallest = hypot (7, 12);
  g_assert_cmpfloat_with_epsilon (tallest, 13.8924, 5e-5);
  assert_holds (&result, 14 - tallest);
  g_assert_cmpfloat_with_epsilon (result.s * 90, 59.744, 0.5);
  test_body_clear (&drum);
  test_body_clear (&ceiling);
}

/* A drum goes down concentrically in a round shaft, both regular 64-gons with parallel faces: the
 * faces are (R − r) cos(π/64) apart all the way, so that everything ties. A turn of 180° on the way
 * brings corners of the drum opposite faces of the shaft: R cos(π/64) − r. */
static void
test_drum_in_shaft (void)
{
  TestBody drum = test_body_take (test_drum (64, 4.8, 0, 3));
  TestBody shaft = test_body_take (test_tube (64, 5, 6, -30, 0));
  TrnPose start = trn_pose_identity ();
  start.position.z = 2;
  TrnMotion straight = trn_motion_make_carry (&start, 600, zero, trn_vec3_make (0, 0, -25), up, 0);
  TrnSweepPair pair = pair_make (&drum, &straight, &shaft);
  TrnSweepResult result = sweep (&pair);
  assert_holds (&result, 0.2 * cos (G_PI / 64));
  g_assert_cmpint (result.inside, ==, TRN_INSIDE_NO);

  TrnMotion turning
      = trn_motion_make_carry (&start, 600, zero, trn_vec3_make (0, 0, -25), up, G_PI);
  pair.motion = &turning;
  result = sweep (&pair);
  assert_holds (&result, 5 * cos (G_PI / 64) - 4.8);
  test_body_clear (&drum);
  test_body_clear (&shaft);
}

/* A box is slewed at 20 m radius past a post whose nearest edge stands at 22.5 m from the centre:
 * the box's outer corner passes at √((20 + 1.5)² + 2²), and the edge of the post is that corner's
 * distance from it at the moment they share a bearing. */
static void
test_slew_past_post (void)
{
  TestBody box = test_body_take (test_box (trn_vec3_make (-1.5, -2, 0), trn_vec3_make (1.5, 2, 3)));
  const TrnVec3 wedge[] = { { 22.5, 0, 0 }, { 24, -0.5, 0 }, { 24, 0.5, 0 } };
  TestBody post = test_body_take (test_prism (wedge, 3, -5, 15));
  TrnPlacement placement
      = { .position = { 20 * cos (-1.0), 20 * sin (-1.0), 4 }, .heading_rad = -1.0 };
  TrnPose start = trn_pose_make (&placement);
  TrnMotion motion;
  g_assert_true (
      trn_motion_make_slew (&start, 300, trn_vec3_make (0, 0, 8), 0, 0, 2.0, TRUE, 0, 0, &motion));
  TrnSweepPair pair = pair_make (&box, &motion, &post);
  TrnSweepResult result = sweep (&pair);
  assert_holds (&result, 22.5 - hypot (21.5, 2));
  /* Either outer corner, leading or following, is as near. */
  double bearing = -1.0 + 2.0 * result.s, corner = atan2 (2, 21.5);
  g_assert_cmpfloat_with_epsilon (fabs (bearing), corner, 0.02);
  test_body_clear (&box);
  test_body_clear (&post);
}

/* A box goes down into a slab: they touch from the moment at which the gap is used up, and, deep in
 * a slab thicker than the box, one lies inside the other without touching. The span of contact
 * begins on time and lasts to the end, the inside included. */
static void
test_contact_and_inside (void)
{
  TestBody box = test_body_take (test_box (trn_vec3_make (-1, -1, 0), trn_vec3_make (1, 1, 1)));
  TestBody slab = test_body_take (test_box (trn_vec3_make (-9, -9, -20), trn_vec3_make (9, 9, 0)));
  TrnPose start = trn_pose_identity ();
  start.position.z = 2;
  TrnMotion motion = trn_motion_make_carry (&start, 10, zero, trn_vec3_make (0, 0, -10), up, 0);
  TrnSweepPair pair = pair_make (&box, &motion, &slab);
  TrnSweepResult result = sweep (&pair);
  g_assert_cmpfloat (result.lower_m, ==, 0);
  g_assert_cmpfloat (result.upper_m, ==, 0);

  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (TrnInterval));
  g_assert_true (trn_sweep_contacts (&pair, 1e-4, NULL, spans));
  g_assert_cmpuint (spans->len, ==, 1);
  TrnInterval span = g_array_index (spans, TrnInterval, 0);
  g_assert_cmpfloat (span.lo, <=, 0.2);
  g_assert_cmpfloat (span.lo, >=, 0.2 - 1.1e-4);
  g_assert_cmpfloat (span.hi, ==, 1);

  /* Only the part in which it is wholly inside: contact all the same, and said so. */
  pair.span = (TrnInterval){ 0.5, 1 };
  result = sweep (&pair);
  g_assert_cmpint (result.inside, ==, TRN_INSIDE_YES);
  g_assert_cmpfloat (result.upper_m, ==, 0);
  g_array_set_size (spans, 0);
  g_assert_true (trn_sweep_contacts (&pair, 1e-4, NULL, spans));
  g_assert_cmpuint (spans->len, ==, 1);
  g_assert_cmpfloat (g_array_index (spans, TrnInterval, 0).lo, ==, 0.5);
  test_body_clear (&box);
  test_body_clear (&slab);
}

/* A post passes through two walls one after the other: two spans of contact with a free one
 * between, at the moments that the geometry gives. */
static void
test_two_contacts (void)
{
  TestBody post = test_body_take (test_box (trn_vec3_make (0, -1, 0), trn_vec3_make (1, 1, 4)));
  TestBody walls = test_body_take (test_box (trn_vec3_make (10, -9, 1), trn_vec3_make (11, 9, 3)));
  TrnPose start = trn_pose_identity ();
  TrnMotion motion = trn_motion_make_carry (&start, 100, zero, trn_vec3_make (40, 0, 0), up, 0);
  TrnSweepPair pair = pair_make (&post, &motion, &walls);
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (TrnInterval));
  g_assert_true (trn_sweep_contacts (&pair, 1e-5, NULL, spans));
  pair.site_from_obstacle.position.x = 20;
  g_assert_true (trn_sweep_contacts (&pair, 1e-5, NULL, spans));
  g_assert_cmpuint (spans->len, ==, 2);
  for (guint i = 0; i < 2; i++)
    {
      TrnInterval span = g_array_index (spans, TrnInterval, i);
      double from = (9 + 20.0 * i) / 40, to = (11 + 20.0 * i) / 40;
      g_assert_cmpfloat (span.lo, <=, from);
      g_assert_cmpfloat (span.lo, >=, from - 1.1e-5);
      g_assert_cmpfloat (span.hi, >=, to);
      g_assert_cmpfloat (span.hi, <=, to + 1.1e-5);
    }
  test_body_clear (&post);
  test_body_clear (&walls);
}

/* A box leaves its stand: it is apart by 25 mm when it has gone 25 mm, and, seen backwards, when it
 * is set down again. */
static void
test_first_reach (void)
{
  TestBody box = test_body_take (test_box (trn_vec3_make (-1, -1, 0), trn_vec3_make (1, 1, 1)));
  TestBody stand = test_body_take (test_box (trn_vec3_make (-2, -2, -1), trn_vec3_make (2, 2, 0)));
  TrnPose start = trn_pose_identity ();
  TrnMotion lift = trn_motion_make_carry (&start, 100, zero, trn_vec3_make (0, 0, 2), up, 0);
  TrnSweepPair pair = pair_make (&box, &lift, &stand);
  double s = -1;
  g_assert_true (trn_sweep_first_reach (&pair, 0.025, 1e-6, FALSE, NULL, &s));
  g_assert_cmpfloat (s, >=, 0.0125);
  g_assert_cmpfloat (s, <=, 0.0125 + 1.1e-6);
  g_assert_false (trn_sweep_first_reach (&pair, 2.5, 1e-6, FALSE, NULL, &s));

  start.position.z = 2;
  TrnMotion lower = trn_motion_make_carry (&start, 100, zero, trn_vec3_make (0, 0, -2), up, 0);
  pair.motion = &lower;
  g_assert_true (trn_sweep_first_reach (&pair, 0.025, 1e-6, FALSE, NULL, &s));
  g_assert_cmpfloat (s, ==, 0);
  g_assert_true (trn_sweep_first_reach (&pair, 0.025, 1e-6, TRUE, NULL, &s));
  g_assert_cmpfloat (s, <=, 1 - 0.0125);
  g_assert_cmpfloat (s, >=, 1 - 0.0125 - 1.1e-6);

  TrnMotion wait = trn_motion_make_wait (&start, 5);
  pair.motion = &wait;
  g_assert_true (trn_sweep_first_reach (&pair, 1.9, 1e-6, FALSE, NULL, &s));
  g_assert_false (trn_sweep_first_reach (&pair, 2.1, 1e-6, FALSE, NULL, &s));
  test_body_clear (&box);
  test_body_clear (&stand);
}

/* A drum goes down 25 m beside a wall 5 mm nearer than what is asked for: it never comes apart, and
 * that is found out without looking for the nearest of thousands of equal triangles each time. */
static void
test_never_apart (void)
{
  TestBody drum = test_body_take (test_drum (256, 4.8, 0, 3));
  TestBody shaft = test_body_take (test_tube (256, 5, 6, -30, 0));
  TrnPose start = trn_pose_identity ();
  start.position.z = -3;
  TrnMotion down = trn_motion_make_carry (&start, 600, zero, trn_vec3_make (0, 0, -25), up, 0);
  TrnSweepPair pair = pair_make (&drum, &down, &shaft);
  double s, wall = 0.2 * cos (G_PI / 256);
  g_assert_false (trn_sweep_first_reach (&pair, wall + 0.005, 4e-5, FALSE, NULL, &s));
  g_assert_false (trn_sweep_first_reach (&pair, wall + 0.005, 4e-5, TRUE, NULL, &s));
  g_assert_true (trn_sweep_first_reach (&pair, wall - 1e-9, 4e-5, FALSE, NULL, &s));
  g_assert_cmpfloat (s, ==, 0);
  test_body_clear (&drum);
  test_body_clear (&shaft);
}

/* Inside another body a load is not apart from it, however far the surfaces are: a cube of 1 m
 * comes up out of one of 20 m, 9 m below its top, and is 0.5 m above it at 10.5 m of 20 m. It has
 * to be told for long spans at once: at this resolution there are 20 million short ones. */
static void
test_reach_from_inside (void)
{
  TestBody box = test_body_take (test_box (zero, trn_vec3_make (1, 1, 1)));
  TestBody rock
      = test_body_take (test_box (trn_vec3_make (-10, -10, -10), trn_vec3_make (10, 10, 10)));
  TrnPose start = trn_pose_identity ();
  TrnMotion motion = trn_motion_make_carry (&start, 60, zero, trn_vec3_make (0, 0, 20), up, 0);
  TrnSweepPair pair = pair_make (&box, &motion, &rock);
  double s;
  g_assert_true (trn_sweep_first_reach (&pair, 0.5, 5e-8, FALSE, NULL, &s));
  g_assert_cmpfloat_with_epsilon (s, 10.5 / 20, 1e-7);
  test_body_clear (&box);
  test_body_clear (&rock);
}

/* A body of 1 m that turns half round about a pivot 1 km away ends up 2 km away: the rounding has
 * to be that of its places there, by the formula in search.c. */
static void
test_rounding_of_far_pivot (void)
{
  TestBody box = test_body_take (test_box (zero, trn_vec3_make (1, 1, 1)));
  TrnPose start = trn_pose_identity ();
  TrnMotion motion = trn_motion_make_carry (&start, 60, trn_vec3_make (1000, 0, 0), zero, up, G_PI);
  TrnPose end = trn_motion_pose (&motion, 1);
  g_assert_cmpfloat_with_epsilon (end.position.x, 2000, 1e-9);
  TrnSweepPair pair = pair_make (&box, &motion, &box);
  double places = 600 * (DBL_EPSILON / 2) * (1 + 1 + 2000);
  g_assert_cmpfloat (trn_search_rounding (&pair), >=, trn_motion_rounding (&motion, 1) + places);
  test_body_clear (&box);
}

/* Cut short, it says so, and the bound proven by then is still a bound. Cancelled, the same. */
static void
test_cut_short (void)
{
  TestBody drum = test_body_take (test_drum (64, 4.8, 0, 3));
  TestBody shaft = test_body_take (test_tube (64, 5, 6, -30, 0));
  TrnPose start = trn_pose_identity ();
  TrnMotion turning = trn_motion_make_carry (&start, 600, zero, trn_vec3_make (0, 0, -25), up, 3);
  TrnSweepPair pair = pair_make (&drum, &turning, &shaft);
  double truth = 5 * cos (G_PI / 64) - 4.8;
  for (guint64 steps = 1; steps < 100000; steps *= 10)
    {
      TrnSweepOptions options = { .width_m = 1e-6, .far_m = INFINITY, .max_steps = steps };
      TrnSweepResult result = trn_sweep_minimum (&pair, &options);
      g_assert_false (result.complete);
      g_assert_cmpfloat (result.lower_m, <=, truth);
      g_assert_cmpfloat (result.upper_m, >=, truth);
    }
  TrnProgress progress = { .cancelled = 1 };
  TrnSweepOptions options = { .width_m = 1e-6, .far_m = INFINITY, .progress = &progress };
  TrnSweepResult result = trn_sweep_minimum (&pair, &options);
  g_assert_false (result.complete);
  g_assert_cmpfloat (result.lower_m, <=, truth);
  test_body_clear (&drum);
  test_body_clear (&shaft);
}

/* Far from the obstacle the bounds may be as wide as 5 % of the distance, and no wider. */
static void
test_far_is_wider (void)
{
  TestBody box = test_body_take (test_box (trn_vec3_make (-1, -1, 0), trn_vec3_make (1, 1, 1)));
  TestBody post = test_body_take (test_drum (48, 1, 0, 10));
  TrnPose start = trn_pose_identity ();
  start.position = trn_vec3_make (12, -10, 0);
  TrnMotion motion = trn_motion_make_carry (&start, 60, zero, trn_vec3_make (0, 20, 0), up, 1);
  TrnSweepPair pair = pair_make (&box, &motion, &post);
  TrnSweepOptions options = { .width_m = 1e-3, .far_m = 1, .far_share = TRN_FAR_SHARE };
  TrnSweepResult wide = trn_sweep_minimum (&pair, &options);
  TrnSweepResult narrow = sweep (&pair);
  g_assert_cmpfloat (wide.upper_m - wide.lower_m, <=, TRN_FAR_SHARE * wide.lower_m);
  g_assert_cmpfloat (wide.lower_m, <=, narrow.upper_m);
  g_assert_cmpfloat (wide.upper_m, >=, narrow.lower_m);
  g_assert_cmpuint (wide.steps, <, narrow.steps);
  test_body_clear (&box);
  test_body_clear (&post);
}

static TrnMesh *
turned_take (TrnMesh *mesh, const TrnRotation *turn)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    trn_mesh_builder_vertex (builder, trn_rotation_apply (turn, mesh->vertices[i]));
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    {
      const guint32 *v = mesh->triangles[i].v;
      trn_mesh_builder_triangle (builder, v[0], v[1], v[2]);
    }
  trn_mesh_unref (mesh);
  return trn_mesh_builder_finish (builder);
}

static void
check_plate_aslant (const TrnRotation *aslant)
{
  const double gap = 0.5;
  TestBody plate = test_body_take (
      turned_take (test_box (trn_vec3_make (-300, -300, -1), trn_vec3_make (300, 300, 0)), aslant));
  TestBody load = test_body_take (turned_take (
      test_box (trn_vec3_make (-90, -90, gap), trn_vec3_make (90, 90, gap + 1)), aslant));
  TrnPose start = trn_pose_identity ();
  TrnVec3 by = trn_rotation_apply (aslant, trn_vec3_make (2, 0.7, 0));
  TrnMotion motion = trn_motion_make_carry (&start, 60, zero, by, up, 0);
  TrnSweepPair pair = pair_make (&load, &motion, &plate);
  TrnSweepOptions options
      = { .width_m = TRN_CONTACT_M, .far_m = INFINITY, .max_steps = 20000, .jobs = 1 };
  TrnSweepResult result = trn_sweep_minimum (&pair, &options);
  g_assert_true (result.complete);
  g_assert_cmpfloat (result.lower_m, <=, gap + 1e-9); /* the corners are rounded */
  g_assert_cmpfloat (result.upper_m, >=, gap - 1e-9);
  g_assert_cmpfloat (result.upper_m - result.lower_m, <=, TRN_CONTACT_M);
  test_body_clear (&load);
  test_body_clear (&plate);
}

/* A plate of 600 m aslant in its own frame, and a load that slides along it as far off at all
 * times: a direction in single precision turns the plate's corners by up to 20 µm, more than the
 * width asked for, at every time, so that halving time would never end. */
static void
test_large_plate_aslant (void)
{
  for (guint i = 1; i <= 20; i++)
    {
      TrnVec3 axis = trn_vec3_unit (trn_vec3_make (1, 2, -3));
      TrnRotation aslant = trn_rotation_make (axis, 0.1 * i);
      check_plate_aslant (&aslant);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sweep/tallest-on-the-way", test_tallest_on_the_way);
  g_test_add_func ("/sweep/drum-tipped", test_drum_tipped);
  g_test_add_func ("/sweep/drum-in-shaft", test_drum_in_shaft);
  g_test_add_func ("/sweep/slew-past-post", test_slew_past_post);
  g_test_add_func ("/sweep/contact-and-inside", test_contact_and_inside);
  g_test_add_func ("/sweep/two-contacts", test_two_contacts);
  g_test_add_func ("/sweep/first-reach", test_first_reach);
  g_test_add_func ("/sweep/never-apart", test_never_apart);
  g_test_add_func ("/sweep/reach-from-inside", test_reach_from_inside);
  g_test_add_func ("/sweep/rounding-of-far-pivot", test_rounding_of_far_pivot);
  g_test_add_func ("/sweep/cut-short", test_cut_short);
  g_test_add_func ("/sweep/far-is-wider", test_far_is_wider);
  g_test_add_func ("/sweep/large-plate-aslant", test_large_plate_aslant);
  return g_test_run ();
}
