/* packed-grid.c: see packed-grid.h. Euclid's algorithm on lengths that are known to within an error
 * of their own, after a bound on that error.
 *
 * Rounding. With u = 2^-24, an encoder computes k = ⌊(v − o) · (m / R) + 1/2⌋ for a range R of
 * m = 2^q − 1 steps, a decoder x = k · (R / m) + o, each operation in single precision and none
 * fused. The pitch p is the quotient that the decoder has. With r the greatest |k p| along an axis
 * and M the greatest |x|:
 *   x is within u r + u M of o + k p, where k < 2^24, which is exact; else p ≤ u r;
 *   v is within p / 2 + 9 u r + u M of x: v − o, the range's quotient and its product and the sum
 *   with 1/2 round by u r each, the decoder's quotient and product too, and m and k, where they are
 *   larger than 2^24, by three more.
 *
 * How far the origin is. Let S be the sum of the least and the greatest |x| of an axis, which is no
 * less than any |x| and the width of it. If r ≥ 2 S, the decoder's products and the origin are
 * between r / 2 and 3 r / 2 in size, so all are multiples of a power of two that is greater than
 * u r / 2; their sums are, and stay so when they are rounded. So r < 2 w / u for the greatest power
 * of two w that all coordinates of the axis are multiples of, or r < 2 S. An axis is near when that
 * tells r ≤ 4 S, as of all but those with few or round coordinates, such as 0 and 5, and far when
 * it tells no r ≤ 64 S.
 *
 * The pitch. Lengths along axes that are not far, each a whole number of pitches and wrong by
 * at most 2 (u r + u M), are taken one by one, the least first. At all times either p ≤ B, or a
 * whole number G of pitches, not none, is within d of g. For a length D with the error e and
 * n = round (D / g), D − n G is a whole number of pitches within e' = e + n d of rest = |D − n g|.
 *   If rest > 2 e', it is not none, and g = rest, d = e' from now on: a half of g at most.
 *   If not, it is none, and then G is within e / n of D / n; or p is at most rest + e'. Both are
 *   taken up, by g = D / n, d = e / n and B no less than that, where d becomes smaller and
 *   rest + e' is less than a quarter of g; else D is left out.
 * In ascending order n grows slowly, so d stays some e / n. In the end p ≤ max (g + d, B); nor is
 * it more than the least length there is, as equal k make equal x. None of this takes anything for
 * granted of origin and range.
 *
 * The grid itself. An encoder by itself takes for o the least coordinate of each axis and for R the
 * greatest extent of all; it may be given others. The mesh spans a grid of its own when all lengths
 * are whole numbers of one part in 2^q − 1 of the greatest, so many and so closely that it is no
 * chance. Then r is the width of the axis, which is used where an axis is not near; without it,
 * what is lost along a far one is unknown. On a grid that was given, this is so only where the mesh
 * spans a number of pitches that divides 2^q − 1. The bound on the pitch is sound then as well, and
 * r is taken for no less than 2^16 pitches: grids of up to 16 bits are covered, wherever their
 * origin is.
 */
#include "packed-grid.h"

#include <math.h>
#include <stdlib.h>

/* Single precision rounds to within this share of a number. */
#define HALF_ULP 0x1p-24
#define ENCODED_ROUNDINGS 9
#define NEAR 4
#define NOT_FAR 64
#define MOST_STEPS 0x1p16
#define MOST_BITS 30
/* Of lengths that were spread evenly, one in 2^24 meshes would pass. A length counts where at most
 * an eighth of all would. */
#define LEAST_EVIDENCE 24
#define LEAST_NARROW 8
/* Covers terms of second order. */
#define MORE 1.01

typedef struct
{
  float *values; /* ascending, each once */
  guint32 n;
  double width, most; /* most: the greatest absolute value */
  double sum;         /* of the absolute values of both ends */
  double reach;       /* bound on the length of a product */
} Axis;

typedef struct
{
  double steps, error; /* a whole number of pitches, unless the pitch is at most `other` */
  double other;
} Search;

static int
compare_floats (const void *a, const void *b)
{
  const float x = *(const float *)a, y = *(const float *)b;
  return (x > y) - (x < y);
}

/* The greatest power of two that @x is a multiple of; infinite for 0. */
static double
lowest_bit (float x)
{
  int exponent;
  const double mantissa = frexp ((double)x, &exponent);
  const guint32 bits = (guint32)ldexp (fabs (mantissa), 24);
  return bits != 0 ? ldexp (bits & -bits, exponent - 24) : INFINITY;
}

static float
coordinate_get (const struct aiVector3D *point, int i)
{
  return i == 0 ? point->x : i == 1 ? point->y : point->z;
}

/* Fills @axis, whose values have room for all. */
static void
read_axis (const struct aiVector3D *points, guint32 n_points, int i, Axis *axis)
{
  double lowest = INFINITY;
  guint32 n = 0;
  for (guint32 v = 0; v < n_points; v++)
    if (isfinite (points[v].x) && isfinite (points[v].y) && isfinite (points[v].z))
      axis->values[n++] = coordinate_get (&points[v], i);
  qsort (axis->values, n, sizeof *axis->values, compare_floats);
  for (guint32 v = 0; v < n; v++)
    {
      lowest = fmin (lowest, lowest_bit (axis->values[v]));
      if (axis->n == 0 || axis->values[v] > axis->values[axis->n - 1])
        axis->values[axis->n++] = axis->values[v];
    }
  if (n == 0)
    return;
  const double low = (double)axis->values[0], high = (double)axis->values[axis->n - 1];
  axis->width = high - low;
  axis->most = fmax (fabs (low), fabs (high));
  axis->sum = fabs (low) + fabs (high);
  axis->reach = fmax (2 * axis->sum, 2 * lowest / HALF_ULP);
}

