/* output.h: the files of results: where they may go, and writing them. */
#pragma once

#include "checks.h"
#include "cli.h"

/* Before any work is done: whether --json and --csv can be what is meant. CLI_PASSES, or another
 * status with an error in @diags. */
CliStatus cli_outputs_look (const CliOptions *options, const TrnPlan *plan, TrnDiags *diags);

/* Whether an output takes standard output, so that no table may go there. */
gboolean cli_outputs_take_stdout (const CliOptions *options);

/* Writes what was asked for. FALSE with an error in @diags. */
gboolean cli_outputs_write (const CliOptions *options, const TrnScene *scene,
                            const TrnFindings *findings, TrnDiags *diags);
