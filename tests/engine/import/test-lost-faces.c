/* Files by which a face would be missing, or would lie elsewhere than its writer meant, without a
 * word: each must be refused, or what was left out be said. None of these faults changes a count
 * that the import library or a reader compares. */
#include "body.h"
#include "fixture.h"

#include <string.h>

typedef struct
{
  const char *name, *text, *code; /* code NULL: it must be read */
} Case;

static void
check_cases (Fixture *fixture, const Case *cases, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      g_test_message ("%s: %s", cases[i].name, cases[i].text);
      fixture_write (fixture, cases[i].name, cases[i].text, -1);
      TrnMesh *mesh = fixture_import (fixture, cases[i].name, TRN_LENGTH_M, TRN_UP_Z);
      if (cases[i].code != NULL)
        fixture_assert_error (fixture, mesh, cases[i].code);
      else
        {
          g_assert_nonnull (mesh);
          trn_mesh_unref (mesh);
        }
    }
}

/* Strips, of which the import library keeps the last triangle only; lists of faces that it puts
 * over one another. */
static void
test_ply (Fixture *fixture, gconstpointer data)
{
#define PLY_HEAD                                                                                   \
  "ply\nformat ascii 1.0\nelement vertex 4\nproperty float x\nproperty float y\n"                  \
  "property float z\n"
#define PLY_LIST "property list int int vertex_indices\n"
#define PLY_CORNERS "end_header\n0 0 0\n1 0 0\n0 1 0\n1 1 0\n"
  static const Case cases[] = {
    { "a.ply", PLY_HEAD "element face 1\n" PLY_LIST PLY_CORNERS "3 0 1 2\n", NULL },
    { "a.ply",
      PLY_HEAD "element face 1\n" PLY_LIST "end_header\n\n0 0 5\n1 0\n0 1 5\n1 1 5\n3 0 1 2\n",
      "import/damaged" },
    { "a.ply", PLY_HEAD "element face 2\n" PLY_LIST PLY_CORNERS "3 0 1 2\n3 1 2\n",
      "import/damaged" },
    { "a.ply", PLY_HEAD "element tristrips 1\n" PLY_LIST PLY_CORNERS "4 0 1 2 3\n",
      "import/unsupported" },
    { "a.ply",
      PLY_HEAD "element face 1\n" PLY_LIST "element tristrips 1\n" PLY_LIST PLY_CORNERS
               "3 0 1 2\n4 0 1 2 3\n",
      "import/unsupported" },
    { "a.ply",
      PLY_HEAD "element face 2\n" PLY_LIST "element face 1\n" PLY_LIST PLY_CORNERS
               "3 0 1 2\n3 1 3 2\n3 0 1 3\n",
      "import/unsupported" },
    { "a.ply",
      PLY_HEAD "element vertex 1\nproperty float x\nproperty float y\nproperty float z\n"
               "element face 1\n" PLY_LIST PLY_CORNERS "5 5 5\n3 0 1 2\n",
      "import/unsupported" },
    { "a.ply",
      "ply\nformat ascii 1.0\nelement vertex 3\nproperty float u\nproperty float y\n"
      "property float z\nelement face 1\n" PLY_LIST "end_header\n5 0 0\n1 0 0\n0 1 0\n3 0 1 2\n",
      "import/damaged" },
  };
  check_cases (fixture, cases, G_N_ELEMENTS (cases));
}

/* Curved surfaces and other files, which the library passes over; and the weight of a vertex,
 * which belongs to curved surfaces only, but by which it divides. */
