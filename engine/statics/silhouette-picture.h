/* silhouette-picture.h: upper bounds of the area that a mesh shows along all directions near one.
 * Internal to this folder. */
#pragma once

#include "facets.h"

/* Directions about @along: along + a @across + b @up, |a| <= @across_by, |b| <= @up_by. The three
 * are of length 1 and square to each other. */
typedef struct
{
  TrnVec3 along, across, up;
  double across_by, up_by;
} TrnSight;

/* Room to draw in, for one thread at a time. */
typedef struct _TrnPicture TrnPicture;
TrnPicture *trn_picture_new (const TrnFacets *facets);
void trn_picture_free (TrnPicture *picture);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnPicture, trn_picture_free)

/* None of the directions shows more, with each point of the mesh up to @slack_m from its place:
 * proven. Drawn in @rows, a multiple of 64 up to TRN_PICTURE_MOST. */
#define TRN_PICTURE_MOST 1024u
double
trn_picture_bound_m2 (TrnPicture *picture, const TrnSight *sight, double slack_m, guint rows);

/* Convex functions of vectors, in proportion to their length, that are no less than what the mesh
 * shows, and the same for opposite vectors; each by a little more than it is. */
typedef struct
{
  double hull_m2;  /* what the convex hull shows */
  double slabs_m2; /* the sum of what those of slabs across the longest side show */
  double sum_m2;   /* what all triangles show, as if none hid another; by half of a closed mesh */
} TrnConvexAreas;

/* Along sight->along; of facets with normals and slabs. */
TrnConvexAreas trn_picture_convex (TrnPicture *picture, const TrnSight *sight, gboolean is_closed);
