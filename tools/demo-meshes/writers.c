/* writers.c: GLB, OBJ, STL and PLY. Sources: the Khronos glTF 2.0 specification (GLB container,
 * accessors), the Wavefront OBJ text format, and the customary binary STL and PLY layouts. */
#include "writers.h"

#include <math.h>
#include <string.h>

static void
put_u32 (GByteArray *out, guint32 value)
{
  guint32 bits = GUINT32_TO_LE (value);
  g_byte_array_append (out, (const guint8 *)&bits, 4);
}

static void
put_u16 (GByteArray *out, guint16 value)
{
  guint16 bits = GUINT16_TO_LE (value);
  g_byte_array_append (out, (const guint8 *)&bits, 2);
}

static void
put_float (GByteArray *out, double value)
{
  float single = (float)value;
  guint32 bits;
  memcpy (&bits, &single, 4);
  put_u32 (out, bits);
}

static void
put_text (GByteArray *out, const char *text)
{
  g_byte_array_append (out, (const guint8 *)text, strlen (text));
}

/* Hundredths of a millimetre; adding 0 turns −0 into 0. */
static double
rounded (double metres)
{
  return round (metres * 1e5) / 1e5 + 0.0;
}

static DmPoint
rounded_point (const DmMesh *mesh, guint index)
{
  DmPoint point = g_array_index (mesh->points, DmPoint, index);
  return (DmPoint){ rounded (point.x), rounded (point.y), rounded (point.z) };
}

static guint32
corner (const DmMesh *mesh, guint index)
{
  return g_array_index (mesh->corners, guint32, index);
}

/* Where part @i ends: its last point and corner plus one. */
static DmPart
part_end (const DmMesh *mesh, guint i)
{
  if (i + 1 < mesh->parts->len)
    return g_array_index (mesh->parts, DmPart, i + 1);
  return (DmPart){ "", mesh->points->len, mesh->corners->len };
}

static void
pad (GByteArray *out, guint8 with)
{
  while (out->len % 4 != 0)
    g_byte_array_append (out, &with, 1);
}

static void
append_number (GString *text, double value)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];
  g_string_append (text, g_ascii_formatd (buffer, sizeof buffer, "%.9g", (float)value));
}

/* What glTF needs to know of one part. */
typedef struct
{
  GString *views, *accessors, *meshes, *nodes, *scene;
  GByteArray *binary;
} GlbText;

static void
append_view (GlbText *text, guint start, guint target)
{
  g_string_append_printf (text->views,
                          "%s{\"buffer\":0,\"byteOffset\":%u,\"byteLength\":%u,\"target\":%u}",
                          text->views->len ? "," : "", start, text->binary->len - start, target);
}

/* The positions of a part, Y up, and their accessor with its bounds. */
static void
append_positions (GlbText *text, const DmMesh *mesh, const DmPart *part, const DmPart *end,
                  guint view)
{
  double low[3] = { INFINITY, INFINITY, INFINITY }, high[3] = { -INFINITY, -INFINITY, -INFINITY };
  guint start = text->binary->len;
  for (guint i = part->first_point; i < end->first_point; i++)
    {
      DmPoint p = rounded_point (mesh, i);
      const double file[3] = { p.x, p.z, 0.0 - p.y };
      for (int k = 0; k < 3; k++)
        {
          put_float (text->binary, file[k]);
          low[k] = fmin (low[k], file[k]);
          high[k] = fmax (high[k], file[k]);
        }
    }
  append_view (text, start, 34962);
  g_string_append_printf (text->accessors,
                          "%s{\"bufferView\":%u,\"componentType\":5126,\"count\":%u,"
                          "\"type\":\"VEC3\",\"min\":[",
                          text->accessors->len ? "," : "", view,
                          end->first_point - part->first_point);
  for (int k = 0; k < 6; k++)
    {
      append_number (text->accessors, k < 3 ? low[k] : high[k - 3]);
      g_string_append (text->accessors, k == 2 ? "],\"max\":[" : k < 5 ? "," : "]}");
    }
}

static void
append_indices (GlbText *text, const DmMesh *mesh, const DmPart *part, const DmPart *end,
                guint view)
{
  gboolean small = end->first_point - part->first_point < 65535;
  guint start = text->binary->len;
  for (guint i = part->first_corner; i < end->first_corner; i++)
    {
      guint32 index = corner (mesh, i) - part->first_point;
      if (small)
        put_u16 (text->binary, (guint16)index);
      else
        put_u32 (text->binary, index);
    }
  append_view (text, start, 34963);
  pad (text->binary, 0);
  g_string_append_printf (
      text->accessors, ",{\"bufferView\":%u,\"componentType\":%u,\"count\":%u,\"type\":\"SCALAR\"}",
      view, small ? 5123 : 5125, end->first_corner - part->first_corner);
}

static void
append_part (GlbText *text, const DmMesh *mesh, guint i)
{
  DmPart part = g_array_index (mesh->parts, DmPart, i), end = part_end (mesh, i);
  append_positions (text, mesh, &part, &end, 2 * i);
  append_indices (text, mesh, &part, &end, 2 * i + 1);
  g_string_append_printf (
      text->meshes,
      "%s{\"name\":\"%s\",\"primitives\":[{\"attributes\":{\"POSITION\":%u},\"indices\":%u}]}",
      i ? "," : "", part.name, 2 * i, 2 * i + 1);
  g_string_append_printf (text->nodes, "%s{\"name\":\"%s\",\"mesh\":%u}", i ? "," : "", part.name,
                          i);
  g_string_append_printf (text->scene, "%s%u", i ? "," : "", i);
}

