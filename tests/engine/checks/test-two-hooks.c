/* Hooks out of level, ropes out of plumb, and what a load on two hooks leans by, by closed forms.
 */
#include "share.h"
#include "test-force.h"

#define RAD(deg) ((deg)*G_PI / 180)
#define DEG(rad) ((rad)*180 / G_PI)
#define NEAR 1e-9

#define RULE "'loads': {'out_of_level': {'rule': '0027-nd-11.2'}},"
#define HEIGHT(m) "'loads': {'out_of_level': {'height': " m ", 'source': 'method'}},"
#define HOLD "{'do': 'hoist', 'by': 1, 'seconds': 60}"
#define UPEND(by)                                                                                  \
  "{'do': 'tilt', 'by': " by ", 'axis': 90, 'guide': 'head-plumb', 'head': [0, 0, 0], 'tail': [10" \
  ", 0, 1], 'seconds': 90}"
#define HOOKS(tail) "{'main': {'hook_above': 1}, 'tail': {'point': " tail "}}"

static const TrnFinding *
share (const TestRun *run, const char *item)
{
  return test_force (run, TRN_CHECK_LOAD_SHARE, "load", item);
}

/* What of that kind is taken off the clearance. */
/* Of the load from the slab for hooks out of level. */
static double
level_part (const TestRun *run)
{
  return test_allowance_part (
      test_finding_of (run, TRN_CHECK_CLEARANCE, 0, 0, "load", "slab", NULL), "out-of-level");
}

/* ---- out of level ---- */

/* 0027/ND, Guidelines for marine lifting and lowering operations, Rev 11.2, App. B.1.2: L 25, c 12,
 * d 13, a 10, b 14, x 0.9, z 0.8 m, 3°: 0.58214 and 0.54319 of the weight. Lift points 25.3 m
 * apart are turned by 2.26° by 1.0 m, so that 3° are the worse. Drawn level, of 1000 kg. */
static void
test_published (void)
{
  TestGear t = { .gear = "",
                 .structures = FORCE_SLAB,
                 .more = RULE,
                 .unit = "'cog': [0, 0, 0], 'cog_box': [0.9, 0, 0.8],",
                 .hook = "[-12, 0, 10]",
                 .rigging = HOOKS ("[13, 0, 14]"),
                 .moves = HOLD };
  TestRun run = test_gear_run (&t);
  const TrnFinding *main = share (&run, "main-out-of-level"),
                   *tail = share (&run, "tail-out-of-level");
  TEST_PASSES (main, TRN_STATE_KNOWN);
  TEST_PASSES (tail, TRN_STATE_KNOWN);
  test_assert_between (main->utilisation, 0.58214, 5e-6, 7e-6);
  test_assert_between (tail->utilisation, 0.54319, 5e-6, 7e-6);
  const TrnTwoHooks hooks = { 12, 13, 10, 14, 0.9, 0.8, RAD (3) };
  double greatest[2];
  trn_share_two_hooks (&hooks, greatest);
  test_assert_between (main->value, 1000 * greatest[0], 1e-6, 2e-3);
  test_assert_between (tail->value, 1000 * greatest[1], 1e-6, 2e-3);
  test_assert_between (test_number (main, "out-of-level"), 3, NEAR, NEAR);
  test_assert_between (test_number (main, "height-difference"), 4, NEAR, NEAR);
  g_assert_cmpstr (main->source, ==, "0027/ND Rev 11.2, 5.4");
  /* Without turn and box 0.52 and 0.48, the same source. */
  test_assert_between (share (&run, "main")->utilisation, 0.52 + 0.9 / 25, 1e-9, 2e-6);
  /* What the hook carries is reckoned with the worst. */
  g_assert_cmpfloat (share (&run, "main")->value, <, main->value);
  test_run_clear (&run);

  t.more = "";
  run = test_gear_run (&t);
  TEST_UNKNOWN (share (&run, "main-out-of-level"), "loads/out_of_level");
  TEST_UNKNOWN (share (&run, "tail-out-of-level"), "loads/out_of_level");
  test_run_clear (&run);
}

/* Points 10 m apart on one level, CoG in the middle and 3 m below them: 1 m of height is asin 0.1,
 * t = 0.1/√0.99, and the share ½ ± 3 t/10. The hook load counts it as well: 1000 kg of share, and
 * nothing else hangs there. A degree makes 30.0 kg/10 · π/180 … : 1000 · 3 t/10 over asin 0.1. */
