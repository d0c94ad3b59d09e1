/* Seats: a box of 1 m on a slab whose top is level 0, hoisted at 1 m/s; 0.5 m is required, so that
 * it counts as lifted at 0.51 m unless the plan says otherwise. */
#include "test-checks.h"
#include "test-lift.h"
#include "tolerances.h"

#define SLAB TEST_BOX ("slab", "[40, 40, 1]", "[0, 0, -1]")
#define SEAT(end) "'seats': [{'on': 'slab', 'at': '" end "'}],"

static TestRun
run_box (const char *structures, const char *z, const char *seats, const char *moves)
{
  g_autofree char *at = g_strdup_printf ("{'position': [0, 0, %s]}", z);
  TestLift lift
      = { structures, "{'kind': 'box', 'size': [1, 1, 1]}", at, "[0, 0, 1]", seats, moves, 0.5 };
  g_autofree char *text = test_lift_text (&lift);
  return test_run (text);
}

static void
assert_state (const TestRun *run, gboolean at_end, TrnState state)
{
  const GArray *list = run->findings->lifts[0].findings;
  guint count = 0;
  for (guint i = 0; i < list->len; i++)
    {
      const TrnFinding *f = &g_array_index (list, TrnFinding, i);
      if (f->check != TRN_CHECK_SEAT || f->at_end != at_end)
        continue;
      count++;
      g_assert_cmpint (f->state, ==, state);
      g_assert_cmpint (f->verdict, ==,
                       state == TRN_STATE_RESTING ? TRN_VERDICT_PASS : TRN_VERDICT_FAIL);
    }
  g_assert_cmpuint (count, ==, 1);
}

/* Seated until 0.51 m; from then on the full requirement holds and is met. */
static void
test_normal (void)
{
  TestRun run = run_box (SLAB, "0", SEAT ("start"), "{'do': 'hoist', 'by': 10, 'seconds': 10}");
  const TrnFinding *f = test_clearance (&run, 0, 0, "slab");
  g_assert_true (f->has_seated);
  g_assert_cmpfloat (f->seated_s.lo, ==, 0);
  test_assert_between (f->seated_s.hi, 0.51, 1e-9, 1.1e-3);
  test_assert_between (f->lower_m, 0.51, TRN_CERTIFY_M, 1.1e-3);
  g_assert_cmpint (f->verdict, ==, TRN_VERDICT_PASS);
  g_assert_cmpint (f->state, ==, TRN_STATE_CLEAR);
  assert_state (&run, FALSE, TRN_STATE_RESTING);
  g_assert_cmpint (run.findings->verdict, ==, TRN_VERDICT_PASS);
  test_run_clear (&run);
}

/* Two seats mean the same part: the one that names it alone counts, not the one that names all. */
static void
test_narrower (void)
{
  TestRun run
      = run_box ("{'id': 'pit', 'at': {'position': [0, 0, 0]}, 'keep_clear': 0.1, 'solid': "
                 "{'kind': 'rect-shaft', 'size': [9, 9], 'depth': 1, 'wall': 1, 'floor': 1}}",
                 "-1",
                 "'seats': [{'on': 'pit', 'at': 'start', 'until_clear': 5},"
                 " {'on': 'pit/floor', 'at': 'start', 'until_clear': 0.6}],",
                 "{'do': 'hoist', 'by': 10, 'seconds': 10}");
  const TrnFinding *f = test_clearance (&run, 0, 0, "pit/floor");
  test_assert_between (f->seated_s.hi, 0.6, 1e-9, 1.1e-3);
  test_run_clear (&run);
}

