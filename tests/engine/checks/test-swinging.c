/* What starting, stopping and slewing take off clearances, and how quick drives are: closed forms,
 * and random lifts by a crane past the true pendulum.
 *
 * A cube of 2 m hangs by the middle of its top, 1 m below the hook, from 17 m of rope of a tower:
 * its centre of gravity is 19 m below the tip, its lower corners √6 m from the hook point. */
#include <math.h>

#include "gravity.h"
#include "hoist.h"
#include "own-load.h"
#include "sway.h"
#include "swinging.h"
#include "test-checks.h"
#include "test-force.h"
#include "test-scale.h"

#define NEAR 1e-9
#define RAMP(seconds) "'loads': {'ramp': {'seconds': " seconds ", 'source': 'made up'}},"
#define RAMP_REST(seconds, rest) RAMP (seconds ", 'rest': " rest)
#define TOWER                                                                                      \
  "'gear': [{'id': 'tower', 'kind': 'gantry', 'at': {'position': [0, 0, 0]}, 'legs': [{'at': [8, " \
  "8], 'size': [0.5, 0.5], 'height': 30}], 'trolley': {'size': [1, 1, 1], 'underside': 25},"       \
  " 'out_of_plumb': {'most_deg': 5, 'source': 'made up'}}],"
#define SIZE_OF_CUBE "'solid': {'kind': 'box', 'size': [2, 2, 2]}, "
#define CUBE SIZE_OF_CUBE "'cog': [0, 0, 1], 'mass': 3000,"
/* Next to nothing. */
#define LIGHT "'mass': 1e-7"
#define BLOCK "'block': {'diameter': 0.4, 'height': 0.5, " LIGHT "}"
#define ONE_SLING(to) "'slings': [{'id': 'a', 'to': " to ", 'diameter': 0.03, " LIGHT "}]"
#define LIFT                                                                                       \
  "'hook_point': [0, 0, 2], 'rigging': {'main': {'gear': 'tower', 'hook_above': 1, " BLOCK         \
  ", " ONE_SLING ("[0, 0, 2]") "}},"
#define POST                                                                                       \
  "{'id': 'post', 'solid': {'kind': 'box', 'size': [1, 1, 1]}, 'at': {'position': [20, 0, 6]}}"
#define LEG(id, x, z)                                                                              \
  "{'id': '" id "', 'to': [" x ", 0, " z                                                           \
  "], 'diameter': 0.03, 'length': 5.885575587824865, " LIGHT "}"
#define SHORT(id, to) "{'id': '" id "', 'to': [" to "], 'diameter': 0.03, " LIGHT "}"
#define TWO_LEGS(z) LEG ("a", "1", z) ", " LEG ("b", "-1", z)
#define TWO_MORE_LEGS(z) LEG ("c", "1", z) ", " LEG ("d", "-1", z)
#define TRAVEL(seconds) "{'do': 'travel', 'by': [6, 0], 'seconds': " seconds "}"
/* By the chord of its swing, of a cube whose hook is @rope_m below the tip: as one body it is so
 * much longer, and it nods about its hook point, 1 m above its centre of gravity, √6 m from its
 * corners. */
#define WHOLE_M(rope_m) ((rope_m) + 2.0)
#define HOOK_M(rope_m) sqrt (WHOLE_M (rope_m) * (rope_m))
#define FAR_M(rope_m) sqrt (WHOLE_M (rope_m) * ((rope_m) + 1 + 6))

static char *
plan_text (const char *plan, const char *structures, const char *unit, const char *lift,
           const char *moves)
{
  return g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.5, %s 'structures': [%s],"
      " 'components': [{'id': 'unit', %s 'at': {'position': [0, 0, 5]}}], 'programme': [{'lift':"
      " 'one', 'component': 'unit', %s 'moves': [%s]}]}",
      plan, structures, unit, lift, moves);
}

static TestRun
run_plan (const char *plan, const char *structures, const char *unit, const char *lift,
          const char *moves)
{
  g_autofree char *text = plan_text (plan, structures, unit, lift, moves);
  return test_run (text);
}

/* Of the load past the post, in that move. */
static double
swing_of (const TestRun *run, guint lift, int move)
{
  const TrnFinding *f
      = test_finding_of (run, TRN_CHECK_CLEARANCE, lift, move, "load", "post", NULL);
  g_assert_false (isnan (f->allowance_m));
  return test_allowance_part (f, "swing");
}

static double
swing_in (const TestRun *run, int move)
{
  return swing_of (run, 0, move);
}

static void
assert_unknown (const char *plan, const char *unit, const char *lift, const char *moves,
                const char *missing)
{
  TestRun run = run_plan (plan, POST, unit, lift, moves);
  TEST_UNKNOWN (test_finding_of (&run, TRN_CHECK_SWINGING, 0, -1, "load", NULL, "swing"), missing);
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "load", "post", NULL);
  TEST_UNKNOWN (f, missing);
  g_assert_true (isnan (f->allowance_m));
  test_run_clear (&run);
}

