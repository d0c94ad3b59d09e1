/* pair-now.c: how a pair of a moment stands: by its distance now, and by what the check says of the
 * move and of the time that it is in. Every place that speaks of now asks here, so that none of
 * them says short where the check says that the load is seated; so does the moment itself, for the
 * part of a gear that stands worst, so that none hides one that is short behind a nearer one that
 * is clear. */
#include <math.h>

#include "site-view.h"

/* Of moments that are shown as one. */
#define SAME_TIME_S 0.05

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

/* ---- judging ---- */

/* Two bodies of a pair, and what is known of them in the move of the moment. */
typedef struct
{
  const TrnMoment *moment;
  const TrnMomentPair *pair;
  const char *body, *obstacle;
  const GArray *list; /* all findings of the lift; NULL: not checked */
  const TrnFinding *finding;
  double tight_m;
} Two;

/* Before the check: short as it is drawn, unless it is seated, which nobody knows. After it, in a
 * move of which it cannot tell: what the load may touch as its seat. */
static gboolean
is_aside (const Two *two, const RenderPairNow *now)
{
  if (two->list != NULL)
    return now->is_on_seat;
  return now->spare_m < 0 && may_be_seated (two->moment, two->pair, two->body, two->obstacle);
}

/* What the check could not tell of this move is no clearance at one of its moments either. */
static RenderState
state_now (const Two *two, const RenderPairNow *now)
{
  const TrnMomentPair *pair = two->pair;
  if (is_aside (two, now))
    return RENDER_STATE_NOT_CHECKED;
  const RenderState state = render_state_of_distance (now->distance_m, pair->required_m,
                                                      now->allowance_m, two->tight_m);
  const gboolean is_met = state == RENDER_STATE_TIGHT || state == RENDER_STATE_CLEAR;
  const gboolean is_known = two->finding != NULL && two->finding->verdict != TRN_VERDICT_UNKNOWN;
  return is_met && !is_known ? RENDER_STATE_NOT_CHECKED : state;
}

/* Never better for a shorter distance (TrnMomentJudge). */
static RenderPairNow
judge_two (const Two *two, double distance_m)
{
  const TrnMoment *moment = two->moment;
  const TrnFinding *finding = two->finding;
  RenderPairNow now = { .state = RENDER_STATE_NOT_CHECKED,
                        .is_there = TRUE,
                        .distance_m = NAN,
                        .allowance_m = NAN,
                        .spare_m = NAN };
  if (isnan (distance_m) || is_place_unknown (moment, two->pair, moment->move, finding))
    return now;
  now.distance_m = distance_to_show (finding, moment->time_s, distance_m);
  if (finding != NULL)
    now.allowance_m = trn_finding_allowance_now_m (finding, two->pair->required_m, now.distance_m);
  now.spare_m
      = now.distance_m - two->pair->required_m - (isnan (now.allowance_m) ? 0 : now.allowance_m);
  now.is_seated = finding != NULL && trn_finding_is_seated (two->list, finding, moment->time_s);
  now.is_on_seat = finding != NULL && trn_finding_is_on_seat (two->list, finding, moment->time_s);
  now.state = now.is_seated ? RENDER_STATE_NONE : state_now (two, &now);
  return now;
}

/* ---- which is worst ---- */

/* As trn_words_rank of findings. */
static int
rank_of (const RenderPairNow *now)
{
  switch (now->state)
    {
    case RENDER_STATE_TOUCHING:
      return 0;
    case RENDER_STATE_SHORT:
      return 1;
    case RENDER_STATE_NOT_CHECKED:
      return 2;
    case RENDER_STATE_TIGHT:
    case RENDER_STATE_CLEAR:
      return 3;
    case RENDER_STATE_NONE:
      return 4;
    }
  g_assert_not_reached ();
}

int
render_pair_now_compare (const RenderPairNow *a, const RenderPairNow *b)
{
  const int order = rank_of (a) - rank_of (b);
  if (order != 0)
    return order;
  if (isnan (a->spare_m) != isnan (b->spare_m))
    return isnan (a->spare_m) ? 1 : -1;
  return (a->spare_m > b->spare_m) - (a->spare_m < b->spare_m);
}

/* ---- of parts ---- */

struct _RenderJudge
{
  const GArray *list; /* NULL: not checked */
  guint n_bodies, n_obstacles;
  guint32 *places; /* [(move * (n_bodies + 1) + body) * (n_obstacles + 1) + obstacle], the load last
                      of both; 0: none, else of the finding in the list, from 1 */
};

static gsize
place_in (const RenderJudge *judge, guint move, guint body, guint obstacle)
{
  return ((gsize)move * (judge->n_bodies + 1) + body) * (judge->n_obstacles + 1) + obstacle;
}

/* Index + 1 of those with an id, and of the load. */
static GHashTable *
index_bodies (const TrnRig *rig, guint n_bodies)
{
  GHashTable *bodies = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint i = 0; i < n_bodies; i++)
    g_hash_table_insert (bodies, rig->bodies[i].id, GUINT_TO_POINTER (i + 1));
  g_hash_table_insert (bodies, (gpointer) "load", GUINT_TO_POINTER (n_bodies + 1));
  return bodies;
}

