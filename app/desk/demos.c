/* demos.c: looked for beside the program first, so that a build finds those of its own source tree
 * and an installation finds its own wherever it was put; then where the system keeps data. */
#include "demos.h"

/* Folders upward from the program in which its data may be. */
#define MOST_STEPS_UP 5

static const char *const names[]
    = { "lock-gate", "pump-column", "column-tandem", "valve-assembly", NULL };

const char *const *
desk_demos_names (void)
{
  return names;
}

/* The plan in @folder; NULL where there is none. */
static GFile *
look_in (const char *folder, const char *name)
{
  g_autofree char *base_name = g_strconcat (name, ".trunnion", NULL);
  g_autofree char *path = g_build_filename (folder, name, base_name, NULL);
  return g_file_test (path, G_FILE_TEST_IS_REGULAR) ? g_file_new_for_path (path) : NULL;
}

static GFile *
look_beside_program (const char *name)
{
  static const char *const below[] = { "assets-demo", "share/trunnion/assets-demo" };
  g_autofree char *folder = g_file_read_link ("/proc/self/exe", NULL);
  for (guint i = 0; folder != NULL && i < MOST_STEPS_UP; i++)
    {
      char *up = g_path_get_dirname (folder);
      g_free (folder);
      folder = up;
      for (guint k = 0; k < G_N_ELEMENTS (below); k++)
        {
          g_autofree char *place = g_build_filename (folder, below[k], NULL);
          GFile *file = look_in (place, name);
          if (file != NULL)
            return file;
        }
    }
  return NULL;
}

GFile *
desk_demos_find (const char *name)
{
  if (!g_strv_contains (names, name))
    return NULL;
  const char *chosen = g_getenv ("TRUNNION_DEMO_FOLDER");
  if (chosen != NULL)
    return look_in (chosen, name);
  GFile *file = look_beside_program (name);
  const char *const *folders = g_get_system_data_dirs ();
  for (guint i = 0; file == NULL && folders[i] != NULL; i++)
    {
      g_autofree char *place = g_build_filename (folders[i], "trunnion", "assets-demo", NULL);
      file = look_in (place, name);
    }
  return file;
}
