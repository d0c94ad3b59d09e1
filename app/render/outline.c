/* outline.c: both go through all triangles once a frame, which costs about a millisecond for
 * 100,000; what is drawn then is a few lines. */
#include "outline.h"

static float
dot (const float *a, const float *b)
{
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

void
render_outline_append (const RenderMesh *mesh, const float eye[3], gboolean parallel,
                       GArray *segments)
{
  if (mesh->n_folds == 0)
    return;
  guint8 *towards = g_new (guint8, mesh->n_triangles);
  for (guint32 t = 0; t < mesh->n_triangles; t++)
    {
      const float *normal = mesh->face_normals + 3 * (gsize)t;
      float side = dot (normal, eye);
      if (!parallel)
        side -= dot (normal, mesh->positions + 3 * (gsize)mesh->triangles[3 * (gsize)t]);
      towards[t] = side > 0;
    }
  for (guint32 i = 0; i < mesh->n_folds; i++)
    {
      const guint32 *fold = mesh->folds + 4 * (gsize)i;
      if (towards[fold[2]] == towards[fold[3]])
        continue;
      g_array_append_vals (segments, mesh->positions + 3 * (gsize)fold[0], 3);
      g_array_append_vals (segments, mesh->positions + 3 * (gsize)fold[1], 3);
    }
  g_free (towards);
}

void
render_cut_append (const RenderMesh *mesh, const float normal[3], float offset, GArray *segments)
{
  float *height = g_new (float, MAX (mesh->n_vertices, 1));
  for (guint32 v = 0; v < mesh->n_vertices; v++)
    height[v] = dot (normal, mesh->positions + 3 * (gsize)v) - offset;
  for (guint32 t = 0; t < mesh->n_triangles; t++)
    {
      const guint32 *v = mesh->triangles + 3 * (gsize)t;
      gboolean above[3] = { height[v[0]] > 0, height[v[1]] > 0, height[v[2]] > 0 };
      if (above[0] == above[1] && above[1] == above[2])
        continue;
      for (int i = 0; i < 3; i++)
        {
          int j = (i + 1) % 3;
          if (above[i] == above[j])
            continue;
          const float *p = mesh->positions + 3 * (gsize)v[i];
          const float *q = mesh->positions + 3 * (gsize)v[j];
          float share = height[v[i]] / (height[v[i]] - height[v[j]]);
          float place[3];
          for (int k = 0; k < 3; k++)
            place[k] = p[k] + share * (q[k] - p[k]);
          g_array_append_vals (segments, place, 3);
        }
    }
  g_free (height);
}
