/* worst.h: the greatest value that a quantity takes over a move, proven, where it is known by
 * enclosures alone: what has no derivative, as what falls in steps or is the greater of several.
 * Nothing is sampled. */
#pragma once

#include "outward.h"

/* Encloses the quantity over @s: it is nowhere above @value.hi, and nowhere below @value.lo. FALSE
 * where it has no value at some moment of @s, or @s is too wide to tell. */
typedef gboolean (*TrnEnclosure) (gconstpointer data, TrnInterval s, TrnInterval *value);

typedef struct
{
  double bound; /* no moment has more; INFINITY where not complete */
  /* Over which the enclosure is bound; as far as it is told no wider than it takes to tell. */
  TrnInterval bound_s;
  double met;        /* the bound at met_s alone; −INFINITY: no value was met */
  double met_s;      /* NAN */
  gboolean complete; /* FALSE: no value at missing_s */
  double missing_s;  /* NAN where it has a value at every moment looked at */
} TrnWorst;

/* Until bound is at most met and @share of its size apart, where that can be reached in reasonable
 * time; proven in any case. Where the quantity is not known exactly at one moment, as for anything
 * within a box, met is as far as it may reach then. */
TrnWorst
trn_worst_find (TrnEnclosure enclosure, gconstpointer data, TrnInterval span, double share);
