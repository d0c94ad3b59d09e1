/* Directions near one. Let the picture lie in the plane square to d₀ through the middle of the
 * body, x and y in it and z along d₀. Along d₀ + a e_x + b e_y the point (x, y, z) is seen there at
 * (x − a z, y − b z): with v = (a, b), at p − z v. That direction is longer than d₀ by √(1 + |v|²),
 * and shows what is covered there divided by that. So over all |a| <= A, |b| <= B the picture is
 * that along d₀ with each point grown by A |z| and B |z|.
 *
 * Less is grown after a change of the plane. With z = α + g·p + z' for any α and g,
 *   p − z v = M (p − z' M⁻¹v) − α v,  M = 1 − v gᵀ,  det M = 1 − g·v,  M⁻¹v = v/(1 − g·v),
 * which covers det M times what p − z' v/(1 − g·v) covers, and moves it aside. So z' alone is to be
 * grown by, A and B divided by 1 − q, q = A |g_x| + B |g_y|, and the area times
 *   max (1 − g·v)/√(1 + |v|²) <= min (1 + q, √(1 + |g|²)).
 * α and g are those of the regression of z on x and y. A step aside of s in space is one of s √(1 +
 * |v|²) at most in the plane, and before M, since M⁻¹ = 1 + v gᵀ/(1 − g·v), no more than 1 + |v|
 * |g|/(1 − q) times that.
 *
 * Counting. A facet is flat and so is what is seen of it for each v: over a row of pixels it
 * reaches from the least to the greatest place on its sides there. A point of a side is a mixture
 * of its ends, and so is z' there: it is grown by no more than the mixture of what the ends are
 * grown by. So each side is a box that goes from end to end, changing its size evenly; what it
 * reaches within a row is linear in where it is, so that the ends of the part of the way in which
 * it comes into the row tell. All pixels between count, and each that is touched counts whole.
 */
#include "silhouette-picture.h"

#include <math.h>
#include <string.h>

/* More than all roundings, as a share of the size: by so much each point is grown on top. An area
 * is rounded by some 2⁻⁵³ of itself, by less than that makes it larger. */
#define OUTWARDS 1e-9
/* More than that of a triangle's area, as a share of the square of the size. */
#define ROUNDING 1e-14
/* Beyond these the plane stays as it is. */
#define MOST_PART 0.3
#define MOST_SLOPE 10

/* In the picture: a place, and what it is grown by; in the end in columns and rows. */
typedef struct
{
  double x, y, grow_x, grow_y;
} Spot;

/* From end to end: where its low and high end are, and how much farther those at the other end; so
 * left and right. */
typedef struct
{
  double low, low_by, high, high_by, left, left_by, right, right_by;
  int first, last; /* rows */
} Side;

/* Of facets the ball of which would make the picture larger. */
#define LARGE 0.02
#define STEEP 1e-3 /* rows */
/* As many times as there are rows: finer where that costs nothing. */
#define COLUMNS 4

struct _TrnPicture
{
  const TrnFacets *facets;
  guint rows, columns, words; /* words of a row */
  TrnSight sight;
  double slack_m;
  double slope, part;  /* |g|, q */
  TrnVec3 off;         /* z' is how far along this a point is, … */
  double off_m;        /* … less this */
  double steep;        /* how long that is */
  double shift, aside; /* 1/(1 − q), and what a step aside comes to */
  double lo_x, lo_y, pixel_x, pixel_y;
  guint64 *bits;
  double *left, *right; /* of each row, of one facet */
  Spot *spots;          /* of one facet */
};

TrnPicture *
trn_picture_new (const TrnFacets *facets)
{
  TrnPicture *picture = g_new0 (TrnPicture, 1);
  picture->facets = facets;
  picture->left = g_new (double, TRN_PICTURE_MOST);
  picture->right = g_new (double, TRN_PICTURE_MOST);
  picture->bits = g_new (guint64, COLUMNS * TRN_PICTURE_MOST * TRN_PICTURE_MOST / 64);
  picture->spots = g_new (Spot, MAX (3, facets->n_points));
  return picture;
}

void
trn_picture_free (TrnPicture *picture)
{
  g_free (picture->left);
  g_free (picture->right);
  g_free (picture->bits);
  g_free (picture->spots);
  g_free (picture);
}

/* ---- places ---- */

