/* The line that a load on two hooks leans about where it is steep, not known in height, or beside:
 * against closed forms in plain vectors, and against the lean and the shares that a search for the
 * lowest attitude, run beside the project, found for the same rigs. */
#include <math.h>

#include "test-force.h"

#define DEG(rad) ((rad)*180 / G_PI)
#define NEAR 1e-9
#define HEIGHT(m) "'loads': {'out_of_level': {'height': " m ", 'source': 'method'}},"
#define HOIST "{'do': 'hoist', 'by': 1, 'seconds': 60}"
#define LEG(id, to) "{'id': '" id "', 'to': " to ", 'diameter': 0.02}"
#define LEG_OF(id, end, to)                                                                        \
  "{'id': '" id "', 'from': 'beam-" end "', 'to': " to ", 'diameter': 0.02}"
#define SQUARE_LEGS "'slings': [" LEG ("a", "[2, 1, 0.4]") ", " LEG ("b", "[2, -1, 0.4]") "]"
#define TAIL(point)                                                                                \
  "'tail': {'hook_above': 5, 'point': " point ", 'slings': [" LEG ("t", point) "]}"

static const TrnFinding *
share (const TestRun *run, const char *item)
{
  return test_force (run, TRN_CHECK_LOAD_SHARE, "load", item);
}

static TestGear
plate (const char *solid, const char *hook, const char *rigging, const char *unit)
{
  return (TestGear){ .gear = "",
                     .structures = FORCE_SLAB,
                     .more = HEIGHT ("0.0001"),
                     .solid = solid,
                     .at = "[0, 0, 10]",
                     .unit = unit,
                     .hook = hook,
                     .rigging = rigging,
                     .lift = "'tolerance': {'position': 0.05, 'tilt_deg': 5},",
                     .moves = HOIST };
}

/* Points 4 m apart on one level; two square legs hold the main one from a hook 4 m above it, one
 * leg the tail. The centre of gravity is c above the middle and 2 mm beside: as drawn the line is 2
 * m above the middle, and c = 1.9 m is 0.1 m below it. With the tail hook h = 0.15 m lower the load
 * is turned by δ = asin (h/4), its middle line at the centre of gravity is 4 (1 − s) m above that
 * of the points, s = ½ + c tan δ/4 the share of the tail, and the centre of gravity c/cos δ: 27 mm
 * plumb, and less seen along a line that falls by 4 + h over 4 cos δ. The search has the load turn
 * over then. With c = 1.93 m it is above. */
static void
test_out_of_level (void)
{
  const double h = 0.15, c = 1.9, turned = asin (h / 4), tail = 0.5 + c * tan (turned) / 4,
               plumb = 4 * (1 - tail) - c / cos (turned), level = 4 * cos (turned),
               below = plumb * level / hypot (level, 4 + h);
  TestGear t = plate ("{'kind': 'box', 'size': [9, 3, 0.4]}", "[2, 0, 0.4]",
                      "{'main': {'hook_above': 4, " SQUARE_LEGS "}, " TAIL ("[-2, 0, 0.4]") "}",
                      "'cog': [0, 0.002, 2.3],");
  TestRun run = test_gear_run (&t);
  TEST_PASSES (share (&run, "out-of-plane"), TRN_STATE_WITHIN);
  test_run_clear (&run);
  t.more = HEIGHT ("0.15");
  run = test_gear_run (&t);
  TEST_FAILS (share (&run, "out-of-plane"), TRN_STATE_OUTSIDE);
  test_assert_between (share (&run, "out-of-plane")->value, DEG (atan (0.002 / below)), NEAR, 0.5);
  test_run_clear (&run);
  t.unit = "'cog': [0, 0.002, 2.33],";
  run = test_gear_run (&t);
  TEST_FAILS (share (&run, "out-of-plane"), TRN_STATE_TURNS_OVER);
  test_run_clear (&run);
}

/* Points 3 m apart in height and level, each on one leg 19.9 mm toward +x of its hook, and the
 * centre of gravity v below their line. Moved by c along the level toward it a line at 45° is c sin
 * 45° nearer: from 12 mm it comes below the centre of gravity, and the search has the load turn
 * over; from 60 mm, with the centre of gravity 5 mm beside, it leans by 6.213° by both. */
