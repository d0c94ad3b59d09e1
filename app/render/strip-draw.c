/* strip-draw.c: the clearance strip by Cairo: from the back to the front, scale, moves, grey lines,
 * certified bands, where it falls short, lines that matter, marks, names. */
#include <math.h>

#include "overlay.h"
#include "plot-text.h"
#include "strip-plot.h"

#define TEXT_PX 11
#define GRID 0.13
#define BORDER 0.38
#define MARK_PX 5
#define ALONE_PX 1.5   /* to either side of a sample that has no neighbour */
#define NOT_KNOWN 0.13 /* of the ink, once, however many lines are not known there */

typedef struct
{
  cairo_t *cr;
  const RenderStrip *strip;
  RenderStripLayout layout;
  RenderColour ink, paper;
} Drawing;

static Drawing
drawing_make (cairo_t *cr, const RenderStrip *strip, RenderSize size)
{
  return (Drawing){ cr, strip, render_strip_layout (strip, size), render_ink_colour (strip->dark),
                    strip->paper.a > 0 ? strip->paper : render_paper_colour (strip->dark) };
}

static PangoLayout *
text_new (const Drawing *d, const char *text, gboolean bold)
{
  return render_plot_text (d->cr, text, d->strip->font, TEXT_PX, bold);
}

static RenderColour
quiet (const Drawing *d)
{
  RenderColour colour = d->ink;
  colour.a *= RENDER_PLOT_QUIET;
  return colour;
}

/* Sharp: on the middle of a pixel. */
static void
level_line (const Drawing *d, double y)
{
  cairo_move_to (d->cr, d->layout.plot.x, floor (y) + 0.5);
  cairo_line_to (d->cr, d->layout.plot.x + d->layout.plot.width, floor (y) + 0.5);
}

static void
upright_line (const Drawing *d, double x, double from)
{
  cairo_move_to (d->cr, floor (x) + 0.5, from);
  cairo_line_to (d->cr, floor (x) + 0.5, d->layout.plot.y + d->layout.plot.height);
}

static void
draw_scale (const Drawing *d)
{
  double text_above = INFINITY;
  cairo_set_line_width (d->cr, 1);
  for (guint i = 0; i < d->strip->n_ticks; i++)
    {
      double y = render_strip_y (&d->layout, d->strip->ticks_m[i]), width, height;
      render_plot_source (d->cr, d->ink, i == 0 ? BORDER : GRID);
      level_line (d, y);
      cairo_stroke (d->cr);
      g_autoptr (PangoLayout) text = text_new (d, d->strip->ticks[i], FALSE);
      render_plot_text_size (text, &width, &height);
      /* On a low strip there is no room for every number. */
      if (y + height / 2 > text_above)
        continue;
      text_above = y - height / 2 + 2;
      render_plot_text_draw (d->cr, text, d->layout.plot.x - 8 - width, y - height / 2, quiet (d),
                             NULL);
    }
}

static void
draw_flag (const Drawing *d, double x)
{
  double y = d->layout.plot.y - 13;
  cairo_rectangle (d->cr, x, y, 1.4, 13);
  cairo_move_to (d->cr, x + 1.4, y);
  cairo_line_to (d->cr, x + 9, y + 3.5);
  cairo_line_to (d->cr, x + 1.4, y + 7);
  cairo_close_path (d->cr);
  render_plot_source (d->cr, d->ink, 0.85);
  cairo_fill (d->cr);
}

/* The name under a move; where there is no room its number alone, or nothing. */
static void
draw_move_name (const Drawing *d, const RenderStripMove *move, double x0, double x1)
{
  g_auto (GStrv) words = g_strsplit (move->name, " ", 2);
  const char *tries[] = { move->name, words[0] };
  for (guint i = 0; i < 2 && tries[i] != NULL; i++)
    {
      double width, height;
      g_autoptr (PangoLayout) text = text_new (d, tries[i], FALSE);
      render_plot_text_size (text, &width, &height);
      if (width + 4 > x1 - x0)
        continue;
      render_plot_text_draw (d->cr, text, floor ((x0 + x1 - width) / 2),
                             d->layout.plot.y + d->layout.plot.height + 6, quiet (d), NULL);
      return;
    }
}

