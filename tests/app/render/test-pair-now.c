/* test-pair-now.c: how a pair stands now, while the load is on its seat, leaves it, and before the
 * check has come to it; beside gear that holds the load, or has let it go; and which part of a gear
 * a pair is of. */
#include <string.h>

#include "test-gear.h"

#include "site-view.h"
#include "view-words.h"

/* A cube of 2 m stands at [10, 0, 0.5] on a table whose top is @top high, with a post 2 m beside
 * it. It waits twice, is hoisted by 3 m in 30 s, and comes down again on the table. */
#define TABLE(top)                                                                                 \
  "{'id': 'table', 'name': 'Table', 'solid': {'kind': 'box', 'size': [4, 2, " top "]}, 'at': "     \
  "{'position': [10, 0, 0]}}, {'id': 'post', 'name': 'Post', 'solid': {'kind': 'box', 'size': [1," \
  " 1, 1]}, 'at': {'position': [10, 3.5, 0]}}"
#define MOVES(down)                                                                                \
  "{'do': 'wait', 'seconds': 10}, {'do': 'wait', 'seconds': 10}, {'do': 'hoist', 'by': 3,"         \
  " 'seconds': 30}, {'do': 'hoist', 'by': -" down                                                  \
  ", 'seconds': 30}, {'do': 'wait', 'seconds': 10}"
#define BOTH_ENDS "'seats': [{'on': 'table', 'at': 'start'}, {'on': 'table', 'at': 'end'}],"

static TestRun
on_table (const char *structures, const char *seats, const char *moves)
{
  TestGear t = {
    .gear = "", .structures = structures, .at = "[10, 0, 0.5]", .lift = seats, .moves = moves
  };
  return test_gear_run (&t);
}

static RenderPairNow
now_of (TrnMoment *moment, const TrnFindings *findings, double time_s, const char *obstacle)
{
  g_autoptr (RenderJudge) judge = render_judge_new (findings, moment);
  trn_moment_judge_by (moment, render_judge_part, judge);
  trn_moment_set_time (moment, time_s);
  trn_moment_judge_by (moment, NULL, NULL);
  for (guint i = 0; i < moment->n_pairs; i++)
    if (!isnan (moment->distances[i].distance_m)
        && g_str_equal (trn_moment_obstacle (moment, i), obstacle))
      return render_pair_now (judge, moment, i, 0.1);
  g_assert_not_reached ();
}

/* 0.5 m are to be kept, and it is clear at 0.501 m: after 5.01 s of the hoist, and as long before
 * the end of the way down. Where two waits meet it is seated as before and after. */
static void
test_seat (void)
{
  TestRun run = on_table (TABLE ("0.499"), BOTH_ENDS, MOVES ("3"));
  g_autoptr (TrnMoment) moment = trn_moment_new (run.scene, 0);
  const double seated_s[] = { 0, 5, 10, 15, 20, 24.5, 75.5, 80, 85, 90 };
  for (guint i = 0; i < G_N_ELEMENTS (seated_s); i++)
    {
      RenderPairNow now = now_of (moment, run.findings, seated_s[i], "table");
      g_assert_true (now.is_there && now.is_seated);
      g_assert_cmpint (now.state, ==, RENDER_STATE_NONE);
    }
  const double off_s[] = { 25.5, 50, 74.5 };
  for (guint i = 0; i < G_N_ELEMENTS (off_s); i++)
    {
      RenderPairNow now = now_of (moment, run.findings, off_s[i], "table");
      g_assert_true (now.is_there && !now.is_seated);
      g_assert_cmpint (now.state, ==, i == 1 ? RENDER_STATE_CLEAR : RENDER_STATE_TIGHT);
    }
  /* The post, 2 m beside it, is no seat; its clearance is known with the check only. */
  g_assert_cmpint (now_of (moment, run.findings, 10, "post").state, ==, RENDER_STATE_CLEAR);
  g_assert_cmpint (now_of (moment, NULL, 10, "post").state, ==, RENDER_STATE_NOT_CHECKED);
  RenderPairNow before = now_of (moment, NULL, 10, "table");
  g_assert_true (before.is_there && !before.is_seated);
  g_assert_cmpint (before.state, ==, RENDER_STATE_NOT_CHECKED);
  test_run_clear (&run);
}

