/* test-inspect.c: `trunnion inspect` and what `trunnion validate` says of mesh files, as they are
 * run. The program is the one in TRUNNION_PROGRAM; every test has an empty folder. */
#include "program.h"

#include "fixture.h"

typedef struct
{
  Fixture files;
  char *out, *err;
  int status;
} Test;

static void
set_up (Test *t, gconstpointer data)
{
  fixture_set_up (&t->files, NULL);
}

static void
tear_down (Test *t, gconstpointer data)
{
  fixture_tear_down (&t->files, NULL);
  g_free (t->out);
  g_free (t->err);
}

static void
run (Test *t, const char *line)
{
  g_autoptr (GBytes) out = NULL;
  t->status = test_program_run (t->files.folder, line, NULL, NULL, &out, &t->err);
  gsize length = g_bytes_get_size (out);
  g_free (t->out);
  t->out = g_strndup (length > 0 ? g_bytes_get_data (out, NULL) : "", length);
  g_test_message ("%s", t->out);
}

/* The line of @out that begins with these words, whatever is between them, has the rest. */
static void
assert_line (const Test *t, const char *first, const char *rest)
{
  g_auto (GStrv) lines = g_strsplit (t->out, "\n", -1);
  for (char **line = lines; *line != NULL; line++)
    {
      const char *text = g_strchug (*line);
      gsize length = strlen (first);
      if (g_str_has_prefix (text, first) && text[length] == ' ' && strstr (text, rest) != NULL)
        return;
    }
  g_error ("no line “%s … %s” in:\n%s", first, rest, t->out);
}

static void
assert_has (const char *text, const char *part)
{
  if (strstr (text, part) == NULL)
    g_error ("no “%s” in:\n%s", part, text);
}

/* A box from @at with edges of @size, in quads; @lid: whether it has one; @outwards: how it is
 * turned. @n boxes were written before it. */
static void
append_box (GString *obj, guint n, const char *name, double at, TrnVec3 size, gboolean lid,
            gboolean outwards)
{
  static const int quads[6][4] = { { 4, 5, 7, 6 }, { 0, 2, 3, 1 }, { 0, 1, 5, 4 },
                                   { 2, 6, 7, 3 }, { 0, 4, 6, 2 }, { 1, 3, 7, 5 } };
  g_string_append_printf (obj, "o %s\n", name);
  for (int i = 0; i < 8; i++)
    g_string_append_printf (obj, "v %g %g %g\n", at + (i & 1 ? size.x : 0), i & 2 ? size.y : 0,
                            i & 4 ? size.z : 0);
  for (int q = lid ? 0 : 1; q < 6; q++)
    {
      g_string_append (obj, "f");
      for (int k = 0; k < 4; k++)
        g_string_append_printf (obj, " %d", 8 * n + 1 + quads[q][outwards ? k : 3 - k]);
      g_string_append (obj, "\n");
    }
}

/* A house of 2 × 3 × 4 without a lid (10 triangles; the hole is 3 across), and a door of 1 × 1 × 1
 * beside it that is inside out, with one triangle twice. */
static void
write_house (Test *t)
{
  g_autoptr (GString) obj = g_string_new (NULL);
  append_box (obj, 0, "house", 0, trn_vec3_make (2, 3, 4), FALSE, TRUE);
  append_box (obj, 1, "door", 5, trn_vec3_make (1, 1, 1), TRUE, FALSE);
  g_string_append (obj, "f 15 16 14\n");
  fixture_write (&t->files, "house.obj", obj->str, -1);
}

/* 22 triangles stay of 23. Of the units none is declared, so each has its row: 6 × 3 × 4 of them
 * are 0.152 × 0.0762 × 0.102 m as inches. */
