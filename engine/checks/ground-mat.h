/* ground-mat.h: mats between the supports of a gear and the ground. */
#pragma once

#include "interval.h"
#include "plan-gear.h"

/* The input without which nothing is known of what is below @feet, static: "pad", "mat/mass", or
 * "mat/apart" where a mat lies where another support stands; NULL. */
const char *trn_ground_mats_missing (const TrnGearFoot *feet, guint n_feet);

/* Below a support that bears @load_n, on the ground: what its mat weighs and spreads is counted. */
TrnInterval trn_ground_mat_pressure (const TrnGearFoot *foot, TrnInterval load_n);

/* The same below a track, of what it presses with itself. */
double trn_ground_mat_track_pressure (const TrnGearFoot *track, double track_pa);

/* What is asked of a mat so that the ground bears no more than what is allowed. */
typedef struct
{
  double length_m;         /* that has to bear */
  double share;            /* that is of its length */
  double moment_nm;        /* that bends it along that length … */
  double moment_across_nm; /* … and across, where it is wider than what stands on it */
} TrnMatAsked;

TrnMatAsked trn_ground_mat_asked (const TrnGearFoot *foot, double load_n, double allowed_pa);
/* Of the mats below one track, with the greatest of @ground_pa all along it. */
TrnMatAsked
trn_ground_mat_asked_by_track (const TrnGearFoot *track, double ground_pa, double allowed_pa);
