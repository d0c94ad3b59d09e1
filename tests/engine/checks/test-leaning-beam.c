/* A spreader that leans with a load which hangs free 1 m below its points, its centre of gravity
 * 0.1 m off along the beam. The load is the cube of 2 m of test-gear.h, 1000 kg. */
#include "test-force.h"

static TestGear
hung (const char *rigging)
{
  return (TestGear){ .gear = GEAR_CRANE (""),
                     .structures = FORCE_SLAB,
                     .more = "'loads': {'dynamic': {'factor': 1, 'source': 'test'}},",
                     .unit = "'cog': [0.1, 0, 1],",
                     .rigging = rigging,
                     .lift = "'hangs': 'free',",
                     .moves = "{'do': 'wait', 'seconds': 10}" };
}

static const TrnFinding *
sling (const TestRun *run, const char *id, const char *item)
{
  return test_force (run, TRN_CHECK_SLINGS, id, item);
}

/* The same 1 m over a centre of gravity 0.1 m off along the beam, hanging free, all by moments:
 * with w = 104.5/1000 of rigging as high as the beam at most it pulls 0.1 (1 + w)/(2 + w) beside
 * its middle, 0.0005 m more as the shackle may have it, and the beam leans by 0.1/2 at most. */
static void
test_leaning_beam (void)
{
  const TestGear t = hung (FORCE_SPREADER (""));
  TestRun run = test_gear_run (&t);
  const double off = (0.1 * 1.1045 / 2.1045 + 0.0005) / 2, end_n = (0.5 + off) * 1004.5 * G,
               upper_n = end_n + ((0.5 + off) * 100 + 0.25) * G;
  test_assert_force (sling (&run, "b", "tension")->value, end_n);
  test_assert_force (sling (&run, "a", "tension")->value, end_n);
  test_assert_force (sling (&run, "up-b", "tension")->value, upper_n * sqrt (2));
  const double least_deg = 45 - trn_degrees (atan (0.1 / 2));
  test_assert_between (sling (&run, "up-b", "angle")->value, least_deg, 1e-3, 1e-3);
  test_assert_force (sling (&run, "bar", "compression")->value, upper_n);
  test_run_clear (&run);
}

/* As drawn the load leans as much while it hangs, and its upper slings with it. */
static void
test_angle_as_drawn (void)
{
  TestGear t = hung (FORCE_SPREADER (""));
  t.lift = "";
  TestRun run = test_gear_run (&t);
  const double least_deg = 45 - trn_degrees (atan (0.1 / 2));
  test_assert_between (sling (&run, "up-a", "angle")->value, least_deg, 1e-2, 1e-3);
  test_run_clear (&run);
}

/* Its centre of gravity may be as high as the points: how far the load leans has no bound, and how
 * flat an upper sling becomes is not known, neither within nor beyond. */
static void
test_no_bound (void)
{
  TestGear t = hung (FORCE_SPREADER (""));
  t.unit = "'cog': [0, 0, 1], 'cog_box': [0.1, 0, 1],";
  TestRun run = test_gear_run (&t);
  TEST_UNKNOWN (sling (&run, "up-a", "angle"), "cog_box");
  test_run_clear (&run);
}

/* Beam and upper slings are one stiff triangle: however it leans, what pins on the beam are pulled
 * aside by is what the triangle has, 45° along the beam and square to it, nothing across. */
static void
test_pins (void)
{
  static const struct
  {
    const char *pin;
    double aside_deg, factor;
  } pins[] = { { "[1, 0, 0]", 45, 0.7 }, { "[0, 0, 1]", 45, 0.7 }, { "[0, 1, 0]", 0, 1 } };
  for (guint i = 0; i < G_N_ELEMENTS (pins); i++)
    {
      g_autofree char *rigging = g_strdup_printf (
          FORCE_SPREADER (", 'shackle': {'mass': 0.5, 'wll': 2000, 'pin': %s}"), pins[i].pin);
      const TestGear t = hung (rigging);
      TestRun run = test_gear_run (&t);
      const TrnFinding *f = sling (&run, "up-b", "shackle");
      test_assert_between (test_number (f, "aside"), pins[i].aside_deg, 1e-6, 1e-6);
      test_assert_between (test_number (f, "side-factor"), pins[i].factor, 1e-9, 1e-9);
      test_run_clear (&run);
    }
}

