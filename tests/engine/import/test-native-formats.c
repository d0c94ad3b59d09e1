/* 3DS, AMF, 3MF and OFF, which the helper reads itself: unit, axes, names and placings, each
 * on a box of 1 × 2 × 4 whose place tells its axes apart (see body.h). */
#include "body-look.h"

#include <string.h>

static TrnMesh *
import_bytes (Fixture *fixture, const char *name, const GByteArray *bytes, TrnLengthUnit unit)
{
  fixture_write (fixture, name, bytes->data, bytes->len);
  return fixture_import (fixture, name, unit, TRN_UP_Z);
}

/* ---- 3DS ---- */

/* No unit and no axis is declared; the name of an object is its part's. */
static void
test_3ds (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GByteArray) bytes = body_3ds ("turbine", 1000, NULL, NULL);
  g_autoptr (TrnMesh) mesh = import_bytes (fixture, "body.3ds", bytes, TRN_LENGTH_MM);
  assert_body (mesh, 1);
  g_assert_cmpuint (mesh->n_parts, ==, 1);
  g_assert_cmpstr (mesh->parts[0].name, ==, "turbine");
  g_assert_cmpuint (fixture->diags->items->len, ==, 0);
  fixture_assert_error (fixture, import_bytes (fixture, "body.3ds", bytes, TRN_LENGTH_UNDECLARED),
                        "import/unit-missing");
  fixture_assert_error (fixture,
                        fixture_import (fixture, "body.3ds", TRN_LENGTH_M, TRN_UP_UNDECLARED),
                        "import/up-missing");
}

/* A copy is shown where the key frames name the object twice; a master scale is not agreed on. */
static void
test_3ds_refused (Fixture *fixture, gconstpointer data)
{
  const guint8 name[] = { 'b', 0, 0, 0, 0, 0, 0xff, 0xff };
  g_autoptr (GByteArray) head = body_3ds_chunk (0xb010, name, sizeof name);
  g_autoptr (GByteArray) track = body_3ds_chunk (0xb002, head->data, head->len);
  g_autoptr (GByteArray) one = body_3ds_chunk (0xb000, track->data, track->len);
  g_autoptr (GByteArray) once = body_3ds ("b", 1, NULL, one);
  g_autoptr (TrnMesh) mesh = import_bytes (fixture, "once.3ds", once, TRN_LENGTH_M);
  assert_body (mesh, 1);
  g_autoptr (GByteArray) tracks = g_byte_array_new ();
  g_byte_array_append (tracks, track->data, track->len);
  g_byte_array_append (tracks, track->data, track->len);
  g_autoptr (GByteArray) two = body_3ds_chunk (0xb000, tracks->data, tracks->len);
  g_autoptr (GByteArray) twice = body_3ds ("b", 1, NULL, two);
  fixture_assert_error (fixture, import_bytes (fixture, "twice.3ds", twice, TRN_LENGTH_M),
                        "import/unsupported");
  float scale = 25.4f;
  g_autoptr (GByteArray) master = body_3ds_chunk (0x0100, &scale, sizeof scale);
  g_autoptr (GByteArray) scaled = body_3ds ("b", 1, master, NULL);
  fixture_assert_error (fixture, import_bytes (fixture, "scaled.3ds", scaled, TRN_LENGTH_M),
                        "import/unsupported");
}

/* Key frames that move an object are not followed, which is said. */
static void
test_3ds_moving (Fixture *fixture, gconstpointer data)
{
  for (guint8 keys = 1; keys < 3; keys++)
    {
      const guint8 head[14] = { [10] = keys };
      g_autoptr (GByteArray) places = body_3ds_chunk (0xb020, head, sizeof head);
      g_autoptr (GByteArray) track = body_3ds_chunk (0xb002, places->data, places->len);
      g_autoptr (GByteArray) all = body_3ds_chunk (0xb000, track->data, track->len);
      g_autoptr (GByteArray) bytes = body_3ds ("b", 1, NULL, all);
      g_autoptr (TrnMesh) mesh = import_bytes (fixture, "moving.3ds", bytes, TRN_LENGTH_M);
      assert_body (mesh, 1);
      g_assert_true ((fixture_find (fixture, "import/animated") != NULL) == (keys > 1));
    }
}

