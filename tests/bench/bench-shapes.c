/* bench-shapes.c: see bench-shapes.h. */
#include "bench-shapes.h"

#define WIDTH_SHARE 0.35 /* triangles round a column against those along it */

/* ---- columns and shafts ---- */

static double
outline_radius (const BenchOutline *o, double angle, double height, double z)
{
  double r = o->radius_m;
  if (o->half_x_m > 0)
    r = 1 / fmax (fabs (cos (angle)) / o->half_x_m, fabs (sin (angle)) / o->half_y_m);
  double phase = z / height * o->ribs;
  if (fabs (phase - floor (phase) - 0.5) < 0.12)
    r += o->rib_m;
  return r + o->wave_m * sin (7 * angle + 3 * z);
}

/* Rings of vertices, the lowest first; returns the first vertex. */
static guint32
add_rings (TrnMeshBuilder *builder, guint around, guint rows, double height,
           const BenchOutline *outline, double wall)
{
  guint32 first = 0;
  for (guint i = 0; i <= rows; i++)
    for (guint j = 0; j < around; j++)
      {
        double z = height * i / rows, a = 2 * G_PI * j / around;
        double r = wall > 0 ? outline->radius_m + wall : outline_radius (outline, a, height, z);
        TrnVec3 place = { r * cos (a), r * sin (a), z };
        guint32 vertex = trn_mesh_builder_vertex (builder, place);
        first = i + j == 0 ? vertex : first;
      }
  return first;
}

/* Two triangles for each place of two rings, seen from outside when @to runs above @from. */
static void
join_rings (TrnMeshBuilder *builder, guint32 from, guint32 to, guint around)
{
  for (guint j = 0; j < around; j++)
    {
      guint k = (j + 1) % around;
      trn_mesh_builder_triangle (builder, from + j, from + k, to + k);
      trn_mesh_builder_triangle (builder, from + j, to + k, to + j);
    }
}

static void
close_ring (TrnMeshBuilder *builder, guint32 ring, guint around, TrnVec3 centre, gboolean is_top)
{
  guint32 middle = trn_mesh_builder_vertex (builder, centre);
  for (guint j = 0; j < around; j++)
    {
      guint32 p = ring + j, q = ring + (j + 1) % around;
      trn_mesh_builder_triangle (builder, middle, is_top ? p : q, is_top ? q : p);
    }
}

TrnMesh *
bench_column_make (guint n, double height_m, const BenchOutline *outline)
{
  guint around = (guint)sqrt (n / 2.0 * WIDTH_SHARE), rows = n / 2 / around;
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  guint32 first = add_rings (builder, around, rows, height_m, outline, 0);
  for (guint i = 0; i < rows; i++)
    join_rings (builder, first + i * around, first + (i + 1) * around, around);
  close_ring (builder, first, around, trn_vec3_make (0, 0, 0), FALSE);
  close_ring (builder, first + rows * around, around, trn_vec3_make (0, 0, height_m), TRUE);
  return trn_mesh_builder_finish (builder);
}

TrnMesh *
bench_shaft_make (guint n, double height_m, const BenchOutline *outline, double wall_m)
{
  guint around = (guint)sqrt (n / 4.0 * WIDTH_SHARE), rows = n / 4 / around;
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  guint32 inner = add_rings (builder, around, rows, height_m, outline, 0);
  guint32 outer = add_rings (builder, around, rows, height_m, outline, wall_m);
  for (guint i = 0; i < rows; i++)
    {
      join_rings (builder, inner + (i + 1) * around, inner + i * around, around);
      join_rings (builder, outer + i * around, outer + (i + 1) * around, around);
    }
  join_rings (builder, inner, outer, around);
  join_rings (builder, outer + rows * around, inner + rows * around, around);
  return trn_mesh_builder_finish (builder);
}

/* ---- bars and pipes ---- */

typedef struct
{
  TrnMeshBuilder *builder;
  double step_m; /* between two rings */
  guint sides;
  gboolean square; /* the section, instead of round */
  guint n_triangles;
} Draw;

static TrnVec3
along_path (const GArray *path, guint i)
{
  guint from = i == 0 ? 0 : i - 1, to = MIN (i + 1, path->len - 1);
  return trn_vec3_unit (
      trn_vec3_sub (g_array_index (path, TrnVec3, to), g_array_index (path, TrnVec3, from)));
}

/* A direction square to @along, nearest to @was. */
static TrnVec3
square_to (TrnVec3 along, TrnVec3 was)
{
  return trn_vec3_unit (trn_vec3_add_scaled (was, along, -trn_vec3_dot (was, along)));
}

