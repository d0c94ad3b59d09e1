/* Sorting does all of it, so that no file, however made, takes more than O(n log n):
 *
 * 1. corners sorted so that equal coordinates are side by side, by a number mixed from them and
 *    where that is the same by themselves, get the number of the first one that is equal (weld);
 * 2. triangles, put into buckets by their lowest number and sorted within, show duplicates side by
 *    side;
 * 3. half-edges, put into buckets by their lower number and sorted within, show the triangles of
 *    each edge side by side. These are united (Tarjan 1975, union-find), and an edge that has not
 *    exactly two opposite half-edges makes its piece open.
 *
 * A needle, a triangle of three different corners that has no area, is left out like any other
 * degenerate triangle. But some programs put needles where a corner of one triangle lies on the
 * edge of another, so that edges still match: where the mesh does not close without them and does
 * with them, they stay.
 *
 * Whether a piece with a negative volume is a cavity is told by its box: it lies in that of another
 * piece. Boxes are tried from the largest on, until they are as small as the one at hand; a count
 * bounds the work, and pieces left when it is used up count as inside out. */
#include "mesh-check.h"

#include <float.h>
#include <stdlib.h>
#include <string.h>

#define LEFT_OUT G_MAXUINT32

/* Box comparisons at most: a fraction of a second. */
#define MOST_BOX_TESTS 50000000u

typedef struct
{
  const TrnMesh *mesh;
  TrnTriangle *corners; /* of each triangle, welded */
  gboolean *degenerate; /* two corners are the same, or a needle */
  gboolean *needle;     /* three corners, no area */
  gboolean *duplicate;
  gboolean *counts;     /* taken into account in this pass */
  guint32 *parent;      /* union-find over triangles */
  gboolean *open;       /* for each triangle: some edge of it is at fault */
  gboolean *unbalanced; /* … and more triangles run along it one way than the other */
  GArray *borders;      /* of guint32, two an open edge: its welded ends */
} Work;

/* ---- sorting ---- */

#define MOST_FEW 16

/* As qsort() does, without its calls where there are few. */
static inline void
sort_few (void *base, gsize count, gsize size, int (*compare) (const void *, const void *))
{
  char *items = base, moved[32];
  g_assert (size <= sizeof moved);
  if (count > MOST_FEW)
    {
      qsort (base, count, size, compare);
      return;
    }
  for (gsize i = 1; i < count; i++)
    {
      gsize k = i;
      memcpy (moved, items + i * size, size);
      for (; k > 0 && compare (items + (k - 1) * size, moved) > 0; k--)
        memcpy (items + k * size, items + (k - 1) * size, size);
      memcpy (items + k * size, moved, size);
    }
}

/* ---- corners ---- */

typedef struct
{
  TrnVec3 at;
  guint32 vertex, mixed; /* mixed: from the coordinates, the same where they are equal */
} Located;

static int
located_compare (const void *a, const void *b)
{
  const Located *p = a, *q = b;
  if (p->at.x != q->at.x)
    return p->at.x < q->at.x ? -1 : 1;
  if (p->at.y != q->at.y)
    return p->at.y < q->at.y ? -1 : 1;
  if (p->at.z != q->at.z)
    return p->at.z < q->at.z ? -1 : 1;
  return p->vertex < q->vertex ? -1 : p->vertex > q->vertex;
}

static gboolean
same_place (TrnVec3 a, TrnVec3 b)
{
  return a.x == b.x && a.y == b.y && a.z == b.z;
}

static Located
locate (const TrnMesh *mesh, guint32 vertex)
{
  TrnVec3 at = mesh->vertices[vertex];
  TrnVec3 positive = trn_vec3_add (at, trn_vec3_make (0, 0, 0)); /* zeros have one sign */
  guint64 bits[3];
  memcpy (bits, &positive, sizeof bits);
  guint64 mixed = (bits[0] ^ (bits[1] << 21 | bits[1] >> 43)) * 0x9e3779b97f4a7c15u;
  mixed = (mixed ^ mixed >> 32 ^ (bits[2] << 42 | bits[2] >> 22)) * 0xd6e8feb86659fd93u;
  return (Located){ at, vertex, (guint32)(mixed >> 32) };
}

