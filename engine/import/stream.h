/* stream.h: what the import helper writes to its standard output, and nothing else goes there.
 *
 *   TrnStreamHeader
 *   n_notes times    TrnStreamNote, then `length` bytes of UTF-8
 *   n_parts times    TrnStreamPart, then `length` bytes of UTF-8
 *   n_vertices times three doubles x, y, z, in the file's own unit and axes
 *   n_triangles times three guint32, indices of vertices
 *   guint32          TRN_STREAM_END, then end of file
 *
 * Numbers are in the byte order of the machine, on which both ends always run: little-endian on
 * every machine that is built for; the magic number tells the two orders apart. An answer with an
 * error among its notes has no parts, vertices and triangles. */
#pragma once

#include <glib.h>

#define TRN_STREAM_MAGIC 0x4d6e7254u
#define TRN_STREAM_VERSION 4u
#define TRN_STREAM_END 0x646e6554u
#define TRN_STREAM_MAX_NOTES 32u
#define TRN_STREAM_MAX_REFERRED 16u /* notes of them */
#define TRN_STREAM_UP_NONE 0u
#define TRN_STREAM_UP_Z 1u
#define TRN_STREAM_UP_Y 2u
#define TRN_STREAM_MAX_TEXT 400u /* bytes of a note's text or a part's name */
#define TRN_STREAM_MAX_PARTS 1000000u
#define TRN_STREAM_MAX_NUMBER 1e20 /* of a note's numbers, which count */
/* How the helper was confined beside its limits: bits of `confined`. */
#define TRN_STREAM_CONFINED_CALLS 1u  /* a filter of system calls */
#define TRN_STREAM_CONFINED_FOLDER 2u /* the kernel opens files in the model's folder only */
#define TRN_STREAM_CONFINED_ALL 3u

typedef struct
{
  guint32 magic, version;
  guint32 n_notes, n_parts, n_vertices, n_triangles;
  guint32 up;             /* TRN_STREAM_UP_…: what the file declares */
  guint32 alone;          /* 1: no other file was asked for; 0: the answer depends on others, too */
  guint32 joined;         /* vertices of the file that were joined with an equal one */
  guint32 confined;       /* TRN_STREAM_CONFINED_… */
  guint32 counted;        /* 1: the faces were held against a count made in the file itself */
  guint32 reserved;       /* 0 */
  double metres_per_unit; /* what the file declares; 0 where it declares none */
  double loss;            /* bound on the error of a coordinate, in file units */
  double largest;         /* greatest absolute value among the file's numbers, in file units */
} TrnStreamHeader;

/* What a note says, its text and its two numbers. */
typedef enum
{
  TRN_NOTE_DAMAGED = 1,       /* error; text: the reader's reason */
  TRN_NOTE_MEMORY,            /* error */
  TRN_NOTE_TOO_MANY,          /* error; triangles */
  TRN_NOTE_NO_FACES,          /* error; no faces and no points or lines either */
  TRN_NOTE_FILM_ONLY,         /* error; no faces; cameras and lights, animations */
  TRN_NOTE_NONE_PLACED,       /* error; meshes */
  TRN_NOTE_POINTS_ONLY,       /* error; points, lines */
  TRN_NOTE_OUTSIDE_FOLDER,    /* error; text: the reference */
  TRN_NOTE_REFERENCE_MISSING, /* error; text: the reference */
  TRN_NOTE_NOT_FINITE,        /* error; text: the mesh */
  TRN_NOTE_INDEX_RANGE,       /* error; text: the mesh; index, vertices */
  TRN_NOTE_FACES_LOST,        /* error; faces in the file, faces read */
  TRN_NOTE_POLYGON,           /* error; text: the mesh; corners */
  TRN_NOTE_TRANSFORM,         /* error; text: the node */
  TRN_NOTE_UNSUPPORTED,       /* error; text: the feature */
  TRN_NOTE_COUNT,             /* error; text: the element; count */
  TRN_NOTE_DROPPED,           /* warning; points, lines */
  TRN_NOTE_UNUSED,            /* warning; meshes */
  TRN_NOTE_READER,            /* warning; text: the reader's words; how many times it complained */
  TRN_NOTE_UNCONFINED,        /* warning; text: why the system calls are not filtered */
  TRN_NOTE_NOT_COUNTED,       /* warning; the faces were held against no count in the file */
  TRN_NOTE_EXPERIMENTAL,      /* warning; text: the format */
  TRN_NOTE_BENT,              /* warning; polygons that could not be cut and were covered */
  TRN_NOTE_WARPED,            /* warning; text: the mesh; the most that a polygon is from flat, in
                                 file units */
  TRN_NOTE_REFERRED,          /* no warning; text: SHA-256 of another file as it was read, a blank,
                                 and its name from the folder */
  TRN_NOTE_ANIMATED,          /* warning; it holds an animation */
  TRN_NOTE_LAST = TRN_NOTE_ANIMATED,
} TrnNoteCode;

/* What a text may hold: nothing that steers a terminal, breaks a line, or turns the order in which
 * the text around it is read. */
static inline gboolean
trn_stream_char_is_clean (gunichar c)
{
  return !g_unichar_iscntrl (c) && c != 0x061c && (c < 0x200e || c > 0x200f)
         && (c < 0x2028 || c > 0x202e) && (c < 0x2066 || c > 0x2069) && c != 0xfeff;
}

#define TRN_STREAM_DIGEST 64u /* letters of a SHA-256 */

/* The name in the text of TRN_NOTE_REFERRED, borrowed; NULL where it is no such text. */
static inline const char *
trn_stream_referred_get (const char *text)
{
  guint n = 0;
  while (n < TRN_STREAM_DIGEST && g_ascii_isxdigit (text[n]) && !g_ascii_isupper (text[n]))
    n++;
  return n == TRN_STREAM_DIGEST && text[n] == ' ' ? text + n + 1 : NULL;
}

static inline gboolean
trn_note_is_error (guint32 code)
{
  return code < TRN_NOTE_DROPPED;
}

typedef struct
{
  guint32 code, length;
  double numbers[2];
} TrnStreamNote;

typedef struct
{
  guint32 first, count, length;
} TrnStreamPart;
