/* import.h: mesh files, read in a helper process.
 *
 * A mesh file is hostile until proven otherwise. It is read by `trunnion-import`, a program of its
 * own that alone links the import library, under limits of memory, processor time, wall-clock time
 * and triangles; it opens nothing outside the model's folder. What it sends back over a pipe is
 * checked again here. A crash there is an error here, no more. */
#pragma once

#include "cache.h"
#include "diag.h"
#include "mesh.h"
#include "progress.h"

typedef enum
{
  TRN_LENGTH_UNDECLARED, /* take what the file declares */
  TRN_LENGTH_M,
  TRN_LENGTH_MM,
  TRN_LENGTH_CM,
  TRN_LENGTH_FT,
  TRN_LENGTH_IN,
} TrnLengthUnit;

typedef enum
{
  TRN_UP_UNDECLARED, /* take what the file declares */
  TRN_UP_Z,
  TRN_UP_Y, /* (x, y, z) becomes (x, −z, y) */
} TrnUpAxis;

typedef struct
{
  const char *path;
  TrnLengthUnit unit;
  TrnUpAxis up;
  TrnCache *cache; /* of meshes of files with the same bytes; may be NULL */
} TrnImportRequest;

typedef struct
{
  gsize memory_bytes; /* address space of the helper */
  guint cpu_s, wall_s;
  guint32 max_triangles;
} TrnImportLimits;

/* 2 GiB, 30 s, 60 s, 20 million triangles. */
TrnImportLimits trn_import_limits_default (void);

/* Reads @request->path and returns its triangles in metres, Z up, with the file's node transforms
 * applied once and its object names kept as parts; or NULL with at least one error added to @diags
 * (codes "import/…", the file set). Warnings (what was dropped) may be added on success too.
 * @limits may be NULL for the default; @progress may be NULL, and cancels when it is cancelled.
 * @sha256 receives the SHA-256 of the file's bytes in hexadecimal where it could be read. */
TrnMesh *trn_import_mesh (const TrnImportRequest *request, const TrnImportLimits *limits,
                          const TrnProgress *progress, char sha256[65], TrnDiags *diags);

/* "m", "mm", "cm", "ft", "in" to the unit; TRN_LENGTH_UNDECLARED when it is none of them. */
TrnLengthUnit trn_length_unit_from_name (const char *name);
/* Metres in one unit: exact values of the international yard and pound agreement of 1959. */
double trn_length_unit_metres (TrnLengthUnit unit);
