/* Whether a load that is taken to hang as it is drawn would. A cube of 2 m on its foot at
 * [10, 0, 0], with the hook point in the middle of its top where nothing else is said. What hangs
 * by one point is at rest with its centre of gravity plumb below that point (plain statics), so a
 * centre of gravity a aside and b below leans by atan (a/b). */
#include <string.h>

#include "attitude.h"
#include "test-gear.h"

#define NEAR 1e-9
#define DEG(rad) ((rad)*180 / G_PI)
#define POST                                                                                       \
  "{'id': 'post', 'name': 'Post', 'solid': {'kind': 'box', 'size': [1, 1, 1]}, 'at': {'position':" \
  " [50, 50, 0]}}"
#define PAD                                                                                        \
  ", {'id': 'pad', 'name': 'Pad', 'solid': {'kind': 'box', 'size': [4, 4, 1]}, 'at': {'position':" \
  " [10, 0, -1]}}"
#define UP "{'do': 'hoist', 'by': 3, 'seconds': 30}"
#define DOWN "{'do': 'hoist', 'by': -3, 'seconds': 30}"
#define WAIT "{'do': 'wait', 'seconds': 10}"

static TestRun
run_with (const char *unit, const char *rigging, const char *lift, const char *moves)
{
  TestGear t = { .gear = GEAR_CRANE (""),
                 .structures = POST PAD,
                 .unit = unit,
                 .rigging = rigging,
                 .lift = lift,
                 .moves = moves };
  return test_gear_run (&t);
}

static const TrnFinding *
find (const TestRun *run, int move, const char *item)
{
  return test_finding_of (run, TRN_CHECK_ATTITUDE, 0, move, "load", NULL, item);
}

static guint
count (const TestRun *run, guint lift)
{
  const GArray *list = run->findings->lifts[lift].findings;
  guint n = 0;
  for (guint i = 0; i < list->len; i++)
    n += g_array_index (list, TrnFinding, i).check == TRN_CHECK_ATTITUDE;
  return n;
}

/* 0.3 m east, 0.4 m north and 1.5 m below: atan (0.5/1.5) = 18.435°, in every move by one hook and
 * at any heading. It fails without a tolerance and with one that is less, and then the whole lift
 * does; with one that is more it passes. */
static void
test_lean (void)
{
  static const char unit[] = "'cog': [0.3, 0.4, 0.5],";
  static const char moves[] = UP ", {'do': 'turn', 'by': 50, 'seconds': 10}, {'do': 'travel',"
                                 " 'by': [1, 2], 'seconds': 10}";
  const double lean_deg = DEG (atan (0.5 / 1.5));
  TestRun run = run_with (unit, NULL, NULL, moves);
  for (int move = 0; move < 3; move++)
    {
      const TrnFinding *f = find (&run, move, "lean");
      TEST_FAILS (f, TRN_STATE_OUTSIDE);
      g_assert_cmpint (f->unit, ==, TRN_UNIT_DEG);
      test_assert_between (f->value, lean_deg, NEAR, NEAR);
      g_assert_cmpfloat (f->limit, ==, 0);
      test_assert_between (f->margin, -lean_deg, NEAR, NEAR);
      g_assert_cmpfloat (f->progress, ==, 0);
      g_assert_cmpfloat (f->time_s, ==, move == 0 ? 0 : 20 + 10 * move);
    }
  g_assert_cmpint (run.findings->verdict, ==, TRN_VERDICT_FAIL);
  test_run_clear (&run);
  run = run_with (unit, NULL, "'tolerance': {'tilt_deg': 18.43},", UP);
  TEST_FAILS (find (&run, 0, "lean"), TRN_STATE_OUTSIDE);
  test_run_clear (&run);
  run = run_with (unit, NULL, "'tolerance': {'tilt_deg': 18.44},", UP);
  TEST_PASSES (find (&run, 0, "lean"), TRN_STATE_WITHIN);
  test_assert_between (find (&run, 0, "lean")->margin, 18.44 - lean_deg, NEAR, NEAR);
  test_run_clear (&run);
}

/* Rounded coordinates: 1.5 m below, 0.26 mm aside is 0.00993°, and 0.27 mm 0.01031°, of which 0.01°
 * count as plumb (tolerances.h). */
