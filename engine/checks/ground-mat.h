/* ground-mat.h: mats between the supports of a gear and the ground. */
#pragma once

#include "interval.h"
#include "plan-gear.h"

/* Whether no mat lies where another support stands, or its mat lies. */
gboolean trn_ground_mats_are_apart (const TrnGearFoot *feet, guint n_feet);

/* The input without which nothing is known of what is below @feet, static: "pad", "mat/mass", or
 * "mat/apart" where a mat lies where another support stands; NULL. */
const char *trn_ground_mats_missing (const TrnGearFoot *feet, guint n_feet);

/* What the plan does not say of how strong these are, static, where that matters: "mat/moment" or
 * "mat/moment_across"; NULL. Wherever @is_strong is asked for below that counts as any strength,
 * else as none. */
const char *trn_ground_mats_unsaid (const TrnGearFoot *feet, guint n_feet, gboolean is_tracks);

/* Below a support that bears @load_n, on the ground: what its mat weighs and spreads is counted. */
TrnInterval
trn_ground_mat_pressure (const TrnGearFoot *foot, TrnInterval load_n, gboolean is_strong);

/* The part of a mat that bears, and what that asks of the mat. */
typedef struct
{
  double length_m, width_m;
  double pressure_pa;      /* on the ground */
  double moment_nm;        /* that bends this part along … */
  double moment_across_nm; /* … and across; 0 below a track */
} TrnMatBears;

TrnMatBears trn_ground_mat_bears (const TrnGearFoot *foot, double load_n, gboolean is_strong);
/* Of the mats below one track, with the greatest that it presses with itself all along them. */
TrnMatBears
trn_ground_mat_bears_track (const TrnGearFoot *track, double track_pa, gboolean is_strong);
