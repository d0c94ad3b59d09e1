/* cache.h: what was worked out before and still holds, found again by all that it depends on.
 *
 * The owner keeps one cache for as long as plans are read and checked again after an edit, and
 * hands it to each build of a scene and each check. Whoever works something out asks the cache
 * first. A key is the content of everything that the answer depends on, never an address or a name
 * alone, so that nothing ever has to be declared out of date: what has changed has another key.
 *
 * Meshes and trees are large: those that neither of the last two scenes used are let go. Answers
 * are small: the ones not asked for longest go when all of them take too much room. */
#pragma once

#include <glib.h>

/* Large things first. */
typedef enum
{
  TRN_CACHE_FILE,  /* the mesh of a file */
  TRN_CACHE_SHAPE, /* the tree and the check of a mesh */
  TRN_CACHE_SWEEP, /* an answer of the sweep */
  TRN_CACHE_POSE,  /* an answer about one pose */
  TRN_CACHE_SWING, /* an answer about the swing of a move */
  TRN_CACHE_SHOWN, /* an area that a mesh shows */
  TRN_CACHE_FINDING,
  TRN_CACHE_ALLOWANCE, /* of a move */
} TrnCacheKind;
#define TRN_CACHE_N_KINDS 8

typedef struct _TrnCache TrnCache;

/* @most_bytes: of all answers together. */
TrnCache *trn_cache_new (gsize most_bytes);
TrnCache *trn_cache_ref (TrnCache *cache);
void trn_cache_unref (TrnCache *cache);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnCache, trn_cache_unref)

/* ---- keys: field after field, never a struct with its padding ---- */

typedef GByteArray TrnCacheKey;

TrnCacheKey *trn_cache_key_new (TrnCacheKind kind);
void trn_cache_key_add_text (TrnCacheKey *key, const char *text);
void trn_cache_key_add_number (TrnCacheKey *key, guint64 number);
/* Its bits: a zero and a negative zero are two, which costs no more than one answer. */
void trn_cache_key_add_double (TrnCacheKey *key, double value);

/* ---- what is kept: blocks of g_atomic_rc_box_alloc ---- */

/* A reference of the caller's own to what is kept under @key; NULL: nothing is. With a @cache of
 * NULL it is NULL, too. */
gpointer trn_cache_get (TrnCache *cache, const TrnCacheKey *key);
/* Keeps @value with a reference of the cache's own, unless something is kept under @key already,
 * as when two threads have worked out the same. It must be whole: nothing that was cut short.
 * @clear, which may be NULL, clears the block at its end; @bytes is what it holds beside it. */
void trn_cache_put (TrnCache *cache, const TrnCacheKey *key, gpointer value, GDestroyNotify clear,
                    gsize bytes);

/* A scene is whole: what it has asked for or kept since the one before counts as used by it. */
void trn_cache_end_scene (TrnCache *cache);
/* Lets everything go. */
void trn_cache_clear (TrnCache *cache);

/* How often something of that kind was asked for, since the cache is there. */
typedef struct
{
  guint64 hits, misses;
  guint kept; /* now */
} TrnCacheCount;

TrnCacheCount trn_cache_count (TrnCache *cache, TrnCacheKind kind);