/* Up, across and down again: seated at both ends, each with its own distance. */
static void
test_both_ends (void)
{
  TestRun run = run_box (SLAB, "0",
                         "'seats': [{'on': 'slab', 'at': 'start', 'until_clear': 0.6},"
                         " {'on': 'slab', 'at': 'end', 'until_clear': 0.8}],",
                         "{'do': 'hoist', 'by': 2, 'seconds': 2},"
                         "{'do': 'travel', 'by': [3, 0], 'seconds': 3},"
                         "{'do': 'hoist', 'by': -2, 'seconds': 2}");
  const TrnFinding *up = test_clearance (&run, 0, 0, "slab");
  test_assert_between (up->seated_s.hi, 0.6, 1e-9, 1.1e-3);
  g_assert_false (test_clearance (&run, 0, 1, "slab")->has_seated);
  const TrnFinding *down = test_clearance (&run, 0, 2, "slab");
  test_assert_between (down->seated_s.lo, 7 - 0.8, 1.1e-3, 1e-9);
  g_assert_cmpfloat (down->seated_s.hi, ==, 7);
  test_assert_between (down->lower_m, 0.8, TRN_CERTIFY_M, 1.1e-3);
  assert_state (&run, FALSE, TRN_STATE_RESTING);
  assert_state (&run, TRUE, TRN_STATE_RESTING);
  g_assert_cmpint (run.findings->verdict, ==, TRN_VERDICT_PASS);
  test_run_clear (&run);
}

/* The walls of a shaft keep their full requirement while the load stands on its floor; they are
 * 0.45 m away and fail. */
static void
test_only_the_part (void)
{
  TestRun run
      = run_box ("{'id': 'pit', 'name': 'Pit', 'solid': {'kind': 'rect-shaft', 'size': [1.9, 9],"
                 " 'depth': 5, 'wall': 1, 'floor': 1}, 'at': {'position': [0, 0, 5]}}",
                 "0", "'seats': [{'on': 'pit/floor', 'at': 'start'}],",
                 "{'do': 'wait', 'seconds': 3}, {'do': 'hoist', 'by': 10, 'seconds': 10}");
  const TrnFinding *floor = test_clearance (&run, 0, 0, "pit/floor");
  g_assert_cmpint (floor->state, ==, TRN_STATE_SEATED);
  g_assert_cmpint (floor->verdict, ==, TRN_VERDICT_PASS);
  g_assert_true (isnan (floor->upper_m));
  const TrnFinding *wall = test_clearance (&run, 0, 0, "pit/wall");
  g_assert_cmpint (wall->state, ==, TRN_STATE_SHORT);
  test_assert_certified (wall, 0.45, 1e-9);
  g_assert_cmpint (test_clearance (&run, 0, 1, "pit/floor")->verdict, ==, TRN_VERDICT_PASS);
  test_run_clear (&run);
}

/* A seat on the whole shaft: the load rests on the floor alone, so the wall keeps its full
 * requirement: 1 m away it meets it, 0.45 m away it does not. */
static void
test_whole_shaft (void)
{
  static const struct
  {
    const char *width;
    TrnVerdict verdict;
  } cases[] = { { "3", TRN_VERDICT_PASS }, { "1.9", TRN_VERDICT_FAIL } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *pit = g_strdup_printf (
          "{'id': 'pit', 'name': 'Pit', 'solid': {'kind': 'rect-shaft', 'size': [%s, 9],"
          " 'depth': 5, 'wall': 1, 'floor': 1}, 'at': {'position': [0, 0, 5]}}",
          cases[i].width);
      TestRun run = run_box (pit, "0", "'seats': [{'on': 'pit', 'at': 'start'}],",
                             "{'do': 'hoist', 'by': 10, 'seconds': 10}");
      g_assert_true (test_clearance (&run, 0, 0, "pit/floor")->has_seated);
      g_assert_cmpint (test_clearance (&run, 0, 0, "pit/floor")->verdict, ==, TRN_VERDICT_PASS);
      const TrnFinding *wall = test_clearance (&run, 0, 0, "pit/wall");
      g_assert_false (wall->has_seated);
      g_assert_cmpint (wall->verdict, ==, cases[i].verdict);
      assert_state (&run, FALSE, TRN_STATE_RESTING);
      test_run_clear (&run);
    }
}