static void
test_undeclared (Test *t, gconstpointer data)
{
  write_house (t);
  run (t, "inspect house.obj");
  g_assert_cmpint (t->status, ==, 0);
  g_assert_true (g_str_has_prefix (t->out, "house.obj: OBJ\n"));
  assert_line (t, "Triangles", "22 triangles in 2 parts");
  assert_line (t, "Surface", "open: 1 hole, 3.000 across");
  assert_line (t, "Put right", "1 duplicate triangle dropped, 1 piece that was inside out turned");
  assert_line (t, "Faces", "held against a count made in the file itself");
  assert_line (t, "Unit", "none declared");
  assert_line (t, "Upward axis", "none declared");
  assert_line (t, "Read with", "limits of memory and time");
  assert_line (t, "m", "6.000 × 3.000 × 4.000");
  assert_line (t, "cm", "0.06 × 0.03 × 0.04");
  assert_line (t, "mm", "0.006 × 0.003 × 0.004");
  assert_line (t, "ft", "1.829 × 0.914 × 1.219");
  assert_line (t, "in", "0.152 × 0.0762 × 0.102");
  assert_has (t->out, "in the unit of the file:\n");
  assert_line (t, "10", " 2.000 × 3.000 × 4.000  house");
  assert_line (t, "12", " 1.000 × 1.000 × 1.000  door");
  g_assert_null (strstr (t->out, "declared\n"));
  g_assert_null (strstr (t->out, "refused"));
  assert_has (t->err, "house.obj: warning: Closed pieces in it were inside out");
  assert_has (t->err, "house.obj: warning: Triangles that stood in it more than once");
  /* Of the bytes: by the tool of the system. */
  g_autofree char *path = fixture_path (&t->files, "house.obj");
  g_autofree char *bytes = NULL;
  gsize length;
  g_assert_true (g_file_get_contents (path, &bytes, &length, NULL));
  g_autofree char *sum = g_compute_checksum_for_data (G_CHECKSUM_SHA256, (guchar *)bytes, length);
  assert_line (t, "SHA-256", sum);
}

/* glTF is in metres with Y up (glTF 2.0, section 3.4): 1 × 2 × 3 stands as 1 × 3 × 2. */
static void
test_declared (Test *t, gconstpointer data)
{
  g_autofree char *json = fixture_gltf_text (NULL, "{\"mesh\": 0}", "0", "");
  g_autoptr (GByteArray) box = fixture_gltf_box (trn_vec3_make (1, 2, 3));
  g_autoptr (GByteArray) glb = fixture_glb (json, box);
  fixture_write (&t->files, "box.glb", glb->data, glb->len);
  run (t, "inspect box.glb");
  g_assert_cmpint (t->status, ==, 0);
  assert_line (t, "Surface", "closed");
  assert_line (t, "Upward axis", "Y, declared by the file");
  assert_line (t, "m", "1.000 × 3.000 × 2.000");
  assert_has (t->out, "mm  declared\n");
  g_assert_null (strstr (strstr (t->out, "declared\n") + 1, "declared"));
  assert_has (t->out, "in metres:\n");
  g_assert_cmpstr (t->err, ==, "");
}

/* A box of 20 000 units: in single precision (24 bits) such a coordinate may be off by 2 mm as
 * metres, and by 0.002 mm as millimetres; more than 0.1 mm is refused. */
static void
test_imprecise (Test *t, gconstpointer data)
{
  g_autoptr (GByteArray) stl = fixture_stl_box (trn_vec3_make (20000, 10, 10));
  fixture_write (&t->files, "far.stl", stl->data, stl->len);
  run (t, "inspect far.stl");
  g_assert_cmpint (t->status, ==, 0);
  assert_line (t, "m", "refused: too imprecise");
  assert_line (t, "ft", "refused: too imprecise");
  g_auto (GStrv) refused = g_strsplit (t->out, "refused", -1);
  g_assert_cmpuint (g_strv_length (refused) - 1, ==, 2);
  assert_line (t, "Put right", "vertices joined");
}

