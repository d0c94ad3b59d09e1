#include "search.h"

#include <float.h>

#include "hull.h"
#include "triangle.h"

/* An item of a tree is a node, or, with this bit, a single triangle. */
#define TRIANGLE 0x80000000u

/* Time is blamed for a bound that is missed only when the bound holds at the middle of the span
 * with this share of the width to spare, so that splitting time can end. */
#define BLAME_MARGIN 0.25

typedef struct
{
  double s0, s1;
  TrnPose pose0, middle, pose1; /* obstacle_from_body */
  guint32 child;                /* first of two, or 0 */
} TimeNode;

typedef struct
{
  guint32 a, b, time;
  double bound;
  TrnVec3 n; /* the direction that served best so far */
} Triple;

G_STATIC_ASSERT (TRN_BVH_MAX_POINTS >= 8); /* the corners of a box */

/* The points, and a ball round them, of an item. */
typedef struct
{
  const TrnVec3 *points;
  guint n;
  TrnVec3 centre;
  double radius_m;
  TrnVec3 corners[3];
} Item;

struct _TrnSearch
{
  const TrnSweepPair *pair;
  const TrnSearchGoal *goal;
  gboolean still; /* nothing moves: one pose stands for all times */
  double rounding_m;
  GArray *times; /* of TimeNode; 0 is the whole span */
  GArray *stack; /* of Triple */
  TrnSearchResult result;
  /* the body's points over the last span of time looked at */
  guint32 swept_a, swept_time;
  guint n_swept;
  TrnVec3 swept[2 * TRN_BVH_MAX_POINTS];
};

/* Derivation, u = 2⁻⁵³, X and Y the greatest coordinates of body and obstacle (own frames), Z of
 * their places on the site:
 *   the body's points on the site: trn_motion_rounding.
 *   site_from_obstacle is rounded itself: entries to 12u, so 3·12u·Y for each of its points, and
 *     the same again for the body's points seen through it, whose coordinates are at most Y + D
 *     there with D the distance of the two, D <= 2 (X + Z): 36u (Y + 2X + 2Z).
 *   composing obstacle_from_body: entries to 8u, position 8u·2Z; applying it: 24u X + 8u (X + 2Z).
 *   a product with a direction of length 1 ± 4u: 8u (X + Y + 2Z); a triangle distance: 32u of the
 *     greatest difference of coordinates, at most 2 (X + Y + 2Z); twice, for two ends.
 * Together, per coordinate and rounded up, 320u (X + Y + Z); times √3 for the length of a vector,
 * 600u (X + Y + Z). */
double
trn_search_rounding (const TrnSweepPair *pair)
{
  const TrnBox *box_a = &pair->body.bvh->mesh->box, *box_b = &pair->obstacle.bvh->mesh->box;
  double x = fmax (trn_vec3_max_abs (box_a->lo), trn_vec3_max_abs (box_a->hi));
  double y = fmax (trn_vec3_max_abs (box_b->lo), trn_vec3_max_abs (box_b->hi));
  /* How far the origin of the body goes: with the pivot, and at most twice its reach round it. */
  const TrnMotion *motion = pair->motion;
  double goes
      = trn_motion_speed (motion, 0)
        + fmin (fabs (motion->angle_rad), 2) * trn_motion_reach (motion, trn_vec3_make (0, 0, 0));
  double z = trn_vec3_max_abs (pair->site_from_obstacle.position)
             + trn_vec3_max_abs (motion->start.position) + goes;
  return trn_motion_rounding (pair->motion, x) + 600 * (DBL_EPSILON / 2) * (x + y + z);
}

TrnPose
trn_search_pose (const TrnSweepPair *pair, double s)
{
  TrnPose site_from_body = trn_motion_pose (pair->motion, s);
  return trn_pose_relative (&pair->site_from_obstacle, &site_from_body);
}

static void
item_make (const TrnBvh *bvh, guint32 id, Item *item)
{
  if (!(id & TRIANGLE))
    {
      const TrnBvhNode *node = &bvh->nodes[id];
      item->points = bvh->points + node->first_point;
      item->n = node->n_points;
      item->centre = node->centre;
      item->radius_m = node->radius_m;
      return;
    }
  trn_mesh_corners (bvh->mesh, id & ~TRIANGLE, item->corners);
  item->points = item->corners;
  item->n = 3;
  item->centre = trn_vec3_scale (
      trn_vec3_add (trn_vec3_add (item->corners[0], item->corners[1]), item->corners[2]), 1.0 / 3);
  item->radius_m = 0;
  for (guint i = 0; i < 3; i++)
    item->radius_m = fmax (item->radius_m, trn_vec3_distance (item->centre, item->corners[i]));
  item->radius_m *= 1 + 8 * DBL_EPSILON;
}

