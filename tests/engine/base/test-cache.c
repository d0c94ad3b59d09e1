/* The cache alone: what is found again, what is let go and in which order, and threads. */
#include "cache.h"

#include <string.h>

#include "parallel.h"

static TrnCacheKey *
key_of (TrnCacheKind kind, guint64 number)
{
  TrnCacheKey *key = trn_cache_key_new (kind);
  trn_cache_key_add_number (key, number);
  return key;
}

static gint n_cleared;

static void
on_clear (gpointer data)
{
  g_atomic_int_inc (&n_cleared);
}

static void
keep (TrnCache *cache, TrnCacheKind kind, guint64 number, gsize bytes)
{
  g_autoptr (GByteArray) key = key_of (kind, number);
  guint64 *value = g_atomic_rc_box_new0 (guint64);
  *value = number;
  trn_cache_put (cache, key, value, on_clear, bytes);
  g_atomic_rc_box_release_full (value, on_clear);
}

/* Asks for it; what is found must be what was kept. */
static gboolean
has (TrnCache *cache, TrnCacheKind kind, guint64 number)
{
  g_autoptr (GByteArray) key = key_of (kind, number);
  guint64 *value = trn_cache_get (cache, key);
  if (value == NULL)
    return FALSE;
  g_assert_cmpuint (*value, ==, number);
  g_atomic_rc_box_release_full (value, on_clear);
  return TRUE;
}

/* Texts are told apart by where they end, numbers of another kind of answer are others, and so are
 * zero and negative zero. */
static void
test_keys (void)
{
  g_autoptr (GByteArray) a = trn_cache_key_new (TRN_CACHE_SWEEP);
  g_autoptr (GByteArray) b = trn_cache_key_new (TRN_CACHE_SWEEP);
  trn_cache_key_add_text (a, "ab");
  trn_cache_key_add_text (a, "c");
  trn_cache_key_add_text (b, "a");
  trn_cache_key_add_text (b, "bc");
  g_assert_cmpuint (a->len, ==, b->len);
  g_assert_cmpint (memcmp (a->data, b->data, a->len), !=, 0);
  g_autoptr (GByteArray) plus = trn_cache_key_new (TRN_CACHE_SWEEP);
  g_autoptr (GByteArray) minus = trn_cache_key_new (TRN_CACHE_SWEEP);
  trn_cache_key_add_double (plus, 0.0);
  trn_cache_key_add_double (minus, -0.0);
  g_assert_cmpint (memcmp (plus->data, minus->data, plus->len), !=, 0);

  g_autoptr (TrnCache) cache = trn_cache_new (1 << 20);
  keep (cache, TRN_CACHE_SWEEP, 1, 0);
  g_assert_true (has (cache, TRN_CACHE_SWEEP, 1));
  g_assert_false (has (cache, TRN_CACHE_SWING, 1));
  g_assert_false (has (cache, TRN_CACHE_SWEEP, 2));
  TrnCacheCount count = trn_cache_count (cache, TRN_CACHE_SWEEP);
  g_assert_cmpuint (count.hits, ==, 1);
  g_assert_cmpuint (count.misses, ==, 1);
  g_assert_cmpuint (count.kept, ==, 1);
}

/* Room for three answers: of four the one goes that was not asked for longest; one that is larger
 * than all the room is not kept. */
static void
test_room (void)
{
  n_cleared = 0;
  TrnCache *cache = trn_cache_new (3500);
  for (guint i = 0; i < 3; i++)
    keep (cache, TRN_CACHE_SWEEP, i, 800);
  g_assert_true (has (cache, TRN_CACHE_SWEEP, 0));
  keep (cache, TRN_CACHE_SWEEP, 3, 800);
  g_assert_cmpint (n_cleared, ==, 1);
  g_assert_false (has (cache, TRN_CACHE_SWEEP, 1));
  g_assert_true (has (cache, TRN_CACHE_SWEEP, 0));
  g_assert_true (has (cache, TRN_CACHE_SWEEP, 2));
  g_assert_true (has (cache, TRN_CACHE_SWEEP, 3));
  keep (cache, TRN_CACHE_SWEEP, 4, 5000);
  g_assert_false (has (cache, TRN_CACHE_SWEEP, 4));
  trn_cache_unref (cache);
  g_assert_cmpint (n_cleared, ==, 5); /* every one of them */
}

