/* A model that tries to read outside its folder gets one clear error, whichever way it tries; what
 * lies inside is read, however the model writes it. */
#include "body.h"
#include "fixture.h"

#include <fcntl.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* The model's folder is `inner`. Beside it lie what models ask for, and a folder; inside are links
 * to all of them, a copy of what they ask for, and a folder with another copy. @ABSOLUTE@ stands
 * for the path of the fixture's folder. */
static void
lay_out (Fixture *fixture, gconstpointer data)
{
  static const char *const folders[] = { "inner", "inner/sub", "beside" };
  static const char *const links[][2] = { { "../box.bin", "inner/link.bin" },
                                          { "../beside", "inner/link-folder" },
                                          { "link.bin", "inner/link-to-link.bin" },
                                          { "sub/box.bin", "inner/link-inside.bin" },
                                          { "../paint.mtl", "inner/link.mtl" } };
  static const char *const copies[]
      = { "box.bin", "beside/box.bin", "inner/box.bin", "inner/sub/box.bin", "inner/a box.bin" };
  static const char paint[] = "newmtl red\nKd 1 0 0\n";
  fixture_set_up (fixture, data);
  for (guint i = 0; i < G_N_ELEMENTS (folders); i++)
    {
      g_autofree char *path = fixture_path (fixture, folders[i]);
      g_assert_cmpint (g_mkdir (path, 0700), ==, 0);
    }
  g_autoptr (GByteArray) bin = fixture_gltf_box (trn_vec3_make (1, 1, 1));
  for (guint i = 0; i < G_N_ELEMENTS (copies); i++)
    fixture_write (fixture, copies[i], bin->data, bin->len);
  fixture_write (fixture, "paint.mtl", paint, -1);
  fixture_write (fixture, "beside/paint.mtl", paint, -1);
  fixture_write (fixture, "inner/paint.mtl", paint, -1);
  for (guint i = 0; i < G_N_ELEMENTS (links); i++)
    {
      g_autofree char *path = fixture_path (fixture, links[i][1]);
      g_assert_cmpint (symlink (links[i][0], path), ==, 0);
    }
}

static char *
fill_in (const Fixture *fixture, const char *reference)
{
  g_auto (GStrv) pieces = g_strsplit (reference, "@ABSOLUTE@", -1);
  return g_strjoinv (fixture->folder, pieces);
}

static TrnMesh *
import_gltf (Fixture *fixture, const char *reference, const char *extra)
{
  g_autofree char *uri = fill_in (fixture, reference);
  g_autofree char *text = fixture_gltf_text (uri, "{\"mesh\":0}", "0", extra);
  g_test_message ("%s", uri);
  fixture_write (fixture, "inner/model.gltf", text, -1);
  return fixture_import (fixture, "inner/model.gltf", TRN_LENGTH_M, TRN_UP_Y);
}

static TrnMesh *
import_obj (Fixture *fixture, const char *reference)
{
  g_autofree char *library = fill_in (fixture, reference);
  g_autofree char *text = g_strdup_printf (
      "mtllib %s\no plate\nv 0 0 0\nv 1 0 0\nv 1 1 0\nusemtl red\nf 1 2 3\n", library);
  g_test_message ("%s", library);
  fixture_write (fixture, "inner/model.obj", text, -1);
  return fixture_import (fixture, "inner/model.obj", TRN_LENGTH_M, TRN_UP_Z);
}

static void
assert_refused (Fixture *fixture, TrnMesh *mesh)
{
  fixture_assert_error (fixture, mesh, "import/outside-folder");
  const TrnDiag *diag = fixture_find (fixture, "import/outside-folder");
  g_assert_cmpstr (trn_diag_get (diag, "reference")->text, !=, "");
}

