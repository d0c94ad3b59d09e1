/* 3DS: chunks in chunks; each begins with a number and its length.
 *
 * The vertices of an object are in the frame of the whole file, whatever its matrix says: that is
 * what is taken; but where the axes of its matrix are left-handed, writers keep the vertices the
 * other way round along the object's own X axis, and that is refused. The key frames place the same
 * objects again, for a film; several tracks for one object make copies of it, which are not read.
 * The import library puts objects where the first key frame says, makes new names, and divides by
 * the master scale, of which other programs know nothing. Numbers of chunks: common knowledge of
 * the format, there is no specification. */
#include "native.h"

#include <string.h>

#define CHUNK_MAIN 0x4d4d
#define CHUNK_EDITOR 0x3d3d
#define CHUNK_MASTER_SCALE 0x0100
#define CHUNK_OBJECT 0x4000
#define CHUNK_MESH 0x4100
#define CHUNK_VERTICES 0x4110
#define CHUNK_FACES 0x4120
#define CHUNK_MATRIX 0x4160
#define CHUNK_KEYS 0xb000
#define CHUNK_KEYS_OBJECT 0xb002
#define CHUNK_KEYS_NAME 0xb010
#define CHUNK_KEYS_FIRST 0xb020 /* of places, turns and scales */
#define CHUNK_KEYS_LAST 0xb022
#define HEAD_BYTES 6u
#define DUMMY "$$$DUMMY"

typedef struct
{
  const guint8 *at, *end;
} Span;

typedef struct
{
  TrnBuild *build;
  TrnAnswer *answer;
  char name[64];     /* of the object */
  GHashTable *shown; /* names that a key frame track has */
  gboolean moves;    /* a track moves it */
  double (*points)[3];
  guint32 n_points;
  guint32 *index_of;
} File3ds;

static guint16
u16_get (const guint8 *at)
{
  return (guint16)(at[0] | at[1] << 8);
}

static guint32
u32_get (const guint8 *at)
{
  return u16_get (at) | (guint32)u16_get (at + 2) << 16;
}

static float
float_get (const guint8 *at)
{
  guint32 bits = u32_get (at);
  float value;
  memcpy (&value, &bits, sizeof value);
  return value;
}

static void
complain (File3ds *file, const char *what)
{
  if (!trn_answer_has_error (file->answer))
    trn_answer_note (file->answer, TRN_NOTE_DAMAGED, 0, 0, what);
}

/* Takes the next chunk off @span. FALSE at its end or after an error. */
static gboolean
next_chunk (File3ds *file, Span *span, guint16 *number, Span *inside)
{
  gsize left = (gsize)(span->end - span->at);
  if (left < HEAD_BYTES || trn_answer_has_error (file->answer))
    return FALSE;
  guint32 length = u32_get (span->at + 2);
  if (length < HEAD_BYTES || length > left)
    {
      complain (file, "a chunk is longer than what it lies in");
      return FALSE;
    }
  *number = u16_get (span->at);
  *inside = (Span){ span->at + HEAD_BYTES, span->at + length };
  span->at += length;
  return TRUE;
}

/* Takes a name that ends with a NUL byte off @span. */
static void
take_name (Span *span, char *name, gsize room)
{
  gsize n = 0;
  while (span->at < span->end && *span->at != '\0')
    {
      if (n + 1 < room)
        name[n++] = (char)*span->at;
      span->at++;
    }
  name[n] = '\0';
  span->at += span->at < span->end;
}

static void
read_vertices (File3ds *file, Span span)
{
  gsize left = (gsize)(span.end - span.at);
  guint32 n = left >= 2 ? u16_get (span.at) : 0;
  if (left < 2 + 12 * (gsize)n)
    {
      complain (file, "it has fewer vertices than it says");
      return;
    }
  g_free (file->points);
  g_free (file->index_of);
  file->points = g_malloc_n ((gsize)n + 1, sizeof *file->points);
  file->index_of = g_new0 (guint32, (gsize)n + 1);
  file->n_points = n;
  const guint8 *at = span.at + 2;
  for (guint32 i = 0; i < n; i++)
    for (int k = 0; k < 3; k++, at += 4)
      file->points[i][k] = float_get (at);
}

static void
read_faces (File3ds *file, Span span)
{
  gsize left = (gsize)(span.end - span.at);
  guint32 n = left >= 2 ? u16_get (span.at) : 0;
  if (left < 2 + 8 * (gsize)n)
    {
      complain (file, "it has fewer faces than it says");
      return;
    }
  TrnBuildPoints points = { (const double (*)[3])file->points, file->n_points, file->index_of };
  guint part = trn_build_part_get (file->build, file->name);
  const guint8 *at = span.at + 2;
  for (guint32 i = 0; i < n; i++, at += 8)
    {
      guint32 corners[3] = { u16_get (at), u16_get (at + 2), u16_get (at + 4) };
      if (!trn_build_face (file->build, part, &points, corners, 3, FALSE))
        return;
    }
}

