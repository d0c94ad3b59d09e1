/* Each cause in a sentence of its own: what, where, the number found and its limit, what to do. */
#include <math.h>

#include "cause-words.h"
#include "cause.h"
#include "desk-words.h"
#include "ground-check.h"
#include "lean-pivot.h"
#include "load-words.h"
#include "words.h"

static void
assert_says (const TrnFinding *finding, const char *expected)
{
  g_autofree char *text = trn_words_finding (finding);
  g_assert_cmpstr (text, ==, expected);
}

static TrnFinding
lean (const char *why, TrnCauseKind kind, const char *of, double found, double limit)
{
  return (TrnFinding){
    .check = TRN_CHECK_LOAD_SHARE,
    .verdict = TRN_VERDICT_UNKNOWN,
    .state = TRN_STATE_UNKNOWN,
    .body = "tail",
    .item = "out-of-plane",
    .missing = "lean/beam",
    .value = NAN,
    .limit = NAN,
    .margin = NAN,
    .cause
    = { .why = why, .kind = kind, .of = of, .found = found, .limit = limit, .unit = TRN_UNIT_M }
  };
}

/* What was found is rounded away from its limit: 52.1 mm, 20 mm; an angle the other way round. */
static void
test_lean (void)
{
  TrnFinding f = lean (TRN_LEAN_DOUBT_BESIDE, TRN_CAUSE_POINT, "lug-a", 0.0521, 0.02);
  assert_says (&f, "Not known: point lug-a lies 0.053 m beside the plumb line below its hook, at "
                   "most 0.02 m counts. Draw it plumb below: move that point, hook_point, or the "
                   "point of the tail");
  f = lean (TRN_LEAN_DOUBT_BEAM_END, TRN_CAUSE_SLING, "drop-a", 0.2, 0.012);
  assert_says (&f,
               "Not known: the point of sling drop-a lies 0.2 m beside the plumb line below its "
               "end of the beam, at most 0.012 m counts (1/200 of the beam and of the sling). "
               "Make the beam as long as its points are apart, put hook_point midway between "
               "them (in a tilt all on one line along its axis), or hang slings to both sides "
               "of each end");
  f = lean (TRN_LEAN_DOUBT_ASKEW, TRN_CAUSE_BEAM, "bar", 2.2, 0.573);
  f.cause.unit = TRN_UNIT_DEG;
  assert_says (&f,
               "Not known: seen from above the line of beam bar is askew, 2.2° off that of both "
               "hooks or off square to it, at most 0.57° counts. Turn it along that line or "
               "square to it, by moving its points");
  f = lean (TRN_LEAN_DOUBT_NARROW, TRN_CAUSE_BEAM, "bar", 0.1009, 0.1601);
  f.cause.is_at_least = TRUE;
  assert_says (&f, "Not known: the points below beam bar go only 0.1 m aside from below its hook, "
                   "at least 0.161 m counts (a tenth of below_hook). Take a longer beam, or a "
                   "smaller below_hook");
  f = lean (TRN_LEAN_DOUBT_NO_END, TRN_CAUSE_BEAM, "bar", NAN, NAN);
  assert_says (&f,
               "Not known: an end of beam bar holds no sling to the load. Give each of its ends "
               "one (from and to of the slings)");
  f = lean (TRN_CAUSE_TOLERANCE, TRN_CAUSE_NONE, NULL, 0.031, 0.02);
  f.missing = "lean/beside";
  assert_says (&f,
               "Not known: points of the load are drawn beside what holds them, which moves and "
               "turns it by up to 0.031 m until they are plumb, and the tolerance of the lift "
               "covers 0.02 m. Draw them plumb below it, or give the tolerance a position that "
               "covers that");
  /* Without a cause all that is known is said. */
  f = lean (NULL, TRN_CAUSE_NONE, NULL, NAN, NAN);
  g_autofree char *all = trn_words_finding (&f);
  g_assert_true (g_str_has_prefix (all, "Not known: what a load on two hooks leans by is known"));
}

static void
test_mass (void)
{
  TrnFinding f = lean (TRN_CAUSE_NO_MASS, TRN_CAUSE_SLING, "sling-west", NAN, NAN);
  f.missing = "slings/mass";
  assert_says (&f, "Not known: the plan leaves out mass of sling sling-west");
  f.cause.n_more = 2;
  assert_says (&f, "Not known: the plan leaves out mass of sling sling-west, and of 2 more below "
                   "that hook");
  f = lean (TRN_CAUSE_NO_MASS, TRN_CAUSE_GEAR, "crane", NAN, NAN);
  f.missing = "block/mass";
  assert_says (&f, "Not known: the plan leaves out mass of the hook block of gear crane");
  f.cause = (TrnCause){ .why = NULL };
  assert_says (&f, "Not known: the plan leaves out mass of the hook block in the rigging of this "
                   "lift");
}

