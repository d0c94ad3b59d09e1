/* What the confined helper may not do: each is tried in a child that confined itself as the helper
 * does, and its error number comes back over the only file that it may write to. */
#include "fixture.h"

#include "helper/confine.h"
#include "helper/limits.h"
#include "stream.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/ptrace.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

/* Paths and files that the attempts use; set before the child is made. */
static char *inside, *outside, *made;
static int other_fd, shared_fd;

static gint32
outcome (long result)
{
  return result < 0 ? errno : 0;
}

static gint32
open_and_close (const char *path, int flags)
{
  int fd = open (path, flags | O_CLOEXEC, 0600);
  gint32 result = outcome (fd);
  if (fd >= 0)
    close (fd);
  return result;
}

static gint32
map (int protection, int flags, int fd)
{
  void *at = mmap (NULL, 4096, protection, flags, fd, 0);
  return at == MAP_FAILED ? errno : 0;
}

static gint32
try_read_inside (void)
{
  return open_and_close (inside, O_RDONLY);
}

static gint32
try_open_write (void)
{
  return open_and_close (inside, O_WRONLY);
}

static gint32
try_open_read_write (void)
{
  return open_and_close (inside, O_RDWR);
}

static gint32
try_open_truncate (void)
{
  return open_and_close (inside, O_RDONLY | O_TRUNC);
}

static gint32
try_open_create (void)
{
  return open_and_close (made, O_RDONLY | O_CREAT);
}

static gint32
try_open_nameless (void)
{
  return open_and_close ("/tmp", O_TMPFILE | O_WRONLY);
}

static gint32
try_openat2 (void)
{
  const guint64 how[3] = { O_RDONLY, 0, 0 };
  return outcome (syscall (SYS_openat2, AT_FDCWD, inside, how, sizeof how));
}

static gint32
try_write_elsewhere (void)
{
  return outcome (write (other_fd, "x", 1));
}

static gint32
try_unlink (void)
{
  return outcome (unlink (inside));
}

static gint32
try_rename (void)
{
  return outcome (rename (inside, made));
}

static gint32
try_truncate (void)
{
  return outcome (truncate (inside, 0));
}

static gint32
try_chmod (void)
{
  return outcome (chmod (inside, 0777));
}

static gint32
try_mkdir (void)
{
  return outcome (mkdir (made, 0700));
}

static gint32
try_symlink (void)
{
  return outcome (symlink (inside, made));
}

static gint32
try_memfd (void)
{
  return outcome (memfd_create ("x", 0));
}

static gint32
try_socket (void)
{
  return outcome (socket (AF_INET, SOCK_STREAM, 0));
}

static gint32
try_socket_pair (void)
{
  int fds[2];
  return outcome (socketpair (AF_UNIX, SOCK_STREAM, 0, fds));
}

static gint32
try_exec (void)
{
  char *const arguments[] = { (char *)"true", NULL };
  return outcome (execv ("/bin/true", arguments));
}

static gint32
try_exec_at (void)
{
  char *const arguments[] = { (char *)"true", NULL };
  return outcome (syscall (SYS_execveat, AT_FDCWD, "/bin/true", arguments, NULL, 0));
}

static gint32
try_fork (void)
{
  pid_t pid = fork ();
  if (pid == 0)
    _exit (0);
  return outcome (pid);
}

static gint32
try_clone3 (void)
{
  return outcome (syscall (SYS_clone3, NULL, 0));
}

static gint32
try_trace (void)
{
  return outcome (ptrace (PTRACE_TRACEME, 0, NULL, NULL));
}

static gint32
try_read_parent (void)
{
  return outcome (syscall (SYS_process_vm_readv, getppid (), NULL, 0, NULL, 0, 0));
}

static gint32
try_signal_others (void)
{
  return outcome (kill (0, 0));
}

static gint32
try_thread_signal_others (void)
{
  return outcome (syscall (SYS_tgkill, 1, 1, 0));
}

static gint32
try_map_executable (void)
{
  return map (PROT_READ | PROT_EXEC, MAP_PRIVATE | MAP_ANONYMOUS, -1);
}

static gint32
try_map_writable (void)
{
  return map (PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1);
}

static gint32
try_map_shared_write (void)
{
  return map (PROT_READ | PROT_WRITE, MAP_SHARED, shared_fd);
}

