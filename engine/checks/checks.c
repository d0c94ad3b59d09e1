/* Two passes over lists of tasks, each on all threads, each task writing only its own place, so
 * that the result does not depend on the number of threads.
 *   1. What findings share: for each move the bound of the tolerances and the swing, for each
 *      obstacle the seated span.
 *   2. The findings: their places are laid out beforehand, in their fixed order. */
#include "checks.h"

#include <string.h>

#include "clearance.h"
#include "parallel.h"
#include "seat.h"
#include "start.h"
#include "swing-cache.h"
#include "tolerances.h"

/* One lift with all that its findings share. */
typedef struct
{
  TrnLiftCheck check;
  double *tolerance_m; /* one a move */
  TrnSwing *swings;    /* one a move */
  TrnSeated *seated;   /* one an obstacle */
} Lift;

typedef enum
{
  TASK_MOVE,   /* index: move */
  TASK_SEATED, /* index: obstacle */
  TASK_CLEARANCE,
  TASK_SWING,
  TASK_SEAT,
  TASK_START,
} TaskKind;

typedef struct
{
  TaskKind kind;
  guint lift, index, obstacle;
  gboolean at_end;
  guint place; /* among the findings of the lift */
} Task;

typedef struct
{
  Lift *lifts;
  guint n_lifts;
  GArray *tasks; /* of Task */
  TrnFindings *findings;
  TrnProgress *progress;
} Run;

/* What findings share. */
static void
do_shared (Lift *lift, const Task *task)
{
  const TrnLiftCheck *check = &lift->check;
  if (task->kind == TASK_SEATED)
    {
      lift->seated[task->index] = trn_seated_find (check, task->index);
      return;
    }
  lift->tolerance_m[task->index] = trn_lift_check_tolerance (check, task->index);
  lift->swings[task->index] = trn_swing_cached_make (check, task->index);
}

static TrnFinding
judge (const Lift *lift, const Task *task)
{
  const TrnLiftCheck *check = &lift->check;
  switch (task->kind)
    {
    case TASK_CLEARANCE:
      return trn_clearance_judge (check, task->index, task->obstacle, &lift->seated[task->obstacle],
                                  lift->tolerance_m[task->index]);
    case TASK_SWING:
      return trn_swing_judge (check, task->index, task->obstacle, &lift->swings[task->index]);
    case TASK_SEAT:
      return trn_seat_judge (check, task->index, task->at_end, lift->seated);
    case TASK_START:
      return trn_start_judge (check);
    case TASK_MOVE:
    case TASK_SEATED:
    default:
      g_assert_not_reached ();
    }
}

static void
do_task (guint index, gpointer data)
{
  Run *run = data;
  const Task *task = &g_array_index (run->tasks, Task, index);
  Lift *lift = &run->lifts[task->lift];
  if (task->kind <= TASK_SEATED)
    do_shared (lift, task);
  else
    g_array_index (run->findings->lifts[task->lift].findings, TrnFinding, task->place)
        = judge (lift, task);
  trn_progress_add_done (run->progress, 1);
}

/* About how long a task takes: all look at the load, most at an obstacle. */
static guint64
task_cost (const Run *run, const Task *task)
{
  const TrnLiftCheck *check = &run->lifts[task->lift].check;
  guint64 cost = check->load->mesh->n_triangles;
  if (task->kind == TASK_SEATED)
    cost += check->obstacles[task->index].body->mesh->n_triangles;
  else if (task->kind == TASK_CLEARANCE || task->kind == TASK_SWING)
    cost += check->obstacles[task->obstacle].body->mesh->n_triangles;
  return cost;
}

static int
task_compare (gconstpointer a, gconstpointer b, gpointer data)
{
  guint64 p = task_cost (data, a), q = task_cost (data, b);
  return p > q ? -1 : p < q;
}

/* The longest first, so that all threads end at about the same time. */
static void
do_tasks (Run *run, guint jobs)
{
  g_array_sort_with_data (run->tasks, task_compare, run);
  trn_progress_add_total (run->progress, (gint)run->tasks->len);
  trn_parallel_for (run->tasks->len, jobs, do_task, run);
  g_array_set_size (run->tasks, 0);
}

/* ---- the lists ---- */

static void
add_task (Run *run, Task task)
{
  GArray *list = run->findings->lifts[task.lift].findings;
  task.place = list->len;
  if (task.kind > TASK_SEATED)
    g_array_set_size (list, list->len + 1);
  g_array_append_val (run->tasks, task);
}

static void
list_shared (Run *run, guint lift)
{
  const TrnLiftCheck *check = &run->lifts[lift].check;
  for (guint i = 0; i < check->run->lift->n_moves; i++)
    add_task (run, (Task){ .kind = TASK_MOVE, .lift = lift, .index = i });
  for (guint i = 0; i < check->n_obstacles; i++)
    add_task (run, (Task){ .kind = TASK_SEATED, .lift = lift, .index = i });
}

