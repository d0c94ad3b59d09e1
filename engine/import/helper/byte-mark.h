/* byte-mark.h: text that begins with a byte order mark, as some programs write it, as plain UTF-8.
 *
 * Of text of two bytes a letter the import library reads nothing, and of other text with a mark it
 * loses the first line, without a word. No converter of the C library is used: that would open
 * files. */
#pragma once

#include <glib.h>
#include <stdio.h>

#define TRN_BYTE_MARK_UTF8_BYTES 3u

/* How many bytes the mark of UTF-8 takes at the beginning of @bytes; 0: it is not there. */
gsize trn_byte_mark_utf8 (const char *bytes, gsize length);

/* Whether the stream, at its beginning, where it stays, has the mark of such a text. */
gboolean trn_byte_mark_begins (FILE *stream);

/* Takes @bytes of any text and returns it as UTF-8 without a mark, where it has one and, in UTF-16,
 * is right to its end; else @bytes. NULL where there is no room for that. */
char *trn_byte_mark_take (char *bytes, gsize *length);
