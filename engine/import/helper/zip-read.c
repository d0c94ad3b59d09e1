/* The directory at the end of the archive is followed, as its format demands (PKWARE, APPNOTE.TXT
 * 6.3, sections 4.3.7, 4.3.12 and 4.3.16). Sizes are checked against the archive, nothing grows
 * beyond what its directory says, nor beyond two gibibytes, and the sum of the bytes must be right:
 * in a number that is damaged nothing else would show it. Encryption, several volumes and
 * ZIP64 are refused. */
#include "zip-read.h"

#include <gio/gio.h>
#include <string.h>

#define END_MAGIC 0x06054b50u
#define ENTRY_MAGIC 0x02014b50u
#define LOCAL_MAGIC 0x04034b50u
#define END_BYTES 22u
#define ENTRY_BYTES 46u
#define LOCAL_BYTES 30u
#define STORED 0
#define DEFLATED 8
#define MAX_UNPACKED ((guint32)1 << 31)

typedef struct
{
  guint32 sum, packed, unpacked, local;
  guint16 method, flags;
} Entry;

static guint16
u16_get (const char *at)
{
  const guint8 *p = (const guint8 *)at;
  return (guint16)(p[0] | p[1] << 8);
}

static guint32
u32_get (const char *at)
{
  return u16_get (at) | (guint32)u16_get (at + 2) << 16;
}

gboolean
trn_zip_is (const char *bytes, gsize length)
{
  return length >= 4 && u32_get (bytes) == LOCAL_MAGIC;
}

/* Where the record at the end begins, or @length. */
static gsize
find_end (const char *bytes, gsize length)
{
  gsize lowest = length > END_BYTES + 65535 ? length - END_BYTES - 65535 : 0;
  if (length >= END_BYTES)
    for (gsize at = length - END_BYTES + 1; at-- > lowest;)
      if (u32_get (bytes + at) == END_MAGIC)
        return at;
  return length;
}

static gboolean
is_name (const char *name, gsize length, const char *wanted)
{
  if (length > 0 && *name == '/')
    {
      name++;
      length--;
    }
  return strlen (wanted) == length && g_ascii_strncasecmp (name, wanted, length) == 0;
}

/* FALSE where it is not there or the directory is not whole. */
static gboolean
find_entry (const char *bytes, gsize length, const char *name, Entry *entry)
{
  gsize end = find_end (bytes, length);
  if (end == length)
    return FALSE;
  guint n = u16_get (bytes + end + 10), found = 0;
  gsize at = u32_get (bytes + end + 16);
  if (name == NULL && n != 1)
    return FALSE;
  for (guint i = 0; i < n && found == 0; i++)
    {
      if (at > end || end - at < ENTRY_BYTES || u32_get (bytes + at) != ENTRY_MAGIC)
        return FALSE;
      gsize name_length = u16_get (bytes + at + 28);
      gsize whole
          = ENTRY_BYTES + name_length + u16_get (bytes + at + 30) + u16_get (bytes + at + 32);
      if (whole > end - at)
        return FALSE;
      found = name == NULL || is_name (bytes + at + ENTRY_BYTES, name_length, name);
      if (found)
        *entry = (Entry){ .sum = u32_get (bytes + at + 16),
                          .packed = u32_get (bytes + at + 20),
                          .unpacked = u32_get (bytes + at + 24),
                          .local = u32_get (bytes + at + 42),
                          .method = u16_get (bytes + at + 10),
                          .flags = u16_get (bytes + at + 8) };
      at += whole;
    }
  return found > 0;
}

/* Fills @out to its last byte, and the data must end there. */
static gboolean
inflate_all (const char *from, gsize length, char *out, gsize room)
{
  g_autoptr (GZlibDecompressor) zlib = g_zlib_decompressor_new (G_ZLIB_COMPRESSOR_FORMAT_RAW);
  gsize used = 0, filled = 0;
  for (;;)
    {
      gsize read, written;
      GConverterResult result = g_converter_convert (
          G_CONVERTER (zlib), from + used, length - used, out + filled, room - filled + 1,
          G_CONVERTER_INPUT_AT_END, &read, &written, NULL);
      if (result == G_CONVERTER_ERROR)
        return FALSE;
      used += read;
      filled += written;
      if (result == G_CONVERTER_FINISHED || filled > room)
        return filled == room;
    }
}

/* The cyclic redundancy check of ISO 3309, by a table of the eight steps of a byte. */
static guint32
crc32_make (const char *bytes, gsize length)
{
  guint32 table[256], crc = G_MAXUINT32;
  for (guint32 i = 0; i < 256; i++)
    {
      table[i] = i;
      for (int k = 0; k < 8; k++)
        table[i] = table[i] >> 1 ^ ((table[i] & 1) != 0 ? 0xedb88320u : 0);
    }
  for (gsize i = 0; i < length; i++)
    crc = crc >> 8 ^ table[(crc ^ (guint8)bytes[i]) & 0xff];
  return ~crc;
}

char *
trn_zip_read (const char *bytes, gsize length, const char *name, gsize *unpacked, TrnAnswer *answer)
{
  Entry entry;
  if (!find_entry (bytes, length, name, &entry))
    {
      trn_answer_note (answer, TRN_NOTE_DAMAGED, 0, 0,
                       name != NULL ? name : "its ZIP archive is not whole");
      return NULL;
    }
  gsize data = (gsize)entry.local + LOCAL_BYTES;
  if (data <= length)
    data += (gsize)u16_get (bytes + entry.local + 26) + u16_get (bytes + entry.local + 28);
  if ((entry.flags & 1) != 0 || (entry.method != STORED && entry.method != DEFLATED)
      || data > length || entry.packed > length - data || entry.unpacked > MAX_UNPACKED
      || (entry.method == STORED && entry.packed != entry.unpacked))
    {
      trn_answer_note (answer, TRN_NOTE_DAMAGED, 0, 0, "its ZIP archive is not whole");
      return NULL;
    }
  /* One byte more, by which data that go on are noticed, becomes the NUL at the end. */
  g_autofree char *out = g_try_malloc ((gsize)entry.unpacked + 1);
  if (out == NULL)
    {
      trn_answer_note (answer, TRN_NOTE_MEMORY, 0, 0, NULL);
      return NULL;
    }
  gboolean whole = TRUE;
  if (entry.method == STORED)
    memcpy (out, bytes + data, entry.unpacked);
  else
    whole = inflate_all (bytes + data, entry.packed, out, entry.unpacked);
  if (!whole || crc32_make (out, entry.unpacked) != entry.sum)
    {
      trn_answer_note (answer, TRN_NOTE_DAMAGED, 0, 0, "its ZIP archive is not whole");
      return NULL;
    }
  out[entry.unpacked] = '\0';
  *unpacked = entry.unpacked;
  return g_steal_pointer (&out);
}