static void
test_obj (Fixture *fixture, gconstpointer data)
{
#define OBJ_CORNERS "v 0 0 0\nv 1 0 0\nv 0 1 0\nv 1 1 5\n"
  static const Case cases[] = {
    { "a.obj", OBJ_CORNERS "f 1 2 3\n", NULL },
    { "a.obj", OBJ_CORNERS "f 1 2 3\ncstype bezier\ndeg 1 1\nsurf 0 1 0 1 1 2 3 4\nend\n",
      "import/unsupported" },
    { "a.obj", OBJ_CORNERS "f 1 2 3\nbzp 1 2 3 4\n", "import/unsupported" },
    { "a.obj", OBJ_CORNERS "f 1 2 3\ncall other.obj\n", "import/unsupported" },
    { "a.obj", "v 10 0 0 2\nv 11 0 0 2\nv 10 1 0 2\nf 1 2 3\n", "import/unsupported" },
    { "a.obj", "v 10 0 0 1.0\nv 11 0 0 1\nv 10 1 0 1\nf 1 2 3\n", NULL },
    { "a.obj", "v 10 0 0 .5 .5 .5\nv 11 0 0 .5 .5 .5\nv 10 1 0 .5 .5 .5\nf 1 2 3\n", NULL },
    { "a.obj", "v 1.#QNAN 0 0\nv 11 0 0\nv 10 1 0\nf 1 2 3\n", "import/damaged" },
    { "a.obj", "v 1o.5 0 0\nv 11 0 0\nv 10 1 0\nf 1 2 3\n", "import/damaged" },
    { "a.obj", OBJ_CORNERS "f 1 2 3\nv 2.1 -", "import/damaged" },
    { "a.obj", OBJ_CORNERS "f 1 2 3\nv 2.1 0\n", "import/damaged" },
    { "a.obj", OBJ_CORNERS "f 1 2 3\nv 2.1 0 1e-", "import/damaged" },
    { "a.obj", "v 10 0 \\\n0 2\nv 11 0 0\nv 10 1 0\nf 1 2 3\n", "import/unsupported" },
  };
  check_cases (fixture, cases, G_N_ELEMENTS (cases));
}

/* Nothing in the format says where a file ends: cut short, it ends within a line, or before the
 * faces that its last vertices are for. */
static void
test_obj_cut (Fixture *fixture, gconstpointer data)
{
#define OBJ_SQUARE OBJ_CORNERS "f 1 2 3\nf 2 4 3\n"
  static const struct
  {
    const char *text;
    gboolean is_said;
  } cases[] = {
    { OBJ_SQUARE, FALSE },
    { OBJ_CORNERS "f 1 2 3\nf 2 4 3", TRUE },
    { OBJ_SQUARE "v 3 0 0\n", TRUE },
    { OBJ_SQUARE "v 3 0 0", TRUE },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      fixture_write (fixture, "a.obj", cases[i].text, -1);
      g_autoptr (TrnMesh) mesh = fixture_import (fixture, "a.obj", TRN_LENGTH_M, TRN_UP_Z);
      g_assert_nonnull (mesh);
      g_assert_true ((fixture_find (fixture, "import/reader") != NULL) == cases[i].is_said);
    }
}

#define DXF(blocks, entities)                                                                      \
  "0\nSECTION\n2\nBLOCKS\n" blocks "0\nENDSEC\n0\nSECTION\n2\nENTITIES\n" entities                 \
  "0\nENDSEC\n0\nEOF\n"
#define DXF_FACE "0\n3DFACE\n8\nA\n10\n0\n20\n0\n30\n0\n11\n1\n21\n0\n31\n0\n12\n0\n22\n1\n32\n0\n"
#define TEN "0123456789"
#define LONG TEN TEN TEN TEN TEN TEN TEN TEN TEN TEN TEN TEN TEN TEN
#define DXF_LONG_BLOCK(name) "0\nBLOCK\n2\n" LONG LONG name "\n" DXF_FACE "0\nENDBLK\n"
#define DXF_POLYFACE(vertex)                                                                       \
  "0\nPOLYLINE\n8\nA\n66\n1\n70\n64\n" vertex "0\nVERTEX\n8\nA\n10\n5\n20\n0\n30\n0\n70\n192\n"    \
  "0\nVERTEX\n8\nA\n10\n6\n20\n0\n30\n0\n70\n192\n0\nVERTEX\n8\nA\n10\n5\n20\n1\n30\n0\n70\n192\n" \
  "0\nVERTEX\n8\nA\n10\n0\n20\n0\n30\n0\n70\n128\n71\n1\n72\n2\n73\n3\n0\nSEQEND\n"

/* Numbers with a comma, of which the front was taken; corners that are not given; the elevation of
 * old drawings; what stands behind the end; two blocks whose names begin alike; and a face without
 * corners among the points that others count. */
