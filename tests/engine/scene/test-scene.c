/* The scene: which bodies there are, what is shared, and what is odd about a mesh. */
#include "scene.h"

#include <glib/gstdio.h>

#include "mesh-list.h"
#include "moment.h"
#include "test-plan.h"

static TrnScene *
build (const char *text, TrnDiags *diags)
{
  TrnSceneOptions options = { .jobs = 2 };
  return trn_scene_build_take (test_programme (text), &options, diags);
}

#define PLAN(structures, component)                                                                \
  "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.5, 'gear': [],"                       \
  " 'structures': [" structures "], 'components': [{'id': 'load-a', 'name': 'A', 'mass': 1000,"    \
  " 'at': {'position': [0, 0, 0]}, 'solid': " component "}],"                                      \
  " 'programme': [{'lift': 'one', 'component': 'load-a', 'hook_point': [0, 0, 1], %s"              \
  " 'moves': [{'do': 'hoist', 'by': 1, 'seconds': 1}]}]}"

#define SHAFT                                                                                      \
  "{'id': 'shaft', 'name': 'S', 'solid': {'kind': 'round-shaft', 'inner_diameter': 10,"            \
  " 'depth': 20, 'wall': 1, 'floor': 1}, 'at': {'position': [0, 0, 0]}}"
#define TWO_BOXES                                                                                  \
  "{'id': '%s', 'name': 'G', 'solid': {'kind': 'box', 'size': [1, 2, 3]},"                         \
  " 'at': {'position': [%d, 0, 0]}}"
#define GROUP                                                                                      \
  "{'kind': 'group', 'parts': ["                                                                   \
  "{'id': 'p', 'solid': {'kind': 'box', 'size': [1, 2, 3]}, 'at': {'position': [0, 0, 0]}},"       \
  "{'id': 'q', 'solid': {'kind': 'box', 'size': [1, 1, 1]}, 'at': {'position': [0, 0, 3]}}]}"

/* A shaft is two bodies, a component of two solids is one, with the triangles of both. */
static void
test_bodies (void)
{
  g_autofree char *text = g_strdup_printf (PLAN (SHAFT, GROUP), "");
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnScene) scene = build (text, diags);
  test_print_diags (diags);
  g_assert_nonnull (scene);
  const TrnLiftRun *run = &scene->programme->runs[0];
  const TrnBodies *shaft = trn_scene_bodies_of (scene, &run->standing[0]);
  g_assert_cmpuint (shaft->n_bodies, ==, 2);
  g_assert_cmpstr (shaft->bodies[0].id, ==, "shaft/wall");
  g_assert_cmpstr (shaft->bodies[1].id, ==, "shaft/floor");
  const TrnBody *load = trn_scene_load (scene, run);
  g_assert_cmpstr (load->id, ==, "load-a");
  g_assert_cmpuint (load->mesh->n_parts, ==, 2);
  g_assert_cmpuint (load->mesh->n_triangles, ==, 24);
  g_assert_true (load->check->closed);
  test_assert_near (load->mesh->box.hi, 0.5, 1, 4, 1e-9);
  g_assert_cmpuint (diags->items->len, ==, 0);
}

/* Two structures with the same solid have one tree between them. */
static void
test_shared (void)
{
  g_autofree char *a = g_strdup_printf (TWO_BOXES, "a", 10);
  g_autofree char *b = g_strdup_printf (TWO_BOXES, "b", 20);
  g_autofree char *both = g_strconcat (a, ",", b, NULL);
  g_autofree char *text = g_strdup_printf (PLAN ("%s", GROUP), both, "");
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnScene) scene = build (text, diags);
  g_assert_nonnull (scene);
  g_assert_true (scene->structures[0].bodies[0].bvh == scene->structures[1].bodies[0].bvh);
  g_assert_true (scene->structures[0].bodies[0].bvh != scene->components[0].bodies[0].bvh);
}

static guint
count_code (const TrnDiags *diags, const char *code)
{
  guint count = 0;
  for (guint i = 0; i < diags->items->len; i++)
    count += strcmp (((TrnDiag *)g_ptr_array_index (diags->items, i))->code, code) == 0;
  return count;
}

