/* share-jet.h: the tail's share over a span of a motion (jet.h), so that its extremes can be
 * certified (motion/extreme.h). */
#pragma once

#include "jet.h"

/* As trn_share_make: of the weight, by the level line through both points. No value where the
 * points may be plumb over each other. */
TrnJet trn_share_tail_jet (const TrnJet3 *main, const TrnJet3 *tail, const TrnJet3 *cog);

/* The same after a turn of the load about a level axis square to that line, which raises the tail
 * where @tangent, of the angle, is above 0, and with the main and the tail line passing @aside_m of
 * their points, seen from main to tail. No value either where the turn may take the tail point
 * plumb below or above the main one or past it. */
TrnJet trn_share_tail_turned_jet (const TrnJet3 *main, const TrnJet3 *tail, const TrnJet3 *cog,
                                  TrnInterval tangent, const double aside_m[2]);

/* The same where the level line is known to keep the direction @along (level, of any length but 0),
 * as in an up-ending: a tighter enclosure. */
TrnJet trn_share_tail_along_jet (const TrnJet3 *main, const TrnJet3 *tail, const TrnJet3 *cog,
                                 TrnVec3 along);

/* How far the tail point is above the CoG: below 0 it may come to carry all. */
TrnJet trn_share_tail_above_cog_jet (const TrnJet3 *tail, const TrnJet3 *cog);
