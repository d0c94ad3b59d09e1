/* test-finding-words.c: findings and what they come to; the sense of each sentence must follow the
 * verdict, and its numbers must err on the careful side. */
#include "words.h"

#include <string.h>

#include "results.h"

static TrnFinding
clearance (TrnVerdict verdict, TrnState state, double lower_m, double allowance_m,
           double required_m)
{
  return (TrnFinding){ .check = TRN_CHECK_CLEARANCE,
                       .verdict = verdict,
                       .state = state,
                       .body = "load",
                       .obstacle = "wall",
                       .lower_m = lower_m,
                       .upper_m = lower_m + 0.001,
                       .allowance_m = allowance_m,
                       .required_m = required_m };
}

static void
assert_finding (TrnFinding finding, const char *expected)
{
  g_autofree char *text = trn_words_finding (&finding);
  g_assert_cmpstr (text, ==, expected);
}

/* 0.9208 − 0.1 − 0.2 leaves 0.6208: 0.62 shown. 0.3202 of 0.5 misses 0.1798: 0.18 shown. */
static void
test_clearance (void)
{
  assert_finding (clearance (TRN_VERDICT_PASS, TRN_STATE_CLEAR, 0.9208, 0.1, 0.2),
                  "Meets the set clearance, 0.62 m to spare");
  assert_finding (clearance (TRN_VERDICT_FAIL, TRN_STATE_SHORT, 0.3202, 0, 0.5), "Short by 0.18 m");
  assert_finding (clearance (TRN_VERDICT_FAIL, TRN_STATE_SHORT, 0.49999, 0, 0.5),
                  "Short by 0.001 m");
  TrnFinding seat = clearance (TRN_VERDICT_FAIL, TRN_STATE_SHORT, 0.51, 0.05, 0.5);
  seat.seat_until_m = 0.56;
  assert_finding (seat,
                  "Short by 0.04 m, and only where the load leaves or reaches its seat: raise "
                  "until_clear of this seat to at least 0.56 m (what is to be kept + "
                  "all that is taken off + 0.01 m)");
  assert_finding (clearance (TRN_VERDICT_PASS, TRN_STATE_SEATED, NAN, 0, 0.5),
                  "Seated: the load rests here");
}

/* 4 m, less 7.2 m of which 6.9 m are for hooks out of level, and 0.5 m to keep: 3.7 m are missing,
 * and why so much is taken off is said. Where another takes more off, that is said instead. */
static void
test_out_of_level (void)
{
  g_autoptr (GArray) parts = g_array_new (FALSE, FALSE, sizeof (TrnFindingItem));
  TrnFindingItem items[] = { { "position-tilt-heading", 0.3 }, { "out-of-level", 6.9 } };
  g_array_append_vals (parts, items, 2);
  TrnFinding finding = clearance (TRN_VERDICT_FAIL, TRN_STATE_SHORT, 4, 7.2, 0.5);
  finding.allowance_parts = parts;
  assert_finding (
      finding,
      "Short by 3.7 m: hooks out of level take 6.9 m off. As far as the plan lets them "
      "(out_of_level) they turn the load, the more the nearer its two points are to "
      "being plumb over each other, and until it hangs from one hook where a rope goes slack. "
      "Keep the hooks closer to level, or put the tail point farther aside");
  g_array_index (parts, TrnFindingItem, 0).m = 7;
  finding.allowance_m = 13.9;
  assert_finding (finding,
                  "Short by 10.4 m: tolerances of position, tilt and heading take 7 m off. Make "
                  "them smaller, and steer the load to that by tag lines, or give it more room");
}

/* 1.175 m, less 2.963 m of which 2.6 m are for swinging, and 0.5 m to keep: 2.288 m are missing,
 * which would be there without the swinging. Where more is missing than any part takes off, the
 * greatest is told; where more is than all of them do, none is to blame. */