static void
test_height (void)
{
  const double turn = asin (0.1), tangent = tan (turn), most = 0.5 + 0.3 * tangent;
  TestGear t = { .gear = GEAR_CRANE (""),
                 .structures = FORCE_SLAB,
                 .more = "'loads': {'dynamic': {'factor': 1, 'source': 'test'}, 'out_of_level': "
                         "{'height': 1, 'source': 'method'}},",
                 .unit = "'cog': [0, 0, -1],",
                 .hook = "[-5, 0, 2]",
                 .rigging = "{'main': {'gear': 'crane', 'hook_above': 1, 'block': {'diameter': 0.4,"
                            " 'height': 0.5, 'mass': 200}, 'slings': [{'id': 'leg', 'to': [-5, 0, "
                            "2], 'diameter': 0.02, 'mass': 50, 'wll': 2000}]}, 'tail': {'point': "
                            "[5, 0, 2]}}",
                 .moves = HOLD };
  TestRun run = test_gear_run (&t);
  const TrnFinding *tail = share (&run, "tail-out-of-level");
  TEST_PASSES (tail, TRN_STATE_KNOWN);
  test_assert_between (tail->utilisation, most, NEAR, 2e-6);
  test_assert_between (test_number (tail, "least"), 1000 * (1 - most), 2e-3, NEAR);
  test_assert_between (test_number (tail, "by-degree"), 300 * tangent / DEG (turn), 1e-6, 1e-6);
  g_assert_cmpstr (tail->source, ==, "method");
  test_assert_force (test_force (&run, TRN_CHECK_HOOK_LOAD, "crane", NULL)->value,
                     250 + 1000 * most);
  test_run_clear (&run);
}

/* Points 10 m apart, the tail 8 m above the main one and 6 m along, as in a load that travels half
 * up-ended; CoG in the middle. 1 m of height more is the turn δ = asin 0.9 − asin 0.8, and not asin
 * 0.1: it leaves 10 cos (asin 0.9) of level way, of which the CoG has half, so that with the CoG c
 * beside the middle, along the line it is drawn on, nothing changes; 1 m square to it and below is
 * sin (asin 0.8) = 0.8 m along more as drawn and 1 · 0.9 m turned. So the tail carries ½ + 0.9/(10
 * cos (asin 0.9)). With 2 m it could be upright: anything can be. Turned by 37° it is the same. */
static void
test_height_slanting (void)
{
  const double most = 0.5 + 0.9 / (10 * sqrt (1 - 0.81));
  TestGear t = { .gear = "",
                 .structures = FORCE_SLAB,
                 .more = HEIGHT ("1"),
                 .unit = "'cog': [0.8, 0, -0.6],",
                 .hook = "[-3, 0, -4]",
                 .rigging = HOOKS ("[3, 0, 4]"),
                 .moves = "{'do': 'turn', 'by': 37, 'seconds': 60}" };
  TestRun run = test_gear_run (&t);
  const TrnFinding *tail = share (&run, "tail-out-of-level");
  TEST_PASSES (tail, TRN_STATE_KNOWN);
  test_assert_between (tail->utilisation, most, 1e-6, 2e-6);
  test_assert_between (test_number (tail, "out-of-level"), DEG (asin (0.9) - asin (0.8)), NEAR,
                       NEAR);
  test_run_clear (&run);
  t.more = HEIGHT ("2");
  run = test_gear_run (&t);
  TEST_UNKNOWN (share (&run, "tail-out-of-level"), "in-line");
  test_run_clear (&run);
}

/* Points 2 m apart on one level and 5 m below the CoG: slack beyond t = 1/5, which is asin of 0.392
 * m: 0.3 m does not do it, 0.5 m does, either way, so that both go slack. The load would turn over
 * in any case, its CoG being above what it hangs from. */
static void
test_slack (void)
{
  TestGear t = { .gear = "",
                 .structures = FORCE_SLAB,
                 .more = HEIGHT ("0.3"),
                 .unit = "'cog': [0, 0, 7],",
                 .hook = "[-1, 0, 2]",
                 .rigging = HOOKS ("[1, 0, 2]"),
                 .moves = HOLD };
  TestRun run = test_gear_run (&t);
  TEST_PASSES (share (&run, "tail-out-of-level"), TRN_STATE_KNOWN);
  test_assert_judged (share (&run, "tail-height"), TRN_VERDICT_NOTE, TRN_STATE_KNOWN, NULL);
  TEST_FAILS (share (&run, "out-of-plane"), TRN_STATE_TURNS_OVER);
  test_assert_between (test_number (share (&run, "out-of-plane"), "above-hooks"), 5, NEAR, 2e-4);
  test_run_clear (&run);
  t.more = HEIGHT ("0.5");
  run = test_gear_run (&t);
  TEST_FAILS (share (&run, "tail-out-of-level"), TRN_STATE_SLACK);
  TEST_FAILS (share (&run, "main-out-of-level"), TRN_STATE_OVER_TAIL);
  TEST_FAILS (share (&run, "tail-height"), TRN_STATE_OVER_TAIL);
  test_run_clear (&run);
  /* Farther than they are apart: anything can be. */
  t.more = HEIGHT ("3");
  run = test_gear_run (&t);
  TEST_UNKNOWN (share (&run, "tail-out-of-level"), "in-line");
  test_run_clear (&run);
}

