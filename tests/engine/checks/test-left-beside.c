/* What an earlier lift has left, beside gear and below a load, by closed forms, and from a cache.
 *
 * A crane at the origin holds a cube of 2 m at [10, 0, 0], so that its counterweight, 4 m by 2 m,
 * lies toward −x. A stack 1 m wide has been set down there before, or left on its hook. */
#include <math.h>

#include "tail-swing.h"
#include "test-gear.h"

#define NEAR 1e-6
#define CRANE GEAR_CRANE (GEAR_TAIL ", 'barricade': 4.5")
#define WAIT "{'do': 'wait', 'seconds': 9}"

typedef struct
{
  const char *stack; /* keys of the stack, each begun by a comma */
  const char *plan, *gear;
  const char *at;     /* where the stack begins */
  const char *lift;   /* keys of its lift, each ended by a comma */
  const char *moves;  /* of that */
  const char *change; /* after it, ended by a comma */
} Case;

static char *
case_text (const Case *c)
{
#define OR_NONE(text) ((text) != NULL ? (text) : "")
  return g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.5, %s 'gear': [%s%s],"
      " 'structures': [{'id': 'deck', 'solid': {'kind': 'box', 'size': [3, 3, 0.5]},"
      " 'survey_tolerance': 0.01, 'at': {'position': [-20, 0, -0.5]}}], 'components': [{'id':"
      " 'stack', 'solid': {'kind': 'box', 'size': [1, 1, 5]}%s, 'at': {'position': %s}}, {'id':"
      " 'other', 'solid': {'kind': 'box', 'size': [1, 1, 5]}, 'at': null}, {'id': 'cube', 'solid':"
      " {'kind': 'box', 'size': [2, 2, 2]}, 'mass': 1000, 'cog': [0, 0, 1], 'at': {'position':"
      " [10, 0, 0]}}], 'programme': [{'lift': 'first', 'component': 'stack', 'hook_point':"
      " [0, 0, 6], %s 'moves': [%s]}, %s {'lift': 'second', 'component': 'cube', 'hook_point':"
      " [0, 0, 2], 'rigging': {'main': {'gear': 'crane', 'hook_above': 1, 'block': {'diameter':"
      " 0.4, 'height': 0.5, 'mass': 9}}}, 'moves': [" WAIT "]}]}",
      OR_NONE (c->plan), CRANE, OR_NONE (c->gear), OR_NONE (c->stack), c->at, OR_NONE (c->lift),
      c->moves, OR_NONE (c->change));
#undef OR_NONE
}

static const TrnFinding *
tail_past (const TestRun *run, const char *obstacle)
{
  return test_finding_of (run, TRN_CHECK_TAIL_SWING, 1, -1, "crane", obstacle, NULL);
}

/* ---- the tail of a crane ---- */

#define WEST "{'do': 'travel', 'by': [-1, 0], 'seconds': 10}"
#define SEAT "'seats': [{'on': 'deck', 'at': 'end'}],"

static void
assert_tail (const char *at, const char *tolerance, double circle_m, double left_m)
{
  g_autofree char *lift = g_strconcat (SEAT, tolerance, NULL);
  const Case c = { .at = at, .lift = lift, .moves = WEST };
  g_autofree char *text = case_text (&c);
  TestRun run = test_run (text);
  const TrnFinding *f = tail_past (&run, "stack");
  test_assert_between (f->sector_distance_m, circle_m, NEAR, NEAR);
  test_assert_between (f->allowance_m, left_m, 1e-9, 1e-9);
  test_assert_between (trn_finding_margin_m (f), circle_m - 4 - left_m - 0.5, NEAR, NEAR);
  g_assert_cmpint (f->verdict, ==, circle_m - left_m < 4.5 ? TRN_VERDICT_FAIL : TRN_VERDICT_PASS);
  test_run_clear (&run);
}

/* The face of the stack is 4.6 m behind the axis: 0.1 m more than is to be kept. Its farthest
 * corner is √36.5 m from its hook point. */
