#include "task-list.h"

#include "hook-force.h"
#include "load-share.h"

#include "approach.h"
#include "attitude.h"
#include "hoist-lines.h"
#include "hand-over.h"
#include "hoist.h"
#include "left.h"
#include "own-load.h"
#include "reach.h"
#include "slings.h"
#include "speeds.h"
#include "standing-check.h"
#include "wind-aside.h"

static guint
n_moves (const TrnLiftWork *work)
{
  return work->check.run->lift->n_moves;
}

/* ---- what was left ---- */

/* Of each run whose load still hangs, once in all of @tasks. */
void
trn_tasks_list_hung (const TrnLiftWork *work, guint lift, GArray *tasks)
{
  for (guint i = 0; i < work->check.n_obstacles; i++)
    {
      const guint run = work->check.obstacles[i].standing->left_by;
      gboolean is_new = run != G_MAXUINT;
      for (guint k = 0; is_new && k < tasks->len; k++)
        is_new = g_array_index (tasks, TrnTask, k).index != run;
      const TrnTask task = { .kind = TRN_TASK_HUNG, .lift = lift, .index = run };
      if (is_new)
        g_array_append_val (tasks, task);
    }
}

void
trn_tasks_list_left (const TrnLiftWork *work, guint lift, GArray *tasks)
{
  for (guint i = 0; i < work->check.n_obstacles; i++)
    {
      TrnTask task = { .kind = TRN_TASK_LEFT, .lift = lift, .index = i };
      if (trn_left_means (&work->check, i))
        g_array_append_val (tasks, task);
    }
}

/* ---- what findings share ---- */

static void
list_outlines (const TrnLiftWork *work, guint lift, GArray *tasks)
{
  g_autoptr (GArray) ups = g_array_new (FALSE, FALSE, sizeof (TrnVec3));
  for (guint i = 0; i < n_moves (work); i++)
    {
      TrnVec3 up;
      gboolean is_new = trn_wind_aside_up (&work->check, i, &up);
      for (guint k = 0; is_new && k < ups->len; k++)
        is_new = trn_vec3_distance (up, g_array_index (ups, TrnVec3, k)) > 0;
      if (!is_new)
        continue;
      const TrnTask task = { .kind = TRN_TASK_OUTLINE, .lift = lift, .index = i };
      g_array_append_val (tasks, task);
      g_array_append_val (ups, up);
    }
}

void
trn_tasks_list_shared (const TrnLiftWork *work, guint lift, GArray *tasks)
{
  list_outlines (work, lift, tasks);
  for (guint i = 0; i < n_moves (work); i++)
    {
      TrnTask task = { .kind = TRN_TASK_MOVE, .lift = lift, .index = i };
      g_array_append_val (tasks, task);
    }
  for (guint i = 0; i < work->check.n_obstacles; i++)
    {
      TrnTask task = { .kind = TRN_TASK_SEATED, .lift = lift, .index = i };
      g_array_append_val (tasks, task);
    }
}

void
trn_tasks_list_gear (const TrnLiftWork *work, guint lift, GArray *tasks)
{
  for (guint i = 0; work->check.rig != NULL && i < n_moves (work); i++)
    {
      TrnTask task = { .kind = TRN_TASK_GEAR_MOVE, .lift = lift, .index = i };
      g_array_append_val (tasks, task);
    }
  const TrnRig *rig = work->check.run->rig;
  for (guint i = 0; rig != NULL && i < rig->n_places; i++)
    {
      TrnTask task = { .kind = TRN_TASK_TAIL, .lift = lift, .index = i };
      g_array_append_val (tasks, task);
    }
}

/* ---- findings ---- */

typedef struct
{
  const TrnLiftWork *work;
  guint lift, n_findings;
  GArray *tasks;
} List;

static void
add (List *list, TrnTask task)
{
  task.lift = list->lift;
  task.place = list->n_findings++;
  g_array_append_val (list->tasks, task);
}

static void
add_as (List *list, TrnTask task, TrnTaskKind kind)
{
  task.kind = kind;
  add (list, task);
}