static void
test_because (void)
{
  static const struct
  {
    const char *what, *has;
  } all[] = { { "swing", "Short by 2.288 m: starting, stopping and slewing take 2.6 m off. Move" },
              { "wind", "Short by 2.288 m: the wind takes 2.6 m off. Lift in less wind" },
              { "lean", "Short by 2.288 m: the lean of the load takes 2.6 m off. Put" },
              { "cog-box", "anywhere in its box (cog_box) takes 2.6 m off" },
              { "out-of-level", "Short by 2.288 m: hooks out of level take 2.6 m off. As far" },
              { "earlier-lift", "elsewhere than drawn, which takes 2.6 m off" } };
  TrnFinding finding = clearance (TRN_VERDICT_FAIL, TRN_STATE_SHORT, 1.175, 2.963, 0.5);
  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    {
      g_autoptr (GArray) parts = g_array_new (FALSE, FALSE, sizeof (TrnFindingItem));
      TrnFindingItem items[] = { { "position-tilt-heading", 0.363 }, { all[i].what, 2.6 } };
      g_array_append_vals (parts, items, 2);
      finding.allowance_parts = parts;
      g_autofree char *text = trn_words_finding (&finding);
      if (strstr (text, all[i].has) == NULL)
        g_error ("no “%s” in: %s", all[i].has, text);
    }
  g_autoptr (GArray) parts = g_array_new (FALSE, FALSE, sizeof (TrnFindingItem));
  TrnFindingItem items[] = { { "position-tilt-heading", 2.6 }, { "swing", 0.363 } };
  g_array_append_vals (parts, items, 2);
  finding.allowance_parts = parts;
  assert_finding (finding,
                  "Short by 2.288 m: tolerances of position, tilt and heading take 2.6 m off. Make "
                  "them smaller, and steer the load to that by tag lines, or give it more room");
  g_array_index (parts, TrnFindingItem, 0).m = 1.3;
  g_array_index (parts, TrnFindingItem, 1).m = 1.663;
  g_autofree char *text = trn_words_finding (&finding);
  g_assert_true (g_str_has_prefix (
      text, "Short by 2.288 m: starting, stopping and slewing take 1.663 m off."));
  /* 0.4 m of 0.5 m: it is too near as drawn. */
  finding.lower_m = finding.upper_m = 0.4;
  finding.body = "load";
  assert_finding (finding, "Short by 3.063 m");
  finding.body = "crane/boom";
  assert_finding (finding, "Short by 3.063 m: put the gear, or what it passes, at least that much "
                           "farther away");
}

static void
test_contact (void)
{
  TrnFinding finding = clearance (TRN_VERDICT_FAIL, TRN_STATE_CONTACT, 0, 0, 0.5);
  assert_finding (finding, "In contact");
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (TrnInterval));
  TrnInterval span = { 725, 730 };
  g_array_append_val (spans, span);
  finding.contacts = spans;
  assert_finding (finding, "In contact, first at 12 min 05 s");
  finding.inside = TRN_INSIDE_YES;
  assert_finding (finding, "In contact: one lies inside the other");
}

/* What is not known must never read like a pass, even with a bound above what is required. */
static void
test_unknown (void)
{
  assert_finding (clearance (TRN_VERDICT_UNKNOWN, TRN_STATE_UNKNOWN, 0.7, 0, 0.5),
                  "Not known: only a clearance of 0.7 m is proven");
  assert_finding (clearance (TRN_VERDICT_UNKNOWN, TRN_STATE_UNKNOWN, NAN, 0, 0.5),
                  "Not known: no clearance could be proven");
  assert_finding (clearance (TRN_VERDICT_UNKNOWN, TRN_STATE_CLEAR, 0.7, 0, 0.5),
                  "Not known: only a clearance of 0.7 m is proven");
  TrnFinding open = clearance (TRN_VERDICT_PASS, TRN_STATE_CLEAR, 0.7, 0, 0.5);
  open.inside = TRN_INSIDE_UNKNOWN;
  g_autofree char *text = trn_words_finding (&open);
  g_assert_true (g_str_has_suffix (text, "since neither surface is closed"));
}

