/* clearance-cause.c: a lift that begins or ends on something has it in its seats. What the load
 * touches, or all but touches, at the very start or end, and no seat names, may be such a thing:
 * whether it is, the program cannot know. */
#include "clearance-cause.h"

#include <string.h>

#include "cause.h"
#include "hoist.h"

/* As far above its seat as a load is drawn where somebody leaves it some play (common practice, no
 * source). */
#define ALL_BUT_TOUCHES_M 0.01
#define AT_END 1e-9 /* of a move */

static void
tell (TrnFinding *finding, const char *why)
{
  finding->cause = (TrnCause){ .why = why, .found = NAN, .limit = NAN, .unit = TRN_UNIT_M };
}

/* Whether nothing moves in the moves from @first to before @end. */
static gboolean
is_still (const TrnLift *lift, guint first, guint end)
{
  for (guint i = first; i < end; i++)
    if (lift->moves[i].kind != TRN_MOVE_WAIT)
      return FALSE;
  return TRUE;
}

static gboolean
touches_until_end (const TrnFinding *finding, double end_s)
{
  const GArray *contacts = finding->contacts;
  return contacts != NULL && contacts->len > 0
         && g_array_index (contacts, TrnInterval, contacts->len - 1).hi >= end_s;
}

static gboolean
touches_from_start (const TrnFinding *finding, double begin_s)
{
  const GArray *contacts = finding->contacts;
  return contacts != NULL && contacts->len > 0
         && g_array_index (contacts, TrnInterval, 0).lo <= begin_s;
}

static gboolean
has_seat (const TrnLift *lift, const char *obstacle, gboolean at_end)
{
  for (guint i = 0; i < lift->n_seats; i++)
    {
      const TrnSeat *seat = &lift->seats[i];
      const gsize length = strlen (seat->on);
      if ((at_end ? seat->at_end : seat->at_start) && strncmp (seat->on, obstacle, length) == 0
          && (obstacle[length] == '\0' || obstacle[length] == '/'))
        return TRUE;
    }
  return FALSE;
}

/* Part of gear, which nothing stands on. */
static gboolean
is_of_gear (const TrnLiftCheck *check, const char *obstacle)
{
  const TrnPlan *plan = check->scene->programme->plan;
  g_autofree char *id = g_strndup (obstacle, strcspn (obstacle, "/"));
  return trn_plan_find_gear (plan, id) != NULL;
}

static void
tell_stands (TrnFinding *finding, const TrnLiftCheck *check)
{
  const TrnLift *lift = check->run->lift;
  const guint move = (guint)finding->move;
  const gboolean waits = lift->moves[move].kind == TRN_MOVE_WAIT;
  const gboolean is_near = finding->lower_m <= ALL_BUT_TOUCHES_M && isfinite (finding->progress);
  const gboolean begins = is_still (lift, 0, move)
                          && (touches_from_start (finding, check->run->begins_s[move])
                              || (is_near && (waits || finding->progress <= AT_END)));
  const gboolean ends = is_still (lift, move + 1, lift->n_moves)
                        && (touches_until_end (finding, check->run->begins_s[move + 1])
                            || (is_near && (waits || finding->progress >= 1 - AT_END)));
  if (begins && !has_seat (lift, finding->obstacle, FALSE))
    tell (finding, TRN_CAUSE_STANDS_AT_START);
  else if (ends && !has_seat (lift, finding->obstacle, TRUE))
    tell (finding, TRN_CAUSE_STANDS_AT_END);
}

/* The rope, block or slings of the tail: beside a load that stands upright they are as far from it
 * as its lug. */
static void
tell_tail (TrnFinding *finding, const TrnLiftCheck *check)
{
  const TrnHoist *tail = &check->run->lift->rigging.tail;
  const TrnGear *gear = tail->given ? trn_hoist_gear (check, tail) : NULL;
  if (gear == NULL || gear->kind != TRN_GEAR_CRANE)
    return;
  const char *part = strchr (finding->obstacle, '/');
  const gsize length = strlen (gear->id);
  if (part == NULL || (gsize)(part - finding->obstacle) != length
      || strncmp (finding->obstacle, gear->id, length) != 0
      || (strcmp (part, "/rope") != 0 && strcmp (part, "/block") != 0))
    return;
  tell (finding,
        (guint)finding->move > tail->last_move ? TRN_CAUSE_TAIL_LET_GO : TRN_CAUSE_TAIL_HOLDS);
}

void
trn_clearance_cause_tell (const TrnLiftCheck *check, TrnFinding *finding)
{
  if (finding->obstacle == NULL || finding->move < 0 || g_strcmp0 (finding->body, "load") != 0)
    return;
  if (is_of_gear (check, finding->obstacle))
    tell_tail (finding, check);
  else
    tell_stands (finding, check);
}