static void
list_clearances (List *list)
{
  const TrnLiftWork *work = list->work;
  for (guint move = 0; move < n_moves (work); move++)
    for (guint i = 0; i < work->pairs->len; i++)
      {
        const TrnPair *pair = &g_array_index (work->pairs, TrnPair, i);
        if (trn_pair_is_loose (&work->check, pair, move))
          add (list, (TrnTask){ .kind = TRN_TASK_CLEARANCE, .index = move, .pair = *pair });
      }
}

static void
list_swings (List *list)
{
  const TrnLiftWork *work = list->work;
  for (guint move = 0; move < n_moves (work); move++)
    for (guint i = 0; work->swings[move].rotates && i < work->pairs->len; i++)
      {
        const TrnPair *pair = &g_array_index (work->pairs, TrnPair, i);
        if (pair->body == TRN_BODY_LOAD && pair->other_stands
            && trn_pair_is_loose (&work->check, pair, move))
          add (list, (TrnTask){ .kind = TRN_TASK_SWING, .index = move, .other = pair->other });
      }
}

static void
list_seats (List *list)
{
  const TrnLift *plan = list->work->check.run->lift;
  for (guint i = 0; i < plan->n_seats; i++)
    for (int end = 0; end < 2; end++)
      if (end ? plan->seats[i].at_end : plan->seats[i].at_start)
        add (list, (TrnTask){ .kind = TRN_TASK_SEAT, .index = i, .at_end = end });
}

static void
list_start (List *list)
{
  add (list, (TrnTask){ .kind = TRN_TASK_START });
}

/* The hoists of the lift that are given; returns their number. */
static guint
list_hoists (const TrnLiftWork *work, const TrnHoist *hoists[2])
{
  const TrnRigging *rigging = &work->check.run->lift->rigging;
  guint n = 0;
  if (rigging->given && rigging->main.given)
    hoists[n++] = &rigging->main;
  if (rigging->given && rigging->tail.given)
    hoists[n++] = &rigging->tail;
  return n;
}

static gboolean
is_of (const TrnHoist *hoist, guint move)
{
  return hoist->first_move <= move && move <= hoist->last_move;
}

/* A lift whose hoists name no gear, or gear that does not stand there: the checks of gear have
 * nothing to judge, which must not read as if they had passed. */
static void
list_no_gear (List *list, TrnCheckKind kind)
{
  const TrnLiftCheck *check = &list->work->check;
  const TrnRigging *rigging = &check->run->lift->rigging;
  const TrnHoist *hoists[] = { &rigging->main, &rigging->tail };
  static const char *const missing[] = { "rigging/main/gear", "rigging/tail/gear" };
  for (guint i = 0; i < G_N_ELEMENTS (hoists); i++)
    {
      gboolean is_tail = i == 1, given = rigging->given && hoists[i]->given;
      if ((is_tail && !given) || (given && trn_hoist_place (check, hoists[i]) != NULL))
        continue;
      const TrnGear *gear = given ? trn_hoist_gear (check, hoists[i]) : NULL;
      add (list, (TrnTask){ .kind = TRN_TASK_NO_GEAR,
                            .check = kind,
                            .missing = gear != NULL ? "at" : missing[i],
                            .body = gear != NULL ? gear->id : "load" });
    }
}

/* Moves in which the load goes somewhere, or hangs, though no hoist holds it then: what does is not
 * known. Before it goes anywhere it stands as it stood, if it stood on a seat. */
static void
list_unheld (List *list, TrnCheckKind kind)
{
  const TrnLiftCheck *check = &list->work->check;
  const TrnHoist *hoists[2];
  guint n_hoists = list_hoists (list->work, hoists);
  gboolean has_gone
      = check->run->left_by != G_MAXUINT || !trn_programme_starts_on_seat (check->run->lift);
  for (guint move = 0; n_hoists > 0 && move < n_moves (list->work); move++)
    {
      const gboolean stays = trn_motion_speed (&check->run->motions[move], 1) == 0;
      gboolean is_held = stays && !(has_gone && trn_attitude_hangs (check->run->lift, move));
      has_gone |= !stays;
      for (guint i = 0; i < n_hoists; i++)
        is_held |= is_of (hoists[i], move);
      if (!is_held)
        add (list, (TrnTask){ .kind = TRN_TASK_UNHELD,
                              .index = move,
                              .check = kind,
                              .missing = hoists[0] == &check->run->lift->rigging.main
                                             ? "rigging/main/moves"
                                             : "rigging/tail/moves",
                              .body = "load" });
    }
}

