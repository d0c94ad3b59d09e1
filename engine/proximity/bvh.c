/* bvh.c: builds the tree of bounding volumes over a mesh.
 *
 * Used by the static distance (distance.c) and by the sweep, which both live on tight node
 * volumes: hulls of few points that truly contain the triangles.
 *
 * Down: a run of triangles is split where both sides are much flatter than the whole, so that the
 * side of a round thing falls into strips along it, whose hulls are about as good as the surface;
 * where no cut does that, across the axis along which the centres spread most, where the sum of the
 * surface areas of both sides times their triangles is least (Goldsmith and Salmon 1987; sixteen
 * bins as in Wald 2007); of a long run some thousand triangles, picked evenly, stand for all in
 * both. From HALVING_DEPTH down it is halved by count, which bounds the depth. Three splits make
 * the children of a node.
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
#include "parallel.h"

G_STATIC_ASSERT (TRN_BVH_CHILDREN *TRN_CHOICE_MOST_POINTS <= TRN_CHOICE_MOST_CANDIDATES
                 && 3 * TRN_BVH_LEAF_TRIANGLES <= TRN_CHOICE_MOST_CANDIDATES);

#define ALWAYS_INLINE __attribute__ ((always_inline)) static inline

#define LEVELS 3 /* of splits that make the children of a node */
#define N_BINS 16

/* A run that bends by no more than this is flat (a strip 0.1 m wide and 1 m long: by 0.1 mm or so);
 * a cut for flatness leaves no more than this share of the bend. */
#define FLAT_M2 1e-9f
#define LEAST_GAIN 0.5f

/* So many triangles of a run tell where to cut it. */
#define MOST_SAMPLES 4096

#define HALVING_DEPTH 28    /* below: at most log₂ 2³² more */
#define PART_TRIANGLES 4096 /* a run of no more is one part, built by one thread */

/* A triangle while the tree is built: its box relative to the middle of the mesh, in single
 * precision: it only steers the splits. */
typedef struct
{
  float lo[3], hi[3];
  float normal[3]; /* times the square root of the area */
  guint32 triangle;
} Item;

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
  Item *items;
  Part top;
  GArray *roots; /* of Root */
  Part *parts;   /* one a root */
} Build;

/* ---- splitting ---- */

static float
centre_of (const Item *item, int axis)
{
  return item->lo[axis] + item->hi[axis]; /* twice the centre */
}

typedef struct
{
  float lo[3], hi[3];
} Bounds;

static const Bounds empty
    = { { INFINITY, INFINITY, INFINITY }, { -INFINITY, -INFINITY, -INFINITY } };

static inline void
bounds_join (Bounds *bounds, const float lo[3], const float hi[3])
{
  for (int i = 0; i < 3; i++)
    {
      bounds->lo[i] = MIN (bounds->lo[i], lo[i]);
      bounds->hi[i] = MAX (bounds->hi[i], hi[i]);
    }
}

static float
half_area (const Bounds *b)
{
  float x = b->hi[0] - b->lo[0], y = b->hi[1] - b->lo[1], z = b->hi[2] - b->lo[2];
  return x * y + y * z + z * x;
}

/* The range of the centres, and the axis along which they spread most. */
static Bounds
spread_of (const Item *items, guint32 n, int *widest)
{
  Bounds spread = empty;
  for (guint32 k = 0; k < n; k++)
    {
      float c[3] = { centre_of (&items[k], 0), centre_of (&items[k], 1), centre_of (&items[k], 2) };
      bounds_join (&spread, c, c);
    }
  *widest = 0;
  for (int i = 1; i < 3; i++)
    if (spread.hi[i] - spread.lo[i] > spread.hi[*widest] - spread.lo[*widest])
      *widest = i;
  return spread;
}

static int
bin_of (float key, float lo, float per_unit)
{
  float bin = (key - lo) * per_unit;
  return bin >= N_BINS - 1 ? N_BINS - 1 : bin > 0 ? (int)bin : 0;
}

/* The number of triangles of a run that are looked at for a cut, and the @k-th of them: multiples
 * of the golden section spread evenly and keep step with no pattern of a mesh (Weyl 1916). */
static guint32
n_samples (guint32 n_items)
{
  return MIN (n_items, MOST_SAMPLES);
}

static inline const Item *
sample (const Item *items, guint32 n_items, guint32 k)
{
  if (n_items <= MOST_SAMPLES)
    return &items[k];
  guint32 part = k * 0x9e3779b1u;
  return &items[(guint64)part * n_items >> 32];
}