/* Sorts by the @bits of what is mixed above @shift, those with the same keeping their order. */
static void
sort_by_bits (const Located *from, Located *to, guint32 count, guint shift, guint bits)
{
  guint32 mask = (1u << bits) - 1;
  g_autofree guint32 *start = g_new0 (guint32, (gsize)mask + 2);
  for (guint32 i = 0; i < count; i++)
    start[(from[i].mixed >> shift & mask) + 1]++;
  for (guint32 k = 1; k <= mask; k++)
    start[k] += start[k - 1];
  for (guint32 i = 0; i < count; i++)
    to[start[from[i].mixed >> shift & mask]++] = from[i];
}

/* The vertices, those at the same place side by side in their order. */
static Located *
located_new (const TrnMesh *mesh)
{
  guint32 n = mesh->n_vertices;
  Located *located = g_new (Located, n + 1);
  g_autofree Located *other = g_new (Located, n + 1);
  for (guint32 i = 0; i < n; i++)
    located[i] = locate (mesh, i);
  sort_by_bits (located, other, n, 0, 11);
  sort_by_bits (other, located, n, 11, 11);
  sort_by_bits (located, other, n, 22, 10);
  for (guint32 i = 0, end; i < n; i = end)
    {
      for (end = i + 1; end < n && other[end].mixed == other[i].mixed;)
        end++;
      sort_few (other + i, end - i, sizeof *other, located_compare);
    }
  g_free (located);
  return g_steal_pointer (&other);
}

static void
weld (Work *work)
{
  const TrnMesh *mesh = work->mesh;
  g_autofree Located *located = located_new (mesh);
  g_autofree guint32 *welded = g_new (guint32, mesh->n_vertices + 1);
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    {
      gboolean same = i > 0 && same_place (located[i].at, located[i - 1].at);
      welded[located[i].vertex] = same ? welded[located[i - 1].vertex] : located[i].vertex;
    }
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    for (int k = 0; k < 3; k++)
      work->corners[i].v[k] = welded[mesh->triangles[i].v[k]];
}

/* ---- degenerate and duplicate triangles ---- */

/* Whether the height over the longest edge is below the rounding of the coordinates. */
static gboolean
has_no_area (const TrnMesh *mesh, guint32 triangle)
{
  TrnVec3 p[3];
  trn_mesh_corners (mesh, triangle, p);
  TrnVec3 edge[3]
      = { trn_vec3_sub (p[1], p[0]), trn_vec3_sub (p[2], p[0]), trn_vec3_sub (p[2], p[1]) };
  double longest = 0, size = 0;
  for (int k = 0; k < 3; k++)
    {
      longest = fmax (longest, trn_vec3_length (edge[k]));
      size = fmax (size, trn_vec3_max_abs (p[k]));
    }
  return trn_vec3_length (trn_vec3_cross (edge[0], edge[1])) <= 4 * DBL_EPSILON * size * longest;
}

typedef struct
{
  guint32 v[3], triangle;
} Key;

static int
key_compare (const void *a, const void *b)
{
  const Key *p = a, *q = b;
  for (int k = 0; k < 3; k++)
    if (p->v[k] != q->v[k])
      return p->v[k] < q->v[k] ? -1 : 1;
  return p->triangle < q->triangle ? -1 : p->triangle > q->triangle;
}

static void
swap_if_greater (guint32 *a, guint32 *b)
{
  if (*a <= *b)
    return;
  guint32 keep = *a;
  *a = *b;
  *b = keep;
}

static void
find_degenerate (Work *work, TrnMeshCheck *check)
{
  for (guint32 i = 0; i < work->mesh->n_triangles; i++)
    {
      const guint32 *v = work->corners[i].v;
      gboolean two = v[0] == v[1] || v[1] == v[2] || v[2] == v[0];
      work->needle[i] = !two && has_no_area (work->mesh, i);
      work->degenerate[i] = two || work->needle[i];
      check->n_degenerate += work->degenerate[i];
    }
}

