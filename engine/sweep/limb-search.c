/* limb-search.c: proven lower bounds of the distance of a limb over spans of time, and the search
 * that splits what they do not settle. After search.c, but one side is a handful of corners.
 *
 * Derivation of the bound. Seen along a unit vector n, no point of the limb's hull lies lower than
 * the lowest of its corners. A corner goes from f(s0) to f(s1), f = n·c, and with f″ <= U it lies
 * no lower than its chord less U/2 (s − s0)(s1 − s). With h = s1 − s0 and D = |f(s1) − f(s0)| the
 * least of that is
 *   min (f(s0), f(s1)) − U h²/8 (1 − 2D/(U h²))²  where U > 0 and 2D < U h², else the minimum;
 * ends that are off by no more than some distance each change that by no more than the same, since
 * it is the least of (1 − t) f(s0) + t f(s1) − U h²/2 t (1 − t) over t. Nor does it lie lower than
 * the box that holds it. The obstacle's points lie no higher than the
 * highest of its hull's, but for the hull's slack.
 *
 * The direction may turn: n(s) goes evenly from n0 to n1, which are unit vectors, so that it is
 * never longer than 1 and n(s)·(c − y) never more than the distance where it is positive. As n·y is
 * even for a point y of the obstacle, the second derivative of the product is n·c″ + 2 n′·c′, and
 *   distance >= min over both ends of (min n·c − max n·y) − max (n·c″ + 2 n′·c′) h²/8.
 * A long limb that turns past a round thing, and at both ends of the span is as near to it as
 * between, is kept off by that and by no standing direction.
 *
 * Rounding, u = 2⁻⁵³, X and Y the greatest coordinates of the corners and of the obstacle, in the
 * obstacle's frame: a product with a vector of length 1 ± 4u, its direction's own error included,
 * is off by less than 16u of the greatest coordinate; two such on either side and their differences
 * 48u (X + Y); an attained distance 32u (X + Y) (convex.h). 128u (X + Y) holds for both. U is off
 * by less than 16u of the greatest second derivatives, and U h²/8 by as much again. */
#include "limb-search.h"

#include "convex.h"
#include "item.h"
#include "limb-time.h"

#define U 0x1p-53

/* Time is blamed for a bound that is missed only when the bound holds at the middle of the span
 * with this share of the width to spare, so that splitting time can end. */
#define BLAME_MARGIN 0.25

/* Steps of the search for a direction: enough; and where it only shows the way. */
#define MOST_STEPS 24
#define FEW_STEPS 5

/* Halvings of the time round the least distance of the first moments looked at. */
#define SEED_HALVINGS 10

/* Beyond so many open parts (56 bytes) a search is cut short. */
#define MOST_PARTS (1u << 20)

/* An item of the mesh's tree, or for another limb always 0, over a span of time. */
typedef struct
{
  guint32 item, span;
  TrnVec3 n; /* the direction that served best so far, about a unit vector */
  double bound_m;
} Part;

/* The corners at one moment or two as a set of points for hull.h. */
typedef struct
{
  guint32 span; /* G_MAXUINT32: none */
  TrnVec3 centre;
  TrnHull hull;
  double off_m;
  TrnPoints8 blocks[2 * TRN_LIMB_MOST_PLACES / 8];
} Cloud;

typedef struct
{
  const TrnLimbPair *pair;
  const TrnLimbGoal *goal;
  const TrnBvh *bvh; /* NULL: another limb */
  TrnLimbTimes times;
  GArray *stack;                    /* of Part */
  double rounding_m, off_m, free_m; /* off_m: of the corners' places */
  gboolean still, stuck, begun;
  guint64 max_steps;
  Part nearest; /* of the least distance so far */
  Cloud ends, start, middle, end;
  TrnLimbFound found;
} Search;

static TrnDirection
direction_make (TrnVec3 n)
{
  return (TrnDirection){ (float)n.x, (float)n.y, (float)n.z };
}

/* The bound at which a part is done. */
static double
target_get (const Search *search)
{
  const TrnLimbGoal *goal = search->goal;
  if (goal->free_m > 0)
    return search->free_m;
  double upper = search->found.upper_m;
  return fmin (upper - goal->width_m, fmax (goal->far_m, upper / (1 + goal->far_share)));
}