/* When they are closest, what is certified is shown, and no more; at other times what is measured.
 * Here it is 1 m less, as if so little could be proven: then it is also what is judged. */
static void
test_closest (void)
{
  TestRun run = on_table (TABLE ("0.499"), BOTH_ENDS, MOVES ("3"));
  g_autoptr (TrnMoment) moment = trn_moment_new (run.scene, 0);
  GArray *list = run.findings->lifts[0].findings;
  for (guint i = 0; i < list->len; i++)
    {
      TrnFinding *finding = &g_array_index (list, TrnFinding, i);
      if (finding->check == TRN_CHECK_CLEARANCE && finding->move == 2
          && g_strcmp0 (finding->obstacle, "post") == 0)
        {
          finding->has_points = TRUE;
          finding->time_s = 25;
          finding->lower_m = 0.5;
          finding->required_m = 0.5;
        }
    }
  RenderPairNow closest = now_of (moment, run.findings, 25, "post");
  RenderPairNow later = now_of (moment, run.findings, 26, "post");
  g_assert_cmpfloat (closest.distance_m, ==, 0.5);
  g_assert_cmpint (closest.state, ==, RENDER_STATE_TIGHT);
  g_assert_cmpfloat (later.distance_m, >, 1.9);
  g_assert_cmpint (later.state, ==, RENDER_STATE_CLEAR);
  test_run_clear (&run);
}

/* No seat at all: what stands as near is short, also before the check. */
static void
test_no_seat (void)
{
  TestRun run = on_table (TABLE ("0.499"), "", MOVES ("3"));
  g_autoptr (TrnMoment) moment = trn_moment_new (run.scene, 0);
  g_assert_cmpint (now_of (moment, run.findings, 10, "table").state, ==, RENDER_STATE_SHORT);
  g_assert_cmpint (now_of (moment, NULL, 10, "table").state, ==, RENDER_STATE_SHORT);
  test_run_clear (&run);
}

/* The cube is 0.1 m deep in the table, which is no way to rest: both ends are told as they are. */
static void
test_buried (void)
{
  TestRun run = on_table (TABLE ("0.6"), BOTH_ENDS, MOVES ("3"));
  g_autoptr (TrnMoment) moment = trn_moment_new (run.scene, 0);
  const double times_s[] = { 0, 10, 15, 85, 90 };
  for (guint i = 0; i < G_N_ELEMENTS (times_s); i++)
    {
      RenderPairNow now = now_of (moment, run.findings, times_s[i], "table");
      g_assert_false (now.is_seated);
      g_assert_cmpint (now.state, ==, RENDER_STATE_TOUCHING);
    }
  test_run_clear (&run);
}

/* At the end it stays 0.2 m above the table, and does not rest; at the start it does. */
static void
test_not_resting (void)
{
  TestRun run = on_table (TABLE ("0.499"), BOTH_ENDS, MOVES ("2.8"));
  g_autoptr (TrnMoment) moment = trn_moment_new (run.scene, 0);
  g_assert_true (now_of (moment, run.findings, 15, "table").is_seated);
  g_assert_cmpint (now_of (moment, run.findings, 85, "table").state, ==, RENDER_STATE_SHORT);
  test_run_clear (&run);
}

static guint
make_start_unknown (const TestRun *run)
{
  GArray *list = run->findings->lifts[0].findings;
  guint n = 0;
  for (guint i = 0; i < list->len; i++)
    {
      TrnFinding *finding = &g_array_index (list, TrnFinding, i);
      if (finding->check != TRN_CHECK_SEAT || finding->at_end)
        continue;
      finding->verdict = TRN_VERDICT_UNKNOWN;
      n++;
    }
  return n;
}

/* Of the way up nothing is known, as without a mass: where it stands it does not touch what it must
 * not, nor is it clear; farther up, off its seat, it is short. */
