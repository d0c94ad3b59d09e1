/* display-mesh.h: a mesh made ready for drawing: float coordinates about its own centre, normals,
 * feature edges; optionally with fewer triangles. Checks never use it. Plain data, no OpenGL. */
#pragma once

#include "mesh.h"

typedef struct RenderMesh
{
  gatomicrefcount refs;
  char hash[65];    /* of the mesh it shows */
  TrnVec3 centre;   /* mesh frame; coordinates below are relative to it */
  TrnBox box;       /* mesh frame */
  float *positions; /* 3 each */
  float *normals;   /* 3 each; averaged over faces less than the crease angle apart */
  guint32 n_vertices;
  guint32 *triangles; /* 3 each */
  guint32 n_triangles;
  guint32 *edges; /* 2 vertices each: borders and creases over 30° */
  guint32 n_edges;
  double edge_spacing_m; /* of the edges: how much surface there is for each metre of them */
  gboolean closed;       /* no borders, and faces all the same way round: it can be cut open */
  float *face_normals;   /* 3 a triangle */
  guint32 *folds;        /* 2 vertices and 2 triangles each: edges that only show as an outline */
  guint32 n_folds;
  gboolean passing;          /* of one picture: the next has another in its place */
  gboolean crumpled;         /* it has fewer triangles, and flat faces of it are no longer flat */
  struct RenderMesh *coarse; /* the same with fewer triangles, for while one moves; NULL: none */
} RenderMesh;

/* @most_triangles: reduced to no more than so many; 0: all. May run on any thread. */
RenderMesh *render_mesh_build (const TrnMesh *mesh, guint32 most_triangles);
RenderMesh *render_mesh_ref (const RenderMesh *mesh);
void render_mesh_unref (const RenderMesh *mesh);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RenderMesh, render_mesh_unref)