static void
test_swing (void)
{
  TrnFinding finding = { .check = TRN_CHECK_SWING_RADIUS,
                         .verdict = TRN_VERDICT_NOTE,
                         .state = TRN_STATE_SHORT,
                         .radius_m = 4.2,
                         .sector_distance_m = 4.4,
                         .circle_distance_m = 4.4,
                         .required_m = 0.5 };
  assert_finding (finding, "The swing circle of 4.2 m comes 0.3 m closer than the set clearance");
  g_assert_cmpstr (trn_words_finding_short (&finding), ==, "look");
  finding.sector_distance_m = 6.0005;
  finding.verdict = TRN_VERDICT_PASS;
  finding.state = TRN_STATE_CLEAR;
  assert_finding (finding, "Outside the swing circle of 4.2 m, 1.3 m to spare");
  finding.sector_distance_m = NAN;
  assert_finding (finding, "Nothing of it lies in the way of the swing");
}

static void
test_seat_and_start (void)
{
  TrnFinding seat = { .check = TRN_CHECK_SEAT, .fit_m = 0.005, .state = TRN_STATE_BURIED };
  seat.raise_m = NAN;
  assert_finding (seat, "Buried: raised by 0.005 m it still touches its seat");
  seat.raise_m = 0.2501;
  assert_finding (seat, "Buried: raised by 0.005 m it still touches its seat; raised by 0.251 m it "
                        "is clear of it");
  seat.state = TRN_STATE_NOT_RESTING;
  seat.obstacle = "pad";
  seat.gap_m = seat.distance_m = 0.1;
  assert_finding (
      seat,
      "Not resting: 0.1 m above its seat, and up to 0.005 m counts as resting (fit). Lower it "
      "by what lies between them, or correct the place of one of the two");
  seat.gap_m = 0.0053;
  assert_finding (
      seat,
      "Not resting: 0.006 m above its seat, and up to 0.005 m counts as resting (fit). Lower it "
      "by what lies between them, or correct the place of one of the two");
  seat.gap_m = NAN;
  assert_finding (seat, "Not resting: 0.1 m from its seat, and not above it");
  seat.state = TRN_STATE_RESTING;
  assert_finding (seat, "Rests on its seat");
  g_assert_true (isnan (trn_words_margin_m (&seat)));
  TrnFinding start = { .check = TRN_CHECK_START,
                       .state = TRN_STATE_ELSEWHERE,
                       .stands = { { 1, 2, 3 }, 0, 0, 0 },
                       .starts = { { 1, 2, 5 }, 0, 0, 0 },
                       .distance_m = 2 };
  assert_finding (start,
                  "Begins at (1, 2, 5) m, but its component stands at (1, 2, 3) m: 2 m from there");
  start.turned_rad = G_PI / 4;
  assert_finding (start, "Begins at (1, 2, 5) m, but its component stands at (1, 2, 3) m: 2 m from "
                         "there, and turned by 45°");
}

/* Every state of every check has a sentence and a word; those of unknown say so. */
static void
test_every_state (void)
{
  for (int check = 0; check < TRN_N_CHECKS; check++)
    for (int state = 0; state < TRN_N_STATES; state++)
      {
        TrnFinding finding = { .check = (TrnCheckKind)check,
                               .verdict = TRN_VERDICT_UNKNOWN,
                               .state = (TrnState)state,
                               .lower_m = NAN };
        g_autofree char *text = trn_words_finding (&finding);
        g_assert_cmpstr (text, !=, "");
        g_assert_cmpstr (trn_words_finding_short (&finding), !=, "");
        if (state == TRN_STATE_UNKNOWN)
          g_assert_true (g_str_has_prefix (text, "Not known"));
      }
}

