/* DAE, FBX and IFC: unit, axes, names and transforms that a file declares, each on a box of
 * 1 × 2 × 4 whose place tells its axes apart (see body.h). */
#include "body.h"
#include "fixture.h"

#include <string.h>

/* The body stands at @x, @y, @z in metres, upright, its faces outwards. */
static void
assert_body (const TrnMesh *mesh, double x, double y, double z, double unit_m, double within)
{
  g_assert_nonnull (mesh);
  fixture_assert_box (mesh, trn_vec3_make (x, y, z),
                      trn_vec3_make (x + BODY_X * unit_m, y + BODY_Y * unit_m, z + BODY_Z * unit_m),
                      within);
  g_assert_cmpfloat_with_epsilon (fixture_volume (mesh) / (unit_m * unit_m * unit_m), BODY_VOLUME,
                                  1e-5);
  g_assert_cmpuint (mesh->n_triangles, ==, 12);
  g_assert_cmpuint (mesh->n_vertices, ==, 8);
}

/* The body lies: what was up in the file is up here. Y up turns (x, y, z) to (x, −z, y). */
static void
assert_lying_body (const TrnMesh *mesh, double unit_m, double within)
{
  g_assert_nonnull (mesh);
  fixture_assert_box (mesh, trn_vec3_make (0, -BODY_Z * unit_m, 0),
                      trn_vec3_make (BODY_X * unit_m, 0, BODY_Y * unit_m), within);
  g_assert_cmpfloat_with_epsilon (fixture_volume (mesh) / (unit_m * unit_m * unit_m), BODY_VOLUME,
                                  1e-5);
}

static TrnMesh *
import_undeclared (Fixture *fixture, const char *name)
{
  return fixture_import (fixture, name, TRN_LENGTH_UNDECLARED, TRN_UP_UNDECLARED);
}

static TrnMesh *
import_dae (Fixture *fixture, const char *asset, const char *nodes)
{
  g_autofree char *text = body_dae (asset, nodes, 1);
  fixture_write (fixture, "body.dae", text, -1);
  return import_undeclared (fixture, "body.dae");
}

#define DAE_NODE "<node id=\"n1\" name=\"pump casing\"><instance_geometry url=\"#body\"/></node>"
#define DAE_INCH "<unit name=\"inch\" meter=\"0.0254\"/>"

static void
test_dae_frames (Fixture *fixture, gconstpointer data)
{
  g_autoptr (TrnMesh) inches = import_dae (fixture, DAE_INCH "<up_axis>Z_UP</up_axis>", DAE_NODE);
  assert_body (inches, 0, 0, 0, 0.0254, 1e-9);
  g_assert_cmpuint (fixture->diags->items->len, ==, 0);
  g_assert_cmpuint (inches->n_parts, ==, 1);
  g_assert_cmpstr (inches->parts[0].name, ==, "pump casing");
  g_autoptr (TrnMesh) lying = import_dae (
      fixture, "<unit name=\"centimeter\" meter=\"0.01\"/><up_axis>Y_UP</up_axis>", DAE_NODE);
  assert_lying_body (lying, 0.01, 1e-9);
  /* A comma, as some programs write it. */
  g_autoptr (TrnMesh) comma
      = import_dae (fixture, "<unit meter=\"0,001\"/><up_axis>Z_UP</up_axis>", DAE_NODE);
  assert_body (comma, 0, 0, 0, 0.001, 1e-9);
}

/* Nodes move and turn: 90° about Z and (10, 20, 30), then the same body again through a library
 * of nodes at double size, mirrored in X. */
