#include "moment.h"

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

static gboolean
is_inside (const TrnMoment *moment, const TrnObstacle *obstacle)
{
  const TrnBody *load = trn_scene_load (moment->scene, moment->run), *body = obstacle->body;
  return trn_mesh_inside (load->bvh, load->check, &moment->site_from_load, body->bvh, body->check,
                          &obstacle->standing->site_from_standing)
         == TRN_INSIDE_YES;
}

void
trn_moment_set_time (TrnMoment *moment, double time_s)
{
  guint move;
  double progress, last_s = moment->run->begins_s[moment->run->lift->n_moves];
  moment->time_s = CLAMP (time_s, 0, last_s);
  moment->site_from_load = trn_lift_run_pose (moment->run, moment->time_s, &move, &progress);
  const TrnBody *load = trn_scene_load (moment->scene, moment->run);
  for (guint i = 0; i < moment->n_obstacles; i++)
    {
      const TrnObstacle *obstacle = &moment->obstacles[i];
      TrnDistance d = trn_mesh_distance_within (
          load->bvh, &moment->site_from_load, obstacle->body->bvh,
          &obstacle->standing->site_from_standing, INFINITY, TRN_CONTACT_M, &moment->hints[i]);
      moment->hints[i] = d.pair;
      gboolean touching = d.distance_m <= TRN_CONTACT_M || is_inside (moment, obstacle);
      moment->distances[i] = (TrnMomentDistance){ touching ? 0 : d.distance_m, d.on_a, d.on_b };
    }
}

TrnMoment *
trn_moment_new (const TrnScene *scene, guint run)
{
  g_assert (run < scene->programme->n_runs);
  TrnMoment *moment = g_new0 (TrnMoment, 1);
  moment->scene = scene;
  moment->run = &scene->programme->runs[run];
  moment->obstacles = trn_scene_obstacles (scene, moment->run, &moment->n_obstacles);
  moment->distances = g_new0 (TrnMomentDistance, moment->n_obstacles);
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
  g_free (moment->distances);
  g_free (moment->hints);
  g_free (moment);
}
