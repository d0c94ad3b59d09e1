/* seat.h: the check `seat`: whether the load rests where the plan says that it does. */
#pragma once

#include "seated.h"

/* One finding for a seat at one end of the lift. @seated: one entry for each obstacle. Raised by
 * the seat's fit the load must be clear of the seat, lowered by it it must touch it. */
TrnFinding
trn_seat_judge (const TrnLiftCheck *check, guint seat, gboolean at_end, const TrnSeated *seated);
