/* limb.h: a moving part of the lifting gear: the convex hull of a few corners, each on a path of
 * its own, grown by a radius all round. A rope or a sling has two corners, its ends, and half its
 * diameter; a boom the same with half the diagonal of its section; a counterweight has the corners
 * of a prism and no radius.
 *
 * A point of it is a fixed mixture of the corners, x = Σ λᵢ cᵢ(s) with λᵢ >= 0, Σ λᵢ = 1, so seen
 * along any direction it lies no lower than the lowest of the corners less what the paths of the
 * corners sag between two moments: all that a bound over continuous motion needs. */
#pragma once

#include "jet.h"

#define TRN_LIMB_CORNERS 16

/* Encloses the corners (site) and their first two derivatives by s over @s; a span of no width
 * gives the places themselves, within rounding. FALSE where some moment has no such place, as when
 * a hook is beyond the reach of its boom, and where @s is too wide to tell: halves of it tell, and
 * a moment that has a place has it at a span of no width. Any thread. */
typedef gboolean (*TrnLimbCorners) (gconstpointer data, TrnInterval s,
                                    TrnJet3 corners[TRN_LIMB_CORNERS]);

typedef struct
{
  guint n_corners; /* 1 … TRN_LIMB_CORNERS */
  double radius_m;
  TrnLimbCorners corners;
  gconstpointer data; /* borrowed */
} TrnLimb;
