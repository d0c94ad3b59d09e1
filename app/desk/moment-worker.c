/* moment-worker.c: one thread, one wish, one answer, all three under one lock.
 *
 * The thread keeps its moment between wishes, so that the search begins where the last one ended;
 * what it hands out is a copy. An answer is told before the next frame is drawn, so that distances
 * and picture belong together. */
#include "moment-worker.h"

typedef struct
{
  DeskSite *site; /* reference held; NULL: none */
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
  DeskSite *answer_site;
  guint tell_id;
};

/* What the thread keeps from wish to wish. */
typedef struct
{
  TrnMoment *moment;
  DeskSite *site;
} Kept;

static void
let_go (Kept *kept)
{
  g_clear_pointer (&kept->moment, trn_moment_free);
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
  copy->hints = g_memdup2 (moment->hints, n * sizeof *moment->hints);
  return copy;
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
  if (kept->site != wish->site
      || kept->moment->run != &wish->site->scene->programme->runs[wish->run])
    {
      let_go (kept);
      kept->moment = trn_moment_new (wish->site->scene, wish->run);
      kept->site = desk_site_ref (wish->site);
    }
  if (wish->time_s != kept->moment->time_s)
    trn_moment_set_time (kept->moment, wish->time_s);
  return copy_moment (kept->moment);
}

static gboolean
on_tell (gpointer data)
{
  DeskMomentWorker *worker = data;
  g_mutex_lock (&worker->lock);
  worker->tell_id = 0;
  g_autoptr (DeskSite) site = g_steal_pointer (&worker->answer_site);
  TrnMoment *moment = g_steal_pointer (&worker->answer);
  g_mutex_unlock (&worker->lock);
  if (moment != NULL)
    worker->func (moment, site, worker->data);
  return G_SOURCE_REMOVE;
}

/* Locked. An answer that nobody has fetched yet is replaced. */
static void
put_answer_take (DeskMomentWorker *worker, TrnMoment *answer, DeskSite *site)
{
  trn_moment_free (worker->answer);
  desk_site_unref (worker->answer_site);
  worker->answer = answer;
  worker->answer_site = desk_site_ref (site);
  if (worker->tell_id == 0)
    worker->tell_id = g_idle_add_full (G_PRIORITY_DEFAULT, on_tell, worker, NULL);
}

static gpointer
work (gpointer data)
{
  DeskMomentWorker *worker = data;
  Kept kept = { NULL, NULL };
  g_mutex_lock (&worker->lock);
  while (!worker->quit)
    {
      if (!worker->is_new)
        {
          g_cond_wait (&worker->asked, &worker->lock);
          continue;
        }
      Wish wish = worker->wish;
      worker->wish.site = NULL;
      worker->is_new = FALSE;
      g_mutex_unlock (&worker->lock);
      TrnMoment *answer = fulfil (&kept, &wish);
      g_mutex_lock (&worker->lock);
      if (answer != NULL)
        put_answer_take (worker, answer, wish.site);
      desk_site_unref (wish.site);
    }
  g_mutex_unlock (&worker->lock);
  let_go (&kept);
  return NULL;
}

void
desk_moment_worker_ask (DeskMomentWorker *worker, DeskSite *site, guint run, double time_s)
{
  g_mutex_lock (&worker->lock);
  DeskSite *before = worker->wish.site;
  worker->wish = (Wish){ site != NULL ? desk_site_ref (site) : NULL, run, time_s };
  worker->is_new = TRUE;
  g_cond_signal (&worker->asked);
  g_mutex_unlock (&worker->lock);
  desk_site_unref (before);
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
  desk_site_unref (worker->wish.site);
  trn_moment_free (worker->answer);
  desk_site_unref (worker->answer_site);
  g_mutex_clear (&worker->lock);
  g_cond_clear (&worker->asked);
  g_free (worker);
}
