#include "native.h"

#include <errno.h>
#include <stdio.h>
#include <sys/stat.h>

typedef void (*Reader) (const char *path, TrnBuild *build, TrnAnswer *answer);

static const struct
{
  TrnFormat format;
  Reader read;
  double roundings;
} readers[] = {
/* Numbers in text are rounded once to double precision and pass through at most some dozens of
 * operations, block in block. Those of 3DS are in single precision, to which their writer rounded
 * them: 2^-24. */
#define TEXT_ROUNDINGS 64
#define SINGLE_ROUNDINGS 0x1p29
  { TRN_FORMAT_3DS, trn_read_3ds, SINGLE_ROUNDINGS },
  { TRN_FORMAT_3MF, trn_read_3mf, TEXT_ROUNDINGS },
  { TRN_FORMAT_AMF, trn_read_amf, TEXT_ROUNDINGS },
  { TRN_FORMAT_DXF, trn_read_dxf, TEXT_ROUNDINGS },
  { TRN_FORMAT_OFF, trn_read_off, TEXT_ROUNDINGS },
};

gboolean
trn_native_reads (TrnFormat format)
{
  for (guint i = 0; i < G_N_ELEMENTS (readers); i++)
    if (readers[i].format == format)
      return TRUE;
  return FALSE;
}

void
trn_native_read (const char *path, TrnFormat format, guint64 max_triangles, TrnAnswer *answer)
{
  answer->header.alone = 1;
  g_autoptr (TrnBuild) build = trn_build_new (answer, max_triangles);
  for (guint i = 0; i < G_N_ELEMENTS (readers); i++)
    if (readers[i].format == format)
      {
        readers[i].read (path, build, answer);
        trn_build_finish (build, readers[i].roundings);
      }
}

char *
trn_native_bytes_dup (const char *path, gsize *length, TrnAnswer *answer)
{
  FILE *stream = fopen (path, "rbe");
  struct stat st;
  char *bytes = NULL;
  if (stream != NULL && fstat (fileno (stream), &st) == 0 && S_ISREG (st.st_mode))
    {
      gsize size = (gsize)st.st_size;
      bytes = g_try_malloc (size + 1);
      if (bytes == NULL)
        trn_answer_note (answer, TRN_NOTE_MEMORY, 0, 0, NULL);
      else
        {
          *length = fread (bytes, 1, size, stream);
          bytes[*length] = '\0';
        }
    }
  else
    trn_answer_note (answer, TRN_NOTE_DAMAGED, 0, 0, g_strerror (errno));
  if (stream != NULL)
    fclose (stream);
  return bytes;
}
