/* distance.h: the exact distance of two meshes at one pose. */
#pragma once

#include "bvh.h"
#include "pose.h"

/* Where to look first: the pair of triangles found last time. */
typedef struct
{
  guint32 triangle_a, triangle_b;
} TrnDistanceHint;

typedef struct
{
  double distance_m;  /* INFINITY when nothing was found below the limit asked for */
  TrnVec3 on_a, on_b; /* site frame */
  TrnDistanceHint pair;
} TrnDistance;

/* The least distance of mesh @a at @site_from_a from mesh @b at @site_from_b: surfaces only, see
 * inside.h for the interior. @hint may be NULL. Only distances below @limit_m are looked for
 * (INFINITY: all): if there is none, distance_m is INFINITY. Branch and bound over both trees,
 * triangles by trn_triangle_distance; worked out in the frame of @b, so that coordinates of a far
 * site do not cost precision. */
TrnDistance
trn_mesh_distance (const TrnBvh *a, const TrnPose *site_from_a, const TrnBvh *b,
                   const TrnPose *site_from_b, double limit_m, const TrnDistanceHint *hint);

/* The same, but the distance found may exceed the least by up to @tolerance_m: it is attained all
 * the same, and found much sooner where many triangles are nearly as near, as on a seat. */
TrnDistance trn_mesh_distance_within (const TrnBvh *a, const TrnPose *site_from_a, const TrnBvh *b,
                                      const TrnPose *site_from_b, double limit_m,
                                      double tolerance_m, const TrnDistanceHint *hint);
