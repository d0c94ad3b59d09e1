/* outward.h: interval arithmetic that rounds outwards: the result holds every value that the
 * operation takes on the operands (Moore 1966).
 *
 * The rounding mode is left alone. An operation rounded to nearest is off by at most half an ulp,
 * and |x|·2⁻⁵² is at least a whole ulp of x, so x ± |x|·2⁻⁵², itself rounded, reaches at least to
 * the next number on that side: the ends are moved by that. It is exact down to 2⁻⁹⁷⁰; below that,
 * and where a product or quotient loses digits or is 0 because it is too small, the error is less
 * than 2⁻¹⁰²², which a least step of 2⁻⁵⁰⁰ covers; it is not smaller so that products of two steps
 * are no denormal numbers either, which are slow.
 *
 * No value is NAN at both ends: where an operation has none for some value of the operands (root of
 * what may be below 0, division by what may be 0), where it is too large, and whatever is worked
 * out from such. Both ends are finite otherwise. */
#pragma once

#include <math.h>

#include "interval.h"

#define TRN_OUTWARD_SHARE 0x1p-52
#define TRN_OUTWARD_STEP 0x1p-500

/* sin, cos, acos and atan2 of the C library are off by less than an ulp (glibc's manual, "Known
 * Maximum Errors in Math Functions"); twice that is taken. */
#define TRN_OUTWARD_FUNCTION 0x1p-51

static inline TrnInterval
trn_interval_none (void)
{
  return (TrnInterval){ NAN, NAN };
}

static inline gboolean
trn_interval_is_value (TrnInterval a)
{
  return a.hi - a.lo < INFINITY;
}

static inline TrnInterval
trn_interval_point (double x)
{
  return (TrnInterval){ x, x };
}

/* What was rounded to within @share of it, widened. */
static inline TrnInterval
trn_interval_widen (double lo, double hi, double share)
{
  lo -= fabs (lo) * share + TRN_OUTWARD_STEP;
  hi += fabs (hi) * share + TRN_OUTWARD_STEP;
  return hi - lo < INFINITY ? (TrnInterval){ lo, hi } : trn_interval_none ();
}

/* Cut off where no value is. */
static inline TrnInterval
trn_interval_clip (TrnInterval a, double least, double greatest)
{
  return (TrnInterval){ a.lo < least ? least : a.lo, a.hi > greatest ? greatest : a.hi };
}

static inline TrnInterval
trn_interval_neg (TrnInterval a)
{
  return (TrnInterval){ -a.hi, -a.lo };
}

static inline TrnInterval
trn_interval_add (TrnInterval a, TrnInterval b)
{
  return trn_interval_widen (a.lo + b.lo, a.hi + b.hi, TRN_OUTWARD_SHARE);
}

static inline TrnInterval
trn_interval_sub (TrnInterval a, TrnInterval b)
{
  return trn_interval_widen (a.lo - b.hi, a.hi - b.lo, TRN_OUTWARD_SHARE);
}

static inline TrnInterval
trn_interval_scale (TrnInterval a, double k)
{
  double p = a.lo * k, q = a.hi * k;
  return trn_interval_widen (p < q ? p : q, p < q ? q : p, TRN_OUTWARD_SHARE);
}

static inline TrnInterval
trn_interval_mul (TrnInterval a, TrnInterval b)
{
  double p = a.lo * b.lo, q = a.lo * b.hi, r = a.hi * b.lo, t = a.hi * b.hi;
  double lo = p < q ? p : q, hi = p < q ? q : p;
  double lo2 = r < t ? r : t, hi2 = r < t ? t : r;
  return trn_interval_widen (lo < lo2 ? lo : lo2, hi > hi2 ? hi : hi2, TRN_OUTWARD_SHARE);
}

