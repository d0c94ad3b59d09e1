/* The work goes in three passes, each over a list whose entries are independent, so that they run
 * on all threads and still end up in a fixed order: mesh files are read; structures and components
 * become bodies; each distinct mesh (by its hash) gets its tree and its check. Bodies of the same
 * mesh share them. */
#include "scene.h"

#include <string.h>

#include "parallel.h"
#include "tolerances.h"

/* Larger or smaller than this in its greatest extent, the unit of a mesh is probably wrong: nothing
 * that is lifted or stands beside a lift is 1 km or 1 cm. */
#define LARGEST_M 1000
#define SMALLEST_M 0.01

/* One mesh with what is made of it, shared by all bodies that have it, and by the scenes of one
 * cache: counted by its block. */
typedef struct
{
  TrnMesh *mesh;
  TrnBvh *bvh;
  TrnMeshCheck *check;
} Shape;

typedef struct
{
  TrnScene scene; /* first, so that a TrnScene* is a Scene* */
  Shape **shapes;
  guint n_shapes;
} Scene;

/* A mesh file, read once for each way in which it is to be read. */
typedef struct
{
  const TrnMeshFile *source;
  const char *pointer; /* of the first structure or component that has it */
  TrnMesh *mesh;
  char sha256[65];
  TrnDiags *diags;
} File;

/* One structure or component while its bodies are made. */
typedef struct
{
  const char *id, *pointer;
  const TrnShape *shape;
  gboolean is_component, is_left_out;
  File *file;       /* NULL for a solid */
  GPtrArray *parts; /* of TrnSolidPart*; NULL for a mesh */
  TrnMesh *merged;  /* a component's parts in one */
  TrnBodies *bodies;
} Item;

typedef struct
{
  const TrnSceneOptions *options;
  const TrnPlan *plan;
  Scene *scene;
  TrnDiags *diags;
  GPtrArray *files; /* of File*, in the order of the plan */
  Item *items;      /* structures, then components */
  guint n_items;
} Build;

/* ---- mesh files ---- */

static void
file_free (gpointer data)
{
  File *file = data;
  if (file->mesh != NULL)
    trn_mesh_unref (file->mesh);
  trn_diags_free (file->diags);
  g_free (file);
}

static File *
get_file (Build *build, const TrnMeshFile *source, const char *pointer)
{
  for (guint i = 0; i < build->files->len; i++)
    {
      File *file = g_ptr_array_index (build->files, i);
      if (strcmp (file->source->path, source->path) == 0 && file->source->unit == source->unit
          && file->source->up == source->up)
        return file;
    }
  File *file = g_new0 (File, 1);
  file->source = source;
  file->pointer = pointer;
  file->diags = trn_diags_new ();
  g_ptr_array_add (build->files, file);
  return file;
}

static void
read_file (guint index, gpointer data)
{
  Build *build = data;
  File *file = g_ptr_array_index (build->files, index);
  TrnProgress *progress = build->options->progress;
  TrnImportRequest request = { .path = file->source->path,
                               .unit = file->source->unit,
                               .up = file->source->up,
                               .cache = build->options->cache };
  if (!trn_progress_is_cancelled (progress))
    file->mesh = trn_import_mesh (&request, build->options->import_limits, progress, file->sha256,
                                  file->diags);
  trn_progress_add_done (progress, 1);
}

/* Moves the items of @from to the end of @to. */
static void
move_diags (TrnDiags *to, TrnDiags *from)
{
  g_ptr_array_extend_and_steal (to->items, g_steal_pointer (&from->items));
  from->items = g_ptr_array_new ();
}

/* What is wrong with a mesh file is often put right in the plan: the unit, the axis, the name. */
static void
locate_in_plan (const TrnPlan *plan, const File *file)
{
  g_autofree char *pointer = g_strconcat (file->pointer, "/mesh", NULL);
  for (guint i = 0; i < file->diags->items->len; i++)
    {
      TrnDiag *diag = g_ptr_array_index (file->diags->items, i);
      trn_diag_set_origin (diag, pointer);
      trn_plan_locate (plan, diag);
    }
}

static void
read_files (Build *build)
{
  trn_progress_add_total (build->options->progress, (gint)build->files->len);
  trn_parallel_for (build->files->len, build->options->jobs, read_file, build);
  for (guint i = 0; i < build->files->len; i++)
    {
      File *file = g_ptr_array_index (build->files, i);
      locate_in_plan (build->plan, file);
      move_diags (build->diags, file->diags);
    }
}

