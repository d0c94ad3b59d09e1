/* packed-grid.h: how far coordinates may be from what they were before they were packed.
 *
 * Draco, by which glTF is packed, rounds a coordinate v to o + k p with a whole number k: p, the
 * pitch, is the same along x, y and z, and o, the origin, is another one for each. Neither is left
 * in what the import library returns, so both are bounded here by the coordinates alone. */
#pragma once

#include <assimp/mesh.h>
#include <glib.h>

typedef struct
{
  double pitch; /* bound on it */
  double loss;  /* bound on the error of a coordinate */
} TrnPackedGrid;

typedef enum
{
  TRN_PACKED_KNOWN,
  TRN_PACKED_UNKNOWN, /* the coordinates do not show how they were rounded */
  TRN_PACKED_NO_MEMORY,
} TrnPackedAnswer;

/* Vertices that are not finite are left aside. */
TrnPackedAnswer
trn_packed_grid_find (const struct aiVector3D *points, guint32 n_points, TrnPackedGrid *grid);
