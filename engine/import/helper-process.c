#include "helper-process.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#define HELPER_NAME "trunnion-import"
#define BUFFER_BYTES 65536
#define LOOK_UP_MS 50 /* how often a cancel is looked for while nothing comes */
#define REAP_US 2000

struct _TrnHelperProcess
{
  GPid pid;
  gboolean running;
  int fd;
  gint64 deadline_us;
  const TrnProgress *progress;
  gsize begin, end; /* of what the buffer holds */
  guint8 buffer[BUFFER_BYTES];
};

char *
trn_helper_path_dup (void)
{
  const char *named = g_getenv ("TRUNNION_IMPORT_HELPER");
  if (named != NULL && *named != '\0')
    return g_file_test (named, G_FILE_TEST_IS_EXECUTABLE) ? g_strdup (named) : NULL;

  g_autofree char *self = g_file_read_link ("/proc/self/exe", NULL);
  g_autofree char *folder = g_path_get_dirname (self != NULL ? self : "/");
  char *places[] = {
    g_build_filename (folder, HELPER_NAME, NULL),
    g_build_filename (folder, "..", "..", "engine", "import", HELPER_NAME, NULL),
    g_build_filename (folder, "..", "libexec", "trunnion", HELPER_NAME, NULL),
    g_build_filename (TRN_LIBEXEC_DIR, HELPER_NAME, NULL),
  };
  char *found = NULL;
  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    {
      if (found == NULL && g_file_test (places[i], G_FILE_TEST_IS_EXECUTABLE))
        found = g_steal_pointer (&places[i]);
      g_free (places[i]);
    }
  return found;
}

TrnHelperProcess *
trn_helper_process_new (const char *helper, const char *model, const TrnImportLimits *limits,
                        gint64 deadline_us, const TrnProgress *progress, GError **error)
{
  g_autofree char *memory = g_strdup_printf ("%" G_GSIZE_FORMAT, limits->memory_bytes);
  g_autofree char *cpu = g_strdup_printf ("%u", limits->cpu_s);
  g_autofree char *triangles = g_strdup_printf ("%" G_GUINT32_FORMAT, limits->max_triangles);
  const char *argv[] = { helper, model, memory, cpu, triangles, NULL };
  GPid pid;
  int fd;
  if (!g_spawn_async_with_pipes (NULL, (char **)argv, NULL,
                                 G_SPAWN_DO_NOT_REAP_CHILD | G_SPAWN_STDERR_TO_DEV_NULL, NULL, NULL,
                                 &pid, NULL, &fd, NULL, error))
    return NULL;
  TrnHelperProcess *process = g_new0 (TrnHelperProcess, 1);
  process->pid = pid;
  process->running = TRUE;
  process->fd = fd;
  process->deadline_us = deadline_us;
  process->progress = progress;
  g_assert (fcntl (fd, F_SETFL, O_NONBLOCK) == 0);
  return process;
}

/* Ends what the child may have started: it leads a group of processes, whose number stays taken
 * until it is reaped. */
static void
end_group (const TrnHelperProcess *process)
{
  kill (-process->pid, SIGKILL);
}

void
trn_helper_process_free (TrnHelperProcess *process)
{
  if (process == NULL)
    return;
  if (process->running)
    {
      kill (process->pid, SIGKILL);
      end_group (process);
      while (waitpid (process->pid, NULL, 0) < 0 && errno == EINTR)
        ;
    }
  close (process->fd);
  g_free (process);
}

static TrnPipeResult
may_go_on (const TrnHelperProcess *process)
{
  if (trn_progress_is_cancelled (process->progress))
    return TRN_PIPE_CANCELLED;
  return g_get_monotonic_time () < process->deadline_us ? TRN_PIPE_OK : TRN_PIPE_TIMEOUT;
}

/* Reads at least one byte and at most @room. */
static TrnPipeResult
read_some (TrnHelperProcess *process, void *bytes, gsize room, gsize *got)
{
  for (;;)
    {
      TrnPipeResult result = may_go_on (process);
      if (result != TRN_PIPE_OK)
        return result;
      ssize_t n = read (process->fd, bytes, room);
      *got = n > 0 ? (gsize)n : 0;
      if (n > 0)
        return TRN_PIPE_OK;
      if (n == 0 || (errno != EAGAIN && errno != EINTR))
        return TRN_PIPE_END;
      struct pollfd wait = { .fd = process->fd, .events = POLLIN };
      poll (&wait, 1, LOOK_UP_MS);
    }
}

TrnPipeResult
trn_helper_process_read (TrnHelperProcess *process, void *bytes, gsize length)
{
  guint8 *at = bytes;
  while (length > 0)
    {
      gsize got = MIN (length, process->end - process->begin);
      if (got > 0)
        {
          memcpy (at, process->buffer + process->begin, got);
          process->begin += got;
        }
      else
        {
          gboolean large = length >= BUFFER_BYTES;
          TrnPipeResult result = large ? read_some (process, at, length, &got)
                                       : read_some (process, process->buffer, BUFFER_BYTES, &got);
          if (result != TRN_PIPE_OK)
            return result;
          if (!large)
            {
              process->begin = 0;
              process->end = got;
              continue;
            }
        }
      at += got;
      length -= got;
    }
  return TRN_PIPE_OK;
}

TrnPipeResult
trn_helper_process_wait (TrnHelperProcess *process, int *status)
{
  *status = 0;
  while (process->running)
    {
      siginfo_t end = { .si_pid = 0 };
      int waited = waitid (P_PID, (id_t)process->pid, &end, WEXITED | WNOHANG | WNOWAIT);
      if (waited == 0 && end.si_pid == process->pid)
        {
          end_group (process);
          waitpid (process->pid, status, 0);
          process->running = FALSE;
        }
      else if (waited < 0 && errno == ECHILD)
        process->running = FALSE;
      else
        {
          TrnPipeResult result = may_go_on (process);
          if (result != TRN_PIPE_OK)
            return result;
          g_usleep (REAP_US);
        }
    }
  return TRN_PIPE_OK;
}