/* 25 parts: 20 are listed, or all. */
static void
test_many_parts (Test *t, gconstpointer data)
{
  g_autoptr (GString) obj = g_string_new (NULL);
  for (guint i = 0; i < 25; i++)
    {
      g_autofree char *name = g_strdup_printf ("block%u", i);
      append_box (obj, i, name, 3.0 * i, trn_vec3_make (1, 1, 1), TRUE, TRUE);
    }
  fixture_write (&t->files, "blocks.obj", obj->str, -1);
  run (t, "inspect blocks.obj");
  g_assert_cmpint (t->status, ==, 0);
  assert_line (t, "12", "  block19");
  g_assert_null (strstr (t->out, "block20"));
  assert_has (t->out, "… and 5 more parts (--all lists them)\n");
  run (t, "inspect --all blocks.obj");
  assert_line (t, "12", "  block24");
  g_assert_null (strstr (t->out, "more parts"));
}

/* Nothing is printed of a file that does not hold; the sentence names it. */
static void
test_bad_files (Test *t, gconstpointer data)
{
  fixture_write (&t->files, "bad.obj", "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 9\n", -1);
  fixture_write (&t->files, "empty.stl", "", 0);
  fixture_write (&t->files, "notes.txt", "v 0 0 0\n", -1);
  const char *names[] = { "bad.obj", "empty.stl", "notes.txt", "none.obj", "." };
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *line = g_strdup_printf ("inspect %s", names[i]);
      g_autofree char *begin = g_strdup_printf ("%s: error: ", names[i]);
      run (t, line);
      g_assert_cmpint (t->status, ==, 3);
      g_assert_cmpstr (t->out, ==, "");
      g_assert_true (g_str_has_prefix (t->err, begin));
      g_assert_true (g_str_has_suffix (t->err, ".\n"));
    }
}

static void
test_use (Test *t, gconstpointer data)
{
  const char *wrong[] = { "inspect", "inspect a.obj b.obj", "inspect --places a.obj" };
  for (guint i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      run (t, wrong[i]);
      g_assert_cmpint (t->status, ==, 2);
      g_assert_cmpstr (t->out, ==, "");
    }
  run (t, "inspect --help");
  g_assert_cmpint (t->status, ==, 0);
  g_assert_true (g_str_has_prefix (t->out, "Usage: trunnion inspect FILE"));
}

/* ---- validate ---- */

static void
write_plan (Test *t, const char *mesh)
{
  g_autofree char *plan = g_strdup_printf (
      "{\"format\": \"trunnion-plan\", \"version\": 1, \"keep_clear\": 0.1,\n"
      " \"structures\": [{\"id\": \"gate\", \"at\": {\"position\": [20, 0, 0]}, \"mesh\": {%s}},\n"
      "  {\"id\": \"other\", \"at\": {\"position\": [40, 0, 0]}, \"mesh\": {%s}}],\n"
      " \"components\": [{\"id\": \"drum\", \"solid\": {\"kind\": \"box\", \"size\": [1, 1, 1]},\n"
      "   \"mass\": 1000, \"at\": {\"position\": [0, 0, 5]}}],\n"
      " \"programme\": [{\"lift\": \"up\", \"component\": \"drum\", \"hook_point\": [0, 0, 9],\n"
      "   \"moves\": [{\"do\": \"hoist\", \"by\": 1, \"seconds\": 60}]}]}\n",
      mesh, mesh);
  fixture_write (&t->files, "a.trunnion", plan, -1);
}

/* The same file twice has one line, with its size, by which a wrong unit is seen; what is wrong
 * with it stands before it, with its place. Two structures are open, and the file has two faults:
 * four warnings. A check says the same. */
static void
test_validate (Test *t, gconstpointer data)
{
  write_house (t);
  write_plan (t, "\"file\": \"house.obj\", \"unit\": \"m\", \"up\": \"z\"");
  run (t, "validate a.trunnion");
  g_assert_cmpint (t->status, ==, 0);
  g_assert_cmpstr (
      t->out, ==,
      "house.obj: 22 triangles in 2 parts, open: 1 hole, 3 m across; X × Y × Z: 6 m × 3 m × 4 m; "
      "unit m, Z up (given by the plan); 1 duplicate triangle dropped, 1 piece that was inside out "
      "turned\na.trunnion: it can be checked; 4 warnings.\n");
  g_autofree char *said = g_strdup (t->err);
  assert_has (said, "a.trunnion:2: /structures/0/mesh: ");
  assert_has (said, "warning: The mesh of “other” is not closed");
  run (t, "check a.trunnion");
  g_assert_cmpstr (t->err, ==, said);
}

