/* How far what earlier lifts have moved may stand from where it is drawn: closed forms, and loads
 * put down and hung at random within what their lift allows. */
#include <math.h>

#include "distance.h"
#include "hanging.h"
#include "moment.h"
#include "test-checks.h"
#include "test-scale.h"
#include "tolerances.h"

#define NEAR 1e-9
#define RAD(deg) ((deg)*G_PI / 180)

/* A box 2 m wide and 4 m high is hoisted by its hook point, 5 m above its middle, and carried 10 m
 * to the east; a cube of 1 m then goes by, east of that, with 1 m between them. */
typedef struct
{
  const char *plan;   /* keys of the plan, each ended by a comma */
  const char *unit;   /* of the box, each begun by one */
  const char *lift;   /* of its lift, each ended by one */
  const char *down;   /* moves after that, each begun by one */
  const char *change; /* of the programme, each ended by one */
  const char *later;  /* keys of the lift of the cube, each ended by a comma */
} Case;

#define HOOK "'hook_point': [0, 0, 5],"
#define DOWN ", {'do': 'hoist', 'by': -2, 'seconds': 10}"
#define ON_DECK "'seats': [{'on': 'deck', 'at': 'end'}],"
#define TOLERANCE "'tolerance': {'position': 0.05, 'tilt_deg': 0.5, 'heading_deg': 1},"
#define FREE "'hangs': 'free',"
#define COG ", 'mass': 4000, 'cog': [0, 0, 2]"
#define BOX COG ", 'cog_box': [0.3, 0.2, 0.1]"

