/* swing.h: how far starting, stopping and slewing make a hanging load swing: a proven bound. */
#pragma once

#include <glib.h>

#include "interval.h"

/* A move, after which the load swings on. The tip goes along a path of s in [0, 1], which comes up
 * to an even rate in @ramp_s and stops in as much. */
typedef struct
{
  double seconds, ramp_s; /* > 0 */
  /* Bounds on the first three derivatives by s of the tip's path, seen from above, and of the
   * height of the hook as it hangs plumb. */
  double level_m, level2_m, level3_m, hook_m, hook2_m, hook3_m;
  /* Likewise of the first of the tip's height, and of the rope's length; ∫ of the size of the
   * second of the tip's height. */
  double up_m, rope_m, up2_m;
  double least_m;  /* from the tip to the centre of gravity, at least; > 0 */
  double shortens; /* ∫ of what that is shortened by, as a share of it: ln 2 for half of it */
  double rope_shortens; /* likewise of the rope, times what it may bear: trn_swing_most_force */
} TrnSwingMove;

/* The rate of s between the ramps, 1/s. */
double trn_swing_rate (double seconds, double ramp_s);

/* What a rope of that length is taken to bear at most while a load swings, as a share of what hangs
 * from it with what hoisting and lowering add. An assumption: no bound is known. Chains that were
 * integrated come to 1.003 with 3 m of rope and more, and to 1.63 with half a metre above 25 m of
 * slings. */
double trn_swing_most_force (double rope_m);

/* By how much a swing grows in it at most, where the rope becomes shorter or tip or hook go up or
 * down: >= 1; infinite where the hook could fall freely. */
double trn_swing_growth (const TrnSwingMove *move);

/* 2 sin (φ/2) of the angle φ from plumb that the line from tip to load is at most in that move and
 * after it, where it was @before. */
double trn_swing_chord (const TrnSwingMove *move, double before);

/* How far that swing, of a load whose centre of gravity is @whole_m below the tip at most, takes a
 * point aside that goes with what nods by itself: @far_m from what that turns about, which is
 * @chain_m below the tip at most, the centre of gravity being @nods_m below it at least. */
double trn_swing_aside (double chord, double whole_m, double chain_m, double far_m, double nods_m);

/* What is above what nods adds to chain_m: @arm_m, where that is a line that slopes with the least
 * and the most of what there may be, @sloped_m of what is told as far_m times the tangent. */
double trn_swing_arm_m (TrnInterval arm_m, double sloped_m);
