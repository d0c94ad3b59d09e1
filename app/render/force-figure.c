/* force-figure.c: forces on a load, drawn to scale.
 *
 * The outline is the hull of the lowest and the highest point of each of COLUMNS upright strips: of
 * a mesh of any size no more has to be sorted than that. */
#include "force-figure.h"

#include <math.h>
#include <string.h>

#include "palette.h"
#include "plane.h"
#include "plates.h"
#include "plot-text.h"

#define COLUMNS 256
#define TEXT_PX 11
#define MARGIN_PX 8
#define ARROW_PX 7       /* of the head, along the arrow */
#define ARROW_SHARE 0.42 /* for the longest arrow, of the height less the names at both ends */
#define NAME_GAP_PX 2    /* between the end of an arrow and a name beyond it */
#define WIDTH_PX 2.2
#define SHRINK 0.96
#define LEAST_SCALE 1e-6
#define FACE 0.55
#define MOST_NAMED 8
#define DOT_PX 3 /* where a force acts */
/* Names (try_place). */
#define STEP_PX 3
#define MIDDLE_COST 0.15
#define LEFT_COST 1
#define NEAR_PX 2
#define APART_PX 6 /* between names beside each other */
#define OTHER_COST 12
#define LOAD_COST 60
#define LEADER_PX 10
#define LEADER_WIDTH_PX 0.8
#define TIE_PX 1.4

G_STATIC_ASSERT (2 * COLUMNS + 4 <= RENDER_HULL_MOST);

/* ---- outline ---- */

/* Points that no hull point is lost with; returns how many. */
static guint
thin_out (const RenderPlanePoint *points, guint n, TrnPlanePoint kept[2 * COLUMNS])
{
  double least = INFINITY, most = -INFINITY;
  for (guint i = 0; i < n; i++)
    {
      least = fmin (least, points[i].x);
      most = fmax (most, points[i].x);
    }
  gboolean is_met[COLUMNS] = { FALSE };
  RenderPlanePoint low[COLUMNS], high[COLUMNS];
  for (guint i = 0; i < n; i++)
    {
      double place = most > least ? (points[i].x - least) / (most - least) * COLUMNS : 0;
      guint c = (guint)CLAMP (place, 0, COLUMNS - 1);
      if (!is_met[c] || points[i].y < low[c].y)
        low[c] = points[i];
      if (!is_met[c] || points[i].y > high[c].y)
        high[c] = points[i];
      is_met[c] = TRUE;
    }
  guint n_kept = 0;
  for (guint c = 0; c < COLUMNS; c++)
    if (is_met[c])
      {
        kept[n_kept++] = (TrnPlanePoint){ low[c].x, low[c].y, c };
        kept[n_kept++] = (TrnPlanePoint){ high[c].x, high[c].y, c };
      }
  return n_kept;
}

guint
render_plane_hull (const RenderPlanePoint *points, guint n_points,
                   RenderPlanePoint hull[RENDER_HULL_MOST])
{
  TrnPlanePoint kept[2 * COLUMNS], corners[4 * COLUMNS];
  const guint n_kept = thin_out (points, n_points, kept),
              n = trn_plane_hull (kept, n_kept, corners);
  for (guint i = 0; i < n; i++)
    hull[i] = (RenderPlanePoint){ corners[i].x, corners[i].y };
  return n;
}

/* ---- the figure ---- */

typedef struct
{
  cairo_t *cr;
  const RenderForceFigure *figure;
  double scale, left, foot; /* px of x 0 and y 0 */
  double px_a_newton;
  double name_px; /* height of the highest name */
} Drawing;

/* How far all of it reaches up and down at a scale, in px from y 0: beyond the end of an arrow
 * there is room for its name. */
static void
reach (const Drawing *d, double scale, double *up, double *down)
{
  const RenderForceFigure *figure = d->figure;
  *up = -INFINITY;
  *down = INFINITY;
  for (guint i = 0; i < figure->n_outline; i++)
    {
      *up = fmax (*up, scale * figure->outline[i].y);
      *down = fmin (*down, scale * figure->outline[i].y);
    }
  for (guint i = 0; i < figure->n_forces; i++)
    {
      double foot = scale * figure->forces[i].at.y;
      double newton = figure->forces[i].newton, name_px = d->name_px + NAME_GAP_PX;
      double tip = foot + d->px_a_newton * newton;
      tip += newton > 0 ? name_px : newton < 0 ? -name_px : 0;
      *up = fmax (*up, fmax (foot, tip));
      *down = fmin (*down, fmin (foot, tip));
    }
}

