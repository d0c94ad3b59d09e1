/* import.h: mesh files, read in a helper process.
 *
 * A mesh file is hostile until proven otherwise. It is read by `trunnion-import`, a program of its
 * own that alone links the import library, under limits of memory, processor time, wall-clock time
 * and triangles; it opens nothing outside the model's folder. What it sends back over a pipe is
 * checked again here. A crash there is an error here, no more. */
#pragma once

#include "cache.h"
#include "diag.h"
#include "mesh-repair.h"
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

/* A file that a mesh file needed beside itself: a buffer of glTF, materials of an OBJ. */
typedef struct
{
  char *name; /* from the folder of the mesh file */
  char sha256[65];
} TrnImportReferred;

/* To hand on in a request. */
GArray *trn_import_referred_new (void);

typedef struct
{
  const char *path;
  TrnLengthUnit unit;
  TrnUpAxis up;
  const char *const *parts; /* names of the objects that are wanted, NULL-terminated; NULL: all */
  /* To see what is in a file, never to check with it: a unit that nobody declares is taken as the
   * metre and an axis as Z up, which the report says, and no precision is refused. */
  gboolean look_only;
  TrnCache *cache;  /* of meshes of files with the same bytes; may be NULL */
  GArray *referred; /* of TrnImportReferred, to which they are added; may be NULL */
} TrnImportRequest;

typedef struct
{
  gsize memory_bytes; /* address space of the helper */
  guint cpu_s, wall_s;
  guint32 max_triangles;
} TrnImportLimits;

/* What was found in a file, and what was done about it. */
typedef struct
{
  double metres_per_unit;
  gboolean unit_declared, up_declared;   /* by the file, not only by who asked */
  gboolean unit_overruled, up_overruled; /* who asked said otherwise */
  gboolean y_up;
  gboolean counted; /* its faces were held against a count made in the file itself */
  guint confined;   /* TRN_STREAM_CONFINED_…: what held the helper while it read */
  double loss_m;    /* bound on the error of a coordinate that comes from single precision */
  double warp_m;    /* the most that a polygon which was cut is from flat: 0 where all are flat */
  double largest_m; /* greatest coordinate in the file */
  guint32 joined;   /* its vertices that were joined with an equal one */
  /* Of the wanted parts: */
  guint32 n_parts, n_triangles;
  TrnMeshRepair repair;
  TrnVec3 size_m; /* their extent */
  guint32 n_holes;
  double largest_hole_m;
  gboolean closed;
} TrnImportReport;

/* 2 GiB, 30 s, 60 s, 20 million triangles. */
TrnImportLimits trn_import_limits_default (void);

/* Reads @request->path and returns its triangles in metres, Z up, with the file's node transforms
 * applied once, its object names kept as parts, and put right as mesh-repair.h says; or NULL with
 * at least one error added to @diags (codes "import/…", the file set). Warnings (what was dropped
 * or put right) may be added on success.
 * @limits may be NULL for the default; @progress may be NULL; it cancels when it is cancelled, and
 * gets ahead in stages: the digest, the helper's work, its answer.
 * @report may be NULL; it is filled on success.
 * @sha256 receives the SHA-256 of the file's bytes in hexadecimal where it could be read. */
TrnMesh *
trn_import_mesh (const TrnImportRequest *request, const TrnImportLimits *limits,
                 TrnProgress *progress, char sha256[65], TrnImportReport *report, TrnDiags *diags);

/* "m", "mm", "cm", "ft", "in" to the unit; TRN_LENGTH_UNDECLARED when it is none of them. */
TrnLengthUnit trn_length_unit_from_name (const char *name);
/* Metres in one unit: exact values of the international yard and pound agreement of 1959. */
double trn_length_unit_metres (TrnLengthUnit unit);
