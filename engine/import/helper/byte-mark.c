#include "byte-mark.h"

#include <string.h>

#define MARK 0xfeff
#define UTF8_MARK "\xef\xbb\xbf"
#define UTF8_MARK_BYTES 3

/* UTF-16, as it is read in the one order of bytes or in the other. */
static gboolean
is_mark (guint16 first)
{
  return first == MARK || first == GUINT16_SWAP_LE_BE (MARK);
}

static gboolean
is_utf8_mark (const char *bytes, gsize length)
{
  return length >= UTF8_MARK_BYTES && memcmp (bytes, UTF8_MARK, UTF8_MARK_BYTES) == 0;
}

gboolean
trn_byte_mark_begins (FILE *stream)
{
  char first[UTF8_MARK_BYTES];
  guint16 letter;
  const gsize n = fread (first, 1, sizeof first, stream);
  rewind (stream);
  memcpy (&letter, first, sizeof letter);
  return n == sizeof first && (is_mark (letter) || is_utf8_mark (first, n));
}

/* NULL where it is no UTF-16, or not to its end. */
static char *
utf8_from_utf16 (const char *bytes, gsize length, gsize *written)
{
  const gsize n = length / 2;
  g_autofree gunichar2 *letters = n > 0 && length % 2 == 0 ? g_try_new (gunichar2, n) : NULL;
  if (letters == NULL)
    return NULL;
  memcpy (letters, bytes, length);
  if (!is_mark (letters[0]))
    return NULL;
  const gboolean swapped = letters[0] != MARK;
  for (gsize i = 0; swapped && i < n; i++)
    letters[i] = GUINT16_SWAP_LE_BE (letters[i]);
  glong n_read = 0, n_written = 0;
  g_autofree char *text = g_utf16_to_utf8 (letters + 1, (glong)n - 1, &n_read, &n_written, NULL);
  *written = (gsize)n_written;
  return text != NULL && (gsize)n_read == n - 1 ? g_steal_pointer (&text) : NULL;
}

char *
trn_byte_mark_take (char *bytes, gsize *length)
{
  if (is_utf8_mark (bytes, *length))
    {
      *length -= UTF8_MARK_BYTES;
      memmove (bytes, bytes + UTF8_MARK_BYTES, *length);
      return bytes;
    }
  gsize written;
  char *text = utf8_from_utf16 (bytes, *length, &written);
  if (text == NULL)
    return bytes;
  g_free (bytes);
  *length = written;
  return text;
}
