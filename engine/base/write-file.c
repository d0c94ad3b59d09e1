/* g_file_set_contents_full with CONSISTENT | DURABLE does exactly what is wanted: a temporary file
 * in the same folder, fsync, rename. */
#include "write-file.h"

#include <glib/gstdio.h>
#include <stdlib.h>
#include <string.h>

gboolean
trn_write_file (const char *path, const void *bytes, gsize length, TrnDiags *diags)
{
  g_autoptr (GError) error = NULL;
  if (g_file_set_contents_full (path, bytes, (gssize)length,
                                G_FILE_SET_CONTENTS_CONSISTENT | G_FILE_SET_CONTENTS_DURABLE, 0666,
                                &error))
    return TRUE;
  TrnDiag *diag = trn_diags_add (diags, TRN_SEVERITY_ERROR, "base/cannot-write", NULL);
  trn_diag_set_file (diag, path, 0);
  trn_diag_set_text (diag, "file", path);
  trn_diag_set_text (diag, "reason", error->message);
  return FALSE;
}

/* The folder of a file with every link in it followed, then the name: two paths of a file that does
 * not exist yet come out the same. */
static char *
settle_path (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *name = g_path_get_basename (path);
  char *real = realpath (folder, NULL);
  char *settled = g_build_filename (real != NULL ? real : folder, name, NULL);
  free (real);
  return settled;
}

gboolean
trn_is_same_file (const char *a, const char *b)
{
  GStatBuf of_a, of_b;
  if (g_stat (a, &of_a) == 0 && g_stat (b, &of_b) == 0)
    return of_a.st_dev == of_b.st_dev && of_a.st_ino == of_b.st_ino;
  g_autofree char *settled_a = settle_path (a);
  g_autofree char *settled_b = settle_path (b);
  return strcmp (settled_a, settled_b) == 0;
}
