/* Tensions, angles, shackles and beams by closed forms. The load is the cube of 2 m of test-gear.h,
 * 1000 kg, its hook point in the middle of its top, its CoG in its middle unless a test says
 * otherwise. */
#include "test-force.h"

#define LOADS "'loads': {'dynamic': {'factor': 1, 'source': 'test'}},"
#define COG "'cog': [0, 0, 1],"
/* Slings of 1 kg each. */
#define LEG(id, to) "{'id': '" id "', 'to': " to ", 'diameter': 0.02, 'mass': 1, 'wll': 1000}"
#define MAIN(above, legs)                                                                          \
  "{'main': {'gear': 'crane', 'hook_above': " above ", 'block': {'diameter': 0.4, 'height': 0.5,"  \
  " 'mass': 200}, 'slings': [" legs "]}}"
#define WAIT "{'do': 'wait', 'seconds': 10}"

static TestGear
plan (const char *rigging)
{
  return (TestGear){ .gear = GEAR_CRANE (""),
                     .structures = FORCE_SLAB,
                     .more = LOADS,
                     .unit = COG,
                     .rigging = rigging,
                     .moves = WAIT };
}

static const TrnFinding *
sling (const TestRun *run, const char *id, const char *item)
{
  return test_force (run, TRN_CHECK_SLINGS, id, item);
}

/* Two legs, 1 m beside and 2 m below the hook, and 1 m beside and 1 m below: D 1 and 1, H 2 and 1,
 * so T1 = W D2 S1/(D2 H1 + D1 H2) = W √5/3 and T2 = W √2/3. W is 1002 kg. The hook is over the CoG.
 */
static void
test_two_legs (void)
{
  TestGear t = plan (MAIN ("1", LEG ("low", "[-1, 0, 1]") ", " LEG ("high", "[1, 0, 2]")));
  TestRun run = test_gear_run (&t);
  const TrnFinding *low = sling (&run, "low", "tension"), *high = sling (&run, "high", "tension");
  TEST_PASSES (low, TRN_STATE_WITHIN);
  test_assert_force (low->value, 1002 * G * sqrt (5) / 3);
  test_assert_force (high->value, 1002 * G * sqrt (2) / 3);
  test_assert_force (low->limit, 1000 * G);
  test_assert_force (low->utilisation, 1.002 * sqrt (5) / 3);
  const TrnFinding *angle = sling (&run, "high", "angle");
  TEST_PASSES (angle, TRN_STATE_WITHIN);
  test_assert_between (angle->value, 45, 1e-3, 1e-9);
  test_run_clear (&run);

  /* The leg with its limit at 700 kg is beyond it. */
  t.rigging
      = MAIN ("1", "{'id': 'low', 'to': [-1, 0, 1], 'diameter': 0.02, 'mass': 1, 'wll': 700}," LEG (
                       "high", "[1, 0, 2]"));
  run = test_gear_run (&t);
  TEST_FAILS (sling (&run, "low", "tension"), TRN_STATE_OUTSIDE);
  test_run_clear (&run);
}

/* 0.5 m up for 1 m aside is 26.6°, below 30°. */
static void
test_flat (void)
{
  TestGear t = plan (MAIN ("0.5", LEG ("a", "[-1, 0, 2]") ", " LEG ("b", "[1, 0, 2]")));
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = sling (&run, "a", "angle");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  test_assert_between (f->value, atan (0.5) * 180 / G_PI, 1e-2, 1e-9);
  TEST_FAILS (sling (&run, "a", "tension"), TRN_STATE_OUTSIDE);
  test_run_clear (&run);
  /* How high the centre of gravity is in its box leans nothing: a plumb leg stays so. */
  t.rigging = MAIN ("1", LEG ("a", "[0, 0, 2]"));
  t.unit = COG "'cog_box': [0, 0, 0.5],";
  run = test_gear_run (&t);
  test_assert_between (sling (&run, "a", "angle")->value, 90, 1e-5, 0);
  test_assert_force (sling (&run, "a", "tension")->value, 1001 * G);
  test_run_clear (&run);
}

/* Three legs at 120°, 2 m up for 1 m aside: of these two are counted on unless they are equalised
 * (US Navy rigging manual), with W √5/2/2 each; statics has W √5/2/3. One that is 0.25 m aside, of
 * two others 0.5 m behind, bears 2/3 of W by statics, which is more, and the others half in place
 * of 1/6. Of three on one side of the hook one would have to push. */
static void
test_three_legs (void)
{
  TestGear t = plan (
      MAIN ("2", LEG ("a", "[1, 0, 2]") ", " LEG ("b", "[-0.5, 0.8660254037844386, 2]") ", " LEG (
                     "c", "[-0.5, -0.8660254037844386, 2]")));
  TestRun run = test_gear_run (&t);
  static const char *const legs[] = { "a", "b", "c" };
  for (guint i = 0; i < 3; i++)
    test_assert_force (sling (&run, legs[i], "tension")->value, 1003 * G * sqrt (5) / 4);
  test_run_clear (&run);

  t.rigging = MAIN ("2", LEG ("a", "[0.25, 0, 2]") ", " LEG ("b", "[-0.5, 0.5, 2]") ", " LEG (
                             "c", "[-0.5, -0.5, 2]"));
  run = test_gear_run (&t);
  test_assert_force (sling (&run, "a", "tension")->value,
                     1003 * G * 2 / 3 * sqrt (4 + 0.25 * 0.25) / 2);
  test_assert_force (sling (&run, "b", "tension")->value, 1003 * G / 2 * sqrt (4.5) / 2);
  test_assert_force (sling (&run, "c", "tension")->value, 1003 * G / 2 * sqrt (4.5) / 2);
  test_run_clear (&run);

  t.rigging = MAIN (
      "2", LEG ("a", "[1, 0, 2]") ", " LEG ("b", "[0.2, 0.8, 2]") ", " LEG ("c", "[0.2, -0.8, 2]"));
  run = test_gear_run (&t);
  TEST_FAILS (sling (&run, "a", "tension"), TRN_STATE_SLACK);
  test_run_clear (&run);
}

