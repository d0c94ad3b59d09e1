/* beam-hang.h: where a load turns that hangs by slings below a beam. */
#pragma once

#include "box.h"
#include "plan.h"
#include "pose.h"

/* TRUE where slings go from the beam of @hoist to points of the load: then @point is the point of
 * the load, in its frame, that it leans about, as if it hung by that alone. @hook_point is the one
 * that the hook is @above_m plumb above in the attitude @drawn; @above_m may be NAN. */
gboolean trn_beam_hang_point (const TrnHoist *hoist, TrnVec3 hook_point, double above_m,
                              const TrnRotation *drawn, TrnVec3 cog, TrnVec3 *point);

/* How far @point may be aside as the load leans by up to @rad about what is above it, but not above
 * the hook, @hook_above_m above it, with its centre of gravity anywhere in @cog (free-hang.c); 0
 * where there is nothing above it. */
double trn_beam_hang_aside (const TrnBox *cog, TrnVec3 point, double hook_above_m,
                            const TrnRotation *drawn, double rad);

/* How far the load may sink as slings below a beam that are drawn off plumb come to hang plumb; 0
 * where @above_m is not finite. */
double trn_beam_hang_sink (const TrnHoist *hoist, TrnVec3 hook_point, double above_m,
                           const TrnRotation *drawn);