/* The list of files for the results: each path once. */
static void
list_files (Build *build)
{
  TrnScene *scene = &build->scene->scene;
  scene->files = g_new0 (TrnSceneFile, build->files->len);
  for (guint i = 0; i < build->files->len; i++)
    {
      const File *file = g_ptr_array_index (build->files, i);
      gboolean listed = FALSE;
      for (guint k = 0; k < i && !listed; k++)
        listed = strcmp (((File *)g_ptr_array_index (build->files, k))->source->path,
                         file->source->path)
                 == 0;
      if (listed || file->mesh == NULL)
        continue;
      TrnSceneFile *entry = &scene->files[scene->n_files++];
      entry->file = g_strdup (file->source->file);
      memcpy (entry->sha256, file->sha256, sizeof entry->sha256);
    }
}

/* ---- bodies ---- */

/* One mesh of all @parts, each a part of it. */
static TrnMesh *
merge (const GPtrArray *parts)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (guint i = 0; i < parts->len; i++)
    {
      const TrnSolidPart *part = g_ptr_array_index (parts, i);
      const TrnMesh *mesh = part->mesh;
      guint32 first = 0;
      trn_mesh_builder_part (builder, part->id);
      for (guint32 k = 0; k < mesh->n_vertices; k++)
        {
          guint32 vertex = trn_mesh_builder_vertex (builder, mesh->vertices[k]);
          first = k == 0 ? vertex : first;
        }
      for (guint32 k = 0; k < mesh->n_triangles; k++)
        {
          const guint32 *v = mesh->triangles[k].v;
          trn_mesh_builder_triangle (builder, first + v[0], first + v[1], first + v[2]);
        }
    }
  return trn_mesh_builder_finish (builder);
}

static void
build_solid (guint index, gpointer data)
{
  Build *build = data;
  Item *item = &build->items[index];
  double deviation_m = build->options->solid_deviation_m;
  if (item->shape->solid == NULL || trn_progress_is_cancelled (build->options->progress))
    return;
  item->parts
      = trn_solid_build (item->shape->solid, deviation_m > 0 ? deviation_m : TRN_SOLID_DEVIATION_M);
  if (!item->is_component || item->parts->len == 1)
    return;
  item->merged = merge (item->parts);
}

static TrnDiag *
add_diag (Build *build, TrnSeverity severity, const char *code, const Item *item, const char *body)
{
  g_autofree char *pointer
      = g_strconcat (item->pointer, item->shape->solid != NULL ? "/solid" : "/mesh", NULL);
  TrnDiag *diag = trn_diags_add (build->diags, severity, code, pointer);
  trn_diag_set_text (diag, "body", body);
  trn_plan_locate (build->plan, diag);
  return diag;
}

static void
set_body (TrnBody *body, const char *id, const char *part, const TrnMesh *mesh)
{
  body->id = part[0] == '\0' ? g_strdup (id) : g_strdup_printf ("%s/%s", id, part);
  body->mesh = trn_mesh_ref (mesh);
}

static void
make_bodies (Item *item)
{
  TrnBodies *bodies = item->bodies;
  if (item->is_left_out)
    return;
  gboolean one = item->is_component || item->file != NULL;
  bodies->n_bodies = one ? 1 : item->parts->len;
  bodies->bodies = g_new0 (TrnBody, bodies->n_bodies);
  if (item->file != NULL)
    set_body (&bodies->bodies[0], item->id, "", item->file->mesh);
  else if (item->merged != NULL)
    set_body (&bodies->bodies[0], item->id, "", item->merged);
  else
    for (guint i = 0; i < bodies->n_bodies; i++)
      {
        const TrnSolidPart *part = g_ptr_array_index (item->parts, i);
        set_body (&bodies->bodies[i], item->id, one ? "" : part->id, part->mesh);
      }
}

static Item
make_item (Build *build, const char *id, const char *pointer, const TrnShape *shape,
           gboolean is_component, TrnBodies *bodies)
{
  Item item = {
    .id = id, .pointer = pointer, .shape = shape, .is_component = is_component, .bodies = bodies
  };
  if (shape->mesh != NULL && shape->mesh->path == NULL)
    add_diag (build, TRN_SEVERITY_ERROR, "scene/no-folder", &item, id);
  else if (shape->mesh != NULL)
    item.file = get_file (build, shape->mesh, pointer);
  return item;
}

