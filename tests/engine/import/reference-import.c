/* reference-import: what the import library alone makes of files, for the test of the corpus.
 *
 *   reference-import FILE…
 *
 * A line for each file: "ok TRIANGLES" when the library returns a scene, read with plain flags,
 * else "error". Triangles are counted where nodes show them. Each file is read in a process of its
 * own, under limits. */
#include <assimp/cimport.h>
#include <assimp/scene.h>
#include <stdio.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

static unsigned long
count_triangles (const struct aiScene *scene, const struct aiNode *node)
{
  unsigned long count = 0;
  for (unsigned i = 0; i < node->mNumMeshes; i++)
    {
      const struct aiMesh *mesh = scene->mMeshes[node->mMeshes[i]];
      for (unsigned f = 0; f < mesh->mNumFaces; f++)
        if (mesh->mFaces[f].mNumIndices >= 3)
          count += mesh->mFaces[f].mNumIndices - 2;
    }
  for (unsigned i = 0; i < node->mNumChildren; i++)
    count += count_triangles (scene, node->mChildren[i]);
  return count;
}

static void
read_one (const char *path)
{
  struct rlimit memory = { (rlim_t)2 << 30, (rlim_t)2 << 30 }, cpu = { 10, 10 }, core = { 0, 0 };
#ifndef HAS_ADDRESS_SANITIZER
  setrlimit (RLIMIT_AS, &memory);
#else
  (void)memory;
#endif
  setrlimit (RLIMIT_CPU, &cpu);
  setrlimit (RLIMIT_CORE, &core);
  const struct aiScene *scene = aiImportFile (path, 0);
  if (scene == NULL || scene->mRootNode == NULL)
    _exit (1);
  printf ("ok %lu\n", count_triangles (scene, scene->mRootNode));
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
