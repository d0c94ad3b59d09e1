/* gear-judge.h: everything that the results of a plan claim about its gear, held against the gear's
 * oracle by dense sampling with refinement. Sampling can miss what the proof finds, never the other
 * way round. */
#pragma once

#include "checks.h"
#include "gear-oracle.h"
#include "moment.h"

typedef enum
{
  GEAR_TALLY_CLEAR,
  GEAR_TALLY_SHORT,
  GEAR_TALLY_CONTACT,
  GEAR_TALLY_UNKNOWN,
  GEAR_TALLY_LOAD,      /* of the load past a moving part */
  GEAR_TALLY_STANDING,  /* of a moving part past what stands */
  GEAR_TALLY_TWO_PARTS, /* of two moving parts */
  GEAR_TALLY_TOLERANCE, /* tolerances tried */
  GEAR_TALLY_BOOM,
  GEAR_TALLY_JIB,
  GEAR_TALLY_COUNTERWEIGHT,
  GEAR_TALLY_ROPE,
  GEAR_TALLY_BLOCK,
  GEAR_TALLY_SLING,
  GEAR_TALLY_BEAM,
  GEAR_TALLY_HEADER,
  GEAR_TALLY_TROLLEY,
  GEAR_TALLY_WITHIN, /* headroom, reach */
  GEAR_TALLY_BEYOND,
  GEAR_TALLY_OUT_OF_REACH,
  GEAR_N_TALLIES,
} GearTallyKind;

typedef struct
{
  gint of[GEAR_N_TALLIES]; /* atomic */
} GearTally;

void gear_judge (const char *name, const char *json, const TrnScene *scene,
                 const TrnFindings *findings, guint32 seed, GearTally *tally);
