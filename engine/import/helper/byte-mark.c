#include "byte-mark.h"

#include <string.h>

#define MARK 0xfeff
#define UTF8_MARK "\xef\xbb\xbf"

/* UTF-16, as it is read in the one order of bytes or in the other. */
static gboolean
is_mark (guint16 first)
{
  return first == MARK || first == GUINT16_SWAP_LE_BE (MARK);
}

gsize
trn_byte_mark_utf8 (const char *bytes, gsize length)
{
  return length >= TRN_BYTE_MARK_UTF8_BYTES
                 && memcmp (bytes, UTF8_MARK, TRN_BYTE_MARK_UTF8_BYTES) == 0
             ? TRN_BYTE_MARK_UTF8_BYTES
             : 0;
}

gboolean
trn_byte_mark_begins (FILE *stream)
{
  char first[TRN_BYTE_MARK_UTF8_BYTES];
  guint16 letter;
  const gsize n = fread (first, 1, sizeof first, stream);
  rewind (stream);
  memcpy (&letter, first, sizeof letter);
  return n == sizeof first && (is_mark (letter) || trn_byte_mark_utf8 (first, n) > 0);
}

static gboolean
is_utf16 (const char *bytes, gsize length)
{
  guint16 first = 0;
  if (length >= sizeof first)
    memcpy (&first, bytes, sizeof first);
  return length % 2 == 0 && is_mark (first);
}

/* NULL where it is not right to its end, or, with @no_room set, for want of memory. */
static char *
utf8_from_utf16 (const char *bytes, gsize length, gsize *written, gboolean *no_room)
{
  const gsize n = length / 2;
  g_autofree gunichar2 *letters = g_try_new (gunichar2, n);
  if (letters == NULL)
    {
      *no_room = TRUE;
      return NULL;
    }
  memcpy (letters, bytes, length);
  const gboolean swapped = letters[0] != MARK;
  for (gsize i = 0; swapped && i < n; i++)
    letters[i] = GUINT16_SWAP_LE_BE (letters[i]);
  glong n_read = 0, n_written = 0;
  g_autoptr (GError) error = NULL;
  g_autofree char *text = g_utf16_to_utf8 (letters + 1, (glong)n - 1, &n_read, &n_written, &error);
  *no_room = g_error_matches (error, G_CONVERT_ERROR, G_CONVERT_ERROR_NO_MEMORY);
  *written = (gsize)n_written;
  return text != NULL && (gsize)n_read == n - 1 ? g_steal_pointer (&text) : NULL;
}

char *
trn_byte_mark_take (char *bytes, gsize *length)
{
  const gsize mark = trn_byte_mark_utf8 (bytes, *length);
  if (mark > 0)
    {
      *length -= mark;
      memmove (bytes, bytes + mark, *length);
      return bytes;
    }
  if (!is_utf16 (bytes, *length))
    return bytes;
  gsize written = 0;
  gboolean no_room = FALSE;
  char *text = utf8_from_utf16 (bytes, *length, &written, &no_room);
  if (text == NULL && !no_room)
    return bytes;
  g_free (bytes);
  *length = written;
  return text;
}
