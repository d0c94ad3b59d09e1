/* bench-import: mesh files of a million triangles, written here and read as the program reads them.
 *
 *   bench-import [FORMAT…]
 *
 * A line for each format: bytes of the file, processor time of the helper and of this program,
 * wall-clock time, and the most memory that either held. The body is a wavy sheet of squares, so
 * that neighbours share corners. Wanted: under 4 s and 1 GB, by the processor, as other programs
 * may run beside. Nothing is asserted. */
#include "import.h"

#include <glib/gstdio.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#define SIDE 708 /* squares: 1,002,528 triangles */
#define POINTS ((SIDE + 1) * (SIDE + 1))

static void
point_at (guint i, double p[3])
{
  double x = i % (SIDE + 1), y = i / (SIDE + 1);
  p[0] = 0.013 * x;
  p[1] = 0.017 * y;
  p[2] = 0.4 * sin (0.05 * x) * cos (0.03 * y);
}

/* Triangle @t of square @square. */
static void
corners_of (guint square, guint t, guint32 c[3])
{
  guint32 a = square / SIDE * (SIDE + 1) + square % SIDE, up = a + SIDE + 1;
  guint32 first[3] = { a, a + 1, up + 1 }, second[3] = { a, up + 1, up };
  memcpy (c, t == 0 ? first : second, 3 * sizeof *c);
}

static void
put (FILE *out, const void *bytes, gsize n)
{
  g_assert (fwrite (bytes, 1, n, out) == n);
}

static void
put_floats (FILE *out, const double p[3])
{
  float f[3] = { (float)p[0], (float)p[1], (float)p[2] };
  put (out, f, sizeof f);
}

typedef void (*TriangleFunc) (FILE *out, guint n, const guint32 c[3]);

static void
each_triangle (FILE *out, TriangleFunc write)
{
  guint n = 0;
  for (guint square = 0; square < SIDE * SIDE; square++)
    for (guint t = 0; t < 2; t++)
      {
        guint32 c[3];
        corners_of (square, t, c);
        write (out, n++, c);
      }
}

static void
each_point (FILE *out, const char *format)
{
  for (guint i = 0; i < POINTS; i++)
    {
      double p[3];
      point_at (i, p);
      fprintf (out, format, p[0], p[1], p[2]);
    }
}

static void
obj_triangle (FILE *out, guint n, const guint32 c[3])
{
  fprintf (out, "f %u %u %u\n", c[0] + 1, c[1] + 1, c[2] + 1);
}

static void
write_obj (FILE *out)
{
  fputs ("o sheet\n", out);
  each_point (out, "v %.6f %.6f %.6f\n");
  each_triangle (out, obj_triangle);
}

static void
stl_triangle (FILE *out, guint n, const guint32 c[3])
{
  double p[3], zero[3] = { 0, 0, 0 };
  guint16 attribute = 0;
  put_floats (out, zero);
  for (int i = 0; i < 3; i++)
    {
      point_at (c[i], p);
      put_floats (out, p);
    }
  put (out, &attribute, 2);
}

static void
write_stl (FILE *out)
{
  char head[80] = "made for a measurement";
  guint32 n = 2 * SIDE * SIDE;
  put (out, head, sizeof head);
  put (out, &n, 4);
  each_triangle (out, stl_triangle);
}

static void
stl_text_triangle (FILE *out, guint n, const guint32 c[3])
{
  fputs ("facet normal 0 0 1\nouter loop\n", out);
  for (int i = 0; i < 3; i++)
    {
      double p[3];
      point_at (c[i], p);
      fprintf (out, "vertex %.6e %.6e %.6e\n", p[0], p[1], p[2]);
    }
  fputs ("endloop\nendfacet\n", out);
}

static void
write_stl_text (FILE *out)
{
  fputs ("solid sheet\n", out);
  each_triangle (out, stl_text_triangle);
  fputs ("endsolid sheet\n", out);
}

static void
ply_triangle (FILE *out, guint n, const guint32 c[3])
{
  guint8 corners = 3;
  put (out, &corners, 1);
  put (out, c, 12);
}

static void
put_points (FILE *out)
{
  for (guint i = 0; i < POINTS; i++)
    {
      double p[3];
      point_at (i, p);
      put_floats (out, p);
    }
}

static void
write_ply (FILE *out)
{
  fprintf (out,
           "ply\nformat binary_little_endian 1.0\nelement vertex %d\nproperty float x\n"
           "property float y\nproperty float z\nelement face %d\n"
           "property list uchar int vertex_indices\nend_header\n",
           POINTS, 2 * SIDE * SIDE);
  put_points (out);
  each_triangle (out, ply_triangle);
}

