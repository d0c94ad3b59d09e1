/* Limbs whose least distance is known in closed form, and what is to be told where there is none.
 */
#include "limb-sweep.h"

#include "test-limbs.h"
#include "test-shapes.h"
#include "tolerances.h"

static const TrnSweepOptions fine = { .width_m = 1e-6, .far_m = INFINITY };
static const TrnInterval all = { 0, 1 };

static TrnLimbPair
standing (const TrnLimb *limb, const TestBody *body, TrnVec3 at)
{
  return (TrnLimbPair){ .limb = limb,
                        .span = all,
                        .obstacle = { body->bvh, body->check },
                        .site_from_obstacle = { trn_rotation_identity (), at } };
}

static TrnLimbPair
limbs (const TrnLimb *limb, const TrnLimb *other)
{
  return (TrnLimbPair){ .limb = limb, .span = all, .other = other };
}

/* @within: what the numbers of this test lose to rounding. */
static void
assert_is (const TrnLimbPair *pair, double expected, double s, double s_within, double within)
{
  TrnSweepResult r = trn_limb_sweep_minimum (pair, &fine);
  g_test_message ("%.9g .. %.9g at %.9g, expected %.9g at %.9g; %u steps", r.lower_m, r.upper_m,
                  r.s, expected, s, (guint)r.steps);
  g_assert_true (r.complete);
  g_assert_cmpfloat (r.lower_m, <=, expected + within);
  g_assert_cmpfloat (r.upper_m, >=, expected - within);
  g_assert_cmpfloat (r.upper_m - r.lower_m, <=, 1e-6 * (1 + 1e-9));
  g_assert_cmpfloat (fabs (r.s - s), <=, s_within);
  g_assert_cmpfloat (fabs (trn_vec3_distance (r.on_body, r.on_obstacle) - r.upper_m), <=,
                     1e-9 + within);
}

/* A plumb rope 5 m long and 60 mm thick is carried past the upright edge of a box 2 m high: along
 * y = 1.5 from x = −4 to x = 6, the edge at (1, 1). It is nearest while abreast of the box. */
static void
test_rope_past_edge (void)
{
  TestBody body = test_body_take (test_box ((TrnVec3){ -1, -1, 0 }, (TrnVec3){ 1, 1, 2 }));
  TestPaths paths = test_paths_two (
      test_path_straight (trn_vec3_make (-4, 1.5, 4), trn_vec3_make (6, 1.5, 4)),
      test_path_straight (trn_vec3_make (-4, 1.5, -1), trn_vec3_make (6, 1.5, -1)));
  TrnLimb rope = test_limb (&paths, 0.03);
  TrnLimbPair pair = standing (&rope, &body, (TrnVec3){ 0, 0, 0 });
  assert_is (&pair, 0.47, 0.4, 0.1 + 1e-9, 1e-12);
  /* only from where it has passed: from x = 2 on, (1, 0.5) from the edge */
  pair.span = (TrnInterval){ 0.6, 1 };
  assert_is (&pair, hypot (1, 0.5) - 0.03, 0.6, 1e-9, 1e-12);
  /* what holds for a span is taken for its halves where these have no enclosure */
  pair.span = all;
  paths.narrowest = 0.9;
  assert_is (&pair, 0.47, 0.4, 0.1 + 1e-9, 1e-12);
  test_body_clear (&body);
}

/* A boom of 30 m, 0.5 m thick, luffs in the plane y = 0 from 20° to 80° about its foot at the
 * origin. A box beside the plane, 2 m off it, begins at x = 9, z = 12, seen from the foot at
 * 53.13°: abreast of it the boom keeps 1.5 m. Across the plane, and stopped at 40°, the boom's line
 * keeps off the box's edge, 15 m from the foot, by 15 sin (53.13° − 40°). */
static void
test_boom_past_corner (void)
{
  TestBody body = test_body_take (test_box ((TrnVec3){ 6, 2, 12 }, (TrnVec3){ 9, 5, 20 }));
  TrnVec3 foot = { 0, 0, 0 };
  double from = G_PI / 9, corner = atan2 (12, 9);
  TestPaths paths
      = test_paths_two (test_path_at (0, 0, 0), test_path_luff (foot, 30, from, G_PI / 3));
  TrnLimb boom = test_limb (&paths, 0.5);
  TrnLimbPair pair = standing (&boom, &body, foot);
  double past = (corner - from) / (G_PI / 3);
  assert_is (&pair, 1.5, 0.5 * (past + 1), 0.5 * (1 - past) + 1e-6, 1e-12);

  paths.paths[1] = test_path_luff (foot, 30, from, G_PI / 9);
  pair.site_from_obstacle.position = (TrnVec3){ 0, -3, 0 }; /* the box across the plane */
  assert_is (&pair, 15 * sin (corner - 2 * G_PI / 9) - 0.5, 1, 1e-9, 1e-12);
  test_body_clear (&body);
}

