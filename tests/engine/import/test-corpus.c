/* The test models of the import library, as they are and damaged.
 *
 * Whole models: each is read here where the library itself, with plain flags, returns a scene that
 * has faces, and nowhere else, but for those that are listed below with their reasons; and each of
 * these differs as its list says. Damaged ones: an error or a mesh within the limits, never more;
 * the program as it is run is given more of them by cli/damaged-models. */
#include "models.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define ROUNDS 150 /* damaged versions; times TRUNNION_TEST_SCALE */

typedef struct
{
  const char *file, *code, *reason; /* code: of this program's error */
} Difference;

/* Where the library returns a scene with faces of the file and this program refuses it, and why: it
 * would be another shape than the file's. */
static const Difference refused[] = {
  { "FBX/animation_with_skeleton.fbx", "import/unsupported",
    "bones bend the skin otherwise than it was made; the library leaves it unbent" },
  { "OFF/invalid.off", "import/damaged", "a face has no corners; the library has it in one point" },
  { "glTF2/BoxWithInfinites-glTF-Binary/BoxWithInfinites.glb", "import/not-finite",
    "coordinates are infinite, and so are the library's" },
  { "glTF2/IndexOutOfRange/IndexOutOfRange.gltf", "import/faces-lost",
    "a triangle's corner does not exist; the library leaves the triangle out" },
};

/* Where the library returns a scene without a face: there is nothing to lift or to touch. */
static const Difference faceless[] = {
  { "OBJ/point_cloud.obj", "import/points-only", "points only" },
  { "OBJ/testline.obj", "import/points-only", "lines only" },
  { "OBJ/testpoints.obj", "import/points-only", "points only" },
  { "PLY/issue623.ply", "import/points-only", "points only" },
  { "PLY/points.ply", "import/points-only", "points only" },
  { "PLY/pond.0.ply", "import/points-only", "points only" },
  { "glTF2/TestNoRootNode/SceneWithoutNodes.gltf", "import/no-faces", "no mesh in it" },
#define PRIMITIVE_MODE "glTF2/glTF-Asset-Generator/Mesh_PrimitiveMode/Mesh_PrimitiveMode_"
  { PRIMITIVE_MODE "00.gltf", "import/points-only", "points only" },
  { PRIMITIVE_MODE "01.gltf", "import/points-only", "lines only" },
  { PRIMITIVE_MODE "02.gltf", "import/points-only", "lines only" },
  { PRIMITIVE_MODE "03.gltf", "import/points-only", "lines only" },
  { PRIMITIVE_MODE "07.gltf", "import/points-only", "points only" },
  { PRIMITIVE_MODE "08.gltf", "import/points-only", "lines only" },
  { PRIMITIVE_MODE "09.gltf", "import/points-only", "lines only" },
  { PRIMITIVE_MODE "10.gltf", "import/points-only", "lines only" },
  { "Collada/cameras.dae", "import/film-only", "cameras only" },
  { "Collada/lights.dae", "import/film-only", "lights only" },
};

/* Where this program reads a model of which the library makes no face. */
static const Difference only_here[] = {
  { "OBJ/box_UTF16BE.obj", NULL, "text of two bytes a letter, in which the library finds nothing" },
};

/* Models that have faces, by the import library 5.2 and by this program: but for the four above
 * that are not what their files say, it reads all that the library does. Another version of the
 * library may find more or fewer. */
#define BY_LIBRARY 131
#define HERE 128

/* Where both read a model, and do not find the same number of triangles. */
static const struct
{
  const char *file, *reason;
} other_counts[] = {
  { "AMF/test7.amf", "two volumes, of which the library shows one" },
  { "AMF/test8.amf", "two volumes, of which the library shows one" },
  { "AMF/test9.amf", "two volumes, of which the library shows one" },
  { "AMF/test_with_mat.amf", "two volumes, of which the library shows one" },
  { "Collada/COLLADA.dae", "a bent quadrilateral is covered" },
  { "Collada/duck.dae", "a bent polygon is covered" },
  { "DXF/PinkEggFromLW.dxf", "quadrilaterals with two equal corners are triangles" },
  { "DXF/issue_2229.dxf", "the library takes faces with a hidden edge for points and lines" },
  { "FBX/cubes_with_outofrange_float.fbx", "quadrilaterals that cross themselves are covered" },
  { "IFC/AC14-FZK-Haus.ifc", "round surfaces are made finer" },
};

