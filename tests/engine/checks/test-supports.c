/* Wind and resting stability by closed forms. */
#include "resting-check.h"
#include "sources.h"
#include "test-force.h"
#include "wind.h"

/* ---- wind ---- */

#define WIND "'wind': {'speed': 10, 'drag': 1.2, 'air_density': 1.25, 'source': 'forecast'},"

/* A cube of 2 m shows at most its diagonal, 2 · 2√2 m², at ½ · 1.25 · 10² = 62.5 Pa. The crane's
 * limit of 15 m/s holds up to 1.2e-3 m² of sail area times c_w for each kilogram, 1.2 m² for 1000
 * kg: with 1.2 times 5.66 m² it is 15 √(1.2/6.79) = 6.31 m/s. */
static void
test_wind (void)
{
  TestGear t = { .gear = GEAR_CRANE (", 'wind_limit': 15"),
                 .structures = FORCE_SLAB,
                 .more = WIND,
                 .unit = "'cog': [0, 0, 1],",
                 .rigging = FORCE_RIGGING ("crane"),
                 .moves = "{'do': 'turn', 'by': 30, 'seconds': 60}" };
  TestRun run = test_gear_run (&t);
  double area = 4 * sqrt (2);
  const TrnFinding *force = test_finding_of (&run, TRN_CHECK_WIND, 0, -1, "load", NULL, "force");
  test_assert_judged (force, TRN_VERDICT_NOTE, TRN_STATE_KNOWN, NULL);
  /* Turned by the wind it may show more, and in no attitude more than √3 times a face. */
  test_assert_between (force->value, 62.5 * 1.2 * area, 0, 62.5 * 1.2 * (4 * sqrt (3) - area));
  test_assert_between (test_number (force, "pressure"), 62.5, 1e-9, 1e-9);
  const TrnFinding *speed = test_finding_of (&run, TRN_CHECK_WIND, 0, -1, "crane", NULL, "speed");
  TEST_FAILS (speed, TRN_STATE_OUTSIDE);
  test_assert_between (speed->limit, 15 * sqrt (1 / area), 0.1 * 6.31, 1e-9);
  g_assert_cmpstr (speed->source, ==, TRN_SOURCE_SAIL_AREA);
  g_assert_cmpstr (force->source, ==, "forecast");
  const TrnFinding *sway = test_finding_of (&run, TRN_CHECK_WIND, 0, -1, "load", NULL, "sway");
  test_assert_judged (sway, TRN_VERDICT_NOTE, TRN_STATE_KNOWN, NULL);
  /* The rope alone: tip 2 + √300 m up, hook 3 m. */
  double rope_m = 2 + sqrt (300) - 3;
  g_assert_cmpfloat (sway->value, >, rope_m * 62.5 * 1.2 * area / (1000 * G));
  test_run_clear (&run);

  t.more = "'wind': {'speed': 5, 'drag': 1.2, 'air_density': 1.25},";
  run = test_gear_run (&t);
  TEST_PASSES (test_finding_of (&run, TRN_CHECK_WIND, 0, -1, "crane", NULL, "speed"),
               TRN_STATE_WITHIN);
  test_run_clear (&run);

  t.gear = GEAR_CRANE ("");
  t.unit = NULL;
  run = test_gear_run (&t);
  TEST_UNKNOWN (test_finding_of (&run, TRN_CHECK_WIND, 0, -1, "crane", NULL, "speed"),
                "wind_limit");
  TEST_UNKNOWN (test_finding_of (&run, TRN_CHECK_WIND, 0, -1, "load", NULL, "sway"), "cog");
  test_run_clear (&run);
}

