/* test-moments.c: what is said of now in each demo, against what the check says of that time: at
 * the start, in the middle and at the end of every move, and in the middle and at the ends of every
 * span in which the load is seated, of every pair. A moment that is short in a move that meets what
 * is to be kept would make one of the two a lie. */
#include "site-view.h"

#define TIGHT_M 0.1
#define SAME_TIME_S 1e-6

typedef struct
{
  TrnScene *scene;
  RenderSite *site;
  TrnFindings *findings;
} Demo;

static TrnScene *
scene_of (const char *name)
{
  g_autofree char *base_name = g_strconcat (name, ".trunnion", NULL);
  g_autofree char *path = g_build_filename (g_getenv ("TRUNNION_DEMOS"), name, base_name, NULL);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) plan = trn_plan_read (path, NULL, diags);
  g_assert_nonnull (plan);
  TrnProgramme *programme = trn_programme_play (plan, diags);
  g_assert_nonnull (programme);
  TrnScene *scene = trn_scene_build_take (programme, &(TrnSceneOptions){ 0 }, diags);
  g_assert_nonnull (scene);
  return scene;
}

static const GArray *
findings_of (const Demo *demo, guint run)
{
  for (guint i = 0; i < demo->findings->n_lifts; i++)
    if (demo->findings->lifts[i].lift == run)
      return demo->findings->lifts[i].findings;
  g_assert_not_reached ();
}

/* The one finding of the clearance of two bodies in a move, whichever is named first. */
static const TrnFinding *
finding_of (const GArray *list, guint move, const char *a, const char *b)
{
  const TrnFinding *found = NULL;
  for (guint i = 0; i < list->len; i++)
    {
      const TrnFinding *f = &g_array_index (list, TrnFinding, i);
      if (f->check != TRN_CHECK_CLEARANCE || f->move != (int)move
          || !((g_str_equal (f->body, a) && g_str_equal (f->obstacle, b))
               || (g_str_equal (f->body, b) && g_str_equal (f->obstacle, a))))
        continue;
      g_assert_null (found);
      found = f;
    }
  return found;
}

static gboolean
is_within (TrnInterval span, double time_s)
{
  return time_s >= span.lo - SAME_TIME_S && time_s <= span.hi + SAME_TIME_S;
}

static void
assert_agrees (const TrnFinding *f, const RenderPairNow *now, double distance_m, double time_s)
{
  gboolean is_within_seat = f->has_seated && is_within (f->seated_s, time_s);
  gboolean is_deep_in_seat = is_within_seat && time_s > f->seated_s.lo + SAME_TIME_S
                             && time_s < f->seated_s.hi - SAME_TIME_S;
  if (is_deep_in_seat && f->verdict == TRN_VERDICT_PASS)
    g_assert_true (now->is_seated);
  if (now->is_seated)
    {
      g_assert_cmpint (now->state, ==, RENDER_STATE_NONE);
      g_assert_true (is_within_seat);
      return;
    }
  switch (now->state)
    {
    case RENDER_STATE_TOUCHING:
    case RENDER_STATE_SHORT:
    case RENDER_STATE_NOT_CHECKED:
      g_assert_cmpint (f->verdict, !=, TRN_VERDICT_PASS);
      return;
    case RENDER_STATE_TIGHT:
    case RENDER_STATE_CLEAR:
      if (!is_within_seat && !isnan (f->lower_m))
        g_assert_cmpfloat (distance_m, >=, f->lower_m - 1e-9);
      return;
    case RENDER_STATE_NONE:
      break;
    }
  g_assert_not_reached ();
}