/* The buffers of a glTF hold its shape. */
static void
test_gltf_buffers (Fixture *fixture, gconstpointer data)
{
  static const char *const outside[] = {
    "../box.bin",
    "sub/../../box.bin",
    "../beside/none.bin", /* whether it is there is not told */
    "link.bin",
    "link-to-link.bin",
    "link-folder/box.bin",
    "@ABSOLUTE@/box.bin",
    "@ABSOLUTE@/inner/box.bin",
    "%2e%2e/box.bin",
    "..%2Fbox.bin",
    "%2e%2e%2f%62ox.bin",
    "file://@ABSOLUTE@/box.bin",
    "file:@ABSOLUTE@/box.bin",
    "file%3A//@ABSOLUTE@/box.bin",
    "https://example.invalid/box.bin",
    "..\\\\box.bin",
    "sub\\\\..\\\\..\\\\box.bin",
    "\\\\\\\\example\\\\box.bin",
  };
  static const char *const inside[]
      = { "box.bin",         "./box.bin",   "sub/box.bin", "sub/../box.bin", "../inner/box.bin",
          "link-inside.bin", "a%20box.bin", "a box.bin",   "%62ox.bin" };
  static const char *const missing[]
      = { "none.bin", "C:\\\\models\\\\box.bin", "..%00/box.bin", "box.bin/..", "sub" };
  for (guint i = 0; i < G_N_ELEMENTS (outside); i++)
    assert_refused (fixture, import_gltf (fixture, outside[i], ""));
  for (guint i = 0; i < G_N_ELEMENTS (inside); i++)
    {
      g_autoptr (TrnMesh) mesh = import_gltf (fixture, inside[i], "");
      g_assert_nonnull (mesh);
      g_assert_cmpuint (fixture->diags->items->len, ==, 0);
    }
  for (guint i = 0; i < G_N_ELEMENTS (missing); i++)
    fixture_assert_error (fixture, import_gltf (fixture, missing[i], ""),
                          "import/reference-missing");
  const TrnDiag *diag = fixture_find (fixture, "import/reference-missing");
  g_assert_cmpstr (trn_diag_get (diag, "reference")->text, ==, "sub");
}

static void
assert_referred (const Fixture *fixture, const char *name, const void *bytes, gsize length)
{
  g_autofree char *sha256 = g_compute_checksum_for_data (G_CHECKSUM_SHA256, bytes, length);
  g_assert_cmpuint (fixture->referred->len, ==, 1);
  const TrnImportReferred *other = &g_array_index (fixture->referred, TrnImportReferred, 0);
  g_assert_cmpstr (other->name, ==, name);
  g_assert_cmpstr (other->sha256, ==, sha256);
}

/* What was read beside the model has a digest of its own, by the name that it has in the folder; a
 * model that says the same with another buffer is another model. One that stands alone has none. */
static void
test_digests (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GByteArray) large = fixture_gltf_box (trn_vec3_make (9, 9, 9));
  g_autoptr (GByteArray) small = fixture_gltf_box (trn_vec3_make (1, 1, 1));
  g_autoptr (TrnMesh) first = import_gltf (fixture, "sub/../a%20box.bin", "");
  g_assert_nonnull (first);
  assert_referred (fixture, "a box.bin", small->data, small->len);
  fixture_write (fixture, "inner/a box.bin", large->data, large->len);
  g_autoptr (TrnMesh) second = import_gltf (fixture, "a%20box.bin", "");
  g_assert_nonnull (second);
  assert_referred (fixture, "a box.bin", large->data, large->len);
  g_autoptr (TrnMesh) by_link = import_gltf (fixture, "link-inside.bin", "");
  g_assert_nonnull (by_link);
  assert_referred (fixture, "sub/box.bin", small->data, small->len);
  g_autoptr (TrnMesh) obj = import_obj (fixture, "paint.mtl");
  g_assert_nonnull (obj);
  static const char paint[] = "newmtl red\nKd 1 0 0\n";
  assert_referred (fixture, "paint.mtl", paint, strlen (paint));
  fixture_write (fixture, "alone.obj", "v 0 0 0\nv 1 0 0\nv 1 1 0\nf 1 2 3\n", -1);
  g_autoptr (TrnMesh) alone = fixture_import (fixture, "alone.obj", TRN_LENGTH_M, TRN_UP_Z);
  g_assert_nonnull (alone);
  g_assert_cmpuint (fixture->referred->len, ==, 0);
}

#define MOST_ROUNDS 2000 /* after which what did not come about never does */

typedef struct
{
  const char *path, *next;
  GByteArray *boxes[2];
  gint done;
} Swapper;

/* Puts the one buffer and the other in place, in turn, as an exporter does that is run again. */
static gpointer
swap_buffers (gpointer data)
{
  Swapper *swapper = data;
  for (guint i = 0; !g_atomic_int_get (&swapper->done); i++)
    {
      const GByteArray *box = swapper->boxes[i % 2];
      g_assert_true (g_file_set_contents (swapper->next, (const char *)box->data, box->len, NULL));
      g_assert_cmpint (g_rename (swapper->next, swapper->path), ==, 0);
      g_usleep (2000);
    }
  return NULL;
}

/* A buffer that is another one every two milliseconds or so while it is read and its digest is
 * taken: the digest is that of the box that was read, or there is an error; both come about. */