static void
test_left_out (void)
{
  TrnFinding f = lean (TRN_CAUSE_LEFT_OUT, TRN_CAUSE_GEAR, "tailer", NAN, NAN);
  f.missing = "hook_above";
  assert_says (&f, "Not known: the plan leaves out hook_above of the hook of gear tailer, how far "
                   "it is above its point");
  f.missing = "park";
  assert_says (&f, "Not known: no hoist of the lift uses crane tailer, and the plan leaves out its "
                   "park, the place of its hook then");
  f.cause = (TrnCause){ .why = NULL };
  f.missing = "hook_above";
  assert_says (&f, "Not known: the plan leaves out hook_above");
  f.missing = "counterweight";
  f.body = "tailer";
  assert_says (&f, "Not known: the plan leaves out counterweight of crane tailer");
}

/* A length that cures nothing is not asked for. */
static void
test_length (void)
{
  TrnFinding f = { .check = TRN_CHECK_RIGGING,
                   .verdict = TRN_VERDICT_FAIL,
                   .state = TRN_STATE_OUTSIDE,
                   .body = "drop-a",
                   .unit = TRN_UNIT_M,
                   .value = 3.4,
                   .limit = 3.45,
                   .margin = -0.033,
                   .cause = { .why = TRN_CAUSE_TILT_AXIS,
                              .kind = TRN_CAUSE_POINT,
                              .of = "pin-s",
                              .found = 0.05,
                              .unit = TRN_UNIT_M } };
  assert_says (&f,
               "Slack: only 3.4 m lies between its ends in this move, and it is 3.45 m. No one "
               "length fits the whole tilt: seen along its axis, point pin-s lies 0.05 m beside "
               "the point that is below the hook (hook_point, or the point of the tail). Put "
               "both on one line along that axis");
  f.cause.why = TRN_CAUSE_LENGTH;
  f.cause.found = 3.425;
  assert_says (&f,
               "Slack: only 3.4 m lies between its ends in this move, and it is 3.45 m. Give it "
               "3.425 m, which fits all moves (length)");
  f.cause.why = TRN_CAUSE_TILT_AXIS;
  f.value = 3.5;
  g_autofree char *text = trn_words_finding (&f);
  g_assert_true (g_str_has_prefix (text, "Too short: 3.5 m would be needed in this move, and it is "
                                         "3.45 m. No one length fits"));
  g_assert_null (strstr (text, "Give it that length"));
}

/* When it begins; ending a move before helps only where it does not begin at its start. */
static void
test_slack (void)
{
  TrnFinding f = lean (TRN_CAUSE_FROM, TRN_CAUSE_NONE, NULL, 27.034, NAN);
  f.verdict = TRN_VERDICT_FAIL;
  f.state = TRN_STATE_SLACK;
  f.item = "tail";
  f.missing = NULL;
  assert_says (&f, "The tail goes slack: it would have to push, from 27.03° of this tilt on. Move "
                   "the head or the point of the tail so that the centre of gravity stays between "
                   "both, or end the move before");
  /* Where it has to go on until the load is upright, neither. */
  f.cause.why = TRN_CAUSE_FROM_UPENDING;
  assert_says (&f, "The tail goes slack: it would have to push, from 27.03° of this tilt on. Move "
                   "the head or the point of the tail so that the centre of gravity stays between "
                   "both");
  f.cause.why = TRN_CAUSE_FROM_START;
  assert_says (&f, "The tail goes slack: it would have to push, from the start of this move on. "
                   "Move the head or the point of the tail so that the centre of gravity lies "
                   "between both");
  /* One moment is told once. */
  trn_finding_add_number (&f, "turned", 30, TRN_UNIT_DEG);
  trn_finding_add_number (&f, "least", -8269, TRN_UNIT_KG);
  trn_finding_add_number (&f, "least-turned", 30, TRN_UNIT_DEG);
  g_autofree char *numbers = trn_words_numbers (&f);
  g_assert_cmpstr (numbers, ==, "turned by 30°, at least −8.269 t");
  trn_finding_clear (&f);
}

