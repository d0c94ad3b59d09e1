/* extreme.h: the least and the greatest value that a quantity takes over a move, certified: nothing
 * is sampled.
 *
 * Over a span of time the quantity lies within its enclosure, and within sag of the chord between
 * its values at both ends, sag = |f″| h²/8; spans are halved until that is narrow enough. */
#pragma once

#include "jet.h"

/* Encloses the quantity and its first two derivatives by s over @s. FALSE where it has no value at
 * some moment of @s, and where @s is too wide to tell: halves of it tell. TRUE with NAN for
 * derivatives where it has a value but may bend without bound, as a distance near 0. */
typedef gboolean (*TrnQuantity) (gconstpointer data, TrnInterval s, TrnJet *value);

typedef struct
{
  TrnInterval least, greatest; /* the true extreme lies within; the outer end is proven, infinite
                                  where a value is missing; the inner is attained, infinite where
                                  no value was met */
  double least_s, greatest_s;  /* where; NAN where no value was met */
  gboolean complete; /* FALSE: no value at some moment, first found at missing_s, or cut short */
  double missing_s;  /* NAN where it has a value at every moment looked at */
} TrnExtremes;

/* Until both are known to within @width. Where a value is missing the search ends there. */
TrnExtremes
trn_extremes_find (TrnQuantity quantity, gconstpointer data, TrnInterval span, double width);

/* The same over all of several quantities, one after another: of this one and of what @known is
 * about, which must be complete. What is beyond neither of its ends is not followed. */
TrnExtremes trn_extremes_find_beyond (TrnQuantity quantity, gconstpointer data, TrnInterval span,
                                      double width, const TrnExtremes *known);
