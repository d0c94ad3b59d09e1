#include "parallel.h"

typedef struct
{
  gint next; /* atomic */
  guint count;
  TrnParallelFunc func;
  gpointer data;
} Loop;

static gpointer
run (gpointer data)
{
  Loop *loop = data;
  for (;;)
    {
      guint index = (guint)g_atomic_int_add (&loop->next, 1);
      if (index >= loop->count)
        return NULL;
      loop->func (index, loop->data);
    }
}

guint
trn_parallel_jobs (guint jobs)
{
  return jobs > 0 ? jobs : g_get_num_processors ();
}

void
trn_parallel_for (guint count, guint jobs, TrnParallelFunc func, gpointer data)
{
  Loop loop = { .count = count, .func = func, .data = data };
  guint n_threads = MIN (trn_parallel_jobs (jobs), MAX (count, 1u));
  g_autofree GThread **threads = g_new0 (GThread *, n_threads);
  for (guint i = 1; i < n_threads; i++)
    threads[i]
        = g_thread_try_new ("trn-work", run, &loop, NULL); /* NULL: the others do its share */
  run (&loop);
  for (guint i = 1; i < n_threads; i++)
    if (threads[i] != NULL)
      g_thread_join (threads[i]);
}
