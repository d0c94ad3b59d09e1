/* bar-plot.c: bars of clearances. */
#include "bar-plot.h"

#include <math.h>

#include "overlay.h"
#include "plot-text.h"

#define MOST_M 20
#define STEEPNESS 5 /* 1/m */
#define LEAST_PX 4
#define TROUGH 0.12    /* of the ink */
#define TICK_OVER_PX 4 /* how far the tick goes beyond the bar */

double
render_bar_place (double distance_m, double required_m)
{
  double margin_m = distance_m - required_m;
  if (margin_m >= 0)
    return RENDER_BAR_TICK
           + (1 - RENDER_BAR_TICK) * fmin (log1p (STEEPNESS * margin_m), log1p (STEEPNESS * MOST_M))
                 / log1p (STEEPNESS * MOST_M);
  return required_m > 0 ? RENDER_BAR_TICK * fmax (distance_m, 0) / required_m : 0;
}

static void
round_bar (cairo_t *cr, double x, double y, double width, double height)
{
  double r = fmin (height, width) / 2;
  cairo_new_sub_path (cr);
  cairo_arc (cr, x + r, y + r, r, 0.5 * G_PI, 1.5 * G_PI);
  cairo_arc (cr, x + width - r, y + r, r, -0.5 * G_PI, 0.5 * G_PI);
  cairo_close_path (cr);
}

static void
draw_value (cairo_t *cr, const RenderBar *bar, const RenderRect *rect)
{
  double place = render_bar_place (bar->distance_m, bar->required_m);
  double from = bar->kind == RENDER_BAR_MARGIN ? fmin (place, RENDER_BAR_TICK) : 0;
  double to = bar->kind == RENDER_BAR_MARGIN ? fmax (place, RENDER_BAR_TICK) : place;
  double x = rect->x + from * rect->width, width = (to - from) * rect->width;
  if (width <= 0)
    return;
  /* The least bit is seen: it goes over on the side it is on. */
  if (width < LEAST_PX)
    {
      x -= from < RENDER_BAR_TICK && bar->kind == RENDER_BAR_MARGIN ? LEAST_PX - width : 0;
      width = LEAST_PX;
    }
  round_bar (cr, x, rect->y, width, rect->height);
  render_state_fill (cr, bar->state, bar->dark);
  cairo_new_path (cr);
  if (bar->state != RENDER_STATE_CLEAR)
    {
      /* Patterns need an edge, yellow its casing. */
      RenderColour edge = render_state_text_colour (bar->state, bar->dark);
      round_bar (cr, x + 0.5, rect->y + 0.5, fmax (width - 1, 0.5), rect->height - 1);
      render_plot_source (cr, edge, 1);
      cairo_set_dash (cr, NULL, 0, 0);
      cairo_set_line_width (cr, 1);
      cairo_stroke (cr);
    }
}

void
render_bar_draw (cairo_t *cr, const RenderBar *bar, const RenderRect *rect)
{
  RenderColour ink = render_ink_colour (bar->dark);
  cairo_save (cr);
  cairo_new_path (cr);
  round_bar (cr, rect->x, rect->y, rect->width, rect->height);
  render_plot_source (cr, ink, TROUGH);
  cairo_fill (cr);
  if (!isnan (bar->distance_m))
    draw_value (cr, bar, rect);
  double x = floor (rect->x + RENDER_BAR_TICK * rect->width) + 0.5;
  cairo_rectangle (cr, x - 1, rect->y - TICK_OVER_PX, 2, rect->height + 2 * TICK_OVER_PX);
  render_plot_source (cr, ink, 1);
  cairo_fill (cr);
  cairo_restore (cr);
}
