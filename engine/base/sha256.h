/* sha256.h: the digest SHA-256 (FIPS 180-4) of bytes that come piece by piece.
 *
 *   TrnSha256 sum;
 *   trn_sha256_start (&sum);
 *   trn_sha256_add (&sum, bytes, n);   … as often as there are any
 *   trn_sha256_end (&sum, text); */
#pragma once

#include <glib.h>

typedef struct
{
  guint32 state[8];
  guint64 n_bytes;
  guint8 begun[64];    /* of a block that is not full */
  GChecksum *checksum; /* not NULL: it does all */
} TrnSha256;

void trn_sha256_start (TrnSha256 *sum);
void trn_sha256_add (TrnSha256 *sum, gconstpointer bytes, gsize n);
/* In hexadecimal; @text may be NULL. Must be called. */
void trn_sha256_end (TrnSha256 *sum, char text[65]);
