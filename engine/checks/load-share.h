/* load-share.h: the check `load-share`: what main and tail carry of a load that hangs from both,
 * through the whole move and over the box of the centre of gravity. */
#pragma once

#include "hook-force.h"

typedef enum
{
  TRN_SHARE_ITEM_TAIL,
  TRN_SHARE_ITEM_MAIN,
  TRN_SHARE_ITEM_TAIL_OUT_OF_LEVEL, /* with the hooks as far out of level as the plan says */
  TRN_SHARE_ITEM_MAIN_OUT_OF_LEVEL,
  TRN_SHARE_ITEM_HEIGHT, /* of the tail point above the CoG */
} TrnShareItem;
#define TRN_N_SHARE_ITEMS (TRN_SHARE_ITEM_HEIGHT + 1)

/* Main and tail must both hold in that move. */
TrnFinding trn_load_share_judge (const TrnLiftCheck *check, guint move, TrnShareItem item);

/* The word of the results file, static. */
const char *trn_load_share_item_name (TrnShareItem item);
/* From which part of the move on, before @to, its hook, or of TRN_SHARE_ITEM_HEIGHT the main one,
 * can be slack, by some moments; NAN: at none of them. For people, not for a verdict. */
double
trn_load_share_slack_from (const TrnLiftCheck *check, guint move, TrnShareItem item, double to);

/* The mass in kg on the main or the tail at one moment with the CoG where the plan has it, to
 * within rounding; NAN where it is not defined. */
double trn_load_share_at_kg (const TrnLiftCheck *check, guint move, gboolean is_tail, double s);
