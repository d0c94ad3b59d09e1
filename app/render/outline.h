/* outline.h: lines of a mesh that depend on where one looks from or where one cuts: its outline,
 * and the edge of a cut. Plain data, segments of 6 floats in the coordinates of the display mesh
 * (relative to its centre). */
#pragma once

#include "display-mesh.h"

/* Appends the folds that have one face towards the eye and one away from it. @eye: where it is, or
 * the direction to it where @parallel. */
void render_outline_append (const RenderMesh *mesh, const float eye[3], gboolean parallel,
                            GArray *segments);
/* Appends where the plane normal · p = offset cuts the triangles. */
void
render_cut_append (const RenderMesh *mesh, const float normal[3], float offset, GArray *segments);