/* Starts and stops add twice the acceleration each where they take long, and else the speed. */
static void
test_travel (void)
{
  const double a = 0.06 / 10, v = 6 / 109.9;
  const double slow = 4 * a / G, quick = 2 * v / sqrt (G * 19);
  TestRun run = run_plan (RAMP ("10") TOWER, POST, CUBE, LIFT, TRAVEL ("110"));
  test_assert_between (swing_in (&run, 0), slow * FAR_M (17), NEAR, NEAR);
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_SWINGING, 0, -1, "load", NULL, "swing");
  test_assert_judged (f, TRN_VERDICT_NOTE, TRN_STATE_KNOWN, NULL);
  test_assert_between (f->value, slow * FAR_M (17), NEAR, NEAR);
  test_assert_between (test_number (f, "swing-angle"),
                       2 * asin (slow * sqrt (WHOLE_M (17)) / 2) * 180 / G_PI, 1e-6, 1e-6);
  g_assert_cmpstr (f->source, ==, "made up");
  /* Block and rope go as the hook; it is out of plumb by that. */
  f = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "tower/block", "post", NULL);
  test_assert_between (test_allowance_part (f, "swing"), slow * HOOK_M (17), NEAR, NEAR);
  f = test_finding_of (&run, TRN_CHECK_HOIST_LINES, 0, 0, "tower", NULL, NULL);
  test_assert_between (test_number (f, "swing-aside"), slow * HOOK_M (17), NEAR, NEAR);
  f = test_finding_of (&run, TRN_CHECK_SPEEDS, 0, 0, "tower", NULL, "travel");
  test_assert_between (f->value, 0.06, NEAR, NEAR);
  test_run_clear (&run);
  run = run_plan (RAMP ("0.1") TOWER, POST, CUBE, LIFT, TRAVEL ("110"));
  test_assert_between (swing_in (&run, 0), quick * FAR_M (17), NEAR, NEAR);
  test_run_clear (&run);
}

/* A beam of 12 m, travelling across its legs, nods about the points that they hold it by, 0.2 m
 * above its centre of gravity, whether it hangs as drawn or free, whether legs are doubled or
 * spread, and wherever its hook point is; by legs to points on a slope of 45 degrees about a line
 * that gives it back half as much. Of two legs a double pendulum that gets both impulses when they
 * do most turns by 4.37 degrees, integrated outside of this project. */
static void
test_nods (void)
{
  static const struct
  {
    const char *hook_point, *slings, *more;
    double nods_m;
  } cases[] = {
    { "1.2], 'rigging': {'main': {'gear': 'tower', 'hook_above': 5.8", TWO_LEGS ("1.2"), "", 0.2 },
    { "1.2], 'rigging': {'main': {'gear': 'tower', 'hook_above': 5.8", TWO_LEGS ("1.2"),
      "'hangs': 'free', ", 0.2 },
    { "1.2], 'rigging': {'main': {'gear': 'tower', 'hook_above': 5.8",
      TWO_LEGS ("1.2") "," TWO_MORE_LEGS ("1.2"), "", 0.2 },
    { "2], 'rigging': {'main': {'gear': 'tower', 'hook_above': 5", TWO_LEGS ("1.2"), "", 0.2 },
    { "1.2], 'rigging': {'main': {'gear': 'tower', 'hook_above': 5.8",
      SHORT ("a", "1, 3, 1.2") ", " SHORT ("b", "-1, 3, 1.2") ", " SHORT ("c", "0, -3, 1.2"), "",
      0.2 },
    { "1.2], 'rigging': {'main': {'gear': 'tower', 'hook_above': 5.8",
      SHORT ("a", "-0.4, 0, 1.2") ", " SHORT ("b", "0.4, 0, 2"), "", 0.1 },
  };
  const double least_rad = 4.37 * G_PI / 180;
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *lift
          = g_strdup_printf ("'hook_point': [0, 0, %s, " BLOCK ", 'slings': [%s]}}, %s",
                             cases[i].hook_point, cases[i].slings, cases[i].more);
      TestRun run = run_plan (
          RAMP ("0.1") TOWER, POST,
          "'solid': {'kind': 'box', 'size': [2, 12, 2]}, 'cog': [0, 0, 1], 'mass': 3000,", lift,
          "{'do': 'travel', 'by': [0, 6], 'seconds': 110}");
      const TrnFinding *f
          = test_finding_of (&run, TRN_CHECK_SWINGING, 0, -1, "load", NULL, "swing");
      const double chord = 2 * 6 / 109.9 / sqrt (G * 19) * sqrt (19 / cases[i].nods_m);
      test_assert_between (test_number (f, "swing-angle"), 2 * asin (chord / 2) * 180 / G_PI, 1e-6,
                           1e-6);
      g_assert_cmpfloat (chord, >, least_rad);
      /* 18.8 m below the tip, 1 m beside the hook point, with corners 6.2 m from that. Of two legs
       * one may go slack, so that the load hangs from the other, a little aside. */
      if (i == 0)
        {
          const double far_m = sqrt (38.44) + 1, both = chord * sqrt (0.2 * (1.0 / 13 + 1 / 5.8)),
                       slack = tan (2 * asin (both / 2)), chain_m = 13 + 5.8 * (1 + slack * slack);
          g_assert_cmpfloat (slack, <, 1 / 5.8);
          test_assert_between (f->value, chord * sqrt (0.2) * sqrt (chain_m + far_m * far_m / 0.2),
                               1e-9, 1e-9);
        }
      /* The legs tilt, too: they are 5 m high where they are least. */
      if (i == G_N_ELEMENTS (cases) - 1)
        {
          const double far_m = sqrt (38.44) + sqrt (0.4 * 0.4 + 0.8 * 0.8),
                       both = chord * sqrt (0.1 * (1.0 / 13 + 1 / 5.0)),
                       slack = tan (2 * asin (both / 2)),
                       arm_m = 5.8 + 2 * far_m + far_m * far_m / 5,
                       chain_m = 13 + arm_m * (1 + slack * slack);
          test_assert_between (f->value, chord * sqrt (0.1) * sqrt (chain_m + far_m * far_m / 0.1),
                               1e-9, 1e-9);
        }
      test_run_clear (&run);
    }
}