static double
highest_name (const Drawing *d)
{
  double highest = 0, width, height;
  for (guint i = 0; i < d->figure->n_forces; i++)
    {
      g_autoptr (PangoLayout) text
          = render_plot_text (d->cr, d->figure->forces[i].text, d->figure->font, TEXT_PX, FALSE);
      render_plot_text_size (text, &width, &height);
      highest = fmax (highest, height);
    }
  return highest;
}

/* A force may act beside the load, as on a part that is not drawn. */
static void
lay_out (Drawing *d, RenderSize size)
{
  const RenderForceFigure *figure = d->figure;
  const double aside = MARGIN_PX + ARROW_PX;
  double least = INFINITY, most = -INFINITY, greatest_n = 0, up, down;
  for (guint i = 0; i < figure->n_outline; i++)
    {
      least = fmin (least, figure->outline[i].x);
      most = fmax (most, figure->outline[i].x);
    }
  for (guint i = 0; i < figure->n_forces; i++)
    {
      least = fmin (least, figure->forces[i].at.x);
      most = fmax (most, figure->forces[i].at.x);
      greatest_n = fmax (greatest_n, fabs (figure->forces[i].newton));
    }
  d->name_px = highest_name (d);
  double free_px = fmax (size.height - 2 * (MARGIN_PX + d->name_px + NAME_GAP_PX), 0);
  d->px_a_newton = greatest_n > 0 ? ARROW_SHARE * free_px / greatest_n : 0;
  d->scale = fmax (size.width - 2 * aside, 1) / fmax (most - least, 1e-3);
  for (reach (d, d->scale, &up, &down);
       up - down > size.height - 2 * MARGIN_PX && d->scale > LEAST_SCALE;
       reach (d, d->scale, &up, &down))
    d->scale *= SHRINK;
  d->left = size.width / 2 - d->scale * (least + most) / 2;
  d->foot = size.height / 2 + (up + down) / 2;
}

static void
arrow (Drawing *d, double x, double from, double to, RenderColour colour)
{
  cairo_t *cr = d->cr;
  double head = to > from ? ARROW_PX : -ARROW_PX;
  render_plot_source (cr, colour, 1);
  cairo_set_line_width (cr, WIDTH_PX);
  cairo_move_to (cr, x, from);
  cairo_line_to (cr, x, to - head / 2);
  cairo_stroke (cr);
  cairo_move_to (cr, x, to);
  cairo_line_to (cr, x - 0.55 * ARROW_PX, to - head);
  cairo_line_to (cr, x + 0.55 * ARROW_PX, to - head);
  cairo_close_path (cr);
  cairo_fill (cr);
}

/* Names read as two only with some room between. */
static gboolean
is_free (const RenderRect *rect, const RenderRect *taken, guint n_names, guint n_taken,
         RenderSize size)
{
  const RenderRect wide = { rect->x - APART_PX, rect->y, rect->width + 2 * APART_PX, rect->height };
  if (rect->x < 1 || rect->y < 1 || rect->x + rect->width > size.width - 1
      || rect->y + rect->height > size.height - 1)
    return FALSE;
  for (guint i = 0; i < n_taken; i++)
    if (render_rects_overlap (i < n_names ? &wide : rect, &taken[i]))
      return FALSE;
  return TRUE;
}

static RenderPlanePoint
corner_of (const Drawing *d, guint i)
{
  const RenderPlanePoint *point = &d->figure->outline[i % d->figure->n_outline];
  return (RenderPlanePoint){ d->left + d->scale * point->x, d->foot - d->scale * point->y };
}

static double
side_of (RenderPlanePoint a, RenderPlanePoint b, double x, double y)
{
  return (b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x);
}

/* To which side of its edges the outline is. */
static double
way_round (const Drawing *d)
{
  const RenderPlanePoint first = corner_of (d, 0);
  double twice_area = 0;
  for (guint i = 1; i + 1 < d->figure->n_outline; i++)
    {
      const RenderPlanePoint next = corner_of (d, i + 1);
      twice_area += side_of (first, corner_of (d, i), next.x, next.y);
    }
  return twice_area;
}

