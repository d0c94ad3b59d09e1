/* unhung.h: what depends on how a load hangs, or on where one was left, where that is not known. */
#pragma once

#include "lift-check.h"

/* To be called with all findings of the lift. */
void trn_unhung_doubt (const TrnLiftCheck *check, TrnLiftFindings *findings);
