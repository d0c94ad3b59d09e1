/* What is put right in a mesh, and what is left alone. Bodies are boxes of eight shared corners,
 * to which one fault after another is added. */
#include "mesh-repair.h"

static const guint32 box_faces[12][3]
    = { { 0, 2, 3 }, { 0, 3, 1 }, { 4, 5, 7 }, { 4, 7, 6 }, { 0, 1, 5 }, { 0, 5, 4 },
        { 2, 6, 7 }, { 2, 7, 3 }, { 0, 4, 6 }, { 0, 6, 2 }, { 1, 3, 7 }, { 1, 7, 5 } };

/* Begins a part @name that is a box about @x, of edge @edge_m. Returns its first vertex. */
static guint32
add_box (TrnMeshBuilder *builder, const char *name, double x, double edge_m, gboolean inside_out)
{
  guint32 first = 0;
  trn_mesh_builder_part (builder, name);
  const double h = edge_m / 2;
  const TrnBox box = { { x - h, -h, -h }, { x + h, h, h } };
  for (guint k = 0; k < 8; k++)
    {
      const guint32 vertex = trn_mesh_builder_vertex (builder, trn_box_corner (&box, k));
      first = k == 0 ? vertex : first;
    }
  for (guint i = 0; i < 12; i++)
    {
      const guint32 *v = box_faces[i];
      trn_mesh_builder_triangle (builder, first + v[0], first + v[inside_out ? 2 : 1],
                                 first + v[inside_out ? 1 : 2]);
    }
  return first;
}

/* Repairs the builder's mesh, and looks whether doing so again finds nothing more. */
static TrnMesh *
repair (TrnMeshBuilder *builder, TrnMeshRepair *what)
{
  g_autoptr (TrnMesh) mesh = trn_mesh_builder_finish (builder);
  g_autoptr (TrnMeshCheck) check = trn_mesh_check_new (mesh);
  TrnMesh *repaired = trn_mesh_repair (mesh, check, what);
  g_autoptr (TrnMeshCheck) again = trn_mesh_check_new (repaired);
  TrnMeshRepair nothing;
  g_autoptr (TrnMesh) same = trn_mesh_repair (repaired, again, &nothing);
  g_assert_true (same == repaired);
  g_assert_cmpuint (nothing.degenerate + nothing.duplicate + nothing.flipped_pieces, ==, 0);
  g_assert_cmpuint (mesh->n_triangles - what->degenerate - what->duplicate, ==,
                    repaired->n_triangles);
  return repaired;
}

/* Nothing is wrong: the very same mesh. */
static void
test_whole (void)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  TrnMeshRepair what;
  add_box (builder, "box", 0, 2, FALSE);
  g_autoptr (TrnMesh) mesh = trn_mesh_builder_finish (builder);
  g_autoptr (TrnMeshCheck) check = trn_mesh_check_new (mesh);
  g_autoptr (TrnMesh) repaired = trn_mesh_repair (mesh, check, &what);
  g_assert_true (repaired == mesh);
  g_assert_cmpuint (what.flipped_pieces, ==, 0);
}

/* A face that stands there three times stays once; one turned the other way, which makes a wall of
 * no thickness where two solids meet, stays as well. */
static void
test_duplicates (void)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  TrnMeshRepair what;
  const guint32 first = add_box (builder, "box", 0, 2, FALSE);
  trn_mesh_builder_triangle (builder, first + 2, first + 3, first);
  trn_mesh_builder_triangle (builder, first, first + 2, first + 3);
  trn_mesh_builder_triangle (builder, first, first + 3, first + 2);
  g_autoptr (TrnMesh) mesh = repair (builder, &what);
  g_assert_cmpuint (what.duplicate, ==, 2);
  g_assert_cmpuint (what.degenerate, ==, 0);
  g_assert_cmpuint (mesh->n_triangles, ==, 13);
}

/* A line along an edge and a point at a corner are covered by the faces there and go. A line across
 * a face, one that sticks out, and a point beside are obstacles that nothing else covers: they
 * stay. So does a needle of three corners, even along an edge. */
static void
test_lines (void)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  TrnMeshRepair what;
  const guint32 first = add_box (builder, "box", 0, 2, FALSE);
  const guint32 out = trn_mesh_builder_vertex (builder, trn_vec3_make (9, 0, 0));
  const guint32 middle = trn_mesh_builder_vertex (builder, trn_vec3_make (0, -1, -1));
  trn_mesh_builder_triangle (builder, first, first, first + 1);
  trn_mesh_builder_triangle (builder, first, first + 1, first + 1);
  trn_mesh_builder_triangle (builder, first + 4, first + 4, first + 4);
  trn_mesh_builder_triangle (builder, first + 1, first + 1, first + 2);
  trn_mesh_builder_triangle (builder, first, out, first);
  trn_mesh_builder_triangle (builder, out, out, out);
  trn_mesh_builder_triangle (builder, first, middle, first + 1);
  g_autoptr (TrnMesh) mesh = repair (builder, &what);
  g_assert_cmpuint (what.degenerate, ==, 3);
  g_assert_cmpuint (mesh->n_triangles, ==, 16);
  g_assert_cmpfloat (mesh->box.hi.x, ==, 9);
}

/* Of three boxes the one that is inside out is turned; the cavity within the first stays turned
 * inwards. A part that was nothing but a duplicate goes, the others keep their names. */
static void
test_flipped (void)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  TrnMeshRepair what;
  const guint32 first = add_box (builder, "vessel", 0, 4, FALSE);
  add_box (builder, "cavity", 0, 2, TRUE);
  trn_mesh_builder_part (builder, "again");
  trn_mesh_builder_triangle (builder, first, first + 2, first + 3);
  add_box (builder, "turned", 9, 2, TRUE);
  g_autoptr (TrnMesh) mesh = repair (builder, &what);
  g_assert_cmpuint (what.flipped_pieces, ==, 1);
  g_assert_cmpuint (what.flipped_triangles, ==, 12);
  g_assert_cmpuint (what.duplicate, ==, 1);
  g_assert_cmpuint (mesh->n_parts, ==, 3);
  g_assert_cmpstr (mesh->parts[2].name, ==, "turned");
  g_autoptr (TrnMeshCheck) check = trn_mesh_check_new (mesh);
  g_assert_true (check->closed);
  g_assert_cmpuint (check->n_inside_out, ==, 0);
  /* 4³ m³ of the vessel, less 2³ of its cavity, and 2³ of the box that was turned. */
  double volume_m3 = 0;
  for (guint32 p = 0; p < check->n_pieces; p++)
    volume_m3 += check->pieces[p].volume_m3;
  g_assert_cmpfloat_with_epsilon (volume_m3, 64 - 8 + 8, 1e-12);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/shape/mesh-repair/whole", test_whole);
  g_test_add_func ("/shape/mesh-repair/duplicates", test_duplicates);
  g_test_add_func ("/shape/mesh-repair/lines", test_lines);
  g_test_add_func ("/shape/mesh-repair/flipped", test_flipped);
  return g_test_run ();
}