static void
test_tail_swing (void)
{
  assert_tail ("[-4.1, 0, 0]", "", 4.6, 0);
  assert_tail ("[-4.1, 0, 0]", "'tolerance': {'position': 0.09},", 4.6, 0.09);
  assert_tail ("[-4.1, 0, 0]", "'tolerance': {'position': 0.11},", 4.6, 0.11);
  assert_tail ("[-4.1, 0, 0]", "'tolerance': {'position': 0.01, 'heading_deg': 1},", 4.6,
               0.01 + 2 * sqrt (36.5) * sin (G_PI / 360));
}

/* Nothing is known of what is nobody knows how far off: no distance of it is told. */
static void
test_tail_swing_unknown (void)
{
  const Case c = { .at = "[-4.1, 0, 0]", .lift = SEAT, .moves = WEST };
  g_autofree char *text = case_text (&c);
  TestRun run = test_run (text);
  const TrnCheckOptions options = { .jobs = 1 };
  TrnLiftCheck check;
  trn_lift_check_init (&check, run.scene, 1, &options);
  guint stack = 0;
  while (!g_str_equal (check.obstacles[stack].body->id, "stack"))
    g_assert_cmpuint (++stack, <, check.n_obstacles);
  TrnTailSwing tail;
  g_assert_true (trn_tail_swing_make (&check, 0, &tail));
  TrnFinding f = trn_tail_swing_judge (&check, &tail, stack);
  TEST_PASSES (&f, TRN_STATE_CLEAR);
  trn_finding_clear (&f);
  check.left_m[stack] = NAN;
  f = trn_tail_swing_judge (&check, &tail, stack);
  TEST_UNKNOWN (&f, TRN_MISSING_ATTITUDE_BEFORE);
  g_assert_true (isnan (f.circle_distance_m));
  trn_finding_clear (&f);
  trn_lift_check_clear (&check);
  test_run_clear (&run);
}

/* ---- what rests on what was left ---- */

static double
rests_off (const TestRun *run, guint lift, const char *seat, const char *item)
{
  const TrnFinding *f = test_finding_of (run, TRN_CHECK_RESTING, lift, -1, "load", seat, item);
  g_assert_cmpint (f->verdict, ==, TRN_VERDICT_PASS);
  return f->allowance_m;
}

#define LOWER "{'do': 'hoist', 'by': -1, 'seconds': 9}"

/* A slab is set down to within 0.03 m, and a crate on it to within 0.05 m, which then goes to a
 * deck that is surveyed to 0.01 m, to within 0.2 m. As it is taken from the slab it is where it was
 * set down. */
static void
test_resting (void)
{
  TestRun run = test_run (
      "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.1, 'structures': [{'id': 'deck',"
      " 'solid': {'kind': 'box', 'size': [30, 9, 1]}, 'survey_tolerance': 0.01, 'at': {'position':"
      " [0, 0, -1]}}], 'components': [{'id': 'slab', 'solid': {'kind': 'box', 'size': [3, 3, 1]},"
      " 'mass': 900, 'cog': [0, 0, 0.5], 'at': {'position': [0, 0, 1]}}, {'id': 'crate', 'solid':"
      " {'kind': 'box', 'size': [2, 2, 2]}, 'mass': 900, 'cog': [0, 0, 1], 'at': {'position':"
      " [0, 0, 2.5]}}], 'programme': [{'lift': 'a', 'component': 'slab', 'hook_point': [0, 0, 1],"
      " 'tolerance': {'position': 0.03}, 'seats': [{'on': 'deck', 'at': 'end'}], 'moves': [" LOWER
      "]}, {'lift': 'b', 'component': 'crate', 'hook_point': [0, 0, 2], 'tolerance': {'position':"
      " 0.05}, 'seats': [{'on': 'slab', 'at': 'end'}], 'moves': [{'do': 'hoist', 'by': -1.5,"
      " 'seconds': 9}]}, {'lift': 'c', 'component': 'crate', 'hook_point': [0, 0, 2], 'tolerance':"
      " {'position': 0.2}, 'seats': [{'on': 'slab', 'at': 'start'}, {'on': 'deck', 'at': 'end'}],"
      " 'moves': [{'do': 'hoist', 'by': 1, 'seconds': 9}, {'do': 'travel', 'by': [6, 0], 'seconds':"
      " 9}, {'do': 'hoist', 'by': -2, 'seconds': 9}]}]}");
  g_assert_cmpfloat_with_epsilon (rests_off (&run, 0, "deck", NULL), 0.03 + 0.01, 1e-9);
  g_assert_cmpfloat_with_epsilon (rests_off (&run, 1, "slab", NULL), 0.05 + 0.03, 1e-9);
  g_assert_cmpfloat_with_epsilon (rests_off (&run, 2, "slab", "start"), 0.05 + 0.03, 1e-9);
  g_assert_cmpfloat_with_epsilon (rests_off (&run, 2, "deck", NULL), 0.2 + 0.01, 1e-9);
  test_run_clear (&run);
}

