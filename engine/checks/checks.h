/* checks.h: every check over a whole scene. */
#pragma once

#include "finding.h"
#include "scene.h"

typedef struct
{
  double certify_m;      /* 0: TRN_CERTIFY_M */
  guint jobs;            /* 0: one a processor */
  const char *lift;      /* only this one; NULL: all */
  guint64 max_steps;     /* of one sweep; 0: the default */
  TrnProgress *progress; /* may be NULL */
  /* What was worked out before is taken from here; the findings are the same. May be NULL. */
  TrnCache *cache;
  /* Nothing that is taken off is asked for, only forces of a moment; not for trn_checks_run. */
  gboolean as_drawn;
} TrnCheckOptions;

/* Judges the scene. Never fails: what could not be computed is a finding that says unknown. The
 * same for any number of jobs. Of a scene that leaves structures out nothing passes: what does not
 * fail is unknown. */
TrnFindings *trn_checks_run (const TrnScene *scene, const TrnCheckOptions *options);

/* The checks that are done of @plan: those of gear only where there is some, that of approach also
 * where a rule is chosen, that of rigging also where a lift has some. */
guint trn_checks_of_plan (const TrnPlan *plan);