/* Whether @rect covers something of the load: unless all of it is beyond one edge of the outline,
 * which is convex, or all of the outline is beyond one of its own edges. */
static gboolean
covers_load (const Drawing *d, const RenderRect *rect)
{
  const guint n = d->figure->n_outline;
  const RenderPlanePoint ends[] = { { rect->x, rect->y },
                                    { rect->x + rect->width, rect->y },
                                    { rect->x, rect->y + rect->height },
                                    { rect->x + rect->width, rect->y + rect->height } };
  const double inside = way_round (d);
  gboolean is_left = TRUE, is_right = TRUE, is_above = TRUE, is_below = TRUE;
  for (guint i = 0; i < n; i++)
    {
      const RenderPlanePoint a = corner_of (d, i), b = corner_of (d, i + 1);
      is_left &= a.x <= ends[0].x;
      is_right &= a.x >= ends[3].x;
      is_above &= a.y <= ends[0].y;
      is_below &= a.y >= ends[3].y;
      gboolean is_beyond = TRUE;
      for (guint k = 0; k < G_N_ELEMENTS (ends); k++)
        is_beyond &= side_of (a, b, ends[k].x, ends[k].y) * inside <= 0;
      if (is_beyond && (a.x != b.x || a.y != b.y))
        return FALSE;
    }
  return !is_left && !is_right && !is_above && !is_below;
}

/* To scale, but never shorter than its head. */
static double
tip_of (const Drawing *d, const RenderForce *force)
{
  const double y = d->foot - d->scale * force->at.y, long_px = d->px_a_newton * force->newton;
  return force->newton == 0 ? y : y - copysign (fmax (fabs (long_px), ARROW_PX), force->newton);
}

/* With the dot where it acts. */
static RenderRect
arrow_rect (const Drawing *d, const RenderForce *force)
{
  double x = d->left + d->scale * force->at.x, y = d->foot - d->scale * force->at.y;
  double tip = tip_of (d, force);
  double top = fmin (y - DOT_PX, tip), bottom = fmax (y + DOT_PX, tip);
  return (RenderRect){ x - 0.55 * ARROW_PX, top, 1.1 * ARROW_PX, bottom - top };
}

/* Where a name may stand. */
typedef struct
{
  const Drawing *d;
  const RenderForce *force;
  const RenderRect *taken; /* the names before it, then the arrows */
  guint n_names, n_taken;
  RenderSize size;
  RenderRect own; /* its arrow */
  RenderRect best;
  double best_cost; /* INFINITY: there is no place yet */
} Search;

static double
apart_px (const RenderRect *a, const RenderRect *b)
{
  const double x = fmax (a->x - b->x - b->width, b->x - a->x - a->width),
               y = fmax (a->y - b->y - b->height, b->y - a->y - a->height);
  return hypot (fmax (x, 0), fmax (y, 0));
}

/* Whether another arrow is as near as its own, so that it looks like its name. */
static gboolean
is_near_other (const Search *search, const RenderRect *rect)
{
  const double own_px = apart_px (rect, &search->own);
  for (guint i = search->n_names; i < search->n_taken; i++)
    if (memcmp (&search->taken[i], &search->own, sizeof search->own) != 0
        && apart_px (rect, &search->taken[i]) < own_px + NEAR_PX)
      return TRUE;
  return FALSE;
}

/* In px that it would rather go aside: near the middle of its arrow, at the right, nearest to its
 * own, and off the load. What cannot be best any more is not looked at to the end. */
static void
try_place (Search *search, double x, double y)
{
  RenderRect rect = search->best;
  rect.x = x;
  rect.y = y;
  const RenderRect paper
      = { x - RENDER_PLOT_TEXT_RIM, y, rect.width + 2 * RENDER_PLOT_TEXT_RIM, rect.height };
  if (!is_free (&paper, search->taken, search->n_names, search->n_taken, search->size))
    return;
  const RenderRect *own = &search->own;
  const double off_px = y + rect.height / 2 - own->y - own->height / 2;
  double cost = apart_px (&rect, own) + MIDDLE_COST * fabs (off_px);
  if (x < own->x)
    cost += LEFT_COST;
  if (cost < search->best_cost && is_near_other (search, &rect))
    cost += OTHER_COST;
  if (cost < search->best_cost && covers_load (search->d, &paper))
    cost += LOAD_COST;
  if (cost >= search->best_cost)
    return;
  search->best = rect;
  search->best_cost = cost;
}

