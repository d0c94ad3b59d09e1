/* hang.h: what hangs on a hook, and the hook itself, from where the load is. */
#pragma once

#include "rig.h"

/* What a rope is taken for where the plan does not say its diameter. */
#define TRN_ROPE_DIAMETER_M 0.03

/* A point of the load as the gear of @hoist follows it: before the first of its moves as at the
 * start of that, after the last as at its end. */
TrnJet3
trn_hang_point (const TrnRig *rig, const TrnHoist *hoist, guint move, TrnInterval s, TrnVec3 point);

/* The hook. No z where its height is not known. */
TrnJet3 trn_hang_hook (const TrnRig *rig, const TrnHoist *hoist, guint move, TrnInterval s);

/* How far the hook of @hoist is above its point: said in the plan, or following from the first
 * sling of known length; NAN where neither. */
TrnInterval trn_hang_hook_above (const TrnRig *rig, const TrnHoist *hoist);

/* Whether the hook's height is said or follows from what is said. */
gboolean trn_hang_hook_above_given (const TrnRig *rig, const TrnHoist *hoist);

/* What the rig has of the hook in the load in that move, or in the nearest in which it holds it;
 * NULL: nothing, hook_above tells. */
const TrnRigHung *trn_hang_hung (const TrnRig *rig, const TrnHoist *hoist, guint move);

/* The ends of a beam and of a sling. Nothing where the beam has no direction. */
void trn_hang_beam (const TrnRig *rig, const TrnHoist *hoist, guint move, TrnInterval s,
                    TrnJet3 ends[2]);
void trn_hang_sling (const TrnRig *rig, const TrnHoist *hoist, guint index, guint move,
                     TrnInterval s, TrnJet3 ends[2]);

/* The way from the lower end of a sling to its upper one: what both have in common of the load's
 * path is no part of it, which makes it narrower than the difference of its ends. */
TrnJet3 trn_hang_sling_way (const TrnRig *rig, const TrnHoist *hoist, guint index, guint move,
                            TrnInterval s);

/* The block: 16 corners, of an octagon that holds its circle, turned as its gear is, so that it
 * stays the same where a whole site is turned. */
void trn_hang_block (const TrnRig *rig, const TrnHoist *hoist, const TrnJet3 *hook,
                     TrnJet3 corners[TRN_LIMB_CORNERS]);

/* The gear of @hoist where it stands in this lift, or NULL. */
const TrnGearPlace *trn_hang_gear (const TrnRig *rig, const TrnHoist *hoist);
