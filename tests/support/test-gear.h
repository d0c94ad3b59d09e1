/* test-gear.h: plans with one lift by a crane, a gantry or on tail gear, for tests of the checks.
 */
#pragma once

#include "test-checks.h"

/* Numbers of the crane that all these tests use. Its boom is 20 m long from a foot on the slew axis
 * 2 m up, so that with the hook at the radius r its tip is at 2 + √(400 − r²) m. */
#define GEAR_CRANE(more)                                                                           \
  "{'id': 'crane', 'kind': 'crane', 'at': {'position': [0, 0, 0]}, 'boom': {'foot': [0, 2],"       \
  " 'length': 20, 'section': [0.6, 0.8], 'angle': [30, 80]}, 'hook_to_tip': 3, 'capacity':"        \
  " {'configuration': 'made up', 'table': [[4, 9000], [16, 3000]]}" more "}"
#define GEAR_TAIL ", 'counterweight': {'tail_radius': 4, 'bottom': 1, 'top': 3, 'width': 2}"

typedef struct
{
  const char *gear;              /* between the brackets */
  const char *structures;        /* the same */
  const char *more;              /* further keys of the plan, each ended by a comma; NULL */
  const char *solid, *at, *hook; /* NULL: a cube of 2 m at [10, 0, 0], by the middle of its top */
  const char *rigging;           /* NULL: left out */
  const char *unit;              /* further keys of the component, each ended by a comma; NULL */
  const char *lift;              /* further keys of the lift, each ended by a comma; NULL */
  const char *moves;
  double deviation_m; /* of round solids; 0 as left out */
  double certify_m;   /* likewise */
} TestGear;

static inline TestRun
test_gear_run (const TestGear *t)
{
  g_autofree char *rigging
      = t->rigging != NULL ? g_strdup_printf ("'rigging': %s,", t->rigging) : g_strdup ("");
  g_autofree char *text = g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'title': 'Test', 'keep_clear': 0.5, %s"
      " 'gear': [%s], 'structures': [%s], 'components': [{'id': 'unit', 'name': 'Unit', %s"
      " 'mass': 1000, 'solid': %s, 'at': {'position': %s}}], 'programme': [{'lift': 'one', "
      "'component':"
      " 'unit', 'hook_point': %s, %s %s 'moves': [%s]}]}",
      t->more != NULL ? t->more : "", t->gear, t->structures, t->unit != NULL ? t->unit : "",
      t->solid != NULL ? t->solid : "{'kind': 'box', 'size': [2, 2, 2]}",
      t->at != NULL ? t->at : "[10, 0, 0]", t->hook != NULL ? t->hook : "[0, 0, 2]", rigging,
      t->lift != NULL ? t->lift : "", t->moves);
  const TrnCheckOptions options = { .jobs = 2, .certify_m = t->certify_m };
  return test_run_deviating (text, t->deviation_m, &options);
}

/* The finding has that verdict and state, and lacks that input (NULL: none). */
static inline void
test_assert_judged (const TrnFinding *f, TrnVerdict verdict, TrnState state, const char *missing)
{
  if (f->verdict != verdict || f->state != state || g_strcmp0 (f->missing, missing) != 0)
    g_test_message ("%s past %s, item %s: verdict %d state %d missing %s value %.9g limit %.9g"
                    " margin %.9g lower %.9g upper %.9g",
                    f->body, f->obstacle, f->item, (int)f->verdict, (int)f->state, f->missing,
                    f->value, f->limit, f->margin, f->lower_m, f->upper_m);
  g_assert_cmpint (f->verdict, ==, verdict);
  g_assert_cmpint (f->state, ==, state);
  g_assert_cmpstr (f->missing, ==, missing);
}
#define TEST_PASSES(f, state) test_assert_judged (f, TRN_VERDICT_PASS, state, NULL)
#define TEST_FAILS(f, state) test_assert_judged (f, TRN_VERDICT_FAIL, state, NULL)
#define TEST_UNKNOWN(f, missing)                                                                   \
  test_assert_judged (f, TRN_VERDICT_UNKNOWN, TRN_STATE_UNKNOWN, missing)
