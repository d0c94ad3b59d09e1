/* helper-process.h: a running import helper, seen as a pipe that never blocks for ever.
 *
 * Not GSubprocess: that one reports the end of a child through a main context, and meshes are read
 * on several threads that have none. g_spawn and waitpid need nothing but the process itself. */
#pragma once

#include "import.h"

typedef enum
{
  TRN_PIPE_OK,
  TRN_PIPE_END, /* the other end closed before all was read */
  TRN_PIPE_CANCELLED,
  TRN_PIPE_TIMEOUT,
} TrnPipeResult;

typedef struct _TrnHelperProcess TrnHelperProcess;

/* The helper's path, owned, or NULL where there is none that can be run: what the environment
 * variable TRUNNION_IMPORT_HELPER names, and nothing else when it is set; else beside the running
 * program, in the build tree it lies in, or where it was installed. */
char *trn_helper_path_dup (void);

/* Microseconds on the monotonic clock. */
TrnHelperProcess *
trn_helper_process_new (const char *helper, const char *model, const TrnImportLimits *limits,
                        gint64 deadline_us, const TrnProgress *progress, GError **error);
/* Kills the child and what it started when it still runs, and reaps it. */
void trn_helper_process_free (TrnHelperProcess *process);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnHelperProcess, trn_helper_process_free)

/* Reads exactly @length bytes. */
TrnPipeResult trn_helper_process_read (TrnHelperProcess *process, void *bytes, gsize length);

/* Waits for the child's end, and ends what it started; @status as waitpid gives it. Where whoever
 * started this program had children reaped by the system (SIGCHLD ignored), it is 0: the answer
 * alone tells then. */
TrnPipeResult trn_helper_process_wait (TrnHelperProcess *process, int *status);
