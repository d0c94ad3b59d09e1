/* sweep-cache.h: the answers of the sweep, asked of a cache first.
 *
 * They depend on the two meshes, the way of the one, the place of the other and what is asked, and
 * on nothing else: not on the seconds of the move, since everything is asked and answered in shares
 * of it, nor on the number of threads. What was cut short or cancelled is not kept. Each function
 * answers what its namesake in sweep.h does, to the bit; a cache of NULL is none. */
#pragma once

#include "cache.h"
#include "sweep.h"

TrnSweepResult trn_sweep_cached_minimum (TrnCache *cache, const TrnSweepPair *pair,
                                         const TrnSweepOptions *options);

/* @spans must be empty. */
gboolean trn_sweep_cached_contacts (TrnCache *cache, const TrnSweepPair *pair, double resolution_s,
                                    const TrnProgress *progress, GArray *spans);

gboolean trn_sweep_cached_first_reach (TrnCache *cache, const TrnSweepPair *pair, double distance_m,
                                       double resolution_s, gboolean backwards,
                                       const TrnProgress *progress, double *s);

/* At one pose: as trn_mesh_distance without a hint, and as trn_mesh_inside. */
TrnDistance
trn_sweep_cached_distance (TrnCache *cache, const TrnSweepBody *a, const TrnPose *site_from_a,
                           const TrnSweepBody *b, const TrnPose *site_from_b, double limit_m);
TrnInside
trn_sweep_cached_inside (TrnCache *cache, const TrnSweepBody *a, const TrnPose *site_from_a,
                         const TrnSweepBody *b, const TrnPose *site_from_b);

/* For other answers that depend on the same. Of the motion everything but its seconds. */
void trn_sweep_key_add_motion (TrnCacheKey *key, const TrnMotion *motion);
void trn_sweep_key_add_vec3 (TrnCacheKey *key, TrnVec3 v);
void trn_sweep_key_add_pose (TrnCacheKey *key, const TrnPose *pose);
