/* beam-hang.h: where a load turns that hangs by slings below a beam. */
#pragma once

#include "box.h"
#include "plan.h"
#include "pose.h"

/* TRUE where slings go from the beam of @hoist to points of the load: then @point is the point of
 * the load, in its frame, that it leans about, as if it hung by that alone. @hook_point is the one
 * that the hook is @above_m plumb above in the attitude @drawn; @above_m may be NAN. */
gboolean trn_beam_hang_point (const TrnHoist *hoist, TrnVec3 hook_point, double above_m,
                              const TrnRotation *drawn, TrnVec3 cog, TrnVec3 *point);

/* How far @point may be aside as the load leans by up to @rad about what is above it, but not above
 * the hook, @hook_above_m above it, with its centre of gravity anywhere in @cog (free-hang.c); 0
 * where there is nothing above it. */
double trn_beam_hang_aside (const TrnBox *cog, TrnVec3 point, double hook_above_m,
                            const TrnRotation *drawn, double rad);

/* What is not known of how a load hangs below a beam that it does not hang parallel to. All 0 where
 * no beam holds it. */
typedef struct
{
  double sinks_m;  /* as slings that are drawn off plumb come to hang plumb; at most, as the next */
  double skew_m;   /* of the points of an end across the beam from below that end, … */
  double skew_rad; /* … and what that may turn the load by about the plumb line */
  double wider_m;  /* what rigging that is heavier at one end or side counts for beside its CoG;
                      INFINITY: the mass of some of it is left out; NAN: of trn_beam_hang_wider() */
  double apart_m;  /* level between what the slings of either end hold; NAN: it is not known what
                      the beam does as the load leans, since slings of an end spread along it or
                      cross */
  double high_m[2], long_m[2]; /* from there up to the end, plumb and straight, … */
  double uneven_m;             /* … and how much higher that may be at one end */
  double fan_m;                /* what slings of both ends spread along the beam */
  double slant_rad; /* what they are off plumb by along the beam, the most of both ends */
  /* In the load's frame, as drawn. */
  TrnVec3 ends[2], along, up; /* of the beam; its way, level, and plumb, of length 1 */
  double holds; /* 1 and what the rigging weighs by the weight of the load, times what the beam is
                   below its hook by its length */
} TrnBeamPlay;

/* @above_m as above: where it is not finite, all slings count as plumb. @mass_kg: of the load, NAN
 * where it is not known. */
TrnBeamPlay trn_beam_hang_play (const TrnHoist *hoist, TrnVec3 hook_point, double above_m,
                                const TrnRotation *drawn, double mass_kg);

/* What a beam may lean by, where the load leans by up to @load_rad, and what its slings may pull
 * along it, as a share of what they carry. NAN: no bound. */
typedef struct
{
  double lean_rad, pull;
} TrnBeamLean;

TrnBeamLean trn_beam_hang_leans (const TrnBeamPlay *play, double beam_m, double load_rad);

/* The input for want of which what is counted beside has no bound, static; NULL: it has. */
const char *trn_beam_hang_unbounded (double wider_m);

/* wider_m and what slings off plumb count for beside the CoG, anywhere in @cog, of a load that
 * leans about @hook, @up as drawn; both in the load's frame. NAN: no bound. */
double trn_beam_hang_wider (const TrnBeamPlay *play, const TrnLiftBeam *beam, const TrnBox *cog,
                            TrnVec3 hook, TrnVec3 up);