/* Where both read the same triangles, and not in the same places. */
static const struct
{
  const char *file, *reason;
} other_shapes[] = {
  { "3DS/CameraRollAnimWithChildObject.3ds",
    "the library places an object by the key frames of the camera that it hangs on" },
  { "3DS/RotatingCube.3DS", "the library turns it as its first key frame does" },
};

/* Those with an animation that are read: it is said. */
static const char *const animated[] = {
  "3DS/CameraRollAnimWithChildObject.3ds",
  "3DS/RotatingCube.3DS",
  "Collada/anims_with_full_rotations_between_keys.DAE",
  "Collada/box_nested_animation.dae",
  "FBX/huesitos.fbx",
  "glTF2/glTF-Sample-Models/AnimatedMorphCube-glTF/AnimatedMorphCube.gltf",
  "glTF2/simple_skin/simple_skin.gltf",
  NULL,
};

/* What the library alone makes of them. */
static void
ask_library (GPtrArray *models)
{
  g_autoptr (GPtrArray) argv = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *output = NULL;
  g_autoptr (GError) error = NULL;
  g_ptr_array_add (argv, g_strdup (g_getenv ("REFERENCE_IMPORT")));
  for (guint i = 0; i < models->len; i++)
    g_ptr_array_add (
        argv, g_build_filename (MODELS, ((Model *)g_ptr_array_index (models, i))->path, NULL));
  g_ptr_array_add (argv, NULL);
  g_spawn_sync (NULL, (char **)argv->pdata, NULL, G_SPAWN_STDERR_TO_DEV_NULL, NULL, NULL, &output,
                NULL, NULL, &error);
  g_assert_no_error (error);
  g_auto (GStrv) lines = g_strsplit (output, "\n", -1);
  g_assert_cmpuint (g_strv_length (lines), ==, models->len + 1);
  for (guint i = 0; i < models->len; i++)
    {
      Model *model = g_ptr_array_index (models, i);
      model->whole = g_str_has_prefix (lines[i], "ok ");
      if (model->whole)
        g_assert_cmpint (sscanf (lines[i], "ok %" G_GUINT64_FORMAT " %lf %lf %lf",
                                 &model->triangles, &model->extents[0], &model->extents[1],
                                 &model->extents[2]),
                         ==, 4);
    }
}

/* In millimetres, of which even large numbers are precise; what a file says of its axis holds. */
static TrnMesh *
read_model (const char *path, const TrnImportLimits *limits, TrnImportReport *report,
            TrnDiags *diags)
{
  TrnImportRequest request = { .path = path, .unit = TRN_LENGTH_MM, .up = TRN_UP_Z };
  return trn_import_mesh (&request, limits, NULL, NULL, report, diags);
}

static gboolean
has_code (const TrnDiags *diags, const char *code)
{
  for (guint i = 0; i < diags->items->len; i++)
    if (strcmp (((const TrnDiag *)g_ptr_array_index (diags->items, i))->code, code) == 0)
      return TRUE;
  return FALSE;
}

static const char *
first_error (const TrnDiags *diags)
{
  for (guint i = 0; i < diags->items->len; i++)
    {
      const TrnDiag *diag = g_ptr_array_index (diags->items, i);
      if (diag->severity == TRN_SEVERITY_ERROR)
        return diag->code;
    }
  return "";
}

/* This model among @differences, or NULL. */
static const Difference *
find_difference (const Difference *differences, guint n, const char *path)
{
  for (guint i = 0; i < n; i++)
    if (strcmp (differences[i].file, path) == 0)
      return &differences[i];
  return NULL;
}

#define FIND(differences, path) find_difference (differences, G_N_ELEMENTS (differences), path)

static gboolean
is_other_count (const char *path)
{
  for (guint i = 0; i < G_N_ELEMENTS (other_counts); i++)
    if (strcmp (other_counts[i].file, path) == 0)
      return TRUE;
  return FALSE;
}

