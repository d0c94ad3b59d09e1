/* on-rope.h: in which moves the load hangs from ropes, so that wind, or how it is started and
 * stopped, can take it aside. */
#pragma once

#include "lift-check.h"

typedef enum
{
  TRN_ON_ROPE_NOT, /* on its seat, on a tail trolley or in a turning frame, or guided */
  TRN_ON_ROPE_MAIN,
  TRN_ON_ROPE_TAIL,
  TRN_ON_ROPE_BOTH,
} TrnOnRope;

TrnOnRope trn_on_rope (const TrnLiftCheck *check, guint move);

/* Of the rope between tip and hook over @span of the move; none with what is missing. */
TrnInterval trn_on_rope_length (const TrnLiftCheck *check, guint move, const TrnHoist *hoist,
                                TrnInterval span, const char **missing);
