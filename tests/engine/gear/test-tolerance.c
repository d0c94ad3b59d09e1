/* How far a part goes when the hook is off, against the part placed with the hook off by that. */
#include "crane.h"
#include "random-crane.h"
#include "test-scale.h"

static TrnVec3
random_direction (GRand *rand)
{
  for (;;)
    {
      TrnVec3 d = test_random_point (rand, 1);
      double length = trn_vec3_length (d);
      if (length > 0.1 && length < 1)
        return trn_vec3_scale (d, 1 / length);
    }
}

/* Level where it should go far. */
static TrnVec3
random_off (GRand *rand, double off_m)
{
  TrnVec3 d = random_direction (rand);
  if (g_rand_boolean (rand))
    {
      d.z = 0;
      d = trn_vec3_unit (d);
    }
  return trn_vec3_scale (d, off_m * (g_rand_boolean (rand) ? 1 : g_rand_double (rand)));
}

/* The farthest that a corner of the body at @s goes when the load is moved by @off, within 1e-9. */
static double
gone (TestRig *t, guint body, double s, TrnVec3 off)
{
  TrnJet3 at[TRN_LIMB_CORNERS], there[TRN_LIMB_CORNERS];
  const char *id = t->rig->bodies[body].id;
  TrnVec3 from = t->motions[1].from;
  TrnVec3 centre = { t->motions[1].centre_x, t->motions[1].centre_y, 0 };
  g_assert_true (test_rig_corners (t, id, 1, trn_interval_point (s), at));
  t->motions[1].from = trn_vec3_add (from, off);
  t->motions[1].centre_x += off.x;
  t->motions[1].centre_y += off.y;
  g_assert_true (test_rig_corners (t, id, 1, trn_interval_point (s), there));
  t->motions[1].from = from;
  t->motions[1].centre_x = centre.x;
  t->motions[1].centre_y = centre.y;
  double farthest = 0;
  for (guint i = 0; i < t->rig->bodies[body].n_corners; i++)
    farthest = fmax (farthest,
                     trn_vec3_distance (test_rig_middle (&at[i]), test_rig_middle (&there[i])));
  return farthest;
}

/* Never farther than the bound, whichever way the hook is off, at any moment of the move. */
static void
test_crane (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (111);
  guint bounded = 0, n = test_scaled (300);
  for (guint i = 0; i < n; i++)
    {
      TestRig t;
      random_crane (rand, &t);
      double off_m = pow (10, test_between (rand, -3, 0.3));
      for (guint body = 0; body < t.rig->n_bodies; body++)
        {
          double bound = trn_rig_tolerance (t.rig, body, 1, off_m);
          if (t.rig->bodies[body].part == TRN_PART_SLING
              || t.rig->bodies[body].part == TRN_PART_BEAM)
            g_assert_true (isnan (bound));
          for (guint k = 0; k < 20 && !isnan (bound); k++)
            {
              double s = g_rand_double (rand);
              g_assert_cmpfloat (gone (&t, body, s, random_off (rand, off_m)), <=, bound + 1e-9);
              bounded++;
            }
        }
      test_rig_clear (&t);
    }
  g_assert_cmpuint (bounded, >, n * 20);
}

/* Where the radius does not change the bound is hardly more than what is met by going straight out,
 * or round: parts of it are not padding. Boom 50, hook 40 from a foot on the axis, so the tip 30
 * above the foot: it goes 50/30 of p; with 10 mm that changes by less than a hundredth. The foot
 * 2 behind goes 2/38 of p at a radius of 38, the counterweight's farthest corner √(32 + 4)/38 and
 * a little more. */
