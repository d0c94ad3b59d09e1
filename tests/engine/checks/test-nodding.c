/* What the load nods by below its hook as it swings, and what that does to beam, slings and
 * shackles: closed forms. */
#include "own-load.h"
#include "swinging-plan.h"

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
#define BAR(z, slings)                                                                             \
  "'hook_point': [0, 0, 2], 'rigging': {'main': {'gear': 'tower', 'hook_above': 3, 'beam': {'id':" \
  " 'bar', 'length': 2, 'width': 0.2, 'depth': 0.2, 'below_hook': 1, 'between': [[-1, 0, " z "],"  \
  " [1, 0, " z "]], " LIGHT "}, " BLOCK ", 'slings': [" slings "]}},"
#define BAR_AT(z) BAR (z, UP)
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
  assert_unknown (RAMP ("10") TOWER, CUBE, BAR_AT ("0.9"), TRAVEL ("110"), "swing/above");
  /* One plumb above the other. */
  assert_unknown (
      RAMP ("10") TOWER, CUBE,
      "'hook_point': [0, 0, 2], 'rigging': {'main': {'gear': 'tower', 'hook_above': 3, " BLOCK
      ", 'slings': [" SHORT ("a", "0, 0, 2") ", " SHORT ("b", "0, 0, 1.8") "]}},",
      TRAVEL ("110"), "swing/above");
}

/* What is derived of a beam holds of none that hangs by one end, that leaves an end without load,
 * whose slings cross, come near its middle or go to points that are not level, nor beside a leg
 * from the hook. */
static void
test_askew (void)
{
#define DROP(end, to)                                                                              \
  "{'id': 'drop-" end "', 'from': 'beam-" end "', 'to': " to ", 'diameter': 0.03, " LIGHT "}"
#define DROPS(a, b) UP ", " DROP ("a", a) ", " DROP ("b", b)
  static const char *const askew[] = {
    BAR ("2", SHORT_TO ("a", "'beam-a'")),
    BAR ("2", UP ", " DROP ("a", "[-1, 0, 2]")),
    BAR ("2", DROPS ("[1, 0, 2]", "[-1, 0, 2]")),
    BAR ("2", DROPS ("[-0.4, 0, 2]", "[1, 0, 2]")),
    BAR ("2", DROPS ("[-1, 0, 2]", "[1, 0, 1.75]")),
    BAR ("2", DROPS ("[-1, 0.3, 2]", "[1, -0.3, 2]")),
    BAR ("2", DROPS ("[-1, 0, 2]", "[1, 0, 2]") ", " SHORT ("leg", "0, 1, 2")),
  };
  for (guint i = 0; i < G_N_ELEMENTS (askew); i++)
    assert_unknown (RAMP ("0.1") TOWER, CUBE, askew[i], TRAVEL ("110"), "swing/beam");
  g_assert_cmpfloat (turns_deg (CUBE, BAR ("2", DROPS ("[-1, 0, 2]", "[1, 0, 2]"))), >, 0);
  g_assert_cmpfloat (
      turns_deg (CUBE, BAR ("2", DROP ("a", "[-1, 0, 2]") ", " DROP ("b", "[0.6, 0, 1.9]"))), >, 0);
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
  "0, 2], [1, 0, 2]], " LIGHT "}, " BLOCK ", 'slings': [" UP "]}},"
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
  /* A hook that may be 0.99 or 1.01 m higher or lower leaves the sling as long as it is. */
  static const char *const positions[] = { "0.99", "1.01" };
  for (guint i = 0; i < G_N_ELEMENTS (positions); i++)
    {
      g_autofree char *lift
          = g_strdup_printf (SHACKLED "'tolerance': {'position': %s},", positions[i]);
      run = run_plan (LOADS TOWER, POST, CUBE, lift, TRAVEL ("50"));
      f = test_force (&run, TRN_CHECK_RIGGING, "a", TRN_OWN_LOAD_ITEM);
      test_assert_between (f->allowance_m, 0.6 * chord, 0, 0.2 * chord);
      test_run_clear (&run);
    }
  run = run_plan (LOADS TOWER, POST, SIZE_OF_CUBE "'mass': 3000,", SHACKLED, TRAVEL ("50"));
  TEST_UNKNOWN (test_force (&run, TRN_CHECK_RIGGING, "a", TRN_OWN_LOAD_ITEM), "cog");
  test_run_clear (&run);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/nodding/nods", test_nods);
  g_test_add_func ("/checks/nodding/rigging-mass", test_rigging_mass);
  g_test_add_func ("/checks/nodding/joints", test_joints);
  g_test_add_func ("/checks/nodding/short-beam", test_short_beam);
  g_test_add_func ("/checks/nodding/askew", test_askew);
  g_test_add_func ("/checks/nodding/against", test_against);
  return g_test_run ();
}
