/* Gear that holds the load in some moves only: once it has let go it is in the way like anything
 * else. A cube of 2 m stands at [10, 0, 0.5] and hangs on the crane all the time; in the first
 * move, a wait, something below or beside it holds its tail; it is hoisted by 3 m and comes down
 * again. */
#include "test-gear.h"

#define NEAR 1e-6
#define UP_AND_DOWN(down)                                                                          \
  "{'do': 'wait', 'seconds': 10}, {'do': 'hoist', 'by': 3, 'seconds': 30}, {'do': 'hoist', 'by': " \
  "-" down ", 'seconds': 30}"
#define TROLLEY                                                                                    \
  ", {'id': 'bogie', 'kind': 'tail-trolley', 'at': {'position': [10, 0, 0]}, 'size': [1, 1, "      \
  "0.5], 'track': [-1, 1]}"
#define FRAME                                                                                      \
  ", {'id': 'frame', 'kind': 'turning-frame', 'at': {'position': [10, 0, 0]}, 'pivot': 0.5,"       \
  " 'size': [0.2, 0.6, 1], 'spacing': 2.4}"

static TestRun
run_lift (const char *lift, const char *gear, const char *rigging, const char *moves)
{
  TestGear t = { .gear = gear,
                 .structures = "{'id': 'post', 'name': 'Post', 'solid': {'kind': 'box', 'size': "
                               "[1, 1, 1]}, 'at': {'position': [50, 50, 0]}}",
                 .at = "[10, 0, 0.5]",
                 .rigging = rigging,
                 .lift = lift,
                 .moves = moves };
  return test_gear_run (&t);
}

static TestRun
run_with (const char *gear, const char *rigging, const char *moves)
{
  return run_lift (NULL, gear, rigging, moves);
}

static const TrnFinding *
find (const TestRun *run, TrnCheckKind check, int move, const char *body, const char *obstacle)
{
  const GArray *list = run->findings->lifts[0].findings;
  for (guint i = 0; i < list->len; i++)
    {
      const TrnFinding *f = &g_array_index (list, TrnFinding, i);
      if (f->check == check && f->move == move && strcmp (f->body, body) == 0
          && g_strcmp0 (f->obstacle, obstacle) == 0)
        return f;
    }
  return NULL;
}

static gboolean
is_left_out (const TestRun *run, const char *a, const char *b)
{
  const GArray *list = run->findings->lifts[0].left_out;
  for (guint i = 0; i < list->len; i++)
    {
      const TrnBodyPair *pair = &g_array_index (list, TrnBodyPair, i);
      if (strcmp (pair->a, a) == 0 && strcmp (pair->b, b) == 0)
        return TRUE;
    }
  return FALSE;
}

/* Down to the trolley it touches it; 2 m down it is 1 m above, and meets the 0.5 m. On the way up
 * it is judged from 0.51 m on, which are reached after 5.1 s, to within the resolution. */
static void
test_trolley (void)
{
  static const char rigging[]
      = "{'main': {'gear': 'crane', 'hook_above': 1}, 'tail': {'gear': 'bogie', 'point': [0, 0, 0],"
        " 'moves': [0, 0]}}";
  TestRun run = run_with (GEAR_CRANE ("") TROLLEY, rigging, UP_AND_DOWN ("3"));
  g_assert_null (find (&run, TRN_CHECK_CLEARANCE, 0, "load", "bogie/trolley"));
  g_assert_true (is_left_out (&run, "load", "bogie/trolley"));
  const TrnFinding *f = find (&run, TRN_CHECK_CLEARANCE, 1, "load", "bogie/trolley");
  TEST_PASSES (f, TRN_STATE_CLEAR);
  g_assert_true (f->has_seated);
  test_assert_between (f->seated_s.hi, 15.1, NEAR, 0.25);
  test_assert_between (f->lower_m, 0.51, 2e-3, 0.03);
  TEST_FAILS (find (&run, TRN_CHECK_CLEARANCE, 2, "load", "bogie/trolley"), TRN_STATE_CONTACT);
  test_run_clear (&run);
  run = run_with (GEAR_CRANE ("") TROLLEY, rigging, UP_AND_DOWN ("2"));
  f = find (&run, TRN_CHECK_CLEARANCE, 2, "load", "bogie/trolley");
  TEST_PASSES (f, TRN_STATE_CLEAR);
  test_assert_between (f->upper_m, 1, NEAR, NEAR);
  test_run_clear (&run);
}

/* A trolley that takes hold in the last move only, the same the other way round; one under which
 * the load never gets clear is judged from when it lets go. */
