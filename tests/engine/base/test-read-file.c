/* A file that anybody may have written is read whole, or not at all. */
#include "read-file.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

typedef struct
{
  char *folder, *path;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data)
{
  fixture->folder = g_dir_make_tmp ("read-file-XXXXXX", NULL);
  g_assert_nonnull (fixture->folder);
  fixture->path = g_build_filename (fixture->folder, "file", NULL);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  g_unlink (fixture->path);
  g_assert_cmpint (g_rmdir (fixture->folder), ==, 0);
  g_free (fixture->folder);
  g_free (fixture->path);
}

static void
assert_refused (const char *path, gsize most, int reason)
{
  gsize length;
  errno = 0;
  g_assert_null (trn_read_file (path, most, &length));
  g_assert_cmpint (errno, ==, reason);
}

/* Up to the limit and not a byte more; zeros and nothing at all are read as well. */
static void
test_length (Fixture *fixture, gconstpointer data)
{
  static const struct
  {
    const char *bytes;
    gsize length;
  } texts[] = { { "a text", 6 }, { "a\0b", 3 }, { "", 0 } };
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      const gsize n = texts[i].length;
      g_assert_true (g_file_set_contents (fixture->path, texts[i].bytes, (gssize)n, NULL));
      for (gsize most = n; most <= n + 1; most++)
        {
          gsize length = 99;
          g_autofree char *read = trn_read_file (fixture->path, most, &length);
          g_assert_nonnull (read);
          g_assert_cmpmem (read, length, texts[i].bytes, n);
          g_assert_true (read[length] == '\0');
        }
      if (n > 0)
        assert_refused (fixture->path, n - 1, EFBIG);
    }
}

/* What is not there, a folder, a pipe that nobody writes into and a device without an end. */
static void
test_no_file (Fixture *fixture, gconstpointer data)
{
  assert_refused (fixture->path, 9, ENOENT);
  assert_refused (fixture->folder, 9, ENODEV);
  assert_refused ("/dev/zero", 9, ENODEV);
  g_assert_cmpint (mkfifo (fixture->path, 0600), ==, 0);
  assert_refused (fixture->path, 9, ENODEV);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(path, func) g_test_add (path, Fixture, NULL, set_up, func, tear_down)
  ADD ("/base/read-file/length", test_length);
  ADD ("/base/read-file/no-file", test_no_file);
  return g_test_run ();
}