/* The triangles of three different corners by those. */
static Key *
keys_new (const Work *work, guint32 *n_keys)
{
  const TrnMesh *mesh = work->mesh;
  g_autofree guint32 *start = g_new0 (guint32, (gsize)mesh->n_vertices + 2);
  g_autofree Key *keys = g_new (Key, (gsize)mesh->n_triangles + 1);
  Key *sorted = g_new (Key, (gsize)mesh->n_triangles + 1);
  guint32 n = 0;
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    {
      if (work->degenerate[i] && !work->needle[i])
        continue;
      Key key = { { work->corners[i].v[0], work->corners[i].v[1], work->corners[i].v[2] }, i };
      swap_if_greater (&key.v[0], &key.v[1]);
      swap_if_greater (&key.v[1], &key.v[2]);
      swap_if_greater (&key.v[0], &key.v[1]);
      start[key.v[0] + 2]++;
      keys[n++] = key;
    }
  /* start[v + 1] tells where the bucket of v begins, then where it ends. */
  for (gsize v = 2; v < (gsize)mesh->n_vertices + 2; v++)
    start[v] += start[v - 1];
  for (guint32 i = 0; i < n; i++)
    sorted[start[keys[i].v[0] + 1]++] = keys[i];
  for (guint32 v = 0; v < mesh->n_vertices; v++)
    sort_few (sorted + start[v], start[v + 1] - start[v], sizeof *sorted, key_compare);
  *n_keys = n;
  return sorted;
}

static gboolean
same_corners (const Key *a, const Key *b)
{
  return a->v[0] == b->v[0] && a->v[1] == b->v[1] && a->v[2] == b->v[2];
}

/* Which way a triangle of three different corners is turned: going round it, the numbers rise
 * twice or once. */
static gboolean
runs_upwards (const TrnTriangle *t)
{
  return (t->v[0] < t->v[1]) + (t->v[1] < t->v[2]) + (t->v[2] < t->v[0]) == 2;
}

static void
find_duplicates (Work *work, TrnMeshCheck *check)
{
  guint32 n;
  g_autofree Key *keys = keys_new (work, &n);
  check->membrane = g_new0 (gboolean, (gsize)work->mesh->n_triangles + 1);
  for (guint32 i = 0, end; i < n; i = end)
    {
      int turns = runs_upwards (&work->corners[keys[i].triangle]) ? 1 : -1;
      for (end = i + 1; end < n && same_corners (&keys[end], &keys[i]); end++)
        {
          work->duplicate[keys[end].triangle] = TRUE;
          check->n_duplicate += !work->needle[keys[end].triangle];
          turns += runs_upwards (&work->corners[keys[end].triangle]) ? 1 : -1;
        }
      for (guint32 k = i; k < end; k++)
        check->membrane[keys[k].triangle] = turns == 0;
    }
}

/* ---- edges ---- */

/* Half an edge: the end with the higher number, the triangle, and which way it runs. */
typedef struct
{
  guint32 high, triangle;
  gboolean upwards;
} HalfEdge;

static int
half_edge_compare (const void *a, const void *b)
{
  const HalfEdge *p = a, *q = b;
  if (p->high != q->high)
    return p->high < q->high ? -1 : 1;
  return p->triangle < q->triangle ? -1 : p->triangle > q->triangle;
}

static guint32
find_root (guint32 *parent, guint32 i)
{
  while (parent[i] != i)
    {
      parent[i] = parent[parent[i]];
      i = parent[i];
    }
  return i;
}

/* The lower number becomes the root, so that pieces come in the order of their first triangles. */
static void
unite (guint32 *parent, guint32 a, guint32 b)
{
  a = find_root (parent, a);
  b = find_root (parent, b);
  parent[MAX (a, b)] = MIN (a, b);
}

