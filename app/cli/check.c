/* check.c: `trunnion check`: plan, scene, checks, then the files and the table.
 *
 * Nothing is written before all is known, so an interruption leaves nothing behind. */
#include <stdio.h>

#include "cli.h"
#include "output.h"
#include "table.h"
#include "watch.h"

static void
print_timing (const char *name, double time_s)
{
  char ms[G_ASCII_DTOSTR_BUF_SIZE];
  fprintf (stderr, "timing: %s %s ms\n", name,
           g_ascii_formatd (ms, sizeof ms, "%.1f", time_s * 1000));
}

static CliStatus
report (const CliOptions *options, const TrnScene *scene, const TrnFindings *findings,
        TrnDiags *diags)
{
  gboolean written = cli_outputs_write (options, scene, findings, diags);
  cli_print_diags (diags);
  if (!cli_outputs_take_stdout (options))
    cli_table_print (scene, findings, options->all);
  if (options->timings)
    {
      fflush (stdout);
      print_timing ("import", scene->times.import_s);
      print_timing ("build", scene->times.build_s);
      print_timing ("sweep", findings->sweep_s);
    }
  if (!written)
    return CLI_CANNOT_WRITE;
  return cli_finish_output (findings->verdict == TRN_VERDICT_PASS ? CLI_PASSES : CLI_FAILS);
}

/* Takes the programme. @scene and @findings are NULL where it did not come so far; TRUE when it was
 * not interrupted. */
static gboolean
work_take (const CliOptions *options, TrnProgramme *programme, TrnScene **scene,
           TrnFindings **findings, TrnDiags *diags)
{
  CliWatch *watch = cli_watch_start ();
  TrnProgress *progress = cli_watch_progress (watch);
  TrnSceneOptions scene_options
      = { .solid_deviation_m = options->deviation_m, .jobs = options->jobs, .progress = progress };
  TrnCheckOptions check_options = { .certify_m = options->certify_m,
                                    .jobs = options->jobs,
                                    .lift = options->lift,
                                    .progress = progress };
  *findings = NULL;
  *scene = trn_scene_build_take (programme, &scene_options, diags);
  if (*scene != NULL)
    {
      cli_watch_stage (watch, TRN_STAGE_CHECKING);
      *findings = trn_checks_run (*scene, &check_options);
    }
  return !cli_watch_stop (watch);
}

static CliStatus
check_programme_take (const CliOptions *options, TrnProgramme *programme, TrnDiags *diags)
{
  g_autoptr (TrnScene) scene = NULL;
  g_autoptr (TrnFindings) findings = NULL;
  gboolean done = work_take (options, programme, &scene, &findings, diags);
  if (!done)
    {
      cli_note_interrupted (diags);
      cli_print_diags (diags);
      return CLI_INTERRUPTED;
    }
  cli_print_diags (diags);
  if (findings == NULL)
    return CLI_BAD_PLAN;
  return report (options, scene, findings, diags);
}

/* The triangles take from a clearance what they exceed the solid by. */
static void
note_deviation (const CliOptions *options, const TrnProgramme *programme, TrnDiags *diags)
{
  double least_m = INFINITY;
  for (guint i = 0; i < programme->n_runs; i++)
    for (guint k = 0; k < programme->runs[i].n_standing; k++)
      least_m = fmin (least_m, programme->runs[i].standing[k].required_m);
  if (!(options->deviation_m > least_m / 10))
    return;
  TrnDiag *diag = trn_diags_add (diags, TRN_SEVERITY_NOTE, "cli/large-deviation", NULL);
  trn_diag_set_number (diag, "deviation", options->deviation_m, TRN_UNIT_M);
  trn_diag_set_number (diag, "required", least_m, TRN_UNIT_M);
}

CliStatus
cli_check (const CliOptions *options)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnProgramme) programme = NULL;
  CliStatus status = cli_open (options, &programme, diags);
  if (status == CLI_PASSES)
    note_deviation (options, programme, diags);
  cli_print_diags (diags);
  if (status != CLI_PASSES)
    return status;
  return check_programme_take (options, g_steal_pointer (&programme), diags);
}