static double
item_reach (const TrnSearch *search, const Item *a)
{
  return trn_motion_reach (search->pair->motion, a->centre) + a->radius_m;
}

static TimeNode *
time_get (const TrnSearch *search, guint32 index)
{
  return &g_array_index (search->times, TimeNode, index);
}

static double
time_middle (const TimeNode *time)
{
  return time->s0 + 0.5 * (time->s1 - time->s0);
}

static TimeNode
time_make (const TrnSearch *search, double s0, const TrnPose *pose0, double s1,
           const TrnPose *pose1)
{
  TimeNode time = { .s0 = s0, .s1 = s1, .pose0 = *pose0, .pose1 = *pose1 };
  time.middle = trn_search_pose (search->pair, time_middle (&time));
  return time;
}

/* The first of the two halves of a span of time, made when first asked for. */
static guint32
time_split (TrnSearch *search, guint32 index)
{
  TimeNode node = *time_get (search, index);
  if (node.child != 0)
    return node.child;
  double middle = time_middle (&node);
  TimeNode halves[2] = { time_make (search, node.s0, &node.pose0, middle, &node.middle),
                         time_make (search, middle, &node.middle, node.s1, &node.pose1) };
  guint32 child = search->times->len;
  g_array_append_vals (search->times, halves, 2);
  time_get (search, index)->child = child;
  return child;
}

/* The bound at which a triple is done. */
static double
target_get (const TrnSearch *search)
{
  const TrnSearchGoal *goal = search->goal;
  if (goal->free_m > 0)
    return goal->free_m;
  double upper = search->result.upper_m;
  return fmin (upper - goal->width_m, fmax (goal->far_m, upper / (1 + goal->far_share)));
}

/* What a certificate along @n loses to the bend of the paths within a span of time. */
typedef struct
{
  const TrnSweepPair *pair;
  double reach_m, s0, s1;
} Bend;

static double
bend_loss (TrnVec3 n, gconstpointer data)
{
  const Bend *bend = data;
  const TrnMotion *motion = bend->pair->motion;
  if (motion->angle_rad == 0 && motion->path == TRN_PATH_LINE)
    return 0;
  TrnVec3 site_n = trn_rotation_apply (&bend->pair->site_from_obstacle.turn, n);
  double acceleration = trn_motion_acceleration_along (motion, bend->reach_m, site_n);
  return trn_motion_sag (acceleration, bend->s0, bend->s1);
}

/* The distance of the ball round @b from the ball round @a, whose centre goes along a chord but for
 * its sag. */
static double
ball_bound (const TrnSearch *search, const Item *a, const Item *b, const TimeNode *time,
            double reach_m)
{
  TrnVec3 from = trn_vec3_sub (trn_pose_apply (&time->pose0, a->centre), b->centre);
  TrnVec3 along
      = trn_vec3_sub (trn_vec3_sub (trn_pose_apply (&time->pose1, a->centre), b->centre), from);
  double length2 = trn_vec3_length_squared (along);
  double t = length2 > 0 ? CLAMP (-trn_vec3_dot (from, along) / length2, 0, 1) : 0;
  double distance = trn_vec3_length (trn_vec3_add_scaled (from, along, t));
  double sag = trn_motion_sag (trn_motion_acceleration (search->pair->motion, reach_m), time->s0,
                               time->s1);
  return distance - a->radius_m - b->radius_m - sag - search->rounding_m;
}

/* The body's points at both ends of the span: their hull contains the chords of all of them. */
static void
sweep_points (TrnSearch *search, guint32 id, const Item *a, guint32 time_index)
{
  if (search->n_swept > 0 && search->swept_a == id && search->swept_time == time_index)
    return;
  const TimeNode *time = time_get (search, time_index);
  guint n = 0;
  for (guint i = 0; i < a->n; i++)
    search->swept[n++] = trn_pose_apply (&time->pose0, a->points[i]);
  for (guint i = 0; i < a->n && !search->still; i++)
    search->swept[n++] = trn_pose_apply (&time->pose1, a->points[i]);
  search->n_swept = n;
  search->swept_a = id;
  search->swept_time = time_index;
}

/* A proven lower bound for everything in the triple, and the direction it was found along. At any
 * time of the span every point of the body's hull is within its loss of the chord between its two
 * ends, seen along n, so that
 *   distance >= min over the points at both ends of n·x − max over the obstacle's of n·y − loss. */
