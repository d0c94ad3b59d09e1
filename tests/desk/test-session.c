/* test-session.c: what one looks at: lift, time, moves, playing, selection and what is drawn.
 *
 * The plan of most tests is tests/plans/between-the-ends: one lift of three moves, a wait of 1 s, a
 * tilt of 90 s and a wait of 1 s, under a ceiling that is too low in the middle of the tilt. */
#include "desk-fixture.h"

#include <math.h>

typedef struct
{
  char *folder;
  DeskSession *session;
} Fixture;

static void
open_plan (Fixture *fixture, const char *name)
{
  g_autoptr (GFile) file = test_plan_copy (fixture->folder, name);
  DeskDocument *document = desk_session_get_document (fixture->session);
  desk_document_open (document, file, 0);
  test_wait (test_document_is_done (document));
  g_assert_nonnull (desk_session_get_site (fixture->session));
}

static gboolean
is_checked (DeskSession *session)
{
  return desk_check_get_state (desk_session_get_check (session)) == DESK_CHECK_DONE;
}

static void
set_up (Fixture *fixture, gconstpointer name)
{
  fixture->folder = test_folder_new ();
  fixture->session = desk_session_new ();
  if (name != NULL)
    open_plan (fixture, name);
}

static void
tear_down (Fixture *fixture, gconstpointer name)
{
  g_object_unref (fixture->session);
  test_folder_free (fixture->folder);
}

static void
assert_time (DeskSession *session, double expected_s)
{
  g_assert_cmpfloat_with_epsilon (desk_session_get_time (session), expected_s, 1e-9);
}

/* Without a plan everything answers, and nothing happens. */
static void
test_empty (Fixture *fixture, gconstpointer name)
{
  DeskSession *session = fixture->session;
  double progress;
  g_assert_null (desk_session_get_site (session));
  g_assert_null (desk_session_get_lift_run (session));
  g_assert_cmpfloat (desk_session_get_duration (session), ==, 0);
  desk_session_set_time (session, 5);
  assert_time (session, 0);
  desk_session_set_run (session, 3);
  desk_session_next_move (session);
  desk_session_previous_move (session);
  desk_session_step (session, 1);
  desk_session_set_playing (session, TRUE);
  g_assert_false (desk_session_get_playing (session));
  desk_session_advance (session, 1);
  g_assert_cmpuint (desk_session_get_move (session, &progress), ==, 0);
  desk_session_set_visibility (session, 0, RENDER_VISIBLE_HIDDEN);
  desk_session_isolate (session, 0);
  desk_session_show_all (session);
  g_assert_null (desk_session_worst (session, DESK_ALL_LIFTS, -1, NULL));
  g_assert_false (desk_session_is_stale (session));
  g_assert_null (desk_session_view_state (session).findings);
}

/* Time stays within the lift; the move at a border is the later one. */
static void
test_time (Fixture *fixture, gconstpointer name)
{
  DeskSession *session = fixture->session;
  guint n_told;
  double progress;
  test_count_signal (session, "time-changed", &n_told);
  g_assert_cmpfloat (desk_session_get_duration (session), ==, 92);
  desk_session_set_time (session, 46);
  g_assert_cmpuint (n_told, ==, 1);
  g_assert_cmpuint (desk_session_get_move (session, &progress), ==, 1);
  g_assert_cmpfloat_with_epsilon (progress, 0.5, 1e-12);
  desk_session_set_time (session, 46);
  g_assert_cmpuint (n_told, ==, 1);
  desk_session_set_time (session, 1000);
  assert_time (session, 92);
  desk_session_set_time (session, -1);
  assert_time (session, 0);
  desk_session_set_time (session, NAN);
  assert_time (session, 0);
  desk_session_set_time (session, 91);
  g_assert_cmpuint (desk_session_get_move (session, &progress), ==, 2);
  g_assert_cmpfloat (progress, ==, 0);
}