/* A beam of 2 km is probably one of 2 m in millimetres: a warning, and the scene is built. */
static void
test_odd_size (void)
{
  g_autofree char *text = g_strdup_printf (
      PLAN ("{'id': 'far', 'name': 'F', 'solid': {'kind': 'box', 'size': [2000, 1, 1]},"
            " 'at': {'position': [0, 9, 0]}}",
            GROUP),
      "");
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnScene) scene = build (text, diags);
  g_assert_nonnull (scene);
  g_assert_cmpuint (diags->items->len, ==, 1);
  const TrnDiag *diag = g_ptr_array_index (diags->items, 0);
  g_assert_cmpstr (diag->code, ==, "scene/odd-size");
  g_assert_cmpstr (diag->pointer, ==, "/structures/0/solid");
  g_assert_cmpint (diag->severity, ==, TRN_SEVERITY_WARNING);
  g_assert_cmpfloat (trn_diag_get (diag, "extent")->number, ==, 2000);
}

/* Who says what a load weighs that gear lifts: asked once, though two lifts take it; not of what
 * has a source, has no mass, or is lifted without rigging. */
static void
test_mass_no_source (void)
{
  static const struct
  {
    const char *mass, *rigging;
    guint n;
  } cases[] = { { "'mass': 8000,", "'rigging': {'main': {'hook_above': 4}},", 1 },
                { "'mass': 8000, 'mass_source': 'weighed',",
                  "'rigging': {'main': {'hook_above': 4}},", 0 },
                { "", "'rigging': {'main': {'hook_above': 4}},", 0 },
                { "'mass': 8000,", "", 0 } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = g_strdup_printf (
          "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.1, 'structures': [], 'gear': "
          "[], 'components': [{'id': 'u', 'solid': {'kind': 'box', 'size': [2, 2, 2]}, %s"
          " 'at': {'position': [0, 0, 0]}}, {'id': 'still', 'mass': 8000,"
          " 'solid': {'kind': 'box', 'size': [2, 2, 2]}, 'at': {'position': [9, 0, 0]}}],"
          " 'programme': [{'lift': 'l', 'component': 'u', 'hook_point': [0, 0, 2], %s"
          " 'moves': [{'do': 'hoist', 'by': 1, 'seconds': 1}]},"
          " {'lift': 'm', 'component': 'u', 'hook_point': [0, 0, 2], %s"
          " 'moves': [{'do': 'hoist', 'by': 1, 'seconds': 1}]}]}",
          cases[i].mass, cases[i].rigging, cases[i].rigging);
      g_autoptr (TrnDiags) diags = trn_diags_new ();
      g_autoptr (TrnScene) scene = build (text, diags);
      test_print_diags (diags);
      g_assert_nonnull (scene);
      g_assert_cmpuint (count_code (diags, "scene/mass-no-source"), ==, cases[i].n);
      for (guint k = 0; k < diags->items->len; k++)
        {
          const TrnDiag *diag = g_ptr_array_index (diags->items, k);
          if (strcmp (diag->code, "scene/mass-no-source") != 0)
            continue;
          g_assert_cmpint (diag->severity, ==, TRN_SEVERITY_WARNING);
          g_assert_cmpstr (diag->pointer, ==, "/components/0/mass");
          g_assert_cmpstr (trn_diag_get (diag, "component")->text, ==, "u");
        }
    }
}

/* A cube of 2 m of 100 kg is lighter than foam, and a sling to a point 1 m above it goes to no lug;
 * one to a point 0.2 m above it may. 8000 kg and its top: nothing is odd. */
