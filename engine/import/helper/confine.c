/* confine.c: a filter of system calls by libseccomp, and Landlock where the kernel offers it.
 *
 * The import library has faults that a file can use. Limits keep it from eating the machine; this
 * keeps it from doing anything but what a reader does. The filter lists what is allowed and refuses
 * the rest with EPERM, which a library reports as it reports a file that cannot be opened: no
 * program started, no socket, no debugger, no ring of requests (io_uring), no new process, no file
 * written, no memory that can be executed. Which file is opened no filter can see, as a name is
 * memory of the process: that is held by folder-io.c, and by Landlock against a process that
 * folder-io.c no longer binds.
 *
 * The list is what builds with gcc, clang and the address sanitizer were seen to call with glibc
 * 2.36 (and the same calls by the names that other machines have for them), what stands behind
 * clocks and locks, and what abort needs, by which the parent knows how the helper ended. */
#include "confine.h"
#include "stream.h"

#include <errno.h>
#include <fcntl.h>
#include <seccomp.h>
#include <sys/mman.h>
#include <sys/syscall.h>
#include <unistd.h>

/* ---- files of one folder: see "Landlock: unprivileged access control" in the kernel's documents,
 * whose numbers these are; the headers of a distribution lag behind its kernels ---- */

#define LANDLOCK_VERSION_FLAG 1u
#define LANDLOCK_PATH_BENEATH 1
#define LANDLOCK_READ_FILE ((guint64)1 << 2)

typedef struct
{
  guint64 files, network, scopes;
} LandlockRules;

typedef struct
{
  guint64 allowed;
  gint32 parent_fd;
} __attribute__ ((packed)) LandlockBeneath;

/* All that a version of the kernel's interface can forbid; @size is that of the struct it knows. */
static LandlockRules
landlock_rules_make (long version, gsize *size)
{
  static const int file_bits[] = { 0, 13, 14, 15, 15, 16 };
  int bits = file_bits[MIN (version, (long)G_N_ELEMENTS (file_bits) - 1)];
  *size = (version >= 6 ? 3 : version >= 4 ? 2 : 1) * sizeof (guint64);
  return (LandlockRules){
    .files = ((guint64)1 << bits) - 1,
    .network = version >= 4 ? 3 : 0, /* bind and connect */
    .scopes = version >= 6 ? 3 : 0,  /* abstract sockets and signals */
  };
}

static gboolean
confine_files (int below_fd)
{
  long version = syscall (SYS_landlock_create_ruleset, NULL, 0, LANDLOCK_VERSION_FLAG);
  if (version < 1)
    return FALSE;
  gsize size;
  LandlockRules rules = landlock_rules_make (version, &size);
  int fd = (int)syscall (SYS_landlock_create_ruleset, &rules, size, 0);
  if (fd < 0)
    return FALSE;
  LandlockBeneath beneath = { .allowed = LANDLOCK_READ_FILE, .parent_fd = below_fd };
  gboolean ok = below_fd < 0
                || syscall (SYS_landlock_add_rule, fd, LANDLOCK_PATH_BENEATH, &beneath, 0) == 0;
  ok = ok && syscall (SYS_landlock_restrict_self, fd, 0) == 0;
  close (fd);
  return ok;
}

/* ---- system calls ---- */

/* Harmless whatever they are given. */
static const int allowed_calls[] = {
  SCMP_SYS (read),
  SCMP_SYS (lseek),
  SCMP_SYS (close),
  SCMP_SYS (fstat),
  SCMP_SYS (newfstatat),
  SCMP_SYS (readlink),
  SCMP_SYS (readlinkat),
  SCMP_SYS (faccessat2), /* realpath, for a folder before `..` */
  SCMP_SYS (faccessat),
  SCMP_SYS (brk),
  SCMP_SYS (munmap),
  SCMP_SYS (mremap),
  SCMP_SYS (madvise),
  SCMP_SYS (futex),
  SCMP_SYS (sched_yield),
  SCMP_SYS (sysinfo), /* qsort asks for the size of the memory */
  SCMP_SYS (clock_gettime),
  SCMP_SYS (gettimeofday),
  SCMP_SYS (getrandom),
  SCMP_SYS (getpid),
  SCMP_SYS (gettid),
  SCMP_SYS (rt_sigprocmask),
  SCMP_SYS (rt_sigreturn),
  SCMP_SYS (sigaltstack),
  /* the address sanitizer asks before it leaves a stack */ SCMP_SYS (restart_syscall),
  SCMP_SYS (exit),
  SCMP_SYS (exit_group),
};

/* Allowed when one argument, as far as the mask goes, is as it must be. The kernel itself looks at
 * the lower half of a register only where an argument is an int. */
static int
allow_some (scmp_filter_ctx filter, int answer_fd)
{
  const guint64 whole = G_MAXUINT32;
  const guint64 writes = O_ACCMODE | O_CREAT | O_TRUNC | (O_TMPFILE & ~O_DIRECTORY);
  const struct
  {
    int call;
    guint argument;
    guint64 mask, value;
  } rules[] = {
    { SCMP_SYS (write), 0, whole, (guint64)answer_fd },
    { SCMP_SYS (openat), 2, writes, O_RDONLY },
    { SCMP_SYS (mmap), 2, PROT_EXEC, 0 },
    { SCMP_SYS (mprotect), 2, PROT_EXEC, 0 },
    { SCMP_SYS (fcntl), 1, whole, F_GETFL },
    { SCMP_SYS (tgkill), 0, whole, (guint64)getpid () },
  };
  int result = 0;
  for (guint i = 0; i < G_N_ELEMENTS (rules) && result == 0; i++)
    {
      const struct scmp_arg_cmp compare
          = { rules[i].argument, SCMP_CMP_MASKED_EQ, rules[i].mask, rules[i].value };
      result = seccomp_rule_add_array (filter, SCMP_ACT_ALLOW, rules[i].call, 1, &compare);
    }
  return result;
}

/* 0, or an error number below zero. */
static int
filter_calls (int answer_fd)
{
  scmp_filter_ctx filter = seccomp_init (SCMP_ACT_ERRNO (EPERM));
  if (filter == NULL)
    return -ENOMEM;
  /* The kernel's own reason when it refuses. */
  int result = seccomp_attr_set (filter, SCMP_FLTATR_API_SYSRAWRC, 1);
  for (guint i = 0; i < G_N_ELEMENTS (allowed_calls) && result == 0; i++)
    result = seccomp_rule_add_array (filter, SCMP_ACT_ALLOW, allowed_calls[i], 0, NULL);
  if (result == 0)
    result = allow_some (filter, answer_fd);
  if (result == 0)
    result = seccomp_load (filter);
  seccomp_release (filter);
  return result;
}

guint32
trn_confine (int answer_fd, int below_fd, const char **why)
{
  guint32 confined = confine_files (below_fd) ? TRN_STREAM_CONFINED_FOLDER : 0;
  int result = filter_calls (answer_fd);
  *why = result < 0 ? g_strerror (-result) : NULL;
  return result < 0 ? confined : confined | TRN_STREAM_CONFINED_CALLS;
}
