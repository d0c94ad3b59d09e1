/* bvh.c: builds the tree of bounding volumes over a mesh.
 *
 * Used by the static distance (distance.c) and by the sweep, which both live on tight node
 * volumes: hulls of few points that truly contain the triangles.
 *
 * Down: a run of triangles is split in two (divide.c). Three splits make the children of a node.
 *
 * Up: the points of a node are chosen among those of its children (choice.c): those near whose hull
 * all others lie. How near makes the node's slack.
 *
 * The first splits are made by one thread; the parts that they leave are built by all, and put
 * together in order, so that the tree does not depend on their number. */
#include "bvh.h"

#include <float.h>
#include <string.h>

#include "choice.h"
#include "divide.h"
#include "parallel.h"

G_STATIC_ASSERT (TRN_BVH_CHILDREN *TRN_CHOICE_MOST_POINTS <= TRN_CHOICE_MOST_CANDIDATES
                 && 3 * TRN_BVH_LEAF_TRIANGLES <= TRN_CHOICE_MOST_CANDIDATES);

#define LEVELS 3 /* of splits that make the children of a node */

#define PART_TRIANGLES 4096 /* a run of no more is one part, built by one thread */

/* A run of the tree while it is built. */
typedef struct
{
  GArray *nodes;  /* of TrnBvhNode */
  GArray *blocks; /* of TrnPoints8 */
  GArray *chosen; /* of guint32: the vertex of each point of @blocks, or TRN_CHOICE_NO_VERTEX */
  guint depth;
} Part;

/* A node of the top that begins a part. */
typedef struct
{
  guint32 node, depth;
} Root;

typedef struct
{
  const TrnMesh *mesh;
  double coordinate; /* the greatest of the mesh */
  TrnDivideItem *items;
  Part top;
  GArray *roots; /* of Root */
  Part *parts;   /* one a root */
} Build;

/* ---- splitting ---- */

/* Splits a run, and its halves again, as often as LEVELS says where they are longer than a leaf;
 * appends the runs of the children. */
static guint
divide_run (TrnDivideItem *items, guint32 first, guint32 count, guint depth, guint levels,
            TrnBvhNode children[TRN_BVH_CHILDREN], guint n_children)
{
  if (levels == 0 || count <= TRN_BVH_LEAF_TRIANGLES)
    {
      children[n_children] = (TrnBvhNode){ .first = first, .count = count };
      return n_children + 1;
    }
  guint32 n = trn_divide (items + first, count, depth);
  n_children = divide_run (items, first, n, depth + 1, levels - 1, children, n_children);
  return divide_run (items, first + n, count - n, depth + 1, levels - 1, children, n_children);
}

/* ---- points ---- */

/* Chooses the points of a node, whose candidates are in @choice, and sets its slack and radius:
 * what was left out, the slack that the children have, and the rounding of the points to single
 * precision: v = 2⁻²⁴ of each coordinate, and u = 2⁻⁵³ of a coordinate of mesh and centre when one
 * is taken from the other. */
static void
node_choose (TrnBvhNode *node, TrnChoice *choice, double slack_m, double coordinate, Part *part)
{
  double squared = 0;
  for (guint i = 0; i < choice->n; i++)
    {
      double here = trn_vec3_length_squared (choice->place[i]);
      squared = MAX (squared, here);
    }
  double most = sqrt (squared);
  slack_m += trn_choice_make (choice, most);
  slack_m += 1.01 * 0x1p-24 * most + 4 * 0x1p-53 * coordinate + FLT_MIN;
  node->slack_m = (float)(slack_m * (1 + 0x1p-22));
  node->radius_m = (float)((most + slack_m) * (1 + 0x1p-22));
  guint n_blocks = (choice->n_chosen + 7) / 8;
  node->first_block = part->blocks->len;
  node->n_blocks = (guint16)n_blocks;
  g_array_append_vals (part->blocks, choice->blocks, n_blocks);
  g_array_append_vals (part->chosen, choice->chosen, 8 * n_blocks);
}

static void
add_candidate (const Build *build, const TrnBvhNode *node, TrnChoice *choice, guint32 vertex)
{
  TrnVec3 place = trn_vec3_sub (build->mesh->vertices[vertex], trn_bvh_centre (node));
  trn_choice_add (choice, vertex, place);
}

static void
leaf_choose (const Build *build, TrnBvhNode *node, Part *part)
{
  TrnChoice choice;
  trn_choice_start (&choice, 3 * node->count);
  for (guint32 k = 0; k < node->count; k++)
    for (guint i = 0; i < 3; i++)
      {
        guint32 triangle = build->items[node->first + k].triangle;
        add_candidate (build, node, &choice, build->mesh->triangles[triangle].v[i]);
      }
  node_choose (node, &choice, 0, build->coordinate, part);
}