static void
test_dxf (Fixture *fixture, gconstpointer data)
{
  static const Case cases[] = {
    { "a.dxf", DXF ("", DXF_FACE), NULL },
    { "a.dxf", DXF ("", "0\n3DFACE\n10\n10,5\n20\n0\n11\n1\n21\n0\n12\n0\n22\n1\n"),
      "import/damaged" },
    { "a.dxf", DXF ("", "0\n3DFACE\n10\n5\n11\n1\n21\n0\n12\n0\n22\n1\n"), "import/damaged" },
    { "a.dxf",
      DXF ("", "0\nSOLID\n38\n7\n10\n0\n20\n0\n11\n1\n21\n0\n12\n0\n22\n1\n13\n1\n23\n1\n"),
      "import/unsupported" },
    { "a.dxf", DXF ("", DXF_FACE) "\n", NULL },
    { "a.dxf", DXF ("", DXF_FACE) DXF ("", DXF_FACE), "import/damaged" },
    { "a.dxf", DXF ("", DXF_FACE "0\nEOF\n" DXF_FACE), "import/damaged" },
    { "a.dxf",
      DXF (DXF_LONG_BLOCK ("a") DXF_LONG_BLOCK ("b"),
           "0\nINSERT\n2\n" LONG LONG "a\n10\n0\n20\n0\n"),
      "import/damaged" },
    { "a.dxf", DXF (DXF_LONG_BLOCK ("a"), "0\nINSERT\n2\n" LONG LONG "a\n10\n0,5\n20\n0\n"),
      "import/damaged" },
    { "a.dxf", DXF ("", DXF_POLYFACE ("")), NULL },
    { "a.dxf", DXF ("", DXF_POLYFACE ("0\nVERTEX\n8\nA\n10\n0\n20\n0\n70\n128\n")),
      "import/damaged" },
  };
  check_cases (fixture, cases, G_N_ELEMENTS (cases));
}

#define AMF(inside) "<amf unit=\"meter\">" inside "</amf>"
#define AMF_VERTEX(x, y, z)                                                                        \
  "<vertex><coordinates><x>" x "</x><y>" y "</y><z>" z "</z></coordinates></vertex>"
#define AMF_VERTICES(x, z)                                                                         \
  "<vertices>" AMF_VERTEX (x, "0", z) AMF_VERTEX ("1", "0", z)                                     \
      AMF_VERTEX ("0", "1", z) "</vertices>"
#define AMF_FACE "<volume><triangle><v1>0</v1><v2>1</v2><v3>2</v3></triangle></volume>"
#define AMF_MESH(x, z) "<mesh>" AMF_VERTICES (x, z) AMF_FACE "</mesh>"
#define AMF_ONE "<object id=\"1\">" AMF_MESH ("9", "0") "</object>"

/* A second mesh, whose indices begin anew; a number in two pieces; objects that place each other
 * in a circle beside one that stands; faces without any vertices. */
static void
test_amf (Fixture *fixture, gconstpointer data)
{
  static const Case cases[] = {
    { "a.amf", AMF (AMF_ONE), NULL },
    { "a.amf", AMF ("<object id=\"1\">" AMF_MESH ("9", "0") AMF_MESH ("9", "5") "</object>"),
      "import/unsupported" },
    { "a.amf", AMF ("<object id=\"1\">" AMF_MESH ("1<!-- -->2", "0") "</object>"),
      "import/damaged" },
    { "a.amf",
      AMF (AMF_ONE "<object id=\"5\">" AMF_MESH (
          "9", "5") "</object>"
                    "<constellation id=\"2\"><instance objectid=\"3\"/><instance objectid=\"5\"/>"
                    "</constellation><constellation id=\"3\"><instance objectid=\"2\"/>"
                    "</constellation>"),
      "import/damaged" },
    { "a.amf", AMF (AMF_ONE "<object id=\"5\"><mesh>" AMF_FACE "</mesh></object>"),
      "import/index-range" },
  };
  check_cases (fixture, cases, G_N_ELEMENTS (cases));
}

