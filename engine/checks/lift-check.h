/* lift-check.h: what all checks of one lift share: who moves, what stands around it, and how far
 * the lift's tolerances can take a point of the load. Made once, read by every thread. */
#pragma once

#include "allowance.h"
#include "checks.h"
#include "moment.h"
#include "shown.h"
#include "span-memo.h"

typedef struct _TrnSail TrnSail;
typedef struct _TrnSwinging TrnSwinging;

typedef struct
{
  const TrnScene *scene;
  const TrnCheckOptions *options;
  double certify_m;
  guint index; /* of the run */
  const TrnLiftRun *run;
  const TrnBody *load;
  TrnObstacle *obstacles; /* structures first, in the order of the plan; owned */
  guint n_obstacles;
  const TrnRig *rig;          /* the gear that moves; NULL: none, and no rigging */
  TrnAllowance *allowances;   /* one a move: trn_lift_check_allowance; filled by checks.c; owned */
  double *tolerance_m;        /* one a move: the sum of the allowance; likewise */
  TrnGearTolerance *gear_off; /* one a move and body of the rig: trn_gear_tolerance; likewise */
  double *rig_tolerance_m;    /* likewise: the greater sum of its ends; NAN: no bound */
  double *left_m;             /* one an obstacle: trn_left_off; likewise */
  TrnSwinging
      *swinging;       /* one a move: trn_swinging_make; NULL where the plan does not say; owned */
  TrnShown *shown;     /* owned */
  TrnSail *sail;       /* of trn_sail_area_m2; owned */
  TrnSpanMemo **memos; /* one a move: what checks of forces share (hook-force.h); owned */
} TrnLiftCheck;

void trn_lift_check_init (TrnLiftCheck *check, const TrnScene *scene, guint index,
                          const TrnCheckOptions *options);
void trn_lift_check_clear (TrnLiftCheck *check);

/* The pair that the sweep wants, over @span of a move. */
TrnSweepPair
trn_lift_check_pair (const TrnLiftCheck *check, guint move, guint obstacle, TrnInterval span);

/* As trn_mesh_distance and trn_mesh_inside: the load at @site_from_load, an obstacle where it
 * stands. */
TrnDistance trn_lift_check_distance (const TrnLiftCheck *check, const TrnPose *site_from_load,
                                     const TrnObstacle *obstacle, double limit_m);
TrnInside trn_lift_check_inside (const TrnLiftCheck *check, const TrnPose *site_from_load,
                                 const TrnObstacle *obstacle);

/* How far an obstacle may stand from where the scene has it: by its survey, and by what earlier
 * lifts left. */
double trn_lift_check_stands_off (const TrnLiftCheck *check, guint obstacle);

/* Seconds from the start of the lift. */
double trn_lift_check_time (const TrnLiftCheck *check, guint move, double s);

/* A distance of which every point of the load keeps from the axis of turning of that move. */
double trn_lift_check_reach (const TrnLiftCheck *check, guint move);

/* A finding of @kind that says unknown, with no number but what is known beforehand. */
TrnFinding trn_lift_check_finding (const TrnLiftCheck *check, TrnCheckKind kind, int move,
                                   const char *obstacle, double required_m);

/* A proven bound on how far the lift's tolerances (position, tilt, heading) take any point of the
 * load, and any that the rigging holds it by, during that move; the derivation stands in
 * lift-check.c. */
double trn_lift_check_tolerance (const TrnLiftCheck *check, guint move);

/* By how much the load may lean from where its motion has it, about any level axis, but for wind
 * and swinging: by the tolerance of tilt, or by @hung_rad where that is more (with its tail,
 * trn_load_lean_most_rad; 0 where that counts by itself), wherever its centre of gravity is in its
 * box, and by hooks out of level. NAN: no bound. */
double trn_lift_check_leans (const TrnLiftCheck *check, guint move, double hung_rad);

/* How far these and all else take points of the load from where the motion has them in that move;
 * the derivation stands in allowance.c. */
TrnAllowance trn_lift_check_allowance (const TrnLiftCheck *check, guint move);

/* The input for want of which there is no bound on these; "tolerance" where it is for none. Static.
 * Wants check->allowances. */
const char *trn_lift_check_off_missing (const TrnLiftCheck *check, guint move);

/* How far any point of the load, or one that the rigging holds it by, is from a point of the load.
 */
double trn_lift_check_extent (const TrnLiftCheck *check, TrnVec3 from);