/* A tilted load may show more in between: no less than at its end, no more than its box. */
static void
test_wind_in_tilt (void)
{
  TestGear t = { .gear = GEAR_CRANE (""),
                 .structures = FORCE_SLAB,
                 .more = WIND,
                 .solid = "{'kind': 'box', 'size': [8, 0.4, 1]}",
                 .hook = "[4, 0, 1]",
                 .unit = "'cog': [0, 0, 0.5],",
                 .rigging = FORCE_RIGGING ("crane"),
                 .moves = "{'do': 'tilt', 'by': -90, 'axis': 90, 'seconds': 60}" };
  TestRun run = test_gear_run (&t);
  const TrnFinding *force = test_finding_of (&run, TRN_CHECK_WIND, 0, -1, "load", NULL, "force");
  double area = test_number (force, "sail-area");
  g_assert_cmpfloat (area, >=, hypot (8 * 1, 0.4 * 1));
  g_assert_cmpfloat (area, <=, sqrt (64 + 10.24 + 0.16) * (1 + 1e-9));
  test_run_clear (&run);
}

/* The cube of 2 m tilts by 5° about a level edge. To a wind at the heading h from that it shows 4
 * (|cos h| + |sin h| (cos 5° + sin 5°)) m² at the end, and less before. From any side its hull
 * would show 4 √3 m². */
static void
test_wind_in_small_tilt (void)
{
  TestGear t = { .gear = GEAR_CRANE (""),
                 .structures = FORCE_SLAB,
                 .more = WIND,
                 .unit = "'cog': [0, 0, 1],",
                 .rigging = FORCE_RIGGING ("crane"),
                 .moves = "{'do': 'tilt', 'by': 5, 'axis': 0, 'seconds': 60}" };
  TestRun run = test_gear_run (&t);
  const TrnFinding *force = test_finding_of (&run, TRN_CHECK_WIND, 0, -1, "load", NULL, "force");
  const double slant = 5 * G_PI / 180;
  double least = 0;
  for (int deg = 0; deg < 180; deg++)
    {
      const double h = deg * G_PI / 180;
      least = fmax (
          least,
          4 * (fabs (cos (h)) + fabs (sin (h)) * cos (slant) + fabs (sin (h)) * sin (slant)));
    }
  test_assert_between (test_number (force, "sail-area"), least, 1e-3, 0.01 * least);
  g_assert_cmpint (force->move, ==, 0);
  g_assert_cmpfloat (force->progress, >, 0.8);
  test_assert_between (force->time_s, 60 * force->progress, 1e-9, 1e-9);
  test_run_clear (&run);
}

/* So little that it turns and leans nothing. */
#define BREEZE "'wind': {'speed': 0.1, 'drag': 1},"
#define TOWER(id)                                                                                  \
  "{'id': '" id "', 'kind': 'gantry', 'at': {'position': [0, 0, 0]}, 'legs': [{'at': [18, 18], "   \
  "'size': [0.5, 0.5], 'height': 30}], 'trolley': {'size': [1, 1, 1], 'underside': 25}}"

static double
sail_of (const TestGear *t)
{
  TestRun run = test_gear_run (t);
  const double area = test_number (
      test_finding_of (&run, TRN_CHECK_WIND, 0, -1, "load", NULL, "force"), "sail-area");
  test_run_clear (&run);
  return area;
}

/* A plate of 8 by 8 m, 0.2 m thick, level on two hooks. With its centre of gravity 0.1 m beside the
 * line between them and 1 m below it leans by λ = atan 0.1, and shows 64 sin λ + 1.6 cos λ m² and
 * not its edge; so with hooks 0.7 m out of level that are 7 m apart, by asin 0.1. */
static void
test_wind_leaning (void)
{
  TestGear t = { .gear = TOWER ("west") ", " TOWER ("east"),
                 .structures = FORCE_SLAB,
                 .more = BREEZE,
                 .solid = "{'kind': 'box', 'size': [8, 8, 0.2]}",
                 .at = "[0, 0, 5]",
                 .hook = "[-3.5, 0, 1.1]",
                 .rigging = "{'main': {'gear': 'west', 'hook_above': 1}, 'tail': {'gear': 'east', "
                            "'point': [3.5, 0, 1.1], 'hook_above': 1}}",
                 .moves = "{'do': 'wait', 'seconds': 60}" };
  const double tangent = 0.1, lean = atan (tangent), turn = asin (0.1);
  t.unit = "'cog': [0, 0, 0.1],";
  g_assert_cmpfloat (sail_of (&t), <=, 3);
  t.unit = "'cog': [0, 0.1, 0.1],";
  g_assert_cmpfloat (sail_of (&t), >=, 64 * sin (lean) + 1.6 * cos (lean));
  g_assert_cmpfloat (sail_of (&t), <=, 12);
  t.unit = "'cog': [0, 0, 0.1],";
  t.more = BREEZE "'loads': {'out_of_level': {'height': 0.7, 'source': 'method'}},";
  g_assert_cmpfloat (sail_of (&t), >=, 64 * sin (turn) + 1.6 * cos (turn));
  g_assert_cmpfloat (sail_of (&t), <=, 12);
}