/* How many limits a check of a hoist has with gear of that kind. */
static guint
n_limits (TrnCheckKind check, TrnGearKind gear)
{
  if (check == TRN_CHECK_REACH)
    return trn_reach_limits (gear);
  return gear == TRN_GEAR_CRANE || gear == TRN_GEAR_GANTRY;
}

/* Headroom, or reach. */
static void
list_limits (List *list, TrnCheckKind check, TrnTaskKind kind)
{
  const TrnHoist *hoists[2];
  guint n_hoists = list_hoists (list->work, hoists);
  list_no_gear (list, check);
  list_unheld (list, check);
  for (guint move = 0; move < n_moves (list->work); move++)
    for (guint i = 0; i < n_hoists; i++)
      {
        const TrnGearPlace *place = trn_hoist_place (&list->work->check, hoists[i]);
        if (place == NULL || !is_of (hoists[i], move))
          continue;
        for (guint k = 0; k < n_limits (check, place->gear->kind); k++)
          add (list, (TrnTask){ .kind = kind, .index = move, .hoist = hoists[i], .other = k });
      }
}

static void
list_headroom (List *list)
{
  list_limits (list, TRN_CHECK_HEADROOM, TRN_TASK_HEADROOM);
}

static void
list_reach (List *list)
{
  list_limits (list, TRN_CHECK_REACH, TRN_TASK_REACH);
}

static void
list_tails (List *list)
{
  const TrnLiftWork *work = list->work;
  const TrnRig *rig = work->check.run->rig;
  for (guint i = 0; rig != NULL && i < rig->n_places; i++)
    {
      const TrnGear *gear = rig->places[i].gear;
      if (gear->kind == TRN_GEAR_CRANE && !gear->has_counterweight)
        add (list, (TrnTask){ .kind = TRN_TASK_NO_GEAR,
                              .check = TRN_CHECK_TAIL_SWING,
                              .missing = "counterweight",
                              .body = gear->id });
      if (work->tails[i].place == NULL)
        continue;
      for (guint k = 0; k < work->check.n_obstacles; k++)
        if (trn_tail_swing_means (&work->check, &work->tails[i], k))
          add (list, (TrnTask){ .kind = TRN_TASK_TAIL_SWING, .index = i, .other = k });
      add (list, (TrnTask){ .kind = TRN_TASK_BARRICADE, .index = i });
    }
}

/* What stands of gear, past each live line. */
static void
list_standing_approaches (List *list)
{
  const TrnLiftCheck *check = &list->work->check;
  double voltage_kv;
  for (guint part = 0; part < check->n_obstacles; part++)
    for (guint i = 0; i < check->n_obstacles; i++)
      if (check->obstacles[part].standing->kind == TRN_STANDING_GEAR
          && trn_approach_is_line (check, i, &voltage_kv))
        add (list, (TrnTask){ .kind = TRN_TASK_STANDING, .index = part, .other = i });
}

/* That a plan calls two bodies connected takes no rule away. */
static void
list_approaches (List *list)
{
  const TrnLiftCheck *check = &list->work->check;
  guint n_bodies = check->rig != NULL ? check->rig->n_bodies : 0;
  double voltage_kv;
  for (guint move = 0; move < n_moves (list->work); move++)
    for (guint body = 0; body <= n_bodies; body++)
      for (guint i = 0; i < check->n_obstacles; i++)
        {
          TrnPair pair
              = { .body = body == 0 ? TRN_BODY_LOAD : body - 1, .other_stands = TRUE, .other = i };
          if (trn_approach_is_line (check, i, &voltage_kv)
              && trn_pair_is_there (check, &pair, move))
            add (list, (TrnTask){ .kind = TRN_TASK_APPROACH, .index = move, .pair = pair });
        }
  list_standing_approaches (list);
}