/* Rows go along the side of the picture on which facets come into fewer of them. */
static TrnSight
laid (const TrnPicture *picture, const TrnSight *sight)
{
  const TrnFacets *facets = picture->facets;
  double across = 0, up = 0, lo_x = INFINITY, hi_x = -INFINITY, lo_y = INFINITY, hi_y = -INFINITY;
  for (guint i = 0; i < facets->n_facets; i++)
    {
      TrnFacetRoom room;
      guint count;
      const TrnVec3 *corners = trn_facets_corners (facets, i, &room, &count);
      const TrnVec3 a = corners[0], b = corners[count / 2];
      const double x = trn_vec3_dot (a, sight->across), y = trn_vec3_dot (a, sight->up);
      across += fabs (trn_vec3_dot (b, sight->across) - x);
      up += fabs (trn_vec3_dot (b, sight->up) - y);
      lo_x = MIN (lo_x, x);
      hi_x = MAX (hi_x, x);
      lo_y = MIN (lo_y, y);
      hi_y = MAX (hi_y, y);
    }
  if (up * (hi_x - lo_x) <= across * (hi_y - lo_y))
    return *sight;
  return (TrnSight){ sight->along, sight->up, sight->across, sight->up_by, sight->across_by };
}

/* Of the middles of facets. */
static void
find_plane (TrnPicture *picture)
{
  const TrnSight *sight = &picture->sight;
  const guint n = picture->facets->n_facets;
  double sum[3] = { 0, 0, 0 }, xx = 0, xy = 0, yy = 0, xz = 0, yz = 0;
  for (guint i = 0; i < n; i++)
    {
      TrnFacetRoom room;
      const TrnVec3 *corners;
      const TrnVec3 at = trn_facets_get (picture->facets, i, &room, &corners)->middle;
      const double x = trn_vec3_dot (at, sight->across), y = trn_vec3_dot (at, sight->up),
                   z = trn_vec3_dot (at, sight->along);
      sum[0] += x;
      sum[1] += y;
      sum[2] += z;
      xx += x * x;
      xy += x * y;
      yy += y * y;
      xz += x * z;
      yz += y * z;
    }
  const double mx = sum[0] / n, my = sum[1] / n, mz = sum[2] / n;
  xx -= mx * sum[0];
  xy -= mx * sum[1];
  yy -= my * sum[1];
  xz -= mx * sum[2];
  yz -= my * sum[2];
  const double det = xx * yy - xy * xy;
  double gx = (xz * yy - yz * xy) / det, gy = (yz * xx - xz * xy) / det;
  picture->part = sight->across_by * fabs (gx) + sight->up_by * fabs (gy);
  picture->slope = hypot (gx, gy);
  if (!(picture->part <= MOST_PART) || !(picture->slope <= MOST_SLOPE))
    gx = gy = picture->slope = picture->part = 0;
  picture->off_m = mz - gx * mx - gy * my;
  picture->steep = hypot (1, picture->slope);
  picture->off = trn_vec3_add_scaled (trn_vec3_add_scaled (sight->along, sight->across, -gx),
                                      sight->up, -gy);
}

/* A point of a facet and all within @radius_m of it. */
static Spot
place (const TrnPicture *picture, const TrnFacet *facet, TrnVec3 point, double radius_m)
{
  const double depth_m
      = fabs (trn_vec3_dot (point, picture->off) - picture->off_m) + picture->steep * radius_m;
  const double by = picture->aside * (picture->slack_m + facet->thick_m) + radius_m
                    + OUTWARDS * picture->facets->reach_m;
  return (Spot){ trn_vec3_dot (point, picture->sight.across),
                 trn_vec3_dot (point, picture->sight.up),
                 picture->sight.across_by * picture->shift * depth_m + by,
                 picture->sight.up_by * picture->shift * depth_m + by };
}

static void
lay_out (TrnPicture *picture)
{
  const double length = hypot (picture->sight.across_by, picture->sight.up_by);
  picture->shift = 1 / (1 - picture->part);
  picture->aside = hypot (1, length) * (1 + length * picture->slope * picture->shift);
  double hi_x = -INFINITY, hi_y = -INFINITY;
  picture->lo_x = picture->lo_y = INFINITY;
  for (guint i = 0; i < picture->facets->n_facets; i++)
    {
      TrnFacetRoom room;
      const TrnVec3 *corners;
      const TrnFacet *facet = trn_facets_get (picture->facets, i, &room, &corners);
      const gboolean is_large = facet->radius_m > LARGE * picture->facets->reach_m;
      for (guint k = 0; k < (is_large ? facet->count : 1); k++)
        {
          const Spot spot = is_large ? place (picture, facet, corners[k], 0)
                                     : place (picture, facet, facet->middle, facet->radius_m);
          picture->lo_x = MIN (picture->lo_x, spot.x - spot.grow_x);
          picture->lo_y = MIN (picture->lo_y, spot.y - spot.grow_y);
          hi_x = MAX (hi_x, spot.x + spot.grow_x);
          hi_y = MAX (hi_y, spot.y + spot.grow_y);
        }
    }
  picture->pixel_x = (hi_x - picture->lo_x) / picture->columns;
  picture->pixel_y = (hi_y - picture->lo_y) / picture->rows;
}

