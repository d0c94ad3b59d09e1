/* The work is lists whose entries are independent, so that they run on all threads and still end up
 * in a fixed order: mesh files are read and solids get their triangles, and each distinct mesh gets
 * its tree and its check, mostly as soon as it is there, since the largest file takes one thread
 * alone while it is read. */
#include "scene.h"

#include <glib/gstdio.h>
#include <string.h>

#include "odd.h"

#include "mesh-list.h"
#include "parallel.h"
#include "shapes.h"
#include "tolerances.h"

/* Larger or smaller than this in its greatest extent, the unit of a mesh is probably wrong: nothing
 * that is lifted or stands beside a lift is 1 km or 1 cm. */
#define LARGEST_M 1000
#define SMALLEST_M 0.01
#define SMALLEST_FILE_M 0.1 /* all of a mesh file; common practice, no source */

typedef struct
{
  TrnScene scene; /* first, so that a TrnScene* is a Scene* */
  TrnSceneShapes shapes;
} Scene;

/* A mesh file, read once for each way in which it is to be read. */
typedef struct
{
  const TrnMeshFile *source;
  const char *pointer; /* of the first structure or component that has it */
  TrnMesh *mesh;
  TrnImportReport report; /* where there is a mesh */
  char sha256[65];
  GArray *referred; /* of TrnImportReferred */
  TrnDiags *diags;
  goffset bytes;  /* of the file; 0 where it is not known */
  gint64 read_us; /* when it was read */
} File;

/* One structure, component or gear while its bodies are made. */
typedef struct
{
  const char *id, *pointer;
  const TrnShape *shape;
  TrnStandingKind kind;
  gboolean is_left_out;
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
  GPtrArray *files;         /* of File*, in the order of the plan */
  GPtrArray *largest_first; /* the same */
  TrnShape *gear;           /* one for each of the plan's gear: what stands of it, or nothing */
  Item *items;              /* structures, then components, then gear */
  guint n_items;
  guint n_missing; /* items whose mesh file is missing, which the plan's reader said */
} Build;

/* ---- mesh files ---- */

static void
file_free (gpointer data)
{
  File *file = data;
  if (file->mesh != NULL)
    trn_mesh_unref (file->mesh);
  g_array_unref (file->referred);
  trn_diags_free (file->diags);
  g_free (file);
}

static File *
get_file (Build *build, const TrnMeshFile *source, const char *pointer)
{
  for (guint i = 0; i < build->files->len; i++)
    {
      File *file = g_ptr_array_index (build->files, i);
      if (trn_mesh_file_is_read_alike (file->source, source))
        return file;
    }
  File *file = g_new0 (File, 1);
  file->source = source;
  file->pointer = pointer;
  file->diags = trn_diags_new ();
  file->referred = trn_import_referred_new ();
  g_ptr_array_add (build->files, file);
  return file;
}

static int
compare_sizes (gconstpointer a, gconstpointer b)
{
  const File *p = *(File *const *)a, *q = *(File *const *)b;
  return p->bytes > q->bytes ? -1 : p->bytes < q->bytes;
}

/* The largest first, so that all threads end at about the same time. */
static GPtrArray *
sort_files (const Build *build)
{
  GPtrArray *sorted = g_ptr_array_new ();
  for (guint i = 0; i < build->files->len; i++)
    {
      File *file = g_ptr_array_index (build->files, i);
      GStatBuf status;
      if (g_stat (file->source->path, &status) == 0)
        file->bytes = status.st_size;
      g_ptr_array_add (sorted, file);
    }
  g_ptr_array_sort (sorted, compare_sizes);
  return sorted;
}

