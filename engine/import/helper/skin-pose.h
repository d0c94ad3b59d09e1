/* skin-pose.h: where a mesh stands that bones move.
 *
 * Each vertex is moved by the weighted mean of its bones' maps. Where all of these are one map, as
 * in the pose that the skin was made in, the mesh is a rigid body, and that map places it.
 *
 * Weights need not add up to one in FBX: they are divided by their sum, or what is left of one, or
 * too much, is the share of the place that the mesh's own node gives (three kinds of cluster; from
 * memory of that format's description). Where the bones' maps are that of the node, too, all three
 * come to the same place. */
#pragma once

#include "affine.h"

#include <assimp/scene.h>

/* The map of @mesh to the frame of the scene, and by how far a vertex may be from it at most, on
 * the mesh's own box. @of_node: where its node places it, NULL where the format gives that no
 * share. FALSE where the bones' maps differ by more than 10^-4 of its size, where a bone has no
 * node, or where the weights of a vertex do not add up to one and @of_node is another place or
 * none. */
gboolean trn_skin_pose (const struct aiScene *scene, const struct aiMesh *mesh,
                        const TrnAffine *of_node, TrnAffine *map, double *deviation);
