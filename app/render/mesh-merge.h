/* mesh-merge.h: the triangles of a mesh with vertices merged: those at the same place, and, to have
 * fewer triangles, others too. Plain data, for display-mesh.c. */
#pragma once

#include "mesh.h"

typedef struct
{
  TrnVec3 *vertices; /* owned by the caller, like the triangles */
  guint32 n_vertices;
  TrnTriangle *triangles; /* none has a vertex twice */
  guint32 n_triangles;
  gboolean fewer; /* than the mesh has */
  double cell_m;  /* edge of the cells of a grid that were merged; 0: there was no need */
} RenderMerged;

/* @most_triangles 0: as many as there are. Otherwise no more than that, where it can be done by
 * moving no corner or border; else the vertices in each cell of a grid become one of them, and the
 * grid is as coarse as it has to be. */
RenderMerged render_merge (const TrnMesh *mesh, guint32 most_triangles);
