/* scene-walk.h: from the import library's scene to triangles in one frame.
 *
 * The node tree is walked here, in double precision: the library's own flattening loses names and
 * works in single precision. */
#pragma once

#include "answer.h"
#include "file-facts.h"

#include <assimp/scene.h>

/* Checks @scene and fills @answer with its triangles, or with an error. */
void trn_scene_walk (const struct aiScene *scene, const TrnFileFacts *facts, guint64 max_triangles,
                     TrnAnswer *answer);