/* Three legs in one plane can share in many ways, but all on one side of the hook in none. */
static void
test_in_one_plane (void)
{
  TestGear t = plan (MAIN (
      "2", LEG ("a", "[0.3, 0, 2]") ", " LEG ("b", "[0.6, 0, 2]") ", " LEG ("c", "[0.9, 0, 2]")));
  TestRun run = test_gear_run (&t);
  TEST_FAILS (sling (&run, "a", "tension"), TRN_STATE_SLACK);
  test_run_clear (&run);
  t.rigging = MAIN (
      "2", LEG ("a", "[0.3, 0, 2]") ", " LEG ("b", "[0.6, 0, 2]") ", " LEG ("c", "[-0.9, 0, 2]"));
  t.unit = COG;
  run = test_gear_run (&t);
  const TrnFinding *f = sling (&run, "c", "tension");
  g_assert_cmpint (f->state, !=, TRN_STATE_SLACK);
  g_assert_cmpfloat (f->value, >=, 1003 * G * 0.3 / 1.5 * hypot (2, 0.9) / 2);
  test_run_clear (&run);
}

/* Four like legs: two of a diagonal may have to hold all, W √6/4 each with 2 m up for 1 m and 1 m
 * aside, whatever the lengths. A turn about the plumb line changes nothing. */
static void
test_four_legs (void)
{
  TestGear t = plan (MAIN ("2", LEG ("a", "[1, 1, 2]") ", " LEG ("b", "[-1, 1, 2]") ", " LEG (
                                    "c", "[-1, -1, 2]") ", " LEG ("d", "[1, -1, 2]")));
  TestRun run = test_gear_run (&t);
  test_assert_force (sling (&run, "a", "tension")->value, 1004 * G * sqrt (6) / 4);
  TEST_PASSES (sling (&run, "d", "tension"), TRN_STATE_WITHIN);
  test_run_clear (&run);
  t.moves = "{'do': 'turn', 'by': 70, 'seconds': 10}";
  run = test_gear_run (&t);
  test_assert_force (sling (&run, "b", "tension")->value, 1004 * G * sqrt (6) / 4);
  test_run_clear (&run);
  /* All beside the hook: none of them can hold it. */
  t.rigging = MAIN ("2", LEG ("a", "[1, 1, 2]") ", " LEG ("b", "[0.5, 1, 2]") ", " LEG (
                             "c", "[0.5, -1, 2]") ", " LEG ("d", "[1, -1, 2]"));
  run = test_gear_run (&t);
  TEST_FAILS (sling (&run, "a", "tension"), TRN_STATE_SLACK);
  test_run_clear (&run);
}

/* The CoG 0.5 m to the east, 3 m below the hook: the load hangs with the hook plumb over it, the
 * line from the CoG to the hook is up, u = (−0.5, 0, 3)/√9.25. In the load's frame legs of (1, 0,
 * −2) and (−1, 0, −2) make W u: T_e = W √5/4 (u_z + 2 · 0.5/√9.25) and T_w with the minus. With a
 * box of 0.1 m the greatest is not below that of 0.6 m. */
static void
test_off_middle (void)
{
  TestGear t = plan (MAIN ("2", LEG ("east", "[1, 0, 2]") ", " LEG ("west", "[-1, 0, 2]")));
  t.unit = "'cog': [0.5, 0, 1],";
  TestRun run = test_gear_run (&t);
  double u = 1 / sqrt (9.25), w = 1002 * G * sqrt (5) / 4;
  test_assert_force (sling (&run, "east", "tension")->value, w * (3 + 1) * u);
  test_assert_force (sling (&run, "west", "tension")->value, w * (3 - 1) * u);
  test_run_clear (&run);

  t.unit = "'cog': [0.5, 0, 1], 'cog_box': [0.1, 0, 0],";
  run = test_gear_run (&t);
  u = 1 / sqrt (9.36);
  test_assert_between (sling (&run, "east", "tension")->value, w * (3 + 1.2) * u, 1e-6, 0.06 * w);
  test_run_clear (&run);

  t.unit = NULL;
  run = test_gear_run (&t);
  TEST_UNKNOWN (sling (&run, "east", "tension"), "cog");
  test_run_clear (&run);
}

/* Two legs, 1 m beside and 1 m below the hook, T = W √2/2 of 1002 kg and a shackle of 1 kg, so 1003
 * kg: 709.2 kg each. Makers' common table: nothing is lost by a pull square to the pin, 30 % up to
 * 45° aside, half up to 90°. */
