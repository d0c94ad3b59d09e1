/* The helper without memory: whatever is not to be had of it, there is an error that says so, and a
 * file that was not read for want of it is not taken for one that is missing.
 *
 * Every call of the helper for a block, or for a stream in memory, goes through functions of this
 * program (the linker's --wrap), which refuse one kind of them. */
#include "fixture.h"
#include "helper/file-facts.h"
#include "helper/folder-io.h"

#include <stdio.h>
#include <string.h>

typedef enum
{
  NOTHING,
  BLOCK,  /* g_try_malloc */
  BLOCKS, /* g_try_malloc_n */
  MEMORY_STREAM,
  STREAM,
} Refused;

static Refused refused;

/* What the helper leaves to its end. */
static GPtrArray *blocks;

gpointer __real_g_try_malloc (gsize n_bytes);
gpointer __wrap_g_try_malloc (gsize n_bytes);
gpointer __real_g_try_malloc_n (gsize n, gsize size);
gpointer __wrap_g_try_malloc_n (gsize n, gsize size);
FILE *__real_fmemopen (void *bytes, gsize size, const char *mode);
FILE *__wrap_fmemopen (void *bytes, gsize size, const char *mode);
FILE *__real_fdopen (int fd, const char *mode);
FILE *__wrap_fdopen (int fd, const char *mode);

gpointer
__wrap_g_try_malloc (gsize n_bytes)
{
  gpointer block = refused == BLOCK ? NULL : __real_g_try_malloc (n_bytes);
  g_ptr_array_add (blocks, block);
  return block;
}

gpointer
__wrap_g_try_malloc_n (gsize n, gsize size)
{
  return refused == BLOCKS ? NULL : __real_g_try_malloc_n (n, size);
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

int
main (int argc, char **argv)
{
  blocks = g_ptr_array_new ();
  g_test_init (&argc, &argv, NULL);
#define ADD(path, func) g_test_add (path, Fixture, NULL, set_up, func, fixture_tear_down)
  ADD ("/import/helper-memory/facts", test_facts);
  ADD ("/import/helper-memory/folder", test_folder);
  return g_test_run ();
}
