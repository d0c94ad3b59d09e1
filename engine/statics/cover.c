/* A convex polygon is taken off a convex piece by its edges in turn: what is outside of one is a
 * piece that is left, what is inside goes on to the next edge, and what is inside of all is gone.
 * A piece that does not overlap the polygon stays whole: some edge of the one or of the other parts
 * them, since both are convex. So pieces only ever get smaller.
 *
 * The rectangle is halved first until a part has few polygons, so that n of them that hardly
 * overlap cost O(n log n). Polygons that are apart from a part, though their boxes are not, as
 * slivers of a fan, do not count for it, and where one has all of a part nothing is left of that.
 *
 * A speck takes nothing off: where all of its corners are one and the same no edge has anything
 * outside, and all of a piece would be gone.
 *
 * Rounding. A corner of a cut is off by some 1e-16 of the coordinates, which are about the
 * rectangle where the caller has it near the origin. What overlaps by less than TOUCH_M stays, so
 * that the seam of two polygons cuts nothing; with what is too small for a piece it is left or
 * summed up, never dropped. A convex polygon without one of its corners is a part of it: where
 * corners are one, a polygon takes less off, and what a piece loses is summed up. */
#include "cover.h"

/* Far above rounding at 1 km, far below what anything is built to. */
#define TOUCH_M 1e-9
#define SLIVER_M2 1e-9
/* Corners nearer to each other are one: an edge so short has no direction but that of rounding, and
 * would part what overlaps. */
#define SAME_M 1e-8
/* Above it a polygon's edges have directions, below it they may be those of rounding. */
#define SPECK_M2 1e-12
/* Polygons that are taken off one part of the rectangle, if so many halvings get there. */
#define FEW 32
#define MOST_HALVINGS 16
/* While it is cut: a cut adds one corner, and rounding may add two where edges are in line. */
#define MOST_CORNERS 32

typedef struct
{
  guint n;
  TrnLevelPoint p[MOST_CORNERS];
} Shape;

/* Outside is a x + b y > c; in metres. */
typedef struct
{
  double a, b, c;
} Line;

typedef struct
{
  const TrnCoverPiece *polygons;
  GArray *left; /* of TrnCoverPiece */
  double lost_m2;
} Cover;

static gboolean
is_same (TrnLevelPoint a, TrnLevelPoint b)
{
  return hypot (a.x_m - b.x_m, a.y_m - b.y_m) < SAME_M;
}

TrnCoverPiece
trn_cover_piece_make (const TrnLevelPoint *corners, guint n)
{
  TrnCoverPiece piece = { .lo = { INFINITY, INFINITY }, .hi = { -INFINITY, -INFINITY } };
  g_assert (n <= TRN_COVER_CORNERS);
  for (guint i = 0; i < n; i++)
    {
      if (piece.n > 0
          && (is_same (corners[i], piece.p[piece.n - 1])
              || (i + 1 == n && is_same (corners[i], piece.p[0]))))
        continue;
      piece.p[piece.n++] = corners[i];
      piece.lo.x_m = fmin (piece.lo.x_m, corners[i].x_m);
      piece.lo.y_m = fmin (piece.lo.y_m, corners[i].y_m);
      piece.hi.x_m = fmax (piece.hi.x_m, corners[i].x_m);
      piece.hi.y_m = fmax (piece.hi.y_m, corners[i].y_m);
    }
  return piece;
}

static TrnCoverPiece
rectangle (TrnLevelPoint lo, TrnLevelPoint hi)
{
  const TrnLevelPoint corners[4] = { lo, { hi.x_m, lo.y_m }, hi, { lo.x_m, hi.y_m } };
  return trn_cover_piece_make (corners, 4);
}

static double
area_of (const TrnLevelPoint *p, guint n)
{
  double twice = 0;
  for (guint i = 2; i < n; i++)
    twice += (p[i - 1].x_m - p[0].x_m) * (p[i].y_m - p[0].y_m)
             - (p[i - 1].y_m - p[0].y_m) * (p[i].x_m - p[0].x_m);
  return twice / 2;
}

