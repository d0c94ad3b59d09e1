/* Triangles that lie together and face about the same way are taken together: those of one cube of
 * a grid and of one share of the directions, by a counting sort. They stand as the convex hull of
 * their corners in a plane through them (plane.h), thick enough for all of
 * them. Where that is too thick, or much more than they cover, their halves are tried, down to
 * single triangles. Corners of a hull that are next to a line between others are left out, for a
 * little more thickness. Whatever is taken together, a facet holds all of its triangles, so that it
 * can only show too much, and by little. */
#include "facets.h"

#include "plane.h"

#include <math.h>
#include <stdlib.h>

#define CUBES 32          /* of the grid, along each side of the box */
#define FACINGS 24        /* shares of the directions */
#define MOST_LEFT_OUT 32u /* of corners, one after another */
/* A hull of much more than what its triangles cover is none of theirs: some, since their border is
 * ragged by about a triangle all round, which others fill, and a little for slivers. */
#define LEAST_HULL 1.05
#define RAGGED 2
#define MOST_RAGGED 0.3

typedef struct
{
  const TrnMesh *mesh;
  TrnFacets *facets;
  GArray *points, *list;    /* of TrnVec3, of TrnFacet */
  GArray *corners, *hull;   /* of TrnPlanePoint, with its vertex: of one try */
  double size_m, thick_m;   /* of the mesh; of a facet at most */
  TrnVec3 *areas, *middles; /* of triangles: along the normal, as long as the area; and where */
} Build;

/* Along the normal, as long as the area. */
static TrnVec3
find_area (const TrnMesh *mesh, guint32 triangle)
{
  TrnVec3 c[3];
  trn_mesh_corners (mesh, triangle, c);
  return trn_vec3_scale (trn_vec3_cross (trn_vec3_sub (c[1], c[0]), trn_vec3_sub (c[2], c[0])),
                         0.5);
}

static void
add_single (Build *build, guint32 triangle)
{
  const TrnFacet facet = { .first = build->points->len, .count = 3 };
  TrnVec3 c[3];
  trn_mesh_corners (build->mesh, triangle, c);
  for (int k = 0; k < 3; k++)
    c[k] = trn_vec3_sub (c[k], build->facets->middle);
  g_array_append_vals (build->points, c, 3);
  g_array_append_val (build->list, facet);
}

/* Of build->corners, into build->hull; returns its area, and half of how long it is round. */
static double
find_hull (Build *build, double *length_m)
{
  const guint n = build->corners->len;
  g_array_set_size (build->hull, 2 * n);
  TrnPlanePoint *hull = (TrnPlanePoint *)(void *)build->hull->data;
  const guint n_hull = trn_plane_hull ((TrnPlanePoint *)(void *)build->corners->data, n, hull);
  g_array_set_size (build->hull, n_hull);
  for (guint i = 0; i < n_hull; i++)
    {
      const TrnPlanePoint *a = &hull[i], *b = &hull[(i + 1) % n_hull];
      *length_m += 0.5 * hypot (b->x - a->x, b->y - a->y);
    }
  return trn_plane_area (hull, n_hull);
}

/* Leaves corners out of which what the others span is at most @most_m away; returns how far. */
static double
thin_out (GArray *hull, double most_m)
{
  TrnPlanePoint *line = (TrnPlanePoint *)(void *)hull->data;
  guint kept = 1, from = 0;
  double off_m = 0;
  for (guint i = 1; i < hull->len; i++)
    {
      const TrnPlanePoint *next = &line[(i + 1) % hull->len];
      double here_m = 0;
      for (guint k = from + 1; k <= i && here_m <= most_m; k++)
        here_m = fmax (here_m, trn_plane_off_segment (&line[from], next, &line[k]));
      if (here_m <= most_m && i - from < MOST_LEFT_OUT)
        {
          off_m = fmax (off_m, here_m);
          continue;
        }
      line[kept++] = line[i];
      from = i;
    }
  g_array_set_size (hull, kept);
  return off_m;
}

