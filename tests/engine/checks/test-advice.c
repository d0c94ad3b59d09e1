/* The numbers by which a person corrects a plan: by how much a load misses its seat, how far from
 * its component a lift begins, which until_clear a seat needs, and where a contact begins. A box of
 * 1 m by the side of or on a slab whose top is level 0; 0.5 m is to be kept. */
#include "test-checks.h"
#include "test-lift.h"
#include "tolerances.h"

#define SLAB TEST_BOX ("slab", "[10, 10, 1]", "[0, 0, -1]")
#define UP "{'do': 'hoist', 'by': 5, 'seconds': 5}"

static TestRun
run_box (const char *position, const char *more, const char *moves)
{
  g_autofree char *at = g_strdup_printf ("{'position': %s}", position);
  TestLift lift = { SLAB, "{'kind': 'box', 'size': [1, 1, 1]}", at, "[0, 0, 1]", more, moves, 0.5 };
  g_autofree char *text = test_lift_text (&lift);
  return test_run (text);
}

/* 0.1 m above the slab; beside it, 2 m away and 1 m too high, where going down meets nothing: the
 * distance is that of the edges, √(2² + 1²). */
static void
test_gap (void)
{
  const char *seats = "'seats': [{'on': 'slab', 'at': 'start'}],";
  TestRun run = run_box ("[0, 0, 0.1]", seats, UP);
  const TrnFinding *f = test_finding (&run, TRN_CHECK_SEAT, 0, -1, "slab");
  g_assert_cmpint (f->state, ==, TRN_STATE_NOT_RESTING);
  test_assert_between (f->gap_m, 0.1, TRN_CONTACT_M, 1e-9);
  test_assert_between (f->distance_m, 0.1, 1e-9, 1e-9);
  g_assert_true (isnan (f->raise_m));
  test_run_clear (&run);

  run = run_box ("[7.5, 0, 1]", seats, UP);
  f = test_finding (&run, TRN_CHECK_SEAT, 0, -1, "slab");
  g_assert_cmpint (f->state, ==, TRN_STATE_NOT_RESTING);
  g_assert_true (isnan (f->gap_m));
  test_assert_between (f->distance_m, sqrt (5), 1e-9, 1e-9);
  test_run_clear (&run);
}

/* 0.3 m deep in the slab it is clear when raised by 0.3 m: to the millimetre, never less. */
static void
test_raise (void)
{
  const char *seats = "'seats': [{'on': 'slab', 'at': 'start'}],";
  TestRun run = run_box ("[0, 0, -0.3]", seats, UP);
  const TrnFinding *f = test_finding (&run, TRN_CHECK_SEAT, 0, -1, "slab");
  g_assert_cmpint (f->state, ==, TRN_STATE_BURIED);
  test_assert_between (f->raise_m, 0.3, 0, TRN_CERTIFY_M);
  g_assert_true (isnan (f->gap_m));
  test_run_clear (&run);
}

/* The lift begins 3 m east and 4 m north of the component, turned by 30°. */
static void
test_elsewhere (void)
{
  TestRun run
      = run_box ("[20, 0, 0]", "'start': {'position': [23, 4, 0], 'turn': [30, 0, 0]},", UP);
  const TrnFinding *f = test_finding (&run, TRN_CHECK_START, 0, -1, NULL);
  g_assert_cmpint (f->state, ==, TRN_STATE_ELSEWHERE);
  g_assert_cmpfloat (f->distance_m, ==, 5);
  g_assert_cmpfloat (fabs (f->turned_rad - G_PI / 6), <, 1e-12);
  test_assert_near (f->stands.position, 20, 0, 0, 0);
  test_assert_near (f->starts.position, 23, 4, 0, 0);
  g_assert_cmpfloat (fabs (f->starts.heading_rad - G_PI / 6), <, 1e-12);
  test_run_clear (&run);
}

/* The tolerance of 0.05 m takes 0.51 m, where the load counts as lifted, below the 0.5 m that are
 * to be kept. Hoisted on, until_clear is all that is wrong: it has to be 0.5 + 0.05 + 0.01 m, and
 * with that the lift passes. Left at 0.53 m for a travel it is not all: the travel falls short as
 * well, and a hoist that ends there would never reach it. */
static void
test_until_clear (void)
{
#define TOLERANCE "'tolerance': {'position': 0.05},"
  const char *moves = UP ", {'do': 'hoist', 'by': -5, 'seconds': 5}";
  TestRun run = run_box ("[0, 0, 0]", TOLERANCE "'seats': [{'on': 'slab', 'at': 'both'}],", moves);
  for (int move = 0; move < 2; move++)
    {
      const TrnFinding *f = test_clearance (&run, 0, move, "slab");
      g_assert_cmpint (f->state, ==, TRN_STATE_SHORT);
      test_assert_between (f->seat_until_m, 0.56, 1e-9, 1e-3);
    }
  test_run_clear (&run);

  run = run_box ("[0, 0, 0]",
                 TOLERANCE "'seats': [{'on': 'slab', 'at': 'both', 'until_clear': 0.561}],", moves);
  g_assert_cmpint (run.findings->verdict, ==, TRN_VERDICT_PASS);
  g_assert_true (isnan (test_clearance (&run, 0, 0, "slab")->seat_until_m));
  test_run_clear (&run);

  run = run_box ("[0, 0, 0]", TOLERANCE "'seats': [{'on': 'slab', 'at': 'start'}],",
                 "{'do': 'hoist', 'by': 0.53, 'seconds': 5},"
                 "{'do': 'travel', 'by': [1, 0], 'seconds': 5}," UP);
  const TrnFinding *hoist = test_clearance (&run, 0, 0, "slab");
  g_assert_cmpint (hoist->state, ==, TRN_STATE_SHORT);
  g_assert_true (isnan (hoist->seat_until_m));
  g_assert_cmpint (test_clearance (&run, 0, 1, "slab")->state, ==, TRN_STATE_SHORT);
  test_run_clear (&run);
}

/* Lowered from 4 m at 1 m/s, through the slab: the contact begins at 4 s, though it lasts, and time
 * and points are those of its beginning. */
static void
test_first_contact (void)
{
  TestRun run = run_box ("[0, 0, 4]", NULL, "{'do': 'hoist', 'by': -10, 'seconds': 10}");
  const TrnFinding *f = test_clearance (&run, 0, 0, "slab");
  g_assert_cmpint (f->state, ==, TRN_STATE_CONTACT);
  g_assert_cmpfloat (f->upper_m, ==, 0);
  test_assert_between (f->time_s, 4, 2e-3, 2e-3);
  test_assert_between (f->progress, 0.4, 2e-4, 2e-4);
  test_assert_between (f->point_on_body.z, 0, 2e-3, 2e-3);
  test_assert_between (f->point_on_obstacle.z, 0, 2e-3, 2e-3);
  test_run_clear (&run);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/advice/gap", test_gap);
  g_test_add_func ("/advice/raise", test_raise);
  g_test_add_func ("/advice/elsewhere", test_elsewhere);
  g_test_add_func ("/advice/until-clear", test_until_clear);
  g_test_add_func ("/advice/first-contact", test_first_contact);
  return g_test_run ();
}
