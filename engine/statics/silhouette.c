/* The picture is cut into level rows. In a row each triangle covers at most the span between the
 * leftmost and the rightmost of what of it lies in the row; columns that such a span touches count
 * as covered over the whole height of the row. The count is never below the true area of the union
 * of all triangles, whether the body is closed or not, and gaps stay gaps. What it has too much
 * lies along the outline: about one row or column of it.
 *
 * Spans are kept as differences: + 1 in the first column, − 1 after the last; sums along the row
 * tell what is covered. That takes no sorting.
 *
 * Shear. A slanting beam would fill much of each row falsely. Moving all points aside level, by a
 * vector in proportion to their height, moves each row of each picture aside and leaves its area
 * the same; with the slope of the body's own regression line the beam stands upright, for all
 * headings at once.
 *
 * A range of headings. Turning about the plumb line leaves heights as they are, so that the row of
 * a point is the same for all headings, and its place across, −x sin θ + y cos θ, has its least and
 * greatest over a range at the ends or where it is ∓ √(x² + y²). Spans from the least to the
 * greatest hold the picture of every heading of the range. The axis goes through the middle between
 * the leftmost and the rightmost point: moving it moves the picture aside, no more.
 *
 * Worst heading. Ranges are halved, the one with the greatest bound first, until that bound is near
 * enough to an area that was seen (branch and bound). Half a turn is enough: from behind the
 * outline is mirrored. */
#include "silhouette.h"

#include <string.h>

#define ROWS 1024
#define COLUMNS 2048
/* Outwards, as a share of the size: more than rounding of coordinates, less than any column. */
#define OUTWARDS 1e-11
#define FIRST_RANGES 12u
#define MOST_RANGES 400u
#define NEAR_ENOUGH 0.004

typedef struct
{
  double lo, hi;
} Span;

typedef struct
{
  TrnTriangle *triangles;
  TrnVec3 *points; /* those that triangles use: turned, about the middle of the box */
  Span *places;    /* of the points, in the view that is painted */
  guint32 n_triangles, n_points;
  gint32 *grid;             /* ROWS of COLUMNS + 1 */
  double slack_m, margin_m; /* in height and, after the shear, aside */
  double bottom_m, row_m;
} Picture;

/* Headings from 0 to 1, and how the picture lies. */
typedef struct
{
  double cosine[2], sine[2];
  double axis_x, axis_y;
  double left_m, column_m;
} View;

static const Span empty = { INFINITY, -INFINITY };

static void
span_add (Span *span, Span other)
{
  span->lo = fmin (span->lo, other.lo);
  span->hi = fmax (span->hi, other.hi);
}

static Span
place_of (const View *view, TrnVec3 p)
{
  double x = p.x - view->axis_x, y = p.y - view->axis_y;
  double u0 = y * view->cosine[0] - x * view->sine[0];
  double u1 = y * view->cosine[1] - x * view->sine[1];
  double depth0 = x * view->cosine[0] + y * view->sine[0];
  double depth1 = x * view->cosine[1] + y * view->sine[1];
  Span span = { fmin (u0, u1), fmax (u0, u1) };
  /* The derivative of the place by the heading is minus the depth. */
  if (depth0 < 0 && depth1 > 0)
    span.hi = sqrt (x * x + y * y) * (1 + OUTWARDS);
  if (depth0 > 0 && depth1 < 0)
    span.lo = -sqrt (x * x + y * y) * (1 + OUTWARDS);
  return span;
}

/* ---- laying out ---- */

static void
picture_clear (Picture *picture)
{
  g_free (picture->triangles);
  g_free (picture->points);
  g_free (picture->places);
  g_free (picture->grid);
}

/* The level distance of the farthest point from the middle, with a shear. */
static double
reach_of (const Picture *picture, double shear_x, double shear_y)
{
  double reach2 = 0;
  for (guint32 i = 0; i < picture->n_points; i++)
    {
      TrnVec3 p = picture->points[i];
      double x = p.x - shear_x * p.z, y = p.y - shear_y * p.z;
      reach2 = fmax (reach2, x * x + y * y);
    }
  return sqrt (reach2);
}

/* Makes the body upright, by the regression of its places on their heights, where that makes it
 * narrower. */
static void
shear (Picture *picture)
{
  double n = picture->n_points, zz = 0, xz = 0, yz = 0;
  TrnVec3 mean = { 0, 0, 0 };
  for (guint32 i = 0; i < picture->n_points; i++)
    mean = trn_vec3_add_scaled (mean, picture->points[i], 1 / n);
  for (guint32 i = 0; i < picture->n_points; i++)
    {
      TrnVec3 p = trn_vec3_sub (picture->points[i], mean);
      zz += p.z * p.z;
      xz += p.x * p.z;
      yz += p.y * p.z;
    }
  double shear_x = xz / zz, shear_y = yz / zz, slope = hypot (shear_x, shear_y);
  if (!(slope < 100) || reach_of (picture, shear_x, shear_y) >= reach_of (picture, 0, 0))
    shear_x = shear_y = slope = 0;
  for (guint32 i = 0; i < picture->n_points; i++)
    {
      picture->points[i].x -= shear_x * picture->points[i].z;
      picture->points[i].y -= shear_y * picture->points[i].z;
    }
  picture->margin_m = picture->slack_m * hypot (1, slope);
}