/* Back goes to the beginning of the move one is in, and from there to the one before. */
static void
test_moves (Fixture *fixture, gconstpointer name)
{
  DeskSession *session = fixture->session;
  desk_session_next_move (session);
  assert_time (session, 1);
  desk_session_next_move (session);
  assert_time (session, 91);
  desk_session_next_move (session);
  assert_time (session, 92);
  desk_session_previous_move (session);
  assert_time (session, 91);
  desk_session_previous_move (session);
  assert_time (session, 1);
  desk_session_set_time (session, 40);
  desk_session_previous_move (session);
  assert_time (session, 1);
  desk_session_previous_move (session);
  assert_time (session, 0);
  desk_session_previous_move (session);
  assert_time (session, 0);
  desk_session_set_move (session, 2);
  assert_time (session, 91);
  desk_session_set_move (session, 3);
  assert_time (session, 91);
}

/* A step is a hundredth of its move: 0.01 s of a wait, 0.9 s of the tilt. There and back again is
 * exactly where it was, over borders too, however often. */
static void
test_steps (Fixture *fixture, gconstpointer name)
{
  DeskSession *session = fixture->session;
  desk_session_step (session, 1);
  assert_time (session, 0.01);
  desk_session_step (session, 98);
  assert_time (session, 0.99);
  desk_session_step (session, 1);
  assert_time (session, 1);
  desk_session_step (session, 1);
  assert_time (session, 1.9);
  desk_session_step (session, -1);
  assert_time (session, 1);
  desk_session_step (session, -1);
  assert_time (session, 0.99);
  desk_session_set_time (session, 0);
  desk_session_step (session, 300);
  g_assert_cmpfloat (desk_session_get_time (session), ==, 92);
  desk_session_step (session, 1);
  g_assert_cmpfloat (desk_session_get_time (session), ==, 92);
  desk_session_step (session, -300);
  g_assert_cmpfloat (desk_session_get_time (session), ==, 0);
  desk_session_step (session, -1);
  g_assert_cmpfloat (desk_session_get_time (session), ==, 0);
  /* From between two steps it goes to the next whole one. */
  desk_session_set_time (session, 1.5);
  desk_session_step (session, 1);
  assert_time (session, 1.9);
  desk_session_set_time (session, 1.5);
  desk_session_step (session, -1);
  assert_time (session, 1);
}

/* Playing goes at the rate that is set, and ends with the lift; then it begins again. */
static void
test_playing (Fixture *fixture, gconstpointer name)
{
  DeskSession *session = fixture->session;
  desk_session_set_rate (session, 2);
  desk_session_advance (session, 10);
  assert_time (session, 0);
  desk_session_set_playing (session, TRUE);
  desk_session_advance (session, 10);
  assert_time (session, 20);
  desk_session_advance (session, 100);
  assert_time (session, 92);
  g_assert_false (desk_session_get_playing (session));
  desk_session_set_playing (session, TRUE);
  assert_time (session, 0);
  /* A step is for looking: it stops playing. */
  desk_session_step (session, 1);
  g_assert_false (desk_session_get_playing (session));
  desk_session_set_rate (session, 1e9);
  g_assert_cmpfloat (desk_session_get_rate (session), ==, 100);
  desk_session_set_rate (session, 0);
  g_assert_cmpfloat (desk_session_get_rate (session), ==, 0.1);
}

/* A move that is repeated begins again where it ends: 50 + 2·45 s is 50 s after one round of 90. */
static void
test_loop (Fixture *fixture, gconstpointer name)
{
  DeskSession *session = fixture->session;
  desk_session_set_rate (session, 1);
  desk_session_set_loop (session, TRUE);
  desk_session_set_time (session, 50);
  desk_session_set_playing (session, TRUE);
  desk_session_advance (session, 45);
  assert_time (session, 5);
  desk_session_advance (session, 45);
  assert_time (session, 50);
  desk_session_advance (session, 900);
  assert_time (session, 50);
  g_assert_true (desk_session_get_playing (session));
  /* The last move as well, which ends with the lift. */
  desk_session_set_time (session, 91.5);
  desk_session_advance (session, 0.75);
  assert_time (session, 91.25);
  g_assert_true (desk_session_get_playing (session));
}