static void
test_dae_nodes (Fixture *fixture, gconstpointer data)
{
  g_autoptr (TrnMesh) turned = import_dae (
      fixture, "<unit meter=\"1\"/><up_axis>Z_UP</up_axis>",
      "<node name=\"outer\"><translate>10 20 30</translate>"
      "<node name=\"inner\"><rotate>0 0 1 90</rotate><instance_geometry url=\"#body\"/></node>"
      "</node>");
  g_assert_nonnull (turned);
  fixture_assert_box (turned, trn_vec3_make (8, 20, 30), trn_vec3_make (10, 21, 34), 1e-5);
  g_assert_cmpfloat_with_epsilon (fixture_volume (turned), BODY_VOLUME, 1e-4);
  g_assert_cmpstr (turned->parts[0].name, ==, "inner");
  g_autoptr (TrnMesh) mirrored
      = import_dae (fixture, "<unit meter=\"1\"/><up_axis>Z_UP</up_axis>",
                    "<node id=\"a\"><instance_geometry url=\"#body\"/></node>"
                    "<node name=\"b\"><scale>-2 2 2</scale><instance_node url=\"#a\"/></node>");
  g_assert_nonnull (mirrored);
  g_assert_cmpuint (mirrored->n_triangles, ==, 24);
  fixture_assert_box (mirrored, trn_vec3_make (-2, 0, 0), trn_vec3_make (1, 4, 8), 1e-5);
  g_assert_cmpfloat_with_epsilon (fixture_volume (mirrored), 9 * BODY_VOLUME, 1e-3);
}

/* A unit that is missing, or whose name and number disagree, has to be given. */
static void
test_dae_undeclared (Fixture *fixture, gconstpointer data)
{
  static const char *const units[]
      = { "", "<unit/>", "<unit name=\"centimeter\" meter=\"1.000000\"/>" };
  for (guint i = 0; i < G_N_ELEMENTS (units); i++)
    {
      g_autofree char *asset = g_strconcat (units[i], "<up_axis>Z_UP</up_axis>", NULL);
      fixture_assert_error (fixture, import_dae (fixture, asset, DAE_NODE), "import/unit-missing");
    }
  fixture_assert_error (fixture, import_dae (fixture, DAE_INCH, DAE_NODE), "import/up-missing");
  /* What the plan gives wins, in the file's own numbers and axes. */
  g_autofree char *text = body_dae (DAE_INCH "<up_axis>Y_UP</up_axis>", DAE_NODE, 1);
  fixture_write (fixture, "given.dae", text, -1);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "given.dae", TRN_LENGTH_M, TRN_UP_Z);
  assert_body (mesh, 0, 0, 0, 1, 1e-9);
  const TrnDiag *unit = fixture_find (fixture, "import/unit-contradicts");
  const TrnDiag *up = fixture_find (fixture, "import/up-contradicts");
  g_assert_cmpstr (trn_diag_get (unit, "declared")->text, ==, "in");
  g_assert_cmpstr (trn_diag_get (up, "declared")->text, ==, "y");
}

/* What the import library leaves out or gets wrong without a word. */
static void
test_dae_refused (Fixture *fixture, gconstpointer data)
{
  static const struct
  {
    const char *nodes, *code;
  } cases[] = {
    { "<node><skew>45 0 1 0 1 0 0</skew><instance_geometry url=\"#body\"/></node>",
      "import/unsupported" },
    { "<node><instance_geometry url=\"other.dae#body\"/></node>", "import/unsupported" },
    { "<node><instance_geometry url=\"#none\"/></node>", "import/reference-missing" },
    { "<node><instance_node url=\"#none\"/></node>", "import/reference-missing" },
    { "<node id=\"a\"><instance_node url=\"#a\"/></node>", "import/damaged" },
    { "<node name=\"bare\"/>", "import/none-placed" },
    { "<node>", "import/damaged" },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_test_message ("%s", cases[i].nodes);
      TrnMesh *mesh = import_dae (fixture, DAE_INCH "<up_axis>Z_UP</up_axis>", cases[i].nodes);
      fixture_assert_error (fixture, mesh, cases[i].code);
    }
  fixture_assert_error (fixture, import_dae (fixture, DAE_INCH "<up_axis>X_UP</up_axis>", DAE_NODE),
                        "import/unsupported");
  g_autofree char *text = body_dae (DAE_INCH "<up_axis>Z_UP</up_axis>", DAE_NODE, 1);
  g_autoptr (GString) fans = g_string_new (text);
  g_string_replace (fans, "triangles", "trifans", 0);
  fixture_write (fixture, "fans.dae", fans->str, (gssize)fans->len);
  fixture_assert_error (fixture, import_undeclared (fixture, "fans.dae"), "import/unsupported");
}

