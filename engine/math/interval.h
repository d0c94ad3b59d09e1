/* interval.h: closed intervals of the real line, of time above all. */
#pragma once

#include <glib.h>

typedef struct
{
  double lo, hi;
} TrnInterval;

static inline double
trn_interval_middle (TrnInterval i)
{
  return i.lo + 0.5 * (i.hi - i.lo);
}

static inline double
trn_interval_width (TrnInterval i)
{
  return i.hi - i.lo;
}
