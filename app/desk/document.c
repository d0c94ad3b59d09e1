/* document.c: one job at a time reads a plan on a thread of its own; what it finds replaces what
 * was open only when it has come to an end.
 *
 * A job that is given up goes on to the next point where it looks at its progress, then frees
 * itself: nobody waits for it. Files are watched from the moment they are read; a file counts as
 * changed when its time or size differs from what they were just before it was read. */
#include "document.h"

#include <stdlib.h>
#include <string.h>

/* How often progress is told, and how long a file must be quiet before it counts as written. */
#define PROGRESS_MS 60
#define QUIET_MS 250

/* Shares of the work in the progress bar: reading and trees, then meshes for the view. */
#define SCENE_SHARE 0.8

/* Room for the answers of checks, some hundred thousand. */
#define ANSWER_BYTES ((gsize)64 << 20)

/* ---- site ---- */

DeskSite *
desk_site_ref (DeskSite *site)
{
  g_atomic_ref_count_inc (&site->refs);
  return site;
}

void
desk_site_unref (DeskSite *site)
{
  if (site == NULL || !g_atomic_ref_count_dec (&site->refs))
    return;
  g_clear_pointer (&site->display, render_site_free);
  g_clear_pointer (&site->scene, trn_scene_free);
  g_clear_pointer (&site->plan, trn_plan_unref);
  g_clear_pointer (&site->cache, trn_cache_unref);
  g_free (site);
}

gboolean
desk_site_is_whole (const DeskSite *site)
{
  return site != NULL && site->scene->n_left_out == 0;
}

/* ---- a file as it was when it was read ---- */

typedef struct
{
  GFile *file;
  char *stamp;      /* time and size; "" for a file that is not there */
  gboolean is_gone; /* it was there when it was read */
} Stamp;

static void
stamp_free (Stamp *stamp)
{
  g_object_unref (stamp->file);
  g_free (stamp->stamp);
  g_free (stamp);
}

#define STAMP_ATTRIBUTES                                                                           \
  G_FILE_ATTRIBUTE_TIME_MODIFIED "," G_FILE_ATTRIBUTE_TIME_MODIFIED_USEC                           \
                                 "," G_FILE_ATTRIBUTE_STANDARD_SIZE

/* Takes @info, which may be NULL. */
static char *
stamp_text_take (GFileInfo *info)
{
  if (info == NULL)
    return g_strdup ("");
  char *text = g_strdup_printf (
      "%" G_GUINT64_FORMAT ".%u %" G_GOFFSET_FORMAT,
      g_file_info_get_attribute_uint64 (info, G_FILE_ATTRIBUTE_TIME_MODIFIED),
      g_file_info_get_attribute_uint32 (info, G_FILE_ATTRIBUTE_TIME_MODIFIED_USEC),
      g_file_info_get_size (info));
  g_object_unref (info);
  return text;
}

static char *
stamp_text_read (GFile *file)
{
  return stamp_text_take (
      g_file_query_info (file, STAMP_ATTRIBUTES, G_FILE_QUERY_INFO_NONE, NULL, NULL));
}

/* ---- a job ---- */

typedef struct
{
  GFile *file;
  guint32 most_triangles;
  TrnCache *cache;
  TrnProgress progress;
  gint is_scene_done; /* atomic */
  double told; /* the fraction told last: more work may become known, but it never goes back */
  GPtrArray *stamps; /* of Stamp: the plan, then its mesh files */
  TrnDiags *diags;
  DeskSite *site; /* NULL where there is nothing to show */
} Job;

static void
job_free (Job *job)
{
  g_object_unref (job->file);
  g_clear_pointer (&job->stamps, g_ptr_array_unref);
  g_clear_pointer (&job->diags, trn_diags_free);
  g_clear_pointer (&job->site, desk_site_unref);
  trn_cache_unref (job->cache);
  g_free (job);
}

static void
job_add_stamp (Job *job, GFile *file)
{
  for (guint i = 0; i < job->stamps->len; i++)
    if (g_file_equal (((Stamp *)job->stamps->pdata[i])->file, file))
      return;
  Stamp *stamp = g_new0 (Stamp, 1);
  stamp->file = g_object_ref (file);
  stamp->stamp = stamp_text_read (file);
  g_ptr_array_add (job->stamps, stamp);
}

