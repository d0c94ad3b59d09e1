/* file-hash.h: the digest of a file's bytes, and files beside a model. */
#pragma once

#include "progress.h"

typedef enum
{
  TRN_HASH_OK,
  TRN_HASH_CANCELLED,
  TRN_HASH_TIMEOUT,
  TRN_HASH_UNREADABLE, /* with the system's reason */
} TrnHashResult;

/* SHA-256 of what can be read from @fd. @progress may be NULL; it is only looked at for a cancel.
 */
TrnHashResult trn_file_hash (int fd, const TrnProgress *progress, gint64 deadline_us,
                             char sha256[65], int *reason);

/* Opens the regular file @name in the folder of @model, which may be a link, or below; no name
 * leads out of it, and no link is followed. −1 where that cannot be. */
int trn_file_open_beside (const char *model, const char *name);
