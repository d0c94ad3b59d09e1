/* facets.h: a mesh as flat convex polygons, each of which stands for some of its triangles: what
 * pictures are made of (silhouette-picture.h). Internal to this folder. */
#pragma once

#include "mesh.h"

/* Every point of its triangles is within thick_m of the polygon. */
typedef struct
{
  guint first, count; /* corners, in their order round it */
  double thick_m;
  TrnVec3 middle; /* of a ball that holds its corners */
  double radius_m;
} TrnFacet;

#define TRN_FACETS_SLABS 24

typedef struct
{
  TrnVec3 middle;  /* of the mesh; points are from there */
  double reach_m;  /* no point is farther from it, thickness included */
  TrnVec3 *points; /* owned, like all */
  guint n_points;
  TrnFacet *facets; /* the largest first */
  guint n_facets;
  float *normals[3]; /* of each triangle: along its normal, as long as its area */
  guint n_normals;
  double area_m2; /* of all triangles */
  /* Corners of the triangles of each slab across the longest side, from the middle, too. */
  TrnVec3 *slab_points;
  guint slab_first[TRN_FACETS_SLABS + 1];
} TrnFacets;

/* The thicker they may be, as a share of the size of the mesh, the fewer there are. Without normals
 * and slabs; the mesh is not kept. */
TrnFacets *trn_facets_build (const TrnMesh *mesh, double thick_share);
/* Normals and slabs. */
void trn_facets_add_whole (TrnFacets *facets, const TrnMesh *mesh);
void trn_facets_free (TrnFacets *facets);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnFacets, trn_facets_free)
