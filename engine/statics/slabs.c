/* Where to cut. How wide the mesh is along its axis is taken from the boxes of triangles, in many
 * bins; then neighbours become one as long as their common box is about as long and wide as the
 * two. That is a choice only.
 *
 * Hulls. A triangle is cut at the planes that it crosses; the places of the cuts belong to both
 * sides. So each slab's hull holds its part, and both hulls at a cut hold the hull of the places in
 * it, the rim: flat, square to the axis.
 *
 * Which points are kept. Let p have a place q across and a height z. Where q is in the hull of the
 * places of points below z and in that of those above, there are mixtures a of the ones and b of
 * the others at q, and p is between them. So only those matter that come out of one of the two
 * hulls when points are taken in by their height, upwards from the lower rim, or downwards from the
 * upper one (rim.h). Heights are taken in steps, and of one step those that are far out come first:
 * what is within a step and within off of the rim is within their sum. */
#include "slabs.h"

#include "parallel.h"
#include "rim.h"

#include <stdlib.h>

#define BINS 256u
/* What all may lose by coming together, as a share of all. */
#define MOST_LOST 0.02
#define OFF_SHARE 1e-5
#define ROUNDING 1e-9
#define NOT_USED G_MAXUINT

typedef struct
{
  TrnPlanePoint at; /* index: of a vertex, or of a place in a rim */
  double up_m, out_m;
  gint64 step;
  gboolean is_kept;
} Point;

typedef struct
{
  const TrnMesh *mesh;
  TrnVec3 middle;
  guint axis;
  double off_m;
  double cut_m[TRN_SLABS_MOST + 1]; /* the lower end of each, and the end */
  guint n;
  TrnRim rims[TRN_SLABS_MOST + 1]; /* below each; the first and the last are empty */
  guint *slab;                     /* of each vertex */
  guint32 *sorted;                 /* vertices, slab by slab */
  guint ends[TRN_SLABS_MOST + 1];
  Point *points; /* room of sorted */
  GArray *kept[TRN_SLABS_MOST];
} Build;

static double
up_of (const Build *build, guint32 vertex)
{
  return trn_vec3_along (build->mesh->vertices[vertex], build->axis)
         - trn_vec3_along (build->middle, build->axis);
}

static TrnPlanePoint
place_of (const Build *build, guint32 vertex)
{
  const TrnVec3 at = trn_vec3_sub (build->mesh->vertices[vertex], build->middle);
  return (TrnPlanePoint){ trn_vec3_along (at, (build->axis + 1) % 3),
                          trn_vec3_along (at, (build->axis + 2) % 3), vertex };
}

/* ---- where to cut ---- */

typedef struct
{
  double lo[2], hi[2], long_m;
} Bin;

static double
size_of (const Bin *bin)
{
  return bin->lo[0] > bin->hi[0]
             ? 0
             : bin->long_m * (bin->hi[0] - bin->lo[0] + bin->hi[1] - bin->lo[1]);
}

static void
add_to_bin (Bin *bin, const Bin *other)
{
  for (int k = 0; k < 2; k++)
    {
      bin->lo[k] = MIN (bin->lo[k], other->lo[k]);
      bin->hi[k] = MAX (bin->hi[k], other->hi[k]);
    }
  bin->long_m += other->long_m;
}

static double
lost_by (const Bin *a, const Bin *b)
{
  Bin both = *a;
  add_to_bin (&both, b);
  return size_of (&both) - size_of (a) - size_of (b);
}

