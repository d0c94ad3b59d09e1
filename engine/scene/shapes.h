/* shapes.h: each distinct mesh with its tree and its check. Not for other folders. */
#pragma once

#include "scene.h"

/* One mesh with what is made of it, shared by all bodies that have it, and by the scenes of one
 * cache: counted by its block. */
typedef struct _TrnSceneShape TrnSceneShape;

typedef struct
{
  TrnSceneShape **shapes; /* owned */
  guint n_shapes;
  GMutex lock;       /* of the next */
  GHashTable *ready; /* from the key of a mesh (GBytes) to a TrnSceneShape; NULL: in the making */
} TrnSceneShapes;

void trn_scene_shapes_init (TrnSceneShapes *shapes);

/* Makes the tree and the check of a mesh that the scene is likely to have, while others are still
 * read; by any thread. The mesh has triangles. */
void trn_scene_shapes_prepare (TrnSceneShapes *shapes, const TrnMesh *mesh,
                               const TrnSceneOptions *options);

/* When nothing is prepared any more: gives each of @bodies (of TrnBody*, with their meshes) its
 * tree and its check, and one mesh to all that have the same. When cancelled some are NULL. */
void trn_scene_shapes_build (TrnSceneShapes *shapes, const GPtrArray *bodies,
                             const TrnSceneOptions *options);
void trn_scene_shapes_clear (TrnSceneShapes *shapes);
