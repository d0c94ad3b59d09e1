/* outline.h: quick bounds of the area that a body shows, gaps and hollows filled. For the area with
 * its gaps see silhouette.h, which takes longer. */
#pragma once

#include "mesh.h"
#include "rotation.h"

typedef struct
{
  double level_m2; /* no level direction shows more; for convex bodies within 0.1 % */
  double plan_m2;  /* from above */
} TrnOutline;

/* Of the convex hull of @mesh, with the direction @up of its frame plumb: how it is turned about
 * that shows nothing new. */
TrnOutline trn_outline_make (const TrnMesh *mesh, TrnVec3 up);

/* @up as it is taken: all directions that it is taken for alike show the same. */
TrnVec3 trn_outline_up (TrnVec3 up);

/* No direction within @slant_rad (up to a right angle) of level ones shows more. */
static inline double
trn_outline_slanted_m2 (const TrnOutline *outline, double slant_rad)
{
  return outline->level_m2 + sin (slant_rad) * outline->plan_m2;
}