#define SHACKLED(wll, pin)                                                                         \
  MAIN ("1", "{'id': 'a', 'to': [-1, 0, 2], 'diameter': 0.02, 'mass': 1, 'wll': 2000, 'shackle': " \
             "{'mass': 1, 'wll': " wll pin "}}, " LEG ("b", "[1, 0, 2]"))

static void
test_shackle (void)
{
  static const struct
  {
    const char *rigging;
    double left, aside_deg, wll;
    gboolean passes;
  } cases[] = {
    /* Across: the leg lies in the plate of its lug. */
    { SHACKLED ("710", ", 'pin': [0, 5, 0]"), 1, 0, 710, TRUE },
    { SHACKLED ("709", ", 'pin': [0, 1, 0]"), 1, 0, 709, FALSE },
    /* Plumb, or along the bridle: the leg is 45° out of the plate. */
    { SHACKLED ("1014", ", 'pin': [0, 0, 1]"), 0.7, 45, 1014, TRUE },
    { SHACKLED ("1012", ", 'pin': [1, 0, 0]"), 0.7, 45, 1012, FALSE },
    /* In the plate, which slants; and out of it with the sine ½/1.137. */
    { SHACKLED ("1014", ", 'pin': [0.5, 0.7071067811865476, -0.5]"), 1, 0, 1014, TRUE },
    { SHACKLED ("1012", ", 'pin': [0.5, 1, 0.2071067811865476]"), 0.7, 26.0, 1012, FALSE },
    /* Along the leg. */
    { SHACKLED ("1419", ", 'pin': [1, 0, 1]"), 0.5, 90, 1419, TRUE },
    { SHACKLED ("1418", ", 'pin': [1, 0, 1]"), 0.5, 90, 1418, FALSE },
    /* Any way. */
    { SHACKLED ("1419", ""), 0.5, NAN, 1419, TRUE },
    { SHACKLED ("709", ""), 1, NAN, 709, FALSE },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TestGear t = plan (cases[i].rigging);
      TestRun run = test_gear_run (&t);
      const TrnFinding *f = sling (&run, "a", "shackle");
      g_assert_cmpint (f->verdict, ==, cases[i].passes ? TRN_VERDICT_PASS : TRN_VERDICT_FAIL);
      g_assert_cmpint (f->state, ==, cases[i].passes ? TRN_STATE_WITHIN : TRN_STATE_OUTSIDE);
      test_assert_force (f->value, 1003 * G * sqrt (0.5));
      test_assert_force (f->limit, cases[i].wll * cases[i].left * G);
      test_assert_force (test_number (f, "side-factor"), cases[i].left);
      if (isfinite (cases[i].aside_deg))
        test_assert_between (test_number (f, "aside"), cases[i].aside_deg, 0.01, 0.5);
      g_assert_nonnull (f->source);
      test_run_clear (&run);
    }
  /* A tilt of 1° makes 46° of the 45°, of which half is left; what is straight as drawn stays so up
   * to 5° (sling-force.h). */
  TestGear tilted = plan (SHACKLED ("1430", ", 'pin': [1, 0, 0]"));
  tilted.lift = "'tolerance': {'tilt_deg': 1},";
  TestRun aside = test_gear_run (&tilted);
  test_assert_force (sling (&aside, "a", "shackle")->limit, 1430 * 0.5 * G);
  test_assert_between (test_number (sling (&aside, "a", "shackle"), "aside"), 46, 0.01, 0.01);
  test_run_clear (&aside);
  tilted.rigging = SHACKLED ("710", ", 'pin': [0, 1, 0]");
  aside = test_gear_run (&tilted);
  test_assert_force (test_number (sling (&aside, "a", "shackle"), "side-factor"), 1);
  test_run_clear (&aside);
  tilted.lift = "'tolerance': {'tilt_deg': 5.1},";
  aside = test_gear_run (&tilted);
  test_assert_force (test_number (sling (&aside, "a", "shackle"), "side-factor"), 0.7);
  test_assert_between (test_number (sling (&aside, "a", "shackle"), "aside"), 5.1, 1e-6, 1e-6);
  test_run_clear (&aside);
  /* Straight it holds, aside it may not. */
  TestGear t = plan (SHACKLED ("1000", ""));
  TestRun run = test_gear_run (&t);
  TEST_UNKNOWN (sling (&run, "a", "shackle"), "shackle/pin");
  test_run_clear (&run);
  /* Nor where it is drawn straight and the wind turns the load by what is not known, since nothing
   * says how high the rope begins. */
  t = plan (SHACKLED ("1000", ", 'pin': [0, 1, 0]"));
  t.more = LOADS " 'wind': {'speed': 5, 'drag': 1},";
  t.gear = "{'id': 'crane', 'kind': 'gantry', 'at': {'position': [0, 0, 0]}, 'legs': [{'at': [20, "
           "20], 'size': [0.5, 0.5], 'height': 20}]}";
  run = test_gear_run (&t);
  TEST_UNKNOWN (sling (&run, "a", "shackle"), "shackle/turned");
  test_run_clear (&run);
}

#define PINNED(id, to)                                                                             \
  "{'id': '" id "', 'to': " to ", 'diameter': 0.02, 'mass': 1, 'wll': 2000, 'shackle': {'mass': 1" \
  ", 'wll': 2000, 'pin': [0, 1, 0]}}"
