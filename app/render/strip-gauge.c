/* strip-gauge.c: heights, radii, angles and forces in the strip: thin lines in ink, each broken in
 * its own way, so that none is taken for a clearance; limits dashed; scales at the right.
 *
 * A name is put on its line where it covers no other name, as near to the right as can be: there
 * its scale is. Where there is no room it is left out; the pointer reads every line. */
#include <math.h>

#include "plot-text.h"
#include "strip-plot.h"

#define TEXT_PX 11
#define QUIET 0.72
#define LINE 0.85
#define LIMIT 0.5
#define NAME_STEP_PX 12
#define GAP_PX 2

static const struct
{
  double dashes[6];
  int n;
} patterns[RENDER_GAUGE_PATTERNS] = {
  { { 9, 2, 2, 2 }, 4 }, { { 9, 2, 2, 2, 2, 2 }, 6 }, { { 2, 2 }, 2 },        { { 14, 3 }, 2 },
  { { 6, 3 }, 2 },       { { 6, 2, 2, 2, 6, 6 }, 6 }, { { 12, 2, 4, 2 }, 4 }, { { 3, 5 }, 2 },
};

static RenderColour
ink_of (const RenderStrip *strip, double share)
{
  RenderColour ink = render_ink_colour (strip->dark);
  ink.a *= share;
  return ink;
}

static void
draw_axis (cairo_t *cr, const RenderStrip *strip, const RenderStripLayout *layout, guint index)
{
  const RenderStripAxis *axis = &strip->axes[index];
  double x = layout->plot.x + layout->plot.width + index * RENDER_STRIP_AXIS_PX;
  cairo_set_line_width (cr, 1);
  render_plot_source (cr, render_ink_colour (strip->dark), LIMIT);
  cairo_move_to (cr, floor (x) + 0.5, layout->plot.y);
  cairo_line_to (cr, floor (x) + 0.5, layout->plot.y + layout->plot.height);
  cairo_stroke (cr);
  /* The last has the unit and is never left out. */
  double top_foot = -INFINITY;
  for (guint k = axis->n_ticks; k-- > 0;)
    {
      double y = render_strip_axis_y (layout, axis, axis->ticks[k]), width, height;
      g_autoptr (PangoLayout) text
          = render_plot_text (cr, axis->texts[k], strip->font, TEXT_PX, FALSE);
      render_plot_text_size (text, &width, &height);
      if (y - height / 2 < top_foot)
        continue;
      top_foot = y + height / 2 + 1;
      render_plot_source (cr, render_ink_colour (strip->dark), LIMIT);
      cairo_move_to (cr, x, floor (y) + 0.5);
      cairo_line_to (cr, x + 4, floor (y) + 0.5);
      cairo_stroke (cr);
      render_plot_text_draw (cr, text, x + 6, y - height / 2, ink_of (strip, QUIET), NULL);
    }
}

static void
draw_limits (cairo_t *cr, const RenderStrip *strip, const RenderStripLayout *layout)
{
  static const double dashes[] = { 4, 5 };
  cairo_save (cr);
  cairo_set_dash (cr, dashes, 2, 0);
  cairo_set_line_width (cr, 1);
  render_plot_source (cr, render_ink_colour (strip->dark), LIMIT);
  for (guint i = 0; i < strip->n_limits; i++)
    {
      const RenderStripLimit *limit = &strip->limits[i];
      double y = render_strip_axis_y (layout, &strip->axes[limit->axis], limit->value);
      cairo_move_to (cr, layout->plot.x, floor (y) + 0.5);
      cairo_line_to (cr, layout->plot.x + layout->plot.width, floor (y) + 0.5);
      cairo_stroke (cr);
    }
  cairo_restore (cr);
}

static void
draw_gauge (cairo_t *cr, const RenderStrip *strip, const RenderStripLayout *layout,
            const RenderStripGauge *gauge)
{
  gboolean is_down = FALSE;
  for (guint i = 0; i < strip->n_times; i++)
    {
      double value = gauge->values[(gsize)i * gauge->stride];
      double x = render_strip_x (layout, strip->times_s[i]);
      if (isnan (value))
        {
          is_down = FALSE;
          continue;
        }
      double y = render_strip_axis_y (layout, &strip->axes[gauge->axis], value);
      if (is_down)
        cairo_line_to (cr, x, y);
      else
        cairo_move_to (cr, x, y);
      is_down = TRUE;
    }
  g_assert (gauge->pattern < RENDER_GAUGE_PATTERNS);
  cairo_set_dash (cr, patterns[gauge->pattern].dashes, patterns[gauge->pattern].n, 0);
  cairo_set_line_width (cr, 1.4);
  render_plot_source (cr, render_ink_colour (strip->dark), LINE);
  cairo_stroke (cr);
}