/* Polygons, strips and lists of them are counted as the triangles that they become: here a
 * quadrilateral across the body. */
static void
test_dae_primitives (Fixture *fixture, gconstpointer data)
{
  static const char *const more[] = {
    "<polylist count=\"1\"><input semantic=\"VERTEX\" source=\"#corners\" offset=\"0\"/>"
    "<vcount>4</vcount><p>0 1 7 6</p></polylist>",
    "<polygons count=\"1\"><input semantic=\"VERTEX\" source=\"#corners\" offset=\"0\"/>"
    "<p>0 1 7 6</p></polygons>",
    "<tristrips count=\"1\"><input semantic=\"VERTEX\" source=\"#corners\" offset=\"0\"/>"
    "<p>0 1 6 7</p></tristrips>",
  };
  g_autofree char *text = body_dae (DAE_INCH "<up_axis>Z_UP</up_axis>", DAE_NODE, 1);
  for (guint i = 0; i < G_N_ELEMENTS (more); i++)
    {
      g_autoptr (GString) both = g_string_new (text);
      g_autofree char *with = g_strconcat (more[i], "</mesh>", NULL);
      g_string_replace (both, "</mesh>", with, 1);
      fixture_write (fixture, "both.dae", both->str, (gssize)both->len);
      g_autoptr (TrnMesh) mesh = import_undeclared (fixture, "both.dae");
      g_assert_nonnull (mesh);
      g_assert_cmpuint (mesh->n_triangles, ==, 14);
      g_assert_null (fixture_find (fixture, "import/not-counted"));
    }
}

#define FBX_INT(name, value) "\t\tP: \"" name "\", \"int\", \"Integer\", \"\"," value "\n"
#define FBX_AXES(up, front, front_sign)                                                            \
  FBX_INT ("UpAxis", up)                                                                           \
  FBX_INT ("UpAxisSign", "1")                                                                      \
  FBX_INT ("FrontAxis", front)                                                                     \
  FBX_INT ("FrontAxisSign", front_sign)                                                            \
  FBX_INT ("CoordAxis", "0")                                                                       \
  FBX_INT ("CoordAxisSign", "1")
#define FBX_UNIT(cm) "\t\tP: \"UnitScaleFactor\", \"double\", \"Number\", \"\"," cm "\n"
#define FBX_Z_UP FBX_AXES ("2", "1", "-1")
#define FBX_Y_UP FBX_AXES ("1", "2", "1")

static TrnMesh *
import_fbx (Fixture *fixture, const char *settings, const char *properties)
{
  g_autofree char *text = body_fbx (settings, properties, 1);
  fixture_write (fixture, "body.fbx", text, -1);
  return import_undeclared (fixture, "body.fbx");
}

/* The unit is in centimetres: 2.54 is an inch, and exactly that, although it went through single
 * precision. Faces are not counted, which is said. */
static void
test_fbx_frames (Fixture *fixture, gconstpointer data)
{
  g_autoptr (TrnMesh) inches = import_fbx (fixture, FBX_Z_UP FBX_UNIT ("2.54"), "");
  assert_body (inches, 0, 0, 0, 0.0254, 1e-12);
  g_assert_cmpstr (inches->parts[0].name, ==, "body");
  g_assert_cmpuint (fixture->diags->items->len, ==, 1);
  g_assert_nonnull (fixture_find (fixture, "import/not-counted"));
  g_autoptr (TrnMesh) lying = import_fbx (fixture, FBX_Y_UP FBX_UNIT ("100"), "");
  assert_lying_body (lying, 1, 1e-9);
  g_autofree char *text = body_fbx (FBX_Z_UP FBX_UNIT ("2.54"), "", 1);
  fixture_write (fixture, "given.fbx", text, -1);
  g_autoptr (TrnMesh) given = fixture_import (fixture, "given.fbx", TRN_LENGTH_IN, TRN_UP_Z);
  g_assert_nonnull (given);
  g_assert_null (fixture_find (fixture, "import/unit-contradicts"));
  fixture_assert_error (fixture, import_fbx (fixture, FBX_Z_UP, ""), "import/unit-missing");
  fixture_assert_error (fixture, import_fbx (fixture, FBX_UNIT ("1"), ""), "import/up-missing");
}

