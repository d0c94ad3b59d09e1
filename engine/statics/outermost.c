/* Two points at once, or four where the processor has instructions for that. Each lane does what a
 * single number would, and which of several equal ones counts is fixed, so that both come to the
 * same bits. */
#include "outermost.h"

#include <string.h>

#include "support.h"

#define WAYS 8u /* right, up and between, and the other ways */
#define HALF (WAYS / 2)

/* Sides of a polygon: what is by x and y beyond from is within. */
typedef struct
{
  double x[WAYS], y[WAYS], from[WAYS];
} Sides;

static Sides
sides_between (const double *x, const double *y, const guint far[WAYS])
{
  Sides sides;
  for (guint k = 0; k < WAYS; k++)
    {
      const guint a = far[k], b = far[(k + 1) % WAYS];
      const double by_x = y[a] - y[b], by_y = x[b] - x[a];
      sides.x[k] = by_x;
      sides.y[k] = by_y;
      /* One and the same: no side. */
      sides.from[k] = by_x != 0 || by_y != 0 ? by_x * x[a] + by_y * y[a] : -1;
    }
  return sides;
}

/* ---- any processor ---- */

typedef double Pair __attribute__ ((vector_size (16)));
typedef gint64 Truths __attribute__ ((vector_size (16)));

static inline Pair
pair_at (const double *values, guint i)
{
  Pair pair;
  memcpy (&pair, values + i, sizeof pair);
  return pair;
}

static void
place_pairs (const double *const along[3], guint n, TrnVec3 across, TrnVec3 up, double *x,
             double *y)
{
  for (guint i = 0; i < n; i++)
    {
      const TrnVec3 point = { along[0][i], along[1][i], along[2][i] };
      x[i] = trn_vec3_dot (point, across);
      y[i] = trn_vec3_dot (point, up);
    }
}

/* How far points come right, up and between; the least of it is how far they come the other way. */
typedef struct
{
  double least[HALF], most[HALF];
} Range;

static void
see_far (double x, double y, guint i, Range *range, guint far[WAYS])
{
  const double by[HALF] = { x, x + y, y, y - x };
  for (guint k = 0; k < HALF; k++)
    {
      if (by[k] > range->most[k])
        {
          range->most[k] = by[k];
          far[k] = i;
        }
      if (by[k] < range->least[k])
        {
          range->least[k] = by[k];
          far[k + HALF] = i;
        }
    }
}

static gboolean
is_beyond (Pair x, Pair y, const Range *range)
{
  const Pair by[HALF] = { x, x + y, y, y - x };
  Truths beyond = { 0, 0 };
  for (guint k = 0; k < HALF; k++)
    beyond |= (by[k] > range->most[k]) | (by[k] < range->least[k]);
  return (beyond[0] | beyond[1]) != 0;
}

static void
find_far_pairs (const double *x, const double *y, guint n, guint far[WAYS])
{
  Range range;
  guint i = 0;
  for (guint k = 0; k < WAYS; k++)
    far[k] = 0;
  for (guint k = 0; k < HALF; k++)
    {
      range.least[k] = INFINITY;
      range.most[k] = -INFINITY;
    }
  for (; i + 1 < n; i += 2)
    if (is_beyond (pair_at (x, i), pair_at (y, i), &range))
      {
        see_far (x[i], y[i], i, &range, far);
        see_far (x[i + 1], y[i + 1], i + 1, &range, far);
      }
  if (i < n)
    see_far (x[i], y[i], i, &range, far);
}

static Truths
are_within (const Sides *sides, Pair x, Pair y)
{
  Truths within = { -1, -1 };
  for (guint k = 0; k < WAYS; k++)
    within &= sides->x[k] * x + sides->y[k] * y > sides->from[k];
  return within;
}

static guint
keep_pairs (const double *x, const double *y, guint n, TrnPlanePoint *places)
{
  guint far[WAYS], kept = 0;
  find_far_pairs (x, y, n, far);
  const Sides sides = sides_between (x, y, far);
  for (guint i = 0; i < n; i += 2)
    {
      /* Of an odd number the last is seen with the one before it. */
      const guint from = MIN (i, n - 2);
      const Truths within = are_within (&sides, pair_at (x, from), pair_at (y, from));
      for (guint k = i; k < MIN (i + 2, n); k++)
        {
          places[kept] = (TrnPlanePoint){ x[k], y[k], k };
          kept += within[k - from] == 0;
        }
    }
  return kept;
}

