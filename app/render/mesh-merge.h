/* mesh-merge.h: the triangles of a mesh with vertices merged: those at the same place, or, to have
 * fewer triangles, those in the same cell of a grid. Plain data, for display-mesh.c. */
#pragma once

#include "mesh.h"

typedef struct
{
  TrnVec3 *vertices; /* owned by the caller, like the triangles */
  guint32 n_vertices;
  TrnTriangle *triangles; /* none has a vertex twice */
  guint32 n_triangles;
  double cell_m; /* edge of a grid cell; 0: only the same place was merged */
} RenderMerged;

/* @most_triangles 0: as many as there are. Otherwise the grid is made coarser until no more than
 * that remain; each vertex then stands at a vertex of the mesh in the same cell. */
RenderMerged render_merge (const TrnMesh *mesh, guint32 most_triangles);
