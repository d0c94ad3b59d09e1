/* wind-aside.h: how far the wind of the plan takes load and hook aside during a move. */
#pragma once

#include "lift-check.h"

typedef struct
{
  double load_m;       /* any point of the load, or one that the rigging holds it by */
  double hook_m;       /* of that the main hook; 0 where it does not hold the load */
  double turned_rad;   /* what turns the load from where it is without */
  const char *missing; /* input of the plan for want of which they are NAN, static; else NULL */
} TrnWindAside;

/* Whether the load hangs in that move so that wind can take it aside: from the main hook or from
 * the tail hook alone, or from both, and not on its seat, nor on a tail trolley or a turning frame.
 */
gboolean trn_wind_aside_means (const TrnLiftCheck *check, guint move);

/* FALSE where trn_wind_aside_find() will ask for no outline of the load, else with which direction
 * of its frame plumb. */
gboolean trn_wind_aside_up (const TrnLiftCheck *check, guint move, TrnVec3 *up);

/* Beyond where lean and centre of gravity can have it, @calm_m, and tolerances, @tolerance_m. */
TrnWindAside
trn_wind_aside_find (const TrnLiftCheck *check, guint move, double calm_m, double tolerance_m);