static char *
case_text (const Case *c)
{
#define OR_NONE(text) ((text) != NULL ? (text) : "")
  return g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.5, %s 'structures': [{'id': "
      "'deck',"
      " 'solid': {'kind': 'box', 'size': [4, 4, 1]}, 'at': {'position': [10, 0, -1]}}],"
      " 'components': [{'id': 'unit', 'solid': {'kind': 'box', 'size': [2, 2, 4]}%s,"
      " 'at': {'position': [0, 0, 0]}}, {'id': 'cube', 'solid': {'kind': 'box', 'size': [1, 1, 1]},"
      " 'at': {'position': [12.5, -5, 2.5]}}, {'id': 'tall', 'solid': {'kind': 'box', 'size': [2, "
      "2,"
      " 11]}, 'at': null}], 'programme': [{'lift': 'first', 'component': 'unit', " HOOK
      " %s 'moves': [{'do': 'hoist', 'by': 2, 'seconds': 10}, {'do': 'travel', 'by': [10, 0],"
      " 'seconds': 10}%s]}, %s {'lift': 'second', 'component': 'cube', 'hook_point': [0, 0, 1], %s"
      " 'moves': [{'do': 'travel', 'by': [0, 10], 'seconds': 20}]}]}",
      OR_NONE (c->plan), OR_NONE (c->unit), OR_NONE (c->lift), OR_NONE (c->down),
      OR_NONE (c->change), OR_NONE (c->later));
#undef OR_NONE
}

static TestRun
run_case (const Case *c)
{
  g_autofree char *text = case_text (c);
  return test_run (text);
}

static const TrnFinding *
clearance (const TestRun *run, guint lift, int move, const char *obstacle)
{
  return test_finding_of (run, TRN_CHECK_CLEARANCE, lift, move, "load", obstacle, NULL);
}

/* What the cube keeps off what stands there, less than what is drawn by so much. */
static void
assert_left (const Case *c, const char *obstacle, double left_m, double within_m)
{
  TestRun run = run_case (c);
  const TrnFinding *f = clearance (&run, 1, 0, obstacle);
  test_assert_between (test_allowance_part (f, "earlier-lift"), left_m, NEAR, within_m + NEAR);
  g_assert_cmpfloat (f->allowance_m, ==, test_allowance_part (f, "earlier-lift"));
  test_assert_certified (f, 1, 0);
  g_assert_cmpint (f->verdict, ==, 1 - f->allowance_m >= 0.5 ? TRN_VERDICT_PASS : TRN_VERDICT_FAIL);
  test_run_clear (&run);
}

/* Set down, it may be off by the tolerances of its lift, about the hook point, of which its lower
 * corners are r away. */
static void
test_on_seat (void)
{
  const double r = sqrt (1 + 1 + 25),
               off_m = 0.05 + 2 * r * sin (RAD (0.5) / 2) + 2 * r * sin (RAD (1) / 2);
  assert_left (&(Case){ .down = DOWN, .lift = ON_DECK TOLERANCE }, "unit", off_m, 0);
  assert_left (&(Case){ .down = DOWN, .lift = ON_DECK }, "unit", 0, 0);
  /* Too much of it, and the same motion falls short. */
  assert_left (&(Case){ .down = DOWN, .lift = ON_DECK "'tolerance': {'position': 0.51}," }, "unit",
               0.51, 0);
  /* How it hung before is no matter then. */
  assert_left (&(Case){ .unit = BOX, .down = DOWN, .lift = ON_DECK FREE TOLERANCE }, "unit", off_m,
               0);
}

/* What takes its place does so where it was left, and its top is 6 m from the hook point; what is
 * added to the plan where it was surveyed stands there. */
static void
test_changed (void)
{
  const double r = sqrt (1 + 1 + 36),
               off_m = 0.05 + 2 * r * sin (RAD (0.5) / 2) + 2 * r * sin (RAD (1) / 2);
  Case c = { .down = DOWN, .lift = ON_DECK TOLERANCE };
  c.change = "{'change': 'x', 'swap': {'component': 'unit', 'with': 'tall'}},";
  assert_left (&c, "tall", off_m, 0);
  c.change = "{'change': 'x', 'remove': 'unit'}, {'change': 'y', 'add': 'unit', 'at': {'position': "
             "[10, 0, 0]}},";
  assert_left (&c, "unit", 0, 0);
}

static double
sum_of_last (const TestRun *run)
{
  const guint last = run->scene->programme->runs[0].lift->n_moves - 1;
  const TrnFinding *f = clearance (run, 0, (int)last, "deck");
  g_assert_cmpint (f->verdict, ==, TRN_VERDICT_PASS);
  return f->allowance_m;
}

/* Left on its hook it may be off by all that the last move of its lift takes off: its centre of
 * gravity may be anywhere in its box. */
static void
test_on_hook (void)
{
  const Case c = { .unit = BOX, .lift = FREE TOLERANCE };
  TestRun run = run_case (&c);
  const double hung_m = sum_of_last (&run);
  g_assert_cmpfloat (hung_m, >, 0.5);
  /* The one bounds a turn of heading by the distance from the plumb line of the hook, √2 m, the
   * other by that from the hook, √27 m. */
  test_assert_between (test_allowance_part (clearance (&run, 1, 0, "unit"), "earlier-lift"), hung_m,
                       NEAR, 2 * (sqrt (27) - sqrt (2)) * sin (RAD (1) / 2));
  test_run_clear (&run);
}

#define WIND "'wind': {'speed': 9, 'drag': 1.2},"
#define GANTRY                                                                                     \
  "'gear': [{'id': 'gantry', 'kind': 'gantry', 'at': {'position': [0, 0, 0]}, 'legs': [{'at': "    \
  "[8, "                                                                                           \
  "12], 'size': [0.5, 0.5], 'height': 30}], 'trolley': {'size': [1, 1, 1], 'underside': 25}}],"
#define ROPE "'rigging': {'main': {'gear': 'gantry', 'hook_above': 1}},"

/* The wind blows on, too: of what hangs, and not of what stands. Without ropes nobody knows how far
 * it takes what hangs, neither in its lift nor after it. */
static void
test_in_wind (void)
{
  Case c = { .plan = WIND GANTRY, .unit = COG, .lift = ROPE };
  TestRun run = run_case (&c);
  const TrnFinding *f = clearance (&run, 1, 0, "unit");
  g_assert_cmpfloat (test_allowance_part (f, "earlier-lift"), >, 0.1);
  g_assert_cmpfloat_with_epsilon (test_allowance_part (f, "earlier-lift"),
                                  clearance (&run, 0, 1, "deck")->allowance_m, NEAR);
  test_run_clear (&run);
  c.lift = ROPE ON_DECK;
  c.down = DOWN;
  run = run_case (&c);
  g_assert_cmpfloat (test_allowance_part (clearance (&run, 1, 0, "unit"), "earlier-lift"), ==, 0);
  test_run_clear (&run);
  c = (Case){ .plan = WIND, .unit = COG };
  run = run_case (&c);
  f = clearance (&run, 1, 0, "unit");
  g_assert_cmpint (clearance (&run, 0, 1, "deck")->verdict, ==, TRN_VERDICT_UNKNOWN);
  g_assert_cmpint (f->verdict, ==, TRN_VERDICT_UNKNOWN);
  g_assert_cmpstr (f->missing, ==, TRN_MISSING_ATTITUDE_BEFORE);
  test_run_clear (&run);
}

static void
assert_hangs_unknown (const Case *c, const char *what)
{
  TestRun run = run_case (c);
  const TrnFinding *f = clearance (&run, 1, 0, what);
  g_assert_cmpint (f->verdict, ==, TRN_VERDICT_UNKNOWN);
  g_assert_cmpstr (f->missing, ==, TRN_MISSING_ATTITUDE_BEFORE);
  g_assert_true (isnan (f->allowance_m));
  test_run_clear (&run);
}

/* What takes the place of what hangs hangs nobody knows how: its centre of gravity is elsewhere;
 * and so does what is removed while it hangs, wherever it is added. */
static void
test_changed_on_hook (void)
{
  static const Case cases[] = { { .unit = BOX, .lift = FREE }, { .unit = NULL } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      Case c = cases[i];
      c.change = "{'change': 'x', 'swap': {'component': 'unit', 'with': 'tall'}},";
      assert_hangs_unknown (&c, "tall");
      c.change = "{'change': 'x', 'remove': 'unit'}, {'change': 'y', 'add': 'unit', 'at': "
                 "{'position': [10, 0, 2]}},";
      assert_hangs_unknown (&c, "unit");
      c.change
          = "{'change': 'x', 'swap': {'component': 'unit', 'with': 'tall'}}, {'change': 'y', "
            "'remove': 'tall'}, {'change': 'z', 'add': 'unit', 'at': {'position': [10, 0, 2]}},";
      assert_left (&c, "unit", 0, 0);
    }
}

#define WAITS                                                                                      \
  "{'lift': 'again', 'component': 'unit', 'hook_point': [0, 0, 5], %s 'moves': [{'do': 'wait', "   \
  "'seconds': 5}]},"

/* Where all moves are waits it hangs, or stands, as it did, whether they say how it hangs or not.
 */
static void
test_waits (void)
{
  static const struct
  {
    const char *keys;
    gboolean hangs;
  } cases[] = { { "'hangs': 'free',", TRUE }, { "", TRUE }, { "'hangs': 'free'," ON_DECK, FALSE } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *waits = g_strdup_printf (WAITS, cases[i].keys);
      const Case c = { .unit = BOX,
                       .lift = cases[i].hangs ? FREE TOLERANCE : FREE TOLERANCE ON_DECK,
                       .down = cases[i].hangs ? NULL : DOWN,
                       .change = waits };
      TestRun run = run_case (&c);
      const double left_m = test_allowance_part (clearance (&run, 2, 0, "unit"), "earlier-lift"),
                   stands_m = 0.05 + 2 * sqrt (27) * (sin (RAD (0.5) / 2) + sin (RAD (1) / 2));
      if (cases[i].hangs)
        g_assert_cmpfloat (left_m, >, stands_m + 0.2);
      else
        g_assert_cmpfloat_with_epsilon (left_m, stands_m, NEAR);
      test_run_clear (&run);
    }
}

/* What a lift says of what holds the load @body, by the check @check; 0: nothing. */
static guint
count_missing (const TestRun *run, guint lift, TrnCheckKind check, const char *body,
               const char *missing)
{
  const GArray *list = run->findings->lifts[lift].findings;
  guint n = 0;
  for (guint i = 0; i < list->len; i++)
    {
      const TrnFinding *f = &g_array_index (list, TrnFinding, i);
      if (f->check != check || g_strcmp0 (f->body, body) != 0
          || g_strcmp0 (f->missing, missing) != 0)
        continue;
      g_assert_cmpint (f->verdict, ==, TRN_VERDICT_UNKNOWN);
      n++;
    }
  if (n > 0)
    g_assert_cmpint (run->findings->lifts[lift].verdict, !=, TRN_VERDICT_PASS);
  return n;
}

#define SLUNG                                                                                      \
  "'rigging': {'main': {'hook_above': 1, 'slings': [{'id': 's', 'to': [0, 0, 4], 'diameter': "     \
  "0.02}]}},"

/* The gear and the slings that hold what hangs are nowhere in later lifts, which the next load
 * could meet: no such lift meets what is set, also after one that does not name what holds it. */
static void
test_holder (void)
{
  g_autofree char *waits = g_strdup_printf (WAITS, "");
  const struct
  {
    Case c;
    guint lift, n;
  } cases[] = {
    { { .plan = GANTRY, .unit = COG, .lift = ROPE }, 1, 1 },
    { { .unit = COG, .lift = SLUNG }, 1, 1 },
    { { .unit = COG, .lift = SLUNG, .change = waits }, 2, 1 },
    { { .unit = COG }, 1, 0 },
    { { .plan = GANTRY, .unit = COG, .lift = ROPE ON_DECK, .down = DOWN }, 1, 0 },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TestRun run = run_case (&cases[i].c);
      g_assert_cmpuint (
          count_missing (&run, cases[i].lift, TRN_CHECK_RIGGING, "unit", TRN_MISSING_HOLDER), ==,
          cases[i].n);
      test_run_clear (&run);
    }
}

/* Nor is known where the gear is that holds it, or what that bears if it lifts more; another gear
 * goes on as ever. Taken over by another gear in mid-air the first is in nobody's way. */
static void
test_holding_gear (void)
{
  static const char two[]
      = "'gear': [{'id': 'gantry', 'kind': 'gantry', 'at': {'position': [0, 0, 0]}, 'legs': "
        "[{'at': "
        "[8, 12], 'size': [0.5, 0.5], 'height': 30}], 'trolley': {'size': [1, 1, 1], 'underside': "
        "25}}, {'id': 'other', 'kind': 'gantry', 'at': {'position': [0, 0, 0]}, 'legs': [{'at': "
        "[8, "
        "-12], 'size': [0.5, 0.5], 'height': 30}], 'trolley': {'size': [1, 1, 1], 'underside': "
        "25}}],",
      by_other[] = "'rigging': {'main': {'gear': 'other', 'hook_above': 1}},",
      over[] = "{'lift': 'again', 'component': 'unit', 'hook_point': [0, 0, 5], "
               "'rigging': {'main': {'gear': '%s', 'hook_above': 1}}, 'moves': "
               "[{'do': 'hoist', 'by': 1, 'seconds': 5}]},";
  const Case same = { .plan = two, .unit = COG, .lift = ROPE, .later = ROPE },
             other = { .plan = two, .unit = COG, .lift = ROPE, .later = by_other };
  TestRun run = run_case (&same);
  g_assert_cmpuint (count_missing (&run, 1, TRN_CHECK_HOOK_LOAD, "gantry", TRN_MISSING_HOLDER), ==,
                    1);
  g_assert_cmpuint (
      count_missing (&run, 1, TRN_CHECK_CLEARANCE, "gantry/trolley", TRN_MISSING_HOLDER), >, 0);
  test_run_clear (&run);
  run = run_case (&other);
  g_assert_cmpuint (
      count_missing (&run, 1, TRN_CHECK_CLEARANCE, "gantry/trolley", TRN_MISSING_HOLDER), >, 0);
  g_assert_cmpuint (
      count_missing (&run, 1, TRN_CHECK_CLEARANCE, "other/trolley", TRN_MISSING_HOLDER), <, 3);
  g_assert_cmpuint (count_missing (&run, 1, TRN_CHECK_HOOK_LOAD, "other", TRN_MISSING_HOLDER), ==,
                    0);
  test_run_clear (&run);
  for (guint i = 0; i < 2; i++)
    {
      g_autofree char *again = g_strdup_printf (over, i == 0 ? "gantry" : "other");
      const Case c = { .plan = two, .unit = COG, .lift = ROPE, .change = again };
      run = run_case (&c);
      g_assert_cmpuint (count_missing (&run, 1, TRN_CHECK_RIGGING, "load", TRN_MISSING_HOLDER), ==,
                        i);
      test_run_clear (&run);
    }
}

/* A load that hangs does not wait where it is for a hoist that takes it up later. */
static void
test_waits_unheld (void)
{
  static const char again[]
      = "{'lift': 'again', 'component': 'unit', 'hook_point': [0, 0, 5], 'rigging': {'main': "
        "{'hook_above': 1, 'moves': [1, 1]}}, %s 'moves': [{'do': 'wait', 'seconds': 5}, {'do': "
        "'hoist', 'by': 1, 'seconds': 5}]},";
  for (guint i = 0; i < 2; i++)
    {
      g_autofree char *change
          = g_strdup_printf (again, i == 0 ? "" : "'seats': [{'on': 'deck', 'at': 'start'}],");
      const Case c = { .lift = i == 0 ? SLUNG : SLUNG ON_DECK,
                       .down = i == 0 ? NULL : DOWN,
                       .change = change };
      TestRun run = run_case (&c);
      g_assert_cmpuint (count_missing (&run, 1, TRN_CHECK_RIGGING, "load", "rigging/main/moves"),
                        ==, i == 0);
      test_run_clear (&run);
    }
}

/* What hangs carries nothing. */
static void
test_seat_on_hung (void)
{
  const Case c = { .unit = COG,
                   .later = "'seats': [{'on': 'unit', 'at': 'end', 'until_clear': 0.6}],",
                   .change = "{'change': 'x', 'remove': 'cube'}, {'change': 'y', 'add': 'cube', "
                             "'at': {'position': [10, -10, 6.001]}}," };
  for (guint i = 0; i < 2; i++)
    {
      Case on = c;
      on.lift = i == 0 ? NULL : ON_DECK;
      on.down = i == 0 ? NULL : DOWN;
      on.change = i == 0 ? c.change
                         : "{'change': 'x', 'remove': 'cube'}, {'change': 'y', 'add': 'cube', "
                           "'at': {'position': [10, -10, 4.001]}},";
      TestRun run = run_case (&on);
      const TrnFinding *seat = test_finding_of (&run, TRN_CHECK_SEAT, 1, -1, "load", "unit", NULL);
      g_assert_cmpint (seat->verdict, ==, i == 0 ? TRN_VERDICT_UNKNOWN : TRN_VERDICT_PASS);
      if (i == 0)
        g_assert_cmpstr (seat->missing, ==, TRN_MISSING_HUNG_SEAT);
      test_run_clear (&run);
    }
}

static void
assert_slack (const char *move, const char *tolerance, double tilt_deg, double heading_deg)
{
  g_autofree char *again = g_strdup_printf (
      "{'lift': 'again', 'component': 'unit', " HOOK " %s 'moves': [%s]},", tolerance, move);
  const Case c = { .unit = COG, .down = DOWN, .lift = ON_DECK TOLERANCE, .change = again };
  g_autofree char *text = case_text (&c);
  g_autoptr (TrnProgramme) programme = test_programme (text);
  const TrnSlack *slack = &programme->runs[1].slack;
  g_assert_cmpfloat_with_epsilon (slack->m, 0.05, NEAR);
  g_assert_cmpfloat_with_epsilon (slack->tilt_rad, RAD (tilt_deg), NEAR);
  g_assert_cmpfloat_with_epsilon (slack->heading_rad, RAD (heading_deg), NEAR);
}

/* The greater of both; a tilt of the load makes tilt of what was heading, and the other way round,
 * and larger tolerances of the lift never make less of it. */
static void
test_turned_again (void)
{
  static const char up[] = "{'do': 'hoist', 'by': 1, 'seconds': 5}",
                    tilt[] = "{'do': 'tilt', 'by': 9, 'axis': 0, 'about': [0, 0, 0], 'seconds': 5}";
  assert_slack (up, "", 0.5, 1);
  assert_slack (up, "'tolerance': {'position': 0.01, 'tilt_deg': 0.7},", 0.7, 1);
  assert_slack (tilt, "", 1.5, 1.5);
  assert_slack (tilt, "'tolerance': {'position': 0.01, 'heading_deg': 2},", 1.5, 2);
  assert_slack (tilt, "'tolerance': {'position': 0.01, 'tilt_deg': 2},", 2, 1.5);
}

/* A lift that takes up what an earlier one left has at least its tolerances, in all of its moves;
 * about a hook point 1 m higher they shift that by 1 m times both turns. */
static void
test_lifted_again (void)
{
  static const char *const again
      = "{'lift': 'again', 'component': 'unit', 'hook_point': [0, 0, 6], 'tolerance': {'position': "
        "0.01, 'tilt_deg': 2}, 'moves': [{'do': 'hoist', 'by': 1, 'seconds': 5}]},";
  const Case c = { .unit = COG, .down = DOWN, .lift = ON_DECK TOLERANCE, .change = again };
  TestRun run = run_case (&c);
  const TrnSlack *slack = &run.scene->programme->runs[1].slack;
  g_assert_cmpfloat_with_epsilon (slack->m, 0.05 + 2 * sin (RAD (0.5) / 2) + 2 * sin (RAD (1) / 2),
                                  NEAR);
  g_assert_cmpfloat_with_epsilon (slack->tilt_rad, RAD (2), NEAR);
  g_assert_cmpfloat_with_epsilon (slack->heading_rad, RAD (1), NEAR);
  const double tilt_m = 2 * sqrt (38) * sin (RAD (2) / 2),
               turn_m = 2 * (sqrt (2) + tilt_m) * sin (RAD (1) / 2);
  test_assert_between (clearance (&run, 1, 0, "deck")->allowance_m, slack->m + tilt_m + turn_m,
                       NEAR, NEAR);
  test_run_clear (&run);
}

static double
rests_off (const char *tolerance)
{
  g_autofree char *lift = g_strconcat (ON_DECK, tolerance, NULL);
  const Case c = { .unit = COG,
                   .down = DOWN,
                   .lift = lift,
                   .change = "{'lift': 'again', 'component': 'unit', 'hook_point': [0, 0, 5],"
                             " 'seats': [{'on': 'deck', 'at': 'start'}], 'moves': [{'do': 'hoist',"
                             " 'by': 1, 'seconds': 5}]}," };
  TestRun run = run_case (&c);
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_RESTING, 1, -1, "load", "deck", "start");
  const double off_m = f->allowance_m;
  g_assert_cmpint (f->verdict, ==, TRN_VERDICT_PASS);
  test_run_clear (&run);
  return off_m;
}

