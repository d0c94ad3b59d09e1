#include "folder-io.h"
#include "formats.h"
#include "byte-mark.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static FILE *
stream_get (struct aiFile *file)
{
  return (FILE *)(void *)file->UserData;
}

static size_t
file_read (struct aiFile *file, char *buffer, size_t size, size_t count)
{
  return fread (buffer, size, count, stream_get (file));
}

static size_t
file_write (struct aiFile *file, const char *buffer, size_t size, size_t count)
{
  return 0;
}

static size_t
file_tell (struct aiFile *file)
{
  return (size_t)ftello (stream_get (file));
}

/* By the end of the stream: one in memory has no file. */
static size_t
file_size (struct aiFile *file)
{
  FILE *stream = stream_get (file);
  const off_t at = ftello (stream);
  if (at < 0 || fseeko (stream, 0, SEEK_END) != 0)
    return 0;
  const off_t size = ftello (stream);
  return fseeko (stream, at, SEEK_SET) == 0 && size > 0 ? (size_t)size : 0;
}

static enum aiReturn
file_seek (struct aiFile *file, size_t offset, enum aiOrigin origin)
{
  int whence = origin == aiOrigin_SET ? SEEK_SET : origin == aiOrigin_CUR ? SEEK_CUR : SEEK_END;
  return fseeko (stream_get (file), (off_t)offset, whence) == 0 ? aiReturn_SUCCESS
                                                                : aiReturn_FAILURE;
}

static void
file_flush (struct aiFile *file)
{
}

/* What the model wrote, where that can be told: the library puts the folder in front of it. */
static const char *
reference_of (const TrnFolderIo *self, const char *path)
{
  gsize length = strlen (self->folder);
  return strncmp (path, self->folder, length) == 0 ? path + length : path;
}

static void
remember (char **where, const char *reference)
{
  if (*where == NULL)
    *where = g_strdup (reference);
}

static gboolean
is_separator (char c)
{
  return c == '/' || c == '\\';
}

/* "file:", "https:" and the like. One letter is a drive of another system, which has none here. */
static gboolean
has_scheme (const char *reference)
{
  const char *p = reference;
  while (g_ascii_isalnum (*p) || *p == '+' || *p == '-' || *p == '.')
    p++;
  return g_ascii_isalpha (reference[0]) && p - reference > 1 && p[0] == ':' && is_separator (p[1]);
}

/* Whether the words alone lead out of the folder. */
static gboolean
leads_out (const TrnFolderIo *self, const char *reference)
{
  if (is_separator (reference[0]) || has_scheme (reference))
    return TRUE;
  g_autofree char *slashes = g_strdelimit (g_strdup (reference), "\\", '/');
  g_autofree char *canonical = g_canonicalize_filename (slashes, self->folder);
  g_autofree char *there = g_strconcat (canonical, "/", NULL);
  return strncmp (there, self->folder, strlen (self->folder)) != 0;
}

/* Opens @inner, a path without links, from the folder downwards. −1 where one has come to be. */
static int
open_below (const TrnFolderIo *self, const char *inner)
{
  g_auto (GStrv) names = g_strsplit (inner, "/", -1);
  int at = self->folder_fd;
  for (guint i = 0; names[i] != NULL && at >= 0; i++)
    {
      int flags = names[i + 1] != NULL ? O_PATH | O_DIRECTORY : O_RDONLY | O_NONBLOCK | O_NOCTTY;
      int next = openat (at, names[i], flags | O_NOFOLLOW | O_CLOEXEC);
      if (at != self->folder_fd)
        close (at);
      at = next;
    }
  return at;
}

/* All that @stream holds, which it consumes; it stays. NULL where there is no room. */
static char *
take_bytes (TrnFolderIo *self, FILE *stream, gsize *length)
{
  struct stat st;
  char *bytes = NULL;
  if (fstat (fileno (stream), &st) == 0 && st.st_size >= 0)
    bytes = g_try_malloc ((gsize)st.st_size + 1);
  *length = bytes != NULL ? fread (bytes, 1, (gsize)st.st_size, stream) : 0;
  fclose (stream);
  self->no_room = self->no_room || bytes == NULL;
  return bytes;
}

/* @bytes as a stream; they stay. NULL where there is no room. */
static FILE *
open_bytes (TrnFolderIo *self, char *bytes, gsize length)
{
  FILE *stream = fmemopen (bytes, length, "rb");
  self->no_room = self->no_room || stream == NULL;
  return stream;
}
/* From memory, so that the library is given the very bytes of which the digest is told; consumes
 * it. A file that is another when it is read again is told again. NULL where there is no room. */
static FILE *
with_digest (TrnFolderIo *self, FILE *stream, const char *inner)
{
  gsize length;
  char *bytes = take_bytes (self, stream, &length);
  if (bytes == NULL)
    return NULL;
  g_autofree char *sha256
      = g_compute_checksum_for_data (G_CHECKSUM_SHA256, (const guchar *)bytes, length);
  g_autofree char *read = g_strconcat (sha256, " ", inner, NULL);
  if (!g_ptr_array_find_with_equal_func (self->opened, read, g_str_equal, NULL))
    g_ptr_array_add (self->opened, g_steal_pointer (&read));
  return open_bytes (self, bytes, length);
}

