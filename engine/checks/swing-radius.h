/* swing-radius.h: the check `swing-radius`: for a move that turns the load, the circle that the
 * load's farthest point draws about the axis, beside what stands nearest to that axis. A note for
 * a person who marks out the swing on the ground: where the exact sweep clears, a short circle is
 * no failure. */
#pragma once

#include "lift-check.h"

typedef struct
{
  gboolean rotates;
  double radius_m;  /* greatest distance of any point of the load from the axis over the move */
  TrnVec3 origin;   /* site point on the axis at the start of the move */
  TrnVec3 x, y, z;  /* z along the axis; about it the load turns counter-clockwise seen from +z when
                       angle_rad > 0 */
  TrnVec3 strip[2]; /* ends of what the axis passes over in the move, in x and y */
  double lo_m, hi_m;          /* extent of the load along z over the move */
  gboolean full;              /* the sector is all round */
  double from_rad, width_rad; /* the sector that the load sweeps */
} TrnSwing;

/* What the load does in that move; made once for all obstacles. */
TrnSwing trn_swing_make (const TrnLiftCheck *check, guint move);

/* How near an obstacle is to the axis; INFINITY where none of it is beside the load. */
typedef struct
{
  double circle_m, sector_m; /* all round; within the sector */
} TrnSwingReach;

TrnSwingReach trn_swing_reach (const TrnObstacle *obstacle, const TrnSwing *swing);

TrnFinding
trn_swing_judge (const TrnLiftCheck *check, guint move, guint obstacle, const TrnSwing *swing);