static void
fill_bins (const Build *build, double lo_m, double bin_m, Bin bins[BINS])
{
  for (guint i = 0; i < BINS; i++)
    bins[i] = (Bin){ { INFINITY, INFINITY }, { -INFINITY, -INFINITY }, bin_m };
  for (guint32 i = 0; i < build->mesh->n_triangles; i++)
    {
      Bin box = { { INFINITY, INFINITY }, { -INFINITY, -INFINITY }, 0 };
      double from = INFINITY, to = -INFINITY;
      for (int k = 0; k < 3; k++)
        {
          const guint32 vertex = build->mesh->triangles[i].v[k];
          const double up = up_of (build, vertex);
          const TrnPlanePoint at = place_of (build, vertex);
          from = MIN (from, up);
          to = MAX (to, up);
          box.lo[0] = MIN (box.lo[0], at.x);
          box.hi[0] = MAX (box.hi[0], at.x);
          box.lo[1] = MIN (box.lo[1], at.y);
          box.hi[1] = MAX (box.hi[1], at.y);
        }
      const guint first = (guint)CLAMP ((from - lo_m) / bin_m, 0, BINS - 1),
                  last = (guint)CLAMP ((to - lo_m) / bin_m, 0, BINS - 1);
      for (guint bin = first; bin <= last; bin++)
        add_to_bin (&bins[bin], &box);
    }
}

static void
choose_cuts (Build *build)
{
  const double lo_m = trn_vec3_along (build->mesh->box.lo, build->axis)
                      - trn_vec3_along (build->middle, build->axis);
  const double bin_m = trn_vec3_along (trn_box_size (&build->mesh->box), build->axis) / BINS;
  build->n = 1;
  build->cut_m[0] = -INFINITY;
  build->cut_m[1] = INFINITY;
  if (!(bin_m > 0))
    return;
  g_autofree Bin *bins = g_new (Bin, BINS);
  guint n = BINS;
  double all = 0, lost = 0;
  fill_bins (build, lo_m, bin_m, bins);
  for (guint i = 0; i < n; i++)
    all += size_of (&bins[i]);
  while (n > 1)
    {
      guint least = 0;
      double least_lost = INFINITY;
      for (guint i = 0; i + 1 < n; i++)
        {
          const double here = lost_by (&bins[i], &bins[i + 1]);
          least = here < least_lost ? i : least;
          least_lost = MIN (here, least_lost);
        }
      lost += least_lost;
      if (n <= TRN_SLABS_MOST && lost > MOST_LOST * all)
        break;
      add_to_bin (&bins[least], &bins[least + 1]);
      n--;
      for (guint i = least + 1; i < n; i++)
        bins[i] = bins[i + 1];
    }
  build->n = n;
  double at_m = lo_m;
  for (guint i = 1; i < n; i++)
    {
      at_m += bins[i - 1].long_m;
      build->cut_m[i] = at_m;
    }
  build->cut_m[n] = INFINITY;
}

/* ---- what is where ---- */

/* The last that begins at or below. */
static guint
slab_at (const Build *build, double up_m)
{
  guint low = 0, high = build->n;
  while (low + 1 < high)
    {
      const guint middle = (low + high) / 2;
      *(build->cut_m[middle] <= up_m ? &low : &high) = middle;
    }
  return low;
}

static void
sort_vertices (Build *build)
{
  const TrnMesh *mesh = build->mesh;
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    build->slab[i] = NOT_USED;
  for (guint32 i = 0; i < 3 * mesh->n_triangles; i++)
    {
      const guint32 vertex = mesh->triangles[i / 3].v[i % 3];
      if (build->slab[vertex] != NOT_USED)
        continue;
      build->slab[vertex] = slab_at (build, up_of (build, vertex));
      build->ends[build->slab[vertex] + 1]++;
    }
  for (guint i = 0; i < build->n; i++)
    build->ends[i + 1] += build->ends[i];
  guint at[TRN_SLABS_MOST];
  for (guint i = 0; i < build->n; i++)
    at[i] = build->ends[i];
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    if (build->slab[i] != NOT_USED)
      build->sorted[at[build->slab[i]]++] = i;
}