static int
compare_doubles (const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

/* The same box as the library's, but for its unit and for which axis is which. */
static void
compare_shape (const Model *model, const TrnMesh *mesh)
{
  TrnVec3 size = trn_vec3_sub (mesh->box.hi, mesh->box.lo);
  double extents[3] = { size.x, size.y, size.z };
  qsort (extents, 3, sizeof extents[0], compare_doubles);
  double scale = model->extents[2] / extents[2];
  gboolean same = TRUE;
  for (int k = 0; k < 3; k++)
    same = same && fabs (extents[k] * scale - model->extents[k]) <= 1e-4 * model->extents[2];
  for (guint i = 0; i < G_N_ELEMENTS (other_shapes); i++)
    if (strcmp (other_shapes[i].file, model->path) == 0)
      {
        g_assert_false (same);
        return;
      }
  g_test_message ("%g %g %g, by the library %g %g %g", extents[0], extents[1], extents[2],
                  model->extents[0], model->extents[1], model->extents[2]);
  g_assert_true (same);
}

/* What both read is the same, but for what is listed. */
static void
compare (const Model *model, const TrnMesh *mesh, const TrnImportReport *report)
{
  /* What was dropped to put the mesh right was read, too. */
  guint64 triangles
      = (guint64)mesh->n_triangles + report->repair.duplicate + report->repair.degenerate;
  if (is_other_count (model->path))
    g_assert_cmpuint (triangles, !=, model->triangles);
  else
    {
      g_assert_cmpuint (triangles, ==, model->triangles);
      compare_shape (model, mesh);
    }
}

typedef struct
{
  guint by_library, here, by_both, faceless, refused, only_here;
} Counts;

/* One model, which is in the list that it belongs to and in no other. */
static void
judge (const Model *model, const TrnMesh *mesh, const TrnImportReport *report,
       const TrnDiags *diags, Counts *counts)
{
  const Difference *in_faceless = FIND (faceless, model->path);
  const Difference *in_refused = FIND (refused, model->path);
  const Difference *in_only_here = FIND (only_here, model->path);
  const gboolean has_faces = model->whole && model->triangles > 0;
  const char *error = mesh != NULL ? NULL : first_error (diags);
  g_test_message ("%s: %s, %s by the library", model->path, error != NULL ? error : "read",
                  has_faces      ? "read"
                  : model->whole ? "without a face"
                                 : "refused");
  counts->by_library += has_faces;
  counts->here += mesh != NULL;
  counts->by_both += has_faces && mesh != NULL;
  counts->faceless += model->whole && !has_faces && mesh == NULL;
  counts->refused += has_faces && mesh == NULL;
  counts->only_here += !has_faces && mesh != NULL;
  g_assert_cmpint (in_faceless != NULL, ==, model->whole && !has_faces && mesh == NULL);
  g_assert_cmpint (in_refused != NULL, ==, has_faces && mesh == NULL);
  g_assert_cmpint (in_only_here != NULL, ==, !has_faces && mesh != NULL);
  if (in_faceless != NULL)
    g_assert_cmpstr (error, ==, in_faceless->code);
  if (in_refused != NULL)
    g_assert_cmpstr (error, ==, in_refused->code);
  if (has_faces && mesh != NULL)
    compare (model, mesh, report);
}

static void
test_whole (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) models = models_new ();
  Counts counts = { 0 };
  ask_library (models);
  for (guint i = 0; i < models->len; i++)
    {
      const Model *model = g_ptr_array_index (models, i);
      g_autofree char *path = g_build_filename (MODELS, model->path, NULL);
      g_autoptr (TrnDiags) diags = trn_diags_new ();
      TrnImportReport report;
      g_autoptr (TrnMesh) mesh = read_model (path, NULL, &report, diags);
      g_assert_true ((mesh == NULL) == trn_diags_have_errors (diags));
      g_assert_cmpint (has_code (diags, "import/animated"), ==,
                       g_strv_contains (animated, model->path));
      judge (model, mesh, &report, diags, &counts);
    }
  g_test_message ("%u models: %u by the library, %u here, %u by both", models->len,
                  counts.by_library, counts.here, counts.by_both);
  /* Each row of a list is a model that is there. */
  g_assert_cmpuint (counts.faceless, ==, G_N_ELEMENTS (faceless));
  g_assert_cmpuint (counts.refused, ==, G_N_ELEMENTS (refused));
  g_assert_cmpuint (counts.only_here, ==, G_N_ELEMENTS (only_here));
  if (!g_str_has_prefix (g_getenv ("REFERENCE_VERSION"), "5.2."))
    return;
  g_assert_cmpuint (counts.by_library, ==, BY_LIBRARY);
  g_assert_cmpuint (counts.here, ==, HERE);
}