/* ---- with a cache ---- */

#define SIDE "{'do': 'travel', 'by': [-4, 0], 'seconds': 10}"
#define TURN "{'do': 'turn', 'by': 0, 'seconds': 9}"
#define TILT "{'do': 'tilt', 'by': 0, 'axis': 0, 'seconds': 9}"
#define UP "{'do': 'hoist', 'by': 8, 'seconds': 10}"

/* All that is found of that lift. */
static char *
findings_of_dup (const char *text, guint lift, TrnCache *cache)
{
  const TrnCheckOptions options = { .jobs = 1, .cache = cache };
  TestRun run = test_run_with (text, &options);
  GString *out = g_string_new (NULL);
  const GArray *findings = run.findings->lifts[lift].findings;
  for (guint i = 0; i < findings->len; i++)
    {
      const TrnFinding *f = &g_array_index (findings, TrnFinding, i);
      g_string_append_printf (out, "%d %d %s %s %s %d %s %.17g %.17g %.17g\n", (int)f->check,
                              f->move, f->body, f->obstacle, f->item, (int)f->verdict, f->missing,
                              f->lower_m, f->allowance_m, f->margin);
    }
  test_run_clear (&run);
  return g_string_free (out, FALSE);
}

/* Of the second lift. */
static char *
findings_dup (const Case *c, TrnCache *cache)
{
  g_autofree char *text = case_text (c);
  return findings_of_dup (text, 1, cache);
}

/* How many lines of that check that name @body differ. */
static guint
count_changed (const char *before, const char *after, TrnCheckKind check, const char *body)
{
  g_autofree char *start = g_strdup_printf ("%d ", (int)check);
  g_auto (GStrv) a = g_strsplit (before, "\n", -1), b = g_strsplit (after, "\n", -1);
  guint n = 0;
  g_assert_cmpuint (g_strv_length (a), ==, g_strv_length (b));
  for (guint i = 0; a[i] != NULL; i++)
    n += g_str_has_prefix (a[i], start) && strstr (a[i], body) != NULL && strcmp (a[i], b[i]) != 0;
  return n;
}

/* Left on its hook in the wind, the stack swings on the longest rope of the last move of its lift:
 * a hoist begins on a longer one than the level way above. It ends in the same place either way, by
 * moves that are in no key of the second lift, but for how far they left it off. */