/* A plate that is drawn level shows most in a tilt of 30°: 64 sin 30° + 1.6 cos 30° m². Moves
 * before and after it that show less, or the like of it, change nothing, in whatever order they
 * come. */
static void
test_wind_of_moves (void)
{
  static const char *const moves[]
      = { "{'do': 'tilt', 'by': 30, 'axis': 0, 'seconds': 60}",
          "{'do': 'wait', 'seconds': 60}, {'do': 'tilt', 'by': 30, 'axis': 0, 'seconds': 60}",
          "{'do': 'tilt', 'by': 30, 'axis': 0, 'seconds': 60}, {'do': 'tilt', 'by': -30, 'axis': 0,"
          " 'seconds': 60}, {'do': 'turn', 'by': 20, 'seconds': 60}",
          "{'do': 'tilt', 'by': 30, 'axis': 0, 'seconds': 60}, {'do': 'tilt', 'by': -30, 'axis': 0,"
          " 'seconds': 60}, {'do': 'tilt', 'by': 5, 'axis': 90, 'seconds': 60}" };
  const double slant = 30 * G_PI / 180, area = hypot (64 * sin (slant) + 1.6 * cos (slant), 1.6);
  for (guint i = 0; i < G_N_ELEMENTS (moves); i++)
    {
      const TestGear t = { .gear = GEAR_CRANE (""),
                           .structures = FORCE_SLAB,
                           .more = BREEZE,
                           .solid = "{'kind': 'box', 'size': [8, 8, 0.2]}",
                           .hook = "[0, 0, 0.2]",
                           .unit = "'cog': [0, 0, 0.1],",
                           .rigging = FORCE_RIGGING ("crane"),
                           .moves = moves[i] };
      g_test_message ("%.6f, at least %.6f", sail_of (&t), area);
      test_assert_between (sail_of (&t), area, 1e-9, 0.02 * area);
    }
}

/* ---- resting ---- */

#define BLOCK(id, x)                                                                               \
  "{'id': '" id "', 'name': '" id "', 'solid': {'kind': 'box', 'size': [0.4, 3, 1]}, 'at':"        \
  " {'position': [" x ", 0, 0]}}"
#define SEAT(id) "{'on': '" id "', 'at': 'end'}"

/* The cube of 2 m is lowered onto two sleepers across it, from x = 9.2 to 9.6 and from 10.4
 * to 10.8: what it bears on goes from 9.2 to 10.8 and, as the cube, from −1 to 1. With its CoG 0.5
 * m east of its middle 0.3 m is left, with a box of 0.2 m 0.1 m, and of 0.4 m it would tip. */
static TestGear
set_down (const char *unit, const char *seats)
{
  static char lift[300];
  g_snprintf (lift, sizeof lift, "'start': {'position': [10, 0, 2]}, 'seats': [%s],", seats);
  return (TestGear){ .gear = GEAR_CRANE (""),
                     .structures = BLOCK ("west", "9.4") ", " BLOCK ("east", "10.6"),
                     .unit = unit,
                     .lift = lift,
                     .rigging = FORCE_RIGGING ("crane"),
                     .moves = "{'do': 'hoist', 'by': -1, 'seconds': 60}" };
}

/* Of what it rests on, wherever its tolerances take it. */
static double
inside_m (const TrnFinding *f)
{
  return f->margin + f->limit;
}

