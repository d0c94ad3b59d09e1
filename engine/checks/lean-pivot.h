/* lean-pivot.h: how far above its point what holds a load on two hooks counts, while the load
 * leans about the line through what it hangs from. */
#pragma once

#include "lift-check.h"

/* Legs that spread to both sides hold a load about the hook as long as it leans by no more than the
 * angle of this tangent, or of the lesser one by which they go aside. */
#define TRN_LEAN_SIDE_SHARE 0.1

/* Why that is not known. */
typedef struct
{
  const char *why;     /* static; NULL: it is known, or for no cause that has a name */
  guint sling;         /* of the hoist, whose point it lies with; G_MAXUINT: none */
  double found, limit; /* metres, of askew degrees; NAN: none */
} TrnLeanDoubt;
#define TRN_LEAN_DOUBT_BESIDE "beside"     /* a point beside below its hook */
#define TRN_LEAN_DOUBT_LINE "line"         /* the line through two points */
#define TRN_LEAN_DOUBT_MIDDLE "middle"     /* the middle of what hangs below a beam */
#define TRN_LEAN_DOUBT_BEAM_END "beam-end" /* a point beside below its end of a beam */
#define TRN_LEAN_DOUBT_ASKEW "askew"   /* neither along the line of both hooks nor square to it */
#define TRN_LEAN_DOUBT_NARROW "narrow" /* the ends of a beam, from below its hook */
#define TRN_LEAN_DOUBT_ROUND "round"   /* three slings or more, from below their hook */
#define TRN_LEAN_DOUBT_ONE_SIDE "one-side" /* two slings that go to one side only */
#define TRN_LEAN_DOUBT_LOW "low"           /* the hook is not above all points */
#define TRN_LEAN_DOUBT_NO_END "no-end"     /* nothing hangs from an end of a beam */
#define TRN_LEAN_DOUBT_MIXED "mixed"       /* slings past a beam */
#define TRN_LEAN_DOUBT_PLANE "plane"       /* the plane of both hooks turns past the load */

/* Metres above its points; NAN: not known. */
typedef struct
{
  double up_m;   /* the lowest that it may be, below 0 where the load hangs from lower points */
  double high_m; /* and the highest */
  double most_m; /* how far that may be from its points, up or down */
  double across_m,
      along_m;    /* how far it may be beside where it is drawn, along n and square to it */
  double pitch_m; /* what turns with the load along the line of both hooks is up to so far above */
  double tangent; /* of the greatest lean up to which it is that */
  TrnLeanDoubt doubt;
} TrnLeanPivot;

/* @n: level, of length 1 and square to the plumb plane through both points all through the move, or
 * 0 where that plane turns past the load; @point of the load is where @hoist has its hook over. */
TrnLeanPivot trn_lean_pivot (const TrnLiftCheck *check, guint move, const TrnHoist *hoist,
                             TrnVec3 point, TrnVec3 n);

/* How far its points are drawn from below its hook, where the load is kept from leaning; NAN: too
 * far, for which @doubt says why unless it is NULL. */
double trn_lean_pivot_beside (const TrnLiftCheck *check, guint move, const TrnHoist *hoist,
                              TrnVec3 point, TrnVec3 n, TrnLeanDoubt *doubt);

/* Where @hoist alone holds the load, which then leans any way. */
TrnLeanPivot
trn_lean_pivot_alone (const TrnLiftCheck *check, guint move, const TrnHoist *hoist, TrnVec3 point);
