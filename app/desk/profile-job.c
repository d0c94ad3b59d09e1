/* profile-job.c: the times are laid out first; the thread fills one column after the other and then
 * raises a count that is read atomically, so that no lock is needed. */
#include "profile-job.h"

#include <math.h>

#include "parallel.h"

#define TIMES_OF_LIFT 400
#define LEAST_OF_MOVE 8

/* Shared by the thread and the main loop. */
typedef struct
{
  gatomicrefcount refs;
  gint cancelled, n_done; /* atomic */
  DeskSite *site;
  DeskKnown *known; /* NULL: not checked yet */
  guint run, n_times, n_obstacles, n_pairs;
  TrnObstacle *obstacles;
  TrnMomentPair *pairs;
  double *times_s, *distances_m, *spares_m, *values;
  DeskGauge gauges[DESK_MOST_GAUGES];
  guint n_gauges;
} Columns;

struct _DeskProfileJob
{
  Columns *columns;
  DeskProfile profile;
};

static void
columns_unref (Columns *columns)
{
  if (!g_atomic_ref_count_dec (&columns->refs))
    return;
  desk_site_unref (columns->site);
  desk_known_unref (columns->known);
  g_free (columns->times_s);
  g_free (columns->distances_m);
  g_free (columns->spares_m);
  g_free (columns->obstacles);
  g_free (columns->pairs);
  g_free (columns->values);
  g_free (columns);
}

static void
lay_out_times (Columns *columns, const TrnLiftRun *run)
{
  guint n_moves = run->lift->n_moves;
  double duration_s = run->begins_s[n_moves];
  GArray *times = g_array_new (FALSE, FALSE, sizeof (double));
  double begin = 0;
  g_array_append_val (times, begin);
  for (guint m = 0; m < n_moves; m++)
    {
      double from_s = run->begins_s[m], to_s = run->begins_s[m + 1];
      if (!(to_s > from_s))
        continue;
      guint n = (guint)(TIMES_OF_LIFT * (to_s - from_s) / duration_s);
      n = MAX (n, LEAST_OF_MOVE);
      for (guint i = 1; i <= n; i++)
        {
          double time_s = i == n ? to_s : from_s + (to_s - from_s) * i / n;
          g_array_append_val (times, time_s);
        }
    }
  columns->n_times = times->len;
  columns->times_s = (double *)(gpointer)g_array_free (times, FALSE);
}

static void
fill_values (Columns *columns, DeskForces *forces, guint column)
{
  const TrnLiftRun *run = &columns->site->scene->programme->runs[columns->run];
  double *values = columns->values + (gsize)column * columns->n_gauges, progress;
  guint move;
  trn_lift_run_pose (run, columns->times_s[column], &move, &progress);
  for (guint k = 0; k < columns->n_gauges; k++)
    values[k] = columns->gauges[k].gauge == TRN_GAUGE_WIND
                    ? desk_wind_aside_m (desk_known_findings (columns->known), run, move, progress)
                    : desk_gauge_value (run, forces, &columns->gauges[k], move, progress);
}

typedef struct
{
  double distance_m, spare_m;
} Sample;

/* Of gear it is that of the part that stands worst, as in the rows of the moment; where that has no
 * place, of those that have one, since a line of the others would hide theirs. */
static Sample
sample_of (const RenderJudge *judge, const TrnMoment *moment, guint pair)
{
  const RenderPairNow worst = render_pair_now (judge, moment, pair, 0);
  if (!isnan (worst.spare_m))
    return (Sample){ moment->distances[pair].distance_m, worst.spare_m };
  const RenderPairNow placed = render_pair_placed (judge, moment, pair, 0);
  return isnan (placed.spare_m) ? (Sample){ NAN, NAN }
                                : (Sample){ moment->placed[pair].distance_m, placed.spare_m };
}

static gpointer
work (gpointer data)
{
  Columns *columns = data;
  trn_thread_stand_back ();
  DeskForces *forces = desk_forces_new (columns->site->scene, columns->run);
  TrnMoment *moment = trn_moment_new (columns->site->scene, columns->run);
  const RenderJudge *judge = desk_known_lay_out (columns->known, moment);
  trn_moment_judge_by (moment, render_judge_part, judge);
  for (guint i = 0; i < columns->n_times && !g_atomic_int_get (&columns->cancelled); i++)
    {
      trn_moment_set_time (moment, columns->times_s[i]);
      const gsize first = (gsize)i * columns->n_pairs;
      for (guint k = 0; k < columns->n_pairs; k++)
        {
          const Sample sample = sample_of (judge, moment, k);
          columns->distances_m[first + k] = sample.distance_m;
          columns->spares_m[first + k] = sample.spare_m;
        }
      fill_values (columns, forces, i);
      g_atomic_int_set (&columns->n_done, (gint)i + 1);
    }
  /* Both borrow the scene, which goes with the columns. */
  trn_moment_free (moment);
  desk_forces_free (forces);
  columns_unref (columns);
  return NULL;
}

DeskProfileJob *
desk_profile_job_start (DeskSite *site, guint run, DeskKnown *known)
{
  const TrnLiftRun *lift_run = &site->scene->programme->runs[run];
  Columns *columns = g_new0 (Columns, 1);
  g_atomic_ref_count_init (&columns->refs);
  columns->site = desk_site_ref (site);
  columns->known = known != NULL ? desk_known_ref (known) : NULL;
  columns->run = run;
  columns->obstacles = trn_scene_obstacles (site->scene, lift_run, &columns->n_obstacles);
  columns->pairs = trn_scene_moment_pairs (site->scene, lift_run, &columns->n_pairs);
  lay_out_times (columns, lift_run);
  columns->distances_m = g_new0 (double, (gsize)columns->n_times * columns->n_pairs + 1);
  columns->spares_m = g_new0 (double, (gsize)columns->n_times * columns->n_pairs + 1);
  columns->n_gauges = desk_gauges_of (site->plan, lift_run, columns->gauges);
  columns->values = g_new0 (double, (gsize)columns->n_times * columns->n_gauges + 1);
  DeskProfileJob *job = g_new0 (DeskProfileJob, 1);
  job->columns = columns;
  job->profile = (DeskProfile){ .n_times = columns->n_times,
                                .n_obstacles = columns->n_obstacles,
                                .n_pairs = columns->n_pairs,
                                .obstacles = columns->obstacles,
                                .pairs = columns->pairs,
                                .times_s = columns->times_s,
                                .distances_m = columns->distances_m,
                                .spares_m = columns->spares_m,
                                .n_gauges = columns->n_gauges,
                                .gauges = columns->gauges,
                                .values = columns->values };
  g_atomic_ref_count_inc (&columns->refs);
  g_thread_unref (g_thread_new ("profile", work, columns));
  return job;
}

void
desk_profile_job_stop (DeskProfileJob *job)
{
  g_atomic_int_set (&job->columns->cancelled, 1);
}

void
desk_profile_job_free (DeskProfileJob *job)
{
  if (job == NULL)
    return;
  desk_profile_job_stop (job);
  columns_unref (job->columns);
  g_free (job);
}

const DeskProfile *
desk_profile_job_look (DeskProfileJob *job)
{
  job->profile.n_done = (guint)g_atomic_int_get (&job->columns->n_done);
  return &job->profile;
}