static void
draw_moves (const Drawing *d)
{
  for (guint i = 0; i < d->strip->n_moves; i++)
    {
      const RenderStripMove *move = &d->strip->moves[i];
      double x0 = render_strip_x (&d->layout, move->begin_s);
      double x1 = render_strip_x (&d->layout, move->end_s);
      if (i > 0)
        {
          cairo_set_line_width (d->cr, 1);
          render_plot_source (d->cr, d->ink, BORDER);
          upright_line (d, x0, d->layout.plot.y - (move->hold ? 12 : 0));
          cairo_stroke (d->cr);
        }
      if (move->hold)
        draw_flag (d, floor (x0));
      draw_move_name (d, move, x0, x1);
    }
}

static double
sample_m (const RenderStrip *strip, const RenderStripLine *line, guint i)
{
  return line->distances_m[(gsize)i * line->stride];
}

/* Whether neither of the samples beside it has a distance. */
static gboolean
is_alone (const RenderStrip *strip, const RenderStripLine *line, guint i)
{
  return (i == 0 || isnan (sample_m (strip, line, i - 1)))
         && (i + 1 == strip->n_times || isnan (sample_m (strip, line, i + 1)));
}

/* The line as a path; of samples that share a pixel only the lowest. Where there is no distance, as
 * while gear is connected or has no place, there is no line. */
static void
trace (const Drawing *d, const RenderStripLine *line, double every_px)
{
  const RenderStrip *strip = d->strip;
  double last_x = -INFINITY, x = 0, lowest = 0;
  gboolean waiting = FALSE;
  for (guint i = 0; i < strip->n_times; i++)
    {
      const double distance_m = sample_m (strip, line, i);
      if (isnan (distance_m))
        {
          if (waiting)
            cairo_line_to (d->cr, x, lowest);
          waiting = FALSE;
          last_x = -INFINITY;
          cairo_new_sub_path (d->cr);
          continue;
        }
      x = render_strip_x (&d->layout, strip->times_s[i]);
      double y = render_strip_y (&d->layout, distance_m);
      if (is_alone (strip, line, i))
        {
          cairo_move_to (d->cr, x - ALONE_PX, y);
          cairo_line_to (d->cr, x + ALONE_PX, y);
          continue;
        }
      lowest = waiting ? fmax (lowest, y) : y;
      waiting = x - last_x < every_px && i + 1 < strip->n_times;
      if (waiting)
        continue;
      cairo_line_to (d->cr, x, lowest);
      last_x = x;
    }
}

static void
draw_grey_lines (const Drawing *d)
{
  cairo_save (d->cr);
  /* There may be many: they are not worth the finest drawing. */
  cairo_set_antialias (d->cr, CAIRO_ANTIALIAS_FAST);
  cairo_set_line_join (d->cr, CAIRO_LINE_JOIN_BEVEL);
  cairo_set_line_width (d->cr, 1);
  for (guint i = 0; i < d->strip->n_lines; i++)
    {
      if (d->strip->lines[i].matters)
        continue;
      render_plot_source (d->cr, d->ink, 0.28);
      trace (d, &d->strip->lines[i], 4);
      cairo_stroke (d->cr);
    }
  cairo_restore (d->cr);
}

/* Nothing is proven of it. */
static gboolean
is_open (const RenderStripBound *bound)
{
  return bound->state == RENDER_STATE_NOT_CHECKED && !isfinite (bound->upper_m);
}

/* Where something is not known there is all the height to be in: a wash, which is no darker where
 * many are not. */
static void
draw_open (const Drawing *d)
{
  const RenderRect *plot = &d->layout.plot;
  cairo_new_path (d->cr);
  for (guint i = 0; i < d->strip->n_bounds; i++)
    {
      const RenderStripBound *bound = &d->strip->bounds[i];
      if (!is_open (bound) || !d->strip->lines[bound->line].matters)
        continue;
      const double x0 = render_strip_x (&d->layout, bound->begin_s);
      cairo_rectangle (d->cr, x0, plot->y, render_strip_x (&d->layout, bound->end_s) - x0,
                       plot->height);
    }
  render_plot_source (d->cr, d->ink, NOT_KNOWN);
  cairo_fill (d->cr);
}

