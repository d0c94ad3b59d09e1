/* A load that leans by φ about the level line u through what it hangs from, n square to it.
 *
 * One leg. Its point.
 *
 * Two legs, from the hook or, below a beam, from its ends. Their triangle turns freely about the
 * line through their points, and hangs plumb. That line, at the angle θ to u, goes up by sin θ sin
 * φ along itself, at the angle ε to the level, sin ε = sin θ sin φ. So the hook, b above it and
 * square to it in its plumb plane, goes by b sin ε along the level way of the line, and by b sin²θ
 * sin φ cos φ/cos ε along n: as if the load hung from a point b sin²θ cos φ/cos ε above the line,
 * which falls with φ and is taken at the greatest that is covered. With n along what goes from one
 * point to the other sin θ is its share of that way, which in a tilt about n stays while the rest
 * of the way only becomes less level: it is taken of the whole way.
 *
 * A level beam with a plumb leg at either end, or legs to both sides of that end which n does not
 * tell apart, turns with the load: its ends are raised as the points below them are. It is b below
 * the hook, and the angle is its own.
 *
 * A beam with legs to both sides of its ends. The load turns about these ends, above its points,
 * and the beam with it or not: it is taken to hang from its points. Where legs go from a beam to
 * points on one side of its end the load turns about another place, which may be anywhere.
 *
 * Three legs or more from the hook that are in no plane hold the load with them as one body that
 * swings about the hook.
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

/* What rounding leaves of points at one height. */
#define FLUSH_M 1e-9

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

/* What part of its height above the line from @a to @b of the load a hook counts with. */
static double
part_of_height (const TrnLiftCheck *check, guint move, TrnVec3 a, TrnVec3 b, TrnVec3 n)
{
  const TrnVec3 way
      = trn_rotation_apply (&check->run->motions[move].start.turn, trn_vec3_sub (b, a));
  const double length_m = trn_vec3_length (way), along_m = trn_vec3_dot (way, n),
               lean_rad = atan (TRN_LEAN_SIDE_SHARE);
  if (length_m == 0)
    return 0;
  const double sine = along_m / length_m, off = sine * sin (lean_rad);
  return sine * sine * cos (lean_rad) / sqrt (1 - off * off);
}

static gboolean
are_in_line (const TrnHoist *hoist, const Legs *legs)
{
  const TrnVec3 line = trn_vec3_sub (legs->last, legs->first);
  const double length_m = trn_vec3_length (line);
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      const TrnVec3 way = trn_vec3_sub (hoist->slings[i].to, legs->first);
      if (!hoist->slings[i].to_beam
          && trn_vec3_length (trn_vec3_cross (way, line))
                 > TRN_LEAN_SIDE_SHARE * length_m * length_m)
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

static double
up_of_beam (const TrnLiftCheck *check, guint move, const TrnHoist *hoist, const Legs *legs,
            TrnVec3 n)
{
  const TrnLiftBeam *beam = &hoist->beam;
  const double off_m = PLUMB_SHARE * beam->length_m;
  gboolean is_plumb = TRUE;
  if (legs->of_end[0] == 0 || legs->of_end[1] == 0 || check->run->rig == NULL)
    return legs->lowest_m;
  for (guint i = 0; i < 4; i++)
    {
      const guint end = i / 2;
      const Below below = below_end (check, move, hoist, end, i % 2, n);
      if (!(below.least_m <= off_m && below.most_m >= -off_m)
          || (legs->of_end[end] == 1 && !(below.aside_m <= off_m)))
        return NAN;
      is_plumb = is_plumb && below.least_m >= -off_m && below.most_m <= off_m;
    }
  const double up_m = KEPT_SHARE * beam->below_hook_m
                      * part_of_height (check, move, beam->between[0], beam->between[1], n);
  return is_plumb && fmin (legs->left_m, legs->right_m) >= TRN_LEAN_SIDE_SHARE * up_m
             ? legs->lowest_m + up_m
             : legs->lowest_m;
}

static double
up_of_legs (const TrnLiftCheck *check, guint move, const TrnHoist *hoist, const Legs *legs,
            TrnVec3 n)
{
  const TrnLiftRun *run = check->run;
  const gboolean is_tail = hoist == &run->lift->rigging.tail;
  const double hook_m = run->rig != NULL ? run->rig->hook_above_m[is_tail].lo : NAN;
  if (!(hook_m > legs->lowest_m)
      || !(fmin (legs->left_m, legs->right_m) >= TRN_LEAN_SIDE_SHARE * hook_m))
    return legs->lowest_m;
  if (legs->n > 2 && !are_in_line (hoist, legs))
    return hook_m;
  return legs->lowest_m
         + (hook_m - legs->lowest_m) * part_of_height (check, move, legs->first, legs->last, n);
}

double
trn_lean_pivot_up (const TrnLiftCheck *check, guint move, const TrnHoist *hoist, TrnVec3 point,
                   TrnVec3 n)
{
  if (!hoist->given || trn_vec3_length (n) == 0)
    return 0;
  const Legs legs = legs_of (check, move, hoist, point, n);
  if (legs.n == 0)
    return 0;
  if (legs.is_mixed)
    return legs.lowest_m;
  return hoist->has_beam ? up_of_beam (check, move, hoist, &legs, n)
                         : up_of_legs (check, move, hoist, &legs, n);
}