static void
test_resting (void)
{
  TestGear t
      = set_down ("'cog': [0.5, 0, 1], 'cog_box': [0.2, 0, 0],", SEAT ("west") ", " SEAT ("east"));
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_RESTING, 0, -1, "load", NULL, NULL);
  TEST_PASSES (f, TRN_STATE_WITHIN);
  test_assert_between (inside_m (f), 0.1, 1e-9, 1e-9);
  test_run_clear (&run);

  /* Set down up to 0.12 m off its place the same load may tip. */
  t.lift = "'start': {'position': [10, 0, 2]}, 'tolerance': {'position': 0.12}, 'seats': [" SEAT (
      "west") ", " SEAT ("east") "],";
  run = test_gear_run (&t);
  f = test_finding_of (&run, TRN_CHECK_RESTING, 0, -1, "load", NULL, NULL);
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  test_assert_between (f->value, 0.1, 1e-9, 1e-9);
  test_assert_between (inside_m (f), -0.02, 1e-9, 1e-9);
  test_run_clear (&run);

  /* Over the very edge, 0.75 m east with both numbers exact, it does not stand. */
  t = set_down ("'cog': [0.75, 0, 1],", SEAT ("edge"));
  t.structures = "{'id': 'edge', 'name': 'edge', 'solid': {'kind': 'box', 'size': [1.5, 3, 1]},"
                 " 'at': {'position': [10, 0, 0]}}";
  run = test_gear_run (&t);
  f = test_finding_of (&run, TRN_CHECK_RESTING, 0, -1, "load", "edge", NULL);
  g_assert_cmpfloat (inside_m (f), ==, 0);
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  test_run_clear (&run);

  t = set_down ("'cog': [0.5, 0, 1], 'cog_box': [0.4, 0, 0],", SEAT ("west") ", " SEAT ("east"));
  run = test_gear_run (&t);
  f = test_finding_of (&run, TRN_CHECK_RESTING, 0, -1, "load", NULL, NULL);
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  test_assert_between (inside_m (f), -0.1, 1e-9, 1e-9);
  test_run_clear (&run);
}

/* A drum of 2 m lies along y, 4 m long: on the ground it bears on one line and rolls, however its
 * triangles lie; on two pairs of slopes of 45°, which it touches 0.707 m to both sides, it stands.
 */
#define SLOPE(id, x, y, turn)                                                                      \
  "{'id': '" id "', 'name': '" id "', 'solid': {'kind': 'box', 'size': [0.6, 0.3, 0.6]}, 'at':"    \
  " {'position': [" x ", " y ", 1], 'turn': [0, " turn ", 0]}}"

static void
test_round (void)
{
  TestGear t = { .gear = GEAR_CRANE (""),
                 .structures = "{'id': 'floor', 'name': 'floor', 'solid': {'kind': 'box', 'size':"
                               " [4, 6, 1]}, 'at': {'position': [10, 0, 0]}}",
                 .solid = "{'kind': 'cylinder', 'diameter': 2, 'height': 4}",
                 .unit = "'cog': [0, 0, 2],",
                 .hook = "[-1, 0, 2]",
                 .lift = "'start': {'position': [10, -2, 3], 'turn': [90, 90, 0]}, 'seats': "
                         "[{'on': 'floor', 'at': 'end'}],",
                 .rigging = FORCE_RIGGING ("crane"),
                 .moves = "{'do': 'hoist', 'by': -1, 'seconds': 60}" };
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_RESTING, 0, -1, "load", "floor", NULL);
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  test_run_clear (&run);

  /* The middle of an upper face is 0.6 m from that of the base along (±1, 1)/√2, at z 1.4243, and
   * 1 m from the drum's axis the same way, at x 10. */
  static const char west_n[] = SLOPE ("west-n", "8.868629", "1.5", "45");
  static const char west_s[] = SLOPE ("west-s", "8.868629", "-1.5", "45");
  static const char east_n[] = SLOPE ("east-n", "11.131371", "1.5", "-45");
  static const char east_s[] = SLOPE ("east-s", "11.131371", "-1.5", "-45");
  g_autofree char *slopes = g_strjoin (", ", west_n, west_s, east_n, east_s, NULL);
  t.structures = slopes;
  t.lift = "'start': {'position': [10, -2, 3.131371], 'turn': [90, 90, 0]}, 'seats': "
           "[{'on': 'west-n', 'at': 'end'}, {'on': 'east-n', 'at': 'end'}, {'on': 'west-s', 'at':"
           " 'end'}, {'on': 'east-s', 'at': 'end'}],";
  run = test_gear_run (&t);
  f = test_finding_of (&run, TRN_CHECK_RESTING, 0, -1, "load", NULL, NULL);
  TEST_PASSES (f, TRN_STATE_WITHIN);
  g_assert_cmpfloat (inside_m (f), <, 0.707);
  test_run_clear (&run);
}

