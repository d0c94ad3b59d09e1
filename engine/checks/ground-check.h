/* ground-check.h: the check `ground`: what the supports of a gear press on the ground with while it
 * holds the load, beside what the ground may bear. */
#pragma once

#include "hook-force.h"

/* Numbers of a finding: where a support lifts off, counted from 1 the one that would have to pull
 * most, and by how much. */
#define TRN_GROUND_LIFTED "lifted-support"
#define TRN_GROUND_PULL "pull"
/* And its place, in the frame of its gear, as the plan gives it. */
#define TRN_GROUND_LIFTED_X "lifted-x"
#define TRN_GROUND_LIFTED_Y "lifted-y"
/* Where it stands on mats, of the one below which the ground bears most: the length that bears,
 * below tracks without a width, and what bends it then, along that and across. */
#define TRN_GROUND_MAT_LENGTH "mat-length"
#define TRN_GROUND_MAT_WIDTH "mat-width"
#define TRN_GROUND_MAT_MOMENT "mat-moment"
#define TRN_GROUND_MAT_MOMENT_ACROSS "mat-moment-across"
/* What the plan has it bear so at most, N m, where that alone keeps it from bearing farther. */
#define TRN_GROUND_MAT_LEAST_STRONG "mat-moment-limit"

/* One finding for a gear over a move in which it holds the load; it must hold it. */
TrnFinding trn_ground_judge (const TrnLiftCheck *check, guint gear, guint move);

/* What one gear presses on the ground with over a move in which it holds the load. */
typedef struct _TrnGroundForce TrnGroundForce;
TrnGroundForce *trn_ground_force_new (const TrnLiftCheck *check, guint gear, guint move);
void trn_ground_force_free (TrnGroundForce *force);
/* The input without which its pressure is not known, static; NULL. */
const char *trn_ground_force_missing (const TrnGroundForce *force);
/* The greatest pressure on the ground below a support, enclosed over @s; FALSE where it is not
 * known. */
gboolean
trn_ground_force_pressure (const TrnGroundForce *force, TrnInterval s, TrnInterval *pressure_pa);
