/* plates.c: greedy search, nearest places first.
 *
 * Round the point of a label there are rings of places, sixteen directions each. A place is out
 * when it covers anything that is never covered; among the others the cheapest wins: near, not over
 * the load, its leader not across another plate. Where no ring has room, the whole view is tried on
 * a grid. One pass without going back is enough for the dozen labels of a view, and gives the same
 * picture for the same view. */
#include "plates.h"

#include <stdlib.h>

#define GAP 6   /* between plates, and round what is kept out */
#define EDGE 8  /* from the edge of the view */
#define POINT 7 /* half the size of what is kept free round a point */
#define DIRECTIONS 16
#define OVER_LOAD 240 /* what covering the load costs, in pixels of distance */
#define CROSSING 40   /* a leader across a plate */
#define GRID_STEP 12

static const double rings[] = { 16, 24, 34, 46, 62, 82, 106, 136, 172, 216, 270, 340 };
static const double quiet_rings[] = { 8, 14, 22, 32 };

RenderKeepOut
render_keep_out_make (void)
{
  return (RenderKeepOut){ g_array_new (FALSE, FALSE, sizeof (RenderRect)),
                          g_array_new (FALSE, FALSE, sizeof (RenderSegment)),
                          g_array_new (FALSE, FALSE, sizeof (RenderSegment)) };
}

void
render_keep_out_clear (RenderKeepOut *keep_out)
{
  g_array_unref (keep_out->rects);
  g_array_unref (keep_out->segments);
  g_array_unref (keep_out->outline);
}

void
render_keep_out_add_rect (RenderKeepOut *keep_out, double x, double y, double width, double height)
{
  RenderRect rect = { x, y, width, height };
  g_array_append_val (keep_out->rects, rect);
}

void
render_keep_out_add_segment (RenderKeepOut *keep_out, double x0, double y0, double x1, double y1)
{
  RenderSegment segment = { x0, y0, x1, y1 };
  g_array_append_val (keep_out->segments, segment);
}

static int
compare_points (gconstpointer a, gconstpointer b)
{
  const double *p = a, *q = b;
  if (p[0] != q[0])
    return p[0] < q[0] ? -1 : 1;
  return p[1] < q[1] ? -1 : p[1] > q[1];
}

