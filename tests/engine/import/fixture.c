#include "fixture.h"

#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

void
fixture_set_up (Fixture *fixture, gconstpointer data)
{
  fixture->folder = g_dir_make_tmp ("trunnion-import-XXXXXX", NULL);
  g_assert_nonnull (fixture->folder);
  fixture->diags = trn_diags_new ();
  fixture->referred = trn_import_referred_new ();
}

static void
remove_tree (const char *path)
{
  GDir *dir = g_file_test (path, G_FILE_TEST_IS_SYMLINK) ? NULL : g_dir_open (path, 0, NULL);
  if (dir != NULL)
    {
      const char *name;
      while ((name = g_dir_read_name (dir)) != NULL)
        {
          g_autofree char *below = g_build_filename (path, name, NULL);
          remove_tree (below);
        }
      g_dir_close (dir);
    }
  g_assert_cmpint (g_remove (path), ==, 0);
}

void
fixture_tear_down (Fixture *fixture, gconstpointer data)
{
  remove_tree (fixture->folder);
  g_free (fixture->folder);
  trn_diags_free (fixture->diags);
  g_array_unref (fixture->referred);
}

char *
fixture_path (const Fixture *fixture, const char *name)
{
  return g_build_filename (fixture->folder, name, NULL);
}

void
fixture_write (const Fixture *fixture, const char *name, const void *bytes, gssize length)
{
  g_autofree char *path = fixture_path (fixture, name);
  g_autoptr (GError) error = NULL;
  g_file_set_contents (path, bytes, length, &error);
  g_assert_no_error (error);
}

TrnMesh *
fixture_import (Fixture *fixture, const char *name, TrnLengthUnit unit, TrnUpAxis up)
{
  g_autofree char *path = fixture_path (fixture, name);
  g_array_set_size (fixture->referred, 0);
  TrnImportRequest request
      = { .path = path, .unit = unit, .up = up, .referred = fixture->referred };
  trn_diags_free (fixture->diags);
  fixture->diags = trn_diags_new ();
  TrnMesh *mesh
      = trn_import_mesh (&request, NULL, NULL, fixture->sha256, &fixture->report, fixture->diags);
  for (guint i = 0; i < fixture->diags->items->len; i++)
    {
      const TrnDiag *diag = g_ptr_array_index (fixture->diags->items, i);
      const TrnDiagValue *reason = trn_diag_get (diag, "reason");
      g_test_message ("%s: %s %s", name, diag->code, reason != NULL ? reason->text : "");
    }
  return mesh;
}

const TrnDiag *
fixture_find (const Fixture *fixture, const char *code)
{
  for (guint i = 0; i < fixture->diags->items->len; i++)
    {
      const TrnDiag *diag = g_ptr_array_index (fixture->diags->items, i);
      if (g_str_equal (diag->code, code))
        return diag;
    }
  return NULL;
}

void
fixture_assert_error (const Fixture *fixture, const TrnMesh *mesh, const char *code)
{
  g_assert_null (mesh);
  for (guint i = 0; i < fixture->diags->items->len; i++)
    {
      const TrnDiag *diag = g_ptr_array_index (fixture->diags->items, i);
      if (diag->severity == TRN_SEVERITY_ERROR)
        g_assert_cmpstr (diag->code, ==, code);
      g_assert_nonnull (diag->file);
    }
  g_assert_cmpuint (trn_diags_count (fixture->diags, TRN_SEVERITY_ERROR), ==, 1);
}

double
fixture_volume (const TrnMesh *mesh)
{
  double volume = 0;
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    {
      TrnVec3 c[3];
      trn_mesh_corners (mesh, i, c);
      volume += trn_vec3_dot (c[0], trn_vec3_cross (c[1], c[2])) / 6;
    }
  return volume;
}

void
fixture_assert_box (const TrnMesh *mesh, TrnVec3 lo, TrnVec3 hi, double within)
{
  g_assert_cmpfloat (trn_vec3_max_abs (trn_vec3_sub (mesh->box.lo, lo)), <=, within);
  g_assert_cmpfloat (trn_vec3_max_abs (trn_vec3_sub (mesh->box.hi, hi)), <=, within);
}

