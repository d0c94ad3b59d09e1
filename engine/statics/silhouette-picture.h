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