/* Every length and index of the file is looked at: with each byte of it set to 255 in turn it is
 * an error or a mesh. */
static void
test_3ds_damaged (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GByteArray) bytes = body_3ds ("b", 1, NULL, NULL);
  bytes->data[bytes->len - 8] = 9;
  fixture_assert_error (fixture, import_bytes (fixture, "index.3ds", bytes, TRN_LENGTH_M),
                        "import/index-range");
  for (guint i = 0; i < 60; i++)
    {
      g_autoptr (GByteArray) bad = body_3ds ("b", 1, NULL, NULL);
      bad->data[i] = 0xff;
      g_autoptr (TrnMesh) mesh = import_bytes (fixture, "bad.3ds", bad, TRN_LENGTH_M);
      g_assert_true ((mesh == NULL) == trn_diags_have_errors (fixture->diags));
      g_assert_null (fixture_find (fixture, "import/crashed"));
    }
}

/* ---- AMF ---- */

static void
test_amf (Fixture *fixture, gconstpointer data)
{
  g_autofree char *text = body_amf (" unit=\"inch\" version=\"1.1\"", "", 1);
  g_autoptr (TrnMesh) mesh = import_text (fixture, "body.amf", text, TRN_UP_Z);
  assert_body (mesh, 0.0254);
  g_assert_cmpstr (mesh->parts[0].name, ==, "a & b");
  g_assert_cmpuint (fixture->diags->items->len, ==, 0);
  g_autofree char *bare = body_amf ("", "", 1);
  fixture_assert_error (fixture, import_text (fixture, "bare.amf", bare, TRN_UP_Z),
                        "import/unit-missing");
  /* In a ZIP archive, packed and not. */
  const char *const files[] = { "body.amf", text, NULL };
  for (int packed = 0; packed < 2; packed++)
    {
      g_autoptr (GByteArray) zip = body_zip (files, packed == 1);
      g_autoptr (TrnMesh) unpacked = import_bytes (fixture, "zip.amf", zip, TRN_LENGTH_UNDECLARED);
      assert_body (unpacked, 0.0254);
    }
}

/* Turned by 90 degrees about Z, moved, and that in another constellation again: the object itself
 * is not shown besides. (x, y) becomes (−y, x): x from −2 to 0. */
static void
test_amf_constellation (Fixture *fixture, gconstpointer data)
{
  g_autofree char *text = body_amf (
      " unit=\"meter\"",
      "<constellation id=\"3\"><instance objectid=\"2\"><deltaz>100</deltaz></instance>"
      "</constellation>"
      "<constellation id=\"2\"><instance objectid=\"1\"><deltax>10</deltax><deltay>20</deltay>"
      "<deltaz>30</deltaz><rz>90</rz></instance></constellation>",
      1);
  g_autoptr (TrnMesh) mesh = import_text (fixture, "placed.amf", text, TRN_UP_Z);
  const double lo[3] = { 8, 20, 130 }, hi[3] = { 10, 21, 134 };
  assert_box (mesh, lo, hi, BODY_VOLUME);
  g_assert_cmpuint (mesh->n_triangles, ==, 12);
}