/* A load on two stands: both are seats, each with its own span. A third stand of the same group,
 * which it does not reach by more than the fit, is an obstacle. */
static void
test_stands (void)
{
#define STAND(id, x, height)                                                                       \
  "{'id': '" id "', 'solid': {'kind': 'box', 'size': [0.2, 1, " height "]},"                       \
  " 'at': {'position': [" x ", 0, 0]}}"
  static const char stands[]
      = "{'id': 'stands', 'name': 'Stands', 'at': {'position': [0, 0, -1]},"
        " 'solid': {'kind': 'group', 'parts': [" TEST_THREE (
            STAND ("a", "-0.4", "1"), STAND ("b", "0.4", "1"), STAND ("c", "0", "0.99")) "]}}";
  TestRun run = run_box (stands, "0", "'seats': [{'on': 'stands', 'at': 'start'}],",
                         "{'do': 'hoist', 'by': 10, 'seconds': 10}");
  g_assert_cmpint (test_clearance (&run, 0, 0, "stands/a")->verdict, ==, TRN_VERDICT_PASS);
  g_assert_cmpint (test_clearance (&run, 0, 0, "stands/b")->verdict, ==, TRN_VERDICT_PASS);
  const TrnFinding *c = test_clearance (&run, 0, 0, "stands/c");
  g_assert_cmpint (c->state, ==, TRN_STATE_SHORT);
  test_assert_certified (c, 0.01, 1e-9);
  assert_state (&run, FALSE, TRN_STATE_RESTING);
  test_run_clear (&run);
}

/* 4 mm deep or high is within the fit of 5 mm, 6 mm is not; a fit of 10 mm takes 6 mm. */
static void
test_fit (void)
{
  static const struct
  {
    const char *z, *fit;
    TrnState state;
  } cases[] = {
    { "-0.004", "", TRN_STATE_RESTING },
    { "-0.006", "", TRN_STATE_BURIED },
    { "0.004", "", TRN_STATE_RESTING },
    { "0.006", "", TRN_STATE_NOT_RESTING },
    { "-0.006", ", 'fit': 0.01", TRN_STATE_RESTING },
    { "0.006", ", 'fit': 0.01", TRN_STATE_RESTING },
    { "-0.8", "", TRN_STATE_BURIED },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *seats
          = g_strdup_printf ("'seats': [{'on': 'slab', 'at': 'start'%s}],", cases[i].fit);
      TestRun run = run_box (SLAB, cases[i].z, seats, "{'do': 'hoist', 'by': 5, 'seconds': 5}");
      assert_state (&run, FALSE, cases[i].state);
      test_run_clear (&run);
    }
}

/* Wholly within a block, touching nothing, is buried as well. */
static void
test_within (void)
{
  TestRun run = run_box (TEST_BOX ("slab", "[40, 40, 9]", "[0, 0, -9]"), "-5", SEAT ("start"),
                         "{'do': 'hoist', 'by': 20, 'seconds': 20}");
  assert_state (&run, FALSE, TRN_STATE_BURIED);
  test_run_clear (&run);
}

/* Raised by 0.3 m only, the load never counts as lifted; set down where nothing is, it never
 * reaches its seat. Both fail, though nothing is touched. */
static void
test_never (void)
{
  TestRun run = run_box (SLAB, "0", SEAT ("start"), "{'do': 'hoist', 'by': 0.3, 'seconds': 3}");
  assert_state (&run, FALSE, TRN_STATE_NEVER_LEFT);
  const TrnFinding *f = test_clearance (&run, 0, 0, "slab");
  g_assert_cmpint (f->state, ==, TRN_STATE_SEATED);
  g_assert_cmpint (run.findings->verdict, ==, TRN_VERDICT_FAIL);
  test_run_clear (&run);

  run = run_box (SLAB, "0.3", SEAT ("end"), "{'do': 'hoist', 'by': -0.3, 'seconds': 3}");
  assert_state (&run, TRUE, TRN_STATE_NEVER_REACHED);
  test_run_clear (&run);

  /* An end seat that is 3 m below where the lift ends: it is not resting there. */
  run = run_box (SLAB, "9", SEAT ("end"), "{'do': 'hoist', 'by': -6, 'seconds': 3}");
  assert_state (&run, TRUE, TRN_STATE_NOT_RESTING);
  test_run_clear (&run);
}

