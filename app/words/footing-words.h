/* footing-words.h: what gear stands on, in words. */
#pragma once

#include "checks.h"

/* A sentence without its full stop, owned. */
char *trn_words_footing (const TrnFinding *finding);