static char *
headline_of (TrnVerdict verdict, GArray *array)
{
  TrnLiftFindings lift = { .verdict = verdict, .findings = array };
  TrnFindings findings = { .lifts = &lift, .n_lifts = 1, .verdict = verdict, .complete = TRUE };
  return trn_words_headline (&findings);
}

/* The headline counts what is wrong and always names what was not checked. */
static void
test_headline (void)
{
  g_autoptr (GArray) array = g_array_new (FALSE, FALSE, sizeof (TrnFinding));
  TrnFinding pass = clearance (TRN_VERDICT_PASS, TRN_STATE_CLEAR, 1, 0, 0.5);
  TrnFinding fail = clearance (TRN_VERDICT_FAIL, TRN_STATE_SHORT, 0.1, 0, 0.5);
  TrnFinding unknown = clearance (TRN_VERDICT_UNKNOWN, TRN_STATE_UNKNOWN, 0, 0, 0.5);
  g_array_append_val (array, pass);
  g_autofree char *passes = headline_of (TRN_VERDICT_PASS, array);
  g_assert_true (g_str_has_prefix (passes, "Clearances meet the set values. Not checked: "));
  g_assert_nonnull (strstr (passes, "headroom"));
  TrnLiftFindings lift = { .verdict = TRN_VERDICT_PASS, .findings = array };
  TrnFindings one = { .lifts = &lift, .n_lifts = 1, .complete = TRUE };
  /* 0.5 m to spare */
  g_autofree char *tight = trn_words_headline_short (&one, TRN_HEADLINE_DONE, 1, 0.5);
  g_assert_true (
      g_str_has_prefix (tight, "1 clearance meets the set value, 1 of them tight · not checked"));
  /* Off a seat as well. */
  g_array_index (array, TrnFinding, 0).has_seated = TRUE;
  g_autofree char *off_seat = trn_words_headline_short (&one, TRN_HEADLINE_DONE, 1, 0.5);
  g_assert_cmpstr (off_seat, ==, tight);
  g_array_index (array, TrnFinding, 0).has_seated = FALSE;
  g_autofree char *clear = trn_words_headline_short (&one, TRN_HEADLINE_DONE, 1, 0.4);
  g_assert_true (g_str_has_prefix (clear, "1 clearance meets the set value · not checked"));
  g_array_append_val (array, unknown);
  g_autofree char *unknowns = headline_of (TRN_VERDICT_UNKNOWN, array);
  g_assert_true (g_str_has_prefix (unknowns, "1 finding is not known"));
  g_array_append_val (array, fail);
  g_array_append_val (array, fail);
  g_autofree char *fails = headline_of (TRN_VERDICT_FAIL, array);
  g_assert_true (g_str_has_prefix (fails, "2 findings do not meet what is set."));
  TrnFindings nothing = { .verdict = TRN_VERDICT_UNKNOWN, .complete = TRUE };
  g_autofree char *none = trn_words_headline (&nothing);
  g_assert_true (
      g_str_has_prefix (none, "The plan has no lift, so nothing was checked. Not checked: "));
  g_assert_null (strstr (fails, "Clearances meet"));
  g_assert_nonnull (strstr (trn_words_caution (), "competent, licensed person"));
}

/* The names of checks in the results file all have words: none shows as it stands in the file. */
static void
test_check_names (void)
{
  g_autoptr (GArray) array = g_array_new (FALSE, FALSE, sizeof (TrnFinding));
  g_autofree char *headline = headline_of (TRN_VERDICT_PASS, array);
  const char *names[TRN_RESULTS_MOST_CHECKS + 1];
  guint n = trn_results_not_checked (TRN_CHECKS_ALWAYS, names);
  g_auto (GStrv) shown = g_strsplit (headline, ", ", -1);
  g_assert_cmpuint (g_strv_length (shown), ==, n);
  for (guint i = 0; i < n; i++)
    if (strchr (names[i], '-') != NULL)
      g_assert_null (strstr (headline, names[i]));
}

/* What was done of a plan is not named as not checked; what depends on the plan is named where no
 * plan is meant. */