static gboolean
is_one (const Search *search, const Part *part)
{
  return search->bvh == NULL || (part->item & TRN_ITEM_TRIANGLE) != 0;
}

/* ---- the obstacle ---- */

static void
item_make (const Search *search, guint32 id, TrnItem *item)
{
  if (search->bvh != NULL)
    {
      trn_item_make (search->bvh, id, item);
      return;
    }
  *item = (TrnItem){ .radius_m = 0 }; /* the origin */
  item->hull = (TrnHull){ &item->own, 1, 0 };
}

/* The greatest n·y of points in single precision, from their centre. */
static double
highest_of_hull (const TrnHull *hull, TrnVec3 n)
{
  double most[8];
  for (guint i = 0; i < 8; i++)
    most[i] = -INFINITY;
  for (guint k = 0; k < hull->n_blocks; k++)
    {
      const TrnPoints8 *p = &hull->blocks[k];
      for (guint i = 0; i < 8; i++)
        {
          double here = n.x * (double)p->x[i] + n.y * (double)p->y[i] + n.z * (double)p->z[i];
          most[i] = here > most[i] ? here : most[i];
        }
    }
  for (guint i = 1; i < 8; i++)
    most[0] = most[i] > most[0] ? most[i] : most[0];
  return most[0];
}

/* The greatest n·(y − centre) of everything of an item. */
static double
highest (const Search *search, guint32 id, const TrnItem *item, TrnVec3 n)
{
  if (search->bvh == NULL)
    return 0;
  if (!(id & TRN_ITEM_TRIANGLE))
    return highest_of_hull (&item->hull, n) + item->slack_m;
  TrnVec3 c[3];
  trn_mesh_corners (search->bvh->mesh, id & ~TRN_ITEM_TRIANGLE, c);
  double most = -INFINITY;
  for (guint i = 0; i < 3; i++)
    most = fmax (most, trn_vec3_dot (n, trn_vec3_sub (c[i], item->centre)));
  return most;
}

/* ---- the limb ---- */

static double
least_product (TrnVec3 n, TrnVec3 lo, TrnVec3 hi)
{
  return (n.x >= 0 ? n.x * lo.x : n.x * hi.x) + (n.y >= 0 ? n.y * lo.y : n.y * hi.y)
         + (n.z >= 0 ? n.z * lo.z : n.z * hi.z);
}

/* The greatest sum of absolute values of a vector within. */
static double
box_size (const TrnBox *box)
{
  return fmax (fabs (box->lo.x), fabs (box->hi.x)) + fmax (fabs (box->lo.y), fabs (box->hi.y))
         + fmax (fabs (box->lo.z), fabs (box->hi.z));
}

/* The greatest n·x of a box, rounding added. */
static double
most_product (TrnVec3 n, const TrnBox *box)
{
  return 16 * U * trn_vec3_max_abs (n) * box_size (box)
         - least_product (trn_vec3_scale (n, -1), box->lo, box->hi);
}

/* U h²/8 */
static double
sag_along (const TrnLimbPath *path, double length, TrnVec3 n)
{
  return most_product (n, &path->bend) * length * length / 8;
}

/* How much lower than both its ends a corner comes that goes by @goes along n. */
static double
loss_along (double sag, double goes)
{
  if (sag <= 0) /* what is no number stays none, and proves nothing */
    return 0;
  double left = 1 - goes / (4 * sag);
  return left <= 0 ? 0 : sag * left * left;
}

/* The same along a direction that turns from @n0 to @n1. */
static double
sag_turning (const TrnLimbPath *path, double length, TrnVec3 n0, TrnVec3 n1)
{
  double at0 = most_product (n0, &path->bend), at1 = most_product (n1, &path->bend);
  double turning = most_product (trn_vec3_sub (n1, n0), &path->pace) * 2 / length;
  double most = (at0 >= at1 ? at0 : at1) + turning;
  return most <= 0 ? 0 : most * length * length / 8;
}

