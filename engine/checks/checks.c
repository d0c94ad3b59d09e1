/* Passes over lists of tasks (task-list.h), each on all threads, each task writing only its
 * own place, so that the result does not depend on the number of threads.
 *   0. How what earlier lifts left on their hooks may hang, and then how far all that they left may
 *      stand from where it is drawn: keys have that.
 *   1. What findings share: for each move the bound of the tolerances and the swing, for each
 *      obstacle the seated span.
 *   2. What findings of the gear share, which follows from it: how far tolerances take each moving
 *      body, and what each counterweight sweeps.
 *   3. The findings: their places are laid out beforehand, in their fixed order. */
#include "checks.h"

#include <string.h>

#include "approach.h"
#include "attitude.h"
#include "capacity-check.h"
#include "cause.h"
#include "clearance.h"
#include "gear-tolerance.h"
#include "footing-check.h"
#include "ground-check.h"
#include "hand-over.h"
#include "headroom.h"
#include "held.h"
#include "hoist-lines.h"
#include "hook-load-check.h"
#include "left.h"
#include "load-lean.h"
#include "load-share.h"
#include "own-load.h"
#include "parallel.h"
#include "reach.h"
#include "resting-check.h"
#include "rigging.h"
#include "seat.h"
#include "slings.h"
#include "speeds.h"
#include "standing-check.h"
#include "start.h"
#include "swing-cache.h"
#include "swinging.h"
#include "task-list.h"
#include "task-cache.h"
#include "tolerances.h"
#include "unhung.h"
#include "wind-aside.h"
#include "wind-check.h"

typedef struct
{
  TrnLiftWork *lifts;
  guint n_lifts;
  GArray *tasks;  /* of TrnTask */
  double *hung_m; /* one a run: trn_left_hung; owned */
  TrnFindings *findings;
  TrnProgress *progress;
} Run;

/* Whether something between hook and load is said to weigh something or to bear so much. */
static gboolean
says_of_rigging (const TrnHoist *hoist)
{
  gboolean says
      = (hoist->has_block && isfinite (hoist->block_mass_kg))
        || (hoist->has_beam && (isfinite (hoist->beam.wll_kg) || isfinite (hoist->beam.mass_kg)));
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      const TrnSling *sling = &hoist->slings[i];
      says = says || isfinite (sling->wll_kg) || isfinite (sling->mass_kg)
             || isfinite (sling->shackle.wll_kg) || isfinite (sling->shackle.mass_kg);
    }
  return says;
}

/* Whether the plan has a mass of gear or rigging, or says what forces are to be held against, so
 * that all masses are wanted. */
static gboolean
says_of_forces (const TrnPlan *plan)
{
  gboolean says = FALSE;
  for (guint i = 0; i < plan->n_gear; i++)
    says = says || isfinite (plan->gear[i].allowed_pressure_pa) || plan->gear[i].n_capacity > 0
           || isfinite (plan->gear[i].mass_kg) || isfinite (plan->gear[i].slewing_mass_kg)
           || isfinite (plan->gear[i].boom_mass_kg) || isfinite (plan->gear[i].jib_mass_kg);
  for (guint i = 0; i < plan->n_lifts; i++)
    says = says || says_of_rigging (&plan->lifts[i].rigging.main)
           || says_of_rigging (&plan->lifts[i].rigging.tail);
  return says;
}

/* Whether the plan says how much wind some gear may work in, so that the wind is wanted. */
static gboolean
says_of_wind (const TrnPlan *plan)
{
  gboolean says = FALSE;
  for (guint i = 0; i < plan->n_gear; i++)
    says = says || isfinite (plan->gear[i].wind_limit_m_s);
  return says;
}

/* Those of forces: where some mass is lifted by gear or rigging, or the plan says how forces are to
 * be judged, how far hooks are out of level, how the wind blows, what gear, slings or the ground
 * may bear or what gear and rigging weigh, so that a mass is wanted; where there is wind, or a
 * limit of it. Where something is lifted or set down of which the centre of gravity is known, that
 * hangs as it has it, or of which forces are asked. Hoist lines are no matter of the mass, nor is
 * how a load hangs on two hooks, which is asked though shares are not (task-list.c). */
