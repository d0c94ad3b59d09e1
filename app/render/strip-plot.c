/* strip-plot.c: where things of the clearance strip are: scale, layout, hit test, labels.
 *
 * A label is tried at many places along its line, above and below; the place that covers the least
 * of other lines and lies nearest to where its line is closest wins. */
#include "strip-plot.h"

#include "plot-text.h"

#include <math.h>

#define MARGIN_LEFT 54
#define MARGIN_RIGHT 14
#define MARGIN_TOP 20
#define MARGIN_BOTTOM 24
/* A band: its heading, its lines, and a gap below. */
#define BAND_HEADING_PX 17
#define BAND_GAP_PX 7
#define MOST_BAND_PX 72
#define STEEPNESS 40 /* 1/m: even below about 25 mm, logarithmic above */

#define HIT_PX 14
#define GREY_PENALTY_PX 6 /* a line that matters is hit although a grey one is that much nearer */

/* Heights of lines are looked up in columns so far apart; places are tried every third. */
#define COLUMN_PX 4
#define TRY_EVERY 3
#define ASIDE_EVERY_PX 6
#define SEAT_PX 20
#define LABEL_GAP_PX 3
#define BETWEEN_NAMES_PX 6
#define MARK_PX 6
#define MARK_COVERS 4
/* In quarters of a pixel of way that a label goes to avoid it: */
#define COST_STEEP 6     /* a pixel more between the label and the far end of its line */
#define COST_CROSSING 45 /* a sample of a line under it */

double
render_strip_scale (double distance_m)
{
  return log1p (STEEPNESS * fmax (distance_m, 0));
}

RenderStripLayout
render_strip_layout (const RenderStrip *strip, RenderSize size)
{
  g_assert (strip->n_ticks >= 2 && strip->duration_s > 0);
  double spare_px = size.height - RENDER_STRIP_LEAST_PX;
  double band_px = strip->n_bands > 0
                       ? CLAMP (spare_px / (strip->n_bands + 1), RENDER_STRIP_BAND_PX, MOST_BAND_PX)
                       : 0;
  double below_px = MARGIN_BOTTOM + strip->n_bands * band_px;
  RenderStripLayout layout
      = { { MARGIN_LEFT, MARGIN_TOP, fmax (size.width - MARGIN_LEFT - MARGIN_RIGHT, 1),
            fmax (size.height - MARGIN_TOP - below_px, 1) },
          strip->duration_s,
          strip->ticks_m[strip->n_ticks - 1],
          band_px,
          0 };
  double foot = layout.plot.y + layout.plot.height;
  layout.foot = strip->n_bands > 0 ? foot + below_px - BAND_GAP_PX : foot;
  return layout;
}

double
render_strip_x (const RenderStripLayout *layout, double time_s)
{
  return layout->plot.x + layout->plot.width * time_s / layout->duration_s;
}

double
render_strip_time (const RenderStripLayout *layout, double x)
{
  double part = (x - layout->plot.x) / layout->plot.width;
  return CLAMP (part, 0, 1) * layout->duration_s;
}

double
render_strip_y (const RenderStripLayout *layout, double distance_m)
{
  double part = render_strip_scale (distance_m) / render_strip_scale (layout->top_m);
  return layout->plot.y + layout->plot.height * (1 - fmin (part, 1));
}

double
render_strip_distance (const RenderStripLayout *layout, double y)
{
  double part = 1 - (y - layout->plot.y) / layout->plot.height;
  return expm1 (CLAMP (part, 0, 1) * render_strip_scale (layout->top_m)) / STEEPNESS;
}

/* Between the samples of a column. */
static double
sample_at (const RenderStrip *strip, const double *values, guint stride, double time_s)
{
  guint n = strip->n_times;
  if (n == 0 || !(time_s >= strip->times_s[0]) || time_s > strip->times_s[n - 1])
    return NAN;
  guint low = 0, high = n - 1;
  while (high - low > 1)
    {
      guint middle = low + (high - low) / 2;
      if (strip->times_s[middle] <= time_s)
        low = middle;
      else
        high = middle;
    }
  double a = values[(gsize)low * stride], b = values[(gsize)high * stride];
  double span_s = strip->times_s[high] - strip->times_s[low];
  /* What stands alone beside what has no distance is there at its own time. */
  if (time_s == strip->times_s[low])
    return a;
  if (time_s == strip->times_s[high])
    return b;
  if (!(span_s > 0))
    return b;
  const double part = (time_s - strip->times_s[low]) / span_s;
  if (isnan (a) || isnan (b))
    return part < 0.5 ? a : part > 0.5 ? b : isnan (a) ? b : a;
  return a + (b - a) * part;
}

