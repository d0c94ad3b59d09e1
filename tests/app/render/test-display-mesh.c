/* Display meshes: normals, feature edges and folds of bodies whose counts are known, and fewer
 * triangles on request. */
#include "display-mesh.h"
#include "outline.h"
#include "test-scale.h"
#include "test-shapes.h"

static TrnMesh *
unit_box (void)
{
  return test_box (trn_vec3_make (-1, -2, -3), trn_vec3_make (1, 2, 3));
}

/* The same triangles, each with vertices of its own, as many files have them. */
static TrnMesh *
torn_apart (const TrnMesh *mesh)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (guint32 t = 0; t < mesh->n_triangles; t++)
    {
      TrnVec3 p[3];
      trn_mesh_corners (mesh, t, p);
      guint32 first = trn_mesh_builder_vertex (builder, p[0]);
      trn_mesh_builder_vertex (builder, p[1]);
      trn_mesh_builder_vertex (builder, p[2]);
      trn_mesh_builder_triangle (builder, first, first + 1, first + 2);
    }
  return trn_mesh_builder_finish (builder);
}

static void
assert_box (const RenderMesh *mesh)
{
  g_assert_cmpuint (mesh->n_triangles, ==, 12);
  g_assert_cmpuint (mesh->n_edges, ==, 12);
  g_assert_cmpuint (mesh->n_vertices, ==, 24);
  g_assert_cmpuint (mesh->n_folds, ==, 0);
  g_assert_true (mesh->closed);
  for (guint32 v = 0; v < mesh->n_vertices; v++)
    {
      /* Each normal is along one axis, outwards. */
      const float *n = mesh->normals + 3 * v, *p = mesh->positions + 3 * v;
      g_assert_cmpfloat (fabsf (n[0]) + fabsf (n[1]) + fabsf (n[2]), ==, 1);
      g_assert_cmpfloat (n[0] * p[0] + n[1] * p[1] + n[2] * p[2], >, 0);
    }
}

/* A box: 12 edges, none across its faces; three normals at each of 8 corners. */
static void
test_box_mesh (void)
{
  g_autoptr (TrnMesh) box = unit_box ();
  g_autoptr (RenderMesh) mesh = render_mesh_build (box, 0);
  assert_box (mesh);
  g_assert_cmpstr (mesh->hash, ==, box->hash);
  g_autoptr (TrnMesh) torn = torn_apart (box);
  g_autoptr (RenderMesh) welded = render_mesh_build (torn, 0);
  assert_box (welded);
}

/* A drum of 48 sides, 7.5° apart: the two rims of 48 edges each, and no edge along the side. Its
 * side is smooth: a normal at the rim points out from the axis. 48 folds may show as outline. */
static void
test_drum_mesh (void)
{
  g_autoptr (TrnMesh) drum = test_drum (48, 2, 0, 5);
  g_autoptr (RenderMesh) mesh = render_mesh_build (drum, 0);
  g_assert_cmpuint (mesh->n_edges, ==, 2 * 48);
  g_assert_cmpuint (mesh->n_vertices, ==, 4 * 48);
  g_assert_cmpuint (mesh->n_folds, ==, 48);
  for (guint32 i = 0; i < mesh->n_edges; i++)
    {
      const float *a = mesh->positions + 3 * mesh->edges[2 * i];
      const float *b = mesh->positions + 3 * mesh->edges[2 * i + 1];
      g_assert_cmpfloat (a[2], ==, b[2]);
    }
  for (guint32 v = 0; v < mesh->n_vertices; v++)
    {
      const float *n = mesh->normals + 3 * v, *p = mesh->positions + 3 * v;
      double out = (n[0] * p[0] + n[1] * p[1]) / hypotf (p[0], p[1]);
      g_assert_true (fabs (out - 1) < 1e-6 || (fabs (out) < 1e-6 && fabsf (n[2]) == 1));
    }
}

