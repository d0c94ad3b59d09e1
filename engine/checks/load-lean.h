/* load-lean.h: of the check `load-share`: by how much a load leans that hangs from its tail, alone
 * or with the main hook, and whether it can turn over. */
#pragma once

#include "hook-force.h"
#include "lean-pivot.h"

/* The tail must hold in that move. */
TrnFinding trn_load_lean_judge (const TrnLiftCheck *check, guint move);

/* Where that is not known for what holds the load ("lean/beam"): why, and of which hoist. */
TrnLeanDoubt trn_load_lean_doubt (const TrnLiftCheck *check, guint move, const TrnHoist **hoist);
/* By how much points that are drawn beside what holds them ("lean/beside") move the load until they
 * are plumb, at most. */
double trn_load_lean_moved_m (const TrnLiftCheck *check, guint move);

/* What a load that hangs with its tail leans by from how it is drawn, over the move and wherever
 * its CoG is in its box, at most; 0 where its tail is let go or held from below. It may be more
 * than the tolerance of tilt, which covers it by how far points go (load-lean.c). NAN: not known.
 */
double trn_load_lean_most_rad (const TrnLiftCheck *check, guint move);

/* How far that takes a point of the load, or one that the rigging holds it by, at most. NAN: not
 * known. Both hooks must hold. */
double trn_load_lean_takes_m (const TrnLiftCheck *check, guint move);

/* By how much the share of a hook is another than as drawn at most, where the load leans or its
 * points are beside; 0 where they do not. NAN: not known. */
double trn_load_lean_shares (const TrnLiftCheck *check, guint move);

/* Where both hooks hold a load, over a span of a move and wherever the CoG is in its box; NAN: not
 * known. Of main and tail, seen from what they hold it by, up_m above their points at most. */
typedef struct
{
  double plumb_m;    /* the line between them plumb above the CoG, at least */
  double way_m[2];   /* along the level from one to the CoG, toward the other, at least */
  double above_m[2]; /* of one above the CoG, at least */
  double height_m;   /* of one above the other, or of their points, at most */
  TrnInterval tail;  /* its share of the weight */
  double up_m;
  double tangent; /* of the greatest lean up to which that is so */
} TrnHungBetween;

/* Both hooks must hold, and the CoG be given. */
TrnHungBetween trn_load_lean_between (const TrnLiftCheck *check, guint move, TrnInterval span);