static void
draw_bands (const Drawing *d)
{
  for (guint i = 0; i < d->strip->n_bounds; i++)
    {
      const RenderStripBound *bound = &d->strip->bounds[i];
      if (!isfinite (bound->lower_m) || is_open (bound) || !d->strip->lines[bound->line].matters)
        continue;
      double x0 = render_strip_x (&d->layout, bound->begin_s);
      double x1 = render_strip_x (&d->layout, bound->end_s);
      double upper_m = isfinite (bound->upper_m) ? bound->upper_m : d->layout.top_m;
      double top = render_strip_y (&d->layout, upper_m);
      double foot = render_strip_y (&d->layout, bound->lower_m);
      /* Never so thin that it cannot be seen. */
      double height = fmax (foot - top, 2.5);
      cairo_rectangle (d->cr, x0, foot - height, x1 - x0, height);
      render_plot_source (d->cr, render_state_text_colour (bound->state, d->strip->dark), 0.3);
      cairo_fill (d->cr);
    }
}

static gboolean
is_seated (const RenderStrip *strip, guint line, double time_s)
{
  for (guint i = 0; i < strip->n_seats; i++)
    if (strip->seats[i].line == line && time_s >= strip->seats[i].begin_s
        && time_s <= strip->seats[i].end_s)
      return TRUE;
  return FALSE;
}

/* A piece of a line between two samples. Beside one that has no distance it goes half the way to
 * it, as far as the other. FALSE: neither has one. */
static gboolean
piece_of (const RenderStrip *strip, const RenderStripLine *line, guint i, double times_s[2],
          double distances_m[2], double kept_m[2])
{
  for (guint k = 0; k < 2; k++)
    {
      times_s[k] = strip->times_s[i + k];
      distances_m[k] = sample_m (strip, line, i + k);
      kept_m[k] = line->spares_m != NULL
                      ? distances_m[k] - line->spares_m[(gsize)(i + k) * line->stride]
                      : line->required_m;
    }
  if (isnan (distances_m[0]) && isnan (distances_m[1]))
    return FALSE;
  for (guint k = 0; k < 2; k++)
    if (isnan (distances_m[k]))
      {
        times_s[k] = (times_s[0] + times_s[1]) / 2;
        distances_m[k] = distances_m[1 - k];
        kept_m[k] = kept_m[1 - k];
      }
  return TRUE;
}

/* What is below what is to be kept, of a piece, which ends where they cross. */
static void
add_shortfall (const Drawing *d, const double times_s[2], const double m[2], const double kept_m[2])
{
  double x[2], y[2], kept[2];
  for (guint k = 0; k < 2; k++)
    {
      x[k] = render_strip_x (&d->layout, times_s[k]);
      y[k] = render_strip_y (&d->layout, m[k]);
      kept[k] = render_strip_y (&d->layout, kept_m[k]);
    }
  if (!(y[0] > kept[0]) && !(y[1] > kept[1]))
    return;
  const double part = (kept[0] - y[0]) / (kept[0] - y[0] - kept[1] + y[1]);
  for (guint k = 0; k < 2; k++)
    if (y[k] < kept[k])
      {
        x[k] = x[0] + (x[1] - x[0]) * part;
        y[k] = kept[k] = kept[0] + (kept[1] - kept[0]) * part;
      }
  cairo_move_to (d->cr, x[0], kept[0]);
  cairo_line_to (d->cr, x[0], y[0]);
  cairo_line_to (d->cr, x[1], y[1]);
  cairo_line_to (d->cr, x[1], kept[1]);
  cairo_close_path (d->cr);
}

/* Hatches between the line and what is to be kept with what is taken off, piece by piece of the
 * samples; not where all moves are known to meet it: it rests there, or is connected; nor before it
 * is checked, as it may rest there; nor where gear has no place, which is not known to be short. */
