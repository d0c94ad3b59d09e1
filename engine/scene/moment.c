/* moment.c: the load by warm searches between meshes; a gear part by part, first the one that would
 * stand worst if it were as near as the boxes of both allow. One that could stand no worse than
 * what was found already is not measured, so that most parts never are. */
#include "moment.h"

#include <math.h>

#include "limb-sweep.h"
#include "tolerances.h"

TrnObstacle *
trn_scene_obstacles (const TrnScene *scene, const TrnLiftRun *run, guint *n_obstacles)
{
  guint n = 0;
  for (guint i = 0; i < run->n_standing; i++)
    n += trn_scene_bodies_of (scene, &run->standing[i])->n_bodies;
  TrnObstacle *obstacles = g_new0 (TrnObstacle, n), *next = obstacles;
  for (guint i = 0; i < run->n_standing; i++)
    {
      const TrnBodies *bodies = trn_scene_bodies_of (scene, &run->standing[i]);
      for (guint k = 0; k < bodies->n_bodies; k++)
        *next++ = (TrnObstacle){ &run->standing[i], &bodies->bodies[k] };
    }
  *n_obstacles = n;
  return obstacles;
}

TrnPose
trn_lift_run_pose (const TrnLiftRun *run, double time_s, guint *move, double *progress)
{
  guint last = run->lift->n_moves - 1, m = last;
  while (m > 0 && run->begins_s[m] > time_s)
    m--;
  double seconds = run->motions[m].seconds;
  double s = seconds > 0 ? CLAMP ((time_s - run->begins_s[m]) / seconds, 0, 1) : 1;
  *move = m;
  *progress = s;
  return trn_motion_pose (&run->motions[m], s);
}

/* ---- pairs ---- */

static gboolean
is_loose (const TrnRig *rig, guint place, const char *obstacle)
{
  for (guint i = 0; i < rig->n_bodies; i++)
    for (guint move = 0; rig->bodies[i].place == place && move < rig->n_moves; move++)
      if (!trn_rig_is_connected (rig, rig->bodies[i].id, obstacle, move))
        return TRUE;
  return FALSE;
}

static double
required_of (const TrnScene *scene, const TrnLiftRun *run, guint place, const TrnObstacle *obstacle)
{
  const TrnPlan *plan = scene->programme->plan;
  if (place != G_MAXUINT)
    return trn_plan_gear_required_m (plan, run->lift, run->rig->places[place].gear,
                                     obstacle != NULL ? obstacle->standing->id : "load");
  return obstacle != NULL ? obstacle->standing->required_m
                          : trn_plan_required_m (plan, run->lift, "load");
}

static void
add_pairs_of (const TrnScene *scene, const TrnLiftRun *run, guint place,
              const TrnObstacle *obstacles, guint n_obstacles, GArray *pairs)
{
  for (guint k = 0; k <= n_obstacles; k++)
    {
      const TrnObstacle *obstacle = k < n_obstacles ? &obstacles[k] : NULL;
      if (!is_loose (run->rig, place, obstacle != NULL ? obstacle->body->id : "load"))
        continue;
      TrnMomentPair pair = { .place = place,
                             .obstacle = k,
                             .required_m = required_of (scene, run, place, obstacle) };
      g_array_append_val (pairs, pair);
    }
}

TrnMomentPair *
trn_scene_moment_pairs (const TrnScene *scene, const TrnLiftRun *run, guint *n_pairs)
{
  guint n_obstacles;
  g_autofree TrnObstacle *obstacles = trn_scene_obstacles (scene, run, &n_obstacles);
  GArray *pairs = g_array_new (FALSE, FALSE, sizeof (TrnMomentPair));
  for (guint k = 0; k < n_obstacles; k++)
    {
      TrnMomentPair pair = { .of_load = TRUE,
                             .place = G_MAXUINT,
                             .obstacle = k,
                             .required_m = obstacles[k].standing->required_m };
      g_array_append_val (pairs, pair);
    }
  for (guint p = 0; run->rig != NULL && p < run->rig->n_places; p++)
    add_pairs_of (scene, run, p, obstacles, n_obstacles, pairs);
  if (run->rig != NULL)
    add_pairs_of (scene, run, G_MAXUINT, obstacles, n_obstacles, pairs);
  *n_pairs = pairs->len;
  return (TrnMomentPair *)(gpointer)g_array_free (pairs, FALSE);
}

/* ---- distances of the load ---- */

