/* A load that hangs free may turn over, or how it hangs may not be known (free-hang.h). Its motion
 * is as drawn then, and all that was found in such a move is about an attitude that it does not
 * have: contact as well as clearance. One finding of the check `attitude` tells that; everything
 * else that looked at the load becomes unknown, and says so.
 *
 * What does not look at it stays: where the gear stands and on what, its tail, which follows from
 * the way of the hook as it is drawn, where the lift begins, and what one hook bears, which is all
 * of the weight. So do lifts before it. After it stands what it set down on a seat: there it is as
 * drawn. What it leaves on the hook stands nobody knows how, and so does what has no bound there
 * (left.h): unknown is then what is found beside that, and what may rest on it; after the former
 * all of the next lift of it, too. */
#include "unhung.h"

#include <math.h>
#include <string.h>

#include "left.h"

static gboolean
is_of (const char *obstacle, const char *id)
{
  const gsize length = strlen (id);
  return strncmp (obstacle, id, length) == 0
         && (obstacle[length] == '\0' || obstacle[length] == '/');
}

/* Whether one that stands nobody knows how is what was found beside; NULL: any. */
static gboolean
is_beside_unknown (const TrnLiftCheck *check, const char *obstacle)
{
  for (guint i = 0; i < check->n_obstacles; i++)
    if ((check->obstacles[i].standing->is_place_unknown || isnan (check->left_m[i]))
        && (obstacle == NULL || is_of (obstacle, check->obstacles[i].standing->id)))
      return TRUE;
  return FALSE;
}

/* Whether anything hangs in this lift that an earlier one left so, or left nobody knows how, or
 * hung when it was removed. */
static gboolean
is_beside_hung (const TrnLiftCheck *check)
{
  gboolean hangs = check->run->left_by != G_MAXUINT || check->run->n_gone > 0
                   || is_beside_unknown (check, NULL);
  for (guint i = 0; i < check->n_obstacles; i++)
    hangs = hangs || check->obstacles[i].standing->left_by != G_MAXUINT;
  return hangs;
}

static gboolean
is_unhung (const TrnLiftRun *run, int move)
{
  if (run->hangs == NULL)
    return FALSE;
  if (move >= 0)
    return run->hangs[move].missing != NULL;
  for (guint i = 0; i < run->lift->n_moves; i++)
    if (run->hangs[i].missing != NULL)
      return TRUE;
  return FALSE;
}

/* Of findings about no load. */
static gboolean
is_of_gear (const TrnFinding *f)
{
  return f->check == TRN_CHECK_STANDING || f->check == TRN_CHECK_FOOTING
         || f->check == TRN_CHECK_TAIL_SWING || (f->check == TRN_CHECK_APPROACH && f->move < 0);
}

static gboolean
looks_at_load (const TrnLiftRun *run, const TrnFinding *f)
{
  if (is_of_gear (f) || f->check == TRN_CHECK_START || f->check == TRN_CHECK_ATTITUDE)
    return FALSE;
  return f->check != TRN_CHECK_HOOK_LOAD || f->move < 0 || !run->hangs[f->move].one_hook;
}

/* What hangs gives way, wherever it is. A clearance counts where it is seated. */
static gboolean
rests_on_hung (const TrnLiftCheck *check, const TrnFinding *f)
{
  const TrnLift *lift = check->run->lift;
  if (f->check != TRN_CHECK_RESTING && f->check != TRN_CHECK_SEAT
      && !(f->check == TRN_CHECK_CLEARANCE && f->has_seated))
    return FALSE;
  for (guint i = 0; i < lift->n_seats; i++)
    for (guint k = 0; k < check->n_obstacles; k++)
      if (check->obstacles[k].standing->left_by != G_MAXUINT
          && trn_seat_means (&lift->seats[i], check->obstacles[k].body)
          && (f->obstacle == NULL || is_of (f->obstacle, check->obstacles[k].standing->id)))
        return TRUE;
  return FALSE;
}

/* Where it is while it holds something is not looked at, nor what it bears; its base stays. */
static gboolean
is_of_holder (const TrnLiftCheck *check, const TrnFinding *f)
{
  const TrnPlan *plan = check->scene->programme->plan;
  if (f->check == TRN_CHECK_STANDING || f->check == TRN_CHECK_FOOTING)
    return FALSE;
  for (guint i = 0; i < plan->n_gear; i++)
    if (((f->body != NULL && is_of (f->body, plan->gear[i].id))
         || (f->obstacle != NULL && is_of (f->obstacle, plan->gear[i].id)))
        && trn_left_holds (check, plan->gear[i].id))
      return TRUE;
  return FALSE;
}

static const char *
find_missing (const TrnLiftCheck *check, const TrnFinding *f)
{
  const TrnLiftRun *run = check->run;
  /* What the wind does is found in all moves, whichever it is greatest in. */
  if (looks_at_load (run, f) && is_unhung (run, f->check == TRN_CHECK_WIND ? -1 : f->move))
    return TRN_MISSING_ATTITUDE;
  if (run->starts_unknown && !is_of_gear (f))
    return TRN_MISSING_ATTITUDE_BEFORE;
  if (f->obstacle != NULL && is_beside_unknown (check, f->obstacle))
    return TRN_MISSING_ATTITUDE_BEFORE;
  if (rests_on_hung (check, f))
    return TRN_MISSING_HUNG_SEAT;
  return is_of_holder (check, f) ? TRN_MISSING_HOLDER : NULL;
}

static void
make_unknown (const TrnLiftCheck *check, TrnFinding *f, const char *missing)
{
  TrnFinding unknown = trn_lift_check_finding (
      check, f->check, f->check == TRN_CHECK_WIND ? -1 : f->move, f->obstacle, f->required_m);
  unknown.body = f->body;
  unknown.item = f->item;
  unknown.unit = f->unit;
  unknown.at_end = f->at_end;
  unknown.limit_is_least = f->limit_is_least;
  unknown.missing = missing;
  unknown.allowance_m = NAN;
  trn_finding_clear (f);
  *f = unknown;
}

void
trn_unhung_doubt (const TrnLiftCheck *check, TrnLiftFindings *findings)
{
  const TrnLiftRun *run = check->run;
  if (!run->starts_unknown && !is_unhung (run, -1) && !is_beside_hung (check))
    return;
  for (guint i = 0; i < findings->findings->len; i++)
    {
      TrnFinding *f = &g_array_index (findings->findings, TrnFinding, i);
      const char *missing = f->state == TRN_STATE_NOT_GIVEN ? NULL : find_missing (check, f);
      if (missing != NULL)
        make_unknown (check, f, missing);
    }
}