static void
test_along_on_a_slope (void)
{
  const double off = 0.0199 * sqrt (0.5), lean = DEG (atan (0.005 / (0.06 - off)));
  const char *rigging = "{'main': {'hook_above': 5, 'slings': [" LEG (
      "a", "[1.4801, 0, 0.4]") "]}, 'tail': {'hook_above': 5, 'point': [-1.5, 0, 3.4], "
                               "'slings': [" LEG ("t", "[-1.5199, 0, 3.4]") "]}}";
  g_autofree char *near
      = g_strdup_printf ("'cog': [0, 1e-5, %.17g],", 0.4 + 1.5 - 0.012 * sqrt (2));
  g_autofree char *far = g_strdup_printf ("'cog': [0, 0.005, %.17g],", 0.4 + 1.5 - 0.06 * sqrt (2));
  g_assert_cmpfloat (fabs (lean - 6.213), <, 1e-3);
  TestGear t = plate ("{'kind': 'box', 'size': [5, 2, 0.4]}", "[1.5, 0, 0.4]", rigging, near);
  t.lift = "'tolerance': {'position': 0.05, 'tilt_deg': 8},";
  TestRun run = test_gear_run (&t);
  TEST_FAILS (share (&run, "out-of-plane"), TRN_STATE_TURNS_OVER);
  test_run_clear (&run);
  t.unit = far;
  run = test_gear_run (&t);
  TEST_PASSES (share (&run, "out-of-plane"), TRN_STATE_WITHIN);
  test_assert_between (share (&run, "out-of-plane")->value, lean, NEAR, 0.1);
  test_run_clear (&run);
}

/* From the line from @a to @b. */
static double
from_line (TrnVec3 p, TrnVec3 a, TrnVec3 b)
{
  const TrnVec3 line = trn_vec3_sub (b, a);
  return trn_vec3_length (trn_vec3_cross (trn_vec3_sub (p, a), line)) / trn_vec3_length (line);
}

/* A plate 40 m long on points 4 m apart, the line between what it hangs from 5 m higher at the main
 * hook, of two square legs, or 2 m, of one leg to a lug above its point: what the load leans by
 * turns it in heading as well. The search has its end go 0.399 m for a lean of 1.310° below the
 * legs. The limit is what takes no corner farther from there than the tolerance of tilt takes the
 * farthest from the hook point. */
static void
test_heading (void)
{
  static const struct
  {
    const char *main;
    double up_m, lean_deg;
  } cases[]
      = { { SQUARE_LEGS, 5, 1.31 }, { "'slings': [" LEG ("a", "[2, 0, 2.4]") "]", 2, 1.6011 } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *rigging = g_strdup_printf (
          "{'main': {'hook_above': 5, %s}, " TAIL ("[-2, 0, 0.4]") "}", cases[i].main);
      TestGear t = plate ("{'kind': 'box', 'size': [40, 2, 0.4]}", "[2, 0, 0.4]", rigging,
                          "'cog': [0, 0.05, -0.6],");
      const TrnVec3 main = { 2, 0, 0.4 }, tail = { -2, 0, 0.4 },
                    held = { 2, 0, 0.4 + cases[i].up_m };
      double reach_m = 0, off_m = 0;
      for (guint k = 0; k < 8; k++)
        {
          const TrnVec3 p = { k & 1 ? 20 : -20, k & 2 ? 1 : -1, k & 4 ? 0.4 : 0 };
          reach_m = fmax (reach_m, trn_vec3_distance (p, main));
          off_m = fmax (off_m, from_line (p, held, tail));
        }
      const double tilt_rad = 0.37 * G_PI / 180,
                   covered = 2 * asin (reach_m * sin (tilt_rad / 2) / off_m);
      t.lift = "'tolerance': {'position': 0.05, 'tilt_deg': 0.37},";
      TestRun run = test_gear_run (&t);
      const TrnFinding *lean = share (&run, "out-of-plane");
      TEST_FAILS (lean, TRN_STATE_OUTSIDE);
      test_assert_between (lean->value, cases[i].lean_deg, 1e-3, 1e-3);
      test_assert_between (lean->limit, DEG (covered), 0.5 * DEG (covered), NEAR);
      test_run_clear (&run);
      t.lift = "'tolerance': {'position': 0.05, 'tilt_deg': 3.5},";
      run = test_gear_run (&t);
      TEST_PASSES (share (&run, "out-of-plane"), TRN_STATE_WITHIN);
      test_run_clear (&run);
    }
}

