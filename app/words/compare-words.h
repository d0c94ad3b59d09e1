/* compare-words.h: what changed between two results, in words. As in words.h. */
#pragma once

#include "results-compare.h"

/* "Before: old.json, of “A tank out of a pit” (tank.trunnion), by trunnion 0.1.0" */
char *trn_words_compare_before (const TrnComparison *comparison);
char *trn_words_compare_after (const TrnComparison *comparison);
/* Lines: whether plan and meshes are others, which checks are no longer done, whether limits were
 * changed. */
char *trn_words_compare_context (const TrnComparison *comparison);
/* "worse · out, move 2: load – mast: meets → SHORT", and below it, indented, the numbers. */
char *trn_words_compare_line (const TrnResultsDifference *difference);
/* How many became what, and what the later results come to. */
char *trn_words_compare_headline (const TrnComparison *comparison);
