#include "objects.h"

#include <string.h>

#define MAX_DEPTH 64
#define MAX_SHOWN 1000000

typedef struct
{
  const TrnObjects *objects;
  TrnBuild *build;
  TrnAnswer *answer;
  guint shown;
} Show;

static void
object_free (gpointer data)
{
  TrnObject *object = data;
  for (guint i = 0; i < object->placings->len; i++)
    g_free (g_array_index (object->placings, TrnPlacing, i).id);
  g_array_unref (object->points);
  g_array_unref (object->triangles);
  g_array_unref (object->placings);
  g_free (object->id);
  g_free (object->name);
  g_free (object);
}

void
trn_objects_init (TrnObjects *objects)
{
  objects->all = g_ptr_array_new_with_free_func (object_free);
  objects->by_id = g_hash_table_new (g_str_hash, g_str_equal);
}

void
trn_objects_clear (TrnObjects *objects)
{
  g_hash_table_unref (objects->by_id);
  g_ptr_array_unref (objects->all);
}

TrnObject *
trn_objects_add (TrnObjects *objects, char *id)
{
  if (g_hash_table_contains (objects->by_id, id))
    {
      g_free (id);
      return NULL;
    }
  TrnObject *object = g_new0 (TrnObject, 1);
  object->id = id;
  object->points = g_array_new (FALSE, FALSE, 3 * sizeof (double));
  object->triangles = g_array_new (FALSE, FALSE, 3 * sizeof (guint32));
  object->placings = g_array_new (FALSE, FALSE, sizeof (TrnPlacing));
  g_ptr_array_add (objects->all, object);
  g_hash_table_insert (objects->by_id, object->id, object);
  return object;
}

void
trn_object_place (TrnObject *object, char *id, const TrnAffine *map)
{
  TrnPlacing placing = { id, *map };
  g_array_append_val (object->placings, placing);
}

void
trn_object_start_mesh (TrnObject *object, TrnAnswer *answer)
{
  if (object->has_mesh && !trn_answer_has_error (answer))
    trn_answer_note (answer, TRN_NOTE_UNSUPPORTED, 0, 0, "an object with several meshes");
  object->has_mesh = TRUE;
}

guint
trn_objects_count_hidden (const TrnObjects *objects)
{
  guint hidden = 0;
  for (guint i = 0; i < objects->all->len; i++)
    {
      const TrnObject *object = g_ptr_array_index (objects->all, i);
      hidden += !object->is_shown && object->triangles->len > 0;
    }
  return hidden;
}

gboolean
trn_objects_link (TrnObjects *objects, TrnAnswer *answer)
{
  for (guint i = 0; i < objects->all->len; i++)
    {
      const TrnObject *object = g_ptr_array_index (objects->all, i);
      for (guint k = 0; k < object->placings->len; k++)
        {
          const char *id = g_array_index (object->placings, TrnPlacing, k).id;
          TrnObject *placed = g_hash_table_lookup (objects->by_id, id);
          if (placed == NULL)
            {
              trn_answer_note (answer, TRN_NOTE_REFERENCE_MISSING, 0, 0, id);
              return FALSE;
            }
          placed->is_placed = TRUE;
        }
    }
  return TRUE;
}

/* FALSE after an error. */
static gboolean
show_mesh (Show *show, const TrnObject *object, const TrnAffine *map)
{
  guint32 n = object->points->len;
  g_autofree double (*points)[3] = g_try_malloc_n ((gsize)n + 1, sizeof *points);
  g_autofree guint32 *index_of = g_try_new0 (guint32, (gsize)n + 1);
  if (points == NULL || index_of == NULL)
    {
      trn_answer_note (show->answer, TRN_NOTE_MEMORY, 0, 0, NULL);
      return FALSE;
    }
  const double (*from)[3] = (const double (*)[3]) (void *)object->points->data;
  for (guint32 i = 0; i < n; i++)
    trn_affine_apply (map, from[i], points[i]);
  gboolean turned = trn_affine_determinant (map) < 0;
  const char *name = object->name != NULL ? object->name : object->id;
  guint part = trn_build_part_get (show->build, name);
  TrnBuildPoints set = { (const double (*)[3])points, n, index_of };
  const guint32 (*triangles)[3] = (const guint32 (*)[3]) (void *)object->triangles->data;
  for (guint t = 0; t < object->triangles->len; t++)
    if (!trn_build_face (show->build, part, &set, triangles[t], 3, turned))
      return FALSE;
  if (object->triangles->len == 0)
    trn_build_drop (show->build, n, 0);
  return TRUE;
}

static gboolean
show_object (Show *show, TrnObject *object, const TrnAffine *map, guint depth)
{
  if (depth > MAX_DEPTH || ++show->shown > MAX_SHOWN)
    {
      trn_answer_note (show->answer, TRN_NOTE_DAMAGED, 0, 0,
                       "its objects are too many, too deep or run in a circle");
      return FALSE;
    }
  if (!trn_affine_is_finite (map))
    {
      trn_answer_note (show->answer, TRN_NOTE_TRANSFORM, 0, 0, object->id);
      return FALSE;
    }
  object->is_shown = TRUE;
  if (object->points->len + object->triangles->len > 0 && !show_mesh (show, object, map))
    return FALSE;
  for (guint i = 0; i < object->placings->len; i++)
    {
      const TrnPlacing *placing = &g_array_index (object->placings, TrnPlacing, i);
      TrnAffine inner = trn_affine_compose (map, &placing->map);
      TrnObject *placed = g_hash_table_lookup (show->objects->by_id, placing->id);
      if (placed == NULL)
        {
          trn_answer_note (show->answer, TRN_NOTE_REFERENCE_MISSING, 0, 0, placing->id);
          return FALSE;
        }
      if (!show_object (show, placed, &inner, depth + 1))
        return FALSE;
    }
  return TRUE;
}

gboolean
trn_objects_show (const TrnObjects *objects, const char *id, const TrnAffine *map, TrnBuild *build,
                  TrnAnswer *answer)
{
  Show show = { objects, build, answer, 0 };
  TrnObject *object = g_hash_table_lookup (objects->by_id, id);
  if (object == NULL)
    {
      trn_answer_note (answer, TRN_NOTE_REFERENCE_MISSING, 0, 0, id);
      return FALSE;
    }
  return show_object (&show, object, map, 0);
}
