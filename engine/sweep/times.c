#include "times.h"

#define PAIRS_A_CHUNK 32

void
trn_times_start (TrnTimes *times)
{
  times->chunks = g_ptr_array_new_with_free_func (g_free);
  times->n_pairs = 0;
}

void
trn_times_clear (TrnTimes *times)
{
  g_ptr_array_unref (times->chunks);
}

/* Where the next pair goes. */
static TrnTime *
free_pair (TrnTimes *times)
{
  if (times->n_pairs == PAIRS_A_CHUNK * times->chunks->len)
    g_ptr_array_add (times->chunks, g_new (TrnTime, 2 * PAIRS_A_CHUNK));
  TrnTime *chunk = times->chunks->pdata[times->n_pairs / PAIRS_A_CHUNK];
  return chunk + 2 * (times->n_pairs % PAIRS_A_CHUNK);
}

TrnTime *
trn_times_make (TrnTimes *times, const TrnSpan *span)
{
  TrnTime *made = free_pair (times);
  times->n_pairs++;
  *made = (TrnTime){ *span, NULL };
  return made;
}

TrnTime *
trn_times_split (TrnTimes *times, TrnTime *time, const TrnMotion *motion,
                 const TrnPose *site_from_frame)
{
  TrnTime *halves = g_atomic_pointer_get (&time->halves);
  if (halves != NULL)
    return halves;
  TrnSpan spans[2];
  trn_span_halve (&time->span, motion, site_from_frame, spans);
  halves = free_pair (times);
  for (guint i = 0; i < 2; i++)
    halves[i] = (TrnTime){ spans[i], NULL };
  if (!g_atomic_pointer_compare_and_exchange (&time->halves, NULL, halves))
    return g_atomic_pointer_get (&time->halves);
  times->n_pairs++;
  return halves;
}
