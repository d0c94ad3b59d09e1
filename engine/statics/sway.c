/* Throw-out. The load at radius r + l sin φ goes round with ω: g tan φ = ω² (r + l sin φ). The
 * difference of both sides is convex in φ up to a right angle, below 0 at 0 and above it at the
 * end: one root, found by halving. To first order the load's own way out is left out, which is
 * below the truth. */
#include "sway.h"

#include <math.h>

#include "gravity.h"

double
trn_sway_angle_rad (double force_n, double weight_n)
{
  return atan2 (force_n, weight_n);
}

double
trn_sway_offset_m (double force_n, double weight_n, double length_m)
{
  return length_m * force_n / weight_n;
}

TrnThrowOut
trn_sway_throw_out (double radius_m, double slew_rad_s, double rope_m)
{
  double w2 = slew_rad_s * slew_rad_s, lo = 0, hi = 0.5 * G_PI;
  TrnThrowOut out = { .acceleration_m_s2 = w2 * radius_m };
  out.angle_rad = atan (out.acceleration_m_s2 / TRN_GRAVITY_M_S2);
  out.offset_m = rope_m * out.acceleration_m_s2 / TRN_GRAVITY_M_S2;
  for (int i = 0; i < 80; i++)
    {
      double middle = 0.5 * (lo + hi);
      if (TRN_GRAVITY_M_S2 * tan (middle) < w2 * (radius_m + rope_m * sin (middle)))
        lo = middle;
      else
        hi = middle;
    }
  out.true_angle_rad = hi;
  out.true_offset_m = rope_m * sin (hi);
  return out;
}

double
trn_sway_period_s (double length_m)
{
  return 2 * G_PI * sqrt (length_m / TRN_GRAVITY_M_S2);
}
