/* short-words.h: why a clearance is short, where it is what is taken off. */
#pragma once

#include "finding.h"

/* "Short by 2.3 m: starting, stopping and slewing take 2.9 m off. Move it …"; @missing is what is
 * short, in words. Owned by the caller; NULL where nothing that is taken off is to
 * blame, and it is no gear that is too near as drawn. */
char *trn_words_short_because (const TrnFinding *finding, const char *missing);
