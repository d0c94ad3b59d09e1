/* lift-work.h: one lift while it is checked: what its findings share, with room for all of it. */
#pragma once

#include "lift-check.h"
#include "lift-key.h"
#include "pair.h"
#include "seated.h"
#include "swing-radius.h"
#include "tail-swing.h"

/* One lift with all that its findings share. */
typedef struct
{
  TrnLiftCheck check;
  TrnSwing *swings;    /* one a move */
  TrnSeated *seated;   /* one an obstacle */
  GArray *pairs;       /* of TrnPair */
  GArray *left_out;    /* of TrnBodyPair */
  TrnTailSwing *tails; /* one a place of the rig; place NULL: it has no counterweight */
  TrnLiftKey *key;     /* trn_lift_work_set_key; NULL without a cache */
} TrnLiftWork;

void trn_lift_work_init (TrnLiftWork *work, const TrnScene *scene, guint run,
                         const TrnCheckOptions *options);
/* Once what earlier lifts left is known. */
void trn_lift_work_set_key (TrnLiftWork *work);
void trn_lift_work_clear (TrnLiftWork *work);
