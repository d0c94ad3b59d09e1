/* test-stand-back.c: threads whose work nobody waits for stand behind those that a person waits
 * for; the thread that asks for it, or that calls a loop, keeps its place. A program of its own:
 * the threads of loops are shared by all of it. */
#include "parallel.h"

#include <sys/resource.h>
#include <unistd.h>

#define N_INDICES 64
/* Of those behind, unless the program as a whole is farther behind. */
#define BEHIND 10

static int
niceness (void)
{
  return getpriority (PRIO_PROCESS, (id_t)gettid ());
}

static gpointer
stand_back (gpointer niceness_then)
{
  trn_thread_stand_back ();
  *(int *)niceness_then = niceness ();
  return NULL;
}

static void
test_thread (void)
{
  int before = niceness (), there = before;
  g_thread_join (g_thread_new ("behind", stand_back, &there));
  g_assert_cmpint (there, ==, MAX (before, BEHIND));
  g_assert_cmpint (niceness (), ==, before);
}

typedef struct
{
  GThread *caller;
  int before;
  gint n_by_others; /* atomic */
} Watched;

/* Each index takes so long that another thread has the time to come. */
static void
look (guint index, gpointer data)
{
  Watched *watched = data;
  gboolean is_caller = g_thread_self () == watched->caller;
  if (is_caller)
    g_assert_cmpint (niceness (), ==, watched->before);
  else
    g_assert_cmpint (niceness (), ==, MAX (watched->before, BEHIND));
  g_atomic_int_add (&watched->n_by_others, is_caller ? 0 : 1);
  g_usleep (1000);
}

/* With one processor there is no other thread. */
static void
test_loop (void)
{
  Watched watched = { .caller = g_thread_self (), .before = niceness () };
  trn_parallel_stand_back ();
  gint64 until = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;
  do
    trn_parallel_for (N_INDICES, 0, look, &watched);
  while (g_get_num_processors () > 1 && watched.n_by_others == 0
         && g_get_monotonic_time () < until);
  g_assert_true (g_get_num_processors () == 1 || watched.n_by_others > 0);
  g_assert_cmpint (niceness (), ==, watched.before);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/stand-back/thread", test_thread);
  g_test_add_func ("/stand-back/loop", test_loop);
  return g_test_run ();
}