/* Two square legs that go 0.39 m aside below a hook 5 m up count as holding the load from its
 * points, and may as well hold it from the hook: then the line falls by 5 m over 5 m. The centre of
 * gravity is 6 m below the points and 0.1 m beside. The search has it lean by 1.080°. */
static void
test_narrow_legs (void)
{
  TestGear t
      = plate ("{'kind': 'box', 'size': [26, 2, 0.4]}", "[2.5, 0, 0.4]",
               "{'main': {'hook_above': 5, 'slings': [" LEG ("a", "[2.5, 0.39, 0.4]") ", " LEG (
                   "b", "[2.5, -0.39, 0.4]") "]}, " TAIL ("[-2.5, 0, 0.4]") "}",
               "'cog': [-1, 0.1, -5.6],");
  TestRun run = test_gear_run (&t);
  TEST_PASSES (share (&run, "out-of-plane"), TRN_STATE_WITHIN);
  test_assert_between (share (&run, "out-of-plane")->value, DEG (atan (0.1 / (6 * sqrt (0.5)))),
                       1e-4, 2e-3);
  g_assert_cmpfloat (share (&run, "out-of-plane")->value, >, 1.08);
  test_run_clear (&run);
}

#define BAR(length, below, a, b)                                                                   \
  "'beam': {'id': 'bar', 'length': " length ", 'width': 0.2, 'depth': 0.2, 'below_hook': " below   \
  ", 'between': [" a ", " b "]},"

/* A beam square to the line of both hooks, at one end two legs along that line, at the other one
 * that is 24.5 mm along it: half of that the load is beside. The search has the tail carry 0.6521
 * of the load, and 0.65 as drawn. Where both pairs of an askew beam are beside it, it hangs from
 * its ends one way and from its hook the other, which is not known. */
static void
test_beside_a_beam (void)
{
  const char *one = LEG_OF ("a", "a", "[-0.5, -2.5, 0.4]") ", " LEG_OF (
      "b", "a", "[2.5, -2.5, 0.4]") ", " LEG_OF ("c", "b", "[1.0245, 2.5, 0.4]");
  g_autofree char *square
      = g_strdup_printf ("{'main': {'hook_above': 8, " BAR (
                             "5", "2", "[1, -2.5, 0.4]",
                             "[1, 2.5, 0.4]") "'slings': [%s]}, " TAIL ("[-1, 0, 0.4]") "}",
                         one);
  TestGear t = plate ("{'kind': 'box', 'size': [8, 8, 0.4]}", "[1, 0, 0.4]", square,
                      "'cog': [-0.3, 0, -0.6],");
  TestRun run = test_gear_run (&t);
  TEST_PASSES (share (&run, "out-of-plane"), TRN_STATE_WITHIN);
  g_assert_cmpfloat (share (&run, "tail")->utilisation, >, 0.6521);
  test_assert_between (share (&run, "tail")->utilisation, 0.65 + 0.01225 / 2, 1e-6, 1e-4);
  test_run_clear (&run);
  t.lift = "'tolerance': {'position': 0.01, 'tilt_deg': 5},";
  run = test_gear_run (&t);
  TEST_UNKNOWN (share (&run, "out-of-plane"), "lean/beside");
  test_run_clear (&run);

  const double u = sqrt (0.5), beside_m = 0.0145;
  GString *legs = g_string_new (NULL);
  for (guint i = 0; i < 4; i++)
    {
      const double along = (i & 1 ? 2.5 : -2.5) + beside_m, side = i & 2 ? 1.5 : -1.5;
      g_string_append_printf (
          legs, "%s{'id': 'l%u', 'from': 'beam-%s', 'to': [%.17g, %.17g, 0.4], 'diameter': 0.02}",
          i > 0 ? ", " : "", i, i & 1 ? "b" : "a", 3 + (along - side) * u, (along + side) * u);
    }
  g_autofree char *askew = g_strdup_printf (
      "{'main': {'hook_above': 8, 'beam': {'id': 'bar', 'length': 5, 'width': 0.2, 'depth': 0.2, "
      "'below_hook': 2, 'between': [[%.17g, %.17g, 0.4], [%.17g, %.17g, 0.4]]}, 'slings': "
      "[%s]}, " TAIL ("[-3, 0, 0.4]") "}",
      3 - 2.5 * u, -2.5 * u, 3 + 2.5 * u, 2.5 * u, legs->str);
  g_string_free (legs, TRUE);
  t = plate ("{'kind': 'box', 'size': [10, 6, 0.4]}", "[3, 0, 0.4]", askew, "'cog': [0, 0, -0.6],");
  run = test_gear_run (&t);
  TEST_UNKNOWN (share (&run, "out-of-plane"), "lean/beam");
  test_run_clear (&run);
}

