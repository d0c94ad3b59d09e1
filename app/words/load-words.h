/* load-words.h: what the desk says of values beside their limits, and of forces at a moment.
 *
 * As in words.h: new strings are owned by the caller, names are made fit to be shown. */
#pragma once

#include "words.h"

/* What a finding says of its body: "capacity", "tension"; borrowed; NULL where the name of what it
 * comes close to says all. */
const char *trn_words_topic (const TrnFinding *finding);

/* "Crane north (capacity)"; @body alone where there is no topic. */
char *trn_words_with_topic (const char *body, const TrnFinding *finding);

/* Value and limit of a finding with their unit, for cells; "–" where there is none. The value is
 * rounded up and the limit down, or the other way where the value must not be less. */
char *trn_words_value_cell (const TrnFinding *finding);
char *trn_words_limit_cell (const TrnFinding *finding);

/* "load 12.6 t, block 0.6 t": what a value is made of, or what belongs to it; NULL: nothing. */
char *trn_words_numbers (const TrnFinding *finding);
/* "82.5 % of the limit"; NULL where there is none. */
char *trn_words_utilisation (const TrnFinding *finding);
/* "From: 0027/ND Rev 11.2, Table 5-1"; NULL where no source is named. */
char *trn_words_source (const TrnFinding *finding);

/* "Hangs 0.8° off as drawn"; NULL where it does not. */
char *trn_words_hangs_off (double lean_rad);
