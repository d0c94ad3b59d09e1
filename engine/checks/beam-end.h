/* beam-end.h: what the ends of a beam bear, and what it leans by, enclosed over a span of a move.
 */
#pragma once

#include "hook-force.h"
#include "interval-box.h"

/* What an end of the beam bears over @s: the greatest and the least, N, without the beam. */
gboolean trn_beam_end_n (const TrnHookForce *force, TrnInterval s, TrnInterval *newton);

/* What one that holds the beam by an end carries: likewise, with what it bears of the beam. */
gboolean trn_beam_upper_n (const TrnHookForce *force, TrnInterval s, TrnInterval *newton);

/* What the beam leans by with its load from where it is drawn level, at most; NAN: no bound. */
double trn_beam_leans_rad (const TrnHookForce *force);

/* The input for want of which that has no bound, static; NULL. */
const char *trn_beam_end_missing (const TrnHookForce *force);

/* A sling below a beam that hangs with its load, but not parallel to it, in axes along the beam,
 * across it and up, as both are drawn: these are in the load's frame, of length 1. */
typedef struct
{
  TrnVec3 axes[3];
  TrnBox3 way;    /* from its point to the end of the beam */
  TrnBox3 up;     /* of length 1: all ways that plumb may be */
  double off_rad; /* by how much it may be turned on its load beside what turns that */
} TrnBeamSling;

/* FALSE: it is no such sling. */
gboolean trn_beam_sling_make (const TrnHookForce *force, const TrnSling *sling, TrnInterval s,
                              TrnBeamSling *made);

/* @way of the load's frame in these axes. */
TrnBox3 trn_beam_sling_turn (const TrnBeamSling *sling, TrnVec3 way);