static guint
checks_of_forces (const TrnPlan *plan)
{
  gboolean wants_mass = plan->loads.dynamic.kind != TRN_DYNAMIC_NONE
                        || plan->loads.critical.kind != TRN_CRITICAL_NONE
                        || plan->loads.out_of_level.given || plan->wind.given
                        || says_of_forces (plan);
  gboolean has_rigging = FALSE, is_seated = FALSE, is_seated_with_cog = FALSE, has_cog = FALSE;
  for (guint i = 0; i < plan->n_lifts; i++)
    {
      const TrnLift *lift = &plan->lifts[i];
      const TrnComponent *component = &plan->components[lift->component];
      wants_mass = wants_mass || isfinite (component->mass_kg);
      has_rigging = has_rigging || lift->rigging.given;
      has_cog = has_cog || isfinite (component->cog.x) || lift->hangs_free;
      is_seated = is_seated || lift->n_seats > 0;
      is_seated_with_cog = is_seated_with_cog || (lift->n_seats > 0 && isfinite (component->cog.x));
    }
  const gboolean wants_forces = wants_mass && (plan->n_gear > 0 || has_rigging);
  guint checks = 0;
  if (wants_forces)
    checks |= TRN_CHECK_BIT (TRN_CHECK_HOOK_LOAD) | TRN_CHECK_BIT (TRN_CHECK_LOAD_SHARE)
              | TRN_CHECK_BIT (TRN_CHECK_SLINGS);
  if (wants_mass && plan->n_gear > 0)
    checks |= TRN_CHECK_BIT (TRN_CHECK_CAPACITY) | TRN_CHECK_BIT (TRN_CHECK_GROUND);
  if (plan->n_gear > 0)
    checks |= TRN_CHECK_BIT (TRN_CHECK_HOIST_LINES) | TRN_CHECK_BIT (TRN_CHECK_SPEEDS);
  if (plan->loads.ramp.given)
    checks |= TRN_CHECK_BIT (TRN_CHECK_SWINGING);
  if (plan->wind.given || says_of_wind (plan))
    checks |= TRN_CHECK_BIT (TRN_CHECK_WIND);
  if (is_seated_with_cog || (is_seated && wants_forces))
    checks |= TRN_CHECK_BIT (TRN_CHECK_RESTING);
  if (has_cog || wants_forces)
    checks |= TRN_CHECK_BIT (TRN_CHECK_ATTITUDE);
  return checks;
}

guint
trn_checks_of_plan (const TrnPlan *plan)
{
  const guint gear = TRN_CHECK_BIT (TRN_CHECK_HEADROOM) | TRN_CHECK_BIT (TRN_CHECK_REACH)
                     | TRN_CHECK_BIT (TRN_CHECK_TAIL_SWING) | TRN_CHECK_BIT (TRN_CHECK_STANDING)
                     | TRN_CHECK_BIT (TRN_CHECK_FOOTING);
  guint checks = TRN_CHECKS_ALWAYS | checks_of_forces (plan);
  if (plan->n_gear > 0)
    checks |= gear | TRN_CHECK_BIT (TRN_CHECK_APPROACH) | TRN_CHECK_BIT (TRN_CHECK_RIGGING);
  if (plan->approach.kind != TRN_APPROACH_NONE)
    checks |= TRN_CHECK_BIT (TRN_CHECK_APPROACH);
  for (guint i = 0; i < plan->n_lifts; i++)
    if (plan->lifts[i].rigging.given)
      checks |= TRN_CHECK_BIT (TRN_CHECK_RIGGING);
  return checks;
}

/* ---- one task ---- */

