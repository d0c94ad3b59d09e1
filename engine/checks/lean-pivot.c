/* A load that leans about the level line u through what it hangs from, n square to it.
 *
 * One leg. Its point.
 *
 * Two legs, from the hook or, below a beam, from its ends. Their triangle turns freely about the
 * line through their points, and hangs plumb. Where that line lies along u, so does the load: it
 * hangs from its points. Where it is square to u it is turned by the lean as the load is, and the
 * load hangs from the hook; from a point nearer to its centre of gravity, and so no more aside,
 * where that takes a leg past plumb, for which its points count. At any other angle the hook goes
 * along u as well, which changes what either hook bears: that is not known.
 *
 * A level beam with a plumb leg at either end, or legs to both sides of that end which n does not
 * tell apart, turns with the load as those two legs do: its ends are raised as the points below
 * them are, and the load hangs from as far above its points as the beam is below the hook.
 *
 * A beam with legs to both sides of its ends. The load turns about these ends, above its points,
 * and the beam with it or not: it is taken to hang from its points. Where legs go from a beam to
 * points on one side of its end the load turns about another place, which may be anywhere.
 *
 * Three legs or more from the hook hold the load with them as one body that swings about the hook,
 * as long as the hook is over what is between them, seen the way it leans: in each level direction
 * some point has to be as far from below the hook as TRN_LEAN_SIDE_SHARE of its height. How far the
 * farthest is changes between two directions by no more than the angle between them times how far
 * points are away, and so it does while they turn with the load.
 *
 * That lasts until the lean takes a leg past plumb, so only legs count that go aside by
 * TRN_LEAN_SIDE_SHARE of the height, and no lean beyond that angle is covered.
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
/* The sine up to which a way counts as along a line, or square to it: common practice, no source.
 */
#define ASKEW_SHARE 0.01
#define DIRECTIONS 180
#define MOMENTS 181

/* What rounding leaves of points at one height. */
#define FLUSH_M 1e-9

static const TrnLeanPivot unknown = { NAN, NAN };

/* Of the legs that hold the load. */
typedef struct
{
  TrnVec3 first, last; /* the two that are farthest from each other */
  double lowest_m, left_m, right_m;
  guint n, of_end[2];
  gboolean is_mixed; /* some from the hook beside a beam */
} Legs;

static Legs
legs_of (const TrnLiftCheck *check, guint move, const TrnHoist *hoist, TrnVec3 point, TrnVec3 n)
{
  const TrnMotion *motion = &check->run->motions[move];
  Legs legs = { .lowest_m = INFINITY };
  double farthest_m = -1;
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      const TrnSling *sling = &hoist->slings[i];
      if (sling->to_beam)
        continue;
      const TrnVec3 way = trn_rotation_apply (&motion->start.turn, trn_vec3_sub (sling->to, point));
      const double side_m = trn_vec3_dot (way, n);
      const TrnVec3 rest = trn_vec3_add_scaled (way, n, -side_m);
      legs.lowest_m
          = fmin (legs.lowest_m, trn_motion_tilts (motion) ? -trn_vec3_length (rest) : way.z);
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
        }
    }
  if (fabs (legs.lowest_m) < FLUSH_M)
    legs.lowest_m = 0;
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
way_of (const TrnLiftCheck *check, guint move, TrnVec3 a, TrnVec3 b, TrnVec3 n)
{
  const TrnVec3 way
      = trn_rotation_apply (&check->run->motions[move].start.turn, trn_vec3_sub (b, a));
  const TrnVec3 rest = trn_vec3_add_scaled (way, n, -trn_vec3_dot (way, n));
  const double length_m = trn_vec3_length (way), side_m = trn_vec3_dot (way, n),
               rest_m = trn_motion_tilts (&check->run->motions[move]) ? trn_vec3_length (rest)
                                                                      : hypot (rest.x, rest.y);
  return fabs (side_m) <= ASKEW_SHARE * length_m ? ALONG
         : rest_m <= ASKEW_SHARE * length_m      ? SQUARE
                                                 : ASKEW;
}

/* Whether in each level direction some leg goes aside by @least_m from below the hook, at every
 * moment. */
static gboolean
goes_round (const TrnLiftCheck *check, guint move, const TrnHoist *hoist, TrnVec3 point,
            double least_m)
{
  const TrnMotion *motion = &check->run->motions[move];
  const guint n_moments = trn_motion_tilts (motion) ? MOMENTS : 1;
  const double between_rad
      = G_PI / DIRECTIONS + (n_moments > 1 ? fabs (motion->angle_rad) / (2 * (n_moments - 1)) : 0);
  g_autofree TrnVec3 *ways = g_new (TrnVec3, hoist->n_slings);
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
          if (!(most_m - between_rad * away_m >= least_m))
            return FALSE;
        }
    }
  return TRUE;
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

/* How the points below one end of a beam are beside it. */
typedef struct
{
  double least_m, most_m; /* along n */
  double aside_m;         /* level, of the one that is farthest */
} Below;

