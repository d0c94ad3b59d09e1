/* left.h: how far what earlier lifts have moved may stand from where the plan draws it. */
#pragma once

#include "lift-check.h"

/* What the last move of that run takes off for how its load hangs: lean, box of the centre of
 * gravity, hooks out of level and wind; where it hung when the run began, what was so before if
 * that is more; NAN: there is no bound. */
double trn_left_hung (const TrnScene *scene, guint run, const TrnCheckOptions *options);

/* A proven bound for every point of the mesh of @obstacle, over the whole lift: 0 for what no lift
 * has moved. On a seat it is the slack of the lift that set it down (programme.h). What hangs on
 * its hook goes as much more as it may hang otherwise than at the end of its lift: @hung_m, one a
 * run. NAN: there is no bound, or another component has taken its place there, whose hanging
 * nobody has looked at. */
double trn_left_off (const TrnLiftCheck *check, guint obstacle, const double *hung_m);

/* Whether that may be more than 0. */
gboolean trn_left_means (const TrnLiftCheck *check, guint obstacle);

/* Whether the gear of that name holds something that earlier lifts left on its hook, also where it
 * was removed there, or held the load of this lift when it began and does not lift it. */
gboolean trn_left_holds (const TrnLiftCheck *check, const char *gear);
