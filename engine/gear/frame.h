/* frame.h: from the frame of a gear to the site and back. Gear has a heading only, so that heights
 * are just moved. */
#pragma once

#include "jet.h"
#include "pose.h"

static inline TrnJet3
trn_frame_to_site (const TrnPose *site_from_gear, TrnJet3 a)
{
  const double (*m)[3] = site_from_gear->turn.m;
  TrnVec3 p = site_from_gear->position;
  return (TrnJet3){
    trn_jet_shift (trn_jet_add (trn_jet_scale (a.x, m[0][0]), trn_jet_scale (a.y, m[0][1])), p.x),
    trn_jet_shift (trn_jet_add (trn_jet_scale (a.x, m[1][0]), trn_jet_scale (a.y, m[1][1])), p.y),
    trn_jet_shift (a.z, p.z),
  };
}

static inline TrnJet3
trn_frame_from_site (const TrnPose *site_from_gear, TrnJet3 a)
{
  const double (*m)[3] = site_from_gear->turn.m;
  TrnVec3 p = site_from_gear->position;
  TrnJet x = trn_jet_shift (a.x, -p.x), y = trn_jet_shift (a.y, -p.y);
  return (TrnJet3){
    trn_jet_add (trn_jet_scale (x, m[0][0]), trn_jet_scale (y, m[1][0])),
    trn_jet_add (trn_jet_scale (x, m[0][1]), trn_jet_scale (y, m[1][1])),
    trn_jet_shift (a.z, -p.z),
  };
}
