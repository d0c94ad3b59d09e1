/* The dynamic factor of a table where the hook load goes past the end of a row, and supports in a
 * rectangle that share like a beam: by hand. */
#include "cause.h"
#include "ground-check.h"
#include "test-force.h"

typedef struct
{
  double mass_kg, factor, block_kg;
  const char *more; /* of the component */
  double at_m[2];   /* of the hook beside the middle of the legs, in the frame of the gantry */
  const char *legs; /* their places */
  double allowed_pa;
} Plan;

#define SQUARE "[-3.6, -3.6] [3.6, 3.6] [3.6, -3.6] [-3.6, 3.6]"

/* The gantry weighs as good as nothing. */
#define TOWER_KG 1e-3

/* One leg of 120 kg. */
static TestRun
run_plan (const Plan *plan)
{
  g_auto (GStrv) at = g_strsplit (plan->legs != NULL ? plan->legs : SQUARE, "] ", -1);
  g_autoptr (GString) legs = g_string_new (NULL);
  for (guint i = 0; at[i] != NULL; i++)
    g_string_append_printf (legs,
                            "%s{'at': %s%s, 'size': [0.5, 0.5], 'height': 20, 'pad': [2.2, 2.2]}",
                            i > 0 ? ", " : "", at[i], at[i + 1] != NULL ? "]" : "");
  g_autofree char *text = g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'title': 'Range', 'keep_clear': 0.1, 'gear': "
      "[{'id':"
      " 'tower', 'kind': 'gantry', 'at': {'position': [0, 0, 0]}, 'mass': %.17g, 'cog': [0, 0],"
      " 'trolley': {'size': [1, 1, 0.6], 'underside': 21}, 'capacity': {'mass': 2e6, 'source':"
      " 'test'}, 'ground': {'allowed_pressure': %.17g, 'source': 'test'}, 'legs': [%s]}],"
      " 'structures': [" FORCE_SLAB "], 'loads': {'dynamic': {'rule': '0027-nd-11.2-onshore'}},"
      " 'components': [{'id': 'unit', 'mass': %.17g, 'mass_factor': %.17g, 'cog': [0, 0, -1],%s"
      " 'solid': {'kind': 'box', 'size': [1, 1, 1]}, 'at': {'position': [%.17g, %.17g, 5]}}],"
      " 'programme': [{'lift': 'one', 'component': 'unit', 'hook_point': [0, 0, 0], 'rigging':"
      " {'main': {'gear': 'tower', 'hook_above': 1, 'block': {'diameter': 0.4, 'height': 0.5,"
      " 'mass': %.17g}, 'slings': [{'id': 'leg', 'to': [0, 0, 0], 'diameter': 0.02, 'mass': 120,"
      " 'wll': 1e6}]}}, 'moves': [{'do': 'wait', 'seconds': 10}]}]}",
      TOWER_KG, plan->allowed_pa > 0 ? plan->allowed_pa : 1e7, legs->str, plan->mass_kg,
      plan->factor, plan->more != NULL ? plan->more : "", plan->at_m[0], plan->at_m[1],
      plan->block_kg);
  return test_run (text);
}

static gboolean
has_number (const TrnFinding *f, const char *what)
{
  for (guint i = 0; i < f->numbers->len; i++)
    if (g_str_equal (g_array_index (f->numbers, TrnFindingNumber, i).what, what))
      return TRUE;
  return FALSE;
}

/* @dynamic_kg on the hook, of which @below_kg below it, with @factor at a hook load of @at_kg; NAN:
 * at the greatest. */
static void
assert_dynamic (const Plan *plan, double rest_kg, double dynamic_kg, double below_kg, double factor,
                double at_kg)
{
  TestRun run = run_plan (plan);
  const TrnFinding *f = test_force (&run, TRN_CHECK_HOOK_LOAD, "tower", NULL);
  TEST_PASSES (f, TRN_STATE_KNOWN);
  test_assert_force (f->value, rest_kg);
  g_assert_cmpfloat (test_number (f, "dynamic-factor"), ==, factor);
  g_assert_cmpint (has_number (f, "dynamic-load"), ==, !isnan (at_kg));
  if (!isnan (at_kg))
    {
      g_assert_cmpfloat (test_number (f, "dynamic-load"), ==, at_kg);
      test_assert_force (test_number (f, "dynamic-load") * factor, dynamic_kg);
    }
  else
    test_assert_force (f->value * factor, dynamic_kg);
  test_assert_force (test_force (&run, TRN_CHECK_CAPACITY, "tower", NULL)->value, dynamic_kg);
  test_assert_force (test_force (&run, TRN_CHECK_SLINGS, "leg", "tension")->value, below_kg * G);
  test_run_clear (&run);
}

/* 0027/ND Rev 11.2, Table 5-1, onshore: 3–100 t 1.10, to 1000 t 1.05, above 1.03. 98 t with a mass
 * factor of 1.03 are 100.94 t, with 900 kg of block and 120 kg of sling from 99.02 t to 101.96 t:
 * 101.96 · 1.05 = 107.06 t, but 99.02 · 1.10 = 108.92 t and 100 · 1.10 = 110 t. Below the block
 * 900 kg less: 99.1 · 1.10 = 109.01 t. */