#define THREE_LEGS                                                                                 \
  PINNED ("a", "[1, 0, 2]")                                                                        \
  ", " LEG ("b", "[-1, 1, 2]") ", " LEG ("c", "[-1, -1, 2]")

/* All are drawn straight. From a leg in the middle of the top, with the centre of gravity c beside
 * it and 1 m below, the load leans by atan c, with the box by more; so it does on two hooks with c
 * across. As drawn that is within the tolerance of tilt; where it hangs free the leg stays plumb
 * and its pin turns with the load. It follows from the plan and counts, if only little; what
 * tolerances make of it does so by itself only beyond 5°. Three legs that stay taut turn with the
 * load. */
static void
test_shackle_leans (void)
{
  static const struct
  {
    const char *unit, *rigging, *lift;
    double left, aside_deg;
  } cases[] = {
    { COG, MAIN ("1", PINNED ("a", "[0, 0, 2]")), "'tolerance': {'tilt_deg': 3},", 1, 0 },
    { "'cog': [0, 0.05, 1],", MAIN ("1", PINNED ("a", "[0, 0, 2]")),
      "'tolerance': {'tilt_deg': 3},", 0.7, 3 },
    { "'cog': [0, 0, 1], 'cog_box': [0, 0.01, 0],", MAIN ("1", PINNED ("a", "[0, 0, 2]")),
      "'tolerance': {'tilt_deg': 1},", 0.7, 1 },
    { "'cog': [0, 0.05, 1],", MAIN ("1", PINNED ("a", "[0, 0, 2]")), "'hangs': 'free',", 0.7,
      2.862405 },
    { "'cog': [0, 0.05, 1], 'cog_box': [0, 0.01, 0],", MAIN ("1", PINNED ("a", "[0, 0, 2]")),
      "'hangs': 'free',", 0.7, 3.433630 },
    { "'cog': [0, 0.05, 1], 'cog_box': [0, 0.01, 0],", MAIN ("2", THREE_LEGS),
      "'tolerance': {'tilt_deg': 2},", 1, 0 },
    { "'cog': [0, 0.05, 1], 'cog_box': [0, 0.01, 0],", MAIN ("2", THREE_LEGS), "'hangs': 'free',",
      1, 0 },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TestGear t = plan (cases[i].rigging);
      t.unit = cases[i].unit;
      t.lift = cases[i].lift;
      TestRun run = test_gear_run (&t);
      const TrnFinding *f = sling (&run, "a", "shackle");
      test_assert_force (test_number (f, "side-factor"), cases[i].left);
      test_assert_between (test_number (f, "aside"), cases[i].aside_deg, 1e-6, 2e-3);
      test_run_clear (&run);
    }
  static const char *const across[] = { "'cog': [0, 0, 1],", "'cog': [0, 0.1, 1]," };
  for (guint i = 0; i < G_N_ELEMENTS (across); i++)
    {
      TestGear t
          = plan ("{'main': {'gear': 'crane', 'hook_above': 1, 'block': {'diameter': 0.4, "
                  "'height': 0.5, 'mass': 200}, 'slings': [" PINNED (
                      "a", "[-1, 0, 2]") "]}, 'tail': {'point': [1, 0, 2], 'hook_above': 1}}");
      t.unit = across[i];
      t.hook = "[-1, 0, 2]";
      TestRun run = test_gear_run (&t);
      const TrnFinding *f = sling (&run, "a", "shackle");
      test_assert_force (test_number (f, "side-factor"), i == 0 ? 1 : 0.7);
      test_assert_between (test_number (f, "aside"), i == 0 ? 0 : atan (0.1) * 180 / G_PI, 1e-6,
                           1e-4);
      test_run_clear (&run);
    }
}

/* A turn about the plumb line and a pin on the end of a beam: upper legs at 45° in the plane of the
 * beam, so that a pin across is pulled straight and one along it by 45° aside. */
static void
test_shackle_on_beam (void)
{
  static const char *const pins[] = { "[0, 1, 0]", "[1, 0, 0]" };
  for (guint i = 0; i < G_N_ELEMENTS (pins); i++)
    {
      g_autofree char *rigging = g_strdup_printf (
          "{'main': {'gear': 'crane', 'hook_above': 3, 'block': {'diameter': 0.4, 'height': 0.5,"
          " 'mass': 200}, 'beam': {'id': 'bar', 'length': 2, 'width': 0.2, 'depth': 0.2,"
          " 'below_hook': 1, 'between': [[-1, 0, 2], [1, 0, 2]], 'mass': 100}, 'slings': [{'id':"
          " 'up-a', 'to': 'beam-a', 'diameter': 0.02, 'mass': 1, 'wll': 1000, 'shackle': {'mass':"
          " 1, 'wll': 2000, 'pin': %s}}, {'id': 'up-b', 'to': 'beam-b', 'diameter': 0.02, 'mass':"
          " 1, 'wll': 1000}, {'id': 'a', 'from': 'beam-a', 'to': [-1, 0, 2], 'diameter': 0.02,"
          " 'mass': 1, 'wll': 1000}, {'id': 'b', 'from': 'beam-b', 'to': [1, 0, 2], 'diameter':"
          " 0.02, 'mass': 1, 'wll': 1000}]}}",
          pins[i]);
      TestGear t = plan (rigging);
      t.moves = "{'do': 'turn', 'by': 40, 'seconds': 10}";
      TestRun run = test_gear_run (&t);
      const TrnFinding *f = sling (&run, "up-a", "shackle");
      TEST_PASSES (f, TRN_STATE_WITHIN);
      test_assert_force (test_number (f, "side-factor"), i == 0 ? 1 : 0.7);
      test_assert_between (test_number (f, "aside"), i == 0 ? 0 : 45, 1e-6, 1e-6);
      test_run_clear (&run);
    }
}