static void
test_plumb (void)
{
  TestRun run = run_with ("'cog': [0.00026, 0, 0.5],", NULL, NULL, UP);
  const TrnFinding *f = find (&run, 0, "lean");
  TEST_PASSES (f, TRN_STATE_WITHIN);
  g_assert_cmpfloat (f->margin, ==, 0);
  test_run_clear (&run);
  run = run_with ("'cog': [0.00027, 0, 0.5],", NULL, NULL, UP);
  TEST_FAILS (find (&run, 0, "lean"), TRN_STATE_OUTSIDE);
  test_run_clear (&run);
}

static double
number_of (const TrnFinding *f, const char *what)
{
  for (guint i = 0; f->numbers != NULL && i < f->numbers->len; i++)
    if (strcmp (g_array_index (f->numbers, TrnFindingNumber, i).what, what) == 0)
      return g_array_index (f->numbers, TrnFindingNumber, i).value;
  return NAN;
}

/* Where the centre of gravity is in its box is not known, so that the worst counts: plumb below the
 * hook as the plan has it, at a corner of the box 0.03 m and 0.04 m aside and 1 m − 0.2 m below. */
static void
test_box (void)
{
  static const char unit[] = "'cog': [0, 0, 1], 'cog_box': [0.03, 0.04, 0.2],";
  const double lean_deg = DEG (atan (0.05 / 0.8));
  TestRun run = run_with (unit, NULL, "'tolerance': {'tilt_deg': 3.57},", UP);
  const TrnFinding *f = find (&run, 0, "lean");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  test_assert_between (f->value, lean_deg, 0, NEAR);
  /* It is the box alone: without it there is no lean. Where it leans too far without it that is the
   * cause. */
  g_assert_cmpfloat (fabs (number_of (f, TRN_ATTITUDE_BUT_FOR_BOX)), <, NEAR);
  test_run_clear (&run);
  run = run_with ("'cog': [0.3, 0.4, 0.5], 'cog_box': [0.03, 0.04, 0.2],", NULL, NULL, UP);
  TEST_FAILS (find (&run, 0, "lean"), TRN_STATE_OUTSIDE);
  g_assert_true (isnan (number_of (find (&run, 0, "lean"), TRN_ATTITUDE_BUT_FOR_BOX)));
  test_run_clear (&run);
  run = run_with (unit, NULL, "'tolerance': {'tilt_deg': 3.58},", UP);
  TEST_PASSES (find (&run, 0, "lean"), TRN_STATE_WITHIN);
  test_run_clear (&run);
}

/* A hook point below the centre of gravity: it would turn over, by 180° less atan (0.1/0.5). */
static void
test_upside_down (void)
{
  TestRun run = run_with ("'cog': [0.1, 0, 2.5],", NULL, NULL, UP);
  const TrnFinding *f = find (&run, 0, "lean");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  test_assert_between (f->value, 180 - DEG (atan (0.1 / 0.5)), NEAR, NEAR);
  test_run_clear (&run);
}

#define LEG(id, x, y) "{'id': '" id "', 'to': [" x ", " y ", 2], 'diameter': 0.02%s}"
#define LEGS                                                                                       \
  "{'main': {'gear': 'crane', 'hook_above': 3, 'slings': [" LEG ("a", "1", "1") ", " LEG (         \
      "b", "-1", "1") ", " LEG ("c", "-1", "-1") "]}}"

#define FOUR_LEGS                                                                                  \
  "{'main': {'gear': 'crane', 'hook_above': 3, 'slings': [" LEG ("a", "1", "1") ", " LEG (         \
      "b", "-1", "1") ", " LEG ("c", "-1", "-1") ", " LEG ("d", "1", "-1") "]}}"

/* Three legs from a hook 3 m above the hook point, which leave out their length and so are as long
 * as they are drawn, hold the load as one body about the hook: 0.2 m aside and 4 m below it leans
 * by atan (0.2/4) = 2.862°, and the hook point goes 2 · 3 sin (half of that) = 0.1499 m aside. A
 * tilt of 3° covers the lean; the shift has to be covered by the tolerance of position. */
