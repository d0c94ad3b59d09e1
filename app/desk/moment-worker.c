/* moment-worker.c: one thread, one wish, one answer, all three under one lock.
 *
 * The thread keeps its moment between wishes, so that the search begins where the last one ended;
 * what it hands out is a copy. An answer is told before the next frame is drawn, so that distances
 * and picture belong together. */
#include "moment-worker.h"

/* ---- what the check found ---- */

struct _DeskKnown
{
  gatomicrefcount refs;
  TrnFindings *findings; /* of one lift */
  GMutex lock;           /* of making the judge, once, by the thread that asks for it first */
  RenderJudge *judge;    /* by them; NULL: not made yet */
};

DeskKnown *
desk_known_new (const TrnFindings *findings, guint run)
{
  TrnFindings *copy = trn_findings_dup_lift (findings, run);
  if (copy == NULL)
    return NULL;
  DeskKnown *known = g_new0 (DeskKnown, 1);
  g_atomic_ref_count_init (&known->refs);
  g_mutex_init (&known->lock);
  known->findings = copy;
  return known;
}

DeskKnown *
desk_known_ref (DeskKnown *known)
{
  g_atomic_ref_count_inc (&known->refs);
  return known;
}

void
desk_known_unref (DeskKnown *known)
{
  if (known == NULL || !g_atomic_ref_count_dec (&known->refs))
    return;
  render_judge_free (known->judge);
  g_mutex_clear (&known->lock);
  trn_findings_free (known->findings);
  g_free (known);
}

const GArray *
desk_known_findings (const DeskKnown *known)
{
  return known != NULL ? known->findings->lifts[0].findings : NULL;
}

const RenderJudge *
desk_known_lay_out (DeskKnown *known, const TrnMoment *moment)
{
  if (known == NULL)
    return NULL;
  g_mutex_lock (&known->lock);
  if (known->judge == NULL)
    known->judge = render_judge_new (known->findings, moment);
  g_mutex_unlock (&known->lock);
  return known->judge;
}

const RenderJudge *
desk_known_judge (const DeskKnown *known)
{
  return known != NULL ? known->judge : NULL;
}

/* ---- the worker ---- */

typedef struct
{
  DeskSite *site; /* reference held, as of the next; NULL: none */
  DeskKnown *known;
  guint run;
  double time_s;
} Wish;

struct _DeskMomentWorker
{
  DeskMomentFunc func;
  gpointer data;
  GThread *thread;
  GMutex lock; /* of all below */
  GCond asked;
  Wish wish;
  gboolean is_new, quit;
  TrnMoment *answer; /* not told yet */
  Wish answered;     /* what it is the answer to */
  guint tell_id;
};

/* What the thread keeps from wish to wish. */
typedef struct
{
  TrnMoment *moment;
  DeskKnown *known;
  DeskSite *site;
} Kept;

static void
let_go_of_wish (Wish *wish)
{
  g_clear_pointer (&wish->site, desk_site_unref);
  g_clear_pointer (&wish->known, desk_known_unref);
}

static void
let_go (Kept *kept)
{
  g_clear_pointer (&kept->moment, trn_moment_free);
  g_clear_pointer (&kept->known, desk_known_unref);
  g_clear_pointer (&kept->site, desk_site_unref);
}

static TrnMoment *
copy_moment (const TrnMoment *moment)
{
  TrnMoment *copy = g_memdup2 (moment, sizeof *moment);
  gsize n = moment->n_obstacles;
  copy->obstacles = g_memdup2 (moment->obstacles, n * sizeof *moment->obstacles);
  copy->pairs = g_memdup2 (moment->pairs, moment->n_pairs * sizeof *moment->pairs);
  copy->distances = g_memdup2 (moment->distances, moment->n_pairs * sizeof *moment->distances);
  copy->placed = g_memdup2 (moment->placed, moment->n_pairs * sizeof *moment->placed);
  copy->hints = g_memdup2 (moment->hints, n * sizeof *moment->hints);
  trn_moment_judge_by (copy, NULL, NULL);
  return copy;
}

/* With other findings another part of a gear may stand worst. */
static void
judge_by (Kept *kept, DeskKnown *known)
{
  trn_moment_judge_by (kept->moment, render_judge_part, desk_known_lay_out (known, kept->moment));
  desk_known_unref (kept->known);
  kept->known = known != NULL ? desk_known_ref (known) : NULL;
}

