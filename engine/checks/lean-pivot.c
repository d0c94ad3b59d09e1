/* A load that leans about the level line u through what it hangs from, n square to it.
 *
 * Lines are plumb and points are drawn below their hooks: what is not, by more than PLUMB_M, hangs
 * otherwise than drawn, and is not known. What is less counts as beside, whichever way.
 *
 * One leg. Its point.
 *
 * Two legs, from the hook or, below a beam, from its ends. Their triangle turns freely about the
 * line through their points, and hangs plumb. Where that line lies along u, so does the load: it
 * hangs from its points. Where it is square to u it is turned by the lean as the load is, and the
 * load hangs from the hook; from a point nearer to its centre of gravity, and so no more aside,
 * where that takes a leg past plumb, for which its points count. At any other angle the hook goes
 * along u as well, which changes what either hook bears: that is not known. Off by less, it goes by
 * the sine of that times how high the hook is for each radian that the load turns by.
 *
 * A level beam with a plumb leg at either end, or legs to both sides of that end which n does not
 * tell apart, turns with the load as those two legs do: its ends are raised as the points below
 * them are, and the load hangs from as far above its points as the beam is below the hook.
 *
 * A beam with legs to both sides of its ends. The load turns about these ends, above its points,
 * and the beam with it or not: it is taken to hang from its points, and the line between what both
 * hooks hold to be as steep as if it were the hook. Where legs go from a beam to points on one side
 * of its end the load turns about another place, which may be anywhere.
 *
 * What a leg alone has below its end is one place; what several have is between their points, and
 * of that the nearest counts. The middle of both ends is below the hook, so the load moves by half
 * of the sum of both: level, of which what is along n counts as across, and of a beam at an angle
 * to u, which may turn as well, all of it. Legs to both sides in n and along u alike may still pass
 * their end by that.
 *
 * Three legs or more from the hook hold the load with them as one body that swings about the hook,
 * as long as the hook is over what is between them, seen the way it leans: in each level direction
 * some point has to be as far from below the hook as that angle takes it. How far the
 * farthest is changes between two directions by no more than the angle between them times how far
 * points are away, and so it does while they turn with the load.
 *
 * That lasts until the lean takes a leg past plumb, so no lean beyond the angle that they go aside
 * by is covered, nor any beyond that of TRN_LEAN_SIDE_SHARE; two legs that go aside by less count
 * as above.
 *
 * Legs along u pitch with the load where the line between both hooks slopes, and those square to u
 * keep their hook plumb and so go along u by as much (load-lean.c).
 *
 * Where the plane of both hooks turns past the load, or one hook holds it alone, which way legs go
 * does not tell: one leg, and three or more that go round, hang as above; two do so from a place no
 * lower than their points for a hook that holds alone, and all else is not known.
 *
 * Points of the load may be lower than @point: in a tilt by as much as they are away from it but
 * for n. */
#include "lean-pivot.h"

#include "hang.h"
#include "hoist.h"

/* Below the end of a beam, as a share of its length: common practice, no source. What is so far
 * aside brings the pivot down by less than the share that is left. */
#define PLUMB_SHARE 0.005
#define KEPT_SHARE 0.98
/* It counts, but moves the load by as much until it is plumb: common practice, no source. */
#define PLUMB_M 0.02
/* Of the height that legs go aside by all round, at least: likewise. */
#define ROUND_SHARE 0.02
/* The sine up to which a way counts as along a line, or square to it: common practice, no source.
 */
#define ASKEW_SHARE 0.01
/* By what hooks out of level and the lean turn it, in radians: what leans by more is far beyond any
 * tolerance. Likewise. */
#define MOST_TURN 0.2
#define DIRECTIONS 180
#define MOMENTS 181
#define BEAM_MOMENTS 13

/* What rounding leaves of points at one height, … */
#define FLUSH_M 1e-9
/* … and what the numbers of a plan may leave of a way that is meant to be square to another. */
#define ROUNDED_M 1e-6

static TrnLeanDoubt
doubt_of (const char *why, guint sling, double found, double limit)
{
  return (TrnLeanDoubt){ why, sling, found, limit };
}

static TrnLeanPivot
unknown_for (TrnLeanDoubt doubt)
{
  return (TrnLeanPivot){ NAN, NAN, NAN, NAN, NAN, NAN, NAN, doubt };
}