static void
test_gear_headline (void)
{
  TrnFindings findings
      = { .verdict = TRN_VERDICT_UNKNOWN, .checks_done = TRN_CHECKS_ALL, .complete = TRUE };
  g_autofree char *headline = trn_words_headline (&findings);
  g_assert_true (g_str_has_prefix (headline, "The plan has no lift"));
  g_assert_null (strstr (headline, "headroom"));
  g_assert_null (strstr (headline, "Not checked"));
  findings.checks_done &= ~TRN_CHECK_BIT (TRN_CHECK_GROUND);
  g_autofree char *without = trn_words_headline (&findings);
  g_assert_nonnull (strstr (without, "Not checked: ground pressure."));
  g_autofree char *depends = trn_words_not_checked ();
  g_assert_nonnull (strstr (depends, "headroom"));
  g_assert_nonnull (strstr (depends, "capacity"));
  g_assert_null (strstr (depends, "Not checked"));
  TrnLiftFindings lift = { .findings = g_array_new (FALSE, FALSE, sizeof (TrnFinding)) };
  TrnFindings one = { .lifts = &lift, .n_lifts = 1, .checks_done = TRN_CHECKS_ALL };
  g_autofree char *done = trn_words_headline (&one);
  g_assert_true (g_str_has_prefix (done, "Clearances meet the set values. Checked: clearances, "
                                         "headroom, reach, "));
  g_assert_null (strstr (done, "Not checked: "));
  g_array_unref (lift.findings);
}

static void
assert_order (const TrnFinding *const *findings, guint n, double tight_m)
{
  for (guint i = 0; i < n; i++)
    for (guint k = 0; k < n; k++)
      {
        int order = trn_words_compare_worst (findings[i], findings[k], tight_m);
        g_assert_cmpint ((order > 0) - (order < 0), ==, (i > k) - (i < k));
      }
}

/* In contact in two moves of which tolerances take off a little more in one: none comes first.
 * Where it is told, it does; and so does what is no contact. */
static void
test_contacts (void)
{
  const TrnFinding a = clearance (TRN_VERDICT_FAIL, TRN_STATE_CONTACT, 0, 0.0215234, 0.5),
                   b = clearance (TRN_VERDICT_FAIL, TRN_STATE_CONTACT, 0, 0.02152346, 0.5),
                   more = clearance (TRN_VERDICT_FAIL, TRN_STATE_CONTACT, 0, 0.0225234, 0.5),
                   near = clearance (TRN_VERDICT_FAIL, TRN_STATE_SHORT, 0.1, 0.0215234, 0.5),
                   nearer = clearance (TRN_VERDICT_FAIL, TRN_STATE_SHORT, 0.1, 0.02152346, 0.5);
  g_assert_cmpint (trn_words_compare_worst (&a, &b, NAN), ==, 0);
  g_assert_cmpint (trn_words_compare_worst (&more, &a, NAN), <, 0);
  g_assert_cmpint (trn_words_compare_worst (&nearer, &near, NAN), <, 0);
}

/* A clearance that lacks 10 mm comes before a boom that is 3 degrees beyond its 30, and that before
 * a tension that is 1 % beyond. */
