/* beam-end.h: what the ends of a beam bear, and what it leans by, enclosed over a span of a move.
 */
#pragma once

#include "hook-force.h"

/* What an end of the beam bears over @s: the greatest and the least, N, without the beam. */
gboolean trn_beam_end_n (const TrnHookForce *force, TrnInterval s, TrnInterval *newton);

/* What one that holds the beam by an end carries: likewise, with what it bears of the beam. */
gboolean trn_beam_upper_n (const TrnHookForce *force, TrnInterval s, TrnInterval *newton);

/* What the beam leans by with its load from where it is drawn level, at most; NAN: no bound. */
double trn_beam_leans_rad (const TrnHookForce *force);

/* The input for want of which that has no bound, static; NULL. */
const char *trn_beam_end_missing (const TrnHookForce *force);
