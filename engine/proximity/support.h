/* support.h: the point of a small set that lies farthest along a direction: what every certificate
 * of hull.h is made of, and the only place with instructions of a certain processor.
 *
 * Points are kept in single precision, eight to a block, relative to a centre of their own. The
 * instruction set is chosen when the program runs; the scalar twin does the same operations in the
 * same order, so that both give the same bits. */
#pragma once

#include <glib.h>

typedef struct
{
  float x, y, z;
} TrnDirection;

/* A block that is not full repeats its last point. */
typedef struct
{
  float x[8], y[8], z[8];
} TrnPoints8;

typedef struct
{
  float value;   /* n·p, rounded: see TRN_SUPPORT_ERROR */
  guint32 index; /* of the point: 8 · block + place */
} TrnSupport;

/* |value − n·p| <= TRN_SUPPORT_ERROR |n| |p|: three products and two sums, each rounded to
 * v = 2⁻²⁴: 3v/(1 − 3v) Σ|nᵢpᵢ| (Higham 2002, lemma 3.1), and Σ|nᵢpᵢ| <= |n||p|. Products below
 * the normal numbers lose at most 2⁻¹⁴⁹ each on top: see TRN_SUPPORT_LEAST. */
#define TRN_SUPPORT_ERROR (3.01 * 0x1p-24)
#define TRN_SUPPORT_LEAST 0x1p-146

/* Of eight lanes, each with the least value it saw and the first block it was in: the least; the
 * first lane that has it. Added to zero, a zero is positive. */
static inline TrnSupport
trn_support_lane (const float value[8], const guint32 block[8])
{
  guint best = 0;
  for (guint i = 1; i < 8; i++)
    if (value[i] < value[best])
      best = i;
  return (TrnSupport){ value[best] + 0.0f, 8 * block[best] + best };
}

/* The point with the least n·p; of several one and the same on every machine. */
static inline TrnSupport
trn_support_lowest_scalar (const TrnPoints8 *blocks, guint n_blocks, TrnDirection n)
{
  float least[8];
  guint32 where[8] = { 0 };
  for (guint i = 0; i < 8; i++)
    least[i] = n.x * blocks->x[i] + n.y * blocks->y[i] + n.z * blocks->z[i];
  for (guint32 k = 1; k < n_blocks; k++)
    for (guint i = 0; i < 8; i++)
      {
        float v = n.x * blocks[k].x[i] + n.y * blocks[k].y[i] + n.z * blocks[k].z[i];
        where[i] = v < least[i] ? k : where[i];
        least[i] = v < least[i] ? v : least[i];
      }
  return trn_support_lane (least, where);
}

/* Four numbers worked on at once. Any processor has instructions for that, or the compiler makes
 * four operations of one. */
typedef float TrnLanes __attribute__ ((vector_size (16)));

#if defined __x86_64__
#include <immintrin.h>

/* Of each lane a < b ? a : b, and a > b ? a : b. */
static inline TrnLanes
trn_lanes_lesser (TrnLanes a, TrnLanes b)
{
  return _mm_min_ps (a, b);
}

static inline TrnLanes
trn_lanes_greater (TrnLanes a, TrnLanes b)
{
  return _mm_max_ps (a, b);
}

#define TRN_AVX2 __attribute__ ((target ("avx2")))

TRN_AVX2 static inline __m256
trn_support_dots (const TrnPoints8 *block, __m256 x, __m256 y, __m256 z)
{
  __m256 xy = _mm256_add_ps (_mm256_mul_ps (x, _mm256_loadu_ps (block->x)),
                             _mm256_mul_ps (y, _mm256_loadu_ps (block->y)));
  return _mm256_add_ps (xy, _mm256_mul_ps (z, _mm256_loadu_ps (block->z)));
}

/* The same bits as its scalar twin, of points and a direction that are numbers. */
TRN_AVX2 static inline TrnSupport
trn_support_lowest_avx2 (const TrnPoints8 *blocks, guint n_blocks, TrnDirection n)
{
  __m256 x = _mm256_set1_ps (n.x), y = _mm256_set1_ps (n.y), z = _mm256_set1_ps (n.z);
  __m256 least = trn_support_dots (blocks, x, y, z);
  const __m256i one = _mm256_set1_epi32 (1);
  __m256i where = _mm256_setzero_si256 (), at = one;
  for (guint32 k = 1; k < n_blocks; k++)
    {
      __m256 v = trn_support_dots (&blocks[k], x, y, z);
      __m256i less = _mm256_castps_si256 (_mm256_cmp_ps (v, least, _CMP_LT_OQ));
      least = _mm256_min_ps (v, least);
      where = _mm256_blendv_epi8 (where, at, less);
      at = _mm256_add_epi32 (at, one);
    }
  /* the least of all lanes in every lane, and the first lane that has it */
  __m256 all = _mm256_min_ps (least, _mm256_permute2f128_ps (least, least, 1));
  all = _mm256_min_ps (all, _mm256_permute_ps (all, 0x4e));
  all = _mm256_min_ps (all, _mm256_permute_ps (all, 0xb1));
  int lanes = _mm256_movemask_ps (_mm256_cmp_ps (least, all, _CMP_EQ_OQ));
  guint lane = (guint)__builtin_ctz ((unsigned)lanes | 0x80);
  guint32 block[8];
  _mm256_storeu_si256 ((__m256i *)block, where);
  return (TrnSupport){ _mm256_cvtss_f32 (all) + 0.0f, 8 * block[lane] + lane };
}
#else

static inline TrnLanes
trn_lanes_lesser (TrnLanes a, TrnLanes b)
{
  for (guint i = 0; i < 4; i++)
    a[i] = a[i] < b[i] ? a[i] : b[i];
  return a;
}

static inline TrnLanes
trn_lanes_greater (TrnLanes a, TrnLanes b)
{
  for (guint i = 0; i < 4; i++)
    a[i] = a[i] > b[i] ? a[i] : b[i];
  return a;
}
#endif

typedef enum
{
  TRN_SUPPORT_BEST,
  TRN_SUPPORT_SCALAR,
} TrnSupportKind;

/* For tests: which of them hull.h uses from now on; not while others work. */
void trn_support_choose (TrnSupportKind kind);

/* Whether instructions beyond the scalar twin are there and used. */
gboolean trn_support_is_simd (void);
