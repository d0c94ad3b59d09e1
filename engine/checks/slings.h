/* slings.h: the check `slings`: what each sling, shackle and beam bears in a move, beside its
 * working load limit, and how flat each leg is. */
#pragma once

#include "sling-force.h"

typedef enum
{
  TRN_SLINGS_TENSION, /* of a sling */
  TRN_SLINGS_ANGLE,
  TRN_SLINGS_SHACKLE,
  TRN_SLINGS_COMPRESSION, /* of the beam, as all that follow */
  TRN_SLINGS_MOMENT,
  TRN_SLINGS_BEAM_LOAD,
} TrnSlingsItem;
#define TRN_N_SLINGS_ITEMS (TRN_SLINGS_BEAM_LOAD + 1)

/* Whether there is such a finding: of shackles that are given, of a beam, and
 * of what it carries where its limit is given. @index: of the sling; 0 of the beam. */
gboolean trn_slings_has (const TrnHoist *hoist, TrnSlingsItem item, guint index);

/* What the beam bears over @s: compression, N, bending moment, N m, or the load on it, N. @item:
 * one of the three. FALSE where there is no such value. */
gboolean trn_slings_beam_ask (const TrnHookForce *force, TrnSlingsItem item, TrnInterval s,
                              TrnInterval *value);

TrnFinding trn_slings_judge (const TrnLiftCheck *check, const TrnHoist *hoist, guint move,
                             TrnSlingsItem item, guint index);
