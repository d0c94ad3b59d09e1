/* slabs.h: a mesh cut across its longest side, and the convex hulls of the parts. Internal to this
 * folder. */
#pragma once

#include "mesh.h"

#define TRN_SLABS_MOST 48u

/* The hulls hold the whole mesh but for what is within off_m of them. Neighbours share what spans
 * the cut between them, a flat piece square to the axis. */
typedef struct
{
  TrnVec3 axis;     /* of length 1 */
  double *along[3]; /* of each point, from the middle that was given; owned */
  guint first[TRN_SLABS_MOST + 1], n;
  double shared_m2;      /* of all those flat pieces */
  double off_m, reach_m; /* no point is farther from the middle than reach */
  double round_m;        /* no outline of the hulls is longer, together */
} TrnSlabs;

/* The same on any number of threads. */
TrnSlabs *trn_slabs_build (const TrnMesh *mesh, TrnVec3 middle, guint jobs);
void trn_slabs_free (TrnSlabs *slabs);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnSlabs, trn_slabs_free)
