/* Wind on a load on two hooks with long legs, by closed forms: how far a hook may go aside and how
 * much it rises then is by its rope alone, since legs may turn with the load.
 *
 * A bar of 6 m lies along x with its points 4 m apart, 3 m above its centre of gravity and 30 m
 * below the tips of both ropes. How much of the 30 m is legs changes nothing else. */
#include <math.h>

#include "load-lean.h"
#include "test-checks.h"
#include "wind-aside.h"

#define CHAIN_M 30.0
#define APART_M 4.0

typedef struct
{
  TestRun run;
  TrnLiftCheck check;
} Lift;

#define GANTRY(id)                                                                                 \
  "{'id': '" id "', 'kind': 'gantry', 'at': {'position': [0, 0, 0]}, 'legs': [{'at': [30, 30],"    \
  " 'size': [0.5, 0.5], 'height': 50}], 'trolley': {'size': [1, 1, 1], 'underside': 40}}"

/* Both hooks so far above their points, which are at those heights of the bar and those places
 * along it, held by legs to @side_m on both sides of the plane of the hooks. */
static void
lift_init (Lift *lift, const double above_m[2], const double x_m[2], const double z_m[2],
           double side_m)
{
  static const TrnCheckOptions options = { .jobs = 1 };
  char *legs[2];
  for (guint i = 0; i < 2; i++)
    legs[i] = g_strdup_printf (
        "'hook_above': %.9g, 'slings': [{'id': '%ca', 'to': [%.9g, %.9g, %.9g], 'diameter': 0.02}"
        ", {'id': '%cb', 'to': [%.9g, %.9g, %.9g], 'diameter': 0.02}]",
        above_m[i], "mt"[i], x_m[i], side_m, z_m[i], "mt"[i], x_m[i], -side_m, z_m[i]);
  g_autofree char *text = g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.5, 'wind': {'speed': 6, 'drag':"
      " 1}, 'gear': [" GANTRY ("one") "," GANTRY (
          "other") "], 'structures': [], 'components': [{'id': 'bar', 'solid': {'kind': 'box',"
                   " 'size': [6, 2, 2]}, 'mass': 1000, 'cog': [0, 0, 1], 'at': {'position':"
                   " [0, 0, 6]}}], 'programme': [{'lift': 'one', 'component': 'bar', 'hook_point':"
                   " [%.9g, 0, %.9g], 'rigging': {'main': {'gear': 'one', %s}, 'tail': {'gear':"
                   " 'other', 'point': [%.9g, 0, %.9g], %s}}, 'moves': [{'do': 'wait', 'seconds':"
                   " 1}]}]}",
      x_m[0], z_m[0], legs[0], x_m[1], z_m[1], legs[1]);
  lift->run = test_run (text);
  trn_lift_check_init (&lift->check, lift->run.scene, 0, &options);
  for (guint i = 0; i < 2; i++)
    g_free (legs[i]);
}

static void
lift_clear (Lift *lift)
{
  trn_lift_check_clear (&lift->check);
  test_run_clear (&lift->run);
}

static const double ends_m[2] = { -APART_M / 2, APART_M / 2 }, tops_m[2] = { 4, 4 };

/* Of ropes of that length. */
static TrnWindAside
aside_by_rope (double rope_m)
{
  const double above_m[2] = { CHAIN_M - rope_m, CHAIN_M - rope_m };
  Lift lift;
  lift_init (&lift, above_m, ends_m, tops_m, 0);
  const TrnWindAside aside = trn_wind_aside_find (&lift.check, 0, 0, 0);
  lift_clear (&lift);
  return aside;
}

/* A hook at the end of a rope that goes so far aside rises, by as much as the one beside it does
 * not, and pitches the line between them. */
static double
pitch_rad (double aside_m, double rope_m)
{
  return asin (aside_m * aside_m / (2 * sqrt (rope_m * rope_m - aside_m * aside_m)) / APART_M);
}

/* Between ropes of 28 m and of 10 m what the wind turns the bar by differs by how much the hooks
 * rise, and hardly by what that makes of the area and the couple. */
static void
test_rise (void)
{
  const TrnWindAside by_long = aside_by_rope (28), by_short = aside_by_rope (10);
  g_assert_null (by_long.missing);
  g_assert_null (by_short.missing);
  const double more_rad = pitch_rad (by_short.hook_m, 10) - pitch_rad (by_long.hook_m, 28);
  g_test_message ("hook %.4f and %.4f m, turned %.5f and %.5f, by rise %.5f more", by_long.hook_m,
                  by_short.hook_m, by_long.turned_rad, by_short.turned_rad, more_rad);
  g_assert_cmpfloat (more_rad, >, 0.01);
  test_assert_between (by_short.turned_rad - by_long.turned_rad, more_rad, 1e-6, 0.15 * more_rad);
}

/* A hook that goes more than a fifth of its rope aside has no bound, whatever its legs. */
static void
test_fifth (void)
{
  const double hook_m = aside_by_rope (28).hook_m;
  g_assert_cmpfloat (hook_m, <, 0.1 * CHAIN_M);
  g_assert_null (aside_by_rope (5 * hook_m + 2).missing);
  const TrnWindAside beyond = aside_by_rope (5 * hook_m - 0.2);
  g_assert_cmpstr (beyond.missing, ==, "wind/far");
  g_assert_true (isnan (beyond.load_m));
}

/* Hooks of which legs to both sides hold points 3 m above each other are level where the legs are
 * 1 m and 4 m high; how far the ends of the line are above each other is that of the points then.
 * Where hooks are farther above each other than points, it is that of hooks. */
static void
test_height (void)
{
  static const struct
  {
    double above_m[2], z_m[2], height_m;
  } cases[] = { { { 1, 4 }, { 5, 2 }, 3 },
                { { 4, 1 }, { 5, 2 }, 6 },
                { { 2, 2 }, { 5, 2 }, 3 },
                { { 1, 4 }, { 4, 4 }, 3 } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      Lift lift;
      lift_init (&lift, cases[i].above_m, ends_m, cases[i].z_m, 1);
      const TrnHungBetween hung = trn_load_lean_between (&lift.check, 0, (TrnInterval){ 0, 1 });
      test_assert_between (hung.up_m, fmax (cases[i].above_m[0], cases[i].above_m[1]), 1e-9, 1e-9);
      test_assert_between (hung.height_m, cases[i].height_m, 1e-9, 1e-3);
      lift_clear (&lift);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/wind-ropes/rise", test_rise);
  g_test_add_func ("/checks/wind-ropes/fifth", test_fifth);
  g_test_add_func ("/checks/wind-ropes/height", test_height);
  return g_test_run ();
}
