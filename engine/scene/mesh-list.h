/* mesh-list.h: the mesh files of a scene: each once for each way in which it is read, with those
 * that have it as their shape and what was found in it. */
#pragma once

#include "scene.h"

typedef struct
{
  const char *id, *name; /* of the structure or component; borrowed from the plan */
  const char *pointer;   /* of its place in the plan; borrowed as well */
} TrnSceneMeshUser;

typedef struct
{
  const TrnMeshFile *source;     /* borrowed from the plan */
  const TrnImportReport *report; /* borrowed from the scene; NULL: left out, it cannot be used */
  GArray *users;                 /* of TrnSceneMeshUser */
} TrnSceneMesh;

/* Whether both say the same file, unit, axis and parts. */
gboolean trn_mesh_file_is_read_alike (const TrnMeshFile *a, const TrnMeshFile *b);

/* A new array of TrnSceneMesh in the order of the plan; it must not outlive @scene. */
GPtrArray *trn_scene_meshes_list (const TrnScene *scene);

/* Whether @diag is about this file or about the surface that came from it. */
gboolean trn_scene_mesh_is_meant (const TrnSceneMesh *mesh, const TrnDiag *diag);