double
trn_cover_area_m2 (const TrnCoverPiece *piece)
{
  return area_of (piece->p, piece->n);
}

/* ---- cuts ---- */

/* Of the edge of @piece after corner @i. FALSE: it has no length. */
static gboolean
edge_line (const TrnCoverPiece *piece, guint i, Line *line)
{
  const TrnLevelPoint p = piece->p[i], q = piece->p[i + 1 < piece->n ? i + 1 : 0];
  const double dx = q.x_m - p.x_m, dy = q.y_m - p.y_m, square = dx * dx + dy * dy;
  if (!(square > 0))
    return FALSE;
  const double inverse = 1 / sqrt (square);
  *line = (Line){ dy * inverse, -dx * inverse, 0 };
  line->c = line->a * p.x_m + line->b * p.y_m;
  return TRUE;
}

static double
beyond (const Line *line, TrnLevelPoint p)
{
  return line->a * p.x_m + line->b * p.y_m - line->c;
}

/* Whether an edge of @one has all of @other outside, to within TOUCH_M. */
static gboolean
has_outside (const TrnCoverPiece *one, const TrnCoverPiece *other)
{
  for (guint i = 0; i < one->n; i++)
    {
      Line line;
      double least = INFINITY;
      if (!edge_line (one, i, &line))
        continue;
      for (guint k = 0; k < other->n; k++)
        least = fmin (least, beyond (&line, other->p[k]));
      if (least >= -TOUCH_M)
        return TRUE;
    }
  return FALSE;
}

static gboolean
boxes_apart (const TrnCoverPiece *a, const TrnCoverPiece *b)
{
  return a->hi.x_m <= b->lo.x_m || b->hi.x_m <= a->lo.x_m || a->hi.y_m <= b->lo.y_m
         || b->hi.y_m <= a->lo.y_m;
}

static gboolean
is_apart (const TrnCoverPiece *a, const TrnCoverPiece *b)
{
  return boxes_apart (a, b) || has_outside (a, b) || has_outside (b, a);
}

/* Of a polygon that is no speck. */
static gboolean
has_all_of (const TrnCoverPiece *polygon, const TrnCoverPiece *part)
{
  for (guint i = 0; i < polygon->n; i++)
    {
      Line line;
      if (!edge_line (polygon, i, &line))
        continue;
      for (guint k = 0; k < part->n; k++)
        if (beyond (&line, part->p[k]) > 0)
          return FALSE;
    }
  return TRUE;
}

static void
add_corner (Shape *shape, TrnLevelPoint p)
{
  g_assert (shape->n < MOST_CORNERS);
  shape->p[shape->n++] = p;
}

/* What of @shape is inside the line, or, with @sign −1, outside. */
static Shape
cut (const Shape *shape, const Line *line, double sign)
{
  Shape part = { 0 };
  for (guint i = 0; i < shape->n; i++)
    {
      const TrnLevelPoint p = shape->p[i], q = shape->p[i + 1 < shape->n ? i + 1 : 0];
      const double of_p = sign * beyond (line, p), of_q = sign * beyond (line, q);
      if (of_p <= 0)
        add_corner (&part, p);
      if ((of_p < 0 && of_q > 0) || (of_p > 0 && of_q < 0))
        {
          const double t = of_p / (of_p - of_q);
          add_corner (&part,
                      (TrnLevelPoint){ p.x_m + t * (q.x_m - p.x_m), p.y_m + t * (q.y_m - p.y_m) });
        }
    }
  return part;
}

/* One of too many corners is halved. */
static void
keep (Cover *cover, const TrnLevelPoint *corners, guint n)
{
  const double area_m2 = area_of (corners, n);
  if (!(area_m2 > SLIVER_M2))
    {
      cover->lost_m2 += fmax (area_m2, 0);
      return;
    }
  if (n <= TRN_COVER_CORNERS)
    {
      const TrnCoverPiece piece = trn_cover_piece_make (corners, n);
      cover->lost_m2 += area_m2 - trn_cover_area_m2 (&piece);
      g_array_append_val (cover->left, piece);
      return;
    }
  const guint half = n / 2;
  TrnLevelPoint rest[MOST_CORNERS];
  rest[0] = corners[0];
  for (guint i = half; i < n; i++)
    rest[i - half + 1] = corners[i];
  keep (cover, corners, half + 1);
  keep (cover, rest, n - half + 1);
}