/* Back, while playing, means the move before as long as this one has only just begun. */
static void
test_previous_while_playing (Fixture *fixture, gconstpointer name)
{
  DeskSession *session = fixture->session;
  desk_session_set_rate (session, 10);
  desk_session_set_time (session, 5);
  desk_session_set_playing (session, TRUE);
  desk_session_previous_move (session);
  assert_time (session, 0);
  desk_session_set_time (session, 30);
  desk_session_previous_move (session);
  assert_time (session, 1);
}

/* The distances told are those of the engine at the time asked for last, whatever was asked for in
 * between. */
static void
test_moment (Fixture *fixture, gconstpointer name)
{
  DeskSession *session = fixture->session;
  test_wait (desk_session_get_moment (session) != NULL);
  for (int i = 0; i <= 200; i++)
    desk_session_set_time (session, 92.0 * i / 200 * 0.5);
  test_wait (desk_session_get_moment (session)->time_s == 46);
  const TrnMoment *moment = desk_session_get_moment (session);
  g_assert_cmpuint (moment->n_obstacles, ==, 1);
  g_assert_cmpstr (moment->obstacles[0].body->id, ==, "ceiling");
  g_autoptr (TrnMoment) expected = trn_moment_new (desk_session_get_site (session)->scene, 0);
  trn_moment_set_time (expected, 46);
  g_assert_cmpfloat_with_epsilon (moment->distances[0].distance_m,
                                  expected->distances[0].distance_m, 2e-5);
  /* Turned by 45° about the lower edge, 20 × 4 m reach 24/√2 = 16.9706 m up; the ceiling is at
   * 20.8 m. */
  g_assert_cmpfloat_with_epsilon (moment->distances[0].distance_m, 20.8 - 24 / sqrt (2), 2e-5);
  g_assert_true (desk_session_view_state (session).moment == moment);
}

static const DeskProfile *
wait_for_profile (DeskSession *session)
{
  test_wait (desk_session_get_profile (session) != NULL
             && desk_session_get_profile (session)->n_done
                    == desk_session_get_profile (session)->n_times);
  return desk_session_get_profile (session);
}

/* Times in order from 0 to the end, every border of a move among them, a few in each move; its
 * distances are those of the moments. */
static void
test_profile (Fixture *fixture, gconstpointer name)
{
  DeskSession *session = fixture->session;
  const DeskProfile *profile = wait_for_profile (session);
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  g_assert_cmpuint (profile->n_times, >=, 390);
  g_assert_cmpuint (profile->n_obstacles, ==, 1);
  g_assert_cmpfloat (profile->times_s[0], ==, 0);
  guint border = 0, of_first = 0;
  for (guint i = 0; i < profile->n_times; i++)
    {
      if (i > 0)
        g_assert_cmpfloat (profile->times_s[i], >, profile->times_s[i - 1]);
      if (border <= run->lift->n_moves && profile->times_s[i] == run->begins_s[border])
        border++;
      of_first += profile->times_s[i] < run->begins_s[1];
    }
  g_assert_cmpuint (border, ==, run->lift->n_moves + 1);
  g_assert_cmpuint (of_first, >=, 8);
  g_autoptr (TrnMoment) moment = trn_moment_new (desk_session_get_site (session)->scene, 0);
  for (guint i = 0; i < profile->n_times; i += 13)
    {
      trn_moment_set_time (moment, profile->times_s[i]);
      g_assert_cmpfloat_with_epsilon (profile->distances_m[i], moment->distances[0].distance_m,
                                      2e-5);
    }
}

/* A finding looked at: its lift, its closest moment, its body; the moment is atan 5 = 78.690° into
 * the tilt of 90° in 90 s that begins at 1 s, so at 79.690 s. */
