/* Meshes: content, box, hash, parts. */
#include "mesh.h"

#include <string.h>

/* A tetrahedron with corners at the origin and 1 m along each axis, as one part without a name. */
static TrnMesh *
tetrahedron_new (double size, const char *part)
{
  static const guint32 faces[4][3] = { { 0, 2, 1 }, { 0, 1, 3 }, { 0, 3, 2 }, { 1, 2, 3 } };
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  if (part != NULL)
    trn_mesh_builder_part (builder, part);
  trn_mesh_builder_vertex (builder, trn_vec3_make (0, 0, 0));
  trn_mesh_builder_vertex (builder, trn_vec3_make (size, 0, 0));
  trn_mesh_builder_vertex (builder, trn_vec3_make (0, size, 0));
  trn_mesh_builder_vertex (builder, trn_vec3_make (0, 0, size));
  for (int i = 0; i < 4; i++)
    trn_mesh_builder_triangle (builder, faces[i][0], faces[i][1], faces[i][2]);
  return trn_mesh_builder_finish (builder);
}

static void
test_content (void)
{
  g_autoptr (TrnMesh) mesh = tetrahedron_new (2, NULL);
  g_assert_cmpuint (mesh->n_vertices, ==, 4);
  g_assert_cmpuint (mesh->n_triangles, ==, 4);
  g_assert_cmpuint (mesh->n_parts, ==, 1);
  g_assert_cmpstr (mesh->parts[0].name, ==, "");
  g_assert_cmpuint (mesh->parts[0].count, ==, 4);
  TrnVec3 corners[3];
  trn_mesh_corners (mesh, 3, corners);
  g_assert_cmpfloat (corners[0].x, ==, 2);
  g_assert_cmpfloat (corners[2].z, ==, 2);

  TrnMesh *again = trn_mesh_ref (mesh);
  g_assert_true (again == mesh);
  trn_mesh_unref (again);
  g_assert_cmpfloat (mesh->vertices[1].x, ==, 2);
}

/* A vertex that no triangle uses does not widen the box; a mesh without triangles has an empty one
 * and still one part. */
static void
test_box (void)
{
  TrnVec3 *vertices = g_new0 (TrnVec3, 4);
  vertices[1].x = vertices[2].y = 1;
  vertices[3] = trn_vec3_make (50, 50, 50);
  TrnTriangle *triangles = g_new0 (TrnTriangle, 1);
  triangles[0] = (TrnTriangle){ { 0, 1, 2 } };
  g_autoptr (TrnMesh) mesh = trn_mesh_new_take (vertices, 4, triangles, 1, NULL, 0);
  g_assert_cmpfloat (mesh->box.hi.x, ==, 1);
  g_assert_cmpfloat (mesh->box.hi.z, ==, 0);

  g_autoptr (TrnMesh) empty = trn_mesh_new_take (NULL, 0, NULL, 0, NULL, 0);
  g_assert_true (trn_box_is_empty (&empty->box));
  g_assert_cmpuint (empty->n_parts, ==, 1);
}

/* The hash is that of the bytes written out here by hand, and differs for any change but a name. */
static void
test_hash (void)
{
  g_autoptr (TrnMesh) mesh = tetrahedron_new (1, NULL), named = tetrahedron_new (1, "lug");
  g_autoptr (TrnMesh) other = tetrahedron_new (1 + 1e-15, NULL);
  g_assert_cmpstr (mesh->hash, ==, named->hash);
  g_assert_cmpstr (mesh->hash, !=, other->hash);

  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  const guint8 one[8] = { 0, 0, 0, 0, 0, 0, 0xf0, 0x3f }, zero[8] = { 0 };
  const guint8 numbers[] = { 4, 4 }, corners[] = { 0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3 };
  for (guint i = 0; i < 2; i++)
    {
      g_byte_array_append (bytes, &numbers[i], 1);
      g_byte_array_append (bytes, zero, 7);
    }
  for (int i = 0; i < 12; i++)
    g_byte_array_append (bytes, i == 3 || i == 7 || i == 11 ? one : zero, 8);
  for (guint i = 0; i < 12; i++)
    {
      g_byte_array_append (bytes, &corners[i], 1);
      g_byte_array_append (bytes, zero, 7);
    }
  g_autofree char *expected
      = g_compute_checksum_for_data (G_CHECKSUM_SHA256, bytes->data, bytes->len);
  g_assert_cmpstr (mesh->hash, ==, expected);
}

static void
test_parts (void)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (int i = 0; i < 3; i++)
    trn_mesh_builder_vertex (builder, trn_vec3_make (i, i * i, 0));
  trn_mesh_builder_triangle (builder, 0, 1, 2);
  trn_mesh_builder_part (builder, "flange");
  trn_mesh_builder_triangle (builder, 0, 2, 1);
  trn_mesh_builder_triangle (builder, 1, 2, 0);
  g_autoptr (TrnMesh) mesh = trn_mesh_builder_finish (builder);
  g_assert_cmpuint (mesh->n_parts, ==, 2);
  g_assert_cmpstr (mesh->parts[0].name, ==, "");
  g_assert_cmpuint (mesh->parts[0].count, ==, 1);
  g_assert_cmpstr (mesh->parts[1].name, ==, "flange");
  g_assert_cmpuint (mesh->parts[1].first, ==, 1);
  g_assert_cmpuint (mesh->parts[1].count, ==, 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/shape/mesh/content", test_content);
  g_test_add_func ("/shape/mesh/box", test_box);
  g_test_add_func ("/shape/mesh/hash", test_hash);
  g_test_add_func ("/shape/mesh/parts", test_parts);
  return g_test_run ();
}