/* Dragged along its seat and then lifted, the load touches it in one unbroken span: no finding.
 * The border between two moves and a wait of no time do not break it. */
static void
test_unbroken (void)
{
  TestRun run = run_box (SLAB, "0", SEAT ("start"),
                         "{'do': 'wait', 'seconds': 0},"
                         "{'do': 'travel', 'by': [0.3, 0], 'seconds': 0.2},"
                         "{'do': 'hoist', 'by': 5, 'seconds': 5}");
  g_assert_cmpint (test_clearance (&run, 0, 1, "slab")->state, ==, TRN_STATE_SEATED);
  g_assert_cmpint (run.findings->verdict, ==, TRN_VERDICT_PASS);
  test_run_clear (&run);
}

/* Lifted 0.3 m, set down again and lifted: the second touch is a contact, at the end of one move
 * and the beginning of the next. */
static void
test_touching_again (void)
{
  TestRun run = run_box (SLAB, "0", SEAT ("start"),
                         "{'do': 'hoist', 'by': 0.3, 'seconds': 1},"
                         "{'do': 'hoist', 'by': -0.3, 'seconds': 1},"
                         "{'do': 'hoist', 'by': 5, 'seconds': 5}");
  g_assert_cmpint (test_clearance (&run, 0, 0, "slab")->verdict, ==, TRN_VERDICT_PASS);
  const TrnFinding *down = test_clearance (&run, 0, 1, "slab");
  g_assert_cmpint (down->state, ==, TRN_STATE_CONTACT);
  g_assert_cmpint (down->verdict, ==, TRN_VERDICT_FAIL);
  TrnInterval span = g_array_index (down->contacts, TrnInterval, 0);
  test_assert_between (span.lo, 2, 4e-3, 0);
  test_assert_between (span.hi, 2, 0, 1e-9);
  const TrnFinding *up = test_clearance (&run, 0, 2, "slab");
  g_assert_cmpint (up->state, ==, TRN_STATE_CONTACT);
  test_assert_between (g_array_index (up->contacts, TrnInterval, 0).hi, 2, 0, 4e-3);
  g_assert_cmpint (run.findings->verdict, ==, TRN_VERDICT_FAIL);
  test_run_clear (&run);
}

/* A plate whose foot stands on a block turns all round before it is lifted: the foot comes off the
 * block and back to it, which is a contact however short a time the plan gives the turn. */
static void
test_touching_again_fast (void)
{
  static const char *const seconds[] = { "100", "0.001", "1e-9" };
  for (guint i = 0; i < G_N_ELEMENTS (seconds); i++)
    {
      g_autofree char *moves = g_strdup_printf (
          "{'do': 'turn', 'by': 360, 'seconds': %s}, {'do': 'hoist', 'by': 5, 'seconds': 5}",
          seconds[i]);
      TestLift lift = { TEST_BOX ("block", "[1, 1, 1]", "[2, 0, -1]"),
                        "{'kind': 'group', 'parts': [" TEST_TWO (
                            STAND ("foot", "2", "0.05"),
                            "{'id': 'plate', 'solid': {'kind': 'box', 'size': [5, 5, 1]},"
                            " 'at': {'position': [0, 0, 0.05]}}") "]}",
                        TEST_AT ("[0, 0, 0]"),
                        "[0, 0, 2]",
                        "'seats': [{'on': 'block', 'at': 'start'}],",
                        moves,
                        0.5 };
      g_autofree char *text = test_lift_text (&lift);
      TestRun run = test_run (text);
      g_assert_cmpint (test_clearance (&run, 0, 0, "block")->state, ==, TRN_STATE_CONTACT);
      g_assert_cmpint (run.findings->verdict, ==, TRN_VERDICT_FAIL);
      test_run_clear (&run);
    }
}