static void
triple_bound (TrnSearch *search, Triple *triple, double target)
{
  Item a, b;
  item_make (search->pair->body.bvh, triple->a, &a);
  item_make (search->pair->obstacle.bvh, triple->b, &b);
  const TimeNode *time = time_get (search, triple->time);
  double reach = item_reach (search, &a);
  double bound = ball_bound (search, &a, &b, time, reach);
  if (bound < target)
    {
      sweep_points (search, triple->a, &a, triple->time);
      Bend bend = { search->pair, reach, time->s0, time->s1 };
      TrnHullGap gap = trn_hull_separate (search->swept, search->n_swept, b.points, b.n, triple->n,
                                          target + search->rounding_m,
                                          search->still ? NULL : bend_loss, &bend);
      double loss = search->still ? 0 : bend_loss (gap.n, &bend);
      bound = fmax (bound, gap.gap_m - loss - search->rounding_m);
      triple->n = gap.n;
    }
  triple->bound = fmax (triple->bound, bound); /* what held for the whole holds for the part */
}

static void
children_add (TrnSearch *search, Triple *children, guint n_children)
{
  double target = target_get (search);
  for (guint i = 0; i < n_children; i++)
    {
      triple_bound (search, &children[i], target);
      search->result.steps++;
    }
  for (guint i = 1; i < n_children; i++) /* greatest bound first, so that the least is on top */
    {
      Triple moved = children[i];
      guint j = i;
      for (; j > 0 && children[j - 1].bound < moved.bound; j--)
        children[j] = children[j - 1];
      children[j] = moved;
    }
  for (guint i = 0; i < n_children; i++)
    {
      if (children[i].bound >= target)
        search->result.lower_m = fmin (search->result.lower_m, children[i].bound);
      else
        g_array_append_val (search->stack, children[i]);
    }
}

static void
split_time (TrnSearch *search, const Triple *triple)
{
  guint32 child = time_split (search, triple->time);
  Triple children[2] = { *triple, *triple };
  children[0].time = child;
  children[1].time = child + 1;
  children_add (search, children, 2);
}

static guint
item_children (const TrnBvh *bvh, guint32 id, guint32 children[TRN_BVH_LEAF_TRIANGLES])
{
  const TrnBvhNode *node = &bvh->nodes[id];
  if (node->child != 0)
    {
      children[0] = node->child;
      children[1] = node->child + 1;
      return 2;
    }
  for (guint i = 0; i < node->count; i++)
    children[i] = bvh->order[node->first + i] | TRIANGLE;
  return node->count;
}

/* Splits the larger of the two items. */
static void
split_space (TrnSearch *search, const Triple *triple)
{
  const TrnBvh *bvh_a = search->pair->body.bvh, *bvh_b = search->pair->obstacle.bvh;
  gboolean split_a;
  if (triple->a & TRIANGLE)
    split_a = FALSE;
  else if (triple->b & TRIANGLE)
    split_a = TRUE;
  else
    split_a = bvh_a->nodes[triple->a].radius_m >= bvh_b->nodes[triple->b].radius_m;

  guint32 ids[MAX (2, TRN_BVH_LEAF_TRIANGLES)];
  guint n = item_children (split_a ? bvh_a : bvh_b, split_a ? triple->a : triple->b, ids);
  Triple children[G_N_ELEMENTS (ids)];
  for (guint i = 0; i < n; i++)
    {
      children[i] = *triple;
      *(split_a ? &children[i].a : &children[i].b) = ids[i];
    }
  children_add (search, children, n);
}

/* Two triangles: their exact distance at the middle of the span is attained, and bounds the rest of
 * the span by how far a point of the body goes. */
static void
split_triangles (TrnSearch *search, Triple *triple)
{
  TimeNode time = *time_get (search, triple->time);
  Item a;
  TrnVec3 placed[3], other[3], on_a, on_b;
  item_make (search->pair->body.bvh, triple->a, &a);
  trn_mesh_corners (search->pair->obstacle.bvh->mesh, triple->b & ~TRIANGLE, other);
  for (guint i = 0; i < 3; i++)
    placed[i] = trn_pose_apply (&time.middle, a.corners[i]);
  double distance = trn_triangle_distance (placed, other, &on_a, &on_b);
  double upper = distance + search->rounding_m;
  if (upper < search->result.upper_m)
    {
      search->result.upper_m = upper;
      search->result.s = time_middle (&time);
      search->result.on_body = on_a;
      search->result.on_obstacle = on_b;
    }
  double goes = search->still ? 0
                              : trn_motion_displacement (search->pair->motion,
                                                         item_reach (search, &a), time.s0, time.s1);
  triple->bound = fmax (triple->bound, distance - goes - search->rounding_m);
  if (triple->bound >= target_get (search))
    {
      search->result.lower_m = fmin (search->result.lower_m, triple->bound);
      return;
    }
  /* What is left here is a distance within rounding of the target. */
  if (search->still || time.s1 - time.s0 <= search->goal->least_s || goes <= search->rounding_m)
    {
      search->result.lower_m = fmin (search->result.lower_m, fmax (0, triple->bound));
      return;
    }
  if (distance > 0)
    triple->n = trn_vec3_scale (trn_vec3_sub (on_a, on_b), 1 / distance);
  split_time (search, triple);
}

