/* limb-bound.c: bounds of a limb, after triple.c, but one side is a handful of corners.
 *
 * Derivation of the bound. Seen along a unit vector n, no point of the limb's hull lies lower than
 * the lowest of its corners. A corner goes from f(s0) to f(s1), f = n·c, and with f″ <= U it lies
 * no lower than its chord less U/2 (s − s0)(s1 − s). With h = s1 − s0 and D = |f(s1) − f(s0)| the
 * least of that is
 *   min (f(s0), f(s1)) − U h²/8 (1 − 2D/(U h²))²  where U > 0 and 2D < U h², else the minimum;
 * ends that are off by no more than some distance each change that by no more than the same, since
 * it is the least of (1 − t) f(s0) + t f(s1) − U h²/2 t (1 − t) over t. Nor does it lie lower than
 * the box that holds it. The obstacle's points lie no higher than the highest of its hull's, but
 * for the hull's slack.
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
#include "limb-bound.h"

#define U 0x1p-53

/* Steps of the search for a direction: enough; and where it only shows the way. */
#define MOST_STEPS 24
#define FEW_STEPS 5

static TrnDirection
direction_make (TrnVec3 n)
{
  return (TrnDirection){ (float)n.x, (float)n.y, (float)n.z };
}

/* ---- the obstacle ---- */