static void
draw_shortfall (const Drawing *d, guint index)
{
  const RenderStrip *strip = d->strip;
  const RenderStripLine *line = &strip->lines[index];
  if (!line->is_judged || line->state == RENDER_STATE_CLEAR || line->state == RENDER_STATE_TIGHT)
    return;
  cairo_new_path (d->cr);
  for (guint i = 0; i + 1 < strip->n_times; i++)
    {
      double times_s[2], m[2], kept_m[2];
      if (!is_seated (strip, index, strip->times_s[i])
          && !is_seated (strip, index, strip->times_s[i + 1])
          && piece_of (strip, line, i, times_s, m, kept_m))
        add_shortfall (d, times_s, m, kept_m);
    }
  if (cairo_has_current_point (d->cr))
    render_state_fill (d->cr, RENDER_STATE_SHORT, strip->dark);
}

/* Whether an earlier line that matters has the same value to be kept. */
static gboolean
is_repeated (const RenderStrip *strip, guint index)
{
  for (guint i = 0; i < strip->n_lines; i++)
    if (i != index && strip->lines[i].matters
        && strip->lines[i].required_m == strip->lines[index].required_m
        && (strip->lines[i].focus || (i < index && !strip->lines[index].focus)))
      return TRUE;
  return FALSE;
}

static void
draw_required (const Drawing *d)
{
  static const double dashes[] = { 7, 4 };
  cairo_save (d->cr);
  cairo_set_dash (d->cr, dashes, 2, 0);
  for (guint i = 0; i < d->strip->n_lines; i++)
    {
      const RenderStripLine *line = &d->strip->lines[i];
      if (!line->matters || is_repeated (d->strip, i))
        continue;
      cairo_set_line_width (d->cr, line->focus ? 1.5 : 1);
      render_plot_source (d->cr, d->ink, line->focus ? 0.95 : 0.55);
      level_line (d, render_strip_y (&d->layout, line->required_m));
      cairo_stroke (d->cr);
    }
  cairo_restore (d->cr);
}

static void
draw_line (const Drawing *d, guint index)
{
  const RenderStripLine *line = &d->strip->lines[index];
  cairo_save (d->cr);
  cairo_set_line_join (d->cr, CAIRO_LINE_JOIN_ROUND);
  trace (d, line, 1.5);
  cairo_path_t *path = cairo_copy_path (d->cr);
  render_state_stroke (d->cr, line->state, d->strip->dark);
  double width = cairo_get_line_width (d->cr) * (line->focus ? 1.1 : 0.65);
  /* Yellow on white needs its casing. */
  if (line->state == RENDER_STATE_TIGHT)
    {
      render_plot_source (d->cr, render_state_casing_colour (line->state, d->strip->dark), 1);
      cairo_set_line_width (d->cr, width + 1.2);
      cairo_stroke (d->cr);
      cairo_append_path (d->cr, path);
      render_state_stroke (d->cr, line->state, d->strip->dark);
    }
  cairo_set_line_width (d->cr, width);
  cairo_stroke (d->cr);
  cairo_path_destroy (path);
  cairo_restore (d->cr);
}

/* Lines that matter, the one looked at last. */
static void
draw_lines (const Drawing *d)
{
  for (guint focus = 0; focus < 2; focus++)
    for (guint i = 0; i < d->strip->n_lines; i++)
      if (d->strip->lines[i].matters && d->strip->lines[i].focus == (gboolean)focus)
        {
          draw_shortfall (d, i);
          draw_line (d, i);
        }
}

static void
draw_marks (const Drawing *d)
{
  for (guint i = 0; i < d->strip->n_bounds; i++)
    {
      const RenderStripBound *bound = &d->strip->bounds[i];
      if (isfinite (bound->time_s) && isfinite (bound->lower_m)
          && d->strip->lines[bound->line].matters)
        render_mark_draw (d->cr, bound->state, render_strip_x (&d->layout, bound->time_s),
                          render_strip_y (&d->layout, bound->lower_m), MARK_PX, d->strip->dark);
    }
}