/* Before it is lifted again it rests as it was set down: off by a shift, and by a turn of heading
 * both of what it rests on and of its centre of gravity. */
static void
test_rests_as_left (void)
{
  g_assert_cmpfloat (rests_off (""), ==, 0);
  g_assert_cmpfloat_with_epsilon (rests_off ("'tolerance': {'position': 0.05},"), 0.05, NEAR);
  g_assert_cmpfloat_with_epsilon (rests_off (TOLERANCE), 0.05 + 4 * sqrt (2) * sin (RAD (1) / 2),
                                  NEAR);
}

/* ---- with a cache ---- */

static char *
findings_text (const char *text, TrnCache *cache)
{
  TrnCheckOptions options = { .jobs = 1, .cache = cache };
  TestRun run = test_run_with (text, &options);
  GString *out = g_string_new (NULL);
  for (guint i = 0; i < run.findings->n_lifts; i++)
    for (guint k = 0; k < run.findings->lifts[i].findings->len; k++)
      {
        const TrnFinding *f = &g_array_index (run.findings->lifts[i].findings, TrnFinding, k);
        g_string_append_printf (out, "%u %d %s %d %.17g %.17g %.17g\n", i, f->move, f->obstacle,
                                f->verdict, f->lower_m, f->allowance_m, f->margin);
      }
  test_run_clear (&run);
  return g_string_free (out, FALSE);
}

