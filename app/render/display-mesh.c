/* display-mesh.c: makes a mesh ready for drawing.
 *
 * Vertices at the same place are one, since files often repeat them for every face. The edges
 * between faces come from the vertices: each edge is kept with its lower vertex, and the few edges
 * of a vertex are sorted. An edge is a feature where it is a border, where more than two faces
 * meet, or where two faces fold by more than 30°: enough to leave round things smooth and corners
 * sharp (common practice, no source). All other folds are kept with their faces, for the outline.
 *
 * A corner's normal is the sum of the normals, weighted by the angle at the vertex, of all faces
 * there that are less than the crease angle apart from its own. Corners with the same normal share
 * a vertex.
 *
 * A sliver's normal is rounding only. It takes that of the face across its longest edge. */
#include "display-mesh.h"

#include <string.h>

#include "mesh-merge.h"

#define CREASE_COS 0.8660254037844387 /* of 30° */
/* Vertices moved together crumple what was smooth: only what folds by more is an edge then. */
#define MERGED_CREASE_COS 0.5 /* of 60° */
/* Faces of a plane side by side: rounding must not make them a fold or a corner of its own. */
#define SAME_NORMAL_COS (1 - 1e-9)
#define SHARED_NORMAL_COS (1 - 1e-6)
/* Twice the area over the square of the longest edge, that is, height over length. */
#define SLIVER 1e-7
#define NONE G_MAXUINT32

typedef struct
{
  guint32 other, face;
  guint8 forward; /* runs from the lower to the higher vertex */
} EdgeUse;

typedef struct
{
  TrnVec3 *vertices; /* owned, one each place */
  guint32 n_vertices;
  TrnTriangle *triangles; /* owned */
  guint32 n_triangles;
  TrnVec3 *normals;   /* one a triangle; unit */
  gboolean *sliver;   /* one a triangle */
  guint32 *first_use; /* n_vertices + 1 */
  EdgeUse *uses;      /* by lower vertex, then by the other, then by face */
  RenderMesh *mesh;   /* what is made */
  gboolean merged;    /* vertices were moved together */
  double crease_cos;  /* of the least angle that is an edge */
} Maker;

/* ---- faces and edges ---- */

static double
longest_squared (const TrnVec3 p[3], int *longest)
{
  double most = -1;
  for (int i = 0; i < 3; i++)
    {
      double length = trn_vec3_length_squared (trn_vec3_sub (p[(i + 1) % 3], p[i]));
      if (length > most)
        {
          most = length;
          *longest = i;
        }
    }
  return most;
}

static void
make_face_normals (Maker *m)
{
  m->normals = g_new0 (TrnVec3, m->n_triangles);
  m->sliver = g_new0 (gboolean, m->n_triangles);
  for (guint32 t = 0; t < m->n_triangles; t++)
    {
      TrnVec3 p[3];
      int longest;
      for (int i = 0; i < 3; i++)
        p[i] = m->vertices[m->triangles[t].v[i]];
      TrnVec3 n = trn_vec3_cross (trn_vec3_sub (p[1], p[0]), trn_vec3_sub (p[2], p[0]));
      double length = trn_vec3_length (n), scale = longest_squared (p, &longest);
      m->sliver[t] = !(length > SLIVER * scale);
      m->normals[t] = length > 0 ? trn_vec3_scale (n, 1 / length) : trn_vec3_make (0, 0, 1);
    }
}

static int
compare_uses (const void *a, const void *b)
{
  const EdgeUse *p = a, *q = b;
  if (p->other != q->other)
    return p->other < q->other ? -1 : 1;
  return p->face < q->face ? -1 : p->face > q->face;
}

static void
sort_uses (EdgeUse *uses, guint32 n)
{
  if (n > 24)
    {
      qsort (uses, n, sizeof *uses, compare_uses);
      return;
    }
  for (guint32 i = 1; i < n; i++)
    {
      EdgeUse use = uses[i];
      guint32 j = i;
      for (; j > 0 && compare_uses (&uses[j - 1], &use) > 0; j--)
        uses[j] = uses[j - 1];
      uses[j] = use;
    }
}