/* What it turns by in a quick travel, in degrees. */
static double
turns_deg (const char *unit, const char *lift)
{
  TestRun run = run_plan (RAMP ("0.1") TOWER, POST, unit, lift, TRAVEL ("110"));
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_SWINGING, 0, -1, "load", NULL, "swing");
  const double deg = test_number (f, "swing-angle");
  test_run_clear (&run);
  return deg;
}

static double
chord_of (double deg)
{
  return 2 * sin (deg / 360 * G_PI);
}

#define WITH_MASSES(block, beam, slings)                                                           \
  "'hook_point': [0, 0, 2], 'rigging': {'main': {'gear': 'tower', 'hook_above': 4, 'block':"       \
  " {'diameter': 0.4, 'height': 0.5" block "}, 'beam': {'id': 'bar', 'length': 2, 'width': 0.2,"   \
  " 'depth': 0.2, 'below_hook': 1, 'between': [[-1, 0, 2], [1, 0, 2]]" beam "}" slings "}},"
#define SLINGS(mass, shackle)                                                                      \
  ", 'slings': [{'id': 'a', 'from': 'beam-a', 'to': [-1, 0, 2], 'diameter': 0.03" mass             \
  "}, {'id': 'b', 'from': 'beam-b', 'to': [1, 0, 2], 'diameter': 0.03, 'mass': 60" shackle "}]"

/* What is between hook and load makes it swing by more; none of it may be left out of what swings,
 * nor what the load weighs, as for the hook load. */
static void
test_rigging_mass (void)
{
#define SHACKLE ", 'shackle': {'id': 's', 'mass': 40}"
#define MASS(kg) ", 'mass': " kg
  static const struct
  {
    const char *unit, *lift, *missing;
  } cases[] = {
    { CUBE, WITH_MASSES (MASS ("400"), MASS ("300"), SLINGS (MASS ("100"), SHACKLE)), NULL },
    { CUBE, WITH_MASSES ("", MASS ("300"), SLINGS (MASS ("100"), SHACKLE)), "block/mass" },
    { CUBE, WITH_MASSES (MASS ("400"), "", SLINGS (MASS ("100"), SHACKLE)), "beam/mass" },
    { CUBE, WITH_MASSES (MASS ("400"), MASS ("300"), SLINGS ("", SHACKLE)), "slings/mass" },
    { CUBE,
      WITH_MASSES (MASS ("400"), MASS ("300"), SLINGS (MASS ("100"), ", 'shackle': {'id': 's'}")),
      "shackle/mass" },
    { CUBE, WITH_MASSES (MASS ("400"), MASS ("300"), ""), "slings" },
    { SIZE_OF_CUBE "'cog': [0, 0, 1],",
      WITH_MASSES (MASS ("400"), MASS ("300"), SLINGS (MASS ("100"), SHACKLE)), "mass" },
  };
  const char *const light
      = WITH_MASSES (MASS ("1e-7"), MASS ("1e-7"),
                     ", 'slings': [{'id': 'a', 'from': 'beam-a', 'to': [-1, 0, "
                     "2], 'diameter': 0.03, " LIGHT "}, {'id': 'b', 'from': "
                     "'beam-b', 'to': [1, 0, 2], 'diameter': 0.03, " LIGHT "}]");
  test_assert_between (chord_of (turns_deg (cases[0].unit, cases[0].lift)),
                       chord_of (turns_deg (CUBE, light)) * sqrt (1 + 900.0 / 3000), 1e-9, 1e-9);
  for (guint i = 1; i < G_N_ELEMENTS (cases); i++)
    {
      assert_unknown (RAMP ("0.1") TOWER, cases[i].unit, cases[i].lift, TRAVEL ("110"),
                      cases[i].missing);
      /* Hoisted from rest it does not swing. */
      TestRun run = run_plan (RAMP ("0.1") TOWER, POST, cases[i].unit, cases[i].lift,
                              "{'do': 'hoist', 'by': 1, 'seconds': 60}");
      g_assert_cmpfloat (swing_in (&run, 0), ==, 0);
      test_run_clear (&run);
    }
}

/* Below a beam of which no sling to the load is named it nods about the points below its ends, not
 * about a hook point above them; a line may be steeper than drawn by what the load leans. */