static void
test_hundred_tonnes (void)
{
  assert_dynamic (&(Plan){ .mass_kg = 98e3, .factor = 1.03, .block_kg = 900 }, 101960, 110e3,
                  99.1e3 * 1.1, 1.1, 100e3);
  /* Without a factor nothing is beside what is stated. */
  assert_dynamic (&(Plan){ .mass_kg = 98e3, .factor = 1, .block_kg = 900 }, 99020, 99020 * 1.1,
                  98120 * 1.1, 1.1, NAN);
  assert_dynamic (&(Plan){ .mass_kg = 100.94e3, .factor = 1, .block_kg = 900 }, 101960,
                  101960 * 1.05, 101060 * 1.05, 1.05, NAN);
  /* 99.02 t to 118.62 t: 124.551 t are more than 110 t. */
  assert_dynamic (&(Plan){ .mass_kg = 98e3, .factor = 1.2, .block_kg = 900 }, 118620, 118620 * 1.05,
                  117720 * 1.05, 1.05, NAN);
  /* 100 t as stated: the end of the row belongs to it. */
  assert_dynamic (&(Plan){ .mass_kg = 98980, .factor = 1.01, .block_kg = 900 }, 100989.8, 110e3,
                  99.1e3 * 1.1, 1.1, 100e3);
  /* A block of 90 t: below it 10 t · 1.10 are less than the 13 t · 1.05 of the greatest mass. */
  assert_dynamic (&(Plan){ .mass_kg = 9880, .factor = 1.304, .block_kg = 90e3 },
                  90120 + 9880 * 1.304, 110e3, (120 + 9880 * 1.304) * 1.05, 1.1, 100e3);
}

/* The table begins at 3 t. What may be less than that, as stated, has no factor, though it may be
 * more. */
static void
test_three_tonnes (void)
{
  const Plan small = { .mass_kg = 2700, .factor = 1.2, .block_kg = 20 },
             enough = { .mass_kg = 2860, .factor = 1.2, .block_kg = 20 };
  TestRun run = run_plan (&small);
  TEST_UNKNOWN (test_force (&run, TRN_CHECK_CAPACITY, "tower", NULL), "loads/dynamic/factor");
  test_run_clear (&run);
  run = run_plan (&enough);
  test_assert_force (test_force (&run, TRN_CHECK_CAPACITY, "tower", NULL)->value, 3572 * 1.1);
  test_run_clear (&run);
}

/* 980 t and 1.03: from 981.02 t to 1010.42 t: 1040.7 t beside 1000 · 1.05 = 1050 t. From 91.02 t to
 * 1000.02 t both rows end between: 110 t, 1050 t and 1000.02 · 1.03 = 1030 t. */
static void
test_thousand_tonnes (void)
{
  assert_dynamic (&(Plan){ .mass_kg = 980e3, .factor = 1.03, .block_kg = 900 }, 1010420, 1050e3,
                  999.1e3 * 1.05, 1.05, 1000e3);
  assert_dynamic (&(Plan){ .mass_kg = 90e3, .factor = 11.1, .block_kg = 900 }, 1000020, 1050e3,
                  999.1e3 * 1.05, 1.05, 1000e3);
  assert_dynamic (&(Plan){ .mass_kg = 1009.4e3, .factor = 1, .block_kg = 900 }, 1010420,
                  1010420 * 1.03, 1009520 * 1.03, 1.03, NAN);
}

/* ---- four supports ---- */

static double
support (const TrnFinding *f, guint i)
{
  g_autofree char *name = g_strdup_printf ("support-%u", i);
  return test_number (f, name);
}

/* F = W (½ ± ex/Sx)(½ ± ey/Sy): 191.3 t at 2.217 m and 1.108 m beside the middle of 7.2 m bear with
 * (0.5 + 0.3079)(0.5 + 0.1539) W on one of 4.84 m², 204.8 kPa; springs bear 0.4809 W, 186.4 kPa.
 * The opposite one: 0.1921 · 0.3461 W as a beam, 0.0191 W as a spring. On the other diagonal
 * springs bear more. 190 kPa, between the two, are too much. */
