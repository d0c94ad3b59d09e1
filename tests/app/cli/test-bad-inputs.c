/* test-bad-inputs.c: every faulty plan and every bad mesh file that the tests of the engine know,
 * given to the program as it is run: one line that says where and what, exit status 3, and nothing
 * printed or written. The program is the one in TRUNNION_PROGRAM. */
#include <glib/gstdio.h>
#include <string.h>
#include <sys/wait.h>

#include "bad-files.h"
#include "bad-plans.h"
#include "fixture.h"
#include "parallel.h"

/* A mesh, for what is not the fault: whether a file is there is asked before what is in it. */
#define GOOD_OBJ "v 0 0 0\nv 1 0 0\nv 0 1 0\nv 0 0 1\nf 1 3 2\nf 1 2 4\nf 2 3 4\nf 3 1 4\n"

/* Those that the plans name. */
static const char *const meshes[] = { "lid.stl", "cap.obj", "a.stl" };

/* A case: a folder with these files in it. */
typedef struct
{
  char *name;
  char *plan;       /* text; owned */
  const char *mesh; /* name of the mesh file that must be named; NULL: the plan is at fault */
  GByteArray *bytes;
  const char *pointer; /* that must be named; NULL: any */
} Case;

typedef struct
{
  GArray *cases; /* of Case */
  const char *folder;
} All;

static void
write_file (const char *folder, const char *name, const void *bytes, gsize length)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_assert_true (g_file_set_contents (path, bytes, (gssize)length, NULL));
}

static void
remove_file (const char *folder, const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_assert_cmpint (g_remove (path), ==, 0);
}

#define EXPECT(c, text, condition)                                                                 \
  do                                                                                               \
    {                                                                                              \
      if (!(condition))                                                                            \
        g_error ("%s: %s; standard error:\n%s", (c)->name, #condition, text);                      \
    }                                                                                              \
  while (0)

/* A place, how grave it is, and a sentence. */
static void
check_line (const Case *c, const char *line)
{
  const char *error = strstr (line, ": error: ");
  EXPECT (c, line, error != NULL);
  g_autofree char *place = g_strndup (line, (gsize)(error - line));
  if (c->mesh == NULL)
    {
      EXPECT (c, line, g_str_has_prefix (place, "bad.trunnion:"));
      EXPECT (c, line, g_ascii_isdigit (place[strlen ("bad.trunnion:")]));
    }
  else
    EXPECT (c, line, strstr (place, c->mesh) != NULL);
  if (c->pointer != NULL && strlen (c->pointer) < 100)
    EXPECT (c, line, strstr (line, c->pointer) != NULL);
  const char *sentence = error + strlen (": error: ");
  EXPECT (c, line, strlen (sentence) > 15 && strchr (sentence, ' ') != NULL);
  EXPECT (c, line, !g_unichar_islower (g_utf8_get_char (sentence)));
  EXPECT (c, line, g_str_has_suffix (sentence, "."));
  EXPECT (c, line, strstr (sentence, "please report it") == NULL);
  EXPECT (c, line, g_utf8_validate (line, -1, NULL));
}

static void
run_case (guint index, gpointer data)
{
  const All *all = data;
  const Case *c = &g_array_index (all->cases, Case, index);
  g_autofree char *number = g_strdup_printf ("%u", index);
  g_autofree char *folder = g_build_filename (all->folder, number, NULL);
  g_assert_cmpint (g_mkdir (folder, 0700), ==, 0);
  write_file (folder, "bad.trunnion", c->plan, strlen (c->plan));
  for (guint i = 0; i < G_N_ELEMENTS (meshes); i++)
    write_file (folder, meshes[i], GOOD_OBJ, strlen (GOOD_OBJ));
  if (c->mesh != NULL)
    write_file (folder, c->mesh, c->bytes->data, c->bytes->len);

  const char *argv[] = { g_getenv ("TRUNNION_PROGRAM"),
                         "check",
                         "bad.trunnion",
                         "--json",
                         "out.json",
                         "--csv",
                         "out.csv",
                         NULL };
  g_autofree char *out = NULL, *err = NULL;
  int status;
  g_assert_true (g_spawn_sync (folder, (char **)argv, NULL, G_SPAWN_DEFAULT, NULL, NULL, &out, &err,
                               &status, NULL));
  EXPECT (c, err, WIFEXITED (status));
  EXPECT (c, err, WEXITSTATUS (status) == 3);
  EXPECT (c, err, out[0] == '\0');
  EXPECT (c, err, g_str_has_suffix (err, "\n"));
  err[strlen (err) - 1] = '\0';
  EXPECT (c, err, strchr (err, '\n') == NULL);
  check_line (c, err);

  /* Only what was there is there. */
  remove_file (folder, "bad.trunnion");
  for (guint i = 0; i < G_N_ELEMENTS (meshes); i++)
    remove_file (folder, meshes[i]);
  if (c->mesh != NULL)
    remove_file (folder, c->mesh);
  EXPECT (c, err, g_rmdir (folder) == 0);
}

static void
case_clear (gpointer data)
{
  Case *c = data;
  g_free (c->name);
  g_free (c->plan);
  if (c->bytes != NULL)
    g_byte_array_unref (c->bytes);
}

static void
run_all (GArray *cases)
{
  g_autofree char *folder = g_dir_make_tmp ("trunnion-test-XXXXXX", NULL);
  g_assert_nonnull (folder);
  All all = { cases, folder };
  trn_parallel_for (cases->len, 0, run_case, &all);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
  g_array_unref (cases);
}

static GArray *
cases_new (void)
{
  GArray *cases = g_array_new (FALSE, FALSE, sizeof (Case));
  g_array_set_clear_func (cases, case_clear);
  return cases;
}

static void
add_plans (GArray *cases, const BadPlan *plans, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      const BadPlan *bad = &plans[i];
      Case c = { .name = g_strdup (bad->name), .plan = bad_plan_text (bad) };
      /* A pointer may hold a character that is shown otherwise; those of names do not. */
      c.pointer = g_str_is_ascii (bad->pointer) ? bad->pointer : NULL;
      g_array_append_val (cases, c);
    }
}