/* What findings share. */
static void
do_shared (const Run *run, TrnLiftWork *lift, const TrnTask *task)
{
  TrnLiftCheck *check = &lift->check;
  guint index = task->index;
  TrnVec3 up;
  switch (task->kind)
    {
    case TRN_TASK_HUNG:
      run->hung_m[index] = trn_left_hung (check->scene, index, check->options);
      return;
    case TRN_TASK_LEFT:
      check->left_m[index] = trn_left_off (check, index, run->hung_m);
      return;
    case TRN_TASK_SEATED:
      lift->seated[index] = trn_seated_find (check, index);
      return;
    case TRN_TASK_OUTLINE:
      if (trn_wind_aside_up (check, index, &up))
        (void)trn_shown_outline (check->shown, check->load->mesh, up);
      return;
    case TRN_TASK_MOVE:
      check->allowances[index] = trn_task_cached_allowance (lift, index);
      check->tolerance_m[index] = trn_allowance_sum (&check->allowances[index]);
      lift->swings[index] = trn_swing_cached_make (check, index);
      return;
    case TRN_TASK_GEAR_MOVE:
      for (guint i = 0; i < check->rig->n_bodies; i++)
        {
          const guint at = index * check->rig->n_bodies + i;
          check->gear_off[at] = trn_gear_tolerance (check, i, index);
          check->rig_tolerance_m[at] = trn_gear_tolerance_most_m (&check->gear_off[at]);
        }
      return;
    case TRN_TASK_TAIL:
      trn_tail_swing_make (check, index, &lift->tails[index]);
      return;
    default:
      g_assert_not_reached ();
    }
}

static TrnFinding
judge_clearance (const TrnLiftWork *lift, const TrnTask *task)
{
  const TrnPair *pair = &task->pair;
  gboolean may_seat = pair->body == TRN_BODY_LOAD && pair->other_stands && pair->holder == NULL;
  TrnSeated held = trn_held_find (&lift->check, pair, task->index);
  TrnClearanceQuestion question = { .check = TRN_CHECK_CLEARANCE,
                                    .move = task->index,
                                    .pair = *pair,
                                    .seated = may_seat ? &lift->seated[pair->other] : &held,
                                    .required_m = trn_pair_required (&lift->check, pair) };
  return trn_clearance_judge (&lift->check, &question);
}

/* What differs of how an earlier lift left the load. */
static void
set_differs (const TrnLiftCheck *check, TrnFinding *finding)
{
  const TrnHandOver differs = trn_hand_over_find (check);
  finding->key = differs.key;
  finding->key_of = differs.of;
  finding->was = differs.was_name;
  finding->is = differs.is_name;
  finding->n_values = differs.n_values;
  finding->values_unit = differs.unit;
  memcpy (finding->was_values, differs.was, sizeof differs.was);
  memcpy (finding->is_values, differs.is, sizeof differs.is);
}

static TrnFinding
judge_no_gear (const TrnLiftCheck *check, const TrnTask *task)
{
  int move = task->kind == TRN_TASK_UNHELD ? (int)task->index : -1;
  TrnFinding finding = trn_lift_check_finding (check, task->check, move, NULL, NAN);
  finding.body = task->body;
  finding.missing = task->missing;
  if (task->check != TRN_CHECK_STANDING)
    finding.unit = task->check == TRN_CHECK_HOOK_LOAD || task->check == TRN_CHECK_CAPACITY
                       ? TRN_UNIT_KG
                   : task->check == TRN_CHECK_HOIST_LINES ? TRN_UNIT_DEG
                   : task->check == TRN_CHECK_SLINGS      ? TRN_UNIT_N
                   : task->check == TRN_CHECK_GROUND      ? TRN_UNIT_PA
                                                          : TRN_UNIT_M;
  if (task->check == TRN_CHECK_TAIL_SWING)
    finding.item = "tail-radius";
  if (task->check == TRN_CHECK_RIGGING && task->kind != TRN_TASK_NOT_GIVEN)
    finding.item = "holder";
  if (trn_finding_is_holder (&finding) && strcmp (finding.body, "load") == 0)
    set_differs (check, &finding);
  if (task->kind == TRN_TASK_NOT_GIVEN)
    {
      finding.verdict = TRN_VERDICT_NOTE;
      finding.state = TRN_STATE_NOT_GIVEN;
    }
  return finding;
}

