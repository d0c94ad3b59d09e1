/* item.h: what a search through a tree looks at: a node, or a single triangle.
 *
 * A leaf of a few huge triangles is split into them when the other side is small: singly they keep
 * clear of it when their hull does not, as the ground round an opening. */
#pragma once

#include "bvh.h"

/* An index with this bit is a triangle of the mesh, else a node of the tree. */
#define TRN_ITEM_TRIANGLE 0x80000000u

typedef struct
{
  TrnHull hull;
  TrnVec3 centre;           /* mesh frame; the hull's points are relative to it */
  double radius_m, slack_m; /* as of TrnBvhNode */
  TrnPoints8 own;           /* the points of a triangle; hull.blocks may point here */
} TrnItem;

/* Fills in @item, which must not be copied. */
void trn_item_make (const TrnBvh *bvh, guint32 id, TrnItem *item);

/* The parts of a node: its children, or the triangles of a leaf; their number is returned. */
#define TRN_ITEM_PARTS MAX (TRN_BVH_CHILDREN, TRN_BVH_LEAF_TRIANGLES)
guint trn_item_parts (const TrnBvh *bvh, guint32 id, guint32 parts[TRN_ITEM_PARTS]);

/* Lets the points of items come from memory together, before they are used one by one. */
void trn_item_fetch (const TrnBvh *bvh, const guint32 *ids, guint n);

/* Writes the triangles of a leaf, or of a triangle the one, and returns their number. */
guint trn_item_triangles (const TrnBvh *bvh, guint32 id, guint32 triangles[TRN_BVH_LEAF_TRIANGLES]);

static inline gboolean
trn_item_is_leaf (const TrnBvh *bvh, guint32 id)
{
  return (id & TRN_ITEM_TRIANGLE) != 0 || bvh->nodes[id].child == 0;
}

/* Which of two items, not both leaves, is to be split: the larger that can be. */
static inline gboolean
trn_item_is_first_split (const TrnBvh *bvh_a, guint32 a, const TrnBvh *bvh_b, guint32 b)
{
  if (a & TRN_ITEM_TRIANGLE)
    return FALSE;
  if (b & TRN_ITEM_TRIANGLE)
    return TRUE;
  return bvh_a->nodes[a].radius_m >= bvh_b->nodes[b].radius_m;
}
