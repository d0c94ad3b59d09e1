/* What good files become: coordinates, parts, units, axes, transforms. */
#include "fixture.h"
#include "mesh-check.h"

#include <string.h>
#include <unistd.h>

/* Two objects of one quad each, the second with two materials, which the import library keeps as
 * two meshes: parts are the objects of the file. */
static const char two_objects[] = "mtllib nowhere.mtl\n"
                                  "o casing\nv 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\nf 1 2 3 4\n"
                                  "o flange_ring\nv 0 0 2.5\nv 1 0 2.5\nv 1 1 2.5\nv 0 1 2.5\n"
                                  "usemtl red\nf 5 6 7\nusemtl blue\nf 5 7 8\n";

static void
test_obj (Fixture *fixture, gconstpointer data)
{
  fixture_write (fixture, "two.obj", two_objects, -1);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "two.obj", TRN_LENGTH_M, TRN_UP_Z);
  g_assert_nonnull (mesh);
  g_assert_cmpuint (fixture->diags->items->len, ==, 0);
  g_assert_cmpuint (mesh->n_parts, ==, 2);
  g_assert_cmpstr (mesh->parts[0].name, ==, "casing");
  g_assert_cmpstr (mesh->parts[1].name, ==, "flange_ring");
  g_assert_cmpuint (mesh->parts[0].count, ==, 2);
  g_assert_cmpuint (mesh->parts[1].count, ==, 2);
  g_assert_cmpuint (mesh->n_vertices, ==, 8);
  fixture_assert_box (mesh, trn_vec3_make (0, 0, 0), trn_vec3_make (1, 1, 2.5), 0);
  /* Counter-clockwise seen from above stays so. */
  for (guint32 t = 0; t < 4; t++)
    {
      TrnVec3 c[3];
      trn_mesh_corners (mesh, t, c);
      g_assert_cmpfloat (trn_vec3_cross (trn_vec3_sub (c[1], c[0]), trn_vec3_sub (c[2], c[0])).z,
                         ==, 1);
    }
}

/* The digest is that of the bytes, whatever becomes of them. */
/* Two bytes a letter, low byte first or last, behind a mark. */
static GByteArray *
utf16_from (const char *text, gboolean high_first)
{
  GByteArray *bytes = g_byte_array_new ();
  g_autofree gunichar2 *letters = g_utf8_to_utf16 (text, -1, NULL, NULL, NULL);
  for (gsize i = 0; i == 0 || letters[i - 1] != 0; i++)
    {
      const guint letter = i == 0 ? 0xfeff : letters[i - 1];
      const guint8 pair[2] = { (guint8)(high_first ? letter >> 8 : letter & 255),
                               (guint8)(high_first ? letter & 255 : letter >> 8) };
      g_byte_array_append (bytes, pair, 2);
    }
  return bytes;
}

/* A quad whose first line is a vertex, with a name that is not plain. */
#define MARKED "v 0 0 0\nv 2 0 0\nv 2 1 0\nv 0 1 0\no pump \u00fc\u2300 \U0001f529\nf -4 -3 -2 -1\n"

static void
assert_marked (Fixture *fixture, const GByteArray *bytes, const char *code)
{
  fixture_write (fixture, "marked.obj", bytes->data, bytes->len);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "marked.obj", TRN_LENGTH_M, TRN_UP_Z);
  if (code != NULL)
    {
      fixture_assert_error (fixture, mesh, code);
      return;
    }
  g_assert_nonnull (mesh);
  g_assert_cmpuint (fixture->diags->items->len, ==, 0);
  fixture_assert_box (mesh, trn_vec3_make (0, 0, 0), trn_vec3_make (2, 1, 0), 0);
  g_assert_cmpstr (mesh->parts[0].name, ==, "pump \u00fc\u2300 \U0001f529");
  g_assert_true (fixture->report.counted);
}

/* What some programs put in front of a text does not take its first line away, and text of two
 * bytes a letter is text; one that ends within a letter, or holds half of one, is not read in
 * part. */
