/* The mesh file of a structure or component: whether it is there and lies where it may. It is not
 * opened here: a mesh file is hostile until the import helper has read it.
 *
 * A name is judged twice: by its letters, so that a plan says the same on every machine, and by
 * the real path of what it names, so that no link leads out of the plan's folder. */
#include "plan-read.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

void
trn_mesh_file_free (TrnMeshFile *mesh)
{
  if (mesh == NULL)
    return;
  g_free (mesh->file);
  g_free (mesh->path);
  g_strfreev (mesh->parts);
  g_free (mesh);
}

/* Whether the parts of @file, taken in order, ever lead above where they began. */
static gboolean
leads_out (const char *file)
{
  g_auto (GStrv) parts = g_strsplit (file, "/", -1);
  int depth = 0;
  for (guint i = 0; parts[i] != NULL; i++)
    {
      if (g_str_equal (parts[i], ".."))
        depth--;
      else if (parts[i][0] != '\0' && !g_str_equal (parts[i], "."))
        depth++;
      if (depth < 0)
        return TRUE;
    }
  return FALSE;
}

/* The code of what is wrong with the letters of a name; NULL where nothing is. */
static const char *
judge_name (const char *file, gboolean outside_files)
{
  if (file[0] == '\0')
    return "plan/mesh-no-name";
  if (strchr (file, '\\') != NULL)
    return "plan/mesh-backslash";
  if (outside_files)
    return NULL;
  if (g_path_is_absolute (file) || (g_ascii_isalpha (file[0]) && file[1] == ':'))
    return "plan/mesh-absolute";
  return leads_out (file) ? "plan/mesh-outside" : NULL;
}

static gboolean
lies_in (const char *path, const char *folder)
{
  const gsize length = strlen (folder);
  if (g_str_equal (folder, "/"))
    return TRUE;
  return strncmp (path, folder, length) == 0 && (path[length] == '/' || path[length] == '\0');
}

/* The real path of @path, or NULL with the reason in @error. */
static char *
real_path (const char *path, int *error)
{
  char *real = realpath (path, NULL);
  *error = real != NULL ? 0 : errno;
  char *copy = g_strdup (real);
  free (real);
  return copy;
}

/* A file beside where @joined would be, in @folder or below, whose name differs from it in capitals
 * alone, as where the plan comes from a system to which they are the same; NULL: none. */
static char *
same_but_capitals (const char *joined, const char *folder)
{
  int error;
  g_autofree char *place = g_path_get_dirname (joined), *name = g_path_get_basename (joined);
  g_autofree char *real = real_path (place, &error), *wanted = g_utf8_casefold (name, -1);
  g_autoptr (GDir) entries
      = real != NULL && lies_in (real, folder) ? g_dir_open (real, 0, NULL) : NULL;
  const char *entry;
  while (entries != NULL && (entry = g_dir_read_name (entries)) != NULL)
    {
      if (!g_utf8_validate (entry, -1, NULL) || strcmp (entry, name) == 0)
        continue;
      g_autofree char *folded = g_utf8_casefold (entry, -1);
      if (strcmp (folded, wanted) == 0)
        return g_strdup (entry);
    }
  return NULL;
}

static void
say_missing (TrnReader *reader, const TrnValue *value, const char *file, const char *joined,
             const char *folder)
{
  g_autofree char *other = folder != NULL ? same_but_capitals (joined, folder) : NULL;
  if (other == NULL)
    trn_read_fault_text (reader, value, "plan/mesh-missing", "file", file);
  else
    trn_diag_set_text (trn_read_fault_text (reader, value, "plan/mesh-capitals", "file", file),
                       "found", other);
}

/* The real path of @file; NULL with a fault where it may not be read. */
static char *
resolve (TrnReader *reader, const TrnValue *value, const char *file, gboolean *is_missing)
{
  int error, folder_error;
  g_autofree char *joined
      = g_path_is_absolute (file) ? g_strdup (file) : g_build_filename (reader->folder, file, NULL);
  g_autofree char *path = real_path (joined, &error);
  g_autofree char *folder = real_path (reader->folder, &folder_error);
  struct stat status;
  if (path != NULL && stat (path, &status) != 0)
    error = errno;
  *is_missing = error != 0 || folder_error != 0;
  reader->n_missing += *is_missing;
  if (error == ENOENT || error == ENOTDIR || folder_error != 0)
    say_missing (reader, value, file, joined, folder);
  else if (error != 0)
    trn_diag_set_text (trn_read_fault_text (reader, value, "plan/mesh-unreadable", "file", file),
                       "reason", g_strerror (error));
  else if (!reader->outside_files && !lies_in (path, folder))
    trn_read_fault_text (reader, value, "plan/mesh-outside", "file", file);
  else if (!S_ISREG (status.st_mode))
    trn_read_fault_text (reader, value, "plan/mesh-not-file", "file", file);
  else
    return g_steal_pointer (&path);
  return NULL;
}

/* The names under "parts": at least one, each once; NULL where left out or faulty. */
static char **
read_parts (TrnReader *reader, const TrnValue *value)
{
  TrnValue list = trn_value_member (value, "parts");
  const guint n = trn_read_parts (reader, &list, 1);
  g_autoptr (GPtrArray) parts = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint i = 0; i < n; i++)
    {
      TrnValue element = trn_value_element (&list, i);
      const char *part = trn_value_is_text (&element) ? json_node_get_string (element.node) : NULL;
      if (part == NULL)
        trn_read_fault (reader, &element, "plan/not-text");
      else if (part[0] == '\0')
        trn_read_fault (reader, &element, "plan/mesh-part-empty");
      else if (!g_hash_table_add (seen, (gpointer)part))
        trn_read_fault_text (reader, &element, "plan/mesh-part-twice", "part", part);
      else
        g_ptr_array_add (parts, g_strdup (part));
    }
  if (parts->len == 0)
    return NULL;
  g_ptr_array_add (parts, NULL);
  return (char **)g_ptr_array_free (g_steal_pointer (&parts), FALSE);
}

TrnMeshFile *
trn_read_mesh_file (TrnReader *reader, const TrnValue *value)
{
  static const char *const keys[] = { "file", "unit", "up", "parts", NULL };
  static const char *const units[] = { "m", "mm", "cm", "ft", "in", NULL };
  static const char *const ups[] = { "z", "y", NULL };
  if (!trn_read_object (reader, value, keys))
    return NULL;
  TrnMeshFile *mesh = g_new0 (TrnMeshFile, 1);
  const int unit = trn_read_word (reader, value, "unit", TRN_OPTIONAL, units);
  const int up = trn_read_word (reader, value, "up", TRN_OPTIONAL, ups);
  mesh->unit = (TrnLengthUnit)(unit + 1); /* −1 is undeclared, the first of both */
  mesh->up = (TrnUpAxis)(up + 1);
  mesh->parts = read_parts (reader, value);
  mesh->file = trn_read_text (reader, value, "file", TRN_REQUIRED);
  if (mesh->file == NULL)
    return mesh;
  TrnValue file = trn_value_member (value, "file");
  const char *code = judge_name (mesh->file, reader->outside_files);
  if (code != NULL)
    trn_read_fault_text (reader, &file, code, "file", mesh->file);
  else if (reader->folder != NULL)
    mesh->path = resolve (reader, &file, mesh->file, &mesh->is_missing);
  return mesh;
}