/* Contact without a break hides nothing. Lowered by 4 mm the load stays within the fit, by 6 mm it
 * does not, and by 1.5 m it has gone through the slab. A skirt of the load hangs down beside the
 * slab, 0.9 m from it: dragged by 0.8 m it stays clear of the slab's side, by 1 m it does not. */
static void
test_through_the_seat (void)
{
  static const struct
  {
    const char *first;
    TrnState state;
  } cases[] = {
    { "{'do': 'hoist', 'by': -0.004, 'seconds': 1}", TRN_STATE_SEATED },
    { "{'do': 'hoist', 'by': -0.006, 'seconds': 1}", TRN_STATE_CONTACT },
    { "{'do': 'hoist', 'by': -1.5, 'seconds': 1}", TRN_STATE_CONTACT },
    { "{'do': 'travel', 'by': [-0.8, 0], 'seconds': 1}", TRN_STATE_SEATED },
    { "{'do': 'travel', 'by': [-1, 0], 'seconds': 1}", TRN_STATE_CONTACT },
  };
#define PART(id, size, position)                                                                   \
  "{'id': '" id "', 'solid': {'kind': 'box', 'size': " size "}, 'at': {'position': " position "}}"
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *moves
          = g_strdup_printf ("%s, {'do': 'hoist', 'by': 9, 'seconds': 9}", cases[i].first);
      TestLift lift = { TEST_BOX ("slab", "[4, 4, 1]", "[0, 0, -1]"),
                        "{'kind': 'group', 'parts': [" TEST_TWO (
                            PART ("plate", "[6.4, 1, 1]", "[0, 0, 0]"),
                            PART ("skirt", "[0.2, 1, 0.6]", "[3, 0, -0.5]")) "]}",
                        TEST_AT ("[0, 0, 0]"),
                        "[0, 0, 1]",
                        "'seats': [{'on': 'slab', 'at': 'start'}],",
                        moves,
                        0.5 };
      g_autofree char *text = test_lift_text (&lift);
      TestRun run = test_run (text);
      const TrnFinding *f = test_clearance (&run, 0, 0, "slab");
      g_assert_cmpint (f->state, ==, cases[i].state);
      g_assert_cmpint (f->verdict, ==,
                       cases[i].state == TRN_STATE_SEATED ? TRN_VERDICT_PASS : TRN_VERDICT_FAIL);
      test_run_clear (&run);
    }
}

/* At the end seat, the other way round: set down, raised by 0.3 m and set down again, only the last
 * touch is the load coming to rest. */
static void
test_touching_before (void)
{
  TestRun run = run_box (SLAB, "5", SEAT ("end"),
                         "{'do': 'hoist', 'by': -5, 'seconds': 5},"
                         "{'do': 'hoist', 'by': 0.3, 'seconds': 1},"
                         "{'do': 'hoist', 'by': -0.3, 'seconds': 1}");
  const TrnFinding *f = test_clearance (&run, 0, 0, "slab");
  g_assert_cmpint (f->state, ==, TRN_STATE_CONTACT);
  test_assert_between (g_array_index (f->contacts, TrnInterval, 0).lo, 5, 4e-3, 0);
  g_assert_cmpint (test_clearance (&run, 0, 1, "slab")->state, ==, TRN_STATE_CONTACT);
  g_assert_cmpint (test_clearance (&run, 0, 2, "slab")->state, ==, TRN_STATE_SEATED);
  assert_state (&run, TRUE, TRN_STATE_RESTING);
  g_assert_cmpint (run.findings->verdict, ==, TRN_VERDICT_FAIL);
  test_run_clear (&run);
}