/* A sheet of two triangles: four borders, no diagonal; it is open. */
static void
test_sheet (void)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (int i = 0; i < 4; i++)
    trn_mesh_builder_vertex (builder, trn_vec3_make (i & 1, i >> 1, 0));
  trn_mesh_builder_triangle (builder, 0, 1, 3);
  trn_mesh_builder_triangle (builder, 0, 3, 2);
  g_autoptr (TrnMesh) sheet = trn_mesh_builder_finish (builder);
  g_autoptr (RenderMesh) mesh = render_mesh_build (sheet, 0);
  g_assert_cmpuint (mesh->n_edges, ==, 4);
  g_assert_cmpuint (mesh->n_vertices, ==, 4);
  g_assert_false (mesh->closed);
}

/* A needle within a face, as an opening of a ground can leave: a box whose upper face has a vertex
 * on one of its edges. The needle must add no line and no normal of its own. */
static void
test_needle (void)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  const TrnVec3 corners[5]
      = { { 0, 0, 0 }, { 4, 0, 0 }, { 4, 3, 0 }, { 0, 3, 0 }, { 2, 1e-12, 0 } };
  for (int i = 0; i < 5; i++)
    trn_mesh_builder_vertex (builder, corners[i]);
  trn_mesh_builder_triangle (builder, 0, 1, 4);
  trn_mesh_builder_triangle (builder, 0, 4, 3);
  trn_mesh_builder_triangle (builder, 4, 1, 2);
  trn_mesh_builder_triangle (builder, 4, 2, 3);
  g_autoptr (TrnMesh) sheet = trn_mesh_builder_finish (builder);
  g_autoptr (RenderMesh) mesh = render_mesh_build (sheet, 0);
  g_assert_cmpuint (mesh->n_edges, ==, 4);
}

/* A mesh without a triangle, and one whose triangles have no area, are nothing to draw. */
static void
test_nothing (void)
{
  g_autoptr (TrnMesh) empty = trn_mesh_builder_finish (trn_mesh_builder_new ());
  g_autoptr (RenderMesh) mesh = render_mesh_build (empty, 0);
  g_assert_cmpuint (mesh->n_triangles, ==, 0);
  g_assert_false (mesh->closed);
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (int i = 0; i < 3; i++)
    trn_mesh_builder_vertex (builder, trn_vec3_make (1, 2, 3));
  for (int i = 0; i < 20; i++)
    trn_mesh_builder_triangle (builder, 0, 1, 2);
  g_autoptr (TrnMesh) point = trn_mesh_builder_finish (builder);
  g_autoptr (RenderMesh) of_point = render_mesh_build (point, 5);
  g_assert_cmpuint (of_point->n_triangles, ==, 0);
}

/* Triangles in a line, all different: no area to guess a cell from, but there is an end. */
static void
test_line_of_triangles (void)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (int i = 0; i < 1000; i++)
    trn_mesh_builder_vertex (builder, trn_vec3_make (i, 0, 0));
  for (guint32 i = 0; i + 2 < 1000; i++)
    trn_mesh_builder_triangle (builder, i, i + 1, i + 2);
  g_autoptr (TrnMesh) line = trn_mesh_builder_finish (builder);
  g_autoptr (RenderMesh) mesh = render_mesh_build (line, 10);
  g_assert_cmpuint (mesh->n_triangles, <=, 10);
}

static double
box_off (const TrnBox *a, const TrnBox *b)
{
  return fmax (trn_vec3_max_abs (trn_vec3_sub (a->lo, b->lo)),
               trn_vec3_max_abs (trn_vec3_sub (a->hi, b->hi)));
}

/* Round bodies with fewer triangles: never more than asked for, but not needlessly few; the box
 * stays within the cell that the count allows (a surface A in n/2 cells of edge c has c² ≈ 2A/n,
 * and not more than thrice that edge); a closed body stays closed. */
static void
test_fewer_triangles (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (g_test_rand_int ());
  for (guint i = 0; i < test_scaled (8); i++)
    {
      g_autoptr (TrnMesh) blob = test_blob (rand, 100, 10);
      guint32 most = (guint32)g_rand_int_range (rand, 300, 8000);
      g_autoptr (RenderMesh) mesh = render_mesh_build (blob, most);
      g_assert_cmpuint (mesh->n_triangles, <=, most);
      g_assert_cmpuint (mesh->n_triangles, >, most / 4);
      g_assert_true (mesh->closed);
      double area = 0;
      for (guint32 t = 0; t < blob->n_triangles; t++)
        {
          TrnVec3 p[3];
          trn_mesh_corners (blob, t, p);
          area += trn_vec3_length (
                      trn_vec3_cross (trn_vec3_sub (p[1], p[0]), trn_vec3_sub (p[2], p[0])))
                  / 2;
        }
      g_assert_cmpfloat (box_off (&mesh->box, &blob->box), <, 3 * sqrt (2 * area / most));
    }
  g_autoptr (TrnMesh) box = unit_box ();
  g_autoptr (RenderMesh) whole = render_mesh_build (box, 12);
  assert_box (whole);
}

