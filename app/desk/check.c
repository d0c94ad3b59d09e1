/* check.c: one background thread checks lift after lift; the main loop collects what is done.
 *
 * The main loop looks at the job at even times, so the thread never has to reach it. A job that is
 * cancelled is forgotten at once, and what it still brings is dropped: a lift counts as checked
 * only when all of it is. */
#include "check.h"

#include "parallel.h"

#define COLLECT_MS 80

/* ---- a job ---- */

typedef struct
{
  gatomicrefcount refs;
  DeskSite *site;
  guint jobs;
  TrnProgress progress; /* of the lift that is checked */
  GMutex lock;
  guint n_done;    /* lifts; locked, like the next two */
  GPtrArray *done; /* of TrnFindings of one lift, not collected yet; owned */
  gboolean ended;
} Job;

static void
job_unref (Job *job)
{
  if (!g_atomic_ref_count_dec (&job->refs))
    return;
  desk_site_unref (job->site);
  g_ptr_array_unref (job->done);
  g_mutex_clear (&job->lock);
  g_free (job);
}

static gpointer
job_run (gpointer data)
{
  Job *job = data;
  const TrnProgramme *programme = job->site->scene->programme;
  trn_thread_stand_back ();
  for (guint i = 0; i < programme->n_runs && !trn_progress_is_cancelled (&job->progress); i++)
    {
      g_atomic_int_set (&job->progress.total, 0);
      g_atomic_int_set (&job->progress.done, 0);
      TrnCheckOptions options = { .jobs = job->jobs,
                                  .lift = programme->runs[i].lift->id,
                                  .progress = &job->progress,
                                  .cache = job->site->cache };
      TrnFindings *findings = trn_checks_run (job->site->scene, &options);
      g_mutex_lock (&job->lock);
      g_ptr_array_add (job->done, findings);
      job->n_done++;
      g_mutex_unlock (&job->lock);
    }
  g_mutex_lock (&job->lock);
  job->ended = TRUE;
  g_mutex_unlock (&job->lock);
  job_unref (job);
  return NULL;
}

static Job *
job_start (DeskSite *site)
{
  Job *job = g_new0 (Job, 1);
  g_atomic_ref_count_init (&job->refs);
  job->site = desk_site_ref (site);
  /* One processor is left for the window. */
  job->jobs = MAX (trn_parallel_jobs (0), 2) - 1;
  job->done = g_ptr_array_new_with_free_func ((GDestroyNotify)trn_findings_free);
  g_mutex_init (&job->lock);
  g_atomic_ref_count_inc (&job->refs);
  g_thread_unref (g_thread_new ("check", job_run, job));
  return job;
}

/* ---- the check ---- */

struct _DeskCheck
{
  GObject parent;
  DeskCheckState state;
  DeskSite *site;
  TrnFindings *findings;
  double fraction;
  Job *job; /* NULL when none runs */
  guint collect_id;
};

