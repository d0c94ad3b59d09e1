/* zip-read.h: one file out of a ZIP archive in memory. */
#pragma once

#include "answer.h"

gboolean trn_zip_is (const char *bytes, gsize length);

/* The unpacked file of this name, the case ignored and a slash in front too, or of the only file
 * where @name is NULL; followed by a NUL byte, owned. NULL after an error. */
char *trn_zip_read (const char *bytes, gsize length, const char *name, gsize *unpacked,
                    TrnAnswer *answer);
