/* bench-scenes.h: a load, what stands beside it, and the moves past it. */
#pragma once

#include "sweep.h"

#define BENCH_MOST_MOVES 5

typedef struct
{
  TrnMesh *mesh;
  TrnBvh *bvh;
  TrnMeshCheck *check;
} BenchBody;

typedef struct
{
  BenchBody load, obstacle; /* the obstacle's frame is the site's */
  TrnMotion motions[BENCH_MOST_MOVES];
  guint n_moves;
} BenchScene;

typedef BenchScene *(*BenchSceneMake) (guint n_load, guint n_obstacle);

/* Hoist, slew with luff, tilt, travel, then 36 m down, the ribs of the load passing those of the
 * tower 0.2 m apart. */
BenchScene *bench_scene_column (guint n_load, guint n_obstacle);
/* A smooth column lowered exactly along the axis of a tube: everything ties at all times. */
BenchScene *bench_scene_concentric (guint n_load, guint n_obstacle);
/* A ribbed box that makes half a turn while it is lowered in a shaft with ribs. */
BenchScene *bench_scene_half_turn (guint n_load, guint n_obstacle);
/* A girder past a tower, both lattices. */
BenchScene *bench_scene_lattice (guint n_load, guint n_obstacle);
/* A bundle of pipes past a frame. */
BenchScene *bench_scene_pipework (guint n_load, guint n_obstacle);
/* A blob past a greater one. */
BenchScene *bench_scene_blob (guint n_load, guint n_obstacle);

void bench_scene_free (BenchScene *scene);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BenchScene, bench_scene_free)

TrnSweepPair bench_scene_pair (const BenchScene *scene, guint move);
/* @i of @n poses, evenly over all moves, the ends of each among them. */
TrnPose bench_scene_pose (const BenchScene *scene, guint i, guint n);
