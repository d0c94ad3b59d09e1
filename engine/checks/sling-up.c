/* Which way is plumb. The main hook alone lets the load turn until its CoG is plumb below it, so
 * that seen from the load the plumb line goes from the CoG to the hook: it is taken from anywhere
 * in the box of the CoG, along the axes of the load, so that which way the site lies changes
 * nothing. A tilt is guided, and with a tail both hoist lines are plumb as drawn: up is the site's
 * z then, but for what the load leans by with its tail (load-lean.h), either way. */
#include "sling-up.h"

#include "hang.h"

/* What a rotation may be off from a true one, more than a dozen roundings. */
#define OFF_TURN 1e-14

/* Whether the load turns about its hook as its CoG wants. */
gboolean
trn_sling_hangs (const TrnHookForce *force)
{
  const TrnCarried *carried = &force->carried;
  return !force->is_tail && carried->check->run->hangs[carried->move].one_hook;
}

/* To the axes of the load in the middle of @s where it hangs; else these are those of the site. */
TrnBox3
trn_sling_to_load (const TrnHookForce *force, TrnInterval s, TrnBox3 a)
{
  const TrnCarried *carried = &force->carried;
  if (!trn_sling_hangs (force))
    return a;
  const TrnPose pose
      = trn_motion_pose (&carried->check->run->motions[carried->move], trn_interval_middle (s));
  const double off_m = OFF_TURN * trn_interval_size (trn_box_length (a));
  TrnInterval turned[3];
  for (guint i = 0; i < 3; i++)
    {
      turned[i] = trn_interval_add (trn_interval_scale (a.x, pose.turn.m[0][i]),
                                    trn_interval_add (trn_interval_scale (a.y, pose.turn.m[1][i]),
                                                      trn_interval_scale (a.z, pose.turn.m[2][i])));
      turned[i] = trn_interval_add (turned[i], (TrnInterval){ -off_m, off_m });
    }
  return (TrnBox3){ turned[0], turned[1], turned[2] };
}

/* From the CoG, anywhere in its box, to the hook; trn_sling_to_load(). */
TrnBox3
trn_sling_cog_to_hook (const TrnHookForce *force, TrnInterval s)
{
  const TrnCarried *carried = &force->carried;
  const TrnRig *rig = carried->check->run->rig;
  TrnBox3 hook = trn_box_of (trn_hang_hook (rig, force->hoist, carried->move, s)), ways = hook;
  for (guint i = 0; i < 8; i++)
    {
      TrnBox3 corner
          = trn_box_of (trn_hang_point (rig, force->hoist, carried->move, s, carried->cog[i]));
      TrnBox3 way = trn_sling_to_load (force, s, trn_box_sub (hook, corner));
      ways = i == 0
                 ? way
                 : (TrnBox3){ trn_interval_hull (ways.x, way.x), trn_interval_hull (ways.y, way.y),
                              trn_interval_hull (ways.z, way.z) };
    }
  return ways;
}

/* a/√(a² + b²) at one a. */
static TrnInterval
share_of_length (double a, double b2)
{
  const TrnInterval at = trn_interval_point (a);
  if (a == 0)
    return at;
  const TrnInterval length
      = trn_interval_sqrt (trn_interval_add (trn_interval_square (at), trn_interval_point (b2)));
  return trn_interval_mul (at, trn_interval_inverse (length));
}

/* Of all ways with @a along one axis and b along the two others: more with a, and the nearer to 0
 * the more of b. */
static TrnInterval
along_axis (TrnInterval a, TrnInterval b, TrnInterval c)
{
  const TrnInterval b2 = trn_interval_add (trn_interval_square (b), trn_interval_square (c));
  const TrnInterval share = { share_of_length (a.lo, a.lo > 0 ? b2.hi : b2.lo).lo,
                              share_of_length (a.hi, a.hi > 0 ? b2.lo : b2.hi).hi };
  return trn_interval_clip (share, -1, 1);
}

/* ---- with a tail ---- */

/* From the main to the tail point, level. */
static TrnBox3
line_over (const TrnHookForce *force, TrnInterval s)
{
  const guint move = force->carried.move;
  const TrnRig *rig = force->carried.check->run->rig;
  const TrnLift *lift = force->carried.check->run->lift;
  const TrnVec3 tail = lift->rigging.tail.point;
  TrnBox3 line
      = trn_box_sub (trn_box_of (trn_hang_point (rig, force->hoist, move, s, tail)),
                     trn_box_of (trn_hang_point (rig, force->hoist, move, s, lift->hook.place)));
  line.z = trn_interval_point (0);
  return line;
}

