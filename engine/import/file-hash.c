#include "file-hash.h"
#include "sha256.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define HASH_BYTES 262144

static TrnHashResult
add_file (int fd, const TrnProgress *progress, gint64 deadline_us, TrnSha256 *sum, int *reason)
{
  g_autofree guchar *buffer = g_malloc (HASH_BYTES);
  for (;;)
    {
      if (trn_progress_is_cancelled (progress))
        return TRN_HASH_CANCELLED;
      if (g_get_monotonic_time () >= deadline_us)
        return TRN_HASH_TIMEOUT;
      ssize_t n = read (fd, buffer, HASH_BYTES);
      if (n < 0 && errno == EINTR)
        continue;
      if (n < 0)
        {
          *reason = errno;
          return TRN_HASH_UNREADABLE;
        }
      if (n == 0)
        return TRN_HASH_OK;
      trn_sha256_add (sum, buffer, (gsize)n);
    }
}

TrnHashResult
trn_file_hash (int fd, const TrnProgress *progress, gint64 deadline_us, char sha256[65],
               int *reason)
{
  TrnSha256 sum;
  trn_sha256_start (&sum);
  const TrnHashResult result = add_file (fd, progress, deadline_us, &sum, reason);
  trn_sha256_end (&sum, result == TRN_HASH_OK ? sha256 : NULL);
  return result;
}

static int
open_folder_of (const char *model)
{
  char *resolved = realpath (model, NULL);
  g_autofree char *folder = resolved != NULL ? g_path_get_dirname (resolved) : NULL;
  free (resolved);
  return folder != NULL ? open (folder, O_PATH | O_DIRECTORY | O_CLOEXEC) : -1;
}

/* The next step down from @at, which is closed. */
static int
step_down (int at, const char *name, gboolean is_last)
{
  gboolean leads_on = name[0] != '\0' && strcmp (name, ".") != 0 && strcmp (name, "..") != 0;
  int flags = is_last ? O_RDONLY | O_NONBLOCK | O_NOCTTY : O_PATH | O_DIRECTORY;
  int next = leads_on ? openat (at, name, flags | O_NOFOLLOW | O_CLOEXEC) : -1;
  close (at);
  return next;
}

int
trn_file_open_beside (const char *model, const char *name)
{
  g_auto (GStrv) names = g_strsplit (name, "/", -1);
  if (names[0] == NULL)
    return -1;
  int fd = open_folder_of (model);
  for (guint i = 0; names[i] != NULL && fd >= 0; i++)
    fd = step_down (fd, names[i], names[i + 1] == NULL);
  struct stat st;
  if (fd < 0 || (fstat (fd, &st) == 0 && S_ISREG (st.st_mode)))
    return fd;
  close (fd);
  return -1;
}