/* Up-ended from level to 60°, head on the main hook, the tail 10 m along and 1 m up, CoG 5 m along:
 * at φ the tail carries 5 cos φ/(10 cos φ + sin φ). Out of level by δ that is the share at φ ± δ:
 * at most that at −δ, the main's at most 1 less that at 60° + δ. 1 m of height is more than 3°, and
 * most near upright: at 60° the points are g = 10 sin 60° − cos 60° out of level already, and δ =
 * asin ((g + 1)/a) − asin (g/a). To 88° 0.05 m is 2.5° and goes past upright, where the tail is
 * slack: a note, for it ends so; and the main carries no more than all. 1 m is more than is left to
 * upright, and the points may come plumb over each other. */
static void
test_upending (void)
{
  TestGear t = { .gear = "",
                 .structures = FORCE_SLAB,
                 .more = RULE,
                 .at = "[10, 0, 30]",
                 .unit = "'cog': [5, 0, 0],",
                 .hook = "[0, 0, 0]",
                 .rigging = HOOKS ("[10, 0, 1]"),
                 .moves = UPEND ("60") };
  const double a = hypot (10, 1), g = 10 * sin (RAD (60)) - cos (RAD (60)),
               off = asin ((g + 1) / a) - asin (g / a), end = RAD (60) + off;
  TestRun run = test_gear_run (&t);
  const TrnFinding *tail = share (&run, "tail-out-of-level"),
                   *main = share (&run, "main-out-of-level");
  test_assert_between (test_number (tail, "out-of-level"), DEG (off), NEAR, NEAR);
  test_assert_between (tail->utilisation, 5 * cos (off) / (10 * cos (off) - sin (off)), NEAR, 2e-6);
  test_assert_between (main->utilisation, 1 - 5 * cos (end) / (10 * cos (end) + sin (end)), NEAR,
                       2e-6);
  test_run_clear (&run);
  t.moves = UPEND ("88");
  run = test_gear_run (&t);
  TEST_UNKNOWN (share (&run, "tail-out-of-level"), "in-line");
  test_run_clear (&run);
  t.more = HEIGHT ("0.05");
  run = test_gear_run (&t);
  tail = share (&run, "tail-out-of-level");
  test_assert_judged (tail, TRN_VERDICT_NOTE, TRN_STATE_SLACK, NULL);
  g_assert_cmpfloat (tail->progress, ==, 1);
  g_assert_cmpfloat (share (&run, "main-out-of-level")->utilisation, ==, 1);
  TEST_PASSES (share (&run, "tail"), TRN_STATE_KNOWN);
  test_run_clear (&run);
}

/* The load upright on both hooks, its tail 20 m below and 0.1 m beside its head, a = hypot (20,
 * 0.1) from it: 0.02 m lower than drawn the tail's hook is lower than the tail comes. Its rope is
 * slack, and the load hangs from its head. To plumb it is no more than acos (1 − 0.02/a), and
 * beyond by what the centre of gravity, halfway and 0.15 m to the same side, is seen at beside the
 * line of both points: atan (0.15/10) − atan (0.1/20) from the head, 2 atan (0.1/20) at most from
 * the tail, that is atan (0.1/20) + atan (0.05/10). All of the load goes 2 a sin (δ/2) by that and,
 * as the ropes give way, 20 sin δ + 0.1 (1 − cos δ). */
static void
test_slack_upright (void)
{
  TestGear t = { .gear = "",
                 .structures = FORCE_SLAB,
                 .more = HEIGHT ("0.02"),
                 .at = "[10, 0, 30]",
                 .unit = "'cog': [0.15, 0, -10],",
                 .hook = "[0, 0, 0]",
                 .rigging = HOOKS ("[0.1, 0, -20]"),
                 .moves = HOLD };
  const double a = hypot (0.1, 20), from_head = atan (0.015) - atan (0.005),
               from_tail = atan (0.005) + atan (0.005),
               turned = acos (1 - 0.02 / a) + fmax (from_head, from_tail);
  TestRun run = test_gear_run (&t);
  test_assert_between (level_part (&run),
                       2 * a * sin (turned / 2) + 20 * sin (turned) + 0.1 * (1 - cos (turned)),
                       1e-6, 1e-6);
  test_run_clear (&run);
}

/* A tail trolley rolls along below a tilt between two moves: points 4 m apart on legs that may let
 * the load turn about a hook 1 m above it come 0.3 m out of level by asin (0.3/3). Legs that let it
 * turn about a place as far above as the points are apart, or farther, leave no bound. */