/* ---- four at once ---- */

#if defined __x86_64__

/* Where the last four begin is seen with some of those before them. */
#define LAST(i, n) MIN (i, (n)-4)

TRN_AVX2 static inline __m256d
dots_at (const double *const along[3], guint i, TrnVec3 direction)
{
  const __m256d xy = _mm256_add_pd (
      _mm256_mul_pd (_mm256_loadu_pd (along[0] + i), _mm256_set1_pd (direction.x)),
      _mm256_mul_pd (_mm256_loadu_pd (along[1] + i), _mm256_set1_pd (direction.y)));
  return _mm256_add_pd (
      xy, _mm256_mul_pd (_mm256_loadu_pd (along[2] + i), _mm256_set1_pd (direction.z)));
}

TRN_AVX2 static void
place_avx2 (const double *const along[3], guint n, TrnVec3 across, TrnVec3 up, double *x, double *y)
{
  for (guint i = 0; i < n; i += 4)
    {
      const guint from = LAST (i, n);
      _mm256_storeu_pd (x + from, dots_at (along, from, across));
      _mm256_storeu_pd (y + from, dots_at (along, from, up));
    }
}

/* How far four points come right, up and between. */
typedef struct
{
  __m256d right, rising, up, falling;
} Ways;

TRN_AVX2 static inline Ways
ways_at (const double *x, const double *y, guint i)
{
  const __m256d right = _mm256_loadu_pd (x + i), up = _mm256_loadu_pd (y + i);
  return (Ways){ right, _mm256_add_pd (right, up), up, _mm256_sub_pd (up, right) };
}

/* Of its lanes the greatest, in all of them. */
TRN_AVX2 static inline __m256d
greatest_of (__m256d lanes)
{
  lanes = _mm256_max_pd (lanes, _mm256_permute2f128_pd (lanes, lanes, 1));
  return _mm256_max_pd (lanes, _mm256_permute_pd (lanes, 5));
}

TRN_AVX2 static inline __m256d
least_of (__m256d lanes)
{
  lanes = _mm256_min_pd (lanes, _mm256_permute2f128_pd (lanes, lanes, 1));
  return _mm256_min_pd (lanes, _mm256_permute_pd (lanes, 5));
}

TRN_AVX2 static inline __m256d
equal_any (__m256d by, __m256d most, __m256d least)
{
  return _mm256_or_pd (_mm256_cmp_pd (by, most, _CMP_EQ_OQ), _mm256_cmp_pd (by, least, _CMP_EQ_OQ));
}

/* The first of the four from @first on that is as far as it goes, unless one is known. */
TRN_AVX2 static inline void
note_first (__m256d by, __m256d farthest, guint first, guint *far)
{
  const int lanes = _mm256_movemask_pd (_mm256_cmp_pd (by, farthest, _CMP_EQ_OQ));
  if (lanes != 0 && *far == G_MAXUINT)
    *far = first + (guint)__builtin_ctz ((unsigned)lanes);
}

