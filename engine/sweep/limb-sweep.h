/* limb-sweep.h: the certified least distance of a moving part of the gear (limb.h) from a mesh that
 * stands or that is the moving load, or from another such part, over continuous motion.
 *
 * As sweep.h, but the body is one small convex hull, so that only the mesh and time are split. A
 * limb is solid: what lies wholly inside it touches it. */
#pragma once

#include "limb.h"
#include "sweep.h"

typedef struct
{
  const TrnLimb *limb;
  TrnInterval span;           /* of s, within [0, 1] */
  TrnSweepBody obstacle;      /* bvh NULL: other is meant */
  const TrnMotion *motion;    /* site_from_obstacle, moving; NULL: it stands */
  TrnPose site_from_obstacle; /* where it stands */
  const TrnLimb *other;
} TrnLimbPair;

/* As trn_sweep_minimum. Where the limb has no place at some moment the result is not complete, with
 * lower_m 0 and upper_m what was attained elsewhere, or INFINITY. */
TrnSweepResult trn_limb_sweep_minimum (const TrnLimbPair *pair, const TrnSweepOptions *options);

/* As trn_sweep_contacts. */
gboolean trn_limb_sweep_contacts (const TrnLimbPair *pair, double resolution_s,
                                  const TrnProgress *progress, GArray *spans);

/* The distance at one moment, at most TRN_CONTACT_M above the least; 0 in contact; NAN where the
 * limb has no place then. For showing. */
double
trn_limb_distance (const TrnLimbPair *pair, double s, TrnVec3 *on_limb, TrnVec3 *on_obstacle);
