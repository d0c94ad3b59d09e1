/* slope.h: a quantity over a span of time with its first derivative, each enclosed: a jet (jet.h)
 * for what needs no second one, at less than half the work. The same rules for intervals that have
 * no value. */
#pragma once

#include "jet.h"

typedef struct
{
  TrnInterval v, d;
} TrnSlope;

typedef struct
{
  TrnSlope x, y, z;
} TrnSlope3;

static inline gboolean
trn_slope_is_value (const TrnSlope *a)
{
  return trn_interval_is_value (a->v);
}

static inline TrnSlope
trn_slope_of_jet (const TrnJet *a)
{
  return (TrnSlope){ a->v, a->d };
}

static inline TrnSlope
trn_slope_none (void)
{
  return (TrnSlope){ trn_interval_none (), trn_interval_none () };
}

static inline TrnSlope
trn_slope_add (TrnSlope a, TrnSlope b)
{
  return (TrnSlope){ trn_interval_add (a.v, b.v), trn_interval_add (a.d, b.d) };
}

static inline TrnSlope
trn_slope_sub (TrnSlope a, TrnSlope b)
{
  return (TrnSlope){ trn_interval_sub (a.v, b.v), trn_interval_sub (a.d, b.d) };
}

/* By a number of @k that does not change. */
static inline TrnSlope
trn_slope_scale_within (TrnSlope a, TrnInterval k)
{
  return (TrnSlope){ trn_interval_mul (a.v, k), trn_interval_mul (a.d, k) };
}

static inline TrnSlope
trn_slope_mul (TrnSlope a, TrnSlope b)
{
  return (TrnSlope){ trn_interval_mul (a.v, b.v),
                     trn_interval_add (trn_interval_mul (a.d, b.v), trn_interval_mul (a.v, b.d)) };
}

/* (1/a)′ = −a′/a² */
static inline TrnSlope
trn_slope_inverse (TrnSlope a)
{
  TrnInterval v = trn_interval_inverse (a.v);
  return (TrnSlope){ v, trn_interval_neg (trn_interval_mul (a.d, trn_interval_square (v))) };
}

/* The length of a level vector and the unit vector along it. With v = √(x² + y²): v′ = (x x′ + y
 * y′)/v. */
static inline TrnSlope
trn_slope_direction (TrnSlope x, TrnSlope y, TrnSlope *along_x, TrnSlope *along_y)
{
  TrnSlope length;
  TrnInterval square = trn_interval_add (trn_interval_square (x.v), trn_interval_square (y.v));
  length.v = trn_interval_sqrt (trn_interval_clip (square, 0, INFINITY));
  length.d = trn_interval_mul (
      trn_interval_add (trn_interval_mul (x.v, x.d), trn_interval_mul (y.v, y.d)),
      trn_interval_inverse (length.v));
  TrnSlope inverse = trn_slope_inverse (length);
  *along_x = trn_slope_mul (x, inverse);
  *along_y = trn_slope_mul (y, inverse);
  along_x->v = trn_interval_clip (along_x->v, -1, 1);
  along_y->v = trn_interval_clip (along_y->v, -1, 1);
  return length;
}