static void
add_not_given (List *list, TrnCheckKind check, const char *body, const char *missing)
{
  add (list,
       (TrnTask){ .kind = TRN_TASK_NOT_GIVEN, .check = check, .missing = missing, .body = body });
}

/* A block or slings that the plan leaves out are in nobody's way. */
static void
list_no_rigging (List *list, const TrnHoist *hoist)
{
  const TrnLiftCheck *check = &list->work->check;
  gboolean is_tail = hoist == &check->run->lift->rigging.tail;
  const TrnGear *gear = trn_hoist_gear (check, hoist);
  const char *body = gear != NULL ? gear->id : "load";
  if (gear != NULL && gear->kind != TRN_GEAR_CRANE && gear->kind != TRN_GEAR_GANTRY)
    return;
  if (!hoist->has_block)
    add_not_given (list, TRN_CHECK_RIGGING, body,
                   is_tail ? "rigging/tail/block" : "rigging/main/block");
  if (hoist->n_slings == 0)
    add_not_given (list, TRN_CHECK_RIGGING, body,
                   is_tail ? "rigging/tail/slings" : "rigging/main/slings");
}

/* Nor is what a sling hangs by that has none looked at, where forces are. */
static void
list_no_shackles (List *list, const TrnHoist *hoist)
{
  const guint done = trn_checks_of_plan (list->work->check.scene->programme->plan);
  if ((done & TRN_CHECK_BIT (TRN_CHECK_SLINGS)) == 0)
    return;
  for (guint i = 0; i < hoist->n_slings; i++)
    if (!trn_slings_has (hoist, TRN_SLINGS_SHACKLE, i))
      add_not_given (list, TRN_CHECK_RIGGING, hoist->slings[i].id, "shackle");
}

/* Nor is what guides a tilt about a point of its own on the main hook where the lift names no tail
 * hoist. In mid-air it is not known whether anything does, nor where the tail hoist does not hold
 * the load in that move. */
static void
list_no_tail (List *list)
{
  const TrnLiftCheck *check = &list->work->check;
  const TrnLift *lift = check->run->lift;
  const TrnGear *gear = trn_hoist_gear (check, &lift->rigging.main);
  const TrnHoist *tail = &lift->rigging.tail;
  if (gear == NULL || (gear->kind != TRN_GEAR_CRANE && gear->kind != TRN_GEAR_GANTRY))
    return;
  gboolean is_named = tail->given;
  for (guint move = 0; move < lift->n_moves; move++)
    {
      if (lift->moves[move].kind != TRN_MOVE_TILT || !is_of (&lift->rigging.main, move)
          || (tail->given && is_of (tail, move)))
        continue;
      if (!is_named)
        add_not_given (list, TRN_CHECK_RIGGING, "load", "rigging/tail");
      is_named = TRUE;
      if (!trn_attitude_is_unheld (check->scene->programme->plan, lift, move)
          && !trn_attitude_is_held_there (check, move))
        add (list, (TrnTask){ .kind = TRN_TASK_UNHELD,
                              .index = move,
                              .check = TRN_CHECK_RIGGING,
                              .missing = "tail/mid-air",
                              .body = "load" });
    }
}

static void
list_hung (List *list, const TrnHoist *hoist, guint move)
{
  const TrnLiftCheck *check = &list->work->check;
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      const TrnTask task = { .index = move, .hoist = hoist, .other = i };
      add_as (list, task, TRN_TASK_RIGGING);
      if (trn_own_load_means (check, hoist, i))
        add_as (list, task, TRN_TASK_OWN_LOAD);
    }
  for (guint i = 0; check->rig != NULL && i < check->rig->n_bodies; i++)
    if (trn_own_load_means_body (check, hoist, i))
      add_as (list, (TrnTask){ .index = move, .hoist = hoist, .other = i }, TRN_TASK_OWN_LOAD_BODY);
}