static void
make_uses (Maker *m)
{
  m->first_use = g_new0 (guint32, m->n_vertices + 1);
  m->uses = g_new (EdgeUse, 3 * (gsize)m->n_triangles);
  for (guint32 t = 0; t < m->n_triangles; t++)
    for (int i = 0; i < 3; i++)
      {
        guint32 a = m->triangles[t].v[i], b = m->triangles[t].v[(i + 1) % 3];
        m->first_use[MIN (a, b) + 1]++;
      }
  for (guint32 v = 0; v < m->n_vertices; v++)
    m->first_use[v + 1] += m->first_use[v];
  guint32 *next = g_memdup2 (m->first_use, (m->n_vertices + 1) * sizeof *next);
  for (guint32 t = 0; t < m->n_triangles; t++)
    for (int i = 0; i < 3; i++)
      {
        guint32 a = m->triangles[t].v[i], b = m->triangles[t].v[(i + 1) % 3];
        m->uses[next[MIN (a, b)]++] = (EdgeUse){ MAX (a, b), t, a < b };
      }
  g_free (next);
  for (guint32 v = 0; v < m->n_vertices; v++)
    sort_uses (m->uses + m->first_use[v], m->first_use[v + 1] - m->first_use[v]);
}

/* The uses of the edge a-b, and how many there are. */
static EdgeUse *
find_uses (const Maker *m, guint32 a, guint32 b, guint32 *n)
{
  guint32 lower = MIN (a, b), other = MAX (a, b);
  guint32 lo = m->first_use[lower], hi = m->first_use[lower + 1], end = hi;
  while (lo < hi)
    {
      guint32 middle = lo + (hi - lo) / 2;
      if (m->uses[middle].other < other)
        lo = middle + 1;
      else
        hi = middle;
    }
  *n = 0;
  while (lo + *n < end && m->uses[lo + *n].other == other)
    (*n)++;
  return m->uses + lo;
}

/* A sliver beside a sliver needs a second look once its neighbour has a normal. */
static void
borrow_normals (Maker *m)
{
  gboolean again = TRUE;
  for (int round = 0; again && round < 4; round++)
    {
      again = FALSE;
      for (guint32 t = 0; t < m->n_triangles; t++)
        {
          if (!m->sliver[t])
            continue;
          TrnVec3 p[3];
          int longest = 0;
          for (int i = 0; i < 3; i++)
            p[i] = m->vertices[m->triangles[t].v[i]];
          longest_squared (p, &longest);
          guint32 n;
          const guint32 *v = m->triangles[t].v;
          const EdgeUse *uses = find_uses (m, v[longest], v[(longest + 1) % 3], &n);
          for (guint32 i = 0; i < n; i++)
            if (uses[i].face != t && !m->sliver[uses[i].face])
              {
                m->normals[t] = m->normals[uses[i].face];
                m->sliver[t] = FALSE;
                break;
              }
          again |= m->sliver[t];
        }
    }
}

/* ---- vertices ---- */

static double
corner_angle (const Maker *m, guint32 face, int corner)
{
  const guint32 *v = m->triangles[face].v;
  TrnVec3 p = m->vertices[v[corner]];
  TrnVec3 a = trn_vec3_sub (m->vertices[v[(corner + 1) % 3]], p);
  TrnVec3 b = trn_vec3_sub (m->vertices[v[(corner + 2) % 3]], p);
  return atan2 (trn_vec3_length (trn_vec3_cross (a, b)), trn_vec3_dot (a, b));
}

typedef struct
{
  guint32 face;
  guint8 corner;
} Corner;

/* A direction that some face at a vertex has, and the vertex made for it. */
typedef struct
{
  TrnVec3 face_normal, normal;
  guint32 vertex;
} Direction;

