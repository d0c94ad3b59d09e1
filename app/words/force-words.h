/* force-words.h: what the checks of forces found, in words. As in words.h. */
#pragma once

#include "words.h"

/* A number of the results with its unit: masses as masses, forces in kN, pressures in kPa; four
 * digits, rounded up or down. */
char *trn_words_force (double value, TrnUnit unit, gboolean up);

/* "hook load", "slings: angle": what a finding of forces is about; NULL for another. */
char *trn_words_force_subject (const TrnFinding *finding);

/* "82.5 %": of a share, rounded up. */
char *trn_words_share (double share);

/* At which angles of its move a finding of load share has its greatest and its least; NULL: it is
 * of no tilt, or of another check. */
char *trn_words_share_when (const TrnFinding *finding);

/* The sentence of a finding of hook load, capacity, load share, slings, ground, wind or resting
 * stability; of one that fails with what to do. */
char *trn_words_force_finding (const TrnFinding *finding);
/* The same without what to do. */
char *trn_words_force_bare (const TrnFinding *finding);
