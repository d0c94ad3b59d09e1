/* rows.h: the lines of the table of findings, in their order: what fails, what is not known,
 * clearances that are met, those that are met once the load has left its seat, what is to be looked
 * at and the other checks. */
#pragma once

#include "checks.h"
#include "command-words.h"
#include "words.h"

typedef struct
{
  const TrnFinding *finding;
  const TrnLiftRun *run;
  double margin_m; /* NAN: none, or not known */
  guint order;
  guint cause, near_cause;    /* numbers; see cli_row_same_cause; 0: none */
  gboolean is_repeated;       /* a line before it, of that check, is not known for the same cause */
  char *cells[TRN_N_COLUMNS]; /* owned */
} CliRow;

/* As trn_words_rank; in a table nothing is tight. */
TrnRank cli_row_rank (const TrnFinding *finding);
/* Whether it is a distance over time, less what tolerances take off. */
gboolean cli_row_is_clearance (const TrnFinding *finding);
/* Whether its columns say a value and its limit instead of a distance and what is to be kept. */
gboolean cli_row_has_value (const TrnFinding *finding);
/* What tolerances take off; NAN where they do not come into it. */
double cli_row_allowance_m (const TrnFinding *finding);
/* Whether both are not known for want of the same, or of one part of the gear nothing is. */
gboolean cli_row_same_cause (const CliRow *a, const CliRow *b);
/* Of CliRow, sorted. */
GArray *cli_rows_new (const TrnScene *scene, const TrnFindings *findings);