static TrnFinding
judge_wind (const TrnLiftCheck *check, const TrnTask *task)
{
  if (task->hoist != NULL)
    return trn_wind_speed_judge (check, task->hoist);
  return task->item == 0 ? trn_wind_force_judge (check) : trn_wind_sway_judge (check);
}

static TrnFinding
judge_forces (const TrnLiftCheck *check, const TrnTask *task)
{
  switch (task->kind)
    {
    case TRN_TASK_HOOK_LOAD:
      return trn_hook_load_judge (check, task->hoist, task->index);
    case TRN_TASK_CAPACITY:
      return trn_capacity_judge (check, task->hoist, task->index);
    case TRN_TASK_LOAD_SHARE:
      return trn_load_share_judge (check, task->index, task->other);
    case TRN_TASK_SLINGS:
      return trn_slings_judge (check, task->hoist, task->index, task->item, task->other);
    case TRN_TASK_GROUND:
      return trn_ground_judge (check, task->other, task->index);
    case TRN_TASK_WIND:
      return judge_wind (check, task);
    case TRN_TASK_RESTING:
      return trn_resting_judge (check, task->at_end);
    case TRN_TASK_ATTITUDE:
      return trn_attitude_judge (check, task->index);
    case TRN_TASK_LEAN:
      return trn_load_lean_judge (check, task->index);
    case TRN_TASK_HOIST_LINE:
      return trn_hoist_lines_judge (check, task->hoist, task->index);
    case TRN_TASK_SPEED:
      return trn_speed_judge (check, task->hoist, task->item);
    case TRN_TASK_SWINGING:
      return trn_swinging_judge (check);
    default:
      g_assert_not_reached ();
    }
}

static TrnFinding
judge (const TrnLiftWork *lift, const TrnTask *task)
{
  const TrnLiftCheck *check = &lift->check;
  switch (task->kind)
    {
    case TRN_TASK_CLEARANCE:
      return judge_clearance (lift, task);
    case TRN_TASK_SWING:
      return trn_swing_judge (check, task->index, task->other, &lift->swings[task->index]);
    case TRN_TASK_SEAT:
      return trn_seat_judge (check, task->index, task->at_end, lift->seated);
    case TRN_TASK_START:
      return trn_start_judge (check);
    case TRN_TASK_HEADROOM:
      return trn_headroom_judge (check, task->hoist, task->index);
    case TRN_TASK_REACH:
      return trn_reach_judge (check, task->hoist, task->index, task->other);
    case TRN_TASK_TAIL_SWING:
      return trn_tail_swing_judge (check, &lift->tails[task->index], task->other);
    case TRN_TASK_BARRICADE:
      return trn_barricade_judge (check, &lift->tails[task->index]);
    case TRN_TASK_APPROACH:
      return trn_approach_judge (check, task->index, &task->pair);
    case TRN_TASK_STANDING:
      return trn_approach_judge_standing (check, task->index, task->other);
    case TRN_TASK_RIGGING:
      return trn_rigging_judge (check, task->hoist, task->index, task->other);
    case TRN_TASK_OWN_LOAD:
      return trn_own_load_judge (check, task->hoist, task->index, task->other);
    case TRN_TASK_OWN_LOAD_BODY:
      return trn_own_load_judge_body (check, task->hoist, task->index, task->other);
    case TRN_TASK_NO_GEAR:
    case TRN_TASK_UNHELD:
    case TRN_TASK_NOT_GIVEN:
      return judge_no_gear (check, task);
    case TRN_TASK_STANDS:
      return trn_standing_judge (check, task->index, task->other);
    case TRN_TASK_FOOTING:
      return trn_footing_judge (check, task->index);
    case TRN_TASK_HOOK_LOAD:
    case TRN_TASK_CAPACITY:
    case TRN_TASK_LOAD_SHARE:
    case TRN_TASK_SLINGS:
    case TRN_TASK_GROUND:
    case TRN_TASK_WIND:
    case TRN_TASK_RESTING:
    case TRN_TASK_ATTITUDE:
    case TRN_TASK_LEAN:
    case TRN_TASK_HOIST_LINE:
    case TRN_TASK_SPEED:
    case TRN_TASK_SWINGING:
      return judge_forces (check, task);
    case TRN_TASK_HUNG:
    case TRN_TASK_LEFT:
    case TRN_TASK_OUTLINE:
    case TRN_TASK_MOVE:
    case TRN_TASK_SEATED:
    case TRN_TASK_GEAR_MOVE:
    case TRN_TASK_TAIL:
    default:
      g_assert_not_reached ();
    }
}

