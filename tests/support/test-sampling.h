/* test-sampling.h: a sweep held against dense samples of its distance, and its spans of contact
 * against the samples that touch. */
#pragma once

#include "interval.h"

typedef double (*TestDistance) (gconstpointer data, double s);

/* The least of @n samples and one, refined round the best of them, which comes to @at; moments no
 * farther apart than @touching_m go to @touching, array of double. */
static inline double
test_sample (TrnInterval span, guint n, TestDistance distance, gconstpointer data,
             double touching_m, GArray *touching, double *at)
{
  double width = trn_interval_width (span), least = INFINITY;
  for (guint i = 0; i <= n; i++)
    {
      double s = fmin (span.lo + width * i / n, span.hi), d = distance (data, s);
      if (d < least)
        {
          least = d;
          *at = s;
        }
      if (d <= touching_m)
        g_array_append_val (touching, s);
    }
  for (double step = width / n; step > 1e-9; step /= 2)
    for (int side = -1; side <= 1; side += 2)
      {
        double s = CLAMP (*at + side * step, span.lo, span.hi), d = distance (data, s);
        if (d < least)
          {
            least = d;
            *at = s;
          }
      }
  return least;
}

/* Each of @touching lies in one of @spans, array of TrnInterval, which are apart and in order. */
static inline void
test_spans_hold (const GArray *spans, const GArray *touching)
{
  for (guint i = 0; i < touching->len; i++)
    {
      double s = g_array_index (touching, double, i);
      gboolean covered = FALSE;
      for (guint j = 0; j < spans->len; j++)
        {
          TrnInterval span = g_array_index (spans, TrnInterval, j);
          covered |= span.lo <= s && s <= span.hi;
        }
      g_assert_true (covered);
    }
  for (guint j = 1; j < spans->len; j++)
    g_assert_cmpfloat (g_array_index (spans, TrnInterval, j - 1).hi, <,
                       g_array_index (spans, TrnInterval, j).lo);
}