GByteArray *
dm_write_glb (const DmMesh *mesh)
{
  g_autoptr (GString) views = g_string_new ("");
  g_autoptr (GString) accessors = g_string_new ("");
  g_autoptr (GString) meshes = g_string_new ("");
  g_autoptr (GString) nodes = g_string_new ("");
  g_autoptr (GString) scene = g_string_new ("");
  g_autoptr (GByteArray) binary = g_byte_array_new ();
  GlbText text = { views, accessors, meshes, nodes, scene, binary };
  for (guint i = 0; i < mesh->parts->len; i++)
    append_part (&text, mesh, i);

  g_autoptr (GByteArray) json = g_byte_array_new ();
  g_autofree char *whole = g_strdup_printf (
      "{\"asset\":{\"version\":\"2.0\",\"generator\":\"demo-meshes\"},\"scene\":0,"
      "\"scenes\":[{\"nodes\":[%s]}],\"nodes\":[%s],\"meshes\":[%s],\"accessors\":[%s],"
      "\"bufferViews\":[%s],\"buffers\":[{\"byteLength\":%u}]}",
      scene->str, nodes->str, meshes->str, accessors->str, views->str, binary->len);
  put_text (json, whole);
  pad (json, ' ');

  GByteArray *out = g_byte_array_new ();
  put_text (out, "glTF");
  put_u32 (out, 2);
  put_u32 (out, 12 + 8 + json->len + 8 + binary->len);
  put_u32 (out, json->len);
  put_text (out, "JSON");
  g_byte_array_append (out, json->data, json->len);
  put_u32 (out, binary->len);
  g_byte_array_append (out, (const guint8 *)"BIN", 4);
  g_byte_array_append (out, binary->data, binary->len);
  return out;
}

GByteArray *
dm_write_obj (const DmMesh *mesh)
{
  GByteArray *out = g_byte_array_new ();
  g_autoptr (GString) text = g_string_new ("# metres, Z up; made by demo-meshes\n");
  for (guint i = 0; i < mesh->parts->len; i++)
    {
      DmPart part = g_array_index (mesh->parts, DmPart, i), end = part_end (mesh, i);
      g_string_append_printf (text, "o %s\n", part.name);
      for (guint k = part.first_point; k < end.first_point; k++)
        {
          DmPoint p = rounded_point (mesh, k);
          g_string_append (text, "v ");
          append_number (text, p.x);
          g_string_append_c (text, ' ');
          append_number (text, p.y);
          g_string_append_c (text, ' ');
          append_number (text, p.z);
          g_string_append_c (text, '\n');
        }
      for (guint k = part.first_corner; k < end.first_corner; k += 3)
        g_string_append_printf (text, "f %u %u %u\n", corner (mesh, k) + 1,
                                corner (mesh, k + 1) + 1, corner (mesh, k + 2) + 1);
    }
  put_text (out, text->str);
  return out;
}

GByteArray *
dm_write_stl (const DmMesh *mesh)
{
  GByteArray *out = g_byte_array_new ();
  char header[80] = "millimetres, Z up; made by demo-meshes";
  g_byte_array_append (out, (const guint8 *)header, sizeof header);
  put_u32 (out, mesh->corners->len / 3);
  for (guint i = 0; i < mesh->corners->len; i += 3)
    {
      DmPoint p[3];
      for (int k = 0; k < 3; k++)
        p[k] = rounded_point (mesh, corner (mesh, i + k));
      double ax = p[1].x - p[0].x, ay = p[1].y - p[0].y, az = p[1].z - p[0].z;
      double bx = p[2].x - p[0].x, by = p[2].y - p[0].y, bz = p[2].z - p[0].z;
      double nx = ay * bz - az * by, ny = az * bx - ax * bz, nz = ax * by - ay * bx;
      double length = sqrt (nx * nx + ny * ny + nz * nz);
      put_float (out, nx / length);
      put_float (out, ny / length);
      put_float (out, nz / length);
      for (int k = 0; k < 3; k++)
        {
          put_float (out, p[k].x * 1000);
          put_float (out, p[k].y * 1000);
          put_float (out, p[k].z * 1000);
        }
      put_u16 (out, 0);
    }
  return out;
}

GByteArray *
dm_write_ply (const DmMesh *mesh)
{
  GByteArray *out = g_byte_array_new ();
  g_autofree char *header = g_strdup_printf (
      "ply\nformat binary_little_endian 1.0\ncomment metres, Z up; made by demo-meshes\n"
      "element vertex %u\nproperty float x\nproperty float y\nproperty float z\n"
      "element face %u\nproperty list uchar int vertex_indices\nend_header\n",
      mesh->points->len, mesh->corners->len / 3);
  put_text (out, header);
  for (guint i = 0; i < mesh->points->len; i++)
    {
      DmPoint p = rounded_point (mesh, i);
      put_float (out, p.x);
      put_float (out, p.y);
      put_float (out, p.z);
    }
  for (guint i = 0; i < mesh->corners->len; i += 3)
    {
      const guint8 three = 3;
      g_byte_array_append (out, &three, 1);
      for (int k = 0; k < 3; k++)
        put_u32 (out, corner (mesh, i + k));
    }
  return out;
}
