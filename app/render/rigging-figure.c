/* rigging-figure.c: what hangs on a hook as a sketch: hook, block, beam and legs from the top down,
 * angles true, lengths such that it fits. Legs that would cover each other start a little apart.
 *
 * What is told of a leg stands beside it where that is free, in one line or in two; where there is
 * no room for all of it its name is cut, and its numbers never are. */
#include <math.h>

#include "force-figure.h"
#include "plates.h"
#include "plot-text.h"

#define TEXT_PX 11
#define MARGIN_PX 6
#define TEXT_MARGIN_PX 2
#define NAME_PX 16             /* of the hook, above it */
#define HOOK_PX (NAME_PX + 26) /* from the top to where legs begin */
#define BLOCK_PX 12
#define APART_PX 9
#define STEEP (80 * G_PI / 180)
#define DASH_PX 4
#define ASIDE_PX 4      /* of a label, from its leg */
#define GAP_PX 4        /* between name and numbers */
#define NAME_SHARE 0.45 /* of the width, of a name that is cut */
#define LEAST_BEAM 0.1
#define HALF_BEAM 0.3 /* of the width, of a beam that is held at its middle */

typedef struct
{
  cairo_t *cr;
  const RenderRiggingFigure *figure;
  RenderColour ink;
  double left, width, height; /* of this hook */
  double beam_y, half_beam;   /* px */
  GArray *taken;              /* of RenderRect: by texts and by the hook */
  GArray *lines;              /* of Line */
} Sketch;

/* A leg, or what a beam hangs from. */
typedef struct
{
  double x0, y0, x1, y1;
} Line;

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
  const RenderRect rect = { x, y, width, height };
  g_array_append_val (sketch->taken, rect);
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

static double
width_of (const Sketch *sketch, const char *text)
{
  double width, height;
  g_autoptr (PangoLayout) layout
      = render_plot_text (sketch->cr, text, sketch->figure->font, TEXT_PX, FALSE);
  render_plot_text_size (layout, &width, &height);
  return width;
}

/* Half of it: that leaves room beside it for the numbers of the legs below it, but has its own name
 * between them. */
static double
widest_beam (const Sketch *sketch, const RenderHookSketch *hook)
{
  double most = HALF_BEAM * sketch->width;
  for (guint i = 0; i < hook->n_legs; i++)
    if (hook->legs[i].from >= 0)
      most = fmin (most, sketch->width / 2 - width_of (sketch, hook->legs[i].text) - 2 * ASIDE_PX);
  if (hook->beam != NULL)
    most = fmax (most, width_of (sketch, hook->beam) / 2 + ASIDE_PX);
  return CLAMP (most, LEAST_BEAM * sketch->width, HALF_BEAM * sketch->width);
}

/* Where the beam is, so that its upper legs have their angles. */
static void
place_beam (Sketch *sketch, const RenderHookSketch *hook)
{
  double flattest = -1;
  for (guint i = 0; i < hook->n_legs; i++)
    if (hook->legs[i].to_beam)
      flattest = fmax (flattest, slope (&hook->legs[i]));
  double most = widest_beam (sketch, hook), drop = 0.3 * sketch->height;
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
  const RenderRect beam = { x - sketch->half_beam, sketch->beam_y - 3, 2 * sketch->half_beam, 6 };
  g_array_append_val (sketch->taken, beam);
  if (has_upper)
    return;
  const Line stem = { x, HOOK_PX, x, sketch->beam_y };
  line (sketch, stem.x0, stem.y0, stem.x1, stem.y1, 1.6);
  g_array_append_val (sketch->lines, stem);
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
  const Line drawn = { x, y, end_x, end_y };
  const double dash[] = { DASH_PX, DASH_PX };
  if (!isfinite (leg->angle_rad))
    cairo_set_dash (sketch->cr, dash, G_N_ELEMENTS (dash), 0);
  line (sketch, x, y, end_x, end_y, 1.6);
  cairo_set_dash (sketch->cr, NULL, 0, 0);
  cairo_arc (sketch->cr, end_x, end_y, 2.5, 0, 2 * G_PI);
  cairo_fill (sketch->cr);
  g_array_append_val (sketch->lines, drawn);
}

/* ---- what is told of legs ---- */

typedef struct
{
  PangoLayout *name, *numbers;
  double name_width, numbers_width, line_height;
} Label;

