/* formats.h: the mesh files that are read, known by the end of their name. */
#pragma once

#include <glib.h>
#include <string.h>

typedef enum
{
  TRN_FORMAT_UNKNOWN,
  TRN_FORMAT_OBJ,
  TRN_FORMAT_STL,
  TRN_FORMAT_PLY,
  TRN_FORMAT_GLTF,
  TRN_FORMAT_GLB,
} TrnFormat;

/* What follows the last dot of the file's name, borrowed; "" where there is none. */
static inline const char *
trn_format_extension_get (const char *path)
{
  const char *slash = strrchr (path, '/');
  const char *dot = strrchr (slash != NULL ? slash : path, '.');
  return dot != NULL ? dot + 1 : "";
}

static inline TrnFormat
trn_format_from_path (const char *path)
{
  static const char *const names[] = { "", "obj", "stl", "ply", "gltf", "glb" };
  const char *extension = trn_format_extension_get (path);
  for (guint i = TRN_FORMAT_OBJ; i < G_N_ELEMENTS (names); i++)
    if (g_ascii_strcasecmp (extension, names[i]) == 0)
      return (TrnFormat)i;
  return TRN_FORMAT_UNKNOWN;
}
