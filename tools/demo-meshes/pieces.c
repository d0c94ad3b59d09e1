/* pieces.c: the closed pieces that the demos' meshes are made of.
 *
 * Long faces are cut into cells, along and across, so that the triangles are as well shaped as
 * those of a tessellated drawing. */
#include "maker.h"

#include <math.h>

static guint32
add_point (DmMesh *mesh, const DmFrame *frame, double x, double y, double z)
{
  DmPoint point = dm_shift (*frame, x, y, z).origin;
  g_array_append_val (mesh->points, point);
  return mesh->points->len - 1;
}

static void
add_triangle (DmMesh *mesh, guint32 a, guint32 b, guint32 c)
{
  const guint32 corners[3] = { a, b, c };
  g_array_append_vals (mesh->corners, corners, 3);
}

static void
add_quad (DmMesh *mesh, guint32 a, guint32 b, guint32 c, guint32 d)
{
  add_triangle (mesh, a, b, c);
  add_triangle (mesh, a, c, d);
}

static guint
cells_for (const DmMesh *mesh, double length)
{
  return MAX (1, (guint)ceil (length / mesh->cell - 1e-9));
}

/* The outline with points put in, so that no edge is longer than a cell. */
static GArray *
cut_outline (const DmMesh *mesh, const DmUV *outline, guint n, gboolean loop)
{
  GArray *cut = g_array_new (FALSE, FALSE, sizeof (DmUV));
  for (guint i = 0; i + (loop ? 0 : 1) < n; i++)
    {
      DmUV a = outline[i], b = outline[(i + 1) % n];
      guint cells = cells_for (mesh, hypot (b.u - a.u, b.v - a.v));
      for (guint k = 0; k < cells; k++)
        {
          double t = (double)k / cells;
          DmUV between = { a.u + t * (b.u - a.u), a.v + t * (b.v - a.v) };
          g_array_append_val (cut, between);
        }
    }
  if (!loop)
    g_array_append_val (cut, outline[n - 1]);
  return cut;
}

/* One ring of a turned piece: a single point where it lies on the axis. */
static guint32
add_ring (DmMesh *mesh, const DmFrame *frame, DmUV at, guint segments)
{
  guint32 first = mesh->points->len;
  guint count = at.u > 0 ? segments : 1;
  for (guint k = 0; k < count; k++)
    {
      DmFrame ray = dm_turn (*frame, 2, 360.0 * k / segments);
      add_point (mesh, &ray, at.u, 0, at.v);
    }
  return first;
}

void
dm_revolve (DmMesh *mesh, DmFrame frame, const DmUV *outline, guint n, guint segments)
{
  gboolean loop = outline[0].u > 0;
  g_autoptr (GArray) cut = cut_outline (mesh, outline, n, loop);
  g_autofree guint32 *first = g_new (guint32, cut->len);
  for (guint i = 0; i < cut->len; i++)
    first[i] = add_ring (mesh, &frame, g_array_index (cut, DmUV, i), segments);
  for (guint i = 0; i + (loop ? 0 : 1) < cut->len; i++)
    {
      guint j = (i + 1) % cut->len;
      gboolean point_i = g_array_index (cut, DmUV, i).u <= 0;
      gboolean point_j = g_array_index (cut, DmUV, j).u <= 0;
      for (guint k = 0; k < segments; k++)
        {
          guint next = (k + 1) % segments;
          if (point_i)
            add_triangle (mesh, first[i], first[j] + next, first[j] + k);
          else if (point_j)
            add_triangle (mesh, first[i] + k, first[i] + next, first[j]);
          else
            add_quad (mesh, first[i] + k, first[i] + next, first[j] + next, first[j] + k);
        }
    }
}

void
dm_cylinder (DmMesh *mesh, DmFrame frame, double radius, double height, guint segments)
{
  const DmUV outline[] = { { 0, 0 }, { radius, 0 }, { radius, height }, { 0, height } };
  dm_revolve (mesh, frame, outline, G_N_ELEMENTS (outline), segments);
}

