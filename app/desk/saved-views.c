/* saved-views.c: the plan's text is made from its JSON document, in which everything stands that
 * the file had, in its order; only the list of views is another. The document is shared with other
 * threads and never changed: the tree is copied first.
 *
 * Somebody else may write the file meanwhile, so it is read once more before it is replaced and
 * must be what the plan was read from. Between that look and the replacement lies a moment in which
 * a change would be lost; no lock that other programs heed could close it. */
#include "saved-views.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "json-read.h"
#include "json-text.h"
#include "read-file.h"
#include "write-file.h"

#define KEY "x-views"

/* Beyond these a camera sees nothing of any site. */
#define FARTHEST_M 1e6
#define NEAREST_M 1e-3

/* Finer than one can see, and short to read in the file. */
#define STEPS_PER_M 1e4
#define STEPS_PER_DEGREE 1e4

/* ---- reading ---- */

static gboolean
read_number (JsonNode *node, double least, double most, double *number)
{
  if (node == NULL || !JSON_NODE_HOLDS_VALUE (node))
    return FALSE;
  GType type = json_node_get_value_type (node);
  if (type != G_TYPE_INT64 && type != G_TYPE_DOUBLE)
    return FALSE;
  *number = json_node_get_double (node);
  return *number >= least && *number <= most;
}

static gboolean
read_place (JsonNode *node, TrnVec3 *place)
{
  if (node == NULL || !JSON_NODE_HOLDS_ARRAY (node))
    return FALSE;
  JsonArray *array = json_node_get_array (node);
  double *const numbers[] = { &place->x, &place->y, &place->z };
  if (json_array_get_length (array) != G_N_ELEMENTS (numbers))
    return FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++)
    if (!read_number (json_array_get_element (array, i), -FARTHEST_M, FARTHEST_M, numbers[i]))
      return FALSE;
  return TRUE;
}

static const char *
read_name (JsonNode *node)
{
  if (node == NULL || !JSON_NODE_HOLDS_VALUE (node)
      || json_node_get_value_type (node) != G_TYPE_STRING)
    return NULL;
  const char *name = json_node_get_string (node);
  return *name != '\0' ? name : NULL;
}

/* May be left out. */
static gboolean
read_parallel (JsonNode *node, gboolean *parallel)
{
  *parallel = FALSE;
  if (node == NULL)
    return TRUE;
  if (!JSON_NODE_HOLDS_VALUE (node) || json_node_get_value_type (node) != G_TYPE_BOOLEAN)
    return FALSE;
  *parallel = json_node_get_boolean (node);
  return TRUE;
}

static DeskSavedView *
read_view (JsonNode *node)
{
  if (!JSON_NODE_HOLDS_OBJECT (node))
    return NULL;
  JsonObject *object = json_node_get_object (node);
  const char *name = read_name (json_object_get_member (object, "name"));
  DeskSavedView view = { 0 };
  double heading_deg, pitch_deg;
  if (name == NULL || !read_place (json_object_get_member (object, "target"), &view.target)
      || !read_number (json_object_get_member (object, "distance"), NEAREST_M, FARTHEST_M,
                       &view.distance_m)
      || !read_number (json_object_get_member (object, "heading"), -360, 360, &heading_deg)
      || !read_number (json_object_get_member (object, "pitch"), -90, 90, &pitch_deg)
      || !read_parallel (json_object_get_member (object, "parallel"), &view.parallel))
    return NULL;
  view.name = g_strdup (name);
  view.heading_rad = heading_deg * G_PI / 180;
  view.pitch_rad = pitch_deg * G_PI / 180;
  return g_memdup2 (&view, sizeof view);
}

GPtrArray *
desk_saved_views_read (const TrnPlan *plan)
{
  GPtrArray *views = g_ptr_array_new_with_free_func ((GDestroyNotify)desk_saved_view_free);
  JsonNode *list = json_object_get_member (json_node_get_object (plan->document), KEY);
  if (list == NULL || !JSON_NODE_HOLDS_ARRAY (list))
    return views;
  JsonArray *array = json_node_get_array (list);
  for (guint i = 0; i < json_array_get_length (array); i++)
    {
      DeskSavedView *view = read_view (json_array_get_element (array, i));
      if (view == NULL)
        continue;
      view->entry = i;
      g_ptr_array_add (views, view);
    }
  return views;
}

/* ---- a view ---- */

DeskSavedView *
desk_saved_view_new (const char *name, const RenderCamera *camera)
{
  DeskSavedView *view = g_new0 (DeskSavedView, 1);
  view->name = g_strdup (name);
  view->target = camera->target;
  view->distance_m = camera->distance_m;
  view->heading_rad = camera->heading_rad;
  view->pitch_rad = camera->pitch_rad;
  view->parallel = camera->parallel;
  return view;
}

DeskSavedView *
desk_saved_view_copy (const DeskSavedView *view)
{
  DeskSavedView *copy = g_memdup2 (view, sizeof *view);
  copy->name = g_strdup (view->name);
  return copy;
}