static gboolean
is_inside (const TrnMoment *moment, const TrnObstacle *obstacle, const TrnPose *site_from_load)
{
  const TrnBody *load = trn_scene_load (moment->scene, moment->run), *body = obstacle->body;
  return trn_mesh_inside (load->bvh, load->check, site_from_load, body->bvh, body->check,
                          &obstacle->standing->site_from_standing)
         == TRN_INSIDE_YES;
}

/* Whether the load, moved aside by @way, is clear of what it meets: no more than a yes or no, so
 * only distances of contact are looked for, beginning where it meets it now. */
static gboolean
is_free_aside (const TrnMoment *moment, const TrnObstacle *obstacle, TrnVec3 way,
               const TrnDistanceHint *hint)
{
  const TrnBody *load = trn_scene_load (moment->scene, moment->run);
  TrnPose aside = moment->site_from_load;
  aside.position = trn_vec3_add (aside.position, way);
  TrnDistance d = trn_mesh_distance_within (load->bvh, &aside, obstacle->body->bvh,
                                            &obstacle->standing->site_from_standing, TRN_CONTACT_M,
                                            TRN_CONTACT_M, hint);
  return isinf (d.distance_m) && !is_inside (moment, obstacle, &aside);
}

/* The ways aside that are tried: up first, where most of what rests is free, then along the other
 * axes of the site and its diagonals. */
#define N_WAYS 26

static TrnVec3
way_aside (int i)
{
  static const int across[] = { 0, 1, -1 };
  /* All but the one that leads nowhere. */
  int k = i < 18 ? i : i + 1;
  TrnVec3 way = { across[k % 3], across[k / 3 % 3], across[(k / 9 + 1) % 3] };
  return trn_vec3_scale (way, TRN_TOUCH_M / trn_vec3_length (way));
}

static gboolean
only_touches (const TrnMoment *moment, const TrnObstacle *obstacle, const TrnDistanceHint *hint)
{
  for (int i = 0; i < N_WAYS; i++)
    if (is_free_aside (moment, obstacle, way_aside (i), hint))
      return TRUE;
  return FALSE;
}

static void
measure_load (TrnMoment *moment, guint index)
{
  const TrnBody *load = trn_scene_load (moment->scene, moment->run);
  const TrnObstacle *obstacle = &moment->obstacles[index];
  TrnDistance d = trn_mesh_distance_within (load->bvh, &moment->site_from_load, obstacle->body->bvh,
                                            &obstacle->standing->site_from_standing, INFINITY,
                                            TRN_CONTACT_M, &moment->hints[index]);
  moment->hints[index] = d.pair;
  TrnMeeting meeting = TRN_MEETING_NONE;
  if (d.distance_m <= TRN_CONTACT_M)
    meeting = only_touches (moment, obstacle, &d.pair) ? TRN_MEETING_TOUCHES : TRN_MEETING_CUTS;
  else if (is_inside (moment, obstacle, &moment->site_from_load))
    meeting = TRN_MEETING_INSIDE;
  moment->distances[index]
      = (TrnMomentDistance){ .distance_m = meeting == TRN_MEETING_NONE ? d.distance_m : 0,
                             .on_body = d.on_a,
                             .on_obstacle = d.on_b,
                             .body = -1,
                             .meeting = meeting,
                             .depth_m = meeting == TRN_MEETING_INSIDE ? d.distance_m : 0 };
}

/* ---- distances of gear ---- */

/* The moving parts that are there now. */
typedef struct
{
  TrnRigLimb *stores;
  TrnLimb *limbs;
  TrnBox *boxes; /* empty: it has no place */
} Parts;

static TrnBox
box_of (const TrnLimb *limb, double progress)
{
  TrnJet3 corners[TRN_LIMB_CORNERS];
  TrnBox box = trn_box_empty ();
  if (!limb->corners (limb->data, (TrnInterval){ progress, progress }, corners))
    return box;
  for (guint i = 0; i < limb->n_corners; i++)
    {
      const TrnJet3 *c = &corners[i];
      trn_box_add_point (&box, (TrnVec3){ c->x.v.lo - limb->radius_m, c->y.v.lo - limb->radius_m,
                                          c->z.v.lo - limb->radius_m });
      trn_box_add_point (&box, (TrnVec3){ c->x.v.hi + limb->radius_m, c->y.v.hi + limb->radius_m,
                                          c->z.v.hi + limb->radius_m });
    }
  return box;
}

