/* motion-jet.h: a motion (motion.h) over a span of s, with its derivatives, enclosed (jet.h): of
 * one point of the body, or of its pose.
 *
 * Enclosed is the motion that the members of a TrnMotion define by the formulas in motion.h, each
 * member taken as exact but for the axis, whose length is 1. */
#pragma once

#include "jet.h"
#include "motion.h"

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

void trn_motion_pose_jet (const TrnMotion *motion, TrnInterval s, TrnJetPose *pose);

/* A place of the site seen from the body: pivot + turnᵀ (place − position). */
TrnJet3 trn_jet_pose_apply_inverse (const TrnJetPose *pose, const TrnJet3 *place);