/* ---- counting ---- */

static int
row_of (const TrnPicture *picture, double y)
{
  return (int)CLAMP (y, 0, picture->rows - 1);
}

static void
reach (TrnPicture *picture, int row, double left, double right)
{
  picture->left[row] = MIN (picture->left[row], left);
  picture->right[row] = MAX (picture->right[row], right);
}

/* Where along a side, from 0 to 1, @from + t @by is <= @most. */
static void
clip (double from, double by, double most, double *begin, double *end)
{
  if (by > 0)
    *end = MIN (*end, (most - from) / by);
  else if (by < 0)
    *begin = MAX (*begin, (most - from) / by);
  else if (from > most)
    *end = -1;
}

/* Its size may change by more than it goes. */
static void
draw_slowly (TrnPicture *picture, const Side *side)
{
  for (int row = side->first; row <= side->last; row++)
    {
      double begin = 0, end = 1;
      clip (side->low, side->low_by, row + 1, &begin, &end);
      clip (-side->high, -side->high_by, -row, &begin, &end);
      if (begin <= end)
        reach (picture, row,
               MIN (side->left + begin * side->left_by, side->left + end * side->left_by),
               MAX (side->right + begin * side->right_by, side->right + end * side->right_by));
    }
}

/* It goes up with its lower and its upper end. */
static void
draw_upwards (TrnPicture *picture, const Side *side)
{
  const double by_low = 1 / side->low_by, by_high = 1 / side->high_by;
  for (int row = side->first; row <= side->last; row++)
    {
      const double from = (row - side->high) * by_high, to = (row + 1 - side->low) * by_low;
      const double begin = MAX (from, 0), end = MIN (to, 1);
      const double left_a = side->left + begin * side->left_by,
                   left_b = side->left + end * side->left_by,
                   right_a = side->right + begin * side->right_by,
                   right_b = side->right + end * side->right_by;
      reach (picture, row, MIN (left_a, left_b), MAX (right_a, right_b));
    }
}

static void
draw_side (TrnPicture *picture, const Spot *a, const Spot *b)
{
  Side side = { .low = a->y - a->grow_y,
                .high = a->y + a->grow_y,
                .left = a->x - a->grow_x,
                .right = a->x + a->grow_x };
  side.low_by = b->y - b->grow_y - side.low;
  side.high_by = b->y + b->grow_y - side.high;
  side.left_by = b->x - b->grow_x - side.left;
  side.right_by = b->x + b->grow_x - side.right;
  side.first = row_of (picture, MIN (side.low, side.low + side.low_by));
  side.last = row_of (picture, MAX (side.high, side.high + side.high_by));
  if (side.last <= side.first + 1 && fabs (side.left_by) < 1)
    for (int row = side.first; row <= side.last; row++)
      reach (picture, row, MIN (side.left, side.left + side.left_by),
             MAX (side.right, side.right + side.right_by));
  else if (side.low_by > STEEP && side.high_by > STEEP)
    draw_upwards (picture, &side);
  else if (side.low_by < -STEEP && side.high_by < -STEEP)
    draw_side (picture, b, a);
  else
    draw_slowly (picture, &side);
}

static void
fill_row (TrnPicture *picture, int row)
{
  const double last_column = picture->columns - 1;
  const guint from = (guint)CLAMP (picture->left[row], 0, last_column),
              to = (guint)CLAMP (picture->right[row], 0, last_column);
  guint64 *bits = picture->bits + (guint)row * picture->words;
  const guint64 first = G_MAXUINT64 << (from % 64), last = G_MAXUINT64 >> (63 - to % 64);
  if (from / 64 == to / 64)
    {
      bits[from / 64] |= first & last;
      return;
    }
  bits[from / 64] |= first;
  for (guint i = from / 64 + 1; i < to / 64; i++)
    bits[i] = G_MAXUINT64;
  bits[to / 64] |= last;
}

static Spot
in_pixels (const TrnPicture *picture, Spot spot)
{
  return (Spot){ (spot.x - picture->lo_x) / picture->pixel_x,
                 (spot.y - picture->lo_y) / picture->pixel_y, spot.grow_x / picture->pixel_x,
                 spot.grow_y / picture->pixel_y };
}

