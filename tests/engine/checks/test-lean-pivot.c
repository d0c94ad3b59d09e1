/* What a load on two hooks leans by below legs and beams, against the roll of least energy, found
 * by search. */
#include <math.h>

#include "test-force.h"
#include "test-scale.h"

#define CASES 60
#define APART_M 8.0
#define SCANS 20000
#define WAIT "{'do': 'wait', 'seconds': 10}"
#define TILT(by)                                                                                   \
  "{'do': 'tilt', 'by': " by ", 'axis': 90, 'guide': 'head-plumb', 'head': [4, 0, 2], 'tail': [-4" \
  ", 0, 2], 'seconds': 90}"

/* The hook is b above the points of two legs, or above a beam, 2 w long, which are at an angle to
 * that line; the centre of gravity y beside the line and d below the points, in the middle. */
typedef struct
{
  double angle_rad, half_m, above_m, below_m, beside_m;
  gboolean is_beam;
} Case;

/* Both hooks stay where they are high, and ropes are so long that they go aside freely. Rolled by φ
 * the line of both legs, or the beam, slopes by ε, sin ε = sin θ sin φ, and its hook is b cos ε
 * above its middle: half of that is how far the centre of gravity is below what holds the load. The
 * roll of least energy near 0. */
static double
least_energy_rad (const Case *c)
{
  double best = INFINITY, at_rad = NAN;
  for (int i = -SCANS; i <= SCANS; i++)
    {
      const double roll_rad = 0.2 * i / SCANS,
                   slope_rad = asin (sin (c->angle_rad) * sin (roll_rad)),
                   height_m = -c->above_m * cos (slope_rad) / 2 - c->below_m * cos (roll_rad)
                              + c->beside_m * sin (roll_rad);
      if (height_m >= best)
        continue;
      best = height_m;
      at_rad = fabs (roll_rad);
    }
  return at_rad;
}

/* @lug: where the second sling goes, NULL: below its end; @more: slings after it. */
static TestRun
run_case (const Case *c, const char *lug, const char *more)
{
  const double x = c->half_m * cos (c->angle_rad), y = c->half_m * sin (c->angle_rad);
  g_autofree char *points = g_strdup_printf ("[%.17g, %.17g, 2]", 4 + x, y);
  g_autofree char *others = g_strdup_printf ("[%.17g, %.17g, 2]", 4 - x, -y);
  g_autofree char *beam = g_strdup_printf (
      "'beam': {'id': 'bar', 'length': %.17g, 'width': 0.2, 'depth': 0.2, 'below_hook': %.17g,"
      " 'between': [%s, %s]},",
      2 * c->half_m, c->above_m, points, others);
  g_autofree char *rigging
      = g_strdup_printf ("{'main': {'hook_above': %.17g, %s 'slings': [{'id': 'a', %s 'to': %s, "
                         "'diameter': 0.02}, {'id': 'b', %s 'to': %s, 'diameter': 0.02}%s]},"
                         " 'tail': {'point': [-4, 0, 2]}}",
                         c->above_m + (c->is_beam ? 1.5 : 0), c->is_beam ? beam : "",
                         c->is_beam ? "'from': 'beam-a'," : "", points,
                         c->is_beam ? "'from': 'beam-b'," : "", lug != NULL ? lug : others, more);
  g_autofree char *unit
      = g_strdup_printf ("'cog': [0, %.17g, %.17g],", c->beside_m, 2 - c->below_m);
  TestGear t = { .gear = "",
                 .structures = FORCE_SLAB,
                 .more = "",
                 .unit = unit,
                 .solid = "{'kind': 'box', 'size': [9, 2, 2]}",
                 .hook = "[4, 0, 2]",
                 .rigging = rigging,
                 .lift = "'tolerance': {'position': 0.02},",
                 .moves = WAIT };
  return test_gear_run (&t);
}

static const TrnFinding *
out_of_plane (const TestRun *run)
{
  return test_force (run, TRN_CHECK_LOAD_SHARE, "load", "out-of-plane");
}