void
dm_tube (DmMesh *mesh, DmFrame frame, double outer, double inner, double height, guint segments)
{
  const DmUV outline[] = { { inner, 0 }, { outer, 0 }, { outer, height }, { inner, height } };
  dm_revolve (mesh, frame, outline, G_N_ELEMENTS (outline), segments);
}

/* A point of the surface of a box, shared by the faces that meet there. */
static guint32
box_point (DmMesh *mesh, const DmFrame *frame, const double size[3], const guint cells[3],
           const guint at[3], GHashTable *known)
{
  guint key = (at[2] * (cells[1] + 1) + at[1]) * (cells[0] + 1) + at[0] + 1;
  gpointer found = g_hash_table_lookup (known, GUINT_TO_POINTER (key));
  if (found)
    return GPOINTER_TO_UINT (found) - 1;
  guint32 point
      = add_point (mesh, frame, size[0] * ((double)at[0] / cells[0] - 0.5),
                   size[1] * ((double)at[1] / cells[1] - 0.5), size[2] * at[2] / cells[2]);
  g_hash_table_insert (known, GUINT_TO_POINTER (key), GUINT_TO_POINTER (point + 1));
  return point;
}

void
dm_box (DmMesh *mesh, DmFrame frame, double x, double y, double z)
{
  const double size[3] = { x, y, z };
  const guint cells[3] = { cells_for (mesh, x), cells_for (mesh, y), cells_for (mesh, z) };
  g_autoptr (GHashTable) known = g_hash_table_new (NULL, NULL);
  for (int side = 0; side < 6; side++)
    {
      int w = side / 2, u = (w + 1) % 3, v = (w + 2) % 3;
      for (guint i = 0; i < cells[u]; i++)
        for (guint j = 0; j < cells[v]; j++)
          {
            const guint steps[4][2] = { { 0, 0 }, { 1, 0 }, { 1, 1 }, { 0, 1 } };
            guint32 corner[4];
            for (int k = 0; k < 4; k++)
              {
                guint at[3];
                at[w] = side % 2 ? cells[w] : 0;
                at[u] = i + steps[k][0];
                at[v] = j + steps[k][1];
                corner[k] = box_point (mesh, &frame, size, cells, at, known);
              }
            if (side % 2)
              add_quad (mesh, corner[0], corner[1], corner[2], corner[3]);
            else
              add_quad (mesh, corner[3], corner[2], corner[1], corner[0]);
          }
    }
}

/* The rings of an extrusion, from z = 0 to @length, and its sides. Returns the first point; the
 * last ring begins at the number of points less @n. */
static guint32
extrude_sides (DmMesh *mesh, const DmFrame *frame, const DmUV *outline, guint n, double length)
{
  guint32 first = mesh->points->len;
  guint cells = cells_for (mesh, length);
  for (guint i = 0; i <= cells; i++)
    for (guint k = 0; k < n; k++)
      add_point (mesh, frame, outline[k].u, outline[k].v, length * i / cells);
  for (guint i = 0; i < cells; i++)
    for (guint k = 0; k < n; k++)
      {
        guint32 a = first + i * n + k, b = first + i * n + (k + 1) % n;
        add_quad (mesh, a, b, b + n, a + n);
      }
  return first;
}

void
dm_prism (DmMesh *mesh, DmFrame frame, const DmUV *outline, guint n, double height)
{
  guint32 bottom = extrude_sides (mesh, &frame, outline, n, height);
  guint32 top = mesh->points->len - n;
  for (guint k = 1; k + 1 < n; k++)
    {
      add_triangle (mesh, bottom, bottom + k + 1, bottom + k);
      add_triangle (mesh, top, top + k, top + k + 1);
    }
}

