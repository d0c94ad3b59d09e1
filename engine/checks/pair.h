/* pair.h: two bodies of a lift between which a clearance is asked for, one of which moves: who they
 * are, what is to be kept between them, and how far tolerances take them toward each other. */
#pragma once

#include "lift-check.h"

#define TRN_BODY_LOAD G_MAXUINT

typedef struct
{
  guint body;            /* of the rig; TRN_BODY_LOAD */
  gboolean other_stands; /* other is an obstacle, else a body of the rig */
  guint other;
  const TrnHoist *holder; /* in whose moves the two are connected, and no pair; NULL: none */
} TrnPair;

/* All pairs of the lift, in their fixed order: the load past what stands, then past what moves;
 * each moving body of the gear past what stands, then past those after it. Pairs that are connected
 * go into @left_out (of TrnBodyPair) instead, which may be NULL, and those that are so in some
 * moves into both. Owned by the caller. */
GArray *trn_pairs_list (const TrnLiftCheck *check, GArray *left_out);

/* Whether both are there in that move. */
gboolean trn_pair_is_there (const TrnLiftCheck *check, const TrnPair *pair, guint move);
/* And not connected. */
gboolean trn_pair_is_loose (const TrnLiftCheck *check, const TrnPair *pair, guint move);

const char *trn_body_id (const TrnLiftCheck *check, guint body);
const char *trn_pair_other_id (const TrnLiftCheck *check, const TrnPair *pair);

/* The clearance to be kept. */
double trn_pair_required (const TrnLiftCheck *check, const TrnPair *pair);
/* What tolerances take off during that move; NAN where there is no bound. */
double trn_pair_allowance (const TrnLiftCheck *check, const TrnPair *pair, guint move);
/* What that is the sum of, without parts that are 0; NULL where all are. Owned by the caller. */
GArray *trn_pair_allowance_parts (const TrnLiftCheck *check, const TrnPair *pair, guint move);

/* Whether both ends of @body, which has two, are not off by the same. */
gboolean trn_pair_ends_differ (const TrnLiftCheck *check, guint body, guint move);
/* As both above, of the points that are those shares along both bodies, where they have two ends.
 * @all_m: what the parts are to sum up to, of which what moves has what is more than what stands
 * and mesh files are off by. */
double trn_pair_allowance_at (const TrnLiftCheck *check, const TrnPair *pair, guint move,
                              const double shares[2]);
GArray *trn_pair_allowance_parts_at (const TrnLiftCheck *check, const TrnPair *pair, guint move,
                                     const double shares[2], double all_m);
/* What of it is no matter of what moves. */
double trn_pair_stands_off (const TrnLiftCheck *check, const TrnPair *pair);

/* The input of the plan that one of them lacks to have a place throughout that move; "reach" where
 * nothing is left out and a hook is beyond the reach of its boom; NULL where neither is so. */
const char *trn_pair_missing (const TrnLiftCheck *check, const TrnPair *pair, guint move);
/* The input for want of which tolerances have no bound there; NULL: none that is known. */
const char *trn_pair_off_missing (const TrnLiftCheck *check, const TrnPair *pair, guint move);
