/* One at a time: threads that ask at once mostly ask for the same. */
#include "shown.h"

#define OWN_BYTES (64 * 1024)

struct _TrnShown
{
  GMutex lock;
  TrnCache *cache;
};

TrnShown *
trn_shown_new (TrnCache *cache)
{
  TrnShown *shown = g_new (TrnShown, 1);
  g_mutex_init (&shown->lock);
  shown->cache = cache != NULL ? trn_cache_ref (cache) : trn_cache_new (OWN_BYTES);
  return shown;
}

void
trn_shown_free (TrnShown *shown)
{
  g_mutex_clear (&shown->lock);
  trn_cache_unref (shown->cache);
  g_free (shown);
}

static TrnCacheKey *
key_new (const TrnMesh *mesh)
{
  TrnCacheKey *key = trn_cache_key_new (TRN_CACHE_SHOWN);
  trn_cache_key_add_text (key, mesh->hash);
  return key;
}

TrnOutline
trn_shown_outline (TrnShown *shown, const TrnMesh *mesh, TrnVec3 up)
{
  const TrnVec3 taken = trn_outline_up (up);
  g_autoptr (GByteArray) key = key_new (mesh);
  trn_cache_key_add_double (key, taken.x);
  trn_cache_key_add_double (key, taken.y);
  trn_cache_key_add_double (key, taken.z);
  g_mutex_lock (&shown->lock);
  TrnOutline *kept = trn_cache_get (shown->cache, key);
  if (kept == NULL)
    {
      kept = g_atomic_rc_box_new0 (TrnOutline);
      *kept = trn_outline_make (mesh, taken);
      trn_cache_put (shown->cache, key, kept, NULL, 0);
    }
  g_mutex_unlock (&shown->lock);
  const TrnOutline outline = *kept;
  g_atomic_rc_box_release (kept);
  return outline;
}

TrnSilhouette
trn_shown_worst (TrnShown *shown, const TrnMesh *mesh, const TrnRotation *turn, double slack_m)
{
  g_autoptr (GByteArray) key = key_new (mesh);
  for (int i = 0; i < 9; i++)
    trn_cache_key_add_double (key, turn->m[i / 3][i % 3]);
  trn_cache_key_add_double (key, slack_m);
  g_mutex_lock (&shown->lock);
  TrnSilhouette *kept = trn_cache_get (shown->cache, key);
  if (kept == NULL)
    {
      kept = g_atomic_rc_box_new0 (TrnSilhouette);
      *kept = trn_silhouette_worst (mesh, turn, slack_m);
      trn_cache_put (shown->cache, key, kept, NULL, 0);
    }
  g_mutex_unlock (&shown->lock);
  const TrnSilhouette worst = *kept;
  g_atomic_rc_box_release (kept);
  return worst;
}
