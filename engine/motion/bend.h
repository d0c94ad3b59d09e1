/* bend.h: what a bound made from both ends of a span of time loses to the bend of the paths between
 * them.
 *
 * Seen along a direction n, a point goes from f(s0) to f(s1) and not evenly: it may come lower in
 * between. Where all points near a place of the body go on along n they lose nothing; a point that
 * turns round there, as on the near side of a circle, loses most. */
#pragma once

#include "motion.h"

/* A span of time, in a frame of choice. */
typedef struct
{
  double s0, s1;
  TrnPose pose0, middle, pose1; /* frame_from_body at s0, in the middle and at s1 */
  TrnVec3 path_acceleration;    /* path″ in the middle */
} TrnSpan;

/* The span [@s0, @s1] seen in the frame of @site_from_frame. */
TrnSpan
trn_span_make (const TrnMotion *motion, const TrnPose *site_from_frame, double s0, double s1);

/* Its halves; what is known already is taken from it. */
void trn_span_halve (const TrnSpan *span, const TrnMotion *motion, const TrnPose *site_from_frame,
                     TrnSpan halves[2]);

/* What bend.h wants to know of a motion, in that frame. */
typedef struct
{
  TrnVec3 axis;
  double angle;      /* |angle_rad| */
  double path_jerk;  /* |path‴| <= */
  double rounding;   /* of an acceleration seen along a direction */
  double rounding_m; /* of a placed point */
  gboolean none;     /* paths are straight and even */
} TrnBending;

/* For the points within @reach_m of the axis of turning, which are placed in the frame to within
 * @rounding_m. */
TrnBending trn_bending_make (const TrnMotion *motion, const TrnPose *site_from_frame,
                             double reach_m, double rounding_m);

/* How the points near a place bend. */
typedef struct
{
  const TrnBending *bending;
  double length;
  TrnVec3 acceleration, goes;
  double turning_spread, path_spread, play_m;
} TrnBend;

/* For the points within @radius_m of @centre (body frame). @bending is kept. */
TrnBend trn_bend_make (const TrnBending *bending, const TrnMotion *motion, const TrnSpan *span,
                       TrnVec3 centre, double radius_m);

/* min over both ends of n·x, over any set of these points, is at most this much more than n·x of
 * any of them at any time of the span; @n a unit vector in the frame. The derivation stands in
 * bend.c. */
double trn_bend_loss (const TrnBend *bend, TrnVec3 n);
