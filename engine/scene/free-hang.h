/* free-hang.h: lifts whose load hangs free: their attitude follows from the centre of gravity.
 *
 * A load leans where the main hook alone holds it and no tilt guides it. The lean is the least turn
 * from the drawn attitude that brings the centre of gravity plumb below the hook: about the hook
 * point of the lift, or, with slings of known length from the hook to points of the load, as those
 * legs hold it. The hook goes the way that was drawn.
 *
 * Where the load leaves or reaches a seat, and where a tilt or a tail hook guides it, the motion
 * stays as drawn. The lean comes and goes there, so what it can take a point of the load from the
 * drawn place is told for the allowance. The pose therefore jumps between two moves of which one
 * leans and the other does not; a moment at the border belongs to the later move. */
#pragma once

#include "programme.h"

/* Likewise (programme.h): two of its legs are too short to meet on one hook. */
#define TRN_HANG_SHORT "hang/short"

/* Tells how the load hangs in each move of @run, whose motions and rig are those of the drawn
 * attitude, and changes motions, rig and end where it leans. Where that cannot be told the move
 * stays as drawn, and says why not. What is odd is added to @diags. Of a lift as drawn it only
 * tells in which moves one hook holds the load, and by how much the load would lean there if it
 * hung free. */
void trn_free_hang_play (const TrnPlan *plan, TrnLiftRun *run, TrnDiags *diags);

/* reach_rad and reach_m of a move by one hook of a lift that hangs free, with the box of the centre
 * of gravity made wider by @wider_m on all sides; NAN where there is no bound. */
void trn_free_hang_reach (const TrnPlan *plan, const TrnLiftRun *run, guint move, double wider_m,
                          double *reach_rad, double *reach_m);