static Below
below_end (const TrnLiftCheck *check, guint move, const TrnHoist *hoist, guint end, double s,
           TrnVec3 n)
{
  Below below = { .least_m = INFINITY, .most_m = -INFINITY };
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      const TrnSling *sling = &hoist->slings[i];
      if (sling->to_beam || sling->from == TRN_SLING_FROM_HOOK
          || (sling->from == TRN_SLING_FROM_BEAM_B) != (end == 1))
        continue;
      const TrnJet3 way
          = trn_hang_sling_way (check->run->rig, hoist, i, move, trn_interval_point (s));
      const double x_m = -trn_interval_middle (way.x.v), y_m = -trn_interval_middle (way.y.v),
                   side_m = x_m * n.x + y_m * n.y;
      below.least_m = fmin (below.least_m, side_m);
      below.most_m = fmax (below.most_m, side_m);
      below.aside_m = fmax (below.aside_m, hypot (x_m, y_m));
    }
  return below;
}

static TrnLeanPivot
pivot_of_beam (const TrnLiftCheck *check, guint move, const TrnHoist *hoist, const Legs *legs,
               TrnVec3 n)
{
  const TrnLiftBeam *beam = &hoist->beam;
  const double off_m = PLUMB_SHARE * beam->length_m;
  gboolean is_plumb = TRUE;
  if (legs->of_end[0] == 0 || legs->of_end[1] == 0 || check->run->rig == NULL)
    return unknown;
  for (guint i = 0; i < 4; i++)
    {
      const guint end = i / 2;
      const Below below = below_end (check, move, hoist, end, i % 2, n);
      if (!(below.least_m <= off_m && below.most_m >= -off_m)
          || (legs->of_end[end] == 1 && !(below.aside_m <= off_m)))
        return unknown;
      is_plumb = is_plumb && below.least_m >= -off_m && below.most_m <= off_m;
    }
  const double hook_m = trn_hang_hook_above (check->run->rig, hoist).hi,
               most_m = fmax (fabs (legs->lowest_m), isnan (hook_m) ? 0 : hook_m);
  const TrnLeanPivot points = { legs->lowest_m, fabs (legs->lowest_m) };
  if (!is_plumb)
    return isnan (hook_m) ? unknown : (TrnLeanPivot){ legs->lowest_m, most_m };
  switch (way_of (check, move, beam->between[0], beam->between[1], n))
    {
    case ALONG:
      return points;
    case SQUARE:
      if (!(fmin (legs->left_m, legs->right_m) >= TRN_LEAN_SIDE_SHARE * beam->below_hook_m))
        return unknown;
      return (TrnLeanPivot){ legs->lowest_m + KEPT_SHARE * beam->below_hook_m,
                             fmax (fabs (legs->lowest_m), beam->below_hook_m) };
    default:
      return unknown;
    }
}

static TrnLeanPivot
pivot_of_legs (const TrnLiftCheck *check, guint move, const TrnHoist *hoist, TrnVec3 point,
               const Legs *legs, TrnVec3 n)
{
  const TrnLiftRun *run = check->run;
  const gboolean is_tail = hoist == &run->lift->rigging.tail;
  const TrnInterval hook
      = run->rig != NULL ? run->rig->hook_above_m[is_tail] : trn_interval_none ();
  const double height_m = hook.lo - legs->lowest_m, most_m = fmax (fabs (legs->lowest_m), hook.hi);
  const TrnLeanPivot points = { legs->lowest_m, fabs (legs->lowest_m) };
  if (legs->n == 1)
    return points;
  if (!(height_m > 0) || isnan (most_m))
    return unknown;
  const double least_m = TRN_LEAN_SIDE_SHARE * (hook.hi - legs->lowest_m);
  if (legs->n > 2 && goes_round (check, move, hoist, point, least_m))
    return (TrnLeanPivot){ hook.lo, most_m };
  if (legs->n > 2 && !are_in_line (hoist, legs))
    return unknown;
  const Way way = way_of (check, move, legs->first, legs->last, n);
  if (way == ALONG)
    return points;
  if (way == ASKEW)
    return unknown;
  return (TrnLeanPivot){ fmin (legs->left_m, legs->right_m) >= least_m ? hook.lo : legs->lowest_m,
                         most_m };
}

TrnLeanPivot
trn_lean_pivot (const TrnLiftCheck *check, guint move, const TrnHoist *hoist, TrnVec3 point,
                TrnVec3 n)
{
  const TrnLeanPivot at_point = { 0, 0 };
  if (!hoist->given || trn_vec3_length (n) == 0)
    return at_point;
  const Legs legs = legs_of (check, move, hoist, point, n);
  if (legs.n == 0)
    return at_point;
  if (legs.is_mixed)
    return unknown;
  return hoist->has_beam ? pivot_of_beam (check, move, hoist, &legs, n)
                         : pivot_of_legs (check, move, hoist, point, &legs, n);
}
