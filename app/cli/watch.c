/* watch.c: a thread of its own looks at the progress ten times a second, so that the engine never
 * waits for a terminal. The handler of the signal sets one atomic integer and no more. */
#include "watch.h"

#include <signal.h>
#include <stdio.h>
#include <unistd.h>

#define LOOK_EVERY_US (G_USEC_PER_SEC / 10)

struct _CliWatch
{
  TrnProgress progress;
  gint stage; /* atomic */
  GThread *thread;
  GMutex mutex;
  GCond cond;
  gboolean stop; /* under the mutex */
};

/* What the handler of SIGINT cancels. */
static TrnProgress *interruptible;

static void
interrupt (int signal_number)
{
  (void)signal_number;
  TrnProgress *progress = g_atomic_pointer_get (&interruptible);
  if (progress != NULL)
    trn_progress_cancel (progress);
}

static void
show (CliWatch *watch)
{
  gint done = g_atomic_int_get (&watch->progress.done);
  gint total = g_atomic_int_get (&watch->progress.total);
  g_autofree char *line = trn_words_progress ((TrnStage)g_atomic_int_get (&watch->stage),
                                              (guint)MAX (done, 0), (guint)MAX (total, 0));
  /* To the start of the line, the text, and nothing after it. */
  fprintf (stderr, "\r%s\033[K", line);
  fflush (stderr);
}

static gpointer
look (gpointer data)
{
  CliWatch *watch = data;
  g_mutex_lock (&watch->mutex);
  while (!watch->stop)
    {
      gint64 next = g_get_monotonic_time () + LOOK_EVERY_US;
      while (!watch->stop && g_cond_wait_until (&watch->cond, &watch->mutex, next))
        ;
      if (!watch->stop)
        show (watch);
    }
  g_mutex_unlock (&watch->mutex);
  fputs ("\r\033[K", stderr);
  fflush (stderr);
  return NULL;
}

static void
set_handler (void (*handler) (int), int flags)
{
  struct sigaction action = { .sa_handler = handler, .sa_flags = flags };
  sigemptyset (&action.sa_mask);
  sigaction (SIGINT, &action, NULL);
}

CliWatch *
cli_watch_start (void)
{
  CliWatch *watch = g_new0 (CliWatch, 1);
  g_mutex_init (&watch->mutex);
  g_cond_init (&watch->cond);
  g_atomic_pointer_set (&interruptible, &watch->progress);
  set_handler (interrupt, (int)(SA_RESETHAND | SA_RESTART));
  if (isatty (STDERR_FILENO) && g_strcmp0 (g_getenv ("TERM"), "dumb") != 0)
    watch->thread = g_thread_new ("watch", look, watch);
  return watch;
}

TrnProgress *
cli_watch_progress (CliWatch *watch)
{
  return &watch->progress;
}

void
cli_watch_stage (CliWatch *watch, TrnStage stage)
{
  g_atomic_int_set (&watch->stage, stage);
  g_atomic_int_set (&watch->progress.done, 0);
  g_atomic_int_set (&watch->progress.total, 0);
}

void
cli_watch_tell (CliWatch *watch, guint done, guint total)
{
  g_atomic_int_set (&watch->progress.done, (gint)done);
  g_atomic_int_set (&watch->progress.total, (gint)total);
}

gboolean
cli_watch_stop (CliWatch *watch)
{
  set_handler (SIG_IGN, 0);
  g_atomic_pointer_set (&interruptible, NULL);
  if (watch->thread != NULL)
    {
      g_mutex_lock (&watch->mutex);
      watch->stop = TRUE;
      g_cond_signal (&watch->cond);
      g_mutex_unlock (&watch->mutex);
      g_thread_join (watch->thread);
    }
  gboolean cancelled = trn_progress_is_cancelled (&watch->progress);
  g_mutex_clear (&watch->mutex);
  g_cond_clear (&watch->cond);
  g_free (watch);
  return cancelled;
}