/* Corner i of the box: bit 0 is x, bit 1 y, bit 2 z. */
static const guint16 box_triangles[12][3]
    = { { 0, 2, 1 }, { 1, 2, 3 }, { 4, 5, 6 }, { 5, 7, 6 }, { 0, 1, 4 }, { 1, 5, 4 },
        { 2, 6, 3 }, { 3, 6, 7 }, { 0, 4, 2 }, { 2, 4, 6 }, { 1, 3, 5 }, { 3, 7, 5 } };

static void
box_corner (TrnVec3 size, guint i, float corner[3])
{
  corner[0] = i & 1 ? (float)size.x : 0;
  corner[1] = i & 2 ? (float)size.y : 0;
  corner[2] = i & 4 ? (float)size.z : 0;
}

GByteArray *
fixture_stl_box (TrnVec3 size)
{
  GByteArray *bytes = g_byte_array_new ();
  guint8 header[80] = "made for a test";
  guint32 count = GUINT32_TO_LE (12);
  g_byte_array_append (bytes, header, sizeof header);
  g_byte_array_append (bytes, (guint8 *)&count, 4);
  for (guint t = 0; t < 12; t++)
    {
      float facet[4][3] = { { 0, 0, 0 } };
      guint16 attribute = 0;
      for (guint i = 0; i < 3; i++)
        box_corner (size, box_triangles[t][i], facet[i + 1]);
      g_byte_array_append (bytes, (guint8 *)facet, sizeof facet);
      g_byte_array_append (bytes, (guint8 *)&attribute, 2);
    }
  return bytes;
}

GByteArray *
fixture_gltf_box (TrnVec3 size)
{
  GByteArray *bytes = g_byte_array_new ();
  for (guint i = 0; i < 8; i++)
    {
      float corner[3];
      box_corner (size, i, corner);
      g_byte_array_append (bytes, (guint8 *)corner, sizeof corner);
    }
  g_byte_array_append (bytes, (const guint8 *)box_triangles, sizeof box_triangles);
  return bytes;
}

char *
fixture_gltf_text (const char *uri, const char *nodes, const char *roots, const char *extra)
{
  g_autofree char *link = uri != NULL ? g_strdup_printf ("\"uri\":\"%s\",", uri) : g_strdup ("");
  return g_strdup_printf (
      "{\"asset\":{\"version\":\"2.0\"},%s\"scene\":0,\"scenes\":[{\"nodes\":[%s]}],"
      "\"nodes\":[%s],\"buffers\":[{%s\"byteLength\":168}],"
      "\"bufferViews\":[{\"buffer\":0,\"byteOffset\":0,\"byteLength\":96},"
      "{\"buffer\":0,\"byteOffset\":96,\"byteLength\":72}],"
      "\"accessors\":[{\"bufferView\":0,\"componentType\":5126,\"count\":8,\"type\":\"VEC3\"},"
      "{\"bufferView\":1,\"componentType\":5123,\"count\":36,\"type\":\"SCALAR\"}],"
      "\"meshes\":[{\"name\":\"block\",\"primitives\":[{\"attributes\":{\"POSITION\":0},"
      "\"indices\":1}]}]}",
      extra, roots, nodes, link);
}

GByteArray *
fixture_glb (const char *json, const GByteArray *bin)
{
  g_autofree char *padded = g_strconcat (json, "   ", NULL);
  guint32 json_length = (guint32)strlen (json) + 3u;
  json_length -= json_length % 4;
  guint32 head[5] = { 0x46546c67, 2, 28 + json_length + bin->len, json_length, 0x4e4f534a };
  guint32 bin_head[2] = { bin->len, 0x004e4942 };
  for (guint i = 0; i < 5; i++)
    head[i] = GUINT32_TO_LE (head[i]);
  for (guint i = 0; i < 2; i++)
    bin_head[i] = GUINT32_TO_LE (bin_head[i]);
  GByteArray *bytes = g_byte_array_new ();
  g_byte_array_append (bytes, (guint8 *)head, sizeof head);
  g_byte_array_append (bytes, (guint8 *)padded, json_length);
  g_byte_array_append (bytes, (guint8 *)bin_head, sizeof bin_head);
  g_byte_array_append (bytes, bin->data, bin->len);
  return bytes;
}