/* Never less than what the search finds, and not much more: 0.98 of the height count below a beam,
 * and the line between what it hangs from slopes. */
static void
test_energy (void)
{
  guint n = 0;
  for (guint i = 0; i < test_scaled (CASES); i++)
    {
      Case c = { .angle_rad = i % 4 < 2 ? G_PI / 2 : 0,
                 .half_m = g_test_rand_double_range (0.8, 1.5),
                 .above_m = g_test_rand_double_range (1, 2.5),
                 .below_m = g_test_rand_double_range (i % 4 < 2 ? -0.2 : 0.3, 1),
                 .beside_m = g_test_rand_double_range (0.002, 0.03),
                 .is_beam = i % 2 == 1 };
      const double least_rad = least_energy_rad (&c);
      if (!(least_rad < atan (0.1)))
        continue;
      TestRun run = run_case (&c, NULL, "");
      const double least_deg = least_rad * 180 / G_PI;
      test_assert_between (out_of_plane (&run)->value, least_deg, 2e-3, 0.1 * least_deg);
      test_run_clear (&run);
      n++;
    }
  g_assert_cmpuint (n, >, test_scaled (CASES) / 3);
}

/* Hooks 2 m above a beam or two legs square to the line between the hooks: half of it, and somewhat
 * less, is how high a centre of gravity may be above the points until it turns over. At an angle
 * to that line what the load leans by is not known, nor beyond what legs hold. */
static void
test_turns_over (void)
{
  for (guint is_beam = 0; is_beam < 2; is_beam++)
    {
      Case c = { G_PI / 2, 1, 2, -0.95, 0, is_beam };
      TestRun run = run_case (&c, NULL, "");
      TEST_PASSES (out_of_plane (&run), TRN_STATE_WITHIN);
      test_run_clear (&run);
      c.below_m = -1.02;
      run = run_case (&c, NULL, "");
      TEST_FAILS (out_of_plane (&run), TRN_STATE_TURNS_OVER);
      test_run_clear (&run);
      c = (Case){ 1.5, 1, 2, 0.5, 0, is_beam };
      run = run_case (&c, NULL, "");
      TEST_UNKNOWN (out_of_plane (&run), "lean/beam");
      test_run_clear (&run);
    }
}

/* Two legs 0.3 m apart below a hook 5.5 m above their points, which are 5 m below the hook point:
 * they hold it up to a lean of 0.15/5.5 only, so that it
 * counts as hanging from the points, above which its centre of gravity is. Three of which one edge
 * is 1 cm from below the hook hold it no better; with the hook over their middle they do, until
 * they are turned up by so much that it is not. */