/* Whether all that the facet may come to is drawn already. */
static gboolean
is_drawn (const TrnPicture *picture, const TrnFacet *facet)
{
  const Spot ball = in_pixels (picture, place (picture, facet, facet->middle, facet->radius_m));
  const double last_column = picture->columns - 1;
  const int first = row_of (picture, ball.y - ball.grow_y),
            last = row_of (picture, ball.y + ball.grow_y);
  const guint from = (guint)CLAMP (ball.x - ball.grow_x, 0, last_column),
              to = (guint)CLAMP (ball.x + ball.grow_x, 0, last_column);
  const guint64 first_bits = G_MAXUINT64 << (from % 64), last_bits = G_MAXUINT64 >> (63 - to % 64);
  for (int row = first; row <= last; row++)
    {
      const guint64 *bits = picture->bits + (guint)row * picture->words;
      for (guint word = from / 64; word <= to / 64; word++)
        {
          const guint64 wanted = (word == from / 64 ? first_bits : G_MAXUINT64)
                                 & (word == to / 64 ? last_bits : G_MAXUINT64);
          if ((bits[word] & wanted) != wanted)
            return FALSE;
        }
    }
  return TRUE;
}

static void
draw_facet (TrnPicture *picture, const TrnFacet *facet, const TrnVec3 *corners)
{
  Spot *spots = picture->spots;
  double low = INFINITY, high = -INFINITY;
  for (guint i = 0; i < facet->count; i++)
    {
      spots[i] = in_pixels (picture, place (picture, facet, corners[i], 0));
      low = MIN (low, spots[i].y - spots[i].grow_y);
      high = MAX (high, spots[i].y + spots[i].grow_y);
    }
  const int first = row_of (picture, low), last = row_of (picture, high);
  for (int row = first; row <= last; row++)
    {
      picture->left[row] = INFINITY;
      picture->right[row] = -INFINITY;
    }
  for (guint i = 0; i < facet->count; i++)
    draw_side (picture, &spots[i], &spots[(i + 1) % facet->count]);
  for (int row = first; row <= last; row++)
    if (picture->left[row] <= picture->right[row])
      fill_row (picture, row);
}

/* Along one direction a closed surface shows what those of its triangles show that face away: a
 * line that meets another meets one of them as well. The others need not be drawn; what slack makes
 * of a point of them is as near to that of one that is. One that is seen all but edge on may be
 * taken for another by rounding: so it has to be turned by more than that. */
static gboolean
is_turned (const TrnPicture *picture, guint index)
{
  const TrnSight *sight = &picture->sight;
  if (!picture->facets->is_closed || sight->across_by > 0 || sight->up_by > 0)
    return FALSE;
  TrnFacetRoom room;
  guint count;
  const TrnVec3 *corners = trn_facets_corners (picture->facets, index, &room, &count);
  const TrnVec3 a = trn_vec3_sub (corners[1], corners[0]),
                b = trn_vec3_sub (corners[2], corners[0]);
  const double reach_m = picture->facets->reach_m;
  return trn_vec3_dot (trn_vec3_cross (a, b), sight->along) < -ROUNDING * reach_m * reach_m;
}

static double
count (const TrnPicture *picture)
{
  guint64 n = 0;
  for (guint i = 0; i < picture->rows * picture->words; i++)
    n += (guint64)__builtin_popcountll (picture->bits[i]);
  return (double)n;
}

double
trn_picture_bound_m2 (TrnPicture *picture, const TrnSight *from, double slack_m, guint rows)
{
  g_assert (rows > 0 && rows <= TRN_PICTURE_MOST && COLUMNS * rows % 64 == 0);
  g_assert (from->across_by >= 0 && from->up_by >= 0 && slack_m >= 0);
  if (picture->facets->n_facets == 0)
    return 0;
  picture->rows = rows;
  picture->columns = COLUMNS * rows;
  picture->words = picture->columns / 64;
  memset (picture->bits, 0, rows * picture->words * sizeof *picture->bits);
  picture->sight = laid (picture, from);
  picture->slack_m = slack_m;
  find_plane (picture);
  lay_out (picture);
  for (guint i = 0; i < picture->facets->n_facets; i++)
    {
      TrnFacetRoom room;
      const TrnVec3 *corners;
      if (is_turned (picture, i))
        continue;
      const TrnFacet *facet = trn_facets_get (picture->facets, i, &room, &corners);
      if (!is_drawn (picture, facet))
        draw_facet (picture, facet, corners);
    }
  const double share = MIN (1 + picture->part, picture->steep);
  return count (picture) * picture->pixel_x * picture->pixel_y * share;
}
