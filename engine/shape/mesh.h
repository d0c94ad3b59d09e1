/* mesh.h: triangle meshes: immutable once made, shared by reference, known by their content.
 *
 * Vertices are in metres in the mesh's own frame, in double precision. A mesh may consist of named
 * parts (the objects of a file), each a run of triangles. */
#pragma once

#include "box.h"

typedef struct
{
  guint32 v[3];
} TrnTriangle;

typedef struct
{
  char *name; /* owned by the mesh; may be empty, never NULL */
  guint32 first, count;
} TrnMeshPart;

typedef struct
{
  const TrnVec3 *vertices;
  const TrnTriangle *triangles;
  const TrnMeshPart *parts;
  guint32 n_vertices, n_triangles, n_parts;
  TrnBox box;    /* of the vertices that triangles use */
  char hash[65]; /* SHA-256 over counts, vertices and triangles, in hexadecimal; not over names */
  /* What its surface is (mesh-check.h), where whoever made it has looked; NULL; owned. */
  struct _TrnMeshCheck *check;
} TrnMesh;

/* Makes a mesh and takes the arrays, which must come from g_malloc; @parts may be NULL with
 * @n_parts 0, then the mesh is one part with an empty name. Every index must be in range and every
 * coordinate finite: whoever reads a file checks that first (asserted here). */
TrnMesh *trn_mesh_new_take (TrnVec3 *vertices, guint32 n_vertices, TrnTriangle *triangles,
                            guint32 n_triangles, TrnMeshPart *parts, guint32 n_parts);
/* Gives it the check that was made of it, before it is shared. */
void trn_mesh_take_check (TrnMesh *mesh, struct _TrnMeshCheck *check);
TrnMesh *trn_mesh_ref (const TrnMesh *mesh);
void trn_mesh_unref (const TrnMesh *mesh);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnMesh, trn_mesh_unref)

/* The three corners of a triangle. */
static inline void
trn_mesh_corners (const TrnMesh *mesh, guint32 triangle, TrnVec3 corners[3])
{
  for (int i = 0; i < 3; i++)
    corners[i] = mesh->vertices[mesh->triangles[triangle].v[i]];
}

/* For making a mesh piece by piece. */
typedef struct _TrnMeshBuilder TrnMeshBuilder;

TrnMeshBuilder *trn_mesh_builder_new (void);
/* Frees a builder that is not to become a mesh. */
void trn_mesh_builder_free (TrnMeshBuilder *builder);
/* Begins a part; triangles added from now on belong to it. @name is copied. */
void trn_mesh_builder_part (TrnMeshBuilder *builder, const char *name);
/* Adds a vertex and returns its index. */
guint32 trn_mesh_builder_vertex (TrnMeshBuilder *builder, TrnVec3 vertex);
/* Adds a triangle of three vertices added before, counter-clockwise seen from outside. */
void trn_mesh_builder_triangle (TrnMeshBuilder *builder, guint32 a, guint32 b, guint32 c);
/* Consumes the builder. */
TrnMesh *trn_mesh_builder_finish (TrnMeshBuilder *builder);
