/* plan-judge.h: everything that the results of a plan claim, held against the oracle by dense
 * sampling. Sampling can miss what the proof finds, never the other way round. */
#pragma once

#include "checks.h"
#include "oracle.h"

typedef enum
{
  TALLY_CLEAR,
  TALLY_SHORT,
  TALLY_CONTACT,
  TALLY_INSIDE,
  TALLY_INSIDE_UNKNOWN,
  TALLY_SEATED,       /* the whole move */
  TALLY_SEATED_PART,  /* with a free part */
  TALLY_SEAT_CONTACT, /* a seat touched again */
  TALLY_SEAT_DEEP,    /* the load is deeper in it than the fit */
  TALLY_RESTING,
  TALLY_BURIED,
  TALLY_NOT_RESTING,
  TALLY_NEVER_LEFT,
  TALLY_NEVER_REACHED,
  TALLY_ELSEWHERE,
  TALLY_FAR, /* certified to more than was asked for, being far off */
  TALLY_HOIST,
  TALLY_TRAVEL,
  TALLY_MOVE,
  TALLY_TURN,
  TALLY_SLEW,
  TALLY_SLEW_HEADING_KEPT,
  TALLY_SLEW_LUFF,
  TALLY_TILT_FIXED,
  TALLY_TILT_HEAD_PLUMB,
  TALLY_WAIT,
  TALLY_LIFT_PASSES,
  TALLY_LIFT_FAILS,
  TALLY_LATER_LIFT, /* with a site that earlier lifts or changes have altered */
  N_TALLIES
} TallyKind;

/* Counted by several threads. */
typedef struct
{
  gint of[N_TALLIES];
} Tally;

/* @name and @json tell which plan it was where something does not hold; then the test ends. */
void plan_judge (const char *name, const char *json, const TrnScene *scene,
                 const TrnFindings *findings, Tally *tally);
