/* motion.h: where a body is at every moment of one move, and how far any point of it goes.
 *
 * Every move of a plan has one form: the body turns at an even rate about an axis of fixed
 * direction through a pivot of its own, while the pivot goes along a path:
 *
 *   turn(s)      = Rot(axis, s·angle) · start.turn
 *   point(s, x)  = path(s) + turn(s) · (x − pivot)            for a point x of the body's frame
 *
 * s goes from 0 to 1 in proportion to time. The path is a straight line, an arc that may change
 * its radius and height evenly, or the level-tail path of a two-hook up-ending.
 *
 * The second derivative of every point is bounded, so that its path over [s0, s1] stays within
 * trn_motion_sag of the chord between its places at s0 and s1; the path's own second derivative is
 * known and its third bounded, from which bend.h tells how the points of one place bend. */
#pragma once

#include <float.h>

#include "interval.h"
#include "pose.h"

typedef enum
{
  TRN_PATH_LINE,       /* from + s·by */
  TRN_PATH_ARC,        /* centre + (radius + s·radius_by)(cos(φ0 + sφ), sin(φ0 + sφ), 0) + z */
  TRN_PATH_LEVEL_TAIL, /* from, but z = tail level + [turn(s)·(pivot − tail)]z */
} TrnPathKind;

typedef struct
{
  double seconds;
  TrnPose start;    /* site_from_body at s = 0 */
  TrnVec3 axis;     /* unit, site frame */
  double angle_rad; /* in all, signed */
  TrnVec3 pivot;    /* body frame */
  TrnPathKind path;
  TrnVec3 from; /* site place of the pivot at s = 0 */
  TrnVec3 by;   /* line: how far it goes; arc: only z is used */
  double centre_x, centre_y, radius_m, radius_by_m, phi0_rad, phi_rad; /* arc */
  TrnVec3 head_from_tail; /* level tail: start.turn·(pivot − tail), site axes */
} TrnMotion;

/* Nothing moves. */
TrnMotion trn_motion_make_wait (const TrnPose *start, double seconds);
/* A straight carry of @pivot (body frame) by @by, turning by @angle about @axis through it: a
 * hoist, a travel, a `move`, a turn and a tilt with a fixed guide are all of this form. */
TrnMotion trn_motion_make_carry (const TrnPose *start, double seconds, TrnVec3 pivot, TrnVec3 by,
                                 TrnVec3 axis, double angle_rad);
/* @hook (body frame) goes round the vertical through @centre by @phi; the body turns with it when
 * @turns. The radius at the start, and at the end with @radius_by, must be > 0: FALSE otherwise. */
gboolean trn_motion_make_slew (const TrnPose *start, double seconds, TrnVec3 hook, double centre_x,
                               double centre_y, double phi_rad, gboolean turns, double radius_by_m,
                               double hoist_by_m, TrnMotion *motion);
/* Two-hook up-ending: @head stays on its vertical, @tail keeps its level. The axis must be level
 * and square to head − tail within TRN_SQUARE_DEG: FALSE otherwise, with the angle by which it is
 * not in @off_square_rad. */
gboolean trn_motion_make_head_plumb (const TrnPose *start, double seconds, TrnVec3 head,
                                     TrnVec3 tail, TrnVec3 axis, double angle_rad,
                                     TrnMotion *motion, double *off_square_rad);

/* site_from_body at @s in [0, 1]; exactly @start at 0. */
TrnPose trn_motion_pose (const TrnMotion *motion, double s);

/* The length of the part of a unit vector square to another whose product with it is @dot; a little
 * over, since 1 − dot² loses digits where the two are nearly parallel: the product of two vectors
 * of length 1 ± 4u is off by less than 16u. */
static inline double
trn_square_share (double dot)
{
  return sqrt (fmax (0, 1 - dot * dot) + 16 * DBL_EPSILON);
}

/* A bound on |d²point/ds²| over the whole move for every point of the body within @reach of the
 * line through the pivot along the axis: angle²·reach + |path″|.
 *
 * A point is path(s) + r(s) with r turning evenly about the axis, so its acceleration is
 * path″ + angle² axis × (axis × r): two terms of one and the same point that add up, without a
 * cross term, since r is taken from the pivot itself. */
double trn_motion_acceleration (const TrnMotion *motion, double reach_m);

/* path″(s), site axes: the acceleration of the pivot. */
TrnVec3 trn_motion_path_acceleration (const TrnMotion *motion, double s);

/* A bound on |path‴| over the whole move. */
double trn_motion_path_jerk (const TrnMotion *motion);

/* Whether it turns the body about anything but a plumb line. */
static inline gboolean
trn_motion_tilts (const TrnMotion *motion)
{
  return motion->angle_rad != 0 && (motion->axis.x != 0 || motion->axis.y != 0);
}

/* Distance of a body-frame point from the line through the pivot along the axis of turning, at the
 * start; it does not change. 0 when the body does not turn. */
double trn_motion_reach (const TrnMotion *motion, TrnVec3 point);

/* How far a point with that @acceleration can be from the place that goes evenly along the chord
 * of its path over [s0, s1]: acceleration·(s1 − s0)²/8 (interpolation error of a line). */
static inline double
trn_motion_sag (double acceleration, double s0, double s1)
{
  return acceleration * (s1 - s0) * (s1 - s0) / 8;
}

/* A bound on |dpoint/ds| for points within @reach of the axis: |angle|·reach + |path′|. */
double trn_motion_speed (const TrnMotion *motion, double reach_m);

/* A bound on how far a point within @reach of the axis is, at any s of [s0, s1], from where it is
 * at the middle: speed·(s1 − s0)/2. */
static inline double
trn_motion_displacement (const TrnMotion *motion, double reach_m, double s0, double s1)
{
  return trn_motion_speed (motion, reach_m) * (s1 - s0) / 2;
}

/* A bound on the error of a point placed by trn_motion_pose in double arithmetic, for points of
 * the body whose coordinates are at most @size in absolute value. The derivation stands in
 * motion.c. */
double trn_motion_rounding (const TrnMotion *motion, double size_m);