enum
{
  CHANGED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (DeskCheck, desk_check, G_TYPE_OBJECT)

static void
give_up_job (DeskCheck *check)
{
  g_clear_handle_id (&check->collect_id, g_source_remove);
  if (check->job == NULL)
    return;
  trn_progress_cancel (&check->job->progress);
  g_clear_pointer (&check->job, job_unref);
}

static guint
count_runs (const DeskCheck *check)
{
  return check->site->scene->programme->n_runs;
}

/* Lifts that are not there are not known. */
static void
fold_verdict (DeskCheck *check)
{
  TrnFindings *findings = check->findings;
  findings->complete = findings->n_lifts == count_runs (check);
  findings->verdict
      = findings->complete && findings->n_lifts > 0 ? TRN_VERDICT_PASS : TRN_VERDICT_UNKNOWN;
  for (guint i = 0; i < findings->n_lifts; i++)
    findings->verdict = trn_verdict_fold (findings->verdict, findings->lifts[i].verdict);
}

/* Takes the one lift of @part over. */
static void
add_lift_take (DeskCheck *check, TrnFindings *part)
{
  TrnFindings *findings = check->findings;
  if (findings == NULL)
    {
      findings = check->findings = g_new0 (TrnFindings, 1);
      findings->lifts = g_new0 (TrnLiftFindings, count_runs (check));
      findings->certify_m = part->certify_m;
      findings->checks_done = part->checks_done;
    }
  g_assert (part->n_lifts == 1 && findings->n_lifts < count_runs (check));
  findings->lifts[findings->n_lifts++] = part->lifts[0];
  findings->sweep_s += part->sweep_s;
  part->n_lifts = 0;
  trn_findings_free (part);
  fold_verdict (check);
}

static double
work_out_fraction (const DeskCheck *check, guint n_done)
{
  int total = g_atomic_int_get (&check->job->progress.total);
  int done = g_atomic_int_get (&check->job->progress.done);
  double of_lift = total > 0 ? CLAMP ((double)done / total, 0, 1) : 0;
  return MIN ((n_done + of_lift) / MAX (count_runs (check), 1), 1);
}

static gboolean
on_collect (gpointer data)
{
  DeskCheck *check = data;
  Job *job = check->job;
  g_mutex_lock (&job->lock);
  guint n_done = job->n_done;
  gboolean ended = job->ended, is_other = ended || job->done->len > 0;
  while (job->done->len > 0)
    add_lift_take (check, g_ptr_array_steal_index (job->done, 0));
  g_mutex_unlock (&job->lock);
  double fraction = MAX (check->fraction, work_out_fraction (check, n_done));
  is_other = is_other || fraction > check->fraction;
  check->fraction = fraction;
  if (ended)
    {
      check->state = DESK_CHECK_DONE;
      check->fraction = 1;
      check->collect_id = 0;
      g_clear_pointer (&check->job, job_unref);
    }
  if (is_other)
    g_signal_emit (check, signals[CHANGED], 0);
  return ended ? G_SOURCE_REMOVE : G_SOURCE_CONTINUE;
}

void
desk_check_start (DeskCheck *check, DeskSite *site)
{
  g_return_if_fail (DESK_IS_CHECK (check) && desk_site_is_whole (site));
  give_up_job (check);
  g_clear_pointer (&check->findings, trn_findings_free);
  DeskSite *before = check->site;
  check->site = desk_site_ref (site);
  desk_site_unref (before);
  check->state = DESK_CHECK_RUNNING;
  check->fraction = 0;
  check->job = job_start (site);
  check->collect_id = g_timeout_add (COLLECT_MS, on_collect, check);
  g_signal_emit (check, signals[CHANGED], 0);
}

void
desk_check_cancel (DeskCheck *check)
{
  g_return_if_fail (DESK_IS_CHECK (check));
  if (check->job == NULL)
    return;
  give_up_job (check);
  check->state = DESK_CHECK_CANCELLED;
  g_signal_emit (check, signals[CHANGED], 0);
}

void
desk_check_clear (DeskCheck *check)
{
  g_return_if_fail (DESK_IS_CHECK (check));
  give_up_job (check);
  g_clear_pointer (&check->findings, trn_findings_free);
  g_clear_pointer (&check->site, desk_site_unref);
  check->state = DESK_CHECK_NONE;
  check->fraction = 0;
  g_signal_emit (check, signals[CHANGED], 0);
}

DeskCheckState
desk_check_get_state (DeskCheck *check)
{
  g_return_val_if_fail (DESK_IS_CHECK (check), DESK_CHECK_NONE);
  return check->state;
}

double
desk_check_get_fraction (DeskCheck *check)
{
  g_return_val_if_fail (DESK_IS_CHECK (check), 0);
  return check->fraction;
}

const TrnFindings *
desk_check_get_findings (DeskCheck *check)
{
  g_return_val_if_fail (DESK_IS_CHECK (check), NULL);
  return check->findings;
}

const TrnLiftFindings *
desk_check_get_lift (DeskCheck *check, guint run)
{
  g_return_val_if_fail (DESK_IS_CHECK (check), NULL);
  return trn_findings_get_lift (check->findings, run);
}

DeskSite *
desk_check_get_site (DeskCheck *check)
{
  g_return_val_if_fail (DESK_IS_CHECK (check), NULL);
  return check->site;
}

static void
desk_check_dispose (GObject *object)
{
  DeskCheck *check = DESK_CHECK (object);
  give_up_job (check);
  g_clear_pointer (&check->findings, trn_findings_free);
  g_clear_pointer (&check->site, desk_site_unref);
  G_OBJECT_CLASS (desk_check_parent_class)->dispose (object);
}

static void
desk_check_class_init (DeskCheckClass *class)
{
  G_OBJECT_CLASS (class)->dispose = desk_check_dispose;
  signals[CHANGED] = g_signal_new ("changed", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL,
                                   NULL, NULL, G_TYPE_NONE, 0);
}

static void
desk_check_init (DeskCheck *check)
{
}

DeskCheck *
desk_check_new (void)
{
  return g_object_new (DESK_TYPE_CHECK, NULL);
}