static void
test_odd_load (void)
{
  static const struct
  {
    const char *mass, *to_z;
    guint n_mass, n_sling;
  } cases[] = { { "100", "3", 1, 1 }, { "8000", "2.2", 0, 0 }, { "100000", "2", 1, 0 } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = g_strdup_printf (
          "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.1, 'structures': [{'id': 'd',"
          " 'solid': {'kind': 'box', 'size': [1, 1, 1]}, 'at': {'position': [50, 0, 0]}}], 'gear':"
          " [], 'components': [{'id': 'u', 'solid': {'kind': 'box', 'size': [2, 2, 2]}, 'mass': %s,"
          " 'at': {'position': [0, 0, 0]}}], 'programme': [{'lift': 'l', 'component': 'u',"
          " 'hook_point': [0, 0, 2], 'rigging': {'main': {'hook_above': 4, 'slings': [{'id': 's',"
          " 'to': [0.5, 0, %s], 'diameter': 0.02}]}}, 'moves': [{'do': 'hoist', 'by': 1,"
          " 'seconds': 1}]}]}",
          cases[i].mass, cases[i].to_z);
      g_autoptr (TrnDiags) diags = trn_diags_new ();
      g_autoptr (TrnScene) scene = build (text, diags);
      g_assert_nonnull (scene);
      g_assert_cmpuint (count_code (diags, "scene/odd-mass"), ==, cases[i].n_mass);
      g_assert_cmpuint (count_code (diags, "scene/sling-off-load"), ==, cases[i].n_sling);
    }
}

/* A plan that was never in a folder cannot have mesh files. */
static void
test_no_folder (void)
{
  g_autofree char *text = g_strdup_printf (
      PLAN ("{'id': 'm', 'name': 'M', 'mesh': {'file': 'a.stl', 'unit': 'm', 'up': 'z'},"
            " 'at': {'position': [0, 9, 0]}}",
            GROUP),
      "");
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_assert_null (build (text, diags));
  g_assert_cmpuint (count_code (diags, "scene/no-folder"), ==, 1);
}

/* Mesh files: an open box is a warning with the number of its open edges; the same file read twice
 * in the same way is one file and one mesh; a seat on a part that a mesh does not have is an error;
 * a cancelled build is NULL without an error. */
static const char open_box[] = "o lid\nv 0 0 0\nv 4 0 0\nv 4 4 0\nv 0 4 0\nf 1 2 3\nf 1 3 4\n";

#define MESHES                                                                                     \
  "{'id': 'm', 'name': 'M', 'mesh': {'file': 'lid.obj', 'unit': 'm', 'up': 'z'},"                  \
  " 'at': {'position': [0, 9, 0]}},"                                                               \
  "{'id': 'n', 'name': 'N', 'mesh': {'file': 'lid.obj', 'unit': 'm', 'up': 'z'},"                  \
  " 'at': {'position': [0, 19, 0]}}"

static TrnProgramme *
read_from_folder (const char *folder, const char *text)
{
  g_autofree char *json = g_strdup (text), *path = g_build_filename (folder, "p.trunnion", NULL);
  g_strdelimit (json, "'", '"');
  g_assert_true (g_file_set_contents (path, json, -1, NULL));
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) plan = trn_plan_read (path, NULL, diags);
  test_print_diags (diags);
  g_assert_nonnull (plan);
  TrnProgramme *programme = trn_programme_play (plan, diags);
  g_assert_nonnull (programme);
  g_remove (path);
  return programme;
}

/* A mesh file of 4 m that is said to be in centimetres is 0.04 m: its unit is probably another. */
static void
test_small_file (void)
{
  g_autofree char *folder = g_dir_make_tmp ("trunnion-scene-XXXXXX", NULL);
  g_autofree char *obj = g_build_filename (folder, "lid.obj", NULL);
  g_assert_true (g_file_set_contents (obj, open_box, -1, NULL));
  g_autofree char *text = g_strdup_printf (
      PLAN ("{'id': 'm', 'name': 'M', 'mesh': {'file': 'lid.obj', 'unit': 'cm', 'up': 'z'},"
            " 'at': {'position': [0, 9, 0]}}",
            GROUP),
      "");
  TrnSceneOptions options = { .jobs = 2 };
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnScene) scene
      = trn_scene_build_take (read_from_folder (folder, text), &options, diags);
  g_assert_nonnull (scene);
  g_assert_cmpuint (count_code (diags, "scene/odd-size"), ==, 1);
  g_remove (obj);
  g_rmdir (folder);
}

/* An open box of 4 m by 4 m by 5 m, its lid left out: of its box 80 m³ a mass of 42 kg, in tonnes
 * meant, is 0.53 kg for each, said with two digits; 96 kg are as heavy as air, and 961 t heavier
 * than lead. */
