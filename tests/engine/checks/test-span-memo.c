/* A memo of spans gives back what was put under the same quantity and the same span, and nothing
 * else, however many there are and from however many threads. */
#include "parallel.h"
#include "span-memo.h"

#define MANY 100000
#define THREADS 4

/* What the values are does not matter, as long as each key has its own. */
static TrnInterval
value_of (guint what, TrnInterval s, guint i)
{
  return (TrnInterval){ s.lo + 10 * what + 100 * i, s.hi + 10 * what + 100 * i };
}

/* Dyadic spans, as searches in time halve them. */
static TrnInterval
span_of (guint i)
{
  guint level = 0;
  while (i + 1 >= 2u << level)
    level++;
  double width = 1.0 / (double)(1u << level), lo = (i + 1 - (1u << level)) * width;
  return (TrnInterval){ lo, lo + width };
}

#define MOST_VALUES (3 * TRN_SPAN_MEMO_FEW)

/* Few enough to be in the memo itself, or more. */
static guint
n_values (guint what)
{
  return what % 2 == 0 ? TRN_SPAN_MEMO_FEW : MOST_VALUES;
}

static void
put (TrnSpanMemo *memo, guint what, TrnInterval s)
{
  TrnInterval values[MOST_VALUES];
  for (guint i = 0; i < n_values (what); i++)
    values[i] = value_of (what, s, i);
  trn_span_memo_put (memo, what, s, values, n_values (what));
}

/* TRUE when it is there; then it is right. */
static gboolean
get (TrnSpanMemo *memo, guint what, TrnInterval s)
{
  TrnInterval values[MOST_VALUES];
  if (!trn_span_memo_get (memo, what, s, values, n_values (what)))
    return FALSE;
  for (guint i = 0; i < n_values (what); i++)
    {
      TrnInterval expected = value_of (what, s, i);
      g_assert_cmpfloat (values[i].lo, ==, expected.lo);
      g_assert_cmpfloat (values[i].hi, ==, expected.hi);
    }
  return TRUE;
}

static void
test_keys (void)
{
  TrnSpanMemo *memo = trn_span_memo_new ();
  TrnInterval whole = { 0, 1 }, start = { 0, 0 };
  g_assert_false (get (memo, 0, whole));
  put (memo, 0, whole);
  g_assert_true (get (memo, 0, whole));
  g_assert_false (get (memo, 1, whole));
  g_assert_false (get (memo, 0, start));
  put (memo, 1, whole);
  put (memo, 0, start);
  for (guint what = 0; what < 2; what++)
    g_assert_true (get (memo, what, whole));
  g_assert_true (get (memo, 0, start));
  /* What is there stays. */
  TrnInterval other = { 7, 8 };
  trn_span_memo_put (memo, 0, whole, &other, 1);
  g_assert_true (get (memo, 0, whole));
  trn_span_memo_free (memo);
}

static void
fill (guint thread, gpointer memo)
{
  for (guint i = 0; i < MANY; i++)
    {
      TrnInterval s = span_of (i);
      guint what = (i + thread) % 5;
      if (!get (memo, what, s))
        put (memo, what, s);
    }
}

/* More than it takes: what it has is right, and the first that was put is there. */
static void
test_many (void)
{
  TrnSpanMemo *memo = trn_span_memo_new ();
  trn_parallel_for (THREADS, THREADS, fill, memo);
  guint kept = 0;
  for (guint i = 0; i < MANY; i++)
    for (guint what = 0; what < 5; what++)
      kept += get (memo, what, span_of (i)) ? 1 : 0;
  g_assert_cmpuint (kept, >, 1000);
  g_assert_cmpuint (kept, <, MANY);
  gboolean has_first = FALSE;
  for (guint what = 0; what < THREADS; what++)
    has_first = has_first || get (memo, what, span_of (0));
  g_assert_true (has_first);
  trn_span_memo_free (memo);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/span-memo/keys", test_keys);
  g_test_add_func ("/span-memo/many", test_many);
  return g_test_run ();
}