static void
test_joints (void)
{
#define BAR_AT(z)                                                                                  \
  "'hook_point': [0, 0, 2], 'rigging': {'main': {'gear': 'tower', 'hook_above': 3, 'beam': {'id':" \
  " 'bar', 'length': 2, 'width': 0.2, 'depth': 0.2, 'below_hook': 1, 'between': [[-1, 0, " z "],"  \
  " [1, 0, " z "]], " LIGHT "}, " BLOCK                                                            \
  ", 'slings': [{'id': 'a', 'to': 'beam-a', 'diameter': 0.03, " LIGHT "}]}},"
  const double high = chord_of (turns_deg (CUBE, BAR_AT ("2"))),
               low = chord_of (turns_deg (CUBE, BAR_AT ("1.25")));
  test_assert_between (low, high * 2, 1e-9, 1e-9);
  const double leans = chord_of (turns_deg (CUBE, BAR_AT ("2") "'tolerance': {'tilt_deg': 2},"));
  test_assert_between (leans, high / cos (2 * G_PI / 180), 1e-9, 0.01 * high);
  /* How high legs are is no matter of where the centre of gravity is: here 0.2 m, which may be 0.3
   * m higher or lower. */
  g_assert_cmpfloat (
      turns_deg (
          CUBE "'cog_box': [0, 0, 0.3],",
          "'hook_point': [0, 0, 2], 'rigging': {'main': {'gear': 'tower', 'hook_above': 1.3, "
          "'beam': {'id': 'bar', 'length': 2, 'width': 0.2, 'depth': 0.2, 'below_hook': 1, "
          "'between': [[-1, 0, 2], [1, 0, 2]], " LIGHT "}, " BLOCK
          ", 'slings': [{'id': 'a', 'from': "
          "'beam-a', 'to': [-1, 0, 2], 'diameter': 0.03, " LIGHT "}, {'id': 'b', 'from': 'beam-b', "
          "'to': [1, 0, 2], 'diameter': 0.03, " LIGHT "}]}}, 'tolerance': {'tilt_deg': 0.1},"),
      >, 0);
  TestRun run = run_plan (RAMP ("10") TOWER, POST, CUBE, BAR_AT ("0.9"), TRAVEL ("110"));
  TEST_UNKNOWN (test_finding_of (&run, TRN_CHECK_SWINGING, 0, -1, "load", NULL, "swing"),
                "swing/above");
  test_run_clear (&run);
}

/* A beam far below the hook, and short beside what it holds, goes farther aside than the hook: it
 * is a link of its own, 12 m below that, 24 m above the centre of gravity. With a load that leans
 * its middle goes as far as that turns it about the hook. */
static void
test_short_beam (void)
{
#define SHORT_BEAM                                                                                 \
  "'hook_point': [0, 0, 2], 'rigging': {'main': {'gear': 'tower', 'hook_above': 14, 'beam': "      \
  "{'id': 'bar', 'length': 0.2, 'width': 0.2, 'depth': 0.2, 'below_hook': 12, 'between': [[-1, "   \
  "0, 2], [1, 0, 2]], " LIGHT "}, " BLOCK ", 'slings': [{'id': 'a', 'to': 'beam-a', "              \
  "'diameter': 0.03, " LIGHT "}]}},"
  const double rope_m = 4, whole_m = rope_m + 14 + 7, chord = 2 * 6 / 109.9 / sqrt (G * whole_m);
  const struct
  {
    const char *loads, *lift;
    double least_m;
  } cases[] = {
    { RAMP ("0.1"), SHORT_BEAM, chord * sqrt (whole_m * (rope_m + 12)) },
    { "", SHORT_BEAM "'tolerance': {'tilt_deg': 2},", 2 * 12 * sin (G_PI / 180) },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *plan = g_strconcat (cases[i].loads, TOWER, NULL);
      TestRun run = run_plan (
          plan, POST,
          "'solid': {'kind': 'box', 'size': [2, 2, 2]}, 'cog': [0, 0, -5], 'mass': 3000,",
          cases[i].lift, TRAVEL ("110"));
      const TrnFinding *f = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "bar", "post", NULL);
      g_assert_cmpfloat (f->allowance_m, >=, cases[i].least_m);
      test_run_clear (&run);
    }
}

/* A sling turns against the load that it holds: 1 m of it, which that nods 1 m below, with c of 19
 * m by c √(19 (1/1 + 1/1)). Its first part, up to 0.6 m, is nearest; its shackle is no longer
 * straight. Of a swing that is not known neither is how near it comes. */
static void
test_against (void)
{
#define SHACKLED                                                                                   \
  "'hook_point': [0, 0, 2], 'rigging': {'main': {'gear': 'tower', 'hook_above': 1, " BLOCK         \
  ", 'slings': [{'id': 'a', 'to': [0, 0, 2], 'diameter': 0.03, 'wll': 9000, " LIGHT                \
  ", 'shackle': {'wll': 9000, 'pin': [1, 0, 0], " LIGHT "}}]}},"
#define LOADS                                                                                      \
  "'loads': {'ramp': {'seconds': 0.1, 'source': 'made up'}, 'dynamic': {'factor': 1, 'source': "   \
  "'made up'}},"
  const double chord = 2 * 6 / 49.9 / sqrt (G * 19) * sqrt (38), aside_rad = 2 * asin (chord / 2);
  TestRun run = run_plan (LOADS TOWER, POST, CUBE, SHACKLED, TRAVEL ("50"));
  const TrnFinding *f = test_force (&run, TRN_CHECK_RIGGING, "a", TRN_OWN_LOAD_ITEM);
  TEST_PASSES (f, TRN_STATE_WITHIN);
  test_assert_between (f->allowance_m, 0.6 * chord, 1e-9, 1e-9);
  f = test_force (&run, TRN_CHECK_SLINGS, "a", "shackle");
  test_assert_between (test_number (f, "aside"), aside_rad * 180 / G_PI, 1e-6, 1e-6);
  test_assert_force (test_number (f, "side-factor"), 0.7);
  test_run_clear (&run);
  run = run_plan (LOADS TOWER, POST, SIZE_OF_CUBE "'mass': 3000,", SHACKLED, TRAVEL ("50"));
  TEST_UNKNOWN (test_force (&run, TRN_CHECK_RIGGING, "a", TRN_OWN_LOAD_ITEM), "cog");
  test_run_clear (&run);
}

