/* scene-walk.h: from the import library's scene to triangles in one frame.
 *
 * The node tree is walked here, in double precision: the library's own flattening loses names and
 * works in single precision. */
#pragma once

#include "answer.h"
#include "file-facts.h"

#include <assimp/scene.h>

/* Looks at every mesh of @scene before anything else works on it: indices, finite corners, points
 * and lines. Returns the triangles that its polygons amount to. */
guint64 trn_scene_check (const struct aiScene *scene, const TrnFileFacts *facts, TrnAnswer *answer);

/* Fills @answer with the triangles of @scene, whose polygons are triangles by now: @expected of
 * them, each mesh counted once. */
void trn_scene_walk (const struct aiScene *scene, const TrnFileFacts *facts, guint64 expected,
                     guint64 max_triangles, TrnAnswer *answer);