/* ---- damage ---- */

/* Bytes that this process holds now. */
static guint64
resident_bytes (void)
{
  g_autofree char *text = NULL;
  g_assert_true (g_file_get_contents ("/proc/self/statm", &text, NULL, NULL));
  char *pages = strchr (text, ' ');
  return g_ascii_strtoull (pages, NULL, 10) * 4096;
}

/* Reads one damaged model and counts what became of it. FALSE where it is empty or too large. */
static gboolean
read_damaged (Fixture *fixture, const Model *model, const TrnImportLimits *limits,
              GHashTable *results)
{
  g_autofree char *name = models_write_damaged (fixture, model);
  if (name == NULL)
    return FALSE;
  g_autofree char *damaged = fixture_path (fixture, name);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  guint64 before = resident_bytes ();
  g_autoptr (TrnMesh) mesh = read_model (damaged, limits, NULL, diags);
  guint64 after = resident_bytes ();
  g_assert_true ((mesh == NULL) == trn_diags_have_errors (diags));
  g_assert_cmpuint (trn_diags_count (diags, TRN_SEVERITY_ERROR), <=, 1);
  g_assert_cmpuint (after, <, before + limits->memory_bytes);
  if (mesh != NULL)
    for (guint32 t = 0; t < mesh->n_triangles; t++)
      for (int k = 0; k < 3; k++)
        g_assert_cmpuint (mesh->triangles[t].v[k], <, mesh->n_vertices);
  const char *code = mesh != NULL ? "read" : first_error (diags);
  g_autofree char *key = g_ascii_strdown (strrchr (name, '.') + 1, -1);
  g_autofree char *what = g_strdup_printf ("%s %s", code, key);
  for (int i = 0; i < 2; i++)
    {
      const char *counted = i == 0 ? code : what;
      guint count = GPOINTER_TO_UINT (g_hash_table_lookup (results, counted));
      g_hash_table_replace (results, g_strdup (counted), GUINT_TO_POINTER (count + 1));
    }
  return TRUE;
}

/* The helper's limits are cut, so that what hangs does so briefly. The wall clock stands far
 * above them: a helper that is stopped by it alone waits for something, which it must not. */
static void
test_damaged (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) models = models_new ();
  g_autoptr (GHashTable) results = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  const char *scale = g_getenv ("TRUNNION_TEST_SCALE");
  int rounds = (int)(ROUNDS * (scale != NULL ? g_ascii_strtod (scale, NULL) : 1));
  TrnImportLimits limits
      = { .memory_bytes = (gsize)512 << 20, .cpu_s = 2, .wall_s = 120, .max_triangles = 1000000 };
  for (int r = 0; r < rounds;)
    r += read_damaged (fixture, models_draw (models), &limits, results);
  g_autoptr (GList) keys = g_list_sort (g_hash_table_get_keys (results), (GCompareFunc)strcmp);
  for (GList *key = keys; key != NULL; key = key->next)
    g_test_message ("%5u %s", GPOINTER_TO_UINT (g_hash_table_lookup (results, key->data)),
                    (const char *)key->data);
  static const char *const never[]
      = { "import/wall-time", "import/bad-answer", "import/helper-failed", "import/cannot-start" };
  for (guint i = 0; i < G_N_ELEMENTS (never); i++)
    g_assert_false (g_hash_table_contains (results, never[i]));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(path, func) g_test_add (path, Fixture, NULL, fixture_set_up, func, fixture_tear_down)
  ADD ("/import/corpus/whole", test_whole);
  ADD ("/import/corpus/damaged", test_damaged);
  return g_test_run ();
}
