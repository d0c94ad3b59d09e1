/* hoist.h: what the checks headroom, reach and rigging share: a quantity of a hoist over one move,
 * its certified extremes, and the limits that it has to keep. */
#pragma once

#include "extreme.h"
#include "lift-check.h"

/* The gear that holds the load by @hoist; NULL: none is named. */
const TrnGear *trn_hoist_gear (const TrnLiftCheck *check, const TrnHoist *hoist);
/* Where it stands; NULL where it does not stand in this lift. */
const TrnGearPlace *trn_hoist_place (const TrnLiftCheck *check, const TrnHoist *hoist);

/* A quantity with its limits; infinite where it has none on that side. */
typedef struct
{
  const char *item; /* static; NULL */
  TrnRigQuantity quantity;
  guint index;
  TrnUnit unit;          /* TRN_UNIT_M or TRN_UNIT_DEG */
  TrnInterval limits;    /* m or rad; NAN: left out of the plan */
  TrnInterval allowance; /* what tolerances take off at each limit; NAN: no bound */
  const char *missing;   /* the input that is wanted where limits are left out, static */
} TrnHoistLimit;

/* The finding of @kind about @limit over @move. Asked for more narrowly while the verdict is open,
 * down to the contact tolerance; what is open then fails. @body: whom it is about. */
TrnFinding trn_hoist_judge (const TrnLiftCheck *check, TrnCheckKind kind, const TrnHoist *hoist,
                            guint move, const char *body, const TrnHoistLimit *limit);

/* The extremes of a quantity of @hoist over @move to within @width. */
TrnExtremes trn_hoist_extremes (const TrnLiftCheck *check, const TrnHoist *hoist, guint move,
                                TrnRigQuantity quantity, guint index, double width);
/* Its value at one moment, to within rounding; NAN where it has none. */
double trn_hoist_value (const TrnLiftCheck *check, const TrnHoist *hoist, guint move, double s,
                        TrnRigQuantity quantity, guint index);