/* With 20 kg of shackle at the end b it is the heavier end though the load is over the middle: as
 * it tips the beam, by up to 0.02 m at the centre of gravity, and by itself. */
static void
test_unlike (void)
{
  TestGear t = hung (FORCE_SPREADER (", 'shackle': {'mass': 20, 'wll': 2000}"));
  t.unit = "'cog': [0, 0, 1],";
  TestRun run = test_gear_run (&t);
  const double rigged = 0.0195 / (2 + 0.1245), upper_n = 1000 * (0.5 - rigged / 2) + 50 + 22;
  g_assert_cmpfloat (sling (&run, "up-b", "tension")->value, >=, upper_n * G * sqrt (2));
  g_assert_cmpfloat (sling (&run, "up-b", "tension")->value, <, 1.04 * upper_n * G * sqrt (2));
  const TrnMoveHang *hang = &run.scene->programme->runs[0].hangs[0];
  g_assert_cmpfloat (hang->reach_rad, >=, atan (rigged));
  test_run_clear (&run);
}

/* Points that are nearer to each other than the ends of the beam and 1.43 m beside them: the lower
 * slings come to hang as they can, and the beam leans though the load is over the middle of its
 * points. By a balance of all forces, run beside the project, a lower sling bears 5299 N then and
 * an upper one 5981. */
static void
test_uneven (void)
{
  TestGear t = hung ("{'main': {'gear': 'crane', 'hook_above': 7.63, 'block': {'diameter': 0.4,"
                     " 'height': 0.5, 'mass': 200}, 'beam': {'id': 'bar', 'length': 2.83, 'width':"
                     " 0.2, 'depth': 0.2, 'below_hook': 2.7, 'between': [[0.415, 0, 2.09], [2.445,"
                     " 0, 2.09]], 'mass': 0.001}, 'slings': [{'id': 'up-a', 'to': 'beam-a',"
                     " 'diameter': 0.02, 'mass': 0.001, 'wll': 2000}, {'id': 'up-b', 'to':"
                     " 'beam-b', 'diameter': 0.02, 'mass': 0.001, 'wll': 2000}, {'id': 'a',"
                     " 'from': 'beam-a', 'to': [0.415, 0, 2.09], 'diameter': 0.02, 'mass': 0.001,"
                     " 'wll': 2000}, {'id': 'b', 'from': 'beam-b', 'to': [2.445, 0, 2.09],"
                     " 'diameter': 0.02, 'mass': 0.001, 'wll': 2000}]}}");
  t.hook = "[0, 0, 2.09]";
  t.unit = "'cog': [1.43, 0, 0.5],";
  TestRun run = test_gear_run (&t);
  g_assert_cmpfloat (sling (&run, "a", "tension")->value, >, 5299);
  g_assert_cmpfloat (sling (&run, "up-a", "tension")->value, >, 5981);
  test_run_clear (&run);
}

/* Points at two heights below a beam of 2 m, 1 m below its hook, nearer to each other than its
 * ends; and such that are 0.8 m beside it as well. Though the centre of gravity is between them the
 * load leans, and its beam. By a balance of all forces, run beside the project. */
