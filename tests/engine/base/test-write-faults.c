/* A file is being written when the disk is full, the folder is read-only, or the process is killed.
 *
 * This program defines the calls of the system by which GLib writes a file, so that each of them
 * can be made to fail, or to be the last thing that the process does, one after the other. A child
 * writes; afterwards the file must hold what was in it before, whole, or the new text, whole. */
#include "write-file.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <signal.h>
#include <stdarg.h>
#include <string.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

#define OLD_TEXT "the old text, longer than nothing"
#define NEW_BYTES 200000

typedef enum
{
  FAULT_NONE,
  FAULT_ERROR,  /* the call fails with an errno */
  FAULT_HALF,   /* a write takes a part, then the disk is full */
  FAULT_KILLED, /* the process ends before the call */
} Fault;

static Fault fault;
static int fault_errno;
static int calls_left = -1; /* until the fault; negative: never */
static int calls_made;

/* Whether this call is to fail. Never returns where the process is killed. */
static gboolean
is_struck (void)
{
  if (calls_left < 0)
    return FALSE;
  calls_made++;
  if (calls_left-- > 0)
    return FALSE;
  /* What is broken stays broken. */
  calls_left = 0;
  if (fault == FAULT_KILLED)
    kill (getpid (), SIGKILL);
  errno = fault_errno;
  return fault != FAULT_NONE;
}

int
open64 (const char *path, int flags, ...)
{
  va_list list;
  va_start (list, flags);
  const mode_t mode = va_arg (list, mode_t);
  va_end (list);
  if ((flags & O_CREAT) != 0 && is_struck ())
    return -1;
  return (int)syscall (SYS_openat, AT_FDCWD, path, flags, mode);
}

int
fallocate64 (int fd, int mode, off64_t offset, off64_t length)
{
  return is_struck () ? -1 : (int)syscall (SYS_fallocate, fd, mode, offset, length);
}

ssize_t
write (int fd, const void *bytes, size_t length)
{
  if (fault == FAULT_HALF && calls_left == 0 && length > 1)
    {
      fault = FAULT_ERROR;
      return syscall (SYS_write, fd, bytes, length / 2);
    }
  return is_struck () ? -1 : syscall (SYS_write, fd, bytes, length);
}

int
fsync (int fd)
{
  return is_struck () ? -1 : (int)syscall (SYS_fsync, fd);
}

int
rename (const char *from, const char *to)
{
  return is_struck () ? -1 : (int)syscall (SYS_rename, from, to);
}

typedef struct
{
  char *folder, *path;
  char *text;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data)
{
  fixture->folder = g_dir_make_tmp ("write-faults-XXXXXX", NULL);
  g_assert_nonnull (fixture->folder);
  fixture->path = g_build_filename (fixture->folder, "results.json", NULL);
  fixture->text = g_strnfill (NEW_BYTES, 'n');
}

static guint
empty_folder (const Fixture *fixture)
{
  guint n = 0;
  g_autoptr (GDir) dir = g_dir_open (fixture->folder, 0, NULL);
  g_assert_nonnull (dir);
  for (const char *name = g_dir_read_name (dir); name != NULL; name = g_dir_read_name (dir), n++)
    {
      g_autofree char *path = g_build_filename (fixture->folder, name, NULL);
      g_assert_cmpint (g_unlink (path), ==, 0);
    }
  return n;
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  empty_folder (fixture);
  g_assert_cmpint (g_rmdir (fixture->folder), ==, 0);
  g_free (fixture->folder);
  g_free (fixture->path);
  g_free (fixture->text);
}

typedef enum
{
  CHILD_WROTE,
  CHILD_SAID_WHY, /* it failed and told so, with a reason */
  CHILD_KILLED,
  CHILD_UNTOUCHED, /* it wrote before the fault's turn came */
} ChildEnd;