/* The moment of the wish; NULL where none is wanted. */
static TrnMoment *
fulfil (Kept *kept, const Wish *wish)
{
  if (wish->site == NULL)
    {
      let_go (kept);
      return NULL;
    }
  const gboolean is_new = kept->site != wish->site
                          || kept->moment->run != &wish->site->scene->programme->runs[wish->run];
  if (is_new)
    {
      let_go (kept);
      kept->moment = trn_moment_new (wish->site->scene, wish->run);
      kept->site = desk_site_ref (wish->site);
    }
  const gboolean is_other = is_new || wish->known != kept->known;
  if (is_other)
    judge_by (kept, wish->known);
  if (is_other || wish->time_s != kept->moment->time_s)
    trn_moment_set_time (kept->moment, wish->time_s);
  return copy_moment (kept->moment);
}

static gboolean
on_tell (gpointer data)
{
  DeskMomentWorker *worker = data;
  g_mutex_lock (&worker->lock);
  worker->tell_id = 0;
  Wish answered = worker->answered;
  worker->answered = (Wish){ .site = NULL };
  TrnMoment *moment = g_steal_pointer (&worker->answer);
  g_mutex_unlock (&worker->lock);
  if (moment != NULL)
    worker->func (moment, answered.known, answered.site, worker->data);
  let_go_of_wish (&answered);
  return G_SOURCE_REMOVE;
}

/* The answer takes the place of one that nobody has fetched, and takes what it answers. What is
 * not needed any more is given back in them: the last of a site is not let go of under the lock,
 * while the main loop may wait for it. */
static void
put_answer (DeskMomentWorker *worker, TrnMoment **answer, Wish *wish)
{
  g_mutex_lock (&worker->lock);
  TrnMoment *before = worker->answer;
  Wish answered = worker->answered;
  worker->answer = *answer;
  worker->answered = *wish;
  if (worker->tell_id == 0)
    worker->tell_id = g_idle_add_full (G_PRIORITY_DEFAULT, on_tell, worker, NULL);
  g_mutex_unlock (&worker->lock);
  *answer = before;
  *wish = answered;
}

/* Waits for a wish; FALSE: it is over. */
static gboolean
take_wish (DeskMomentWorker *worker, Wish *wish)
{
  g_mutex_lock (&worker->lock);
  while (!worker->is_new && !worker->quit)
    g_cond_wait (&worker->asked, &worker->lock);
  const gboolean quit = worker->quit;
  if (!quit)
    {
      *wish = worker->wish;
      worker->wish = (Wish){ .site = NULL };
      worker->is_new = FALSE;
    }
  g_mutex_unlock (&worker->lock);
  return !quit;
}

static gpointer
work (gpointer data)
{
  DeskMomentWorker *worker = data;
  Kept kept = { .moment = NULL };
  Wish wish;
  while (take_wish (worker, &wish))
    {
      TrnMoment *moment = fulfil (&kept, &wish);
      if (moment != NULL)
        put_answer (worker, &moment, &wish);
      trn_moment_free (moment);
      let_go_of_wish (&wish);
    }
  let_go (&kept);
  return NULL;
}

void
desk_moment_worker_ask (DeskMomentWorker *worker, DeskSite *site, guint run, double time_s,
                        DeskKnown *known)
{
  g_mutex_lock (&worker->lock);
  Wish before = worker->wish;
  worker->wish = (Wish){ .site = site != NULL ? desk_site_ref (site) : NULL,
                         .known = known != NULL ? desk_known_ref (known) : NULL,
                         .run = run,
                         .time_s = time_s };
  worker->is_new = TRUE;
  g_cond_signal (&worker->asked);
  g_mutex_unlock (&worker->lock);
  let_go_of_wish (&before);
}

DeskMomentWorker *
desk_moment_worker_new (DeskMomentFunc func, gpointer data)
{
  DeskMomentWorker *worker = g_new0 (DeskMomentWorker, 1);
  worker->func = func;
  worker->data = data;
  g_mutex_init (&worker->lock);
  g_cond_init (&worker->asked);
  worker->thread = g_thread_new ("moment", work, worker);
  return worker;
}

void
desk_moment_worker_free (DeskMomentWorker *worker)
{
  if (worker == NULL)
    return;
  g_mutex_lock (&worker->lock);
  worker->quit = TRUE;
  g_cond_signal (&worker->asked);
  g_mutex_unlock (&worker->lock);
  g_thread_join (worker->thread);
  g_clear_handle_id (&worker->tell_id, g_source_remove);
  let_go_of_wish (&worker->wish);
  trn_moment_free (worker->answer);
  let_go_of_wish (&worker->answered);
  g_mutex_clear (&worker->lock);
  g_cond_clear (&worker->asked);
  g_free (worker);
}
