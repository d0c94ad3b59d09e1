/* A mat bears over all of its width and over the length that the load needs at the pressure that
 * is allowed (trn_ground_mat). That this is no longer than the mat is the same as that the load and
 * the mat, over all of the mat, press by no more than is allowed: (P + W_m)/(L B). The length is
 * the longer side; the support stands in its middle and bears evenly, as a pad is taken to do.
 *
 * Whether the mat can do that is a matter of its strength, of which a plan says nothing: the
 * moments that bend it are told, along as in trn_ground_mat, and across, since it bears over all of
 * its width B, P/B ((B − C)/2)²/2 with what stands on it C wide.
 *
 * Below a track lie mats side by side, across it, of which the plan gives all as one: [length of
 * the row, length of a mat]. A mat of the width b below the track, w wide, that presses with p at
 * most bears p w b, and has b/x of the mass of the row, x long: so the ground bears p w/y +
 * W/(x y). How wide the mats are is no matter, nor that those beyond the ends of the track may
 * help. */
#include "ground-mat.h"

#include "gravity.h"
#include "ground.h"
#include "outward.h"

/* By so much mats may lie over each other, for rounding. */
#define OVERLAP_M 1e-6

static double
weight_n (const TrnGearFoot *foot)
{
  return foot->mat_mass_kg * TRN_GRAVITY_M_S2;
}

static gboolean
are_over_each_other (const TrnGearFoot *a, const TrnGearFoot *b)
{
  const TrnLevelSize of_a = trn_gear_foot_on_ground (a), of_b = trn_gear_foot_on_ground (b);
  return fabs (a->x_m - b->x_m) < 0.5 * (of_a.x_m + of_b.x_m) - OVERLAP_M
         && fabs (a->y_m - b->y_m) < 0.5 * (of_a.y_m + of_b.y_m) - OVERLAP_M;
}

const char *
trn_ground_mats_missing (const TrnGearFoot *feet, guint n_feet)
{
  for (guint i = 0; i < n_feet; i++)
    {
      /* Without a mat a leg needs its pad. */
      const TrnLevelSize size = trn_gear_foot_size (&feet[i]);
      if (isnan (feet[i].has_mat ? size.x_m : feet[i].pad_x_m)
          || isnan (feet[i].has_mat ? size.y_m : feet[i].pad_y_m))
        return "pad";
    }
  for (guint i = 0; i < n_feet; i++)
    if (feet[i].has_mat && isnan (feet[i].mat_mass_kg))
      return "mat/mass";
  for (guint i = 0; i < n_feet; i++)
    for (guint k = 0; k < n_feet; k++)
      if (i != k && feet[i].has_mat && are_over_each_other (&feet[i], &feet[k]))
        return "mat/apart";
  return NULL;
}

TrnInterval
trn_ground_mat_pressure (const TrnGearFoot *foot, TrnInterval load_n)
{
  if (!foot->has_mat)
    return trn_interval_scale (load_n, 1 / (foot->pad_x_m * foot->pad_y_m));
  return trn_interval_scale (trn_interval_add (load_n, trn_interval_point (weight_n (foot))),
                             1 / (foot->mat_size.x * foot->mat_size.y));
}

double
trn_ground_mat_track_pressure (const TrnGearFoot *track, double track_pa)
{
  if (!track->has_mat)
    return track_pa;
  return track_pa * track->pad_y_m / track->mat_size.y
         + weight_n (track) / (track->mat_size.x * track->mat_size.y);
}

TrnMatAsked
trn_ground_mat_asked (const TrnGearFoot *foot, double load_n, double allowed_pa)
{
  const TrnLevelSize stands = trn_gear_foot_size (foot);
  const gboolean is_along_x = foot->mat_size.x >= foot->mat_size.y;
  const double length_m = is_along_x ? foot->mat_size.x : foot->mat_size.y;
  const double width_m = is_along_x ? foot->mat_size.y : foot->mat_size.x;
  const TrnMat mat = trn_ground_mat (load_n, weight_n (foot), allowed_pa, width_m,
                                     is_along_x ? stands.x_m : stands.y_m);
  const double beyond_m = 0.5 * (width_m - (is_along_x ? stands.y_m : stands.x_m));
  return (TrnMatAsked){ .length_m = mat.bearing_length_m,
                        .share = mat.bearing_length_m / length_m,
                        .moment_nm = mat.moment_nm,
                        .moment_across_nm = load_n / width_m * beyond_m * beyond_m / 2 };
}

TrnMatAsked
trn_ground_mat_asked_by_track (const TrnGearFoot *track, double ground_pa, double allowed_pa)
{
  const double below_n = weight_n (track) * track->pad_x_m / track->mat_size.x;
  const double load_n = ground_pa * track->pad_x_m * track->mat_size.y - below_n;
  const TrnMat mat = trn_ground_mat (load_n, below_n, allowed_pa, track->pad_x_m, track->pad_y_m);
  return (TrnMatAsked){ .length_m = mat.bearing_length_m,
                        .share = mat.bearing_length_m / track->mat_size.y,
                        .moment_nm = mat.moment_nm };
}