static void
test_two_heights (void)
{
  static const struct
  {
    const char *a, *b, *unit;
    double above_m, lean_deg, lower_n, upper_n;
  } cases[] = {
    { "[-0.8, 0, 1.8]", "[0.8, 0, 2.2]", "'cog': [0, 0, 1],", 2.5, 0.9893, 4988, 7004 },
    { "[-0.1, 0, 1.9]", "[1.7, 0, 2.1]", "'cog': [0.8, 0, 1],", 4, 0.5094, 4973, 7032 },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *rigging = g_strdup_printf (
          "{'main': {'gear': 'crane', 'hook_above': %g, 'block': {'diameter': 0.4, 'height': 0.5,"
          " 'mass': 200}, 'beam': {'id': 'bar', 'length': 2, 'width': 0.2, 'depth': 0.2,"
          " 'below_hook': 1, 'between': [%s, %s], 'mass': 0.001}, 'slings': [{'id': 'up-a', 'to':"
          " 'beam-a', 'diameter': 0.02, 'mass': 0.001, 'wll': 2000}, {'id': 'up-b', 'to':"
          " 'beam-b', 'diameter': 0.02, 'mass': 0.001, 'wll': 2000}, {'id': 'a', 'from':"
          " 'beam-a', 'to': %s, 'diameter': 0.02, 'mass': 0.001, 'wll': 2000}, {'id': 'b',"
          " 'from': 'beam-b', 'to': %s, 'diameter': 0.02, 'mass': 0.001, 'wll': 2000}]}}",
          cases[i].above_m, cases[i].a, cases[i].b, cases[i].a, cases[i].b);
      TestGear t = hung (rigging);
      t.hook = "[0, 0, 2]";
      t.unit = cases[i].unit;
      TestRun run = test_gear_run (&t);
      const TrnMoveHang *hang = &run.scene->programme->runs[0].hangs[0];
      test_assert_between (trn_degrees (hang->reach_rad), cases[i].lean_deg, 0, 7);
      test_assert_between (sling (&run, "b", "tension")->value, cases[i].lower_n, 0, 800);
      test_assert_between (sling (&run, "up-b", "tension")->value, cases[i].upper_n, 0, 1200);
      test_run_clear (&run);
    }
}

#define DROP(id, end, to)                                                                          \
  "{'id': '" id "', 'from': 'beam-" end "', 'to': " to                                             \
  ", 'diameter': 0.02, 'mass': 0.001, 'wll': "                                                     \
  "2000}"

/* A beam of 2 m that its hook holds 0.1 m above, its slings 2 m high. */
static TestGear
below_lug (const char *slings, const char *unit, char **rigging)
{
  *rigging = g_strdup_printf (
      "{'main': {'gear': 'crane', 'hook_above': 2.1, 'block': {'diameter': 0.4, 'height': 0.5,"
      " 'mass': 200}, 'beam': {'id': 'bar', 'length': 2, 'width': 0.2, 'depth': 0.2,"
      " 'below_hook': 0.1, 'between': [[-1, 0, 2], [1, 0, 2]], 'mass': 0.001}, 'slings': [%s]}}",
      slings);
  TestGear t = hung (*rigging);
  t.hook = "[0, 0, 2]";
  t.unit = unit;
  return t;
}

/* One sling at an end, two at the other 0.3 m to either side, the centre of gravity 0.06 m aside
 * and half way: the load rolls about the line from the point of the one to the end above the two,
 * which is 2 m above the centre of gravity, and turns the two by φ, tan φ = 0.03, past the plumb
 * line. With θ, tan θ = 0.3/2, the one that it comes nearer to plumb bears sin (θ + φ)/sin 2 θ of
 * its end, and the other is at θ + φ from plumb. Old: about the hook, 0.571 of the end. */
static void
test_both_sides (void)
{
  g_autofree char *rigging = NULL;
  const TestGear t = below_lug (DROP ("a", "a", "[-1, 0, 2]") ", " DROP (
                                    "b", "b", "[1, 0.3, 2]") ", " DROP ("c", "b", "[1, -0.3, 2]"),
                                "'cog': [0, 0.06, 1],", &rigging);
  TestRun run = test_gear_run (&t);
  const double roll = atan (0.03), to_side = atan (0.15),
               bears_n = 500 * G * sin (to_side + roll) / sin (2 * to_side);
  test_assert_between (sling (&run, "b", "tension")->value, bears_n, 0, 0.45 * bears_n);
  test_assert_between (sling (&run, "c", "angle")->value, 90 - trn_degrees (to_side + roll), 4, 0);
  test_run_clear (&run);
}

/* Both slings of an end to one side of it do not keep it where it is drawn; two that are 15 mm from
 * each other along the beam may each bear all, so that what they pull is 7.5 mm beside. */
