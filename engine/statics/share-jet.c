/* The formula of share.c. With a fixed direction e numerator and denominator are each linear in the
 * places; with the direction of both points they are of second order, and the interval of the
 * square is cut at 0.
 *
 * Turned by δ about a level axis square to the line between the points, a vector that goes a along
 * that line and h up goes a cos δ − h sin δ along it. So the share becomes
 *   (c − k t)/(d − h t), t = tan δ,
 * c and d the level ways from the main point to CoG and tail point, k and h how far up they go. Its
 * derivative by t, (h c − k d)/(d − h t)², keeps its sign as long as d − h t does not vanish, so
 * that over all turns up to δ either way the extremes are at the ends. Where the main line passes x
 * and the tail line y aside of its point after the turn, the ways become c − k t + x and d − h t +
 * x − y. The formula of 0027/ND (Rev
 * 11.2, App. B.1.2) is this one, seen from the CoG. */
#include "share-jet.h"

static TrnJet
level_dot (TrnJet3 a, TrnJet3 b)
{
  return trn_jet_add (trn_jet_mul (a.x, b.x), trn_jet_mul (a.y, b.y));
}

TrnJet
trn_share_tail_jet (const TrnJet3 *main, const TrnJet3 *tail, const TrnJet3 *cog)
{
  TrnJet3 d = trn_jet3_sub (*tail, *main);
  TrnJet level2 = trn_jet_add (trn_jet_square (d.x), trn_jet_square (d.y));
  return trn_jet_div (level_dot (trn_jet3_sub (*cog, *main), d), level2);
}

TrnJet
trn_share_tail_turned_jet (const TrnJet3 *main, const TrnJet3 *tail, const TrnJet3 *cog,
                           TrnInterval tangent, const double aside_m[2])
{
  TrnJet3 d = trn_jet3_sub (*tail, *main), c = trn_jet3_sub (*cog, *main);
  TrnJet x, y, level = trn_jet_direction (d.x, d.y, &x, &y);
  TrnJet cog_arm = trn_jet_add (trn_jet_mul (c.x, x), trn_jet_mul (c.y, y));
  TrnJet arm = trn_jet_sub (level, trn_jet_scale_within (d.z, tangent));
  arm = trn_jet_shift (trn_jet_shift (arm, aside_m[0]), -aside_m[1]);
  if (!(arm.v.lo > 0))
    return trn_jet_none ();
  cog_arm = trn_jet_sub (cog_arm, trn_jet_scale_within (c.z, tangent));
  return trn_jet_div (trn_jet_shift (cog_arm, aside_m[0]), arm);
}

TrnJet
trn_share_tail_along_jet (const TrnJet3 *main, const TrnJet3 *tail, const TrnJet3 *cog,
                          TrnVec3 along)
{
  TrnJet3 d = trn_jet3_sub (*tail, *main), c = trn_jet3_sub (*cog, *main);
  TrnJet arm = trn_jet_add (trn_jet_scale (d.x, along.x), trn_jet_scale (d.y, along.y));
  TrnJet cog_arm = trn_jet_add (trn_jet_scale (c.x, along.x), trn_jet_scale (c.y, along.y));
  return trn_jet_div (cog_arm, arm);
}

TrnJet
trn_share_tail_above_cog_jet (const TrnJet3 *tail, const TrnJet3 *cog)
{
  return trn_jet_sub (tail->z, cog->z);
}
