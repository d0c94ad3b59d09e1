/* background.c: on Linux niceness is one thread's, and is passed on to those that it starts. */
#include "background.h"

#include <sys/resource.h>
#include <unistd.h>

#define NICENESS 10

typedef struct
{
  GThreadFunc func;
  gpointer data;
} Work;

static gpointer
run (gpointer data)
{
  Work work = *(Work *)data;
  g_free (data);
  /* Where it is refused the work is done all the same, only less politely. */
  (void)setpriority (PRIO_PROCESS, (id_t)gettid (), NICENESS);
  return work.func (work.data);
}

void
desk_background_start (const char *name, GThreadFunc func, gpointer data)
{
  Work *work = g_new (Work, 1);
  *work = (Work){ func, data };
  g_thread_unref (g_thread_new (name, run, work));
}
