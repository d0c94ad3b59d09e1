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
#define HALF_BEAM 0.3   /* of the width, of a beam that is held at its middle */
#define MOST_DROP 0.3   /* of the height, to the beam */
#define NAME_BESIDE 0.3 /* of the width, of a name beside a beam */
#define WIDE_SHARE 1.5  /* of the width of a single leg, what a hook with more has */
#define STEP_PX 3
#define LEADER_PX 0.8

typedef struct
{
  cairo_t *cr;
  const RenderRiggingFigure *figure;
  RenderColour ink;
  double left, width, height; /* of this hook */
  RenderPlanePoint beam[2];   /* its ends, px */
  GArray *taken;              /* of RenderRect: by texts and by the hook */
  GArray *lines;              /* of Line */
} Sketch;

/* A leg, or what a beam hangs from. */
typedef struct
{
  double x0, y0, x1, y1;
} Line;

static void
put_text (const Sketch *sketch, const char *text, double x, double y, double share_of_width,
          double most_width)
{
  double width, height;
  g_autoptr (PangoLayout) layout
      = render_plot_text (sketch->cr, text, sketch->figure->font, TEXT_PX, FALSE);
  render_plot_text_size (layout, &width, &height);
  most_width = fmin (most_width, sketch->width - 2 * TEXT_MARGIN_PX);
  if (width > most_width)
    {
      width = fmax (most_width, 1);
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

/* Half of it: that leaves room beside it for what is told of the legs below it. */
static double
widest_beam (const Sketch *sketch, const RenderHookSketch *hook)
{
  double most = HALF_BEAM * sketch->width;
  for (guint i = 0; i < hook->n_legs; i++)
    {
      const RenderLeg *leg = &hook->legs[i];
      if (leg->from < 0)
        continue;
      const double name_px = fmin (width_of (sketch, leg->name), NAME_BESIDE * sketch->width),
                   told_px = fmax (width_of (sketch, leg->text), name_px);
      most = fmin (most, sketch->width / 2 - told_px - 2 * ASIDE_PX - TEXT_MARGIN_PX);
    }
  return CLAMP (most, LEAST_BEAM * sketch->width, HALF_BEAM * sketch->width);
}

/* The leg from the hook to that end, where it is the only one and its angle is known. */
static const RenderLeg *
only_upper (const RenderHookSketch *hook, gboolean right)
{
  const RenderLeg *found = NULL;
  for (guint i = 0; i < hook->n_legs; i++)
    {
      const RenderLeg *leg = &hook->legs[i];
      if (!leg->to_beam || !leg->goes_right != !right)
        continue;
      if (found != NULL || !isfinite (leg->angle_rad))
        return NULL;
      found = leg;
    }
  return found;
}

static double
tilt_of (const RenderHookSketch *hook)
{
  return isfinite (hook->beam_tilt_rad) ? CLAMP (hook->beam_tilt_rad, -1.2, 1.2) : 0;
}

/* By a leg to each end: a triangle of which all angles are known. In px below and beside the hook,
 * of a beam of half a length of 1. FALSE where there is no such triangle. */
static gboolean
hang_by_two (const RenderHookSketch *hook, RenderPlanePoint beam[2])
{
  const RenderLeg *legs[] = { only_upper (hook, FALSE), only_upper (hook, TRUE) };
  const double tilt = tilt_of (hook);
  if (legs[0] == NULL || legs[1] == NULL)
    return FALSE;
  const double a = legs[0]->angle_rad, b = legs[1]->angle_rad, apart = sin (a + b),
               lengths[] = { 2 * sin (b + tilt) / apart, 2 * sin (a - tilt) / apart };
  if (!(apart > 0.05 && lengths[0] > 0 && lengths[1] > 0))
    return FALSE;
  beam[0] = (RenderPlanePoint){ -lengths[0] * cos (a), lengths[0] * sin (a) };
  beam[1] = (RenderPlanePoint){ lengths[1] * cos (b), lengths[1] * sin (b) };
  return TRUE;
}

/* Otherwise its middle is plumb below the hook. */
static void
hang_by_middle (const Sketch *sketch, const RenderHookSketch *hook, double half,
                RenderPlanePoint beam[2])
{
  double flattest = -1, drop = MOST_DROP * sketch->height;
  for (guint i = 0; i < hook->n_legs; i++)
    if (hook->legs[i].to_beam)
      flattest = fmax (flattest, slope (&hook->legs[i]));
  if (flattest > 0)
    {
      drop = fmin (drop, half / flattest);
      half = fmax (drop * flattest, 4);
    }
  const double up = half * tan (tilt_of (hook));
  beam[0] = (RenderPlanePoint){ -half, drop + up };
  beam[1] = (RenderPlanePoint){ half, drop - up };
}

/* Where the beam is, so that its upper legs have their angles, and it has its own. */
static void
place_beam (Sketch *sketch, const RenderHookSketch *hook)
{
  const double most = widest_beam (sketch, hook), most_drop = MOST_DROP * sketch->height;
  RenderPlanePoint *beam = sketch->beam;
  if (hang_by_two (hook, beam))
    {
      const double aside = fmax (-beam[0].x, beam[1].x), drop = fmax (beam[0].y, beam[1].y),
                   scale = fmin (most / fmax (aside, 1e-3), most_drop / fmax (drop, 1e-3));
      for (guint i = 0; i < 2; i++)
        beam[i] = (RenderPlanePoint){ scale * beam[i].x, scale * beam[i].y };
    }
  else
    hang_by_middle (sketch, hook, most, beam);
  for (guint i = 0; i < 2; i++)
    {
      beam[i].x += middle (sketch);
      beam[i].y += HOOK_PX;
    }
}

static void
draw_beam (const Sketch *sketch, const RenderHookSketch *hook)
{
  const RenderPlanePoint *a = &sketch->beam[0], *b = &sketch->beam[1];
  gboolean has_upper = FALSE;
  for (guint i = 0; i < hook->n_legs; i++)
    has_upper = has_upper || hook->legs[i].to_beam;
  line (sketch, a->x, a->y, b->x, b->y, 5);
  const double top = fmin (a->y, b->y);
  const RenderRect beam = { a->x, top - 3, b->x - a->x, fabs (a->y - b->y) + 6 };
  g_array_append_val (sketch->taken, beam);
  if (has_upper)
    return;
  const Line stem = { middle (sketch), HOOK_PX, (a->x + b->x) / 2, (a->y + b->y) / 2 };
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
  *x = sketch->beam[leg->from].x;
  *y = sketch->beam[leg->from].y;
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
  double foot = sketch->height - MARGIN_PX - TEXT_PX - 6;
  double run = side * slope (leg) * (foot - y);
  /* Within its room, as steep as it is. */
  double room
      = side > 0 ? sketch->left + sketch->width - MARGIN_PX - x : x - sketch->left - MARGIN_PX;
  double share = fabs (run) > room ? room / fabs (run) : 1;
  double end_x = x + share * run, end_y = y + share * (foot - y);
  if (leg->to_beam)
    {
      end_x = sketch->beam[leg->goes_right ? 1 : 0].x;
      end_y = sketch->beam[leg->goes_right ? 1 : 0].y;
    }
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
 * anywhere within, where no other leg is as near; away from it, with a leader; each off all legs
 * but the last, which is over them. */
typedef enum
{
  OUTSIDE,
  WITHIN,
  ANY,
  ASIDE,
  OVER,
} Place;

/* Of the middle of @rect from @along, level. */
static double
off_px (const RenderRect *rect, const Line *along)
{
  const double y = rect->y + rect->height / 2,
               share = along->y1 != along->y0 ? (y - along->y0) / (along->y1 - along->y0) : 0.5;
  return fabs (rect->x + rect->width / 2 - along->x0
               - CLAMP (share, 0, 1) * (along->x1 - along->x0));
}

static gboolean
is_nearest (const Sketch *sketch, const RenderRect *rect, const Line *own)
{
  const double y = rect->y + rect->height / 2;
  for (guint i = 0; i < sketch->lines->len; i++)
    {
      const Line *other = &g_array_index (sketch->lines, Line, i);
      if (other->x0 == own->x0 && other->x1 == own->x1 && other->y0 == own->y0)
        continue;
      if (y >= fmin (other->y0, other->y1) && y <= fmax (other->y0, other->y1)
          && off_px (rect, other) < off_px (rect, own) + GAP_PX)
        return FALSE;
    }
  return TRUE;
}

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
              && (place != WITHIN || is_own_half (sketch, rect, outside))
              && (place != ANY || is_nearest (sketch, rect, drawn)))
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

/* The free place next to the middle of the leg; FALSE: there is none. */
static gboolean
find_aside (const Sketch *sketch, const Line *drawn, RenderRect *rect)
{
  const double x = (drawn->x0 + drawn->x1) / 2, y = (drawn->y0 + drawn->y1) / 2;
  double nearest = INFINITY;
  RenderRect at = *rect;
  for (at.y = 0; at.y + at.height < sketch->height; at.y += STEP_PX)
    for (at.x = sketch->left + TEXT_MARGIN_PX; at.x + at.width < sketch->left + sketch->width;
         at.x += STEP_PX)
      {
        const double off = hypot (at.x + at.width / 2 - x, at.y + at.height / 2 - y);
        if (off >= nearest || !is_free (sketch, &at, TRUE))
          continue;
        nearest = off;
        *rect = at;
      }
  return isfinite (nearest);
}

/* From a label that stands away from its leg. */
static void
draw_leader (const Sketch *sketch, const RenderRect *at, const Line *drawn)
{
  const double y
      = CLAMP (at->y + at->height / 2, fmin (drawn->y0, drawn->y1), fmax (drawn->y0, drawn->y1)),
      along = drawn->y1 != drawn->y0 ? (y - drawn->y0) / (drawn->y1 - drawn->y0) : 0.5,
      x = drawn->x0 + along * (drawn->x1 - drawn->x0);
  line (sketch, CLAMP (x, at->x, at->x + at->width), at->y + at->height / 2, x, y, LEADER_PX);
}

static gboolean
find_step (const Sketch *sketch, const RenderLeg *leg, const Line *drawn, Place place,
           RenderRect *rect)
{
  return place == ASIDE ? find_aside (sketch, drawn, rect)
                        : find_place (sketch, leg, drawn, place, rect);
}

/* With all of its name; else with what there is room for; else away from its leg, with a leader;
 * else over other legs; else not at all: the rows beside the sketch have it. */
static void
place_label (const Sketch *sketch, const Label *label, const RenderLeg *leg, const Line *drawn)
{
  const Form forms[] = { { FALSE, INFINITY },
                         { TRUE, INFINITY },
                         { TRUE, NAME_SHARE * sketch->width },
                         { TRUE, label->numbers_width },
                         { FALSE, 0 } };
  static const Place places[] = { OUTSIDE, WITHIN, ANY, ASIDE, OVER };
  for (guint step = 0; step < 2 * G_N_ELEMENTS (places); step++)
    {
      /* Over other legs only where there is no other way. */
      const guint n_off = G_N_ELEMENTS (places) - 1;
      const gboolean is_cut = step < 2 * n_off ? step >= n_off : step > 2 * n_off;
      const Place place = step < 2 * n_off ? places[step % n_off] : OVER;
      for (guint i = is_cut ? 2 : 0; i < (is_cut ? G_N_ELEMENTS (forms) : 2); i++)
        {
          RenderRect at = rect_of (label, &forms[i]);
          if (!find_step (sketch, leg, drawn, place, &at))
            continue;
          if (place == ASIDE)
            draw_leader (sketch, &at, drawn);
          draw_label (sketch, label, &forms[i], &at);
          return;
        }
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

/* Below it, or above it; with less of its name where there is no room between legs. */
static void
tell_beam (const Sketch *sketch, const RenderHookSketch *hook)
{
  const RenderPlanePoint *beam = sketch->beam;
  const double x = (beam[0].x + beam[1].x) / 2, foot = fmax (beam[0].y, beam[1].y) + 5,
               top = fmin (beam[0].y, beam[1].y) - 5;
  const char *const names[] = { hook->beam, hook->beam_id };
  for (guint i = 0; i < G_N_ELEMENTS (names) && names[i] != NULL; i++)
    {
      double width, height;
      g_autoptr (PangoLayout) layout
          = render_plot_text (sketch->cr, names[i], sketch->figure->font, TEXT_PX, FALSE);
      render_plot_text_size (layout, &width, &height);
      const double tops[] = { foot, top - height };
      for (guint k = 0; k < G_N_ELEMENTS (tops); k++)
        {
          const RenderRect rect = { x - width / 2, tops[k], width, height };
          if (!is_free (sketch, &rect, TRUE))
            continue;
          put_text (sketch, names[i], x, tops[k], 0.5, sketch->width);
          return;
        }
    }
  put_text (sketch, hook->beam_id != NULL ? hook->beam_id : hook->beam, x, foot, 0.5,
            beam[1].x - beam[0].x - 2 * ASIDE_PX);
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
  put_text (sketch, hook->hook, middle (sketch), 0, 0.5, sketch->width);
  if (hook->beam != NULL)
    tell_beam (sketch, hook);
  for (guint k = 0; k < hook->n_legs; k++)
    tell_leg (sketch, &hook->legs[k], &g_array_index (sketch->lines, Line, first + k));
}

/* A single leg needs less room. */
static double
weight_of (const RenderHookSketch *hook)
{
  return hook->n_legs > 1 || hook->beam != NULL ? WIDE_SHARE : 1;
}

void
render_rigging_figure_draw (cairo_t *cr, const RenderRiggingFigure *figure, RenderSize size)
{
  cairo_save (cr);
  cairo_new_path (cr);
  double all = 0, left = 0;
  for (guint i = 0; i < figure->n_hooks; i++)
    all += weight_of (&figure->hooks[i]);
  for (guint i = 0; i < figure->n_hooks; i++)
    {
      const double width = size.width * weight_of (&figure->hooks[i]) / all;
      g_autoptr (GArray) taken = g_array_new (FALSE, FALSE, sizeof (RenderRect));
      g_autoptr (GArray) lines = g_array_new (FALSE, FALSE, sizeof (Line));
      Sketch sketch = { .cr = cr,
                        .figure = figure,
                        .ink = render_ink_colour (figure->dark),
                        .left = left,
                        .width = width,
                        .height = size.height,
                        .taken = taken,
                        .lines = lines };
      draw_sketch (&sketch, &figure->hooks[i]);
      left += width;
    }
  cairo_restore (cr);
}
