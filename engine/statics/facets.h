/* facets.h: a mesh as flat convex polygons, each of which stands for some of its triangles: what
 * pictures are made of (silhouette-picture.h). Internal to this folder. */
#pragma once

#include "mesh.h"

/* Every point of its triangles is within thick_m of the polygon. What is rounded here, some 2⁻⁵³ of
 * the size of the mesh, comes on top: pictures are drawn larger by very much more than that. */
typedef struct
{
  guint first, count; /* corners, in their order round it */
  double thick_m;
  TrnVec3 middle; /* of a ball that holds its corners */
  double radius_m;
} TrnFacet;

typedef struct
{
  TrnVec3 middle;  /* of the mesh; points are from there */
  double reach_m;  /* no point is farther from it, thickness included */
  TrnVec3 *points; /* owned, like all */
  guint n_points;
  TrnFacet *facets; /* the largest first */
  guint n_facets;
  const TrnMesh *mesh; /* borrowed: each triangle is a facet, as they come, and none is stored */
  gboolean is_closed;  /* … of which as many face a line that meets them as face away */
} TrnFacets;

/* The thicker they may be, as a share of the size of the mesh, the fewer there are; the mesh is not
 * kept. */
TrnFacets *trn_facets_build (const TrnMesh *mesh, double thick_share);
/* Each triangle for itself, which takes no time, and no room; @mesh must outlive it. */
TrnFacets *trn_facets_of_triangles (const TrnMesh *mesh, gboolean is_closed);
void trn_facets_free (TrnFacets *facets);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnFacets, trn_facets_free)

/* One of them, and its corners; they may be in @room. */
typedef struct
{
  TrnFacet facet;
  TrnVec3 corners[3];
} TrnFacetRoom;

const TrnVec3 *
trn_facets_corners (const TrnFacets *facets, guint index, TrnFacetRoom *room, guint *count);
const TrnFacet *
trn_facets_get (const TrnFacets *facets, guint index, TrnFacetRoom *room, const TrnVec3 **corners);
