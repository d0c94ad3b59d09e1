/* triple.h: an item of the body's tree, an item of the obstacle's tree and a span of time, and
 * proven lower bounds of the distance of everything in it. An item is a node or a triangle.
 *
 * Everything is worked out in the obstacle's frame, so that far site coordinates cost no digits. */
#pragma once

#include "bend.h"
#include "item.h"
#include "search.h"
#include "times.h"

typedef struct
{
  guint32 a, b;
  TrnTime *time;
  TrnVec3 n; /* the direction that served best so far, about a unit vector; in double precision,
                since single precision turns a plate of 300 m by some 10 µm */
  double bound_m;
} TrnTriple;

/* An item of the body over a span of time: what the bounds against many items of the obstacle have
 * in common. */
typedef struct
{
  const TrnTime *time; /* NULL: nothing is known yet */
  guint32 id;
  TrnItem item;
  TrnVec3 centre[2]; /* at both ends, obstacle frame */
  TrnBend bend;
} TrnSwept;

/* What all bounds of a pair of bodies share; not to be copied once it was used. */
typedef struct
{
  const TrnBvh *a, *b;
  const TrnMotion *motion;
  gboolean still; /* nothing moves: one pose stands for all times */
  double rounding_m;
  TrnBending bending;
  TrnSwept last; /* the item asked for last */
} TrnBounder;

/* Sets bound and direction of @triple; looks for one that reaches @enough_m, and stops as soon as
 * there is one or it is plain that there is none. */
void trn_triple_bound (TrnBounder *bounder, TrnTriple *triple, double enough_m);

/* The same at one pose of the body (obstacle frame). */
void trn_triple_bound_at (const TrnBounder *bounder, TrnTriple *triple, const TrnPose *pose,
                          double enough_m, guint max_steps);

/* The bound of a pair of triangles along its direction. */
void trn_triple_bound_along (const TrnBounder *bounder, TrnTriple *triple);

/* The parts of a triple that is not of two triangles, their number returned: those of its larger
 * item, without bounds of their own. */
guint trn_triple_split (const TrnBounder *bounder, const TrnTriple *triple,
                        TrnTriple parts[TRN_ITEM_PARTS]);

static inline gboolean
trn_triple_is_triangles (const TrnTriple *triple)
{
  return (triple->a & triple->b & TRN_ITEM_TRIANGLE) != 0;
}
