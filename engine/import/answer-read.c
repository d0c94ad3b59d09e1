#include "answer-read.h"

#include <string.h>

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

/* What is wrong with the counts, before anything is allocated for them. */
static const char *
header_fault (const TrnStreamHeader *h, const TrnImportLimits *limits)
{
  if (h->magic != TRN_STREAM_MAGIC || h->version != TRN_STREAM_VERSION)
    return "not this version's answer";
  if (h->n_notes > TRN_STREAM_MAX_NOTES || h->up > TRN_STREAM_UP_Y || h->alone > 1)
    return "header";
  if ((h->confined & ~TRN_STREAM_CONFINED_ALL) != 0 || h->counted > 1 || h->reserved != 0)
    return "header";
  if (!(isfinite (h->metres_per_unit) && h->metres_per_unit >= 0 && h->metres_per_unit <= 1e6))
    return "unit";
  if (!(h->loss >= 0 && h->largest >= 0 && isfinite (h->loss) && isfinite (h->largest)))
    return "precision";
  if (h->n_triangles > limits->max_triangles || h->n_vertices > 3 * (guint64)h->n_triangles
      || h->n_parts > h->n_triangles)
    return "counts";
  guint64 bytes = h->n_triangles * (guint64)sizeof (TrnTriangle)
                  + h->n_vertices * (guint64)sizeof (TrnVec3)
                  + h->n_parts * (guint64)sizeof (TrnMeshPart);
  return bytes > limits->memory_bytes ? "size" : NULL;
}

static gboolean
text_is_clean (const char *text, gsize length)
{
  if (!g_utf8_validate (text, (gssize)length, NULL))
    return FALSE;
  for (const char *p = text; p < text + length; p = g_utf8_next_char (p))
    if (g_unichar_iscntrl (g_utf8_get_char (p)))
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

static TrnPipeResult
read_notes (TrnReadAnswer *answer, TrnHelperProcess *process, const char **fault)
{
  gboolean failed = FALSE;
  for (guint32 i = 0; i < answer->header.n_notes; i++)
    {
      TrnReadNote note = { .text = NULL };
      READ (&note.head, sizeof note.head);
      if (note.head.code < 1 || note.head.code > TRN_NOTE_LAST || !isfinite (note.head.numbers[0])
          || !isfinite (note.head.numbers[1]))
        {
          *fault = "note";
          return TRN_PIPE_OK;
        }
      TrnPipeResult result = read_text (process, note.head.length, &note.text, fault);
      if (result != TRN_PIPE_OK || *fault != NULL)
        return result;
      failed = failed || trn_note_is_error (note.head.code);
      g_array_append_val (answer->notes, note);
    }
  if (failed != (answer->header.n_triangles == 0))
    *fault = "neither a mesh nor an error";
  return TRN_PIPE_OK;
}

/* Parts follow one another without a gap and take up every triangle. */
static TrnPipeResult
read_parts (TrnReadAnswer *answer, TrnHelperProcess *process, const char **fault)
{
  guint32 n = answer->header.n_parts, next = 0;
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
  for (guint32 i = 0; i < n_vertices && *fault == NULL; i++)
    if (!trn_vec3_is_finite (answer->vertices[i]))
      *fault = "coordinate";
  for (guint32 i = 0; i < n_triangles && *fault == NULL; i++)
    for (int k = 0; k < 3; k++)
      if (answer->triangles[i].v[k] >= n_vertices)
        *fault = "index";
  return TRN_PIPE_OK;
}

TrnPipeResult
trn_read_answer_read (TrnReadAnswer *answer, TrnHelperProcess *process,
                      const TrnImportLimits *limits, const char **fault)
{
  *fault = NULL;
  TrnStreamHeader header;
  READ (&header, sizeof header);
  *fault = header_fault (&header, limits);
  if (*fault != NULL)
    return TRN_PIPE_OK;
  answer->header = header;

  typedef TrnPipeResult (*ReadFunc) (TrnReadAnswer *, TrnHelperProcess *, const char **);
  const ReadFunc sections[] = { read_notes, read_parts, read_geometry };
  for (guint i = 0; i < G_N_ELEMENTS (sections); i++)
    {
      TrnPipeResult result = sections[i](answer, process, fault);
      if (result != TRN_PIPE_OK || *fault != NULL)
        return result;
    }
  guint32 end;
  guint8 more;
  READ (&end, sizeof end);
  if (end != TRN_STREAM_END)
    {
      *fault = "end";
      return TRN_PIPE_OK;
    }
  TrnPipeResult result = trn_helper_process_read (process, &more, 1);
  if (result == TRN_PIPE_OK)
    *fault = "more after the end";
  return result == TRN_PIPE_END ? TRN_PIPE_OK : result;
}