static void
list_items (Build *build)
{
  const TrnPlan *plan = build->plan;
  TrnScene *scene = &build->scene->scene;
  build->files = g_ptr_array_new_with_free_func (file_free);
  build->n_items = plan->n_structures + plan->n_components;
  build->items = g_new0 (Item, build->n_items);
  scene->structures = g_new0 (TrnBodies, plan->n_structures);
  scene->components = g_new0 (TrnBodies, plan->n_components);
  Item *item = build->items;
  for (guint i = 0; i < plan->n_structures; i++)
    *item++ = make_item (build, plan->structures[i].id, plan->structures[i].pointer,
                         &plan->structures[i].shape, FALSE, &scene->structures[i]);
  for (guint i = 0; i < plan->n_components; i++)
    *item++ = make_item (build, plan->components[i].id, plan->components[i].pointer,
                         &plan->components[i].shape, TRUE, &scene->components[i]);
}

/* ---- trees and checks ---- */

static Shape *
shape_new (const TrnMesh *mesh)
{
  Shape *shape = g_atomic_rc_box_new0 (Shape);
  shape->mesh = trn_mesh_ref (mesh);
  return shape;
}

static void
shape_clear (gpointer data)
{
  Shape *shape = data;
  trn_bvh_free (shape->bvh);
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

/* A tree or a check that is to be made. */
typedef struct
{
  Shape *shape;
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
make_shapes (const Build *build, const GPtrArray *shapes)
{
  guint64 all = 0, jobs = trn_parallel_jobs (build->options->jobs);
  for (guint i = 0; i < shapes->len; i++)
    all += ((const Shape *)g_ptr_array_index (shapes, i))->mesh->n_triangles;
  g_autoptr (GArray) tasks = g_array_new (FALSE, FALSE, sizeof (ShapeTask));
  for (guint i = 0; i < shapes->len; i++)
    {
      ShapeTask task = { .shape = g_ptr_array_index (shapes, i) };
      task.jobs = (guint)((jobs * task.shape->mesh->n_triangles + all - 1) / all);
      g_array_append_val (tasks, task);
      task.is_check = TRUE;
      g_array_append_val (tasks, task);
    }
  g_array_sort (tasks, task_compare);
  ShapeTasks work = { build->options->progress, tasks };
  trn_progress_add_total (work.progress, (gint)tasks->len);
  trn_parallel_for (tasks->len, build->options->jobs, do_shape_task, &work);
}

/* Takes from the cache what it has, makes the rest, and gives that to the cache. */
static void
get_shapes (Build *build)
{
  TrnCache *cache = build->options->cache;
  g_autoptr (GPtrArray) made = g_ptr_array_new ();
  for (guint i = 0; i < build->scene->n_shapes; i++)
    {
      Shape **shape = &build->scene->shapes[i];
      g_autoptr (GByteArray) key = shape_key_new ((*shape)->mesh);
      Shape *kept = trn_cache_get (cache, key);
      if (kept == NULL)
        g_ptr_array_add (made, *shape);
      else
        {
          g_atomic_rc_box_release_full (*shape, shape_clear);
          *shape = kept;
        }
    }
  make_shapes (build, made);
  for (guint i = 0; i < made->len; i++)
    {
      Shape *shape = g_ptr_array_index (made, i);
      g_autoptr (GByteArray) key = shape_key_new (shape->mesh);
      if (shape->bvh != NULL && shape->check != NULL)
        trn_cache_put (cache, key, shape, shape_clear, 0);
    }
}

/* Gives each body the shape of its mesh; a shape that is not there yet is added, unmade. */
static void
list_shapes (Build *build, GPtrArray *shapes, GArray *shape_of)
{
  g_autoptr (GHashTable) known = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint i = 0; i < build->n_items; i++)
    for (guint k = 0; k < build->items[i].bodies->n_bodies; k++)
      {
        TrnMesh *mesh = build->items[i].bodies->bodies[k].mesh;
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

static void
build_shapes (Build *build)
{
  GPtrArray *shapes = g_ptr_array_new ();
  g_autoptr (GArray) shape_of = g_array_new (FALSE, FALSE, sizeof (guint));
  list_shapes (build, shapes, shape_of);
  build->scene->n_shapes = shapes->len;
  build->scene->shapes = (Shape **)g_ptr_array_free (shapes, FALSE);
  get_shapes (build);
  guint next = 0;
  for (guint i = 0; i < build->n_items; i++)
    for (guint k = 0; k < build->items[i].bodies->n_bodies; k++)
      {
        TrnBody *body = &build->items[i].bodies->bodies[k];
        const Shape *shape = build->scene->shapes[g_array_index (shape_of, guint, next++)];
        if (body->mesh != shape->mesh)
          {
            trn_mesh_unref (body->mesh);
            body->mesh = trn_mesh_ref (shape->mesh);
          }
        body->bvh = shape->bvh;
        body->check = shape->check;
      }
}

/* ---- what is odd ---- */

static void
warn_count (Build *build, const Item *item, const TrnBody *body, const char *code, guint32 count)
{
  if (count == 0)
    return;
  TrnDiag *diag = add_diag (build, TRN_SEVERITY_WARNING, code, item, body->id);
  trn_diag_set_number (diag, "count", count, TRN_UNIT_COUNT);
}

static void
warn_of_body (Build *build, const Item *item, const TrnBody *body)
{
  const TrnMeshCheck *check = body->check;
  warn_count (build, item, body, "scene/open-mesh", check->n_open_edges);
  warn_count (build, item, body, "scene/crowded-edges", check->n_crowded_edges);
  warn_count (build, item, body, "scene/misturned-edges", check->n_misturned_edges);
  warn_count (build, item, body, "scene/inside-out", check->n_inside_out);
  warn_count (build, item, body, "scene/degenerate-triangles", check->n_degenerate);
  warn_count (build, item, body, "scene/duplicate-triangles", check->n_duplicate);
  TrnVec3 size = trn_box_size (&body->mesh->box);
  double extent_m = trn_vec3_max_abs (size);
  if (extent_m <= LARGEST_M && extent_m >= SMALLEST_M)
    return;
  TrnDiag *diag = add_diag (build, TRN_SEVERITY_WARNING, "scene/odd-size", item, body->id);
  trn_diag_set_number (diag, "extent", extent_m, TRN_UNIT_M);
}

static void
refuse_empty (Build *build)
{
  for (guint i = 0; i < build->n_items; i++)
    {
      const Item *item = &build->items[i];
      if (item->file != NULL && item->file->mesh != NULL && item->file->mesh->n_triangles == 0)
        add_diag (build, TRN_SEVERITY_ERROR, "scene/empty-mesh", item, item->id);
    }
}

/* Structures without a usable mesh are left out where that is asked for. TRUE when what is left
 * makes a scene: a lift without its load is none. */
static gboolean
leave_out (Build *build, guint n_errors)
{
  if (n_errors == 0)
    return TRUE;
  if (!build->options->partial)
    return FALSE;
  for (guint i = 0; i < build->n_items; i++)
    {
      Item *item = &build->items[i];
      const TrnMesh *mesh = item->file != NULL ? item->file->mesh : NULL;
      item->is_left_out = item->shape->mesh != NULL && (mesh == NULL || mesh->n_triangles == 0);
      if (!item->is_left_out)
        continue;
      if (item->is_component)
        return FALSE;
      build->scene->scene.n_left_out++;
    }
  return build->scene->scene.n_left_out > 0;
}

/* A mesh has no parts, so that a seat means it by its id alone. */
static gboolean
seat_is_left_out (const Build *build, const TrnSeat *seat)
{
  for (guint i = 0; i < build->n_items; i++)
    if (build->items[i].is_left_out && strcmp (build->items[i].id, seat->on) == 0)
      return TRUE;
  return FALSE;
}

static gboolean
seat_has_body (const TrnScene *scene, const TrnLiftRun *run, const TrnSeat *seat)
{
  for (guint i = 0; i < run->n_standing; i++)
    {
      const TrnBodies *bodies = trn_scene_bodies_of (scene, &run->standing[i]);
      for (guint k = 0; k < bodies->n_bodies; k++)
        if (trn_seat_means (seat, &bodies->bodies[k]))
          return TRUE;
    }
  return FALSE;
}

static void
check_seats (Build *build)
{
  const TrnScene *scene = &build->scene->scene;
  for (guint i = 0; i < scene->programme->n_runs; i++)
    {
      const TrnLiftRun *run = &scene->programme->runs[i];
      for (guint k = 0; k < run->lift->n_seats; k++)
        {
          const TrnSeat *seat = &run->lift->seats[k];
          if (seat_has_body (scene, run, seat) || seat_is_left_out (build, seat))
            continue;
          g_autofree char *pointer = g_strconcat (seat->pointer, "/on", NULL);
          TrnDiag *diag
              = trn_diags_add (build->diags, TRN_SEVERITY_ERROR, "scene/seat-no-part", pointer);
          trn_diag_set_text (diag, "seat", seat->on);
          trn_plan_locate (build->plan, diag);
        }
    }
}

/* ---- the scene ---- */

static double
seconds_since (gint64 start_us)
{
  return (double)(g_get_monotonic_time () - start_us) / 1e6;
}

/* TRUE when the scene is whole. */
static gboolean
build_scene (Build *build)
{
  TrnScene *scene = &build->scene->scene;
  TrnProgress *progress = build->options->progress;
  guint errors_before = trn_diags_count (build->diags, TRN_SEVERITY_ERROR);
  gint64 start_us = g_get_monotonic_time ();
  list_items (build);
  read_files (build);
  list_files (build);
  refuse_empty (build);
  scene->times.import_s = seconds_since (start_us);
  guint errors_now = trn_diags_count (build->diags, TRN_SEVERITY_ERROR);
  if (trn_progress_is_cancelled (progress) || !leave_out (build, errors_now - errors_before))
    return FALSE;

  start_us = g_get_monotonic_time ();
  trn_parallel_for (build->n_items, build->options->jobs, build_solid, build);
  if (trn_progress_is_cancelled (progress))
    return FALSE;
  for (guint i = 0; i < build->n_items; i++)
    make_bodies (&build->items[i]);
  check_seats (build);
  if (trn_diags_count (build->diags, TRN_SEVERITY_ERROR) > errors_now)
    return FALSE;
  build_shapes (build);
  scene->times.build_s = seconds_since (start_us);
  if (trn_progress_is_cancelled (progress))
    return FALSE;
  for (guint i = 0; i < build->n_items; i++)
    for (guint k = 0; k < build->items[i].bodies->n_bodies; k++)
      warn_of_body (build, &build->items[i], &build->items[i].bodies->bodies[k]);
  return TRUE;
}

TrnScene *
trn_scene_build_take (TrnProgramme *programme, const TrnSceneOptions *options, TrnDiags *diags)
{
  Scene *scene = g_new0 (Scene, 1);
  scene->scene.programme = programme;
  Build build = { .options = options, .plan = programme->plan, .scene = scene, .diags = diags };
  gboolean whole = build_scene (&build);
  for (guint i = 0; i < build.n_items; i++)
    {
      g_clear_pointer (&build.items[i].parts, g_ptr_array_unref);
      g_clear_pointer (&build.items[i].merged, trn_mesh_unref);
    }
  g_free (build.items);
  g_ptr_array_unref (build.files);
  if (whole)
    {
      trn_cache_end_scene (options->cache);
      return &scene->scene;
    }
  trn_scene_free (&scene->scene);
  return NULL;
}

static void
bodies_free (TrnBodies *bodies, guint count)
{
  for (guint i = 0; i < count; i++)
    {
      for (guint k = 0; k < bodies[i].n_bodies; k++)
        {
          g_free (bodies[i].bodies[k].id);
          trn_mesh_unref (bodies[i].bodies[k].mesh);
        }
      g_free (bodies[i].bodies);
    }
  g_free (bodies);
}

void
trn_scene_free (TrnScene *scene)
{
  if (scene == NULL)
    return;
  Scene *whole = (Scene *)scene;
  bodies_free (scene->structures, scene->programme->plan->n_structures);
  bodies_free (scene->components, scene->programme->plan->n_components);
  for (guint i = 0; i < scene->n_files; i++)
    g_free (scene->files[i].file);
  g_free (scene->files);
  for (guint i = 0; i < whole->n_shapes; i++)
    g_atomic_rc_box_release_full (whole->shapes[i], shape_clear);
  g_free (whole->shapes);
  trn_programme_free (scene->programme);
  g_free (whole);
}

const TrnBodies *
trn_scene_bodies_of (const TrnScene *scene, const TrnStanding *standing)
{
  return standing->is_component ? &scene->components[standing->index]
                                : &scene->structures[standing->index];
}

const TrnBody *
trn_scene_load (const TrnScene *scene, const TrnLiftRun *run)
{
  return &scene->components[run->lift->component].bodies[0];
}

gboolean
trn_seat_means (const TrnSeat *seat, const TrnBody *body)
{
  gsize length = strlen (seat->on);
  return strncmp (body->id, seat->on, length) == 0
         && (body->id[length] == '\0' || body->id[length] == '/');
}
