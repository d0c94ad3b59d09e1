/* swinging-plan.h: plans for the tests of swinging.
 *
 * A cube of 2 m hangs by the middle of its top, 1 m below the hook, from 17 m of rope of a tower:
 * its centre of gravity is 19 m below the tip, its lower corners √6 m from the hook point. */
#pragma once

#include <math.h>

#include "gravity.h"
#include "test-checks.h"
#include "test-force.h"

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
#define SHORT_TO(id, to) "{'id': '" id "', 'to': " to ", 'diameter': 0.03, " LIGHT "}"
#define SHORT(id, to) SHORT_TO (id, "[" to "]")
#define UP SHORT_TO ("a", "'beam-a'") ", " SHORT_TO ("b", "'beam-b'")
#define TWO_LEGS(z) LEG ("a", "1", z) ", " LEG ("b", "-1", z)
#define TWO_MORE_LEGS(z) LEG ("c", "1", z) ", " LEG ("d", "-1", z)
#define TRAVEL(seconds) "{'do': 'travel', 'by': [6, 0], 'seconds': " seconds "}"
/* By the chord of its swing, of a cube whose hook is @rope_m below the tip: as one body it is so
 * much longer, and it nods about its hook point, 1 m above its centre of gravity, √6 m from its
 * corners. */
#define WHOLE_M(rope_m) ((rope_m) + 2.0)
#define HOOK_M(rope_m) sqrt (WHOLE_M (rope_m) * (rope_m))
#define FAR_M(rope_m) sqrt (WHOLE_M (rope_m) * ((rope_m) + 1 + 6))

static inline char *
plan_text (const char *plan, const char *structures, const char *unit, const char *lift,
           const char *moves)
{
  return g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.5, %s 'structures': [%s],"
      " 'components': [{'id': 'unit', %s 'at': {'position': [0, 0, 5]}}], 'programme': [{'lift':"
      " 'one', 'component': 'unit', %s 'moves': [%s]}]}",
      plan, structures, unit, lift, moves);
}

static inline TestRun
run_plan (const char *plan, const char *structures, const char *unit, const char *lift,
          const char *moves)
{
  g_autofree char *text = plan_text (plan, structures, unit, lift, moves);
  return test_run (text);
}

/* Of the load past the post, in that move. */
static inline double
swing_of (const TestRun *run, guint lift, int move)
{
  const TrnFinding *f
      = test_finding_of (run, TRN_CHECK_CLEARANCE, lift, move, "load", "post", NULL);
  g_assert_false (isnan (f->allowance_m));
  return test_allowance_part (f, "swing");
}

static inline double
swing_in (const TestRun *run, int move)
{
  return swing_of (run, 0, move);
}

static inline void
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

/* What it turns by in a quick travel, in degrees. */
static inline double
turns_deg (const char *unit, const char *lift)
{
  TestRun run = run_plan (RAMP ("0.1") TOWER, POST, unit, lift, TRAVEL ("110"));
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_SWINGING, 0, -1, "load", NULL, "swing");
  const double deg = test_number (f, "swing-angle");
  test_run_clear (&run);
  return deg;
}

static inline double
chord_of (double deg)
{
  return 2 * sin (deg / 360 * G_PI);
}