static TrnVec3
smooth_normal (const Maker *m, const Corner *corners, const double *angles, guint32 n, TrnVec3 own)
{
  TrnVec3 sum = { 0, 0, 0 };
  for (guint32 i = 0; i < n; i++)
    {
      TrnVec3 normal = m->normals[corners[i].face];
      if (trn_vec3_dot (normal, own) > m->crease_cos)
        sum = trn_vec3_add_scaled (sum, normal, angles[i]);
    }
  return trn_vec3_length (sum) > 1e-12 ? trn_vec3_unit (sum) : own;
}

static guint32
add_vertex (RenderMesh *mesh, TrnVec3 place, TrnVec3 normal)
{
  float *p = mesh->positions + 3 * (gsize)mesh->n_vertices;
  float *n = mesh->normals + 3 * (gsize)mesh->n_vertices;
  p[0] = (float)(place.x - mesh->centre.x);
  p[1] = (float)(place.y - mesh->centre.y);
  p[2] = (float)(place.z - mesh->centre.z);
  n[0] = (float)normal.x;
  n[1] = (float)normal.y;
  n[2] = (float)normal.z;
  return mesh->n_vertices++;
}

/* Makes the vertices for all corners at one place. @directions is room to work in. */
static void
make_place (Maker *m, guint32 place, const Corner *corners, guint32 n, GArray *angles,
            GArray *directions)
{
  g_array_set_size (angles, n);
  g_array_set_size (directions, 0);
  double *angle = (double *)angles->data;
  for (guint32 i = 0; i < n; i++)
    angle[i] = corner_angle (m, corners[i].face, corners[i].corner);
  for (guint32 i = 0; i < n; i++)
    {
      TrnVec3 own = m->normals[corners[i].face];
      guint32 vertex = NONE;
      for (guint d = 0; d < directions->len && vertex == NONE; d++)
        if (trn_vec3_dot (g_array_index (directions, Direction, d).face_normal, own)
            > SAME_NORMAL_COS)
          vertex = g_array_index (directions, Direction, d).vertex;
      if (vertex == NONE)
        {
          TrnVec3 normal = smooth_normal (m, corners, angle, n, own);
          for (guint d = 0; d < directions->len && vertex == NONE; d++)
            if (trn_vec3_dot (g_array_index (directions, Direction, d).normal, normal)
                > SHARED_NORMAL_COS)
              vertex = g_array_index (directions, Direction, d).vertex;
          if (vertex == NONE)
            vertex = add_vertex (m->mesh, m->vertices[place], normal);
          Direction direction = { own, normal, vertex };
          g_array_append_val (directions, direction);
        }
      m->mesh->triangles[3 * (gsize)corners[i].face + corners[i].corner] = vertex;
    }
}

/* Returns a vertex of the display mesh for each place. */
static guint32 *
make_vertices (Maker *m)
{
  gsize n_corners = 3 * (gsize)m->n_triangles;
  guint32 *first = g_new0 (guint32, m->n_vertices + 1);
  Corner *corners = g_new (Corner, n_corners);
  for (guint32 t = 0; t < m->n_triangles; t++)
    for (int i = 0; i < 3; i++)
      first[m->triangles[t].v[i] + 1]++;
  for (guint32 v = 0; v < m->n_vertices; v++)
    first[v + 1] += first[v];
  guint32 *next = g_memdup2 (first, (m->n_vertices + 1) * sizeof *next);
  for (guint32 t = 0; t < m->n_triangles; t++)
    for (int i = 0; i < 3; i++)
      corners[next[m->triangles[t].v[i]]++] = (Corner){ t, i };

  m->mesh->positions = g_new (float, 3 * n_corners);
  m->mesh->normals = g_new (float, 3 * n_corners);
  m->mesh->triangles = g_new (guint32, n_corners);
  m->mesh->n_triangles = m->n_triangles;
  GArray *angles = g_array_new (FALSE, FALSE, sizeof (double));
  GArray *directions = g_array_new (FALSE, FALSE, sizeof (Direction));
  guint32 *vertex_of_place = next;
  for (guint32 v = 0; v < m->n_vertices; v++)
    {
      vertex_of_place[v] = m->mesh->n_vertices;
      make_place (m, v, corners + first[v], first[v + 1] - first[v], angles, directions);
    }
  gsize n_floats = MAX (3 * (gsize)m->mesh->n_vertices, 1);
  m->mesh->positions = g_renew (float, m->mesh->positions, n_floats);
  m->mesh->normals = g_renew (float, m->mesh->normals, n_floats);
  g_array_free (angles, TRUE);
  g_array_free (directions, TRUE);
  g_free (corners);
  g_free (first);
  return vertex_of_place;
}