/* Points 4 m apart on one level, lugs 1 m below both, the centre of gravity 1.5 m above the lugs.
 * Turned by δ, t its tangent, the lines stay plumb above the lugs, so that the tail carries (a +
 * 1.5 t)/4 with the centre of gravity a from the main lug; the search has 0.6438 with a = 2.5 m.
 * The main hook 60 mm from it leaves the tail 0.015 − 1.5 t/4 with it higher: slack. */
static void
test_lugs_below (void)
{
  const double t_turned = tan (asin (0.05));
  const char *rigging = "{'main': {'hook_above': 5, 'slings': [" LEG ("a", "[2, 1, 0.4]") ", " LEG (
      "b", "[2, -1, 0.4]") "]}, 'tail': {'hook_above': 5, 'point': [-2, 0, 1.4], 'slings': "
                           "[" LEG ("c", "[-2, 1, 0.4]") ", " LEG ("d", "[-2, -1, 0.4]") "]}}";
  TestGear t = plate ("{'kind': 'box', 'size': [6, 3, 0.4]}", "[2, 0, 1.4]", rigging,
                      "'cog': [-0.5, 0, 1.9],");
  t.more = HEIGHT ("0.2");
  TestRun run = test_gear_run (&t);
  const double tail = (2.5 + 1.5 * t_turned) / 4, main = (1.5 + 1.5 * t_turned) / 4;
  g_assert_cmpfloat (fabs (tail - 0.6438), <, 1e-4);
  test_assert_between (share (&run, "tail-out-of-level")->utilisation, tail, NEAR, 1e-3);
  test_assert_between (share (&run, "main-out-of-level")->utilisation, main, NEAR, 1e-3);
  test_run_clear (&run);
  t.unit = "'cog': [1.94, 0, 1.9],";
  run = test_gear_run (&t);
  TEST_PASSES (share (&run, "tail"), TRN_STATE_KNOWN);
  TEST_FAILS (share (&run, "tail-out-of-level"), TRN_STATE_SLACK);
  test_assert_between (test_number (share (&run, "tail-out-of-level"), "least"),
                       1000 * (0.06 - 1.5 * t_turned) / 4, 1, NEAR);
  test_run_clear (&run);
}

/* What hangs below a beam turns with the load: two legs at each end along the line of both hooks,
 * below a beam square to it, and legs that go in from the ends of one along it. */
static void
test_turn (void)
{
  static const char *const mains[] = {
    BAR ("3.4", "4", "[6, -1.7, 2]", "[6, 1.7, 2]") "'slings': [" LEG_OF ("a", "a", "[5.2, -1.7, 2]") ", " LEG_OF (
        "b", "a", "[6.8, -1.7, 2]") ", " LEG_OF ("c", "b",
                                                 "[5.2, 1.7, 2]") ", " LEG_OF ("d", "b",
                                                                               "[6.8, 1.7, 2]") "]",
    BAR ("3.4", "4", "[4.3, 0, 2]", "[7.7, 0, 2]") "'slings': [" LEG_OF (
        "a", "a",
        "[4.6, 0, 2]") ", " LEG_OF ("b", "a",
                                    "[4.8, 0, 2]") ", " LEG_OF ("c", "b",
                                                                "[7.4, 0, 2]") ", " LEG_OF ("d",
                                                                                            "b",
                                                                                            "[7.2, "
                                                                                            "0, 2]") "]",
  };
  for (guint i = 0; i < G_N_ELEMENTS (mains); i++)
    {
      g_autofree char *rigging
          = g_strdup_printf ("{'main': {'hook_above': 9, %s}, " TAIL ("[-6, 0, 2]") "}", mains[i]);
      TestGear t = plate ("{'kind': 'box', 'size': [16, 4, 4]}", "[6, 0, 2]", rigging,
                          "'cog': [0, 0.01, 1.2],");
      TestRun run = test_gear_run (&t);
      TEST_PASSES (share (&run, "out-of-plane"), TRN_STATE_WITHIN);
      const double lean_deg = share (&run, "out-of-plane")->value;
      test_run_clear (&run);
      t.moves = "{'do': 'turn', 'by': 90, 'about': [6, 0, 2], 'seconds': 60}";
      run = test_gear_run (&t);
      TEST_PASSES (share (&run, "out-of-plane"), TRN_STATE_WITHIN);
      test_assert_between (share (&run, "out-of-plane")->value, lean_deg, 1e-4, 1e-4);
      test_run_clear (&run);
    }
}