/* All of them as one facet, where that serves. */
static gboolean
add_together (Build *build, const guint32 *triangles, guint n)
{
  TrnVec3 sum = { 0, 0, 0 };
  double covered_m2 = 0, lo = INFINITY, hi = -INFINITY;
  for (guint i = 0; i < n; i++)
    {
      const TrnVec3 area = build->areas[triangles[i]];
      sum = trn_vec3_add (sum, area);
      covered_m2 += trn_vec3_length (area);
    }
  if (!(trn_vec3_length (sum) > 0.5 * covered_m2))
    return FALSE;
  const TrnVec3 normal = trn_vec3_unit (sum), x = trn_vec3_square_to (normal),
                y = trn_vec3_cross (normal, x);
  g_array_set_size (build->corners, 0);
  for (guint i = 0; i < n; i++)
    for (int k = 0; k < 3; k++)
      {
        const guint32 vertex = build->mesh->triangles[triangles[i]].v[k];
        const TrnVec3 p = trn_vec3_sub (build->mesh->vertices[vertex], build->facets->middle);
        const double up = trn_vec3_dot (p, normal);
        const TrnPlanePoint corner = { trn_vec3_dot (p, x), trn_vec3_dot (p, y), vertex };
        lo = fmin (lo, up);
        hi = fmax (hi, up);
        g_array_append_val (build->corners, corner);
      }
  const double thick_m = 0.5 * (hi - lo), middle = 0.5 * (hi + lo);
  double length_m = 0;
  if (thick_m > build->thick_m
      || find_hull (build, &length_m)
             > (LEAST_HULL + fmin (MOST_RAGGED, RAGGED / sqrt (n))) * trn_vec3_length (sum)
                   + 0.5 * build->thick_m * length_m)
    return FALSE;
  const double off_m = thin_out (build->hull, 0.5 * build->thick_m);
  const TrnFacet facet = { .first = build->points->len,
                           .count = build->hull->len,
                           .thick_m = hypot (thick_m, off_m) };
  for (guint i = 0; i < build->hull->len; i++)
    {
      const guint vertex = g_array_index (build->hull, TrnPlanePoint, i).index;
      const TrnVec3 at = trn_vec3_sub (build->mesh->vertices[vertex], build->facets->middle);
      const TrnVec3 flat = trn_vec3_add_scaled (at, normal, middle - trn_vec3_dot (at, normal));
      g_array_append_val (build->points, flat);
    }
  g_array_append_val (build->list, facet);
  return TRUE;
}

static TrnVec3
find_middle (const TrnMesh *mesh, guint32 triangle)
{
  TrnVec3 c[3];
  trn_mesh_corners (mesh, triangle, c);
  return trn_vec3_scale (trn_vec3_add (c[0], trn_vec3_add (c[1], c[2])), 1.0 / 3);
}

/* Those on the near side of the middle of the box of their middles first; their number. All on one
 * side, as in one place: half of them. */
static guint
part (const Build *build, guint32 *triangles, guint n)
{
  TrnBox box = trn_box_empty ();
  for (guint i = 0; i < n; i++)
    trn_box_add_point (&box, build->middles[triangles[i]]);
  const guint axis = trn_box_longest (&box);
  const double cut = trn_vec3_along (trn_box_centre (&box), axis);
  guint near = 0;
  for (guint i = 0; i < n; i++)
    if (trn_vec3_along (build->middles[triangles[i]], axis) < cut)
      {
        const guint32 swapped = triangles[near];
        triangles[near++] = triangles[i];
        triangles[i] = swapped;
      }
  return near > 0 && near < n ? near : n / 2;
}

static void
add (Build *build, guint32 *triangles, guint n)
{
  if (n == 1)
    {
      add_single (build, triangles[0]);
      return;
    }
  if (add_together (build, triangles, n))
    return;
  const guint near = part (build, triangles, n);
  add (build, triangles, near);
  add (build, triangles + near, n - near);
}

/* ---- which lie together ---- */

static guint
cube_along (double x, double lo, double side_m)
{
  return side_m > 0 ? (guint)CLAMP ((x - lo) / side_m * CUBES, 0, CUBES - 1) : 0;
}

