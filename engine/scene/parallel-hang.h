/* parallel-hang.h: a load that hangs by two plumb slings of one length, one at either end of a
 * level beam that slings from the hook hold by both its ends.
 *
 * The load turns about the line through its points (φ, across the beam), and slings and beam keep
 * it parallel to the beam, which turns about the hook (θ, along it): beam and load pitch together
 * while the slings between them stay plumb. */
#pragma once

#include "plan.h"
#include "pose.h"

/* Places and ways are in the load's frame. */
typedef struct
{
  gboolean is_there; /* FALSE: it does not hang so, and the rest is 0 */
  TrnVec3 middle;    /* half way between both points */
  TrnVec3 along, up; /* of length 1, level along the beam to its end b and plumb, as drawn */
  double beside_m;   /* of the middle from plumb below the hook, as drawn */
  double below_m;    /* b: of the beam below the hook */
  double drop_m;     /* of the points below the beam */
  double beam_m;     /* its length */
  /* What counts for b as the beam pitches: less where slings are drawn somewhat off plumb, more by
   * what the rigging weighs. */
  TrnInterval counts_m;
  TrnInterval aside_m; /* what the rigging that is heavier at one end counts for beside c₁ */
  double off_m;        /* the more of both slings from plumb below the ends of the beam, as drawn */
} TrnParallelHang;

/* @hook_point is the one that the hook is @above_m plumb above in the attitude @drawn; @mass_kg is
 * of the load, NAN where it is not known, as masses of the rigging may be. is_there is FALSE where
 * the load of @hoist hangs otherwise, or where with its centre of gravity in @cog one of both
 * slings would go slack or a point would not be above it. */
TrnParallelHang trn_parallel_hang (const TrnHoist *hoist, TrnVec3 hook_point, double above_m,
                                   const TrnRotation *drawn, double mass_kg, const TrnBox *cog);

/* What slings and shackles that weigh more at the end b of a beam, @length_m long, count for beside
 * the centre of gravity of a load, toward b; a span, since upper ones hang there in part. What is
 * left out at both ends is as heavy at both; at one, or of the load, it makes the span infinite. */
TrnInterval trn_parallel_hang_unlike (const TrnHoist *hoist, double mass_kg, double length_m);

/* Of a sling and its shackle; NAN where one is left out. */
double trn_parallel_hang_leg_kg (const TrnSling *sling);

/* What beam, slings and shackles weigh as a share of the load; INFINITY where that is not known. */
double trn_parallel_hang_rigging (const TrnHoist *hoist, double mass_kg);

/* At rest with its centre of gravity at @cog; places in the load's frame. */
typedef struct
{
  double pitch_rad, roll_rad; /* θ, φ */
  TrnRotation drawn_from_now; /* turns ways of the drawn load to those of the load at rest */
  TrnVec3 hook, beam[2];
} TrnParallelRest;
TrnParallelRest trn_parallel_hang_rest (const TrnParallelHang *hang, TrnVec3 cog);

/* θ and φ with the centre of gravity anywhere in @cog, and whatever counts for b and beside it.
 * Ends may be half a turn: no bound. */
void trn_parallel_hang_over (const TrnParallelHang *hang, const TrnBox *cog, TrnInterval *pitch,
                             TrnInterval *roll);

/* How far beside the middle of the beam, as a share of its length, what hangs from it pulls, at
 * most. */
double trn_parallel_hang_beside (const TrnParallelHang *hang, const TrnBox *cog);
/* The same toward one end, b or a; below 0 where it pulls at the other one whatever is in @cog. */
double trn_parallel_hang_toward (const TrnParallelHang *hang, const TrnBox *cog, gboolean b);

/* By how much at most the load is turned from where it is with @pitch_rad and @roll_rad, and how
 * far beyond that its point @from goes; both NAN where there is no bound. */
void trn_parallel_hang_off (const TrnParallelHang *hang, const TrnBox *cog, double pitch_rad,
                            double roll_rad, TrnVec3 from, double *rad, double *m);
