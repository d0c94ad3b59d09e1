/* With what it lies that a finding fails or is not known: names, numbers and limits. */
#include <math.h>

#include "cause.h"
#include "lean-pivot.h"
#include "test-force.h"

#define WAIT "{'do': 'wait', 'seconds': 10}"
#define TILT(by)                                                                                   \
  "{'do': 'tilt', 'by': " by ", 'axis': 90, 'guide': 'head-plumb', 'head': 'head', 'tail': 'foot'" \
  ", 'seconds': 90}"
#define BEAM()                                                                                     \
  "'beam': {'id': 'bar', 'length': 2, 'width': 0.2, 'depth': 0.2, 'below_hook': 1, 'between': "    \
  "['south', 'north']},"
#define DROPS                                                                                      \
  "{'id': 'drop-a', 'from': 'beam-a', 'to': 'south', 'diameter': 0.02},"                           \
  "{'id': 'drop-b', 'from': 'beam-b', 'to': 'north', 'diameter': 0.02}"

/* A bar of 8 m between head and foot. */
static TestRun
run_bar (const char *points, const char *main, const char *tail, const char *more,
         const char *moves)
{
  g_autofree char *rigging
      = g_strdup_printf ("{'main': {'hook_above': 3, %s}, 'tail': {'point': 'foot', 'hook_above': "
                         "3%s}}",
                         main, tail);
  g_autofree char *unit
      = g_strdup_printf ("'cog': [0, 0, 1], 'points': {'head': [4, 0, 2], 'foot': "
                         "[-4, 0, 2]%s},",
                         points);
  TestGear t = { .gear = "",
                 .structures = FORCE_SLAB,
                 .more = more,
                 .unit = unit,
                 .solid = "{'kind': 'box', 'size': [9, 2, 2]}",
                 .hook = "'head'",
                 .rigging = rigging,
                 .lift = "'tolerance': {'position': 0.02},",
                 .moves = moves };
  return test_gear_run (&t);
}

static const TrnFinding *
out_of_plane (const TestRun *run)
{
  const TrnFinding *f = test_force (run, TRN_CHECK_LOAD_SHARE, "load", "out-of-plane");
  TEST_UNKNOWN (f, "lean/beam");
  return f;
}

static void
assert_cause (const TrnFinding *f, const char *why, TrnCauseKind kind, const char *of, double found,
              double limit)
{
  g_assert_cmpstr (f->cause.why, ==, why);
  g_assert_cmpint (f->cause.kind, ==, kind);
  g_assert_cmpstr (f->cause.of, ==, of);
  if (isfinite (found))
    test_assert_between (f->cause.found, found, 1e-6, 1e-6);
  if (isfinite (limit))
    test_assert_between (f->cause.limit, limit, 1e-6, 1e-6);
}

/* A lug 52 mm beside its hook, where 20 mm count. */
static void
test_beside (void)
{
  TestRun run = run_bar (", 'lug': [4, 0.052, 2]",
                         "'slings': [{'id': 'a', 'to': 'lug', "
                         "'diameter': 0.02}]",
                         "", "", WAIT);
  assert_cause (out_of_plane (&run), TRN_LEAN_DOUBT_BESIDE, TRN_CAUSE_POINT, "lug", 0.052, 0.02);
  test_run_clear (&run);
  run = run_bar ("", "'slings': [{'id': 'a', 'to': [4, 0.052, 2], 'diameter': 0.02}]", "", "",
                 WAIT);
  assert_cause (out_of_plane (&run), TRN_LEAN_DOUBT_BESIDE, TRN_CAUSE_SLING, "a", 0.052, 0.02);
  test_run_clear (&run);
}

/* A beam of 2 m with lugs 2.4 m apart: 0.2 m beside below each end. Its drops are hypot (2, 0.2) m,
 * so that 1/200 of the beam is the less. Turned by atan (0.1/1) it is askew; with its hook 30 m
 * above it, its ends go aside by less than a tenth of that; one end alone holds a sling. */
static void
test_beam (void)
{
  TestRun run = run_bar (", 'south': [4, -1.2, 2], 'north': [4, 1.2, 2]",
                         BEAM () "'slings': [" DROPS "]", "", "", WAIT);
  const TrnFinding *f = out_of_plane (&run);
  assert_cause (f, TRN_LEAN_DOUBT_BEAM_END, TRN_CAUSE_POINT, f->cause.of, 0.2, 0.01);
  g_assert_true (strcmp (f->cause.of, "south") == 0 || strcmp (f->cause.of, "north") == 0);
  test_run_clear (&run);
  run = run_bar (", 'south': [3.9, -1, 2], 'north': [4.1, 1, 2]", BEAM () "'slings': [" DROPS "]",
                 "", "", WAIT);
  f = out_of_plane (&run);
  assert_cause (f, TRN_LEAN_DOUBT_ASKEW, TRN_CAUSE_BEAM, "bar", atan (0.1) * 180 / G_PI,
                asin (0.01) * 180 / G_PI);
  g_assert_cmpint (f->cause.unit, ==, TRN_UNIT_DEG);
  test_run_clear (&run);
  run = run_bar (", 'south': [4, -1, 2], 'north': [4, 1, 2]",
                 BEAM () "'slings': [{'id': 'drop-a', 'from': 'beam-a', 'to': 'south', "
                         "'diameter': 0.02}]",
                 "", "", WAIT);
  assert_cause (out_of_plane (&run), TRN_LEAN_DOUBT_NO_END, TRN_CAUSE_BEAM, "bar", NAN, NAN);
  test_run_clear (&run);
}

