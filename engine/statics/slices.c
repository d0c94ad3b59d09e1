/* The body is cut into level slices. What of a connected set is seen along a level direction is one
 * piece without a gap: seen from above, it is what its convex hull covers of a line across. So a
 * slice is kept as its connected parts, each as how far it reaches along 2 SECTORS directions all
 * round, and what the slice shows at a heading is the union of one span for each part. Gaps between
 * parts, and in front of and behind slices, stay gaps. This works out all headings at the price of
 * one pass over the triangles.
 *
 * Connected. Two triangles hang together in a slice when they share a corner that lies in it or an
 * edge that comes into it. Parts that are not known to hang together are looked at one by one,
 * which is never wrong; a slice of very many parts has the last of them taken together, which shows
 * more.
 *
 * Between two directions d_i and d_i+1, δ apart, a direction is the sum of shares of both, so that
 * what a part reaches is no more than the corner in which the lines square to both, as far out as
 * it reaches, meet: the part is taken for the polygon of all such corners, which is wider than the
 * part by 1/cos (δ/2) at most.
 *
 * A range of headings. Each span goes from the least to the greatest place of its corners over the
 * range, measured from an axis of the slice between its outermost corners: moving a slice aside
 * moves its picture aside.
 *
 * The height of a slice counts as covered where any of it is.
 *
 * Shear. A slanting beam would fill much of each slice falsely. Moving all points aside level, by a
 * vector in proportion to their height, moves the picture of each slice aside and leaves its area
 * the same; with the slope of the body's own regression line the beam stands upright, for all
 * headings at once.
 *
 * Places are kept in single precision, the rounding added to the slack. */
#include "slices.h"

#include <string.h>

#define K TRN_SLICES_SECTORS
#define MOST_SLICES 400
#define LEAST_SLICES 64
#define MOST_PIECES 500000 /* of triangles in slices, before slices become fewer */
#define MOST_PARTS 96
/* Outwards, as a share of the size: some roundings of a float. */
#define OUTWARDS 1e-6
#define OUTWARDS_HEIGHT 1e-11
#define LEAST_M 1e-12

/* How far a part reaches along direction i, π i/K from X: from lo to hi. */
typedef struct
{
  float lo[K], hi[K];
} Part;

struct _TrnSlices
{
  GArray *parts; /* of Part */
  guint *first;  /* of each slice, and the end of the last */
  guint n_slices;
  double height_m; /* of one */
};

typedef struct
{
  TrnSlices *slices;
  const TrnMesh *mesh;
  TrnVec3 *points;          /* turned, about the middle of the box, sheared */
  double slack_m, margin_m; /* in height and, after the shear, aside */
  double bottom_m;
  float cosine[K], sine[K];
  guint32 *offsets, *listed; /* triangles of each slice */
  /* of one slice */
  guint32 *stamp, *owner; /* of vertices: the slice that met it last, plus 1; its triangle */
  guint64 *edges;
  guint32 *edge_owner;
  guint edge_mask;
  guint32 *root; /* of triangles of the slice: union-find */
  GArray *dots;  /* of Dot */
  double lo_m, hi_m;
} Build;

typedef struct
{
  float x, y;
  guint32 owner;
} Dot;

/* ---- laying out ---- */

/* The level distance of the farthest point from the middle, with a shear. */
static double
reach_of (const TrnVec3 *points, guint32 n, double shear_x, double shear_y)
{
  double reach2 = 0;
  for (guint32 i = 0; i < n; i++)
    {
      double x = points[i].x - shear_x * points[i].z, y = points[i].y - shear_y * points[i].z;
      reach2 = fmax (reach2, x * x + y * y);
    }
  return sqrt (reach2);
}