static void
picture_init (Picture *picture, const TrnMesh *mesh, const TrnRotation *turn, double slack_m)
{
  TrnVec3 middle = trn_box_centre (&mesh->box);
  TrnBox box = trn_box_empty ();
  g_autofree guint32 *index = g_new (guint32, mesh->n_vertices);
  memset (index, 0xff, mesh->n_vertices * sizeof *index);
  *picture = (Picture){ .n_triangles = mesh->n_triangles };
  picture->triangles = g_new (TrnTriangle, mesh->n_triangles);
  picture->points = g_new (TrnVec3, mesh->n_vertices);
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    for (int k = 0; k < 3; k++)
      {
        guint32 v = mesh->triangles[i].v[k];
        if (index[v] == G_MAXUINT32)
          {
            index[v] = picture->n_points++;
            picture->points[index[v]]
                = trn_rotation_apply (turn, trn_vec3_sub (mesh->vertices[v], middle));
            trn_box_add_point (&box, picture->points[index[v]]);
          }
        picture->triangles[i].v[k] = index[v];
      }
  picture->places = g_new (Span, picture->n_points);
  picture->grid = g_new (gint32, ROWS * (COLUMNS + 1));
  picture->slack_m = slack_m + OUTWARDS * (trn_vec3_length (trn_box_size (&box)) + slack_m);
  picture->bottom_m = box.lo.z - picture->slack_m;
  picture->row_m = (box.hi.z + picture->slack_m - picture->bottom_m) / ROWS;
  shear (picture);
}

/* The axis, between the leftmost and the rightmost point in the middle of the headings, and the
 * columns, over all that can be seen. */
static View
view_make (const Picture *picture, double heading0_rad, double heading1_rad)
{
  View view = { .cosine = { cos (heading0_rad), cos (heading1_rad) },
                .sine = { sin (heading0_rad), sin (heading1_rad) } };
  double c = cos (0.5 * (heading0_rad + heading1_rad)),
         s = sin (0.5 * (heading0_rad + heading1_rad));
  TrnVec3 left = { 0, 0, 0 }, right = { 0, 0, 0 };
  Span ends = empty, all = empty;
  for (guint32 i = 0; i < picture->n_points; i++)
    {
      TrnVec3 p = picture->points[i];
      double u = p.y * c - p.x * s;
      left = u < ends.lo ? p : left;
      right = u > ends.hi ? p : right;
      span_add (&ends, (Span){ u, u });
    }
  view.axis_x = 0.5 * (left.x + right.x);
  view.axis_y = 0.5 * (left.y + right.y);
  for (guint32 i = 0; i < picture->n_points; i++)
    {
      picture->places[i] = place_of (&view, picture->points[i]);
      span_add (&all, picture->places[i]);
    }
  view.left_m = all.lo - picture->margin_m;
  view.column_m = (all.hi + picture->margin_m - view.left_m) / COLUMNS;
  return view;
}

/* ---- painting ---- */

static int
column_of (const View *view, double place_m)
{
  return (int)CLAMP (floor ((place_m - view->left_m) / view->column_m), 0, COLUMNS - 1);
}

static int
row_of (const Picture *picture, double height_m)
{
  return (int)CLAMP (floor ((height_m - picture->bottom_m) / picture->row_m), 0, ROWS - 1);
}

/* One edge of a triangle, upwards. */
typedef struct
{
  double from_m, to_m; /* heights */
  Span from, to;       /* places at them */
  double per_m;
} Edge;

static Edge
edge_make (const Picture *picture, guint32 a, guint32 b)
{
  gboolean is_up = picture->points[a].z <= picture->points[b].z;
  guint32 from = is_up ? a : b, to = is_up ? b : a;
  Edge edge = { picture->points[from].z, picture->points[to].z, picture->places[from],
                picture->places[to], 0 };
  double rise = edge.to_m - edge.from_m;
  /* One that is as good as level counts whole wherever it is touched. */
  if (rise > OUTWARDS * picture->row_m)
    edge.per_m = 1 / rise;
  return edge;
}

/* What of the edge is from @lo to @hi. Places of the ends are spans over the headings; a place
 * between them is within the same mixture of the spans. */
static void
edge_add (const Edge *edge, double lo, double hi, Span *span)
{
  if (edge->from_m > hi || edge->to_m < lo)
    return;
  double t0 = 0, t1 = 1;
  if (edge->per_m > 0)
    {
      t0 = fmax (0, (lo - edge->from_m) * edge->per_m);
      t1 = fmin (1, (hi - edge->from_m) * edge->per_m);
    }
  double wide_lo = edge->to.lo - edge->from.lo, wide_hi = edge->to.hi - edge->from.hi;
  span->lo = fmin (span->lo, edge->from.lo + wide_lo * (wide_lo > 0 ? t0 : t1));
  span->hi = fmax (span->hi, edge->from.hi + wide_hi * (wide_hi > 0 ? t1 : t0));
}

