/* overlay.h: labels, marks, caption and compass of a draw list, by Cairo and Pango, over what the
 * renderer drew: on screen, in stills and on paper alike. */
#pragma once

#include <cairo.h>

#include "camera.h"
#include "draw-list.h"

/* Draws over @size logical pixels of @cr. A label stands beside what it speaks of on a plate, never
 * over it or over another label or mark, within the view, with a thin leader; nor in the uppermost
 * @covered_px, where something else lies over the view. */
void render_overlay_draw (cairo_t *cr, const RenderDrawList *list, const RenderCamera *camera,
                          RenderSize size, double covered_px);

/* The mark of a state, centred, @radius logical pixels: the same in the view, lists and strip. */
void
render_mark_draw (cairo_t *cr, RenderState state, double x, double y, double radius, gboolean dark);
/* The fill of a state (none, dots, hatch …) over the current path, which is consumed. */
void render_state_fill (cairo_t *cr, RenderState state, gboolean dark);
/* Line width, dash and colour of a state for the next stroke. */
void render_state_stroke (cairo_t *cr, RenderState state, gboolean dark);