static void
glb_triangle (FILE *out, guint n, const guint32 c[3])
{
  put (out, c, 12);
}

static void
write_glb (FILE *out)
{
  guint32 points = POINTS * 12u, indices = 2 * SIDE * SIDE * 12u;
  g_autoptr (GString) json = g_string_new (NULL);
  g_string_printf (
      json,
      "{\"asset\":{\"version\":\"2.0\"},\"scene\":0,\"scenes\":[{\"nodes\":[0]}],"
      "\"nodes\":[{\"mesh\":0}],\"buffers\":[{\"byteLength\":%u}],"
      "\"bufferViews\":[{\"buffer\":0,\"byteOffset\":0,\"byteLength\":%u},"
      "{\"buffer\":0,\"byteOffset\":%u,\"byteLength\":%u}],"
      "\"accessors\":[{\"bufferView\":0,\"componentType\":5126,\"count\":%u,\"type\":\"VEC3\"},"
      "{\"bufferView\":1,\"componentType\":5125,\"count\":%u,\"type\":\"SCALAR\"}],"
      "\"meshes\":[{\"primitives\":[{\"attributes\":{\"POSITION\":0},\"indices\":1}]}]}",
      points + indices, points, points, indices, (guint)POINTS, indices / 4);
  while (json->len % 4 != 0)
    g_string_append_c (json, ' ');
  guint32 head[5] = { 0x46546c67, 2, 28 + (guint32)json->len + points + indices, (guint32)json->len,
                      0x4e4f534a };
  guint32 bin[2] = { points + indices, 0x004e4942 };
  put (out, head, sizeof head);
  put (out, json->str, json->len);
  put (out, bin, sizeof bin);
  put_points (out);
  each_triangle (out, glb_triangle);
}

static void
dae_triangle (FILE *out, guint n, const guint32 c[3])
{
  fprintf (out, "%u %u %u ", c[0], c[1], c[2]);
}

static void
write_dae (FILE *out)
{
  fprintf (out,
           "<?xml version=\"1.0\"?><COLLADA xmlns=\"http://www.collada.org/2005/11/COLLADASchema\""
           " version=\"1.4.1\"><asset><unit name=\"meter\" meter=\"1\"/><up_axis>Z_UP</up_axis>"
           "</asset><library_geometries><geometry id=\"g\"><mesh><source id=\"p\">"
           "<float_array id=\"a\" count=\"%d\">",
           3 * POINTS);
  each_point (out, "%.6f %.6f %.6f ");
  fprintf (out,
           "</float_array><technique_common><accessor source=\"#a\" count=\"%d\" stride=\"3\">"
           "<param name=\"X\" type=\"float\"/><param name=\"Y\" type=\"float\"/>"
           "<param name=\"Z\" type=\"float\"/></accessor></technique_common></source>"
           "<vertices id=\"v\"><input semantic=\"POSITION\" source=\"#p\"/></vertices>"
           "<triangles count=\"%d\"><input semantic=\"VERTEX\" source=\"#v\" offset=\"0\"/><p>",
           POINTS, 2 * SIDE * SIDE);
  each_triangle (out, dae_triangle);
  fputs ("</p></triangles></mesh></geometry></library_geometries><library_visual_scenes>"
         "<visual_scene id=\"s\"><node id=\"n\"><instance_geometry url=\"#g\"/></node>"
         "</visual_scene></library_visual_scenes><scene><instance_visual_scene url=\"#s\"/></scene>"
         "</COLLADA>",
         out);
}

static void
put_chunk (FILE *out, guint16 number, guint32 length)
{
  put (out, &number, 2);
  put (out, &length, 4);
}