static void
test_amf_bad (Fixture *fixture, gconstpointer data)
{
  static const struct
  {
    const char *unit, *objects, *code;
  } cases[] = {
    { " unit=\"league\"", "", "import/unsupported" },
    { "", "<constellation id=\"2\"><instance/></constellation>", "import/damaged" },
    { "",
      "<object id=\"2\"><mesh><volume><triangle><v1>0</v1><v2>1</v2></triangle></volume></mesh>"
      "</object>",
      "import/damaged" },
    { "",
      "<constellation id=\"2\"><instance objectid=\"1\"><rx>5</rx><ry>5</ry></instance>"
      "</constellation>",
      "import/unsupported" },
    { "", "<constellation id=\"2\"><instance objectid=\"7\"/></constellation>",
      "import/reference-missing" },
    { "", "<object id=\"1\"></object>", "import/damaged" },
    { "",
      "<constellation id=\"2\"><instance objectid=\"2\"/></constellation>"
      "<constellation id=\"3\"><instance objectid=\"2\"/></constellation>",
      "import/damaged" },
    { "",
      "<object id=\"2\"><mesh><vertices><vertex><coordinates><x>1</x><y>2</y></coordinates>"
      "</vertex></vertices></mesh></object>",
      "import/damaged" },
    { "",
      "<object id=\"2\"><mesh><volume><triangle><v1>0</v1><v2>0</v2><v3>0</v3></triangle>"
      "</volume><vertices><vertex><coordinates><x>1</x><y>nan</y><z>1</z></coordinates>"
      "</vertex></vertices></mesh></object>",
      "import/damaged" },
    { "",
      "<object id=\"2\"><mesh><vertices><vertex><coordinates><x>1</x><y>1</y><z>1</z>"
      "</coordinates></vertex></vertices><volume><triangle><v1>0</v1><v2>0</v2><v3>1</v3>"
      "</triangle></volume></mesh></object>",
      "import/index-range" },
    { "",
      "<object id=\"2\"><mesh><vertices><vertex><coordinates><x>1</x><y>1</y><z>1</z>"
      "</coordinates><normal><nx>0</nx></normal></vertex></vertices></mesh></object>",
      "import/unsupported" },
    { "", "</object>", "import/damaged" },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = body_amf (cases[i].unit, cases[i].objects, 1);
      assert_text_error (fixture, "bad.amf", text, cases[i].code);
    }
  assert_text_error (fixture, "bad.amf", "<html></html>", "import/damaged");
  /* An entity that would grow is none of the five that are known. */
  g_autofree char *bomb = body_amf ("", "<object id=\"&bomb;\"/>", 1);
  g_autoptr (TrnMesh) mesh = import_text (fixture, "bomb.amf", bomb, TRN_UP_Z);
  g_assert_null (mesh);
  g_assert_nonnull (fixture_find (fixture, "import/unit-missing"));
}

/* ---- 3MF ---- */

static TrnMesh *
import_3mf (Fixture *fixture, const char *attributes, const char *objects, const char *build)
{
  g_autofree char *model = body_3mf_model (attributes, objects, build, 1);
  g_autoptr (GByteArray) archive = body_3mf (model);
  fixture_write (fixture, "body.3mf", archive->data, archive->len);
  return fixture_import (fixture, "body.3mf", TRN_LENGTH_UNDECLARED, TRN_UP_UNDECLARED);
}

/* Z is up by the format. The numbers of a transform are the rows of a matrix that a row of
 * coordinates is multiplied by: these turn by 90° about Z and move. */
static void
test_3mf (Fixture *fixture, gconstpointer data)
{
  g_autoptr (TrnMesh) plain = import_3mf (fixture, " unit=\"inch\"", "", "<item objectid=\"1\"/>");
  assert_body (plain, 0.0254);
  g_assert_cmpstr (plain->parts[0].name, ==, "body");
  const TrnDiag *experimental = fixture_find (fixture, "import/experimental");
  g_assert_nonnull (experimental);
  g_assert_cmpstr (trn_diag_get (experimental, "format")->text, ==, "3MF");
  g_autoptr (TrnMesh) placed
      = import_3mf (fixture, " unit=\"meter\"",
                    "<object id=\"2\"><components><component objectid=\"1\""
                    " transform=\"0 1 0 -1 0 0 0 0 1 10 20 30\"/></components></object>",
                    "<item objectid=\"2\" transform=\"1 0 0 0 1 0 0 0 1 0 0 100\"/>");
  const double lo[3] = { 8, 20, 130 }, hi[3] = { 10, 21, 134 };
  assert_box (placed, lo, hi, BODY_VOLUME);
  fixture_assert_error (fixture, import_3mf (fixture, "", "", "<item objectid=\"1\"/>"),
                        "import/unit-missing");
}

