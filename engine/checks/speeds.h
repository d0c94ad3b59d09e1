/* speeds.h: the check `speeds`: how quick the drives of the gear have to be for the moves. */
#pragma once

#include "lift-check.h"

typedef enum
{
  TRN_SPEED_LINE,   /* the rope between tip and hook, paid in or out */
  TRN_SPEED_BOOM,   /* the boom, up or down */
  TRN_SPEED_SLEW,   /* the crane */
  TRN_SPEED_TRAVEL, /* the hook of a gantry along header and runway, or a tail trolley */
} TrnSpeed;
#define TRN_N_SPEEDS (TRN_SPEED_TRAVEL + 1)

/* Whether the gear of @hoist has that drive, and the plan all that is wanted. */
gboolean trn_speed_means (const TrnLiftCheck *check, const TrnHoist *hoist, TrnSpeed speed);

/* The greatest over all moves of @hoist, with the move. A number to be looked at; out of reach,
 * which the check `reach` finds, it is a note as well. */
TrnFinding trn_speed_judge (const TrnLiftCheck *check, const TrnHoist *hoist, TrnSpeed speed);
