/* options.h: what was typed on the command line. */
#pragma once

#include "diag.h"

typedef struct
{
  gboolean on;
  guint axis;      /* 0: x, 1: y, 2: z */
  double offset_m; /* where it cuts that axis */
} CliSection;

typedef struct
{
  /* "check", "compare", "inspect", "open", "render" or "validate"; NULL: none */
  const char *command;
  gboolean help, version;
  const char *plan;       /* or the mesh file of "inspect", the earlier results of "compare" */
  const char *after;      /* compare: the later results */
  const char *json, *csv; /* NULL: not wanted; "-": standard output */
  const char *lift;       /* NULL: all */
  double certify_m, deviation_m; /* 0: the default */
  guint jobs;                    /* 0: one a processor */
  gboolean all, timings, places, outside_files;

  /* render */
  const char *output; /* "-": standard output */
  gboolean has_time, closest;
  double time_s;       /* from the start of the lift */
  const char *view;    /* a name that render_standard_view_from_name knows; NULL: "3d" */
  guint width, height; /* pixels; 0: the default */
  double scale;        /* 0: 1 */
  CliSection section;
  gboolean dark, clean;
} CliOptions;

/* Reads the arguments, without that of the program's name. The texts stay those of @argv. FALSE
 * with an error for everything that is wrong. */
gboolean cli_options_parse (int argc, char **argv, CliOptions *options, TrnDiags *diags);