static void
test_seat_of_unknown (void)
{
  TestRun run = on_table (TABLE ("0.499"), BOTH_ENDS, MOVES ("3"));
  const GArray *list = run.findings->lifts[0].findings;
  for (guint i = 0; i < list->len; i++)
    {
      TrnFinding *finding = &g_array_index (list, TrnFinding, i);
      if (finding->check == TRN_CHECK_CLEARANCE)
        finding->verdict = TRN_VERDICT_UNKNOWN;
    }
  g_autoptr (TrnMoment) moment = trn_moment_new (run.scene, 0);
  const double on_seat_s[] = { 0, 10, 14, 86, 90 };
  for (guint i = 0; i < G_N_ELEMENTS (on_seat_s); i++)
    {
      const RenderPairNow now = now_of (moment, run.findings, on_seat_s[i], "table");
      g_assert_true (now.is_on_seat && !now.is_seated);
      g_assert_cmpint (now.state, ==, RENDER_STATE_NOT_CHECKED);
    }
  g_assert_false (now_of (moment, run.findings, 50, "table").is_on_seat);
  test_run_clear (&run);
}

/* Whether it rests at the start is not known: then it is not said to be seated there; at the end it
 * is. So also where the plan names a whole shaft as the seat, and the load is on its floor. */
static void
test_not_known (void)
{
  static const struct
  {
    const char *structures, *seats, *body;
  } cases[] = {
    { TABLE ("0.499"), BOTH_ENDS, "table" },
    { "{'id': 'pit', 'name': 'Pit', 'solid': {'kind': 'rect-shaft', 'size': [9, 9], 'depth': 5, "
      "'wall': 1, 'floor': 1}, 'at': {'position': [10, 0, 5.499]}}",
      "'seats': [{'on': 'pit', 'at': 'start'}, {'on': 'pit', 'at': 'end'}],", "pit/floor" },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TestRun run = on_table (cases[i].structures, cases[i].seats, MOVES ("3"));
      g_autoptr (TrnMoment) moment = trn_moment_new (run.scene, 0);
      g_assert_true (now_of (moment, run.findings, 10, cases[i].body).is_seated);
      g_assert_cmpuint (make_start_unknown (&run), ==, 1);
      g_assert_false (now_of (moment, run.findings, 10, cases[i].body).is_seated);
      g_assert_true (now_of (moment, run.findings, 85, cases[i].body).is_seated);
      test_run_clear (&run);
    }
}

/* A turning frame holds the cube in the first move: nothing is said of its cheeks, 0.1 m beside,
 * until it has let go; and then they are seated until the cube has gone up past them. Coming down
 * between them again it is short. */
static void
test_frame (void)
{
  TestGear t = {
    .gear = GEAR_CRANE (
        "") ", {'id': 'frame', 'kind': 'turning-frame', 'at': {'position': [10, 0, 0]}, 'pivot': "
            "0.5, 'size': [0.2, 0.6, 1], 'spacing': 2.4}",
    .structures = "{'id': 'post', 'name': 'Post', 'solid': {'kind': 'box', 'size': [1, 1, 1]}, "
                  "'at': {'position': [50, 50, 0]}}",
    .at = "[10, 0, 0.5]",
    .rigging = "{'main': {'gear': 'crane', 'hook_above': 1}, 'tail': {'gear': 'frame', 'point': "
               "[0, 0, 0], 'moves': [0, 0]}}",
    .moves = "{'do': 'wait', 'seconds': 10}, {'do': 'hoist', 'by': 3, 'seconds': 30}, {'do': "
             "'hoist', 'by': -3, 'seconds': 30}"
  };
  TestRun run = test_gear_run (&t);
  g_autoptr (TrnMoment) moment = trn_moment_new (run.scene, 0);
  g_assert_false (now_of (moment, run.findings, 5, "frame/cheek-2").is_there);
  g_assert_false (now_of (moment, NULL, 5, "frame/cheek-2").is_there);
  RenderPairNow let_go = now_of (moment, run.findings, 11, "frame/cheek-2");
  g_assert_true (let_go.is_there && let_go.is_seated);
  g_assert_cmpint (now_of (moment, NULL, 11, "frame/cheek-2").state, ==, RENDER_STATE_NOT_CHECKED);
  g_assert_cmpint (now_of (moment, run.findings, 40, "frame/cheek-2").state, ==,
                   RENDER_STATE_CLEAR);
  g_assert_cmpint (now_of (moment, run.findings, 70, "frame/cheek-2").state, ==,
                   RENDER_STATE_SHORT);
  test_run_clear (&run);
}

/* Hanging free it turns over: as drawn it comes into contact with the post, and stands on the table
 * at the start, of which nothing is said, before the check and after. Past the post in its way. */
