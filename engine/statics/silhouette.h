/* silhouette.h: the area of a body as seen along a level direction: its sail area. */
#pragma once

#include "mesh.h"
#include "rotation.h"

/* An upper bound, proven, of the area seen along a level direction of @heading_rad, with the mesh
 * turned by @turn and each of its points up to @slack_m from where that puts it (0, or what a range
 * of attitudes amounts to). Within 1 % for bodies, more for what is mostly gaps. */
double trn_silhouette_m2 (const TrnMesh *mesh, const TrnRotation *turn, double heading_rad,
                          double slack_m);

typedef struct
{
  double area_m2; /* no heading shows more: an upper bound, proven */
  double seen_m2; /* at heading_rad; a bound of that, as near as area_m2 */
  double heading_rad;
} TrnSilhouette;

/* Over all level directions; area and seen are within half a per cent of each other unless that
 * takes too long. */
TrnSilhouette trn_silhouette_worst (const TrnMesh *mesh, const TrnRotation *turn, double slack_m);