static void
test_3mf_bad (Fixture *fixture, gconstpointer data)
{
  static const struct
  {
    const char *objects, *build, *code;
  } cases[] = {
    { "", "", "import/no-faces" },
    { "", "<item objectid=\"7\"/>", "import/reference-missing" },
    { "", "<item objectid=\"1\" p:path=\"/3D/other.model\"/>", "import/unsupported" },
    { "", "<item objectid=\"1\" transform=\"1 0 0\"/>", "import/damaged" },
    { "<object id=\"2\"><b:beamlattice/></object>", "<item objectid=\"1\"/>",
      "import/unsupported" },
    { "<object id=\"2\"><components><component objectid=\"2\"/></components></object>",
      "<item objectid=\"2\"/>", "import/damaged" },
    { "<object id=\"1\"/>", "<item objectid=\"1\"/>", "import/damaged" },
    { "<object id=\"2\"><mesh><vertices><vertex x=\"1\" y=\"2\"/></vertices></mesh></object>",
      "<item objectid=\"1\"/>", "import/damaged" },
    { "<object id=\"2\"><mesh><vertices><vertex x=\"1\" y=\"2\" "
      "z=\"3m\"/></vertices></mesh></object>",
      "<item objectid=\"1\"/>", "import/damaged" },
    { "<object id=\"2\"><mesh><triangles><triangle v1=\"0\" v2=\"1\"/></triangles></mesh></object>",
      "<item objectid=\"1\"/>", "import/damaged" },
    { "<object id=\"2\"><components><component/></components></object>", "<item objectid=\"1\"/>",
      "import/damaged" },
    { "<object id=\"2\">", "<item objectid=\"1\"/>", "import/damaged" },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_test_message ("%s %s", cases[i].objects, cases[i].build);
      fixture_assert_error (
          fixture, import_3mf (fixture, " unit=\"meter\"", cases[i].objects, cases[i].build),
          cases[i].code);
    }
  fixture_assert_error (fixture,
                        import_3mf (fixture, " unit=\"league\"", "", "<item objectid=\"1\"/>"),
                        "import/unsupported");
  const char *const unnamed[] = { "_rels/.rels", "<Relationships/>", NULL };
  g_autoptr (GByteArray) nameless = body_zip (unnamed, FALSE);
  fixture_assert_error (fixture, import_bytes (fixture, "nameless.3mf", nameless, TRN_LENGTH_M),
                        "import/damaged");
  const char *const files[] = { "other.txt", "nothing", NULL };
  g_autoptr (GByteArray) zip = body_zip (files, TRUE);
  fixture_assert_error (fixture, import_bytes (fixture, "other.3mf", zip, TRN_LENGTH_M),
                        "import/damaged");
  assert_text_error (fixture, "words.3mf", "this is no model\n", "import/damaged");
}

/* An archive that claims more than it holds, or that holds more than it claims. */
static void
test_3mf_sizes (Fixture *fixture, gconstpointer data)
{
  g_autofree char *model = body_3mf_model (" unit=\"meter\"", "", "<item objectid=\"1\"/>", 1);
  for (int change = -1; change < 2; change += 2)
    {
      g_autoptr (GByteArray) archive = body_3mf (model);
      guint at = archive->len;
      while (memcmp (archive->data + at - 4, "PK\001\002", 4) != 0)
        at--;
      guint32 size;
      memcpy (&size, archive->data + at + 20, sizeof size);
      size += (guint32)change;
      memcpy (archive->data + at + 20, &size, sizeof size);
      fixture_assert_error (fixture, import_bytes (fixture, "size.3mf", archive, TRN_LENGTH_M),
                            "import/damaged");
    }
}