/* Looks at the @n half-edges of the edge whose lower number is @low. */
static void
take_edge (Work *work, TrnMeshCheck *check, guint32 low, const HalfEdge *half_edges, gsize n)
{
  gboolean turned = n == 2 && half_edges[0].upwards == half_edges[1].upwards;
  gboolean fault = n != 2 || turned;
  if (n == 1)
    {
      const guint32 ends[2] = { low, half_edges[0].high };
      g_array_append_vals (work->borders, ends, 2);
      check->n_open_edges++;
    }
  check->n_crowded_edges += n > 2;
  check->n_misturned_edges += turned;
  gssize upwards = 0;
  for (gsize i = 0; i < n; i++)
    if (!check->membrane[half_edges[i].triangle])
      upwards += half_edges[i].upwards ? 1 : -1;
  for (gsize i = 0; i < n; i++)
    {
      unite (work->parent, half_edges[0].triangle, half_edges[i].triangle);
      work->open[half_edges[i].triangle] |= fault;
      work->unbalanced[half_edges[i].triangle] |= upwards != 0;
    }
}

static void
take_bucket (Work *work, TrnMeshCheck *check, guint32 low, HalfEdge *half_edges, gsize n)
{
  sort_few (half_edges, n, sizeof *half_edges, half_edge_compare);
  for (gsize i = 0, end; i < n; i = end)
    {
      for (end = i + 1; end < n && half_edges[end].high == half_edges[i].high;)
        end++;
      take_edge (work, check, low, half_edges + i, end - i);
    }
}

static void
take_edges (Work *work, TrnMeshCheck *check)
{
  const TrnMesh *mesh = work->mesh;
  g_autofree gsize *start = g_new0 (gsize, (gsize)mesh->n_vertices + 2);
  g_autofree HalfEdge *half_edges = g_new (HalfEdge, (gsize)mesh->n_triangles * 3 + 1);
  /* start[v + 1] first counts the half-edges of v, then tells where its bucket ends. */
  for (int pass = 0; pass < 2; pass++)
    {
      for (guint32 i = 0; i < mesh->n_triangles; i++)
        for (int k = 0; work->counts[i] && k < 3; k++)
          {
            guint32 a = work->corners[i].v[k], b = work->corners[i].v[(k + 1) % 3];
            if (pass == 0)
              start[MIN (a, b) + 2]++;
            else
              half_edges[start[MIN (a, b) + 1]++] = (HalfEdge){ MAX (a, b), i, a < b };
          }
      for (gsize v = 2; pass == 0 && v < (gsize)mesh->n_vertices + 2; v++)
        start[v] += start[v - 1];
    }
  for (guint32 v = 0; v < mesh->n_vertices; v++)
    take_bucket (work, check, v, half_edges + start[v], start[v + 1] - start[v]);
}

/* One pass over the edges; TRUE when every edge is in order. */
static gboolean
analyse (Work *work, TrnMeshCheck *check, gboolean with_needles)
{
  check->n_open_edges = check->n_crowded_edges = check->n_misturned_edges = 0;
  g_array_set_size (work->borders, 0);
  for (guint32 i = 0; i < work->mesh->n_triangles; i++)
    {
      work->counts[i]
          = !work->duplicate[i] && (!work->degenerate[i] || (with_needles && work->needle[i]));
      work->parent[i] = i;
      work->open[i] = work->unbalanced[i] = FALSE;
    }
  take_edges (work, check);
  return check->n_open_edges + check->n_crowded_edges + check->n_misturned_edges == 0;
}

/* ---- pieces ---- */

static void
number_pieces (Work *work, TrnMeshCheck *check)
{
  guint32 n = work->mesh->n_triangles;
  check->piece_of = g_new (guint32, n + 1);
  g_autoptr (GArray) pieces = g_array_new (FALSE, TRUE, sizeof (TrnMeshPiece));
  for (guint32 i = 0; i < n; i++)
    {
      check->piece_of[i] = LEFT_OUT;
      if (!work->counts[i])
        continue;
      guint32 root = find_root (work->parent, i);
      if (root == i)
        {
          TrnMeshPiece piece = { .first_triangle = i, .closed = TRUE, .balanced = TRUE };
          check->piece_of[i] = pieces->len;
          g_array_append_val (pieces, piece);
        }
      guint32 number = check->piece_of[i] = check->piece_of[root];
      TrnMeshPiece *piece = &g_array_index (pieces, TrnMeshPiece, number);
      piece->n_triangles++;
      piece->closed = piece->closed && !work->open[i];
      piece->balanced = piece->balanced && !work->unbalanced[i];
      if (work->degenerate[piece->first_triangle] && !work->degenerate[i])
        piece->first_triangle = i;
    }
  check->n_pieces = pieces->len;
  check->pieces = (TrnMeshPiece *)(gpointer)g_array_free (g_steal_pointer (&pieces), FALSE);
}