/* A name with a NUL byte in it is another one than that in front of the byte. */
static void
test_xml_nul (Fixture *fixture, gconstpointer data)
{
  static const char text[] = AMF ("<object id=\"1\">" AMF_MESH (
      "9", "0") "</object>"
                "<object\0xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx id=\"2\"/>");
  fixture_write (fixture, "nul.amf", text, sizeof text - 1);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "nul.amf", TRN_LENGTH_M, TRN_UP_Z);
  g_assert_nonnull (mesh);
  g_assert_cmpuint (mesh->n_triangles, ==, 1);
}

static TrnMesh *
import_3mf (Fixture *fixture, const char *attributes, const char *objects, const char *build)
{
  g_autofree char *model = body_3mf_model (attributes, objects, build, 1);
  g_autoptr (GByteArray) archive = body_3mf (model);
  fixture_write (fixture, "a.3mf", archive->data, archive->len);
  return fixture_import (fixture, "a.3mf", TRN_LENGTH_M, TRN_UP_Z);
}

/* An object that is built nowhere is said; an extension without which the model is not understood,
 * and faces without vertices, are errors. */
static void
test_3mf (Fixture *fixture, gconstpointer data)
{
#define M3_MESH(vertices)                                                                          \
  "<mesh><vertices>" vertices                                                                      \
  "</vertices><triangles><triangle v1=\"0\" v2=\"1\" v3=\"2\"/></triangles></mesh>"
#define M3_VERTICES                                                                                \
  "<vertex x=\"0\" y=\"0\" z=\"0\"/><vertex x=\"1\" y=\"0\" z=\"0\"/>"                             \
  "<vertex x=\"0\" y=\"1\" z=\"0\"/>"
#define M3_ITEM "<item objectid=\"1\"/>"
  static const char more[] = "<object id=\"2\">" M3_MESH (M3_VERTICES) "</object>";
  static const char bare[] = "<object id=\"2\">" M3_MESH ("") "</object>";
  static const char two[]
      = "<object id=\"2\">" M3_MESH (M3_VERTICES) M3_MESH (M3_VERTICES) "</object>";
  static const char look[] = " xmlns:m=\"http://schemas.microsoft.com/3dmanufacturing/material/"
                             "2015/02\" requiredextensions=\"m\"";
  static const char solid[]
      = " xmlns:q=\"http://example.invalid/solid/2030\" requiredextensions=\"q\"";
  g_autoptr (TrnMesh) both = import_3mf (fixture, "", more, M3_ITEM "<item objectid=\"2\"/>");
  g_assert_nonnull (both);
  g_assert_null (fixture_find (fixture, "import/unused"));
  g_autoptr (TrnMesh) one = import_3mf (fixture, "", more, M3_ITEM);
  g_assert_nonnull (one);
  const TrnDiag *unused = fixture_find (fixture, "import/unused");
  g_assert_nonnull (unused);
  g_assert_cmpfloat (trn_diag_get (unused, "meshes")->number, ==, 1);
  fixture_assert_error (fixture, import_3mf (fixture, "", bare, M3_ITEM "<item objectid=\"2\"/>"),
                        "import/index-range");
  fixture_assert_error (fixture, import_3mf (fixture, "", two, M3_ITEM), "import/unsupported");
  fixture_assert_error (fixture, import_3mf (fixture, solid, "", M3_ITEM), "import/unsupported");
  g_autoptr (TrnMesh) coloured = import_3mf (fixture, look, "", M3_ITEM);
  g_assert_nonnull (coloured);
}

/* One byte of the data is changed: the sum that the archive keeps of them shows it. */
static void
test_3mf_damaged (Fixture *fixture, gconstpointer data)
{
  g_autofree char *model = body_3mf_model ("", "", M3_ITEM, 1);
  static const char relations[] = "<Relationships><Relationship Target=\"/a.model\" Id=\"r\" "
                                  "Type=\"x/3dmodel\"/></Relationships>";
  const char *const files[] = { "_rels/.rels", relations, "a.model", model, NULL };
  g_autoptr (GByteArray) archive = body_zip (files, FALSE);
  fixture_write (fixture, "a.3mf", archive->data, archive->len);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "a.3mf", TRN_LENGTH_M, TRN_UP_Z);
  g_assert_nonnull (mesh);
  char *number = memmem (archive->data, archive->len, "z=\"4", 4);
  g_assert_nonnull (number);
  number[3] = '8';
  fixture_write (fixture, "a.3mf", archive->data, archive->len);
  fixture_assert_error (fixture, fixture_import (fixture, "a.3mf", TRN_LENGTH_M, TRN_UP_Z),
                        "import/damaged");
}