static void
test_narrow (void)
{
  static const struct
  {
    const char *slings, *moves;
    TrnVerdict verdict;
  } cases[] = {
    { "{'id': 'a', 'to': [4, 0.15, -3], 'diameter': 0.02}, {'id': 'b', 'to': [4, -0.15, -3],"
      " 'diameter': 0.02}",
      WAIT, TRN_VERDICT_FAIL },
    { "{'id': 'a', 'to': [3.01, 1, 2], 'diameter': 0.02}, {'id': 'b', 'to': [4.98, -1, 2],"
      " 'diameter': 0.02}, {'id': 'c', 'to': [6, 1, 2], 'diameter': 0.02}",
      WAIT, TRN_VERDICT_UNKNOWN },
    { "{'id': 'a', 'to': [3, 1, 2], 'diameter': 0.02}, {'id': 'b', 'to': [3, -1, 2],"
      " 'diameter': 0.02}, {'id': 'c', 'to': [5, 0, 2], 'diameter': 0.02}",
      WAIT, TRN_VERDICT_PASS },
    { "{'id': 'a', 'to': [3, 1, 2], 'diameter': 0.02}, {'id': 'b', 'to': [3, -1, 2],"
      " 'diameter': 0.02}, {'id': 'c', 'to': [5, 0, 2], 'diameter': 0.02}",
      TILT ("20"), TRN_VERDICT_PASS },
    { "{'id': 'a', 'to': [3, 1, 2], 'diameter': 0.02}, {'id': 'b', 'to': [3, -1, 2],"
      " 'diameter': 0.02}, {'id': 'c', 'to': [5, 0, 2], 'diameter': 0.02}",
      TILT ("85"), TRN_VERDICT_UNKNOWN },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *rigging = g_strdup_printf (
          "{'main': {'hook_above': %s, 'slings': [%s]}, 'tail': {'point': [-4, 0, 2]}}",
          i == 0 ? "0.5" : "2", cases[i].slings);
      TestGear t = { .gear = "",
                     .structures = FORCE_SLAB,
                     .more = "",
                     .unit = "'cog': [0, 0, 1.9],",
                     .solid = "{'kind': 'box', 'size': [9, 2, 2]}",
                     .hook = "[4, 0, 2]",
                     .rigging = rigging,
                     .moves = cases[i].moves };
      TestRun run = test_gear_run (&t);
      if (cases[i].verdict == TRN_VERDICT_PASS)
        TEST_PASSES (out_of_plane (&run), TRN_STATE_WITHIN);
      else if (cases[i].verdict == TRN_VERDICT_FAIL)
        TEST_FAILS (out_of_plane (&run), TRN_STATE_TURNS_OVER);
      else
        TEST_UNKNOWN (out_of_plane (&run), "lean/beam");
      test_run_clear (&run);
    }
}

/* Below points, about a line that may go up by as much as to a hook so far above them. */
static double
steepest_deg (double drawn, double hook_m)
{
  return atan (drawn * hypot (APART_M, hook_m) / APART_M) * 180 / G_PI;
}

/* Below a beam one sling to a lug that is not below its end leaves the lean not known; where others
 * go to the other side of that end the load is taken to hang from its points, 0.2 m above its
 * centre of gravity, and the line to be as steep as from the hook. */
static void
test_splayed (void)
{
  const Case c = { G_PI / 2, 1.5, 2, 0.2, 0.01, TRUE };
  TestRun run = run_case (&c, "[4, -0.9, 2]", "");
  TEST_UNKNOWN (out_of_plane (&run), "lean/beam");
  test_run_clear (&run);
  run = run_case (&c, "[4, -1.2, 2]",
                  ", {'id': 'c', 'from': 'beam-b', 'to': [4, -1.8, 2], 'diameter': 0.02}");
  TEST_FAILS (out_of_plane (&run), TRN_STATE_OUTSIDE);
  test_assert_between (out_of_plane (&run)->value, steepest_deg (0.01 / 0.2, 3.5), 1e-6, 1e-4);
  test_run_clear (&run);
  /* Along the line of both hooks, both of an end 6 mm and more to one side; and square to it, both
   * of an end 1 m and more along it. */
  const Case along = { 0, 1.5, 2, 0.5, 0, TRUE }, square = { G_PI / 2, 1.5, 2, 0.5, 0, TRUE };
  run = run_case (&along, "[2.5, 0.006, 2]",
                  ", {'id': 'c', 'from': 'beam-b', 'to': [2.5, 0.5, 2], 'diameter': 0.02}");
  test_assert_between (out_of_plane (&run)->value, steepest_deg (0.006 / 0.5, 3.5), 1e-6, 1e-3);
  test_run_clear (&run);
  run = run_case (&square, "[5, -1.5, 2]",
                  ", {'id': 'c', 'from': 'beam-b', 'to': [5.2, -1.5, 2], 'diameter': 0.02}, {'id':"
                  " 'd', 'from': 'beam-a', 'to': [3, 1.5, 2], 'diameter': 0.02}");
  TEST_UNKNOWN (out_of_plane (&run), "lean/beam");
  test_run_clear (&run);
}