/* Beside the arrow, then beyond its tip, then anywhere. */
static void
search_place (Search *search)
{
  const RenderForce *force = search->force;
  const double x = search->own.x + search->own.width / 2, width = search->best.width,
               height = search->best.height, top = search->own.y, bottom = top + search->own.height;
  const double right = x + ARROW_PX, left = x - ARROW_PX - width,
               beyond = force->newton > 0 ? top - height - NAME_GAP_PX : bottom + NAME_GAP_PX;
  try_place (search, right, (top + bottom - height) / 2);
  try_place (search, left, (top + bottom - height) / 2);
  try_place (search, CLAMP (x - width / 2, 1, fmax (search->size.width - width - 1, 1)), beyond);
  for (double y = 1; y + height <= search->size.height - 1; y += STEP_PX)
    {
      try_place (search, right, y);
      try_place (search, left, y);
      for (double at = 1; at + width <= search->size.width - 1; at += STEP_PX)
        try_place (search, at, y);
    }
}

static RenderRect
find_place (const Drawing *d, const RenderForce *force, PangoLayout *text, const RenderRect *taken,
            guint n_names, guint n_taken, RenderSize size)
{
  Search search = {
    d, force, taken, n_names, n_taken, size, arrow_rect (d, force), { 0, 0, 0, 0 }, INFINITY
  };
  render_plot_text_size (text, &search.best.width, &search.best.height);
  search_place (&search);
  if (search.best_cost < INFINITY)
    return search.best;
  /* Not over other names, at least. */
  search.n_taken = n_names;
  search_place (&search);
  if (search.best_cost < INFINITY)
    return search.best;
  search.best.x = CLAMP (search.own.x, 1, fmax (size.width - search.best.width - 1, 1));
  search.best.y = CLAMP (search.own.y, 1, fmax (size.height - search.best.height - 1, 1));
  return search.best;
}

/* From a name that stands away from its arrow, or as near to another one. */
static void
draw_leader (Drawing *d, const RenderForce *force, const RenderRect *name, const RenderRect *arrows,
             guint n_arrows, RenderColour ink)
{
  const RenderRect own = arrow_rect (d, force);
  const Search search = { .d = d, .taken = arrows, .n_taken = n_arrows, .own = own };
  const double x = own.x + own.width / 2;
  if (apart_px (name, &own) <= LEADER_PX && !is_near_other (&search, name))
    return;
  const double middle = name->y + name->height / 2,
               to = CLAMP (middle, own.y + DOT_PX, own.y + own.height - DOT_PX),
               from_x = CLAMP (x, name->x - RENDER_PLOT_TEXT_RIM,
                               name->x + name->width + RENDER_PLOT_TEXT_RIM),
               from_y = CLAMP (to, name->y, name->y + name->height);
  cairo_move_to (d->cr, from_x, from_y);
  cairo_line_to (d->cr, x, to);
  cairo_set_line_width (d->cr, LEADER_WIDTH_PX);
  render_plot_source (d->cr, ink, 1);
  cairo_stroke (d->cr);
}

/* Over all arrows, each on a paper of its own. */
static void
draw_names (Drawing *d, RenderSize size, RenderColour ink)
{
  const guint n = MIN (d->figure->n_forces, MOST_NAMED);
  RenderRect taken[2 * MOST_NAMED], arrows[MOST_NAMED], names[MOST_NAMED] = { 0 };
  PangoLayout *texts[MOST_NAMED];
  RenderColour paper = render_paper_colour (d->figure->dark);
  paper.a = 0.8;
  for (guint i = 0; i < n; i++)
    arrows[i] = arrow_rect (d, &d->figure->forces[i]);
  for (guint i = 0; i < n; i++)
    {
      const RenderForce *force = &d->figure->forces[i];
      texts[i] = render_plot_text (d->cr, force->text, d->figure->font, TEXT_PX, FALSE);
      memcpy (taken, names, i * sizeof *names);
      memcpy (taken + i, arrows, n * sizeof *arrows);
      names[i] = find_place (d, force, texts[i], taken, i, i + n, size);
    }
  for (guint i = 0; i < n; i++)
    if (*d->figure->forces[i].text != '\0')
      draw_leader (d, &d->figure->forces[i], &names[i], arrows, n, ink);
  for (guint i = 0; i < n; i++)
    {
      render_plot_text_draw (d->cr, texts[i], names[i].x, names[i].y, ink, &paper);
      g_object_unref (texts[i]);
    }
}

