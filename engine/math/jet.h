/* jet.h: a quantity over a span of time, with its first and second derivative, each enclosed in an
 * interval: interval arithmetic and differentiation at once (Moore 1966; Rall 1981).
 *
 * Every operation rounds outwards (outward.h), so an enclosure is proven whatever the quantity.
 * Derivatives are taken by s, the progress within a move.
 *
 * Each of the three intervals is NAN on its own where it has no value: a root has a value at 0 but
 * no derivatives there. A quantity that would have a value at each moment of a wide span may have
 * none over all of it at once, since its operands are enclosed one by one: halves of it tell. */
#pragma once

#include "outward.h"
#include "vec3.h"

typedef struct
{
  TrnInterval v, d, dd;
} TrnJet;

typedef struct
{
  TrnJet x, y, z;
} TrnJet3;

static inline gboolean
trn_jet_is_value (const TrnJet *a)
{
  return trn_interval_is_value (a->v);
}

/* Value and derivatives. */
static inline gboolean
trn_jet_is_smooth (const TrnJet *a)
{
  return trn_interval_is_value (a->v) && trn_interval_is_value (a->d)
         && trn_interval_is_value (a->dd);
}

static inline TrnJet
trn_jet_none (void)
{
  return (TrnJet){ trn_interval_none (), trn_interval_none (), trn_interval_none () };
}

/* A number of @v that does not change. */
static inline TrnJet
trn_jet_within (TrnInterval v)
{
  return (TrnJet){ .v = v };
}

static inline TrnJet
trn_jet_constant (double v)
{
  return (TrnJet){ .v = { v, v } };
}

/* s itself. */
static inline TrnJet
trn_jet_variable (TrnInterval s)
{
  return (TrnJet){ .v = s, .d = { 1, 1 } };
}

static inline TrnJet
trn_jet_neg (TrnJet a)
{
  return (TrnJet){ trn_interval_neg (a.v), trn_interval_neg (a.d), trn_interval_neg (a.dd) };
}

static inline TrnJet
trn_jet_add (TrnJet a, TrnJet b)
{
  return (TrnJet){ trn_interval_add (a.v, b.v), trn_interval_add (a.d, b.d),
                   trn_interval_add (a.dd, b.dd) };
}

static inline TrnJet
trn_jet_sub (TrnJet a, TrnJet b)
{
  return (TrnJet){ trn_interval_sub (a.v, b.v), trn_interval_sub (a.d, b.d),
                   trn_interval_sub (a.dd, b.dd) };
}

/* a + k */
static inline TrnJet
trn_jet_shift (TrnJet a, double k)
{
  a.v = trn_interval_add (a.v, trn_interval_point (k));
  return a;
}

static inline TrnJet
trn_jet_scale (TrnJet a, double k)
{
  return (TrnJet){ trn_interval_scale (a.v, k), trn_interval_scale (a.d, k),
                   trn_interval_scale (a.dd, k) };
}

/* By a number of @k that does not change. */
static inline TrnJet
trn_jet_scale_within (TrnJet a, TrnInterval k)
{
  return (TrnJet){ trn_interval_mul (a.v, k), trn_interval_mul (a.d, k),
                   trn_interval_mul (a.dd, k) };
}

/* (ab)″ = a″b + 2a′b′ + ab″ */
static inline TrnJet
trn_jet_mul (TrnJet a, TrnJet b)
{
  TrnInterval cross = trn_interval_scale (trn_interval_mul (a.d, b.d), 2);
  return (TrnJet){
    trn_interval_mul (a.v, b.v),
    trn_interval_add (trn_interval_mul (a.d, b.v), trn_interval_mul (a.v, b.d)),
    trn_interval_add (trn_interval_add (trn_interval_mul (a.dd, b.v), trn_interval_mul (a.v, b.dd)),
                      cross),
  };
}

/* (a²)″ = 2(a′² + aa″) */
static inline TrnJet
trn_jet_square (TrnJet a)
{
  return (TrnJet){
    trn_interval_square (a.v),
    trn_interval_scale (trn_interval_mul (a.v, a.d), 2),
    trn_interval_scale (trn_interval_add (trn_interval_square (a.d), trn_interval_mul (a.v, a.dd)),
                        2),
  };
}

/* With v = √a: 2vv′ = a′ and v′² + vv″ = a″/2. */
static inline TrnJet
trn_jet_sqrt (TrnJet a)
{
  TrnInterval v = trn_interval_sqrt (a.v), inverse = trn_interval_inverse (v);
  TrnInterval d = trn_interval_mul (trn_interval_scale (a.d, 0.5), inverse);
  TrnInterval rest = trn_interval_sub (trn_interval_scale (a.dd, 0.5), trn_interval_square (d));
  return (TrnJet){ v, d, trn_interval_mul (rest, inverse) };
}

/* (1/a)″ = (2a′²/a − a″)/a² */
static inline TrnJet
trn_jet_inverse (TrnJet a)
{
  TrnInterval v = trn_interval_inverse (a.v), square = trn_interval_square (v);
  TrnInterval bend = trn_interval_mul (trn_interval_scale (trn_interval_square (a.d), 2), v);
  return (TrnJet){ v, trn_interval_neg (trn_interval_mul (a.d, square)),
                   trn_interval_mul (trn_interval_sub (bend, a.dd), square) };
}