/* ---- features and folds ---- */

/* Where the two sides of a thin wall were moved into one, an edge has their faces on top of each
 * other: it is one where their planes turn, whichever way round they are. */
static gboolean
is_crowded_feature (const Maker *m, const EdgeUse *uses, guint32 n)
{
  for (guint32 i = 1; i < n; i++)
    for (guint32 k = 0; k < i; k++)
      {
        TrnVec3 a = m->normals[uses[i].face], b = m->normals[uses[k].face];
        if (!m->sliver[uses[i].face] && !m->sliver[uses[k].face]
            && fabs (trn_vec3_dot (a, b)) < m->crease_cos)
          return TRUE;
      }
  return FALSE;
}

static gboolean
is_feature (const Maker *m, const EdgeUse *uses, guint32 n)
{
  if (n > 2 && m->merged)
    return is_crowded_feature (m, uses, n);
  if (n != 2)
    return TRUE;
  if (m->sliver[uses[0].face] || m->sliver[uses[1].face])
    return FALSE;
  double cosine = trn_vec3_dot (m->normals[uses[0].face], m->normals[uses[1].face]);
  /* Faces wound against each other: the same fold, told by the other normal. */
  if (uses[0].forward == uses[1].forward)
    cosine = -cosine;
  return cosine < m->crease_cos;
}

static gboolean
is_fold (const Maker *m, const EdgeUse *uses)
{
  return uses[0].forward != uses[1].forward
         && trn_vec3_dot (m->normals[uses[0].face], m->normals[uses[1].face]) < SAME_NORMAL_COS;
}

static void
make_edges (Maker *m, const guint32 *vertex_of_place)
{
  GArray *edges = g_array_new (FALSE, FALSE, sizeof (guint32));
  GArray *folds = g_array_new (FALSE, FALSE, sizeof (guint32));
  gboolean closed = m->n_triangles > 0;
  for (guint32 v = 0; v < m->n_vertices; v++)
    for (guint32 at = m->first_use[v], end = m->first_use[v + 1]; at < end;)
      {
        const EdgeUse *uses = m->uses + at;
        guint32 n = 0;
        int balance = 0;
        for (; at < end && m->uses[at].other == uses->other; at++, n++)
          balance += m->uses[at].forward ? 1 : -1;
        closed &= balance == 0;
        guint32 ends[2] = { vertex_of_place[v], vertex_of_place[uses->other] };
        if (is_feature (m, uses, n))
          g_array_append_vals (edges, ends, 2);
        else if (n == 2 && is_fold (m, uses))
          {
            guint32 faces[2] = { uses[0].face, uses[1].face };
            g_array_append_vals (folds, ends, 2);
            g_array_append_vals (folds, faces, 2);
          }
      }
  m->mesh->closed = closed;
  m->mesh->n_edges = edges->len / 2;
  m->mesh->edges = (guint32 *)g_array_free (edges, FALSE);
  m->mesh->n_folds = folds->len / 4;
  m->mesh->folds = (guint32 *)g_array_free (folds, FALSE);
  m->mesh->face_normals = g_new (float, MAX (3 * (gsize)m->n_triangles, 1));
  for (guint32 t = 0; t < m->n_triangles; t++)
    {
      m->mesh->face_normals[3 * (gsize)t] = (float)m->normals[t].x;
      m->mesh->face_normals[3 * (gsize)t + 1] = (float)m->normals[t].y;
      m->mesh->face_normals[3 * (gsize)t + 2] = (float)m->normals[t].z;
    }
}

