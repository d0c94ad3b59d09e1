#include "search.h"

#include <float.h>

#include "parallel.h"
#include "triangle.h"
#include "triple.h"

/* Time is blamed for a bound that is missed only when the bound holds at the middle of the span
 * with this share of the width to spare, so that splitting time can end. */
#define BLAME_MARGIN 0.25

/* Steps of the search for a direction: enough; and where it only shows the way. */
#define MOST_STEPS 24
#define FEW_STEPS 5

/* What is looked at before the proof begins: a good upper bound saves work, nothing depends on it.
 */
#define SEEDS 4
#define SEED_HALVINGS 10

/* A search that is not done after so many steps is shared out: at first in a few shares of few
 * steps, doubled from round to round. */
#define SHARED_FROM 500
/* One that is not done after these is likely to be: threads wake up for it. */
#define EXPECTED_FROM 250
#define FIRST_SHARES 4
#define SHARES 16
#define FIRST_STEPS 64
#define DOUBLINGS 7

typedef struct
{
  const TrnSweepPair *pair;
  const TrnSearchGoal *goal;
  TrnBounder bounder;
  guint64 max_steps;
  TrnTimes times;
  GArray *stack; /* of TrnTriple */
  GArray *proof; /* of TrnProofStep, or NULL; not owned */
  TrnSearchResult result;
  TrnTriple nearest; /* the pair of triangles of the least distance so far */
} Search;

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

static double
time_middle (const TrnSpan *span)
{
  return span->s0 + 0.5 * (span->s1 - span->s0);
}

/* The bound at which a triple is done. */
static double
target_get (const Search *search)
{
  const TrnSearchGoal *goal = search->goal;
  if (goal->free_m > 0)
    return goal->free_m;
  double upper = search->result.upper_m;
  return fmin (upper - goal->width_m, fmax (goal->far_m, upper / (1 + goal->far_share)));
}

static double
triangle_reach (const Search *search, guint32 triangle)
{
  TrnVec3 c[3];
  trn_mesh_corners (search->pair->body.bvh->mesh, triangle, c);
  const TrnMotion *motion = search->pair->motion;
  double reach = trn_motion_reach (motion, c[0]);
  reach = fmax (reach, trn_motion_reach (motion, c[1]));
  return fmax (reach, trn_motion_reach (motion, c[2]));
}

/* The exact distance of a pair of triangles at @pose, taken where it is the least so far; the
 * direction of the pair becomes that between their nearest points. */
static void
look_at_triangles (Search *search, TrnTriple *triple, const TrnPose *pose, double s)
{
  TrnVec3 placed[3], other[3], on_a, on_b;
  trn_mesh_corners (search->bounder.a->mesh, triple->a & ~TRN_ITEM_TRIANGLE, placed);
  trn_mesh_corners (search->bounder.b->mesh, triple->b & ~TRN_ITEM_TRIANGLE, other);
  for (guint i = 0; i < 3; i++)
    placed[i] = trn_pose_apply (pose, placed[i]);
  double distance = trn_triangle_distance (placed, other, &on_a, &on_b);
  double upper = distance + search->bounder.rounding_m;
  if (upper < search->result.upper_m)
    {
      search->result.upper_m = upper;
      search->result.s = s;
      search->result.on_body = on_a;
      search->result.on_obstacle = on_b;
      search->nearest = *triple;
    }
  if (distance > 0)
    triple->n = trn_vec3_scale (trn_vec3_sub (on_a, on_b), 1 / distance);
}

/* ---- branching ---- */

static void
finish (Search *search, const TrnTriple *triple)
{
  search->result.lower_m = fmin (search->result.lower_m, triple->bound_m);
  if (search->proof == NULL)
    return;
  const TrnSpan *span = &triple->time->span;
  TrnProofStep step = { .a = triple->a,
                        .b = triple->b,
                        .span = { span->s0, span->s1 },
                        .n = triple->n,
                        .bound_m = triple->bound_m };
  g_array_append_val (search->proof, step);
}

/* Keeps what is not done, the greatest bound first, so that the least is on top. */
static void
add (Search *search, TrnTriple *parts, guint n)
{
  double target = target_get (search);
  guint open = 0;
  for (guint i = 0; i < n; i++)
    {
      TrnTriple part = parts[i];
      if (part.bound_m >= target || target <= 0)
        {
          finish (search, &part);
          continue;
        }
      guint k = open++;
      for (; k > 0 && parts[k - 1].bound_m < part.bound_m; k--)
        parts[k] = parts[k - 1];
      parts[k] = part;
    }
  g_array_append_vals (search->stack, parts, open);
}