static void
test_trolley_follows (void)
{
  TestGear t
      = { .gear = "{'id': 'cart', 'kind': 'tail-trolley', 'at': {'position': [0, 0, 9]}, "
                  "'size': [1, 1, 1], 'track': [-30, 30]}",
          .structures = FORCE_SLAB,
          .more = HEIGHT ("0.3"),
          .at = "[10, 0, 10]",
          .unit = "'cog': [-2, 0, 0],",
          .hook = "[-4, 0, 0]",
          .moves = HOLD ", {'do': 'tilt', 'by': 5, 'axis': 90, 'guide': 'head-plumb', 'head':"
                        " [-4, 0, 0], 'tail': [0, 0, 0], 'seconds': 90}, " HOLD };
  for (guint above_m = 1; above_m <= 9; above_m += 4)
    {
      g_autofree char *rigging = g_strdup_printf (
          "{'main': {'hook_above': %u, 'slings': [{'id': 'leg-1', 'to': [-4.2, 0, 0], 'diameter': "
          "0.02}, {'id': 'leg-2', 'to': [-3.8, 0, 0], 'diameter': 0.02}]}, 'tail': {'gear': 'cart',"
          " 'point': [0, 0, 0]}}",
          above_m);
      t.rigging = rigging;
      TestRun run = test_gear_run (&t);
      const TrnFinding *f
          = test_finding_of (&run, TRN_CHECK_LOAD_SHARE, 0, 1, "cart", NULL, "tail-out-of-level");
      const TrnFinding *near
          = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 1, "load", "slab", NULL);
      if (above_m == 1)
        test_assert_between (test_number (f, "out-of-level"), DEG (asin (0.3 / 3)), NEAR, NEAR);
      else
        TEST_UNKNOWN (near, "out-of-level");
      test_run_clear (&run);
    }
}

/* The same tilt of points 4 m apart. The tail is let go when 5° are done, short of upright, and the
 * load stands on its seat then: nothing is drawn in which its hook finds what it is out of level
 * by, and 0.3 m count at the end of the tilt, where the points are 4 sin 5° apart in height. */
static void
test_trolley_sets_down (void)
{
  const TestGear t
      = { .gear = "{'id': 'cart', 'kind': 'tail-trolley', 'at': {'position': [0, 0, 9]}, "
                  "'size': [1, 1, 1], 'track': [-30, 30]}",
          .structures = FORCE_SLAB,
          .more = HEIGHT ("0.3"),
          .at = "[10, 0, 10]",
          .unit = "'cog': [-2, 0, 0],",
          .hook = "[-4, 0, 0]",
          .lift = "'seats': [{'on': 'slab', 'at': 'end'}],",
          .rigging = "{'main': {'hook_above': 1}, 'tail': {'gear': 'cart', 'point': [0, 0, 0], "
                     "'moves': [0, 1]}}",
          .moves = HOLD ", {'do': 'tilt', 'by': 5, 'axis': 90, 'guide': 'head-plumb', 'head':"
                        " [-4, 0, 0], 'tail': [0, 0, 0], 'seconds': 90}, {'do': 'wait', 'seconds'"
                        ": 9}" };
  TestRun run = test_gear_run (&t);
  const TrnFinding *f
      = test_finding_of (&run, TRN_CHECK_LOAD_SHARE, 0, 1, "cart", NULL, "tail-out-of-level");
  test_assert_between (test_number (f, "out-of-level"), DEG (asin (sin (RAD (5)) + 0.3 / 4)) - 5,
                       1e-6, 1e-6);
  test_run_clear (&run);
}

#define TWO_LEGS(above, one, other)                                                                \
  "{'main': {" above "'slings': [{'id': 'leg-1', 'to': " one                                       \
  ", 'diameter': 0.02}, {'id': 'leg-2', 'to': " other                                              \
  ", 'diameter': 0.02}]}, 'tail': {'hook_above': 1, 'point': [5, 0, 2]}}"
#define ABOVE "'hook_above': 4, "

/* Points 10 m apart on one level, CoG in the middle and 3 m below. Where the legs of the main hook,
 * 4 m above its point, spread along the line by more than the turn takes the hook aside, the load
 * turns about the hook: its ways from there are 5 and 10 m along and 7 and 4 m down, so that the
 * tail carries (5 + 7 t)/(10 + 4 t) with it low and (5 − 7 t)/(10 − 4 t) with it high, of which the
 * main carries the rest. From the hook to the tail point are a = √116 m of which 4 m are drawn out
 * of level: 0.5 m more is asin (4.5/a) − asin (4/a). Legs that spread by 0.1 m let the line pass as
 * far aside of the point: (5 + 3 t + 0.1)/(10 + 0.1). Legs beside the line change nothing. */