static void
test_turns_over (void)
{
  TestGear t = { .gear = "",
                 .structures = TABLE ("0.5"),
                 .at = "[10, 0, 0.5]",
                 .unit = "'cog': [0, 0, 3],",
                 .lift = "'hangs': 'free',",
                 .moves = "{'do': 'travel', 'by': [0, 3], 'seconds': 30}" };
  TestRun run = test_gear_run (&t);
  g_autoptr (TrnMoment) moment = trn_moment_new (run.scene, 0);
  for (int i = 0; i < 2; i++)
    for (double time_s = 0; time_s <= 30; time_s += 15)
      {
        const RenderPairNow now = now_of (moment, i == 0 ? NULL : run.findings, time_s, "post");
        g_assert_true (now.is_there);
        g_assert_cmpint (now.state, ==, RENDER_STATE_NOT_CHECKED);
        g_assert_true (isnan (now.spare_m));
      }
  test_run_clear (&run);
}

/* ---- parts of gear ---- */

/* The crane of 20 m holds a crate at 12 m; its boom goes by a post at 4 m, and less than 0.1 m
 * is taken off that. The leg of the crate, whose hook is at 4.5 m from the post and whose lug is
 * 0.05 m nearer, loses more than 0.9 m there, since the crate may turn by 20° and lean by 7°. 3.61
 * m are to be kept: the boom is nearer and clear, the leg is short by 0.124 m. */
#define BOOM_M 4.0
#define LEG_M 4.43

static TestRun
crane_and_post_at (const char *rigging, const char *at)
{
  g_autofree char *post = g_strdup_printf (
      "{'id': 'post', 'name': 'Post', 'solid': {'kind': 'box', 'size': [1, 1, 30]},"
      " 'at': {'position': %s}, 'keep_clear': 3.61}",
      at);
  TestGear t = { .gear = GEAR_CRANE (""),
                 .structures = post,
                 .at = "[12, 0, 0]",
                 .unit = "'points': {'lug': [0, 0.05, 2]},",
                 .rigging = rigging,
                 .lift = "'tolerance': {'position': 0.05, 'tilt_deg': 7, 'heading_deg': 20},",
                 .moves = "{'do': 'hoist', 'by': 3, 'seconds': 30}" };
  return test_gear_run (&t);
}

static TestRun
crane_and_post (const char *rigging)
{
  return crane_and_post_at (rigging, "[12, 5, 0]");
}

#define LEG "'slings': [{'id': 'leg', 'to': 'lug', 'diameter': 0.04}]"

/* The pair of the crane and the post. */
static guint
pair_of_crane (const TrnMoment *moment)
{
  for (guint i = 0; i < moment->n_pairs; i++)
    if (!moment->pairs[i].of_load && moment->pairs[i].obstacle == 0)
      return i;
  g_assert_not_reached ();
}

/* The row of the crane is of @body, at @distance_m. */
static RenderPairNow
assert_worst (TrnMoment *moment, const TrnFindings *findings, const char *body, double distance_m)
{
  g_autoptr (RenderJudge) judge = render_judge_new (findings, moment);
  trn_moment_judge_by (moment, render_judge_part, judge);
  trn_moment_set_time (moment, 1);
  const guint pair = pair_of_crane (moment);
  g_assert_cmpstr (trn_moment_body (moment, pair), ==, body);
  if (isnan (distance_m))
    g_assert_true (isnan (moment->distances[pair].distance_m));
  else
    g_assert_cmpfloat_with_epsilon (moment->distances[pair].distance_m, distance_m, 0.01);
  trn_moment_judge_by (moment, NULL, NULL);
  return render_pair_now (judge, moment, pair, 0.1);
}