double
render_strip_line_at (const RenderStrip *strip, guint line, double time_s)
{
  const RenderStripLine *l = &strip->lines[line];
  return sample_at (strip, l->distances_m, l->stride, time_s);
}

double
render_strip_allowance_at (const RenderStrip *strip, guint line, double time_s)
{
  const RenderStripLine *l = &strip->lines[line];
  if (l->spares_m == NULL)
    return 0;
  const double spare_m = sample_at (strip, l->spares_m, l->stride, time_s);
  const double allowance_m = render_strip_line_at (strip, line, time_s) - l->required_m - spare_m;
  return isnan (allowance_m) ? 0 : fmax (allowance_m, 0);
}

double
render_strip_gauge_at (const RenderStrip *strip, guint gauge, double time_s)
{
  const RenderStripGauge *g = &strip->gauges[gauge];
  return sample_at (strip, g->values, g->stride, time_s);
}

RenderRect
render_strip_band_rect (const RenderStripLayout *layout, guint band)
{
  double top = layout->plot.y + layout->plot.height + MARGIN_BOTTOM + band * layout->band_px;
  return (RenderRect){ layout->plot.x, top + BAND_HEADING_PX, layout->plot.width,
                       layout->band_px - BAND_HEADING_PX - BAND_GAP_PX };
}

double
render_strip_band_y (const RenderStripLayout *layout, const RenderStrip *strip, guint band,
                     double value)
{
  const RenderStripBand *b = &strip->bands[band];
  RenderRect rect = render_strip_band_rect (layout, band);
  double lo = b->ticks[0], hi = b->ticks[b->n_ticks - 1];
  double part = CLAMP ((value - lo) / (hi - lo), 0, 1);
  return rect.y + rect.height * (1 - part);
}

int
render_strip_hit (const RenderStrip *strip, const RenderStripLayout *layout, double x, double y)
{
  int best = -1;
  double least = HIT_PX;
  double time_s = render_strip_time (layout, x);
  for (guint i = 0; i < strip->n_lines; i++)
    {
      double distance_m = render_strip_line_at (strip, i, time_s);
      if (isnan (distance_m))
        continue;
      double away = fabs (render_strip_y (layout, distance_m) - y);
      if (!strip->lines[i].matters)
        away += GREY_PENALTY_PX;
      if (away < least)
        {
          least = away;
          best = (int)i;
        }
    }
  return best;
}

/* ---- labels ---- */

typedef struct
{
  const RenderStrip *strip;
  const RenderStripLayout *layout;
  guint n_columns;
  double *heights; /* [line * n_columns + column]; NAN where nothing is worked out */
} Placing;

static double
column_x (const RenderStripLayout *layout, guint column)
{
  return layout->plot.x + COLUMN_PX + column * COLUMN_PX;
}

static Placing
placing_make (const RenderStrip *strip, const RenderStripLayout *layout)
{
  Placing placing = { strip, layout, (guint)(layout->plot.width / COLUMN_PX), NULL };
  placing.heights = g_new (double, (gsize)placing.n_columns * strip->n_lines + 1);
  for (guint i = 0; i < strip->n_lines; i++)
    for (guint c = 0; strip->lines[i].matters && c < placing.n_columns; c++)
      {
        double time_s = render_strip_time (layout, column_x (layout, c));
        double distance_m = render_strip_line_at (strip, i, time_s);
        placing.heights[(gsize)i * placing.n_columns + c]
            = isnan (distance_m) ? NAN : render_strip_y (layout, distance_m);
      }
  return placing;
}

/* The columns under something so wide. */
static guint
columns_of (double width)
{
  return (guint)ceil (width / COLUMN_PX) + 1;
}

/* How many samples of lines that matter, and of what is to be kept, are under @rect; a mark counts
 * as many. */
