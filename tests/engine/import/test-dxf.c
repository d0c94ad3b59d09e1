/* DXF, which the helper reads itself: unit, names, placings, and what is refused, mostly on a box
 * of 1 × 2 × 4 whose place tells its axes apart (see body.h). */
#include "body-look.h"

#include <string.h>

#define DXF_BLOCK(name, base, inside)                                                              \
  "  0\nBLOCK\n  8\n0\n  2\n" name "\n 70\n0\n" base inside "  0\nENDBLK\n  8\n0\n"
#define DXF_INSERT(name, pairs) "  0\nINSERT\n  8\nCRANE\n  2\n" name "\n" pairs
#define DXF_AT(x, y, z) " 10\n" x "\n 20\n" y "\n 30\n" z "\n"

static void
test_dxf (Fixture *fixture, gconstpointer data)
{
  g_autofree char *faces = body_dxf_faces ("PIPES", 1000);
  g_autofree char *text = body_dxf (DXF_MM, "", faces);
  g_autoptr (TrnMesh) mesh = import_text (fixture, "body.dxf", text, TRN_UP_Z);
  assert_body (mesh, 1);
  g_assert_cmpstr (mesh->parts[0].name, ==, "PIPES");
  g_assert_cmpuint (fixture->diags->items->len, ==, 0);
  /* Lines that end as on other systems. */
  g_autoptr (GString) returns = g_string_new (text);
  g_string_replace (returns, "\n", "\r\n", 0);
  g_autoptr (TrnMesh) again = import_text (fixture, "returns.dxf", returns->str, TRN_UP_Z);
  assert_body (again, 1);
  fixture_assert_error (fixture,
                        fixture_import (fixture, "body.dxf", TRN_LENGTH_M, TRN_UP_UNDECLARED),
                        "import/up-missing");
  g_autofree char *bare = body_dxf ("  9\n$INSUNITS\n 70\n     0\n", "", faces);
  fixture_assert_error (fixture, import_text (fixture, "bare.dxf", bare, TRN_UP_Z),
                        "import/unit-missing");
}

/* The same unit twice is one; two are a contradiction, in one header or in two. */
static void
test_dxf_units (Fixture *fixture, gconstpointer data)
{
  g_autofree char *faces = body_dxf_faces ("PIPES", 1000);
  g_autofree char *same = body_dxf (DXF_MM DXF_MM, "", faces);
  g_autoptr (TrnMesh) mesh = import_text (fixture, "same.dxf", same, TRN_UP_Z);
  assert_body (mesh, 1);
  g_autofree char *two = body_dxf (DXF_MM "  9\n$INSUNITS\n 70\n     6\n", "", faces);
  assert_text_error (fixture, "two.dxf", two, "import/damaged");
  g_autofree char *none = body_dxf ("  9\n$INSUNITS\n 70\n     0\n", "", faces);
  g_autofree char *headers
      = g_strconcat ("  0\nSECTION\n  2\nHEADER\n" DXF_MM "  0\nENDSEC\n", none, NULL);
  assert_text_error (fixture, "headers.dxf", headers, "import/damaged");
}

/* A pattern that fills an area may stand for a plate: it has no surface here, and that is said. */
static void
test_dxf_hatch (Fixture *fixture, gconstpointer data)
{
  g_autofree char *faces = body_dxf_faces ("PIPES", 1000);
  g_autofree char *with
      = g_strconcat (faces, "  0\nHATCH\n  8\nPIPES\n  2\nSOLID\n" DXF_AT ("0", "0", "0"), NULL);
  g_autofree char *text = body_dxf (DXF_MM, "", with);
  g_autoptr (TrnMesh) mesh = import_text (fixture, "hatch.dxf", text, TRN_UP_Z);
  assert_body (mesh, 1);
  const TrnDiag *dropped = fixture_find (fixture, "import/dropped");
  g_assert_nonnull (dropped);
  g_assert_cmpfloat (trn_diag_get (dropped, "lines")->number, ==, 1);
}

