/* lift-key.h: all that what is found in a move may depend on, as the part of a key of the cache;
 * what it holds, and why that is enough, stands in lift-key.c. Made once a lift, read by every
 * thread. */
#pragma once

#include "lift-check.h"

typedef struct _TrnLiftKey TrnLiftKey;

TrnLiftKey *trn_lift_key_new (const TrnLiftCheck *check);
void trn_lift_key_free (TrnLiftKey *key);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnLiftKey, trn_lift_key_free)

/* For what is found in @move without a look at a later one, but for where hooks go on to pick up.
 */
void trn_lift_key_add_move (const TrnLiftKey *lift, guint move, TrnCacheKey *key);
/* For what is found of the whole lift. */
void trn_lift_key_add_whole (const TrnLiftKey *lift, TrnCacheKey *key);