static guint
covered (const Placing *placing, guint column, const RenderRect *rect)
{
  guint n = 0;
  for (guint i = 0; i < placing->strip->n_lines; i++)
    {
      if (!placing->strip->lines[i].matters)
        continue;
      const double *heights = placing->heights + (gsize)i * placing->n_columns;
      guint end = MIN (column + columns_of (rect->width), placing->n_columns);
      for (guint c = column; c < end; c++)
        n += heights[c] > rect->y - 1 && heights[c] < rect->y + rect->height + 1;
      double kept = render_strip_y (placing->layout, placing->strip->lines[i].required_m);
      n += kept > rect->y && kept < rect->y + rect->height;
    }
  for (guint i = 0; i < placing->strip->n_bounds; i++)
    {
      const RenderStripBound *bound = &placing->strip->bounds[i];
      double x = render_strip_x (placing->layout, bound->time_s);
      double y = render_strip_y (placing->layout, bound->lower_m);
      if (x > rect->x - MARK_PX && x < rect->x + rect->width + MARK_PX && y > rect->y - MARK_PX
          && y < rect->y + rect->height + MARK_PX)
        n += MARK_COVERS;
    }
  return n;
}

static gboolean
is_failure (RenderState state)
{
  return state == RENDER_STATE_SHORT || state == RENDER_STATE_TOUCHING;
}

/* Whether @rect would hide what the strip is there to show: the line looked at, where any line
 * falls short, or the mark of that. */
static gboolean
hides_what_counts (const Placing *placing, guint column, const RenderRect *rect)
{
  const RenderStrip *strip = placing->strip;
  for (guint i = 0; i < strip->n_lines; i++)
    {
      const RenderStripLine *line = &strip->lines[i];
      if (!line->focus && !(line->matters && is_failure (line->state)))
        continue;
      const double *heights = placing->heights + (gsize)i * placing->n_columns;
      double kept = line->focus ? -INFINITY : render_strip_y (placing->layout, line->required_m);
      guint end = MIN (column + columns_of (rect->width), placing->n_columns);
      for (guint c = column; c < end; c++)
        if (heights[c] > kept && heights[c] > rect->y - 1
            && heights[c] < rect->y + rect->height + 1)
          return TRUE;
    }
  for (guint i = 0; i < strip->n_bounds; i++)
    {
      const RenderStripBound *bound = &strip->bounds[i];
      double x = render_strip_x (placing->layout, bound->time_s);
      double y = render_strip_y (placing->layout, bound->lower_m);
      if (is_failure (bound->state) && x > rect->x - MARK_PX && x < rect->x + rect->width + MARK_PX
          && y > rect->y - MARK_PX && y < rect->y + rect->height + MARK_PX)
        return TRUE;
    }
  return FALSE;
}

/* @label is one of @labels, and those before it have their places. */
static gboolean
is_free (const RenderStripLabel *labels, guint label, const RenderRect *rect)
{
  for (guint i = 0; i < label; i++)
    {
      /* Both have a background that reaches beyond the letters, and two names beside each other
       * would read as one. */
      const gboolean are_names = !labels[i].required && !labels[label].required;
      const double beside = 2 * RENDER_PLOT_TEXT_RIM + (are_names ? BETWEEN_NAMES_PX : 0);
      const RenderRect room = { rect->x - beside, rect->y, rect->width + 2 * beside, rect->height };
      if (labels[i].placed && render_rects_overlap (&labels[i].rect, &room))
        return FALSE;
    }
  return TRUE;
}

/* The highest and lowest point of what is named above or below a label that begins at @column.
 * FALSE where it is not worked out. */
static gboolean
own_range (const Placing *placing, const RenderStripLabel *label, guint column, double *least,
           double *most)
{
  const RenderStripLine *line = &placing->strip->lines[label->line];
  *least = *most = render_strip_y (placing->layout, line->required_m);
  if (label->required)
    return TRUE;
  const double *heights = placing->heights + (gsize)label->line * placing->n_columns;
  guint end = MIN (column + columns_of (label->width), placing->n_columns);
  *least = INFINITY;
  *most = -INFINITY;
  for (guint c = column; c < end; c++)
    {
      if (isnan (heights[c]))
        return FALSE;
      *least = fmin (*least, heights[c]);
      *most = fmax (*most, heights[c]);
    }
  return column < end;
}

