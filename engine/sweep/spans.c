/* spans.c: see spans.h. */
#include "spans.h"

#include <math.h>

void
trn_spans_add (GArray *spans, TrnInterval span)
{
  if (spans->len > 0)
    {
      TrnInterval *last = &g_array_index (spans, TrnInterval, spans->len - 1);
      if (span.lo <= last->hi)
        {
          last->hi = fmax (last->hi, span.hi);
          return;
        }
    }
  g_array_append_val (spans, span);
}

void
trn_spans_fill (const GArray *surface, TrnInterval whole, TrnSpansInside inside, gconstpointer pair,
                GArray *spans)
{
  double from = whole.lo;
  for (guint i = 0; i <= surface->len; i++)
    {
      gboolean last = i == surface->len;
      TrnInterval next
          = last ? (TrnInterval){ whole.hi, whole.hi } : g_array_index (surface, TrnInterval, i);
      TrnInterval gap = { from, next.lo };
      if ((gap.lo < gap.hi || (last && surface->len == 0))
          && inside (pair, trn_interval_middle (gap)))
        trn_spans_add (spans, gap);
      if (!last)
        trn_spans_add (spans, next);
      from = next.hi;
    }
}
