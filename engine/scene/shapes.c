/* Meshes are told apart by their hash. What the cache has is taken from it, and what was prepared;
 * trees and checks of the others are made, each an entry of one list, so that they run on all
 * threads. A tree does not depend on when it is made. */
#include "shapes.h"

#include "parallel.h"

struct _TrnSceneShape
{
  TrnMesh *mesh;
  TrnBvh *bvh;
  TrnMeshCheck *check; /* the mesh's where it has one */
};

static TrnSceneShape *
shape_new (const TrnMesh *mesh)
{
  TrnSceneShape *shape = g_atomic_rc_box_new0 (TrnSceneShape);
  shape->mesh = trn_mesh_ref (mesh);
  shape->check = mesh->check;
  return shape;
}

static void
shape_clear (gpointer data)
{
  TrnSceneShape *shape = data;
  trn_bvh_free (shape->bvh);
  if (shape->check != shape->mesh->check)
    trn_mesh_check_free (shape->check);
  trn_mesh_unref (shape->mesh);
}

/* The hash of a mesh does not cover its parts, but a shape from the cache brings its mesh. */
static TrnCacheKey *
shape_key_new (const TrnMesh *mesh)
{
  TrnCacheKey *key = trn_cache_key_new (TRN_CACHE_SHAPE);
  trn_cache_key_add_text (key, mesh->hash);
  for (guint32 i = 0; i < mesh->n_parts; i++)
    {
      trn_cache_key_add_text (key, mesh->parts[i].name);
      trn_cache_key_add_number (key, mesh->parts[i].first);
      trn_cache_key_add_number (key, mesh->parts[i].count);
    }
  return key;
}

/* ---- beforehand ---- */

static void
ready_free (gpointer data)
{
  if (data != NULL)
    g_atomic_rc_box_release_full (data, shape_clear);
}

void
trn_scene_shapes_init (TrnSceneShapes *shapes)
{
  g_mutex_init (&shapes->lock);
  shapes->ready = g_hash_table_new_full (g_bytes_hash, g_bytes_equal, (GDestroyNotify)g_bytes_unref,
                                         ready_free);
}

static GBytes *
ready_key_new (const TrnMesh *mesh)
{
  return g_byte_array_free_to_bytes (shape_key_new (mesh));
}

/* NULL: when cancelled. */
static TrnSceneShape *
make_one (const TrnMesh *mesh, const TrnSceneOptions *options)
{
  if (trn_progress_is_cancelled (options->progress))
    return NULL;
  g_autoptr (GByteArray) key = shape_key_new (mesh);
  TrnSceneShape *shape = trn_cache_get (options->cache, key);
  if (shape != NULL)
    return shape;
  shape = shape_new (mesh);
  shape->bvh = trn_bvh_build (mesh, options->jobs);
  if (shape->check == NULL)
    shape->check = trn_mesh_check_new (mesh);
  trn_cache_put (options->cache, key, shape, shape_clear, 0);
  return shape;
}

void
trn_scene_shapes_prepare (TrnSceneShapes *shapes, const TrnMesh *mesh,
                          const TrnSceneOptions *options)
{
  g_autoptr (GBytes) key = ready_key_new (mesh);
  g_mutex_lock (&shapes->lock);
  const gboolean is_known = g_hash_table_contains (shapes->ready, key);
  if (!is_known)
    g_hash_table_insert (shapes->ready, g_bytes_ref (key), NULL);
  g_mutex_unlock (&shapes->lock);
  if (is_known)
    return;
  TrnSceneShape *shape = make_one (mesh, options);
  g_mutex_lock (&shapes->lock);
  if (shape != NULL)
    g_hash_table_insert (shapes->ready, g_bytes_ref (key), shape);
  else
    g_hash_table_remove (shapes->ready, key);
  g_mutex_unlock (&shapes->lock);
}

/* ---- what is left ---- */

/* A tree or a check that is to be made. */
typedef struct
{
  TrnSceneShape *shape;
  gboolean is_check;
  guint jobs; /* threads for a tree */
} ShapeTask;

typedef struct
{
  TrnProgress *progress;
  GArray *tasks; /* of ShapeTask */
} ShapeTasks;

/* A tree takes about four times as long as a check. */
static guint64
task_cost (const ShapeTask *task)
{
  return (guint64)task->shape->mesh->n_triangles * (task->is_check ? 1 : 4);
}

static int
task_compare (gconstpointer a, gconstpointer b)
{
  guint64 p = task_cost (a), q = task_cost (b);
  return p > q ? -1 : p < q;
}

static void
do_shape_task (guint index, gpointer data)
{
  ShapeTasks *work = data;
  const ShapeTask *task = &g_array_index (work->tasks, ShapeTask, index);
  if (!trn_progress_is_cancelled (work->progress))
    {
      if (task->is_check)
        task->shape->check = trn_mesh_check_new (task->shape->mesh);
      else
        task->shape->bvh = trn_bvh_build (task->shape->mesh, task->jobs);
    }
  trn_progress_add_done (work->progress, 1);
}

