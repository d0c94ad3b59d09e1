#include "body.h"

#include <gio/gio.h>
#include <string.h>

const guint16 body_triangles[12][3]
    = { { 0, 2, 1 }, { 1, 2, 3 }, { 4, 5, 6 }, { 5, 7, 6 }, { 0, 1, 4 }, { 1, 5, 4 },
        { 2, 6, 3 }, { 3, 6, 7 }, { 0, 4, 2 }, { 2, 4, 6 }, { 1, 3, 5 }, { 3, 7, 5 } };

void
body_corner (guint i, double scale, double corner[3])
{
  corner[0] = i & 1 ? BODY_X * scale : 0;
  corner[1] = i & 2 ? BODY_Y * scale : 0;
  corner[2] = i & 4 ? BODY_Z * scale : 0;
}

static void
append_number (GString *out, double value)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];
  g_string_append (out, g_ascii_dtostr (buffer, sizeof buffer, value));
}

char *
body_corners_text (double scale, const char *between, const char *after)
{
  GString *out = g_string_new (NULL);
  for (guint i = 0; i < 8; i++)
    {
      double corner[3];
      body_corner (i, scale, corner);
      for (int k = 0; k < 3; k++)
        {
          append_number (out, corner[k]);
          g_string_append (out, k < 2 ? between : after);
        }
    }
  return g_string_free (out, FALSE);
}

char *
body_indices_text (const char *between, const char *after)
{
  GString *out = g_string_new (NULL);
  for (guint t = 0; t < 12; t++)
    for (int k = 0; k < 3; k++)
      g_string_append_printf (out, "%u%s", body_triangles[t][k], k < 2 ? between : after);
  return g_string_free (out, FALSE);
}

char *
body_dae (const char *asset, const char *scene_nodes, double scale)
{
  g_autofree char *corners = body_corners_text (scale, " ", " ");
  g_autofree char *indices = body_indices_text (" ", " ");
  return g_strdup_printf (
      "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n"
      "<COLLADA xmlns=\"http://www.collada.org/2005/11/COLLADASchema\" version=\"1.4.1\">"
      "<asset>%s</asset><library_geometries><geometry id=\"body\"><mesh><source id=\"points\">"
      "<float_array id=\"numbers\" count=\"24\">%s</float_array><technique_common>"
      "<accessor source=\"#numbers\" count=\"8\" stride=\"3\"><param name=\"X\" type=\"float\"/>"
      "<param name=\"Y\" type=\"float\"/><param name=\"Z\" type=\"float\"/></accessor>"
      "</technique_common></source><vertices id=\"corners\"><input semantic=\"POSITION\""
      " source=\"#points\"/></vertices><triangles count=\"12\"><input semantic=\"VERTEX\""
      " source=\"#corners\" offset=\"0\"/><p>%s</p></triangles></mesh></geometry>"
      "</library_geometries><library_visual_scenes><visual_scene id=\"all\">%s</visual_scene>"
      "</library_visual_scenes><scene><instance_visual_scene url=\"#all\"/></scene></COLLADA>",
      asset, corners, indices, scene_nodes);
}

char *
body_fbx (const char *settings, const char *model_properties, double scale)
{
  g_autofree char *corners = body_corners_text (scale, ",", ",");
  corners[strlen (corners) - 1] = '\0';
  GString *indices = g_string_new (NULL);
  for (guint t = 0; t < 12; t++)
    g_string_append_printf (indices, "%s%u,%u,-%u", t > 0 ? "," : "", body_triangles[t][0],
                            body_triangles[t][1], body_triangles[t][2] + 1u);
  char *text = g_strdup_printf (
      "; FBX 7.4.0 project file\nFBXHeaderExtension:  {\n\tFBXHeaderVersion: 1003\n"
      "\tFBXVersion: 7400\n}\nGlobalSettings:  {\n\tVersion: 1000\n\tProperties70:  {\n%s\t}\n}\n"
      "Objects:  {\n\tGeometry: 1001, \"Geometry::\", \"Mesh\" {\n"
      "\t\tVertices: *24 {\n\t\t\ta: %s\n\t\t}\n"
      "\t\tPolygonVertexIndex: *36 {\n\t\t\ta: %s\n\t\t}\n\t\tGeometryVersion: 124\n\t}\n"
      "\tModel: 1002, \"Model::body\", \"Mesh\" {\n\t\tVersion: 232\n\t\tProperties70:  {\n%s"
      "\t\t}\n\t}\n}\nConnections:  {\n\tC: \"OO\",1002,0\n\tC: \"OO\",1001,1002\n}\n",
      settings, corners, indices->str, model_properties);
  g_string_free (indices, TRUE);
  return text;
}

