/* bad-files.h: files that are no mesh, for the tests of the import and for those of the program. */
#pragma once

#include <glib.h>

/* A file, and the code of the one error that it must give. */
typedef struct
{
  const char *name, *text, *code;
} BadFile;

extern const BadFile bad_files[];
extern const guint n_bad_files;

/* Pieces of a PLY file in text. */
#define PLY_HEAD "ply\nformat ascii 1.0\n"
#define PLY_XYZ "property float x\nproperty float y\nproperty float z\n"
#define PLY_LIST "property list uchar int vertex_indices\nend_header\n"