static double
turn (const double *a, const double *b, const double *c)
{
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

/* Andrew's monotone chain. */
void
render_keep_out_set_hull (RenderKeepOut *keep_out, double (*points)[2], guint n)
{
  g_array_set_size (keep_out->outline, 0);
  if (n < 3)
    return;
  double (*sorted)[2] = g_memdup2 (points, n * sizeof *points);
  double (*hull)[2] = g_malloc (2 * (gsize)n * sizeof *hull);
  qsort (sorted, n, sizeof *sorted, compare_points);
  guint count = 0, kept = 1;
  for (guint i = 0; i < 2 * n - 1; i++)
    {
      const double *p = sorted[i < n ? i : 2 * n - 2 - i];
      kept = i == n ? count : kept;
      while (count > kept && turn (hull[count - 2], hull[count - 1], p) <= 0)
        count--;
      hull[count][0] = p[0];
      hull[count++][1] = p[1];
    }
  for (guint i = 0; i + 1 < count; i++)
    {
      RenderSegment side = { hull[i][0], hull[i][1], hull[i + 1][0], hull[i + 1][1] };
      g_array_append_val (keep_out->outline, side);
    }
  g_free (sorted);
  g_free (hull);
}

gboolean
render_rects_overlap (const RenderRect *a, const RenderRect *b)
{
  return a->x < b->x + b->width && b->x < a->x + a->width && a->y < b->y + b->height
         && b->y < a->y + a->height;
}

static RenderRect
grown (const RenderRect *rect, double by)
{
  return (RenderRect){ rect->x - by, rect->y - by, rect->width + 2 * by, rect->height + 2 * by };
}

/* Liang and Barsky: the part of the segment within the rectangle is not empty. */
static gboolean
segment_meets (const RenderSegment *s, const RenderRect *rect)
{
  double t0 = 0, t1 = 1, dx = s->x1 - s->x0, dy = s->y1 - s->y0;
  const double p[] = { -dx, dx, -dy, dy };
  const double q[] = { s->x0 - rect->x, rect->x + rect->width - s->x0, s->y0 - rect->y,
                       rect->y + rect->height - s->y0 };
  for (guint i = 0; i < 4; i++)
    {
      if (p[i] == 0 && q[i] < 0)
        return FALSE;
      if (p[i] < 0)
        t0 = fmax (t0, q[i] / p[i]);
      else if (p[i] > 0)
        t1 = fmin (t1, q[i] / p[i]);
    }
  return t0 <= t1;
}

/* Two convex outlines are apart when one of their sides has the other wholly outside; for the
 * rectangle those sides are its box, for the hull each of its own. */
static gboolean
meets_hull (const GArray *sides, const RenderRect *rect)
{
  if (sides->len < 3)
    return FALSE;
  RenderRect box = { INFINITY, INFINITY, 0, 0 };
  double right = -INFINITY, bottom = -INFINITY;
  for (guint i = 0; i < sides->len; i++)
    {
      const RenderSegment *s = &g_array_index (sides, RenderSegment, i);
      gboolean outside = TRUE;
      for (guint k = 0; k < 4 && outside; k++)
        {
          double c[]
              = { rect->x + (k & 1 ? rect->width : 0), rect->y + (k & 2 ? rect->height : 0) };
          outside = turn ((double[]){ s->x0, s->y0 }, (double[]){ s->x1, s->y1 }, c) < 0;
        }
      if (outside)
        return FALSE;
      box.x = fmin (box.x, s->x0);
      box.y = fmin (box.y, s->y0);
      right = fmax (right, s->x0);
      bottom = fmax (bottom, s->y0);
    }
  box.width = right - box.x;
  box.height = bottom - box.y;
  return render_rects_overlap (&box, rect);
}

void
render_plate_leader_end (const RenderPlate *plate, double *x, double *y)
{
  *x = CLAMP (plate->x, plate->rect.x, plate->rect.x + plate->rect.width);
  *y = CLAMP (plate->y, plate->rect.y, plate->rect.y + plate->rect.height);
}

typedef struct
{
  RenderPlate *plates;
  guint n_plates, at; /* the one to be placed; those before it are done */
  const RenderKeepOut *keep_out;
  RenderSize size;
} Search;

static gboolean
is_free (const Search *search, const RenderRect *rect)
{
  if (rect->x < EDGE || rect->y < EDGE || rect->x + rect->width > search->size.width - EDGE
      || rect->y + rect->height > search->size.height - EDGE)
    return FALSE;
  RenderRect room = grown (rect, GAP);
  const RenderKeepOut *keep_out = search->keep_out;
  for (guint i = 0; i < keep_out->rects->len; i++)
    if (render_rects_overlap (&room, &g_array_index (keep_out->rects, RenderRect, i)))
      return FALSE;
  for (guint i = 0; i < keep_out->segments->len; i++)
    if (segment_meets (&g_array_index (keep_out->segments, RenderSegment, i), &room))
      return FALSE;
  for (guint i = 0; i < search->n_plates; i++)
    {
      const RenderPlate *other = &search->plates[i];
      RenderRect point = { other->x - POINT, other->y - POINT, 2 * POINT, 2 * POINT };
      if ((!other->quiet || i == search->at) && render_rects_overlap (rect, &point))
        return FALSE;
      if (i < search->at && other->placed && render_rects_overlap (&room, &other->rect))
        return FALSE;
    }
  return TRUE;
}

static double
cost_of (const Search *search, const RenderRect *rect)
{
  RenderPlate plate = search->plates[search->at];
  plate.rect = *rect;
  RenderSegment leader = { .x0 = plate.x, .y0 = plate.y };
  render_plate_leader_end (&plate, &leader.x1, &leader.y1);
  double cost = hypot (leader.x1 - leader.x0, leader.y1 - leader.y0);
  if (meets_hull (search->keep_out->outline, rect))
    cost += OVER_LOAD;
  for (guint i = 0; i < search->at; i++)
    if (search->plates[i].placed && segment_meets (&leader, &search->plates[i].rect))
      cost += CROSSING;
  return cost;
}

/* A place whose edge is @ring from the point, in the direction @k, numbered from the upper right.
 */
static RenderRect
ring_place (const RenderPlate *plate, double ring, guint k)
{
  static const int order[DIRECTIONS] = { 2, -2, 1, 3, 0, -1, 4, 6, 5, 7, -6, 8, -4, -3, -5, -7 };
  double angle = order[k] * 2 * G_PI / DIRECTIONS, c = cos (angle), s = sin (angle);
  /* Along the level the edge is at the ring when the middle is half a width beyond it. */
  double x = plate->x + c * ring + CLAMP (c * 2, -1, 1) * plate->width / 2;
  double y = plate->y - s * ring - CLAMP (s * 2, -1, 1) * plate->height / 2;
  return (RenderRect){ round (x - plate->width / 2), round (y - plate->height / 2), plate->width,
                       plate->height };
}

static void
consider (const Search *search, const RenderRect *rect, double least, double *best)
{
  RenderPlate *plate = &search->plates[search->at];
  if (!is_free (search, rect))
    return;
  double cost = cost_of (search, rect) + least;
  if (cost >= *best)
    return;
  *best = cost;
  plate->rect = *rect;
  plate->placed = TRUE;
}

static void
search_grid (const Search *search, double *best)
{
  RenderPlate *plate = &search->plates[search->at];
  for (double y = EDGE; y + plate->height <= search->size.height - EDGE; y += GRID_STEP)
    for (double x = EDGE; x + plate->width <= search->size.width - EDGE; x += GRID_STEP)
      consider (search, &(RenderRect){ x, y, plate->width, plate->height }, 0, best);
}

static void
place_one (const Search *search)
{
  RenderPlate *plate = &search->plates[search->at];
  plate->placed = FALSE;
  double best = INFINITY;
  guint n = plate->quiet ? G_N_ELEMENTS (quiet_rings) : G_N_ELEMENTS (rings);
  for (guint i = 0; i < n; i++)
    {
      double ring = plate->quiet ? quiet_rings[i] : rings[i];
      for (guint k = 0; k < DIRECTIONS && ring < best; k++)
        {
          RenderRect rect = ring_place (plate, ring, k);
          consider (search, &rect, 0.2 * k, &best);
        }
    }
  if (!plate->placed && !plate->quiet)
    search_grid (search, &best);
}

void
render_plates_place (RenderPlate *plates, guint n_plates, const RenderKeepOut *keep_out,
                     RenderSize size)
{
  Search search = { plates, n_plates, 0, keep_out, size };
  for (; search.at < n_plates; search.at++)
    place_one (&search);
}