/* Without a ramp nothing is counted, which is said; speeds are those on average. */
static void
test_left_out (void)
{
  TestRun run = run_plan (TOWER, POST, CUBE, LIFT, TRAVEL ("100"));
  g_assert_cmpfloat (swing_in (&run, 0), ==, 0);
  g_assert_cmpuint (run.findings->checks_done & TRN_CHECK_BIT (TRN_CHECK_SWINGING), ==, 0);
  g_assert_cmpuint (run.findings->checks_done & TRN_CHECK_BIT (TRN_CHECK_SPEEDS), !=, 0);
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_SPEEDS, 0, 0, "tower", NULL, "travel");
  test_assert_between (f->value, 0.06, NEAR, NEAR);
  f = test_finding_of (&run, TRN_CHECK_SPEEDS, 0, -1, "tower", NULL, "line");
  g_assert_cmpfloat (f->value, ==, 0);
  test_run_clear (&run);
}

/* What a move leaves goes on in the next: the same angle on a rope that becomes longer, 1.5 times
 * as great a power of it on one that becomes shorter, until a wait is over that is long enough to
 * bring it to rest. */
static void
test_goes_on (void)
{
  const double c = 4 * 0.006 / G;
  TestRun run = run_plan (
      RAMP_REST ("10", "60") TOWER, POST, CUBE, LIFT,
      TRAVEL ("110") ", {'do': 'hoist', 'by': -3, 'seconds': 60},"
                     " {'do': 'hoist', 'by': 8, 'seconds': 160}, {'do': 'wait', 'seconds':"
                     " 60}, {'do': 'hoist', 'by': -1, 'seconds': 60}, " TRAVEL ("110"));
  const double up = c * pow (22.0 / 14, 1.5);
  test_assert_between (swing_in (&run, 1), c * FAR_M (20), NEAR, 0.02 * c);
  test_assert_between (swing_in (&run, 2), up * FAR_M (20), NEAR, 0.05 * up * FAR_M (20));
  test_assert_between (swing_in (&run, 3), up * FAR_M (12), NEAR, 0.05 * up * FAR_M (12));
  g_assert_cmpfloat (swing_in (&run, 4), ==, 0);
  test_assert_between (swing_in (&run, 5), c * FAR_M (13), NEAR, 0.02 * c);
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_SPEEDS, 0, 1, "tower", NULL, "line");
  test_assert_between (f->value, 3.0 / 50, NEAR, NEAR);
  test_run_clear (&run);
}

/* A wait that is not so long, or any where the plan does not say how long it has to be, brings
 * nothing to rest. */
static void
test_no_rest (void)
{
  static const char *const ramps[] = { RAMP ("10") TOWER, RAMP_REST ("10", "60.001") TOWER };
  for (guint i = 0; i < G_N_ELEMENTS (ramps); i++)
    {
      TestRun run = run_plan (ramps[i], POST, CUBE, LIFT,
                              TRAVEL ("110") ", {'do': 'wait', 'seconds': 60}, {'do': 'hoist', "
                                             "'by': -1, 'seconds': 60}");
      const double after_m = swing_in (&run, 0);
      g_assert_cmpfloat (after_m, >, 0);
      test_assert_between (swing_in (&run, 1), after_m, NEAR, NEAR);
      g_assert_cmpfloat (swing_in (&run, 2), >, after_m);
      test_run_clear (&run);
    }
}

/* ---- from lift to lift ---- */

#define THEN(lift) "]}, {'lift': 'two', 'component': 'unit', " lift " 'moves': ["
#define DOWN "{'do': 'hoist', 'by': -3, 'seconds': 60}"

/* What a lift leaves swinging on its hook swings on in the next, as if it were one. */
static void
test_next_lift (void)
{
  TestRun one = run_plan (RAMP_REST ("10", "60") TOWER, POST, CUBE, LIFT, TRAVEL ("110") ", " DOWN);
  const double whole_m = swing_in (&one, 1);
  test_run_clear (&one);
  TestRun two
      = run_plan (RAMP_REST ("10", "60") TOWER, POST, CUBE, LIFT, TRAVEL ("110") THEN (LIFT) DOWN);
  g_assert_cmpfloat (swing_of (&two, 1, 0), >, 0);
  test_assert_between (swing_of (&two, 1, 0), whole_m, NEAR, NEAR);
  test_run_clear (&two);
  /* At rest by the end of the first. */
  TestRun rest = run_plan (RAMP_REST ("10", "60") TOWER, POST, CUBE, LIFT,
                           TRAVEL ("110") ", {'do': 'wait', 'seconds': 60}" THEN (LIFT) DOWN);
  g_assert_cmpfloat (swing_of (&rest, 1, 0), ==, 0);
  test_run_clear (&rest);
  /* Hung otherwise in between. */
  TestRun other = run_plan (RAMP_REST ("10", "60") TOWER, POST, CUBE, LIFT,
                            TRAVEL ("110") THEN ("'hook_point': [0, 0, 2], 'rigging': {'main': "
                                                 "{'gear': 'tower', 'hook_above': 2}},") DOWN);
  TEST_UNKNOWN (test_finding_of (&other, TRN_CHECK_SWINGING, 1, -1, "load", NULL, "swing"),
                TRN_MISSING_HOLDER);
  test_run_clear (&other);
}

/* What is found of the second lift is not found again where the first leaves it swinging, and did
 * not before, though all else of it is the same. */