static void
test_order (void)
{
  TrnFinding short_of = clearance (TRN_VERDICT_FAIL, TRN_STATE_SHORT, 0.29, 0, 0.3);
  TrnFinding boom = { .check = TRN_CHECK_REACH,
                      .verdict = TRN_VERDICT_FAIL,
                      .state = TRN_STATE_OUTSIDE,
                      .unit = TRN_UNIT_DEG,
                      .value = 27,
                      .limit = 30,
                      .margin = -3 };
  TrnFinding tension = boom;
  tension.check = TRN_CHECK_SLINGS;
  tension.unit = TRN_UNIT_N;
  tension.value = 101000;
  tension.limit = 100000;
  tension.margin = -1000;
  /* As they are to stand: what fails, by what is missing; what is not known; what is met. 0.51 m
   * leave 0.01 m to spare, which is tight where 0.05 m is, off a seat too; and where nothing is
   * tight, off a seat comes after all other clearances. */
  TrnFinding unknown = clearance (TRN_VERDICT_UNKNOWN, TRN_STATE_UNKNOWN, 0.4, 0, 0.5);
  TrnFinding clear = clearance (TRN_VERDICT_PASS, TRN_STATE_CLEAR, 3, 0, 0.5);
  TrnFinding clearer = clearance (TRN_VERDICT_PASS, TRN_STATE_CLEAR, 4, 0, 0.5);
  TrnFinding off_seat = clearance (TRN_VERDICT_PASS, TRN_STATE_CLEAR, 0.51, 0, 0.5);
  off_seat.has_seated = TRUE;
  TrnFinding reached = boom;
  reached.verdict = TRN_VERDICT_PASS;
  reached.margin = 0.1;
  const TrnFinding *of_table[]
      = { &short_of, &boom, &tension, &unknown, &clear, &clearer, &off_seat, &reached };
  const TrnFinding *of_desk[]
      = { &short_of, &boom, &tension, &unknown, &off_seat, &clear, &clearer, &reached };
  assert_order (of_table, G_N_ELEMENTS (of_table), NAN);
  assert_order (of_desk, G_N_ELEMENTS (of_desk), 0.05);
}

/* What the plan leaves out comes before what is not known for that alone, whatever either is about:
 * a clearance to how the load hangs, a headroom before a clearance that follows. */
static void
test_causes_first (void)
{
  TrnFinding cog = { .check = TRN_CHECK_ATTITUDE,
                     .verdict = TRN_VERDICT_UNKNOWN,
                     .state = TRN_STATE_UNKNOWN,
                     .lower_m = NAN,
                     .missing = "cog" };
  TrnFinding proven = clearance (TRN_VERDICT_UNKNOWN, TRN_STATE_UNKNOWN, 0.4, 0, 0.5);
  static const char *const follows[] = { "attitude", "attitude/before", "hang/beside" };
  for (guint i = 0; i < G_N_ELEMENTS (follows); i++)
    {
      TrnFinding after = clearance (TRN_VERDICT_UNKNOWN, TRN_STATE_UNKNOWN, 0.1, 0, 0.5);
      after.missing = follows[i];
      g_assert_true (trn_words_is_consequence (&after));
      g_assert_false (trn_words_is_consequence (&cog));
      const TrnFinding *order[] = { &cog, &after }, *of_clearances[] = { &proven, &after };
      assert_order (order, 2, NAN);
      assert_order (of_clearances, 2, 0.05);
      /* What fails stays before both. */
      TrnFinding failed = cog;
      failed.verdict = TRN_VERDICT_FAIL;
      failed.missing = NULL;
      const TrnFinding *with_fault[] = { &failed, &cog, &after };
      assert_order (with_fault, 3, NAN);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/words/finding/clearance", test_clearance);
  g_test_add_func ("/words/finding/out-of-level", test_out_of_level);
  g_test_add_func ("/words/finding/because", test_because);
  g_test_add_func ("/words/finding/contact", test_contact);
  g_test_add_func ("/words/finding/unknown", test_unknown);
  g_test_add_func ("/words/finding/swing", test_swing);
  g_test_add_func ("/words/finding/seat-and-start", test_seat_and_start);
  g_test_add_func ("/words/finding/every-state", test_every_state);
  g_test_add_func ("/words/finding/headline", test_headline);
  g_test_add_func ("/words/finding/check-names", test_check_names);
  g_test_add_func ("/words/finding/gear-headline", test_gear_headline);
  g_test_add_func ("/words/finding/order", test_order);
  g_test_add_func ("/words/finding/contacts", test_contacts);
  g_test_add_func ("/words/finding/causes-first", test_causes_first);
  return g_test_run ();
}
