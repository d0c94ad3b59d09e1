/* sling-force.h: what slings and beams of a hoist bear, enclosed over a span of a move. */
#pragma once

#include "hook-force.h"

typedef enum
{
  TRN_SLING_TENSION,   /* N: the greatest that the leg can have */
  TRN_SLING_PUSH,      /* N: minus its least tension; above 0 it would have to push */
  TRN_SLING_FLATNESS,  /* minus the sine of its angle from the level */
  TRN_SLING_ASIDE,     /* sine of its angle from the plane square to the pin of its shackle, which
                          must be given; or TRN_SLING_LEAST_ASIDE in place of less */
  TRN_SLING_SHACKLE,   /* N: the straight pull that takes as much of its shackle as its tension does
                          with what the pull aside leaves of it */
  TRN_BEAM_COMPRESSION /* N; of the hoist's beam; index is not looked at */
} TrnSlingQuantity;

typedef struct
{
  const TrnHookForce *force;
  TrnSlingQuantity quantity;
  guint index; /* of the hoist's slings */
} TrnSlingQuestion;

/* What counts as straight (sling-rating.h), so that nobody need look closer. */
#define TRN_SLING_LEAST_ASIDE 1e-4

/* What tolerances of attitude and wind may turn a shackle by that is drawn straight, for it to
 * count as straight: common practice, no source. */
#define TRN_SLING_STRAIGHT_DEG 5.0

/* A TrnEnclosure (worst.h). */
gboolean trn_sling_force_ask (gconstpointer question, TrnInterval s, TrnInterval *value);

/* Whether there is a bound on what the load may be turned by, and its shackles with it. */
gboolean trn_sling_force_knows_turn (const TrnHookForce *force);

/* The span of a move that is to be asked about: all of it where the load tilts, else one moment,
 * since turning about the plumb line changes no angle from it and no share. */
TrnInterval trn_sling_force_span (const TrnLiftCheck *check, guint move);

/* The input that is left out, static; NULL. FALSE for @with_forces: for angles alone. */
const char *trn_sling_force_missing (const TrnHookForce *force, gboolean with_forces);
