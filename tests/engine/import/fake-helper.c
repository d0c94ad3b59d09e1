/* fake-helper: an import helper that misbehaves as the environment variable FAKE_HELPER says. */
#include "stream.h"

#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <unistd.h>

#define N_NAMES 100000

static const char *mode;

static gboolean
is (const char *name)
{
  return strcmp (mode, name) == 0;
}

static void
put (const void *bytes, size_t length)
{
  const char *at = bytes;
  for (size_t i = 0; is ("drip") && i < length; i++)
    {
      usleep (50000);
      if (write (STDOUT_FILENO, at + i, 1) != 1)
        exit (1);
    }
  if (!is ("drip") && fwrite (bytes, 1, length, stdout) != length)
    exit (1);
}

/* A digest that no file here has, and one that is none. */
#define DIGEST "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef "
#define NO_DIGEST "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdeF "

/* Another file that it says it has read. */
static const char *
referred_text (void)
{
  return is ("referred-up")        ? DIGEST "../any.obj"
         : is ("referred-root")    ? DIGEST "/etc/hostname"
         : is ("referred-folder")  ? DIGEST "."
         : is ("referred-empty")   ? DIGEST
         : is ("referred-none")    ? DIGEST "none.bin"
         : is ("referred-changed") ? DIGEST "any.obj"
         : is ("referred-bare")    ? "any.obj"
         : is ("referred-letters") ? NO_DIGEST "any.obj"
                                   : NULL;
}

static gboolean
has_note (void)
{
  return is ("bad-note") || is ("note-length") || is ("note-cut") || is ("mesh-and-error")
         || is ("note-nan") || is ("note-negative") || is ("note-huge") || is ("note-text")
         || is ("unconfined-lie") || referred_text () != NULL;
}

static void
put_header (void)
{
  TrnStreamHeader header = { .magic = TRN_STREAM_MAGIC,
                             .version = TRN_STREAM_VERSION,
                             .n_parts = 1,
                             .n_vertices = 3,
                             .n_triangles = 1,
                             .up = TRN_STREAM_UP_Z,
                             .confined = TRN_STREAM_CONFINED_ALL,
                             .metres_per_unit = 1,
                             .loss = 1e-6,
                             .largest = 1 };
  if (is ("magic"))
    header.magic = GUINT32_SWAP_LE_BE (TRN_STREAM_MAGIC);
  if (is ("version"))
    header.version++;
  if (is ("triangles"))
    header.n_triangles = G_MAXUINT32;
  if (is ("vertices"))
    header.n_vertices = G_MAXUINT32;
  if (is ("memory"))
    {
      header.n_triangles = 20000000;
      header.n_vertices = 60000000;
    }
  if (is ("parts"))
    header.n_parts = 2;
  if (is ("no-parts"))
    header.n_parts = 0;
  header.n_notes = has_note ();
  if (is ("notes"))
    header.n_notes = G_MAXUINT32;
  if (is ("names"))
    header.n_triangles = header.n_parts = N_NAMES;
  if (is ("no-mesh"))
    header.n_parts = header.n_vertices = header.n_triangles = 0;
  if (is ("unit"))
    header.metres_per_unit = NAN;
  if (is ("loss"))
    header.loss = -1;
  if (is ("up"))
    header.up = 9;
  if (is ("alone"))
    header.alone = 2;
  if (is ("confined-bit"))
    header.confined = 4;
  if (is ("unconfined-unsaid"))
    header.confined = TRN_STREAM_CONFINED_FOLDER;
  if (is ("counted"))
    header.counted = 2;
  if (is ("reserved"))
    header.reserved = 1;
  if (is ("unit-negative"))
    header.metres_per_unit = -1;
  if (is ("unit-tiny"))
    header.metres_per_unit = 1e-300;
  if (is ("unit-huge") || is ("far"))
    header.metres_per_unit = is ("far") ? 1e6 : 1e7;
  if (is ("loss-infinite"))
    header.loss = INFINITY;
  if (is ("largest"))
    header.largest = NAN;
  if (is ("imprecise"))
    header.loss = 1;
  put (&header, sizeof header);
}