static void
test_failures (void)
{
  TrnFinding f = { .check = TRN_CHECK_SLINGS,
                   .verdict = TRN_VERDICT_FAIL,
                   .state = TRN_STATE_OUTSIDE,
                   .item = "tension",
                   .body = "tail-sling",
                   .unit = TRN_UNIT_N,
                   .value = 10501,
                   .limit = 10000,
                   .utilisation = 1.0501,
                   .cause = { .why = TRN_CAUSE_PLUMB } };
  assert_says (&f, "Beyond its working load limit: 105.1 %, 10.51 kN of 10 kN. Take a stronger "
                   "sling: it is nearly plumb, so that a higher hook does not help");
  f = (TrnFinding){ .check = TRN_CHECK_GROUND,
                    .verdict = TRN_VERDICT_FAIL,
                    .state = TRN_STATE_LIFTED,
                    .body = "tower",
                    .unit = TRN_UNIT_PA,
                    .cause = { .why = TRN_CAUSE_LEG } };
  trn_finding_add_number (&f, TRN_GROUND_LIFTED, 2, TRN_UNIT_NONE);
  trn_finding_add_number (&f, TRN_GROUND_PULL, 12000, TRN_UNIT_N);
  trn_finding_add_number (&f, TRN_GROUND_LIFTED_X, -1.5, TRN_UNIT_M);
  trn_finding_add_number (&f, TRN_GROUND_LIFTED_Y, 6, TRN_UNIT_M);
  g_autofree char *leg = trn_words_finding (&f);
  trn_finding_clear (&f);
  g_assert_true (g_str_has_prefix (leg, "Leg 2 (x −1.5 m, y 6 m in the frame of its gear) lifts "
                                        "off: it would have to pull by up to 12 kN. "));
  g_assert_nonnull (strstr (leg, "Set the legs farther apart"));
  g_assert_null (strstr (leg, "counterweight"));
}

/* The header of a lift says of what it is not known. */
static void
test_header (void)
{
  TrnFinding f = lean (NULL, TRN_CAUSE_NONE, NULL, NAN, NAN);
  f.move = 2;
  g_autofree char *two_hooks = trn_words_of_lift (&f);
  g_assert_cmpstr (two_hooks, ==, "of the lift: NOT KNOWN (lean), move 3");
  f.check = TRN_CHECK_WIND;
  f.missing = "wind";
  f.item = "speed";
  f.move = -1;
  g_autofree char *wind = trn_words_of_lift (&f);
  g_assert_cmpstr (wind, ==, "of the lift: NOT KNOWN (wind)");
  f.check = TRN_CHECK_HEADROOM;
  f.missing = "hook_to_tip";
  f.item = NULL;
  g_autofree char *headroom = trn_words_of_lift (&f);
  g_assert_cmpstr (headroom, ==, "of the lift: NOT KNOWN (headroom)");
}

/* Of a clearance: what the load may stand on, and the tail hook beside it. */
static void
test_near (void)
{
  TrnFinding f = { .check = TRN_CHECK_CLEARANCE,
                   .verdict = TRN_VERDICT_FAIL,
                   .state = TRN_STATE_SHORT,
                   .body = "load",
                   .obstacle = "stool",
                   .lower_m = 0.001,
                   .required_m = 0.1,
                   .cause = { .why = TRN_CAUSE_STANDS_AT_START } };
  assert_says (&f, "Short by 0.099 m. The load touches it, or all but touches it, as the lift "
                   "begins: if it stands on that, and only then, name it in seats of the lift, "
                   "\"at\": \"start\"");
  f.state = TRN_STATE_CONTACT;
  f.cause.why = TRN_CAUSE_STANDS_AT_END;
  assert_says (&f, "In contact. The load touches it, or all but touches it, as the lift ends: if "
                   "it is set down on that, and only then, name it in seats of the lift, \"at\": "
                   "\"end\"");
  f.state = TRN_STATE_SHORT;
  f.obstacle = "crane/rope";
  f.cause.why = TRN_CAUSE_TAIL_HOLDS;
  assert_says (&f, "Short by 0.099 m: the tail hook hangs beside its load as far as the point of "
                   "the tail is from it. Take a longer lug");
  f.cause.why = TRN_CAUSE_TAIL_LET_GO;
  assert_says (&f, "Short by 0.099 m: the tail hook stays where it let go. Take a longer lug, or "
                   "split the lift there, so that the hook goes to its park");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/words/cause/lean", test_lean);
  g_test_add_func ("/words/cause/mass", test_mass);
  g_test_add_func ("/words/cause/left-out", test_left_out);
  g_test_add_func ("/words/cause/length", test_length);
  g_test_add_func ("/words/cause/slack", test_slack);
  g_test_add_func ("/words/cause/failures", test_failures);
  g_test_add_func ("/words/cause/near", test_near);
  g_test_add_func ("/words/cause/header", test_header);
  return g_test_run ();
}
