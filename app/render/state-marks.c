/* state-marks.c: mark, fill and stroke of each state: the same in the view, in lists, in the strip
 * and on paper. Every mark has a casing, since no single colour stands out from sand, grey, white
 * and black alike. */
#include "overlay.h"

#define FULL_TURN (2 * G_PI)
#define TINT 0.16

static void
set_colour (cairo_t *cr, RenderColour colour)
{
  cairo_set_source_rgba (cr, colour.r, colour.g, colour.b, colour.a);
}

typedef struct
{
  cairo_t *cr;
  RenderColour colour, casing;
  double r, rim; /* radius, and how far the casing goes beyond */
} Mark;

static void
stroke_cased (const Mark *mark, double width)
{
  set_colour (mark->cr, mark->casing);
  cairo_set_line_width (mark->cr, width + 2 * mark->rim);
  cairo_stroke_preserve (mark->cr);
  set_colour (mark->cr, mark->colour);
  cairo_set_line_width (mark->cr, width);
  cairo_stroke (mark->cr);
}

/* A filled square with a cross in the colour of the casing. */
static void
draw_touching (const Mark *mark)
{
  double a = 0.92 * mark->r, b = 0.5 * mark->r;
  cairo_rectangle (mark->cr, -a - mark->rim, -a - mark->rim, 2 * (a + mark->rim),
                   2 * (a + mark->rim));
  set_colour (mark->cr, mark->casing);
  cairo_fill (mark->cr);
  cairo_rectangle (mark->cr, -a, -a, 2 * a, 2 * a);
  set_colour (mark->cr, mark->colour);
  cairo_fill (mark->cr);
  set_colour (mark->cr, mark->casing);
  cairo_set_line_width (mark->cr, 0.34 * mark->r);
  cairo_move_to (mark->cr, -b, -b);
  cairo_line_to (mark->cr, b, b);
  cairo_move_to (mark->cr, b, -b);
  cairo_line_to (mark->cr, -b, b);
  cairo_stroke (mark->cr);
}

/* A chevron that points down. */
static void
draw_short (const Mark *mark)
{
  double r = mark->r;
  cairo_set_line_join (mark->cr, CAIRO_LINE_JOIN_MITER);
  cairo_move_to (mark->cr, -0.78 * r, -0.48 * r);
  cairo_line_to (mark->cr, 0, 0.42 * r);
  cairo_line_to (mark->cr, 0.78 * r, -0.48 * r);
  stroke_cased (mark, 0.58 * r);
}

/* A circle whose left half is filled. */
static void
draw_tight (const Mark *mark, RenderColour paper)
{
  double r = 0.9 * mark->r;
  cairo_arc (mark->cr, 0, 0, r, 0, FULL_TURN);
  set_colour (mark->cr, paper);
  cairo_fill (mark->cr);
  cairo_arc (mark->cr, 0, 0, r, G_PI / 2, 3 * G_PI / 2);
  cairo_close_path (mark->cr);
  set_colour (mark->cr, mark->colour);
  cairo_fill_preserve (mark->cr);
  cairo_new_sub_path (mark->cr);
  cairo_arc (mark->cr, 0, 0, r, 0, FULL_TURN);
  set_colour (mark->cr, mark->casing);
  cairo_set_line_width (mark->cr, 0.26 * mark->r);
  cairo_stroke (mark->cr);
}

static void
draw_clear (const Mark *mark)
{
  cairo_arc (mark->cr, 0, 0, 0.76 * mark->r, 0, FULL_TURN);
  stroke_cased (mark, 0.4 * mark->r);
}

static void
draw_dash (const Mark *mark)
{
  cairo_move_to (mark->cr, -0.85 * mark->r, 0);
  cairo_line_to (mark->cr, 0.85 * mark->r, 0);
  stroke_cased (mark, 0.46 * mark->r);
}

/* Something without a state: a dot. */
static void
draw_dot (const Mark *mark)
{
  cairo_arc (mark->cr, 0, 0, 0.42 * mark->r + mark->rim, 0, FULL_TURN);
  set_colour (mark->cr, mark->casing);
  cairo_fill (mark->cr);
  cairo_arc (mark->cr, 0, 0, 0.42 * mark->r, 0, FULL_TURN);
  set_colour (mark->cr, mark->colour);
  cairo_fill (mark->cr);
}

