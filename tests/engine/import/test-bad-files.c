/* Bad files: each gets one clear error, and none takes the program down. */
#include "bad-files.h"
#include "fixture.h"

#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static void
test_table (Fixture *fixture, gconstpointer data)
{
  for (guint i = 0; i < n_bad_files; i++)
    {
      const BadFile *bad = &bad_files[i];
      g_test_message ("%s", bad->name);
      fixture_write (fixture, bad->name, bad->text, -1);
      TrnMesh *mesh = fixture_import (fixture, bad->name, TRN_LENGTH_M, TRN_UP_Z);
      fixture_assert_error (fixture, mesh, bad->code);
    }
}

/* What is no file, or cannot be opened. */
static void
test_no_file (Fixture *fixture, gconstpointer data)
{
  g_autofree char *folder = fixture_path (fixture, "folder.obj");
  g_autofree char *pipe = fixture_path (fixture, "pipe.obj");
  g_autofree char *loop = fixture_path (fixture, "loop.obj");
  g_autofree char *secret = fixture_path (fixture, "secret.obj");
  fixture_assert_error (fixture, fixture_import (fixture, "none.obj", TRN_LENGTH_M, TRN_UP_Z),
                        "import/cannot-open");
  g_assert_cmpint (g_mkdir (folder, 0700), ==, 0);
  fixture_assert_error (fixture, fixture_import (fixture, "folder.obj", TRN_LENGTH_M, TRN_UP_Z),
                        "import/no-file");
  g_assert_cmpint (mkfifo (pipe, 0600), ==, 0);
  fixture_assert_error (fixture, fixture_import (fixture, "pipe.obj", TRN_LENGTH_M, TRN_UP_Z),
                        "import/no-file");
  g_assert_cmpint (symlink ("loop.obj", loop), ==, 0);
  fixture_assert_error (fixture, fixture_import (fixture, "loop.obj", TRN_LENGTH_M, TRN_UP_Z),
                        "import/cannot-open");
  fixture_write (fixture, "secret.obj", "v 0 0 0\nv 1 0 0\nv 1 1 0\n", -1);
  g_assert_cmpint (chmod (secret, 0), ==, 0);
  TrnMesh *mesh = fixture_import (fixture, "secret.obj", TRN_LENGTH_M, TRN_UP_Z);
  /* Root may read everything; then it is only a file without faces. */
  fixture_assert_error (fixture, mesh,
                        geteuid () == 0 ? "import/points-only" : "import/cannot-open");
}

/* Where neither the file nor the plan says unit and axis, both are asked for at once. */
static void
test_undeclared (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GByteArray) stl = fixture_stl_box (trn_vec3_make (1, 1, 1));
  fixture_write (fixture, "box.stl", stl->data, stl->len);
  fixture_assert_error (fixture,
                        fixture_import (fixture, "box.stl", TRN_LENGTH_UNDECLARED, TRN_UP_Z),
                        "import/unit-missing");
  fixture_assert_error (fixture,
                        fixture_import (fixture, "box.stl", TRN_LENGTH_M, TRN_UP_UNDECLARED),
                        "import/up-missing");
  g_assert_null (fixture_import (fixture, "box.stl", TRN_LENGTH_UNDECLARED, TRN_UP_UNDECLARED));
  g_assert_cmpuint (trn_diags_count (fixture->diags, TRN_SEVERITY_ERROR), ==, 2);
}

/* Precision counts in metres, after the unit: 1.9 km of half a millimetre is refused as metres and
 * taken as millimetres. In binary a number is rounded once: 2^-24 of its size and one per cent. */
static void
test_precision (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GByteArray) stl = fixture_stl_box (trn_vec3_make (1900, 1, 1));
  fixture_write (fixture, "long.stl", stl->data, stl->len);
  fixture_assert_error (fixture, fixture_import (fixture, "long.stl", TRN_LENGTH_M, TRN_UP_Z),
                        "import/precision");
  const TrnDiag *diag = fixture_find (fixture, "import/precision");
  g_assert_cmpfloat_with_epsilon (trn_diag_get (diag, "loss")->number, 1.01 * 1900 * 0x1p-24,
                                  1e-12);
  g_assert_cmpfloat (trn_diag_get (diag, "largest")->number, ==, 1900);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "long.stl", TRN_LENGTH_MM, TRN_UP_Z);
  g_assert_nonnull (mesh);
}

/* A small box that a node puts 5 km away: the node's own number is in single precision. At 500 m
 * it is taken, and exactly where it belongs. */
