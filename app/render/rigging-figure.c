/* rigging-figure.c: what hangs on a hook as a sketch: hook, block, beam and legs from the top down,
 * angles true, lengths such that it fits. Legs that would cover each other start a little apart. */
#include <math.h>

#include "force-figure.h"
#include "plot-text.h"

#define TEXT_PX 11
#define MARGIN_PX 6
#define TEXT_MARGIN_PX 2
#define NAME_PX 16             /* of the hook, above it */
#define HOOK_PX (NAME_PX + 26) /* from the top to where legs begin */
#define BLOCK_PX 12
#define APART_PX 9
#define STEEP (80 * G_PI / 180)
#define QUIET 0.75
#define HALF_BEAM 0.3 /* of the width, of a beam that is held at its middle */

typedef struct
{
  cairo_t *cr;
  const RenderRiggingFigure *figure;
  RenderColour ink;
  double left, width, height; /* of this hook */
  double beam_y, half_beam;   /* px */
} Sketch;

static void
put_text (const Sketch *sketch, const char *text, double x, double y, double share_of_width)
{
  double width, height;
  g_autoptr (PangoLayout) layout
      = render_plot_text (sketch->cr, text, sketch->figure->font, TEXT_PX, FALSE);
  render_plot_text_size (layout, &width, &height);
  if (width > sketch->width - 2 * TEXT_MARGIN_PX)
    {
      width = fmax (sketch->width - 2 * TEXT_MARGIN_PX, 1);
      pango_layout_set_width (layout, (int)(width * PANGO_SCALE));
      pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
    }
  const double least = sketch->left + TEXT_MARGIN_PX;
  x = CLAMP (x - share_of_width * width, least, least + sketch->width - width - 2 * TEXT_MARGIN_PX);
  y = CLAMP (y, 0, fmax (sketch->height - height, 0));
  RenderColour paper = render_paper_colour (sketch->figure->dark);
  render_plot_text_draw (sketch->cr, layout, x, y, sketch->ink, &paper);
}

static double
middle (const Sketch *sketch)
{
  return sketch->left + sketch->width / 2;
}

static double
slope (const RenderLeg *leg)
{
  double angle = isfinite (leg->angle_rad) ? leg->angle_rad : STEEP;
  return 1 / tan (CLAMP (angle, 0.15, 0.5 * G_PI));
}

static void
line (const Sketch *sketch, double x0, double y0, double x1, double y1, double width)
{
  cairo_move_to (sketch->cr, x0, y0);
  cairo_line_to (sketch->cr, x1, y1);
  cairo_set_line_width (sketch->cr, width);
  render_plot_source (sketch->cr, sketch->ink, 1);
  cairo_stroke (sketch->cr);
}

static void
draw_hook (const Sketch *sketch, const RenderHookSketch *hook)
{
  cairo_t *cr = sketch->cr;
  double x = middle (sketch), y = HOOK_PX;
  line (sketch, x, NAME_PX, x, y - 6, 1.2);
  if (hook->has_block)
    {
      cairo_rectangle (cr, x - 6, y - BLOCK_PX - 8, 12, BLOCK_PX);
      render_plot_source (cr, sketch->ink, 0.35);
      cairo_fill_preserve (cr);
      render_plot_source (cr, sketch->ink, 1);
      cairo_set_line_width (cr, 1);
      cairo_stroke (cr);
    }
  cairo_new_sub_path (cr);
  cairo_arc (cr, x, y - 3, 4, -0.5 * G_PI, G_PI);
  cairo_set_line_width (cr, 2);
  render_plot_source (cr, sketch->ink, 1);
  cairo_stroke (cr);
}

/* Where the beam is, so that its upper legs have their angles. */
static void
place_beam (Sketch *sketch, const RenderHookSketch *hook)
{
  double flattest = -1;
  for (guint i = 0; i < hook->n_legs; i++)
    if (hook->legs[i].to_beam)
      flattest = fmax (flattest, slope (&hook->legs[i]));
  double most = HALF_BEAM * sketch->width, drop = 0.3 * sketch->height;
  sketch->half_beam = most;
  if (flattest > 0)
    {
      drop = fmin (drop, most / flattest);
      sketch->half_beam = fmax (drop * flattest, 4);
    }
  sketch->beam_y = HOOK_PX + drop;
}