static void
test_leg_share (void)
{
  const double at = 191.3e3 / 1.05, u = 2.217 / 7.2, v = 1.108 / 7.2, w = 191.3e3 * G;
  Plan plan = { .mass_kg = at - 1020, .factor = 1, .block_kg = 900, .at_m = { 2.217, 1.108 } };
  TestRun run = run_plan (&plan);
  const TrnFinding *f = test_force (&run, TRN_CHECK_GROUND, "tower", NULL);
  TEST_PASSES (f, TRN_STATE_WITHIN);
  test_assert_between (f->value, 204.8e3, 50, 50);
  test_assert_force (f->value, w * (0.5 + u) * (0.5 + v) / 4.84);
  test_assert_force (support (f, 2), w * (0.5 + u) * (0.5 + v));
  test_assert_force (support (f, 1), w * (0.5 - u) * (0.5 - v));
  test_assert_force (support (f, 3), w * (0.25 + (u - v) / 2));
  test_assert_force (support (f, 4), w * (0.25 + (v - u) / 2));
  test_run_clear (&run);

  plan.allowed_pa = 190e3;
  run = run_plan (&plan);
  TEST_FAILS (test_force (&run, TRN_CHECK_GROUND, "tower", NULL), TRN_STATE_OUTSIDE);
  test_run_clear (&run);

  /* As springs only where they stand in no rectangle: a kite of the same span. */
  plan.legs = "[-3.6, 0] [3.6, 0] [2, -3.6] [2, 3.6]";
  plan.allowed_pa = 0;
  plan.at_m[0] = 1;
  plan.at_m[1] = 0;
  run = run_plan (&plan);
  f = test_force (&run, TRN_CHECK_GROUND, "tower", NULL);
  test_assert_force (support (f, 1) + support (f, 2) + support (f, 3) + support (f, 4), w);
  test_run_clear (&run);
}

/* Turned by any angle and listed in any order, and beside the origin of its gear, the same. */
static void
test_turned_rectangle (void)
{
  static const guint orders[3][4] = { { 0, 1, 2, 3 }, { 0, 2, 1, 3 }, { 2, 0, 3, 1 } };
  const double u = 0.2, v = -0.25, w = 191.3e3 * G, half_x = 4, half_y = 2.5;
  for (guint k = 0; k < 3; k++)
    {
      const double turn = 0.7 + k, cosine = cos (turn), sine = sin (turn);
      g_autoptr (GString) legs = g_string_new (NULL);
      double expected[4];
      for (guint i = 0; i < 4; i++)
        {
          const double s = orders[k][i] & 1 ? 1 : -1, t = orders[k][i] & 2 ? 1 : -1;
          g_string_append_printf (legs, "%s[%.17g, %.17g%s", i > 0 ? " " : "",
                                  1 + s * half_x * cosine - t * half_y * sine,
                                  -2 + s * half_x * sine + t * half_y * cosine, "]");
          expected[i] = w * fmax ((0.5 + s * u) * (0.5 + t * v), 0.25 + (s * u + t * v) / 2);
        }
      const double x = 2 * half_x * u, y = 2 * half_y * v;
      const Plan plan = { .mass_kg = 191.3e3 / 1.05 - 1020,
                          .factor = 1,
                          .block_kg = 900,
                          .legs = legs->str,
                          .at_m = { 1 + x * cosine - y * sine, -2 + x * sine + y * cosine } };
      TestRun run = run_plan (&plan);
      const TrnFinding *f = test_force (&run, TRN_CHECK_GROUND, "tower", NULL);
      TEST_PASSES (f, TRN_STATE_WITHIN);
      for (guint i = 0; i < 4; i++)
        test_assert_force (support (f, i + 1), expected[i]);
      test_run_clear (&run);
    }
}

/* At u = 0.4 and v = 0.3 the opposite one lifts off as a spring, by (0.25 − 0.35) W; as a beam it
 * bears 0.1 · 0.2 W. */
static void
test_lifts_by_less (void)
{
  const Plan plan = {
    .mass_kg = 191.3e3 / 1.05 - 1020, .factor = 1, .block_kg = 900, .at_m = { 0.4 * 7.2, 0.3 * 7.2 }
  };
  TestRun run = run_plan (&plan);
  const TrnFinding *f = test_force (&run, TRN_CHECK_GROUND, "tower", NULL);
  TEST_FAILS (f, TRN_STATE_LIFTED);
  g_assert_cmpfloat (test_number (f, TRN_GROUND_LIFTED), ==, 1);
  test_assert_force (test_number (f, TRN_GROUND_PULL), (0.1 * 191.3e3 - 0.25 * TOWER_KG) * G);
  /* The first leg, and where it is. */
  g_assert_cmpfloat (test_number (f, TRN_GROUND_LIFTED_X), ==, -3.6);
  g_assert_cmpfloat (test_number (f, TRN_GROUND_LIFTED_Y), ==, -3.6);
  g_assert_cmpstr (f->cause.why, ==, TRN_CAUSE_LEG);
  test_run_clear (&run);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/dynamic-range/three-tonnes", test_three_tonnes);
  g_test_add_func ("/checks/dynamic-range/hundred-tonnes", test_hundred_tonnes);
  g_test_add_func ("/checks/dynamic-range/thousand-tonnes", test_thousand_tonnes);
  g_test_add_func ("/checks/dynamic-range/leg-share", test_leg_share);
  g_test_add_func ("/checks/dynamic-range/turned-rectangle", test_turned_rectangle);
  g_test_add_func ("/checks/dynamic-range/lifts-by-less", test_lifts_by_less);
  return g_test_run ();
}