/* The part that is nearest is clear, and does not hide the one that is short. */
static void
test_farther_is_short (void)
{
  TestRun run = crane_and_post ("{'main': {'gear': 'crane', 'hook_above': 2, " LEG "}}");
  g_autoptr (TrnMoment) moment = trn_moment_new (run.scene, 0);
  const RenderPairNow leg = assert_worst (moment, run.findings, "leg", LEG_M);
  g_assert_cmpint (leg.state, ==, RENDER_STATE_SHORT);
  g_assert_cmpfloat_with_epsilon (leg.spare_m, -0.124, 0.005);
  g_assert_cmpfloat (leg.allowance_m, >, 0.9);
  /* What is taken off the boom alone leaves it clear. */
  TrnMoment boom = *moment;
  boom.distances = g_memdup2 (moment->distances, moment->n_pairs * sizeof *moment->distances);
  const guint pair = pair_of_crane (&boom);
  for (guint i = 0; i < boom.run->rig->n_bodies; i++)
    if (g_str_equal (boom.run->rig->bodies[i].id, "crane/boom"))
      boom.distances[pair] = (TrnMomentDistance){ .body = (int)i, .distance_m = BOOM_M };
  g_autoptr (RenderJudge) judge = render_judge_new (run.findings, moment);
  const RenderPairNow clear = render_pair_now (judge, &boom, pair, 0.1);
  g_assert_cmpint (clear.state, ==, RENDER_STATE_CLEAR);
  g_assert_cmpint (render_pair_now_compare (&leg, &clear), <, 0);
  g_free (boom.distances);
  test_run_clear (&run);
}

/* Before the check nothing is known to be taken off: the nearest part has least to spare, and is
 * not checked. So also without a judge. */
static void
test_nothing_checked (void)
{
  TestRun run = crane_and_post ("{'main': {'gear': 'crane', 'hook_above': 2, " LEG "}}");
  g_autoptr (TrnMoment) moment = trn_moment_new (run.scene, 0);
  g_assert_cmpstr (trn_moment_body (moment, pair_of_crane (moment)), ==, "crane/boom");
  const RenderPairNow now = assert_worst (moment, NULL, "crane/boom", BOOM_M);
  g_assert_cmpint (now.state, ==, RENDER_STATE_NOT_CHECKED);
  g_assert_true (isnan (now.allowance_m));
  g_assert_cmpfloat_with_epsilon (now.spare_m, BOOM_M - 3.61, 0.01);
  test_run_clear (&run);
}

static TrnFinding *
leg_of (const TestRun *run)
{
  GArray *list = run->findings->lifts[0].findings;
  for (guint i = 0; i < list->len; i++)
    {
      TrnFinding *f = &g_array_index (list, TrnFinding, i);
      if (f->check == TRN_CHECK_CLEARANCE && g_str_equal (f->body, "leg")
          && g_strcmp0 (f->obstacle, "post") == 0)
        return f;
    }
  g_assert_not_reached ();
}

/* What is not known of a part is not hidden by another that is clear, wherever it is itself: where
 * the check could not tell what is taken off, where it could not tell whether it is met, and where
 * the height of the hook is not given, so that the leg is nowhere. What is short is worse still. */
static void
test_part_not_known (void)
{
  TestRun run = crane_and_post ("{'main': {'gear': 'crane', 'hook_above': 2, " LEG "}}");
  g_autoptr (TrnMoment) moment = trn_moment_new (run.scene, 0);
  TrnFinding *leg = leg_of (&run);
  leg->verdict = TRN_VERDICT_UNKNOWN;
  leg->state = TRN_STATE_UNKNOWN;
  RenderPairNow now = assert_worst (moment, run.findings, "leg", LEG_M);
  g_assert_cmpint (now.state, ==, RENDER_STATE_SHORT);
  leg->allowance_m = 0.1;
  now = assert_worst (moment, run.findings, "leg", LEG_M);
  g_assert_cmpint (now.state, ==, RENDER_STATE_NOT_CHECKED);
  g_assert_cmpfloat (now.spare_m, >, 0.7);
  leg->allowance_m = NAN;
  now = assert_worst (moment, run.findings, "leg", LEG_M);
  g_assert_cmpint (now.state, ==, RENDER_STATE_NOT_CHECKED);
  leg->allowance_m = 0.1;
  leg->verdict = TRN_VERDICT_PASS;
  leg->state = TRN_STATE_CLEAR;
  now = assert_worst (moment, run.findings, "crane/boom", BOOM_M);
  g_assert_cmpint (now.state, ==, RENDER_STATE_CLEAR);
  test_run_clear (&run);

  run = crane_and_post ("{'main': {'gear': 'crane', " LEG "}}");
  g_autoptr (TrnMoment) nowhere = trn_moment_new (run.scene, 0);
  const char *body = trn_moment_body (nowhere, pair_of_crane (nowhere));
  g_assert_cmpstr (body, ==, "crane/boom");
  now = assert_worst (nowhere, run.findings, "crane/rope", NAN);
  g_assert_true (now.is_there);
  g_assert_cmpint (now.state, ==, RENDER_STATE_NOT_CHECKED);
  now = assert_worst (nowhere, NULL, "crane/boom", BOOM_M);
  g_assert_cmpint (now.state, ==, RENDER_STATE_NOT_CHECKED);
  test_run_clear (&run);
}

