/* reference-import: what the import library alone makes of files, for the test of the corpus.
 *
 *   reference-import FILE…
 *
 * A line for each file: "ok TRIANGLES EXTENT EXTENT EXTENT" when the library returns a scene, read
 * with plain flags and without the bones that it would draw for cameras, lights and joints, as if
 * they were faces of the file; else "error". Triangles are counted where nodes show them; the
 * extents are those of their box, the smallest first. Each file is read in a process of its own,
 * under limits.
 */
#include <assimp/cimport.h>
#include <assimp/config.h>
#include <assimp/scene.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

typedef struct
{
  unsigned long triangles;
  double lo[3], hi[3];
} Sum;

static void
add_face (Sum *sum, const struct aiMesh *mesh, const struct aiFace *face,
          const struct aiMatrix4x4 *map)
{
  if (face->mNumIndices < 3)
    return;
  sum->triangles += face->mNumIndices - 2;
  for (unsigned i = 0; i < face->mNumIndices; i++)
    {
      struct aiVector3D p = mesh->mVertices[face->mIndices[i]];
      aiTransformVecByMatrix4 (&p, map);
      const double point[3] = { p.x, p.y, p.z };
      for (int k = 0; k < 3; k++)
        {
          sum->lo[k] = fmin (sum->lo[k], point[k]);
          sum->hi[k] = fmax (sum->hi[k], point[k]);
        }
    }
}

static void
add_node (Sum *sum, const struct aiScene *scene, const struct aiNode *node,
          const struct aiMatrix4x4 *above)
{
  struct aiMatrix4x4 map = *above;
  aiMultiplyMatrix4 (&map, &node->mTransformation);
  for (unsigned i = 0; i < node->mNumMeshes; i++)
    {
      const struct aiMesh *mesh = scene->mMeshes[node->mMeshes[i]];
      for (unsigned f = 0; f < mesh->mNumFaces; f++)
        add_face (sum, mesh, &mesh->mFaces[f], &map);
    }
  for (unsigned i = 0; i < node->mNumChildren; i++)
    add_node (sum, scene, node->mChildren[i], &map);
}

static int
compare_doubles (const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

static void
read_one (const char *path)
{
  struct rlimit memory = { (rlim_t)2 << 30, (rlim_t)2 << 30 }, cpu = { 10, 10 }, core = { 0, 0 };
  setrlimit (RLIMIT_AS, &memory);
  setrlimit (RLIMIT_CPU, &cpu);
  setrlimit (RLIMIT_CORE, &core);
  struct aiPropertyStore *properties = aiCreatePropertyStore ();
  aiSetImportPropertyInteger (properties, AI_CONFIG_IMPORT_NO_SKELETON_MESHES, 1);
  const struct aiScene *scene = aiImportFileExWithProperties (path, 0, NULL, properties);
  if (scene == NULL || scene->mRootNode == NULL)
    _exit (1);
  Sum sum = { 0, { HUGE_VAL, HUGE_VAL, HUGE_VAL }, { -HUGE_VAL, -HUGE_VAL, -HUGE_VAL } };
  struct aiMatrix4x4 identity;
  aiIdentityMatrix4 (&identity);
  add_node (&sum, scene, scene->mRootNode, &identity);
  double extents[3];
  for (int k = 0; k < 3; k++)
    extents[k] = sum.triangles > 0 ? sum.hi[k] - sum.lo[k] : 0;
  qsort (extents, 3, sizeof extents[0], compare_doubles);
  printf ("ok %lu %.9g %.9g %.9g\n", sum.triangles, extents[0], extents[1], extents[2]);
  fflush (stdout);
  _exit (0);
}

int
main (int argc, char **argv)
{
  for (int i = 1; i < argc; i++)
    {
      fflush (stdout);
      pid_t child = fork ();
      if (child == 0)
        read_one (argv[i]);
      int status = 1;
      if (child < 0 || waitpid (child, &status, 0) != child || status != 0)
        printf ("error\n");
    }
  return 0;
}