static void
bound (Search *search, TrnTriple *triple, double target)
{
  search->result.steps++;
  if (trn_triple_is_triangles (triple))
    trn_triple_bound_along (&search->bounder, triple);
  else
    trn_triple_bound (&search->bounder, triple, target);
}

static void
split_time (Search *search, const TrnTriple *triple)
{
  const TrnSweepPair *pair = search->pair;
  TrnTime *times
      = trn_times_split (&search->times, triple->time, pair->motion, &pair->site_from_obstacle);
  TrnTriple halves[2] = { *triple, *triple };
  double target = target_get (search);
  for (guint i = 0; i < 2; i++)
    {
      halves[i].time = &times[i];
      bound (search, &halves[i], target);
    }
  add (search, halves, 2);
}

static void
split_space (Search *search, const TrnTriple *triple)
{
  TrnTriple parts[TRN_ITEM_PARTS];
  guint n = trn_triple_split (&search->bounder, triple, parts);
  double target = target_get (search);
  for (guint i = 0; i < n; i++)
    bound (search, &parts[i], target);
  add (search, parts, n);
}

/* Two triangles: their exact distance at the middle of the span is attained, and the direction
 * found there bounds the rest of the span. */
static void
split_triangles (Search *search, TrnTriple *triple)
{
  const TrnSpan *span = &triple->time->span;
  look_at_triangles (search, triple, &span->middle, time_middle (span));
  bound (search, triple, 0);
  double target = target_get (search);
  if (triple->bound_m >= target || target <= 0)
    {
      finish (search, triple);
      return;
    }
  /* What is left here is a distance within rounding of the target. */
  double goes = trn_motion_displacement (search->pair->motion,
                                         triangle_reach (search, triple->a & ~TRN_ITEM_TRIANGLE),
                                         span->s0, span->s1);
  if (search->bounder.still || span->s1 - span->s0 <= search->goal->least_s
      || goes <= search->bounder.rounding_m)
    {
      triple->bound_m = fmax (triple->bound_m, 0);
      finish (search, triple);
      return;
    }
  split_time (search, triple);
}

/* Whether the target is reached at the middle of the span alone, with something to spare: then it
 * is the length of the span that spoils the bound. */
static gboolean
time_is_to_blame (Search *search, TrnTriple *triple)
{
  if (search->bounder.still)
    return FALSE;
  double target = target_get (search);
  double spare = search->goal->free_m > 0 ? search->goal->free_m : search->result.upper_m - target;
  if (!(spare < INFINITY))
    spare = 0;
  double enough = target + BLAME_MARGIN * spare;
  TrnTriple moment = *triple;
  const TrnSpan *span = &triple->time->span;
  trn_triple_bound_at (&search->bounder, &moment, &span->middle, enough, MOST_STEPS);
  search->result.steps++;
  if (moment.bound_m < enough)
    return FALSE;
  triple->n = moment.n;
  return TRUE;
}

static void
expand (Search *search, TrnTriple *triple)
{
  if (trn_triple_is_triangles (triple))
    split_triangles (search, triple);
  else if (time_is_to_blame (search, triple))
    split_time (search, triple);
  else
    split_space (search, triple);
}

/* ---- a first distance ---- */

/* Of some triples the one with the least bound at @pose. A bound along the direction of the triple
 * above takes one step, and most are greater already than the least one is in the end. */
static guint
least_at (Search *search, TrnTriple *parts, guint n, const TrnPose *pose)
{
  gboolean done[TRN_ITEM_PARTS] = { FALSE };
  for (guint i = 0; i < n; i++)
    trn_triple_bound_at (&search->bounder, &parts[i], pose, INFINITY, 1);
  search->result.steps += n;
  for (;;)
    {
      guint best = 0;
      for (guint i = 1; i < n; i++)
        if (parts[i].bound_m < parts[best].bound_m)
          best = i;
      if (done[best])
        return best;
      trn_triple_bound_at (&search->bounder, &parts[best], pose, INFINITY, FEW_STEPS);
      search->result.steps++;
      done[best] = TRUE;
    }
}

/* Goes down from pair to pair with the least bound at @s, and looks at the triangles there. */
static void
descend (Search *search, double s)
{
  TrnPose pose = trn_search_pose (search->pair, s);
  TrnTriple triple = { .n = { 0, 0, 1 } }, parts[TRN_ITEM_PARTS];
  while (!trn_triple_is_triangles (&triple))
    {
      guint n = trn_triple_split (&search->bounder, &triple, parts);
      triple = parts[least_at (search, parts, n, &pose)];
    }
  look_at_triangles (search, &triple, &pose, s);
}

