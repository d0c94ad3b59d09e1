/* beam-hang.h: where a load turns that hangs by slings below a beam. */
#pragma once

#include "plan.h"
#include "pose.h"

/* TRUE where slings go from the beam of @hoist to points of the load: then @point is the point of
 * the load, in its frame, that it leans about, as if it hung by that alone. @hook_point is the one
 * that the hook is @above_m plumb above in the attitude @drawn; @above_m may be NAN. */
gboolean trn_beam_hang_point (const TrnHoist *hoist, TrnVec3 hook_point, double above_m,
                              const TrnRotation *drawn, TrnVec3 cog, TrnVec3 *point);
