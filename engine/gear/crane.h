/* crane.h: where the parts of a mobile crane are, from where its hook is seen from above.
 *
 * Seen in the plane through the slew axis and the hook: u out from the boom foot, z up from it,
 *
 *   e = (hook − centre)/radius                direction in which the boom points
 *   u = radius − foot_out                     of the tip, which is plumb above the hook
 *   D = |foot to tip|, z = √(D² − u²)         D does not change, the jib being fixed to the boom
 *
 * With boom L, jib J turned down by ω from the boom's line, seen from the foot along the boom
 *   tip = (A, −B),  A = L + J cos ω,  B = J sin ω,  D² = A² + B²,
 * so that the boom rises by ε = atan2 (B, A) more than the line from foot to tip:
 *   boom angle θ = acos (u/D) + ε
 *   knee = L (cos θ, sin θ) = L/D² (uA − zB, zA + uB),
 * since cos ε = A/D and sin ε = B/D. Of the two places that the boom can be in, the one with the
 * tip above the foot is meant. */
#pragma once

#include "frame.h"
#include "limb.h"
#include "plan-gear.h"

typedef struct
{
  const TrnGear *gear;
  TrnVec3 base; /* site */
  TrnJet hook_x, hook_y;
  TrnJet radius;   /* hook from the slew axis */
  TrnJet e_x, e_y; /* no value where the hook may be on the axis */
  TrnJet u, z;     /* of the tip from the foot; no z beyond reach */
} TrnCrane;

void trn_crane_stand (const TrnGear *gear, const TrnPose *site_from_gear, TrnJet hook_x,
                      TrnJet hook_y, TrnCrane *crane);

/* On the site. Of a crane without jib the knee is the tip. */
TrnJet3 trn_crane_foot (const TrnCrane *crane);
TrnJet3 trn_crane_knee (const TrnCrane *crane);
TrnJet3 trn_crane_tip (const TrnCrane *crane);

TrnJet trn_crane_boom_angle (const TrnCrane *crane);

/* The counterweight: 16 corners, those of its bottom first. */
void trn_crane_counterweight (const TrnCrane *crane, TrnJet3 corners[TRN_LIMB_CORNERS]);

/* How far at most the points move when a hook at a radius within @radius is moved by up to @off_m;
 * NAN where there is no bound. The derivation stands in crane.c. */
typedef struct
{
  double foot_m, knee_m, tip_m, counterweight_m;
} TrnCraneTolerance;
TrnCraneTolerance trn_crane_tolerance (const TrnGear *gear, TrnInterval radius, double off_m);