static void
take_corners (gboolean *taken, const TrnTriangle *t)
{
  taken[t->v[0]] = taken[t->v[1]] = taken[t->v[2]] = TRUE;
}

static void
list_loose (const Work *work, TrnMeshCheck *check)
{
  const TrnMesh *mesh = work->mesh;
  g_autofree gboolean *taken = g_new0 (gboolean, (gsize)mesh->n_vertices + 1);
  check->loose = g_new (guint32, (gsize)mesh->n_triangles + 1);
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    if (work->counts[i])
      take_corners (taken, &work->corners[i]);
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    {
      const guint32 *v = work->corners[i].v;
      if (!taken[v[0]] && !taken[v[1]] && !taken[v[2]])
        check->loose[check->n_loose++] = i;
      take_corners (taken, &work->corners[i]);
    }
  check->loose = g_renew (guint32, check->loose, (gsize)check->n_loose + 1);
}

/* Boxes of all pieces, and volumes of the closed ones, from the centre of each piece's box. */
static void
measure_pieces (const TrnMesh *mesh, TrnMeshCheck *check)
{
  for (guint32 p = 0; p < check->n_pieces; p++)
    check->pieces[p].box = trn_box_empty ();
  for (int pass = 0; pass < 2; pass++)
    for (guint32 i = 0; i < mesh->n_triangles; i++)
      {
        guint32 p = check->piece_of[i];
        if (p == LEFT_OUT)
          continue;
        TrnVec3 c[3];
        trn_mesh_corners (mesh, i, c);
        TrnVec3 centre
            = pass == 1 ? trn_box_centre (&check->pieces[p].box) : trn_vec3_make (0, 0, 0);
        for (int k = 0; k < 3; k++)
          if (pass == 0)
            trn_box_add_point (&check->pieces[p].box, c[k]);
          else
            c[k] = trn_vec3_sub (c[k], centre);
        if (pass == 1 && check->pieces[p].closed)
          check->pieces[p].volume_m3 += trn_vec3_dot (c[0], trn_vec3_cross (c[1], c[2])) / 6;
      }
}

/* The sum of the extents: greater for a box than for any other box within it. */
static double
box_girth (const TrnBox *box)
{
  TrnVec3 size = trn_box_size (box);
  return size.x + size.y + size.z;
}

static int
box_girth_compare (gconstpointer a, gconstpointer b)
{
  double p = box_girth (*(const TrnBox *const *)a);
  double q = box_girth (*(const TrnBox *const *)b);
  return p > q ? -1 : p < q;
}

static gboolean
box_contains (const TrnBox *outer, const TrnBox *inner)
{
  return outer->lo.x <= inner->lo.x && outer->lo.y <= inner->lo.y && outer->lo.z <= inner->lo.z
         && outer->hi.x >= inner->hi.x && outer->hi.y >= inner->hi.y && outer->hi.z >= inner->hi.z;
}

static void
find_inside_out (TrnMeshCheck *check)
{
  g_autofree const TrnBox **largest = g_new (const TrnBox *, check->n_pieces + 1);
  for (guint32 p = 0; p < check->n_pieces; p++)
    largest[p] = &check->pieces[p].box;
  qsort (largest, check->n_pieces, sizeof *largest, box_girth_compare);
  guint tests = 0;
  for (guint32 p = 0; p < check->n_pieces; p++)
    {
      if (!check->pieces[p].closed || check->pieces[p].volume_m3 >= 0)
        continue;
      gboolean inside = FALSE;
      double girth = box_girth (&check->pieces[p].box);
      for (guint32 k = 0; k < check->n_pieces && !inside && tests < MOST_BOX_TESTS; k++)
        {
          if (box_girth (largest[k]) <= girth)
            break;
          tests++;
          inside = box_contains (largest[k], &check->pieces[p].box);
        }
      check->pieces[p].inside_out = !inside;
      check->n_inside_out += !inside;
    }
}