static void
take_off (Cover *cover, const TrnCoverPiece *piece, const TrnCoverPiece *polygon)
{
  Shape inside = { .n = piece->n };
  for (guint i = 0; i < piece->n; i++)
    inside.p[i] = piece->p[i];
  for (guint i = 0; i < polygon->n && inside.n >= 3; i++)
    {
      Line line;
      if (!edge_line (polygon, i, &line))
        continue;
      const Shape outside = cut (&inside, &line, -1);
      keep (cover, outside.p, outside.n);
      inside = cut (&inside, &line, 1);
    }
}

/* ---- parts of the rectangle ---- */

/* Takes them off @part, whose place among what is left is that of the first beyond what was there.
 */
static void
cover_part (Cover *cover, const TrnCoverPiece *part, const guint *which, guint n)
{
  GArray *left = cover->left;
  const guint first = left->len;
  g_array_append_val (left, *part);
  for (guint i = 0; i < n && left->len > first; i++)
    {
      const TrnCoverPiece *polygon = &cover->polygons[which[i]];
      /* From the last: in the place of one that is cut comes one that was looked at. */
      for (guint k = left->len; k > first; k--)
        {
          const TrnCoverPiece piece = g_array_index (left, TrnCoverPiece, k - 1);
          if (is_apart (&piece, polygon))
            continue;
          g_array_remove_index_fast (left, k - 1);
          take_off (cover, &piece, polygon);
        }
    }
}

/* @which: those of the polygons that are not apart from @part, or whose boxes are not. */
static void
halve (Cover *cover, const TrnCoverPiece *part, const guint *which, guint n, guint depth)
{
  if (n <= FEW || depth == 0)
    {
      cover_part (cover, part, which, n);
      return;
    }
  const gboolean by_x = part->hi.x_m - part->lo.x_m > part->hi.y_m - part->lo.y_m;
  g_autofree guint *of_half = g_new (guint, n);
  for (int i = 0; i < 2; i++)
    {
      TrnLevelPoint lo = part->lo, hi = part->hi;
      double *end = by_x ? (i == 0 ? &hi.x_m : &lo.x_m) : (i == 0 ? &hi.y_m : &lo.y_m);
      *end = by_x ? 0.5 * (lo.x_m + hi.x_m) : 0.5 * (lo.y_m + hi.y_m);
      const TrnCoverPiece half = rectangle (lo, hi);
      guint n_half = 0;
      gboolean is_gone = FALSE;
      for (guint k = 0; k < n && !is_gone; k++)
        {
          const TrnCoverPiece *polygon = &cover->polygons[which[k]];
          if (is_apart (&half, polygon))
            continue;
          of_half[n_half++] = which[k];
          is_gone = has_all_of (polygon, &half);
        }
      if (!is_gone)
        halve (cover, &half, of_half, n_half, depth - 1);
    }
}

GArray *
trn_cover_left (TrnLevelPoint lo, TrnLevelPoint hi, const TrnCoverPiece *polygons, guint n,
                double *lost_m2)
{
  Cover cover
      = { .polygons = polygons, .left = g_array_new (FALSE, FALSE, sizeof (TrnCoverPiece)) };
  const TrnCoverPiece all = rectangle (lo, hi);
  g_autofree guint *which = g_new (guint, MAX (n, 1));
  guint n_near = 0;
  for (guint i = 0; i < n; i++)
    if (trn_cover_area_m2 (&polygons[i]) > SPECK_M2 && !boxes_apart (&all, &polygons[i]))
      which[n_near++] = i;
  halve (&cover, &all, which, n_near, MOST_HALVINGS);
  *lost_m2 = cover.lost_m2;
  return cover.left;
}
