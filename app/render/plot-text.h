/* plot-text.h: small texts on plots, by Pango. */
#pragma once

#include <pango/pangocairo.h>

#include "draw-list.h"

/* A layout of @size px, owned by the caller. @font: a family, NULL for the usual one. Figures all
 * have the same width. */
PangoLayout *
render_plot_text (cairo_t *cr, const char *text, const char *font, double size_px, gboolean bold);
void render_plot_text_size (PangoLayout *layout, double *width, double *height);
/* Of the ink, for what is less: at least 4.5 : 1 on either paper. */
#define RENDER_PLOT_QUIET 0.76
/* A background goes beyond the letters by this, at both sides. */
#define RENDER_PLOT_TEXT_RIM 2.0

/* Draws it with its left top corner at (x, y), on a background of @paper where that is not NULL, so
 * that no line strikes it through. Leaves no current point. */
void render_plot_text_draw (cairo_t *cr, PangoLayout *layout, double x, double y,
                            RenderColour colour, const RenderColour *paper);
void render_plot_source (cairo_t *cr, RenderColour colour, double alpha);
