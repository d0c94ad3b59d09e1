#include "build.h"
#include "polygon.h"
#include "weld.h"

#include <math.h>
#include <string.h>

#define FEW 16

typedef struct
{
  char *name;
  GArray *triangles; /* three guint32 each */
} Part;

struct _TrnBuild
{
  TrnAnswer *answer;
  guint64 max_triangles, triangles;
  guint64 vertices; /* of the file, as far as faces use them */
  guint64 points, lines, bent;
  double largest;
  TrnWeld weld;
  GPtrArray *parts;       /* of Part */
  GHashTable *part_index; /* name → index + 1 */
};

static void
part_free (gpointer data)
{
  Part *part = data;
  g_free (part->name);
  g_array_unref (part->triangles);
  g_free (part);
}

TrnBuild *
trn_build_new (TrnAnswer *answer, guint64 max_triangles)
{
  TrnBuild *build = g_new0 (TrnBuild, 1);
  build->answer = answer;
  build->max_triangles = MIN (max_triangles, G_MAXUINT32 / 3);
  build->parts = g_ptr_array_new_with_free_func (part_free);
  build->part_index = g_hash_table_new (g_str_hash, g_str_equal);
  if (!trn_weld_init (&build->weld))
    trn_answer_note (answer, TRN_NOTE_MEMORY, 0, 0, NULL);
  return build;
}

void
trn_build_free (TrnBuild *build)
{
  trn_weld_clear (&build->weld);
  g_free (build->weld.points);
  g_hash_table_unref (build->part_index);
  g_ptr_array_unref (build->parts);
  g_free (build);
}

guint
trn_build_part_get (TrnBuild *build, const char *name)
{
  guint index = GPOINTER_TO_UINT (g_hash_table_lookup (build->part_index, name));
  if (index > 0)
    return index - 1;
  Part *part = g_new0 (Part, 1);
  part->name = g_strdup (name);
  part->triangles = g_array_new (FALSE, FALSE, 3 * sizeof (guint32));
  g_ptr_array_add (build->parts, part);
  g_hash_table_insert (build->part_index, part->name, GUINT_TO_POINTER (build->parts->len));
  return build->parts->len - 1;
}

static const char *
name_of (const TrnBuild *build, guint part)
{
  return ((const Part *)g_ptr_array_index (build->parts, part))->name;
}

/* The vertex of one corner. FALSE after an error. */
static gboolean
find_vertex (TrnBuild *build, const TrnBuildPoints *points, guint32 corner, guint32 *vertex)
{
  if (points->index_of != NULL && points->index_of[corner] != 0)
    {
      *vertex = points->index_of[corner] - 1;
      return TRUE;
    }
  double point[3];
  for (int k = 0; k < 3; k++)
    {
      point[k] = points->points[corner][k] + 0.0; /* no negative zeros */
      build->largest = fmax (build->largest, fabs (point[k]));
    }
  if (!trn_weld_add (&build->weld, point, vertex))
    {
      trn_answer_note (build->answer, TRN_NOTE_MEMORY, 0, 0, NULL);
      return FALSE;
    }
  build->vertices++;
  if (points->index_of != NULL)
    points->index_of[corner] = *vertex + 1;
  return TRUE;
}

/* FALSE after an error. */
static gboolean
check_corners (TrnBuild *build, guint part, const TrnBuildPoints *points, const guint32 *corners,
               guint32 n)
{
  for (guint32 i = 0; i < n; i++)
    {
      if (corners[i] >= points->n)
        {
          trn_answer_note (build->answer, TRN_NOTE_INDEX_RANGE, corners[i], points->n,
                           name_of (build, part));
          return FALSE;
        }
      const double *p = points->points[corners[i]];
      if (!(isfinite (p[0]) && isfinite (p[1]) && isfinite (p[2])))
        {
          trn_answer_note (build->answer, TRN_NOTE_NOT_FINITE, 0, 0, name_of (build, part));
          return FALSE;
        }
    }
  return TRUE;
}

static gboolean
add_triangle (TrnBuild *build, guint part, const TrnBuildPoints *points, const guint32 corners[3],
              gboolean turned)
{
  guint32 vertices[3];
  for (int i = 0; i < 3; i++)
    if (!find_vertex (build, points, corners[i], &vertices[turned && i > 0 ? 3 - i : i]))
      return FALSE;
  if (++build->triangles > build->max_triangles)
    {
      trn_answer_note (build->answer, TRN_NOTE_TOO_MANY, (double)build->triangles, 0, NULL);
      return FALSE;
    }
  Part *into = g_ptr_array_index (build->parts, part);
  g_array_append_vals (into->triangles, vertices, 1);
  return TRUE;
}

