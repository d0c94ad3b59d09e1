#include "folder-io.h"

#include <errno.h>
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

static size_t
file_size (struct aiFile *file)
{
  struct stat st;
  return fstat (fileno (stream_get (file)), &st) == 0 ? (size_t)st.st_size : 0;
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

/* The reference as the model wrote it, where that can be told. */
static void
remember (char **where, const TrnFolderIo *self, const char *path)
{
  if (*where != NULL)
    return;
  gsize length = strlen (self->folder);
  *where = g_strdup (strncmp (path, self->folder, length) == 0 ? path + length : path);
}

static FILE *
open_inside (TrnFolderIo *self, const char *path)
{
  char *resolved = realpath (path, NULL);
  if (resolved == NULL)
    {
      remember (&self->missing, self, path);
      return NULL;
    }
  if (strncmp (resolved, self->folder, strlen (self->folder)) != 0)
    {
      remember (&self->outside, self, path);
      free (resolved);
      return NULL;
    }
  int fd = open (resolved, O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY);
  free (resolved);
  struct stat st;
  if (fd >= 0 && fstat (fd, &st) == 0 && S_ISREG (st.st_mode))
    {
      FILE *stream = fdopen (fd, "rb");
      if (stream != NULL)
        return stream;
    }
  if (fd >= 0)
    close (fd);
  remember (&self->missing, self, path);
  return NULL;
}

static struct aiFile *
io_open (struct aiFileIO *io, const char *path, const char *mode)
{
  if (strpbrk (mode, "wa+") != NULL)
    return NULL;
  TrnFolderIo *self = (TrnFolderIo *)(void *)io->UserData;
  self->alone = self->alone && strcmp (path, self->model) == 0;
  FILE *stream = open_inside (self, path);
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
  self->io.OpenProc = io_open;
  self->io.CloseProc = io_close;
  self->io.UserData = (aiUserData)(void *)self;
  return self;
}