void
dm_section (DmMesh *mesh, DmFrame frame, double width, double depth, double flange, double web,
            double length)
{
  double w = width / 2, d = depth / 2, f = d - flange, t = web / 2;
  const DmUV outline[12] = { { -w, -d }, { w, -d }, { w, -f }, { t, -f }, { t, f },   { w, f },
                             { w, d },   { -w, d }, { -w, f }, { -t, f }, { -t, -f }, { -w, -f } };
  const guint caps[10][3] = { { 0, 1, 2 },  { 0, 2, 3 }, { 0, 3, 10 }, { 0, 10, 11 }, { 3, 4, 9 },
                              { 3, 9, 10 }, { 6, 7, 8 }, { 6, 8, 9 },  { 6, 9, 4 },   { 6, 4, 5 } };
  guint32 bottom = extrude_sides (mesh, &frame, outline, 12, length);
  guint32 top = mesh->points->len - 12;
  for (guint k = 0; k < G_N_ELEMENTS (caps); k++)
    {
      add_triangle (mesh, bottom + caps[k][0], bottom + caps[k][2], bottom + caps[k][1]);
      add_triangle (mesh, top + caps[k][0], top + caps[k][1], top + caps[k][2]);
    }
}

void
dm_arc_plate (DmMesh *mesh, DmFrame frame, double outer, double inner, double from, double to,
              guint steps, double height)
{
  guint n = 2 * (steps + 1);
  g_autofree DmUV *outline = g_new (DmUV, n);
  for (guint k = 0; k <= steps; k++)
    {
      double a = (from + (to - from) * k / steps) * G_PI / 180;
      outline[k] = (DmUV){ outer * cos (a), outer * sin (a) };
      outline[n - 1 - k] = (DmUV){ inner * cos (a), inner * sin (a) };
    }
  guint32 bottom = extrude_sides (mesh, &frame, outline, n, height);
  guint32 top = mesh->points->len - n;
  for (guint k = 0; k < steps; k++)
    {
      guint i = n - 1 - k;
      add_quad (mesh, bottom + i, bottom + i - 1, bottom + k + 1, bottom + k);
      add_quad (mesh, top + k, top + k + 1, top + i - 1, top + i);
    }
}

static DmPoint
minus (DmPoint a, DmPoint b)
{
  return (DmPoint){ a.x - b.x, a.y - b.y, a.z - b.z };
}

static DmPoint
plus (DmPoint a, double t, DmPoint b)
{
  return (DmPoint){ a.x + t * b.x, a.y + t * b.y, a.z + t * b.z };
}

static double
dot (DmPoint a, DmPoint b)
{
  return a.x * b.x + a.y * b.y + a.z * b.z;
}

static DmPoint
cross (DmPoint a, DmPoint b)
{
  return (DmPoint){ a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x };
}

static DmPoint
unit (DmPoint a)
{
  return plus ((DmPoint){ 0, 0, 0 }, 1 / sqrt (dot (a, a)), a);
}

/* Points from the end of @path straight to @to, no farther apart than a few cells. */
static void
path_to (const DmMesh *mesh, GArray *path, DmPoint to)
{
  if (path->len > 0)
    {
      DmPoint from = g_array_index (path, DmPoint, path->len - 1), by = minus (to, from);
      guint cells = cells_for (mesh, sqrt (dot (by, by)) / 2);
      for (guint k = 1; k < cells; k++)
        {
          DmPoint between = plus (from, (double)k / cells, by);
          g_array_append_val (path, between);
        }
    }
  g_array_append_val (path, to);
}

/* The line of corners with each corner but the ends replaced by an arc of radius @bend. */
static GArray *
round_corners (const DmMesh *mesh, const DmPoint *corners, guint n, double bend)
{
  GArray *path = g_array_new (FALSE, FALSE, sizeof (DmPoint));
  path_to (mesh, path, corners[0]);
  for (guint i = 1; i + 1 < n; i++)
    {
      DmPoint in = unit (minus (corners[i], corners[i - 1]));
      DmPoint out = unit (minus (corners[i + 1], corners[i]));
      double angle = acos (dot (in, out));
      DmPoint side = unit (plus (out, -dot (in, out), in));
      DmPoint start = plus (corners[i], -bend * tan (angle / 2), in);
      DmPoint centre = plus (start, bend, side);
      path_to (mesh, path, start);
      for (guint k = 1; k <= 8; k++)
        {
          double a = angle * k / 8;
          DmPoint at = plus (plus (centre, -bend * cos (a), side), bend * sin (a), in);
          g_array_append_val (path, at);
        }
    }
  path_to (mesh, path, corners[n - 1]);
  return path;
}