/* Where across a line is closest; for what is to be kept the left border. */
static double
wanted_x (const Placing *placing, const RenderStripLabel *label)
{
  const RenderStrip *strip = placing->strip;
  const RenderStripLine *line = &strip->lines[label->line];
  guint best = 0;
  for (guint i = 1; i < strip->n_times && !label->required; i++)
    {
      const double least_m = line->distances_m[(gsize)best * line->stride];
      if (isnan (least_m) || line->distances_m[(gsize)i * line->stride] < least_m)
        best = i;
    }
  double time_s = strip->n_times > 0 ? strip->times_s[best] : 0;
  return render_strip_x (placing->layout, time_s) - label->width / 2;
}

static void
place_one (const Placing *placing, RenderStripLabel *labels, guint index)
{
  RenderStripLabel *label = &labels[index];
  const RenderRect *plot = &placing->layout->plot;
  double wanted = wanted_x (placing, label), least_cost = INFINITY;
  label->placed = FALSE;
  for (guint column = 0; column < placing->n_columns; column += TRY_EVERY)
    {
      double x = column_x (placing->layout, column), least, most;
      if (x + label->width > plot->x + plot->width - 2)
        break;
      if (!own_range (placing, label, column, &least, &most))
        continue;
      double tops[2] = { least - label->height - LABEL_GAP_PX, most + LABEL_GAP_PX };
      for (guint side = 0; side < 2; side++)
        {
          RenderRect rect = { x, tops[side], label->width, label->height };
          if (rect.y < plot->y || rect.y + rect.height > plot->y + plot->height
              || !is_free (labels, index, &rect) || hides_what_counts (placing, column, &rect))
            continue;
          double cost = (most - least) * COST_STEEP + fabs (x - wanted) / 4 + side * 2
                        + COST_CROSSING * covered (placing, column, &rect);
          if (cost >= least_cost)
            continue;
          least_cost = cost;
          label->rect = rect;
          label->placed = TRUE;
        }
    }
}

/* A name for which there is no room beside its line stands farther from it, with a leader. */
static void
place_aside (const Placing *placing, RenderStripLabel *labels, guint index)
{
  RenderStripLabel *label = &labels[index];
  const RenderRect *plot = &placing->layout->plot;
  const double *heights = placing->heights + (gsize)label->line * placing->n_columns;
  double wanted = wanted_x (placing, label), least_cost = INFINITY;
  /* Where it is seated stands at the foot. */
  double foot = plot->y + plot->height - (placing->strip->n_seats > 0 ? SEAT_PX : 0);
  for (guint column = 0; column < placing->n_columns; column += TRY_EVERY)
    {
      double x = column_x (placing->layout, column);
      guint middle = column + (guint)(label->width / 2 / COLUMN_PX);
      if (x + label->width > plot->x + plot->width - 2 || middle >= placing->n_columns)
        break;
      if (isnan (heights[middle]))
        continue;
      for (double y = plot->y; y + label->height <= foot; y += ASIDE_EVERY_PX)
        {
          RenderRect rect = { x, y, label->width, label->height };
          double away = fmax (fmax (y - heights[middle], heights[middle] - y - label->height), 0);
          double cost = away + fabs (x - wanted) / 4;
          if (cost >= least_cost || !is_free (labels, index, &rect)
              || hides_what_counts (placing, column, &rect))
            continue;
          cost += COST_CROSSING * covered (placing, column, &rect);
          if (cost >= least_cost)
            continue;
          least_cost = cost;
          label->rect = rect;
          label->placed = label->has_leader = TRUE;
          label->on_x = column_x (placing->layout, middle);
          label->on_y = heights[middle];
        }
    }
}

void
render_strip_place (const RenderStrip *strip, const RenderStripLayout *layout,
                    RenderStripLabel *labels, guint n_labels)
{
  Placing placing = placing_make (strip, layout);
  for (guint i = 0; i < n_labels; i++)
    {
      labels[i].has_leader = FALSE;
      if (labels[i].is_fixed)
        {
          labels[i].placed = TRUE;
          continue;
        }
      place_one (&placing, labels, i);
      if (!labels[i].placed && !labels[i].required)
        place_aside (&placing, labels, i);
    }
  g_free (placing.heights);
}
