/* output.h: the files of results: where they may go, and writing them. */
#pragma once

#include "checks.h"
#include "cli.h"

/* Before any work is done: whether --json, --csv and --output can be what is meant. CLI_PASSES, or
 * another status with an error in @diags. */
CliStatus cli_outputs_look (const CliOptions *options, const TrnPlan *plan, TrnDiags *diags);

/* Whether an output takes standard output, so that no table may go there. */
gboolean cli_outputs_take_stdout (const CliOptions *options);

/* Writes what was asked for. FALSE with an error in @diags. */
gboolean cli_outputs_write (const CliOptions *options, const TrnScene *scene,
                            const TrnFindings *findings, TrnDiags *diags);

/* Writes @length bytes to a file, or to standard output when @path is "-"; whether they arrived
 * there is looked at by cli_finish_output. FALSE with an error in @diags. */
gboolean cli_output_write (const char *path, const char *bytes, gsize length, TrnDiags *diags);