#define FBX_VECTOR(name, value) "\t\t\tP: \"" name "\", \"" name "\", \"\", \"A\"," value "\n"

/* A model that is moved, turned about Z and scaled, each kind of which the library makes a node. */
static void
test_fbx_transform (Fixture *fixture, gconstpointer data)
{
  g_autoptr (TrnMesh) mesh
      = import_fbx (fixture, FBX_Z_UP FBX_UNIT ("100"),
                    FBX_VECTOR ("Lcl Translation", "10,20,30") FBX_VECTOR ("Lcl Rotation", "0,0,90")
                        FBX_VECTOR ("Lcl Scaling", "2,1,1"));
  g_assert_nonnull (mesh);
  fixture_assert_box (mesh, trn_vec3_make (8, 20, 30), trn_vec3_make (10, 22, 34), 1e-5);
  g_assert_cmpfloat_with_epsilon (fixture_volume (mesh), 2 * BODY_VOLUME, 1e-4);
}

static void
test_fbx_refused (Fixture *fixture, gconstpointer data)
{
  /* Left-handed: right, up and front are X, Y and −Z. */
  fixture_assert_error (fixture, import_fbx (fixture, FBX_AXES ("1", "2", "-1") FBX_UNIT ("1"), ""),
                        "import/unsupported");
  fixture_assert_error (fixture, import_fbx (fixture, FBX_AXES ("1", "1", "1") FBX_UNIT ("1"), ""),
                        "import/unsupported");
  /* Signs that are none, and whose product is 1 in 32 bits. */
  fixture_assert_error (fixture,
                        import_fbx (fixture,
                                    FBX_INT ("UpAxis", "1") FBX_INT ("FrontAxis", "2")
                                        FBX_INT ("CoordAxisSign", "3")
                                            FBX_INT ("FrontAxisSign", "-1431655765") FBX_UNIT ("1"),
                                    ""),
                        "import/unsupported");
  /* Z down. */
  fixture_assert_error (fixture,
                        import_fbx (fixture,
                                    FBX_INT ("UpAxis", "2") FBX_INT ("UpAxisSign", "-1")
                                        FBX_INT ("FrontAxis", "1") FBX_INT ("FrontAxisSign", "1")
                                            FBX_UNIT ("1"),
                                    ""),
                        "import/unsupported");
}

/* A node that does not inherit the scale of the one that it hangs on would be twice as large by
 * the library's multiplication. */
static void
test_fbx_inheritance (Fixture *fixture, gconstpointer data)
{
  static const char *const kinds[] = { "0", "1", "2" };
  static const char *const scales[] = { "2,2,2", "2,1,1" };
  for (guint k = 0; k < 3; k++)
    for (guint s = 0; s < 2; s++)
      {
        g_autofree char *inherit
            = g_strdup_printf ("\t\t\tP: \"InheritType\", \"enum\", \"\", \"\",%s\n", kinds[k]);
        g_autofree char *text = body_fbx (FBX_Z_UP FBX_UNIT ("100"), inherit, 1);
        g_autofree char *parent = g_strdup_printf (
            "\tModel: 1003, \"Model::frame\", \"Null\" {\n\t\tVersion: 232\n\t\tProperties70:  {\n"
            "\t\t\tP: \"Lcl Scaling\", \"Lcl Scaling\", \"\", "
            "\"A\",%s\n\t\t}\n\t}\n}\nConnections:",
            scales[s]);
        g_autoptr (GString) both = g_string_new (text);
        g_string_replace (both, "}\nConnections:", parent, 1);
        g_string_replace (both, "1002,0\n", "1002,1003\n\tC: \"OO\",1003,0\n", 1);
        fixture_write (fixture, "both.fbx", both->str, (gssize)both->len);
        g_autoptr (TrnMesh) mesh = import_undeclared (fixture, "both.fbx");
        gboolean good = k == 1 || (k == 0 && s == 0);
        g_test_message ("kind %s, scale %s", kinds[k], scales[s]);
        g_assert_true ((mesh != NULL) == good);
        if (good)
          g_assert_cmpfloat_with_epsilon (mesh->box.hi.x, 2 * BODY_X, 1e-5);
        else
          fixture_assert_error (fixture, mesh, "import/unsupported");
      }
}

