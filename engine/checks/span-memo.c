/* A table with open addresses, under a mutex that is held for a few dozen instructions. Searches in
 * time (worst.h, extreme.h) halve the same sixteen pieces, so that few spans serve many of them. */
#include "span-memo.h"

#include <string.h>

#define FIRST_SLOTS 64
/* Of some 100 bytes: what a search that hardly ends would ask for is not worth more. */
#define MOST_SLOTS 32768

typedef struct
{
  TrnInterval span;
  guint what;
  TrnInterval few[TRN_SPAN_MEMO_FEW];
  TrnInterval *many; /* NULL: those */
} Entry;

struct _TrnSpanMemo
{
  GMutex mutex;
  Entry *entries; /* n_slots; an empty one has a span of NANs */
  guint n_slots, n;
};

static Entry *
entries_new (guint n_slots)
{
  Entry *entries = g_new (Entry, n_slots);
  for (guint i = 0; i < n_slots; i++)
    {
      entries[i].span.lo = entries[i].span.hi = __builtin_nan ("");
      entries[i].many = NULL;
    }
  return entries;
}

TrnSpanMemo *
trn_span_memo_new (void)
{
  TrnSpanMemo *memo = g_new0 (TrnSpanMemo, 1);
  g_mutex_init (&memo->mutex);
  return memo;
}

void
trn_span_memo_free (TrnSpanMemo *memo)
{
  g_mutex_clear (&memo->mutex);
  for (guint i = 0; i < memo->n_slots; i++)
    g_free (memo->entries[i].many);
  g_free (memo->entries);
  g_free (memo);
}

/* The entry of a quantity over the span, or the empty one where it would be. */
static Entry *
entry_of (Entry *entries, guint n_slots, guint what, TrnInterval s)
{
  guint64 bits[2];
  memcpy (bits, &s, sizeof bits);
  guint64 mixed = (bits[0] * 3 ^ (bits[1] << 17 | bits[1] >> 47)) + what;
  mixed = (mixed ^ mixed >> 29) * 0x9e3779b97f4a7c15u;
  guint slot = (guint)(mixed >> 40) & (n_slots - 1);
  for (;; slot = (slot + 1) & (n_slots - 1))
    {
      Entry *entry = &entries[slot];
      gboolean is_empty = !(entry->span.lo <= entry->span.hi);
      if (is_empty || (entry->what == what && entry->span.lo == s.lo && entry->span.hi == s.hi))
        return entry;
    }
}

gboolean
trn_span_memo_get (TrnSpanMemo *memo, guint what, TrnInterval s, TrnInterval *values, guint n)
{
  gboolean found = FALSE;
  g_mutex_lock (&memo->mutex);
  if (memo->n > 0)
    {
      const Entry *entry = entry_of (memo->entries, memo->n_slots, what, s);
      found = entry->span.lo <= entry->span.hi;
      if (found)
        memcpy (values, entry->many != NULL ? entry->many : entry->few, n * sizeof *values);
    }
  g_mutex_unlock (&memo->mutex);
  return found;
}

static void
grow (TrnSpanMemo *memo)
{
  guint n_slots = memo->n_slots > 0 ? 2 * memo->n_slots : FIRST_SLOTS;
  Entry *entries = entries_new (n_slots);
  for (guint i = 0; i < memo->n_slots; i++)
    {
      const Entry *old = &memo->entries[i];
      if (old->span.lo <= old->span.hi)
        *entry_of (entries, n_slots, old->what, old->span) = *old;
    }
  g_free (memo->entries);
  memo->entries = entries;
  memo->n_slots = n_slots;
}

void
trn_span_memo_put (TrnSpanMemo *memo, guint what, TrnInterval s, const TrnInterval *values, guint n)
{
  g_assert (s.lo <= s.hi);
  g_mutex_lock (&memo->mutex);
  gboolean is_full = 2 * memo->n >= memo->n_slots;
  if (is_full && memo->n_slots < MOST_SLOTS)
    {
      grow (memo);
      is_full = FALSE;
    }
  Entry *entry = is_full ? NULL : entry_of (memo->entries, memo->n_slots, what, s);
  if (entry != NULL && !(entry->span.lo <= entry->span.hi))
    {
      entry->span = s;
      entry->what = what;
      if (n > TRN_SPAN_MEMO_FEW)
        entry->many = g_memdup2 (values, n * sizeof *values);
      else
        memcpy (entry->few, values, n * sizeof *values);
      memo->n++;
    }
  g_mutex_unlock (&memo->mutex);
}