static void
test_far_node (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GByteArray) bin = fixture_gltf_box (trn_vec3_make (1, 1, 1));
  fixture_write (fixture, "box.bin", bin->data, bin->len);
  g_autofree char *far
      = fixture_gltf_text ("box.bin", "{\"mesh\":0,\"translation\":[5000.3,0,0]}", "0", "");
  g_autofree char *near
      = fixture_gltf_text ("box.bin", "{\"mesh\":0,\"translation\":[500.5,0,0]}", "0", "");
  fixture_write (fixture, "far.gltf", far, -1);
  fixture_write (fixture, "near.gltf", near, -1);
  fixture_assert_error (fixture, fixture_import (fixture, "far.gltf", TRN_LENGTH_M, TRN_UP_Y),
                        "import/precision");
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "near.gltf", TRN_LENGTH_M, TRN_UP_Y);
  g_assert_nonnull (mesh);
  fixture_assert_box (mesh, trn_vec3_make (500.5, -1, 0), trn_vec3_make (501.5, 0, 1), 0);
}

/* glTF features that would move or lose geometry without a word. */
static void
test_gltf_features (Fixture *fixture, gconstpointer data)
{
  static const struct
  {
    const char *nodes, *extra, *code;
  } cases[] = {
    { "{\"mesh\":0}", "\"extensionsRequired\":[\"KHR_mesh_quantization\"],", "import/unsupported" },
    { "{\"mesh\":0}", "\"extensionsUsed\":[\"EXT_mesh_gpu_instancing\"],", "import/unsupported" },
    { "{\"mesh\":0,\"weights\":[0.5]}", "", "import/unsupported" },
    { "{\"mesh\":0,\"children\":[0]}", "", "import/damaged" },
    { "{\"mesh\":0,\"matrix\":[1,0,0,0.5, 0,1,0,0, 0,0,1,0, 0,0,0,1]}", "", "import/transform" },
    { "{\"name\":\"bare\"}", "", "import/none-placed" },
  };
  g_autoptr (GByteArray) bin = fixture_gltf_box (trn_vec3_make (1, 1, 1));
  fixture_write (fixture, "box.bin", bin->data, bin->len);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = fixture_gltf_text ("box.bin", cases[i].nodes, "0", cases[i].extra);
      g_test_message ("%s %s", cases[i].nodes, cases[i].extra);
      fixture_write (fixture, "feature.gltf", text, -1);
      fixture_assert_error (
          fixture, fixture_import (fixture, "feature.gltf", TRN_LENGTH_M, TRN_UP_Y), cases[i].code);
    }
  /* How a surface looks is no reason. */
  g_autofree char *plain = fixture_gltf_text ("box.bin", "{\"mesh\":0}", "0",
                                              "\"extensionsRequired\":[\"KHR_materials_unlit\"],");
  fixture_write (fixture, "plain.gltf", plain, -1);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "plain.gltf", TRN_LENGTH_M, TRN_UP_Y);
  g_assert_nonnull (mesh);
}

/* NaN in binary, and indices beyond the vertices. The import library may abort on the latter:
 * an error all the same. */
static void
test_gltf_values (Fixture *fixture, gconstpointer data)
{
  g_autofree char *text = fixture_gltf_text ("box.bin", "{\"mesh\":0}", "0", "");
  g_autoptr (GByteArray) bin = fixture_gltf_box (trn_vec3_make (1, 1, 1));
  fixture_write (fixture, "model.gltf", text, -1);
  float nan = NAN;
  memcpy (bin->data + 12, &nan, sizeof nan);
  fixture_write (fixture, "box.bin", bin->data, bin->len);
  fixture_assert_error (fixture, fixture_import (fixture, "model.gltf", TRN_LENGTH_M, TRN_UP_Y),
                        "import/not-finite");

  float zero = 0;
  memcpy (bin->data + 12, &zero, sizeof zero);
  bin->data[97] = 0x7f;
  fixture_write (fixture, "box.bin", bin->data, bin->len);
  g_assert_null (fixture_import (fixture, "model.gltf", TRN_LENGTH_M, TRN_UP_Y));
  g_assert_cmpuint (trn_diags_count (fixture->diags, TRN_SEVERITY_ERROR), ==, 1);
}

