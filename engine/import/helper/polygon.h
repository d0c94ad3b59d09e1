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

#include <glib.h>

/* Fills @triangles with n − 2 triples of indices into @corners. FALSE when the polygon crosses
 * itself or is bent too much to be seen from one side. */
gboolean trn_polygon_cut (const double (*corners)[3], guint32 n, guint32 (*triangles)[3]);

/* How far its corners are from one plane, as the distance of two planes between which they lie: so
 * far apart the surfaces of two ways to cut it may be. 0 of a triangle. */
double trn_polygon_warp (const double (*corners)[3], guint32 n);

/* The most corners that a polygon may have to be covered, and the most triangles that takes. */
#define TRN_POLYGON_COVER_CORNERS 8
#define TRN_POLYGON_COVER_TRIANGLES 56

/* All triangles between @n corners, of which any way to cut the polygon is a part: what covers a
 * polygon that cannot be cut. Returns their number, 0 where there are too many corners. */
guint32 trn_polygon_cover (guint32 n, guint32 (*triangles)[3]);