static double
lowest_of_corner (const TrnLimbSpan *span, guint i, TrnVec3 n, TrnVec3 from)
{
  double f0 = trn_vec3_dot (n, trn_vec3_sub (span->start[i].at, from));
  double f1 = trn_vec3_dot (n, trn_vec3_sub (span->end[i].at, from));
  double off = fmax (span->start[i].off_m, span->end[i].off_m);
  double sag = sag_along (&span->paths[i], span->s1 - span->s0, n);
  double chord = fmin (f0, f1) - loss_along (sag, fabs (f1 - f0)) - off;
  const TrnBox *where = &span->paths[i].where;
  double box = least_product (n, trn_vec3_sub (where->lo, from), trn_vec3_sub (where->hi, from));
  return chord >= box ? chord : box;
}

/* The least n·(x − from) of the corners over the span. */
static double
lowest_over (const Search *search, const TrnLimbSpan *span, TrnVec3 n, TrnVec3 from)
{
  double least = INFINITY;
  for (guint i = 0; i < search->times.n_corners; i++)
    least = fmin (least, lowest_of_corner (span, i, n, from));
  return least;
}

static double
lowest_at (const Search *search, const TrnLimbPlace *places, TrnVec3 n, TrnVec3 from)
{
  double least = INFINITY;
  for (guint i = 0; i < search->times.n_corners; i++)
    least = fmin (least, trn_vec3_dot (n, trn_vec3_sub (places[i].at, from)) - places[i].off_m);
  return least;
}

/* ---- bounds ---- */

static void
cloud_add (Cloud *cloud, guint index, TrnVec3 at)
{
  TrnVec3 p = trn_vec3_sub (at, cloud->centre);
  TrnPoints8 *block = &cloud->blocks[index / 8];
  block->x[index % 8] = (float)p.x;
  block->y[index % 8] = (float)p.y;
  block->z[index % 8] = (float)p.z;
  cloud->hull.radius_m = fmax (cloud->hull.radius_m, trn_vec3_length (p));
}

/* Of the corners at one moment, or with @second at two. */
static void
cloud_make (Cloud *cloud, guint32 span, guint n, const TrnLimbPlace *first,
            const TrnLimbPlace *second)
{
  TrnBox box = trn_box_empty ();
  cloud->span = span;
  cloud->off_m = 0;
  for (guint k = 0; k < 2; k++)
    for (guint i = 0; i < n && (k == 0 || second != NULL); i++)
      {
        const TrnLimbPlace *place = k == 0 ? &first[i] : &second[i];
        trn_box_add_point (&box, place->at);
        cloud->off_m = fmax (cloud->off_m, place->off_m);
      }
  cloud->centre = trn_box_centre (&box);
  cloud->hull = (TrnHull){ cloud->blocks, 0, 0 };
  guint used = 0;
  for (guint i = 0; i < n; i++)
    cloud_add (cloud, used++, first[i].at);
  for (guint i = 0; i < n && second != NULL; i++)
    cloud_add (cloud, used++, second[i].at);
  while (used % 8 != 0)
    cloud_add (cloud, used++, first[0].at);
  cloud->hull.n_blocks = used / 8;
}

static double
most_loss (TrnVec3 n, gconstpointer data)
{
  const Search *search = data;
  const TrnLimbSpan *span = trn_limb_span (&search->times, search->ends.span);
  double most = 0;
  for (guint i = 0; i < search->times.n_corners; i++)
    {
      double goes = trn_vec3_dot (n, trn_vec3_sub (span->end[i].at, span->start[i].at));
      double sag = sag_along (&span->paths[i], span->s1 - span->s0, n);
      most = fmax (most, loss_along (sag, fabs (goes)));
    }
  return most;
}

/* Looks for a direction in which the item is @enough_m from the cloud's points; what is found is a
 * proposal. */
static TrnVec3
propose (const Search *search, const Cloud *cloud, const TrnItem *item, TrnVec3 first,
         double enough_m, guint steps, TrnHullLoss loss)
{
  static const TrnRotation no_turn = { { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } } };
  TrnHullPlaces places = { .n_poses = 1,
                           .turn = { &no_turn },
                           .centre = { trn_vec3_sub (cloud->centre, item->centre) } };
  double off = search->times.radius_m + item->slack_m + cloud->off_m + search->rounding_m;
  TrnHullGap gap = trn_hull_separate (&cloud->hull, &places, &item->hull, direction_make (first),
                                      enough_m + off, steps, loss, search);
  return trn_vec3_unit (trn_vec3_make (gap.n.x, gap.n.y, gap.n.z));
}

