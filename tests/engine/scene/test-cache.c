/* A scene built again with the cache of the one before: meshes and trees are the same ones where
 * nothing has changed, and never where something has. */
#include "scene.h"

#include <glib/gstdio.h>

#include "test-plan.h"

/* A structure from a mesh file, a shaft with two parts, and a load. */
#define PLAN                                                                                       \
  "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.5, 'gear': [],"                       \
  " 'structures': [{'id': 'm', 'mesh': {'file': '%s', 'unit': 'm', 'up': '%s'},"                   \
  " 'at': {'position': [0, 9, 0]}},"                                                               \
  " {'id': 's', 'solid': {'kind': 'round-shaft', 'inner_diameter': 10, 'depth': 20, 'wall': 1,"    \
  " 'floor': 1}, 'at': {'position': [0, 0, 0]}}],"                                                 \
  " 'components': [{'id': 'load-a', 'mass': 1000, 'at': {'position': [0, 0, 0]},"                  \
  " 'solid': {'kind': 'box', 'size': [1, 1, %s]}}],"                                               \
  " 'programme': [{'lift': 'one', 'component': 'load-a', 'hook_point': [0, 0, 1],"                 \
  " 'moves': [{'do': 'hoist', 'by': 1, 'seconds': 1}]}]}"

#define N_SHAPES 4

static const char one[] = "o lid\nv 0 0 0\nv 4 0 0\nv 4 4 0\nv 0 4 0\nf 1 2 3\nf 1 3 4\n";
static const char other[] = "o lid\nv 0 0 0\nv 4 0 0\nv 4 5 0\nv 0 4 0\nf 1 2 3\nf 1 3 4\n";
static const char renamed[] = "o cover\nv 0 0 0\nv 4 0 0\nv 4 4 0\nv 0 4 0\nf 1 2 3\nf 1 3 4\n";

typedef struct
{
  char *folder;
  TrnCache *cache;
  TrnDiags *diags; /* of the last scene */
} Fixture;

static void
set_up (Fixture *f, gconstpointer data)
{
  f->folder = g_dir_make_tmp ("trunnion-scene-cache-XXXXXX", NULL);
  f->cache = trn_cache_new (1 << 20);
  f->diags = trn_diags_new ();
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  static const char *const names[] = { "a.obj", "b.obj", "a.gltf", "a.bin" };
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = g_build_filename (f->folder, names[i], NULL);
      g_remove (path);
    }
  g_assert_cmpint (g_rmdir (f->folder), ==, 0);
  g_free (f->folder);
  trn_diags_free (f->diags);
  trn_cache_unref (f->cache);
}

static void
write_file (Fixture *f, const char *name, const void *bytes, gssize length)
{
  g_autofree char *path = g_build_filename (f->folder, name, NULL);
  g_assert_true (g_file_set_contents (path, bytes, length, NULL));
}

/* A scene with the mesh @file and a load of that @height; NULL when @progress is cancelled. */
static TrnScene *
build (Fixture *f, const char *file, const char *height, TrnProgress *progress)
{
  g_autofree char *text
      = g_strdup_printf (PLAN, file, g_str_has_suffix (file, "gltf") ? "y" : "z", height);
  g_strdelimit (text, "'", '"');
  trn_diags_free (f->diags);
  f->diags = trn_diags_new ();
  g_autoptr (TrnPlan) plan
      = trn_plan_parse (text, strlen (text), "p.trunnion", f->folder, NULL, f->diags);
  TrnProgramme *programme = trn_programme_play (plan, f->diags);
  TrnSceneOptions options = { .jobs = 2, .cache = f->cache, .progress = progress };
  TrnScene *scene = trn_scene_build_take (programme, &options, f->diags);
  test_print_diags (f->diags);
  g_assert_true ((scene != NULL) != trn_progress_is_cancelled (progress));
  return scene;
}

/* Asked for since the last call. */
static void
assert_asked (Fixture *f, TrnCacheKind kind, TrnCacheCount *before, guint64 hits, guint64 misses)
{
  TrnCacheCount now = trn_cache_count (f->cache, kind);
  g_assert_cmpuint (now.hits - before->hits, ==, hits);
  g_assert_cmpuint (now.misses - before->misses, ==, misses);
  *before = now;
}

