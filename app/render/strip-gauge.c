/* strip-gauge.c: heights, radii, angles and forces, each quantity in a band of its own below the
 * clearances: a heading that says what it is and which line is whose, a linear scale at the left,
 * and lines in ink, so that none is taken for a clearance. Lines of two hoists are told apart by
 * their dashes and their names, never by colour; limits are dotted, and what was found of a force,
 * which its line has no tolerances of, has dots between dashes.
 *
 * Texts of a heading that have no room are left out from its end; the pointer reads every line. */
#include <math.h>

#include "plot-text.h"
#include "strip-plot.h"

#define TEXT_PX 11
#define LINE 0.9
#define LIMIT 0.6
#define GRID 0.13
#define BORDER 0.24
#define SAMPLE_PX 22
#define GAP_PX 6
#define ITEM_GAP_PX 16
/* A name takes no more than this part of a heading. */
#define NAME_PART 0.3
#define TITLE_PART 0.5

static const struct
{
  double dashes[2];
  int n;
  double width_px;
} patterns[RENDER_GAUGE_PATTERNS] = { { { 0, 0 }, 0, 1.5 }, { { 6, 3 }, 2, 1.5 } };
static const double limit_dashes[] = { 1.5, 3 };
static const double found_dashes[] = { 8, 3, 1.5, 3 };

static RenderColour
ink_of (const RenderStrip *strip, double share)
{
  RenderColour ink = render_ink_colour (strip->dark);
  ink.a *= share;
  return ink;
}

static RenderColour
paper_of (const RenderStrip *strip)
{
  return strip->paper.a > 0 ? strip->paper : render_paper_colour (strip->dark);
}

/* ---- the scale and the borders of the moves ---- */

static void
draw_tick (cairo_t *cr, const RenderStrip *strip, const RenderStripLayout *layout, guint band,
           guint tick, GArray *taken)
{
  const RenderStripBand *b = &strip->bands[band];
  double y = render_strip_band_y (layout, strip, band, b->ticks[tick]), width, height;
  g_autoptr (PangoLayout) text = render_plot_text (cr, b->texts[tick], strip->font, TEXT_PX, FALSE);
  render_plot_text_size (text, &width, &height);
  RenderRect rect = { layout->plot.x - 8 - width, y - height / 2, width, height };
  for (guint i = 0; i < taken->len; i++)
    if (render_rects_overlap (&g_array_index (taken, RenderRect, i), &rect))
      return;
  g_array_append_val (taken, rect);
  render_plot_text_draw (cr, text, rect.x, rect.y, ink_of (strip, RENDER_PLOT_QUIET), NULL);
  render_plot_source (cr, render_ink_colour (strip->dark), tick == 0 ? BORDER : GRID);
  cairo_move_to (cr, layout->plot.x, floor (y) + 0.5);
  cairo_line_to (cr, layout->plot.x + layout->plot.width, floor (y) + 0.5);
  cairo_stroke (cr);
}

/* The ends first: the last has the unit; ticks between them where there is room. */
static void
draw_scale (cairo_t *cr, const RenderStrip *strip, const RenderStripLayout *layout, guint band)
{
  const RenderStripBand *b = &strip->bands[band];
  g_autoptr (GArray) taken = g_array_new (FALSE, FALSE, sizeof (RenderRect));
  cairo_set_line_width (cr, 1);
  if (b->n_ticks == 0)
    return;
  draw_tick (cr, strip, layout, band, b->n_ticks - 1, taken);
  for (guint k = 0; k + 1 < b->n_ticks; k++)
    draw_tick (cr, strip, layout, band, k, taken);
}

static void
draw_borders (cairo_t *cr, const RenderStrip *strip, const RenderStripLayout *layout, guint band)
{
  RenderRect rect = render_strip_band_rect (layout, band);
  cairo_set_line_width (cr, 1);
  render_plot_source (cr, render_ink_colour (strip->dark), BORDER);
  for (guint i = 1; i < strip->n_moves; i++)
    {
      double x = floor (render_strip_x (layout, strip->moves[i].begin_s)) + 0.5;
      cairo_move_to (cr, x, rect.y);
      cairo_line_to (cr, x, rect.y + rect.height);
    }
  cairo_stroke (cr);
}

