/* test-folder.h: a folder of the test's own, removed at the end with the files in it. */
#pragma once

#include <glib/gstdio.h>

static inline char *
test_folder_new (void)
{
  g_autoptr (GError) error = NULL;
  char *folder = g_dir_make_tmp ("trunnion-test-XXXXXX", &error);
  g_assert_no_error (error);
  return folder;
}

static inline void
test_folder_free (char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_remove (path);
    }
  g_rmdir (folder);
  g_free (folder);
}