/* By the axis that it is nearest to, which way along that, and the signs of the other two. */
static guint
facing_of (TrnVec3 n)
{
  const double v[3] = { n.x, n.y, n.z };
  const int axis = fabs (n.x) >= fmax (fabs (n.y), fabs (n.z)) ? 0
                   : fabs (n.y) >= fabs (n.z)                  ? 1
                                                               : 2;
  return (guint)(8 * axis + 4 * (v[axis] < 0) + 2 * (v[(axis + 1) % 3] < 0)
                 + (v[(axis + 2) % 3] < 0));
}

#define N_BUCKETS (CUBES * CUBES * CUBES * FACINGS)

static guint
bucket_of (const TrnMesh *mesh, TrnVec3 at, TrnVec3 area)
{
  const TrnBox *box = &mesh->box;
  const TrnVec3 size = trn_box_size (box);
  const double side_m = fmax (size.x, fmax (size.y, size.z));
  const guint x = cube_along (at.x, box->lo.x, side_m), y = cube_along (at.y, box->lo.y, side_m),
              z = cube_along (at.z, box->lo.z, side_m);
  return ((x * CUBES + y) * CUBES + z) * FACINGS + facing_of (area);
}

static void
add_all (Build *build)
{
  const TrnMesh *mesh = build->mesh;
  const guint32 n = mesh->n_triangles;
  g_autofree guint *bucket = g_new (guint, n);
  g_autofree guint32 *ends = g_new0 (guint32, N_BUCKETS + 1);
  g_autofree guint32 *sorted = g_new (guint32, n);
  g_autofree TrnVec3 *places = g_new (TrnVec3, 2 * n);
  build->areas = places;
  build->middles = places + n;
  for (guint32 i = 0; i < n; i++)
    {
      const TrnVec3 area = find_area (mesh, i);
      build->areas[i] = area;
      build->middles[i] = find_middle (mesh, i);
      bucket[i] = bucket_of (mesh, build->middles[i], area);
      ends[bucket[i] + 1]++;
    }
  for (guint i = 0; i < N_BUCKETS; i++)
    ends[i + 1] += ends[i];
  for (guint32 i = 0; i < n; i++)
    sorted[ends[bucket[i]]++] = i;
  /* Where each ended is where the next began. */
  guint32 begin = 0;
  for (guint i = 0; i < N_BUCKETS; i++)
    {
      if (ends[i] > begin)
        add (build, sorted + begin, ends[i] - begin);
      begin = ends[i];
    }
}

/* @corners: its own. */
static void
set_ball (TrnFacet *facet, const TrnVec3 *corners)
{
  TrnBox box = trn_box_empty ();
  for (guint i = 0; i < facet->count; i++)
    trn_box_add_point (&box, corners[i]);
  facet->middle = trn_box_centre (&box);
  double most_m2 = 0;
  for (guint i = 0; i < facet->count; i++)
    {
      const double here_m2 = trn_vec3_length_squared (trn_vec3_sub (facet->middle, corners[i]));
      most_m2 = MAX (most_m2, here_m2);
    }
  facet->radius_m = sqrt (most_m2);
}

static int
compare_sizes (gconstpointer a, gconstpointer b)
{
  const TrnFacet *p = a, *q = b;
  if (p->radius_m != q->radius_m)
    return p->radius_m > q->radius_m ? -1 : 1;
  return (p->first > q->first) - (p->first < q->first);
}

/* The greatest of all lengths is that of the greatest of their squares. */
static double
farthest_m (const TrnVec3 *points, guint n)
{
  double most_m2 = 0;
  for (guint i = 0; i < n; i++)
    {
      const double here_m2 = trn_vec3_length_squared (points[i]);
      most_m2 = MAX (most_m2, here_m2);
    }
  return sqrt (most_m2);
}

