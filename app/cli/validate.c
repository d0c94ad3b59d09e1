/* validate.c: `trunnion validate`: the plan and its mesh files, with every fault of them, and of
 * each file what was found in it. The scene is made as for a check, so that nothing that keeps one
 * from being made stays unsaid; nothing is checked. */
#include <stdio.h>

#include "cli.h"
#include "file-words.h"
#include "places.h"
#include "watch.h"

static void
print_files (const TrnScene *scene)
{
  g_autoptr (GPtrArray) meshes = trn_scene_meshes_list (scene);
  for (guint i = 0; i < meshes->len; i++)
    {
      const TrnSceneMesh *mesh = meshes->pdata[i];
      g_autofree char *line = trn_words_file_line (mesh->source, mesh->report);
      puts (line);
    }
}

/* Takes the programme. NULL where the scene cannot be made, or was not. */
static TrnScene *
build_take (const CliOptions *options, TrnProgramme *programme, gboolean *interrupted,
            TrnDiags *diags)
{
  CliWatch *watch = cli_watch_start ();
  TrnSceneOptions scene_options = { .jobs = options->jobs, .progress = cli_watch_progress (watch) };
  TrnScene *scene = trn_scene_build_take (programme, &scene_options, diags);
  *interrupted = cli_watch_stop (watch);
  return scene;
}

CliStatus
cli_validate (const CliOptions *options)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnPlanOptions plan_options = { .outside_files = options->outside_files };
  g_autoptr (TrnPlan) plan = trn_plan_read (options->plan, &plan_options, diags);
  TrnProgramme *programme = plan != NULL ? trn_programme_play (plan, diags) : NULL;
  guint n_warnings = trn_diags_count (diags, TRN_SEVERITY_WARNING);
  cli_print_diags (diags);
  if (programme == NULL)
    return CLI_BAD_PLAN;
  gboolean interrupted;
  g_autoptr (TrnScene) scene = build_take (options, programme, &interrupted, diags);
  if (interrupted)
    cli_note_interrupted (diags);
  n_warnings += trn_diags_count (diags, TRN_SEVERITY_WARNING);
  cli_print_diags (diags);
  if (interrupted)
    return CLI_INTERRUPTED;
  if (scene == NULL)
    return CLI_BAD_PLAN;
  if (options->places)
    cli_places_print (scene->programme);
  print_files (scene);
  g_autofree char *line = trn_words_valid (plan, n_warnings);
  puts (line);
  return cli_finish_output (CLI_PASSES);
}