/* A spreader of 2 m, 100 kg, 1 m below the hook, upper legs at 45°, plumb lower legs: each end
 * bears half of 1004.5 kg and what it may tilt by the shackle, 0.25 in 1000, which leans the beam
 * by as much, so that 1104.5 kg pull half of that beside its middle; an upper leg that, as much of
 * the beam and the 0.25 kg, times √2; compression as much. Its own bends it by m g L/8. */
static void
test_beam (void)
{
  TestGear t = plan (FORCE_SPREADER (""));
  TestRun run = test_gear_run (&t);
  const double off = 0.00025 * (1 + 1.1045 / 2), end_n = (0.5 + off) * 1004.5 * G,
               upper_n = end_n + ((0.5 + off) * 100 + 0.25) * G;
  test_assert_force (sling (&run, "a", "tension")->value, end_n);
  test_assert_force (sling (&run, "up-b", "tension")->value, upper_n * sqrt (2));
  TEST_FAILS (sling (&run, "a", "shackle"), TRN_STATE_OUTSIDE);
  test_assert_force (sling (&run, "a", "shackle")->utilisation, (0.5 + off) * 1004.5 / 400);
  test_assert_force (test_number (sling (&run, "a", "shackle"), "side-factor"), 1);
  const TrnFinding *compression = sling (&run, "bar", "compression");
  test_assert_judged (compression, TRN_VERDICT_NOTE, TRN_STATE_KNOWN, NULL);
  test_assert_force (compression->value, upper_n);
  test_assert_force (sling (&run, "bar", "moment")->value, 100 * G * 2 / 8);
  test_assert_force (test_force (&run, TRN_CHECK_HOOK_LOAD, "crane", NULL)->value, 1304.5);
  test_run_clear (&run);
}

#define HELD_BEAM(below, depth, more)                                                              \
  "{'main': {'gear': 'crane', 'hook_above': 3, 'block': {'diameter': 0.4, 'height': 0.5,"          \
  " 'mass': 200}, 'beam': {'id': 'bar', 'length': 2, 'width': 0.2, 'depth': " depth ","            \
  " 'below_hook': " below ", 'between': [[-1, 0, 2], [1, 0, 2]], 'mass': 100" more                 \
  "}, 'slings': ["                                                                                 \
  "{'id': 'a', 'from': 'beam-a', 'to': [-1, 0, 2], 'diameter': 0.02, 'mass': 1, 'wll': 1000},"     \
  " {'id': 'b', 'from': 'beam-b', 'to': [1, 0, 2], 'diameter': 0.02, 'mass': 1, 'wll': 1000}]}}"

/* A beam 1 m below the hook that no sling holds is held by nothing; 0.4 m below, as deep as it is,
 * it may hang by a lug. The slings have no shackles: a note each. */
static void
test_unheld_beam (void)
{
  TestGear t = plan (HELD_BEAM ("1", "0.4", ""));
  TestRun run = test_gear_run (&t);
  TEST_UNKNOWN (sling (&run, "a", "tension"), "beam/slings");
  TEST_UNKNOWN (sling (&run, "bar", "compression"), "beam/slings");
  test_run_clear (&run);
  t = plan (HELD_BEAM ("0.4", "0.4", ""));
  run = test_gear_run (&t);
  TEST_PASSES (sling (&run, "a", "tension"), TRN_STATE_WITHIN);
  for (int i = 0; i < 2; i++)
    test_assert_judged (
        test_finding_of (&run, TRN_CHECK_RIGGING, 0, -1, i == 0 ? "a" : "b", NULL, NULL),
        TRN_VERDICT_NOTE, TRN_STATE_NOT_GIVEN, "shackle");
  test_run_clear (&run);
}

/* A beam by its own limit: 1000 kg and two slings of 1 kg hang from it. With the centre of gravity
 * 0.1 m beside its middle one end of the 2 m bears ½ + 0.05 of that, and counts for both; what the
 * lower slings may pull along the leaning beam is below 1/2000. Without a limit that is not known.
 */
static void
test_beam_load (void)
{
  TestGear t = plan (HELD_BEAM ("0.4", "0.4", ", 'wll': 1001.9"));
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = sling (&run, "bar", "beam-load");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  test_assert_force (f->value, 1002 * G);
  test_assert_force (f->limit, 1001.9 * G);
  g_assert_cmpint (run.findings->verdict, ==, TRN_VERDICT_FAIL);
  test_run_clear (&run);
  t = plan (HELD_BEAM ("0.4", "0.4", ", 'wll': 1003.1"));
  run = test_gear_run (&t);
  TEST_PASSES (sling (&run, "bar", "beam-load"), TRN_STATE_WITHIN);
  test_run_clear (&run);
  t.unit = "'cog': [0.1, 0, 1],";
  run = test_gear_run (&t);
  f = sling (&run, "bar", "beam-load");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  test_assert_between (f->value, 1.1 * 1002 * G, 1e-5, 5e-4 * 1002 * G);
  test_run_clear (&run);
  t = plan (HELD_BEAM ("0.4", "0.4", ""));
  run = test_gear_run (&t);
  test_assert_judged (sling (&run, "bar", "beam-load"), TRN_VERDICT_UNKNOWN, TRN_STATE_UNKNOWN,
                      "beam/wll");
  test_run_clear (&run);
}