static void
test_open_load (void)
{
  static const struct
  {
    const char *mass;
    guint n;
    double density;
  } cases[] = { { "42", 1, 0.53 }, { "0.43", 1, 0.0054 }, { "96.1", 0, 0 },
                { "2000", 0, 0 },  { "959000", 0, 0 },    { "961000", 1, 12012.5 } };
  static const char tub[] = "v -2 -2 0\nv 2 -2 0\nv 2 2 0\nv -2 2 0\nv -2 -2 5\nv 2 -2 5\n"
                            "v 2 2 5\nv -2 2 5\nf 1 4 3 2\nf 1 2 6 5\nf 2 3 7 6\nf 3 4 8 7\n"
                            "f 4 1 5 8\n";
  g_autofree char *folder = g_dir_make_tmp ("trunnion-scene-XXXXXX", NULL);
  g_autofree char *obj = g_build_filename (folder, "tub.obj", NULL);
  g_assert_true (g_file_set_contents (obj, tub, -1, NULL));
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = g_strdup_printf (
          "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.1, 'structures': [{'id': 'd',"
          " 'solid': {'kind': 'box', 'size': [1, 1, 1]}, 'at': {'position': [50, 0, 0]}}],"
          " 'components': [{'id': 'u', 'mesh': {'file': 'tub.obj', 'unit': 'm', 'up': 'z'},"
          " 'mass': %s, 'at': {'position': [0, 0, 0]}}], 'programme': [{'lift': 'l', 'component':"
          " 'u', 'hook_point': [0, 0, 5], 'moves': [{'do': 'hoist', 'by': 1, 'seconds': 1}]}]}",
          cases[i].mass);
      TrnSceneOptions options = { .jobs = 2 };
      g_autoptr (TrnDiags) diags = trn_diags_new ();
      g_autoptr (TrnScene) scene
          = trn_scene_build_take (read_from_folder (folder, text), &options, diags);
      g_assert_nonnull (scene);
      g_assert_cmpuint (count_code (diags, "scene/odd-mass"), ==, 0);
      g_assert_cmpuint (count_code (diags, "scene/odd-mass-in-box"), ==, cases[i].n);
      for (guint k = 0; k < diags->items->len; k++)
        {
          const TrnDiag *diag = g_ptr_array_index (diags->items, k);
          if (g_strcmp0 (diag->code, "scene/odd-mass-in-box") == 0)
            g_assert_cmpfloat_with_epsilon (trn_diag_get (diag, "density")->number,
                                            cases[i].density, 1e-9);
        }
    }
  g_remove (obj);
  g_rmdir (folder);
}

/* What a mesh file refers to stands in the list behind it, from the plan's folder, once. */
static void
test_referred_files (void)
{
  g_autofree char *folder = g_dir_make_tmp ("trunnion-scene-XXXXXX", NULL);
  g_autofree char *inner = g_build_filename (folder, "models", NULL);
  g_autofree char *obj = g_build_filename (inner, "lid.obj", NULL);
  g_autofree char *mtl = g_build_filename (inner, "paint.mtl", NULL);
  g_autofree char *with = g_strconcat ("mtllib paint.mtl\n", open_box, NULL);
  static const char paint[] = "newmtl red\nKd 1 0 0\n";
  g_assert_cmpint (g_mkdir (inner, 0700), ==, 0);
  g_assert_true (g_file_set_contents (obj, with, -1, NULL));
  g_assert_true (g_file_set_contents (mtl, paint, -1, NULL));
  g_autofree char *text = g_strdup_printf (
      PLAN ("{'id': 'm', 'name': 'M', 'mesh': {'file': 'models/lid.obj', 'unit': 'm', 'up': 'z'},"
            " 'at': {'position': [0, 9, 0]}},"
            "{'id': 'n', 'name': 'N', 'mesh': {'file': 'models/lid.obj', 'unit': 'ft', 'up': 'z'},"
            " 'at': {'position': [0, 19, 0]}}",
            GROUP),
      "");
  TrnSceneOptions options = { .jobs = 2 };
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnScene) scene
      = trn_scene_build_take (read_from_folder (folder, text), &options, diags);
  test_print_diags (diags);
  g_assert_nonnull (scene);
  g_assert_cmpuint (scene->n_files, ==, 2);
  g_assert_cmpstr (scene->files[0].file, ==, "models/lid.obj");
  g_assert_cmpstr (scene->files[1].file, ==, "models/paint.mtl");
  g_autofree char *sha256 = g_compute_checksum_for_string (G_CHECKSUM_SHA256, paint, -1);
  g_assert_cmpstr (scene->files[1].sha256, ==, sha256);
  g_remove (obj);
  g_remove (mtl);
  g_rmdir (inner);
  g_rmdir (folder);
}

