/* Lean and box of the centre of gravity: 2 r sin(angle/2) + length, as programme.h tells them, r
 * the greatest distance of a load point, or of a point that the rigging holds it by, from the
 * lift's hook point.
 *
 * Wind: wind-aside.h. Swinging (swinging.h): of all that is no farther than r from the hook point,
 * or as far from the tail point as anything of the load.
 *
 * Hooks out of level. Two hooks that hold the load may turn it by δ, raise one point beside the
 * other by up to h, and bring them up to D nearer or farther along the level (hook-force.h). The
 * ropes below tips that stay share D, as they bear; where the tail is on a trolley or in a frame
 * the main one has all of it. With none of it at the main hook the load turns about that, and a
 * point r from it goes 2 (r + u) sin (δ/2), u how far above its points legs may turn it about a
 * hook; with some of it there all of the load goes as much farther. With all of it there the tail
 * point only goes up or down, and a point r′ from that goes 2 (r′ + u) sin (δ/2) + h at most. What
 * is in between is a mixture of the first and the last. The tolerance of tilt τ is said of the load
 * however it comes about, and 2 r sin (τ/2) is taken off in any case. It has to cover what the load
 * leans by about the line between both hooks too (load-lean.c), together with what the lean of a
 * lift that hangs free takes off anyway. That lean goes on at the same time as hooks are out of
 * level, and about another axis: it takes points ρ from that line 2 ρ sin (lean/2) aside, and only
 * what it leaves of 2 r sin (τ/2) counts for hooks out of level. Of a lean that is not known
 * nothing is left. The lean is the greatest of all that hooks may be out of level (lean-line.c): as
 * drawn where the line goes through both points, and else more. The main hook goes aside by up to
 * D; its own height is within the tolerance of position, and h is that of one hook beside the
 * other, with what ropes out of plumb lift them. From a right angle on there is no bound.
 *
 * Tolerances of tilt τ and heading η turn what is off already, by 2 sin(τ/2) and 2 sin(η/2) of it.
 */
#include "allowance.h"

#include <math.h>

#include "hook-force.h"
#include "lift-check.h"
#include "load-lean.h"
#include "on-rope.h"
#include "swinging.h"
#include "wind-aside.h"

#define ROUNDING_SHARE 1e-12

static double
distance2 (TrnVec3 a, TrnVec3 b)
{
  return trn_vec3_length_squared (trn_vec3_sub (a, b));
}

/* Squared, of the points that a hoist holds the load by: a lug may be no part of the mesh. */
static double
reach2_of_hoist (const TrnLift *lift, const TrnHoist *hoist, TrnVec3 from)
{
  if (!lift->rigging.given || !hoist->given)
    return 0;
  double reach2 = distance2 (hoist->point, from);
  for (guint i = 0; i < 2 && hoist->has_beam; i++)
    reach2 = fmax (reach2, distance2 (hoist->beam.between[i], from));
  for (guint i = 0; i < hoist->n_slings; i++)
    if (!hoist->slings[i].to_beam)
      reach2 = fmax (reach2, distance2 (hoist->slings[i].to, from));
  return reach2;
}

double
trn_lift_check_extent (const TrnLiftCheck *check, TrnVec3 from)
{
  const TrnLift *lift = check->run->lift;
  const TrnMesh *mesh = check->load->mesh;
  double reach2 = fmax (reach2_of_hoist (lift, &lift->rigging.main, from),
                        reach2_of_hoist (lift, &lift->rigging.tail, from));
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    {
      const double of_vertex2 = distance2 (mesh->vertices[i], from);
      reach2 = MAX (reach2, of_vertex2);
    }
  return sqrt (reach2);
}

static double
out_of_level (const TrnLiftCheck *check, double reach_m, double leans_m, const TrnCarried *carried)
{
  const TrnLift *lift = check->run->lift;
  const double above_m = carried->pivot_above_m, turned_rad = carried->out_of_level_rad;
  if (!(turned_rad < G_PI / 2))
    return NAN;
  const double tail_m = trn_lift_check_extent (check, lift->rigging.tail.point);
  const double by_main_m = trn_chord_m (reach_m + above_m, turned_rad),
               by_tail_m = trn_chord_m (tail_m + above_m, turned_rad) + carried->level_up_m;
  const double off_m = fmin (by_main_m + carried->level_aside_m, fmax (by_main_m, by_tail_m));
  const double tilt_m = trn_chord_m (reach_m, fabs (lift->tolerance_tilt_rad)),
               lean_m = trn_load_lean_takes_m (check, carried->move) - leans_m,
               left_m = isnan (lean_m) ? 0 : fmax (0, tilt_m - fmax (0, lean_m));
  return fmax (0, off_m - left_m);
}

