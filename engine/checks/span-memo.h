/* span-memo.h: what quantities of a move were found to be over spans of it, so that checks which
 * ask for the same spans work them out once. Used by all threads. */
#pragma once

#include "interval.h"

typedef struct _TrnSpanMemo TrnSpanMemo;

TrnSpanMemo *trn_span_memo_new (void);
void trn_span_memo_free (TrnSpanMemo *memo);

/* Quantities of so many intervals at most are kept in the memo itself, others beside it. */
#define TRN_SPAN_MEMO_FEW 4

/* The @n intervals, always as many, of the quantity that the caller calls @what, over @s. FALSE
 * where they were not kept. */
gboolean
trn_span_memo_get (TrnSpanMemo *memo, guint what, TrnInterval s, TrnInterval *values, guint n);

/* Keeps them, unless there are many already. */
void trn_span_memo_put (TrnSpanMemo *memo, guint what, TrnInterval s, const TrnInterval *values,
                        guint n);
