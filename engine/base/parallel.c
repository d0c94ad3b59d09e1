/* parallel.c: the threads are shared by all loops of the program and kept, since a loop is often
 * done in less time than a thread takes to start, or even to wake up: so a thread that has nothing
 * to do looks round for a short while before it sleeps.
 *
 * Whoever calls works too, and waits at the end only for threads that have begun. Meanwhile it
 * helps with loops within its own, and with no others: these end before what it waits for does, and
 * loops within loops cannot wait for each other. */
#include "parallel.h"

#ifdef __linux__
#include <sys/resource.h>
#include <unistd.h>
#endif

/* Beside one that has none, it gets about a tenth of a processor. */
#define NICENESS 10

/* How long a thread looks round: some times as long as waking up takes. */
#define LOOK_ROUND_US 200

typedef struct _Loop Loop;
struct _Loop
{
  Loop *within; /* whose index the caller was working on, or NULL */
  Loop *older;  /* in the list of those that may be helped with */
  TrnParallelFunc func;
  gpointer data;
  guint count;
  gint next; /* atomic */
  guint n_helpers, most_helpers;
  gint n_busy; /* of the helpers; written under the mutex, atomic */
};

/* All under the mutex but @news, which is atomic as well. */
static struct
{
  GMutex mutex;
  GCond work; /* there is something to help with: for the pool's threads */
  GCond news; /* a loop came or helpers went: for those who wait for their own loop */
  gint n_news;
  Loop *newest;
  guint n_threads, n_idle, n_asleep, n_waiting;
  gboolean stands_back;
} pool;

static GPrivate working_on;

static void
run (Loop *loop)
{
  Loop *before = g_private_get (&working_on);
  g_private_set (&working_on, loop);
  for (;;)
    {
      guint index = (guint)g_atomic_int_add (&loop->next, 1);
      if (index >= loop->count)
        break;
      loop->func (index, loop->data);
    }
  g_private_set (&working_on, before);
}

/* ---- under the mutex ---- */

static gboolean
is_within (const Loop *loop, const Loop *outer)
{
  while (loop != NULL && loop != outer)
    loop = loop->within;
  return loop == outer;
}

/* The newest loop, within @outer if that is not NULL, that can do with help. Who gets it is counted
 * as busy before it takes an index, so that all are done once nobody is busy. */
static Loop *
take (const Loop *outer)
{
  for (Loop *loop = pool.newest; loop != NULL; loop = loop->older)
    if (loop->n_helpers < loop->most_helpers && (guint)g_atomic_int_get (&loop->next) < loop->count
        && (outer == NULL || is_within (loop, outer)))
      {
        loop->n_helpers++;
        g_atomic_int_inc (&loop->n_busy);
        return loop;
      }
  return NULL;
}

static void
tell (void)
{
  g_atomic_int_inc (&pool.n_news);
  if (pool.n_waiting > 0)
    g_cond_broadcast (&pool.news);
}

/* Returns with the mutex locked as it was, after something happened or a while. */
static gboolean
look_round (void)
{
  gint seen = g_atomic_int_get (&pool.n_news);
  g_mutex_unlock (&pool.mutex);
  gint64 until = g_get_monotonic_time () + LOOK_ROUND_US;
  gboolean news = FALSE;
  do
    for (guint i = 0; i < 50 && !news; i++)
      {
        news = g_atomic_int_get (&pool.n_news) != seen;
#if defined __x86_64__
        __builtin_ia32_pause ();
#endif
      }
  while (!news && g_get_monotonic_time () < until);
  g_mutex_lock (&pool.mutex);
  return g_atomic_int_get (&pool.n_news) != seen;
}

static void
help (Loop *loop)
{
  g_mutex_unlock (&pool.mutex);
  run (loop);
  g_mutex_lock (&pool.mutex);
  if (g_atomic_int_dec_and_test (&loop->n_busy))
    tell ();
}

void
trn_thread_stand_back (void)
{
#ifdef __linux__
  /* There, niceness is one thread's. Where it is refused the work is done all the same, only less
   * politely. */
  id_t thread = (id_t)gettid ();
  (void)setpriority (PRIO_PROCESS, thread, MAX (getpriority (PRIO_PROCESS, thread), NICENESS));
#endif
}

void
trn_parallel_stand_back (void)
{
  g_mutex_lock (&pool.mutex);
  g_assert (pool.n_threads == 0 || pool.stands_back);
  pool.stands_back = TRUE;
  g_mutex_unlock (&pool.mutex);
}

static gpointer
thread_main (gpointer unused)
{
  g_mutex_lock (&pool.mutex);
  if (pool.stands_back)
    trn_thread_stand_back ();
  for (;;)
    {
      Loop *loop = take (NULL);
      if (loop != NULL)
        {
          pool.n_idle--;
          help (loop);
          pool.n_idle++;
        }
      else if (!look_round ())
        {
          pool.n_asleep++;
          g_cond_wait (&pool.work, &pool.mutex);
          pool.n_asleep--;
        }
    }
  return NULL;
}

/* Has threads for @n_helpers as far as there may be: with the caller one a processor. */
static void
have_threads (guint n_helpers)
{
  guint most = g_get_num_processors () - 1;
  while (pool.n_idle < n_helpers && pool.n_threads < most)
    {
      GThread *thread = g_thread_try_new ("parallel", thread_main, NULL, NULL);
      if (thread == NULL)
        break; /* those that there are will do */
      g_thread_unref (thread);
      pool.n_threads++;
      pool.n_idle++;
    }
}

static void
wake (guint n_helpers)
{
  for (guint i = 0; i < MIN (n_helpers, pool.n_asleep); i++)
    g_cond_signal (&pool.work);
}

/* Makes a loop known. */
static void
post (Loop *loop)
{
  loop->older = pool.newest;
  pool.newest = loop;
  have_threads (loop->most_helpers);
  tell ();
  wake (loop->most_helpers);
}

static void
withdraw (const Loop *loop)
{
  Loop **at = &pool.newest;
  while (*at != loop)
    at = &(*at)->older;
  *at = loop->older;
}

static void
wait_for_helpers (Loop *loop)
{
  while (g_atomic_int_get (&loop->n_busy) > 0)
    {
      Loop *inner = take (loop);
      if (inner != NULL)
        help (inner);
      else if (!look_round () && g_atomic_int_get (&loop->n_busy) > 0)
        {
          pool.n_waiting++;
          g_cond_wait (&pool.news, &pool.mutex);
          pool.n_waiting--;
        }
    }
}

/* ---- */

guint
trn_parallel_jobs (guint jobs)
{
  return jobs > 0 ? jobs : g_get_num_processors ();
}

void
trn_parallel_expect (guint jobs)
{
  const guint n_threads = trn_parallel_jobs (jobs);
  if (n_threads <= 1)
    return;
  g_mutex_lock (&pool.mutex);
  have_threads (n_threads - 1);
  wake (n_threads - 1);
  g_mutex_unlock (&pool.mutex);
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
  Loop loop = { .within = g_private_get (&working_on),
                .func = func,
                .data = data,
                .count = count,
                .most_helpers = n_threads - 1 };
  g_mutex_lock (&pool.mutex);
  post (&loop);
  g_mutex_unlock (&pool.mutex);
  run (&loop);
  g_mutex_lock (&pool.mutex);
  withdraw (&loop);
  wait_for_helpers (&loop);
  g_mutex_unlock (&pool.mutex);
}
