#include "wanted-parts.h"

#include <string.h>

#define MOST_NAMES_BYTES 400 /* of part names in one sentence */

/* The names of all parts, borrowed. Files may have a million of them, and plans may ask for as
 * many. */
static GHashTable *
names_new (const TrnMesh *mesh)
{
  GHashTable *names = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint32 i = 0; i < mesh->n_parts; i++)
    g_hash_table_add (names, mesh->parts[i].name);
  return names;
}

static GHashTable *
wanted_new (const char *const *parts)
{
  GHashTable *wanted = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint i = 0; parts[i] != NULL; i++)
    g_hash_table_add (wanted, (gpointer)parts[i]);
  return wanted;
}

/* The names of a file's parts, each once, as far as a sentence has room for them. */
static char *
list_names (const TrnMesh *mesh)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  GString *list = g_string_new (NULL);
  for (guint32 i = 0; i < mesh->n_parts; i++)
    {
      const char *name = mesh->parts[i].name;
      if (name[0] == '\0' || !g_hash_table_add (seen, (gpointer)name))
        continue;
      if (list->len > MOST_NAMES_BYTES)
        {
          g_string_append (list, ", …");
          break;
        }
      g_string_append_printf (list, "%s“%s”", list->len > 0 ? ", " : "", name);
    }
  return g_string_free (list, FALSE);
}

gboolean
trn_wanted_parts_check (const char *const *parts, const TrnMesh *mesh, const char *path,
                        TrnDiags *diags)
{
  gboolean all = TRUE;
  g_autoptr (GHashTable) there = names_new (mesh);
  g_autofree char *names = list_names (mesh);
  for (guint i = 0; parts != NULL && parts[i] != NULL; i++)
    {
      const char *part = parts[i];
      if (g_hash_table_contains (there, part))
        continue;
      const char *code = names[0] == '\0' ? "import/no-named-part" : "import/part-missing";
      TrnDiag *diag = trn_diags_add (diags, TRN_SEVERITY_ERROR, code, NULL);
      trn_diag_set_file (diag, path, 0);
      trn_diag_set_text (diag, "part", part);
      trn_diag_set_text (diag, "parts", names);
      all = FALSE;
    }
  return all;
}

TrnMesh *
trn_wanted_parts_take (const char *const *parts, TrnMesh *mesh)
{
  if (parts == NULL)
    return mesh;
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  g_autoptr (GHashTable) wanted = wanted_new (parts);
  g_autofree guint32 *new_of = g_new0 (guint32, (gsize)mesh->n_vertices + 1);
  for (guint32 p = 0; p < mesh->n_parts; p++)
    {
      const TrnMeshPart *part = &mesh->parts[p];
      if (!g_hash_table_contains (wanted, part->name))
        continue;
      trn_mesh_builder_part (builder, part->name);
      for (guint32 i = part->first; i < part->first + part->count; i++)
        {
          guint32 v[3];
          for (int k = 0; k < 3; k++)
            {
              const guint32 old = mesh->triangles[i].v[k];
              if (new_of[old] == 0)
                new_of[old] = trn_mesh_builder_vertex (builder, mesh->vertices[old]) + 1;
              v[k] = new_of[old] - 1;
            }
          trn_mesh_builder_triangle (builder, v[0], v[1], v[2]);
        }
    }
  trn_mesh_unref (mesh);
  return trn_mesh_builder_finish (builder);
}