static double
bound_along (const Search *search, const TrnLimbSpan *span, guint32 id, const TrnItem *item,
             TrnVec3 n)
{
  double bound = lowest_over (search, span, n, item->centre) - highest (search, id, item, n)
                 - search->times.radius_m - search->rounding_m;
  return isnan (bound) ? -INFINITY : bound;
}

static double
gap_at (const Search *search, const TrnLimbPlace *places, guint32 id, const TrnItem *item,
        TrnVec3 n)
{
  return lowest_at (search, places, n, item->centre) - highest (search, id, item, n);
}

/* The bound along a direction that turns from @n0 to @n1. */
static double
bound_turning (const Search *search, const TrnLimbSpan *span, guint32 id, const TrnItem *item,
               TrnVec3 n0, TrnVec3 n1)
{
  double gap
      = fmin (gap_at (search, span->start, id, item, n0), gap_at (search, span->end, id, item, n1));
  double sag = 0;
  for (guint i = 0; i < search->times.n_corners; i++)
    {
      double here = sag_turning (&span->paths[i], span->s1 - span->s0, n0, n1);
      if (!(here <= sag)) /* what is no number proves nothing */
        sag = here;
    }
  double bound = gap - sag - search->times.radius_m - search->rounding_m;
  return isnan (bound) ? -INFINITY : bound;
}

/* Looks for a turning direction where none that stays is enough. */
static void
bound_by_turning (Search *search, Part *part, const TrnLimbSpan *span, const TrnItem *item,
                  double enough_m)
{
  guint n = search->times.n_corners;
  if (search->start.span != part->span)
    {
      cloud_make (&search->start, part->span, n, span->start, NULL);
      cloud_make (&search->end, part->span, n, span->end, NULL);
    }
  TrnVec3 n0 = propose (search, &search->start, item, part->n, enough_m, MOST_STEPS, NULL);
  if (gap_at (search, span->start, part->item, item, n0)
      < enough_m + search->times.radius_m + search->rounding_m)
    return;
  TrnVec3 n1 = propose (search, &search->end, item, n0, enough_m, MOST_STEPS, NULL);
  part->bound_m = fmax (part->bound_m, bound_turning (search, span, part->item, item, n0, n1));
}

/* A proven bound for everything of a part; along its own direction where that is enough. */
static void
bound (Search *search, Part *part, double enough_m)
{
  const TrnLimbSpan *span = trn_limb_span (&search->times, part->span);
  TrnItem item;
  search->found.steps++;
  item_make (search, part->item, &item);
  part->bound_m = bound_along (search, span, part->item, &item, part->n);
  if (part->bound_m >= enough_m)
    return;
  if (search->ends.span != part->span)
    cloud_make (&search->ends, part->span, search->times.n_corners, span->start,
                search->still ? NULL : span->end);
  TrnVec3 n = propose (search, &search->ends, &item, part->n, enough_m, MOST_STEPS, most_loss);
  double found = bound_along (search, span, part->item, &item, n);
  if (found > part->bound_m)
    {
      part->n = n;
      part->bound_m = found;
    }
  if (part->bound_m < enough_m && !search->still)
    bound_by_turning (search, part, span, &item, enough_m);
}

/* The same at one moment, for the points of @cloud, which are @places. */
static void
bound_at (Search *search, Part *part, const Cloud *cloud, const TrnLimbPlace *places,
          double enough_m, guint steps)
{
  TrnItem item;
  search->found.steps++;
  item_make (search, part->item, &item);
  part->n = propose (search, cloud, &item, part->n, enough_m, steps, NULL);
  part->bound_m = lowest_at (search, places, part->n, item.centre)
                  - highest (search, part->item, &item, part->n) - search->times.radius_m
                  - search->rounding_m;
}

/* ---- distances that are attained ---- */

