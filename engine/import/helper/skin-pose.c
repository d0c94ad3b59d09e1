#include "skin-pose.h"

#include <string.h>

#define MAX_DEPTH 1000
#define MOST_DEVIATION 1e-4
#define MOST_WEIGHT_ERROR 1e-2

static TrnAffine
affine_from (const struct aiMatrix4x4 *m)
{
  return (TrnAffine){
    { { m->a1, m->a2, m->a3 }, { m->b1, m->b2, m->b3 }, { m->c1, m->c2, m->c3 } },
    { m->a4, m->b4, m->c4 },
  };
}

/* How many nodes have the name; @found is the first of them. */
static guint
find_nodes (const struct aiNode *node, const char *name, guint depth, const struct aiNode **found)
{
  guint n = 0;
  if (strcmp (node->mName.data, name) == 0)
    {
      *found = *found != NULL ? *found : node;
      n++;
    }
  for (guint i = 0; i < node->mNumChildren && depth < MAX_DEPTH; i++)
    n += find_nodes (node->mChildren[i], name, depth + 1, found);
  return n;
}

/* scene_from_mesh as this bone has it. FALSE where it has no node, or where it cannot be told which
 * one it is: a bone knows its node by the name alone. */
static gboolean
bone_map (const struct aiScene *scene, const struct aiBone *bone, TrnAffine *map)
{
  const struct aiNode *node = NULL;
  if (find_nodes (scene->mRootNode, bone->mName.data, 0, &node) != 1)
    return FALSE;
  *map = affine_from (&bone->mOffsetMatrix);
  for (guint depth = 0; node != NULL && depth < MAX_DEPTH; node = node->mParent, depth++)
    {
      TrnAffine outer = affine_from (&node->mTransformation);
      *map = trn_affine_compose (&outer, map);
    }
  return trn_affine_is_finite (map);
}

typedef struct
{
  gboolean good;      /* of vertices that are there, and none below zero */
  double least, most; /* sums of a vertex */
} Weights;

static Weights
weights_sum (const struct aiMesh *mesh)
{
  g_autofree double *sums = g_new0 (double, (gsize)mesh->mNumVertices + 1);
  for (guint b = 0; b < mesh->mNumBones; b++)
    for (guint w = 0; w < mesh->mBones[b]->mNumWeights; w++)
      {
        const struct aiVertexWeight *weight = &mesh->mBones[b]->mWeights[w];
        if (weight->mVertexId >= mesh->mNumVertices || !(weight->mWeight >= 0)
            || !isfinite (weight->mWeight))
          return (Weights){ .good = FALSE };
        sums[weight->mVertexId] += (double)weight->mWeight;
      }
  Weights weights = { .good = TRUE, .least = 1, .most = 1 };
  for (guint v = 0; v < mesh->mNumVertices; v++)
    {
      weights.least = fmin (weights.least, sums[v]);
      weights.most = fmax (weights.most, sums[v]);
    }
  return weights;
}

/* By how far the maps differ in any coordinate, where a point is no larger than @size. */
static double
find_deviation (const TrnAffine *a, const TrnAffine *b, const double size[3])
{
  double deviation = 0;
  for (int i = 0; i < 3; i++)
    {
      double off = fabs (a->t[i] - b->t[i]);
      for (int j = 0; j < 3; j++)
        off += fabs (a->a[i][j] - b->a[i][j]) * size[j];
      deviation = fmax (deviation, off);
    }
  return deviation;
}

/* The size of what has @size, as @map makes it. */
static double
find_reach (const TrnAffine *map, const double size[3])
{
  double most = 0;
  for (int i = 0; i < 3; i++)
    {
      double reach = 0;
      for (int j = 0; j < 3; j++)
        reach += fabs (map->a[i][j]) * size[j];
      most = fmax (most, reach);
    }
  return most;
}

gboolean
trn_skin_pose (const struct aiScene *scene, const struct aiMesh *mesh, const TrnAffine *of_node,
               TrnAffine *map, double *deviation)
{
  double size[3] = { 0, 0, 0 };
  for (guint v = 0; v < mesh->mNumVertices; v++)
    {
      size[0] = fmax (size[0], fabs ((double)mesh->mVertices[v].x));
      size[1] = fmax (size[1], fabs ((double)mesh->mVertices[v].y));
      size[2] = fmax (size[2], fabs ((double)mesh->mVertices[v].z));
    }
  gboolean first = TRUE;
  *deviation = 0;
  for (guint b = 0; b < mesh->mNumBones; b++)
    {
      TrnAffine of_bone;
      if (mesh->mBones[b]->mNumWeights == 0)
        continue;
      if (!bone_map (scene, mesh->mBones[b], &of_bone))
        return FALSE;
      if (first)
        *map = of_bone;
      first = FALSE;
      *deviation = fmax (*deviation, find_deviation (&of_bone, map, size));
    }
  const Weights weights = weights_sum (mesh);
  if (first || !weights.good)
    return FALSE;
  const gboolean whole
      = 1 - weights.least <= MOST_WEIGHT_ERROR && weights.most - 1 <= MOST_WEIGHT_ERROR;
  if (!whole && of_node == NULL)
    return FALSE;
  /* A vertex is off its place by no more than the sum of its weights times this. */
  if (!whole)
    *deviation = weights.most * (*deviation + find_deviation (of_node, map, size));
  return *deviation <= MOST_DEVIATION * find_reach (map, size);
}
