/* Where a run of triangles is split: where both sides are much flatter than the whole, so that the
 * side of a round thing falls into strips along it, whose hulls are about as good as the surface;
 * where no cut does that, across the axis along which the centres spread most, where the sum of the
 * surface areas of both sides times their triangles is least (Goldsmith and Salmon 1987; sixteen
 * bins as in Wald 2007); of a long run some thousand triangles, picked evenly, stand for all in
 * both. From HALVING_DEPTH down it is halved by count, which bounds the depth.
 *
 * All three axes are worked on at once, as lanes of which each does what a single number would, so
 * that the splits are the same everywhere. */
#include "divide.h"

#include <string.h>

#include "support.h"

#define ALWAYS_INLINE __attribute__ ((always_inline)) static inline

#define N_BINS 16

/* A run that bends by no more than this is flat (a strip 0.1 m wide and 1 m long: by 0.1 mm or so);
 * a cut for flatness leaves no more than this share of the bend. */
#define FLAT_M2 1e-9f
#define LEAST_GAIN 0.5f

/* So many triangles of a run tell where to cut it. */
#define MOST_SAMPLES 4096

#define HALVING_DEPTH 28 /* below: at most log₂ 2³² more */

/* Of three numbers, and a fourth that means nothing. */
typedef TrnLanes Lanes;
typedef gint32 Places __attribute__ ((vector_size (16)));

static float
centre_of (const TrnDivideItem *item, int axis)
{
  return item->lo[axis] + item->hi[axis]; /* twice the centre */
}

typedef struct
{
  Lanes lo, hi;
} Bounds;

static const Bounds empty = { { INFINITY, INFINITY, INFINITY, INFINITY },
                              { -INFINITY, -INFINITY, -INFINITY, -INFINITY } };

/* Three floats within an item, and what comes after them. */
ALWAYS_INLINE Lanes
lanes_of (const TrnDivideItem *item, gsize offset)
{
  Lanes lanes;
  memcpy (&lanes, (const char *)item + offset, sizeof lanes);
  return lanes;
}

ALWAYS_INLINE Lanes
lo_of (const TrnDivideItem *item)
{
  return lanes_of (item, G_STRUCT_OFFSET (TrnDivideItem, lo));
}

ALWAYS_INLINE Lanes
hi_of (const TrnDivideItem *item)
{
  return lanes_of (item, G_STRUCT_OFFSET (TrnDivideItem, hi));
}

ALWAYS_INLINE void
bounds_join (Bounds *bounds, Lanes lo, Lanes hi)
{
  bounds->lo = trn_lanes_lesser (bounds->lo, lo);
  bounds->hi = trn_lanes_greater (bounds->hi, hi);
}

static float
half_area (const Bounds *b)
{
  const Lanes size = b->hi - b->lo;
  return size[0] * size[1] + size[1] * size[2] + size[2] * size[0];
}

/* The range of the centres, and the axis along which they spread most. */
static Bounds
spread_of (const TrnDivideItem *items, guint32 n, int *widest)
{
  Bounds spread = empty;
  for (guint32 k = 0; k < n; k++)
    {
      const Lanes centre = lo_of (&items[k]) + hi_of (&items[k]);
      bounds_join (&spread, centre, centre);
    }
  *widest = 0;
  const Lanes size = spread.hi - spread.lo;
  for (int i = 1; i < 3; i++)
    if (size[i] > size[*widest])
      *widest = i;
  return spread;
}

static int
bin_of (float key, float lo, float per_unit)
{
  float bin = (key - lo) * per_unit;
  return bin >= N_BINS - 1 ? N_BINS - 1 : bin > 0 ? (int)bin : 0;
}

/* The same along all axes. */
ALWAYS_INLINE Places
bins_of (const TrnDivideItem *item, Lanes lo, Lanes per_unit)
{
  const Lanes last = { N_BINS - 1, N_BINS - 1, N_BINS - 1, 0 }, none = { 0, 0, 0, 0 };
  const Lanes bins = (lo_of (item) + hi_of (item) - lo) * per_unit;
  return __builtin_convertvector(trn_lanes_lesser (trn_lanes_greater (bins, none), last), Places);
}

/* The number of triangles of a run that are looked at for a cut, and the @k-th of them: multiples
 * of the golden section spread evenly and keep step with no pattern of a mesh (Weyl 1916). */
static guint32
n_samples (guint32 n_items)
{
  return MIN (n_items, MOST_SAMPLES);
}