static void
test_legs (void)
{
  const double lean_rad = atan (0.2 / 4), shift_m = 6 * sin (lean_rad / 2);
  static const char unit[] = "'cog': [-0.2, 0, 1],";
  g_autofree char *legs = g_strdup_printf (LEGS, "", "", "");
  TestRun run = run_with (unit, legs, "'tolerance': {'tilt_deg': 2.8, 'position': 0.2},", UP);
  const TrnFinding *f = find (&run, 0, "lean");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  test_assert_between (f->value, DEG (lean_rad), 1e-6, 1e-6);
  test_run_clear (&run);
  run = run_with (unit, legs, "'tolerance': {'tilt_deg': 3, 'position': 0.14},", UP);
  f = find (&run, 0, "shift");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  g_assert_cmpint (f->unit, ==, TRN_UNIT_M);
  test_assert_between (f->value, shift_m, 1e-6, 1e-6);
  test_assert_between (f->margin, 0.14 - shift_m, 1e-6, 1e-6);
  test_run_clear (&run);
  run = run_with (unit, legs, "'tolerance': {'tilt_deg': 3, 'position': 0.15},", UP);
  TEST_PASSES (find (&run, 0, "lean"), TRN_STATE_WITHIN);
  test_run_clear (&run);
}

/* The same legs √18 m long for √11 m as drawn: the load hangs plumb, but its hook is 4 m above the
 * hook point instead of 3 m, and it as much lower than it is drawn. A rope of 3 m by which the
 * centre of gravity in its box could turn it: 0.05 m aside and 4 m below it, the hook point goes 6
 * sin (half of atan (0.05/4)) = 0.0375 m aside. */
static void
test_shift (void)
{
  static const char unit[] = "'cog': [0, 0, 1],", box[] = "'cog': [0, 0, 1], 'cog_box': [0.05, 0, "
                                                          "0],";
  static const char length[] = ", 'length': 4.242640687";
  g_autofree char *longer = g_strdup_printf (FOUR_LEGS, length, length, length, length);
  g_autofree char *drawn = g_strdup_printf (FOUR_LEGS, "", "", "", "");
  TestRun run = run_with (unit, longer, "'tolerance': {'tilt_deg': 3, 'position': 0.9},", UP);
  const TrnFinding *f = find (&run, 0, "shift");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  test_assert_between (f->value, 1, 1e-6, 1e-6);
  test_run_clear (&run);
  run = run_with (unit, longer, "'tolerance': {'tilt_deg': 3, 'position': 1.1},", UP);
  TEST_PASSES (find (&run, 0, "lean"), TRN_STATE_WITHIN);
  test_run_clear (&run);
  run = run_with (box, drawn, "'tolerance': {'tilt_deg': 3, 'position': 0.03},", UP);
  f = find (&run, 0, "shift");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  test_assert_between (f->value, 6 * sin (atan (0.05 / 4) / 2), 1e-6, 1e-3);
  test_run_clear (&run);
  /* Where the lean is too much, 0.716°, too, both are told at once. */
  run = run_with (box, drawn, "'tolerance': {'tilt_deg': 0.5, 'position': 0.03},", UP);
  f = find (&run, 0, "lean");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  test_assert_between (number_of (f, "shift"), 6 * sin (atan (0.05 / 4) / 2), 1e-6, 1e-3);
  test_run_clear (&run);
  run = run_with (box, drawn, "'tolerance': {'tilt_deg': 0.5, 'position': 0.04},", UP);
  g_assert_true (isnan (number_of (find (&run, 0, "lean"), "shift")));
  test_run_clear (&run);
  run = run_with (box, drawn, "'tolerance': {'tilt_deg': 3, 'position': 0.04},", UP);
  TEST_PASSES (find (&run, 0, "lean"), TRN_STATE_WITHIN);
  test_run_clear (&run);
}

#define DROP(id, end, x, y, z)                                                                     \
  "{'id': '" id "', 'from': 'beam-" end "', 'to': [" x ", " y ", " z "], 'diameter': 0.02}"
/* The beam 2 m below the hook, 3 m above the foot of the cube. */
#define BELOW_BEAM(drops)                                                                          \
  "{'main': {'gear': 'crane', 'hook_above': 3, 'beam': {'id': 'bar', 'length': 2, 'width': 0.2,"   \
  " 'depth': 0.2, 'below_hook': 2, 'between': [[-1, 0, 2], [1, 0, 2]]}, 'slings': [{'id': 'ua',"   \
  " 'to': 'beam-a', 'diameter': 0.02}, {'id': 'ub', 'to': 'beam-b', 'diameter': 0.02}, " drops     \
  "]}}"