/* Points 0.05 m beside the head seen along the axis of the tilt: by 90° the drops become 0.05 m
 * shorter, which no length fits to within 1/200. Points at the head's own line keep theirs,
 * whatever else is wrong with the length that is given. */
static void
test_length (void)
{
  static const char slings[] = BEAM () "'slings': [" DROPS "]";
  TestRun run
      = run_bar (", 'south': [4.05, -1, 2], 'north': [4.05, 1, 2]", slings, "", "", TILT ("-90"));
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_RIGGING, 0, 0, "drop-a", NULL, NULL);
  g_assert_cmpint (f->verdict, ==, TRN_VERDICT_FAIL);
  assert_cause (f, TRN_CAUSE_TILT_AXIS, TRN_CAUSE_POINT, "south", 0.05, NAN);
  test_run_clear (&run);
  run = run_bar (", 'south': [4, -1, 2], 'north': [4, 1, 2]",
                 BEAM () "'slings': [{'id': 'drop-a', 'from': 'beam-a', 'to': 'south', 'length': "
                         "2.1, 'diameter': 0.02}, {'id': 'drop-b', 'from': 'beam-b', 'to': "
                         "'north', 'diameter': 0.02}]",
                 "", "", TILT ("-90"));
  f = test_finding_of (&run, TRN_CHECK_RIGGING, 0, 0, "drop-a", NULL, NULL);
  g_assert_cmpint (f->verdict, ==, TRN_VERDICT_FAIL);
  g_assert_null (f->cause.why);
  test_run_clear (&run);
}

/* Drops of 10 m become shorter by 0.09 m in the tilt, less than twice 1/200, so that a length
 * between both fits all of it; the least of them does not: 9.91 is more than 1/200 below 10. */
static void
test_other_length (void)
{
  TestGear t = {
    .gear = "",
    .structures = FORCE_SLAB,
    .more = "",
    .unit = "'cog': [0, 0, 1], 'points': {'head': [4, 0, 2], 'foot': [-4, 0, 2], "
            "'south': [4.09, -1, 2], 'north': [4.09, 1, 2]},",
    .solid = "{'kind': 'box', 'size': [9, 2, 2]}",
    .hook = "'head'",
    .rigging
    = "{'main': {'hook_above': 11, " BEAM () "'slings': [" DROPS
                                             "]}, 'tail': {'point': 'foot', 'hook_above': 3}}",
    .lift = "",
    .moves = TILT ("-90")
  };
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_RIGGING, 0, 0, "drop-a", NULL, NULL);
  g_assert_cmpint (f->verdict, ==, TRN_VERDICT_FAIL);
  g_assert_cmpstr (f->cause.why, ==, TRN_CAUSE_LENGTH);
  test_assert_between (f->cause.found, 9.955, 0.01, 0.01);
  test_run_clear (&run);
}

/* The first sling of that hook without a mass, and how many more. */
static void
test_mass (void)
{
  TestRun run = run_bar ("",
                         "'slings': [{'id': 'a', 'to': 'head', 'diameter': 0.02, 'mass': 4, 'wll': "
                         "900}, {'id': 'b', 'to': 'head', 'diameter': 0.02}, {'id': 'c', 'to': "
                         "'head', 'diameter': 0.02}], 'block': {'diameter': 0.4, 'height': 0.5, "
                         "'mass': 200}",
                         "", "'loads': {'dynamic': {'factor': 1.2, 'source': 'test'}},", WAIT);
  const TrnFinding *f = test_force (&run, TRN_CHECK_SLINGS, "a", "tension");
  TEST_UNKNOWN (f, "slings/mass");
  assert_cause (f, TRN_CAUSE_NO_MASS, TRN_CAUSE_SLING, "b", NAN, NAN);
  g_assert_cmpuint (f->cause.n_more, ==, 1);
  test_run_clear (&run);
}

/* The CoG 1 m below the line of both points, in its middle: the tail bears nothing once the head is
 * plumb above it, at atan (4/1) of the tilt; a load whose CoG is beyond the head at once. */
