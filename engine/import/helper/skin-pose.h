/* skin-pose.h: where a mesh stands that bones move.
 *
 * Each vertex is moved by the weighted mean of its bones' maps. Where all of these are one map, as
 * in the pose that the skin was made in, the mesh is a rigid body, and that map places it. */
#pragma once

#include "affine.h"

#include <assimp/scene.h>

/* The map of @mesh to the frame of the scene, and by how far the bones' maps differ from it at
 * most, on the mesh's own box. FALSE where they differ by more than 10^-4 of its size, where a
 * bone has no node, or where the weights of a vertex do not add up to one. */
gboolean trn_skin_pose (const struct aiScene *scene, const struct aiMesh *mesh, TrnAffine *map,
                        double *deviation);
