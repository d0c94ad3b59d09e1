/* times.h: the spans of time of a search, each with its two halves once they are asked for. What
 * is split is the same for all who search, so several threads share one tree: each makes spans from
 * a store of its own, and where two split the same span at once, one of them keeps what it made
 * for the next. */
#pragma once

#include "bend.h"

typedef struct _TrnTime TrnTime;
struct _TrnTime
{
  TrnSpan span;    /* obstacle frame */
  TrnTime *halves; /* two that lie together, or NULL; atomic */
};

/* A store of spans: for one thread at a time. */
typedef struct
{
  GPtrArray *chunks;
  guint n_pairs;
} TrnTimes;

void trn_times_start (TrnTimes *times);
/* Takes what was made from the store with it. */
void trn_times_clear (TrnTimes *times);

/* A span of its own; it lives as long as @times. */
TrnTime *trn_times_make (TrnTimes *times, const TrnSpan *span);

/* The two halves of @time, made from @times when there are none yet. */
TrnTime *trn_times_split (TrnTimes *times, TrnTime *time, const TrnMotion *motion,
                          const TrnPose *site_from_frame);