/* Slings and beams are there in the moves of their hoist only. */
static gboolean
is_in_move (const TrnRigBody *body, guint move)
{
  return body->first_move <= move && move <= body->last_move;
}

static Parts
parts_make (const TrnRig *rig, guint move, double progress)
{
  guint n = rig->n_bodies;
  Parts parts = { g_new0 (TrnRigLimb, n + 1), g_new0 (TrnLimb, n + 1), g_new0 (TrnBox, n + 1) };
  for (guint i = 0; i < n; i++)
    {
      parts.boxes[i] = trn_box_empty ();
      if (!is_in_move (&rig->bodies[i], move))
        continue;
      parts.limbs[i] = trn_rig_limb (rig, i, move, &parts.stores[i]);
      parts.boxes[i] = box_of (&parts.limbs[i], progress);
    }
  return parts;
}

static void
parts_clear (Parts *parts)
{
  g_free (parts->stores);
  g_free (parts->limbs);
  g_free (parts->boxes);
}

static TrnBox
placed_box (const TrnMesh *mesh, const TrnPose *pose)
{
  TrnBox box = trn_box_empty ();
  for (guint i = 0; i < 8; i++)
    trn_box_add_point (&box, trn_pose_apply (pose, trn_box_corner (&mesh->box, i)));
  return box;
}

/* No more than the distance of anything in them. */
static double
apart_m (const TrnBox *a, const TrnBox *b)
{
  double x = fmax (0, fmax (a->lo.x - b->hi.x, b->lo.x - a->hi.x));
  double y = fmax (0, fmax (a->lo.y - b->hi.y, b->lo.y - a->hi.y));
  double z = fmax (0, fmax (a->lo.z - b->hi.z, b->lo.z - a->hi.z));
  return sqrt (x * x + y * y + z * z);
}

static TrnPartStand
stand_of (const TrnMoment *moment, guint pair, guint body, double distance_m)
{
  return moment->judge != NULL ? moment->judge (moment->judge_data, moment, pair, body, distance_m)
                               : (TrnPartStand){ 0, distance_m, FALSE };
}

/* A part, as it would stand at the least distance that its box allows; NAN: it has no place now. */
typedef struct
{
  guint body;
  double least_m;
  TrnPartStand stand;
} Candidate;

/* The less comes first, and what is not known last. */
static int
compare_known (double a, double b)
{
  if (isnan (a) != isnan (b))
    return isnan (a) ? 1 : -1;
  return (a > b) - (a < b);
}

/* Negative: @a stands worse. */
static int
compare_stands (const TrnPartStand *a, double a_m, const TrnPartStand *b, double b_m)
{
  if (a->rank != b->rank)
    return a->rank < b->rank ? -1 : 1;
  const int order = compare_known (a->spare_m, b->spare_m);
  return order != 0 ? order : compare_known (a_m, b_m);
}

static int
compare_candidates (gconstpointer a, gconstpointer b)
{
  const Candidate *p = a, *q = b;
  const int order = compare_stands (&p->stand, p->least_m, &q->stand, q->least_m);
  return order != 0 ? order : (p->body > q->body) - (p->body < q->body);
}

/* What a part of the gear is measured against. */
static TrnLimbPair
against (const TrnMoment *moment, guint obstacle, guint move)
{
  if (obstacle < moment->n_obstacles)
    {
      const TrnObstacle *o = &moment->obstacles[obstacle];
      return (TrnLimbPair){ .span = { 0, 1 },
                            .obstacle = { o->body->bvh, o->body->check },
                            .site_from_obstacle = o->standing->site_from_standing };
    }
  const TrnBody *load = trn_scene_load (moment->scene, moment->run);
  return (TrnLimbPair){ .span = { 0, 1 },
                        .obstacle = { load->bvh, load->check },
                        .motion = &moment->run->motions[move] };
}

/* One part, at a distance of 0 with those nearest points. */
static TrnMeeting
meeting_of_part (const TrnMoment *moment, const TrnLimbPair *pair, double progress, double apart)
{
  if (apart > TRN_CONTACT_M)
    return TRN_MEETING_INSIDE;
  TrnLimbPair aside = *pair;
  aside.motion = NULL;
  TrnPose pose = pair->motion != NULL ? moment->site_from_load : pair->site_from_obstacle;
  aside.site_from_obstacle = pose;
  for (int i = 0; i < N_WAYS; i++)
    {
      TrnVec3 on_limb, on_obstacle;
      aside.site_from_obstacle.position = trn_vec3_sub (pose.position, way_aside (i));
      if (trn_limb_distance (&aside, progress, &on_limb, &on_obstacle) > 0)
        return TRN_MEETING_TOUCHES;
    }
  return TRN_MEETING_CUTS;
}