/* The direction of a path at a point: the mean of the edges that meet there. */
static DmPoint
path_direction (const GArray *path, guint i)
{
  DmPoint at = g_array_index (path, DmPoint, i), sum = { 0, 0, 0 };
  if (i > 0)
    sum = plus (sum, 1, unit (minus (at, g_array_index (path, DmPoint, i - 1))));
  if (i + 1 < path->len)
    sum = plus (sum, 1, unit (minus (g_array_index (path, DmPoint, i + 1), at)));
  return unit (sum);
}

void
dm_pipe (DmMesh *mesh, DmFrame frame, const DmPoint *corners, guint n, double radius, double bend,
         guint segments)
{
  g_autoptr (GArray) path = round_corners (mesh, corners, n, bend);
  DmPoint along = path_direction (path, 0);
  DmPoint side = fabs (along.z) < 0.9 ? (DmPoint){ 0, 0, 1 } : (DmPoint){ 1, 0, 0 };
  guint32 first = mesh->points->len;
  for (guint i = 0; i < path->len; i++)
    {
      DmPoint at = g_array_index (path, DmPoint, i);
      along = path_direction (path, i);
      side = unit (plus (side, -dot (side, along), along));
      DmPoint up = cross (along, side);
      for (guint k = 0; k < segments; k++)
        {
          double a = 2 * G_PI * k / segments;
          DmPoint p = plus (plus (at, radius * cos (a), side), radius * sin (a), up);
          add_point (mesh, &frame, p.x, p.y, p.z);
        }
    }
  guint32 last = first + (path->len - 1) * segments;
  for (guint32 ring = first; ring < last; ring += segments)
    for (guint k = 0; k < segments; k++)
      {
        guint next = (k + 1) % segments;
        add_quad (mesh, ring + k, ring + next, ring + segments + next, ring + segments + k);
      }
  DmPoint ends[2] = { corners[0], corners[n - 1] };
  guint32 bottom = add_point (mesh, &frame, ends[0].x, ends[0].y, ends[0].z);
  guint32 top = add_point (mesh, &frame, ends[1].x, ends[1].y, ends[1].z);
  for (guint k = 0; k < segments; k++)
    {
      guint next = (k + 1) % segments;
      add_triangle (mesh, bottom, first + next, first + k);
      add_triangle (mesh, top, last + k, last + next);
    }
}

void
dm_hexagon (DmMesh *mesh, DmFrame frame, double across, double height)
{
  double r = across / sqrt (3);
  const DmUV outline[]
      = { { 0, 0 }, { r, 0 }, { r, 0.8 * height }, { 0.88 * r, height }, { 0, height } };
  dm_revolve (mesh, frame, outline, G_N_ELEMENTS (outline), 6);
}

void
dm_gusset (DmMesh *mesh, DmFrame frame, double reach, double height, double thick)
{
  const DmUV outline[] = {
    { 0, 0 }, { reach, 0 }, { reach, 0.1 * height }, { 0.12 * reach, height }, { 0, height }
  };
  DmFrame upright = dm_shift (dm_turn (frame, 0, 90), 0, 0, -thick / 2);
  dm_prism (mesh, upright, outline, G_N_ELEMENTS (outline), thick);
}

void
dm_bolt_circle (DmMesh *mesh, DmFrame frame, guint count, double radius, double across, double grip)
{
  double height = 0.65 * across;
  for (guint k = 0; k < count; k++)
    {
      DmFrame at = dm_polar (frame, 360.0 * (k + 0.5) / count, radius, 0);
      dm_hexagon (mesh, dm_shift (at, 0, 0, -0.001), across, height);
      dm_hexagon (mesh, dm_turn (dm_shift (at, 0, 0, 0.001 - grip), 0, 180), across, 0.8 * height);
      dm_cylinder (mesh, dm_shift (at, 0, 0, -grip - 1.3 * height), 0.32 * across,
                   grip + 1.9 * height, 12);
    }
}
