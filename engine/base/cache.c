/* A hash table under one lock, which is held for looking up and never for working out. What is let
 * go is freed after the lock is released, since a large mesh takes its time. */
#include "cache.h"

#include <string.h>

typedef struct
{
  GBytes *key;
  TrnCacheKind kind;
  gpointer value;
  GDestroyNotify clear;
  gsize bytes;
  guint64 scene; /* the last that used it */
  GList link;    /* of an answer, in order of use */
} Entry;

struct _TrnCache
{
  gatomicrefcount references;
  GMutex lock; /* of all that follows */
  gsize most_bytes, answer_bytes;
  guint64 scene;       /* that is built now */
  GHashTable *entries; /* from Entry.key to Entry */
  GQueue answers;      /* of Entry, the last one used first */
  TrnCacheCount counts[TRN_CACHE_N_KINDS];
};

/* ---- keys ---- */

TrnCacheKey *
trn_cache_key_new (TrnCacheKind kind)
{
  GByteArray *key = g_byte_array_sized_new (512);
  guint8 first = (guint8)kind;
  return g_byte_array_append (key, &first, 1);
}

void
trn_cache_key_add_number (TrnCacheKey *key, guint64 number)
{
  g_byte_array_append (key, (const guint8 *)&number, sizeof number);
}

void
trn_cache_key_add_double (TrnCacheKey *key, double value)
{
  g_byte_array_append (key, (const guint8 *)&value, sizeof value);
}

void
trn_cache_key_add_text (TrnCacheKey *key, const char *text)
{
  gsize length = strlen (text);
  trn_cache_key_add_number (key, length);
  g_byte_array_append (key, (const guint8 *)text, (guint)length);
}

static TrnCacheKind
kind_of (const TrnCacheKey *key)
{
  g_assert (key->len > 0 && key->data[0] < TRN_CACHE_N_KINDS);
  return (TrnCacheKind)key->data[0];
}

/* ---- entries ---- */

static gboolean
is_answer (TrnCacheKind kind)
{
  return kind >= TRN_CACHE_SWEEP;
}

static void
entry_free (gpointer data)
{
  Entry *entry = data;
  g_bytes_unref (entry->key);
  g_atomic_rc_box_release_full (entry->value, entry->clear);
  g_free (entry);
}

/* Takes an entry out, to be freed with @gone. */
static void
drop (TrnCache *cache, Entry *entry, GPtrArray *gone)
{
  g_hash_table_remove (cache->entries, entry->key);
  cache->counts[entry->kind].kept--;
  if (is_answer (entry->kind))
    {
      g_queue_unlink (&cache->answers, &entry->link);
      cache->answer_bytes -= entry->bytes;
    }
  g_ptr_array_add (gone, entry);
}

/* Drops what no scene since @first used, or all with @answers, too. */
static void
drop_unused (TrnCache *cache, guint64 first, gboolean answers, GPtrArray *gone)
{
  g_autoptr (GList) all = g_hash_table_get_values (cache->entries);
  for (GList *at = all; at != NULL; at = at->next)
    {
      Entry *entry = at->data;
      if (entry->scene < first && (answers || !is_answer (entry->kind)))
        drop (cache, entry, gone);
    }
}

static void
use (TrnCache *cache, Entry *entry)
{
  entry->scene = cache->scene;
  if (!is_answer (entry->kind))
    return;
  g_queue_unlink (&cache->answers, &entry->link);
  g_queue_push_head_link (&cache->answers, &entry->link);
}

static Entry *
find (TrnCache *cache, const TrnCacheKey *key)
{
  g_autoptr (GBytes) bytes = g_bytes_new_static (key->data, key->len);
  return g_hash_table_lookup (cache->entries, bytes);
}

gpointer
trn_cache_get (TrnCache *cache, const TrnCacheKey *key)
{
  if (cache == NULL)
    return NULL;
  gpointer value = NULL;
  g_mutex_lock (&cache->lock);
  TrnCacheCount *count = &cache->counts[kind_of (key)];
  Entry *entry = find (cache, key);
  if (entry != NULL)
    {
      use (cache, entry);
      value = g_atomic_rc_box_acquire (entry->value);
      count->hits++;
    }
  else
    count->misses++;
  g_mutex_unlock (&cache->lock);
  return value;
}

static void
add (TrnCache *cache, Entry *entry, GPtrArray *gone)
{
  entry->scene = cache->scene;
  entry->link.data = entry;
  g_hash_table_insert (cache->entries, entry->key, entry);
  cache->counts[entry->kind].kept++;
  if (!is_answer (entry->kind))
    return;
  g_queue_push_head_link (&cache->answers, &entry->link);
  cache->answer_bytes += entry->bytes;
  while (cache->answer_bytes > cache->most_bytes)
    drop (cache, g_queue_peek_tail (&cache->answers), gone);
}

void
trn_cache_put (TrnCache *cache, const TrnCacheKey *key, gpointer value, GDestroyNotify clear,
               gsize bytes)
{
  if (cache == NULL)
    return;
  g_autoptr (GPtrArray) gone = g_ptr_array_new_with_free_func (entry_free);
  Entry *entry = g_new0 (Entry, 1);
  entry->key = g_bytes_new (key->data, key->len);
  entry->kind = kind_of (key);
  entry->value = g_atomic_rc_box_acquire (value);
  entry->clear = clear;
  entry->bytes = sizeof *entry + key->len + g_atomic_rc_box_get_size (value) + bytes;
  g_mutex_lock (&cache->lock);
  if (find (cache, key) == NULL)
    add (cache, entry, gone);
  else
    g_ptr_array_add (gone, entry);
  g_mutex_unlock (&cache->lock);
}

/* ---- the cache ---- */

TrnCache *
trn_cache_new (gsize most_bytes)
{
  TrnCache *cache = g_new0 (TrnCache, 1);
  g_atomic_ref_count_init (&cache->references);
  g_mutex_init (&cache->lock);
  cache->most_bytes = most_bytes;
  cache->entries = g_hash_table_new (g_bytes_hash, g_bytes_equal);
  g_queue_init (&cache->answers);
  return cache;
}

TrnCache *
trn_cache_ref (TrnCache *cache)
{
  g_atomic_ref_count_inc (&cache->references);
  return cache;
}

void
trn_cache_unref (TrnCache *cache)
{
  if (!g_atomic_ref_count_dec (&cache->references))
    return;
  trn_cache_clear (cache);
  g_hash_table_unref (cache->entries);
  g_mutex_clear (&cache->lock);
  g_free (cache);
}

void
trn_cache_end_scene (TrnCache *cache)
{
  if (cache == NULL)
    return;
  g_autoptr (GPtrArray) gone = g_ptr_array_new_with_free_func (entry_free);
  g_mutex_lock (&cache->lock);
  if (cache->scene > 0)
    drop_unused (cache, cache->scene - 1, FALSE, gone);
  cache->scene++;
  g_mutex_unlock (&cache->lock);
}

void
trn_cache_clear (TrnCache *cache)
{
  g_autoptr (GPtrArray) gone = g_ptr_array_new_with_free_func (entry_free);
  g_mutex_lock (&cache->lock);
  drop_unused (cache, G_MAXUINT64, TRUE, gone);
  g_mutex_unlock (&cache->lock);
}

TrnCacheCount
trn_cache_count (TrnCache *cache, TrnCacheKind kind)
{
  g_mutex_lock (&cache->lock);
  TrnCacheCount count = cache->counts[kind];
  g_mutex_unlock (&cache->lock);
  return count;
}