/* In the view the one gap is that of the boom. */
static void
assert_gap_of_boom (const TestRun *run, const TrnMoment *moment, const RenderJudge *judge)
{
  g_autoptr (RenderSite) site = render_site_build (run->scene, 0);
  const RenderSiteState state = { .time_s = moment->time_s,
                                  .moment = moment,
                                  .judge = judge,
                                  .findings = run->findings,
                                  .nearest = TRUE,
                                  .tight_m = 0.5 };
  g_autoptr (RenderDrawList) list = render_site_view (site, &state);
  g_assert_cmpuint (list->labels->len, ==, 1);
  const RenderLabel *label = &g_array_index (list->labels, RenderLabel, 0);
  g_assert_cmpint (label->state, ==, RENDER_STATE_TIGHT);
  g_autofree char *name = trn_words_body_name (run->scene->programme->plan, "crane/boom");
  g_autofree char *to = trn_words_gap_between (name, "Post", NAN);
  g_assert_nonnull (strstr (label->text, to));
}

/* The rope is nowhere, since the height of its hook is not given, and its row is not known; the
 * boom beside the post has its place and its gap all the same, with less than 0.39 m to spare. */
static void
test_placed (void)
{
  TestRun run = crane_and_post_at ("{'main': {'gear': 'crane', " LEG "}}", "[6, 5, 0]");
  g_autoptr (TrnMoment) moment = trn_moment_new (run.scene, 0);
  assert_worst (moment, run.findings, "crane/rope", NAN);
  const guint pair = pair_of_crane (moment);
  g_assert_cmpstr (trn_moment_placed_body (moment, pair), ==, "crane/boom");
  g_assert_cmpfloat_with_epsilon (moment->placed[pair].distance_m, BOOM_M, 0.01);
  g_autoptr (RenderJudge) judge = render_judge_new (run.findings, moment);
  const RenderPairNow boom = render_pair_placed (judge, moment, pair, 0.5);
  g_assert_cmpint (boom.state, ==, RENDER_STATE_TIGHT);
  assert_gap_of_boom (&run, moment, judge);
  test_run_clear (&run);
}

static TrnPartStand
stand_aside (gconstpointer data, const TrnMoment *moment, guint pair, guint body, double distance_m)
{
  const double spare_m = distance_m - moment->pairs[pair].required_m;
  return (TrnPartStand){ 2, spare_m, spare_m < 0 };
}

/* What may be held stands nearest, and worst in its row; the gap in the view is that of the part
 * behind it, and of that one only where there is one. */
static void
test_aside (void)
{
  TestRun run
      = crane_and_post_at ("{'main': {'gear': 'crane', 'hook_above': 2, " LEG "}}", "[12, 4.2, 0]");
  g_autoptr (TrnMoment) moment = trn_moment_new (run.scene, 0);
  trn_moment_judge_by (moment, stand_aside, NULL);
  trn_moment_set_time (moment, 1);
  const guint pair = pair_of_crane (moment);
  g_assert_cmpstr (trn_moment_body (moment, pair), ==, "crane/boom");
  g_assert_cmpfloat_with_epsilon (moment->distances[pair].distance_m, BOOM_M - 0.8, 0.01);
  g_assert_cmpstr (trn_moment_placed_body (moment, pair), ==, "leg");
  g_assert_cmpfloat_with_epsilon (moment->placed[pair].distance_m, LEG_M - 0.8, 0.01);
  for (guint i = 0; i < moment->n_pairs; i++)
    moment->pairs[i].required_m = 40;
  trn_moment_set_time (moment, 1);
  g_assert_cmpstr (trn_moment_placed_body (moment, pair), ==, "crane/boom");
  test_run_clear (&run);
}

/* A leg goes past a post, first its top, 0.65 m from it, at last its foot, 1.08 m from it, which a
 * turn by 10° takes 0.69 m nearer and the tolerance of position 0.05 m (test-gear-along.c). It
 * meets what is set at all moments, and no more is shown to be left than is true. */