static void
shear (Build *build)
{
  const guint32 n = build->mesh->n_vertices;
  double zz = 0, xz = 0, yz = 0;
  TrnVec3 mean = { 0, 0, 0 };
  for (guint32 i = 0; i < n; i++)
    mean = trn_vec3_add_scaled (mean, build->points[i], 1.0 / n);
  for (guint32 i = 0; i < n; i++)
    {
      TrnVec3 p = trn_vec3_sub (build->points[i], mean);
      zz += p.z * p.z;
      xz += p.x * p.z;
      yz += p.y * p.z;
    }
  double shear_x = xz / zz, shear_y = yz / zz, slope = hypot (shear_x, shear_y);
  if (!(slope < 100)
      || reach_of (build->points, n, shear_x, shear_y) >= reach_of (build->points, n, 0, 0))
    shear_x = shear_y = slope = 0;
  for (guint32 i = 0; i < n; i++)
    {
      build->points[i].x -= shear_x * build->points[i].z;
      build->points[i].y -= shear_y * build->points[i].z;
    }
  build->margin_m
      = build->slack_m * hypot (1, slope) + OUTWARDS * reach_of (build->points, n, 0, 0);
}

static guint
slice_of (const Build *build, double height_m)
{
  const double slice = floor ((height_m - build->bottom_m) / build->slices->height_m);
  return (guint)CLAMP (slice, 0, build->slices->n_slices - 1);
}

static void
slices_of (const Build *build, const TrnTriangle *triangle, guint *from, guint *to)
{
  double a = build->points[triangle->v[0]].z, b = build->points[triangle->v[1]].z,
         c = build->points[triangle->v[2]].z;
  *from = slice_of (build, fmin (a, fmin (b, c)) - build->slack_m);
  *to = slice_of (build, fmax (a, fmax (b, c)) + build->slack_m);
}

static double
count_pieces (const Build *build)
{
  double pieces = 0;
  guint from, to;
  for (guint32 i = 0; i < build->mesh->n_triangles; i++)
    {
      slices_of (build, &build->mesh->triangles[i], &from, &to);
      pieces += to - from + 1;
    }
  return pieces;
}

/* Which triangles come into each slice. */
static void
list_triangles (Build *build)
{
  const guint n = build->slices->n_slices;
  guint from, to;
  build->offsets = g_new0 (guint32, n + 1);
  for (guint32 i = 0; i < build->mesh->n_triangles; i++)
    {
      slices_of (build, &build->mesh->triangles[i], &from, &to);
      for (guint k = from; k <= to; k++)
        build->offsets[k + 1]++;
    }
  for (guint k = 0; k < n; k++)
    build->offsets[k + 1] += build->offsets[k];
  build->listed = g_new (guint32, build->offsets[n]);
  g_autofree guint32 *next = g_memdup2 (build->offsets, n * sizeof *next);
  for (guint32 i = 0; i < build->mesh->n_triangles; i++)
    {
      slices_of (build, &build->mesh->triangles[i], &from, &to);
      for (guint k = from; k <= to; k++)
        build->listed[next[k]++] = i;
    }
}

/* Of a table of the edges of so many triangles. */
static guint
table_size (guint32 n_triangles)
{
  guint size = 16;
  while (size < 6 * n_triangles)
    size *= 2;
  return size;
}

static void
build_init (Build *build, TrnSlices *slices, const TrnMesh *mesh, const TrnRotation *turn,
            double slack_m)
{
  const TrnVec3 middle = trn_box_centre (&mesh->box);
  double lo = INFINITY, hi = -INFINITY;
  *build = (Build){ .slices = slices, .mesh = mesh };
  build->points = g_new (TrnVec3, mesh->n_vertices);
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    build->points[i] = trn_rotation_apply (turn, trn_vec3_sub (mesh->vertices[i], middle));
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    for (int k = 0; k < 3; k++)
      {
        lo = fmin (lo, build->points[mesh->triangles[i].v[k]].z);
        hi = fmax (hi, build->points[mesh->triangles[i].v[k]].z);
      }
  build->slack_m = slack_m
                   + OUTWARDS_HEIGHT * (trn_vec3_length (trn_box_size (&mesh->box)) + slack_m)
                   + LEAST_M;
  shear (build);
  build->bottom_m = lo - build->slack_m;
  slices->n_slices = (guint)CLAMP (2 * (hi - lo) / build->slack_m, LEAST_SLICES, MOST_SLICES);
  slices->height_m = (hi - lo + 2 * build->slack_m) / slices->n_slices;
  const double pieces = count_pieces (build);
  if (pieces > MOST_PIECES)
    {
      slices->n_slices
          = (guint)CLAMP (slices->n_slices * MOST_PIECES / pieces, LEAST_SLICES, MOST_SLICES);
      slices->height_m = (hi - lo + 2 * build->slack_m) / slices->n_slices;
    }
  for (guint i = 0; i < K; i++)
    {
      build->cosine[i] = (float)cos (G_PI * i / K);
      build->sine[i] = (float)sin (G_PI * i / K);
    }
  list_triangles (build);
  guint32 most = 0;
  for (guint k = 0; k < slices->n_slices; k++)
    most = MAX (most, build->offsets[k + 1] - build->offsets[k]);
  const guint size = table_size (most);
  build->edges = g_new (guint64, size);
  build->edge_owner = g_new (guint32, size);
  build->stamp = g_new0 (guint32, mesh->n_vertices);
  build->owner = g_new (guint32, mesh->n_vertices);
  build->root = g_new (guint32, most + 1);
  build->dots = g_array_new (FALSE, FALSE, sizeof (Dot));
}

