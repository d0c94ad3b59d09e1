#include "motion-jet.h"

/* Three numbers that do not change, each enclosed. */
typedef struct
{
  TrnInterval x, y, z;
} Fixed;

static TrnInterval
sum3 (TrnInterval a, TrnInterval b, TrnInterval c)
{
  return trn_interval_add (trn_interval_add (a, b), c);
}

static Fixed
fixed (TrnVec3 a)
{
  return (Fixed){ trn_interval_point (a.x), trn_interval_point (a.y), trn_interval_point (a.z) };
}

static TrnInterval
dot (Fixed a, Fixed b)
{
  return sum3 (trn_interval_mul (a.x, b.x), trn_interval_mul (a.y, b.y),
               trn_interval_mul (a.z, b.z));
}

static TrnInterval
minor (TrnInterval a, TrnInterval b, TrnInterval c, TrnInterval d)
{
  return trn_interval_sub (trn_interval_mul (a, b), trn_interval_mul (c, d));
}

static Fixed
cross (Fixed a, Fixed b)
{
  return (Fixed){ minor (a.y, b.z, a.z, b.y), minor (a.z, b.x, a.x, b.z),
                  minor (a.x, b.y, a.y, b.x) };
}

static Fixed
times (Fixed a, TrnInterval k)
{
  return (Fixed){ trn_interval_mul (a.x, k), trn_interval_mul (a.y, k), trn_interval_mul (a.z, k) };
}

static Fixed
unit (TrnVec3 a)
{
  Fixed f = fixed (a);
  TrnInterval length = trn_interval_sqrt (
      sum3 (trn_interval_square (f.x), trn_interval_square (f.y), trn_interval_square (f.z)));
  return times (f, trn_interval_inverse (length));
}

/* The turning: the axis, and sine and cosine of s·angle. */
typedef struct
{
  gboolean turns;
  Fixed axis;
  TrnJet sine, cosine;
} Turning;

static Turning
turning_make (const TrnMotion *motion, TrnInterval s)
{
  Turning turning = { .turns = motion->angle_rad != 0 };
  if (turning.turns)
    {
      turning.axis = unit (motion->axis);
      trn_jet_sin_cos (trn_jet_scale (trn_jet_variable (s), motion->angle_rad), &turning.sine,
                       &turning.cosine);
    }
  return turning;
}

/* Rodrigues' formula: of r = along + square the part square to the axis turns. */
static TrnMotionArm
arm_make (const Turning *turning, Fixed r)
{
  if (!turning->turns)
    return (TrnMotionArm){ .x.along = r.x, .y.along = r.y, .z.along = r.z };
  Fixed along = times (turning->axis, dot (turning->axis, r)), across = cross (turning->axis, r);
  return (TrnMotionArm){ { along.x, trn_interval_sub (r.x, along.x), across.x },
                         { along.y, trn_interval_sub (r.y, along.y), across.y },
                         { along.z, trn_interval_sub (r.z, along.z), across.z } };
}

static TrnJet
swept (const TrnMotionArmPart *part, const Turning *turning)
{
  return trn_jet_add (trn_jet_within (part->along),
                      trn_jet_add (trn_jet_scale_within (turning->cosine, part->square),
                                   trn_jet_scale_within (turning->sine, part->across)));
}

static TrnJet3
turned (const Turning *turning, Fixed r)
{
  if (!turning->turns)
    return (TrnJet3){ trn_jet_within (r.x), trn_jet_within (r.y), trn_jet_within (r.z) };
  TrnMotionArm arm = arm_make (turning, r);
  return (TrnJet3){ swept (&arm.x, turning), swept (&arm.y, turning), swept (&arm.z, turning) };
}

static TrnJet
even (double from, double by, TrnInterval s)
{
  return trn_jet_shift (trn_jet_scale (trn_jet_variable (s), by), from);
}

static TrnJet3
path (const TrnMotion *motion, const Turning *turning, TrnInterval s)
{
  TrnJet3 place = trn_jet3_constant (motion->from);
  switch (motion->path)
    {
    case TRN_PATH_ARC:
      {
        TrnJet radius = even (motion->radius_m, motion->radius_by_m, s), sine, cosine;
        trn_jet_sin_cos (even (motion->phi0_rad, motion->phi_rad, s), &sine, &cosine);
        place.x = trn_jet_shift (trn_jet_mul (radius, cosine), motion->centre_x);
        place.y = trn_jet_shift (trn_jet_mul (radius, sine), motion->centre_y);
        place.z = even (motion->from.z, motion->by.z, s);
        return place;
      }
    case TRN_PATH_LEVEL_TAIL:
      {
        TrnInterval tail = trn_interval_sub (trn_interval_point (motion->from.z),
                                             trn_interval_point (motion->head_from_tail.z));
        place.z = trn_jet_add (turned (turning, fixed (motion->head_from_tail)).z,
                               trn_jet_within (tail));
        return place;
      }
    case TRN_PATH_LINE:
    default:
      return (TrnJet3){ even (motion->from.x, motion->by.x, s),
                        even (motion->from.y, motion->by.y, s),
                        even (motion->from.z, motion->by.z, s) };
    }
}