/* Where the side from a to b, which are on either side of the cut or in it, comes through it. */
static void
add_crossing (Build *build, guint cut, guint32 a, guint32 b)
{
  const double from = up_of (build, a), to = up_of (build, b), at = build->cut_m[cut];
  const double share = to != from ? (at - from) / (to - from) : 0;
  const TrnPlanePoint p = place_of (build, a), q = place_of (build, b);
  const TrnPlanePoint place = { p.x + share * (q.x - p.x), p.y + share * (q.y - p.y), 0 };
  trn_rim_add (&build->rims[cut], &place);
}

/* A slab has its lower end and not its upper one, so that the corners of a side in different slabs
 * are on either side of the cuts between them, the higher perhaps in one. */
static void
cut_triangles (Build *build)
{
  for (guint32 i = 0; i < build->mesh->n_triangles; i++)
    {
      const guint32 *v = build->mesh->triangles[i].v;
      for (int k = 0; k < 3; k++)
        {
          const guint32 a = v[k], b = v[(k + 1) % 3];
          const guint from = MIN (build->slab[a], build->slab[b]),
                      to = MAX (build->slab[a], build->slab[b]);
          for (guint cut = from + 1; cut <= to; cut++)
            add_crossing (build, cut, a, b);
        }
    }
}

/* ---- what matters ---- */

static int
compare_steps (gconstpointer a, gconstpointer b)
{
  const Point *p = a, *q = b;
  if (p->step != q->step)
    return p->step < q->step ? -1 : 1;
  if (p->out_m != q->out_m)
    return p->out_m > q->out_m ? -1 : 1;
  return (p->at.index > q->at.index) - (p->at.index < q->at.index);
}

/* From the lower rim upwards; or the steps the other way. */
static void
pass (const TrnRim *from, Point *points, guint n, gboolean upwards)
{
  TrnRim rim = { 0 };
  trn_rim_copy (&rim, from);
  for (guint end = n, begin = 0; upwards ? begin < n : end > 0;)
    {
      guint first = begin, after = begin;
      if (upwards)
        while (after < n && points[after].step == points[first].step)
          after++;
      else
        for (first = after = end; first > 0 && points[first - 1].step == points[end - 1].step;)
          first--;
      for (guint i = first; i < after; i++)
        points[i].is_kept |= trn_rim_add (&rim, &points[i].at);
      begin = after;
      end = first;
    }
  trn_rim_clear (&rim);
}

static TrnVec3
back_in_space (const Build *build, TrnPlanePoint at, double up_m)
{
  double v[3];
  v[build->axis] = up_m;
  v[(build->axis + 1) % 3] = at.x;
  v[(build->axis + 2) % 3] = at.y;
  return (TrnVec3){ v[0], v[1], v[2] };
}

static void
keep_rim (const Build *build, guint cut, GArray *kept)
{
  const TrnRim *rim = &build->rims[cut];
  for (guint i = 0; i < rim->n; i++)
    {
      const TrnVec3 at = back_in_space (build, rim->point[i], build->cut_m[cut]);
      g_array_append_val (kept, at);
    }
}

static gint64
step_of (const Build *build, double up_m)
{
  return build->off_m > 0 ? (gint64)floor (up_m / build->off_m) : 0;
}

static void
keep (guint slab, gpointer data)
{
  Build *build = data;
  const TrnRim *below = &build->rims[slab], *above = &build->rims[slab + 1];
  Point *points = build->points + build->ends[slab];
  guint n = 0;
  double x = 0, y = 0;
  for (guint i = build->ends[slab]; i < build->ends[slab + 1]; i++)
    {
      const TrnPlanePoint at = place_of (build, build->sorted[i]);
      if (trn_rim_holds (below, &at) && trn_rim_holds (above, &at))
        continue;
      const double up_m = up_of (build, build->sorted[i]);
      points[n++] = (Point){ at, up_m, 0, step_of (build, up_m), FALSE };
      x += at.x;
      y += at.y;
    }
  for (guint i = 0; i < n; i++)
    points[i].out_m = hypot (points[i].at.x - x / n, points[i].at.y - y / n);
  qsort (points, n, sizeof *points, compare_steps);
  pass (below, points, n, TRUE);
  pass (above, points, n, FALSE);
  GArray *kept = build->kept[slab] = g_array_new (FALSE, FALSE, sizeof (TrnVec3));
  keep_rim (build, slab, kept);
  keep_rim (build, slab + 1, kept);
  for (guint i = 0; i < n; i++)
    if (points[i].is_kept)
      {
        const TrnVec3 at = back_in_space (build, points[i].at, points[i].up_m);
        g_array_append_val (kept, at);
      }
}