/* Not below 0. */
static inline TrnInterval
trn_interval_square (TrnInterval a)
{
  double p = fabs (a.lo), q = fabs (a.hi);
  double less = a.lo <= 0 && a.hi >= 0 ? 0 : (p < q ? p : q), more = p < q ? q : p;
  return trn_interval_clip (trn_interval_widen (less * less, more * more, TRN_OUTWARD_SHARE), 0,
                            INFINITY);
}

static inline TrnInterval
trn_interval_sqrt (TrnInterval a)
{
  if (!(a.lo >= 0))
    return trn_interval_none ();
  return trn_interval_clip (trn_interval_widen (sqrt (a.lo), sqrt (a.hi), TRN_OUTWARD_SHARE), 0,
                            INFINITY);
}

static inline TrnInterval
trn_interval_inverse (TrnInterval a)
{
  if (!(a.lo > 0 || a.hi < 0))
    return trn_interval_none ();
  return trn_interval_widen (1 / a.hi, 1 / a.lo, TRN_OUTWARD_SHARE);
}

static inline TrnInterval
trn_interval_div (TrnInterval a, TrnInterval b)
{
  return trn_interval_mul (a, trn_interval_inverse (b));
}

/* The smallest that holds both; none where one is none. */
static inline TrnInterval
trn_interval_hull (TrnInterval a, TrnInterval b)
{
  if (!trn_interval_is_value (a) || !trn_interval_is_value (b))
    return trn_interval_none ();
  return (TrnInterval){ a.lo < b.lo ? a.lo : b.lo, a.hi > b.hi ? a.hi : b.hi };
}

/* The greatest absolute value. */
static inline double
trn_interval_size (TrnInterval a)
{
  double p = fabs (a.lo), q = fabs (a.hi);
  return p < q ? q : p;
}

/* Angles beyond this get the whole range of sine and cosine. */
#define TRN_OUTWARD_ANGLE 0x1p20

/* Whether @a may hold (k + phase) turns for a whole k. Turns up to 2²⁰/2π are off by less than
 * 10⁻¹⁰ when worked out; ends closer than 2⁻³⁰ count as within, and taking 1 there for
 * cos (2π 2⁻³⁰) costs less than the widening. */
static inline gboolean
trn_interval_may_turn (TrnInterval a, double phase)
{
  double from = a.lo / (2 * G_PI) - phase - 0x1p-30, to = a.hi / (2 * G_PI) - phase + 0x1p-30;
  return floor (to) >= from;
}

/* The range of a function that takes @at_lo and @at_hi at the ends of @a, reaches 1 at
 * (k + @crest) turns and −1 half a turn from there, and is monotonic between. */
static inline TrnInterval
trn_interval_wave (TrnInterval a, double at_lo, double at_hi, double crest)
{
  if (!trn_interval_is_value (a))
    return a;
  if (!(a.lo >= -TRN_OUTWARD_ANGLE && a.hi <= TRN_OUTWARD_ANGLE))
    return (TrnInterval){ -1, 1 };
  double lo = at_lo < at_hi ? at_lo : at_hi, hi = at_lo < at_hi ? at_hi : at_lo;
  if (trn_interval_may_turn (a, crest))
    hi = 1;
  if (trn_interval_may_turn (a, crest + 0.5))
    lo = -1;
  return trn_interval_clip (trn_interval_widen (lo, hi, TRN_OUTWARD_FUNCTION), -1, 1);
}

static inline TrnInterval
trn_interval_sin (TrnInterval a)
{
  return trn_interval_wave (a, sin (a.lo), sin (a.hi), 0.25);
}

static inline TrnInterval
trn_interval_cos (TrnInterval a)
{
  return trn_interval_wave (a, cos (a.lo), cos (a.hi), 0);
}

/* Within [0, π]; none where @a leaves [−1, 1]. */
static inline TrnInterval
trn_interval_acos (TrnInterval a)
{
  if (!(a.lo >= -1 && a.hi <= 1))
    return trn_interval_none ();
  return trn_interval_clip (trn_interval_widen (acos (a.hi), acos (a.lo), TRN_OUTWARD_FUNCTION), 0,
                            INFINITY);
}