/* What is found of a lift does not stay when an earlier one leaves its load off by more. */
static void
test_cached (void)
{
  static const char *const lifts[] = {
    FREE TOLERANCE, FREE "'tolerance': {'position': 0.06, 'tilt_deg': 0.5, 'heading_deg': 1},",
    FREE "'tolerance': {'position': 0.05, 'tilt_deg': 0.6, 'heading_deg': 1},", FREE TOLERANCE
  };
  static const char *const units[]
      = { COG, BOX, COG ", 'cog_box': [0.3, 0.2, 0.2]", COG ", 'cog_box': [0.35, 0.2, 0.1]" };
  g_autoptr (TrnCache) cache = trn_cache_new (1 << 20);
  g_autofree char *before = g_strdup ("");
  for (guint i = 0; i < G_N_ELEMENTS (lifts) * G_N_ELEMENTS (units); i++)
    {
      const Case c = { .unit = units[i / G_N_ELEMENTS (lifts)], .lift = lifts[i % 4] };
      g_autofree char *text = case_text (&c);
      g_autofree char *kept = findings_text (text, cache), *fresh = findings_text (text, NULL);
      g_assert_cmpstr (kept, ==, fresh);
      g_assert_cmpstr (kept, !=, before);
      g_free (before);
      before = g_steal_pointer (&kept);
    }
}