static void
list_moves (Run *run, guint lift, TaskKind kind)
{
  const Lift *work = &run->lifts[lift];
  for (guint move = 0; move < work->check.run->lift->n_moves; move++)
    for (guint i = 0; i < work->check.n_obstacles; i++)
      if (kind != TASK_SWING || work->swings[move].rotates)
        add_task (run, (Task){ .kind = kind, .lift = lift, .index = move, .obstacle = i });
}

static void
list_findings (Run *run, guint lift)
{
  list_moves (run, lift, TASK_CLEARANCE);
  list_moves (run, lift, TASK_SWING);
  const TrnLift *plan = run->lifts[lift].check.run->lift;
  for (guint i = 0; i < plan->n_seats; i++)
    for (int end = 0; end < 2; end++)
      if (end ? plan->seats[i].at_end : plan->seats[i].at_start)
        add_task (run, (Task){ .kind = TASK_SEAT, .lift = lift, .index = i, .at_end = end });
  add_task (run, (Task){ .kind = TASK_START, .lift = lift });
}

/* ---- the run ---- */

static void
set_up (Run *run, const TrnScene *scene, const TrnCheckOptions *options)
{
  const TrnProgramme *programme = scene->programme;
  run->lifts = g_new0 (Lift, programme->n_runs);
  run->findings->lifts = g_new0 (TrnLiftFindings, programme->n_runs);
  for (guint i = 0; i < programme->n_runs; i++)
    {
      const TrnLift *plan = programme->runs[i].lift;
      if (options->lift != NULL && strcmp (options->lift, plan->id) != 0)
        continue;
      Lift *lift = &run->lifts[run->n_lifts];
      trn_lift_check_init (&lift->check, scene, i, options);
      lift->tolerance_m = g_new0 (double, plan->n_moves);
      lift->swings = g_new0 (TrnSwing, plan->n_moves);
      lift->seated = g_new0 (TrnSeated, lift->check.n_obstacles);
      run->findings->lifts[run->n_lifts++]
          = (TrnLiftFindings){ .lift = i,
                               .findings = g_array_new (FALSE, TRUE, sizeof (TrnFinding)) };
    }
  run->findings->n_lifts = run->n_lifts;
}

static void
clear (Run *run)
{
  for (guint i = 0; i < run->n_lifts; i++)
    {
      Lift *lift = &run->lifts[i];
      for (guint k = 0; k < lift->check.n_obstacles; k++)
        trn_seated_clear (&lift->seated[k]);
      g_free (lift->tolerance_m);
      g_free (lift->swings);
      g_free (lift->seated);
      trn_lift_check_clear (&lift->check);
    }
  g_free (run->lifts);
  g_array_unref (run->tasks);
}

/* What stands unseen may be in the way of everything: only what fails all the same is known. */
static void
doubt (TrnFindings *findings)
{
  for (guint i = 0; i < findings->n_lifts; i++)
    for (guint k = 0; k < findings->lifts[i].findings->len; k++)
      {
        TrnFinding *finding = &g_array_index (findings->lifts[i].findings, TrnFinding, k);
        if (finding->verdict == TRN_VERDICT_FAIL)
          continue;
        finding->verdict = TRN_VERDICT_UNKNOWN;
        finding->state = TRN_STATE_UNKNOWN;
      }
}

/* Nothing checked is nothing known, and neither is what was checked without a structure. */
static void
fold (TrnFindings *findings, gboolean is_whole)
{
  TrnVerdict best = is_whole ? TRN_VERDICT_PASS : TRN_VERDICT_UNKNOWN;
  findings->verdict = findings->n_lifts == 0 ? TRN_VERDICT_UNKNOWN : best;
  for (guint i = 0; i < findings->n_lifts; i++)
    {
      TrnLiftFindings *lift = &findings->lifts[i];
      lift->verdict = best;
      for (guint k = 0; k < lift->findings->len; k++)
        lift->verdict = trn_verdict_fold (lift->verdict,
                                          g_array_index (lift->findings, TrnFinding, k).verdict);
      findings->verdict = trn_verdict_fold (findings->verdict, lift->verdict);
    }
}

TrnFindings *
trn_checks_run (const TrnScene *scene, const TrnCheckOptions *options)
{
  gint64 start_us = g_get_monotonic_time ();
  TrnFindings *findings = g_new0 (TrnFindings, 1);
  Run run = { .tasks = g_array_new (FALSE, FALSE, sizeof (Task)),
              .findings = findings,
              .progress = options->progress };
  findings->certify_m = options->certify_m > 0 ? options->certify_m : TRN_CERTIFY_M;
  set_up (&run, scene, options);
  for (guint i = 0; i < run.n_lifts; i++)
    list_shared (&run, i);
  do_tasks (&run, options->jobs);
  for (guint i = 0; i < run.n_lifts; i++)
    list_findings (&run, i);
  do_tasks (&run, options->jobs);
  clear (&run);
  if (scene->n_left_out > 0)
    doubt (findings);
  fold (findings, scene->n_left_out == 0);
  findings->complete = !trn_progress_is_cancelled (options->progress);
  findings->sweep_s = (double)(g_get_monotonic_time () - start_us) / 1e6;
  return findings;
}