/* ---- all of them ---- */

/* Corners that faces share by index are one vertex in the file already; those of facets are three
 * for each, of which 36 become 8. An OBJ's own vertices are counted, of which the library makes
 * three for each triangle. */
static void
test_joined (Fixture *fixture, gconstpointer data)
{
  g_autofree char *amf = body_amf (" unit=\"meter\"", "", 1);
  g_autoptr (TrnMesh) by_index = import_text (fixture, "body.amf", amf, TRN_UP_Z);
  assert_body (by_index, 1);
  g_assert_cmpuint (fixture->report.joined, ==, 0);
  g_assert_true (fixture->report.counted);
  g_autofree char *faces = body_dxf_faces ("A", 1);
  g_autofree char *dxf = body_dxf (DXF_MM, "", faces);
  g_autoptr (TrnMesh) apart = import_text (fixture, "body.dxf", dxf, TRN_UP_Z);
  assert_body (apart, 0.001);
  g_assert_cmpuint (fixture->report.joined, ==, 28);
  g_autoptr (GByteArray) stl = fixture_stl_box (trn_vec3_make (1, 2, 4));
  g_autoptr (TrnMesh) facets = import_bytes (fixture, "body.stl", stl, TRN_LENGTH_M);
  assert_body (facets, 1);
  g_assert_cmpuint (fixture->report.joined, ==, 28);
  /* The last two vertices are one place; the first is used by no face. */
  static const char obj[] = "v 9 9 9\nv 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\nv 0 1 0\n"
                            "f 2 3 4\nf 2 4 5\nf -4 -3 -1\n";
  fixture_write (fixture, "body.obj", obj, -1);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "body.obj", TRN_LENGTH_M, TRN_UP_Z);
  g_assert_nonnull (mesh);
  g_assert_cmpuint (fixture->report.joined, ==, 1);
}

/* ---- OFF ---- */

static char *
off_text (const char *head, const char *after_corner)
{
  g_autofree char *corners = body_corners_text (1000, " ", after_corner);
  g_autofree char *indices = body_indices_text (" ", "\n3 ");
  indices[strlen (indices) - 2] = '\0';
  return g_strconcat (head, corners, "3 ", indices, NULL);
}

static void
test_off (Fixture *fixture, gconstpointer data)
{
  static const struct
  {
    const char *head, *after;
  } cases[] = {
    { "OFF\n8 12 0\n", "\n" },
    { "OFF 8 12 0 # in one line\n\n# more\n", "\n" },
    { "8 12 18\n", "\n" },
    { "COFF\n8 12 0\n", " 255 0 0 255\n" },
    { "NOFF\n8 12 0\n", " 0 0 1\n" },
    { "STOFF\n8 12 0\n", " 0.5 0.25\n" },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = off_text (cases[i].head, cases[i].after);
      fixture_write (fixture, "body.off", text, -1);
      g_autoptr (TrnMesh) mesh = fixture_import (fixture, "body.off", TRN_LENGTH_MM, TRN_UP_Z);
      assert_body (mesh, 1);
      const TrnDiag *experimental = fixture_find (fixture, "import/experimental");
      g_assert_nonnull (experimental);
      g_assert_cmpstr (trn_diag_get (experimental, "format")->text, ==, "OFF");
    }
}

