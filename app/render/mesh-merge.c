/* mesh-merge.c: edges are collapsed, those first that change the surface least (quadric error,
 * Garland and Heckbert 1997, by meshoptimizer), so that flat faces, corners and borders stay what
 * they are.
 *
 * Where that gets stuck, as on many small bodies in one mesh, there is vertex clustering (Rossignac
 * and Borrel 1993, from memory): vertices in the same cell of a grid become one, triangles that
 * lose a corner go. It works on any mesh, open or not, in linear time, and a closed mesh stays
 * closed, since triangles that vanish do so in pairs along every edge. What stands for a cell is
 * its vertex farthest from the middle of the mesh, so that corners and rims stay where they are.
 * The first cell is guessed from the area: a plane of cells has two triangles a cell. It is made
 * coarser until few enough triangles remain. */
#include "mesh-merge.h"

#include <meshoptimizer.h>
#include <string.h>

#define NONE G_MAXUINT32
/* How far collapsing may change the surface, as a share of its size: beyond that a grid looks no
 * worse. */
#define MOST_CHANGE 0.03f

/* The same place or the same cell: three whole numbers, or the bits of three doubles. */
typedef struct
{
  guint64 k[3];
} Key;

typedef struct
{
  guint32 *slots; /* first vertex with the key; NONE: empty */
  guint32 mask;
} Table;

static guint32
hash_key (Key key)
{
  guint64 h = 0x9e3779b97f4a7c15u;
  for (int i = 0; i < 3; i++)
    {
      h ^= key.k[i];
      h *= 0xff51afd7ed558ccdu;
      h ^= h >> 32;
    }
  return (guint32)h;
}

static Key
key_of_vertex (TrnVec3 p, TrnVec3 corner, double cell_m)
{
  Key key;
  /* −0 and 0 are the same place. */
  double d[3] = { p.x + 0.0, p.y + 0.0, p.z + 0.0 };
  if (cell_m <= 0)
    {
      memcpy (key.k, d, sizeof d);
      return key;
    }
  const double from[3] = { corner.x, corner.y, corner.z };
  for (int i = 0; i < 3; i++)
    key.k[i] = (guint64)(gint64)floor ((d[i] - from[i]) / cell_m);
  return key;
}

/* A number of its own for each key that vertices have, by vertex. */
static guint32 *
number_keys (const TrnMesh *mesh, double cell_m, Table *table, Key *keys, guint32 *n_numbers)
{
  guint32 *number = g_new (guint32, MAX (mesh->n_vertices, 1));
  memset (table->slots, 0xff, ((gsize)table->mask + 1) * sizeof *table->slots);
  *n_numbers = 0;
  for (guint32 v = 0; v < mesh->n_vertices; v++)
    {
      keys[v] = key_of_vertex (mesh->vertices[v], mesh->box.lo, cell_m);
      guint32 slot = hash_key (keys[v]) & table->mask;
      while (table->slots[slot] != NONE
             && memcmp (&keys[table->slots[slot]], &keys[v], sizeof (Key)) != 0)
        slot = (slot + 1) & table->mask;
      if (table->slots[slot] == NONE)
        {
          table->slots[slot] = v;
          number[v] = (*n_numbers)++;
        }
      else
        number[v] = number[table->slots[slot]];
    }
  return number;
}

static guint32
map_triangle (const TrnMesh *mesh, const guint32 *number, guint32 t, TrnTriangle *mapped)
{
  for (int i = 0; i < 3; i++)
    mapped->v[i] = number[mesh->triangles[t].v[i]];
  const guint32 *v = mapped->v;
  return v[0] != v[1] && v[1] != v[2] && v[2] != v[0];
}

static guint32
count_triangles (const TrnMesh *mesh, const guint32 *number)
{
  guint32 n = 0;
  TrnTriangle mapped;
  for (guint32 t = 0; t < mesh->n_triangles; t++)
    n += map_triangle (mesh, number, t, &mapped);
  return n;
}

static double
mesh_area (const TrnMesh *mesh)
{
  double area = 0;
  for (guint32 t = 0; t < mesh->n_triangles; t++)
    {
      TrnVec3 p[3];
      trn_mesh_corners (mesh, t, p);
      area
          += trn_vec3_length (trn_vec3_cross (trn_vec3_sub (p[1], p[0]), trn_vec3_sub (p[2], p[0])))
             / 2;
    }
  return area;
}

/* The vertex of each number: the farthest from the middle of the mesh. */
static TrnVec3 *
choose_vertices (const TrnMesh *mesh, const guint32 *number, guint32 n_numbers)
{
  TrnVec3 *chosen = g_new0 (TrnVec3, MAX (n_numbers, 1));
  double *farthest = g_new (double, MAX (n_numbers, 1));
  for (guint32 i = 0; i < n_numbers; i++)
    farthest[i] = -1;
  TrnVec3 middle
      = trn_box_is_empty (&mesh->box) ? trn_vec3_make (0, 0, 0) : trn_box_centre (&mesh->box);
  for (guint32 v = 0; v < mesh->n_vertices; v++)
    {
      double far = trn_vec3_length_squared (trn_vec3_sub (mesh->vertices[v], middle));
      if (far > farthest[number[v]])
        {
          farthest[number[v]] = far;
          chosen[number[v]] = mesh->vertices[v];
        }
    }
  g_free (farthest);
  return chosen;
}