/* A closed tube of half width @radius along @path: the section is carried along without twist. */
static void
draw_path (Draw *draw, const GArray *path, double radius)
{
  TrnVec3 along = along_path (path, 0);
  TrnVec3 u = fabs (along.z) < 0.9 ? trn_vec3_make (0, 0, 1) : trn_vec3_make (1, 0, 0);
  guint32 before = 0;
  for (guint i = 0; i < path->len; i++)
    {
      TrnVec3 centre = g_array_index (path, TrnVec3, i);
      along = along_path (path, i);
      u = square_to (along, u);
      TrnVec3 v = trn_vec3_cross (along, u);
      guint32 ring = 0;
      for (guint j = 0; j < draw->sides; j++)
        {
          double c = cos (2 * G_PI * j / draw->sides), s = sin (2 * G_PI * j / draw->sides);
          double r = draw->square ? radius / fmax (fabs (c), fabs (s)) : radius;
          TrnVec3 place = trn_vec3_add_scaled (trn_vec3_add_scaled (centre, u, r * c), v, r * s);
          guint32 vertex = trn_mesh_builder_vertex (draw->builder, place);
          ring = j == 0 ? vertex : ring;
        }
      if (i == 0)
        close_ring (draw->builder, ring, draw->sides, centre, FALSE);
      else
        join_rings (draw->builder, before, ring, draw->sides);
      before = ring;
      if (i + 1 == path->len)
        close_ring (draw->builder, ring, draw->sides, centre, TRUE);
    }
  draw->n_triangles += 2 * draw->sides * path->len;
}

/* Adds what lies between the last point and @to, and @to. */
static void
path_line (GArray *path, TrnVec3 to, double step)
{
  TrnVec3 from = g_array_index (path, TrnVec3, path->len - 1);
  guint n = (guint)fmax (1, ceil (trn_vec3_distance (from, to) / step));
  for (guint i = 1; i <= n; i++)
    {
      TrnVec3 place = trn_vec3_mix (from, to, (double)i / n);
      g_array_append_val (path, place);
    }
}

/* A right-angled bend about @corner from the direction @in to the direction @out. */
static void
path_bend (GArray *path, TrnVec3 corner, TrnVec3 in, TrnVec3 out, double radius, double step)
{
  TrnVec3 centre = trn_vec3_add_scaled (trn_vec3_add_scaled (corner, in, -radius), out, radius);
  guint n = (guint)fmax (4, ceil (G_PI / 2 * radius / step));
  for (guint i = 1; i <= n; i++)
    {
      double a = G_PI / 2 * i / n;
      TrnVec3 place = trn_vec3_add_scaled (trn_vec3_add_scaled (centre, out, -radius * cos (a)), in,
                                           radius * sin (a));
      g_array_append_val (path, place);
    }
}

/* A pipe along the axes through @corners, with bends of three times its half width. */
static void
draw_pipe (Draw *draw, const TrnVec3 *corners, guint n, double radius)
{
  g_autoptr (GArray) path = g_array_new (FALSE, FALSE, sizeof (TrnVec3));
  g_array_append_val (path, corners[0]);
  for (guint i = 1; i < n; i++)
    {
      TrnVec3 in = trn_vec3_unit (trn_vec3_sub (corners[i], corners[i - 1]));
      if (i + 1 == n)
        {
          path_line (path, corners[i], draw->step_m);
          break;
        }
      TrnVec3 out = trn_vec3_unit (trn_vec3_sub (corners[i + 1], corners[i]));
      path_line (path, trn_vec3_add_scaled (corners[i], in, -3 * radius), draw->step_m);
      path_bend (path, corners[i], in, out, 3 * radius, draw->step_m);
    }
  draw_path (draw, path, radius);
}

static void
draw_bar (Draw *draw, TrnVec3 from, TrnVec3 to, double radius)
{
  draw_pipe (draw, (TrnVec3[]){ from, to }, 2, radius);
}

typedef void (*DrawFunc) (Draw *draw, gconstpointer data);

/* Draws once to see how many triangles a step of 0.1 m gives, then with the step that gives @n. */
static TrnMesh *
draw_twice (DrawFunc func, gconstpointer data, guint n, guint sides, gboolean square)
{
  Draw draw = { .step_m = 0.1, .sides = sides, .square = square };
  draw.builder = trn_mesh_builder_new ();
  func (&draw, data);
  trn_mesh_builder_free (draw.builder);
  draw.builder = trn_mesh_builder_new ();
  draw.step_m *= draw.n_triangles / (double)n;
  func (&draw, data);
  return trn_mesh_builder_finish (draw.builder);
}

/* ---- what they make up ---- */

typedef struct
{
  double width_m, length_m, panel_m, leg_m, bar_m;
} Lattice;

