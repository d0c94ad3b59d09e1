/* share.h: what the main and the tail hook carry of a load that hangs from both.
 *
 * Both hoist lines are plumb. Points are in the site's frame; shares are of the weight. */
#pragma once

#include "box.h"

typedef enum
{
  TRN_SHARE_TAIL_SLACK = 1 << 0,     /* the tail would have to push down: it is slack */
  TRN_SHARE_MAIN_SLACK = 1 << 1,     /* the tail would carry more than all: the main is slack */
  TRN_SHARE_TAIL_BELOW_COG = 1 << 2, /* and may come to carry all of it near upright */
  TRN_SHARE_OVER_TAIL = 1 << 3,      /* the CoG is plumb over the tail point or beyond it */
  TRN_SHARE_IN_LINE = 1 << 4 /* one point plumb over the other: the shares are not defined */
} TrnShareFlags;

typedef struct
{
  double tail, main; /* together 1; NAN where not defined */
  double
      out_of_plane_m; /* the CoG beside the plumb plane through both points; the load leans by it */
  TrnShareFlags flags;
} TrnShare;

TrnShare trn_share_make (TrnVec3 main, TrnVec3 tail, TrnVec3 cog);

typedef struct
{
  double tail_least, tail_greatest, main_least, main_greatest;
  double out_of_plane_m; /* the greatest */
  TrnShareFlags flags;   /* of any of them */
} TrnShareRange;

/* Over all centres of gravity with these eight corners, exact. */
TrnShareRange trn_share_over (TrnVec3 main, TrnVec3 tail, const TrnVec3 cog_corners[8]);

/* ---- closed forms, for loads drawn in one plane ---- */

/* Up-ending: the tail's share at @tilt_rad from lying. @tail_along_m and @cog_along_m are measured
 * along the load from the main lift line, the heights square to it, positive on the side that is up
 * while the load lies. Moss, Pressure Vessel Design Manual, lifting loads, for cog_height_m = 0. */
double trn_share_tail_of_upending (double tail_along_m, double tail_height_m, double cog_along_m,
                                   double cog_height_m, double tilt_rad);

/* Two hooks out of level: lift points at heights above the CoG and distances from it. */
typedef struct
{
  double distance1_m, distance2_m;  /* level, from the CoG to either point, on its two sides */
  double height1_m, height2_m;      /* of either point above the CoG */
  double envelope_m, envelope_up_m; /* the CoG may be that much off, along and in height */
  double tilt_rad;                  /* either way */
} TrnTwoHooks;

/* The greatest share of either point over tilt and envelope. 0027/ND, Guidelines for marine lifting
 * and lowering operations, Rev 11.2, App. B.1.2. */
void trn_share_two_hooks (const TrnTwoHooks *hooks, double greatest[2]);

/* The greatest share of each of four lift points, two at either hook: @hook_share as found for the
 * hook; the points at @side1_m and @side2_m to both sides of the CoG, which may be @envelope_m off.
 * The same source. */
void trn_share_four_points (const double hook_share[2], double side1_m, double side2_m,
                            double envelope_m, double greatest[4]);