void
render_strip_draw_gauges (cairo_t *cr, const RenderStrip *strip, const RenderStripLayout *layout)
{
  g_assert (strip->n_axes <= RENDER_STRIP_AXES);
  cairo_save (cr);
  cairo_new_path (cr);
  for (guint i = 0; i < strip->n_axes; i++)
    draw_axis (cr, strip, layout, i);
  draw_limits (cr, strip, layout);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  for (guint i = 0; i < strip->n_gauges; i++)
    draw_gauge (cr, strip, layout, &strip->gauges[i]);
  cairo_restore (cr);
}

/* ---- names ---- */

typedef struct
{
  cairo_t *cr;
  const RenderStrip *strip;
  const RenderStripLayout *layout;
  RenderColour paper;
  GArray *taken; /* of RenderRect */
} Naming;

static gboolean
is_free (const Naming *naming, const RenderRect *rect)
{
  const RenderRect *plot = &naming->layout->plot;
  if (rect->x < plot->x + GAP_PX || rect->y < plot->y
      || rect->y + rect->height > plot->y + plot->height)
    return FALSE;
  for (guint i = 0; i < naming->taken->len; i++)
    if (render_rects_overlap (&g_array_index (naming->taken, RenderRect, i), rect))
      return FALSE;
  return TRUE;
}

/* Puts @text above or below @y_of (data, time), from the right to the left, where it is free. */
static void
put_name (Naming *naming, const char *name, double (*y_of) (const Naming *, guint, double),
          guint index)
{
  g_autoptr (PangoLayout) text
      = render_plot_text (naming->cr, name, naming->strip->font, TEXT_PX, FALSE);
  const RenderRect *plot = &naming->layout->plot;
  pango_layout_set_width (text, (int)(plot->width * 0.4) * PANGO_SCALE);
  pango_layout_set_ellipsize (text, PANGO_ELLIPSIZE_END);
  RenderRect rect = { 0, 0, 0, 0 };
  render_plot_text_size (text, &rect.width, &rect.height);
  for (rect.x = plot->x + plot->width - rect.width - 2 * GAP_PX; rect.x > plot->x;
       rect.x -= NAME_STEP_PX)
    {
      double time_s = render_strip_time (naming->layout, rect.x + rect.width / 2);
      double y = y_of (naming, index, time_s);
      if (isnan (y))
        continue;
      const double tops[] = { y - rect.height - GAP_PX, y + GAP_PX };
      for (guint side = 0; side < 2; side++)
        {
          rect.y = tops[side];
          if (!is_free (naming, &rect))
            continue;
          g_array_append_val (naming->taken, rect);
          render_plot_text_draw (naming->cr, text, rect.x, rect.y, ink_of (naming->strip, QUIET),
                                 &naming->paper);
          return;
        }
    }
}

static double
y_of_gauge (const Naming *naming, guint index, double time_s)
{
  const RenderStrip *strip = naming->strip;
  double value = render_strip_gauge_at (strip, index, time_s);
  return isnan (value)
             ? NAN
             : render_strip_axis_y (naming->layout, &strip->axes[strip->gauges[index].axis], value);
}

static double
y_of_limit (const Naming *naming, guint index, double time_s)
{
  const RenderStripLimit *limit = &naming->strip->limits[index];
  return render_strip_axis_y (naming->layout, &naming->strip->axes[limit->axis], limit->value);
}

void
render_strip_draw_gauge_names (cairo_t *cr, const RenderStrip *strip,
                               const RenderStripLayout *layout, const RenderRect *taken,
                               guint n_taken)
{
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (RenderRect));
  if (n_taken > 0)
    g_array_append_vals (all, taken, n_taken);
  RenderColour paper = strip->paper.a > 0 ? strip->paper : render_paper_colour (strip->dark);
  Naming naming = { cr, strip, layout, paper, all };
  for (guint i = 0; i < strip->n_gauges; i++)
    put_name (&naming, strip->gauges[i].name, y_of_gauge, i);
  for (guint i = 0; i < strip->n_limits; i++)
    put_name (&naming, strip->limits[i].text, y_of_limit, i);
}