void
render_mark_draw (cairo_t *cr, RenderState state, double x, double y, double radius, gboolean dark)
{
  Mark mark = { cr, render_state_colour (state, dark), render_state_casing_colour (state, dark),
                radius, fmin (0.28 * radius, 1.5) };
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_translate (cr, x, y);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_dash (cr, NULL, 0, 0);
  switch (state)
    {
    case RENDER_STATE_NONE:
      draw_dot (&mark);
      break;
    case RENDER_STATE_TOUCHING:
      draw_touching (&mark);
      break;
    case RENDER_STATE_SHORT:
      draw_short (&mark);
      break;
    case RENDER_STATE_TIGHT:
      draw_tight (&mark, dark ? (RenderColour){ 1, 1, 1, 1 } : render_paper_colour (FALSE));
      break;
    case RENDER_STATE_CLEAR:
      draw_clear (&mark);
      break;
    case RENDER_STATE_NOT_CHECKED:
      draw_dash (&mark);
      break;
    }
  cairo_restore (cr);
}

/* Lines at 45° over the clip, @apart pixels from each other; @side 1 rises to the right. */
static void
hatch (cairo_t *cr, double apart, double width, double side)
{
  double x0, y0, x1, y1;
  cairo_clip_extents (cr, &x0, &y0, &x1, &y1);
  double height = y1 - y0, step = apart * G_SQRT2;
  /* The lines hang on the origin, not on the clip, so that neighbouring fills fit together. */
  double first = floor ((x0 - height + side * y1) / step) * step - side * y1;
  for (double x = first; x < x1 + height; x += step)
    {
      cairo_move_to (cr, x, y1);
      cairo_line_to (cr, x + side * height, y0);
    }
  cairo_set_line_width (cr, width);
  cairo_stroke (cr);
}

static void
dots (cairo_t *cr, double apart, double radius)
{
  double x0, y0, x1, y1;
  cairo_clip_extents (cr, &x0, &y0, &x1, &y1);
  int row = (int)floor (y0 / apart);
  for (double y = row * apart; y < y1 + radius; y += apart, row++)
    {
      double shift = row % 2 == 0 ? 0 : apart / 2;
      for (double x = floor (x0 / apart) * apart - shift; x < x1 + radius; x += apart)
        {
          cairo_new_sub_path (cr);
          cairo_arc (cr, x, y, radius, 0, FULL_TURN);
        }
    }
  cairo_fill (cr);
}

static void
paint_tint (cairo_t *cr, RenderColour colour, double alpha)
{
  cairo_set_source_rgba (cr, colour.r, colour.g, colour.b, alpha);
  cairo_paint (cr);
}

void
render_state_fill (cairo_t *cr, RenderState state, gboolean dark)
{
  RenderColour colour = render_state_colour (state, dark);
  cairo_save (cr);
  cairo_clip (cr);
  cairo_set_dash (cr, NULL, 0, 0);
  switch (state)
    {
    case RENDER_STATE_NONE:
      break;
    case RENDER_STATE_TOUCHING:
      paint_tint (cr, colour, TINT);
      set_colour (cr, colour);
      hatch (cr, 4.5, 1.2, 1);
      hatch (cr, 4.5, 1.2, -1);
      break;
    case RENDER_STATE_SHORT:
      paint_tint (cr, colour, TINT);
      set_colour (cr, colour);
      hatch (cr, 4.5, 1.6, 1);
      break;
    case RENDER_STATE_TIGHT:
      paint_tint (cr, colour, 1);
      set_colour (cr, render_state_casing_colour (state, dark));
      dots (cr, 5, 0.8);
      break;
    case RENDER_STATE_CLEAR:
      paint_tint (cr, colour, 1);
      break;
    case RENDER_STATE_NOT_CHECKED:
      paint_tint (cr, colour, TINT);
      set_colour (cr, colour);
      dots (cr, 9, 0.9);
      break;
    }
  cairo_restore (cr);
}

void
render_state_stroke (cairo_t *cr, RenderState state, gboolean dark)
{
  static const double long_dash[] = { 10, 4 }, dotted[] = { 1.5, 3 };
  static const double widths[] = {
    [RENDER_STATE_NONE] = 1,    [RENDER_STATE_TOUCHING] = 4, [RENDER_STATE_SHORT] = 3,
    [RENDER_STATE_TIGHT] = 2.5, [RENDER_STATE_CLEAR] = 1.25, [RENDER_STATE_NOT_CHECKED] = 1.5
  };
  set_colour (cr, render_state_colour (state, dark));
  cairo_set_line_width (cr, widths[state]);
  if (state == RENDER_STATE_TIGHT)
    cairo_set_dash (cr, long_dash, 2, 0);
  else if (state == RENDER_STATE_NOT_CHECKED)
    cairo_set_dash (cr, dotted, 2, 0);
  else
    cairo_set_dash (cr, NULL, 0, 0);
}