/* A beam with a leg at one end only: what its ends bear is not known. */
static void
test_one_end (void)
{
  TestGear t
      = plan ("{'main': {'gear': 'crane', 'hook_above': 3, 'block': {'diameter': 0.4,"
              " 'height': 0.5, 'mass': 200}, 'beam': {'id': 'bar', 'length': 2, 'width': 0.2,"
              " 'depth': 0.2, 'below_hook': 1, 'between': [[-1, 0, 2], [1, 0, 2]], 'mass':"
              " 100}, 'slings': [{'id': 'a', 'from': 'beam-a', 'to': [-1, 0, 2], 'diameter':"
              " 0.02, 'mass': 1, 'wll': 1000}]}}");
  TestRun run = test_gear_run (&t);
  TEST_UNKNOWN (sling (&run, "a", "tension"), "slings");
  TEST_UNKNOWN (sling (&run, "bar", "moment"), "slings");
  test_run_clear (&run);
}

/* Two hooks 8 m apart share 1000 kg; the beam of the main one is 2 m long and 2 m below its hook,
 * square to the line between them or along it. With the centre of gravity up to y beside that line
 * the load leans until it is plumb below what it hangs from: 2 m above its points on the main hook
 * where the beam is square, 0.98 of it counted, but for how steep that is, and its point on the
 * tail. The hook goes by 2 m times the tangent of that along the beam at most, and one end bears as
 * much more of load, slings and beam, by a leg off plumb by it. The last has its centre of gravity
 * above the line between the points. */
static void
test_sideways (void)
{
  static const struct
  {
    const char *between, *drops[2];
    gboolean is_square;
    double cog_z_m, box_m;
  } cases[] = {
    { "[[4, -1, 0.2], [4, 1, 0.2]]", { "[4, -1, 0.2]", "[4, 1, 0.2]" }, TRUE, 0.1, 0.1 },
    { "[[3, 0, 0.2], [5, 0, 0.2]]", { "[3, 0, 0.2]", "[5, 0, 0.2]" }, FALSE, 0.1, 0.01 },
    { "[[4, -1, 0.2], [4, 1, 0.2]]", { "[4, -1, 0.2]", "[4, 1, 0.2]" }, TRUE, 0.7, 0.04 },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *rigging = g_strdup_printf (
          "{'main': {'gear': 'crane', 'hook_above': 4, 'block': {'diameter': 0.4, 'height': 0.5,"
          " 'mass': 200}, 'beam': {'id': 'bar', 'length': 2, 'width': 0.2, 'depth': 0.2,"
          " 'below_hook': 2, 'between': %s, 'mass': 100, 'wll': 9000}, 'slings': [{'id': 'up-a',"
          " 'to': 'beam-a', 'diameter': 0.02, 'mass': 1, 'wll': 1000}, {'id': 'up-b', 'to':"
          " 'beam-b', 'diameter': 0.02, 'mass': 1, 'wll': 1000}, {'id': 'a', 'from': 'beam-a',"
          " 'to': %s, 'diameter': 0.02, 'mass': 1, 'wll': 1000}, {'id': 'b', 'from': 'beam-b',"
          " 'to': %s, 'diameter': 0.02, 'mass': 1, 'wll': 1000}]}, 'tail': {'point': [-4, 0,"
          " 0.2]}}",
          cases[i].between, cases[i].drops[0], cases[i].drops[1]);
      g_autofree char *unit = g_strdup_printf ("'cog': [0, 0, %g], 'cog_box': [0, %g, 0],",
                                               cases[i].cog_z_m, cases[i].box_m);
      TestGear t = { .gear = GEAR_CRANE (""),
                     .structures = FORCE_SLAB,
                     .more = LOADS,
                     .unit = unit,
                     .solid = "{'kind': 'box', 'size': [10, 0.4, 0.4]}",
                     .hook = "[4, 0, 0.2]",
                     .rigging = rigging,
                     .moves = WAIT };
      TestRun run = test_gear_run (&t);
      const double up_m = cases[i].is_square ? 0.98 * 2 : 0, most_up_m = cases[i].is_square ? 2 : 0,
                   below_m = (0.2 - cases[i].cog_z_m + up_m / 2) * 8 / hypot (8, most_up_m),
                   tangent = cases[i].box_m / below_m,
                   /* the share as it leans (load-lean.c): about a line that slopes, or pitching */
          steep_m = cases[i].is_square ? up_m + 2 : 0, pitch_m = 4, lean = atan (tangent),
                   more_kg = 1000.0 / 8
                             * (cases[i].box_m * tan (lean / 2) * steep_m / hypot (8, steep_m)
                                + pitch_m * (1 - cos (lean)) / 2),
                   end_n = (252 + more_kg / 2 + (604 + more_kg) * tangent) * G;
      test_assert_force (sling (&run, "a", "tension")->value, end_n / cos (atan (tangent)));
      test_assert_force (sling (&run, "b", "tension")->value, end_n / cos (atan (tangent)));
      test_run_clear (&run);
    }
}

