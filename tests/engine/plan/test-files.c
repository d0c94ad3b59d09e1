/* Plans as files, and the mesh files that they name, in a folder made for each test. */
#include "plan.h"

#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

typedef struct
{
  char *folder; /* with a folder `site` in it, where the plan lies */
} Place;

static char *
path_of (const Place *place, const char *name)
{
  return g_build_filename (place->folder, name, NULL);
}

static void
put (const Place *place, const char *name, const char *text)
{
  g_autofree char *path = path_of (place, name);
  g_assert_true (g_file_set_contents (path, text, -1, NULL));
}

static void
put_link (const Place *place, const char *name, const char *target)
{
  g_autofree char *path = path_of (place, name);
  g_assert_cmpint (symlink (target, path), ==, 0);
}

static void
put_folder (const Place *place, const char *name)
{
  g_autofree char *path = path_of (place, name);
  g_assert_cmpint (g_mkdir (path, 0700), ==, 0);
}

static void
set_up (Place *place, gconstpointer data)
{
  place->folder = g_dir_make_tmp ("trunnion-XXXXXX", NULL);
  put_folder (place, "site");
  put_folder (place, "site/parts");
  put_folder (place, "site-two");
  put (place, "site/box.stl", "mesh");
  put (place, "site/parts/lid.stl", "mesh");
  put (place, "outside.stl", "mesh");
  put (place, "site-two/near.stl", "mesh");
  put_link (place, "site/good-link.stl", "parts/lid.stl");
  put_link (place, "site/bad-link.stl", "../outside.stl");
  put_link (place, "site/near-link.stl", "../site-two/near.stl");
  put_link (place, "site/bad-folder", "../site-two");
  put_link (place, "site/loop.stl", "loop.stl");
  put_link (place, "site/dangling.stl", "nowhere.stl");
  g_autofree char *pipe = path_of (place, "site/pipe.stl");
  g_assert_cmpint (mkfifo (pipe, 0600), ==, 0);
}

static void
remove_all (const char *path)
{
  GStatBuf status;
  if (g_lstat (path, &status) == 0 && S_ISDIR (status.st_mode))
    {
      g_autoptr (GDir) folder = g_dir_open (path, 0, NULL);
      for (const char *name; (name = g_dir_read_name (folder)) != NULL;)
        {
          g_autofree char *inner = g_build_filename (path, name, NULL);
          remove_all (inner);
        }
    }
  g_assert_cmpint (g_remove (path), ==, 0);
}

static void
tear_down (Place *place, gconstpointer data)
{
  remove_all (place->folder);
  g_free (place->folder);
}

static char *
plan_text (const char *mesh_file)
{
  return g_strdup_printf ("{\"format\": \"trunnion-plan\", \"version\": 1, \"structures\": [\n"
                          "{\"id\": \"a\", \"mesh\": {\"file\": \"%s\"}, \"at\": null}],\n"
                          "\"components\": [], \"programme\": []}",
                          mesh_file);
}

/* Reads a plan in site/ that names @mesh_file, and checks what is said of it: @code, or nothing
 * and a resolved path that ends in @resolved. */
static void
check_mesh (const Place *place, const char *mesh_file, gboolean outside_files, const char *code,
            const char *resolved)
{
  g_autofree char *text = plan_text (mesh_file);
  put (place, "site/plan.trunnion", text);
  g_autofree char *path = path_of (place, "site/plan.trunnion");
  const TrnPlanOptions options = { .outside_files = outside_files };
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) plan = trn_plan_read (path, &options, diags);
  const TrnDiag *diag = g_ptr_array_index (diags->items, 0);
  if (code == NULL)
    {
      g_assert_nonnull (plan);
      const char *real = plan->structures[0].shape.mesh->path;
      g_assert_true (g_path_is_absolute (real));
      g_assert_true (g_str_has_suffix (real, resolved));
      return;
    }
  g_assert_null (plan);
  g_assert_cmpuint (diags->items->len, ==, 1);
  g_assert_cmpstr (diag->code, ==, code);
  g_assert_cmpstr (diag->pointer, ==, "/structures/0/mesh/file");
  g_assert_cmpstr (diag->file, ==, path);
  g_assert_cmpuint (diag->line, ==, 2);
  /* To be looked at alone: a file that may not be read is no missing one. */
  const TrnPlanOptions look = { .outside_files = outside_files, .missing_files = TRUE };
  g_autoptr (TrnDiags) again = trn_diags_new ();
  g_autoptr (TrnPlan) shown = trn_plan_read (path, &look, again);
  const gboolean is_missing = g_str_equal (code, "plan/mesh-missing")
                              || g_str_equal (code, "plan/mesh-capitals")
                              || g_str_equal (code, "plan/mesh-unreadable");
  g_assert_true ((shown != NULL) == is_missing);
  g_assert_cmpuint (again->items->len, >=, 1);
  if (shown != NULL)
    g_assert_null (shown->structures[0].shape.mesh->path);
}