/* Where the word of a seat stands; FALSE where there is no room for it. */
static gboolean
place_seat_text (const Drawing *d, const RenderStripSeat *seat, PangoLayout *text, RenderRect *rect)
{
  double x0 = render_strip_x (&d->layout, seat->begin_s), width, height;
  render_plot_text_size (text, &width, &height);
  *rect = (RenderRect){ x0 + 4, d->layout.plot.y + d->layout.plot.height - 5 - height, width,
                        height };
  return width + 8 <= render_strip_x (&d->layout, seat->end_s) - x0;
}

/* A bar with two ends at the foot: it rests there, and what is to be kept does not count. */
static void
draw_seats (const Drawing *d)
{
  double foot = d->layout.plot.y + d->layout.plot.height;
  for (guint i = 0; i < d->strip->n_seats; i++)
    {
      const RenderStripSeat *seat = &d->strip->seats[i];
      double x0 = render_strip_x (&d->layout, seat->begin_s);
      double x1 = fmax (render_strip_x (&d->layout, seat->end_s), x0 + 3);
      render_plot_source (d->cr, d->ink, 0.85);
      cairo_rectangle (d->cr, x0, foot - 4, x1 - x0, 4);
      cairo_rectangle (d->cr, x0, foot - 9, 1.5, 9);
      cairo_rectangle (d->cr, x1 - 1.5, foot - 9, 1.5, 9);
      cairo_fill (d->cr);
      g_autoptr (PangoLayout) text = text_new (d, d->strip->seated_text, FALSE);
      RenderRect rect;
      if (place_seat_text (d, seat, text, &rect))
        render_plot_text_draw (d->cr, text, rect.x, rect.y, quiet (d), &d->paper);
    }
}

/* In the middle of where nothing is known, which would look like nothing to be looked at. FALSE
 * where there is no room for it. */
static gboolean
place_unknown_text (const Drawing *d, const RenderStripUnknown *unknown, PangoLayout *text,
                    RenderRect *rect)
{
  const double x0 = render_strip_x (&d->layout, unknown->begin_s);
  const double x1 = render_strip_x (&d->layout, unknown->end_s);
  double width, height;
  render_plot_text_size (text, &width, &height);
  *rect = (RenderRect){ floor ((x0 + x1 - width) / 2),
                        floor (d->layout.plot.y + (d->layout.plot.height - height) / 2), width,
                        height };
  return width + 8 <= x1 - x0;
}

static void
draw_unknown (const Drawing *d)
{
  for (guint i = 0; i < d->strip->n_unknown; i++)
    {
      g_autoptr (PangoLayout) text = text_new (d, d->strip->unknown_text, TRUE);
      RenderRect rect;
      if (place_unknown_text (d, &d->strip->unknown[i], text, &rect))
        render_plot_text_draw (d->cr, text, rect.x, rect.y, quiet (d), &d->paper);
    }
}

static void
add_unknown_labels (const Drawing *d, GArray *labels, GPtrArray *texts)
{
  for (guint i = 0; i < d->strip->n_unknown; i++)
    {
      PangoLayout *text = text_new (d, d->strip->unknown_text, TRUE);
      RenderStripLabel label = { .required = TRUE, .is_fixed = TRUE };
      if (!place_unknown_text (d, &d->strip->unknown[i], text, &label.rect))
        {
          g_object_unref (text);
          continue;
        }
      g_array_append_val (labels, label);
      g_ptr_array_add (texts, text);
    }
}

/* What draw_seats has drawn: no label stands over it. */
static void
add_seat_labels (const Drawing *d, GArray *labels, GPtrArray *texts)
{
  for (guint i = 0; i < d->strip->n_seats; i++)
    {
      const RenderStripSeat *seat = &d->strip->seats[i];
      PangoLayout *text = text_new (d, d->strip->seated_text, FALSE);
      RenderStripLabel label = { .line = seat->line, .required = TRUE, .is_fixed = TRUE };
      if (!place_seat_text (d, seat, text, &label.rect))
        {
          g_object_unref (text);
          continue;
        }
      g_array_append_val (labels, label);
      g_ptr_array_add (texts, text);
    }
}