static void
paint (const Picture *picture, const View *view, const TrnTriangle *triangle)
{
  const guint32 *v = triangle->v;
  const Edge edges[3] = { edge_make (picture, v[0], v[1]), edge_make (picture, v[1], v[2]),
                          edge_make (picture, v[2], v[0]) };
  double lowest = fmin (edges[0].from_m, edges[1].from_m);
  double highest = fmax (edges[0].to_m, edges[1].to_m);
  int last = row_of (picture, highest + picture->slack_m);
  for (int row = row_of (picture, lowest - picture->slack_m); row <= last; row++)
    {
      double lo = picture->bottom_m + row * picture->row_m - picture->slack_m;
      double hi = picture->bottom_m + (row + 1) * picture->row_m + picture->slack_m;
      Span span = empty;
      for (int k = 0; k < 3; k++)
        edge_add (&edges[k], lo, hi, &span);
      if (!(span.lo <= span.hi))
        continue;
      gint32 *cells = picture->grid + row * (COLUMNS + 1);
      cells[column_of (view, span.lo - picture->margin_m)]++;
      cells[column_of (view, span.hi + picture->margin_m) + 1]--;
    }
}

static double
area_over (const Picture *picture, double heading0_rad, double heading1_rad)
{
  View view = view_make (picture, heading0_rad, heading1_rad);
  memset (picture->grid, 0, ROWS * (COLUMNS + 1) * sizeof *picture->grid);
  for (guint32 i = 0; i < picture->n_triangles; i++)
    paint (picture, &view, &picture->triangles[i]);
  guint64 covered = 0;
  for (int row = 0; row < ROWS; row++)
    {
      const gint32 *cells = picture->grid + row * (COLUMNS + 1);
      gint32 depth = 0;
      for (int column = 0; column < COLUMNS; column++)
        {
          depth += cells[column];
          covered += depth > 0;
        }
    }
  return (double)covered * view.column_m * picture->row_m;
}

double
trn_silhouette_m2 (const TrnMesh *mesh, const TrnRotation *turn, double heading_rad, double slack_m)
{
  if (mesh->n_triangles == 0)
    return 0;
  Picture picture;
  picture_init (&picture, mesh, turn, slack_m);
  double area_m2 = area_over (&picture, heading_rad, heading_rad);
  picture_clear (&picture);
  return area_m2;
}

/* ---- the worst heading ---- */

typedef struct
{
  double from_rad, to_rad, bound_m2;
} Range;

static Range
range_make (const Picture *picture, double from_rad, double to_rad)
{
  return (Range){ from_rad, to_rad, area_over (picture, from_rad, to_rad) };
}

static guint
greatest_of (const GArray *ranges)
{
  guint greatest = 0;
  for (guint i = 1; i < ranges->len; i++)
    if (g_array_index (ranges, Range, i).bound_m2
        > g_array_index (ranges, Range, greatest).bound_m2)
      greatest = i;
  return greatest;
}

TrnSilhouette
trn_silhouette_worst (const TrnMesh *mesh, const TrnRotation *turn, double slack_m)
{
  TrnSilhouette worst = { 0, 0, 0 };
  if (mesh->n_triangles == 0)
    return worst;
  Picture picture;
  picture_init (&picture, mesh, turn, slack_m);
  g_autoptr (GArray) ranges = g_array_new (FALSE, FALSE, sizeof (Range));
  for (guint i = 0; i < FIRST_RANGES; i++)
    {
      Range range = range_make (&picture, G_PI * i / FIRST_RANGES, G_PI * (i + 1) / FIRST_RANGES);
      g_array_append_val (ranges, range);
    }
  for (;;)
    {
      guint greatest = greatest_of (ranges);
      Range range = g_array_index (ranges, Range, greatest);
      double middle = 0.5 * (range.from_rad + range.to_rad);
      worst.area_m2 = range.bound_m2;
      double seen_m2 = area_over (&picture, middle, middle);
      if (seen_m2 > worst.seen_m2)
        {
          worst.seen_m2 = seen_m2;
          worst.heading_rad = middle;
        }
      if (range.bound_m2 <= worst.seen_m2 * (1 + NEAR_ENOUGH) || ranges->len >= MOST_RANGES)
        break;
      Range upper = range_make (&picture, middle, range.to_rad);
      g_array_index (ranges, Range, greatest) = range_make (&picture, range.from_rad, middle);
      g_array_append_val (ranges, upper);
    }
  picture_clear (&picture);
  /* A picture of one heading is a bound of that heading too, from other rows and columns. */
  worst.area_m2 = fmax (worst.area_m2, worst.seen_m2);
  return worst;
}