static inline const TrnDivideItem *
sample (const TrnDivideItem *items, guint32 n_items, guint32 k)
{
  if (n_items <= MOST_SAMPLES)
    return &items[k];
  guint32 part = k * 0x9e3779b1u;
  return &items[(guint64)part * n_items >> 32];
}

/* The first bin of the upper side at the cheapest cut. */
static int
cheapest_cut (const TrnDivideItem *items, guint32 n_items, int axis, float lo, float per_unit)
{
  Bounds bins[N_BINS];
  guint32 counts[N_BINS] = { 0 };
  for (int i = 0; i < N_BINS; i++)
    bins[i] = empty;
  guint32 n_all = n_samples (n_items);
  for (guint32 k = 0; k < n_all; k++)
    {
      const TrnDivideItem *item = sample (items, n_items, k);
      int bin = bin_of (centre_of (item, axis), lo, per_unit);
      bounds_join (&bins[bin], lo_of (item), hi_of (item));
      counts[bin]++;
    }
  float upper_cost[N_BINS];
  Bounds side = empty;
  guint32 n = 0;
  for (int i = N_BINS - 1; i > 0; i--)
    {
      bounds_join (&side, bins[i].lo, bins[i].hi);
      n += counts[i];
      upper_cost[i] = n > 0 ? (float)n * half_area (&side) : 0;
    }
  side = empty;
  n = 0;
  int best = N_BINS / 2;
  float best_cost = INFINITY;
  for (int i = 1; i < N_BINS; i++)
    {
      bounds_join (&side, bins[i - 1].lo, bins[i - 1].hi);
      n += counts[i - 1];
      if (n == 0 || n == n_all)
        continue;
      float cost = (float)n * half_area (&side) + upper_cost[i];
      if (cost < best_cost)
        {
          best = i;
          best_cost = cost;
        }
    }
  return best;
}

/* The sum over triangles of area · n nᵀ, which no turning over changes: xx, yy, zz, the number of
 * triangles, xy, yz, zx, and no matter what. A vector, which compilers add at once. */
typedef float Facing __attribute__ ((vector_size (32)));

ALWAYS_INLINE void
facing_make (const TrnDivideItem *item, Facing *facing)
{
  Lanes m = lanes_of (item, G_STRUCT_OFFSET (TrnDivideItem, normal));
  m[3] = 1;
  const Lanes next = { m[1], m[2], m[0], 0 };
  const Lanes both[2] = { m * m, m * next };
  memcpy (facing, both, sizeof both);
}

static inline float
facing_count (const Facing *facing)
{
  return (*facing)[3];
}

/* By how much it is not flat, as an area: 0 where all face one way, about area · angle² / 12 of a
 * strip that bends by an angle. */
static float
bentness (const Facing *facing)
{
  const Facing m = *facing;
  float squares = m[0] * m[0] + m[1] * m[1] + m[2] * m[2];
  float others = m[4] * m[4] + m[5] * m[5] + m[6] * m[6];
  return m[0] + m[1] + m[2] - sqrtf (squares + 2 * others);
}

/* The axis and the cut at which both sides bend least; FALSE where that gains little, or the whole
 * is flat. */
ALWAYS_INLINE gboolean
find_flattest_cut (const TrnDivideItem *items, guint32 n_items, const Bounds *spread, int *axis,
                   int *cut)
{
  Facing whole = { 0 };
  guint32 n_all = n_samples (n_items);
  for (guint32 k = 0; k < n_all; k++)
    {
      Facing facing;
      facing_make (sample (items, n_items, k), &facing);
      whole += facing;
    }
  float bent = bentness (&whole);
  if (!(bent > FLAT_M2))
    return FALSE;
  Facing bins[3][N_BINS] = { 0 };
  /* Where all centres are at one place all are in the first bin. */
  Lanes per_unit = N_BINS / (spread->hi - spread->lo);
  for (int a = 0; a < 4; a++)
    per_unit[a] = a < 3 && isfinite (per_unit[a]) ? per_unit[a] : 0;
  for (guint32 k = 0; k < n_all; k++)
    {
      const TrnDivideItem *item = sample (items, n_items, k);
      Facing facing;
      facing_make (item, &facing);
      const Places bin = bins_of (item, spread->lo, per_unit);
      for (int a = 0; a < 3; a++)
        bins[a][bin[a]] += facing;
    }
  float best = LEAST_GAIN * bent;
  gboolean found = FALSE;
  for (int a = 0; a < 3; a++)
    {
      Facing upper[N_BINS], lower = { 0 };
      upper[N_BINS - 1] = bins[a][N_BINS - 1];
      for (int i = N_BINS - 1; i-- > 1;)
        {
          upper[i] = upper[i + 1];
          upper[i] += bins[a][i];
        }
      for (int i = 1; i < N_BINS; i++)
        {
          if (facing_count (&bins[a][i - 1]) == 0)
            continue; /* the same sides as before */
          lower += bins[a][i - 1];
          float both = bentness (&lower) + bentness (&upper[i]);
          if (both < best)
            {
              best = both;
              *axis = a;
              *cut = i;
              found = TRUE;
            }
        }
    }
  return found;
}