/* Up-ended to plumb over a trolley, which keeps the load from leaning: coordinates off by rounding
 * put two legs no way beside their hook. */
static void
test_rounded (void)
{
  TestGear t = plate (
      "{'kind': 'box', 'size': [16, 4, 4]}", "[6, 0, 2]",
      "{'main': {'hook_above': 6, 'slings': [" LEG ("a", "[6, 1.7, 2]") ", " LEG (
          "b", "[6.000000000000001, -1.7000000000000004, 2]") "]}, 'tail': {'gear': 'cart', "
                                                              "'point': [-6, 0, 2]}}",
      "'cog': [0, 0, 2],");
  t.gear = "{'id': 'cart', 'kind': 'tail-trolley', 'at': {'position': [-6, 0, 12]}, 'size': [1, 1, "
           "1], 'track': [-40, 40]}";
  t.moves = "{'do': 'tilt', 'by': -90, 'axis': 90, 'guide': 'head-plumb', 'head': [6, 0, 2], "
            "'tail': [-6, 0, 2], 'seconds': 600}";
  TestRun run = test_gear_run (&t);
  const TrnFinding *f
      = test_finding_of (&run, TRN_CHECK_LOAD_SHARE, 0, 0, "cart", NULL, "out-of-plane");
  TEST_PASSES (f, TRN_STATE_KNOWN);
  test_run_clear (&run);
}

/* Two legs half a degree off square to the line of both hooks, 4 m apart: as the load leans by λ
 * their hook stays plumb above the line of their points, which rises by sin λ cos α along itself,
 * and goes 4 m times that aside, sin α of which along the line of both hooks: the share of the
 * other goes by as much of 4 m. It is taken for a lean of up to 0.2. */
static void
test_off_square (void)
{
  const double off = G_PI / 360;
  g_autofree char *rigging = g_strdup_printf (
      "{'main': {'hook_above': 4, 'slings': [{'id': 'a', 'to': [%.17g, %.17g, 0.4], 'diameter': "
      "0.02}, {'id': 'b', 'to': [%.17g, %.17g, 0.4], 'diameter': 0.02}]}, " TAIL (
          "[-2, 0, 0.4]") "}",
      2 - sin (off), cos (off), 2 + sin (off), -cos (off));
  TestGear t = plate ("{'kind': 'box', 'size': [9, 3, 0.4]}", "[2, 0, 0.4]", rigging,
                      "'cog': [0, 0.05, -1.6],");
  TestRun run = test_gear_run (&t);
  const TrnFinding *lean = share (&run, "out-of-plane");
  TEST_PASSES (lean, TRN_STATE_WITHIN);
  const double moves = sin (lean->value * G_PI / 180) * cos (off) * sin (off);
  g_assert_cmpfloat (moves, >, 1e-4);
  g_assert_cmpfloat (share (&run, "tail")->utilisation, >=, 0.5 + moves);
  g_assert_cmpfloat (share (&run, "main")->utilisation, >=, 0.5 + moves);
  g_assert_cmpfloat (share (&run, "tail")->utilisation, <, 0.5 + 0.25 * off);
  test_run_clear (&run);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/lean-line/out-of-level", test_out_of_level);
  g_test_add_func ("/checks/lean-line/along-on-a-slope", test_along_on_a_slope);
  g_test_add_func ("/checks/lean-line/heading", test_heading);
  g_test_add_func ("/checks/lean-line/narrow-legs", test_narrow_legs);
  g_test_add_func ("/checks/lean-line/beside-a-beam", test_beside_a_beam);
  g_test_add_func ("/checks/lean-line/lugs-below", test_lugs_below);
  g_test_add_func ("/checks/lean-line/turn", test_turn);
  g_test_add_func ("/checks/lean-line/rounded", test_rounded);
  g_test_add_func ("/checks/lean-line/off-square", test_off_square);
  return g_test_run ();
}