static void
add_wind (const TrnLiftCheck *check, guint move, TrnAllowance *allowance)
{
  const double calm_m = allowance->lean_m + allowance->cog_box_m + allowance->level_m;
  const TrnWindAside aside = trn_wind_aside_find (check, move, calm_m, allowance->tolerance_m);
  allowance->wind_m = aside.load_m;
  allowance->hook_wind_m = aside.hook_m;
  allowance->wind_rad = aside.turned_rad;
  if (allowance->missing == NULL)
    allowance->missing = aside.missing;
}

static void
add_swing (const TrnLiftCheck *check, guint move, double reach_m, TrnAllowance *allowance)
{
  const TrnSwinging *swing = &check->swinging[move];
  const TrnLift *lift = check->run->lift;
  const gboolean is_tail = trn_on_rope (check, move) == TRN_ON_ROPE_TAIL;
  if (allowance->missing == NULL)
    allowance->missing = swing->missing;
  const double far_m = is_tail ? trn_lift_check_extent (check, lift->rigging.tail.point) : reach_m;
  allowance->swing_m = trn_swinging_load_m (swing, far_m);
  allowance->hook_swing_m = is_tail ? 0 : trn_swinging_hook_m (swing);
}

static double
outwards (double m)
{
  return m * (1 + ROUNDING_SHARE);
}

TrnAllowance
trn_lift_check_allowance (const TrnLiftCheck *check, guint move)
{
  TrnAllowance allowance = { .tolerance_m = trn_lift_check_tolerance (check, move) };
  const TrnLift *lift = check->run->lift;
  const TrnMoveHang *hang = &check->run->hangs[move];
  const gboolean is_still
      = hang->off_rad == 0 && hang->off_m == 0 && hang->reach_rad == 0 && hang->reach_m == 0;
  const gboolean has_wind = trn_wind_aside_means (check, move);
  const TrnCarried carried = trn_carried_make (check, move);
  const gboolean has_level = !isnan (carried.out_of_level_rad);
  const gboolean has_swing = check->swinging != NULL && check->swinging[move].chord != 0;
  if (is_still && !has_wind && !has_level && !has_swing)
    return allowance;
  const double reach_m = trn_lift_check_extent (check, lift->hook.place),
               widening = 1 + trn_chord_m (1, check->run->slack.tilt_rad)
                          + trn_chord_m (1, check->run->slack.heading_rad);
  const double all_m = trn_chord_m (reach_m, hang->reach_rad) + hang->reach_m;
  allowance.lean_m = trn_chord_m (reach_m, hang->off_rad) + hang->off_m;
  allowance.cog_box_m = isnan (all_m) ? NAN : fmax (0, all_m - allowance.lean_m);
  if (isnan (all_m))
    allowance.missing = hang->unbounded != NULL ? hang->unbounded : "cog_box";
  if (has_level)
    {
      allowance.hook_level_m = carried.level_aside_m;
      allowance.level_m = out_of_level (check, reach_m, isnan (all_m) ? 0 : all_m, &carried);
    }
  if (isnan (allowance.level_m) && allowance.missing == NULL)
    allowance.missing = carried.is_height_missing ? "hook_above" : "out-of-level";
  if (has_swing)
    add_swing (check, move, reach_m, &allowance);
  if (has_wind)
    add_wind (check, move, &allowance);
  allowance.lean_m = outwards (allowance.lean_m * widening);
  allowance.cog_box_m = outwards (allowance.cog_box_m * widening);
  allowance.level_m = outwards (allowance.level_m * widening);
  allowance.wind_m = outwards (allowance.wind_m * widening);
  allowance.swing_m = outwards (allowance.swing_m * widening);
  allowance.hook_level_m = outwards (allowance.hook_level_m);
  allowance.hook_wind_m = outwards (allowance.hook_wind_m);
  allowance.hook_swing_m = outwards (allowance.hook_swing_m);
  return allowance;
}