#define BRIDLE(end, id, to)                                                                        \
  "{'id': '" id "', 'from': 'beam-" end "', 'to': " to ", 'diameter': 0.02, 'mass': 1, 'wll': "    \
  "1000}"

/* Legs below both ends of a beam, 2 m above their points. Square to it each bears half of what its
 * end does; along it the beam can push them apart, so that one may bear all. With a tail, that is:
 * how far such a beam leans with a load that hangs on it alone has no bound. */
static void
test_propped (void)
{
  static const struct
  {
    const char *slings, *tail;
    double share, aside_m;
  } cases[] = {
    { BRIDLE ("a", "a-1", "[-1, 0.4, 2]") ", " BRIDLE ("a", "a-2", "[-1, -0.4, 2]") ", " BRIDLE (
          "b", "b-1", "[1, 0.4, 2]") ", " BRIDLE ("b", "b-2", "[1, -0.4, 2]"),
      "", 0.5, 0.4 },
    { BRIDLE ("a", "a-1", "[-1.4, 0, 2]") ", " BRIDLE ("a", "a-2", "[-0.6, 0, 2]") ", " BRIDLE (
          "b", "b-1", "[1.4, 0, 2]") ", " BRIDLE ("b", "b-2", "[0.6, 0, 2]"),
      ", 'tail': {'point': [-4, 0, 2]}", 1, 0.4 },
    { BRIDLE ("a", "a-1", "[-1.4, 0, 2]") ", " BRIDLE ("a", "a-2", "[-0.6, 0, 2]") ", " BRIDLE (
          "b", "b-1", "[1.4, 0, 2]") ", " BRIDLE ("b", "b-2", "[0.6, 0, 2]"),
      "", NAN, 0.4 },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *rigging = g_strdup_printf (
          "{'main': {'gear': 'crane', 'hook_above': 2.1, 'block': {'diameter': 0.4, 'height': 0.5,"
          " 'mass': 200}, 'beam': {'id': 'bar', 'length': 2, 'width': 0.2, 'depth': 0.2,"
          " 'below_hook': 0.1, 'between': [[-1, 0, 2], [1, 0, 2]], 'mass': 100}, 'slings': "
          "[%s]}%s}",
          cases[i].slings, cases[i].tail);
      TestGear t = plan (rigging);
      TestRun run = test_gear_run (&t);
      if (isnan (cases[i].share))
        TEST_UNKNOWN (sling (&run, "a-1", "tension"), "beam/lean");
      else
        test_assert_force (sling (&run, "a-1", "tension")->value,
                           cases[i].share * 502 * G * hypot (2, cases[i].aside_m) / 2);
      test_run_clear (&run);
    }
}

/* Hooks out of level by 0.2 m turn a load on two hooks, 8 m apart, along the line of both, and two
 * legs of 1 m that go 0.5 m to either side along it with it: by moments about either point one
 * bears as much as the turn brings it nearer to plumb. */
static void
test_out_of_level (void)
{
  TestGear t
      = { .gear = GEAR_CRANE (""),
          .structures = FORCE_SLAB,
          .more = "'loads': {'dynamic': {'factor': 1, 'source': 'test'}, 'out_of_level': "
                  "{'height': 0.2, 'source': 'method'}},",
          .unit = "'cog': [0, 0, 0],",
          .solid = "{'kind': 'box', 'size': [10, 0.4, 0.4]}",
          .hook = "[4, 0, 0.2]",
          .rigging = "{'main': {'gear': 'crane', 'hook_above': 1, 'block': {'diameter': 0.4,"
                     " 'height': 0.5, 'mass': 0.001}, 'slings': [{'id': 'a', 'to': [3.5, 0, 0.2]"
                     ", 'diameter': 0.02, 'mass': 0.001, 'wll': 1000}, {'id': 'b', 'to': [4.5, "
                     "0, 0.2], 'diameter': 0.02, 'mass': 0.001, 'wll': 1000}]}, 'tail': {"
                     "'point': [-4, 0, 0.2]}}",
          .moves = WAIT };
  TestRun run = test_gear_run (&t);
  const TrnFinding *level = test_force (&run, TRN_CHECK_LOAD_SHARE, "crane", "main-out-of-level");
  const double turn = test_number (level, "out-of-level") * G_PI / 180, to = hypot (0.5, 1),
               angle = atan (0.5),
               most = 1000 * G * level->utilisation * sin (angle + turn) / sin (2 * angle);
  g_assert_cmpfloat (turn, >, 0.2 / 8);
  g_assert_cmpfloat (most, >, 1.04 * 1000 * G * level->utilisation * to / 2);
  test_assert_between (sling (&run, "a", "tension")->value, most, 1e-6 * most, 0.02 * most);
  test_run_clear (&run);
}

/* Legs of the main hook while a tail takes over: the beam of 8 m from lying to 60°, two legs on
 * each side of its axis at the head, 1 m up for 1 m aside. The share of the main does not change,
 * ½. With its pin along the beam a shackle is pulled straight at first, and in the end by the sine
 * sin 60°/√2 aside: as soon as it is pulled aside all moments are alike. With the CoG lower in the
 * load, h = 0.05 m square to its axis, the main bears ½ + h tan 60°/8 in the end, which is the
 * most, and that moment governs. */