/* ---- holes ---- */

/* Open edges that share a corner are united, over their corners. */
static void
measure_holes (const Work *work, TrnMeshCheck *check)
{
  const TrnMesh *mesh = work->mesh;
  const guint32 *ends = (const guint32 *)(gconstpointer)work->borders->data;
  const guint n_ends = work->borders->len;
  if (n_ends == 0)
    return;
  g_autofree guint32 *parent = g_new (guint32, mesh->n_vertices);
  for (guint32 v = 0; v < mesh->n_vertices; v++)
    parent[v] = v;
  for (guint i = 0; i < n_ends; i += 2)
    unite (parent, ends[i], ends[i + 1]);
  g_autoptr (GHashTable) boxes = g_hash_table_new_full (NULL, NULL, NULL, g_free);
  for (guint i = 0; i < n_ends; i++)
    {
      gpointer root = GUINT_TO_POINTER (find_root (parent, ends[i]));
      TrnBox *box = g_hash_table_lookup (boxes, root);
      if (box == NULL)
        {
          box = g_new (TrnBox, 1);
          *box = trn_box_empty ();
          g_hash_table_insert (boxes, root, box);
        }
      trn_box_add_point (box, mesh->vertices[ends[i]]);
      check->largest_hole_m = fmax (check->largest_hole_m, trn_vec3_max_abs (trn_box_size (box)));
    }
  check->n_holes = g_hash_table_size (boxes);
}

/* ---- the check ---- */

TrnMeshCheck *
trn_mesh_check_new (const TrnMesh *mesh)
{
  gsize n = (gsize)mesh->n_triangles + 1;
  g_autofree TrnTriangle *corners = g_new (TrnTriangle, n);
  g_autofree gboolean *flags = g_new0 (gboolean, 6 * n);
  g_autofree guint32 *parent = g_new (guint32, n);
  g_autoptr (GArray) borders = g_array_new (FALSE, FALSE, sizeof (guint32));
  Work work = { .mesh = mesh,
                .corners = corners,
                .degenerate = flags,
                .needle = flags + n,
                .duplicate = flags + 2 * n,
                .counts = flags + 3 * n,
                .open = flags + 4 * n,
                .unbalanced = flags + 5 * n,
                .parent = parent,
                .borders = borders };
  TrnMeshCheck *check = g_new0 (TrnMeshCheck, 1);
  weld (&work);
  find_degenerate (&work, check);
  find_duplicates (&work, check);
  if (!analyse (&work, check, FALSE) && check->n_degenerate > 0 && !analyse (&work, check, TRUE))
    analyse (&work, check, FALSE);
  number_pieces (&work, check);
  list_loose (&work, check);
  measure_pieces (mesh, check);
  find_inside_out (check);
  measure_holes (&work, check);
  check->closed = check->n_pieces > 0;
  for (guint32 p = 0; p < check->n_pieces; p++)
    check->closed = check->closed && check->pieces[p].closed;
  return check;
}

void
trn_mesh_check_free (TrnMeshCheck *check)
{
  if (check == NULL)
    return;
  g_free (check->pieces);
  g_free (check->piece_of);
  g_free (check->membrane);
  g_free (check->loose);
  g_free (check);
}

double
trn_mesh_check_room_m3 (const TrnMeshCheck *check, const TrnMesh *mesh, gboolean *is_box)
{
  *is_box = !check->closed || check->n_inside_out > 0;
  if (*is_box)
    {
      const TrnVec3 size = trn_box_size (&mesh->box);
      return trn_box_is_empty (&mesh->box) ? 0 : size.x * size.y * size.z;
    }
  double volume_m3 = 0;
  for (guint i = 0; i < check->n_pieces; i++)
    volume_m3 += check->pieces[i].volume_m3;
  return volume_m3;
}