gboolean
trn_build_face (TrnBuild *build, guint part, const TrnBuildPoints *points, const guint32 *corners,
                guint32 n, gboolean turned)
{
  if (trn_answer_has_error (build->answer) || !check_corners (build, part, points, corners, n))
    return FALSE;
  if (n < 3)
    {
      trn_build_drop (build, n == 1, n == 2);
      return TRUE;
    }
  if (n == 3)
    return add_triangle (build, part, points, corners, turned);
  double few_corners[FEW][3];
  guint32 few_triangles[TRN_POLYGON_COVER_TRIANGLES][3];
  g_autofree double (*many_corners)[3] = n > FEW ? g_malloc_n (n, sizeof *many_corners) : NULL;
  g_autofree guint32 (*many_triangles)[3] = n > FEW ? g_malloc_n (n, sizeof *many_triangles) : NULL;
  double (*polygon)[3] = n > FEW ? many_corners : few_corners;
  guint32 (*triangles)[3] = n > FEW ? many_triangles : few_triangles;
  for (guint32 i = 0; i < n; i++)
    memcpy (polygon[i], points->points[corners[i]], sizeof polygon[i]);
  guint32 count = n - 2;
  if (!trn_polygon_cut ((const double (*)[3])polygon, n, triangles))
    {
      count = trn_polygon_cover (n, triangles);
      build->bent++;
    }
  else
    trn_answer_warp (build->answer, trn_polygon_warp ((const double (*)[3])polygon, n),
                     name_of (build, part));
  if (count == 0)
    {
      trn_answer_note (build->answer, TRN_NOTE_POLYGON, n, 0, name_of (build, part));
      return FALSE;
    }
  for (guint32 t = 0; t < count; t++)
    {
      guint32 triangle[3]
          = { corners[triangles[t][0]], corners[triangles[t][1]], corners[triangles[t][2]] };
      if (!add_triangle (build, part, points, triangle, turned))
        return FALSE;
    }
  return TRUE;
}

void
trn_build_size (TrnBuild *build, double number)
{
  if (isfinite (number))
    build->largest = fmax (build->largest, fabs (number));
}

void
trn_build_drop (TrnBuild *build, guint64 points, guint64 lines)
{
  build->points += points;
  build->lines += lines;
}

/* FALSE after an error. */
static gboolean
check_faces (const TrnBuild *build)
{
  TrnAnswer *answer = build->answer;
  double points = (double)build->points, lines = (double)build->lines;
  if (trn_answer_has_error (answer))
    return FALSE;
  if (build->triangles == 0 && build->points + build->lines > 0)
    trn_answer_note (answer, TRN_NOTE_POINTS_ONLY, points, lines, NULL);
  else if (build->triangles == 0)
    trn_answer_note (answer, TRN_NOTE_NO_FACES, 0, 0, NULL);
  else if (build->points + build->lines > 0)
    trn_answer_note (answer, TRN_NOTE_DROPPED, points, lines, NULL);
  return build->triangles > 0;
}

void
trn_build_finish (TrnBuild *build, double roundings)
{
  TrnAnswer *answer = build->answer;
  if (!check_faces (build))
    return;
  guint32 (*all)[3] = g_try_malloc_n (build->triangles, sizeof *all);
  if (all == NULL)
    {
      trn_answer_note (answer, TRN_NOTE_MEMORY, 0, 0, NULL);
      return;
    }
  if (build->bent > 0)
    trn_answer_note (answer, TRN_NOTE_BENT, (double)build->bent, 0, NULL);
  trn_answer_note_warp (answer);
  guint32 first = 0;
  for (guint i = 0; i < build->parts->len; i++)
    {
      const Part *part = g_ptr_array_index (build->parts, i);
      guint32 count = part->triangles->len;
      if (count == 0)
        continue;
      memcpy (all[first], part->triangles->data, count * sizeof *all);
      trn_answer_part (answer, first, count, part->name);
      first += count;
    }
  answer->triangles = all[0];
  answer->vertices = g_steal_pointer (&build->weld.points);
  answer->header.n_vertices = build->weld.n_points;
  answer->header.n_triangles = first;
  answer->header.joined = (guint32)(build->vertices - build->weld.n_points);
  answer->header.counted = 1;
  answer->header.largest = build->largest;
  answer->header.loss = roundings * 0x1p-53 * build->largest;
}
