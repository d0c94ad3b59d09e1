/* A swing depends on the load's mesh and its way, how near an obstacle is also on that one's mesh
 * and place. */
#include "swing-cache.h"

#include "sweep-cache.h"

static TrnCacheKey *
key_new (const TrnLiftCheck *check, guint move)
{
  TrnCacheKey *key = trn_cache_key_new (TRN_CACHE_SWING);
  trn_cache_key_add_text (key, check->load->mesh->hash);
  trn_sweep_key_add_motion (key, &check->run->motions[move]);
  return key;
}

TrnSwing
trn_swing_cached_make (const TrnLiftCheck *check, guint move)
{
  TrnCache *cache = check->options->cache;
  if (cache == NULL)
    return trn_swing_make (check, move);
  g_autoptr (GByteArray) key = key_new (check, move);
  TrnSwing *kept = trn_cache_get (cache, key);
  if (kept == NULL)
    {
      kept = g_atomic_rc_box_new0 (TrnSwing);
      *kept = trn_swing_make (check, move);
      trn_cache_put (cache, key, kept, NULL, 0);
    }
  TrnSwing swing = *kept;
  g_atomic_rc_box_release (kept);
  return swing;
}

TrnSwingReach
trn_swing_cached_reach (const TrnLiftCheck *check, guint move, guint obstacle,
                        const TrnSwing *swing)
{
  TrnCache *cache = check->options->cache;
  const TrnObstacle *other = &check->obstacles[obstacle];
  if (cache == NULL)
    return trn_swing_reach (other, swing);
  g_autoptr (GByteArray) key = key_new (check, move);
  trn_cache_key_add_text (key, other->body->mesh->hash);
  trn_sweep_key_add_pose (key, &other->standing->site_from_standing);
  TrnSwingReach *kept = trn_cache_get (cache, key);
  if (kept == NULL)
    {
      kept = g_atomic_rc_box_new0 (TrnSwingReach);
      *kept = trn_swing_reach (other, swing);
      trn_cache_put (cache, key, kept, NULL, 0);
    }
  TrnSwingReach reach = *kept;
  g_atomic_rc_box_release (kept);
  return reach;
}