/* The exact distance of a part that is one at a moment, taken where it is the least so far; the
 * direction of the part becomes that between the nearest points. Returned is a bound on the
 * distance of the bare hull. */
static double
look (Search *search, Part *part, const TrnLimbPlace *places, double s)
{
  TrnVec3 points[TRN_LIMB_MOST_PLACES], other[3] = { { 0, 0, 0 } }, on_limb, on_other;
  double off = 0;
  for (guint i = 0; i < search->times.n_corners; i++)
    {
      points[i] = places[i].at;
      off = fmax (off, places[i].off_m);
    }
  if (search->bvh != NULL)
    trn_mesh_corners (search->bvh->mesh, part->item & ~TRN_ITEM_TRIANGLE, other);
  double distance = trn_convex_distance (points, search->times.n_corners, other,
                                         search->bvh != NULL ? 3 : 1, &on_limb, &on_other);
  double error = off + search->rounding_m;
  double upper = fmax (distance - search->times.radius_m, 0) + error;
  search->found.steps++;
  if (upper < search->found.upper_m)
    {
      search->found.upper_m = upper;
      search->found.s = s;
      search->found.triangle = part->item & ~TRN_ITEM_TRIANGLE;
      search->nearest = *part;
    }
  if (distance > 0)
    part->n = trn_vec3_unit (trn_vec3_sub (on_limb, on_other));
  return distance + error;
}

/* ---- branching ---- */

static void
finish (Search *search, const Part *part)
{
  search->found.lower_m = fmin (search->found.lower_m, part->bound_m);
}

static gboolean
finish_if_done (Search *search, const Part *part)
{
  double target = target_get (search);
  if (!(part->bound_m >= target || target <= 0))
    return FALSE;
  finish (search, part);
  return TRUE;
}

/* Keeps what is not done, the greatest bound first, so that the least is on top. */
static void
add (Search *search, Part *parts, guint n)
{
  guint open = 0;
  for (guint i = 0; i < n; i++)
    {
      Part part = parts[i];
      if (finish_if_done (search, &part))
        continue;
      guint k = open++;
      for (; k > 0 && parts[k - 1].bound_m < part.bound_m; k--)
        parts[k] = parts[k - 1];
      parts[k] = part;
    }
  g_array_append_vals (search->stack, parts, open);
}

static void
split_time (Search *search, const Part *part)
{
  guint32 child = trn_limb_span_split (&search->times, part->span);
  Part halves[2] = { *part, *part };
  if (child == 0)
    {
      search->stuck = TRUE;
      g_array_append_vals (search->stack, part, 1); /* left open */
      return;
    }
  double target = target_get (search);
  for (guint i = 0; i < 2; i++)
    {
      halves[i].span = child + i;
      bound (search, &halves[i], target);
    }
  add (search, halves, 2);
}

static void
split_space (Search *search, const Part *part)
{
  guint32 ids[TRN_ITEM_PARTS];
  Part parts[TRN_ITEM_PARTS];
  guint n = trn_item_parts (search->bvh, part->item, ids);
  double target = target_get (search);
  for (guint i = 0; i < n; i++)
    {
      parts[i] = *part;
      parts[i].item = ids[i];
      bound (search, &parts[i], target);
    }
  add (search, parts, n);
}

static double
goes_over (const Search *search, const TrnLimbSpan *span)
{
  double speed = 0;
  for (guint i = 0; i < search->times.n_corners; i++)
    speed = fmax (speed, box_size (&span->paths[i].pace));
  return speed * (span->s1 - span->s0);
}

/* A triangle, or another limb: its exact distance at the middle of the span is attained, and the
 * direction found there bounds the rest of the span. */
static void
expand_one (Search *search, Part *part)
{
  const TrnLimbSpan *span = trn_limb_span (&search->times, part->span);
  TrnItem item;
  look (search, part, span->middle, span->s0 + 0.5 * (span->s1 - span->s0));
  item_make (search, part->item, &item);
  part->bound_m = fmax (part->bound_m, bound_along (search, span, part->item, &item, part->n));
  if (finish_if_done (search, part))
    return;
  /* What is left here is a distance within rounding of the target. */
  double length = span->s1 - span->s0;
  if (search->still || length <= search->goal->least_s || length <= 0x1p-45
      || goes_over (search, span) <= search->rounding_m + search->off_m)
    {
      part->bound_m = fmax (part->bound_m, 0);
      finish (search, part);
      return;
    }
  split_time (search, part);
}