/* NULL, with the reason remembered. */
static FILE *
open_inside (TrnFolderIo *self, const char *path, const char *reference)
{
  char *resolved = realpath (path, NULL);
  gsize length = strlen (self->folder);
  gboolean inside = resolved != NULL && strncmp (resolved, self->folder, length) == 0;
  int fd = inside ? open_below (self, resolved + length) : -1;
  gboolean outside = resolved != NULL && !inside;
  g_autofree char *inner = inside ? g_strdup (resolved + length) : NULL;
  free (resolved);
  struct stat st;
  if (fd >= 0 && fstat (fd, &st) == 0 && S_ISREG (st.st_mode))
    {
      FILE *stream = fdopen (fd, "rb");
      if (stream != NULL && strcmp (path, self->model) != 0)
        return with_digest (self, stream, inner);
      if (stream != NULL)
        return stream;
      self->no_room = TRUE;
    }
  if (fd >= 0)
    close (fd);
  remember (outside ? &self->outside : &self->missing, reference);
  return NULL;
}

static FILE *
open_reference (TrnFolderIo *self, const char *reference)
{
  if (leads_out (self, reference))
    {
      remember (&self->outside, reference);
      return NULL;
    }
  g_autofree char *path = g_strconcat (self->folder, reference, NULL);
  return open_inside (self, path, reference);
}

/* When a file is not to be had, the library tries the folder and pieces of the name that it asked
 * for, with two slashes between them. What it found by that would be another file of the same name.
 */
static gboolean
is_guess (const TrnFolderIo *self, const char *reference)
{
  return reference[0] == '/' && (self->missing != NULL || self->outside != NULL || self->no_room);
}

/* A reference as it is meant, and then as it is written: not all writers encode a URI. */
static FILE *
open_written (TrnFolderIo *self, const char *written)
{
  g_autofree char *meant = self->uris ? g_uri_unescape_string (written, NULL) : NULL;
  FILE *stream = NULL;
  if (meant != NULL && strcmp (meant, written) != 0)
    stream = open_reference (self, meant);
  return stream != NULL || self->outside != NULL ? stream : open_reference (self, written);
}

/* Whether the line at @p names an object or a group of an OBJ file. */
static gboolean
is_name_line (const char *p, const char *end)
{
  return end - p > 2 && (*p == 'o' || *p == 'g') && (p[1] == ' ' || p[1] == '\t');
}

/* The library ends a name at its first blank and takes what has the same beginning for one object.
 * So blanks within a name become separators of the same length, which the answer writes as blanks
 * again. */
static void
join_names (char *bytes, gsize length)
{
  const char *end_of_all = bytes + length;
  for (char *p = bytes; p < end_of_all;)
    {
      char *end = memchr (p, '\n', (gsize)(end_of_all - p));
      end = end != NULL ? end : bytes + length;
      while (p < end && g_ascii_isspace (*p))
        p++;
      char *last = end;
      while (last > p && g_ascii_isspace (last[-1]))
        last--;
      if (is_name_line (p, last))
        {
          p += 2;
          while (p < last && g_ascii_isspace (*p))
            p++;
          for (; p < last; p++)
            *p = g_ascii_isspace (*p) ? '\x1f' : *p;
        }
      p = end < end_of_all ? end + 1 : end;
    }
}

/* The model from memory, as UTF-8 and with its names joined, where its format needs that; consumes
 * it. NULL where there is no room. */
static FILE *
with_plain_text (TrnFolderIo *self, FILE *stream)
{
  gsize length;
  char *bytes = take_bytes (self, stream, &length);
  if (bytes == NULL)
    return NULL;
  bytes = trn_byte_mark_take (bytes, &length);
  self->no_room = self->no_room || bytes == NULL;
  if (bytes == NULL)
    return NULL;
  if (self->blanks_in_names)
    join_names (bytes, length);
  return open_bytes (self, bytes, length);
}

static struct aiFile *
io_open (struct aiFileIO *io, const char *path, const char *mode)
{
  if (strpbrk (mode, "wa+") != NULL)
    return NULL;
  TrnFolderIo *self = (TrnFolderIo *)(void *)io->UserData;
  gboolean is_model = strcmp (path, self->model) == 0;
  self->alone = self->alone && is_model;
  const char *reference = reference_of (self, path);
  if (is_guess (self, reference))
    return NULL;
  FILE *stream = is_model ? open_inside (self, path, reference) : open_written (self, reference);
  if (stream != NULL && is_model
      && (self->blanks_in_names || (self->marks && trn_byte_mark_begins (stream))))
    stream = with_plain_text (self, stream);
  if (stream == NULL)
    return NULL;
  struct aiFile *file = g_new0 (struct aiFile, 1);
  *file = (struct aiFile){
    .ReadProc = file_read,
    .WriteProc = file_write,
    .TellProc = file_tell,
    .FileSizeProc = file_size,
    .SeekProc = file_seek,
    .FlushProc = file_flush,
    .UserData = (aiUserData)(void *)stream,
  };
  return file;
}

static void
io_close (struct aiFileIO *io, struct aiFile *file)
{
  fclose (stream_get (file));
  g_free (file);
}

TrnFolderIo *
trn_folder_io_new (const char *model)
{
  TrnFolderIo *self = g_new0 (TrnFolderIo, 1);
  g_autofree char *folder = g_path_get_dirname (model);
  self->folder
      = g_str_has_suffix (folder, "/") ? g_strdup (folder) : g_strconcat (folder, "/", NULL);
  self->model = g_strdup (model);
  self->alone = TRUE;
  self->opened = g_ptr_array_new_with_free_func (g_free);
  TrnFormat format = trn_format_from_path (model);
  self->uris = format == TRN_FORMAT_GLTF || format == TRN_FORMAT_GLB;
  self->blanks_in_names = format == TRN_FORMAT_OBJ;
  self->marks = format == TRN_FORMAT_PLY;
  self->folder_fd = open (self->folder, O_PATH | O_DIRECTORY | O_CLOEXEC);
  self->io.OpenProc = io_open;
  self->io.CloseProc = io_close;
  self->io.UserData = (aiUserData)(void *)self;
  return self;
}