static void
test_inside (Place *place, gconstpointer data)
{
  check_mesh (place, "box.stl", FALSE, NULL, "/site/box.stl");
  check_mesh (place, "./parts//lid.stl", FALSE, NULL, "/site/parts/lid.stl");
  check_mesh (place, "parts/../box.stl", FALSE, NULL, "/site/box.stl");
  check_mesh (place, "good-link.stl", FALSE, NULL, "/site/parts/lid.stl");
}

/* Out by letters, by a link, by a link to a folder; also into a folder whose name begins like that
 * of the plan's. */
static void
test_outside (Place *place, gconstpointer data)
{
  g_autofree char *absolute = path_of (place, "outside.stl");
  g_autofree char *absolute_inside = path_of (place, "site/box.stl");
  check_mesh (place, "../outside.stl", FALSE, "plan/mesh-outside", NULL);
  check_mesh (place, "parts/../../site/box.stl", FALSE, "plan/mesh-outside", NULL);
  check_mesh (place, absolute, FALSE, "plan/mesh-absolute", NULL);
  check_mesh (place, absolute_inside, FALSE, "plan/mesh-absolute", NULL);
  check_mesh (place, "bad-link.stl", FALSE, "plan/mesh-outside", NULL);
  check_mesh (place, "near-link.stl", FALSE, "plan/mesh-outside", NULL);
  check_mesh (place, "bad-folder/near.stl", FALSE, "plan/mesh-outside", NULL);
}

static void
test_outside_allowed (Place *place, gconstpointer data)
{
  g_autofree char *absolute = path_of (place, "outside.stl");
  check_mesh (place, "../outside.stl", TRUE, NULL, "/outside.stl");
  check_mesh (place, absolute, TRUE, NULL, "/outside.stl");
  check_mesh (place, "bad-link.stl", TRUE, NULL, "/outside.stl");
  check_mesh (place, "bad-folder/near.stl", TRUE, NULL, "/site-two/near.stl");
  check_mesh (place, "../none.stl", TRUE, "plan/mesh-missing", NULL);
  /* Nothing is told of what lies outside the folder of the plan. */
  check_mesh (place, "../Outside.stl", TRUE, "plan/mesh-missing", NULL);
}

/* Nothing there, or a name that differs in capitals alone, or no regular file. A link to itself
 * cannot be followed by anybody, root included. */
static void
test_unusable (Place *place, gconstpointer data)
{
  check_mesh (place, "none.stl", FALSE, "plan/mesh-missing", NULL);
  check_mesh (place, "none/box.stl", FALSE, "plan/mesh-missing", NULL);
  check_mesh (place, "box.stl/box.stl", FALSE, "plan/mesh-missing", NULL);
  check_mesh (place, "dangling.stl", FALSE, "plan/mesh-missing", NULL);
  check_mesh (place, "Box.STL", FALSE, "plan/mesh-capitals", NULL);
  check_mesh (place, "parts/Lid.stl", FALSE, "plan/mesh-capitals", NULL);
  check_mesh (place, "Parts/lid.stl", FALSE, "plan/mesh-missing", NULL);
  check_mesh (place, "loop.stl", FALSE, "plan/mesh-unreadable", NULL);
  check_mesh (place, "parts", FALSE, "plan/mesh-not-file", NULL);
  check_mesh (place, "pipe.stl", FALSE, "plan/mesh-not-file", NULL);
  check_mesh (place, ".", FALSE, "plan/mesh-not-file", NULL);
}

/* A plan named without a folder lies in the present one. */
static void
test_present_folder (Place *place, gconstpointer data)
{
  g_autofree char *before = g_get_current_dir ();
  g_autofree char *site = path_of (place, "site");
  g_autofree char *text = plan_text ("box.stl");
  put (place, "site/plan.trunnion", text);
  g_assert_cmpint (g_chdir (site), ==, 0);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) plan = trn_plan_read ("plan.trunnion", NULL, diags);
  g_assert_cmpint (g_chdir (before), ==, 0);
  g_assert_nonnull (plan);
  g_assert_cmpstr (plan->file, ==, "plan.trunnion");
}