/* One that is missing is looked for where it ought to be. */
static void
job_add_shape (Job *job, const TrnShape *shape)
{
  if (shape->mesh == NULL)
    return;
  g_autoptr (GFile) folder = g_file_get_parent (job->file);
  g_autoptr (GFile) file = shape->mesh->path != NULL
                               ? g_file_new_for_path (shape->mesh->path)
                               : g_file_resolve_relative_path (folder, shape->mesh->file);
  job_add_stamp (job, file);
}

static void
job_add_meshes (Job *job, const TrnPlan *plan)
{
  for (guint i = 0; i < plan->n_structures; i++)
    job_add_shape (job, &plan->structures[i].shape);
  for (guint i = 0; i < plan->n_components; i++)
    job_add_shape (job, &plan->components[i].shape);
}

static void
job_build_site (Job *job, TrnPlan *plan, TrnProgramme *programme)
{
  TrnSceneOptions options = { .progress = &job->progress, .partial = TRUE, .cache = job->cache };
  g_autoptr (TrnScene) scene = trn_scene_build_take (programme, &options, job->diags);
  if (scene == NULL)
    return;
  g_atomic_int_set (&job->is_scene_done, 1);
  RenderSite *display = render_site_build (scene, job->most_triangles);
  job->site = g_new0 (DeskSite, 1);
  g_atomic_ref_count_init (&job->site->refs);
  job->site->plan = trn_plan_ref (plan);
  job->site->cache = trn_cache_ref (job->cache);
  job->site->scene = g_steal_pointer (&scene);
  job->site->display = display;
}

static void
job_run (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Job *job = data;
  g_autofree char *path = g_file_get_path (job->file);
  if (path == NULL)
    {
      g_autofree char *uri = g_file_get_uri (job->file);
      TrnDiag *diag = trn_diags_add (job->diags, TRN_SEVERITY_ERROR, "desk/not-local", NULL);
      trn_diag_set_text (diag, "file", uri);
      g_task_return_boolean (task, TRUE);
      return;
    }
  job_add_stamp (job, job->file);
  const TrnPlanOptions options = { .missing_files = TRUE };
  g_autoptr (TrnPlan) plan = trn_plan_read (path, &options, job->diags);
  if (plan != NULL)
    {
      job_add_meshes (job, plan);
      TrnProgramme *programme = trn_programme_play (plan, job->diags);
      if (programme != NULL)
        job_build_site (job, plan, programme);
    }
  g_task_return_boolean (task, TRUE);
}

/* ---- a plan as it was read ---- */

typedef struct
{
  GFile *file;
  DeskSite *site;
  TrnDiags *diags;
  GPtrArray *stamps; /* of Stamp: the plan, then its mesh files */
  char *title;
} Kept;

static void
kept_free (Kept *kept)
{
  if (kept == NULL)
    return;
  g_object_unref (kept->file);
  desk_site_unref (kept->site);
  if (kept->diags != NULL)
    trn_diags_free (kept->diags);
  g_ptr_array_unref (kept->stamps);
  g_free (kept->title);
  g_free (kept);
}

/* ---- the document ---- */

struct _DeskDocument
{
  GObject parent;
  DeskDocumentState state; /* of what is open; LOADING is told by the job */
  GFile *file;             /* of what is open */
  guint32 most_triangles;
  DeskSite *site;
  TrnCache *cache; /* for all that is opened, since one reads the same plan over and over */
  TrnDiags *diags;
  char *title;
  GPtrArray *stamps;   /* of Stamp */
  GPtrArray *monitors; /* of GFileMonitor */
  guint quiet_id;
  Job *job; /* borrowed from its task; NULL when nothing is read */
  GCancellable *looking;
  guint progress_id;
  gboolean told_changed;
  Kept *before; /* the good plan that a faulty one took the place of; NULL: none */
};

