/* moment.h: one moment of a lift: where the load is, and how far it and the moving gear are from
 * everything. Not certified over time: the checks do that. */
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

/* Two whose distance is followed: the load, or all moving parts of one gear with the rigging on its
 * hook, and an obstacle, or the load. What is connected is left out. */
typedef struct
{
  gboolean of_load;
  guint place;       /* of the gear among those of the rig; G_MAXUINT: rigging without gear, or the
                        load */
  guint obstacle;    /* n_obstacles: the load */
  double required_m; /* clearance to be kept */
} TrnMomentPair;

/* All of @run: first the load with each obstacle, in their order; then gear by gear, each with
 * every obstacle and last with the load. Owned by the caller (g_free). */
TrnMomentPair *
trn_scene_moment_pairs (const TrnScene *scene, const TrnLiftRun *run, guint *n_pairs);

/* How the load meets an obstacle at a distance of 0. */
typedef enum
{
  TRN_MEETING_NONE,
  TRN_MEETING_TOUCHES, /* moved aside by TRN_TOUCH_M it would be free */
  TRN_MEETING_CUTS,    /* it would not: one is in the other, and their surfaces meet */
  TRN_MEETING_INSIDE,  /* one is wholly in the other, and their surfaces are apart */
} TrnMeeting;
#define TRN_TOUCH_M 0.01

/* Of a gear it is that of the part that stands worst, by the judge of the moment. */
typedef struct
{
  /* At most TRN_CONTACT_M above the least; 0 inside and in contact; NAN where the part has no place
   * now, or there is none. */
  double distance_m;
  TrnVec3 on_body, on_obstacle; /* site */
  int body;                     /* of the rig; −1: the load, or of gear no part that counts now */
  TrnMeeting meeting;
  double depth_m; /* inside: how far the surfaces are apart; else 0 */
} TrnMomentDistance;

/* How badly a part of a gear stands: of two the one of the lower rank is worse, then the one with
 * less to spare, where that is known, then the nearer one. */
typedef struct
{
  int rank;
  double spare_m;    /* NAN: not known */
  gboolean is_aside; /* what it has to spare is no shortfall that is known of, as of what may be
                        held: it stands back behind those whose gap counts. Never at what is to be
                        kept or more */
} TrnPartStand;

typedef struct _TrnMoment TrnMoment;

/* How part @body of the rig, of the gear of @pair, stands at @distance_m; NAN: it has no place now.
 * Never better nearer than farther, and what it has to spare known at all distances or at none:
 * parts are left out by a bound on their distance. */
typedef TrnPartStand (*TrnMomentJudge) (gconstpointer data, const TrnMoment *moment, guint pair,
                                        guint body, double distance_m);

struct _TrnMoment
{
  const TrnScene *scene; /* borrowed */
  const TrnLiftRun *run; /* borrowed */
  TrnObstacle *obstacles;
  guint n_obstacles;
  TrnMomentPair *pairs;
  guint n_pairs;                /* the first n_obstacles are those of the load */
  TrnMomentDistance *distances; /* one a pair */
  TrnMomentDistance *placed;    /* one a pair: of gear of the worst of the parts of which the judge
                                   knows what they have to spare, since distances may be of one that
                                   has no place, and of one that is aside only where none is not;
                                   else the same */
  TrnDistanceHint *hints;       /* where the load was nearest last time, one an obstacle */
  double time_s;
  guint move; /* that it is in, with the progress in it */
  double progress;
  TrnPose site_from_load;
  TrnMomentJudge judge;     /* NULL: the nearest part stands worst */
  gconstpointer judge_data; /* borrowed */
};

/* The moment at the start of the lift with index @run. */
TrnMoment *trn_moment_new (const TrnScene *scene, guint run);
void trn_moment_free (TrnMoment *moment);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnMoment, trn_moment_free)

/* By what parts of a gear are told apart, from the next trn_moment_set_time on; NULL: by their
 * distance, which is by what is to spare while what is taken off is not known, since what is to be
 * kept is the same for all of them. */
void trn_moment_judge_by (TrnMoment *moment, TrnMomentJudge judge, gconstpointer data);

/* Works out all distances at @time_s (clamped to the lift). Warm: quick when the time is near that
 * of the last call. */
void trn_moment_set_time (TrnMoment *moment, double time_s);

/* The ids of the two that the distance of a pair is of: "load" or a part of gear, which is NULL
 * where none counts now, or none has a place; and what stands there, or "load". Borrowed. */
const char *trn_moment_body (const TrnMoment *moment, guint pair);
const char *trn_moment_placed_body (const TrnMoment *moment, guint pair);
const char *trn_moment_obstacle (const TrnMoment *moment, guint pair);

/* The pose of the load at a time from the start of the lift, and the move it is in (the later one
 * at a border) with the progress within it. */
TrnPose trn_lift_run_pose (const TrnLiftRun *run, double time_s, guint *move, double *progress);
