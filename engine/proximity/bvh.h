/* bvh.h: a tree of bounding volumes over the triangles of a mesh.
 *
 * Each node knows its triangles (a run of @order) and a small set of points near whose hull all of
 * them lie. */
#pragma once

#include "hull.h"
#include "mesh.h"

/* The most triangles of a leaf, and children of a node. */
#define TRN_BVH_LEAF_TRIANGLES 8
#define TRN_BVH_CHILDREN 8

/* No tree is deeper than this. */
#define TRN_BVH_MAX_DEPTH 64

typedef struct
{
  float centre[3];      /* mesh frame; the hull's points are relative to it */
  float radius_m;       /* no point of the hull or of a triangle is farther from the centre */
  float slack_m;        /* every point of a triangle is within this of the hull */
  guint32 first, count; /* triangles: bvh->order[first … first + count) */
  guint32 first_block;  /* bvh->blocks[first_block … + n_blocks) */
  guint32 child;        /* first of n_children that lie together; 0 for a leaf */
  guint16 n_children, n_blocks;
} TrnBvhNode;

typedef struct
{
  const TrnMesh *mesh;     /* reference held */
  const TrnBvhNode *nodes; /* node 0 is the root */
  guint32 n_nodes;
  const guint32 *order; /* triangle indices */
  const TrnPoints8 *blocks;
  guint32 n_blocks;
  guint depth; /* most nodes from the root to a leaf */
} TrnBvh;

/* Builds the tree of @mesh, which has at least one triangle, with @jobs threads (0: as many as
 * there are processors). The same mesh gives the same tree, bit for bit. */
TrnBvh *trn_bvh_build (const TrnMesh *mesh, guint jobs);
void trn_bvh_free (TrnBvh *bvh);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnBvh, trn_bvh_free)

static inline TrnVec3
trn_bvh_centre (const TrnBvhNode *node)
{
  return (TrnVec3){ node->centre[0], node->centre[1], node->centre[2] };
}

static inline TrnHull
trn_bvh_hull (const TrnBvh *bvh, const TrnBvhNode *node)
{
  return (TrnHull){ bvh->blocks + node->first_block, node->n_blocks, node->radius_m };
}