static void
build_clear (Build *build)
{
  g_free (build->points);
  g_free (build->offsets);
  g_free (build->listed);
  g_free (build->edges);
  g_free (build->edge_owner);
  g_free (build->stamp);
  g_free (build->owner);
  g_free (build->root);
  g_array_unref (build->dots);
}

/* ---- one slice ---- */

static guint32
root_of (guint32 *root, guint32 i)
{
  while (root[i] != i)
    i = root[i] = root[root[i]];
  return i;
}

static void
join (Build *build, guint32 a, guint32 b)
{
  a = root_of (build->root, a);
  b = root_of (build->root, b);
  build->root[MAX (a, b)] = MIN (a, b);
}

static void
add_dot (Build *build, double x, double y, guint32 owner)
{
  const Dot dot = { (float)x, (float)y, owner };
  g_array_append_val (build->dots, dot);
}

/* Where the edge comes through the bottom and the top of the slice. */
static void
add_crossings (Build *build, const TrnVec3 *a, const TrnVec3 *b, guint32 owner)
{
  const double levels[2] = { build->lo_m, build->hi_m };
  for (int k = 0; k < 2; k++)
    {
      if ((a->z - levels[k]) * (b->z - levels[k]) >= 0)
        continue;
      const double t = CLAMP ((levels[k] - a->z) / (b->z - a->z), 0, 1);
      add_dot (build, a->x + t * (b->x - a->x), a->y + t * (b->y - a->y), owner);
    }
}

static void
add_edge (Build *build, guint32 a, guint32 b, guint32 owner)
{
  const TrnVec3 *p = &build->points[a], *q = &build->points[b];
  if (fmin (p->z, q->z) > build->hi_m || fmax (p->z, q->z) < build->lo_m)
    return;
  const guint64 key = ((guint64)MIN (a, b) << 32) | MAX (a, b);
  guint at = (guint)((key * G_GUINT64_CONSTANT (0x9e3779b97f4a7c15)) >> 32) & build->edge_mask;
  while (build->edges[at] != G_MAXUINT64 && build->edges[at] != key)
    at = (at + 1) & build->edge_mask;
  if (build->edges[at] == key)
    {
      join (build, build->edge_owner[at], owner);
      return;
    }
  build->edges[at] = key;
  build->edge_owner[at] = owner;
  add_crossings (build, p, q, owner);
}

static void
add_corner (Build *build, guint slice, guint32 vertex, guint32 owner)
{
  const TrnVec3 *p = &build->points[vertex];
  if (p->z < build->lo_m || p->z > build->hi_m)
    return;
  if (build->stamp[vertex] == slice + 1)
    {
      join (build, build->owner[vertex], owner);
      return;
    }
  build->stamp[vertex] = slice + 1;
  build->owner[vertex] = owner;
  add_dot (build, p->x, p->y, owner);
}