static void
test_takes_hold (void)
{
  TestRun run = run_with (GEAR_CRANE ("") TROLLEY,
                          "{'main': {'gear': 'crane', 'hook_above': 1}, 'tail': {'gear': 'bogie',"
                          " 'point': [0, 0, 0], 'moves': [3, 3]}}",
                          UP_AND_DOWN ("3") ", {'do': 'wait', 'seconds': 10}");
  TEST_FAILS (find (&run, TRN_CHECK_CLEARANCE, 0, "load", "bogie/trolley"), TRN_STATE_CONTACT);
  TEST_FAILS (find (&run, TRN_CHECK_CLEARANCE, 1, "load", "bogie/trolley"), TRN_STATE_CONTACT);
  const TrnFinding *f = find (&run, TRN_CHECK_CLEARANCE, 2, "load", "bogie/trolley");
  TEST_PASSES (f, TRN_STATE_CLEAR);
  test_assert_between (f->seated_s.lo, 70 - 5.1, 0.25, NEAR);
  g_assert_null (find (&run, TRN_CHECK_CLEARANCE, 3, "load", "bogie/trolley"));
  test_run_clear (&run);
  run = run_with (GEAR_CRANE ("") TROLLEY,
                  "{'main': {'gear': 'crane', 'hook_above': 1}, 'tail': {'gear': 'bogie', 'point':"
                  " [0, 0, 0], 'moves': [0, 0]}}",
                  "{'do': 'wait', 'seconds': 10}, {'do': 'hoist', 'by': 0.3, 'seconds': 30}");
  TEST_FAILS (find (&run, TRN_CHECK_CLEARANCE, 1, "load", "bogie/trolley"), TRN_STATE_CONTACT);
  test_run_clear (&run);
}

/* Cheeks 0.1 m beside the cube, up to 1 m: coming down again it is as near as that. */
static void
test_frame (void)
{
  TestRun run = run_with (GEAR_CRANE ("") FRAME,
                          "{'main': {'gear': 'crane', 'hook_above': 1}, 'tail': {'gear': 'frame',"
                          " 'point': [0, 0, 0], 'moves': [0, 0]}}",
                          UP_AND_DOWN ("3"));
  g_assert_null (find (&run, TRN_CHECK_CLEARANCE, 0, "load", "frame/cheek-2"));
  TEST_PASSES (find (&run, TRN_CHECK_CLEARANCE, 1, "load", "frame/cheek-2"), TRN_STATE_CLEAR);
  const TrnFinding *f = find (&run, TRN_CHECK_CLEARANCE, 2, "load", "frame/cheek-2");
  TEST_FAILS (f, TRN_STATE_SHORT);
  test_assert_between (f->upper_m, 0.1, NEAR, NEAR);
  test_run_clear (&run);
}

/* A move in which the load goes on though no hoist holds it: nothing says that the gear can. A wait
 * on a seat needs no hoist. The same of what hooks, cranes, slings and the ground would bear there.
 */
static void
test_nothing_holds (void)
{
  static const char rigging[] = "{'main': {'gear': 'crane', 'hook_above': 1, 'moves': [1, 1]}}";
  TestRun run = run_with (GEAR_CRANE (""), rigging, UP_AND_DOWN ("3"));
  TEST_UNKNOWN (find (&run, TRN_CHECK_HEADROOM, 0, "load", NULL), "rigging/main/moves");
  test_run_clear (&run);
  run = run_lift ("'seats': [{'on': 'post', 'at': 'start'}],", GEAR_CRANE (""), rigging,
                  UP_AND_DOWN ("3"));
  g_assert_null (find (&run, TRN_CHECK_HEADROOM, 0, "load", NULL));
  TEST_PASSES (find (&run, TRN_CHECK_HEADROOM, 1, "crane", NULL), TRN_STATE_WITHIN);
  TEST_UNKNOWN (find (&run, TRN_CHECK_HEADROOM, 2, "load", NULL), "rigging/main/moves");
  TEST_UNKNOWN (find (&run, TRN_CHECK_REACH, 2, "load", NULL), "rigging/main/moves");
  const TrnCheckKind forces[]
      = { TRN_CHECK_HOOK_LOAD, TRN_CHECK_CAPACITY, TRN_CHECK_SLINGS, TRN_CHECK_GROUND };
  for (guint i = 0; i < G_N_ELEMENTS (forces); i++)
    {
      g_assert_null (find (&run, forces[i], 0, "load", NULL));
      g_assert_null (find (&run, forces[i], 1, "load", NULL));
      TEST_UNKNOWN (find (&run, forces[i], 2, "load", NULL), "rigging/main/moves");
    }
  test_run_clear (&run);
}

/* Let go in mid-air it does not stay there: a wait without a hoist is held by the seat that the
 * lift ends on, or by nothing. */