/* A point as seen from another at the start. */
static Fixed
arm_at_start (const TrnMotion *motion, TrnVec3 point, TrnVec3 from)
{
  const double (*m)[3] = motion->start.turn.m;
  Fixed x = fixed (point), pivot = fixed (from);
  Fixed arm = { trn_interval_sub (x.x, pivot.x), trn_interval_sub (x.y, pivot.y),
                trn_interval_sub (x.z, pivot.z) };
  return (Fixed){ dot (fixed (trn_vec3_make (m[0][0], m[0][1], m[0][2])), arm),
                  dot (fixed (trn_vec3_make (m[1][0], m[1][1], m[1][2])), arm),
                  dot (fixed (trn_vec3_make (m[2][0], m[2][1], m[2][2])), arm) };
}

void
trn_motion_points_jet (const TrnMotion *motion, guint n, const TrnVec3 *points, TrnInterval s,
                       TrnJet3 *places)
{
  Turning turning = turning_make (motion, s);
  TrnJet3 pivot = path (motion, &turning, s);
  for (guint i = 0; i < n; i++)
    places[i]
        = trn_jet3_add (pivot, turned (&turning, arm_at_start (motion, points[i], motion->pivot)));
}

void
trn_motion_ways_jet (const TrnMotion *motion, TrnVec3 from, guint n, const TrnVec3 *points,
                     TrnInterval s, TrnJet3 *ways)
{
  Turning turning = turning_make (motion, s);
  for (guint i = 0; i < n; i++)
    ways[i] = turned (&turning, arm_at_start (motion, points[i], from));
}

void
trn_motion_point_jet (const TrnMotion *motion, TrnVec3 point, TrnInterval s, TrnJet3 *place)
{
  trn_motion_points_jet (motion, 1, &point, s, place);
}

/* ---- arms ---- */

TrnMotionArm
trn_motion_arm_make (const TrnMotion *motion, TrnVec3 from, TrnVec3 to)
{
  Turning turning = { .turns = motion->angle_rad != 0 };
  if (turning.turns)
    turning.axis = unit (motion->axis);
  return arm_make (&turning, arm_at_start (motion, to, from));
}

static TrnSlope
swept_slope (const TrnMotionArmPart *part, const TrnSlope *sine, const TrnSlope *cosine)
{
  TrnSlope level = trn_slope_scale_within (*cosine, part->square);
  level = trn_slope_add (level, trn_slope_scale_within (*sine, part->across));
  level.v = trn_interval_add (level.v, part->along);
  return level;
}

void
trn_motion_arms_slope (const TrnMotion *motion, guint n, const TrnMotionArm *arms, TrnInterval s,
                       TrnSlope3 *ways)
{
  TrnJet sine_jet, cosine_jet;
  TrnSlope sine = { .v = { 0, 0 } }, cosine = { .v = { 1, 1 } };
  if (motion->angle_rad != 0)
    {
      trn_jet_sin_cos (trn_jet_scale (trn_jet_variable (s), motion->angle_rad), &sine_jet,
                       &cosine_jet);
      sine = trn_slope_of_jet (&sine_jet);
      cosine = trn_slope_of_jet (&cosine_jet);
    }
  for (guint i = 0; i < n; i++)
    ways[i] = (TrnSlope3){ swept_slope (&arms[i].x, &sine, &cosine),
                           swept_slope (&arms[i].y, &sine, &cosine),
                           swept_slope (&arms[i].z, &sine, &cosine) };
}

void
trn_motion_pose_jet (const TrnMotion *motion, TrnInterval s, TrnJetPose *pose)
{
  const double (*m)[3] = motion->start.turn.m;
  Turning turning = turning_make (motion, s);
  for (int j = 0; j < 3; j++)
    {
      TrnJet3 column = turned (&turning, fixed (trn_vec3_make (m[0][j], m[1][j], m[2][j])));
      pose->turn[0][j] = column.x;
      pose->turn[1][j] = column.y;
      pose->turn[2][j] = column.z;
    }
  pose->position = path (motion, &turning, s);
  pose->pivot = motion->pivot;
}

TrnJet3
trn_jet_pose_apply_inverse (const TrnJetPose *pose, const TrnJet3 *place)
{
  TrnJet3 arm = trn_jet3_sub (*place, pose->position), seen;
  TrnJet *parts[3] = { &seen.x, &seen.y, &seen.z };
  for (int j = 0; j < 3; j++)
    *parts[j]
        = trn_jet3_dot ((TrnJet3){ pose->turn[0][j], pose->turn[1][j], pose->turn[2][j] }, arm);
  return trn_jet3_shift (seen, pose->pivot);
}