/* A part alone; the door is whole but for how it is turned. */
static void
test_validate_part (Test *t, gconstpointer data)
{
  write_house (t);
  write_plan (t, "\"file\": \"house.obj\", \"unit\": \"ft\", \"up\": \"y\", "
                 "\"parts\": [\"door\"]");
  run (t, "validate a.trunnion");
  g_assert_cmpint (t->status, ==, 0);
  assert_has (t->out,
              "house.obj: only “door” of it; 12 triangles, closed; X × Y × Z: 0.305 m × 0.305 m × "
              "0.305 m; unit ft, Y up (given by the plan); ");
}

/* Who declares what: the file both, the plan the unit as well. Size is as the check sees it: in
 * metres, Z up. */
static void
test_validate_declared (Test *t, gconstpointer data)
{
  g_autofree char *json = fixture_gltf_text (NULL, "{\"mesh\": 0}", "0", "");
  g_autoptr (GByteArray) box = fixture_gltf_box (trn_vec3_make (1, 2, 3));
  g_autoptr (GByteArray) glb = fixture_glb (json, box);
  fixture_write (&t->files, "box.glb", glb->data, glb->len);
  write_plan (t, "\"file\": \"box.glb\"");
  run (t, "validate a.trunnion");
  g_assert_cmpint (t->status, ==, 0);
  g_assert_cmpstr (t->out, ==,
                   "box.glb: 12 triangles, closed; X × Y × Z: 1 m × 3 m × 2 m; unit m, Y up "
                   "(declared by the file)\n"
                   "a.trunnion: no fault found.\n");
  write_plan (t, "\"file\": \"box.glb\", \"unit\": \"m\"");
  run (t, "validate a.trunnion");
  assert_has (t->out,
              "unit m (given by the plan, declared by the file as well), Y up (declared by the "
              "file)\n");
  write_plan (t, "\"file\": \"box.glb\", \"unit\": \"mm\"");
  run (t, "validate a.trunnion");
  assert_has (t->out,
              "X × Y × Z: 0.001 m × 0.003 m × 0.002 m; "
              "unit mm (given by the plan, against what the file declares), Y up (declared by the "
              "file)\n");
}

/* A mesh that cannot be read is a plan that cannot be checked. Without a unit the sentence tells
 * how large 6 × 3 × 4 would be in each. */
static void
test_validate_bad (Test *t, gconstpointer data)
{
  fixture_write (&t->files, "bad.obj", "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 9\n", -1);
  write_plan (t, "\"file\": \"bad.obj\", \"unit\": \"m\", \"up\": \"z\"");
  run (t, "validate a.trunnion");
  g_assert_cmpint (t->status, ==, 3);
  g_assert_cmpstr (t->out, ==, "");
  assert_has (t->err, "bad.obj: error: ");
  write_house (t);
  write_plan (t, "\"file\": \"house.obj\", \"up\": \"z\"");
  run (t, "validate a.trunnion");
  g_assert_cmpint (t->status, ==, 3);
  assert_has (t->err, "\"m\" (it is then 6 m in its greatest extent), \"cm\" (0.06 m), \"mm\" "
                      "(0.006 m), \"ft\" (1.829 m) or \"in\" (0.152 m).");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_assert_nonnull (g_getenv ("TRUNNION_PROGRAM"));
#define ADD(name, test) g_test_add ("/cli/inspect/" name, Test, NULL, set_up, test, tear_down)
  ADD ("undeclared", test_undeclared);
  ADD ("declared", test_declared);
  ADD ("imprecise", test_imprecise);
  ADD ("many-parts", test_many_parts);
  ADD ("bad-files", test_bad_files);
  ADD ("use", test_use);
  ADD ("validate", test_validate);
  ADD ("validate-part", test_validate_part);
  ADD ("validate-declared", test_validate_declared);
  ADD ("validate-bad", test_validate_bad);
#undef ADD
  return g_test_run ();
}
