#include "answer.h"

#include <errno.h>
#include <string.h>
#include <unistd.h>

TrnAnswer *
trn_answer_new (void)
{
  TrnAnswer *answer = g_new0 (TrnAnswer, 1);
  answer->header.magic = TRN_STREAM_MAGIC;
  answer->header.version = TRN_STREAM_VERSION;
  answer->notes = g_array_new (FALSE, TRUE, sizeof (TrnAnswerNote));
  answer->parts = g_array_new (FALSE, TRUE, sizeof (TrnAnswerPart));
  return answer;
}

/* Valid UTF-8 without what a text must not hold, not longer than a stream may carry. */
static char *
clean_text (const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text != NULL ? text : "", -1);
  GString *clean = g_string_new (NULL);
  for (const char *p = valid; *p != '\0'; p = g_utf8_next_char (p))
    {
      gunichar c = g_utf8_get_char (p);
      if (clean->len > TRN_ANSWER_MAX_TEXT)
        break;
      g_string_append_unichar (clean, trn_stream_char_is_clean (c) ? c : ' ');
    }
  return g_strstrip (g_string_free (clean, FALSE));
}

gboolean
trn_answer_has_error (const TrnAnswer *answer)
{
  for (guint i = 0; i < answer->notes->len; i++)
    if (trn_note_is_error (g_array_index (answer->notes, TrnAnswerNote, i).head.code))
      return TRUE;
  return FALSE;
}

void
trn_answer_note (TrnAnswer *answer, TrnNoteCode code, double a, double b, const char *text)
{
  if (answer->notes->len >= TRN_STREAM_MAX_NOTES)
    {
      if (!trn_note_is_error (code) || trn_answer_has_error (answer))
        return;
      g_free (g_array_index (answer->notes, TrnAnswerNote, TRN_STREAM_MAX_NOTES - 1).text);
      g_array_set_size (answer->notes, TRN_STREAM_MAX_NOTES - 1);
    }
  TrnAnswerNote note = { .head = { .code = code, .numbers = { a, b } }, .text = clean_text (text) };
  note.head.length = (guint32)strlen (note.text);
  g_array_append_val (answer->notes, note);
}

void
trn_answer_warp (TrnAnswer *answer, double warp, const char *part)
{
  if (!(warp > answer->warp))
    return;
  answer->warp = MIN (warp, TRN_STREAM_MAX_NUMBER);
  g_free (answer->warped);
  answer->warped = g_strdup (part);
}

void
trn_answer_note_warp (TrnAnswer *answer)
{
  if (answer->warp > 0)
    trn_answer_note (answer, TRN_NOTE_WARPED, answer->warp, 0, answer->warped);
}

void
trn_answer_part (TrnAnswer *answer, guint32 first, guint32 count, const char *name)
{
  if (answer->parts->len >= TRN_STREAM_MAX_PARTS)
    {
      if (!trn_answer_has_error (answer))
        trn_answer_note (answer, TRN_NOTE_UNSUPPORTED, 0, 0, "more than a million objects");
      return;
    }
  TrnAnswerPart part = { .head = { .first = first, .count = count }, .name = clean_text (name) };
  part.head.length = (guint32)strlen (part.name);
  g_array_append_val (answer->parts, part);
}

static gboolean
write_all (int fd, const void *bytes, gsize length)
{
  const char *at = bytes;
  while (length > 0)
    {
      ssize_t n = write (fd, at, length);
      if (n < 0 && errno == EINTR)
        continue;
      if (n <= 0)
        return FALSE;
      at += n;
      length -= (gsize)n;
    }
  return TRUE;
}

gboolean
trn_answer_send (TrnAnswer *answer, int fd)
{
  TrnStreamHeader *header = &answer->header;
  if (trn_answer_has_error (answer))
    {
      header->n_vertices = header->n_triangles = 0;
      g_array_set_size (answer->parts, 0);
    }
  header->n_notes = answer->notes->len;
  header->n_parts = answer->parts->len;

  g_autoptr (GByteArray) front = g_byte_array_new ();
  g_byte_array_append (front, (const guint8 *)header, sizeof *header);
  for (guint i = 0; i < answer->notes->len; i++)
    {
      const TrnAnswerNote *note = &g_array_index (answer->notes, TrnAnswerNote, i);
      g_byte_array_append (front, (const guint8 *)&note->head, sizeof note->head);
      g_byte_array_append (front, (const guint8 *)note->text, note->head.length);
    }
  for (guint i = 0; i < answer->parts->len; i++)
    {
      const TrnAnswerPart *part = &g_array_index (answer->parts, TrnAnswerPart, i);
      g_byte_array_append (front, (const guint8 *)&part->head, sizeof part->head);
      g_byte_array_append (front, (const guint8 *)part->name, part->head.length);
    }
  guint32 end = TRN_STREAM_END;
  return write_all (fd, front->data, front->len)
         && write_all (fd, answer->vertices, (gsize)header->n_vertices * 3 * sizeof (double))
         && write_all (fd, answer->triangles, (gsize)header->n_triangles * 3 * sizeof (guint32))
         && write_all (fd, &end, sizeof end);
}
