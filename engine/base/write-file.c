/* g_file_set_contents_full with CONSISTENT | DURABLE does exactly what is wanted: a temporary file
 * in the same folder, fsync, rename. */
#include "write-file.h"

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