static void
add_label (const Drawing *d, GArray *labels, GPtrArray *texts, guint line, gboolean required)
{
  const RenderStripLine *l = &d->strip->lines[line];
  PangoLayout *text = text_new (d, required ? l->required_text : l->name, l->focus && !required);
  if (!required)
    {
      pango_layout_set_width (text, (int)(d->layout.plot.width * 0.36) * PANGO_SCALE);
      /* Which part it is stands at the end. */
      pango_layout_set_ellipsize (text, PANGO_ELLIPSIZE_MIDDLE);
      pango_layout_set_single_paragraph_mode (text, TRUE);
    }
  RenderStripLabel label = { .line = line, .required = required };
  render_plot_text_size (text, &label.width, &label.height);
  g_array_append_val (labels, label);
  g_ptr_array_add (texts, text);
}

/* From the nearer edge of the label, dotted and with a dot at its end: no line of the strip. */
static void
draw_leader (const Drawing *d, const RenderStripLabel *label, RenderColour colour)
{
  static const double dots[] = { 1, 2 };
  const RenderRect *rect = &label->rect;
  gboolean is_below = label->on_y > rect->y + rect->height / 2;
  double x = floor (label->on_x) + 0.5;
  cairo_save (d->cr);
  cairo_set_line_width (d->cr, 1);
  cairo_set_dash (d->cr, dots, G_N_ELEMENTS (dots), 0);
  render_plot_source (d->cr, colour, 1);
  cairo_move_to (d->cr, x, is_below ? rect->y + rect->height : rect->y);
  cairo_line_to (d->cr, x, label->on_y);
  cairo_stroke (d->cr);
  cairo_arc (d->cr, x, label->on_y, 2, 0, 2 * G_PI);
  cairo_fill (d->cr);
  cairo_restore (d->cr);
}

/* At the right, where samples come last. */
static void
draw_unfinished (const Drawing *d)
{
  const RenderRect *plot = &d->layout.plot;
  if (d->strip->unfinished == NULL)
    return;
  double width, height;
  g_autoptr (PangoLayout) text = text_new (d, d->strip->unfinished, TRUE);
  render_plot_text_size (text, &width, &height);
  render_plot_text_draw (d->cr, text, fmax (plot->x + plot->width - width - 6, plot->x),
                         plot->y + (plot->height - height) / 2, quiet (d), &d->paper);
}

static void
draw_labels (const Drawing *d)
{
  const RenderStrip *strip = d->strip;
  g_autoptr (GArray) labels = g_array_new (FALSE, FALSE, sizeof (RenderStripLabel));
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_object_unref);
  add_seat_labels (d, labels, texts);
  add_unknown_labels (d, labels, texts);
  for (guint focus = 2; focus-- > 0;)
    for (guint i = 0; i < strip->n_lines; i++)
      if (strip->lines[i].matters && strip->lines[i].focus == (gboolean)focus)
        {
          if (!is_repeated (strip, i))
            add_label (d, labels, texts, i, TRUE);
          add_label (d, labels, texts, i, FALSE);
        }
  RenderStripLabel *list = (RenderStripLabel *)(gpointer)labels->data;
  render_strip_place (strip, &d->layout, list, labels->len);
  for (guint i = 0; i < labels->len; i++)
    {
      RenderColour colour
          = list[i].required
                ? quiet (d)
                : render_state_text_colour (strip->lines[list[i].line].state, strip->dark);
      if (!list[i].placed || list[i].is_fixed)
        continue;
      if (list[i].has_leader)
        draw_leader (d, &list[i], colour);
      render_plot_text_draw (d->cr, texts->pdata[i], list[i].rect.x, list[i].rect.y, colour,
                             &d->paper);
    }
}

