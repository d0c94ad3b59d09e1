/* bench-scenes.c: see bench-scenes.h. */
#include "bench-scenes.h"

#include "bench-shapes.h"

static const TrnVec3 up = { 0, 0, 1 }, zero = { 0, 0, 0 };

static BenchBody
body_make_take (TrnMesh *mesh)
{
  return (BenchBody){ mesh, trn_bvh_build (mesh, 0), trn_mesh_check_new (mesh) };
}

static void
body_clear (BenchBody *body)
{
  trn_mesh_check_free (body->check);
  trn_bvh_free (body->bvh);
  trn_mesh_unref (body->mesh);
}

static BenchScene *
scene_new_take (TrnMesh *load, TrnMesh *obstacle)
{
  BenchScene *scene = g_new0 (BenchScene, 1);
  scene->load = body_make_take (load);
  scene->obstacle = body_make_take (obstacle);
  return scene;
}

void
bench_scene_free (BenchScene *scene)
{
  body_clear (&scene->load);
  body_clear (&scene->obstacle);
  g_free (scene);
}

TrnSweepPair
bench_scene_pair (const BenchScene *scene, guint move)
{
  return (TrnSweepPair){ { scene->load.bvh, scene->load.check },
                         &scene->motions[move],
                         { 0, 1 },
                         { scene->obstacle.bvh, scene->obstacle.check },
                         trn_pose_identity () };
}

TrnPose
bench_scene_pose (const BenchScene *scene, guint i, guint n)
{
  guint a_move = n / scene->n_moves, move = MIN (i / a_move, scene->n_moves - 1);
  return trn_motion_pose (&scene->motions[move], fmin (1, (i - move * a_move) / (a_move - 1.0)));
}

/* ---- moves ---- */

static TrnPose
last_pose (const BenchScene *scene)
{
  return trn_motion_pose (&scene->motions[scene->n_moves - 1], 1);
}

/* The first move begins at @start, the others where the one before ends. */
static void
begin (BenchScene *scene, const TrnPose *start, TrnVec3 hook, TrnVec3 by, TrnVec3 axis,
       double angle_rad)
{
  scene->motions[0] = trn_motion_make_carry (start, 300, hook, by, axis, angle_rad);
  scene->n_moves = 1;
}

static void
carry (BenchScene *scene, TrnVec3 hook, TrnVec3 by, TrnVec3 axis, double angle_rad)
{
  TrnPose pose = last_pose (scene);
  scene->motions[scene->n_moves++] = trn_motion_make_carry (&pose, 300, hook, by, axis, angle_rad);
}

BenchScene *
bench_scene_column (guint n_load, guint n_obstacle)
{
  BenchOutline load = { .radius_m = 1.4, .ribs = 8, .rib_m = 0.1, .wave_m = 0.002 };
  BenchOutline tower = { .radius_m = 1.6, .ribs = 40, .rib_m = 0.1, .wave_m = 0.002 };
  BenchScene *scene = scene_new_take (bench_column_make (n_load, 10, &load),
                                      bench_column_make (n_obstacle, 45, &tower));
  TrnPlacement placement = { .position = { 12, -14, 32 }, .heading_rad = 0.4 };
  TrnPose start = trn_pose_make (&placement);
  TrnVec3 hook = { 0, 0, 10 }, across = { 0, 1, 0 };
  begin (scene, &start, hook, trn_vec3_make (0, 0, 6), up, 0);
  TrnPose pose = last_pose (scene);
  g_assert (trn_motion_make_slew (&pose, 600, hook, 30, 0, -0.7, TRUE, -4, 0,
                                  &scene->motions[scene->n_moves++]));
  carry (scene, hook, zero, across, 0.2);
  pose = last_pose (scene);
  TrnPlacement beside = { .position = { 3.4, 0, 37 } };
  TrnPose end = trn_pose_make (&beside);
  TrnVec3 by = trn_vec3_sub (trn_pose_apply (&end, hook), trn_pose_apply (&pose, hook));
  carry (scene, hook, by, across, -0.2);
  carry (scene, hook, trn_vec3_make (0, 0, -36), up, 0);
  return scene;
}

