/* options.h: what was typed on the command line. */
#pragma once

#include "diag.h"

typedef struct
{
  const char *command; /* "check" or "validate"; NULL: none */
  gboolean help, version;
  const char *plan;
  const char *json, *csv;        /* NULL: not wanted; "-": standard output */
  const char *lift;              /* NULL: all */
  double certify_m, deviation_m; /* 0: the default */
  guint jobs;                    /* 0: one a processor */
  gboolean all, timings, outside_files;
} CliOptions;

/* Reads the arguments, without that of the program's name. The texts stay those of @argv. FALSE
 * with an error for everything that is wrong. */
gboolean cli_options_parse (int argc, char **argv, CliOptions *options, TrnDiags *diags);