static void
test_byte_marks (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GByteArray) marked = g_byte_array_new ();
  g_byte_array_append (marked, (const guint8 *)"\ufeff" MARKED, strlen ("\ufeff" MARKED));
  assert_marked (fixture, marked, NULL);
  for (int high_first = 0; high_first < 2; high_first++)
    {
      g_autoptr (GByteArray) wide = utf16_from (MARKED, high_first);
      assert_marked (fixture, wide, NULL);
      g_byte_array_append (wide, (const guint8 *)"f", 1);
      assert_marked (fixture, wide, "import/damaged");
      const guint8 half[2] = { high_first ? 0xd8 : 0, high_first ? 0 : 0xd8 };
      g_byte_array_set_size (wide, wide->len - 1);
      g_byte_array_append (wide, half, 2);
      assert_marked (fixture, wide, "import/damaged");
      g_byte_array_set_size (wide, wide->len - 2);
      g_byte_array_append (wide, (const guint8 *)"\0\0", 2);
      assert_marked (fixture, wide, "import/damaged");
    }
  static const char ply[] = "\ufeffply\nformat ascii 1.0\nelement vertex 3\nproperty float x\n"
                            "property float y\nproperty float z\nelement face 1\n"
                            "property list uchar int vertex_indices\nend_header\n"
                            "0 0 0\n2 0 0\n2 1 0\n3 0 1 2\n";
  static const char off[] = "\ufeffOFF\n3 1 0\n0 0 0\n2 0 0\n2 1 0\n3 0 1 2\n";
  for (int is_off = 0; is_off < 2; is_off++)
    {
      const char *name = is_off ? "marked.off" : "marked.ply";
      fixture_write (fixture, name, is_off ? off : ply, -1);
      g_autoptr (TrnMesh) mesh = fixture_import (fixture, name, TRN_LENGTH_M, TRN_UP_Z);
      g_assert_nonnull (mesh);
      fixture_assert_box (mesh, trn_vec3_make (0, 0, 0), trn_vec3_make (2, 1, 0), 0);
    }
  const guint8 mark[3] = { 0xff, 0xfe, 0 };
  for (guint n = 2; n <= 3; n++)
    {
      g_byte_array_set_size (marked, 0);
      g_byte_array_append (marked, mark, n);
      assert_marked (fixture, marked, "import/damaged");
    }
}

static void
test_sha256 (Fixture *fixture, gconstpointer data)
{
  g_autofree char *expected = g_compute_checksum_for_string (G_CHECKSUM_SHA256, two_objects, -1);
  fixture_write (fixture, "two.obj", two_objects, -1);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "two.obj", TRN_LENGTH_M, TRN_UP_Z);
  g_assert_nonnull (mesh);
  g_assert_cmpstr (fixture->sha256, ==, expected);
  g_autoptr (TrnMesh) none = fixture_import (fixture, "two.obj", TRN_LENGTH_UNDECLARED, TRN_UP_Z);
  g_assert_null (none);
  g_assert_cmpstr (fixture->sha256, ==, expected);
}

/* A cube of 1000 mm is one of 1 m; its 36 corners are 8 points; its facets look outwards. */
static void
test_stl_binary (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GByteArray) stl = fixture_stl_box (trn_vec3_make (1000, 1000, 1000));
  fixture_write (fixture, "cube.STL", stl->data, stl->len);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "cube.STL", TRN_LENGTH_MM, TRN_UP_Z);
  g_assert_nonnull (mesh);
  g_assert_cmpuint (mesh->n_vertices, ==, 8);
  g_assert_cmpuint (mesh->n_triangles, ==, 12);
  g_assert_cmpuint (mesh->n_parts, ==, 1);
  g_assert_cmpstr (mesh->parts[0].name, ==, "");
  fixture_assert_box (mesh, trn_vec3_make (0, 0, 0), trn_vec3_make (1, 1, 1), 0);
  g_assert_cmpfloat_with_epsilon (fixture_volume (mesh), 1, 1e-15);
  /* One that was cut short, and one with something behind it. */
  fixture_write (fixture, "cut.stl", stl->data, stl->len - 50);
  fixture_assert_error (fixture, fixture_import (fixture, "cut.stl", TRN_LENGTH_MM, TRN_UP_Z),
                        "import/count");
  g_byte_array_append (stl, (const guint8 *)"", 1);
  fixture_write (fixture, "more.stl", stl->data, stl->len);
  fixture_assert_error (fixture, fixture_import (fixture, "more.stl", TRN_LENGTH_MM, TRN_UP_Z),
                        "import/damaged");
}

