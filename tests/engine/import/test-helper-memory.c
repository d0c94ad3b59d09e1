/* The helper without memory: whatever is not to be had of it, there is an error that says so, and a
 * file that was not read for want of it is not taken for one that is missing.
 *
 * Every call of the helper for a block, or for a stream in memory, goes through functions of this
 * program (the linker's --wrap), which refuse one kind of them, or one call. */
#include "body.h"
#include "fixture.h"
#include "helper/file-facts.h"
#include "helper/folder-io.h"
#include "helper/native.h"
#include "helper/scene-walk.h"

#include <stdio.h>
#include <string.h>

typedef enum
{
  NOTHING,
  BLOCK,  /* g_try_malloc */
  BLOCKS, /* g_try_malloc_n */
  MEMORY_STREAM,
  STREAM,
  ZEROS,     /* g_try_malloc0 */
  MORE,      /* g_try_realloc */
  ONE_BLOCK, /* of any of the functions, after n_granted more */
} Refused;

static Refused refused;
static int n_granted;

/* What the helper leaves to its end. */
static GPtrArray *blocks;

gpointer __real_g_try_malloc (gsize n_bytes);
gpointer __wrap_g_try_malloc (gsize n_bytes);
gpointer __real_g_try_malloc_n (gsize n, gsize size);
gpointer __wrap_g_try_malloc_n (gsize n, gsize size);
gpointer __real_g_try_malloc0 (gsize n_bytes);
gpointer __wrap_g_try_malloc0 (gsize n_bytes);
gpointer __real_g_try_malloc0_n (gsize n, gsize size);
gpointer __wrap_g_try_malloc0_n (gsize n, gsize size);
gpointer __real_g_try_realloc (gpointer old, gsize n_bytes);
gpointer __wrap_g_try_realloc (gpointer old, gsize n_bytes);
gpointer __real_g_try_realloc_n (gpointer old, gsize n, gsize size);
gpointer __wrap_g_try_realloc_n (gpointer old, gsize n, gsize size);
FILE *__real_fmemopen (void *bytes, gsize size, const char *mode);
FILE *__wrap_fmemopen (void *bytes, gsize size, const char *mode);
FILE *__real_fdopen (int fd, const char *mode);
FILE *__wrap_fdopen (int fd, const char *mode);

static gboolean
is_refused (Refused kind)
{
  return refused == kind || (refused == ONE_BLOCK && n_granted-- == 0);
}

static gpointer
keep (gpointer block)
{
  g_ptr_array_add (blocks, block);
  return block;
}

gpointer
__wrap_g_try_malloc (gsize n_bytes)
{
  return keep (is_refused (BLOCK) ? NULL : __real_g_try_malloc (n_bytes));
}

gpointer
__wrap_g_try_malloc_n (gsize n, gsize size)
{
  return keep (is_refused (BLOCKS) ? NULL : __real_g_try_malloc_n (n, size));
}

gpointer
__wrap_g_try_malloc0 (gsize n_bytes)
{
  return keep (is_refused (ZEROS) ? NULL : __real_g_try_malloc0 (n_bytes));
}

gpointer
__wrap_g_try_malloc0_n (gsize n, gsize size)
{
  return keep (is_refused (ZEROS) ? NULL : __real_g_try_malloc0_n (n, size));
}

gpointer
__wrap_g_try_realloc (gpointer old, gsize n_bytes)
{
  return keep (is_refused (MORE) ? NULL : __real_g_try_realloc (old, n_bytes));
}

gpointer
__wrap_g_try_realloc_n (gpointer old, gsize n, gsize size)
{
  return keep (is_refused (MORE) ? NULL : __real_g_try_realloc_n (old, n, size));
}

FILE *
__wrap_fmemopen (void *bytes, gsize size, const char *mode)
{
  return refused == MEMORY_STREAM ? NULL : __real_fmemopen (bytes, size, mode);
}

FILE *
__wrap_fdopen (int fd, const char *mode)
{
  return refused == STREAM ? NULL : __real_fdopen (fd, mode);
}

static void
set_up (Fixture *fixture, gconstpointer data)
{
  fixture_set_up (fixture, data);
  refused = NOTHING;
}

/* ---- what is read in the file itself ---- */

/* The triangle as UTF-16, so that it is turned into other text before it is read. */
static void
write_triangle (const Fixture *fixture)
{
  static const char text[] = "mtllib a.mtl\no one two\nv 0 0 0\nv 1 0 0\nv 1 1 0\nf 1 2 3\n";
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  g_byte_array_append (bytes, (const guint8 *)"\xff\xfe", 2);
  for (const char *p = text; *p != '\0'; p++)
    {
      const guint8 letter[2] = { (guint8)*p, 0 };
      g_byte_array_append (bytes, letter, 2);
    }
  fixture_write (fixture, "a.obj", bytes->data, bytes->len);
}