static void
test_swapped (Fixture *fixture, gconstpointer data)
{
  g_autofree char *path = fixture_path (fixture, "inner/box.bin");
  g_autofree char *next = fixture_path (fixture, "inner/next");
  g_autoptr (GByteArray) small = fixture_gltf_box (trn_vec3_make (1, 1, 1));
  g_autoptr (GByteArray) large = fixture_gltf_box (trn_vec3_make (9, 9, 9));
  Swapper swapper = { .path = path, .next = next, .boxes = { small, large } };
  GThread *thread = g_thread_new ("swap", swap_buffers, &swapper);
  guint n_read = 0, n_refused = 0;
  for (guint i = 0; i < 60 || (i < MOST_ROUNDS && (n_read == 0 || n_refused == 0)); i++)
    {
      g_autoptr (TrnMesh) mesh = import_gltf (fixture, "box.bin", "");
      if (mesh == NULL)
        {
          fixture_assert_error (fixture, NULL, "import/reference-changed");
          n_refused++;
          continue;
        }
      const GByteArray *read = mesh->box.hi.x < 5 ? small : large;
      assert_referred (fixture, "box.bin", read->data, read->len);
      n_read++;
    }
  g_atomic_int_set (&swapper.done, 1);
  g_thread_join (thread);
  g_test_message ("%u read, %u refused", n_read, n_refused);
  g_assert_cmpuint (n_refused, >, 0);
  g_assert_cmpuint (n_read, >, 0);
}

/* As many as have room in an answer, and no more. */
static void
test_many (Fixture *fixture, gconstpointer data)
{
  for (guint n = 16; n <= 17; n++)
    {
      g_autoptr (GString) text = g_string_new ("v 0 0 0\nv 1 0 0\nv 1 1 0\n");
      for (guint i = 0; i < n; i++)
        {
          g_autofree char *name = g_strdup_printf ("inner/%u.mtl", i);
          fixture_write (fixture, name, "newmtl a\n", -1);
          g_string_append_printf (text, "mtllib %u.mtl\n", i);
        }
      g_string_append (text, "f 1 2 3\n");
      fixture_write (fixture, "inner/many.obj", text->str, -1);
      g_autoptr (TrnMesh) mesh = fixture_import (fixture, "inner/many.obj", TRN_LENGTH_M, TRN_UP_Z);
      g_assert_true ((mesh != NULL) == (n == 16));
      g_assert_cmpuint (fixture->referred->len, ==, n == 16 ? 16 : 0);
      if (mesh == NULL)
        fixture_assert_error (fixture, NULL, "import/unsupported");
    }
}

/* A file of holes, longer than memory: it is there, and nothing is said of another reason; nor is
 * the model read as if it had no such file. */
static void
test_no_room (Fixture *fixture, gconstpointer data)
{
  g_autofree char *path = fixture_path (fixture, "inner/paint.mtl");
  g_assert_cmpint (truncate (path, (off_t)1 << 41), ==, 0);
  fixture_assert_error (fixture, import_obj (fixture, "paint.mtl"), "import/memory");
}

/* A path that an answer has no room for is told by its beginning. */
static void
test_long_name (Fixture *fixture, gconstpointer data)
{
  g_autofree char *first = g_strnfill (200, 'n'), *second = g_strnfill (200, 'm');
  g_autofree char *folder = g_strconcat ("inner/", first, NULL);
  g_autofree char *path = fixture_path (fixture, folder);
  g_assert_cmpint (g_mkdir (path, 0700), ==, 0);
  g_autofree char *name = g_strconcat (first, "/", second, NULL);
  g_autofree char *paint = g_strconcat ("inner/", name, NULL);
  fixture_write (fixture, paint, "newmtl red\n", -1);
  fixture_assert_error (fixture, import_obj (fixture, name), "import/unsupported");
  const char *feature
      = trn_diag_get (fixture_find (fixture, "import/unsupported"), "feature")->text;
  g_assert_nonnull (strstr (feature, "“nnnnnnnn"));
  g_assert_true (g_str_has_suffix (feature, "n”"));
}

/* Pictures are never opened, so where they lie does not matter: had one been asked for, the model
 * would have been refused, as above. */
