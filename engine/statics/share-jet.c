/* The formula of share.c. With a fixed direction e numerator and denominator are each linear in the
 * places; with the direction of both points they are of second order, and the interval of the
 * square is cut at 0. */
#include "share-jet.h"

static TrnJet
level_dot (TrnJet3 a, TrnJet3 b)
{
  return trn_jet_add (trn_jet_mul (a.x, b.x), trn_jet_mul (a.y, b.y));
}

TrnShareArm
trn_share_arm_make (const TrnJet3 *main, const TrnJet3 *tail)
{
  TrnJet3 d = trn_jet3_sub (*tail, *main);
  TrnJet level2 = trn_jet_add (trn_jet_square (d.x), trn_jet_square (d.y));
  return (TrnShareArm){ *main, d, trn_jet_inverse (level2) };
}

TrnJet
trn_share_arm_tail_jet (const TrnShareArm *arm, const TrnJet3 *cog)
{
  return trn_jet_mul (level_dot (trn_jet3_sub (*cog, arm->main), arm->way), arm->inverse);
}

TrnJet
trn_share_tail_jet (const TrnJet3 *main, const TrnJet3 *tail, const TrnJet3 *cog)
{
  TrnShareArm arm = trn_share_arm_make (main, tail);
  return trn_share_arm_tail_jet (&arm, cog);
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