/* Far from the origin: what is written as text keeps its digits. A millimetre at 5,000 km. */
static void
test_dxf_far (Fixture *fixture, gconstpointer data)
{
  g_autofree char *text
      = body_dxf ("", "",
                  "  0\n3DFACE\n  8\nA\n" DXF_AT (
                      "4500000.001", "5400000.002",
                      "312.003") " 11\n4500001.001\n 21\n5400000.002\n 31\n312.003\n"
                                 " 12\n4500001.001\n 22\n5400003.002\n 32\n312.003\n");
  fixture_write (fixture, "far.dxf", text, -1);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "far.dxf", TRN_LENGTH_M, TRN_UP_Z);
  g_assert_nonnull (mesh);
  fixture_assert_box (mesh, trn_vec3_make (4500000.001, 5400000.002, 312.003),
                      trn_vec3_make (4500001.001, 5400003.002, 312.003), 0);
}

/* Moved by (10, 20, 30), turned by 90°, made twice as long in the block's X, with a base point of
 * (1, 0, 0): the block's x from −1 to 0 becomes y from 18 to 20; its y from 0 to 2 becomes x from
 * 10 down to 8. Twice, 100 apart along the block's X, which is Y now. Layer 0 goes to the
 * insert's. */
static void
test_dxf_insert (Fixture *fixture, gconstpointer data)
{
  g_autofree char *faces = body_dxf_faces ("0", 1);
  g_autofree char *blocks
      = g_strconcat ("  0\nBLOCK\n  8\n0\n  2\nbody\n 70\n0\n" DXF_AT ("1", "0", "0"), faces,
                     "  0\nENDBLK\n", NULL);
  g_autofree char *text = body_dxf (
      DXF_MM, blocks,
      DXF_INSERT ("BODY", DXF_AT ("10", "20", "30") " 41\n2\n 50\n90\n 70\n2\n 44\n100\n"));
  g_autoptr (TrnMesh) mesh = import_text (fixture, "insert.dxf", text, TRN_UP_Z);
  const double lo[3] = { 0.008, 0.018, 0.030 }, hi[3] = { 0.010, 0.120, 0.034 };
  assert_box (mesh, lo, hi, 4 * BODY_VOLUME * 1e-9);
  g_assert_cmpuint (mesh->n_triangles, ==, 24);
  g_assert_cmpuint (mesh->n_parts, ==, 1);
  g_assert_cmpstr (mesh->parts[0].name, ==, "CRANE");
}

/* A block in a block, mirrored by a scale of −1 in X; and one that stands on its side: with an
 * extrusion along +Y its X is −X, its Y is Z and its Z is Y. */
static void
test_dxf_nested (Fixture *fixture, gconstpointer data)
{
  g_autofree char *faces = body_dxf_faces ("A", 1);
  g_autofree char *inner = g_strconcat (
      "  0\nBLOCK\n  8\n0\n  2\nIN\n 70\n0\n" DXF_AT ("0", "0", "0"), faces, "  0\nENDBLK\n", NULL);
  g_autofree char *blocks
      = g_strconcat (inner,
                     DXF_BLOCK ("OUT", DXF_AT ("0", "0", "0"),
                                DXF_INSERT ("IN", DXF_AT ("5", "0", "0") " 41\n-1\n")),
                     NULL);
  g_autofree char *text = body_dxf (DXF_MM, blocks, DXF_INSERT ("OUT", DXF_AT ("0", "0", "100")));
  g_autoptr (TrnMesh) mesh = import_text (fixture, "nested.dxf", text, TRN_UP_Z);
  const double lo[3] = { 0.004, 0, 0.100 }, hi[3] = { 0.005, 0.002, 0.104 };
  assert_box (mesh, lo, hi, BODY_VOLUME * 1e-9);
  g_autofree char *side = body_dxf (
      DXF_MM, inner, DXF_INSERT ("IN", DXF_AT ("0", "0", "0") "210\n0\n220\n1\n230\n0\n"));
  g_autoptr (TrnMesh) standing = import_text (fixture, "side.dxf", side, TRN_UP_Z);
  const double lo2[3] = { -0.001, 0, 0 }, hi2[3] = { 0, 0.004, 0.002 };
  assert_box (standing, lo2, hi2, BODY_VOLUME * 1e-9);
  /* The insert points at itself. */
  g_autofree char *loop
      = body_dxf ("", DXF_BLOCK ("L", "", DXF_INSERT ("L", "")), DXF_INSERT ("L", ""));
  assert_text_error (fixture, "loop.dxf", loop, "import/damaged");
}

