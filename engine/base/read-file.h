/* read-file.h: a file that anybody may have written is read whole, up to a length. */
#pragma once

#include <glib.h>

/* All @length bytes of the file at @path, followed by a NUL byte, owned. NULL with errno set where
 * it cannot be read: EFBIG where it is longer than @most bytes, ENODEV where it is no plain file
 * (a pipe or a device is not waited for), ENOMEM where there is no room for it. */
char *trn_read_file (const char *path, gsize most, gsize *length);
