/* mass.h: volume, centroid and area of meshes. */
#pragma once

#include "mesh.h"

typedef struct
{
  double area_m2;
  double
      volume_m3; /* signed: negative where the faces point inwards; meaningless for open meshes */
  TrnVec3 centroid; /* of the volume; of the surface where the volume is 0 */
} TrnMassProperties;

/* Sums over the triangles (divergence theorem; Mirtich 1996, "Fast and accurate computation of
 * polyhedral mass properties", reduced to tetrahedra on the centre of the box), so that a mesh far
 * from its origin loses nothing. All is 0 for a mesh without triangles. */
TrnMassProperties trn_mesh_mass_properties (const TrnMesh *mesh);
