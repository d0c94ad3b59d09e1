/* A file is written whole or not at all. */
#include "write-file.h"

#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

/* A fresh folder, and its removal with all files in it. */
static char *
folder_new (void)
{
  g_autoptr (GError) error = NULL;
  char *folder = g_dir_make_tmp ("write-file-XXXXXX", &error);
  g_assert_no_error (error);
  return folder;
}

static guint
count_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_assert_nonnull (dir);
  guint n = 0;
  while (g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

static void
folder_remove (char *folder, const char *file)
{
  g_unlink (file);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
  g_free (folder);
}

static void
assert_content (const char *path, const void *bytes, gsize length)
{
  g_autofree char *read = NULL;
  gsize n = 0;
  g_assert_true (g_file_get_contents (path, &read, &n, NULL));
  g_assert_cmpmem (read, n, bytes, length);
}

/* A new file, one that is replaced by a shorter one, bytes that are 0, and nothing at all. */
static void
test_written (void)
{
  char *folder = folder_new ();
  g_autofree char *path = g_build_filename (folder, "plan äöü.trunnion", NULL);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_assert_true (trn_write_file (path, "a long first text", 17, diags));
  assert_content (path, "a long first text", 17);
  g_assert_true (trn_write_file (path, "a\0b", 3, diags));
  assert_content (path, "a\0b", 3);
  g_assert_true (trn_write_file (path, "", 0, diags));
  assert_content (path, "", 0);
  g_assert_cmpuint (diags->items->len, ==, 0);
  g_assert_cmpuint (count_files (folder), ==, 1);
  folder_remove (folder, path);
}

static void
assert_refused (const char *path, const TrnDiags *diags)
{
  g_assert_cmpuint (diags->items->len, ==, 1);
  const TrnDiag *diag = g_ptr_array_index (diags->items, 0);
  g_assert_cmpint (diag->severity, ==, TRN_SEVERITY_ERROR);
  g_assert_cmpstr (diag->code, ==, "base/cannot-write");
  g_assert_cmpstr (diag->file, ==, path);
  g_assert_cmpstr (trn_diag_get (diag, "file")->text, ==, path);
  g_assert_cmpuint (strlen (trn_diag_get (diag, "reason")->text), >, 0);
}

/* In a folder that may only be read, the old file stays as it was and nothing is left beside it.
 * The superuser may write everywhere, so that as such the write succeeds; either way the file is
 * whole.
 */
static void
test_read_only_folder (void)
{
  char *folder = folder_new ();
  g_autofree char *path = g_build_filename (folder, "plan.trunnion", NULL);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_assert_true (trn_write_file (path, "old", 3, diags));
  g_assert_cmpint (g_chmod (folder, 0500), ==, 0);
  gboolean allowed = g_access (folder, W_OK) == 0;
  g_assert_cmpint (trn_write_file (path, "new text", 8, diags), ==, allowed);
  assert_content (path, allowed ? "new text" : "old", allowed ? 8 : 3);
  g_assert_cmpuint (count_files (folder), ==, 1);
  if (!allowed)
    assert_refused (path, diags);
  g_assert_cmpint (g_chmod (folder, 0700), ==, 0);
  folder_remove (folder, path);
}

/* A folder that does not exist, and a path that is a folder: also for the superuser. What is in the
 * folder stays, and the temporary file goes. */
static void
test_impossible (void)
{
  char *folder = folder_new ();
  g_autofree char *nowhere = g_build_filename (folder, "nowhere", "plan.trunnion", NULL);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_assert_false (trn_write_file (nowhere, "text", 4, diags));
  assert_refused (nowhere, diags);

  g_autofree char *inner = g_build_filename (folder, "inner", NULL);
  g_autofree char *kept = g_build_filename (inner, "kept", NULL);
  g_autoptr (TrnDiags) others = trn_diags_new ();
  g_assert_cmpint (g_mkdir (inner, 0700), ==, 0);
  g_assert_true (trn_write_file (kept, "old", 3, others));
  g_assert_false (trn_write_file (inner, "text", 4, others));
  assert_refused (inner, others);
  assert_content (kept, "old", 3);
  g_assert_cmpuint (count_files (folder), ==, 1);
  g_unlink (kept);
  g_assert_cmpint (g_rmdir (inner), ==, 0);
  folder_remove (folder, nowhere);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/base/write-file/written", test_written);
  g_test_add_func ("/base/write-file/read-only-folder", test_read_only_folder);
  g_test_add_func ("/base/write-file/impossible", test_impossible);
  return g_test_run ();
}
