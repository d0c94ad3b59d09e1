/* lean-line.h: the line that a load on two hooks leans about, or the tail point that it hangs from
 * alone, seen from its centre of gravity: quantities of a move, and their extremes over it. */
#pragma once

#include "extreme.h"
#include "hook-force.h"

/* To which the extremes in m are known. */
#define TRN_LEAN_WIDTH_M 1e-4

typedef enum
{
  TRN_LEAN_ASK_BELOW,  /* v, or b */
  TRN_LEAN_ASK_ASIDE,  /* e */
  TRN_LEAN_ASK_LEAN,   /* e/v */
  TRN_LEAN_ASK_SQUARE, /* (r/b)² */
  TRN_LEAN_ASK_PLUMB,  /* the CoG plumb below the line */
  TRN_LEAN_ASK_WAY,    /* along the level from one point to the CoG, toward the other */
  TRN_LEAN_ASK_ABOVE,  /* that point above the CoG */
  TRN_LEAN_ASK_HEIGHT, /* of the tail above the main point */
  TRN_LEAN_ASK_LEVEL,  /* from one to the other, level */
  TRN_LEAN_ASK_SHARE,  /* of the tail */
  TRN_LEAN_ASK_NEAR,   /* from one to the other, level, with the hooks out of level */
} TrnLeanAsk;

typedef struct
{
  const TrnCarried *carried;
  TrnInterval main_m, tail_m; /* what it hangs from, above its points, at least and at most */
  double away_m;              /* how far that may be from them, up or down */
  double across_m, along_m;   /* how far they may be beside, across the plane and along it */
  double both_m;              /* across, main and tail together */
  double pitch_m;             /* how far above them what pitches with the load is, of both */
  double tangent;             /* of the lean up to which all that is so */
  double turn_rad;            /* what hooks out of level turn the load by, either way */
  double
      slide_m; /* how far along the level what it hangs from may be from plumb above its points */
  double kept; /* what that leaves of the way from one to the other, a share; NAN: nothing */
  TrnLeanAsk ask;
  gboolean from_tail; /* of TRN_LEAN_ASK_WAY and TRN_LEAN_ASK_ABOVE */
  guint corner;
  gboolean is_turned; /* to @end of TURN_ENDS */
  guint end;
  gboolean is_high; /* of both ends of how much higher what the tail hangs from is, the greater */
} TrnLeanQuestion;

/* Over a span of the move, for all of the box of the CoG; of what is asked of the line for all that
 * it may be with its hooks out of level and what it hangs from anywhere that it may be. */
TrnExtremes
trn_lean_find_over (TrnLeanQuestion question, TrnLeanAsk what, TrnInterval span, double width);

/* Over all of the move. What the load hangs from follows from lift and move, so that whatever asks
 * about a move asks the same question: it is worked out once. */
TrnExtremes trn_lean_find (TrnLeanQuestion question, TrnLeanAsk what);