/* @from: the part that each child's points are in. */
static void
inner_choose (const Build *build, TrnBvhNode *node, const TrnBvhNode *children,
              const Part *const *from, Part *part)
{
  TrnChoice choice;
  guint blocks = 0;
  for (guint c = 0; c < node->n_children; c++)
    blocks += children[c].n_blocks;
  trn_choice_start (&choice, 8 * blocks);
  double slack = 0;
  for (guint c = 0; c < node->n_children; c++)
    {
      const TrnBvhNode *child = &children[c];
      slack = fmax (slack, (double)child->slack_m);
      for (guint32 i = 8 * child->first_block; i < 8 * (child->first_block + child->n_blocks); i++)
        {
          guint32 vertex = g_array_index (from[c]->chosen, guint32, i);
          if (vertex != TRN_CHOICE_NO_VERTEX)
            add_candidate (build, node, &choice, vertex);
        }
    }
  node_choose (node, &choice, slack, build->coordinate, part);
}

/* ---- building ---- */

/* The middle of the node's box, to single precision. */
static void
node_centre (const Build *build, TrnBvhNode *node)
{
  float lo[3], hi[3];
  trn_divide_box (build->items + node->first, node->count, lo, hi);
  TrnVec3 middle = trn_box_centre (&build->mesh->box);
  node->centre[0] = (float)(middle.x + 0.5 * ((double)lo[0] + (double)hi[0]));
  node->centre[1] = (float)(middle.y + 0.5 * ((double)lo[1] + (double)hi[1]));
  node->centre[2] = (float)(middle.z + 0.5 * ((double)lo[2] + (double)hi[2]));
}

/* Appends the children of a node that is no leaf. */
static void
node_divide (const Build *build, GArray *nodes, TrnBvhNode *node, guint depth)
{
  TrnBvhNode children[TRN_BVH_CHILDREN];
  guint n = divide_run (build->items, node->first, node->count, depth, LEVELS, children, 0);
  node->child = nodes->len;
  node->n_children = (guint16)n;
  g_array_append_vals (nodes, children, n);
}

/* Everything below a node, and its points. */
static void
grow (const Build *build, Part *part, guint32 index, guint depth)
{
  TrnBvhNode node = g_array_index (part->nodes, TrnBvhNode, index);
  part->depth = MAX (part->depth, depth);
  node_centre (build, &node);
  if (node.count <= TRN_BVH_LEAF_TRIANGLES)
    leaf_choose (build, &node, part);
  else
    {
      node_divide (build, part->nodes, &node, LEVELS * depth);
      for (guint i = 0; i < node.n_children; i++)
        grow (build, part, node.child + i, depth + 1);
      const Part *from[TRN_BVH_CHILDREN];
      for (guint i = 0; i < TRN_BVH_CHILDREN; i++)
        from[i] = part;
      inner_choose (build, &node, &g_array_index (part->nodes, TrnBvhNode, node.child), from, part);
    }
  g_array_index (part->nodes, TrnBvhNode, index) = node;
}

static void
part_start (Part *part, const TrnBvhNode *root)
{
  part->nodes = g_array_new (FALSE, FALSE, sizeof (TrnBvhNode));
  part->blocks = g_array_new (FALSE, FALSE, sizeof (TrnPoints8));
  part->chosen = g_array_new (FALSE, FALSE, sizeof (guint32));
  part->depth = 0;
  g_array_append_vals (part->nodes, root, 1);
}

static void
part_clear (Part *part)
{
  g_array_unref (part->nodes);
  g_array_unref (part->blocks);
  g_array_unref (part->chosen);
}

static void
grow_part (guint index, gpointer data)
{
  Build *build = data;
  const Root *root = &g_array_index (build->roots, Root, index);
  part_start (&build->parts[index], &g_array_index (build->top.nodes, TrnBvhNode, root->node));
  grow (build, &build->parts[index], 0, root->depth);
}

static void
make_items (guint run, gpointer data)
{
  const Build *build = data;
  const guint32 from = run * PART_TRIANGLES,
                to = MIN (from + PART_TRIANGLES, build->mesh->n_triangles);
  for (guint32 k = from; k < to; k++)
    trn_divide_item_make (&build->items[k], build->mesh, k);
}

/* The nodes of more triangles than a part has, and the roots of the parts. */
static void
grow_top (Build *build)
{
  TrnBvhNode whole = { .count = build->mesh->n_triangles };
  part_start (&build->top, &whole);
  build->roots = g_array_new (FALSE, FALSE, sizeof (Root));
  g_autoptr (GArray) depths = g_array_new (FALSE, FALSE, sizeof (guint));
  guint one = 1;
  g_array_append_val (depths, one);
  for (guint32 i = 0; i < build->top.nodes->len; i++)
    {
      TrnBvhNode node = g_array_index (build->top.nodes, TrnBvhNode, i);
      Root root = { i, g_array_index (depths, guint, i) };
      if (node.count <= PART_TRIANGLES)
        {
          g_array_append_val (build->roots, root);
          continue;
        }
      node_centre (build, &node);
      node_divide (build, build->top.nodes, &node, LEVELS * root.depth);
      g_array_index (build->top.nodes, TrnBvhNode, i) = node;
      guint below = root.depth + 1;
      for (guint c = 0; c < node.n_children; c++)
        g_array_append_val (depths, below);
    }
}