static TrnMomentDistance
distance_of_part (const TrnMoment *moment, const TrnLimbPair *pair, double progress, guint body)
{
  TrnMomentDistance d = { .body = (int)body, .meeting = TRN_MEETING_NONE };
  d.distance_m = trn_limb_distance (pair, progress, &d.on_body, &d.on_obstacle);
  if (d.distance_m > 0 || isnan (d.distance_m))
    return d;
  double apart_m = trn_vec3_distance (d.on_body, d.on_obstacle);
  d.meeting = meeting_of_part (moment, pair, progress, apart_m);
  d.depth_m = d.meeting == TRN_MEETING_INSIDE ? apart_m : 0;
  return d;
}

/* The parts of the gear of a pair that count in this move, that first which may stand worst. */
static void
find_candidates (const TrnMoment *moment, const Parts *parts, guint index, GArray *candidates)
{
  const TrnRig *rig = moment->run->rig;
  const TrnMomentPair *pair = &moment->pairs[index];
  gboolean to_load = pair->obstacle == moment->n_obstacles;
  const TrnObstacle *obstacle = to_load ? NULL : &moment->obstacles[pair->obstacle];
  const char *id = to_load ? "load" : obstacle->body->id;
  const TrnBody *body = to_load ? trn_scene_load (moment->scene, moment->run) : obstacle->body;
  TrnBox box = placed_box (body->mesh, to_load ? &moment->site_from_load
                                               : &obstacle->standing->site_from_standing);
  g_array_set_size (candidates, 0);
  for (guint i = 0; i < rig->n_bodies; i++)
    if (rig->bodies[i].place == pair->place && is_in_move (&rig->bodies[i], moment->move)
        && !trn_rig_is_connected (rig, rig->bodies[i].id, id, moment->move))
      {
        const gboolean has_place = !trn_box_is_empty (&parts->boxes[i]);
        const double least_m = has_place ? apart_m (&parts->boxes[i], &box) : NAN;
        const Candidate candidate = { i, least_m, stand_of (moment, index, i, least_m) };
        g_array_append_val (candidates, candidate);
      }
  g_array_sort (candidates, compare_candidates);
}

/* The worst that was found so far. */
typedef struct
{
  TrnMomentDistance distance; /* body −1: none */
  TrnPartStand stand;
} Worst;

static Worst
worst_none (void)
{
  return (Worst){ .distance = { .distance_m = NAN, .body = -1, .meeting = TRN_MEETING_NONE } };
}

static gboolean
is_worse (const TrnPartStand *stand, double distance_m, const Worst *than)
{
  return than->distance.body < 0
         || compare_stands (stand, distance_m, &than->stand, than->distance.distance_m) < 0;
}

/* As is_worse, but that one that is aside comes after all that are not. */
static gboolean
is_placed_before (const TrnPartStand *stand, double distance_m, const Worst *than)
{
  if (than->distance.body >= 0 && stand->is_aside != than->stand.is_aside)
    return than->stand.is_aside;
  return is_worse (stand, distance_m, than);
}

/* What is aside at the bound of its boxes need not be where it is: at what is to be kept it is not
 * any more, and nowhere farther off does it stand worse than there. */
static gboolean
may_be_placed_before (const TrnMoment *moment, guint index, const Candidate *candidate,
                      const Worst *than)
{
  if (isnan (candidate->stand.spare_m))
    return FALSE;
  if (than->distance.body < 0 || than->stand.is_aside)
    return TRUE;
  if (!candidate->stand.is_aside)
    return is_worse (&candidate->stand, candidate->least_m, than);
  const double least_m = fmax (candidate->least_m, moment->pairs[index].required_m);
  const TrnPartStand stand = stand_of (moment, index, candidate->body, least_m);
  return is_worse (&stand, least_m, than);
}

