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
  TRN_FORMAT_DAE,
  TRN_FORMAT_3DS,
  TRN_FORMAT_DXF,
  TRN_FORMAT_FBX,
  TRN_FORMAT_AMF,
  TRN_FORMAT_IFC,
  TRN_FORMAT_3MF,
  TRN_FORMAT_OFF,
} TrnFormat;

/* Read, but tried on too few files to be relied upon. */
static inline gboolean
trn_format_is_experimental (TrnFormat format)
{
  return format == TRN_FORMAT_IFC || format == TRN_FORMAT_3MF || format == TRN_FORMAT_OFF;
}

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
  static const char *const names[] = { "",    "obj", "stl", "ply", "gltf", "glb", "dae",
                                       "3ds", "dxf", "fbx", "amf", "ifc",  "3mf", "off" };
  const char *extension = trn_format_extension_get (path);
  for (guint i = TRN_FORMAT_OBJ; i < G_N_ELEMENTS (names); i++)
    if (g_ascii_strcasecmp (extension, names[i]) == 0)
      return (TrnFormat)i;
  return TRN_FORMAT_UNKNOWN;
}