static void
test_found_again (void)
{
  static const char *const firsts[]
      = { TRAVEL ("110") ", {'do': 'wait', 'seconds': 60}" THEN (LIFT) DOWN,
          "{'do': 'wait', 'seconds': 60}, " TRAVEL ("110") THEN (LIFT) DOWN };
  g_autoptr (TrnCache) cache = trn_cache_new (1 << 20);
  const TrnCheckOptions options = { .jobs = 1, .cache = cache };
  for (guint i = 0; i < G_N_ELEMENTS (firsts); i++)
    {
      g_autofree char *text = plan_text (RAMP_REST ("10", "60") TOWER, POST, CUBE, LIFT, firsts[i]);
      TestRun run = test_run_with (text, &options);
      if (i == 0)
        g_assert_cmpfloat (swing_of (&run, 1, 0), ==, 0);
      else
        g_assert_cmpfloat (swing_of (&run, 1, 0), >, 0.02);
      test_run_clear (&run);
    }
  g_assert_cmpuint (trn_cache_count (cache, TRN_CACHE_FINDING).misses, >, 0);
}

/* It passes by a post at 0.53 m where 0.5 m is to be kept, and swings by 0.05 m. */
static void
test_makes_short (void)
{
  const char *const beside = "{'id': 'post', 'solid': {'kind': 'box', 'size': [1, 1, 9]}, 'at': "
                             "{'position': [3, 2.03, 0]}}";
  TestRun drawn = run_plan (TOWER, beside, CUBE, LIFT, TRAVEL ("110"));
  TEST_PASSES (test_finding_of (&drawn, TRN_CHECK_CLEARANCE, 0, 0, "load", "post", NULL),
               TRN_STATE_CLEAR);
  test_run_clear (&drawn);
  TestRun run = run_plan (RAMP ("10") TOWER, beside, CUBE, LIFT, TRAVEL ("110"));
  TEST_FAILS (test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "load", "post", NULL),
              TRN_STATE_SHORT);
  test_run_clear (&run);
}

/* ---- a slew ---- */

#define CRANE                                                                                      \
  "'gear': [{'id': 'crane', 'kind': 'crane', 'at': {'position': [-30, 0, 0]}, 'boom': {'foot':"    \
  " [0, 2], 'length': 50, 'section': [0.6, 0.8], 'angle': [20, 80]}, 'hook_to_tip': 3}],"
#define CRANE_LIFT                                                                                 \
  "'hook_point': [0, 0, 14], 'rigging': {'main': {'gear': 'crane', 'hook_above': 5, " BLOCK        \
  ", " ONE_SLING ("[0, 0, 14]") "}},"

/* Half a turn in 70 s, 10 s of it each for start and stop: a part for the jumps of what is along
 * the arc, one for what turns while it comes up to speed and stops, and one for what turns evenly.
 */
static double
half_turn (double radius_m)
{
  const double w = G_PI / 60, a = w * radius_m / 10, out = w * w * radius_m, jerk = w * out;
  return (4 * a + 2 * (0.25 * jerk * 10 + 1.5 * out) + 50 * jerk) / G;
}

/* On slewing and sway in handbooks: at a radius of 30 m and 0.5 turns a minute a = ω² r = 0.0822
 * m/s², tan φ = a/g = 0.00839, on 30 m 0.25 m. Here half a turn between two ramps: the tip of the
 * boom of 50 m is 42 m up, the centre of gravity 12 m: 30 m between. */
static void
test_throw_out (void)
{
  TestRun run = run_plan (RAMP ("10") CRANE, POST, CUBE, CRANE_LIFT,
                          "{'do': 'hoist', 'by': 6, 'seconds': 300}, {'do': 'wait', 'seconds': 60},"
                          " {'do': 'slew', 'by': 180, 'centre': [-30, 0], 'seconds': 70}");
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_SWINGING, 0, -1, "load", NULL, "swing");
  const double a = 0.0822, first = 0.00839 * 30;
  test_assert_between (first, 0.25, 0.005, 0.005);
  test_assert_between (test_number (f, "throw-out"), first, 0, 0.01 * first);
  const double starts = 4 * G_PI / 60 * 30 / 10 / G;
  const double deg = test_number (f, "swing-angle"),
               chord = 2 * sin (deg * G_PI / 360) / sqrt (30.0 / 13);
  g_test_message ("%.4f rad, throw-out alone %.4f rad, starts and stops %.4f rad", chord, a / G,
                  starts);
  /* The height of the tip, and the rope, are enclosed. */
  test_assert_between (chord, half_turn (30), 1e-6, 0.03 * half_turn (30));
  f = test_finding_of (&run, TRN_CHECK_SPEEDS, 0, 2, "crane", NULL, "slew");
  test_assert_between (f->value, 3, NEAR, 0.02 * 3);
  f = test_finding_of (&run, TRN_CHECK_SPEEDS, 0, 0, "crane", NULL, "line");
  test_assert_between (f->value, 6.0 / 290, NEAR, 1e-4);
  test_run_clear (&run);
}

/* The hook goes round a point 1 m off. */
static void
test_turn (void)
{
  TestRun run = run_plan (RAMP ("10") TOWER, POST, CUBE, LIFT,
                          "{'do': 'turn', 'by': 180, 'about': [1, 0, 2], 'seconds': 70}");
  test_assert_between (swing_in (&run, 0), half_turn (1) * FAR_M (17), NEAR,
                       1e-3 * half_turn (1) * FAR_M (17));
  test_run_clear (&run);
}