/* The first bin of the upper side at the cheapest cut. */
static int
cheapest_cut (const Item *items, guint32 n_items, int axis, float lo, float per_unit)
{
  Bounds bins[N_BINS];
  guint32 counts[N_BINS] = { 0 };
  for (int i = 0; i < N_BINS; i++)
    bins[i] = empty;
  guint32 n_all = n_samples (n_items);
  for (guint32 k = 0; k < n_all; k++)
    {
      const Item *item = sample (items, n_items, k);
      int bin = bin_of (centre_of (item, axis), lo, per_unit);
      bounds_join (&bins[bin], item->lo, item->hi);
      counts[bin]++;
    }
  float upper_cost[N_BINS];
  Bounds side = empty;
  guint32 n = 0;
  for (int i = N_BINS - 1; i > 0; i--)
    {
      bounds_join (&side, bins[i].lo, bins[i].hi);
      n += counts[i];
      upper_cost[i] = n > 0 ? (float)n * half_area (&side) : 0;
    }
  side = empty;
  n = 0;
  int best = N_BINS / 2;
  float best_cost = INFINITY;
  for (int i = 1; i < N_BINS; i++)
    {
      bounds_join (&side, bins[i - 1].lo, bins[i - 1].hi);
      n += counts[i - 1];
      if (n == 0 || n == n_all)
        continue;
      float cost = (float)n * half_area (&side) + upper_cost[i];
      if (cost < best_cost)
        {
          best = i;
          best_cost = cost;
        }
    }
  return best;
}

/* The sum over triangles of area · n nᵀ, which no turning over changes: xx, yy, zz, xy, yz, zx, the
 * number of triangles, and 0. A vector, which compilers add at once. */
typedef float Facing __attribute__ ((vector_size (32)));

static inline void
facing_make (const float m[3], Facing *facing)
{
  *facing = (Facing){ m[0] * m[0], m[1] * m[1], m[2] * m[2], m[0] * m[1],
                      m[1] * m[2], m[2] * m[0], 1,           0 };
}

static inline float
facing_count (const Facing *facing)
{
  return (*facing)[6];
}

/* By how much it is not flat, as an area: 0 where all face one way, about area · angle² / 12 of a
 * strip that bends by an angle. */
static float
bentness (const Facing *facing)
{
  const Facing m = *facing;
  float squares = m[0] * m[0] + m[1] * m[1] + m[2] * m[2];
  float others = m[3] * m[3] + m[4] * m[4] + m[5] * m[5];
  return m[0] + m[1] + m[2] - sqrtf (squares + 2 * others);
}

/* The axis and the cut at which both sides bend least; FALSE where that gains little, or the whole
 * is flat. */
ALWAYS_INLINE gboolean
find_flattest_cut (const Item *items, guint32 n_items, const Bounds *spread, int *axis, int *cut)
{
  Facing whole = { 0 };
  guint32 n_all = n_samples (n_items);
  for (guint32 k = 0; k < n_all; k++)
    {
      Facing facing;
      facing_make (sample (items, n_items, k)->normal, &facing);
      whole += facing;
    }
  float bent = bentness (&whole);
  if (!(bent > FLAT_M2))
    return FALSE;
  Facing bins[3][N_BINS] = { 0 };
  float per_unit[3];
  for (int a = 0; a < 3; a++)
    per_unit[a] = N_BINS / (spread->hi[a] - spread->lo[a]);
  for (guint32 k = 0; k < n_all; k++)
    {
      const Item *item = sample (items, n_items, k);
      Facing facing;
      facing_make (item->normal, &facing);
      for (int a = 0; a < 3; a++)
        {
          int bin = isfinite (per_unit[a])
                        ? bin_of (centre_of (item, a), spread->lo[a], per_unit[a])
                        : 0;
          bins[a][bin] += facing;
        }
    }
  float best = LEAST_GAIN * bent;
  gboolean found = FALSE;
  for (int a = 0; a < 3; a++)
    {
      Facing upper[N_BINS], lower = { 0 };
      upper[N_BINS - 1] = bins[a][N_BINS - 1];
      for (int i = N_BINS - 1; i-- > 1;)
        {
          upper[i] = upper[i + 1];
          upper[i] += bins[a][i];
        }
      for (int i = 1; i < N_BINS; i++)
        {
          if (facing_count (&bins[a][i - 1]) == 0)
            continue; /* the same sides as before */
          lower += bins[a][i - 1];
          float both = bentness (&lower) + bentness (&upper[i]);
          if (both < best)
            {
              best = both;
              *axis = a;
              *cut = i;
              found = TRUE;
            }
        }
    }
  return found;
}

static gboolean
flattest_cut_scalar (const Item *items, guint32 n_items, const Bounds *spread, int *axis, int *cut)
{
  return find_flattest_cut (items, n_items, spread, axis, cut);
}