#define DXF_VERTEX(x, y, z, flags) "  0\nVERTEX\n  8\nP\n" DXF_AT (x, y, z) " 70\n" flags "\n"
#define DXF_FACE(a, b, c)                                                                          \
  "  0\nVERTEX\n  8\nP\n" DXF_AT ("0", "0", "0") " 70\n128\n 71\n" a "\n 72\n" b "\n 73\n" c "\n"
#define DXF_END "  0\nSEQEND\n  8\nP\n"

/* Both kinds of mesh that POLYLINE can be: faces by index, an edge of which may be hidden by a
 * minus; and rows of points, here a square tube of two rings, closed around. */
static void
test_dxf_meshes (Fixture *fixture, gconstpointer data)
{
  g_autofree char *faces = body_dxf (
      DXF_MM, "",
      "  0\nPOLYLINE\n  8\nP\n 66\n1\n 70\n64\n 71\n4\n 72\n4\n" DXF_VERTEX ("0", "0", "0", "192")
          DXF_VERTEX ("1", "0", "0", "192") DXF_VERTEX ("0", "2", "0", "192")
              DXF_VERTEX ("0", "0", "3", "192") DXF_FACE ("1", "3", "-2") DXF_FACE ("1", "2", "4")
                  DXF_FACE ("2", "3", "4") DXF_FACE ("-3", "1", "4") DXF_END);
  g_autoptr (TrnMesh) tetrahedron = import_text (fixture, "faces.dxf", faces, TRN_UP_Z);
  const double lo[3] = { 0, 0, 0 }, hi[3] = { 0.001, 0.002, 0.003 };
  assert_box (tetrahedron, lo, hi, 1e-9);
  g_autofree char *rows = body_dxf (
      DXF_MM, "",
      "  0\nPOLYLINE\n  8\nP\n 66\n1\n 70\n48\n 71\n2\n 72\n4\n" DXF_VERTEX ("0", "0", "0", "64")
          DXF_VERTEX ("1", "0", "0", "64") DXF_VERTEX ("1", "2", "0", "64")
              DXF_VERTEX ("0", "2", "0", "64") DXF_VERTEX ("0", "0", "4", "64")
                  DXF_VERTEX ("1", "0", "4", "64") DXF_VERTEX ("1", "2", "4", "64")
                      DXF_VERTEX ("0", "2", "4", "64") DXF_END);
  g_autoptr (TrnMesh) tube = import_text (fixture, "rows.dxf", rows, TRN_UP_Z);
  g_assert_nonnull (tube);
  g_assert_cmpuint (tube->n_triangles, ==, 8);
  g_assert_cmpuint (tube->n_vertices, ==, 8);
  fixture_assert_box (tube, trn_vec3_make (0, 0, 0), trn_vec3_make (0.001, 0.002, 0.004), 1e-12);
}

/* What has a surface and is not read is an error, in a block only when that is shown; lines and
 * texts are not. */