/* ---- in wind ---- */

#define WIND "'wind': {'speed': 15, 'drag': 1.2, 'source': 'made up'},"
#define LOW_CRANE                                                                                  \
  "'gear': [{'id': 'crane', 'kind': 'crane', 'at': {'position': [-44, 0, -9]}, 'boom': {'foot':"   \
  " [0, 2], 'length': 50, 'section': [0.6, 0.8], 'angle': [5, 80]}, 'hook_to_tip': 3}],"
#define LUFF                                                                                       \
  "{'do': 'move', 'by': [0.8, 0, -1.5], 'seconds': 15}, {'do': 'hoist', 'by': -1, 'seconds': 60}"

/* A boom far down lets its tip down by 1.86 times what it goes out: what the wind takes aside grows
 * by e to the power of 2 r |z′|/√(9.81 m/s² l), l some 10.7 m, and by a little more as it bends. So
 * it does in the moves after that. */
static void
test_in_wind (void)
{
  g_autofree char *text = plan_text (
      WIND RAMP ("3.75") LOW_CRANE, POST, CUBE,
      "'hook_point': [0, 0, 2], 'rigging': {'main': {'gear': 'crane', 'hook_above': 1, " BLOCK
      ", " ONE_SLING ("[0, 0, 2]") "}},",
      LUFF);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  const TrnSceneOptions options = { .jobs = 1 };
  TrnScene *scene = trn_scene_build_take (test_programme (text), &options, diags);
  g_assert_nonnull (scene);
  const TrnCheckOptions check_options = { .jobs = 1 };
  TrnLiftCheck check;
  trn_lift_check_init (&check, scene, 0, &check_options);
  const double least = exp (2 * (1.0 / 11.25) * 1.86 * 0.8 / sqrt (G * 10.7));
  for (guint move = 0; move < 2; move++)
    {
      const TrnAllowance grown = trn_lift_check_allowance (&check, move);
      g_assert_cmpfloat (check.swinging[move].growth, >, least);
      g_assert_cmpfloat (check.swinging[move].growth, <, 1 + 2 * (least - 1));
      const double growth = check.swinging[move].growth;
      check.swinging[move].growth = 1;
      const TrnAllowance calm = trn_lift_check_allowance (&check, move);
      g_test_message ("%.4f, of it without %.4f", growth, grown.wind_m / calm.wind_m);
      g_assert_cmpfloat (grown.wind_m, >=, growth * calm.wind_m);
      g_assert_cmpfloat (grown.hook_wind_m, >=, growth * calm.hook_wind_m);
      g_assert_cmpfloat (grown.wind_rad, >=, growth * calm.wind_rad);
      g_assert_cmpfloat (grown.swing_m, ==, calm.swing_m);
    }
  trn_lift_check_clear (&check);
  trn_scene_free (scene);
}

/* ---- what is not known ---- */

#define TOWERS                                                                                     \
  "'gear': [{'id': 'west', 'kind': 'gantry', 'at': {'position': [0, 0, 0]}, 'legs': [{'at': [8, "  \
  "8], 'size': [0.5, 0.5], 'height': 30}], 'trolley': {'size': [1, 1, 1], 'underside': 25}}, "     \
  "{'id': 'east', 'kind': 'gantry', 'at': {'position': [0, 0, 0]}, 'legs': [{'at': [8, -8], "      \
  "'size': [0.5, 0.5], 'height': 30}], 'trolley': {'size': [1, 1, 1], 'underside': 25}}, {'id': "  \
  "'cart', 'kind': 'tail-trolley', 'at': {'position': [0, 0, 4]}, 'size': [1, 1, 1], 'track': "    \
  "[-9, 9]}],"
#define BAR "'solid': {'kind': 'box', 'size': [8, 1, 1]}, 'cog': [0, 0, 0.5], 'mass': 3000,"
#define BAR_LIFT(tail, more)                                                                       \
  "'hook_point': [-3, 0, 1], 'rigging': {'main': {'gear': 'west', 'hook_above': 1}, 'tail': "      \
  "{'gear': '" tail "', 'point': [3, 0, 1]" more "}},"

/* By the tail hook alone, 17.5 m below its tip, 1 m above the tail point; the corners of the bar
 * are 4 m, 0.5 m and 1.5 m from that. */
static void
test_tail_alone (void)
{
  TestRun run = run_plan (
      RAMP ("10") TOWERS, POST, BAR,
      "'hook_point': [-3, 0, 1], 'rigging': {'main': {'gear': 'west', 'hook_above': 1, 'moves': [0,"
      " 0]}, 'tail': {'gear': 'east', 'point': [0, 0, 1.5], 'hook_above': 1, " BLOCK
      ", " ONE_SLING ("[0, 0, 1.5]") "}},",
      "{'do': 'wait', 'seconds': 1}, " TRAVEL ("110"));
  g_assert_cmpfloat (swing_in (&run, 0), ==, 0);
  /* What the main hook leaves it swinging is known no more, until it comes to rest. */
  TestRun over = run_plan (
      RAMP_REST ("10", "9") TOWERS, POST, BAR,
      "'hook_point': [0, 0, 1], 'rigging': {'main': {'gear': 'west', 'hook_above': 1, 'moves': [0,"
      " 0], " BLOCK ", " ONE_SLING ("[0, 0, 1]") "}, 'tail': {'gear': 'east', 'point': [0, 0, 1.5],"
                                                 " 'hook_above': 1, 'moves': [1, 3]}},",
      TRAVEL ("110") ", {'do': 'hoist', 'by': 1, 'seconds': 60}, {'do': 'wait', 'seconds': 9}, "
                     "{'do': 'hoist', 'by': 1, 'seconds': 60}");
  g_assert_cmpfloat (swing_in (&over, 0), >, 0);
  for (int move = 1; move <= 2; move++)
    TEST_UNKNOWN (test_finding_of (&over, TRN_CHECK_CLEARANCE, 0, move, "load", "post", NULL),
                  "swing/two-hooks");
  g_assert_cmpfloat (swing_in (&over, 3), ==, 0);
  test_run_clear (&over);
  test_assert_between (swing_in (&run, 1), 4 * 0.006 / G * sqrt (19.5 * (18.5 + 18.5)), NEAR, NEAR);
  test_run_clear (&run);
}