/* Each unit's exact value, on a 1 × 2 × 4 box. With Y up, (x, y, z) becomes (x, −z, y). */
static void
test_units_and_axes (Fixture *fixture, gconstpointer data)
{
  static const struct
  {
    const char *name;
    TrnLengthUnit unit;
    double metres;
  } units[] = { { "m", TRN_LENGTH_M, 1 },
                { "mm", TRN_LENGTH_MM, 0.001 },
                { "cm", TRN_LENGTH_CM, 0.01 },
                { "ft", TRN_LENGTH_FT, 0.3048 },
                { "in", TRN_LENGTH_IN, 0.0254 } };
  g_autoptr (GByteArray) stl = fixture_stl_box (trn_vec3_make (1, 2, 4));
  fixture_write (fixture, "box.stl", stl->data, stl->len);
  for (guint i = 0; i < G_N_ELEMENTS (units); i++)
    {
      double m = units[i].metres;
      g_assert_cmpint (trn_length_unit_from_name (units[i].name), ==, units[i].unit);
      g_assert_cmpfloat (trn_length_unit_metres (units[i].unit), ==, m);
      g_autoptr (TrnMesh) z_up = fixture_import (fixture, "box.stl", units[i].unit, TRN_UP_Z);
      g_autoptr (TrnMesh) y_up = fixture_import (fixture, "box.stl", units[i].unit, TRN_UP_Y);
      fixture_assert_box (z_up, trn_vec3_make (0, 0, 0), trn_vec3_make (m, 2 * m, 4 * m), 0);
      fixture_assert_box (y_up, trn_vec3_make (0, -4 * m, 0), trn_vec3_make (m, 0, 2 * m), 0);
      g_assert_cmpfloat_with_epsilon (fixture_volume (y_up), 8 * m * m * m, 1e-14);
    }
  g_assert_cmpint (trn_length_unit_from_name ("yd"), ==, TRN_LENGTH_UNDECLARED);
  g_assert_cmpint (trn_length_unit_from_name (NULL), ==, TRN_LENGTH_UNDECLARED);
}

static void
test_stl_ascii (Fixture *fixture, gconstpointer data)
{
  static const char text[] = "solid seal_ring\n"
                             " facet normal 0 0 1\n  outer loop\n   vertex 0.5 0 0\n"
                             "   vertex 1.5e+00 0 0\n   vertex 0 2.5E-1 -3\n  endloop\n endfacet\n"
                             "endsolid seal_ring\n";
  fixture_write (fixture, "ring.stl", text, -1);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "ring.stl", TRN_LENGTH_M, TRN_UP_Z);
  g_assert_nonnull (mesh);
  g_assert_cmpuint (mesh->n_triangles, ==, 1);
  g_assert_cmpstr (mesh->parts[0].name, ==, "seal_ring");
  fixture_assert_box (mesh, trn_vec3_make (0, 0, -3), trn_vec3_make (1.5, 0.25, 0), 0);
}

/* A polygon of five corners becomes three triangles; a point that no face uses is not in the box.
 */
static void
test_ply (Fixture *fixture, gconstpointer data)
{
  static const char text[] = "ply\nformat ascii 1.0\nelement vertex 6\nproperty float x\n"
                             "property float y\nproperty float z\nelement face 1\n"
                             "property list uchar int vertex_indices\nend_header\n"
                             "0 0 1\n2 0 1\n2 1 1\n1 2 1\n0 1 1\n50 50 50\n5 0 1 2 3 4\n";
  fixture_write (fixture, "house.ply", text, -1);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "house.ply", TRN_LENGTH_M, TRN_UP_Z);
  g_assert_nonnull (mesh);
  g_assert_cmpuint (mesh->n_triangles, ==, 3);
  g_assert_cmpstr (mesh->parts[0].name, ==, "");
  fixture_assert_box (mesh, trn_vec3_make (0, 0, 1), trn_vec3_make (2, 2, 1), 0);
}

static double
triangle_area (const TrnMesh *mesh, guint32 triangle)
{
  TrnVec3 c[3];
  trn_mesh_corners (mesh, triangle, c);
  return trn_vec3_length (trn_vec3_cross (trn_vec3_sub (c[1], c[0]), trn_vec3_sub (c[2], c[0])))
         / 2;
}

/* A polygon that is not convex: an L of area 3, whose triangles must not spill over its notch. */
static void
test_concave_polygon (Fixture *fixture, gconstpointer data)
{
  fixture_write (fixture, "l.obj",
                 "v 0 0 0\nv 2 0 0\nv 2 1 0\nv 1 1 0\nv 1 2 0\nv 0 2 0\nf 1 2 3 4 5 6\n", -1);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "l.obj", TRN_LENGTH_M, TRN_UP_Z);
  g_assert_nonnull (mesh);
  g_assert_cmpuint (mesh->n_triangles, ==, 4);
  double area = 0;
  for (guint32 t = 0; t < 4; t++)
    area += triangle_area (mesh, t);
  g_assert_cmpfloat_with_epsilon (area, 3, 1e-15);
}