/* ---- all of it ---- */

/* An outline within a disc is no longer than its border. */
static double
round_of (const GArray *points)
{
  TrnBox box = trn_box_empty ();
  for (guint i = 0; i < points->len; i++)
    trn_box_add_point (&box, g_array_index (points, TrnVec3, i));
  return points->len > 0 ? G_PI * trn_vec3_length (trn_box_size (&box)) : 0;
}

static TrnSlabs *
gather (Build *build)
{
  TrnSlabs *slabs = g_new0 (TrnSlabs, 1);
  GArray *points = g_array_new (FALSE, FALSE, sizeof (TrnVec3));
  slabs->axis = back_in_space (build, (TrnPlanePoint){ 0, 0, 0 }, 1);
  slabs->n = build->n;
  slabs->off_m = 2 * build->off_m;
  for (guint i = 0; i < build->n; i++)
    {
      GArray *kept = build->kept[i];
      slabs->shared_m2 += trn_plane_area (build->rims[i].point, build->rims[i].n);
      slabs->round_m += round_of (kept);
      g_array_append_vals (points, kept->data, kept->len);
      slabs->first[i + 1] = points->len;
      g_array_unref (kept);
    }
  for (guint k = 0; k < 3; k++)
    {
      slabs->along[k] = g_new (double, points->len);
      for (guint i = 0; i < points->len; i++)
        slabs->along[k][i] = trn_vec3_along (g_array_index (points, TrnVec3, i), k);
    }
  g_array_unref (points);
  return slabs;
}

static double
reach_of (const TrnBox *box, TrnVec3 middle)
{
  double reach_m = 0;
  for (guint i = 0; i < 8; i++)
    reach_m = fmax (reach_m, trn_vec3_distance (trn_box_corner (box, i), middle));
  return reach_m;
}

TrnSlabs *
trn_slabs_build (const TrnMesh *mesh, TrnVec3 middle, guint jobs)
{
  g_assert (mesh->n_triangles > 0);
  const double reach_m = (1 + ROUNDING) * reach_of (&mesh->box, middle);
  Build build = { .mesh = mesh,
                  .middle = middle,
                  .axis = trn_box_longest (&mesh->box),
                  .off_m = OFF_SHARE * reach_m,
                  .slab = g_new (guint, mesh->n_vertices),
                  .sorted = g_new (guint32, mesh->n_vertices),
                  .points = g_new (Point, mesh->n_vertices) };
  for (guint i = 0; i <= TRN_SLABS_MOST; i++)
    build.rims[i].off_m = build.off_m;
  choose_cuts (&build);
  sort_vertices (&build);
  cut_triangles (&build);
  trn_parallel_for (build.n, jobs, keep, &build);
  TrnSlabs *slabs = gather (&build);
  slabs->reach_m = reach_m;
  for (guint i = 0; i <= TRN_SLABS_MOST; i++)
    trn_rim_clear (&build.rims[i]);
  g_free (build.slab);
  g_free (build.sorted);
  g_free (build.points);
  return slabs;
}

void
trn_slabs_free (TrnSlabs *slabs)
{
  for (guint k = 0; k < 3; k++)
    g_free (slabs->along[k]);
  g_free (slabs);
}