static void
test_cached (void)
{
  Case c = { .stack = ", 'mass': 4000, 'cog': [0, 0, 2]",
             .plan = "'wind': {'speed': 9, 'drag': 1.2},",
             .gear = ", {'id': 'gantry', 'kind': 'gantry', 'at': {'position': [-8, 0, 0]}, 'legs':"
                     " [{'at': [2, 12], 'size': [0.5, 0.5], 'height': 40}], 'trolley': {'size':"
                     " [1, 1, 1], 'underside': 35}}",
             .at = "[-4, 0, -4]",
             .lift = "'rigging': {'main': {'gear': 'gantry', 'hook_above': 1}},",
             .moves = UP "," SIDE };
  g_autoptr (TrnCache) cache = trn_cache_new (1 << 20);
  g_autofree char *first = findings_dup (&c, cache);
  c.moves = SIDE "," UP;
  g_autofree char *kept = findings_dup (&c, cache), *fresh = findings_dup (&c, NULL);
  g_assert_cmpstr (kept, ==, fresh);
  g_assert_cmpuint (count_changed (first, fresh, TRN_CHECK_TAIL_SWING, "stack"), >, 0);
  g_assert_cmpuint (count_changed (first, fresh, TRN_CHECK_CLEARANCE, "crane/boom stack"), >, 0);
  g_assert_cmpuint (count_changed (first, fresh, TRN_CHECK_CLEARANCE, "crane/block stack"), >, 0);
  c.moves = UP "," SIDE;
  g_autofree char *again = findings_dup (&c, cache);
  g_assert_cmpstr (again, ==, first);
}

/* A stack is set down on a deck with its tolerances, taken up and set down again by a lift with or
 * without a tilt, which makes tilt of what was a turn of heading, and taken up once more. Where
 * everything stands is the same, and so are all keys of the plan but moves of the lift before. */
static char *
taken_up_dup (const char *move, const char *tolerance, TrnCache *cache)
{
  g_autofree char *text = g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.1, 'structures': [{'id': 'deck',"
      " 'solid': {'kind': 'box', 'size': [9, 9, 1]}, 'at': {'position': [0, 0, -1]}}],"
      " 'components': [{'id': 'stack', 'solid': {'kind': 'box', 'size': [2, 2, 3]}, 'mass': 900,"
      " 'cog': [0, 0, 1], 'at': {'position': [0, 0, 1]}}], 'programme': [{'lift': 'a',"
      " 'component': 'stack', 'hook_point': [0, 0, 3], 'tolerance': {'position': 0.01, 'tilt_deg':"
      " 1, 'heading_deg': 2}, 'seats': [{'on': 'deck', 'at': 'end'}], 'moves': [" LOWER
      "]}, {'lift': 'b', 'component': 'stack', 'hook_point': [0, 0, 3], 'seats': [{'on': 'deck',"
      " 'at': 'end'}], 'moves': [%s]}, {'lift': 'c', 'component': 'stack', 'hook_point': [0, 0, 3],"
      " %s 'seats': [{'on': 'deck', 'at': 'start'}], 'moves': [{'do': 'hoist', 'by': 1, 'seconds':"
      " 9}]}]}",
      move, tolerance);
  return findings_of_dup (text, 2, cache);
}

static void
assert_taken_up (const char *tolerance, TrnCheckKind check)
{
  g_autoptr (TrnCache) cache = trn_cache_new (1 << 20);
  g_autofree char *first = taken_up_dup (TURN, tolerance, cache),
                  *kept = taken_up_dup (TILT, tolerance, cache),
                  *fresh = taken_up_dup (TILT, tolerance, NULL);
  g_assert_cmpstr (kept, ==, fresh);
  g_assert_cmpuint (count_changed (first, fresh, check, "deck"), >, 0);
}

static void
test_cached_load (void)
{
  assert_taken_up ("", TRN_CHECK_CLEARANCE);
  /* More than what was left: only what it rests by at the start is of that. */
  assert_taken_up ("'tolerance': {'position': 1, 'tilt_deg': 9, 'heading_deg': 9},",
                   TRN_CHECK_RESTING);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/left-beside/tail-swing", test_tail_swing);
  g_test_add_func ("/checks/left-beside/tail-swing-unknown", test_tail_swing_unknown);
  g_test_add_func ("/checks/left-beside/resting", test_resting);
  g_test_add_func ("/checks/left-beside/cached", test_cached);
  g_test_add_func ("/checks/left-beside/cached-load", test_cached_load);
  return g_test_run ();
}