static GHashTable *
index_obstacles (const TrnMoment *moment)
{
  GHashTable *obstacles = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint i = 0; i < moment->n_obstacles; i++)
    g_hash_table_insert (obstacles, moment->obstacles[i].body->id, GUINT_TO_POINTER (i + 1));
  return obstacles;
}

static guint
look_up (GHashTable *table, const char *id)
{
  return GPOINTER_TO_UINT (g_hash_table_lookup (table, id));
}

/* A moving part is found beside the load, too, which findings name first. */
static void
index_findings (RenderJudge *judge, const TrnMoment *moment)
{
  g_autoptr (GHashTable) bodies = index_bodies (moment->run->rig, judge->n_bodies);
  g_autoptr (GHashTable) obstacles = index_obstacles (moment);
  for (guint i = 0; i < judge->list->len; i++)
    {
      const TrnFinding *f = &g_array_index (judge->list, TrnFinding, i);
      if (f->check != TRN_CHECK_CLEARANCE || f->move < 0 || f->body == NULL || f->obstacle == NULL)
        continue;
      const gboolean to_load
          = g_str_equal (f->body, "load") && look_up (obstacles, f->obstacle) == 0;
      const guint body = look_up (bodies, to_load ? f->obstacle : f->body);
      const guint obstacle = to_load ? judge->n_obstacles + 1 : look_up (obstacles, f->obstacle);
      if (body > 0 && obstacle > 0)
        judge->places[place_in (judge, (guint)f->move, body - 1, obstacle - 1)] = i + 1;
    }
}

RenderJudge *
render_judge_new (const TrnFindings *findings, const TrnMoment *moment)
{
  const TrnLiftRun *run = moment->run;
  const TrnLiftFindings *lift
      = trn_findings_get_lift (findings, (guint)(run - moment->scene->programme->runs));
  RenderJudge *judge = g_new0 (RenderJudge, 1);
  judge->n_bodies = run->rig != NULL ? run->rig->n_bodies : 0;
  judge->n_obstacles = moment->n_obstacles;
  judge->places = g_new0 (guint32, place_in (judge, run->lift->n_moves, 0, 0) + 1);
  judge->list = lift != NULL ? lift->findings : NULL;
  if (judge->list != NULL)
    index_findings (judge, moment);
  return judge;
}

void
render_judge_free (RenderJudge *judge)
{
  if (judge == NULL)
    return;
  g_free (judge->places);
  g_free (judge);
}

gboolean
render_judge_is_checked (const RenderJudge *judge)
{
  return judge != NULL && judge->list != NULL;
}

/* Part @body of the rig, or −1: the load. */
static Two
make_two (const RenderJudge *judge, const TrnMoment *moment, guint pair, int body, double tight_m)
{
  const TrnMomentPair *p = &moment->pairs[pair];
  const gboolean is_checked = render_judge_is_checked (judge);
  const guint32 place
      = is_checked ? judge->places[place_in (
            judge, moment->move, body >= 0 ? (guint)body : judge->n_bodies, p->obstacle)]
                   : 0;
  return (Two){
    .moment = moment,
    .pair = p,
    .body = body >= 0 ? moment->run->rig->bodies[body].id : "load",
    .obstacle = trn_moment_obstacle (moment, pair),
    .list = is_checked ? judge->list : NULL,
    .finding = place > 0 ? &g_array_index (judge->list, TrnFinding, place - 1) : NULL,
    .tight_m = tight_m,
  };
}

TrnPartStand
render_judge_part (gconstpointer judge, const TrnMoment *moment, guint pair, guint body,
                   double distance_m)
{
  /* What is tight is no more than what is nearest of what is met. */
  const Two two = make_two (judge, moment, pair, (int)body, 0);
  const RenderPairNow now = judge_two (&two, distance_m);
  return (TrnPartStand){ rank_of (&now), now.spare_m, is_aside (&two, &now) };
}

/* ---- of a pair ---- */

static RenderPairNow
judge_pair (const RenderJudge *judge, const TrnMoment *moment, guint pair,
            const TrnMomentDistance *distance, double tight_m)
{
  const TrnRig *rig = moment->run->rig;
  const Two two = make_two (judge, moment, pair, distance->body, tight_m);
  /* Names are looked up only where the check has found nothing: it leaves out what is connected. */
  if ((distance->body < 0 && !two.pair->of_load)
      || (two.finding == NULL && rig != NULL
          && trn_rig_is_connected (rig, two.body, two.obstacle, moment->move)))
    return (RenderPairNow){
      .state = RENDER_STATE_NONE, .distance_m = NAN, .allowance_m = NAN, .spare_m = NAN
    };
  return judge_two (&two, distance->distance_m);
}

RenderPairNow
render_pair_now (const RenderJudge *judge, const TrnMoment *moment, guint pair, double tight_m)
{
  return judge_pair (judge, moment, pair, &moment->distances[pair], tight_m);
}

RenderPairNow
render_pair_placed (const RenderJudge *judge, const TrnMoment *moment, guint pair, double tight_m)
{
  return judge_pair (judge, moment, pair, &moment->placed[pair], tight_m);
}