static void
test_bound_is_met (void)
{
  static const char *const crane
      = "{'id': 'crane', 'kind': 'crane', 'at': {'position': [0, 0, 0]}, 'boom': {'foot': [-2, 2],"
        " 'length': 50, 'section': [1, 1]}, 'counterweight': {'tail_radius': 6, 'bottom': 1,"
        " 'top': 3, 'width': 4}}";
  TestRig t;
  test_rig_wait (&t, 38, 0, 0);
  test_rig_build (&t, crane, "'main': {'gear': 'crane', 'hook_above': 5}");
  const double p = 0.01;
  guint boom = test_rig_body (&t, "crane/boom"), rope = test_rig_body (&t, "crane/rope");
  guint weight = test_rig_body (&t, "crane/counterweight");
  double tip = trn_rig_tolerance (t.rig, boom, 1, p);
  g_assert_cmpfloat_with_epsilon (tip, p * 5 / 3, p * 5 / 3 * 0.01);
  g_assert_cmpfloat (tip, ==, trn_rig_tolerance (t.rig, rope, 1, p));
  g_assert_cmpfloat (gone (&t, boom, 0.5, trn_vec3_make (p, 0, 0)), >, 0.99 * tip);
  double tail = trn_rig_tolerance (t.rig, weight, 1, p);
  g_assert_cmpfloat_with_epsilon (tail, p * 6 / 38, p * 6 / 38 * 0.02);
  g_assert_cmpfloat (gone (&t, weight, 0.5, trn_vec3_make (0, p, 0)), >, 0.99 * tail);
  TrnCraneTolerance all = trn_crane_tolerance (&t.plan->gear[0], (TrnInterval){ 38, 38 }, p);
  g_assert_cmpfloat_with_epsilon (all.foot_m, p * 2 / 38, p * 2 / 38 * 0.01);
  test_rig_clear (&t);
}

/* Without the p in the least radius and the least height the bound would not hold: a hook nearly at
 * the end of reach, 48 of 50 out, that is off by 1: z goes from 14 to √(2500 − 2401) = 9.95, so the
 * tip falls by 4.05, while 50/14 of 1 less the level part gives no more than 3.43. */
static void
test_the_way_counts (void)
{
  static const char *const crane
      = "{'id': 'crane', 'kind': 'crane', 'at': {'position': [0, 0, 0]}, 'boom': {'foot': [0, 2],"
        " 'length': 50, 'section': [1, 1]}}";
  TestRig t;
  test_rig_wait (&t, 48, 0, 0);
  test_rig_build (&t, crane, "'main': {'gear': 'crane', 'hook_above': 5}");
  guint boom = test_rig_body (&t, "crane/boom");
  double met = gone (&t, boom, 0.5, trn_vec3_make (1, 0, 0));
  g_assert_cmpfloat (met, >, 50.0 / 14);
  g_assert_cmpfloat (met, <=, trn_rig_tolerance (t.rig, boom, 1, 1));
  /* Off by 2 it may be beyond reach, or on the axis. */
  g_assert_true (isnan (trn_rig_tolerance (t.rig, boom, 1, 2)));
  g_assert_true (isnan (trn_rig_tolerance (t.rig, boom, 1, 48)));
  test_rig_clear (&t);
}

/* The same of the slew: a hook 10 out and off by 5 slews by up to 30°, where the line to it touches
 * the circle about it. The foot, 2 behind the axis, then goes 4 sin 15° = 1.035, and 2·5/10 is no
 * bound; so for the counterweight, √36 = 6 out at its corners. */
static void
test_the_way_counts_for_the_slew (void)
{
  static const char *const crane
      = "{'id': 'crane', 'kind': 'crane', 'at': {'position': [0, 0, 0]}, 'boom': {'foot': [-2, 2],"
        " 'length': 50, 'section': [1, 1]}, 'counterweight': {'tail_radius': 6, 'bottom': 1,"
        " 'top': 3, 'width': 4}}";
  TestRig t;
  test_rig_wait (&t, 10, 0, 0);
  test_rig_build (&t, crane, "'main': {'gear': 'crane', 'hook_above': 5}");
  const double p = 5 * (1 - 1e-9);
  TrnVec3 off = { -p / 2, p * sqrt (0.75), 0 };
  TrnVec3 there = { 10 + off.x, off.y, 0 };
  double turn = atan2 (there.y, there.x), foot = 2 * 2 * sin (turn / 2);
  TrnCraneTolerance all = trn_crane_tolerance (&t.plan->gear[0], (TrnInterval){ 10, 10 }, p);
  g_assert_cmpfloat (foot, >, 2 * p / 10 * 1.03);
  g_assert_cmpfloat (foot, <=, all.foot_m);
  double tail = gone (&t, test_rig_body (&t, "crane/counterweight"), 0.5, off);
  g_assert_cmpfloat (tail, >, 6 * p / 10 * 1.03);
  g_assert_cmpfloat (tail, <=, all.counterweight_m);
  test_rig_clear (&t);
}

/* ---- along the boom, by plain numbers ---- */

/* A crane on the origin: its boom of length L hinged foot_out beside the slew axis and 2 m up, its
 * tip plumb above the hook. */
typedef struct
{
  double length_m, out_m;
} Plain;

static TrnVec3
plain_point (const Plain *crane, double x, double y, double share)
{
  const double radius = hypot (x, y), u = radius - crane->out_m,
               z = sqrt (crane->length_m * crane->length_m - u * u), at = crane->out_m + share * u;
  return trn_vec3_make (at * x / radius, at * y / radius, 2 + share * z);
}