static void
item_make (const TrnLimbBounder *bounder, guint32 id, TrnItem *item)
{
  if (bounder->bvh != NULL)
    {
      trn_item_make (bounder->bvh, id, item);
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
highest (const TrnLimbBounder *bounder, guint32 id, const TrnItem *item, TrnVec3 n)
{
  if (bounder->bvh == NULL)
    return 0;
  if (!(id & TRN_ITEM_TRIANGLE))
    return highest_of_hull (&item->hull, n) + item->slack_m;
  TrnVec3 c[3];
  trn_mesh_corners (bounder->bvh->mesh, id & ~TRN_ITEM_TRIANGLE, c);
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
  if (!(at0 < INFINITY && at1 < INFINITY && turning < INFINITY))
    return INFINITY; /* what is no number proves nothing */
  return fmax (fmax (at0, at1) + turning, 0) * length * length / 8;
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
lowest_over (const TrnLimbBounder *bounder, const TrnLimbSpan *span, TrnVec3 n, TrnVec3 from)
{
  double least = INFINITY;
  for (guint i = 0; i < bounder->times->n_corners; i++)
    least = fmin (least, lowest_of_corner (span, i, n, from));
  return least;
}

static double
lowest_at (const TrnLimbBounder *bounder, const TrnLimbPlace *places, TrnVec3 n, TrnVec3 from)
{
  double least = INFINITY;
  for (guint i = 0; i < bounder->times->n_corners; i++)
    least = fmin (least, trn_vec3_dot (n, trn_vec3_sub (places[i].at, from)) - places[i].off_m);
  return least;
}

/* ---- bounds ---- */

static void
cloud_add (TrnLimbCloud *cloud, guint index, TrnVec3 at)
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
cloud_make (TrnLimbCloud *cloud, guint32 span, guint n, const TrnLimbPlace *first,
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
  const TrnLimbBounder *bounder = data;
  const TrnLimbSpan *span = trn_limb_span (bounder->times, bounder->ends.span);
  double most = 0;
  for (guint i = 0; i < bounder->times->n_corners; i++)
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
propose (const TrnLimbBounder *bounder, const TrnLimbCloud *cloud, const TrnItem *item,
         TrnVec3 first, double enough_m, guint steps, TrnHullLoss loss)
{
  static const TrnRotation no_turn = { { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } } };
  TrnHullPlaces places = { .n_poses = 1,
                           .turn = { &no_turn },
                           .centre = { trn_vec3_sub (cloud->centre, item->centre) } };
  double off = bounder->times->radius_m + item->slack_m + cloud->off_m + bounder->rounding_m;
  TrnHullGap gap = trn_hull_separate (&cloud->hull, &places, &item->hull, direction_make (first),
                                      enough_m + off, steps, loss, bounder);
  return trn_vec3_unit (trn_vec3_make (gap.n.x, gap.n.y, gap.n.z));
}

static double
bound_along (const TrnLimbBounder *bounder, const TrnLimbSpan *span, guint32 id,
             const TrnItem *item, TrnVec3 n)
{
  double bound = lowest_over (bounder, span, n, item->centre) - highest (bounder, id, item, n)
                 - bounder->times->radius_m - bounder->rounding_m;
  return isnan (bound) ? -INFINITY : bound;
}

static double
gap_at (const TrnLimbBounder *bounder, const TrnLimbPlace *places, guint32 id, const TrnItem *item,
        TrnVec3 n)
{
  return lowest_at (bounder, places, n, item->centre) - highest (bounder, id, item, n);
}

/* The bound along a direction that turns from @n0 to @n1. */
static double
bound_turning (const TrnLimbBounder *bounder, const TrnLimbSpan *span, guint32 id,
               const TrnItem *item, TrnVec3 n0, TrnVec3 n1)
{
  double gap = fmin (gap_at (bounder, span->start, id, item, n0),
                     gap_at (bounder, span->end, id, item, n1));
  double sag = 0;
  for (guint i = 0; i < bounder->times->n_corners; i++)
    sag = fmax (sag, sag_turning (&span->paths[i], span->s1 - span->s0, n0, n1));
  return gap - sag - bounder->times->radius_m - bounder->rounding_m;
}

/* Looks for a turning direction where none that stays is enough. */
static void
bound_by_turning (TrnLimbBounder *bounder, TrnLimbPart *part, const TrnLimbSpan *span,
                  const TrnItem *item, double enough_m)
{
  guint n = bounder->times->n_corners;
  if (bounder->start.span != part->span)
    {
      cloud_make (&bounder->start, part->span, n, span->start, NULL);
      cloud_make (&bounder->end, part->span, n, span->end, NULL);
    }
  TrnVec3 n0 = propose (bounder, &bounder->start, item, part->n, enough_m, MOST_STEPS, NULL);
  if (gap_at (bounder, span->start, part->item, item, n0)
      < enough_m + bounder->times->radius_m + bounder->rounding_m)
    return;
  TrnVec3 n1 = propose (bounder, &bounder->end, item, n0, enough_m, MOST_STEPS, NULL);
  part->bound_m = fmax (part->bound_m, bound_turning (bounder, span, part->item, item, n0, n1));
}

/* Along its own direction where that is enough. */
void
trn_limb_bound (TrnLimbBounder *bounder, TrnLimbPart *part, double enough_m)
{
  const TrnLimbSpan *span = trn_limb_span (bounder->times, part->span);
  TrnItem item;
  item_make (bounder, part->item, &item);
  part->bound_m = bound_along (bounder, span, part->item, &item, part->n);
  if (part->bound_m >= enough_m)
    return;
  if (bounder->ends.span != part->span)
    cloud_make (&bounder->ends, part->span, bounder->times->n_corners, span->start,
                bounder->still ? NULL : span->end);
  TrnVec3 n = propose (bounder, &bounder->ends, &item, part->n, enough_m, MOST_STEPS, most_loss);
  double found = bound_along (bounder, span, part->item, &item, n);
  if (found > part->bound_m)
    {
      part->n = n;
      part->bound_m = found;
    }
  if (part->bound_m < enough_m && !bounder->still)
    bound_by_turning (bounder, part, span, &item, enough_m);
}

double
trn_limb_bound_along (const TrnLimbBounder *bounder, const TrnLimbPart *part)
{
  TrnItem item;
  item_make (bounder, part->item, &item);
  return bound_along (bounder, trn_limb_span (bounder->times, part->span), part->item, &item,
                      part->n);
}

/* At one moment, for the points of @cloud, which are @places. */
static void
bound_at (TrnLimbBounder *bounder, TrnLimbPart *part, const TrnLimbCloud *cloud,
          const TrnLimbPlace *places, double enough_m, guint steps)
{
  TrnItem item;
  item_make (bounder, part->item, &item);
  part->n = propose (bounder, cloud, &item, part->n, enough_m, steps, NULL);
  part->bound_m = lowest_at (bounder, places, part->n, item.centre)
                  - highest (bounder, part->item, &item, part->n) - bounder->times->radius_m
                  - bounder->rounding_m;
}

void
trn_limb_bound_middle (TrnLimbBounder *bounder, TrnLimbPart *part, double enough_m)
{
  const TrnLimbSpan *span = trn_limb_span (bounder->times, part->span);
  if (bounder->middle.span != part->span)
    cloud_make (&bounder->middle, part->span, bounder->times->n_corners, span->middle, NULL);
  bound_at (bounder, part, &bounder->middle, span->middle, enough_m, MOST_STEPS);
}

void
trn_limb_bound_prepare (TrnLimbBounder *bounder, const TrnLimbPlace *places)
{
  cloud_make (&bounder->middle, G_MAXUINT32, bounder->times->n_corners, places, NULL);
}

void
trn_limb_bound_roughly (TrnLimbBounder *bounder, TrnLimbPart *part, const TrnLimbPlace *places)
{
  bound_at (bounder, part, &bounder->middle, places, INFINITY, FEW_STEPS);
}

double
trn_limb_goes (const TrnLimbBounder *bounder, guint32 index)
{
  const TrnLimbSpan *span = trn_limb_span (bounder->times, index);
  double speed = 0;
  for (guint i = 0; i < bounder->times->n_corners; i++)
    speed = fmax (speed, box_size (&span->paths[i].pace));
  return speed * (span->s1 - span->s0);
}

/* What the sizes of everything make of rounding. */
void
trn_limb_bounder_init (TrnLimbBounder *bounder, const TrnBvh *bvh, const TrnLimbTimes *times)
{
  double size = 0;
  bounder->bvh = bvh;
  bounder->times = times;
  bounder->still = TRUE;
  bounder->ends.span = bounder->start.span = bounder->middle.span = G_MAXUINT32;
  for (guint k = 0; k < times->n_roots; k++)
    {
      const TrnLimbSpan *span = trn_limb_span (times, k);
      bounder->still &= span->s0 == span->s1;
      for (guint i = 0; i < times->n_corners; i++)
        {
          size = fmax (size, trn_vec3_max_abs (span->paths[i].where.lo));
          size = fmax (size, trn_vec3_max_abs (span->paths[i].where.hi));
        }
    }
  if (bvh != NULL)
    {
      const TrnBox *box = &bvh->mesh->box;
      size += fmax (trn_vec3_max_abs (box->lo), trn_vec3_max_abs (box->hi));
    }
  bounder->rounding_m = 128 * U * size;
}