/* A boom's tip goes round the origin at 10 m past a post with its face at x = 10.4: from both ends
 * of a span alone the tip would seem to go straight across, farther from the post than it comes. */
static void
test_tip_past_post (void)
{
  TestBody body = test_body_take (test_box ((TrnVec3){ 10.4, -0.1, -5 }, (TrnVec3){ 11, 0.1, 5 }));
  TrnVec3 centre = { 0, 0, 0 };
  TestPaths paths = test_paths_two (test_path_slew (centre, 2, -1.5, 3.2),
                                    test_path_slew (centre, 10, -1.5, 3.2));
  TrnLimb boom = test_limb (&paths, 0.1);
  TrnLimbPair pair = standing (&boom, &body, centre);
  assert_is (&pair, 0.3, 1.5 / 3.2, 1e-4, 1e-12);
  test_body_clear (&body);
}

/* A counterweight, a prism from 3 m to 5 m behind the slew axis, 3 m wide and 1 m high, goes half
 * round past a box: its outer corners go round at √(5² + 1.5²) = 5.2202 m; a box corner at (0, 6)
 * keeps 6 − 5.2202 m. */
static void
test_counterweight (void)
{
  TestBody body = test_body_take (test_box ((TrnVec3){ -1, 6, -2 }, (TrnVec3){ 2, 8, 4 }));
  TestPaths paths = test_paths_make ();
  for (guint i = 0; i < 8; i++)
    {
      double out = i & 1 ? 5 : 3, side = i & 2 ? 1.5 : -1.5;
      TrnVec3 centre = { 0, 0, i & 4 ? 1 : 2 };
      paths.paths[paths.n++]
          = test_path_slew (centre, hypot (out, side), atan2 (side, out) - 0.5, 3.5);
    }
  TrnLimb weight = test_limb (&paths, 0);
  TrnLimbPair pair = standing (&weight, &body, (TrnVec3){ 0, 0, 0 });
  TrnSweepResult r = trn_limb_sweep_minimum (&pair, &fine);
  double expected = 6 - hypot (5, 1.5);
  g_test_message ("%u steps", (guint)r.steps);
  g_assert_true (r.complete);
  g_assert_cmpfloat (r.lower_m, <=, expected + 1e-12);
  g_assert_cmpfloat (r.upper_m, >=, expected - 1e-12);
  g_assert_cmpfloat (r.upper_m - r.lower_m, <=, 1e-6 * (1 + 1e-9));
  test_body_clear (&body);
}

/* Two ropes that cross, one along X at z = 0, the other along Y, going down from z = 5 to z = 1 and
 * up again along a parabola 5 − 16 s (1 − s); 20 and 30 mm thick; and lower, so that they touch. */
static void
test_two_ropes (void)
{
  TestPaths one = test_paths_two (test_path_at (-5, 0, 0), test_path_at (5, 0, 0));
  TestPaths two = test_paths_two (test_path_at (0.3, -5, 5), test_path_at (-0.2, 5, 5));
  for (guint i = 0; i < 2; i++)
    {
      two.paths[i].p1.z = -16;
      two.paths[i].p2.z = 16;
    }
  TrnLimb a = test_limb (&one, 0.02), b = test_limb (&two, 0.03);
  TrnLimbPair pair = limbs (&a, &b);
  assert_is (&pair, 0.95, 0.5, 1e-3, 1e-12);
  TrnVec3 on_a, on_b;
  g_assert_cmpfloat (fabs (trn_limb_distance (&pair, 0, &on_a, &on_b) - 4.95), <, 1e-9);
  g_assert_cmpfloat (fabs (on_a.z - 0.02) + fabs (on_b.z - 4.97), <, 1e-9);

  two.paths[0].p0.z = two.paths[1].p0.z = 3.9; /* down to −0.1 */
  TrnSweepResult r = trn_limb_sweep_minimum (&pair, &fine);
  g_assert_true (r.complete);
  g_assert_cmpfloat (r.lower_m, ==, 0);
  g_assert_cmpfloat (r.upper_m, ==, 0);
  /* 3.9 − 16 s (1 − s) = 0.05 at s = 1/2 ± √(1/4 − 3.85/16), twice through while |z| <= 0.05 */
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (TrnInterval));
  g_assert_true (trn_limb_sweep_contacts (&pair, 1e-5, NULL, spans));
  double outer = sqrt (0.25 - 3.85 / 16), inner = sqrt (0.25 - 3.95 / 16);
  g_assert_cmpuint (spans->len, ==, 2);
  TrnInterval first = g_array_index (spans, TrnInterval, 0);
  TrnInterval second = g_array_index (spans, TrnInterval, 1);
  g_assert_cmpfloat (fabs (first.lo - 0.5 + outer) + fabs (second.hi - 0.5 - outer), <, 4e-5);
  g_assert_cmpfloat (fabs (first.hi - 0.5 + inner) + fabs (second.lo - 0.5 - inner), <, 4e-5);
  g_assert_cmpfloat (first.lo, <=, 0.5 - outer);
  g_assert_cmpfloat (first.hi, >=, 0.5 - inner);
}

