/* test-meshes.c: the mesh files of assets-demo are those that tools/demo-meshes writes, byte for
 * byte, and every one is a sound closed mesh. */
#include "import.h"
#include "mesh-check.h"

#include <gio/gio.h>
#include <glib/gstdio.h>

static const char *const folders[]
    = { "pump-column", "lock-gate", "column-tandem", "valve-assembly" };

static gboolean
is_mesh (const char *name)
{
  return g_str_has_suffix (name, ".glb") || g_str_has_suffix (name, ".obj")
         || g_str_has_suffix (name, ".stl") || g_str_has_suffix (name, ".ply");
}

static int
compare_names (gconstpointer a, gconstpointer b)
{
  return g_strcmp0 (*(const char *const *)a, *(const char *const *)b);
}

/* The mesh files of all demos below @root, relative to it, sorted. */
static GPtrArray *
mesh_files (const char *root)
{
  GPtrArray *files = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < G_N_ELEMENTS (folders); i++)
    {
      g_autofree char *folder = g_build_filename (root, folders[i], NULL);
      g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
      g_assert_nonnull (dir);
      for (const char *name = g_dir_read_name (dir); name; name = g_dir_read_name (dir))
        if (is_mesh (name))
          g_ptr_array_add (files, g_build_filename (folders[i], name, NULL));
    }
  g_ptr_array_sort (files, compare_names);
  return files;
}

static GBytes *
bytes_of (const char *root, const char *file)
{
  g_autofree char *path = g_build_filename (root, file, NULL);
  char *bytes = NULL;
  gsize length = 0;
  g_autoptr (GError) error = NULL;
  g_file_get_contents (path, &bytes, &length, &error);
  g_assert_no_error (error);
  return g_bytes_new_take (bytes, length);
}

static void
remove_written (const char *root, const GPtrArray *files)
{
  for (guint i = 0; i < files->len; i++)
    {
      g_autofree char *path = g_build_filename (root, files->pdata[i], NULL);
      g_assert_cmpint (g_remove (path), ==, 0);
    }
  for (guint i = 0; i < G_N_ELEMENTS (folders); i++)
    {
      g_autofree char *path = g_build_filename (root, folders[i], NULL);
      g_assert_cmpint (g_rmdir (path), ==, 0);
    }
  g_assert_cmpint (g_rmdir (root), ==, 0);
}

/* Written anew into an empty folder, the files are the same, none more and none fewer. */
static void
test_same_bytes (void)
{
  const char *kept = g_getenv ("TRUNNION_DEMOS"), *maker = g_getenv ("TRUNNION_DEMO_MESHES");
  g_autoptr (GError) error = NULL;
  g_autofree char *made = g_dir_make_tmp ("trunnion-demos-XXXXXX", &error);
  g_assert_no_error (error);
  g_autoptr (GSubprocess) process
      = g_subprocess_new (G_SUBPROCESS_FLAGS_STDOUT_SILENCE, &error, maker, made, NULL);
  g_assert_no_error (error);
  g_subprocess_wait_check (process, NULL, &error);
  g_assert_no_error (error);

  g_autoptr (GPtrArray) kept_files = mesh_files (kept);
  g_autoptr (GPtrArray) made_files = mesh_files (made);
  g_assert_cmpuint (kept_files->len, >, 0);
  g_assert_cmpuint (kept_files->len, ==, made_files->len);
  for (guint i = 0; i < kept_files->len; i++)
    {
      g_assert_cmpstr (kept_files->pdata[i], ==, made_files->pdata[i]);
      g_autoptr (GBytes) is = bytes_of (made, made_files->pdata[i]);
      g_autoptr (GBytes) was = bytes_of (kept, kept_files->pdata[i]);
      g_test_message ("%s", (const char *)kept_files->pdata[i]);
      g_assert_true (g_bytes_equal (is, was));
    }
  remove_written (made, made_files);
}

/* What the plans say of the unit and the up-axis of these files. */
static TrnMesh *
read_demo (const char *path)
{
  TrnImportRequest request = { .path = path };
  if (!g_str_has_suffix (path, ".glb"))
    {
      request.unit = g_str_has_suffix (path, ".stl") ? TRN_LENGTH_MM : TRN_LENGTH_M;
      request.up = TRN_UP_Z;
    }
  char sha256[65];
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnMesh *mesh = trn_import_mesh (&request, NULL, NULL, sha256, NULL, diags);
  g_test_message ("%s", path);
  g_assert_nonnull (mesh);
  return mesh;
}

/* Read as a plan reads them, every piece is closed and faces outwards, and no triangle is
 * degenerate or there twice. */
static void
test_closed (void)
{
  const char *kept = g_getenv ("TRUNNION_DEMOS");
  g_autoptr (GPtrArray) files = mesh_files (kept);
  for (guint i = 0; i < files->len; i++)
    {
      g_autofree char *path = g_build_filename (kept, files->pdata[i], NULL);
      g_autoptr (TrnMesh) mesh = read_demo (path);
      g_autoptr (TrnMeshCheck) check = trn_mesh_check_new (mesh);
      g_assert_true (check->closed);
      g_assert_cmpuint (check->n_degenerate, ==, 0);
      g_assert_cmpuint (check->n_duplicate, ==, 0);
      g_assert_cmpuint (check->n_open_edges, ==, 0);
      g_assert_cmpuint (check->n_crowded_edges, ==, 0);
      g_assert_cmpuint (check->n_misturned_edges, ==, 0);
      g_assert_cmpuint (check->n_inside_out, ==, 0);
    }
}

static void
assert_box (const char *file, TrnVec3 low, TrnVec3 high)
{
  g_autofree char *path = g_build_filename (g_getenv ("TRUNNION_DEMOS"), file, NULL);
  g_autoptr (TrnMesh) mesh = read_demo (path);
  const double is[6] = { mesh->box.lo.x, mesh->box.lo.y, mesh->box.lo.z,
                         mesh->box.hi.x, mesh->box.hi.y, mesh->box.hi.z };
  const double expected[6] = { low.x, low.y, low.z, high.x, high.y, high.z };
  for (int i = 0; i < 6; i++)
    g_assert_cmpfloat_with_epsilon (is[i], expected[i], 1e-5);
}

/* One file of each format comes in at its true size and the right way up: the column 20.4 m high
 * with its nozzle to −X (GLB), the leaf 9 × 1.6 m and 7.25 m high with its lugs (PLY), a stand
 * 2.16 m high (OBJ), the actuator 2.2 m high with its handwheel to +X (STL). */
static void
test_sizes (void)
{
  assert_box ("pump-column/column.glb", (TrnVec3){ -1.9, -1.78, 0 }, (TrnVec3){ 1.6, 1.78, 20.4 });
  assert_box ("lock-gate/leaf.ply", (TrnVec3){ -4.5, -0.8, 0 }, (TrnVec3){ 4.5, 0.8, 7.25 });
  assert_box ("pump-column/stand.obj", (TrnVec3){ -0.6, -0.25, 0 }, (TrnVec3){ 0.6, 0.25, 2.16 });
  assert_box ("valve-assembly/actuator.stl", (TrnVec3){ -0.95, -0.95, 0 },
              (TrnVec3){ 1.53, 0.95, 2.2 });
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/demos/meshes/same-bytes", test_same_bytes);
  g_test_add_func ("/demos/meshes/closed", test_closed);
  g_test_add_func ("/demos/meshes/sizes", test_sizes);
  return g_test_run ();
}