/* The cube of 2 m tilted by 3° bears on one edge alone, whichever way the site lies, 2 sin 3° =
 * 0.105 m below the other; the block below it ends short of it, so that sides of the block, which
 * are upright but for rounding, are beneath what is tilted. */
static void
test_turned_site (void)
{
  for (int deg = 0; deg < 360; deg += 8)
    {
      g_autofree char *block
          = g_strdup_printf ("{'id': 'block', 'solid': {'kind': 'box', 'size': [1, 1.6, 1.6]}, "
                             "'at': {'position': [%.12g,"
                             " %.12g, 0.5], 'turn': [%d, 90, 0]}}",
                             10 - 0.8 * cos (deg * G_PI / 180), -0.8 * sin (deg * G_PI / 180), deg);
      /* The edge, at x −1 of the cube, comes down on the block 0.3 m inside of its end. */
      const double along = 0.5 * cos (3 * G_PI / 180);
      g_autofree char *lift = g_strdup_printf (
          "'start': {'position': [%.12g, %.12g, %.12g], 'turn': [%d, -3, 0]}, 'seats': [" SEAT (
              "block") "],",
          10 + along * cos (deg * G_PI / 180), along * sin (deg * G_PI / 180),
          2 + sin (3 * G_PI / 180), deg);
      const TestGear t = { .gear = GEAR_CRANE (""),
                           .structures = block,
                           .unit = "'cog': [0, 0, 1],",
                           .lift = lift,
                           .rigging = FORCE_RIGGING ("crane"),
                           .moves = "{'do': 'hoist', 'by': -1, 'seconds': 60}" };
      TestRun run = test_gear_run (&t);
      const TrnFinding *f = test_finding_of (&run, TRN_CHECK_RESTING, 0, -1, "load", "block", NULL);
      TEST_FAILS (f, TRN_STATE_OUTSIDE);
      test_run_clear (&run);
    }
}

/* On the western sleeper alone the same load is 0.9 m beyond its edge, its CoG over nothing. */
static void
test_one_sleeper (void)
{
  TestGear t = set_down ("'cog': [0.5, 0, 1],", SEAT ("west"));
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_RESTING, 0, -1, "load", "west", NULL);
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  test_assert_between (inside_m (f), -0.9, 1e-9, 1e-9);
  test_run_clear (&run);

  t = set_down ("'cog': [-0.6, 0, 1],", SEAT ("west"));
  run = test_gear_run (&t);
  f = test_finding_of (&run, TRN_CHECK_RESTING, 0, -1, "load", "west", NULL);
  TEST_PASSES (f, TRN_STATE_WITHIN);
  test_assert_between (inside_m (f), 0.2, 1e-9, 1e-9);
  test_run_clear (&run);
}

/* Where the load stands before the lift the same is asked: 0.1 m is left with a box of 0.2 m, from
 * which a tolerance of where it is set down takes nothing, and with one of 0.4 m it would tip. */
static void
test_start (void)
{
  static const char at[] = "'start': {'position': [10, 0, 1]}, 'tolerance': {'position': 0.12},"
                           " 'seats': [{'on': 'west', 'at': 'start'}, {'on': 'east', 'at':"
                           " 'start'}],";
  TestGear t = set_down ("'cog': [0.5, 0, 1], 'cog_box': [0.2, 0, 0],", "");
  t.lift = at;
  t.moves = "{'do': 'hoist', 'by': 1, 'seconds': 60}";
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_RESTING, 0, -1, "load", NULL, "start");
  TEST_PASSES (f, TRN_STATE_WITHIN);
  test_assert_between (inside_m (f), 0.1, 1e-9, 1e-9);
  test_run_clear (&run);
  t.unit = "'cog': [0.5, 0, 1], 'cog_box': [0.4, 0, 0],";
  run = test_gear_run (&t);
  TEST_FAILS (test_finding_of (&run, TRN_CHECK_RESTING, 0, -1, "load", NULL, "start"),
              TRN_STATE_OUTSIDE);
  test_run_clear (&run);
}