/* The points of the top, from below; the roots of the parts are known. */
static void
choose_top (Build *build)
{
  guint32 n = build->top.nodes->len;
  g_autofree const Part **from = g_new (const Part *, n);
  for (guint32 i = 0; i < n; i++)
    from[i] = &build->top;
  for (guint i = 0; i < build->roots->len; i++)
    {
      guint32 node = g_array_index (build->roots, Root, i).node;
      from[node] = &build->parts[i];
      g_array_index (build->top.nodes, TrnBvhNode, node)
          = g_array_index (build->parts[i].nodes, TrnBvhNode, 0);
    }
  for (guint32 i = n; i-- > 0;)
    {
      TrnBvhNode *node = &g_array_index (build->top.nodes, TrnBvhNode, i);
      if (from[i] == &build->top)
        inner_choose (build, node, node + (node->child - i), from + node->child, &build->top);
    }
}

/* Puts a part behind what there is; its root takes the place of that of the top. The points of
 * nodes that lie together do so as well: a search looks at them together. */
static void
append_part (TrnBvh *bvh, TrnBvhNode *nodes, TrnPoints8 *blocks, const Part *part, guint32 root)
{
  guint32 base = bvh->n_nodes;
  for (guint32 i = 0; i < part->nodes->len; i++)
    {
      TrnBvhNode node = g_array_index (part->nodes, TrnBvhNode, i);
      if (node.child != 0)
        node.child += base - 1;
      memcpy (blocks + bvh->n_blocks, &g_array_index (part->blocks, TrnPoints8, node.first_block),
              node.n_blocks * sizeof *blocks);
      node.first_block = bvh->n_blocks;
      bvh->n_blocks += node.n_blocks;
      nodes[i == 0 ? root : base + i - 1] = node;
    }
  bvh->n_nodes += part->nodes->len - 1;
  bvh->depth = MAX (bvh->depth, part->depth);
}

static TrnBvh *
put_together (Build *build)
{
  TrnBvh *bvh = g_new0 (TrnBvh, 1);
  guint32 n_nodes = build->top.nodes->len, n_blocks = build->top.blocks->len;
  bvh->n_nodes = n_nodes;
  bvh->n_blocks = n_blocks;
  for (guint i = 0; i < build->roots->len; i++)
    {
      n_nodes += build->parts[i].nodes->len - 1;
      n_blocks += build->parts[i].blocks->len;
    }
  TrnBvhNode *nodes = g_new (TrnBvhNode, n_nodes);
  TrnPoints8 *blocks = g_new (TrnPoints8, n_blocks);
  memcpy (nodes, build->top.nodes->data, bvh->n_nodes * sizeof (TrnBvhNode));
  if (bvh->n_blocks > 0) /* one part alone leaves none to the top */
    memcpy (blocks, build->top.blocks->data, bvh->n_blocks * sizeof (TrnPoints8));
  for (guint i = 0; i < build->roots->len; i++)
    append_part (bvh, nodes, blocks, &build->parts[i], g_array_index (build->roots, Root, i).node);
  guint32 *order = g_new (guint32, build->mesh->n_triangles);
  for (guint32 k = 0; k < build->mesh->n_triangles; k++)
    order[k] = build->items[k].triangle;
  bvh->mesh = trn_mesh_ref (build->mesh);
  bvh->nodes = nodes;
  bvh->blocks = blocks;
  bvh->order = order;
  return bvh;
}

TrnBvh *
trn_bvh_build (const TrnMesh *mesh, guint jobs)
{
  g_assert (mesh->n_triangles > 0 && mesh->n_triangles <= G_MAXINT);
  const TrnBox *box = &mesh->box;
  Build build = { .mesh = mesh,
                  .coordinate = fmax (trn_vec3_max_abs (box->lo), trn_vec3_max_abs (box->hi)) };
  build.items = g_new (TrnDivideItem, mesh->n_triangles);
  trn_parallel_for ((mesh->n_triangles - 1) / PART_TRIANGLES + 1, jobs, make_items, &build);
  grow_top (&build);
  build.parts = g_new (Part, build.roots->len);
  trn_parallel_for (build.roots->len, jobs, grow_part, &build);
  choose_top (&build);
  TrnBvh *bvh = put_together (&build);
  for (guint i = 0; i < build.roots->len; i++)
    part_clear (&build.parts[i]);
  part_clear (&build.top);
  g_array_unref (build.roots);
  g_free (build.parts);
  g_free (build.items);
  return bvh;
}

void
trn_bvh_free (TrnBvh *bvh)
{
  if (bvh == NULL)
    return;
  trn_mesh_unref (bvh->mesh);
  g_free ((gpointer)bvh->nodes);
  g_free ((gpointer)bvh->order);
  g_free ((gpointer)bvh->blocks);
  g_free (bvh);
}