static void
test_moments (void)
{
  const TestGear t
      = { .gear = GEAR_CRANE (""),
          .structures = "{'id': 'post', 'solid': {'kind': 'box', 'size': [0.2, 0.2, 4]}, 'at':"
                        " {'position': [10, 0.77, 0]}, 'keep_clear': 0.1}",
          .solid = "{'kind': 'box', 'size': [8, 1, 1]}",
          .hook = "[0, 0, 1]",
          .rigging = "{'main': {'gear': 'crane', 'hook_above': 3, 'slings': [{'id': 'leg', 'to':"
                     " [4, 0, 1], 'diameter': 0.04}]}}",
          .lift = "'tolerance': {'position': 0.05, 'heading_deg': 10},",
          .moves = "{'do': 'travel', 'by': [-4, -0.43], 'seconds': 60}" };
  TestRun run = test_gear_run (&t);
  g_autoptr (TrnMoment) moment = trn_moment_new (run.scene, 0);
  g_autoptr (RenderJudge) judge = render_judge_new (run.findings, moment);
  trn_moment_judge_by (moment, render_judge_part, judge);
  const guint pair = pair_of_crane (moment);
  for (double time_s = 0; time_s <= 60; time_s += 5)
    {
      trn_moment_set_time (moment, time_s);
      const RenderPairNow now = render_pair_now (judge, moment, pair, 0);
      g_assert_cmpint (now.state, ==, RENDER_STATE_CLEAR);
      g_assert_cmpfloat (now.spare_m, >=, 0);
    }
  g_assert_cmpstr (trn_moment_body (moment, pair), ==, "leg");
  const RenderPairNow last = render_pair_now (judge, moment, pair, 0);
  g_assert_cmpfloat_with_epsilon (last.distance_m, 1.08, 1e-3);
  g_assert_cmpfloat (last.spare_m + 0.1, <=, 1.08 - 4 * sin (G_PI / 18) - 0.05);
  trn_moment_judge_by (moment, NULL, NULL);
  test_run_clear (&run);
}

/* What another thread reads is a copy of its own, of one lift. */
static void
test_copy (void)
{
  TestRun run = crane_and_post ("{'main': {'gear': 'crane', 'hook_above': 2, " LEG "}}");
  TrnFindings *copy = trn_findings_dup_lift (run.findings, 0);
  g_assert_null (trn_findings_dup_lift (run.findings, 1));
  g_assert_null (trn_findings_dup_lift (NULL, 0));
  trn_findings_free (g_steal_pointer (&run.findings));
  g_autoptr (TrnMoment) moment = trn_moment_new (run.scene, 0);
  const RenderPairNow now = assert_worst (moment, copy, "leg", LEG_M);
  g_assert_cmpint (now.state, ==, RENDER_STATE_SHORT);
  g_assert_cmpuint (trn_findings_get_lift (copy, 0)->findings->len, >, 10);
  trn_findings_free (copy);
  trn_scene_free (run.scene);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/render/pair-now/seat", test_seat);
  g_test_add_func ("/render/pair-now/closest", test_closest);
  g_test_add_func ("/render/pair-now/no-seat", test_no_seat);
  g_test_add_func ("/render/pair-now/buried", test_buried);
  g_test_add_func ("/render/pair-now/not-resting", test_not_resting);
  g_test_add_func ("/render/pair-now/not-known", test_not_known);
  g_test_add_func ("/render/pair-now/seat-of-unknown", test_seat_of_unknown);
  g_test_add_func ("/render/pair-now/frame", test_frame);
  g_test_add_func ("/render/pair-now/turns-over", test_turns_over);
  g_test_add_func ("/render/pair-now/farther-is-short", test_farther_is_short);
  g_test_add_func ("/render/pair-now/nothing-checked", test_nothing_checked);
  g_test_add_func ("/render/pair-now/part-not-known", test_part_not_known);
  g_test_add_func ("/render/pair-now/placed", test_placed);
  g_test_add_func ("/render/pair-now/aside", test_aside);
  g_test_add_func ("/render/pair-now/moments", test_moments);
  g_test_add_func ("/render/pair-now/copy", test_copy);
  return g_test_run ();
}
