/* pose.h: rigid transforms. A pose called `site_from_load` takes a point of the load's frame to
 * the site's frame: site point = turn · load point + position. */
#pragma once

#include "rotation.h"

typedef struct
{
  TrnRotation turn;
  TrnVec3 position;
} TrnPose;

/* Where something stands, as a plan writes it: position, then heading, pitch and roll, so that
 * turn = Rz(heading) Ry(pitch) Rx(roll). Positive pitch lowers local +X. */
typedef struct
{
  TrnVec3 position;
  double heading_rad, pitch_rad, roll_rad;
} TrnPlacement;

/* How far what is @radius_m from the axis goes at most in a turn by up to that angle; NAN for NAN.
 */
static inline double
trn_chord_m (double radius_m, double angle_rad)
{
  return fabs (angle_rad) > G_PI ? 2 * radius_m : 2 * radius_m * sin (fabs (angle_rad) / 2);
}

/* A half and a quarter turn come out exact. */
static inline double
trn_degrees (double rad)
{
  return rad / G_PI * 180;
}

static inline TrnPose
trn_pose_identity (void)
{
  return (TrnPose){ trn_rotation_identity (), { 0, 0, 0 } };
}

static inline TrnPose
trn_pose_make (const TrnPlacement *placement)
{
  TrnRotation rz = trn_rotation_make (trn_vec3_make (0, 0, 1), placement->heading_rad);
  TrnRotation ry = trn_rotation_make (trn_vec3_make (0, 1, 0), placement->pitch_rad);
  TrnRotation rx = trn_rotation_make (trn_vec3_make (1, 0, 0), placement->roll_rad);
  TrnRotation ryx = trn_rotation_multiply (&ry, &rx);
  return (TrnPose){ trn_rotation_multiply (&rz, &ryx), placement->position };
}

/* The placement that gives @pose. With local X plumb only heading − roll, or heading + roll,
 * counts: the roll is 0 then. */
static inline TrnPlacement
trn_placement_of (const TrnPose *pose)
{
  const double (*m)[3] = pose->turn.m;
  double level = hypot (m[0][0], m[1][0]);
  TrnPlacement placement = { .position = pose->position, .pitch_rad = atan2 (-m[2][0], level) };
  if (level > 1e-9)
    {
      placement.heading_rad = atan2 (m[1][0], m[0][0]);
      placement.roll_rad = atan2 (m[2][1], m[2][2]);
    }
  else
    placement.heading_rad = atan2 (-m[0][1], m[1][1]);
  return placement;
}

static inline TrnVec3
trn_pose_apply (const TrnPose *pose, TrnVec3 point)
{
  return trn_vec3_add (trn_rotation_apply (&pose->turn, point), pose->position);
}

static inline TrnVec3
trn_pose_apply_inverse (const TrnPose *pose, TrnVec3 point)
{
  return trn_rotation_apply_inverse (&pose->turn, trn_vec3_sub (point, pose->position));
}

/* a ∘ b: first b, then a. */
static inline TrnPose
trn_pose_multiply (const TrnPose *a, const TrnPose *b)
{
  return (TrnPose){ trn_rotation_multiply (&a->turn, &b->turn), trn_pose_apply (a, b->position) };
}

/* a⁻¹ ∘ b: the pose of b seen from a. */
static inline TrnPose
trn_pose_relative (const TrnPose *a, const TrnPose *b)
{
  TrnPose c = { .position = trn_pose_apply_inverse (a, b->position) };
  for (int i = 0; i < 3; i++)
    for (int j = 0; j < 3; j++)
      c.turn.m[i][j] = a->turn.m[0][i] * b->turn.m[0][j] + a->turn.m[1][i] * b->turn.m[1][j]
                       + a->turn.m[2][i] * b->turn.m[2][j];
  return c;
}