static void
draw_beam (const Sketch *sketch, const RenderHookSketch *hook)
{
  double x = middle (sketch);
  gboolean has_upper = FALSE;
  for (guint i = 0; i < hook->n_legs; i++)
    has_upper = has_upper || hook->legs[i].to_beam;
  line (sketch, x - sketch->half_beam, sketch->beam_y, x + sketch->half_beam, sketch->beam_y, 5);
  if (!has_upper)
    line (sketch, x, HOOK_PX, x, sketch->beam_y, 1.6);
}

/* Upper end of a leg. */
static void
begin_of (const Sketch *sketch, const RenderLeg *leg, double *x, double *y)
{
  *x = middle (sketch);
  *y = HOOK_PX;
  if (leg->from < 0)
    return;
  *x += leg->from == 0 ? -sketch->half_beam : sketch->half_beam;
  *y = sketch->beam_y;
}

static gboolean
is_along (const RenderLeg *a, const RenderLeg *b)
{
  return a->from == b->from && a->to_beam == b->to_beam
         && (a->goes_right == b->goes_right || fmin (slope (a), slope (b)) < 0.05)
         && fabs (slope (a) - slope (b)) < 0.05;
}

static void
draw_leg (const Sketch *sketch, const RenderHookSketch *hook, guint index)
{
  const RenderLeg *leg = &hook->legs[index];
  double x, y, side = leg->goes_right ? 1 : -1;
  guint n_along = 0;
  begin_of (sketch, leg, &x, &y);
  for (guint i = 0; i < index; i++)
    n_along += is_along (&hook->legs[i], leg);
  x = CLAMP (x + side * n_along * APART_PX, sketch->left + MARGIN_PX,
             sketch->left + sketch->width - MARGIN_PX);
  double foot = leg->to_beam ? sketch->beam_y : sketch->height - MARGIN_PX - TEXT_PX - 6;
  double run = side * slope (leg) * (foot - y);
  /* Within its room, as steep as it is. */
  double room
      = side > 0 ? sketch->left + sketch->width - MARGIN_PX - x : x - sketch->left - MARGIN_PX;
  double share = fabs (run) > room ? room / fabs (run) : 1;
  double end_x = x + share * run, end_y = y + share * (foot - y);
  line (sketch, x, y, end_x, end_y, 1.6);
  cairo_arc (sketch->cr, end_x, end_y, 2.5, 0, 2 * G_PI);
  cairo_fill (sketch->cr);
  /* Names stand below each other, so that none covers another. */
  double at = leg->to_beam ? 0.5 : 0.75 - 0.18 * (index % 3);
  put_text (sketch, leg->text, x + at * (end_x - x) + side * 4,
            y + at * (end_y - y) - TEXT_PX / 2.0, side > 0 ? 0 : 1);
}

void
render_rigging_figure_draw (cairo_t *cr, const RenderRiggingFigure *figure, RenderSize size)
{
  cairo_save (cr);
  cairo_new_path (cr);
  for (guint i = 0; i < figure->n_hooks; i++)
    {
      const RenderHookSketch *hook = &figure->hooks[i];
      Sketch sketch = { .cr = cr,
                        .figure = figure,
                        .ink = render_ink_colour (figure->dark),
                        .left = size.width * i / figure->n_hooks,
                        .width = size.width / figure->n_hooks,
                        .height = size.height };
      place_beam (&sketch, hook);
      draw_hook (&sketch, hook);
      if (hook->beam != NULL)
        draw_beam (&sketch, hook);
      for (guint k = 0; k < hook->n_legs; k++)
        draw_leg (&sketch, hook, k);
      put_text (&sketch, hook->hook, middle (&sketch), 0, 0.5);
      if (hook->beam != NULL)
        put_text (&sketch, hook->beam, middle (&sketch), sketch.beam_y + 5, 0.5);
    }
  cairo_restore (cr);
}