void
desk_saved_view_free (DeskSavedView *view)
{
  if (view == NULL)
    return;
  g_free (view->name);
  g_free (view);
}

void
desk_saved_view_apply (const DeskSavedView *view, RenderCamera *camera)
{
  camera->target = view->target;
  camera->distance_m = view->distance_m;
  camera->heading_rad = view->heading_rad;
  camera->pitch_rad = view->pitch_rad;
  camera->parallel = view->parallel;
}

/* ---- changing ---- */

static JsonNode *
copy_scalar (JsonNode *node)
{
  JsonNode *copy = json_node_alloc ();
  if (JSON_NODE_HOLDS_NULL (node))
    return json_node_init_null (copy);
  GType type = json_node_get_value_type (node);
  if (type == G_TYPE_STRING)
    return json_node_init_string (copy, json_node_get_string (node));
  if (type == G_TYPE_BOOLEAN)
    return json_node_init_boolean (copy, json_node_get_boolean (node));
  if (type == G_TYPE_INT64)
    return json_node_init_int (copy, json_node_get_int (node));
  return json_node_init_double (copy, json_node_get_double (node));
}

/* json_node_copy shares what it copies, and its counts are not made for several threads. */
static JsonNode *
copy_deep (JsonNode *node)
{
  if (JSON_NODE_HOLDS_OBJECT (node))
    {
      JsonObjectIter iter;
      const char *key;
      JsonNode *value;
      JsonObject *object = json_object_new ();
      json_object_iter_init_ordered (&iter, json_node_get_object (node));
      while (json_object_iter_next_ordered (&iter, &key, &value))
        json_object_set_member (object, key, copy_deep (value));
      JsonNode *copy = json_node_new (JSON_NODE_OBJECT);
      json_node_take_object (copy, object);
      return copy;
    }
  if (!JSON_NODE_HOLDS_ARRAY (node))
    return copy_scalar (node);
  JsonArray *from = json_node_get_array (node), *array = json_array_new ();
  for (guint i = 0; i < json_array_get_length (from); i++)
    json_array_add_element (array, copy_deep (json_array_get_element (from, i)));
  JsonNode *copy = json_node_new (JSON_NODE_ARRAY);
  json_node_take_array (copy, array);
  return copy;
}

static double
round_to (double number, double steps)
{
  return round (number * steps) / steps + 0.0; /* no −0 */
}

static JsonNode *
make_entry (const DeskSavedView *view)
{
  JsonObject *object = json_object_new ();
  JsonArray *target = json_array_new ();
  const double place[] = { view->target.x, view->target.y, view->target.z };
  for (guint i = 0; i < G_N_ELEMENTS (place); i++)
    json_array_add_double_element (target, round_to (place[i], STEPS_PER_M));
  double heading_deg = remainder (view->heading_rad, 2 * G_PI) * 180 / G_PI;
  json_object_set_string_member (object, "name", view->name);
  json_object_set_array_member (object, "target", target);
  json_object_set_double_member (object, "distance",
                                 fmax (round_to (view->distance_m, STEPS_PER_M), NEAREST_M));
  json_object_set_double_member (object, "heading", round_to (heading_deg, STEPS_PER_DEGREE));
  json_object_set_double_member (object, "pitch",
                                 round_to (view->pitch_rad * 180 / G_PI, STEPS_PER_DEGREE));
  json_object_set_boolean_member (object, "parallel", view->parallel);
  JsonNode *node = json_node_new (JSON_NODE_OBJECT);
  json_node_take_object (node, object);
  return node;
}

/* The list in a copy of the plan, made where there is none; NULL where the key holds another
 * thing. */
static JsonArray *
find_list (JsonObject *plan)
{
  JsonNode *node = json_object_get_member (plan, KEY);
  if (node == NULL)
    json_object_set_array_member (plan, KEY, json_array_new ());
  else if (!JSON_NODE_HOLDS_ARRAY (node))
    return NULL;
  return json_object_get_array_member (plan, KEY);
}

static void
change_list (JsonArray *list, DeskViewChange change, const DeskSavedView *view)
{
  g_assert (change == DESK_VIEW_ADD || view->entry < json_array_get_length (list));
  switch (change)
    {
    case DESK_VIEW_ADD:
      json_array_add_element (list, make_entry (view));
      break;
    case DESK_VIEW_RENAME:
      json_object_set_string_member (json_array_get_object_element (list, view->entry), "name",
                                     view->name);
      break;
    case DESK_VIEW_REMOVE:
      json_array_remove_element (list, view->entry);
      break;
    }
}