/* First how far they come, then which ones do. All ways are written out, to stay in registers. */
TRN_AVX2 static inline void
find_far_avx2 (const double *x, const double *y, guint n, guint far[WAYS])
{
  Ways most = ways_at (x, y, 0), least = most;
  for (guint i = 4; i < n; i += 4)
    {
      const Ways by = ways_at (x, y, LAST (i, n));
      most = (Ways){ _mm256_max_pd (most.right, by.right), _mm256_max_pd (most.rising, by.rising),
                     _mm256_max_pd (most.up, by.up), _mm256_max_pd (most.falling, by.falling) };
      least
          = (Ways){ _mm256_min_pd (least.right, by.right), _mm256_min_pd (least.rising, by.rising),
                    _mm256_min_pd (least.up, by.up), _mm256_min_pd (least.falling, by.falling) };
    }
  most = (Ways){ greatest_of (most.right), greatest_of (most.rising), greatest_of (most.up),
                 greatest_of (most.falling) };
  least = (Ways){ least_of (least.right), least_of (least.rising), least_of (least.up),
                  least_of (least.falling) };
  for (guint k = 0; k < WAYS; k++)
    far[k] = G_MAXUINT;
  for (guint i = 0; i < n; i += 4)
    {
      const guint from = LAST (i, n);
      const Ways by = ways_at (x, y, from);
      const __m256d any
          = _mm256_or_pd (_mm256_or_pd (equal_any (by.right, most.right, least.right),
                                        equal_any (by.rising, most.rising, least.rising)),
                          _mm256_or_pd (equal_any (by.up, most.up, least.up),
                                        equal_any (by.falling, most.falling, least.falling)));
      if (_mm256_movemask_pd (any) == 0)
        continue;
      note_first (by.right, most.right, from, &far[0]);
      note_first (by.rising, most.rising, from, &far[1]);
      note_first (by.up, most.up, from, &far[2]);
      note_first (by.falling, most.falling, from, &far[3]);
      note_first (by.right, least.right, from, &far[4]);
      note_first (by.rising, least.rising, from, &far[5]);
      note_first (by.up, least.up, from, &far[6]);
      note_first (by.falling, least.falling, from, &far[7]);
    }
}

TRN_AVX2 static inline __m256d
beyond_side (const Sides *sides, guint k, __m256d x, __m256d y)
{
  const __m256d at = _mm256_add_pd (_mm256_mul_pd (_mm256_broadcast_sd (&sides->x[k]), x),
                                    _mm256_mul_pd (_mm256_broadcast_sd (&sides->y[k]), y));
  return _mm256_cmp_pd (at, _mm256_broadcast_sd (&sides->from[k]), _CMP_GT_OQ);
}

/* One bit a lane. */
TRN_AVX2 static inline guint
within_avx2 (const Sides *sides, __m256d x, __m256d y)
{
  const __m256d a = _mm256_and_pd (beyond_side (sides, 0, x, y), beyond_side (sides, 1, x, y)),
                b = _mm256_and_pd (beyond_side (sides, 2, x, y), beyond_side (sides, 3, x, y)),
                c = _mm256_and_pd (beyond_side (sides, 4, x, y), beyond_side (sides, 5, x, y)),
                d = _mm256_and_pd (beyond_side (sides, 6, x, y), beyond_side (sides, 7, x, y));
  return (guint)_mm256_movemask_pd (_mm256_and_pd (_mm256_and_pd (a, b), _mm256_and_pd (c, d)));
}

TRN_AVX2 static guint
keep_avx2 (const double *x, const double *y, guint n, TrnPlanePoint *places)
{
  guint far[WAYS], kept = 0;
  find_far_avx2 (x, y, n, far);
  const Sides sides = sides_between (x, y, far);
  for (guint i = 0; i < n; i += 4)
    {
      const guint from = LAST (i, n);
      guint within = within_avx2 (&sides, _mm256_loadu_pd (x + from), _mm256_loadu_pd (y + from));
      /* Which ones are, no processor foresees: so all are written. */
      within >>= i - from;
      for (guint k = i; k < MIN (i + 4, n); k++, within >>= 1)
        {
          places[kept] = (TrnPlanePoint){ x[k], y[k], k };
          kept += ~within & 1;
        }
    }
  return kept;
}
#endif

/* ---- */

void
trn_outermost_place (const double *const along[3], guint n, TrnVec3 across, TrnVec3 up, double *x,
                     double *y)
{
#if defined __x86_64__
  if (n >= 4 && trn_support_is_simd ())
    {
      place_avx2 (along, n, across, up, x, y);
      return;
    }
#endif
  place_pairs (along, n, across, up, x, y);
}

guint
trn_outermost_keep (const double *x, const double *y, guint n, TrnPlanePoint *places)
{
  g_assert (n >= 4);
#if defined __x86_64__
  if (trn_support_is_simd ())
    return keep_avx2 (x, y, n, places);
#endif
  return keep_pairs (x, y, n, places);
}