void
render_strip_draw (cairo_t *cr, const RenderStrip *strip, RenderSize size)
{
  Drawing d = drawing_make (cr, strip, size);
  cairo_save (cr);
  cairo_new_path (cr);
  draw_scale (&d);
  draw_moves (&d);
  draw_open (&d);
  draw_grey_lines (&d);
  draw_bands (&d);
  draw_required (&d);
  render_strip_draw_bands (cr, strip, &d.layout);
  draw_lines (&d);
  draw_seats (&d);
  draw_unknown (&d);
  draw_marks (&d);
  draw_labels (&d);
  draw_unfinished (&d);
  cairo_restore (cr);
}

void
render_strip_draw_moment (cairo_t *cr, const RenderStrip *strip, RenderSize size, double time_s)
{
  Drawing d = drawing_make (cr, strip, size);
  double x = floor (render_strip_x (&d.layout, time_s)) + 0.5, y = d.layout.plot.y;
  cairo_save (cr);
  cairo_new_path (cr);
  render_plot_source (cr, strip->accent, 1);
  cairo_set_line_width (cr, 2);
  cairo_move_to (cr, x, y - 4);
  cairo_line_to (cr, x, d.layout.foot + 3);
  cairo_stroke (cr);
  cairo_move_to (cr, x - 6, y - 12);
  cairo_line_to (cr, x + 6, y - 12);
  cairo_line_to (cr, x, y - 2);
  cairo_close_path (cr);
  cairo_fill (cr);
  cairo_restore (cr);
}

static void
draw_reading (const Drawing *d, const char *reading, double x)
{
  const RenderRect *plot = &d->layout.plot;
  RenderColour plate = render_plate_colour (d->strip->dark);
  double width, height;
  g_autoptr (PangoLayout) text = text_new (d, reading, FALSE);
  render_plot_text_size (text, &width, &height);
  double w = width + 16, h = height + 8, r = 5;
  double px = x + 10 + w <= plot->x + plot->width ? x + 10 : x - 10 - w;
  px = floor (fmax (px, 2));
  double py = plot->y + 4;
  cairo_arc (d->cr, px + r, py + r, r, G_PI, 1.5 * G_PI);
  cairo_arc (d->cr, px + w - r, py + r, r, 1.5 * G_PI, 2 * G_PI);
  cairo_arc (d->cr, px + w - r, py + h - r, r, 0, 0.5 * G_PI);
  cairo_arc (d->cr, px + r, py + h - r, r, 0.5 * G_PI, G_PI);
  cairo_close_path (d->cr);
  render_plot_source (d->cr, plate, 0.95);
  cairo_fill (d->cr);
  render_plot_text_draw (d->cr, text, px + 8, py + 4,
                         render_plate_text_colour (RENDER_STATE_NONE, d->strip->dark), NULL);
}

void
render_strip_draw_hover (cairo_t *cr, const RenderStrip *strip, RenderSize size, double time_s,
                         int line, const char *text, const char *const *readings)
{
  static const double dashes[] = { 2, 2 };
  Drawing d = drawing_make (cr, strip, size);
  double x = floor (render_strip_x (&d.layout, time_s)) + 0.5;
  cairo_save (cr);
  cairo_new_path (cr);
  render_plot_source (cr, d.ink, 0.7);
  cairo_set_line_width (cr, 1);
  cairo_set_dash (cr, dashes, 2, 0);
  cairo_move_to (cr, x, d.layout.plot.y);
  cairo_line_to (cr, x, d.layout.foot);
  cairo_stroke (cr);
  double distance_m = line >= 0 ? render_strip_line_at (strip, (guint)line, time_s) : NAN;
  if (!isnan (distance_m))
    {
      double y = render_strip_y (&d.layout, distance_m);
      cairo_arc (cr, x, y, 5, 0, 2 * G_PI);
      render_plot_source (cr, d.paper, 1);
      cairo_fill (cr);
      cairo_arc (cr, x, y, 3.5, 0, 2 * G_PI);
      render_plot_source (cr, d.ink, 1);
      cairo_fill (cr);
    }
  cairo_set_dash (cr, NULL, 0, 0);
  draw_reading (&d, text, x);
  render_strip_draw_band_readings (cr, strip, &d.layout, time_s, readings);
  cairo_restore (cr);
}
