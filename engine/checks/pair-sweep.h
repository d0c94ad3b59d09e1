/* pair-sweep.h: one way of asking the sweep about the load and about a part of the gear. */
#pragma once

#include "limb-sweep.h"
#include "pair.h"

/* A part of the gear whose corners are kept for other pairs that ask for the same spans. */
typedef struct
{
  TrnRigLimb store;
  TrnLimb asked;
  TrnSpanMemo *memo;
  TrnInterval part; /* of a limb of two corners, from the first on: what is asked about */
} TrnPairLimb;

/* Borrows from itself: it stays where it was initialised. */
typedef struct
{
  const TrnLiftCheck *check;
  guint move;
  gboolean is_limb; /* one of them is a part of the gear */
  gboolean
      is_other; /* the limb is the other of the pair: that of the load and a part of the gear */
  TrnSweepPair load; /* the load past what stands */
  TrnLimbPair limb;
  TrnLimb limbs[2];
  TrnPairLimb kept[2];
} TrnPairSweep;

void trn_pair_sweep_init (TrnPairSweep *sweep, const TrnLiftCheck *check, const TrnPair *pair,
                          guint move);

/* The part of the move that is asked about; all of it after init. */
TrnInterval trn_pair_sweep_get_span (const TrnPairSweep *sweep);
void trn_pair_sweep_set_span (TrnPairSweep *sweep, TrnInterval span);

/* Of each body of the pair that is a part of the gear with two corners only @parts of the way from
 * the first to the second: what is between these two points, as thick. */
void trn_pair_sweep_cut (TrnPairSweep *sweep, const TrnInterval parts[2]);

/* As trn_sweep_minimum, with options of the check; on_body is on the body of the pair. */
TrnSweepResult trn_pair_sweep_minimum (const TrnPairSweep *sweep, double width_m, double far_m);
/* As trn_sweep_contacts, as fine as the results ask for. @spans must be empty. */
gboolean trn_pair_sweep_contacts (const TrnPairSweep *sweep, GArray *spans);
/* How fine that is. */
double trn_pair_sweep_resolution (const TrnPairSweep *sweep);
