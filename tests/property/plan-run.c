#include "plan-run.h"

#include <string.h>

#include "results.h"

PlanRun
plan_run (const char *json, const char *name, const char *folder)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) plan
      = trn_plan_parse (json, strlen (json), "random.trunnion", folder, NULL, diags);
  TrnProgramme *programme = plan != NULL ? trn_programme_play (plan, diags) : NULL;
  TrnSceneOptions scene_options = { .solid_deviation_m = 0.06, .jobs = 1 };
  TrnScene *scene
      = programme != NULL ? trn_scene_build_take (programme, &scene_options, diags) : NULL;
  if (scene == NULL)
    {
      for (guint i = 0; i < diags->items->len; i++)
        {
          const TrnDiag *diag = g_ptr_array_index (diags->items, i);
          g_printerr ("%s at %s line %u\n", diag->code, diag->pointer, diag->line);
        }
      g_error ("plan %s cannot be read:\n%s", name, json);
    }
  TrnCheckOptions options = { .jobs = 1 };
  return (PlanRun){ scene, trn_checks_run (scene, &options) };
}

void
plan_run_clear (PlanRun *run)
{
  trn_findings_free (run->findings);
  trn_scene_free (run->scene);
}

char *
plan_run_to_json (const PlanRun *run, gsize *length)
{
  return trn_results_to_json (run->scene, run->findings, "test", length);
}

void
plan_run_judge_threads (const PlanRun *run, const char *name, guint jobs)
{
  TrnCheckOptions options = { .jobs = jobs };
  PlanRun again = { run->scene, trn_checks_run (run->scene, &options) };
  gsize length[2];
  g_autofree char *first = plan_run_to_json (run, &length[0]);
  g_autofree char *second = plan_run_to_json (&again, &length[1]);
  if (length[0] != length[1] || memcmp (first, second, length[0]) != 0)
    g_error ("plan %s: results differ with %u threads", name, jobs);
  trn_findings_free (again.findings);
}

void
plan_tally_judge (const gint *counts, const PlanTally *kinds, guint n, gboolean is_whole)
{
  for (guint i = 0; i < n; i++)
    g_test_message ("%s: %d", kinds[i].name, counts[kinds[i].kind]);
  for (guint i = 0; i < n && is_whole; i++)
    g_assert_cmpint (counts[kinds[i].kind], >=, kinds[i].least);
}
