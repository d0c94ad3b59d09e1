/* hanging.h: how a load hangs freely from one hook.
 *
 * Points are in the load's frame. The load turns until its centre of gravity is plumb under the
 * hook; about the plumb line it keeps the heading it has, so the attitude found is the one reached
 * from the drawn attitude by the least turn. */
#pragma once

#include "box.h"
#include "pose.h"

#define TRN_HANG_LEGS_MAX 4

/* A leg from the hook to a point of the load. It does not stretch and may go slack. */
typedef struct
{
  TrnVec3 lug;
  double length_m;
} TrnHangLeg;

typedef struct
{
  TrnRotation site_from_load;
  double lean_rad; /* the turn from the drawn attitude */
  TrnVec3 hook;    /* in the load's frame */
  double hook_above_cog_m;
  /* How far the CoG is below the point of the plumb line at which the legs hold the load. Negative:
   * the load is top-heavy, and only the spread of its legs keeps it from turning over. */
  double cog_below_lugs_m;
  double tension[TRN_HANG_LEGS_MAX]; /* as a share of the weight; 0: slack */
  guint n_taut;                      /* legs at their full length, with or without tension */
  gboolean is_shared_one_way; /* FALSE: four legs are taut, and the tensions are one way of many */
  gboolean is_lowest;         /* proven: in no other attitude does the load hang lower */
  double force_residual, moment_residual_m; /* as shares of the weight, the moment about the CoG */
} TrnHang;

/* The attitude of a load on a hook at the point @hook of the load. FALSE where the CoG is the hook:
 * then any attitude is at rest. */
gboolean trn_hang_from_point (TrnVec3 hook, TrnVec3 cog, const TrnRotation *drawn,
                              TrnRotation *site_from_load);

/* The equilibrium nearest to the @drawn attitude of a load on 1 to 4 legs: a place of least
 * potential energy under |hook − lug| <= length for each leg. FALSE where the legs do not reach a
 * common hook or hold the load in no stable way. */
gboolean trn_hang_from_legs (const TrnHangLeg *legs, guint n_legs, TrnVec3 cog,
                             const TrnRotation *drawn, TrnHang *hang);

/* ---- over all places of the centre of gravity ---- */

/* An upper bound, proven, of the angle between @up (a unit vector of the load's frame: what is
 * plumb in the attitude to compare with) and the plumb line of the hanging load, over all centres
 * of gravity in @cog. G_PI where none can be given. */
double trn_hang_lean_bound_from_point (TrnVec3 hook, const TrnBox *cog, TrnVec3 up);
/* For the attitude in which the load hangs lowest; at most @width_rad above the greatest, where
 * that can be reached in reasonable time. */
double trn_hang_lean_bound_from_legs (const TrnHangLeg *legs, guint n_legs, const TrnBox *cog,
                                      TrnVec3 up, double width_rad);
/* Likewise of how far the hook is from the point @hook of the load; NAN where there is none. */
double trn_hang_play_bound_from_legs (const TrnHangLeg *legs, guint n_legs, const TrnBox *cog,
                                      TrnVec3 up, TrnVec3 hook, double width_m);