static void
test_facts (Fixture *fixture, gconstpointer data)
{
  static TrnAnswer *answers[4]; /* which are never freed */
  static const Refused refusals[] = { NOTHING, BLOCK, BLOCKS, MEMORY_STREAM };
  write_triangle (fixture);
  g_autofree char *path = fixture_path (fixture, "a.obj");
  for (guint i = 0; i < G_N_ELEMENTS (refusals); i++)
    {
      TrnAnswer *answer = answers[i] = trn_answer_new ();
      TrnFileFacts facts;
      refused = refusals[i];
      trn_file_facts_read (path, TRN_FORMAT_OBJ, &facts, answer);
      refused = NOTHING;
      if (refusals[i] == NOTHING)
        {
          g_assert_cmpuint (answer->notes->len, ==, 0);
          g_assert_cmpuint (facts.faces, ==, 1);
          continue;
        }
      g_assert_cmpuint (answer->notes->len, ==, 1);
      g_assert_cmpuint (g_array_index (answer->notes, TrnAnswerNote, 0).head.code, ==,
                        TRN_NOTE_MEMORY);
    }
}

/* ---- what the import library asks for ---- */

/* Whether @name is opened, as the library asks for it; @no_room as was kept of that. */
static gboolean
opens (const Fixture *fixture, const char *name, Refused refusal, gboolean *no_room)
{
  static GPtrArray *all; /* which are never freed */
  g_autofree char *model = fixture_path (fixture, "a.obj");
  g_autofree char *path = fixture_path (fixture, name);
  TrnFolderIo *io = trn_folder_io_new (model);
  all = all != NULL ? all : g_ptr_array_new ();
  g_ptr_array_add (all, io);
  refused = refusal;
  struct aiFile *file = io->io.OpenProc (&io->io, path, "rb");
  refused = NOTHING;
  if (file != NULL)
    io->io.CloseProc (&io->io, file);
  *no_room = io->no_room;
  g_assert_null (io->outside);
  return file != NULL;
}

/* The model, whose names are joined in memory, and the file that it refers to. */
static void
test_folder (Fixture *fixture, gconstpointer data)
{
  static const char *const names[] = { "a.obj", "a.mtl" };
  static const Refused refusals[] = { BLOCK, MEMORY_STREAM, STREAM };
  fixture_write (fixture, "a.obj", "mtllib a.mtl\no one two\n", -1);
  fixture_write (fixture, "a.mtl", "newmtl red\n", -1);
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      gboolean no_room;
      g_assert_true (opens (fixture, names[i], NOTHING, &no_room));
      g_assert_false (no_room);
      for (guint k = 0; k < G_N_ELEMENTS (refusals); k++)
        {
          g_test_message ("%s, %u", names[i], k);
          g_assert_false (opens (fixture, names[i], refusals[k], &no_room));
          g_assert_true (no_room);
        }
    }
  gboolean no_room;
  g_assert_false (opens (fixture, "b.mtl", NOTHING, &no_room));
  g_assert_false (no_room);
}

/* ---- one block after the other ---- */

#define N_POINTS 1100 /* more than there is room for at first */

typedef void (*ReadFunc) (gconstpointer what, TrnAnswer *answer);

/* Refuses every block in turn, until there is none that was not refused once. */
static void
assert_each_is_said (ReadFunc read, gconstpointer what, int least)
{
  static GPtrArray *answers; /* which are never freed */
  answers = answers != NULL ? answers : g_ptr_array_new ();
  for (int n = 0;; n++)
    {
      TrnAnswer *answer = trn_answer_new ();
      g_ptr_array_add (answers, answer);
      refused = ONE_BLOCK;
      n_granted = n;
      read (what, answer);
      refused = NOTHING;
      if (n_granted >= 0)
        {
          g_assert_false (trn_answer_has_error (answer));
          g_assert_cmpuint (answer->header.n_triangles, >, 0);
          g_assert_cmpint (n, >=, least);
          return;
        }
      g_assert_cmpuint (answer->notes->len, ==, 1);
      g_assert_cmpuint (g_array_index (answer->notes, TrnAnswerNote, 0).head.code, ==,
                        TRN_NOTE_MEMORY);
    }
}

static void
read_native (gconstpointer what, TrnAnswer *answer)
{
  const char *path = what;
  trn_native_read (path, trn_format_from_path (path), G_MAXUINT32, answer);
}

/* A strip of triangles with N_POINTS corners. */
static char *
off_strip (void)
{
  GString *text = g_string_new (NULL);
  g_string_printf (text, "OFF\n%d %d 0\n", N_POINTS, N_POINTS - 2);
  for (int i = 0; i < N_POINTS; i++)
    g_string_append_printf (text, "%d %d 0\n", i, i % 2);
  for (int i = 0; i < N_POINTS - 2; i++)
    g_string_append_printf (text, "3 %d %d %d\n", i, i + 1, i + 2);
  return g_string_free (text, FALSE);
}

