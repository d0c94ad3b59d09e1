/* The key of a finding is that of its move, or of the whole lift (lift-key.h), and the task itself:
 * all of its fields but those that follow from it (what is missing, its place in the list) and its
 * lift, which the key of the lift has by the index of the run.
 *
 * Only tasks that take their time are kept, and not those of the load past what stands: the cache
 * has their answers of the sweep, by keys that hold for more (sweep-cache.h). So nothing that is
 * kept here looks at a seated span, which is found over the whole lift, or at the sail area, which
 * is likewise. */
#include "task-cache.h"

#include "pair.h"

typedef enum
{
  KEPT_NOT,
  KEPT_BY_MOVE,
  KEPT_BY_LIFT,
} Kept;

/* What a hoist lets go of is followed through the moves after it (held.c). */
static Kept
kept_of_pair (const TrnPair *pair)
{
  if (pair->body == TRN_BODY_LOAD && pair->other_stands)
    return KEPT_NOT;
  return pair->holder != NULL ? KEPT_BY_LIFT : KEPT_BY_MOVE;
}

static Kept
how_kept (const TrnTask *task)
{
  switch (task->kind)
    {
    case TRN_TASK_CLEARANCE:
    case TRN_TASK_APPROACH:
      return kept_of_pair (&task->pair);
    case TRN_TASK_HEADROOM:
    case TRN_TASK_REACH:
    case TRN_TASK_RIGGING:
    case TRN_TASK_OWN_LOAD:
    case TRN_TASK_OWN_LOAD_BODY:
    case TRN_TASK_HOOK_LOAD:
    case TRN_TASK_CAPACITY:
    case TRN_TASK_LOAD_SHARE:
    case TRN_TASK_SLINGS:
    case TRN_TASK_GROUND:
    case TRN_TASK_ATTITUDE:
    case TRN_TASK_LEAN:
    case TRN_TASK_HOIST_LINE:
      return KEPT_BY_MOVE;
    case TRN_TASK_TAIL_SWING: /* the sector is that of all moves */
    case TRN_TASK_BARRICADE:
      return KEPT_BY_LIFT;
    case TRN_TASK_RESTING: /* at the start of the first move, or the end of the last */
      return task->at_end ? KEPT_BY_LIFT : KEPT_BY_MOVE;
    default:
      return KEPT_NOT;
    }
}

/* ---- the move whose key it is ---- */

static guint
move_of_body (const TrnLiftCheck *check, guint body)
{
  const TrnHoist *hoist = body != TRN_BODY_LOAD ? check->rig->bodies[body].hoist : NULL;
  return hoist != NULL ? hoist->first_move : 0;
}

/* A part of the gear waits where its hoist will pick up. All else asks about a hoist in its own
 * moves only. */
static guint
move_of (const TrnLiftCheck *check, const TrnTask *task)
{
  if (task->kind != TRN_TASK_CLEARANCE && task->kind != TRN_TASK_APPROACH)
    return task->index;
  const TrnPair *pair = &task->pair;
  const guint other = pair->other_stands ? 0 : move_of_body (check, pair->other);
  return MAX (task->index, MAX (move_of_body (check, pair->body), other));
}

/* ---- keys ---- */

static guint
number_of_hoist (const TrnLiftCheck *check, const TrnHoist *hoist)
{
  const TrnRigging *rigging = &check->run->lift->rigging;
  g_assert (hoist == NULL || hoist == &rigging->main || hoist == &rigging->tail);
  return hoist == NULL ? 0 : hoist == &rigging->main ? 1 : 2;
}

#if GLIB_SIZEOF_VOID_P == 8
G_STATIC_ASSERT (sizeof (TrnTask) == 88);
G_STATIC_ASSERT (sizeof (TrnAllowance) == 88);
#endif

static TrnCacheKey *
key_new (const TrnLiftWork *work, const TrnTask *task, Kept kept)
{
  TrnCacheKey *key = trn_cache_key_new (TRN_CACHE_FINDING);
  if (kept == KEPT_BY_LIFT)
    trn_lift_key_add_whole (work->key, key);
  else
    trn_lift_key_add_move (work->key, move_of (&work->check, task), key);
  trn_cache_key_add_number (key, task->kind);
  trn_cache_key_add_number (key, task->index);
  trn_cache_key_add_number (key, task->other);
  trn_cache_key_add_number (key, task->item);
  trn_cache_key_add_number (key, task->pair.body);
  trn_cache_key_add_number (key, task->pair.other_stands);
  trn_cache_key_add_number (key, task->pair.other);
  trn_cache_key_add_number (key, number_of_hoist (&work->check, task->pair.holder));
  trn_cache_key_add_number (key, number_of_hoist (&work->check, task->hoist));
  trn_cache_key_add_number (key, task->at_end);
  trn_cache_key_add_number (key, task->check);
  return key;
}

TrnFinding
trn_task_cached_judge (const TrnLiftWork *work, const TrnTask *task, TrnTaskJudge judge,
                       gpointer *kept)
{
  const TrnCheckOptions *options = work->check.options;
  const Kept how = how_kept (task);
  if (work->key == NULL || how == KEPT_NOT)
    return judge (work, task);
  g_autoptr (GByteArray) key = key_new (work, task, how);
  TrnKeptFinding *found = trn_cache_get (options->cache, key);
  if (found != NULL)
    {
      *kept = found;
      return trn_kept_finding_dup (found);
    }
  TrnFinding finding = judge (work, task);
  if (trn_progress_is_cancelled (options->progress))
    return finding;
  found = trn_kept_finding_new (&finding);
  trn_cache_put (options->cache, key, found, trn_kept_finding_clear, found->bytes);
  g_atomic_rc_box_release_full (found, trn_kept_finding_clear);
  return finding;
}

TrnAllowance
trn_task_cached_allowance (const TrnLiftWork *work, guint move)
{
  const TrnLiftCheck *check = &work->check;
  if (work->key == NULL)
    return trn_lift_check_allowance (check, move);
  g_autoptr (GByteArray) key = trn_cache_key_new (TRN_CACHE_ALLOWANCE);
  trn_lift_key_add_move (work->key, move, key);
  TrnAllowance *kept = trn_cache_get (check->options->cache, key);
  if (kept == NULL)
    {
      kept = g_atomic_rc_box_new0 (TrnAllowance);
      *kept = trn_lift_check_allowance (check, move);
      if (!trn_progress_is_cancelled (check->options->progress))
        trn_cache_put (check->options->cache, key, kept, NULL, 0);
    }
  TrnAllowance allowance = *kept;
  g_atomic_rc_box_release (kept);
  return allowance;
}