static void
test_nothing_holds_it_up (void)
{
  static const char hoist_then_wait[]
      = "{'do': 'hoist', 'by': 3, 'seconds': 30}, {'do': 'wait', 'seconds': 5}";
  TestRun run
      = run_with (GEAR_CRANE (""), "{'main': {'gear': 'crane', 'hook_above': 1, 'moves': [0, 0]}}",
                  hoist_then_wait);
  TEST_UNKNOWN (find (&run, TRN_CHECK_HEADROOM, 1, "load", NULL), "rigging/main/moves");
  TEST_UNKNOWN (find (&run, TRN_CHECK_HOOK_LOAD, 1, "load", NULL), "rigging/main/moves");
  test_run_clear (&run);
  run = run_with (GEAR_CRANE (""),
                  "{'main': {'gear': 'crane', 'hook_above': 1, 'moves': [0, 0]}}, 'seats': [{'on': "
                  "'post', 'at': 'end'}]",
                  hoist_then_wait);
  g_assert_null (find (&run, TRN_CHECK_HEADROOM, 1, "load", NULL));
  test_run_clear (&run);
}

/* A sling to a lug 30 m beside a cube, as a wire with no mesh of its own: a tilt of 1° about the
 * hook takes the lug by 2 · 30.07 sin 0.5° = 0.525 m, the cube by no more than 0.05 m. */
static void
test_lug_beside_the_mesh (void)
{
  TestGear t = { .gear = GEAR_CRANE (""),
                 .structures = "{'id': 'post', 'name': 'Post', 'solid': {'kind': 'box', 'size': "
                               "[1, 1, 1]}, 'at': {'position': [50, 50, 0]}}",
                 .rigging = "{'main': {'gear': 'crane', 'hook_above': 1, 'slings': [{'id': 'leg',"
                            " 'to': [30, 0, 0], 'diameter': 0.04}]}}",
                 .lift = "'tolerance': {'tilt_deg': 1},",
                 .moves = "{'do': 'hoist', 'by': 1, 'seconds': 30}" };
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = find (&run, TRN_CHECK_CLEARANCE, 0, "leg", "post");
  g_assert_cmpfloat (f->allowance_m, >=, 2 * hypot (30, 2) * sin (G_PI / 360));
  test_run_clear (&run);
}

/* A trolley that no hoist of the lift uses stands in the middle of its track; without one it has no
 * place. */
static void
test_idle_trolley (void)
{
  static const char rigging[] = "{'main': {'gear': 'crane', 'hook_above': 1}}";
  TestRun run = run_with (GEAR_CRANE ("") ", {'id': 'bogie', 'kind': 'tail-trolley', 'at':"
                                          " {'position': [10, 4, 0]}, 'size': [1, 1, 0.5]}",
                          rigging, UP_AND_DOWN ("3"));
  TEST_UNKNOWN (find (&run, TRN_CHECK_CLEARANCE, 1, "load", "bogie/trolley"), "track");
  test_run_clear (&run);
  run = run_with (GEAR_CRANE ("") TROLLEY, rigging, UP_AND_DOWN ("3"));
  TEST_FAILS (find (&run, TRN_CHECK_CLEARANCE, 1, "load", "bogie/trolley"), TRN_STATE_CONTACT);
  test_run_clear (&run);
}

/* Two lifts, the second from where the first ends, in the air: a second crane that holds the tail
 * in the first hangs its hook at its park in the second; or a change takes it away. */
#define SECOND                                                                                     \
  ", {'id': 'second', 'kind': 'crane', 'at': {'position': [22, 0, 0]}, 'boom': {'foot': [0, 2],"   \
  " 'length': 20, 'section': [0.6, 0.8]}, 'park': [2, 12, 6]" GEAR_TAIL "}"
#define UP "{'do': 'hoist', 'by': 3, 'seconds': 30}"
#define ON                                                                                         \
  "{'lift': 'on', 'component': 'unit', 'hook_point': [0, 0, 2], 'rigging': {'main': {'gear':"      \
  " 'crane', 'hook_above': 1}}, 'moves': [" UP

static void
test_split_in_two (void)
{
  static const char rigging[] = "{'main': {'gear': 'crane', 'hook_above': 1}, 'tail': {'gear':"
                                " 'second', 'point': [0.8, 0, 2], 'hook_above': 1}}";
  TestRun run = run_with (GEAR_CRANE ("") SECOND, rigging, UP "]}, " ON);
  TEST_PASSES (test_finding_of (&run, TRN_CHECK_START, 1, -1, "load", NULL, NULL),
               TRN_STATE_IN_PLACE);
  const TrnFinding *rope
      = test_finding_of (&run, TRN_CHECK_CLEARANCE, 1, 0, "load", "second/rope", NULL);
  TEST_PASSES (rope, TRN_STATE_CLEAR);
  /* The rope hangs at [24, 12, z], the load reaches to [11, 1, z]. */
  test_assert_between (rope->upper_m, hypot (13, 11) - 0.015, 0.02, 0.02);
  TEST_PASSES (test_finding_of (&run, TRN_CHECK_CLEARANCE, 1, 0, "load", "second/boom", NULL),
               TRN_STATE_CLEAR);
  test_run_clear (&run);
  run = run_with (GEAR_CRANE ("") SECOND, rigging,
                  UP "]}, {'change': 'away', 'name': 'Away', 'remove': 'second'}, " ON);
  for (guint i = 0; i < run.findings->lifts[1].findings->len; i++)
    g_assert_false (g_str_has_prefix (
        g_array_index (run.findings->lifts[1].findings, TrnFinding, i).body, "second"));
  test_run_clear (&run);
}