static void
test_slack (void)
{
  TestRun run = run_bar ("", "'slings': [{'id': 'a', 'to': 'head', 'diameter': 0.02}]", "", "",
                         TILT ("-85"));
  const TrnFinding *f = test_force (&run, TRN_CHECK_LOAD_SHARE, "load", "tail");
  g_assert_cmpint (f->state, ==, TRN_STATE_SLACK);
  assert_cause (f, TRN_CAUSE_FROM, TRN_CAUSE_NONE, NULL, NAN, NAN);
  test_assert_between (f->cause.found, atan (4) * 180 / G_PI, 0.01, 0.01);
  g_assert_cmpint (f->cause.unit, ==, TRN_UNIT_DEG);
  test_run_clear (&run);
  /* To end a tilt before it is upright leads nowhere where upright is where it has to go. */
  run = run_bar ("", "'slings': [{'id': 'a', 'to': 'head', 'diameter': 0.02}]", "", "",
                 TILT ("-90"));
  f = test_force (&run, TRN_CHECK_LOAD_SHARE, "load", "tail");
  assert_cause (f, TRN_CAUSE_FROM_UPENDING, TRN_CAUSE_NONE, NULL, NAN, NAN);
  test_assert_between (f->cause.found, atan (4) * 180 / G_PI, 0.01, 0.01);
  test_run_clear (&run);
}

static const char *
why_near (const TestRun *run, guint move, const char *obstacle)
{
  const TrnFinding *f
      = test_finding_of (run, TRN_CHECK_CLEARANCE, 0, (int)move, "load", obstacle, NULL);
  g_assert_cmpint (f->verdict, ==, TRN_VERDICT_FAIL);
  return f->cause.why;
}

/* A cube 1 mm above a plate, from which it is hoisted and onto which it is lowered, by @down_m. On
 * its way it comes 0.3 m close to a wall, which is no cause. */
static TestRun
run_plate (const char *seats, const char *down_m)
{
  g_autofree char *moves
      = g_strdup_printf (WAIT ", {'do': 'hoist', 'by': 2, 'seconds': 20}, {'do': 'travel', 'by': "
                              "[3, 0], 'seconds': 20}, {'do': 'travel', 'by': [-3, 0], 'seconds': "
                              "20}, {'do': 'hoist', 'by': %s, 'seconds': 20}," WAIT,
                         down_m);
  TestGear t = { .gear = "",
                 .structures = "{'id': 'plate', 'solid': {'kind': 'box', 'size': [4, 4, 1]}, 'at': "
                               "{'position': [10, 0, -1]}}, {'id': 'wall', 'solid': {'kind': "
                               "'box', 'size': [1, 4, 9]}, 'at': {'position': [14.8, 0, -1]}}",
                 .at = "[10, 0, 0.001]",
                 .lift = seats,
                 .moves = moves };
  return test_gear_run (&t);
}

/* What the load all but touches, or touches, at an end and no seat names may be what it stands
 * on. */
static void
test_stands (void)
{
  TestRun run = run_plate ("", "-2");
  g_assert_cmpstr (why_near (&run, 0, "plate"), ==, TRN_CAUSE_STANDS_AT_START);
  g_assert_cmpstr (why_near (&run, 1, "plate"), ==, TRN_CAUSE_STANDS_AT_START);
  g_assert_cmpstr (why_near (&run, 4, "plate"), ==, TRN_CAUSE_STANDS_AT_END);
  g_assert_cmpstr (why_near (&run, 5, "plate"), ==, TRN_CAUSE_STANDS_AT_END);
  g_assert_null (why_near (&run, 2, "wall"));
  test_run_clear (&run);
  run = run_plate ("'seats': [{'on': 'plate', 'at': 'start'}],", "-2.001");
  g_assert_cmpstr (why_near (&run, 4, "plate"), ==, TRN_CAUSE_STANDS_AT_END);
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 1, "load", "plate", NULL);
  g_assert_cmpint (f->verdict, ==, TRN_VERDICT_PASS);
  test_run_clear (&run);
}

/* A bar upright on its main hook, with its lug 0.3 m beside it: so far from it is the rope of the
 * tail, while it holds it and once it has let go. */
static void
test_tail_hook (void)
{
  TestGear t = { .gear = GEAR_CRANE (""),
                 .structures = FORCE_SLAB,
                 .unit = "'cog': [0, 0, 1], 'points': {'head': [4, 0, 2], 'foot': [-4, 0, 2.3]},",
                 .solid = "{'kind': 'box', 'size': [9, 2, 2]}",
                 .hook = "'head'",
                 .rigging = "{'main': {'hook_above': 3}, 'tail': {'gear': 'crane', 'point': "
                            "'foot', 'hook_above': 3, 'moves': [0, 0]}}",
                 .moves = TILT ("-90") "," WAIT };
  TestRun run = test_gear_run (&t);
  g_assert_cmpstr (why_near (&run, 0, "crane/rope"), ==, TRN_CAUSE_TAIL_HOLDS);
  g_assert_cmpstr (why_near (&run, 1, "crane/rope"), ==, TRN_CAUSE_TAIL_LET_GO);
  test_run_clear (&run);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/cause/beside", test_beside);
  g_test_add_func ("/checks/cause/beam", test_beam);
  g_test_add_func ("/checks/cause/length", test_length);
  g_test_add_func ("/checks/cause/other-length", test_other_length);
  g_test_add_func ("/checks/cause/mass", test_mass);
  g_test_add_func ("/checks/cause/slack", test_slack);
  g_test_add_func ("/checks/cause/stands", test_stands);
  g_test_add_func ("/checks/cause/tail-hook", test_tail_hook);
  return g_test_run ();
}
