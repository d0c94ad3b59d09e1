/* mesh-repair.h: what a file did wrong and nothing is lost by putting right.
 *
 * Nothing is moved and nothing is filled. Three things are done, and each is counted, so that it
 * can be said: triangles that stand in the mesh more than once stay once; triangles with two equal
 * corners, which are only a line, go where that line is an edge of a triangle that stays; and a
 * closed piece that is inside out is turned. What has no area but three corners stays: it is as
 * near to an obstacle as any other surface. */
#pragma once

#include "mesh-check.h"

typedef struct
{
  guint32 degenerate; /* triangles with two equal corners, dropped */
  guint32 duplicate;  /* dropped: the same corners, turned the same way as an earlier one */
  guint32 flipped_pieces, flipped_triangles;
} TrnMeshRepair;

/* @mesh put right, by what @check found in it; a new reference to @mesh itself where there is
 * nothing to do. Parts keep their names and order; one of which nothing is left goes.
 * O(n log n) at most. */
TrnMesh *trn_mesh_repair (const TrnMesh *mesh, const TrnMeshCheck *check, TrnMeshRepair *repair);