/* The number of pairs that were there. */
static guint
look_at_pairs (const Demo *demo, guint run, const TrnMoment *moment)
{
  guint n = 0, move;
  double progress;
  trn_lift_run_pose (moment->run, moment->time_s, &move, &progress);
  for (guint i = 0; i < moment->n_pairs; i++)
    {
      double distance_m = moment->distances[i].distance_m;
      RenderPairNow now = render_pair_now (demo->findings, run, moment, i, TIGHT_M);
      if (isnan (distance_m))
        {
          g_assert_false (now.is_there);
          continue;
        }
      const char *body = trn_moment_body (moment, i), *obstacle = trn_moment_obstacle (moment, i);
      const TrnFinding *f = finding_of (findings_of (demo, run), move, body, obstacle);
      g_test_message ("%.3f s, move %u: %s to %s: %g m, state %d%s", moment->time_s, move + 1, body,
                      obstacle, distance_m, (int)now.state, now.is_seated ? ", seated" : "");
      /* What the check leaves out is connected, and nothing is said of it. */
      g_assert_cmpint (now.is_there, ==, f != NULL);
      if (f == NULL)
        continue;
      assert_agrees (f, &now, distance_m, moment->time_s);
      n++;
    }
  return n;
}

/* What is written at the gap in the view. */
static void
look_at_view (const Demo *demo, guint run, const TrnMoment *moment)
{
  guint move;
  double progress;
  trn_lift_run_pose (moment->run, moment->time_s, &move, &progress);
  gboolean all_pass = TRUE;
  const GArray *list = findings_of (demo, run);
  for (guint i = 0; i < list->len; i++)
    {
      const TrnFinding *f = &g_array_index (list, TrnFinding, i);
      if (f->check == TRN_CHECK_CLEARANCE && f->move == (int)move)
        all_pass &= f->verdict == TRN_VERDICT_PASS;
    }
  RenderSiteState state = { .run = run,
                            .time_s = moment->time_s,
                            .moment = moment,
                            .findings = demo->findings,
                            .tight_m = TIGHT_M,
                            .nearest = TRUE };
  g_autoptr (RenderDrawList) drawn = render_site_view (demo->site, &state);
  for (guint i = 0; all_pass && i < drawn->labels->len; i++)
    {
      RenderState shown = g_array_index (drawn->labels, RenderLabel, i).state;
      g_assert_true (shown == RENDER_STATE_NONE || shown == RENDER_STATE_TIGHT
                     || shown == RENDER_STATE_CLEAR);
    }
}

static guint
look_at (const Demo *demo, guint run, TrnMoment *moment, double time_s)
{
  trn_moment_set_time (moment, time_s);
  look_at_view (demo, run, moment);
  return look_at_pairs (demo, run, moment);
}

static guint
look_at_run (const Demo *demo, guint index)
{
  const TrnLiftRun *run = &demo->scene->programme->runs[index];
  g_autoptr (TrnMoment) moment = trn_moment_new (demo->scene, index);
  guint n = 0;
  for (guint move = 0; move < run->lift->n_moves; move++)
    {
      double begin_s = run->begins_s[move], end_s = run->begins_s[move + 1];
      n += look_at (demo, index, moment, begin_s);
      n += look_at (demo, index, moment, (begin_s + end_s) / 2);
      n += look_at (demo, index, moment, end_s);
    }
  const GArray *list = findings_of (demo, index);
  for (guint i = 0; i < list->len; i++)
    {
      const TrnFinding *f = &g_array_index (list, TrnFinding, i);
      if (!f->has_seated)
        continue;
      n += look_at (demo, index, moment, f->seated_s.lo);
      n += look_at (demo, index, moment, (f->seated_s.lo + f->seated_s.hi) / 2);
      n += look_at (demo, index, moment, f->seated_s.hi);
    }
  return n;
}

static void
test_demo (gconstpointer name)
{
  Demo demo = { .scene = scene_of (name) };
  demo.site = render_site_build (demo.scene, 1000);
  demo.findings = trn_checks_run (demo.scene, &(TrnCheckOptions){ 0 });
  guint n = 0;
  for (guint i = 0; i < demo.scene->programme->n_runs; i++)
    n += look_at_run (&demo, i);
  g_assert_cmpuint (n, >, 100);
  trn_findings_free (demo.findings);
  render_site_free (demo.site);
  trn_scene_free (demo.scene);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/demos/moments/pump-column", "pump-column", test_demo);
  g_test_add_data_func ("/demos/moments/lock-gate", "lock-gate", test_demo);
  g_test_add_data_func ("/demos/moments/column-tandem", "column-tandem", test_demo);
  g_test_add_data_func ("/demos/moments/valve-assembly", "valve-assembly", test_demo);
  return g_test_run ();
}
