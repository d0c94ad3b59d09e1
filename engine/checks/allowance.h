/* allowance.h: how far a point of the load can be from where its motion has it, part by part. */
#pragma once

#include "finding.h"

/* Bounds over one move; NAN where there is none. */
typedef struct
{
  double tolerance_m;  /* of position, tilt and heading (TrnLiftRun.slack) */
  double lean_m;       /* of the lean where the motion is as drawn though the load hangs free */
  double cog_box_m;    /* of the centre of gravity anywhere in its box */
  double level_m;      /* of two hooks out of level, beyond the tolerance of tilt */
  double hook_level_m; /* how far that takes the main hook aside */
  double wind_m;       /* of the wind of the plan, where the load hangs (wind-aside.h) */
  double hook_wind_m;  /* of that how far the main hook goes aside */
  double wind_rad;     /* what the wind turns the load by, likewise */
  double swing_m;      /* of starting, stopping and slewing, where the load hangs (swinging.h) */
  double hook_swing_m; /* of that how far the main hook goes aside */
  const char *missing; /* input of the plan that the first NAN is for want of, static; else NULL */
} TrnAllowance;

/* The same of a point of the gear: what of it goes where the load or its hook is off, for each
 * reason that these may be off for. */
typedef struct
{
  double tolerance_m, lean_m, cog_box_m, level_m, wind_m, swing_m;
} TrnGearOff;

/* Of a body of the rig with two corners at both of them, in the order of its limb; of any other
 * body the same twice. What is between them is a mixture of both (gear-tolerance.c). */
typedef struct
{
  TrnGearOff ends[2];
} TrnGearTolerance;

static inline double
trn_gear_off_sum (const TrnGearOff *off)
{
  return off->tolerance_m + off->lean_m + off->cog_box_m + off->level_m + off->wind_m
         + off->swing_m;
}

static inline double
trn_allowance_sum (const TrnAllowance *a)
{
  return a->tolerance_m + a->lean_m + a->cog_box_m + a->level_m + a->wind_m + a->swing_m;
}