/* The nearest point of the outline. FALSE: @at is within it. */
static gboolean
find_nearest (const Drawing *d, RenderPlanePoint at, RenderPlanePoint *nearest)
{
  const double inside = way_round (d);
  gboolean is_beyond = FALSE;
  double least = INFINITY;
  *nearest = at;
  for (guint i = 0; i < d->figure->n_outline; i++)
    {
      const RenderPlanePoint a = corner_of (d, i), b = corner_of (d, i + 1);
      const double dx = b.x - a.x, dy = b.y - a.y, square = dx * dx + dy * dy;
      const double along
          = square > 0 ? CLAMP (((at.x - a.x) * dx + (at.y - a.y) * dy) / square, 0, 1) : 0;
      const RenderPlanePoint point = { a.x + along * dx, a.y + along * dy };
      const double off = hypot (at.x - point.x, at.y - point.y);
      is_beyond |= side_of (a, b, at.x, at.y) * inside < 0;
      if (off >= least)
        continue;
      least = off;
      *nearest = point;
    }
  return is_beyond;
}

/* A force that acts beside the outline, as on a lug that is not drawn, is tied to it. */
static void
tie (Drawing *d, RenderPlanePoint at, RenderColour ink)
{
  static const double dash[] = { 2, 2 };
  RenderPlanePoint nearest;
  if (!find_nearest (d, at, &nearest))
    return;
  const double off = hypot (at.x - nearest.x, at.y - nearest.y), from = DOT_PX + 1;
  if (off < from)
    return;
  cairo_move_to (d->cr, at.x + from / off * (nearest.x - at.x),
                 at.y + from / off * (nearest.y - at.y));
  cairo_line_to (d->cr, nearest.x, nearest.y);
  cairo_set_dash (d->cr, dash, G_N_ELEMENTS (dash), 0);
  cairo_set_line_width (d->cr, TIE_PX);
  render_plot_source (d->cr, ink, 1);
  cairo_stroke (d->cr);
  cairo_set_dash (d->cr, NULL, 0, 0);
}

static void
draw_outline (Drawing *d)
{
  const RenderForceFigure *figure = d->figure;
  const RenderPalette *palette = render_palette_get (figure->dark);
  for (guint i = 0; i < figure->n_outline; i++)
    cairo_line_to (d->cr, d->left + d->scale * figure->outline[i].x,
                   d->foot - d->scale * figure->outline[i].y);
  cairo_close_path (d->cr);
  render_plot_source (d->cr, palette->faces[RENDER_ROLE_LOAD], FACE);
  cairo_fill_preserve (d->cr);
  render_plot_source (d->cr, palette->edges[RENDER_ROLE_LOAD], 1);
  cairo_set_line_width (d->cr, 1);
  cairo_stroke (d->cr);
}

void
render_force_figure_draw (cairo_t *cr, const RenderForceFigure *figure, RenderSize size)
{
  Drawing d = { .cr = cr, .figure = figure };
  g_assert (figure->n_outline >= 3);
  cairo_save (cr);
  cairo_new_path (cr);
  lay_out (&d, size);
  draw_outline (&d);
  RenderColour ink = render_ink_colour (figure->dark);
  for (guint i = 0; i < figure->n_forces; i++)
    {
      const RenderForce *force = &figure->forces[i];
      double x = d.left + d.scale * force->at.x, y = d.foot - d.scale * force->at.y;
      double tip = tip_of (&d, force);
      tie (&d, (RenderPlanePoint){ x, y }, ink);
      /* A dot would hide a shorter arrow. */
      if (force->newton == 0 || fabs (tip - y) > DOT_PX + ARROW_PX)
        {
          cairo_arc (cr, x, y, DOT_PX, 0, 2 * G_PI);
          render_plot_source (cr, ink, 1);
          cairo_fill (cr);
        }
      if (force->newton != 0)
        arrow (&d, x, y, tip, ink);
    }
  draw_names (&d, size, ink);
  cairo_restore (cr);
}
