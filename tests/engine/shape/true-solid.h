/* true-solid.h: the solids of the contract once more, as point sets in closed form, written apart
 * from the code that makes triangles of them. */
#pragma once

#include "solid.h"

/* Random sizes; a group has two levels. It passes trn_solid_check. */
TrnSolid *true_solid_random (TrnSolidKind kind);

/* A random point of the part called @part: inside, on a face, on an edge, or at an end. */
TrnVec3 true_solid_sample (const TrnSolid *solid, const char *part);

/* The distance of @point from the part called @part; 0 inside. */
double true_solid_distance (const TrnSolid *solid, const char *part, TrnVec3 point);