static TrnMesh *
import_3ds (Fixture *fixture, const GByteArray *bytes)
{
  fixture_write (fixture, "a.3ds", bytes->data, bytes->len);
  return fixture_import (fixture, "a.3ds", TRN_LENGTH_M, TRN_UP_Z);
}

/* An object of one triangle whose axes are those of @matrix, rows of X, Y, Z and the origin. */
static GByteArray *
object_3ds (const float matrix[12])
{
  static const guint8 faces[] = { 1, 0, 0, 0, 1, 0, 2, 0, 0, 0 };
  static const float corners[9] = { 0, 0, 0, 1, 0, 0, 0, 1, 0 };
  g_autoptr (GByteArray) points = g_byte_array_new (), mesh = g_byte_array_new ();
  g_byte_array_append (points, (const guint8 *)"\3", 2);
  g_byte_array_append (points, (const guint8 *)corners, sizeof corners);
  g_autoptr (GByteArray) a = body_3ds_chunk (0x4110, points->data, points->len);
  g_autoptr (GByteArray) b = body_3ds_chunk (0x4120, faces, sizeof faces);
  g_autoptr (GByteArray) c = body_3ds_chunk (0x4160, matrix, 12 * sizeof *matrix);
  g_byte_array_append (mesh, a->data, a->len);
  g_byte_array_append (mesh, b->data, b->len);
  g_byte_array_append (mesh, c->data, c->len);
  g_autoptr (GByteArray) inside = body_3ds_chunk (0x4100, mesh->data, mesh->len);
  g_autoptr (GByteArray) object = g_byte_array_new ();
  g_byte_array_append (object, (const guint8 *)"b", 2);
  g_byte_array_append (object, inside->data, inside->len);
  return body_3ds_chunk (0x4000, object->data, object->len);
}

/* The vertices of an object whose axes are left-handed are kept the other way round along its own
 * X axis, which not all programs know. What stands behind the main chunk was not looked at. */
static void
test_3ds (Fixture *fixture, gconstpointer data)
{
  static const float plain[12] = { 1, 0, 0, 0, 1, 0, 0, 0, 1, 5, 0, 0 };
  static const float mirrored[12] = { -1, 0, 0, 0, 1, 0, 0, 0, 1, 5, 0, 0 };
  g_autoptr (GByteArray) more = object_3ds (plain);
  g_autoptr (GByteArray) good = body_3ds ("a", 1, more, NULL);
  g_autoptr (TrnMesh) mesh = import_3ds (fixture, good);
  g_assert_nonnull (mesh);
  g_assert_cmpuint (mesh->n_triangles, ==, 13);
  g_autoptr (GByteArray) other = object_3ds (mirrored);
  g_autoptr (GByteArray) bad = body_3ds ("a", 1, other, NULL);
  fixture_assert_error (fixture, import_3ds (fixture, bad), "import/unsupported");
  g_autoptr (GByteArray) editor = body_3ds_chunk (0x3d3d, more->data, more->len);
  g_byte_array_append (good, editor->data, editor->len);
  fixture_assert_error (fixture, import_3ds (fixture, good), "import/damaged");
}

/* A square of 2 m with one corner 1 m above the others. Its diagonals (2, 2, 1) and (-2, 2, 0) pass
 * each other at the determinant of its edges, 4, over the length of their cross product (-2, -2,
 * 8): 4 / √72. Flat, or nearer to it than what a coordinate may be off, nothing is said. */
