/* clearance.h: the least distance of two bodies over one move, certified over all of the time,
 * against the clearance to be kept: the checks `clearance` and `approach`. */
#pragma once

#include "pair.h"
#include "seated.h"

typedef struct
{
  TrnCheckKind check;
  guint move;
  TrnPair pair;
  const TrnSeated *seated; /* what trn_seated_find says of the obstacle; NULL: it is no seat */
  double required_m;       /* NAN: not known … */
  const char *missing;     /* … for want of this input; NULL: "keep_clear" */
  const char *source;      /* of required_m; may be NULL */
} TrnClearanceQuestion;

/* Wants check->tolerance_m and check->rig_tolerance_m. */
TrnFinding trn_clearance_judge (const TrnLiftCheck *check, const TrnClearanceQuestion *question);