/* Lines are plumb, so what is not drawn below its hook hangs otherwise than drawn: a leg to one
 * side or along, legs that both go to one side, and a beam whose slings do. What is within 20 mm
 * counts: 8 mm beside with the centre of gravity 0.5 m below. */
static void
test_beside (void)
{
  static const struct
  {
    const char *slings, *moves;
    double beside_m; /* NAN: not known */
  } cases[] = {
    { "{'id': 'a', 'to': [4, 0.1, 2], 'diameter': 0.02}", WAIT, NAN },
    { "{'id': 'a', 'to': [4.1, 0, 2], 'diameter': 0.02}", WAIT, NAN },
    { "{'id': 'a', 'to': [4, 0.008, 2], 'diameter': 0.02}", WAIT, 0.008 },
    { "{'id': 'a', 'to': [3, 0.1, 2], 'diameter': 0.02}, {'id': 'b', 'to': [5, 0.1, 2], 'diameter':"
      " 0.02}",
      WAIT, NAN },
    { "{'id': 'a', 'to': [3, 0.008, 2], 'diameter': 0.02}, {'id': 'b', 'to': [5, 0.008, 2],"
      " 'diameter': 0.02}",
      WAIT, 0.008 },
    { "{'id': 'a', 'to': [4.2, 1, 2], 'diameter': 0.02}, {'id': 'b', 'to': [4.2, -1, 2],"
      " 'diameter': 0.02}",
      WAIT, NAN },
    { "{'id': 'a', 'to': [4, 1, 2], 'diameter': 0.02}, {'id': 'b', 'to': [4, 0.3, 2], 'diameter':"
      " 0.02}",
      WAIT, NAN },
    { "{'id': 'a', 'to': [4, 1, 2], 'diameter': 0.02}, {'id': 'b', 'to': [4, -1, 2], 'diameter':"
      " 0.02}",
      TILT ("20"), 0 },
    { "{'id': 'a', 'to': [4, 1, 1.9], 'diameter': 0.02}, {'id': 'b', 'to': [4, -1, 1.9],"
      " 'diameter': 0.02}",
      TILT ("20"), NAN },
    { "{'id': 'a', 'to': [4, 1, 2], 'diameter': 0.02}, {'id': 'b', 'to': [4, 0.01, 2], 'diameter':"
      " 0.02}",
      WAIT, NAN },
    /* Along, and all beyond the hook. */
    { "{'id': 'a', 'to': [4.1, 0, 2], 'diameter': 0.02}, {'id': 'b', 'to': [5, 0, 2], 'diameter':"
      " 0.02}",
      WAIT, NAN },
    { "{'id': 'a', 'to': [4.008, 0, 2], 'diameter': 0.02}", WAIT, 0 },
    /* Its plane turns past the load. */
    { "{'id': 'a', 'to': [4, 1, 2], 'diameter': 0.02}, {'id': 'b', 'to': [4, -1, 2], 'diameter':"
      " 0.02}",
      "{'do': 'tilt', 'by': 20, 'axis': 80, 'seconds': 90}", NAN },
    { "{'id': 'a', 'to': [4, 0, 1.9], 'diameter': 0.02}",
      "{'do': 'tilt', 'by': 20, 'axis': 80, 'seconds': 90}", NAN },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *rigging = g_strdup_printf (
          "{'main': {'hook_above': 2, 'slings': [%s]}, 'tail': {'point': [-4, 0, 2]}}",
          cases[i].slings);
      TestGear t = { .gear = "",
                     .structures = FORCE_SLAB,
                     .more = "",
                     .unit = "'cog': [0, 0, 1.5],",
                     .solid = "{'kind': 'box', 'size': [9, 2, 2]}",
                     .hook = "[4, 0, 2]",
                     .rigging = rigging,
                     .lift = "'tolerance': {'position': 0.05},",
                     .moves = cases[i].moves };
      TestRun run = test_gear_run (&t);
      if (isnan (cases[i].beside_m))
        TEST_UNKNOWN (out_of_plane (&run), "lean/beam");
      else
        test_assert_between (out_of_plane (&run)->value,
                             atan (cases[i].beside_m / 0.5) * 180 / G_PI, 1e-9, 1e-5);
      test_run_clear (&run);
      if (!(cases[i].beside_m > 0))
        continue;
      /* Moved by 8 mm, and turned by 8 mm in 8 m, at 8.6 m from its hook. */
      t.lift = "'tolerance': {'position': 0.015},";
      run = test_gear_run (&t);
      TEST_UNKNOWN (out_of_plane (&run), "lean/beside");
      test_run_clear (&run);
    }
  const Case c = { G_PI / 2, 1.5, 2, 0.5, 0, TRUE };
  TestRun run = run_case (&c, "[4, -1.49, 2]", "");
  TEST_UNKNOWN (out_of_plane (&run), "lean/beam");
  test_run_clear (&run);
  run = run_case (&c, "[4, -1.499, 2]", "");
  test_assert_between (out_of_plane (&run)->value, atan (0.0005 / (0.5 + 0.98)) * 180 / G_PI, 1e-6,
                       1e-3);
  test_run_clear (&run);
}