/* How it is written. */
typedef struct
{
  gboolean is_two_lines;
  double most_name; /* px; 0: no name */
} Form;

static gboolean
crosses (const RenderRect *rect, const Line *along)
{
  const double dx = along->x1 - along->x0, dy = along->y1 - along->y0;
  const double way[] = { -dx, dx, -dy, dy };
  const double left[] = { along->x0 - rect->x, rect->x + rect->width - along->x0,
                          along->y0 - rect->y, rect->y + rect->height - along->y0 };
  double from = 0, to = 1;
  for (guint i = 0; i < G_N_ELEMENTS (way); i++)
    if (way[i] == 0 && left[i] < 0)
      return FALSE;
    else if (way[i] < 0)
      from = fmax (from, left[i] / way[i]);
    else if (way[i] > 0)
      to = fmin (to, left[i] / way[i]);
  return from <= to;
}

static gboolean
is_free (const Sketch *sketch, const RenderRect *rect, gboolean is_off_lines)
{
  const double right = sketch->left + sketch->width;
  const RenderRect wide = { rect->x - RENDER_PLOT_TEXT_RIM, rect->y,
                            rect->width + 2 * RENDER_PLOT_TEXT_RIM, rect->height };
  if (rect->x < sketch->left + TEXT_MARGIN_PX || rect->x + rect->width > right - TEXT_MARGIN_PX
      || rect->y < 0 || rect->y + rect->height > sketch->height - 1)
    return FALSE;
  for (guint i = 0; i < sketch->taken->len; i++)
    if (render_rects_overlap (&wide, &g_array_index (sketch->taken, RenderRect, i)))
      return FALSE;
  for (guint i = 0; is_off_lines && i < sketch->lines->len; i++)
    if (crosses (rect, &g_array_index (sketch->lines, Line, i)))
      return FALSE;
  return TRUE;
}

/* Where a label may stand: outside of its leg; within, in its own half of the sketch; on it or
 * anywhere within; each off all legs but the last, which is over them. */
typedef enum
{
  OUTSIDE,
  WITHIN,
  ANY,
  OVER,
  N_PLACES,
} Place;

static gboolean
is_own_half (const Sketch *sketch, const RenderRect *rect, double outside)
{
  return outside > 0 ? rect->x >= middle (sketch) : rect->x + rect->width <= middle (sketch);
}

static gboolean
find_place (const Sketch *sketch, const RenderLeg *leg, const Line *drawn, Place place,
            RenderRect *rect)
{
  static const double along[] = { 0.5, 0.62, 0.38, 0.75, 0.25, 0.88, 0.12, 1, 0 };
  const double slant = (drawn->x1 - drawn->x0) / fmax (drawn->y1 - drawn->y0, 1);
  const double aside = ASIDE_PX + fabs (slant) * rect->height / 2;
  const double outside = leg->from == 0 || (leg->from < 0 && !leg->goes_right) ? -1 : 1;
  for (guint i = 0; i < G_N_ELEMENTS (along); i++)
    {
      const double x = drawn->x0 + along[i] * (drawn->x1 - drawn->x0),
                   y = drawn->y0 + along[i] * (drawn->y1 - drawn->y0);
      const double right = x + aside, left = x - aside - rect->width;
      const double places[]
          = { outside > 0 ? right : left, outside > 0 ? left : right,
              CLAMP (x - rect->width / 2, sketch->left + TEXT_MARGIN_PX,
                     sketch->left + sketch->width - TEXT_MARGIN_PX - rect->width) };
      const guint first = place == WITHIN ? 1 : 0, last = place == OUTSIDE  ? 0
                                                          : place == WITHIN ? 1
                                                                            : 2;
      rect->y = CLAMP (y - rect->height / 2, 0, sketch->height - rect->height - 1);
      for (guint k = first; k <= last; k++)
        {
          rect->x = places[k];
          if (is_free (sketch, rect, place != OVER)
              && (place != WITHIN || is_own_half (sketch, rect, outside)))
            return TRUE;
        }
    }
  return FALSE;
}

static RenderRect
rect_of (const Label *label, const Form *form)
{
  const double name = fmin (label->name_width, form->most_name);
  if (form->is_two_lines)
    return (RenderRect){ 0, 0, fmax (name, label->numbers_width), 2 * label->line_height };
  return (RenderRect){ 0, 0, name + (name > 0 ? GAP_PX : 0) + label->numbers_width,
                       label->line_height };
}