/* A rope comes down on a box until it just touches: its lower end, round with 0.05 m, from z = 3 to
 * z = 1.05 over the top at z = 1. */
static void
test_touching (void)
{
  TestBody body = test_body_take (test_box ((TrnVec3){ -1, -1, 0 }, (TrnVec3){ 1, 1, 1 }));
  TestPaths paths = test_paths_two (
      test_path_straight (trn_vec3_make (0.1, 0.2, 3), trn_vec3_make (0.1, 0.2, 1.05)),
      test_path_at (0.1, 0.2, 9));
  TrnLimb rope = test_limb (&paths, 0.05);
  TrnLimbPair pair = standing (&rope, &body, (TrnVec3){ 0, 0, 0 });
  TrnSweepResult r = trn_limb_sweep_minimum (&pair, &fine);
  g_assert_true (r.complete);
  g_assert_cmpfloat (r.upper_m, ==, 0);
  g_assert_cmpfloat (r.s, >=, 1 - 1e-5);
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (TrnInterval));
  g_assert_true (trn_limb_sweep_contacts (&pair, 1e-4, NULL, spans));
  g_assert_cmpuint (spans->len, ==, 1);
  TrnInterval span = g_array_index (spans, TrnInterval, 0);
  g_assert_cmpfloat (span.hi, ==, 1);
  g_assert_cmpfloat (span.lo, >, 1 - 3e-4);
  test_body_clear (&body);
}

/* A prism that has no radius goes through a wall of 1 m, of which it is 1 m in front and behind,
 * and stays in it for half of the way: at the finest resolution that is told without a look at each
 * of its cells, and where it begins and ends is as fine as asked for. */
static void
test_long_contact (void)
{
  TestBody body = test_body_take (test_box ((TrnVec3){ 2, -5, -5 }, (TrnVec3){ 3, 5, 5 }));
  TestPaths prism = test_paths_make ();
  for (guint i = 0; i < 8; i++)
    {
      TrnVec3 from = { i & 1 ? 1 : 0, i & 2 ? 1 : -1, i & 4 ? 1 : -1 };
      TrnVec3 to = { from.x + 4, from.y, from.z };
      prism.paths[prism.n++] = test_path_straight (from, to);
    }
  TrnLimb limb = test_limb (&prism, 0);
  TrnLimbPair pair = standing (&limb, &body, (TrnVec3){ 0, 0, 0 });
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (TrnInterval));
  g_assert_true (trn_limb_sweep_contacts (&pair, 1e-8, NULL, spans));
  g_assert_cmpuint (spans->len, ==, 1);
  TrnInterval span = g_array_index (spans, TrnInterval, 0); /* of [0.25, 0.75], within 10 µm */
  g_assert_cmpfloat (span.lo, <=, 0.25);
  g_assert_cmpfloat (span.hi, >=, 0.75);
  g_assert_cmpfloat (span.lo, >, 0.25 - 1e-5);
  g_assert_cmpfloat (span.hi, <, 0.75 + 1e-5);
  test_body_clear (&body);
}