/* Wholly inside its seat, 3 m from the surface, the load has not left it: it is seated until it is
 * 0.51 m above. */
static void
test_inside_the_seat (void)
{
  TestRun run = run_box (TEST_BOX ("slab", "[40, 40, 10]", "[0, 0, -10]"), "-4", SEAT ("start"),
                         "{'do': 'hoist', 'by': 10, 'seconds': 10}");
  test_assert_between (test_clearance (&run, 0, 0, "slab")->seated_s.hi, 4.51, 1e-9, 1.1e-3);
  assert_state (&run, FALSE, TRN_STATE_BURIED);
  test_run_clear (&run);
}

/* Hanging 4 mm above its seat, set down on it and lifted: within the fit, but the contact does not
 * begin with the lift. */
static void
test_touching_late (void)
{
  TestRun run = run_box (SLAB, "0.004", SEAT ("start"),
                         "{'do': 'hoist', 'by': -0.004, 'seconds': 1},"
                         "{'do': 'hoist', 'by': 5, 'seconds': 5}");
  assert_state (&run, FALSE, TRN_STATE_RESTING);
  g_assert_cmpint (test_clearance (&run, 0, 0, "slab")->state, ==, TRN_STATE_CONTACT);
  g_assert_cmpint (run.findings->verdict, ==, TRN_VERDICT_FAIL);
  test_run_clear (&run);
}

/* Without the seat, standing on the slab is a contact. */
static void
test_no_seat (void)
{
  TestRun run = run_box (SLAB, "0", NULL, "{'do': 'hoist', 'by': 10, 'seconds': 10}");
  const TrnFinding *f = test_clearance (&run, 0, 0, "slab");
  g_assert_cmpint (f->state, ==, TRN_STATE_CONTACT);
  TrnInterval span = g_array_index (f->contacts, TrnInterval, 0);
  g_assert_cmpfloat (span.lo, ==, 0);
  test_assert_between (span.hi, 0, 0, 2e-3);
  test_run_clear (&run);
}

/* A start elsewhere is a finding of its own. */
static void
test_start (void)
{
  TestRun run = run_box (SLAB, "0", "'start': {'position': [0, 0, 3]},",
                         "{'do': 'hoist', 'by': 10, 'seconds': 10}");
  const TrnFinding *f = test_finding (&run, TRN_CHECK_START, 0, -1, NULL);
  g_assert_cmpint (f->state, ==, TRN_STATE_ELSEWHERE);
  g_assert_cmpint (f->verdict, ==, TRN_VERDICT_FAIL);
  g_assert_cmpint (test_clearance (&run, 0, 0, "slab")->verdict, ==, TRN_VERDICT_PASS);
  test_run_clear (&run);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/seats/normal", test_normal);
  g_test_add_func ("/seats/narrower", test_narrower);
  g_test_add_func ("/seats/both-ends", test_both_ends);
  g_test_add_func ("/seats/only-the-part", test_only_the_part);
  g_test_add_func ("/seats/whole-shaft", test_whole_shaft);
  g_test_add_func ("/seats/stands", test_stands);
  g_test_add_func ("/seats/fit", test_fit);
  g_test_add_func ("/seats/within", test_within);
  g_test_add_func ("/seats/never", test_never);
  g_test_add_func ("/seats/unbroken", test_unbroken);
  g_test_add_func ("/seats/touching-again", test_touching_again);
  g_test_add_func ("/seats/touching-again-fast", test_touching_again_fast);
  g_test_add_func ("/seats/through-the-seat", test_through_the_seat);
  g_test_add_func ("/seats/touching-before", test_touching_before);
  g_test_add_func ("/seats/inside-the-seat", test_inside_the_seat);
  g_test_add_func ("/seats/touching-late", test_touching_late);
  g_test_add_func ("/seats/no-seat", test_no_seat);
  g_test_add_func ("/seats/start", test_start);
  return g_test_run ();
}