static void
test_warped (Fixture *fixture, gconstpointer data)
{
  static const struct
  {
    const char *z;
    TrnLengthUnit unit;
    double warp_m;
  } cases[] = { { "1", TRN_LENGTH_M, 0.4714045207910317 },
                { "1", TRN_LENGTH_MM, 0.4714045207910317e-3 },
                { "0.0001", TRN_LENGTH_M, 0 },
                { "0", TRN_LENGTH_M, 0 } };
  static const char *const forms[][2]
      = { { "a.obj", "v 0 0 0\nv 2 0 0\nv 2 2 %s\nv 0 2 0\nf 1 2 3 4\n" },
          { "a.off", "OFF\n4 1 0\n0 0 0\n2 0 0\n2 2 %s\n0 2 0\n4 0 1 2 3\n" } };
  for (guint f = 0; f < G_N_ELEMENTS (forms); f++)
    for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
      {
        GString *text = g_string_new (forms[f][1]);
        g_string_replace (text, "%s", cases[i].z, 0);
        fixture_write (fixture, forms[f][0], text->str, -1);
        g_string_free (text, TRUE);
        g_autoptr (TrnMesh) mesh = fixture_import (fixture, forms[f][0], cases[i].unit, TRN_UP_Z);
        g_assert_nonnull (mesh);
        const TrnDiag *warped = fixture_find (fixture, "import/warped");
        g_assert_true ((warped != NULL) == (cases[i].warp_m > 0));
        if (warped != NULL)
          g_assert_cmpfloat_with_epsilon (trn_diag_get (warped, "warp")->number, cases[i].warp_m,
                                          1e-9);
        /* What is too little to be said is known all the same: z over the two diagonals' 2. */
        const double z = g_ascii_strtod (cases[i].z, NULL);
        const double known_m = cases[i].warp_m > 0 ? cases[i].warp_m : z / 2;
        g_assert_cmpfloat_with_epsilon (fixture->report.warp_m, known_m, 1e-8);
      }
}

/* A curved surface, which the library leaves out. */
static void
test_fbx_surface (Fixture *fixture, gconstpointer data)
{
  g_autofree char *plain = body_fbx ("", "", 1);
  fixture_write (fixture, "a.fbx", plain, -1);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "a.fbx", TRN_LENGTH_M, TRN_UP_Z);
  g_assert_nonnull (mesh);
  char *objects = strstr (plain, "Objects:");
  g_assert_nonnull (objects);
  objects = strchr (objects, '{') + 1;
  g_autofree char *text = g_strdup_printf (
      "%.*s\nGeometry: 911, \"Geometry::\", \"NurbsSurface\" {\n\tType: \"NurbsSurface\"\n}\n"
      "Model: 912, \"Model::b\", \"NurbsSurface\" {\n\tVersion: 232\n}\n%s",
      (int)(objects - plain), plain, objects);
  char *connections = strstr (text, "Connections:");
  g_assert_nonnull (connections);
  connections = strchr (connections, '{') + 1;
  g_autofree char *whole = g_strdup_printf ("%.*s\nC: \"OO\",912,0\nC: \"OO\",911,912\n%s",
                                            (int)(connections - text), text, connections);
  fixture_write (fixture, "a.fbx", whole, -1);
  fixture_assert_error (fixture, fixture_import (fixture, "a.fbx", TRN_LENGTH_M, TRN_UP_Z),
                        "import/unsupported");
}

/* A second scene of a glTF is not shown, which is said. */
static void
test_gltf_scenes (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GByteArray) bin = fixture_gltf_box (trn_vec3_make (1, 2, 4));
  static const char roots[] = "0]},{\"nodes\":[1";
  for (int more = 0; more < 2; more++)
    {
      g_autofree char *text = fixture_gltf_text (
          "a.bin", "{\"mesh\":0},{\"mesh\":0,\"translation\":[9,0,0]}", more ? roots : "0,1", "");
      fixture_write (fixture, "a.bin", bin->data, bin->len);
      fixture_write (fixture, "a.gltf", text, -1);
      g_autoptr (TrnMesh) mesh
          = fixture_import (fixture, "a.gltf", TRN_LENGTH_UNDECLARED, TRN_UP_UNDECLARED);
      g_assert_nonnull (mesh);
      g_assert_cmpuint (mesh->n_triangles, ==, more ? 12 : 24);
      g_assert_true ((fixture_find (fixture, "import/reader") != NULL) == more);
    }
}