/* A shape is kept for as long as one of the last two scenes used it, however large it is; answers
 * are not let go for that. */
static void
test_scenes (void)
{
  g_autoptr (TrnCache) cache = trn_cache_new (1 << 20);
  keep (cache, TRN_CACHE_SHAPE, 1, 1 << 30);
  keep (cache, TRN_CACHE_SHAPE, 2, 0);
  keep (cache, TRN_CACHE_SWEEP, 3, 0);
  trn_cache_end_scene (cache);
  g_assert_true (has (cache, TRN_CACHE_SHAPE, 1));
  trn_cache_end_scene (cache);
  g_assert_cmpuint (trn_cache_count (cache, TRN_CACHE_SHAPE).kept, ==, 2);
  trn_cache_end_scene (cache);
  g_assert_false (has (cache, TRN_CACHE_SHAPE, 2));
  g_assert_true (has (cache, TRN_CACHE_SHAPE, 1));
  g_assert_true (has (cache, TRN_CACHE_SWEEP, 3));
  trn_cache_clear (cache);
  for (guint kind = 0; kind < TRN_CACHE_N_KINDS; kind++)
    g_assert_cmpuint (trn_cache_count (cache, (TrnCacheKind)kind).kept, ==, 0);
}

/* What is kept twice is kept once, and what was let go stays for whoever holds it. */
static void
test_references (void)
{
  n_cleared = 0;
  TrnCache *cache = trn_cache_new (1 << 20);
  keep (cache, TRN_CACHE_SHAPE, 7, 0);
  keep (cache, TRN_CACHE_SHAPE, 7, 0);
  g_assert_cmpint (n_cleared, ==, 1);
  g_autoptr (GByteArray) key = key_of (TRN_CACHE_SHAPE, 7);
  guint64 *held = trn_cache_get (cache, key);
  trn_cache_unref (cache);
  g_assert_cmpint (n_cleared, ==, 1);
  g_assert_cmpuint (*held, ==, 7);
  g_atomic_rc_box_release_full (held, on_clear);
  g_assert_cmpint (n_cleared, ==, 2);
}

/* No cache: nothing is found, and nothing happens. */
static void
test_none (void)
{
  keep (NULL, TRN_CACHE_SWEEP, 1, 0);
  g_assert_false (has (NULL, TRN_CACHE_SWEEP, 1));
  trn_cache_end_scene (NULL);
}

#define TURNS 4000

static void
use_at_once (guint index, gpointer data)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (index);
  TrnCache *cache = data;
  for (guint i = 0; i < TURNS; i++)
    {
      TrnCacheKind kind = (TrnCacheKind)g_rand_int_range (rand, 0, TRN_CACHE_N_KINDS);
      guint64 number = (guint64)g_rand_int_range (rand, 0, 40);
      if (!has (cache, kind, number))
        keep (cache, kind, number, 100);
      if (i % 500 == 0)
        trn_cache_end_scene (cache);
    }
}

/* Four threads on one cache that has too little room; everything is freed at the end. */
static void
test_threads (void)
{
  TrnCache *cache = trn_cache_new (10000);
  trn_parallel_for (4, 4, use_at_once, cache);
  guint64 asked = 0;
  for (guint kind = 0; kind < TRN_CACHE_N_KINDS; kind++)
    {
      TrnCacheCount count = trn_cache_count (cache, (TrnCacheKind)kind);
      asked += count.hits + count.misses;
      g_assert_cmpuint (count.hits, >, 0);
      g_assert_cmpuint (count.kept, <=, 40);
    }
  g_assert_cmpuint (asked, ==, 4 * TURNS);
  trn_cache_unref (cache);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cache/keys", test_keys);
  g_test_add_func ("/cache/room", test_room);
  g_test_add_func ("/cache/scenes", test_scenes);
  g_test_add_func ("/cache/references", test_references);
  g_test_add_func ("/cache/none", test_none);
  g_test_add_func ("/cache/threads", test_threads);
  return g_test_run ();
}