/* The limit on triangles holds before and after the library has read the file. */
static void
test_triangle_limit (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GByteArray) stl = fixture_stl_box (trn_vec3_make (1, 1, 1));
  fixture_write (fixture, "box.stl", stl->data, stl->len);
  fixture_write (fixture, "quads.obj", "v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\nf 1 2 3 4\n", -1);
  const char *names[] = { "box.stl", "quads.obj" };
  const guint32 triangles[] = { 12, 2 };
  for (guint i = 0; i < 2; i++)
    {
      g_autofree char *path = fixture_path (fixture, names[i]);
      TrnImportRequest request = { .path = path, .unit = TRN_LENGTH_M, .up = TRN_UP_Z };
      TrnImportLimits limits = trn_import_limits_default ();
      limits.max_triangles = triangles[i];
      g_autoptr (TrnDiags) fine = trn_diags_new ();
      g_autoptr (TrnMesh) mesh = trn_import_mesh (&request, &limits, NULL, NULL, NULL, fine);
      g_assert_nonnull (mesh);
      limits.max_triangles--;
      g_assert_null (trn_import_mesh (&request, &limits, NULL, NULL, NULL, fixture->diags));
      const TrnDiag *diag = fixture_find (fixture, "import/too-many-triangles");
      g_assert_nonnull (diag);
      g_assert_cmpfloat (trn_diag_get (diag, "limit")->number, ==, limits.max_triangles);
      g_ptr_array_set_size (fixture->diags->items, 0);
    }
}

/* Good files cut short and with bytes changed, seeded: an error or a mesh, never more. */
static void
test_damage (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GByteArray) stl = fixture_stl_box (trn_vec3_make (1, 2, 3));
  g_autoptr (GByteArray) bin = fixture_gltf_box (trn_vec3_make (1, 2, 3));
  g_autofree char *text = fixture_gltf_text (NULL, "{\"mesh\":0}", "0", "");
  g_autoptr (GByteArray) glb = fixture_glb (text, bin);
  static const char ply[] = PLY_HEAD "element vertex 3\n" PLY_XYZ "element face 1\n" PLY_LIST
                                     "0 0 0\n1 0 0\n1 1 0\n3 0 1 2\n";
  g_autoptr (GByteArray) plain = g_byte_array_new ();
  g_byte_array_append (plain, (const guint8 *)ply, sizeof ply - 1);
  const char *names[] = { "d.stl", "d.glb", "d.ply" };
  const GByteArray *sources[] = { stl, glb, plain };
  const char *scale = g_getenv ("TRUNNION_TEST_SCALE");
  int rounds = (int)(15 * (scale != NULL ? g_ascii_strtod (scale, NULL) : 1));
  TrnImportLimits limits = trn_import_limits_default ();
  limits.cpu_s = 2;
  for (int r = 0; r < rounds; r++)
    for (guint s = 0; s < G_N_ELEMENTS (names); s++)
      {
        g_autoptr (GByteArray) bad = g_byte_array_new ();
        g_byte_array_append (bad, sources[s]->data, sources[s]->len);
        if (r % 2 == 0)
          g_byte_array_set_size (bad, (guint)g_test_rand_int_range (1, (int)bad->len));
        for (int k = 0; k < 1 + r / 3; k++)
          bad->data[g_test_rand_int_range (0, (int)bad->len)] ^= 1 << g_test_rand_int_range (0, 8);
        fixture_write (fixture, names[s], bad->data, bad->len);
        g_autofree char *path = fixture_path (fixture, names[s]);
        TrnImportRequest request = { .path = path, .unit = TRN_LENGTH_M, .up = TRN_UP_Z };
        g_autoptr (TrnDiags) diags = trn_diags_new ();
        g_autoptr (TrnMesh) mesh = trn_import_mesh (&request, &limits, NULL, NULL, NULL, diags);
        g_assert_true ((mesh == NULL) == trn_diags_have_errors (diags));
      }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(path, func) g_test_add (path, Fixture, NULL, fixture_set_up, func, fixture_tear_down)
  ADD ("/import/bad-files/table", test_table);
  ADD ("/import/bad-files/no-file", test_no_file);
  ADD ("/import/bad-files/undeclared", test_undeclared);
  ADD ("/import/bad-files/precision", test_precision);
  ADD ("/import/bad-files/far-node", test_far_node);
  ADD ("/import/bad-files/gltf-features", test_gltf_features);
  ADD ("/import/bad-files/gltf-values", test_gltf_values);
  ADD ("/import/bad-files/triangle-limit", test_triangle_limit);
  ADD ("/import/bad-files/damage", test_damage);
  return g_test_run ();
}