static void
test_legs_along (void)
{
  const double a = sqrt (116), t = tan (asin (4.5 / a) - asin (4 / a)), level = tan (asin (0.05));
  const struct
  {
    const char *rigging;
    double tail, main;
  } cases[] = {
    { TWO_LEGS (ABOVE, "[-7, 0, 2]", "[-3, 0, 2]"), (5 + 7 * t) / (10 + 4 * t),
      (5 + 3 * t) / (10 - 4 * t) },
    { TWO_LEGS (ABOVE, "[-5.1, 0, 2]", "[-4.9, 0, 2]"), (5 + 3 * t + 0.1) / (10 + 0.1),
      1 - (5 - 3 * t - 0.1) / (10 - 0.1) },
    { TWO_LEGS (ABOVE, "[-5, 3, 2]", "[-5, -3, 2]"), 0.5 + 0.3 * level, 0.5 + 0.3 * level },
  };
  TestGear plan = { .gear = "",
                    .structures = FORCE_SLAB,
                    .more = HEIGHT ("0.5"),
                    .unit = "'cog': [0, 0, -1],",
                    .hook = "[-5, 0, 2]",
                    .moves = HOLD };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      plan.rigging = cases[i].rigging;
      TestRun run = test_gear_run (&plan);
      const TrnFinding *tail = share (&run, "tail-out-of-level"),
                       *main = share (&run, "main-out-of-level");
      TEST_PASSES (tail, TRN_STATE_KNOWN);
      TEST_PASSES (main, TRN_STATE_KNOWN);
      test_assert_between (tail->utilisation, cases[i].tail, NEAR, 2e-6);
      test_assert_between (main->utilisation, cases[i].main, NEAR, 2e-6);
      test_run_clear (&run);
    }
  /* How high the hook is is not said. */
  plan.rigging = TWO_LEGS ("", "[-7, 0, 2]", "[-3, 0, 2]");
  TestRun run = test_gear_run (&plan);
  TEST_UNKNOWN (share (&run, "tail-out-of-level"), "hook_above");
  TEST_UNKNOWN (share (&run, "main-out-of-level"), "hook_above");
  test_run_clear (&run);
}

/* Points 8 m apart that may be 0.4 m out of level turn the load by δ = asin 0.05, and are then 8 (1
 * − cos δ) nearer, which either rope may give way by. A tilt of 3° covers that; of 1° it covers 2 r
 * sin 0.5°, r = 8 m as far as the tail point, and the rest of 2 r sin (δ/2) and that way is taken
 * off, with what the tilt makes of it. That is for a load that does not lean, its centre of gravity
 * plumb below the line between both points. 0.05 m beside it and 1 m below the load leans by λ =
 * atan 0.05, which takes the lower corners of the cube, √5 m from the line, 2 √5 sin (λ/2) aside:
 * 0.11 of the 0.14 m of the tilt are for that. Without a centre of gravity nothing is left of it.
 * Points that stand almost above each other, with the centre of gravity above both, may be turned
 * any way: nothing is known of clearances then. */
static void
test_clearances (void)
{
  const double turned = asin (0.05), r = 8, nearer = 8 * (1 - cos (turned)),
               all = 2 * r * sin (turned / 2) + nearer, tilt = 2 * r * sin (RAD (0.5)),
               lean = 2 * sqrt (5) * sin (atan (0.05) / 2), more = 1 + 2 * sin (RAD (0.5));
  const struct
  {
    const char *unit;
    double covered;
  } cases[] = { { "'cog': [0, 0, 1],", tilt }, { "'cog': [0, 0.05, 1],", tilt - lean }, { "", 0 } };
  TestGear t = { .gear = "",
                 .structures = FORCE_SLAB,
                 .more = HEIGHT ("0.4"),
                 .lift = "'tolerance': {'tilt_deg': 1},",
                 .hook = "[-4, 0, 2]",
                 .rigging = HOOKS ("[4, 0, 2]"),
                 .moves = HOLD };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      t.unit = cases[i].unit;
      TestRun run = test_gear_run (&t);
      /* The lean is known to a few 1e-8. */
      test_assert_between (level_part (&run), (all - cases[i].covered) * more, NEAR, 1e-6);
      test_run_clear (&run);
    }
  t.unit = "'cog': [0, 0, 1],";
  t.lift = "'tolerance': {'tilt_deg': 3},";
  TestRun run = test_gear_run (&t);
  g_assert_cmpfloat (level_part (&run), ==, 0);
  test_run_clear (&run);
  t.rigging = HOOKS ("[-4, 0.1, 10]");
  run = test_gear_run (&t);
  TEST_UNKNOWN (test_clearance (&run, 0, 0, "slab"), "out-of-level");
  test_run_clear (&run);
}

/* The tail point 3 m above the main one and 4 m along, 0.2 m out of level: turned by δ = asin 0.64
 * − asin 0.6 it goes 3 sin δ + 4 (1 − cos δ) aside at most, and the ropes with it, as the tips
 * stay: the block of the main one too. The farthest of the load from its main point is the tail
 * point or a corner of the cube, no farther; from the tail point the corner at [−1, 1, 0] is √51 m,
 * and with all of the way at the main hook it goes 2 √51 sin (δ/2) and 0.2 m up. That is less than
 * 2 · 5 sin (δ/2) and all of the way. */