static TrnMomentDistance
distance_of_candidate (const TrnMoment *moment, const Parts *parts, guint index,
                       const Candidate *candidate)
{
  if (isnan (candidate->least_m))
    return (TrnMomentDistance){ .distance_m = NAN,
                                .body = (int)candidate->body,
                                .meeting = TRN_MEETING_NONE };
  TrnLimbPair limb_pair = against (moment, moment->pairs[index].obstacle, moment->move);
  limb_pair.limb = &parts->limbs[candidate->body];
  return distance_of_part (moment, &limb_pair, moment->progress, candidate->body);
}

static void
measure_gear (TrnMoment *moment, const Parts *parts, guint index, GArray *candidates)
{
  Worst worst = worst_none (), placed = worst_none ();
  find_candidates (moment, parts, index, candidates);
  for (guint i = 0; i < candidates->len; i++)
    {
      const Candidate *candidate = &g_array_index (candidates, Candidate, i);
      if (!may_be_placed_before (moment, index, candidate, &placed)
          && !is_worse (&candidate->stand, candidate->least_m, &worst))
        continue;
      const TrnMomentDistance d = distance_of_candidate (moment, parts, index, candidate);
      const TrnPartStand stand = stand_of (moment, index, candidate->body, d.distance_m);
      if (is_worse (&stand, d.distance_m, &worst))
        worst = (Worst){ d, stand };
      if (!isnan (stand.spare_m) && is_placed_before (&stand, d.distance_m, &placed))
        placed = (Worst){ d, stand };
    }
  moment->distances[index] = worst.distance;
  moment->placed[index] = placed.distance;
}

void
trn_moment_judge_by (TrnMoment *moment, TrnMomentJudge judge, gconstpointer data)
{
  moment->judge = judge;
  moment->judge_data = data;
}

void
trn_moment_set_time (TrnMoment *moment, double time_s)
{
  const double last_s = moment->run->begins_s[moment->run->lift->n_moves];
  moment->time_s = CLAMP (time_s, 0, last_s);
  moment->site_from_load
      = trn_lift_run_pose (moment->run, moment->time_s, &moment->move, &moment->progress);
  for (guint i = 0; i < moment->n_obstacles; i++)
    {
      measure_load (moment, i);
      moment->placed[i] = moment->distances[i];
    }
  if (moment->n_pairs == moment->n_obstacles)
    return;
  Parts parts = parts_make (moment->run->rig, moment->move, moment->progress);
  g_autoptr (GArray) candidates = g_array_new (FALSE, FALSE, sizeof (Candidate));
  for (guint i = moment->n_obstacles; i < moment->n_pairs; i++)
    measure_gear (moment, &parts, i, candidates);
  parts_clear (&parts);
}

static const char *
body_of (const TrnMoment *moment, guint pair, int body)
{
  return moment->pairs[pair].of_load ? "load"
         : body >= 0                 ? moment->run->rig->bodies[body].id
                                     : NULL;
}

const char *
trn_moment_body (const TrnMoment *moment, guint pair)
{
  g_assert (pair < moment->n_pairs);
  return body_of (moment, pair, moment->distances[pair].body);
}

const char *
trn_moment_placed_body (const TrnMoment *moment, guint pair)
{
  g_assert (pair < moment->n_pairs);
  return body_of (moment, pair, moment->placed[pair].body);
}

const char *
trn_moment_obstacle (const TrnMoment *moment, guint pair)
{
  g_assert (pair < moment->n_pairs);
  guint obstacle = moment->pairs[pair].obstacle;
  return obstacle < moment->n_obstacles ? moment->obstacles[obstacle].body->id : "load";
}

TrnMoment *
trn_moment_new (const TrnScene *scene, guint run)
{
  g_assert (run < scene->programme->n_runs);
  TrnMoment *moment = g_new0 (TrnMoment, 1);
  moment->scene = scene;
  moment->run = &scene->programme->runs[run];
  moment->obstacles = trn_scene_obstacles (scene, moment->run, &moment->n_obstacles);
  moment->pairs = trn_scene_moment_pairs (scene, moment->run, &moment->n_pairs);
  moment->distances = g_new0 (TrnMomentDistance, moment->n_pairs);
  moment->placed = g_new0 (TrnMomentDistance, moment->n_pairs);
  moment->hints = g_new0 (TrnDistanceHint, moment->n_obstacles);
  trn_moment_set_time (moment, 0);
  return moment;
}

void
trn_moment_free (TrnMoment *moment)
{
  if (moment == NULL)
    return;
  g_free (moment->obstacles);
  g_free (moment->pairs);
  g_free (moment->distances);
  g_free (moment->placed);
  g_free (moment->hints);
  g_free (moment);
}