/* Random polygons that are not convex, in a tilted plane: star-shaped about their centre, so that
 * they do not cross themselves. The triangles' areas add up to that of the polygon, which is the
 * sum of the triangles at its centre, so none overlaps another or spills over. */
static void
test_random_polygons (Fixture *fixture, gconstpointer data)
{
  enum
  {
    POLYGONS = 60
  };
  GString *text = g_string_new (NULL);
  double expected[POLYGONS];
  guint corners[POLYGONS];
  guint first = 1;
  for (int p = 0; p < POLYGONS; p++)
    {
      guint n = corners[p] = (guint)g_test_rand_int_range (5, 60);
      double before = 0, start = 0;
      expected[p] = 0;
      g_string_append_printf (text, "o p%d\n", p);
      for (guint i = 0; i < n; i++)
        {
          char x[40], y[40], z[40];
          double r = g_test_rand_double_range (0.5, 4), angle = 2 * G_PI * i / n;
          double u = r * cos (angle), v = r * sin (angle);
          g_ascii_formatd (x, sizeof x, "%.9f", u);
          g_ascii_formatd (y, sizeof y, "%.9f", 0.6 * v);
          g_ascii_formatd (z, sizeof z, "%.9f", 0.8 * v);
          g_string_append_printf (text, "v %s %s %s\n", x, y, z);
          if (i == 0)
            start = r;
          else
            expected[p] += before * r * sin (2 * G_PI / n) / 2;
          before = r;
        }
      expected[p] += before * start * sin (2 * G_PI / n) / 2;
      g_string_append_c (text, 'f');
      for (guint i = 0; i < n; i++)
        g_string_append_printf (text, " %u", first + i);
      g_string_append_c (text, '\n');
      first += n;
    }
  fixture_write (fixture, "stars.obj", text->str, (gssize)text->len);
  g_string_free (text, TRUE);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "stars.obj", TRN_LENGTH_M, TRN_UP_Z);
  g_assert_nonnull (mesh);
  g_assert_cmpuint (mesh->n_parts, ==, POLYGONS);
  for (int p = 0; p < POLYGONS; p++)
    {
      double area = 0;
      g_assert_cmpuint (mesh->parts[p].count, ==, corners[p] - 2);
      for (guint32 t = 0; t < mesh->parts[p].count; t++)
        area += triangle_area (mesh, mesh->parts[p].first + t);
      g_assert_cmpfloat_with_epsilon (area, expected[p], 1e-4);
    }
}

/* One mesh under three nodes, 1 × 2 × 4, Y up as glTF has it:
 *  - "mast", moved by (10, 20, 30);
 *  - below it "boom", turned 90° about Y: x goes to −z, z to x; then "jib", mirrored in x and
 *    doubled in y, stands alone.
 * Each is compared with the same map done by hand, so each transform is applied once; a mirrored
 * box must still look outwards. */
static const char tree_nodes[]
    = "{\"name\":\"mast\",\"translation\":[10,20,30],\"mesh\":0,\"children\":[1]},"
      "{\"name\":\"boom\",\"rotation\":[0,0.70710678118,0,0.70710678118],\"mesh\":0,"
      "\"translation\":[100,0,0]},"
      "{\"name\":\"jib\",\"scale\":[-1,2,1],\"mesh\":0}";

static void
assert_part (const TrnMesh *mesh, guint part, const char *name, TrnVec3 lo, TrnVec3 hi)
{
  const TrnMeshPart *p = &mesh->parts[part];
  TrnBox box = trn_box_empty ();
  double volume = 0;
  for (guint32 t = p->first; t < p->first + p->count; t++)
    {
      TrnVec3 c[3];
      trn_mesh_corners (mesh, t, c);
      for (int i = 0; i < 3; i++)
        trn_box_add_point (&box, c[i]);
      volume += trn_vec3_dot (trn_vec3_sub (c[0], lo),
                              trn_vec3_cross (trn_vec3_sub (c[1], lo), trn_vec3_sub (c[2], lo)))
                / 6;
    }
  TrnVec3 size = trn_vec3_sub (hi, lo);
  g_assert_cmpstr (p->name, ==, name);
  g_assert_cmpuint (p->count, ==, 12);
  g_assert_cmpfloat (trn_vec3_max_abs (trn_vec3_sub (box.lo, lo)), <=, 1e-5);
  g_assert_cmpfloat (trn_vec3_max_abs (trn_vec3_sub (box.hi, hi)), <=, 1e-5);
  g_assert_cmpfloat_with_epsilon (volume, size.x * size.y * size.z, 1e-3);
}

