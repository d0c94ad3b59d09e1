/* open.c: how every command that looks at lifts begins: the plan is read and played through, and
 * the options are held against it, before anything that takes long. */
#include <string.h>

#include "cli.h"
#include "output.h"

static gboolean
has_lift (const TrnPlan *plan, const char *id)
{
  for (guint i = 0; i < plan->n_lifts; i++)
    if (strcmp (plan->lifts[i].id, id) == 0)
      return TRUE;
  return FALSE;
}

/* What the command line says about this plan; CLI_PASSES when it fits. */
static CliStatus
look_at_options (const CliOptions *options, const TrnPlan *plan, TrnDiags *diags)
{
  if (options->lift != NULL && !has_lift (plan, options->lift))
    {
      TrnDiag *diag = trn_diags_add (diags, TRN_SEVERITY_ERROR, "cli/no-lift", NULL);
      trn_diag_set_text (diag, "lift", options->lift);
      return CLI_WRONG_USE;
    }
  return cli_outputs_look (options, plan, diags);
}

CliStatus
cli_open (const CliOptions *options, TrnProgramme **programme, TrnDiags *diags)
{
  TrnPlanOptions plan_options = { .outside_files = options->outside_files };
  g_autoptr (TrnPlan) plan = trn_plan_read (options->plan, &plan_options, diags);
  *programme = plan != NULL ? trn_programme_play (plan, diags) : NULL;
  if (*programme == NULL)
    return CLI_BAD_PLAN;
  CliStatus status = look_at_options (options, plan, diags);
  if (status != CLI_PASSES)
    g_clear_pointer (programme, trn_programme_free);
  return status;
}