static void
test_mesh_files (void)
{
  g_autofree char *folder = g_dir_make_tmp ("trunnion-scene-XXXXXX", NULL);
  g_autofree char *obj = g_build_filename (folder, "lid.obj", NULL);
  g_assert_true (g_file_set_contents (obj, open_box, -1, NULL));
  g_autofree char *good = g_strdup_printf (PLAN (MESHES, GROUP), "");
  g_autofree char *bad
      = g_strdup_printf (PLAN (MESHES, GROUP), "'seats': [{'on': 'm/lid', 'at': 'start'}],");
  TrnProgress progress = { 0 };
  TrnSceneOptions options = { .jobs = 2, .progress = &progress };

  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnScene) scene
      = trn_scene_build_take (read_from_folder (folder, good), &options, diags);
  test_print_diags (diags);
  g_assert_nonnull (scene);
  g_assert_cmpuint (scene->n_files, ==, 1);
  g_assert_cmpstr (scene->files[0].file, ==, "lid.obj");
  g_autofree char *sha256 = g_compute_checksum_for_string (G_CHECKSUM_SHA256, open_box, -1);
  g_assert_cmpstr (scene->files[0].sha256, ==, sha256);
  g_assert_true (scene->structures[0].bodies[0].mesh == scene->structures[1].bodies[0].mesh);
  g_assert_cmpuint (count_code (diags, "scene/open-mesh"), ==, 2);
  g_assert_cmpint (progress.done, ==, progress.total);
  /* Two structures have the file as their shape; both warnings are about it. */
  g_autoptr (GPtrArray) meshes = trn_scene_meshes_list (scene);
  g_assert_cmpuint (meshes->len, ==, 1);
  const TrnSceneMesh *mesh = meshes->pdata[0];
  g_assert_cmpuint (mesh->users->len, ==, 2);
  g_assert_cmpstr (g_array_index (mesh->users, TrnSceneMeshUser, 1).pointer, ==, "/structures/1");
  g_assert_cmpuint (mesh->report->n_holes, ==, 1);
  for (guint i = 0; i < diags->items->len; i++)
    g_assert_true (trn_scene_mesh_is_meant (mesh, diags->items->pdata[i]));
  TrnDiag *elsewhere
      = trn_diags_add (diags, TRN_SEVERITY_NOTE, "scene/odd-size", "/structures/10/mesh");
  g_assert_false (trn_scene_mesh_is_meant (mesh, elsewhere));

  g_autoptr (TrnDiags) seat = trn_diags_new ();
  g_assert_null (trn_scene_build_take (read_from_folder (folder, bad), &options, seat));
  g_assert_cmpuint (count_code (seat, "scene/seat-no-part"), ==, 1);

  trn_progress_cancel (&progress);
  g_autoptr (TrnDiags) none = trn_diags_new ();
  g_assert_null (trn_scene_build_take (read_from_folder (folder, good), &options, none));
  g_assert_false (trn_diags_have_errors (none));
  g_remove (obj);
  g_rmdir (folder);
}

/* An OBJ file says nothing about its unit. What is said of it stands at the place in the plan where
 * the unit is missing, and names the file. */