static void
assert_tree (const Fixture *fixture, const TrnMesh *mesh)
{
  g_assert_nonnull (mesh);
  g_assert_cmpuint (fixture->diags->items->len, ==, 0);
  g_assert_cmpuint (mesh->n_parts, ==, 3);
  /* In the file: mast 10…11, 20…22, 30…34; boom 110…114, 20…22, 29…30; jib −1…0, 0…4, 0…4. */
  assert_part (mesh, 0, "mast", trn_vec3_make (10, -34, 20), trn_vec3_make (11, -30, 22));
  assert_part (mesh, 1, "boom", trn_vec3_make (110, -30, 20), trn_vec3_make (114, -29, 22));
  assert_part (mesh, 2, "jib", trn_vec3_make (-1, -4, 0), trn_vec3_make (0, 0, 4));
}

static void
test_gltf (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GByteArray) bin = fixture_gltf_box (trn_vec3_make (1, 2, 4));
  g_autofree char *text = fixture_gltf_text ("box.bin", tree_nodes, "0,2", "");
  fixture_write (fixture, "box.bin", bin->data, bin->len);
  fixture_write (fixture, "tree.gltf", text, -1);
  g_autoptr (TrnMesh) mesh
      = fixture_import (fixture, "tree.gltf", TRN_LENGTH_UNDECLARED, TRN_UP_UNDECLARED);
  assert_tree (fixture, mesh);
}

static void
test_glb (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GByteArray) bin = fixture_gltf_box (trn_vec3_make (1, 2, 4));
  g_autofree char *text = fixture_gltf_text (NULL, tree_nodes, "0,2", "");
  g_autoptr (GByteArray) glb = fixture_glb (text, bin);
  fixture_write (fixture, "tree.glb", glb->data, glb->len);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "tree.glb", TRN_LENGTH_M, TRN_UP_Y);
  assert_tree (fixture, mesh);
}

/* The plan's word wins over the file's, and both are said. */
static void
test_contradiction (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GByteArray) bin = fixture_gltf_box (trn_vec3_make (100, 200, 400));
  g_autofree char *text = fixture_gltf_text (NULL, "{\"mesh\":0}", "0", "");
  g_autoptr (GByteArray) glb = fixture_glb (text, bin);
  fixture_write (fixture, "box.glb", glb->data, glb->len);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "box.glb", TRN_LENGTH_CM, TRN_UP_Z);
  g_assert_nonnull (mesh);
  fixture_assert_box (mesh, trn_vec3_make (0, 0, 0), trn_vec3_make (1, 2, 4), 0);
  g_assert_cmpuint (trn_diags_count (fixture->diags, TRN_SEVERITY_WARNING), ==, 2);
  const TrnDiag *unit = fixture_find (fixture, "import/unit-contradicts");
  const TrnDiag *up = fixture_find (fixture, "import/up-contradicts");
  g_assert_cmpstr (trn_diag_get (unit, "declared")->text, ==, "m");
  g_assert_cmpstr (trn_diag_get (unit, "given")->text, ==, "cm");
  g_assert_cmpstr (trn_diag_get (up, "declared")->text, ==, "y");
  g_assert_cmpstr (trn_diag_get (up, "given")->text, ==, "z");
}

/* Points and lines beside faces are dropped, and said to be. */
static void
test_dropped (Fixture *fixture, gconstpointer data)
{
  fixture_write (fixture, "mixed.obj", "v 0 0 0\nv 1 0 0\nv 1 1 0\nv 5 5 5\nf 1 2 3\nl 1 4\np 4\n",
                 -1);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "mixed.obj", TRN_LENGTH_M, TRN_UP_Z);
  g_assert_nonnull (mesh);
  g_assert_cmpuint (mesh->n_triangles, ==, 1);
  fixture_assert_box (mesh, trn_vec3_make (0, 0, 0), trn_vec3_make (1, 1, 0), 0);
  const TrnDiag *dropped = fixture_find (fixture, "import/dropped");
  g_assert_nonnull (dropped);
  g_assert_cmpint (dropped->severity, ==, TRN_SEVERITY_WARNING);
  g_assert_cmpfloat (trn_diag_get (dropped, "lines")->number, ==, 1);
}