static void
do_task (guint index, gpointer data)
{
  Run *run = data;
  const TrnTask *task = &g_array_index (run->tasks, TrnTask, index);
  TrnLiftWork *lift = &run->lifts[task->lift];
  TrnLiftFindings *findings = &run->findings->lifts[task->lift];
  if (task->kind < TRN_TASK_CLEARANCE)
    do_shared (run, lift, task);
  else
    g_array_index (findings->findings, TrnFinding, task->place) = trn_task_cached_judge (
        lift, task, judge, findings->kept != NULL ? &findings->kept[task->place] : NULL);
  trn_progress_add_done (run->progress, 1);
}

/* ---- all tasks ---- */

/* The obstacle that a task looks at; G_MAXUINT: none. */
static guint
task_obstacle (const TrnTask *task)
{
  switch (task->kind)
    {
    case TRN_TASK_LEFT:
    case TRN_TASK_SEATED:
      return task->index;
    case TRN_TASK_CLEARANCE:
    case TRN_TASK_APPROACH:
      return task->pair.other_stands ? task->pair.other : G_MAXUINT;
    case TRN_TASK_SWING:
    case TRN_TASK_TAIL_SWING:
    case TRN_TASK_STANDING:
    case TRN_TASK_STANDS:
      return task->other;
    default:
      return G_MAXUINT;
    }
}

static gboolean
is_search (TrnTaskKind kind)
{
  switch (kind)
    {
    case TRN_TASK_OWN_LOAD:
    case TRN_TASK_OWN_LOAD_BODY:
    case TRN_TASK_HOOK_LOAD:
    case TRN_TASK_CAPACITY:
    case TRN_TASK_LOAD_SHARE:
    case TRN_TASK_SLINGS:
    case TRN_TASK_GROUND:
    case TRN_TASK_LEAN:
      return TRUE;
    default:
      return FALSE;
    }
}

/* A search of forces in time takes about as long as a look at so many triangles. */
#define SEARCH_TRIANGLES 20000

/* About how long a task takes: those that look at the load or at an obstacle by their triangles.
 * The sail area takes longest; what else asks for it comes last, when it is there. */
static guint64
task_cost (const Run *run, const TrnTask *task)
{
  const TrnLiftCheck *check = &run->lifts[task->lift].check;
  if (task->kind == TRN_TASK_WIND)
    return task->hoist == NULL && task->item == 0 ? G_MAXUINT64 : 0;
  if (is_search (task->kind))
    return SEARCH_TRIANGLES;
  /* First, since moves ask for them. */
  if (task->kind == TRN_TASK_OUTLINE)
    return G_MAXUINT64;
  gboolean is_gears = task->kind >= TRN_TASK_HEADROOM && task->kind != TRN_TASK_APPROACH
                      && task->kind != TRN_TASK_RESTING;
  if (task->kind == TRN_TASK_CLEARANCE || task->kind == TRN_TASK_APPROACH)
    is_gears = task->pair.body != TRN_BODY_LOAD;
  guint64 cost = is_gears ? 0 : check->load->mesh->n_triangles;
  guint obstacle = task_obstacle (task);
  return obstacle == G_MAXUINT ? cost : cost + check->obstacles[obstacle].body->mesh->n_triangles;
}

/* Among those, a longer way of the load takes longer. */
static double
task_way_m (const Run *run, const TrnTask *task)
{
  if (task->kind != TRN_TASK_CLEARANCE)
    return 0;
  const TrnLiftCheck *check = &run->lifts[task->lift].check;
  return trn_motion_speed (&check->run->motions[task->index],
                           trn_lift_check_reach (check, task->index));
}