/* Hooks out of level turn the load along that line, and slings from one place with it. */
static double
pitch_rad (const TrnHookForce *force, guint n_legs)
{
  const double level_rad = force->carried.out_of_level_rad;
  return n_legs > 1 && isfinite (level_rad) ? level_rad : 0;
}

/* Whether what is asked about is off plumb as the load leans, as a sling that goes to it is.
 * @n_legs: from one place. */
static gboolean
leans (const TrnHookForce *force, const TrnSling *sling, guint n_legs)
{
  return !trn_sling_hangs (force) && !sling->to_beam
         && (force->leans_rad != 0 || pitch_rad (force, n_legs) != 0);
}

/* To axes along that line in the middle of @s and across it, so that which way the site lies
 * changes nothing. */
static TrnBox3
to_line (const TrnHookForce *force, TrnInterval s, TrnBox3 a)
{
  const TrnBox3 middle = line_over (force, trn_interval_point (trn_interval_middle (s)));
  const double x_m = trn_interval_middle (middle.x), y_m = trn_interval_middle (middle.y),
               level_m = hypot (x_m, y_m), x = level_m > 0 ? x_m / level_m : 1,
               y = level_m > 0 ? y_m / level_m : 0,
               off_m = OFF_TURN * trn_interval_size (trn_box_length (a));
  const TrnInterval off = { -off_m, off_m };
  return (TrnBox3){
    trn_interval_add (trn_interval_add (trn_interval_scale (a.x, x), trn_interval_scale (a.y, y)),
                      off),
    trn_interval_add (trn_interval_sub (trn_interval_scale (a.y, x), trn_interval_scale (a.x, y)),
                      off),
    a.z
  };
}

/* Up seen from a load that leans by λ with its tail, to_line(): turned as far, by the tail alone
 * any way, on two hooks across the line and along it by what these are out of level. About a line
 * that goes up by β it turns up along that by sin β cos β (1 − cos λ), half of the last at most. */
static TrnBox3
up_with_tail (const TrnHookForce *force, guint n_legs, TrnInterval s)
{
  const double aside = sin (force->leans_rad), pitched_rad = pitch_rad (force, n_legs),
               pitched = sin (pitched_rad) + (1 - cos (force->leans_rad)) / 2;
  const TrnInterval off = { -aside, aside }, pitch = { -pitched, pitched },
                    level = { cos (force->leans_rad) * cos (pitched_rad), 1 };
  if (!force->carried.main_holds)
    return (TrnBox3){ off, off, level };
  const TrnBox3 line
      = line_over (force, s),
      unit = to_line (force, s, trn_box_scale (line, trn_interval_inverse (trn_box_length (line))));
  const TrnInterval x = trn_interval_clip (unit.x, -1, 1), y = trn_interval_clip (unit.y, -1, 1);
  return (TrnBox3){ trn_interval_add (trn_interval_mul (y, off), trn_interval_mul (x, pitch)),
                    trn_interval_add (trn_interval_mul (x, off), trn_interval_mul (y, pitch)),
                    level };
}

/* ---- which way is up, and along which axes ---- */

TrnBox3
trn_sling_to_axes (const TrnHookForce *force, const TrnSling *sling, guint n_legs, TrnInterval s,
                   TrnBox3 a)
{
  return leans (force, sling, n_legs) ? to_line (force, s, a) : trn_sling_to_load (force, s, a);
}

TrnBox3
trn_sling_up (const TrnHookForce *force, const TrnSling *sling, guint n_legs, TrnInterval s)
{
  if (leans (force, sling, n_legs))
    return up_with_tail (force, n_legs, s);
  if (!trn_sling_hangs (force))
    return (TrnBox3){ { 0, 0 }, { 0, 0 }, { 1, 1 } };
  const TrnBox3 way = trn_sling_cog_to_hook (force, s);
  return (TrnBox3){ along_axis (way.x, way.y, way.z), along_axis (way.y, way.z, way.x),
                    along_axis (way.z, way.x, way.y) };
}
