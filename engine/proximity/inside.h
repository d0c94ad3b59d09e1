/* inside.h: whether one mesh lies inside another whose surface it does not touch. */
#pragma once

#include "bvh.h"
#include "mesh-check.h"
#include "pose.h"

/* The sum of the winding numbers of the closed (or at least balanced) pieces of a mesh about @point
 * (mesh frame); 0 is outside. Open pieces do not count. @point must not lie on the surface. */
int trn_winding_number (const TrnBvh *bvh, const TrnMeshCheck *check, TrnVec3 point);

typedef enum
{
  TRN_INSIDE_NO,
  TRN_INSIDE_YES,
  TRN_INSIDE_UNKNOWN, /* neither mesh is closed */
} TrnInside;

/* For two meshes whose surfaces do not meet at these poses: YES when some piece of one, or a
 * degenerate triangle that belongs to none, lies inside the closed or balanced pieces of the other
 * (where pieces cancel each other that are no solid with a hollow wholly within, that is inside),
 * UNKNOWN when it is not so as far as can be told and neither mesh is closed, NO otherwise. Decides
 * for a whole span of motion in which the surfaces do not meet. */
TrnInside
trn_mesh_inside (const TrnBvh *a, const TrnMeshCheck *check_a, const TrnPose *site_from_a,
                 const TrnBvh *b, const TrnMeshCheck *check_b, const TrnPose *site_from_b);
