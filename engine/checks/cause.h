/* cause.h: with what it lies that a finding fails, or that something is missing: the point, sling,
 * beam or gear, with the number found and its limit. Told once all findings of a lift are there, so
 * that no name of a plan is part of what a cache keeps. */
#pragma once

#include "lift-check.h"

/* Whys, beside those of lean-pivot.h. */
#define TRN_CAUSE_NO_MASS "mass"      /* of this the mass is left out */
#define TRN_CAUSE_LEFT_OUT "left-out" /* the gear, or the hook of the gear, that misses it */
#define TRN_CAUSE_TILT_AXIS                                                                        \
  "tilt-axis"                     /* beside the axis of a tilt through the point of its hook */
#define TRN_CAUSE_LENGTH "length" /* another length than that of this move fits all moves */
#define TRN_CAUSE_PLUMB "plumb"   /* a sling that no higher hook relieves */
#define TRN_CAUSE_LEG "leg"       /* of a gantry, on which nothing can be shifted */
#define TRN_CAUSE_FROM "from"     /* from that angle of a tilt on */
#define TRN_CAUSE_FROM_START "from-start" /* from the start of its move on */
#define TRN_CAUSE_FROM_UPENDING                                                                    \
  "from-upending" /* from that angle of a tilt on, which has to go on until the load is upright */
#define TRN_CAUSE_STANDS_AT_START "stands-at-start" /* what it touches there is no seat */
#define TRN_CAUSE_STANDS_AT_END "stands-at-end"
#define TRN_CAUSE_TAIL_HOLDS "tail-holds"   /* the tail hook, beside the load that it holds */
#define TRN_CAUSE_TAIL_LET_GO "tail-let-go" /* the same once it holds nothing */
#define TRN_CAUSE_TOLERANCE "tolerance"     /* moved by more than the tolerance of position */

void trn_causes_tell (const TrnLiftCheck *check, TrnLiftFindings *findings);