#define TWO_DROPS(z) BELOW_BEAM (DROP ("a", "a", "-1", "0", z) ", " DROP ("b", "b", "1", "0", z))
#define FOUR_DROPS(z)                                                                              \
  BELOW_BEAM (DROP ("a", "a", "-1", "0.5", z) ", " DROP ("b", "a", "-1", "-0.5", z) ", " DROP (    \
      "c", "b", "1", "0.5", z) ", " DROP ("d", "b", "1", "-0.5", z))

/* Two drops to points 0.5 m below the centre of gravity: nothing keeps the load from turning over
 * about the line through both. The same to points above it lean about that line: 0.03 m off and 0.3
 * m below it is atan (0.1), though the hook point is 0.5 m above. In a box of which a corner is
 * above the points it may turn over. Two drops at each end, spread to both sides, hold a load
 * whose points are below its centre of gravity from the ends of the beam. Plain statics. */
static void
test_drops (void)
{
  TestRun run = run_with ("'cog': [0, 0, 1.5],", TWO_DROPS ("1"), NULL, UP);
  TEST_FAILS (find (&run, 0, "lean"), TRN_STATE_OUTSIDE);
  test_assert_between (find (&run, 0, "lean")->value, 180, NEAR, NEAR);
  test_run_clear (&run);
  run = run_with ("'cog': [0, 0.03, 1.5],", TWO_DROPS ("1.8"), NULL, UP);
  TEST_FAILS (find (&run, 0, "lean"), TRN_STATE_OUTSIDE);
  test_assert_between (find (&run, 0, "lean")->value, DEG (atan (0.1)), NEAR, NEAR);
  test_run_clear (&run);
  run = run_with ("'cog': [0, 0, 1.5], 'cog_box': [0, 0.01, 0.2],", TWO_DROPS ("1.6"), NULL, UP);
  TEST_FAILS (find (&run, 0, "lean"), TRN_STATE_OUTSIDE);
  g_assert_cmpfloat (find (&run, 0, "lean")->value, >, 90);
  test_run_clear (&run);
  run = run_with ("'cog': [0, 0, 1.5],", TWO_DROPS ("1.6"), NULL, UP);
  TEST_PASSES (find (&run, 0, "lean"), TRN_STATE_WITHIN);
  test_run_clear (&run);
  run = run_with ("'cog': [0, 0, 1.5],", FOUR_DROPS ("1"), NULL, UP);
  TEST_PASSES (find (&run, 0, "lean"), TRN_STATE_WITHIN);
  test_run_clear (&run);
}

/* One leg that says its length beside two that do not: how they would hold the load is not known.
 */
static void
test_legs_in_part (void)
{
  g_autofree char *legs = g_strdup_printf (LEGS, ", 'length': 3.3166", "", "");
  TestRun run = run_with ("'cog': [-0.2, 0, 1],", legs, "'tolerance': {'tilt_deg': 5},", UP);
  TEST_UNKNOWN (find (&run, 0, "lean"), "hang");
  test_run_clear (&run);
}

/* On its pad a load leans nowhere: a wait before it is hoisted and one after it is down are not
 * asked about; of the hoist the end counts, of the lowering its start. Without seats all are. */
static void
test_seats (void)
{
  static const char unit[] = "'cog': [0.1, 0, 1],";
  static const char moves[] = WAIT ", " UP ", " WAIT ", " DOWN ", " WAIT;
  TestRun run = run_with (unit, NULL, "'seats': [{'on': 'pad', 'at': 'both'}],", moves);
  g_assert_cmpuint (count (&run, 0), ==, 3);
  const double progress[] = { 1, 0, 0 }, time_s[] = { 40, 40, 50 };
  for (int i = 0; i < 3; i++)
    {
      const TrnFinding *f = find (&run, i + 1, "lean");
      TEST_FAILS (f, TRN_STATE_OUTSIDE);
      g_assert_cmpfloat (f->progress, ==, progress[i]);
      g_assert_cmpfloat (f->time_s, ==, time_s[i]);
    }
  test_run_clear (&run);
  run = run_with (unit, NULL, NULL, moves);
  g_assert_cmpuint (count (&run, 0), ==, 5);
  test_run_clear (&run);
}

