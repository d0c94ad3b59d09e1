/* gear-words.h: what the checks of gear found. As in words.h. */
#pragma once

#include "words.h"

/* "Not known: the plan leaves out hook_to_tip": of a finding that names what is missing. */
char *trn_words_missing (const TrnFinding *finding);

/* The sentence of a finding of headroom, reach, tail swing or rigging. */
char *trn_words_gear_finding (const TrnFinding *finding);

/* That of a finding of approach, from what it says as a clearance. */
char *trn_words_approach (const TrnFinding *finding, const char *clearance);

/* What the finding is about where that is no clearance: "headroom", "boom angle", "sling: angle";
 * NULL for another. */
char *trn_words_subject (const TrnFinding *finding);

/* @name with that: "Main crane (headroom)", "shaft/floor (seat)". */
char *trn_words_with_subject (const char *name, const TrnFinding *finding);

/* A row's name of a finding that is about nothing that has one. */
#define TRN_WORDS_NO_NAME "–"

/* A row's name of what a finding is between: of @body (NULL: the load, which need not be said) and
 * @obstacle (NULL: none), with the subject; "–" where there is nothing to say. */
char *
trn_words_with_subject_of_both (const char *body, const char *obstacle, const TrnFinding *finding);
