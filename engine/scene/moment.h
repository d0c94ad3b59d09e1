/* moment.h: one moment of a lift: where the load is, and how far it is from everything. Not
 * certified over time: the checks do that. */
#pragma once

#include "scene.h"

/* A body of what stands during a lift. */
typedef struct
{
  const TrnStanding *standing;
  const TrnBody *body;
} TrnObstacle;

/* Everything that stands during @run, in the order of the plan: structures, components, gear. Also
 * what is connected with the load: whoever judges asks trn_rig_is_connected. The array is owned by
 * the caller (g_free), its contents by the scene. */
TrnObstacle *trn_scene_obstacles (const TrnScene *scene, const TrnLiftRun *run, guint *n_obstacles);

typedef struct
{
  double distance_m;            /* at most TRN_CONTACT_M above the least; 0 inside and in contact */
  TrnVec3 on_load, on_obstacle; /* site */
} TrnMomentDistance;

typedef struct
{
  const TrnScene *scene; /* borrowed */
  const TrnLiftRun *run; /* borrowed */
  TrnObstacle *obstacles;
  guint n_obstacles;
  TrnMomentDistance *distances; /* one each */
  TrnDistanceHint *hints;       /* where it was nearest last time */
  double time_s;
  TrnPose site_from_load;
} TrnMoment;

/* The moment at the start of the lift with index @run. */
TrnMoment *trn_moment_new (const TrnScene *scene, guint run);
void trn_moment_free (TrnMoment *moment);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnMoment, trn_moment_free)

/* Works out all distances at @time_s (clamped to the lift). Warm: quick when the time is near that
 * of the last call. */
void trn_moment_set_time (TrnMoment *moment, double time_s);

/* The pose of the load at a time from the start of the lift, and the move it is in (the later one
 * at a border) with the progress within it. */
TrnPose trn_lift_run_pose (const TrnLiftRun *run, double time_s, guint *move, double *progress);
