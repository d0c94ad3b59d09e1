/* results-compare.h: what changed between two results of one programme: a load was rebuilt, a
 * survey came in, the plan was mended.
 *
 * Findings are matched by what they are about: lift, check, index of the move, bodies, end of the
 * lift, and which of several limits. Whatever is doubtful counts as to be looked at: what is gone,
 * what is not known any more, what is met only because less is asked for. */
#pragma once

#include "results-read.h"

typedef enum
{
  TRN_DIFFER_WORSE,
  TRN_DIFFER_GONE,
  TRN_DIFFER_OTHER, /* not the same, and nothing says which of the two is better */
  TRN_DIFFER_NEW,
  TRN_DIFFER_BETTER,
  TRN_DIFFER_SAME,
} TrnDifference;
#define TRN_N_DIFFERENCES (TRN_DIFFER_SAME + 1)

typedef struct
{
  TrnDifference kind;
  /* Worse, gone, other, or new and not met or not known. */
  gboolean is_open;
  gboolean limit_changed;
  const char *lift;                 /* id */
  const TrnFinding *before, *after; /* borrowed; NULL: there is none */
  guint order;
} TrnResultsDifference;

typedef struct
{
  const TrnResultsMesh *before, *after; /* as above */
} TrnMeshChange;

typedef struct
{
  const TrnResults *before, *after; /* borrowed */
  GArray *changes;                  /* of TrnResultsDifference, worst first */
  guint counts[TRN_N_DIFFERENCES];
  guint n_open, n_limits;
  guint n_fail, n_unknown; /* of the later findings */
  gboolean plan_changed;
  GArray *meshes;         /* of TrnMeshChange: those that are not the same */
  GPtrArray *checks_gone; /* of const char *: done before, and not later */
} TrnComparison;

/* Both must live as long as what is returned. */
TrnComparison *trn_results_compare (const TrnResults *before, const TrnResults *after);
/* Whether something became worse, may have, or is no longer known. */
gboolean trn_comparison_is_open (const TrnComparison *comparison);
void trn_comparison_free (TrnComparison *comparison);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnComparison, trn_comparison_free)

/* The number by which two findings are compared, and its limit: the proven clearance, what is
 * outside a swing circle, the value of a force; NAN where it has none. */
double trn_results_measure (const TrnFinding *finding);
double trn_results_limit (const TrnFinding *finding);
/* What is left of it to the limit, tolerances taken off; negative: beyond it. */
double trn_results_in_hand (const TrnFinding *finding);
/* Whether it is a distance, for which trn_results_limit is the least. */
gboolean trn_results_is_distance (const TrnFinding *finding);
/* Whether the number has to be at least its limit, as all distances have; else it is at most that,
 * or the two are the same. */
gboolean trn_results_is_floor (const TrnFinding *finding);
