/* limb-search.h: the branch and bound of a limb against a mesh or another limb: parts of an item
 * (item.h) of the mesh's tree and a span of time, each with a proven lower bound of the distance of
 * everything in it. Against another limb there is one item, the origin (limb-time.h). */
#pragma once

#include "limb-sweep.h"

typedef struct
{
  /* A part is done at upper − width_m, or, from far_m on, at upper / (1 + far_share). */
  double width_m, far_m, far_share;
  /* Instead of that, when > 0: to be proven is a distance of more than this throughout; the search
   * ends as soon as that cannot be. */
  double free_m;
  double least_s;    /* free_m only: spans of time are not split below this; it gives up there */
  gboolean has_hint; /* free_m only: look first at … */
  guint32 hint;      /* … this triangle of the mesh, or at the other limb */
  guint64 max_steps;
  const TrnProgress *progress;
} TrnLimbGoal;

typedef struct
{
  double lower_m; /* proven for all that has a place */
  double upper_m; /* attained at s, rounding added; INFINITY where nothing was evaluated */
  double s;
  guint32 triangle;  /* of the mesh, where it is attained */
  gboolean free;     /* free_m is proven throughout */
  gboolean touches;  /* a hint's triangle, or the other limb, stays within the radius throughout */
  gboolean complete; /* nothing is left open, and nothing missing */
  gboolean missing;  /* some moment has no place */
  gboolean nowhere;  /* none that was looked at has one */
  gboolean still;    /* nothing moves by more than rounding */
  guint64 steps;
} TrnLimbFound;

TrnLimbFound trn_limb_search (const TrnLimbPair *pair, TrnInterval span, const TrnLimbGoal *goal);
