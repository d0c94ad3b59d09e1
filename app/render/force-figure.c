/* force-figure.c: forces on a load, drawn to scale.
 *
 * The outline is the hull of the lowest and the highest point of each of COLUMNS upright strips: of
 * a mesh of any size no more has to be sorted than that. */
#include "force-figure.h"

#include <math.h>

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
  if (fabs (to - from) < ARROW_PX)
    head *= fabs (to - from) / ARROW_PX;
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

static gboolean
is_free (const RenderRect *rect, const RenderRect *taken, guint n_taken, RenderSize size)
{
  if (rect->x < 1 || rect->y < 1 || rect->x + rect->width > size.width - 1
      || rect->y + rect->height > size.height - 1)
    return FALSE;
  for (guint i = 0; i < n_taken; i++)
    if (render_rects_overlap (rect, &taken[i]))
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
  gboolean is_left = TRUE, is_right = TRUE, is_above = TRUE, is_below = TRUE;
  for (guint i = 0; i < n; i++)
    {
      const RenderPlanePoint a = corner_of (d, i), b = corner_of (d, i + 1);
      const RenderPlanePoint inner = corner_of (d, i + 2);
      is_left &= a.x <= ends[0].x;
      is_right &= a.x >= ends[3].x;
      is_above &= a.y <= ends[0].y;
      is_below &= a.y >= ends[3].y;
      const double inside = side_of (a, b, inner.x, inner.y);
      gboolean is_beyond = TRUE;
      for (guint k = 0; k < G_N_ELEMENTS (ends); k++)
        is_beyond &= side_of (a, b, ends[k].x, ends[k].y) * inside <= 0;
      if (is_beyond && inside != 0)
        return FALSE;
    }
  return !is_left && !is_right && !is_above && !is_below;
}

static RenderRect
arrow_rect (const Drawing *d, const RenderForce *force)
{
  double x = d->left + d->scale * force->at.x, y = d->foot - d->scale * force->at.y;
  double tip = y - d->px_a_newton * force->newton;
  return (RenderRect){ x - 0.55 * ARROW_PX, fmin (y, tip), 1.1 * ARROW_PX, fabs (tip - y) };
}

/* Beside the arrow, else beyond its tip, where it covers nothing of @taken, nor of the load where
 * @is_off_load. FALSE: nowhere. */
static gboolean
find_place (const Drawing *d, const RenderForce *force, const RenderRect *taken, guint n_taken,
            gboolean is_off_load, RenderSize size, RenderRect *place)
{
  double x = d->left + d->scale * force->at.x, y = d->foot - d->scale * force->at.y;
  double tip = y - d->px_a_newton * force->newton, width = place->width, height = place->height;
  double right = x + ARROW_PX, left = x - ARROW_PX - width, middle = (y + tip - height) / 2;
  double beyond = force->newton > 0 ? tip - height - NAME_GAP_PX : tip + NAME_GAP_PX;
  double over = CLAMP (x - width / 2, 1, fmax (size.width - width - 1, 1));
  const RenderRect places[] = { { right, middle, width, height }, { left, middle, width, height },
                                { right, beyond, width, height }, { left, beyond, width, height },
                                { over, beyond, width, height },  { right, y + 4, width, height },
                                { left, y + 4, width, height } };
  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    if (is_free (&places[i], taken, n_taken, size) && !(is_off_load && covers_load (d, &places[i])))
      {
        *place = places[i];
        return TRUE;
      }
  place->x = CLAMP (right, 1, fmax (size.width - width - 1, 1));
  place->y = CLAMP (middle, 1, fmax (size.height - height - 1, 1));
  return FALSE;
}

/* Where it covers no other name, and no arrow and nothing of the load if there is such a place; on
 * a paper of its own. @taken: the names before it, then the arrows. */
static RenderRect
name_force (Drawing *d, const RenderForce *force, const RenderRect *taken, guint n_names,
            guint n_taken, RenderSize size)
{
  RenderRect at = { 0 };
  g_autoptr (PangoLayout) text
      = render_plot_text (d->cr, force->text, d->figure->font, TEXT_PX, FALSE);
  render_plot_text_size (text, &at.width, &at.height);
  if (!find_place (d, force, taken, n_taken, TRUE, size, &at)
      && !find_place (d, force, taken, n_taken, FALSE, size, &at))
    find_place (d, force, taken, n_names, FALSE, size, &at);
  RenderColour paper = render_paper_colour (d->figure->dark);
  paper.a = 0.8;
  render_plot_text_draw (d->cr, text, at.x, at.y, render_ink_colour (d->figure->dark), &paper);
  return at;
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
      double tip = y - d.px_a_newton * force->newton;
      cairo_arc (cr, x, y, 3, 0, 2 * G_PI);
      render_plot_source (cr, ink, 1);
      cairo_fill (cr);
      if (force->newton != 0)
        arrow (&d, x, y, tip, ink);
    }
  /* Over all arrows. */
  RenderRect taken[2 * MOST_NAMED];
  const guint n = MIN (figure->n_forces, MOST_NAMED);
  for (guint i = 0; i < n; i++)
    {
      for (guint k = 0; k < n; k++)
        taken[i + k] = arrow_rect (&d, &figure->forces[k]);
      taken[i] = name_force (&d, &figure->forces[i], taken, i, i + n, size);
    }
  cairo_restore (cr);
}