char *
desk_saved_views_text (const TrnPlan *plan, DeskViewChange change, const DeskSavedView *view,
                       gsize *length, TrnDiags *diags)
{
  g_autoptr (JsonNode) document = copy_deep (plan->document);
  JsonObject *object = json_node_get_object (document);
  JsonArray *list = find_list (object);
  if (list == NULL)
    {
      trn_diags_add (diags, TRN_SEVERITY_ERROR, "desk/views-no-list", "/" KEY);
      return NULL;
    }
  change_list (list, change, view);
  /* The last view takes the key along that the first one brought. */
  if (json_array_get_length (list) == 0)
    json_object_remove_member (object, KEY);
  gsize n_bytes;
  g_autofree char *text = trn_json_to_text (document, &n_bytes);
  if (n_bytes > TRN_JSON_MAX_BYTES)
    {
      /* It would be written and never read again: a value a line may take more room than before. */
      TrnDiag *diag = trn_diags_add (diags, TRN_SEVERITY_ERROR, "desk/plan-too-long", NULL);
      trn_diag_set_number (diag, "limit", TRN_JSON_MAX_BYTES, TRN_UNIT_BYTES);
      return NULL;
    }
  if (length != NULL)
    *length = n_bytes;
  return g_steal_pointer (&text);
}

/* ---- writing ---- */

static gboolean
is_as_read (const TrnPlan *plan, const char *path)
{
  gsize length;
  g_autofree char *bytes = trn_read_file (path, TRN_JSON_MAX_BYTES, &length);
  if (bytes == NULL)
    return FALSE;
  g_autofree char *sha256
      = g_compute_checksum_for_data (G_CHECKSUM_SHA256, (const guchar *)bytes, length);
  return strcmp (sha256, plan->sha256) == 0;
}

/* Putting a new file in place needs no right to the old one: a plan that was made read-only, once
 * it was agreed upon, would be changed all the same. */
static gboolean
may_write (const char *path, const GStatBuf *status, TrnDiags *diags)
{
  if ((status->st_mode & (S_IWUSR | S_IWGRP | S_IWOTH)) != 0 && g_access (path, W_OK) == 0)
    return TRUE;
  TrnDiag *diag = trn_diags_add (diags, TRN_SEVERITY_ERROR, "base/cannot-write", NULL);
  trn_diag_set_text (diag, "file", path);
  trn_diag_set_text (diag, "reason", g_strerror (EACCES));
  return FALSE;
}

/* A link is followed, or it would be replaced by a file; who may read and write it stays. */
DeskViewsOutcome
desk_saved_views_write (const TrnPlan *plan, DeskViewChange change, const DeskSavedView *view,
                        TrnDiags *diags)
{
  char *real = realpath (plan->file, NULL);
  g_autofree char *path = g_strdup (real != NULL ? real : plan->file);
  free (real);
  GStatBuf before;
  if (g_stat (path, &before) != 0 || !is_as_read (plan, path))
    return DESK_VIEWS_CHANGED_ON_DISK;
  if (!may_write (path, &before, diags))
    return DESK_VIEWS_FAILED;
  gsize length;
  g_autofree char *text = desk_saved_views_text (plan, change, view, &length, diags);
  if (text == NULL || !trn_write_file (path, text, length, diags))
    return DESK_VIEWS_FAILED;
  g_chmod (path, before.st_mode & 07777);
  return DESK_VIEWS_WRITTEN;
}

/* ---- on a thread ---- */

typedef struct
{
  DeskSite *site;
  DeskViewChange change;
  DeskSavedView *view;
  TrnDiags *diags;
  DeskViewsDone done;
  gpointer data;
  GDestroyNotify data_free;
} Job;

static void
job_free (Job *job)
{
  desk_site_unref (job->site);
  desk_saved_view_free (job->view);
  trn_diags_free (job->diags);
  if (job->data_free != NULL)
    job->data_free (job->data);
  g_free (job);
}

static void
job_run (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Job *job = data;
  g_task_return_int (task,
                     desk_saved_views_write (job->site->plan, job->change, job->view, job->diags));
}

static void
on_job_done (GObject *source, GAsyncResult *result, gpointer data)
{
  DeskDocument *document = DESK_DOCUMENT (source);
  Job *job = g_task_get_task_data (G_TASK (result));
  DeskViewsOutcome outcome = (DeskViewsOutcome)g_task_propagate_int (G_TASK (result), NULL);
  if (outcome == DESK_VIEWS_WRITTEN && desk_document_get_site (document) == job->site)
    desk_document_reload (document);
  job->done (outcome, job->diags, job->data);
}

void
desk_saved_views_change (DeskDocument *document, DeskSite *site, DeskViewChange change,
                         const DeskSavedView *view, DeskViewsDone done, gpointer data,
                         GDestroyNotify data_free)
{
  g_return_if_fail (DESK_IS_DOCUMENT (document) && site != NULL && view != NULL);
  Job *job = g_new (Job, 1);
  *job = (Job){ desk_site_ref (site),
                change,
                desk_saved_view_copy (view),
                trn_diags_new (),
                done,
                data,
                data_free };
  g_autoptr (GTask) task = g_task_new (document, NULL, on_job_done, NULL);
  g_task_set_task_data (task, job, (GDestroyNotify)job_free);
  g_task_run_in_thread (task, job_run);
}