static void
test_mesh_place (void)
{
  g_autofree char *folder = g_dir_make_tmp ("trunnion-scene-XXXXXX", NULL);
  g_autofree char *obj = g_build_filename (folder, "lid.obj", NULL);
  g_assert_true (g_file_set_contents (obj, open_box, -1, NULL));
  g_autofree char *text = g_strdup_printf (PLAN ("{'id': 'm', 'at': {'position': [0, 9, 0]},\n"
                                                 " 'mesh': {'file': 'lid.obj', 'up': 'z'}}",
                                                 GROUP),
                                           "");
  TrnSceneOptions options = { .jobs = 1 };
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_assert_null (trn_scene_build_take (read_from_folder (folder, text), &options, diags));
  test_print_diags (diags);
  g_assert_cmpuint (diags->items->len, ==, 1);
  const TrnDiag *diag = g_ptr_array_index (diags->items, 0);
  g_assert_cmpstr (diag->code, ==, "import/unit-missing");
  g_assert_cmpstr (diag->pointer, ==, "/structures/0/mesh");
  g_assert_cmpuint (diag->line, ==, 2);
  g_assert_true (g_str_has_suffix (diag->file, "p.trunnion"));
  g_assert_true (g_str_has_suffix (diag->subject, "lid.obj"));
  g_remove (obj);
  g_rmdir (folder);
}

/* Where it is asked for, a structure whose mesh cannot be used is left out with its seat, and its
 * errors stay; without asking there is no scene. A seat on a part of a mesh, which has none, is an
 * error all the same. */
static void
test_partial (void)
{
  g_autofree char *folder = g_dir_make_tmp ("trunnion-scene-XXXXXX", NULL);
  g_autofree char *obj = g_build_filename (folder, "lid.obj", NULL);
  g_assert_true (g_file_set_contents (obj, "no mesh\n", -1, NULL));
  g_autofree char *text
      = g_strdup_printf (PLAN (MESHES "," SHAFT, GROUP), "'seats': [{'on': 'm', 'at': 'start'}],");
  g_autofree char *bad = g_strdup_printf (PLAN (MESHES "," SHAFT, GROUP),
                                          "'seats': [{'on': 'm/lid', 'at': 'start'}],");
  TrnSceneOptions options = { .jobs = 2 };
  g_autoptr (TrnDiags) whole = trn_diags_new ();
  g_assert_null (trn_scene_build_take (read_from_folder (folder, text), &options, whole));

  options.partial = TRUE;
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnScene) scene
      = trn_scene_build_take (read_from_folder (folder, text), &options, diags);
  g_assert_nonnull (scene);
  g_assert_cmpuint (scene->n_left_out, ==, 2);
  g_assert_cmpuint (scene->structures[0].n_bodies, ==, 0);
  g_assert_cmpuint (scene->structures[1].n_bodies, ==, 0);
  g_assert_cmpuint (scene->structures[2].n_bodies, ==, 2);
  g_assert_cmpuint (scene->components[0].n_bodies, ==, 1);
  g_assert_cmpuint (scene->n_files, ==, 0);
  g_assert_cmpuint (diags->items->len, ==, whole->items->len);
  g_assert_true (trn_diags_have_errors (diags));
  g_autoptr (GPtrArray) meshes = trn_scene_meshes_list (scene);
  g_assert_cmpuint (meshes->len, ==, 1);
  g_assert_null (((TrnSceneMesh *)meshes->pdata[0])->report);

  g_autoptr (TrnDiags) seat = trn_diags_new ();
  g_assert_null (trn_scene_build_take (read_from_folder (folder, bad), &options, seat));
  g_assert_cmpuint (count_code (seat, "scene/seat-no-part"), ==, 1);
  g_remove (obj);
  g_rmdir (folder);
}

/* A lift without its load is none, however it is asked for. */
static void
test_partial_load (void)
{
  g_autofree char *folder = g_dir_make_tmp ("trunnion-scene-XXXXXX", NULL);
  g_autofree char *obj = g_build_filename (folder, "lid.obj", NULL);
  g_assert_true (g_file_set_contents (obj, "no mesh\n", -1, NULL));
  g_autofree char *solid = g_strdup_printf (PLAN (SHAFT, "{}"), "");
  g_auto (GStrv) parts = g_strsplit (solid, "'solid': {}", -1);
  g_autofree char *text = g_strjoinv ("'mesh': {'file': 'lid.obj', 'unit': 'm', 'up': 'z'}", parts);
  TrnSceneOptions options = { .jobs = 2, .partial = TRUE };
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_assert_null (trn_scene_build_take (read_from_folder (folder, text), &options, diags));
  g_assert_true (trn_diags_have_errors (diags));
  g_remove (obj);
  g_rmdir (folder);
}