/* ---- at random ---- */

static double
pick (double lo, double hi)
{
  return g_test_rand_double_range (lo, hi);
}

static TrnVec3
pick_way (void)
{
  return trn_vec3_unit (trn_vec3_make (pick (-1, 1), pick (-1, 1), pick (-1, 1)));
}

/* A half of all at the end. */
static double
pick_of (double most)
{
  return g_test_rand_bit () ? most : pick (0, most);
}

/* The first load where its lift may have left it: in the attitude that a centre of gravity of its
 * box gives it where it hangs, and off by its tolerances about the hook point. */
static TrnPose
pick_left (const TestRun *run, const TrnProgramme *drawn, gboolean hangs)
{
  const TrnLift *lift = run->scene->programme->runs[0].lift;
  const TrnComponent *unit = &run->scene->programme->plan->components[0];
  TrnPose pose = drawn->runs[0].end;
  const TrnVec3 a = lift->hook.place, box = unit->cog_box;
  TrnVec3 hook = trn_pose_apply (&pose, a);
  const TrnVec3 corner = trn_vec3_make (pick_of (box.x), pick_of (box.y), pick_of (box.z));
  const TrnVec3 cog
      = g_test_rand_bit () ? trn_vec3_add (unit->cog, corner) : trn_vec3_sub (unit->cog, corner);
  TrnRotation hung;
  if (hangs && trn_hang_from_point (a, cog, &pose.turn, &hung))
    pose.turn = hung;
  const double heading = pick (0, 2 * G_PI);
  const TrnRotation tilt = trn_rotation_make (trn_vec3_make (cos (heading), sin (heading), 0),
                                              pick_of (lift->tolerance_tilt_rad)),
                    turn = trn_rotation_make (trn_vec3_make (0, 0, g_test_rand_bit () ? 1 : -1),
                                              pick_of (lift->tolerance_heading_rad));
  pose.turn = trn_rotation_multiply (&tilt, &pose.turn);
  pose.turn = trn_rotation_multiply (&turn, &pose.turn);
  hook = trn_vec3_add (hook, trn_vec3_scale (pick_way (), pick_of (lift->tolerance_m)));
  pose.position = trn_vec3_sub (hook, trn_rotation_apply (&pose.turn, a));
  return pose;
}