static int
task_compare (gconstpointer a, gconstpointer b, gpointer data)
{
  guint64 p = task_cost (data, a), q = task_cost (data, b);
  if (p != q)
    return p > q ? -1 : 1;
  double way = task_way_m (data, a), other_way = task_way_m (data, b);
  return way > other_way ? -1 : way < other_way;
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

/* ---- the run ---- */

static void
set_up (Run *run, const TrnScene *scene, const TrnCheckOptions *options)
{
  const TrnProgramme *programme = scene->programme;
  run->lifts = g_new0 (TrnLiftWork, programme->n_runs);
  run->hung_m = g_new0 (double, programme->n_runs);
  run->findings->lifts = g_new0 (TrnLiftFindings, programme->n_runs);
  for (guint i = 0; i < programme->n_runs; i++)
    {
      if (options->lift != NULL && strcmp (options->lift, programme->runs[i].lift->id) != 0)
        continue;
      trn_lift_work_init (&run->lifts[run->n_lifts], scene, i, options);
      run->findings->lifts[run->n_lifts++]
          = (TrnLiftFindings){ .lift = i,
                               .findings = g_array_new (FALSE, TRUE, sizeof (TrnFinding)) };
    }
  run->findings->n_lifts = run->n_lifts;
}

static void
list_findings (Run *run, guint lift)
{
  TrnLiftFindings *findings = &run->findings->lifts[lift];
  guint n_findings = trn_tasks_list_findings (&run->lifts[lift], lift, run->tasks);
  g_array_set_size (findings->findings, n_findings);
  if (run->lifts[lift].key != NULL)
    findings->kept = g_new0 (gpointer, n_findings);
  findings->left_out = g_steal_pointer (&run->lifts[lift].left_out);
}

static void
do_passes (Run *run, guint jobs)
{
  for (guint i = 0; i < run->n_lifts; i++)
    trn_tasks_list_hung (&run->lifts[i], i, run->tasks);
  do_tasks (run, jobs);
  for (guint i = 0; i < run->n_lifts; i++)
    trn_tasks_list_left (&run->lifts[i], i, run->tasks);
  do_tasks (run, jobs);
  for (guint i = 0; i < run->n_lifts; i++)
    trn_lift_work_set_key (&run->lifts[i]);
  for (guint i = 0; i < run->n_lifts; i++)
    trn_tasks_list_shared (&run->lifts[i], i, run->tasks);
  do_tasks (run, jobs);
  for (guint i = 0; i < run->n_lifts; i++)
    trn_tasks_list_gear (&run->lifts[i], i, run->tasks);
  do_tasks (run, jobs);
  for (guint i = 0; i < run->n_lifts; i++)
    list_findings (run, i);
  do_tasks (run, jobs);
}

static void
clear (Run *run)
{
  for (guint i = 0; i < run->n_lifts; i++)
    trn_lift_work_clear (&run->lifts[i]);
  g_free (run->lifts);
  g_free (run->hung_m);
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
  g_assert (!options->as_drawn);
  gint64 start_us = g_get_monotonic_time ();
  TrnFindings *findings = g_new0 (TrnFindings, 1);
  Run run = { .tasks = g_array_new (FALSE, FALSE, sizeof (TrnTask)),
              .findings = findings,
              .progress = options->progress };
  findings->certify_m = options->certify_m > 0 ? options->certify_m : TRN_CERTIFY_M;
  findings->checks_done = trn_checks_of_plan (scene->programme->plan);
  set_up (&run, scene, options);
  do_passes (&run, options->jobs);
  for (guint i = 0; i < run.n_lifts; i++)
    {
      trn_unhung_doubt (&run.lifts[i].check, &findings->lifts[i]);
      trn_causes_tell (&run.lifts[i].check, &findings->lifts[i]);
    }
  clear (&run);
  if (scene->n_left_out > 0)
    doubt (findings);
  fold (findings, scene->n_left_out == 0);
  findings->complete = !trn_progress_is_cancelled (options->progress);
  findings->sweep_s = (double)(g_get_monotonic_time () - start_us) / 1e6;
  return findings;
}
