/* swinging.h: how far starting, stopping and slewing make the load swing, where the plan says how
 * long its drives take to come up to speed. */
#pragma once

#include "lift-check.h"
#include "on-rope.h"

/* Of one move. */
struct _TrnSwinging
{
  double chord;  /* 2 sin (φ/2), φ how far from plumb the line from tip to load comes; 0: the load
                    does not swing; NAN: there is no bound */
  double before; /* likewise as it begins, with what holds it until then */
  TrnOnRope held_before;
  double growth, growth_before; /* of what the wind takes it aside (swing.c): >= 1 */
  /* Where it swings: the tip above the hook, and above the centre of gravity, at most; what the
   * load nods about above the centre of gravity, at least, times cos² of its slope, and how far it
   * is from the hook point of the lift; the tangent of that slope. */
  double rope_m, whole_m, nods_m, joint_m, slope;
  TrnInterval arm_m;   /* what the load nods about below its hook, at most; that below the joint
                          above, at least */
  double slack;        /* by what arm_m counts more, where a leg goes slack: >= 1 */
  double against;      /* what the load turns by against what holds it, as a share of chord */
  double heavier;      /* load and rigging, as a share of the load; 0: it does not swing */
  double throw_out_m;  /* of a slew, what its even rate takes the load outwards; 0 of others */
  const char *missing; /* input of the plan for want of which chord is NAN, static; else NULL */
  const char *missing_before; /* likewise of before */
};

/* One a move, where the plan says. */
void trn_swinging_make (TrnLiftCheck *check);

/* What it turns the load by in that move; NAN: there is no bound. */
double trn_swinging_rad (const TrnLiftCheck *check, guint move);

/* What it turns the load by against slings, block and beam that hold it; likewise. */
double trn_swinging_against_rad (const TrnLiftCheck *check, guint move);

/* What all that the wind takes aside in that move grows by, since the tip rises or falls: >= 1. */
double trn_swinging_growth (const TrnLiftCheck *check, guint move);

/* How far it takes the hook aside, and points of the load that are no farther than @far_m from the
 * hook point of the lift, or from the tail point where it hangs by that. */
double trn_swinging_hook_m (const TrnSwinging *swinging);
double trn_swinging_load_m (const TrnSwinging *swinging, double far_m);

/* "swing": m, how far a point of the load goes aside, the most in all moves. A number to be looked
 * at. */
TrnFinding trn_swinging_judge (const TrnLiftCheck *check);
