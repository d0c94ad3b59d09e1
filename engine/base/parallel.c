/* parallel.c: the threads are those of a pool that the whole program shares, since a loop is often
 * done in less time than a thread takes to start. Whoever calls works too, and waits at the end
 * only for threads that have begun: so loops within loops cannot wait for each other, and a thread
 * that comes late finds nothing to do. */
#include "parallel.h"

typedef struct
{
  gatomicrefcount references;
  gint next; /* atomic */
  guint count;
  TrnParallelFunc func;
  gpointer data;
  GMutex mutex;
  GCond idle;
  guint n_busy; /* of the pool's threads */
} Loop;

static void
loop_unref (Loop *loop)
{
  if (!g_atomic_ref_count_dec (&loop->references))
    return;
  g_mutex_clear (&loop->mutex);
  g_cond_clear (&loop->idle);
  g_free (loop);
}

static void
run (Loop *loop)
{
  for (;;)
    {
      guint index = (guint)g_atomic_int_add (&loop->next, 1);
      if (index >= loop->count)
        return;
      loop->func (index, loop->data);
    }
}

/* One thread's share. It says that it is busy before it takes anything, so that whoever waits finds
 * everything taken to be done once nobody is. */
static void
help (gpointer data, gpointer unused)
{
  Loop *loop = data;
  g_mutex_lock (&loop->mutex);
  loop->n_busy++;
  g_mutex_unlock (&loop->mutex);
  run (loop);
  g_mutex_lock (&loop->mutex);
  loop->n_busy--;
  g_cond_signal (&loop->idle);
  g_mutex_unlock (&loop->mutex);
  loop_unref (loop);
}

static GThreadPool *
pool_get (void)
{
  static gsize pool;
  if (g_once_init_enter (&pool))
    {
      /* one thread a processor for all loops together, shared with other pools of GLib: cannot fail
       */
      gint most = (gint)g_get_num_processors ();
      GThreadPool *made = g_thread_pool_new (help, NULL, most, FALSE, NULL);
      g_once_init_leave (&pool, (gsize)made);
    }
  return (GThreadPool *)pool;
}

guint
trn_parallel_jobs (guint jobs)
{
  return jobs > 0 ? jobs : g_get_num_processors ();
}

void
trn_parallel_for (guint count, guint jobs, TrnParallelFunc func, gpointer data)
{
  guint n_threads = MIN (trn_parallel_jobs (jobs), count);
  if (n_threads <= 1)
    {
      for (guint i = 0; i < count; i++)
        func (i, data);
      return;
    }
  Loop *loop = g_new0 (Loop, 1);
  g_atomic_ref_count_init (&loop->references);
  g_mutex_init (&loop->mutex);
  g_cond_init (&loop->idle);
  loop->count = count;
  loop->func = func;
  loop->data = data;
  for (guint i = 1; i < n_threads; i++)
    {
      g_atomic_ref_count_inc (&loop->references);
      g_thread_pool_push (pool_get (), loop, NULL); /* with no thread to be had it waits in vain */
    }
  run (loop);
  g_mutex_lock (&loop->mutex);
  while (loop->n_busy > 0)
    g_cond_wait (&loop->idle, &loop->mutex);
  g_mutex_unlock (&loop->mutex);
  loop_unref (loop);
}
