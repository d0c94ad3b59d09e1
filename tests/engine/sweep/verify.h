/* verify.h: checks a proof of the sweep in quadruple precision, by other means than it was found:
 * every step against the exact motion of every corner, and that the steps leave nothing out. */
#pragma once

#include "item.h"
#include "quad-motion.h"
#include "search.h"

typedef struct
{
  const TrnSweepPair *pair;
  QuadMotion motion;
  guint32 *place_a, *place_b; /* of each triangle, in the order of its tree */
  guint *seen_a, *seen_b;     /* of each vertex: the step that looked at it last */
  guint n_looked;
} Verify;

Verify verify_make (const TrnSweepPair *pair);
void verify_clear (Verify *verify);

/* Whether all that the step speaks of is at least @bound_m apart along its direction, over all of
 * its span. Exact: nothing is allowed for rounding. */
gboolean verify_step (Verify *verify, const TrnProofStep *step, double bound_m);

/* Whether the steps (of TrnProofStep) speak of every pair of triangles at every moment of the span.
 * They are halved, as often as need be, in time or in space, wherever none of them is whole. */
gboolean verify_cover (const Verify *verify, TrnInterval span, const GArray *steps);

/* The exact distance of two triangles at @s. */
Quad verify_distance (const Verify *verify, guint32 a, guint32 b, double s);
