/* plan-run.h: what the tests with random plans share: many plans at once, each from its text to its
 * findings, and counts of what was met. */
#pragma once

#include "checks.h"

typedef struct
{
  TrnScene *scene;
  TrnFindings *findings;
} PlanRun;

/* The plan of @json, whose mesh files lie in @folder, with one thread. @name tells which plan it is
 * where it cannot be read; then the test ends. */
PlanRun plan_run (const char *json, const char *name, const char *folder);
void plan_run_clear (PlanRun *run);

/* The results file; owned. */
char *plan_run_to_json (const PlanRun *run, gsize *length);

/* The same bytes with one thread and with @jobs. */
void plan_run_judge_threads (const PlanRun *run, const char *name, guint jobs);

/* Of one kind of what is counted. */
typedef struct
{
  const char *name;
  guint kind;
  gint least; /* in a run of usual size */
} PlanTally;

/* Tells what was counted, and that it was enough where @is_whole: a run of usual size. */
void plan_tally_judge (const gint *counts, const PlanTally *kinds, guint n, gboolean is_whole);
