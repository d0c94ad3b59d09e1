/* gl-mesh.c: see gl-mesh.h. */
#include "gl-mesh.h"

#include <string.h>

#define KEPT_FRAMES 240

static void
free_mesh (gpointer data)
{
  RenderGlMesh *mesh = data;
  glDeleteVertexArrays (1, &mesh->faces);
  glDeleteVertexArrays (1, &mesh->edges);
  glDeleteBuffers (1, &mesh->vertices);
  glDeleteBuffers (1, &mesh->indices);
  glDeleteBuffers (1, &mesh->segments);
  g_free (mesh);
}

void
render_gl_meshes_init (RenderGlMeshes *meshes)
{
  meshes->meshes = g_hash_table_new_full (NULL, NULL, NULL, free_mesh);
}

void
render_gl_meshes_clear (RenderGlMeshes *meshes)
{
  g_hash_table_unref (meshes->meshes);
}

static void
upload_faces (RenderGlMesh *gl, const RenderMesh *mesh)
{
  gsize bytes = 3 * sizeof (float) * (gsize)mesh->n_vertices;
  glGenVertexArrays (1, &gl->faces);
  glBindVertexArray (gl->faces);
  glGenBuffers (1, &gl->vertices);
  glBindBuffer (GL_ARRAY_BUFFER, gl->vertices);
  glBufferData (GL_ARRAY_BUFFER, (GLsizeiptr)(2 * bytes), NULL, GL_STATIC_DRAW);
  glBufferSubData (GL_ARRAY_BUFFER, 0, (GLsizeiptr)bytes, mesh->positions);
  glBufferSubData (GL_ARRAY_BUFFER, (GLintptr)bytes, (GLsizeiptr)bytes, mesh->normals);
  glEnableVertexAttribArray (0);
  glVertexAttribPointer (0, 3, GL_FLOAT, GL_FALSE, 0, NULL);
  glEnableVertexAttribArray (1);
  glVertexAttribPointer (1, 3, GL_FLOAT, GL_FALSE, 0, GSIZE_TO_POINTER (bytes));
  glGenBuffers (1, &gl->indices);
  glBindBuffer (GL_ELEMENT_ARRAY_BUFFER, gl->indices);
  gl->n_indices = (GLsizei)(3 * mesh->n_triangles);
  glBufferData (GL_ELEMENT_ARRAY_BUFFER,
                (GLsizeiptr)(3 * sizeof (guint32) * (gsize)mesh->n_triangles), mesh->triangles,
                GL_STATIC_DRAW);
}

static void
upload_edges (RenderGlMesh *gl, const RenderMesh *mesh)
{
  gl->n_segments = (GLsizei)mesh->n_edges;
  float *ends = g_new (float, MAX (6 * (gsize)mesh->n_edges, 1));
  for (gsize i = 0; i < 2 * (gsize)mesh->n_edges; i++)
    memcpy (ends + 3 * i, mesh->positions + 3 * (gsize)mesh->edges[i], 3 * sizeof (float));
  glGenVertexArrays (1, &gl->edges);
  glBindVertexArray (gl->edges);
  glGenBuffers (1, &gl->segments);
  glBindBuffer (GL_ARRAY_BUFFER, gl->segments);
  glBufferData (GL_ARRAY_BUFFER, (GLsizeiptr)(6 * sizeof (float) * (gsize)mesh->n_edges), ends,
                GL_STATIC_DRAW);
  for (guint i = 0; i < 2; i++)
    {
      glEnableVertexAttribArray (i);
      glVertexAttribPointer (i, 3, GL_FLOAT, GL_FALSE, 6 * sizeof (float),
                             GSIZE_TO_POINTER (3 * i * sizeof (float)));
      glVertexAttribDivisor (i, 1);
    }
  g_free (ends);
}

static gboolean
is_made_of (const RenderGlMesh *gl, const RenderMesh *mesh)
{
  return gl->n_vertices == mesh->n_vertices && gl->n_triangles == mesh->n_triangles
         && memcmp (gl->hash, mesh->hash, sizeof gl->hash) == 0;
}

const RenderGlMesh *
render_gl_meshes_get (RenderGlMeshes *meshes, const RenderMesh *mesh)
{
  RenderGlMesh *gl = g_hash_table_lookup (meshes->meshes, mesh);
  if (gl == NULL || !is_made_of (gl, mesh))
    {
      gl = g_new0 (RenderGlMesh, 1);
      memcpy (gl->hash, mesh->hash, sizeof gl->hash);
      gl->n_vertices = mesh->n_vertices;
      gl->n_triangles = mesh->n_triangles;
      gl->passing = mesh->passing;
      upload_faces (gl, mesh);
      upload_edges (gl, mesh);
      g_hash_table_replace (meshes->meshes, (gpointer)mesh, gl);
    }
  gl->used = meshes->now;
  return gl;
}

void
render_gl_meshes_tidy (RenderGlMeshes *meshes)
{
  meshes->now++;
  GHashTableIter iter;
  gpointer value;
  g_hash_table_iter_init (&iter, meshes->meshes);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    {
      const RenderGlMesh *mesh = value;
      if (mesh->used + (mesh->passing ? 1 : KEPT_FRAMES) < meshes->now)
        g_hash_table_iter_remove (&iter);
    }
}