enum
{
  CHANGED,
  PROGRESS,
  CHANGED_ON_DISK,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (DeskDocument, desk_document, G_TYPE_OBJECT)

static void
stop_watching (DeskDocument *document)
{
  for (guint i = 0; document->monitors != NULL && i < document->monitors->len; i++)
    {
      GFileMonitor *monitor = document->monitors->pdata[i];
      g_signal_handlers_disconnect_by_data (monitor, document);
      g_file_monitor_cancel (monitor);
    }
  g_clear_pointer (&document->monitors, g_ptr_array_unref);
  g_clear_handle_id (&document->quiet_id, g_source_remove);
  if (document->looking != NULL)
    g_cancellable_cancel (document->looking);
  g_clear_object (&document->looking);
}

/* One file was looked at again. */
static void
on_looked (GObject *object, GAsyncResult *result, gpointer data)
{
  g_autoptr (DeskDocument) document = data;
  g_autoptr (GError) error = NULL;
  GFileInfo *info = g_file_query_info_finish (G_FILE (object), result, &error);
  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED) || document->stamps == NULL)
    {
      g_clear_object (&info);
      return;
    }
  g_autofree char *now = stamp_text_take (info);
  for (guint i = 0; i < document->stamps->len; i++)
    {
      Stamp *stamp = document->stamps->pdata[i];
      if (!g_file_equal (stamp->file, G_FILE (object)))
        continue;
      gboolean is_changed = strcmp (stamp->stamp, now) != 0, is_gone = is_changed && *now == '\0';
      gboolean is_news = is_gone != stamp->is_gone || (is_changed && !document->told_changed);
      stamp->is_gone = is_gone;
      document->told_changed |= is_changed;
      if (is_news)
        g_signal_emit (document, signals[CHANGED_ON_DISK], 0);
      return;
    }
}

static gboolean
on_quiet (gpointer data)
{
  DeskDocument *document = data;
  document->quiet_id = 0;
  for (guint i = 0; document->stamps != NULL && i < document->stamps->len; i++)
    {
      const Stamp *stamp = document->stamps->pdata[i];
      g_file_query_info_async (stamp->file, STAMP_ATTRIBUTES, G_FILE_QUERY_INFO_NONE,
                               G_PRIORITY_DEFAULT, document->looking, on_looked,
                               g_object_ref (document));
    }
  return G_SOURCE_REMOVE;
}

static void
on_file_event (GFileMonitor *monitor, GFile *file, GFile *other, GFileMonitorEvent event,
               DeskDocument *document)
{
  g_clear_handle_id (&document->quiet_id, g_source_remove);
  document->quiet_id = g_timeout_add (QUIET_MS, on_quiet, document);
}

static void
watch (DeskDocument *document, GFile *file)
{
  GFileMonitor *monitor = g_file_monitor_file (file, G_FILE_MONITOR_WATCH_MOVES, NULL, NULL);
  if (monitor == NULL)
    return;
  g_signal_connect (monitor, "changed", G_CALLBACK (on_file_event), document);
  g_ptr_array_add (document->monitors, monitor);
}

/* Of a link both are watched, itself and the file that it leads to. */
static void
watch_followed (DeskDocument *document, GFile *file)
{
  watch (document, file);
  const char *path = g_file_peek_path (file);
  char *real = path != NULL ? realpath (path, NULL) : NULL;
  if (real != NULL && strcmp (real, path) != 0)
    {
      g_autoptr (GFile) followed = g_file_new_for_path (real);
      watch (document, followed);
    }
  free (real);
}

static void
start_watching (DeskDocument *document)
{
  stop_watching (document);
  document->told_changed = FALSE;
  document->looking = g_cancellable_new ();
  document->monitors = g_ptr_array_new_with_free_func (g_object_unref);
  for (guint i = 0; i < document->stamps->len; i++)
    watch_followed (document, ((const Stamp *)document->stamps->pdata[i])->file);
  /* What was written between reading and watching. */
  document->quiet_id = g_timeout_add (QUIET_MS, on_quiet, document);
}

static void
update_title (DeskDocument *document)
{
  g_clear_pointer (&document->title, g_free);
  GFile *file = desk_document_get_file (document);
  if (document->job == NULL && document->site != NULL && *document->site->plan->title != '\0')
    document->title = g_strdup (document->site->plan->title);
  else if (file != NULL)
    {
      g_autofree char *base_name = g_file_get_basename (file);
      document->title = g_filename_display_name (base_name);
    }
}

/* Forgets the job, which frees itself when its thread has noticed. */
static void
give_up_job (DeskDocument *document)
{
  if (document->job != NULL)
    trn_progress_cancel (&document->job->progress);
  document->job = NULL;
  g_clear_handle_id (&document->progress_id, g_source_remove);
}

/* Of a plan that could be shown as a whole, when another file takes its place and cannot. */
static void
keep_before (DeskDocument *document, const Job *job)
{
  if (desk_site_is_whole (job->site))
    {
      g_clear_pointer (&document->before, kept_free);
      return;
    }
  if (document->state != DESK_DOCUMENT_READY || g_file_equal (document->file, job->file))
    return;
  kept_free (document->before);
  document->before = g_new0 (Kept, 1);
  const char *title = document->site->plan->title;
  g_autofree char *base_name = g_file_get_basename (document->file);
  document->before->title = *title != '\0' ? g_strdup (title) : g_filename_display_name (base_name);
  document->before->file = g_steal_pointer (&document->file);
  document->before->site = g_steal_pointer (&document->site);
  document->before->diags = document->diags;
  document->diags = trn_diags_new ();
  document->before->stamps = g_steal_pointer (&document->stamps);
}

