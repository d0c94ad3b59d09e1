/* Corners are compared by their numbers: an importer has joined equal points before. */
#include "mesh-repair.h"

#include <stdlib.h>
#include <string.h>

typedef struct
{
  const TrnMesh *mesh;
  const TrnMeshCheck *check;
  gboolean *dropped; /* for each triangle */
} Repair;

static gboolean
is_line (const TrnTriangle *t)
{
  return t->v[0] == t->v[1] || t->v[1] == t->v[2] || t->v[2] == t->v[0];
}

/* ---- duplicates ---- */

/* A triangle with its lowest corner first, turned as it was. */
typedef struct
{
  guint32 v[3], triangle;
} Turned;

static Turned
turned_make (const TrnTriangle *t, guint32 triangle)
{
  int first = 0;
  for (int k = 1; k < 3; k++)
    if (t->v[k] < t->v[first])
      first = k;
  return (Turned){ { t->v[first], t->v[(first + 1) % 3], t->v[(first + 2) % 3] }, triangle };
}

static int
turned_compare (const void *a, const void *b)
{
  const Turned *p = a, *q = b;
  for (int k = 0; k < 3; k++)
    if (p->v[k] != q->v[k])
      return p->v[k] < q->v[k] ? -1 : 1;
  return p->triangle < q->triangle ? -1 : p->triangle > q->triangle;
}

static guint32
drop_duplicates (Repair *repair)
{
  const TrnMesh *mesh = repair->mesh;
  g_autofree Turned *all = g_new (Turned, (gsize)mesh->n_triangles + 1);
  guint32 n = 0, dropped = 0;
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    if (!is_line (&mesh->triangles[i]))
      all[n++] = turned_make (&mesh->triangles[i], i);
  qsort (all, n, sizeof *all, turned_compare);
  for (guint32 i = 1; i < n; i++)
    if (memcmp (all[i].v, all[i - 1].v, sizeof all[i].v) == 0)
      {
        repair->dropped[all[i].triangle] = TRUE;
        dropped++;
      }
  return dropped;
}

/* ---- lines ---- */

static gint64
edge_key (guint32 a, guint32 b)
{
  return (gint64)((guint64)MIN (a, b) << 32 | MAX (a, b));
}

/* The two ends of a triangle that is a line; the same one twice where it is a point. */
static gint64
line_key (const TrnTriangle *t)
{
  return edge_key (t->v[0], t->v[1] != t->v[0] ? t->v[1] : t->v[2]);
}

static void
take_away (GHashTable *bare, guint32 a, guint32 b)
{
  const gint64 key = edge_key (a, b);
  g_hash_table_remove (bare, &key);
}

/* The lines that are no edge, and the points that are no corner, of a triangle with three. */
static GHashTable *
bare_lines_new (const TrnMesh *mesh)
{
  GHashTable *bare = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    if (is_line (&mesh->triangles[i]))
      {
        const gint64 key = line_key (&mesh->triangles[i]);
        g_hash_table_add (bare, g_memdup2 (&key, sizeof key));
      }
  for (guint32 i = 0; i < mesh->n_triangles && g_hash_table_size (bare) > 0; i++)
    {
      const guint32 *v = mesh->triangles[i].v;
      for (int k = 0; k < 3 && !is_line (&mesh->triangles[i]); k++)
        {
          take_away (bare, v[k], v[(k + 1) % 3]);
          take_away (bare, v[k], v[k]);
        }
    }
  return bare;
}

static guint32
drop_lines (Repair *repair)
{
  const TrnMesh *mesh = repair->mesh;
  g_autoptr (GHashTable) bare = bare_lines_new (mesh);
  guint32 dropped = 0;
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    {
      const gint64 key = line_key (&mesh->triangles[i]);
      if (!is_line (&mesh->triangles[i]) || g_hash_table_contains (bare, &key))
        continue;
      repair->dropped[i] = TRUE;
      dropped++;
    }
  return dropped;
}

/* ---- the mesh anew ---- */

static gboolean
is_turned (const TrnMeshCheck *check, guint32 triangle)
{
  const guint32 piece = check->piece_of[triangle];
  return piece != G_MAXUINT32 && check->pieces[piece].inside_out;
}

static TrnMesh *
make_anew (const Repair *repair, guint32 n_kept, guint32 *n_turned)
{
  const TrnMesh *mesh = repair->mesh;
  TrnTriangle *triangles = g_new (TrnTriangle, n_kept);
  TrnMeshPart *parts = g_new0 (TrnMeshPart, mesh->n_parts);
  guint32 n = 0, n_parts = 0;
  for (guint32 p = 0; p < mesh->n_parts; p++)
    {
      const TrnMeshPart *part = &mesh->parts[p];
      const guint32 first = n;
      for (guint32 i = part->first; i < part->first + part->count; i++)
        {
          const guint32 *v = mesh->triangles[i].v;
          if (repair->dropped[i])
            continue;
          const gboolean turned = is_turned (repair->check, i);
          triangles[n++] = turned ? (TrnTriangle){ { v[0], v[2], v[1] } } : mesh->triangles[i];
          *n_turned += turned;
        }
      if (n > first)
        parts[n_parts++] = (TrnMeshPart){ g_strdup (part->name), first, n - first };
    }
  return trn_mesh_new_take (g_memdup2 (mesh->vertices, mesh->n_vertices * sizeof *mesh->vertices),
                            mesh->n_vertices, triangles, n, parts, n_parts);
}

TrnMesh *
trn_mesh_repair (const TrnMesh *mesh, const TrnMeshCheck *check, TrnMeshRepair *repair)
{
  g_autofree gboolean *dropped = g_new0 (gboolean, (gsize)mesh->n_triangles + 1);
  Repair work = { mesh, check, dropped };
  *repair = (TrnMeshRepair){ .flipped_pieces = check->n_inside_out };
  if (check->n_duplicate > 0)
    repair->duplicate = drop_duplicates (&work);
  if (check->n_degenerate > 0)
    repair->degenerate = drop_lines (&work);
  const guint32 gone = repair->duplicate + repair->degenerate;
  if (gone == 0 && repair->flipped_pieces == 0)
    return trn_mesh_ref (mesh);
  return make_anew (&work, mesh->n_triangles - gone, &repair->flipped_triangles);
}
