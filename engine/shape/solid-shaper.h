/* solid-shaper.h: what the files that turn solids into triangles share. Not for use outside this
 * folder.
 *
 * A shaper takes the corners of one part after the other, in the frame of the solid (or of the part
 * of a group) at hand, and puts them into the frame of the outermost solid.
 *
 * Rounding. Every face that is not exactly representable is moved to the side that errs to more
 * material, by TRN_SOLID_ROUNDING times the size of the numbers that it was computed from. That is
 * some 4500 units in the last place, where a corner needs a few dozen roundings at most; so the
 * triangles contain the true solid in spite of rounding. The deviation pays for it: facets take
 * nine tenths of what is allowed, and the tenth that is left is at least 1 µm (a tenth of
 * TRN_SOLID_LEAST_DEVIATION_M), which is more than TRN_SOLID_ROUNDING of the 800 km within which
 * nested groups of solids of TRN_SOLID_GREATEST_M can lie. */
#pragma once

#include "solid.h"

#define TRN_SOLID_ROUNDING 1e-12

/* The share of the deviation that facets may use. */
#define TRN_SOLID_FACET_SHARE 0.9

typedef struct
{
  GPtrArray *parts;   /* of TrnSolidPart */
  const char *prefix; /* id of the part of a group that is being shaped, else "" */
  TrnPose solid_from_local;
  double deviation_m;
  double pad_m; /* by which every face is moved for the rounding of solid_from_local */
  TrnMeshBuilder *builder;
} TrnShaper;

/* Begins the mesh of a part, and ends it as the part called @name, which may be empty. */
void trn_shaper_begin (TrnShaper *shaper);
void trn_shaper_end (TrnShaper *shaper, const char *name);

/* @corner is in the local frame. */
guint32 trn_shaper_vertex (TrnShaper *shaper, TrnVec3 corner);

/* A ring is a run of vertices, counter-clockwise seen from above (for a tube: seen against its
 * direction); these return its first one. */
guint32 trn_shaper_circle (TrnShaper *shaper, double radius_m, guint n_facets, double z_m);
guint32 trn_shaper_rectangle (TrnShaper *shaper, double half_x_m, double half_y_m, double z_m);

/* The quadrilaterals between two rings of @n vertices: outside is to the right of the way along
 * ring @a, where the way from @a to @b is up. */
void trn_shaper_band (TrnShaper *shaper, guint32 a, guint32 b, guint n);

/* Closes a convex ring with triangles round its @centre vertex, seen from above or from below. */
void trn_shaper_cap (TrnShaper *shaper, guint32 ring, guint n, guint32 centre, gboolean above);

/* The least number of facets, a multiple of four, with which a polygon round a circle of radius
 * @radius_m exceeds it by no more than @excess_m at its corners. The polygon of as many corners in
 * the circle then falls short of it by no more. */
guint trn_shaper_facets (double radius_m, double excess_m);

/* The numbers of pieces and of facets of a conductor's tube (solid-line.c). */
void trn_shaper_line_divide (const TrnConductor *conductor, double radius_m, double deviation_m,
                             guint *n_pieces, guint *n_facets);

void trn_shaper_ground (TrnShaper *shaper, const TrnSolid *solid);
void trn_shaper_overhead_line (TrnShaper *shaper, const TrnSolid *solid);
