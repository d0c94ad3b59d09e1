/* write-file.h: a file is written whole or not at all. */
#pragma once

#include "diag.h"

/* Writes @length bytes of @bytes to @path: into a new file beside it, synced, then renamed over
 * it. On failure adds "base/cannot-write" (values: file, reason) to @diags, leaves what was there
 * untouched, removes its own temporary file and returns FALSE. */
gboolean trn_write_file (const char *path, const void *bytes, gsize length, TrnDiags *diags);

/* Whether both paths lead to one file, which need not exist yet. */
gboolean trn_is_same_file (const char *a, const char *b);
