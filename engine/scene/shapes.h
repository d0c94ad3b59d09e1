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
} TrnSceneShapes;

/* Gives each of @bodies (of TrnBody*, with their meshes) its tree and its check, and one mesh to
 * all that have the same. When cancelled some are NULL. */
void trn_scene_shapes_build (TrnSceneShapes *shapes, const GPtrArray *bodies,
                             const TrnSceneOptions *options);
void trn_scene_shapes_clear (TrnSceneShapes *shapes);