static void
test_finding (Fixture *fixture, gconstpointer name)
{
  DeskSession *session = fixture->session;
  test_wait (is_checked (session));
  const TrnFinding *worst = desk_session_worst (session, 0, -1, NULL);
  g_assert_nonnull (worst);
  g_assert_cmpint (worst->verdict, ==, TRN_VERDICT_FAIL);
  g_assert_cmpint (worst->move, ==, 1);
  g_assert_true (desk_session_worst (session, DESK_ALL_LIFTS, -1, NULL) == worst);
  g_assert_true (desk_session_worst (session, 0, 1, "ceiling") == worst);
  g_assert_cmpint (desk_session_worst (session, 0, 2, NULL)->move, ==, 2);
  g_assert_null (desk_session_worst (session, 0, -1, "ceil"));
  g_assert_null (desk_session_worst (session, 1, -1, NULL));
  desk_session_set_finding (session, worst, FALSE);
  assert_time (session, 0);
  g_assert_cmpstr (desk_session_get_selected (session), ==, "ceiling");
  desk_session_set_finding (session, worst, TRUE);
  g_assert_cmpfloat_with_epsilon (desk_session_get_time (session), 79.690, 0.7);
  g_assert_true (desk_session_get_finding (session) == worst);
  g_assert_true (desk_session_view_state (session).finding == worst);
  desk_session_set_finding (session, NULL, TRUE);
  g_assert_null (desk_session_get_finding (session));
}

/* Going to a finding drops a cut that takes a closest point away, and no other. */
static void
test_finding_uncovered (Fixture *fixture, gconstpointer name)
{
  DeskSession *session = fixture->session;
  test_wait (is_checked (session));
  const TrnFinding *worst = desk_session_worst (session, 0, -1, NULL);
  double top_m = fmax (worst->point_on_body.z, worst->point_on_obstacle.z);
  desk_session_set_section (session, (RenderSection){ TRUE, { 0, 0, 1 }, top_m + 1 });
  desk_session_set_finding (session, worst, TRUE);
  g_assert_true (desk_session_get_section (session).on);
  desk_session_set_section (session, (RenderSection){ TRUE, { 0, 0, 1 }, top_m - 0.1 });
  desk_session_set_finding (session, worst, FALSE);
  g_assert_true (desk_session_get_section (session).on);
  desk_session_set_finding (session, worst, TRUE);
  g_assert_false (desk_session_get_section (session).on);
}

/* Checked again, a finding of before is gone: nobody may hold on to it. */
static void
test_finding_goes (Fixture *fixture, gconstpointer name)
{
  DeskSession *session = fixture->session;
  test_wait (is_checked (session));
  guint n_told;
  desk_session_set_finding (session, desk_session_worst (session, 0, -1, NULL), FALSE);
  test_count_signal (session, "selection-changed", &n_told);
  desk_check_start (desk_session_get_check (session), desk_session_get_site (session));
  g_assert_null (desk_session_get_finding (session));
  g_assert_cmpuint (n_told, ==, 1);
  test_wait (is_checked (session));
}

/* Several lifts: each begins at its beginning, with moments of its own. */
static void
test_lifts (Fixture *fixture, gconstpointer name)
{
  DeskSession *session = fixture->session;
  test_wait (desk_session_get_moment (session) != NULL);
  desk_session_set_time (session, 7);
  desk_session_set_run (session, 1);
  g_assert_cmpuint (desk_session_get_run (session), ==, 1);
  assert_time (session, 0);
  /* Distances of another lift are not shown. */
  g_assert_true (desk_session_get_moment (session) == NULL);
  test_wait (desk_session_get_moment (session) != NULL);
  g_assert_true (desk_session_get_moment (session)->run == desk_session_get_lift_run (session));
  g_assert_cmpuint (wait_for_profile (session)->n_obstacles, ==,
                    desk_session_get_moment (session)->n_obstacles);
  desk_session_set_run (session, 99);
  g_assert_cmpuint (desk_session_get_run (session), ==, 1);
  test_wait (is_checked (session));
  const TrnFinding *finding = desk_session_worst (session, 3, -1, NULL);
  g_assert_nonnull (finding);
  desk_session_set_finding (session, finding, TRUE);
  g_assert_cmpuint (desk_session_get_run (session), ==, 3);
  /* The finding is of the lift that is shown. */
  desk_session_set_run (session, 1);
  g_assert_true (desk_session_get_finding (session) == desk_session_worst (session, 1, -1, NULL));
}

