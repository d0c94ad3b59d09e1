/* cover.h: what of a level rectangle is left when convex polygons are taken off it: which part of a
 * pad nothing carries. Exact but for rounding, which leaves more, not less. */
#pragma once

#include "ground.h"

#define TRN_COVER_CORNERS 8

/* Convex, counter-clockwise. */
typedef struct
{
  guint n;
  TrnLevelPoint p[TRN_COVER_CORNERS];
  TrnLevelPoint lo, hi; /* its box */
} TrnCoverPiece;

/* Of @n corners, TRN_COVER_CORNERS at most, with its box. */
TrnCoverPiece trn_cover_piece_make (const TrnLevelPoint *corners, guint n);
double trn_cover_area_m2 (const TrnCoverPiece *piece);

/* What is left of the rectangle from @lo to @hi, of TrnCoverPiece, apart from each other; owned.
 * How @polygons overlap does not matter. Beside these at most @lost_m2 is left, of slivers that are
 * no piece. */
GArray *trn_cover_left (TrnLevelPoint lo, TrnLevelPoint hi, const TrnCoverPiece *polygons, guint n,
                        double *lost_m2);