/* Whether the target is reached at the middle of the span alone, with something to spare: then it
 * is the length of the span that spoils the bound. */
static gboolean
time_is_to_blame (Search *search, Part *part)
{
  if (search->still)
    return FALSE;
  double target = target_get (search);
  double spare = search->goal->free_m > 0 ? search->free_m : search->found.upper_m - target;
  if (!(spare < INFINITY))
    spare = 0;
  double enough = target + BLAME_MARGIN * spare;
  const TrnLimbSpan *span = trn_limb_span (&search->times, part->span);
  if (search->middle.span != part->span)
    cloud_make (&search->middle, part->span, search->times.n_corners, span->middle, NULL);
  Part moment = *part;
  bound_at (search, &moment, &search->middle, span->middle, enough, MOST_STEPS);
  if (!(moment.bound_m >= enough))
    return FALSE;
  part->n = moment.n;
  return TRUE;
}

static void
expand (Search *search, Part *part)
{
  if (is_one (search, part))
    expand_one (search, part);
  else if (time_is_to_blame (search, part))
    split_time (search, part);
  else
    split_space (search, part);
}

/* ---- a first distance ---- */

/* Goes down from item to item with the least bound at a moment, and looks at the last. */
static void
descend (Search *search, const TrnLimbPlace *places, double s)
{
  Part part = { .n = { 0, 0, 1 } };
  cloud_make (&search->middle, G_MAXUINT32, search->times.n_corners, places, NULL);
  while (!is_one (search, &part))
    {
      guint32 ids[TRN_ITEM_PARTS];
      guint n = trn_item_parts (search->bvh, part.item, ids);
      Part best = part;
      for (guint i = 0; i < n; i++)
        {
          Part child = { .item = ids[i], .n = part.n };
          bound_at (search, &child, &search->middle, places, INFINITY, FEW_STEPS);
          if (i == 0 || child.bound_m < best.bound_m)
            best = child;
        }
      part = best;
    }
  look (search, &part, places, s);
}

/* Looks for a moment with a smaller distance of what is nearest so far. */
static void
refine (Search *search, TrnInterval span)
{
  double step = trn_interval_width (span);
  for (guint i = 0; i < SEED_HALVINGS; i++)
    {
      step /= 2;
      double at[2]
          = { fmax (search->found.s - step, span.lo), fmin (search->found.s + step, span.hi) };
      for (guint k = 0; k < 2; k++)
        {
          TrnLimbPlace places[TRN_LIMB_MOST_PLACES];
          Part part = search->nearest;
          if (trn_limb_places (search->pair, at[k], places))
            look (search, &part, places, at[k]);
        }
    }
}

/* ---- the search ---- */

static gboolean
is_over (const Search *search)
{
  if (search->goal->free_m > 0
      && (search->found.upper_m < search->free_m || search->found.lower_m < search->free_m))
    return TRUE;
  if (search->stuck || search->found.steps >= search->max_steps || search->stack->len > MOST_PARTS)
    return TRUE;
  return trn_progress_is_cancelled (search->goal->progress);
}

/* What the sizes of everything make of rounding, and whether anything moves. */
static void
measure (Search *search)
{
  double size = 0, goes = 0;
  search->off_m = 0;
  search->still = TRUE;
  for (guint k = 0; k < search->times.n_roots; k++)
    {
      const TrnLimbSpan *span = trn_limb_span (&search->times, k);
      for (guint i = 0; i < search->times.n_corners; i++)
        {
          size = fmax (size, trn_vec3_max_abs (span->paths[i].where.lo));
          size = fmax (size, trn_vec3_max_abs (span->paths[i].where.hi));
          search->off_m = fmax (search->off_m, span->middle[i].off_m);
        }
      goes += goes_over (search, span);
      search->still &= span->s0 == span->s1;
    }
  if (search->bvh != NULL)
    {
      const TrnBox *box = &search->bvh->mesh->box;
      size += fmax (trn_vec3_max_abs (box->lo), trn_vec3_max_abs (box->hi));
    }
  search->rounding_m = 128 * U * size;
  search->found.still = goes <= search->rounding_m + search->off_m && !search->times.missing;
  search->free_m = search->goal->free_m + 2 * search->rounding_m;
}

