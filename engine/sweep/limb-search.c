/* limb-search.c: the search that splits what the bounds (limb-bound.c) do not settle, after
 * search.c.
 */
#include "limb-search.h"

#include <float.h>

#include "convex.h"
#include "limb-bound.h"

/* Time is blamed for a bound that is missed only when the bound holds at the middle of the span
 * with this share of the width to spare, so that splitting time can end. */
#define BLAME_MARGIN 0.25

/* Halvings of the time round the least distance of the first moments looked at. */
#define SEED_HALVINGS 10

/* Beyond so many open parts (56 bytes) a search is cut short. */
#define MOST_PARTS (1u << 20)

typedef struct
{
  const TrnLimbPair *pair;
  const TrnLimbGoal *goal;
  TrnLimbTimes times;
  TrnLimbBounder bounder;
  GArray *stack; /* of TrnLimbPart */
  double free_m;
  double error_m; /* of a bound: rounding, and how far off places are */
  gboolean stuck, begun;
  guint64 max_steps;
  TrnLimbPart nearest; /* of the least distance so far */
  TrnLimbFound found;
} Search;

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

/* ---- distances that are attained ---- */

/* The exact distance of a part that is one at a moment, taken where it is the least so far; the
 * direction of the part becomes that between the nearest points. Returned is a bound on the
 * distance of the bare hull. */
