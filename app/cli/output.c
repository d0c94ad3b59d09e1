/* output.c: a results file must never take the place of the plan or of one of its meshes, nor of a
 * device: it is renamed into place, and what was there would be gone. */
#include "output.h"

#include <glib/gstdio.h>
#include <stdio.h>
#include <stdlib.h>
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

/* The folder of a file with every link in it followed, then the name: two paths of a file that does
 * not exist yet come out the same. */
static char *
settle_path (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *name = g_path_get_basename (path);
  char *real = realpath (folder, NULL);
  char *settled = g_build_filename (real != NULL ? real : folder, name, NULL);
  free (real);
  return settled;
}

static gboolean
is_same_file (const char *a, const char *b)
{
  GStatBuf of_a, of_b;
  if (g_stat (a, &of_a) == 0 && g_stat (b, &of_b) == 0)
    return of_a.st_dev == of_b.st_dev && of_a.st_ino == of_b.st_ino;
  g_autofree char *settled_a = settle_path (a);
  g_autofree char *settled_b = settle_path (b);
  return strcmp (settled_a, settled_b) == 0;
}

static gboolean
is_mesh_of (const TrnShape *shape, const char *path)
{
  return shape->mesh != NULL && shape->mesh->path != NULL && is_same_file (shape->mesh->path, path);
}

static gboolean
is_input (const TrnPlan *plan, const char *path)
{
  if (is_same_file (plan->file, path))
    return TRUE;
  for (guint i = 0; i < plan->n_structures; i++)
    if (is_mesh_of (&plan->structures[i].shape, path))
      return TRUE;
  for (guint i = 0; i < plan->n_components; i++)
    if (is_mesh_of (&plan->components[i].shape, path))
      return TRUE;
  return FALSE;
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
  if (is_input (plan, path))
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
      if (!cli_outputs_take_stdout (options) && is_same_file (options->json, options->csv))
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
