/* Hands a fuzz target every file of its corpus, and parts of each: cut short, and with a bit
 * flipped. The corpus is one archive, unpacked to a folder of its own for the run. */
#include <glib.h>
#include <glib/gstdio.h>

#include "fuzz.h"

#define CUTS 4

static char *corpus;

static char *
unpack (void)
{
  char *folder = g_dir_make_tmp ("trunnion-corpus-XXXXXX", NULL);
  g_assert_nonnull (folder);
  const char *argv[] = { "tar", "-xf", corpus, "-C", folder, NULL };
  int status = -1;
  g_autoptr (GError) error = NULL;
  g_spawn_sync (NULL, (char **)argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, NULL, &status,
                &error);
  g_assert_no_error (error);
  g_assert_cmpint (status, ==, 0);
  return folder;
}

/* A copy of just this length, so that a step beyond it is found. */
static void
hand (const char *bytes, gsize length)
{
  g_autofree uint8_t *copy = g_memdup2 (bytes, length);
  g_assert_cmpint (LLVMFuzzerTestOneInput (copy, length), ==, 0);
}

static void
replay_file (const char *path)
{
  g_autofree char *bytes = NULL;
  gsize length;
  g_autoptr (GError) error = NULL;
  g_file_get_contents (path, &bytes, &length, &error);
  g_assert_no_error (error);
  hand (bytes, length);
  for (int i = 0; i < CUTS && length > 0; i++)
    hand (bytes, (gsize)g_test_rand_int_range (0, (gint32)length));
  for (int i = 0; i < CUTS && length > 0; i++)
    {
      const gsize at = (gsize)g_test_rand_int_range (0, (gint32)length);
      const char kept = bytes[at];
      bytes[at] = (char)(bytes[at] ^ (1 << g_test_rand_int_range (0, 8)));
      hand (bytes, length);
      bytes[at] = kept;
    }
}

static void
test_corpus (void)
{
  g_autofree char *folder = unpack ();
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_assert_nonnull (dir);
  guint n = 0;
  for (const char *name = g_dir_read_name (dir); name != NULL; name = g_dir_read_name (dir), n++)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      replay_file (path);
      g_assert_cmpint (g_unlink (path), ==, 0);
    }
  g_assert_cmpint (g_rmdir (folder), ==, 0);
  g_test_message ("%u files", n);
  g_assert_cmpuint (n, >, 20);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_assert_cmpint (argc, ==, 2);
  corpus = argv[1];
  g_test_add_func ("/fuzz/corpus", test_corpus);
  return g_test_run ();
}
