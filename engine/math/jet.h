/* jet.h: a quantity over a span of time, with its first and second derivative, each enclosed in an
 * interval: interval arithmetic and differentiation at once (Moore 1966; Rall 1981).
 *
 * Every operation rounds outwards, so an enclosure is proven whatever the quantity. Derivatives are
 * taken by s, the progress within a move. */
#pragma once

#include "interval.h"

typedef struct
{
  TrnInterval v, d, dd;
} TrnJet;

typedef struct
{
  TrnJet x, y, z;
} TrnJet3;
