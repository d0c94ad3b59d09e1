/* gl-mesh.h: display meshes in OpenGL's buffers, uploaded when first asked for and dropped when
 * nobody has asked for a while. */
#pragma once

#include <epoxy/gl.h>

#include "display-mesh.h"

typedef struct
{
  GLuint faces, edges; /* vertex arrays */
  GLuint vertices, indices, segments;
  GLsizei n_indices, n_segments;
  /* What it was made of; the mesh may be gone and another be at its address. */
  char hash[65];
  guint32 n_vertices, n_triangles;
  gboolean passing;
  guint64 used;
} RenderGlMesh;

typedef struct
{
  GHashTable *meshes; /* by address of the display mesh */
  guint64 now;        /* counts frames */
} RenderGlMeshes;

void render_gl_meshes_init (RenderGlMeshes *meshes);
void render_gl_meshes_clear (RenderGlMeshes *meshes);
/* Borrowed until the next call of render_gl_meshes_tidy. */
const RenderGlMesh *render_gl_meshes_get (RenderGlMeshes *meshes, const RenderMesh *mesh);
/* Once a frame: drops what was not asked for in the last frames. */
void render_gl_meshes_tidy (RenderGlMeshes *meshes);