static void
test_ropes_give_way (void)
{
  const double turned = asin (0.64) - asin (0.6);
  TestGear t = { .gear = GEAR_CRANE (", 'out_of_plumb': {'most_deg': 1, 'source': 'manual'}"),
                 .structures = FORCE_SLAB,
                 .more = HEIGHT ("0.2"),
                 .hook = "[0, 0, 2]",
                 .rigging = "{'main': {'gear': 'crane', 'hook_above': 1, 'block': {'diameter': 0.4,"
                            " 'height': 0.5}}, 'tail': {'point': [4, 0, 5]}}",
                 .moves = HOLD };
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = test_force (&run, TRN_CHECK_HOIST_LINES, "crane", NULL);
  const double aside = 3 * sin (turned) + 4 * (1 - cos (turned));
  test_assert_between (test_number (f, "level-aside"), aside, NEAR, NEAR);
  /* The tip at 2 + √300, the hook comes up to 4. */
  test_assert_between (f->value, DEG (asin (aside / (sqrt (300) - 2))), NEAR, 1e-4);
  f = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "crane/block", "slab", NULL);
  test_assert_between (test_allowance_part (f, "out-of-level"), aside, NEAR, 1e-6);
  test_assert_between (
      level_part (&run),
      fmin (2 * 5 * sin (turned / 2) + aside, 2 * sqrt (51) * sin (turned / 2) + 0.2), NEAR, 1e-6);
  test_run_clear (&run);
}

/* ---- leaning ---- */

#define CUBE_TOP "[-4, 0, 2]"

static TestGear
lean_plan (const char *unit, const char *lift)
{
  return (TestGear){ .gear = "",
                     .structures = FORCE_SLAB,
                     .more = "",
                     .unit = unit,
                     .lift = lift,
                     .hook = CUBE_TOP,
                     .rigging = HOOKS ("[4, 0, 2]"),
                     .moves = HOLD };
}

/* On two points of one level, the CoG 0.3 m beside the line between them and 1.5 m below: atan
 * (0.3/1.5), and with 0.1 m of box both ways atan (0.4/1.4). A cube of 2 m: its farthest corner is
 * √(5² + 1 + 2²) from the hook point and √(1 + 2²) from the line, so that a tilt of τ covers 2 asin
 * (√30 sin (τ/2)/√5). Drawn up-ended by 40° the lean is the same, since the line turns with it. */
static void
test_lean (void)
{
  TestGear t = lean_plan ("'cog': [0, 0.3, 0.5],", "");
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = share (&run, "out-of-plane");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  test_assert_between (f->value, DEG (atan (0.2)), NEAR, 1e-4);
  g_assert_cmpfloat (f->limit, ==, 0);
  test_assert_between (test_number (f, "beside"), 0.3, NEAR, 2e-4);
  test_run_clear (&run);

  t = lean_plan ("'cog': [0, 0.3, 0.5],", "'tolerance': {'tilt_deg': 4.5},");
  run = test_gear_run (&t);
  f = share (&run, "out-of-plane");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  test_assert_between (f->limit, DEG (2 * asin (sqrt (6) * sin (RAD (2.25)))), 1e-6, 1e-6);
  test_run_clear (&run);
  t.lift = "'tolerance': {'tilt_deg': 4.7},";
  run = test_gear_run (&t);
  TEST_PASSES (share (&run, "out-of-plane"), TRN_STATE_WITHIN);
  test_run_clear (&run);

  t = lean_plan ("'cog': [0, 0.3, 0.5], 'cog_box': [0, 0.1, 0.1],", "");
  t.moves = "{'do': 'tilt', 'by': 40, 'axis': 90, 'guide': 'head-plumb', 'head': " CUBE_TOP
            ", 'tail': [4, 0, 2], 'seconds': 90}";
  run = test_gear_run (&t);
  test_assert_between (share (&run, "out-of-plane")->value, DEG (atan (0.4 / 1.4)), NEAR, 1e-4);
  test_run_clear (&run);
}

/* Legs that end 6 m beside that line, where the mesh is not, below a hook 3 m up go as much farther
 * aside as the load leans: a tilt of τ then covers 2 asin (√30 sin (τ/2)/9). */
static void
test_lean_of_lug (void)
{
  TestGear t = lean_plan ("'cog': [0, 0.3, 0.5],", "'tolerance': {'tilt_deg': 4.7},");
  t.rigging
      = "{'main': {'hook_above': 1}, 'tail': {'point': [4, 0, 2], 'hook_above': 3, 'slings': "
        "[{'id': 'east', 'to': [4, 6, 2], 'diameter': 0.02}, {'id': 'west', 'to': [4, -6, 2], "
        "'diameter': 0.02}]}}";
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = share (&run, "out-of-plane");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  test_assert_between (f->limit, DEG (2 * asin (sqrt (30) * sin (RAD (2.35)) / 9)), 1e-6, 1e-6);
  test_run_clear (&run);
}

#define LEGS(way, x, y)                                                                            \
  "'" way "': {%s'hook_above': 3, 'slings': [{'id': '" way "-1', 'to': [" x ", " y                 \
  ", 2], 'diameter': 0.02}, {'id': '" way "-2', 'to': [" x ", -" y ", 2], 'diameter': 0.02}]}"