/* Strips of 40 rows each: a mesh has at most 65,535 points. */
static void
write_3ds (FILE *out)
{
  enum
  {
    ROWS = 40
  };
  guint strips = (SIDE + ROWS - 1) / ROWS;
  guint32 editor = 6;
  for (int pass = 0; pass < 2; pass++)
    {
      if (pass == 1)
        {
          put_chunk (out, 0x4d4d, editor + 6);
          put_chunk (out, 0x3d3d, editor);
        }
      for (guint s = 0; s < strips; s++)
        {
          guint first = s * ROWS, rows = MIN (ROWS, SIDE - first);
          guint16 points = (guint16)((rows + 1) * (SIDE + 1)), faces = (guint16)(2 * rows * SIDE);
          guint32 vertices = 8 + 12u * points, triangles = 8 + 8u * faces;
          guint32 object = 6 + 5 + 6 + vertices + triangles;
          editor += pass == 0 ? object : 0;
          if (pass == 0)
            continue;
          put_chunk (out, 0x4000, object);
          char name[6];
          g_snprintf (name, sizeof name, "s%03u", s);
          put (out, name, 5);
          put_chunk (out, 0x4100, 6 + vertices + triangles);
          put_chunk (out, 0x4110, vertices);
          put (out, &points, 2);
          for (guint i = 0; i < points; i++)
            {
              double p[3];
              point_at (first * (SIDE + 1) + i, p);
              put_floats (out, p);
            }
          put_chunk (out, 0x4120, triangles);
          put (out, &faces, 2);
          for (guint square = 0; square < rows * SIDE; square++)
            for (guint t = 0; t < 2; t++)
              {
                guint32 c[3];
                corners_of (square, t, c);
                guint16 face[4] = { (guint16)c[0], (guint16)c[1], (guint16)c[2], 7 };
                put (out, face, sizeof face);
              }
        }
    }
}

static void
dxf_triangle (FILE *out, guint n, const guint32 c[3])
{
  fputs ("  0\n3DFACE\n  8\nSHEET\n", out);
  for (int i = 0; i < 4; i++)
    {
      double p[3];
      point_at (c[MIN (i, 2)], p);
      fprintf (out, " 1%d\n%.6f\n 2%d\n%.6f\n 3%d\n%.6f\n", i, p[0], i, p[1], i, p[2]);
    }
}

static void
write_dxf (FILE *out)
{
  fputs ("  0\nSECTION\n  2\nENTITIES\n", out);
  each_triangle (out, dxf_triangle);
  fputs ("  0\nENDSEC\n  0\nEOF\n", out);
}

static void
amf_triangle (FILE *out, guint n, const guint32 c[3])
{
  fprintf (out, "<triangle><v1>%u</v1><v2>%u</v2><v3>%u</v3></triangle>\n", c[0], c[1], c[2]);
}

static void
write_amf (FILE *out)
{
  fputs ("<?xml version=\"1.0\"?><amf unit=\"meter\"><object id=\"1\"><mesh><vertices>\n", out);
  each_point (out,
              "<vertex><coordinates><x>%.6f</x><y>%.6f</y><z>%.6f</z></coordinates></vertex>\n");
  fputs ("</vertices><volume>\n", out);
  each_triangle (out, amf_triangle);
  fputs ("</volume></mesh></object></amf>\n", out);
}

static void
off_triangle (FILE *out, guint n, const guint32 c[3])
{
  fprintf (out, "3 %u %u %u\n", c[0], c[1], c[2]);
}

static void
write_off (FILE *out)
{
  fprintf (out, "OFF\n%d %d 0\n", POINTS, 2 * SIDE * SIDE);
  each_point (out, "%.6f %.6f %.6f\n");
  each_triangle (out, off_triangle);
}

/* Text, as version 7.4 has it. */
static void
fbx_triangle (FILE *out, guint n, const guint32 c[3])
{
  fprintf (out, "%s%u,%u,-%u", n > 0 ? "," : "", c[0], c[1], c[2] + 1);
}

static void
write_fbx (FILE *out)
{
  fprintf (
      out,
      "; FBX 7.4.0 project file\nFBXHeaderExtension:  {\n\tFBXHeaderVersion: 1003\n"
      "\tFBXVersion: 7400\n}\nGlobalSettings:  {\n\tVersion: 1000\n\tProperties70:  {\n"
      "\t\tP: \"UpAxis\", \"int\", \"Integer\", \"\",2\n"
      "\t\tP: \"UpAxisSign\", \"int\", \"Integer\", \"\",1\n"
      "\t\tP: \"FrontAxis\", \"int\", \"Integer\", \"\",1\n"
      "\t\tP: \"FrontAxisSign\", \"int\", \"Integer\", \"\",-1\n"
      "\t\tP: \"CoordAxis\", \"int\", \"Integer\", \"\",0\n"
      "\t\tP: \"CoordAxisSign\", \"int\", \"Integer\", \"\",1\n"
      "\t\tP: \"UnitScaleFactor\", \"double\", \"Number\", \"\",100\n\t}\n}\n"
      "Objects:  {\n\tGeometry: 1001, \"Geometry::\", \"Mesh\" {\n\t\tVertices: *%d {\n\t\t\ta: ",
      3 * POINTS);
  for (guint i = 0; i < POINTS; i++)
    {
      double p[3];
      point_at (i, p);
      fprintf (out, "%s%.6f,%.6f,%.6f", i > 0 ? "," : "", p[0], p[1], p[2]);
    }
  fprintf (out, "\n\t\t}\n\t\tPolygonVertexIndex: *%d {\n\t\t\ta: ", 6 * SIDE * SIDE);
  each_triangle (out, fbx_triangle);
  fputs ("\n\t\t}\n\t\tGeometryVersion: 124\n\t}\n"
         "\tModel: 1002, \"Model::sheet\", \"Mesh\" {\n\t\tVersion: 232\n\t}\n}\n"
         "Connections:  {\n\tC: \"OO\",1002,0\n\tC: \"OO\",1001,1002\n}\n",
         out);
}