/* Taken by a tail trolley while it swings, nobody knows how it goes on, until it is at rest. */
static void
test_guided (void)
{
  TestRun run = run_plan (
      RAMP_REST ("10", "60") TOWERS, POST, BAR,
      "'hook_point': [0, 0, 1], 'rigging': {'main': {'gear': 'west', 'hook_above': 1, " BLOCK
      ", " ONE_SLING (
          "[0, 0, 1]") "}, 'tail': {'gear': 'cart', 'point': [3, 0, 1], 'moves': [1, 3]}},",
      TRAVEL ("110") ", " TRAVEL ("110") ", {'do': 'wait', 'seconds': 60}, " TRAVEL ("110"));
  g_assert_cmpfloat (swing_in (&run, 0), >, 0);
  for (int move = 1; move <= 2; move++)
    TEST_UNKNOWN (test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, move, "load", "post", NULL),
                  "swing/guided");
  g_assert_cmpfloat (swing_in (&run, 3), ==, 0);
  test_run_clear (&run);
}

/* Started in 0.1 s at 2 m/s it would swing by 17°. On two hooks a travel is
 * not known, nor is what comes after it until a wait; a hoist from rest is. With its tail on a
 * trolley it is guided. */
static void
test_unknown (void)
{
  assert_unknown (RAMP ("10") TOWER, "'solid': {'kind': 'box', 'size': [2, 2, 2]},", LIFT,
                  TRAVEL ("110"), "cog");
  assert_unknown (RAMP ("10") "'gear': [],", CUBE, "'hook_point': [0, 0, 2],", TRAVEL ("110"),
                  "gear");
  assert_unknown (RAMP ("10") TOWER, CUBE,
                  "'hook_point': [0, 0, 2], 'rigging': {'main': {'gear': 'tower'}},",
                  TRAVEL ("110"), "hook_above");
  assert_unknown (RAMP ("0.1") TOWER, CUBE, LIFT, TRAVEL ("3"), "swing");
  assert_unknown (RAMP ("10") TOWERS, BAR, BAR_LIFT ("east", ", 'hook_above': 1"), TRAVEL ("110"),
                  "swing/two-hooks");
  assert_unknown (RAMP ("10") TOWER,
                  "'solid': {'kind': 'box', 'size': [2, 2, 2]}, 'cog': [0, 0, 3],", LIFT,
                  TRAVEL ("110"), "swing/above");
  /* Far above the tip. */
  assert_unknown (RAMP ("10") TOWER, CUBE, LIFT, "{'do': 'hoist', 'by': 25, 'seconds': 300}",
                  "reach");
  const char *const hoist = "{'do': 'hoist', 'by': 2, 'seconds': 100}";
  TestRun run
      = run_plan (RAMP ("10") TOWERS, POST, BAR, BAR_LIFT ("east", ", 'hook_above': 1"), hoist);
  g_assert_cmpfloat (swing_in (&run, 0), ==, 0);
  test_run_clear (&run);
  run = run_plan (RAMP ("0.1") TOWERS, POST, BAR, BAR_LIFT ("cart", ""), TRAVEL ("3"));
  g_assert_cmpfloat (swing_in (&run, 0), ==, 0);
  test_run_clear (&run);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/swinging/travel", test_travel);
  g_test_add_func ("/checks/swinging/nods", test_nods);
  g_test_add_func ("/checks/swinging/rigging-mass", test_rigging_mass);
  g_test_add_func ("/checks/swinging/joints", test_joints);
  g_test_add_func ("/checks/swinging/short-beam", test_short_beam);
  g_test_add_func ("/checks/swinging/against", test_against);
  g_test_add_func ("/checks/swinging/left-out", test_left_out);
  g_test_add_func ("/checks/swinging/goes-on", test_goes_on);
  g_test_add_func ("/checks/swinging/no-rest", test_no_rest);
  g_test_add_func ("/checks/swinging/next-lift", test_next_lift);
  g_test_add_func ("/checks/swinging/found-again", test_found_again);
  g_test_add_func ("/checks/swinging/makes-short", test_makes_short);
  g_test_add_func ("/checks/swinging/throw-out", test_throw_out);
  g_test_add_func ("/checks/swinging/turn", test_turn);
  g_test_add_func ("/checks/swinging/in-wind", test_in_wind);
  g_test_add_func ("/checks/swinging/tail-alone", test_tail_alone);
  g_test_add_func ("/checks/swinging/guided", test_guided);
  g_test_add_func ("/checks/swinging/unknown", test_unknown);
  return g_test_run ();
}
