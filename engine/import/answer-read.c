/* Three things a helper that was taken over could do beside lying about the model: make the parent
 * take memory, make it wait, and hand it numbers that fail an assertion later on. Memory is bounded
 * by TRN_ANSWER_SHARE before any is taken, and again while names come in; waiting by the deadline
 * of the process, whatever trickles in until then; and a coordinate by the precision that the
 * helper itself claims, which the caller holds against a limit in metres. */
#include "answer-read.h"

#include <string.h>

/* The helper holds its answer beside what it made it from, so half of its memory is enough. */
#define TRN_ANSWER_SHARE 2
/* What a part takes beside its name: the allocator's own bytes are counted generously. */
#define PART_BYTES (sizeof (TrnMeshPart) + 64)
/* No coordinate is known better than to half a unit of double precision, and half of that for
 * slack. With the caller's limit on the loss this keeps coordinates below 10^13 m. */
#define LEAST_LOSS 0x1p-54
#define LEAST_UNIT_M 1e-9
#define LARGEST_UNIT_M 1e6

/* Reads or leaves the function that it stands in. */
#define READ(bytes, length)                                                                        \
  do                                                                                               \
    {                                                                                              \
      TrnPipeResult pipe_result = trn_helper_process_read (process, (bytes), (length));            \
      if (pipe_result != TRN_PIPE_OK)                                                              \
        return pipe_result;                                                                        \
    }                                                                                              \
  while (0)

TrnReadAnswer *
trn_read_answer_new (void)
{
  TrnReadAnswer *answer = g_new0 (TrnReadAnswer, 1);
  answer->notes = g_array_new (FALSE, TRUE, sizeof (TrnReadNote));
  return answer;
}

void
trn_read_answer_free (TrnReadAnswer *answer)
{
  if (answer == NULL)
    return;
  for (guint i = 0; i < answer->notes->len; i++)
    g_free (g_array_index (answer->notes, TrnReadNote, i).text);
  g_array_unref (answer->notes);
  for (guint32 i = 0; answer->parts != NULL && i < answer->header.n_parts; i++)
    g_free (answer->parts[i].name);
  g_free (answer->parts);
  g_free (answer->vertices);
  g_free (answer->triangles);
  g_free (answer);
}

static gboolean
unit_is_possible (double metres)
{
  return metres == 0 || (metres >= LEAST_UNIT_M && metres <= LARGEST_UNIT_M);
}

/* Bytes that the answer will take here, without the names of its parts. No sum can overflow: three
 * products of a number below 2^32 and one below 2^10. */
static guint64
bytes_needed (const TrnStreamHeader *h)
{
  return h->n_triangles * (guint64)sizeof (TrnTriangle) + h->n_vertices * (guint64)sizeof (TrnVec3)
         + h->n_parts * (guint64)PART_BYTES;
}

/* What is wrong with the header, before anything is allocated for its counts. */
static const char *
header_fault (const TrnStreamHeader *h, const TrnImportLimits *limits)
{
  if (h->magic != TRN_STREAM_MAGIC || h->version != TRN_STREAM_VERSION)
    return "not this version's answer";
  if (h->n_notes > TRN_STREAM_MAX_NOTES || h->up > TRN_STREAM_UP_Y || h->alone > 1)
    return "header";
  if ((h->confined & ~TRN_STREAM_CONFINED_ALL) != 0 || h->counted > 1 || h->reserved != 0)
    return "header";
  if (!unit_is_possible (h->metres_per_unit))
    return "unit";
  if (!(h->loss >= 0 && h->largest >= 0 && isfinite (h->loss) && isfinite (h->largest)))
    return "precision";
  if (h->n_triangles > limits->max_triangles || h->n_vertices > 3 * (guint64)h->n_triangles
      || h->n_parts > h->n_triangles || h->n_parts > TRN_STREAM_MAX_PARTS)
    return "counts";
  return bytes_needed (h) > limits->memory_bytes / TRN_ANSWER_SHARE ? "size" : NULL;
}

static gboolean
text_is_clean (const char *text, gsize length)
{
  if (!g_utf8_validate (text, (gssize)length, NULL))
    return FALSE;
  for (const char *p = text; p < text + length; p = g_utf8_next_char (p))
    if (!trn_stream_char_is_clean (g_utf8_get_char (p)))
      return FALSE;
  return TRUE;
}

static TrnPipeResult
read_text (TrnHelperProcess *process, guint32 length, char **text, const char **fault)
{
  char bytes[TRN_STREAM_MAX_TEXT];
  if (length > sizeof bytes)
    {
      *fault = "length of a text";
      return TRN_PIPE_OK;
    }
  READ (bytes, length);
  if (text_is_clean (bytes, length))
    *text = g_strndup (bytes, length);
  else
    *fault = "text";
  return TRN_PIPE_OK;
}

static gboolean
number_is_possible (double number)
{
  return number >= 0 && number <= TRN_STREAM_MAX_NUMBER;
}