/* 0.05 m within and 1 m above what it rests on a load tips over at atan (0.05) = 2.86°, which is
 * less than 3°; 0.06 m within, at 3.43°. */
static void
test_tipping (void)
{
  TestGear t = set_down ("'cog': [0.75, 0, 1],", SEAT ("west") ", " SEAT ("east"));
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_RESTING, 0, -1, "load", NULL, NULL);
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  test_assert_between (f->value, 0.05, 1e-9, 1e-9);
  test_assert_between (f->margin, 0.05 - tan (3 * G_PI / 180), 1e-9, 1e-9);
  test_assert_between (test_number (f, "tips-at"), atan (0.05) * 180 / G_PI, 1e-6, 1e-6);
  test_run_clear (&run);
  t.unit = "'cog': [0.74, 0, 1],";
  run = test_gear_run (&t);
  TEST_PASSES (test_finding_of (&run, TRN_CHECK_RESTING, 0, -1, "load", NULL, NULL),
               TRN_STATE_WITHIN);
  test_run_clear (&run);
}

/* On a plate that is out of level by 20° the cube has its centre of gravity well over its foot, and
 * slides if it likes; by 4° it does not. The middle of the plate's top is 0.5 m from that of its
 * foot, square to it. */
static void
test_slope (void)
{
  for (int i = 0; i < 2; i++)
    {
      const double deg = i == 0 ? 20 : 4, rad = deg / 180 * G_PI;
      g_autofree char *plate = g_strdup_printf (
          "{'id': 'plate', 'name': 'plate', 'solid': {'kind': 'box', 'size': [6, 6, 0.5]}, 'at':"
          " {'position': [10, 0, 0], 'turn': [0, %g, 0]}}",
          deg);
      g_autofree char *lift = g_strdup_printf (
          "'start': {'position': [%.12f, 0, %.12f], 'turn': [0, %g, 0]}, 'seats': [{'on': 'plate',"
          " 'at': 'end'}],",
          10 + 0.5 * sin (rad), 1 + 0.5 * cos (rad), deg);
      TestGear t = set_down ("'cog': [0, 0, 1],", "");
      t.structures = plate;
      t.lift = lift;
      TestRun run = test_gear_run (&t);
      const TrnFinding *f = test_finding_of (&run, TRN_CHECK_RESTING, 0, -1, "load", "plate", NULL);
      if (i == 0)
        {
          TEST_UNKNOWN (f, "friction");
          test_assert_between (test_number (f, "slope"), 20, 1e-6, 1e-6);
        }
      else
        TEST_PASSES (f, TRN_STATE_WITHIN);
      test_run_clear (&run);
    }
}

/* The cube of 2 m set down out of level on a floor bears on an edge alone. By 0.04°, 0.1° and
 * 0.14° its other edge comes down by 1.4 mm, 3.5 mm and 4.9 mm, which the fit of 5 mm covers; by
 * 0.2° by 7 mm, which a tolerance of tilt covers or not; by 20° it falls over to the face, which is
 * 1 m inside of the edge, less what the centre of gravity, 1 m up, is shifted to that: cos 20° −
 * sin 20°. Never is it farther outside than that. With its centre of gravity beyond the face it
 * would tip over. */