static void
test_plans (void)
{
  GArray *cases = cases_new ();
  add_plans (cases, bad_plans, n_bad_plans);
  add_plans (cases, bad_gear, n_bad_gear);
  add_plans (cases, bad_loads, n_bad_loads);
  g_assert_cmpuint (cases->len, >=, 200);
  run_all (cases);
}

static void
add_mesh (GArray *cases, const char *mesh, const char *unit, const void *bytes, gsize length)
{
  Case c = { .name = g_strdup_printf ("%s %s", mesh, unit), .mesh = mesh };
  c.plan = g_strdup_printf (
      "{\"format\": \"trunnion-plan\", \"version\": 1, \"keep_clear\": 0.1, \"structures\": [\n"
      "{\"id\": \"post\", \"mesh\": {\"file\": \"%s\"%s}, \"at\": {\"position\": [0, 0, 0]}}],\n"
      "\"components\": [{\"id\": \"unit\", \"solid\": {\"kind\": \"box\", \"size\": [1, 1, 1]},\n"
      "\"mass\": 1000, \"at\": {\"position\": [9, 0, 0]}}], \"programme\": [{\"lift\": \"up\",\n"
      "\"component\": \"unit\", \"hook_point\": [0, 0, 2],\n"
      "\"moves\": [{\"do\": \"hoist\", \"by\": 1, \"seconds\": 9}]}]}\n",
      mesh, unit);
  c.bytes = g_byte_array_new ();
  g_byte_array_append (c.bytes, bytes, (guint)length);
  g_array_append_val (cases, c);
}

#define IN_METRES ", \"unit\": \"m\", \"up\": \"z\""

static void
test_meshes (void)
{
  GArray *cases = cases_new ();
  for (guint i = 0; i < n_bad_files; i++)
    add_mesh (cases, bad_files[i].name, IN_METRES, bad_files[i].text, strlen (bad_files[i].text));
  g_autoptr (GByteArray) stl = fixture_stl_box (trn_vec3_make (1900, 1, 1));
  g_autoptr (GByteArray) bin = fixture_gltf_box (trn_vec3_make (1, 1, 1));
  g_autofree char *text = fixture_gltf_text (NULL, "{\"mesh\":0}", "0", "");
  g_autofree char *required = fixture_gltf_text (
      NULL, "{\"mesh\":0}", "0", "\"extensionsRequired\":[\"KHR_mesh_quantization\"],");
  g_autofree char *outside = fixture_gltf_text ("../box.bin", "{\"mesh\":0}", "0", "");
  g_autofree char *missing = fixture_gltf_text ("none.bin", "{\"mesh\":0}", "0", "");
  g_autoptr (GByteArray) glb = fixture_glb (text, bin);
  g_autoptr (GByteArray) odd = fixture_glb (required, bin);
  /* Too far from its origin in metres; with an axis or a unit that nobody says; cut short. */
  add_mesh (cases, "long.stl", IN_METRES, stl->data, stl->len);
  add_mesh (cases, "no-unit.stl", ", \"up\": \"z\"", stl->data, stl->len);
  add_mesh (cases, "no-axis.stl", ", \"unit\": \"mm\"", stl->data, stl->len);
  add_mesh (cases, "cut.stl", IN_METRES, stl->data, stl->len - 30);
  add_mesh (cases, "cut.glb", IN_METRES, glb->data, glb->len - 30);
  add_mesh (cases, "quantized.glb", IN_METRES, odd->data, odd->len);
  add_mesh (cases, "outside.gltf", IN_METRES, outside, strlen (outside));
  add_mesh (cases, "missing.gltf", IN_METRES, missing, strlen (missing));
  g_assert_cmpuint (cases->len, >=, 25);
  run_all (cases);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_assert_nonnull (g_getenv ("TRUNNION_PROGRAM"));
  g_test_add_func ("/cli/bad-inputs/plans", test_plans);
  g_test_add_func ("/cli/bad-inputs/meshes", test_meshes);
  return g_test_run ();
}