static void
draw_lattice (Draw *draw, gconstpointer data)
{
  const Lattice *l = data;
  guint n_panels = (guint)round (l->length_m / l->panel_m);
  double h = l->width_m / 2, panel = l->length_m / n_panels;
  TrnVec3 legs[4] = { { -h, -h, 0 }, { h, -h, 0 }, { h, h, 0 }, { -h, h, 0 } };
  for (guint k = 0; k < 4; k++)
    {
      TrnVec3 next = legs[(k + 1) % 4];
      draw_bar (draw, legs[k], trn_vec3_add (legs[k], trn_vec3_make (0, 0, l->length_m)), l->leg_m);
      for (guint i = 0; i <= n_panels; i++)
        {
          TrnVec3 low = { 0, 0, i * panel }, high = { 0, 0, (i + 1) * panel };
          draw_bar (draw, trn_vec3_add (legs[k], low), trn_vec3_add (next, low), l->bar_m);
          if (i < n_panels)
            draw_bar (draw, trn_vec3_add (i % 2 ? next : legs[k], low),
                      trn_vec3_add (i % 2 ? legs[k] : next, high), l->bar_m);
        }
    }
}

TrnMesh *
bench_lattice_make (guint n, double width_m, double length_m, double panel_m, double leg_m,
                    double bar_m)
{
  Lattice lattice = { width_m, length_m, panel_m, leg_m, bar_m };
  return draw_twice (draw_lattice, &lattice, n, 12, FALSE);
}

/* Eight pipes in two layers, each with a rise, a tee on it and a flange at either end. */
static void
draw_pipework (Draw *draw, gconstpointer data)
{
  for (guint k = 0; k < 8; k++)
    {
      double y = 0.7 * (k % 4) - 1.05, z = 1.0 * (k / 4), x = 0.35 * (k % 4) - 0.5;
      double r = 0.12 + 0.02 * (k % 3), rise = 1.6 + 0.2 * (k % 4);
      TrnVec3 corners[5] = { { -3, y, z },
                             { x, y, z },
                             { x, y, z + rise },
                             { 2.2, y, z + rise },
                             { 2.2, y, z + rise + 1.2 } };
      draw_pipe (draw, corners, 5, r);
      draw_bar (draw, trn_vec3_make (-2, y, z), trn_vec3_make (-2, y, z - 0.6), 0.8 * r);
      draw_bar (draw, corners[0], trn_vec3_make (-2.95, y, z), 1.7 * r);
      draw_bar (draw, trn_vec3_make (2.2, y, z + rise + 1.15), corners[4], 1.7 * r);
    }
}

TrnMesh *
bench_pipework_make (guint n)
{
  return draw_twice (draw_pipework, NULL, n, 32, FALSE);
}

static void
draw_frame (Draw *draw, gconstpointer data)
{
  for (int i = -1; i <= 1; i++)
    {
      for (int side = -1; side <= 1; side += 2)
        {
          TrnVec3 foot = { 6 * i, 4 * side, 0 }, head = { 6 * i, 4 * side, 12 };
          draw_bar (draw, foot, head, 0.2);
          for (int level = 1; level <= 2 && i < 1; level++)
            draw_bar (draw, trn_vec3_make (6 * i, 4 * side, 6 * level - 0.5),
                      trn_vec3_make (6 * i + 6, 4 * side, 6 * level - 0.5), 0.15);
          if (i < 1)
            draw_bar (draw, foot, trn_vec3_make (6 * i + 6, 4 * side, 5.5), 0.08);
        }
      draw_bar (draw, trn_vec3_make (6 * i, -4, 11.8), trn_vec3_make (6 * i, 4, 11.8), 0.2);
    }
}

TrnMesh *
bench_frame_make (guint n)
{
  return draw_twice (draw_frame, NULL, n, 24, TRUE);
}

/* ---- the blob ---- */

TrnMesh *
bench_blob_make (guint n, double radius_m, guint32 seed)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  guint around = (guint)sqrt (n), rows = n / 2 / around;
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (guint i = 0; i <= rows; i++)
    for (guint j = 0; j < around; j++)
      {
        double polar = G_PI * (0.06 + 0.88 * (i + g_rand_double_range (rand, -0.3, 0.3)) / rows);
        double a = 2 * G_PI * (j + g_rand_double_range (rand, -0.3, 0.3)) / around;
        double bumps = 1 + 0.08 * sin (3 * a + 1) * sin (2 * polar) + 0.03 * sin (7 * a + 5 * polar)
                       + 0.01 * sin (19 * a) * sin (23 * polar);
        double r = radius_m * bumps + g_rand_double_range (rand, -0.004, 0.004);
        TrnVec3 place = { r * sin (polar) * cos (a), r * sin (polar) * sin (a), -r * cos (polar) };
        trn_mesh_builder_vertex (builder, place);
      }
  for (guint i = 0; i < rows; i++)
    join_rings (builder, i * around, (i + 1) * around, around);
  return trn_mesh_builder_finish (builder);
}