static void
count_judged (DeskSession *session, guint *n)
{
  DeskCheck *check = desk_session_get_check (session);
  *n += desk_check_get_lift (check, desk_session_get_run (session)) == NULL
        && render_judge_is_checked (desk_session_view_state (session).judge);
}

/* What was worked out while the check began anew is not judged by what is no longer known. */
static void
test_answer_in_flight (Fixture *fixture, gconstpointer name)
{
  DeskSession *session = fixture->session;
  DeskCheck *check = desk_session_get_check (session);
  guint n_judged = 0;
  g_signal_connect (session, "moment-changed", G_CALLBACK (count_judged), &n_judged);
  for (guint i = 0; i < 10; i++)
    {
      test_wait (is_checked (session));
      test_wait (render_judge_is_checked (desk_session_view_state (session).judge));
      desk_session_set_time (session, 1 + i % 2);
      g_usleep (50000);
      desk_check_start (check, desk_session_get_site (session));
      test_idle (0.05);
    }
  g_assert_cmpuint (n_judged, ==, 0);
  g_signal_handlers_disconnect_by_data (session, &n_judged);
}

/* Read again after a change on disk: the lift, the time and what is hidden stay; findings are of
 * the new plan. Until then those of before are stale. */
static void
test_reload (Fixture *fixture, gconstpointer name)
{
  DeskSession *session = fixture->session;
  DeskDocument *document = desk_session_get_document (session);
  test_wait (is_checked (session));
  desk_session_set_run (session, 1);
  desk_session_set_time (session, 3);
  desk_session_set_visibility (session, 0, RENDER_VISIBLE_HIDDEN);
  g_autoptr (DeskSite) before = desk_site_ref (desk_session_get_site (session));
  g_autofree char *text = test_plan_text (name);
  g_autofree char *other = test_replace (text, "\"keep_clear\": 0.5", "\"keep_clear\": 0.7");
  g_assert_false (desk_session_is_stale (session));
  g_object_unref (test_write (fixture->folder, "changes.trunnion", other));
  test_wait (desk_session_is_stale (session));
  desk_document_reload (document);
  /* What was open stays while it is read. */
  g_assert_true (desk_session_get_site (session) == before);
  test_wait (test_document_is_done (document));
  g_assert_true (desk_session_get_site (session) != before);
  g_assert_false (desk_session_is_stale (session));
  g_assert_cmpuint (desk_session_get_run (session), ==, 1);
  assert_time (session, 3);
  g_assert_cmpint (desk_session_get_visibility (session, 0), ==, RENDER_VISIBLE_HIDDEN);
  test_wait (is_checked (session));
  g_assert_cmpfloat (desk_session_worst (session, 1, -1, "slab")->required_m, ==, 0.7);
}

/* The finding looked at is looked at again after the plan was read again, twice in a row before the
 * check is done; when what it is about is gone, it is the worst of the lift that is shown. */