static void
part_add (Part *part, const Build *build, const Dot *dot)
{
  for (guint i = 0; i < K; i++)
    {
      const float u = dot->x * build->cosine[i] + dot->y * build->sine[i];
      part->lo[i] = u < part->lo[i] ? u : part->lo[i];
      part->hi[i] = u > part->hi[i] ? u : part->hi[i];
    }
}

static gboolean
is_within (const Part *inner, const Part *outer)
{
  for (guint i = 0; i < K; i++)
    if (inner->lo[i] < outer->lo[i] || inner->hi[i] > outer->hi[i])
      return FALSE;
  return TRUE;
}

/* Of the parts from @first on those that the widest hides whichever way are left out. */
static void
drop_hidden (GArray *parts, guint first)
{
  Part *all = (Part *)(void *)parts->data;
  guint widest = first, kept = first;
  for (guint i = first; i < parts->len; i++)
    if (all[i].hi[0] - all[i].lo[0] + all[i].hi[K / 2] - all[i].lo[K / 2]
        > all[widest].hi[0] - all[widest].lo[0] + all[widest].hi[K / 2] - all[widest].lo[K / 2])
      widest = i;
  if (parts->len == first)
    return;
  const Part outer = all[widest];
  for (guint i = first; i < parts->len; i++)
    if (i == widest || !is_within (&all[i], &outer))
      all[kept++] = all[i];
  g_array_set_size (parts, kept);
}

static void
gather_parts (Build *build, guint32 n_triangles)
{
  GArray *parts = build->slices->parts;
  const guint first = parts->len;
  g_autofree guint32 *part_of = g_new (guint32, n_triangles + 1);
  memset (part_of, 0xff, (n_triangles + 1) * sizeof *part_of);
  for (guint i = 0; i < build->dots->len; i++)
    {
      const Dot *dot = &g_array_index (build->dots, Dot, i);
      const guint32 root = root_of (build->root, dot->owner);
      if (part_of[root] == G_MAXUINT32)
        {
          part_of[root] = MIN (parts->len, first + MOST_PARTS - 1);
          if (part_of[root] == parts->len)
            {
              Part part;
              for (guint k = 0; k < K; k++)
                {
                  part.lo[k] = INFINITY;
                  part.hi[k] = -INFINITY;
                }
              g_array_append_val (parts, part);
            }
        }
      part_add (&g_array_index (parts, Part, part_of[root]), build, dot);
    }
  for (guint i = first; i < parts->len; i++)
    for (guint k = 0; k < K; k++)
      {
        g_array_index (parts, Part, i).lo[k] -= (float)build->margin_m;
        g_array_index (parts, Part, i).hi[k] += (float)build->margin_m;
      }
  drop_hidden (parts, first);
}

static void
cut (Build *build, guint slice)
{
  const guint32 *listed = build->listed + build->offsets[slice];
  const guint32 n = build->offsets[slice + 1] - build->offsets[slice];
  const double bottom = build->bottom_m + slice * build->slices->height_m;
  build->lo_m = bottom - build->slack_m;
  build->hi_m = bottom + build->slices->height_m + build->slack_m;
  build->edge_mask = table_size (n) - 1;
  memset (build->edges, 0xff, (build->edge_mask + 1) * sizeof *build->edges);
  g_array_set_size (build->dots, 0);
  for (guint32 i = 0; i < n; i++)
    {
      const guint32 *v = build->mesh->triangles[listed[i]].v;
      build->root[i] = i;
      for (int k = 0; k < 3; k++)
        {
          add_corner (build, slice, v[k], i);
          add_edge (build, v[k], v[(k + 1) % 3], i);
        }
    }
  gather_parts (build, n);
}

TrnSlices *
trn_slices_build (const TrnMesh *mesh, const TrnRotation *turn, double slack_m)
{
  TrnSlices *slices = g_new0 (TrnSlices, 1);
  slices->parts = g_array_new (FALSE, FALSE, sizeof (Part));
  if (mesh->n_triangles == 0)
    return slices;
  Build build;
  build_init (&build, slices, mesh, turn, slack_m);
  slices->first = g_new (guint, slices->n_slices + 1);
  for (guint i = 0; i < slices->n_slices; i++)
    {
      slices->first[i] = slices->parts->len;
      cut (&build, i);
    }
  slices->first[slices->n_slices] = slices->parts->len;
  build_clear (&build);
  return slices;
}

