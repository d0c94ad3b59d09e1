/* Area, volume and centroid against closed forms, at the origin, 5 km away and at the scale of a
 * millimetre. */
#include "mass.h"
#include "solid.h"

static TrnMesh *
solid_mesh (TrnSolid *solid, double deviation_m)
{
  g_autoptr (GPtrArray) parts = trn_solid_build (solid, deviation_m);
  const TrnSolidPart *part = g_ptr_array_index (parts, 0);
  trn_solid_free (solid);
  return trn_mesh_ref (part->mesh);
}

/* A copy with every vertex scaled and moved, and turned inside out if asked. */
static TrnMesh *
moved (const TrnMesh *mesh, double scale, TrnVec3 by, gboolean inside_out)
{
  TrnVec3 *vertices = g_new (TrnVec3, mesh->n_vertices);
  TrnTriangle *triangles = g_new (TrnTriangle, mesh->n_triangles);
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    vertices[i] = trn_vec3_add (by, trn_vec3_scale (mesh->vertices[i], scale));
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    {
      const guint32 *v = mesh->triangles[i].v;
      triangles[i] = (TrnTriangle){ { v[0], v[inside_out ? 2 : 1], v[inside_out ? 1 : 2] } };
    }
  return trn_mesh_new_take (vertices, mesh->n_vertices, triangles, mesh->n_triangles, NULL, 0);
}

static void
assert_near (double value, double expected, double within)
{
  g_assert_cmpfloat (fabs (value - expected), <=, within);
}

/* Checks a mesh of known properties as it is and where rounding hurts: 5 km away doubles are 1e-12
 * m apart, which a body of about a metre feels as 1e-12 of its size. */
static void
check_everywhere (const TrnMesh *mesh, double area, double volume, TrnVec3 centroid,
                  double relative)
{
  const TrnVec3 at[3] = { { 0, 0, 0 }, { 5000, -5000, 5000 }, { 0, 0, 0 } };
  const double scales[3] = { 1, 1, 1e-3 };
  for (int i = 0; i < 3; i++)
    for (int turned = 0; turned < 2; turned++)
      {
        double k = scales[i], slack = relative + (i == 1 ? 1e-11 : 1e-13);
        g_autoptr (TrnMesh) copy = moved (mesh, k, at[i], turned);
        TrnMassProperties mass = trn_mesh_mass_properties (copy);
        assert_near (mass.area_m2, area * k * k, slack * area * k * k);
        assert_near (mass.volume_m3, (turned ? -volume : volume) * k * k * k,
                     slack * (volume > 0 ? volume : 1) * k * k * k);
        TrnVec3 expected = trn_vec3_add (at[i], trn_vec3_scale (centroid, k));
        g_assert_cmpfloat (trn_vec3_distance (mass.centroid, expected), <=, 10 * k * slack);
      }
}

/* 2 × 3 × 0.5 m, base centre at the origin. */
static void
test_box (void)
{
  TrnSolid *solid = trn_solid_new (TRN_SOLID_BOX);
  solid->size = trn_vec3_make (2, 3, 0.5);
  g_autoptr (TrnMesh) mesh = solid_mesh (solid, 1e-3);
  check_everywhere (mesh, 2 * (6 + 1 + 1.5), 3, trn_vec3_make (0, 0, 0.25), 0);
}

/* Corners at the origin and 1, 2, 3 m along the axes: volume 1·2·3/6, centroid the mean of the
 * corners, three right triangles and one with the area ½ √(2² + 3² + 6²) = 3.5. */
static void
test_tetrahedron (void)
{
  static const guint32 faces[4][3] = { { 0, 2, 1 }, { 0, 1, 3 }, { 0, 3, 2 }, { 1, 2, 3 } };
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  trn_mesh_builder_vertex (builder, trn_vec3_make (0, 0, 0));
  trn_mesh_builder_vertex (builder, trn_vec3_make (1, 0, 0));
  trn_mesh_builder_vertex (builder, trn_vec3_make (0, 2, 0));
  trn_mesh_builder_vertex (builder, trn_vec3_make (0, 0, 3));
  for (int i = 0; i < 4; i++)
    trn_mesh_builder_triangle (builder, faces[i][0], faces[i][1], faces[i][2]);
  g_autoptr (TrnMesh) mesh = trn_mesh_builder_finish (builder);
  check_everywhere (mesh, 1 + 1.5 + 3 + 3.5, 1, trn_vec3_make (0.25, 0.5, 0.75), 0);
}

/* 2 m across, 5 m high, within 10 µm: the limits π r² h and 2 π r (r + h), which the circumscribed
 * polygon exceeds by no more than its deviation on every face does: 2 · 10 µm / r. */
static void
test_cylinder (void)
{
  TrnSolid *solid = trn_solid_new (TRN_SOLID_CYLINDER);
  solid->diameter_m = 2;
  solid->height_m = 5;
  g_autoptr (TrnMesh) mesh = solid_mesh (solid, 10e-6);
  check_everywhere (mesh, 2 * G_PI * 6, 5 * G_PI, trn_vec3_make (0, 0, 2.5), 2e-5);
}

/* 2 m outside, 1.8 m inside, 5 m long: π (1 − 0.81) 5 and 2 π (1 + 0.9) 5 + 2 π (1 − 0.81). A wall
 * of 0.1 m that is 10 µm thicker on both sides has 2e-4 more. */
static void
test_tube (void)
{
  TrnSolid *solid = trn_solid_new (TRN_SOLID_TUBE);
  solid->outer_diameter_m = 2;
  solid->inner_diameter_m = 1.8;
  solid->height_m = 5;
  g_autoptr (TrnMesh) mesh = solid_mesh (solid, 10e-6);
  check_everywhere (mesh, 2 * G_PI * 1.9 * 5 + 2 * G_PI * 0.19, G_PI * 0.19 * 5,
                    trn_vec3_make (0, 0, 2.5), 2e-4);
}

/* A sloping sheet of two triangles with sides √2 m and 1 m has no volume: its centroid is that of
 * its surface. Nothing at all has neither. */
static void
test_sheet (void)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  trn_mesh_builder_vertex (builder, trn_vec3_make (7, 0, 0));
  trn_mesh_builder_vertex (builder, trn_vec3_make (8, 0, 1));
  trn_mesh_builder_vertex (builder, trn_vec3_make (8, 1, 1));
  trn_mesh_builder_vertex (builder, trn_vec3_make (7, 1, 0));
  trn_mesh_builder_triangle (builder, 0, 1, 2);
  trn_mesh_builder_triangle (builder, 0, 2, 3);
  g_autoptr (TrnMesh) mesh = trn_mesh_builder_finish (builder);
  check_everywhere (mesh, sqrt (2), 0, trn_vec3_make (7.5, 0.5, 0.5), 0);

  g_autoptr (TrnMesh) nothing = trn_mesh_builder_finish (trn_mesh_builder_new ());
  TrnMassProperties mass = trn_mesh_mass_properties (nothing);
  g_assert_cmpfloat (mass.area_m2 + mass.volume_m3 + trn_vec3_length (mass.centroid), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/shape/mass/box", test_box);
  g_test_add_func ("/shape/mass/tetrahedron", test_tetrahedron);
  g_test_add_func ("/shape/mass/cylinder", test_cylinder);
  g_test_add_func ("/shape/mass/tube", test_tube);
  g_test_add_func ("/shape/mass/sheet", test_sheet);
  return g_test_run ();
}