/* The least, over some places and moments, of the distance less what is certified. */
static double
least_beyond (const TestRun *run, const TrnProgramme *drawn, gboolean hangs)
{
  const TrnLiftRun *second = &run->scene->programme->runs[1];
  const TrnFinding *f = clearance (run, 1, 0, "unit");
  const TrnBody *cube = trn_scene_load (run->scene, second),
                *unit = &run->scene->components[0].bodies[0];
  double least_m = INFINITY;
  for (guint i = 0; i < 300; i++)
    {
      const TrnPose left = pick_left (run, drawn, hangs),
                    cube_at = trn_motion_pose (&second->motions[0], pick (0.3, 0.7));
      const TrnDistance d
          = trn_mesh_distance (cube->bvh, &cube_at, unit->bvh, &left, INFINITY, NULL);
      least_m = fmin (least_m, d.distance_m - (f->lower_m - f->allowance_m));
    }
  return least_m;
}

/* Nowhere is it nearer to the next load than is certified, less what is taken off; nor is that so
 * much that it is no bound at all. */
static void
test_random (void)
{
  const guint n = MAX (test_scaled (40), 20);
  double tightest_m = INFINITY;
  for (guint i = 0; i < n; i++)
    {
      const gboolean hangs = i % 2 == 0;
      g_autofree char *unit = g_strdup_printf (
          ", 'mass': 4000, 'cog': [%.2f, %.2f, %.2f], 'cog_box': [%.2f, %.2f, %.2f]",
          pick (-0.1, 0.1), pick (-0.1, 0.1), pick (1, 2.5), pick (0, 0.2), pick (0, 0.2),
          pick (0, 0.3));
      g_autofree char *lift = g_strdup_printf (
          "%s 'tolerance': {'position': %.3f, 'tilt_deg': %.2f, 'heading_deg': %.2f},",
          hangs ? FREE : ON_DECK, pick (0, 0.1), pick (0, 1), pick (0, 3));
      g_auto (GStrv) parts = g_strsplit (lift, FREE, -1);
      g_autofree char *as_drawn = g_strjoinv ("", parts);
      Case c = { .unit = unit, .lift = lift, .down = hangs ? NULL : DOWN };
      TestRun run = run_case (&c);
      c.lift = as_drawn;
      g_autofree char *text = case_text (&c);
      g_autoptr (TrnProgramme) drawn = test_programme (text);
      const double least_m = least_beyond (&run, drawn, hangs);
      g_assert_cmpfloat (least_m, >=, -TRN_CONTACT_M);
      tightest_m = fmin (tightest_m, least_m);
      test_run_clear (&run);
    }
  g_test_message ("nearest to the bound: %.4f m", tightest_m);
  g_assert_cmpfloat (tightest_m, <, 0.3);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/left/on-seat", test_on_seat);
  g_test_add_func ("/checks/left/changed", test_changed);
  g_test_add_func ("/checks/left/on-hook", test_on_hook);
  g_test_add_func ("/checks/left/in-wind", test_in_wind);
  g_test_add_func ("/checks/left/changed-on-hook", test_changed_on_hook);
  g_test_add_func ("/checks/left/waits", test_waits);
  g_test_add_func ("/checks/left/holder", test_holder);
  g_test_add_func ("/checks/left/holding-gear", test_holding_gear);
  g_test_add_func ("/checks/left/waits-unheld", test_waits_unheld);
  g_test_add_func ("/checks/left/seat-on-hung", test_seat_on_hung);
  g_test_add_func ("/checks/left/turned-again", test_turned_again);
  g_test_add_func ("/checks/left/lifted-again", test_lifted_again);
  g_test_add_func ("/checks/left/rests-as-left", test_rests_as_left);
  g_test_add_func ("/checks/left/cached", test_cached);
  g_test_add_func ("/checks/left/random", test_random);
  return g_test_run ();
}