void
trn_slices_free (TrnSlices *slices)
{
  g_array_unref (slices->parts);
  g_free (slices->first);
  g_free (slices);
}

/* ---- what they show ---- */

/* Along direction i and square to it. */
typedef struct
{
  double x, y;
} Corner;

typedef struct
{
  double lo, hi;
} Span;

typedef struct
{
  double cosine[2], sine[2];
} Range;

/* Where both lines meet. Beyond the last direction comes the first, backwards. */
static void
corners_of (const Part *part, guint sector, Corner *lo, Corner *hi)
{
  const double c = cos (G_PI / K), s = sin (G_PI / K);
  const guint next = (sector + 1) % K;
  const double lo_next = next > 0 ? part->lo[next] : -part->hi[0];
  const double hi_next = next > 0 ? part->hi[next] : -part->lo[0];
  *lo = (Corner){ part->lo[sector], (lo_next - part->lo[sector] * c) / s };
  *hi = (Corner){ part->hi[sector], (hi_next - part->hi[sector] * c) / s };
}

/* The greatest over the range of how far a point is along. */
static double
farthest (Corner p, const Range *range)
{
  double from = p.x * range->cosine[0] + p.y * range->sine[0];
  double to = p.x * range->cosine[1] + p.y * range->sine[1];
  if (p.y * range->cosine[0] > p.x * range->sine[0]
      && p.y * range->cosine[1] < p.x * range->sine[1])
    return hypot (p.x, p.y);
  return fmax (from, to);
}

static Corner
from_axis (Corner p, Corner axis, double sign)
{
  return (Corner){ sign * (p.x - axis.x), sign * (p.y - axis.y) };
}

static int
compare_spans (gconstpointer a, gconstpointer b)
{
  const Span *p = a, *q = b;
  return (p->lo > q->lo) - (p->lo < q->lo);
}

static double
covered (Span *spans, guint n)
{
  double sum = 0, end = -INFINITY;
  if (n > 1)
    qsort (spans, n, sizeof *spans, compare_spans);
  for (guint i = 0; i < n; i++)
    {
      const double lo = fmax (spans[i].lo, end);
      sum += fmax (0, spans[i].hi - lo);
      end = fmax (end, spans[i].hi);
    }
  return sum;
}

static double
slice_shows (const Part *parts, guint n, guint sector, const Range *range)
{
  Corner lo[MOST_PARTS], hi[MOST_PARTS], axis = { 0, 0 };
  Span spans[MOST_PARTS];
  const double c = range->cosine[0] + range->cosine[1], s = range->sine[0] + range->sine[1];
  double least = INFINITY, most = -INFINITY;
  Corner left = { 0, 0 }, right = { 0, 0 };
  for (guint i = 0; i < n; i++)
    {
      corners_of (&parts[i], sector, &lo[i], &hi[i]);
      const double u = lo[i].x * c + lo[i].y * s, w = hi[i].x * c + hi[i].y * s;
      left = u < least ? lo[i] : left;
      right = w > most ? hi[i] : right;
      least = fmin (least, u);
      most = fmax (most, w);
    }
  axis = (Corner){ 0.5 * (left.x + right.x), 0.5 * (left.y + right.y) };
  for (guint i = 0; i < n; i++)
    spans[i] = (Span){ -farthest (from_axis (lo[i], axis, -1), range),
                       farthest (from_axis (hi[i], axis, 1), range) };
  return covered (spans, n);
}

double
trn_slices_area_m2 (const TrnSlices *slices, guint sector, double from, double to)
{
  const double a = from * G_PI / K, b = to * G_PI / K;
  const Range range = { { cos (a), cos (b) }, { sin (a), sin (b) } };
  double sum = 0;
  for (guint i = 0; i < slices->n_slices; i++)
    sum += slice_shows (&g_array_index (slices->parts, Part, slices->first[i]),
                        slices->first[i + 1] - slices->first[i], sector, &range);
  return sum * slices->height_m * (1 + OUTWARDS_HEIGHT);
}
