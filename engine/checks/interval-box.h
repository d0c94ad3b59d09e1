/* interval-box.h: vectors of which each part is within an interval. What is done with two of them
 * holds of every vector of the one with every vector of the other. */
#pragma once

#include "jet.h"

/* A vector of which each part is within an interval. */
typedef struct
{
  TrnInterval x, y, z;
} TrnBox3;

static inline TrnBox3
trn_box_of (TrnJet3 a)
{
  return (TrnBox3){ a.x.v, a.y.v, a.z.v };
}

static inline TrnBox3
trn_box_sub (TrnBox3 a, TrnBox3 b)
{
  return (TrnBox3){ trn_interval_sub (a.x, b.x), trn_interval_sub (a.y, b.y),
                    trn_interval_sub (a.z, b.z) };
}

static inline TrnBox3
trn_box_scale (TrnBox3 a, TrnInterval k)
{
  return (TrnBox3){ trn_interval_mul (a.x, k), trn_interval_mul (a.y, k),
                    trn_interval_mul (a.z, k) };
}

static inline TrnInterval
trn_box_dot (TrnBox3 a, TrnBox3 b)
{
  return trn_interval_add (
      trn_interval_add (trn_interval_mul (a.x, b.x), trn_interval_mul (a.y, b.y)),
      trn_interval_mul (a.z, b.z));
}

static inline TrnInterval
trn_box_length (TrnBox3 a)
{
  TrnInterval square
      = trn_interval_add (trn_interval_add (trn_interval_square (a.x), trn_interval_square (a.y)),
                          trn_interval_square (a.z));
  return trn_interval_sqrt (trn_interval_clip (square, 0, INFINITY));
}

static inline TrnInterval
trn_box_minor (TrnInterval a, TrnInterval b, TrnInterval c, TrnInterval d)
{
  return trn_interval_sub (trn_interval_mul (a, b), trn_interval_mul (c, d));
}

/* [a b c] = a · (b × c) */
static inline TrnInterval
trn_box_triple (TrnBox3 a, TrnBox3 b, TrnBox3 c)
{
  TrnBox3 cross = { trn_box_minor (b.y, c.z, b.z, c.y), trn_box_minor (b.z, c.x, b.x, c.z),
                    trn_box_minor (b.x, c.y, b.y, c.x) };
  return trn_box_dot (a, cross);
}