/* A box seen from before one face has no outline beyond its edges; a drum seen level shows its two
 * sides, seen from above none. */
static void
test_outline (void)
{
  g_autoptr (TrnMesh) drum = test_drum (48, 2, 0, 5);
  g_autoptr (RenderMesh) mesh = render_mesh_build (drum, 0);
  GArray *segments = g_array_new (FALSE, FALSE, sizeof (float));
  const float level[3] = { 100, 3, 0 }, above[3] = { 0, 0, 1 }, along[3] = { 1, 0.01f, 0 };
  render_outline_append (mesh, level, FALSE, segments);
  g_assert_cmpuint (segments->len, ==, 2 * 6);
  g_array_set_size (segments, 0);
  render_outline_append (mesh, along, TRUE, segments);
  g_assert_cmpuint (segments->len, ==, 2 * 6);
  g_array_set_size (segments, 0);
  render_outline_append (mesh, above, TRUE, segments);
  g_assert_cmpuint (segments->len, ==, 0);
  g_array_unref (segments);
}

/* A plane across a drum of radius 2 cuts its 96 side triangles: a ring whose length is the
 * perimeter of the polygon of 48 sides. */
static void
test_cut (void)
{
  g_autoptr (TrnMesh) drum = test_drum (48, 2, 0, 5);
  g_autoptr (RenderMesh) mesh = render_mesh_build (drum, 0);
  GArray *segments = g_array_new (FALSE, FALSE, sizeof (float));
  const float normal[3] = { 0, 0, 1 };
  render_cut_append (mesh, normal, 0.3f, segments);
  g_assert_cmpuint (segments->len, ==, 96 * 6);
  double length = 0;
  for (guint i = 0; i < 96; i++)
    {
      const float *p = &g_array_index (segments, float, 6 * i);
      g_assert_cmpfloat (fabsf (p[2] - 0.3f), <, 1e-6f);
      length += hypotf (p[3] - p[0], p[4] - p[1]);
    }
  g_assert_cmpfloat (fabs (length - 48 * 2 * 2 * sin (G_PI / 48)), <, 1e-4);
  g_array_unref (segments);
}

/* 200,000 triangles: measured and said, since the desk waits for it. */
static void
test_time (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (1);
  g_autoptr (TrnMesh) blob = test_blob (rand, 317, 10);
  gint64 start = g_get_monotonic_time ();
  g_autoptr (RenderMesh) mesh = render_mesh_build (blob, 0);
  g_test_message ("%u triangles made ready in %.3f s", blob->n_triangles,
                  (double)(g_get_monotonic_time () - start) / 1e6);
  g_assert_cmpuint (mesh->n_triangles, ==, blob->n_triangles);
  start = g_get_monotonic_time ();
  g_autoptr (RenderMesh) fewer = render_mesh_build (blob, 50000);
  g_test_message ("reduced to %u in %.3f s", fewer->n_triangles,
                  (double)(g_get_monotonic_time () - start) / 1e6);
  g_assert_cmpuint (fewer->n_triangles, <=, 50000);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/display-mesh/box", test_box_mesh);
  g_test_add_func ("/display-mesh/drum", test_drum_mesh);
  g_test_add_func ("/display-mesh/sheet", test_sheet);
  g_test_add_func ("/display-mesh/needle", test_needle);
  g_test_add_func ("/display-mesh/nothing", test_nothing);
  g_test_add_func ("/display-mesh/line-of-triangles", test_line_of_triangles);
  g_test_add_func ("/display-mesh/fewer-triangles", test_fewer_triangles);
  g_test_add_func ("/display-mesh/outline", test_outline);
  g_test_add_func ("/display-mesh/cut", test_cut);
  g_test_add_func ("/display-mesh/time", test_time);
  return g_test_run ();
}
