/* motion-jet.h: a motion (motion.h) over a span of s, with its derivatives, enclosed (jet.h): of
 * one point of the body, or of its pose.
 *
 * Enclosed is the motion that the members of a TrnMotion define by the formulas in motion.h, each
 * member taken as exact but for the axis, whose length is 1. */
#pragma once

#include "motion.h"
#include "slope.h"

/* Takes a point x of the body to position + turn · (x − pivot). */
typedef struct
{
  TrnJet turn[3][3]; /* row, column */
  TrnJet3 position;  /* of the pivot, site */
  TrnVec3 pivot;     /* body frame */
} TrnJetPose;

/* The place of @point (body frame) on the site. */
void trn_motion_point_jet (const TrnMotion *motion, TrnVec3 point, TrnInterval s, TrnJet3 *place);

/* The same of @n points at once: what the turning and the way have in common is worked out once. */
void trn_motion_points_jet (const TrnMotion *motion, guint n, const TrnVec3 *points, TrnInterval s,
                            TrnJet3 *places);

/* The ways to them from another point of the body, in site axes. The path has no part in them,
 * which it would have in differences of enclosed places. */
void trn_motion_ways_jet (const TrnMotion *motion, TrnVec3 from, guint n, const TrnVec3 *points,
                          TrnInterval s, TrnJet3 *ways);

/* The way from one point of the body to another, of which square turns and along does not, both
 * where the motion starts: what is the same at each moment, so that it can be worked out once. */
typedef struct
{
  TrnInterval along, square, across;
} TrnMotionArmPart;

typedef struct
{
  TrnMotionArmPart x, y, z;
} TrnMotionArm;

TrnMotionArm trn_motion_arm_make (const TrnMotion *motion, TrnVec3 from, TrnVec3 to);

/* These ways, in site axes. */
void trn_motion_arms_slope (const TrnMotion *motion, guint n, const TrnMotionArm *arms,
                            TrnInterval s, TrnSlope3 *ways);

void trn_motion_pose_jet (const TrnMotion *motion, TrnInterval s, TrnJetPose *pose);

/* A place of the site seen from the body: pivot + turnᵀ (place − position). */
TrnJet3 trn_jet_pose_apply_inverse (const TrnJetPose *pose, const TrnJet3 *place);
