/* silhouette-convex.h: areas that are no less than what a mesh shows and easy to follow from one
 * direction to another. Internal to this folder. */
#pragma once

#include "plane.h"
#include "silhouette-picture.h"
#include "slabs.h"

typedef struct
{
  float *along[3]; /* of each triangle: along its normal, as long as its area */
  guint n;
  double area_m2; /* of all */
} TrnNormals;

TrnNormals *trn_normals_build (const TrnMesh *mesh);
void trn_normals_free (TrnNormals *normals);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnNormals, trn_normals_free)

/* Room to work in, for one thread at a time. */
typedef struct
{
  const TrnNormals *normals; /* borrowed, like the slabs */
  const TrnSlabs *slabs;
  double *x, *y; /* of a slab */
  TrnPlanePoint *places, *corners;
} TrnConvexRoom;

void trn_convex_room_init (TrnConvexRoom *room, const TrnNormals *normals, const TrnSlabs *slabs);
void trn_convex_room_clear (TrnConvexRoom *room);

/* Convex functions of vectors, in proportion to their length, and the same for opposite vectors;
 * each by a little more than it is. */
typedef struct
{
  double hull_m2;  /* what the convex hull shows */
  double slabs_m2; /* the sum of what those of the slabs show */
  /* With that and without this slabs still show no less than the mesh; linear, so that it changes
   * its sign with the vector. */
  double shared_m2;
  double sum_m2; /* what all triangles show, as if none hid another; by half of a closed mesh */
} TrnConvexAreas;

/* Both take longer than slabs. */
typedef struct
{
  gboolean hull, sum;
} TrnConvexWants;

/* Along sight->along; with INFINITY for what is not wanted. */
TrnConvexAreas trn_convex_areas (TrnConvexRoom *room, const TrnSight *sight, gboolean is_closed,
                                 TrnConvexWants wants);
