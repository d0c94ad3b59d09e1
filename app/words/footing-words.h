/* footing-words.h: what gear, and a load that is set down, stands on, in words. */
#pragma once

#include "checks.h"

/* A sentence without its full stop, owned. */
char *trn_words_footing (const TrnFinding *finding);

/* Of a load that is set down, or not yet lifted; owned. */
char *trn_words_resting (const TrnFinding *finding);

/* What to do where it falls. */
const char *trn_words_resting_advice (const TrnFinding *finding);