char *
body_amf (const char *unit, const char *objects, double scale)
{
  GString *out = g_string_new ("<?xml version=\"1.0\"?>\n");
  g_string_append_printf (out,
                          "<amf%s><object id=\"1\"><metadata type=\"name\">a &amp; b</metadata>"
                          "<mesh><vertices>",
                          unit);
  for (guint i = 0; i < 8; i++)
    {
      double corner[3];
      body_corner (i, scale, corner);
      g_string_append (out, "<vertex><coordinates>");
      for (int k = 0; k < 3; k++)
        {
          g_string_append_printf (out, "<%c>", 'x' + k);
          append_number (out, corner[k]);
          g_string_append_printf (out, "</%c>", 'x' + k);
        }
      g_string_append (out, "</coordinates></vertex>");
    }
  g_string_append (out, "</vertices><volume>");
  for (guint t = 0; t < 12; t++)
    g_string_append_printf (out, "<triangle><v1>%u</v1><v2>%u</v2><v3>%u</v3></triangle>",
                            body_triangles[t][0], body_triangles[t][1], body_triangles[t][2]);
  g_string_append_printf (out, "</volume></mesh></object>%s</amf>", objects);
  return g_string_free (out, FALSE);
}

char *
body_dxf_faces (const char *layer, double scale)
{
  GString *out = g_string_new (NULL);
  for (guint t = 0; t < 12; t++)
    {
      g_string_append_printf (out, "  0\n3DFACE\n  8\n%s\n", layer);
      for (int i = 0; i < 4; i++)
        {
          double corner[3];
          body_corner (body_triangles[t][MIN (i, 2)], scale, corner);
          for (int k = 0; k < 3; k++)
            {
              g_string_append_printf (out, " %d%d\n", k + 1, i);
              append_number (out, corner[k]);
              g_string_append_c (out, '\n');
            }
        }
    }
  return g_string_free (out, FALSE);
}

char *
body_dxf (const char *header, const char *blocks, const char *entities)
{
  return g_strdup_printf ("999\nmade for a test\n  0\nSECTION\n  2\nHEADER\n%s  0\nENDSEC\n"
                          "  0\nSECTION\n  2\nBLOCKS\n%s  0\nENDSEC\n"
                          "  0\nSECTION\n  2\nENTITIES\n%s  0\nENDSEC\n  0\nEOF\n",
                          header, blocks, entities);
}

static void
append_u16 (GByteArray *out, guint value)
{
  guint8 bytes[2] = { (guint8)value, (guint8)(value >> 8) };
  g_byte_array_append (out, bytes, 2);
}

static void
append_u32 (GByteArray *out, guint32 value)
{
  append_u16 (out, value & 0xffff);
  append_u16 (out, value >> 16);
}

GByteArray *
body_3ds_chunk (guint16 number, const void *bytes, gsize length)
{
  GByteArray *out = g_byte_array_new ();
  append_u16 (out, number);
  append_u32 (out, (guint32)(6 + length));
  g_byte_array_append (out, bytes, (guint)length);
  return out;
}

static void
append_chunk (GByteArray *into, guint16 number, const GByteArray *inside)
{
  g_autoptr (GByteArray) chunk = body_3ds_chunk (number, inside->data, inside->len);
  g_byte_array_append (into, chunk->data, chunk->len);
}

GByteArray *
body_3ds (const char *name, double scale, const GByteArray *editor_front,
          const GByteArray *main_front)
{
  g_autoptr (GByteArray) vertices = g_byte_array_new ();
  g_autoptr (GByteArray) faces = g_byte_array_new ();
  g_autoptr (GByteArray) mesh = g_byte_array_new ();
  g_autoptr (GByteArray) object = g_byte_array_new ();
  g_autoptr (GByteArray) editor = g_byte_array_new ();
  g_autoptr (GByteArray) inside = g_byte_array_new ();
  append_u16 (vertices, 8);
  for (guint i = 0; i < 8; i++)
    {
      double corner[3];
      body_corner (i, scale, corner);
      for (int k = 0; k < 3; k++)
        {
          float value = (float)corner[k];
          guint32 bits;
          memcpy (&bits, &value, sizeof bits);
          append_u32 (vertices, bits);
        }
    }
  append_u16 (faces, 12);
  for (guint t = 0; t < 12; t++)
    {
      for (int k = 0; k < 3; k++)
        append_u16 (faces, body_triangles[t][k]);
      append_u16 (faces, 7);
    }
  append_chunk (mesh, 0x4110, vertices);
  append_chunk (mesh, 0x4120, faces);
  g_byte_array_append (object, (const guint8 *)name, (guint)strlen (name) + 1);
  append_chunk (object, 0x4100, mesh);
  if (editor_front != NULL)
    g_byte_array_append (editor, editor_front->data, editor_front->len);
  append_chunk (editor, 0x4000, object);
  if (main_front != NULL)
    g_byte_array_append (inside, main_front->data, main_front->len);
  append_chunk (inside, 0x3d3d, editor);
  return body_3ds_chunk (0x4d4d, inside->data, inside->len);
}

