/* wind-check.h: the check `wind`: what the wind of the plan does to a load, and what wind a crane
 * may lift it in. */
#pragma once

#include "hook-force.h"

/* That the hull of the load may show, since points of it may be off (TrnBody). */
double trn_wind_more_area (const TrnLiftCheck *check);

/* Of its hull, whichever way it is seen: quick, and a proven bound. */
double trn_wind_any_way_area (const TrnLiftCheck *check);

/* "force": N on the load, over all attitudes of the lift; "sway": m, how far a point of the load
 * goes aside where it hangs. Numbers to be looked at. */
TrnFinding trn_wind_force_judge (const TrnLiftCheck *check);
TrnFinding trn_wind_sway_judge (const TrnLiftCheck *check);

/* "speed": the wind of the plan beside the wind that the crane of @hoist allows for this load. */
TrnFinding trn_wind_speed_judge (const TrnLiftCheck *check, const TrnHoist *hoist);
