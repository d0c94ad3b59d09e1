/* fake-helper: an import helper that misbehaves as the environment variable FAKE_HELPER says. */
#include "stream.h"

#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <unistd.h>

static const char *mode;

static gboolean
is (const char *name)
{
  return strcmp (mode, name) == 0;
}

static void
put (const void *bytes, size_t length)
{
  if (fwrite (bytes, 1, length, stdout) != length)
    exit (1);
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
                             .metres_per_unit = 1 };
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
  if (is ("notes"))
    header.n_notes = G_MAXUINT32;
  if (is ("bad-note") || is ("note-length") || is ("mesh-and-error"))
    header.n_notes = 1;
  if (is ("no-mesh"))
    header.n_parts = header.n_vertices = header.n_triangles = 0;
  if (is ("unit"))
    header.metres_per_unit = NAN;
  if (is ("loss"))
    header.loss = -1;
  if (is ("up"))
    header.up = 9;
  put (&header, sizeof header);
}

static void
put_note (void)
{
  TrnStreamNote note = { .code = is ("bad-note") ? 999 : TRN_NOTE_DAMAGED,
                         .length = is ("note-length") ? 1u << 31 : 0 };
  put (&note, sizeof note);
}

static void
put_body (void)
{
  const char *name = is ("utf-8") ? "\xff\xfe" : is ("control") ? "\033[2J" : "load";
  TrnStreamPart part = { 0, 1, (guint32)strlen (name) };
  if (is ("part-range"))
    part.count = 2;
  if (is ("part-gap"))
    part.first = 1;
  if (is ("part-empty"))
    part.count = 0;
  if (is ("name-length"))
    part.length = G_MAXUINT32;
  put (&part, sizeof part);
  put (name, strlen (name));

  double vertices[9] = { 0, 0, 0, 1, 0, 0, 0, 1, 0 };
  guint32 triangle[3] = { 0, 1, 2 }, end = TRN_STREAM_END;
  if (is ("nan"))
    vertices[4] = NAN;
  if (is ("infinity"))
    vertices[8] = -INFINITY;
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
  mode = getenv ("FAKE_HELPER");
  if (mode == NULL || argc != 5)
    return 1;
  if (is ("crash"))
    raise (SIGSEGV);
  if (is ("abort"))
    raise (SIGABRT);
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
  if (is ("bad-note") || is ("note-length") || is ("mesh-and-error"))
    put_note ();
  while (is ("hang-late"))
    {
      fflush (stdout);
      pause ();
    }
  put_body ();
  fflush (stdout);
  if (is ("linger"))
    {
      fclose (stdout);
      for (;;)
        pause ();
    }
  return is ("status-late") ? 3 : 0;
}