#if defined __x86_64__
/* The same operations, so the same bits. */
TRN_AVX2 static gboolean
flattest_cut_avx2 (const Item *items, guint32 n_items, const Bounds *spread, int *axis, int *cut)
{
  return find_flattest_cut (items, n_items, spread, axis, cut);
}
#endif

static gboolean
flattest_cut (const Item *items, guint32 n_items, const Bounds *spread, int *axis, int *cut)
{
#if defined __x86_64__
  if (trn_support_is_simd ())
    return flattest_cut_avx2 (items, n_items, spread, axis, cut);
#endif
  return flattest_cut_scalar (items, n_items, spread, axis, cut);
}

static int
compare_centres (gconstpointer a, gconstpointer b, gpointer axis)
{
  const Item *p = a, *q = b;
  float x = centre_of (p, *(int *)axis), y = centre_of (q, *(int *)axis);
  if (x != y)
    return x < y ? -1 : 1;
  return p->triangle < q->triangle ? -1 : 1;
}

/* Orders the items so that the first of them, whose number is returned, go to one side and the
 * rest, at least one, to the other. */
static guint32
divide (Item *items, guint32 n_items, guint depth)
{
  int axis;
  Bounds spread = spread_of (items, n_items, &axis);
  if (depth < HALVING_DEPTH)
    {
      int cut = 0;
      gboolean flat = !flattest_cut (items, n_items, &spread, &axis, &cut);
      float lo = spread.lo[axis], per_unit = N_BINS / (spread.hi[axis] - lo);
      if (flat)
        cut = isfinite (per_unit) ? cheapest_cut (items, n_items, axis, lo, per_unit) : 0;
      guint32 n = 0;
      for (guint32 k = 0; k < n_items && cut > 0; k++)
        if (bin_of (centre_of (&items[k], axis), lo, per_unit) < cut)
          {
            Item item = items[k];
            items[k] = items[n];
            items[n++] = item;
          }
      if (n > 0 && n < n_items)
        return n;
    }
  g_qsort_with_data (items, (gint)n_items, sizeof *items, compare_centres, &axis);
  return n_items / 2;
}

/* Splits a run, and its halves again, as often as LEVELS says where they are longer than a leaf;
 * appends the runs of the children. */
static guint
divide_run (Item *items, guint32 first, guint32 count, guint depth, guint levels,
            TrnBvhNode children[TRN_BVH_CHILDREN], guint n_children)
{
  if (levels == 0 || count <= TRN_BVH_LEAF_TRIANGLES)
    {
      children[n_children] = (TrnBvhNode){ .first = first, .count = count };
      return n_children + 1;
    }
  guint32 n = divide (items + first, count, depth);
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
  Bounds box = empty;
  for (guint32 k = 0; k < node->count; k++)
    bounds_join (&box, build->items[node->first + k].lo, build->items[node->first + k].hi);
  TrnVec3 middle = trn_box_centre (&build->mesh->box);
  node->centre[0] = (float)(middle.x + 0.5 * ((double)box.lo[0] + (double)box.hi[0]));
  node->centre[1] = (float)(middle.y + 0.5 * ((double)box.lo[1] + (double)box.hi[1]));
  node->centre[2] = (float)(middle.z + 0.5 * ((double)box.lo[2] + (double)box.hi[2]));
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
items_make (Build *build)
{
  const TrnMesh *mesh = build->mesh;
  TrnVec3 middle = trn_box_centre (&mesh->box);
  build->items = g_new (Item, mesh->n_triangles);
  for (guint32 k = 0; k < mesh->n_triangles; k++)
    {
      Bounds box = empty;
      for (guint i = 0; i < 3; i++)
        {
          TrnVec3 p = trn_vec3_sub (mesh->vertices[mesh->triangles[k].v[i]], middle);
          float at[3] = { (float)p.x, (float)p.y, (float)p.z };
          bounds_join (&box, at, at);
        }
      Item *item = &build->items[k];
      memcpy (item->lo, box.lo, sizeof box.lo);
      memcpy (item->hi, box.hi, sizeof box.hi);
      item->triangle = k;
      TrnVec3 c[3];
      trn_mesh_corners (mesh, k, c);
      TrnVec3 normal = trn_vec3_cross (trn_vec3_sub (c[1], c[0]), trn_vec3_sub (c[2], c[0]));
      double doubled = trn_vec3_length (normal), scale = doubled > 0 ? sqrt (0.5 / doubled) : 0;
      item->normal[0] = (float)(normal.x * scale);
      item->normal[1] = (float)(normal.y * scale);
      item->normal[2] = (float)(normal.z * scale);
    }
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
  items_make (&build);
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
