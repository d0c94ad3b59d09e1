/* bar-plot.h: a clearance against what is to be kept, as a bar whose tick of what is to be kept is
 * always in the same place, whatever the clearance to be kept is: the eye compares margins without
 * reading.
 *
 * Left of the tick it goes evenly from touching to what is to be kept; right of it the margin goes
 * by log (1 + 5 m), up to 20 m. */
#pragma once

#include <cairo.h>

#include "draw-list.h"
#include "plates.h"

#define RENDER_BAR_TICK 0.3 /* of the width */

typedef enum
{
  RENDER_BAR_DISTANCE, /* from touching to the distance */
  RENDER_BAR_MARGIN,   /* from the tick to the distance: what is to spare or missing */
} RenderBarKind;

typedef struct
{
  RenderBarKind kind;
  double distance_m; /* NAN: only trough and tick */
  double required_m;
  RenderState state;
  gboolean dark;
} RenderBar;

/* The place of a distance on the bar, 0 to 1; RENDER_BAR_TICK for what is to be kept. */
double render_bar_place (double distance_m, double required_m);
void render_bar_draw (cairo_t *cr, const RenderBar *bar, const RenderRect *rect);