/* Twelve numbers: the axes of the object, each in a row, and its origin. */
static void
check_matrix (File3ds *file, Span span)
{
  double a[9];
  if (span.end - span.at < 48)
    {
      complain (file, "a matrix has not twelve numbers");
      return;
    }
  for (guint i = 0; i < 9; i++)
    a[i] = float_get (span.at + 4 * (gsize)i);
  double volume = a[0] * (a[4] * a[8] - a[5] * a[7]) - a[1] * (a[3] * a[8] - a[5] * a[6])
                  + a[2] * (a[3] * a[7] - a[4] * a[6]);
  if (!(volume >= 0) && !trn_answer_has_error (file->answer))
    trn_answer_note (file->answer, TRN_NOTE_UNSUPPORTED, 0, 0, "a mirrored object");
}

/* The chunk of the vertices may come after that of the faces. */
static void
read_mesh (File3ds *file, Span span)
{
  Span faces = { NULL, NULL }, inside;
  guint16 number;
  guint n_faces = 0, n_vertices = 0;
  while (next_chunk (file, &span, &number, &inside))
    {
      if (number == CHUNK_VERTICES && n_vertices++ == 0)
        read_vertices (file, inside);
      else if (number == CHUNK_FACES && n_faces++ == 0)
        faces = inside;
      else if (number == CHUNK_MATRIX)
        check_matrix (file, inside);
    }
  if (n_faces > 1 || n_vertices > 1)
    complain (file, "an object has its faces or vertices twice");
  else if (n_faces == 1 && !trn_answer_has_error (file->answer))
    read_faces (file, faces);
  else if (n_vertices == 1)
    trn_build_drop (file->build, file->n_points, 0);
  file->n_points = 0;
}

static void
read_editor (File3ds *file, Span span)
{
  Span inside, in_object;
  guint16 number;
  while (next_chunk (file, &span, &number, &inside))
    {
      if (number == CHUNK_MASTER_SCALE && inside.end - inside.at >= 4 && float_get (inside.at) != 1
          && float_get (inside.at) != 0)
        trn_answer_note (file->answer, TRN_NOTE_UNSUPPORTED, 0, 0, "a master scale other than 1");
      if (number != CHUNK_OBJECT)
        continue;
      take_name (&inside, file->name, sizeof file->name);
      while (next_chunk (file, &inside, &number, &in_object))
        if (number == CHUNK_MESH)
          read_mesh (file, in_object);
    }
}

/* One chunk of an object's track. Objects with two tracks are shown twice. */
static void
read_track (File3ds *file, guint16 number, Span inside)
{
  char name[64];
  if (number >= CHUNK_KEYS_FIRST && number <= CHUNK_KEYS_LAST && inside.end - inside.at >= 14)
    file->moves = file->moves || u32_get (inside.at + 10) > 1;
  if (number != CHUNK_KEYS_NAME)
    return;
  take_name (&inside, name, sizeof name);
  if (strcmp (name, DUMMY) != 0 && !g_hash_table_add (file->shown, g_strdup (name)))
    trn_answer_note (file->answer, TRN_NOTE_UNSUPPORTED, 0, 0,
                     "copies of an object in the key frames");
}

static void
read_keys (File3ds *file, Span span)
{
  Span track, inside;
  guint16 number;
  while (next_chunk (file, &span, &number, &track))
    if (number == CHUNK_KEYS_OBJECT)
      while (next_chunk (file, &track, &number, &inside))
        read_track (file, number, inside);
}

static void
read_file (File3ds *file, Span span)
{
  Span main, inside;
  guint16 number;
  if (!next_chunk (file, &span, &number, &main) || number != CHUNK_MAIN)
    {
      complain (file, "it does not begin as a 3DS file does");
      return;
    }
  if (span.at < span.end)
    complain (file, "it goes on after its end");
  while (next_chunk (file, &main, &number, &inside))
    {
      if (number == CHUNK_EDITOR)
        read_editor (file, inside);
      else if (number == CHUNK_KEYS)
        read_keys (file, inside);
    }
}

void
trn_read_3ds (const char *path, TrnBuild *build, TrnAnswer *answer)
{
  gsize length;
  g_autofree char *bytes = trn_native_bytes_dup (path, &length, answer);
  if (bytes == NULL)
    return;
  File3ds file = { .build = build, .answer = answer };
  file.shown = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  const guint8 *at = (const guint8 *)bytes;
  read_file (&file, (Span){ at, at + length });
  if (file.moves)
    trn_answer_note (answer, TRN_NOTE_ANIMATED, 0, 0, NULL);
  g_hash_table_unref (file.shown);
  g_free (file.points);
  g_free (file.index_of);
}
