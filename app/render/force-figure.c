/* force-figure.c: forces on a load, drawn to scale.
 *
 * The outline goes by Andrew's monotone chain over the lowest and the highest point of each of
 * COLUMNS upright strips: of a mesh of any size no more has to be sorted than that (A. M. Andrew,
 * Another efficient algorithm for convex hulls in two dimensions, 1979). */
#include "force-figure.h"

#include <math.h>

#include "palette.h"
#include "plot-text.h"

#define COLUMNS 256
#define TEXT_PX 11
#define MARGIN_PX 8
#define ARROW_PX 7       /* of the head, along the arrow */
#define ARROW_SHARE 0.34 /* of the height, for the longest arrow */
#define WIDTH_PX 2.2
#define FACE 0.55

G_STATIC_ASSERT (2 * COLUMNS + 4 <= RENDER_HULL_MOST);

/* ---- outline ---- */

static double
turn (RenderPlanePoint a, RenderPlanePoint b, RenderPlanePoint c)
{
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

static int
compare_points (gconstpointer a, gconstpointer b)
{
  const RenderPlanePoint *p = a, *q = b;
  if (p->x != q->x)
    return p->x < q->x ? -1 : 1;
  return (p->y > q->y) - (p->y < q->y);
}

/* Points that no hull point is lost with; returns how many. */
static guint
thin_out (const RenderPlanePoint *points, guint n, RenderPlanePoint kept[2 * COLUMNS])
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
        kept[n_kept++] = low[c];
        kept[n_kept++] = high[c];
      }
  return n_kept;
}

guint
render_plane_hull (const RenderPlanePoint *points, guint n_points,
                   RenderPlanePoint hull[RENDER_HULL_MOST])
{
  RenderPlanePoint kept[2 * COLUMNS];
  guint n = thin_out (points, n_points, kept), k = 0;
  qsort (kept, n, sizeof *kept, compare_points);
  for (guint i = 0; i < n; i++)
    {
      while (k >= 2 && turn (hull[k - 2], hull[k - 1], kept[i]) <= 0)
        k--;
      hull[k++] = kept[i];
    }
  guint lower = k + 1;
  for (guint i = n > 0 ? n - 1 : 0; i-- > 0;)
    {
      while (k >= lower && turn (hull[k - 2], hull[k - 1], kept[i]) <= 0)
        k--;
      hull[k++] = kept[i];
    }
  return k > 1 ? k - 1 : k;
}

/* ---- the figure ---- */

typedef struct
{
  cairo_t *cr;
  const RenderForceFigure *figure;
  double scale, left, foot; /* px of x 0 and y 0 */
  double px_a_newton;
} Drawing;

static void
lay_out (Drawing *d, RenderSize size)
{
  const RenderForceFigure *figure = d->figure;
  RenderPlanePoint lo = figure->outline[0], hi = lo;
  double greatest_n = 0, arrow_px = ARROW_SHARE * size.height;
  for (guint i = 1; i < figure->n_outline; i++)
    {
      lo.x = fmin (lo.x, figure->outline[i].x);
      lo.y = fmin (lo.y, figure->outline[i].y);
      hi.x = fmax (hi.x, figure->outline[i].x);
      hi.y = fmax (hi.y, figure->outline[i].y);
    }
  for (guint i = 0; i < figure->n_forces; i++)
    greatest_n = fmax (greatest_n, fabs (figure->forces[i].newton));
  double width = fmax (hi.x - lo.x, 1e-3), height = fmax (hi.y - lo.y, 1e-3);
  /* Arrows reach beyond the outline by no more than their length. */
  double room_px = fmax (size.height - arrow_px - 2 * MARGIN_PX - TEXT_PX, 10);
  d->scale = fmin ((size.width - 2 * MARGIN_PX) / width, room_px / height);
  d->px_a_newton = greatest_n > 0 ? arrow_px / greatest_n : 0;
  d->left = size.width / 2 - d->scale * (lo.x + hi.x) / 2;
  double spare_px = room_px - d->scale * height;
  d->foot = size.height - MARGIN_PX - spare_px / 2 + d->scale * lo.y;
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

/* Beside the arrow, on the side that has more room, on a paper of its own. */
static void
name_force (Drawing *d, const RenderForce *force, double x, double y, RenderSize size)
{
  double width, height;
  g_autoptr (PangoLayout) text
      = render_plot_text (d->cr, force->text, d->figure->font, TEXT_PX, FALSE);
  render_plot_text_size (text, &width, &height);
  double at = x + ARROW_PX + width + MARGIN_PX <= size.width ? x + ARROW_PX : x - ARROW_PX - width;
  at = CLAMP (at, 2, fmax (size.width - width - 2, 2));
  RenderColour paper = render_paper_colour (d->figure->dark);
  paper.a = 0.8;
  render_plot_text_draw (d->cr, text, at, CLAMP (y - height / 2, 0, size.height - height),
                         render_ink_colour (d->figure->dark), &paper);
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
  for (guint i = 0; i < figure->n_forces; i++)
    {
      const RenderForce *force = &figure->forces[i];
      double x = d.left + d.scale * force->at.x, y = d.foot - d.scale * force->at.y;
      name_force (&d, force, x, y - 0.6 * d.px_a_newton * force->newton, size);
    }
  cairo_restore (cr);
}
