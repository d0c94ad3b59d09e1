/* left.h: how far what earlier lifts have moved may stand from where the plan draws it. */
#pragma once

#include "lift-check.h"

/* A proven bound for every point of the mesh of @obstacle, over the whole lift: 0 for what no lift
 * has moved. On a seat it is the slack of the lift that set it down (programme.h). What hangs on
 * its hook goes all of what the last move of that lift takes off for how its load hangs, too: lean,
 * box of the centre of gravity, hooks out of level and wind. NAN: there is no bound, or another
 * component has taken its place there, whose hanging nobody has looked at. */
double trn_left_off (const TrnLiftCheck *check, guint obstacle);

/* Whether that may be more than 0. */
gboolean trn_left_means (const TrnLiftCheck *check, guint obstacle);
