/* start-desk.c: `trunnion open`: this process becomes the desk.
 *
 * Looked for beside this program, then where a build has it, then on the path, so that a program of
 * one version does not start a desk of another. */
#include <errno.h>
#include <string.h>
#include <unistd.h>

#include <gio/gio.h>

#include "cli.h"

#define DESK "trunnion-desk"

CliStatus
cli_start_desk (const CliOptions *options)
{
  g_autofree char *self = g_file_read_link ("/proc/self/exe", NULL);
  g_autofree char *folder = g_path_get_dirname (self != NULL ? self : "/");
  g_autofree char *beside = g_build_filename (folder, DESK, NULL);
  g_autofree char *of_build = g_build_filename (folder, "..", "desk", DESK, NULL);
  /* A name that begins with a dash must not become an option. */
  g_autoptr (GFile) file = g_file_new_for_commandline_arg (options->plan);
  g_autofree char *path = g_file_get_path (file);
  char *argv[] = { (char *)DESK, path != NULL ? path : (char *)options->plan, NULL };
  execv (beside, argv);
  execv (of_build, argv);
  execvp (DESK, argv);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnDiag *diag = trn_diags_add (diags, TRN_SEVERITY_ERROR, "cli/no-desk", NULL);
  trn_diag_set_text (diag, "reason", g_strerror (errno));
  cli_print_diags (diags);
  return CLI_WRONG_USE;
}