/* Of two objects one alone, in the order of the file whatever the order asked for; both give all of
 * it. A name that is not there is told with those that are. */
static void
test_parts (Fixture *fixture, gconstpointer data)
{
  fixture_write (fixture, "two.obj", two_objects, -1);
  static const char *const one[] = { "flange_ring", NULL };
  static const char *const both[] = { "flange_ring", "casing", NULL };
  static const char *const none[] = { "casing", "lid", NULL };
  g_autofree char *path = fixture_path (fixture, "two.obj");
  TrnImportRequest request = { .path = path, .unit = TRN_LENGTH_M, .up = TRN_UP_Z, .parts = one };
  TrnImportReport report;
  g_autoptr (TrnMesh) ring = trn_import_mesh (&request, NULL, NULL, NULL, &report, fixture->diags);
  g_assert_nonnull (ring);
  g_assert_cmpuint (ring->n_parts, ==, 1);
  g_assert_cmpuint (ring->n_vertices, ==, 4);
  g_assert_cmpuint (report.n_triangles, ==, 2);
  fixture_assert_box (ring, trn_vec3_make (0, 0, 2.5), trn_vec3_make (1, 1, 2.5), 0);
  request.parts = both;
  g_autoptr (TrnMesh) all = trn_import_mesh (&request, NULL, NULL, NULL, NULL, fixture->diags);
  g_assert_nonnull (all);
  g_assert_cmpstr (all->parts[0].name, ==, "casing");
  g_assert_cmpuint (all->n_triangles, ==, 4);
  g_assert_cmpuint (fixture->diags->items->len, ==, 0);
  request.parts = none;
  g_assert_null (trn_import_mesh (&request, NULL, NULL, NULL, NULL, fixture->diags));
  g_assert_cmpuint (fixture->diags->items->len, ==, 1);
  const TrnDiag *diag = fixture_find (fixture, "import/part-missing");
  g_assert_nonnull (diag);
  g_assert_cmpstr (trn_diag_get (diag, "part")->text, ==, "lid");
  g_assert_nonnull (strstr (trn_diag_get (diag, "parts")->text, "flange_ring"));
}

/* Names with blanks stay whole, and two that begin alike are two parts. */
static void
test_blanks_in_names (Fixture *fixture, gconstpointer data)
{
  fixture_write (fixture, "doors.obj",
                 "v 0 0 0\nv 1 0 0\nv 0 1 0\nv 0 0 1\n"
                 "o door leaf\nf 1 2 3\no door  frame \r\nf 1 2 4\ng door leaf left\nf 2 3 4",
                 -1);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "doors.obj", TRN_LENGTH_M, TRN_UP_Z);
  g_assert_nonnull (mesh);
  g_assert_cmpuint (mesh->n_parts, ==, 3);
  g_assert_cmpstr (mesh->parts[0].name, ==, "door leaf");
  g_assert_cmpstr (mesh->parts[1].name, ==, "door  frame");
  g_assert_cmpstr (mesh->parts[2].name, ==, "door leaf left");
  g_assert_cmpuint (mesh->n_triangles, ==, 3);
  /* What was found of it as it is goes with it. */
  g_assert_nonnull (mesh->check);
  g_assert_cmpuint (mesh->check->n_open_edges, ==, 3);
}

/* A tetrahedron that is inside out, a face of it once more, and a triangle that is one of its
 * edges: it is turned, both go, and each is said; again when the mesh is in the cache. A second
 * piece, an open triangle of 3 m by 4 m, is one hole of 4 m. */