BenchScene *
bench_scene_concentric (guint n_load, guint n_obstacle)
{
  BenchOutline load = { .radius_m = 3.0 }, tube = { .radius_m = 3.2 };
  BenchScene *scene = scene_new_take (bench_column_make (n_load, 10, &load),
                                      bench_shaft_make (n_obstacle, 40, &tube, 0.3));
  TrnPlacement placement = { .position = { 0, 0, 38 } };
  TrnPose start = trn_pose_make (&placement);
  begin (scene, &start, trn_vec3_make (0, 0, 10), trn_vec3_make (0, 0, -36), up, 0);
  return scene;
}

BenchScene *
bench_scene_half_turn (guint n_load, guint n_obstacle)
{
  BenchOutline load = { .half_x_m = 2.0, .half_y_m = 1.5, .ribs = 10, .rib_m = 0.05 };
  BenchOutline shaft = { .radius_m = 2.85, .ribs = 30, .rib_m = -0.1 };
  BenchScene *scene = scene_new_take (bench_column_make (n_load, 10, &load),
                                      bench_shaft_make (n_obstacle, 40, &shaft, 0.4));
  TrnPlacement placement = { .position = { 0.02, 0, 38 } };
  TrnPose start = trn_pose_make (&placement);
  begin (scene, &start, trn_vec3_make (0, 0, 10), trn_vec3_make (0, 0, -36), up, G_PI);
  return scene;
}

BenchScene *
bench_scene_lattice (guint n_load, guint n_obstacle)
{
  BenchScene *scene = scene_new_take (bench_lattice_make (n_load, 1.6, 14.4, 1.6, 0.08, 0.05),
                                      bench_lattice_make (n_obstacle, 3.0, 45, 1.5, 0.12, 0.06));
  TrnVec3 hook = { 0, 0, 7.2 };
  /* The girder lies level: its z is the site's x, or turned from it by 0.9. */
  TrnPlacement placement = { .heading_rad = 0.9, .pitch_rad = G_PI / 2 };
  TrnPose start = trn_pose_make (&placement);
  start.position = trn_vec3_sub (trn_vec3_make (-14, -2.95, 48), trn_pose_apply (&start, hook));
  begin (scene, &start, hook, trn_vec3_make (14, 0, 0), up, -0.9);
  carry (scene, hook, trn_vec3_make (0, 0, -30), up, 0);
  carry (scene, hook, zero, up, 0.15);
  carry (scene, hook, trn_vec3_make (2, 0, -4), up, -0.1);
  return scene;
}

BenchScene *
bench_scene_pipework (guint n_load, guint n_obstacle)
{
  BenchScene *scene = scene_new_take (bench_pipework_make (n_load), bench_frame_make (n_obstacle));
  TrnPlacement placement = { .position = { -9, -6.5, 15 }, .heading_rad = 1.2 };
  TrnPose start = trn_pose_make (&placement);
  TrnVec3 hook = { 0, 0, 4 };
  begin (scene, &start, hook, trn_vec3_make (9, 0.4, 0), up, -1.2);
  carry (scene, hook, trn_vec3_make (0, 0.35, -8), up, 0);
  carry (scene, hook, trn_vec3_make (1.5, 0, -2), up, 0.06);
  return scene;
}

BenchScene *
bench_scene_blob (guint n_load, guint n_obstacle)
{
  BenchScene *scene
      = scene_new_take (bench_blob_make (n_load, 2, 1), bench_blob_make (n_obstacle, 5, 2));
  TrnPlacement placement = { .position = { 13, -6, 9 }, .heading_rad = 0.4 };
  TrnPose start = trn_pose_make (&placement);
  begin (scene, &start, zero, trn_vec3_make (-5.4, 6, 0), up, 0.5);
  carry (scene, zero, zero, up, 1.2);
  carry (scene, zero, trn_vec3_make (0, 0, -14), up, 0.3);
  return scene;
}