static const TrnBody *
mesh_body (const TrnScene *scene)
{
  return &scene->structures[0].bodies[0];
}

/* Nothing is made a second time; one solid changed, one tree is. */
static void
test_again (Fixture *f, gconstpointer data)
{
  TrnCacheCount files = { 0 }, shapes = { 0 };
  write_file (f, "a.obj", one, -1);
  g_autoptr (TrnScene) first = build (f, "a.obj", "2", NULL);
  assert_asked (f, TRN_CACHE_FILE, &files, 0, 1);
  assert_asked (f, TRN_CACHE_SHAPE, &shapes, 0, N_SHAPES);
  guint n_warnings = f->diags->items->len;
  g_assert_cmpuint (n_warnings, >, 0); /* the lid is open */
  g_autoptr (TrnScene) second = build (f, "a.obj", "2", NULL);
  assert_asked (f, TRN_CACHE_FILE, &files, 1, 0);
  assert_asked (f, TRN_CACHE_SHAPE, &shapes, N_SHAPES, 0);
  g_assert_cmpuint (f->diags->items->len, ==, n_warnings);
  g_assert_true (mesh_body (first)->bvh == mesh_body (second)->bvh);
  g_assert_true (mesh_body (first)->mesh == mesh_body (second)->mesh);
  g_assert_cmpstr (first->files[0].sha256, ==, second->files[0].sha256);
  g_autoptr (TrnScene) third = build (f, "a.obj", "3", NULL);
  assert_asked (f, TRN_CACHE_SHAPE, &shapes, N_SHAPES - 1, 1);
  g_assert_cmpfloat (third->components[0].bodies[0].mesh->box.hi.z, >=, 3);
  g_assert_true (mesh_body (third)->check == mesh_body (first)->check);
}

/* Another content under the same name is another mesh; the first one again is the first one, which
 * the scene before the last used. */
static void
test_file_changed (Fixture *f, gconstpointer data)
{
  write_file (f, "a.obj", one, -1);
  g_autoptr (TrnScene) first = build (f, "a.obj", "2", NULL);
  write_file (f, "a.obj", other, -1);
  g_autoptr (TrnScene) second = build (f, "a.obj", "2", NULL);
  g_assert_cmpfloat (mesh_body (second)->mesh->box.hi.y, ==, 5);
  g_assert_cmpstr (first->files[0].sha256, !=, second->files[0].sha256);
  write_file (f, "a.obj", one, -1);
  TrnCacheCount before = trn_cache_count (f->cache, TRN_CACHE_SHAPE);
  g_autoptr (TrnScene) third = build (f, "a.obj", "2", NULL);
  assert_asked (f, TRN_CACHE_SHAPE, &before, N_SHAPES, 0);
  g_assert_true (mesh_body (third)->bvh == mesh_body (first)->bvh);
}

/* The same triangles under another name of their object: the name is the new one. */
static void
test_renamed (Fixture *f, gconstpointer data)
{
  write_file (f, "a.obj", one, -1);
  g_autoptr (TrnScene) first = build (f, "a.obj", "2", NULL);
  write_file (f, "a.obj", renamed, -1);
  g_autoptr (TrnScene) second = build (f, "a.obj", "2", NULL);
  g_assert_cmpstr (mesh_body (first)->mesh->hash, ==, mesh_body (second)->mesh->hash);
  g_assert_cmpstr (mesh_body (first)->mesh->parts[0].name, ==, "lid");
  g_assert_cmpstr (mesh_body (second)->mesh->parts[0].name, ==, "cover");
}

/* A file about which something is to be said (a point that is left out) is read again, so that it
 * is said again. */
static void
test_said_again (Fixture *f, gconstpointer data)
{
  g_autofree char *text = g_strconcat (one, "p 1\n", NULL);
  write_file (f, "b.obj", text, -1);
  guint n_warnings = 0;
  for (guint i = 0; i < 2; i++)
    {
      trn_scene_free (build (f, "b.obj", "2", NULL));
      g_assert_cmpuint (f->diags->items->len, >, 1);
      if (i > 0)
        g_assert_cmpuint (f->diags->items->len, ==, n_warnings);
      n_warnings = f->diags->items->len;
    }
  g_assert_cmpuint (trn_cache_count (f->cache, TRN_CACHE_FILE).kept, ==, 0);
}