/* The rectangle in X and Y, pushed along Z. Its profile lies around its centre. */
char *
body_ifc (const char *prefix, double scale)
{
  char x[G_ASCII_DTOSTR_BUF_SIZE], y[G_ASCII_DTOSTR_BUF_SIZE], z[G_ASCII_DTOSTR_BUF_SIZE];
  char half_x[G_ASCII_DTOSTR_BUF_SIZE], half_y[G_ASCII_DTOSTR_BUF_SIZE];
  g_ascii_formatd (x, sizeof x, "%.6f", BODY_X * scale);
  g_ascii_formatd (y, sizeof y, "%.6f", BODY_Y * scale);
  g_ascii_formatd (z, sizeof z, "%.6f", BODY_Z * scale);
  g_ascii_formatd (half_x, sizeof half_x, "%.6f", BODY_X * scale / 2);
  g_ascii_formatd (half_y, sizeof half_y, "%.6f", BODY_Y * scale / 2);
  return g_strdup_printf (
      "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION((''),'2;1');\n"
      "FILE_NAME('','',(''),(''),'','','');\nFILE_SCHEMA(('IFC2X3'));\nENDSEC;\nDATA;\n"
      "#1=IFCPERSON($,$,'a',$,$,$,$,$);\n#2=IFCORGANIZATION($,'a',$,$,$);\n"
      "#3=IFCPERSONANDORGANIZATION(#1,#2,$);\n#4=IFCAPPLICATION(#2,'1','a','a');\n"
      "#5=IFCOWNERHISTORY(#3,#4,$,.ADDED.,$,$,$,0);\n"
      "#6=IFCSIUNIT(*,.LENGTHUNIT.,%s,.METRE.);\n#7=IFCUNITASSIGNMENT((#6));\n"
      "#10=IFCCARTESIANPOINT((0.,0.,0.));\n#11=IFCAXIS2PLACEMENT3D(#10,$,$);\n"
      "#12=IFCGEOMETRICREPRESENTATIONCONTEXT($,'Model',3,1.E-05,#11,$);\n"
      "#13=IFCPROJECT('0aaaaaaaaaaaaaaaaaaaa1',#5,'a',$,$,$,$,(#12),#7);\n"
      "#14=IFCLOCALPLACEMENT($,#11);\n"
      "#15=IFCSITE('0aaaaaaaaaaaaaaaaaaaa2',#5,'site',$,$,#14,$,$,.ELEMENT.,$,$,$,$,$);\n"
      "#16=IFCRELAGGREGATES('0aaaaaaaaaaaaaaaaaaaa3',#5,$,$,#13,(#15));\n"
      "#20=IFCCARTESIANPOINT((%s,%s));\n#21=IFCAXIS2PLACEMENT2D(#20,$);\n"
      "#22=IFCRECTANGLEPROFILEDEF(.AREA.,$,#21,%s,%s);\n#23=IFCDIRECTION((0.,0.,1.));\n"
      "#24=IFCEXTRUDEDAREASOLID(#22,#11,#23,%s);\n"
      "#25=IFCSHAPEREPRESENTATION(#12,'Body','SweptSolid',(#24));\n"
      "#26=IFCPRODUCTDEFINITIONSHAPE($,$,(#25));\n#27=IFCLOCALPLACEMENT(#14,#11);\n"
      "#28=IFCBUILDINGELEMENTPROXY('0aaaaaaaaaaaaaaaaaaaa4',#5,'block',$,$,#27,#26,$,$);\n"
      "#29=IFCRELCONTAINEDINSPATIALSTRUCTURE('0aaaaaaaaaaaaaaaaaaaa5',#5,$,$,(#28),#15);\n"
      "ENDSEC;\nEND-ISO-10303-21;\n",
      prefix, half_x, half_y, x, y, z);
}