static void
test_reload_finding (Fixture *fixture, gconstpointer name)
{
  DeskSession *session = fixture->session;
  DeskDocument *document = desk_session_get_document (session);
  test_wait (is_checked (session));
  const TrnFinding *finding = desk_session_worst (session, 1, 2, "prop");
  g_assert_nonnull (finding);
  desk_session_set_run (session, 1);
  desk_session_set_finding (session, finding, FALSE);
  g_autofree char *text = test_plan_text (name);
  g_autofree char *other = test_replace (text, "\"keep_clear\": 0.5", "\"keep_clear\": 0.7");
  g_object_unref (test_write (fixture->folder, "changes.trunnion", other));
  for (guint k = 0; k < 2; k++)
    {
      desk_document_reload (document);
      test_wait (test_document_is_done (document));
    }
  test_wait (is_checked (session));
  finding = desk_session_get_finding (session);
  g_assert_nonnull (finding);
  g_assert_cmpuint (finding->lift, ==, 1);
  g_assert_cmpint (finding->move, ==, 2);
  g_assert_cmpstr (finding->obstacle, ==, "prop");

  g_auto (GStrv) parts = g_strsplit (other, "\"prop\"", -1);
  g_autofree char *renamed = g_strjoinv ("\"pole\"", parts);
  g_object_unref (test_write (fixture->folder, "changes.trunnion", renamed));
  desk_document_reload (document);
  test_wait (test_document_is_done (document));
  test_wait (is_checked (session));
  g_assert_cmpuint (desk_session_get_run (session), ==, 1);
  g_assert_true (desk_session_get_finding (session) == desk_session_worst (session, 1, -1, NULL));
}

/* What is found of the wind is of all moves, told with the one in which it is greatest: it is found
 * again where that has become another one. */
static void
test_reload_wind (Fixture *fixture, gconstpointer name)
{
  DeskSession *session = fixture->session;
  DeskDocument *document = desk_session_get_document (session);
  g_autofree char *text = test_plan_text (name);
  g_autofree char *windy = test_replace (
      text, "\"version\": 1,", "\"version\": 1, \"wind\": {\"speed\": 5, \"drag\": 1.2},");
  g_object_unref (test_write (fixture->folder, "crane-beside-rack.trunnion", windy));
  desk_document_reload (document);
  test_wait (test_document_is_done (document));
  test_wait (is_checked (session));
  GArray *findings = desk_check_get_lift (desk_session_get_check (session), 0)->findings;
  TrnFinding *wind = NULL;
  for (guint i = 0; i < findings->len; i++)
    if (g_array_index (findings, TrnFinding, i).check == TRN_CHECK_WIND)
      wind = &g_array_index (findings, TrnFinding, i);
  g_assert_nonnull (wind);
  g_autofree char *item = g_strdup (wind->item), *body = g_strdup (wind->body);
  wind->move = wind->move == 0 ? 1 : 0;
  desk_session_set_finding (session, wind, FALSE);
  desk_document_reload (document);
  test_wait (test_document_is_done (document));
  test_wait (is_checked (session));
  const TrnFinding *again = desk_session_get_finding (session);
  g_assert_nonnull (again);
  g_assert_cmpint (again->check, ==, TRN_CHECK_WIND);
  g_assert_cmpstr (again->item, ==, item);
  g_assert_cmpstr (again->body, ==, body);
}

/* On a move nothing of the load is cut away: 2 m high, it is hoisted by 4 m. What is cut away
 * beside it stays so. */
static void
test_move_uncovered (Fixture *fixture, gconstpointer name)
{
  DeskSession *session = fixture->session;
  test_wait (is_checked (session));
  desk_session_set_section (session, (RenderSection){ TRUE, { 0, 0, 1 }, 6.1 });
  desk_session_uncover_move (session, 0);
  g_assert_true (desk_session_get_section (session).on);
  desk_session_set_section (session, (RenderSection){ TRUE, { 0, 0, 1 }, 5.9 });
  desk_session_uncover_move (session, 0);
  g_assert_false (desk_session_get_section (session).on);
}

