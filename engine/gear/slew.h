/* slew.h: the direction of a crane's boom as an angle that does not jump.
 *
 * From the start of the move on, the direction of the hook from the slew axis is followed in spans
 * over which it stays within a quarter turn of where it was at their start: there the turn is the
 * arc tangent of cross over dot product of the two. The turns add up. */
#pragma once

#include "rig.h"

/* Value and derivatives over @s. */
gboolean trn_slew_find (const TrnRig *rig, const TrnHoist *hoist, const TrnGearPlace *place,
                        guint move, TrnInterval s, TrnJet *slew);