static void
test_put_right (Fixture *fixture, gconstpointer data)
{
  fixture_write (fixture, "faults.obj",
                 "o body\nv 0 0 0\nv 1 0 0\nv 0 1 0\nv 0 0 1\n"
                 "f 1 2 3\nf 1 4 2\nf 2 4 3\nf 1 3 4\nf 2 3 1\nf 1 2 2\n"
                 "o sheet\nv 9 0 0\nv 12 0 0\nv 9 4 0\nf 5 6 7\n",
                 -1);
  g_autofree char *path = fixture_path (fixture, "faults.obj");
  g_autoptr (TrnCache) cache = trn_cache_new (1 << 20);
  const TrnImportRequest request
      = { .path = path, .unit = TRN_LENGTH_M, .up = TRN_UP_Z, .cache = cache };
  for (int again = 0; again < 2; again++)
    {
      TrnImportReport report;
      g_autoptr (TrnDiags) diags = trn_diags_new ();
      g_autoptr (TrnMesh) mesh = trn_import_mesh (&request, NULL, NULL, NULL, &report, diags);
      g_assert_nonnull (mesh);
      g_assert_cmpuint (mesh->n_triangles, ==, 5);
      g_assert_null (mesh->check); /* that was of another mesh */
      g_assert_cmpuint (report.n_triangles, ==, 5);
      g_assert_cmpuint (report.repair.flipped_pieces, ==, 1);
      g_assert_cmpuint (report.repair.flipped_triangles, ==, 4);
      g_assert_cmpuint (report.repair.duplicate, ==, 1);
      g_assert_cmpuint (report.repair.degenerate, ==, 1);
      g_assert_false (report.closed);
      g_assert_cmpuint (report.n_holes, ==, 1);
      g_assert_cmpfloat (report.largest_hole_m, ==, 4);
      g_assert_false (report.unit_declared || report.unit_overruled || report.up_overruled);
      g_assert_cmpfloat (trn_vec3_max_abs (report.size_m), ==,
                         trn_vec3_max_abs (trn_box_size (&mesh->box)));
      g_assert_cmpuint (diags->items->len, ==, 3);
      g_assert_false (trn_diags_have_errors (diags));
    }
}

/* A name of half a kilobyte is cut at a character, one with a control character is cleaned. */
static void
test_names (Fixture *fixture, gconstpointer data)
{
  GString *text = g_string_new ("o a\033[2Jb\nv 0 0 0\nv 1 0 0\nv 1 1 0\nf 1 2 3\no ");
  for (int i = 0; i < 250; i++)
    g_string_append (text, "ü");
  g_string_append (text, "\nf 3 2 1\n");
  fixture_write (fixture, "names.obj", text->str, (gssize)text->len);
  g_string_free (text, TRUE);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "names.obj", TRN_LENGTH_M, TRN_UP_Z);
  g_assert_nonnull (mesh);
  g_assert_cmpuint (mesh->n_parts, ==, 2);
  g_assert_cmpstr (mesh->parts[0].name, ==, "a [2Jb");
  g_assert_true (g_utf8_validate (mesh->parts[1].name, -1, NULL));
  g_assert_cmpuint (strlen (mesh->parts[1].name), >, 300);
  g_assert_cmpuint (strlen (mesh->parts[1].name), <=, 400);
}

/* The model may be reached over a link, as in folders under version control. */
static void
test_link_to_model (Fixture *fixture, gconstpointer data)
{
  fixture_write (fixture, "two.obj", two_objects, -1);
  g_autofree char *link = fixture_path (fixture, "link.obj");
  g_assert_cmpint (symlink ("two.obj", link), ==, 0);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "link.obj", TRN_LENGTH_M, TRN_UP_Z);
  g_assert_nonnull (mesh);
}

/* How far numbers written as text are from what is read, against the bound by which files are
 * refused: 2 · 2^-24 of the size, 6 with an exponent. Sizes just below the limit of 0.1 mm. */
static void
test_text_precision (Fixture *fixture, gconstpointer data)
{
  for (int exponent = 0; exponent < 2; exponent++)
    {
      enum
      {
        N = 2997
      };
      g_autofree double *truth = g_new (double, N);
      GString *text = g_string_new (NULL);
      double size = exponent ? 250 : 800;
      for (int i = 0; i < N; i++)
        {
          char number[64];
          truth[i] = g_test_rand_double_range (-size, size);
          g_ascii_formatd (number, sizeof number, exponent ? "%.9e" : "%.9f", truth[i]);
          g_string_append_printf (text, i % 3 == 0 ? "v %s" : " %s", number);
          truth[i] = g_ascii_strtod (number, NULL);
          if (i % 3 == 2)
            g_string_append_c (text, '\n');
        }
      for (int i = 1; i <= N / 3; i += 3)
        g_string_append_printf (text, "f %d %d %d\n", i, i + 1, i + 2);
      fixture_write (fixture, "random.obj", text->str, (gssize)text->len);
      g_string_free (text, TRUE);
      g_autoptr (TrnMesh) mesh = fixture_import (fixture, "random.obj", TRN_LENGTH_M, TRN_UP_Z);
      g_assert_nonnull (mesh);
      double bound = (exponent ? 6 : 2) * 0x1p-24 * size, worst = 0;
      for (guint32 t = 0; t < mesh->n_triangles; t++)
        for (int k = 0; k < 3; k++)
          {
            TrnVec3 c[3];
            trn_mesh_corners (mesh, t, c);
            const double *v = truth + 9 * t + 3 * k;
            TrnVec3 off = trn_vec3_sub (c[k], trn_vec3_make (v[0], v[1], v[2]));
            worst = fmax (worst, trn_vec3_max_abs (off));
          }
      g_test_message ("worst %g m, bound %g m", worst, bound);
      g_assert_cmpfloat (worst, >, 0);
      g_assert_cmpfloat (worst, <=, bound);
    }
}