/* A plan that turns out faulty takes away what was shown: it is not what the file says. */
static void
test_turns_faulty (Fixture *fixture, gconstpointer name)
{
  DeskSession *session = fixture->session;
  DeskDocument *document = desk_session_get_document (session);
  test_wait (is_checked (session));
  desk_session_set_playing (session, TRUE);
  g_object_unref (test_write (fixture->folder, "between-the-ends.trunnion", "{}"));
  desk_document_reload (document);
  test_wait (test_document_is_done (document));
  g_assert_null (desk_session_get_site (session));
  g_assert_null (desk_session_get_moment (session));
  g_assert_null (desk_session_get_profile (session));
  g_assert_false (desk_session_get_playing (session));
  g_assert_null (desk_check_get_findings (desk_session_get_check (session)));
  test_idle (0.2);
  g_assert_null (desk_session_get_moment (session));
}

/* Broken and put right again, one stands where one stood: lift, time, section, what is hidden and
 * selected. Closed, it begins anew. */
static void
test_put_right (Fixture *fixture, gconstpointer name)
{
  DeskSession *session = fixture->session;
  DeskDocument *document = desk_session_get_document (session);
  test_wait (is_checked (session));
  desk_session_set_run (session, 1);
  desk_session_set_time (session, 3);
  desk_session_set_visibility (session, 0, RENDER_VISIBLE_HIDDEN);
  desk_session_set_selected (session, "slab");
  desk_session_set_section (session, (RenderSection){ TRUE, { 0, 0, 1 }, 1.5 });
  g_autofree char *text = test_plan_text (name);
  g_object_unref (test_write (fixture->folder, "changes.trunnion", "{}"));
  desk_document_reload (document);
  test_wait (test_document_is_done (document));
  g_assert_null (desk_session_get_site (session));
  g_autoptr (GFile) file = test_write (fixture->folder, "changes.trunnion", text);
  desk_document_reload (document);
  test_wait (test_document_is_done (document));
  g_assert_cmpuint (desk_session_get_run (session), ==, 1);
  assert_time (session, 3);
  g_assert_cmpint (desk_session_get_visibility (session, 0), ==, RENDER_VISIBLE_HIDDEN);
  g_assert_cmpstr (desk_session_get_selected (session), ==, "slab");
  g_assert_true (desk_session_get_section (session).on);
  desk_document_close (document);
  desk_document_open (document, file, 0);
  test_wait (test_document_is_done (document));
  g_assert_cmpuint (desk_session_get_run (session), ==, 0);
  g_assert_false (desk_session_get_section (session).on);
}

/* Alone among ghosts, and all again. */
static void
test_visibility (Fixture *fixture, gconstpointer name)
{
  DeskSession *session = fixture->session;
  guint n_told;
  test_count_signal (session, "view-changed", &n_told);
  g_assert_cmpuint (desk_session_get_site (session)->display->n_structure_bodies, ==, 2);
  desk_session_isolate (session, 1);
  g_assert_cmpint (desk_session_get_visibility (session, 0), ==, RENDER_VISIBLE_GHOST);
  g_assert_cmpint (desk_session_get_visibility (session, 1), ==, RENDER_VISIBLE_SOLID);
  g_assert_cmpuint (n_told, ==, 1);
  desk_session_isolate (session, 1);
  g_assert_cmpint (desk_session_get_visibility (session, 0), ==, RENDER_VISIBLE_SOLID);
  desk_session_set_visibility (session, 0, RENDER_VISIBLE_HIDDEN);
  desk_session_set_visibility (session, 0, RENDER_VISIBLE_HIDDEN);
  g_assert_cmpuint (n_told, ==, 3);
  g_assert_cmpint (desk_session_view_state (session).visibility[0], ==, RENDER_VISIBLE_HIDDEN);
  desk_session_show_all (session);
  g_assert_cmpint (desk_session_get_visibility (session, 0), ==, RENDER_VISIBLE_SOLID);
  desk_session_set_visibility (session, 2, RENDER_VISIBLE_HIDDEN);
  g_assert_cmpint (desk_session_get_visibility (session, 2), ==, RENDER_VISIBLE_SOLID);
}