static inline TrnJet
trn_jet_div (TrnJet a, TrnJet b)
{
  return trn_jet_mul (a, trn_jet_inverse (b));
}

/* Of the cosine c and the sine s of a: c′ = −s a′, c″ = −s a″ − c a′²; s′ = c a′, s″ = c a″ − s
 * a′².
 */
static inline void
trn_jet_sin_cos (TrnJet a, TrnJet *sine, TrnJet *cosine)
{
  TrnInterval s = trn_interval_sin (a.v), c = trn_interval_cos (a.v);
  TrnInterval square = trn_interval_square (a.d);
  *sine = (TrnJet){ s, trn_interval_mul (c, a.d),
                    trn_interval_sub (trn_interval_mul (c, a.dd), trn_interval_mul (s, square)) };
  *cosine = (TrnJet){ c, trn_interval_neg (trn_interval_mul (s, a.d)),
                      trn_interval_neg (trn_interval_add (trn_interval_mul (s, a.dd),
                                                          trn_interval_mul (c, square))) };
}

/* With w = 1/√(1 − a²): acos′ = −w a′, acos″ = −w (a″ + a a′² w²). No derivatives at ±1. */
static inline TrnJet
trn_jet_acos (TrnJet a)
{
  TrnInterval one = trn_interval_point (1);
  TrnInterval w = trn_interval_inverse (
      trn_interval_sqrt (trn_interval_sub (one, trn_interval_square (a.v))));
  TrnInterval turn = trn_interval_mul (a.d, w);
  TrnInterval bend = trn_interval_add (a.dd, trn_interval_mul (a.v, trn_interval_square (turn)));
  return (TrnJet){ trn_interval_acos (a.v), trn_interval_neg (turn),
                   trn_interval_neg (trn_interval_mul (w, bend)) };
}

/* √a of an a that is a sum of squares, so that what the enclosure has below 0 is none of it. */
static inline TrnJet
trn_jet_root_of_squares (TrnJet a)
{
  a.v = trn_interval_clip (a.v, 0, INFINITY);
  return trn_jet_sqrt (a);
}

static inline TrnJet
trn_jet_hypot (TrnJet a, TrnJet b)
{
  return trn_jet_root_of_squares (trn_jet_add (trn_jet_square (a), trn_jet_square (b)));
}

/* The length of a level vector and the unit vector along it. */
static inline TrnJet
trn_jet_direction (TrnJet x, TrnJet y, TrnJet *along_x, TrnJet *along_y)
{
  TrnJet length = trn_jet_hypot (x, y), inverse = trn_jet_inverse (length);
  *along_x = trn_jet_mul (x, inverse);
  *along_y = trn_jet_mul (y, inverse);
  along_x->v = trn_interval_clip (along_x->v, -1, 1);
  along_y->v = trn_interval_clip (along_y->v, -1, 1);
  return length;
}

/* Encloses it over both spans. */
static inline TrnJet
trn_jet_hull (TrnJet a, TrnJet b)
{
  return (TrnJet){ trn_interval_hull (a.v, b.v), trn_interval_hull (a.d, b.d),
                   trn_interval_hull (a.dd, b.dd) };
}

static inline gboolean
trn_jet3_is_smooth (const TrnJet3 *a)
{
  return trn_jet_is_smooth (&a->x) && trn_jet_is_smooth (&a->y) && trn_jet_is_smooth (&a->z);
}

static inline TrnJet3
trn_jet3_constant (TrnVec3 a)
{
  return (TrnJet3){ trn_jet_constant (a.x), trn_jet_constant (a.y), trn_jet_constant (a.z) };
}

static inline TrnJet3
trn_jet3_add (TrnJet3 a, TrnJet3 b)
{
  return (TrnJet3){ trn_jet_add (a.x, b.x), trn_jet_add (a.y, b.y), trn_jet_add (a.z, b.z) };
}

static inline TrnJet3
trn_jet3_sub (TrnJet3 a, TrnJet3 b)
{
  return (TrnJet3){ trn_jet_sub (a.x, b.x), trn_jet_sub (a.y, b.y), trn_jet_sub (a.z, b.z) };
}

/* a + k */
static inline TrnJet3
trn_jet3_shift (TrnJet3 a, TrnVec3 k)
{
  return (TrnJet3){ trn_jet_shift (a.x, k.x), trn_jet_shift (a.y, k.y), trn_jet_shift (a.z, k.z) };
}

static inline TrnJet3
trn_jet3_scale (TrnJet3 a, TrnJet k)
{
  return (TrnJet3){ trn_jet_mul (a.x, k), trn_jet_mul (a.y, k), trn_jet_mul (a.z, k) };
}

static inline TrnJet
trn_jet3_dot (TrnJet3 a, TrnJet3 b)
{
  return trn_jet_add (trn_jet_add (trn_jet_mul (a.x, b.x), trn_jet_mul (a.y, b.y)),
                      trn_jet_mul (a.z, b.z));
}

static inline TrnJet
trn_jet3_length (TrnJet3 a)
{
  return trn_jet_root_of_squares (
      trn_jet_add (trn_jet_add (trn_jet_square (a.x), trn_jet_square (a.y)), trn_jet_square (a.z)));
}