static void
test_gltf_images (Fixture *fixture, gconstpointer data)
{
  static const char *const uris[] = { "../box.bin", "link.bin", "@ABSOLUTE@/box.bin",
                                      "file:///etc/hostname", "https://example.invalid/a.png" };
  for (guint i = 0; i < G_N_ELEMENTS (uris); i++)
    {
      g_autofree char *uri = fill_in (fixture, uris[i]);
      g_autofree char *extra
          = g_strdup_printf ("\"images\":[{\"uri\":\"%s\"}],\"textures\":[{\"source\":0}],"
                             "\"materials\":[{\"pbrMetallicRoughness\":{\"baseColorTexture\":"
                             "{\"index\":0}}}],",
                             uri);
      g_autoptr (TrnMesh) mesh = import_gltf (fixture, "box.bin", extra);
      g_assert_nonnull (mesh);
      g_assert_cmpuint (fixture->diags->items->len, ==, 0);
    }
}

/* Nothing of an OBJ's shape stands in its materials, but a library that lies outside is told all
 * the same; one that is nowhere is not missed. */
static void
test_obj_materials (Fixture *fixture, gconstpointer data)
{
  static const char *const outside[] = {
    "../paint.mtl",
    "sub/../../paint.mtl",
    "../none.mtl",
    "link.mtl",
    "link-folder/paint.mtl",
    "@ABSOLUTE@/paint.mtl",
    "file://@ABSOLUTE@/paint.mtl",
    "..\\paint.mtl",
  };
  static const char *const fine[] = { "paint.mtl", "./paint.mtl",      "../inner/paint.mtl",
                                      "none.mtl",  "%2e%2e/paint.mtl", "C:\\models\\paint.mtl" };
  for (guint i = 0; i < G_N_ELEMENTS (outside); i++)
    assert_refused (fixture, import_obj (fixture, outside[i]));
  for (guint i = 0; i < G_N_ELEMENTS (fine); i++)
    {
      g_autoptr (TrnMesh) mesh = import_obj (fixture, fine[i]);
      g_assert_nonnull (mesh);
      g_assert_cmpuint (fixture->diags->items->len, ==, 0);
    }
}

static TrnMesh *
import_dae (Fixture *fixture, const char *asset, const char *url, const char *name)
{
  g_autofree char *there = fill_in (fixture, url);
  g_autofree char *node
      = g_strdup_printf ("<node name=\"%s\"><instance_geometry url=\"%s\"/></node>", name, there);
  g_autofree char *text = body_dae (asset, node, 1);
  g_test_message ("%s", there);
  fixture_write (fixture, "inner/model.dae", text, -1);
  return fixture_import (fixture, "inner/model.dae", TRN_LENGTH_M, TRN_UP_Z);
}

/* A COLLADA file may show geometry of another file. None is ever opened, wherever it lies: what is
 * shown from there would be missing, so it is an error. Each of these files holds the body. */
static void
test_dae_geometry (Fixture *fixture, gconstpointer data)
{
  static const char *const urls[] = {
    "../body.dae#body",
    "sub/../../body.dae#body",
    "link.dae#body",
    "link-folder/body.dae#body",
    "@ABSOLUTE@/body.dae#body",
    "file://@ABSOLUTE@/body.dae#body",
    "%2e%2e/body.dae#body",
    "..\\body.dae#body",
    "https://example.invalid/body.dae#body",
    "body.dae#body",
  };
  static const char *const copies[] = { "body.dae", "beside/body.dae", "inner/body.dae" };
  g_autofree char *body = body_dae ("", "", 1);
  g_autofree char *link = fixture_path (fixture, "inner/link.dae");
  for (guint i = 0; i < G_N_ELEMENTS (copies); i++)
    fixture_write (fixture, copies[i], body, -1);
  g_assert_cmpint (symlink ("../body.dae", link), ==, 0);
  for (guint i = 0; i < G_N_ELEMENTS (urls); i++)
    fixture_assert_error (fixture, import_dae (fixture, "", urls[i], "body"), "import/unsupported");
  g_autoptr (TrnMesh) mesh = import_dae (fixture, "", "#body", "body");
  g_assert_nonnull (mesh);
}

/* Its pictures are never opened either, and nothing that its XML names outside becomes part of it.
 */