static void
test_view (Fixture *fixture, gconstpointer name)
{
  DeskSession *session = fixture->session;
  desk_session_set_show (session, DESK_SHOW_GRID);
  RenderSiteState state = desk_session_view_state (session);
  g_assert_true (state.grid);
  g_assert_false (state.paths || state.ghosts || state.swing_circles || state.nearest
                  || state.compass || state.human);
  desk_session_set_dark (session, TRUE);
  desk_session_set_tight (session, 0.25);
  desk_session_set_tight (session, NAN);
  RenderSection section = { TRUE, { 0, 0, 1 }, 1.5 };
  desk_session_set_section (session, section);
  desk_session_set_selected (session, "load");
  state = desk_session_view_state (session);
  g_assert_true (state.dark);
  g_assert_cmpfloat (state.tight_m, ==, 0.25);
  g_assert_true (state.section.on);
  g_assert_cmpfloat (state.section.offset_m, ==, 1.5);
  g_assert_cmpstr (state.selected, ==, "load");
}

/* Where a structure is left out, lift and time can be gone through and distances to the rest are
 * told, but nothing is checked; once put right, it is, and one stays at that time. */
static void
test_left_out (Fixture *fixture, gconstpointer name)
{
  DeskSession *session = fixture->session;
  DeskDocument *document = desk_session_get_document (session);
  g_autoptr (GFile) file = test_gate_copy (fixture->folder, "gatehouse.obj");
  desk_document_open (document, file, 0);
  test_wait (test_document_is_done (document));
  g_assert_cmpint (desk_document_get_state (document), ==, DESK_DOCUMENT_FAULTY);
  g_assert_nonnull (desk_session_get_lift_run (session));
  desk_session_set_time (session, 30);
  test_wait (desk_session_get_moment (session) != NULL);
  g_assert_cmpuint (desk_session_get_moment (session)->n_obstacles, >, 0);
  test_idle (0.3);
  g_assert_cmpint (desk_check_get_state (desk_session_get_check (session)), ==, DESK_CHECK_NONE);
  g_assert_null (desk_check_get_findings (desk_session_get_check (session)));
  g_assert_null (desk_session_worst (session, DESK_ALL_LIFTS, -1, NULL));
  g_object_unref (test_gate_copy (fixture->folder, NULL));
  desk_document_reload (document);
  test_wait (is_checked (session));
  assert_time (session, 30);
  g_assert_nonnull (desk_session_worst (session, DESK_ALL_LIFTS, -1, NULL));
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *path, *plan;
    void (*test) (Fixture *, gconstpointer);
  } tests[] = {
    { "/session/empty", NULL, test_empty },
    { "/session/time", "between-the-ends", test_time },
    { "/session/moves", "between-the-ends", test_moves },
    { "/session/steps", "between-the-ends", test_steps },
    { "/session/playing", "between-the-ends", test_playing },
    { "/session/loop", "between-the-ends", test_loop },
    { "/session/previous-while-playing", "between-the-ends", test_previous_while_playing },
    { "/session/moment", "between-the-ends", test_moment },
    { "/session/profile", "between-the-ends", test_profile },
    { "/session/finding", "between-the-ends", test_finding },
    { "/session/finding-uncovered", "between-the-ends", test_finding_uncovered },
    { "/session/finding-goes", "between-the-ends", test_finding_goes },
    { "/session/lifts", "changes", test_lifts },
    { "/session/answer-in-flight", "changes", test_answer_in_flight },
    { "/session/reload", "changes", test_reload },
    { "/session/reload-finding", "changes", test_reload_finding },
    { "/session/reload-wind", "crane-beside-rack", test_reload_wind },
    { "/session/move-uncovered", "changes", test_move_uncovered },
    { "/session/turns-faulty", "between-the-ends", test_turns_faulty },
    { "/session/put-right", "changes", test_put_right },
    { "/session/left-out", NULL, test_left_out },
    { "/session/visibility", "changes", test_visibility },
    { "/session/view", "changes", test_view },
  };
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, Fixture, tests[i].plan, set_up, tests[i].test, tear_down);
  return g_test_run ();
}