/* Whether the target is reached at the middle of the span alone, with something to spare: then it
 * is the length of the span that spoils the bound. */
static gboolean
time_is_to_blame (TrnSearch *search, Triple *triple)
{
  if (search->still)
    return FALSE;
  double target = target_get (search);
  double spare = search->goal->free_m > 0 ? search->goal->free_m : search->result.upper_m - target;
  if (!(spare < INFINITY))
    spare = 0;
  Item a, b;
  item_make (search->pair->body.bvh, triple->a, &a);
  item_make (search->pair->obstacle.bvh, triple->b, &b);
  const TimeNode *time = time_get (search, triple->time);
  double enough = target + BLAME_MARGIN * spare + search->rounding_m;
  TrnVec3 placed[TRN_BVH_MAX_POINTS];
  for (guint i = 0; i < a.n; i++)
    placed[i] = trn_pose_apply (&time->middle, a.points[i]);
  TrnHullGap gap = trn_hull_separate (placed, a.n, b.points, b.n, triple->n, enough, NULL, NULL);
  if (gap.gap_m < enough)
    return FALSE;
  triple->n = gap.n;
  return TRUE;
}

static void
expand (TrnSearch *search, Triple *triple)
{
  if (triple->a & TRIANGLE && triple->b & TRIANGLE)
    split_triangles (search, triple);
  else if (time_is_to_blame (search, triple))
    split_time (search, triple);
  else
    split_space (search, triple);
}

/* Beyond so many spans of time (some 300 bytes each) or open triples (72) the search is cut short
 * rather than eat the machine. */
#define MOST_TIMES (1u << 20)
#define MOST_TRIPLES (1u << 22)

static gboolean
is_over (const TrnSearch *search)
{
  if (search->goal->free_m > 0
      && (search->result.upper_m < search->goal->free_m
          || search->result.lower_m < search->goal->free_m))
    return TRUE;
  if (search->result.steps >= search->goal->max_steps || search->times->len > MOST_TIMES
      || search->stack->len > MOST_TRIPLES)
    return TRUE;
  return trn_progress_is_cancelled (search->goal->progress);
}

TrnSearchResult
trn_search_run (const TrnSweepPair *pair, TrnInterval span, const TrnSearchGoal *goal,
                const TrnSearchResult *start)
{
  TrnSearch search = { .pair = pair, .goal = goal, .result = *start };
  search.still = span.lo == span.hi || trn_motion_speed (pair->motion, 1) == 0;
  search.rounding_m = trn_search_rounding (pair);
  search.result.lower_m = INFINITY;
  search.result.steps = 0;
  search.times = g_array_new (FALSE, FALSE, sizeof (TimeNode));
  search.stack = g_array_new (FALSE, FALSE, sizeof (Triple));

  TrnPose first = trn_search_pose (pair, span.lo), last = trn_search_pose (pair, span.hi);
  TimeNode whole = time_make (&search, span.lo, &first, span.hi, &last);
  g_array_append_val (search.times, whole);
  Triple root = { 0, 0, 0, 0, { 0, 0, 1 } };
  children_add (&search, &root, 1);
  while (search.stack->len > 0 && !is_over (&search))
    {
      Triple triple = g_array_index (search.stack, Triple, search.stack->len - 1);
      g_array_set_size (search.stack, search.stack->len - 1);
      if (triple.bound >= target_get (&search))
        search.result.lower_m = fmin (search.result.lower_m, triple.bound);
      else
        expand (&search, &triple);
    }
  search.result.complete = search.stack->len == 0;
  for (guint i = 0; i < search.stack->len; i++)
    search.result.lower_m
        = fmin (search.result.lower_m, g_array_index (search.stack, Triple, i).bound);
  g_array_unref (search.times);
  g_array_unref (search.stack);
  return search.result;
}
