/* table-words.h: what the desk's table and matrix of findings say. */
#pragma once

#include "words.h"

/* Fixed texts, borrowed. */
typedef enum
{
  TRN_TABLE_SEARCH,
  TRN_TABLE_ALL,
  TRN_TABLE_OPEN_ONES, /* only what falls short or is not known */
  TRN_TABLE_CLEARANCES,
  TRN_TABLE_GEAR,
  TRN_TABLE_SHOWN, /* accessible name of that choice */
  TRN_TABLE_EMPTY,
  TRN_TABLE_FILLING, /* the findings are there, their lines not yet */
  TRN_TABLE_NOTHING_FOUND,
  TRN_TABLE_COPY,
  TRN_TABLE_COPIED,
  TRN_TABLE_EXPORT_CSV,
  TRN_TABLE_EXPORT_JSON,
  TRN_TABLE_FINDINGS,
  TRN_TABLE_MATRIX,
  TRN_TABLE_MATRIX_HINT,
  TRN_TABLE_SHOW_ALL,
  TRN_TABLE_SHOW_ALL_HINT,
  TRN_TABLE_STRUCTURE,
  TRN_TABLE_OTHER_CHECKS, /* the row of the matrix for all that are not clearances */
  TRN_TABLE_VALUE,        /* headings: clearances, and whatever else has a limit */
  TRN_TABLE_LIMIT,
  TRN_N_TABLE_TEXTS,
} TrnTableText;

const char *trn_words_table (TrnTableText text);
/* "All 12 rows are listed." or, of fewer, which ones are not and where those are told. */
char *trn_words_matrix_rows (guint n_listed, guint n_all);
/* "Checking … 42 %", of a fraction. */
char *trn_words_checking (double done);
/* "Workshop, canopy, move 3: Short by 0.18 m": what a screen reader says of a cell; a @move that is
 * negative is none of its own, but all of the lift. */
char *trn_words_table_cell (const char *obstacle, int move, const char *says);
/* "Written: /plans/gate.csv" */
char *trn_words_table_written (const char *path);