/* In the child: writes with the fault as the call number @at. */
static void
write_and_exit (const Fixture *fixture, int at)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  calls_made = 0;
  calls_left = at;
  const gboolean written = trn_write_file (fixture->path, fixture->text, NEW_BYTES, diags);
  calls_left = -1;
  if (written)
    _exit (calls_made > at ? CHILD_WROTE : CHILD_UNTOUCHED);
  const TrnDiag *diag = g_ptr_array_index (diags->items, 0);
  const gboolean said = strcmp (diag->code, "base/cannot-write") == 0
                        && strlen (trn_diag_get (diag, "reason")->text) > 0;
  _exit (said ? CHILD_SAID_WHY : 99);
}

static ChildEnd
write_in_child (const Fixture *fixture, int at)
{
  const pid_t child = fork ();
  g_assert_cmpint (child, >=, 0);
  if (child == 0)
    write_and_exit (fixture, at);
  int status;
  g_assert_cmpint (waitpid (child, &status, 0), ==, child);
  if (WIFSIGNALED (status))
    {
      g_assert_cmpint (WTERMSIG (status), ==, SIGKILL);
      return CHILD_KILLED;
    }
  g_assert_cmpint (WEXITSTATUS (status), <=, CHILD_UNTOUCHED);
  return (ChildEnd)WEXITSTATUS (status);
}

/* What lies at the path: the new text, whole (TRUE), or what was there before, whole. */
static gboolean
is_new (const Fixture *fixture, gboolean had_old)
{
  g_autofree char *read = NULL;
  gsize length = 0;
  if (!g_file_get_contents (fixture->path, &read, &length, NULL))
    {
      g_assert_false (had_old);
      return FALSE;
    }
  if (length == NEW_BYTES && memcmp (read, fixture->text, length) == 0)
    return TRUE;
  g_assert_true (had_old);
  g_assert_cmpmem (read, length, OLD_TEXT, strlen (OLD_TEXT));
  return FALSE;
}

/* Strikes at each call in turn, until the fault comes too late. Returns how many were struck. */
static int
strike_each (const Fixture *fixture, gboolean had_old)
{
  for (int at = 0;; at++)
    {
      empty_folder (fixture);
      if (had_old)
        g_assert_true (g_file_set_contents (fixture->path, OLD_TEXT, -1, NULL));
      const ChildEnd end = write_in_child (fixture, at);
      const gboolean new = is_new (fixture, had_old);
      if (end == CHILD_UNTOUCHED)
        {
          g_assert_true (new);
          return at;
        }
      /* Who says that it was written has written it; who says why not has left nothing beside. */
      if (end == CHILD_WROTE)
        g_assert_true (new);
      if (end == CHILD_SAID_WHY)
        g_assert_cmpuint (empty_folder (fixture), ==, had_old || new ? 1 : 0);
      if (fault == FAULT_KILLED)
        g_assert_cmpint (end, ==, CHILD_KILLED);
    }
}

static const struct
{
  const char *path;
  Fault fault;
  int number;
} faults[] = {
  { "/write-faults/disk-full", FAULT_ERROR, ENOSPC },
  { "/write-faults/disk-full-half-way", FAULT_HALF, ENOSPC },
  { "/write-faults/read-only", FAULT_ERROR, EROFS },
  { "/write-faults/disk-broken", FAULT_ERROR, EIO },
  { "/write-faults/killed", FAULT_KILLED, 0 },
};

/* A new file, and one in the place of an old one. At least four calls are struck: the file is made,
 * written, synced and renamed. */
static void
test_fault (Fixture *fixture, gconstpointer data)
{
  const guint i = GPOINTER_TO_UINT (data);
  fault = faults[i].fault;
  fault_errno = faults[i].number;
  g_assert_cmpint (strike_each (fixture, TRUE), >=, 4);
  g_assert_cmpint (strike_each (fixture, FALSE), >=, 3);
  fault = FAULT_NONE;
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (faults); i++)
    g_test_add (faults[i].path, Fixture, GUINT_TO_POINTER (i), set_up, test_fault, tear_down);
  return g_test_run ();
}
