/* hand-over.h: whether a load that an earlier lift left on its hook is held on as it was left. */
#pragma once

#include "lift-check.h"

/* What differs first, of the plan. */
typedef struct
{
  const char *key; /* static, as "hook_above" or "shackle/mass"; NULL: it is held on as it was */
  const char *of; /* id of the gear, the sling or the beam; borrowed; NULL: of the rigging itself */
  /* Before and now: names, or numbers, of what is left out NULL or NAN; three of a place or a
   * direction. */
  const char *was_name, *is_name; /* borrowed */
  guint n_values;
  double was[3], is[3];
  TrnUnit unit;
} TrnHandOver;

/* Whether what held the load when an earlier lift left it, as that lift names it, goes on to hold
 * it in the first move: by the same gear, which stands where it stood, at the same point, with the
 * same rigging. A tail may let it go between two lifts where the main hoist holds on. */
TrnHandOver trn_hand_over_find (const TrnLiftCheck *check);