static void
test_out_of_level (void)
{
  static const struct
  {
    double deg;
    const char *more, *cog;
    TrnVerdict verdict;
  } cases[] = {
    { 0.04, "", "'cog': [0, 0, 1],", TRN_VERDICT_PASS },
    { 0.1, "", "'cog': [0, 0, 1],", TRN_VERDICT_PASS },
    { -0.14, "", "'cog': [0, 0, 1],", TRN_VERDICT_PASS },
    { 0.2, "", "'cog': [0, 0, 1],", TRN_VERDICT_FAIL },
    { 0.2, "'tolerance': {'tilt_deg': 0.19},", "'cog': [0, 0, 1],", TRN_VERDICT_FAIL },
    { 0.2, "'tolerance': {'tilt_deg': 0.21},", "'cog': [0, 0, 1],", TRN_VERDICT_PASS },
    { 4.9, "", "'cog': [0, 0, 1],", TRN_VERDICT_FAIL },
    { 20, "", "'cog': [0, 0, 1],", TRN_VERDICT_FAIL },
    { 0.2, "", "'cog': [1.2, 0, 1],", TRN_VERDICT_FAIL },
    { 0.1, "", "'cog': [-1.2, 0, 1],", TRN_VERDICT_FAIL },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const double rad = cases[i].deg * G_PI / 180;
      g_autofree char *lift = g_strdup_printf (
          "'start': {'position': [10, 0, %.12f], 'turn': [0, %g, 0]}, %s 'seats': [" SEAT (
              "floor") "],",
          2 + sin (fabs (rad)), cases[i].deg, cases[i].more);
      TestGear t = set_down (cases[i].cog, "");
      t.structures = "{'id': 'floor', 'name': 'floor', 'solid': {'kind': 'box', 'size': [6, 6, 1]},"
                     " 'at': {'position': [10, 0, 0]}}";
      t.lift = lift;
      TestRun run = test_gear_run (&t);
      const TrnFinding *f = test_finding_of (&run, TRN_CHECK_RESTING, 0, -1, "load", "floor", NULL);
      g_assert_cmpint (f->verdict, ==, cases[i].verdict);
      if (cases[i].verdict == TRN_VERDICT_PASS)
        test_assert_between (inside_m (f), 1 - sin (fabs (rad)), 1e-4, sin (fabs (rad)) + 1e-4);
      if (i == 7)
        test_assert_between (f->value, sin (rad) - cos (rad), 1e-6, 1e-6);
      if (i > 7)
        {
          g_assert_cmpfloat (f->value, <, -0.19);
          g_assert_cmpfloat (f->value, >, -2.3);
          g_assert_true (isnan (trn_finding_number (f, TRN_RESTING_OFF)));
        }
      else if (i > 0) /* half of the fit tells no difference */
        test_assert_between (test_number (f, TRN_RESTING_OFF), fabs (cases[i].deg), 1e-6, 1e-6);
      test_run_clear (&run);
    }
}

/* Off by 0.5° the cube would come down flat within its tolerance of tilt, but for a foot, 10 mm
 * deep and 0.5 m beyond its middle, that holds it up before. */
static void
test_held_up (void)
{
  for (int i = 0; i < 2; i++)
    {
      TestGear t = set_down ("'cog': [0, 0, 1],", "");
      g_autofree char *solid = g_strdup_printf (
          "{'kind': 'group', 'parts': [{'id': 'cube', 'solid': {'kind': 'box', 'size': [2, 2, 2]},"
          " 'at': {'position': [0, 0, 0]}}, {'id': 'foot', 'solid': {'kind': 'box', 'size': [0.1, "
          "2,"
          " 0.5]}, 'at': {'position': [0.5, 0, %g]}}]}",
          i == 0 ? -0.01 : 0.01);
      g_autofree char *lift = g_strdup_printf (
          "'start': {'position': [10, 0, %.12f], 'turn': [0, -0.5, 0]}, 'tolerance': {'tilt_deg':"
          " 0.6}, 'seats': [" SEAT ("floor") "],",
          2 + sin (0.5 * G_PI / 180));
      t.structures = "{'id': 'floor', 'name': 'floor', 'solid': {'kind': 'box', 'size': [6, 6, 1]},"
                     " 'at': {'position': [10, 0, 0]}}";
      t.solid = solid;
      t.lift = lift;
      TestRun run = test_gear_run (&t);
      const TrnFinding *f = test_finding_of (&run, TRN_CHECK_RESTING, 0, -1, "load", "floor", NULL);
      if (i == 0)
        TEST_FAILS (f, TRN_STATE_OUTSIDE);
      else
        TEST_PASSES (f, TRN_STATE_WITHIN);
      test_run_clear (&run);
    }
}