/* Wholly inside a closed box, far from its faces; and a box wholly inside a limb. Both touch. */
static void
test_inside (void)
{
  TestBody body = test_body_take (test_box ((TrnVec3){ -5, -5, -5 }, (TrnVec3){ 5, 5, 5 }));
  TestPaths paths
      = test_paths_two (test_path_straight (trn_vec3_make (-1, 0, 1), trn_vec3_make (1, 0, 1)),
                        test_path_at (0, 1, 0));
  TrnLimb rope = test_limb (&paths, 0.02);
  TrnLimbPair pair = standing (&rope, &body, (TrnVec3){ 0, 0, 0 });
  TrnSweepResult r = trn_limb_sweep_minimum (&pair, &fine);
  g_assert_true (r.complete);
  g_assert_cmpint (r.inside, ==, TRN_INSIDE_YES);
  g_assert_cmpfloat (r.upper_m, ==, 0);
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (TrnInterval));
  g_assert_true (trn_limb_sweep_contacts (&pair, 1e-3, NULL, spans));
  g_assert_cmpuint (spans->len, ==, 1);
  g_assert_cmpfloat (trn_interval_width (g_array_index (spans, TrnInterval, 0)), ==, 1);
  test_body_clear (&body);

  body = test_body_take (test_box ((TrnVec3){ -1, -1, -1 }, (TrnVec3){ 1, 1, 1 }));
  TestPaths prism = test_paths_make ();
  for (guint i = 0; i < 8; i++)
    prism.paths[prism.n++] = test_path_at (i & 1 ? 4 : -4, i & 2 ? 4 : -4, i & 4 ? 4 : -4);
  TrnLimb around = test_limb (&prism, 0);
  pair = standing (&around, &body, (TrnVec3){ 0, 0, 0 });
  r = trn_limb_sweep_minimum (&pair, &fine);
  g_assert_true (r.complete);
  g_assert_cmpfloat (r.upper_m, ==, 0);
  TrnVec3 p, q;
  g_assert_cmpfloat (trn_limb_distance (&pair, 0.5, &p, &q), ==, 0);
  test_body_clear (&body);
}

/* The boom past the corner on a site 100 km off, turned by 30°: the same distance to 1 µm. */
static void
test_far_site (void)
{
  TestBody body = test_body_take (test_box ((TrnVec3){ 6, 2, 12 }, (TrnVec3){ 9, 5, 20 }));
  TrnVec3 foot = { 1e5, -1e5, 300 }, up = { 0, 0, 1 };
  double c = cos (G_PI / 6), s = sin (G_PI / 6);
  TestPath tip = {
    .p0 = foot, .u = { 30 * c, 30 * s, 0 }, .v = { 0, 0, 30 }, .phi0 = G_PI / 9, .w = G_PI / 9
  };
  TestPaths paths = test_paths_two (test_path_at (foot.x, foot.y, foot.z), tip);
  TrnLimb boom = test_limb (&paths, 0.5);
  TrnLimbPair pair = standing (&boom, &body, foot);
  pair.site_from_obstacle.turn = trn_rotation_make (up, G_PI / 6);
  TrnVec3 down = trn_rotation_apply (&pair.site_from_obstacle.turn, (TrnVec3){ 0, -3, 0 });
  pair.site_from_obstacle.position = trn_vec3_add (foot, down);
  assert_is (&pair, 15 * sin (atan2 (12, 9) - 2 * G_PI / 9) - 0.5, 1, 1e-9, 1e-8);
  test_body_clear (&body);
}

/* A hook that is beyond its boom's reach for a while: what is not known never passes, but what was
 * attained elsewhere is told, and the spans hold the time that is not known. */
static void
test_no_place (void)
{
  TestBody body = test_body_take (test_box ((TrnVec3){ -1, -1, 0 }, (TrnVec3){ 1, 1, 1 }));
  TestPaths paths
      = test_paths_two (test_path_straight (trn_vec3_make (5, 0, 3), trn_vec3_make (3, 0, 3)),
                        test_path_straight (trn_vec3_make (5, 0, 0), trn_vec3_make (3, 0, 0)));
  paths.gap = (TrnInterval){ 0.3, 0.6 };
  TrnLimb rope = test_limb (&paths, 0);
  TrnLimbPair pair = standing (&rope, &body, (TrnVec3){ 0, 0, 0 });
  TrnSweepResult r = trn_limb_sweep_minimum (&pair, &fine);
  g_assert_false (r.complete);
  g_assert_cmpfloat (r.lower_m, ==, 0);
  g_assert_cmpfloat (fabs (r.upper_m - 2), <, 1e-6);
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (TrnInterval));
  g_assert_false (trn_limb_sweep_contacts (&pair, 1e-3, NULL, spans));
  g_assert_cmpuint (spans->len, ==, 1);
  TrnInterval span = g_array_index (spans, TrnInterval, 0);
  g_assert_true (span.lo <= 0.3 && span.lo > 0.298 && span.hi >= 0.6 && span.hi < 0.602);
  TrnVec3 p, q;
  g_assert_true (isnan (trn_limb_distance (&pair, 0.5, &p, &q)));

  paths.gap = (TrnInterval){ 0, 1 };
  r = trn_limb_sweep_minimum (&pair, &fine);
  g_assert_false (r.complete);
  g_assert_cmpfloat (r.lower_m, ==, 0);
  g_assert_true (isinf (r.upper_m));

  /* a moment alone, between any two that are looked at */
  paths.gap = (TrnInterval){ 0.123456789, 0.123456789 };
  r = trn_limb_sweep_minimum (&pair, &fine);
  g_assert_false (r.complete);
  g_assert_cmpfloat (r.lower_m, ==, 0);

  /* each moment has a place, but long spans have no enclosure, or none of the bend */
  paths.gap = (TrnInterval){ 2, -1 };
  paths.widest = 0.01;
  assert_is (&pair, 2, 1, 1e-9, 1e-12);
  paths.widest = 0;
  paths.no_bend = TRUE;
  assert_is (&pair, 2, 1, 1e-9, 1e-12);
  test_body_clear (&body);
}