/* What hangs free leans, a tail hook holds, and a tilt about a point of its own is guided: nothing
 * is asked there. */
static void
test_not_asked (void)
{
  static const char unit[] = "'cog': [0.1, 0, 1],";
  static const char rigging[]
      = "{'main': {'gear': 'crane', 'hook_above': 1}, 'tail': {'point': [0.8, 0, 2], 'moves':"
        " [0, 0]}}";
  TestRun run = run_with (unit, NULL, "'hangs': 'free',", UP);
  g_assert_cmpuint (count (&run, 0), ==, 0);
  test_run_clear (&run);
  run = run_with (
      unit, rigging, NULL,
      UP ", {'do': 'tilt', 'by': 5, 'axis': 0, 'about': [0, 0, 1.9], 'seconds': 10}, " WAIT);
  g_assert_cmpuint (count (&run, 0), ==, 1);
  /* Tilted by 5° about east, what was plumb to the south is out of plumb: 1 m below, 0.1 m east. */
  const TrnFinding *f = find (&run, 2, "lean");
  const double aside = hypot (0.1, sin (5 * G_PI / 180)), below = cos (5 * G_PI / 180);
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  test_assert_between (f->value, DEG (atan2 (aside, below)), NEAR, NEAR);
  test_run_clear (&run);
}

static void
assert_unheld (const TestRun *run, gboolean is_unheld)
{
  const GArray *list = run->findings->lifts[0].findings;
  guint n = 0;
  for (guint i = 0; i < list->len; i++)
    {
      const TrnFinding *f = &g_array_index (list, TrnFinding, i);
      if (f->check != TRN_CHECK_ATTITUDE || g_strcmp0 (f->missing, "tail") != 0)
        continue;
      g_assert_cmpint (f->move, ==, 1);
      g_assert_cmpint (f->verdict, ==, TRN_VERDICT_UNKNOWN);
      g_assert_cmpint (run->findings->verdict, !=, TRN_VERDICT_PASS);
      n++;
    }
  g_assert_cmpuint (n, ==, is_unheld ? 1 : 0);
}

#define CUBE_ON_TWO_HOOKS                                                                          \
  "{'do': 'tilt', 'by': -40, 'axis': 90, 'guide': 'head-plumb', 'head': [0, 0, 2], 'tail': [-0.8," \
  " 0, 1], 'seconds': 60}"
#define CUBE_ABOUT(point) "{'do': 'tilt', 'by': 5, 'axis': 0, 'about': " point ", 'seconds': 10}"

/* A load on one hook hangs as its centre of gravity will have it (plain statics), so that a tilt on
 * two hooks in which no tail hoist holds it any more, or none is named, is none, and no tilt about
 * the hook itself: as drawn and hanging free. While the tail holds it, or about another point,
 * which something may hold that the plan does not name, nothing is asked. */
static void
test_unheld_tilt (void)
{
  static const char unit[] = "'cog': [0, 0, 1],";
  static const char with_tail[] = "{'main': {'gear': 'crane', 'hook_above': 1}, 'tail': {'point':"
                                  " [-0.8, 0, 1], 'moves': [0, %d]}}";
  static const char main_alone[] = "{'main': {'gear': 'crane', 'hook_above': 1}}";
  static const char *const lifts[] = { NULL, "'hangs': 'free'," };
  g_autofree char *early = g_strdup_printf (with_tail, 0), *held = g_strdup_printf (with_tail, 1);
  for (guint i = 0; i < G_N_ELEMENTS (lifts); i++)
    {
      TestRun run = run_with (unit, early, lifts[i], UP ", " CUBE_ON_TWO_HOOKS);
      assert_unheld (&run, TRUE);
      test_run_clear (&run);
      run = run_with (unit, held, lifts[i], UP ", " CUBE_ON_TWO_HOOKS);
      assert_unheld (&run, FALSE);
      test_run_clear (&run);
      run = run_with (unit, main_alone, lifts[i], UP ", " CUBE_ON_TWO_HOOKS);
      assert_unheld (&run, TRUE);
      test_run_clear (&run);
      run = run_with (unit, main_alone, lifts[i], UP ", " CUBE_ABOUT ("[0, 0, 2]"));
      assert_unheld (&run, TRUE);
      test_run_clear (&run);
      run = run_with (unit, main_alone, lifts[i], UP ", " CUBE_ABOUT ("[0, 1, 0]"));
      assert_unheld (&run, FALSE);
      test_run_clear (&run);
    }
}

