/* program.h: the program in TRUNNION_PROGRAM, run in a folder of the test's own. */
#pragma once

#include <gio/gio.h>
#include <string.h>

#include "test-folder.h"

static inline guint
test_folder_count (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;
  while (g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

/* Replaces @out and @err; returns the exit status, −1 where a signal ended it. The arguments in
 * @line are split at spaces; the variable @name of the environment, where it is not NULL, is set to
 * @value. */
static inline int
test_program_run (const char *folder, const char *line, const char *name, const char *value,
                  GBytes **out, char **err)
{
  g_autofree char *all = g_strdup_printf ("%s %s", g_getenv ("TRUNNION_PROGRAM"), line);
  g_auto (GStrv) argv = g_strsplit (g_strchomp (all), " ", -1);
  g_autoptr (GSubprocessLauncher) launcher
      = g_subprocess_launcher_new (G_SUBPROCESS_FLAGS_STDOUT_PIPE | G_SUBPROCESS_FLAGS_STDERR_PIPE);
  g_subprocess_launcher_set_cwd (launcher, folder);
  if (name != NULL)
    g_subprocess_launcher_setenv (launcher, name, value, TRUE);
  g_autoptr (GError) error = NULL;
  g_autoptr (GSubprocess) process
      = g_subprocess_launcher_spawnv (launcher, (const char *const *)argv, &error);
  g_assert_no_error (error);
  g_autoptr (GBytes) bytes = NULL;
  g_clear_pointer (out, g_bytes_unref);
  g_clear_pointer (err, g_free);
  g_assert_true (g_subprocess_communicate (process, NULL, NULL, out, &bytes, &error));
  gsize length = g_bytes_get_size (bytes);
  *err = g_strndup (length > 0 ? g_bytes_get_data (bytes, NULL) : "", length);
  int status = g_subprocess_get_if_exited (process) ? g_subprocess_get_exit_status (process) : -1;
  g_test_message ("%s: %d %s", line, status, *err);
  return status;
}
