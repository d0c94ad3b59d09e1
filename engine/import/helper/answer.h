/* answer.h: what the helper will tell its parent: notes, and a mesh where it could be read. */
#pragma once

#include "stream.h"

/* So many bytes of a text are kept, whatever letters it has: one takes up to six. */
#define TRN_ANSWER_MAX_TEXT (TRN_STREAM_MAX_TEXT - 6u)

typedef struct
{
  TrnStreamNote head;
  char *text;
} TrnAnswerNote;

typedef struct
{
  TrnStreamPart head;
  char *name;
} TrnAnswerPart;

typedef struct
{
  TrnStreamHeader header;
  GArray *notes;      /* of TrnAnswerNote */
  GArray *parts;      /* of TrnAnswerPart */
  double *vertices;   /* three a vertex */
  guint32 *triangles; /* three a triangle */
  double warp;        /* the greatest of the polygons that were cut, in file units */
  char *warped;       /* the part of that one */
} TrnAnswer;

TrnAnswer *trn_answer_new (void);

/* Beyond TRN_STREAM_MAX_NOTES further warnings are left out; an error always finds room. @text may
 * be NULL and need not be valid UTF-8. */
void trn_answer_note (TrnAnswer *answer, TrnNoteCode code, double a, double b, const char *text);
/* A polygon of @part was cut that is @warp from flat. */
void trn_answer_warp (TrnAnswer *answer, double warp, const char *part);
/* Adds the note about the greatest of them, if there is one. */
void trn_answer_note_warp (TrnAnswer *answer);
gboolean trn_answer_has_error (const TrnAnswer *answer);

void trn_answer_part (TrnAnswer *answer, guint32 first, guint32 count, const char *name);

/* Writes the whole answer. FALSE when the other end is gone. */
gboolean trn_answer_send (TrnAnswer *answer, int fd);
