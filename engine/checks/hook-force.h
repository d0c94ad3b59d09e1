/* hook-force.h: what hangs on the hooks of a lift over one move: the masses that the plan names,
 * and which part of the load each hook carries, enclosed over the move and over the box of the
 * centre of gravity. */
#pragma once

#include "box-share.h"
#include "hook-load.h"
#include "jet.h"
#include "lift-check.h"
#include "worst.h"

/* Forces and shares are known to within this share of them. */
#define TRN_FORCE_SHARE 1e-4

/* What the memos of a lift check keep: the share of the tail; and of each sling of the main hook
 * and of the tail the way along it and its length. */
#define TRN_MEMO_TAIL_SHARE 0
#define TRN_MEMO_SLING(is_tail, index) (1 + 2 * (index) + ((is_tail) ? 1 : 0))
/* Over all of the move the extremes of each quantity that lean-line.c has. */
#define TRN_MEMO_LEAN 0x20000000
/* Those of pair-sweep.c, of each body of the rig, begin here. */
#define TRN_MEMO_LIMBS 0x40000000

/* Who holds the load in a move. */
typedef struct
{
  const TrnLiftCheck *check;
  guint move;
  gboolean main_holds, tail_holds;
  double mass_kg;   /* with its factor; NAN: left out */
  double stated_kg; /* without */
  gboolean has_cog;
  TrnVec3 cog[8]; /* corners of the box of the CoG, load frame */
  /* By how much hooks out of level may turn the load, either way, where both hold; NAN: the plan
   * does not say. */
  double out_of_level_rad;
  /* How far aside, and how far up or down, that takes one point, seen from the other; 0 where the
   * plan does not say; NAN: no bound. */
  double level_aside_m, level_up_m;
  /* How high a hook is above its point is not known, and counts for what it may be out of level. */
  gboolean is_height_missing;
  double pivot_above_m; /* above its points what it then turns about is, at most; NAN: likewise */
  TrnBoxShare share;    /* where both hold */
} TrnCarried;

TrnCarried trn_carried_make (const TrnLiftCheck *check, guint move);

/* The tail's share of the weight for the CoG at one corner, with the load as drawn, @form NULL, or
 * as hooks out of level may turn it, one of carried->share.forms; both must hold. No value where
 * main and tail line may be plumb over each other. */
TrnJet trn_carried_tail_jet (const TrnCarried *carried, guint corner, const TrnShareForm *form,
                             TrnInterval s);

/* Whether the tail is held in a pivot that can hold it down as well. */
gboolean trn_carried_is_pinned (const TrnCarried *carried);

/* Adds the masses of what is between the hook of @hoist and the load to @rigging; returns the input
 * without which one of them is not known, static, and adds none then; NULL. */
const char *
trn_hook_rigging (const TrnLiftCheck *check, const TrnHoist *hoist, TrnHookLoad *rigging);

/* What hangs on one hook. */
typedef struct
{
  TrnCarried carried;
  const TrnHoist *hoist; /* NULL: the plan names no rigging */
  gboolean is_tail;
  double leans_rad;            /* trn_load_lean_most_rad() */
  double leans_share;          /* by how much its share may be another for that */
  TrnHookLoad rigging;         /* masses of the rigging; load_kg is not set */
  const char *missing;         /* the input without which it is not known, static; NULL */
  TrnWorst greatest;           /* static, kg, over the move */
  const char *missing_dynamic; /* the input without which no dynamic factor is known; NULL */
} TrnHookForce;

/* @hoist: of the lift; must hold in that move. */
TrnHookForce trn_hook_force_make (const TrnLiftCheck *check, const TrnHoist *hoist, guint move);

/* All of it, kg, enclosed over @s. FALSE where it is not known. */
gboolean trn_hook_force_static (const TrnHookForce *force, TrnInterval s, TrnInterval *kg);
/* The greatest dynamic factor times hook load of what it may carry then: from the stated mass to
 * the one with its factor. */
gboolean trn_hook_force_dynamic (const TrnHookForce *force, TrnInterval s, TrnInterval *kg);
/* The dynamic factors that belong to all that it may carry over @s. */
gboolean trn_hook_force_factor (const TrnHookForce *force, TrnInterval s, TrnInterval *factor);
/* What hangs below the hook or a part of the rigging, with dynamic factor, in N: this hook's part
 * of the load and @rigging_kg; likewise. */
gboolean trn_hook_force_below_n (const TrnHookForce *force, TrnInterval s, double rigging_kg,
                                 TrnInterval *newton);
/* The hook load at rest that asks for most with its dynamic factor, of all over the move; NAN where
 * it is not known. It is less than the greatest where the factor falls before that. */
double trn_hook_force_governing_kg (const TrnHookForce *force);
double trn_hook_force_factor_at (const TrnHookForce *force, double kg);
/* Where the dynamic factor is from, borrowed; NULL. */
const char *trn_hook_force_dynamic_source (const TrnHookForce *force);

/* The hoists that hold in that move; NULL for a main hook without rigging. Returns their number. */
guint trn_hoists_holding (const TrnLiftCheck *check, guint move, const TrnHoist *hoists[2]);

/* The id of the gear of @hoist; "load" where it has none. */
const char *trn_hoist_body (const TrnLiftCheck *check, const TrnHoist *hoist);
