/* pair-now.c: how a pair of a moment stands: by its distance now, and by what the check says of the
 * move and of the time that it is in. Every place that speaks of now asks here, so that none of
 * them says short where the check says that the load is seated. */
#include <math.h>

#include "site-view.h"
#include "tolerances.h"

/* Ends of moves, as they are added up, s. */
#define SAME_TIME_S 1e-6

typedef struct
{
  const GArray *list; /* of TrnFinding */
  const TrnMoment *moment;
  guint move; /* that the moment is in */
  const char *body, *obstacle;
} Question;

static const GArray *
findings_of_lift (const TrnFindings *findings, guint run)
{
  for (guint i = 0; findings != NULL && i < findings->n_lifts; i++)
    if (findings->lifts[i].lift == run)
      return findings->lifts[i].findings;
  return NULL;
}

/* ---- the seated span ---- */

static const TrnFinding *
find_in_move (const Question *q, guint move)
{
  return render_clearance_in_move (q->list, move, q->body, q->obstacle);
}

/* When the span begins that @finding has a part of: two parts that meet at a border of moves are of
 * one span. */
static double
span_begin (const Question *q, const TrnFinding *finding)
{
  const double *begins_s = q->moment->run->begins_s;
  double begin_s = finding->seated_s.lo;
  for (guint move = (guint)finding->move; move > 0 && begin_s <= begins_s[move] + SAME_TIME_S;)
    {
      const TrnFinding *before = find_in_move (q, --move);
      if (before == NULL || !before->has_seated
          || before->seated_s.hi < begins_s[move + 1] - SAME_TIME_S)
        break;
      begin_s = before->seated_s.lo;
    }
  return begin_s;
}

/* Where the lift begins or ends on a seat, and the load does not rest there as it should: it lies
 * inside, or beside, or that is not known. */
static gboolean
is_wrong_on_seat (const Question *q, gboolean at_end)
{
  for (guint i = 0; i < q->list->len; i++)
    {
      const TrnFinding *f = &g_array_index (q->list, TrnFinding, i);
      gboolean is_of_rest = f->check == TRN_CHECK_SEAT || f->check == TRN_CHECK_START;
      gboolean is_in_doubt = f->verdict == TRN_VERDICT_FAIL || f->verdict == TRN_VERDICT_UNKNOWN;
      if (is_of_rest && is_in_doubt && f->at_end == at_end
          && g_strcmp0 (f->obstacle, q->obstacle) == 0)
        return TRUE;
    }
  return FALSE;
}

/* A contact that the seat does not allow. */
static gboolean
is_in_contact (const TrnFinding *finding, double time_s)
{
  for (guint i = 0; finding->contacts != NULL && i < finding->contacts->len; i++)
    {
      TrnInterval span = g_array_index (finding->contacts, TrnInterval, i);
      if (time_s >= span.lo && time_s <= span.hi)
        return TRUE;
    }
  return FALSE;
}

/* At the border of the whole span it is off the seat already, or not yet on it: from there on what
 * is to be kept is asked for. */
static gboolean
is_seated (const Question *q, const TrnFinding *finding)
{
  double time_s = q->moment->time_s;
  double last_s = q->moment->run->begins_s[q->moment->run->lift->n_moves];
  if (finding == NULL || !finding->has_seated || finding->verdict == TRN_VERDICT_UNKNOWN
      || is_in_contact (finding, time_s))
    return FALSE;
  double begin_s = span_begin (q, finding), end_s = finding->seated_s.hi;
  gboolean at_start = begin_s <= SAME_TIME_S;
  return (at_start || time_s > begin_s) && time_s >= finding->seated_s.lo - SAME_TIME_S
         && (time_s < end_s || end_s >= last_s - SAME_TIME_S) && !is_wrong_on_seat (q, !at_start);
}

/* Of a gear that has let go the part that is nearest now tells; it may hide another one that is
 * farther away and short, so all others have to meet what is to be kept. */
static gboolean
others_meet (const Question *q, guint place)
{
  const TrnRig *rig = q->moment->run->rig;
  for (guint i = 0; i < rig->n_bodies; i++)
    {
      const TrnFinding *f
          = rig->bodies[i].place == place
                ? render_clearance_in_move (q->list, q->move, "load", rig->bodies[i].id)
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

RenderPairNow
render_pair_now (const TrnFindings *findings, guint run, const TrnMoment *moment, guint index,
                 double tight_m)
{
  const TrnMomentPair *pair = &moment->pairs[index];
  double distance_m = moment->distances[index].distance_m, progress;
  RenderPairNow now = { .state = RENDER_STATE_NONE, .allowance_m = NAN, .spare_m = NAN };
  /* Gear without a place now is near nothing. */
  if (isnan (distance_m))
    return now;
  Question q = { .list = findings_of_lift (findings, run), .moment = moment };
  trn_lift_run_pose (moment->run, moment->time_s, &q.move, &progress);
  const char *body = trn_moment_body (moment, index);
  const char *obstacle = trn_moment_obstacle (moment, index);
  const TrnRig *rig = moment->run->rig;
  if (rig != NULL && trn_rig_is_connected (rig, body, obstacle, q.move))
    return now;
  now.is_there = TRUE;
  /* Findings name the load first. */
  gboolean to_load = pair->obstacle == moment->n_obstacles;
  q.body = to_load ? obstacle : body;
  q.obstacle = to_load ? body : obstacle;
  const TrnFinding *finding = find_in_move (&q, q.move);
  now.allowance_m = finding != NULL ? finding->allowance_m : NAN;
  now.spare_m = distance_m - pair->required_m - (isnan (now.allowance_m) ? 0 : now.allowance_m);
  now.is_seated = is_seated (&q, finding) && (pair->of_load || others_meet (&q, pair->place));
  if (now.is_seated)
    return now;
  now.state
      = q.list == NULL && now.spare_m < 0 && may_be_seated (moment, pair, body, obstacle)
            ? RENDER_STATE_NOT_CHECKED
            : render_state_of_distance (distance_m, pair->required_m, now.allowance_m, tight_m);
  return now;
}