/* A drum of 12 flats, as six boxes through one axis, 2 m across its flats, each 2 tan 15° wide:
 * it stands on one of them 0.268 m to both sides of its axis, where the round it may be drawn for
 * would roll. One box of the six stands. */
static void
test_few_flats (void)
{
  g_autoptr (GString) solid = g_string_new ("{'kind': 'group', 'parts': [");
  for (int i = 0; i < 6; i++)
    {
      const double rad = i * G_PI / 6;
      g_string_append_printf (
          solid,
          "%s{'id': 'p%d', 'solid': {'kind': 'box', 'size': [%.12f, 4, 2]}, 'at': {'position':"
          " [%.12f, 0, %.12f], 'turn': [0, %d, 0]}}",
          i > 0 ? ", " : "", i, 2 * tan (G_PI / 12), -sin (rad), 1 - cos (rad), 30 * i);
    }
  g_string_append (solid, "]}");
  TestGear t = set_down ("'cog': [0, 0, 1],", SEAT ("floor"));
  t.structures = "{'id': 'floor', 'name': 'floor', 'solid': {'kind': 'box', 'size': [4, 6, 1]},"
                 " 'at': {'position': [10, 0, 0]}}";
  t.solid = solid->str;
  TestRun run = test_gear_run (&t);
  TEST_UNKNOWN (test_finding_of (&run, TRN_CHECK_RESTING, 0, -1, "load", "floor", NULL), "round");
  test_run_clear (&run);
  t.solid = "{'kind': 'box', 'size': [0.5359, 4, 2]}";
  run = test_gear_run (&t);
  TEST_PASSES (test_finding_of (&run, TRN_CHECK_RESTING, 0, -1, "load", "floor", NULL),
               TRN_STATE_WITHIN);
  test_run_clear (&run);
}

/* Half a metre above its sleepers it rests on nothing. */
static void
test_above (void)
{
  TestGear t = set_down ("'cog': [0, 0, 1],", SEAT ("west") ", " SEAT ("east"));
  t.moves = "{'do': 'hoist', 'by': -0.5, 'seconds': 60}";
  TestRun run = test_gear_run (&t);
  TEST_FAILS (test_finding_of (&run, TRN_CHECK_RESTING, 0, -1, "load", NULL, NULL),
              TRN_STATE_NOT_RESTING);
  test_run_clear (&run);
}

/* Of a load without a centre of gravity it is not known how it rests, once forces are asked for. */
static void
test_without_cog (void)
{
  TestGear t = set_down (NULL, SEAT ("west") ", " SEAT ("east"));
  TestRun run = test_gear_run (&t);
  TEST_UNKNOWN (test_finding_of (&run, TRN_CHECK_RESTING, 0, -1, "load", NULL, NULL), "cog");
  test_run_clear (&run);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/wind/cube", test_wind);
  g_test_add_func ("/checks/wind/tilt", test_wind_in_tilt);
  g_test_add_func ("/checks/wind/tilt-small", test_wind_in_small_tilt);
  g_test_add_func ("/checks/wind/wind-leaning", test_wind_leaning);
  g_test_add_func ("/checks/wind/wind-of-moves", test_wind_of_moves);
  g_test_add_func ("/checks/resting/sleepers", test_resting);
  g_test_add_func ("/checks/resting/one-sleeper", test_one_sleeper);
  g_test_add_func ("/checks/resting/turned-site", test_turned_site);
  g_test_add_func ("/checks/resting/round", test_round);
  g_test_add_func ("/checks/resting/above", test_above);
  g_test_add_func ("/checks/resting/start", test_start);
  g_test_add_func ("/checks/resting/tipping", test_tipping);
  g_test_add_func ("/checks/resting/slope", test_slope);
  g_test_add_func ("/checks/resting/out-of-level", test_out_of_level);
  g_test_add_func ("/checks/resting/held-up", test_held_up);
  g_test_add_func ("/checks/resting/few-flats", test_few_flats);
  g_test_add_func ("/checks/resting/without-cog", test_without_cog);
  return g_test_run ();
}
