#include "limits.h"

#include <signal.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <unistd.h>

static gboolean
set_limit (int which, rlim_t soft, rlim_t hard)
{
  struct rlimit old;
  if (getrlimit ((__rlimit_resource_t)which, &old) != 0)
    return FALSE;
  struct rlimit wanted = { MIN (soft, old.rlim_max), MIN (hard, old.rlim_max) };
  return setrlimit ((__rlimit_resource_t)which, &wanted) == 0;
}

gboolean
trn_helper_limits_set (const TrnHelperLimits *limits)
{
  /* The soft limit sends SIGXCPU, by which the parent knows the reason; the hard one kills. */
  gboolean ok = set_limit (RLIMIT_CPU, limits->cpu_s, limits->cpu_s + 1)
                && set_limit (RLIMIT_CORE, 0, 0) && set_limit (RLIMIT_NOFILE, 64, 64)
                && set_limit (RLIMIT_FSIZE, 0, 0) && set_limit (RLIMIT_NPROC, 0, 0)
                && set_limit (RLIMIT_MEMLOCK, 0, 0)
                && set_limit (RLIMIT_MSGQUEUE, 0, 0)
                /* A group of its own: the parent ends all of it. */
                && (getpgrp () == getpid () || setpgid (0, 0) == 0)
                && prctl (PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0
                /* Ends with the thread that started it, however that ends. */
                && prctl (PR_SET_PDEATHSIG, SIGKILL, 0, 0, 0) == 0;
#ifndef TRN_ADDRESS_SANITIZER
  ok = ok && set_limit (RLIMIT_AS, limits->memory_bytes, limits->memory_bytes);
#endif
  return ok;
}
