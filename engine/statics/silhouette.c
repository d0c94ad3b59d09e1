/* The picture is cut into level rows. In a row each triangle covers at most the span between the
 * leftmost and the rightmost of what of it lies in the row; columns that such a span touches count
 * as covered over the whole height of the row. The count is never below the true area of the union
 * of all triangles, whether the body is closed or not, and gaps stay gaps. What it has too much
 * lies along the outline: about one row or column of it.
 *
 * Spans are kept as differences: + 1 in the first column, − 1 after the last; sums along the row
 * tell what is covered. That takes no sorting.
 *
 * Shear. An upright slanting beam would fill much of each row's height falsely. Moving each row
 * aside in proportion to its height leaves the area the same; with the slope of the body's own
 * regression line the beam stands upright in the picture.
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
  const TrnMesh *mesh;
  TrnVec3 *points; /* turned, about the middle of the box */
  gint32 *grid;    /* ROWS of COLUMNS + 1 */
  double slack_m;
  double bottom_m, row_m;
} Picture;

/* Headings from 0 to 1, and how the picture lies. */
typedef struct
{
  double cosine[2], sine[2];
  double axis_x, axis_y;
  double shear;
  double left_m, column_m, margin_m;
} View;

typedef struct
{
  double lo, hi;
} Span;

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
  if (depth0 <= 0 && depth1 >= 0)
    span.hi = hypot (x, y);
  if (depth0 >= 0 && depth1 <= 0)
    span.lo = -hypot (x, y);
  span.lo -= view->shear * p.z;
  span.hi -= view->shear * p.z;
  return span;
}

/* ---- laying out ---- */

static void
picture_init (Picture *picture, const TrnMesh *mesh, const TrnRotation *turn, double slack_m)
{
  TrnVec3 middle = trn_box_centre (&mesh->box);
  TrnBox box = trn_box_empty ();
  *picture = (Picture){ .mesh = mesh, .slack_m = slack_m };
  picture->points = g_new (TrnVec3, mesh->n_vertices);
  picture->grid = g_new (gint32, ROWS * (COLUMNS + 1));
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    picture->points[i] = trn_rotation_apply (turn, trn_vec3_sub (mesh->vertices[i], middle));
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    for (int k = 0; k < 3; k++)
      trn_box_add_point (&box, picture->points[mesh->triangles[i].v[k]]);
  double size = trn_vec3_length (trn_box_size (&box)) + slack_m;
  picture->slack_m += OUTWARDS * size;
  picture->bottom_m = box.lo.z - picture->slack_m;
  picture->row_m = (box.hi.z + picture->slack_m - picture->bottom_m) / ROWS;
}

static void
picture_clear (Picture *picture)
{
  g_free (picture->points);
  g_free (picture->grid);
}

/* The shear that makes the body upright, by the regression of places on heights over the vertices
 * of its triangles, and the axis. */
static void
lay_out (const Picture *picture, View *view, double heading_rad)
{
  double c = cos (heading_rad), s = sin (heading_rad);
  double sum_u = 0, sum_z = 0, sum_uz = 0, sum_zz = 0, n = 3.0 * picture->mesh->n_triangles;
  TrnVec3 left = { 0, 0, 0 }, right = { 0, 0, 0 };
  Span ends = empty;
  for (guint32 i = 0; i < picture->mesh->n_triangles; i++)
    for (int k = 0; k < 3; k++)
      {
        TrnVec3 p = picture->points[picture->mesh->triangles[i].v[k]];
        double u = p.y * c - p.x * s;
        sum_u += u;
        sum_z += p.z;
        sum_uz += u * p.z;
        sum_zz += p.z * p.z;
        left = u < ends.lo ? p : left;
        right = u > ends.hi ? p : right;
        span_add (&ends, (Span){ u, u });
      }
  double spread = sum_zz - sum_z * sum_z / n;
  double slope = (sum_uz - sum_u * sum_z / n) / spread;
  view->axis_x = 0.5 * (left.x + right.x);
  view->axis_y = 0.5 * (left.y + right.y);
  view->shear = isfinite (slope) && fabs (slope) < 100 ? slope : 0;
}

/* The columns: over all that can be seen. Returns the width. */
static double
measure_width (const Picture *picture, View *view)
{
  Span all = empty;
  for (guint32 i = 0; i < picture->mesh->n_triangles; i++)
    for (int k = 0; k < 3; k++)
      span_add (&all, place_of (view, picture->points[picture->mesh->triangles[i].v[k]]));
  double size = fmax (fabs (all.lo), fabs (all.hi));
  view->margin_m = picture->slack_m * hypot (1, view->shear) + OUTWARDS * size;
  view->left_m = all.lo - view->margin_m;
  double width_m = all.hi + view->margin_m - view->left_m;
  view->column_m = width_m / COLUMNS;
  return width_m;
}

static View
view_make (const Picture *picture, double heading0_rad, double heading1_rad)
{
  View view = { .cosine = { cos (heading0_rad), cos (heading1_rad) },
                .sine = { sin (heading0_rad), sin (heading1_rad) } };
  lay_out (picture, &view, 0.5 * (heading0_rad + heading1_rad));
  View plain = view;
  plain.shear = 0;
  return measure_width (picture, &plain) <= measure_width (picture, &view) ? plain : view;
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

/* Where the edges of a triangle pass @height_m. */
static Span
cut_at (const View *view, const TrnVec3 p[3], double height_m)
{
  Span span = empty;
  for (int k = 0; k < 3; k++)
    {
      TrnVec3 a = p[k], b = p[(k + 1) % 3];
      if ((a.z - height_m) * (b.z - height_m) < 0)
        span_add (&span, place_of (view, trn_vec3_mix (a, b, (height_m - a.z) / (b.z - a.z))));
    }
  return span;
}

static void
paint (const Picture *picture, const View *view, guint32 triangle)
{
  TrnVec3 p[3];
  const guint32 *v = picture->mesh->triangles[triangle].v;
  for (int k = 0; k < 3; k++)
    p[k] = picture->points[v[k]];
  Span places[3] = { place_of (view, p[0]), place_of (view, p[1]), place_of (view, p[2]) };
  double lowest = fmin (p[0].z, fmin (p[1].z, p[2].z)),
         highest = fmax (p[0].z, fmax (p[1].z, p[2].z));
  int last = row_of (picture, highest + picture->slack_m);
  for (int row = row_of (picture, lowest - picture->slack_m); row <= last; row++)
    {
      double lo = picture->bottom_m + row * picture->row_m - picture->slack_m;
      double hi = picture->bottom_m + (row + 1) * picture->row_m + picture->slack_m;
      Span span = cut_at (view, p, lo);
      span_add (&span, cut_at (view, p, hi));
      for (int k = 0; k < 3; k++)
        if (p[k].z >= lo && p[k].z <= hi)
          span_add (&span, places[k]);
      if (!(span.lo <= span.hi))
        continue;
      gint32 *cells = picture->grid + row * (COLUMNS + 1);
      cells[column_of (view, span.lo - view->margin_m)]++;
      cells[column_of (view, span.hi + view->margin_m) + 1]--;
    }
}

static double
area_over (const Picture *picture, double heading0_rad, double heading1_rad)
{
  View view = view_make (picture, heading0_rad, heading1_rad);
  memset (picture->grid, 0, ROWS * (COLUMNS + 1) * sizeof *picture->grid);
  for (guint32 i = 0; i < picture->mesh->n_triangles; i++)
    paint (picture, &view, i);
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