static gboolean
flattest_cut_scalar (const TrnDivideItem *items, guint32 n_items, const Bounds *spread, int *axis,
                     int *cut)
{
  return find_flattest_cut (items, n_items, spread, axis, cut);
}

#if defined __x86_64__
/* The same operations, so the same bits. */
TRN_AVX2 static gboolean
flattest_cut_avx2 (const TrnDivideItem *items, guint32 n_items, const Bounds *spread, int *axis,
                   int *cut)
{
  return find_flattest_cut (items, n_items, spread, axis, cut);
}
#endif

static gboolean
flattest_cut (const TrnDivideItem *items, guint32 n_items, const Bounds *spread, int *axis,
              int *cut)
{
#if defined __x86_64__
  if (trn_support_is_simd ())
    return flattest_cut_avx2 (items, n_items, spread, axis, cut);
#endif
  return flattest_cut_scalar (items, n_items, spread, axis, cut);
}

static int
compare_centres (gconstpointer a, gconstpointer b, gpointer axis)
{
  const TrnDivideItem *p = a, *q = b;
  float x = centre_of (p, *(int *)axis), y = centre_of (q, *(int *)axis);
  if (x != y)
    return x < y ? -1 : 1;
  return p->triangle < q->triangle ? -1 : 1;
}

guint32
trn_divide (TrnDivideItem *items, guint32 n_items, guint depth)
{
  int axis;
  Bounds spread = spread_of (items, n_items, &axis);
  if (depth < HALVING_DEPTH)
    {
      int cut = 0;
      gboolean flat = !flattest_cut (items, n_items, &spread, &axis, &cut);
      float lo = spread.lo[axis], per_unit = N_BINS / (spread.hi[axis] - lo);
      if (flat)
        cut = isfinite (per_unit) ? cheapest_cut (items, n_items, axis, lo, per_unit) : 0;
      guint32 n = 0;
      for (guint32 k = 0; k < n_items && cut > 0; k++)
        if (bin_of (centre_of (&items[k], axis), lo, per_unit) < cut)
          {
            TrnDivideItem item = items[k];
            items[k] = items[n];
            items[n++] = item;
          }
      if (n > 0 && n < n_items)
        return n;
    }
  g_qsort_with_data (items, (gint)n_items, sizeof *items, compare_centres, &axis);
  return n_items / 2;
}

/* ---- items ---- */

void
trn_divide_item_make (TrnDivideItem *item, const TrnMesh *mesh, guint32 triangle)
{
  const TrnVec3 middle = trn_box_centre (&mesh->box);
  TrnVec3 c[3];
  Bounds box = empty;
  trn_mesh_corners (mesh, triangle, c);
  for (guint i = 0; i < 3; i++)
    {
      const TrnVec3 p = trn_vec3_sub (c[i], middle);
      const Lanes at = { (float)p.x, (float)p.y, (float)p.z, 0 };
      bounds_join (&box, at, at);
    }
  memcpy (item->lo, &box.lo, sizeof item->lo);
  memcpy (item->hi, &box.hi, sizeof item->hi);
  item->triangle = triangle;
  TrnVec3 normal = trn_vec3_cross (trn_vec3_sub (c[1], c[0]), trn_vec3_sub (c[2], c[0]));
  double doubled = trn_vec3_length (normal), scale = doubled > 0 ? sqrt (0.5 / doubled) : 0;
  item->normal[0] = (float)(normal.x * scale);
  item->normal[1] = (float)(normal.y * scale);
  item->normal[2] = (float)(normal.z * scale);
}

void
trn_divide_box (const TrnDivideItem *items, guint32 n_items, float lo[3], float hi[3])
{
  Bounds box = empty;
  for (guint32 k = 0; k < n_items; k++)
    bounds_join (&box, lo_of (&items[k]), hi_of (&items[k]));
  memcpy (lo, &box.lo, 3 * sizeof *lo);
  memcpy (hi, &box.hi, 3 * sizeof *hi);
}