TrnFacets *
trn_facets_build (const TrnMesh *mesh, double thick_share)
{
  g_assert (thick_share > 0);
  TrnFacets *facets = g_new0 (TrnFacets, 1);
  Build build = { .mesh = mesh,
                  .facets = facets,
                  .points = g_array_new (FALSE, FALSE, sizeof (TrnVec3)),
                  .list = g_array_new (FALSE, FALSE, sizeof (TrnFacet)),
                  .corners = g_array_new (FALSE, FALSE, sizeof (TrnPlanePoint)),
                  .hull = g_array_new (FALSE, FALSE, sizeof (TrnPlanePoint)) };
  if (mesh->n_triangles > 0)
    {
      facets->middle = trn_box_centre (&mesh->box);
      build.size_m = trn_vec3_length (trn_box_size (&mesh->box));
      build.thick_m = thick_share * build.size_m;
      add_all (&build);
    }
  facets->n_points = build.points->len;
  facets->points = (TrnVec3 *)(void *)g_array_free (build.points, FALSE);
  facets->reach_m = farthest_m (facets->points, facets->n_points) + 1.5 * build.thick_m;
  facets->n_facets = build.list->len;
  facets->facets = (TrnFacet *)(void *)g_array_free (build.list, FALSE);
  for (guint i = 0; i < facets->n_facets; i++)
    set_ball (&facets->facets[i], facets->points + facets->facets[i].first);
  qsort (facets->facets, facets->n_facets, sizeof *facets->facets, compare_sizes);
  g_array_unref (build.corners);
  g_array_unref (build.hull);
  return facets;
}

/* ---- each triangle for itself ---- */

static void
corners_of (const TrnFacets *facets, guint32 triangle, TrnVec3 c[3])
{
  trn_mesh_corners (facets->mesh, triangle, c);
  for (guint k = 0; k < 3; k++)
    c[k] = trn_vec3_sub (c[k], facets->middle);
}

TrnFacets *
trn_facets_of_triangles (const TrnMesh *mesh, gboolean is_closed)
{
  TrnFacets *facets = g_new0 (TrnFacets, 1);
  facets->mesh = mesh;
  facets->is_closed = is_closed;
  facets->n_facets = mesh->n_triangles;
  facets->middle = trn_box_centre (&mesh->box);
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    {
      TrnVec3 c[3];
      corners_of (facets, i, c);
      const double here_m = farthest_m (c, 3);
      facets->reach_m = MAX (facets->reach_m, here_m);
    }
  return facets;
}

const TrnVec3 *
trn_facets_corners (const TrnFacets *facets, guint index, TrnFacetRoom *room, guint *count)
{
  if (facets->mesh == NULL)
    {
      *count = facets->facets[index].count;
      return facets->points + facets->facets[index].first;
    }
  *count = 3;
  corners_of (facets, index, room->corners);
  return room->corners;
}

static inline double
between (double a, double b, double c)
{
  const double lo = MIN (MIN (a, b), c), hi = MAX (MAX (a, b), c);
  return 0.5 * lo + 0.5 * hi;
}

const TrnFacet *
trn_facets_get (const TrnFacets *facets, guint index, TrnFacetRoom *room, const TrnVec3 **corners)
{
  guint count;
  *corners = trn_facets_corners (facets, index, room, &count);
  if (facets->mesh == NULL)
    return &facets->facets[index];
  const TrnVec3 a = room->corners[0], b = room->corners[1], c = room->corners[2];
  const TrnVec3 middle
      = { between (a.x, b.x, c.x), between (a.y, b.y, c.y), between (a.z, b.z, c.z) };
  const double a2 = trn_vec3_length_squared (trn_vec3_sub (middle, a)),
               b2 = trn_vec3_length_squared (trn_vec3_sub (middle, b)),
               c2 = trn_vec3_length_squared (trn_vec3_sub (middle, c));
  room->facet
      = (TrnFacet){ .count = count, .middle = middle, .radius_m = sqrt (MAX (MAX (a2, b2), c2)) };
  return &room->facet;
}

void
trn_facets_free (TrnFacets *facets)
{
  g_free (facets->points);
  g_free (facets->facets);
  g_free (facets);
}