/* Without a place or a number. */
static TrnLeanPivot
unknown (const char *why)
{
  return unknown_for (doubt_of (why, G_MAXUINT, NAN, NAN));
}

/* Of the legs that hold the load. */
typedef struct
{
  TrnVec3 first, last; /* the two that are farthest from each other */
  double lowest_m, highest_m, left_m, right_m;
  double
      beside_m; /* of the line through these two, where it is between them, from below the hook */
  guint n, of_end[2];
  guint sling;       /* of one that goes to @last */
  guint aside;       /* of the one that is farthest along n */
  gboolean is_mixed; /* some from the hook beside a beam */
} Legs;

/* Level; in a tilt, which makes any way a level one, all of it. */
static TrnVec3
level_part (const TrnMotion *motion, TrnVec3 way)
{
  return trn_motion_tilts (motion) ? way : trn_vec3_make (way.x, way.y, 0);
}

/* From below the hook to the line from @a to @b of the load, or to one end where it is not between
 * them. */
static double
beside_hook (const TrnMotion *motion, TrnVec3 point, TrnVec3 a, TrnVec3 b)
{
  const TrnRotation *turn = &motion->start.turn;
  const TrnVec3 from = level_part (motion, trn_rotation_apply (turn, trn_vec3_sub (a, point))),
                to = level_part (motion, trn_rotation_apply (turn, trn_vec3_sub (b, point))),
                line = trn_vec3_sub (to, from);
  const double square = trn_vec3_dot (line, line),
               t = square > 0 ? CLAMP (-trn_vec3_dot (from, line) / square, 0, 1) : 0;
  return trn_vec3_length (trn_vec3_add_scaled (from, line, t));
}

static Legs
legs_of (const TrnLiftCheck *check, guint move, const TrnHoist *hoist, TrnVec3 point, TrnVec3 n)
{
  const TrnMotion *motion = &check->run->motions[move];
  Legs legs = { .lowest_m = INFINITY, .highest_m = -INFINITY };
  double farthest_m = -1;
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      const TrnSling *sling = &hoist->slings[i];
      if (sling->to_beam)
        continue;
      const TrnVec3 way = trn_rotation_apply (&motion->start.turn, trn_vec3_sub (sling->to, point));
      const double side_m = trn_vec3_dot (way, n);
      const TrnVec3 rest = trn_vec3_add_scaled (way, n, -side_m);
      const gboolean tilts = trn_motion_tilts (motion);
      legs.lowest_m = fmin (legs.lowest_m, tilts ? -trn_vec3_length (rest) : way.z);
      legs.highest_m = fmax (legs.highest_m, tilts ? trn_vec3_length (rest) : way.z);
      if (legs.n == 0 || fabs (side_m) > fmax (legs.left_m, legs.right_m))
        legs.aside = i;
      legs.left_m = fmax (legs.left_m, side_m);
      legs.right_m = fmax (legs.right_m, -side_m);
      legs.is_mixed |= hoist->has_beam && sling->from == TRN_SLING_FROM_HOOK;
      legs.of_end[sling->from == TRN_SLING_FROM_BEAM_B]++;
      legs.n++;
      for (guint k = 0; k <= i; k++)
        {
          const double m = trn_vec3_distance (sling->to, hoist->slings[k].to);
          if (hoist->slings[k].to_beam || m <= farthest_m)
            continue;
          farthest_m = m;
          legs.first = hoist->slings[k].to;
          legs.last = sling->to;
          legs.sling = i;
        }
    }
  if (fabs (legs.lowest_m) < FLUSH_M)
    legs.lowest_m = 0;
  if (fabs (legs.highest_m) < FLUSH_M)
    legs.highest_m = 0;
  legs.beside_m = beside_hook (motion, point, legs.first, legs.last);
  return legs;
}

/* How the way from @a to @b of the load lies to the line of both hooks, seen from above; in a tilt
 * what is up comes to lie along it. */
typedef enum
{
  ALONG,
  SQUARE,
  ASKEW,
} Way;

