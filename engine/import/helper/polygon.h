/* polygon.h: a polygon of a file cut into triangles.
 *
 * Done here and not by the import library, whose own step covers the notch of an L-shaped polygon.
 *
 * The corners are looked at along the axis that the polygon faces most (Newell's normal). A fan
 * from the first corner, and where that fails ear clipping (Meisters, "Polygons have ears", 1975),
 * with triangles of positive area only, or of none. That is the proof as well: at every point the
 * winding numbers of the triangles add up to that of the polygon, whose boundary is the sum of
 * theirs; none is negative; so where the polygon winds once exactly one triangle lies, and where
 * it does not wind, none does. This holds for corners that repeat, too. */
#pragma once

#include <assimp/mesh.h>
#include <glib.h>

/* Fills @triangles with n − 2 triples of indices into @vertices. FALSE when the polygon crosses
 * itself or is bent too much to be seen from one side. Every index of @face must be in range. */
gboolean trn_polygon_cut (const struct aiFace *face, const struct aiVector3D *vertices,
                          guint32 (*triangles)[3]);
