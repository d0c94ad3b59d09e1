#include "mesh-list.h"

#include <string.h>

gboolean
trn_mesh_file_is_read_alike (const TrnMeshFile *a, const TrnMeshFile *b)
{
  const gboolean same_parts
      = a->parts == NULL || b->parts == NULL
            ? a->parts == b->parts
            : g_strv_equal ((const char *const *)a->parts, (const char *const *)b->parts);
  return strcmp (a->path, b->path) == 0 && a->unit == b->unit && a->up == b->up && same_parts;
}

static void
mesh_free (gpointer data)
{
  TrnSceneMesh *mesh = data;
  g_array_unref (mesh->users);
  g_free (mesh);
}

static guint
hash_source (gconstpointer source)
{
  return g_str_hash (((const TrnMeshFile *)source)->path);
}

static gboolean
is_same_source (gconstpointer a, gconstpointer b)
{
  return trn_mesh_file_is_read_alike (a, b);
}

static void
add_user (GPtrArray *meshes, GHashTable *found, const TrnMeshFile *source, const TrnBodies *bodies,
          TrnSceneMeshUser user)
{
  if (source == NULL || source->path == NULL)
    return;
  TrnSceneMesh *mesh = g_hash_table_lookup (found, source);
  if (mesh == NULL)
    {
      mesh = g_new0 (TrnSceneMesh, 1);
      mesh->source = source;
      mesh->report = bodies->report;
      mesh->users = g_array_new (FALSE, FALSE, sizeof (TrnSceneMeshUser));
      g_ptr_array_add (meshes, mesh);
      g_hash_table_insert (found, (gpointer)source, mesh);
    }
  g_array_append_val (mesh->users, user);
}

GPtrArray *
trn_scene_meshes_list (const TrnScene *scene)
{
  const TrnPlan *plan = scene->programme->plan;
  GPtrArray *meshes = g_ptr_array_new_with_free_func (mesh_free);
  g_autoptr (GHashTable) found = g_hash_table_new (hash_source, is_same_source);
  for (guint i = 0; i < plan->n_structures; i++)
    {
      const TrnStructure *structure = &plan->structures[i];
      add_user (meshes, found, structure->shape.mesh, &scene->structures[i],
                (TrnSceneMeshUser){ structure->id, structure->name, structure->pointer });
    }
  for (guint i = 0; i < plan->n_components; i++)
    {
      const TrnComponent *component = &plan->components[i];
      add_user (meshes, found, component->shape.mesh, &scene->components[i],
                (TrnSceneMeshUser){ component->id, component->name, component->pointer });
    }
  return meshes;
}

gboolean
trn_scene_mesh_is_meant (const TrnSceneMesh *mesh, const TrnDiag *diag)
{
  for (guint i = 0; i < mesh->users->len && diag->pointer != NULL; i++)
    {
      const char *pointer = g_array_index (mesh->users, TrnSceneMeshUser, i).pointer;
      gsize length = strlen (pointer);
      if (strncmp (diag->pointer, pointer, length) == 0
          && strcmp (diag->pointer + length, "/mesh") == 0)
        return TRUE;
    }
  return FALSE;
}
