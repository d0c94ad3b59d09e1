/* Threads that ask at once often ask for the same: the first works it out, the others wait. Those
 * that ask for something else do not. */
#include "shown.h"

#include "sweep-cache.h"

#include <string.h>

#define OWN_BYTES (64 * 1024)

struct _TrnShown
{
  GMutex lock; /* of what is being made */
  GCond made;
  GPtrArray *making; /* of TrnCacheKey, borrowed */
  TrnCache *cache;
};

TrnShown *
trn_shown_new (TrnCache *cache)
{
  TrnShown *shown = g_new (TrnShown, 1);
  g_mutex_init (&shown->lock);
  g_cond_init (&shown->made);
  shown->making = g_ptr_array_new ();
  shown->cache = cache != NULL ? trn_cache_ref (cache) : trn_cache_new (OWN_BYTES);
  return shown;
}

void
trn_shown_free (TrnShown *shown)
{
  g_mutex_clear (&shown->lock);
  g_cond_clear (&shown->made);
  g_ptr_array_unref (shown->making);
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

static gboolean
is_in_making (const TrnShown *shown, const TrnCacheKey *key)
{
  for (guint i = 0; i < shown->making->len; i++)
    {
      const TrnCacheKey *other = shown->making->pdata[i];
      if (other->len == key->len && memcmp (other->data, key->data, key->len) == 0)
        return TRUE;
    }
  return FALSE;
}

/* What is kept; NULL: the caller is to make it, and to call finish(). */
static gpointer
get_or_begin (TrnShown *shown, TrnCacheKey *key)
{
  gpointer kept;
  g_mutex_lock (&shown->lock);
  while ((kept = trn_cache_get (shown->cache, key)) == NULL && is_in_making (shown, key))
    g_cond_wait (&shown->made, &shown->lock);
  if (kept == NULL)
    g_ptr_array_add (shown->making, key);
  g_mutex_unlock (&shown->lock);
  return kept;
}

static void
finish (TrnShown *shown, TrnCacheKey *key, gpointer made)
{
  trn_cache_put (shown->cache, key, made, NULL, 0);
  g_mutex_lock (&shown->lock);
  g_ptr_array_remove_fast (shown->making, key);
  g_cond_broadcast (&shown->made);
  g_mutex_unlock (&shown->lock);
}

TrnOutline
trn_shown_outline (TrnShown *shown, const TrnMesh *mesh, TrnVec3 up)
{
  const TrnVec3 taken = trn_outline_up (up);
  g_autoptr (GByteArray) key = key_new (mesh);
  trn_sweep_key_add_vec3 (key, taken);
  TrnOutline *kept = get_or_begin (shown, key);
  if (kept == NULL)
    {
      kept = g_atomic_rc_box_new0 (TrnOutline);
      *kept = trn_outline_make (mesh, taken);
      finish (shown, key, kept);
    }
  const TrnOutline outline = *kept;
  g_atomic_rc_box_release (kept);
  return outline;
}

TrnSilhouette
trn_shown_worst (TrnShown *shown, const TrnMesh *mesh, gboolean is_closed, double slack_m,
                 const TrnSilhouetteBand *bands, guint n_bands, guint jobs)
{
  g_autoptr (GByteArray) key = key_new (mesh);
  trn_cache_key_add_number (key, (guint64)is_closed);
  trn_cache_key_add_double (key, slack_m);
  trn_cache_key_add_number (key, n_bands);
  for (guint i = 0; i < n_bands; i++)
    {
      trn_sweep_key_add_vec3 (key, bands[i].up);
      trn_sweep_key_add_vec3 (key, bands[i].axis);
      trn_cache_key_add_double (key, bands[i].angle_rad);
      trn_cache_key_add_double (key, bands[i].slant_rad);
    }
  TrnSilhouette *kept = get_or_begin (shown, key);
  if (kept == NULL)
    {
      kept = g_atomic_rc_box_new0 (TrnSilhouette);
      *kept = trn_silhouette_worst (mesh, is_closed, slack_m, bands, n_bands, jobs);
      finish (shown, key, kept);
    }
  const TrnSilhouette worst = *kept;
  g_atomic_rc_box_release (kept);
  return worst;
}