static Way
way_of (const TrnLiftCheck *check, guint move, TrnVec3 a, TrnVec3 b, TrnVec3 n, double *askew)
{
  const TrnVec3 way
      = trn_rotation_apply (&check->run->motions[move].start.turn, trn_vec3_sub (b, a));
  const TrnVec3 rest = trn_vec3_add_scaled (way, n, -trn_vec3_dot (way, n));
  const double length_m = trn_vec3_length (way), side_m = trn_vec3_dot (way, n),
               rest_m = trn_motion_tilts (&check->run->motions[move]) ? trn_vec3_length (rest)
                                                                      : hypot (rest.x, rest.y);
  *askew = length_m > 0 ? fmin (fabs (side_m), rest_m) / length_m : 0;
  return fabs (side_m) <= ASKEW_SHARE * length_m ? ALONG
         : rest_m <= ASKEW_SHARE * length_m      ? SQUARE
                                                 : ASKEW;
}

/* How far in each level direction some leg goes aside from below the hook, at every moment, at
 * least. */
static double
goes_round (const TrnLiftCheck *check, guint move, const TrnHoist *hoist, TrnVec3 point)
{
  const TrnMotion *motion = &check->run->motions[move];
  const guint n_moments = trn_motion_tilts (motion) ? MOMENTS : 1;
  const double between_rad
      = G_PI / DIRECTIONS + (n_moments > 1 ? fabs (motion->angle_rad) / (2 * (n_moments - 1)) : 0);
  g_autofree TrnVec3 *ways = g_new (TrnVec3, hoist->n_slings);
  double least_m = INFINITY;
  for (guint k = 0; k < n_moments; k++)
    {
      const TrnPose pose
          = trn_motion_pose (motion, n_moments > 1 ? (double)k / (n_moments - 1) : 0);
      double away_m = 0;
      for (guint i = 0; i < hoist->n_slings; i++)
        {
          ways[i] = trn_rotation_apply (&pose.turn, trn_vec3_sub (hoist->slings[i].to, point));
          away_m = fmax (away_m, trn_vec3_length (ways[i]));
        }
      for (guint d = 0; d < DIRECTIONS; d++)
        {
          const double x = cos (2 * G_PI * d / DIRECTIONS), y = sin (2 * G_PI * d / DIRECTIONS);
          double most_m = -INFINITY;
          for (guint i = 0; i < hoist->n_slings; i++)
            most_m = fmax (most_m, ways[i].x * x + ways[i].y * y);
          least_m = fmin (least_m, most_m - between_rad * away_m);
        }
    }
  return least_m;
}

static gboolean
are_in_line (const TrnHoist *hoist, const Legs *legs)
{
  const TrnVec3 line = trn_vec3_sub (legs->last, legs->first);
  const double length_m = trn_vec3_length (line);
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      const TrnVec3 way = trn_vec3_sub (hoist->slings[i].to, legs->first);
      if (trn_vec3_length (trn_vec3_cross (way, line)) > ASKEW_SHARE * length_m * length_m)
        return FALSE;
    }
  return TRUE;
}

typedef struct
{
  double across_m, along_m;
} Beside;

/* How the points below one end of a beam are beside it. */
typedef struct
{
  TrnInterval across_m, along_m; /* n, and square to it */
  Beside nearest;                /* of all that is between them */
  double aside_m;                /* level, of the one that is farthest */
  guint aside;                   /* which that is */
  double drop_m;                 /* the shortest leg */
} Below;

static void
reach_to (TrnInterval *range, double m)
{
  range->lo = fmin (range->lo, m);
  range->hi = fmax (range->hi, m);
}

static Beside
nearest_between (Beside a, Beside b)
{
  const double x_m = b.across_m - a.across_m, y_m = b.along_m - a.along_m,
               square = x_m * x_m + y_m * y_m,
               t = square > 0 ? CLAMP (-(a.across_m * x_m + a.along_m * y_m) / square, 0, 1) : 0;
  return (Beside){ a.across_m + t * x_m, a.along_m + t * y_m };
}

/* Of the hull of @points from below the end: on the line between some two of them, or 0 where that
 * is within. Then no direction has all of them on one side, and else that of the nearest does. */
static Beside
nearest_of (guint n, const Beside *points)
{
  Beside nearest = points[0];
  for (guint i = 0; i < n; i++)
    for (guint k = 0; k < i; k++)
      {
        const Beside one = nearest_between (points[i], points[k]);
        if (hypot (one.across_m, one.along_m) < hypot (nearest.across_m, nearest.along_m))
          nearest = one;
      }
  for (guint i = 0; i < n; i++)
    if (nearest.across_m * points[i].across_m + nearest.along_m * points[i].along_m <= 0)
      return (Beside){ 0, 0 };
  return nearest;
}

