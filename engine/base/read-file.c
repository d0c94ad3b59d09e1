/* The size is asked of the file that is open, and no more than that is read: a file that grows
 * meanwhile is cut, one that shrinks is short. Opening without waiting matters for a pipe that
 * nobody writes into. */
#include "read-file.h"

#include <errno.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

/* What stands in the way of reading it; 0 where nothing does. */
static int
find_fault (int fd, gsize most, gsize *size)
{
  struct stat st;
  if (fstat (fd, &st) != 0)
    return errno;
  if (!S_ISREG (st.st_mode))
    return ENODEV;
  *size = (gsize)st.st_size;
  return (guint64)st.st_size > most ? EFBIG : 0;
}

/* 0, or what went wrong. */
static int
read_all (int fd, char *bytes, gsize size, gsize *length)
{
  gsize n = 0;
  while (n < size)
    {
      const gssize more = read (fd, bytes + n, size - n);
      if (more < 0 && errno == EINTR)
        continue;
      if (more < 0)
        return errno;
      if (more == 0)
        break;
      n += (gsize)more;
    }
  bytes[n] = '\0';
  *length = n;
  return 0;
}

char *
trn_read_file (const char *path, gsize most, gsize *length)
{
  g_assert (most < G_MAXSIZE);
  const int fd = open (path, O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY);
  if (fd < 0)
    return NULL;
  gsize size = 0;
  int fault = find_fault (fd, most, &size);
  g_autofree char *bytes = fault == 0 ? g_try_malloc (size + 1) : NULL;
  if (fault == 0)
    fault = bytes != NULL ? read_all (fd, bytes, size, length) : ENOMEM;
  close (fd);
  errno = fault;
  return fault == 0 ? g_steal_pointer (&bytes) : NULL;
}
