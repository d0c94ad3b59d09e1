/* sight.h: whether a point can be seen: by rays against the display meshes of a draw list, without
 * OpenGL. For notes that would speak of something hidden, and for a view that shows two points. */
#pragma once

#include "camera.h"
#include "draw-list.h"

/* Whether no solid body stands between @point and the eye, and the section leaves it. Surfaces that
 * the point itself lies on do not count. */
gboolean
render_sight_is_free (const RenderDrawList *list, const RenderCamera *camera, TrnVec3 point);

/* Turns an oblique camera about the vertical through its target so that as few as can be of the
 * points are hidden; by as little as that needs. Returns how many are hidden still. */
guint render_sight_turn (const RenderDrawList *list, RenderCamera *camera, const TrnVec3 *points,
                         guint n_points);
/* The same by the boxes of what stands there, ground and boxes round a point left out: for many
 * points at little cost. Up to a quarter of them hidden is good enough. */
guint render_sight_turn_roughly (const RenderDrawList *list, RenderCamera *camera,
                                 const TrnVec3 *points, guint n_points);