/* A quaternion of length √2, by which the library makes the mesh twice as large. */
static void
test_gltf_rotation (Fixture *fixture, gconstpointer data)
{
  static const struct
  {
    const char *rotation, *code;
  } cases[] = { { "0,0,0.70710678,0.70710678", NULL },
                { "0,0,1,1", "import/unsupported" },
                { "0,0,0.7072,0.7072", "import/unsupported" },
                { "0,0,0,0", "import/unsupported" } };
  g_autoptr (GByteArray) bin = fixture_gltf_box (trn_vec3_make (1, 2, 4));
  fixture_write (fixture, "a.bin", bin->data, bin->len);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *node = g_strdup_printf ("{\"mesh\":0,\"rotation\":[%s]}", cases[i].rotation);
      g_autofree char *text = fixture_gltf_text ("a.bin", node, "0", "");
      fixture_write (fixture, "a.gltf", text, -1);
      g_autoptr (TrnMesh) mesh
          = fixture_import (fixture, "a.gltf", TRN_LENGTH_UNDECLARED, TRN_UP_UNDECLARED);
      if (cases[i].code != NULL)
        fixture_assert_error (fixture, mesh, cases[i].code);
      else
        g_assert_nonnull (mesh);
    }
}

/* Positions that are no triples of floats, or of which a part lies elsewhere: zeros stand for what
 * the file does not give. */
static void
test_gltf_positions (Fixture *fixture, gconstpointer data)
{
#define POSITIONS "\"bufferView\":0,\"componentType\":5126,\"count\":8,\"type\":\"VEC3\""
#define SPARSE                                                                                     \
  "\"sparse\":{\"count\":1,\"indices\":{\"bufferView\":1,\"componentType\":5123},"                 \
  "\"values\":{\"bufferView\":0}}"
  static const struct
  {
    const char *positions, *code;
  } cases[] = {
    { POSITIONS, NULL },
    { "\"bufferView\":0,\"componentType\":5126,\"count\":8,\"type\":\"VEC2\"",
      "import/unsupported" },
    { "\"bufferView\":0,\"componentType\":5123,\"count\":8,\"type\":\"VEC3\"",
      "import/unsupported" },
    { "\"bufferView\":0,\"componentType\":5126,\"count\":8", "import/unsupported" },
    { "\"componentType\":5126,\"count\":8,\"type\":\"VEC3\"", "import/unsupported" },
    { POSITIONS "," SPARSE, "import/unsupported" },
  };
  g_autoptr (GByteArray) bin = fixture_gltf_box (trn_vec3_make (1, 2, 4));
  g_autofree char *whole = fixture_gltf_text ("a.bin", "{\"mesh\":0}", "0", "");
  g_auto (GStrv) around = g_strsplit (whole, POSITIONS, -1);
  g_assert_cmpuint (g_strv_length (around), ==, 2);
  fixture_write (fixture, "a.bin", bin->data, bin->len);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = g_strjoinv (cases[i].positions, around);
      g_test_message ("%s", cases[i].positions);
      fixture_write (fixture, "a.gltf", text, -1);
      g_autoptr (TrnMesh) mesh
          = fixture_import (fixture, "a.gltf", TRN_LENGTH_UNDECLARED, TRN_UP_UNDECLARED);
      if (cases[i].code != NULL)
        fixture_assert_error (fixture, mesh, cases[i].code);
      else
        g_assert_nonnull (mesh);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(path, func) g_test_add (path, Fixture, NULL, fixture_set_up, func, fixture_tear_down)
  ADD ("/import/lost/ply", test_ply);
  ADD ("/import/lost/obj", test_obj);
  ADD ("/import/lost/obj-cut", test_obj_cut);
  ADD ("/import/lost/dxf", test_dxf);
  ADD ("/import/lost/amf", test_amf);
  ADD ("/import/lost/xml-nul", test_xml_nul);
  ADD ("/import/lost/3mf", test_3mf);
  ADD ("/import/lost/3mf-damaged", test_3mf_damaged);
  ADD ("/import/lost/3ds", test_3ds);
  ADD ("/import/lost/warped", test_warped);
  ADD ("/import/lost/fbx-surface", test_fbx_surface);
  ADD ("/import/lost/gltf-scenes", test_gltf_scenes);
  ADD ("/import/lost/gltf-rotation", test_gltf_rotation);
  ADD ("/import/lost/gltf-positions", test_gltf_positions);
  return g_test_run ();
}
