/* output.c: a results file must never take the place of the plan or of one of its meshes, nor of a
 * device: it is renamed into place, and what was there would be gone. */
#include "output.h"

#include <glib/gstdio.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "results.h"
#include "write-file.h"

static gboolean
is_stdout (const char *path)
{
  return path != NULL && strcmp (path, "-") == 0;
}

gboolean
cli_outputs_take_stdout (const CliOptions *options)
{
  return is_stdout (options->json) || is_stdout (options->csv);
}

static CliStatus
refuse (TrnDiags *diags, CliStatus status, const char *code, const char *path)
{
  TrnDiag *diag = trn_diags_add (diags, TRN_SEVERITY_ERROR, code, NULL);
  trn_diag_set_text (diag, "file", path);
  return status;
}

static CliStatus
look_at_one (const char *path, const TrnPlan *plan, TrnDiags *diags)
{
  if (path == NULL || is_stdout (path))
    return CLI_PASSES;
  if (trn_plan_reads (plan, path))
    return refuse (diags, CLI_WRONG_USE, "cli/output-is-input", path);
  GStatBuf status;
  if (g_stat (path, &status) == 0 && !S_ISREG (status.st_mode))
    return refuse (diags, CLI_CANNOT_WRITE, "cli/not-a-file", path);
  g_autofree char *folder = g_path_get_dirname (path);
  if (!g_file_test (folder, G_FILE_TEST_IS_DIR) || g_access (folder, W_OK) != 0)
    return refuse (diags, CLI_CANNOT_WRITE, "cli/no-folder", folder);
  return CLI_PASSES;
}

CliStatus
cli_outputs_look (const CliOptions *options, const TrnPlan *plan, TrnDiags *diags)
{
  if (options->json != NULL && options->csv != NULL)
    {
      if (is_stdout (options->json) && is_stdout (options->csv))
        return refuse (diags, CLI_WRONG_USE, "cli/same-output", "-");
      if (!cli_outputs_take_stdout (options) && trn_is_same_file (options->json, options->csv))
        return refuse (diags, CLI_WRONG_USE, "cli/same-output", options->json);
    }
  CliStatus json = look_at_one (options->json, plan, diags);
  CliStatus csv = json == CLI_PASSES ? look_at_one (options->csv, plan, diags) : json;
  return csv == CLI_PASSES ? look_at_one (options->output, plan, diags) : csv;
}

gboolean
cli_output_write (const char *path, const char *bytes, gsize length, TrnDiags *diags)
{
  if (is_stdout (path))
    {
      /* Whether it arrived is looked at when all is done. */
      fwrite (bytes, 1, length, stdout);
      return TRUE;
    }
  return trn_write_file (path, bytes, length, diags);
}

gboolean
cli_outputs_write (const CliOptions *options, const TrnScene *scene, const TrnFindings *findings,
                   TrnDiags *diags)
{
  gsize length;
  gboolean written = TRUE;
  if (options->json != NULL)
    {
      g_autofree char *json = trn_results_to_json (scene, findings, TRN_PROGRAM, &length);
      written = cli_output_write (options->json, json, length, diags);
    }
  if (options->csv != NULL)
    {
      g_autofree char *csv = trn_results_to_csv (scene, findings, &length);
      written = cli_output_write (options->csv, csv, length, diags) && written;
    }
  return written;
}