static void
on_job_done (GObject *source, GAsyncResult *result, gpointer data)
{
  DeskDocument *document = DESK_DOCUMENT (source);
  Job *job = g_task_get_task_data (G_TASK (result));
  if (document->job != job)
    return;
  document->job = NULL;
  g_clear_handle_id (&document->progress_id, g_source_remove);
  keep_before (document, job);
  g_clear_pointer (&document->site, desk_site_unref);
  g_set_object (&document->file, job->file);
  document->site = g_steal_pointer (&job->site);
  trn_diags_free (document->diags);
  document->diags = g_steal_pointer (&job->diags);
  g_clear_pointer (&document->stamps, g_ptr_array_unref);
  document->stamps = g_steal_pointer (&job->stamps);
  document->state
      = desk_site_is_whole (document->site) ? DESK_DOCUMENT_READY : DESK_DOCUMENT_FAULTY;
  update_title (document);
  start_watching (document);
  g_signal_emit (document, signals[CHANGED], 0);
}

static gboolean
on_progress_time (gpointer data)
{
  DeskDocument *document = data;
  Job *job = document->job;
  int total = g_atomic_int_get (&job->progress.total);
  int done = g_atomic_int_get (&job->progress.done);
  double fraction = total > 0 ? SCENE_SHARE * done / total : 0;
  if (g_atomic_int_get (&job->is_scene_done))
    fraction = SCENE_SHARE;
  job->told = CLAMP (fraction, job->told, 1.0);
  g_signal_emit (document, signals[PROGRESS], 0, job->told);
  return G_SOURCE_CONTINUE;
}

void
desk_document_open (DeskDocument *document, GFile *file, guint32 most_triangles)
{
  g_return_if_fail (DESK_IS_DOCUMENT (document) && G_IS_FILE (file));
  give_up_job (document);
  document->most_triangles = most_triangles;
  Job *job = g_new0 (Job, 1);
  job->file = g_object_ref (file);
  job->most_triangles = most_triangles;
  job->cache = trn_cache_ref (document->cache);
  job->diags = trn_diags_new ();
  job->stamps = g_ptr_array_new_with_free_func ((GDestroyNotify)stamp_free);
  document->job = job;
  document->progress_id = g_timeout_add (PROGRESS_MS, on_progress_time, document);
  g_autoptr (GTask) task = g_task_new (document, NULL, on_job_done, NULL);
  g_task_set_task_data (task, job, (GDestroyNotify)job_free);
  g_task_run_in_thread (task, job_run);
  update_title (document);
  g_signal_emit (document, signals[CHANGED], 0);
}

void
desk_document_reload (DeskDocument *document)
{
  g_return_if_fail (DESK_IS_DOCUMENT (document));
  GFile *file = desk_document_get_file (document);
  if (file == NULL)
    return;
  g_autoptr (GFile) same = g_object_ref (file);
  desk_document_open (document, same, document->most_triangles);
}

void
desk_document_cancel (DeskDocument *document)
{
  g_return_if_fail (DESK_IS_DOCUMENT (document));
  if (document->job == NULL)
    return;
  give_up_job (document);
  update_title (document);
  g_signal_emit (document, signals[CHANGED], 0);
}

void
desk_document_close (DeskDocument *document)
{
  g_return_if_fail (DESK_IS_DOCUMENT (document));
  give_up_job (document);
  stop_watching (document);
  g_clear_pointer (&document->before, kept_free);
  g_clear_object (&document->file);
  g_clear_pointer (&document->site, desk_site_unref);
  g_clear_pointer (&document->stamps, g_ptr_array_unref);
  trn_cache_clear (document->cache);
  trn_diags_free (document->diags);
  document->diags = trn_diags_new ();
  document->state = DESK_DOCUMENT_EMPTY;
  document->told_changed = FALSE;
  update_title (document);
  g_signal_emit (document, signals[CHANGED], 0);
}

