/* sweep.h: the certified least distance of a moving mesh from a standing one over continuous
 * motion, and when they touch.
 *
 * Nothing is sampled: every number is a proven bound over all of the time asked about. The
 * derivation of each bound stands in triple.c, that of its rounding in search.c, that of what a
 * move does in motion.c and bend.c. */
#pragma once

#include "distance.h"
#include "inside.h"
#include "interval.h"
#include "motion.h"
#include "progress.h"

/* A mesh with all that the sweep wants to know of it; made once, shared by all sweeps. */
typedef struct
{
  const TrnBvh *bvh;
  const TrnMeshCheck *check;
} TrnSweepBody;

typedef struct
{
  TrnSweepBody body;
  const TrnMotion *motion; /* site_from_body */
  TrnInterval span;        /* of s, within [0, 1] */
  TrnSweepBody obstacle;
  TrnPose site_from_obstacle;
} TrnSweepPair;

/* A bound on how far a point of the body is from the line that the motion turns it about. */
double trn_sweep_reach (const TrnBvh *body, const TrnMotion *motion);

typedef struct
{
  double width_m; /* upper − lower asked for, > 0 … */
  double far_m;   /* … and where lower >= far_m, at most far_share of lower, if that is more */
  double far_share;
  guint64 max_steps;           /* bounds worked out before it is cut short; 0: the default */
  guint jobs;                  /* threads; 0: as many as there are processors */
  const TrnProgress *progress; /* may be NULL; cut short when cancelled */
} TrnSweepOptions;

typedef struct
{
  double lower_m, upper_m; /* the least distance lies between; upper_m is attained at s between the
                              two points; both 0 in contact */
  double s;
  TrnVec3 on_body, on_obstacle; /* site frame */
  TrnInside inside;             /* YES: one within the other at some time of the span, the result is
                                   contact; UNKNOWN: could not be told */
  gboolean complete;            /* FALSE: cut short; lower_m is what was proven so far */
  guint64 steps;
} TrnSweepResult;

TrnSweepResult trn_sweep_minimum (const TrnSweepPair *pair, const TrnSweepOptions *options);

/* Spans of s outside which the two are proven to be free of each other (surfaces more than
 * TRN_CONTACT_M apart and neither inside the other), in order and apart from each other, appended
 * to @spans (of TrnInterval). Each end that is not an end of pair->span is within @resolution_s of
 * a moment of contact where the approach is not grazing. FALSE when cut short: then the spans are
 * still outer bounds, only wider. */
gboolean trn_sweep_contacts (const TrnSweepPair *pair, double resolution_s,
                             const TrnProgress *progress, GArray *spans);

/* The first s of pair->span at which the distance is certified to be at least @distance_m, in @s,
 * at most @resolution_s late: earlier than that it is proven to be smaller, but for stays above it
 * that are shorter than @resolution_s. FALSE when there is none. With @backwards the last such s.
 * Cancelled, it returns FALSE early: whoever passes @progress (or NULL) looks whether it was. */
gboolean trn_sweep_first_reach (const TrnSweepPair *pair, double distance_m, double resolution_s,
                                gboolean backwards, const TrnProgress *progress, double *s);