/* A plan that names a centre of gravity for another component only does not know of this one; one
 * that names none is not asked, unless forces are. */
static void
test_without (void)
{
  TestRun run = run_with (NULL, NULL, NULL, UP);
  TEST_UNKNOWN (find (&run, 0, "lean"), "cog");
  test_run_clear (&run);
  run = test_run (
      "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.5, 'structures': [" POST
      "], 'components': [{'id': 'a', 'solid': {'kind': 'box', 'size': [2, 2, 2]}, 'at': "
      "{'position': [10, 0, 0]}}], 'programme': [{'lift': 'one', 'component': 'a',"
      " 'hook_point': [0, 0, 2], 'moves': [" UP "]}]}");
  g_assert_cmpuint (run.findings->checks_done & TRN_CHECK_BIT (TRN_CHECK_ATTITUDE), ==, 0);
  g_assert_cmpuint (count (&run, 0), ==, 0);
  test_run_clear (&run);
  run = test_run (
      "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.5, 'structures': [" POST
      "], 'components': [{'id': 'a', 'solid': {'kind': 'box', 'size': [2, 2, 2]}, 'at': "
      "{'position':"
      " [10, 0, 0]}}, {'id': 'b', 'solid': {'kind': 'box', 'size': [2, 2, 2]}, 'cog': [0, 0, 1],"
      " 'at': {'position': [30, 0, 0]}}], 'programme': [{'lift': 'one', 'component': 'a',"
      " 'hook_point': [0, 0, 2], 'moves': [" UP "]}, {'lift': 'two', 'component': 'b',"
      " 'hook_point': [0, 0, 2], 'moves': [" UP "]}]}");
  TEST_UNKNOWN (find (&run, 0, "lean"), "cog");
  TEST_PASSES (test_finding_of (&run, TRN_CHECK_ATTITUDE, 1, 0, "load", NULL, "lean"),
               TRN_STATE_WITHIN);
  test_run_clear (&run);
}

/* Whether a finding of a lift that hangs free and turns over looks at no load. */
static gboolean
looks_at_none (const TrnFinding *f)
{
  return f->check == TRN_CHECK_START || f->check == TRN_CHECK_ATTITUDE
         || f->check == TRN_CHECK_HOOK_LOAD || f->check == TRN_CHECK_FOOTING
         || f->check == TRN_CHECK_STANDING || f->check == TRN_CHECK_TAIL_SWING
         || f->state == TRN_STATE_NOT_GIVEN;
}

/* It hangs free with its centre of gravity 0.5 m above the hook point, 0.1 m aside: it turns over,
 * by 180° less atan (0.1/0.5), which fails once for all of its moves. Everything that looks at the
 * load is not known, also a contact that it has as it is drawn: with the post in its way, 1 m from
 * it. What else there is is as it is of the same lift as drawn. */
static void
test_free_turns_over (void)
{
  static const char unit[] = "'cog': [0.1, 0, 2.5],";
  static const char moves[] = "{'do': 'travel', 'by': [40, 50], 'seconds': 30}, " UP;
  TestRun drawn = run_with (unit, NULL, NULL, moves),
          run = run_with (unit, NULL, "'hangs': 'free',", moves);
  const TrnFinding *f = find (&run, 0, "lean");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  test_assert_between (f->value, 180 - DEG (atan (0.1 / 0.5)), NEAR, NEAR);
  g_assert_cmpuint (count (&run, 0), ==, 1);
  g_assert_cmpint (run.findings->verdict, ==, TRN_VERDICT_FAIL);
  g_assert_cmpint (
      test_finding_of (&drawn, TRN_CHECK_CLEARANCE, 0, 0, "load", "post", NULL)->verdict, ==,
      TRN_VERDICT_FAIL);
  guint n_known = 0, n_unknown = 0;
  const GArray *list = run.findings->lifts[0].findings;
  for (guint i = 0; i < list->len; i++)
    {
      f = &g_array_index (list, TrnFinding, i);
      if (f->check == TRN_CHECK_ATTITUDE)
        continue;
      const TrnFinding *as_drawn
          = test_finding_of (&drawn, f->check, 0, f->move, f->body, f->obstacle, f->item);
      if (!looks_at_none (f))
        {
          n_unknown++;
          TEST_UNKNOWN (f, "attitude");
          continue;
        }
      n_known += f->verdict != TRN_VERDICT_UNKNOWN;
      g_assert_cmpint (f->verdict, ==, as_drawn->verdict);
      g_assert_cmpint (f->state, ==, as_drawn->state);
    }
  g_assert_cmpuint (n_known, >, 0);
  g_assert_cmpuint (n_unknown, >, 10);
  test_run_clear (&drawn);
  test_run_clear (&run);
}