/* @n: as the move begins; it turns with the load. */
static Below
below_end (const TrnLiftCheck *check, guint move, const TrnHoist *hoist, guint end, double s,
           TrnVec3 n)
{
  const TrnInterval none = { INFINITY, -INFINITY };
  const TrnMotion *motion = &check->run->motions[move];
  const TrnPose pose = trn_motion_pose (motion, s);
  Below below = { .across_m = none, .along_m = none, .drop_m = INFINITY };
  g_autofree Beside *points = g_new (Beside, hoist->n_slings);
  guint n_points = 0;
  n = trn_rotation_apply (&pose.turn, trn_rotation_apply_inverse (&motion->start.turn, n));
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      const TrnSling *sling = &hoist->slings[i];
      if (sling->to_beam || sling->from == TRN_SLING_FROM_HOOK
          || (sling->from == TRN_SLING_FROM_BEAM_B) != (end == 1))
        continue;
      const TrnJet3 way
          = trn_hang_sling_way (check->run->rig, hoist, i, move, trn_interval_point (s));
      const double x_m = -trn_interval_middle (way.x.v), y_m = -trn_interval_middle (way.y.v);
      const Beside beside = { x_m * n.x + y_m * n.y, y_m * n.x - x_m * n.y };
      points[n_points++] = beside;
      reach_to (&below.across_m, beside.across_m);
      reach_to (&below.along_m, beside.along_m);
      if (n_points == 1 || hypot (x_m, y_m) > below.aside_m)
        below.aside = i;
      below.aside_m = fmax (below.aside_m, hypot (x_m, y_m));
      below.drop_m = fmin (below.drop_m, hypot (hypot (x_m, y_m), trn_interval_middle (way.z.v)));
    }
  if (n_points > 0)
    below.nearest = nearest_of (n_points, points);
  return below;
}

/* How far the middle of what is below both ends may be from below the beam. */
static double
middle_beside (TrnInterval a, TrnInterval b)
{
  return fmax (fabs (a.lo + b.lo), fabs (a.hi + b.hi)) / 2;
}

/* Of the legs of a beam. */
typedef struct
{
  gboolean is_held;   /* it hangs as told above */
  gboolean is_plumb;  /* below each end */
  double across_m;    /* how far their middle is beside, along n, where they are plumb */
  double one_side_m;  /* how far all of one end go to one side along n, where they are not */
  double along_m;     /* and square to it */
  TrnLeanDoubt doubt; /* where it is not held, of what is farthest beyond its limit */
} Drops;

/* Beside below what holds it, by so much; more than the limit is not held. */
static void
hold_to (Drops *drops, const char *why, guint sling, double m, double limit_m)
{
  if (m <= limit_m)
    return;
  if (drops->is_held || m / limit_m > drops->doubt.found / drops->doubt.limit)
    drops->doubt = doubt_of (why, sling, m, limit_m);
  drops->is_held = FALSE;
}

/* Of several points, how far all of them are to one side. */
static double
one_side_m (TrnInterval range)
{
  return fmax (0, fmax (range.lo, -range.hi));
}