/* Makes what @shapes lack. The largest come first, so that all threads end at about the same time;
 * a tree gets a share of the threads like its share of the triangles, at least one. */
static void
make_shapes (const TrnSceneOptions *options, const GPtrArray *shapes)
{
  guint64 all = 0, jobs = trn_parallel_jobs (options->jobs);
  for (guint i = 0; i < shapes->len; i++)
    all += ((const TrnSceneShape *)g_ptr_array_index (shapes, i))->mesh->n_triangles;
  g_autoptr (GArray) tasks = g_array_new (FALSE, FALSE, sizeof (ShapeTask));
  for (guint i = 0; i < shapes->len; i++)
    {
      ShapeTask task = { .shape = g_ptr_array_index (shapes, i) };
      task.jobs = (guint)((jobs * task.shape->mesh->n_triangles + all - 1) / all);
      g_array_append_val (tasks, task);
      task.is_check = TRUE;
      if (task.shape->check == NULL)
        g_array_append_val (tasks, task);
    }
  g_array_sort (tasks, task_compare);
  ShapeTasks work = { options->progress, tasks };
  trn_progress_add_total (work.progress, (gint)tasks->len);
  trn_parallel_for (tasks->len, options->jobs, do_shape_task, &work);
}

/* Takes from the cache what it has, makes the rest, and gives that to the cache. */
static void
get_shapes (TrnSceneShapes *shapes, const TrnSceneOptions *options)
{
  TrnCache *cache = options->cache;
  g_autoptr (GPtrArray) made = g_ptr_array_new ();
  for (guint i = 0; i < shapes->n_shapes; i++)
    {
      TrnSceneShape **shape = &shapes->shapes[i];
      g_autoptr (GBytes) ready_key = ready_key_new ((*shape)->mesh);
      g_autoptr (GByteArray) key = shape_key_new ((*shape)->mesh);
      TrnSceneShape *kept = g_hash_table_lookup (shapes->ready, ready_key);
      kept = kept != NULL ? g_atomic_rc_box_acquire (kept) : trn_cache_get (cache, key);
      if (kept == NULL)
        g_ptr_array_add (made, *shape);
      else
        {
          g_atomic_rc_box_release_full (*shape, shape_clear);
          *shape = kept;
        }
    }
  make_shapes (options, made);
  for (guint i = 0; i < made->len; i++)
    {
      TrnSceneShape *shape = g_ptr_array_index (made, i);
      g_autoptr (GByteArray) key = shape_key_new (shape->mesh);
      if (shape->bvh != NULL && shape->check != NULL)
        trn_cache_put (cache, key, shape, shape_clear, 0);
    }
}

/* The shape of each body's mesh, by its place in @shapes; one that is not there yet is added,
 * unmade. */
static void
list_shapes (const GPtrArray *bodies, GPtrArray *shapes, GArray *shape_of)
{
  g_autoptr (GHashTable) known = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint i = 0; i < bodies->len; i++)
    {
      TrnMesh *mesh = ((TrnBody *)bodies->pdata[i])->mesh;
      guint place = GPOINTER_TO_UINT (g_hash_table_lookup (known, mesh->hash));
      if (place == 0)
        {
          g_ptr_array_add (shapes, shape_new (mesh));
          place = shapes->len;
          g_hash_table_insert (known, mesh->hash, GUINT_TO_POINTER (place));
        }
      place--;
      g_array_append_val (shape_of, place);
    }
}

void
trn_scene_shapes_build (TrnSceneShapes *shapes, const GPtrArray *bodies,
                        const TrnSceneOptions *options)
{
  GPtrArray *list = g_ptr_array_new ();
  g_autoptr (GArray) shape_of = g_array_new (FALSE, FALSE, sizeof (guint));
  list_shapes (bodies, list, shape_of);
  shapes->n_shapes = list->len;
  shapes->shapes = (TrnSceneShape **)g_ptr_array_free (list, FALSE);
  get_shapes (shapes, options);
  for (guint i = 0; i < bodies->len; i++)
    {
      TrnBody *body = bodies->pdata[i];
      const TrnSceneShape *shape = shapes->shapes[g_array_index (shape_of, guint, i)];
      if (body->mesh != shape->mesh)
        {
          trn_mesh_unref (body->mesh);
          body->mesh = trn_mesh_ref (shape->mesh);
        }
      body->bvh = shape->bvh;
      body->check = shape->check;
    }
}

void
trn_scene_shapes_clear (TrnSceneShapes *shapes)
{
  for (guint i = 0; i < shapes->n_shapes; i++)
    g_atomic_rc_box_release_full (shapes->shapes[i], shape_clear);
  g_free (shapes->shapes);
  g_hash_table_unref (shapes->ready);
  g_mutex_clear (&shapes->lock);
}
