/* sway.h: how far a hanging load goes aside: by a steady wind, by a slew, by itself. */
#pragma once

#include <glib.h>

/* The angle of the rope under a steady level force: tan φ = F/W. */
double trn_sway_angle_rad (double force_n, double weight_n);
/* Length times tan φ, to first order; never below the true offset, length times sin φ. */
double trn_sway_offset_m (double force_n, double weight_n, double length_m);

typedef struct
{
  double acceleration_m_s2; /* at the radius of the tip */
  double angle_rad;         /* to first order, of that acceleration */
  double offset_m;          /* rope times tan φ of it */
  double true_angle_rad;    /* with the load at the radius that it reaches */
  double true_offset_m;
} TrnThrowOut;

/* A load that goes round evenly with the tip. */
TrnThrowOut trn_sway_throw_out (double radius_m, double slew_rad_s, double rope_m);

/* The period of small swings. */
double trn_sway_period_s (double length_m);