/* What holds a load that an earlier lift left on its hook is nowhere in this lift. */
static void
list_holders (List *list)
{
  const TrnLiftCheck *check = &list->work->check;
  TrnTask task = { .kind = TRN_TASK_NO_GEAR,
                   .check = TRN_CHECK_RIGGING,
                   .missing = TRN_MISSING_HOLDER,
                   .body = "load" };
  if (trn_hand_over_find (check).key != NULL)
    add (list, task);
  for (guint i = 0; i < check->n_obstacles; i++)
    if (check->obstacles[i].standing->is_held)
      {
        task.body = check->obstacles[i].body->id;
        add (list, task);
      }
  for (guint i = 0; i < check->run->n_gone; i++)
    if (check->run->gone[i].is_held)
      {
        task.body = check->scene->programme->plan->components[check->run->gone[i].component].id;
        add (list, task);
      }
}

static void
list_rigging (List *list)
{
  const TrnHoist *hoists[2];
  guint n_hoists = list_hoists (list->work, hoists);
  list_no_tail (list);
  list_holders (list);
  list_unheld (list, TRN_CHECK_RIGGING);
  for (guint i = 0; i < n_hoists; i++)
    {
      list_no_rigging (list, hoists[i]);
      list_no_shackles (list, hoists[i]);
    }
  for (guint move = 0; move < n_moves (list->work); move++)
    for (guint i = 0; i < n_hoists; i++)
      if (is_of (hoists[i], move))
        list_hung (list, hoists[i], move);
}

/* ---- forces ---- */

/* A lift without a main hoist: what hangs there is not known. */
static void
list_no_hoist (List *list, TrnCheckKind kind)
{
  const TrnRigging *rigging = &list->work->check.run->lift->rigging;
  if (!rigging->given || !rigging->main.given)
    add (list,
         (TrnTask){
             .kind = TRN_TASK_NO_GEAR, .check = kind, .missing = "rigging/main", .body = "load" });
}

static void
list_hook_loads (List *list)
{
  const TrnHoist *hoists[2];
  list_no_hoist (list, TRN_CHECK_HOOK_LOAD);
  list_unheld (list, TRN_CHECK_HOOK_LOAD);
  for (guint move = 0; move < n_moves (list->work); move++)
    {
      guint n_hoists = trn_hoists_holding (&list->work->check, move, hoists);
      for (guint i = 0; i < n_hoists; i++)
        if (hoists[i] != NULL)
          add (list, (TrnTask){ .kind = TRN_TASK_HOOK_LOAD, .index = move, .hoist = hoists[i] });
    }
}

static void
list_capacities (List *list)
{
  const TrnLiftCheck *check = &list->work->check;
  const TrnHoist *hoists[2];
  list_no_gear (list, TRN_CHECK_CAPACITY);
  list_unheld (list, TRN_CHECK_CAPACITY);
  for (guint move = 0; move < n_moves (list->work); move++)
    {
      guint n_hoists = trn_hoists_holding (check, move, hoists);
      for (guint i = 0; i < n_hoists; i++)
        if (hoists[i] != NULL && trn_hoist_place (check, hoists[i]) != NULL)
          add (list, (TrnTask){ .kind = TRN_TASK_CAPACITY, .index = move, .hoist = hoists[i] });
    }
}

/* Where no mass is given how they share it is not checked, but how the load hangs is. */
static void
list_shares (List *list)
{
  const TrnLiftCheck *check = &list->work->check;
  const guint done = trn_checks_of_plan (check->scene->programme->plan);
  const gboolean has_mass = (done & TRN_CHECK_BIT (TRN_CHECK_HOOK_LOAD)) != 0;
  for (guint move = 0; move < n_moves (list->work); move++)
    {
      TrnCarried carried = trn_carried_make (check, move);
      for (guint i = 0;
           has_mass && carried.main_holds && carried.tail_holds && i < TRN_N_SHARE_ITEMS; i++)
        add (list, (TrnTask){ .kind = TRN_TASK_LOAD_SHARE, .index = move, .other = i });
      if (carried.tail_holds && trn_attitude_hangs (check->run->lift, move))
        add (list, (TrnTask){ .kind = TRN_TASK_LEAN, .index = move });
    }
}