char *
body_3mf_model (const char *attributes, const char *objects, const char *build, double scale)
{
  GString *out = g_string_new ("<?xml version=\"1.0\"?>");
  g_string_append_printf (
      out,
      "<model%s xmlns=\"http://schemas.microsoft.com/3dmanufacturing/core/2015/02\"><resources>"
      "<object id=\"1\" name=\"body\" type=\"model\"><mesh><vertices>",
      attributes);
  for (guint i = 0; i < 8; i++)
    {
      double corner[3];
      body_corner (i, scale, corner);
      g_string_append (out, "<vertex");
      for (int k = 0; k < 3; k++)
        {
          g_string_append_printf (out, " %c=\"", 'x' + k);
          append_number (out, corner[k]);
          g_string_append_c (out, '"');
        }
      g_string_append (out, "/>");
    }
  g_string_append (out, "</vertices><triangles>");
  for (guint t = 0; t < 12; t++)
    g_string_append_printf (out, "<triangle v1=\"%u\" v2=\"%u\" v3=\"%u\"/>", body_triangles[t][0],
                            body_triangles[t][1], body_triangles[t][2]);
  g_string_append_printf (
      out, "</triangles></mesh></object>%s</resources><build>%s</build></model>", objects, build);
  return g_string_free (out, FALSE);
}

/* ---- ZIP ---- */

static guint32
crc32_of (const guint8 *bytes, gsize n)
{
  guint32 crc = 0xffffffff;
  for (gsize i = 0; i < n; i++)
    {
      crc ^= bytes[i];
      for (int k = 0; k < 8; k++)
        crc = crc >> 1 ^ (0xedb88320u & -(crc & 1));
    }
  return ~crc;
}

static GByteArray *
deflate (const char *text, gsize length)
{
  g_autoptr (GZlibCompressor) zlib = g_zlib_compressor_new (G_ZLIB_COMPRESSOR_FORMAT_RAW, 9);
  GByteArray *out = g_byte_array_sized_new ((guint)length + 1024);
  g_byte_array_set_size (out, (guint)length + 1024);
  gsize read, written;
  GConverterResult result
      = g_converter_convert (G_CONVERTER (zlib), text, length, out->data, out->len,
                             G_CONVERTER_INPUT_AT_END, &read, &written, NULL);
  g_assert_cmpint (result, ==, G_CONVERTER_FINISHED);
  g_byte_array_set_size (out, (guint)written);
  return out;
}

/* What both heads of a file have in common. */
static void
append_file_head (GByteArray *out, gboolean packed, guint32 crc, gsize packed_n, gsize n,
                  gsize name_n)
{
  append_u16 (out, 20);
  append_u16 (out, 0);
  append_u16 (out, packed ? 8 : 0);
  append_u32 (out, 0);
  append_u32 (out, crc);
  append_u32 (out, (guint32)packed_n);
  append_u32 (out, (guint32)n);
  append_u16 (out, (guint)name_n);
  append_u16 (out, 0);
}

GByteArray *
body_zip (const char *const files[], gboolean packed)
{
  GByteArray *out = g_byte_array_new ();
  g_autoptr (GByteArray) directory = g_byte_array_new ();
  guint count = 0;
  for (guint i = 0; files[i] != NULL; i += 2, count++)
    {
      const char *name = files[i], *text = files[i + 1];
      gsize n = strlen (text), name_n = strlen (name);
      guint32 crc = crc32_of ((const guint8 *)text, n), local = out->len;
      g_autoptr (GByteArray) data = packed ? deflate (text, n) : g_byte_array_new ();
      if (!packed)
        g_byte_array_append (data, (const guint8 *)text, (guint)n);
      append_u32 (out, 0x04034b50);
      append_file_head (out, packed, crc, data->len, n, name_n);
      g_byte_array_append (out, (const guint8 *)name, (guint)name_n);
      g_byte_array_append (out, data->data, data->len);
      append_u32 (directory, 0x02014b50);
      append_u16 (directory, 20);
      append_file_head (directory, packed, crc, data->len, n, name_n);
      append_u16 (directory, 0);
      append_u16 (directory, 0);
      append_u16 (directory, 0);
      append_u32 (directory, 0);
      append_u32 (directory, local);
      g_byte_array_append (directory, (const guint8 *)name, (guint)name_n);
    }
  guint32 at = out->len;
  g_byte_array_append (out, directory->data, directory->len);
  append_u32 (out, 0x06054b50);
  append_u32 (out, 0);
  append_u16 (out, count);
  append_u16 (out, count);
  append_u32 (out, directory->len);
  append_u32 (out, at);
  append_u16 (out, 0);
  return out;
}

GByteArray *
body_3mf (const char *model)
{
  const char *const files[] = {
    "_rels/.rels",
    "<?xml version=\"1.0\"?><Relationships "
    "xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">"
    "<Relationship Target=\"/3D/thumbnail.png\" Id=\"r0\" Type=\"thumbnail\"/>"
    "<Relationship Target=\"/3D/3dmodel.model\" Id=\"r1\" "
    "Type=\"http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel\"/></Relationships>",
    "3D/3dmodel.model",
    model,
    NULL,
  };
  return body_zip (files, TRUE);
}