/* Millimetres, Z up: a file says its unit, and Z is up in all of them. */
static void
test_ifc (Fixture *fixture, gconstpointer data)
{
  g_autofree char *text = body_ifc (".MILLI.", 1000);
  fixture_write (fixture, "body.ifc", text, -1);
  g_autoptr (TrnMesh) mesh = import_undeclared (fixture, "body.ifc");
  assert_body (mesh, 0, 0, 0, 1, 1e-5);
  /* Kind, name and identity of the element. */
  g_assert_cmpstr (mesh->parts[0].name, ==, "IfcBuildingElementProxy_block_0aaaaaaaaaaaaaaaaaaaa4");
  const TrnDiag *experimental = fixture_find (fixture, "import/experimental");
  g_assert_nonnull (experimental);
  g_assert_cmpstr (trn_diag_get (experimental, "format")->text, ==, "IFC");
  g_assert_nonnull (fixture_find (fixture, "import/not-counted"));
  g_autofree char *metres = body_ifc ("$", 3);
  fixture_write (fixture, "metres.ifc", metres, -1);
  g_autoptr (TrnMesh) given = fixture_import (fixture, "metres.ifc", TRN_LENGTH_MM, TRN_UP_Z);
  assert_body (given, 0, 0, 0, 0.003, 1e-8);
  const TrnDiag *unit = fixture_find (fixture, "import/unit-contradicts");
  g_assert_cmpstr (trn_diag_get (unit, "declared")->text, ==, "m");
}

/* The box with two joints, half of its corners to each, with that weight. */
static TrnMesh *
import_skin (Fixture *fixture, const char *joint, float weight)
{
  g_autoptr (GByteArray) bin = fixture_gltf_box (trn_vec3_make (BODY_X, BODY_Y, BODY_Z));
  for (guint8 i = 0; i < 8; i++)
    {
      const guint8 joints[4] = { i % 2, 0, 0, 0 };
      g_byte_array_append (bin, joints, 4);
    }
  for (int i = 0; i < 8; i++)
    {
      const float weights[4] = { weight, 0, 0, 0 };
      g_byte_array_append (bin, (const guint8 *)weights, sizeof weights);
    }
  for (int i = 0; i < 2; i++)
    {
      const float identity[16] = { 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1 };
      g_byte_array_append (bin, (const guint8 *)identity, sizeof identity);
    }
  g_autofree char *json = g_strdup_printf (
      "{\"asset\":{\"version\":\"2.0\"},\"scene\":0,\"scenes\":[{\"nodes\":[0,1,2]}],"
      "\"nodes\":[{\"mesh\":0,\"skin\":0},{\"name\":\"a\",\"translation\":[5,0,0]},"
      "{\"name\":\"b\",\"translation\":[%s]}],"
      "\"skins\":[{\"joints\":[1,2],\"inverseBindMatrices\":4}],"
      "\"buffers\":[{\"byteLength\":%u}],"
      "\"bufferViews\":[{\"buffer\":0,\"byteOffset\":0,\"byteLength\":96},"
      "{\"buffer\":0,\"byteOffset\":96,\"byteLength\":72},"
      "{\"buffer\":0,\"byteOffset\":168,\"byteLength\":32},"
      "{\"buffer\":0,\"byteOffset\":200,\"byteLength\":128},"
      "{\"buffer\":0,\"byteOffset\":328,\"byteLength\":128}],"
      "\"accessors\":[{\"bufferView\":0,\"componentType\":5126,\"count\":8,\"type\":\"VEC3\"},"
      "{\"bufferView\":1,\"componentType\":5123,\"count\":36,\"type\":\"SCALAR\"},"
      "{\"bufferView\":2,\"componentType\":5121,\"count\":8,\"type\":\"VEC4\"},"
      "{\"bufferView\":3,\"componentType\":5126,\"count\":8,\"type\":\"VEC4\"},"
      "{\"bufferView\":4,\"componentType\":5126,\"count\":2,\"type\":\"MAT4\"}],"
      "\"meshes\":[{\"primitives\":[{\"attributes\":{\"POSITION\":0,\"JOINTS_0\":2,"
      "\"WEIGHTS_0\":3},\"indices\":1}]}]}",
      joint, bin->len);
  g_autoptr (GByteArray) glb = fixture_glb (json, bin);
  fixture_write (fixture, "skin.glb", glb->data, glb->len);
  return fixture_import (fixture, "skin.glb", TRN_LENGTH_M, TRN_UP_Y);
}

