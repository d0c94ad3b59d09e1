/* cli.h: what the commands share: exit statuses, and messages on standard error. */
#pragma once

#include "options.h"
#include "programme.h"

typedef enum
{
  CLI_PASSES = 0,
  CLI_FAILS = 1,
  CLI_WRONG_USE = 2,
  CLI_BAD_PLAN = 3,
  CLI_CANNOT_WRITE = 4,
  CLI_NO_OPENGL = 5,
  CLI_INTERRUPTED = 130,
} CliStatus;

/* Prints every diagnostic that has not been printed yet, a line each. */
void cli_print_diags (TrnDiags *diags);

/* That, and nothing of what was found wrong because of it. */
void cli_note_interrupted (TrnDiags *diags);

/* Sees to it that what went to standard output has arrived; CLI_CANNOT_WRITE with a message
 * otherwise, else @status. */
CliStatus cli_finish_output (CliStatus status);

/* Reads the plan, plays it through, and holds the options against it. CLI_PASSES with *@programme,
 * owned by the caller; else another status, NULL, and errors in @diags. */
CliStatus cli_open (const CliOptions *options, TrnProgramme **programme, TrnDiags *diags);

CliStatus cli_check (const CliOptions *options);
CliStatus cli_compare (const CliOptions *options);
CliStatus cli_inspect (const CliOptions *options);
CliStatus cli_render (const CliOptions *options);
CliStatus cli_validate (const CliOptions *options);
/* Becomes the desk; returns only where it is not there. */
CliStatus cli_start_desk (const CliOptions *options);
