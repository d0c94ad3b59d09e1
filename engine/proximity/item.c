#include "item.h"

#include <float.h>

/* Its corners to single precision relative to their mean, with the slack that rounding makes, as
 * the points of a node (bvh.c). */
static void
triangle_make (const TrnMesh *mesh, guint32 triangle, TrnItem *item)
{
  TrnVec3 c[3];
  trn_mesh_corners (mesh, triangle, c);
  TrnVec3 sum = trn_vec3_add (trn_vec3_add (c[0], c[1]), c[2]);
  item->centre = trn_vec3_scale (sum, 1.0 / 3);
  double most = 0, coordinate = 0;
  for (guint i = 0; i < 8; i++)
    {
      TrnVec3 corner = c[MIN (i, 2)], p = trn_vec3_sub (corner, item->centre);
      item->own.x[i] = (float)p.x;
      item->own.y[i] = (float)p.y;
      item->own.z[i] = (float)p.z;
      most = MAX (most, trn_vec3_length (p));
      coordinate = MAX (coordinate, trn_vec3_max_abs (corner));
    }
  item->slack_m = 1.01 * 0x1p-24 * most + 4 * 0x1p-53 * coordinate + (double)FLT_MIN;
  item->radius_m = (most + item->slack_m) * (1 + 8 * DBL_EPSILON);
  item->hull = (TrnHull){ &item->own, 1, item->radius_m };
}

void
trn_item_make (const TrnBvh *bvh, guint32 id, TrnItem *item)
{
  if (id & TRN_ITEM_TRIANGLE)
    {
      triangle_make (bvh->mesh, id & ~TRN_ITEM_TRIANGLE, item);
      return;
    }
  const TrnBvhNode *node = &bvh->nodes[id];
  item->hull = trn_bvh_hull (bvh, node);
  item->centre = trn_bvh_centre (node);
  item->radius_m = (double)node->radius_m;
  item->slack_m = (double)node->slack_m;
}

guint
trn_item_parts (const TrnBvh *bvh, guint32 id, guint32 parts[TRN_ITEM_PARTS])
{
  const TrnBvhNode *node = &bvh->nodes[id];
  guint n = node->child != 0 ? node->n_children : node->count;
  for (guint i = 0; i < n; i++)
    parts[i] = node->child != 0 ? node->child + i : bvh->order[node->first + i] | TRN_ITEM_TRIANGLE;
  return n;
}

void
trn_item_fetch (const TrnBvh *bvh, const guint32 *ids, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      if (ids[i] & TRN_ITEM_TRIANGLE)
        continue;
      const TrnBvhNode *node = &bvh->nodes[ids[i]];
      const char *from = (const char *)(bvh->blocks + node->first_block);
      for (gsize at = 0; at < node->n_blocks * sizeof *bvh->blocks; at += 64)
        __builtin_prefetch (from + at);
    }
}

guint
trn_item_triangles (const TrnBvh *bvh, guint32 id, guint32 triangles[TRN_BVH_LEAF_TRIANGLES])
{
  if (id & TRN_ITEM_TRIANGLE)
    {
      triangles[0] = id & ~TRN_ITEM_TRIANGLE;
      return 1;
    }
  const TrnBvhNode *node = &bvh->nodes[id];
  for (guint32 i = 0; i < node->count; i++)
    triangles[i] = bvh->order[node->first + i];
  return node->count;
}