static void
add_moment (const TrnHoist *hoist, const Legs *legs, Way way, const Below below[2], Drops *drops)
{
  const double drop_m = fmin (below[0].drop_m, below[1].drop_m),
               off_m = PLUMB_SHARE * fmin (hoist->beam.length_m, drop_m),
               along_least_m = (below[0].along_m.lo + below[1].along_m.lo) / 2,
               along_most_m = (below[0].along_m.hi + below[1].along_m.hi) / 2;
  double beside_m = middle_beside (below[0].across_m, below[1].across_m);
  hold_to (drops, TRN_LEAN_DOUBT_MIDDLE, G_MAXUINT, fmax (along_least_m, -along_most_m), PLUMB_M);
  for (guint end = 0; end < 2; end++)
    {
      const TrnInterval across_m = below[end].across_m, along_m = below[end].along_m;
      const gboolean is_alone = legs->of_end[end] == 1;
      const double aside_m = is_alone       ? fmax (below[end].aside_m, one_side_m (across_m))
                             : way == ALONG ? one_side_m (across_m)
                                            : fmax (one_side_m (across_m), one_side_m (along_m));
      hold_to (drops, TRN_LEAN_DOUBT_BEAM_END, below[end].aside, aside_m, off_m);
      drops->is_plumb &= across_m.lo >= -off_m && across_m.hi <= off_m;
      drops->one_side_m = fmax (drops->one_side_m,
                                is_alone ? trn_interval_size (across_m) : one_side_m (across_m));
      if (way == ALONG)
        beside_m = fmax (beside_m, trn_interval_size (across_m));
    }
  const double along_m = fmax (0, fmax (along_least_m, -along_most_m));
  drops->along_m = fmax (drops->along_m, along_m);
  drops->across_m = fmax (drops->across_m, beside_m);
  /* Where one of an end alone is beside it, the middle as above; of more the line may pass it. */
  if (legs->of_end[0] == 1 && legs->of_end[1] == 1)
    return;
  const double x_m = fabs (below[0].nearest.across_m + below[1].nearest.across_m) / 2,
               y_m = fabs (below[0].nearest.along_m + below[1].nearest.along_m) / 2,
               off_across_m = way == ASKEW ? hypot (x_m, y_m) : x_m,
               off_along_m = way == ASKEW ? hypot (x_m, y_m) : y_m;
  drops->along_m = fmax (drops->along_m, off_along_m);
  drops->across_m = fmax (drops->across_m, off_across_m);
  drops->one_side_m = fmax (drops->one_side_m, off_across_m);
}

static Drops
drops_of (const TrnLiftCheck *check, guint move, const TrnHoist *hoist, const Legs *legs, Way way,
          TrnVec3 n)
{
  Drops drops = { .is_held = TRUE, .is_plumb = TRUE };
  for (guint i = 0; i < BEAM_MOMENTS; i++)
    {
      const double s = (double)i / (BEAM_MOMENTS - 1);
      const Below below[2]
          = { below_end (check, move, hoist, 0, s, n), below_end (check, move, hoist, 1, s, n) };
      add_moment (hoist, legs, way, below, &drops);
    }
  return drops;
}

static TrnLeanDoubt
doubt_askew (double askew)
{
  return doubt_of (TRN_LEAN_DOUBT_ASKEW, G_MAXUINT, asin (fmin (askew, 1)) * 180 / G_PI,
                   asin (ASKEW_SHARE) * 180 / G_PI);
}

/* From its points, whatever it leans by. */
static TrnLeanPivot
from_points (const Legs *legs, double across_m, double along_m)
{
  return (TrnLeanPivot){ .up_m = legs->lowest_m,
                         .high_m = legs->highest_m,
                         .most_m = fmax (fabs (legs->lowest_m), fabs (legs->highest_m)),
                         .across_m = across_m,
                         .along_m = along_m,
                         .tangent = INFINITY };
}

/* What it hangs from goes that far for each radian that the load turns by. */
static void
add_askew (TrnLeanPivot *pivot, double m)
{
  if (MOST_TURN * m <= ROUNDED_M)
    return;
  pivot->across_m += MOST_TURN * m;
  pivot->along_m += MOST_TURN * m;
}

static TrnLeanPivot
pivot_of_beam (const TrnLiftCheck *check, guint move, const TrnHoist *hoist, const Legs *legs,
               TrnVec3 n)
{
  const TrnLiftBeam *beam = &hoist->beam;
  if (legs->of_end[0] == 0 || legs->of_end[1] == 0)
    return unknown (TRN_LEAN_DOUBT_NO_END);
  if (check->run->rig == NULL)
    return unknown (NULL);
  double askew;
  const Way way = way_of (check, move, beam->between[0], beam->between[1], n, &askew);
  const Drops drops = drops_of (check, move, hoist, legs, way, n);
  const double hook_m = trn_hang_hook_above (check->run->rig, hoist).hi,
               high_m = fmax (fabs (legs->lowest_m), hook_m);
  TrnLeanPivot pivot
      = from_points (legs, drops.is_plumb ? drops.across_m : drops.one_side_m, drops.along_m);
  const double beside_m = fmax (pivot.across_m, pivot.along_m);
  if (way == ASKEW)
    return unknown_for (doubt_askew (askew));
  if (!drops.is_held)
    return unknown_for (drops.doubt);
  if (isnan (hook_m))
    return unknown (NULL);
  if (!(beside_m <= PLUMB_M))
    return unknown_for (doubt_of (TRN_LEAN_DOUBT_MIDDLE, G_MAXUINT, beside_m, PLUMB_M));
  pivot.pitch_m = high_m;
  add_askew (&pivot, askew * high_m);
  if (!drops.is_plumb)
    {
      pivot.high_m = pivot.most_m = high_m;
      return pivot;
    }
  if (way == ALONG)
    return pivot;
  const double side_m = fmin (legs->left_m, legs->right_m),
               least_m = TRN_LEAN_SIDE_SHARE * beam->below_hook_m;
  if (!(side_m >= least_m))
    return unknown_for (doubt_of (TRN_LEAN_DOUBT_NARROW, G_MAXUINT, side_m, least_m));
  pivot.up_m += KEPT_SHARE * beam->below_hook_m;
  pivot.high_m += beam->below_hook_m;
  pivot.most_m = fmax (pivot.most_m, pivot.high_m);
  pivot.tangent = TRN_LEAN_SIDE_SHARE;
  return pivot;
}

