/* cause-words.h: with what it lies that a finding fails, or that something is missing. */
#pragma once

#include "words.h"

/* What is not known for what holds a load on two hooks, or covers it too little, with the point or
 * beam and its numbers; NULL: nothing more is told than what is missing. Owned. */
char *trn_words_cause_lean (const TrnFinding *finding);
/* What the mass is left out of, as "mass of sling a, and of 1 more"; NULL: that is not told. Owned.
 */
char *trn_words_cause_mass (const TrnFinding *finding);

/* Of a crane that the lift does not use; NULL: that is not told. Owned. */
char *trn_words_cause_park (const TrnFinding *finding);
/* Why no length of a sling fits, or which does, as a sentence; NULL: that of this move does. Owned.
 */
char *trn_words_cause_length (const TrnFinding *finding);
/* Which support or leg lifts off, where, and by how much. Owned. */
char *trn_words_cause_lifted (const TrnFinding *finding);
/* What to do where a hook goes slack. */
const char *trn_words_cause_slack_advice (const TrnFinding *finding);
/* @says with what seems to lack in the seats, if that is the cause. Takes @says; owned. */
char *trn_words_cause_stands (const TrnFinding *finding, char *says);
/* What is short of the tail hook by @missing, and what to do; NULL: it is another cause. Owned. */
char *trn_words_cause_tail (const TrnFinding *finding, const char *missing);
/* @says with from when on that is so. Takes @says; owned. */
char *trn_words_cause_from (const TrnFinding *finding, char *says);
gboolean trn_words_cause_is (const TrnFinding *finding, const char *why);
/* Of what it is not known, in a word or two: "wind". Owned. */
char *trn_words_cause_short (const TrnFinding *finding);
