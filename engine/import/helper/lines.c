#include "lines.h"
#include "byte-mark.h"

#include <string.h>

#define ROOM ((gsize)1 << 20)

void
trn_lines_init (TrnLines *lines, FILE *stream)
{
  *lines = (TrnLines){ .stream = stream, .buffer = g_malloc (ROOM + 1) };
  lines->end = fread (lines->buffer, 1, TRN_BYTE_MARK_UTF8_BYTES, stream);
  lines->begin = trn_byte_mark_utf8 (lines->buffer, lines->end);
}

void
trn_lines_clear (TrnLines *lines)
{
  g_free (lines->buffer);
  lines->buffer = NULL;
}

/* Moves what is left to the front and reads more behind it. FALSE when nothing came. */
static gboolean
fill (TrnLines *lines)
{
  gsize left = lines->end - lines->begin;
  memmove (lines->buffer, lines->buffer + lines->begin, left);
  lines->begin = 0;
  lines->end = left;
  if (lines->eof || left == ROOM)
    {
      lines->too_long = lines->too_long || left == ROOM;
      return FALSE;
    }
  gsize got = fread (lines->buffer + left, 1, ROOM - left, lines->stream);
  lines->eof = got == 0;
  lines->end += got;
  return got > 0;
}

char *
trn_lines_next (TrnLines *lines)
{
  gsize looked = 0;
  for (;;)
    {
      char *start = lines->buffer + lines->begin;
      gsize left = lines->end - lines->begin;
      char *stop = start + looked;
      while (stop < start + left && *stop != '\n' && *stop != '\r')
        stop++;
      /* A carriage return at the very end of what is held may have its line feed to come. */
      gboolean whole = stop < start + left && (*stop == '\n' || stop + 1 < start + left);
      if (whole || (lines->eof && left > 0))
        {
          gsize length = (gsize)(stop - start), skip = length;
          lines->ended = stop < start + left;
          if (stop < start + left)
            skip += 1u + (stop[0] == '\r' && stop + 1 < start + left && stop[1] == '\n');
          *stop = '\0';
          lines->begin += skip;
          return start;
        }
      if (lines->eof || lines->too_long)
        return NULL;
      looked = (gsize)(stop - start);
      fill (lines);
      if (lines->too_long)
        return NULL;
    }
}