static double
look (Search *search, TrnLimbPart *part, const TrnLimbPlace *places, double s)
{
  TrnVec3 points[TRN_LIMB_MOST_PLACES], other[3] = { { 0, 0, 0 } }, on_limb, on_other;
  double off = 0;
  for (guint i = 0; i < search->times.n_corners; i++)
    {
      points[i] = places[i].at;
      off = fmax (off, places[i].off_m);
    }
  if (search->bounder.bvh != NULL)
    trn_mesh_corners (search->bounder.bvh->mesh, part->item & ~TRN_ITEM_TRIANGLE, other);
  double distance = trn_convex_distance (points, search->times.n_corners, other,
                                         search->bounder.bvh != NULL ? 3 : 1, &on_limb, &on_other);
  double error = off + search->bounder.rounding_m;
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
bound (Search *search, TrnLimbPart *part, double enough_m)
{
  search->found.steps++;
  trn_limb_bound (&search->bounder, part, enough_m);
}

static void
finish (Search *search, const TrnLimbPart *part)
{
  search->found.lower_m = fmin (search->found.lower_m, part->bound_m);
}

static gboolean
finish_if_done (Search *search, const TrnLimbPart *part)
{
  double target = target_get (search);
  if (!(part->bound_m >= target || target <= 0))
    return FALSE;
  finish (search, part);
  return TRUE;
}

/* Keeps what is not done, the greatest bound first, so that the least is on top. */
static void
add (Search *search, TrnLimbPart *parts, guint n)
{
  guint open = 0;
  for (guint i = 0; i < n; i++)
    {
      TrnLimbPart part = parts[i];
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
split_time (Search *search, const TrnLimbPart *part)
{
  guint32 child = trn_limb_span_split (&search->times, part->span);
  TrnLimbPart halves[2] = { *part, *part };
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
split_space (Search *search, const TrnLimbPart *part)
{
  guint32 ids[TRN_ITEM_PARTS];
  TrnLimbPart parts[TRN_ITEM_PARTS];
  guint n = trn_item_parts (search->bounder.bvh, part->item, ids);
  double target = target_get (search);
  for (guint i = 0; i < n; i++)
    {
      parts[i] = *part;
      parts[i].item = ids[i];
      bound (search, &parts[i], target);
    }
  add (search, parts, n);
}

/* A triangle, or another limb: its exact distance at the middle of the span is attained, and the
 * direction found there bounds the rest of the span. */
static void
expand_one (Search *search, TrnLimbPart *part)
{
  const TrnLimbSpan *span = trn_limb_span (&search->times, part->span);
  look (search, part, span->middle, span->s0 + 0.5 * (span->s1 - span->s0));
  part->bound_m = fmax (part->bound_m, trn_limb_bound_along (&search->bounder, part));
  if (finish_if_done (search, part))
    return;
  /* What is left here is a distance within rounding of the target. */
  double length = span->s1 - span->s0;
  if (search->bounder.still || length <= search->goal->least_s || length <= 0x1p-45
      || trn_limb_goes (&search->bounder, part->span) <= search->error_m)
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
time_is_to_blame (Search *search, TrnLimbPart *part)
{
  if (search->bounder.still)
    return FALSE;
  double target = target_get (search);
  double spare = search->goal->free_m > 0 ? search->free_m : search->found.upper_m - target;
  if (!(spare < INFINITY))
    spare = 0;
  double enough = target + BLAME_MARGIN * spare;
  TrnLimbPart moment = *part;
  search->found.steps++;
  trn_limb_bound_middle (&search->bounder, &moment, enough);
  if (!(moment.bound_m >= enough))
    return FALSE;
  part->n = moment.n;
  return TRUE;
}

static void
expand (Search *search, TrnLimbPart *part)
{
  if (trn_limb_part_is_one (&search->bounder, part))
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
  TrnLimbPart part = { .n = { 0, 0, 1 } };
  trn_limb_bound_prepare (&search->bounder, places);
  while (!trn_limb_part_is_one (&search->bounder, &part))
    {
      guint32 ids[TRN_ITEM_PARTS];
      guint n = trn_item_parts (search->bounder.bvh, part.item, ids);
      TrnLimbPart best = part;
      for (guint i = 0; i < n; i++)
        {
          TrnLimbPart child = { .item = ids[i], .n = part.n };
          search->found.steps++;
          trn_limb_bound_roughly (&search->bounder, &child, places);
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
          TrnLimbPart part = search->nearest;
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

/* How far off bounds are, and whether anything moves by more than that. */
static void
measure (Search *search)
{
  double off = 0, goes = 0;
  for (guint k = 0; k < search->times.n_roots; k++)
    {
      const TrnLimbSpan *span = trn_limb_span (&search->times, k);
      for (guint i = 0; i < search->times.n_corners; i++)
        off = fmax (off, span->middle[i].off_m);
      goes += trn_limb_goes (&search->bounder, k);
    }
  search->error_m = search->bounder.rounding_m + off;
  search->found.still = goes <= search->error_m && !search->times.missing;
  search->free_m = search->goal->free_m + 2 * search->bounder.rounding_m;
}

static void
search_init (Search *search, const TrnLimbPair *pair, TrnInterval span, const TrnLimbGoal *goal)
{
  search->pair = pair;
  search->goal = goal;
  search->stuck = search->begun = FALSE;
  search->stack = g_array_new (FALSE, FALSE, sizeof (TrnLimbPart));
  search->max_steps = goal->max_steps;
  search->found = (TrnLimbFound){ .upper_m = INFINITY, .lower_m = INFINITY };
  trn_limb_times_init (&search->times, pair, span);
  trn_limb_bounder_init (&search->bounder, pair->obstacle.bvh, &search->times);
  measure (search);
}

/* A bound of every part of the time as a whole; the parts that are not done are kept. */
static void
begin (Search *search)
{
  search->begun = TRUE;
  for (guint k = 0; k < search->times.n_roots; k++)
    {
      TrnLimbPart root = { .span = k, .n = { 0, 0, 1 } };
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
    least = fmin (least, g_array_index (search->stack, TrnLimbPart, i).bound_m);
  return least;
}

/* The points found nearest at the middle of the span stay as near but for what they go to either
 * side of it. */
static void
look_at_hint (Search *search)
{
  const TrnLimbSpan *span = trn_limb_span (&search->times, 0);
  TrnLimbPart part = { .item = search->goal->hint | TRN_ITEM_TRIANGLE, .n = { 0, 0, 1 } };
  double distance = look (search, &part, span->middle, span->s0 + 0.5 * (span->s1 - span->s0));
  double most = distance + trn_limb_goes (&search->bounder, 0) * (0.5 + 8 * DBL_EPSILON);
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
  if (seeks && search->stack->len > 0 && !search->bounder.still
      && least_open (search) < search->goal->far_m)
    {
      const TrnLimbSpan *last = trn_limb_span (&search->times, search->times.n_roots - 1);
      descend (search, last->end, last->s1);
      refine (search, span);
    }
  while (search->stack->len > 0 && !is_over (search))
    {
      TrnLimbPart part = g_array_index (search->stack, TrnLimbPart, search->stack->len - 1);
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
