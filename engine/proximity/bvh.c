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
 * The first splits are made by one thread; the parts that they leave are built by all. Who ends the
 * last part below a node above the parts chooses its points, and so on upwards. All is put together
 * in order, so that the tree does not depend on the number of threads. */
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
  guint32 node;
  guint32 first_node, first_block; /* of what is below it, when all is put together */
} Root;

#define NO_PARENT G_MAXUINT32

/* Beside a node of the top. */
typedef struct
{
  guint32 parent;
  guint depth;
  gint n_open; /* atomic: children whose points are not chosen */
  Part *part;  /* that its points are in: owned where it begins none, NULL until they are chosen */
} Above;

typedef struct
{
  const TrnMesh *mesh;
  double coordinate; /* the greatest of the mesh */
  TrnDivideItem *items;
  GArray *top;   /* of TrnBvhNode: those of more triangles than a part has, and their children */
  GArray *above; /* of Above, one a node of the top */
  GArray *roots; /* of Root */
  Part *parts;   /* one a root */
  TrnBvhNode *nodes; /* all, like the others below */
  TrnPoints8 *blocks;
  guint32 *order;
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
make_items (guint run, gpointer data)
{
  const Build *build = data;
  const guint32 from = run * PART_TRIANGLES,
                to = MIN (from + PART_TRIANGLES, build->mesh->n_triangles);
  for (guint32 k = from; k < to; k++)
    trn_divide_item_make (&build->items[k], build->mesh, k);
}

/* ---- the top ---- */

static TrnBvhNode *
top_node (const Build *build, guint32 index)
{
  return &g_array_index (build->top, TrnBvhNode, index);
}

static Above *
above_node (const Build *build, guint32 index)
{
  return &g_array_index (build->above, Above, index);
}

/* The nodes of more triangles than a part has, and the roots of the parts. */
static void
grow_top (Build *build)
{
  const TrnBvhNode whole = { .count = build->mesh->n_triangles };
  const Above first = { .parent = NO_PARENT, .depth = 1 };
  build->top = g_array_new (FALSE, FALSE, sizeof (TrnBvhNode));
  build->above = g_array_new (FALSE, FALSE, sizeof (Above));
  build->roots = g_array_new (FALSE, FALSE, sizeof (Root));
  g_array_append_val (build->top, whole);
  g_array_append_val (build->above, first);
  for (guint32 i = 0; i < build->top->len; i++)
    {
      TrnBvhNode node = *top_node (build, i);
      const Root root = { .node = i };
      const Above below = { .parent = i, .depth = above_node (build, i)->depth + 1 };
      if (node.count <= PART_TRIANGLES)
        {
          g_array_append_val (build->roots, root);
          continue;
        }
      node_centre (build, &node);
      node_divide (build, build->top, &node, LEVELS * (below.depth - 1));
      *top_node (build, i) = node;
      above_node (build, i)->n_open = node.n_children;
      for (guint c = 0; c < node.n_children; c++)
        g_array_append_val (build->above, below);
    }
}

/* The points of a node of the top, which are there for its children. */
static void
choose_above (const Build *build, guint32 index)
{
  TrnBvhNode *node = top_node (build, index);
  const Part *from[TRN_BVH_CHILDREN];
  Part *part = g_new (Part, 1);
  part_start (part, node);
  for (guint c = 0; c < TRN_BVH_CHILDREN; c++)
    from[c] = c < node->n_children ? above_node (build, node->child + c)->part : part;
  inner_choose (build, node, top_node (build, node->child), from, part);
  above_node (build, index)->part = part;
}

/* A part, and those nodes above it for which it was the last that was open. */
static void
grow_part (guint index, gpointer data)
{
  const Build *build = data;
  guint32 node = g_array_index (build->roots, Root, index).node;
  Part *part = &build->parts[index];
  part_start (part, top_node (build, node));
  grow (build, part, 0, above_node (build, node)->depth);
  *top_node (build, node) = g_array_index (part->nodes, TrnBvhNode, 0);
  above_node (build, node)->part = part;
  for (;;)
    {
      node = above_node (build, node)->parent;
      if (node == NO_PARENT || !g_atomic_int_dec_and_test (&above_node (build, node)->n_open))
        return;
      choose_above (build, node);
    }
}

/* ---- putting together ---- */

static void
copy_blocks (const Build *build, const Part *part, TrnBvhNode *node, guint32 first_block)
{
  memcpy (build->blocks + first_block, &g_array_index (part->blocks, TrnPoints8, node->first_block),
          node->n_blocks * sizeof *build->blocks);
  node->first_block = first_block;
}

/* Finds room for everything: the points of the top from below, then part by part. */
static void
lay_out (Build *build, TrnBvh *bvh)
{
  for (guint32 i = 0; i < build->top->len; i++)
    if (top_node (build, i)->count > PART_TRIANGLES)
      bvh->n_blocks += top_node (build, i)->n_blocks;
  bvh->n_nodes = build->top->len;
  for (guint i = 0; i < build->roots->len; i++)
    {
      Root *root = &g_array_index (build->roots, Root, i);
      root->first_node = bvh->n_nodes;
      root->first_block = bvh->n_blocks;
      bvh->n_nodes += build->parts[i].nodes->len - 1;
      bvh->n_blocks += build->parts[i].blocks->len;
      bvh->depth = MAX (bvh->depth, build->parts[i].depth);
    }
  build->nodes = g_new (TrnBvhNode, bvh->n_nodes);
  build->blocks = g_new (TrnPoints8, bvh->n_blocks);
  build->order = g_new (guint32, build->mesh->n_triangles);
}

static void
put_top (Build *build)
{
  guint32 first_block = 0;
  for (guint32 i = build->top->len; i-- > 0;)
    {
      TrnBvhNode node = *top_node (build, i);
      Part *part = above_node (build, i)->part;
      if (node.count <= PART_TRIANGLES)
        continue;
      copy_blocks (build, part, &node, first_block);
      first_block += node.n_blocks;
      build->nodes[i] = node;
      part_clear (part);
      g_free (part);
    }
}

/* The root of a part takes the place of that of the top. The points of nodes that lie together do
 * so as well: a search looks at them together. */
static void
put_part (guint index, gpointer data)
{
  const Build *build = data;
  const Root *root = &g_array_index (build->roots, Root, index);
  Part *part = &build->parts[index];
  guint32 first_block = root->first_block;
  for (guint32 i = 0; i < part->nodes->len; i++)
    {
      TrnBvhNode node = g_array_index (part->nodes, TrnBvhNode, i);
      if (node.child != 0)
        node.child += root->first_node - 1;
      copy_blocks (build, part, &node, first_block);
      first_block += node.n_blocks;
      build->nodes[i == 0 ? root->node : root->first_node + i - 1] = node;
    }
  const TrnBvhNode *whole = top_node (build, root->node);
  for (guint32 k = whole->first; k < whole->first + whole->count; k++)
    build->order[k] = build->items[k].triangle;
  part_clear (part);
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
  TrnBvh *bvh = g_new0 (TrnBvh, 1);
  lay_out (&build, bvh);
  put_top (&build);
  trn_parallel_for (build.roots->len, jobs, put_part, &build);
  bvh->mesh = trn_mesh_ref (mesh);
  bvh->nodes = build.nodes;
  bvh->blocks = build.blocks;
  bvh->order = build.order;
  g_array_unref (build.top);
  g_array_unref (build.above);
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