/* Bones that all stand where the skin was made carry it along as one body; bones apart bend it, and
 * what becomes of a weight that is not one is told nowhere. */
static void
test_skin (Fixture *fixture, gconstpointer data)
{
  g_autoptr (TrnMesh) mesh = import_skin (fixture, "5,0,0", 1);
  g_assert_nonnull (mesh);
  fixture_assert_box (mesh, trn_vec3_make (5, -BODY_Z, 0), trn_vec3_make (6, 0, BODY_Y), 1e-6);
  fixture_assert_error (fixture, import_skin (fixture, "5,1,0", 1), "import/unsupported");
  fixture_assert_error (fixture, import_skin (fixture, "5,0,0", 0.9F), "import/unsupported");
}

/* A quadrilateral that crosses itself could be meant in two ways, and is covered by the four
 * triangles between its corners, whichever way it was meant. */
static void
test_bent (Fixture *fixture, gconstpointer data)
{
  fixture_write (fixture, "tie.obj", "v 0 0 0\nv 2 2 0\nv 2 0 0\nv 0 3 0\nf 1 2 3 4\n", -1);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "tie.obj", TRN_LENGTH_M, TRN_UP_Z);
  g_assert_nonnull (mesh);
  g_assert_cmpuint (mesh->n_triangles, ==, 4);
  const TrnDiag *bent = fixture_find (fixture, "import/bent");
  g_assert_nonnull (bent);
  g_assert_cmpfloat (trn_diag_get (bent, "polygons")->number, ==, 1);
  fixture_write (fixture, "tie.off", "OFF\n4 1 0\n0 0 0\n2 2 0\n2 0 0\n0 3 0\n4 0 1 2 3\n", -1);
  g_autoptr (TrnMesh) again = fixture_import (fixture, "tie.off", TRN_LENGTH_M, TRN_UP_Z);
  g_assert_nonnull (again);
  g_assert_cmpuint (again->n_triangles, ==, 4);
  g_assert_nonnull (fixture_find (fixture, "import/bent"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(path, func) g_test_add (path, Fixture, NULL, fixture_set_up, func, fixture_tear_down)
  ADD ("/import/dae/frames", test_dae_frames);
  ADD ("/import/dae/nodes", test_dae_nodes);
  ADD ("/import/dae/undeclared", test_dae_undeclared);
  ADD ("/import/dae/refused", test_dae_refused);
  ADD ("/import/dae/primitives", test_dae_primitives);
  ADD ("/import/fbx/frames", test_fbx_frames);
  ADD ("/import/fbx/transform", test_fbx_transform);
  ADD ("/import/fbx/refused", test_fbx_refused);
  ADD ("/import/fbx/inheritance", test_fbx_inheritance);
  ADD ("/import/ifc/body", test_ifc);
  ADD ("/import/skin", test_skin);
  ADD ("/import/bent", test_bent);
  return g_test_run ();
}
