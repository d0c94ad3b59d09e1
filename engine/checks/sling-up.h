/* sling-up.h: which way is up, seen from what the slings of a hoist hold, enclosed over a span of a
 * move. */
#pragma once

#include "hook-force.h"
#include "interval-box.h"

/* Whether the load turns about its hook as its CoG wants. */
gboolean trn_sling_hangs (const TrnHookForce *force);

/* @a of the site to the axes of the load in the middle of @s where it hangs; else as it is. */
TrnBox3 trn_sling_to_load (const TrnHookForce *force, TrnInterval s, TrnBox3 a);

/* From the CoG, anywhere in its box, to the hook; trn_sling_to_load(). */
TrnBox3 trn_sling_cog_to_hook (const TrnHookForce *force, TrnInterval s);

/* @a of the site to the axes that trn_sling_up() is along. @n_legs: how many go from where @sling
 * does. */
TrnBox3 trn_sling_to_axes (const TrnHookForce *force, const TrnSling *sling, guint n_legs,
                           TrnInterval s, TrnBox3 a);

/* Of length 1; likewise. */
TrnBox3
trn_sling_up (const TrnHookForce *force, const TrnSling *sling, guint n_legs, TrnInterval s);