static TrnPipeResult
read_notes (TrnReadAnswer *answer, TrnHelperProcess *process, const char **fault)
{
  gboolean failed = FALSE, unconfined = FALSE;
  for (guint32 i = 0; i < answer->header.n_notes; i++)
    {
      TrnReadNote note = { .text = NULL };
      READ (&note.head, sizeof note.head);
      if (note.head.code < 1 || note.head.code > TRN_NOTE_LAST
          || !number_is_possible (note.head.numbers[0])
          || !number_is_possible (note.head.numbers[1]))
        {
          *fault = "note";
          return TRN_PIPE_OK;
        }
      TrnPipeResult result = read_text (process, note.head.length, &note.text, fault);
      if (result != TRN_PIPE_OK || *fault != NULL)
        return result;
      if (note.head.code == TRN_NOTE_REFERRED && trn_stream_referred_get (note.text) == NULL)
        {
          *fault = "digest";
          g_free (note.text);
          return TRN_PIPE_OK;
        }
      failed = failed || trn_note_is_error (note.head.code);
      unconfined = unconfined || note.head.code == TRN_NOTE_UNCONFINED;
      g_array_append_val (answer->notes, note);
    }
  if (failed != (answer->header.n_triangles == 0))
    *fault = "neither a mesh nor an error";
  else if (unconfined != ((answer->header.confined & TRN_STREAM_CONFINED_CALLS) == 0))
    *fault = "confinement";
  return TRN_PIPE_OK;
}

/* Parts follow one another without a gap and take up every triangle. */
static TrnPipeResult
read_parts (TrnReadAnswer *answer, TrnHelperProcess *process, const TrnImportLimits *limits,
            const char **fault)
{
  guint32 n = answer->header.n_parts, next = 0;
  guint64 room = limits->memory_bytes / TRN_ANSWER_SHARE - bytes_needed (&answer->header);
  answer->parts = g_try_new0 (TrnMeshPart, n);
  if (answer->parts == NULL && n > 0)
    {
      *fault = "size";
      return TRN_PIPE_OK;
    }
  for (guint32 i = 0; i < n; i++)
    {
      TrnStreamPart part;
      READ (&part, sizeof part);
      if (part.first != next || part.count == 0 || part.count > answer->header.n_triangles - next)
        {
          *fault = "part";
          return TRN_PIPE_OK;
        }
      if (part.length > room)
        {
          *fault = "size";
          return TRN_PIPE_OK;
        }
      room -= part.length;
      next += part.count;
      answer->parts[i].first = part.first;
      answer->parts[i].count = part.count;
      TrnPipeResult result = read_text (process, part.length, &answer->parts[i].name, fault);
      if (result != TRN_PIPE_OK || *fault != NULL)
        return result;
    }
  if (next != answer->header.n_triangles)
    *fault = "part";
  return TRN_PIPE_OK;
}

static TrnPipeResult
read_geometry (TrnReadAnswer *answer, TrnHelperProcess *process, const char **fault)
{
  guint32 n_vertices = answer->header.n_vertices, n_triangles = answer->header.n_triangles;
  answer->vertices = g_try_new (TrnVec3, n_vertices);
  answer->triangles = g_try_new (TrnTriangle, n_triangles);
  if ((answer->vertices == NULL && n_vertices > 0)
      || (answer->triangles == NULL && n_triangles > 0))
    {
      *fault = "size";
      return TRN_PIPE_OK;
    }
  READ (answer->vertices, n_vertices * sizeof (TrnVec3));
  READ (answer->triangles, n_triangles * sizeof (TrnTriangle));
  double most = answer->header.loss / LEAST_LOSS;
  for (guint32 i = 0; i < n_vertices && *fault == NULL; i++)
    if (!trn_vec3_is_finite (answer->vertices[i]) || trn_vec3_max_abs (answer->vertices[i]) > most)
      *fault = "coordinate";
  for (guint32 i = 0; i < n_triangles && *fault == NULL; i++)
    for (int k = 0; k < 3; k++)
      if (answer->triangles[i].v[k] >= n_vertices)
        *fault = "index";
  return TRN_PIPE_OK;
}

TrnPipeResult
trn_read_answer_read (TrnReadAnswer *answer, TrnHelperProcess *process,
                      const TrnImportLimits *limits, TrnProgress *progress, const char **fault)
{
  *fault = NULL;
  TrnStreamHeader header;
  READ (&header, sizeof header);
  answer->began = TRUE;
  trn_progress_add_done (progress, TRN_READ_STEPS);
  *fault = header_fault (&header, limits);
  if (*fault != NULL)
    return TRN_PIPE_OK;
  answer->header = header;

  TrnPipeResult result = read_notes (answer, process, fault);
  if (result == TRN_PIPE_OK && *fault == NULL)
    result = read_parts (answer, process, limits, fault);
  if (result == TRN_PIPE_OK && *fault == NULL)
    result = read_geometry (answer, process, fault);
  if (result != TRN_PIPE_OK || *fault != NULL)
    return result;
  guint32 end;
  guint8 more;
  READ (&end, sizeof end);
  if (end != TRN_STREAM_END)
    {
      *fault = "end";
      return TRN_PIPE_OK;
    }
  result = trn_helper_process_read (process, &more, 1);
  if (result == TRN_PIPE_OK)
    *fault = "more after the end";
  return result == TRN_PIPE_END ? TRN_PIPE_OK : result;
}