/* In the place of lines, on one line. */
static void
draw_note (cairo_t *cr, const RenderStrip *strip, const RenderStripLayout *layout, guint band)
{
  RenderRect rect = render_strip_band_rect (layout, band);
  double width, height;
  g_autoptr (PangoLayout) text
      = render_plot_text (cr, strip->bands[band].note, strip->font, TEXT_PX, FALSE);
  pango_layout_set_width (text, (int)rect.width * PANGO_SCALE);
  pango_layout_set_ellipsize (text, PANGO_ELLIPSIZE_END);
  pango_layout_set_single_paragraph_mode (text, TRUE);
  render_plot_text_size (text, &width, &height);
  RenderColour paper = paper_of (strip);
  render_plot_text_draw (cr, text, rect.x + (rect.width - width) / 2,
                         rect.y + (rect.height - height) / 2, ink_of (strip, RENDER_PLOT_QUIET),
                         &paper);
}

/* ---- lines ---- */

static void
set_pattern (cairo_t *cr, const RenderStrip *strip, guint pattern)
{
  g_assert (pattern < RENDER_GAUGE_PATTERNS);
  cairo_set_dash (cr, patterns[pattern].dashes, patterns[pattern].n, 0);
  cairo_set_line_width (cr, patterns[pattern].width_px);
  render_plot_source (cr, render_ink_colour (strip->dark), LINE);
}

static void
set_limit (cairo_t *cr, const RenderStrip *strip, guint is_found)
{
  if (is_found)
    cairo_set_dash (cr, found_dashes, G_N_ELEMENTS (found_dashes), 0);
  else
    cairo_set_dash (cr, limit_dashes, G_N_ELEMENTS (limit_dashes), 0);
  cairo_set_line_width (cr, 1.5);
  render_plot_source (cr, render_ink_colour (strip->dark), LIMIT);
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
      double y = render_strip_band_y (layout, strip, gauge->band, value);
      if (is_down)
        cairo_line_to (cr, x, y);
      else
        cairo_move_to (cr, x, y);
      is_down = TRUE;
    }
  set_pattern (cr, strip, gauge->pattern);
  cairo_stroke (cr);
}

static void
draw_limit (cairo_t *cr, const RenderStrip *strip, const RenderStripLayout *layout,
            const RenderStripLimit *limit)
{
  RenderRect rect = render_strip_band_rect (layout, limit->band);
  double y = floor (render_strip_band_y (layout, strip, limit->band, limit->value)) + 0.5;
  cairo_move_to (cr, rect.x, y);
  cairo_line_to (cr, rect.x + rect.width, y);
  set_limit (cr, strip, limit->is_found);
  cairo_stroke (cr);
}

/* ---- headings ---- */

typedef struct
{
  cairo_t *cr;
  const RenderStrip *strip;
  double x, end; /* what is taken of the heading, and where it ends */
  double foot;   /* of its texts */
} Heading;

/* A sample of the line, unless @set is NULL, and its name, no wider than that part of the heading;
 * FALSE: there is no room. */
static gboolean
put (Heading *heading, const char *name, gboolean bold, double part,
     void (*set) (cairo_t *cr, const RenderStrip *strip, guint pattern), guint pattern)
{
  cairo_t *cr = heading->cr;
  double sample = set != NULL ? SAMPLE_PX + GAP_PX : 0, width, height;
  g_autoptr (PangoLayout) text = render_plot_text (cr, name, heading->strip->font, TEXT_PX, bold);
  pango_layout_set_width (text, (int)(heading->end * part) * PANGO_SCALE);
  pango_layout_set_ellipsize (text, PANGO_ELLIPSIZE_END);
  pango_layout_set_single_paragraph_mode (text, TRUE);
  render_plot_text_size (text, &width, &height);
  if (heading->x + sample + width > heading->end)
    return FALSE;
  if (set != NULL)
    {
      double y = floor (heading->foot - height / 2) + 0.5;
      cairo_move_to (cr, heading->x, y);
      cairo_line_to (cr, heading->x + SAMPLE_PX, y);
      set (cr, heading->strip, pattern);
      cairo_stroke (cr);
    }
  render_plot_text_draw (cr, text, heading->x + sample, heading->foot - height,
                         ink_of (heading->strip, bold ? 1 : RENDER_PLOT_QUIET), NULL);
  heading->x += sample + width + ITEM_GAP_PX;
  return TRUE;
}