/* What is between two edges, on average: the width of the faces of a lattice, or of a plain box
 * half its side. */
static void
measure_edges (Maker *m)
{
  double area_m2 = 0, length_m = 0;
  for (guint32 t = 0; t < m->n_triangles; t++)
    {
      const TrnVec3 a = m->vertices[m->triangles[t].v[0]];
      TrnVec3 b = trn_vec3_sub (m->vertices[m->triangles[t].v[1]], a);
      TrnVec3 c = trn_vec3_sub (m->vertices[m->triangles[t].v[2]], a);
      area_m2 += trn_vec3_length (trn_vec3_cross (b, c)) / 2;
    }
  for (guint32 i = 0; i < m->mesh->n_edges; i++)
    {
      const float *a = m->mesh->positions + 3 * (gsize)m->mesh->edges[2 * (gsize)i];
      const float *b = m->mesh->positions + 3 * (gsize)m->mesh->edges[2 * (gsize)i + 1];
      length_m
          += sqrt ((double)(b[0] - a[0]) * (b[0] - a[0]) + (double)(b[1] - a[1]) * (b[1] - a[1])
                   + (double)(b[2] - a[2]) * (b[2] - a[2]));
    }
  m->mesh->edge_spacing_m = length_m > 0 ? area_m2 / length_m : INFINITY;
}

RenderMesh *
render_mesh_build (const TrnMesh *mesh, guint32 most_triangles)
{
  Maker m = { .mesh = g_new0 (RenderMesh, 1) };
  RenderMerged merged = render_merge (mesh, most_triangles);
  m.vertices = merged.vertices;
  m.n_vertices = merged.n_vertices;
  m.triangles = merged.triangles;
  m.n_triangles = merged.n_triangles;
  m.merged = merged.fewer;
  m.mesh->crumpled = merged.cell_m > 0;
  m.crease_cos = m.merged ? MERGED_CREASE_COS : CREASE_COS;
  g_atomic_ref_count_init (&m.mesh->refs);
  memcpy (m.mesh->hash, mesh->hash, sizeof m.mesh->hash);
  m.mesh->box = trn_box_empty ();
  for (guint32 t = 0; t < m.n_triangles; t++)
    for (int i = 0; i < 3; i++)
      trn_box_add_point (&m.mesh->box, m.vertices[m.triangles[t].v[i]]);
  if (m.n_triangles > 0)
    m.mesh->centre = trn_box_centre (&m.mesh->box);
  make_face_normals (&m);
  make_uses (&m);
  borrow_normals (&m);
  guint32 *vertex_of_place = make_vertices (&m);
  make_edges (&m, vertex_of_place);
  measure_edges (&m);
  g_free (vertex_of_place);
  g_free (m.vertices);
  g_free (m.triangles);
  g_free (m.normals);
  g_free (m.sliver);
  g_free (m.first_use);
  g_free (m.uses);
  return m.mesh;
}

RenderMesh *
render_mesh_ref (const RenderMesh *mesh)
{
  RenderMesh *counted = (RenderMesh *)mesh;
  g_atomic_ref_count_inc (&counted->refs);
  return counted;
}

void
render_mesh_unref (const RenderMesh *mesh)
{
  RenderMesh *counted = (RenderMesh *)mesh;
  if (counted == NULL || !g_atomic_ref_count_dec (&counted->refs))
    return;
  render_mesh_unref (counted->coarse);
  g_free (counted->positions);
  g_free (counted->normals);
  g_free (counted->triangles);
  g_free (counted->edges);
  g_free (counted->face_normals);
  g_free (counted->folds);
  g_free (counted);
}
