/* Where the helper is looked for: where TRUNNION_IMPORT_HELPER says and nowhere else, beside the
 * program, in a build beside engine/import, and in libexec beside bin, as it is installed.
 *
 * The program is this test, copied into a folder that looks like one of those, where it prints what
 * it finds. */
#include "helper-process.h"

#include <glib/gstdio.h>
#include <stdio.h>
#include <string.h>

#define FIND "--find"

static char *
make_file (const char *folder, const char *name, const char *bytes, gssize length, int mode)
{
  char *path = g_build_filename (folder, name, NULL);
  g_autofree char *parent = g_path_get_dirname (path);
  g_assert_cmpint (g_mkdir_with_parents (parent, 0700), ==, 0);
  g_assert_true (g_file_set_contents (path, bytes, length, NULL));
  g_assert_cmpint (g_chmod (path, mode), ==, 0);
  return path;
}

static void
remove_all (const char *path)
{
  if (g_file_test (path, G_FILE_TEST_IS_DIR))
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

/* What the copy at @program prints with the variable set to @named; NULL: not set. */
static char *
found_by (const char *program, const char *named)
{
  char *argv[] = { (char *)program, (char *)FIND, NULL };
  g_auto (GStrv) environment = g_environ_unsetenv (g_get_environ (), "TRUNNION_IMPORT_HELPER");
  if (named != NULL)
    environment = g_environ_setenv (environment, "TRUNNION_IMPORT_HELPER", named, TRUE);
  char *out = NULL;
  int status = -1;
  g_autoptr (GError) error = NULL;
  g_spawn_sync (NULL, argv, environment, G_SPAWN_DEFAULT, NULL, NULL, &out, NULL, &status, &error);
  g_assert_no_error (error);
  g_assert_cmpint (status, ==, 0);
  return g_strchomp (out);
}

/* The same file, however it is written. */
static void
assert_same (const char *found, const char *path)
{
  GStatBuf one, other;
  g_test_message ("%s", found);
  g_assert_cmpint (g_stat (path, &other), ==, 0);
  g_assert_cmpint (g_stat (found, &one), ==, 0);
  g_assert_true (one.st_ino == other.st_ino && one.st_dev == other.st_dev);
}

static void
test_places (void)
{
  static const struct
  {
    const char *program, *helper;
  } places[] = { { "bin/program", "bin/trunnion-import" },
                 { "build/app/cli/program", "build/engine/import/trunnion-import" },
                 { "bin/program", "libexec/trunnion/trunnion-import" } };
  g_autofree char *self = NULL;
  gsize length;
  g_assert_true (g_file_get_contents ("/proc/self/exe", &self, &length, NULL));
  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    {
      g_autofree char *folder = g_dir_make_tmp ("trunnion-XXXXXX", NULL);
      g_autofree char *program = make_file (folder, places[i].program, self, (gssize)length, 0700);
      g_autofree char *helper = make_file (folder, places[i].helper, "#!/bin/true", -1, 0700);
      g_autofree char *found = found_by (program, NULL);
      assert_same (found, helper);
      g_autofree char *empty = found_by (program, "");
      assert_same (empty, helper);
      /* What cannot be run is passed over. */
      g_assert_cmpint (g_chmod (helper, 0600), ==, 0);
      g_autofree char *other = found_by (program, NULL);
      g_assert_false (g_str_has_prefix (other, folder));
      remove_all (folder);
    }
}

/* What is named is taken, or nothing: never another in its place. */
static void
test_named (void)
{
  g_autofree char *self = NULL;
  gsize length;
  g_assert_true (g_file_get_contents ("/proc/self/exe", &self, &length, NULL));
  g_autofree char *folder = g_dir_make_tmp ("trunnion-XXXXXX", NULL);
  g_autofree char *program = make_file (folder, "bin/program", self, (gssize)length, 0700);
  g_free (make_file (folder, "bin/trunnion-import", "#!/bin/true", -1, 0700));
  g_autofree char *named = make_file (folder, "own", "#!/bin/true", -1, 0700);
  g_autofree char *found = found_by (program, named);
  assert_same (found, named);
  g_assert_cmpint (g_chmod (named, 0600), ==, 0);
  g_autofree char *none = found_by (program, named);
  g_assert_cmpstr (none, ==, "nothing");
  remove_all (folder);
}

int
main (int argc, char **argv)
{
  if (argc == 2 && strcmp (argv[1], FIND) == 0)
    {
      g_autofree char *path = trn_helper_path_dup ();
      puts (path != NULL ? path : "nothing");
      return 0;
    }
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/import/helper-path/places", test_places);
  g_test_add_func ("/import/helper-path/named", test_named);
  return g_test_run ();
}
