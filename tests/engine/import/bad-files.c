#include "bad-files.h"

const BadFile bad_files[] = {
  { "a.step", "ISO-10303-21;", "import/format" },
  { "a.off", "OFF\n353535235358 1 1\n", "import/count" },
  { "noextension", "v 0 0 0", "import/no-extension" },
  { "empty.obj", "", "import/empty" },
  { "empty.stl", "", "import/empty" },
  { "words.obj", "this is no model\n", "import/damaged" },
  { "words.stl", "this is no model\n", "import/damaged" },
  { "words.ply", "this is no model\n", "import/damaged" },
  { "words.gltf", "this is no model\n", "import/damaged" },
  { "words.glb", "this is no model at all\n", "import/damaged" },
  { "short.glb", "glTF", "import/damaged" },
  { "binary.gltf", "glTF and what follows in a binary file", "import/damaged" },
  { "upper.stl", "SOLID A\nENDSOLID A\n", "import/damaged" },
  /* As long as the count of a binary file needs, which letters are not. */
  { "obj.stl",
    "v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\nv 0 0 1\nv 1 0 1\nv 1 1 1\nv 0 1 1\nf 1 2 3\nf 1 3 4\n"
    "f 5 6 7\nf 5 7 8\n",
    "import/damaged" },
  /* Points and lines alone. */
  { "points.obj", "v 0 0 0\nv 1 0 0\nv 1 1 0\np 1 2 3\n", "import/points-only" },
  { "lines.obj", "v 0 0 0\nv 1 0 0\nv 1 1 0\nl 1 2 3\n", "import/points-only" },
  { "vertices.obj", "v 0 0 0\nv 1 0 0\nv 1 1 0\n", "import/points-only" },
  { "points.ply", PLY_HEAD "element vertex 2\n" PLY_XYZ "end_header\n0 0 0\n1 1 1\n",
    "import/points-only" },
  /* Numbers that are none, or too large for anything. */
  { "nan.obj", "o valve\nv 0 0 0\nv nan 0 0\nv 1 1 0\nf 1 2 3\n", "import/not-finite" },
  { "inf.obj", "o valve\nv 0 0 0\nv inf 0 0\nv 1 1 0\nf 1 2 3\n", "import/not-finite" },
  { "huge.obj", "v 0 0 0\nv 1e300 0 0\nv 1 1 0\nf 1 2 3\n", "import/not-finite" },
  { "far.obj", "v 5000 0 0\nv 5001 0 0\nv 5001 1 0\nf 1 2 3\n", "import/precision" },
  /* Indices. */
  { "index.obj", "v 0 0 0\nv 1 0 0\nv 1 1 0\nf 1 2 4\n", "import/damaged" },
  { "negative.obj", "v 0 0 0\nv 1 0 0\nv 1 1 0\nf -1 -2 -9\n", "import/damaged" },
  { "index.ply",
    PLY_HEAD "element vertex 3\n" PLY_XYZ "element face 1\n" PLY_LIST
             "0 0 0\n1 0 0\n1 1 0\n3 0 1 7\n",
    "import/index-range" },
  /* Headers that claim what the file cannot hold, or do not end. */
  { "bomb.ply",
    PLY_HEAD "element vertex 353535235358\n" PLY_XYZ "element face 1\n" PLY_LIST "0 0 0\n",
    "import/count" },
  { "bombfaces.ply",
    PLY_HEAD "element vertex 3\n" PLY_XYZ "element face 4000000000\n" PLY_LIST "0 0 0\n",
    "import/count" },
  { "cut.ply", PLY_HEAD "element vertex 3\n" PLY_XYZ "element face", "import/damaged" },
  /* A star of nine points drawn in one line, every fourth of them: no set of triangles has its
   * shape, and too many lie between its corners. */
  { "star.obj",
    "v 10 0 0\nv 2 9 0\nv -9 3 0\nv -5 -8 0\nv 7 -6 0\nv 8 6 0\nv -4 9 0\nv -9 -4 0\n"
    "v 1 -10 0\nf 1 3 5 7 9 2 4 6 8\n",
    "import/polygon" },
  { "star.off",
    "OFF\n9 1 0\n10 0 0\n2 9 0\n-9 3 0\n-5 -8 0\n7 -6 0\n8 6 0\n-4 9 0\n-9 -4 0\n1 -10 0\n"
    "9 0 2 4 6 8 1 3 5 7\n",
    "import/polygon" },
  /* A facet that the import library leaves out without a word. */
  { "lost.stl",
    "solid a\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 1 0 0\nvertex 1 1 0\nendloop\n"
    "endfacet\nFACET normal 0 0 1\nouter loop\nvertex 0 0 5\nvertex 1 0 5\nvertex 1 1 5\nendloop\n"
    "endfacet\nendsolid a\n",
    "import/faces-lost" },
  /* The same with the line ends of an old system. */
  { "lost-too.stl",
    "solid a\rfacet normal 0 0 1\router loop\rvertex 0 0 0\rvertex 1 0 0\rvertex 1 1 0\rendloop\r"
    "endfacet\rFACET normal 0 0 1\router loop\rvertex 0 0 5\rvertex 1 0 5\rvertex 1 1 5\rendloop\r"
    "endfacet\rendsolid a\r",
    "import/faces-lost" },
};

const guint n_bad_files = G_N_ELEMENTS (bad_files);