#define TAIL_LEG(id, to) "{'id': '" id "', 'to': " to ", 'diameter': 0.02}"

/* A leg to a lug 0.5 m below the tail point holds it 1 m above its centre of gravity, two that go
 * aside no higher; three that go round hold it from their hook, 2 m above the point. From a lug
 * beside the point it hangs otherwise than drawn. */
static void
test_tail_alone (void)
{
  static const struct
  {
    const char *slings;
    double below_m;
  } cases[] = {
    { TAIL_LEG ("a", "[4, 0, 1.5]"), 1 },
    { TAIL_LEG ("a", "[4, 0.4, 1.5]") ", " TAIL_LEG ("b", "[4, -0.4, 1.5]"), 1 },
    { TAIL_LEG ("a", "[4.5, 0.8, 1.5]") ", " TAIL_LEG ("b", "[4.5, -0.8, 1.5]") ", " TAIL_LEG (
          "c", "[3.3, 0, 1.5]"),
      3.5 },
    { TAIL_LEG ("a", "[4, 0.1, 1.5]"), NAN },
    { TAIL_LEG ("a", "[4, 0.8, 1.5]") ", " TAIL_LEG ("b", "[4, 0.1, 1.5]"), NAN },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *rigging = g_strdup_printf (
          "{'main': {'hook_above': 1, 'moves': [0, 0]}, 'tail': {'point': [4, 0, 2], 'hook_above':"
          " 2, 'slings': [%s]}}",
          cases[i].slings);
      TestGear t = { .gear = "",
                     .structures = FORCE_SLAB,
                     .more = "",
                     .unit = "'cog': [4, 0.1, 0.5],",
                     .solid = "{'kind': 'box', 'size': [9, 2, 2]}",
                     .hook = "[4, 0, 2]",
                     .rigging = rigging,
                     .moves = WAIT ", " WAIT };
      TestRun run = test_gear_run (&t);
      const TrnFinding *f
          = test_finding_of (&run, TRN_CHECK_LOAD_SHARE, 0, 1, "load", NULL, "tail-alone");
      if (isnan (cases[i].below_m))
        TEST_UNKNOWN (f, "lean/beam");
      else
        test_assert_between (f->value, atan (0.1 / cases[i].below_m) * 180 / G_PI, 1e-9, 1e-4);
      test_run_clear (&run);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/lean-pivot/energy", test_energy);
  g_test_add_func ("/checks/lean-pivot/turns-over", test_turns_over);
  g_test_add_func ("/checks/lean-pivot/narrow", test_narrow);
  g_test_add_func ("/checks/lean-pivot/splayed", test_splayed);
  g_test_add_func ("/checks/lean-pivot/beside", test_beside);
  g_test_add_func ("/checks/lean-pivot/tail-alone", test_tail_alone);
  return g_test_run ();
}