static void
take_triangles (const TrnMesh *mesh, const guint32 *number, guint32 n, RenderMerged *merged)
{
  merged->vertices = choose_vertices (mesh, number, merged->n_vertices);
  merged->triangles = g_new (TrnTriangle, MAX (n, 1));
  merged->n_triangles = 0;
  for (guint32 t = 0; t < mesh->n_triangles; t++)
    {
      TrnTriangle mapped;
      if (map_triangle (mesh, number, t, &mapped))
        merged->triangles[merged->n_triangles++] = mapped;
    }
}

/* Leaves out the vertices that no triangle has. */
static void
drop_unused (RenderMerged *merged)
{
  guint32 *place = g_new (guint32, MAX (merged->n_vertices, 1)), n = 0;
  memset (place, 0xff, merged->n_vertices * sizeof *place);
  for (guint32 t = 0; t < merged->n_triangles; t++)
    for (int i = 0; i < 3; i++)
      place[merged->triangles[t].v[i]] = 0;
  for (guint32 v = 0; v < merged->n_vertices; v++)
    if (place[v] != NONE)
      {
        merged->vertices[n] = merged->vertices[v];
        place[v] = n++;
      }
  for (guint32 t = 0; t < merged->n_triangles; t++)
    for (int i = 0; i < 3; i++)
      merged->triangles[t].v[i] = place[merged->triangles[t].v[i]];
  merged->n_vertices = n;
  g_free (place);
}

/* FALSE where more than @most triangles would remain; then nothing is changed. */
static gboolean
collapse (RenderMerged *merged, const TrnBox *box, guint32 most)
{
  TrnVec3 centre = trn_box_centre (box);
  float *places = g_new (float, 3 * (gsize)merged->n_vertices);
  for (guint32 v = 0; v < merged->n_vertices; v++)
    {
      TrnVec3 p = trn_vec3_sub (merged->vertices[v], centre);
      places[3 * (gsize)v] = (float)p.x;
      places[3 * (gsize)v + 1] = (float)p.y;
      places[3 * (gsize)v + 2] = (float)p.z;
    }
  G_STATIC_ASSERT (sizeof (TrnTriangle) == 3 * sizeof (unsigned int));
  TrnTriangle *fewer = g_new (TrnTriangle, merged->n_triangles);
  gsize n = meshopt_simplify ((unsigned int *)fewer, (const unsigned int *)merged->triangles,
                              3 * (gsize)merged->n_triangles, places, merged->n_vertices,
                              3 * sizeof (float), 3 * (gsize)most, MOST_CHANGE, 0, NULL)
            / 3;
  g_free (places);
  if (n > most || n == 0)
    {
      g_free (fewer);
      return FALSE;
    }
  g_free (merged->triangles);
  merged->triangles = fewer;
  merged->n_triangles = (guint32)n;
  drop_unused (merged);
  return TRUE;
}

/* Numbers by a grid, so coarse that no more than @most of @n triangles remain. */
static guint32 *
number_cells (const TrnMesh *mesh, guint32 most, Table *table, Key *keys, RenderMerged *merged,
              guint32 *n)
{
  guint32 *number = NULL;
  merged->cell_m = fmax (sqrt (2 * mesh_area (mesh) / most) / 2,
                         1e-4 * trn_vec3_max_abs (trn_box_size (&mesh->box)));
  while (*n > most)
    {
      g_free (number);
      number = number_keys (mesh, merged->cell_m, table, keys, &merged->n_vertices);
      *n = count_triangles (mesh, number);
      if (*n > most)
        merged->cell_m *= CLAMP (sqrt ((double)*n / most), 1.04, 1.5);
    }
  return number;
}

RenderMerged
render_merge (const TrnMesh *mesh, guint32 most_triangles)
{
  Table table = { .mask = 1 };
  while (table.mask < 2 * (guint64)mesh->n_vertices && table.mask < NONE)
    table.mask = 2 * table.mask + 1;
  table.slots = g_new (guint32, (gsize)table.mask + 1);
  Key *keys = g_new (Key, MAX (mesh->n_vertices, 1));

  RenderMerged merged = { 0 };
  guint32 *number = number_keys (mesh, 0, &table, keys, &merged.n_vertices);
  guint32 n = count_triangles (mesh, number);
  take_triangles (mesh, number, n, &merged);
  if (most_triangles > 0 && n > most_triangles)
    {
      merged.fewer = TRUE;
      if (!collapse (&merged, &mesh->box, most_triangles))
        {
          g_free (number);
          g_free (merged.vertices);
          g_free (merged.triangles);
          number = number_cells (mesh, most_triangles, &table, keys, &merged, &n);
          take_triangles (mesh, number, n, &merged);
        }
    }
  g_free (number);
  g_free (keys);
  g_free (table.slots);
  return merged;
}