static void
test_dae_others (Fixture *fixture, gconstpointer data)
{
  static const char *const pictures[] = { "../box.bin", "link.bin", "file://@ABSOLUTE@/box.bin" };
  for (guint i = 0; i < G_N_ELEMENTS (pictures); i++)
    {
      g_autofree char *there = fill_in (fixture, pictures[i]);
      g_autofree char *asset
          = g_strdup_printf ("</asset><library_images><image id=\"i\"><init_from>"
                             "%s</init_from></image></library_images><asset>",
                             there);
      g_autoptr (TrnMesh) mesh = import_dae (fixture, asset, "#body", "body");
      g_assert_nonnull (mesh);
    }
  fixture_write (fixture, "word", "hidden", -1);
  g_autofree char *text
      = body_dae ("", "<node name=\"&w;\"><instance_geometry url=\"#body\"/></node>", 1);
  g_autofree char *type = fill_in (
      fixture, "?>\n<!DOCTYPE COLLADA [<!ENTITY w SYSTEM \"file://@ABSOLUTE@/word\">]>\n<COLLADA");
  g_auto (GStrv) pieces = g_strsplit (text, "?>\n<COLLADA", -1);
  g_assert_cmpuint (g_strv_length (pieces), ==, 2);
  g_autofree char *whole = g_strjoinv (type, pieces);
  fixture_write (fixture, "inner/entity.dae", whole, -1);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "inner/entity.dae", TRN_LENGTH_M, TRN_UP_Z);
  g_assert_true (mesh != NULL || trn_diags_have_errors (fixture->diags));
  for (guint i = 0; mesh != NULL && i < mesh->n_parts; i++)
    g_assert_null (strstr (mesh->parts[i].name, "hidden"));
}

/* A model whose own name looks like a way out, or like a URI, is read as what it is. */
static void
test_names (Fixture *fixture, gconstpointer data)
{
  static const char *const names[] = { "a%20b.gltf", "file:model.gltf", "..gltf.gltf" };
  g_autofree char *text = fixture_gltf_text ("box.bin", "{\"mesh\":0}", "0", "");
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *name = g_strconcat ("inner/", names[i], NULL);
      fixture_write (fixture, name, text, -1);
      g_autoptr (TrnMesh) mesh = fixture_import (fixture, name, TRN_LENGTH_M, TRN_UP_Y);
      g_assert_nonnull (mesh);
    }
}

typedef struct
{
  char *folder, *link;
  int stop;
} Swap;

/* Swaps a folder inside and a link to one outside, which takes no time in between. */
static gpointer
swap_folders (gpointer data)
{
  Swap *swap = data;
  while (g_atomic_int_get (&swap->stop) == 0)
    g_assert_cmpint (renameat2 (AT_FDCWD, swap->folder, AT_FDCWD, swap->link, RENAME_EXCHANGE), ==,
                     0);
  return NULL;
}

/* While what a name leads to changes all the time, the model reads the small box inside or is
 * refused; the large box outside never comes in. Both come about. */
static void
test_race (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GByteArray) large = fixture_gltf_box (trn_vec3_make (9, 9, 9));
  fixture_write (fixture, "beside/box.bin", large->data, large->len);
  g_autofree char *folder = fixture_path (fixture, "inner/sub");
  g_autofree char *link = fixture_path (fixture, "inner/link-folder");
  Swap swap = { .folder = folder, .link = link };
  GThread *thread = g_thread_new ("swap", swap_folders, &swap);
  guint n_read = 0, n_refused = 0;
  for (guint i = 0; i < 40 || (i < MOST_ROUNDS && (n_read == 0 || n_refused == 0)); i++)
    {
      g_autoptr (TrnMesh) mesh = import_gltf (fixture, "sub/box.bin", "");
      n_read += mesh != NULL;
      n_refused += mesh == NULL;
      if (mesh != NULL)
        fixture_assert_box (mesh, trn_vec3_make (0, -1, 0), trn_vec3_make (1, 0, 1), 0);
    }
  g_atomic_int_set (&swap.stop, 1);
  g_thread_join (thread);
  g_test_message ("%u read, %u refused", n_read, n_refused);
  g_assert_cmpuint (n_refused, >, 0);
  g_assert_cmpuint (n_read, >, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(path, func) g_test_add (path, Fixture, NULL, lay_out, func, fixture_tear_down)
  ADD ("/import/outside/gltf-buffers", test_gltf_buffers);
  ADD ("/import/outside/gltf-images", test_gltf_images);
  ADD ("/import/outside/digests", test_digests);
  ADD ("/import/outside/swapped", test_swapped);
  ADD ("/import/outside/many", test_many);
  ADD ("/import/outside/no-room", test_no_room);
  ADD ("/import/outside/long-name", test_long_name);
  ADD ("/import/outside/obj-materials", test_obj_materials);
  ADD ("/import/outside/dae-geometry", test_dae_geometry);
  ADD ("/import/outside/dae-others", test_dae_others);
  ADD ("/import/outside/names", test_names);
  ADD ("/import/outside/race", test_race);
  return g_test_run ();
}