static void
put_note (void)
{
  const char *text = is ("note-text") ? "\033]0;x\a" : "";
  TrnStreamNote note = { .code = TRN_NOTE_READER, .length = (guint32)strlen (text) };
  if (referred_text () != NULL)
    note = (TrnStreamNote){ .code = TRN_NOTE_REFERRED,
                            .length = (guint32)strlen (text = referred_text ()) };
  if (is ("bad-note"))
    note.code = TRN_NOTE_LAST + 1;
  if (is ("mesh-and-error"))
    note.code = TRN_NOTE_DAMAGED;
  if (is ("unconfined-lie"))
    note.code = TRN_NOTE_UNCONFINED;
  if (is ("note-length"))
    note.length = 1u << 31;
  if (is ("note-cut"))
    note.length = TRN_STREAM_MAX_TEXT;
  if (is ("note-nan"))
    note.numbers[0] = NAN;
  if (is ("note-negative"))
    note.numbers[0] = -1;
  if (is ("note-huge"))
    note.numbers[1] = 1e300;
  put (&note, sizeof note);
  put (text, strlen (text));
}

/* A child that has the other end's pipe, and outlives its parent. */
static void
leave_child (void)
{
  if (fork () == 0)
    for (;;)
      pause ();
}

/* As many names as there are triangles, each as long as may be. */
static void
put_names (void)
{
  char name[TRN_STREAM_MAX_TEXT];
  memset (name, 'n', sizeof name);
  for (guint32 i = 0; i < N_NAMES; i++)
    {
      TrnStreamPart part = { i, 1, sizeof name };
      put (&part, sizeof part);
      put (name, sizeof name);
    }
}

static void
put_body (void)
{
  const char *name = is ("utf-8")     ? "\xff\xfe"
                     : is ("control") ? "\033[2J"
                     : is ("nul")     ? "a"
                     : is ("bidi")    ? "a\u202eb"
                                      : "load";
  TrnStreamPart part = { 0, 1, (guint32)strlen (name) };
  if (is ("part-range"))
    part.count = 2;
  if (is ("part-gap"))
    part.first = 1;
  if (is ("part-empty"))
    part.count = 0;
  if (is ("name-length"))
    part.length = G_MAXUINT32;
  if (is ("nul"))
    part.length = 2;
  put (&part, sizeof part);
  put (name, part.length == 2 ? 2 : strlen (name));

  double vertices[9] = { 0, 0, 0, 1, 0, 0, 0, 1, 0 };
  guint32 triangle[3] = { 0, 1, 2 }, end = TRN_STREAM_END;
  if (is ("nan"))
    vertices[4] = NAN;
  if (is ("infinity"))
    vertices[8] = -INFINITY;
  if (is ("far"))
    vertices[4] = 1e308;
  if (is ("beyond-precision"))
    vertices[4] = 1e11; /* of which the loss would be 6e-6 at least */
  if (is ("index"))
    triangle[1] = 3;
  if (is ("end"))
    end = 0;
  put (vertices, sizeof vertices);
  if (is ("truncated"))
    return;
  if (is ("crash-late"))
    {
      fflush (stdout);
      raise (SIGSEGV);
    }
  if (is ("killed-late"))
    {
      fflush (stdout);
      raise (SIGKILL);
    }
  if (is ("index-max"))
    triangle[2] = G_MAXUINT32;
  put (triangle, sizeof triangle);
  put (&end, sizeof end);
  if (is ("trailing"))
    put ("x", 1);
  while (is ("flood-late"))
    put (vertices, sizeof vertices);
}

int
main (int argc, char **argv)
{
  const struct rlimit none = { 0, 0 };
  setrlimit (RLIMIT_CORE, &none);
  /* Not the sanitizers' reports, but the signals themselves. */
  signal (SIGSEGV, SIG_DFL);
  signal (SIGABRT, SIG_DFL);
  /* As the helper does. */
  setpgid (0, 0);
  mode = getenv ("FAKE_HELPER");
  if (mode == NULL || argc != 5)
    return 1;
  if (is ("crash"))
    raise (SIGSEGV);
  if (is ("abort"))
    raise (SIGABRT);
  if (is ("killed"))
    raise (SIGKILL);
  for (int i = 0; is ("stderr") && i < 100000; i++)
    fputs ("flood of words that nobody reads\n", stderr);
  if (is ("cpu"))
    raise (SIGXCPU);
  if (is ("status"))
    return 3;
  if (is ("nothing"))
    return 0;
  while (is ("hang"))
    pause ();
  while (is ("flood"))
    put (argv[0], 1);
  put_header ();
  if (is ("notes"))
    return 0;
  if (has_note ())
    put_note ();
  if (is ("names"))
    put_names ();
  while (is ("hang-late"))
    {
      fflush (stdout);
      pause ();
    }
  put_body ();
  fflush (stdout);
  if (is ("linger-child"))
    leave_child ();
  if (is ("linger"))
    {
      fclose (stdout);
      for (;;)
        pause ();
    }
  return is ("status-late") ? 3 : 0;
}
