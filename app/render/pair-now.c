/* pair-now.c: how a pair of a moment stands: by its distance now, and by what the check says of the
 * move and of the time that it is in. Every place that speaks of now asks here, so that none of
 * them says short where the check says that the load is seated. */
#include <math.h>

#include "site-view.h"

/* Of moments that are shown as one. */
#define SAME_TIME_S 0.05

/* The clearances of a move lie together: where they begin, in the order of findings. */
static guint
first_of_move (const GArray *list, int move)
{
  guint first = 0, end = list->len;
  while (first < end)
    {
      guint middle = first + (end - first) / 2;
      const TrnFinding *finding = &g_array_index (list, TrnFinding, middle);
      if (finding->check == TRN_CHECK_CLEARANCE && finding->move < move)
        first = middle + 1;
      else
        end = middle;
    }
  return first;
}

static const TrnFinding *
find_clearance (const GArray *list, guint move, const char *body, const char *obstacle)
{
  if (list == NULL)
    return NULL;
  for (guint k = first_of_move (list, (int)move); k < list->len; k++)
    {
      const TrnFinding *finding = &g_array_index (list, TrnFinding, k);
      if (finding->check != TRN_CHECK_CLEARANCE || finding->move != (int)move)
        break;
      if (g_strcmp0 (finding->body, body) == 0 && g_strcmp0 (finding->obstacle, obstacle) == 0)
        return finding;
    }
  return NULL;
}

/* Of a gear that has let go the part that is nearest now tells; it may hide another one that is
 * farther away and short, so all others have to meet what is to be kept. */
static gboolean
others_meet (const GArray *list, const TrnRig *rig, guint move, guint place)
{
  if (rig == NULL)
    return FALSE;
  for (guint i = 0; i < rig->n_bodies; i++)
    {
      const TrnFinding *f = rig->bodies[i].place == place
                                ? find_clearance (list, move, "load", rig->bodies[i].id)
                                : NULL;
      if (f != NULL && f->verdict != TRN_VERDICT_PASS)
        return FALSE;
    }
  return TRUE;
}

/* ---- before the check ---- */

/* Whether the pair may be about to be seated, or may just have been: only the check knows. */
static gboolean
may_be_seated (const TrnMoment *moment, const TrnMomentPair *pair, const char *body,
               const char *obstacle)
{
  const TrnLift *lift = moment->run->lift;
  const TrnRig *rig = moment->run->rig;
  if (rig != NULL && trn_rig_holder (rig, body, obstacle) != NULL)
    return TRUE;
  for (guint i = 0; pair->of_load && i < lift->n_seats; i++)
    if (trn_seat_means (&lift->seats[i], moment->obstacles[pair->obstacle].body))
      return TRUE;
  return FALSE;
}

/* What is certified is less than what is attained, by as much as it was worth to search. */
static double
distance_to_show (const TrnFinding *finding, double time_s, double distance_m)
{
  gboolean is_closest_now
      = finding != NULL && finding->has_points && fabs (finding->time_s - time_s) < SAME_TIME_S;
  return is_closest_now && finding->lower_m < distance_m ? finding->lower_m : distance_m;
}

/* Whether they are not where they are drawn: neither near nor far is known then. Before the check
 * that is told by what is known of the lift. */
static gboolean
is_place_unknown (const TrnMoment *moment, const TrnMomentPair *pair, guint move,
                  const TrnFinding *finding)
{
  const TrnLiftRun *run = moment->run;
  if (finding != NULL)
    return trn_finding_is_unhung (finding);
  if (run->starts_unknown || (run->hangs != NULL && run->hangs[move].missing != NULL))
    return TRUE;
  return pair->obstacle < moment->n_obstacles
         && moment->obstacles[pair->obstacle].standing->is_place_unknown;
}

RenderPairNow
render_pair_now (const TrnFindings *findings, guint run, const TrnMoment *moment, guint index,
                 double tight_m)
{
  const TrnMomentPair *pair = &moment->pairs[index];
  double distance_m = moment->distances[index].distance_m, progress;
  RenderPairNow now
      = { .state = RENDER_STATE_NONE, .distance_m = NAN, .allowance_m = NAN, .spare_m = NAN };
  /* Gear without a place now is near nothing. */
  if (isnan (distance_m))
    return now;
  const TrnLiftFindings *lift = trn_findings_get_lift (findings, run);
  const GArray *list = lift != NULL ? lift->findings : NULL;
  guint move;
  trn_lift_run_pose (moment->run, moment->time_s, &move, &progress);
  const char *body = trn_moment_body (moment, index);
  const char *obstacle = trn_moment_obstacle (moment, index);
  const TrnRig *rig = moment->run->rig;
  if (rig != NULL && trn_rig_is_connected (rig, body, obstacle, move))
    return now;
  now.is_there = TRUE;
  /* Findings name the load first. */
  gboolean to_load = pair->obstacle == moment->n_obstacles;
  const TrnFinding *finding
      = find_clearance (list, move, to_load ? obstacle : body, to_load ? body : obstacle);
  if (is_place_unknown (moment, pair, move, finding))
    {
      now.state = RENDER_STATE_NOT_CHECKED;
      return now;
    }
  now.allowance_m = finding != NULL ? finding->allowance_m : NAN;
  now.distance_m = distance_m = distance_to_show (finding, moment->time_s, distance_m);
  now.spare_m = distance_m - pair->required_m - (isnan (now.allowance_m) ? 0 : now.allowance_m);
  now.is_seated = finding != NULL && trn_finding_is_seated (list, finding, moment->time_s)
                  && (pair->of_load || others_meet (list, rig, move, pair->place));
  if (now.is_seated)
    return now;
  now.state
      = list == NULL && now.spare_m < 0 && may_be_seated (moment, pair, body, obstacle)
            ? RENDER_STATE_NOT_CHECKED
            : render_state_of_distance (distance_m, pair->required_m, now.allowance_m, tight_m);
  return now;
}