/* Points 0.5 m below the CoG: it turns over. Hung from hooks 3 m above them by legs that spread 1 m
 * to either side it does not: with the CoG 0.1 m aside and 2.5 m below the hooks it leans by atan
 * (0.1/2.5). Legs that both go down in the plumb plane do not hold it. */
static void
test_legs (void)
{
  TestGear t = lean_plan ("'cog': [0, 0.1, 2.5],", "");
  TestRun run = test_gear_run (&t);
  TEST_FAILS (share (&run, "out-of-plane"), TRN_STATE_TURNS_OVER);
  test_run_clear (&run);
  g_autofree char *spread = g_strdup_printf (
      "{" LEGS ("main", "-4", "1") ", " LEGS ("tail", "4", "1") "}", "", "'point': [4, 0, 2], ");
  t.rigging = spread;
  run = test_gear_run (&t);
  const TrnFinding *f = share (&run, "out-of-plane");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  test_assert_between (f->value, DEG (atan (0.1 / 2.5)), NEAR, 1e-4);
  test_run_clear (&run);
  g_autofree char *narrow = g_strdup_printf (
      "{" LEGS ("main", "-4", "0") ", " LEGS ("tail", "4", "0") "}", "", "'point': [4, 0, 2], ");
  t.rigging = narrow;
  run = test_gear_run (&t);
  TEST_FAILS (share (&run, "out-of-plane"), TRN_STATE_TURNS_OVER);
  test_run_clear (&run);
}

/* The main hook lets go after the first move. The tail point is 0.2 m beside the CoG and 1.5 m
 * above it: it leans by atan (0.2/1.5); below the CoG it turns over. */
static void
test_tail_alone (void)
{
  TestGear t = lean_plan ("'cog': [4, 0.2, 0.5],", "");
  t.rigging = "{'main': {'hook_above': 1, 'moves': [0, 0]}, 'tail': {'point': [4, 0, 2]}}";
  t.moves = HOLD ", " HOLD;
  TestRun run = test_gear_run (&t);
  const TrnFinding *f
      = test_finding_of (&run, TRN_CHECK_LOAD_SHARE, 0, 1, "load", NULL, "tail-alone");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  test_assert_between (f->value, DEG (atan (0.2 / 1.5)), NEAR, 1e-4);
  test_run_clear (&run);
  t.lift = "'tolerance': {'tilt_deg': 8},";
  run = test_gear_run (&t);
  TEST_PASSES (test_finding_of (&run, TRN_CHECK_LOAD_SHARE, 0, 1, "load", NULL, "tail-alone"),
               TRN_STATE_WITHIN);
  test_run_clear (&run);
  t.unit = "'cog': [4, 0.2, 2.5],";
  run = test_gear_run (&t);
  TEST_FAILS (test_finding_of (&run, TRN_CHECK_LOAD_SHARE, 0, 1, "load", NULL, "tail-alone"),
              TRN_STATE_TURNS_OVER);
  test_run_clear (&run);
}

/* ---- ropes ---- */

/* Over the cube at [10, 0, 0] the tip is at 2 + √300 and the hook at 3 m, which comes up by 3: a
 * rope of √300 − 4 at least, 0.1 less as the hook may be higher, and 0.1 aside. */
static void
test_rope (void)
{
  const double rope = sqrt (300) - 4 - 0.1, value = DEG (asin (0.1 / rope));
  TestGear t = { .gear = GEAR_CRANE (", 'out_of_plumb': {'most_deg': 0.44, 'source': 'manual'}"),
                 .structures = FORCE_SLAB,
                 .rigging = FORCE_RIGGING ("crane"),
                 .lift = "'tolerance': {'position': 0.1},",
                 .moves = "{'do': 'hoist', 'by': 3, 'seconds': 60}" };
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = test_force (&run, TRN_CHECK_HOIST_LINES, "crane", NULL);
  TEST_PASSES (f, TRN_STATE_WITHIN);
  test_assert_between (f->value, value, NEAR, 1e-5);
  g_assert_cmpfloat (f->progress, ==, 1);
  g_assert_cmpstr (f->source, ==, "manual");
  test_assert_between (test_number (f, "rope"), rope, 2e-4, NEAR);
  test_run_clear (&run);
  t.gear = GEAR_CRANE (", 'out_of_plumb': {'most_deg': 0.43, 'source': 'manual'}");
  run = test_gear_run (&t);
  TEST_FAILS (test_force (&run, TRN_CHECK_HOIST_LINES, "crane", NULL), TRN_STATE_OUTSIDE);
  test_run_clear (&run);
  t.gear = GEAR_CRANE ("");
  run = test_gear_run (&t);
  f = test_force (&run, TRN_CHECK_HOIST_LINES, "crane", NULL);
  TEST_UNKNOWN (f, "out_of_plumb");
  test_assert_between (f->value, value, NEAR, 1e-5);
  test_run_clear (&run);
}

