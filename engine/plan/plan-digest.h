/* plan-digest.h: what a plan says, in few bytes, so that whoever keeps an answer can tell whether
 * the plan that it was given for still says the same. */
#pragma once

#include "plan.h"

#define TRN_DIGEST_BYTES 32 /* of SHA-256 */

/* Of the whole document but the moves of its lifts: every key and every value in its order, also
 * those that no check reads. */
void trn_plan_digest_site (const TrnPlan *plan, guint8 digest[TRN_DIGEST_BYTES]);

/* Of one move of a lift, as the document has it; both are indices. */
void
trn_plan_digest_move (const TrnPlan *plan, guint lift, guint move, guint8 digest[TRN_DIGEST_BYTES]);
