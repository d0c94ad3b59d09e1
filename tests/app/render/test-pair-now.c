/* test-pair-now.c: how a pair stands now, while the load is on its seat, leaves it, and before the
 * check has come to it; and beside gear that holds the load, or has let it go. */
#include "test-gear.h"

#include "site-view.h"

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
  trn_moment_set_time (moment, time_s);
  for (guint i = 0; i < moment->n_pairs; i++)
    if (!isnan (moment->distances[i].distance_m)
        && g_str_equal (trn_moment_obstacle (moment, i), obstacle))
      return render_pair_now (findings, 0, moment, i, 0.1);
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
  g_test_add_func ("/render/pair-now/frame", test_frame);
  g_test_add_func ("/render/pair-now/turns-over", test_turns_over);
  return g_test_run ();
}
