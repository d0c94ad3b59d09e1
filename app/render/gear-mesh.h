/* gear-mesh.h: the shapes of lifting gear as small meshes, from where their corners are. For
 * showing only: the checks work on the corners themselves (limb.h). */
#pragma once

#include "mesh.h"

#define RENDER_HULL_CORNERS 16

/* The convex hull of so many corners, faces outwards; owned by the caller. NULL where they lie in
 * a plane. */
TrnMesh *render_hull_mesh (const TrnVec3 *corners, guint n_corners);
/* A straight bar with a box for a section, square at both ends: @width_m level, @depth_m square to
 * that; upright, the width lies along X. NULL where it has no length. */
TrnMesh *render_beam_mesh (TrnVec3 from, TrnVec3 to, double width_m, double depth_m);
/* A round bar, circumscribed, its ends square and @radius_m beyond the points. NULL without a
 * radius. */
TrnMesh *render_bar_mesh (TrnVec3 from, TrnVec3 to, double radius_m);