/* A model whose corners lie in a second file: when that one alone changes, the mesh does. */
static void
test_second_file (Fixture *f, gconstpointer data)
{
  static const char model[]
      = "{\"asset\": {\"version\": \"2.0\"}, \"scene\": 0, \"scenes\": [{\"nodes\": [0]}],"
        " \"nodes\": [{\"mesh\": 0}], \"meshes\": [{\"primitives\": [{\"attributes\":"
        " {\"POSITION\": 0}}]}], \"buffers\": [{\"uri\": \"a.bin\", \"byteLength\": 36}],"
        " \"bufferViews\": [{\"buffer\": 0, \"byteLength\": 36}], \"accessors\": [{\"bufferView\":"
        " 0, \"componentType\": 5126, \"count\": 3, \"type\": \"VEC3\", \"min\": [0, 0, 0],"
        " \"max\": [9, 9, 9]}]}";
  float corners[9] = { 0, 0, 0, 4, 0, 0, 0, 4, 0 };
  write_file (f, "a.gltf", model, -1);
  for (guint i = 0; i < 2; i++)
    {
      corners[3] = 4 + (float)i;
      write_file (f, "a.bin", corners, sizeof corners);
      g_autoptr (TrnScene) scene = build (f, "a.gltf", "2", NULL);
      g_assert_cmpfloat (mesh_body (scene)->mesh->box.hi.x, ==, 4 + i);
      g_assert_cmpuint (f->diags->items->len, ==, 1); /* it is open: nothing about the file */
    }
  g_assert_cmpuint (trn_cache_count (f->cache, TRN_CACHE_FILE).kept, ==, 0);
}

/* A scene that was cancelled keeps nothing that is not whole, and counts as none. */
static void
test_cancelled (Fixture *f, gconstpointer data)
{
  write_file (f, "a.obj", one, -1);
  for (guint i = 0; i < 3; i++)
    {
      TrnProgress progress = { .cancelled = 1 };
      g_assert_null (build (f, "a.obj", "2", &progress));
    }
  g_assert_cmpuint (trn_cache_count (f->cache, TRN_CACHE_SHAPE).kept, ==, 0);
  trn_scene_free (build (f, "a.obj", "2", NULL));
  for (guint i = 0; i < 3; i++)
    {
      TrnProgress progress = { .cancelled = 1 };
      g_assert_null (build (f, "a.obj", "3", &progress));
    }
  TrnCacheCount before = trn_cache_count (f->cache, TRN_CACHE_SHAPE);
  g_assert_cmpuint (before.kept, ==, N_SHAPES);
  trn_scene_free (build (f, "a.obj", "2", NULL));
  assert_asked (f, TRN_CACHE_SHAPE, &before, N_SHAPES, 0);
}

/* What neither of the last two scenes had is let go; the scene that has it keeps it alive. */
static void
test_let_go (Fixture *f, gconstpointer data)
{
  write_file (f, "a.obj", one, -1);
  g_autoptr (TrnScene) first = build (f, "a.obj", "2", NULL);
  for (guint i = 3; i < 7; i++)
    {
      g_autofree char *height = g_strdup_printf ("%u", i);
      trn_scene_free (build (f, "a.obj", height, NULL));
      /* What both have, the load of this one and that of the one before. */
      g_assert_cmpuint (trn_cache_count (f->cache, TRN_CACHE_SHAPE).kept, ==, N_SHAPES + 1);
    }
  g_assert_cmpfloat (first->components[0].bodies[0].bvh->mesh->box.hi.z, <, 3);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  static const struct
  {
    const char *path;
    void (*func) (Fixture *, gconstpointer);
  } tests[] = {
    { "/scene-cache/again", test_again },
    { "/scene-cache/file-changed", test_file_changed },
    { "/scene-cache/renamed", test_renamed },
    { "/scene-cache/said-again", test_said_again },
    { "/scene-cache/second-file", test_second_file },
    { "/scene-cache/cancelled", test_cancelled },
    { "/scene-cache/let-go", test_let_go },
  };
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, Fixture, NULL, set_up, tests[i].func, tear_down);
  return g_test_run ();
}