/* A search that is cut short tells what it proved, and one that is cancelled ends. */
static void
test_cut_short (void)
{
  TestBody body = test_body_take (test_drum (48, 5, 0, 3));
  TestPaths paths = test_paths_two (test_path_slew ((TrnVec3){ 0, 0, 0 }, 5.3, 0, 6),
                                    test_path_slew ((TrnVec3){ 0, 0, 4 }, 5.5, 0.3, 6));
  TrnLimb rope = test_limb (&paths, 0.02);
  TrnLimbPair pair = standing (&rope, &body, (TrnVec3){ 0, 0, 0 });
  TrnSweepResult whole = trn_limb_sweep_minimum (&pair, &fine);
  g_assert_true (whole.complete);
  g_test_message ("%u steps", (guint)whole.steps);
  TrnSweepOptions options = fine;
  options.max_steps = whole.steps / 2;
  TrnSweepResult r = trn_limb_sweep_minimum (&pair, &options);
  g_assert_false (r.complete);
  g_assert_cmpfloat (r.lower_m, <=, whole.upper_m);
  g_assert_cmpfloat (r.upper_m, >=, whole.lower_m);
  TrnProgress progress = { 0 };
  trn_progress_cancel (&progress);
  options = fine;
  options.progress = &progress;
  r = trn_limb_sweep_minimum (&pair, &options);
  g_assert_false (r.complete);
  g_assert_cmpuint (r.steps, <, whole.steps / 2);
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (TrnInterval));
  g_assert_false (trn_limb_sweep_contacts (&pair, 1e-3, &progress, spans));
  g_assert_cmpuint (spans->len, ==, 1);
  test_body_clear (&body);
}

/* From far_m on the width may be a share of the distance: 40 m away, 5 %; and no more. */
static void
test_far_width (void)
{
  TestBody body = test_body_take (test_drum (48, 5, 0, 3));
  TestPaths paths = test_paths_two (test_path_slew ((TrnVec3){ 60, 0, 0 }, 15, 0, 6),
                                    test_path_slew ((TrnVec3){ 60, 0, 40 }, 15, 0, 6));
  TrnLimb rope = test_limb (&paths, 0.02);
  TrnLimbPair pair = standing (&rope, &body, (TrnVec3){ 0, 0, 0 });
  TrnSweepOptions options = { .width_m = 1e-3, .far_m = 2, .far_share = 0.05 };
  TrnSweepResult r = trn_limb_sweep_minimum (&pair, &options);
  g_assert_true (r.complete);
  g_assert_cmpfloat (r.lower_m, <=, 39.98);
  g_assert_cmpfloat (r.upper_m, >=, 39.98);
  g_assert_cmpfloat (r.upper_m, <=, r.lower_m * 1.05 * (1 + 1e-12));
  g_assert_cmpuint (r.steps, <, trn_limb_sweep_minimum (&pair, &fine).steps);
  test_body_clear (&body);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/limb/rope-past-edge", test_rope_past_edge);
  g_test_add_func ("/limb/boom-past-corner", test_boom_past_corner);
  g_test_add_func ("/limb/tip-past-post", test_tip_past_post);
  g_test_add_func ("/limb/counterweight", test_counterweight);
  g_test_add_func ("/limb/two-ropes", test_two_ropes);
  g_test_add_func ("/limb/touching", test_touching);
  g_test_add_func ("/limb/long-contact", test_long_contact);
  g_test_add_func ("/limb/inside", test_inside);
  g_test_add_func ("/limb/far-site", test_far_site);
  g_test_add_func ("/limb/no-place", test_no_place);
  g_test_add_func ("/limb/cut-short", test_cut_short);
  g_test_add_func ("/limb/far-width", test_far_width);
  return g_test_run ();
}