static void
test_native (Fixture *fixture, gconstpointer data)
{
  g_autofree char *off = off_strip (), *amf = body_amf (" unit=\"meter\"", "", 1);
  g_autofree char *faces = body_dxf_faces ("A", 1), *dxf = body_dxf ("", "", faces);
  g_autofree char *model = body_3mf_model ("", "", "<item objectid=\"1\"/>", 1);
  g_autoptr (GByteArray) zip = body_3mf (model), binary = body_3ds ("a", 1, NULL, NULL);
  const struct
  {
    const char *name;
    const void *bytes;
    gssize length;
    int least; /* calls for a block */
  } files[] = {
    { "a.off", off, -1, 7 },
    { "a.amf", amf, -1, 6 },
    { "a.dxf", dxf, -1, 3 },
    { "a.3mf", zip->data, zip->len, 7 },
    { "a.3ds", binary->data, binary->len, 3 },
  };
  for (guint i = 0; i < G_N_ELEMENTS (files); i++)
    {
      g_test_message ("%s", files[i].name);
      fixture_write (fixture, files[i].name, files[i].bytes, files[i].length);
      g_autofree char *path = fixture_path (fixture, files[i].name);
      assert_each_is_said (read_native, path, files[i].least);
    }
}

static void
read_scene (gconstpointer what, TrnAnswer *answer)
{
  const TrnFileFacts facts = { .counted = TRUE, .roundings = 1 };
  trn_scene_walk (what, &facts, G_MAXUINT32, answer);
}

static void
read_packed (gconstpointer what, TrnAnswer *answer)
{
  const TrnFileFacts facts = { .counted = TRUE, .packed = TRUE, .roundings = 1 };
  trn_scene_walk (what, &facts, G_MAXUINT32, answer);
}

/* Refuses the blocks of a scene of this mesh, one after the other. */
static void
assert_each_of_mesh_is_said (struct aiMesh *mesh, ReadFunc read, int least)
{
  guint shown[] = { 0 };
  struct aiNode root = { .mNumMeshes = 1, .mMeshes = shown };
  root.mTransformation = (struct aiMatrix4x4){ .a1 = 1, .b2 = 1, .c3 = 1, .d4 = 1 };
  const struct aiScene scene = { .mRootNode = &root, .mNumMeshes = 1, .mMeshes = &mesh };
  assert_each_is_said (read, &scene, least);
}

/* The same strip, as the import library would give it, and as if it had been packed. */
static void
test_scene (Fixture *fixture, gconstpointer data)
{
  static struct aiVector3D points[N_POINTS];
  static guint corners[N_POINTS - 2][3];
  static struct aiFace faces[N_POINTS - 2];
  for (guint i = 0; i < N_POINTS; i++)
    points[i] = (struct aiVector3D){ (float)i * 0.1F, (float)(i % 2) * 0.3F, 0.7F };
  for (guint i = 0; i < N_POINTS - 2; i++)
    {
      for (guint k = 0; k < 3; k++)
        corners[i][k] = i + k;
      faces[i] = (struct aiFace){ 3, corners[i] };
    }
  struct aiMesh mesh = {
    .mNumVertices = N_POINTS, .mVertices = points, .mNumFaces = N_POINTS - 2, .mFaces = faces
  };
  assert_each_of_mesh_is_said (&mesh, read_scene, 6);
  assert_each_of_mesh_is_said (&mesh, read_packed, 7);
}

/* A quadrilateral that crosses itself: it cannot be cut, and what covers it takes more room than
 * there was. */
static void
test_cover (Fixture *fixture, gconstpointer data)
{
  struct aiVector3D points[] = { { 0, 0, 0 }, { 3, 0, 0 }, { 0, 1, 0 }, { 1, -1, 0 } };
  guint corners[] = { 0, 1, 2, 3 };
  struct aiFace face = { 4, corners };
  struct aiMesh mesh = { .mNumVertices = 4, .mVertices = points, .mNumFaces = 1, .mFaces = &face };
  assert_each_of_mesh_is_said (&mesh, read_scene, 5);
}

int
main (int argc, char **argv)
{
  blocks = g_ptr_array_new ();
  g_test_init (&argc, &argv, NULL);
#define ADD(path, func) g_test_add (path, Fixture, NULL, set_up, func, fixture_tear_down)
  ADD ("/import/helper-memory/facts", test_facts);
  ADD ("/import/helper-memory/folder", test_folder);
  ADD ("/import/helper-memory/native", test_native);
  ADD ("/import/helper-memory/scene", test_scene);
  ADD ("/import/helper-memory/cover", test_cover);
  return g_test_run ();
}