static void
list_slings_of (List *list, guint move, const TrnHoist *hoist)
{
  for (guint k = 0; k <= hoist->n_slings; k++)
    for (guint item = 0; item < TRN_N_SLINGS_ITEMS; item++)
      {
        gboolean is_beam = item >= TRN_SLINGS_COMPRESSION;
        /* The beam comes after the slings. */
        if (is_beam != (k == hoist->n_slings) || !trn_slings_has (hoist, item, is_beam ? 0 : k))
          continue;
        add (list, (TrnTask){ .kind = TRN_TASK_SLINGS,
                              .index = move,
                              .hoist = hoist,
                              .other = is_beam ? 0 : k,
                              .item = item });
      }
}

static void
list_slings (List *list)
{
  const TrnHoist *hoists[2];
  list_no_hoist (list, TRN_CHECK_SLINGS);
  list_unheld (list, TRN_CHECK_SLINGS);
  for (guint move = 0; move < n_moves (list->work); move++)
    {
      guint n_hoists = trn_hoists_holding (&list->work->check, move, hoists);
      for (guint i = 0; i < n_hoists; i++)
        if (hoists[i] != NULL)
          list_slings_of (list, move, hoists[i]);
    }
}

static void
list_grounds (List *list)
{
  const TrnLiftCheck *check = &list->work->check;
  const TrnHoist *hoists[2];
  list_no_gear (list, TRN_CHECK_GROUND);
  list_unheld (list, TRN_CHECK_GROUND);
  for (guint move = 0; move < n_moves (list->work); move++)
    {
      guint n_hoists = trn_hoists_holding (check, move, hoists);
      for (guint i = 0; i < n_hoists; i++)
        {
          gboolean is_first = i == 0 || hoists[0] == NULL || hoists[0]->gear != hoists[i]->gear;
          if (hoists[i] != NULL && is_first && trn_hoist_place (check, hoists[i]) != NULL)
            add (list,
                 (TrnTask){ .kind = TRN_TASK_GROUND, .index = move, .other = hoists[i]->gear });
        }
    }
}

static void
list_winds (List *list)
{
  const TrnLiftCheck *check = &list->work->check;
  const TrnHoist *hoists[2];
  guint n_hoists = list_hoists (list->work, hoists);
  add (list, (TrnTask){ .kind = TRN_TASK_WIND, .item = 0 });
  add (list, (TrnTask){ .kind = TRN_TASK_WIND, .item = 1 });
  for (guint i = 0; i < n_hoists; i++)
    {
      const TrnGear *gear = trn_hoist_gear (check, hoists[i]);
      if (gear != NULL && gear->kind == TRN_GEAR_CRANE)
        add (list, (TrnTask){ .kind = TRN_TASK_WIND, .item = 2, .hoist = hoists[i] });
    }
}

static void
list_resting (List *list)
{
  const TrnLift *lift = list->work->check.run->lift;
  if (trn_programme_ends_on_seat (lift))
    add (list, (TrnTask){ .kind = TRN_TASK_RESTING, .at_end = TRUE });
  if (trn_programme_starts_on_seat (lift))
    add (list, (TrnTask){ .kind = TRN_TASK_RESTING, .at_end = FALSE });
}

/* Moves in which the drawn attitude has to be the one that the load hangs in. */
static void
list_attitudes (List *list)
{
  const TrnLiftCheck *check = &list->work->check;
  for (guint move = 0; move < n_moves (list->work); move++)
    if (trn_attitude_means (check->scene->programme->plan, check->run, move))
      add (list, (TrnTask){ .kind = TRN_TASK_ATTITUDE, .index = move });
}

