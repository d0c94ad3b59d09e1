/* Tolerances. A hook that is off by o takes its place in the gear's frame, and its radius, by no
 * more than o. Where the tail is carried by a trolley or a frame, that gear leads the load: how far
 * the planned way departs from what it can do is judged by the play that it has, and tolerances
 * take nothing off that.
 *
 * The boom's angle. The tip is plumb above the hook, at the distance R from the boom's foot along
 * the angle θ = boom angle + c, with R and c fixed by boom and jib, so radius − foot_out = R cos θ.
 * Off by o the cosine changes by at most o/R, and θ goes to arccos (cos θ ± o/R). As long as 0 < θ,
 * θ' < π that is monotone in θ, so the worst of both at once is at the extreme of θ; it is taken at
 * the extreme that is certified. Where the cosine leaves [−1, 1] there is no bound. */
#include "reach.h"

#include "gear-tolerance.h"
#include "tolerances.h"

static TrnHoistLimit
radius_limit (const TrnGear *gear, double off_m)
{
  TrnHoistLimit limit = { .item = "radius",
                          .quantity = TRN_RIG_RADIUS,
                          .unit = TRN_UNIT_M,
                          .limits = { NAN, NAN },
                          .allowance = { off_m, off_m },
                          .missing = "capacity" };
  if (gear->n_capacity > 0)
    limit.limits = (TrnInterval){ gear->capacity[0].radius_m,
                                  gear->capacity[gear->n_capacity - 1].radius_m };
  return limit;
}

/* How far @off_m takes θ = @angle + @c, up or down; NAN: no bound. */
static double
angle_allowance (double angle, double c, double share)
{
  double theta = angle + c, cosine = cos (theta) - share;
  if (!(theta > 0 && theta < G_PI && fabs (cosine) < 1))
    return NAN;
  return fabs (acos (cosine) - theta);
}

static TrnHoistLimit
angle_limit (const TrnLiftCheck *check, const TrnHoist *hoist, guint move, double off_m)
{
  const TrnGear *gear = trn_hoist_gear (check, hoist);
  TrnHoistLimit limit = { .item = "boom-angle",
                          .quantity = TRN_RIG_BOOM_ANGLE,
                          .unit = TRN_UNIT_DEG,
                          .limits = gear->boom_angle_rad,
                          .missing = "boom/angle" };
  if (!(off_m > 0))
    return limit;
  double along = gear->boom_length_m, across = 0;
  if (gear->has_jib)
    {
      along += gear->jib_length_m * cos (gear->jib_offset_rad);
      across = -gear->jib_length_m * sin (gear->jib_offset_rad);
    }
  double share = off_m / hypot (along, across), c = atan2 (across, along);
  TrnExtremes found
      = trn_hoist_extremes (check, hoist, move, TRN_RIG_BOOM_ANGLE, 0, check->certify_m);
  if (!found.complete)
    return limit; /* said by the judgement itself */
  limit.allowance = (TrnInterval){ angle_allowance (found.least.lo, c, -share),
                                   angle_allowance (found.greatest.hi, c, share) };
  return limit;
}

static TrnHoistLimit
crane_limit (const TrnLiftCheck *check, const TrnHoist *hoist, guint move, guint index)
{
  double off_m = trn_hook_tolerance (check, hoist, move);
  if (index == 0)
    return radius_limit (trn_hoist_gear (check, hoist), off_m);
  return angle_limit (check, hoist, move, off_m);
}

/* The top of the hook's window is a matter of headroom. */
static TrnHoistLimit
gantry_limit (const TrnLiftCheck *check, const TrnHoist *hoist, guint move, guint index)
{
  const TrnGear *gear = trn_hoist_gear (check, hoist);
  double off_m = trn_hook_tolerance (check, hoist, move);
  const TrnHoistLimit limits[] = {
    { .item = "hook-window-x",
      .quantity = TRN_RIG_HOOK_LOCAL_X,
      .limits = gear->window_x,
      .missing = "window/x" },
    { .item = "hook-window-y",
      .quantity = TRN_RIG_HOOK_LOCAL_Y,
      .limits = gear->window_y,
      .missing = "window/y" },
    { .item = "hook-low",
      .quantity = TRN_RIG_HOOK_LOCAL_HEIGHT,
      .limits = { gear->window_hook.lo, INFINITY },
      .missing = "window/hook" },
  };
  TrnHoistLimit limit = limits[index];
  limit.unit = TRN_UNIT_M;
  limit.allowance = (TrnInterval){ off_m, off_m };
  return limit;
}

static TrnHoistLimit
trolley_limit (const TrnLiftCheck *check, const TrnHoist *hoist, guint move, guint index)
{
  const TrnGear *gear = trn_hoist_gear (check, hoist);
  double off_m = trn_hook_tolerance (check, hoist, move);
  const TrnHoistLimit limits[] = {
    { .item = "track",
      .quantity = TRN_RIG_HOOK_LOCAL_X,
      .limits = gear->track_m,
      .allowance = { off_m, off_m },
      .missing = "track" },
    { .item = "track-side",
      .quantity = TRN_RIG_HOOK_LOCAL_Y,
      .limits = { -TRN_TRACK_PLAY_M, TRN_TRACK_PLAY_M } },
    { .item = "level",
      .quantity = TRN_RIG_HOOK_LOCAL_HEIGHT,
      .limits = { gear->size.z - TRN_SEAT_FIT_M, gear->size.z + TRN_SEAT_FIT_M } },
  };
  TrnHoistLimit limit = limits[index];
  limit.unit = TRN_UNIT_M;
  return limit;
}

static const TrnHoistLimit pivot_limit = { .item = "pivot",
                                           .quantity = TRN_RIG_POINT_OFF,
                                           .unit = TRN_UNIT_M,
                                           .limits = { -INFINITY, TRN_SEAT_FIT_M } };

guint
trn_reach_limits (TrnGearKind kind)
{
  switch (kind)
    {
    case TRN_GEAR_CRANE:
      return 2;
    case TRN_GEAR_GANTRY:
    case TRN_GEAR_TAIL_TROLLEY:
      return 3;
    case TRN_GEAR_TURNING_FRAME:
      return 1;
    }
  g_assert_not_reached ();
}

static TrnHoistLimit
limit_of (const TrnLiftCheck *check, const TrnHoist *hoist, guint move, guint index)
{
  switch (trn_hoist_gear (check, hoist)->kind)
    {
    case TRN_GEAR_CRANE:
      return crane_limit (check, hoist, move, index);
    case TRN_GEAR_GANTRY:
      return gantry_limit (check, hoist, move, index);
    case TRN_GEAR_TAIL_TROLLEY:
      return trolley_limit (check, hoist, move, index);
    case TRN_GEAR_TURNING_FRAME:
      return pivot_limit;
    }
  g_assert_not_reached ();
}

TrnFinding
trn_reach_judge (const TrnLiftCheck *check, const TrnHoist *hoist, guint move, guint index)
{
  const TrnGear *gear = trn_hoist_gear (check, hoist);
  g_assert (index < trn_reach_limits (gear->kind));
  TrnHoistLimit limit = limit_of (check, hoist, move, index);
  return trn_hoist_judge (check, TRN_CHECK_REACH, hoist, move, gear->id, &limit);
}