/* All steps of a file are done in the end, be it read, kept from before or refused. */
static void
test_progress (Fixture *fixture, gconstpointer data)
{
  g_autoptr (TrnCache) cache = trn_cache_new (1 << 20);
  fixture_write (fixture, "two.obj", two_objects, -1);
  fixture_write (fixture, "words.obj", "this is no model\n", -1);
  static const char *const names[] = { "two.obj", "two.obj", "words.obj", "none.obj" };
  gint total = 0;
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = fixture_path (fixture, names[i]);
      TrnImportRequest request
          = { .path = path, .unit = TRN_LENGTH_M, .up = TRN_UP_Z, .cache = cache };
      TrnProgress progress = { 0 };
      g_autoptr (TrnDiags) diags = trn_diags_new ();
      g_autoptr (TrnMesh) mesh = trn_import_mesh (&request, NULL, &progress, NULL, NULL, diags);
      g_assert_true ((mesh != NULL) == (i < 2));
      g_assert_cmpint (progress.total, >, 1);
      g_assert_cmpint (progress.done, ==, progress.total);
      g_assert_true (i == 0 || progress.total == total);
      total = progress.total;
    }
}

static gpointer
import_in_thread (gpointer data)
{
  TrnImportRequest request = { .path = data, .unit = TRN_LENGTH_M, .up = TRN_UP_Z };
  for (int i = 0; i < 5; i++)
    {
      g_autoptr (TrnDiags) diags = trn_diags_new ();
      g_autoptr (TrnMesh) mesh = trn_import_mesh (&request, NULL, NULL, NULL, NULL, diags);
      if (mesh == NULL || mesh->n_triangles != 4 || diags->items->len > 0)
        return GINT_TO_POINTER (1);
    }
  return NULL;
}

/* Scenes are built on several threads, none of which has a main loop. */
static void
test_threads (Fixture *fixture, gconstpointer data)
{
  fixture_write (fixture, "two.obj", two_objects, -1);
  g_autofree char *path = fixture_path (fixture, "two.obj");
  GThread *threads[4];
  for (guint i = 0; i < G_N_ELEMENTS (threads); i++)
    threads[i] = g_thread_new ("import", import_in_thread, path);
  for (guint i = 0; i < G_N_ELEMENTS (threads); i++)
    g_assert_null (g_thread_join (threads[i]));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(path, func) g_test_add (path, Fixture, NULL, fixture_set_up, func, fixture_tear_down)
  ADD ("/import/formats/obj", test_obj);
  ADD ("/import/formats/byte-marks", test_byte_marks);
  ADD ("/import/formats/sha256", test_sha256);
  ADD ("/import/formats/stl-binary", test_stl_binary);
  ADD ("/import/formats/units-and-axes", test_units_and_axes);
  ADD ("/import/formats/stl-ascii", test_stl_ascii);
  ADD ("/import/formats/ply", test_ply);
  ADD ("/import/formats/concave-polygon", test_concave_polygon);
  ADD ("/import/formats/random-polygons", test_random_polygons);
  ADD ("/import/formats/gltf", test_gltf);
  ADD ("/import/formats/glb", test_glb);
  ADD ("/import/formats/contradiction", test_contradiction);
  ADD ("/import/formats/dropped", test_dropped);
  ADD ("/import/formats/parts", test_parts);
  ADD ("/import/formats/blanks-in-names", test_blanks_in_names);
  ADD ("/import/formats/put-right", test_put_right);
  ADD ("/import/formats/names", test_names);
  ADD ("/import/formats/link-to-model", test_link_to_model);
  ADD ("/import/formats/text-precision", test_text_precision);
  ADD ("/import/formats/threads", test_threads);
  ADD ("/import/formats/progress", test_progress);
  return g_test_run ();
}