static gboolean
is_near (const Axis *axis)
{
  return axis->reach <= NEAR * axis->sum;
}

static gboolean
is_far (const Axis *axis)
{
  return !(axis->reach <= NOT_FAR * axis->sum);
}

/* How far a length along @axis may be from a whole number of pitches. */
static double
length_error (const Axis *axis, double reach)
{
  return 2 * MORE * HALF_ULP * (reach + axis->most);
}

/* Takes up a length. TRUE when it is no whole number of the steps so far, which become finer. */
static gboolean
take (Search *search, double length, double length_error)
{
  double rest = length, error = length_error, times = 0;
  if (isfinite (search->steps))
    {
      times = round (length / search->steps);
      rest = fabs (length - times * search->steps);
      error += times * search->error;
    }
  if (rest > 2 * error)
    {
      search->steps = rest;
      search->error = error;
      return TRUE;
    }
  if (times > 0 && rest + error < search->steps / 4 && length_error / times < search->error)
    {
      search->other = fmax (search->other, rest + error);
      search->steps = length / times;
      search->error = length_error / times;
    }
  return FALSE;
}

/* All lengths once, as long as they are whole numbers of steps: those between neighbours and those
 * from the least coordinate. TRUE when the steps became finer. */
static gboolean
take_all (Search *search, const Axis axes[3])
{
  for (int i = 0; i < 3; i++)
    {
      const Axis *axis = &axes[i];
      const double error = length_error (axis, axis->reach);
      for (guint32 v = 1; v < axis->n && !is_far (axis); v++)
        if (take (search, (double)axis->values[v] - (double)axis->values[v - 1], error)
            || take (search, (double)axis->values[v] - (double)axis->values[0], error))
          return TRUE;
    }
  return FALSE;
}

/* Begins with the least length. Returns what no pitch is more than by that; infinite where there is
 * none. */
static double
begin_search (Search *search, const Axis axes[3])
{
  double most = INFINITY;
  for (int i = 0; i < 3; i++)
    {
      const Axis *axis = &axes[i];
      const double error = length_error (axis, axis->reach);
      for (guint32 v = 1; v < axis->n && !is_far (axis); v++)
        {
          const double length = (double)axis->values[v] - (double)axis->values[v - 1];
          if (length + error >= most)
            continue;
          most = length + error;
          *search = (Search){ .steps = length, .error = error };
        }
    }
  if (!(search->steps > 2 * search->error))
    *search = (Search){ .steps = INFINITY };
  return most;
}

/* Infinite where there is no length to tell it by. */
static double
find_pitch (const Axis axes[3])
{
  Search search = { .steps = INFINITY };
  const double most = begin_search (&search, axes);
  double before, reach = 0;
  do
    before = search.error;
  while (take_all (&search, axes) || search.error < before / 2);
  for (int i = 0; i < 3; i++)
    if (!is_far (&axes[i]))
      reach = fmax (reach, axes[i].reach);
  const double steps = fmin (fmax (search.steps + search.error, search.other), most);
  return fmax (steps, MORE * HALF_ULP * reach);
}

/* Whether all lengths are whole numbers of such a part of @greatest, and not by chance. */
static gboolean
is_part_of_all (double part, const Axis *greatest, const Axis axes[3])
{
  double evidence = 0;
  for (int i = 0; i < 3; i++)
    {
      const double error
          = length_error (&axes[i], axes[i].width) + length_error (greatest, greatest->width);
      const double narrow = part / (2 * error);
      for (guint32 v = 1; v < axes[i].n; v++)
        {
          const double length = (double)axes[i].values[v] - (double)axes[i].values[0];
          if (fabs (length - round (length / part) * part) > error)
            return FALSE;
          if (narrow >= LEAST_NARROW && length < greatest->width)
            evidence += log2 (narrow);
        }
    }
  return evidence >= LEAST_EVIDENCE;
}

/* Whether the mesh spans a grid that was made for it. */
static gboolean
spans_own_grid (const Axis axes[3])
{
  const Axis *greatest = &axes[0];
  for (int i = 1; i < 3; i++)
    if (axes[i].width > greatest->width)
      greatest = &axes[i];
  for (guint bits = 1; bits <= MOST_BITS; bits++)
    if (is_part_of_all (greatest->width / (double)((1u << bits) - 1), greatest, axes))
      return TRUE;
  return FALSE;
}

TrnPackedAnswer
trn_packed_grid_find (const struct aiVector3D *points, guint32 n_points, TrnPackedGrid *grid)
{
  g_autofree float *values = g_try_new (float, (gsize)n_points * 3 + 1);
  if (values == NULL)
    return TRN_PACKED_NO_MEMORY;
  Axis axes[3] = { 0 };
  for (int i = 0; i < 3; i++)
    {
      axes[i].values = values + (gsize)n_points * (gsize)i;
      read_axis (points, n_points, i, &axes[i]);
    }
  grid->pitch = find_pitch (axes);
  grid->loss = 0;
  if (!isfinite (grid->pitch))
    return TRN_PACKED_UNKNOWN;
  const gboolean own = spans_own_grid (axes);
  for (int i = 0; i < 3; i++)
    {
      const Axis *axis = &axes[i];
      double reach = axis->reach;
      if (!is_near (axis) && own)
        reach = fmin (reach, fmax (axis->width, MOST_STEPS * grid->pitch));
      else if (is_far (axis))
        return TRN_PACKED_UNKNOWN;
      grid->loss = fmax (grid->loss, ENCODED_ROUNDINGS * reach + axis->most);
    }
  grid->loss = MORE * (grid->pitch / 2 + HALF_ULP * grid->loss);
  return TRN_PACKED_KNOWN;
}