/* How far wind takes the load in the first move, in which both cranes hold it, depends on the rope
 * of the second, of which hook_above is left out: so what its boom is off by then is not known for
 * want of that, nor how far the boom stays off where it was when it let go. */
static void
test_cause_after_letting_go (void)
{
  TestGear t = { .gear = GEAR_CRANE ("") SECOND,
                 .structures = "{'id': 'post', 'name': 'Post', 'solid': {'kind': 'box', 'size': "
                               "[1, 1, 1]}, 'at': {'position': [50, 50, 0]}}",
                 .more = "'wind': {'speed': 3, 'drag': 1.2},",
                 .unit = "'cog': [0.2, 0, 1],",
                 .at = "[10, 0, 0.5]",
                 .rigging = "{'main': {'gear': 'crane', 'hook_above': 1}, 'tail': {'gear': "
                            "'second', 'point': [0.8, 0, 2], 'moves': [1, 1]}}",
                 .moves = UP ", " UP };
  TestRun run = test_gear_run (&t);
  for (int move = 0; move < 2; move++)
    TEST_UNKNOWN (find (&run, TRN_CHECK_CLEARANCE, move, "second/boom", "post"), "hook_above");
  test_run_clear (&run);
}

/* The pull of a rope out of plumb goes into the ground as well: without the trolley of a gantry
 * nobody knows how high up, and it is the trolley that is missing. */
static void
test_cause_of_pull (void)
{
  TestGear t
      = { .gear = "{'id': 'tower', 'kind': 'gantry', 'at': {'position': [10, 0, 0]}, 'mass': 4000,"
                  " 'legs': [{'at': [-4, -5], 'size': [0.5, 0.5], 'height': 20, 'pad': [1, 1]},"
                  " {'at': [4, -5], 'size': [0.5, 0.5], 'height': 20, 'pad': [1, 1]}, {'at': [-4,"
                  " 5], 'size': [0.5, 0.5], 'height': 20, 'pad': [1, 1]}, {'at': [4, 5], 'size':"
                  " [0.5, 0.5], 'height': 20, 'pad': [1, 1]}], 'capacity': {'mass': 2000},"
                  " 'ground': {'allowed_pressure': 18000, 'source': 'plate test'}}",
          .structures = "{'id': 'post', 'name': 'Post', 'solid': {'kind': 'box', 'size': "
                        "[1, 1, 1]}, 'at': {'position': [50, 50, 0]}}",
          .more = "'loads': {'dynamic': {'factor': 1.2, 'source': 'test'}},",
          .lift = "'tolerance': {'position': 0.1},",
          .rigging = "{'main': {'gear': 'tower', 'hook_above': 1, 'block': {'diameter': 0.4, "
                     "'height': 0.5, 'mass': 200}, 'slings': [{'id': 'leg',"
                     " 'to': [0, 0, 2], 'diameter': 0.02, 'mass': 50}]}}",
          .moves = UP };
  TestRun run = test_gear_run (&t);
  TEST_UNKNOWN (find (&run, TRN_CHECK_GROUND, 0, "tower", NULL), "trolley");
  test_run_clear (&run);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/let-go/trolley", test_trolley);
  g_test_add_func ("/checks/let-go/takes-hold", test_takes_hold);
  g_test_add_func ("/checks/let-go/frame", test_frame);
  g_test_add_func ("/checks/let-go/nothing-holds", test_nothing_holds);
  g_test_add_func ("/checks/let-go/nothing-holds-it-up", test_nothing_holds_it_up);
  g_test_add_func ("/checks/let-go/lug-beside-the-mesh", test_lug_beside_the_mesh);
  g_test_add_func ("/checks/let-go/idle-trolley", test_idle_trolley);
  g_test_add_func ("/checks/let-go/split-in-two", test_split_in_two);
  g_test_add_func ("/checks/let-go/cause-after-letting-go", test_cause_after_letting_go);
  g_test_add_func ("/checks/let-go/cause-of-pull", test_cause_of_pull);
  return g_test_run ();
}