/* No point of the boom goes farther than in proportion between its ends, whichever way the hook is
 * off; and both ends, and the middle, are charged no more than half as much again as they go. */
static void
test_along (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (417);
  const guint n = test_scaled (100);
  for (guint i = 0; i < n; i++)
    {
      const Plain plain = { test_between (rand, 20, 60), test_between (rand, -3, 3) };
      const double off_m = test_between (rand, 0.01, 0.5),
                   radius = test_between (rand, 8, 0.75 * plain.length_m),
                   round = test_between (rand, 0, 2 * G_PI), x = radius * cos (round),
                   y = radius * sin (round);
      g_autofree char *crane = g_strdup_printf (
          "{'id': 'crane', 'kind': 'crane', 'at': {'position': [0, 0, 0]}, 'boom': {'foot': [%.17g,"
          " 2], 'length': %.17g, 'section': [1, 1]}}",
          plain.out_m, plain.length_m);
      TestRig t;
      test_rig_wait (&t, x, y, 0);
      test_rig_build (&t, crane, "'main': {'gear': 'crane', 'hook_above': 5}");
      double ends_m[2], most_m[3] = { 0, 0, 0 };
      trn_rig_tolerance_ends (t.rig, test_rig_body (&t, "crane/boom"), 1, off_m, ends_m);
      for (guint k = 0; k < 400; k++)
        {
          const double at = test_between (rand, 0, 2 * G_PI), by = off_m * (1 - (k % 4) / 4.0);
          for (guint j = 0; j <= 8; j++)
            {
              const double share = j / 8.0,
                           gone_m = trn_vec3_distance (
                               plain_point (&plain, x, y, share),
                               plain_point (&plain, x + by * cos (at), y + by * sin (at), share));
              g_assert_cmpfloat (gone_m, <=, (1 - share) * ends_m[0] + share * ends_m[1] + 1e-9);
              if (j % 4 == 0)
                most_m[j / 4] = fmax (most_m[j / 4], gone_m);
            }
        }
      g_assert_cmpfloat (ends_m[0], <=, 1.5 * most_m[0] + 1e-9);
      g_assert_cmpfloat (ends_m[1], <=, 1.5 * most_m[2]);
      g_assert_cmpfloat ((ends_m[0] + ends_m[1]) / 2, <=, 1.5 * most_m[1] + ends_m[0]);
      test_rig_clear (&t);
    }
}

/* Of a rope the lower end goes as the hook, the upper one as the tip; of what has no two ends both
 * are told the same. */
static void
test_ends (void)
{
  TestRig t;
  test_rig_wait (&t, 38, 0, 0);
  test_rig_build (&t,
                  "{'id': 'crane', 'kind': 'crane', 'at': {'position': [0, 0, 0]}, 'boom':"
                  " {'foot': [-2, 2], 'length': 50, 'section': [1, 1]}, 'counterweight':"
                  " {'tail_radius': 6, 'bottom': 1, 'top': 3, 'width': 4}}",
                  "'main': {'gear': 'crane', 'hook_above': 5}");
  double boom_m[2], rope_m[2], weight_m[2];
  trn_rig_tolerance_ends (t.rig, test_rig_body (&t, "crane/boom"), 1, 0.1, boom_m);
  trn_rig_tolerance_ends (t.rig, test_rig_body (&t, "crane/rope"), 1, 0.1, rope_m);
  trn_rig_tolerance_ends (t.rig, test_rig_body (&t, "crane/counterweight"), 1, 0.1, weight_m);
  g_assert_cmpfloat (rope_m[0], ==, 0.1);
  g_assert_cmpfloat (rope_m[1], ==, boom_m[1]);
  g_assert_cmpfloat (boom_m[0], <, 0.1 * boom_m[1]);
  g_assert_cmpfloat (weight_m[0], ==, weight_m[1]);
  test_rig_clear (&t);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/gear/tolerance/crane", test_crane);
  g_test_add_func ("/gear/tolerance/bound-is-met", test_bound_is_met);
  g_test_add_func ("/gear/tolerance/the-way-counts", test_the_way_counts);
  g_test_add_func ("/gear/tolerance/the-way-counts-for-the-slew", test_the_way_counts_for_the_slew);
  g_test_add_func ("/gear/tolerance/along", test_along);
  g_test_add_func ("/gear/tolerance/ends", test_ends);
  return g_test_run ();
}