static void
draw_label (const Sketch *sketch, const Label *label, const Form *form, const RenderRect *at)
{
  const double name = fmin (label->name_width, form->most_name);
  const RenderColour paper = render_paper_colour (sketch->figure->dark);
  double x = at->x, y = at->y;
  if (name > 0)
    {
      pango_layout_set_width (label->name, (int)ceil (name * PANGO_SCALE));
      pango_layout_set_ellipsize (label->name, PANGO_ELLIPSIZE_END);
      render_plot_text_draw (sketch->cr, label->name, x, y, sketch->ink, &paper);
      x += form->is_two_lines ? 0 : name + GAP_PX;
      y += form->is_two_lines ? label->line_height : 0;
    }
  render_plot_text_draw (sketch->cr, label->numbers, x, y, sketch->ink, &paper);
  g_array_append_val (sketch->taken, *at);
}

/* With all of its name; else with what there is room for; else not at all: the rows beside the
 * sketch have it. */
static void
place_label (const Sketch *sketch, const Label *label, const RenderLeg *leg, const Line *drawn)
{
  const Form forms[] = { { FALSE, INFINITY },
                         { TRUE, INFINITY },
                         { TRUE, NAME_SHARE * sketch->width },
                         { TRUE, label->numbers_width },
                         { FALSE, 0 } };
  for (guint cut = 0; cut < 2; cut++)
    for (guint place = 0; place < N_PLACES; place++)
      for (guint i = cut ? 2 : 0; i < (cut ? G_N_ELEMENTS (forms) : 2); i++)
        {
          RenderRect at = rect_of (label, &forms[i]);
          if (!find_place (sketch, leg, drawn, (Place)place, &at))
            continue;
          draw_label (sketch, label, &forms[i], &at);
          return;
        }
}

static void
tell_leg (const Sketch *sketch, const RenderLeg *leg, const Line *drawn)
{
  Label label
      = { render_plot_text (sketch->cr, leg->name, sketch->figure->font, TEXT_PX, FALSE),
          render_plot_text (sketch->cr, leg->text, sketch->figure->font, TEXT_PX, FALSE), 0, 0, 0 };
  double name_height;
  render_plot_text_size (label.name, &label.name_width, &name_height);
  render_plot_text_size (label.numbers, &label.numbers_width, &label.line_height);
  label.line_height = fmax (label.line_height, name_height);
  if (label.name_width > 0 || label.numbers_width > 0)
    place_label (sketch, &label, leg, drawn);
  g_object_unref (label.name);
  g_object_unref (label.numbers);
}

/* ---- all of it ---- */

static void
draw_sketch (Sketch *sketch, const RenderHookSketch *hook)
{
  const RenderRect of_hook = { middle (sketch) - 8, NAME_PX, 16, HOOK_PX - NAME_PX };
  g_array_append_val (sketch->taken, of_hook);
  place_beam (sketch, hook);
  draw_hook (sketch, hook);
  if (hook->beam != NULL)
    draw_beam (sketch, hook);
  const guint first = sketch->lines->len;
  for (guint k = 0; k < hook->n_legs; k++)
    draw_leg (sketch, hook, k);
  put_text (sketch, hook->hook, middle (sketch), 0, 0.5);
  if (hook->beam != NULL)
    put_text (sketch, hook->beam, middle (sketch), sketch->beam_y + 5, 0.5);
  for (guint k = 0; k < hook->n_legs; k++)
    tell_leg (sketch, &hook->legs[k], &g_array_index (sketch->lines, Line, first + k));
}

void
render_rigging_figure_draw (cairo_t *cr, const RenderRiggingFigure *figure, RenderSize size)
{
  cairo_save (cr);
  cairo_new_path (cr);
  for (guint i = 0; i < figure->n_hooks; i++)
    {
      g_autoptr (GArray) taken = g_array_new (FALSE, FALSE, sizeof (RenderRect));
      g_autoptr (GArray) lines = g_array_new (FALSE, FALSE, sizeof (Line));
      Sketch sketch = { .cr = cr,
                        .figure = figure,
                        .ink = render_ink_colour (figure->dark),
                        .left = size.width * i / figure->n_hooks,
                        .width = size.width / figure->n_hooks,
                        .height = size.height,
                        .taken = taken,
                        .lines = lines };
      draw_sketch (&sketch, &figure->hooks[i]);
    }
  cairo_restore (cr);
}
