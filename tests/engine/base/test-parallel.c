/* The loop calls its function once for each index, whatever the number of threads. */
#include "parallel.h"
#include "progress.h"

typedef struct
{
  gint calls[1000];   /* atomic */
  gint running, most; /* atomic: calls at this moment, and the most there were */
  guint order[1000];
  gint n_order;
} Record;

static void
note (guint index, gpointer data)
{
  Record *record = data;
  gint running = g_atomic_int_add (&record->running, 1) + 1, most;
  do
    most = g_atomic_int_get (&record->most);
  while (running > most && !g_atomic_int_compare_and_exchange (&record->most, most, running));
  g_atomic_int_inc (&record->calls[index]);
  record->order[g_atomic_int_add (&record->n_order, 1)] = index;
  g_thread_yield ();
  g_atomic_int_add (&record->running, -1);
}

static void
test_once (void)
{
  const guint jobs[5] = { 0, 1, 2, 7, 64 }, counts[4] = { 0, 1, 5, 1000 };
  for (guint j = 0; j < 5; j++)
    for (guint c = 0; c < 4; c++)
      {
        g_autofree Record *record = g_new0 (Record, 1);
        trn_parallel_for (counts[c], jobs[j], note, record);
        for (guint i = 0; i < 1000; i++)
          g_assert_cmpint (record->calls[i], ==, i < counts[c]);
        g_assert_cmpint (record->running, ==, 0);
        g_assert_cmpint (record->most, <=, trn_parallel_jobs (jobs[j]));
      }
}

/* Loops within loops end, each index once, whoever helps with which; many times, since threads meet
 * differently every time. */
typedef struct
{
  gint calls[8][16]; /* atomic */
} Nested;

static void
inner (guint index, gpointer data)
{
  gint *calls = data;
  g_atomic_int_inc (&calls[index]);
}

static void
outer (guint index, gpointer data)
{
  Nested *nested = data;
  trn_parallel_for (16, index % 3, inner, nested->calls[index]);
}

static void
test_nested (void)
{
  for (guint run = 0; run < 2000; run++)
    {
      Nested nested = { 0 };
      trn_parallel_for (8, run % 5, outer, &nested);
      for (guint i = 0; i < 8; i++)
        for (guint k = 0; k < 16; k++)
          g_assert_cmpint (nested.calls[i][k], ==, 1);
    }
}

/* On one thread the order is that of the indices. */
static void
test_order (void)
{
  g_autofree Record *record = g_new0 (Record, 1);
  trn_parallel_for (1000, 1, note, record);
  for (guint i = 0; i < 1000; i++)
    g_assert_cmpuint (record->order[i], ==, i);
}

static void
test_jobs (void)
{
  g_assert_cmpuint (trn_parallel_jobs (0), >=, 1);
  g_assert_cmpuint (trn_parallel_jobs (3), ==, 3);
}

/* Progress adds up over threads; a job without one is never cancelled. */
static void
work (guint index, gpointer data)
{
  trn_progress_add_done (data, 2);
}

static void
test_progress (void)
{
  TrnProgress progress = { 0 };
  trn_progress_add_total (&progress, 1000);
  trn_parallel_for (500, 4, work, &progress);
  g_assert_cmpint (progress.done, ==, 1000);
  g_assert_cmpint (progress.total, ==, 1000);
  g_assert_false (trn_progress_is_cancelled (&progress));
  trn_progress_cancel (&progress);
  g_assert_true (trn_progress_is_cancelled (&progress));
  g_assert_false (trn_progress_is_cancelled (NULL));
  trn_progress_add_done (NULL, 1);
  trn_progress_add_total (NULL, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/base/parallel/once", test_once);
  g_test_add_func ("/base/parallel/nested", test_nested);
  g_test_add_func ("/base/parallel/order", test_order);
  g_test_add_func ("/base/parallel/jobs", test_jobs);
  g_test_add_func ("/base/parallel/progress", test_progress);
  return g_test_run ();
}