static const struct
{
  const char *name, *file;
  void (*write) (FILE *out);
} formats[] = {
  { "obj", "sheet.obj", write_obj },          { "stl", "sheet.stl", write_stl },
  { "stl-text", "text.stl", write_stl_text }, { "ply", "sheet.ply", write_ply },
  { "glb", "sheet.glb", write_glb },          { "dae", "sheet.dae", write_dae },
  { "3ds", "sheet.3ds", write_3ds },          { "dxf", "sheet.dxf", write_dxf },
  { "amf", "sheet.amf", write_amf },          { "off", "sheet.off", write_off },
  { "fbx", "sheet.fbx", write_fbx },
};

static double
seconds (struct timeval user, struct timeval system)
{
  return (double)(user.tv_sec + system.tv_sec) + 1e-6 * (double)(user.tv_usec + system.tv_usec);
}

/* In a process of its own, so that what it held is its own. */
static void
measure (const char *name, const char *path, goffset bytes)
{
  TrnImportRequest request = { .path = path, .unit = TRN_LENGTH_M, .up = TRN_UP_Z };
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  gint64 start = g_get_monotonic_time ();
  g_autoptr (TrnMesh) mesh = trn_import_mesh (&request, NULL, NULL, NULL, NULL, diags);
  double wall_s = (double)(g_get_monotonic_time () - start) * 1e-6;
  struct rusage self, child;
  getrusage (RUSAGE_SELF, &self);
  getrusage (RUSAGE_CHILDREN, &child);
  double worked_s
      = seconds (child.ru_utime, child.ru_stime) + seconds (self.ru_utime, self.ru_stime);
  printf ("%-9s %6.1f MB  helper %5.2f s  parent %5.2f s  wall %5.2f s  helper %5ld MB"
          "  parent %5ld MB  %u triangles  %u vertices%s\n",
          name, (double)bytes / 1e6, seconds (child.ru_utime, child.ru_stime),
          seconds (self.ru_utime, self.ru_stime), wall_s, child.ru_maxrss / 1024,
          self.ru_maxrss / 1024, mesh != NULL ? mesh->n_triangles : 0,
          mesh != NULL ? mesh->n_vertices : 0,
          worked_s < 4 && (child.ru_maxrss + self.ru_maxrss) / 1024 < 1024 ? "" : "  OVER");
  for (guint i = 0; i < diags->items->len; i++)
    printf ("          %s\n", ((const TrnDiag *)g_ptr_array_index (diags->items, i))->code);
  fflush (stdout);
}

static gboolean
is_wanted (const char *name, int argc, char **argv)
{
  for (int i = 1; i < argc; i++)
    if (strcmp (argv[i], name) == 0)
      return TRUE;
  return argc == 1;
}

int
main (int argc, char **argv)
{
  g_autofree char *folder = g_dir_make_tmp ("trunnion-bench-XXXXXX", NULL);
  g_assert (folder != NULL);
  for (guint i = 0; i < G_N_ELEMENTS (formats); i++)
    {
      if (!is_wanted (formats[i].name, argc, argv))
        continue;
      g_autofree char *path = g_build_filename (folder, formats[i].file, NULL);
      FILE *out = fopen (path, "wbe");
      g_assert (out != NULL);
      formats[i].write (out);
      goffset bytes = ftello (out);
      g_assert (fclose (out) == 0);
      pid_t child = fork ();
      if (child == 0)
        {
          measure (formats[i].name, path, bytes);
          _exit (0);
        }
      waitpid (child, NULL, 0);
      g_assert (g_remove (path) == 0);
    }
  return g_rmdir (folder);
}