static void
test_dxf_refused (Fixture *fixture, gconstpointer data)
{
  static const struct
  {
    const char *blocks, *entities, *code;
  } cases[] = {
    { "", "  0\n3DSOLID\n  8\nA\n", "import/unsupported" },
    { "", "  0\nMESH\n  8\nA\n", "import/unsupported" },
    { "", "  0\nLINE\n  8\nA\n 39\n2.5\n" DXF_AT ("0", "0", "0"), "import/unsupported" },
    { DXF_BLOCK ("B", "", "  0\nREGION\n  8\nA\n"), DXF_INSERT ("b", ""), "import/unsupported" },
    { "  0\nBLOCK\n  8\n0\n  2\nX\n 70\n4\n  0\nENDBLK\n", DXF_INSERT ("X", ""),
      "import/unsupported" },
    { "", DXF_INSERT ("NONE", ""), "import/reference-missing" },
    { "", "  0\n3DFACE\n  8\nA\n" DXF_AT ("0", "0", "0"), "import/damaged" },
    { "", "  0\nLINE\n  8\nA\n" DXF_AT ("0", "0", "0"), "import/points-only" },
    { "", "  0\nTEXT\n  8\nA\n  1\nwords\n", "import/no-faces" },
    { "",
      "  0\nPOLYLINE\n  8\nP\n 70\n64\n" DXF_VERTEX ("0", "0", "0", "192") DXF_FACE ("1", "2", "3")
          DXF_END,
      "import/index-range" },
    { "",
      "  0\nPOLYLINE\n  8\nP\n 70\n16\n 71\n3\n 72\n3\n" DXF_VERTEX ("0", "0", "0", "64") DXF_END,
      "import/damaged" },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = body_dxf ("", cases[i].blocks, cases[i].entities);
      assert_text_error (fixture, "bad.dxf", text, cases[i].code);
    }
  assert_text_error (fixture, "binary.dxf", "AutoCAD Binary DXF\r\n\032", "import/unsupported");
  assert_text_error (fixture, "none.dxf", "  0\nEOF\n", "import/damaged");
  assert_text_error (fixture, "cut.dxf", "  0\nSECTION\n  2\nENTITIES\n  0\nLINE\n  8\n",
                     "import/damaged");
  g_autofree char *faces = body_dxf_faces ("A", 1);
  g_autofree char *entities
      = g_strconcat ("  0\nLINE\n  8\nA\n  0\nMTEXT\n  1\nwords\n", faces, NULL);
  g_autofree char *mixed
      = body_dxf (DXF_MM, DXF_BLOCK ("UNUSED", "", "  0\nBODY\n  8\nA\n"), entities);
  g_autoptr (TrnMesh) mesh = import_text (fixture, "mixed.dxf", mixed, TRN_UP_Z);
  assert_body (mesh, 0.001);
  const TrnDiag *dropped = fixture_find (fixture, "import/dropped");
  g_assert_nonnull (dropped);
  g_assert_cmpfloat (trn_diag_get (dropped, "lines")->number, ==, 1);
}

/* SOLID has its corners crosswise. */
static void
test_dxf_solid (Fixture *fixture, gconstpointer data)
{
  g_autofree char *text
      = body_dxf (DXF_MM, "",
                  "  0\nSOLID\n  8\nA\n" DXF_AT (
                      "0", "0", "0") " 11\n1\n 21\n0\n 31\n0\n"
                                     " 12\n0\n 22\n2\n 32\n0\n 13\n1\n 23\n2\n 33\n0\n");
  g_autoptr (TrnMesh) mesh = import_text (fixture, "solid.dxf", text, TRN_UP_Z);
  g_assert_nonnull (mesh);
  g_assert_cmpuint (mesh->n_triangles, ==, 2);
  g_assert_null (fixture_find (fixture, "import/bent"));
  fixture_assert_box (mesh, trn_vec3_make (0, 0, 0), trn_vec3_make (0.001, 0.002, 0), 1e-12);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(path, func) g_test_add (path, Fixture, NULL, fixture_set_up, func, fixture_tear_down)
  ADD ("/import/dxf/body", test_dxf);
  ADD ("/import/dxf/units", test_dxf_units);
  ADD ("/import/dxf/hatch", test_dxf_hatch);
  ADD ("/import/dxf/far", test_dxf_far);
  ADD ("/import/dxf/insert", test_dxf_insert);
  ADD ("/import/dxf/nested", test_dxf_nested);
  ADD ("/import/dxf/meshes", test_dxf_meshes);
  ADD ("/import/dxf/refused", test_dxf_refused);
  ADD ("/import/dxf/solid", test_dxf_solid);
  return g_test_run ();
}