void
desk_document_go_back (DeskDocument *document)
{
  g_return_if_fail (DESK_IS_DOCUMENT (document));
  if (desk_document_get_back_title (document) == NULL)
    return;
  Kept *before = g_steal_pointer (&document->before);
  g_clear_object (&document->file);
  g_clear_pointer (&document->site, desk_site_unref);
  g_clear_pointer (&document->stamps, g_ptr_array_unref);
  trn_diags_free (document->diags);
  document->file = g_object_ref (before->file);
  document->site = desk_site_ref (before->site);
  document->diags = g_steal_pointer (&before->diags);
  document->stamps = g_ptr_array_ref (before->stamps);
  document->state = DESK_DOCUMENT_READY;
  kept_free (before);
  update_title (document);
  /* What was written meanwhile is noticed by the stamps. */
  start_watching (document);
  g_signal_emit (document, signals[CHANGED], 0);
}

const char *
desk_document_get_back_title (DeskDocument *document)
{
  g_return_val_if_fail (DESK_IS_DOCUMENT (document), NULL);
  gboolean may_go = document->before != NULL && document->job == NULL
                    && document->state == DESK_DOCUMENT_FAULTY;
  return may_go ? document->before->title : NULL;
}

DeskDocumentState
desk_document_get_state (DeskDocument *document)
{
  g_return_val_if_fail (DESK_IS_DOCUMENT (document), DESK_DOCUMENT_EMPTY);
  return document->job != NULL ? DESK_DOCUMENT_LOADING : document->state;
}

DeskSite *
desk_document_get_site (DeskDocument *document)
{
  g_return_val_if_fail (DESK_IS_DOCUMENT (document), NULL);
  return document->job != NULL ? NULL : document->site;
}

const TrnDiags *
desk_document_get_diags (DeskDocument *document)
{
  g_return_val_if_fail (DESK_IS_DOCUMENT (document), NULL);
  return document->diags;
}

GFile *
desk_document_get_file (DeskDocument *document)
{
  g_return_val_if_fail (DESK_IS_DOCUMENT (document), NULL);
  return document->job != NULL ? document->job->file : document->file;
}

const char *
desk_document_get_title (DeskDocument *document)
{
  g_return_val_if_fail (DESK_IS_DOCUMENT (document), "");
  return document->title != NULL ? document->title : "";
}

gboolean
desk_document_is_changed_on_disk (DeskDocument *document)
{
  g_return_val_if_fail (DESK_IS_DOCUMENT (document), FALSE);
  return document->told_changed;
}

const char *
desk_document_get_gone_file (DeskDocument *document)
{
  g_return_val_if_fail (DESK_IS_DOCUMENT (document), NULL);
  for (guint i = 0; document->stamps != NULL && i < document->stamps->len; i++)
    {
      const Stamp *stamp = document->stamps->pdata[i];
      if (stamp->is_gone)
        return g_file_peek_path (stamp->file);
    }
  return NULL;
}

static void
desk_document_dispose (GObject *object)
{
  DeskDocument *document = DESK_DOCUMENT (object);
  give_up_job (document);
  stop_watching (document);
  g_clear_pointer (&document->before, kept_free);
  g_clear_object (&document->file);
  g_clear_pointer (&document->site, desk_site_unref);
  g_clear_pointer (&document->stamps, g_ptr_array_unref);
  G_OBJECT_CLASS (desk_document_parent_class)->dispose (object);
}

static void
desk_document_finalize (GObject *object)
{
  DeskDocument *document = DESK_DOCUMENT (object);
  trn_diags_free (document->diags);
  trn_cache_unref (document->cache);
  g_free (document->title);
  G_OBJECT_CLASS (desk_document_parent_class)->finalize (object);
}

static void
desk_document_class_init (DeskDocumentClass *class)
{
  GObjectClass *object_class = G_OBJECT_CLASS (class);
  object_class->dispose = desk_document_dispose;
  object_class->finalize = desk_document_finalize;
  GType type = G_TYPE_FROM_CLASS (class);
  signals[CHANGED]
      = g_signal_new ("changed", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[PROGRESS] = g_signal_new ("progress", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                    G_TYPE_NONE, 1, G_TYPE_DOUBLE);
  signals[CHANGED_ON_DISK] = g_signal_new ("changed-on-disk", type, G_SIGNAL_RUN_LAST, 0, NULL,
                                           NULL, NULL, G_TYPE_NONE, 0);
}

static void
desk_document_init (DeskDocument *document)
{
  document->diags = trn_diags_new ();
  document->cache = trn_cache_new (ANSWER_BYTES);
}

DeskDocument *
desk_document_new (void)
{
  return g_object_new (DESK_TYPE_DOCUMENT, NULL);
}