static void
test_tilt (void)
{
  TestGear t
      = { .gear = GEAR_CRANE (""),
          .structures = FORCE_SLAB,
          .more = LOADS,
          .unit = "'cog': [0, 0, 0.2],",
          .solid = "{'kind': 'box', 'size': [8, 0.4, 0.4]}",
          .at = "[4, 0, 0.6]",
          .hook = "[4, 0, 0.2]",
          .rigging = "{'main': {'gear': 'crane', 'hook_above': 1, 'block': {'diameter': 0.4,"
                     " 'height': 0.5, 'mass': 200}, 'slings': [{'id': 'n', 'to': [4, 1, 0.2],"
                     " 'diameter': 0.02, 'mass': 1, 'wll': 1000}, {'id': 's', 'to': [4, -1,"
                     " 0.2], 'diameter': 0.02, 'mass': 0.5, 'wll': 1000, 'shackle': {'mass':"
                     " 0.5, 'wll': 1000, 'pin': [2, 0, 0]}}]}, 'tail': {'point':"
                     " [-4, 0, 0.2]}}",
          .moves = "{'do': 'tilt', 'by': -60, 'axis': 90, 'guide': 'head-plumb', 'head':"
                   " [4, 0, 0.2], 'tail': [-4, 0, 0.2], 'seconds': 60}" };
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = sling (&run, "n", "tension");
  TEST_PASSES (f, TRN_STATE_WITHIN);
  test_assert_between (f->value, 502 * G * sqrt (2) / 2, 1e-6, 3e-4 * 502 * G);
  const TrnFinding *main = test_force (&run, TRN_CHECK_LOAD_SHARE, "crane", "main");
  test_assert_between (main->value, 500, 1e-6, 1e-2);
  const TrnFinding *shackle = sling (&run, "s", "shackle");
  TEST_PASSES (shackle, TRN_STATE_WITHIN);
  test_assert_force (shackle->limit, 700 * G);
  const double aside = test_number (shackle, "aside");
  g_assert_true (aside > 0 && aside <= 37.761244 + 1e-3);
  test_run_clear (&run);

  t.unit = "'cog': [0, 0, 0.15],";
  run = test_gear_run (&t);
  main = test_force (&run, TRN_CHECK_LOAD_SHARE, "crane", "main");
  test_assert_between (main->value, 500 + 1000 * 0.05 * sqrt (3) / 8, 1e-6, 1e-2);
  shackle = sling (&run, "s", "shackle");
  TEST_PASSES (shackle, TRN_STATE_WITHIN);
  test_assert_between (test_number (shackle, "aside"), 37.761244, 1e-5, 1e-5);
  test_run_clear (&run);
}

static void
test_missing (void)
{
  TestGear t = plan (MAIN ("2", "{'id': 'a', 'to': [0, 0, 2], 'diameter': 0.02, 'mass': 1}"));
  TestRun run = test_gear_run (&t);
  TEST_UNKNOWN (sling (&run, "a", "tension"), "wll");
  TEST_PASSES (sling (&run, "a", "angle"), TRN_STATE_WITHIN);
  test_run_clear (&run);
  t.more = NULL;
  run = test_gear_run (&t);
  TEST_UNKNOWN (sling (&run, "a", "tension"), "loads/dynamic");
  test_run_clear (&run);
  /* Where the load lies in its legs, and so how flat they are, is a matter of forces. */
  t = plan (MAIN ("2", LEG ("east", "[1, 0, 2]") ", " LEG ("west", "[-1, 0, 2]")));
  t.unit = "'cog': [0, 0, 1], 'cog_box': [0.1, 0, 0],";
  t.more = NULL;
  run = test_gear_run (&t);
  TEST_UNKNOWN (sling (&run, "east", "angle"), "loads/dynamic");
  test_run_clear (&run);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/slings/unheld-beam", test_unheld_beam);
  g_test_add_func ("/checks/slings/two-legs", test_two_legs);
  g_test_add_func ("/checks/slings/flat", test_flat);
  g_test_add_func ("/checks/slings/three-legs", test_three_legs);
  g_test_add_func ("/checks/slings/one-plane", test_in_one_plane);
  g_test_add_func ("/checks/slings/four-legs", test_four_legs);
  g_test_add_func ("/checks/slings/off-middle", test_off_middle);
  g_test_add_func ("/checks/slings/beam", test_beam);
  g_test_add_func ("/checks/slings/beam-load", test_beam_load);
  g_test_add_func ("/checks/slings/shackle", test_shackle);
  g_test_add_func ("/checks/slings/shackle-leans", test_shackle_leans);
  g_test_add_func ("/checks/slings/shackle-on-beam", test_shackle_on_beam);
  g_test_add_func ("/checks/slings/one-end", test_one_end);
  g_test_add_func ("/checks/slings/sideways", test_sideways);
  g_test_add_func ("/checks/slings/propped", test_propped);
  g_test_add_func ("/checks/slings/out-of-level", test_out_of_level);
  g_test_add_func ("/checks/slings/tilt", test_tilt);
  g_test_add_func ("/checks/slings/missing", test_missing);
  return g_test_run ();
}