/* Two loads far from each other. The first turns over and stays on the hook: the second is judged
 * past the post as ever, and past the first not at all. Set down on the pad the first is where it
 * is drawn. Another lift of it has nothing that is known after the one, and all of it after the
 * other.
 */
static void
test_after_free (void)
{
  static const char *const seats[] = { "", "'seats': [{'on': 'pad', 'at': 'end'}]," };
  for (guint i = 0; i < G_N_ELEMENTS (seats); i++)
    {
      const char *box = "'solid': {'kind': 'box', 'size': [2, 2, 2]}";
      g_autofree char *text = g_strdup_printf (
          "{'format': 'trunnion-plan', 'version': 1, 'title': 'Test', 'keep_clear': 0.5,"
          " 'structures': [" POST PAD "], 'components': [{'id': 'first', %s, 'cog': [0, 0, 3],"
          " 'at': {'position': [10, 0, 0]}}, {'id': 'second', %s, 'cog': [0, 0, 1], 'at':"
          " {'position': [30, 0, 0]}}], 'programme': [{'lift': 'a', 'component': 'first',"
          " 'hook_point': [0, 0, 2], 'hangs': 'free', %s 'moves': [" UP ", " DOWN
          "]}, {'lift': 'b',"
          " 'component': 'second', 'hook_point': [0, 0, 2], 'moves': [" UP "]}, {'lift': 'c',"
          " 'component': 'first', 'hook_point': [0, 0, 4], 'seats': [{'on': 'pad', 'at': 'start'}],"
          " 'moves': [" UP "]}]}",
          box, box, seats[i]);
      TestRun run = test_run (text);
      const gboolean is_known = i > 0;
      TEST_FAILS (find (&run, 0, "lean"), TRN_STATE_OUTSIDE);
      TEST_PASSES (test_finding_of (&run, TRN_CHECK_CLEARANCE, 1, 0, "load", "post", NULL),
                   TRN_STATE_CLEAR);
      const TrnFinding *past
          = test_finding_of (&run, TRN_CHECK_CLEARANCE, 1, 0, "load", "first", NULL);
      const TrnFinding *again
          = test_finding_of (&run, TRN_CHECK_CLEARANCE, 2, 0, "load", "post", NULL);
      if (is_known)
        {
          TEST_PASSES (past, TRN_STATE_CLEAR);
          TEST_PASSES (again, TRN_STATE_CLEAR);
        }
      else
        {
          TEST_UNKNOWN (past, "attitude/before");
          TEST_UNKNOWN (again, "attitude/before");
        }
      test_run_clear (&run);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/attitude/lean", test_lean);
  g_test_add_func ("/checks/attitude/plumb", test_plumb);
  g_test_add_func ("/checks/attitude/box", test_box);
  g_test_add_func ("/checks/attitude/shift", test_shift);
  g_test_add_func ("/checks/attitude/upside-down", test_upside_down);
  g_test_add_func ("/checks/attitude/free-turns-over", test_free_turns_over);
  g_test_add_func ("/checks/attitude/after-free", test_after_free);
  g_test_add_func ("/checks/attitude/legs", test_legs);
  g_test_add_func ("/checks/attitude/drops", test_drops);
  g_test_add_func ("/checks/attitude/legs-in-part", test_legs_in_part);
  g_test_add_func ("/checks/attitude/seats", test_seats);
  g_test_add_func ("/checks/attitude/not-asked", test_not_asked);
  g_test_add_func ("/checks/attitude/unheld-tilt", test_unheld_tilt);
  g_test_add_func ("/checks/attitude/without", test_without);
  return g_test_run ();
}
