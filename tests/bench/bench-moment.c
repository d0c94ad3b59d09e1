/* bench-moment.c: what the distances of a moment cost while time is dragged, and what finding the
 * part of a gear that stands worst costs beside finding the nearest one: processor time of a
 * moment, over the whole of each lift of the demos. Run on request (`ninja
 * tests/bench/bench-moment`), nothing is asserted.
 *
 *   bench-moment [FOLDER OF DEMOS]
 */
#include <time.h>

#include "site-view.h"

#define TIMES 200
#define ROUNDS 5

static double
processor_s (void)
{
  struct timespec t;
  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &t);
  return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* The median over rounds of the mean of a moment, and the longest of any in the last round. */
static double
measure (TrnMoment *moment, double *longest_s)
{
  const double end_s = moment->run->begins_s[moment->run->lift->n_moves];
  double means_s[ROUNDS];
  for (guint round = 0; round < ROUNDS; round++)
    {
      double all_s = 0;
      *longest_s = 0;
      for (guint i = 0; i <= TIMES; i++)
        {
          const double start_s = processor_s ();
          trn_moment_set_time (moment, end_s * i / TIMES);
          const double took_s = processor_s () - start_s;
          all_s += took_s;
          *longest_s = MAX (*longest_s, took_s);
        }
      means_s[round] = all_s / (TIMES + 1);
    }
  for (guint i = 1; i < ROUNDS; i++)
    for (guint k = i; k > 0 && means_s[k] < means_s[k - 1]; k--)
      {
        const double less_s = means_s[k];
        means_s[k] = means_s[k - 1];
        means_s[k - 1] = less_s;
      }
  return means_s[ROUNDS / 2];
}

static void
measure_run (const char *name, const TrnScene *scene, const TrnFindings *findings, guint run)
{
  g_autoptr (TrnMoment) moment = trn_moment_new (scene, run);
  double copying_s = processor_s ();
  g_autoptr (TrnFindings) copy = trn_findings_dup_lift (findings, run);
  copying_s = processor_s () - copying_s;
  double laying_out_s = processor_s ();
  g_autoptr (RenderJudge) judge = render_judge_new (copy, moment);
  laying_out_s = processor_s () - laying_out_s;
  double nearest_most_s, worst_most_s;
  const double nearest_s = measure (moment, &nearest_most_s);
  trn_moment_judge_by (moment, render_judge_part, judge);
  const double worst_s = measure (moment, &worst_most_s);
  g_print (
      "%-15s lift %u, %3u pairs, %2u parts: nearest %6.2f ms (most %6.2f), worst %6.2f ms (most "
      "%6.2f): %.2f times; %u findings copied in %.2f ms, laid out in %.2f ms\n",
      name, run + 1, moment->n_pairs, moment->run->rig != NULL ? moment->run->rig->n_bodies : 0,
      1e3 * nearest_s, 1e3 * nearest_most_s, 1e3 * worst_s, 1e3 * worst_most_s, worst_s / nearest_s,
      trn_findings_get_lift (copy, run)->findings->len, 1e3 * copying_s, 1e3 * laying_out_s);
}

static void
measure_demo (const char *folder, const char *name)
{
  g_autofree char *base_name = g_strconcat (name, ".trunnion", NULL);
  g_autofree char *path = g_build_filename (folder, name, base_name, NULL);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) plan = trn_plan_read (path, NULL, diags);
  TrnProgramme *programme = plan != NULL ? trn_programme_play (plan, diags) : NULL;
  if (programme == NULL)
    g_error ("%s cannot be read", path);
  g_autoptr (TrnScene) scene = trn_scene_build_take (programme, &(TrnSceneOptions){ 0 }, diags);
  if (scene == NULL)
    g_error ("no scene of %s", path);
  g_autoptr (TrnFindings) findings = trn_checks_run (scene, &(TrnCheckOptions){ 0 });
  for (guint i = 0; i < scene->programme->n_runs; i++)
    measure_run (name, scene, findings, i);
}

int
main (int argc, char **argv)
{
  static const char *const names[]
      = { "pump-column", "lock-gate", "column-tandem", "valve-assembly" };
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    measure_demo (argc > 1 ? argv[1] : BENCH_DEMOS, names[i]);
  return 0;
}
