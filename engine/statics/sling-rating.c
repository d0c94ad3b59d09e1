/* Tables are taken as they are printed. A limit belongs to the row that it ends; TRN_SQUARE_DEG is
 * allowed beyond it, which is what a rounded drawing amounts to. */
#include "sling-rating.h"

#include <math.h>

#include "tolerances.h"

static gboolean
is_within (double angle_rad, double limit_deg)
{
  return angle_rad <= (limit_deg + TRN_SQUARE_DEG) * G_PI / 180;
}

double
trn_sling_bridle_factor (guint n_legs, double to_vertical_rad)
{
  if (n_legs == 1)
    return 1;
  if (n_legs == 0 || n_legs > 4 || !(to_vertical_rad >= 0) || !is_within (to_vertical_rad, 60))
    return NAN;
  if (is_within (to_vertical_rad, 45))
    return n_legs == 2 ? 1.4 : 2.1;
  return n_legs == 2 ? 1.0 : 1.5;
}

gboolean
trn_sling_is_flat (double from_horizontal_rad)
{
  return !is_within (-from_horizontal_rad, -TRN_SLING_LEAST_ANGLE_DEG);
}

double
trn_sling_skew_factor (guint n_legs, gboolean is_equalised)
{
  return n_legs >= 4 && !is_equalised ? TRN_SLING_SKEW_FACTOR : 1;
}

double
trn_shackle_side_factor (double aside_rad)
{
  double aside = fabs (aside_rad);
  if (is_within (aside, 0))
    return 1;
  if (is_within (aside, 45))
    return 0.7;
  return is_within (aside, 90) ? 0.5 : 0;
}