static void
list_hoist_lines (List *list)
{
  const TrnLiftCheck *check = &list->work->check;
  const TrnHoist *hoists[2];
  list_no_gear (list, TRN_CHECK_HOIST_LINES);
  list_unheld (list, TRN_CHECK_HOIST_LINES);
  for (guint move = 0; move < n_moves (list->work); move++)
    {
      guint n_hoists = trn_hoists_holding (check, move, hoists);
      for (guint i = 0; i < n_hoists; i++)
        if (hoists[i] != NULL && trn_hoist_lines_means (check, hoists[i]))
          add (list, (TrnTask){ .kind = TRN_TASK_HOIST_LINE, .index = move, .hoist = hoists[i] });
    }
}

static void
list_speeds (List *list)
{
  const TrnHoist *hoists[2];
  guint n_hoists = list_hoists (list->work, hoists);
  for (guint i = 0; i < n_hoists; i++)
    for (guint item = 0; item < TRN_N_SPEEDS; item++)
      if (trn_speed_means (&list->work->check, hoists[i], item))
        add (list, (TrnTask){ .kind = TRN_TASK_SPEED, .item = item, .hoist = hoists[i] });
}

static void
list_swinging (List *list)
{
  add (list, (TrnTask){ .kind = TRN_TASK_SWINGING });
}

static void
list_standing (List *list)
{
  const TrnLiftCheck *check = &list->work->check;
  const TrnRig *rig = check->run->rig;
  for (guint i = 0; rig != NULL && i < rig->n_places; i++)
    {
      const TrnGear *gear = rig->places[i].gear;
      if (gear->kind == TRN_GEAR_CRANE && !gear->has_carrier)
        add_not_given (list, TRN_CHECK_STANDING, gear->id, "carrier");
      for (guint k = 0; k < check->n_obstacles; k++)
        if (trn_standing_means (check, i, k))
          add (list, (TrnTask){ .kind = TRN_TASK_STANDS, .index = i, .other = k });
    }
}

static void
list_footing (List *list)
{
  const TrnRig *rig = list->work->check.run->rig;
  for (guint i = 0; rig != NULL && i < rig->n_places; i++)
    add (list, (TrnTask){ .kind = TRN_TASK_FOOTING, .index = i });
}

guint
trn_tasks_list_findings (const TrnLiftWork *work, guint lift, GArray *tasks)
{
  static void (*const lists[TRN_N_CHECKS]) (List *)
      = { [TRN_CHECK_CLEARANCE] = list_clearances, [TRN_CHECK_SWING_RADIUS] = list_swings,
          [TRN_CHECK_SEAT] = list_seats,           [TRN_CHECK_START] = list_start,
          [TRN_CHECK_HEADROOM] = list_headroom,    [TRN_CHECK_REACH] = list_reach,
          [TRN_CHECK_TAIL_SWING] = list_tails,     [TRN_CHECK_APPROACH] = list_approaches,
          [TRN_CHECK_RIGGING] = list_rigging,      [TRN_CHECK_HOOK_LOAD] = list_hook_loads,
          [TRN_CHECK_CAPACITY] = list_capacities,  [TRN_CHECK_LOAD_SHARE] = list_shares,
          [TRN_CHECK_SLINGS] = list_slings,        [TRN_CHECK_GROUND] = list_grounds,
          [TRN_CHECK_WIND] = list_winds,           [TRN_CHECK_RESTING] = list_resting,
          [TRN_CHECK_STANDING] = list_standing,    [TRN_CHECK_FOOTING] = list_footing,
          [TRN_CHECK_ATTITUDE] = list_attitudes,   [TRN_CHECK_HOIST_LINES] = list_hoist_lines,
          [TRN_CHECK_SPEEDS] = list_speeds,        [TRN_CHECK_SWINGING] = list_swinging };
  guint done = trn_checks_of_plan (work->check.scene->programme->plan);
  List list = { .work = work, .lift = lift, .tasks = tasks };
  for (guint i = 0; i < TRN_N_CHECKS; i++)
    if ((done & TRN_CHECK_BIT (i)) != 0 || i == TRN_CHECK_LOAD_SHARE)
      lists[i](&list);
  return list.n_findings;
}
