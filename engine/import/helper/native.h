/* native.h: the formats that the helper reads itself.
 *
 * Each reader fills the answer, its unit and axis included, or adds an error. What a file holds
 * that has a surface and is not read is an error: an obstacle would be missing. */
#pragma once

#include "answer.h"
#include "build.h"
#include "formats.h"

gboolean trn_native_reads (TrnFormat format);
void trn_native_read (const char *path, TrnFormat format, guint64 max_triangles, TrnAnswer *answer);

/* The readers. */
void trn_read_3ds (const char *path, TrnBuild *build, TrnAnswer *answer);
void trn_read_3mf (const char *path, TrnBuild *build, TrnAnswer *answer);
void trn_read_amf (const char *path, TrnBuild *build, TrnAnswer *answer);
void trn_read_dxf (const char *path, TrnBuild *build, TrnAnswer *answer);
void trn_read_off (const char *path, TrnBuild *build, TrnAnswer *answer);

/* The whole file followed by a NUL byte, owned; NULL after an error. */
char *trn_native_bytes_dup (const char *path, gsize *length, TrnAnswer *answer);
