/* search.h: the branch and bound of the sweep: triples of a node of the body's tree, a node of the
 * obstacle's tree and a span of time, each with a proven lower bound of the distance of everything
 * in it. A triple is done when its bound reaches the target; otherwise it is split in space or in
 * time. What is done at the end covers all triangle pairs at all times, so the least bound among it
 * bounds the distance from below.
 *
 * Everything is worked out in the obstacle's frame, so that far site coordinates cost no digits. */
#pragma once

#include "sweep.h"

/* A part of the proof: what was done, and why. Along n, over the span, everything of a is at least
 * bound_m from everything of b; all steps together cover all triangles at all times. Where the
 * search gave up on a pair of triangles, within rounding of its goal, bound_m is 0 or more and
 * stands without a direction's proof. */
typedef struct
{
  guint32 a, b; /* items (item.h) of the body's and of the obstacle's tree */
  TrnInterval span;
  TrnVec3 n; /* obstacle frame, about a unit vector */
  double bound_m;
} TrnProofStep;

/* What a search has to reach. */
typedef struct
{
  /* A triple is done at upper − width_m, or, from far_m on, at upper / (1 + far_share). */
  double width_m, far_m, far_share;
  /* Instead of that, when > 0: a triple is done at this bound, and the search ends as soon as a
   * moment with a distance below it is found. */
  double free_m;
  double least_s; /* free_m only: spans of time are not split below this; it gives up there */
  guint64 max_steps;
  guint jobs; /* threads; 0: as many as there are processors. The result does not depend on it */
  const TrnProgress *progress;
  GArray *proof; /* of TrnProofStep: everything that was done is appended; NULL: nothing is */
} TrnSearchGoal;

typedef struct
{
  double lower_m; /* proven */
  double upper_m; /* attained at s, rounding added; INFINITY where nothing was evaluated */
  double s;
  TrnVec3 on_body, on_obstacle; /* obstacle frame */
  gboolean complete;            /* every triple is done */
  guint64 steps;
} TrnSearchResult;

TrnSearchResult
trn_search_run (const TrnSweepPair *pair, TrnInterval span, const TrnSearchGoal *goal);

/* obstacle_from_body at @s. */
TrnPose trn_search_pose (const TrnSweepPair *pair, double s);

/* A bound on the error of any point, direction value or distance of this pair that is worked out in
 * double arithmetic; the derivation stands in search.c. */
double trn_search_rounding (const TrnSweepPair *pair);