static void
search_init (Search *search, const TrnLimbPair *pair, TrnInterval span, const TrnLimbGoal *goal)
{
  search->pair = pair;
  search->goal = goal;
  search->bvh = pair->obstacle.bvh;
  search->stuck = search->begun = FALSE;
  search->stack = g_array_new (FALSE, FALSE, sizeof (Part));
  search->max_steps = goal->max_steps;
  search->found = (TrnLimbFound){ .upper_m = INFINITY, .lower_m = INFINITY };
  search->ends.span = search->middle.span = search->start.span = G_MAXUINT32;
  trn_limb_times_init (&search->times, pair, span);
  measure (search);
}

/* A bound of every part of the time as a whole; the parts that are not done are kept. */
static void
begin (Search *search)
{
  search->begun = TRUE;
  for (guint k = 0; k < search->times.n_roots; k++)
    {
      Part root = { .span = k, .n = { 0, 0, 1 } };
      bound (search, &root, target_get (search));
      if (!finish_if_done (search, &root))
        g_array_append_val (search->stack, root);
    }
}

static double
least_open (const Search *search)
{
  double least = INFINITY;
  for (guint i = 0; i < search->stack->len; i++)
    least = fmin (least, g_array_index (search->stack, Part, i).bound_m);
  return least;
}

/* The points found nearest at the middle of the span stay as near but for what they go to either
 * side of it. */
static void
look_at_hint (Search *search)
{
  const TrnLimbSpan *span = trn_limb_span (&search->times, 0);
  Part part = { .item = search->goal->hint | TRN_ITEM_TRIANGLE, .n = { 0, 0, 1 } };
  double distance = look (search, &part, span->middle, span->s0 + 0.5 * (span->s1 - span->s0));
  double most = distance + goes_over (search, span) * (0.5 + 8 * U);
  search->found.touches
      = search->times.n_roots == 1 && !search->times.missing && most <= search->times.radius_m;
}

static void
run (Search *search, TrnInterval span)
{
  gboolean seeks = search->times.n_roots > 0 && !(search->goal->free_m > 0);
  if (seeks)
    {
      const TrnLimbSpan *first = trn_limb_span (&search->times, 0);
      descend (search, first->start, first->s0);
    }
  if (search->times.n_roots > 0 && search->goal->has_hint)
    look_at_hint (search);
  if (!is_over (search))
    begin (search);
  /* far off, where little is asked, the search itself finds nearer moments soon enough */
  if (seeks && search->stack->len > 0 && !search->still
      && least_open (search) < search->goal->far_m)
    {
      const TrnLimbSpan *last = trn_limb_span (&search->times, search->times.n_roots - 1);
      descend (search, last->end, last->s1);
      refine (search, span);
    }
  while (search->stack->len > 0 && !is_over (search))
    {
      Part part = g_array_index (search->stack, Part, search->stack->len - 1);
      g_array_set_size (search->stack, search->stack->len - 1);
      if (!finish_if_done (search, &part))
        expand (search, &part);
    }
}

TrnLimbFound
trn_limb_search (const TrnLimbPair *pair, TrnInterval span, const TrnLimbGoal *goal)
{
  Search *search = g_new (Search, 1); /* large, and nothing of it need be set beforehand */
  search_init (search, pair, span, goal);
  run (search, span);
  TrnLimbFound found = search->found;
  found.lower_m = search->begun ? fmin (found.lower_m, least_open (search)) : 0;
  found.missing = search->times.missing;
  found.nowhere = search->times.n_roots == 0;
  found.complete = search->begun && search->stack->len == 0 && !found.missing;
  found.free = found.complete && found.lower_m >= search->free_m;
  trn_limb_times_clear (&search->times);
  g_array_unref (search->stack);
  g_free (search);
  return found;
}