/* Looks at the nearest pair of triangles at moments around the one it was found at, ever closer. */
static void
slide (Search *search, TrnInterval span)
{
  double step = trn_interval_width (span);
  for (guint i = 0; i < SEED_HALVINGS; i++)
    {
      step /= 2;
      double at[2]
          = { fmax (search->result.s - step, span.lo), fmin (search->result.s + step, span.hi) };
      for (guint k = 0; k < 2; k++)
        {
          TrnPose pose = trn_search_pose (search->pair, at[k]);
          TrnTriple triple = search->nearest;
          look_at_triangles (search, &triple, &pose, at[k]);
        }
    }
}

/* A distance that is attained, and about the least: a good start for the proof. Another pair of
 * triangles is often nearer at the moment at which the first pair is nearest, and so on. */
static void
seed (Search *search, TrnInterval span)
{
  descend (search, span.lo);
  if (search->bounder.still)
    return;
  descend (search, span.hi);
  for (guint i = 0; i < SEEDS; i++)
    {
      double s = search->result.s, upper = search->result.upper_m;
      slide (search, span);
      if (search->result.s == s)
        return;
      descend (search, search->result.s);
      if (upper - search->result.upper_m < search->goal->width_m)
        return;
    }
}

/* Beyond so many spans of time (some 700 bytes a pair) or open triples (64) a search is cut short
 * rather than eat the machine. */
#define MOST_TIME_PAIRS (1u << 20)
#define MOST_TRIPLES (1u << 22)

static gboolean
is_over (const Search *search)
{
  if (search->goal->free_m > 0
      && (search->result.upper_m < search->goal->free_m
          || search->result.lower_m < search->goal->free_m))
    return TRUE;
  if (search->result.steps >= search->max_steps || search->times.n_pairs > MOST_TIME_PAIRS
      || search->stack->len > MOST_TRIPLES)
    return TRUE;
  return trn_progress_is_cancelled (search->goal->progress);
}

/* Works until nothing is open, or it is over, or so many @steps were taken in all. */
static void
work (Search *search, guint64 steps)
{
  while (search->stack->len > 0 && search->result.steps < steps && !is_over (search))
    {
      TrnTriple triple = g_array_index (search->stack, TrnTriple, search->stack->len - 1);
      g_array_set_size (search->stack, search->stack->len - 1);
      double target = target_get (search);
      if (triple.bound_m >= target || target <= 0)
        finish (search, &triple);
      else
        expand (search, &triple);
    }
}

static void
search_start (Search *search, const TrnSweepPair *pair, TrnInterval span, const TrnSearchGoal *goal)
{
  double reach = trn_sweep_reach (pair->body.bvh, pair->motion);
  double rounding = trn_search_rounding (pair);
  *search = (Search){
    .pair = pair,
    .goal = goal,
    .bounder = {
      .a = pair->body.bvh,
      .b = pair->obstacle.bvh,
      .motion = pair->motion,
      .still = span.lo == span.hi || trn_motion_speed (pair->motion, 1) == 0,
      .rounding_m = rounding,
      .bending = trn_bending_make (pair->motion, &pair->site_from_obstacle, reach, rounding),
    },
    .max_steps = goal->max_steps,
    .stack = g_array_new (FALSE, FALSE, sizeof (TrnTriple)),
    .proof = goal->proof,
    .result = { .upper_m = INFINITY, .lower_m = INFINITY },
  };
  trn_times_start (&search->times);
}

static void
search_clear (Search *search)
{
  trn_times_clear (&search->times);
  g_array_unref (search->stack);
}

/* ---- sharing ---- */

/* A search that is shared out, by rounds. */
typedef struct
{
  Search *all;
  Search shares[SHARES];
  guint n;       /* of them in this round */
  guint64 steps; /* of each */
} Shared;

static void
shared_start (Shared *shared, Search *all)
{
  shared->all = all;
  for (guint i = 0; i < SHARES; i++)
    {
      Search *share = &shared->shares[i];
      *share = *all;
      share->bounder.last.time = NULL;
      share->stack = g_array_new (FALSE, FALSE, sizeof (TrnTriple));
      if (all->proof != NULL)
        share->proof = g_array_new (FALSE, FALSE, sizeof (TrnProofStep));
      trn_times_start (&share->times);
    }
}

