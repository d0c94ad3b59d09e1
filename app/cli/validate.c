/* validate.c: `trunnion validate`: the plan alone, with every fault of it. */
#include <stdio.h>

#include "cli.h"
#include "command-words.h"
#include "places.h"

CliStatus
cli_validate (const CliOptions *options)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnPlanOptions plan_options = { .outside_files = options->outside_files };
  g_autoptr (TrnPlan) plan = trn_plan_read (options->plan, &plan_options, diags);
  g_autoptr (TrnProgramme) programme = plan != NULL ? trn_programme_play (plan, diags) : NULL;
  cli_print_diags (diags);
  if (programme == NULL)
    return CLI_BAD_PLAN;
  if (options->places)
    cli_places_print (programme);
  g_autofree char *line = trn_words_valid (plan);
  puts (line);
  return cli_finish_output (CLI_PASSES);
}