static void
read_file (Build *build, File *file)
{
  TrnProgress *progress = build->options->progress;
  TrnImportRequest request = { .path = file->source->path,
                               .unit = file->source->unit,
                               .up = file->source->up,
                               .parts = (const char *const *)file->source->parts,
                               .cache = build->options->cache,
                               .referred = file->referred };
  if (!trn_progress_is_cancelled (progress))
    file->mesh = trn_import_mesh (&request, build->options->import_limits, progress, file->sha256,
                                  &file->report, file->diags);
  file->read_us = g_get_monotonic_time ();
  if (file->mesh != NULL && file->mesh->n_triangles > 0)
    trn_scene_shapes_prepare (&build->scene->shapes, file->mesh, build->options);
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
list_file (GArray *list, const char *name, const char *sha256)
{
  for (guint i = 0; i < list->len; i++)
    if (strcmp (g_array_index (list, TrnSceneFile, i).file, name) == 0)
      return;
  TrnSceneFile entry = { .file = g_strdup (name) };
  g_strlcpy (entry.sha256, sha256, sizeof entry.sha256);
  g_array_append_val (list, entry);
}

/* The list of files for the results, each once: those that the plan names, and behind each what it
 * refers to. */
static void
list_files (Build *build)
{
  TrnScene *scene = &build->scene->scene;
  GArray *list = g_array_new (FALSE, FALSE, sizeof (TrnSceneFile));
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
      list_file (list, file->source->file, file->sha256);
      g_autofree char *folder = g_path_get_dirname (file->source->file);
      for (guint k = 0; k < file->referred->len; k++)
        {
          const TrnImportReferred *other = &g_array_index (file->referred, TrnImportReferred, k);
          g_autofree char *name = strcmp (folder, ".") == 0
                                      ? g_strdup (other->name)
                                      : g_build_filename (folder, other->name, NULL);
          list_file (list, name, other->sha256);
        }
    }
  scene->n_files = list->len;
  scene->files = (TrnSceneFile *)(void *)g_array_free (list, FALSE);
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
prepare_solid (Build *build, const Item *item)
{
  TrnSceneShapes *shapes = &build->scene->shapes;
  if (item->merged != NULL)
    trn_scene_shapes_prepare (shapes, item->merged, build->options);
  for (guint i = 0; item->merged == NULL && i < item->parts->len; i++)
    trn_scene_shapes_prepare (
        shapes, ((const TrnSolidPart *)g_ptr_array_index (item->parts, i))->mesh, build->options);
}

static void
build_solid (Build *build, Item *item)
{
  if (item->shape->solid == NULL || trn_progress_is_cancelled (build->options->progress))
    return;
  item->parts = trn_solid_build (item->shape->solid, build->scene->scene.solid_deviation_m);
  if (item->kind == TRN_STANDING_COMPONENT && item->parts->len > 1)
    item->merged = merge (item->parts);
  prepare_solid (build, item);
}

/* ---- meshes ---- */

/* A file, or the solid of an item. */
static void
make_mesh (guint index, gpointer data)
{
  Build *build = data;
  const guint n_files = build->largest_first->len;
  if (index < n_files)
    read_file (build, g_ptr_array_index (build->largest_first, index));
  else
    build_solid (build, &build->items[index - n_files]);
}

/* Returns when the last file was read. */
static gint64
make_meshes (Build *build)
{
  gint64 read_us = g_get_monotonic_time ();
  build->largest_first = sort_files (build);
  trn_progress_add_total (build->options->progress, (gint)build->files->len);
  trn_parallel_for (build->files->len + build->n_items, build->options->jobs, make_mesh, build);
  for (guint i = 0; i < build->files->len; i++)
    {
      File *file = g_ptr_array_index (build->files, i);
      read_us = MAX (read_us, file->read_us);
      locate_in_plan (build->plan, file);
      move_diags (build->diags, file->diags);
    }
  g_ptr_array_unref (build->largest_first);
  return read_us;
}

static TrnDiag *
add_diag (Build *build, TrnSeverity severity, const char *code, const Item *item, const char *body)
{
  const char *key = item->kind == TRN_STANDING_GEAR ? ""
                    : item->shape->solid != NULL    ? "/solid"
                                                    : "/mesh";
  g_autofree char *pointer = g_strconcat (item->pointer, key, NULL);
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

/* Each coordinate by the loss at most, so a point by √3 of it; a little more for the sum. */
static double
off_by (const TrnImportReport *report)
{
  return (1.7321 * report->loss_m + report->warp_m) * (1 + 1e-9);
}

static void
make_bodies (Item *item)
{
  TrnBodies *bodies = item->bodies;
  if (item->is_left_out || (item->file == NULL && item->parts == NULL))
    return;
  gboolean one = item->kind == TRN_STANDING_COMPONENT || item->file != NULL;
  bodies->n_bodies = one ? 1 : item->parts->len;
  bodies->bodies = g_new0 (TrnBody, bodies->n_bodies);
  if (item->file != NULL)
    bodies->report = g_memdup2 (&item->file->report, sizeof item->file->report);
  if (item->file != NULL)
    {
      set_body (&bodies->bodies[0], item->id, "", item->file->mesh);
      bodies->bodies[0].off_m = off_by (bodies->report);
    }
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
           TrnStandingKind kind, TrnBodies *bodies)
{
  Item item = { .id = id, .pointer = pointer, .shape = shape, .kind = kind, .bodies = bodies };
  if (shape->mesh != NULL && shape->mesh->is_missing)
    build->n_missing++;
  else if (shape->mesh != NULL && shape->mesh->path == NULL)
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
  build->n_items = plan->n_structures + plan->n_components + plan->n_gear;
  build->items = g_new0 (Item, build->n_items);
  scene->structures = g_new0 (TrnBodies, plan->n_structures);
  scene->components = g_new0 (TrnBodies, plan->n_components);
  scene->gear = g_new0 (TrnBodies, plan->n_gear);
  build->gear = g_new0 (TrnShape, plan->n_gear);
  Item *item = build->items;
  for (guint i = 0; i < plan->n_structures; i++)
    *item++ = make_item (build, plan->structures[i].id, plan->structures[i].pointer,
                         &plan->structures[i].shape, TRN_STANDING_STRUCTURE, &scene->structures[i]);
  for (guint i = 0; i < plan->n_components; i++)
    *item++ = make_item (build, plan->components[i].id, plan->components[i].pointer,
                         &plan->components[i].shape, TRN_STANDING_COMPONENT, &scene->components[i]);
  for (guint i = 0; i < plan->n_gear; i++)
    {
      build->gear[i].solid = trn_gear_solid_new (&plan->gear[i]);
      *item++ = make_item (build, plan->gear[i].id, plan->gear[i].pointer, &build->gear[i],
                           TRN_STANDING_GEAR, &scene->gear[i]);
    }
}

/* ---- trees and checks ---- */

static void
build_shapes (Build *build)
{
  g_autoptr (GPtrArray) bodies = g_ptr_array_new ();
  for (guint i = 0; i < build->n_items; i++)
    for (guint k = 0; k < build->items[i].bodies->n_bodies; k++)
      g_ptr_array_add (bodies, &build->items[i].bodies->bodies[k]);
  trn_scene_shapes_build (&build->scene->shapes, bodies, build->options);
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
  if (check->n_open_edges > 0)
    {
      TrnDiag *diag = add_diag (build, TRN_SEVERITY_WARNING, "scene/open-mesh", item, body->id);
      trn_diag_set_number (diag, "count", check->n_open_edges, TRN_UNIT_COUNT);
      trn_diag_set_number (diag, "holes", check->n_holes, TRN_UNIT_COUNT);
      trn_diag_set_number (diag, "largest", check->largest_hole_m, TRN_UNIT_M);
    }
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

/* A mesh file that is far too small as a whole: its unit is probably another. */
static void
warn_of_small (Build *build, const Item *item)
{
  TrnBox box = trn_box_empty ();
  for (guint i = 0; i < item->bodies->n_bodies; i++)
    {
      trn_box_add_point (&box, item->bodies->bodies[i].mesh->box.lo);
      trn_box_add_point (&box, item->bodies->bodies[i].mesh->box.hi);
    }
  const double extent_m = trn_vec3_max_abs (trn_box_size (&box));
  if (item->file == NULL || !(extent_m < SMALLEST_FILE_M) || extent_m < SMALLEST_M)
    return;
  TrnDiag *diag = add_diag (build, TRN_SEVERITY_WARNING, "scene/odd-size", item, item->id);
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
      if (item->kind == TRN_STANDING_COMPONENT)
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
seconds_between (gint64 start_us, gint64 end_us)
{
  return (double)(end_us - start_us) / 1e6;
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
  const gint64 read_us = make_meshes (build);
  list_files (build);
  refuse_empty (build);
  scene->times.import_s = seconds_between (start_us, read_us);
  guint errors_now = trn_diags_count (build->diags, TRN_SEVERITY_ERROR);
  if (trn_progress_is_cancelled (progress)
      || !leave_out (build, errors_now - errors_before + build->n_missing))
    return FALSE;
  for (guint i = 0; i < build->n_items; i++)
    make_bodies (&build->items[i]);
  check_seats (build);
  if (trn_diags_count (build->diags, TRN_SEVERITY_ERROR) > errors_now)
    return FALSE;
  build_shapes (build);
  scene->times.build_s = seconds_between (read_us, g_get_monotonic_time ());
  if (trn_progress_is_cancelled (progress))
    return FALSE;
  for (guint i = 0; i < build->n_items; i++)
    for (guint k = 0; k < build->items[i].bodies->n_bodies; k++)
      warn_of_body (build, &build->items[i], &build->items[i].bodies->bodies[k]);
  for (guint i = 0; i < build->n_items; i++)
    warn_of_small (build, &build->items[i]);
  trn_scene_warn_of_odd (scene, build->diags);
  return TRUE;
}

TrnScene *
trn_scene_build_take (TrnProgramme *programme, const TrnSceneOptions *options, TrnDiags *diags)
{
  Scene *scene = g_new0 (Scene, 1);
  scene->scene.programme = programme;
  scene->scene.solid_deviation_m
      = options->solid_deviation_m > 0 ? options->solid_deviation_m : TRN_SOLID_DEVIATION_M;
  trn_scene_shapes_init (&scene->shapes);
  Build build = { .options = options, .plan = programme->plan, .scene = scene, .diags = diags };
  gboolean whole = build_scene (&build);
  for (guint i = 0; i < build.n_items; i++)
    {
      g_clear_pointer (&build.items[i].parts, g_ptr_array_unref);
      g_clear_pointer (&build.items[i].merged, trn_mesh_unref);
    }
  for (guint i = 0; i < programme->plan->n_gear; i++)
    trn_solid_free (build.gear[i].solid);
  g_free (build.gear);
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
      g_free (bodies[i].report);
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
  bodies_free (scene->gear, scene->programme->plan->n_gear);
  for (guint i = 0; i < scene->n_files; i++)
    g_free (scene->files[i].file);
  g_free (scene->files);
  trn_scene_shapes_clear (&whole->shapes);
  trn_programme_free (scene->programme);
  g_free (whole);
}

const TrnBodies *
trn_scene_bodies_of (const TrnScene *scene, const TrnStanding *standing)
{
  switch (standing->kind)
    {
    case TRN_STANDING_STRUCTURE:
      return &scene->structures[standing->index];
    case TRN_STANDING_COMPONENT:
      return &scene->components[standing->index];
    case TRN_STANDING_GEAR:
      return &scene->gear[standing->index];
    }
  g_assert_not_reached ();
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
