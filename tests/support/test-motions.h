/* test-motions.h: moves with random numbers. */
#pragma once

#include "motion.h"

static inline double
test_between (GRand *rand, double lo, double hi)
{
  return g_rand_double_range (rand, lo, hi);
}

static inline TrnVec3
test_random_point (GRand *rand, double size)
{
  double x = test_between (rand, -size, size), y = test_between (rand, -size, size);
  return trn_vec3_make (x, y, test_between (rand, -size, size));
}

static inline TrnPose
test_random_pose (GRand *rand, double size)
{
  TrnPlacement placement = { .position = test_random_point (rand, size) };
  placement.heading_rad = test_between (rand, -4, 4);
  placement.pitch_rad = test_between (rand, -4, 4);
  placement.roll_rad = test_between (rand, -4, 4);
  return trn_pose_make (&placement);
}

/* Any move of the contract with random numbers; a head-plumb tilt stands on random attitudes with
 * its axis square to head − tail, whose tail then keeps its level. */
static inline TrnMotion
test_random_motion (GRand *rand, double site)
{
  static const TrnVec3 up = { 0, 0, 1 };
  TrnPose start = test_random_pose (rand, site);
  TrnVec3 pivot = test_random_point (rand, 10);
  double angle = test_between (rand, -4, 4), seconds = test_between (rand, 1, 1000);
  double heading = test_between (rand, -4, 4);
  TrnVec3 level = trn_vec3_make (cos (heading), sin (heading), 0);
  TrnMotion motion;
  switch (g_rand_int_range (rand, 0, 4))
    {
    case 0:
      return trn_motion_make_carry (&start, seconds, pivot, test_random_point (rand, 20), up,
                                    angle);
    case 1:
      return trn_motion_make_carry (&start, seconds, pivot, test_random_point (rand, 5), level,
                                    angle);
    case 2:
      {
        TrnVec3 at = trn_pose_apply (&start, pivot);
        double r = test_between (rand, 1, 40), phi = test_between (rand, -4, 4);
        g_assert_true (trn_motion_make_slew (&start, seconds, pivot, at.x + r * cos (phi),
                                             at.y + r * sin (phi), angle, g_rand_boolean (rand),
                                             test_between (rand, -0.9 * r, r),
                                             test_between (rand, -5, 5), &motion));
        return motion;
      }
    default:
      {
        TrnVec3 side = trn_vec3_cross (up, level);
        double tilt = test_between (rand, -4, 4);
        TrnVec3 along
            = trn_vec3_add (trn_vec3_scale (side, cos (tilt)), trn_vec3_scale (up, sin (tilt)));
        TrnVec3 tail = trn_vec3_sub (
            pivot, trn_rotation_apply_inverse (&start.turn, trn_vec3_scale (along, 12)));
        double off;
        g_assert_true (
            trn_motion_make_head_plumb (&start, seconds, pivot, tail, level, angle, &motion, &off));
        return motion;
      }
    }
}