static void
draw_heading (cairo_t *cr, const RenderStrip *strip, const RenderStripLayout *layout, guint band)
{
  RenderRect rect = render_strip_band_rect (layout, band);
  Heading heading = { cr, strip, rect.x, rect.x + rect.width, rect.y - 2 };
  put (&heading, strip->bands[band].title, TRUE, TITLE_PART, NULL, 0);
  /* Nothing may take the room of what was found: a line must not be read without it. */
  for (guint pass = 0; pass < 3; pass++)
    {
      for (guint i = 0; i < strip->n_limits && pass != 1; i++)
        if (strip->limits[i].band == band && strip->limits[i].is_found == (pass == 0)
            && !put (&heading, strip->limits[i].text, FALSE, pass == 0 ? 1 : NAME_PART, set_limit,
                     strip->limits[i].is_found))
          return;
      for (guint i = 0; i < strip->n_gauges && pass == 1; i++)
        if (strip->gauges[i].band == band
            && !put (&heading, strip->gauges[i].name, FALSE, NAME_PART, set_pattern,
                     strip->gauges[i].pattern))
          return;
    }
}

void
render_strip_draw_bands (cairo_t *cr, const RenderStrip *strip, const RenderStripLayout *layout)
{
  g_assert (strip->n_bands <= RENDER_STRIP_BANDS);
  cairo_save (cr);
  cairo_new_path (cr);
  for (guint i = 0; i < strip->n_bands; i++)
    {
      draw_scale (cr, strip, layout, i);
      draw_borders (cr, strip, layout, i);
      if (strip->bands[i].note != NULL)
        draw_note (cr, strip, layout, i);
    }
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  for (guint i = 0; i < strip->n_limits; i++)
    draw_limit (cr, strip, layout, &strip->limits[i]);
  for (guint i = 0; i < strip->n_gauges; i++)
    draw_gauge (cr, strip, layout, &strip->gauges[i]);
  for (guint i = 0; i < strip->n_bands; i++)
    draw_heading (cr, strip, layout, i);
  cairo_restore (cr);
}

/* ---- under the pointer ---- */

static void
draw_dot (cairo_t *cr, const RenderStrip *strip, double x, double y)
{
  cairo_set_dash (cr, NULL, 0, 0);
  cairo_arc (cr, x, y, 4.5, 0, 2 * G_PI);
  render_plot_source (cr, paper_of (strip), 1);
  cairo_fill (cr);
  cairo_arc (cr, x, y, 3, 0, 2 * G_PI);
  render_plot_source (cr, render_ink_colour (strip->dark), 1);
  cairo_fill (cr);
}

/* At the right of the hair, then at its left; a third text goes beyond the one at the right. */
static RenderRect
place_reading (const RenderRect *band, double x, double width, double height, guint n_before,
               const RenderRect *before)
{
  RenderRect rect = { x + 10, band->y + (band->height - height) / 2, width, height };
  if (n_before > 0 && before->x > x)
    rect.x = x - 10 - width;
  if (rect.x + width > band->x + band->width)
    rect.x = x - 10 - width;
  if (n_before > 0 && rect.x < x && before->x < x)
    rect.x = before->x - 10 - width;
  if (rect.x < band->x)
    rect.x = n_before > 0 ? before->x + before->width + 10 : x + 10;
  return rect;
}

void
render_strip_draw_band_readings (cairo_t *cr, const RenderStrip *strip,
                                 const RenderStripLayout *layout, double time_s,
                                 const char *const *readings)
{
  double x = floor (render_strip_x (layout, time_s)) + 0.5;
  RenderColour paper = paper_of (strip);
  guint n_before = 0, band = G_MAXUINT;
  RenderRect before = { 0, 0, 0, 0 };
  for (guint i = 0; i < strip->n_gauges; i++)
    {
      const RenderStripGauge *gauge = &strip->gauges[i];
      RenderRect place = render_strip_band_rect (layout, gauge->band);
      double value = render_strip_gauge_at (strip, i, time_s), width, height;
      n_before = gauge->band == band ? n_before : 0;
      band = gauge->band;
      if (isnan (value))
        continue;
      draw_dot (cr, strip, x, render_strip_band_y (layout, strip, gauge->band, value));
      g_autoptr (PangoLayout) text
          = render_plot_text (cr, readings[i], strip->font, TEXT_PX, FALSE);
      render_plot_text_size (text, &width, &height);
      before = place_reading (&place, x, width, height, n_before, &before);
      n_before++;
      render_plot_text_draw (cr, text, before.x, before.y, ink_of (strip, 1), &paper);
    }
}
