/* bvh.h: a tree of bounding volumes over the triangles of a mesh.
 *
 * Each node knows its triangles (a run of @order) and a small set of points whose hull contains
 * them: the distinct vertices they use when these are few, the corners of a box otherwise. */
#pragma once

#include "mesh.h"

/* A node with at most this many distinct vertices lists them; a larger one is stood for by the
 * corners of its oriented box. */
#define TRN_BVH_MAX_POINTS 16

/* The most triangles of a leaf. */
#define TRN_BVH_LEAF_TRIANGLES 4

typedef struct
{
  guint32 first, count; /* triangles: bvh->order[first … first + count) */
  guint32 child;        /* first of two children that lie together; 0 for a leaf */
  guint32 first_point;  /* bvh->points[first_point … + n_points): a hull of these points */
  guint32 n_points;     /* contains every triangle of the node */
  TrnVec3 centre;       /* every point of the node lies within @radius_m of @centre */
  double radius_m;
} TrnBvhNode;

typedef struct
{
  const TrnMesh *mesh;     /* reference held */
  const TrnBvhNode *nodes; /* node 0 is the root */
  guint32 n_nodes;
  const guint32 *order; /* triangle indices */
  const TrnVec3 *points;
  guint32 n_points;
  guint depth; /* most nodes from the root to a leaf */
} TrnBvh;

/* Builds the tree of @mesh, which has at least one triangle. The same mesh gives the same tree,
 * bit for bit. */
TrnBvh *trn_bvh_build (const TrnMesh *mesh);
void trn_bvh_free (TrnBvh *bvh);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnBvh, trn_bvh_free)