static void
test_not_as_one (void)
{
  g_autofree char *one_side = NULL, *along = NULL;
  TestGear t = below_lug (DROP ("a", "a", "[-1, 0, 2]") ", " DROP (
                              "b", "b", "[1, 0.3, 2]") ", " DROP ("c", "b", "[1, 0.06, 2]"),
                          "'cog': [0, 0, 1],", &one_side);
  TestRun run = test_gear_run (&t);
  TEST_UNKNOWN (sling (&run, "b", "tension"), "beam/lean");
  test_run_clear (&run);
  t = below_lug (DROP ("a", "a", "[-1, 0, 2]") ", " DROP ("b", "b", "[1, 0, 2]") ", " DROP (
                     "c", "b", "[1.015, 0, 2]"),
                 "'cog': [0, 0, 1],", &along);
  run = test_gear_run (&t);
  g_assert_cmpfloat (run.scene->programme->runs[0].hangs[0].reach_rad, >=, 0.0075);
  test_run_clear (&run);
}

/* Two slings at both ends 1 m to either side, those of one side 20 kg heavier each: what hangs is
 * 40/ 1000 m beside, and the load leans by no less than what that is of the 3 m that its centre of
 * gravity is below the ends of the beam. With one of their masses left out that is not known. */
static void
test_heavy_side (void)
{
  static const char *const masses[] = { "21", "1", NULL };
  for (guint i = 0; i < G_N_ELEMENTS (masses); i++)
    {
      g_autofree char *heavy
          = masses[i] != NULL ? g_strdup_printf (", 'mass': %s", masses[i]) : g_strdup ("");
      g_autofree char *slings = g_strdup_printf (
          "{'id': 'a', 'from': 'beam-a', 'to': [-1, 1, 2], 'diameter': 0.02, 'wll': 2000%s}, "
          "{'id': 'b', 'from': 'beam-b', 'to': [1, 1, 2], 'diameter': 0.02, 'wll': 2000%s}, "
          "{'id': 'c', 'from': 'beam-a', 'to': [-1, -1, 2], 'diameter': 0.02, 'wll': 2000, 'mass': "
          "1}, "
          "{'id': 'd', 'from': 'beam-b', 'to': [1, -1, 2], 'diameter': 0.02, 'wll': 2000, 'mass': "
          "1}",
          heavy, heavy);
      g_autofree char *rigging = NULL;
      const TestGear t = below_lug (slings, "'cog': [0, 0, 1],", &rigging);
      TestRun run = test_gear_run (&t);
      const TrnMoveHang *hang = &run.scene->programme->runs[0].hangs[0];
      if (masses[i] == NULL)
        g_assert_cmpstr (hang->unbounded, ==, "slings/mass");
      else if (i == 0)
        test_assert_between (hang->reach_rad, 0.04 / 3, 0, 0.06);
      else
        g_assert_cmpfloat (hang->reach_rad, <, 1e-6);
      test_run_clear (&run);
    }
}

/* The beam leans by β, tan β = 0.1/1.1 by moments about the hook, and its end bears half and 0.1
 * tan β/2 of the load, which presses it by sin β of that. */
static void
test_pressed (void)
{
  g_autofree char *rigging = NULL;
  const TestGear t = below_lug (DROP ("a", "a", "[-1, 0, 2]") ", " DROP ("b", "b", "[1, 0, 2]"),
                                "'cog': [0.1, 0, 1],", &rigging);
  TestRun run = test_gear_run (&t);
  const double leans = atan (0.1 / 1.1),
               pressed_n = 1000 * G * (0.5 + 0.05 * tan (leans)) * sin (leans);
  test_assert_between (sling (&run, "bar", "compression")->value, pressed_n, 1e-2 * pressed_n,
                       0.6 * pressed_n);
  test_run_clear (&run);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/leaning-beam/forces", test_leaning_beam);
  g_test_add_func ("/checks/leaning-beam/angle-as-drawn", test_angle_as_drawn);
  g_test_add_func ("/checks/leaning-beam/no-bound", test_no_bound);
  g_test_add_func ("/checks/leaning-beam/pins", test_pins);
  g_test_add_func ("/checks/leaning-beam/unlike", test_unlike);
  g_test_add_func ("/checks/leaning-beam/uneven", test_uneven);
  g_test_add_func ("/checks/leaning-beam/two-heights", test_two_heights);
  g_test_add_func ("/checks/leaning-beam/both-sides", test_both_sides);
  g_test_add_func ("/checks/leaning-beam/not-as-one", test_not_as_one);
  g_test_add_func ("/checks/leaning-beam/pressed", test_pressed);
  g_test_add_func ("/checks/leaning-beam/heavy-side", test_heavy_side);
  return g_test_run ();
}
