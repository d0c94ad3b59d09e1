/* progress.h: how far a long job is, and the request to stop it.
 *
 * One thread works, another looks and may cancel; both through atomic integers, so that neither
 * waits for the other. */
#pragma once

#include <glib.h>

typedef struct
{
  gint cancelled; /* atomic */
  gint done;      /* atomic; units of work finished */
  gint total;     /* atomic; units of work known so far */
} TrnProgress;

static inline void
trn_progress_cancel (TrnProgress *progress)
{
  g_atomic_int_set (&progress->cancelled, 1);
}

/* @progress may be NULL: a job without one is never cancelled. */
static inline gboolean
trn_progress_is_cancelled (const TrnProgress *progress)
{
  return progress != NULL && g_atomic_int_get (&progress->cancelled) != 0;
}

static inline void
trn_progress_add_total (TrnProgress *progress, gint units)
{
  if (progress != NULL)
    g_atomic_int_add (&progress->total, units);
}

static inline void
trn_progress_add_done (TrnProgress *progress, gint units)
{
  if (progress != NULL)
    g_atomic_int_add (&progress->done, units);
}