static TrnLeanPivot
pivot_of_legs (const TrnLiftCheck *check, guint move, const TrnHoist *hoist, TrnVec3 point,
               const Legs *legs, TrnVec3 n)
{
  const TrnLiftRun *run = check->run;
  const gboolean is_tail = hoist == &run->lift->rigging.tail;
  const TrnInterval hook
      = run->rig != NULL ? run->rig->hook_above_m[is_tail] : trn_interval_none ();
  const double height_m = hook.lo - legs->lowest_m, most_height_m = hook.hi - legs->lowest_m,
               side_m = fmax (legs->left_m, legs->right_m);
  const gboolean has_plane = trn_vec3_length (n) > 0, is_below = legs->beside_m <= PLUMB_M;
  TrnLeanPivot pivot = from_points (legs, has_plane ? side_m : legs->beside_m, legs->beside_m);
  if (legs->n == 1)
    return is_below ? pivot
                    : unknown_for (
                        doubt_of (TRN_LEAN_DOUBT_BESIDE, legs->sling, legs->beside_m, PLUMB_M));
  if (!(height_m > 0) || isnan (most_height_m))
    return unknown (height_m <= 0 ? TRN_LEAN_DOUBT_LOW : NULL);
  pivot.most_m = pivot.pitch_m = fmax (pivot.most_m, hook.hi);
  pivot.high_m = fmax (pivot.high_m, hook.hi);
  const double round_m = legs->n > 2 ? goes_round (check, move, hoist, point) : 0;
  if (round_m >= ROUND_SHARE * most_height_m)
    {
      pivot.up_m = hook.lo;
      pivot.across_m = pivot.along_m = 0;
      pivot.tangent = fmin (TRN_LEAN_SIDE_SHARE, round_m / most_height_m);
      return pivot;
    }
  if (legs->n > 2 && !are_in_line (hoist, legs))
    return unknown_for (
        doubt_of (TRN_LEAN_DOUBT_ROUND, G_MAXUINT, fmax (0, round_m), ROUND_SHARE * most_height_m));
  if (!has_plane)
    return unknown (TRN_LEAN_DOUBT_PLANE);
  if (!is_below)
    return unknown_for (doubt_of (TRN_LEAN_DOUBT_LINE, legs->sling, legs->beside_m, PLUMB_M));
  double askew;
  const Way way = way_of (check, move, legs->first, legs->last, n, &askew);
  if (way == ALONG)
    {
      add_askew (&pivot, askew * pivot.pitch_m);
      pivot.high_m = legs->highest_m;
      pivot.most_m = fmax (fabs (legs->lowest_m), fabs (legs->highest_m));
      return side_m <= PLUMB_M
                 ? pivot
                 : unknown_for (doubt_of (TRN_LEAN_DOUBT_BESIDE, legs->aside, side_m, PLUMB_M));
    }
  if (way == ASKEW)
    return unknown_for (doubt_askew (askew));
  if (!(fmin (legs->left_m, legs->right_m) > 0))
    return unknown (TRN_LEAN_DOUBT_ONE_SIDE);
  pivot.across_m = 0;
  add_askew (&pivot, askew * pivot.pitch_m);
  if (!(fmin (legs->left_m, legs->right_m) >= TRN_LEAN_SIDE_SHARE * most_height_m))
    return pivot;
  pivot.up_m = hook.lo;
  pivot.tangent = TRN_LEAN_SIDE_SHARE;
  return pivot;
}