#define FRAME                                                                                      \
  ", {'id': 'frame', 'kind': 'turning-frame', 'at': {'position': [10, 0, 0]}, 'pivot': 1, 'size':" \
  " [0.3, 1, 1.5], 'spacing': 3}"

/* The tail in a frame whose pivot is at [10, 0, 1]; the point is drawn 4 mm aside of it, so the
 * rope has to give way by that. The frame keeps the load, whose CoG is 0.2 m beside, from leaning.
 */
static void
test_frame (void)
{
  TestGear t = { .gear = GEAR_CRANE (", 'out_of_plumb': {'most_deg': 1, 'source': 'manual'}") FRAME,
                 .structures = FORCE_SLAB,
                 .unit = "'cog': [0, 0.2, 1],",
                 .hook = "[-5, 0, 1]",
                 .rigging = "{'main': {'gear': 'crane', 'hook_above': 1}, 'tail': {'gear': 'frame',"
                            " 'point': [0.004, 0, 1]}}",
                 .moves = "{'do': 'wait', 'seconds': 60}" };
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = test_force (&run, TRN_CHECK_HOIST_LINES, "crane", NULL);
  TEST_PASSES (f, TRN_STATE_WITHIN);
  test_assert_between (test_number (f, "dragged"), 0.004, NEAR, 2e-4);
  /* At the radius 5 the tip is at 2 + √375, the hook at 2. */
  test_assert_between (f->value, DEG (asin (0.004 / sqrt (375))), NEAR, 1e-3);
  f = test_force (&run, TRN_CHECK_LOAD_SHARE, "frame", "out-of-plane");
  test_assert_judged (f, TRN_VERDICT_NOTE, TRN_STATE_KNOWN, NULL);
  test_assert_between (f->value, 0.2, NEAR, 2e-4);
  g_assert_cmpint (f->unit, ==, TRN_UNIT_M);
  test_run_clear (&run);
}

/* A frame holds its tail down as well: with the centre of gravity 0.5 m beyond the head, 5 m from
 * the tail, the hook carries 1.1 times the load. A hook or a trolley would be slack, and the main
 * hook carries no more than all of it. */
static void
test_frame_holds_down (void)
{
  for (guint i = 0; i < 2; i++)
    {
      g_autofree char *rigging = g_strdup_printf (
          "{'main': {'gear': 'crane', 'hook_above': 1, 'block': {'diameter': 0.4, 'height': 0.5,"
          " 'mass': 200}, 'slings': [{'id': 'leg', 'to': [-5, 0, 1], 'diameter': 0.02, 'mass': 50,"
          " 'wll': 2000}]}, 'tail': {%s 'point': [0, 0, 1]}}",
          i == 0 ? "'gear': 'frame'," : "");
      TestGear t = { .gear = GEAR_CRANE ("") FRAME,
                     .structures = FORCE_SLAB,
                     .more = FORCE_LOADS,
                     .unit = "'cog': [-5.5, 0, 1],",
                     .hook = "[-5, 0, 1]",
                     .rigging = rigging,
                     .moves = HOLD };
      TestRun run = test_gear_run (&t);
      TEST_FAILS (test_force (&run, TRN_CHECK_LOAD_SHARE, i == 0 ? "frame" : "load", "tail"),
                  TRN_STATE_SLACK);
      test_assert_force (test_force (&run, TRN_CHECK_HOOK_LOAD, "crane", NULL)->value,
                         1000 * (i == 0 ? 1.1 : 1) + 250);
      test_run_clear (&run);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/two-hooks/published", test_published);
  g_test_add_func ("/checks/two-hooks/height", test_height);
  g_test_add_func ("/checks/two-hooks/height-slanting", test_height_slanting);
  g_test_add_func ("/checks/two-hooks/slack", test_slack);
  g_test_add_func ("/checks/two-hooks/upending", test_upending);
  g_test_add_func ("/checks/two-hooks/slack-upright", test_slack_upright);
  g_test_add_func ("/checks/two-hooks/trolley-follows", test_trolley_follows);
  g_test_add_func ("/checks/two-hooks/trolley-sets-down", test_trolley_sets_down);
  g_test_add_func ("/checks/two-hooks/legs-along", test_legs_along);
  g_test_add_func ("/checks/two-hooks/clearances", test_clearances);
  g_test_add_func ("/checks/two-hooks/ropes-give-way", test_ropes_give_way);
  g_test_add_func ("/checks/two-hooks/lean", test_lean);
  g_test_add_func ("/checks/two-hooks/lean-of-lug", test_lean_of_lug);
  g_test_add_func ("/checks/two-hooks/legs", test_legs);
  g_test_add_func ("/checks/two-hooks/tail-alone", test_tail_alone);
  g_test_add_func ("/checks/two-hooks/rope", test_rope);
  g_test_add_func ("/checks/two-hooks/frame", test_frame);
  g_test_add_func ("/checks/two-hooks/frame-holds-down", test_frame_holds_down);
  return g_test_run ();
}