/* What stands of gear: two legs and a runway of a tower, the carrier of a crane, nothing of a tail
 * trolley; each a body of its own, in the frame of its gear, and an obstacle after the component.
 */
static void
test_gear (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnScene) scene = build (
      "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.5, 'gear': ["
      " {'id': 'bogie', 'kind': 'tail-trolley', 'at': {'position': [9, 0, 0]}, 'size': [1, 1, 1]},"
      " {'id': 'tower', 'kind': 'gantry', 'at': {'position': [20, 0, 0], 'turn': [90, 0, 0]},"
      "  'keep_clear': 0.2, 'legs': [{'at': [-3, 0], 'size': [1, 2], 'height': 8},"
      "   {'at': [3, 0], 'size': [1, 2], 'height': 8}],"
      "  'runways': [{'from': [-3, 0, 9], 'to': [3, 0, 9], 'width': 1, 'depth': 1}]},"
      " {'id': 'crane', 'kind': 'crane', 'at': {'position': [0, 30, 0]},"
      "  'carrier': {'size': [8, 3, 1], 'centre': [-1, 0]},"
      "  'boom': {'foot': [0, 1], 'length': 20, 'section': [1, 1]}}],"
      " 'structures': [], 'components': ["
      " {'id': 'a', 'at': {'position': [0, 0, 0]}, 'solid': {'kind': 'box', 'size': [1, 1, 1]}},"
      " {'id': 'b', 'at': {'position': [5, 0, 0]}, 'solid': {'kind': 'box', 'size': [1, 1, 1]}}],"
      " 'programme': [{'lift': 'one', 'component': 'a', 'hook_point': [0, 0, 1],"
      " 'moves': [{'do': 'hoist', 'by': 1, 'seconds': 1}]}]}",
      diags);
  test_print_diags (diags);
  g_assert_nonnull (scene);
  g_assert_cmpuint (diags->items->len, ==, 0);
  g_assert_cmpuint (scene->gear[0].n_bodies, ==, 0);
  guint n;
  g_autofree TrnObstacle *obstacles = trn_scene_obstacles (scene, &scene->programme->runs[0], &n);
  static const char *const ids[]
      = { "b", "tower/leg-1", "tower/leg-2", "tower/runway-1", "crane/carrier" };
  g_assert_cmpuint (n, ==, G_N_ELEMENTS (ids));
  for (guint i = 0; i < n; i++)
    {
      g_assert_cmpstr (obstacles[i].body->id, ==, ids[i]);
      g_assert_true (obstacles[i].body->check->closed);
      g_assert_cmpfloat (obstacles[i].standing->required_m, ==, i > 0 && i < 4 ? 0.2 : 0.5);
    }
  test_assert_near (obstacles[1].body->mesh->box.lo, -3.5, -1, 0, 1e-9);
  test_assert_near (obstacles[1].body->mesh->box.hi, -2.5, 1, 8, 1e-9);
  test_assert_near (
      trn_pose_apply (&obstacles[1].standing->site_from_standing, (TrnVec3){ -3, 0, 0 }), 20, -3, 0,
      1e-9);
  test_assert_near (obstacles[4].body->mesh->box.hi, 3, 1.5, 1, 1e-9);
  g_assert_true (obstacles[1].body->bvh != obstacles[2].body->bvh);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scene/bodies", test_bodies);
  g_test_add_func ("/scene/shared", test_shared);
  g_test_add_func ("/scene/gear", test_gear);
  g_test_add_func ("/scene/odd-size", test_odd_size);
  g_test_add_func ("/scene/small-file", test_small_file);
  g_test_add_func ("/scene/mass-no-source", test_mass_no_source);
  g_test_add_func ("/scene/odd-load", test_odd_load);
  g_test_add_func ("/scene/open-load", test_open_load);
  g_test_add_func ("/scene/no-folder", test_no_folder);
  g_test_add_func ("/scene/mesh-files", test_mesh_files);
  g_test_add_func ("/scene/referred-files", test_referred_files);
  g_test_add_func ("/scene/mesh-place", test_mesh_place);
  g_test_add_func ("/scene/partial", test_partial);
  g_test_add_func ("/scene/partial-load", test_partial_load);
  return g_test_run ();
}