TrnLeanPivot
trn_lean_pivot (const TrnLiftCheck *check, guint move, const TrnHoist *hoist, TrnVec3 point,
                TrnVec3 n)
{
  const TrnLeanPivot at_point = { .tangent = INFINITY };
  if (!hoist->given)
    return at_point;
  const Legs legs = legs_of (check, move, hoist, point, n);
  if (legs.n == 0 && !hoist->has_beam)
    return at_point;
  if (legs.n == 0 || legs.is_mixed)
    return unknown (legs.is_mixed ? TRN_LEAN_DOUBT_MIXED : TRN_LEAN_DOUBT_NO_END);
  if (hoist->has_beam && trn_vec3_length (n) == 0)
    return unknown (TRN_LEAN_DOUBT_PLANE);
  return hoist->has_beam ? pivot_of_beam (check, move, hoist, &legs, n)
                         : pivot_of_legs (check, move, hoist, point, &legs, n);
}

/* Of slings that go from the hook to the load; those all round it have no line. */
static double
beside_of (const TrnLiftCheck *check, guint move, const TrnHoist *hoist, TrnVec3 point,
           const Legs *legs, TrnLeanDoubt *doubt)
{
  if (legs->n > 2 && !are_in_line (hoist, legs))
    {
      *doubt = doubt_of (TRN_LEAN_DOUBT_ROUND, G_MAXUINT, 0, 0);
      return goes_round (check, move, hoist, point) >= 0 ? 0 : NAN;
    }
  *doubt = doubt_of (legs->n == 1 ? TRN_LEAN_DOUBT_BESIDE : TRN_LEAN_DOUBT_LINE, legs->sling,
                     legs->beside_m, PLUMB_M);
  return legs->beside_m <= PLUMB_M ? legs->beside_m : NAN;
}

/* The same of a beam. */
static double
beside_of_beam (const TrnLiftCheck *check, guint move, const TrnHoist *hoist, const Legs *legs,
                TrnVec3 n, TrnLeanDoubt *doubt)
{
  *doubt = unknown (legs->is_mixed ? TRN_LEAN_DOUBT_MIXED : TRN_LEAN_DOUBT_NO_END).doubt;
  if (legs->of_end[0] == 0 || legs->of_end[1] == 0 || legs->is_mixed || check->run->rig == NULL)
    return NAN;
  *doubt = unknown (TRN_LEAN_DOUBT_PLANE).doubt;
  if (trn_vec3_length (n) == 0)
    return NAN;
  const TrnLiftBeam *beam = &hoist->beam;
  double askew;
  const Way way = way_of (check, move, beam->between[0], beam->between[1], n, &askew);
  const Drops drops = drops_of (check, move, hoist, legs, way, n);
  *doubt = drops.doubt;
  return drops.is_held ? hypot (drops.is_plumb ? drops.across_m : drops.one_side_m, drops.along_m)
                       : NAN;
}

double
trn_lean_pivot_beside (const TrnLiftCheck *check, guint move, const TrnHoist *hoist, TrnVec3 point,
                       TrnVec3 n, TrnLeanDoubt *doubt)
{
  TrnLeanDoubt why = { .why = NULL };
  if (!hoist->given || hoist->n_slings == 0)
    return 0;
  const Legs legs = legs_of (check, move, hoist, point, n);
  const double beside_m = hoist->has_beam ? beside_of_beam (check, move, hoist, &legs, n, &why)
                                          : beside_of (check, move, hoist, point, &legs, &why);
  if (doubt != NULL)
    *doubt = why;
  return beside_m;
}

TrnLeanPivot
trn_lean_pivot_alone (const TrnLiftCheck *check, guint move, const TrnHoist *hoist, TrnVec3 point)
{
  const TrnVec3 any = { 0, 0, 0 };
  const TrnLeanPivot all_round = trn_lean_pivot (check, move, hoist, point, any);
  if (!isnan (all_round.up_m) || hoist->has_beam)
    return all_round;
  const Legs legs = legs_of (check, move, hoist, point, any);
  TrnLeanDoubt doubt;
  const double beside_m = beside_of (check, move, hoist, point, &legs, &doubt);
  return isnan (beside_m) ? unknown_for (doubt) : from_points (&legs, beside_m, beside_m);
}