static void
assert_unread (const char *path, const char *code)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_assert_null (trn_plan_read (path, NULL, diags));
  g_assert_cmpuint (diags->items->len, ==, 1);
  const TrnDiag *diag = g_ptr_array_index (diags->items, 0);
  g_assert_cmpstr (diag->code, ==, code);
  g_assert_cmpstr (diag->file, ==, path);
}

/* No file, a folder, an empty file, and what is no file: one without an end, and a pipe that nobody
 * writes into, for which nothing is waited. */
static void
test_unread (Place *place, gconstpointer data)
{
  g_autofree char *none = path_of (place, "site/none.trunnion");
  g_autofree char *folder = path_of (place, "site");
  g_autofree char *empty = path_of (place, "site/empty.trunnion");
  put (place, "site/empty.trunnion", "");
  assert_unread (none, "plan/cannot-read");
  assert_unread (folder, "plan/no-file");
  assert_unread (empty, "plan/json-empty");
  g_autofree char *pipe = path_of (place, "site/pipe.trunnion");
  g_assert_cmpint (mkfifo (pipe, 0600), ==, 0);
  assert_unread (pipe, "plan/no-file");
  assert_unread ("/dev/zero", "plan/no-file");
}

/* What is written is read back the same; where nothing can be written, nothing is. */
static void
test_write (Place *place, gconstpointer data)
{
  g_autofree char *text = plan_text ("box.stl");
  g_autofree char *site = path_of (place, "site");
  g_autofree char *path = path_of (place, "site/new.trunnion");
  g_autofree char *nowhere = path_of (place, "none/new.trunnion");
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) plan = trn_plan_parse (text, strlen (text), NULL, site, NULL, diags);
  g_assert_nonnull (plan);
  g_assert_true (trn_plan_write (plan, path, diags));
  g_autoptr (TrnPlan) back = trn_plan_read (path, NULL, diags);
  g_assert_nonnull (back);
  g_autofree char *written = trn_plan_to_text (plan, NULL);
  g_autofree char *read = trn_plan_to_text (back, NULL);
  g_assert_cmpstr (read, ==, written);
  g_assert_false (trn_diags_have_errors (diags));
  g_assert_false (trn_plan_write (plan, nowhere, diags));
  g_assert_true (trn_diags_have_errors (diags));
}

/* What a plan is read from: itself and the mesh files of structures and components, by whatever
 * name they are reached. Nothing may be written over those; over anything else it may. */
static void
test_reads (Place *place, gconstpointer data)
{
  static const struct
  {
    const char *name;
    gboolean reads;
  } names[] = { { "site/plan.trunnion", TRUE }, { "site/parts/../plan.trunnion", TRUE },
                { "site/plan-link", TRUE },     { "site/box.stl", TRUE },
                { "site/parts/lid.stl", TRUE }, { "site/good-link.stl", TRUE },
                { "site/new.json", FALSE },     { "site/parts/box.stl", FALSE },
                { "outside.stl", FALSE } };
  put (place, "site/plan.trunnion",
       "{\"format\": \"trunnion-plan\", \"version\": 1, \"structures\": [\n"
       "{\"id\": \"post\", \"solid\": {\"kind\": \"box\", \"size\": [1, 1, 1]}, \"at\": null},\n"
       "{\"id\": \"a\", \"mesh\": {\"file\": \"box.stl\"}, \"at\": null}],\n"
       "\"components\": [{\"id\": \"b\", \"mesh\": {\"file\": \"parts/lid.stl\"}, \"at\": null}],\n"
       "\"programme\": []}");
  put_link (place, "site/plan-link", "plan.trunnion");
  g_autofree char *path = path_of (place, "site/plan.trunnion");
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) plan = trn_plan_read (path, NULL, diags);
  g_assert_nonnull (plan);
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *name = path_of (place, names[i].name);
      g_test_message ("%s", names[i].name);
      g_assert_cmpint (trn_plan_reads (plan, name), ==, names[i].reads);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add (name, Place, NULL, set_up, function, tear_down)
  ADD ("/plan/files/inside", test_inside);
  ADD ("/plan/files/outside", test_outside);
  ADD ("/plan/files/outside-allowed", test_outside_allowed);
  ADD ("/plan/files/unusable", test_unusable);
  ADD ("/plan/files/present-folder", test_present_folder);
  ADD ("/plan/files/unread", test_unread);
  ADD ("/plan/files/write", test_write);
  ADD ("/plan/files/reads", test_reads);
  return g_test_run ();
}
