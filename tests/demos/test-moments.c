/* test-moments.c: what is said of now in each demo, against what the check says of that time: at
 * the start, in the middle and at the end of every move, and in the middle and at the ends of every
 * span in which the load is seated, of every pair. A moment that is short in a move that meets what
 * is to be kept would make one of the two a lie.
 *
 * And over the whole of each lift: what is said of a gear is of the part that stands worst, of all
 * its parts measured one by one, with the findings and before there are any. */
#include "site-view.h"

#include "limb-sweep.h"
#include "tolerances.h"

#define TIGHT_M 0.1
#define SAME_TIME_S 1e-6
/* Moments of a lift, beside those of its findings. */
#define TIMES 24
#define EACH_FINDING 29 /* of so many one */
/* Distances are as near as this to the least. */
#define NEAR_M (2 * TRN_CONTACT_M)

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
look_at_pairs (const Demo *demo, guint run, const TrnMoment *moment, const RenderJudge *judge)
{
  guint n = 0, move;
  double progress;
  trn_lift_run_pose (moment->run, moment->time_s, &move, &progress);
  for (guint i = 0; i < moment->n_pairs; i++)
    {
      double distance_m = moment->distances[i].distance_m;
      RenderPairNow now = render_pair_now (judge, moment, i, TIGHT_M);
      if (trn_moment_body (moment, i) == NULL)
        {
          g_assert_true (isnan (distance_m));
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
look_at_view (const Demo *demo, guint run, const TrnMoment *moment, const RenderJudge *judge)
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
                            .judge = judge,
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
look_at (const Demo *demo, guint run, TrnMoment *moment, const RenderJudge *judge, double time_s)
{
  trn_moment_set_time (moment, time_s);
  look_at_view (demo, run, moment, judge);
  return look_at_pairs (demo, run, moment, judge);
}

static guint
look_at_run (const Demo *demo, guint index)
{
  const TrnLiftRun *run = &demo->scene->programme->runs[index];
  g_autoptr (TrnMoment) moment = trn_moment_new (demo->scene, index);
  g_autoptr (RenderJudge) judge = render_judge_new (demo->findings, moment);
  trn_moment_judge_by (moment, render_judge_part, judge);
  guint n = 0;
  for (guint move = 0; move < run->lift->n_moves; move++)
    {
      double begin_s = run->begins_s[move], end_s = run->begins_s[move + 1];
      n += look_at (demo, index, moment, judge, begin_s);
      n += look_at (demo, index, moment, judge, (begin_s + end_s) / 2);
      n += look_at (demo, index, moment, judge, end_s);
    }
  const GArray *list = findings_of (demo, index);
  for (guint i = 0; i < list->len; i++)
    {
      const TrnFinding *f = &g_array_index (list, TrnFinding, i);
      if (!f->has_seated)
        continue;
      n += look_at (demo, index, moment, judge, f->seated_s.lo);
      n += look_at (demo, index, moment, judge, (f->seated_s.lo + f->seated_s.hi) / 2);
      n += look_at (demo, index, moment, judge, f->seated_s.hi);
    }
  return n;
}

/* ---- parts, one by one ---- */

/* 0: touches, 1: short, 2: not known, 3: met, 4: seated; with what it has to spare. */
typedef struct
{
  int rank;
  double spare_m;
} Stand;

static double
distance_of (const TrnMoment *moment, guint body, guint obstacle)
{
  const TrnLiftRun *run = moment->run;
  TrnLimbPair pair = { .span = { 0, 1 } };
  if (obstacle < moment->n_obstacles)
    {
      const TrnObstacle *o = &moment->obstacles[obstacle];
      pair.obstacle = (TrnSweepBody){ o->body->bvh, o->body->check };
      pair.site_from_obstacle = o->standing->site_from_standing;
    }
  else
    {
      const TrnBody *load = trn_scene_load (moment->scene, run);
      pair.obstacle = (TrnSweepBody){ load->bvh, load->check };
      pair.motion = &run->motions[moment->move];
    }
  TrnRigLimb store;
  const TrnLimb limb = trn_rig_limb (run->rig, body, moment->move, &store);
  pair.limb = &limb;
  TrnVec3 a, b;
  return trn_limb_distance (&pair, moment->progress, &a, &b);
}

/* By what the finding of the part says, or before the check. */
static Stand
stand_of (const GArray *list, const TrnMoment *moment, guint pair, guint body, double distance_m)
{
  const TrnMomentPair *p = &moment->pairs[pair];
  const char *id = moment->run->rig->bodies[body].id,
             *obstacle = trn_moment_obstacle (moment, pair);
  const TrnFinding *f = list != NULL ? finding_of (list, moment->move, id, obstacle) : NULL;
  if (isnan (distance_m) || (f != NULL && trn_finding_is_unhung (f)))
    return (Stand){ 2, NAN };
  if (f != NULL && f->has_points && fabs (f->time_s - moment->time_s) < 0.05)
    distance_m = fmin (distance_m, f->lower_m);
  const double off_m = f != NULL ? f->allowance_m : NAN;
  const double spare_m = distance_m - p->required_m - (isnan (off_m) ? 0 : off_m);
  const gboolean may_rest = list == NULL && trn_rig_holder (moment->run->rig, id, obstacle) != NULL;
  if (f != NULL && trn_finding_is_seated (list, f, moment->time_s))
    return (Stand){ 4, spare_m };
  if (distance_m <= TRN_CONTACT_M || spare_m < 0)
    return (Stand){ may_rest ? 2 : distance_m <= TRN_CONTACT_M ? 0 : 1, spare_m };
  return (Stand){ f == NULL || isnan (off_m) || f->verdict == TRN_VERDICT_UNKNOWN ? 2 : 3,
                  spare_m };
}

static int
rank_of (const RenderPairNow *now)
{
  return now->is_seated                           ? 4
         : now->state == RENDER_STATE_TOUCHING    ? 0
         : now->state == RENDER_STATE_SHORT       ? 1
         : now->state == RENDER_STATE_NOT_CHECKED ? 2
                                                  : 3;
}

static gboolean
is_part (const TrnMoment *moment, guint pair, guint body)
{
  const TrnRigBody *b = &moment->run->rig->bodies[body];
  return b->place == moment->pairs[pair].place && b->first_move <= moment->move
         && moment->move <= b->last_move
         && !trn_rig_is_connected (moment->run->rig, b->id, trn_moment_obstacle (moment, pair),
                                   moment->move);
}

/* Of those that have a place none stands worse than the one that is drawn, but for rounding. */
static void
assert_no_worse (const RenderPairNow *placed, const Stand *part)
{
  const int rank = rank_of (placed);
  g_assert_true (placed->is_there && !isnan (placed->spare_m));
  if (rank == part->rank)
    g_assert_cmpfloat (placed->spare_m, <=, part->spare_m + NEAR_M);
  else if (fabs (part->spare_m) > NEAR_M)
    g_assert_cmpint (rank, <, part->rank);
}

/* No part stands worse than the one that the pair is of; where two are as bad but for rounding,
 * either may be. Returns the number of pairs of which a farther part is told. */
static guint
look_at_parts (const Demo *demo, guint run, const TrnMoment *moment, const RenderJudge *judge,
               const TrnFindings *findings)
{
  const GArray *list = findings != NULL ? findings_of (demo, run) : NULL;
  guint n_farther = 0;
  for (guint i = moment->n_obstacles; i < moment->n_pairs; i++)
    {
      const RenderPairNow now = render_pair_now (judge, moment, i, TIGHT_M);
      const RenderPairNow placed = render_pair_placed (judge, moment, i, TIGHT_M);
      const TrnMomentDistance *d = &moment->distances[i];
      guint n_parts = 0;
      gboolean is_nearest = TRUE;
      for (guint body = 0; body < moment->run->rig->n_bodies; body++)
        {
          if (!is_part (moment, i, body))
            continue;
          n_parts++;
          const double distance_m = distance_of (moment, body, moment->pairs[i].obstacle);
          const Stand part = stand_of (list, moment, i, body, distance_m);
          const int rank = rank_of (&now);
          is_nearest &= !(distance_m < d->distance_m - NEAR_M);
          if ((guint)d->body == body)
            g_assert_true (isnan (distance_m) ? isnan (d->distance_m)
                                              : fabs (distance_m - d->distance_m) <= NEAR_M);
          if (!isnan (part.spare_m))
            assert_no_worse (&placed, &part);
          if (rank < part.rank || isnan (part.spare_m))
            {
              g_assert_cmpint (rank, <=, part.rank);
              continue;
            }
          /* Short or met, by less than rounding. */
          if (rank > part.rank && fabs (part.spare_m) > NEAR_M)
            g_error ("%.3f s: %s to %s hides %s (%d, %.6f m against %d, %.6f m)", moment->time_s,
                     trn_moment_body (moment, i), trn_moment_obstacle (moment, i),
                     moment->run->rig->bodies[body].id, rank, now.spare_m, part.rank, part.spare_m);
          if (rank == part.rank)
            g_assert_cmpfloat (now.spare_m, <=, part.spare_m + NEAR_M);
        }
      g_assert_cmpint (now.is_there, ==, n_parts > 0);
      n_farther += !is_nearest;
    }
  return n_farther;
}

static guint
look_at_whole (const Demo *demo, guint index)
{
  const TrnLiftRun *run = &demo->scene->programme->runs[index];
  g_autoptr (TrnMoment) moment = trn_moment_new (demo->scene, index);
  g_autoptr (RenderJudge) judge = render_judge_new (demo->findings, moment);
  g_autoptr (RenderJudge) blank = render_judge_new (NULL, moment);
  const double end_s = run->begins_s[run->lift->n_moves];
  const GArray *list = findings_of (demo, index);
  g_autoptr (GArray) times = g_array_new (FALSE, FALSE, sizeof (double));
  for (guint i = 0; i <= TIMES; i++)
    {
      const double time_s = end_s * i / TIMES;
      g_array_append_val (times, time_s);
    }
  for (guint i = 0; i < list->len; i += EACH_FINDING)
    {
      const TrnFinding *f = &g_array_index (list, TrnFinding, i);
      if (f->check == TRN_CHECK_CLEARANCE && f->has_points)
        g_array_append_val (times, f->time_s);
    }
  guint n_farther = 0;
  for (guint i = 0; run->rig != NULL && i < times->len; i++)
    {
      const double time_s = g_array_index (times, double, i);
      trn_moment_judge_by (moment, render_judge_part, judge);
      trn_moment_set_time (moment, time_s);
      n_farther += look_at_parts (demo, index, moment, judge, demo->findings);
      if (i % 4 != 0)
        continue;
      trn_moment_judge_by (moment, render_judge_part, blank);
      trn_moment_set_time (moment, time_s);
      look_at_parts (demo, index, moment, blank, NULL);
      trn_moment_judge_by (moment, NULL, NULL);
      trn_moment_set_time (moment, time_s);
      g_assert_cmpuint (look_at_parts (demo, index, moment, blank, NULL), ==, 0);
    }
  return n_farther;
}

static void
test_parts (gconstpointer name)
{
  Demo demo = { .scene = scene_of (name) };
  demo.findings = trn_checks_run (demo.scene, &(TrnCheckOptions){ 0 });
  guint n_farther = 0;
  for (guint i = 0; i < demo.scene->programme->n_runs; i++)
    n_farther += look_at_whole (&demo, i);
  g_test_message ("%u times a farther part is told", n_farther);
  g_assert_cmpuint (n_farther, >, 0);
  trn_findings_free (demo.findings);
  trn_scene_free (demo.scene);
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
  g_test_add_data_func ("/demos/moments/parts/pump-column", "pump-column", test_parts);
  g_test_add_data_func ("/demos/moments/parts/column-tandem", "column-tandem", test_parts);
  return g_test_run ();
}