static void
test_off_bad (Fixture *fixture, gconstpointer data)
{
  static const struct
  {
    const char *text, *code;
  } cases[] = {
    { "words\n", "import/damaged" },
    { "OFF\n353535235358 1 1\n", "import/count" },
    { "OFF\n3 9999 1\n0 0 0\n1 0 0\n1 1 0\n", "import/count" },
    { "OFF BINARY\n3 1 0\n", "import/unsupported" },
    { "4OFF\n3 1 0\n", "import/unsupported" },
    { "# no more than a remark\n", "import/damaged" },
    { "NOFF\n3 1 0\n0 0 0 0 0 up\n1 0 0 0 0 1\n1 1 0 0 0 1\n3 0 1 2\n", "import/damaged" },
    { "OFF\n3 1 0\n0 0 0\n1 0 0\n1 1 0\n3 0 1 3\n", "import/index-range" },
    { "OFF\n3 1 0\n0 0 0\n1 0 0\n1 1 0\n3 0 1\n", "import/damaged" },
    { "OFF\n3 1 0\n0 0 0\n1 0 0\n1 1 0\n", "import/damaged" },
    { "OFF\n3 1 0\n0 0 0 1 0 0\n1 1 0\n3 0 1 2\n", "import/damaged" },
    { "OFF\n3 1 0\n0 0 0\n1 0 0\n1 1 0\n3 0 1 2\n3 0 1 2\n", "import/damaged" },
    { "OFF\n3 0 0\n0 0 0\n1 0 0\n1 1 0\n", "import/points-only" },
    { "OFF\n3 1 0\n0 0 0\n1 0 inf\n1 1 0\n3 0 1 2\n", "import/damaged" },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    assert_text_error (fixture, "bad.off", cases[i].text, cases[i].code);
}

/* Numbers in text are the nearest of double precision: against the C library's, which is right
 * with glibc. */
static void
test_numbers (Fixture *fixture, gconstpointer data)
{
  enum
  {
    N = 999
  };
  static const char *const forms[] = { "%.3f", "%.9e", "%.17g", "%.12f", "%.20f", "%.0f" };
  g_autofree double *truth = g_new (double, N);
  GString *text = g_string_new (NULL);
  g_string_printf (text, "OFF\n%d %d 0\n", N / 3, N / 9);
  for (int i = 0; i < N; i++)
    {
      char number[64];
      const char *form = forms[g_test_rand_int_range (0, G_N_ELEMENTS (forms))];
      g_ascii_formatd (number, sizeof number, form, g_test_rand_double_range (-900, 900));
      truth[i] = g_ascii_strtod (number, NULL);
      g_string_append_printf (text, "%s%s", number, i % 3 == 2 ? "\n" : " ");
    }
  for (int t = 0; t < N / 9; t++)
    g_string_append_printf (text, "3 %d %d %d\n", 3 * t, 3 * t + 1, 3 * t + 2);
  fixture_write (fixture, "numbers.off", text->str, (gssize)text->len);
  g_string_free (text, TRUE);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "numbers.off", TRN_LENGTH_M, TRN_UP_Z);
  g_assert_nonnull (mesh);
  for (guint32 t = 0; t < mesh->n_triangles; t++)
    {
      TrnVec3 c[3];
      trn_mesh_corners (mesh, t, c);
      for (int k = 0; k < 3; k++)
        {
          const double *v = truth + 9 * t + 3 * k;
          g_assert_true (c[k].x == v[0] && c[k].y == v[1] && c[k].z == v[2]);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(path, func) g_test_add (path, Fixture, NULL, fixture_set_up, func, fixture_tear_down)
  ADD ("/import/3ds/body", test_3ds);
  ADD ("/import/3ds/refused", test_3ds_refused);
  ADD ("/import/3ds/moving", test_3ds_moving);
  ADD ("/import/3ds/damaged", test_3ds_damaged);
  ADD ("/import/amf/body", test_amf);
  ADD ("/import/amf/constellation", test_amf_constellation);
  ADD ("/import/amf/bad", test_amf_bad);
  ADD ("/import/3mf/body", test_3mf);
  ADD ("/import/3mf/bad", test_3mf_bad);
  ADD ("/import/3mf/sizes", test_3mf_sizes);
  ADD ("/import/joined", test_joined);
  ADD ("/import/off/body", test_off);
  ADD ("/import/off/bad", test_off_bad);
  ADD ("/import/off/numbers", test_numbers);
  return g_test_run ();
}