static void
shared_clear (Shared *shared)
{
  for (guint i = 0; i < SHARES; i++)
    {
      search_clear (&shared->shares[i]);
      if (shared->all->proof != NULL)
        g_array_unref (shared->shares[i].proof);
    }
}

/* Open triples of the greatest bound first. */
static int
compare_bounds (gconstpointer a, gconstpointer b)
{
  const TrnTriple *p = a, *q = b;
  return (p->bound_m < q->bound_m) - (p->bound_m > q->bound_m);
}

/* Each share gets every n-th of the open triples, and begins from what is known to all. */
static void
shared_deal (Shared *shared)
{
  GArray *open = shared->all->stack;
  g_array_sort (open, compare_bounds);
  for (guint i = 0; i < shared->n; i++)
    {
      Search *share = &shared->shares[i];
      share->result = shared->all->result;
      share->result.lower_m = INFINITY;
      share->result.steps = 0;
      for (guint k = i; k < open->len; k += shared->n)
        g_array_append_val (share->stack, g_array_index (open, TrnTriple, k));
    }
  g_array_set_size (open, 0);
}

static void
share_work (guint index, gpointer data)
{
  Shared *shared = data;
  work (&shared->shares[index], shared->steps);
}

/* Puts what a share found, and what it left open, to the rest. */
static void
share_finish (Search *all, Search *share)
{
  double lower = fmin (all->result.lower_m, share->result.lower_m);
  guint64 steps = all->result.steps + share->result.steps;
  if (share->result.upper_m < all->result.upper_m)
    all->result = share->result;
  all->result.lower_m = lower;
  all->result.steps = steps;
  g_array_append_vals (all->stack, share->stack->data, share->stack->len);
  g_array_set_size (share->stack, 0);
  if (all->proof == NULL)
    return;
  g_array_append_vals (all->proof, share->proof->data, share->proof->len);
  g_array_set_size (share->proof, 0);
}

/* Whether so many spans of time were made as there may be. The shares split the same spans whoever
 * comes first, so their number is the same for any number of threads. */
static gboolean
shared_has_times (const Shared *shared)
{
  guint n = shared->all->times.n_pairs;
  for (guint i = 0; i < SHARES; i++)
    n += shared->shares[i].times.n_pairs;
  return n <= MOST_TIME_PAIRS;
}

/* A long search is shared out in rounds. How many shares a round has, and how many steps each of
 * them takes, does not depend on the number of threads, and what one finds is told to the others
 * only after the round: so the result is the same for any number of threads. First rounds are
 * short and of few shares, since little is known of the least distance then. */
static void
work_shared (Search *search)
{
  Shared shared;
  shared_start (&shared, search);
  for (guint round = 0; search->stack->len > 0 && !is_over (search) && shared_has_times (&shared);
       round++)
    {
      guint64 left = search->max_steps - search->result.steps;
      shared.n = MIN (FIRST_SHARES << MIN (round, DOUBLINGS), SHARES);
      shared.steps = MIN ((guint64)FIRST_STEPS << MIN (round, DOUBLINGS), 1 + left / shared.n);
      shared_deal (&shared);
      trn_parallel_for (shared.n, search->goal->jobs, share_work, &shared);
      for (guint i = 0; i < shared.n; i++)
        share_finish (search, &shared.shares[i]);
    }
  shared_clear (&shared);
}

TrnSearchResult
trn_search_run (const TrnSweepPair *pair, TrnInterval span, const TrnSearchGoal *goal)
{
  Search search;
  search_start (&search, pair, span, goal);
  if (!(goal->free_m > 0))
    seed (&search, span);
  TrnSpan whole = trn_span_make (pair->motion, &pair->site_from_obstacle, span.lo, span.hi);
  TrnTriple root = { .time = trn_times_make (&search.times, &whole), .n = { 0, 0, 1 } };
  bound (&search, &root, target_get (&search));
  g_array_append_val (search.stack, root);
  if (!(goal->free_m > 0))
    {
      work (&search, EXPECTED_FROM);
      if (search.stack->len > 0 && !is_over (&search))
        trn_parallel_expect (goal->jobs);
    }
  work (&search, goal->free_m > 0 ? G_MAXUINT64 : SHARED_FROM);
  if (search.stack->len > 0 && !is_over (&search))
    work_shared (&search);
  search.result.complete = search.stack->len == 0;
  for (guint i = 0; i < search.stack->len; i++)
    search.result.lower_m
        = fmin (search.result.lower_m, g_array_index (search.stack, TrnTriple, i).bound_m);
  search_clear (&search);
  return search.result;
}