static gint32
try_make_executable (void)
{
  void *at = mmap (NULL, 4096, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
  return at == MAP_FAILED ? -1 : outcome (mprotect (at, 4096, PROT_READ | PROT_EXEC));
}

static gint32
try_ring (void)
{
  return outcome (syscall (SYS_io_uring_setup, 1, NULL));
}

static gint32
try_bpf (void)
{
  return outcome (syscall (SYS_bpf, 0, NULL, 0));
}

static gint32
try_fault_handler (void)
{
  return outcome (syscall (SYS_userfaultfd, 0));
}

static gint32
try_raise_limit (void)
{
  const struct rlimit limit = { 64, 64 };
  return outcome (setrlimit (RLIMIT_NOFILE, &limit));
}

static gint32
try_control (void)
{
  return outcome (fcntl (other_fd, F_DUPFD, 0));
}

static gint32
try_change_folder (void)
{
  return outcome (chdir ("/"));
}

static const struct
{
  const char *name;
  gint32 (*attempt) (void);
  gint32 expected;
} attempts[] = {
  { "read inside", try_read_inside, 0 },
  { "memory", try_map_writable, 0 },
  { "open for writing", try_open_write, EPERM },
  { "open for both", try_open_read_write, EPERM },
  { "open and truncate", try_open_truncate, EPERM },
  { "open and create", try_open_create, EPERM },
  { "open without a name", try_open_nameless, EPERM },
  { "openat2, whose flags no filter sees", try_openat2, EPERM },
  { "write elsewhere", try_write_elsewhere, EPERM },
  { "unlink", try_unlink, EPERM },
  { "rename", try_rename, EPERM },
  { "truncate", try_truncate, EPERM },
  { "chmod", try_chmod, EPERM },
  { "mkdir", try_mkdir, EPERM },
  { "symlink", try_symlink, EPERM },
  { "memfd", try_memfd, EPERM },
  { "socket", try_socket, EPERM },
  { "pair of sockets", try_socket_pair, EPERM },
  { "exec", try_exec, EPERM },
  { "exec at", try_exec_at, EPERM },
  { "fork", try_fork, EPERM },
  { "clone3", try_clone3, EPERM },
  { "trace", try_trace, EPERM },
  { "read the parent", try_read_parent, EPERM },
  { "signal others", try_signal_others, EPERM },
  { "signal another's thread", try_thread_signal_others, EPERM },
  { "map executable", try_map_executable, EPERM },
  { "make executable", try_make_executable, EPERM },
  { "map what was opened for reading, to write", try_map_shared_write, EACCES },
  { "io_uring", try_ring, EPERM },
  { "bpf", try_bpf, EPERM },
  { "userfaultfd", try_fault_handler, EPERM },
  { "raise a limit", try_raise_limit, EPERM },
  { "duplicate a file", try_control, EPERM },
  { "change the folder", try_change_folder, EPERM },
};

static const TrnHelperLimits limits
    = { .memory_bytes = (guint64)1 << 30, .cpu_s = 1, .max_triangles = 1000 };

typedef struct
{
  guint32 confined;
  gint32 outside, results[G_N_ELEMENTS (attempts)];
} Report;

static void
set_up (Fixture *fixture, gconstpointer data)
{
  fixture_set_up (fixture, data);
  g_autofree char *folder = fixture_path (fixture, "folder");
  g_assert_cmpint (mkdir (folder, 0700), ==, 0);
  fixture_write (fixture, "outside", "outside", -1);
  fixture_write (fixture, "folder/inside", "inside", -1);
  outside = fixture_path (fixture, "outside");
  inside = fixture_path (fixture, "folder/inside");
  made = fixture_path (fixture, "folder/made");
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  g_free (outside);
  g_free (inside);
  g_free (made);
  fixture_tear_down (fixture, data);
}

/* The child's whole life. */
static void
report (const Fixture *fixture, int fd)
{
  Report report = { 0 };
  const char *why = NULL;
  g_autofree char *folder = fixture_path (fixture, "folder");
  other_fd = open ("/dev/null", O_WRONLY | O_CLOEXEC);
  shared_fd = open (inside, O_RDONLY | O_CLOEXEC);
  int folder_fd = open (folder, O_PATH | O_DIRECTORY | O_CLOEXEC);
  if (other_fd < 0 || shared_fd < 0 || folder_fd < 0 || !trn_helper_limits_set (&limits))
    _exit (2);
  report.confined = trn_confine (fd, folder_fd, &why);
  if (why != NULL)
    _exit (3);
  report.outside = open_and_close (outside, O_RDONLY);
  for (guint i = 0; i < G_N_ELEMENTS (attempts); i++)
    report.results[i] = attempts[i].attempt ();
  _exit (write (fd, &report, sizeof report) == sizeof report ? 0 : 4);
}

/* Runs one of the two in a child, which must end as @status says, and reads what it wrote. */
static void
run_child (const Fixture *fixture, void (*life) (const Fixture *, int), void *bytes, gsize length,
           int expected)
{
  int fds[2], status;
  g_assert_cmpint (pipe (fds), ==, 0);
  pid_t pid = fork ();
  g_assert_cmpint (pid, >=, 0);
  if (pid == 0)
    {
      close (fds[0]);
      life (fixture, fds[1]);
    }
  close (fds[1]);
  g_assert_cmpint (waitpid (pid, &status, 0), ==, pid);
  g_assert_cmpint (status, ==, expected);
  g_assert_cmpint (read (fds[0], bytes, length), ==, length);
  close (fds[0]);
}

static void
test_attempts (Fixture *fixture, gconstpointer data)
{
  Report got;
  run_child (fixture, report, &got, sizeof got, 0);
  g_assert_cmpuint (got.confined & TRN_STREAM_CONFINED_CALLS, !=, 0);
  for (guint i = 0; i < G_N_ELEMENTS (attempts); i++)
    {
      g_test_message ("%s: %s", attempts[i].name, g_strerror (got.results[i]));
      g_assert_cmpint (got.results[i], ==, attempts[i].expected);
    }
  /* Kernels before 5.13 have no rule for folders; then the library's way to files is the only
   * guard, and a process that was taken over could read here. */
  gboolean by_folder = (got.confined & TRN_STREAM_CONFINED_FOLDER) != 0;
  g_test_message ("the kernel %s rules for folders", by_folder ? "has" : "has no");
  g_assert_cmpint (got.outside, ==, by_folder ? EACCES : 0);
  g_assert_true (g_file_test (inside, G_FILE_TEST_IS_REGULAR));
  g_assert_false (g_file_test (made, G_FILE_TEST_EXISTS));
}

#ifdef TRN_ADDRESS_SANITIZER
#define MEMORY RLIM_INFINITY
#else
#define MEMORY limits.memory_bytes
#endif

static const int bounded[] = { RLIMIT_CPU,   RLIMIT_CORE,    RLIMIT_NOFILE,   RLIMIT_FSIZE,
                               RLIMIT_NPROC, RLIMIT_MEMLOCK, RLIMIT_MSGQUEUE, RLIMIT_AS };

static void
report_limits (const Fixture *fixture, int fd)
{
  guint64 soft[G_N_ELEMENTS (bounded)] = { 0 };
  if (!trn_helper_limits_set (&limits))
    _exit (2);
  for (guint i = 0; i < G_N_ELEMENTS (bounded); i++)
    {
      struct rlimit limit;
      if (getrlimit ((__rlimit_resource_t)bounded[i], &limit) != 0)
        _exit (3);
      soft[i] = limit.rlim_cur;
    }
  if (write (fd, soft, sizeof soft) != sizeof soft)
    _exit (4);
  for (volatile guint64 i = 0;; i = i + 1)
    ;
}

/* Each limit is set, and a second of processor time ends the child by the signal that tells. */
static void
test_limits (Fixture *fixture, gconstpointer data)
{
  const guint64 expected[G_N_ELEMENTS (bounded)] = { 1, 0, 64, 0, 0, 0, 0, MEMORY };
  guint64 soft[G_N_ELEMENTS (bounded)];
  run_child (fixture, report_limits, soft, sizeof soft, SIGXCPU);
  for (guint i = 0; i < G_N_ELEMENTS (bounded); i++)
    g_assert_cmpuint (soft[i], ==, expected[i]);
}

/* Only a file is allowed, not the folder that it is in. */
static void
report_file (const Fixture *fixture, int fd)
{
  const char *why = NULL;
  g_autofree char *beside = fixture_path (fixture, "folder/beside");
  int file_fd = open (inside, O_PATH | O_CLOEXEC);
  if (file_fd < 0 || !trn_helper_limits_set (&limits))
    _exit (2);
  gint32 got[3] = { (gint32)trn_confine (fd, file_fd, &why) };
  got[1] = open_and_close (inside, O_RDONLY);
  got[2] = open_and_close (beside, O_RDONLY);
  _exit (write (fd, got, sizeof got) == sizeof got ? 0 : 4);
}

static void
test_file (Fixture *fixture, gconstpointer data)
{
  gint32 got[3];
  fixture_write (fixture, "folder/beside", "beside", -1);
  run_child (fixture, report_file, got, sizeof got, 0);
  gboolean by_folder = ((guint32)got[0] & TRN_STREAM_CONFINED_FOLDER) != 0;
  g_assert_cmpint (got[1], ==, 0);
  g_assert_cmpint (got[2], ==, by_folder ? EACCES : 0);
}

static void
abort_confined (const Fixture *fixture, int fd)
{
  const char *why = NULL;
  signal (SIGABRT, SIG_DFL);
  if (!trn_helper_limits_set (&limits) || write (fd, "x", 1) != 1)
    _exit (2);
  trn_confine (fd, -1, &why);
  abort ();
}

/* The parent still learns how the import library ended it. */
static void
test_abort (Fixture *fixture, gconstpointer data)
{
  char byte;
  run_child (fixture, abort_confined, &byte, 1, SIGABRT);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(path, func) g_test_add (path, Fixture, NULL, set_up, func, tear_down)
  ADD ("/import/confinement/attempts", test_attempts);
  ADD ("/import/confinement/file", test_file);
  ADD ("/import/confinement/limits", test_limits);
  ADD ("/import/confinement/abort", test_abort);
  return g_test_run ();
}
